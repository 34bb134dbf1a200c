/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_search.c - what a search found: in words, as JSON, as lines of a scenario that read back
 * as the plan they were written from. The search is made up; nothing is searched and nothing about compost
 * is tested here.
 */
#include "tell/search.h"
#include "ask/piles.h"
#include "know/bound.h"
#include <jansson.h>
#include <math.h>

/* Saturdays from 25 October, by the day of the season, 0 = 18 October 2025 [derived: any calendar] */
enum { FIRST = 7, SECOND = 21, THIRD = 35 };

#define NEED "need: {for: pots, by: 2026-05-02, chance: 8 in 10}\n"
#define NAMED_BINS                                                                                  \
    "midden: 1\nstart: 2025-10-18\nplace: {latitude: 47.2 N, elevation: 430 m}\nsky: cold winters\n" \
    "bins:\n  old: {size: 1 x 1 x 1 m}\n  \"it's: #2\": {size: 1 x 1 x 1 m, now: empty}\n"             \
    "  new: {size: 1 x 1 x 1 m, now: empty}\n" PILES_BUILD

struct found {
    struct search search;
    struct scenario scenario;
    struct outcome outcome[2];
};

static void read_scenario(struct scenario *scenario, const char *text)
{
    struct trouble why = {0};
    if (!scenario_read_text(scenario, text, strlen(text), "test.yaml", &why))
        fail_msg("%s\n%s", why.text, text);
}

static int cover_row(const char *name)
{
    for (int i = 0; i < bound_count; i++)
        if (!strcmp(bound_rows[i].name, name))
            return i;
    fail_msg("no cover %s", name);
    return -1;
}

/* One turn mixed on 8 November is best; the front adds leaving it alone and two turns. */
static struct found *found_new(const char *text)
{
    struct found *f = calloc(1, sizeof *f);
    assert_non_null(f);
    struct search *s = &f->search;
    read_scenario(&f->scenario, text);
    s->scenario = &f->scenario;
    s->space = (struct space){.scenario = &f->scenario, .days = 3, .day = {FIRST, SECOND, THIRD},
                              .cover = cover_row("straw"), .cover_m = 0.1};
    s->trials = 2;
    s->best = 1;
    s->trial[1] = (struct search_trial){
        .candidate = {.turns = 1, .turn = {{1, PLAN_MIXED, PLAN_NEXT_BAY, true}}},
        .members = 2, .outcome = f->outcome, .chance = 0.83, .person_s = 2700};
    f->outcome[0] = f->outcome[1] = (struct outcome){.computed = true, .peak_K = 300};
    s->found = s->finished = s->told_fresh = true;
    s->chance = (struct span){0.76, 0.83, 0.89};
    s->person_s = (struct span){2500, 2700, 2900};
    s->water_kg = (struct span){10, 20, 30};
    s->ready_day = (struct span){150, 165, 180};
    s->seasons = 640;
    s->told_members = 64;
    s->fronts = 3;
    s->front[0] = (struct search_front){.chance = 0.31, .person_s = 60, .ready_day = NAN, .members = 16};
    s->front[1] = (struct search_front){.candidate = s->trial[1].candidate, .chance = 0.83, .person_s = 2700,
                                        .ready_day = 165, .members = 64};
    s->front[2] = (struct search_front){
        .candidate = {.turns = 2, .covered = true, .turn = {{0, PLAN_OUTSIDE_IN, PLAN_NEXT_BAY, false},
                                                            {2, PLAN_MIXED, PLAN_NEXT_BAY, true}}},
        .chance = 0.95, .person_s = 5400, .ready_day = 140.4, .members = 32};
    return f;
}

/* The text on one line, since lines break anywhere. */
static char *told(const struct search *s, const char *written, bool in_full)
{
    char *text = NULL, *to;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    search_text(out, s, written, in_full);
    assert_int_equal(fclose(out), 0);
    to = text;
    for (const char *at = text; *at; at++)
        if (!(*at == ' ' || *at == '\n') || (to > text && to[-1] != ' '))
            *to++ = *at == '\n' ? ' ' : *at;
    *to = '\0';
    return text;
}

static void holds(const char *text, const char *words)
{
    if (!strstr(text, words))
        fail_msg("no \"%s\" in\n%s", words, text);
}

