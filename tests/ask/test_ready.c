/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_ready.c - readiness of made-up records: lines, curing, reasons, many piles.
 *
 * A record is a row of days alike; a test changes what it is about. Whole seasons are judged in
 * tests/run/test_survey.c.
 */
#include "ask/ready.h"
#include "lib/near.h"
#include <stdlib.h>

enum { DAYS = 200, ICE = 273 };

struct made {
    struct record record;
    struct record_day day[DAYS];
};

/* Finished in every way: mild, moist, aired, quiet. */
static struct record_day finished(void)
{
    struct record_day day = {.air_K = ICE + 12, .middle_K = ICE + 15, .mean_K = ICE + 14,
                             .water_share = 0.55, .carbon_kg = 18, .nitrogen_kg = 1,
                             .test_breath_per_s = 1e-3 / 86400, .flask_rise_K = 4,
                             .sticks_share = 0.05};
    for (int p = 0; p < RECORD_PLACES; p++)
        for (int n = 0; n < RECORD_LIMITS; n++)
            day.limit[p][n] = n == RECORD_TEMPERATURE ? 0.3 : n == RECORD_FOOD ? 0.04 : 0.95;
    return day;
}

static void limit_all(struct record_day *day, enum record_limit limit, double share)
{
    for (int p = 0; p < RECORD_PLACES; p++)
        day->limit[p][limit] = share;
}

static struct made *made_of(struct record_day day)
{
    struct made *m = calloc(1, sizeof *m);
    assert_non_null(m);
    for (int d = 0; d < DAYS; d++)
        m->day[d] = day;
    m->record.days = DAYS;
    m->record.day = m->day;
    return m;
}

static const struct scenario *no_need(void)
{
    static const struct scenario scenario = {.start = 20000};
    return &scenario;
}

static double when(struct record_day day, int use)
{
    struct made *m = made_of(day);
    double ready = ready_day(&m->record, no_need(), use);
    free(m);
    return ready;
}

static enum ready_why why(struct record_day day, int use)
{
    struct made *m = made_of(day);
    enum ready_why held = ready_why(&m->record, no_need(), use, DAYS);
    free(m);
    return held;
}

/* Just under and just over each line. Breath 8, 4 and 2 mg of carbon per g and day: end of "stable"
 * and of "very stable" (TMECC 05.08-B [memory]), the Canadian limit between (CCME 2005 [memory]).
 * Rise 30, 20 and 10 K: classes III, IV, V [memory]. C:N 25: California index 2001 [memory]. */
static void each_use_has_its_lines(void **state)
{
    (void)state;
    static const double breath_mg[READY_USES] = {8, 4, 2}, rise_K[READY_USES] = {30, 20, 10};
    for (int use = 0; use < READY_USES; use++) {
        struct record_day day = finished();
        day.test_breath_per_s = (breath_mg[use] - 0.01) * 1e-3 / 86400;
        day.flask_rise_K = rise_K[use] - 0.1;
        assert_true(isfinite(when(day, use)));
        day.flask_rise_K = rise_K[use] + 0.1;
        assert_true(isnan(when(day, use)));
        day.flask_rise_K = rise_K[use] - 0.1;
        day.test_breath_per_s = (breath_mg[use] + 0.01) * 1e-3 / 86400;
        assert_true(isnan(when(day, use)));
    }
    struct record_day wood = finished();
    wood.carbon_kg = 25.1;
    assert_true(isfinite(when(wood, READY_BEDS))); /* not short of nitrogen */
    assert_true(isnan(when(wood, READY_POTS)));
    limit_all(&wood, RECORD_NITROGEN, 0.7);
    assert_true(isnan(when(wood, READY_BEDS)));
    assert_true(isfinite(when(wood, READY_MULCH)));
    wood.carbon_kg = 24.9;
    assert_true(isfinite(when(wood, READY_POTS)));
}

/* Whatever serves pots serves beds, and what serves beds serves as mulch, no later. [derived] */
static void a_stricter_use_is_never_ready_sooner(void **state)
{
    (void)state;
    for (int i = 0; i < 4096; i++) {
        struct record_day day = finished();
        day.test_breath_per_s = (i % 8) * 1.5e-3 / 86400;
        day.flask_rise_K = 6.0 * (i / 8 % 8);
        day.carbon_kg = 16 + 3 * (i / 64 % 4);
        day.sticks_share = 0.2 * (i / 256 % 4);
        limit_all(&day, RECORD_NITROGEN, 0.2 + 0.25 * (i / 1024));
        double mulch = when(day, READY_MULCH), beds = when(day, READY_BEDS);
        double pots = when(day, READY_POTS);
        assert_true(isnan(beds) || mulch <= beds);
        assert_true(isnan(pots) || beds <= pots);
    }
}

