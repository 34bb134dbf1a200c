/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/target.c - one fuzzer; TARGET names what it tries (see the Makefile). */
#include "fuzz/laws.h"
#include "fuzz/readers.h"
#include <gsl/gsl_errno.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

#define target_scenario readers_scenario
#define target_log readers_log
#define target_weather readers_weather
#define target_shard readers_shard
#define target_ask readers_ask

/* a garden of these bytes, run */
__attribute__((unused)) static void target_season(const uint8_t *bytes, size_t size)
{
    static struct laws *laws;
    gsl_set_error_handler_off();
    if (!laws && !(laws = calloc(1, sizeof *laws)))
        return;
    if (!laws_try(laws, bytes, size))
        fputs(laws->garden.text, stderr);
    readers_need(!*laws->news, laws->news);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    TARGET(bytes, size);
    return 0;
}
