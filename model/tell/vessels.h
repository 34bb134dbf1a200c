/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/vessels.h - what to add to a mix, or leave out, in a gardener's own vessels. */
#ifndef TELL_VESSELS_H
#define TELL_VESSELS_H
#include "ask/mix.h"

enum { VESSELS_DEEDS = 320 };

/* "bucket", "buckets", "kg": what a step of a kind is counted in. */
const char *vessels_word(enum plan_vessel vessel, bool many);
const char *vessels_name(const struct mix *mix, const struct amend_kind *kind);
/* "find about 30 buckets of fresh grass clippings and pour 5 more buckets of water (2-9)" */
void vessels_deeds(char text[VESSELS_DEEDS], const struct mix *mix, const struct mix_advice *told);
/* Litres of water that possible piles want by the advice; 0 where it pours none. */
struct span vessels_litres(const struct mix *mix, const struct mix_advice *told);
#endif
