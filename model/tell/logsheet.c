/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/logsheet.c - see tell/logsheet.h. */
#include "tell/logsheet.h"
#include "run/calendar.h"
#include "tell/steps.h"
#include "tell/tale.h"
#include <math.h>
#include <string.h>

static const double ICE_POINT_K = 273.15;

const struct logsheet_column logsheet_columns[LOGSHEET_COLUMNS] = {
    {"date", {NULL, NULL}, 10},   {"hour", {NULL, NULL}, 4},    {"middle", {"C", "F"}, 6},
    {"30 cm in", {"C", "F"}, 8},  {"hand deep", {"C", "F"}, 9}, {"air", {"C", "F"}, 4},
    {"squeeze", {NULL, NULL}, 8}, {"height", {"cm", "in"}, 6},  {"we did", {NULL, NULL}, 0},
};

/* about 30, 40, 48, 55 and 65 % water, each within 7 [trade] */
const char *const logsheet_squeezes[PLAN_SQUEEZES][2] = {
    {"dusty", "dry to the hand, dust flies (about 30 % water)"},
    {"crumbles", "damp, but falls apart when the hand opens (about 40 %)"},
    {"holds", "stays a ball, no water shows (about 48 %)"},
    {"drips", "a drop or two between the fingers (about 55 %)"},
    {"runs", "water streams out (about 65 % or more)"},
};

static int unit_row(const struct scenario *scenario)
{
    return scenario->show == PLAN_SHOW_US;
}

const char *logsheet_unit(const struct scenario *scenario, int column)
{
    const char *unit = logsheet_columns[column].unit[unit_row(scenario)];
    return unit ? unit : "";
}

