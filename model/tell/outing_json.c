/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/outing_json.c - see tell/outing_json.h. */
#include "tell/outing_json.h"
#include "tell/json.h"
#include "tell/steps.h"
#include "tell/tale.h"
#include <math.h>
#include <string.h>

static const double SECONDS_A_MINUTE = 60.0, ICE_POINT_K = 273.15;
/* plain letters and metric units, whatever the terminal and the scenario say */
static const struct phrase_style PLAIN = {false, 0, 0};

static void put_date(json_t *object, const char *key, date_count date, bool known)
{
    char text[DATE_TEXT];
    date_write(date, text);
    json_put_text(object, key, known ? text : NULL);
}

static void put_temp(json_t *object, const char *key, struct span temp_K)
{
    json_put_span(object, key,
                  (struct span){temp_K.low - ICE_POINT_K, temp_K.mid - ICE_POINT_K,
                                temp_K.high - ICE_POINT_K},
                  1);
}

static void put_load(json_t *object, const struct scenario *scenario, double water_l)
{
    static const char *const vessels[] = {"", "bucket", "half bucket", "", "quarter bucket"};
    struct due_load load = due_load(scenario, water_l);
    json_put(object, "water_buckets", json_integer(load.count));
    json_put_text(object, "water_vessel", vessels[load.parts]);
    json_put_number(object, "water_vessel_l", load.each_l);
}

static json_t *added(const struct scenario *scenario, const struct plan_layer *layer)
{
    static const char *const vessels[] = {NULL, NULL, "bucket", "barrow", "bag"};
    json_t *list = json_array();
    for (int i = 0; i < layer->portions; i++) {
        const struct plan_portion *portion = &layer->portion[i];
        json_t *part = json_object();
        json_put_text(part, "ingredient", scenario->stuff[portion->stuff].name);
        json_put_number(part, "vessels", due_vessels(portion) > 0 ? due_vessels(portion) : NAN);
        json_put_text(part, "vessel", vessels[portion->vessel]);
        json_put_span(part, "wet_kg", portion->wet_kg, 1);
        json_put_span(part, "volume_l", portion->volume_m3, 1000);
        json_array_append_new(list, part);
    }
    return list;
}

/* trips with what is carried: water by the vessel, the rest as its keeper counted it */
static int carries(const struct scenario *scenario, double water_l, const struct plan_layer *layer)
{
    double count = due_load(scenario, water_l).count;
    for (int i = 0; i < layer->portions; i++)
        count += ceil(due_vessels(&layer->portion[i]));
    return (int)count;
}

static void put_work(json_t *object, const struct scenario *scenario, struct span person_s)
{
    json_put_span(object, "person_minutes", person_s, 1 / SECONDS_A_MINUTE);
    json_put_span(object, "clock_minutes", due_clock(person_s, scenario->people.helpers),
                  1 / SECONDS_A_MINUTE);
    json_put_span(object, "helpers", scenario->people.helpers, 1);
}

static json_t *task_object(const struct outing_stop *stop, const struct due_task *task)
{
    const struct scenario *scenario = stop->pile.scenario;
    const struct plan_event *event = task->event;
    json_t *object = json_object();
    bool stays = task->into == stop->due.from;
    json_put_text(object, "do", steps_deed(event->deed));
    if (event->deed == PLAN_TURN) {
        json_put_text(object, "how", steps_way(event->way));
        json_put_text(object, "from", scenario->bay[stop->due.from].name);
        json_put_text(object, "into", task->into < 0 ? NULL : scenario->bay[task->into].name);
    }
    json_put_text(object, "if", event->when == PLAN_RULE ? steps_rule(&PLAIN, event).text : NULL);
    json_put_span(object, "chance", task->chance, 1);
    put_work(object, scenario, task->person_s);
    json_put_span(object, "water_l", task->water_kg, 1);
    put_load(object, scenario, task->water_kg.mid);
    json_put(object, "add", added(scenario, &event->add));
    json_put_span(object, "lifted_kg", task->lifted_kg, 1);
    json_put(object, "carries", json_integer(carries(scenario, task->water_kg.mid, &event->add)));
    json_put_text(object, "steps", steps_how(&PLAIN, event, stays, stop->due.deep_m).text);
    return object;
}

/* Building has no event in the plan: it is the first day's whole work less its deeds. */
static json_t *build_object(const struct outing_stop *stop)
{
    const struct scenario *scenario = stop->pile.scenario;
    const struct due *due = &stop->due;
    struct span person_s = due->person_s, lifted_kg = due->lifted_kg, water_kg = {0, 0, 0};
    for (int i = 0; i < due->tasks; i++) {
        person_s.low -= due->task[i].person_s.low;
        person_s.mid -= due->task[i].person_s.mid;
        person_s.high -= due->task[i].person_s.high;
        lifted_kg.low -= due->task[i].lifted_kg.low;
        lifted_kg.mid -= due->task[i].lifted_kg.mid;
        lifted_kg.high -= due->task[i].lifted_kg.high;
    }
    json_t *object = json_object(), *list = json_array();
    double vessels = 0;
    for (int i = 0; i < scenario->layers; i++) {
        const struct plan_layer *layer = &scenario->layer[i];
        water_kg.low += layer->water_kg.low;
        water_kg.mid += layer->water_kg.mid;
        water_kg.high += layer->water_kg.high;
        vessels += carries(scenario, 0, layer);
        json_array_append_new(list, added(scenario, layer));
    }
    json_put_text(object, "do", "build");
    json_put_text(object, "into", scenario->bay[scenario->home].name);
    json_put_span(object, "chance", (struct span){1, 1, 1}, 1);
    put_work(object, scenario, person_s);
    json_put_span(object, "water_l", water_kg, 1);
    put_load(object, scenario, water_kg.mid);
    json_put(object, "layers", list);
    json_put_span(object, "lifted_kg", lifted_kg, 1);
    json_put(object, "carries",
             json_integer((json_int_t)vessels + due_load(scenario, water_kg.mid).count));
    json_put_text(object, "steps", fetch_build(scenario, &PLAIN).text);
    return object;
}