static void the_plan_is_told_with_its_chance_its_work_and_its_day(void **state)
{
    (void)state;
    struct found *f = found_new(PILES_HEAD PILES_BUILD NEED);
    char *text = told(&f->search, NULL, false);
    holds(text, "One turn, 8 Nov mixed: ready for pots by 2 May in 8 (8-9) in 10; 45 min of work.");
    assert_null(strstr(text, "cut short"));
    /* the 165th day, 18 October being the first, is 31 March [derived: 14+30+31+31+28+31 = 165] */
    holds(text, "from 64 possible piles that the search never saw; likeliest ready about 31 Mar");
    holds(text, "2 plans tried in 640 seasons, the others judged by fewer");
    assert_null(strstr(text, "by those it saw")); /* as good and as much work there */
    holds(text, "--write found.yaml keeps the plan; midden compare judges your own");
    free(text);
    /* where the search's own piles say otherwise, what stands beside the plan was judged by those */
    f->search.trial[1].chance = 0.9;
    f->search.trial[1].person_s = 2400;
    text = told(&f->search, NULL, false);
    holds(text, "that the search never saw (by those it saw, as `less` and `more` are: 9 in 10, 40 min); likeliest");
    free(text);
    f->search.finished = f->search.told_fresh = false;
    f->search.ready_day.mid = NAN;
    f->search.trials = 1;
    text = told(&f->search, "kept.yaml", false);
    holds(text, "The search was cut short.");
    holds(text, "64 possible piles that also chose the plan; 1 plan tried");
    assert_null(strstr(text, "likeliest"));
    holds(text, "kept.yaml holds the plan: midden run kept.yaml");
    free(text);
    free(f);
}

static void more_and_less_work_stand_beside_it_with_their_chances(void **state)
{
    (void)state;
    struct found *f = found_new(PILES_HEAD PILES_BUILD NEED);
    char *text = told(&f->search, NULL, false);
    holds(text, "less no turn: 3 in 10, 1 min");
    holds(text, "more two turns, 25 Oct outside in without water, 22 Nov mixed, straw on top throughout: "
                "more than 9 in 10, 90 min");
    holds(text, "One turn, 8 Nov mixed");
    assert_null(strstr(text, "one turn, 8 Nov mixed")); /* the plan itself isn't told again */
    free(text);
    free(f);
}

static void the_short_form_ends_after_four_others_and_the_long_one_tells_all(void **state)
{
    (void)state;
    struct found *f = found_new(PILES_HEAD PILES_BUILD NEED);
    for (int i = 0; i < 6; i++)
        f->search.front[i] = (struct search_front){
            .candidate = {.turns = 1, .covered = true, .turn = {{i % 3, (enum plan_way)(i / 3), PLAN_SAME_BAY, true}}},
            .chance = 0.9, .person_s = 60 * (100 + i)};
    f->search.fronts = 6;
    char *text = told(&f->search, NULL, false);
    holds(text, "103 min");
    assert_null(strstr(text, "104 min"));
    free(text);
    text = told(&f->search, NULL, true);
    holds(text, "104 min");
    holds(text, "105 min");
    free(text);
    free(f);
}

static void where_no_plan_will_do_the_nearest_is_told_as_such(void **state)
{
    (void)state;
    struct found *f = found_new(PILES_HEAD PILES_BUILD NEED);
    f->search.found = false;
    f->search.chance = (struct span){0.2, 0.31, 0.44};
    char *text = told(&f->search, NULL, false);
    holds(text, "No plan makes it ready for pots by 2 May with the 8 in 10 you ask for. Nearest of the 2 tried: one turn, 8 Nov "
                "mixed: 3 (2-4) in 10, 45 min of work.");
    free(text);
    f->search.space.days = 0;
    f->search.trial[1].candidate.turns = 0;
    f->search.too_long = f->search.trials = 1;
    text = told(&f->search, NULL, false);
    holds(text, "No plan (there is no day to turn) makes it ready");
    holds(text, "Nearest: no turn:");
    holds(text, "1 plan tried in 640 seasons visit 1 of");
    holds(text, "1 of the plans takes longer than your visit of 90 min");
    free(text);
    f->search.too_long = 3;
    text = told(&f->search, NULL, false);
    holds(text, "3 of the plans take longer than your visit of 90 min");
    free(text);
    free(f);
}

static void a_pile_that_gets_hot_brings_its_caution(void **state)
{
    (void)state;
    struct found *f = found_new(PILES_HEAD PILES_BUILD NEED);
    char *cool = told(&f->search, NULL, false);
    f->outcome[1].peak_K = 273.15 + 70;
    char *hot = told(&f->search, NULL, false);
    assert_true(strlen(strstr(hot, "care")) > strlen(strstr(cool, "care")));
    f->outcome[1].computed = false; /* what could not be run says nothing */
    char *unknown = told(&f->search, NULL, false);
    assert_string_equal(unknown, cool);
    free(cool);
    free(hot);
    free(unknown);
    free(f);
}

