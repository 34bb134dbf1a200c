/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/page.h - what all HTML pages share: text made harmless, a head with its styles, an end.
 *
 * A page needs nothing beside it: no network, no font, no picture in another file.
 */
#ifndef TELL_PAGE_H
#define TELL_PAGE_H
#include <stdio.h>

/* Text of a file or a name as text of a page; control characters become '?'. It may stand within
 * double quotes as well. */
void page_text(FILE *out, const char *text);
/* An element around such a text: "<p>...</p>"; `tag` may hold attributes. */
void page_element(FILE *out, const char *tag, const char *text);
/* Up to and including the body's opening; the title is "WHAT of NAME", styles are as they are. */
void page_begin(FILE *out, const char *what, const char *name, const char *styles);
void page_end(FILE *out);
#endif
