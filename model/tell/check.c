/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/check.c - what was understood of a scenario, and whether it can be done.
 *
 * Shows every amount next to what it was taken for, so that a slip (bags for buckets) is seen
 * before a season is run on it. "Can't be done" means a bay that is full when it is wanted; what
 * merely looks odd is said and left to the reader.
 */
#include "tell/check.h"
#include "ask/change.h"
#include "ask/repeat.h"
#include "base/unit.h"
#include "know/skies.h"
#include "run/thermometer.h"
#include "sky/weather.h"
#include "tell/json.h"
#include "tell/saying.h"
#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;
static const double LITRES_A_M3 = 1000.0;
static const double FLAT_M = 0.4;   /* trade */

/* Room in a bay; a jar is round, its width the diameter. Heaps and windrows end nowhere. */
static double room_m3(const struct plan_bay *bay)
{
    if (bay->shape == PLAN_BIN)
        return bay->length_m * bay->width_m * bay->height_m;
    if (bay->shape == PLAN_JAR)
        return PI / 4.0 * bay->width_m * bay->width_m * bay->height_m;
    return INFINITY;
}

static bool full_on(const struct plan_bay *bay, date_count day)
{
    return bay->now == PLAN_BAY_FULL && (bay->full_until == 0 || day < bay->full_until);
}

static struct span span_plus(struct span sum, struct span more)
{
    return (struct span){sum.low + more.low, sum.mid + more.mid, sum.high + more.high};
}

/* Water in a portion. Its ends go with the ends of mass and share, so the span is on the wide
 * side. */
static struct span water_in(const struct plan_portion *portion)
{
    return (struct span){portion->wet_kg.low * portion->water_share.low,
                         portion->wet_kg.mid * portion->water_share.mid,
                         portion->wet_kg.high * portion->water_share.high};
}

static void add_layer(struct check *check, const struct scenario *scenario,
                      const struct plan_layer *layer)
{
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        const struct stuff *stuff = &scenario->stuff[portion->stuff];
        check->laid_m3 += portion->volume_m3.mid;
        check->settled_m3 += portion->volume_m3.mid * (1.0 - stuff->settle_share);
        check->wet_kg = span_plus(check->wet_kg, portion->wet_kg);
        check->water_kg = span_plus(check->water_kg, water_in(portion));
    }
    check->wet_kg = span_plus(check->wet_kg, layer->water_kg);
    check->water_kg = span_plus(check->water_kg, layer->water_kg);
}

/* The first event of any plan that turns the pile into a bay still full on that day. Events on a
 * rule have no day yet: only a bay that is never emptied stands in their way. */
static void find_full_bay(struct check *check, const struct scenario *scenario)
{
    for (int p = 0; p < scenario->plans; p++)
        for (int e = 0; e < scenario->plan[p].events; e++) {
            const struct plan_event *event = &scenario->plan[p].event[e];
            if (event->deed != PLAN_TURN || event->into < 0 || event->into >= scenario->bays)
                continue;
            const struct plan_bay *bay = &scenario->bay[event->into];
            bool never = bay->now == PLAN_BAY_FULL && bay->full_until == 0;
            date_count day = scenario->start + event->day;
            if (event->when == PLAN_RULE ? !never : !full_on(bay, day))
                continue;
            snprintf(check->reason, sizeof check->reason,
                     "plan \"%s\" turns the pile into %s on %s, but that bay is full%s%s",
                     scenario->plan[p].name, bay->name, phrase_date(day).text,
                     never ? "" : " until ", never ? "" : phrase_date(bay->full_until).text);
            return;
        }
}

static void find_reason(struct check *check, const struct scenario *scenario)
{
    const struct plan_bay *home = &scenario->bay[scenario->home];
    if (scenario->layers == 0)
        snprintf(check->reason, sizeof check->reason,
                 "nothing is built yet; say under `build` what goes in, from the bottom up");
    else if (full_on(home, scenario->start) && !scenario->found.is)
        snprintf(check->reason, sizeof check->reason,
                 "%s is full on %s, when the pile is to be built in it", home->name,
                 phrase_date(scenario->start).text);
    else
        find_full_bay(check, scenario);
}

/* Is more to come by some plan, so that what is built is only the beginning? */
static bool grows(const struct scenario *scenario)
{
    for (int p = 0; p < scenario->plans; p++)
        if (change_grows(&scenario->plan[p]))
            return true;
    return false;
}

