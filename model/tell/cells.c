/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/cells.c - the tables a scenario draws on, each row as cells for text and JSON alike.
 *
 * One function a table fills one row. A cell has a key for JSON and, if it stands in the lines of
 * the text, a heading and a width; so a column added here shows in both.
 */
#include "tell/cells.h"
#include "base/unit.h"
#include "know/bound.h"
#include "know/param.h"
#include "know/rules.h"
#include "know/skies.h"
#include "know/stuff.h"
#include "pile/flux.h"
#include <assert.h>
#include <string.h>

static struct cell *add(struct cells *row, enum cells_kind kind, const char *key)
{
    assert(row->count < CELLS_MOST);
    struct cell *cell = &row->cell[row->count++];
    *cell = (struct cell){.kind = kind, .key = key, .scale = 1.0};
    return cell;
}

static void show(struct cell *cell, const char *head, int width, int decimals, double scale)
{
    cell->head = head;
    cell->width = width;
    cell->decimals = decimals;
    cell->scale = scale;
}

static struct cell *add_text(struct cells *row, const char *key, const char *text)
{
    struct cell *cell = add(row, CELLS_TEXT, key);
    cell->text = text;
    return cell;
}

static struct cell *add_number(struct cells *row, const char *key, double value)
{
    struct cell *cell = add(row, CELLS_NUMBER, key);
    cell->value[0] = value;
    return cell;
}

static struct cell *add_span(struct cells *row, const char *key, struct span span)
{
    struct cell *cell = add(row, CELLS_SPAN, key);
    cell->value[0] = span.low;
    cell->value[1] = span.mid;
    cell->value[2] = span.high;
    return cell;
}

static void add_year(struct cells *row, const char *key, const double value[CELLS_MONTHS])
{
    memcpy(add(row, CELLS_YEAR, key)->value, value, CELLS_MONTHS * sizeof value[0]);
}

/* --- the tables ---------------------------------------------------------------------------- */

static void add_pools(struct cells *row, const struct stuff *stuff)
{
    add_number(row, "fast_share", stuff->fast_share);
    add_number(row, "protein_fat_share", stuff->protein_fat_share);
    add_number(row, "slow_share", stuff->slow_share);
    add_number(row, "lignin_share", stuff->lignin_share);
    add_number(row, "ash_share", stuff->ash_share);
    add_number(row, "inert_carbon_share", stuff->inert_carbon_share);
    add_number(row, "mineral_nitrogen_share", stuff->mineral_nitrogen_share);
    add_text(row, "pools_mark", stuff_mark_word(stuff->pools_mark));
    add_text(row, "pools_source", stuff->pools_source);
    add_text(row, "ash_mark", stuff_mark_word(stuff->ash_mark));
}

static void add_marks(struct cells *row, const struct stuff *stuff)
{
    add_text(row, "nitrogen_mark", stuff_mark_word(stuff->nitrogen_mark));
    add_text(row, "nitrogen_source", stuff->nitrogen_source);
    add_text(row, "water_mark", stuff_mark_word(stuff->water_mark));
    add_text(row, "water_source", stuff->water_source);
    add_text(row, "bulk_mark", stuff_mark_word(stuff->bulk_mark));
    add_text(row, "bulk_source", stuff->bulk_source);
    add_text(row, "size_mark", stuff_mark_word(stuff->size_mark));
}

static bool fill_ingredient(struct cells *row, int at)
{
    if (at >= stuff_count)
        return false;
    static const char *const seeds[] = {"none", "some", "many"};
    const struct stuff *stuff = &stuff_rows[at];
    show(add_text(row, "name", stuff->name), "name", 34, 0, 1);
    show(add_text(row, "group", stuff_group_word(stuff->group)), "group", 7, 0, 1);
    double c_to_n = stuff->carbon_share / stuff->nitrogen_share.mid;
    show(add_number(row, "c_to_n", c_to_n), "C:N", 4, 0, 1);
    show(add_span(row, "nitrogen_share", stuff->nitrogen_share), "N %", 5, 2, 100);
    show(add_span(row, "water_share", stuff->water_share), "water %", 7, 0, 100);
    show(add_span(row, "bulk_kg_m3", stuff->bulk_kg_per_m3), "kg/m3", 5, 0, 1);
    show(add_number(row, "free_air_share", stuff->free_air_share), "air %", 5, 0, 100);
    add_text(row, "id", stuff->id);
    add_number(row, "carbon_share", stuff->carbon_share);
    if (stuff->carbon_to_nitrogen_ref > 0.0)
        add_number(row, "handbook_c_to_n", stuff->carbon_to_nitrogen_ref);
    add_marks(row, stuff);
    add_pools(row, stuff);
    add_number(row, "piece_m", stuff->piece_m);
    add_number(row, "settle_share", stuff->settle_share);
    add_text(row, "settles", stuff_class_word(stuff->settles));
    add_text(row, "weed_seeds", seeds[stuff->weed_seeds]);
    add(row, CELLS_TRUTH, "keratin")->value[0] = stuff->keratin;
    if (stuff->note[0])
        add_text(row, "note", stuff->note);
    return true;
}

