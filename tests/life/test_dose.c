/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/life/test_dose.c - doses of heat: against published times, against a cell followed by hand, and
 * through mixing as it is done with a fork.
 *
 * Hours of cells are counted here a second time, in plain doubles that know nothing of stages.
 */
#include "life/dose.h"
#include "lib/near.h"
#include "pile/move.h"
#include <stdlib.h>

enum { STUFFS = 2 };
static const struct mesh_design BIN = {MESH_ROUND, 0.5, 1.3, 1.0, false, 0.03, 1.28, 0, 0};
static const struct mesh_design ONE = {MESH_POINT, 0.1, 1, 0.1, false, 0, 0, 0, 0};
static const double STEP_S = 3600;

struct heap {
    struct mesh mesh;
    struct pile pile, spare;
    struct dose dose;
    lane *from_K, *to_K, *wet;
    void *block;
};

static void take(struct heap *h, const struct mesh_design *design, struct arena *arena)
{
    assert_true(mesh_lay(&h->mesh, design, arena));
    int stride = h->mesh.rows * h->mesh.cols;
    h->pile.mesh = h->spare.mesh = &h->mesh;
    pile_take(&h->pile, stride, STUFFS, arena);
    pile_take(&h->spare, stride, STUFFS, arena);
    dose_take(&h->dose, stride, arena);
    lane **each[] = {&h->from_K, &h->to_K, &h->wet};
    for (int i = 0; i < 3; i++)
        *each[i] = arena_take(arena, (size_t)stride, sizeof(lane));
}

/* A pile of one kind throughout, a kilogram of it all told, moist and at rest. */
static void make(struct heap *h, const struct mesh_design *design)
{
    struct arena count = {0};
    memset(h, 0, sizeof *h);
    take(h, design, &count);
    h->block = calloc(1, count.used);
    assert_non_null(h->block);
    take(h, design, &(struct arena){h->block, count.used, 0});
    for (int c = 0; c < h->mesh.cells; c++) {
        double share = h->mesh.cells == 1 ? 1 : move_share(&h->mesh, c);
        h->pile.stock[STOCK_LOOSE_M3][c] = share;
        for (int i = 0; i < STUFFS; i++)
            pile_laid(&h->pile, i)[c] = share / STUFFS;
        h->wet[c] = 0.6;
        h->from_K[c] = h->to_K[c] = 20;
    }
}

static void end(struct heap *h) { free(h->block); }

static double met(const struct heap *h, int dose, int stage)
{
    return lane_get(dose_met(&h->pile, dose, stage), 0);
}

static double last(const struct heap *h, int dose)
{
    return met(h, dose, rules_doses[dose].stages);
}

/* One cell, or all of them, jump to a temperature and are held there. */
static void hold(struct heap *h, double over_C, double hours)
{
    for (int c = 0; c < h->mesh.cells; c++)
        h->from_K[c] = h->to_K[c] = over_C;
    for (double done = 0; done < hours - 1e-9; done += STEP_S / 3600)
        dose_step(&h->dose, &h->pile, h->from_K, h->to_K, h->wet,
                  lane_of(fmin(STEP_S, 3600 * (hours - done))));
}

/* Every cell by itself: `core` ones are held hot. */
static void hold_core(struct heap *h, const bool *core, double over_C, double hours)
{
    for (int c = 0; c < h->mesh.cells; c++)
        h->from_K[c] = h->to_K[c] = core[c] ? over_C : 35;
    for (double done = 0; done < hours - 1e-9; done += STEP_S / 3600)
        dose_step(&h->dose, &h->pile, h->from_K, h->to_K, h->wet,
                  lane_of(fmin(STEP_S, 3600 * (hours - done))));
}

static void mix(struct heap *h)
{
    dose_fold(&h->dose, &h->pile, lane_everybody());
    move_turn(&h->spare, &h->pile, MOVE_SAME_ORDER, lane_of(1));
    move_swap(&h->pile, &h->spare);
}

static double chance(uint64_t *seed)
{
    *seed = *seed * 48271 % 2147483647;
    return (double)*seed / 2147483647.0;
}

/* ---- the equation ---- */

/* [seen in state copies: 15A NCAC 02T .1106] 40 CFR 503.32(a)(3): D = 131 700 000/10^(0.14 t) days; its
 * values in hours by arithmetic. */
