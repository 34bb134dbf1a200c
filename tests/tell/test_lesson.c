/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_lesson.c - a lesson told: every number is that of its experiment, said where it
 * belongs; and what must not be said to a class stands only where it is put right.
 *
 * The lesson told here is made up, to have its own number in every place; nothing about compost is
 * tested with it.
 */
#include "tell/lesson.h"
#include "lib/near.h"
#include "tell/lesson_find.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DAYS = 60 };
static const struct phrase_style METRIC = {true, 0, 0.012};

static struct span C(double low, double mid, double high)
{
    return (struct span){low + 273.15, mid + 273.15, high + 273.15};
}

static struct span of(double low, double mid, double high)
{
    return (struct span){low, mid, high};
}

struct made {
    struct scenario scenario;
    struct lesson_found found;
    struct lesson_tale tale;
    struct record record;
    struct record_day day[DAYS];
};

static void make_runs(struct made *made)
{
    struct lesson_found *f = &made->found;
    for (int i = 0; i < LESSON_KINDS; i++) {
        f->run[i].scenario = &made->scenario;
        f->run[i].able.record = &made->record;
        f->run[i].able.members = 1;
    }
    f->asked = &f->run[LESSON_ASKED];
    f->alone = &f->run[LESSON_ALONE];
    f->other = &f->run[LESSON_OTHER];
    f->bare = &f->run[LESSON_BARE];
    made->record.days = DAYS;
    made->record.day = made->day;
    for (int i = 0; i < DAYS; i++)
        made->day[i].hottest_K = 340;
}

static void make_experiments(struct lesson_found *f)
{
    static const struct lesson_warmth none;
    f->size[0] = f->size[1] = f->wet[0] = f->wet[1] = f->wet[2] = none;
    for (int i = 0; i < 2; i++) {
        f->size[i].peak_K = C(40 + i, 43 + 10 * i, 48 + 10 * i);
        f->size[i].last_K = C(20 + i, 22 + 9 * i, 24 + 9 * i);
        f->size[i].warm_days = of(i, 2 + 9 * i, 4 + 9 * i);
    }
    for (int i = 0; i < 3; i++) {
        f->wet[i].peak_K = C(11, 12 + 10 * i, 38);
        f->wet[i].used_share = of(0.01, 0.03 + 0.1 * i, 0.3);
        f->wet[i].oxygen_least_share = of(0.01, 0.17 - 0.05 * i, 0.2);
        f->wet[i].water_share = of(0.2, 0.26 + 0.2 * i, 0.8);
        f->wet[i].free_air_share = of(0.3, 0.71 - 0.1 * i, 0.8);
    }
    f->larger_warmer = 13;
    f->size_pairs = 14;
    f->damp_most = 11;
    f->wet_sets = 15;
    f->turn_day = 18;
    f->turn_before_K = C(50, 51, 52);
    f->turn_low_K = C(30, 33, 35);
    f->turn_top_K = C(55, 57, 58);
    f->turn_alone_K = C(46, 47, 49);
    f->turn_after_days = of(2, 3, 5);
    f->oxygen_before_share = of(0.02, 0.04, 0.06);
    f->oxygen_after_share = of(0.1, 0.13, 0.16);
    f->turn_drops = 9;
    f->turn_rises = 8;
    f->turn_pairs = 12;
    f->hottest_over_55_share = of(0.5, 0.62, 0.7);
}

static void make_winter(struct lesson_found *f)
{
    f->cold_air_K = C(-11, -9, -7);
    f->cold_day = of(40, 44, 49);
    f->cover_day = 30;
    f->bare_K[0] = C(3, 5, 7);
    f->bare_K[1] = C(-3, -1, 1);
    f->covered_K[0] = C(6, 9, 12);
    f->covered_K[1] = C(-1, 2, 3);
    f->gain_K[0] = of(1, 4, 6);
    f->gain_K[1] = of(2, 3, 5);
    f->cold_made_W = of(5, 7, 9);
    f->later_made_W = of(20, 31, 40);
    f->wakes = 10;
    f->winter_pairs = 11;
}

