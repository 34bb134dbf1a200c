/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/posterior.c - see many/posterior.h. */
#include "many/posterior.h"
#include "base/draw.h"
#include "many/likely.h"
#include "many/surrogate.h"
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* The surrogate learns from so many runs for each member, but no more in all: its work grows as their cube. */
enum { STAGES_MOST = 12, LAST_ROUNDS = 8, REMEMBERED = 6, REMEMBERED_MOST = 768 };
static const double LEFT_SHARE = 0.5;   /* of the members that count, after readings are let in */
static const double HOPELESS = -1e6;    /* of a pile that can't be run */
/* a walk takes some of the unknowns along, by a step of one of these sizes (1 = draws them anew) */
static const double STEP[] = {0.15, 0.4, 0.7, 1.0}, TAKEN_SHARE = 0.35;
static const int WALK[] = {4, 20, 80};
enum { STEPS = 4, WALKS = 3 };

/* everything at hand while learning */
struct learning {
    const struct crew *crew;
    struct posterior *p;
    struct likely likely;
    int readings, unknowns, weather;    /* weather: its row; -1 = it isn't drawn */
    double *next, *next_seen, *next_log;/* members walked to */
    double *guessed_here, *guessed_next;/* [members] log likelihood by the surrogate */
    double *place, *shown;              /* [kept runs] for the surrogate */
    int runs, most;                     /* so far, and how many of them are kept */
    double let_in;                      /* share of the readings' weight, 0 to 1 */
    uint32_t round;
};

enum what { WHAT_PICK = 1, WHAT_ACCEPT, WHAT_SKY, WHAT_WALK, WHAT_STEP, WHAT_TAKE, WHAT_BE };

/* A number of its own for each question: which member, round and step asks what. */
static double ask_even(const struct learning *l, int member, enum what what, int step, int k)
{
    uint64_t seed = l->crew->draw * 1000003u + 0x6c6561726eu;
    return draw_uniform(seed, (uint32_t)member, (l->round << 8) + (uint32_t)what,
                        ((uint32_t)step << 12) + (uint32_t)k);
}

static double *row(double *table, int columns, int i)
{
    return table + (size_t)i * (size_t)columns;
}

static struct likely_eyes eyes_of(const struct learning *l, const double *chance)
{
    struct likely_eyes eyes;
    unknown_eyes(&l->p->unknowns, chance, l->crew->scenario, &eyes.thermometer_K,
                 &eyes.handful_share);
    return eyes;
}

static void to_normal(const struct learning *l, const double *chance, double *z)
{
    for (int k = 0; k < l->unknowns; k++)
        z[k] = k == l->weather ? 0 : draw_quantile(fmax(1e-9, fmin(1 - 1e-9, chance[k])));
}

/* ---- seasons ---- */

/* Runs the members that hold these chances, and keeps what each shows and how likely it is. */
static bool run(struct learning *l, const double *chance, double *seen, double *log_likely,
                struct trouble *why)
{
    struct crew crew = *l->crew;
    struct crew_done done;
    crew.chance = chance;
    crew.chance_of = &l->p->unknowns;
    bool good = crew_run(&done, &crew, why);
    for (int i = 0; good && i < l->p->members; i++) {
        bool ran = !done.failed[i];
        const double *here = chance + (size_t)i * (size_t)l->unknowns;
        log_likely[i] = HOPELESS;
        if (!ran)
            continue;
        memcpy(row(seen, l->readings, i), done.record[i].seen,
               (size_t)l->readings * sizeof *seen);
        log_likely[i] = likely_log(&l->likely, done.record[i].seen, eyes_of(l, here), NULL, NULL);
    }
    crew_free(&done);
    l->p->seasons += l->p->members;
    return good;
}

