/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/measure.c - see tests/field/measure.h. */
#include "field/measure.h"
#include <math.h>
#include <string.h>

static const double ICE_K = 273.15;

/* ---- a day's numbers ---- */

enum thing { MIDDLE, DEEP30, HAND, MEAN, HOTTEST, AIR, OXYGEN, BASE_MINUS_CREST };

static double thing_of(const struct record_day *day, enum thing thing)
{
    switch (thing) {
    case MIDDLE: return day->middle_K - ICE_K;
    case DEEP30: return day->deep_30cm_K - ICE_K;
    case HAND: return day->hand_deep_K - ICE_K;
    case MEAN: return day->mean_K - ICE_K;
    case HOTTEST: return day->hottest_K - ICE_K;
    case AIR: return day->air_K - ICE_K;
    case OXYGEN: return 100 * day->oxygen_lowest_share;
    case BASE_MINUS_CREST: return 100 * (day->oxygen_base_share - day->oxygen_crest_share);
    }
    return NAN;
}

struct span_of_days {
    const struct record *record;
    int first, last;            /* rows */
    double from, to, level;
};

static double most(const struct span_of_days *s, enum thing thing, int *row)
{
    double value = -INFINITY;
    for (int d = s->first; d <= s->last; d++)
        if (thing_of(&s->record->day[d], thing) > value) {
            value = thing_of(&s->record->day[d], thing);
            *row = d;
        }
    return value;
}

static double mean(const struct span_of_days *s, enum thing thing)
{
    double sum = 0;
    for (int d = s->first; d <= s->last; d++)
        sum += thing_of(&s->record->day[d], thing);
    return sum / (s->last - s->first + 1);
}

/* At a time in days, between the middles of days (day 1 is from 0 to 1 and its mean stands at day 1). */
static double at(const struct span_of_days *s, enum thing thing)
{
    double place = fmax(0, fmin(s->from - 1, s->record->days - 1));
    int row = (int)place;
    double share = place - row, here = thing_of(&s->record->day[row], thing);
    return share > 0 ? here + share * (thing_of(&s->record->day[row + 1], thing) - here) : here;
}

static double first_over(const struct span_of_days *s, enum thing thing)
{
    for (int d = s->first; d <= s->last; d++)
        if (thing_of(&s->record->day[d], thing) > s->level)
            return d + 1;
    return INFINITY;
}

static double days_over(const struct span_of_days *s)
{
    int days = 0;
    for (int d = s->first; d <= s->last; d++)
        days += thing_of(&s->record->day[d], MIDDLE) > s->level;
    return days;
}

static double first_below(const struct span_of_days *s)
{
    int row = s->first;
    most(s, MIDDLE, &row);
    for (int d = row; d <= s->last; d++)
        if (thing_of(&s->record->day[d], MIDDLE) < s->level)
            return d + 1;
    return INFINITY;
}

static double back_to_air(const struct span_of_days *s)
{
    int row = s->first, day = s->last + 1;
    most(s, MIDDLE, &row);
    while (day > row &&
           thing_of(&s->record->day[day - 1], MIDDLE) - thing_of(&s->record->day[day - 1], AIR) <= s->level)
        day--;
    return day <= s->last ? day + 1.0 : (double)INFINITY;
}

static double rise_to_below(const struct span_of_days *s)
{
    struct span_of_days rise = *s;
    rise.level = 10;
    return first_below(s) - first_over(&rise, MIDDLE);
}

/* mg of carbon per g of organic matter and day, in the test state */
static double breath(const struct record_day *day)
{
    return day->test_breath_per_s * 86400 * 1000;
}

static double stable_day(const struct span_of_days *s)
{
    int day = s->last + 1;
    while (day > s->first && breath(&s->record->day[day - 1]) < s->level)
        day--;
    return day <= s->last ? day + 1.0 : (double)INFINITY;
}

/* ---- what was put in and what is left ---- */

static double put_in(const struct record *r, int last, enum flux flux)
{
    double sum = 0;
    for (int d = 0; d <= last; d++)
        sum += r->day[d].flux[flux];
    return sum;
}

static double lost_pct(double left, double put)
{
    return 100 * (1 - left / put);
}

static double wet_put(const struct record *r, int last)
{
    return r->day[last].laid_kg + put_in(r, last, FLUX_added_water) + put_in(r, last, FLUX_poured_water);
}

/* Of a pool: of what there was on the first day. */
static double pool_loss(const struct span_of_days *s, int pool)
{
    return lost_pct(s->record->day[s->last].pool_kg[pool], s->record->pool_laid_kg[pool]);
}

