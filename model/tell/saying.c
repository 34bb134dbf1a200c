/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/saying.c - see tell/saying.h. */
#include "tell/saying.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void saying_add(struct saying *saying, const char *format, ...)
{
    size_t used = strlen(saying->text);
    va_list list;
    va_start(list, format);
    vsnprintf(saying->text + used, sizeof saying->text - used, format, list);
    va_end(list);
}

void saying_capital(char *text)
{
    if (*text >= 'a' && *text <= 'z')
        *text = (char)(*text - 'a' + 'A');
}
