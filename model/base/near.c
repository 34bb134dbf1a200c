/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/near.c - see base/near.h.
 *
 * Damerau (1964), Communications of the ACM 7(3), found four slips behind most misspelt words: one
 * letter wrong, missing, extra, or two neighbours swapped. The distance is the least number of such
 * slips when no stretch is mended twice ("optimal string alignment"), by the usual table of
 * prefixes, of which three rows are kept.
 */
#include "base/near.h"
#include <stddef.h>
#include <string.h>

static char folded(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Row i of the table: distances between the first i letters of `one` and each prefix of `other`. */
static void fill_row(const char *one, int i, const char *other, int length,
                     const int *two_back, const int *back, int *row)
{
    row[0] = i;
    for (int j = 1; j <= length; ++j) {
        char a = folded(one[i - 1]), b = folded(other[j - 1]);
        row[j] = least(back[j - 1] + (a == b ? 0 : 1), least(back[j], row[j - 1]) + 1);
        if (i > 1 && j > 1 && a == folded(other[j - 2]) && folded(one[i - 2]) == b)
            row[j] = least(row[j], two_back[j - 2] + 1);
    }
}

int near_distance(const char *one, const char *other)
{
    size_t one_length = strlen(one), other_length = strlen(other);
    if (one_length > NEAR_LONGEST || other_length > NEAR_LONGEST)
        return NEAR_FAR;
    int rows[3][NEAR_LONGEST + 1];
    int length = (int)other_length;
    for (int j = 0; j <= length; ++j)
        rows[0][j] = j;
    for (int i = 1; i <= (int)one_length; ++i)
        fill_row(one, i, other, length, rows[(i + 1) % 3], rows[(i + 2) % 3], rows[i % 3]);
    return rows[one_length % 3][length];
}

const char *near_name(const char *word, const char *const *names, int count)
{
    size_t length = strlen(word);
    if (length > NEAR_LONGEST)
        return NULL;
    int limit = length < 6 ? 1 : (int)length / 3;
    const char *nearest = NULL;
    for (int i = 0; i < count; ++i) {
        size_t longer = strlen(names[i]) > length ? strlen(names[i]) : length;
        int distance = near_distance(word, names[i]);
        if (distance > limit || distance >= (int)longer) /* all letters wrong is not near */
            continue;
        nearest = names[i];
        limit = distance - 1; /* only a nearer one replaces it */
    }
    return nearest;
}

static char plain(char letter)
{
    return letter == '_' || letter == '-' ? ' ' : folded(letter);
}

bool near_same(const char *name, const char *known)
{
    while (*name && plain(*name) == *known) {
        name++;
        known++;
    }
    return *name == '\0' && *known == '\0';
}

bool near_within(const char *text, const char *word)
{
    size_t length = strlen(word);
    for (; *text; text++) {
        size_t i = 0;
        while (i < length && folded(text[i]) == word[i])
            i++;
        if (i == length)
            return true;
    }
    return false;
}
