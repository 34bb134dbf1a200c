/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/garden.h - bytes to the text of a scenario that keeps every rule of the format.
 *
 * Each choice takes a byte; when the bytes are used up the first choice is taken, or the middle of a span, so that
 * any bytes make a garden and a short string makes a plain one. A fuzzer changes gardens by changing bytes; a
 * seed makes one from random bytes. Reaches the ends of what the format allows: poles, heights of
 * 5000 m, 1900 and 2200, leap days, one portion of a teacup, the coldest and hottest months.
 */
#ifndef FUZZ_GARDEN_H
#define FUZZ_GARDEN_H
#include "base/date.h"
#include "know/bound.h"
#include "know/skies.h"
#include "know/stuff.h"
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { GARDEN_TEXT = 32768, GARDEN_BYTES = 512 };

struct garden {
    const uint8_t *at, *end;
    char text[GARDEN_TEXT];
    size_t used;
    long start;                 /* as a count of days */
    int days;                   /* of the season, after the first */
    bool two_bays, own, deep;
};

/* one of n, from the next byte */
static inline int garden_pick(struct garden *g, int n)
{
    return g->at < g->end ? *g->at++ % n : 0;
}

/* evenly between two ends, from the next two bytes; the middle when there are none */
static inline double garden_between(struct garden *g, double low, double high)
{
    if (g->at >= g->end)
        return 0.5 * (low + high);
    int upper = garden_pick(g, 256), lower = garden_pick(g, 256);
    return low + (high - low) * (256 * upper + lower) / 65535.0;
}

#define GARDEN_ONE(g, ...) \
    ((const char *const[]){__VA_ARGS__})[garden_pick(g, (int)(sizeof((const char *const[]){__VA_ARGS__}) \
                                                              / sizeof(char *)))]

