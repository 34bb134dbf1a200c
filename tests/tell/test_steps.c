/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_steps.c - each deed of a plan in a gardener's words: its name, its condition, how it is done.
 * The plans are read from scenarios, so that what a keeper writes is what is told.
 */
#include "tell/steps.h"
#include "ask/piles.h"

static const struct phrase_style METRIC = {true, 0, 0.012};
enum { DAY = 14 }; /* 1 November */

static struct piles *planned(const char *deed)
{
    char text[2048];
    snprintf(text, sizeof text, PILES_HEAD PILES_BUILD "plans:\n  one:\n    - {%s}\n", deed);
    return piles_new(text, 0);
}

/* The deed on 1 November by its name, from the first bay. */
static void named(const char *deed, const char *wanted)
{
    char dated[512];
    snprintf(dated, sizeof dated, "day: 2025-11-01, %s", deed);
    struct piles *p = planned(dated);
    const struct saying said = steps_name(&p->scenario, &METRIC, &p->scenario.plan[0].event[0], 0, -1);
    assert_string_equal(said.text, wanted);
    free(p);
}

static void every_deed_has_its_name(void **state)
{
    (void)state;
    named("turn: mixed", "turn bay 1 where it is, mixed");
    named("turn: mixed, into: bay 1", "turn bay 1 where it is, mixed");
    named("turn: out and back", "turn bay 1, out and back");
    named("turn: outside in, into: bay 3", "turn bay 1 into bay 3, outside in");
    named("turn: layer by layer, into: next, pick out: sticks",
          "turn bay 1 into the next free bay, layer by layer, sticks picked out");
    named("water: until it drips", "water it until it drips");
    named("water: 2 buckets", "pour on 2 buckets of water");
    named("water: 2.8 buckets", "pour on 2 3/4 buckets of water");
    named("water: 31 L", "pour on 3 1/4 buckets of water"); /* 3.23 of 9.6 L */
    named("add: {kitchen scraps: 2.8 buckets, straw: 1.2 bags}",
          "add kitchen scraps 2 3/4 buckets, wheat straw 1 1/4 bags");
    named("add: {kitchen scraps: 1 bucket}, bury: 20 cm", "add kitchen scraps 1 bucket, under 20 cm");
    named("add: {kitchen scraps: 1 bucket}", "add kitchen scraps 1 bucket");
    named("cover: tarp", "cover with tarp");
    named("cover: straw 10 cm", "cover with straw, 10 cm");
    named("uncover: all", "take off all that covers it");
    named("uncover: tarp", "take off tarp");
    named("loosen: all over", "loosen it");
    named("pick out: sticks", "pick out sticks");
}

static void a_day_is_told_with_all_its_deeds_and_without_those_of_rules(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD "plans:\n  one:\n"
        "    - {day: 2025-11-01, turn: mixed, into: bay 2}\n    - {day: 2025-11-01, cover: straw 10 cm}\n"
        "    - {day: 2025-11-15, water: 2 buckets}\n"
        "    - {look: Saturday, when: middle below 45 C, loosen: all over}\n", 0);
    const struct plan *plan = &p->scenario.plan[0];
    assert_string_equal(steps_day(&p->scenario, &METRIC, plan, DAY, false).text,
                        "turn into bay 2, mixed; cover with straw, 10 cm");
    assert_string_equal(steps_day(&p->scenario, &METRIC, plan, DAY, true).text, "loosen it");
    assert_string_equal(steps_day(&p->scenario, &METRIC, plan, DAY + 1, false).text, "");
    assert_string_equal(steps_day(&p->scenario, &METRIC, plan, DAY + 1, true).text, "");
    free(p);
}

static void ruled(const char *rule, const char *wanted)
{
    char looked[512];
    snprintf(looked, sizeof looked, "look: Saturday, %s, turn: mixed", rule);
    struct piles *p = planned(looked);
    assert_string_equal(steps_rule(&METRIC, &p->scenario.plan[0].event[0]).text, wanted);
    free(p);
}

