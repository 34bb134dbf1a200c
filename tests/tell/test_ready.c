/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_ready.c - readiness in words, on made-up records. */
#include "tell/ready.h"
#include "lib/near.h"
#include <stdlib.h>

enum { DAYS = 200, MOST = 10, ICE = 273 };

struct made {
    struct scenario scenario;
    struct record record[MOST];
    struct record_day day[MOST][DAYS];
    struct tale tale;
    double room[MOST];
};

/* Hot to a day, then quiet and good for pots once cured. */
static void hot_until(struct made *m, int member, int day)
{
    m->record[member] = (struct record){.days = DAYS, .day = m->day[member]};
    for (int d = 0; d < DAYS; d++) {
        struct record_day *row = &m->day[member][d];
        *row = (struct record_day){.air_K = ICE + 12, .middle_K = ICE + (d < day ? 60 : 15),
                                   .mean_K = ICE + 15, .water_share = 0.3, .carbon_kg = 15,
                                   .nitrogen_kg = 1, .test_breath_per_s = 1e-3 / 86400};
        for (int p = 0; p < RECORD_PLACES; p++)
            for (int n = 0; n < RECORD_LIMITS; n++)
                row->limit[p][n] = n == RECORD_WATER ? 0.2 : 0.9;
    }
}

/* Raw and dry throughout. */
static void never(struct made *m, int member)
{
    hot_until(m, member, 0);
    for (int d = 0; d < DAYS; d++) {
        m->day[member][d].test_breath_per_s = 12e-3 / 86400;
        m->day[member][d].flask_rise_K = 44;
    }
}

static struct made *made_of(int members)
{
    struct made *m = calloc(1, sizeof *m);
    assert_non_null(m);
    m->scenario.start = date_number((struct date){2025, 10, 18});
    m->scenario.need = (struct plan_need){.is = true, .by = date_number((struct date){2026, 4, 18}),
                                          .what = READY_BEDS, .chance = 0.8};
    for (int i = 0; i < members; i++)
        hot_until(m, i, 20 + i);
    m->tale = (struct tale){.record = m->record, .members = members, .room = m->room,
                            .scenario = &m->scenario};
    return m;
}

static const char *sentence(struct made *m)
{
    static char text[READY_SAID];
    ready_sentence(text, &m->tale, false);
    return text;
}

static char *lines_of(struct made *m)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    ready_lines(out, &m->tale);
    ready_try(out, &m->tale);
    assert_int_equal(fclose(out), 0);
    return text;
}

/* A sentence may go over a line's end. */
static char *joined(char *text)
{
    char *to = text;
    for (const char *from = text; *from; from++)
        if (*from != '\n' && (*from != ' ' || to == text || to[-1] != ' '))
            *to++ = *from;
    *to = '\0';
    return text;
}

static void one_pile_has_a_day_and_no_chance(void **state)
{
    (void)state;
    struct made *m = made_of(1);
    /* hot on 20 days, cured on the 28th after: day 48 of a pile of 18 October; pots 28 days later */
    assert_string_equal(sentence(m), "Ready for beds (dug in) about 4 Dec; for pots and seed trays "
                        "(sown into) about 1 Jan.");
    never(m, 0);
    assert_string_equal(sentence(m), "Not ready for beds (dug in) by 18 Apr: too dry to work; "
                        "not before 5 May; as mulch (laid on top) not before 5 May.");
    free(m);
}

static void many_piles_have_a_range(void **state)
{
    (void)state;
    struct made *m = made_of(10);
    /* days 48 to 57: their 10 % and 90 % points are 48.1 and 56.9 */
    assert_non_null(strstr(sentence(m), "Ready for beds (dug in) about 9 Dec (4 Dec-13 Dec); "));
    for (int i = 6; i < 10; i++)
        hot_until(m, i, 195);
    assert_non_null(strstr(sentence(m), "Perhaps ready for beds (dug in) by 18 Apr: 6 (4-8) in 10 only "
                           "(else by then most often still working, with food left); likeliest "));
    free(m);
}

static void too_few_are_said_to_be_too_few(void **state)
{
    (void)state;
    struct made *m = made_of(10);
    for (int i = 3; i < 10; i++)
        never(m, i);
    const char *text = sentence(m);
    assert_int_equal(strncmp(text, "Not likely ready for beds (dug in) by 18 Apr: 3 (2-5) in 10 only "
                             "(else by then most often too dry to work); ", 108), 0);
    assert_non_null(strstr(text, "as mulch (laid on top)"));
    char *lines = lines_of(m);
    assert_non_null(strstr(lines, "; else by then too dry to work"));
    assert_non_null(strstr(lines, "by 18 Apr 3 (2-5) in 10"));
    assert_null(strstr(lines, "safe"));
    free(lines);
    m->scenario.need.is = false;
    lines = joined(lines_of(m));
    assert_non_null(strstr(lines, "; else at the season's end too dry to work"));
    free(lines);
    free(m);
}

/* A use in need is the first to be told of; each is explained where it is named. */
static void pots_and_mulch_can_be_needed_too(void **state)
{
    (void)state;
    struct made *m = made_of(1);
    m->scenario.need.what = READY_POTS;
    assert_string_equal(sentence(m), "Ready for pots and seed trays (sown into) about 1 Jan; for beds "
                        "(dug in) about 4 Dec.");
    m->scenario.need.what = READY_MULCH;
    assert_int_equal(strncmp(sentence(m), "Ready as mulch (laid on top) about 7 Nov; for beds", 50), 0);
    m->scenario.need.is = false;
    assert_int_equal(strncmp(sentence(m), "Ready for beds (dug in) about 4 Dec; for pots", 45), 0);
    char text[READY_SAID];
    ready_sentence(text, &m->tale, true);
    assert_string_equal(text, "Ready for beds (dug in) about 4 Dec.");
    m->record[0].days = 0;
    assert_string_equal(sentence(m), "");
    free(m);
}

static void whatever_is_said_fits_its_room(void **state)
{
    (void)state;
    struct made *m = made_of(10);
    for (int use = 0; use < READY_USES; use++)
        for (int dry = 0; dry <= 10; dry++) {
            m->scenario.need.what = use;
            for (int i = 0; i < 10; i++)
                i < dry ? never(m, i) : hot_until(m, i, 20 + 9 * i);
            size_t length = strlen(sentence(m));
            assert_in_range(length, 20, READY_SAID - 2);
            assert_int_equal(sentence(m)[length - 1], '.');
            char *lines = lines_of(m);
            for (char *line = lines; *line; line = strchr(line, '\n') + 1)
                assert_true(strcspn(line, "\n") <= 80);
            free(lines);
        }
    free(m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_pile_has_a_day_and_no_chance),
        cmocka_unit_test(many_piles_have_a_range),
        cmocka_unit_test(too_few_are_said_to_be_too_few),
        cmocka_unit_test(pots_and_mulch_can_be_needed_too),
        cmocka_unit_test(whatever_is_said_fits_its_room),
    };
    return cmocka_run_group_tests_name("tell/ready", tests, NULL, NULL);
}
