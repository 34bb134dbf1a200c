/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/search.c - see tell/search.h. */
#include "tell/search.h"
#include "ask/ready.h"
#include "know/bound.h"
#include "tell/json.h"
#include <ctype.h>
#include "tell/steps.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double MINUTE_S = 60.0, MM = 1000.0;

static date_count date_on(const struct search *s, const struct candidate *candidate, int turn)
{
    return s->scenario->start + s->space.day[candidate->turn[turn].day];
}

static const char *into_word(const struct search *s, int into)
{
    return into >= 0 ? s->scenario->bay[into].name : into == PLAN_NEXT_BAY ? "next" : NULL;
}

/* ---- YAML ---- */

/* Words as they are where YAML takes them for words, else in quotes. */
static void put_words(FILE *out, const char *words)
{
    bool plain = isalnum((unsigned char)*words) != 0;
    for (const char *c = words; *c; c++)
        plain = plain && (isalnum((unsigned char)*c) || *c == '-' || (*c == ' ' && c[1]));
    if (plain) {
        fputs(words, out);
        return;
    }
    fputc('\'', out);
    for (const char *c = words; *c; c++)
        fputs(*c == '\'' ? "\'\'" : (char[]){*c, '\0'}, out);
    fputc('\'', out);
}

static void put_item(FILE *out, const struct search *s, const struct plan_event *event)
{
    char date[DATE_TEXT];
    date_write(s->scenario->start + event->day, date);
    fprintf(out, "{day: %s, ", date);
    if (event->deed == PLAN_COVER) {
        fprintf(out, "cover: %s", bound_rows[event->cover].name);
        if (event->cover_m > 0)
            fprintf(out, " %.6g mm", MM * event->cover_m);
        fputc('}', out);
        return;
    }
    fprintf(out, "turn: %s", steps_way(event->way));
    if (into_word(s, event->into)) {
        fputs(", into: ", out);
        put_words(out, into_word(s, event->into));
    }
    fputs(event->until_it_drips ? ", water: until it drips}" : "}", out);
}

void search_yaml(FILE *out, const struct search *s, const struct candidate *candidate, int indent)
{
    struct plan *plan = malloc(sizeof *plan);
    if (!plan)
        return;
    space_plan(plan, &s->space, candidate);
    for (int e = 0; e < plan->events; e++) {
        if (indent == SEARCH_IN_LINE)
            fputs(e ? ", " : " [", out);
        else
            fprintf(out, "\n%*s- ", indent, "");
        put_item(out, s, &plan->event[e]);
    }
    if (indent == SEARCH_IN_LINE)
        fputs("]", out);
    free(plan);
}

/* ---- text ---- */

static struct phrase tenths(double chance)
{
    return phrase_chance((struct span){chance, chance, chance});
}

/* "two turns, 28 Feb outside in, 28 Mar mixed" */
static void name_plan(char *text, size_t size, const struct search *s, const struct candidate *c)
{
    static const char *const counts[] = {"no turn", "one turn", "two turns", "three turns",
                                         "four turns", "five turns", "six turns", "seven turns",
                                         "eight turns"};
    size_t used = (size_t)snprintf(text, size, "%s", counts[c->turns]);
    for (int i = 0; i < c->turns && used < size; i++)
        used += (size_t)snprintf(text + used, size - used, ", %s %s%s",
                                 phrase_day(date_on(s, c, i)).text, steps_way(c->turn[i].way),
                                 c->turn[i].wet ? "" : " without water");
    if (c->covered && used < size)
        snprintf(text + used, size - used, ", %s on top throughout",
                 bound_rows[s->space.cover].name);
}

static void say_found(FILE *out, const struct search *s)
{
    char plan[512], of[32] = "";
    const struct plan_need *need = &s->scenario->need;
    name_plan(plan, sizeof plan, s, &s->trial[s->best].candidate);
    if (s->found) {
        saying_capital(plan);
        phrase_line(out, NULL, "%s: ready for %s by %s in %s; %s of work.%s", plan,
                    ready_use_word[need->what], phrase_day(need->by).text, phrase_chance(s->chance).text,
                    phrase_minutes(s->person_s.mid).text,
                    s->finished ? "" : " The search was cut short.");
    } else {
        if (s->trials > 1)
            snprintf(of, sizeof of, " of the %d tried", s->trials);
        phrase_line(out, NULL, "No plan%s makes it ready for %s by %s with the %s you ask for. Nearest%s: "
                    "%s: %s, %s of work.%s", s->space.days ? "" : " (there is no day to turn)",
                    ready_use_word[need->what], phrase_day(need->by).text, tenths(need->chance).text, of, plan,
                    phrase_chance(s->chance).text, phrase_minutes(s->person_s.mid).text,
                    s->finished ? "" : " The search was cut short.");
    }
}

/* The curve of work against chance, apart from the plan itself. */
static void say_front(FILE *out, const struct search *s, bool in_full)
{
    const struct search_trial *best = &s->trial[s->best];
    bool said[2] = {false, false};
    int shown = 0;
    for (int i = 0; i < s->fronts; i++) {
        const struct search_front *f = &s->front[i];
        char plan[512];
        if (space_same(&f->candidate, &best->candidate))
            continue;
        bool more = f->person_s > best->person_s;
        if (!in_full && shown++ >= 4)
            return;
        name_plan(plan, sizeof plan, s, &f->candidate);
        phrase_line(out, said[more] ? "" : more ? "more" : "less", "%s: %s, %s", plan,
                    tenths(f->chance).text, phrase_minutes(f->person_s).text);
        said[more] = true;
    }
}

/* What the search's own piles say of the plan, by which the lines of more and less work are told: else one
 * beside it may seem both likelier and less work. */
