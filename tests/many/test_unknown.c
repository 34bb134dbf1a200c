/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_unknown.c - many/unknown: what isn't known, and possible piles drawn from it.
 *
 * Outside the project stand GSL's normal and chi-squared distributions. Bounds on random numbers
 * are five standard errors of what is counted, each derived where it stands; the numbers are the
 * same in every run, so a test that passes once passes always.
 */
#include "many/unknown.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>
#include <stdlib.h>

#define HEAD "midden: 1\nstart: 2025-10-18\nplace: {latitude: 47 N}\nsky: cold winters\n" \
    "bin: 1.2 x 1.2 x 1 m\n"
/* buckets and scale, numbers and ranges, wetness of the table and felt, water poured, sand */
#define BUILT HEAD "build:\n" \
    "  - straw: 20 buckets\n    horse manure: 50 kg\n    water: 1 to 2 buckets\n" \
    "  - grass clippings: 5 to 7 buckets\n    wood ash: 1 bucket\n" \
    "  - mixed leaves: 2 bags\n    squeeze: drips\n"
#define FOUND HEAD "found:\n  height: 24 to 30 in\n  squeeze: crumbles\n  middle: 75 to 85 F\n" \
    "  hand deep: 60 to 66 F\n  built: 45 days ago\n  of: {horse manure: 4 parts, straw: 3 parts}\n"

/* and what a rule is told */
#define LOOKED HEAD "build:\n  - straw: 20 buckets\n    horse manure: 9 buckets\n" \
    "readings: {thermometer: {kind: dial, in ice water: 2 C}}\n" \
    "plans:\n  by rule:\n    - {look: day, when: squeeze crumbles and middle below 45 C, turn: mixed}\n"

#define MANURE "horse manure with some bedding"

static const bool none_fixed[PARAM_ROWS];

struct garden {
    struct scenario scenario;
    struct unknowns list;
    struct param param;
    struct possible possible;
    double chance[UNKNOWN_MOST];
    struct trouble why;
};

static struct garden *garden(const char *text)
{
    struct garden *g = calloc(1, sizeof *g);
    assert_non_null(g);
    if (!scenario_read_text(&g->scenario, text, strlen(text), "test", &g->why))
        fail_msg("%s", g->why.text);
    g->param = param_usual();
    unknown_list(&g->list, &g->scenario, 0, none_fixed);
    return g;
}

static void choose(struct garden *g)
{
    unknown_choose(&g->possible, &g->list, g->chance, &g->scenario, &g->param);
}

static void choose_all_at(struct garden *g, double chance)
{
    for (int i = 0; i < g->list.count; i++)
        g->chance[i] = chance;
    choose(g);
}

static void choose_member(struct garden *g, uint64_t draw, int member)
{
    for (int i = 0; i < g->list.count; i++)
        g->chance[i] = unknown_chance(draw, (uint32_t)member, g->list.row[i].name);
    choose(g);
}

static int row_of(const struct garden *g, const char *name)
{
    for (int i = 0; i < g->list.count; i++)
        if (strcmp(g->list.row[i].name, name) == 0)
            return i;
    return -1;
}

static int stuff_of(const struct garden *g, const char *name)
{
    for (int i = 0; i < g->scenario.stuffs; i++)
        if (strcmp(g->scenario.stuff[i].name, name) == 0)
            return i;
    fail_msg("there is no %s", name);
    return -1;
}

/* ---- all that a possible pile says, as a row of numbers ---- */

enum { FACTS_MOST = 1024 };

struct facts {
    int count;
    double fact[FACTS_MOST];
};

static void note(struct facts *facts, double fact)
{
    assert_true(facts->count < FACTS_MOST);
    facts->fact[facts->count++] = fact;
}

static void note_stuff(struct facts *facts, const struct possible *p, int i)
{
    const struct stuff *s = &p->stuff[i];
    double each[] = {s->nitrogen_share.mid, s->fast_share, s->protein_fat_share, s->slow_share,
                     s->lignin_share, s->ash_share, s->carbon_share, s->water_share.mid,
                     s->bulk_kg_per_m3.mid, s->piece_m, p->piece[i], p->pace[i]};
    for (size_t k = 0; k < sizeof each / sizeof *each; k++)
        note(facts, each[k]);
}

