/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_visit.c - ask/visit: sums by hand over a record made up for the purpose. */
#include "ask/visit.h"
#include "lib/near.h"

enum { DAYS = 10, EVENTS = 4 };

struct made {
    struct record record;
    struct record_day day[DAYS];
    struct record_event event[EVENTS];
};

/* An hour's cover and 40 minutes of turning on day 3; two hours of turning on day 7, or a factor of
 * that. */
static void make(struct made *m, double factor)
{
    *m = (struct made){.record = {.days = DAYS, .events = EVENTS}};
    m->record.day = m->day;
    m->record.event = m->event;
    m->event[0] = (struct record_event){.deed = PLAN_COVER, .person_s = 3600};
    m->event[1] = (struct record_event){.deed = PLAN_TURN, .person_s = 2400};
    m->event[2] = (struct record_event){.deed = PLAN_TURN, .person_s = 7200 * factor};
    m->day[3].events = 2;
    for (int d = 4; d < DAYS; d++)
        m->day[d].first_event = 2;
    m->day[7].events = 1;
    for (int d = 8; d < DAYS; d++)
        m->day[d].first_event = 3;
}

static struct plan_people people(double helpers, double visit_s)
{
    return (struct plan_people){.helpers = {1, helpers, 5}, .visit_s = visit_s};
}

static void the_longest_visit_is_shared_by_all_who_help(void **state)
{
    (void)state;
    struct made m;
    make(&m, 1);
    struct plan_people two = people(2, 5400);
    struct visit_long longest = visit_longest(&m.record, &two);
    assert_int_equal(longest.day, 7);
    assert_int_equal(longest.deed, PLAN_TURN);
    assert_near(longest.clock_s, 3600, 0);
    make(&m, 0.5); /* now the deeds of day 3 together take longer, most of it the cover */
    longest = visit_longest(&m.record, &two);
    assert_int_equal(longest.day, 3);
    assert_int_equal(longest.deed, PLAN_COVER);
    assert_near(longest.clock_s, 3000, 0);
}

static void members_that_take_too_long_are_counted(void **state)
{
    (void)state;
    static const double factor[] = {1, 1.25, 1.5, 1.75, 2};
    struct made m[5];
    struct record record[5];
    double room[5];
    for (int i = 0; i < 5; i++) {
        make(&m[i], factor[i]);
        record[i] = m[i].record;
    }
    struct plan_people two = people(2, 90 * 60);
    struct visit_too_long found = visit_too_long(record, 5, &two, room);
    assert_near(found.clock_s.mid, 90 * 60, 0); /* 60, 75, 90, 105 and 120 minutes */
    assert_near(found.over_s, 0, 0);
    assert_int_equal(found.over, 2);
    assert_int_equal(found.usual.day, 7);
    two.visit_s = 0; /* nothing was said of a visit's length */
    assert_int_equal(visit_too_long(record, 5, &two, room).over, 0);
}

static void a_season_without_work_has_no_longest_visit(void **state)
{
    (void)state;
    struct made m = {.record = {.days = DAYS}};
    double room;
    m.record.day = m.day;
    m.record.event = m.event;
    struct plan_people two = people(2, 5400);
    assert_near(visit_longest(&m.record, &two).clock_s, 0, 0);
    assert_int_equal(visit_too_long(&m.record, 1, &two, &room).over, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_longest_visit_is_shared_by_all_who_help),
        cmocka_unit_test(members_that_take_too_long_are_counted),
        cmocka_unit_test(a_season_without_work_has_no_longest_visit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
