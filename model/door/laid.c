/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/laid.c - an amount as a gardener says it, and the kilograms, water and volume it means.
 *
 * Wet mass is volume times bulk density. The table's density holds for an ingredient lightly
 * settled and as wet as it usually comes; words change it so [all of them trade]:
 *   loose     0.8 of it, pressed 1.6 of it; level leaves it; heaped is 1.2 of the vessel's volume
 *   crisp     the least water of the table; fresh the usual; wilted halfway between;
 *             soaked the most, but at least 78 %
 *   chopped   pieces of at most 3 cm; whole: of at least 6 cm
 * Wetting fills pores and leaves the dry matter in a bucket as it was: the density follows the
 * water by (1 - usual share)/(1 - share) [derived]. Ingredients weighed in person (`weighs:`) are
 * already as wet as they come, so theirs doesn't. No packing goes beyond 95 % of the density
 * without air.
 */
#include "door/laid.h"
#include "run/handful.h"
#include <math.h>
#include <string.h>

static const double LOOSE = 0.8, PRESSED = 1.6, HEAPED = 1.2; /* trade */
static const double SOAKED_SHARE = 0.78;                      /* trade */
static const double CHOPPED_M = 0.03, WHOLE_M = 0.06;         /* trade */
static const double BUCKET_CARRIED = 0.8;                     /* trade */
static const double ORGANIC_KG_PER_M3 = 1550.0,
                    MINERAL_KG_PER_M3 = 2650.0; /* memory: soil physics */
static const double WATER_KG_PER_M3 = 1000.0;
static const double LEAST_AIR = 0.05;
static const double VOLUME_MOST_M3 = 100.0, MASS_MOST_KG = 100000.0, PARTS_MOST = 1000.0;

static const char EXPECTED[] = "an amount such as `6 buckets loose` or `5 to 7 kg fresh`";

static const char *const packings[] = {"loose", "level", "heaped", "pressed"};
static const char *const states[] = {"crisp", "wilted", "fresh", "soaked"};
static const char *const sizes[] = {"whole", "chopped"};
const char *const laid_squeezes[PLAN_SQUEEZES] = {"dusty", "crumbles", "holds", "drips", "runs"};

/* one of a closed list, which may be named once; *kept 0 is "not said" */
static bool take_word(struct words *words, const char *const *names, int count, int *kept,
                      bool *took)
{
    struct words start = *words;
    int index;
    *took = words_try_choice(words, names, count, &index);
    if (*took && *kept)
        return words_fault(&start, "`%s` after `%s`: one of them too many", names[index],
                           names[*kept - 1]);
    if (*took)
        *kept = index + 1;
    return true;
}

static bool fault_word(struct words *words)
{
    const char *const all[] = {"loose",  "level", "heaped", "pressed", "crisp",
                               "wilted", "fresh", "soaked", "whole",   "chopped"};
    int index;
    return words_choice(words, all, KEYS_COUNT(all), &index);
}

static bool take_words(struct words *words, struct laid *laid)
{
    int packing = 0, state = 0, size = 0;
    while (*words->at) {
        bool a, b, c;
        if (!take_word(words, packings, KEYS_COUNT(packings), &packing, &a)
            || !take_word(words, states, KEYS_COUNT(states), &state, &b)
            || !take_word(words, sizes, KEYS_COUNT(sizes), &size, &c))
            return false;
        if (!a && !b && !c)
            return fault_word(words);
    }
    laid->packing = (enum laid_packing)packing;
    laid->state = (enum laid_state)state;
    laid->size = (enum laid_size)size;
    return true;
}

static void keep_vessel(struct laid *laid, const struct unit *unit)
{
    laid->vessel = laid->by == LAID_MASS          ? PLAN_BY_MASS
                   : !strcmp(unit->name, "bucket") ? PLAN_BUCKET
                   : !strcmp(unit->name, "barrow") ? PLAN_BARROW
                   : !strcmp(unit->name, "bag")    ? PLAN_BAG
                                                   : PLAN_BY_VOLUME;
    laid->vessel_m3 = laid->vessel >= PLAN_BUCKET ? unit->factor : 0.0;
}

