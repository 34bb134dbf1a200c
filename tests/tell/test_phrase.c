/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_phrase.c - tell/phrase: units of both kinds, rounding, and lines of 80 columns. */
#include "tell/phrase.h"
#include "tell/season_made.h"

static const struct phrase_style METRIC = {true, 0, 0.012}, US = {false, 1, 0.012},
                                 BOTH = {true, 2, 0.012};

/* [memory] 40 CFR part 503 asks for 55 C, which its guides print as 131 F; water boils at 212 F. */
static void temperatures_are_said_in_the_units_that_were_asked_for(void **state)
{
    (void)state;
    assert_string_equal(phrase_temp(&BOTH, 328.15).text, "55 °C (131 °F)");
    assert_string_equal(phrase_temp(&METRIC, 328.15).text, "55 °C");
    assert_string_equal(phrase_temp(&US, 373.15).text, "100 degC (212 degF)");
    assert_string_equal(phrase_temp(&BOTH, 273.15 - 0.2).text, "0 °C (32 °F)");
    assert_string_equal(phrase_temp(&BOTH, 233.15).text, "-40 °C (-40 °F)");
    assert_string_equal(phrase_temp(&METRIC, NAN).text, "unknown");
    assert_string_equal(phrase_temp_span(&METRIC, (struct span){328.15, 333.15, 338.15}).text, "60 °C (55-65)");
    assert_string_equal(phrase_temp_span(&BOTH, (struct span){328.15, 333.15, 338.15}).text,
                        "60 °C (55-65), 140 °F (131-149)");
    assert_string_equal(phrase_temp_span(&METRIC, (struct span){328.1, 328.15, 328.2}).text, "55 °C");
}

/* [memory] NIST Special Publication 811, appendix B: 1 lb = 0.45359237 kg, 1 ft3 = 0.02831685 m3,
 * 1 gal = 3.785412 L, 1 in = 2.54 cm. */
static void quantities_follow_what_the_keeper_shows(void **state)
{
    (void)state;
    assert_string_equal(phrase_mass(&US, 45.359237).text, "100 lb");
    assert_string_equal(phrase_mass(&BOTH, 45.359237).text, "45 kg (100 lb)");
    assert_string_equal(phrase_volume(&US, 2.831685).text, "100 ft3");
    assert_string_equal(phrase_volume(&METRIC, 0.072).text, "72 L");
    assert_string_equal(phrase_volume(&BOTH, 1.44).text, "1.44 m3 (51 ft3)");
    assert_string_equal(phrase_litres(&US, 37.85412).text, "10 gal (3 1/4 buckets)");
    assert_string_equal(phrase_litres(&METRIC, 6.0).text, "6 L (1/2 bucket)");
    assert_string_equal(phrase_litres(&METRIC, 30.0).text, "30 L (2 1/2 buckets)");
    assert_string_equal(phrase_litres(&METRIC, 33.6).text, "34 L (2 3/4 buckets)"); /* 2.8 of them */
    assert_string_equal(phrase_litres(&METRIC, 94.0).text, "94 L (8 buckets)");     /* 7.8: halves will do */
    assert_string_equal(phrase_litres(&METRIC, 18.0).text, "18 L (1 1/2 buckets)");
    assert_string_equal(phrase_litres(&METRIC, 150.0).text, "150 L (13 buckets)"); /* 12.5 */
    assert_string_equal(phrase_litres(&METRIC, 12.0).text, "12 L (1 bucket)");
    assert_string_equal(phrase_litres(&METRIC, 2.0).text, "2 L");
    assert_string_equal(phrase_length(&BOTH, 0.254).text, "25 cm (10 in)");
}

static void vessels_are_counted_in_the_parts_that_can_be_seen_in_them(void **state)
{
    (void)state;
    assert_string_equal(phrase_vessels(2.8, 4, "bucket", "buckets").text, "2 3/4 buckets");
    assert_string_equal(phrase_vessels(2.8, 2, "bucket", "buckets").text, "3 buckets");
    assert_string_equal(phrase_vessels(2.4, 1, "bucket", "buckets").text, "2 buckets");
    assert_string_equal(phrase_vessels(1.2, 4, "bag", "bags").text, "1 1/4 bags");
    assert_string_equal(phrase_vessels(1.1, 4, "bag", "bags").text, "1 bag");
    assert_string_equal(phrase_vessels(0.3, 4, "bag", "bags").text, "1/4 bag");
    assert_string_equal(phrase_vessels(0.01, 4, "bag", "bags").text, "1/4 bag");
    assert_string_equal(phrase_vessels(0.01, 1, "bag", "bags").text, "1 bag");
    assert_string_equal(phrase_vessels(12.5, 2, "", "").text, "12 1/2");
}

static void a_share_is_never_rounded_to_all_or_nothing(void **state)
{
    (void)state;
    assert_string_equal(phrase_share(0.003).text, "under 1 %");
    assert_string_equal(phrase_share(0.9999).text, "over 99 %");
    assert_string_equal(phrase_share(0.0).text, "0 %");
    assert_string_equal(phrase_share(0.515).text, "52 %");
}

