/* SPDX-License-Identifier: GPL-3.0-or-later */
/* run/setting.c - see run/setting.h. */
#include "run/setting.h"
#include "run/bays.h"
#include "run/calendar.h"
#include "run/erect.h"
#include "run/settle.h"
#include "run/some.h"
#include <stdlib.h>
#include <string.h>

static const double SETTLED = 0.85; /* of the loose volume, as a bin is designed [trade] */
static const double FIRST_M = 0.005; /* even when more is to come */
static const double SLENDEREST = 8; /* height over width: beyond it nothing stands */
static const double MOST_ROWS = 28; /* thick ones in a tall pile: what is slow there is slow anyway */
static const double ADDED = 0.3;    /* of what is added later, as a bin is designed [trade] */

/* Of all layers of the recipe, as they lie. */
static double laid_volume(const struct scenario *scenario)
{
    double volume = 0;
    for (int l = 0; l < scenario->layers; l++)
        volume += lay_volume_m3(&scenario->layer[l]);
    return volume;
}

static double design_volume(const struct setting *s)
{
    double volume = laid_volume(s->scenario);
    for (int e = 0; e < s->plan->events; e++) {
        const struct plan_event *event = &s->plan->event[e];
        volume += ADDED * calendar_times(s->scenario, event) * lay_volume_m3(&event->add);
    }
    return volume;
}

/* A bin's hydraulic radius and multiplicity; a heap's or windrow's true cross-section. */
static struct mesh_design design_of(const struct setting *s, const struct plan_bay *bay)
{
    const struct param *param = &s->param[0];
    struct mesh_design d = {.rim_m = param->rim_m, .growth = param->mesh_growth,
                            .row_most_m = param->row_most_m,
                            .column_growth = param->column_growth};
    double volume = SETTLED * design_volume(s), area = bay->length_m * bay->width_m;
    const double pi = 3.14159265358979323846;
    switch (bay->shape) {
    case PLAN_BIN:
        d.reach_m = area / (bay->length_m + bay->width_m);
        d.times = area / (pi * d.reach_m * d.reach_m);
        d.height_m = volume / area;
        break;
    case PLAN_HEAP:
        d.reach_m = 0.5 * bay->width_m;
        d.times = 1;
        d.height_m = 2 * volume / (pi * d.reach_m * d.reach_m); /* a paraboloid */
        d.sloping = true;
        break;
    case PLAN_WINDROW:
        d.shape = MESH_LONG;
        d.reach_m = 0.5 * bay->width_m;
        d.times = 2 * bay->length_m;
        d.height_m = 0.75 * volume / (bay->length_m * d.reach_m); /* a parabola drawn out */
        d.sloping = true;
        break;
    case PLAN_JAR:
        d.shape = MESH_POINT;
        d.height_m = d.reach_m = cbrt(volume / pi);
        d.times = 1;
        break;
    }
    d.row_most_m = fmax(d.row_most_m, d.height_m / MOST_ROWS);
    return d;
}

/* Takes all memory the season needs; run once to count and once to take. */
static bool take_all(struct setting *s, struct arena *arena)
{
    int stride;
    struct mesh most = {0};
    for (int bay = 0; bay < s->scenario->bays; bay++) {
        if (!bays_used(s->scenario, s->plan, bay))
            continue;
        int like = bays_like(s->scenario, s->plan, bay);
        struct mesh *mesh = s->mesh_of_bay[bay] = &s->mesh[like];
        struct mesh_design design = design_of(s, &s->scenario->bay[bay]);
        if (like == bay && !mesh_lay(mesh, &design, arena))
            return false;
        most.rows = mesh->rows > most.rows ? mesh->rows : most.rows;
        most.cols = mesh->cols > most.cols ? mesh->cols : most.cols;
        most.band = mesh->band > most.band ? mesh->band : most.band;
        most.fine |= mesh->fine;
    }
    stride = most.rows * most.cols;
    pile_take(&s->pile, stride, s->keeper.lay.kinds, arena);
    pile_take(&s->spare, stride, s->keeper.lay.kinds, arena);
    if (LANES > 1)
        pile_take(&s->passed_by, stride, s->keeper.lay.kinds, arena);
    s->pile.mesh = &most; /* room for the largest of each */
    balance_take(&s->balance, &s->pile, arena);
    step_take(&s->step, &s->balance, &s->around, arena);
    watch_take(&s->watch, &s->balance, arena);
    s->dry_before = arena_take(arena, (size_t)stride, sizeof(lane));
    s->pile.mesh = s->mesh_of_bay[s->scenario->home];
    return true;
}

