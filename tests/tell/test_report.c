/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_report.c - tell/report, tell/handover, tell/poster, tell/film and what they stand on:
 * tell/page, tell/margin, tell/sketch, ask/typical.
 *
 * Three made-up members; nothing about compost is tested with them. Medians and ends of three values
 * are those of Hyndman and Fan (1996, definition 6), by hand (derived): of a, b and c they are b, a and c.
 */
#include "tell/report.h"
#include "ask/asked.h"
#include "ask/typical.h"
#include "know/param.h"
#include "tell/film.h"
#include "tell/handover.h"
#include "tell/margin.h"
#include "tell/page.h"
#include "tell/phrase.h"
#include "tell/poster.h"
#include "tell/season_made.h"
#include "tell/sketch.h"
#include <math.h>
#include <string.h>

enum { MEMBERS = 3, CELLS = 4, PICTURES = 3 };

struct many {
    struct made *made;
    struct record record[MEMBERS], central, typical;
    struct record_day day[MEMBERS][MADE_DAYS];
    struct record_picture picture[PICTURES];
    struct record_cell cell[CELLS];
    struct span middle_K[MADE_DAYS];
    double room[MEMBERS];
    struct param param;
    struct report report;
};

static const char hostile[] = "<script>alert(1)</script> & \"b\" 'x'";
static const char hostile_plan[] = "</p><img src=x onerror=1>";

static void make_cells(struct many *many)
{
    static const int kept[PICTURES] = {1, 5, MADE_DAYS};
    for (int i = 0; i < CELLS; i++)
        many->cell[i] = (struct record_cell){0.0F, 0.5F, 0.2F * (float)i, 0.2F * (float)(i + 1),
                                             300.0F + 8.0F * (float)i, 0.5F, 0.1F, 0.3F};
    for (int i = 0; i < PICTURES; i++)
        many->picture[i] = (struct record_picture){kept[i], CELLS, many->cell, true};
}

static int open_many(void **state)
{
    static const double shift_K[MEMBERS] = {-5.2, 0.2, 5.2};
    struct trouble why = {0};
    struct many *many = calloc(1, sizeof *many);
    assert_non_null(many);
    many->made = made_new();
    struct scenario *scenario = &many->made->scenario;
    strcpy(scenario->name, hostile);
    strcpy(scenario->plan[0].name, hostile_plan);
    strcpy(scenario->assumption[0], "walls: <b>pallets</b>");
    for (int m = 0; m < MEMBERS; m++) {
        memcpy(many->day[m], many->made->day, sizeof many->day[m]);
        for (int i = 0; i < MADE_DAYS; i++) {
            many->day[m][i].middle_K += shift_K[m];
            many->day[m][i].flux[FLUX_decay_heat] *= m + 1;
            many->day[m][i].events = 0;
        }
        many->record[m] = many->made->record;
        many->record[m].day = many->day[m];
        many->record[m].events = 0;
    }
    make_cells(many);
    many->central = many->record[1];
    many->central.pictures = PICTURES;
    many->central.picture = many->picture;
    assert_true(typical_of(&many->typical, many->record, MEMBERS, &many->central, many->room, &why));
    for (int i = 0; i < MADE_DAYS; i++)
        many->middle_K[i] = (struct span){many->day[0][i].middle_K, many->day[1][i].middle_K,
                                          many->day[2][i].middle_K};
    many->param = param_usual();
    many->report = (struct report){
        .tale = {.record = many->record, .members = MEMBERS, .room = many->room, .scenario = scenario,
                 .draw = 7, .version = "9.9.9", .file = "quince.yaml", .plan_named = true},
        .plates = {scenario, 0, &many->typical, &many->central, many->middle_K},
        .param = &many->param, .command = "midden report 'a<b>.yaml'",
        .source = "name: </pre><script>alert(2)</script>\n"};
    *state = many;
    return 0;
}

static int close_many(void **state)
{
    struct many *many = *state;
    typical_free(&many->typical);
    free(many->made);
    free(many);
    return 0;
}

static char *page_of(struct many *many)
{
    struct trouble why = {0};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    bool good = report_write(out, &many->report, &why);
    fclose(out);
    if (!good)
        print_message("%s\n", why.text);
    assert_true(good);
    return text;
}

static int times(const char *text, const char *word)
{
    int count = 0;
    for (const char *at = text; (at = strstr(at, word)); at += strlen(word))
        count++;
    return count;
}

/* ---- what it stands on ---- */

