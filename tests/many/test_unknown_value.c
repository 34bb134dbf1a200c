/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_unknown_value.c - what is told of an unknown is what a possible pile of that chance has:
 * the number a keeper reads, worked out apart from the pile, against the pile that is run.
 */
#include "door/scenario.h"
#include "lib/near.h"
#include "many/unknown.h"
#include <stdlib.h>

#define HEAD "midden: 1\nstart: 2025-10-18\nplace: {latitude: 47 N}\nsky: cold winters\n" \
    "bin: 1.2 x 1.2 x 1 m\n"
#define BUILT HEAD "build:\n" \
    "  - straw: 20 buckets\n    horse manure: 50 kg\n    water: 1 to 2 buckets\n" \
    "  - grass clippings: 5 to 7 buckets\n    wood ash: 40 to 60 kg\n" \
    "  - mixed leaves: 2 bags\n    squeeze: drips\n" \
    "readings: {thermometer: {kind: dial, in ice water: 2 C}}\n" \
    "plans:\n  by rule:\n    - {look: day, when: squeeze crumbles and middle below 45 C, turn: mixed}\n"
#define FOUND HEAD "found:\n  height: 24 to 30 in\n  squeeze: crumbles\n  middle: 75 to 85 F\n" \
    "  hand deep: 60 to 66 F\n  built: 45 days ago\n  of: {horse manure: 4 parts, straw: 3 parts}\n"

struct garden {
    struct scenario scenario;
    struct unknowns list;
    struct param param;
    struct possible possible;
    double chance[UNKNOWN_MOST];
};

static struct garden *garden(const char *text)
{
    static const bool none_fixed[PARAM_ROWS];
    struct garden *g = calloc(1, sizeof *g);
    struct trouble why = {0};
    assert_non_null(g);
    if (!scenario_read_text(&g->scenario, text, strlen(text), "test", &why))
        fail_msg("%s", why.text);
    g->param = param_usual();
    unknown_list(&g->list, &g->scenario, 0, none_fixed);
    return g;
}

/* All as usual but for one row. */
static void choose(struct garden *g, int row, double chance)
{
    for (int i = 0; i < g->list.count; i++)
        g->chance[i] = i == row ? chance : 0.5;
    unknown_choose(&g->possible, &g->list, g->chance, &g->scenario, &g->param);
}

/* The first portion of an ingredient as the pile of now has it, by the measure it was given in. */
static double laid(const struct garden *g, int stuff)
{
    for (int l = 0; l < g->scenario.layers; l++)
        for (int i = 0; i < g->scenario.layer[l].portions; i++) {
            const struct plan_portion *p = &g->scenario.layer[l].portion[i];
            struct possible_portion lies = possible_portion(&g->possible, p);
            if (p->stuff == stuff)
                return p->weighed ? lies.wet_kg : lies.volume_m3;
        }
    fail_msg("no layer holds ingredient %d", stuff);
    return 0;
}

/* What the pile of this chance has; NAN for what only its season shows. */
static double had(struct garden *g, int row, double chance)
{
    const struct unknown *u = &g->list.row[row];
    double usual, thermometer_K, handful_share;
    choose(g, row, 0.5);
    usual = u->kind == UNKNOWN_AMOUNT ? laid(g, u->row) : 1;
    choose(g, row, chance);
    unknown_eyes(&g->list, g->chance, &g->scenario, &thermometer_K, &handful_share);
    const struct possible *p = &g->possible;
    const struct plan_found *found = &g->scenario.found;
    switch (u->kind) {
    case UNKNOWN_PARAM: return param_get(&p->param, &param_rows[u->row]);
    case UNKNOWN_WATER: return possible_span(&p->stuff[u->row].water_share, p->water_at[u->row]);
    case UNKNOWN_BULK: return possible_span(&p->stuff[u->row].bulk_kg_per_m3, p->bulk_at[u->row]);
    case UNKNOWN_AMOUNT: return laid(g, u->row) / usual;
    case UNKNOWN_NITROGEN: return p->stuff[u->row].nitrogen_share.mid;
    case UNKNOWN_PIECE: return p->piece[u->row];
    case UNKNOWN_PACE: return p->pace[u->row];
    case UNKNOWN_POUR: return p->pour;
    case UNKNOWN_FELT: return p->felt_at;
    case UNKNOWN_HEIGHT: return possible_span(&found->height_m, p->amount_at[g->scenario.layer[0].portion[0].stuff]);
    case UNKNOWN_FOUND_MIDDLE: return possible_span(&found->middle_K, p->found_middle_at);
    case UNKNOWN_FOUND_HAND: return possible_span(&found->hand_deep_K, p->found_hand_at);
    case UNKNOWN_THERMOMETER: return thermometer_K;
    case UNKNOWN_HANDFUL: return handful_share;
    default: return NAN;
    }
}

