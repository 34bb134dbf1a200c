/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/many/test_shard.c - many/shard: a slice kept in a file comes back as it was, or not at all.
 *
 * The records are made up, with a number of its own in every place, so that one byte out of place
 * is seen. Damage is done at every position of the file; run under sanitizers. FNV-1a of 64 bits,
 * with which a damaged file is given a right checksum, is written here a second time and held by
 * published values.
 */
#include "many/shard.h"
#include "lib/near.h"
#include <stdlib.h>

enum { MEMBERS = 3, FIRST = 5, DAYS = 2, EVENTS = 2 };

static const char TEXT[] = "midden: 1\nname: any text at all\n";

struct slice {
    struct shard_run run;
    struct crew_done done;
    unsigned char *bytes;       /* the shard, in a block of just its size */
    size_t size;
    struct trouble why;
};

/* Numbers that nobody else has, some of them no plain numbers. */
static void fill(double *at, size_t count, double *next)
{
    for (size_t i = 0; i < count; i++)
        at[i] = *next += 1.0 / 3;
}

static void make_record(struct record *r, double *next)
{
    r->days = DAYS;
    r->events = EVENTS;
    r->turns = 1;
    r->day = calloc(DAYS, sizeof *r->day);
    r->event = calloc(EVENTS, sizeof *r->event);
    assert_true(r->day && r->event);
    for (int i = 0; i < DAYS; i++) {
        fill((double *)&r->day[i], offsetof(struct record_day, first_event) / sizeof(double), next);
        r->day[i].first_event = i;
        r->day[i].events = 1;
        r->day[i].steps = 60 + i;
        r->day[i].refused = 3 + i;
    }
    for (int i = 0; i < EVENTS; i++) {
        r->event[i] = (struct record_event){.day = i, .deed = PLAN_WATER, .way = PLAN_MIXED,
                                            .into = -1};
        fill(&r->event[i].water_kg, 6, next);
    }
    fill(r->balance, RECORD_BALANCES, next);
    fill(r->flux_total, FLUXES, next);
    fill(r->seeds_laid, 3, next);
    fill(r->seeds_alive, 3, next);
    fill(r->germs_laid, 2, next);
    fill(r->germs_alive, 2, next);
    fill(r->pool_laid_kg, 4, next);
    fill(r->stuff_left_share, PLAN_STUFF, next);
    fill(&r->respiration_gap, 1, next);
    fill(&r->person_s, 1, next);
    fill(&r->lifted_kg, 1, next);
    fill(&r->water_l, 1, next);
    r->ignition_day = NAN;
    r->day[0].deep_30cm_K = -0.0;
    r->day[1].water_share = 5e-324;
}

/* Three members, of whom the second failed. */
static void make(struct slice *s)
{
    double next = 1;
    *s = (struct slice){.run = {.version = "1.2.3", .file = "a pile.yaml", .text = TEXT,
                                .text_size = sizeof TEXT - 1, .plan = 2,
                                .draw = UINT64_C(9007199254740992), .param = param_usual()}};
    for (int i = 0; i < PARAM_ROWS; i += 3)
        s->run.fixed[i] = true;
    s->done = (struct crew_done){.first = FIRST, .members = MEMBERS, .failures = 1,
                                 .record = calloc(MEMBERS, sizeof *s->done.record),
                                 .failed = calloc(MEMBERS, sizeof *s->done.failed)};
    assert_true(s->done.record && s->done.failed);
    make_record(&s->done.record[0], &next);
    make_record(&s->done.record[2], &next);
    s->done.failed[1] = strdup("no bay is free");
    s->bytes = shard_write(&s->run, &s->done, &s->size);
    assert_non_null(s->bytes);
}

static void end(struct slice *s)
{
    crew_free(&s->done);
    free(s->bytes);
}

static void make_and_read(struct slice *s, struct shard_run *run, struct crew_done *done)
{
    make(s);
    assert_true(shard_read(run, done, s->bytes, s->size, "a.shard", &s->why));
}

static void same_bytes(const void *a, const void *b, size_t size)
{
    assert_memory_equal(a, b, size);
}