static void say_own(char text[160], const struct search *s)
{
    const struct search_trial *best = &s->trial[s->best];
    struct phrase chance = tenths(best->chance), work = phrase_minutes(best->person_s);
    bool alike = strcmp(chance.text, tenths(s->chance.mid).text) == 0 &&
                 strcmp(work.text, phrase_minutes(s->person_s.mid).text) == 0;
    *text = '\0';
    if (s->told_fresh && s->fronts > 1 && !alike)
        snprintf(text, 160, " (by those it saw, as `less` and `more` are: %.40s, %.40s)", chance.text, work.text);
}

static void say_sure(FILE *out, const struct search *s)
{
    char day[96] = "", own[160];
    say_own(own, s);
    if (isfinite(s->ready_day.mid))
        snprintf(day, sizeof day, "; likeliest ready about %.20s",
                 phrase_day(s->scenario->start + (date_count)lround(s->ready_day.mid) - 1).text);
    phrase_line(out, "sure", "forecasts: the first line from %d possible piles%s%s%s; %s tried in %d "
                "seasons%s%s", s->told_members,
                s->told_fresh ? " that the search never saw" : " that also chose the plan", own, day,
                phrase_count(s->trials, "plan", "plans").text, s->seasons,
                s->trials > 1 ? ", the others judged by fewer" : "", phrase_unread(s->scenario));
    if (s->too_long)
        phrase_line(out, "visit", "%d of the plans %s longer than your visit of %s",
                    s->too_long, s->too_long == 1 ? "takes" : "take", phrase_minutes(s->scenario->people.visit_s).text);
}

static void say_care(FILE *out, const struct search *s)
{
    const struct search_trial *best = &s->trial[s->best];
    const struct tale tale = {.scenario = s->scenario};
    bool applies[TALE_CAUTIONS];
    for (int i = 0; i < TALE_CAUTIONS; i++)
        applies[i] = tale_caution_applies(&tale, (enum tale_caution)i);
    for (int i = 0; i < best->members; i++)
        applies[TALE_HOT] |= best->outcome[i].computed && best->outcome[i].peak_K >= TALE_HOT_K;
    phrase_line(out, "care", "%s", tale_care(applies).text);
}

void search_text(FILE *out, const struct search *s, const char *written, bool in_full)
{
    say_found(out, s);
    say_front(out, s, in_full);
    say_sure(out, s);
    say_care(out, s);
    if (written)
        phrase_line(out, "do", "%s holds the plan: midden run %s", written, written);
    else
        phrase_line(out, "do", "--write found.yaml keeps the plan; midden compare judges your own");
}

/* ---- JSON ---- */

static json_t *event_object(const struct search *s, const struct plan_event *event)
{
    char date[DATE_TEXT];
    json_t *object = json_object();
    date_write(s->scenario->start + event->day, date);
    json_put_text(object, "date", date);
    if (event->deed == PLAN_COVER) {
        json_put_text(object, "do", "cover");
        json_put_text(object, "how", bound_rows[event->cover].name);
        return object;
    }
    json_put_text(object, "do", "turn");
    json_put_text(object, "how", steps_way(event->way));
    json_put_text(object, "into", into_word(s, event->into));
    json_put(object, "until_it_drips", json_boolean(event->until_it_drips));
    return object;
}

static json_t *plan_object(const struct search *s, const struct candidate *candidate)
{
    json_t *object = json_object(), *events = json_array();
    struct plan *plan = malloc(sizeof *plan);
    if (plan) {
        space_plan(plan, &s->space, candidate);
        for (int e = 0; e < plan->events; e++)
            json_array_append_new(events, event_object(s, &plan->event[e]));
    }
    free(plan);
    json_put(object, "events", events);
    return object;
}

static void put_date(json_t *object, const char *key, const struct search *s, double day)
{
    char date[DATE_TEXT];
    if (!(day <= s->scenario->last_day + 1)) {
        json_put_text(object, key, NULL);
        return;
    }
    date_write(s->scenario->start + (date_count)lround(day) - 1, date);
    json_put_text(object, key, date);
}

static json_t *front_object(const struct search *s, const struct search_front *f)
{
    json_t *object = json_object(), *dates = json_array();
    json_put_number(object, "person_minutes", f->person_s / MINUTE_S);
    put_date(object, "ready_date", s, f->ready_day);
    json_put_number(object, "chance", f->chance);
    json_put(object, "members", json_integer(f->members));
    for (int i = 0; i < f->candidate.turns; i++) {
        char date[DATE_TEXT];
        date_write(date_on(s, &f->candidate, i), date);
        json_array_append_new(dates, json_string(date));
    }
    json_put(object, "turn_dates", dates);
    return object;
}

bool search_json(FILE *out, const struct search *s, struct trouble *why)
{
    json_t *object = json_object(), *curve = json_array();
    json_put(object, "found", json_boolean(s->found));
    json_put(object, "plan", plan_object(s, &s->trial[s->best].candidate));
    json_put_span(object, "chance", s->chance, 1);
    json_put_span(object, "person_minutes", s->person_s, 1 / MINUTE_S);
    json_put_span(object, "water_l", s->water_kg, 1);
    put_date(object, "ready_date", s, s->ready_day.mid);
    for (int i = 0; i < s->fronts; i++)
        json_array_append_new(curve, front_object(s, &s->front[i]));
    json_put(object, "curve", curve);
    json_put(object, "tried", json_integer(s->trials));
    json_put(object, "seasons", json_integer(s->seasons));
    json_put(object, "members", json_integer(s->told_members));
    json_put(object, "fresh", json_boolean(s->told_fresh));
    json_put(object, "finished", json_boolean(s->finished));
    return json_write(out, object, why);
}
