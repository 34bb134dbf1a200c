/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_log.c - door/log: log sheets as people fill them in. 32 F is 0 C, an inch is 2.54 cm
 * [exact by definition].
 */
#include "door/log.h"
#include "lib/scratch.h"
#include <stdlib.h>

static struct trouble WHY;

static bool read_text(void **state, const char *text, struct scenario *scenario)
{
    FILE *file = fopen(scratch_path(state, "log.csv"), "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
    WHY = (struct trouble){0};
    memset(scenario, 0, sizeof *scenario);
    scenario->start = date_number((struct date){2025, 10, 18});
    return log_read(scenario, scratch_path(state, "log.csv"), &WHY);
}

static struct scenario *take(void **state, const char *text)
{
    struct scenario *scenario = malloc(sizeof *scenario);
    assert_non_null(scenario);
    if (!read_text(state, text, scenario))
        fail_msg("%s", WHY.text);
    return scenario;
}

static void refuse(void **state, const char *text, const char *place, const char *words)
{
    struct scenario *scenario = malloc(sizeof *scenario);
    char start[64];
    assert_non_null(scenario);
    assert_false(read_text(state, text, scenario));
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    snprintf(start, sizeof start, "log.csv:%s: ", place);
    if (!strstr(WHY.text, start) || !strstr(WHY.text, words))
        fail_msg("%s\nwanted %s and %s", WHY.text, start, words);
    free(scenario);
}

static void the_printed_sheets_own_columns_are_read(void **state)
{
    struct scenario *s = take(state,
        "date,hour,middle C,30 cm in C,hand deep C,air C,squeeze,height cm,we did\n"
        "2025-10-21,17,58,50,41,9,drips,80,\"turned it, a little\"\n");
    assert_int_equal(s->notes, 1);
    assert_int_equal(s->readings, 6);
    assert_near(s->reading[0].day, 3 + 17.0 / 24, 1e-12);
    assert_int_equal(s->reading[0].what, PLAN_READ_MIDDLE);
    assert_near(s->reading[0].value, 331.15, 1e-9);
    assert_int_equal(s->reading[1].what, PLAN_READ_INSIDE);
    assert_near(s->reading[1].depth_m, 0.30, 1e-12);
    assert_near(s->reading[2].depth_m, 0.10, 1e-12);
    assert_near(s->reading[2].value, 314.15, 1e-9);
    assert_int_equal(s->reading[3].what, PLAN_READ_AIR);
    assert_near(s->reading[4].value, 0.80, 1e-12);
    assert_int_equal(s->reading[5].squeeze, PLAN_DRIPS);
    assert_int_equal(s->last_reading, date_number((struct date){2025, 10, 21}));
    free(s);
}

static void empty_fields_and_empty_rows_were_not_read(void **state)
{
    struct scenario *s = take(state, "date,middle F,height in,squeeze\n"
                                     "2025-10-20,50,,\n\n,,,\n# a note\n2025-10-22,,20,\n");
    assert_int_equal(s->notes, 2);
    assert_int_equal(s->readings, 2);
    assert_near(s->reading[0].value, 283.15, 1e-9);
    assert_near(s->reading[0].day, 2 + 10.0 / 24, 1e-12); /* ten in the morning where no hour stands */
    assert_near(s->reading[1].value, 0.508, 1e-12);
    free(s);
}

static void depths_of_ones_own_are_columns(void **state)
{
    struct scenario *s = take(state, "date,20 cm in C,45 cm in (F)\n2025-10-19,40,104\n");
    assert_near(s->reading[0].depth_m, 0.20, 1e-12);
    assert_near(s->reading[1].depth_m, 0.45, 1e-12);
    assert_near(s->reading[1].value, 313.15, 1e-9);
    free(s);
}

static void mistakes_name_line_and_column(void **state)
{
    refuse(state, "date,middle\n2025-10-20,50\n", "1:2", "no unit");
    refuse(state, "middle C\n50\n", "1:2", "no column \"date\"");
    refuse(state, "date,middel C\n", "1:2", "did you mean \"middle\"");
    refuse(state, "date,20 cm in C,20 cm in C\n", "1:3", "tells the same as column 2");
    refuse(state, "date,middle C\n2025-10-17,50\n", "2:1", "before the start");
    refuse(state, "date,middle C\n2025-13-17,50\n", "2:1", "a day such as");
    refuse(state, "date,middle C\n2025-10-20,150\n", "2:2", "-60 to 100 C");
    refuse(state, "date,middle C\n2025-10-20,warm\n", "2:2", "a number is expected");
    refuse(state, "date,squeeze\n2025-10-20,damp\n", "2:2", "dusty, crumbles, holds, drips or runs");
    refuse(state, "date,hour\n2025-10-20,10.5\n", "2:2", "a whole number");
    refuse(state, "date,hour\n2025-10-20,24\n", "2:2", "0 to 23");
    refuse(state, "date,height m\n2025-10-20,5.1\n", "2:2", "2 cm to 5 m");
    refuse(state, "date,height cm\n2025-10-20,1.9\n", "2:2", "2 cm to 5 m");
    refuse(state, "date,middle C\n2025-10-20\n", "2:2", "1 fields; 2 are expected");
}

static void more_readings_than_there_is_room_for_are_refused(void **state)
{
    enum { ROWS = PLAN_READINGS + 1 };
    char *text = malloc(64 + ROWS * 20);
    assert_non_null(text);
    int at = sprintf(text, "date,middle C\n");
    for (int i = 0; i < ROWS; i++)
        at += sprintf(text + at, "2025-10-20,50\n");
    refuse(state, text, "402:1", "more than 400 readings");
    free(text);
}

static void a_missing_log_is_told_apart_from_a_bad_one(void **state)
{
    struct scenario *scenario = calloc(1, sizeof *scenario);
    struct trouble why = {0};
    assert_non_null(scenario);
    assert_false(log_read(scenario, scratch_path(state, "none.csv"), &why));
    assert_int_equal(why.kind, TROUBLE_ABSENT);
    free(scenario);
}

#define LOG_TEST(test) cmocka_unit_test_setup_teardown(test, scratch_open, scratch_close)

int main(void)
{
    const struct CMUnitTest tests[] = {
        LOG_TEST(the_printed_sheets_own_columns_are_read),
        LOG_TEST(empty_fields_and_empty_rows_were_not_read),
        LOG_TEST(depths_of_ones_own_are_columns),
        LOG_TEST(mistakes_name_line_and_column),
        LOG_TEST(more_readings_than_there_is_room_for_are_refused),
        LOG_TEST(a_missing_log_is_told_apart_from_a_bad_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
