/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/poster.c - see tell/poster.h.
 *
 * The sentences are those of the terminal; what doesn't find room is left out whole, last things first.
 */
#include "tell/poster.h"
#include "base/scroll.h"
#include "ask/asked.h"
#include "tell/margin.h"
#include "tell/paint.h"
#include "tell/range.h"
#include "tell/section.h"
#include "tell/text.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { WIDE = 1190, HIGH = 1684, LETTERS = 68, LINES = 11, CUTS = 4, NAMED = 6, PITCH = 40 };

struct wall {
    const struct tale *tale;
    const struct plates *plates;
    char line[LINES][LETTERS * 4 + 1];
    int at[LINES];      /* points below the first */
    int lines;
};

/* ---- words ---- */

static int letters(const char *text, size_t length)
{
    int count = 0;
    for (size_t i = 0; i < length; i++)
        count += ((unsigned char)text[i] & 0xC0) != 0x80;
    return count;
}

/* Where a line that begins here ends: behind the last word that fits. */
static size_t fit(const char *text)
{
    size_t length = 0;
    for (size_t at = 0; text[at];) {
        size_t next = at + strspn(text + at, " ");
        next += strcspn(text + next, " ");
        if (letters(text, next) > LETTERS)
            break;
        length = at = next;
    }
    return length ? length : strcspn(text, " ");
}

static int lines_of(const char *text)
{
    int count = 0;
    for (; *text; count++) {
        text += fit(text);
        text += strspn(text, " ");
    }
    return count;
}

/* Adds a sentence, whole or not at all. */
static void say(struct wall *wall, const char *text)
{
    int gap = PITCH / 3;
    if (wall->lines + lines_of(text) > LINES)
        return;
    while (*text) {
        size_t length = fit(text), most = sizeof *wall->line - 1;
        char *line = wall->line[wall->lines];
        wall->at[wall->lines] = wall->lines == 0 ? 0 : wall->at[wall->lines - 1] + PITCH + gap;
        wall->lines++;
        gap = 0;
        memcpy(line, text, length < most ? length : most);
        line[length < most ? length : most] = '\0';
        text += length;
        text += strspn(text, " ");
    }
}

/* How much of an ingredient was laid, in all layers. */
static double laid_kg(const struct scenario *scenario, int stuff)
{
    double sum_kg = 0.0;
    for (int i = 0; i < scenario->layers; i++)
        for (int k = 0; k < scenario->layer[i].portions; k++)
            if (scenario->layer[i].portion[k].stuff == stuff)
                sum_kg += scenario->layer[i].portion[k].wet_kg.mid;
    return sum_kg;
}

/* "1.3 m3 of horse manure, mixed leaves and straw, built on 4 October 2025." */
static void say_pile(struct wall *wall, const struct phrase_style *style)
{
    const struct scenario *scenario = wall->plates->scenario;
    struct span laid_m3 = range_of(wall->tale, asked_end, ASKED_VOLUME_FIRST, 0);
    bool used[PLAN_STUFF] = {false};
    char text[1024];
    size_t length = (size_t)snprintf(text, sizeof text, "%s", phrase_volume(style, laid_m3.mid).text);
    for (int n = 0; n < NAMED; n++) {
        int most = -1;
        for (int i = 0; i < scenario->stuffs; i++)
            if (!used[i] && laid_kg(scenario, i) > 0.0 &&
                (most < 0 || laid_kg(scenario, i) > laid_kg(scenario, most)))
                most = i;
        if (most < 0)
            break;
        used[most] = true;
        length += (size_t)snprintf(text + length, sizeof text - length, "%s%s", n ? ", " : " of ",
                                   scenario->stuff[most].name);
    }
    snprintf(text + length, sizeof text - length, ", %s on %s.",
             scenario->found.is ? "found" : "built", phrase_date(scenario->start).text);
    say(wall, text);
}

static bool say_answers(struct wall *wall, const struct phrase_style *style, struct trouble *why)
{
    struct margin said;
    if (!margin_begin(&said))
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a poster");
    text_margin(said.out, wall->tale, style);
    bool good = margin_end(&said) ||
                trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a poster");
    for (int i = 0; good && i < said.lines; i++)
        if (!*said.line[i].label)
            say(wall, said.line[i].text);
    margin_free(&said);
    return good;
}

/* ---- figures ---- */

/* Ways by which heat leaves, the largest first. */
static void ways_write(FILE *script, const struct tale *tale)
{
    static const enum paint paint[ASKED_WAYS] = {PAINT_air,         PAINT_vapour, PAINT_walls,
                                                 PAINT_top,         PAINT_sun_and_sky,
                                                 PAINT_ground,      PAINT_rain_and_water};
    struct span share[ASKED_WAYS];
    bool told[ASKED_WAYS] = {false};
    for (int i = 0; i < ASKED_WAYS; i++)
        share[i] = range_of(tale, asked_way, i, 0);
    fprintf(script, "ways = %d\narray WAY[%d]\narray SAID[%d]\narray HUE[%d]\narray SHARE[%d]\n", ASKED_WAYS,
            ASKED_WAYS, ASKED_WAYS, ASKED_WAYS, ASKED_WAYS);
    for (int n = 1; n <= ASKED_WAYS; n++) {
        int most = -1;
        for (int i = 0; i < ASKED_WAYS; i++)
            if (!told[i] && (most < 0 || share[i].mid > share[most].mid))
                most = i;
        told[most] = true;
        fprintf(script, "WAY[%d] = '%s'; SAID[%d] = '%s'; HUE[%d] = '#%06x'; SHARE[%d] = %.6g\n", n,
                asked_way_words[most], n,
                phrase_ranged(phrase_share(share[most].low), phrase_share(share[most].mid),
                              phrase_share(share[most].high)).text,
                n, paint_rows[paint[most]].colour, n, share[most].mid);
    }
}

