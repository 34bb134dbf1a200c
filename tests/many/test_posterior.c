/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_posterior.c - many/posterior: members move to where readings say, and no further.
 *
 * The true pile is a twin of which everything is known [derived]; `make twins` asks a hundred of them.
 */
#include "many/posterior.h"
#include "many/band.h"
#include "many/noted.h"
#include "twins/twin.h"

enum { MEMBERS = 32, LAST = 14 };

struct bench {
    struct scenario scenario;
    struct param param;
    bool fixed[PARAM_ROWS];
    struct crew crew;
    struct trouble why;
};

static struct bench *bench_new(void)
{
    struct bench *b = calloc(1, sizeof *b);
    assert_non_null(b);
    noted_open(&b->crew, &b->scenario, &b->param, b->fixed, MEMBERS);
    b->scenario.last_day = LAST;
    return b;
}

static struct span band_at(const double *table, int columns, int column)
{
    double room[MEMBERS];
    for (int i = 0; i < MEMBERS; i++)
        room[i] = table[i * columns + column];
    return band_of(room, MEMBERS);
}

static void learn(struct bench *b, struct posterior *p)
{
    if (!posterior_learn(p, &b->crew, &b->why))
        fail_msg("%s", b->why.text);
}

/* Mean over readings of temperature of how far what is there lies from the median, and mean width. */
static void judge(const struct bench *b, const double *seen, const double *truth, double *off, double *width)
{
    int count = 0;
    *off = *width = 0;
    for (int i = 0; i < b->scenario.readings; i++) {
        if (b->scenario.reading[i].what > PLAN_READ_INSIDE)
            continue;
        struct span band = band_at(seen, b->scenario.readings, i);
        *off += fabs(band.mid - truth[i]);
        *width += band.high - band.low;
        count++;
    }
    *off /= count;
    *width /= count;
}

static void readings_bring_the_piles_to_the_true_one(void **state)
{
    (void)state;
    double off_before = 0, off = 0, width_before = 0, width = 0;
    for (int t = 1; t <= 3; t++) {
        struct bench *b = bench_new();
        struct posterior p;
        struct twin *twin = malloc(sizeof *twin);
        double o[2], w[2];
        assert_non_null(twin);
        assert_true(twin_make(twin, &b->crew, 88, t, &b->why));
        twin_read(twin, &b->scenario, (uint64_t)t);
        learn(b, &p);
        judge(b, p.seen_before, twin->record.seen, &o[0], &w[0]);
        judge(b, p.seen, twin->record.seen, &o[1], &w[1]);
        off_before += o[0];
        width_before += w[0];
        off += o[1];
        width += w[1];
        posterior_free(&p);
        record_free(&twin->record);
        free(twin);
        free(b);
    }
    assert_true(off < 0.8 * off_before);
    assert_true(width < 0.6 * width_before);
}

/* Readings that have nothing to do with any pile: whatever is made of them, the piles stay among those that
 * were possible, and they don't become surer of the rest of the pile than half of what they were. */
static void pure_noise_does_no_harm(void **state)
{
    (void)state;
    struct bench *b = bench_new();
    struct posterior p;
    struct crew_done done;
    double before[MEMBERS], after[MEMBERS];
    for (int i = 0; i < b->scenario.readings; i++)
        if (b->scenario.reading[i].what <= PLAN_READ_INSIDE)
            b->scenario.reading[i].value = 268 + 85 * draw_uniform(41, (uint32_t)i, 0, 0);
    learn(b, &p);
    b->scenario.last_day = 30;
    for (int pass = 0; pass < 2; pass++) {
        b->crew.chance = p.chance;
        b->crew.chance_of = pass ? &p.unknowns : NULL;
        assert_true(crew_run(&done, &b->crew, &b->why));
        for (int i = 0; i < MEMBERS; i++)
            (pass ? after : before)[i] = done.record[i].day[30].middle_K;
        crew_free(&done);
    }
    struct span was = band_of(before, MEMBERS), is = band_of(after, MEMBERS);
    assert_true(is.mid > was.low - 3 && is.mid < was.high + 3);
    assert_true(is.high - is.low > 0.3 * (was.high - was.low));
    posterior_free(&p);
    free(b);
}

static void it_is_the_same_for_any_number_of_threads(void **state)
{
    (void)state;
    struct bench *b = bench_new();
    struct posterior one, two;
    size_t size;
    b->scenario.last_day = 6;
    b->scenario.readings = 3;
    b->crew.last = 16;
    b->crew.threads = 1;
    learn(b, &one);
    b->crew.threads = 3;
    learn(b, &two);
    size = 16 * (size_t)one.unknowns.count * sizeof *one.chance;
    assert_memory_equal(one.chance, two.chance, size);
    posterior_free(&one);
    posterior_free(&two);
    free(b);
}

/* Chances stay chances, and members that fit are not all one pile. */
static void members_stay_apart(void **state)
{
    (void)state;
    struct bench *b = bench_new();
    struct posterior p;
    int distinct = 0;
    for (int i = 0; i < b->scenario.readings; i++)
        b->scenario.reading[i].value += 5;
    learn(b, &p);
    for (int i = 0; i < MEMBERS; i++) {
        bool new = true;
        for (int k = 0; k < p.unknowns.count; k++)
            assert_true(p.chance[i * p.unknowns.count + k] > 0 && p.chance[i * p.unknowns.count + k] < 1);
        for (int j = 0; j < i; j++)
            new = new && p.chance[i * p.unknowns.count] != p.chance[j * p.unknowns.count];
        distinct += new;
    }
    assert_true(distinct > MEMBERS / 2);
    posterior_free(&p);
    free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(readings_bring_the_piles_to_the_true_one),
        cmocka_unit_test(pure_noise_does_no_harm),
        cmocka_unit_test(it_is_the_same_for_any_number_of_threads),
        cmocka_unit_test(members_stay_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
