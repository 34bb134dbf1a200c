/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/bench.c - what a season costs, its error, and what CVODE takes for the same error.
 *
 *     bench FOLDER-OF-SCENARIOS
 *
 * The reference is CVODE at a relative tolerance of 1e-7 on the same right-hand side, with Newton's
 * matrix by differences. Errors are of every cell's temperature at the end of every day. Times are
 * processor time of the season alone, without reading and telling. Both sides run the same copy of
 * the kernel.
 */
#define _POSIX_C_SOURCE 200809L
#include "bench/bench.h"
#include "bench/meshes.h"
#include <sys/wait.h>
#include <unistd.h>

static const double REFERENCE = 1e-7;
static const char *const SEASONS[] = {"turned", "left-alone", "frost-early", "frost-late"};
static const double TOLERANCES[] = {0.25, 0.16, 0.08, 0.04, 0.02, 0.01, 0.005};
static const double RELATIVES[] = {1e-2, 1e-3, 1e-4, 1e-5};
enum { TOLERANCE_ROWS = sizeof TOLERANCES / sizeof *TOLERANCES,
       RELATIVE_ROWS = sizeof RELATIVES / sizeof *RELATIVES };

static struct bench *open_season(const char *folder, const char *name)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s.yaml", folder, name);
    return bench_open(path, 0);
}

/* ---- memory ---------------------------------------------------------------------------------- */
static long peak_kB(void)
{
    char line[256];
    long kB = -1;
    FILE *status = fopen("/proc/self/status", "r");
    while (status && fgets(line, sizeof line, status))
        if (sscanf(line, "VmHWM: %ld", &kB) == 1)
            break;
    if (status)
        fclose(status);
    return kB;
}

/* Peak memory of a process that reads a scenario and runs its season, no more: a child's. */
static long season_kB(const char *folder, const char *name)
{
    int ends[2];
    long kB = -1;
    if (pipe(ends) != 0)
        return -1;
    pid_t child = fork();
    if (child == 0) {
        struct record record;
        bench_season(open_season(folder, name), &record, false);
        kB = peak_kB();
        _exit(write(ends[1], &kB, sizeof kB) == sizeof kB ? 0 : 1);
    }
    close(ends[1]);
    if (child < 0 || read(ends[0], &kB, sizeof kB) != sizeof kB)
        kB = -1;
    close(ends[0]);
    waitpid(child, NULL, 0);
    return kB;
}

/* ---- tables ---------------------------------------------------------------------------------- */
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

static void run_reference(struct bench *b, struct bdf_season *season, double relative)
{
    if (!bdf_season_run(season, &b->setup, relative, 0, &DIFFERENCES, &b->why))
        bench_stop(&b->why);
}

/* Median time of CVODE's season, which is left in `season`; NAN where CVODE gives up. */
static double run_rival(struct bench *b, struct bdf_season *season, double relative,
                        const struct bdf_newton *newton, int runs)
{
    double took[BENCH_RUNS];
    for (int k = 0; k < runs; k++) {
        if (k > 0)
            bdf_season_free(season);
        if (!bdf_season_run(season, &b->setup, relative, PATIENCE_D, newton, &b->why))
            return NAN;
        took[k] = season->cpu_s;
    }
    qsort(took, (size_t)runs, sizeof *took, bench_order);
    return took[runs / 2];
}

/* Our time at an error, between the rows of the table, on logarithms; NAN beyond its ends. */
static double ours_at(const struct bench_ours *m, double rms_K)
{
    for (int i = 0; i + 1 < TOLERANCE_ROWS; i++) {
        double a = m[i].gap.rms_K, z = m[i + 1].gap.rms_K;
        if (rms_K > a || rms_K < z || a <= z)
            continue;
        double share = log(rms_K / a) / log(z / a);
        return m[i].median_s * pow(m[i + 1].median_s / m[i].median_s, share);
    }
    return NAN;
}

