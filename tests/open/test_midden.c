/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/open/test_midden.c - the library as a stranger uses it. That its numbers are those of
 * `run --json` is seen in tests/cli/install.sh. */
#include "open/midden.h"
#include "lib/near.h"
#include "lib/scratch.h"
#include <gsl/gsl_errno.h>
#include <locale.h>
#include <math.h>
#include <pthread.h>
#include <string.h>

static const char PILE[] = "midden: 1\n"
                           "name: by the gate\n"
                           "start: 2026-04-11\n"
                           "place: {latitude: 51 N}\n"
                           "sky: cold winters\n"
                           "bin: 1.1 x 1.1 x 1 m\n"
                           "build:\n"
                           "  - straw: 42 buckets pressed\n"
                           "    grass clippings: 22 buckets\n"
                           "    horse manure: 17 buckets\n"
                           "plans:\n"
                           "  leave it: []\n"
                           "  one turn: [{day: 2026-04-25, turn: mixed}]\n"
                           "need: {by: 2026-05-20, for: beds, beds: 2 of 1 x 3 m at 2 cm}\n";

static struct midden_error error;

static struct midden_scenario *pile(void)
{
    struct midden_scenario *made = midden_read(PILE, sizeof PILE - 1, "gate.yaml", &error);
    assert_non_null(made);
    assert_int_equal(error.trouble, MIDDEN_FINE);
    assert_string_equal(error.text, "");
    return made;
}

static struct midden_forecast *season(int members, const char *plan)
{
    struct midden_scenario *scenario = pile();
    struct midden_request request = {.members = members, .plan = plan};
    struct midden_forecast *made = midden_run(scenario, &request, &error);
    midden_close(scenario); /* a forecast doesn't need it any more */
    assert_non_null(made);
    return made;
}

/* ---- meaning ---- */

static void a_quantity_has_the_name_it_has_in_json(void **state)
{
    static const char *const names[] = { /* the keys of a day, in the order of the enumeration */
        "air_c", "middle_c", "deep30cm_c", "hand_deep_c", "mean_c", "hottest_c", "coldest_tenth_c",
        "water_share", "free_air_share", "oxygen_lowest_share", "height_m", "volume_m3", "dry_kg",
        "carbon_kg", "nitrogen_kg", "heat_made_w"};
    (void)state;
    assert_int_equal(sizeof names / sizeof *names, MIDDEN_QUANTITIES);
    for (int i = 0; i < MIDDEN_QUANTITIES; i++)
        assert_string_equal(midden_quantity_name((enum midden_quantity)i), names[i]);
    assert_null(midden_quantity_name(MIDDEN_QUANTITIES));
}

static void a_scenario_tells_its_plans_and_what_it_left_open(void **state)
{
    (void)state;
    struct midden_scenario *scenario = pile();
    assert_string_equal(midden_name(scenario), "by the gate");
    assert_string_equal(midden_plan(scenario, 0), "leave it");
    assert_string_equal(midden_plan(scenario, 1), "one turn");
    assert_null(midden_plan(scenario, 2));
    assert_null(midden_plan(scenario, -1));
    assert_non_null(midden_assumed(scenario, 0));
    assert_null(midden_assumed(scenario, 1000));
    midden_close(scenario);
}

/* Hyndman and Fan 1996, definition 6 (memory): of three the median is the middle one, and the ends are the
 * least and the most. */
static void a_range_is_that_of_its_members(void **state)
{
    (void)state;
    struct midden_forecast *f = season(3, NULL);
    assert_int_equal(midden_members(f) + midden_left_out(f), 3);
    assert_int_equal(midden_members(f), 3);
    for (int day = 1; day <= midden_days(f); day += 9) {
        double m[3];
        for (int i = 0; i < 3; i++)
            m[i] = midden_day_of(f, MIDDEN_MIDDLE_C, day, i + 1);
        double least = fmin(m[0], fmin(m[1], m[2])), most = fmax(m[0], fmax(m[1], m[2]));
        double middle = m[0] + m[1] + m[2] - least - most;
        struct midden_range range = midden_day(f, MIDDEN_MIDDLE_C, day);
        assert_near(range.median, middle, 1e-9);
        assert_near(range.low, least, 1e-9);
        assert_near(range.high, most, 1e-9);
    }
    midden_forget(f);
}

