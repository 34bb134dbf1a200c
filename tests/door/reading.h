/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/reading.h - scenarios in a few lines for the tests of the reader. */
#ifndef DOOR_READING_H
#define DOOR_READING_H
#include "door/scenario.h"
#include "lib/near.h"
#include <stdio.h>
#include <stdlib.h>

static struct scenario READ; /* two megabytes: not on a stack */
static struct trouble WHY;

/* Everything a scenario needs but the pile; a test adds what it is about. */
#define READING_HEAD                                                                               \
    "midden: 1\nstart: 2025-10-18\nplace: {latitude: 47.2 N, elevation: 430 m}\n"                  \
    "sky: cold winters\n"
#define READING_BIN "bin: 1.2 x 1.1 x 1 m\n"
#define READING_PILE                                                                               \
    "build:\n  - mixed leaves: 8 bags\n    grass clippings: 30 buckets\n    water: 5 buckets\n"
#define READING_BASE READING_HEAD READING_BIN READING_PILE

static inline bool reading_try(const char *text)
{
    WHY = (struct trouble){0};
    return scenario_read_text(&READ, text, strlen(text), "a.yaml", &WHY);
}

static inline const struct scenario *reading_good(const char *text)
{
    if (!reading_try(text))
        fail_msg("%s", WHY.text);
    return &READ;
}

/* Refused, and this stands in the reason. */
static inline void reading_bad(const char *text, const char *words)
{
    assert_false(reading_try(text));
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    if (!strstr(WHY.text, words))
        fail_msg("%s\nwanted: %s", WHY.text, words);
}

static inline int reading_lines(const char *text)
{
    int lines = *text != '\0';
    for (; *text; text++)
        lines += *text == '\n';
    return lines;
}
#endif
