/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/lanes/test_lanes.c - members side by side are members alone, to the last bit.
 *
 * The season kernel compiled for four or eight lanes runs as many sets of parameters at once, each
 * member with its own steps. A member's answer must not depend on its neighbours, so every number of
 * every day, event and total is compared bit by bit with the kernel of one lane: eight members alone,
 * four and four, and where the processor can, all eight. No source: the claim is the program's own
 * [derived].
 */
#include "run/season_of.h"

enum { MEMBERS = 8, WIDTHS = 2 };
static const int WIDTH[WIDTHS] = {4, 8};

#define PLACE "midden: 1\nstart: 2025-09-20\n" \
    "place: {latitude: 50 N, elevation: 100 m, sun: half the day, wind: sheltered}\n" \
    "sky: mild and wet\nbins:\n  one: {size: 1.1 x 1.1 x 1.2 m, walls: pallets}\n" \
    "  two: {like: one, now: empty}\nneed: by 2025-11-20\n" \
    "build:\n  - repeat: 6\n    layers:\n      - wheat straw: 55 L\n        horse manure: 45 L\n" \
    "        seeding weeds: 10 L\n        grass clippings: 30 L\n        water: 2 L\n"

struct group {
    struct scenario scenario;
    struct curve sky;
    const struct curve *skies[MEMBERS];
    struct param param[MEMBERS];
    struct possible possible[MEMBERS];
    uint64_t slips[MEMBERS];
    double off_K[MEMBERS];
    struct record together[WIDTHS][MEMBERS], alone[MEMBERS];
    struct trouble why;
};

static void set(struct group *f, int member, const char *name, double value)
{
    if (!param_set(&f->param[member], name, value, &f->why))
        fail_msg("%s", f->why.text);
}

/* Members that differ in air, decay, wetness and surfaces. */
static void spread(struct group *f)
{
    for (int i = 0; i < MEMBERS; i++)
        f->param[i] = param_usual();
    set(f, 1, "permeability_factor", 0.5);
    set(f, 1, "fast_per_day", 0.8);
    set(f, 1, "film_W_per_m2K", 4);
    set(f, 2, "permeability_factor", 0.03);
    set(f, 2, "hold_factor", 0.8);
    set(f, 2, "creep_days", 6);
    set(f, 2, "turn_air_kg_per_m3", 90);
    set(f, 2, "sheltered_wind_share", 0.3);
    set(f, 3, "fast_per_day", 0.25);
    set(f, 3, "size_half_m", 0.03);
    set(f, 3, "best_C", 56);
    set(f, 3, "soil_W_per_mK", 0.8);
    set(f, 3, "easy_seed_s", 1500);
    for (int i = 4; i < MEMBERS; i++) {
        f->param[i] = f->param[MEMBERS - 1 - i];
        set(f, i, "best_C", 53 + 0.5 * i);
        set(f, i, "oxygen_half_share", 0.004 * (i - 3));
    }
}

static bool can(int width)
{
    return width == 4 ? __builtin_cpu_supports("avx2")
                      : __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                            __builtin_cpu_supports("avx512vl") && __builtin_cpu_supports("avx512bw");
}

static struct group *read_group(const char *text)
{
    struct group *f = calloc(1, sizeof *f);
    assert_non_null(f);
    if (!scenario_read_text(&f->scenario, text, strlen(text), "test", &f->why) ||
        !climate_curve(&f->sky, &f->scenario, 1, &f->why))
        fail_msg("%s", f->why.text);
    spread(f);
    return f;
}