static void the_peak_is_the_warmest_of_its_days(void **state)
{
    (void)state;
    struct midden_forecast *f = season(1, NULL);
    double peak = -INFINITY;
    int at = 0, hot = 0;
    for (int day = 1; day <= midden_days(f); day++) {
        double middle = midden_day_of(f, MIDDEN_MIDDLE_C, day, 1);
        at = middle > peak ? day : at;
        peak = fmax(peak, middle);
        hot += middle > 55;
    }
    assert_near(midden_season(f, MIDDEN_PEAK_C).median, peak, 1e-9);
    assert_near(midden_season(f, MIDDEN_PEAK_DAY).median, at, 0);
    assert_near(midden_season(f, MIDDEN_DAYS_OVER_55C).median, hot, 0);
    assert_true(at >= 2 && at <= 30);
    midden_forget(f);
}

/* 2 cm deep, so a cubic metre covers 50 m2 (derived). */
static void what_is_yielded_is_what_lies_there_on_the_day_of_need(void **state)
{
    (void)state;
    struct midden_forecast *f = season(1, "one turn");
    int need = 40; /* 20 May, counted from 11 April as day 1 */
    assert_string_equal(midden_date(f, need).text, "2026-05-20");
    double volume = midden_season(f, MIDDEN_YIELD_M3).median;
    assert_near(volume, midden_day_of(f, MIDDEN_VOLUME_M3, need, 1), 1e-12);
    assert_near(midden_season(f, MIDDEN_YIELD_DRY_KG).median, midden_day_of(f, MIDDEN_DRY_KG, need, 1),
                1e-9);
    assert_near(midden_season(f, MIDDEN_YIELD_BED_M2).median, volume * 50, 1e-9);
    assert_near(midden_season(f, MIDDEN_WORK_TURNS).median, 1, 0);
    assert_true(midden_season(f, MIDDEN_WORK_PERSON_MINUTES).median > 15);
    midden_forget(f);
}

static void the_central_pile_has_no_range_and_no_chance(void **state)
{
    (void)state;
    struct midden_forecast *f = season(1, NULL);
    struct midden_range range = midden_day(f, MIDDEN_WATER_SHARE, 3);
    assert_true(range.median > 0 && range.median < 1 && isnan(range.low) && isnan(range.high));
    struct midden_ready ready = midden_ready(f, MIDDEN_BEDS);
    assert_true(isnan(ready.chance_by_need.median) && isnan(ready.never_share.median));
    midden_forget(f);
}

static void a_verdict_is_that_of_its_members(void **state)
{
    (void)state;
    struct midden_forecast *f = season(4, "one turn");
    for (int use = 0; use < MIDDEN_USES; use++) {
        struct midden_ready ready = midden_ready(f, (enum midden_use)use);
        int never = 0, in_time = 0;
        for (int i = 1; i <= 4; i++) {
            double day = midden_ready_of(f, (enum midden_use)use, i);
            never += isnan(day);
            in_time += day <= 40;
        }
        assert_near(ready.never_share.median, never / 4.0, 1e-12);
        assert_near(ready.chance_by_need.median, in_time / 4.0, 1e-12);
        assert_true(ready.why_not != NULL || in_time == 4);
    }
    int rules = 0;
    for (struct midden_hygiene h; (h = midden_hygiene(f, rules)).rule; rules++) {
        assert_true(h.mass_share_met.median >= 0 && h.mass_share_met.median <= 1);
        assert_true(h.mass_share_met.median < 0.5 || h.first_met_day >= 1);
        assert_true(strlen(h.source) > 0);
    }
    assert_true(rules > 3);
    double easy = midden_alive(f, MIDDEN_SEEDS_EASY).median, hard = midden_alive(f, MIDDEN_SEEDS_HARD).median;
    assert_true(easy >= 0 && easy <= hard && hard <= 1);
    midden_forget(f);
}

/* Horse manure and straw lie in it: heat, lifting, spores, germs, weedkiller and local codes. */
static void what_can_hurt_is_told(void **state)
{
    (void)state;
    struct midden_forecast *f = season(1, NULL);
    int cautions = 0;
    bool germs = false;
    for (const char *text; (text = midden_caution(f, cautions)) != NULL; cautions++)
        germs |= strstr(text, "Manure can carry germs") != NULL;
    assert_int_equal(cautions, 6);
    assert_true(germs);
    midden_forget(f);
}

