/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/keys.c - reading a map by a table of its keys, and what all such readers share. */
#include "door/keys.h"
#include "base/near.h"
#include <stdio.h>
#include <string.h>

enum {
    ROWS_MOST = 40,
    ASSUMED_MOST =
        sizeof((struct scenario){0}.assumption) / sizeof((struct scenario){0}.assumption[0])
};

bool keys_fault(struct reader *reader, const struct tree_node *node, const char *format, ...)
{
    va_list list;
    if (node->broken)
        return false;
    va_start(list, format);
    fault_at_list(&reader->fault, node->line, node->column, format, list);
    va_end(list);
    return false;
}

bool keys_key_fault(struct reader *reader, const struct tree_node *node, const char *format, ...)
{
    va_list list;
    int line = node->key ? node->key_line : node->line;
    int column = node->key ? node->key_column : node->column;
    va_start(list, format);
    fault_at_list(&reader->fault, line, column, format, list);
    va_end(list);
    return false;
}

void keys_assume(struct reader *reader, const char *format, ...)
{
    struct scenario *scenario = reader->scenario;
    if (scenario->assumed == ASSUMED_MOST)
        return;
    char *text = scenario->assumption[scenario->assumed];
    va_list list;
    va_start(list, format);
    vsnprintf(text, sizeof scenario->assumption[0], format, list);
    va_end(list);
    for (int i = 0; i < scenario->assumed; i++)
        if (!strcmp(scenario->assumption[i], text))
            return;
    scenario->assumed++;
}

static const char *kind_word(const struct tree_node *node)
{
    if (node->kind == TREE_TEXT)
        return *node->text ? "a text" : "nothing";
    return node->kind == TREE_LIST ? "a list" : "a map";
}

bool keys_list(struct reader *reader, const struct tree_node *node, const char *what)
{
    if (node->kind == TREE_LIST && node->children)
        return true;
    return keys_fault(reader, node, "%s stands here; expected %s, one `- ` item a line",
                      node->kind == TREE_LIST ? "an empty list" : kind_word(node), what);
}

bool keys_map(struct reader *reader, const struct tree_node *node, const char *what)
{
    if (node->kind == TREE_MAP && node->children)
        return true;
    char quote[FAULT_QUOTE];
    const char *colon = node->kind == TREE_TEXT ? strchr(node->text, ':') : NULL;
    if (colon && colon[1] && colon[1] != ' ')
        return keys_fault(reader, node, "`%s` is one word; write a blank after the colon",
                          fault_quote(node->text, quote));
    return keys_fault(reader, node, "%s stands here; expected %s as `key: value`",
                      node->kind == TREE_MAP ? "an empty map" : kind_word(node), what);
}

static void fault_unknown(struct reader *reader, const struct tree_node *node,
                          const struct keys_row *rows, int count, const char *what)
{
    const char *names[ROWS_MOST];
    char list[300], quote[FAULT_QUOTE];
    for (int i = 0; i < count && i < ROWS_MOST; i++)
        names[i] = rows[i].name;
    const char *near = near_name(node->key, names, count);
    words_list(names, count, list, sizeof list);
    keys_key_fault(reader, node, "`%s` is not a key of %s; expected %s%s%s%s",
                   fault_quote(node->key, quote), what, list, near ? "; did you mean `" : "",
                   near ? near : "", near ? "`?" : "");
}

static bool known(const struct keys_row *rows, int count, const char *key)
{
    for (int i = 0; i < count; i++)
        if (!strcmp(rows[i].name, key))
            return true;
    return false;
}

bool keys_read(struct reader *reader, const struct tree_node *map, const struct keys_row *rows,
               int count, const char *what, void *into)
{
    if (!keys_map(reader, map, what))
        return false;
    for (const struct tree_node *node = map->child; node; node = node->next)
        if (!known(rows, count, node->key))
            fault_unknown(reader, node, rows, count, what);
    for (int i = 0; i < count; i++) {
        const struct tree_node *node = tree_find(map, rows[i].name);
        if (node)
            rows[i].read(reader, node, into);
    }
    return true;
}

bool keys_misspelt(const struct tree_node *map, const char *key)
{
    for (const struct tree_node *node = map->child; node; node = node->next)
        if (node->key && near_name(node->key, &key, 1))
            return true;
    return false;
}

const struct tree_node *keys_need(struct reader *reader, const struct tree_node *map,
                                  const char *key, const char *what)
{
    const struct tree_node *node = tree_find(map, key);
    if (!node && !keys_misspelt(map, key))
        keys_key_fault(reader, map, "the key `%s` is missing; expected it in %s", key, what);
    return node;
}

bool keys_open(struct reader *reader, struct words *words, const struct tree_node *node,
               const char *expected)
{
    bool good = words_open(words, &reader->fault, node, expected);
    words->vessel_m3 = reader->vessel_m3;
    return good;
}

bool keys_span(struct reader *reader, const struct tree_node *node, enum unit_kind kind,
               double least, double most, const char *range, struct span *SI)
{
    struct words words;
    struct span span;
    if (!keys_open(reader, &words, node, range) || !words_span(&words, kind, &span)
        || !words_done(&words) || !words_within(&words, span.low, least, most, range)
        || !words_within(&words, span.high, least, most, range))
        return false;
    *SI = span;
    return true;
}

bool keys_quantity(struct reader *reader, const struct tree_node *node, enum unit_kind kind,
                   double least, double most, const char *range, double *SI)
{
    struct words words;
    double value;
    if (!keys_open(reader, &words, node, range) || !words_quantity(&words, kind, &value)
        || !words_done(&words) || !words_within(&words, value, least, most, range))
        return false;
    *SI = value;
    return true;
}

bool keys_date(struct reader *reader, const struct tree_node *node, date_count *date)
{
    struct words words;
    return keys_open(reader, &words, node, "a date") && words_date(&words, date)
           && words_done(&words);
}

bool keys_choice(struct reader *reader, const struct tree_node *node, const char *const *names,
                 int count, int *index)
{
    char list[240];
    struct words words;
    return keys_open(reader, &words, node, words_list(names, count, list, sizeof list))
           && words_choice(&words, names, count, index) && words_done(&words);
}

bool keys_name(struct reader *reader, const struct tree_node *node, char name[PLAN_NAME])
{
    struct words words;
    if (!keys_open(reader, &words, node, "a name of at most 63 letters"))
        return false;
    size_t length = strlen(node->text);
    if (length >= PLAN_NAME)
        return words_fault(&words, "%zu bytes are too long", length);
    memcpy(name, node->text, length + 1);
    return true;
}

bool keys_key_name(struct reader *reader, const struct tree_node *node, char name[PLAN_NAME])
{
    size_t length = strlen(node->key);
    if (length == 0 || length >= PLAN_NAME)
        return keys_key_fault(reader, node, "a name of %zu bytes; expected 1 to 63", length);
    memcpy(name, node->key, length + 1);
    return true;
}

bool keys_path(struct reader *reader, const struct tree_node *node, const char *expected,
               char *path, size_t size)
{
    struct words words;
    if (!keys_open(reader, &words, node, expected))
        return false;
    const char *folder = *node->text == '/' ? "" : reader->folder;
    int length = snprintf(path, size, "%s%s", folder, node->text);
    return (length >= 0 && (size_t)length < size) || words_fault(&words, "the name is too long");
}