static void rival(struct bench *b, const char *name, const struct bdf_newton *newton,
                  const struct bdf_season *reference, const struct bench_ours *ours, int first,
                  int last)
{
    for (int i = first; i <= last; i++) {
        struct bdf_season season;
        double took = run_rival(b, &season, RELATIVES[i], newton, newton->make ? 3 : 1);
        struct bench_gap gap = bench_compare_bdf(&season, reference);
        double same = ours_at(ours, gap.rms_K);
        printf("%-22s %8.0e %6ld %7ld %9.1f %8.4f %8.3f", name, RELATIVES[i], season.steps,
               season.rates, 1e3 * took, gap.rms_K, gap.worst_K);
        if (isnan(same))
            printf(" %9s %7s\n", "-", "-");
        else
            printf(" %9.1f %7.2f\n", 1e3 * same, took / same);
        fflush(stdout);
        bdf_season_free(&season);
    }
}

/* Work and precision of one season, ours and CVODE's. */
static void duel(const char *folder, const char *name)
{
    struct bench *b = open_season(folder, name);
    struct bdf_season reference, check;
    struct bench_ours ours[TOLERANCE_ROWS];
    run_reference(b, &reference, REFERENCE);
    run_reference(b, &check, 10 * REFERENCE);
    struct bench_gap sure = bench_compare_bdf(&check, &reference);
    printf("%s: %d days, %d cells; CVODE at 1e-7 takes %ld steps, %.1f s; at 1e-6 it is %.5f C "
           "rms, %.4f C at worst, away\n", name, reference.days, reference.cells, reference.steps,
           reference.cpu_s, sure.rms_K, sure.worst_K);
    tell_gap_head();
    for (int i = 0; i < TOLERANCE_ROWS; i++) {
        ours[i] = bench_measure(b, TOLERANCES[i], &reference, 3);
        tell_ours(name, &ours[i]);
    }
    printf("\n%-22s %8s %6s %7s %9s %8s %8s %9s %7s\n", "CVODE, Newton by", "relative", "steps",
           "rates", "ms", "rms C", "worst C", "ours ms", "ratio");
    rival(b, "our slopes", &SLOPES, &reference, ours, 0, RELATIVE_ROWS - 1);
    rival(b, "differences, 2 a node", &DIFFERENCES, &reference, ours, 0, RELATIVE_ROWS - 1);
    rival(b, "its own differences", &(struct bdf_newton){0}, &reference, ours, 1, 1);
    printf("(ours ms: ours at that error, from the table above; ratio: CVODE's over it)\n\n");
    bdf_season_free(&reference);
    bdf_season_free(&check);
    bench_close(b);
}

static void usual(const char *folder)
{
    double tolerance_K = param_usual().tolerance_K;
    tell_gap_head();
    for (size_t i = 0; i < sizeof SEASONS / sizeof *SEASONS; i++) {
        struct bench *b = open_season(folder, SEASONS[i]);
        struct bdf_season reference;
        run_reference(b, &reference, REFERENCE);
        struct bench_ours m = bench_measure(b, tolerance_K, &reference, BENCH_RUNS);
        tell_ours(SEASONS[i], &m);
        fflush(stdout);
        bdf_season_free(&reference);
        bench_close(b);
    }
    printf("(median of %d; again: refused attempts; ignition: middle first above 40 C)\n\n",
           BENCH_RUNS);
}

int main(int count, char **word)
{
    if (count != 2) {
        fprintf(stderr, "bench FOLDER-OF-SCENARIOS\n");
        return 2;
    }
    tell_machine();
    printf("peak memory of reading a scenario and running its season: %.1f MB\n\n",
           1e-3 * (double)season_kB(word[1], SEASONS[0]));
    usual(word[1]);
    duel(word[1], SEASONS[0]);
    meshes(word[1], "hot-pallets");
    meshes(word[1], "hot-boards");
    return 0;
}
