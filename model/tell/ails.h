/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/ails.h - what ails a pile, with its chances, and the test that tells the likeliest apart. */
#ifndef TELL_AILS_H
#define TELL_AILS_H
#include "ask/cause.h"
#include "tell/saying.h"
#include <jansson.h>

/* "too dry to work 6 (5-7) in 10; too small to keep its heat 3 (2-4) in 10": three at most. */
struct saying ails_said(const struct cause_odds *odds, int causes);
/* "squeeze a handful: it crumbles = too dry; a ball that holds = too small"; empty where one cause
 * stands alone or no test would tell. `squeezed`: of late, by the log (cause_squeezed). */
struct saying ails_test(const struct cause_odds *odds, int causes, bool squeezed);
/* Does anything ail it, most likely? And is that at least as likely as all else together? */
bool ails_likely(const struct cause_odds *odds, int causes);
bool ails_clear(const struct cause_odds *odds, int causes);
json_t *ails_causes(const struct cause_odds *odds, int causes);
/* null as the text is empty */
json_t *ails_test_object(const struct cause_odds *odds, int causes, bool squeezed);
#endif
