/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/run/test_jar.c - jars held at a temperature, a wetness and an oxygen share. */
#include "run/jar.h"
#include "run/season_of.h"
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#define JAR(held, recipe, last)                                                               \
    "midden: 1\nstart: 2026-01-01\nplace: {latitude: 50 N, elevation: 100 m}\n"              \
    "sky: mild and wet\njar: {across: 20 cm, high: 25 cm, " held "}\nbuild:\n  - " recipe "\n" \
    "plans: {leave it: []}\nneed: by " last "\n"
#define GREEN "fresh grass clippings: 1 L\n    mixed leaves: 2 L"
#define POOR "hardwood sawdust: 1 L\n    water: 0.5 L"

/* Everything of decay that a fit of the constants moves, as these checks were worked out with: no
 * cellulose mild, no films of water. A test that is about one of them sets it. */
static const struct {
    const char *name;
    double value;
} FIXED[] = {
    {"fast_per_day", 0.5}, {"protein_per_day", 0.25}, {"slow_per_day", 0.10}, {"lignin_shield", 3},
    {"lignin_per_day", 0.003}, {"lignocellulose_index_end", 0.7}, {"microbe_death_per_day", 0.4},
    {"necromass_per_day", 0.03}, {"humus_per_day", 0.0015}, {"airless_share", 0.2},
    {"size_half_m", 0.05}, {"coldest_C", -5}, {"best_C", 58}, {"hottest_C", 67},
    {"lignin_best_C", 45}, {"lignin_hottest_C", 65}, {"slow_mild_share", 0}, {"cold_floor", 0.15},
    {"wet_slope", 17.684}, {"wet_offset", 7.0622}, {"oxygen_half_share", 0.010}, {"film_slope", 0},
    {"lag_share", 0.02}, {"start_microbe_share", 0.01}, {"grow_share", 0.40},
    {"grow_slow_share", 0.32}, {"humus_slow_share", 0.08}, {"humus_microbe_share", 0.15},
    {"starved_share", 0.3}, {"ammonia_per_day", 0.54}, {"ammonia_hinders_kg_per_kg", 0.004},
    {"ripe_ph", 8}};

static struct season_of *jar_begin(const char *text)
{
    struct season_of *s = season_of_begin(text, NULL);
    if (!climate_curve(&s->sky, &s->scenario, 0, &s->why))
        fail_msg("%s", s->why.text);
    for (size_t i = 0; i < sizeof FIXED / sizeof *FIXED; i++) {
        assert_non_null(param_find(FIXED[i].name));
        param_put(&s->param, param_find(FIXED[i].name), FIXED[i].value);
    }
    return s;
}

static struct season_of *jar(const char *text)
{
    struct season_of *s = jar_begin(text);
    season_of_run(s);
    return s;
}

static double carbon_lost(const struct record *r, int day)
{
    double lost = 0;
    for (int d = 0; d <= day; d++)
        lost -= r->day[d].flux[FLUX_co2_carbon];
    return lost;
}

static double lost_by(const char *text, int day)
{
    struct season_of *s = jar(text);
    double lost = carbon_lost(&s->record, day);
    season_of_free(s);
    return lost;
}

static void what_is_held_stays_held(void **state)
{
    (void)state;
    struct season_of *s = season_of(JAR("held at: 40 C, held water: 55 %, held oxygen: 12 %", GREEN,
                                        "2026-02-09"), NULL);
    assert_int_equal(s->record.days, 40);
    for (int d = 0; d < s->record.days; d++) {
        const struct record_day *row = &s->record.day[d];
        const double temp_K[] = {row->air_K, row->middle_K, row->deep_30cm_K, row->hand_deep_K,
                                 row->mean_K, row->hottest_K, row->coldest_tenth_K};
        for (int k = 0; k < 7; k++)
            assert_near(temp_K[k], 313.15, 1e-9);
        assert_near(row->water_share, 0.55, 1e-12);
        assert_near(row->wet_kg * 0.45, row->dry_kg, 1e-12);
        assert_near(row->oxygen_lowest_share, 0.12, 1e-12);
    }
    season_of_free(s);
}

