/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_garden.c - door/garden, door/people and door/notes: place, sky, need, people. */
#include "door/reading.h"
#include "know/skies.h"

#define WITHOUT_SKY                                                                                \
    "midden: 1\nstart: 2025-10-18\nplace: {latitude: 33.9 S, elevation: 1000 ft, sun: shade,"      \
    " wind: open}\n" READING_BIN READING_PILE

static bool assumes(const char *start)
{
    for (int i = 0; i < READ.assumed; i++)
        if (!strncmp(READ.assumption[i], start, strlen(start)))
            return true;
    return false;
}

static void normals_are_read_in_either_units(void **state)
{
    (void)state;
    const struct scenario *s =
        reading_good(WITHOUT_SKY "sky:\n"
                                 "  night low: 32 32 32 32 32 32 32 32 32 32 32 14 F\n"
                                 "  day high: 10 10 10 10 10 10 10 10 10 10 10 10 C\n"
                                 "  rain: 1 2 1 1 1 1 0 1 1 1 1 1 in\n"
                                 "  wet days: 4 5 4 4 4 4 0 4 4 4 4 4.5\n");
    assert_int_equal(s->sky, PLAN_SKY_NORMALS);
    assert_near(s->normals[0][0], 273.15, 1e-9);
    assert_near(s->normals[0][11], 263.15, 1e-9);
    assert_near(s->normals[1][5], 283.15, 1e-9);
    assert_near(s->normals[2][1], 0.0508, 1e-12);
    assert_near(s->normals[3][11], 4.5, 0.0);
    assert_near(s->place.latitude_rad, -33.9 * 3.14159265358979323846 / 180.0, 1e-12);
    assert_near(s->place.elevation_m, 304.8, 1e-9);
    assert_int_equal(s->place.sun, PLAN_SHADE);
    assert_int_equal(s->place.wind, PLAN_OPEN_WIND);
    assert_false(assumes("sky") || assumes("sun") || assumes("wind") || assumes("elevation"));
}

static void a_weather_file_lies_beside_the_scenario(void **state)
{
    (void)state;
    static const char text[] = WITHOUT_SKY "sky: {weather: days.csv}\n";
    assert_true(scenario_read_text(&READ, text, strlen(text), "some/where/a.yaml", &WHY));
    assert_int_equal(READ.sky, PLAN_SKY_FILE);
    assert_string_equal(READ.sky_file, "some/where/days.csv");
    assert_true(scenario_read_text(&READ, text, strlen(text), "-", &WHY));
    assert_string_equal(READ.sky_file, "days.csv");
    reading_good(WITHOUT_SKY "sky: {weather: /data/days.csv}\n");
    assert_string_equal(READ.sky_file, "/data/days.csv");
}

static void a_named_sky_lends_its_height_and_says_so(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(
        "midden: 1\nstart: 2025-10-18\nplace: {latitude: 40 N}\nsky: dry upland\n" READING_BIN
            READING_PILE);
    int row = skies_find("dry upland");
    assert_int_equal(s->sky_row, row);
    assert_near(s->place.elevation_m, skies_rows[row].elevation_m, 0.0);
    assert_int_equal(s->place.sun, PLAN_HALF_SUN);
    assert_int_equal(s->place.wind, PLAN_SOME_WIND);
    assert_true(assumes("elevation: 1900 m"));
    assert_true(assumes("sky: `dry upland`"));
}

static void vessels_are_the_gardens_own(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(READING_BASE "measures: {bucket: 5 US gallons}\n");
    assert_near(s->bucket_m3, 5 * 3.785411784e-3, 1e-12);
    assert_near(s->bag_m3, 0.110, 1e-12);
    assert_near(s->barrow_m3, 0.085, 1e-12);
    assert_near(s->layer[0].portion[1].volume_m3.mid, 150 * 3.785411784e-3, 1e-12);
    assert_false(assumes("bucket"));
    assert_true(assumes("bag: 110 L") && assumes("barrow: 85 L"));
}

