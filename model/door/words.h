/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/words.h - reading one text of a file word by word: numbers, spans, units, dates, closed
 * lists.
 *
 * A cursor over the text of one tree node. Each function takes what it asks for and moves on, or
 * records a mistake at the cursor, with what was expected, and returns false.
 * Numbers are written in full with a decimal point: no exponents, no commas, no hexadecimal,
 * nothing that depends on a locale.
 */
#ifndef DOOR_WORDS_H
#define DOOR_WORDS_H
#include "base/date.h"
#include "base/unit.h"
#include "door/fault.h"
#include "door/tree.h"
#include "know/stuff.h"
#include <stdbool.h>

enum { WORDS_SIDES = 3 };
enum words_vessel { WORDS_BUCKET, WORDS_BARROW, WORDS_BAG, WORDS_VESSELS };

struct words {
    struct fault *fault;
    const struct tree_node *node;
    const char *at;          /* the rest of node->text, at a word or its end */
    const char *expected;    /* ends each message: "expected ..." */
    const double *vessel_m3; /* sizes of the vessels, where they count as units; else NULL */
};

/* Puts the cursor on the first word; fails when the node is no text or an empty one. */
bool words_open(struct words *words, struct fault *fault, const struct tree_node *node,
                const char *expected);
/* Records a mistake at the cursor; returns false. */
bool words_fault(struct words *words, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Fails when anything is left. */
bool words_done(struct words *words);
/* Takes the next word or words if they are among `a|b c`. */
bool words_take(struct words *words, const char *spellings);
/* Takes them or fails. */
bool words_need(struct words *words, const char *spellings);

bool words_number(struct words *words, double *value);
bool words_whole(struct words *words, int least, int most, int *value);
/* `a` or `a to b`, without a unit */
bool words_range(struct words *words, struct span *span);
/* A unit of one of the kinds (bits 1 << kind), vessels included where they count; a copy, since
 * vessels differ from file to file. */
bool words_unit(struct words *words, unsigned kinds, struct unit *unit);
/* `a` or `a to b` and a unit, in SI */
bool words_span(struct words *words, enum unit_kind kind, struct span *SI);
bool words_quantity(struct words *words, enum unit_kind kind, double *SI);
/* `1.2 x 3 m`, `4 ft x 4 ft x 3 ft`: so many lengths; one without a unit has the last one's */
bool words_sides(struct words *words, int count, double *side_m);
/* Fails unless least <= value <= most, which reads as `range`. */
bool words_within(struct words *words, double value, double least, double most, const char *range);

bool words_date(struct words *words, date_count *date);
/* One of several names, each as `shown|also`; fails with the names and the nearest. */
bool words_choice(struct words *words, const char *const *names, int count, int *index);
bool words_weekday(struct words *words, int *weekday); /* 0 Monday */
/* the same without complaint */
bool words_try_choice(struct words *words, const char *const *names, int count, int *index);

/* "`a`, `b` or `c`" from names `a|also`; cut with "..." where the room ends */
const char *words_list(const char *const *names, int count, char *list, size_t room);
#endif