static void a_jar_that_is_held_at_a_temperature_alone_stays_as_wet_as_it_was_laid(void **state)
{
    (void)state;
    struct season_of *s = season_of(JAR("held at: 40 C", POOR, "2026-02-09"), NULL);
    const struct plan_portion *wood = &s->scenario.layer[0].portion[0];
    double water = wood->wet_kg.mid * wood->water_share.mid, wet = wood->wet_kg.mid + 0.5;
    /* dry mass summed from pools leaves out mineral nitrogen */
    assert_near(s->record.day[0].water_share, (water + 0.5) / wet, 2e-5);
    assert_near(s->record.day[39].water_share, s->record.day[0].water_share, 1e-12);
    assert_near(s->record.day[39].oxygen_lowest_share, 0.209, 1e-12);
    season_of_free(s);
}

/* Two pools of one ingredient lose m = m0 exp(-k th). The clocks of protein and cellulose go as
 * warm air : ((1 - m) warm + m mild) (air + airless (1 - air)) whatever else happens, with air =
 * x/(x + half), half = h exp(f (wet - 0.55)), m the mild share of cellulose. [derived] */
static double clock_ratio(const struct param *p, double over_K, double wet, double oxygen)
{
    double warm = decay_cardinal(over_K, p->coldest_C, p->best_C, p->hottest_C);
    double mild = decay_cardinal(over_K, p->coldest_C, p->lignin_best_C, p->lignin_hottest_C);
    double half = p->oxygen_half_share * exp(p->film_slope * (wet - 0.55));
    double air = oxygen / (oxygen + half), m = p->slow_mild_share;
    return ((1 - m) * warm + m * mild) / warm * (air + p->airless_share * (1 - air)) / air;
}

/* Cellulose that no lignin encloses, kg: lignin/(lignin + what it encloses) is given. */
static double open_cellulose(const struct season_of *s, const struct record_day *row)
{
    return row->pool_kg[2] - (1 / s->param.lignocellulose_index_end - 1) * row->pool_kg[3];
}

/* Its rate, per clock day. */
static double slow_rate(const struct season_of *s)
{
    const struct stuff *stuff = &s->scenario.stuff[0];
    double piece = s->scenario.layer[0].portion[0].piece_m;
    double shield = stuff->lignin_share / (stuff->lignin_share + stuff->slow_share);
    return s->param.slow_per_day * exp(-s->param.lignin_shield * shield) *
           fmin(1, 1.2 / (1 + piece / s->param.size_half_m));
}

#define GRASS_30 JAR("held at: 30 C, held water: 55 %", "fresh grass clippings: 1 L", "2026-03-01")
#define GRASS_50 JAR("held at: 50 C, held water: 45 %, held oxygen: 1 %", \
                     "fresh grass clippings: 1 L", "2026-03-01")

static void pools_keep_to_their_closed_form(void **state)
{
    (void)state;
    static const double MILD[] = {0, 0, 1, 0.5}, FILM[] = {0, 7, 0, 12};
    for (int i = 0; i < 8; i++) {
        struct season_of *s = jar_begin(i < 4 ? GRASS_30 : GRASS_50);
        s->param.slow_mild_share = MILD[i % 4];
        s->param.film_slope = FILM[i % 4];
        season_of_run(s);
        const struct record_day *early = &s->record.day[4];
        const struct record_day *late = &s->record.day[s->record.days - 1];
        double protein_d = log(early->pool_kg[1] / late->pool_kg[1]) / s->param.protein_per_day;
        double slow_d = log(open_cellulose(s, early) / open_cellulose(s, late)) / slow_rate(s);
        double want = i < 4 ? clock_ratio(&s->param, 30, 0.55, 0.209)
                            : clock_ratio(&s->param, 50, 0.45, 0.01);
        assert_true(protein_d > 1);
        assert_near(slow_d / protein_d, want, 1e-10);
        season_of_free(s);
    }
}

