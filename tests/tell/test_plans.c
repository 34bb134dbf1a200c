/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_plans.c - the picture of plans side by side and of a search, drawn from made-up
 * figures; nothing about compost is tested with them.
 */
#include "tell/plans.h"
#include "lib/scratch.h"
#include "tell/finding.h"
#include "tell/work.h"

enum { DAYS = 60, MEMBERS = 4, PLANS = 20 };

struct made {
    struct scenario scenario;
    struct contender contender[PLANS];
    struct standing standing[PLANS];
    struct outcome outcome[PLANS][MEMBERS];
    struct span middle_K[PLANS][DAYS];
    struct comparison comparison;
    double room[MEMBERS];
};

/* Plan i is 2 K hotter, two days sooner and ten minutes dearer than the one before. */
static struct made *make(int plans)
{
    static struct made m;
    memset(&m, 0, sizeof m);
    strcpy(m.scenario.name, "Nettle Yard");
    m.scenario.start = date_number((struct date){2025, 10, 18});
    m.scenario.last_day = DAYS - 1;
    for (int i = 0; i < plans; i++) {
        snprintf(m.scenario.plan[i].name, PLAN_NAME, "way %d", i);
        for (int d = 0; d < DAYS; d++)
            m.middle_K[i][d].mid = 280.0 + 2.0 * i + 0.5 * d;
        for (int k = 0; k < MEMBERS; k++)
            m.outcome[i][k] = (struct outcome){.computed = true, .ready_day = {50 - 2 * i, 50 - 2 * i, 50 - 2 * i},
                                               .person_s = 600.0 * i, .peak_K = 310.0 + 2.0 * i};
        m.contender[i] = (struct contender){.file = "a.yaml", .scenario = &m.scenario, .asked = &m.scenario,
                                            .plan = i,
                                            .members = MEMBERS, .outcome = m.outcome[i],
                                            .middle_K = m.middle_K[i],
                                            .days = DAYS};
        m.standing[i] = compare_standing(&m.contender[i], m.room);
    }
    m.comparison = (struct comparison){.contender = m.contender, .standing = m.standing,
                                         .count = plans, .files = 1, .members = MEMBERS,
                                         .draw = 1, .room = m.room};
    return &m;
}

static void the_title_of_two_plans_says_what_their_pairs_say(void **state)
{
    (void)state;
    char text[FINDING_TEXT];
    struct made *m = make(2);
    plans_find(text, sizeof text, &m->comparison);
    assert_string_equal(text, "“way 1” gets hotter and is ready sooner, in the median by 2 days");
    for (int k = 0; k < MEMBERS; k++)
        m->outcome[0][k].ready_day[1] = 41;
    m->standing[0] = compare_standing(&m->contender[0], m->room);
    plans_find(text, sizeof text, &m->comparison);
    assert_string_equal(text, "“way 1” gets hotter, but “way 0” is ready sooner, in the median by 7 days");
}

static void the_least_work_that_is_enough_is_named(void **state)
{
    (void)state;
    char text[FINDING_TEXT];
    struct made *m = make(4);
    m->scenario.need = (struct plan_need){.is = true, .what = 1, .chance = 0.8,
                                          .by = m->scenario.start + 46}; /* day 47: ways 2 and 3 */
    for (int i = 0; i < 4; i++)
        m->standing[i] = compare_standing(&m->contender[i], m->room);
    plans_find(text, sizeof text, &m->comparison);
    assert_non_null(strstr(text, "“way 2”: ready for beds by"));
    assert_non_null(strstr(text, "with the least work that is enough"));
}

/* all members of a plan ready on this day, NAN never */
static void ready_on(struct made *m, int plan, double day)
{
    for (int k = 0; k < MEMBERS; k++)
        m->outcome[plan][k].ready_day[1] = day;
    m->standing[plan] = compare_standing(&m->contender[plan], m->room);
}

static void found(struct made *m, const char *wanted)
{
    char text[FINDING_TEXT];
    plans_find(text, sizeof text, &m->comparison);
    assert_string_equal(text, wanted);
}