static void make_plans(struct made *made)
{
    struct lesson_found *f = &made->found;
    snprintf(made->scenario.plan[0].name, PLAN_NAME, "left to itself");
    snprintf(made->scenario.plan[1].name, PLAN_NAME, "two turns");
    made->scenario.plans = 2;
    for (int i = 0; i < 2; i++) {
        f->contender[i] = (struct contender){.scenario = &made->scenario, .asked = &made->scenario,
                                             .plan = i};
        f->standing[i] = (struct standing){.ready_day = of(30 - 10 * i, 40 - 10 * i, 50 - 10 * i),
                                           .person_s = of(i * 5000, i * 5400, i * 6000),
                                           .chance = of(0.2, 0.3 + 0.4 * i, 0.8)};
    }
    f->busy = 1;
    f->pair.sooner_days = of(6, 10, 14);
    f->pair.sooner = f->pair.piles = 16;
    f->pair.extra_person_s = of(5000, 5400, 6000);
}

static struct made *make(void)
{
    struct made *made = calloc(1, sizeof *made);
    assert_non_null(made);
    struct lesson_found *f = &made->found;
    made->scenario = (struct scenario){.start = date_number((struct date){2025, 10, 4}),
                                       .last_day = DAYS - 1, .bucket_m3 = 0.012,
                                       .need = {.is = true, .what = 1, .chance = 0.8}};
    made->scenario.need.by = made->scenario.start + 50;
    snprintf(made->scenario.name, PLAN_NAME, "Sorrel Bank");
    make_runs(made);
    f->members = 16;
    f->dry_kg = of(190, 201, 215);
    f->quick_kg = of(140, 152, 163);
    f->water_kg = of(280, 303, 330);
    f->free_air_share = of(0.5, 0.57, 0.6);
    f->used_kg = of(70, 84, 93);
    f->heat_MJ_per_kg = of(16, 18, 19);
    f->dried_kg_per_kg = of(2, 3, 4);
    f->day = 11;
    f->how = LESSON_READING;
    f->next_day = 18;
    f->asked_peak_K = C(60, 66, 69);
    f->next_middle_K = C(44, 45, 46);
    f->next_deep_30cm_K = C(40, 41, 42);
    f->next_hand_deep_K = C(27, 28, 29);
    static const double line_W[BUDGET_LINES] = {418, -60, -90, -130, -70, -30, -8, -12, 0, 18};
    for (int i = 0; i < BUDGET_LINES; i++)
        f->budget.line_W[i] = of(line_W[i] - 10, line_W[i], line_W[i] + 10);
    static const double way_W[BUDGET_WAYS] = {150, 130, 78, 30, 12};
    for (int i = 0; i < BUDGET_WAYS; i++)
        f->budget.way_W[i] = of(way_W[i], way_W[i], way_W[i]);
    make_experiments(f);
    make_winter(f);
    make_plans(made);
    made->tale = (struct lesson_tale){.found = f, .scenario = &made->scenario, .plan = 0, .draw = 7,
                                      .version = "0", .file = "bank.yaml"};
    return made;
}

static bool shows(const struct made *made, enum lesson_step step, const char *words)
{
    struct saying said = lesson_shows(&made->tale, step, &METRIC);
    if (strstr(said.text, words))
        return true;
    fprintf(stderr, "no `%s` in: %s\n", words, said.text);
    return false;
}

static void food_water_and_air_are_told(void **state)
{
    (void)state;
    struct made *made = make();
    assert_true(shows(made, LESSON_NEEDS, "Food: 201 (190-215) kg dry, of which 152 (140-163) kg"));
    assert_true(shows(made, LESSON_NEEDS, "Water: 303 (280-330) kg. Air: 57 (50-60) % of the space."));
    assert_true(shows(made, LESSON_NEEDS, "uses up 84 (70-93) kg dry by 2 Dec; each kilogram sets 18 (16-19) MJ"));
    free(made);
}