/* Four weeks after the last heat (county guide [seen]) for beds; eight for pots (one to three months
 * [trade]). Days below freezing count for nothing, at 5 C for half [trade]. */
static void curing_counts_from_the_last_hot_day(void **state)
{
    (void)state;
    struct made *m = made_of(finished());
    m->day[9].middle_K = ICE + 46; /* day 10 */
    assert_near(ready_day(&m->record, no_need(), READY_MULCH), 11, 0);
    assert_near(ready_day(&m->record, no_need(), READY_BEDS), 10 + 28, 0);
    assert_near(ready_day(&m->record, no_need(), READY_POTS), 10 + 56, 0);
    m->day[49].middle_K = ICE + 50; /* it heats again */
    assert_near(ready_day(&m->record, no_need(), READY_BEDS), 50 + 28, 0);
    for (int d = 50; d < 150; d++)
        m->day[d].mean_K = 272;
    assert_near(ready_cured_days(&m->record, no_need(), 150), 0, 0);
    for (int d = 150; d < 160; d++)
        m->day[d].mean_K = 278.15;
    assert_near(ready_cured_days(&m->record, no_need(), 160), 5, 1e-9);
    assert_near(ready_day(&m->record, no_need(), READY_BEDS), 160 + 23, 0);
    free(m);
}

/* Found cool half a year after it was built, it has cured long ago; found after a month, not. [trade] */
static void a_pile_found_old_has_cured_before(void **state)
{
    (void)state;
    struct made *m = made_of(finished());
    struct scenario *found = calloc(1, sizeof *found);
    assert_non_null(found);
    found->found = (struct plan_found){.is = true, .built_days_ago = 180};
    assert_near(ready_day(&m->record, found, READY_POTS), 1, 0);
    found->found.built_days_ago = 30;
    assert_near(ready_day(&m->record, found, READY_BEDS), 28, 0);
    m->day[0].middle_K = ICE + 50; /* found hot: what was before doesn't count */
    found->found.built_days_ago = 180;
    assert_near(ready_day(&m->record, found, READY_BEDS), 29, 0);
    free(found);
    free(m);
}

/* Ready is ready to the end: what works again was not. [derived] */
static void one_bad_day_late_undoes_what_was_before(void **state)
{
    (void)state;
    struct made *m = made_of(finished());
    m->day[DAYS - 2].test_breath_per_s = 9e-3 / 86400;
    assert_near(ready_day(&m->record, no_need(), READY_MULCH), DAYS, 0);
    assert_int_equal(ready_why(&m->record, no_need(), READY_MULCH, 100), READY_RESTING);
    m->day[DAYS - 1].flask_rise_K = 45;
    assert_true(isnan(ready_day(&m->record, no_need(), READY_MULCH)));
    free(m);
}

/* ---- why not ---- */

static struct record_day raw_and_cool(void)
{
    struct record_day day = finished();
    day.test_breath_per_s = 10e-3 / 86400;
    day.flask_rise_K = 42;
    limit_all(&day, RECORD_FOOD, 0.9);
    return day;
}

/* One thing at a time is wrong; the order is the trade's: water, air, food, then cold and size. */
static void each_reason_has_its_sign(void **state)
{
    (void)state;
    struct record_day day = raw_and_cool();
    assert_int_equal(why(day, READY_BEDS), READY_SMALL); /* it could heat, the air is mild */
    day.air_K = ICE + 1;
    day.middle_K = day.mean_K = ICE + 4;
    assert_int_equal(why(day, READY_BEDS), READY_COLD);
    day.middle_K = day.mean_K = ICE - 1;
    limit_all(&day, RECORD_TEMPERATURE, 0.01);
    assert_int_equal(why(day, READY_BEDS), READY_FROZEN);
    day = raw_and_cool();
    limit_all(&day, RECORD_WATER, 0.2);
    assert_int_equal(why(day, READY_BEDS), READY_DRY);
    day = raw_and_cool();
    limit_all(&day, RECORD_OXYGEN, 0.2);
    assert_int_equal(why(day, READY_BEDS), READY_AIRLESS);
    day.water_share = 0.75;
    assert_int_equal(why(day, READY_BEDS), READY_WET);
    day = raw_and_cool();
    limit_all(&day, RECORD_NITROGEN, 0.3);
    assert_int_equal(why(day, READY_BEDS), READY_HUNGRY);
    day = raw_and_cool();
    day.middle_K = ICE + 40;
    assert_int_equal(why(day, READY_BEDS), READY_WORKING);
    day.middle_K = ICE + 60;
    assert_int_equal(why(day, READY_BEDS), READY_WORKING);
    day = finished();
    day.sticks_share = 0.6;
    assert_int_equal(why(day, READY_BEDS), READY_WOODY);
    day = finished();
    day.test_breath_per_s = 3e-3 / 86400;
    assert_int_equal(why(day, READY_POTS), READY_RESTING);
    assert_int_equal(why(day, READY_BEDS), READY_IS);
    assert_int_equal(why(finished(), READY_POTS), READY_IS);
}