/* The latest runs are what the surrogate learns from; older ones give way. */
static void remember(struct learning *l, const double *chance, const double *seen,
                     const double *log_likely)
{
    for (int i = 0; i < l->p->members; i++) {
        if (log_likely[i] <= HOPELESS)
            continue;
        int at = l->runs++ % l->most;
        to_normal(l, chance + (size_t)i * (size_t)l->unknowns, row(l->place, l->unknowns, at));
        for (int j = 0; j < l->readings; j++) {
            double value = seen[(size_t)i * (size_t)l->readings + (size_t)j];
            row(l->shown, l->readings, at)[j] = isnan(value) ? 0 : value;
        }
    }
}

/* ---- letting readings in ---- */

/* How many members count when the readings weigh so much more. */
static double counting(const struct learning *l, double more)
{
    double best = -INFINITY, sum = 0, squares = 0;
    for (int i = 0; i < l->p->members; i++)
        best = fmax(best, l->p->log_likely[i]);
    for (int i = 0; i < l->p->members; i++) {
        double w = exp(more * (l->p->log_likely[i] - best));
        sum += w;
        squares += w * w;
    }
    return sum * sum / squares;
}

static double more_weight(const struct learning *l)
{
    double least = 0, most = 1 - l->let_in, wanted = LEFT_SHARE * l->p->members;
    if (counting(l, most) >= wanted)
        return most;
    for (int i = 0; i < 40; i++) {
        double half = 0.5 * (least + most);
        *(counting(l, half) >= wanted ? &least : &most) = half;
    }
    return least;
}

/* Takes every member as often as its weight says, evenly (systematic resampling). */
static bool take(struct learning *l, double more)
{
    struct posterior *p = l->p;
    size_t chances = (size_t)l->unknowns * sizeof(double), seens = (size_t)l->readings * sizeof(double);
    double best = -INFINITY, sum = 0;
    double *weight = calloc((size_t)p->members, sizeof *weight);
    if (!weight)
        return false;
    for (int i = 0; i < p->members; i++)
        best = fmax(best, p->log_likely[i]);
    for (int i = 0; i < p->members; i++)
        sum += weight[i] = exp(more * (p->log_likely[i] - best));
    double at = ask_even(l, 0, WHAT_PICK, 0, 0) * sum / p->members, passed = 0;
    int from = 0;
    for (int i = 0; i < p->members; i++) {
        while (from < p->members - 1 && passed + weight[from] < at)
            passed += weight[from++];
        memcpy(row(l->next, l->unknowns, i), row(p->chance, l->unknowns, from), chances);
        memcpy(row(l->next_seen, l->readings, i), row(p->seen, l->readings, from), seens);
        l->next_log[i] = p->log_likely[from];
        at += sum / p->members;
    }
    memcpy(p->chance, l->next, (size_t)p->members * chances);
    memcpy(p->seen, l->next_seen, (size_t)p->members * seens);
    memcpy(p->log_likely, l->next_log, (size_t)p->members * sizeof *l->next_log);
    free(weight);
    return true;
}

/* ---- walking ---- */

/* Log likelihood by the surrogate, whose own doubt is added to the readings'. */
static double guess(const struct learning *l, const struct surrogate *surrogate, const double *z,
                    const double *chance)
{
    double seen[PLAN_READINGS];
    surrogate_guess(surrogate, z, seen);
    for (int j = 0; j < l->readings; j++)
        if (l->crew->scenario->reading[j].day >= l->crew->scenario->last_day + 1)
            seen[j] = NAN;
    return likely_log(&l->likely, seen, eyes_of(l, chance), surrogate->unsure, NULL);
}

/* One step of a walk that leaves the unknowns' own distribution as it is (preconditioned
 * Crank-Nicolson; Cotter et al. 2013, Stat. Sci. 28, 424-446). */
static void step(const struct learning *l, int member, int n, const double *z, double *to)
{
    double size = STEP[(int)(STEPS * ask_even(l, member, WHAT_STEP, n, 0))];
    double kept = sqrt(1 - size * size);
    for (int k = 0; k < l->unknowns; k++) {
        bool taken = ask_even(l, member, WHAT_TAKE, n, k) < TAKEN_SHARE;
        double fresh = taken ? draw_quantile(ask_even(l, member, WHAT_BE, n, k)) : 0;
        to[k] = taken ? kept * z[k] + size * fresh : z[k];
    }
}

