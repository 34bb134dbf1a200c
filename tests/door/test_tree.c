/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_tree.c - door/tree: places are kept, and what a hand doesn't write is refused. */
#include "door/tree.h"
#include "lib/near.h"
#include <stdio.h>
#include <stdlib.h>

static struct fault FAULT;
static struct tree TREE;

static bool grow(const char *text, size_t length)
{
    FAULT = (struct fault){.file = "a.yaml"};
    return tree_read(&TREE, text, length, &FAULT);
}

static const struct tree_node *good(const char *text)
{
    if (!grow(text, strlen(text)) || FAULT.count)
        fail_msg("%d:%d %s", FAULT.kept[0].line, FAULT.kept[0].column, FAULT.kept[0].text);
    return TREE.root;
}

static void bad(const char *text, int line, int column, const char *words)
{
    grow(text, strlen(text));
    tree_free(&TREE);
    assert_true(FAULT.count > 0);
    if (FAULT.kept[0].line != line || FAULT.kept[0].column != column
        || !strstr(FAULT.kept[0].text, words))
        fail_msg("%d:%d %s", FAULT.kept[0].line, FAULT.kept[0].column, FAULT.kept[0].text);
}

static void keys_values_and_places_are_kept(void **state)
{
    (void)state;
    const struct tree_node *root = good("a: 1\nlong key:\n  - x y\n  - {b: \"2\"}\n");
    assert_int_equal(root->kind, TREE_MAP);
    assert_int_equal(root->children, 2);
    const struct tree_node *list = tree_find(root, "long key");
    assert_int_equal(list->key_line, 2);
    assert_int_equal(list->key_column, 1);
    assert_int_equal(list->line, 3);
    assert_int_equal(list->column, 3);
    assert_string_equal(list->child->text, "x y");
    assert_true(list->child->plain);
    const struct tree_node *two = tree_find(list->child->next, "b");
    assert_string_equal(two->text, "2");
    assert_false(two->plain);
    assert_int_equal(two->column, 9);
    tree_free(&TREE);
}

static void words_stay_words(void **state)
{
    (void)state;
    const struct tree_node *root = good("no: yes\n~: null\n0x10: 1e3\n");
    assert_string_equal(tree_find(root, "no")->text, "yes");
    assert_string_equal(tree_find(root, "~")->text, "null");
    assert_string_equal(tree_find(root, "0x10")->text, "1e3");
    tree_free(&TREE);
}

static void columns_count_letters_not_bytes(void **state)
{
    (void)state;
    const struct tree_node *root = good("{täg: 1, ö: 2}\n");
    assert_int_equal(tree_find(root, "ö")->key_column, 10);
    tree_free(&TREE);
}

static void windows_and_byte_order_marks_do_no_harm(void **state)
{
    (void)state;
    static const char sixteen[] = "\xff\xfe"
                                  "a\0:\0 \0b\0\n\0";
    assert_string_equal(tree_find(good("\xef\xbb\xbf"
                                       "a: 1\r\nb: 2\r\n"),
                                  "b")
                            ->text,
                        "2");
    tree_free(&TREE);
    assert_true(grow(sixteen, sizeof sixteen - 1));
    assert_string_equal(tree_find(TREE.root, "a")->text, "b");
    tree_free(&TREE);
}

static void a_second_key_names_the_first_and_is_left_out(void **state)
{
    (void)state;
    assert_true(grow("a: 1\nb: 2\na: {c: 3}\n", 19));
    assert_int_equal(FAULT.count, 1);
    assert_int_equal(FAULT.kept[0].line, 3);
    assert_non_null(strstr(FAULT.kept[0].text, "line 1"));
    assert_int_equal(TREE.root->children, 2);
    assert_string_equal(tree_find(TREE.root, "a")->text, "1");
    tree_free(&TREE);
}

static void what_unfolds_or_runs_on_is_refused(void **state)
{
    (void)state;
    bad("a: &x 1\n", 1, 4, "anchor");
    bad("a: *x\n", 1, 4, "alias");
    bad("a: !!int 1\n", 1, 4, "tag");
    bad("a: 1\n---\nb: 2\n", 2, 1, "document");
    bad("[a, b]: 1\n", 1, 1, "key must be words");
    bad("a: \"x\\0y\"\n", 1, 4, "control");
    bad("a: \"x\\ny\"\n", 1, 4, "line end");
    bad("\"a\\e\": 1\n", 1, 1, "control");
    bad("", 1, 1, "empty");
    bad("# nothing\n", 1, 1, "empty");
}

static void bad_bytes_are_found_again(void **state)
{
    (void)state;
    bad("a: 1\nb: x\xff\n", 2, 5, "UTF-8");
    bad("a: 1\nb: é\xc3(\n", 2, 5, "UTF-8");
    bad("a: 1\nb: x\x01\n", 2, 5, "control");
    assert_false(grow("a: \0", 4));
    assert_int_equal(FAULT.kept[0].column, 4);
    tree_free(&TREE);
}

/* a text of n copies of `piece` */
static char *many(const char *piece, size_t n)
{
    size_t length = strlen(piece);
    char *text = malloc(n * length + 1);
    assert_non_null(text);
    for (size_t i = 0; i < n; i++)
        memcpy(text + i * length, piece, length);
    text[n * length] = '\0';
    return text;
}

static void refuse_many(const char *piece, size_t n, const char *words)
{
    char *text = many(piece, n);
    assert_false(grow(text, strlen(text)));
    tree_free(&TREE);
    assert_int_equal(FAULT.count, 1);
    if (!strstr(FAULT.kept[0].text, words))
        fail_msg("%s", FAULT.kept[0].text);
    free(text);
}

static void depth_keys_and_parts_have_an_end(void **state)
{
    (void)state;
    refuse_many("[", 100000, "nested too deep");
    refuse_many("{a: ", 50000, "nested too deep");
    refuse_many("- ", 20000, "nested too deep");
    refuse_many("- x\n", 200000, "more parts");
}

static void a_thousand_keys_are_enough(void **state)
{
    (void)state;
    char text[1001 * 8 + 8];
    for (int i = 0; i < 1001; i++)
        snprintf(text + 8 * i, 16, "k%04d: \n", i);
    assert_true(grow(text, 1000 * 8));
    tree_free(&TREE);
    assert_false(grow(text, 1001 * 8));
    assert_non_null(strstr(FAULT.kept[0].text, "1000 keys"));
    assert_int_equal(FAULT.kept[0].line, 1001);
    tree_free(&TREE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_values_and_places_are_kept),
        cmocka_unit_test(words_stay_words),
        cmocka_unit_test(columns_count_letters_not_bytes),
        cmocka_unit_test(windows_and_byte_order_marks_do_no_harm),
        cmocka_unit_test(a_second_key_names_the_first_and_is_left_out),
        cmocka_unit_test(what_unfolds_or_runs_on_is_refused),
        cmocka_unit_test(bad_bytes_are_found_again),
        cmocka_unit_test(depth_keys_and_parts_have_an_end),
        cmocka_unit_test(a_thousand_keys_are_enough),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