static void the_title_of_two_plans_claims_no_more_than_the_pairs_bear(void **state)
{
    (void)state;
    struct made *m = make(2);
    ready_on(m, 0, 48); /* both on day 48 */
    found(m, "“way 1” gets hotter, but in the median is ready no sooner and no later");
    ready_on(m, 0, NAN);
    ready_on(m, 1, NAN);
    found(m, "“way 1” gets hotter, but neither is likely to be ready within the season");
    m = make(2);
    for (int k = 0; k < MEMBERS; k++)
        m->outcome[1][k].peak_K = m->outcome[0][k].peak_K; /* neither is hotter */
    found(m, "“way 1”: ready for beds on 4 Dec in the median, sooner than all others"); /* day 48 */
}

static void the_soonest_of_many_is_named_and_what_ties_with_it_is_not_denied(void **state)
{
    (void)state;
    struct made *m = make(3); /* days 50, 48, 46 */
    found(m, "“way 2”: ready for beds on 2 Dec in the median, sooner than all others");
    ready_on(m, 1, 46);
    char text[FINDING_TEXT];
    plans_find(text, sizeof text, &m->comparison);
    assert_non_null(strstr(text, "ready for beds on 2 Dec in the median, and none sooner"));
    for (int i = 0; i < 3; i++)
        ready_on(m, i, NAN);
    found(m, "None is likely to be ready for beds within the season");
    m = make(1);
    found(m, "“way 0”: ready for beds on 6 Dec in the median");
}

/* as likely as the other, and sooner by two days only: not worth its ten minutes, so way 0 is the nearer */
static void what_misses_the_need_is_said_to_miss_it(void **state)
{
    (void)state;
    for (int plans = 1; plans <= 2; plans++) {
        struct made *m = make(plans);
        m->scenario.need = (struct plan_need){.is = true, .what = 1, .chance = 0.8, .by = m->scenario.start + 20};
        for (int i = 0; i < plans; i++)
            m->standing[i] = compare_standing(&m->contender[i], m->room);
        char text[FINDING_TEXT], likely[PHRASE_TEXT], wanted[FINDING_TEXT];
        plans_find(text, sizeof text, &m->comparison);
        snprintf(likely, sizeof likely, "%s", phrase_chance(m->standing[0].chance).text);
        snprintf(wanted, sizeof wanted, "%s ready for beds by 7 Nov in 8 in 10; %s%s", plans > 1 ? "None" : "Not",
                 plans > 1 ? "nearest “way 0”: " : "", likely);
        assert_string_equal(text, wanted);
    }
}

static void long_names_of_plans_and_gardens_are_cut_between_letters(void **state)
{
    (void)state;
    struct made *m = make(1);
    strcpy(m->scenario.name, "Äpfelgärten über den Öfen hinter der Brücke");
    strcpy(m->scenario.plan[0].name, "jeden zweiten Samstag über Kreuz gemischt");
    for (int files = 1; files <= 2; files++) {
        char text[FINDING_TEXT];
        m->comparison.files = files;
        plans_find(text, sizeof text, &m->comparison);
        assert_non_null(strstr(text, files == 1 ? "“jeden" : "“Äpfel"));
        if (files == 2)
            assert_non_null(strstr(text, ".."));
        for (const unsigned char *c = (const unsigned char *)text; *c; c++) /* each letter of UTF-8 is whole */
            for (int more = *c >= 0xF0 ? 3 : *c >= 0xE0 ? 2 : *c >= 0xC0 ? 1 : 0; more > 0; more--)
                assert_int_equal(*++c & 0xC0, 0x80);
    }
}

static const char *whole_of(void **state, const char *name)
{
    static char bytes[1 << 20];
    FILE *in = fopen(scratch_path(state, name), "rb");
    assert_non_null(in);
    bytes[fread(bytes, 1, sizeof bytes - 1, in)] = '\0';
    fclose(in);
    return bytes;
}