static bool take_amount(struct words *words, bool parts, struct laid *laid)
{
    struct span range = {0};
    struct unit unit = {.factor = 1.0};
    double most = PARTS_MOST;
    const char *reach = "more than 0, and at most 1000 parts";
    if (!words_range(words, &range))
        return false;
    laid->by = LAID_PARTS;
    if (!parts || !words_take(words, "part|parts")) {
        if (!words_unit(words, 1u << UNIT_VOLUME | 1u << UNIT_MASS, &unit))
            return false;
        laid->by = unit.kind == UNIT_MASS ? LAID_MASS : LAID_VOLUME;
        keep_vessel(laid, &unit);
        most = unit.kind == UNIT_MASS ? MASS_MOST_KG : VOLUME_MOST_M3;
        reach = unit.kind == UNIT_MASS ? "more than 0, and at most 100 t"
                                       : "more than 0, and at most 100 m3";
    }
    laid->amount.low = unit_to_SI(&unit, range.low);
    laid->amount.mid = unit_to_SI(&unit, range.mid);
    laid->amount.high = unit_to_SI(&unit, range.high);
    return words_within(words, laid->amount.high, 1e-6, most, reach)
           && words_within(words, laid->amount.low, 0.0, most, reach);
}

bool laid_read(struct reader *reader, const struct tree_node *node, bool parts, struct laid *laid)
{
    struct words words;
    *laid = (struct laid){0};
    return keys_open(reader, &words, node, EXPECTED) && take_amount(&words, parts, laid)
           && take_words(&words, laid);
}

/* the span of water for a word of state; half of the table's scatter goes with an exact word */
static struct span water_of(const struct span *usual, enum laid_state state)
{
    double dry_half = 0.5 * (usual->low + usual->mid), wet_half = 0.5 * (usual->mid + usual->high);
    double soaked = fmax(usual->high, SOAKED_SHARE);
    switch (state) {
    case LAID_CRISP:
        return (struct span){usual->low, usual->low, dry_half};
    case LAID_WILTED:
        return (struct span){usual->low, dry_half, usual->mid};
    case LAID_FRESH:
        return (struct span){dry_half, usual->mid, wet_half};
    case LAID_SOAKED:
        return (struct span){fmin(0.5 * (usual->mid + soaked), soaked), soaked, soaked};
    default:
        return *usual;
    }
}

static double fmin3(double a, double b, double c)
{
    return fmin(a, fmin(b, c));
}

/* the table's span, narrowed to the side a word of packing leaves */
static struct span packed(const struct span *usual, enum laid_packing packing)
{
    double mid = usual->mid;
    if (packing == LAID_LOOSE)
        return (struct span){fmin(usual->low, LOOSE * LOOSE * mid), LOOSE * mid, mid};
    if (packing == LAID_PRESSED)
        return (struct span){mid, PRESSED * mid, fmax(usual->high, 1.25 * PRESSED * mid)};
    return *usual;
}

double laid_solid(const struct stuff *stuff, double water_share)
{
    double solids_m3_per_kg =
        (1.0 - stuff->ash_share) / ORGANIC_KG_PER_M3 + stuff->ash_share / MINERAL_KG_PER_M3;
    return 1.0 / (water_share / WATER_KG_PER_M3 + (1.0 - water_share) * solids_m3_per_kg);
}

double laid_free_air(const struct stuff *stuff)
{
    double air = 1.0 - stuff->bulk_kg_per_m3.mid / laid_solid(stuff, stuff->water_share.mid);
    return fmax(air, 0.0);
}

