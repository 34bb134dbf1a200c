/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/picture.h - a list of pictures, drawn by gnuplot, whole or absent.
 *
 * Knows nothing of what is drawn: a picture is a name, which is that of its script in plots/ too
 * (of several that share one: its beginning, up to `_`), and figures that the asker writes before it.
 */
#ifndef TELL_PICTURE_H
#define TELL_PICTURE_H
#include "base/trouble.h"
#include "tell/finding.h"
#include <stdio.h>

struct picture {
    const char *name, *meaning; /* meaning: for those who can't see the SVG */
};

struct picture_set {
    const char *dir;            /* made if it isn't there */
    bool force;
    const struct picture *picture;
    int count;
    const void *what;           /* given to all below, with the row of the picture */
    void (*find)(char text[FINDING_TEXT], const void *what, int which); /* its title */
    bool (*write)(FILE *script, const void *what, int which, const char *finding,
                  struct trouble *why);
    bool (*wanted)(const void *what, int which); /* NULL = all are */
    int (*high)(const void *what, int which);   /* points; NULL = all have CHART_HEIGHT */
};

/* Draws each picture as .svg and .png, all of them before the first is put in place. Pictures already
 * there are refused without force; with it the older ones of those not wanted go. Fails with
 * TROUBLE_PROGRAM without gnuplot, TROUBLE_CREATE, TROUBLE_DEVICE. */
bool picture_draw(const struct picture_set *set, struct trouble *why);
/* Could it? Asked ahead of minutes of computing: with force, or where none of them is there already. */
bool picture_may(const struct picture_set *set, struct trouble *why);

/* For those who draw into other places: a script of plots/ by its name; a file whole in memory, ended
 * by a nought, which the caller frees; an SVG of gnuplot's with a title and a description of ours. */
void picture_script(FILE *script, const char *name);
char *picture_slurp(const char *path, size_t *size, struct trouble *why);
void picture_dress(FILE *out, const char *svg, const char *title, const char *meaning);
#endif