static void need_is_a_date_a_use_a_chance_and_beds(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(
        READING_BASE "need: {by: 2026-04-18, for: pots, chance: 9 in 10, beds: 4 of 1.2 x 3 m at"
                     " 2.5 cm, harvest: {lettuce: 2026-06-20, kale: 2026-09-01}}\n");
    assert_int_equal(s->need.what, 2);
    assert_near(s->need.chance, 0.9, 1e-12);
    assert_near(s->need.bed_area_m2, 14.4, 1e-12);
    assert_near(s->need.bed_depth_m, 0.025, 1e-12);
    assert_int_equal(s->need.harvests, 2);
    assert_string_equal(s->need.harvest[1].crop, "kale");
    assert_int_equal(s->last_day, 182);
    s = reading_good(READING_BASE "need: {by: 2026-04-18, beds: 200 ft2 at 1 in}\n");
    assert_near(s->need.bed_area_m2, 200 * 0.09290304, 1e-9);
    assert_int_equal(s->need.what, 1);
    assert_near(s->need.chance, 0.8, 0.0);
}

static void people_are_counts_days_and_loads(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(
        READING_BASE "people: {helpers: 2 to 4, days: [Wednesday, Saturday], away:"
                     " [2026-04-04, 2026-04-11], visit: 1.5 h, heaviest load: 30 lb}\n");
    assert_near(s->people.helpers.low, 2.0, 0.0);
    assert_near(s->people.helpers.high, 4.0, 0.0);
    assert_int_equal(s->people.weekdays, 1u << 2 | 1u << 5);
    assert_int_equal(s->people.aways, 2);
    assert_near(s->people.visit_s, 5400.0, 1e-9);
    assert_near(s->people.heaviest_load_kg, 13.6077711, 1e-9);
    assert_int_equal(reading_good(READING_BASE "people: {days: any day}\n")->people.weekdays, 0x7F);
    assert_int_equal(reading_good(READING_BASE)->people.weekdays, 1u << 5);
    assert_near(READ.people.helpers.high, 2.0, 0.0);
    assert_true(assumes("people: no load above 15 kg"));
    reading_good(READING_BASE "show: US\n");
    assert_true(assumes("people: no load above 33 lb")); /* 15 / 0.45359237 */
    assert_false(READ.people.days_said); /* what is only assumed binds nobody */
    assert_true(reading_good(READING_BASE "people: {days: Sunday}\n")->people.days_said);
}

static void a_thermometer_is_its_kind_and_what_it_shows_in_ice(void **state)
{
    (void)state;
    const struct plan_thermometer *t =
        &reading_good(READING_BASE "readings: {thermometer: {kind: digital, in ice water: 30 F}}\n")
             ->thermometer;
    assert_true(t->said && t->in_ice);
    assert_int_equal(t->kind, PLAN_DIGITAL);
    assert_near(t->ice_K, -2 / 1.8, 1e-9); /* 30 F is two degrees F under ice [derived] */
    t = &reading_good(READING_BASE "readings: {thermometer: {kind: glass}}\n")->thermometer;
    assert_true(t->said && !t->in_ice && t->kind == PLAN_GLASS);
    assert_near(t->ice_K, 0, 0);
    t = &reading_good(READING_BASE)->thermometer;
    assert_true(!t->said && !t->in_ice && t->kind == PLAN_DIAL);
    assert_false(assumes("thermometer"));
    reading_good(READING_BASE "plans:\n  by rule:\n"
                              "    - {look: day, when: middle below 45 C, turn: mixed}\n");
    assert_true(assumes("thermometer: a dial that was never held in ice water"));
}

static void readings_are_counted(void **state)
{
    (void)state;
    assert_int_equal(
        reading_good(
            READING_BASE
            "readings:\n  thermometer: {kind: dial, in ice water: 2 C}\n"
            "  log: log.csv\n  also:\n"
            "    - {day: 2025-10-21, hour: 9, middle: 58 C, 30 cm in: 50 C, hand deep: 41 C,"
            " air: 9 C, squeeze: drips, height: 80 cm}\n"
            "    - {day: 2025-10-25, we did: nothing}\n")
            ->notes,
        2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(normals_are_read_in_either_units),
        cmocka_unit_test(a_weather_file_lies_beside_the_scenario),
        cmocka_unit_test(a_named_sky_lends_its_height_and_says_so),
        cmocka_unit_test(vessels_are_the_gardens_own),
        cmocka_unit_test(need_is_a_date_a_use_a_chance_and_beds),
        cmocka_unit_test(people_are_counts_days_and_loads),
        cmocka_unit_test(a_thermometer_is_its_kind_and_what_it_shows_in_ice),
        cmocka_unit_test(readings_are_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
