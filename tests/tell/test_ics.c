/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_ics.c - tell/ics: the form of RFC 5545, and the same bytes each time.
 *
 * Section numbers are those of RFC 5545 [memory]; tests/cli/ics.sh has another program read the
 * file.
 */
#include "tell/ics.h"
#include "ask/piles.h"
#include <stdio.h>

#define PLANS "plans:\n  one:\n    - {day: 2025-11-01, turn: mixed, into: bay 2, water: 2 buckets}\n"

static char *written(struct piles *p, int alike)
{
    char *text = NULL;
    size_t size = 0;
    struct agenda_row *row = calloc((size_t)agenda_most(&p->scenario), sizeof *row);
    struct ics_pile pile = {.pile = p->pile, .row = row, .alike = alike};
    pile.rows = agenda_make(row, &p->scenario, 0, 3);
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    ics_write(out, &pile, 1, "9.9.9");
    assert_int_equal(fclose(out), 0);
    assert_int_equal(strlen(text), size);
    free(row);
    return text;
}

static struct piles *turned(void)
{
    struct piles *p = piles_new(PILES_HEAD PILES_BUILD PLANS, 0);
    p->scenario.last_day = PILES_DAYS - 1;
    for (int m = 0; m < PILES_MEMBERS; m++)
        piles_do(p, m, 14, (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED, .into = 1,
                                                 .water_kg = 19, .person_s = 2400});
    return p;
}

/* 3.1: lines are joined again where the next begins with a blank */
static char *unfolded(const char *text)
{
    char *flat = strdup(text), *to = flat;
    for (const char *at = text; *at; at++) {
        if (strncmp(at, "\r\n ", 3) == 0)
            at += 2;
        else
            *to++ = *at;
    }
    *to = '\0';
    return flat;
}

static int count(const char *text, const char *words)
{
    int found = 0;
    for (; (text = strstr(text, words)); text++)
        found++;
    return found;
}

static void each_line_ends_with_cr_lf_and_has_at_most_75_octets(void **state)
{
    (void)state;
    struct piles *p = turned();
    char *text = written(p, 0);
    int folded = 0;
    for (const char *at = text; *at;) {
        const char *end = strchr(at, '\n');
        assert_non_null(end);
        assert_true(end > at && end[-1] == '\r');
        assert_true(end - 1 - at <= 75);
        assert_null(memchr(at, '\r', (size_t)(end - 1 - at)));
        assert_true(((unsigned char)*at & 0xC0) != 0x80); /* no character is cut */
        assert_true(*at != ' ' || ((unsigned char)at[1] & 0xC0) != 0x80);
        folded += *at == ' ';
        at = end + 1;
    }
    assert_true(folded > 3);
    free(text);
    free(p);
}

static void an_event_for_each_day_has_what_the_rules_ask_for(void **state)
{
    (void)state;
    struct piles *p = turned();
    char *text = written(p, 0);
    static const char begin[] = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:"; /* 3.6 */
    assert_int_equal(strncmp(text, begin, sizeof begin - 1), 0);
    assert_non_null(strstr(text, "END:VEVENT\r\nEND:VCALENDAR\r\n"));
    /* build, 2 readings, the hottest day, a turn, 2 readings */
    static const char *const each[] = {"BEGIN:VEVENT\r\n", "END:VEVENT\r\n", "\r\nUID:",
                                       "\r\nDTSTAMP:20251018T000000Z\r\n",
                                       "\r\nDTSTART;VALUE=DATE:", "\r\nSUMMARY:"};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        assert_int_equal(count(text, each[i]), 7);
    assert_int_equal(count(text, "VALUE=DATE:20251101\r\n"), 1);
    assert_int_equal(count(text, "@midden.invalid\r\n"), 7);
    free(text);
    free(p);
}

static void commas_semicolons_backslashes_and_line_ends_are_escaped(void **state)
{
    (void)state;
    struct piles *p = turned();
    strcpy(p->scenario.name, "a\\b; c, d \xC2\xB0 e\x01"); /* 3.3.11 */
    char *text = written(p, 0), *flat = unfolded(text);
    assert_non_null(strstr(flat, "SUMMARY:Build in bay 1: a\\\\b\\; c\\, d \xC2\xB0 e?\r\n"));
    assert_non_null(strstr(flat, "SUMMARY:Turn into bay 2\\, mixed: "));
    assert_non_null(strstr(flat, "\\nWork for one person: 40 to 40 min. Water: 2 buckets.\r\n"));
    free(flat);
    free(text);
    free(p);
}

static void the_same_pile_gives_the_same_bytes(void **state)
{
    (void)state;
    struct piles *p = turned();
    char *once = written(p, 0), *again = written(p, 0);
    assert_string_equal(once, again);
    free(once);
    free(again);
    free(p);
}

/* The UID of the turn in a file, 16 hexadecimal digits. */
static void uid_of_turn(char uid[17], struct piles *p, int alike)
{
    char *text = written(p, alike);
    const char *at = strstr(text, "DTSTART;VALUE=DATE:20251101") ;
    if (!at)
        at = strstr(text, "DTSTART;VALUE=DATE:20251102");
    assert_non_null(at);
    while (strncmp(at, "UID:", 4) != 0)
        at--;
    memcpy(uid, at + 4, 16);
    uid[16] = '\0';
    free(text);
}

static void a_day_keeps_its_name_when_it_is_moved_and_no_other_has_it(void **state)
{
    (void)state;
    char was[17], moved[17], renamed[17], second[17];
    struct piles *p = turned();
    uid_of_turn(was, p, 0);
    uid_of_turn(second, p, 1);
    p->scenario.plan[0].event[0].day = 15; /* a day later: calendars move the entry */
    uid_of_turn(moved, p, 0);
    p->scenario.plan[0].event[0].day = 14;
    strcpy(p->scenario.name, "Sorrel Banks");
    uid_of_turn(renamed, p, 0);
    assert_string_equal(was, moved);
    assert_string_not_equal(was, renamed);
    assert_string_not_equal(was, second);
    free(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_line_ends_with_cr_lf_and_has_at_most_75_octets),
        cmocka_unit_test(an_event_for_each_day_has_what_the_rules_ask_for),
        cmocka_unit_test(commas_semicolons_backslashes_and_line_ends_are_escaped),
        cmocka_unit_test(the_same_pile_gives_the_same_bytes),
        cmocka_unit_test(a_day_keeps_its_name_when_it_is_moved_and_no_other_has_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