static void run_group(struct group *f)
{
    for (int i = 0; i < MEMBERS; i++) {
        f->skies[i] = &f->sky;
        possible_usual(&f->possible[i], &f->scenario, &f->param[i]);
        f->possible[i].slips = f->slips[i];
        f->possible[i].thermometer_K = f->off_K[i];
    }
    struct setup setup = {.scenario = &f->scenario, .sky = f->skies};
    for (int w = 0; w < WIDTHS; w++)
        for (int first = 0; can(WIDTH[w]) && first < MEMBERS; first += WIDTH[w]) {
            setup.possible = &f->possible[first];
            if (!season_run_wide(WIDTH[w], &f->together[w][first], &setup, &f->why))
                fail_msg("%s", f->why.text);
        }
    for (int i = 0; i < MEMBERS; i++) {
        setup.possible = &f->possible[i];
        if (!season_run_x1(&f->alone[i], &setup, &f->why))
            fail_msg("%s", f->why.text);
    }
}

static struct group *run(const char *text, bool spread_out)
{
    struct group *f = read_group(text);
    for (int i = 1; !spread_out && i < MEMBERS; i++)
        f->param[i] = f->param[0];
    run_group(f);
    return f;
}

static void leave(struct group *f)
{
    for (int i = 0; i < MEMBERS; i++) {
        for (int w = 0; w < WIDTHS; w++)
            record_free(&f->together[w][i]);
        record_free(&f->alone[i]);
    }
    curve_free(&f->sky);
    free(f);
}

#define SAME(one, other, member) \
    do { \
        if (memcmp(&(one), &(other), sizeof(one)) != 0) \
            fail_msg("member %d: " #one " differs: %.17g, %.17g", member, (double)(one), \
                     (double)(other)); \
    } while (0)

/* Says the first number of a day that differs. */
static void compare_day(const struct record_day *a, const struct record_day *b, int member, int day)
{
    const double *x = &a->air_K, *y = &b->air_K;
    size_t numbers = offsetof(struct record_day, first_event) / sizeof *x;
    for (size_t i = 0; i < numbers; i++)
        if (memcmp(&x[i], &y[i], sizeof *x) != 0)
            fail_msg("member %d, day %d, number %zu: %.17g together, %.17g alone", member, day + 1,
                     i, x[i], y[i]);
    SAME(a->first_event, b->first_event, member);
    SAME(a->events, b->events, member);
    SAME(a->steps, b->steps, member);
    SAME(a->refused, b->refused, member);
}

static void compare_totals(const struct record *a, const struct record *b, int member)
{
    for (int k = 0; k < FLUXES; k++)
        SAME(a->flux_total[k], b->flux_total[k], member);
    for (int k = 0; k < RECORD_BALANCES; k++)
        SAME(a->balance[k], b->balance[k], member);
    for (int k = 0; k < PLAN_STUFF; k++)
        SAME(a->stuff_left_share[k], b->stuff_left_share[k], member);
    for (int k = 0; k < 3; k++) {
        SAME(a->seeds_laid[k], b->seeds_laid[k], member);
        SAME(a->seeds_alive[k], b->seeds_alive[k], member);
    }
    for (int k = 0; k < 2; k++) {
        SAME(a->germs_laid[k], b->germs_laid[k], member);
        SAME(a->germs_alive[k], b->germs_alive[k], member);
    }
    SAME(a->ignition_day, b->ignition_day, member);
    SAME(a->respiration_gap, b->respiration_gap, member);
}

static void compare_hours(const struct record *a, const struct record *b, int member)
{
    for (int h = 0; a->hour && h < RECORD_HOURS; h++)
        for (size_t i = 0; i < sizeof *a->hour / sizeof(double); i++)
            SAME((&a->hour[h].seen_s)[i], (&b->hour[h].seen_s)[i], member);
}

static void compare_records(const struct record *a, const struct record *b, int i)
{
    assert_int_equal(a->days, b->days);
    assert_int_equal(a->events, b->events);
    for (int d = 0; d < a->days; d++)
        compare_day(&a->day[d], &b->day[d], i, d);
    for (int e = 0; e < a->events; e++) {
        SAME(a->event[e].day, b->event[e].day, i);
        SAME(a->event[e].deed, b->event[e].deed, i);
        SAME(a->event[e].into, b->event[e].into, i);
        SAME(a->event[e].added_kg, b->event[e].added_kg, i);
        SAME(a->event[e].water_kg, b->event[e].water_kg, i);
        SAME(a->event[e].lifted_kg, b->event[e].lifted_kg, i);
        SAME(a->event[e].picked_out_kg, b->event[e].picked_out_kg, i);
        SAME(a->event[e].person_s, b->event[e].person_s, i);
        SAME(a->event[e].middle_K, b->event[e].middle_K, i);
    }
    compare_hours(a, b, i);
    compare_totals(a, b, i);
}