static void chances_of(const struct learning *l, const double *z, double weather, double *chance)
{
    for (int k = 0; k < l->unknowns; k++)
        chance[k] = k == l->weather
                        ? weather
                        : fmin(fmax(gsl_cdf_ugaussian_P(z[k]), 0x1p-53), 1 - 0x1p-53);
}

/* Walks a member on the surrogate; every other walk is under another weather. */
static void walk(struct learning *l, const struct surrogate *surrogate, int member)
{
    double z[UNKNOWN_MOST], to[UNKNOWN_MOST], to_chance[UNKNOWN_MOST];
    double *chance = row(l->next, l->unknowns, member);
    const double *start = row(l->p->chance, l->unknowns, member);
    int steps = WALK[(int)(WALKS * ask_even(l, member, WHAT_WALK, 0, 0))];
    double weather = l->weather < 0 ? 0.5 : start[l->weather];
    if (ask_even(l, member, WHAT_SKY, 0, 0) < 0.5)
        weather = ask_even(l, member, WHAT_SKY, 0, 1);
    to_normal(l, start, z);
    memcpy(chance, start, (size_t)l->unknowns * sizeof *chance);
    double here = guess(l, surrogate, z, chance);
    l->guessed_here[member] = here;
    for (int n = 0; n < steps; n++) {
        step(l, member, n, z, to);
        chances_of(l, to, weather, to_chance);
        double there = guess(l, surrogate, to, to_chance);
        if (log(ask_even(l, member, WHAT_ACCEPT, 1 + n, 0)) >= l->let_in * (there - here))
            continue;
        memcpy(z, to, (size_t)l->unknowns * sizeof *z);
        here = there;
    }
    chances_of(l, z, weather, chance);
    l->guessed_next[member] = here;
}

/* Every member walks; a season each says who stays where they came to. Returns how many, -1 on trouble. */
static int walk_all(struct learning *l, struct trouble *why)
{
    struct posterior *p = l->p;
    struct surrogate surrogate;
    int kept = 0;
    l->round++;
    p->rounds++;
    if (!surrogate_learn(&surrogate, l->runs < l->most ? l->runs : l->most, l->unknowns, l->readings,
                         l->place, l->shown)) {
        surrogate_free(&surrogate);
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to learn");
        return -1;
    }
    for (int i = 0; i < p->members && !(l->crew->stop && *l->crew->stop); i++)
        walk(l, &surrogate, i);
    surrogate_free(&surrogate); /* where somebody said stop, run says so */
    if (!run(l, l->next, l->next_seen, l->next_log, why))
        return -1;
    remember(l, l->next, l->next_seen, l->next_log);
    for (int i = 0; i < p->members; i++) {
        double gain = (l->next_log[i] - p->log_likely[i]) - (l->guessed_next[i] - l->guessed_here[i]);
        if (log(ask_even(l, i, WHAT_ACCEPT, 0, 0)) >= l->let_in * gain)
            continue;
        kept++;
        memcpy(row(p->chance, l->unknowns, i), row(l->next, l->unknowns, i),
               (size_t)l->unknowns * sizeof *l->next);
        memcpy(row(p->seen, l->readings, i), row(l->next_seen, l->readings, i),
               (size_t)l->readings * sizeof *l->next_seen);
        p->log_likely[i] = l->next_log[i];
    }
    return kept;
}

/* ---- all together ---- */

