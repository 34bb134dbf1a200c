/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/figures.c - see tests/field/figures.h. */
#include "field/figures.h"
#include "door/scenario.h"
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 16, LINE = 4096 };

/* Parts a line at its commas, quotes taken off; returns how many fields. */
static int split(char *line, char *field[FIELDS])
{
    int count = 0;
    char *at = line;
    while (count < FIELDS) {
        field[count++] = at;
        char *to = at;
        bool quoted = *at == '"';
        for (at += quoted; *at && (quoted ? *at != '"' : *at != ','); at++)
            *to++ = *at;
        if (quoted && *at)
            at++;
        bool more = *at == ',';
        if (more)
            at++;
        *to = '\0';
        if (!more)
            break;
    }
    return count;
}

/* A text into a field of so many bytes, cut where it is longer. */
static void keep(char *to, size_t size, const char *text)
{
    size_t length = strlen(text);
    length = length < size ? length : size - 1;
    memcpy(to, text, length);
    to[length] = '\0';
}

static double number(const char *text)
{
    char *end;
    double value = strtod(text, &end);
    return end == text ? NAN : value;
}

static bool alike(const struct figures_run *a, const struct figures_run *b)
{
    return strcmp(a->file, b->file) == 0 && strcmp(a->plan, b->plan) == 0 && a->held_K == b->held_K &&
           a->held_water_share == b->held_water_share && a->held_oxygen_share == b->held_oxygen_share;
}

static bool read_run(const char *text, struct figures_run *run)
{
    char copy[256];
    keep(copy, sizeof copy, text);
    *run = (struct figures_run){0};
    char *held = strchr(copy, '@');
    if (held)
        *held++ = '\0';
    while (held) {
        char *next = strchr(held, '@'), *unit;
        if (next)
            *next++ = '\0';
        run->swept = strtod(held, &unit);
        if (strcmp(unit, "C") == 0)
            run->held_K = run->swept + 273.15;
        else if (strcmp(unit, "%water") == 0)
            run->held_water_share = run->swept / 100;
        else if (strcmp(unit, "%oxygen") == 0)
            run->held_oxygen_share = run->swept / 100;
        else
            return false;
        held = next;
    }
    char *plan = strchr(copy, '#');
    if (plan)
        *plan++ = '\0';
    keep(run->file, sizeof run->file, copy);
    if (plan)
        keep(run->plan, sizeof run->plan, plan);
    return *run->file != '\0';
}

/* The row of a run, added if it is new; -1 where it can't be read. */
static int run_row(struct experiment *e, const char *text)
{
    struct figures_run run;
    if (!read_run(text, &run))
        return -1;
    for (int i = 0; i < e->runs; i++)
        if (alike(&run, &e->run[i]))
            return i;
    if (e->runs == FIGURES_EXPERIMENT_RUNS)
        return -1;
    e->run[e->runs] = run;
    return e->runs++;
}

/* One run whose plan may have spaces in its name, or several without, parted by spaces. */
static bool read_runs(struct experiment *e, struct figure *f, const char *text)
{
    char copy[LINE];
    const char *hash = strchr(text, '#');
    bool list = hash && strchr(hash + 1, '#');
    keep(copy, sizeof copy, text);
    for (char *at = list ? strtok(copy, " ") : copy; at; at = list ? strtok(NULL, " ") : NULL) {
        int row = f->runs < FIGURES_RUNS ? run_row(e, at) : -1;
        if (row < 0)
            return false;
        f->run[f->runs++] = row;
    }
    return f->runs > 0;
}

static bool read_figure(struct experiment *e, char *line)
{
    char *field[FIELDS] = {0};
    struct figure *f = &e->figure[e->figures];
    if (e->figures == FIGURES_MOST || split(line, field) < 13)
        return false;
    *f = (struct figure){.low = number(field[2]), .high = number(field[3]),
                         .pass_low = number(field[4]), .pass_high = number(field[5]),
                         .from = number(field[8]), .to = number(field[9]),
                         .level = number(field[11]), .other = -1};
    keep(f->quantity, sizeof f->quantity, field[0]);
    keep(f->unit, sizeof f->unit, field[1]);
    keep(f->measure, sizeof f->measure, field[6]);
    keep(f->note, sizeof f->note, field[12]);
    if (!read_runs(e, f, field[7]) || (isnan(f->pass_low) && isnan(f->pass_high)) ||
        f->pass_low > f->pass_high)
        return false;
    if (strncmp(field[10], "minus ", 6) == 0) {
        f->against = FIGURES_MINUS;
        f->other = run_row(e, field[10] + 6);
    } else if (strncmp(field[10], "over ", 5) == 0) {
        f->against = FIGURES_OVER;
        f->other = run_row(e, field[10] + 5);
    } else if (*field[10]) {
        return false;
    }
    e->figures++;
    return f->against == FIGURES_ALONE || f->other >= 0;
}