/* The lines, put under a plan of the same scenario and read, are the same events. */
static void reads_back(const char *head, const struct candidate *candidate, int indent)
{
    struct found *f = found_new(head);
    struct plan wanted;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    fprintf(out, "%splans:\n  again:", head);
    search_yaml(out, &f->search, candidate, indent);
    fputc('\n', out);
    assert_int_equal(fclose(out), 0);
    struct scenario *again = calloc(1, sizeof *again);
    assert_non_null(again);
    read_scenario(again, text);
    space_plan(&wanted, &f->search.space, candidate);
    const struct plan *plan = &again->plan[again->plans - 1];
    assert_int_equal(plan->events, wanted.events);
    for (int e = 0; e < wanted.events; e++) {
        const struct plan_event *got = &plan->event[e], *want = &wanted.event[e];
        assert_int_equal(got->deed, want->deed);
        assert_int_equal(got->day, want->day);
        assert_int_equal(got->into, want->into);
        assert_int_equal(got->until_it_drips, want->until_it_drips);
        if (want->deed == PLAN_TURN)
            assert_int_equal(got->way, want->way);
        else
            assert_int_equal(got->cover, want->cover);
        assert_near(got->cover_m, want->cover_m, 1e-6); /* written to six digits, mm */
    }
    free(again);
    free(text);
    free(f);
}

static void what_is_written_into_a_scenario_reads_back_as_the_plan(void **state)
{
    (void)state;
    struct candidate c = {.turns = 3, .covered = true,
                          .turn = {{0, PLAN_OUTSIDE_IN, 1, true},  /* a bin whose name YAML would misread */
                                   {1, PLAN_MIXED, PLAN_NEXT_BAY, false},
                                   {2, PLAN_LAYER_BY_LAYER, 2, true}}};
    reads_back(NAMED_BINS, &c, 4);
    reads_back(NAMED_BINS, &c, SEARCH_IN_LINE);
    c = (struct candidate){.turns = 1, .covered = true, .turn = {{2, PLAN_OUT_AND_BACK, PLAN_SAME_BAY, false}}};
    reads_back(PILES_HEAD PILES_BUILD, &c, 6);
    reads_back(PILES_HEAD PILES_BUILD, &c, SEARCH_IN_LINE);
}

static const char *text_of(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    assert_non_null(text);
    return text;
}

static void json_tells_the_plan_the_curve_and_how_it_was_found(void **state)
{
    (void)state;
    struct found *f = found_new(PILES_HEAD PILES_BUILD NEED);
    struct trouble why = {0};
    f->search.trial[1].candidate = f->search.front[2].candidate;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_true(search_json(out, &f->search, &why));
    assert_int_equal(fclose(out), 0);
    json_t *object = json_loads(text, 0, NULL);
    assert_non_null(object);
    json_t *events = json_object_get(json_object_get(object, "plan"), "events");
    assert_int_equal(json_array_size(events), 4); /* two turns, and after each the cover again */
    assert_string_equal(text_of(json_array_get(events, 0), "date"), "2025-10-25");
    assert_string_equal(text_of(json_array_get(events, 0), "do"), "turn");
    assert_string_equal(text_of(json_array_get(events, 0), "how"), "outside in");
    assert_string_equal(text_of(json_array_get(events, 0), "into"), "next");
    assert_true(json_is_false(json_object_get(json_array_get(events, 0), "until_it_drips")));
    assert_string_equal(text_of(json_array_get(events, 1), "do"), "cover");
    assert_string_equal(text_of(json_array_get(events, 1), "how"), "straw");
    assert_string_equal(text_of(json_array_get(events, 2), "date"), "2025-11-22");
    assert_true(json_is_true(json_object_get(json_array_get(events, 2), "until_it_drips")));
    assert_string_equal(text_of(object, "ready_date"), "2026-03-31");
    json_t *curve = json_object_get(object, "curve");
    assert_int_equal(json_array_size(curve), 3);
    assert_true(json_is_null(json_object_get(json_array_get(curve, 0), "ready_date"))); /* never */
    assert_string_equal(text_of(json_array_get(curve, 2), "ready_date"), "2026-03-06"); /* day 140 */
    assert_near(json_number_value(json_object_get(json_array_get(curve, 2), "person_minutes")), 90, 1e-9);
    assert_string_equal(json_string_value(json_array_get(json_object_get(json_array_get(curve, 2), "turn_dates"), 1)),
                        "2025-11-22");
    assert_int_equal(json_integer_value(json_object_get(object, "seasons")), 640);
    assert_true(json_is_true(json_object_get(object, "found")));
    json_decref(object);
    free(text);
    free(f);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_plan_is_told_with_its_chance_its_work_and_its_day),
        cmocka_unit_test(more_and_less_work_stand_beside_it_with_their_chances),
        cmocka_unit_test(the_short_form_ends_after_four_others_and_the_long_one_tells_all),
        cmocka_unit_test(where_no_plan_will_do_the_nearest_is_told_as_such),
        cmocka_unit_test(a_pile_that_gets_hot_brings_its_caution),
        cmocka_unit_test(what_is_written_into_a_scenario_reads_back_as_the_plan),
        cmocka_unit_test(json_tells_the_plan_the_curve_and_how_it_was_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
