/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/table.c - see door/table.h. */
#include "door/table.h"
#include "base/near.h"
#include "base/unit.h"
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* units that only weather has; base/unit knows the others */
static const struct {
    const char *spellings;
    enum table_kind kind;
    double factor;
} UNITS[] = {
    {"m/s", TABLE_WIND, 1.0},          {"km/h|kmh", TABLE_WIND, 1.0 / 3.6},
    {"mph", TABLE_WIND, 0.44704},      {"knots|kn", TABLE_WIND, 1852.0 / 3600.0},
    {"MJ/m2|MJ/m²", TABLE_SUN, 1e6},   {"kWh/m2|kWh/m²", TABLE_SUN, 3.6e6},
    {"W/m2|W/m²", TABLE_SUN, 86400.0}, {"kPa", TABLE_PRESSURE, 1e3},
    {"hPa|mbar", TABLE_PRESSURE, 1e2}, {"Pa", TABLE_PRESSURE, 1.0},
};
static const char *const EXPECTED[TABLE_KINDS] = {
    [TABLE_DATE] = "no unit",          [TABLE_TEXT] = "no unit",
    [TABLE_HOUR] = "no unit",          [TABLE_TEMP] = "C or F",
    [TABLE_RAIN] = "mm or in",         [TABLE_LENGTH] = "cm or in",
    [TABLE_WIND] = "m/s, km/h or mph", [TABLE_SUN] = "MJ/m2, kWh/m2 or W/m2",
    [TABLE_PRESSURE] = "kPa or hPa",   [TABLE_SHARE] = "%",
};

/* ---- fields of a line ---- */

static void take_field(void *text, size_t length, void *data)
{
    struct table *table = data;
    if (table->fields < TABLE_COLUMNS && table->used + length < sizeof table->text) {
        char *place = table->text + table->used;
        memcpy(place, text, length);
        place[length] = '\0';
        table->field[table->fields] = place;
        table->used += length + 1;
    }
    table->fields++;
}

static void take_end(int end, void *data)
{
    (void)end;
    ((struct table *)data)->records++;
}

static bool split(struct table *table, struct csv_parser *parser, const char *line, size_t length)
{
    table->fields = table->records = 0;
    table->used = 0;
    if (csv_parse(parser, line, length, take_field, take_end, table) != length)
        return csv_error(parser) == CSV_ENOMEM
                   ? trouble_set(table->why, TROUBLE_MEMORY, "%s: there is not enough memory to read it",
                                 table->path)
                   : TABLE_FAULT(table, table->fields + 1, "%s",
                     "a quotation mark within a field; quotes are expected around a whole field");
    if (table->records != 1)
        return TABLE_FAULT(table, table->fields + 1, "%s",
                     "a quotation mark that isn't closed on its line; close it");
    if (table->fields > TABLE_COLUMNS)
        return TABLE_FAULT(table, TABLE_COLUMNS + 1, "%d columns; %d at most are expected",
                     table->fields, (int)TABLE_COLUMNS);
    return true;
}

/* One line without its end, TABLE_LINE bytes at most. False at the end of the file or on trouble,
 * which `why` tells apart. */
