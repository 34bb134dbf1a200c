/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/handover.c - see tell/handover.h. */
#include "tell/handover.h"
#include "ask/agenda.h"
#include "ask/log.h"
#include "tell/errand.h"
#include "tell/excerpt.h"
#include "tell/fetch.h"
#include "tell/logsheet.h"
#include "tell/look.h"
#include "tell/margin.h"
#include "tell/page.h"
#include "tell/range.h"
#include "tell/ready.h"
#include "tell/steps.h"
#include <stdlib.h>
#include <string.h>

enum { DAYS_AHEAD = 7, WEEKS_AHEAD = 6 };

/* On paper everything must find room on one side. */
static const char tight[] =
    "h2 { margin: 1rem 0 .3rem; } dl { margin: .3rem 0; }\n"
    "@page { margin: 12mm; }\n"
    "@media print { html { font-size: 8.4pt; } body { line-height: 1.28; } h1 { font-size: 14pt; }\n"
    "  h2 { font-size: 10pt; margin: 1.6mm 0 .6mm; padding-top: .8mm; } p { margin: .6mm 0; }\n"
    "  table { margin: .6mm 0; font-size: 1rem; } th, td { padding: .3mm 2mm .3mm 0; }\n"
    "  dl { margin: .6mm 0; gap: .2mm 2mm; grid-template-columns: 13mm 1fr; }\n"
    "  ul { margin: .6mm 0; padding-left: 4mm; } li { margin: .2mm 0; }\n"
    "  .answer p { font-size: 9pt; margin: 0; } }\n";

static bool no_room(struct trouble *why)
{
    return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the handover");
}

static date_count date_at(const struct handover *h, int day)
{
    return h->tale.scenario->start + day;
}

/* "Sat 7 Mar" */
static struct phrase day_said(const struct handover *h, int day)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%s %.20s", logsheet_weekday(date_at(h, day)),
             phrase_day(date_at(h, day)).text);
    return said;
}

enum { HEIGHT, VOLUME, WATER };

static double size_of(const struct record *record, int row, int which)
{
    const struct record_day *day = &record->day[row];
    return which == HEIGHT ? day->height_m : which == VOLUME ? day->volume_m3 : day->water_share;
}

static void put_size(FILE *out, const struct handover *h, const struct phrase_style *style)
{
    int row = h->day > 0 ? h->day - 1 : 0; /* the last whole day */
    struct span high = range_of(&h->tale, size_of, row, HEIGHT);
    struct span room = range_of(&h->tale, size_of, row, VOLUME);
    struct span wet = range_of(&h->tale, size_of, row, WATER);
    fprintf(out, "this pile: %s high, %s, %s water",
            phrase_ranged(phrase_length(style, high.low), phrase_length(style, high.mid),
                          phrase_length(style, high.high)).text,
            phrase_ranged(phrase_volume(style, room.low), phrase_volume(style, room.mid),
                          phrase_volume(style, room.high)).text,
            phrase_ranged(phrase_share(wet.low), phrase_share(wet.mid), phrase_share(wet.high)).text);
}

static void put_bays(FILE *out, const struct handover *h, const struct due *due,
                     const struct phrase_style *style)
{
    const struct scenario *scenario = h->tale.scenario;
    fputs("<table>\n<thead><tr><th scope=\"col\">place</th><th scope=\"col\">what stands there</th></tr>"
          "</thead>\n<tbody>\n", out);
    for (int i = 0; i < scenario->bays; i++) {
        const struct plan_bay *bay = &scenario->bay[i];
        fputs("<tr>", out);
        page_element(out, "th scope=\"row\"", *bay->name ? bay->name : "the bin");
        fputs("<td>", out);
        if (i == due->from && due->build)
            fputs("nothing yet: the pile is built that day", out);
        else if (i == due->from)
            put_size(out, h, style);
        else if (bay->now == PLAN_BAY_FULL && (!bay->full_until || date_at(h, h->day) <= bay->full_until))
            fprintf(out, "another pile%s%s", bay->full_until ? ", until " : "",
                    bay->full_until ? phrase_day(bay->full_until).text : "");
        else
            fputs("free", out);
        fputs("</td></tr>\n", out);
    }
    fputs("</tbody>\n</table>\n", out);
}