static inline void garden_say(struct garden *g, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static inline void garden_say(struct garden *g, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    int length = vsnprintf(g->text + g->used, GARDEN_TEXT - g->used, format, values);
    va_end(values);
    if (length > 0 && (size_t)length < GARDEN_TEXT - g->used)
        g->used += (size_t)length;
}

static inline void garden_date(struct garden *g, int day)
{
    char text[DATE_TEXT];
    date_write(g->start + day, text);
    garden_say(g, "%s", text);
}

static inline void garden_head(struct garden *g)
{
    static const int years[] = {2025, 1900, 1904, 1999, 2000, 2024, 2100, 2199, 2026};
    int year = years[garden_pick(g, 9)];
    g->start = date_number((struct date){year, 1, 1}) + (long)garden_between(g, 0, 365.9);
    if (garden_pick(g, 8) == 7) /* the day before what may be a leap day */
        g->start = date_number((struct date){year, 2, 28});
    g->days = 2 + garden_pick(g, 8) * (1 + garden_pick(g, 5));
    garden_say(g, "midden: 1\nname: %s\nstart: ", GARDEN_ONE(g, "pile", "the \\\"old\\\" heap", "Hänge"));
    garden_date(g, 0);
    if (garden_pick(g, 8) == 7) {
        garden_say(g, " to ");
        garden_date(g, 1 + garden_pick(g, 2));
    }
    garden_say(g, "\n");
}

static inline void garden_place(struct garden *g)
{
    static const double ends[] = {47, 0, 23.44, 66.56, 70, 80, 89.9, 90};
    double latitude = garden_pick(g, 3) ? garden_between(g, 0, 90) : ends[garden_pick(g, 8)];
    garden_say(g, "place: {latitude: %.4f %s", latitude, GARDEN_ONE(g, "N", "S"));
    if (garden_pick(g, 2))
        garden_say(g, ", elevation: %.0f m", garden_between(g, -400, 5000));
    garden_say(g, ", sun: %s, wind: %s}\n", GARDEN_ONE(g, "half the day", "all day", "shade"),
               GARDEN_ONE(g, "some", "open", "sheltered"));
}

static inline void garden_sky(struct garden *g)
{
    double low[12], high[12], rain[12] = {0}, cold = 0, wave = 0;
    int kind = garden_pick(g, 3);
    if (kind < 2) {
        garden_say(g, "sky: %s\n", skies_rows[garden_pick(g, skies_count)].name);
        return;
    }
    cold = garden_between(g, -45, 15);
    wave = garden_between(g, 0, 20);
    for (int m = 0; m < 12; m++) {
        low[m] = cold + (m < 6 ? wave * m / 5 : wave * (11 - m) / 5);
        high[m] = low[m] + garden_between(g, 0.5, 18);
        high[m] = high[m] > 50 ? 50 : high[m];
    }
    garden_say(g, "sky:\n  night low:");
    for (int m = 0; m < 12; m++)
        garden_say(g, " %.1f", low[m]);
    garden_say(g, " C\n  day high:");
    for (int m = 0; m < 12; m++)
        garden_say(g, " %.1f", high[m]);
    garden_say(g, " C\n  rain:");
    bool dry = garden_pick(g, 4) == 3;
    for (int m = 0; m < 12; m++)
        garden_say(g, " %.0f", (rain[m] = dry ? 0 : garden_between(g, 1, 400)));
    garden_say(g, " mm\n  wet days:");
    for (int m = 0; m < 12; m++)
        garden_say(g, " %d", dry ? 0 : 1 + (int)(rain[m] / 140) + garden_pick(g, 25));
    garden_say(g, "\n");
}

static inline const char *garden_bound(struct garden *g, enum bound_kind kind)
{
    const char *name[64];
    int count = 0;
    for (int i = 0; i < bound_count && count < 64; i++)
        if (bound_rows[i].kind == kind)
            name[count++] = bound_rows[i].name;
    return name[garden_pick(g, count)];
}

static inline void garden_walls(struct garden *g)
{
    if (garden_pick(g, 2))
        garden_say(g, ", walls: %s", garden_bound(g, BOUND_WALL));
    if (garden_pick(g, 2))
        garden_say(g, ", floor: %s", garden_bound(g, BOUND_FLOOR));
    if (garden_pick(g, 2))
        garden_say(g, ", lid: %s", garden_bound(g, BOUND_LID));
}

/* about how many litres would stand there */
static inline double garden_stand(struct garden *g)
{
    double a = garden_between(g, 0.4, 2.5), b = garden_between(g, 0.4, 2.5), h = garden_between(g, 0.4, 1.6);
    switch (garden_pick(g, 5)) {
    case 1:
        garden_say(g, "heap: {across: %.2f m, high: %.2f m}\n", a + h, h);
        return 300 * (a + h) * (a + h) * h;
    case 2:
        garden_say(g, "windrow: {across: %.2f m, high: %.2f m, long: %.2f m}\n", a + h, h, 2 + b);
        return 400 * (a + h) * (2 + b) * h;
    case 3:
        garden_say(g, "jar: {across: %.2f m, high: %.2f m}\n", 0.1 + 0.2 * a, 0.1 + 0.2 * h);
        return 500 * (0.1 + 0.2 * a) * (0.1 + 0.2 * a) * (0.1 + 0.2 * h);
    case 4:
        g->two_bays = true;
        garden_say(g, "bins:\n  one: {size: %.2f x %.2f x %.2f m", a, b, h);
        garden_walls(g);
        garden_say(g, "}\n  two: {like: one, now: empty}\n");
        return 700 * a * b * h;
    default:
        garden_say(g, "bin: {size: %.2f x %.2f x %.2f m", a, b, h);
        garden_walls(g);
        garden_say(g, "}\n");
        return 700 * a * b * h;
    }
}

static inline const char *garden_stuff(struct garden *g)
{
    if (g->own && garden_pick(g, 6) == 5)
        return "own stuff";
    return stuff_rows[garden_pick(g, stuff_count)].name;
}

static inline void garden_portions(struct garden *g, const char *margin, double litres, int most)
{
    const char *name[4];
    int count = 1 + garden_pick(g, most), said = 0;
    for (int i = 0; i < count; i++) {
        bool twice = false;
        name[said] = garden_stuff(g);
        for (int k = 0; k < said; k++)
            twice |= strcmp(name[k], name[said]) == 0;
        if (twice)
            continue;
        double amount = litres / count * garden_between(g, 0.5, 1.3);
        garden_say(g, "%s%s: ", said ? margin : "", name[said]);
        said++;
        switch (garden_pick(g, 4)) {
        case 1: garden_say(g, "%.3f to %.3f L", amount, 1.2 * amount); break;
        case 2: garden_say(g, "%.3f kg", 0.25 * amount); break;
        default: garden_say(g, "%.3f L", amount); break;
        }
        garden_say(g, "%s", GARDEN_ONE(g, "", "", " loose", " pressed"));
        garden_say(g, "\n");
    }
}

static inline void garden_build(struct garden *g, double litres)
{
    int layers = 1 + garden_pick(g, 4), repeat = 1 + garden_pick(g, 3);
    garden_say(g, "build:\n");
    for (int i = 0; i < layers; i++) {
        double each = litres / layers / (repeat > 1 ? repeat : 1);
        const char *margin = repeat > 1 ? "        " : "    ";
        if (repeat > 1)
            garden_say(g, "  - repeat: %d\n    layers:\n      - ", repeat);
        else
            garden_say(g, "  - ");
        garden_portions(g, margin, each, 4);
        int more = garden_pick(g, 6);
        if (more == 1)
            garden_say(g, "%swater: %.2f L\n", margin, each * garden_between(g, 0, 0.4));
        if (more == 2)
            garden_say(g, "%swater: %.2f L at %d C\n", margin, each * 0.1, 1 + garden_pick(g, 98));
        if (more == 3)
            garden_say(g, "%stemperature: %.1f C\n", margin, garden_between(g, -20, 75));
        if (more == 4)
            garden_say(g, "%ssqueeze: %s\n", margin,
                       GARDEN_ONE(g, "dusty", "crumbles", "holds", "drips", "runs"));
    }
}

static inline void garden_found(struct garden *g, double litres)
{
    garden_say(g, "found:\n  height: %.2f m\n  of:\n    ", garden_between(g, 0.1, 0.6));
    garden_portions(g, "    ", litres, 3);
    if (garden_pick(g, 2))
        garden_say(g, "  squeeze: %s\n", GARDEN_ONE(g, "dusty", "crumbles", "holds", "drips", "runs"));
    if (garden_pick(g, 2))
        garden_say(g, "  middle: %.0f C\n", garden_between(g, 0, 65));
    garden_say(g, "  built: %d days ago\n", 1 + garden_pick(g, 200));
}

static inline void garden_deed(struct garden *g, double litres)
{
    switch (garden_pick(g, 8)) {
    case 0:
    case 1:
        garden_say(g, ", turn: %s", GARDEN_ONE(g, "mixed", "outside in", "layer by layer", "out and back"));
        if (g->two_bays && garden_pick(g, 2))
            garden_say(g, ", into: next");
        if (garden_pick(g, 4) == 3)
            garden_say(g, ", water: until it drips");
        if (garden_pick(g, 4) == 3)
            garden_say(g, ", pick out: sticks");
        if (garden_pick(g, 4) == 3)
            garden_say(g, ", keep for the top: %d cm", 1 + garden_pick(g, 9));
        break;
    case 2:
        garden_say(g, ", water: %.2f L", litres * garden_between(g, 0.001, 0.3));
        break;
    case 3:
        garden_say(g, ", add: {%s: %.3f L}", stuff_rows[garden_pick(g, stuff_count)].name,
                   litres * garden_between(g, 0.001, 0.3));
        if (garden_pick(g, 3) == 2)
            garden_say(g, ", bury: %d cm", 1 + garden_pick(g, 30));
        break;
    case 4:
        garden_say(g, ", cover: %s %d cm", garden_bound(g, BOUND_COVER), 1 + garden_pick(g, 12));
        break;
    case 5:
        garden_say(g, ", loosen: all over");
        break;
    case 6:
        garden_say(g, ", uncover: all");
        break;
    default:
        garden_say(g, ", pick out: sticks");
        break;
    }
}

static inline void garden_visit(struct garden *g, double litres)
{
    int when = garden_pick(g, 4), day = 1 + garden_pick(g, g->days > 1 ? g->days - 1 : 1);
    if (when < 2) {
        garden_say(g, "    - {day: ");
        garden_date(g, day < g->days ? day : g->days);
    } else if (when == 2) {
        garden_say(g, "    - {every: %d days", 2 + garden_pick(g, 9));
    } else {
        garden_say(g, "    - {look: day, when: %s", GARDEN_ONE(g, "middle below 45 C", "middle above 50 C",
                   "squeeze fails", "middle falls below 40 C", "hand deep above 30 C"));
        garden_say(g, ", at most: %s", GARDEN_ONE(g, "once", "weekly", "every 3 days"));
    }
    garden_deed(g, litres);
    garden_say(g, "}\n");
}

/* The text of a garden; it stands in g->text and ends with a NUL. */
static inline void garden_write(struct garden *g, const uint8_t *bytes, size_t size)
{
    memset(g, 0, sizeof *g);
    g->at = bytes;
    g->end = bytes + size;
    garden_head(g);
    garden_place(g);
    garden_sky(g);
    double litres = garden_stand(g) * garden_between(g, 0.15, 1.0);
    if (garden_pick(g, 4) == 3) { /* no wetter than it comes, since in some bulk that doesn't fit */
        const struct stuff *like = &stuff_rows[garden_pick(g, stuff_count)];
        g->own = true;
        garden_say(g, "ingredients:\n  own stuff: {like: %s, water: %.0f %%, seeds: many}\n", like->name,
                   like->water_share.mid * (30 + garden_pick(g, 71)) + 1);
    }
    if (garden_pick(g, 8) == 7)
        garden_found(g, litres);
    else
        garden_build(g, litres);
    int visits = garden_pick(g, 5);
    garden_say(g, "plans:\n  a plan:%s\n", visits ? "" : " []");
    for (int i = 0; i < visits; i++)
        garden_visit(g, litres);
    garden_say(g, "need: by ");
    garden_date(g, g->days);
    garden_say(g, "\n");
}
#endif
