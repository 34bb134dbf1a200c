/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/sheet.c - weather files, read line by line.
 *
 * Fields are split by libcsv as RFC 4180 has it, one line at a time, so that every message can name
 * its line; a quoted field may not run on to the next. Lengths are bounded, so that no file can
 * take more memory than a hundred years of weather.
 */
#include "door/sheet.h"
#include "base/near.h"
#include "base/unit.h"
#include <csv.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_LONGEST = 4096, MOST_COLUMNS = 32 };
enum kind { KIND_DATE, KIND_TEMP, KIND_RAIN, KIND_WIND, KIND_SUN, KIND_PRESSURE, KIND_SHARE };
enum tells { TELLS_DATE, TELLS_LOW, TELLS_HIGH, TELLS_RAIN, TELLS_WIND, TELLS_SUN, TELLS_VAPOUR,
             TELLS };

/* Longer names before those they begin with. Two columns that tell the same are refused. */
static const struct column {
    const char *name, *also;
    enum kind kind;
    enum tells tells;
    double least, most;         /* SI, as in struct weather_day */
    const char *range;
} COLUMNS[] = {
    {"date", "day", KIND_DATE, TELLS_DATE, 0, 0, ""},
    {"low", "night low|lowest", KIND_TEMP, TELLS_LOW, 193.15, 333.15, "-80 to 60 C"},
    {"high", "day high|highest", KIND_TEMP, TELLS_HIGH, 193.15, 333.15, "-80 to 60 C"},
    {"rain", "precipitation", KIND_RAIN, TELLS_RAIN, 0, 2000, "0 to 2000 mm"},
    {"wind at 10 m", "", KIND_WIND, TELLS_WIND, 0, 60, "0 to 60 m/s"},
    {"wind", "wind at 2 m", KIND_WIND, TELLS_WIND, 0, 60, "0 to 60 m/s"},
    {"sun", "global radiation", KIND_SUN, TELLS_SUN, 0, 50e6, "0 to 50 MJ/m2"},
    {"vapour", "vapor|vapour pressure|vapor pressure", KIND_PRESSURE, TELLS_VAPOUR, 1, 1e4,
     "0.001 to 10 kPa"},
    {"dew point", "dew", KIND_TEMP, TELLS_VAPOUR, 203.15, 313.15, "-70 to 40 C"},
    {"humidity", "relative humidity", KIND_SHARE, TELLS_VAPOUR, 0.01, 1, "1 to 100 %"},
};
enum { COLUMN_WIND_10M = 4, COLUMN_DEW = 8, COLUMN_HUMIDITY = 9 };
static const int COLUMN_COUNT = (int)(sizeof COLUMNS / sizeof COLUMNS[0]);

/* units that only weather has; base/unit knows the others */
static const struct {
    const char *spellings;
    enum kind kind;
    double factor;
} UNITS[] = {
    {"m/s", KIND_WIND, 1.0},          {"km/h|kmh", KIND_WIND, 1.0 / 3.6},
    {"mph", KIND_WIND, 0.44704},      {"knots|kn", KIND_WIND, 1852.0 / 3600.0},
    {"MJ/m2|MJ/m²", KIND_SUN, 1e6},   {"kWh/m2|kWh/m²", KIND_SUN, 3.6e6},
    {"W/m2|W/m²", KIND_SUN, 86400.0}, {"kPa", KIND_PRESSURE, 1e3},
    {"hPa|mbar", KIND_PRESSURE, 1e2}, {"Pa", KIND_PRESSURE, 1.0},
};
static const char *const EXPECTED[] = {"no unit", "C or F", "mm or in", "m/s, km/h or mph",
                                       "MJ/m2, kWh/m2 or W/m2", "kPa or hPa", "%"};

struct heading {
    int column;             /* row of COLUMNS */
    double before, factor;  /* SI = (value + before) factor */
};

struct sheet {
    const char *path;
    int line;
    struct trouble *why;
    /* the fields of the line just read */
    int fields, records;
    char *field[MOST_COLUMNS];
    char text[LINE_LONGEST + 2 * MOST_COLUMNS];
    size_t used;
    int headings;           /* 0 until the first line with something in it */
    struct heading heading[MOST_COLUMNS];
};

#define FAULT(sheet, column, format, ...)                                             \
    trouble_set((sheet)->why, TROUBLE_INPUT, "%s:%d:%d: " format, (sheet)->path,      \
                (sheet)->line, (column), __VA_ARGS__)

/* ---- fields of a line ---- */

