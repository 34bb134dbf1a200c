/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/test_found.c - bytes that a fuzzer kept, read again under sanitizers.
 *
 * corpus/ holds what reaches different code, found/ what once broke the program. A reader that breaks
 * its promise ends this program, as the sanitizers do [derived: the promises are the program's own].
 */
#include "fuzz/readers.h"
#include "lib/near.h"
#include <dirent.h>

static int read_folder(const char *folder, const char *target, void (*reads)(const uint8_t *, size_t))
{
    char path[512];
    snprintf(path, sizeof path, "tests/fuzz/%s/%s", folder, target);
    DIR *dir = opendir(path);
    int count = 0;
    for (struct dirent *entry; dir && (entry = readdir(dir));) {
        enum { MOST = 1 << 20 };
        snprintf(path, sizeof path, "tests/fuzz/%s/%s/%.200s", folder, target, entry->d_name);
        FILE *in = entry->d_name[0] == '.' ? NULL : fopen(path, "rb");
        uint8_t *bytes = in ? malloc(MOST) : NULL;
        if (bytes) {
            size_t size = fread(bytes, 1, MOST, in);
            uint8_t *exact = malloc(size + 1); /* reading past its end is seen */
            assert_non_null(exact);
            memcpy(exact, bytes, size);
            exact = realloc(exact, size ? size : 1);
            reads(exact, size);
            free(exact);
            count++;
        }
        free(bytes);
        if (in)
            fclose(in);
    }
    if (dir)
        closedir(dir);
    return count;
}

static void read_both(const char *target, void (*reads)(const uint8_t *, size_t))
{
    assert_true(read_folder("corpus", target, reads) > 0); /* else nothing was tried */
    read_folder("found", target, reads);
}

static void scenarios_that_a_fuzzer_kept_are_read_or_refused(void **state)
{
    (void)state;
    read_both("scenario", readers_scenario);
}

static void weather_files_that_a_fuzzer_kept_are_read_or_refused(void **state)
{
    (void)state;
    read_both("weather", readers_weather);
}

static void logs_that_a_fuzzer_kept_are_read_or_refused(void **state)
{
    (void)state;
    read_both("log", readers_log);
}

static void shards_that_a_fuzzer_kept_are_read_or_refused(void **state)
{
    (void)state;
    read_both("shard", readers_shard);
}

static void command_lines_that_a_fuzzer_kept_are_understood_or_refused(void **state)
{
    (void)state;
    read_both("ask", readers_ask);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(scenarios_that_a_fuzzer_kept_are_read_or_refused),
        cmocka_unit_test(weather_files_that_a_fuzzer_kept_are_read_or_refused),
        cmocka_unit_test(logs_that_a_fuzzer_kept_are_read_or_refused),
        cmocka_unit_test(shards_that_a_fuzzer_kept_are_read_or_refused),
        cmocka_unit_test(command_lines_that_a_fuzzer_kept_are_understood_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