static void text_of_a_keeper_is_only_text_in_a_page(void **state)
{
    (void)state;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    page_text(out, "a<b>&\"c\"\x1b[31m\x7f\xc2\x85\xc3\xa9");
    fputc('|', out);
    page_element(out, "th scope=\"row\"", "x & y");
    fclose(out);
    assert_string_equal(text, "a&lt;b&gt;&amp;&quot;c&quot;?[31m??\xc3\xa9|<th scope=\"row\">x &amp; y</th>");
    free(text);
}

static void margin_lines_come_back_in_one_piece(void **state)
{
    (void)state;
    struct margin said;
    const char longer[] = "one two three four five six seven eight nine ten eleven twelve thirteen "
                          "fourteen fifteen sixteen seventeen eighteen nineteen twenty";
    memset(&said, 'x', sizeof said); /* what lay there before is no label */
    assert_true(margin_begin(&said));
    phrase_line(said.out, NULL, "It heats, %s.", longer);
    phrase_line(said.out, NULL, "It cools.");
    phrase_line(said.out, "why", "%s", longer);
    phrase_line(said.out, "why", "short");
    phrase_line(said.out, "assumed", "%s", longer);
    phrase_line(said.out, ">55 C", "days");
    assert_true(margin_end(&said));
    assert_int_equal(said.lines, 6);
    assert_string_equal(said.line[0].label, "");
    assert_memory_equal(said.line[0].text, "It heats, one", 13);
    assert_string_equal(said.line[0].text + strlen(said.line[0].text) - 7, "twenty.");
    assert_string_equal(said.line[1].text, "It cools.");
    assert_string_equal(said.line[2].label, "why");
    assert_string_equal(said.line[2].text, longer);
    assert_string_equal(said.line[3].text, "short");
    assert_string_equal(said.line[4].label, "assumed");
    assert_string_equal(said.line[4].text, longer);
    assert_string_equal(said.line[5].label, ">55 C");
    assert_string_equal(said.line[5].text, "days");
    margin_free(&said);
}

static void parts_of_two_pictures_in_one_page_have_names_of_their_own(void **state)
{
    (void)state;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    sketch_embed(out, "<?xml?>\n<svg role=\"img\"\n xmlns=\"http://www.w3.org/2000/svg\"><title>t</title>"
                      "<desc>d</desc><g id=\"a\"><title>using 1:2</title><circle id='b'/>"
                      "<use xlink:href='#b' fill = 'rgb( 18,  52,  86)'/></g></svg>", "one");
    fclose(out);
    assert_null(strstr(text, "xml"));
    assert_null(strstr(text, "using 1:2"));
    assert_non_null(strstr(text, "<title>t</title>"));
    assert_non_null(strstr(text, "id=\"one-a\""));
    assert_non_null(strstr(text, "id='one-b'"));
    assert_non_null(strstr(text, "href='#one-b'"));
    assert_non_null(strstr(text, "fill='#123456'"));
    free(text);
}

static void the_season_drawn_has_medians_and_mean_fluxes(void **state)
{
    struct many *many = *state;
    assert_int_equal(many->typical.days, MADE_DAYS);
    assert_near(many->typical.day[3].middle_K, 63.2 + 273.15, 1e-9);
    assert_near(many->typical.day[3].flux[FLUX_decay_heat], 2.0 * 300.0 * 86400.0, 1e-3);
}

/* ---- the page ---- */

static void the_answer_comes_first_and_all_the_rest_in_its_order(void **state)
{
    static const char *const order[] = {"<h1>", "class=\"answer\"", "id=\"temperature\"", "id=\"sections\"",
                                        "id=\"water\"", "id=\"budget\"", "id=\"ready\"", "id=\"hygiene\"",
                                        "id=\"work\"", "id=\"care\"", "id=\"method\"", "id=\"again\""};
    char *page = page_of(*state);
    const char *at = page;
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        assert_int_equal(times(page, order[i]), 1);
        const char *found = strstr(page, order[i]);
        assert_true(found >= at);
        at = found;
    }
    assert_null(strstr(page, "id=\"plans\"")); /* there is one plan alone */
    assert_int_equal(times(page, "<svg"), 3 + PICTURES);
    assert_null(strstr(page, "http"));
    assert_null(strstr(page, " safe"));
    free(page);
}

