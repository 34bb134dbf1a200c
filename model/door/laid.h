/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/laid.h - an amount as a gardener says it, and the kilograms, water and volume it means. */
#ifndef DOOR_LAID_H
#define DOOR_LAID_H
#include "door/keys.h"

enum laid_packing { LAID_AS_IT_COMES, LAID_LOOSE, LAID_LEVEL, LAID_HEAPED, LAID_PRESSED };
enum laid_state { LAID_TYPICAL, LAID_CRISP, LAID_WILTED, LAID_FRESH, LAID_SOAKED };
enum laid_size { LAID_USUAL_SIZE, LAID_WHOLE, LAID_CHOPPED };

struct laid {
    struct span amount; /* m3, kg, or parts of a standing pile */
    enum { LAID_VOLUME, LAID_MASS, LAID_PARTS } by;
    enum plan_vessel vessel;
    double vessel_m3;   /* to its brim; 0 where it isn't a vessel */
    enum laid_packing packing;
    enum laid_state state;
    enum laid_size size;
};

/* Reads `5 to 7 buckets heaped fresh chopped`; `parts` says whether parts count as a unit. */
bool laid_read(struct reader *reader, const struct tree_node *node, bool parts, struct laid *laid);
/* What an amount of an ingredient (not in parts) is in a pile; portion->stuff stays as it was. */
void laid_portion(const struct stuff *stuff, const struct laid *laid, struct plan_portion *portion);
/* Reads `2 buckets`, `40 L at 30 C`; a bucket of water is carried at four fifths unless `level`. */
bool laid_water(struct words *words, struct span *water_kg, double *pour_K);
/* One of five words of a squeezed handful, drier first (enum plan_squeeze). */
bool laid_squeeze(struct reader *reader, const struct tree_node *node, int *squeeze);
struct span laid_squeeze_share(int squeeze); /* water share it stands for */
extern const char *const laid_squeezes[PLAN_SQUEEZES];
/* Density without any air, kg/m3, at a water share. */
double laid_solid(const struct stuff *stuff, double water_share);
/* Free air left after a change of density or water. */
double laid_free_air(const struct stuff *stuff);
#endif
