/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/ask.h - the command line, understood. */
#ifndef DOOR_ASK_H
#define DOOR_ASK_H
#include "base/date.h"
#include "base/trouble.h"
#include "know/param.h"
#include "tell/help.h"
#include <signal.h>
#include <stdbool.h>

struct ask {
    bool commanded;             /* false: only --help or --version of the program */
    enum help_command command;
    bool given[HELP_OPTIONS];   /* which options stood there */
    const char *output, *plan, *plot, *write, *calendar, *animation, *poster; /* NULL = not given */
    const char **plans;         /* every --plan */
    int plan_count;
    const char *operand;        /* the scenario, or the table of `list`; NULL = none */
    const char **operands;      /* all of them: with --merge there may be many */
    int operand_count;
    char **words;               /* the command line as it came, [word_count] */
    int word_count;
    long long draw;
    int day;                    /* --day as a number from 1; 0 = not so given */
    bool dated;                 /* --day as a date */
    date_count date;
    int first, last;            /* members; first 0 = the central pile alone */
    bool slice;                 /* --members A-B */
    int threads;
    int hour;                   /* --hour, 0 to 23 */
    int weeks;                  /* of a log sheet */
    struct param param;         /* the usual values and what --set changed */
    bool fixed[PARAM_ROWS];     /* which --set changed */
    const volatile sig_atomic_t *stop; /* set from outside when a signal came; main's, NULL = none */
};

/* Understands the command line, or fails with TROUBLE_USAGE. Texts point into argv, whose order may
 * change. ask_free in any case. */
bool ask_read(struct ask *ask, int argc, char **argv, struct trouble *why);
void ask_free(struct ask *ask);
#endif
