/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/report.c - see tell/report.h. */
#include "tell/report.h"
#include "ask/agenda.h"
#include "ask/asked.h"
#include "ask/due.h"
#include "tell/hygiene.h"
#include "tell/logsheet.h"
#include "tell/margin.h"
#include "tell/page.h"
#include "tell/range.h"
#include "tell/ready.h"
#include "tell/steps.h"
#include "tell/text.h"
#include "tell/yield.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double MINUTE_S = 60.0, MEGA = 1e6;
enum { WEEK = 7 };

/* Figures keep a white ground in the dark too, since their colours are chosen for it. A table whose
 * rows would be too wide for a phone becomes a list, each cell after its heading. */
const char report_styles[] =
    ":root { color-scheme: light dark; --ink: #1d1d1b; --paper: #fcfbf8; --line: #c8c4b9;\n"
    "  --soft: #57534a; }\n"
    "@media (prefers-color-scheme: dark) { :root { --ink: #edece7; --paper: #181917;\n"
    "  --line: #5a5a52; --soft: #b9b6aa; } }\n"
    "* { box-sizing: border-box; }\n"
    "body { margin: 0; background: var(--paper); color: var(--ink);\n"
    "  font: 1rem/1.5 \"DejaVu Sans\", Verdana, sans-serif; overflow-wrap: break-word; }\n"
    "main { max-width: 44rem; margin: 0 auto; padding: 1rem; }\n"
    "h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .3rem; }\n"
    "h2 { font-size: 1.2rem; margin: 2.2rem 0 .5rem; padding-top: .6rem;\n"
    "  border-top: 1px solid var(--line); }\n"
    "h3 { font-size: 1rem; margin: 1.2rem 0 .4rem; }\n"
    ".from, figcaption, .note { color: var(--soft); font-size: .9rem; }\n"
    ".answer p { font-size: 1.15rem; margin: .6rem 0; }\n"
    "dl { display: grid; grid-template-columns: 4.2rem 1fr; gap: .3rem .8rem; margin: .8rem 0; }\n"
    "dt { font-weight: bold; color: var(--soft); }\n"
    "dt { grid-column: 1; } dd { grid-column: 2; margin: 0; min-width: 0; }\n"
    "figure { margin: 1rem 0; padding: .5rem; background: #fff; border: 1px solid var(--line); }\n"
    "figure svg { display: block; width: 100%; height: auto; max-width: 40rem; margin: 0 auto; }\n"
    "figure figcaption { color: #444; padding-top: .4rem; }\n"
    ".days { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr));\n"
    "  gap: .8rem; }\n"
    ".days figure { margin: 0; }\n"
    "@media screen { .one { display: block; } .one figure { display: none; max-width: 30rem;\n"
    "  margin: 0 auto; } .one figure.shown { display: block; } }\n"
    ".slider { display: block; width: 100%; margin: .6rem 0; accent-color: #b04a00; }\n"
    "table { border-collapse: collapse; width: 100%; font-size: .92rem; margin: .8rem 0; }\n"
    "caption { text-align: left; color: var(--soft); padding-bottom: .3rem; }\n"
    "th, td { text-align: left; vertical-align: top; padding: .3rem .5rem .3rem 0;\n"
    "  border-bottom: 1px solid var(--line); font-weight: normal; }\n"
    "thead th { font-weight: bold; } tbody th { white-space: nowrap; }\n"
    "tr.taken th, tr.taken td { font-weight: bold; }\n"
    "summary { cursor: pointer; padding: .4rem 0; }\n"
    "pre { white-space: pre-wrap; overflow-wrap: anywhere; font-size: .85rem; margin: .5rem 0;\n"
    "  padding: .6rem; border: 1px solid var(--line); }\n"
    "li { margin: .3rem 0; }\n"
    "@media (max-width: 34rem) { .list thead { position: absolute; left: -99rem; }\n"
    "  .list tr { display: block; padding: .4rem 0; border-bottom: 1px solid var(--line); }\n"
    "  .list th, .list td { display: block; border: 0; padding: .1rem 0; }\n"
    "  .list td::before { content: attr(data-label) \": \"; color: var(--soft); }\n"
    "  dl { grid-template-columns: 1fr; gap: .1rem; }\n"
    "  dd { grid-column: 1; margin-bottom: .4rem; } }\n"
    "@page { margin: 14mm; }\n"
    "@media print { :root { --ink: #000; --paper: #fff; --line: #999; --soft: #333; }\n"
    "  html { font-size: 10pt; } main { max-width: none; padding: 0; }\n"
    "  figure, tr, li, dd, pre { break-inside: avoid; } h2, h3, caption { break-after: avoid; }\n"
    "  figure svg { max-width: 130mm; max-height: 112mm; }\n"
    "  .days { grid-template-columns: 1fr 1fr 1fr; gap: 3mm; } .slider, .pick { display: none; }\n"
    "  .days svg { max-height: none; }\n"
    "  .answer p { font-size: 11.5pt; } thead { display: table-header-group; } }\n";

