/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/cause.c - see ask/cause.h. */
#include "ask/cause.h"
#include "run/handful.h"
#include <math.h>
#include <string.h>

const char *const cause_word[CAUSES] = {"nothing", "too dry", "too wet", "too woody", "too small",
                                        "too loose", "packed", "cold outside", "frozen", "finished"};
const char *const cause_said[CAUSES] = {
    "working as it should", "too dry to work", "too wet for air to get in",
    "too woody (too few greens)", "too small to keep its heat", "too loose: draught cools it",
    "packed too tight for air", "held back by the cold outside", "frozen: asleep", "finished: its food is used up"};

enum { DAYS = 3 };
static const double WARM_K = 318.15;        /* 45 C in the middle: a pile at work [trade] */
static const double FROZEN_K = 273.65;
static const double HOLDS = 0.5;            /* its best would double the pace, as in ask/ready */
static const double SODDEN_SHARE = 0.65;    /* a handful runs [trade] */
static const double COLD_AIR_K = 278.15;    /* 5 C: a garden rests [trade] */
static const double DRAUGHT_SHARE = 0.5;    /* of all heat that leaves [trade] */
/* It rests: as compost for beds is judged in ask/ready. */
static const double QUIET_MG = 4, QUIET_RISE_K = 20, MG_A_DAY = 86400e3;
static const double TELLTALE_SHARE = 0.5;   /* still to be told as leaf or stalk */

/* the last few days, over core and shoulder, since the rim is dry and cold in any pile */
struct lately {
    double limit[RECORD_LIMITS];
    double middle_K, air_K, water_share, draught_share;
};

static double within(const struct record_day *day, enum record_limit limit)
{
    double sum = 0;
    int places = 0;
    for (int p = RECORD_CORE; p <= RECORD_SHOULDER; p++)
        if (!isnan(day->limit[p][limit])) {
            sum += day->limit[p][limit];
            places++;
        }
    return places ? sum / places : 1;
}

static struct lately lately_of(const struct record *record, int day)
{
    struct lately l = {.middle_K = 0};
    int from = day > DAYS ? day - DAYS : 0, days = day - from;
    double left = 0, draught = 0;
    for (int d = from; d < day; d++) {
        const struct record_day *row = &record->day[d];
        for (int n = 0; n < RECORD_LIMITS; n++)
            l.limit[n] += within(row, (enum record_limit)n) / days;
        l.middle_K += row->middle_K / days;
        l.air_K += row->air_K / days;
        l.water_share += row->core_water_share / days;
        draught -= row->flux[FLUX_air_heat];
        for (int f = 0; f < FLUXES; f++)
            if (flux_rows[f].of == FLUX_OF_ENERGY && row->flux[f] < 0)
                left -= row->flux[f];
    }
    l.draught_share = left > 0 ? draught / left : 0;
    return l;
}

/* Water, air or nitrogen, whichever holds it most, if its best would double the pace. */
static enum cause holding(const struct lately *l)
{
    enum record_limit least = RECORD_WATER;
    if (l->limit[RECORD_OXYGEN] < l->limit[least])
        least = RECORD_OXYGEN;
    if (l->limit[RECORD_NITROGEN] < l->limit[least])
        least = RECORD_NITROGEN;
    if (l->limit[least] >= HOLDS)
        return CAUSE_NONE;
    if (least == RECORD_WATER)
        return CAUSE_DRY;
    if (least == RECORD_NITROGEN)
        return CAUSE_WOODY;
    return l->water_share >= SODDEN_SHARE ? CAUSE_WET : CAUSE_PACKED;
}

enum cause cause_of(const struct record *record, const struct scenario *scenario, int day)
{
    (void)scenario;
    if (day > record->days)
        day = record->days;
    if (day < 1)
        return CAUSE_NONE;
    const struct record_day *now = &record->day[day - 1];
    struct lately l = lately_of(record, day);
    enum cause held = holding(&l);
    bool breathes = now->test_breath_per_s * MG_A_DAY > QUIET_MG || now->flask_rise_K >= QUIET_RISE_K;
    if (l.middle_K >= WARM_K)
        return CAUSE_NONE;
    if (l.middle_K < FROZEN_K)
        return CAUSE_FROZEN;
    if (!breathes)
        return now->sticks_share > TELLTALE_SHARE ? CAUSE_WOODY : CAUSE_FINISHED;
    if (held != CAUSE_NONE)
        return held;
    if (l.air_K < COLD_AIR_K)
        return CAUSE_COLD;
    return l.draught_share > DRAUGHT_SHARE ? CAUSE_LOOSE : CAUSE_SMALL;
}