static void every_condition_is_told(void **state)
{
    (void)state;
    ruled("when: middle below 45 C", "if the middle reads below 45 °C");
    ruled("when: 30 cm deep above 60 C", "if 30 cm in reads above 60 °C");
    ruled("when: hand deep below 30 C", "if a hand deep reads below 30 °C");
    ruled("when: squeeze crumbles", "if a handful from 30 cm in crumbles or is drier");
    ruled("when: squeeze dusty", "if a handful from 30 cm in is dusty");
    ruled("when: squeeze crumbles and middle below 45 C",
          "if the middle reads below 45 °C and a handful from 30 cm in crumbles or is drier");
    ruled("when: middle below 45 C, unless: air below -5 C",
          "if the middle reads below 45 °C, unless the air is below -5 °C");
    ruled("when: middle below 45 C, unless: hard frost",
          "if the middle reads below 45 °C, unless the air is below -5 °C or the crust rings");
    ruled("when: middle falls below 45 C", "if the middle has fallen below 45 °C");
    ruled("when: middle rises above 60 C", "if the middle has risen above 60 °C");
    ruled("when: middle below 45 C, at most: every 21 days",
          "if the middle reads below 45 °C, 21 days or more after the last time");
    struct piles *p = planned("day: 2025-11-01, turn: mixed");
    assert_string_equal(steps_rule(&METRIC, &p->scenario.plan[0].event[0]).text, "");
    free(p);
}

static void done(const char *deed, const char *words)
{
    char dated[512];
    snprintf(dated, sizeof dated, "day: 2025-11-01, %s", deed);
    struct piles *p = planned(dated);
    struct saying how = steps_how(&METRIC, &p->scenario.plan[0].event[0], false, 0.5);
    if (!strstr(how.text, words))
        fail_msg("%s: no \"%s\" in \"%s\"", deed, words, how.text);
    free(p);
}

static void how_it_is_done_follows_from_what_was_asked_for(void **state)
{
    (void)state;
    done("turn: mixed, into: bay 2, water: until it drips", "wet each hand's height until a squeezed handful drips");
    done("turn: mixed, into: bay 2, water: 2 buckets", "share the water out, some for each hand's height");
    done("turn: mixed, into: bay 2, pick out: sticks", "sticks go aside as they show");
    done("turn: layer by layer, into: bay 2, keep for the top: 8 cm", "8 cm of old bottom aside for the top; ");
    done("add: {kitchen scraps: 1 bucket}, bury: 20 cm", "open the top, lay it in, close it again");
    done("add: {kitchen scraps: 1 bucket}", "spread it evenly to the edges");
    done("cover: tarp", "lay it over the edges and weigh it down");
    done("cover: straw 10 cm", "spread it evenly, right to the edges");
    done("water: 2 buckets", "where it runs out below, pour no more");
    done("loosen: all over", "nothing changes place");
    done("pick out: sticks", "take out what is still stick or stalk");
    done("uncover: all", "keep it dry for the next time");
}

/* The skin of a pile 16 cm high isn't 20 cm; half the way in is 8. */
static void the_skin_is_never_more_than_half_the_way_in(void **state)
{
    (void)state;
    static const struct phrase_style us = {true, PLAN_SHOW_US, 0.012}, both = {true, PLAN_SHOW_BOTH, 0.012};
    struct piles *p = planned("day: 2025-11-01, turn: outside in, into: bay 2");
    const struct plan_event *turn = &p->scenario.plan[0].event[0];
    assert_string_equal(steps_how(&METRIC, turn, false, 0.16).text,
                        "skin (outer 8 cm) aside; old middle round the new rim; skin inside");
    for (int i = 0; i < 2; i++)
        assert_string_equal(steps_how(&METRIC, turn, true, i ? 0.6 : (double)NAN).text,
                            "skin (outer 20 cm) on one sheet, old middle on another; old middle back round "
                            "the rim, skin inside");
    assert_non_null(strstr(steps_how(&us, turn, false, 0.6).text, "skin (outer 8 in) aside"));
    assert_non_null(strstr(steps_how(&both, turn, false, 0.6).text, "skin (outer 20 cm) aside"));
    free(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_deed_has_its_name),
        cmocka_unit_test(a_day_is_told_with_all_its_deeds_and_without_those_of_rules),
        cmocka_unit_test(every_condition_is_told),
        cmocka_unit_test(how_it_is_done_follows_from_what_was_asked_for),
        cmocka_unit_test(the_skin_is_never_more_than_half_the_way_in),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