static double carbon_lost_kg(const struct record *r, int last)
{
    return put_in(r, last, FLUX_added_carbon) - r->day[last].carbon_kg;
}

static double seeds(const struct record *r, int class)
{
    return 100 * r->seeds_alive[class] / r->seeds_laid[class];
}

static double amounts(const struct span_of_days *s, const char *name)
{
    const struct record *r = s->record;
    const struct record_day *end = &r->day[s->last];
    if (strcmp(name, "mass_loss_pct") == 0)
        return lost_pct(end->wet_kg, wet_put(r, s->last));
    if (strcmp(name, "dry_loss_pct") == 0)
        return lost_pct(end->dry_kg, end->laid_kg);
    if (strcmp(name, "carbon_loss_pct") == 0)
        return lost_pct(end->carbon_kg, put_in(r, s->last, FLUX_added_carbon));
    if (strcmp(name, "nitrogen_loss_pct") == 0)
        return lost_pct(end->nitrogen_kg, put_in(r, s->last, FLUX_added_nitrogen));
    if (strcmp(name, "ammonia_loss_pct") == 0)
        return -100 * put_in(r, s->last, FLUX_ammonia) / put_in(r, s->last, FLUX_added_nitrogen);
    if (strcmp(name, "carbon_loss_share_pct") == 0)
        return 100 * carbon_lost_kg(r, s->first) / carbon_lost_kg(r, s->last);
    if (strcmp(name, "soluble_loss_pct") == 0)
        return pool_loss(s, 0);
    if (strcmp(name, "cellulose_loss_pct") == 0)
        return pool_loss(s, 2);
    if (strcmp(name, "lignin_loss_pct") == 0)
        return pool_loss(s, 3);
    if (strcmp(name, "heat_MJ_per_kg") == 0)
        return 1e-6 * put_in(r, s->last, FLUX_decay_heat) / end->laid_kg;
    if (strcmp(name, "heat_MJ_per_kg_lost") == 0)
        return 1e-6 * put_in(r, s->last, FLUX_decay_heat) / (end->laid_kg - end->dry_kg);
    if (strcmp(name, "left_first_pct") == 0)
        return 100 * r->stuff_left_share[0]; /* of the scenario's first ingredient, at the season's end */
    if (strcmp(name, "seeds_live_easy_pct") == 0)
        return seeds(r, 0);
    if (strcmp(name, "seeds_live_moderate_pct") == 0)
        return seeds(r, 1);
    return strcmp(name, "seeds_live_hard_pct") == 0 ? seeds(r, 2) : (double)NAN;
}

static double state(const struct span_of_days *s, const char *name)
{
    const struct record_day *end = &s->record->day[s->last], *first = &s->record->day[0];
    if (strcmp(name, "volume_share") == 0)
        return end->volume_m3 / first->volume_m3;
    if (strcmp(name, "height_share") == 0)
        return end->height_m / first->height_m;
    if (strcmp(name, "water_pct") == 0)
        return 100 * end->water_share;
    if (strcmp(name, "core_water_pct") == 0)
        return 100 * end->core_water_share;
    if (strcmp(name, "rim_water_pct") == 0)
        return 100 * end->rim_water_share;
    if (strcmp(name, "c_to_n") == 0)
        return end->carbon_kg / end->nitrogen_kg;
    if (strcmp(name, "carbon_pct_of_dry") == 0)
        return 100 * end->carbon_kg / end->dry_kg;
    return amounts(s, name);
}

