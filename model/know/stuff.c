/* SPDX-License-Identifier: GPL-3.0-or-later */
/* know/stuff.c - ingredients, and how a gardener's words find one.
 *
 * The numbers stand in know/stuff.def. A name is read as a set of plain words: case, order,
 * punctuation and small words dropped, plurals made singular, one word kept of several that mean
 * the same here or across the sea (fall and autumn, maize and corn, muck and manure). Two names are
 * the same when the sets are. Words of condition (fresh, dry, green, used) stay, since they tell
 * rows apart; words of form (chopped, torn) are dropped only when nothing fits with them.
 */
#include "know/stuff.h"
#include "base/near.h"
#include <stddef.h>
#include <string.h>

#define WORDS(...) NULL /* not here: below */

const struct stuff stuff_rows[] = {
#define STUFF(...) STUFF_AS(false, __VA_ARGS__)
#define DUNG(...) STUFF_AS(true, __VA_ARGS__)
#define STUFF_AS(dung, id, name, group, water_low, water, water_high, carbon, n_low, n, n_high, c_to_n, \
              bulk_low, bulk, bulk_high, fast, protein_fat, slow, lignin, ash, inert, piece, air, \
              settle, settles, seeds, keratin, mineral, ripe, n_mark, water_mark, bulk_mark,     \
              pools_mark, ash_mark, size_mark, n_source, water_source, bulk_source, pools_source, note, words)\
    {#id, name, STUFF_##group, {water_low, water, water_high}, carbon, {n_low, n, n_high}, c_to_n,\
     {bulk_low, bulk, bulk_high}, fast, protein_fat, slow, lignin, ash, inert, piece, air, settle,\
     STUFF_##settles, seeds, keratin, mineral, ripe, note, STUFF_##n_mark, STUFF_##water_mark,          \
     STUFF_##bulk_mark, STUFF_##pools_mark, STUFF_##ash_mark, STUFF_##size_mark, n_source,        \
     water_source, bulk_source, pools_source, 0, dung},
#include "know/stuff.def"
};

/* further names of each row, in the same order */
#undef WORDS
#define WORDS(...) (const char *const[]){__VA_ARGS__, NULL}
static const char *const *const also[] = {
#define STUFF(id, name, group, water_low, water, water_high, carbon, n_low, n, n_high, c_to_n,    \
              bulk_low, bulk, bulk_high, fast, protein_fat, slow, lignin, ash, inert, piece, air, \
              settle, settles, seeds, keratin, mineral, ripe, n_mark, water_mark, bulk_mark,     \
              pools_mark, ash_mark, size_mark, n_source, water_source, bulk_source, pools_source, note, words)\
    words,
#include "know/stuff.def"
};

enum { ROWS = sizeof stuff_rows / sizeof stuff_rows[0] };
const int stuff_count = ROWS;

/* one word for several, all in the singular */
static const char *const same[][2] = {
    {"leave", "leaf"},       {"turve", "turf"},         {"fall", "autumn"},
    {"maize", "corn"},       {"sweetcorn", "corn"},     {"dung", "manure"},
    {"muck", "manure"},      {"dropping", "manure"},    {"faece", "manure"},
    {"fece", "manure"},      {"poo", "manure"},         {"poop", "manure"},
    {"pat", "manure"},       {"hen", "chicken"},        {"poultry", "chicken"},
    {"fowl", "chicken"},     {"cattle", "cow"},         {"pony", "horse"},
    {"lucerne", "alfalfa"},  {"mold", "mould"},         {"lawn", "grass"},
    {"mowing", "clipping"},  {"cutting", "clipping"},   {"scrap", "waste"},
    {"leftover", "waste"},   {"refuse", "waste"},       {"peel", "peeling"},
    {"veg", "vegetable"},    {"veggie", "vegetable"},   {"yard", "garden"},
    {"dried", "dry"},        {"spent", "used"},         {"chipping", "chip"},
    {"stem", "stalk"},       {"earth", "soil"},         {"dirt", "soil"},
    {"newspaper", "newsprint"}, {"zucchini", "courgette"}, {"rotten", "rotted"},
};