static void note_layer(struct facts *facts, const struct possible *p,
                       const struct plan_layer *layer)
{
    note(facts, possible_poured_kg(p, &layer->water_kg));
    for (int k = 0; k < layer->portions; k++) {
        struct possible_portion lies = possible_portion(p, &layer->portion[k]);
        note(facts, lies.wet_kg);
        note(facts, lies.water_share);
        note(facts, lies.volume_m3);
    }
}

static void facts_of(struct facts *facts, const struct garden *g)
{
    const struct possible *p = &g->possible;
    facts->count = 0;
    for (int i = 0; i < PARAM_ROWS; i++)
        note(facts, param_get(&p->param, &param_rows[i]));
    for (int i = 0; i < g->scenario.stuffs; i++)
        note_stuff(facts, p, i);
    for (int i = 0; i < g->scenario.layers; i++)
        note_layer(facts, p, &g->scenario.layer[i]);
    note(facts, possible_span(&g->scenario.found.middle_K, p->found_middle_at));
    note(facts, possible_span(&g->scenario.found.hand_deep_K, p->found_hand_at));
    note(facts, p->thermometer_K);
    note(facts, p->handful_share);
    note(facts, (double)p->slips);
    note(facts, (double)unknown_weather(&g->list, g->chance));
}

static int differences(const struct facts *a, const struct facts *b)
{
    int count = 0;
    assert_int_equal(a->count, b->count);
    for (int i = 0; i < a->count; i++)
        count += memcmp(&a->fact[i], &b->fact[i], sizeof a->fact[i]) != 0;
    return count;
}

/* ---- chances ---- */

static void a_block_takes_every_64th_once(void **state)
{
    (void)state;
    static const char *const names[] = {"fast_per_day", "water of wheat straw", "weather", ""};
    for (int n = 0; n < 4; n++)
        for (uint32_t block = 0; block < 20; block++) {
            int seen[UNKNOWN_BLOCK] = {0};
            for (uint32_t m = 1; m <= UNKNOWN_BLOCK; m++) {
                double chance = unknown_chance(3, block * UNKNOWN_BLOCK + m, names[n]);
                seen[(int)(UNKNOWN_BLOCK * chance)]++;
            }
            for (int i = 0; i < UNKNOWN_BLOCK; i++)
                assert_int_equal(seen[i], 1);
        }
}

static void chances_lie_between_0_and_1(void **state)
{
    (void)state;
    for (uint32_t m = 1; m <= 20000; m++) {
        double chance = unknown_chance(UINT64_MAX, m, "rain");
        assert_true(chance > 0 && chance < 1);
    }
}

/* Within its 64th a chance is even: ten equal parts of it hold equally many (chi-squared with nine
 * degrees of freedom, which stays below its 1 - 3e-7 point, as many as five standard errors). */
static void chances_are_even_within_their_64th(void **state)
{
    (void)state;
    enum { PARTS = 10, DRAWN = 6400 };
    int held[PARTS] = {0};
    double sum = 0, expected = (double)DRAWN / PARTS;
    for (uint32_t m = 1; m <= DRAWN; m++) {
        double at = UNKNOWN_BLOCK * unknown_chance(1, m, "lignin of wheat straw");
        held[(int)(PARTS * (at - floor(at)))]++;
    }
    for (int i = 0; i < PARTS; i++)
        sum += (held[i] - expected) * (held[i] - expected) / expected;
    assert_true(sum < gsl_cdf_chisq_Qinv(3e-7, PARTS - 1));
    assert_true(sum > gsl_cdf_chisq_Pinv(3e-7, PARTS - 1)); /* nor are they laid out evenly */
}

/* The place of one member in its block over 2000 draws: the mean of 2000 even numbers, whose
 * standard error is 1/sqrt(12 x 2000). */
static void no_member_has_a_place_of_its_own(void **state)
{
    (void)state;
    enum { DRAWS = 2000 };
    for (uint32_t member = 1; member <= 2; member++) {
        double sum = 0;
        for (uint64_t draw = 0; draw < DRAWS; draw++)
            sum += unknown_chance(draw, member, "best_C");
        assert_near(sum / DRAWS, 0.5, 5 / sqrt(12.0 * DRAWS));
    }
}

