/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/saying.h - some sentences, put together piece by piece and returned by value. */
#ifndef TELL_SAYING_H
#define TELL_SAYING_H

enum { SAYING_TEXT = 1200 };

struct saying {
    char text[SAYING_TEXT];
};

/* Adds to it, cut where it is full. */
void saying_add(struct saying *saying, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Makes the first letter of a text a capital, if it is a small one of ASCII. */
void saying_capital(char *text);
#endif
