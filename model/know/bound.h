/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/bound.h - what closes a pile off: walls, floors, lids and covers. */
#ifndef KNOW_BOUND_H
#define KNOW_BOUND_H

enum bound_kind { BOUND_WALL, BOUND_FLOOR, BOUND_LID, BOUND_COVER };

struct bound {
    const char *name;           /* the word of a scenario */
    enum bound_kind kind;
    double open_share;          /* of the area, for air and vapour */
    double heat_m2K_per_W;      /* resistance of what it is made of, without the air film;
                                 * of a cover: per metre of its thickness */
    double rain_share;          /* of the rain that passes */
    double sun_share;           /* of the sun taken up by its outer face */
    const char *source;         /* with its mark */
    const char *meaning;
};

extern const struct bound bound_rows[];
extern const int bound_count;
/* Row of a name of a kind, -1 when there is none. */
int bound_find(const char *name, enum bound_kind kind);
#endif
