/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/ails.c - see tell/ails.h. */
#include "tell/ails.h"
#include "many/band.h"
#include "tell/json.h"
#include "tell/phrase.h"

enum { NAMED_MOST = 3 };

static struct span chance_of(const struct cause_odds *odds)
{
    return band_chance(odds->piles, odds->of);
}

/* Of fewer than one pile in ten nothing is made. */
static bool worth_telling(const struct cause_odds *odds)
{
    return 10 * odds->piles >= odds->of;
}

struct saying ails_said(const struct cause_odds *odds, int causes)
{
    struct saying said = {""};
    for (int i = 0; i < causes && i < NAMED_MOST && (i == 0 || worth_telling(&odds[i])); i++)
        saying_add(&said, "%s%s %s", i ? "; " : "", cause_said[odds[i].cause],
                   phrase_chance(chance_of(&odds[i])).text);
    return said;
}

static struct cause_test test_of(const struct cause_odds *odds, int causes, bool squeezed)
{
    return causes > 1 && worth_telling(&odds[1]) ? cause_test(odds[0].cause, odds[1].cause, squeezed)
                      : (struct cause_test){NULL, NULL, NULL};
}

/* In JSON no cause is "nothing"; a sentence says it otherwise. */
static const char *named(enum cause cause)
{
    return cause == CAUSE_NONE ? "all is well" : cause_word[cause];
}

struct saying ails_test(const struct cause_odds *odds, int causes, bool squeezed)
{
    struct saying said = {""};
    struct cause_test test = test_of(odds, causes, squeezed);
    if (test.what)
        saying_add(&said, "%s: %s = %s; %s = %s", test.what, test.shows, named(odds[0].cause),
                   test.else_shows, named(odds[1].cause));
    return said;
}

bool ails_likely(const struct cause_odds *odds, int causes)
{
    return causes > 0 && odds[0].cause != CAUSE_NONE;
}

bool ails_clear(const struct cause_odds *odds, int causes)
{
    return ails_likely(odds, causes) && 2 * odds[0].piles >= odds[0].of;
}

json_t *ails_causes(const struct cause_odds *odds, int causes)
{
    json_t *list = json_array();
    for (int i = 0; i < causes; i++) {
        json_t *object = json_object();
        json_put_text(object, "cause", cause_word[odds[i].cause]);
        json_put_span(object, "chance", chance_of(&odds[i]), 1);
        json_array_append_new(list, object);
    }
    return list;
}

json_t *ails_test_object(const struct cause_odds *odds, int causes, bool squeezed)
{
    struct cause_test test = test_of(odds, causes, squeezed);
    if (!test.what)
        return json_null();
    json_t *object = json_object();
    json_put_text(object, "what", test.what);
    json_put_text(object, cause_word[odds[0].cause], test.shows);
    json_put_text(object, cause_word[odds[1].cause], test.else_shows);
    return object;
}