/* Sixteen blocks: the correlation of two unrelated unknowns has a standard error of
 * 1/sqrt(16 x 63), since a block of 64 in random order has one of 1/sqrt(63). */
enum { RELATED = 16 * UNKNOWN_BLOCK };
static const double ERROR_R = 0.031497;

static void unknowns_are_unrelated(void **state)
{
    (void)state;
    enum { NAMES = 40 };
    static double at[NAMES][RELATED];
    double sum = 0;
    int pairs = 0;
    for (int n = 0; n < NAMES; n++)
        for (uint32_t m = 0; m < RELATED; m++)
            at[n][m] = unknown_chance(1, m + 1, param_rows[n].name);
    for (int a = 0; a < NAMES; a++)
        for (int b = 0; b < a; b++, pairs++) {
            double r = gsl_stats_correlation(at[a], 1, at[b], 1, RELATED);
            assert_near(r, 0, 5 * ERROR_R);
            sum += r * r / (ERROR_R * ERROR_R);
        }
    /* all of them together: a sum of `pairs` squares, variance 2 each */
    assert_near(sum, pairs, 5 * sqrt(2.0 * pairs));
}

static void members_and_draws_are_unrelated(void **state)
{
    (void)state;
    static double one[RELATED + 1], other[RELATED];
    for (int n = 0; n < 20; n++) {
        const char *name = param_rows[n].name;
        for (uint32_t m = 0; m < RELATED; m++) {
            one[m] = unknown_chance(1, m + 1, name);
            other[m] = unknown_chance(2, m + 1, name);
            assert_true(one[m] != other[m]);
        }
        one[RELATED] = unknown_chance(1, RELATED + 1, name);
        assert_near(gsl_stats_correlation(one, 1, other, 1, RELATED), 0, 5 * ERROR_R);
        /* the next member; that no 64th comes twice leans this by 1/63 of a block */
        assert_near(gsl_stats_correlation(one, 1, one + 1, 1, RELATED), -1. / 63, 5 * ERROR_R);
        for (int m = 0; m < RELATED; m++)
            for (int k = 0; k < m; k++)
                assert_true(one[m] != one[k]);
    }
}

/* A name enters by a key of 32 bits: no two that the tables can make may share theirs. */
static void no_two_names_share_their_draw(void **state)
{
    (void)state;
    static const char *const kinds[] = {"water of ", "density of ", "amount of ", "nitrogen of ",
                                        "lignin of ", "sugars of ", "piece size of ",
                                        "rotting pace of "};
    static const char *const others[] = {"water poured", "wetness as felt", "height as found",
                                         "middle as found", "hand deep as found", "weather",
                                         "thermometer", "feel of a handful",
                                         "errors of single readings"};
    enum { KINDS = 8, OTHERS = 9 };
    int count = 0, most = PARAM_ROWS + KINDS * stuff_count + OTHERS;
    double *chance = malloc((size_t)most * sizeof *chance);
    for (int i = 0; i < PARAM_ROWS; i++)
        chance[count++] = unknown_chance(1, 1, param_rows[i].name);
    for (int k = 0; k < KINDS; k++)
        for (int i = 0; i < stuff_count; i++) {
            char name[96] = "";
            strcat(strcat(name, kinds[k]), stuff_rows[i].name);
            chance[count++] = unknown_chance(1, 1, name);
        }
    for (int i = 0; i < OTHERS; i++)
        chance[count++] = unknown_chance(1, 1, others[i]);
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++)
            assert_true(chance[i] != chance[k]);
    free(chance);
}

/* ---- the list ---- */

static void the_list_holds_what_a_recipe_leaves_open(void **state)
{
    (void)state;
    struct garden *g = garden(BUILT);
    static const char *const here[] = {
        "fast_per_day", "season_warmth_K", "water of wheat straw",
        "density of horse manure with some bedding",
        "amount of fresh grass clippings", "nitrogen of wheat straw", "lignin of wheat straw",
        "sugars of wheat straw", "piece size of mixed leaves", "rotting pace of mixed leaves",
        "density of wood ash",
        "water poured", "wetness as felt", "weather"};
    static const char *const absent[] = {
        "tolerance_K" /* exact */, "water of mixed leaves" /* felt */, "lignin of wood ash",
        "height as found", "middle as found"};
    for (size_t i = 0; i < sizeof here / sizeof *here; i++)
        if (row_of(g, here[i]) < 0)
            fail_msg("'%s' is not among the unknowns", here[i]);
    for (size_t i = 0; i < sizeof absent / sizeof *absent; i++)
        assert_int_equal(row_of(g, absent[i]), -1);
    for (int i = 0; i < g->list.count; i++)
        assert_int_equal(row_of(g, g->list.row[i].name), i); /* each once */
    free(g);
    g = garden(FOUND);
    assert_true(row_of(g, "height as found") >= 0 && row_of(g, "middle as found") >= 0 &&
                row_of(g, "hand deep as found") >= 0);
    assert_int_equal(row_of(g, "amount of " MANURE), -1); /* its height says it */
    free(g);
}