static void the_equation_gives_the_regulations_times(void **state)
{
    (void)state;
    static const double pair[][2] = {{50, 316.1}, {53, 120.2}, {55, 63.07}, {56, 45.7},
                                     {60, 12.58}, {65, 2.511}, {70, 0.501}, {75, 0.0999}};
    double stages = rules_doses[RULES_DOSE_EQUATION].stages;
    for (size_t i = 0; i < sizeof pair / sizeof *pair; i++) {
        double hours = stages / lane_get(dose_equation(lane_of(pair[i][0]), lane_of(pair[i][0]), lane_of(3600)), 0);
        assert_near(hours / pair[i][1], 1, 1e-3); /* four digits, the last two three */
    }
    assert_near(lane_get(dose_equation(lane_of(49.99), lane_of(49.99), lane_of(3600)), 0), 0, 0);
    /* [derived] the inverse: a day at 58.00 C, three at 54.59, seven at 51.96 */
    static const double inverse[][2] = {{58.00, 1}, {54.59, 3}, {51.96, 7}};
    for (int i = 0; i < 3; i++)
        assert_near(lane_get(dose_equation(lane_of(inverse[i][0]), lane_of(inverse[i][0]),
                                           lane_of(86400 * inverse[i][1])), 0) / stages, 1, 2e-3);
}

/* [derived from the same] 24 h at 55 C and 12 h at 60 C: 0.3806 + 0.9536 = 1.3342, met; 48 h at 54 C:
 * 0.551, not met. */
static void a_record_of_two_temperatures_adds_up(void **state)
{
    (void)state;
    const double stages = rules_doses[RULES_DOSE_EQUATION].stages;
    double sum = lane_get(dose_equation(lane_of(55), lane_of(55), lane_of(24 * 3600)) +
                          dose_equation(lane_of(60), lane_of(60), lane_of(12 * 3600)), 0);
    assert_near(sum / stages, 1.3342, 2e-4);
    assert_near(lane_get(dose_equation(lane_of(54), lane_of(54), lane_of(48 * 3600)), 0) / stages, 0.551, 1e-3);
    struct heap h;
    make(&h, &ONE);
    hold(&h, 55, 24);
    assert_near(last(&h, RULES_DOSE_EQUATION), 0, 0);
    assert_near(met(&h, RULES_DOSE_EQUATION, 4), 1, 1e-12); /* 0.3806 of 12 stages: four and a bit */
    hold(&h, 60, 12);
    assert_near(last(&h, RULES_DOSE_EQUATION), 1, 1e-12);
    end(&h);
    make(&h, &ONE);
    hold(&h, 54, 48);
    assert_near(last(&h, RULES_DOSE_EQUATION), 0, 0);
    end(&h);
}

/* ---- one cell ---- */

static void three_days_in_one_run_and_no_minute_less(void **state)
{
    (void)state;
    struct heap h;
    make(&h, &ONE);
    hold(&h, 55, 71.9);
    assert_near(last(&h, RULES_DOSE_RUN_55), 0, 0);
    hold(&h, 54.9, 0.5); /* broken: all over again */
    hold(&h, 55, 71.9);
    assert_near(last(&h, RULES_DOSE_RUN_55), 0, 0);
    assert_near(last(&h, RULES_DOSE_SUM_55), 1, 1e-12); /* 72 hours in all, though */
    hold(&h, 56, 0.2);
    assert_near(last(&h, RULES_DOSE_RUN_55), 1, 1e-12);
    hold(&h, 20, 100); /* what is met stays met */
    assert_near(last(&h, RULES_DOSE_RUN_55), 1, 1e-12);
    end(&h);
}

static void what_is_too_dry_earns_nothing_and_breaks_a_run(void **state)
{
    (void)state;
    struct heap h;
    make(&h, &ONE);
    hold(&h, 60, 60);
    h.wet[0] = 0.39;
    hold(&h, 60, 60);
    h.wet[0] = 0.41;
    hold(&h, 60, 60);
    assert_near(last(&h, RULES_DOSE_RUN_55), 0, 0);
    assert_near(met(&h, RULES_DOSE_SUM_60, 10), 1, 1e-12);
    assert_near(met(&h, RULES_DOSE_SUM_60, 11), 0, 0);
    hold(&h, 66, 60);
    assert_near(met(&h, RULES_DOSE_SUM_65, 5), 1, 1e-12);
    assert_near(met(&h, RULES_DOSE_SUM_65_WET, 1), 0, 0); /* that one wants half to be water */
    end(&h);
}

