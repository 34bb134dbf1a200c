/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/ics.c - see tell/ics.h.
 *
 * RFC 5545 [memory]: lines end with CR LF and are folded at 75 octets (3.1), never within a
 * character; text escapes backslash, semicolon, comma and line end (3.3.11); an event with a DATE
 * for its start and no end lasts that day (3.6.1); it needs UID and DTSTAMP. Times of DTSTAMP are
 * those of the scenario's start, since a clock would make each file another. RFC 2606 [memory]
 * keeps the domain "invalid" free for ever, so that no UID is anyone's.
 */
#include "tell/ics.h"
#include "run/calendar.h"
#include "tell/steps.h"
#include <inttypes.h>
#include <math.h>
#include <string.h>

enum { OCTETS = 75, LINE = 4096 };
static const struct phrase_style UTF8 = {true, 0, 0};

/* ---- lines ---- */

/* How many bytes of a text fit into so many, whole characters only. */
static size_t fitting(const char *text, size_t room)
{
    size_t length = strlen(text);
    if (length <= room)
        return length;
    while (room > 0 && ((unsigned char)text[room] & 0xC0) == 0x80)
        room--;
    return room;
}

static void put_line(FILE *out, const char *line)
{
    size_t took = fitting(line, OCTETS);
    fprintf(out, "%.*s\r\n", (int)took, line);
    for (line += took; *line; line += took) {
        took = fitting(line, OCTETS - 1);
        fprintf(out, " %.*s\r\n", (int)took, line);
    }
}

/* A property whose value is text. Control characters other than line ends become '?'. */
static void put_text(FILE *out, const char *name, const char *text)
{
    char line[LINE];
    size_t used = (size_t)snprintf(line, sizeof line, "%s:", name);
    for (; *text && used < sizeof line - 3; text++) {
        if (strchr("\\;,", *text))
            line[used++] = '\\';
        if (*text == '\n') {
            line[used++] = '\\';
            line[used++] = 'n';
        } else {
            line[used++] = (unsigned char)*text < 0x20 || *text == 0x7F ? '?' : *text;
        }
    }
    line[used] = '\0';
    put_line(out, line);
}

static void put_date(FILE *out, const char *before, date_count number, const char *after)
{
    struct date date = date_of(number);
    fprintf(out, "%s%04d%02d%02d%s\r\n", before, date.year, date.month, date.day, after);
}

/* ---- a day's name for ever ---- */

/* FNV-1a, 64 bits (Fowler, Noll, Vo) [memory]; the end of each word counts too. */
static uint64_t hash(uint64_t sum, const char *word)
{
    for (;; word++) {
        sum = (sum ^ (unsigned char)*word) * UINT64_C(1099511628211);
        if (!*word)
            return sum;
    }
}

static const char *const kinds[] = {[AGENDA_BUILD] = "build",
                                    [AGENDA_WORK] = "work",
                                    [AGENDA_LOOK] = "look",
                                    [AGENDA_PEAK] = "peak",
                                    [AGENDA_READ] = "read"};

static void put_uid(FILE *out, const struct ics_pile *pile, const struct agenda_row *row)
{
    const struct scenario *scenario = pile->pile.scenario;
    char number[32];
    snprintf(number, sizeof number, "%d/%d", row->nth, pile->alike);
    uint64_t sum = UINT64_C(14695981039346656037);
    sum = hash(sum, scenario->name);
    sum = hash(sum, scenario->plan[pile->pile.plan].name);
    sum = hash(hash(sum, kinds[row->kind]), number);
    fprintf(out, "UID:%016" PRIx64 "@midden.invalid\r\n", sum);
}

/* ---- what a day says ---- */

static void capital(char *text)
{
    if (*text >= 'a' && *text <= 'z')
        *text = (char)(*text - 'a' + 'A');
}

static void add(char *text, size_t size, const char *more)
{
    size_t used = strlen(text);
    if (!*more)
        return;
    snprintf(text + used, size - used, "%s%s", used ? "\n" : "", more);
    capital(text + used + (used > 0));
}

/* What was forecast for that morning: of a day of work, the day before. */
static void add_forecast(char *text, size_t size, const struct due_pile *pile,
                         const struct phrase_style *style, int day)
{
    char line[200];
    struct due due;
    due_on(&due, pile, day < pile->record[0].days - 1 ? day + 1 : day);
    if (!isfinite(due.middle_K.mid))
        return;
    snprintf(line, sizeof line, "Forecast for the middle: %s.",
             phrase_temp_span(style, due.middle_K).text);
    add(text, size, line);
}

