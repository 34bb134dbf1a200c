/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/near.h - words as people write them: the same name, a word in a text, the nearest known name. */
#ifndef BASE_NEAR_H
#define BASE_NEAR_H
#include <stdbool.h>

enum {
    NEAR_LONGEST = 127, /* bytes of a word that is compared at all */
    NEAR_FAR = 1000     /* the distance to or from a longer one */
};

/* Slips of the hand between two words: letters missing, extra, wrong, or swapped with the next.
 * Capitals and small letters of ASCII count as equal. */
int near_distance(const char *one, const char *other);

/* The name nearest to a word, the first of equals; NULL when none is near, which means at most one
 * slip, or one in three letters of a longer word, with at least one letter right. */
const char *near_name(const char *word, const char *const *names, int count);

/* Is it that name? `known` is in small letters; capitals count as these, - and _ as a space. */
bool near_same(const char *name, const char *known);

/* Does a word in small letters stand somewhere in the text, whatever the text's letters? */
bool near_within(const char *text, const char *word);
#endif