static void a_number_set_by_hand_changes_the_season(void **state)
{
    (void)state;
    struct midden_scenario *scenario = pile();
    struct midden_request one = {.members = 1};
    struct midden_forecast *usual = midden_run(scenario, &one, NULL);
    assert_false(midden_set(scenario, "no such thing", 1, &error));
    assert_int_equal(error.trouble, MIDDEN_ARGUMENT);
    assert_false(midden_set(scenario, "film_slope", NAN, &error));
    assert_true(midden_set(scenario, "film_slope", 0.5, &error));
    struct midden_forecast *other = midden_run(scenario, &one, NULL);
    assert_true(usual && other);
    assert_true(fabs(midden_day_of(usual, MIDDEN_MIDDLE_C, 10, 1) -
                     midden_day_of(other, MIDDEN_MIDDLE_C, 10, 1)) > 0.01);
    midden_forget(usual);
    midden_forget(other);
    midden_close(scenario);
}

/* ---- refusals ---- */

static void what_does_not_exist_is_unknown(void **state)
{
    (void)state;
    struct midden_forecast *f = season(2, NULL);
    int last = midden_days(f);
    assert_true(isfinite(midden_day(f, MIDDEN_AIR_C, last).median));
    assert_true(isnan(midden_day(f, MIDDEN_AIR_C, 0).median));
    assert_true(isnan(midden_day(f, MIDDEN_AIR_C, last + 1).median));
    assert_true(isnan(midden_day(f, MIDDEN_QUANTITIES, 1).median));
    assert_true(isnan(midden_day_of(f, MIDDEN_AIR_C, 1, 0)));
    assert_true(isnan(midden_day_of(f, MIDDEN_AIR_C, 1, 3)));
    assert_true(isnan(midden_season(f, MIDDEN_FIGURES).median));
    assert_true(isnan(midden_season_of(f, MIDDEN_PEAK_C, 3)));
    assert_true(isnan(midden_ready(f, MIDDEN_USES).day.median));
    assert_true(isnan(midden_ready_of(f, MIDDEN_BEDS, 0)));
    assert_true(isnan(midden_alive(f, MIDDEN_CLASSES).median));
    assert_true(isnan(midden_day(f, (enum midden_quantity)-1, 1).median));
    assert_true(isnan(midden_day_of(f, MIDDEN_QUANTITIES, 1, 1)));
    assert_true(isnan(midden_season(f, (enum midden_figure)-1).median));
    assert_true(isnan(midden_season_of(f, MIDDEN_FIGURES, 1)));
    assert_true(isfinite(midden_season_of(f, MIDDEN_PEAK_C, 2)));
    assert_true(isnan(midden_ready_of(f, MIDDEN_USES, 1)));
    assert_null(midden_caution(f, -1));
    assert_null(midden_hygiene(f, -1).rule);
    assert_null(midden_hygiene(f, 1000).rule);
    assert_null(midden_caution(f, 1000));
    assert_string_equal(midden_date(f, NAN).text, "");
    assert_string_equal(midden_date(f, 1e300).text, "");
    assert_string_equal(midden_date(f, 1).text, "2026-04-11");
    midden_forget(f);
    midden_forget(NULL);
    midden_close(NULL);
}

static void a_mistake_is_told_with_file_line_and_column(void **state)
{
    static const char wrong[] = "midden: 1\nstart: tomorrow\n";
    (void)state;
    assert_null(midden_read(wrong, sizeof wrong - 1, "beds/gate.yaml", &error));
    assert_int_equal(error.trouble, MIDDEN_INPUT);
    assert_non_null(strstr(error.text, "\nbeds/gate.yaml:2:8: `tomorrow` is not a date"));
    assert_null(midden_read(NULL, 0, "empty.yaml", &error));
    assert_int_equal(error.trouble, MIDDEN_INPUT);
    assert_null(midden_read(wrong, sizeof wrong - 1, "unheard.yaml", NULL));
    assert_null(midden_read(PILE, sizeof PILE - 1, NULL, &error));
    assert_int_equal(error.trouble, MIDDEN_ARGUMENT);
}

static void a_missing_file_is_told_apart_from_a_folder(void **state)
{
    assert_null(midden_open(scratch_path(state, "none.yaml"), &error));
    assert_int_equal(error.trouble, MIDDEN_ABSENT);
    assert_null(midden_open(((struct scratch *)*state)->folder, &error));
    assert_int_equal(error.trouble, MIDDEN_INPUT);
    scratch_write(state, "gate.yaml", PILE);
    struct midden_scenario *scenario = midden_open(scratch_path(state, "gate.yaml"), &error);
    assert_non_null(scenario);
    midden_close(scenario);
}

