/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/margin.c - see tell/margin.h.
 *
 * phrase_line puts a label at column 2 and goes on below the text, eight columns or more in; without
 * a label it begins, and goes on, at the left edge. A sentence at the edge ends with a full stop.
 */
#include "tell/margin.h"
#include <stdlib.h>
#include <string.h>

enum { LABEL_AT = 2, TEXT_AT = 8 };

bool margin_begin(struct margin *margin)
{
    margin->lines = 0;
    bool begun = scroll_begin(&margin->scroll);
    margin->out = margin->scroll.out;
    return begun;
}

/* Adds a piece to the last line, after a blank. The pieces lie in order in one text, the first byte of
 * each line's room being where it began, so that joining is moving. */
static void join(struct margin_line *line, char **end, const char *piece)
{
    size_t length = strlen(piece);
    if (*end != line->text)
        *(*end)++ = ' ';
    memmove(*end, piece, length + 1);
    *end += length;
}

static bool ended(const struct margin_line *line, const char *end)
{
    return end > line->text && end[-1] == '.';
}

/* Reads the label off; a short one has a field of six columns, whose last is blank, a long one of nine.
 * Returns where the text begins. */
static char *label(struct margin_line *line, char *row)
{
    size_t whole = strlen(row), field = whole > 5 && row[5] != ' ' ? 9 : 6;
    size_t length = field < whole ? field : whole;
    char *text = row + length;
    while (length && row[length - 1] == ' ')
        length--;
    memcpy(line->label, row, length);
    line->label[length] = '\0';
    return text;
}

/* One line of the terminal. */
static void take(struct margin *margin, char *row, char **end)
{
    size_t blank = strspn(row, " ");
    struct margin_line *last = margin->lines ? &margin->line[margin->lines - 1] : NULL;
    bool labelled = blank == LABEL_AT;
    bool on = blank >= TEXT_AT || (blank == 0 && last && !*last->label && !ended(last, *end));
    if (last && on) {
        join(last, end, row + blank);
        return;
    }
    if (margin->lines == MARGIN_LINES || !row[blank])
        return;
    last = &margin->line[margin->lines++];
    last->label[0] = '\0';
    row += blank;
    if (labelled)
        row = label(last, row);
    last->text = *end = row;
    *end += strlen(row);
}

bool margin_end(struct margin *margin)
{
    char *end = NULL;
    margin->out = NULL;
    if (!scroll_end(&margin->scroll))
        return false;
    for (char *row = margin->scroll.text, *next; row && *row; row = next) {
        next = row + strcspn(row, "\n");
        if (*next)
            *next++ = '\0';
        take(margin, row, &end);
    }
    return true;
}

void margin_free(struct margin *margin)
{
    if (margin->out)
        (void)scroll_end(&margin->scroll);
    margin->out = NULL;
    free(margin->scroll.text);
    margin->scroll.text = NULL;
}
