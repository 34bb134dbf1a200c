/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_compare.c - plans side by side in words: the table tells each plan's middle, the pairs
 * each pile against itself. The figures are made up; nothing about compost is tested with them.
 */
#include "tell/compare.h"
#include "lib/near.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MEMBERS = 5, PLANS = 3 };
static const struct phrase_style METRIC = {true, 0, 0.012}, US = {true, 1, 0.012};

struct made {
    struct scenario scenario;
    struct contender contender[PLANS];
    struct standing standing[PLANS];
    struct outcome outcome[PLANS][MEMBERS];
    struct comparison comparison;
    double room[MEMBERS];
};

/* Ranges of five go from the least to the most [derived].
 * Plan 1 makes each pile two days sooner, but for one that it makes 40 days later: in the table the
 * middle moves from day 30 to 38. */
static const double READY[PLANS][MEMBERS] = {{10, 20, 30, 40, 50}, {8, 60, 28, 38, 48}, {10, 20, 30, 40, 50}};

static struct made *make(int plans)
{
    struct made *m = calloc(1, sizeof *m);
    assert_non_null(m);
    m->scenario.start = date_number((struct date){2025, 10, 18});
    m->scenario.last_day = 99;
    for (int i = 0; i < plans; i++) {
        snprintf(m->scenario.plan[i].name, PLAN_NAME, "way %d", i);
        for (int k = 0; k < MEMBERS; k++)
            m->outcome[i][k] = (struct outcome){
                .computed = true, .ready_day = {READY[i][k], READY[i][k], READY[i][k]}, .water_kg = 12 * i,
                .person_s = 60 * (45 * i + (i ? k : 0)), .peak_K = 273.15 + 60 + k + (i == 2 ? 2 : 0), .hot_days = k};
        m->contender[i] = (struct contender){.file = "a.yaml", .scenario = &m->scenario, .asked = &m->scenario,
                                             .plan = i, .members = MEMBERS, .outcome = m->outcome[i]};
        m->standing[i] = compare_standing(&m->contender[i], m->room);
    }
    m->comparison = (struct comparison){.contender = m->contender, .standing = m->standing, .count = plans,
                                        .files = 1, .members = MEMBERS, .draw = 1, .room = m->room};
    return m;
}

static char *told(struct made *m, const struct phrase_style *style, bool in_full)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    compare_text(out, &m->comparison, style, in_full);
    fclose(out);
    return text;
}

static void holds(const char *text, const char *words)
{
    if (!strstr(text, words))
        fail_msg("no \"%s\" in\n%s", words, text);
}

static void the_pair_is_told_pile_by_pile_and_says_so(void **state)
{
    (void)state;
    struct made *m = make(2);
    char *text = told(m, &METRIC, false);
    holds(text, "way 0               16 Nov (27 Oct-6 Dec)");  /* day 30 (10 to 50) */
    holds(text, "way 1               24 Nov (25 Oct-16 Dec)"); /* day 38 (8 to 60): later in the table */
    holds(text, "why   way 1 against way 0: 2 days sooner (-40 to 2), ahead in 8 in 10;");
    assert_null(strstr(text, "0 to 0"));
    holds(text, "pairs each pile against itself under the other plan, and the middle of those\n"
                "        differences: it needn't be the difference of the table's middles");
    assert_null(strstr(text, "against way 0\n"));
    free(text);
    free(m);
    m = make(1);
    text = told(m, &METRIC, true);
    assert_null(strstr(text, "pairs"));
    free(text);
    free(m);
}

static void the_long_form_sets_every_plan_against_every_other(void **state)
{
    (void)state;
    struct made *m = make(3);
    char *text = told(m, &METRIC, true);
    holds(text, "  plan                work, min        water, L      >55 C, days   hottest, °C\n"
                "  way 0               0                0             2 (0-4)       62 (60-64)\n"
                "  way 1               47 (45-49)       12            2 (0-4)       62 (60-64)\n"
                "  way 2               92 (90-94)       24            2 (0-4)       64 (62-66)\n");
    holds(text, "  against way 0\n"
                "                      days sooner       sooner        hotter           more work\n"
                "  way 1               2 (-40 to 2)      8 in 10       under 1 in 10       47 min\n"
                "  way 2               0                 under 1 in 10 over 9 in 10        92 min\n");
    holds(text, "way 2 against way 0: no sooner, ahead in");
    holds(text, "  against way 1\n"
                "                      days sooner       sooner        hotter           more work\n"
                "  way 2               -2 (-2 to 40)     2 in 10       over 9 in 10        45 min\n");
    assert_null(strstr(text, "against way 2\n"));
    free(text);
    text = told(m, &US, true);
    holds(text, "hottest, °F\n");
    holds(text, " 147 (144-151)\n"); /* 64 (62-66) °C [derived] */
    free(text);
    free(m);
}

static void need(struct made *m, int plans, int day, double chance)
{
    m->scenario.need = (struct plan_need){.is = true, .by = m->scenario.start + day - 1, .what = 0, .chance = chance};
    for (int i = 0; i < plans; i++)
        m->standing[i] = compare_standing(&m->contender[i], m->room);
}

