/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/garden.c - where the garden lies and what is over it: `measures:`, `place:`, `sky:`. */
#include "door/garden.h"
#include "know/skies.h"
#include <stdio.h>
#include <string.h>

static const double USUAL_HEIGHT_M =
    100.0; /* above the sea, when neither place nor sky says; trade */
static const double USUAL_M3[WORDS_VESSELS] = {0.012, 0.085,
                                               0.110}; /* bucket, barrow, bag; trade */

void garden_usual_vessels(double vessel_m3[WORDS_VESSELS])
{
    memcpy(vessel_m3, USUAL_M3, sizeof USUAL_M3);
}

static void read_vessel(struct reader *reader, const struct tree_node *node,
                        enum words_vessel which)
{
    keys_quantity(reader, node, UNIT_VOLUME, 1e-4, 2.0, "a volume of 0.1 L to 2 m3",
                  &reader->vessel_m3[which]);
}

static void read_bucket(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    read_vessel(reader, node, WORDS_BUCKET);
}

static void read_barrow(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    read_vessel(reader, node, WORDS_BARROW);
}

static void read_bag(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    read_vessel(reader, node, WORDS_BAG);
}

static const struct keys_row vessel_rows[] = {
    {"bucket", read_bucket}, {"barrow", read_barrow}, {"bag", read_bag}};

void garden_read_measures(struct reader *reader, const struct tree_node *node, void *unused)
{
    keys_read(reader, node, vessel_rows, KEYS_COUNT(vessel_rows), "the vessels", unused);
}

static void read_latitude(struct reader *reader, const struct tree_node *node, void *into)
{
    static const double NINETY =
        1.5707963267948968; /* a right angle, and the last bit of rounding */
    keys_quantity(reader, node, UNIT_LATITUDE, -NINETY, NINETY, "a latitude such as `47.2 N`",
                  &((struct plan_place_on_earth *)into)->latitude_rad);
}

static void read_elevation(struct reader *reader, const struct tree_node *node, void *into)
{
    keys_quantity(reader, node, UNIT_LENGTH, -450.0, 5500.0, "a height of -450 to 5500 m",
                  &((struct plan_place_on_earth *)into)->elevation_m);
}

static void read_sun(struct reader *reader, const struct tree_node *node, void *into)
{
    static const char *const names[] = {"all day|full sun|full", "half the day|half",
                                        "shade|shaded"};
    int sun;
    if (keys_choice(reader, node, names, KEYS_COUNT(names), &sun))
        ((struct plan_place_on_earth *)into)->sun = (enum plan_sun)sun;
}

static void read_wind(struct reader *reader, const struct tree_node *node, void *into)
{
    static const char *const names[] = {"open", "some", "sheltered"};
    int wind;
    if (keys_choice(reader, node, names, KEYS_COUNT(names), &wind))
        ((struct plan_place_on_earth *)into)->wind = (enum plan_wind)wind;
}

static const struct keys_row place_rows[] = {{"latitude", read_latitude},
                                             {"elevation", read_elevation},
                                             {"sun", read_sun},
                                             {"wind", read_wind}};

void garden_read_place(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    if (keys_read(reader, node, place_rows, KEYS_COUNT(place_rows), "the place",
                  &reader->scenario->place))
        keys_need(reader, node, "latitude", "the place");
}

/* one row of monthly figures: unit allowed, value of each within bounds */
struct normals {
    double *month;
    enum unit_kind kind; /* UNIT_KINDS: a bare count of days */
    double least, most;
    const char *expected;
};

static bool take_months(struct words *words, const struct normals *normals)
{
    for (int i = 0; i < 12; i++) {
        if (!(*words->at == '-' || (*words->at >= '0' && *words->at <= '9')))
            return words_fault(words, "%d months stand here", i);
        if (!words_number(words, &normals->month[i]))
            return false;
    }
    if (*words->at == '-' || (*words->at >= '0' && *words->at <= '9'))
        return words_fault(words, "more than 12 months stand here");
    return true;
}

static void read_months(struct reader *reader, const struct tree_node *node,
                        const struct normals *normals)
{
    struct words words;
    struct unit unit = {.factor = 1.0};
    if (!keys_open(reader, &words, node, normals->expected) || !take_months(&words, normals))
        return;
    if (normals->kind == UNIT_KINDS)
        words_take(&words, "days|day");
    else if (!words_unit(&words, 1u << normals->kind, &unit))
        return;
    if (!words_done(&words))
        return;
    for (int i = 0; i < 12; i++) {
        double value = unit_to_SI(&unit, normals->month[i]);
        if (!(value >= normals->least && value <= normals->most)) {
            keys_fault(reader, node, "month %d, %g, is out of reach; expected %s", i + 1,
                       normals->month[i], normals->expected);
            return;
        }
        normals->month[i] = value;
    }
}

static void read_low(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    struct normals normals = {reader->scenario->normals[0], UNIT_TEMP, 213.15, 308.15,
                              "twelve nights, January first, of -60 to 35 C"};
    read_months(reader, node, &normals);
}

static void read_high(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    struct normals normals = {reader->scenario->normals[1], UNIT_TEMP, 213.15, 323.15,
                              "twelve days, January first, of -60 to 50 C"};
    read_months(reader, node, &normals);
}

