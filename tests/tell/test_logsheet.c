/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_logsheet.c - tell/logsheet and tell/logpage: columns, rows, and the room they take. */
#include "ask/piles.h"
#include "tell/logpage.h"
#include "tell/season_made.h"

#define PLANS                                                                                      \
    "plans:\n  one:\n    - {day: 2025-11-01, turn: layer by layer, into: bay 2, pick out: sticks}\n" \
    "    - {day: 2025-11-01, cover: straw 10 cm}\n"

enum { LAST = 27 }; /* four weeks */

static char *told(struct piles *p, bool page, int *pages)
{
    char *text = NULL;
    size_t size = 0;
    struct log_row *row = calloc((size_t)log_most(LAST + 1), sizeof *row);
    struct logsheet sheet = {.pile = p->pile, .row = row, .first = 0, .last = LAST};
    sheet.rows = log_rows(row, &p->pile, 0, LAST);
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    if (page)
        logpage_write(out, &sheet);
    else
        logsheet_text(out, &sheet);
    assert_int_equal(fclose(out), 0);
    *pages = logpage_pages(&sheet);
    free(row);
    return text;
}

static int count(const char *text, const char *words)
{
    int found = 0;
    for (; (text = strstr(text, words)); text++)
        found++;
    return found;
}

/* The reader of `readings:` is asked, so that a sheet filled in can be typed off it. */
static void each_column_is_a_key_of_a_reading(void **state)
{
    (void)state;
    static const char *const values[LOGSHEET_COLUMNS] = {
        "2025-10-21", "10", "58 C", "50 C", "41 C", "9 C", "drips", "80 cm", "looked"};
    char text[2048] = PILES_HEAD PILES_BUILD "readings:\n  - {";
    for (int i = 0; i < LOGSHEET_COLUMNS; i++) {
        const char *name = i == 0 ? "day" : logsheet_columns[i].name; /* a column of dates is a day */
        size_t used = strlen(text);
        snprintf(text + used, sizeof text - used, "%s%s: %s", i ? ", " : "", name, values[i]);
    }
    strcat(text, "}\n");
    struct piles *p = piles_new(text, 0);
    assert_int_equal(p->scenario.readings, 6);
    assert_int_equal(p->scenario.last_reading, p->scenario.start + 3);
    free(p);
}

static void a_readings_file_begins_with_columns_and_units(void **state)
{
    (void)state;
    struct scenario scenario = {.show = 0};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    logsheet_csv(out, &scenario);
    fclose(out);
    assert_string_equal(text, "date,hour,middle C,30 cm in C,hand deep C,air C,squeeze,height cm,we did\n");
    free(text);
    scenario.show = 1;
    out = open_memstream(&text, &size);
    logsheet_csv(out, &scenario);
    fclose(out);
    assert_non_null(strstr(text, ",middle F,"));
    assert_non_null(strstr(text, ",height in,"));
    free(text);
}

static void rows_are_visits_work_and_readings_once_each(void **state)
{
    (void)state;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, 0);
    struct log_row row[LAST + 1];
    /* 18 Oct build; 20, 23 read; 25 Oct Saturday; 1 Nov turn; 3, 6 read; 8 Nov is away, and the Saturday
     * after is beyond the four weeks */
    static const int want[] = {0, 2, 5, 7, 14, 16, 19};
    int rows = log_rows(row, &p->pile, 0, LAST);
    assert_int_equal(rows, sizeof want / sizeof *want);
    for (int i = 0; i < rows; i++)
        assert_int_equal(row[i].day, want[i]);
    assert_true(row[0].build && row[4].work && !row[1].work && !row[1].look);
    assert_near(row[1].middle_K.mid, piles_middle_K(2, 2), 1e-9);
    assert_near(row[4].middle_K.mid, piles_middle_K(2, 13), 1e-9); /* read before the turn */
    free(p);
}

static void the_plain_form_keeps_to_80_columns(void **state)
{
    (void)state;
    int pages;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, 0);
    char *text = told(p, false, &pages);
    assert_true(made_widest(text) <= 80);
    assert_non_null(strstr(text, "date      |hour|middle|30 cm in|hand deep|air |squeeze |height|we did\n"));
    assert_non_null(strstr(text, "|turn layer by\n"));  /* in two lines of its cell */
    assert_non_null(strstr(text, "|layer, cover\n"));
    assert_true(strstr(text, "Forecast, for after guessing") > strstr(text, "2025-11-06|"));
    assert_non_null(strstr(text, "10 cm in from there\n"));
    free(text);
    p->scenario.show = PLAN_SHOW_US;
    text = told(p, false, &pages);
    assert_true(made_widest(text) <= 80);
    assert_non_null(strstr(text, " 4 in from there\n"));
    assert_non_null(strstr(text, "12 in from the nearest outer side"));
    free(text);
    free(p);
}

static void the_page_has_headings_for_a_screen_reader_and_asks_for_nothing(void **state)
{
    (void)state;
    int pages;
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, 0);
    strcpy(p->scenario.name, "<b>\"Bank\" & co\x01");
    char *text = told(p, true, &pages);
    assert_int_equal(pages, 1);
    assert_non_null(strstr(text, "<html lang=\"en\">"));
    assert_non_null(strstr(text, "<title>Log of &lt;b&gt;&quot;Bank&quot; &amp; co?</title>"));
    assert_int_equal(count(text, "<th scope=\"col\""), LOGSHEET_COLUMNS + 4);
    assert_int_equal(count(text, "<th scope=\"row\""), 2 * 7);
    assert_int_equal(count(text, "<table"), 2);
    assert_int_equal(count(text, "<caption>"), 2);
    static const char *const foreign[] = {"<script", "http", "url(", "src=", "href", "@import"};
    for (size_t i = 0; i < sizeof foreign / sizeof *foreign; i++)
        assert_null(strstr(text, foreign[i]));
    /* ranges (of 20 C and more in this pile) stand on the second page only */
    const char *second = strstr(text, "class=\"after\""), *range = strstr(text, "(2");
    assert_true(second && range && range > second);
    free(text);
    free(p);
}

static void more_rows_than_a_page_holds_go_on_the_next(void **state)
{
    (void)state;
    struct logsheet sheet = {.rows = 1};
    int pages = 1;
    for (; sheet.rows <= 400; sheet.rows++) {
        assert_true(logpage_pages(&sheet) >= pages);
        pages = logpage_pages(&sheet);
    }
    assert_true(pages > 10);
    sheet.rows = 20;
    assert_int_equal(logpage_pages(&sheet), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_column_is_a_key_of_a_reading),
        cmocka_unit_test(a_readings_file_begins_with_columns_and_units),
        cmocka_unit_test(rows_are_visits_work_and_readings_once_each),
        cmocka_unit_test(the_plain_form_keeps_to_80_columns),
        cmocka_unit_test(the_page_has_headings_for_a_screen_reader_and_asks_for_nothing),
        cmocka_unit_test(more_rows_than_a_page_holds_go_on_the_next),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