const char *logsheet_weekday(date_count date)
{
    static const char *const days[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    return days[date_weekday(date)];
}

struct phrase logsheet_temp(const struct scenario *scenario, struct span temp_K)
{
    struct phrase said = {"-"};
    double factor = scenario->show == PLAN_SHOW_US ? 1.8 : 1.0, zero = scenario->show == PLAN_SHOW_US ? 32.0 : 0.0;
    double ends[] = {temp_K.low, temp_K.mid, temp_K.high};
    for (int i = 0; i < 3; i++)
        ends[i] = round(factor * (ends[i] - ICE_POINT_K) + zero) + 0.0;
    if (isfinite(temp_K.mid) && ends[0] == ends[2])
        snprintf(said.text, sizeof said.text, "%.0f", ends[1]);
    else if (isfinite(temp_K.mid))
        snprintf(said.text, sizeof said.text, "%.0f (%.0f to %.0f)", ends[1], ends[0], ends[2]);
    return said;
}

void logsheet_csv(FILE *out, const struct scenario *scenario)
{
    for (int i = 0; i < LOGSHEET_COLUMNS; i++) {
        const char *unit = logsheet_unit(scenario, i);
        fprintf(out, "%s%s%s%s", i ? "," : "", logsheet_columns[i].name, *unit ? " " : "", unit);
    }
    fputc('\n', out);
}

/* ---- the plain form ---- */

/* One line of the table; the last column takes what is left. */
static void say_cells(FILE *out, const char *const cell[LOGSHEET_COLUMNS])
{
    int used = 0;
    for (int i = 0; i < LOGSHEET_COLUMNS; i++) {
        int width = logsheet_columns[i].width;
        if (width == 0)
            fprintf(out, "%.*s\n", PHRASE_COLUMNS - used, cell[i]);
        else
            used += fprintf(out, "%-*.*s|", width, width, cell[i]);
    }
}

static void say_rule(FILE *out)
{
    static const char dashes[] = "--------------------";
    const char *cell[LOGSHEET_COLUMNS];
    for (int i = 0; i < LOGSHEET_COLUMNS; i++)
        cell[i] = dashes;
    say_cells(out, cell);
}

/* Of a text, what fits on a line of the last column, whole words if it can be; the rest follows. */
static const char *cut(char *line, size_t size, const char *text)
{
    size_t room = PHRASE_COLUMNS, took = strlen(text);
    for (int i = 0; i < LOGSHEET_COLUMNS; i++)
        room -= (size_t)(logsheet_columns[i].width ? logsheet_columns[i].width + 1 : 0);
    if (took > room)
        for (took = room; took > 1 && text[took] != ' '; took--)
            continue;
    took = took > 1 ? took : room;
    snprintf(line, size, "%.*s", (int)took, text);
    return text + took + strspn(text + took, " ");
}

struct saying logsheet_planned(const struct logsheet *sheet, const struct log_row *row)
{
    const struct plan *plan = &sheet->pile.scenario->plan[sheet->pile.plan];
    struct saying said = {""};
    if (row->build)
        snprintf(said.text, sizeof said.text, "build");
    for (int e = 0; e < plan->events; e++) {
        const struct plan_event *event = &plan->event[e];
        size_t used = strlen(said.text);
        bool turn = event->deed == PLAN_TURN;
        if (calendar_comes(sheet->pile.scenario, event, row->day))
            snprintf(said.text + used, sizeof said.text - used, "%s%s%s%s%s", used ? ", " : "",
                     steps_deed(event->deed), turn ? " " : "", turn ? steps_way(event->way) : "",
                     event->when == PLAN_RULE ? "?" : "");
    }
    return said;
}

static void say_row(FILE *out, const struct logsheet *sheet, const struct log_row *row)
{
    char date[DATE_TEXT], line[2][PHRASE_COLUMNS];
    date_count number = sheet->pile.scenario->start + row->day;
    struct saying planned = logsheet_planned(sheet, row);
    const char *cell[2][LOGSHEET_COLUMNS];
    cut(line[1], sizeof line[1], cut(line[0], sizeof line[0], planned.text));
    date_write(number, date);
    for (int k = 0; k < 2; k++) {
        for (int i = 1; i < LOGSHEET_COLUMNS - 1; i++)
            cell[k][i] = "";
        cell[k][0] = k ? logsheet_weekday(number) : date;
        cell[k][LOGSHEET_COLUMNS - 1] = line[k];
        say_cells(out, cell[k]);
    }
}

static void say_table(FILE *out, const struct logsheet *sheet)
{
    const char *cell[LOGSHEET_COLUMNS];
    for (int i = 0; i < LOGSHEET_COLUMNS; i++)
        cell[i] = logsheet_columns[i].name;
    say_cells(out, cell);
    for (int i = 0; i < LOGSHEET_COLUMNS; i++)
        cell[i] = logsheet_unit(sheet->pile.scenario, i);
    say_cells(out, cell);
    for (int r = 0; r < sheet->rows; r++) {
        say_rule(out);
        say_row(out, sheet, &sheet->row[r]);
    }
    say_rule(out);
}

static void say_forecast(FILE *out, const struct logsheet *sheet)
{
    const struct scenario *scenario = sheet->pile.scenario;
    fprintf(out,
            "Forecast, for after guessing (degrees %s; 8 in 10 of %d possible piles lie\n"
            "within the brackets):\n\n  %-15s%-20s%-20s%s\n",
            logsheet_unit(scenario, 2), sheet->pile.members, "date", "middle", "30 cm in",
            "hand deep");
    for (int r = 0; r < sheet->rows; r++) {
        const struct log_row *row = &sheet->row[r];
        char date[DATE_TEXT];
        date_write(scenario->start + row->day, date);
        fprintf(out, "  %s %s %-20s%-20s%s\n", logsheet_weekday(scenario->start + row->day), date,
                logsheet_temp(scenario, row->middle_K).text,
                logsheet_temp(scenario, row->deep_K).text,
                logsheet_temp(scenario, row->hand_K).text);
    }
}

static void say_cautions(FILE *out, const struct logsheet *sheet)
{
    struct tale tale = {.record = sheet->pile.record,
                        .members = sheet->pile.members,
                        .scenario = sheet->pile.scenario,
                        .plan = sheet->pile.plan};
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(&tale, (enum tale_caution)i))
            phrase_line(out, "care", "%s", tale_caution_full((enum tale_caution)i));
}

static void say_word(FILE *out, const char *word, const char *meaning)
{
    enum { MARGIN = 14 };
    char lead[32];
    snprintf(lead, sizeof lead, "  %s", word);
    phrase_hang(out, lead, MARGIN, meaning);
}

void logsheet_text(FILE *out, const struct logsheet *sheet)
{
    const struct scenario *scenario = sheet->pile.scenario;
    phrase_line(out, NULL, "Log of %s: plan %s, %s to %s.", scenario->name,
                scenario->plan[sheet->pile.plan].name,
                phrase_date(scenario->start + sheet->first).text,
                phrase_date(scenario->start + sheet->last).text);
    fputc('\n', out);
    say_table(out, sheet);
    fputc('\n', out);
    for (int i = 0; i < PLAN_SQUEEZES; i++)
        say_word(out, logsheet_squeezes[i][0], logsheet_squeezes[i][1]);
    say_word(out, "middle", "half way up, at the axis");
    bool us = unit_row(scenario);
    say_word(out, "30 cm in", us ? "12 in from the nearest outer side, half way up"
                                 : "from the nearest outer side, half way up");
    say_word(out, "hand deep", us ? "4 in from there" : "10 cm in from there");
    fputc('\n', out);
    say_forecast(out, sheet);
    fputc('\n', out);
    say_cautions(out, sheet);
}