static void compare(const struct group *f)
{
    for (int w = 0; w < WIDTHS; w++)
        for (int i = 0; can(WIDTH[w]) && i < MEMBERS; i++)
            compare_records(&f->together[w][i], &f->alone[i], i);
}

static void different_members_left_alone_are_each_as_on_their_own(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = run(PLACE "plans: {leave it: []}\n", true);
    /* they do differ, or the comparison would say nothing */
    for (int i = 1; i < MEMBERS; i++) {
        double most = 0;
        for (int d = 0; d < f->alone[i].days; d++)
            most = fmax(most, fabs(f->alone[i].day[d].middle_K - f->alone[0].day[d].middle_K));
        assert_true(most > 0.5);
    }
    compare(f);
    leave(f);
}

static void equal_members_are_equal(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = run(PLACE "plans: {leave it: []}\n", false);
    compare(f);
    leave(f);
}

static void every_deed_is_done_to_each_member_as_on_its_own(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = run(PLACE "plans:\n  all:\n"
        "    - {day: 2025-09-26, water: 20 L}\n"
        "    - {day: 2025-09-27, loosen: all over}\n"
        "    - {day: 2025-09-28, add: {kitchen scraps: 20 L}, bury: 15 cm}\n"
        "    - {day: 2025-09-29, cover: straw 10 cm}\n"
        "    - {day: 2025-10-02, uncover: all, turn: outside in, into: two,\n"
        "       keep for the top: 5 cm, pick out: sticks, water: until it drips}\n"
        "    - {day: 2025-10-09, turn: mixed, into: one}\n"
        "    - {day: 2025-10-16, turn: layer by layer}\n"
        "    - {day: 2025-10-23, turn: out and back}\n", true);
    assert_true(f->alone[0].events >= 9);
    compare(f);
    leave(f);
}

/* On how many days of the season was something done to one member's pile and not to another's? */
static int days_apart(const struct group *f, int one, int other)
{
    int days = 0;
    for (int d = 0; d < f->alone[0].days; d++)
        days += f->alone[one].day[d].events != f->alone[other].day[d].events;
    return days;
}

/* Rules part members: each looks at its own pile, so one is turned while another stands, one lies
 * under straw while another is bare, and each may lie in a different bay, with other walls and lid.
 * Readings of air and heat are slightly wrong, in each its own way. */
static void members_whom_rules_part_are_each_as_on_their_own(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = read_group("midden: 1\nstart: 2025-09-20\n"
        "place: {latitude: 50 N, elevation: 100 m, sun: half the day, wind: sheltered}\n"
        "sky: mild and wet\nbins:\n  one: {size: 1.1 x 1.1 x 1.2 m, walls: pallets}\n"
        "  two: {size: 1.1 x 1.1 x 1 m, walls: boards, lid: boards, now: empty}\n"
        "  three: {size: 1.1 x 1.1 x 1.2 m, walls: wire, now: full until 2025-10-05}\n"
        "need: by 2025-12-10\n"
        "build:\n  - repeat: 6\n    layers:\n      - wheat straw: 55 L\n        horse manure: 45 L\n"
        "        seeding weeds: 10 L\n        grass clippings: 30 L\n        water: 2 L\n"
        "plans:\n  by rules:\n"
        "    - {look: daily, when: middle below 45 C, at most: every 14 days, turn: outside in,\n"
        "       into: next, keep for the top: 5 cm, water: until it drips}\n"
        "    - {look: daily, when: squeeze drips, at most: every 9 days, water: 10 L}\n"
        "    - {look: daily, when: middle below 48 C, at most: every 10 days, cover: straw 8 cm}\n"
        "    - {look: daily, when: middle falls below 38 C, at most: every 10 days,\n"
        "       add: {kitchen scraps: 10 L}, bury: 15 cm}\n"
        "    - {day: 2025-10-14, loosen: all over}\n");
    for (int i = 0; i < MEMBERS; i++) {
        f->slips[i] = 17 + (uint64_t)i;
        f->off_K[i] = 3 * i - 4;
    }
    run_group(f);
    int bays = 0;
    for (int i = 1; i < MEMBERS; i++)
        assert_true(days_apart(f, 0, i) >= 4);
    for (int e = 0; e < f->alone[0].events; e++)
        bays |= f->alone[0].event[e].into >= 0 ? 1 << f->alone[0].event[e].into : 0;
    assert_int_equal(bays, 7);
    compare(f);
    leave(f);
}