static void watts_are_told_largest_first_and_add_up(void **state)
{
    (void)state;
    struct made *made = make();
    assert_true(shows(made, LESSON_WATTS, "On 15 Oct (day 12, the day of the last reading) decay makes "
                                          "418 (408-428) W, as much as 4.0 people"));
    assert_true(shows(made, LESSON_WATTS, "Steam and air take 150 W, the walls take 130 W, the top takes "
                                          "78 W, the ground takes 30 W, rain and drained water take 12 W. "
                                          "18 W stay and warm the pile."));
    /* 150 + 130 + 78 + 30 + 12 + 18 = 418 */
    made->found.budget.line_W[BUDGET_STORED].mid = -18;
    assert_true(shows(made, LESSON_WATTS, "That is 18 W more than is made: the pile cools."));
    made->found.budget.way_W[BUDGET_BY_GROUND].mid = -5;
    assert_true(shows(made, LESSON_WATTS, "the ground, the other way round, 5 W"));
    free(made);
}

static void sizes_and_their_surface_are_told(void **state)
{
    (void)state;
    struct made *made = make();
    assert_true(shows(made, LESSON_SIZE, "A cube of 60 cm: at most 43 °C (40-48)"));
    assert_true(shows(made, LESSON_SIZE, "at 45 °C or more on 2 (0-4) of 60 days, and on the last at 22 °C (20-24)"));
    assert_true(shows(made, LESSON_SIZE, "A cube of 120 cm: at most 53 °C (41-58)"));
    assert_true(shows(made, LESSON_SIZE, "on 11 (1-13) of 60 days, and on the last at 31 °C (21-33)"));
    assert_true(shows(made, LESSON_SIZE, "in 13 of 14 possible piles"));
    assert_true(shows(made, LESSON_SIZE, "the small one has 10 m2 of surface, the large one 5"));
    free(made);
}

static void a_turn_drops_then_rises(void **state)
{
    (void)state;
    struct made *made = make();
    assert_true(shows(made, LESSON_FORK, "on 22 Oct (day 19): the middle is at 51 °C (50-52)"));
    assert_true(shows(made, LESSON_FORK, "the day before and at 33 °C (30-35)"));
    assert_true(shows(made, LESSON_FORK, "Then it rises to 57 °C (55-58)"));
    assert_true(shows(made, LESSON_FORK, "3 (2-5) days after the turn; without the turn it is at most 47 °C (46-49)"));
    assert_true(shows(made, LESSON_FORK, "It rises above that in 8 of 12 possible piles."));
    assert_true(shows(made, LESSON_FORK, "4 (2-6) % the evening before, 13 (10-16) % that evening"));
    free(made);
}

static void dry_damp_and_wet_are_told(void **state)
{
    (void)state;
    struct made *made = make();
    assert_true(shows(made, LESSON_WATER, "Dry, built with 25 % water (that evening 26 (20-80) %, and 71 (30-80) % "
                                          "of the space is air): at most 12 °C (11-38)"));
    assert_true(shows(made, LESSON_WATER, "3 (1-30) % of the dry matter used up in 60 days; oxygen down to 17 (1-20) %"));
    assert_true(shows(made, LESSON_WATER, "Damp, built with 55 % water (that evening 46 (20-80) %"));
    assert_true(shows(made, LESSON_WATER, "Wet, built with 75 % water (that evening 66 (20-80) %"));
    assert_true(shows(made, LESSON_WATER, "The damp one uses up most in 11 of 15 possible piles."));
    made->found.damp_most = 4;
    assert_true(shows(made, LESSON_WATER, "most in 4 of 15 possible piles only: in this mix the wet one's 23 % is "
                                          "above its 13 %. Small life"));
    free(made);
}

