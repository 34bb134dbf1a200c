/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/twins/twins.c - does learning from readings end where it should? `make twins` asks a hundred
 * piles of which everything is known.
 *
 * Of each twin its keeper's readings are learnt from as `midden learn` would, on a coarse mesh. Where
 * the truth lies among the members is then a number from 0 to 1, and over many twins those numbers
 * must be even (simulation-based calibration; Talts et al. 2018, arXiv 1804.06788 [memory]), of every
 * unknown that readings tell something of and of what is to come. Evenness is tested by chi-squared
 * over ten bins, and the share of truths within the 80 % band is told. It fails where ranks so uneven come
 * once in a thousand, where fewer truths lie within a band than chance explains as often, or where more
 * than one twin in ten can't be run.
 *
 *     twins SCENARIO [HOW MANY [FIRST]]
 */
#include "door/climate.h"
#include "door/scenario.h"
#include "many/able.h"
#include "many/band.h"
#include "many/posterior.h"
#include "twins/twin.h"
#include <gsl/gsl_cdf.h>
#include <stdio.h>

enum { BINS = 10, TOLD = 6, UNKNOWNS_TOLD = 4, MEMBERS = 60 };
static const double ONCE_IN_A_THOUSAND = 0.001;
static const double HELD = 0.8; /* of a band, as tests/many/test_band.c shows */

struct tally {
    const char *name;
    int twins, within, bin[BINS];
    double before, after; /* sums of the widths of the bands */
};

static void count(struct tally *t, double truth, const double *value, int members, double even)
{
    double sorted[MEMBERS];
    int below = 0, at;
    for (int i = 0; i < members; i++)
        below += value[i] < truth;
    at = (int)((below + even) / (members + 1) * BINS);
    t->bin[at < BINS ? at : BINS - 1]++;
    memcpy(sorted, value, (size_t)members * sizeof *value);
    struct span band = band_of(sorted, members);
    t->within += truth >= band.low && truth <= band.high;
    t->after += band.high - band.low;
    t->twins++;
}

static double chance_of_ranks(const struct tally *t)
{
    double squares = 0, even = t->twins / (double)BINS;
    for (int i = 0; i < BINS; i++)
        squares += (t->bin[i] - even) * (t->bin[i] - even) / even;
    return gsl_cdf_chisq_Q(squares, BINS - 1);
}

/* Prints it; is it as it should be? */
static bool judge(const struct tally *t)
{
    double ranks = chance_of_ranks(t), few = gsl_cdf_binomial_P((unsigned)t->within, HELD, (unsigned)t->twins);
    bool good = ranks > ONCE_IN_A_THOUSAND && few > ONCE_IN_A_THOUSAND;
    printf("%-28s %3d twins, %5.1f %% within 80 %% band, chance of such ranks if even %.3f, of so few %.3f, "
           "width %.2f of before%s\n", t->name, t->twins, 100.0 * t->within / t->twins, ranks, few,
           t->after / t->before, good ? "" : ": NOT SO");
    for (int i = 0; i < BINS; i++)
        printf("%4d", t->bin[i]);
    putchar('\n');
    return good;
}

static int row_of(const struct unknowns *list, const char *name)
{
    for (int i = 0; i < list->count; i++)
        if (strcmp(list->row[i].name, name) == 0)
            return i;
    fprintf(stderr, "there is no unknown called %s; there are\n", name);
    for (int i = 0; i < list->count; i++)
        fprintf(stderr, "  %s\n", list->row[i].name);
    exit(1);
}

static double later(const struct record *r)
{
    return r->day[r->days - 1].middle_K;
}

static double water(const struct record *r)
{
    return r->day[24].core_water_share;
}

static void tally_unknowns(struct tally *tally, const struct posterior *p, const struct twin *twin, double even)
{
    double value[MEMBERS];
    for (int k = 0; k < UNKNOWNS_TOLD; k++) {
        int row = row_of(&p->unknowns, tally[k].name);
        for (int i = 0; i < p->members; i++)
            value[i] = p->chance[i * p->unknowns.count + row];
        tally[k].before += 0.8;
        count(&tally[k], twin->chance[row], value, p->members, even);
    }
}