static void what_is_set_by_hand_is_no_unknown(void **state)
{
    (void)state;
    struct garden *g = garden(BUILT);
    bool fixed[PARAM_ROWS] = {false};
    int before = g->list.count;
    fixed[PARAM_ROW_best_C] = true;
    assert_true(param_set(&g->param, "best_C", 56, &g->why));
    unknown_list(&g->list, &g->scenario, 0, fixed);
    assert_int_equal(g->list.count, before - 1);
    assert_int_equal(row_of(g, "best_C"), -1);
    choose_all_at(g, 0.9);
    assert_near(g->possible.param.best_C, 56, 0);
    free(g);
}

static void there_is_room_for_the_longest_list(void **state)
{
    (void)state;
    enum { OF_STUFF = 8, OTHERS = 9 };
    assert_true(PARAM_ROWS + OF_STUFF * PLAN_STUFF + OTHERS <= UNKNOWN_MOST);
}

/* Another ingredient laid first moves every row of the list and of the recipe. */
static void one_more_unknown_leaves_the_others_as_they_were(void **state)
{
    (void)state;
    struct garden *g = garden(HEAD "build:\n  - straw: 20 buckets\n    horse manure: 9 buckets\n");
    struct garden *more = garden(HEAD "build:\n  - coffee grounds: 1 bucket\n    squeeze: drips\n"
                                 "  - straw: 20 buckets\n    horse manure: 9 buckets\n");
    int shared = 0;
    assert_true(more->list.count > g->list.count);
    for (int member = 1; member <= 130; member++) {
        choose_member(g, 1, member);
        choose_member(more, 1, member);
        assert_memory_equal(&g->possible.param, &more->possible.param, sizeof g->possible.param);
        for (int i = 0; i < g->scenario.stuffs; i++, shared++) {
            int k = stuff_of(more, g->scenario.stuff[i].name);
            struct facts a = {0}, b = {0};
            note_stuff(&a, &g->possible, i);
            note_stuff(&b, &more->possible, k);
            assert_int_equal(differences(&a, &b), 0);
            assert_near(more->possible.water_at[k], g->possible.water_at[i], 0);
            assert_near(more->possible.fill[k], g->possible.fill[i], 0);
        }
        assert_true(unknown_weather(&g->list, g->chance) ==
                    unknown_weather(&more->list, more->chance));
    }
    assert_int_equal(shared, 2 * 130);
    free(g);
    free(more);
}

/* ---- possible piles ---- */

static void halves_are_usual(const char *text)
{
    struct garden *g = garden(text);
    struct facts usual, halves;
    choose_all_at(g, 0.5);
    facts_of(&halves, g);
    possible_usual(&g->possible, &g->scenario, &g->param);
    facts_of(&usual, g);
    assert_int_equal(differences(&usual, &halves), 0);
    free(g);
}

static void halves_everywhere_are_the_central_pile_bit_for_bit(void **state)
{
    (void)state;
    halves_are_usual(BUILT);
    halves_are_usual(FOUND);
    halves_are_usual(LOOKED);
}

/* A row whose usual value is one of its ends has only one way to go. */
static bool one_way(const struct unknown *u)
{
    const struct param_row *row = &param_rows[u->kind == UNKNOWN_PARAM ? u->row : 0];
    return u->kind == UNKNOWN_PARAM && (row->usual == row->least || row->usual == row->most);
}

