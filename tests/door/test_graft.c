/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_graft.c - where a further plan goes into a keeper's text. */
#include "door/graft.h"
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

/* The text must be cut before `rest`. */
static struct graft cut(const char *text, const char *rest)
{
    struct graft graft = {0};
    assert_true(graft_find(&graft, text, strlen(text)));
    assert_string_equal(text + graft.offset, rest);
    return graft;
}

static void it_goes_before_the_first_plan_and_as_far_in(void **state)
{
    (void)state;
    struct graft graft = cut("midden: 1\nplans: # mine\n   # a note\n   one: []\nname: A\n",
                             "   # a note\n   one: []\nname: A\n");
    assert_int_equal(graft.indent, 3);
    assert_false(graft.flow || graft.first || graft.line_end);
}

static void without_plans_it_goes_to_the_end_on_a_line_of_its_own(void **state)
{
    (void)state;
    struct graft graft = cut("midden: 1\nname: A\n", "");
    assert_true(graft.first && !graft.line_end && !graft.flow);
    graft = cut("midden: 1\nname: A", "");
    assert_true(graft.first && graft.line_end);
}

static void the_end_of_a_document_is_its_mark_and_no_word_with_three_points(void **state)
{
    (void)state;
    cut("midden: 1\n...\n# no more\n", "...\n# no more\n");
    cut("midden: 1\n...", "...");
    cut("midden: 1\n...more: 2\n... # end\n", "... # end\n");
    cut("midden: 1\n...more: 2\n", "");
}

static void in_braces_it_goes_behind_the_brace_counted_in_letters(void **state)
{
    (void)state;
    struct graft graft = cut("midden: 1\nplans: {one: []}\n", "one: []}\n");
    assert_true(graft.flow && !graft.first && !graft.line_end);
    graft = cut("{name: Grüne Ecke, plans: {one: []}}\n", "one: []}}\n");
    assert_true(graft.flow && !graft.first);
    graft = cut("{name: Grüne Ecke}\n", "name: Grüne Ecke}\n");
    assert_true(graft.flow && graft.first);
}

static void what_is_no_map_has_no_place(void **state)
{
    (void)state;
    struct graft graft;
    assert_false(graft_find(&graft, "- one\n", 6));
    assert_false(graft_find(&graft, "a: [\n", 5));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_goes_before_the_first_plan_and_as_far_in),
        cmocka_unit_test(without_plans_it_goes_to_the_end_on_a_line_of_its_own),
        cmocka_unit_test(the_end_of_a_document_is_its_mark_and_no_word_with_three_points),
        cmocka_unit_test(in_braces_it_goes_behind_the_brace_counted_in_letters),
        cmocka_unit_test(what_is_no_map_has_no_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