static void same_record(const struct record *a, const struct record *b)
{
    assert_int_equal(a->days, b->days);
    assert_int_equal(a->events, b->events);
    assert_int_equal(a->turns, b->turns);
    same_bytes(a->day, b->day, DAYS * sizeof *a->day);
    same_bytes(a->event, b->event, EVENTS * sizeof *a->event);
    same_bytes(a->balance, b->balance, sizeof a->balance);
    same_bytes(&a->respiration_gap, &b->respiration_gap, sizeof a->respiration_gap);
    same_bytes(a->flux_total, b->flux_total, sizeof a->flux_total);
    same_bytes(a->seeds_laid, b->seeds_laid, sizeof a->seeds_laid);
    same_bytes(a->seeds_alive, b->seeds_alive, sizeof a->seeds_alive);
    same_bytes(a->germs_laid, b->germs_laid, sizeof a->germs_laid);
    same_bytes(a->germs_alive, b->germs_alive, sizeof a->germs_alive);
    same_bytes(a->pool_laid_kg, b->pool_laid_kg, sizeof a->pool_laid_kg);
    same_bytes(a->stuff_left_share, b->stuff_left_share, sizeof a->stuff_left_share);
    same_bytes(&a->person_s, &b->person_s, sizeof a->person_s);
    same_bytes(&a->lifted_kg, &b->lifted_kg, sizeof a->lifted_kg);
    same_bytes(&a->water_l, &b->water_l, sizeof a->water_l);
    same_bytes(&a->ignition_day, &b->ignition_day, sizeof a->ignition_day);
}

static void a_shard_comes_back_as_it_was(void **state)
{
    (void)state;
    struct slice s;
    struct shard_run run;
    struct crew_done done;
    make_and_read(&s, &run, &done);
    assert_string_equal(run.version, "1.2.3");
    assert_string_equal(run.file, "a pile.yaml");
    assert_int_equal(run.text_size, sizeof TEXT - 1);
    assert_memory_equal(run.text, TEXT, sizeof TEXT - 1);
    assert_int_equal(run.plan, 2);
    assert_true(run.draw == s.run.draw);
    same_bytes(&run.param, &s.run.param, sizeof run.param);
    same_bytes(run.fixed, s.run.fixed, sizeof run.fixed); /* what was set by hand is no unknown of the slices to come */
    assert_true(shard_alike(&run, &s.run));
    assert_int_equal(done.first, FIRST);
    assert_int_equal(done.members, MEMBERS);
    assert_int_equal(done.failures, 1);
    assert_true(!done.failed[0] && !done.failed[2]);
    assert_string_equal(done.failed[1], "no bay is free");
    same_record(&done.record[0], &s.done.record[0]);
    same_record(&done.record[2], &s.done.record[2]);
    crew_free(&done);
    end(&s);
}

/* So a merge that maps its shards holds none of their days. */
static void days_and_events_are_used_where_they_lie(void **state)
{
    (void)state;
    struct slice s;
    struct shard_run run;
    struct crew_done done;
    make_and_read(&s, &run, &done);
    for (int i = 0; i < MEMBERS; i += 2) {
        const unsigned char *day = (const unsigned char *)done.record[i].day;
        const unsigned char *event = (const unsigned char *)done.record[i].event;
        assert_true(day > s.bytes && event < s.bytes + s.size);
        assert_true(event == day + DAYS * sizeof(struct record_day));
        assert_int_equal((uintptr_t)day % 8, 0);
    }
    crew_free(&done); /* and leaves the bytes alone */
    assert_true(shard_read(&run, &done, s.bytes, s.size, "a.shard", &s.why));
    crew_free(&done);
    end(&s);
}

static void the_same_slice_is_the_same_file(void **state)
{
    (void)state;
    struct slice a, b;
    make(&a);
    make(&b);
    assert_int_equal(a.size, b.size);
    same_bytes(a.bytes, b.bytes, a.size);
    end(&a);
    end(&b);
}

/* ---- damage ---- */

/* Must be refused, with its name and a way out; what is left can be freed. */
static void refused(struct slice *s, const unsigned char *bytes, size_t size)
{
    struct shard_run run;
    struct crew_done done;
    s->why = (struct trouble){0};
    assert_false(shard_read(&run, &done, bytes, size, "a.shard", &s->why));
    assert_int_equal(s->why.kind, TROUBLE_INPUT);
    assert_int_equal(strncmp(s->why.text, "a.shard: this ", 14), 0);
    crew_free(&done);
}

static void any_changed_byte_is_found(void **state)
{
    (void)state;
    static const unsigned char masks[] = {0x01, 0x80, 0xff};
    struct slice s;
    make(&s);
    for (size_t i = 0; i < s.size; i++)
        for (int k = 0; k < 3; k++) {
            s.bytes[i] ^= masks[k];
            refused(&s, s.bytes, s.size);
            s.bytes[i] ^= masks[k];
        }
    end(&s);
}

