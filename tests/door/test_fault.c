/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_fault.c - door/fault: mistakes are told together, in the order of the file. */
#include "door/fault.h"
#include "lib/near.h"
#include <stdio.h>

static struct fault FAULT;
static struct trouble WHY;

static void mistakes_are_sorted_and_the_first_twenty_kept(void **state)
{
    (void)state;
    FAULT = (struct fault){.file = "a.yaml"};
    for (int i = 0; i < 30; i++)
        assert_false(fault_at(&FAULT, 1 + (i * 7) % 30, 1, "number %d", (i * 7) % 30));
    assert_int_equal(FAULT.count, 30);
    for (int i = 0; i < FAULT_MOST; i++)
        assert_int_equal(FAULT.kept[i].line, i + 1);
    WHY = (struct trouble){0};
    assert_false(fault_report(&FAULT, &WHY));
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    assert_int_equal(strncmp(WHY.text, "a.yaml:1:1: number 0\na.yaml:2:1: number 1\n", 42), 0);
    assert_non_null(strstr(WHY.text, "a.yaml:20:1: number 19\na.yaml: and 10 more"));
}

static void no_mistake_is_no_trouble(void **state)
{
    (void)state;
    FAULT = (struct fault){.file = "a.yaml"};
    WHY = (struct trouble){0};
    assert_true(fault_report(&FAULT, &WHY));
    assert_int_equal(WHY.kind, TROUBLE_NONE);
}

static void mistakes_of_one_place_keep_their_order(void **state)
{
    (void)state;
    FAULT = (struct fault){.file = "a.yaml"};
    fault_at(&FAULT, 3, 5, "second");
    fault_at(&FAULT, 3, 5, "third");
    fault_at(&FAULT, 3, 4, "first");
    assert_string_equal(FAULT.kept[0].text, "first");
    assert_string_equal(FAULT.kept[1].text, "second");
    assert_string_equal(FAULT.kept[2].text, "third");
}

static void a_quote_is_cut_between_letters(void **state)
{
    (void)state;
    char quote[FAULT_QUOTE], text[101] = {0};
    assert_string_equal(fault_quote("short", quote), "short");
    for (int i = 0; i < 50; i++)
        memcpy(text + 2 * i, "é", 2);
    fault_quote(text, quote);
    size_t length = strlen(quote);
    assert_string_equal(quote + length - 3, "...");
    assert_int_equal((length - 3) % 2, 0);
    assert_true(length < FAULT_QUOTE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mistakes_are_sorted_and_the_first_twenty_kept),
        cmocka_unit_test(no_mistake_is_no_trouble),
        cmocka_unit_test(mistakes_of_one_place_keep_their_order),
        cmocka_unit_test(a_quote_is_cut_between_letters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
