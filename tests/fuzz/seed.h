/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/seed.h - the random bytes of a seed, the same on every machine. */
#ifndef FUZZ_SEED_H
#define FUZZ_SEED_H
#include "fuzz/garden.h"

/* splitmix64 (Steele, Lea and Flood 2014, OOPSLA, 453-472) [memory: constants] */
static inline uint64_t seed_next(uint64_t *state)
{
    uint64_t z = (*state += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

/* The seed is mixed first, so that the bytes of the next one aren't these, moved up by one. */
static inline void seed_bytes(uint8_t bytes[GARDEN_BYTES], long seed)
{
    uint64_t state = (uint64_t)seed;
    state = seed_next(&state);
    for (int i = 0; i < GARDEN_BYTES; i++)
        bytes[i] = (uint8_t)(seed_next(&state) >> 32);
}
#endif
