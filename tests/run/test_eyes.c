/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_eyes.c - run/eyes, run/thermometer, run/calendar: a rule sees what a person would.
 *
 * What an ice reading means follows from its words [derived]; how far kinds of thermometer and
 * squeezed handfuls are off is common practice without a source [trade]. Bounds on random numbers
 * are five standard errors of what is counted, and the numbers are the same in every run. The
 * weather is steady, so that two seasons of one pile differ by who looks at it alone.
 */
#include "run/eyes.h"
#include "run/calendar.h"
#include "run/fixed.h"
#include "run/season_of.h"
#include "run/thermometer.h"

/* 20 September 2025 is a Saturday */
#define PLACE "midden: 1\nstart: 2025-09-20\n" \
    "place: {latitude: 50 N, elevation: 100 m, sun: shade, wind: sheltered}\n" \
    "sky: mild and wet\nbins:\n  one: {size: 1.1 x 1.1 x 1.2 m, walls: pallets, lid: none}\n" \
    "  two: {like: one, now: empty}\nneed: by 2025-11-08\n"
#define MIX "build:\n  - repeat: 6\n    layers:\n      - wheat straw: 60 L\n" \
    "        horse manure: 55 L\n        grass clippings: 35 L\n        water: 2 L\n"
#define PLAN(deeds) "plans:\n  do it:\n" deeds
#define BELOW_45 PLAN("    - {look: day, from: 2025-09-27, when: middle below 45 C,\n" \
                      "       at most: once, turn: mixed}\n")
#define ABOVE_53 PLAN("    - {look: day, when: middle above 53 C, at most: once, turn: mixed}\n")

static const double AIR_C = 10;

static struct season_of *begin(const char *text)
{
    struct season_of *s = season_of_begin(text, "do it");
    fixed(&s->param);
    s->param.laid_warmer_K = 0;
    possible_usual(&s->possible, &s->scenario, &s->param);
    return s;
}

/* A season looked at with these errors, from `change` on in other air. */
static struct season_of *looked(const char *text, double off_K, uint64_t slips, int change,
                                double later_C)
{
    struct season_of *s = begin(text);
    season_of_still(s, AIR_C, 0, change, later_C);
    s->possible.thermometer_K += off_K;
    s->possible.slips = slips;
    if (!season_run_x1(&s->record, &s->setup, &s->why))
        fail_msg("%s", s->why.text);
    return s;
}

/* The day of the only turn, 0 the start; -1 = there was none. */
static int turned(const char *text, double off_K)
{
    struct season_of *s = looked(text, off_K, 0, 99, AIR_C);
    int day = s->record.events ? s->record.event[0].day - 1 : -1;
    season_of_free(s);
    return day;
}

/* A pile as it stands once built. */
struct standing {
    struct season_of *season;
    struct setting *setting;
};

static struct standing stand(const char *text)
{
    struct standing p = {begin(text), calloc(1, sizeof(struct setting))};
    assert_non_null(p.setting);
    season_of_still(p.season, AIR_C, 0, 99, AIR_C);
    if (!setting_make(p.setting, &p.season->setup, &p.season->why))
        fail_msg("%s", p.season->why.text);
    around_day(&p.setting->around, 0);
    setting_build(p.setting);
    return p;
}

static void stand_free(struct standing *p)
{
    setting_free(p->setting);
    free(p->setting);
    season_of_free(p->season);
}

/* ---- the thermometer ---- */

static void what_a_dial_shows_in_ice_is_taken_off_its_readings(void **state)
{
    (void)state; /* shows 4 degrees in ice, then 50: 46 [derived] */
    struct plan_thermometer dial = {.said = true, .kind = PLAN_DIAL, .in_ice = true, .ice_K = 4};
    assert_near(thermometer_taken_K(&dial, 323.15), 319.15, 1e-9);
    assert_near(thermometer_unsure_K(&dial), 2, 0);
    dial.in_ice = false;
    dial.ice_K = 0;
    assert_near(thermometer_unsure_K(&dial), 4, 1); /* 3 to 5 [trade] */
    for (int kind = PLAN_GLASS; kind < THERMOMETER_KINDS; kind++) {
        struct plan_thermometer other = {.kind = (enum plan_kind)kind};
        assert_true(thermometer_unsure_K(&other) < thermometer_unsure_K(&dial));
        assert_true(thermometer_slip_K(&other) < thermometer_slip_K(&dial));
        assert_true(thermometer_slip_K(&other) > 0);
    }
}

