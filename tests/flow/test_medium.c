/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/flow/test_medium.c - what a bed is to air, vapour and heat, against published forms. */
#include "flow/gas.h"
#include "flow/medium.h"
#include "lib/near.h"
#include "pile/read.h"
#include <stdlib.h>

/* One cell of a cubic metre, its arrays in line. */
struct bed_cell {
    lane share; /* greatest vapour pressure over air pressure, as told */
    double solid_m3, grain_m, water_kg, dry_kg, over_K, wet_slope, ice_slope;
    struct medium medium;
    lane room[19];
};

static const struct medium_law PLAIN = {0.10, 0.05, 0, 1e9, 1, 101325};

static void fill(struct bed_cell *b, const struct medium_law *law)
{
    struct mesh mesh = {.cells = 1};
    struct medium_frame frame;
    lane *room = b->room, volume = 1, oxygen = GAS_OXYGEN_OUTSIDE;
    struct medium *m = &b->medium;
    lane **each[] = {&m->over_K, &m->capacity, &m->water_J, &m->liquid, &m->free_air, &m->vapour_Pa,
                     &m->humid, &m->humid_slope, &m->dry_rho, &m->rho, &m->mobility, &m->diffusive,
                     &m->conduct, &frame.solid_m3, &frame.ash_kg, &frame.grain_m2, &frame.hold_kg,
                     &frame.wet_slope, &frame.ice_slope};
    for (size_t i = 0; i < sizeof each / sizeof *each; i++)
        *each[i] = room + i;
    mesh.volume_m3 = &volume;
    *frame.solid_m3 = b->solid_m3;
    *frame.ash_kg = 0;
    *frame.grain_m2 = b->grain_m * b->grain_m / 180;
    *frame.wet_slope = b->wet_slope;
    *frame.ice_slope = b->ice_slope;
    lane heat = read_enthalpy(b->over_K, b->dry_kg, 0, b->water_kg);
    lane water = b->water_kg, dry = b->dry_kg;
    b->share = medium_fill(m, &frame, law, &mesh, &heat, &water, &dry, &oxygen);
}

/* permeability of pieces of this size with this free air space */
static double permeability(double grain_m, double free_air, const struct medium_law *law)
{
    struct bed_cell b = {.solid_m3 = 1 - free_air, .grain_m = grain_m, .water_kg = 1e-6,
                         .dry_kg = 100, .over_K = 20};
    fill(&b, law);
    return *b.medium.mobility * gas_viscosity_Pa_s(20);
}

/* [memory] Carman (1937), d^2 e^3/(180 (1-e)^2): 1 mm 0.30, 2 mm 0.30, 5 mm 0.35, 5 mm 0.50, 10
 * mm 0.40 give 3.1e-10, 1.22e-9, 1.41e-8, 6.9e-8, 9.9e-8 m2 */
static void permeability_is_carmans_between_its_ends(void **state)
{
    (void)state;
    static const double row[][3] = {{1e-3, 0.30, 3.1e-10}, {2e-3, 0.30, 1.22e-9},
                                    {5e-3, 0.35, 1.41e-8}, {5e-3, 0.50, 6.9e-8},
                                    {1e-2, 0.40, 9.9e-8}};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++)
        assert_near(permeability(row[i][0], row[i][1], &PLAIN) / row[i][2], 1, 0.015);
    struct medium_law usual = PLAIN;
    usual.permeability_least = 1e-10;
    usual.permeability_most = 3e-7;
    assert_true(permeability(0.1, 0.9, &usual) < 3.01e-7);
    assert_true(permeability(1e-5, 0.05, &usual) >= 1e-10);
}

/* [seen] Papendick and Campbell (1981): diffusivity in the bed over that in free air is the free
 * air space squared; Penman's (1940) 0.66 e and Millington and Quirk's (1961) e^(10/3)/n^2 bound
 * it [memory] */
static void vapour_diffuses_by_the_square_of_the_air_space(void **state)
{
    (void)state;
    for (double e = 0.2; e < 0.65; e += 0.1) {
        struct bed_cell b = {.solid_m3 = 0.2, .grain_m = 1e-3, .water_kg = 1000 * (0.8 - e),
                             .dry_kg = 200, .over_K = 20};
        fill(&b, &PLAIN);
        double over = *b.medium.diffusive / *b.medium.dry_rho / 2.475e-5; /* Massman (1998), 20 C */
        assert_near(over / (e * e), 1, 3e-3);
        assert_true(over > pow(e, 10.0 / 3) / 0.64 && over < 0.66 * e);
    }
}