/* [seen] 40 CFR 257 appendix II: five days at 40 C, four hours of them above 55 C */
static void five_mild_days_need_their_four_hot_hours(void **state)
{
    (void)state;
    struct heap h;
    make(&h, &ONE);
    hold(&h, 45, 200);
    assert_near(last(&h, RULES_DOSE_RUN_40), 0, 0);
    hold(&h, 56, 3.9);
    assert_near(last(&h, RULES_DOSE_RUN_40), 0, 0);
    hold(&h, 56, 0.2); /* by now the five days are there already */
    assert_near(last(&h, RULES_DOSE_RUN_40), 1, 1e-12);
    end(&h);
    make(&h, &ONE);
    hold(&h, 56, 5);
    hold(&h, 45, 114.5);
    assert_near(last(&h, RULES_DOSE_RUN_40), 0, 0);
    hold(&h, 45, 1);
    assert_near(last(&h, RULES_DOSE_RUN_40), 1, 1e-12);
    end(&h);
    make(&h, &ONE);
    hold(&h, 56, 50);
    hold(&h, 39, 1);    /* the hot hours go with the run */
    hold(&h, 45, 150);
    assert_near(last(&h, RULES_DOSE_RUN_40), 0, 0);
    end(&h);
}

/* hours of one cell, counted here */
struct counted {
    double sum, run, longest;
};

static double above(double from, double to, double over)
{
    double low = fmin(from, to), high = fmax(from, to);
    return high <= over ? 0 : low >= over ? 1 : (high - over) / (high - low);
}

static void count(struct counted *c, double from, double to, double over, double hours)
{
    double part = hours * above(from, to, over);
    c->sum += part;
    if (from < over)
        c->run = part;
    else {
        c->run += part;
        c->longest = fmax(c->longest, c->run);
        c->run = to < over ? 0 : c->run;
    }
    c->longest = fmax(c->longest, c->run);
}

/* Left alone, a cell is on the stage that its hours say, whatever its course and its steps. */
static void a_cell_that_is_left_alone_is_followed_exactly(void **state)
{
    (void)state;
    uint64_t seed = 4;
    for (int trial = 0; trial < 200; trial++) {
        struct heap h;
        struct counted c55 = {0, 0, 0}, c60 = {0, 0, 0};
        double now = 50;
        make(&h, &ONE);
        for (int i = 0; i < 300; i++) {
            double hours = 0.1 + 3.9 * chance(&seed);
            double next = fmin(70, fmax(30, now + 8 * (chance(&seed) - 0.46)));
            h.from_K[0] = now;
            h.to_K[0] = next;
            dose_step(&h.dose, &h.pile, h.from_K, h.to_K, h.wet, lane_of(3600 * hours));
            count(&c55, now, next, 55, hours);
            count(&c60, now, next, 60, hours);
            now = next;
            for (int stage = 1; stage <= rules_doses[RULES_DOSE_SUM_55].stages; stage++)
                if (fabs(c55.sum - 6 * stage) > 1e-3)
                    assert_near(met(&h, RULES_DOSE_SUM_55, stage), c55.sum > 6 * stage, 1e-12);
            for (int stage = 1; stage <= rules_doses[RULES_DOSE_SUM_60].stages; stage++)
                if (fabs(c60.sum - 12 * stage) > 1e-3)
                    assert_near(met(&h, RULES_DOSE_SUM_60, stage), c60.sum > 12 * stage, 1e-12);
            if (fabs(c55.longest - 72) > 1e-3)
                assert_near(last(&h, RULES_DOSE_RUN_55), c55.longest > 72, 1e-12);
        }
        end(&h);
    }
}

/* ---- mixing ---- */

/* Picks cells at random until they hold this share of the volume, as near as cells allow. */
static double pick_core(const struct heap *h, double want, bool *core)
{
    double share = 0;
    for (int c = 0; c < h->mesh.cells; c++) {
        double own = move_share(&h->mesh, c);
        core[c] = share + own <= want + 1e-4;
        share += core[c] ? own : 0;
    }
    return share;
}

/* What has never been hot after n heats with ideal mixing between: (1 - c)^n. [derived: core shares of
 * cubes by their sides and the depth of their cool shell, ((a - 2 s)/a)^3, and the powers to two digits] */