int cause_odds(struct cause_odds odds[CAUSES], const struct record *record, int members,
               const struct scenario *scenario, int day)
{
    int count[CAUSES] = {0}, causes = 0;
    for (int i = 0; i < members; i++)
        count[cause_of(&record[i], scenario, day)]++;
    for (int c = 0; c < CAUSES; c++) {
        int at = causes;
        if (!count[c])
            continue;
        for (; at > 0 && odds[at - 1].piles < count[c]; at--)
            odds[at] = odds[at - 1];
        odds[at] = (struct cause_odds){(enum cause)c, count[c], members};
        causes++;
    }
    return causes;
}

/* ---- tests ---- */

/* what a test shows under each cause; the cheapest first, all common practice without a source */
static const struct {
    const char *what, *shows[CAUSES];
} tests[] = {
    {"squeeze a handful from 30 cm in",
     {"a ball that holds", "it crumbles", "water runs", "a ball that holds", "a ball that holds",
      "a ball that holds", "a ball that holds", "a ball that holds", "hard as stone",
      "a ball that holds"}},
    {"open it to 30 cm and sniff",
     {"nothing much", "nothing much", "rot", "nothing much", "nothing much", "nothing much", "sour",
      "nothing much", "nothing much", "earth"}},
    {"look at what comes up with the fork",
     {"leaf and stalk, loose", "leaf and stalk, loose", "black slime", "leaf and stalk, loose",
      "leaf and stalk, loose", "gaps a hand wide", "flat slabs", "leaf and stalk, loose", "ice",
      "dark crumbs"}},
    {"probe a hand deep and in the middle",
     {"both warm", "both near the air's", "both near the air's", "both near the air's",
      "only the middle is warm", "only the middle is warm", "warm in patches", "both near the air's",
      "both at zero", "both near the air's"}},
    {"weigh a full bucket",
     {"0.3 to 0.6 kg a litre", "under 0.3 kg a litre", "over 0.7 kg a litre",
      "0.3 to 0.6 kg a litre", "0.3 to 0.6 kg a litre", "under 0.2 kg a litre",
      "over 0.6 kg a litre", "0.3 to 0.6 kg a litre", "0.3 to 0.6 kg a litre",
      "over 0.5 kg a litre"}},
    {"keep a bucket of it in the warm, and one with a third of fresh grass, for three days",
     {"both warm", "neither warms", "neither warms", "only that with grass warms", "both warm",
      "both warm", "both warm", "both warm", "both warm", "only that with grass warms"}},
};
enum { SQUEEZE, TESTS = sizeof tests / sizeof tests[0], OF_LATE_DAYS = 7 };

struct cause_test cause_test(enum cause one, enum cause other, bool squeezed)
{
    for (int t = squeezed ? SQUEEZE + 1 : SQUEEZE; t < TESTS; t++)
        if (strcmp(tests[t].shows[one], tests[t].shows[other]) != 0)
            return (struct cause_test){tests[t].what, tests[t].shows[one], tests[t].shows[other]};
    return (struct cause_test){NULL, NULL, NULL};
}

bool cause_squeezed(const struct scenario *scenario, int day)
{
    bool squeezed = false;
    for (int i = 0; i < scenario->readings; i++) {
        const struct plan_reading *r = &scenario->reading[i];
        squeezed |= r->what == PLAN_READ_SQUEEZE && r->day < day && r->day >= day - OF_LATE_DAYS;
    }
    return squeezed;
}

double cause_water_l(const struct record *record, int day)
{
    const struct record_day *row = &record->day[(day < record->days ? day : record->days) - 1];
    return handful_thirst_kg(row->dry_kg, row->core_water_share);
}