static void take_field(void *text, size_t length, void *data)
{
    struct sheet *sheet = data;
    if (sheet->fields < MOST_COLUMNS && sheet->used + length < sizeof sheet->text) {
        char *place = sheet->text + sheet->used;
        memcpy(place, text, length);
        place[length] = '\0';
        sheet->field[sheet->fields] = place;
        sheet->used += length + 1;
    }
    sheet->fields++;
}

static void take_end(int end, void *data)
{
    (void)end;
    ((struct sheet *)data)->records++;
}

static bool split(struct sheet *sheet, struct csv_parser *parser, const char *line, size_t length)
{
    sheet->fields = sheet->records = 0;
    sheet->used = 0;
    if (csv_parse(parser, line, length, take_field, take_end, sheet) != length)
        return FAULT(sheet, sheet->fields + 1, "%s",
                     "a quotation mark within a field; quotes are expected around a whole field");
    if (sheet->records != 1)
        return FAULT(sheet, sheet->fields + 1, "%s",
                     "a quotation mark that isn't closed on its line; close it");
    if (sheet->fields > MOST_COLUMNS)
        return FAULT(sheet, MOST_COLUMNS + 1, "%d columns; %d at most are expected",
                     sheet->fields, (int)MOST_COLUMNS);
    return true;
}

/* One line without its end, LINE_LONGEST bytes at most. False at the end of the file or on trouble,
 * which `why` tells apart. */
static bool read_line(struct sheet *sheet, FILE *file, char line[LINE_LONGEST + 2], size_t *length)
{
    int c;
    *length = 0;
    sheet->line++;
    while ((c = getc(file)) != EOF && c != '\n') {
        if (c == '\0')
            return FAULT(sheet, 1, "%s", "a zero byte; plain text is expected (CSV in UTF-8)");
        if (*length >= LINE_LONGEST)
            return FAULT(sheet, 1, "a line longer than %d bytes; a table of days is expected",
                         (int)LINE_LONGEST);
        line[(*length)++] = (char)c;
    }
    if (ferror(file))
        return trouble_set(sheet->why, TROUBLE_DEVICE, "%s: can't be read: %s", sheet->path,
                           strerror(errno));
    if (c == EOF && *length == 0)
        return false;
    if (*length > 0 && line[*length - 1] == '\r')
        --*length;
    line[*length] = '\0';
    if (strchr(line, '\r'))
        return FAULT(sheet, 1, "%s", "a carriage return within a line; save the file with line "
                                     "ends of Unix or Windows");
    return true;
}

/* Blank, a note, or only the commas a spreadsheet leaves behind. */
static bool says_nothing(const char *line)
{
    size_t blank = strspn(line, " \t");
    return line[blank] == '#' || line[strspn(line, " \t,")] == '\0';
}

/* ---- the line of headings ---- */

static bool unknown_column(struct sheet *sheet, int at, const char *text)
{
    const char *names[sizeof COLUMNS / sizeof COLUMNS[0]];
    char word[NEAR_LONGEST + 1] = "";
    size_t length = strcspn(text, " ");
    for (int i = 0; i < COLUMN_COUNT; i++)
        names[i] = COLUMNS[i].name;
    const char *near = near_name(text, names, COLUMN_COUNT);
    if (!near && length <= NEAR_LONGEST) { /* without its unit */
        memcpy(word, text, length);
        near = near_name(word, names, COLUMN_COUNT);
    }
    if (near)
        return FAULT(sheet, at, "column \"%.60s\" isn't known; did you mean \"%s\"?", text, near);
    return FAULT(sheet, at, "column \"%.60s\" isn't known; date, low, high, rain, wind, wind at 10 "
                            "m, sun, vapour, dew point or humidity are expected", text);
}

static bool unit_of(struct heading *heading, enum kind kind, const char *text)
{
    static const int shared[] = {[KIND_TEMP] = UNIT_TEMP, [KIND_RAIN] = UNIT_LENGTH,
                                 [KIND_SHARE] = UNIT_SHARE};
    size_t length = strlen(text), taken;
    for (size_t i = 0; i < sizeof UNITS / sizeof UNITS[0]; i++)
        if (length > 0 && UNITS[i].kind == kind && unit_spelt(text, UNITS[i].spellings) == length) {
            heading->factor = UNITS[i].factor;
            return true;
        }
    if (kind != KIND_TEMP && kind != KIND_RAIN && kind != KIND_SHARE)
        return false;
    const struct unit *unit = unit_at(text, &taken);
    if (!unit || taken != length || (int)unit->kind != shared[kind])
        return false;
    heading->before = unit->before;
    heading->factor = unit->factor * (kind == KIND_RAIN ? 1000.0 : 1.0); /* 1 m of water, kg/m2 */
    return true;
}

