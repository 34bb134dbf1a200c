/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/words.c - reading one text of a file word by word. */
#include "door/words.h"
#include "base/near.h"
#include "door/digits.h"
#include <stdio.h>
#include <string.h>

enum { NAMES_MOST = 96 };

static bool blank(char letter)
{
    return letter == ' ' || letter == '\t';
}

static bool digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

static void skip(struct words *words, size_t bytes)
{
    words->at += bytes;
    while (blank(*words->at))
        words->at++;
}

bool words_open(struct words *words, struct fault *fault, const struct tree_node *node,
                const char *expected)
{
    *words = (struct words){.fault = fault, .node = node, .at = "", .expected = expected};
    if (node->broken)
        return false;
    if (node->kind != TREE_TEXT)
        return words_fault(words, "a %s stands here", node->kind == TREE_LIST ? "list" : "map");
    words->at = node->text;
    skip(words, 0);
    return *words->at != '\0' || words_fault(words, "nothing stands here");
}

/* characters before the cursor; 0 where the text as written can't be counted (quotes, folding) */
static int before(const struct words *words)
{
    int count = 0;
    if (words->node->kind == TREE_TEXT && words->node->plain)
        for (const char *at = words->node->text; at < words->at; at++)
            count += ((unsigned char)*at & 0xC0) != 0x80;
    return count;
}

bool words_fault(struct words *words, const char *format, ...)
{
    char what[FAULT_TEXT];
    va_list list;
    va_start(list, format);
    vsnprintf(what, sizeof what, format, list);
    va_end(list);
    const struct tree_node *node = words->node;
    return fault_at(words->fault, node->line, node->column + before(words), "%s; expected %s", what,
                    words->expected);
}

/* the word at the cursor, for a message */
static const char *this_word(const struct words *words, char quote[FAULT_QUOTE])
{
    char word[2 * FAULT_QUOTE];
    size_t length = strcspn(words->at, " \t");
    if (length >= sizeof word)
        length = sizeof word - 1;
    memcpy(word, words->at, length);
    word[length] = '\0';
    return fault_quote(word, quote);
}

bool words_done(struct words *words)
{
    char quote[FAULT_QUOTE];
    return *words->at == '\0'
           || words_fault(words, "`%s` is too much here", fault_quote(words->at, quote));
}

bool words_take(struct words *words, const char *spellings)
{
    size_t length = unit_spelt(words->at, spellings);
    skip(words, length);
    return length > 0;
}

bool words_need(struct words *words, const char *spellings)
{
    char quote[FAULT_QUOTE];
    if (words_take(words, spellings))
        return true;
    int first = (int)strcspn(spellings, "|");
    if (!*words->at)
        return words_fault(words, "`%.*s` is missing", first, spellings);
    return words_fault(words, "`%s` where `%.*s` should stand", this_word(words, quote), first,
                       spellings);
}

bool words_number(struct words *words, double *value)
{
    char quote[FAULT_QUOTE];
    int significant;
    double number = 0.0;
    size_t taken = digits_number(words->at, &number, &significant);
    const char *hint = digits_hint(words->at, taken);
    if (hint)
        return words_fault(words, "`%s` can't be read as a number: %s", this_word(words, quote),
                           hint);
    if (taken == 0 && !*words->at)
        return words_fault(words, "a number is missing");
    if (taken == 0)
        return words_fault(words, "`%s` is not a number", this_word(words, quote));
    if (significant > DIGITS_EXACT)
        return words_fault(words, "`%s` has more than 15 digits", this_word(words, quote));
    *value = number;
    skip(words, taken);
    return true;
}

bool words_whole(struct words *words, int least, int most, int *value)
{
    struct words start = *words;
    double number = 0.0;
    if (!words_number(words, &number))
        return false;
    if (!(number >= least && number <= most) || number != (double)(int)number)
        return words_fault(&start, "not a whole number from %d to %d", least, most);
    *value = (int)number;
    return true;
}

bool words_range(struct words *words, struct span *span)
{
    struct words start = *words;
    if (!words_number(words, &span->low))
        return false;
    span->high = span->low;
    if (words_take(words, "to") && !words_number(words, &span->high))
        return false;
    span->mid = 0.5 * (span->low + span->high);
    return span->low <= span->high
           || words_fault(&start, "this span falls; write the smaller number first");
}

