/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/figures.h - published experiments as they stand in tests/field/xNN: scenarios, figures
 * (figures.csv) and courses (course.csv), read for validation and calibration.
 */
#ifndef FIELD_FIGURES_H
#define FIELD_FIGURES_H
#include "base/trouble.h"
#include "run/plan.h"

enum { FIGURES_TEXT = 128, FIGURES_RUNS = 16, FIGURES_MOST = 40 };

/* a run as a figure names it: file#plan@55C@60%water@10%oxygen */
struct figures_run {
    char file[64], plan[64];
    double held_K, held_water_share, held_oxygen_share; /* 0 = as in the file */
    double swept;               /* the number after the last @ */
};

enum figures_against { FIGURES_ALONE, FIGURES_MINUS, FIGURES_OVER };

struct figure {
    char quantity[FIGURES_TEXT], unit[16], measure[48], note[FIGURES_TEXT];
    double low, high;           /* published; NAN = none */
    double pass_low, pass_high; /* the band of its score; NAN = open */
    int run[FIGURES_RUNS], runs;/* rows of experiment.run */
    enum figures_against against;
    int other;                  /* row of experiment.run */
    double from, to, level;     /* NAN = not said */
};

/* one point of a published course */
struct figures_point {
    int run;
    double day, value;
    char measure[48];
};

enum { FIGURES_POINTS = 200, FIGURES_EXPERIMENT_RUNS = 48 };

struct experiment {
    char id[8];                 /* "x04" */
    char source[512];
    char left_out[1024];        /* arguments for figures that are not scored */
    int figures, runs, points;
    struct figure figure[FIGURES_MOST];
    struct figures_run run[FIGURES_EXPERIMENT_RUNS];
    struct figures_point point[FIGURES_POINTS];
};

enum { FIGURES_FOLDERS = 64 };

/* Names of the folders of three letters that begin with one of `kinds` ("x" the published experiments,
 * "t" what the trade knows), in order, but for those that `without` names (NULL = none); how many. */
int figures_find(const char *folder, const char *kinds, const char *without,
                 char id[FIGURES_FOLDERS][8]);
/* The scenario of a run, held as the run says, and the row of its plan. */
bool figures_open(struct scenario *scenario, int *plan, const char *folder,
                  const struct experiment *experiment, const struct figures_run *run,
                  struct trouble *why);
/* Is a value within the band of a figure's score? */
bool figures_met(const struct figure *figure, double value);
/* Reads a folder xNN. Fails with TROUBLE_INPUT, naming the line. */
bool figures_read(struct experiment *experiment, const char *folder, const char *id,
                  struct trouble *why);
#endif