double measure_of(const struct record *record, const char *name, double from, double to, double level)
{
    int last = record->days - 1, row = 0;
    struct span_of_days s = {record, 0, last, isnan(from) ? 1 : from, isnan(to) ? record->days : to,
                             level};
    s.first = (int)fmax(0, fmin(last, floor(s.from) - 1));
    s.last = (int)fmax(s.first, fmin(last, ceil(s.to) - 1));
    static const struct { const char *name; enum thing thing; } most_of[] = {
        {"middle_max_c", MIDDLE}, {"hand_deep_max_c", HAND}, {"deep30_max_c", DEEP30},
        {"mean_max_c", MEAN}, {"hottest_max_c", HOTTEST}}, at_of[] = {
        {"middle_c", MIDDLE}, {"hand_deep_c", HAND}, {"deep30_c", DEEP30}, {"mean_c", MEAN}};
    for (size_t i = 0; i < sizeof most_of / sizeof *most_of; i++)
        if (strcmp(name, most_of[i].name) == 0)
            return most(&s, most_of[i].thing, &row);
    for (size_t i = 0; i < sizeof at_of / sizeof *at_of; i++)
        if (strcmp(name, at_of[i].name) == 0)
            return at(&s, at_of[i].thing);
    if (strcmp(name, "middle_day_of_max") == 0 || strcmp(name, "hottest_day_of_max") == 0) {
        most(&s, *name == 'm' ? MIDDLE : HOTTEST, &row);
        return row + 1;
    }
    if (strcmp(name, "middle_mean_c") == 0)
        return mean(&s, MIDDLE);
    if (strcmp(name, "middle_over_air_c") == 0)
        return mean(&s, MIDDLE) - mean(&s, AIR);
    if (strcmp(name, "days_middle_over") == 0)
        return days_over(&s);
    if (strcmp(name, "first_day_over") == 0)
        return first_over(&s, MIDDLE);
    if (strcmp(name, "first_day_below") == 0)
        return first_below(&s);
    if (strcmp(name, "day_back_to_air") == 0)
        return back_to_air(&s);
    if (strcmp(name, "days_rise_to_below") == 0)
        return rise_to_below(&s);
    if (strcmp(name, "stable_day") == 0)
        return stable_day(&s);
    if (strcmp(name, "oxygen_lowest_pct") == 0)
        return mean(&s, OXYGEN);
    if (strcmp(name, "oxygen_bottom_minus_top_pct") == 0)
        return mean(&s, BASE_MINUS_CREST);
    return state(&s, name);
}

/* ---- over several runs ---- */

/* The swept number of the run that lost most carbon. */
static double argmax(const struct record *const *record, const struct experiment *e,
                     const struct figure *f)
{
    double best = NAN, most_lost = -INFINITY;
    for (int i = 0; i < f->runs; i++) {
        double lost = measure_of(record[f->run[i]], "carbon_loss_pct", NAN, f->to, NAN);
        if (lost > most_lost) {
            most_lost = lost;
            best = e->run[f->run[i]].swept;
        }
    }
    return best;
}

/* Squared correlation of carbon left with the share of lignin in what could decay. */
static double r2_on_lignin(const struct record *const *record, const struct figure *f)
{
    double sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0, n = f->runs;
    for (int i = 0; i < f->runs; i++) {
        const struct record *r = record[f->run[i]];
        const double *laid = r->pool_laid_kg;
        double x = laid[3] / (laid[0] + laid[1] + laid[2] + laid[3]);
        double y = 100 - measure_of(r, "carbon_loss_pct", NAN, f->to, NAN);
        sx += x;
        sy += y;
        sxx += x * x;
        syy += y * y;
        sxy += x * y;
    }
    double cov = sxy - sx * sy / n;
    return cov * cov / ((sxx - sx * sx / n) * (syy - sy * sy / n));
}

/* Root mean square of model less published, over every point of the course. */
static double course_rms(const struct record *const *record, const struct experiment *e)
{
    double sum = 0;
    for (int i = 0; i < e->points; i++) {
        const struct figures_point *p = &e->point[i];
        double d = measure_of(record[p->run], p->measure, p->day, p->day, NAN) - p->value;
        sum += d * d;
    }
    return sqrt(sum / e->points);
}

double measure_over_runs(const struct record *const *record, const struct experiment *e,
                         const struct figure *f)
{
    if (strcmp(f->measure, "argmax_carbon_loss") == 0)
        return argmax(record, e, f);
    if (strcmp(f->measure, "carbon_left_on_lignin_r2") == 0)
        return r2_on_lignin(record, f);
    if (strcmp(f->measure, "course_rms") == 0)
        return course_rms(record, e);
    double value = measure_of(record[f->run[0]], f->measure, f->from, f->to, f->level);
    if (f->against == FIGURES_ALONE)
        return value;
    double other = measure_of(record[f->other], f->measure, f->from, f->to, f->level);
    return f->against == FIGURES_MINUS ? value - other : value / other;
}

static double member_value(const struct experiment *e, const struct figure *f,
                           const struct crew_done *done, int member)
{
    const struct record *record[FIGURES_EXPERIMENT_RUNS];
    for (int r = 0; r < e->runs; r++) {
        if (member >= done[r].members || done[r].failed[member])
            return NAN;
        record[r] = &done[r].record[member];
    }
    return measure_over_runs(record, e, f);
}

int measure_members(double *value, const struct experiment *e, const struct figure *f,
                    const struct crew_done *done, int members)
{
    int count = 0;
    for (int m = 0; m < members; m++) {
        double v = member_value(e, f, done, m);
        if (!isnan(v))
            value[count++] = v;
    }
    return count;
}