/* bytes of a vessel's name at the cursor, with the vessel as a unit */
static size_t vessel_at(const struct words *words, struct unit *unit)
{
    static const char *const names[WORDS_VESSELS] = {
        [WORDS_BUCKET] = "bucket|buckets|pail|pails",
        [WORDS_BARROW] = "barrow|barrows|wheelbarrow|wheelbarrows",
        [WORDS_BAG] = "bag|bags|sack|sacks",
    };
    static const char *const shown[WORDS_VESSELS] = {"bucket", "barrow", "bag"};
    for (int i = 0; words->vessel_m3 && i < WORDS_VESSELS; i++) {
        size_t length = unit_spelt(words->at, names[i]);
        if (length) {
            *unit = (struct unit){shown[i], "", UNIT_VOLUME, 0.0, words->vessel_m3[i]};
            return length;
        }
    }
    return 0;
}

/* the units of some kinds, for a message; vessels first, since that is what gardeners count in */
static int gather_units(const struct words *words, unsigned kinds, const char **names)
{
    int count = 0;
    if (words->vessel_m3 && (kinds & 1u << UNIT_VOLUME)) {
        names[count++] = "bucket";
        names[count++] = "barrow";
        names[count++] = "bag";
    }
    for (int i = 0; i < unit_count && count < NAMES_MOST; i++)
        if (kinds & 1u << unit_rows[i].kind)
            names[count++] = unit_rows[i].name;
    return count;
}

static bool unit_fault(struct words *words, unsigned kinds, const struct unit *wrong)
{
    static const char *const plurals[] = {"buckets", "barrows", "bags", "litres", "days", "weeks"};
    const char *names[NAMES_MOST];
    char list[240], quote[FAULT_QUOTE], expected[360], word[FAULT_QUOTE];
    int count = gather_units(words, kinds, names);
    words_list(names, count, list, sizeof list);
    const char *near = near_name(this_word(words, word), names, count);
    if (!near)
        near = near_name(word, plurals, (int)(sizeof plurals / sizeof plurals[0]));
    if (wrong || !*words->at || unit_question(words->at) || (near && strcmp(near, word) == 0))
        near = NULL; /* a word that is right elsewhere is no better here */
    snprintf(expected, sizeof expected, "%s, with a unit: %s%s%s%s", words->expected, list,
             near ? "; did you mean `" : "", near ? near : "", near ? "`?" : "");
    struct words here = *words;
    here.expected = expected;
    if (!*words->at)
        return words_fault(&here, "a number without its unit");
    if (wrong)
        return words_fault(&here, "`%s` is a unit of %s", wrong->name, unit_kind_word(wrong->kind));
    if (unit_question(words->at))
        return words_fault(&here, "`%s`: %s", this_word(words, quote), unit_question(words->at));
    return words_fault(&here, "`%s` is not a unit", this_word(words, quote));
}

bool words_unit(struct words *words, unsigned kinds, struct unit *unit)
{
    size_t length;
    const struct unit *found = unit_at(words->at, &length);
    if (found && kinds & 1u << found->kind) {
        *unit = *found;
        skip(words, length);
        return true;
    }
    struct unit vessel;
    length = kinds & 1u << UNIT_VOLUME ? vessel_at(words, &vessel) : 0;
    if (length == 0)
        return unit_fault(words, kinds, found);
    *unit = vessel;
    skip(words, length);
    return true;
}

bool words_span(struct words *words, enum unit_kind kind, struct span *SI)
{
    struct unit unit;
    struct span range = {0};
    if (!words_range(words, &range) || !words_unit(words, 1u << kind, &unit))
        return false;
    SI->low = unit_to_SI(&unit, range.low);
    SI->mid = unit_to_SI(&unit, range.mid);
    SI->high = unit_to_SI(&unit, range.high);
    return true;
}

bool words_quantity(struct words *words, enum unit_kind kind, double *SI)
{
    struct unit unit;
    double value = 0.0;
    if (!words_number(words, &value) || !words_unit(words, 1u << kind, &unit))
        return false;
    *SI = unit_to_SI(&unit, value);
    return true;
}

/* bytes of a times sign at the cursor, which may stand close to its numbers: 1x1x1 m */
static size_t times_at(const struct words *words)
{
    if (words->at[0] == 'x' && (blank(words->at[1]) || digit(words->at[1])))
        return 1;
    return strncmp(words->at, "×", strlen("×")) == 0 ? strlen("×") : 0;
}

