/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_page.c - base/page: a text made in memory is there whole. That it is absent when memory is
 * refused is tried by tests/cli/faults.sh, on the program.
 */
#include "base/page.h"
#include "lib/near.h"
#include <stdlib.h>
#include <string.h>

static void an_empty_page_is_an_empty_text(void **state)
{
    (void)state;
    struct page page;
    assert_true(page_begin(&page));
    assert_true(page_end(&page));
    assert_string_equal(page.text, "");
    assert_int_equal(page.size, 0);
    free(page.text);
}

static void what_is_written_in_pieces_stands_whole_and_in_order(void **state)
{
    (void)state;
    struct page page;
    char want[16];
    assert_true(page_begin(&page));
    for (int i = 0; i < 100000; i++)
        fprintf(page.out, "%06d\n", i);
    assert_true(page_end(&page));
    assert_int_equal(page.size, 700000);
    assert_int_equal(strlen(page.text), 700000);
    for (int i = 0; i < 100000; i += 999) {
        snprintf(want, sizeof want, "%06d\n", i);
        assert_memory_equal(page.text + 7 * i, want, 7);
    }
    free(page.text);
}

static void zero_bytes_are_kept(void **state)
{
    (void)state;
    struct page page;
    assert_true(page_begin(&page));
    fwrite("a\0b", 1, 3, page.out);
    assert_true(page_end(&page));
    assert_int_equal(page.size, 3);
    assert_memory_equal(page.text, "a\0b", 4);
    free(page.text);
}

static void a_page_whose_stream_has_failed_is_absent(void **state)
{
    (void)state;
    struct page page;
    assert_true(page_begin(&page));
    fputs("something", page.out);
    (void)getc(page.out); /* reading a stream for writing sets its error: C11 7.21.5.3 leaves it open, POSIX says EBADF */
    assert_true(ferror(page.out));
    assert_false(page_end(&page));
    assert_null(page.text);
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
