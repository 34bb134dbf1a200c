/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/sense.c - see many/sense.h.
 *
 * With A and B two sets of members and A_i the first with unknown i of the second,
 *
 *   first = mean f(B) (f(A_i) - f(A)) / V,   total = mean (f(A) - f(A_i))^2 / (2 V)
 *
 * where f is taken less its mean and V is the variance over A and B together. A member that failed
 * in any set is left out of all.
 */
#include "many/sense.h"
#include "base/draw.h"
#include "many/band.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { BOOTSTRAPS = 200 };
static const double HOT_K = 328.15;
static const double STABLE_PER_S = 4e-3 / 86400; /* 4 mg of carbon per g of organic matter and day */
static const uint64_t OTHER = 0x9E3779B97F4A7C15u; /* makes the second draw's number of the first's */

const char *const sense_names[SENSE_ANSWERS] = {
    "hottest daily mean of the middle, C", "days with the middle above 55 C", "first stable day",
    "easily killed weed seeds alive, share", "volume at the end, m3"};

static double stable_day(const struct record *record)
{
    int day = record->days;
    while (day > 0 && record->day[day - 1].test_breath_per_s < STABLE_PER_S)
        day--;
    return day + 1; /* one after the season where it is never stable */
}

double sense_answer(const struct record *record, enum sense_answer answer)
{
    double peak_K = 0;
    int hot = 0;
    for (int d = 0; d < record->days; d++) {
        peak_K = fmax(peak_K, record->day[d].middle_K);
        hot += record->day[d].middle_K >= HOT_K;
    }
    switch (answer) {
    case SENSE_PEAK: return peak_K - 273.15;
    case SENSE_HOT_DAYS: return hot;
    case SENSE_STABLE: return stable_day(record);
    case SENSE_LIVE_SEEDS: return record->seeds_laid[0] > 0 ? record->seeds_alive[0] / record->seeds_laid[0] : 0;
    case SENSE_VOLUME: return record->days ? record->day[record->days - 1].volume_m3 : 0;
    case SENSE_ANSWERS: break;
    }
    return NAN;
}

struct set {
    double *value[SENSE_ANSWERS];   /* [members]; NAN where the season failed */
};