/* Each unknown alone, low and high: something differs from the central pile and between the two. */
static void each_changes(const char *text, int kinds[])
{
    struct garden *g = garden(text);
    struct facts usual, low, high;
    choose_all_at(g, 0.5);
    facts_of(&usual, g);
    for (int i = 0; i < g->list.count; i++) {
        g->chance[i] = 0.02;
        choose(g);
        facts_of(&low, g);
        g->chance[i] = 0.98;
        choose(g);
        facts_of(&high, g);
        g->chance[i] = 0.5;
        int below = differences(&usual, &low), above = differences(&usual, &high);
        int count = below > above ? below : above;
        bool both = below > 0 && above > 0;
        if (differences(&low, &high) < 1 || (!both && !(one_way(&g->list.row[i]) && count > 0)))
            fail_msg("'%s' changes nothing", g->list.row[i].name);
        if (g->list.row[i].kind == UNKNOWN_PARAM)
            assert_int_equal(count, 1);
        kinds[g->list.row[i].kind]++;
    }
    free(g);
}

static void each_unknown_changes_the_pile(void **state)
{
    (void)state;
    int kinds[UNKNOWN_WEATHER + 1] = {0};
    each_changes(BUILT, kinds);
    each_changes(FOUND, kinds);
    each_changes(LOOKED, kinds);
    for (int kind = 0; kind <= UNKNOWN_WEATHER; kind++)
        assert_true(kinds[kind] > 0);
}

/* A dial is off by up to 4 degrees, and by 2 once ice water has told how much; its reading in ice is
 * known. A handful feels up to five points wetter or drier [trade]. */
static void a_thermometer_held_in_ice_is_half_as_unsure(void **state)
{
    (void)state;
    static const double nearly[] = {1e-9, 1 - 1e-9};
    static const double side[] = {-1, 1};
    struct garden *ice = garden(LOOKED);
    struct garden *none = garden(HEAD "build: [{straw: 20 buckets}]\nplans:\n  by rule:\n"
                                 "    - {look: day, when: middle below 45 C, turn: mixed}\n");
    for (int i = 0; i < 2; i++) {
        choose_all_at(ice, 0.5);
        ice->chance[row_of(ice, "thermometer")] = nearly[i];
        ice->chance[row_of(ice, "feel of a handful")] = nearly[i];
        choose(ice);
        assert_near(ice->possible.thermometer_K, 2 + 2 * side[i], 1e-6);
        assert_near(ice->possible.handful_share, 0.05 * side[i], 1e-7);
        choose_all_at(none, 0.5);
        assert_near(none->possible.thermometer_K, 0, 0);
        none->chance[row_of(none, "thermometer")] = nearly[i];
        choose(none);
        assert_near(none->possible.thermometer_K, 4 * side[i], 1e-6);
    }
    assert_int_equal(row_of(none, "feel of a handful"), -1);
    free(ice);
    free(none);
}

/* A portion of the pile where one unknown holds this chance and all others a half. */
static struct possible_portion at(struct garden *g, const char *name, double chance, int layer,
                                  int k)
{
    int row = row_of(g, name);
    assert_true(row >= 0);
    choose_all_at(g, 0.5);
    g->chance[row] = chance;
    choose(g);
    return possible_portion(&g->possible, &g->scenario.layer[layer].portion[k]);
}

static double dry_kg(struct possible_portion lies)
{
    return lies.wet_kg * (1 - lies.water_share);
}

/* Water fills pores: a wetter bucket holds the same dry matter; a wetter 50 kg holds less. Buckets
 * stay as large when they are denser, and 50 kg take less room. */
static void what_was_measured_holds(void **state)
{
    (void)state;
    struct garden *g = garden(BUILT);
    int straw = g->scenario.layer[0].portion[0].weighed; /* the order within a layer */
    int manure = !straw;
    struct possible_portion a, b;
    a = at(g, "water of wheat straw", 0.1, 0, straw);
    b = at(g, "water of wheat straw", 0.9, 0, straw);
    assert_true(b.water_share > a.water_share);
    assert_near(dry_kg(b), dry_kg(a), 1e-12 * dry_kg(a));
    assert_near(b.volume_m3, a.volume_m3, 0);
    a = at(g, "water of " MANURE, 0.1, 0, manure);
    b = at(g, "water of " MANURE, 0.9, 0, manure);
    assert_near(b.wet_kg, a.wet_kg, 0);
    assert_true(dry_kg(b) < dry_kg(a));
    a = at(g, "density of wheat straw", 0.1, 0, straw);
    b = at(g, "density of wheat straw", 0.9, 0, straw);
    assert_near(b.volume_m3, a.volume_m3, 0);
    assert_true(b.wet_kg > a.wet_kg);
    a = at(g, "density of " MANURE, 0.1, 0, manure);
    b = at(g, "density of " MANURE, 0.9, 0, manure);
    assert_near(b.wet_kg, a.wet_kg, 0);
    assert_true(b.volume_m3 < a.volume_m3);
    free(g);
}