static void every_reason_but_ready_has_a_word(void **state)
{
    (void)state;
    assert_null(ready_why_word[READY_IS]);
    for (int i = READY_IS + 1; i < READY_WHYS; i++)
        assert_non_null(ready_why_word[i]);
    assert_string_equal(ready_why_word[READY_HUNGRY], "starved of nitrogen");
    assert_string_equal(ready_why_word[READY_RESTING], "resting");
}

static void a_season_without_days_says_nothing(void **state)
{
    (void)state;
    struct record none = {0};
    assert_true(isnan(ready_day(&none, no_need(), READY_BEDS)));
    assert_int_equal(ready_why(&none, no_need(), READY_BEDS, 1), READY_IS);
}

/* ---- many ---- */

/* Ten piles: five ready in time, one later, three dry and one working. Five in ten, and the commonest
 * reason is told. The range of the chance is Wilson's (1927, J. Am. Stat. Assoc. 22, 209 [memory]),
 * at a half: 0.5 +- z sqrt(1/4n + z^2/4n^2)/(1 + z^2/n). */
static void many_piles_give_a_chance_a_range_and_the_commonest_reason(void **state)
{
    (void)state;
    enum { PILES = 10 };
    struct record record[PILES];
    struct made *made[PILES];
    double room[PILES];
    struct scenario *scenario = calloc(1, sizeof *scenario);
    assert_non_null(scenario);
    scenario->start = 20000;
    scenario->need = (struct plan_need){.is = true, .by = 20000 + 99, .what = READY_BEDS};
    for (int i = 0; i < PILES; i++) {
        struct record_day day = finished();
        if (i >= 6) {
            day = raw_and_cool();
            if (i == 9)
                day.middle_K = ICE + 40;
            else
                limit_all(&day, RECORD_WATER, 0.2);
        }
        made[i] = made_of(day);
        record[i] = made[i]->record;
    }
    for (int d = 0; d <= 120; d++)
        made[5]->day[d].middle_K = ICE + 50; /* ready, but after the need */
    struct ready_summary s = ready_summary(record, PILES, scenario, READY_BEDS, room);
    assert_int_equal(s.not_ready, 5);
    assert_int_equal(s.never, 4);
    assert_int_equal(s.why, READY_DRY);
    assert_near(s.chance.mid, 0.5, 1e-12);
    double z2 = 1.2815515655 * 1.2815515655, half = sqrt(z2) * sqrt(0.25 / 10 + z2 / 400) / (1 + z2 / 10);
    assert_near(s.chance.low, 0.5 - half, 1e-9);
    assert_near(s.chance.high, 0.5 + half, 1e-9);
    assert_near(s.day.low, 28, 0);
    assert_near(s.day.mid, (28 + 149) / 2.0, 1e-9);
    assert_true(isnan(s.day.high));
    assert_int_equal(ready_told_day(&record[0], scenario), 100);
    scenario->need.is = false;
    s = ready_summary(record, PILES, scenario, READY_BEDS, room);
    assert_int_equal(s.not_ready, 4);
    assert_true(isnan(s.chance.mid));
    assert_int_equal(ready_told_day(&record[0], scenario), DAYS);
    for (int i = 0; i < PILES; i++)
        free(made[i]);
    free(scenario);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_use_has_its_lines),
        cmocka_unit_test(a_stricter_use_is_never_ready_sooner),
        cmocka_unit_test(curing_counts_from_the_last_hot_day),
        cmocka_unit_test(a_pile_found_old_has_cured_before),
        cmocka_unit_test(one_bad_day_late_undoes_what_was_before),
        cmocka_unit_test(each_reason_has_its_sign),
        cmocka_unit_test(every_reason_but_ready_has_a_word),
        cmocka_unit_test(a_season_without_days_says_nothing),
        cmocka_unit_test(many_piles_give_a_chance_a_range_and_the_commonest_reason),
    };
    return cmocka_run_group_tests_name("ask/ready", tests, NULL, NULL);
}
