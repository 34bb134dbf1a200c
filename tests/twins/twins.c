/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/twins/twins.c - does learning from readings end where it should? `make twins` asks a hundred
 * piles of which everything is known.
 *
 * Of each twin its keeper's readings are learnt from as `midden learn` would, on a coarse mesh. Where
 * the truth lies among the members is then a number from 0 to 1, and over many twins those numbers
 * must be even (simulation-based calibration; Talts et al. 2018, arXiv 1804.06788 [memory]), of every
 * unknown that readings tell something of and of what is to come. Evenness is tested by chi-squared
 * over ten bins, and the share of truths within the 80 % band is told.
 */
#include "door/climate.h"
#include "door/scenario.h"
#include "many/able.h"
#include "many/band.h"
#include "many/posterior.h"
#include "twins/twin.h"
#include <gsl/gsl_cdf.h>
#include <stdio.h>

enum { BINS = 10, TOLD = 6, MEMBERS = 60 };

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

static void print(const struct tally *t)
{
    double squares = 0;
    for (int i = 0; i < BINS; i++)
        squares += pow(t->bin[i] - t->twins / (double)BINS, 2) / (t->twins / (double)BINS);
    printf("%-28s %3d twins, %5.1f %% within 80 %% band, chance of such ranks if even %.3f, width "
           "%.2f of before\n", t->name, t->twins, 100.0 * t->within / t->twins,
           gsl_cdf_chisq_Q(squares, BINS - 1), t->after / t->before);
    for (int i = 0; i < BINS; i++)
        printf("%4d", t->bin[i]);
    putchar('\n');
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

int main(int argc, char **argv)
{
    int twins = argc > 2 ? atoi(argv[2]) : 100;
    static struct scenario scenario;
    static struct trouble why;
    static bool fixed[PARAM_ROWS];
    struct param param = param_usual();
    struct tally tally[TOLD] = {{.name = "fast_per_day"}, {.name = "permeability_factor"},
                                {.name = "thermometer"}, {.name = "water of fresh grass clippings"},
                                {.name = "middle three weeks on"}, {.name = "water in the core"}};
    if (argc < 2 || !scenario_read(&scenario, argv[1], &why)) {
        fprintf(stderr, "%s\n", why.text);
        return 1;
    }
    for (int i = 0; i < PARAM_COARSER; i++) {
        param_set(&param, param_coarser[i].name, param_coarser[i].value, &why);
        fixed[param_find(param_coarser[i].name) - param_rows] = true;
    }
    int last = (int)(scenario.last_reading - scenario.start), end = last + 21;
    struct crew crew = {.scenario = &scenario, .param = &param, .fixed = fixed, .draw = 1, .first = 1,
                        .last = MEMBERS, .threads = crew_threads()};
    for (int t = 1; t <= twins; t++) {
        struct twin *twin = malloc(sizeof *twin);
        struct posterior p;
        struct crew_done done;
        struct able able;
        scenario.last_day = end;
        crew.chance_of = NULL;
        if (!twin_make(twin, &crew, 77, t, &why))
            continue;
        twin_read(twin, &scenario, (uint64_t)t);
        scenario.last_day = last;
        crew.draw = (uint64_t)t;
        if (!posterior_learn(&p, &crew, &why)) {
            fprintf(stderr, "%s\n", why.text);
            return 1;
        }
        scenario.last_day = end;
        crew.chance = p.chance;
        crew.chance_of = &p.unknowns;
        if (!crew_run(&done, &crew, &why) || !able_of(&able, &done, &why))
            return 1;
        fprintf(stderr, "twin %d: %d stages, %d rounds, %d seasons, %.2f moved\n", t, p.stages,
                p.rounds, p.seasons, p.moved_share);
        double value[MEMBERS];
        double even = draw_uniform(5, (uint32_t)t, 0, 0);
        for (int k = 0; k < 4; k++) {
            int row = row_of(&p.unknowns, tally[k].name);
            for (int i = 0; i < p.members; i++)
                value[i] = p.chance[i * p.unknowns.count + row];
            tally[k].before += 0.8;
            count(&tally[k], twin->chance[row], value, p.members, even);
        }
        for (int k = 4; k < TOLD; k++) {
            for (int i = 0; i < able.members; i++)
                value[i] = k == 4 ? later(&able.record[i]) : water(&able.record[i]);
            tally[k].before += 1;
            count(&tally[k], k == 4 ? later(&twin->record) : water(&twin->record), value,
                  able.members, even);
        }
        able_free(&able);
        crew_free(&done);
        posterior_free(&p);
        record_free(&twin->record);
        free(twin);
    }
    for (int k = 0; k < TOLD; k++)
        print(&tally[k]);
    return 0;
}
