/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/vessels.c - see tell/vessels.h. */
#include "tell/vessels.h"
#include "tell/phrase.h"
#include <math.h>

const char *vessels_word(enum plan_vessel vessel, bool many)
{
    static const char *const one[] = {"L", "kg", "bucket", "barrow", "bag"};
    static const char *const more[] = {"L", "kg", "buckets", "barrows", "bags"};
    return many ? more[vessel] : one[vessel];
}

/* "5 1/2": vessels, litres and kilograms to the step in which they are advised. */
static struct phrase number_said(const struct amend_kind *kind, double amount)
{
    struct phrase said;
    int places = amount >= 10 ? 0 : kind->step < 0.1 ? 2 : kind->step < 1 ? 1 : 0;
    if (kind->vessel >= PLAN_BUCKET && amount > 0)
        return phrase_vessels(amount, kind->step == 0.5 ? 2 : 1, "", "");
    snprintf(said.text, sizeof said.text, "%.*f", kind->vessel < PLAN_BUCKET ? places : 0, amount);
    return said;
}

const char *vessels_name(const struct mix *mix, const struct amend_kind *kind)
{
    return kind->stuff == AMEND_WATER ? "water" : mix->recipe->stuff[kind->stuff].name;
}

/* "pour 5 more buckets of water (2-9)", "find about 30 buckets of fresh grass clippings": how much
 * water is wanted can be said within bounds; C:N is too little known for that, so its range is told
 * instead. */
static struct phrase deed_said(const struct mix *mix, const struct mix_advice *told, int i)
{
    struct phrase said;
    const struct amend_item *item = &told->advice.item[i];
    const struct amend_kind *kind = &mix->kinds.kind[item->kind];
    double amount = item->steps * kind->step;
    const char *unit = vessels_word(kind->vessel, amount > 1);
    struct phrase number = number_said(kind, amount);
    struct span need = told->need[i];
    if (kind->stuff != AMEND_WATER) {
        const char *verb = told->advice.leave_out ? "leave out " : kind->elsewhere ? "find " : "add ";
        bool again = i > 0 && mix->kinds.kind[item[-1].kind].elsewhere == kind->elsewhere;
        snprintf(said.text, sizeof said.text, "%s%s%.10s %s of %.50s", again ? "" : verb,
                 item->steps >= 10 ? "about " : "", number.text, unit, vessels_name(mix, kind));
        return said;
    }
    struct phrase low = number_said(kind, floor(need.low)), high = number_said(kind, ceil(need.high));
    int used = snprintf(said.text, sizeof said.text, "pour %.10s %s%s of water", number.text,
                        mix->poured ? "more " : "", unit);
    if (kind->step < 0.5) { /* small pots of litres */
        low = number_said(kind, need.low);
        high = number_said(kind, need.high);
    }
    if (need.low < need.high)
        snprintf(said.text + used, sizeof said.text - (size_t)used, " (%.10s-%.10s)", low.text,
                 high.text);
    return said;
}

void vessels_deeds(char text[VESSELS_DEEDS], const struct mix *mix, const struct mix_advice *told)
{
    size_t used = 0;
    int items = told->advice.items;
    *text = '\0';
    for (int i = 0; i < items; i++)
        used += (size_t)snprintf(text + used, VESSELS_DEEDS - used, "%s%s",
                                 i == 0 ? "" : i == items - 1 ? " and " : ", ",
                                 deed_said(mix, told, i).text);
}

struct span vessels_litres(const struct mix *mix, const struct mix_advice *told)
{
    struct span litres = {0};
    for (int i = 0; i < told->advice.items; i++) {
        const struct amend_kind *kind = &mix->kinds.kind[told->advice.item[i].kind];
        double each = kind->water_kg / kind->step;
        if (kind->stuff == AMEND_WATER)
            litres = (struct span){told->need[i].low * each, told->need[i].mid * each,
                                   told->need[i].high * each};
    }
    return litres;
}
