/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/finding.h - what each picture of a season shows, as one sentence computed from its record.
 *
 * The sentence is the picture's title, so that a picture shown alone still says something. Where a
 * record holds no usable figure it says only what is drawn.
 */
#ifndef TELL_FINDING_H
#define TELL_FINDING_H
#include "run/plan.h"
#include "run/record.h"

enum { FINDING_TEXT = 160, FINDING_NUMBER = 32 };

/* Three digits and no exponent: 79.5, 893, 3810. */
const char *finding_number(char text[FINDING_NUMBER], double value);

/* A record of at least one day; the scenario says which units come first. */
void finding_temperature(char text[FINDING_TEXT], const struct record *record,
                         const struct scenario *scenario);
void finding_sections(char text[FINDING_TEXT], const struct record *record,
                      const struct scenario *scenario);
void finding_heat(char text[FINDING_TEXT], const struct record *record,
                  const struct scenario *scenario);
void finding_mass(char text[FINDING_TEXT], const struct record *record,
                  const struct scenario *scenario);
void finding_water(char text[FINDING_TEXT], const struct record *record,
                   const struct scenario *scenario);
#endif