static void what_is_asked_beyond_its_limits_is_refused(void **state)
{
    static const struct midden_request wrong[] = {
        {.members = -1}, {.members = 20001}, {.threads = -1}, {.threads = 257},
        {.draw = 9007199254740993ULL}, {.plan = "one tern"}};
    (void)state;
    struct midden_scenario *scenario = pile();
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        assert_null(midden_run(scenario, &wrong[i], &error));
        assert_int_equal(error.trouble, MIDDEN_ARGUMENT);
    }
    assert_non_null(strstr(error.text, "did you mean 'one turn'"));
    midden_close(scenario);
}

static void a_pile_that_is_not_built_cannot_be_run(void **state)
{
    static const char stock[] = "midden: 1\nname: stock\nstart: 2026-04-11\nplace: {latitude: 51 N}\n"
                                "sky: cold winters\nbin: 1 x 1 x 1 m\nhave: {straw: 9 buckets}\n";
    (void)state;
    struct midden_scenario *scenario = midden_read(stock, sizeof stock - 1, "stock.yaml", &error);
    assert_non_null(scenario);
    assert_null(midden_run(scenario, NULL, &error));
    assert_int_equal(error.trouble, MIDDEN_CANNOT);
    midden_close(scenario);
}

/* ---- manners ---- */

static int enough(void *context, int done, int of)
{
    *(int *)context = done;
    return done < of;
}

static void a_caller_can_stop_it(void **state)
{
    int done = 0;
    (void)state;
    struct midden_scenario *scenario = pile();
    struct midden_request request = {.members = 64, .threads = 1, .progress = enough, .context = &done};
    assert_null(midden_run(scenario, &request, &error));
    assert_int_equal(error.trouble, MIDDEN_STOPPED);
    assert_true(done >= 1 && done <= 8);
    midden_close(scenario);
}

static int let_it(void *context, int done, int of)
{
    *(double *)context = (double)done / of;
    return 0;
}

static void a_caller_that_only_listens_gets_the_same_forecast(void **state)
{
    double share = 0;
    (void)state;
    struct midden_scenario *scenario = pile();
    struct midden_request request = {.members = 8, .progress = let_it, .context = &share};
    struct midden_forecast *heard = midden_run(scenario, &request, &error), *unheard = season(8, NULL);
    assert_non_null(heard);
    assert_near(share, 1, 0); /* the last it was told is the end */
    for (int day = 1; day <= midden_days(heard); day++)
        assert_near(midden_day(heard, MIDDEN_MIDDLE_C, day).median,
                    midden_day(unheard, MIDDEN_MIDDLE_C, day).median, 0);
    midden_forget(heard);
    midden_forget(unheard);
    midden_close(scenario);
}

/* Semantic versions have three numbers; the packages take theirs from the same line. */
static void the_version_is_three_numbers(void **state)
{
    unsigned major, minor, patch;
    char more;
    (void)state;
    assert_int_equal(sscanf(midden_version(), "%u.%u.%u%c", &major, &minor, &patch, &more), 3);
}

static void of_the_host(const char *reason, const char *file, int line, int number)
{
    (void)reason, (void)file, (void)line, (void)number;
}

static void the_hosts_own_gsl_handler_is_put_back(void **state)
{
    (void)state;
    gsl_error_handler_t *before = gsl_set_error_handler(of_the_host);
    midden_forget(season(1, NULL));
    assert_null(midden_read("", 0, "empty.yaml", NULL));
    assert_ptr_equal(gsl_set_error_handler(before), of_the_host);
}

/* German numbers, compiled into the test's own folder. */
static bool set_commas(void **state)
{
    char command[SCRATCH_TEXT];
    const char *folder = ((struct scratch *)*state)->folder;
    snprintf(command, sizeof command, "localedef -i de_DE -f UTF-8 %s/de_DE.UTF-8 >%s/log 2>&1", folder,
             folder);
    return system(command) == 0 && setenv("LOCPATH", folder, 1) == 0 &&
           setlocale(LC_NUMERIC, "de_DE.UTF-8") != NULL;
}

/* Fifty days of weather whose tenths a reader of commas would lose. */
static void write_weather(void **state)
{
    char text[50 * 40] = "date, low C, high C, rain mm\n";
    size_t used = strlen(text);
    for (int day = 0; day < 50; day++)
        used += (size_t)snprintf(text + used, sizeof text - used, "2026-%02d-%02d, 4.9, 13.9, 0.4\n",
                                 day < 20 ? 4 : 5, day < 20 ? 11 + day : day - 19);
    scratch_write(state, "days.csv", text);
}

