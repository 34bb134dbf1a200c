/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/logpage.h - the log sheet as one HTML file to print: the empty table on the first page, the
 * forecast on the next.
 */
#ifndef TELL_LOGPAGE_H
#define TELL_LOGPAGE_H
#include "tell/logsheet.h"

void logpage_write(FILE *out, const struct logsheet *sheet);
/* How many sheets of A4 or Letter the empty table takes. */
int logpage_pages(const struct logsheet *sheet);
#endif