/* As large as finds room; the longest names in two lines of the least type. */
static void name_write(FILE *script, const char *name)
{
    const double room = 1070.0, wide = 0.71; /* points; of a bold letter, in type sizes (measured) */
    char first[PLAN_NAME], second[PLAN_NAME] = "";
    double type = fmin(62.0, room / (wide * fmax(1.0, letters(name, strlen(name)))));
    snprintf(first, sizeof first, "%s", name);
    if (type < POSTER_TYPE) {
        size_t cut = strlen(name) / 2;
        while (name[cut] && name[cut] != ' ')
            cut++;
        if (!name[cut] || letters(name, cut) * wide * POSTER_TYPE > room)
            for (cut = strlen(name) / 2; ((unsigned char)name[cut] & 0xC0) == 0x80;)
                cut++;
        snprintf(first, sizeof first, "%.*s", (int)cut, name);
        snprintf(second, sizeof second, "%s", name + cut + (name[cut] == ' '));
        type = POSTER_TYPE;
    }
    chart_text(script, "name", first);
    chart_text(script, "more_name", second);
    fprintf(script, "name_type = %g\n", type);
}

static void words_write(FILE *script, const struct wall *wall)
{
    char text[2 * PLAN_NAME + 96];
    const struct scenario *scenario = wall->plates->scenario;
    name_write(script, scenario->name);
    const char *plan = scenario->plan[wall->plates->plan].name;
    snprintf(text, sizeof text, "%s%s", letters(plan, strlen(plan)) > LETTERS - 8 ? "" : "plan: ", plan);
    chart_text(script, "plan", text);
    snprintf(text, sizeof text, "A forecast: %d possible piles; in brackets and shade, 8 in 10 of them.",
             wall->tale->members);
    chart_text(script, "foot", text);
    fprintf(script, "lines = %d\narray LINE[%d]\narray AT[%d]\n", wall->lines, LINES, LINES);
    for (int i = 0; i < wall->lines; i++) {
        snprintf(text, sizeof text, "LINE[%d]", i + 1);
        chart_text(script, text, wall->line[i]);
        fprintf(script, "AT[%d] = %d\n", i + 1, wall->at[i]);
    }
}

/* Four days of those kept, early ones and the last. */
static bool cuts_write(FILE *script, const struct wall *wall, struct trouble *why)
{
    const struct record *kept = wall->plates->central;
    struct record some = *kept;
    struct record_picture picture[CUTS];
    int count = kept->pictures < CUTS ? kept->pictures : CUTS;
    for (int i = 0; i < count; i++)
        picture[i] = kept->picture[count < 2 ? 0 : i * (kept->pictures - 1) / (count - 1)];
    some.picture = picture;
    some.pictures = count;
    struct chart chart = {script, &some, wall->plates->scenario, "", NULL};
    return section_some(&chart, 0, count, why);
}

static bool figures(FILE *script, const void *what, struct trouble *why)
{
    const struct wall *wall = what;
    const struct plates *plates = wall->plates;
    if (!plates_course(script, plates, why) || !cuts_write(script, wall, why))
        return false;
    fputs("dated = '", script);
    plates_tics(script, plates->scenario->start, plates->typical->days, 6);
    fputs("'\n", script);
    words_write(script, wall);
    ways_write(script, wall->tale);
    fprintf(script, "least_type = %d\nmark_middle = %d\n", POSTER_TYPE, paint_rows[PAINT_middle].marker);
    return true;
}

/* An SVG that says how large its paper is. */
static char *sized(char *svg, size_t *size, struct trouble *why)
{
    struct scroll scroll;
    bool begun = scroll_begin(&scroll);
    const char *root = strstr(svg, "<svg");
    if (begun && root)
        fprintf(scroll.out, "%.*s width=\"%dmm\" height=\"%dmm\"%s", (int)(root + 4 - svg), svg,
                POSTER_WIDE_MM, POSTER_HIGH_MM, root + 4);
    free(svg);
    if (begun && scroll_end(&scroll) && root) {
        *size = scroll.size;
        return scroll.text;
    }
    free(scroll.text);
    trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a poster");
    return NULL;
}

char *poster_draw(const struct tale *tale, const struct plates *plates, enum sketch_kind kind,
                  size_t *size, struct trouble *why)
{
    struct wall *wall = calloc(1, sizeof *wall);
    struct phrase_style style = {true, plates->scenario->show, plates->scenario->bucket_m3};
    struct sketch sketch = {.script = "poster", .name = "poster", .title = plates->scenario->name,
                            .meaning = "A poster of one season of a compost pile", .kind = kind,
                            .width = WIDE, .height = HIGH, .type = POSTER_TYPE, .scale = 2.0,
                            .what = wall, .write = figures};
    char *bytes = NULL;
    if (!wall) {
        trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a poster");
        return NULL;
    }
    wall->tale = tale;
    wall->plates = plates;
    say_pile(wall, &style);
    if (plates_accept(plates, why) && say_answers(wall, &style, why))
        bytes = sketch_draw(&sketch, size, why);
    free(wall);
    return bytes && kind == SKETCH_SVG ? sized(bytes, size, why) : bytes;
}
