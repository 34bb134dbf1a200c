/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_sense.c - which unknown carries the variance of an answer. Answers by hand over a record made
 * up; the variance against the same piles run once more; and what must hold for any shares of a variance.
 */
#include "many/sense.h"
#include "door/scenario.h"
#include "lib/near.h"
#include <stdlib.h>

#define PILE "midden: 1\nstart: 2025-09-20\nplace: {latitude: 48 N, elevation: 300 m}\nsky: cold winters\n" \
    "bin: 1.1 x 1.1 x 1.2 m\nneed: by 2025-09-26\n" \
    "build:\n  - repeat: 3\n    layers:\n      - straw: 60 L\n        horse manure: 45 L\n        water: 5 L\n"
enum { MEMBERS = 8 };

struct run {
    struct scenario scenario;
    struct param param;
    bool fixed[PARAM_ROWS];
    struct crew crew;
    struct sense sense;
    int seasons;    /* as they were run */
};

/* one run for all tests, which only look at it */
static struct run *shown;

static void told(void *listener, int done, int of)
{
    if (done == of)
        *(int *)listener += of;
}

static int run_it(void **state)
{
    (void)state;
    struct run *r = calloc(1, sizeof *r);
    struct trouble why = {0};
    assert_non_null(r);
    if (!scenario_read_text(&r->scenario, PILE, strlen(PILE), "test", &why))
        fail_msg("%s", why.text);
    r->scenario.last_day = 9;
    r->param = param_usual();
    r->crew = (struct crew){.scenario = &r->scenario, .param = &r->param, .fixed = r->fixed, .draw = 3, .first = 1,
                            .last = MEMBERS, .threads = 1, .told = told, .listener = &r->seasons};
    if (!sense_run(&r->sense, &r->crew, &why))
        fail_msg("%s", why.text);
    r->crew.told = NULL;
    shown = r;
    return 0;
}

static int free_it(void **state)
{
    (void)state;
    free(shown);
    return 0;
}

/* Ten days of 20 C, three of them at 60; breath falls below 4 mg of carbon per g and day on the seventh, and
 * once before, which is not for good; a fifth of the seeds alive; 0.7 m3 at the end. [derived] */
static void answers_are_those_of_the_record(void **state)
{
    (void)state;
    struct record_day day[10];
    struct record record = {.days = 10, .day = day, .seeds_laid = {50}, .seeds_alive = {10}};
    for (int d = 0; d < 10; d++)
        day[d] = (struct record_day){.middle_K = 273.15 + (d >= 2 && d < 5 ? 60 + d : 20), .volume_m3 = 1.6 - 0.1 * d,
                                     .test_breath_per_s = (d >= 6 || d == 3 ? 3.9e-3 : 4.1e-3) / 86400};
    assert_near(sense_answer(&record, SENSE_PEAK), 64, 1e-9);
    assert_near(sense_answer(&record, SENSE_HOT_DAYS), 3, 0);
    assert_near(sense_answer(&record, SENSE_STABLE), 7, 0);
    assert_near(sense_answer(&record, SENSE_LIVE_SEEDS), 0.2, 1e-15);
    assert_near(sense_answer(&record, SENSE_VOLUME), 0.7, 1e-12);
    day[9].test_breath_per_s = 5e-3 / 86400;
    assert_near(sense_answer(&record, SENSE_STABLE), 11, 0); /* never within it: the day after */
    record.seeds_laid[0] = 0;
    assert_near(sense_answer(&record, SENSE_LIVE_SEEDS), 0, 0);
    record.days = 0;
    assert_near(sense_answer(&record, SENSE_VOLUME), 0, 0);
}

static void seasons_told_are_those_that_were_run(void **state)
{
    (void)state;
    struct run *r = shown;
    assert_int_equal(r->sense.members, MEMBERS);
    assert_int_equal(r->sense.seasons, r->seasons);
    assert_int_equal(r->sense.rows, SENSE_TELLING + 1);
    assert_true(r->sense.unknowns > SENSE_TELLING);
    assert_string_equal(r->sense.name[SENSE_TELLING], "all others");
    bool weather = false;
    for (int i = 0; i < SENSE_TELLING; i++) {
        weather |= strcmp(r->sense.name[i], "weather") == 0;
        for (int k = 0; k < i; k++)
            assert_string_not_equal(r->sense.name[i], r->sense.name[k]);
    }
    assert_true(weather); /* nobody chooses it: it is always told */
}

