/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/unit.h - everyday units to SI and back; for door/ and tell/.
 *
 * A closed table: a word that is not in it is not a unit, and words that mean several things
 * (ton, gallon, ounce) are answered with a question instead of a guess.
 */
#ifndef BASE_UNIT_H
#define BASE_UNIT_H
#include <stddef.h>

#define UNIT_POUND_KG 0.45359237 /* exact */

enum unit_kind {
    UNIT_VOLUME, UNIT_MASS, UNIT_LENGTH, UNIT_AREA, UNIT_TEMP, UNIT_TIME, UNIT_SHARE, UNIT_DENSITY,
    UNIT_LATITUDE, UNIT_LONGITUDE, UNIT_KINDS
};

/* SI = (value + before) * factor */
struct unit {
    const char *name;   /* as shown */
    const char *also;   /* other spellings, parted by | */
    enum unit_kind kind;
    double before, factor;
};

extern const struct unit unit_rows[];
extern const int unit_count;

/* The unit a text begins with, the longest that fits, and the bytes it takes; NULL if none. */
const struct unit *unit_at(const char *text, size_t *length);
/* What to ask when a text begins with a word that means several units; NULL if it doesn't. */
const char *unit_question(const char *text);
double unit_to_SI(const struct unit *unit, double value);
double unit_from_SI(const struct unit *unit, double value);
const char *unit_kind_word(enum unit_kind kind); /* "volume" */

/* How many bytes of a text the longest fitting one of `a|b c|d` takes, as whole words; 0 if none
 * fits. A blank fits any blanks; spellings of three letters and more fit in capitals too. */
size_t unit_spelt(const char *text, const char *spellings);
#endif