static void put_built(FILE *out, const struct handover *h, const struct phrase_style *style)
{
    const struct scenario *scenario = h->tale.scenario;
    if (scenario->found.is) {
        fprintf(out, "<p>Found standing on %s.", phrase_date(scenario->start).text);
    } else {
        fprintf(out, "<p>Built on %s, ", phrase_date(scenario->start).text);
        page_text(out, fetch_build(scenario, style).text);
        fputc('.', out);
    }
    fputs("</p>\n", out);
}

/* What the plan had done by then; a rule's deeds by what most of the possible piles did. */
static void put_past(FILE *out, const struct handover *h, const struct agenda_row *row, int rows,
                     const struct phrase_style *style)
{
    int count = 0, before = -1;
    for (int i = 0; i < rows; i++) {
        struct due due;
        if (row[i].day >= h->day || row[i].day == before ||
            (row[i].kind != AGENDA_WORK && row[i].kind != AGENDA_LOOK))
            continue;
        before = row[i].day;
        due_on(&due, &h->pile, row[i].day);
        for (int k = 0; k < due.tasks; k++) {
            if (2 * due.task[k].did < h->pile.members)
                continue;
            fprintf(out, "%s%s: ", count++ ? "; " : "<p>Since then, if the plan was kept: ",
                    phrase_day(date_at(h, row[i].day)).text);
            page_text(out, steps_name(h->tale.scenario, style, due.task[k].event, due.from,
                                      due.task[k].into).text);
        }
    }
    fputs(count ? ".</p>\n" : "", out);
}

/* The first day of work or looking from now on; -1 = none. */
static int next_day(const struct handover *h)
{
    const struct scenario *scenario = h->tale.scenario;
    struct due due;
    due_on(&due, &h->pile, h->day);
    return due_any(&due) ? h->day : agenda_next(scenario, h->tale.plan, h->day, h->pile.last_day);
}

static bool put_errand(FILE *out, const struct handover *h, int day, const struct phrase_style *style,
                       struct trouble *why)
{
    struct margin said;
    struct outing_stop stop = {.pile = h->pile, .file = h->file, .plan_named = true};
    if (day < 0) {
        fputs("<p>Nothing: the plan has no more work.</p>\n", out);
        return true;
    }
    due_on(&stop.due, &h->pile, day);
    if (!margin_begin(&said))
        return no_room(why);
    errand_write(said.out, &stop, style);
    bool good = margin_end(&said) || no_room(why);
    if (good) {
        fprintf(out, "<p><strong>%s</strong>, about %s minutes of one person:</p>\n<dl>\n",
                day_said(h, day).text, phrase_span(stop.due.person_s, 1.0 / 60.0).text);
        for (int i = 0; i < said.lines; i++) {
            page_element(out, "dt", said.line[i].label);
            page_element(out, "dd", said.line[i].text);
        }
        fputs("</dl>\n", out);
    }
    margin_free(&said);
    return good;
}

static void put_row(FILE *out, const struct handover *h, const struct log_row *row,
                    const struct phrase_style *style)
{
    const struct scenario *scenario = h->tale.scenario;
    const struct span *temp_K[] = {&row->middle_K, &row->deep_K, &row->hand_K};
    fprintf(out, "<tr><th scope=\"row\">%s</th><td>", day_said(h, row->day).text);
    if (row->build)
        fputs("build", out);
    else if (row->work || row->look)
        page_text(out, steps_day(scenario, style, &scenario->plan[h->tale.plan], row->day, row->look).text);
    else
        fputs("read", out);
    fputs(row->look ? ", if it is wanted</td>" : "</td>", out);
    for (int i = 0; i < 3; i++)
        fprintf(out, "<td>%s</td>", logsheet_temp(scenario, *temp_K[i]).text);
    fputs("</tr>\n", out);
}

static bool put_ahead(FILE *out, const struct handover *h, const struct phrase_style *style,
                      struct trouble *why)
{
    int last = h->day + WEEKS_AHEAD * 7;
    last = last < h->pile.last_day ? last : h->pile.last_day;
    struct log_row *row = calloc((size_t)log_most(last - h->day + 1), sizeof *row);
    if (!row)
        return no_room(why);
    int rows = log_rows(row, &h->pile, h->day, last);
    fprintf(out, "<table>\n<caption>What the thermometer should read, °%s</caption>\n<thead><tr>"
            "<th scope=\"col\">day</th><th scope=\"col\">what</th><th scope=\"col\">middle</th>"
            "<th scope=\"col\">30 cm in</th><th scope=\"col\">hand deep</th></tr></thead>\n<tbody>\n",
            logsheet_unit(h->tale.scenario, 2));
    if (rows == 0 || row[0].day != h->day) { /* the day itself, whether or not it is one to read on */
        struct log_row today = {
            .day = h->day,
            .middle_K = due_temp_K(&h->pile, h->day, offsetof(struct record_day, middle_K)),
            .deep_K = due_temp_K(&h->pile, h->day, offsetof(struct record_day, deep_30cm_K)),
            .hand_K = due_temp_K(&h->pile, h->day, offsetof(struct record_day, hand_deep_K))};
        put_row(out, h, &today, style);
    }
    for (int i = 0; i < rows && i < DAYS_AHEAD; i++)
        put_row(out, h, &row[i], style);
    fputs("</tbody>\n</table>\n", out);
    free(row);
    return true;
}

