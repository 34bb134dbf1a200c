/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/tree.c - YAML as a small tree that keeps line and column, from libyaml's events.
 *
 * libyaml takes the text apart and this file puts it together, so that every part keeps its place.
 * What libyaml doesn't mind is refused here: a key that stands twice, anchors and aliases (a few
 * lines of them unfold to gigabytes), tags, further documents, control characters. Marks of libyaml
 * count from 0; of an encoding mistake it gives an offset only, which is counted out again.
 */
#include "door/tree.h"
#include "door/complaints.h"
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

struct maker {
    struct tree *tree;
    struct fault *fault;
    struct tree_node *open[TREE_DEPTH]; /* lists and maps not yet closed */
    int depth;
    char *key; /* read, and waiting for its value */
    int key_line, key_column;
    bool twice; /* that key stands in the map already */
    int documents;
};

static bool fault_mark(struct maker *maker, yaml_mark_t mark, const char *what)
{
    return fault_at(maker->fault, (int)mark.line + 1, (int)mark.column + 1, "%s", what);
}

/* Line and column of an offset in bytes; carriage returns alone end no line here. */
static void place_of(const char *text, size_t offset, int *line, int *column)
{
    *line = *column = 1;
    for (size_t i = 0; i < offset; i++) {
        if (text[i] == '\n') {
            ++*line;
            *column = 1;
        } else if (((unsigned char)text[i] & 0xC0) != 0x80 && text[i] != '\r') {
            ++*column;
        }
    }
}

/* Is the character at a mark a tab? */
static bool is_tab(const char *text, yaml_mark_t mark)
{
    for (size_t line = 0; line < mark.line && text; line++)
        if ((text = strchr(text, '\n')))
            text++;
    return text && mark.column == 0 && *text == '\t';
}

/* of an encoding mistake libyaml knows the byte: inside a character, that which doesn't fit */
static bool complain_of_bytes(struct maker *maker, const yaml_parser_t *parser, const char *text,
                              size_t length)
{
    int line, column;
    size_t offset = parser->problem_offset < length ? parser->problem_offset : length;
    if (!strncmp(parser->problem, "invalid trailing", strlen("invalid trailing"))) {
        while (offset > 0 && ((unsigned char)text[offset - 1] & 0xC0) == 0x80)
            offset--;
        offset -= offset > 0;
    }
    place_of(text, offset, &line, &column);
    return fault_at(maker->fault, line, column, "%s", complaints_plainly(parser->problem));
}

static bool complain(struct maker *maker, const yaml_parser_t *parser, const char *text,
                     size_t length)
{
    if (parser->error == YAML_MEMORY_ERROR || !parser->problem)
        return fault_memory(maker->fault);
    if (parser->error == YAML_READER_ERROR)
        return complain_of_bytes(maker, parser, text, length);
    yaml_mark_t mark = parser->problem_mark, open = parser->context_mark;
    if (is_tab(text, mark))
        return fault_mark(maker, mark, "a tab; expected blanks for indentation");
    if (!parser->context || open.line >= mark.line)
        return fault_mark(maker, mark, complaints_plainly(parser->problem));
    return fault_at(maker->fault, (int)mark.line + 1, (int)mark.column + 1,
                    "%s; what is unfinished here begins at %d:%d",
                    complaints_plainly(parser->problem), (int)open.line + 1, (int)open.column + 1);
}

/* Escapes can bring in what the file itself can't hold: NUL, line ends, terminal commands. */
static bool holds_control(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        unsigned char byte = (unsigned char)text[i];
        bool upper = byte == 0xC2 && i + 1 < length && (unsigned char)text[i + 1] < 0xA0;
        if (byte < 0x20 || byte == 0x7F || upper)
            return true;
    }
    return false;
}

static char *copy_of(const char *text, size_t length)
{
    char *copy = malloc(length + 1);
    if (copy) {
        memcpy(copy, text, length);
        copy[length] = '\0';
    }
    return copy;
}

static struct tree_node *innermost(const struct maker *maker)
{
    return maker->depth ? maker->open[maker->depth - 1] : NULL;
}

static bool awaits_key(const struct maker *maker)
{
    const struct tree_node *parent = innermost(maker);
    return parent && parent->kind == TREE_MAP && !maker->key;
}

/* takes its place in the list or map that is open; a key's second value is kept out of the map */
static void hang(struct maker *maker, struct tree_node *node)
{
    struct tree_node *parent = innermost(maker);
    bool twice = maker->twice;
    node->key = maker->key;
    node->key_line = maker->key_line;
    node->key_column = maker->key_column;
    maker->key = NULL;
    maker->twice = false;
    if (!parent) {
        maker->tree->root = node;
        return;
    }
    if (parent->kind == TREE_MAP && twice)
        return;
    if (parent->last)
        parent->last->next = node;
    else
        parent->child = node;
    parent->last = node;
    parent->children++;
}

static struct tree_node *add(struct maker *maker, enum tree_kind kind, yaml_mark_t mark)
{
    struct tree *tree = maker->tree;
    if (tree->nodes == TREE_NODES) {
        fault_mark(maker, mark, "the file has more parts than any scenario; is it the right file?");
        return NULL;
    }
    struct tree_node *node = calloc(1, sizeof *node);
    if (!node) {
        fault_memory(maker->fault);
        return NULL;
    }
    node->kind = kind;
    node->line = (int)mark.line + 1;
    node->column = (int)mark.column + 1;
    node->older = tree->newest;
    tree->newest = node;
    tree->nodes++;
    hang(maker, node);
    return node;
}