/* A batch of grass that decays at 1.5 times its kind's pace is grass under constants 1.5 times as large. */
static void a_batch_of_another_pace_has_all_its_rates_times_so_much(void **state)
{
    (void)state;
    struct season_of *batch = jar_begin(GRASS_30), *law = jar_begin(GRASS_30);
    possible_usual(&batch->possible, &batch->scenario, &batch->param);
    batch->possible.pace[0] = 1.5;
    if (!season_run_x1(&batch->record, &batch->setup, &batch->why))
        fail_msg("%s", batch->why.text);
    law->param.fast_per_day *= 1.5;
    law->param.protein_per_day *= 1.5;
    law->param.slow_per_day *= 1.5;
    law->param.lignin_per_day *= 1.5;
    season_of_run(law);
    int last = batch->record.days - 1;
    for (int k = 0; k < 6; k++)
        assert_near(batch->record.day[last].pool_kg[k], law->record.day[last].pool_kg[k], 1e-12);
    season_of_free(batch);
    season_of_free(law);
}

static struct setting *built(struct season_of *s)
{
    struct setting *setting = calloc(1, sizeof *setting);
    assert_non_null(setting);
    possible_usual(&s->possible, &s->scenario, &s->param);
    if (!setting_make(setting, &s->setup, &s->why))
        fail_msg("%s", s->why.text);
    around_day(&setting->around, 0);
    setting_build(setting);
    return setting;
}

static void unbuilt(struct setting *setting)
{
    setting_free(setting);
    free(setting);
}

/* What is laid settles to one density: straw at 60 kg/m3, 10 % of it water, loses 35 % of its
 * height, so to 54/0.65 kg of dry mass in a cubic metre. Laid at q times its usual density it
 * settles to 0.65 q of its volume, at least to 0.4 and at most to 0.95 of it. [derived] */
static void what_is_laid_settles_to_one_density_within_limits(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double settled;
    } laid[] = {
        {JAR("held at: 40 C", "wheat straw: 2 L", "2026-01-09"), 0.65},
        {JAR("held at: 40 C", "wheat straw: 2 L loose", "2026-01-09"), 0.52},   /* q = 0.8 */
        {JAR("held at: 40 C", "wheat straw: 2 L pressed", "2026-01-09"), 0.95}, /* q = 1.6: 1.04 */
        {JAR("held at: 40 C", "ours: 2 L", "2026-01-09\ningredients:\n"
             "  ours: {like: wheat straw, bulk: 75 kg/m3}"), 0.8125},          /* q = 1.25 */
        {JAR("held at: 40 C", "ours: 2 L", "2026-01-09\ningredients:\n"
             "  ours: {like: wheat straw, bulk: 30 kg/m3}"), 0.40},            /* q = 0.5: 0.325 */
    };
    for (size_t i = 0; i < sizeof laid / sizeof *laid; i++) {
        struct season_of *s = jar_begin(laid[i].text);
        struct setting *setting = built(s);
        const struct pile *pile = &setting->pile;
        double fresh = pile->stock[STOCK_FRESH_M3][0], settled = pile->stock[STOCK_SETTLED_M3][0];
        assert_near(fresh, 2e-3, 1e-15);
        assert_near(settled / fresh, laid[i].settled, 1e-12);
        /* of what it has to go, building does a part at once */
        assert_near(pile->stock[STOCK_LOOSE_M3][0],
                    fresh + s->param.trodden_share * (settled - fresh), 1e-15);
        unbuilt(setting);
        season_of_free(s);
    }
}