static json_t *probe_object(const struct due *due)
{
    json_t *object = json_object();
    double frost_K = ICE_POINT_K + OUTING_FROST_C;
    for (int i = 0; i < due->tasks; i++)
        if (due->task[i].event->unless_air_below_K > 0)
            frost_K = due->task[i].event->unless_air_below_K;
    json_put_text(object, "where", "middle");
    put_temp(object, "forecast_c", due->middle_K);
    json_put_number(object, "go_home_air_below_c", frost_K - ICE_POINT_K);
    json_put_number(object, "go_home_middle_below_c", OUTING_ASLEEP_C);
    return object;
}

static json_t *readings(const struct outing_stop *stop)
{
    json_t *list = json_array();
    for (int i = 0; i < DUE_READS; i++) {
        const struct due_reading *read = &stop->due.read[i];
        if (read->day < 0)
            continue;
        json_t *object = json_object();
        put_date(object, "date", stop->pile.scenario->start + read->day, true);
        json_put_text(object, "where", "middle");
        put_temp(object, "forecast_c", read->middle_K);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *stop_object(const struct outing_stop *stop)
{
    const struct scenario *scenario = stop->pile.scenario;
    const struct due *due = &stop->due;
    json_t *object = json_object(), *tasks = json_array();
    if (due->build)
        json_array_append_new(tasks, build_object(stop));
    for (int i = 0; i < due->tasks; i++)
        json_array_append_new(tasks, task_object(stop, &due->task[i]));
    json_put_text(object, "file", stop->file);
    json_put_text(object, "scenario", scenario->name);
    json_put_text(object, "plan", scenario->plan[stop->pile.plan].name);
    json_put(object, "day", json_integer(due->day + 1));
    json_put(object, "members", json_integer(stop->pile.members));
    json_put_text(object, "stands_in", scenario->bay[due->from].name);
    json_put(object, "tasks", tasks);
    json_put(object, "probe", due->day > 0 ? probe_object(due) : json_null());
    json_put(object, "read", readings(stop));
    put_date(object, "next_date", scenario->start + due->next_day, due->next_day >= 0);
    json_put_text(object, "next",
                  due->next_day < 0 ? NULL
                                    : steps_day(scenario, &PLAIN, &scenario->plan[stop->pile.plan],
                                                due->next_day, due->next_look)
                                          .text);
    put_work(object, scenario, due->person_s);
    json_put_span(object, "water_l", due->water_kg, 1);
    json_put_span(object, "lifted_kg", due->lifted_kg, 1);
    return object;
}

static json_t *cautions(const struct outing *visit)
{
    json_t *list = json_array();
    for (int c = 0; c < TALE_CAUTIONS; c++) {
        bool applies = false;
        for (int i = 0; i < visit->stops && !applies; i++) {
            const struct due_pile *pile = &visit->stop[i].pile;
            struct tale tale = {.record = pile->record,
                                .members = pile->members,
                                .scenario = pile->scenario,
                                .plan = pile->plan};
            applies = tale_caution_applies(&tale, (enum tale_caution)c);
        }
        if (applies)
            json_array_append_new(list, json_string(tale_caution_full((enum tale_caution)c)));
    }
    return list;
}

static json_t *clashes(const struct outing *visit)
{
    json_t *list = json_array();
    for (int i = 0; i < visit->clashes; i++) {
        const struct outing_clash *clash = &visit->clash[i];
        const struct scenario *one = visit->stop[clash->one].pile.scenario;
        json_t *object = json_object();
        json_put_text(object, "bay", one->bay[clash->bay].name);
        json_put_text(object, "one", visit->stop[clash->one].file);
        json_put_text(object, "other", visit->stop[clash->other].file);
        json_array_append_new(list, object);
    }
    return list;
}

bool outing_json(FILE *out, const struct outing *visit, struct trouble *why)
{
    json_t *object = json_object(), *piles = json_array();
    for (int i = 0; i < visit->stops; i++)
        json_array_append_new(piles, stop_object(&visit->stop[i]));
    json_put_text(object, "midden", visit->version);
    json_put(object, "day", json_integer(visit->date - visit->stop[0].pile.scenario->start + 1));
    put_date(object, "date", visit->date, true);
    json_put(object, "draw", json_integer(visit->draw));
    json_put(object, "piles", piles);
    json_put_span(object, "helpers", visit->helpers, 1);
    json_put_span(object, "person_minutes", visit->person_s, 1 / SECONDS_A_MINUTE);
    json_put_span(object, "clock_minutes", visit->clock_s, 1 / SECONDS_A_MINUTE);
    json_put_number(object, "visit_minutes", visit->visit_s / SECONDS_A_MINUTE);
    json_put(object, "too_long", json_boolean(visit->clock_s.mid > visit->visit_s));
    json_put(object, "nobody_comes", json_boolean(visit->away));
    json_put_span(object, "water_l", visit->water_kg, 1);
    json_put_span(object, "lifted_kg", visit->lifted_kg, 1);
    json_put(object, "clashes", clashes(visit));
    json_put(object, "cautions", cautions(visit));
    return json_write(out, object, why);
}
