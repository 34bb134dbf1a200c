/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/page.c - see tell/page.h. */
#include "tell/page.h"
#include <string.h>

/* U+0080 to U+009F, which HTML forbids, are c2 80 to c2 9f in UTF-8. */
static int control(const unsigned char *at)
{
    if (at[0] < 0x20 || at[0] == 0x7F)
        return 1;
    return at[0] == 0xC2 && at[1] >= 0x80 && at[1] <= 0x9F ? 2 : 0;
}

void page_text(FILE *out, const char *text)
{
    for (const unsigned char *at = (const unsigned char *)text; *at; at++) {
        int bad = control(at);
        if (bad) {
            fputc('?', out);
            at += bad - 1;
        } else if (*at == '<') {
            fputs("&lt;", out);
        } else if (*at == '>') {
            fputs("&gt;", out);
        } else if (*at == '&') {
            fputs("&amp;", out);
        } else if (*at == '"') {
            fputs("&quot;", out);
        } else {
            fputc(*at, out);
        }
    }
}

void page_element(FILE *out, const char *tag, const char *text)
{
    fprintf(out, "<%s>", tag);
    page_text(out, text);
    fprintf(out, "</%.*s>", (int)strcspn(tag, " "), tag);
}

void page_begin(FILE *out, const char *what, const char *name, const char *styles)
{
    fputs("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>", out);
    fprintf(out, "%s of ", what);
    page_text(out, name);
    fprintf(out, "</title>\n<style>\n%s</style>\n</head>\n<body>\n", styles);
}

void page_end(FILE *out)
{
    fputs("</body>\n</html>\n", out);
}