/* All that follows from the members' parameters and places, and nothing that changes in a season. */
static void know_members(struct setting *s)
{
    const struct setup *setup = s->setup;
    struct outside *out = &s->balance.outside;
    for (int i = 0; i < LANES; i++)
        s->param[i] = setup->possible[i].param;
    balance_param(&s->balance, s->param, setup->sky[0]->air_Pa);
    around_param(&s->around, s->param, &s->scenario->place, setup->sky);
    keeper_param(&s->keeper, s->param);
    s->watch.death = death_law_of(s->param);
    for (int i = 0; i < LANES; i++) {
        const struct param *p = &s->param[i];
        lane_put(&s->step.tolerance_K, i, p->tolerance_K);
        lane_put(&s->step.longest_s, i, p->longest_step_s);
        lane_put(&out->soil_W_per_mK, i, p->soil_W_per_mK);
        lane_put(&out->soil_J_per_m3K, i, p->soil_J_per_m3K);
        lane_put(&out->capillary_m2_per_s, i, p->capillary_m2_per_s);
        lane_put(&out->drain_kg_per_m2s, i, 1000.0 * p->drain_m_per_s);
    }
    lay_stuffs(&s->keeper.lay, &s->pile);
    lay_stuffs(&s->keeper.lay, &s->spare);
    survey_param(&s->survey, &s->watch, &s->keeper.lay, s->param);
}

/* A member of whom nothing has been noted, and whose time begins. */
static void begin(struct setting *s, int member)
{
    s->keeper.bay[member] = s->scenario->home;
    s->keeper.covers[member].count = 0;
    for (int e = 0; e < PLAN_EVENTS; e++) {
        s->last_done[e][member] = -1;
        s->seen_before[e][member] = false;
    }
    lane_put(&s->watch.ignition_s, member, NAN);
    lane_put(&s->step.time_s, member, SETTING_DEED_S);
    lane_put(&s->step.size_s, member, SETTING_FIRST_STEP_S);
    lane_put(&s->step.error_before, member, 1);
}

/* What a season gathers, once more at nothing. */
static void clear(struct setting *s, lane_mask who)
{
    struct closed *closed = &s->step.closed;
    pile_clear(&s->pile, who);
    dose_clear(&s->watch.dose, who, s->pile.stride);
    lane_clear(who, (lane *)&s->keeper.notes, LANES_IN(s->keeper.notes));
    lane_clear(who, (lane *)&s->ledger, LANES_IN(s->ledger));
    lane_clear(who, &s->hours.flux[0][0], RECORD_HOURS * FLUXES);
    lane_clear(who, &s->hours.probe_K_s[0][0], RECORD_HOURS * WATCH_PROBES);
    lane_clear(who, s->hours.air_K_s, RECORD_HOURS);
    lane_clear(who, s->hours.mean_K_s, RECORD_HOURS);
    lane_clear(who, s->hours.seen_s, RECORD_HOURS);
    lane_clear(who, &closed->respired_exact, 1);
    lane_clear(who, &closed->respired_sum, 1);
}

void setting_replace(struct setting *s, int member)
{
    lane_mask who = lane_nobody();
    lane_join(&who, member);
    clear(s, who);
    begin(s, member);
    know_members(s);
    step_forget(&s->step);
}

/* What is measured from now on: dry mass lost, days of creeping. */
static void count_from(struct setting *s, lane_mask who, lane now_s)
{
    lane_copy(who, s->dry_before, pile_state(&s->pile, STATE_DRY_KG), s->pile.mesh->cells);
    s->settled_s = lane_if(who, now_s, s->settled_s);
}