static void put_reading(FILE *out, bool us)
{
    fprintf(out, "<p>Middle: half way up, at the axis; 30 cm%s in and a hand deep (%s): from the nearest outer "
                 "side, half way up. Squeeze a handful from 30 cm in: ", us ? " (12 in)" : "", us ? "4 in" : "10 cm");
    for (int i = 0; i < PLAN_SQUEEZES; i++) {
        fprintf(out, "%s<strong>%s</strong> ", i ? "; " : "", logsheet_squeezes[i][0]);
        page_text(out, logsheet_squeezes[i][1]);
    }
    fputs(".</p>\n", out);
}

static void put_head(FILE *out, const struct handover *h)
{
    const struct scenario *scenario = h->tale.scenario;
    char styles[16384];
    snprintf(styles, sizeof styles, "%s%s", look_styles, tight);
    page_begin(out, "Handover", scenario->name, styles);
    fputs("<main>\n<header>\n", out);
    page_element(out, "h1", scenario->name);
    fprintf(out, "\n<p class=\"from\">For the next keeper, on %s %s (day %d); plan: ",
            logsheet_weekday(date_at(h, h->day)), phrase_date(date_at(h, h->day)).text, h->day + 1);
    page_text(out, scenario->plan[h->tale.plan].name);
    fprintf(out, ". Forecasts only: %d possible piles, 8 in 10 as in brackets%s.</p>\n</header>\n",
            h->tale.members, phrase_unread(scenario));
}

static void put_end(FILE *out, const struct handover *h)
{
    char date[DATE_TEXT];
    date_write(date_at(h, h->day), date);
    fputs("<h2>Take care</h2>\n", out);
    excerpt_cautions(out, &h->tale);
    fputs("<h2>To know more</h2>\n<p>All that is known of the pile stands in the file ", out);
    page_text(out, h->file);
    fprintf(out, "; write what you read into it. <code>midden next FILE --day %s</code> says what to do on "
            "a day, <code>midden sheet FILE</code> makes a log sheet.</p>\n</main>\n", date);
    page_end(out);
}

static bool put_all(FILE *out, const struct handover *h, const struct agenda_row *row, int rows,
                    const struct phrase_style *style, struct trouble *why)
{
    struct due due;
    char ready[READY_SAID];
    due_on(&due, &h->pile, h->day);
    put_head(out, h);
    fputs("<section class=\"answer\" aria-label=\"The answer\">\n", out);
    ready_sentence(ready, &h->tale, false);
    if (*ready)
        page_element(out, "p", ready);
    fputs("</section>\n<h2>What stands where</h2>\n", out);
    put_bays(out, h, &due, style);
    if (!due.build)
        put_built(out, h, style);
    put_past(out, h, row, rows, style);
    fputs("<h2>What is due</h2>\n", out);
    if (!put_errand(out, h, next_day(h), style, why))
        return false;
    fputs("<h2>What to read</h2>\n", out);
    if (!put_ahead(out, h, style, why))
        return false;
    put_reading(out, style->show == PLAN_SHOW_US);
    put_end(out, h);
    return true;
}

bool handover_write(FILE *out, const struct handover *h, struct trouble *why)
{
    const struct scenario *scenario = h->tale.scenario;
    struct phrase_style style = {true, scenario->show, scenario->bucket_m3};
    if (h->tale.record[0].days < 1)
        return trouble_set(why, TROUBLE_NO, "the season has no day to tell of");
    struct agenda_row *row = calloc((size_t)agenda_most(scenario), sizeof *row);
    if (!row)
        return no_room(why);
    int rows = agenda_make(row, scenario, h->tale.plan, -1);
    bool good = put_all(out, h, row, rows, &style, why);
    free(row);
    return good;
}