/* 2 h 16 min of work, and its words keep their columns. */
static void hours_of_work_fit_their_column(void **state)
{
    (void)state;
    struct made *m = make(2);
    need(m, 2, 29, 0.9);
    m->standing[1].person_s.mid = 60 * 136;
    char *text = told(m, &METRIC, false);
    holds(text, "4 in 10           0 min   0 L   2 d\n");
    holds(text, "4 in 10          2 h 16  12 L   2 d\n");
    free(text);
    free(m);
}

/* How many of the five are ready by a day is counted in READY. */
static void the_first_sentence_takes_what_is_in_time_or_says_that_nothing_is(void **state)
{
    (void)state;
    struct made *m = make(2);
    need(m, 2, 45, 0.7); /* 4 of 5 of each: the one without work is enough */
    char *text = told(m, &METRIC, false);
    holds(text, "Take `way 0`: ready for mulch by 1 Dec in 8 (");
    holds(text, ", without work.");
    free(text);
    need(m, 2, 9, 0.2); /* none of way 0, one of way 1 */
    text = told(m, &METRIC, false);
    holds(text, "Take `way 1`: ready for mulch by 26 Oct in 2 (");
    holds(text, "for 47 min of work.");
    free(text);
    need(m, 2, 29, 0.9); /* 2 of 5 of each: the one without work is as near */
    text = told(m, &METRIC, false);
    holds(text, "None of these 2 plans is ready for mulch by 15 Nov with the 9 in 10 you ask for;\nnearest is `way 0`: "
                "4 (2-7) in 10, without work.");
    free(text);
    free(m);
    m = make(1);
    need(m, 1, 5, 0.9);
    text = told(m, &METRIC, false);
    holds(text, "No plan is ready for mulch by 22 Oct with the 9 in 10 you ask for; there is only\n`way 0`: fewer than 1 in 10, without work.");
    free(text);
    free(m);
}

static void what_is_never_ready_is_told_as_never(void **state)
{
    (void)state;
    struct made *m = make(1);
    for (int k = 0; k < MEMBERS; k++)
        for (int use = 0; use < OUTCOME_USES; use++)
            m->outcome[0][k].ready_day[use] = NAN;
    m->standing[0] = compare_standing(&m->contender[0], m->room);
    char *text = told(m, &METRIC, false);
    holds(text, "None is ready for beds before the season ends on 25 Jan"); /* day 100 from 18 Oct [derived] */
    holds(text, "later");
    free(text);
    free(m);
}

/* Pairs in words: way 1 against way 0 with given days sooner and work. */
static void paired(double days_later, double minutes, const char *wanted)
{
    struct made *m = make(2);
    for (int k = 0; k < MEMBERS; k++) {
        for (int use = 0; use < OUTCOME_USES; use++)
            m->outcome[1][k].ready_day[use] = m->outcome[0][k].ready_day[use] + days_later;
        m->outcome[0][k].person_s = 3600;
        m->outcome[1][k].person_s = 3600 + 60 * minutes;
    }
    for (int i = 0; i < 2; i++)
        m->standing[i] = compare_standing(&m->contender[i], m->room);
    char *text = NULL, *to;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    compare_against(out, &m->comparison, "why");
    fclose(out);
    to = text;
    for (const char *at = text; *at; at++)
        if (!(*at == ' ' || *at == '\n') || (to > text && to[-1] != ' '))
            *to++ = *at == '\n' ? ' ' : *at;
    *to = '\0';
    holds(text, wanted);
    free(text);
    free(m);
}

static void a_pair_is_sooner_later_or_neither_for_more_work_or_none(void **state)
{
    (void)state;
    paired(-9, 30, "way 1 against way 0: 9 days sooner (9 to 9), ahead in over 9 in 10; 30 min more work");
    paired(-1, 30, "way 1 against way 0: 1 day sooner (1 to 1), ahead in over 9 in 10; 30 min more work, hardly worth it");
    paired(4, 30, "way 1 against way 0: 4 days later (4 to 4), ahead in under 1 in 10; 30 min more work, hardly worth it");
    paired(0, 0, "no sooner, ahead in under 1 in 10; no more work");
}

static void gardens_are_told_apart_by_name_and_namesakes_by_file(void **state)
{
    (void)state;
    struct made *m = make(2);
    struct scenario other = m->scenario;
    strcpy(m->scenario.name, "Sorrel Bank");
    strcpy(other.name, "Nettle Yard");
    m->comparison.files = 2;
    m->contender[1].scenario = &other;
    m->contender[1].file = "plots/b.yaml";
    char *text = told(m, &METRIC, false);
    holds(text, "way 0, Sorrel Bank");
    holds(text, "way 1, Nettle Yard");
    free(text);
    strcpy(other.name, "Sorrel Bank");
    text = told(m, &METRIC, false);
    holds(text, "way 0, a.yaml");
    holds(text, "way 1, b.yaml");
    free(text);
    free(m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_pair_is_told_pile_by_pile_and_says_so),
        cmocka_unit_test(the_long_form_sets_every_plan_against_every_other),
        cmocka_unit_test(hours_of_work_fit_their_column),
        cmocka_unit_test(the_first_sentence_takes_what_is_in_time_or_says_that_nothing_is),
        cmocka_unit_test(what_is_never_ready_is_told_as_never),
        cmocka_unit_test(a_pair_is_sooner_later_or_neither_for_more_work_or_none),
        cmocka_unit_test(gardens_are_told_apart_by_name_and_namesakes_by_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
