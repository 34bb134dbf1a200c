/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/recipe_json.c - see tell/recipe_json.h.
 *
 * volume_m3 and bulk_kg_m3 are of the pile as built, under its own weight, as on the first day of
 * `run`; an amount is whole steps, needed_l the litres that they stand for to the drop. settled_m3 is what it would come to if nothing were lost. With one member a number stands
 * alone; with more it is the median and has _low and _high beside it.
 */
#include "tell/recipe_json.h"
#include "tell/json.h"
#include "tell/vessels.h"

static void put(json_t *object, const char *key, const struct mix *mix, struct span span)
{
    if (mix->members == 1)
        json_put_number(object, key, span.mid);
    else
        json_put_span(object, key, span, 1);
}

static void put_figures(json_t *object, const struct mix *mix, const struct span span[BLEND_FIGURES])
{
    static const struct {
        const char *key;
        enum blend_figure figure;
    } rows[] = {{"c_to_n", BLEND_C_TO_N}, {"water_share", BLEND_WATER_SHARE},
                {"free_air_share", BLEND_FREE_AIR}, {"bulk_kg_m3", BLEND_BULK},
                {"volume_m3", BLEND_BUILT}, {"carried_m3", BLEND_CARRIED},
                {"settled_m3", BLEND_SETTLED}, {"wet_kg", BLEND_WET_KG}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        put(object, rows[i].key, mix, span[rows[i].figure]);
}

static const char *target_words(enum amend_fault fault)
{
    static const char *const words[] = {"enough water", "no more water than is right",
                                        "C:N low enough", "C:N high enough", "enough air"};
    return words[fault];
}

/* Items to add, or with `leave_out` in place of `add` to take from a stock. */
static json_t *items_list(const struct mix *mix, const struct mix_advice *told)
{
    json_t *list = json_array();
    for (int i = 0; i < told->advice.items; i++) {
        const struct amend_item *item = &told->advice.item[i];
        const struct amend_kind *kind = &mix->kinds.kind[item->kind];
        bool less = told->advice.leave_out && kind->stuff != AMEND_WATER;
        double amount = item->steps * kind->step;
        json_t *object = json_object();
        json_put_text(object, less ? "leave_out" : "add", vessels_name(mix, kind));
        json_put_number(object, "amount", amount);
        if (mix->members > 1) {
            json_put_number(object, "amount_low", told->need[i].low);
            json_put_number(object, "amount_high", told->need[i].high);
        }
        json_put_text(object, "unit", vessels_word(kind->vessel, false));
        if (kind->stuff == AMEND_WATER)
            put(object, "needed_l", mix, vessels_litres(mix, told));
        json_put_text(object, "reaches", target_words(item->mends));
        json_put(object, "to_be_found", json_boolean(!less && kind->elsewhere));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *then_object(const struct mix *mix, const struct mix_advice *told)
{
    if (!told->advice.items)
        return json_null();
    json_t *object = json_object();
    put_figures(object, mix, told->then);
    json_put_number(object, "works_share", told->works / (double)mix->members);
    json_put(object, "right", json_boolean(told->right));
    return object;
}

static json_t *wrong_list(const struct mix *mix)
{
    static const char *const words[] = {"dry", "wet", "brown", "green", "dense"};
    json_t *list = json_array();
    for (int f = 0; f < AMEND_FAULTS; f++)
        if (mix->wrong[f])
            json_array_append_new(list, json_string(words[f]));
    return list;
}

static json_t *parts_list(const struct recipe_tale *tale)
{
    const struct mix *mix = tale->mix;
    json_t *list = json_array();
    for (int i = 0; i < mix->recipe->stuffs && !mix->recipe->found.is; i++) {
        struct blend part = mix->part[i];
        if (!(part.dry_kg > 0))
            continue;
        json_t *object = json_object();
        json_put_text(object, "ingredient", mix->recipe->stuff[i].name);
        json_put_number(object, "wet_kg", blend_figure(&part, BLEND_WET_KG));
        json_put_number(object, "carried_l", 1000 * part.carried_m3);
        json_put_number(object, "water_share", blend_figure(&part, BLEND_WATER_SHARE));
        json_put_number(object, "c_to_n", blend_figure(&part, BLEND_C_TO_N));
        json_array_append_new(list, object);
    }
    return list;
}

bool recipe_json(FILE *out, const struct recipe_tale *tale, struct trouble *why)
{
    const struct mix *mix = tale->mix;
    json_t *object = json_object();
    json_put_text(object, "midden", tale->version);
    json_put_text(object, "scenario", mix->recipe->name);
    json_put_text(object, "of", mix->stock ? "have" : mix->recipe->found.is ? "found" : "build");
    json_put(object, "members", json_integer(mix->members));
    json_put(object, "draw", json_integer(tale->draw));
    put_figures(object, mix, mix->now);
    json_put(object, "wrong", wrong_list(mix));
    json_put(object, "hardly_decays", json_boolean(mix->idle));
    json_put_number(object, "works_share", mix->works / (double)mix->members);
    json_put(object, "advice", items_list(mix, &mix->advice));
    json_put(object, "with_advice", then_object(mix, &mix->advice));
    json_put(object, "or", items_list(mix, &mix->instead));
    json_put(object, "with_or", then_object(mix, &mix->instead));
    json_put_text(object, "least_known",
                  mix->least_known.swing > 0 ? mix->least_known.unknown.name : NULL);
    json_put_text(object, "test", mix->testable.swing > 0 ? mix->testable.unknown.name : NULL);
    json_put(object, "ingredients", parts_list(tale));
    json_put(object, "assumed", json_assumed(mix->recipe));
    return json_write(out, object, why);
}
