/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/tale.c - which cautions a pile deserves.
 *
 * Each is said once and none promises anything: what people may do with manure or compost is for
 * their own local codes to say. Weedkillers of the pyridine kind outlast composting and reach piles
 * in hay, straw and manure (trade).
 */
#include "tell/tale.h"
#include "base/near.h"

static const struct {
    const char *brief, *full;
} sayings[TALE_CAUTIONS] = {
    [TALE_HOT] = {"hot: fork, not hands",
                  "The middle gets hot enough to scald: open it with a fork, let the steam go "
                  "first, and keep hands and small children out of it."},
    [TALE_LIFTING] = {"small loads",
                      "Wet compost is heavy: lift little at a time with a straight back, and share "
                      "the turning."},
    [TALE_SPORES] = {"damp down dust",
                     "Dusty or mouldy material sets spores free: wet it before moving it, stand "
                     "upwind, and leave it to others if you have asthma or a weakened defence."},
    [TALE_MANURE] = {"manure: wash hands, wait before raw crops",
                     "Manure can carry germs, whatever heat this forecast shows: wash hands, keep "
                     "it off crops eaten raw for as long as your local code asks."},
    [TALE_HERBICIDE] = {"weedkiller: test on beans",
                        "Hay, straw and manure can carry weedkiller that outlasts composting: ask "
                        "where they grew, and try the compost on bean seedlings before use."},
    [TALE_CODES] = {"local codes first",
                    "Local codes on composting, manure and burning heaps stand before anything "
                    "said here."},
};

static bool stuff_says(const struct stuff *stuff, const char *const words[])
{
    for (int i = 0; words[i]; i++)
        if (near_within(stuff->id, words[i]) || near_within(stuff->name, words[i]))
            return true;
    return false;
}

static bool layer_holds(const struct scenario *scenario, const struct plan_layer *layer,
                        const char *const words[])
{
    for (int i = 0; i < layer->portions; i++)
        if (stuff_says(&scenario->stuff[layer->portion[i].stuff], words))
            return true;
    return false;
}

/* Is any such ingredient laid, or added by the plan? */
static bool pile_holds(const struct tale *tale, const char *const words[])
{
    const struct scenario *scenario = tale->scenario;
    for (int i = 0; i < scenario->layers; i++)
        if (layer_holds(scenario, &scenario->layer[i], words))
            return true;
    const struct plan *plan = &scenario->plan[tale->plan];
    for (int i = 0; i < plan->events; i++)
        if (layer_holds(scenario, &plan->event[i].add, words))
            return true;
    return false;
}

static bool gets_hot(const struct record *record)
{
    for (int i = 0; record && i < record->days; i++)
        if (record->day[i].hottest_K >= TALE_HOT_K)
            return true;
    return false;
}

bool tale_caution_applies(const struct tale *tale, enum tale_caution caution)
{
    static const char *const dung[] = {"manure",  "dung",    "dropping", "chicken",
                                       "poultry", "bedding", "guano",    NULL};
    static const char *const sprayed[] = {"manure", "hay", "straw", "bedding", NULL};
    switch (caution) {
    case TALE_HOT:
        return gets_hot(tale->record);
    case TALE_MANURE:
        return pile_holds(tale, dung);
    case TALE_HERBICIDE:
        return pile_holds(tale, sprayed);
    default:
        return true;
    }
}

const char *tale_caution_brief(enum tale_caution caution)
{
    return sayings[caution].brief;
}

const char *tale_caution_full(enum tale_caution caution)
{
    return sayings[caution].full;
}

struct saying tale_care(const bool applies[TALE_CAUTIONS])
{
    struct saying care = {""};
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (applies[i])
            saying_add(&care, "%s%s", *care.text ? "; " : "", sayings[i].brief);
    return care;
}

bool tale_weather_drawn(const struct scenario *scenario)
{
    return scenario->sky != PLAN_SKY_FILE;
}