/* Each length in a block of its own, so that reading past the end is seen. */
static void any_truncation_is_found(void **state)
{
    (void)state;
    struct slice s;
    make(&s);
    for (size_t size = 0; size < s.size; size++) {
        unsigned char *cut = malloc(size + !size);
        assert_non_null(cut);
        memcpy(cut, s.bytes, size);
        refused(&s, cut, size);
        free(cut);
    }
    unsigned char *longer = malloc(s.size + 1);
    memcpy(longer, s.bytes, s.size);
    longer[s.size] = 0;
    refused(&s, longer, s.size + 1);
    free(longer);
    end(&s);
}

static void another_file_is_no_shard(void **state)
{
    (void)state;
    struct slice s = {.size = 0};
    char text[4096];
    memset(text, 'a', sizeof text);
    refused(&s, (const unsigned char *)text, sizeof text);
    assert_non_null(strstr(s.why.text, "no shard"));
    refused(&s, (const unsigned char *)"", 0);
    assert_non_null(strstr(s.why.text, "no shard"));
}

static uint64_t fnv(const unsigned char *bytes, size_t size)
{
    uint64_t sum = UINT64_C(0xcbf29ce484222325);
    while (size-- > 0)
        sum = (sum ^ *bytes++) * UINT64_C(0x100000001b3);
    return sum;
}

/* Values of the authors' table of test strings. */
static void the_judge_of_checksums_finds_published_values(void **state)
{
    (void)state;
    assert_true(fnv((const unsigned char *)"", 0) == UINT64_C(0xcbf29ce484222325));  /* [memory] */
    assert_true(fnv((const unsigned char *)"a", 1) == UINT64_C(0xaf63dc4c8601ec8c)); /* [memory] */
    assert_true(fnv((const unsigned char *)"foobar", 6) ==
                UINT64_C(0x85944171f73967e8)); /* [memory] */
}

static void seal(unsigned char *bytes, size_t size)
{
    uint64_t sum = fnv(bytes, size - sizeof sum);
    memcpy(bytes + size - sizeof sum, &sum, sizeof sum);
}

/* Well sealed, but with an event or a day that no season has: tables would be read past their ends. */
static void what_no_season_holds_is_refused_however_well_it_is_sealed(void **state)
{
    (void)state;
    struct slice s;
    make(&s);
    struct record_event *event = &s.done.record[2].event[EVENTS - 1], sound = *event;
    struct record_day *day = &s.done.record[2].day[DAYS - 1], plain = *day;
    static const int wrong[] = {-1, 99};
    for (int i = 0; i < 6; i++) {
        *event = sound;
        *day = plain;
        switch (i / 2) {
        case 0: event->deed = (enum plan_deed)wrong[i % 2]; break;
        case 1: event->way = (enum plan_way)wrong[i % 2]; break;
        case 2: *(i % 2 ? &day->first_event : &day->events) = EVENTS + 1; break;
        }
        free(s.bytes);
        s.bytes = shard_write(&s.run, &s.done, &s.size);
        assert_non_null(s.bytes);
        refused(&s, s.bytes, s.size);
    }
    end(&s);
}

static unsigned char *place_of(const struct slice *s, const char *text)
{
    size_t length = strlen(text);
    for (size_t i = 0; i + length <= s->size; i++)
        if (memcmp(s->bytes + i, text, length) == 0)
            return s->bytes + i;
    fail_msg("%s isn't in the shard", text);
    return NULL;
}

/* Such a shard, read and written again, would be shorter: a fuzzer found it. */
static void a_text_that_ends_before_its_end_is_refused(void **state)
{
    (void)state;
    struct slice s;
    make(&s);
    const char *reason = NULL;
    for (int m = 0; m < s.done.members; m++)
        reason = s.done.failed[m] ? s.done.failed[m] : reason;
    assert_non_null(reason);
    const char *texts[] = {s.run.version, s.run.file, reason};
    for (int i = 0; i < 3; i++) {
        unsigned char *at = place_of(&s, texts[i]), letter = *at;
        *at = '\0';
        seal(s.bytes, s.size);
        refused(&s, s.bytes, s.size);
        *at = letter;
    }
    end(&s);
}

/* Reads all that a reader of the records may touch: a wrong count would lead past an end. */
static double walk(const struct shard_run *run, const struct crew_done *done)
{
    double sum = (double)(strlen(run->version) + strlen(run->file));
    for (size_t i = 0; i < run->text_size; i++)
        sum += run->text[i];
    for (int m = 0; m < done->members; m++) {
        const struct record *r = &done->record[m];
        if (done->failed[m])
            sum += (double)strlen(done->failed[m]);
        for (int d = 0; d < r->days; d++)
            for (int e = 0; e < r->day[d].events; e++)
                sum += r->event[r->day[d].first_event + e].water_kg;
    }
    return sum;
}

