/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/fetch.c - see tell/fetch.h. */
#include "tell/fetch.h"
#include "ask/repeat.h"
#include "know/bound.h"
#include <math.h>

static const char *const ONE[] = {"", "", "bucket", "barrow", "bag"};
static const char *const MANY[] = {"", "", "buckets", "barrows", "bags"};

/* The number alone: "2 3/4". */
static struct phrase quarters(double count)
{
    return phrase_vessels(count, 4, "", "");
}

/* As its keeper counted it. */
static struct phrase amount(const struct phrase_style *style, const struct plan_portion *portion)
{
    double count = due_vessels(portion);
    if (portion->weighed)
        return phrase_mass(style, portion->wet_kg.mid);
    if (!(count > 0))
        return phrase_litres(style, portion->volume_m3.mid * 1000.0);
    return phrase_vessels(count, 4, ONE[portion->vessel], MANY[portion->vessel]);
}

struct phrase fetch_load(const struct scenario *scenario, double water_l)
{
    static const char *const one[] = {"", "bucket", "half bucket", "", "quarter bucket"};
    static const char *const many[] = {"", "buckets", "half buckets", "", "quarter buckets"};
    struct due_load load = due_load(scenario, water_l);
    double count = load.each_l > 0 ? water_l / load.each_l : 0;
    /* halves of half buckets are nobody's measure */
    int cut = load.parts > 1 && count > 1 ? 1 : 4 / load.parts;
    return phrase_vessels(count, cut, one[load.parts], many[load.parts]);
}

/* The share of one layer isn't carried alone: it is told in buckets, however full they come. */
static struct phrase poured(const struct scenario *scenario, double water_l)
{
    struct due_load load = due_load(scenario, water_l);
    double bucket_l = load.parts * load.each_l;
    return phrase_vessels(bucket_l > 0 ? water_l / bucket_l : 0, 4, "bucket", "buckets");
}

void fetch_layer(struct saying *said, const struct scenario *scenario,
                 const struct phrase_style *style, const struct plan_layer *layer, bool bare)
{
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        bool number = bare && portion->vessel == PLAN_BUCKET;
        saying_add(said, "%s%s %s", i ? ", " : "", scenario->stuff[portion->stuff].name,
                   number ? quarters(due_vessels(portion)).text : amount(style, portion).text);
    }
    if (layer->water_kg.mid > 0)
        saying_add(said, "%swater %s", layer->portions ? ", " : "",
                   poured(scenario, layer->water_kg.mid).text);
}

/* Does anything come in buckets? */
static bool in_buckets(const struct scenario *scenario)
{
    for (int i = 0; i < scenario->layers; i++)
        for (int p = 0; p < scenario->layer[i].portions; p++)
            if (scenario->layer[i].portion[p].vessel == PLAN_BUCKET)
                return true;
    return false;
}

struct saying fetch_build(const struct scenario *scenario, const struct phrase_style *style)
{
    struct saying said = {""};
    saying_add(&said,
               in_buckets(scenario) ? "from the bottom up, in buckets: " : "from the bottom up: ");
    for (int first = 0; first < scenario->layers;) {
        struct repeat repeat = repeat_at(scenario, first);
        saying_add(&said, "%s", first ? "; " : "");
        if (repeat.times > 1)
            saying_add(&said, "%d times (", repeat.times);
        for (int i = 0; i < repeat.period; i++) {
            saying_add(&said, "%s", i ? "; " : "");
            fetch_layer(&said, scenario, style, &scenario->layer[first + i], true);
        }
        saying_add(&said, "%s", repeat.times > 1 ? ")" : "");
        first += repeat.period * repeat.times;
    }
    return said;
}

/* ---- what to bring ---- */

/* Sums of one ingredient, in the vessel it is first counted in, or by volume where they differ. */
static void gather(struct plan_portion *sum, const struct plan_layer *layer)
{
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        struct plan_portion *of = &sum[portion->stuff];
        bool first = of->wet_kg.mid <= 0;
        bool alike = first || (of->vessel == portion->vessel && of->weighed == portion->weighed);
        of->weighed = portion->weighed && alike;
        of->vessel = alike ? portion->vessel : PLAN_BY_VOLUME;
        of->vessel_m3 = !alike ? 0 : first ? portion->vessel_m3 : of->vessel_m3;
        of->wet_kg.mid += portion->wet_kg.mid;
        of->volume_m3.mid += portion->volume_m3.mid;
    }
}

/* "buckets: straw 26, soil 1", or each with its own measure where it has no vessel */
static void add_kind(struct saying *said, const struct scenario *scenario,
                     const struct phrase_style *style, const struct plan_portion *sum,
                     enum plan_vessel vessel)
{
    bool first = true;
    for (int i = 0; i < scenario->stuffs; i++) {
        bool counted = sum[i].vessel >= PLAN_BUCKET;
        if (!(sum[i].wet_kg.mid > 0) || (counted ? sum[i].vessel : PLAN_BY_VOLUME) != vessel)
            continue;
        if (first && vessel >= PLAN_BUCKET)
            saying_add(said, "%s%s of ", *said->text ? "; " : "", MANY[vessel]);
        else
            saying_add(said, "%s", !*said->text ? "" : first ? "; " : ", ");
        saying_add(said, "%s %s", scenario->stuff[i].name,
                   vessel >= PLAN_BUCKET ? quarters(due_vessels(&sum[i])).text
                                         : amount(style, &sum[i]).text);
        first = false;
    }
}

/* A loose cover by its volume over the top of a bay, a sheet by its name. */
static void add_cover(struct saying *said, const struct scenario *scenario,
                      const struct phrase_style *style, const struct plan_event *event, int bay)
{
    const struct plan_bay *of = &scenario->bay[bay];
    double volume_l = of->length_m * of->width_m * event->cover_m * 1000.0;
    if (event->cover_m < FETCH_LOOSE_M || !(volume_l > 0))
        saying_add(said, "%s", bound_rows[event->cover].name);
    else
        saying_add(said, "%s %s", bound_rows[event->cover].name,
                   phrase_litres(style, volume_l).text);
}

struct saying fetch_bring(const struct scenario *scenario, const struct phrase_style *style,
                          const struct plan_event *event, int bay)
{
    struct saying said = {""};
    struct plan_portion sum[PLAN_STUFF] = {{0}};
    for (int i = 0; i < scenario->layers && !event; i++)
        gather(sum, &scenario->layer[i]);
    if (event && event->deed == PLAN_COVER && event->cover >= 0)
        add_cover(&said, scenario, style, event, bay);
    else if (event)
        gather(sum, &event->add);
    for (int vessel = PLAN_BUCKET; vessel <= PLAN_BAG; vessel++)
        add_kind(&said, scenario, style, sum, (enum plan_vessel)vessel);
    add_kind(&said, scenario, style, sum, PLAN_BY_VOLUME);
    return said;
}
