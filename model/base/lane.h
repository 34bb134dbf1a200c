/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/lane.h - one or several members of an ensemble side by side.
 *
 * A season is written once over the type `lane`: a double when LANES is 1, a vector of members when
 * it is more. Members choose by masks, not branches; exp, log and square root are the same
 * arithmetic for every width, so that a member's answer does not depend on who runs beside it nor
 * on the C library's idea of exp, which differs in the last bit between processors.
 *
 *   exp(x): n = round(x/ln 2), r = x - n ln 2 in two parts, Taylor to r^13/13!; |error| < 1 ulp + 1e-16
 *   log(x): x = 2^e m, s = (m-1)/(m+1), 2 s (1 + s^2/3 + ... + s^20/21), m in [sqrt 1/2, sqrt 2)
 */
#ifndef BASE_LANE_H
#define BASE_LANE_H
#include <math.h>
#include <stdbool.h>
#include <stdint.h>

#ifndef LANES
#define LANES 1
#endif

/* the name of an entry point at this width and instruction level: season_run_x1, season_run_x4 */
#ifndef LANE_TAG
#if LANES == 1
#define LANE_TAG x1
#elif LANES == 4
#define LANE_TAG x4
#else
#define LANE_TAG x8
#endif
#endif
#define LANE_JOIN_(name, tag) name##_##tag
#define LANE_JOIN(name, tag) LANE_JOIN_(name, tag)
#define LANE_NAME(name) LANE_JOIN(name, LANE_TAG)

#if LANES == 1
typedef double lane;
typedef int64_t lane_mask;
typedef uint64_t lane_bare;
#else
typedef double lane __attribute__((vector_size(8 * LANES)));
typedef int64_t lane_mask __attribute__((vector_size(8 * LANES)));
typedef uint64_t lane_bare __attribute__((vector_size(8 * LANES))); /* bits without a sign */
#endif

/* before a loop whose turns touch different cells of arrays that don't overlap: the compiler may do
 * several at once, which changes no digit */
#if defined(__GNUC__) && !defined(__clang__)
#define LANE_APART _Pragma("GCC ivdep")
#elif defined(__clang__) && LANES == 1
#define LANE_APART _Pragma("clang loop vectorize(assume_safety)")
#else
#define LANE_APART
#endif

/* of a struct that holds nothing but lanes */
#define LANES_IN(all) ((int)(sizeof(all) / sizeof(lane)))

/* a function that a loop over cells must take into itself, however many call it */
#define LANE_INLINE static inline __attribute__((always_inline))

union lane_bits {
    lane number;
    lane_mask bits;
};

static inline lane lane_of(double x)
{
#if LANES == 1
    return x;
#else
    return x - (lane){0};
#endif
}

static inline double lane_get(lane x, int member)
{
#if LANES == 1
    (void)member;
    return x;
#else
    return x[member];
#endif
}

static inline void lane_put(lane *x, int member, double value)
{
#if LANES == 1
    (void)member;
    *x = value;
#else
    (*x)[member] = value;
#endif
}

static inline int64_t lane_mask_get(lane_mask m, int member)
{
#if LANES == 1
    (void)member;
    return m;
#else
    return m[member];
#endif
}

#if LANES == 1
static inline lane_mask lane_less(lane a, lane b) { return -(int64_t)(a < b); }
static inline lane_mask lane_at_most(lane a, lane b) { return -(int64_t)(a <= b); }
static inline lane lane_if(lane_mask m, lane yes, lane no) { return m ? yes : no; }
static inline lane lane_sqrt(lane x) { return sqrt(x); }
static inline lane lane_abs(lane x) { return fabs(x); }
#else
static inline lane_mask lane_less(lane a, lane b) { return (lane_mask)(a < b); }
static inline lane_mask lane_at_most(lane a, lane b) { return (lane_mask)(a <= b); }
static inline lane lane_if(lane_mask m, lane yes, lane no)
{
    return (lane)(((lane_mask)yes & m) | ((lane_mask)no & ~m));
}
static inline lane lane_sqrt(lane x)
{
    lane root;
    for (int i = 0; i < LANES; i++)
        root[i] = sqrt(x[i]);
    return root;
}
static inline lane lane_abs(lane x)
{
    return (lane)((lane_mask)x & (INT64_MAX - (lane_mask){0}));
}
#endif

