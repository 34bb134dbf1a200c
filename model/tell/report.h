/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/report.h - all that is known of one pile's season, as one page: read on a phone, printed on
 * paper, kept for years.
 *
 * Sentences are those that the terminal says, taken from the same tellers; pictures stand in the page
 * itself. What is drawn of one pile alone says so.
 */
#ifndef TELL_REPORT_H
#define TELL_REPORT_H
#include "tell/compare.h"
#include "tell/plates.h"
#include "tell/tale.h"

struct report {
    struct tale tale;                   /* of all possible piles */
    struct plates plates;
    const struct comparison *comparison;/* NULL = there is one plan alone */
    const struct param *param;
    const char *command;                /* as it was typed */
    const char *source;                 /* the scenario as a text; NULL = it can't be shown */
};

bool report_write(FILE *out, const struct report *report, struct trouble *why);
#endif