static void take_away(void **state, const char *name)
{
    char path[64];
    for (int k = 0; k < 2; k++) {
        snprintf(path, sizeof path, "p/%s.%s", name, k ? "png" : "svg");
        assert_int_equal(unlink(scratch_path(state, path)), 0);
    }
    assert_int_equal(rmdir(scratch_path(state, "p")), 0);
}

static void odd_names_are_drawn_as_text_and_old_pictures_kept(void **state)
{
    struct trouble why = {0};
    struct made *m = make(PLANS);
    strcpy(m->scenario.plan[0].name, "it's <`x`> _y^2 \"z\" \\n");
    assert_true(plans_draw(scratch_path(state, "p"), false, &m->comparison, &why));
    const char *svg = whole_of(state, "p/plans.svg");
    assert_non_null(strstr(svg, "it's &lt;`x`> _y^2"));
    assert_non_null(strstr(svg, "16 of 20 plans"));
    assert_non_null(strstr(svg, "way 19")); /* the soonest is drawn, though it is the most work */
    assert_false(plans_draw(scratch_path(state, "p"), false, &m->comparison, &why));
    assert_int_equal(trouble_status(why.kind), 73);
    take_away(state, "plans");
}

static void plans_never_ready_are_drawn(void **state)
{
    struct trouble why = {0};
    struct made *m = make(1);
    for (int k = 0; k < MEMBERS; k++)
        m->outcome[0][k].ready_day[1] = NAN;
    m->standing[0] = compare_standing(&m->contender[0], m->room);
    assert_true(plans_draw(scratch_path(state, "p"), false, &m->comparison, &why));
    assert_non_null(strstr(whole_of(state, "p/plans.svg"), "Not likely to be ready for beds"));
    take_away(state, "plans");
}

static void a_search_is_drawn_with_what_it_found(void **state)
{
    struct trouble why = {0};
    static struct search s;
    struct made *m = make(1);
    m->scenario.need = (struct plan_need){.is = true, .what = 1, .chance = 0.8, .by = m->scenario.start + 46};
    s.scenario = &m->scenario;
    s.members = 64;
    s.found = s.finished = true;
    s.trials = s.fronts = 4;
    s.best = 2;
    for (int i = 0; i < 4; i++) {
        struct candidate candidate = {.turns = i};
        s.trial[i] = (struct search_trial){.candidate = candidate, .possible = true, .members = 64,
                                           .chance = 0.5 + 0.14 * i, .person_s = 2400.0 * i};
        s.front[i] = (struct search_front){candidate, 0.5 + 0.14 * i, 2400.0 * i, 40, 64};
    }
    s.chance = (struct span){.mid = 0.78, .low = 0.7, .high = 0.85};
    s.person_s = (struct span){.mid = 4800, .low = 4700, .high = 4900};
    assert_true(work_draw(scratch_path(state, "p"), false, &s, &why));
    const char *svg = whole_of(state, "p/work.svg");
    assert_non_null(strstr(svg, "<title>Found: 2 turns, 80 min of work: ready for beds by 3 Dec in 8 (7-9) in 10"));
    assert_non_null(strstr(svg, "asked: 8 in 10"));
    assert_non_null(strstr(svg, ">3 turns<"));
    take_away(state, "work");
}

#define IN_FOLDER(name) cmocka_unit_test_setup_teardown(name, scratch_open, scratch_close)
int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_title_of_two_plans_says_what_their_pairs_say),
        cmocka_unit_test(the_least_work_that_is_enough_is_named),
        cmocka_unit_test(the_title_of_two_plans_claims_no_more_than_the_pairs_bear),
        cmocka_unit_test(the_soonest_of_many_is_named_and_what_ties_with_it_is_not_denied),
        cmocka_unit_test(what_misses_the_need_is_said_to_miss_it),
        cmocka_unit_test(long_names_of_plans_and_gardens_are_cut_between_letters),
        IN_FOLDER(odd_names_are_drawn_as_text_and_old_pictures_kept),
        IN_FOLDER(plans_never_ready_are_drawn),
        IN_FOLDER(a_search_is_drawn_with_what_it_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