/* ---- members who come after each other ---- */

enum { QUEUE = 11 };
struct queue {
    struct possible all[QUEUE], row[MEMBERS];
    int member[MEMBERS], came;
    struct record record[QUEUE], alone;
};

static bool next_of(void *asker, int lane, struct record *record)
{
    struct queue *q = asker;
    if (q->came == QUEUE)
        return false;
    q->record[q->member[lane]] = *record;
    q->member[lane] = q->came;
    q->row[lane] = q->all[q->came++];
    return true;
}

static void run_queue(struct group *f, struct queue *q, int width)
{
    for (int i = 0; i < width; i++) {
        f->skies[i] = &f->sky;
        q->member[i] = i;
        q->row[i] = q->all[i];
    }
    q->came = width;
    struct setup setup = {.scenario = &f->scenario, .sky = f->skies, .possible = q->row, .hours_day = 17,
                          .next = next_of, .asker = q};
    if (!season_run_wide(width, f->together[0], &setup, &f->why))
        fail_msg("%s", f->why.text);
    for (int i = 0; i < width; i++) {
        q->record[q->member[i]] = f->together[0][i];
        f->together[0][i] = (struct record){0};
    }
    assert_int_equal(q->came, QUEUE);
    setup.next = NULL;
    int turned = 0;
    for (int i = 0; i < QUEUE; i++) {
        setup.possible = &q->all[i];
        if (!season_run_x1(&q->alone, &setup, &f->why))
            fail_msg("%s", f->why.text);
        turned += q->alone.turns > 0;
        compare_records(&q->record[i], &q->alone, i);
        record_free(&q->record[i]);
        record_free(&q->alone);
    }
    assert_true(turned > 0); /* so that a bay was left in which the next does not begin */
}

/* Whoever ends gives its lane to the next, who finds nothing of the one before: no heat, no cover, no
 * bay, no note, no hour. Members that decay faster or are wetter end at other times. */
static void who_takes_the_place_of_another_is_as_on_its_own(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = read_group(PLACE "plans:\n  by rules:\n"
        "    - {day: 2025-09-25, cover: straw 10 cm}\n"
        "    - {look: daily, when: middle falls below 50 C, at most: every 12 days, turn: mixed,\n"
        "       into: next}\n    - {day: 2025-10-06, add: {kitchen scraps: 20 L}}\n");
    struct queue *q = calloc(1, sizeof *q);
    assert_non_null(q);
    f->scenario.last_day = 24;
    for (int i = 0; i < QUEUE; i++) {
        struct param param = f->param[i % 4];
        if (!param_set(&param, "fast_per_day", 0.3 + 0.06 * i, &f->why))
            fail_msg("%s", f->why.text);
        possible_usual(&q->all[i], &f->scenario, &param);
        q->all[i].slips = 5 + (uint64_t)i;
    }
    for (int w = 0; w < WIDTHS; w++)
        if (can(WIDTH[w]))
            run_queue(f, q, WIDTH[w]);
    free(q);
    leave(f);
}

