/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/field/tried.c - see tests/field/tried.h. A line of the file is a trial: origin, places,
 * figures, each with all its digits. */
#include "field/tried.h"
#include "base/draw.h"
#include "many/crew.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double SPREAD = 0.5; /* of the prior, in places */

/* ---- constants ---- */

static void hold(struct tried *t, const struct param_row *row, double value)
{
    int at = 0;
    while (at < t->held && t->hold[at].row != row)
        at++;
    if (at == TRIED_HELD)
        return; /* there are fewer rows than places */
    t->hold[at] = (struct tried_constant){row, value};
    t->held += at == t->held;
}

bool tried_hold(struct tried *t, const char *name, double value, struct trouble *why)
{
    struct param check = param_usual();
    if (!param_set(&check, name, value, why))
        return false;
    for (int i = 0; i < t->fitted; i++)
        if (t->fit[i].row == param_find(name))
            t->fit[i--] = t->fit[--t->fitted];
    hold(t, param_find(name), value);
    return true;
}

static bool listed(const char *name, const char *const *names, int count)
{
    for (int i = 0; i < count; i++)
        if (strcmp(name, names[i]) == 0)
            return true;
    return false;
}

bool tried_begin(struct tried *t, const struct trial *trial, const char *const *names, int count,
                 const char *prior, struct trouble *why)
{
    char line[256], name[64];
    double value;
    FILE *in = fopen(prior, "r");
    *t = (struct tried){.trial = trial};
    if (!in)
        return trouble_set(why, TROUBLE_INPUT, "%s can't be read", prior);
    /* the mesh and tolerance of a fit are coarser than a forecast's, for speed */
    for (int i = 0; i < PARAM_COARSER; i++)
        hold(t, param_find(param_coarser[i].name), param_coarser[i].value);
    while (fgets(line, sizeof line, in)) {
        if (sscanf(line, "%63[^,],%lf", name, &value) != 2 || !param_find(name))
            continue;
        const struct param_row *row = param_find(name);
        value = fmax(row->least, fmin(row->most, value));
        if (listed(name, names, count) && t->fitted < EMULATE_INPUTS)
            t->fit[t->fitted++] = (struct tried_constant){row, value};
        else
            hold(t, row, value);
    }
    fclose(in);
    return t->fitted == count ||
           trouble_set(why, TROUBLE_INPUT, "%s lacks %d of the %d constants to be fitted", prior,
                       count - t->fitted, count);
}

double tried_prior(double chance)
{
    static const double BEYOND = 0.0228; /* what a normal distribution has beyond two deviations */
    return SPREAD * draw_quantile(BEYOND + (1 - 2 * BEYOND) * chance);
}

double tried_stray(const struct tried *t, const double place[EMULATE_INPUTS])
{
    double sum = 0;
    for (int i = 0; i < t->fitted; i++)
        sum += 0.5 * pow(place[i] / SPREAD, 2);
    return sum;
}

double tried_value(const struct tried_constant *c, double place)
{
    double end = place < 0 ? c->row->least : c->row->most, share = fabs(place);
    double value = c->row->spread == PARAM_LOGEVEN ? c->centre * pow(end / c->centre, share)
                                                     : c->centre + share * (end - c->centre);
    return fmax(c->row->least, fmin(c->row->most, value));
}

struct param tried_param(const struct tried *t, const double *place)
{
    struct param param = param_usual();
    for (int i = 0; i < t->held; i++)
        param_put(&param, t->hold[i].row, t->hold[i].centre);
    for (int i = 0; i < t->fitted; i++)
        param_put(&param, t->fit[i].row, tried_value(&t->fit[i], place[i]));
    return param;
}

/* ---- trials ---- */

static bool room_for(struct tried *t, int more, struct trouble *why)
{
    if (t->trials + more > TRIED_MOST)
        return trouble_set(why, TROUBLE_INPUT, "more than %d trials: remove their file to begin anew",
                           TRIED_MOST);
    for (int i = t->trials; i < t->trials + more; i++)
        if (!t->value[i] && !(t->value[i] = calloc((size_t)t->trial->figures, sizeof(double))))
            return trouble_set(why, TROUBLE_MEMORY, "no memory for another trial");
    return true;
}

static void write_row(struct tried *t, int row)
{
    fprintf(t->file, "%d", t->origin[row]);
    for (int i = 0; i < t->fitted; i++)
        fprintf(t->file, ",%.17g", t->place[row][i]);
    for (int f = 0; f < t->trial->figures; f++)
        fprintf(t->file, ",%.17g", t->value[row][f]);
    fputc('\n', t->file);
}

