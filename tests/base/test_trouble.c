/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_trouble.c - base/trouble: the first reason stays, mistakes gather. */
#include "base/trouble.h"
#include "lib/near.h"
#include <sysexits.h>

static void the_first_reason_stays_and_a_later_one_is_dropped(void **state)
{
    (void)state;
    struct trouble why = {0};
    assert_false(trouble_set(&why, TROUBLE_INPUT, "%s:%d: too wet", "pile.yaml", 7));
    assert_false(trouble_set(&why, TROUBLE_SOLVE, "so nothing came out"));
    assert_int_equal(why.kind, TROUBLE_INPUT);
    assert_string_equal(why.text, "pile.yaml:7: too wet");
}

static void mistakes_gather_a_line_each_under_the_first_kind(void **state)
{
    (void)state;
    struct trouble why = {0};
    assert_false(trouble_add(&why, TROUBLE_INPUT, "line %d", 1));
    assert_false(trouble_add(&why, TROUBLE_DEVICE, "line %d", 2));
    assert_int_equal(why.kind, TROUBLE_INPUT);
    assert_string_equal(why.text, "line 1\nline 2");
}

static void a_reason_too_long_is_cut_and_says_so(void **state)
{
    (void)state;
    static struct trouble why;
    trouble_set(&why, TROUBLE_INPUT, "%9000d", 1);
    assert_int_equal(strlen(why.text), TROUBLE_TEXT - 1);
    assert_string_equal(why.text + TROUBLE_TEXT - 5, " ...");
}

/* 8185 letters, then two-byte letters: whichever way the cut falls, no half of one stays */
static void a_cut_never_halves_a_letter_of_two_bytes(void **state)
{
    (void)state;
    for (int before = TROUBLE_TEXT - 12; before < TROUBLE_TEXT - 2; ++before) {
        static struct trouble why;
        memset(&why, 0, sizeof why);
        trouble_set(&why, TROUBLE_INPUT, "%*d\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9", before, 1);
        size_t end = strlen(why.text) - 4;
        assert_string_equal(why.text + end, " ...");
        assert_int_not_equal((unsigned char)why.text[end - 1], 0xC3); /* its first byte, alone */
    }
}

static void a_full_text_takes_no_more_lines_and_keeps_the_first(void **state)
{
    (void)state;
    static struct trouble why;
    for (int i = 0; i < 1000; ++i)
        trouble_add(&why, TROUBLE_INPUT, "mistake number %d in a long row of them", i);
    assert_true(strlen(why.text) < TROUBLE_TEXT);
    assert_memory_equal(why.text, "mistake number 0 ", 17);
}

/* [seen] sysexits(3): the numbers of /usr/include/sysexits.h */
static void statuses_are_those_of_sysexits(void **state)
{
    (void)state;
    assert_int_equal(trouble_status(TROUBLE_NONE), EX_OK);
    assert_int_equal(trouble_status(TROUBLE_USAGE), EX_USAGE);
    assert_int_equal(trouble_status(TROUBLE_INPUT), EX_DATAERR);
    assert_int_equal(trouble_status(TROUBLE_ABSENT), EX_NOINPUT);
    assert_int_equal(trouble_status(TROUBLE_PROGRAM), EX_UNAVAILABLE);
    assert_int_equal(trouble_status(TROUBLE_LEDGER), EX_SOFTWARE);
    assert_int_equal(trouble_status(TROUBLE_SOLVE), EX_SOFTWARE);
    assert_int_equal(trouble_status(TROUBLE_MEMORY), EX_SOFTWARE);
    assert_int_equal(trouble_status(TROUBLE_CREATE), EX_CANTCREAT);
    assert_int_equal(trouble_status(TROUBLE_DEVICE), EX_IOERR);
}

static void an_answer_of_no_has_a_status_of_its_own(void **state)
{
    (void)state;
    assert_int_equal(trouble_status(TROUBLE_NO), 1);
}

/* Escape begins a terminal's commands, and c2 9b is the same in one character (ECMA-48 [memory]). */
static void what_a_terminal_would_obey_is_not_passed_on(void **state)
{
    (void)state;
    struct trouble why = {0};
    trouble_set(&why, TROUBLE_INPUT, "a.yaml:1:1: `%s`\n\tand more", "red \033[31m \007 \302\2331m \177 \303\251");
    assert_string_equal(why.text, "a.yaml:1:1: `red ?[31m ? ??1m ? \303\251`\n\tand more");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_reason_stays_and_a_later_one_is_dropped),
        cmocka_unit_test(mistakes_gather_a_line_each_under_the_first_kind),
        cmocka_unit_test(a_reason_too_long_is_cut_and_says_so),
        cmocka_unit_test(a_cut_never_halves_a_letter_of_two_bytes),
        cmocka_unit_test(a_full_text_takes_no_more_lines_and_keeps_the_first),
        cmocka_unit_test(statuses_are_those_of_sysexits),
        cmocka_unit_test(an_answer_of_no_has_a_status_of_its_own),
        cmocka_unit_test(what_a_terminal_would_obey_is_not_passed_on),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
