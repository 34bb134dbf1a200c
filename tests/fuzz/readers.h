/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/readers.h - what reads bytes from outside, each as a function of bytes.
 *
 * A reader must come back, without a fault of memory or arithmetic (the sanitizers watch), with either an
 * answer that keeps its promises or a reason. fuzz/target.c makes a fuzzer of each, and
 * fuzz/test_found.c tries what is stored.
 */
#ifndef FUZZ_READERS_H
#define FUZZ_READERS_H
#include "door/ask.h"
#include "door/log.h"
#include "door/scenario.h"
#include "door/sheet.h"
#include "many/shard.h"
#include "sky/curve.h"
#include <fcntl.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

/* Ends the program, as a sanitizer does, so that a fuzzer keeps the bytes. */
static inline void readers_need(bool good, const char *what)
{
    if (good)
        return;
    fprintf(stderr, "broken: %s\n", what);
    abort();
}

/* Refused for a reason that a person can use: words, one kind, no letters of a terminal's commands. */
static inline void readers_reason(bool good, const struct trouble *why)
{
    readers_need(good == (why->kind == TROUBLE_NONE), "an answer and a reason, or neither");
    readers_need(good || *why->text, "no reason is given");
    for (const unsigned char *c = (const unsigned char *)why->text; *c; c++)
        readers_need((*c >= ' ' || *c == '\n' || *c == '\t') && *c != 0x7f, "a control character in a reason");
}

static inline bool readers_ordered(const struct span *span)
{
    return isfinite(span->low) && span->low <= span->mid && span->mid <= span->high && isfinite(span->high);
}

static inline void readers_layer(const struct plan_layer *layer)
{
    readers_need(layer->portions >= 0 && layer->portions <= PLAN_PORTIONS, "too many portions");
    for (int i = 0; i < layer->portions; i++)
        readers_need(readers_ordered(&layer->portion[i].wet_kg) && layer->portion[i].wet_kg.low >= 0 &&
                         readers_ordered(&layer->portion[i].water_share) && layer->portion[i].stuff >= 0 &&
                         layer->portion[i].stuff < PLAN_STUFF,
                     "an amount that is none");
    readers_need(readers_ordered(&layer->water_kg) && layer->water_kg.low >= 0, "water that is none");
}

static inline void readers_scenario(const uint8_t *bytes, size_t size)
{
    static struct scenario *scenario;
    static struct trouble why;
    why = (struct trouble){0};
    if (!scenario && !(scenario = malloc(sizeof *scenario)))
        return;
    char *text = malloc(size + 1); /* of its own, so that reading on is seen */
    if (!text)
        return;
    memcpy(text, bytes, size);
    text[size] = '\0';
    bool good = scenario_read_text(scenario, text, size, "fuzz/a.yaml", &why);
    free(text);
    readers_reason(good, &why);
    if (!good)
        return;
    readers_need(scenario->last_day >= 0 && scenario->last_day <= 730, "a season longer than two years");
    readers_need(scenario->layers <= PLAN_LAYERS && scenario->plans <= PLAN_PLANS, "too many layers or plans");
    for (int i = 0; i < scenario->layers; i++)
        readers_layer(&scenario->layer[i]);
    for (int p = 0; p < scenario->plans; p++)
        for (int e = 0; e < scenario->plan[p].events; e++)
            readers_layer(&scenario->plan[p].event[e].add);
}

static inline bool readers_finite(const double *value, int count)
{
    for (int i = 0; i < count; i++)
        if (!isfinite(value[i]))
            return false;
    return true;
}

/* The path of a file that holds these bytes; it is in memory and has no name in any folder. */
static inline const char *readers_file(const uint8_t *bytes, size_t size)
{
    static char path[64];
    static int fd = -1;
    if (fd < 0) {
        char name[64];
        snprintf(name, sizeof name, "/midden-fuzz-%ld", (long)getpid());
        fd = shm_open(name, O_RDWR | O_CREAT | O_EXCL, 0600);
        readers_need(fd >= 0 && shm_unlink(name) == 0, "no shared memory");
        snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
    }
    readers_need(ftruncate(fd, 0) == 0 && pwrite(fd, bytes, size, 0) == (ssize_t)size, "can't write");
    return path;
}

