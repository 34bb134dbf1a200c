/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/film.c - see tell/film.h. */
#include "tell/film.h"
#include "tell/gnuplot.h"
#include "tell/section.h"
#include "tell/sketch.h"

enum { WIDE = 560, HIGH = 620 };

int film_days(int day[FILM_MOST], int days)
{
    int count = 0, step = (days + FILM_MOST - 1) / FILM_MOST;
    for (int i = 1; i <= days; i += step > 0 ? step : 1)
        day[count++] = i;
    return count;
}

static bool figures(FILE *script, const void *what, struct trouble *why)
{
    const struct plates *plates = what;
    const struct record *central = plates->central;
    struct chart chart = {script, central, plates->scenario,
                          plates->scenario->plan[plates->plan].name, NULL};
    if (!plates_course(script, plates, why))
        return false;
    fputs("dated = '", script);
    plates_tics(script, plates->scenario->start, plates->typical->days, 5);
    fputs("'\n", script);
    fprintf(script, "array DAY[%d]\n", central->pictures);
    for (int i = 0; i < central->pictures; i++)
        fprintf(script, "DAY[%d] = %d\n", i + 1, central->picture[i].day);
    fprintf(script, "full = %d\n", HIGH);
    chart_text(script, "name", plates->scenario->name);
    return section_some(&chart, 0, central->pictures, why);
}

char *film_draw(const struct plates *plates, size_t *size, struct trouble *why)
{
    /* the room of plots/film.gp, of which a low pile needs less; all frames are of one size and scale */
    double spare = section_spare(plates->central, 0.74 * WIDE, 0.48 * HIGH);
    struct sketch sketch = {.script = "film", .name = "film", .title = "", .meaning = "",
                            .kind = SKETCH_GIF, .width = WIDE, .height = HIGH - (int)spare, .type = 17.0,
                            .frame_centis = 18, .what = plates, .write = figures};
    return plates_accept(plates, why) ? sketch_draw(&sketch, size, why) : NULL;
}