/* Where the draws of a row end. */
static double least_of(const struct param_row *row)
{
    return row->within > 0 ? fmax(row->least, row->usual / row->within) : row->least;
}

static double most_of(const struct param_row *row)
{
    return row->within > 0 ? fmin(row->most, row->usual * row->within) : row->most;
}

/* Between least and most in each of 256 members, what was fitted no further from usual than it is known
 * to, and half of each 64 on either side of usual. */
static void drawn_parameters_keep_to_their_rows(void **state)
{
    (void)state;
    struct garden *g = garden(BUILT);
    static int below[PARAM_ROWS], above[PARAM_ROWS];
    for (int member = 1; member <= 4 * UNKNOWN_BLOCK; member++) {
        choose_member(g, 1, member);
        for (int i = 0; i < PARAM_ROWS; i++) {
            const struct param_row *row = &param_rows[i];
            double value = param_get(&g->possible.param, row);
            double rounding = 1e-12 * fabs(row->usual);
            assert_true(value >= least_of(row) - rounding && value <= most_of(row) + rounding);
            assert_true(value >= row->least && value <= row->most);
            below[i] += value < row->usual;
            above[i] += value > row->usual;
        }
    }
    for (int i = 0; i < PARAM_ROWS; i++) {
        const struct param_row *row = &param_rows[i];
        bool exact = row->spread == PARAM_EXACT;
        assert_int_equal(below[i], exact || row->least == row->usual ? 0 : 2 * UNKNOWN_BLOCK);
        assert_int_equal(above[i], exact || row->most == row->usual ? 0 : 2 * UNKNOWN_BLOCK);
    }
    free(g);
}

static void parameters_rise_with_their_chance_from_least_to_most(void **state)
{
    (void)state;
    for (int i = 0; i < PARAM_ROWS; i++) {
        const struct param_row *row = &param_rows[i];
        double least = least_of(row), most = most_of(row), before = least - 1e-12 * fabs(least);
        if (row->spread == PARAM_EXACT)
            continue;
        for (int k = 1; k < 1000; k++) {
            double value = unknown_param(row, row->usual, k / 1000.0);
            assert_true(value >= before);
            before = value;
        }
        assert_near(unknown_param(row, row->usual, 0.5), row->usual, 0);
        assert_near(unknown_param(row, row->usual, 1e-9), least, 1e-5 * (most - least));
        assert_near(unknown_param(row, row->usual, 1 - 1e-9), most, 1e-5 * (most - least));
    }
}

/* GSL's even distribution, of the value or of its logarithm; to each side of what is usual a spread
 * of its own. */
static void distributions_are_those_of_another_library(void **state)
{
    (void)state;
    struct param_row row;
    for (int k = 1; k < 200; k++) {
        double chance = k / 200.0, z = gsl_cdf_flat_Pinv(chance, -2, 2);
        row = (struct param_row){.spread = PARAM_EVEN, .least = 2, .usual = 6, .most = 10};
        assert_near(unknown_param(&row, 6, chance), 6 + 2 * z, 1e-12);
        row.least = 5;
        assert_near(unknown_param(&row, 6, chance), 6 + (z < 0 ? 0.5 : 2) * z, 1e-12);
        row = (struct param_row){.spread = PARAM_LOGEVEN, .least = 1.5, .usual = 6, .most = 24};
        assert_near(unknown_param(&row, 6, chance), 6 * pow(2, z), 1e-11);
        row.most = 96;
        assert_near(unknown_param(&row, 6, chance), 6 * pow(2, (z < 0 ? 1 : 2) * z), 1e-10);
        row.within = 8; /* a factor of 2 z to the four of least, and of 8 at most on the other side */
        assert_near(unknown_param(&row, 6, chance), 6 * pow(2, (z < 0 ? 1 : 1.5) * z), 1e-10);
    }
}

