/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/lists.c - writes a table as text for people or as JSON for programs.
 *
 * Both writers know only the cells of tell/cells. Lines keep within 80 columns; names are padded by
 * bytes and so stay in ASCII, while the last column may hold any UTF-8.
 */
#include "tell/lists.h"
#include "tell/allot.h"
#include "base/near.h"
#include "tell/cells.h"
#include <jansson.h>
#include <string.h>

enum { COLUMNS = 79, MARGIN = 4, LABEL = 28 };

/* --- text ---------------------------------------------------------------------------------- */

/* columns a text takes: bytes that go on a character of UTF-8 take none */
static int columns(const char *text, size_t bytes)
{
    int count = 0;
    for (size_t i = 0; i < bytes; i++)
        if (((unsigned char)text[i] & 0xC0) != 0x80)
            count++;
    return count;
}

/* Writes words from column `from` on, going back to it on each new line; ends the line. */
static void write_words(FILE *out, const char *text, int from)
{
    int at = from;
    while (*text) {
        size_t bytes = strcspn(text, " |");
        int wide = columns(text, bytes);
        if (at > from && at + 1 + wide > COLUMNS) {
            fprintf(out, "\n%*s", from, "");
            at = from;
        }
        if (at > from) {
            fputc(' ', out);
            at++;
        }
        at += wide;
        fwrite(text, 1, bytes, out);
        text += bytes;
        if (*text == '|') { /* parts of a list */
            fputc(',', out);
            at++;
        }
        text += *text != '\0';
    }
    fputc('\n', out);
}

static bool right(const struct cell *cell)
{
    return cell->kind != CELLS_TEXT;
}

static void write_number(FILE *out, const struct cell *cell)
{
    double value = cell->value[cell->kind == CELLS_SPAN] * cell->scale;
    if (cell->decimals < 0)
        fprintf(out, "%*.6g", cell->width, value);
    else
        fprintf(out, "%*.*f", cell->width, cell->decimals, value);
}

/* The headings when head is true, else the row itself. */
static void write_line(FILE *out, const struct cells *row, bool head)
{
    int at = 0;
    for (int i = 0; i < row->count && row->cell[i].head; i++) {
        const struct cell *cell = &row->cell[i];
        const char *text = head ? cell->head : cell->text;
        if (i > 0)
            fputs("  ", out);
        if (cell->width == CELLS_REST) {
            write_words(out, text, at);
            return;
        }
        if (!right(cell))
            fprintf(out, "%-*s", cell->width, text);
        else if (head)
            fprintf(out, "%*s", cell->width, text);
        else
            write_number(out, cell);
        at += cell->width + 2;
    }
    fputc('\n', out);
}

/* A cell under its row, as "key   value", the key in words. */
static void write_detail(FILE *out, const struct cell *cell)
{
    fprintf(out, "%*s", MARGIN, "");
    int at = 0;
    for (const char *c = cell->key; *c; c++, at++)
        fputc(*c == '_' ? ' ' : *c, out);
    fprintf(out, "%*s", at < LABEL - MARGIN ? LABEL - MARGIN - at : 1, "");
    if (cell->kind == CELLS_TEXT)
        write_words(out, cell->text, LABEL);
    else if (cell->kind == CELLS_TRUTH)
        fprintf(out, "%s\n", cell->value[0] > 0.0 ? "yes" : "no");
    else if (cell->kind == CELLS_NUMBER)
        fprintf(out, "%.6g\n", cell->value[0]);
    else if (cell->kind == CELLS_SPAN)
        fprintf(out, "%.6g (%.6g to %.6g)\n", cell->value[1], cell->value[0], cell->value[2]);
    else
        for (int month = 0; month < CELLS_MONTHS; month++)
            fprintf(out, "%4.0f%s", cell->value[month], month + 1 < CELLS_MONTHS ? "" : "\n");
}

static void write_text(FILE *out, const struct cells_table *table, bool longer)
{
    bool all = longer || table->all;
    struct cells row = {0};
    for (int at = 0; table->fill(&row, at); at++, row.count = 0) {
        if (at == 0)
            write_line(out, &row, true);
        write_line(out, &row, false);
        for (int i = 0; all && i < row.count; i++) /* a column shows only the middle of a span */
            if (!row.cell[i].head || row.cell[i].kind == CELLS_SPAN)
                write_detail(out, &row.cell[i]);
    }
}