/* What is to come: run to the end, as drawn and as learnt, so that widths can be set side by side. */
static bool tally_season(struct tally *tally, struct crew *crew, const struct twin *twin, double even,
                         struct trouble *why)
{
    static double (*const of[])(const struct record *) = {later, water};
    const double *chance = crew->chance;
    for (int learnt = 0; learnt < 2; learnt++) {
        struct crew_done done;
        struct able able = {0};
        double value[MEMBERS];
        crew->chance = learnt ? chance : NULL;
        const struct unknowns *list = crew->chance_of;
        crew->chance_of = learnt ? list : NULL;
        bool good = crew_run(&done, crew, why) && able_of(&able, &done, why);
        crew->chance_of = list;
        for (int k = 0; good && k < TOLD - UNKNOWNS_TOLD; k++) {
            struct tally *t = &tally[UNKNOWNS_TOLD + k];
            for (int i = 0; i < able.members; i++)
                value[i] = of[k](&able.record[i]);
            if (learnt) {
                count(t, of[k](&twin->record), value, able.members, even);
                continue;
            }
            struct span band = band_of(value, able.members);
            t->before += band.high - band.low;
        }
        able_free(&able);
        crew_free(&done);
        if (!good)
            return false;
    }
    crew->chance = chance;
    return true;
}

/* One twin: made, read, learnt from. False on trouble; a pile that can't be run is none. */
static bool ask_twin(struct tally *tally, struct crew *crew, struct scenario *scenario, int t, struct trouble *why)
{
    int last = (int)(scenario->last_reading - scenario->start), end = last + 21;
    struct posterior p = {.members = 0};
    struct twin *twin = malloc(sizeof *twin);
    if (!twin)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a twin");
    scenario->last_day = end;
    crew->chance = NULL;
    crew->chance_of = NULL;
    bool good = twin_make(twin, crew, 77, t, why), failed = !good && (!*why->text || why->kind == TROUBLE_NO);
    if (failed)
        *why = (struct trouble){0};
    if (good) {
        twin_read(twin, scenario, (uint64_t)t);
        scenario->last_day = last;
        crew->draw = (uint64_t)t;
        good = posterior_learn(&p, crew, why);
    }
    if (good) {
        double even = draw_uniform(5, (uint32_t)t, 0, 0);
        scenario->last_day = end;
        crew->chance = p.chance;
        crew->chance_of = &p.unknowns;
        fprintf(stderr, "twin %d: %d stages, %d rounds, %d seasons, %.2f moved\n", t, p.stages, p.rounds,
                p.seasons, p.moved_share);
        tally_unknowns(tally, &p, twin, even);
        good = tally_season(tally, crew, twin, even, why);
    }
    posterior_free(&p);
    record_free(&twin->record);
    free(twin);
    return good || failed;
}

int main(int argc, char **argv)
{
    int twins = argc > 2 ? atoi(argv[2]) : 100, first = argc > 3 ? atoi(argv[3]) : 1;
    static struct scenario scenario;
    static struct trouble why;
    static bool fixed[PARAM_ROWS];
    struct param param = param_usual();
    struct tally tally[TOLD] = {{.name = "fast_per_day"}, {.name = "permeability_factor"},
                                {.name = "thermometer"}, {.name = "water of fresh grass clippings"},
                                {.name = "middle three weeks on"}, {.name = "water in the core"}};
    if (argc < 2 || twins < 1 || first < 1 || !scenario_read(&scenario, argv[1], &why)) {
        fprintf(stderr, "%s\n", *why.text ? why.text : "twins SCENARIO [HOW MANY [FIRST]]");
        return 1;
    }
    for (int i = 0; i < PARAM_COARSER; i++) {
        param_set(&param, param_coarser[i].name, param_coarser[i].value, &why);
        fixed[param_find(param_coarser[i].name) - param_rows] = true;
    }
    struct crew crew = {.scenario = &scenario, .param = &param, .fixed = fixed, .draw = 1, .first = 1,
                        .last = MEMBERS, .threads = crew_threads()};
    for (int t = first; t < first + twins; t++)
        if (!ask_twin(tally, &crew, &scenario, t, &why)) {
            fprintf(stderr, "twin %d: %s\n", t, why.text);
            return 1;
        }
    bool good = 10 * tally[0].twins >= 9 * twins;
    if (!good)
        printf("only %d of %d twins could be run\n", tally[0].twins, twins);
    for (int k = 0; k < TOLD && tally[k].twins; k++)
        good = judge(&tally[k]) && good;
    return !good;
}