/* One day at a time, by a slider; without it all days stand one after the other. */
static const char slider[] =
    "<script>\n"
    "(function () {\n"
    "  var list = document.getElementById('days'), figure = list.querySelectorAll('figure');\n"
    "  if (figure.length < 2) { return; }\n"
    "  var label = document.createElement('label'), range = document.createElement('input');\n"
    "  label.className = 'pick'; label.htmlFor = 'day'; label.textContent = 'Which day';\n"
    "  range.id = 'day'; range.type = 'range'; range.className = 'slider';\n"
    "  range.min = 0; range.max = figure.length - 1; range.step = 1; range.value = 1;\n"
    "  function show() {\n"
    "    for (var i = 0; i < figure.length; i++) {\n"
    "      figure[i].className = i === Number(range.value) ? 'shown' : '';\n"
    "    }\n"
    "    range.setAttribute('aria-valuetext', figure[range.value].dataset.day);\n"
    "  }\n"
    "  range.addEventListener('input', show);\n"
    "  list.parentNode.insertBefore(label, list); list.parentNode.insertBefore(range, list);\n"
    "  list.className = 'days one';\n"
    "  show();\n"
    "}());\n"
    "</script>\n";

/* ---- what the tellers say ---- */

static bool among(const char *label, const char *labels)
{
    size_t length = strlen(label);
    for (const char *at = labels; length && (at = strstr(at, label)); at += length)
        if ((at == labels || at[-1] == ' ') && (at[length] == ' ' || !at[length]))
            return true;
    return false;
}

int report_lines(FILE *out, const struct margin *margin, const char *labels)
{
    int count = 0;
    const char *before = "";
    for (int i = 0; i < margin->lines; i++) {
        const struct margin_line *line = &margin->line[i];
        if (labels ? !among(line->label, labels) : *line->label)
            continue;
        if (!labels) {
            page_element(out, "p", line->text);
        } else {
            fputs(count ? "" : "<dl>\n", out);
            if (strcmp(before, line->label) != 0)
                page_element(out, "dt", line->label);
            page_element(out, "dd", line->text);
            before = line->label;
        }
        fputc('\n', out);
        count++;
    }
    if (labels && count)
        fputs("</dl>\n", out);
    return count;
}

static bool no_room(struct trouble *why)
{
    return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the report");
}

static void heading(FILE *out, const char *id, const char *text)
{
    fprintf(out, "<h2 id=\"%s\">%s</h2>\n", id, text);
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
    heading(out, "temperature", "How warm it gets");
    report_lines(out, said, "heat");
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
    heading(out, "sections", "Through the pile");
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
    fputs(slider, out);
    heading(out, "water", "Water and air");
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
    heading(out, "budget", "Where the heat goes");
    report_lines(out, said, "why");
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
    heading(out, "ready", "When it is ready, and how much there is");
    if (!margin_begin(&said))
        return no_room(why);
    ready_lines(said.out, &r->tale);
    yield_line(said.out, &r->tale, style);
    yield_more(said.out, &r->tale, style);
    ready_try(said.out, &r->tale);
    bool good = margin_end(&said) || no_room(why);
    if (good)
        report_lines(out, &said, "ready have left sieve feeds do");
    margin_free(&said);
    return good;
}

static bool put_hygiene(FILE *out, const struct report *r, const struct phrase_style *style,
                        struct trouble *why)
{
    struct margin said;
    heading(out, "hygiene", "Weed seeds, germs and rules of heat");
    if (!margin_begin(&said))
        return no_room(why);
    hygiene_lines(said.out, &r->tale, style, true);
    bool good = margin_end(&said) || no_room(why);
    if (good) {
        report_lines(out, &said, "seeds germs wait days log");
        fputs("<h3>Published rules</h3>\n", out);
        report_lines(out, &said, "rules");
        fputs("<details>\n<summary>Each rule with its source</summary>\n", out);
        report_lines(out, &said, "rule");
        fputs("</details>\n", out);
    }
    margin_free(&said);
    return good;
}