static void spans_keep_two_figures_and_their_ends(void **state)
{
    (void)state;
    assert_string_equal(phrase_span((struct span){66, 94, 125}, 1.0).text, "94 (66-125)");
    assert_string_equal(phrase_span((struct span){2, 2, 2}, 1.0).text, "2.0");
    assert_string_equal(phrase_span((struct span){0.1, 0.15, 0.2}, 100.0).text, "15 (10-20)");
    /* where ends round to one number there is no bracket */
    assert_string_equal(phrase_span((struct span){17.8, 18, 18.3}, 1.0).text, "18");
    assert_string_equal(phrase_whole((struct span){17.8, 18, 18.3}, 1.0).text, "18");
    assert_string_equal(phrase_whole((struct span){-3.4, -0.2, 1.2}, 1.0).text, "0 (-3 to 1)");
    assert_string_equal(phrase_ranged(phrase_volume(&METRIC, 0.15), phrase_volume(&METRIC, 0.6),
                                      phrase_volume(&METRIC, 0.7)).text, "0.60 (0.15-0.70) m3");
    /* a range over two units names both */
    assert_string_equal(phrase_ranged(phrase_volume(&METRIC, 0.095), phrase_volume(&METRIC, 0.12),
                                      phrase_volume(&METRIC, 0.13)).text, "0.12 m3 (95 L-0.13 m3)");
    /* both units, each with its own range: no brackets within brackets; by hand: 1 m3 = 35.31 ft3 */
    assert_string_equal(phrase_ranged(phrase_volume(&BOTH, 0.15), phrase_volume(&BOTH, 0.6),
                                      phrase_volume(&BOTH, 0.7)).text, "0.60 (0.15-0.70) m3, 21 (5.3-25) ft3");
    assert_string_equal(phrase_ranged(phrase_volume(&BOTH, 0.095), phrase_volume(&BOTH, 0.12),
                                      phrase_volume(&BOTH, 0.13)).text,
                        "0.12 m3 (95 L-0.13 m3), 4.2 (3.4-4.6) ft3");
}

static void times_dates_and_counts_are_said_as_people_do(void **state)
{
    (void)state;
    assert_string_equal(phrase_minutes(5100.0).text, "85 min");
    assert_string_equal(phrase_minutes(13200.0).text, "3 h 40 min");
    assert_string_equal(phrase_minutes(7200.0).text, "2 h");
    assert_string_equal(phrase_date(date_number((struct date){2026, 1, 12})).text,
                        "12 January 2026");
    assert_string_equal(phrase_count(1, "turn", "turns").text, "1 turn");
    assert_string_equal(phrase_count(0, "turn", "turns").text, "0 turns");
}

static char *lined(const char *label, const char *text)
{
    char *kept = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&kept, &size);
    assert_non_null(out);
    phrase_line(out, label, "%s", text);
    assert_int_equal(fclose(out), 0);
    return kept;
}

static void lines_are_broken_at_eighty_columns_and_indented(void **state)
{
    (void)state;
    char words[1201] = "", endless[401];
    for (int i = 0; i < 240; i++)
        strcat(words, "four ");
    memset(endless, 'x', 400);
    endless[400] = '\0';
    char *text = lined("why", words);
    assert_int_equal(made_widest(text), 8 + 14 * 5 - 1); /* one word more would be 82 columns */
    assert_int_equal(strncmp(text, "  why   four four", 17), 0);
    assert_non_null(strstr(text, "\n        four"));
    free(text);
    text = lined(NULL, endless); /* a name without blanks is cut */
    assert_int_equal(made_widest(text), 80);
    assert_int_equal(made_lines(text), 5);
    free(text);
}

static void a_number_stays_with_its_unit(void **state)
{
    (void)state;
    char text[128];
    memset(text, 'y', 69);
    strcpy(text + 69, " 63 °C and more");
    char *line = lined("why", text);
    assert_non_null(strstr(line, "\n        63 °C and more"));
    free(line);
}

static void control_characters_are_disarmed(void **state)
{
    (void)state;
    char *text = lined("x", "a\x1b[2Jb\x7f\xc2\x9b" "c");
    assert_string_equal(text, "  x     a?[2Jb???c\n");
    free(text);
}

/* 12 L in a bucket of 10 L: carried four fifths full, that is one and a half of them. [derived] */
static void water_is_counted_in_buckets_as_they_are_carried(void **state)
{
    (void)state;
    const struct phrase_style style = {.bucket_m3 = 0.010}, poured = phrase_poured(&style);
    assert_string_equal(phrase_litres(&poured, 12).text, "12 L (1 1/2 buckets)");
    assert_string_equal(phrase_litres(&style, 12).text, "12 L (1 1/4 buckets)");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(water_is_counted_in_buckets_as_they_are_carried),
        cmocka_unit_test(temperatures_are_said_in_the_units_that_were_asked_for),
        cmocka_unit_test(quantities_follow_what_the_keeper_shows),
        cmocka_unit_test(vessels_are_counted_in_the_parts_that_can_be_seen_in_them),
        cmocka_unit_test(a_share_is_never_rounded_to_all_or_nothing),
        cmocka_unit_test(spans_keep_two_figures_and_their_ends),
        cmocka_unit_test(times_dates_and_counts_are_said_as_people_do),
        cmocka_unit_test(lines_are_broken_at_eighty_columns_and_indented),
        cmocka_unit_test(a_number_stays_with_its_unit),
        cmocka_unit_test(control_characters_are_disarmed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