/* Mean square less squared mean, over the first set of piles: those of a plain run of the same draw. */
static void the_variance_is_that_of_the_piles(void **state)
{
    (void)state;
    struct run *r = shown;
    struct crew_done done;
    struct trouble why = {0};
    assert_true(crew_run(&done, &r->crew, &why));
    for (int a = 0; a < SENSE_ANSWERS; a++) {
        double mean = 0, variance = 0;
        for (int i = 0; i < MEMBERS; i++)
            mean += sense_answer(&done.record[i], (enum sense_answer)a) / MEMBERS;
        for (int i = 0; i < MEMBERS; i++)
            variance += pow(sense_answer(&done.record[i], (enum sense_answer)a) - mean, 2) / MEMBERS;
        assert_near(r->sense.variance[a], variance, 1e-9 * (variance + mean * mean));
    }
    assert_true(r->sense.variance[SENSE_PEAK] > 0.1); /* K2: piles of one recipe differ */
    crew_free(&done);
}

/* Squared correlation of an unknown's chance, or of how far it lies from a half, with an answer. */
static double goes_with(const struct crew_done *done, const char *name, enum sense_answer answer, bool bent)
{
    double x[MEMBERS], y[MEMBERS], mx = 0, my = 0, xx = 0, yy = 0, xy = 0;
    for (int i = 0; i < MEMBERS; i++) {
        x[i] = unknown_chance(3, (uint32_t)(i + 1), name);
        x[i] = bent ? fabs(x[i] - 0.5) : x[i];
        y[i] = sense_answer(&done->record[i], answer);
        mx += x[i] / MEMBERS;
        my += y[i] / MEMBERS;
    }
    for (int i = 0; i < MEMBERS; i++) {
        xx += (x[i] - mx) * (x[i] - mx);
        yy += (y[i] - my) * (y[i] - my);
        xy += (x[i] - mx) * (y[i] - my);
    }
    return yy > 1e-9 * MEMBERS * my * my ? xy * xy / (xx * yy) : 0;
}

/* After the weather the unknowns stand in the order of how well they go with any answer, and none that is left
 * out goes with one better. */
static void the_unknowns_told_are_those_that_go_best_with_an_answer(void **state)
{
    (void)state;
    struct run *r = shown;
    struct crew_done done;
    struct trouble why = {0};
    struct unknowns *list = malloc(sizeof *list);
    double before = 2;
    assert_non_null(list);
    assert_true(crew_run(&done, &r->crew, &why));
    unknown_list(list, &r->scenario, 0, r->fixed);
    assert_string_equal(r->sense.name[0], "weather");
    for (int row = 1; row < SENSE_TELLING; row++) {
        double best = 0;
        for (int a = 0; a < 2 * SENSE_ANSWERS; a++)
            best = fmax(best, goes_with(&done, r->sense.name[row], (enum sense_answer)(a / 2), a % 2));
        assert_true(best <= before + 1e-6);
        before = best;
    }
    for (int u = 0; u < list->count; u++) {
        bool told_of = false;
        for (int row = 0; row < SENSE_TELLING; row++)
            told_of |= strcmp(r->sense.name[row], list->row[u].name) == 0;
        for (int a = 0; a < 2 * SENSE_ANSWERS && !told_of; a++)
            assert_true(goes_with(&done, list->row[u].name, (enum sense_answer)(a / 2), a % 2) <= before + 1e-6);
    }
    crew_free(&done);
    free(list);
}

/* A total index is a mean of squares over a variance: never below nothing, whatever the sample. Its ends enclose
 * no less than they should: the low one isn't above the high one. */
static void indices_are_shares(void **state)
{
    (void)state;
    struct run *r = shown;
    double first = 0;
    for (int i = 0; i < r->sense.rows; i++) {
        const struct sense_index *index = &r->sense.index[i][SENSE_PEAK];
        assert_true(index->total.mid >= 0 && index->total.low >= 0);
        assert_true(index->total.low <= index->total.high && index->first.low <= index->first.high);
        first = fmax(first, index->total.mid);
    }
    assert_true(first > 0.05); /* somebody carries it */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_are_those_of_the_record),
        cmocka_unit_test(seasons_told_are_those_that_were_run),
        cmocka_unit_test(the_variance_is_that_of_the_piles),
        cmocka_unit_test(the_unknowns_told_are_those_that_go_best_with_an_answer),
        cmocka_unit_test(indices_are_shares),
    };
    return cmocka_run_group_tests(tests, run_it, free_it);
}
