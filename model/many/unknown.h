/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/unknown.h - what isn't known of a pile, each unknown with its name and distribution.
 *
 * Rows of know/param that aren't exact, what each ingredient is made of and how much of it there
 * is, what was felt, poured and read, and the weather where it is made up. A possible pile is a
 * chance from 0 to 1 for each; a half everywhere is the central pile.
 *
 * An unknown's draw depends on its name and nothing else in the list, so one more of them leaves
 * the others as they were.
 */
#ifndef MANY_UNKNOWN_H
#define MANY_UNKNOWN_H
#include "run/possible.h"
#include <stdint.h>

enum unknown_kind {
    UNKNOWN_PARAM,          /* row of param_rows */
    UNKNOWN_WATER, UNKNOWN_BULK, UNKNOWN_AMOUNT, UNKNOWN_NITROGEN, UNKNOWN_LIGNIN, UNKNOWN_SOLUBLE,
    UNKNOWN_PIECE, UNKNOWN_PACE, /* of row of scenario.stuff */
    UNKNOWN_POUR, UNKNOWN_FELT, UNKNOWN_HEIGHT, UNKNOWN_FOUND_MIDDLE, UNKNOWN_FOUND_HAND,
    UNKNOWN_THERMOMETER, UNKNOWN_HANDFUL, UNKNOWN_SLIPS, /* of what a rule is told */
    UNKNOWN_WEATHER
};

struct unknown {
    enum unknown_kind kind;
    int row;
    char name[96];          /* such as "fast_per_day" or "water of coffee grounds" */
};

enum { UNKNOWN_MOST = 320, UNKNOWN_BLOCK = 64 };

struct unknowns {
    int count;
    int plan;               /* row of scenario.plan the list was made for */
    struct unknown row[UNKNOWN_MOST];
};

/* What isn't known of a scenario under a plan. `fixed` says which parameters were set by hand. */
void unknown_list(struct unknowns *unknowns, const struct scenario *scenario, int plan,
                  const bool fixed[PARAM_ROWS]);

/* The chance that member (1, 2, ...) of a draw holds for an unknown. Members come in blocks of 64
 * (UNKNOWN_BLOCK): within one, each unknown takes every 64th part of its distribution once, in an
 * order of its own (Latin hypercube; McKay, Beckman and Conover 1979, Technometrics 21, 239-245). */
double unknown_chance(uint64_t draw, uint32_t member, const char *name);

/* The pile that holds these chances, one for each row of the list. */
void unknown_choose(struct possible *possible, const struct unknowns *unknowns, const double chance[],
                    const struct scenario *scenario, const struct param *param);
/* The weather these chances pick, as a seed of the generator; 0 if weather isn't drawn. */
uint64_t unknown_weather(const struct unknowns *unknowns, const double chance[]);
/* A parameter's value at a chance: between least and most, about a usual value. */
double unknown_param(const struct param_row *row, double usual, double chance);
/* What one of them is worth at a chance, for those who are told of it, and in which unit: that of its
 * parameter, K, a share, kg/m3, or times what is usual or was said. NAN for weather and slips. */
double unknown_value(const struct unknowns *unknowns, int row, double chance,
                     const struct scenario *scenario, const struct param *param, const char **unit);
/* What a keeper's own thermometer and hand show, less what is true, at these chances. */
void unknown_eyes(const struct unknowns *unknowns, const double chance[],
                  const struct scenario *scenario, double *thermometer_K, double *handful_share);
#endif
