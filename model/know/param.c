/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/param.c - the table of numbers a season depends on: rows, lookup by name, and setting one.
 *
 * Everything here is made from know/param.def; nothing names a parameter of its own.
 */
#include "know/param.h"
#include "base/near.h"
#include <math.h>
#include <stdbool.h>
#include <string.h>

const struct param_row param_rows[] = {
#define PARAM(name, unit, usual, least, most, spread, mark, source, meaning)                      \
    {#name, unit, usual, least, most, 0, PARAM_##spread, mark, source, meaning,                   \
     offsetof(struct param, name)},
#define FITTED(name, unit, usual, within, least, most, mark, source, meaning)                     \
    {#name, unit, usual, least, most, within, PARAM_LOGEVEN, mark, source, meaning,               \
     offsetof(struct param, name)},
#include "know/param.def"
#undef PARAM
};
const int param_count = sizeof param_rows / sizeof param_rows[0];

/* the names alone, as base/near wants them */
static const char *const names[] = {
#define PARAM(name, unit, usual, least, most, spread, mark, source, meaning) #name,
#include "know/param.def"
#undef PARAM
};

static double *place(struct param *param, const struct param_row *row)
{
    return (double *)((char *)param + row->offset);
}

struct param param_usual(void)
{
    struct param param = {0};
    for (int i = 0; i < param_count; i++)
        *place(&param, &param_rows[i]) = param_rows[i].usual;
    return param;
}

/* A name may be written with spaces, hyphens or underscores, in capitals or not. */
static char plain(char letter)
{
    if (letter == ' ' || letter == '-')
        return '_';
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

static bool same(const char *one, const char *other)
{
    while (*one && plain(*one) == plain(*other)) {
        one++;
        other++;
    }
    return plain(*one) == plain(*other);
}

const struct param_row *param_find(const char *name)
{
    for (int i = 0; i < param_count; i++)
        if (same(name, param_rows[i].name))
            return &param_rows[i];
    return NULL;
}

const char *param_nearest(const char *name)
{
    char word[NEAR_LONGEST + 1];
    int length = 0;
    for (; length < NEAR_LONGEST && name[length]; length++)
        word[length] = plain(name[length]);
    word[length] = '\0';
    return near_name(word, names, param_count);
}

bool param_set(struct param *param, const char *name, double value, struct trouble *why)
{
    const struct param_row *row = param_find(name);
    if (!row) {
        const char *nearest = param_nearest(name);
        if (nearest)
            return trouble_set(why, TROUBLE_USAGE,
                               "there is no parameter '%.60s'; the nearest is '%s'", name, nearest);
        return trouble_set(why, TROUBLE_USAGE,
                           "there is no parameter '%.60s'; 'midden list parameters' shows them all",
                           name);
    }
    bool plain = !strcmp(row->unit, "1"); /* a bare number has no unit to print */
    if (!(value >= row->least && value <= row->most)) /* written so that NaN fails too */
        return trouble_set(why, TROUBLE_USAGE,
                           "%s = %g is outside its range; it may be %g to %g%s%s", row->name, value,
                           row->least, row->most, plain ? "" : " ", plain ? "" : row->unit);
    *place(param, row) = value;
    return true;
}

void param_put(struct param *param, const struct param_row *row, double value)
{
    *place(param, row) = value;
}

double param_get(const struct param *param, const struct param_row *row)
{
    return *(const double *)((const char *)param + row->offset);
}

const struct param_value param_coarser[PARAM_COARSER] = {
    {"tolerance_K", 0.25}, {"rim_m", 0.03}, {"mesh_growth", 1.4}, {"row_most_m", 0.08},
    {"column_growth", 2}};
