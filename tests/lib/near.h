/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/lib/near.h - cmocka with a comparison of doubles.
 *
 * The library's own comparison of numbers goes through float. This one passes only when
 * |got - want| <= within, in the unit of the wanted value, so NaN fails.
 */
#ifndef LIB_NEAR_H
#define LIB_NEAR_H
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
/* cmocka wants the four above first */
#include <cmocka.h>

#define assert_near(got, want, within) near_check((got), (want), (within), #got, __FILE__, __LINE__)

static inline void near_check(double got, double want, double within, const char *what,
                              const char *file, int line)
{
    if (fabs(got - want) <= within)
        return;
    print_error("%s: got %.17g, want %.17g within %g\n", what, got, want, within);
    _fail(file, line);
}
#endif
