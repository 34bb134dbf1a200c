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

/* Ranges are tenths of five, a line drawn between neighbours: 10 and 20 give 14 [derived].
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
    holds(text, "way 0               16 Nov (31 Oct-2 Dec)");  /* day 30 (14 to 46) */
    holds(text, "way 1               24 Nov (2 Nov-11 Dec)"); /* day 38 (16 to 55): later in the table */
    holds(text, "why   way 1 against way 0: 2 days sooner (-23 to 2), ahead in 8 in 10;");
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
                "  way 1               2 (-23 to 2)      8 in 10       under 1 in 10       47 min\n"
                "  way 2               0                 under 1 in 10 over 9 in 10        92 min\n");
    holds(text, "way 2 against way 0: no sooner, ahead in");
    holds(text, "  against way 1\n"
                "                      days sooner       sooner        hotter           more work\n"
                "  way 2               -2 (-2 to 23)     2 in 10       over 9 in 10        45 min\n");
    assert_null(strstr(text, "against way 2\n"));
    free(text);
    text = told(m, &US, true);
    holds(text, "hottest, °F\n");
    holds(text, " 147 (144-150)\n"); /* 64 (62.4-65.6) °C [derived] */
    free(text);
    free(m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_pair_is_told_pile_by_pile_and_says_so),
        cmocka_unit_test(the_long_form_sets_every_plan_against_every_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
