/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_able.c - many/able: what failed is left out and named [derived by hand]. */
#include "many/able.h"
#include "lib/near.h"
#include <stdlib.h>

enum { MEMBERS = 4 };

static void the_others_are_closed_up_in_their_order(void **state)
{
    (void)state;
    struct able able;
    struct trouble why = {0};
    char *failed[MEMBERS] = {NULL, (char[]){"no room"}, NULL, NULL};
    struct record_day day[MEMBERS] = {{.middle_K = 301}, {.middle_K = 0}, {.middle_K = 303},
                                      {.middle_K = 302}};
    struct record record[MEMBERS] = {{.days = 1, .day = &day[0]}, {0}, {.days = 1, .day = &day[2]},
                                     {.days = 1, .day = &day[3]}};
    struct crew_done done = {.record = record, .failed = failed, .first = 9, .members = MEMBERS,
                             .failures = 1};
    assert_true(able_of(&able, &done, &why));
    assert_int_equal(able.members, 3);
    assert_ptr_equal(able.record[1].day, &day[2]);
    assert_ptr_equal(able.record[2].day, &day[3]);
    assert_int_equal(able.failures, 1);
    assert_int_equal(able.failed[0], 10); /* the second of those from the ninth on */
    struct span *middle_K = able_middle_K(&able, 1);
    assert_non_null(middle_K);
    assert_near(middle_K[0].mid, 302, 0);
    free(middle_K);
    able_free(&able);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_others_are_closed_up_in_their_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
