/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/ask/test_budget.c - every watt of a budget has a line, and lines add up.
 *
 * That gains less losses are what is stored is conservation of energy, and means of sums are sums of
 * means [derived]; tolerances are the rounding of some dozen double numbers.
 */
#include "ask/budget.h"
#include "lib/near.h"
#include <math.h>
#include <string.h>

static void every_flux_of_energy_has_a_line(void **state)
{
    (void)state;
    for (int k = 0; k < FLUXES; k++) {
        double flux[FLUXES] = {0};
        if (flux_rows[k].of != FLUX_OF_ENERGY)
            continue;
        flux[k] = 7200;
        struct budget b = budget_of(flux, 3600, 300);
        assert_near(b.line_W[BUDGET_STORED], 2, 1e-12);
        for (int i = 0; i < BUDGET_STORED; i++)
            assert_near(b.line_W[i], strcmp(budget_name[i], flux_rows[k].group) == 0 ? 2 : 0, 1e-12);
    }
}

static void water_that_leaves_as_vapour_is_counted_and_priced(void **state)
{
    (void)state;
    double flux[FLUXES] = {0};
    flux[FLUX_air_water] = -2;
    flux[FLUX_vapour_water] = -1;
    flux[FLUX_leachate_water] = -50; /* drains, and is no steam */
    struct budget b = budget_of(flux, 3600, 293.15);
    assert_near(b.dried_kg_per_s * 3600, 3, 1e-12);
    /* 2.45 MJ/kg at about 20 C: Allen et al. 1998, FAO Irrigation and Drainage Paper 56, page 31;
     * memory. To its three digits. */
    assert_near(budget_latent(293.15) / 1e6, 2.45, 0.005);
    assert_near(b.steam_W, 3 * budget_latent(293.15) / 3600, 1e-9);
}

/* two piles, one day and the hours of it */
static struct record_day day[2][2];
static struct record_hour hour[2][RECORD_HOURS];

static void fill(struct record record[2])
{
    for (int m = 0; m < 2; m++) {
        record[m] = (struct record){.days = 2, .day = day[m], .hour = hour[m]};
        for (int k = 0; k < FLUXES; k++) {
            day[m][1].flux[k] = 0;
            for (int h = 0; h < RECORD_HOURS; h++) {
                double flux = 3600 * sin(1 + k + 7 * h + 3 * m);
                hour[m][h].seen_s = 3600;
                hour[m][h].mean_K = day[m][1].mean_K = 320;
                hour[m][h].flux[k] = flux;
                day[m][1].flux[k] += flux;
            }
        }
    }
}

static void the_mean_of_many_adds_up_and_so_do_the_hours(void **state)
{
    (void)state;
    struct record record[2];
    double room[2], of_hours[BUDGET_LINES] = {0};
    fill(record);
    struct budget_range range = budget_range_of(record, 2, 1, -1, room);
    double sum = 0;
    for (int i = 0; i < BUDGET_STORED; i++)
        sum += range.line_W[i].mid;
    assert_near(sum, range.line_W[BUDGET_STORED].mid, 1e-12);
    for (int h = 0; h < RECORD_HOURS; h++)
        for (int i = 0; i < BUDGET_LINES; i++)
            of_hours[i] += budget_range_of(record, 2, 1, h, room).line_W[i].mid / RECORD_HOURS;
    for (int i = 0; i < BUDGET_LINES; i++)
        assert_near(of_hours[i], range.line_W[i].mid, 1e-12);
}

static void the_ways_hold_all_that_isnt_decay_or_added(void **state)
{
    (void)state;
    struct record record[2];
    fill(record);
    struct budget b = budget_at(&record[0], 1, -1);
    double lost = 0;
    for (int way = 0; way < BUDGET_WAYS; way++)
        lost += budget_way_W(&b, (enum budget_way)way);
    assert_near(b.line_W[BUDGET_DECAY] + b.line_W[BUDGET_ADDED] - lost, b.line_W[BUDGET_STORED], 1e-12);
}

static void where_no_way_takes_heat_none_takes_most(void **state)
{
    (void)state;
    struct budget_range range = {.way_W = {{0, -1, 0}, {0, -2, 0}, {0, 0, 0}, {0, -1, 0}, {0, -3, 0}}};
    assert_int_equal(budget_most(&range), -1);
    range.way_W[BUDGET_BY_GROUND].mid = 0.5;
    assert_int_equal(budget_most(&range), BUDGET_BY_GROUND);
}

/* the pile stands from 10 h on: 14 of the first day's 24 hours */
static void the_first_day_is_counted_from_the_hour_of_building(void **state)
{
    (void)state;
    struct record_day first = {.mean_K = 300};
    struct record record = {.days = 1, .day = &first};
    first.flux[FLUX_decay_heat] = 14 * 3600 * 50.0;
    assert_near(budget_day(&record, 0).line_W[BUDGET_DECAY], 50, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_flux_of_energy_has_a_line),
        cmocka_unit_test(water_that_leaves_as_vapour_is_counted_and_priced),
        cmocka_unit_test(the_mean_of_many_adds_up_and_so_do_the_hours),
        cmocka_unit_test(the_ways_hold_all_that_isnt_decay_or_added),
        cmocka_unit_test(where_no_way_takes_heat_none_takes_most),
        cmocka_unit_test(the_first_day_is_counted_from_the_hour_of_building),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
