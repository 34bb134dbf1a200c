/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/sheet.c - see door/sheet.h. No file can take more memory than a hundred years of weather. */
#include "door/sheet.h"
#include "door/table.h"
#include <math.h>
#include <stdlib.h>

enum tells { TELLS_DATE, TELLS_LOW, TELLS_HIGH, TELLS_RAIN, TELLS_WIND, TELLS_SUN, TELLS_VAPOUR };

/* Longer names before those they begin with. Two columns that tell the same are refused. */
static const struct table_column COLUMNS[] = {
    {"date", "day", TABLE_DATE, TELLS_DATE, 0, 0, ""},
    {"low", "night low|lowest", TABLE_TEMP, TELLS_LOW, 193.15, 333.15, "-80 to 60 C"},
    {"high", "day high|highest", TABLE_TEMP, TELLS_HIGH, 193.15, 333.15, "-80 to 60 C"},
    {"rain", "precipitation", TABLE_RAIN, TELLS_RAIN, 0, 2000, "0 to 2000 mm"},
    {"wind at 10 m", "", TABLE_WIND, TELLS_WIND, 0, 60, "0 to 60 m/s"},
    {"wind", "wind at 2 m", TABLE_WIND, TELLS_WIND, 0, 60, "0 to 60 m/s"},
    {"sun", "global radiation", TABLE_SUN, TELLS_SUN, 0, 50e6, "0 to 50 MJ/m2"},
    {"vapour", "vapor|vapour pressure|vapor pressure", TABLE_PRESSURE, TELLS_VAPOUR, 1, 1e4,
     "0.001 to 10 kPa"},
    {"dew point", "dew", TABLE_TEMP, TELLS_VAPOUR, 203.15, 313.15, "-70 to 40 C"},
    {"humidity", "relative humidity", TABLE_SHARE, TELLS_VAPOUR, 0.01, 1, "1 to 100 %"},
};
enum { COLUMN_WIND_10M = 4, COLUMN_DEW = 8, COLUMN_HUMIDITY = 9 };

static const struct table_form FORM = {
    .column = COLUMNS,
    .columns = (int)(sizeof COLUMNS / sizeof COLUMNS[0]),
    .needed = TELLS_HIGH + 1,
    .need = "date, low and high are",
    .all = "date, low, high, rain, wind, wind at 10 m, sun, vapour, dew point or humidity are",
    .example = "date,low C,high C,rain mm",
};

static bool read_date(struct table *table, int at, date_count *date, const date_count *expected)
{
    char text[DATE_TEXT], before[DATE_TEXT];
    if (!table_date(table, at, date))
        return false;
    if (!expected || *date == *expected)
        return true;
    date_write(*expected, text);
    date_write(*expected - 1, before);
    return TABLE_FAULT(table, at + 1, "%s follows %s; each day is expected once and in order, here "
                       "%s", table->field[at], before, text);
}

/* An empty field is a value not known, but for the low and the high. */
static bool read_value(struct table *table, int at, double *value)
{
    *value = NAN;
    return (table->field[at][0] == '\0' && table_column(table, at)->tells > TELLS_HIGH) ||
           table_number(table, at, value);
}

/* What a column told, turned into what weather keeps: FAO-56 eq. 14 and 19 for the vapour. */
static void settle(struct weather_day *day, int column, double value)
{
    if (column == COLUMN_DEW)
        day->vapour_Pa = weather_saturation_Pa(value);
    else if (column == COLUMN_HUMIDITY)
        day->vapour_Pa = value * 0.5 * (weather_saturation_Pa(day->low_K) +
                                        weather_saturation_Pa(day->high_K));
    else if (COLUMNS[column].tells == TELLS_VAPOUR)
        day->vapour_Pa = value;
    else if (column == COLUMN_WIND_10M)
        day->wind_m_per_s = weather_wind_at_2m(value, 10.0);
    else if (COLUMNS[column].tells == TELLS_WIND)
        day->wind_m_per_s = value;
    else if (COLUMNS[column].tells == TELLS_RAIN)
        day->rain_kg_per_m2 = value;
    else if (COLUMNS[column].tells == TELLS_SUN)
        day->sun_J_per_m2 = value;
}

static bool read_day(struct table *table, struct weather_day *day, date_count *date,
                     const date_count *expected)
{
    double value[TABLE_COLUMNS] = {0.0};
    int low = 0;
    *day = (struct weather_day){NAN, NAN, NAN, NAN, NAN, NAN};
    for (int i = 0; i < table->fields; i++) {
        int tells = table_column(table, i)->tells;
        if (tells == TELLS_DATE ? !read_date(table, i, date, expected)
                                : !read_value(table, i, &value[i]))
            return false;
        if (tells == TELLS_LOW) {
            day->low_K = value[i];
            low = i;
        }
        if (tells == TELLS_HIGH)
            day->high_K = value[i];
    }
    if (day->low_K > day->high_K)
        return TABLE_FAULT(table, low + 1, "the low %s is above the high; the day's lowest and "
                           "highest are expected", table->field[low]);
    for (int i = 0; i < table->fields; i++)
        settle(day, table->heading[i].column, value[i]);
    return true;
}

/* Room for one day more; doubles as it fills. */
static bool make_room(struct weather *weather, struct table *table)
{
    int days = weather->days;
    if (days >= WEATHER_MOST_DAYS)
        return TABLE_FAULT(table, 1, "more than %d days; fewer are expected",
                           (int)WEATHER_MOST_DAYS);
    if (days & (days - 1)) /* full only at the powers of two */
        return true;
    size_t room = days ? 2 * (size_t)days : 1;
    struct weather_day *day = realloc(weather->day, room * sizeof *day);
    if (!day)
        return trouble_set(table->why, TROUBLE_MEMORY, "%s: no memory for %d days", table->path,
                           days);
    weather->day = day;
    return true;
}

static bool add_day(struct weather *weather, struct table *table)
{
    date_count date = 0, expected = weather->start + weather->days;
    if (!make_room(weather, table) ||
        !read_day(table, &weather->day[weather->days], &date, weather->days ? &expected : NULL))
        return false;
    if (weather->days == 0)
        weather->start = date;
    weather->days++;
    return true;
}

bool sheet_weather(struct weather *weather, const char *path, struct trouble *why)
{
    struct table table;
    *weather = (struct weather){0};
    if (!table_open(&table, path, &FORM, why))
        return false;
    bool good = true;
    while (good && table_next(&table))
        good = add_day(weather, &table);
    table_close(&table);
    good = good && why->kind == TROUBLE_NONE;
    if (good && weather->days == 0)
        good = TABLE_FAULT(&table, 1, "%s", "no days; a line of headings such as \"date,low C,high "
                           "C,rain mm\" and a line for each day are expected");
    if (!good)
        weather_free(weather);
    return good;
}
