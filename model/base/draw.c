/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/draw.c - counter-based random numbers.
 *
 * Philox4x32-10: Salmon, Moraes, Dror and Shaw (2011), "Parallel random numbers: as easy as 1, 2,
 * 3", Proc. SC11 [memory: constants and rounds; held by the known answers in the tests]. It maps
 * the 128-bit counters one to one, so two counters never share their four words.
 *
 * Normal numbers by inverting the distribution, not by a polar pair: a quantile needs one uniform
 * number and rises with it, which points of low discrepancy and paired comparisons rely on.
 * Wichura (1988), algorithm AS 241 (PPND16), Applied Statistics 37(3), 477-484: rational functions
 * in three ranges, relative error about 1e-16 [memory: coefficients; held by erfc in the tests].
 */
#include "base/draw.h"
#include <math.h>

static void philox_round(uint32_t x[4], uint32_t key0, uint32_t key1)
{
    uint64_t first = (uint64_t)0xD2511F53u * x[0];
    uint64_t second = (uint64_t)0xCD9E8D57u * x[2];
    uint32_t was1 = x[1], was3 = x[3];
    x[0] = (uint32_t)(second >> 32) ^ was1 ^ key0;
    x[1] = (uint32_t)second;
    x[2] = (uint32_t)(first >> 32) ^ was3 ^ key1;
    x[3] = (uint32_t)first;
}

void draw_words(const uint32_t counter[4], const uint32_t key[2], uint32_t words[4])
{
    uint32_t key0 = key[0], key1 = key[1];
    for (int i = 0; i < 4; ++i)
        words[i] = counter[i];
    for (int round = 0; round < 10; ++round) {
        philox_round(words, key0, key1);
        key0 += 0x9E3779B9u; /* golden ratio and sqrt(3) - 1, times 2^32 */
        key1 += 0xBB67AE85u;
    }
}

double draw_uniform(uint64_t seed, uint32_t a, uint32_t b, uint32_t c)
{
    const uint32_t counter[4] = {a, b, c, 0};
    const uint32_t key[2] = {(uint32_t)seed, (uint32_t)(seed >> 32)};
    uint32_t words[4];
    draw_words(counter, key, words);
    uint64_t bits = (uint64_t)words[1] << 32 | words[0];
    return (double)(bits >> 11 | 1) * 0x1p-53; /* 53 bits, the last one set */
}

/* |chance - 1/2| <= 0.425: argument 0.425^2 - (chance - 1/2)^2 */
static const double MIDDLE_OVER[8] = {
    3.3871328727963666080e+0, 1.3314166789178437745e+2, 1.9715909503065514427e+3,
    1.3731693765509461125e+4, 4.5921953931549871457e+4, 6.7265770927008700853e+4,
    3.3430575583588128105e+4, 2.5090809287301226727e+3};
static const double MIDDLE_UNDER[8] = {
    1.0,                      4.2313330701600911252e+1, 6.8718700749205790830e+2,
    5.3941960214247511077e+3, 2.1213794301586595867e+4, 3.9307895800092710610e+4,
    2.8729085735721942674e+4, 5.2264952788528545610e+3};
/* r = sqrt(-ln tail) <= 5: argument r - 1.6 */
static const double TAIL_OVER[8] = {
    1.42343711074968357734e+0, 4.63033784615654529590e+0, 5.76949722146069140550e+0,
    3.64784832476320460504e+0, 1.27045825245236838258e+0, 2.41780725177450611770e-1,
    2.27238449892691845833e-2, 7.74545014278341407640e-4};
static const double TAIL_UNDER[8] = {
    1.0,                       2.05319162663775882187e+0, 1.67638483018380384940e+0,
    6.89767334985100004550e-1, 1.48103976427480074590e-1, 1.51986665636164571966e-2,
    5.47593808499534494600e-4, 1.05075007164441684324e-9};
/* beyond: argument r - 5 */
static const double FAR_OVER[8] = {
    6.65790464350110377720e+0, 5.46378491116411436990e+0, 1.78482653991729133580e+0,
    2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
    2.71155556874348757815e-5, 2.01033439929228813265e-7};
static const double FAR_UNDER[8] = {
    1.0,                       5.99832206555887937690e-1, 1.36929880922735805310e-1,
    1.48753612908506148525e-2, 7.86869131145613259100e-4, 1.84631831751005468180e-5,
    1.42151175831644588870e-7, 2.04426310338993978564e-15};

static double ratio(const double over[8], const double under[8], double x)
{
    double above = over[7], below = under[7];
    for (int i = 6; i >= 0; --i) {
        above = above * x + over[i];
        below = below * x + under[i];
    }
    return above / below;
}

double draw_quantile(double chance)
{
    if (!(chance > 0.0 && chance < 1.0)) /* written so that NaN fails too */
        return NAN;
    double from_half = chance - 0.5;
    if (fabs(from_half) <= 0.425)
        return from_half * ratio(MIDDLE_OVER, MIDDLE_UNDER, 0.180625 - from_half * from_half);
    double r = sqrt(-log(from_half < 0.0 ? chance : 1.0 - chance));
    double size = r <= 5.0 ? ratio(TAIL_OVER, TAIL_UNDER, r - 1.6)
                           : ratio(FAR_OVER, FAR_UNDER, r - 5.0);
    return from_half < 0.0 ? -size : size;
}

double draw_normal(uint64_t seed, uint32_t a, uint32_t b, uint32_t c)
{
    return draw_quantile(draw_uniform(seed, a, b, c));
}