static bool run_set(struct set *set, const struct crew *crew, const bool *other, struct trouble *why)
{
    struct crew_done done;
    struct crew with = *crew;
    int members = crew->last - crew->first + 1;
    with.other = other;
    with.other_draw = crew->draw ^ OTHER;
    bool good = crew_run(&done, &with, why);
    for (int a = 0; a < SENSE_ANSWERS; a++) {
        set->value[a] = calloc((size_t)members, sizeof(double));
        good = good && (set->value[a] || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory"));
        for (int i = 0; good && i < members; i++)
            set->value[a][i] = done.failed[i] ? (double)NAN
                                              : sense_answer(&done.record[i], (enum sense_answer)a);
    }
    crew_free(&done);
    return good;
}

static void free_set(struct set *set)
{
    for (int a = 0; a < SENSE_ANSWERS; a++)
        free(set->value[a]);
}

/* ---- which unknowns are telling ---- */

static double squared_correlation(const double *x, const double *y, int count)
{
    double sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0;
    int n = 0;
    for (int i = 0; i < count; i++) {
        if (isnan(y[i]))
            continue;
        n++;
        sx += x[i];
        sy += y[i];
        sxx += x[i] * x[i];
        syy += y[i] * y[i];
        sxy += x[i] * y[i];
    }
    double vx = sxx - sx * sx / n, vy = syy - sy * sy / n, c = sxy - sx * sy / n;
    return vx > 0 && vy > 1e-12 * syy ? c * c / (vx * vy) : 0;
}

/* By how its chance, and how far it lies from a half, go with any answer. */
static double telling(const struct crew *crew, const char *name, const struct set *a, double *x)
{
    int members = crew->last - crew->first + 1;
    double most = 0;
    for (int bent = 0; bent < 2; bent++) {
        for (int i = 0; i < members; i++) {
            double chance = unknown_chance(crew->draw, (uint32_t)(crew->first + i), name);
            x[i] = bent ? fabs(chance - 0.5) : chance;
        }
        for (int k = 0; k < SENSE_ANSWERS; k++)
            most = fmax(most, squared_correlation(x, a->value[k], members));
    }
    return most;
}

/* Rows of the most telling unknowns, the weather always among them. */
static int choose(const struct crew *crew, const struct unknowns *unknowns, const struct set *a, double *x,
                  int row[SENSE_TELLING])
{
    double score[SENSE_TELLING];
    int count = 0;
    for (int u = 0; u < unknowns->count; u++) {
        double s = unknowns->row[u].kind == UNKNOWN_WEATHER
                       ? 2 : telling(crew, unknowns->row[u].name, a, x);
        int at = count < SENSE_TELLING ? count++ : s > score[SENSE_TELLING - 1] ? SENSE_TELLING - 1 : -1;
        if (at < 0)
            continue;
        for (; at > 0 && s > score[at - 1]; at--) {
            score[at] = score[at - 1];
            row[at] = row[at - 1];
        }
        score[at] = s;
        row[at] = u;
    }
    return count;
}

/* ---- indices ---- */

struct index {
    double first, total;
};

/* Over members picked with repetition, or each once. */
static struct index index_of(const double *a, const double *b, const double *ai, const int *pick, int count)
{
    double mean = 0, square = 0, first = 0, total = 0;
    for (int n = 0; n < count; n++)
        mean += 0.5 * (a[pick[n]] + b[pick[n]]) / count;
    for (int n = 0; n < count; n++) {
        int i = pick[n];
        double fa = a[i] - mean, fb = b[i] - mean, d = a[i] - ai[i];
        square += 0.5 * (fa * fa + fb * fb) / count;
        first += fb * (ai[i] - a[i]) / count;
        total += 0.5 * d * d / count;
    }
    return square > 0 ? (struct index){first / square, total / square} : (struct index){0, 0};
}

/* `sound` are those that count; `pick` has as much room. */
static void bootstrap(const double *a, const double *b, const double *ai, const int *sound, int *pick,
                      int count, struct sense_index *to)
{
    double first[BOOTSTRAPS], total[BOOTSTRAPS];
    struct index whole = index_of(a, b, ai, sound, count);
    for (int t = 0; t < BOOTSTRAPS; t++) {
        for (int n = 0; n < count; n++)
            pick[n] = sound[(int)(draw_uniform(1, (uint32_t)t, (uint32_t)n, 0) * count)];
        struct index one = index_of(a, b, ai, pick, count);
        first[t] = one.first;
        total[t] = one.total;
    }
    to->first = band_of(first, BOOTSTRAPS);
    to->total = band_of(total, BOOTSTRAPS);
    to->first.mid = whole.first;
    to->total.mid = whole.total;
}

static bool fill_row(struct sense *sense, int row, const struct set *a, const struct set *b,
                     const struct set *ai, int members, struct trouble *why)
{
    int *sound = calloc(2 * (size_t)members, sizeof *sound);
    if (!sound)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    for (int k = 0; k < SENSE_ANSWERS; k++) {
        int count = 0;
        for (int i = 0; i < members; i++)
            if (!isnan(a->value[k][i]) && !isnan(b->value[k][i]) && !isnan(ai->value[k][i]))
                sound[count++] = i;
        bootstrap(a->value[k], b->value[k], ai->value[k], sound, sound + members, count, &sense->index[row][k]);
    }
    free(sound);
    return true;
}

static void fill_variance(struct sense *sense, const struct set *a, int members)
{
    for (int k = 0; k < SENSE_ANSWERS; k++) {
        double sum = 0, square = 0;
        int n = 0;
        for (int i = 0; i < members; i++)
            if (!isnan(a->value[k][i])) {
                n++;
                sum += a->value[k][i];
                square += a->value[k][i] * a->value[k][i];
            }
        double variance = n ? square / n - (sum / n) * (sum / n) : 0;
        sense->variance[k] = variance > 1e-12 * square / (n ? n : 1) ? variance : 0;
    }
}

static bool run_rows(struct sense *sense, const struct crew *crew, const struct unknowns *unknowns,
                     const int row[SENSE_TELLING], int telling_ones, const struct set *a,
                     const struct set *b, struct trouble *why)
{
    bool good = true;
    for (int r = 0; good && r <= telling_ones; r++) {
        bool other[UNKNOWN_MOST];
        bool rest = r == telling_ones;
        struct set ai = {{NULL}};
        for (int u = 0; u < UNKNOWN_MOST; u++)
            other[u] = rest;
        for (int t = 0; t < telling_ones; t++)
            other[row[t]] = rest ? false : t == r;
        sense->name[r][0] = '\0';
        strncat(sense->name[r], rest ? "all others" : unknowns->row[row[r]].name,
                sizeof sense->name[r] - 1);
        good = run_set(&ai, crew, other, why) && fill_row(sense, r, a, b, &ai, sense->members, why);
        free_set(&ai);
    }
    sense->rows = telling_ones + 1;
    return good;
}

bool sense_run(struct sense *sense, const struct crew *crew, struct trouble *why)
{
    int members = crew->last - crew->first + 1, row[SENSE_TELLING] = {0};
    struct unknowns *unknowns = malloc(sizeof *unknowns);
    double *x = calloc((size_t)members, sizeof *x);
    struct set a = {{NULL}}, b = {{NULL}};
    bool all[UNKNOWN_MOST];
    *sense = (struct sense){.members = members};
    for (int u = 0; u < UNKNOWN_MOST; u++)
        all[u] = true;
    bool good = unknowns && x;
    if (!good)
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    good = good && run_set(&a, crew, NULL, why) && run_set(&b, crew, all, why);
    if (good) {
        unknown_list(unknowns, crew->scenario, crew->plan, crew->fixed);
        int count = choose(crew, unknowns, &a, x, row);
        sense->unknowns = unknowns->count;
        sense->seasons = members * (count + 3);
        fill_variance(sense, &a, members);
        good = run_rows(sense, crew, unknowns, row, count, &a, &b, why);
    }
    free_set(&a);
    free_set(&b);
    free(x);
    free(unknowns);
    return good;
}