static void what_is_told_of_an_unknown_is_what_the_pile_has(void **state)
{
    (void)state;
    static const char *const texts[] = {BUILT, FOUND};
    bool seen[UNKNOWN_WEATHER + 1] = {false};
    for (int t = 0; t < 2; t++) {
        struct garden *g = garden(texts[t]);
        for (int row = 0; row < g->list.count; row++)
            for (double chance = 0.05; chance < 1; chance += 0.15) {
                const char *unit;
                double said = unknown_value(&g->list, row, chance, &g->scenario, &g->param, &unit);
                double has = had(g, row, chance);
                assert_non_null(unit);
                if (!isnan(has))
                    assert_near(said, has, 1e-12 * fabs(has));
                seen[g->list.row[row].kind] = true;
            }
        free(g);
    }
    for (int kind = 0; kind <= UNKNOWN_WEATHER; kind++)
        assert_true(seen[kind]);
}

/* How much more or less lignin and sugar there is is told as a factor that holds for any ingredient: one at
 * a half, and as far below as above [derived: exp of what lies symmetrically about nothing]. */
static void a_factor_is_one_at_a_half_and_its_inverse_at_the_opposite_chance(void **state)
{
    (void)state;
    struct garden *g = garden(BUILT);
    int rows = 0;
    for (int row = 0; row < g->list.count; row++) {
        enum unknown_kind kind = g->list.row[row].kind;
        const char *unit;
        if (kind != UNKNOWN_LIGNIN && kind != UNKNOWN_SOLUBLE && kind != UNKNOWN_PIECE
            && kind != UNKNOWN_PACE && kind != UNKNOWN_POUR)
            continue;
        double low = unknown_value(&g->list, row, 0.2, &g->scenario, &g->param, &unit);
        double high = unknown_value(&g->list, row, 0.8, &g->scenario, &g->param, &unit);
        assert_near(unknown_value(&g->list, row, 0.5, &g->scenario, &g->param, &unit), 1, 1e-12);
        assert_near(low * high, 1, 1e-12);
        assert_true(low < 1);
        assert_non_null(strstr(unit, "times as "));
        rows++;
    }
    assert_true(rows >= 4);
    free(g);
}

/* Weather and slips of the eye have no worth that a keeper could read. */
static void what_has_no_measure_is_told_as_unknown(void **state)
{
    (void)state;
    struct garden *g = garden(BUILT);
    int rows = 0;
    for (int row = 0; row < g->list.count; row++) {
        enum unknown_kind kind = g->list.row[row].kind;
        const char *unit;
        double said = unknown_value(&g->list, row, 0.3, &g->scenario, &g->param, &unit);
        bool measured = kind != UNKNOWN_WEATHER && kind != UNKNOWN_SLIPS;
        assert_int_equal(!isnan(said), measured);
        rows += !measured;
    }
    assert_int_equal(rows, 2);
    free(g);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_told_of_an_unknown_is_what_the_pile_has),
        cmocka_unit_test(a_factor_is_one_at_a_half_and_its_inverse_at_the_opposite_chance),
        cmocka_unit_test(what_has_no_measure_is_told_as_unknown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
