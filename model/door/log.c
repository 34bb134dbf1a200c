/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/log.c - see door/log.h. */
#include "door/log.h"
#include "door/laid.h"
#include "door/noted.h"
#include "door/table.h"
#include <string.h>

enum tells { TELLS_DATE, TELLS_HOUR, TELLS_MIDDLE, TELLS_INSIDE, TELLS_HAND, TELLS_AIR,
             TELLS_SQUEEZE, TELLS_HEIGHT, TELLS_WORDS };

static const struct table_column COLUMNS[] = {
    {"date", "day", TABLE_DATE, TELLS_DATE, 0, 0, ""},
    {"hour", "", TABLE_HOUR, TELLS_HOUR, 0, 23, "0 to 23"},
    {"middle", "", TABLE_TEMP, TELLS_MIDDLE, 213.15, 373.15, "-60 to 100 C"},
    {"# cm in", "", TABLE_TEMP, TELLS_INSIDE, 213.15, 373.15, "-60 to 100 C"},
    {"hand deep", "a hand deep", TABLE_TEMP, TELLS_HAND, 213.15, 373.15, "-60 to 100 C"},
    {"air", "", TABLE_TEMP, TELLS_AIR, 213.15, 373.15, "-60 to 100 C"},
    {"squeeze", "", TABLE_TEXT, TELLS_SQUEEZE, 0, 0, ""},
    {"height", "", TABLE_LENGTH, TELLS_HEIGHT, 0.02, 5.0, "2 cm to 5 m"},
    {"we did", "remarks", TABLE_TEXT, TELLS_WORDS, 0, 0, ""},
};

static const struct table_form FORM = {
    .column = COLUMNS,
    .columns = (int)(sizeof COLUMNS / sizeof COLUMNS[0]),
    .needed = TELLS_DATE + 1,
    .need = "date is",
    .all = "date, hour, middle, 30 cm in, hand deep, air, squeeze, height or we did are",
    .example = "date,hour,middle C,squeeze,we did",
};
static const double HAND_M = 0.10, CM = 0.01;

static bool read_squeeze(struct table *table, int at, int *squeeze)
{
    for (int i = 0; i < PLAN_SQUEEZES; i++)
        if (strcmp(table->field[at], laid_squeezes[i]) == 0) {
            *squeeze = i;
            return true;
        }
    return TABLE_FAULT(table, at + 1, "squeeze \"%.40s\"; dusty, crumbles, holds, drips or runs is "
                       "expected", table->field[at]);
}

static bool read_hour(struct table *table, int at, int *hour)
{
    double value;
    if (!table_number(table, at, &value))
        return false;
    *hour = (int)value;
    return *hour == value || TABLE_FAULT(table, at + 1, "hour %.40s; a whole number from 0 to 23 is "
                                         "expected", table->field[at]);
}

static bool read_date(struct table *table, int at, const struct scenario *scenario,
                      date_count *date)
{
    char start[DATE_TEXT];
    date_write(scenario->start, start);
    return table_date(table, at, date) &&
           (*date >= scenario->start || TABLE_FAULT(table, at + 1, "%s is before the start; %s or "
                                                    "later is expected", table->field[at], start));
}

static bool read_temp(struct table *table, int at, struct noted *noted)
{
    double value;
    if (!table_number(table, at, &value))
        return false;
    struct span temp_K = {value, value, value};
    switch (table_column(table, at)->tells) {
    case TELLS_MIDDLE: noted->middle_K = temp_K; break;
    case TELLS_AIR: noted->air_K = temp_K; break;
    case TELLS_HAND: noted_inside(noted, HAND_M, temp_K); break;
    default: noted_inside(noted, CM * table->heading[at].number, temp_K); break;
    }
    return true;
}

static bool read_height(struct table *table, int at, struct noted *noted)
{
    double value;
    bool good = table_number(table, at, &value);
    if (good)
        noted->height_m = (struct span){value, value, value};
    return good;
}

static bool read_field(struct table *table, int at, const struct scenario *scenario,
                       struct noted *noted)
{
    int tells = table_column(table, at)->tells;
    if (tells != TELLS_DATE && table_empty(table, at))
        return true;
    switch (tells) {
    case TELLS_DATE: return read_date(table, at, scenario, &noted->day);
    case TELLS_HOUR: return read_hour(table, at, &noted->hour);
    case TELLS_SQUEEZE: return read_squeeze(table, at, &noted->squeeze);
    case TELLS_HEIGHT: return read_height(table, at, noted);
    case TELLS_WORDS: return true;
    default: return read_temp(table, at, noted);
    }
}

static bool add_visit(struct table *table, struct scenario *scenario)
{
    struct noted noted = noted_none();
    for (int i = 0; i < table->fields; i++)
        if (!read_field(table, i, scenario, &noted))
            return false;
    return noted_keep(&noted, scenario) ||
           TABLE_FAULT(table, 1, "more than %d readings; fewer are expected", (int)PLAN_READINGS);
}

bool log_read(struct scenario *scenario, const char *path, struct trouble *why)
{
    struct table table;
    if (!table_open(&table, path, &FORM, why))
        return false;
    bool good = true;
    while (good && table_next(&table))
        good = add_visit(&table, scenario);
    table_close(&table);
    return good && why->kind == TROUBLE_NONE;
}