#define ICE(shown) "readings: {thermometer: {kind: dial, in ice water: " shown "}}\n"

static void a_known_offset_changes_nothing_and_an_unknown_one_the_reading(void **state)
{
    (void)state;
    struct standing plain = stand(PLACE MIX BELOW_45), known = stand(PLACE MIX BELOW_45 ICE("4 C"));
    double is_K = lane_get(plain.setting->watch.probe_now[PLAN_MIDDLE], 0) + SEASON_OF_ICE_K;
    assert_near(eyes_temp_K(plain.setting, PLAN_MIDDLE, 3, 0), is_K, 1e-9);
    assert_near(known.season->possible.thermometer_K, 4, 1e-9); /* the instrument shows 4 more */
    assert_near(eyes_temp_K(known.setting, PLAN_MIDDLE, 3, 0), is_K, 1e-9);
    plain.season->possible.thermometer_K = -3;
    assert_near(eyes_temp_K(plain.setting, PLAN_MIDDLE, 3, 0), is_K - 3, 1e-9);
    stand_free(&plain);
    stand_free(&known);
}

static void a_dial_that_reads_high_turns_later_as_it_cools_and_sooner_as_it_heats(void **state)
{
    (void)state;
    int cools = turned(PLACE MIX BELOW_45, 0), heats = turned(PLACE MIX ABOVE_53, 0);
    assert_true(cools > 7);
    assert_true(turned(PLACE MIX BELOW_45, 4) > cools);
    assert_true(turned(PLACE MIX BELOW_45, -4) < cools);
    assert_int_equal(turned(PLACE MIX BELOW_45 ICE("4 C"), 0), cools);
    assert_true(heats > 1);
    assert_true(turned(PLACE MIX ABOVE_53, 4) < heats);
    assert_true(turned(PLACE MIX ABOVE_53, -2) > heats);
}

/* The turn comes on the first morning whose true middle is below what the dial is off from 45. */
static void a_rule_acts_on_the_first_morning_it_sees(void **state)
{
    (void)state;
    static const double off_K[] = {-4, 0, 4};
    struct season_of *left = looked(PLACE MIX PLAN("    []\n"), 0, 0, 99, AIR_C);
    for (int i = 0; i < 3; i++) {
        int day = turned(PLACE MIX BELOW_45, off_K[i]);
        double line = 45 - off_K[i];
        /* days fall by under 6 degrees: the day before was above it, the day after is below */
        assert_true(season_of_C(left->record.day[day - 1].middle_K) > line - 1);
        assert_true(season_of_C(left->record.day[day].middle_K) < line + 3);
    }
    season_of_free(left);
}

/* ---- errors of a day ---- */

static void errors_of_a_day_are_those_of_its_kind_and_unrelated(void **state)
{
    (void)state;
    enum { DAYS = 2000 };
    struct standing p = stand(PLACE MIX BELOW_45);
    double middle = 0, square = 0, next = 0, places = 0, before = 0, most = 0;
    double is_K = eyes_temp_K(p.setting, PLAN_MIDDLE, 0, 0);
    double hand_K = eyes_temp_K(p.setting, PLAN_HAND_DEEP, 0, 0);
    p.season->possible.slips = 77;
    for (int day = 0; day < DAYS; day++) {
        double slip = eyes_temp_K(p.setting, PLAN_MIDDLE, day, 0) - is_K;
        middle += slip / DAYS;
        square += slip * slip / DAYS;
        next += slip * before / DAYS;
        places += slip * (eyes_temp_K(p.setting, PLAN_HAND_DEEP, day, 0) - hand_K) / DAYS;
        most = fmax(most, fabs(slip));
        before = slip;
        assert_near(eyes_temp_K(p.setting, PLAN_MIDDLE, day, 0) - is_K, slip, 0); /* twice */
    }
    double error = 1 / sqrt(DAYS); /* of a mean of numbers of deviation 1, the dial's slip */
    assert_near(middle, 0, 5 * error);
    assert_near(square, 1, 5 * error * sqrt(2.0));
    assert_near(next, 0, 5 * error);
    assert_near(places, 0, 5 * error);
    assert_true(most > 2 && most <= 3);
    double first = eyes_temp_K(p.setting, PLAN_MIDDLE, 5, 0);
    p.season->possible.slips = 78; /* another pile, another morning's luck */
    assert_true(eyes_temp_K(p.setting, PLAN_MIDDLE, 5, 0) != first);
    stand_free(&p);
}