/* Carbon and nitrogen are what is laid less what is breathed out and lost. [derived] */
static void carbon_and_nitrogen_close_to_round_off(void **state)
{
    (void)state;
    struct season_of *s = jar(JAR("held at: 58 C, held water: 60 %, held oxygen: 4 %", GREEN,
                                  "2026-12-31"));
    const struct record *r = &s->record;
    const struct record_day *last = &r->day[r->days - 1];
    double in = r->flux_total[FLUX_added_carbon], lost = -r->flux_total[FLUX_co2_carbon];
    assert_true(lost > 0.4 * in);
    assert_near(last->carbon_kg / in, 1 - lost / in, 1e-12);
    assert_near(last->nitrogen_kg / r->flux_total[FLUX_added_nitrogen],
                1 + r->flux_total[FLUX_ammonia] / r->flux_total[FLUX_added_nitrogen], 1e-12);
    assert_true(r->flux_total[FLUX_ammonia] < -0.01 * r->flux_total[FLUX_added_nitrogen]);
    for (int b = 0; b < RECORD_BALANCES; b++)
        assert_true(r->balance[b] < 1e-12);
    double kept = 0;
    for (int k = 0; k < 6; k++)
        kept += last->pool_kg[k];
    assert_near(kept / last->dry_kg, 1, 1e-12);
    season_of_free(s);
}

static double lost_with_steps(const char *text, double longest_s)
{
    struct season_of *s = jar_begin(text);
    s->param.longest_step_s = longest_s;
    s->param.nitrogen_half = 5e-5; /* the table's stiffest */
    season_of_run(s);
    double lost = carbon_lost(&s->record, s->record.days - 1);
    season_of_free(s);
    return lost;
}

static void halving_the_step_changes_nothing_that_counts(void **state)
{
    (void)state;
    static const char *const jars[] = {
        JAR("held at: 58 C, held water: 60 %", GREEN, "2026-02-28"),
        JAR("held at: 28 C, held water: 60 %", POOR, "2026-02-28")};
    for (int i = 0; i < 2; i++) {
        double usual = lost_with_steps(jars[i], 1350), half = lost_with_steps(jars[i], 675);
        assert_true(usual != half);
        assert_near(usual / half, 1, 1e-8);
    }
}

/* Cardinal temperatures as set above: -5 and 67 C, lignin up to 65 C. In the cold sugars go on
 * slowly, in the water that is not yet ice. */
static void beyond_its_cardinal_temperatures_nothing_decays(void **state)
{
    (void)state;
    struct season_of *hot =
        jar(JAR("held at: 70 C, held water: 60 %", GREEN, "2026-02-09"));
    assert_near(carbon_lost(&hot->record, 39), 0, 0);
    assert_near(hot->record.day[39].dry_kg, hot->record.day[0].dry_kg, 0);
    struct season_of *cold =
        jar(JAR("held at: -8 C, held water: 60 %", GREEN, "2026-02-09"));
    for (int k = 1; k < 4; k++)
        assert_near(cold->record.day[39].pool_kg[k], cold->record.day[0].pool_kg[k], 0);
    season_of_free(hot);
    season_of_free(cold);
}

static void decay_answers_to_what_is_held(void **state)
{
    (void)state;
    double usual = lost_by(JAR("held at: 45 C, held water: 60 %", GREEN, "2026-01-31"), 14);
    double cool = lost_by(JAR("held at: 15 C, held water: 60 %", GREEN, "2026-01-31"), 14);
    double dry = lost_by(JAR("held at: 45 C, held water: 25 %", GREEN, "2026-01-31"), 14);
    double stale = lost_by(JAR("held at: 45 C, held water: 60 %, held oxygen: 0.5 %", GREEN,
                               "2026-01-31"), 14);
    assert_true(cool < 0.7 * usual && dry < 0.4 * usual && stale < 0.7 * usual);
}