/* --- JSON: json_object_set_new takes NULL for a failure and passes it on ------------------- */

static bool put_span(json_t *object, const struct cell *cell)
{
    static const char *const tail[] = {"_low", "", "_high"};
    bool good = true;
    for (int i = 0; i < 3; i++) {
        char key[64];
        snprintf(key, sizeof key, "%s%s", cell->key, tail[i]);
        good = json_object_set_new(object, key, json_real(cell->value[i])) == 0 && good;
    }
    return good;
}

static bool put_year(json_t *object, const struct cell *cell)
{
    json_t *months = json_array();
    bool good = json_object_set_new(object, cell->key, months) == 0;
    for (int i = 0; good && i < CELLS_MONTHS; i++)
        good = json_array_append_new(months, json_real(cell->value[i])) == 0;
    return good;
}

static bool put_cell(json_t *object, const struct cell *cell)
{
    switch (cell->kind) {
    case CELLS_TEXT:
        return json_object_set_new(object, cell->key, json_string(cell->text)) == 0;
    case CELLS_TRUTH:
        return json_object_set_new(object, cell->key, json_boolean(cell->value[0] > 0.0)) == 0;
    case CELLS_NUMBER:
        return json_object_set_new(object, cell->key, json_real(cell->value[0])) == 0;
    case CELLS_SPAN:
        return put_span(object, cell);
    case CELLS_YEAR:
        return put_year(object, cell);
    }
    return false;
}

static bool put_row(json_t *rows, const struct cells *row)
{
    json_t *object = json_object();
    bool good = json_array_append_new(rows, object) == 0;
    for (int i = 0; good && i < row->count; i++)
        good = put_cell(object, &row->cell[i]);
    return good;
}

/* { "table": name, "rows": [ ... ] } */
static bool write_json(FILE *out, const struct cells_table *table, struct trouble *why)
{
    json_t *list = json_object(), *rows = json_array();
    bool good = json_object_set_new(list, "table", json_string(table->name)) == 0;
    good = json_object_set_new(list, "rows", rows) == 0 && good;
    struct cells row = {0};
    for (int at = 0; good && table->fill(&row, at); at++, row.count = 0)
        good = put_row(rows, &row);
    if (!good || allot_refused())
        good = trouble_set(why, TROUBLE_MEMORY, "not enough memory for the table of %s", table->name);
    else if (json_dumpf(list, out, JSON_INDENT(2) | JSON_REAL_PRECISION(9)) != 0)
        good = trouble_set(why, TROUBLE_MEMORY, "not enough memory to tell the table of %s",
                           table->name);
    else
        fputc('\n', out);
    json_decref(list);
    return good;
}

/* --- the one way in ------------------------------------------------------------------------ */

static bool say_unknown(const char *name, struct trouble *why)
{
    const char *near = near_name(name, cells_names, cells_count);
    trouble_set(why, TROUBLE_USAGE, "there is no table '%.40s'%s%s%s", name,
                near ? "; did you mean '" : "", near ? near : "", near ? "'?" : "");
    char tables[256] = "tables:";
    for (int i = 0; i < cells_count; i++) {
        size_t length = strlen(tables);
        snprintf(tables + length, sizeof tables - length, " %s", cells_names[i]);
    }
    return trouble_add(why, TROUBLE_USAGE, "%s", tables);
}

bool lists_write(FILE *out, const char *name, bool json, bool longer, struct trouble *why)
{
    for (int i = 0; i < cells_count; i++) {
        if (strcmp(name, cells_tables[i].name) != 0)
            continue;
        if (json && !write_json(out, &cells_tables[i], why))
            return false;
        if (!json)
            write_text(out, &cells_tables[i], longer);
        if (ferror(out))
            return trouble_set(why, TROUBLE_MEMORY, "not enough memory to tell the table of %s", name);
        return true;
    }
    return say_unknown(name, why);
}
