/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/paint.h - the one table of what is drawn how: a thing keeps its colour in every picture.
 *
 * Colours are those of Okabe and Ito (2008, Color Universal Design) and a grey, told apart by most
 * colour-blind eyes. Black, blue, vermillion, green and, just, purple are dark enough for a bare
 * line on white at 3:1 (WCAG 2.1, 1.4.11); the light ones fill areas that have a dark outline.
 * Dashes, markers and names beside the lines carry the same in grey.
 */
#ifndef TELL_PAINT_H
#define TELL_PAINT_H
#include <stdio.h>

/* thing, words of a legend, colour, dash, marker; heat is named by the groups of pile/flux */
#define PAINTS_ROWS(ROW)                                                    \
    ROW(middle, "middle", 0xD55E00, 1, 7)                                   \
    ROW(deep_30cm, "30 cm in", 0x000000, 2, 5)                              \
    ROW(hand_deep, "a hand deep", 0x009E73, 4, 9)                           \
    ROW(outside, "outside air", 0x0072B2, 3, 6)                             \
    ROW(turn, "turned", 0x444444, 1, 13)                                    \
    ROW(watering, "watered", 0x0072B2, 3, 7)                                \
    ROW(other_deed, "other work", 0x444444, 1, 4)                           \
    ROW(water, "water", 0x0072B2, 1, 7)                                     \
    ROW(free_air, "free air", 0x000000, 2, 6)                               \
    ROW(oxygen, "oxygen", 0xCC79A7, 1, 5)                                   \
    ROW(decay, "decay", 0xD55E00, 1, 0)                                     \
    ROW(air, "air through the pile", 0x56B4E9, 1, 0)                        \
    ROW(vapour, "vapour through top and walls", 0x0072B2, 1, 0)             \
    ROW(top, "top to the air", 0x009E73, 1, 0)                              \
    ROW(sun_and_sky, "sun and sky", 0xF0E442, 1, 0)                         \
    ROW(walls, "walls", 0xE69F00, 1, 0)                                     \
    ROW(ground, "ground", 0x999999, 1, 0)                                   \
    ROW(rain_and_water, "rain and water", 0xCC79A7, 1, 0)                   \
    ROW(added, "material added", 0xFFFFFF, 1, 0)                            \
    ROW(humus_and_ash, "humus and ash", 0x999999, 1, 0)                     \
    ROW(lignin, "lignin", 0xE69F00, 1, 0)                                   \
    ROW(slow, "slow (cellulose)", 0x009E73, 1, 0)                           \
    ROW(microbes, "microbes", 0xCC79A7, 1, 0)                               \
    ROW(protein_fat, "protein and fat", 0xD55E00, 1, 0)                     \
    ROW(fast, "fast (sugars, starch)", 0xF0E442, 1, 0)

enum paint {
#define ROW(name, label, colour, dash, marker) PAINT_##name,
    PAINTS_ROWS(ROW)
#undef ROW
    PAINTS
};

struct paint_row {
    const char *name, *label;
    unsigned colour; /* 0xRRGGBB */
    int dash, marker; /* gnuplot's numbers */
};

extern const struct paint_row paint_rows[PAINTS];

int paint_find(const char *name);       /* -1 when there is none */
/* Of one line among many: the colours dark enough for lines, each with dashes and a marker; sixty pairs
 * of colour and marker. */
struct paint_row paint_nth(int nth);
unsigned paint_text(enum paint paint);  /* of a text upon it: the better of near-black and white */
double paint_contrast(unsigned one, unsigned other); /* WCAG 2.1 contrast ratio, 1 to 21 */
/* Writes colour, dash and marker of every row as variables of a script: c_NAME, d_NAME, p_NAME. */
void paint_write(FILE *script);
#endif
