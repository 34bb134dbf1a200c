/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/base/test_save.c - base/save: the old file or the new one, never half, no leavings. */
#include "base/save.h"
#include "lib/scratch.h"
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>

static bool put(const char *path, const char *text, bool force, struct trouble *why)
{
    memset(why, 0, sizeof *why);
    return save_bytes(path, text, strlen(text), force, why);
}

static int mode_of(const char *path)
{
    struct stat found;
    assert_int_equal(stat(path, &found), 0);
    return (int)(found.st_mode & 0777);
}

static void a_new_file_holds_what_was_written_and_nothing_else_is_left(void **state)
{
    struct trouble why;
    assert_true(put(scratch_path(state, "new.csv"), "day,middle\n", false, &why));
    assert_string_equal(scratch_read(state, "new.csv"), "day,middle\n");
    assert_int_equal(scratch_count(state), 1);
}

/* POSIX open(): mode 0666 less the umask */
static void a_new_file_has_the_usual_permissions(void **state)
{
    struct trouble why;
    mode_t before = umask(027);
    assert_true(put(scratch_path(state, "new"), "x", false, &why));
    umask(before);
    assert_int_equal(mode_of(scratch_path(state, "new")), 0640);
}

static void the_name_appears_only_at_the_end(void **state)
{
    struct trouble why = {0};
    struct save save;
    assert_true(save_begin(&save, scratch_path(state, "late"), false, &why));
    fputs("half", save.file);
    fflush(save.file);
    assert_string_equal(scratch_read(state, "late"), "(absent)");
    assert_true(save_commit(&save, &why));
    assert_string_equal(scratch_read(state, "late"), "half");
}

static void an_abandoned_file_leaves_no_trace(void **state)
{
    struct trouble why = {0};
    struct save save;
    scratch_write(state, "kept", "old");
    assert_true(save_begin(&save, scratch_path(state, "kept"), true, &why));
    fputs("new", save.file);
    save_abandon(&save);
    save_abandon(&save); /* twice does no harm */
    assert_string_equal(scratch_read(state, "kept"), "old");
    assert_int_equal(scratch_count(state), 1);
}

