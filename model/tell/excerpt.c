/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/excerpt.c - see tell/excerpt.h. */
#include "tell/excerpt.h"
#include "tell/page.h"
#include <string.h>

static bool among(const char *label, const char *labels)
{
    size_t length = strlen(label);
    for (const char *at = labels; length && (at = strstr(at, label)); at += length)
        if ((at == labels || at[-1] == ' ') && (at[length] == ' ' || !at[length]))
            return true;
    return false;
}

int excerpt_lines(FILE *out, const struct margin *margin, const char *labels)
{
    int count = 0;
    const char *before = "";
    for (int i = 0; i < margin->lines; i++) {
        const struct margin_line *line = &margin->line[i];
        if (labels ? !among(line->label, labels) : *line->label)
            continue;
        if (!labels) {
            page_element(out, "p", line->text);
        } else {
            fputs(count ? "" : "<dl>\n", out);
            if (strcmp(before, line->label) != 0)
                page_element(out, "dt", line->label);
            page_element(out, "dd", line->text);
            before = line->label;
        }
        fputc('\n', out);
        count++;
    }
    if (labels && count)
        fputs("</dl>\n", out);
    return count;
}

void excerpt_heading(FILE *out, const char *id, const char *text)
{
    fprintf(out, "<h2 id=\"%s\">%s</h2>\n", id, text);
}

void excerpt_cautions(FILE *out, const struct tale *tale)
{
    fputs("<ul>\n", out);
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(tale, (enum tale_caution)i)) {
            page_element(out, "li", tale_caution_full((enum tale_caution)i));
            fputc('\n', out);
        }
    fputs("</ul>\n", out);
}