static void cold_pauses_where_it_only_pauses(void **state)
{
    (void)state;
    struct made *made = make();
    assert_true(shows(made, LESSON_WINTER, "coldest day, about 17 Nov, is at -9 °C (-11 to -7)"));
    assert_true(shows(made, LESSON_WINTER, "the middle is at 5 °C (3-7) then, a hand deep -1 °C (-3 to 1)"));
    assert_true(shows(made, LESSON_WINTER, "Under 10 cm of straw since 3 Nov the middle is 4 °C (1-6) warmer, "
                                           "pile by pile, a hand deep 3 °C (2-5)"));
    assert_true(shows(made, LESSON_WINTER, "decay makes 7 (5-9) W on that day and up to 31 (20-40) W later: in 10 "
                                           "of 11 it only paused."));
    made->found.wakes = 4;
    assert_true(shows(made, LESSON_WINTER, "in 4 of 11 it picks up again."));
    made->found.later_made_W.high = NAN;
    assert_true(shows(made, LESSON_WINTER, "7 (5-9) W on that day; the season ends too soon after it"));
    made->found.winter_moved = true;
    assert_true(shows(made, LESSON_WINTER, "This season has no frost, so the same pile is begun on 4 October 2025."));
    free(made);
}

static void two_plans_are_told_by_what_a_minute_gains(void **state)
{
    (void)state;
    struct made *made = make();
    assert_true(shows(made, LESSON_CHOICE, "`two turns`: 90 min of work for one person, ready for beds 2 Nov "
                                           "(23 Oct-12 Nov), by 23 Nov 7 (2-8) in 10."));
    assert_true(shows(made, LESSON_CHOICE, "`left to itself`: 0 min of work for one person, ready for beds 12 Nov"));
    assert_true(shows(made, LESSON_CHOICE, "it is ready 10 days sooner (pile by pile: 6 days sooner to 14 days "
                                           "sooner), about 9 min for each day won."));
    made->found.pair.sooner_days = of(-3, 1, 4);
    assert_true(shows(made, LESSON_CHOICE, "it is ready 1 day sooner (pile by pile: 3 days later to 4 days sooner): "
                                           "no clear gain of time."));
    made->found.pair.sooner = 9;
    made->found.pair.later = 4; /* 13 tosses of a coin go so or worse in 27 of 100 */
    assert_true(shows(made, LESSON_CHOICE, "With the work it is ready sooner in 9 of 16 piles and later in 4 (pile by pile: "
                                           "3 days later to 4 days sooner): too close to tell which is first. "
                                           "`midden compare` can ask more piles."));
    made->found.pair.sooner = 4;
    made->found.pair.later = 2;
    assert_true(shows(made, LESSON_CHOICE, "and later in 2 (pile by pile: 3 days later to 4 days sooner): in most "
                                           "neither is first."));
    free(made);
}

static void the_forecast_waits_for_the_end(void **state)
{
    (void)state;
    struct made *made = make();
    for (int step = 0; step < LESSON_LOG; step++)
        assert_null(strstr(lesson_shows(&made->tale, (enum lesson_step)step, &METRIC).text, "28 °C (27-29)"));
    assert_true(shows(made, LESSON_LOG, "On 22 Oct: middle 45 °C (44-46)"));
    assert_true(shows(made, LESSON_LOG, "30 cm in 41 °C (40-42)"));
    assert_true(shows(made, LESSON_LOG, "a hand deep 28 °C (27-29)"));
    assert_true(shows(made, LESSON_LOG, "midden sheet bank.yaml"));
    made->found.next_day = -1;
    assert_true(shows(made, LESSON_LOG, "nothing is forecast"));
    free(made);
}

static void forty_minutes_are_forty(void **state)
{
    (void)state;
    for (int i = 0; i < LESSON_STEPS; i++) {
        assert_int_equal(lesson_rows[i].from_min, i ? lesson_rows[i - 1].to_min : 0);
        assert_true(lesson_rows[i].from_min < lesson_rows[i].to_min);
    }
    assert_int_equal(lesson_rows[LESSON_STEPS - 1].to_min, 40);
}

static char *page(const struct made *made, const struct phrase_style *style)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    lesson_head(out, &made->tale, style);
    for (int i = 0; i < LESSON_STEPS; i++) {
        lesson_before(out, (enum lesson_step)i);
        lesson_reveal(out, &made->tale, (enum lesson_step)i, i == 2 ? "the walls\x1b[2J" : NULL, style);
    }
    lesson_tail(out, &made->tale, style);
    fclose(out);
    return text;
}