/* Those of four lanes that are `kept`, from the first. */
static bool run_four(struct tried *t, int kept, const int origin[TRIAL_WIDE],
                     const double (*place)[EMULATE_INPUTS], struct trouble *why)
{
    struct param param[TRIAL_WIDE];
    if (!room_for(t, TRIAL_WIDE, why))
        return false;
    for (int i = 0; i < TRIAL_WIDE; i++) {
        t->origin[t->trials + i] = origin[i];
        memcpy(t->place[t->trials + i], place[i], sizeof place[i]);
        param[i] = tried_param(t, place[i]);
    }
    trial_evaluate(t->trial, param, t->value + t->trials, crew_threads());
    t->trials += kept;
    return true;
}

bool tried_run(struct tried *t, const int origin[TRIAL_WIDE],
               const double (*place)[EMULATE_INPUTS], struct trouble *why)
{
    if (!run_four(t, TRIAL_WIDE, origin, place, why))
        return false;
    for (int i = TRIAL_WIDE; i > 0; i--)
        write_row(t, t->trials - i);
    fflush(t->file);
    return true;
}

bool tried_run_medians(struct tried *t, int learner, const double place[EMULATE_INPUTS],
                       struct trouble *why)
{
    if (!room_for(t, 1, why))
        return false;
    struct param param = tried_param(t, place);
    t->origin[t->trials] = TRIED_MEDIANS + learner;
    memcpy(t->place[t->trials], place, sizeof t->place[0]);
    trial_medians(t->trial, &param, t->value[t->trials], crew_threads());
    write_row(t, t->trials++);
    fflush(t->file);
    return true;
}

/* A trial's line into the row after the last; false where it isn't whole. */
static bool read_row(struct tried *t, char *line)
{
    int row = t->trials;
    char *at = line, *end = line;
    for (int i = -1; i < t->fitted + t->trial->figures; i++, at = end + (*end == ',')) {
        double number = strtod(at, &end);
        if (end == at)
            return false;
        if (i < 0)
            t->origin[row] = (int)number;
        else if (i < t->fitted)
            t->place[row][i] = number;
        else
            t->value[row][i - t->fitted] = number;
    }
    return *at == '\n';
}

static bool same_figures(const struct tried *t, int a, int b)
{
    for (int f = 0; f < t->trial->figures; f++)
        if (!(t->value[a][f] == t->value[b][f] || (isnan(t->value[a][f]) && isnan(t->value[b][f]))))
            return false;
    return true;
}

/* What the places of a file mean: origins, constants with least, centre and most, figures. */
static void head_of(const struct tried *t, char *head, size_t room)
{
    size_t at = (size_t)snprintf(
        head, room, "# origin (%d prior, %d shared design, from %d on medians, else the learner); places of",
        TRIED_PRIOR, TRIED_DESIGN, TRIED_MEDIANS);
    for (int i = 0; i < t->fitted && at < room; i++)
        at += (size_t)snprintf(head + at, room - at, " %s %.4g/%.4g/%.4g", t->fit[i].row->name,
                               t->fit[i].row->least, t->fit[i].centre, t->fit[i].row->most);
    for (int i = 0; i < t->trial->experiments && at < room; i++)
        at += (size_t)snprintf(head + at, room - at, "%s %s:%d", i ? "" : "; figures of",
                               t->trial->experiment[i]->id, t->trial->experiment[i]->figures);
    if (at < room)
        snprintf(head + at, room - at, "\n");
}

/* The trials of a file that are of this model, after the prior, which stands in row 0. */
static void read_file(struct tried *t, FILE *in, const char *head, struct trouble *why)
{
    enum { LONGEST = 1 << 16 };
    char *line = calloc(LONGEST, 1);
    bool ours = line && fgets(line, LONGEST, in) && strcmp(line, head) == 0 &&
                fgets(line, LONGEST, in) && room_for(t, 1, why) && read_row(t, line) &&
                same_figures(t, 0, 1);
    while (ours && fgets(line, LONGEST, in) && room_for(t, 1, why))
        t->trials += read_row(t, line); /* the last may be cut off */
    free(line);
}

bool tried_resume(struct tried *t, const char *path, struct trouble *why)
{
    const double place[TRIAL_WIDE][EMULATE_INPUTS] = {{0}};
    const int origin[TRIAL_WIDE] = {TRIED_PRIOR, TRIED_PRIOR, TRIED_PRIOR, TRIED_PRIOR};
    char head[4096] = "";
    FILE *in = fopen(path, "r");
    head_of(t, head, sizeof head);
    bool good = run_four(t, 1, origin, place, why);
    if (in && good)
        read_file(t, in, head, why);
    if (in)
        fclose(in);
    if (!good || !(t->file = fopen(path, "w")))
        return trouble_set(why, TROUBLE_CREATE, "%s can't be written", path);
    fputs(head, t->file);
    for (int row = 0; row < t->trials; row++)
        write_row(t, row);
    fflush(t->file);
    return true;
}

void tried_free(struct tried *t)
{
    for (int i = 0; i < TRIED_MOST; i++)
        free(t->value[i]);
    if (t->file)
        fclose(t->file);
    t->file = NULL;
}