/* Round brackets count as blanks: "low (C)" is "low C". */
static void tidy(char *text)
{
    for (char *c = text; *c; c++)
        if (*c == '(' || *c == ')' || *c == '\t')
            *c = ' ';
    size_t length = strlen(text);
    while (length > 0 && text[length - 1] == ' ')
        text[--length] = '\0';
}

static bool read_heading(struct sheet *sheet, int at, char *text)
{
    struct heading *heading = &sheet->heading[at];
    size_t taken = 0;
    *heading = (struct heading){.column = -1, .factor = 1.0};
    tidy(text);
    for (int i = 0; i < COLUMN_COUNT; i++) {
        size_t name = unit_spelt(text, COLUMNS[i].name), also = unit_spelt(text, COLUMNS[i].also);
        size_t more = name > also ? name : also;
        if (more > taken) {
            taken = more;
            heading->column = i;
        }
    }
    if (heading->column < 0)
        return unknown_column(sheet, at + 1, text);
    const struct column *column = &COLUMNS[heading->column];
    const char *unit = text + taken + strspn(text + taken, " ");
    if (column->kind == KIND_DATE ? *unit == '\0' : unit_of(heading, column->kind, unit))
        return true;
    if (*unit == '\0')
        return FAULT(sheet, at + 1, "column \"%s\" has no unit; %s is expected, such as \"%s "
                                    "%.*s\"", column->name, EXPECTED[column->kind], column->name,
                     (int)strcspn(EXPECTED[column->kind], " ,"), EXPECTED[column->kind]);
    return FAULT(sheet, at + 1, "column \"%s\" is in \"%.40s\"; %s is expected", column->name, unit,
                 EXPECTED[column->kind]);
}

static bool read_headings(struct sheet *sheet, const char *line)
{
    int told[TELLS] = {0};
    if (strchr(line, ';'))
        return FAULT(sheet, 1, "%s", "semicolons in the first line; commas between columns and a "
                                     "point in numbers are expected");
    for (int i = 0; i < sheet->fields; i++) {
        if (!read_heading(sheet, i, sheet->field[i]))
            return false;
        enum tells tells = COLUMNS[sheet->heading[i].column].tells;
        if (told[tells])
            return FAULT(sheet, i + 1, "column \"%s\" tells the same as column %d; keep one of "
                                       "them", sheet->field[i], told[tells]);
        told[tells] = i + 1;
    }
    for (int i = TELLS_DATE; i <= TELLS_HIGH; i++)
        if (!told[i])
            return FAULT(sheet, sheet->fields + 1, "no column \"%s\"; date, low and high are "
                                                   "expected, such as \"date,low C,high C,rain "
                                                   "mm\"", COLUMNS[i].name);
    sheet->headings = sheet->fields;
    return true;
}

/* ---- the line of a day ---- */

static int digits(const char **text, int most)
{
    int count = 0;
    while (**text >= '0' && **text <= '9' && count < most) {
        ++*text;
        ++count;
    }
    return count;
}

static bool scan_date(const char *text, date_count *number)
{
    const char *at = text;
    if (digits(&at, 4) != 4 || *at++ != '-' || digits(&at, 2) != 2 || *at++ != '-' ||
        digits(&at, 2) != 2 || *at != '\0')
        return false;
    struct date date = {(int)strtol(text, NULL, 10), (int)strtol(text + 5, NULL, 10),
                        (int)strtol(text + 8, NULL, 10)};
    if (!date_valid(date))
        return false;
    *number = date_number(date);
    return true;
}

/* A sign, digits, a point and digits: no exponents, hexadecimals or words, which strtod takes. */
static bool scan_number(const char *text, double *value)
{
    const char *at = text + (*text == '-' || *text == '+');
    int count = digits(&at, 12);
    if (*at == '.') {
        ++at;
        count += digits(&at, 12);
    }
    if (count == 0 || *at != '\0')
        return false;
    *value = strtod(text, NULL);
    return true;
}

static bool read_date(struct sheet *sheet, int at, date_count *date, const date_count *expected)
{
    char text[DATE_TEXT], before[DATE_TEXT];
    if (!scan_date(sheet->field[at], date))
        return FAULT(sheet, at + 1, "date \"%.40s\"; a day such as 2025-10-18 is expected",
                     sheet->field[at]);
    if (!expected || *date == *expected)
        return true;
    date_write(*expected, text);
    date_write(*expected - 1, before);
    return FAULT(sheet, at + 1, "%s follows %s; each day is expected once and in order, here %s",
                 sheet->field[at], before, text);
}