/* ---- a handful ---- */

#define FELT(word) "build:\n  - sawdust: 800 L\n    squeeze: " word "\n"
#define SQUEEZED(word) \
    PLAN("    - {look: day, when: squeeze " word ", at most: once, water: 1 L}\n")

static void a_handful_feels_like_the_word_it_was_built_with(void **state)
{
    (void)state;
    static const char *const texts[PLAN_SQUEEZES] = {
        PLACE FELT("dusty") SQUEEZED("dusty"), PLACE FELT("crumbles") SQUEEZED("dusty"),
        PLACE FELT("holds") SQUEEZED("dusty"), PLACE FELT("drips") SQUEEZED("dusty"),
        PLACE FELT("runs") SQUEEZED("dusty")};
    static const double share[PLAN_SQUEEZES] = {0.30, 0.40, 0.48, 0.55, 0.65}; /* [trade] */
    for (int word = 0; word < PLAN_SQUEEZES; word++) {
        struct standing p = stand(texts[word]);
        assert_near(eyes_handful_share(p.setting, PLAN_DEEP_30CM, 0, 0), share[word], 1e-3);
        assert_int_equal(eyes_squeeze(p.setting, PLAN_DEEP_30CM, 0, 0), word);
        assert_int_equal(eyes_squeeze(p.setting, PLAN_HAND_DEEP, 0, 0), word);
        p.season->possible.handful_share = 0.08; /* a hand that feels everything wetter */
        assert_int_equal(eyes_squeeze(p.setting, PLAN_DEEP_30CM, 0, 0),
                         word < PLAN_RUNS ? word + 1 : PLAN_RUNS);
        stand_free(&p);
    }
}

static void a_handful_comes_from_where_an_arm_reaches_not_from_all_of_it(void **state)
{
    (void)state; /* the lower third soaked, the rest dry: at half the height it is dusty */
    struct standing p = stand(PLACE "build:\n  - sawdust: 250 L\n    squeeze: runs\n"
                              "  - sawdust: 550 L\n    squeeze: dusty\n" SQUEEZED("dusty"));
    const struct pile *pile = &p.setting->pile;
    double water = lane_get(pile_total(pile, pile_state(pile, STATE_WATER_KG)), 0);
    double dry = lane_get(pile_total(pile, pile_state(pile, STATE_DRY_KG)), 0);
    assert_true(water / (water + dry) > 0.40);
    assert_int_equal(eyes_squeeze(p.setting, PLAN_DEEP_30CM, 0, 0), PLAN_DUSTY);
    stand_free(&p);
}

static int waterings(const char *text, double off_share)
{
    struct season_of *s = begin(text);
    season_of_still(s, AIR_C, 0, 99, AIR_C);
    s->possible.handful_share = off_share;
    if (!season_run_x1(&s->record, &s->setup, &s->why))
        fail_msg("%s", s->why.text);
    int events = s->record.events;
    season_of_free(s);
    return events;
}

static void what_fails_the_squeeze_test_is_watered(void **state)
{
    (void)state;
    assert_int_equal(waterings(PLACE FELT("crumbles") SQUEEZED("fails"), 0), 1);
    assert_int_equal(waterings(PLACE FELT("dusty") SQUEEZED("fails"), 0), 1);
    assert_int_equal(waterings(PLACE FELT("drips") SQUEEZED("fails"), 0), 0);
    assert_int_equal(waterings(PLACE FELT("crumbles") SQUEEZED("fails"), 0.1), 0);
    assert_int_equal(waterings(PLACE FELT("drips") SQUEEZED("fails hand deep"), -0.15), 1);
}