/* ---- what ingredients are made of ---- */

static void sound(const struct stuff *drawn, const struct stuff *usual)
{
    double pools[] = {drawn->fast_share, drawn->protein_fat_share, drawn->slow_share,
                      drawn->lignin_share};
    double sum = 0;
    for (int i = 0; i < 4; i++) {
        assert_true(pools[i] >= 0 && pools[i] <= 1);
        sum += pools[i];
    }
    assert_near(sum, usual->fast_share + usual->protein_fat_share + usual->slow_share +
                     usual->lignin_share, 1e-12);
    assert_near(sum, 1, 1e-9);
    assert_true(drawn->nitrogen_share.mid >= usual->nitrogen_share.low - 1e-15 &&
                drawn->nitrogen_share.mid <= usual->nitrogen_share.high + 1e-15);
}

/* A scenario of this one ingredient, a bucket of it as it comes. */
static void lay_alone(struct scenario *s, const struct stuff *stuff)
{
    struct plan_portion portion = {.water_share = stuff->water_share,
                                   .volume_m3 = {0.012, 0.012, 0.012},
                                   .bulk_kg_per_m3 = stuff->bulk_kg_per_m3};
    s->stuffs = s->layers = 1;
    s->stuff[0] = *stuff;
    s->layer[0] = (struct plan_layer){.portions = 1, .portion = {portion}};
}

/* Every ingredient of the table: at all corners of nitrogen, lignin and sugars, in 64 members. */
static void compositions_stay_whole(void **state)
{
    (void)state;
    static const double ends[] = {1e-12, 0.5, 1 - 1e-12};
    struct garden *g = garden(BUILT);
    for (int k = 0; k < stuff_count; k++) {
        lay_alone(&g->scenario, &stuff_rows[k]);
        unknown_list(&g->list, &g->scenario, 0, none_fixed);
        for (int corner = 0; corner < 27; corner++) {
            for (int i = 0; i < g->list.count; i++) {
                enum unknown_kind kind = g->list.row[i].kind;
                g->chance[i] = kind == UNKNOWN_NITROGEN ? ends[corner % 3]
                               : kind == UNKNOWN_LIGNIN ? ends[corner / 3 % 3]
                               : kind == UNKNOWN_SOLUBLE ? ends[corner / 9] : 0.5;
            }
            choose(g);
            sound(&g->possible.stuff[0], &stuff_rows[k]);
        }
        for (int member = 1; member <= UNKNOWN_BLOCK; member++) {
            choose_member(g, 1, member);
            sound(&g->possible.stuff[0], &stuff_rows[k]);
            struct possible_portion lies = possible_portion(&g->possible,
                                                            &g->scenario.layer[0].portion[0]);
            assert_true(lies.wet_kg > 0 && lies.water_share > 0 && lies.water_share < 1 &&
                        lies.volume_m3 > lies.wet_kg * lies.water_share / 1000);
        }
    }
    free(g);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_block_takes_every_64th_once),
        cmocka_unit_test(chances_lie_between_0_and_1),
        cmocka_unit_test(chances_are_even_within_their_64th),
        cmocka_unit_test(no_member_has_a_place_of_its_own),
        cmocka_unit_test(unknowns_are_unrelated),
        cmocka_unit_test(members_and_draws_are_unrelated),
        cmocka_unit_test(no_two_names_share_their_draw),
        cmocka_unit_test(the_list_holds_what_a_recipe_leaves_open),
        cmocka_unit_test(what_is_set_by_hand_is_no_unknown),
        cmocka_unit_test(there_is_room_for_the_longest_list),
        cmocka_unit_test(one_more_unknown_leaves_the_others_as_they_were),
        cmocka_unit_test(halves_everywhere_are_the_central_pile_bit_for_bit),
        cmocka_unit_test(each_unknown_changes_the_pile),
        cmocka_unit_test(a_thermometer_held_in_ice_is_half_as_unsure),
        cmocka_unit_test(what_was_measured_holds),
        cmocka_unit_test(drawn_parameters_keep_to_their_rows),
        cmocka_unit_test(parameters_rise_with_their_chance_from_least_to_most),
        cmocka_unit_test(distributions_are_those_of_another_library),
        cmocka_unit_test(compositions_stay_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
