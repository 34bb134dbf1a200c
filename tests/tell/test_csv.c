/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_csv.c - tell/csv on a made-up season, read back by libcsv. */
#include "tell/csv.h"
#include "tell/column.h"
#include "tell/season_made.h"
#include <csv.h>

enum { MOST = 128 };

/* what libcsv found */
struct table {
    int rows, fields, wanted;   /* wanted: fields of the first row */
    bool even;
    char name[MOST][64];
    double sum[MOST];
    int empty[MOST];
};

static void field(void *text, size_t length, void *data)
{
    struct table *table = data;
    int column = table->fields++;
    if (column >= MOST)
        return;
    if (table->rows == 0)
        snprintf(table->name[column], sizeof table->name[column], "%.*s", (int)length,
                 (const char *)text);
    else if (length == 0)
        table->empty[column]++;
    else
        table->sum[column] += strtod(text, NULL);
}

static void row(int end, void *data)
{
    struct table *table = data;
    (void)end;
    if (table->rows == 0)
        table->wanted = table->fields;
    table->even = table->even && table->fields == table->wanted;
    table->fields = 0;
    table->rows++;
}

static char *told(const struct tale *tale)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    csv_season(out, tale);
    assert_int_equal(fclose(out), 0);
    return text;
}

static struct table read_back(const char *text)
{
    struct table table = {.even = true};
    struct csv_parser parser;
    assert_int_equal(csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL), 0);
    assert_int_equal(csv_parse(&parser, text, strlen(text), field, row, &table), strlen(text));
    assert_int_equal(csv_fini(&parser, field, row, &table), 0);
    csv_free(&parser);
    return table;
}

static int column_of(const struct table *table, const char *name)
{
    for (int i = 0; i < table->wanted; i++)
        if (strcmp(table->name[i], name) == 0)
            return i;
    fail_msg("no column %s", name);
    return -1;
}

static void each_day_has_every_column(void **state)
{
    (void)state;
    struct made *made = made_new();
    made->day[3].hand_deep_K = NAN;
    made->day[4].flux[FLUX_ammonia] = INFINITY;
    char *text = told(&made->tale);
    struct table table = read_back(text);
    assert_int_equal(table.rows, MADE_DAYS + 1);
    assert_int_equal(table.wanted, 2 + column_count + FLUXES + 3);
    assert_true(table.even);
    assert_int_equal(table.empty[column_of(&table, "hand_deep_c")], 1);
    assert_int_equal(table.empty[column_of(&table, "ammonia_kg")], 1);
    free(text);
    free(made);
}

static void sums_of_the_columns_are_those_of_the_record(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(&made->tale);
    struct table table = read_back(text);
    /* 9 hot days, one of them 63 C; 11 at 45.5 C; 80 at 12 C [derived from made_middle_K] */
    assert_near(table.sum[column_of(&table, "middle_c")], 8 * 56.0 + 63.0 + 11 * 45.5 + 80 * 12.0,
                1e-6);
    assert_near(table.sum[column_of(&table, "decay_heat_MJ")],
                made->record.flux_total[FLUX_decay_heat] / 1e6, 1e-6);
    assert_near(table.sum[column_of(&table, "events")], MADE_EVENTS, 0.0);
    assert_near(table.sum[column_of(&table, "day")], 5050.0, 0.0);
    free(text);
    free(made);
}

/* [memory] RFC 4180, section 2: each record ends with CR LF, the last one may too. */
static void every_line_ends_as_rfc_4180_has_it(void **state)
{
    (void)state;
    struct made *made = made_new();
    char *text = told(&made->tale);
    int lines = 0;
    for (const char *at = text; (at = strchr(at, '\n')) != NULL; at++, lines++)
        assert_true(at > text && at[-1] == '\r');
    assert_int_equal(lines, MADE_DAYS + 1);
    free(text);
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_day_has_every_column),
        cmocka_unit_test(sums_of_the_columns_are_those_of_the_record),
        cmocka_unit_test(every_line_ends_as_rfc_4180_has_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