static void read_rain(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    struct normals normals = {reader->scenario->normals[2], UNIT_LENGTH, 0.0, 3.0,
                              "the rain of twelve months, January first, of 0 to 3000 mm"};
    read_months(reader, node, &normals);
}

static void read_wet(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    struct normals normals = {reader->scenario->normals[3], UNIT_KINDS, 0.0, 31.0,
                              "the wet days of twelve months, January first, of 0 to 31"};
    read_months(reader, node, &normals);
}

static void read_file(struct reader *reader, const struct tree_node *node, void *into)
{
    (void)into;
    struct scenario *scenario = reader->scenario;
    scenario->sky = PLAN_SKY_FILE;
    keys_path(reader, node, "the name of a CSV file with daily weather", scenario->sky_file,
              sizeof scenario->sky_file);
}

static const struct keys_row sky_rows[] = {{"night low", read_low},
                                           {"day high", read_high},
                                           {"rain", read_rain},
                                           {"wet days", read_wet},
                                           {"weather", read_file}};

/* of a month's rain: the wettest gauges have some 110 mm a wet day in their wettest month [memory] */
static const double WET_DAY_MOST_M = 0.15;

static void check_months(struct reader *reader, const struct tree_node *node)
{
    double(*normals)[12] = reader->scenario->normals;
    for (int i = 0; i < 12; i++) {
        if (!(normals[0][i] < normals[1][i])) {
            keys_key_fault(reader, node,
                           "in month %d the night is not colder than the day; "
                           "expected `night low` below `day high`",
                           i + 1);
            return;
        }
        if ((normals[2][i] > 0.0) != (normals[3][i] > 0.0)) {
            keys_key_fault(reader, node,
                           "month %d has rain without a wet day, or a wet day "
                           "without rain; expected both or neither",
                           i + 1);
            return;
        }
        if (normals[2][i] > WET_DAY_MOST_M * normals[3][i]) {
            keys_key_fault(reader, node,
                           "in month %d, %.0f mm fall on each wet day; expected at most %.0f, more than "
                           "the wettest places have",
                           i + 1, 1e3 * normals[2][i] / normals[3][i], 1e3 * WET_DAY_MOST_M);
            return;
        }
    }
}

static void read_figures(struct reader *reader, const struct tree_node *node)
{
    int count = reader->fault.count;
    reader->scenario->sky = PLAN_SKY_NORMALS;
    if (!keys_read(reader, node, sky_rows, KEYS_COUNT(sky_rows), "the sky", NULL))
        return;
    bool file = tree_find(node, "weather");
    for (int i = 0; !file && i < 4; i++)
        keys_need(reader, node, sky_rows[i].name, "the sky (or `weather: days.csv`)");
    if (file && node->children > 1)
        keys_key_fault(reader, node, "a weather file and monthly figures; expected one of them");
    if (!file && reader->fault.count == count)
        check_months(reader, node);
}

static void read_named(struct reader *reader, const struct tree_node *node)
{
    struct scenario *scenario = reader->scenario;
    const char *names[64];
    int index;
    for (int i = 0; i < skies_count && i < KEYS_COUNT(names); i++)
        names[i] = skies_rows[i].name;
    size_t length = strlen(node->text);
    scenario->sky_row = skies_find(node->text);
    if (scenario->sky_row >= 0)
        return;
    scenario->sky_row = 0;
    if (length > 4 && !strcmp(node->text + length - 4, ".csv"))
        keys_fault(reader, node, "a file stands here; expected it as `sky: {weather: days.csv}`");
    else
        keys_choice(reader, node, names, skies_count, &index);
}

void garden_read_sky(struct reader *reader, const struct tree_node *node, void *unused)
{
    (void)unused;
    reader->scenario->sky = PLAN_SKY_NAMED;
    if (node->kind == TREE_TEXT)
        read_named(reader, node);
    else
        read_figures(reader, node);
}

static void assume_vessels(struct reader *reader, const struct tree_node *measures)
{
    for (int i = 0; i < WORDS_VESSELS; i++)
        if (!measures || measures->kind != TREE_MAP || !tree_find(measures, vessel_rows[i].name))
            keys_assume(reader, "%s: %g L", vessel_rows[i].name, 1000.0 * USUAL_M3[i]);
}

static void assume_elevation(struct reader *reader)
{
    struct scenario *scenario = reader->scenario;
    bool named = scenario->sky == PLAN_SKY_NAMED;
    scenario->place.elevation_m =
        named ? skies_rows[scenario->sky_row].elevation_m : USUAL_HEIGHT_M;
    keys_assume(reader, "elevation: %g m%s", scenario->place.elevation_m,
                named ? ", that of the sky" : "");
}

void garden_assume(struct reader *reader, const struct tree_node *file)
{
    const struct tree_node *place = tree_find(file, "place");
    const struct scenario *scenario = reader->scenario;
    assume_vessels(reader, tree_find(file, "measures"));
    if (!place || place->kind != TREE_MAP)
        return;
    if (!tree_find(place, "elevation"))
        assume_elevation(reader);
    if (!tree_find(place, "sun"))
        keys_assume(reader, "sun: half the day");
    if (!tree_find(place, "wind"))
        keys_assume(reader, "wind: some");
    if (scenario->sky == PLAN_SKY_NAMED)
        keys_assume(reader, "sky: `%s`, a made-up climate", skies_rows[scenario->sky_row].name);
}
