/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/errand.h - the margin lines of one pile's work on a day: what to read first, what to bring,
 * how it is done, what to read afterwards.
 */
#ifndef TELL_ERRAND_H
#define TELL_ERRAND_H
#include "ask/outing.h"
#include "tell/phrase.h"

void errand_write(FILE *out, const struct outing_stop *stop, const struct phrase_style *style);
#endif
