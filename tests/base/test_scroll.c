/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_page.c - base/scroll: a text made in memory is there whole. That it is absent when memory is
 * refused is tried by tests/cli/memory.sh, on the program.
 */
#include "base/scroll.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

static void an_empty_page_is_an_empty_text(void **state)
{
    (void)state;
    struct scroll scroll;
    assert_true(scroll_begin(&scroll));
    assert_true(scroll_end(&scroll));
    assert_string_equal(scroll.text, "");
    assert_int_equal(scroll.size, 0);
    free(scroll.text);
}

static void what_is_written_in_pieces_stands_whole_and_in_order(void **state)
{
    (void)state;
    struct scroll scroll;
    char want[16];
    assert_true(scroll_begin(&scroll));
    for (int i = 0; i < 100000; i++)
        fprintf(scroll.out, "%06d\n", i);
    assert_true(scroll_end(&scroll));
    assert_int_equal(scroll.size, 700000);
    assert_int_equal(strlen(scroll.text), 700000);
    for (int i = 0; i < 100000; i += 999) {
        snprintf(want, sizeof want, "%06d\n", i);
        assert_memory_equal(scroll.text + 7 * i, want, 7);
    }
    free(scroll.text);
}

static void zero_bytes_are_kept(void **state)
{
    (void)state;
    struct scroll scroll;
    assert_true(scroll_begin(&scroll));
    fwrite("a\0b", 1, 3, scroll.out);
    assert_true(scroll_end(&scroll));
    assert_int_equal(scroll.size, 3);
    assert_memory_equal(scroll.text, "a\0b", 4);
    free(scroll.text);
}

static void a_page_whose_stream_has_failed_is_absent(void **state)
{
    (void)state;
    struct scroll scroll;
    assert_true(scroll_begin(&scroll));
    fputs("something", scroll.out);
    (void)getc(scroll.out); /* reading a stream for writing sets its error: C11 7.21.5.3 leaves it open, POSIX says EBADF */
    assert_true(ferror(scroll.out));
    assert_false(scroll_end(&scroll));
    assert_null(scroll.text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_empty_page_is_an_empty_text),
        cmocka_unit_test(what_is_written_in_pieces_stands_whole_and_in_order),
        cmocka_unit_test(zero_bytes_are_kept),
        cmocka_unit_test(a_page_whose_stream_has_failed_is_absent),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