/* A log of readings, added to a scenario that has none. */
static inline void readers_log(const uint8_t *bytes, size_t size)
{
    static struct scenario *scenario;
    static struct trouble why;
    if (!scenario && !(scenario = malloc(sizeof *scenario)))
        return;
    memset(scenario, 0, sizeof *scenario);
    scenario->start = date_number((struct date){2025, 10, 18});
    scenario->last_day = 200;
    why = (struct trouble){0};
    bool good = log_read(scenario, readers_file(bytes, size), &why);
    readers_reason(good, &why);
}

/* A weather file, and the curves that are made of it at a place the first byte chooses. */
static inline void readers_weather(const uint8_t *bytes, size_t size)
{
    static struct trouble why;
    struct weather weather;
    struct curve curve;
    why = (struct trouble){0};
    bool good = sheet_weather(&weather, readers_file(bytes, size), &why);
    readers_reason(good, &why);
    if (!good)
        return;
    double latitude_rad = (size ? bytes[size - 1] - 128 : 0) / 128.0 * 1.5707963;
    weather_fill(&weather, latitude_rad, 40.0 * (size ? bytes[0] : 0));
    if (weather.days <= 2000 && curve_make(&curve, &weather, latitude_rad, 400, &why)) {
        for (int k = 0; k < CURVE_THINGS; k++)
            readers_need(readers_finite(curve.value[k], curve.knots) &&
                             readers_finite(curve.slope_per_s[k], curve.knots), "weather that is no number");
        readers_need(readers_finite(curve.wet_kg_per_m2, curve.days), "rain that is no number");
        curve_free(&curve);
    }
    weather_free(&weather);
}

/* As it is, and with its checksum put right, so that what stands behind it is tried too. */
static inline void readers_shard(const uint8_t *bytes, size_t size)
{
    static struct trouble why;
    struct shard_run run;
    struct crew_done done;
    uint64_t sum;
    uint8_t *copy = malloc(size + 1);
    if (!copy)
        return;
    memcpy(copy, bytes, size);
    for (int mended = 0; mended < 2; mended++) {
        why = (struct trouble){0};
        bool good = shard_read(&run, &done, copy, size, "fuzz", &why);
        readers_reason(good, &why);
        if (good) {
            size_t again = 0;
            unsigned char *written = shard_write(&run, &done, &again);
            readers_need(!written || again == size, "a shard that is read is written at another length");
            free(written);
        }
        crew_free(&done);
        if (size < 16 + sizeof sum)
            break;
        sum = shard_checksum(copy, size - sizeof sum);
        memcpy(copy + size - sizeof sum, &sum, sizeof sum);
    }
    free(copy);
}

/* Words of a command line stand between zero bytes or line ends. */
static inline void readers_ask(const uint8_t *bytes, size_t size)
{
    enum { MOST = 64 };
    static struct trouble why;
    struct ask ask;
    char *text = malloc(size + 1), *word[MOST + 2] = {"midden"};
    int words = 1;
    if (!text)
        return;
    memcpy(text, bytes, size);
    text[size] = '\0';
    for (size_t i = 0, from = 0; i <= size; i++)
        if (i == size || text[i] == '\n' || text[i] == '\0') {
            text[i] = '\0';
            if (words <= MOST && (i < size || i > from))
                word[words++] = text + from;
            from = i + 1;
        }
    word[words] = NULL;
    why = (struct trouble){0};
    bool good = ask_read(&ask, words, word, &why);
    readers_reason(good, &why);
    if (good && ask.commanded)
        readers_need(ask.command >= 0 && ask.command < HELP_COMMANDS && ask.first >= 0 && ask.last >= ask.first &&
                         ask.threads >= 0 && ask.weeks >= 0, "a command line of no meaning");
    ask_free(&ask);
    free(text);
}
#endif
