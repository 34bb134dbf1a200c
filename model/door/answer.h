/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/answer.h - what every command needs: the scenario read, notes, and an answer made whole in
 * memory before a byte of it is written.
 */
#ifndef DOOR_ANSWER_H
#define DOOR_ANSWER_H
#include "base/scroll.h"
#include "door/ask.h"
#include "run/plan.h"
#include "tell/phrase.h"

struct answer {
    FILE *out;          /* that of the scroll */
    struct scroll scroll;
};

bool answer_begin(struct answer *answer, struct trouble *why);
/* Writes what was told, unless telling failed; true if it was told and written. */
bool answer_end(struct answer *answer, const struct ask *ask, bool told, struct trouble *why);

/* Can every file that was named be written? Known before minutes are spent. */
bool answer_may(const struct ask *ask, struct trouble *why);
/* A note on standard error, unless --quiet. */
void answer_note(const struct ask *ask, const char *text, const char *name);
/* The scenario asked for, or NULL; the caller frees it. */
struct scenario *answer_scenario(const struct ask *ask, struct trouble *why);
/* The terminal's letters and the keeper's measures. */
struct phrase_style answer_style(const struct scenario *scenario);
#endif
