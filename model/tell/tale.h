/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/tale.h - what a teller of a season is given, and the cautions that go with it.
 *
 * Text, CSV and JSON take the same struct, so that no form of an answer knows more than another.
 */
#ifndef TELL_TALE_H
#define TELL_TALE_H
#include "run/record.h"
#include "tell/saying.h"
#include <stdbool.h>

struct tale {
    const struct record *record;    /* [members]; what can't be a range is told of the first */
    int members;            /* 1 is the central pile, or one possible pile alone */
    double *room;           /* [members], for sorting */
    const int *failed;      /* numbers of possible piles that could not be run */
    int failures;
    const struct scenario *scenario;
    int plan;               /* row of scenario.plan */
    bool plan_named;        /* false: the first was taken because none was named */
    long long draw;         /* which set of possible piles, or which invented winter */
    const char *version;
    const char *file;       /* the scenario as named on the command line, "-" for standard input */
    int day;                /* tell of this day as well (1 is the first); 0 = none asked */
};

enum tale_caution { TALE_HOT, TALE_LIFTING, TALE_SPORES, TALE_MANURE, TALE_HERBICIDE, TALE_CODES,
                    TALE_CAUTIONS };

/* A middle this hot scalds; a little above what a hand bears for long (trade). */
#define TALE_HOT_K 318.15

/* Whether a caution concerns this pile under this plan; of heat the first record is asked,
 * if there is one. */
bool tale_caution_applies(const struct tale *tale, enum tale_caution caution);
const char *tale_caution_brief(enum tale_caution caution); /* a few words, for a margin line */
const char *tale_caution_full(enum tale_caution caution);  /* a sentence */
/* The brief words of all that apply, for a margin line; empty where none does. */
struct saying tale_care(const bool applies[TALE_CAUTIONS]);
/* True when the weather was made from monthly normals, so that the draw matters. */
bool tale_weather_drawn(const struct scenario *scenario);
#endif
