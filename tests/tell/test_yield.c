/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_yield.c - what there is to spread, in words. */
#include "tell/yield.h"
#include "tell/season_made.h"

/* Where a line was broken stands one blank again. */
static void unwrap(char *text)
{
    char *to = text;
    for (; *text; text++)
        if (*text != '\n')
            *to++ = *text;
        else if (text[1] == ' ' && text[8] == ' ') {
            *to++ = ' ';
            text += strspn(text + 1, " ");
        }
    *to = '\0';
}

static char *told_so(struct made *made, int show, bool more, bool brief)
{
    struct phrase_style style = {false, show, 0.012};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    if (more)
        yield_more(out, &made->tale, &style);
    else
        yield_line(out, &made->tale, &style, brief);
    assert_int_equal(fclose(out), 0);
    unwrap(text);
    return text;
}

static char *told(struct made *made, int show, bool more)
{
    return told_so(made, show, more, false);
}

static struct made *with_beds(double volume_m3, double area_m2)
{
    struct made *made = made_new();
    made->day[MADE_DAYS - 1].volume_m3 = volume_m3;
    made->scenario.barrow_m3 = 0.085;
    made->scenario.need = (struct plan_need){.is = true, .by = made->scenario.start + MADE_DAYS - 1,
                                             .bed_area_m2 = area_m2, .bed_depth_m = 0.025};
    return made;
}

/* 0.31 m3 are 3.65 barrows of 85 L and 12.4 m2 at 2.5 cm. [calculated] */
static void barrows_and_beds_are_counted(void **state)
{
    (void)state;
    struct made *made = with_beds(0.31, 14.4);
    char *text = told(made, 0, false);
    assert_non_null(strstr(text, "have  25 Jan: 0.31 m3 = 3 1/2 barrows: covers 12 m2 of your 14 m2 at 2.5 cm"));
    free(text);
    made->day[MADE_DAYS - 1].volume_m3 = 0.5;
    text = told(made, 0, false);
    assert_non_null(strstr(text, "0.50 m3 = 6 barrows: enough for your 14 m2 at 2.5 cm, or for 20 m2"));
    free(text);
    text = told_so(made, 0, false, true);
    assert_string_equal(text, "  have  25 Jan: 0.50 m3 = 6 barrows: enough for your 14 m2");
    free(text);
    text = told(made, 1, false); /* 215 of 155 square feet an inch deep */
    assert_non_null(strstr(text, "enough for your 155 ft2 at 1.0 in"));
    free(text);
    free(made);
}

/* It is told of the day of need, though the season goes on. */
static void it_is_told_of_the_day_of_need(void **state)
{
    (void)state;
    struct made *made = with_beds(0.31, 14.4);
    made->scenario.need.by = made->scenario.start + 49;
    made->day[49].volume_m3 = 0.425;
    char *text = told(made, 0, false);
    assert_non_null(strstr(text, "have  6 Dec: 0.42 m3 = 5 barrows: enough"));
    free(text);
    free(made);
}

static void a_long_answer_says_what_the_sieve_keeps_and_what_it_feeds(void **state)
{
    (void)state;
    struct made *made = with_beds(0.31, 14.4);
    made->day[MADE_DAYS - 1].sticks_share = 0.1;
    char *text = told(made, 0, true);
    assert_non_null(strstr(text, "28 % of 1.10 m3 when laid"));
    assert_non_null(strstr(text, "keeps 31 L (2 1/2 buckets), 25 kg"));
    assert_non_null(strstr(text, "1.8 kg of nitrogen")); /* a tenth of it, 5 to 20 % [trade] */
    assert_non_null(strstr(text, "0.18 (0.09-0.36) kg"));
    free(text);
    text = told(made, 1, true); /* 1.8 kg / 0.45359237 */
    assert_non_null(strstr(text, "4.0 lb of nitrogen"));
    assert_non_null(strstr(text, "0.40 (0.20-0.79) lb"));
    free(text);
    made->record.days = 0;
    text = told(made, 0, true);
    assert_string_equal(text, "");
    free(text);
    free(made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(barrows_and_beds_are_counted),
        cmocka_unit_test(it_is_told_of_the_day_of_need),
        cmocka_unit_test(a_long_answer_says_what_the_sieve_keeps_and_what_it_feeds),
    };
    return cmocka_run_group_tests_name("tell/yield", tests, NULL, NULL);
}