static struct span density_of(const struct stuff *stuff, const struct laid *laid,
                              double water_share)
{
    struct span bulk = packed(&stuff->bulk_kg_per_m3, laid->packing);
    double most = (1.0 - LEAST_AIR) * laid_solid(stuff, water_share);
    double wetter = 1.0;
    if (laid->state != LAID_TYPICAL && stuff->bulk_mark != STUFF_GIVEN)
        wetter = (1.0 - stuff->water_share.mid) / (1.0 - water_share);
    bulk.high = fmin(wetter * bulk.high, most);
    bulk.mid = fmin(wetter * bulk.mid, most);
    bulk.low = fmin3(wetter * bulk.low, bulk.mid, most);
    return bulk;
}

void laid_portion(const struct stuff *stuff, const struct laid *laid, struct plan_portion *portion)
{
    const struct span *amount = &laid->amount;
    portion->water_share = water_of(&stuff->water_share, laid->state);
    struct span bulk = density_of(stuff, laid, portion->water_share.mid);
    portion->bulk_kg_per_m3 = bulk;
    portion->weighed = laid->by == LAID_MASS;
    if (portion->weighed) {
        portion->wet_kg = *amount;
        portion->volume_m3 =
            (struct span){amount->low / bulk.high, amount->mid / bulk.mid, amount->high / bulk.low};
    } else {
        double heap = laid->packing == LAID_HEAPED ? HEAPED : 1.0;
        portion->volume_m3 =
            (struct span){heap * amount->low, heap * amount->mid, heap * amount->high};
        portion->wet_kg =
            (struct span){portion->volume_m3.low * bulk.low, portion->volume_m3.mid * bulk.mid,
                          portion->volume_m3.high * bulk.high};
    }
    portion->vessel = laid->vessel;
    portion->vessel_m3 = (laid->packing == LAID_HEAPED ? HEAPED : 1.0) * laid->vessel_m3;
    portion->piece_m = stuff->piece_m;
    if (laid->size == LAID_CHOPPED)
        portion->piece_m = fmin(stuff->piece_m, CHOPPED_M);
    if (laid->size == LAID_WHOLE)
        portion->piece_m = fmax(stuff->piece_m, WHOLE_M);
}

/* the mass of water in one unit of it */
static double water_per_unit(struct words *words, const struct unit *unit)
{
    bool bucket = !strcmp(unit->name, "bucket");
    bool brim = words_take(words, "level");
    double share = bucket && !brim ? BUCKET_CARRIED : 1.0;
    return unit->kind == UNIT_MASS ? unit->factor : share * unit->factor * WATER_KG_PER_M3;
}

bool laid_water(struct words *words, struct span *water_kg, double *pour_K)
{
    struct span range = {0};
    struct unit unit;
    if (!words_range(words, &range)
        || !words_unit(words, 1u << UNIT_VOLUME | 1u << UNIT_MASS, &unit))
        return false;
    double each_kg = water_per_unit(words, &unit);
    *water_kg = (struct span){each_kg * range.low, each_kg * range.mid, each_kg * range.high};
    if (!words_within(words, range.low, 0.0, 1e6, "an amount of 0 or more")
        || !words_within(words, water_kg->high, 0.0, 20000.0, "at most 20 m3 of water"))
        return false;
    *pour_K = 0.0;
    if (!words_take(words, "at"))
        return true;
    return words_quantity(words, UNIT_TEMP, pour_K)
           && words_within(words, *pour_K, 273.15, 373.15, "water of 0 to 100 C");
}

bool laid_squeeze(struct reader *reader, const struct tree_node *node, int *squeeze)
{
    return keys_choice(reader, node, laid_squeezes, PLAN_SQUEEZES, squeeze);
}

/* Within 7 points of what the word stands for [trade]. */
struct span laid_squeeze_share(int squeeze)
{
    double share = handful_share((enum plan_squeeze)squeeze);
    return (struct span){share - 0.07, share, share + 0.07};
}
