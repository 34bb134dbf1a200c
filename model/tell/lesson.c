/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lesson.c - see tell/lesson.h.
 *
 * Figures that aren't of a pile: a kilogram of dry food used up sets 15 to 20 MJ free [memory], to
 * evaporate a kilogram of water takes 2.4 MJ [memory], and what follows from both.
 */
#include "tell/lesson.h"
#include "ask/vary.h"
#include "tell/tale.h"

static const double BOOK_LEAST_MJ = 15, BOOK_MOST_MJ = 20, STEAM_MJ = 2.4;

static void say_care(FILE *out, const struct lesson_tale *tale)
{
    const struct able *able = &tale->found->asked->able;
    struct tale season = {.record = able->record,
                          .members = able->members,
                          .scenario = tale->scenario,
                          .plan = tale->plan};
    bool applies[TALE_CAUTIONS];
    for (int i = 0; i < TALE_CAUTIONS; i++)
        applies[i] = tale_caution_applies(&season, (enum tale_caution)i);
    struct saying care = tale_care(applies);
    if (*care.text)
        phrase_line(out, "care", "%s", care.text);
}

void lesson_head(FILE *out, const struct lesson_tale *tale, const struct phrase_style *style)
{
    (void)style;
    const struct lesson_found *f = tale->found;
    phrase_line(out, NULL, "Why does a pile get warm? Forty minutes with a class at %s.",
                tale->scenario->name);
    phrase_line(
        out, "plan", "%s%s; %d possible piles of each experiment, in brackets where 8 in 10 lie",
        tale->scenario->plan[tale->plan].name, tale->plan_named ? "" : " (none named)", f->members);
    phrase_line(
        out, "bring",
        "thermometer, ice water to try it in, bucket, three jars, paper and pencils, the log "
        "sheet; figures: midden lesson %s --plot pictures",
        tale->file);
    say_care(out, tale);
}

void lesson_before(FILE *out, enum lesson_step step)
{
    const struct lesson_row *row = &lesson_rows[step];
    fputc('\n', out);
    phrase_line(out, NULL, "%d-%d min: %s", row->from_min, row->to_min, row->title);
    phrase_line(out, "do", "%s", row->does);
    phrase_line(out, "ask", "%s", row->asks);
    phrase_line(out, "hear", "perhaps: %s", row->listen);
}

void lesson_reveal(FILE *out, const struct lesson_tale *tale, enum lesson_step step,
                   const char *guess, const struct phrase_style *style)
{
    if (guess && *guess)
        phrase_line(out, "guess", "%s", guess);
    phrase_line(out, "shows", "%s", lesson_shows(tale, step, style).text);
    phrase_line(out, "pile", "%s", lesson_rows[step].real);
}

void lesson_tail(FILE *out, const struct lesson_tale *tale, const struct phrase_style *style)
{
    const struct lesson_found *f = tale->found;
    fputc('\n', out);
    phrase_line(out, NULL, "Not to be said, and what is so:");
    phrase_line(
        out, "fire",
        "\"Small life makes fire.\" Nothing burns: it eats, and eating warms, as it does us; at "
        "most %s here.",
        phrase_temp_span(style, f->asked_peak_K).text);
    phrase_line(
        out, "germs",
        "\"Heat kills all germs.\" Left alone, at most %s of the dry matter is above 55 %sC at "
        "once; the rest is cooler then.",
        lesson_shows_percent(f->hottest_over_55_share).text, style->utf8 ? "°" : "deg");
    phrase_line(
        out, "fork",
        "\"Turning makes heat.\" The turn itself cools: the middle falls in %d of %d piles. It "
        "brings air and new food inside.",
        f->turn_drops, f->turn_pairs);
    fputc('\n', out);
    phrase_line(out, NULL, "Sums for the board:");
    phrase_line(out, "heat", "1 kg of dry food used up: %.0f to %.0f MJ as books have it; here %s.",
                BOOK_LEAST_MJ, BOOK_MOST_MJ, lesson_shows_count(f->heat_MJ_per_kg).text);
    phrase_line(
        out, "steam",
        "1 kg of water into steam takes %.1f MJ, so 1 kg used up could dry %.0f to %.0f L. Here "
        "%s L went; the other heat took other ways, or rain came back.",
        STEAM_MJ, BOOK_LEAST_MJ / STEAM_MJ, BOOK_MOST_MJ / STEAM_MJ,
        phrase_span(f->dried_kg_per_kg, 1).text);
    phrase_line(out, "cube",
                "surface over volume is 6 / side: %.0f per metre at 0.6 m, %.0f at 1.2 m",
                vary_cube_surface(0.6), vary_cube_surface(1.2));
    phrase_line(out, "sure", "forecasts, not records: a model of this pile%s; --draw %lld%s",
                tale_weather_drawn(tale->scenario) ? ", in weather made up from its normals" : "",
                tale->draw, phrase_unread(tale->scenario));
}