/* ---- rules ---- */

static void falling_below_waits_until_it_was_above(void **state)
{
    (void)state;
    static const char falls[] = PLACE MIX PLAN(
        "    - {look: day, when: middle falls below 40 C, until: 2025-11-01, turn: mixed,\n"
        "       water: 10 L, add: {grass clippings: 200 L}}\n");
    static const char is[] = PLACE MIX PLAN(
        "    - {look: day, when: middle below 40 C, at most: once, turn: mixed}\n");
    struct season_of *s = looked(falls, 0, 0, 99, AIR_C);
    assert_int_equal(turned(is, 0), 1); /* the pile was built at 10 C */
    assert_true(s->record.events >= 4); /* a turn and food, at least twice */
    for (int e = 0; e < s->record.events; e += 2) {
        int from = e ? s->record.event[e - 1].day : 0, to = s->record.event[e].day - 2;
        assert_true(season_of_peak(&s->record, from, to) > 40);
    }
    season_of_free(s);
    /* without food it never passes 45 C again, and is left alone */
    s = looked(PLACE MIX PLAN("    - {look: day, when: middle falls below 45 C, turn: mixed}\n"),
               0, 0, 99, AIR_C);
    assert_int_equal(s->record.events, 1);
    season_of_free(s);
}

static void rising_above_must_be_seen(void **state)
{
    (void)state; /* it was above before the first look, which is no rise that was seen */
    static const char late[] = PLACE MIX PLAN(
        "    - {look: day, from: 2025-09-26, until: 2025-09-28, when: middle rises above 53 C,\n"
        "       turn: mixed}\n");
    static const char seen[] = PLACE MIX PLAN(
        "    - {look: day, when: middle rises above 53 C, at most: once, turn: mixed}\n");
    assert_int_equal(turned(late, 0), -1);
    assert_int_equal(turned(seen, 0), turned(PLACE MIX ABOVE_53, 0));
}

/* Frost from day 20 to 32, then a thaw: at -8 C no turn under either rule; on the mild days after,
 * the crust still rings. */
static int first_turn_after_frost(const char *unless)
{
    char text[2048];
    snprintf(text, sizeof text, PLACE "build:\n  - sawdust: 800 L soaked\n"
             "plans:\n  do it:\n    - {look: day, from: 2025-10-15, when: middle below 60 C,\n"
             "       unless: %s, at most: once, turn: mixed}\n", unless);
    struct season_of *s = begin(text);
    struct weather weather;
    const struct plan_place_on_earth *place = &s->scenario.place;
    assert_true(weather_make(&weather, s->scenario.start, s->scenario.last_day + 1, &s->why));
    for (int d = 0; d < weather.days; d++) {
        double air_K = (d < 20 ? 5 : d < 32 ? -8 : 2) + SEASON_OF_ICE_K;
        weather.day[d] = (struct weather_day){.low_K = air_K, .high_K = air_K, .wind_m_per_s = 1,
                                              .vapour_Pa = 0.8 * weather_saturation_Pa(air_K)};
    }
    weather.wave = (struct weather_wave){.mean_K = 5 + SEASON_OF_ICE_K};
    assert_true(curve_make(&s->sky, &weather, place->latitude_rad, place->elevation_m, &s->why));
    weather_free(&weather);
    season_of_run(s);
    int day = s->record.events ? s->record.event[0].day - 1 : -1;
    season_of_free(s);
    return day;
}

static void hard_frost_is_cold_air_or_a_crust_that_rings(void **state)
{
    (void)state;
    int by_air = first_turn_after_frost("air below -5 C");
    int by_crust = first_turn_after_frost("hard frost");
    assert_in_range(by_air, 32, 33);
    assert_true(by_crust > by_air + 1);
}

