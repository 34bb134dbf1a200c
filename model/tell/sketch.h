/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/sketch.h - one picture of any size and kind, in memory: for a page, a wall, a film.
 *
 * Scripts are those of plots/, below figures that the asker writes, as in tell/picture. Sizes are in
 * points of an SVG; a PDF or PNG has so many to the inch that its paper comes out right.
 */
#ifndef TELL_SKETCH_H
#define TELL_SKETCH_H
#include "base/trouble.h"
#include <stdbool.h>
#include <stdio.h>

enum sketch_kind { SKETCH_SVG, SKETCH_PNG, SKETCH_PDF, SKETCH_GIF };

struct sketch {
    const char *script;         /* of plots/, without its ending */
    const char *name;           /* of this picture: names of parts begin with it */
    const char *title, *meaning;/* for those who can't see it */
    enum sketch_kind kind;
    int width, height;          /* points */
    double type;                /* points: of the usual letters */
    double scale;               /* PNG: pixels a point */
    int frame_centis;           /* GIF: how long a frame stands, in 1/100 s */
    const void *what;           /* for `write` */
    bool (*write)(FILE *script, const void *what, struct trouble *why);
};

/* The picture's bytes, ended by a nought; the caller frees them. NULL with TROUBLE_PROGRAM without
 * gnuplot, TROUBLE_CREATE, TROUBLE_DEVICE, or what `write` says. */
char *sketch_draw(const struct sketch *sketch, size_t *size, struct trouble *why);
/* Writes an SVG into a page: names of its parts made its own, so that many can stand there. */
void sketch_embed(FILE *page, const char *svg, const char *name);
#endif
