/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/shard.h - a slice of the members of a run, kept in a file to be merged with others.
 *
 * A shard holds what was asked (scenario as text, plan, draw, parameters), its members' records and a
 * checksum. Shards are for machines of one kind: numbers stand as they lie in memory, and a shard
 * from a machine that lays them otherwise is refused.
 */
#ifndef MANY_SHARD_H
#define MANY_SHARD_H
#include "many/crew.h"
#include <stddef.h>

/* what all shards of a run have in common */
struct shard_run {
    const char *version;        /* of the program */
    const char *file;           /* the scenario as it was named */
    const char *text;           /* its text */
    size_t text_size;
    int plan;
    uint64_t draw;
    struct param param;
    bool fixed[PARAM_ROWS];     /* which were set by hand */
    bool plan_named;
    uint64_t weather;           /* checksum of the weather file; 0 = none */
};

/* The bytes of a shard; the caller frees them. NULL without memory. */
unsigned char *shard_write(const struct shard_run *run, const struct crew_done *done, size_t *size);

/* Reads one shard: the run and its members, with texts, days and events where they lie in the bytes, which begin
 * at a multiple of eight, must live on and may be read-only. Fails with TROUBLE_INPUT, naming the file;
 * crew_free in any case. */
bool shard_read(struct shard_run *run, struct crew_done *done, const unsigned char *bytes, size_t size,
                const char *name, struct trouble *why);
/* Of bytes, as in a shard. */
uint64_t shard_checksum(const void *bytes, size_t size);
/* Are two shards slices of one run? */
bool shard_alike(const struct shard_run *a, const struct shard_run *b);
#endif