static bool make_room(struct learning *l, struct trouble *why)
{
    struct posterior *p = l->p;
    size_t members = (size_t)p->members, unknowns = (size_t)l->unknowns,
           readings = (size_t)l->readings + 1;
    l->most = p->members < REMEMBERED_MOST / REMEMBERED ? REMEMBERED * p->members : REMEMBERED_MOST;
    p->chance = calloc(members * unknowns, sizeof *p->chance);
    p->log_likely = calloc(members, sizeof *p->log_likely);
    p->wild = calloc(members, sizeof *p->wild);
    p->seen = calloc(members * readings, sizeof *p->seen);
    p->seen_before = calloc(members * readings, sizeof *p->seen_before);
    l->next = calloc(members * unknowns, sizeof *l->next);
    l->next_seen = calloc(members * readings, sizeof *l->next_seen);
    l->next_log = calloc(members, sizeof *l->next_log);
    l->guessed_here = calloc(members, sizeof *l->guessed_here);
    l->guessed_next = calloc(members, sizeof *l->guessed_next);
    l->place = calloc((size_t)l->most * unknowns, sizeof *l->place);
    l->shown = calloc((size_t)l->most * readings, sizeof *l->shown);
    return (p->chance && p->log_likely && p->wild && p->seen && p->seen_before && l->next &&
            l->next_seen && l->next_log && l->guessed_here && l->guessed_next && l->place &&
            l->shown) || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to learn");
}

static void release(struct learning *l)
{
    free(l->next);
    free(l->next_seen);
    free(l->next_log);
    free(l->guessed_here);
    free(l->guessed_next);
    free(l->place);
    free(l->shown);
}

static bool begin(struct learning *l, struct trouble *why)
{
    struct posterior *p = l->p;
    double best = HOPELESS;
    for (int i = 0; i < p->members; i++)
        crew_chances(l->crew, &p->unknowns, l->crew->first + i, row(p->chance, l->unknowns, i));
    if (!run(l, p->chance, p->seen, p->log_likely, why))
        return false;
    remember(l, p->chance, p->seen, p->log_likely);
    memcpy(p->seen_before, p->seen,
           (size_t)p->members * (size_t)l->readings * sizeof *p->seen);
    for (int i = 0; i < p->members; i++)
        best = fmax(best, p->log_likely[i]);
    return best > HOPELESS ||
           trouble_set(why, TROUBLE_NO, "none of the possible piles could be run");
}

static bool learn(struct learning *l, struct trouble *why)
{
    struct posterior *p = l->p;
    int walks = 0, kept = 0, moved = 0;
    if (!begin(l, why))
        return false;
    while (l->let_in < 1 && p->stages < STAGES_MOST && moved >= 0) {
        double more = p->stages + 1 < STAGES_MOST ? more_weight(l) : 1 - l->let_in;
        if (!take(l, more))
            return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to learn");
        l->let_in = l->let_in + more > 1 - 1e-9 ? 1 : l->let_in + more;
        p->stages++;
        moved = walk_all(l, why);
    }
    for (int i = 1; i < LAST_ROUNDS && moved >= 0; i++) {
        walks += p->members;
        moved = walk_all(l, why);
        kept += moved;
    }
    p->moved_share = walks ? (double)kept / walks : 0;
    for (int i = 0; i < p->members; i++)
        likely_log(&l->likely, row(p->seen, l->readings, i),
                   eyes_of(l, row(p->chance, l->unknowns, i)), NULL, p->wild[i]);
    return moved >= 0;
}

bool posterior_learn(struct posterior *p, const struct crew *crew, struct trouble *why)
{
    struct learning *l = calloc(1, sizeof *l);
    *p = (struct posterior){.members = crew->last - crew->first + 1};
    if (!l)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory to learn");
    unknown_list(&p->unknowns, crew->scenario, crew->plan, crew->fixed);
    *l = (struct learning){.crew = crew, .p = p, .readings = crew->scenario->readings,
                           .unknowns = p->unknowns.count, .weather = -1};
    for (int k = 0; k < p->unknowns.count; k++)
        if (p->unknowns.row[k].kind == UNKNOWN_WEATHER)
            l->weather = k;
    likely_of(&l->likely, crew->scenario);
    bool good = make_room(l, why) && learn(l, why);
    release(l);
    free(l);
    return good;
}

void posterior_free(struct posterior *p)
{
    free(p->chance);
    free(p->log_likely);
    free(p->wild);
    free(p->seen);
    free(p->seen_before);
    *p = (struct posterior){0};
}