static double warmth_under_weather_of_a_file(void **state)
{
    char text[sizeof PILE + 64];
    const char *sky = strstr(PILE, "cold winters");
    snprintf(text, sizeof text, "%.*s{weather: days.csv}%s", (int)(sky - PILE), PILE,
             sky + strlen("cold winters"));
    struct midden_scenario *scenario =
        midden_read(text, strlen(text), scratch_path(state, "gate.yaml"), &error);
    struct midden_request one = {.members = 1};
    struct midden_forecast *f = scenario ? midden_run(scenario, &one, &error) : NULL;
    assert_string_equal(error.text, "");
    double sum = 0;
    for (int day = 1; day <= midden_days(f); day++)
        sum += midden_day_of(f, MIDDEN_AIR_C, day, 1);
    sum /= midden_days(f);
    midden_forget(f);
    midden_close(scenario);
    return sum;
}

static void a_locale_with_decimal_commas_changes_nothing(void **state)
{
    write_weather(state);
    double plain = warmth_under_weather_of_a_file(state);
    assert_true(plain > 8 && plain < 10.5); /* halfway between low and high is 9.4 C */
    bool set = set_commas(state);
    double here = set ? warmth_under_weather_of_a_file(state) : plain;
    double theirs = set ? strtod("1,5", NULL) : 1.5; /* the host's own, as it was */
    setlocale(LC_NUMERIC, "C");
    unsetenv("LOCPATH");
    char command[SCRATCH_TEXT];
    snprintf(command, sizeof command, "rm -rf %s/de_DE.UTF-8", ((struct scratch *)*state)->folder);
    assert_int_equal(system(command), 0);
    if (!set)
        skip(); /* German numbers are not to be had: install locales */
    assert_near(here, plain, 0);
    assert_near(theirs, 1.5, 0);
}

struct job {
    const struct midden_scenario *scenario;
    double middle;
};

static void *labour(void *shared)
{
    struct job *job = shared;
    struct midden_request request = {.members = 4, .threads = 1};
    struct midden_forecast *f = midden_run(job->scenario, &request, NULL);
    job->middle = f ? midden_day(f, MIDDEN_MIDDLE_C, 8).median : (double)NAN;
    midden_forget(f);
    return NULL;
}

static void two_threads_may_run_one_scenario(void **state)
{
    pthread_t thread[2];
    (void)state;
    struct midden_scenario *scenario = pile();
    struct job job[3] = {{scenario, 0}, {scenario, 0}, {scenario, 0}};
    for (int i = 0; i < 2; i++)
        assert_int_equal(pthread_create(&thread[i], NULL, labour, &job[i]), 0);
    for (int i = 0; i < 2; i++)
        pthread_join(thread[i], NULL);
    labour(&job[2]);
    assert_true(job[2].middle > 0);
    assert_near(job[0].middle, job[2].middle, 0);
    assert_near(job[1].middle, job[2].middle, 0);
    midden_close(scenario);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_quantity_has_the_name_it_has_in_json),
        cmocka_unit_test(a_scenario_tells_its_plans_and_what_it_left_open),
        cmocka_unit_test(a_range_is_that_of_its_members),
        cmocka_unit_test(the_peak_is_the_warmest_of_its_days),
        cmocka_unit_test(what_is_yielded_is_what_lies_there_on_the_day_of_need),
        cmocka_unit_test(the_central_pile_has_no_range_and_no_chance),
        cmocka_unit_test(a_verdict_is_that_of_its_members),
        cmocka_unit_test(what_can_hurt_is_told),
        cmocka_unit_test(a_number_set_by_hand_changes_the_season),
        cmocka_unit_test(what_does_not_exist_is_unknown),
        cmocka_unit_test(a_mistake_is_told_with_file_line_and_column),
        cmocka_unit_test_setup_teardown(a_missing_file_is_told_apart_from_a_folder, scratch_open,
                                        scratch_close),
        cmocka_unit_test(what_is_asked_beyond_its_limits_is_refused),
        cmocka_unit_test(a_pile_that_is_not_built_cannot_be_run),
        cmocka_unit_test(a_caller_can_stop_it),
        cmocka_unit_test(a_caller_that_only_listens_gets_the_same_forecast),
        cmocka_unit_test(the_version_is_three_numbers),
        cmocka_unit_test(the_hosts_own_gsl_handler_is_put_back),
        cmocka_unit_test_setup_teardown(a_locale_with_decimal_commas_changes_nothing, scratch_open,
                                        scratch_close),
        cmocka_unit_test(two_threads_may_run_one_scenario),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