/* A carpet has more outside than middle: less than 40 cm high, and less than a third of its width [trade]. */
static void find_flat(struct check *check, const struct scenario *scenario, const struct phrase_style *style)
{
    const struct plan_bay *bay = &scenario->bay[scenario->home];
    double across_m = fmin(bay->length_m, bay->width_m), high_m = check->laid_m3 / (bay->length_m * bay->width_m);
    if (bay->shape == PLAN_BIN && scenario->layers > 0 && !scenario->found.is && !grows(scenario) &&
        high_m < FLAT_M && high_m < across_m / 3)
        snprintf(check->look, sizeof check->look,
                 "%s fills %s to %s only: a pile so flat hardly keeps its heat; heap it up in the middle, or "
                 "fence off a smaller bay",
                 phrase_volume(style, check->laid_m3).text, bay->name, phrase_length(style, high_m).text);
}

static void find_look(struct check *check, const struct scenario *scenario,
                      const struct phrase_style *style)
{
    const char *bay = scenario->bay[scenario->home].name;
    if (check->laid_m3 <= check->holds_m3)
        find_flat(check, scenario, style);
    else if (check->settled_m3 <= check->holds_m3)
        snprintf(check->look, sizeof check->look,
                 "%s as carried, about %s once it has settled; %s holds %s: heap it up or build it "
                 "in two goes",
                 phrase_volume(style, check->laid_m3).text,
                 phrase_volume(style, check->settled_m3).text, bay,
                 phrase_volume(style, check->holds_m3).text);
    else
        snprintf(check->look, sizeof check->look,
                 "%s as carried, about %s once it has settled, but %s holds %s: %s is over",
                 phrase_volume(style, check->laid_m3).text,
                 phrase_volume(style, check->settled_m3).text, bay,
                 phrase_volume(style, check->holds_m3).text,
                 phrase_litres(style, (check->settled_m3 - check->holds_m3) * LITRES_A_M3).text);
}

struct check check_scenario(const struct scenario *scenario, const struct phrase_style *style)
{
    struct check check = {0};
    check.holds_m3 = room_m3(&scenario->bay[scenario->home]);
    for (int i = 0; i < scenario->layers; i++)
        add_layer(&check, scenario, &scenario->layer[i]);
    find_reason(&check, scenario);
    find_look(&check, scenario, style);
    check.odds = visit_odds(scenario, check.odd, CHECK_ODDS);
    return check;
}

/* The answer: yes or no, and what the file holds. */
static void say_answer(FILE *out, const struct check *check, const struct scenario *scenario)
{
    if (*check->reason) {
        phrase_line(out, NULL, "Understood, but it can't be done: %s.", check->reason);
        return;
    }
    char readings[160] = "", bays[160] = "", odd[128] = "nothing odd";
    int looks = (*check->look != '\0') + check->odds;
    if (looks)
        snprintf(odd, sizeof odd, "%s to look at", phrase_count(looks, "thing", "things").text);
    if (scenario->bays > 1)
        snprintf(bays, sizeof bays, " of %s", phrase_count(scenario->bays, "bay", "bays").text);
    if (scenario->notes)
        snprintf(readings, sizeof readings, ", %s",
                 phrase_count(scenario->notes, "reading", "readings").text);
    phrase_line(out, NULL, "Yes. %s: one pile in %s%s, %s%s; %s.", scenario->name,
                scenario->bay[scenario->home].name, bays,
                phrase_count(scenario->plans, "plan", "plans").text, readings,
                looks == 1 ? "one thing to look at" : odd);
}

static struct span percent(struct span share)
{
    return (struct span){share.low * 100.0, share.mid * 100.0, share.high * 100.0};
}

static struct span litres(struct span volume_m3)
{
    return (struct span){volume_m3.low * LITRES_A_M3, volume_m3.mid * LITRES_A_M3,
                         volume_m3.high * LITRES_A_M3};
}

/* One amount with what it was taken for: volume as it lies, mass and water with their ranges. */
static void say_portion(FILE *out, const char *label, const struct scenario *scenario,
                        const struct plan_portion *portion, const struct phrase_style *style)
{
    struct phrase mass = phrase_span(portion->wet_kg, 1.0), us = {""};
    if (style->show == PLAN_SHOW_US || style->show == PLAN_SHOW_BOTH)
        snprintf(us.text, sizeof us.text, " = %.0f lb", portion->wet_kg.mid / UNIT_POUND_KG);
    phrase_line(out, label, "%s: %s, %s kg%s, %s %% water", scenario->stuff[portion->stuff].name,
                phrase_litres_span(style, litres(portion->volume_m3)).text, mass.text, us.text,
                phrase_span(percent(portion->water_share), 1.0).text);
}