/* Bays of other shapes have other meshes: then a dated turn waits for all, and a rule is refused. */
static void bays_of_other_shapes_are_entered_together(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    static const char start[] = "midden: 1\nstart: 2025-09-20\nplace: {latitude: 50 N, elevation: 100 m}\n"
        "sky: mild and wet\nbins:\n  one: {size: 1.1 x 1.1 x 1.2 m, walls: pallets}\n"
        "  two: {size: 1.4 x 1.1 x 1.2 m, walls: boards, now: empty}\nneed: by 2025-10-20\n"
        "build:\n  - wheat straw: 330 L\n    horse manure: 270 L\n    grass clippings: 180 L\n    water: 12 L\n"
        "plans:\n  turn:\n";
    char text[1024];
    snprintf(text, sizeof text, "%s    - {day: 2025-09-30, turn: mixed, into: two}\n"
             "    - {day: 2025-10-09, turn: mixed, into: one}\n", start);
    struct group *f = run(text, true);
    assert_int_equal(f->alone[0].events, 2);
    compare(f);
    leave(f);
    snprintf(text, sizeof text, "%s    - {look: daily, when: middle below 60 C, turn: mixed, into: next}\n",
             start);
    f = read_group(text);
    assert_false(season_goes_wide(&f->scenario, 0));
    leave(f);
}

static void a_pile_found_standing_is_the_same_together_and_alone(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = run("midden: 1\nstart: 2025-10-11\nplace: {latitude: 40 N, elevation: 900 m}\n"
        "sky: dry upland\nbin: {size: 1.2 x 1.2 x 1.2 m, walls: blocks}\nneed: by 2025-12-11\n"
        "found:\n  height: 70 cm\n  squeeze: crumbles\n  middle: 28 C\n  hand deep: 18 C\n"
        "  built: 50 days ago\n  of:\n    horse manure: 4 parts\n    used straw bedding: 4 parts\n"
        "plans: {leave it: []}\n", true);
    compare(f);
    leave(f);
}

static void held_jars_are_each_as_on_their_own(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = run("midden: 1\nstart: 2026-01-01\nplace: {latitude: 50 N, elevation: 100 m}\n"
        "sky: mild and wet\njar: {across: 20 cm, high: 25 cm, held at: 40 C, held oxygen: 5 %}\n"
        "build:\n  - mixed leaves: 2 L\n    fresh grass clippings: 1 L\n    seeding weeds: 1 L\n"
        "plans: {leave it: []}\nneed: by 2026-03-01\n", true);
    assert_true(fabs(f->alone[1].day[9].carbon_kg - f->alone[0].day[9].carbon_kg) > 1e-5);
    compare(f);
    leave(f);
}

/* More columns than base/band takes at once, so that every second cell is eliminated (pile/lattice). */
static void on_a_wide_mesh_each_is_as_on_its_own(void **state)
{
    (void)state;
    if (!can(4))
        skip();
    struct group *f = read_group(PLACE "plans: {turn: [{day: 2025-09-22, turn: mixed, into: two}]}\n");
    f->scenario.last_day = 3;
    for (int i = 0; i < MEMBERS; i++) {
        f->param[i].rim_m = 0.011;
        f->param[i].column_growth = 1.001;
    }
    run_group(f);
    assert_int_equal(f->alone[0].events, 1);
    compare(f);
    leave(f);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(different_members_left_alone_are_each_as_on_their_own),
        cmocka_unit_test(equal_members_are_equal),
        cmocka_unit_test(on_a_wide_mesh_each_is_as_on_its_own),
        cmocka_unit_test(every_deed_is_done_to_each_member_as_on_its_own),
        cmocka_unit_test(members_whom_rules_part_are_each_as_on_their_own),
        cmocka_unit_test(who_takes_the_place_of_another_is_as_on_its_own),
        cmocka_unit_test(bays_of_other_shapes_are_entered_together),
        cmocka_unit_test(a_pile_found_standing_is_the_same_together_and_alone),
        cmocka_unit_test(held_jars_are_each_as_on_their_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
