/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/seasons.c - many random gardens, every law of fuzz/laws.h tried on each.
 *
 *     build/fuzz/seasons N [FIRST]       gardens FIRST to FIRST + N - 1 (usually from 1)
 *     build/fuzz/seasons -show SEED      the scenario of one
 *
 * A garden that breaks a law is named by its seed; its bytes go into build/fuzz/broken-SEED, from where a
 * shrunken copy belongs into tests/fuzz/found/season.
 */
#include "fuzz/laws.h"
#include "fuzz/seed.h"
#include <gsl/gsl_errno.h>

static void keep(long seed, const uint8_t *bytes)
{
    char path[64];
    snprintf(path, sizeof path, "build/fuzz/broken-%ld", seed);
    FILE *out = fopen(path, "wb");
    if (out) {
        fwrite(bytes, 1, GARDEN_BYTES, out);
        fclose(out);
    }
}

int main(int argc, char **argv)
{
    bool show = argc == 3 && strcmp(argv[1], "-show") == 0;
    long count = argc > 1 && !show ? strtol(argv[1], NULL, 10) : 1;
    long first = argc > 2 ? strtol(argv[2], NULL, 10) : 1, broken = 0, ran = 0;
    struct laws *laws = calloc(1, sizeof *laws);
    uint8_t bytes[GARDEN_BYTES];
    if (!laws || argc < 2)
        return 1;
    gsl_set_error_handler_off();
    for (long seed = first; seed < first + count; seed++) {
        seed_bytes(bytes, seed);
        if (show) {
            garden_write(&laws->garden, bytes, sizeof bytes);
            fputs(laws->garden.text, stdout);
            return 0;
        }
        if (!laws_try(laws, bytes, sizeof bytes)) {
            printf("garden %ld: %s\n", seed, laws->news);
            keep(seed, bytes);
            broken++;
        }
        ran += laws->ran;
        if ((seed - first + 1) % 500 == 0) {
            fprintf(stderr, "%ld gardens, %ld with a season, %ld broken\n", seed - first + 1, ran, broken);
            fflush(stdout);
        }
    }
    printf("%ld random gardens, %ld of them a pile that can stand; %ld break a law\n", count, ran, broken);
    free(laws);
    return broken > 0;
}
