/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/fitted.c - see tests/field/fitted.h.
 *
 *     # folds: x02=1 x07=1 ...
 *     name,fitted,usual,fold1,fold2,fold3,fold4,fold5,within
 *
 * `within` is written for who sets the table, and not read.
 */
#include "field/fitted.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void read_folds(struct fitted *f, char *line)
{
    for (char *word = strtok(line, " \n"); word; word = strtok(NULL, " \n")) {
        char *equals = strchr(word, '=');
        if (!equals || equals - word > 7 || f->ids == FITTED_IDS)
            continue;
        memcpy(f->id[f->ids], word, (size_t)(equals - word));
        f->id[f->ids][equals - word] = '\0';
        f->fold_of[f->ids++] = atoi(equals + 1) - 1;
    }
}

bool fitted_read(struct fitted *f, const char *path)
{
    char line[4096], name[64];
    double usual, *fold;
    FILE *in = fopen(path, "r");
    bool good = in != NULL;
    *f = (struct fitted){0};
    while (good && fgets(line, sizeof line, in)) {
        if (strncmp(line, "# folds:", 8) == 0)
            read_folds(f, line + 8);
        if (line[0] == '#' || strncmp(line, "name,", 5) == 0)
            continue;
        fold = f->fold[f->rows];
        good = f->rows < FITTED_ROWS &&
               sscanf(line, "%63[^,],%lf,%lf,%lf,%lf,%lf,%lf,%lf", name, &f->all[f->rows], &usual,
                      &fold[0], &fold[1], &fold[2], &fold[3], &fold[4]) == 8 &&
               (f->row[f->rows] = param_find(name)) != NULL;
        f->rows += good;
    }
    if (in)
        fclose(in);
    return good && f->rows > 0;
}

struct param fitted_without(const struct fitted *f, const char *id)
{
    struct param param = param_usual();
    int fold = -1;
    for (int i = 0; i < f->ids; i++)
        if (strcmp(f->id[i], id) == 0)
            fold = f->fold_of[i];
    for (int r = 0; r < f->rows; r++) {
        double value = fold >= 0 && fold < FITTED_FOLDS ? f->fold[r][fold] : f->all[r];
        param_put(&param, f->row[r], fmax(f->row[r]->least, fmin(f->row[r]->most, value)));
    }
    return param;
}

double fitted_within(const double fold[FITTED_FOLDS])
{
    double mean = 0, squares = 0;
    for (int k = 0; k < FITTED_FOLDS; k++)
        mean += log(fold[k]) / FITTED_FOLDS;
    for (int k = 0; k < FITTED_FOLDS; k++)
        squares += pow(log(fold[k]) - mean, 2);
    double error = sqrt((FITTED_FOLDS - 1.0) / FITTED_FOLDS * squares);
    return exp(sqrt(3) * error); /* half the width of an even distribution */
}
