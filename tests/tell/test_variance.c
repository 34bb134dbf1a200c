/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_variance.c - which unknown carries the variance, in words, as a table, as JSON. The indices
 * are made up; tests/cli/options.sh has some that were run for.
 */
#include "tell/variance.h"
#include "lib/near.h"
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct span about(double mid)
{
    return (struct span){mid - 0.05, mid, mid + 0.05};
}

/* Three unknowns with names and all others; only the peak and the volume differ between piles. */
static struct sense made(void)
{
    static const char *const name[] = {"wetness of the straw", "how fast sugars decay", "wind", "all others"};
    static const double first[] = {0.2, 0.5, 0.0, 0.05}, total[] = {0.3, 0.6, 0.01, 0.2};
    struct sense s = {.members = 64, .seasons = 384, .unknowns = 40, .rows = 4};
    for (int r = 0; r < s.rows; r++) {
        snprintf(s.name[r], sizeof s.name[r], "%s", name[r]);
        s.index[r][SENSE_PEAK].first = about(first[r]);
        s.index[r][SENSE_PEAK].total = about(total[r]);
        s.index[r][SENSE_VOLUME] = s.index[3 - r][SENSE_PEAK];
    }
    s.variance[SENSE_PEAK] = 9;
    s.variance[SENSE_VOLUME] = 0.01;
    return s;
}

static char *told(const struct sense *s)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    variance_text(out, s, "bank.yaml", "two turns");
    assert_int_equal(fclose(out), 0);
    return text;
}

static const char *at(const char *text, const char *words)
{
    const char *found = strstr(text, words);
    if (!found)
        fail_msg("no \"%s\" in\n%s", words, text);
    return found;
}

static void the_unknown_that_carries_most_of_the_heat_is_named_first(void **state)
{
    (void)state;
    struct sense s = made();
    char *text = told(&s);
    assert_ptr_equal(at(text, "How hot it gets hangs most on this: how fast sugars decay."), text);
    at(text, "about 60 %");
    at(text, "50 % by itself");
    at(text, "40 unknowns, 384 seasons in sets of 64");
    free(text);
}

static void all_others_together_are_never_the_one_that_stands_out(void **state)
{
    (void)state;
    struct sense s = made();
    s.index[3][SENSE_PEAK].total = about(0.9);
    char *text = told(&s);
    at(text, "hangs most on this: how fast sugars decay.");
    free(text);
    for (int r = 0; r < 3; r++)
        s.index[r][SENSE_PEAK].total = about(0.01);
    text = told(&s);
    assert_ptr_equal(at(text, "No single unknown stands out."), text);
    free(text);
    s.variance[SENSE_PEAK] = 0; /* as hot in every pile: nothing to share out */
    text = told(&s);
    at(text, "No single unknown stands out.");
    at(text, "\nhottest daily mean of the middle, C: the same for all\n");
    free(text);
}

static void a_table_falls_by_total_index_and_leaves_out_what_tells_nothing(void **state)
{
    (void)state;
    struct sense s = made();
    char *text = told(&s);
    const char *heat = at(text, "\nhottest daily mean of the middle, C\n"), *end = at(text, "\ndays with the middle above 55 C: ");
    const char *sugars = at(heat, "\nhow fast sugars decay "), *straw = at(heat, "\nwetness of the straw ");
    const char *others = at(heat, "\nall others ");
    assert_true(heat < sugars && sugars < straw && straw < others && others < end);
    const char *wind = strstr(heat, "\nwind ");
    assert_true(!wind || wind > end);
    /* the share of a sample may come out below nothing, which no share can be */
    at(others, " 0.05 (0.00 to 0.10)   0.20 (0.15 to 0.25)\n");
    at(sugars, " 0.50 (0.45 to 0.55)   0.60 (0.55 to 0.65)\n");
    free(text);
}

static void json_has_every_row_of_what_varies_and_none_of_what_does_not(void **state)
{
    (void)state;
    struct sense s = made();
    struct trouble why = {0};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_true(variance_json(out, &s, "bank.yaml", "two turns", &why));
    assert_int_equal(fclose(out), 0);
    json_t *object = json_loads(text, 0, NULL), *answers = json_object_get(object, "sensitivity");
    assert_int_equal(json_array_size(answers), SENSE_ANSWERS);
    for (size_t a = 0; a < SENSE_ANSWERS; a++) {
        json_t *answer = json_array_get(answers, a), *rows = json_object_get(answer, "indices");
        assert_string_equal(json_string_value(json_object_get(answer, "answer")), sense_names[a]);
        assert_near(json_number_value(json_object_get(answer, "variance")), s.variance[a], 1e-12);
        assert_int_equal(json_array_size(rows), s.variance[a] > 0 ? 4 : 0);
    }
    json_t *row = json_array_get(json_object_get(json_array_get(answers, SENSE_PEAK), "indices"), 1);
    assert_string_equal(json_string_value(json_object_get(row, "unknown")), "how fast sugars decay");
    json_decref(object);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_unknown_that_carries_most_of_the_heat_is_named_first),
        cmocka_unit_test(all_others_together_are_never_the_one_that_stands_out),
        cmocka_unit_test(a_table_falls_by_total_index_and_leaves_out_what_tells_nothing),
        cmocka_unit_test(json_has_every_row_of_what_varies_and_none_of_what_does_not),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
