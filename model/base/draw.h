/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/draw.h - counter-based random numbers: the same question always gets the same answer.
 *
 * A number depends on (seed; a, b, c) and on nothing drawn before it, so that a day, a member or an
 * unknown can be drawn alone, in any order, on any number of threads.
 */
#ifndef BASE_DRAW_H
#define BASE_DRAW_H
#include <stdint.h>

/* Four random words of a counter under a key: Philox4x32 with ten rounds. */
void draw_words(const uint32_t counter[4], const uint32_t key[2], uint32_t words[4]);

/* Evenly spread over the open interval (0, 1): an odd multiple of 2^-53, so never an end. */
double draw_uniform(uint64_t seed, uint32_t a, uint32_t b, uint32_t c);
/* From the standard normal distribution, rising with draw_uniform of the same four. */
double draw_normal(uint64_t seed, uint32_t a, uint32_t b, uint32_t c);
/* The value the standard normal distribution stays below with this chance; NAN outside (0, 1). */
double draw_quantile(double chance);
#endif