/* "run,day,measure,value", or "day,middle_c" of the first figure's run. */
static bool read_point(struct experiment *e, char *line, bool plain)
{
    char *field[FIELDS] = {0};
    struct figures_point *p = &e->point[e->points];
    if (e->points == FIGURES_POINTS || split(line, field) < (plain ? 2 : 4))
        return false;
    *p = (struct figures_point){.run = plain ? e->figure[0].run[0] : run_row(e, field[0])};
    p->day = number(field[plain ? 0 : 1]);
    p->value = number(field[plain ? 1 : 3]);
    keep(p->measure, sizeof p->measure, plain ? "middle_c" : field[2]);
    e->points++;
    return p->run >= 0 && !isnan(p->day) && !isnan(p->value);
}

static void append(char *to, size_t size, const char *before, const char *text)
{
    size_t used = strlen(to);
    keep(to + used, size - used, used ? before : "");
    used = strlen(to);
    keep(to + used, size - used, text);
}

static void read_note(struct experiment *e, const char *line)
{
    if (strncmp(line, "# source: ", 10) == 0)
        append(e->source, sizeof e->source, "; ", line + 10);
    if (strncmp(line, "# left out: ", 12) == 0)
        append(e->left_out, sizeof e->left_out, "; ", line + 12);
}

/* Every line that is neither note nor header; the header says which kind of file it is. */
static bool read_file(struct experiment *e, const char *path, bool course, struct trouble *why)
{
    char line[LINE];
    FILE *in = fopen(path, "r");
    if (!in)
        return course || trouble_set(why, TROUBLE_ABSENT, "%s can't be opened", path);
    bool header = false, plain = false, good = true;
    for (int n = 1; good && fgets(line, sizeof line, in); n++) {
        line[strcspn(line, "\r\n")] = '\0';
        if (line[0] == '#' && !course)
            read_note(e, line);
        if (line[0] == '#' || !line[0])
            continue;
        if (!header) {
            header = true;
            plain = strncmp(line, "day,", 4) == 0;
            continue;
        }
        if (!(course ? read_point(e, line, plain) : read_figure(e, line)))
            good = trouble_set(why, TROUBLE_INPUT, "%s:%d: this line can't be understood", path, n);
    }
    fclose(in);
    return good;
}

bool figures_read(struct experiment *e, const char *folder, const char *id, struct trouble *why)
{
    char path[512];
    *e = (struct experiment){0};
    keep(e->id, sizeof e->id, id);
    snprintf(path, sizeof path, "%s/%s/figures.csv", folder, id);
    if (!read_file(e, path, false, why))
        return false;
    snprintf(path, sizeof path, "%s/%s/course.csv", folder, id);
    return read_file(e, path, true, why);
}

static int by_name(const void *a, const void *b)
{
    return strcmp(a, b);
}

int figures_find(const char *folder, const char *kinds, const char *without,
                 char id[FIGURES_FOLDERS][8])
{
    int count = 0;
    DIR *dir = opendir(folder);
    for (struct dirent *d; dir && (d = readdir(dir));)
        if (strlen(d->d_name) == 3 && strchr(kinds, d->d_name[0]) && count < FIGURES_FOLDERS &&
            !(without && strstr(without, d->d_name)))
            strcpy(id[count++], d->d_name);
    if (dir)
        closedir(dir);
    qsort(id, (size_t)count, sizeof id[0], by_name);
    return count;
}

bool figures_open(struct scenario *scenario, int *plan, const char *folder, const struct experiment *e,
                  const struct figures_run *run, struct trouble *why)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s/%s.yaml", folder, e->id, run->file);
    if (!scenario_read(scenario, path, why))
        return false;
    struct plan_bay *home = &scenario->bay[scenario->home];
    if (run->held_K > 0)
        home->held_K = run->held_K;
    if (run->held_water_share > 0)
        home->held_water_share = run->held_water_share;
    if (run->held_oxygen_share > 0)
        home->held_oxygen_share = run->held_oxygen_share;
    for (*plan = 0; *plan < scenario->plans; ++*plan)
        if (!*run->plan || strcmp(scenario->plan[*plan].name, run->plan) == 0)
            return true;
    return trouble_set(why, TROUBLE_INPUT, "%s has no plan %s", path, run->plan);
}

bool figures_met(const struct figure *f, double value)
{
    return !isnan(value) && !(value < f->pass_low) && !(value > f->pass_high);
}
