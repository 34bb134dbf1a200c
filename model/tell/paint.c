/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/paint.c - what is drawn how, and which text is legible upon it. */
#include "tell/paint.h"
#include <math.h>
#include <string.h>

const struct paint_row paint_rows[PAINTS] = {
#define ROW(name, label, colour, dash, marker) {#name, label, colour, dash, marker},
    PAINTS_ROWS(ROW)
#undef ROW
};

int paint_find(const char *name)
{
    for (int i = 0; i < PAINTS; i++)
        if (!strcmp(paint_rows[i].name, name))
            return i;
    return -1;
}

struct paint_row paint_nth(int nth)
{
    static const enum paint dark[] = {PAINT_middle, PAINT_outside, PAINT_deep_30cm, PAINT_hand_deep,
                                      PAINT_oxygen};
    static const int marker[] = {7, 5, 9, 13, 11, 15, 6, 4, 8, 12, 10, 14};
    static const int dash[] = {1, 2, 4, 5, 3};
    struct paint_row row = paint_rows[dark[nth % 5]];
    row.marker = marker[nth % 12];
    row.dash = dash[(nth + nth / 5) % 5];
    return row;
}

/* WCAG 2.1, definition of relative luminance: sRGB made linear, weighed by what the eye sees. */
static double luminance(unsigned colour)
{
    static const double weight[3] = {0.2126, 0.7152, 0.0722};
    double sum = 0.0;
    for (int i = 0; i < 3; i++) {
        double part = (double)(colour >> (16 - 8 * i) & 0xffU) / 255.0;
        sum += weight[i] * (part <= 0.03928 ? part / 12.92 : pow((part + 0.055) / 1.055, 2.4));
    }
    return sum;
}

double paint_contrast(unsigned one, unsigned other)
{
    double a = luminance(one), b = luminance(other);
    return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

unsigned paint_text(enum paint paint)
{
    const unsigned dark = 0x111111, light = 0xffffff;
    unsigned ground = paint_rows[paint].colour;
    return paint_contrast(ground, dark) >= paint_contrast(ground, light) ? dark : light;
}

void paint_write(FILE *script)
{
    for (int i = 0; i < PAINTS; i++)
        fprintf(script, "c_%s = '#%06x'; d_%s = %d; p_%s = %d\n", paint_rows[i].name,
                paint_rows[i].colour, paint_rows[i].name, paint_rows[i].dash, paint_rows[i].name,
                paint_rows[i].marker);
}
