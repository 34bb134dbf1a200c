/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/band.h - what many members say of one quantity: the median, and where the middle eight in ten
 * lie.
 */
#ifndef MANY_BAND_H
#define MANY_BAND_H
#include "know/stuff.h"

/* Median, 10 % and 90 % points of so many values, which it sorts; interpolated between order
 * statistics so that another draw lies between the ends with 8 chances in 10, be the values many or
 * few (Hyndman and Fan 1996, definition 6; exactly so where chances are even between neighbours). Of
 * fewer than nine they are the least and the most, which hold less. NAN stands for "not within the
 * season" and lies after every number: an end among them is NAN. */
struct span band_of(double *value, int count);
/* Ends of the range that holds a chance with 80 %, seen so many times in so many members (Wilson
 * 1927, J. Am. Stat. Assoc. 22, 209-212); its middle is what was seen. */
struct span band_chance(int seen, int members);
#endif