static int widest(const char *text)
{
    int most = 0, here = 0;
    for (; *text; text++) {
        here = *text == '\n' ? 0 : here + (((unsigned char)*text & 0xC0) != 0x80);
        most = here > most ? here : most;
    }
    return most;
}

static void the_page_keeps_to_80_columns_and_shows_a_guess(void **state)
{
    (void)state;
    struct made *made = make();
    char *text = page(made, &METRIC);
    assert_true(widest(text) <= 80);
    assert_non_null(strstr(text, "Forty minutes with a class at Sorrel Bank."));
    assert_non_null(strstr(text, "\n  guess the walls?[2J\n"));
    assert_null(strchr(text, 0x1b));
    assert_null(strstr(text, "safe"));
    free(text);
    free(made);
}

/* What isn't so is quoted once, after everything else, with what is so behind it. */
static void what_is_not_so_is_said_only_to_put_it_right(void **state)
{
    (void)state;
    static const char *const wrong[] = {"Small life makes fire", "Heat kills all germs", "Turning makes heat"};
    struct made *made = make();
    char *text = page(made, &METRIC), *tail = strstr(text, "Not to be said, and what is so:");
    assert_non_null(tail);
    for (int i = 0; i < 3; i++) {
        char *here = strstr(text, wrong[i]);
        assert_non_null(here);
        assert_true(here > tail);
        assert_null(strstr(here + 1, wrong[i]));
    }
    assert_non_null(strstr(tail, "most 66 °C (60-69)"));
    assert_non_null(strstr(tail, "62 (50-70) %"));
    assert_non_null(strstr(tail, "falls in 9 of 12"));
    free(text);
    free(made);
}

/* 15/2.4 = 6.25 and 20/2.4 = 8.3 L [derived] */
static void the_sums_for_the_board_are_right(void **state)
{
    (void)state;
    struct made *made = make();
    char *text = page(made, &METRIC);
    assert_non_null(strstr(text, "15 to 20 MJ as books have it; here 18 (16-19)."));
    assert_non_null(strstr(text, "takes 2.4 MJ, so 1 kg used up could dry 6 to"));
    assert_non_null(strstr(text, "Here 3.0 (2.0-4.0) L went"));
    assert_non_null(strstr(text, "surface over volume is 6 / side: 10 per metre at 0.6 m, 5 at 1.2 m"));
    free(text);
    free(made);
}

static void figures_say_what_they_show(void **state)
{
    (void)state;
    static const char *const title[LESSON_FIGURES] = {
        "On 15 Oct decay makes 418 W; steam and air take most, 150 W",
        "The same mix on day 60: 22 °C in a cube of 0.6 m, 31 °C in one of 1.2 m",
        "Turned, the middle goes from 51 °C to 33 °C, then to 57 °C; left alone 47 °C",
        "Used up in 60 days of the dry matter: built dry 3 %, damp 13 %, wet 23 %",
        "On the coldest day the middle is at 5 °C bare, at 9 °C under 10 cm of straw"};
    struct made *made = make();
    for (int i = 0; i < LESSON_FIGURES; i++) {
        char text[FINDING_TEXT];
        lesson_find(text, &made->tale, (enum lesson_figure)i);
        assert_string_equal(text, title[i]);
    }
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(food_water_and_air_are_told),
        cmocka_unit_test(watts_are_told_largest_first_and_add_up),
        cmocka_unit_test(sizes_and_their_surface_are_told),
        cmocka_unit_test(a_turn_drops_then_rises),
        cmocka_unit_test(dry_damp_and_wet_are_told),
        cmocka_unit_test(cold_pauses_where_it_only_pauses),
        cmocka_unit_test(two_plans_are_told_by_what_a_minute_gains),
        cmocka_unit_test(the_forecast_waits_for_the_end),
        cmocka_unit_test(forty_minutes_are_forty),
        cmocka_unit_test(the_page_keeps_to_80_columns_and_shows_a_guess),
        cmocka_unit_test(what_is_not_so_is_said_only_to_put_it_right),
        cmocka_unit_test(the_sums_for_the_board_are_right),
        cmocka_unit_test(figures_say_what_they_show),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
