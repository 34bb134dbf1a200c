/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/bench/peaks.h - what one core of this machine can do at best, measured.
 *
 * A triad a = b + x c over arrays that fit the first cache, the second, and neither: bytes a second,
 * two loads and a store an element. Multiply-adds on eight vectors held in registers: operations a
 * second, multiplication and addition apart, since the program fuses none; and the same on single
 * numbers. The best of several tries.
 */
#ifndef BENCH_PEAKS_H
#define BENCH_PEAKS_H
#include "bench/bench.h"

typedef double peaks_four __attribute__((vector_size(32)));
enum { PEAKS_TRIES = 7, PEAKS_CHAINS = 8 };

static inline double peaks_triad(size_t doubles, long passes)
{
    double *block = aligned_alloc(64, 3 * doubles * sizeof *block), best = 0;
    if (!block)
        return NAN;
    double *restrict a = block, *restrict b = block + doubles, *restrict c = block + 2 * doubles;
    for (size_t i = 0; i < 3 * doubles; i++)
        block[i] = 1;
    for (int k = 0; k < PEAKS_TRIES; k++) {
        double from = bdf_season_clock_s();
        for (long pass = 0; pass < passes; pass++) {
            for (size_t i = 0; i < doubles; i++)
                a[i] = b[i] + 0.5 * c[i];
            __asm__ volatile("" ::: "memory");
        }
        double took = bdf_season_clock_s() - from;
        best = fmax(best, 24.0 * (double)doubles * (double)passes / took);
    }
    free(block);
    return best;
}

#define PEAKS_KERNEL(name, type, of)                                                               \
    static inline double name(void)                                                                \
    {                                                                                              \
        const long turns = 20000000;                                                               \
        double best = 0;                                                                           \
        for (int k = 0; k < PEAKS_TRIES; k++) {                                                    \
            type x[PEAKS_CHAINS], half = of(0.5), one = of(1);                                     \
            for (int i = 0; i < PEAKS_CHAINS; i++)                                                 \
                x[i] = of(i);                                                                      \
            double from = bdf_season_clock_s();                                                    \
            for (long t = 0; t < turns; t++) {                                                     \
                _Pragma("GCC unroll 8") for (int i = 0; i < PEAKS_CHAINS; i++)                     \
                {                                                                                  \
                    x[i] = x[i] * half + one;                                                      \
                    __asm__ volatile("" : "+x"(x[i]));                                             \
                }                                                                                  \
            }                                                                                      \
            double took = bdf_season_clock_s() - from;                                             \
            best = fmax(best, 2.0 * PEAKS_CHAINS * sizeof(type) / 8 * (double)turns / took);       \
        }                                                                                          \
        return best;                                                                               \
    }
#define PEAKS_VECTOR(v) ((double)(v) - (peaks_four){0})
#define PEAKS_SINGLE(v) ((double)(v))
PEAKS_KERNEL(peaks_vectors, peaks_four, PEAKS_VECTOR)
PEAKS_KERNEL(peaks_singles, double, PEAKS_SINGLE)

static inline void peaks(void)
{
    printf("multiply-adds in vectors of four, two operations each\t%g\n", peaks_vectors());
    printf("multiply-adds of single numbers, two operations each\t%g\n", peaks_singles());
    printf("triad in the first cache, bytes\t%g\n", peaks_triad(1024, 400000));
    printf("triad in the second cache, bytes\t%g\n", peaks_triad(16384, 20000));
    printf("triad in memory, bytes\t%g\n", peaks_triad(8 << 20, 3));
}
#endif
