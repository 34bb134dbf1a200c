/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/digits.c - numbers and dates as they stand in a text.
 *
 * Numbers have a grammar of their own because strtod's changes with the locale and takes
 * hexadecimal, infinities and leading blanks. Fifteen digits fit a double's 53 bits and a power of
 * ten up to 10^15 is exact, so one division gives the correctly rounded value.
 */
#include "door/digits.h"
#include <string.h>

static bool digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

/* The digits at a text as a whole number and how many there are, leading zeros not counted. */
static size_t digits_at(const char *text, double *whole, int *significant)
{
    size_t count = 0;
    for (; digit(text[count]); count++) {
        *whole = 10.0 * *whole + (text[count] - '0');
        *significant += *significant > 0 || text[count] != '0';
    }
    return count;
}

const char *digits_hint(const char *text, size_t taken)
{
    const char *rest = text + taken;
    if (taken == 0 && text[0] == '.')
        return "write a digit before the point, as in 0.5";
    if (taken == 0)
        return NULL;
    if (rest[0] == ',' && digit(rest[1]))
        return "write a decimal point, as in 12.5, and no comma between thousands";
    if (rest[0] == '/' && digit(rest[1]))
        return "write a fraction with a point, as in 0.5";
    if (rest[0] == '.')
        return "write digits on both sides of one point, as in 12.5";
    if ((rest[0] == 'e' || rest[0] == 'E') && (digit(rest[1]) || rest[1] == '-' || rest[1] == '+'))
        return "write the number in full";
    if (rest[0] == 'x' && text[taken - 1] == '0' && taken == 1 + (size_t)(text[0] == '-'))
        return "write the number in decimal";
    if (rest[0] == '-' && digit(rest[1]))
        return "write a span as `a to b`";
    return NULL;
}

static const double power_of_ten[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                      1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

size_t digits_number(const char *text, double *value, int *significant)
{
    double whole = 0.0;
    size_t sign = text[0] == '-', places = 0;
    *significant = 0;
    size_t taken = digits_at(text + sign, &whole, significant);
    if (taken == 0)
        return 0;
    taken += sign;
    if (text[taken] == '.' && digit(text[taken + 1])) {
        places = digits_at(text + taken + 1, &whole, significant);
        taken += 1 + places;
    }
    if (places > DIGITS_EXACT)
        *significant = DIGITS_EXACT + 1;
    else
        *value = (sign ? -whole : whole) / power_of_ten[places];
    return taken;
}

/* exactly `count` digits as a number; -1 when there are other signs among them */
static int fixed(const char *text, int count)
{
    int number = 0;
    for (int i = 0; i < count; i++) {
        if (!digit(text[i]))
            return -1;
        number = 10 * number + (text[i] - '0');
    }
    return number;
}

static bool shaped_like_date(const char *text)
{
    return strcspn(text, " \t") == 10 && fixed(text, 4) >= 0 && text[4] == '-'
           && fixed(text + 5, 2) >= 0 && text[7] == '-' && fixed(text + 8, 2) >= 0;
}

bool digits_date(const char *text, struct date *date)
{
    if (!shaped_like_date(text))
        return false;
    *date = (struct date){fixed(text, 4), fixed(text + 5, 2), fixed(text + 8, 2)};
    return true;
}
