/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_visits.c - visits that take too long or fall on the wrong day, in words. Records are made
 * up; sums by hand [derived].
 */
#include "tell/visits.h"
#include "ask/piles.h"

enum { DAY = 14 }; /* 1 November */

/* Five possible piles that are turned on 1 November, each with so many person-minutes of work. */
static struct piles *turned(const double minutes[PILES_MEMBERS])
{
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD "plans:\n  one:\n    - {day: 2025-11-01, turn: mixed}\n", 0);
    for (int m = 0; m < PILES_MEMBERS; m++) {
        piles_do(p, m, DAY, (struct record_event){.deed = PLAN_COVER, .person_s = 60});
        piles_do(p, m, DAY, (struct record_event){.deed = PLAN_TURN, .person_s = 60 * (minutes[m] - 1)});
    }
    return p;
}

static void assert_line(struct piles *p, const char *wanted)
{
    const struct tale tale = {.record = p->record, .members = PILES_MEMBERS, .room = p->room,
                              .scenario = &p->scenario};
    char *text = NULL, *to;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    visits_line(out, &tale);
    assert_int_equal(fclose(out), 0);
    to = text;
    for (const char *at = text; *at; at++)
        if (!(*at == ' ' || *at == '\n') || (to > text && to[-1] != ' '))
            *to++ = *at == '\n' ? ' ' : *at;
    *to = '\0';
    assert_string_equal(text, wanted);
    free(text);
}

static void work_that_fits_the_visit_is_not_mentioned(void **state)
{
    (void)state;
    /* 270 person-minutes are 90 minutes for three, just what the visit allows */
    struct piles *p = turned((const double[]){150, 180, 210, 240, 270});
    assert_line(p, "");
    free(p);
    /* one in five takes longer: no more often than is worth a line */
    p = turned((const double[]){150, 180, 210, 240, 300});
    assert_line(p, "");
    free(p);
}

static void work_that_takes_longer_in_most_piles_is_told_with_the_minutes_it_is_over(void **state)
{
    (void)state;
    struct piles *p = turned((const double[]){360, 360, 360, 360, 360});
    assert_line(p, "time turning on 1 Nov takes 120 min by the clock with 3 people: 30 min more than a visit of 90 min ");
    p->scenario.people.helpers = (struct span){1, 1, 1};
    p->scenario.people.visit_s = 5 * 3600;
    assert_line(p, "time turning on 1 Nov takes 360 min by the clock with 1 person: 60 min more than a visit of 5 h ");
    free(p);
    /* 90 to 150 minutes by the clock; of five, the least and the most */
    p = turned((const double[]){270, 315, 360, 405, 450});
    assert_line(p, "time turning on 1 Nov takes 120 (90-150) min by the clock with 3 people: 30 min more than a visit "
                   "of 90 min ");
    free(p);
}

static void work_that_takes_longer_in_some_piles_is_told_with_their_chance(void **state)
{
    (void)state;
    /* the middle keeps to it; 2 of 5 don't [Wilson 1927, as in test_outing: 4 (2-7) in 10] */
    struct piles *p = turned((const double[]){150, 180, 210, 300, 330});
    const struct tale tale = {.record = p->record, .members = PILES_MEMBERS, .room = p->room,
                              .scenario = &p->scenario};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    visits_line(out, &tale);
    assert_int_equal(fclose(out), 0);
    assert_non_null(strstr(text, "takes 70 ("));
    assert_non_null(strstr(text, "4 (2-7) in 10"));
    assert_null(strstr(text, "min more"));
    free(text);
    free(p);
}

static void a_visit_that_meets_nobody_is_told_with_its_date_and_weekday(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD
        "plans:\n"
        "  dated:\n    - {day: 2025-11-08, turn: mixed}\n    - {day: 2025-11-05, turn: mixed}\n"
        "  round:\n    - {every: 14 days, from: 2025-11-05, until: 2025-12-05, turn: mixed}\n", 0);
    static const char *const wanted[] = {
        /* 5 November 2025 is a Wednesday [derived: 18 days after Saturday 18 October] */
        "plan \"dated\": 5 November 2025 is a Wednesday, none of your days; done all the same",
        "plan \"dated\": 8 November 2025 is a day away; done all the same",
        "plan \"round\": what comes round from 5 November 2025, a Wednesday, never meets a day of yours; "
        "it is never done"};
    struct visit_odd odd[4];
    int count = visit_odds(&p->scenario, odd, 4), met = 0;
    assert_int_equal(count, 3);
    for (int w = 0; w < 3; w++)
        for (int i = 0; i < count; i++) {
            char text[VISITS_TEXT];
            visits_odd(text, &odd[i], &p->scenario);
            met += !strcmp(text, wanted[w]);
        }
    assert_int_equal(met, 3);
    free(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(work_that_fits_the_visit_is_not_mentioned),
        cmocka_unit_test(work_that_takes_longer_in_most_piles_is_told_with_the_minutes_it_is_over),
        cmocka_unit_test(work_that_takes_longer_in_some_piles_is_told_with_their_chance),
        cmocka_unit_test(a_visit_that_meets_nobody_is_told_with_its_date_and_weekday),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
