/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/help.h - commands and options, once: the reader of the command line, the help pages and the
 * check "this command has no such option" all read these rows. */
#ifndef TELL_HELP_H
#define TELL_HELP_H
#include <stdio.h>

extern const char help_version[];

enum help_command {
    HELP_NEW, HELP_CHECK, HELP_MIX, HELP_RUN, HELP_COMPARE, HELP_SEARCH, HELP_NEXT, HELP_SHEET,
    HELP_LEARN, HELP_WHY, HELP_LESSON, HELP_REPORT,
    HELP_LIST, HELP_COMMANDS
};

enum help_key {
    HELP_JSON, HELP_CSV, HELP_OUTPUT, HELP_FORCE, HELP_PLAN, HELP_DAY, HELP_HOUR, HELP_ASK_FIRST, HELP_WRITE, HELP_CALENDAR, HELP_WEEKS,
    HELP_HANDOVER, HELP_ANIMATION, HELP_POSTER, HELP_MEMBERS,
    HELP_SENSITIVITY, HELP_MERGE, HELP_DRAW, HELP_SEED, HELP_THREADS, HELP_SET, HELP_PLOT, HELP_LONG, HELP_QUIET, HELP_HELP, HELP_VERSION, HELP_OPTIONS
};

struct help_command_row {
    const char *name, *operand, *answers, *more;
};

struct help_option_row {
    const char *name;
    char letter;            /* 0 = none */
    const char *argument;   /* NULL = takes none */
    unsigned commands;      /* bit of each command that has it */
    const char *meaning;
};

extern const struct help_command_row help_commands[HELP_COMMANDS];
extern const struct help_option_row help_options[HELP_OPTIONS];

void help_program(FILE *out);                           /* midden --help */
void help_of(FILE *out, enum help_command command);     /* midden COMMAND --help */
void help_about(FILE *out);                             /* midden --version */
#endif