static bool read_line(struct table *table, FILE *file, char line[TABLE_LINE + 2], size_t *length)
{
    int c;
    *length = 0;
    if (++table->line > TABLE_LINES)
        return TABLE_FAULT(table, 1, "more than %d lines; a table of days is expected", (int)TABLE_LINES);
    while ((c = getc(file)) != EOF && c != '\n') {
        if (c == '\0')
            return TABLE_FAULT(table, 1, "%s", "a zero byte; plain text is expected (CSV in UTF-8)");
        if (*length >= TABLE_LINE)
            return TABLE_FAULT(table, 1, "a line longer than %d bytes; a table of days is expected",
                         (int)TABLE_LINE);
        line[(*length)++] = (char)c;
    }
    if (ferror(file))
        return trouble_set(table->why, TROUBLE_DEVICE, "%s: can't be read: %s", table->path,
                           strerror(errno));
    if (c == EOF && *length == 0)
        return false;
    if (*length > 0 && line[*length - 1] == '\r')
        --*length;
    line[*length] = '\0';
    if (strchr(line, '\r'))
        return TABLE_FAULT(table, 1, "%s", "a carriage return within a line; save the file with line "
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

static bool unknown_column(struct table *table, int at, const char *text)
{
    const char *names[TABLE_COLUMNS];
    char word[NEAR_LONGEST + 1] = "";
    size_t length = strcspn(text, " ");
    int count = 0;
    for (int i = 0; i < table->form->columns; i++)
        if (table->form->column[i].name[0] != '#')
            names[count++] = table->form->column[i].name;
    const char *near = near_name(text, names, count);
    if (!near && length <= NEAR_LONGEST) { /* without its unit */
        memcpy(word, text, length);
        near = near_name(word, names, count);
    }
    if (near)
        return TABLE_FAULT(table, at, "column \"%.60s\" isn't known; did you mean \"%s\"?", text,
                           near);
    return TABLE_FAULT(table, at, "column \"%.60s\" isn't known; %s expected", text,
                       table->form->all);
}

static bool unit_of(struct table_heading *heading, enum table_kind kind, const char *text)
{
    static const int shared[TABLE_KINDS] = {[TABLE_TEMP] = 1 + UNIT_TEMP,
                                            [TABLE_RAIN] = 1 + UNIT_LENGTH,
                                            [TABLE_LENGTH] = 1 + UNIT_LENGTH,
                                            [TABLE_SHARE] = 1 + UNIT_SHARE};
    size_t length = strlen(text), taken;
    for (size_t i = 0; i < sizeof UNITS / sizeof UNITS[0]; i++)
        if (length > 0 && UNITS[i].kind == kind && unit_spelt(text, UNITS[i].spellings) == length) {
            heading->factor = UNITS[i].factor;
            return true;
        }
    const struct unit *unit = shared[kind] ? unit_at(text, &taken) : NULL;
    if (!unit || taken != length || 1 + (int)unit->kind != shared[kind])
        return false;
    heading->before = unit->before;
    heading->factor = unit->factor * (kind == TABLE_RAIN ? 1000.0 : 1.0); /* 1 m of water, kg/m2 */
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

/* How much of a text is a column's name; "# cm in" takes a number for its #. */
static size_t named(const char *text, const char *name, double *number)
{
    if (name[0] != '#')
        return unit_spelt(text, name);
    size_t digits = strspn(text, "0123456789"), blanks = strspn(text + digits, " ");
    size_t rest = digits > 0 && digits < 5 ? unit_spelt(text + digits + blanks, name + 2) : 0;
    if (rest == 0)
        return 0;
    *number = strtod(text, NULL);
    return digits + blanks + rest;
}

static bool find_column(struct table_heading *heading, const struct table_form *form,
                        const char *text, size_t *taken)
{
    *taken = 0;
    for (int i = 0; i < form->columns; i++) {
        size_t name = named(text, form->column[i].name, &heading->number);
        size_t also = unit_spelt(text, form->column[i].also);
        size_t more = name > also ? name : also;
        if (more > *taken) {
            *taken = more;
            heading->column = i;
        }
    }
    return *taken > 0;
}

static bool bare(enum table_kind kind)
{
    return kind == TABLE_DATE || kind == TABLE_TEXT || kind == TABLE_HOUR;
}

static bool read_heading(struct table *table, int at, char *text)
{
    struct table_heading *heading = &table->heading[at];
    size_t taken;
    *heading = (struct table_heading){.factor = 1.0};
    tidy(text);
    if (!find_column(heading, table->form, text, &taken))
        return unknown_column(table, at + 1, text);
    const struct table_column *column = table_column(table, at);
    const char *unit = text + taken + strspn(text + taken, " ");
    if (bare(column->kind) ? *unit == '\0' : unit_of(heading, column->kind, unit))
        return true;
    const char *expected = EXPECTED[column->kind];
    if (*unit == '\0')
        return TABLE_FAULT(table, at + 1, "column \"%s\" has no unit; %s is expected, such as "
                           "\"%s %.*s\"", text, expected, text, (int)strcspn(expected, " ,"),
                           expected);
    return TABLE_FAULT(table, at + 1, "column \"%.*s\" is in \"%.40s\"; %s is expected", (int)taken,
                       text, unit, expected);
}

static bool told_before(struct table *table, int at)
{
    const struct table_heading *new = &table->heading[at];
    for (int i = 0; i < at; i++) {
        const struct table_heading *old = &table->heading[i];
        if (table_column(table, i)->tells == table_column(table, at)->tells &&
            old->number == new->number)
            return !TABLE_FAULT(table, at + 1, "column \"%s\" tells the same as column %d; keep one "
                                "of them", table->field[at], i + 1);
    }
    return false;
}

static bool has(const struct table *table, int tells)
{
    for (int i = 0; i < table->fields; i++)
        if (table_column(table, i)->tells == tells)
            return true;
    return false;
}

static const char *name_of(const struct table_form *form, int tells)
{
    for (int i = 0; i < form->columns; i++)
        if (form->column[i].tells == tells)
            return form->column[i].name;
    return "";
}

static bool read_headings(struct table *table, const char *line)
{
    const struct table_form *form = table->form;
    if (strchr(line, ';'))
        return TABLE_FAULT(table, 1, "%s", "semicolons in the first line; commas between columns "
                           "and a point in numbers are expected");
    for (int i = 0; i < table->fields; i++)
        if (!read_heading(table, i, table->field[i]) || told_before(table, i))
            return false;
    for (int tells = 0; tells < form->needed; tells++)
        if (!has(table, tells))
            return TABLE_FAULT(table, table->fields + 1, "no column \"%s\"; %s expected, such as "
                               "\"%s\"", name_of(form, tells), form->need, form->example);
    table->headings = table->fields;
    return true;
}

/* ---- the line of data ---- */

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

const struct table_column *table_column(const struct table *table, int at)
{
    return &table->form->column[table->heading[at].column];
}

bool table_empty(const struct table *table, int at)
{
    return table->field[at][strspn(table->field[at], " \t")] == '\0';
}

bool table_date(struct table *table, int at, date_count *date)
{
    return scan_date(table->field[at], date) ||
           TABLE_FAULT(table, at + 1, "date \"%.40s\"; a day such as 2025-10-18 is expected",
                       table->field[at]);
}

bool table_number(struct table *table, int at, double *value)
{
    const struct table_heading *heading = &table->heading[at];
    const struct table_column *column = table_column(table, at);
    const char *text = table->field[at];
    if (!scan_number(text, value))
        return TABLE_FAULT(table, at + 1, "%s \"%.40s\"; a number is expected%s", column->name, text,
                           strchr(text, ',') ? ", with a decimal point" : "");
    *value = (*value + heading->before) * heading->factor;
    return (*value >= column->least && *value <= column->most) ||
           TABLE_FAULT(table, at + 1, "%s %.40s; %s is expected", column->name, text, column->range);
}

/* ---- the file ---- */

static bool as_many_fields(struct table *table)
{
    int fewer = table->fields < table->headings ? table->fields : table->headings;
    return table->fields == table->headings ||
           TABLE_FAULT(table, fewer + 1, "%d fields; %d are expected, as in the first line",
                       table->fields, table->headings);
}

bool table_next(struct table *table)
{
    static const char MARK[] = "\xEF\xBB\xBF"; /* byte order mark of UTF-8 */
    char line[TABLE_LINE + 2];
    size_t length;
    while (read_line(table, table->file, line, &length)) {
        char *text = line;
        if (table->line == 1 && strncmp(line, MARK, 3) == 0)
            text += 3;
        if (says_nothing(text))
            continue;
        length = strlen(text);
        text[length++] = '\n';
        if (!split(table, &table->parser, text, length))
            return false;
        text[length - 1] = '\0';
        if (table->headings)
            return as_many_fields(table);
        if (!read_headings(table, text))
            return false;
    }
    return false;
}

bool table_open(struct table *table, const char *path, const struct table_form *form,
                struct trouble *why)
{
    *table = (struct table){.path = path, .why = why, .form = form};
    table->file = fopen(path, "rb");
    if (!table->file)
        return trouble_set(why, errno == ENOENT ? TROUBLE_ABSENT : TROUBLE_DEVICE,
                           "%s: can't be opened: %s", path, strerror(errno));
    if (csv_init(&table->parser, CSV_STRICT | CSV_STRICT_FINI) == 0)
        return true;
    fclose(table->file);
    return trouble_set(why, TROUBLE_MEMORY, "%s: no memory to read it", path);
}

void table_close(struct table *table)
{
    csv_free(&table->parser);
    fclose(table->file);
}