static inline lane_mask lane_everybody(void)
{
    return lane_less(lane_of(0), lane_of(1));
}

static inline lane_mask lane_nobody(void)
{
    return lane_less(lane_of(1), lane_of(0));
}

/* That member too. */
static inline void lane_join(lane_mask *m, int member)
{
    lane one = lane_of(0);
    lane_put(&one, member, 1);
    *m |= lane_less(lane_of(0), one);
}

static inline bool lane_any(lane_mask m)
{
    int64_t any = 0;
    for (int i = 0; i < LANES; i++)
        any |= lane_mask_get(m, i);
    return any != 0;
}

/* Those members' numbers from one array into another. */
static inline void lane_copy(lane_mask who, lane *to, const lane *from, int count)
{
    for (int n = 0; n < count; n++)
        to[n] = lane_if(who, from[n], to[n]);
}

static inline void lane_clear(lane_mask who, lane *to, int count)
{
    for (int n = 0; n < count; n++)
        to[n] = lane_if(who, lane_of(0), to[n]);
}

static inline lane lane_max(lane a, lane b) { return lane_if(lane_less(a, b), b, a); }
static inline lane lane_min(lane a, lane b) { return lane_if(lane_less(b, a), b, a); }

/* e^x for |x| < 700 */
static inline lane lane_exp(lane x)
{
    const double shift = 6755399441055744.0; /* 1.5 * 2^52: adding it rounds to a whole number */
    union lane_bits turn = {.number = x * 1.4426950408889634074 + shift};
    lane n = turn.number - shift;
    lane r = (x - n * 6.93147180369123816490e-01) - n * 1.90821492927058770002e-10;
    lane p = r * (1.0 / 6227020800.0) + 1.0 / 479001600.0;
    p = p * r + 1.0 / 39916800.0;
    p = p * r + 1.0 / 3628800.0;
    p = p * r + 1.0 / 362880.0;
    p = p * r + 1.0 / 40320.0;
    p = p * r + 1.0 / 5040.0;
    p = p * r + 1.0 / 720.0;
    p = p * r + 1.0 / 120.0;
    p = p * r + 1.0 / 24.0;
    p = p * r + 1.0 / 6.0;
    p = p * r + 0.5;
    p = p * r + 1.0;
    p = p * r + 1.0;
    union lane_bits power; /* 2^n: the low bits of `turn` hold n */
    power.bits = (lane_mask)(((lane_bare)turn.bits << 52) + UINT64_C(0x3FF0000000000000));
    return p * power.number;
}

/* natural logarithm of a positive, normal number */
static inline lane lane_log(lane x)
{
    union lane_bits whole = {.number = x};
    /* shift the exponent field so that the mantissa lies in [sqrt 1/2, sqrt 2) */
    lane_mask field = whole.bits - INT64_C(0x3FE6A09E667F3BCD);
    union lane_bits exponent = {.bits = (field >> 52) + INT64_C(0x4338000000000000)};
    lane e = exponent.number - 6755399441055744.0;
    union lane_bits mantissa = {
        .bits = (lane_mask)((lane_bare)whole.bits - ((lane_bare)(field >> 52) << 52))};
    lane m = mantissa.number;
    lane s = (m - 1.0) / (m + 1.0), q = s * s;
    lane p = q * (1.0 / 21.0) + 1.0 / 19.0;
    p = p * q + 1.0 / 17.0;
    p = p * q + 1.0 / 15.0;
    p = p * q + 1.0 / 13.0;
    p = p * q + 1.0 / 11.0;
    p = p * q + 1.0 / 9.0;
    p = p * q + 1.0 / 7.0;
    p = p * q + 1.0 / 5.0;
    p = p * q + 1.0 / 3.0;
    return (s * q * p * 2.0 + e * 1.90821492927058770002e-10) + s * 2.0 +
           e * 6.93147180369123816490e-01;
}
#endif