static void check_twice(struct maker *maker, const struct tree_node *map, yaml_mark_t mark)
{
    char quote[FAULT_QUOTE];
    const struct tree_node *first = tree_find(map, maker->key);
    maker->twice = first != NULL;
    if (first)
        fault_at(maker->fault, (int)mark.line + 1, (int)mark.column + 1,
                 "the key `%s` stands on line %d already; expected each key once",
                 fault_quote(maker->key, quote), first->key_line);
}

static bool take_key(struct maker *maker, const yaml_event_t *event)
{
    const struct tree_node *map = innermost(maker);
    const char *text = (const char *)event->data.scalar.value;
    size_t length = event->data.scalar.length;
    if (holds_control(text, length))
        return fault_mark(maker, event->start_mark, "a key holds a line end or control character");
    if (map->children >= TREE_KEYS)
        return fault_mark(maker, event->start_mark, "more than 1000 keys in one map");
    maker->key = copy_of(text, length);
    if (!maker->key)
        return fault_memory(maker->fault);
    maker->key_line = (int)event->start_mark.line + 1;
    maker->key_column = (int)event->start_mark.column + 1;
    check_twice(maker, map, event->start_mark);
    return true;
}

static bool take_text(struct maker *maker, const yaml_event_t *event)
{
    const char *text = (const char *)event->data.scalar.value;
    size_t length = event->data.scalar.length;
    struct tree_node *node = add(maker, TREE_TEXT, event->start_mark);
    if (!node)
        return false;
    node->plain = event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE
                  && event->start_mark.line == event->end_mark.line;
    if (holds_control(text, length)) {
        node->broken = true;
        fault_mark(maker, event->start_mark,
                   "the text holds a line end or control character; expected plain words");
        length = 0;
    }
    node->text = copy_of(text, length);
    return node->text || fault_memory(maker->fault);
}

static bool take_start(struct maker *maker, enum tree_kind kind, const yaml_event_t *event)
{
    if (awaits_key(maker))
        return fault_mark(maker, event->start_mark, "a key must be words, not a list or a map");
    if (maker->depth == TREE_DEPTH)
        return fault_mark(maker, event->start_mark, "lists and maps are nested too deep");
    struct tree_node *node = add(maker, kind, event->start_mark);
    if (!node)
        return false;
    maker->open[maker->depth++] = node;
    return true;
}

/* what an alias stood for is not known: an empty text nobody complains about again */
static bool take_alias(struct maker *maker, const yaml_event_t *event)
{
    fault_mark(maker, event->start_mark,
               "`*name` (an alias) isn't read here; write the value out, or put it in quotes");
    if (awaits_key(maker))
        return false;
    struct tree_node *node = add(maker, TREE_TEXT, event->start_mark);
    if (!node)
        return false;
    node->broken = true;
    node->text = copy_of("", 0);
    return node->text || fault_memory(maker->fault);
}

static void refuse_extras(struct maker *maker, const yaml_event_t *event, const yaml_char_t *anchor,
                          const yaml_char_t *tag)
{
    if (anchor)
        fault_mark(maker, event->start_mark,
                   "`&name` (an anchor) isn't read here; leave it out, or put the value in quotes");
    if (tag)
        fault_mark(maker, event->start_mark,
                   "`!name` (a tag) isn't read here; leave it out, or put the value in quotes");
}

static bool take_document(struct maker *maker, const yaml_event_t *event)
{
    if (maker->documents++)
        return fault_mark(maker, event->start_mark,
                          "a second document begins; expected one scenario a file");
    return true;
}

/* an event that opens or closes something */
static bool take_frame(struct maker *maker, const yaml_event_t *event)
{
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        return take_document(maker, event);
    case YAML_SEQUENCE_START_EVENT:
        refuse_extras(maker, event, event->data.sequence_start.anchor,
                      event->data.sequence_start.tag);
        return take_start(maker, TREE_LIST, event);
    case YAML_MAPPING_START_EVENT:
        refuse_extras(maker, event, event->data.mapping_start.anchor,
                      event->data.mapping_start.tag);
        return take_start(maker, TREE_MAP, event);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        maker->depth--;
        return true;
    default:
        return true;
    }
}

static bool take(struct maker *maker, const yaml_event_t *event)
{
    if (event->type == YAML_ALIAS_EVENT)
        return take_alias(maker, event);
    if (event->type != YAML_SCALAR_EVENT)
        return take_frame(maker, event);
    refuse_extras(maker, event, event->data.scalar.anchor, event->data.scalar.tag);
    return awaits_key(maker) ? take_key(maker, event) : take_text(maker, event);
}

static bool make(struct maker *maker, yaml_parser_t *parser, const char *text, size_t length)
{
    bool more = true, good = true;
    while (more && good) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event))
            return complain(maker, parser, text, length);
        more = event.type != YAML_STREAM_END_EVENT;
        good = take(maker, &event);
        yaml_event_delete(&event);
    }
    if (good && !maker->tree->root)
        return fault_at(maker->fault, 1, 1, "the file is empty; expected a scenario");
    return good;
}

bool tree_read(struct tree *tree, const char *text, size_t length, struct fault *fault)
{
    struct maker maker = {.tree = tree, .fault = fault};
    yaml_parser_t parser;
    *tree = (struct tree){0};
    if (!yaml_parser_initialize(&parser))
        return fault_memory(fault);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text, length);
    bool good = make(&maker, &parser, text, length);
    free(maker.key);
    yaml_parser_delete(&parser);
    return good;
}

void tree_free(struct tree *tree)
{
    while (tree->newest) {
        struct tree_node *node = tree->newest;
        tree->newest = node->older;
        free(node->key);
        free(node->text);
        free(node);
    }
    *tree = (struct tree){0};
}

const struct tree_node *tree_find(const struct tree_node *map, const char *key)
{
    for (const struct tree_node *node = map->child; node; node = node->next)
        if (node->key && !strcmp(node->key, key))
            return node;
    return NULL;
}