static void who_comes_decides_before_anything_is_touched(void **state)
{
    (void)state; /* the turn cools the middle, and what was to be added is added all the same */
    struct season_of *s = looked(PLACE MIX PLAN(
        "    - {look: day, when: middle above 45 C, at most: once, turn: mixed, water: 5 L,\n"
        "       add: {kitchen scraps: 5 kg}, cover: straw 10 cm}\n"), 0, 0, 99, AIR_C);
    assert_int_equal(s->record.events, 3);
    assert_int_equal(s->record.event[0].day, s->record.event[2].day);
    assert_true(season_of_C(s->record.day[s->record.event[0].day - 1].middle_K) < 45);
    season_of_free(s);
}

/* ---- the calendar ---- */

#define PEOPLE "people: {days: [Saturday, Wednesday], away: [2025-09-27, 2025-10-15], helpers: 2}\n"

static bool is_open(int day) /* days of the season: Saturdays 0, 7, ..., Wednesdays 4, 11, ... */
{
    return (day % 7 == 0 || day % 7 == 4) && day != 7 && day != 25;
}

static void nobody_comes_on_a_day_away_or_on_another_weekday(void **state)
{
    (void)state;
    struct season_of *s = looked(PLACE MIX PEOPLE PLAN(
        "    - {look: day, when: middle below 90 C, water: 1 L}\n"
        "    - {every: day, from: 2025-10-04, add: {kitchen scraps: 1 kg}}\n"), 0, 0, 99, AIR_C);
    int want = 0;
    for (int day = 0; day <= s->scenario.last_day; day++) {
        const struct record_day *row = &s->record.day[day];
        int here = !is_open(day) ? 0 : day < 1 ? 0 : day < 14 ? 1 : 2;
        assert_int_equal(row->events, here);
        assert_true(calendar_open(&s->scenario, day) == is_open(day));
        want += here;
    }
    assert_int_equal(s->record.events, want);
    assert_int_equal(calendar_times(&s->scenario, &s->scenario.plan[0].event[0]) +
                     calendar_times(&s->scenario, &s->scenario.plan[0].event[1]), want);
    season_of_free(s);
}

static void a_dated_visit_is_made_as_its_keeper_wrote_it(void **state)
{
    (void)state;
    struct season_of *s = looked(PLACE MIX PEOPLE PLAN(
        "    - {day: 2025-09-27, water: 1 L}\n    - {day: 2025-09-29, water: 1 L}\n"),
                                 0, 0, 99, AIR_C);
    assert_int_equal(s->record.events, 2);
    assert_int_equal(s->record.event[0].day, 8);
    assert_int_equal(s->record.event[1].day, 10);
    season_of_free(s);
}

static void weekdays_that_nobody_said_bind_nothing(void **state)
{
    (void)state;
    struct season_of *s = looked(PLACE MIX "people: {away: 2025-09-29}\n" PLAN(
        "    - {every: day, until: 2025-10-04, water: 1 L}\n"), 0, 0, 99, AIR_C);
    assert_int_equal(s->record.events, 13); /* days 1 to 14 but the 9th */
    season_of_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_a_dial_shows_in_ice_is_taken_off_its_readings),
        cmocka_unit_test(a_known_offset_changes_nothing_and_an_unknown_one_the_reading),
        cmocka_unit_test(a_dial_that_reads_high_turns_later_as_it_cools_and_sooner_as_it_heats),
        cmocka_unit_test(a_rule_acts_on_the_first_morning_it_sees),
        cmocka_unit_test(errors_of_a_day_are_those_of_its_kind_and_unrelated),
        cmocka_unit_test(a_handful_feels_like_the_word_it_was_built_with),
        cmocka_unit_test(a_handful_comes_from_where_an_arm_reaches_not_from_all_of_it),
        cmocka_unit_test(what_fails_the_squeeze_test_is_watered),
        cmocka_unit_test(falling_below_waits_until_it_was_above),
        cmocka_unit_test(rising_above_must_be_seen),
        cmocka_unit_test(hard_frost_is_cold_air_or_a_crust_that_rings),
        cmocka_unit_test(who_comes_decides_before_anything_is_touched),
        cmocka_unit_test(nobody_comes_on_a_day_away_or_on_another_weekday),
        cmocka_unit_test(a_dated_visit_is_made_as_its_keeper_wrote_it),
        cmocka_unit_test(weekdays_that_nobody_said_bind_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
