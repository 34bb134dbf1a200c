/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/report.c - see tell/report.h. */
#include "tell/report.h"
#include "ask/agenda.h"
#include "ask/asked.h"
#include "ask/due.h"
#include "tell/excerpt.h"
#include "tell/hygiene.h"
#include "tell/logsheet.h"
#include "tell/look.h"
#include "tell/page.h"
#include "tell/range.h"
#include "tell/ready.h"
#include "tell/rivals.h"
#include "tell/steps.h"
#include "tell/text.h"
#include "tell/yield.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double MINUTE_S = 60.0, MEGA = 1e6;
enum { WEEK = 7 };

static bool no_room(struct trouble *why)
{
    return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the report");
}

/* ---- temperatures ---- */

enum of_day { MIDDLE, DEEP_30CM, HAND_DEEP, AIR };

static double ask_day(const struct record *record, int row, int which)
{
    const struct record_day *day = &record->day[row];
    const double of_day[] = {day->middle_K, day->deep_30cm_K, day->hand_deep_K, day->air_K};
    return of_day[which];
}

static void put_weeks(FILE *out, const struct report *r)
{
    static const char *const places[] = {"middle", "30 cm in", "a hand deep", "outside air"};
    const struct scenario *scenario = r->tale.scenario;
    fprintf(out, "<details>\n<summary>The numbers, a day a week</summary>\n<table class=\"list\">\n"
            "<caption>°%s, means of the day; median, and in brackets where 8 in 10 possible piles lie"
            "</caption>\n<thead><tr><th scope=\"col\">day</th>", logsheet_unit(scenario, 2));
    for (int i = 0; i < 4; i++)
        fprintf(out, "<th scope=\"col\">%s</th>", places[i]);
    fputs("</tr></thead>\n<tbody>\n", out);
    for (int row = 0; row < r->plates.typical->days; row += WEEK) {
        fprintf(out, "<tr><th scope=\"row\">%s, day %d</th>",
                phrase_day(scenario->start + row).text, row + 1);
        for (int i = 0; i < 4; i++)
            fprintf(out, "<td data-label=\"%s\">%s</td>", places[i],
                    logsheet_temp(scenario, range_of(&r->tale, ask_day, row, i)).text);
        fputs("</tr>\n", out);
    }
    fputs("</tbody>\n</table>\n</details>\n", out);
}

static bool put_temperature(FILE *out, const struct report *r, const struct margin *said,
                            struct trouble *why)
{
    excerpt_heading(out, "temperature", "How warm it gets");
    excerpt_lines(out, said, "heat");
    fputs("<figure>\n", out);
    if (!plates_embed(out, &r->plates, PLATE_TEMPERATURE, 0, why))
        return false;
    fprintf(out, "<figcaption>Mean of each day; lines are medians of %d possible piles, the shade is "
            "where 8 in 10 of them have their middle. Day 1 is %s.%s</figcaption>\n</figure>\n",
            r->tale.members, phrase_date(r->tale.scenario->start).text,
            r->tale.scenario->readings ? " Large marks are your own readings, as the thermometer "
                                         "showed them." : "");
    put_weeks(out, r);
    return true;
}

static bool put_sections(FILE *out, const struct report *r, struct trouble *why)
{
    const struct record *central = r->plates.central;
    excerpt_heading(out, "sections", "Through the pile");
    fputs("<p>A cut from wall to wall through the middle, at the end of some days. It is that of the "
          "central pile, whose unknowns all have their usual values: one of many possible ones.</p>\n"
          "<div class=\"days\" id=\"days\">\n", out);
    for (int i = 0; i < central->pictures; i++) {
        int day = central->picture[i].day;
        fprintf(out, "<figure data-day=\"day %d, %s\">\n", day,
                phrase_date(r->tale.scenario->start + day - 1).text);
        if (!plates_embed(out, &r->plates, PLATE_SECTION, i, why))
            return false;
        fputs("</figure>\n", out);
    }
    fputs("</div>\n", out);
    fputs(look_slider, out);
    excerpt_heading(out, "water", "Water and air");
    fputs("<figure>\n", out);
    if (!plates_embed(out, &r->plates, PLATE_WATER, 0, why))
        return false;
    fprintf(out, "<figcaption>At each day’s end; medians of %d possible piles. Below 5 %% oxygen "
            "in the pores decay runs short of air (common practice).</figcaption>\n</figure>\n",
            r->tale.members);
    return true;
}

/* ---- heat ---- */

static struct phrase share_said(struct span share)
{
    return phrase_ranged(phrase_share(share.low), phrase_share(share.mid), phrase_share(share.high));
}

