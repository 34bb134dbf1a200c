/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/bench.c - what a season costs, its error, and what CVODE takes for the same error.
 *
 *     bench tables FOLDER                  four seasons and two meshes, as text
 *     bench race SCENARIO DAYS ROUNDS OWN [FILE]  a row for every run of every contender (race.h)
 *     bench growth SCENARIO                cost against cells, days, members, threads (growth.h)
 *     bench peaks                          what a core can do at best (peaks.h)
 *     bench count SCENARIO one|four        a short season to be counted by count.py; prints attempts
 *
 * The reference is CVODE at a relative tolerance of 1e-7 on the same right-hand side, with Newton's
 * matrix by differences. Errors are of every cell's temperature at the end of every day. Times are
 * processor time of the season alone, without reading and telling. Both sides run the same copy of
 * the kernel.
 */
#define _POSIX_C_SOURCE 200809L
#include "bench/bench.h"
#include "bench/growth.h"
#include "bench/meshes.h"
#include "bench/peaks.h"
#include "bench/race.h"

static const char *const SEASONS[] = {"turned", "left-alone", "frost-early", "frost-late"};

static struct bench *open_season(const char *folder, const char *name)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s.yaml", folder, name);
    return bench_open(path, 0);
}

static void tell_machine(void)
{
    char line[256], model[256] = "unknown processor";
    FILE *info = fopen("/proc/cpuinfo", "r");
    while (info && fgets(line, sizeof line, info))
        if (sscanf(line, "model name : %255[^\n]", model) == 1)
            break;
    if (info)
        fclose(info);
    printf("%s, %ld of them; kernel built for %s\n\n", model, sysconf(_SC_NPROCESSORS_ONLN),
           BENCH_LEVEL);
}

static void tell_gap_head(void)
{
    printf("%-12s %9s %6s %6s %7s %8s %8s %9s %10s %9s %9s\n", "season", "tolerance", "steps",
           "again", "ms", "rms C", "worst C", "in 0.5 C", "ignition d", "dry", "water");
}

static void tell_ours(const char *name, const struct bench_ours *m)
{
    printf("%-12s %9.4g %6ld %6ld %7.1f %8.4f %8.3f %8.3f%% %+10.3f %+8.4f%% %+8.4f%%\n", name,
           m->tolerance_K, m->steps, m->refused, 1e3 * m->median_s, m->gap.rms_K, m->gap.worst_K,
           100 * m->gap.within_half_K, m->gap.ignition_d, 100 * m->gap.dry, 100 * m->gap.water);
}

static void usual(const char *folder)
{
    double tolerance_K = param_usual().tolerance_K;
    tell_gap_head();
    for (size_t i = 0; i < sizeof SEASONS / sizeof *SEASONS; i++) {
        struct bench *b = open_season(folder, SEASONS[i]);
        struct bdf_season reference;
        race_reference(b, &reference);
        struct bench_ours m = bench_measure(b, tolerance_K, &reference, BENCH_RUNS);
        tell_ours(SEASONS[i], &m);
        fflush(stdout);
        bdf_season_free(&reference);
        bench_close(b);
    }
    printf("(median of %d; again: refused attempts; ignition: middle first above 40 C)\n\n",
           BENCH_RUNS);
}

static void tables(const char *folder)
{
    tell_machine();
    usual(folder);
    meshes(folder, "hot-pallets");
    meshes(folder, "hot-boards");
}

/* Three days of one member, or of four alike: what count.py counts is within the season. valgrind knows
 * no AVX-512, so the copies for AVX2 are counted, and nothing else of the kernel is touched. */
static void count_season(const char *path, bool four)
{
    static const int LAST = 3;
    struct bench *b = bench_open(path, LAST);
    const struct curve *sky[4] = {&b->sky, &b->sky, &b->sky, &b->sky};
    struct possible *possible = malloc(4 * sizeof *possible);
    struct record record[4];
    struct setup setup = b->setup;
    for (int i = 0; possible && i < 4; i++)
        possible_usual(&possible[i], &b->scenario, &b->param);
    setup.possible = possible;
    setup.sky = sky;
    setup.picture_day = &LAST; /* its cells are counted */
    setup.pictures = 1;
#ifdef BENCH_WIDE
    bool good = possible && (four ? season_run_x4 : season_run_x1_avx2)(record, &setup, &b->why);
#else
    bool good = possible && !four && BENCH_SEASON(record, &setup, &b->why);
#endif
    if (!good)
        bench_stop(&b->why);
    printf("%ld %d\n", growth_attempts(&record[0]), record[0].picture[0].cells);
}

int main(int count, char **word)
{
    if (count == 3 && strcmp(word[1], "tables") == 0)
        tables(word[2]);
    else if (count >= 6 && strcmp(word[1], "race") == 0)
        race(word[2], atoi(word[3]), atoi(word[4]), atoi(word[5]), count > 6 ? word[6] : NULL);
    else if (count == 3 && strcmp(word[1], "growth") == 0)
        growth(word[2]);
    else if (count == 2 && strcmp(word[1], "peaks") == 0)
        peaks();
    else if (count == 4 && strcmp(word[1], "count") == 0)
        count_season(word[2], strcmp(word[3], "four") == 0);
    else {
        fprintf(stderr, "bench tables|race|growth|peaks|count ...: see the head of tests/bench/bench.c\n");
        return 2;
    }
    return 0;
}