/* ---- plans ---- */

static void put_plan_rows(FILE *out, const struct comparison *c, const int *order, int best)
{
    for (int i = 0; i < c->count; i++) {
        struct compare_row row = compare_row(c, order[i]);
        fprintf(out, "<tr%s>", order[i] == best ? " class=\"taken\"" : "");
        page_element(out, "th scope=\"row\"", row.plan.text);
        const struct phrase *cell[] = {&row.ready, &row.chance, &row.work, &row.water, &row.hot};
        static const char *const label[] = {"ready", "in time", "work", "water", "above 55 °C"};
        for (int k = 0; k < 5; k++)
            if (k != 1 || c->contender[0].asked->need.is)
                fprintf(out, "<td data-label=\"%s\">%s</td>", label[k], cell[k]->text);
        fputs("</tr>\n", out);
    }
}

static void put_plan_table(FILE *out, const struct comparison *c, const int *order)
{
    const struct scenario *asked = c->contender[0].asked;
    fprintf(out, "<table class=\"list\">\n<caption>The same %d possible piles under each plan; days "
            "with the middle above 55 °C</caption>\n<thead><tr><th scope=\"col\">plan</th>"
            "<th scope=\"col\">ready for %s</th>", c->members,
            ready_use_word[outcome_use(asked)]);
    if (asked->need.is)
        fprintf(out, "<th scope=\"col\">by %s</th>", phrase_day(asked->need.by).text);
    fputs("<th scope=\"col\">work</th><th scope=\"col\">water</th><th scope=\"col\">&gt;55 °C</th></tr>"
          "</thead>\n<tbody>\n", out);
    put_plan_rows(out, c, order, compare_choice(c->standing, c->contender, c->count));
    fputs("</tbody>\n</table>\n", out);
}

static bool put_plans(FILE *out, const struct report *r, struct trouble *why)
{
    const struct comparison *c = r->comparison;
    struct margin said;
    if (!c || c->count < 2)
        return true;
    int *order = calloc((size_t)c->count, sizeof *order);
    if (!order || !margin_begin(&said)) {
        free(order);
        return no_room(why);
    }
    heading(out, "plans", "The plans side by side");
    compare_order(order, c->standing, c->count);
    compare_sentence(said.out, c);
    compare_against(said.out, c, "why");
    bool good = margin_end(&said) || no_room(why);
    if (good) {
        report_lines(out, &said, NULL);
        put_plan_table(out, c, order);
        report_lines(out, &said, "why");
        fputs("<p class=\"note\">Differences are taken pile by pile; never ready counts as the day "
              "after the end.</p>\n", out);
    }
    margin_free(&said);
    free(order);
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
    heading(out, "work", "The work");
    report_lines(out, said, "plan time");
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

void report_cautions(FILE *out, const struct tale *tale)
{
    fputs("<ul>\n", out);
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(tale, (enum tale_caution)i)) {
            page_element(out, "li", tale_caution_full((enum tale_caution)i));
            fputc('\n', out);
        }
    fputs("</ul>\n", out);
}

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
    heading(out, "method", "How this was computed");
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
    heading(out, "again", "To compute it again");
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
    page_begin(out, "Report", scenario->name, report_styles);
    fputs("<main>\n<header>\n", out);
    page_element(out, "h1", scenario->name);
    fputs("\n<p class=\"from\">plan: ", out);
    page_text(out, scenario->plan[r->tale.plan].name);
    fprintf(out, "; %s to %s; a forecast</p>\n</header>\n", phrase_date(scenario->start).text,
            phrase_date(scenario->start + scenario->last_day).text);
}

static bool put_all(FILE *out, const struct report *r, const struct margin *said,
                    const struct phrase_style *style, struct trouble *why)
{
    put_head(out, r);
    fputs("<section class=\"answer\" aria-label=\"The answer\">\n", out);
    report_lines(out, said, NULL);
    report_lines(out, said, "plan have day do");
    fputs("</section>\n", out);
    if (!put_temperature(out, r, said, why) || !put_sections(out, r, why) ||
        !put_heat(out, r, said, why) || !put_ready(out, r, style, why) ||
        !put_hygiene(out, r, style, why) || !put_plans(out, r, why) ||
        !put_work(out, r, said, style, why))
        return false;
    heading(out, "care", "Take care");
    report_cautions(out, &r->tale);
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