static const char *const small_word[] = {"a",  "an",   "and", "at",   "for", "from", "in",
                                         "of", "or",   "some", "the", "to",  "with"};

static const char *const form_word[] = {"broken", "chopped", "clean", "crushed", "loose",
                                        "plain",  "shredded", "torn", "whole"};

enum { WORD_MOST = 24, WORDS_MOST = 12 };

/* a name as a sorted set of words */
struct word_set {
    char word[WORDS_MOST][WORD_MOST];
    int count;
};

static bool among(const char *word, const char *const *list, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(word, list[i]) == 0)
            return true;
    return false;
}

static bool ends(const char *word, const char *tail)
{
    size_t length = strlen(word), end = strlen(tail);
    return length > end && strcmp(word + length - end, tail) == 0;
}

/* English plurals as far as gardens need them */
static void make_singular(char *word)
{
    size_t length = strlen(word);
    if (length < 4 || !ends(word, "s") || ends(word, "ss") || ends(word, "us"))
        return;
    word[length - 1] = '\0';
    if (ends(word, "sse") || ends(word, "she") || ends(word, "che") || ends(word, "xe") ||
        ends(word, "oe"))
        word[length - 2] = '\0';
    else if (ends(word, "ie"))
        memcpy(word + length - 3, "y", 2);
}

static void make_plain(char *word)
{
    make_singular(word);
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++)
        if (strcmp(word, same[i][0]) == 0)
            memcpy(word, same[i][1], strlen(same[i][1]) + 1);
}

/* Adds a word in its place; false when there are too many. */
static bool set_add(struct word_set *set, const char *word)
{
    int at = 0;
    while (at < set->count && strcmp(set->word[at], word) < 0)
        at++;
    if (at < set->count && strcmp(set->word[at], word) == 0)
        return true;
    if (set->count == WORDS_MOST)
        return false;
    memmove(set->word[at + 1], set->word[at], (size_t)(set->count - at) * WORD_MOST);
    memcpy(set->word[at], word, strlen(word) + 1);
    set->count++;
    return true;
}

/* ASCII only and free of locale; bytes of other letters are kept as they are */
static bool letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           (unsigned char)c >= 128;
}

/* Copies the next word in lower case, an apostrophe dropped, and moves on; 0 at the end, -1 when
 * the word is too long to be one of ours. */
static int next_word(const char **text, char word[WORD_MOST])
{
    const char *at = *text;
    int length = 0;
    while (*at && !letter(*at))
        at++;
    for (; letter(*at) || (length && *at == '\''); at++) {
        if (*at == '\'')
            continue;
        if (length == WORD_MOST - 1)
            return -1;
        word[length++] = *at >= 'A' && *at <= 'Z' ? (char)(*at - 'A' + 'a') : *at;
    }
    word[length] = '\0';
    *text = at;
    return length;
}

/* Reads a name; false when it can't be one of ours. */
static bool set_read(struct word_set *set, const char *text, bool drop_form)
{
    char word[WORD_MOST];
    int length;
    set->count = 0;
    while ((length = next_word(&text, word)) > 0) {
        make_plain(word);
        if (among(word, small_word, sizeof small_word / sizeof small_word[0]))
            continue;
        if (drop_form && among(word, form_word, sizeof form_word / sizeof form_word[0]))
            continue;
        if (!set_add(set, word))
            return false;
    }
    return length == 0 && set->count > 0;
}

static bool set_is(const struct word_set *set, const char *text)
{
    struct word_set other;
    if (!set_read(&other, text, false) || other.count != set->count)
        return false;
    for (int i = 0; i < other.count; i++)
        if (strcmp(other.word[i], set->word[i]) != 0)
            return false;
    return true;
}

/* A name of a row: its name as shown, its further names, then its id; NULL after the last. */
static const char *name_of(int row, int which)
{
    if (which == 0)
        return stuff_rows[row].name;
    int further = 0;
    while (also[row][further])
        if (++further == which)
            return also[row][further - 1];
    return which == further + 1 ? stuff_rows[row].id : NULL;
}