static void random_mixing_leaves_what_chance_leaves(void **state)
{
    (void)state;
    static const struct { double side_m, shell_m, core, left[4]; } row[] = {
        {0.9, 0.15, 0.30, {0.70, 0.50, 0.35, 0.17}}, {1.0, 0.10, 0.51, {0.49, 0.24, 0.12, 0.028}},
        {1.0, 0.15, 0.34, {0.66, 0.43, 0.28, 0.12}}, {1.0, 0.20, 0.22, {0.78, 0.61, 0.48, 0.30}},
        {1.2, 0.15, 0.42, {0.58, 0.33, 0.19, 0.065}}, {1.5, 0.15, 0.51, {0.49, 0.24, 0.12, 0.028}}};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        struct heap h;
        bool core[2048];
        double c = pow((row[i].side_m - 2 * row[i].shell_m) / row[i].side_m, 3);
        assert_near(c, row[i].core, 0.0055);
        make(&h, &BIN);
        double share = pick_core(&h, c, core);
        assert_near(share, c, 2e-3);
        for (int n = 1, k = 0; n <= 5; n++) {
            hold_core(&h, core, 62, 24);
            double never = 1 - met(&h, RULES_DOSE_SUM_55, 1);
            assert_near(never, pow(1 - share, n), 1e-12);
            if (n != 4)
                assert_near(never, row[i].left[k++], 0.012);
            mix(&h);
        }
        end(&h);
    }
}

/* Five random turns, core share 34 %: 12.5 % never got hot. [derived: 0.66^5 = 0.1252] */
static void five_random_turns_leave_an_eighth(void **state)
{
    (void)state;
    struct heap h;
    bool core[2048];
    make(&h, &BIN);
    pick_core(&h, 0.34, core);
    for (int n = 0; n < 5; n++) {
        hold_core(&h, core, 60, 72);
        mix(&h);
    }
    assert_near(1 - met(&h, RULES_DOSE_SUM_55, 1), 0.125, 0.005);
    end(&h);
}

/* Whole stages between turns: the binomial law, exactly. n heats of 24 h, a share c hot in each. */
static void whole_stages_between_turns_are_exact(void **state)
{
    (void)state;
    struct heap h;
    bool core[2048];
    make(&h, &BIN);
    double c = pick_core(&h, 0.4, core);
    for (int n = 0; n < 6; n++) {
        hold_core(&h, core, 58, 24);
        mix(&h);
    }
    double three = 1 - pow(1 - c, 6) - 6 * c * pow(1 - c, 5) - 15 * c * c * pow(1 - c, 4);
    assert_near(last(&h, RULES_DOSE_SUM_55), three, 1e-12); /* 72 hours */
    end(&h);
}

/* Share of what is hot in each of n heats at chance c, for so many hours, whose sum is at least `need`. */
static double exactly(double c, const double *hours, int n, double need)
{
    double sum = 0;
    for (int way = 0; way < 1 << n; way++) {
        double had = 0, share = 1;
        for (int i = 0; i < n; i++) {
            had += way >> i & 1 ? hours[i] : 0;
            share *= way >> i & 1 ? c : 1 - c;
        }
        sum += had >= need ? share : 0;
    }
    return sum;
}

/* Parts of a stage between turns are smeared: against every history on its own, how far off is the
 * share that has had 72 hours, or 14 days? [derived] On whole stages "at least six" begins half a stage
 * early, so the share is out by at most that half times what ends per hour at the border: for heats
 * of half a day to five days (3 h and 1/108 h) 3 %; the mean over many piles is well within it. Where many
 * histories end within a stage of the border a single pile may be out by more. */
static void parts_of_stages_cost_little(void **state)
{
    (void)state;
    static const struct { int dose, stage; double hours; } row[] = {
        {RULES_DOSE_SUM_55, 12, 72}, {RULES_DOSE_SUM_55_LONG, 28, 14 * 24}};
    uint64_t seed = 11;
    double sum[2] = {0}, lean[2] = {0}, worst[2] = {0};
    enum { PILES = 300 };
    for (int trial = 0; trial < PILES; trial++) {
        struct heap h;
        bool core[2048];
        double hours[10], share;
        int heats = 3 + (int)(8 * chance(&seed));
        make(&h, &BIN);
        share = pick_core(&h, 0.3 + 0.4 * chance(&seed), core);
        for (int n = 0; n < heats; n++) {
            hours[n] = 12 + 108 * chance(&seed);
            hold_core(&h, core, 58, hours[n]);
            mix(&h);
        }
        for (int k = 0; k < 2; k++) {
            double off = met(&h, row[k].dose, row[k].stage) - exactly(share, hours, heats, row[k].hours);
            sum[k] += fabs(off);
            lean[k] += off;
            worst[k] = fmax(worst[k], fabs(off));
        }
        end(&h);
    }
    for (int k = 0; k < 2; k++) {
        print_message("%.0f h: mean error %.4f, leaning %+.4f, worst %.3f\n", row[k].hours,
                      sum[k] / PILES, lean[k] / PILES, worst[k]);
        assert_true(sum[k] / PILES < 0.03);
    }
}