static bool read_value(struct sheet *sheet, int at, double *value)
{
    const struct heading *heading = &sheet->heading[at];
    const struct column *column = &COLUMNS[heading->column];
    const char *text = sheet->field[at];
    if (*text == '\0' && column->tells > TELLS_HIGH) {
        *value = NAN;
        return true;
    }
    if (!scan_number(text, value))
        return FAULT(sheet, at + 1, "%s \"%.40s\"; a number is expected%s", column->name, text,
                     strchr(text, ',') ? ", with a decimal point" : "");
    *value = (*value + heading->before) * heading->factor;
    if (!(*value >= column->least && *value <= column->most))
        return FAULT(sheet, at + 1, "%s %.40s; %s is expected", column->name, text, column->range);
    return true;
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

static bool read_day(struct sheet *sheet, struct weather_day *day, date_count *date,
                     const date_count *expected)
{
    double value[MOST_COLUMNS] = {0.0};
    int low = 0;
    if (sheet->fields != sheet->headings)
        return FAULT(sheet, (sheet->fields < sheet->headings ? sheet->fields : sheet->headings) + 1,
                     "%d fields; %d are expected, as in the first line", sheet->fields,
                     sheet->headings);
    *day = (struct weather_day){NAN, NAN, NAN, NAN, NAN, NAN};
    for (int i = 0; i < sheet->fields; i++) {
        enum tells tells = COLUMNS[sheet->heading[i].column].tells;
        if (tells == TELLS_DATE ? !read_date(sheet, i, date, expected)
                                : !read_value(sheet, i, &value[i]))
            return false;
        if (tells == TELLS_LOW) {
            day->low_K = value[i];
            low = i;
        }
        if (tells == TELLS_HIGH)
            day->high_K = value[i];
    }
    if (day->low_K > day->high_K)
        return FAULT(sheet, low + 1, "the low %s is above the high; the day's lowest and highest "
                                     "are expected", sheet->field[low]);
    for (int i = 0; i < sheet->fields; i++)
        settle(day, sheet->heading[i].column, value[i]);
    return true;
}

/* Room for one day more; doubles as it fills. */
static bool make_room(struct weather *weather, struct sheet *sheet)
{
    int days = weather->days;
    if (days >= WEATHER_MOST_DAYS)
        return FAULT(sheet, 1, "more than %d days; fewer are expected", (int)WEATHER_MOST_DAYS);
    if (days & (days - 1)) /* full only at the powers of two */
        return true;
    size_t room = days ? 2 * (size_t)days : 1;
    struct weather_day *day = realloc(weather->day, room * sizeof *day);
    if (!day)
        return trouble_set(sheet->why, TROUBLE_MEMORY, "%s: no memory for %d days", sheet->path,
                           days);
    weather->day = day;
    return true;
}

static bool add_day(struct weather *weather, struct sheet *sheet)
{
    date_count date = 0, expected = weather->start + weather->days;
    if (!make_room(weather, sheet) ||
        !read_day(sheet, &weather->day[weather->days], &date, weather->days ? &expected : NULL))
        return false;
    if (weather->days == 0)
        weather->start = date;
    weather->days++;
    return true;
}

/* ---- the file ---- */

static bool read_all(struct weather *weather, struct sheet *sheet, FILE *file,
                     struct csv_parser *parser)
{
    static const char MARK[] = "\xEF\xBB\xBF"; /* byte order mark of UTF-8 */
    char line[LINE_LONGEST + 2];
    size_t length;
    while (read_line(sheet, file, line, &length)) {
        char *text = line;
        if (sheet->line == 1 && strncmp(line, MARK, 3) == 0)
            text += 3;
        if (says_nothing(text))
            continue;
        length = strlen(text);
        text[length++] = '\n';
        if (!split(sheet, parser, text, length))
            return false;
        text[length - 1] = '\0';
        if (!(sheet->headings ? add_day(weather, sheet) : read_headings(sheet, text)))
            return false;
    }
    if (sheet->why->kind != TROUBLE_NONE)
        return false;
    if (weather->days == 0)
        return FAULT(sheet, 1, "%s", "no days; a line of headings such as \"date,low C,high C,rain "
                                     "mm\" and a line for each day are expected");
    return true;
}

bool sheet_weather(struct weather *weather, const char *path, struct trouble *why)
{
    struct sheet sheet = {.path = path, .why = why};
    struct csv_parser parser;
    *weather = (struct weather){0};
    FILE *file = fopen(path, "rb");
    if (!file)
        return trouble_set(why, errno == ENOENT ? TROUBLE_ABSENT : TROUBLE_DEVICE,
                           "%s: can't be opened: %s", path, strerror(errno));
    if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI)) {
        fclose(file);
        return trouble_set(why, TROUBLE_MEMORY, "%s: no memory to read it", path);
    }
    bool good = read_all(weather, &sheet, file, &parser);
    csv_free(&parser);
    fclose(file);
    if (!good)
        weather_free(weather);
    return good;
}