static bool put_heat(FILE *out, const struct report *r, const struct margin *said,
                     struct trouble *why)
{
    excerpt_heading(out, "budget", "Where the heat goes");
    excerpt_lines(out, said, "why");
    fputs("<figure>\n", out);
    if (!plates_embed(out, &r->plates, PLATE_HEAT, 0, why))
        return false;
    fprintf(out, "<figcaption>Mean of each day, and of %d possible piles. A watt is a joule a second."
            "</figcaption>\n</figure>\n<table>\n<caption>Of all the heat that left (decay gave %s MJ)"
            "</caption>\n<thead><tr><th scope=\"col\">by</th><th scope=\"col\">share</th></tr></thead>\n"
            "<tbody>\n", r->tale.members,
            phrase_span(range_of(&r->tale, asked_decay_J, 0, 0), 1.0 / MEGA).text);
    for (int i = 0; i < ASKED_WAYS; i++)
        fprintf(out, "<tr><th scope=\"row\">%s</th><td>%s</td></tr>\n", asked_way_words[i],
                share_said(range_of(&r->tale, asked_way, i, 0)).text);
    fputs("</tbody>\n</table>\n", out);
    return true;
}

/* ---- ready, hygiene ---- */

static bool put_ready(FILE *out, const struct report *r, const struct phrase_style *style,
                      struct trouble *why)
{
    struct margin said;
    excerpt_heading(out, "ready", "When it is ready, and how much there is");
    if (!margin_begin(&said))
        return no_room(why);
    ready_lines(said.out, &r->tale);
    yield_line(said.out, &r->tale, style, false);
    yield_more(said.out, &r->tale, style);
    ready_try(said.out, &r->tale);
    bool good = margin_end(&said) || no_room(why);
    if (good)
        excerpt_lines(out, &said, "ready have left sieve feeds do");
    margin_free(&said);
    return good;
}

static bool put_hygiene(FILE *out, const struct report *r, const struct phrase_style *style,
                        struct trouble *why)
{
    struct margin said;
    excerpt_heading(out, "hygiene", "Weed seeds, germs and rules of heat");
    if (!margin_begin(&said))
        return no_room(why);
    hygiene_lines(said.out, &r->tale, style);
    bool good = margin_end(&said) || no_room(why);
    if (good) {
        excerpt_lines(out, &said, "seeds germs wait days log");
        fputs("<h3>Published rules</h3>\n", out);
        excerpt_lines(out, &said, "rules");
        fputs("<details>\n<summary>Each rule with its source</summary>\n", out);
        excerpt_lines(out, &said, "rule");
        fputs("</details>\n", out);
    }
    margin_free(&said);
    return good;
}

/* ---- work ---- */

static void put_cells(FILE *out, struct span person_s, struct span water_kg, struct span lifted_kg)
{
    fprintf(out, "<td data-label=\"minutes of one person\">%s</td>",
            phrase_span(person_s, 1.0 / MINUTE_S).text);
    fprintf(out, "<td data-label=\"water, L\">%s</td><td data-label=\"lifted, kg\">%s</td></tr>\n",
            phrase_span(water_kg, 1.0).text, phrase_span(lifted_kg, 1.0).text);
}

static void put_task(FILE *out, const struct due_pile *pile, const struct phrase_style *style,
                     const struct due *due, const struct due_task *task)
{
    const struct scenario *scenario = pile->scenario;
    struct saying name = steps_name(scenario, style, task->event, due->from, task->into);
    date_count date = scenario->start + due->day;
    fprintf(out, "<tr><th scope=\"row\">%s %s</th><td data-label=\"what\">",
            logsheet_weekday(date), phrase_day(date).text);
    page_text(out, name.text);
    if (task->did < pile->members)
        fprintf(out, ", %s", phrase_chance(task->chance).text);
    fputs("</td>", out);
    put_cells(out, task->person_s, task->water_kg, task->lifted_kg);
}

static void put_day(FILE *out, const struct due_pile *pile, const struct phrase_style *style, int day)
{
    struct due due;
    due_on(&due, pile, day);
    if (due.build) {
        fprintf(out, "<tr><th scope=\"row\">%s %s</th><td data-label=\"what\">build</td>",
                logsheet_weekday(pile->scenario->start + day),
                phrase_day(pile->scenario->start + day).text);
        put_cells(out, due.person_s, due.water_kg, due.lifted_kg);
    }
    for (int i = 0; i < due.tasks; i++)
        if (due.task[i].did > 0)
            put_task(out, pile, style, &due, &due.task[i]);
}

static bool put_work(FILE *out, const struct report *r, const struct margin *said,
                     const struct phrase_style *style, struct trouble *why)
{
    const struct scenario *scenario = r->tale.scenario;
    struct due_pile pile = {.scenario = scenario, .plan = r->tale.plan, .param = r->param,
                            .record = r->tale.record, .members = r->tale.members,
                            .room = r->tale.room, .last_day = scenario->last_day};
    struct agenda_row *row = calloc((size_t)agenda_most(scenario), sizeof *row);
    if (!row)
        return no_room(why);
    int rows = agenda_make(row, scenario, r->tale.plan, -1);
    excerpt_heading(out, "work", "The work");
    excerpt_lines(out, said, "plan time");
    fputs("<table class=\"list\">\n<caption>What is done when; of what a rule decides, in how many of the "
          "possible piles</caption>\n<thead><tr><th scope=\"col\">day</th><th scope=\"col\">what</th>"
          "<th scope=\"col\">minutes of one person</th><th scope=\"col\">water, L</th>"
          "<th scope=\"col\">lifted, kg</th></tr></thead>\n<tbody>\n", out);
    for (int i = 0; i < rows; i++)
        if (row[i].kind != AGENDA_READ && row[i].kind != AGENDA_PEAK &&
            (i == 0 || row[i].day != row[i - 1].day))
            put_day(out, &pile, style, row[i].day);
    fputs("</tbody>\n</table>\n", out);
    free(row);
    return true;
}