/* Stages hold no more than there is, and none of them less than nothing, whatever is done. */
static void no_stage_is_ever_negative_and_all_add_up(void **state)
{
    (void)state;
    uint64_t seed = 23;
    struct heap h;
    make(&h, &BIN);
    double before[RULES_DOSES] = {0};
    for (int i = 0; i < 400; i++) {
        for (int c = 0; c < h.mesh.cells; c++) {
            h.from_K[c] = h.to_K[c];
            h.to_K[c] = fmin(75, fmax(10, h.to_K[c] + 12 * (chance(&seed) - 0.44)));
            h.wet[c] = 0.3 + 0.4 * chance(&seed);
        }
        dose_step(&h.dose, &h.pile, h.from_K, h.to_K, h.wet, lane_of(14400 * chance(&seed)));
        if (i % 37 == 0) {
            dose_fold(&h.dose, &h.pile, lane_everybody());
            move_turn(&h.spare, &h.pile, MOVE_UPSIDE_DOWN, lane_of(0.4));
            move_swap(&h.pile, &h.spare);
        }
        for (int k = 0; k < RULES_DOSES; k++) {
            double now = last(&h, k);
            assert_true(now >= before[k] - 1e-13); /* met stays met */
            before[k] = now;
            assert_true(met(&h, k, 1) <= 1 + 1e-12);
        }
        for (int s = 0; s < RULES_STAGES; s++)
            for (int c = 0; c < h.mesh.cells; c++)
                assert_true(lane_get(pile_dose(&h.pile, s)[c], 0) >= 0);
    }
    assert_true(before[RULES_DOSE_SUM_55] > 0.5);
    end(&h);
}

/* Before a turn what is under way to a stage becomes a share that stands there: expectation is kept. */
static void what_is_under_way_goes_on_by_its_share_in_every_dose(void **state)
{
    (void)state;
    struct heap h;
    make(&h, &ONE);
    hold(&h, 72, 0.02);
    double under_way[RULES_DOSES];
    for (int k = 0; k < RULES_DOSES; k++) {
        under_way[k] = lane_get(h.dose.carry[k][0], 0);
        assert_true(under_way[k] > 0 && under_way[k] < 1);
        assert_near(met(&h, k, 1), 0, 0);
    }
    dose_fold(&h.dose, &h.pile, lane_everybody());
    for (int k = 0; k < RULES_DOSES; k++) {
        assert_near(met(&h, k, 1), under_way[k], 1e-14);
        assert_near(h.dose.carry[k][0], 0, 0);
    }
    end(&h);
}

/* New material stands at no stage: shares fall by what it adds and its own clock begins. */
static void fresh_material_begins_anew(void **state)
{
    (void)state;
    struct heap h;
    make(&h, &BIN);
    hold(&h, 60, 72);
    assert_near(last(&h, RULES_DOSE_RUN_55), 1, 1e-12);
    struct move_batch batch = {{lane_of(0)}};
    batch.amount[move_of_stock(STOCK_LOOSE_M3)] = lane_of(0.5);
    batch.amount[move_of_laid(&h.pile, 0)] = lane_of(0.25);
    dose_fold(&h.dose, &h.pile, lane_everybody());
    move_add(&h.pile, &h.spare, &batch, 0);
    assert_near(last(&h, RULES_DOSE_RUN_55), 1, 1e-12); /* of 1.25 kg now */
    hold(&h, 60, 71);
    assert_near(last(&h, RULES_DOSE_RUN_55), 1, 1e-12);
    hold(&h, 60, 1);
    assert_near(last(&h, RULES_DOSE_RUN_55), 1.25, 1e-12);
    end(&h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_equation_gives_the_regulations_times),
        cmocka_unit_test(a_record_of_two_temperatures_adds_up),
        cmocka_unit_test(three_days_in_one_run_and_no_minute_less),
        cmocka_unit_test(what_is_too_dry_earns_nothing_and_breaks_a_run),
        cmocka_unit_test(five_mild_days_need_their_four_hot_hours),
        cmocka_unit_test(a_cell_that_is_left_alone_is_followed_exactly),
        cmocka_unit_test(random_mixing_leaves_what_chance_leaves),
        cmocka_unit_test(five_random_turns_leave_an_eighth),
        cmocka_unit_test(whole_stages_between_turns_are_exact),
        cmocka_unit_test(parts_of_stages_cost_little),
        cmocka_unit_test(no_stage_is_ever_negative_and_all_add_up),
        cmocka_unit_test(what_is_under_way_goes_on_by_its_share_in_every_dose),
        cmocka_unit_test(fresh_material_begins_anew),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