static void a_jar_that_is_held_takes_no_visits(void **state)
{
    (void)state;
    struct season_of *s = season_of_begin(JAR("held at: 40 C", GREEN, "2026-01-31"), NULL);
    if (!climate_curve(&s->sky, &s->scenario, 0, &s->why))
        fail_msg("%s", s->why.text);
    possible_usual(&s->possible, &s->scenario, &s->param);
    s->scenario.plan[0].events = 1;
    assert_false(season_run_x1(&s->record, &s->setup, &s->why));
    assert_int_equal(s->why.kind, TROUBLE_NO);
    assert_non_null(strstr(s->why.text, "leave it"));
    season_of_free(s);
}

/* ---- a second opinion ---- */
/* The same laws by the Runge-Kutta-Prince-Dormand method of order 8 of the GNU Scientific Library
 * (rk8pd; its reference manual, chapter Ordinary Differential Equations, memory), with the pools
 * of a single ingredient as plain unknowns: no clocks, no closed form.
 * Carbon and pH stay for a day. */
enum { MICROBE = POOLS, HUMUS, NITROGEN, SOUR, LIVING, DRY, BREATHED, UNKNOWNS };

struct opinion {
    const struct setting *setting;
    struct decay_store store;
    double over_K, air, water_per_dry, scale_kg;
};

static int opinion_rates(double time_s, const double x[], double rate[], void *of)
{
    struct opinion *o = of;
    const struct pile_stuff *stuff = &o->setting->pile.stuff[0];
    double y[UNKNOWNS];
    (void)time_s;
    for (int n = 0; n < UNKNOWNS; n++)
        y[n] = x[n] * o->scale_kg;
    for (int k = 0; k < POOLS; k++)
        o->store.moment[k][0] = y[k] * stuff->rate_per_d[k];
    struct decay_surroundings at = {o->over_K, 1, o->water_per_dry * y[DRY], y[DRY]};
    struct decay_state now = {{0}, y[MICROBE], y[LIVING], y[HUMUS], y[NITROGEN], y[SOUR]};
    struct decay_potential p;
    struct decay_rates r;
    decay_potential(&o->setting->balance.decay, &o->store, &at, &now, &p);
    decay_rates(&o->setting->balance.decay, &o->store, &p, o->air, &r);
    for (int k = 0; k < POOLS; k++)
        rate[k] = -r.pace[k] * stuff->rate_per_d[k] * y[k];
    rate[MICROBE] = r.microbe_kg;
    rate[LIVING] = r.living_kg;
    rate[HUMUS] = r.humus_kg;
    rate[NITROGEN] = r.nitrogen_kg;
    rate[SOUR] = r.sour_kg;
    rate[DRY] = r.dry_kg;
    rate[BREATHED] = r.carbon_kg;
    for (int n = 0; n < UNKNOWNS; n++)
        rate[n] /= o->scale_kg;
    return GSL_SUCCESS;
}

/* What stays the same for a day: docs of run/settle. */
static void opinion_day(struct opinion *o, const double x[])
{
    const struct decay_law *law = &o->setting->balance.decay;
    double laid = o->setting->pile.stock[STOCK_FAST_LAID_KG][0];
    double carbon = 0, fast = (x[POOL_FAST] + x[SOUR]) * o->scale_kg;
    for (int n = 0; n <= SOUR; n++)
        carbon += n == NITROGEN ? 0 : x[n] * o->scale_kg;
    o->store.carbon_kg = carbon;
    double fresh = fmin(fast / (laid + 1e-9 * carbon), 1);
    o->store.ph = law->ripe_ph + (law->fresh_ph - law->ripe_ph) * fresh;
}