static void say_layer(FILE *out, const struct scenario *scenario, int row,
                      const struct phrase_style *style)
{
    const struct plan_layer *layer = &scenario->layer[row];
    const struct phrase_style poured = phrase_poured(style);
    fprintf(out, "  layer %d\n", row + 1);
    for (int i = 0; i < layer->portions; i++)
        say_portion(out, "", scenario, &layer->portion[i], style);
    if (layer->water_kg.mid > 0.0)
        phrase_line(out, "", "water poured: %s", phrase_litres_span(&poured, layer->water_kg).text);
}

/* Every layer, but those that repeat only once. */
static void say_layers(FILE *out, const struct scenario *scenario, const struct phrase_style *style)
{
    for (int first = 0; first < scenario->layers;) {
        struct repeat repeat = repeat_at(scenario, first);
        if (repeat.times > 1)
            fprintf(out, "  layers %d to %d: %d times\n", first + 1,
                    first + repeat.period * repeat.times, repeat.times);
        for (int i = 0; i < repeat.period; i++)
            say_layer(out, scenario, first + i, style);
        first += repeat.period * repeat.times;
    }
}

/* "mixed leaves (`dry leaves`)": the keeper's words, where the ingredient has another name. */
static void say_taken(FILE *out, const struct scenario *scenario)
{
    struct saying said = {""};
    for (int i = 0; i < scenario->takens; i++)
        saying_add(&said, "%s%s (`%s`)", i ? ", " : "", scenario->stuff[scenario->taken[i].stuff].name,
                   scenario->taken[i].word);
    if (scenario->takens)
        phrase_line(out, "read as", "%s", said.text);
}

static void say_found(FILE *out, const struct scenario *scenario, const struct phrase_style *style)
{
    const struct plan_found *found = &scenario->found;
    long days = lround(found->built_days_ago);
    if (found->is)
        phrase_line(out, "as found", "a pile %s high%s%s", phrase_length(style, found->height_m.mid).text,
                    days ? " that had stood for about " : ", just built",
                    days ? phrase_count(days, "day", "days").text : "");
}

static void say_sky(FILE *out, const struct scenario *scenario)
{
    if (scenario->sky == PLAN_SKY_FILE)
        phrase_line(out, "weather", "daily, from %s", scenario->sky_file);
    else if (scenario->sky == PLAN_SKY_NAMED)
        phrase_line(out, "weather", "made up from \"%s\", an invented climate",
                    skies_rows[scenario->sky_row].name);
    else
        phrase_line(out, "weather", "made up from the monthly normals of the scenario");
}

/* Visits on the wrong day: the first few, and how many more there are. */
static void say_odds(FILE *out, const struct check *check, const struct scenario *scenario)
{
    char text[VISITS_TEXT];
    int kept = check->odds < CHECK_ODDS ? check->odds : CHECK_ODDS;
    for (int i = 0; i < kept; i++) {
        visits_odd(text, &check->odd[i], scenario);
        phrase_line(out, "look at", "%s", text);
    }
    if (check->odds > kept)
        phrase_line(out, "look at", "and %d more visits on the wrong day", check->odds - kept);
}

static const double HIGH_M = 800; /* water boils two and a half degrees lower there */

/* What a reading is taken for. */
static void say_thermometer(FILE *out, const struct scenario *scenario,
                            const struct phrase_style *style)
{
    const struct plan_thermometer *t = &scenario->thermometer;
    double shown_K = 323.15;
    if (t->said && t->in_ice)
        phrase_line(out, "read by", "a %s thermometer: %s on it is taken for %s, give or take %g C",
                    thermometer_kinds[t->kind], phrase_temp(style, shown_K).text,
                    phrase_temp(style, thermometer_taken_K(t, shown_K)).text,
                    thermometer_unsure_K(t));
    else if (t->said)
        phrase_line(out, "read by", "a %s thermometer, give or take %g C; half of that once it has "
                    "been held in ice water", thermometer_kinds[t->kind], thermometer_unsure_K(t));
    if (scenario->place.elevation_m > HIGH_M)
        phrase_line(out, "up there", "boiling water reads %.1f C on a true thermometer, and air holds "
                    "%.0f %% of the oxygen at sea level",
                    weather_boils_K(scenario->place.elevation_m) - 273.15,
                    100 * weather_air_Pa(scenario->place.elevation_m) / weather_air_Pa(0));
}

/* Nobody knows more of what vessels weigh. */
static double two_figures(double value)
{
    double step = value > 0 ? pow(10, floor(log10(value)) - 1) : 1;
    return step * round(value / step);
}

static struct phrase mass_said(const struct phrase_style *style, struct span kg)
{
    return phrase_ranged(phrase_mass(style, two_figures(kg.low)), phrase_mass(style, two_figures(kg.mid)),
                         phrase_mass(style, two_figures(kg.high)));
}