/* Reads a damaged shard under a right checksum, and all it holds if it is taken; 1 if it is. */
static int survives(struct slice *s)
{
    struct shard_run run;
    struct crew_done done;
    s->why = (struct trouble){0};
    seal(s->bytes, s->size);
    bool taken = shard_read(&run, &done, s->bytes, s->size, "a.shard", &s->why);
    volatile double read = taken ? walk(&run, &done) : 0;
    (void)read;
    assert_int_equal(s->why.kind, taken ? TROUBLE_NONE : TROUBLE_INPUT);
    crew_free(&done);
    return taken;
}

/* Numbers may be wrong, which nobody can see; counts, closed lists and layout are refused, and
 * sanitizers watch that nothing outside is touched. */
static void a_wrong_byte_under_a_right_checksum_does_no_harm(void **state)
{
    (void)state;
    static const unsigned char masks[] = {0x01, 0x08, 0x7f, 0x80, 0xff};
    struct slice s;
    int taken = 0, tried = 0;
    make(&s);
    for (size_t i = 0; i < s.size - sizeof(uint64_t); i++)
        for (int k = 0; k < 5; k++, tried++) {
            s.bytes[i] ^= masks[k];
            taken += survives(&s);
            s.bytes[i] ^= masks[k];
        }
    assert_true(taken > 0 && taken < tried);
    end(&s);
}

/* Counts that would ask for more than there is, wherever an int may stand. */
static void no_count_is_believed(void **state)
{
    (void)state;
    static const int32_t counts[] = {-1, INT32_MIN, INT32_MAX, 4000, 65536};
    struct slice s;
    int taken = 0, tried = 0;
    make(&s);
    for (size_t i = 0; i + sizeof counts[0] <= s.size - sizeof(uint64_t); i += sizeof counts[0])
        for (int k = 0; k < 5; k++, tried++) {
            unsigned char was[sizeof counts[0]];
            memcpy(was, s.bytes + i, sizeof was);
            memcpy(s.bytes + i, &counts[k], sizeof counts[0]);
            taken += survives(&s);
            memcpy(s.bytes + i, was, sizeof was);
        }
    assert_true(taken > 0 && taken < tried);
    end(&s);
}

/* ---- slices of one run ---- */

static void a_shard_of_another_run_is_not_alike(void **state)
{
    (void)state;
    struct slice s;
    make(&s);
    struct shard_run other = s.run;
    other.file = "./a pile.yaml"; /* the same text under another name is the same run */
    assert_true(shard_alike(&s.run, &other));
    other = s.run;
    other.version = "1.2.4";
    assert_false(shard_alike(&s.run, &other));
    other = s.run;
    other.plan = 1;
    assert_false(shard_alike(&s.run, &other));
    other = s.run;
    other.draw++;
    assert_false(shard_alike(&s.run, &other));
    other = s.run;
    other.text_size--;
    assert_false(shard_alike(&s.run, &other));
    other = s.run;
    other.text = "midden: 1\nname: any text at any\n";
    assert_int_equal(strlen(other.text), sizeof TEXT - 1);
    assert_false(shard_alike(&s.run, &other));
    for (int i = 0; i < PARAM_ROWS; i++) {
        const struct param_row *row = &param_rows[i];
        other = s.run;
        param_put(&other.param, row, row->usual < row->most ? row->most : row->least);
        assert_false(shard_alike(&s.run, &other));
    }
    end(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_shard_comes_back_as_it_was),
        cmocka_unit_test(days_and_events_are_used_where_they_lie),
        cmocka_unit_test(the_same_slice_is_the_same_file),
        cmocka_unit_test(any_changed_byte_is_found),
        cmocka_unit_test(any_truncation_is_found),
        cmocka_unit_test(another_file_is_no_shard),
        cmocka_unit_test(what_no_season_holds_is_refused_however_well_it_is_sealed),
        cmocka_unit_test(a_text_that_ends_before_its_end_is_refused),
        cmocka_unit_test(the_judge_of_checksums_finds_published_values),
        cmocka_unit_test(a_wrong_byte_under_a_right_checksum_does_no_harm),
        cmocka_unit_test(no_count_is_believed),
        cmocka_unit_test(a_shard_of_another_run_is_not_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