static void add_tasks(char *text, size_t size, const struct due_pile *pile, const struct due *due,
                      const struct phrase_style *style, bool rules)
{
    for (int i = 0; i < due->tasks; i++) {
        const struct due_task *task = &due->task[i];
        char line[1600];
        if ((task->event->when == PLAN_RULE) != rules)
            continue;
        snprintf(line, sizeof line, "%.900s%s%.600s",
                 steps_name(pile->scenario, style, task->event, due->from, task->into).text,
                 rules ? " " : ". How: ",
                 rules ? steps_rule(style, task->event).text
                       : steps_how(style, task->event, task->into == due->from, due->deep_m).text);
        add(text, size, line);
        if (rules)
            snprintf(line, sizeof line, "Forecast: work in %s possible piles.",
                     phrase_chance(task->chance).text);
        if (rules)
            add(text, size, line);
    }
}

static void add_work(char *text, size_t size, const struct due_pile *pile, const struct due *due)
{
    char line[240];
    struct phrase water = {""};
    if (due->water_kg.mid >= 0.5)
        snprintf(water.text, sizeof water.text, " Water: %.70s.",
                 fetch_load(pile->scenario, due->water_kg.mid).text);
    snprintf(line, sizeof line, "Work for one person: %.0f to %.0f min.%s",
             floor(due->person_s.low / 60), ceil(due->person_s.high / 60), water.text);
    add(text, size, line);
}

/* "Turn into bay 2, outside in" */
static void summary(char *text, size_t size, const struct due_pile *pile,
                    const struct agenda_row *row, const struct phrase_style *style)
{
    static const char *const reads[] = {
        [AGENDA_PEAK] = "Probe: about the hottest day", [AGENDA_READ] = "Read the pile"};
    const struct scenario *scenario = pile->scenario;
    const struct plan *plan = &scenario->plan[pile->plan];
    if (row->kind == AGENDA_BUILD)
        snprintf(text, size, "Build in %s: %s", scenario->bay[scenario->home].name, scenario->name);
    else if (row->kind == AGENDA_WORK)
        snprintf(text, size, "%.200s: %s", steps_day(scenario, style, plan, row->day, false).text,
                 scenario->name);
    else if (row->kind == AGENDA_LOOK)
        snprintf(text, size, "Look, perhaps %.200s: %s",
                 steps_day(scenario, style, plan, row->day, true).text, scenario->name);
    else
        snprintf(text, size, "%s: %s", reads[row->kind], scenario->name);
    capital(text);
}

static void description(char *text, size_t size, const struct due_pile *pile,
                        const struct agenda_row *row, const struct phrase_style *style)
{
    struct due due;
    *text = '\0';
    due_on(&due, pile, row->day);
    if (row->kind == AGENDA_BUILD)
        add(text, size, fetch_build(pile->scenario, style).text);
    if (row->kind == AGENDA_WORK || row->kind == AGENDA_LOOK)
        add_tasks(text, size, pile, &due, style, row->kind == AGENDA_LOOK);
    if (row->kind == AGENDA_BUILD || row->kind == AGENDA_WORK)
        add_work(text, size, pile, &due);
    if (row->kind == AGENDA_READ || row->kind == AGENDA_PEAK)
        add_forecast(text, size, pile, style, row->day);
    if (row->kind < AGENDA_PEAK && !calendar_open(pile->scenario, row->day))
        add(text, size, "By the scenario nobody comes on this day.");
}

/* ---- the file ---- */

static void put_event(FILE *out, const struct ics_pile *pile, const struct agenda_row *row,
                      const struct phrase_style *style)
{
    const struct scenario *scenario = pile->pile.scenario;
    char text[LINE / 2];
    fputs("BEGIN:VEVENT\r\n", out);
    put_uid(out, pile, row);
    put_date(out, "DTSTAMP:", scenario->start, "T000000Z");
    put_date(out, "DTSTART;VALUE=DATE:", scenario->start + row->day, "");
    summary(text, sizeof text, &pile->pile, row, style);
    put_text(out, "SUMMARY", text);
    description(text, sizeof text, &pile->pile, row, style);
    if (*text)
        put_text(out, "DESCRIPTION", text);
    fputs("TRANSP:TRANSPARENT\r\nEND:VEVENT\r\n", out);
}

void ics_write(FILE *out, const struct ics_pile *piles, int count, const char *version)
{
    fprintf(out, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//midden//midden %s//EN\r\n", version);
    for (int i = 0; i < count; i++) {
        struct phrase_style style = UTF8;
        style.show = piles[i].pile.scenario->show;
        style.bucket_m3 = piles[i].pile.scenario->bucket_m3;
        for (int r = 0; r < piles[i].rows; r++)
            put_event(out, &piles[i], &piles[i].row[r], &style);
    }
    fputs("END:VCALENDAR\r\n", out);
}