/* [seen] peat of pore fraction 0.9, after de Vries (1963) and O'Donnell et al. (2009): 0.04,
 * 0.27, 0.50 W/(m K) dry, half and full of water, within 0.03; Farouki (1981): 0.05 dry,
 * 0.25^0.1 0.57^0.9 saturated, in proportion between, ice 2.2 in place of 0.57 */
static void peat_conducts_as_in_the_soil_table(void **state)
{
    (void)state;
    static const double wet[3] = {0, 450, 900}, want[3] = {0.04, 0.27, 0.50};
    double full = pow(0.25, 0.1) * pow(0.57, 0.9), icy = pow(0.25, 0.1) * pow(2.2, 0.9);
    for (int i = 0; i < 3; i++) {
        struct bed_cell b = {.solid_m3 = 0.1, .grain_m = 1e-3, .water_kg = wet[i] + 1e-6,
                             .dry_kg = 150, .over_K = 15, .wet_slope = (full - 0.05) / 900,
                             .ice_slope = (icy - 0.05) / 900};
        fill(&b, &PLAIN);
        assert_near(*b.medium.conduct, want[i], 0.03);
        b.over_K = -0.5; /* half of the water is ice */
        fill(&b, &PLAIN);
        assert_near(*b.medium.conduct, 0.05 + wet[i] / 900 * (0.5 * (full + icy) - 0.05), 1e-6);
    }
}

/* Wet material's gas is saturated; dry material's holds less, and its slope is that of
 * differences. */
static void gas_in_the_pores_follows_water_activity(void **state)
{
    (void)state;
    for (double u = 0.05; u < 3; u *= 2) {
        struct bed_cell b = {.solid_m3 = 0.1, .grain_m = 1e-3, .water_kg = 100 * u, .dry_kg = 100,
                             .over_K = 50};
        lane slope, p = gas_pressure_Pa(50, &slope);
        fill(&b, &PLAIN);
        double share = 1 / (1 + pow(0.10 / u, 2.5)), step = 1e-3;
        assert_near(*b.medium.vapour_Pa / (share * p), 1, 1e-9);
        assert_near(*b.medium.rho, *b.medium.dry_rho * (1 + *b.medium.humid), 1e-12);
        double humid_slope = *b.medium.humid_slope;
        b.over_K = 50 + step;
        fill(&b, &PLAIN);
        double more = *b.medium.humid;
        b.over_K = 50 - step;
        fill(&b, &PLAIN);
        assert_near((more - *b.medium.humid) / (2 * step) / humid_slope, 1, 1e-6);
    }
}

/* [memory] Water boils at 93.3 C under 79.5 kPa, that of 2000 m; a step that comes near is shortened by the share
 * of the air's pressure that is told. Wherever the hottest cell lies, it is that cell's. */
static void the_share_of_vapour_told_is_that_of_the_hottest_cell(void **state)
{
    (void)state;
    struct bed_cell boiling = {.solid_m3 = 0.1, .grain_m = 1e-3, .water_kg = 300, .dry_kg = 100, .over_K = 93.3};
    struct medium_law high = PLAIN;
    high.air_Pa = 79500;
    fill(&boiling, &high);
    assert_near(boiling.share, 1, 0.01); /* the wet bulk is within a hundredth of saturated */
    for (int hottest = 0; hottest < 3; hottest++) {
        struct medium m;
        struct medium_frame frame;
        struct arena count = {0};
        medium_take(&m, &frame, 3, &count);
        void *block = calloc(1, count.used);
        assert_non_null(block);
        medium_take(&m, &frame, 3, &(struct arena){block, count.used, 0});
        lane volume[3], heat[3], water[3], dry[3], oxygen[3];
        for (int c = 0; c < 3; c++) {
            volume[c] = 1, water[c] = 300, dry[c] = 100, oxygen[c] = GAS_OXYGEN_OUTSIDE;
            heat[c] = read_enthalpy(c == hottest ? 93.3 : 20 + c, 100, 0, 300);
            frame.solid_m3[c] = 0.1;
            frame.grain_m2[c] = 1e-6 / 180;
        }
        struct mesh mesh = {.cells = 3, .volume_m3 = volume};
        assert_near(medium_fill(&m, &frame, &high, &mesh, heat, water, dry, oxygen), boiling.share, 1e-12);
        free(block);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(permeability_is_carmans_between_its_ends),
        cmocka_unit_test(vapour_diffuses_by_the_square_of_the_air_space),
        cmocka_unit_test(peat_conducts_as_in_the_soil_table),
        cmocka_unit_test(gas_in_the_pores_follows_water_activity),
        cmocka_unit_test(the_share_of_vapour_told_is_that_of_the_hottest_cell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