void check_text(FILE *out, const struct check *check, const struct scenario *scenario,
                const struct phrase_style *style)
{
    say_answer(out, check, scenario);
    say_found(out, scenario, style);
    say_layers(out, scenario, style);
    say_taken(out, scenario);
    if (scenario->layers)
        phrase_line(out, "in all", "%s as carried; %s with what is poured on, about %s of it water",
                    phrase_volume(style, check->laid_m3).text, mass_said(style, check->wet_kg).text,
                    phrase_share(check->water_kg.mid / check->wet_kg.mid).text);
    say_sky(out, scenario);
    say_thermometer(out, scenario, style);
    bool beyond = check->last_looked > scenario->last_day;
    phrase_line(out, "season", "%s to %s%s%s", phrase_date(scenario->start).text,
                phrase_date(scenario->start + scenario->last_day).text,
                beyond ? "; forecasts look on, in case it is late, to " : "",
                beyond ? phrase_date(scenario->start + check->last_looked).text : "");
    if (*check->look)
        phrase_line(out, "look at", "%s", check->look);
    say_odds(out, check, scenario);
    for (int i = 0; i < scenario->assumed; i++)
        phrase_line(out, "assumed", "%s", scenario->assumption[i]);
}

static json_t *layer_object(const struct scenario *scenario, int row)
{
    const struct plan_layer *layer = &scenario->layer[row];
    json_t *object = json_object(), *list = json_array();
    json_put(object, "layer", json_integer(row + 1));
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        json_t *part = json_object();
        json_put_text(part, "ingredient", scenario->stuff[portion->stuff].name);
        json_put_span(part, "volume_l", portion->volume_m3, LITRES_A_M3);
        json_put_span(part, "wet_kg", portion->wet_kg, 1.0);
        json_put_span(part, "water_share", portion->water_share, 1.0);
        json_array_append_new(list, part);
    }
    json_put(object, "ingredients", list);
    json_put_span(object, "poured_l", layer->water_kg, 1.0);
    return object;
}

static json_t *taken_list(const struct scenario *scenario)
{
    json_t *list = json_array();
    for (int i = 0; i < scenario->takens; i++) {
        json_t *taken = json_object();
        json_put_text(taken, "word", scenario->taken[i].word);
        json_put_text(taken, "ingredient", scenario->stuff[scenario->taken[i].stuff].name);
        json_array_append_new(list, taken);
    }
    return list;
}

static json_t *plans_list(const struct scenario *scenario)
{
    json_t *list = json_array();
    for (int i = 0; i < scenario->plans; i++) {
        json_t *plan = json_object();
        json_put_text(plan, "plan", scenario->plan[i].name);
        json_put(plan, "events", json_integer(scenario->plan[i].events));
        json_array_append_new(list, plan);
    }
    return list;
}

static json_t *check_object(const struct check *check, const struct scenario *scenario,
                            const char *version)
{
    char start[DATE_TEXT], end[DATE_TEXT];
    date_write(scenario->start, start);
    date_write(scenario->start + scenario->last_day, end);
    json_t *object = json_object(), *layers = json_array(), *look = json_array();
    for (int i = 0; i < scenario->layers; i++)
        json_array_append_new(layers, layer_object(scenario, i));
    if (*check->look)
        json_array_append_new(look, json_string(check->look));
    for (int i = 0; i < check->odds && i < CHECK_ODDS; i++) {
        char text[VISITS_TEXT];
        visits_odd(text, &check->odd[i], scenario);
        json_array_append_new(look, json_string(text));
    }
    json_put_text(object, "midden", version);
    json_put_text(object, "scenario", scenario->name);
    json_put(object, "possible", json_boolean(!*check->reason));
    json_put_text(object, "why_not", *check->reason ? check->reason : NULL);
    json_put_text(object, "start", start);
    json_put_text(object, "end", end);
    json_put(object, "layers", layers);
    json_put(object, "taken_for", taken_list(scenario));
    json_put_number(object, "laid_m3", check->laid_m3);
    json_put_number(object, "settled_m3", check->settled_m3);
    json_put_number(object, "bay_holds_m3", check->holds_m3);
    json_put_span(object, "wet_kg", check->wet_kg, 1.0);
    json_put_number(object, "water_share", check->water_kg.mid / check->wet_kg.mid);
    json_put(object, "plans", plans_list(scenario));
    json_put(object, "readings", json_integer(scenario->notes));
    json_put(object, "look", look);
    json_put(object, "assumed", json_assumed(scenario));
    return object;
}

bool check_json(FILE *out, const struct check *check, const struct scenario *scenario,
                const char *version, struct trouble *why)
{
    return json_write(out, check_object(check, scenario, version), why);
}