static void opinion_begin(struct opinion *o, double x[UNKNOWNS])
{
    const struct pile *pile = &o->setting->pile;
    static const enum state FROM[] = {STATE_MICROBE_KG, STATE_HUMUS_KG, STATE_NITROGEN_KG,
                                      STATE_SOUR_KG, STATE_LIVING_KG, STATE_DRY_KG};
    o->scale_kg = pile_state(pile, STATE_DRY_KG)[0];
    o->store.protein_oxygen = pile->stuff[0].protein_oxygen;
    o->store.protein_water = pile->stuff[0].protein_water;
    o->store.protein_nitrogen = pile->stuff[0].protein_nitrogen;
    o->store.protein_dry = pile->stuff[0].protein_dry;
    o->store.enclosed = pile->stuff[0].enclosed;
    for (int k = 0; k < POOLS; k++)
        x[k] = pile_pool(pile, 0, (enum pool)k)[0] / o->scale_kg;
    assert_int_equal(pile->stuffs, 1);
    for (int n = MICROBE; n <= DRY; n++)
        x[n] = pile_state(pile, FROM[n - MICROBE])[0] / o->scale_kg;
    x[BREATHED] = 0;
}

static void agrees(const char *text, double over_K, double oxygen, double wet)
{
    struct season_of *s = jar_begin(text);
    s->param.slow_mild_share = 0.6;
    s->param.film_slope = 5;
    season_of_run(s);
    struct setting *setting = built(s);
    double half = s->param.oxygen_half_share * exp(5 * (wet - 0.55));
    struct opinion o = {.setting = setting, .over_K = over_K, .water_per_dry = wet / (1 - wet),
                        .air = oxygen / (oxygen + half)};
    double x[UNKNOWNS], time_s = 0;
    opinion_begin(&o, x);
    gsl_odeiv2_system system = {opinion_rates, NULL, UNKNOWNS, &o};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 60, 1e-13, 1e-11);
    assert_non_null(driver);
    for (int d = 0; d < s->record.days; d++) {
        opinion_day(&o, x);
        gsl_odeiv2_driver_reset(driver);
        assert_int_equal(gsl_odeiv2_driver_apply(driver, &time_s, (d + 1) * 86400.0, x),
                         GSL_SUCCESS);
        const struct record_day *row = &s->record.day[d];
        assert_near(carbon_lost(&s->record, d) / o.scale_kg, x[BREATHED], 1e-9);
        assert_near(row->dry_kg / o.scale_kg, x[DRY], 1e-9);
        assert_near(row->pool_kg[2] / o.scale_kg,
                    AMOUNT_SLOW_DRY * (x[POOL_SLOW] + o.store.enclosed * x[POOL_LIGNIN]), 1e-9);
        assert_near(row->pool_kg[4] / o.scale_kg, AMOUNT_MICROBE_DRY * x[MICROBE], 1e-9);
    }
    assert_true(x[BREATHED] > 5e-4);
    gsl_odeiv2_driver_free(driver);
    unbuilt(setting);
    season_of_free(s);
}

static void an_integrator_of_another_library_agrees(void **state)
{
    (void)state;
    agrees(JAR("held at: 50 C, held water: 60 %", "fresh grass clippings: 1 L", "2026-01-31"), 50,
           0.209, 0.6);
    agrees(JAR("held at: 50 C, held water: 55 %, held oxygen: 0.5 %", "kitchen scraps: 1 L",
               "2026-01-31"), 50, 0.005, 0.55);
    agrees(JAR("held at: 28 C, held water: 60 %", "hardwood sawdust: 1 L", "2026-01-31"), 28, 0.209,
           0.6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_held_stays_held),
        cmocka_unit_test(a_jar_that_is_held_at_a_temperature_alone_stays_as_wet_as_it_was_laid),
        cmocka_unit_test(pools_keep_to_their_closed_form),
        cmocka_unit_test(a_batch_of_another_pace_has_all_its_rates_times_so_much),
        cmocka_unit_test(what_is_laid_settles_to_one_density_within_limits),
        cmocka_unit_test(carbon_and_nitrogen_close_to_round_off),
        cmocka_unit_test(halving_the_step_changes_nothing_that_counts),
        cmocka_unit_test(beyond_its_cardinal_temperatures_nothing_decays),
        cmocka_unit_test(decay_answers_to_what_is_held),
        cmocka_unit_test(a_jar_that_is_held_takes_no_visits),
        cmocka_unit_test(an_integrator_of_another_library_agrees),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