void setting_worked(struct setting *s, const struct moment *ten)
{
    lane *flux = s->keeper.notes.flux, first_s = lane_of(SETTING_FIRST_STEP_S);
    ledger_book(&s->ledger, flux);
    hours_deed(&s->hours, ten, SETTING_DEED_S, flux);
    for (int k = 0; k < FLUXES; k++) {
        s->watch.day_flux[k] += flux[k];
        flux[k] = lane_of(0);
    }
    count_from(s, ten->who, moment_s(ten, SETTING_DEED_S));
    s->around.across_m = 2 * s->pile.mesh->reach_m;
    balance_store(&s->balance);
    watch_look(&s->watch);
    step_forget(&s->step);
    s->step.size_s = lane_if(ten->who, lane_min(s->step.size_s, first_s), s->step.size_s);
}

static void settle(struct setting *s, lane_mask who, lane now_s)
{
    lane days = (now_s - s->settled_s) / SETTING_DAY_S;
    settle_pile(&s->balance, who, days, s->dry_before);
    count_from(s, who, now_s);
    watch_look(&s->watch);
    step_forget(&s->step);
}

void setting_settle(struct setting *s, double now_s)
{
    settle(s, lane_everybody(), lane_of(now_s));
}

void setting_settle_some(struct setting *s, const struct moment *midnight)
{
    settle(s, midnight->who, moment_s(midnight, SETTING_DAY_S));
}

void setting_build_some(struct setting *s, lane_mask who)
{
    struct moment ten = moment_all(0);
    ten.who = who;
    around_fill(&s->around, s->step.time_s, &s->balance.outside);
    some_begin(&s->keeper, who);
    erect_pile(&s->keeper, who);
    some_end(&s->keeper, who);
    setting_worked(s, &ten);
    s->standing = true;
}

void setting_build(struct setting *s)
{
    setting_build_some(s, lane_everybody());
}

/* Something is there, neither too slender nor too thin for a pile. */
static bool can_stand(const struct setting *s, struct trouble *why)
{
    if (s->scenario->layers == 0)
        return trouble_set(why, TROUBLE_NO, "nothing has been built; write what the pile is made of "
                           "under `build` or `found`");
    const struct plan_bay *home = &s->scenario->bay[s->scenario->home];
    struct mesh_design design = design_of(s, home);
    double high_m = design.height_m, wide_m = 2 * design.reach_m;
    double first_m = high_m * laid_volume(s->scenario) / design_volume(s);
    if (home->shape == PLAN_JAR)
        return true;
    if (high_m > SLENDEREST * wide_m)
        return trouble_set(why, TROUBLE_NO, "the pile would stand %.2g m high on %.2g m; take less "
                           "material or a larger bin", high_m, wide_m);
    if (high_m < SETTING_LOWEST_M || first_m < FIRST_M)
        return trouble_set(why, TROUBLE_NO, "the pile would be only %.2g cm high; take more material "
                           "or a smaller bin", 100 * first_m);
    return true;
}

/* Who works with what. */
static void join(struct setting *s)
{
    s->keeper.balance = &s->balance;
    s->keeper.pile = &s->pile;
    s->keeper.spare = &s->spare;
    s->keeper.passed_by = &s->passed_by;
    s->keeper.mesh_of_bay = s->mesh_of_bay;
    s->around.across_m = 2 * s->pile.mesh->reach_m;
}

bool setting_make(struct setting *s, const struct setup *setup, struct trouble *why)
{
    struct arena arena = {0};
    *s = (struct setting){.setup = setup, .scenario = setup->scenario,
                          .plan = &setup->scenario->plan[setup->plan],
                          .hours.day = setup->hours_day - 1};
    for (int i = 0; i < LANES; i++)
        s->param[i] = setup->possible[i].param;
    if (!can_stand(s, why))
        return false;
    lay_kinds(&s->keeper.lay, s->scenario, s->plan, setup->possible);
    if (!take_all(s, &arena))
        return trouble_set(why, TROUBLE_NO, "the mesh would have more than %d cells; take a thicker "
                           "rim_m or a larger mesh_growth", MESH_MOST_CELLS);
    arena.size = arena.used;
    arena.used = 0;
    arena.block = s->block = aligned_alloc(64, arena.size);
    if (!arena.block)
        return trouble_set(why, TROUBLE_MEMORY, "no memory for a season");
    memset(arena.block, 0, arena.size);
    take_all(s, &arena);
    join(s);
    know_members(s);
    for (int i = 0; i < LANES; i++)
        begin(s, i);
    return true;
}

void setting_free(struct setting *s)
{
    free(s->block);
    s->block = NULL;
}