/* ---- the end ---- */

/* The worst of all members. */
static double worst_balance(const struct tale *tale)
{
    double worst = 0.0;
    for (int m = 0; m < tale->members; m++)
        for (int b = 0; b < RECORD_BALANCES; b++)
            worst = fmax(worst, tale->record[m].balance[b]);
    return worst;
}

static void put_method(FILE *out, const struct report *r)
{
    const struct tale *tale = &r->tale;
    const struct scenario *scenario = tale->scenario;
    excerpt_heading(out, "method", "How this was computed");
    fprintf(out, "<p>By midden %s, which follows decay, heat, water, oxygen and air through the pile in space "
            "and time. Everything here is a forecast, not a record.</p>\n<ul>\n", tale->version);
    fprintf(out, "<li>%d possible piles that all fit what is said of this one (draw %lld)",
            tale->members, tale->draw);
    if (tale->failures)
        fprintf(out, "; %d more could not be computed", tale->failures);
    fputs(". What isn’t known exactly differs from one to the next: how full and how wet the "
          "vessels were, the material, the weather, and the constants of the model.</li>\n<li>", out);
    page_text(out, text_sky(tale).text);
    fprintf(out, "</li>\n<li>8 in 10 possible piles lie within a bracket or a shade; chances are told in "
            "tenths</li>\n<li>carbon, nitrogen, water, energy and seeds were weighed in every pile: what "
            "came in less what left differs from what stayed by at most %.0e of what passed</li>\n</ul>\n",
            worst_balance(tale));
    if (scenario->assumed)
        fputs("<h3>Assumed, since the scenario doesn’t say</h3>\n<ul>\n", out);
    for (int i = 0; i < scenario->assumed; i++) {
        page_element(out, "li", scenario->assumption[i]);
        fputc('\n', out);
    }
    if (scenario->assumed)
        fputs("</ul>\n", out);
}

static void put_again(FILE *out, const struct report *r)
{
    excerpt_heading(out, "again", "To compute it again");
    fprintf(out, "<p>With midden %s this gives the same numbers again:</p>\n<pre>", r->tale.version);
    page_text(out, r->command);
    fputs("</pre>\n", out);
    if (r->source) {
        fputs("<details>\n<summary>The scenario</summary>\n<pre>", out);
        for (const char *at = r->source, *end; *at; at = end) {
            char line[512];
            size_t length = strcspn(at, "\n");
            length = length < sizeof line ? length : sizeof line - 1;
            memcpy(line, at, length);
            line[length] = '\0';
            page_text(out, line);
            end = at + length;
            if (*end == '\n') {
                fputc('\n', out);
                end++;
            }
        }
        fputs("</pre>\n</details>\n", out);
    }
}

static void put_head(FILE *out, const struct report *r)
{
    const struct scenario *scenario = r->tale.scenario;
    page_begin(out, "Report", scenario->name, look_styles);
    fputs("<main>\n<header>\n", out);
    page_element(out, "h1", scenario->name);
    fputs("\n<p class=\"from\">plan: ", out);
    page_text(out, scenario->plan[r->tale.plan].name);
    fprintf(out, "; %s to %s; a forecast%s</p>\n</header>\n", phrase_date(scenario->start).text,
            phrase_date(scenario->start + scenario->last_day).text, phrase_unread(scenario));
}

static bool put_all(FILE *out, const struct report *r, const struct margin *said,
                    const struct phrase_style *style, struct trouble *why)
{
    put_head(out, r);
    fputs("<section class=\"answer\" aria-label=\"The answer\">\n", out);
    excerpt_lines(out, said, NULL);
    excerpt_lines(out, said, "plan have day do");
    fputs("</section>\n", out);
    if (!put_temperature(out, r, said, why) || !put_sections(out, r, why) ||
        !put_heat(out, r, said, why) || !put_ready(out, r, style, why) ||
        !put_hygiene(out, r, style, why) || !rivals_write(out, r->comparison, why) ||
        !put_work(out, r, said, style, why))
        return false;
    excerpt_heading(out, "care", "Take care");
    excerpt_cautions(out, &r->tale);
    put_method(out, r);
    put_again(out, r);
    fputs("</main>\n", out);
    page_end(out);
    return true;
}

bool report_write(FILE *out, const struct report *r, struct trouble *why)
{
    struct margin said;
    struct phrase_style style = {true, r->tale.scenario->show, r->tale.scenario->bucket_m3};
    if (!plates_accept(&r->plates, why))
        return false;
    if (!margin_begin(&said))
        return no_room(why);
    text_margin(said.out, &r->tale, &style);
    bool good = margin_end(&said) ? put_all(out, r, &said, &style, why) : no_room(why);
    margin_free(&said);
    return good;
}
