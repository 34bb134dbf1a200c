/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/skies.c - climates for a gardener without figures.
 *
 * All are invented: none is the record of a station. Each is a yearly wave put in by hand and kept
 * plausible: nights below days, the warmest month in July or August and the coldest in December to
 * February, wet days of a few millimetres (up to 12 in summer storms). An answer that stands on one
 * of them says so. Northern months; a southern garden reads them half a year on.
 */
#include "know/skies.h"
#include "base/near.h"

const struct skies skies_rows[] = {
    {"cold winters", "inland: frost from November to March, warm summers, rain all year",
     {-6, -5, -1, 3, 8, 11, 13, 13, 9, 4, 0, -4},
     {1, 3, 9, 14, 19, 22, 25, 24, 19, 13, 6, 2},
     {52, 47, 56, 64, 88, 104, 108, 99, 74, 60, 59, 55},
     {10, 9, 10, 11, 13, 13, 12, 12, 10, 9, 10, 10},
     1.8, 420, false},
    {"mild and wet", "near the sea: frost is rare and short, summers are cool, rain all year",
     {2, 2, 3, 5, 8, 11, 13, 13, 11, 8, 5, 3},
     {8, 8, 11, 13, 16, 19, 21, 21, 18, 15, 11, 9},
     {112, 84, 80, 66, 64, 70, 73, 86, 88, 118, 120, 118},
     {18, 14, 15, 13, 13, 12, 12, 13, 13, 17, 18, 18},
     3.2, 40, true},
    {"dry upland", "high and dry: cold nights all year, strong sun, storms late in summer",
     {-9, -7, -4, 0, 5, 10, 14, 13, 8, 1, -5, -9},
     {7, 10, 14, 19, 24, 30, 32, 30, 26, 20, 12, 7},
     {12, 12, 18, 16, 20, 22, 54, 58, 36, 26, 15, 14},
     {4, 4, 5, 4, 4, 4, 9, 10, 6, 4, 4, 4},
     2.6, 1900, false},
    {"long winter", "far north: snow from November to April, a short green summer",
     {-15, -15, -10, -3, 3, 8, 11, 9, 5, 0, -6, -12},
     {-7, -6, 0, 6, 14, 19, 22, 19, 13, 6, -1, -5},
     {36, 28, 30, 31, 40, 58, 74, 76, 60, 54, 47, 41},
     {10, 8, 8, 7, 8, 10, 11, 12, 11, 11, 12, 11},
     2.2, 150, false},
    {"warm and humid", "long hot summers with heavy rain, short winters with some frost",
     {1, 3, 6, 10, 15, 19, 22, 21, 18, 11, 6, 2},
     {12, 14, 18, 23, 27, 31, 33, 32, 29, 23, 18, 13},
     {104, 102, 115, 90, 92, 108, 126, 110, 98, 82, 90, 102},
     {10, 9, 10, 8, 9, 10, 12, 10, 9, 7, 8, 10},
     2.0, 120, false},
    {"dry summers", "mild wet winters near the sea, hardly any rain from June to August",
     {4, 5, 7, 9, 12, 16, 18, 19, 16, 12, 8, 5},
     {13, 14, 17, 20, 24, 28, 31, 31, 27, 22, 17, 14},
     {82, 72, 60, 46, 26, 8, 3, 5, 28, 68, 88, 92},
     {10, 9, 8, 7, 4, 2, 1, 1, 4, 7, 9, 10},
     2.4, 90, true},
};

const int skies_count = sizeof skies_rows / sizeof skies_rows[0];

int skies_find(const char *name)
{
    for (int row = 0; row < skies_count; row++)
        if (near_same(name, skies_rows[row].name))
            return row;
    return -1;
}
