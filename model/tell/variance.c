/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/variance.c - see tell/variance.h. */
#include "tell/variance.h"
#include "tell/json.h"
#include "tell/phrase.h"
#include <math.h>

static const double WORTH_NAMING = 0.02;

/* The row whose total index is greatest and that has a name of its own; -1 = none stands out. */
static int foremost(const struct sense *sense, int answer)
{
    int best = -1;
    for (int r = 0; r < sense->rows - 1; r++)
        if (sense->index[r][answer].total.mid > WORTH_NAMING &&
            (best < 0 || sense->index[r][answer].total.mid > sense->index[best][answer].total.mid))
            best = r;
    return best;
}

static void say_first(FILE *out, const struct sense *sense)
{
    int row = sense->variance[SENSE_PEAK] > 0 ? foremost(sense, SENSE_PEAK) : -1;
    if (row < 0)
        phrase_line(out, NULL, "No single unknown stands out.");
    else
        phrase_line(out, NULL, "How hot it gets hangs most on this: %s. It carries about %.0f %% of the "
                    "variance together with what it works with, %.0f %% by itself.",
                    sense->name[row], 100 * fmin(1, sense->index[row][SENSE_PEAK].total.mid),
                    100 * fmax(0, sense->index[row][SENSE_PEAK].first.mid));
}

static void say_index(FILE *out, const struct span *index)
{
    fprintf(out, "%5.2f (%.2f to %.2f)", fmax(0, index->mid), fmax(0, index->low), fmax(0, index->high));
}

/* Rows by total index, greatest first; the rest together stands last. */
static void say_table(FILE *out, const struct sense *sense, int answer)
{
    bool said[SENSE_TELLING + 1] = {false};
    fprintf(out, "\n%s\n%-44s %-20s %s\n", sense_names[answer], "", "by itself", "with what it works with");
    for (int n = 0; n < sense->rows; n++) {
        int next = -1;
        for (int r = 0; r < sense->rows - 1; r++)
            if (!said[r] && (next < 0 || sense->index[r][answer].total.mid >
                                             sense->index[next][answer].total.mid))
                next = r;
        if (next < 0 || sense->index[next][answer].total.mid < WORTH_NAMING)
            next = sense->rows - 1;
        said[next] = true;
        fprintf(out, "%-44.44s", sense->name[next]);
        say_index(out, &sense->index[next][answer].first);
        fputs("  ", out);
        say_index(out, &sense->index[next][answer].total);
        fputc('\n', out);
        if (next == sense->rows - 1)
            return;
    }
}

void variance_text(FILE *out, const struct sense *sense, const char *scenario, const char *plan)
{
    say_first(out, sense);
    phrase_line(out, "of", "%s, %s: %d unknowns, %d seasons in sets of %d; shares of the variance "
                "(Sobol), in brackets where 8 in 10 resampled sets lie", scenario, plan, sense->unknowns,
                sense->seasons, sense->members);
    for (int a = 0; a < SENSE_ANSWERS; a++)
        if (sense->variance[a] > 0)
            say_table(out, sense, a);
        else
            fprintf(out, "\n%s: the same for all\n", sense_names[a]);
}

static json_t *row_object(const struct sense *sense, int row, int answer)
{
    json_t *object = json_object();
    json_put_text(object, "unknown", sense->name[row]);
    json_put_span(object, "first", sense->index[row][answer].first, 1);
    json_put_span(object, "total", sense->index[row][answer].total, 1);
    return object;
}

bool variance_json(FILE *out, const struct sense *sense, const char *scenario, const char *plan,
                   struct trouble *why)
{
    json_t *object = json_object(), *answers = json_array();
    json_put_text(object, "scenario", scenario);
    json_put_text(object, "plan", plan);
    json_put(object, "members", json_integer(sense->members));
    json_put(object, "seasons", json_integer(sense->seasons));
    json_put(object, "unknowns", json_integer(sense->unknowns));
    for (int a = 0; a < SENSE_ANSWERS; a++) {
        json_t *answer = json_object(), *rows = json_array();
        json_put_text(answer, "answer", sense_names[a]);
        json_put_number(answer, "variance", sense->variance[a]);
        for (int r = 0; r < sense->rows && sense->variance[a] > 0; r++)
            json_array_append_new(rows, row_object(sense, r, a));
        json_put(answer, "indices", rows);
        json_array_append_new(answers, answer);
    }
    json_put(object, "sensitivity", answers);
    return json_write(out, object, why);
}