static bool fill_parameter(struct cells *row, int at)
{
    if (at >= param_count)
        return false;
    static const char *const spread[] = {"exact", "even", "log-even"};
    const struct param_row *param = &param_rows[at];
    show(add_text(row, "name", param->name), "name", 25, 0, 1);
    show(add_number(row, "usual", param->usual), "usual", 9, -1, 1);
    show(add_text(row, "unit", param->unit), "unit", 8, 0, 1);
    show(add_text(row, "meaning", param->meaning), "meaning", CELLS_REST, 0, 1);
    add_number(row, "least", param->least);
    add_number(row, "most", param->most);
    add_text(row, "spread", spread[param->spread]);
    if (param->within > 0)
        add_number(row, "within_factor", param->within);
    add_text(row, "mark", param->mark);
    add_text(row, "source", param->source);
    return true;
}

static bool fill_unit(struct cells *row, int at)
{
    if (at >= unit_count)
        return false;
    const struct unit *unit = &unit_rows[at];
    show(add_text(row, "name", unit->name), "name", 15, 0, 1);
    show(add_text(row, "kind", unit_kind_word(unit->kind)), "of", 11, 0, 1);
    show(add_number(row, "one_in_SI", unit_to_SI(unit, 1.0)), "one in SI", 11, -1, 1);
    show(add_text(row, "also", unit->also), "also written", CELLS_REST, 0, 1);
    return true;
}

/* The row of a kind, counting only its own; NULL past the last. */
static const struct bound *bound_of(enum bound_kind kind, int at)
{
    for (int i = 0; i < bound_count; i++)
        if (bound_rows[i].kind == kind && at-- == 0)
            return &bound_rows[i];
    return NULL;
}

static bool fill_bound(struct cells *row, const struct bound *bound)
{
    if (!bound)
        return false;
    bool cover = bound->kind == BOUND_COVER;
    show(add_text(row, "name", bound->name), "name", 16, 0, 1);
    show(add_number(row, "open_share", bound->open_share), "open %", 6, 0, 100);
    show(add_number(row, cover ? "heat_m2K_per_W_per_m" : "heat_m2K_per_W", bound->heat_m2K_per_W),
         cover ? "m K/W" : "m2K/W", 5, 2, 1);
    show(add_number(row, "rain_share", bound->rain_share), "rain %", 6, 0, 100);
    show(add_number(row, "sun_share", bound->sun_share), "sun %", 5, 0, 100);
    show(add_text(row, "meaning", bound->meaning), "meaning", CELLS_REST, 0, 1);
    add_text(row, "source", bound->source);
    return true;
}

static bool fill_wall(struct cells *row, int at)
{
    return fill_bound(row, bound_of(BOUND_WALL, at));
}

static bool fill_floor(struct cells *row, int at)
{
    return fill_bound(row, bound_of(BOUND_FLOOR, at));
}

static bool fill_lid(struct cells *row, int at)
{
    return fill_bound(row, bound_of(BOUND_LID, at));
}

static bool fill_cover(struct cells *row, int at)
{
    return fill_bound(row, bound_of(BOUND_COVER, at));
}

static bool fill_sky(struct cells *row, int at)
{
    if (at >= skies_count)
        return false;
    const struct skies *sky = &skies_rows[at];
    show(add_text(row, "name", sky->name), "name", 16, 0, 1);
    show(add_number(row, "elevation_m", sky->elevation_m), "height m", 8, 0, 1);
    show(add_number(row, "wind_m_per_s", sky->wind_m_per_s), "wind m/s", 8, 1, 1);
    show(add_text(row, "meaning", sky->meaning), "meaning", CELLS_REST, 0, 1);
    add_year(row, "night_low_c", sky->low_C);
    add_year(row, "day_high_c", sky->high_C);
    add_year(row, "rain_mm", sky->rain_mm);
    add_year(row, "wet_days", sky->wet_days);
    add(row, CELLS_TRUTH, "coastal")->value[0] = sky->coastal;
    return true;
}