static void a_file_that_exists_is_refused_without_force(void **state)
{
    struct trouble why;
    scratch_write(state, "here", "old");
    assert_false(put(scratch_path(state, "here"), "new", false, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
    assert_non_null(strstr(why.text, "--force"));
    assert_string_equal(scratch_read(state, "here"), "old");
    assert_int_equal(scratch_count(state), 1);
}

static void force_replaces_a_file_and_keeps_its_permissions(void **state)
{
    struct trouble why;
    scratch_write(state, "here", "old and longer");
    assert_int_equal(chmod(scratch_path(state, "here"), 0604), 0);
    assert_true(put(scratch_path(state, "here"), "new", true, &why));
    assert_string_equal(scratch_read(state, "here"), "new");
    assert_int_equal(mode_of(scratch_path(state, "here")), 0604);
    assert_int_equal(scratch_count(state), 1);
}

static void a_file_made_meanwhile_by_another_is_not_overwritten(void **state)
{
    struct trouble why = {0};
    struct save save;
    assert_true(save_begin(&save, scratch_path(state, "race"), false, &why));
    fputs("mine", save.file);
    scratch_write(state, "race", "theirs");
    assert_false(save_commit(&save, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
    assert_string_equal(scratch_read(state, "race"), "theirs");
    assert_int_equal(scratch_count(state), 1);
}

static void two_at_once_get_different_temporaries(void **state)
{
    struct trouble why = {0};
    struct save one, two;
    assert_true(save_begin(&one, scratch_path(state, "same"), true, &why));
    assert_true(save_begin(&two, scratch_path(state, "same"), true, &why));
    fputs("one", one.file);
    fputs("two", two.file);
    assert_true(save_commit(&two, &why));
    assert_true(save_commit(&one, &why));
    assert_string_equal(scratch_read(state, "same"), "one");
    assert_int_equal(scratch_count(state), 1);
}

static void a_link_is_followed_and_stays_a_link(void **state)
{
    struct trouble why;
    struct stat found;
    scratch_write(state, "real", "old");
    assert_int_equal(symlink("real", scratch_path(state, "link")), 0);
    assert_true(put(scratch_path(state, "link"), "new", true, &why));
    assert_string_equal(scratch_read(state, "real"), "new");
    assert_int_equal(lstat(scratch_path(state, "link"), &found), 0);
    assert_true(S_ISLNK(found.st_mode));
    assert_int_equal(scratch_count(state), 2);
}

static void a_link_to_nothing_is_refused(void **state)
{
    struct trouble why;
    assert_int_equal(symlink("nowhere", scratch_path(state, "link")), 0);
    assert_false(put(scratch_path(state, "link"), "new", true, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
    assert_int_equal(scratch_count(state), 1);
}

static void a_missing_folder_a_folder_and_an_empty_name_are_refused(void **state)
{
    struct trouble why;
    assert_false(put(scratch_path(state, "no/such"), "x", true, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
    assert_non_null(strstr(why.text, "no/such"));
    assert_false(put(((struct scratch *)*state)->folder, "x", true, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
    assert_false(put("", "x", true, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
    assert_int_equal(scratch_count(state), 0);
}

static void a_name_of_the_greatest_length_works_and_a_longer_one_is_refused(void **state)
{
    struct trouble why;
    char name[257];
    memset(name, 'n', sizeof name - 1);
    name[255] = '\0'; /* NAME_MAX of Linux file systems */
    assert_true(put(scratch_path(state, name), "x", false, &why));
    assert_string_equal(scratch_read(state, name), "x");
    name[255] = 'n';
    name[256] = '\0';
    assert_false(put(scratch_path(state, name), "x", false, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
}

static void a_path_of_five_thousand_bytes_is_refused(void **state)
{
    (void)state;
    struct trouble why;
    static char path[5001];
    for (int i = 0; i < 5000; ++i)
        path[i] = i % 2 ? '/' : 'd';
    assert_false(put(path, "x", true, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
}

/* /dev/full answers every write with ENOSPC (Linux full(4)) */
static void whether_a_file_may_be_written_is_asked_without_a_trace(void **state)
{
    struct trouble why = {0};
    assert_true(save_may(scratch_path(state, "new"), false, &why));
    assert_int_equal(scratch_count(state), 0);
    scratch_write(state, "kept", "old");
    assert_false(save_may(scratch_path(state, "kept"), false, &why));
    assert_int_equal(why.kind, TROUBLE_CREATE);
    assert_true(save_may(scratch_path(state, "kept"), true, &why));
    assert_string_equal(scratch_read(state, "kept"), "old");
    assert_false(save_may(scratch_path(state, "none/new"), false, &why));
    assert_false(save_may(scratch_path(state, ""), true, &why)); /* the folder itself */
    assert_int_equal(mkfifo(scratch_path(state, "pipe"), 0600), 0);
    assert_true(save_may(scratch_path(state, "pipe"), false, &why)); /* and nobody waits for a reader */
    assert_true(save_may("-", false, &why));
    assert_int_equal(scratch_count(state), 2);
}

static void a_full_device_is_written_straight_and_reported(void **state)
{
    (void)state;
    struct trouble why;
    assert_false(put("/dev/full", "x", false, &why));
    assert_int_equal(why.kind, TROUBLE_DEVICE);
    assert_non_null(strstr(why.text, strerror(ENOSPC)));
    assert_true(put("/dev/null", "x", false, &why));
}

static void a_pipe_is_written_straight(void **state)
{
    struct trouble why;
    char got[8] = {0};
    assert_int_equal(mkfifo(scratch_path(state, "pipe"), 0600), 0);
    int reader = open(scratch_path(state, "pipe"), O_RDONLY | O_NONBLOCK);
    assert_true(reader >= 0);
    assert_true(put(scratch_path(state, "pipe"), "through", false, &why));
    assert_int_equal(read(reader, got, sizeof got), 7);
    assert_string_equal(got, "through");
    close(reader);
    assert_int_equal(scratch_count(state), 1);
}

/* puts "there" under a path while standard output goes to the file `out` */
static bool put_with_output_in_a_file(void **state, const char *path)
{
    struct trouble why;
    fflush(stdout);
    int terminal = dup(STDOUT_FILENO);
    int file = open(scratch_path(state, "out"), O_WRONLY | O_CREAT, 0600);
    assert_true(terminal >= 0 && file >= 0);
    assert_int_equal(dup2(file, STDOUT_FILENO), STDOUT_FILENO);
    bool done = put(path, "there", false, &why);
    assert_int_equal(dup2(terminal, STDOUT_FILENO), STDOUT_FILENO);
    close(terminal);
    close(file);
    return done;
}

/* `-o out.csv >out.csv`: the shell has made the file already, and it is where output goes */
static void the_file_behind_standard_output_is_written_straight(void **state)
{
    assert_true(put_with_output_in_a_file(state, scratch_path(state, "out")));
    assert_string_equal(scratch_read(state, "out"), "there");
}

static void a_dash_is_standard_output(void **state)
{
    assert_true(put_with_output_in_a_file(state, "-"));
    assert_string_equal(scratch_read(state, "out"), "there");
    assert_int_equal(scratch_count(state), 1);
}

/* asked by an ordinary user, since the superuser may write anything: 65534 is nobody */
static void a_file_protected_from_writing_is_refused_even_with_force(void **state)
{
    scratch_write(state, "kept", "old");
    assert_int_equal(chmod(scratch_path(state, "kept"), 0444), 0);
    assert_int_equal(chmod(((struct scratch *)*state)->folder, 0777), 0);
    pid_t child = fork();
    if (child == 0) {
        struct trouble why;
        bool user = getuid() != 0 || setuid(65534) == 0;
        bool refused = user && !put(scratch_path(state, "kept"), "new", true, &why)
                       && why.kind == TROUBLE_CREATE;
        _exit(refused ? 0 : 1);
    }
    int status = -1;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    assert_string_equal(scratch_read(state, "kept"), "old");
}

/* The usual limits of a shell (`ulimit -f`): the write fails with EFBIG, the old file stays. */
static void a_limit_on_file_size_keeps_the_old_file(void **state)
{
    struct trouble why;
    struct rlimit before, small;
    static char much[100001];
    memset(much, 'm', sizeof much - 1);
    scratch_write(state, "kept", "old");
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 8192;
    signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    bool done = put(scratch_path(state, "kept"), much, true, &why);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    assert_false(done);
    assert_int_equal(why.kind, TROUBLE_DEVICE);
    assert_string_equal(scratch_read(state, "kept"), "old");
    assert_int_equal(scratch_count(state), 1);
}

#define WITH_FOLDER(test) cmocka_unit_test_setup_teardown(test, scratch_open, scratch_close)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_FOLDER(a_new_file_holds_what_was_written_and_nothing_else_is_left),
        WITH_FOLDER(a_new_file_has_the_usual_permissions),
        WITH_FOLDER(the_name_appears_only_at_the_end),
        WITH_FOLDER(an_abandoned_file_leaves_no_trace),
        WITH_FOLDER(a_file_that_exists_is_refused_without_force),
        WITH_FOLDER(force_replaces_a_file_and_keeps_its_permissions),
        WITH_FOLDER(a_file_made_meanwhile_by_another_is_not_overwritten),
        WITH_FOLDER(two_at_once_get_different_temporaries),
        WITH_FOLDER(a_link_is_followed_and_stays_a_link),
        WITH_FOLDER(a_link_to_nothing_is_refused),
        WITH_FOLDER(a_missing_folder_a_folder_and_an_empty_name_are_refused),
        WITH_FOLDER(a_name_of_the_greatest_length_works_and_a_longer_one_is_refused),
        cmocka_unit_test(a_path_of_five_thousand_bytes_is_refused),
        WITH_FOLDER(whether_a_file_may_be_written_is_asked_without_a_trace),
        cmocka_unit_test(a_full_device_is_written_straight_and_reported),
        WITH_FOLDER(a_pipe_is_written_straight),
        WITH_FOLDER(the_file_behind_standard_output_is_written_straight),
        WITH_FOLDER(a_dash_is_standard_output),
        WITH_FOLDER(a_file_protected_from_writing_is_refused_even_with_force),
        WITH_FOLDER(a_limit_on_file_size_keeps_the_old_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