bool words_sides(struct words *words, int count, double *side_m)
{
    struct unit unit[WORDS_SIDES];
    bool own[WORDS_SIDES];
    for (int i = 0; i < count; i++) {
        if (!words_number(words, &side_m[i]))
            return false;
        own[i] = i + 1 == count || times_at(words) == 0;
        if (own[i] && !words_unit(words, 1u << UNIT_LENGTH, &unit[i]))
            return false;
        if (i + 1 < count && times_at(words) == 0)
            return words_fault(words, "%d of %d lengths stand here", i + 1, count);
        skip(words, i + 1 < count ? times_at(words) : 0);
    }
    for (int i = 0; i < count; i++)
        side_m[i] = unit_to_SI(own[i] ? &unit[i] : &unit[count - 1], side_m[i]);
    return true;
}

bool words_within(struct words *words, double value, double least, double most, const char *range)
{
    struct words start = *words;
    start.at = words->node->text;
    start.expected = range;
    char quote[FAULT_QUOTE];
    return (value >= least && value <= most)
           || words_fault(&start, "`%s` is out of reach", fault_quote(words->node->text, quote));
}

bool words_date(struct words *words, date_count *number)
{
    char quote[FAULT_QUOTE];
    if (!*words->at)
        return words_fault(words, "a date is missing");
    struct date date;
    if (!digits_date(words->at, &date))
        return words_fault(words, "`%s` is not a date written as year-month-day, like 2025-10-18",
                           this_word(words, quote));
    if (!date_valid(date))
        return words_fault(words, "the calendar from 1900 to 2200 has no day %s",
                           this_word(words, quote));
    *number = date_number(date);
    skip(words, 10);
    return true;
}

bool words_try_choice(struct words *words, const char *const *names, int count, int *index)
{
    size_t most = 0;
    for (int i = 0; i < count; i++) {
        size_t length = unit_spelt(words->at, names[i]);
        if (length > most) {
            most = length;
            *index = i;
        }
    }
    skip(words, most);
    return most > 0;
}

/* the first spelling of a name */
static const char *shown(const char *name, char quote[FAULT_QUOTE])
{
    char first[2 * FAULT_QUOTE];
    snprintf(first, sizeof first, "%.*s", (int)strcspn(name, "|"), name);
    return fault_quote(first, quote);
}

/* the name nearest to the rest of the text, or to its next word */
static const char *nearest(const struct words *words, const char *const *names, int count,
                           char quote[FAULT_QUOTE])
{
    char word[FAULT_QUOTE], first[NAMES_MOST][FAULT_QUOTE];
    const char *list[NAMES_MOST];
    for (int i = 0; i < count && i < NAMES_MOST; i++)
        list[i] = shown(names[i], first[i]);
    if (count > NAMES_MOST)
        count = NAMES_MOST;
    const char *near = near_name(words->at, list, count);
    if (!near)
        near = near_name(this_word(words, word), list, count);
    if (!near)
        return NULL;
    snprintf(quote, FAULT_QUOTE, "%s", near);
    return quote;
}

bool words_choice(struct words *words, const char *const *names, int count, int *index)
{
    char list[240], quote[FAULT_QUOTE], near[FAULT_QUOTE], expected[320];
    if (words_try_choice(words, names, count, index))
        return true;
    struct words here = *words;
    words_list(names, count, list, sizeof list);
    bool found = *words->at && nearest(words, names, count, near);
    snprintf(expected, sizeof expected, "%s%s%s%s", list, found ? "; did you mean `" : "",
             found ? near : "", found ? "`?" : "");
    here.expected = expected;
    if (!*words->at)
        return words_fault(&here, "a word is missing");
    return words_fault(&here, "`%s` isn't known here", fault_quote(words->at, quote));
}

bool words_weekday(struct words *words, int *weekday)
{
    static const char *const names[] = {"Monday|Mondays|Mon",       "Tuesday|Tuesdays|Tue",
                                        "Wednesday|Wednesdays|Wed", "Thursday|Thursdays|Thu",
                                        "Friday|Fridays|Fri",       "Saturday|Saturdays|Sat",
                                        "Sunday|Sundays|Sun"};
    return words_choice(words, names, 7, weekday);
}

const char *words_list(const char *const *names, int count, char *list, size_t room)
{
    size_t used = 0;
    list[0] = '\0';
    for (int i = 0; i < count; i++) {
        char quote[FAULT_QUOTE];
        const char *join = i == 0 ? "" : i + 1 < count ? ", " : " or ";
        const char *name = shown(names[i], quote);
        if (used + strlen(join) + strlen(name) + sizeof "``, ..." > room) {
            snprintf(list + used, room - used, ", ...");
            break;
        }
        used += (size_t)snprintf(list + used, room - used, "%s`%s`", join, name);
    }
    return list;
}
