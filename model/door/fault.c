/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/fault.c - the mistakes of one file, each with its place, told together and in order. */
#include "door/fault.h"
#include <stdio.h>
#include <string.h>

static bool after(const struct fault_line *kept, int line, int column)
{
    return kept->line > line || (kept->line == line && kept->column > column);
}

bool fault_at_list(struct fault *fault, int line, int column, const char *format, va_list list)
{
    int kept = fault->count < FAULT_MOST ? fault->count : FAULT_MOST;
    int place = kept;
    while (place > 0 && after(&fault->kept[place - 1], line, column))
        place--;
    fault->count++;
    if (place == FAULT_MOST)
        return false;
    int moved = kept - place - (kept == FAULT_MOST); /* a full list loses its last */
    memmove(&fault->kept[place + 1], &fault->kept[place], (size_t)moved * sizeof fault->kept[0]);
    fault->kept[place].line = line;
    fault->kept[place].column = column;
    vsnprintf(fault->kept[place].text, FAULT_TEXT, format, list);
    return false;
}

bool fault_at(struct fault *fault, int line, int column, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    fault_at_list(fault, line, column, format, list);
    va_end(list);
    return false;
}

bool fault_memory(struct fault *fault)
{
    fault->memory = true;
    return false;
}

bool fault_report(const struct fault *fault, struct trouble *why)
{
    if (fault->memory)
        return trouble_set(why, TROUBLE_MEMORY, "%s: there is not enough memory to read it", fault->file);
    for (int i = 0; i < fault->count && i < FAULT_MOST; i++) {
        const struct fault_line *kept = &fault->kept[i];
        trouble_add(why, TROUBLE_INPUT, "%s:%d:%d: %s", fault->file, kept->line, kept->column,
                    kept->text);
    }
    if (fault->count > FAULT_MOST)
        trouble_add(why, TROUBLE_INPUT, "%s: and %d more; mend these first", fault->file,
                    fault->count - FAULT_MOST);
    return fault->count == 0;
}

const char *fault_quote(const char *text, char quote[FAULT_QUOTE])
{
    size_t room = FAULT_QUOTE - 1, length = strlen(text);
    if (length <= room) {
        memcpy(quote, text, length + 1);
        return quote;
    }
    length = room - 3;
    while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80) /* not inside a character */
        length--;
    memcpy(quote, text, length);
    memcpy(quote + length, "...", 4);
    return quote;
}