static void hostile_names_do_nothing(void **state)
{
    char *page = page_of(*state);
    assert_int_equal(times(page, "<script>"), 1); /* our own slider */
    assert_null(strstr(page, "<script>alert"));
    assert_null(strstr(page, "<img"));
    assert_null(strstr(page, "<b>"));
    assert_non_null(strstr(page, "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;b&quot; 'x'"));
    assert_non_null(strstr(page, "walls: &lt;b&gt;pallets&lt;/b&gt;"));
    assert_non_null(strstr(page, "midden report 'a&lt;b&gt;.yaml'"));
    assert_non_null(strstr(page, "name: &lt;/pre&gt;"));
    free(page);
}

static void temperatures_of_a_day_are_medians_with_their_ends(void **state)
{
    char *page = page_of(*state);
    /* day 1: 45.5 C moved by -5.2, 0.2 and 5.2: 45.7, from 40.3 to 50.7 */
    assert_non_null(strstr(page, "18 Oct, day 1</th><td data-label=\"middle\">46 (40 to 51)</td>"));
    free(page);
}

static void every_caution_stands_there_once_and_in_full(void **state)
{
    struct many *many = *state;
    char *page = page_of(many);
    for (int i = 0; i < TALE_CAUTIONS; i++)
        assert_int_equal(times(page, tale_caution_full((enum tale_caution)i)),
                         tale_caution_applies(&many->report.tale, (enum tale_caution)i));
    assert_non_null(strstr(page, "draw 7"));
    assert_non_null(strstr(page, "midden 9.9.9"));
    assert_non_null(strstr(page, "by at most 1e-13 of what passed")); /* the members' worst balance */
    assert_non_null(strstr(page, "<th scope=\"row\">Sat 18 Oct</th><td data-label=\"what\">build</td>"));
    free(page);
}

static void shares_of_heat_are_those_of_all_members(void **state)
{
    struct many *many = *state;
    char *page = page_of(many), share[128];
    /* the members' totals are one record's, so there is no range */
    snprintf(share, sizeof share, "<th scope=\"row\">%s</th><td>%s</td>", asked_way_words[0],
             phrase_share(asked_way(&many->record[0], 0, 0)).text);
    assert_non_null(strstr(page, share));
    free(page);
}

static void a_name_that_cannot_be_drawn_is_refused(void **state)
{
    struct many *many = *state;
    struct trouble why = {0};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    strcpy(many->made->scenario.name, "a\x1b[31m");
    assert_false(report_write(out, &many->report, &why));
    assert_int_equal(why.kind, TROUBLE_INPUT);
    assert_non_null(strstr(why.text, "0x1b"));
    strcpy(many->made->scenario.name, hostile);
    fclose(out);
    free(text);
}

/* ---- the others ---- */

static char *handed_over(struct many *many, int day)
{
    struct trouble why = {0};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    struct handover handover = {
        .tale = many->report.tale, .day = day, .file = "a<b>.yaml",
        .pile = {.scenario = &many->made->scenario, .param = &many->param, .record = many->record,
                 .members = MEMBERS, .room = many->room, .last_day = MADE_DAYS - 1}};
    assert_true(handover_write(out, &handover, &why));
    fclose(out);
    return text;
}

static void a_handover_says_what_stands_where(void **state)
{
    char *text = handed_over(*state, 8);
    assert_non_null(strstr(text, "<th scope=\"row\">bay 1</th><td>this pile: 90 cm high, 1.10 m3, 58 % water"));
    assert_non_null(strstr(text, "<th scope=\"row\">bay 2</th><td>free</td>"));
    assert_non_null(strstr(text, "on Sun 26 October 2025 (day 9)"));
    assert_non_null(strstr(text, "a&lt;b&gt;.yaml"));
    assert_null(strstr(text, "<script"));
    /* day 9: 56 C moved: 56.2, from 50.8 to 61.2 */
    assert_non_null(strstr(text, "<td>56 (51 to 61)</td>"));
    free(text);
}

static void a_handover_on_the_day_of_building_has_no_pile_yet(void **state)
{
    char *text = handed_over(*state, 0);
    assert_non_null(strstr(text, "<th scope=\"row\">bay 1</th><td>nothing yet: the pile is built that day"));
    assert_null(strstr(text, "Built on"));
    assert_non_null(strstr(text, "<strong>Sat 18 Oct</strong>"));
    free(text);
}

static void a_film_has_a_frame_a_day_or_every_few_of_a_long_season(void **state)
{
    (void)state;
    int day[FILM_MOST];
    assert_int_equal(film_days(day, 100), 100);
    assert_int_equal(day[99], 100);
    assert_int_equal(film_days(day, 232), 116);
    assert_int_equal(day[1], 3);
    assert_int_equal(film_days(day, 1), 1);
    assert_int_equal(film_days(day, 800), 115); /* every seventh */
    assert_int_equal(day[114], 799);
}

