/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/fuzz/test_seasons.c - every law of fuzz/laws.h on gardens kept and on some random ones; many more by
 * `make seasons`.
 */
#include "fuzz/laws.h"
#include "fuzz/seed.h"
#include "lib/near.h"
#include "many/crew.h"
#include <dirent.h>
#include <gsl/gsl_errno.h>

enum { GARDENS = 60, DRAWS = 8, FEW = 4, MANY = 64 };

static void try_bytes(struct laws *laws, const char *name, const uint8_t *bytes, size_t size)
{
    if (!laws_try(laws, bytes, size)) {
        fputs(laws->garden.text, stderr);
        fail_msg("garden %s: %s", name, laws->news);
    }
}

static int try_folder(struct laws *laws, const char *folder)
{
    char path[512];
    int count = 0;
    DIR *dir = opendir(folder);
    for (struct dirent *entry; dir && (entry = readdir(dir));) {
        uint8_t bytes[4096];
        snprintf(path, sizeof path, "%s/%.200s", folder, entry->d_name);
        FILE *in = entry->d_name[0] == '.' ? NULL : fopen(path, "rb");
        if (!in)
            continue;
        size_t size = fread(bytes, 1, sizeof bytes, in);
        fclose(in);
        try_bytes(laws, path, bytes, size);
        count++;
    }
    if (dir)
        closedir(dir);
    return count;
}

static struct laws *begin(void)
{
    struct laws *laws = calloc(1, sizeof *laws);
    assert_non_null(laws);
    gsl_set_error_handler_off();
    return laws;
}

static void random_gardens_keep_every_law(void **state)
{
    (void)state;
    struct laws *laws = begin();
    uint8_t bytes[GARDEN_BYTES];
    int ran = 0;
    for (int seed = 1; seed <= GARDENS; seed++) {
        char name[16];
        snprintf(name, sizeof name, "%d", seed);
        seed_bytes(bytes, seed);
        try_bytes(laws, name, bytes, sizeof bytes);
        ran += laws->ran;
    }
    assert_true(ran > GARDENS * 9 / 10); /* else gardens that nobody can build were tried */
    free(laws);
}

static void gardens_that_once_broke_a_law_keep_it(void **state)
{
    (void)state;
    struct laws *laws = begin();
    assert_true(try_folder(laws, "tests/fuzz/found/season") > 0);
    assert_true(try_folder(laws, "tests/fuzz/corpus/season") > 0);
    free(laws);
}

static void the_plainest_garden_is_made_of_no_bytes(void **state)
{
    (void)state;
    struct laws *laws = begin();
    try_bytes(laws, "of nothing", (const uint8_t *)"", 0);
    assert_true(laws->ran);
    free(laws);
}

/* The broken laws are seen: a record with one number out of place is refused. */
static void a_law_that_is_broken_is_seen(void **state)
{
    (void)state;
    struct laws *laws = begin();
    laws->param = param_usual();
    garden_write(&laws->garden, (const uint8_t *)"", 0);
    assert_true(scenario_read_text(&laws->scenario, laws->garden.text, laws->garden.used, "garden", &laws->why));
    assert_true(laws_members(laws));
    struct setup setup;
    laws_setup(laws, &setup, &laws->scenario, 0);
    struct record *record = &laws->one[0];
    assert_true(season_run(record, &setup, &laws->why));
    assert_true(laws_season(laws, 0, record));
    double *const at[] = {&record->balance[0], &record->day[1].pool_kg[2], &record->day[1].wet_kg,
                          &record->day[1].coldest_tenth_K, &record->day[1].oxygen_lowest_share,
                          &record->day[0].flux[FLUX_killed_seeds], &record->day[0].water_share};
    const double wrong[] = {2e-9, -1e-9, NAN, 200, 0.5, 1, 1.1};
    for (int i = 0; i < 7; i++) {
        double kept = *at[i];
        *at[i] = wrong[i];
        laws->news[0] = '\0';
        assert_false(laws_season(laws, 0, record));
        assert_true(*laws->news);
        *at[i] = kept;
    }
    laws->news[0] = '\0';
    assert_true(laws_season(laws, 0, record));
    laws_free(laws);
    free(laws);
}

/* ---- more members, less error of sampling ---- */

static int up(const void *a, const void *b)
{
    double d = *(const double *)a - *(const double *)b;
    return d < 0 ? -1 : d > 0;
}

/* Median over members of the mean temperature on the season's third day. */
static double median_K(struct laws *laws, uint64_t draw, int members)
{
    static const bool fixed[PARAM_ROWS];
    struct crew crew = {.scenario = &laws->scenario, .param = &laws->param, .fixed = fixed, .draw = draw,
                        .first = 1, .last = members, .threads = 1};
    struct crew_done done;
    double mean_K[MANY];
    assert_true(crew_run(&done, &crew, &laws->why));
    for (int i = 0; i < members; i++)
        mean_K[i] = done.record[i].day[2].mean_K;
    crew_free(&done);
    qsort(mean_K, (size_t)members, sizeof *mean_K, up);
    return 0.5 * (mean_K[members / 2 - 1] + mean_K[members / 2]);
}

static double spread_K(struct laws *laws, int members)
{
    double sum = 0, squares = 0;
    for (uint64_t draw = 1; draw <= DRAWS; draw++) {
        double t = median_K(laws, draw, members);
        sum += t;
        squares += t * t;
    }
    return sqrt(fmax(squares / DRAWS - sum * sum / DRAWS / DRAWS, 0));
}

/* A median of n independent members errs as 1/sqrt(n), stratified ones by less (McKay, Beckman and Conover
 * 1979 [memory]): 16 times as many, a quarter of the error. Eight draws tell a standard deviation to a
 * quarter of itself, so half is asked for [derived]. */
static void more_members_narrow_the_sampling_error(void **state)
{
    (void)state;
    struct laws *laws = begin();
    laws->param = param_usual();
    for (int i = 0; i < PARAM_COARSER; i++)
        param_set(&laws->param, param_coarser[i].name, param_coarser[i].value, &laws->why);
    static const char text[] =
        "midden: 1\nstart: 2025-09-20\nplace: {latitude: 50 N, elevation: 100 m}\nsky: mild and wet\n"
        "bin: 1 x 1 x 1 m\nbuild:\n  - straw: 20 to 30 buckets\n    grass clippings: 25 to 40 buckets\n"
        "    horse manure: 5 buckets\nneed: by 2025-09-23\n";
    assert_true(scenario_read_text(&laws->scenario, text, strlen(text), "test", &laws->why));
    double few = spread_K(laws, FEW), many = spread_K(laws, MANY);
    assert_true(few > 0);
    assert_true(many < 0.5 * few);
    free(laws);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_plainest_garden_is_made_of_no_bytes),
        cmocka_unit_test(a_law_that_is_broken_is_seen),
        cmocka_unit_test(gardens_that_once_broke_a_law_keep_it),
        cmocka_unit_test(random_gardens_keep_every_law),
        cmocka_unit_test(more_members_narrow_the_sampling_error),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