static const struct stuff *row_of(const struct word_set *set)
{
    for (int row = 0; row < ROWS; row++)
        for (int which = 0; name_of(row, which); which++)
            if (set_is(set, name_of(row, which)))
                return &stuff_rows[row];
    return NULL;
}

const struct stuff *stuff_find(const char *words)
{
    struct word_set set;
    const struct stuff *row = NULL;
    if (set_read(&set, words, false))
        row = row_of(&set);
    if (!row && set_read(&set, words, true))
        row = row_of(&set);
    return row;
}

bool stuff_called(const char *name, const char *words)
{
    struct word_set set;
    return strcmp(name, words) == 0 || (set_read(&set, words, false) && set_is(&set, name));
}

/* The words of a name in their order of the alphabet, so that "manure, hrose" is near too. */
static void write_sorted(const struct word_set *set, char sorted[WORDS_MOST * WORD_MOST])
{
    for (int i = 0; i < set->count; i++) {
        size_t length = strlen(set->word[i]);
        memcpy(sorted, set->word[i], length);
        sorted += length;
        *sorted++ = i + 1 < set->count ? ' ' : '\0';
    }
}

static const char *shown(int row, const char *name)
{
    return name == stuff_rows[row].id ? stuff_rows[row].name : name;
}

static bool has_all(const struct word_set *whole, const struct word_set *part)
{
    int held = 0;
    for (int i = 0; i < part->count; i++)
        for (int j = 0; j < whole->count; j++)
            held += strcmp(part->word[i], whole->word[j]) == 0;
    return held == part->count;
}

/* The first name that holds all the words asked for: "manure" alone is no row, but close to one.
 * Else the one with most words of those that hold nothing else: "old hay" is hay. */
static const char *by_words(const struct word_set *asked)
{
    const char *held = NULL, *name;
    int most = 0;
    struct word_set known;
    for (int row = 0; row < ROWS; row++)
        for (int which = 0; (name = name_of(row, which)); which++) {
            if (!set_read(&known, name, true))
                continue;
            if (has_all(&known, asked))
                return shown(row, name);
            if (known.count > most && has_all(asked, &known)) {
                most = known.count;
                held = shown(row, name);
            }
        }
    return held;
}

/* Word by word, since "garden waste" is few letters from "paper waste", "leaf old" from
 * "leafmold", and nothing like it. */
static bool words_near(const struct word_set *a, const struct word_set *b)
{
    bool near = a->count == b->count;
    for (int i = 0; near && i < a->count; i++) {
        const char *const one = b->word[i];
        near = near_name(a->word[i], &one, 1) != NULL;
    }
    return near;
}

const char *stuff_nearest(const char *words)
{
    char asked[WORDS_MOST * WORD_MOST], known[WORDS_MOST * WORD_MOST];
    struct word_set asked_set, known_set;
    const char *nearest = NULL, *name;
    int least = NEAR_FAR;
    if (!set_read(&asked_set, words, true))
        return NULL;
    write_sorted(&asked_set, asked);
    for (int row = 0; row < ROWS; row++)
        for (int which = 0; (name = name_of(row, which)); which++) {
            if (!set_read(&known_set, name, true) || !words_near(&asked_set, &known_set))
                continue;
            write_sorted(&known_set, known);
            int distance = near_distance(asked, known);
            if (distance < least) {
                least = distance;
                nearest = shown(row, name);
            }
        }
    return nearest ? nearest : by_words(&asked_set);
}

const char *stuff_group_word(enum stuff_group group)
{
    static const char *const word[] = {"green", "brown", "soil", "mineral", "other"};
    return word[group];
}

const char *stuff_class_word(enum stuff_class settles)
{
    static const char *const word[] = {"stiff", "firm", "springy", "soft", "slumps"};
    return word[settles];
}

const char *stuff_mark_word(enum stuff_mark mark)
{
    static const char *const word[] = {"seen", "memory", "trade", "derived", "given"};
    return word[mark];
}