static void a_film_is_an_animated_gif(void **state)
{
    struct many *many = *state;
    struct trouble why = {0};
    size_t size = 0;
    char *bytes = film_draw(&many->report.plates, &size, &why);
    assert_non_null(bytes);
    assert_memory_equal(bytes, "GIF89a", 6);
    int frames = 0; /* each frame has a control block, 21 f9 04 [GIF89a, section 23, memory] */
    for (size_t i = 0; i + 2 < size; i++)
        frames += !memcmp(bytes + i, "\x21\xf9\x04", 3);
    assert_int_equal(frames, PICTURES);
    free(bytes);
}

static void an_end_that_is_almost_nothing_keeps_its_word(void **state)
{
    (void)state;
    assert_string_equal(phrase_ranged(phrase_share(0.0), phrase_share(0.004), phrase_share(0.03)).text,
                        "under 1 (0-3) %");
    assert_string_equal(phrase_ranged(phrase_share(0.0), phrase_share(0.0), phrase_share(0.004)).text,
                        "0 (0-under 1) %");
}

/* The least type of what is drawn. */
static double least_type(const char *svg)
{
    double least = INFINITY;
    for (const char *at = svg; (at = strstr(at, "font-size=\"")); at++)
        least = fmin(least, atof(at + 11));
    return least;
}

static void letters_of_a_poster_can_be_read_from_two_metres(void **state)
{
    struct many *many = *state;
    struct trouble why = {0};
    size_t size = 0;
    char *svg = poster_draw(&many->report.tale, &many->report.plates, SKETCH_SVG, &size, &why);
    assert_non_null(svg);
    assert_non_null(strstr(svg, "width=\"420mm\" height=\"594mm\""));
    assert_near(least_type(svg), POSTER_TYPE, 0.0);
    /* the height of a small x under at least ten minutes of arc at 2 m (see tell/poster.h) */
    double unit_mm = (double)POSTER_HIGH_MM / 1684.0, x_mm = 0.547 * least_type(svg) * unit_mm;
    assert_true(atan(x_mm / 2000.0) * 3437.7468 >= 9.9);
    assert_null(strstr(svg, "<script>alert"));
    assert_non_null(strstr(svg, "3 possible piles"));
    free(svg);
    /* the longest name a scenario may have, without a blank to break it at */
    memset(many->made->scenario.name, 'W', PLAN_NAME - 1);
    svg = poster_draw(&many->report.tale, &many->report.plates, SKETCH_SVG, &size, &why);
    assert_non_null(svg);
    assert_near(least_type(svg), POSTER_TYPE, 0.0);
    assert_int_equal(times(svg, "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW"), 4); /* twice in the title, once in each line */
    free(svg);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_of_a_keeper_is_only_text_in_a_page),
        cmocka_unit_test(margin_lines_come_back_in_one_piece),
        cmocka_unit_test(parts_of_two_pictures_in_one_page_have_names_of_their_own),
        cmocka_unit_test_setup_teardown(the_season_drawn_has_medians_and_mean_fluxes, open_many, close_many),
        cmocka_unit_test_setup_teardown(the_answer_comes_first_and_all_the_rest_in_its_order, open_many,
                                        close_many),
        cmocka_unit_test_setup_teardown(hostile_names_do_nothing, open_many, close_many),
        cmocka_unit_test_setup_teardown(temperatures_of_a_day_are_medians_with_their_ends, open_many,
                                        close_many),
        cmocka_unit_test_setup_teardown(every_caution_stands_there_once_and_in_full, open_many, close_many),
        cmocka_unit_test_setup_teardown(shares_of_heat_are_those_of_all_members, open_many, close_many),
        cmocka_unit_test_setup_teardown(a_name_that_cannot_be_drawn_is_refused, open_many, close_many),
        cmocka_unit_test_setup_teardown(a_handover_says_what_stands_where, open_many, close_many),
        cmocka_unit_test_setup_teardown(a_handover_on_the_day_of_building_has_no_pile_yet, open_many,
                                        close_many),
        cmocka_unit_test(an_end_that_is_almost_nothing_keeps_its_word),
        cmocka_unit_test(a_film_has_a_frame_a_day_or_every_few_of_a_long_season),
        cmocka_unit_test_setup_teardown(a_film_is_an_animated_gif, open_many, close_many),
        cmocka_unit_test_setup_teardown(letters_of_a_poster_can_be_read_from_two_metres, open_many,
                                        close_many),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
