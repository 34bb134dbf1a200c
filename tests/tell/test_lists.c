/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_lists.c - tell/lists: every table as text, and as JSON read back by a library. */
#include "tell/lists.h"
#include "know/stuff.h"
#include "lib/near.h"
#include "tell/cells.h"
#include <jansson.h>
#include <stdlib.h>

/* What a table writes; to be freed. */
static char *written(const char *name, bool json, bool longer)
{
    struct trouble why = {0};
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    assert_true(lists_write(out, name, json, longer, &why));
    assert_int_equal(fclose(out), 0);
    assert_true(length > 0 && text[length - 1] == '\n');
    return text;
}

/* Columns of a line: bytes that go on a UTF-8 character count nothing. */
static int columns(const char *line, size_t length)
{
    int count = 0;
    for (size_t i = 0; i < length; i++)
        count += ((unsigned char)line[i] & 0xC0) != 0x80;
    return count;
}

static void lines_fit(const char *text)
{
    while (*text) {
        size_t length = strcspn(text, "\n");
        assert_true(columns(text, length) <= 80);
        assert_true(length == 0 || text[length - 1] != ' ');
        text += length + 1;
    }
}

static void text_keeps_within_eighty_columns(void **state)
{
    (void)state;
    for (int i = 0; i < cells_count; i++)
        for (int longer = 0; longer < 2; longer++) {
            char *text = written(cells_names[i], false, longer);
            lines_fit(text);
            free(text);
        }
}

static json_t *read_back(const char *name)
{
    json_error_t error;
    char *text = written(name, true, false);
    json_t *list = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    free(text);
    assert_non_null(list);
    assert_string_equal(json_string_value(json_object_get(list, "table")), name);
    assert_true(json_array_size(json_object_get(list, "rows")) > 2);
    return list;
}

static void json_of_every_table_is_read_back(void **state)
{
    (void)state;
    for (int i = 0; i < cells_count; i++)
        json_decref(read_back(cells_names[i]));
}

static void json_of_ingredients_says_what_the_table_holds(void **state)
{
    (void)state;
    json_t *list = read_back("ingredients"), *rows = json_object_get(list, "rows");
    assert_int_equal(json_array_size(rows), stuff_count);
    for (int i = 0; i < stuff_count; i++) {
        json_t *row = json_array_get(rows, (size_t)i);
        assert_string_equal(json_string_value(json_object_get(row, "name")), stuff_rows[i].name);
        assert_near(json_number_value(json_object_get(row, "water_share_low")),
                    stuff_rows[i].water_share.low, 1e-8);
        assert_near(json_number_value(json_object_get(row, "water_share")),
                    stuff_rows[i].water_share.mid, 1e-8);
        assert_near(json_number_value(json_object_get(row, "bulk_kg_m3_high")),
                    stuff_rows[i].bulk_kg_per_m3.high, 1e-6);
        assert_string_equal(json_string_value(json_object_get(row, "bulk_source")),
                            stuff_rows[i].bulk_source);
        assert_int_equal(json_is_true(json_object_get(row, "keratin")), stuff_rows[i].keratin);
    }
    json_decref(list);
}

static void json_of_skies_has_twelve_months(void **state)
{
    (void)state;
    json_t *list = read_back("skies");
    json_t *row = json_array_get(json_object_get(list, "rows"), 0);
    assert_int_equal(json_array_size(json_object_get(row, "night_low_c")), 12);
    assert_int_equal(json_array_size(json_object_get(row, "wet_days")), 12);
    json_decref(list);
}

static void layer_by_layer_says_that_it_reverses_the_order(void **state)
{
    (void)state;
    char *text = written("turns", false, false);
    assert_non_null(strstr(text, "layer by layer"));
    assert_non_null(strstr(text, "order is"));
    assert_non_null(strstr(text, "reversed"));
    free(text);
}

static void longer_text_shows_sources_and_marks(void **state)
{
    (void)state;
    char *brief = written("ingredients", false, false);
    char *longer = written("ingredients", false, true);
    assert_null(strstr(brief, "Gotaas"));
    assert_non_null(strstr(longer, "Gotaas 1956"));
    assert_non_null(strstr(longer, "memory"));
    free(brief);
    free(longer);
}

static void unknown_table_is_a_slip_of_usage_and_writes_nothing(void **state)
{
    (void)state;
    struct trouble why = {0};
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_false(lists_write(out, "ingredient", false, false, &why));
    assert_int_equal(why.kind, TROUBLE_USAGE);
    assert_non_null(strstr(why.text, "did you mean 'ingredients'?"));
    for (int i = 0; i < cells_count; i++)
        assert_non_null(strstr(why.text, cells_names[i]));
    assert_int_equal(fclose(out), 0);
    assert_int_equal(length, 0);
    free(text);
}

static void a_stream_that_takes_no_more_is_reported(void **state)
{
    (void)state;
    /* answers are written into memory: what can't be written means that there is none left. A Linux device
     * stands for it; elsewhere there is nothing to test */
    FILE *full = fopen("/dev/full", "w");
    if (!full)
        skip();
    for (int json = 0; json < 2; json++) {
        struct trouble why = {0};
        setvbuf(full, NULL, _IONBF, 0);
        assert_false(lists_write(full, "walls", json, false, &why));
        assert_int_equal(why.kind, TROUBLE_MEMORY);
    }
    fclose(full);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_keeps_within_eighty_columns),
        cmocka_unit_test(json_of_every_table_is_read_back),
        cmocka_unit_test(json_of_ingredients_says_what_the_table_holds),
        cmocka_unit_test(json_of_skies_has_twelve_months),
        cmocka_unit_test(layer_by_layer_says_that_it_reverses_the_order),
        cmocka_unit_test(longer_text_shows_sources_and_marks),
        cmocka_unit_test(unknown_table_is_a_slip_of_usage_and_writes_nothing),
        cmocka_unit_test(a_stream_that_takes_no_more_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