static const char *const turns[][2] = {
    {"layer by layer", "fork the pile into another bay from the top down: top and sides land at "
                       "the bottom, the old bottom ends on top, so the order is reversed"},
    {"mixed", "shake each forkful over the whole of the new bay: moisture evens out, much heat "
              "leaves"},
    {"outside in", "set the skin aside, lay the old middle round the new rim and the skin in the "
                   "new middle, so that what stayed cold gets its turn"},
    {"out and back", "fork the pile out beside its bay and back in, when there is no second bay: "
                     "the order comes back, loosened and aired; all is handled twice"},
    {"loosen", "work a bar or the fork into the pile to open ways for air; nothing changes place"},
};

static bool fill_turn(struct cells *row, int at)
{
    if (at >= (int)(sizeof turns / sizeof turns[0]))
        return false;
    show(add_text(row, "name", turns[at][0]), "name", 14, 0, 1);
    show(add_text(row, "meaning", turns[at][1]), "what one does", CELLS_REST, 0, 1);
    return true;
}

static bool fill_rule(struct cells *row, int at)
{
    if (at >= RULES)
        return false;
    const struct rules_row *rule = &rules_rows[at];
    const struct rules_dose *dose = &rules_doses[rule->dose];
    bool sum = dose->count == RULES_COUNT_SUM || dose->count == RULES_COUNT_EQUATION;
    show(add_text(row, "name", rule->name), "rule", 57, 0, 1);
    show(add_text(row, "where", rule->where), "where", CELLS_REST, 0, 1);
    add_text(row, "source", rule->source);
    add_text(row, "mark", rule->mark);
    add_text(row, "hours_count", sum ? "added up" : "in one unbroken run");
    add_text(row, "read_here_as", rule->reading);
    add_number(row, "from_c", dose->over_C);
    add_number(row, "least_water_share", dose->water_share);
    if (rule->turns > 0) {
        add_number(row, "turns", rule->turns);
        if (rule->turns_apart_days > 0)
            add_number(row, "days_between_turns", rule->turns_apart_days);
        if (rule->turn_C > 0)
            add_number(row, "middle_when_turned_c", rule->turn_C);
    }
    if (rule->days > 0)
        add_number(row, "days_in_all", rule->days);
    if (rule->most_c_to_n > 0) {
        add_number(row, "c_to_n_least", rule->least_c_to_n);
        add_number(row, "c_to_n_most", rule->most_c_to_n);
    }
    return true;
}

static bool fill_flux(struct cells *row, int at)
{
    if (at >= FLUXES)
        return false;
    const struct flux_row *flux = &flux_rows[at];
    show(add_text(row, "name", flux->name), "name", 16, 0, 1);
    show(add_text(row, "unit", flux_unit((enum flux)at)), "unit", 5, 0, 1);
    show(add_text(row, "group", flux->group), "line", 14, 0, 1);
    show(add_text(row, "meaning", flux->meaning), "meaning", CELLS_REST, 0, 1);
    return true;
}

/* name, how to fill its row number `at` (false past the last), and whether the text always shows
 * everything */
#define TABLES(ROW)                             \
    ROW("ingredients", fill_ingredient, false)  \
    ROW("parameters", fill_parameter, false)    \
    ROW("units", fill_unit, false)              \
    ROW("walls", fill_wall, false)              \
    ROW("floors", fill_floor, false)            \
    ROW("lids", fill_lid, false)                \
    ROW("covers", fill_cover, false)            \
    ROW("skies", fill_sky, true)                \
    ROW("turns", fill_turn, false)              \
    ROW("fluxes", fill_flux, false)             \
    ROW("rules", fill_rule, false)

const struct cells_table cells_tables[] = {
#define ROW(name, fill, all) {name, fill, all},
    TABLES(ROW)
#undef ROW
};

const char *const cells_names[] = {
#define ROW(name, fill, all) name,
    TABLES(ROW)
#undef ROW
};
const int cells_count = sizeof cells_names / sizeof cells_names[0];
