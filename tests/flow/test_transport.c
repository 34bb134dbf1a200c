/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/flow/test_transport.c - heat and water in time, with the draught, and in the books.
 *
 * Cooling and warming against the series of Carslaw and Jaeger 1959 [memory; the figures were
 * computed from them elsewhere, derived], carried heat against its exponentials, and the rule
 * that what all cells gain is what the named fluxes bring. Steady conduction is in
 * test_transport_steady.c.
 */
#include "lib/bed.h"
#include "pile/read.h"
#include <gsl/gsl_math.h>

/* Uniform heat q, every cell by its volume. */
static void heat_evenly(struct bed *bed, double q_W_per_m3)
{
    for (int c = 0; c < bed->mesh.cells; c++)
        bed->source_W[c] = q_W_per_m3 * bed->mesh.volume_m3[c];
}

static void insulate(struct bed *bed, enum mesh_side side) { bed_side(bed, side, BED_INSULATED); }

/* ---- in time -------------------------------------------------------------------------------- */

/* [derived] a step at the face of a half-space, k 0.4, 1.5e6 J/(m3 K): erfc(x/2 sqrt(a t));
 * after a day 0.81582, 0.64132, 0.35149, 0.01985 of it at 0.05, 0.1, 0.2, 0.5 m; after a week
 * 0.86024, 0.72473, 0.37866 at 0.1, 0.2, 0.5 m. */
static void half_space_takes_a_step_as_the_error_function_says(void **state)
{
    (void)state;
    static const double depth[2][4] = {{0.05, 0.1, 0.2, 0.5}, {0.1, 0.2, 0.5, 0}};
    static const double want[2][4] = {{0.81582, 0.64132, 0.35149, 0.01985},
                                      {0.86024, 0.72473, 0.37866, 0}};
    struct mesh_design design = bed_slab(2, 200);
    struct bed bed;
    bed_make(&bed, &design, 0.4);
    insulate(&bed, MESH_WALL);
    insulate(&bed, MESH_BASE);
    bed.outside.over_K = 1;
    for (int day = 1, n = 0; n < 2; day = 7, n++) {
        bed_run(&bed, 1.5e6, (n == 0 ? 1 : day - 1) * 86400.0, 200);
        for (int i = 0; i < 4 && want[n][i] > 0; i++) {
            int below = (int)lround((2 - depth[n][i]) / 0.01) - 1; /* a face between two cells */
            assert_near(0.5 * (bed.medium.over_K[below] + bed.medium.over_K[below + 1]), want[n][i],
                        5e-4);
            double reach = 2 * sqrt(0.4 / 1.5e6 * day * 86400);
            assert_near(erfc(depth[n][i] / reach), want[n][i], 1e-5);
        }
    }
    bed_free(&bed);
}

/* the share of the first excess left in the middle when the faces are cooled; radius or half 0.5
 * m */
static double cooled(struct mesh_design design, double film, double fourier, int cells)
{
    struct bed bed;
    double side = 0.5 / cells;
    bed_make(&bed, &design, 0.4);
    insulate(&bed, MESH_BASE);
    if (design.shape == MESH_LONG)
        insulate(&bed, MESH_WALL);
    else if (design.height_m < 0.4)
        insulate(&bed, MESH_TOP);
    for (int s = 0; s < 2; s++)
        if (bed.outside.skin[s].heat_m2K_per_W < 1)
            bed_side(&bed, (enum mesh_side)s, film);
    for (int c = 0; c < bed.mesh.cells; c++)
        bed.medium.over_K[c] = 1;
    bed_run(&bed, 1.4e6, fourier * 0.25 * 1.4e6 / 0.4, 0.25 * side * side * 1.4e6 / 0.4);
    double left = bed_corner(&bed, bed.medium.over_K);
    bed_free(&bed);
    return left;
}

static double slab_cooled(double film, double fourier)
{
    return bed_limit(cooled(bed_slab(0.5, 10), film, fourier, 10),
                     cooled(bed_slab(0.5, 20), film, fourier, 20));
}

static double disc_cooled(double film, double fourier)
{
    return bed_limit(cooled(bed_disc(0.5, 10), film, fourier, 10),
                     cooled(bed_disc(0.5, 20), film, fourier, 20));
}

static double drum_cooled(double fourier)
{
    struct mesh_design coarse = {MESH_ROUND, 0.5, 1, 0.5, false, 0.05, 1, 0, 0}, fine = coarse;
    fine.rim_m = 0.025;
    return bed_limit(cooled(coarse, BED_COLD, fourier, 10), cooled(fine, BED_COLD, fourier, 20));
}

/* [derived] series of the classical step at the faces, at k t/(C L^2) = 0.2 and 0.5 */
static void slab_cylinder_and_drum_cool_as_their_series_say(void **state)
{
    (void)state;
    assert_near(slab_cooled(BED_COLD, 0.2), 0.772312, 5e-5);
    assert_near(slab_cooled(BED_COLD, 0.5), 0.370777, 5e-5);
    assert_near(disc_cooled(BED_COLD, 0.2), 0.501487, 5e-5);
    assert_near(disc_cooled(BED_COLD, 0.5), 0.088890, 5e-5);
    assert_near(drum_cooled(0.2), 0.387304, 5e-5);
    assert_near(drum_cooled(0.5), 0.032958, 5e-5);
}

/* [derived] behind a film: h L/k = 1 at time 1, h L/k = 10 at time 0.2 */
static void slab_and_cylinder_cool_through_a_film_as_their_series_say(void **state)
{
    (void)state;
    assert_near(slab_cooled(0.8, 1), 0.53386, 2e-5);
    assert_near(disc_cooled(0.8, 1), 0.24938, 2e-5);
    assert_near(slab_cooled(8, 0.2), 0.82925, 5e-5);
    assert_near(disc_cooled(8, 0.2), 0.60023, 5e-5);
}

/* ---- draught -------------------------------------------------------------------------------- */

/* A column through which dry air falls, in at the top (x = 0) and out at the base (x = 1 m). */
static void draught_down(struct bed *bed, int cells, double peclet)
{
    struct mesh_design design = bed_slab(1, cells);
    bed_make(bed, &design, 0.4);
    insulate(bed, MESH_WALL);
    double flow = peclet * 0.4 * bed->mesh.col_area_m2[0] / GAS_DRY_J_PER_KGK;
    for (int f = 0; f < bed->mesh.faces; f++)
        if (bed->mesh.face[f].upright)
            bed->air.face_kg_per_s[f] = -flow;
    for (int o = 0; o < bed->mesh.outs; o++)
        bed->air.out_kg_per_s[o] = bed->mesh.out[o].side == MESH_TOP ? -flow :
                                   bed->mesh.out[o].side == MESH_BASE ? flow : 0;
}

/* the mean of the two cells at a face x below the top */
static double at_depth(const struct bed *bed, double x)
{
    int above = bed->mesh.rows - (int)lround(x * bed->mesh.rows);
    return 0.5 * (bed->medium.over_K[above] + bed->medium.over_K[above - 1]);
}

/* [derived] T(0) = 0, T(1) = 1, Peclet number 5: (exp(Pe x) - 1)/(exp(Pe) - 1), by the program's
 * limited scheme, whose order is 2 where the field is smooth */
static void draught_against_conduction_is_the_exponential(void **state)
{
    (void)state;
    static const double x[3] = {0.25, 0.5, 0.75}, want[3] = {0.016894, 0.075858, 0.281665};
    double error[2][3];
    for (int n = 0; n < 2; n++) {
        struct bed bed;
        draught_down(&bed, 40 << n, 5);
        bed.soil_over_K[MESH_SOILS - 1] = 1;
        bed_steady(&bed);
        for (int i = 0; i < 3; i++)
            error[n][i] = fabs(at_depth(&bed, x[i]) - want[i]);
        bed_free(&bed);
    }
    for (int i = 0; i < 3; i++) {
        assert_true(error[1][i] < 6e-4);
        assert_true(error[1][i] < 0.3 * error[0][i] + 1e-6);
    }
}

/* [derived] the same with even heat and a level end: k T/(q L^2) at the outlet for Pe 0.5, 2, 10 is
 * 0.426123, 0.283834, 0.090000 */
static void heat_made_on_the_way_is_carried_out(void **state)
{
    (void)state;
    static const double peclet[3] = {0.5, 2, 10}, want[3] = {0.426123, 0.283834, 0.090000};
    for (int i = 0; i < 3; i++) {
        double end[2];
        for (int n = 0; n < 2; n++) {
            struct bed bed;
            draught_down(&bed, 20 << n, peclet[i]);
            insulate(&bed, MESH_BASE);
            heat_evenly(&bed, 10);
            bed_steady(&bed);
            end[n] = (9 * bed.medium.over_K[0] - bed.medium.over_K[1]) / 8 * 0.4 / 10;
            bed_free(&bed);
        }
        assert_near(end[1], want[i], 0.002 * want[i]);
        assert_true(fabs(end[1] - want[i]) < 0.4 * fabs(end[0] - want[i]));
    }
}

/* A column of gas saturated at one temperature, between outside air of 10 C and 75 %. */
static void saturated(struct bed *bed, double over_K)
{
    lane slope, p = gas_pressure_Pa(over_K, &slope), out_p = 0.75 * gas_pressure_Pa(10, &slope);
    struct mesh_design design = bed_slab(1, 10);
    bed_make(bed, &design, 0.4);
    for (int c = 0; c < bed->mesh.cells; c++) {
        bed->medium.over_K[c] = over_K;
        bed->medium.humid[c] = gas_humidity(p, 101325);
    }
    bed->outside.over_K = 10;
    bed->outside.humid = gas_humidity(out_p, 101325);
}

/* [derived] 100 W for a day carried off by air that enters so and leaves saturated at 60 C, water
 * taken from liquid at 60 C: 21.75 kg of dry air, 3.19 kg of water. */
static void draught_dries_and_cools_as_in_the_worked_example(void **state)
{
    (void)state;
    struct bed bed;
    saturated(&bed, 60);
    for (int f = 0; f < bed.mesh.faces; f++)
        bed.air.face_kg_per_s[f] = 1;
    for (int o = 0; o < bed.mesh.outs; o++)
        bed.air.out_kg_per_s[o] = bed.mesh.out[o].side == MESH_TOP ? 1 :
                                  bed.mesh.out[o].side == MESH_BASE ? -1 : 0;
    bed_fill(&bed);
    double water = -bed.transport.flux[FLUX_air_water];
    double from_liquid = -bed.transport.flux[FLUX_air_heat] - water * 4186 * 60;
    double air_kg = 100 * 86400 / from_liquid;
    assert_near(air_kg, 21.75, 0.01);
    assert_near(air_kg * water, 3.19, 0.01);
    for (int c = 1; c < bed.mesh.cells - 1; c++) /* on its way it neither dries nor cools */
        assert_near(bed.transport.water_kg_per_s[c], 0, 1e-15);
    bed_free(&bed);
}

/* [memory] Penman (1948), 0.26 (1 + 0.54 u) mm a day and hPa: 1.8, 8.5, 19.9, 38.6 mm from water
 * at 10, 20, 30, 40 C under a wind of 2.4 m/s, whose film is 10 W/(m2 K) [derived]; within 8 %.
 * The film alone resists here, since the material lets vapour through with ease. */
static void wet_surface_evaporates_as_penman_says(void **state)
{
    (void)state;
    static const double over_K[4] = {10, 20, 30, 40}, want_mm[4] = {1.8, 8.5, 19.9, 38.6};
    for (int i = 0; i < 4; i++) {
        struct bed bed;
        saturated(&bed, over_K[i]);
        bed.outside.film_W_per_m2K = 10;
        bed.outside.skin[MESH_TOP].open_share = 1;
        for (int c = 0; c < bed.mesh.cells; c++)
            bed.medium.diffusive[c] = 1e6;
        bed_fill(&bed);
        double mm = -bed.transport.flux[FLUX_vapour_water] * 86400 / bed.mesh.col_area_m2[0];
        assert_near(mm / want_mm[i], 1, 0.08);
        assert_near(bed.transport.flux[FLUX_vapour_heat] / bed.transport.flux[FLUX_vapour_water],
                    2.501e6 + 1860 * 0.5 * (10 + over_K[i]), 1e-3);
        bed_free(&bed);
    }
}

/* ---- books ---------------------------------------------------------------------------------- */

/* Numbers between 0 and 1, always the same (Lehmer's generator). */
static double chance(uint64_t *seed)
{
    *seed = *seed * 48271 % 2147483647;
    return (double)*seed / 2147483647.0;
}

static void surroundings(struct bed *bed, double over_K)
{
    struct outside *out = &bed->outside;
    *out = (struct outside){.over_K = over_K, .air_Pa = 101325, .film_W_per_m2K = 6,
                            .radiant_W_per_m2K = 5, .wind_Pa_per_m = 2, .soil_W_per_mK = 1.4,
                            .soil_J_per_m3K = 2e6, .capillary_m2_per_s = 3e-9};
    for (int side = 0; side < 3; side++)
        out->skin[side] = (struct outside_skin){0.7, 0.1, 0.8, 0.9, 0};
    for (int i = 0; i <= MESH_SOIL_LAYERS; i++)
        out->ground_over_K[i] = over_K;
    for (int i = 0; i < MESH_SOILS; i++)
        bed->soil_over_K[i] = over_K;
}

/* Wetted material at these temperatures, and all that flow/ makes of it. */
static void wet(struct bed *bed, double low_K, double high_K, double least_u, double most_u)
{
    const struct medium_law law = {0.1, 0.05, 1e-10, 3e-7, 1, 101325};
    const struct mesh *mesh = &bed->mesh;
    uint64_t seed = 7;
    lane heat[400], oxygen[400];
    assert_true(mesh->cells <= 400);
    for (int c = 0; c < mesh->cells; c++) {
        double volume = mesh->volume_m3[c], dry = bed->dry_kg[c] = 120 * volume;
        double over_K = low_K + (high_K - low_K) * chance(&seed);
        bed->water_kg[c] = dry * (least_u + (most_u - least_u) * chance(&seed));
        bed->frame.ash_kg[c] = 0.2 * dry;
        bed->frame.solid_m3[c] = 0.8 * dry / 1550 + 0.2 * dry / 2650;
        bed->frame.hold_kg[c] = 1.5 * dry;
        bed->frame.grain_m2[c] = 1e-4 / 180;
        bed->frame.wet_slope[c] = 0.5e-3 / volume;
        bed->frame.ice_slope[c] = 2e-3 / volume;
        heat[c] = read_enthalpy(over_K, 0.8 * dry, 0.2 * dry, bed->water_kg[c]);
        oxygen[c] = GAS_OXYGEN_OUTSIDE * (high_K > low_K ? chance(&seed) : 1);
    }
    medium_fill(&bed->medium, &bed->frame, &law, mesh, heat, bed->water_kg, bed->dry_kg, oxygen);
}

static const struct mesh_design HEAP = {MESH_ROUND, 1.0, 1, 1.2, true, 0.05, 1.28, 0, 0};

/* Soil, pile and air at one temperature and one humidity. */
static void alike(struct bed *bed)
{
    bed_make(bed, &HEAP, 0.4);
    surroundings(bed, 20);
    wet(bed, 20, 20, 1.2, 1.2);
    bed->outside.vapour_Pa = bed->medium.vapour_Pa[0];
    bed->outside.humid = bed->medium.humid[0];
    bed->outside.rho = bed->medium.rho[0];
}

/* There is nothing to move. */
static void nothing_moves_where_all_is_alike(void **state)
{
    (void)state;
    struct bed bed;
    alike(&bed);
    air_solve(&bed.air, &bed.mesh, &bed.medium, &bed.outside);
    bed_fill(&bed);
    for (int i = 0; i < bed.mesh.nodes; i++)
        assert_near(bed.transport.heat_W[i], 0, 1e-9); /* 1 K would make tens of watts */
    for (int c = 0; c < bed.mesh.cells; c++)
        assert_near(bed.transport.water_kg_per_s[c], 0, 1e-15);
    bed_free(&bed);
}

/* Undisturbed ground beside each layer of soil, and the floor two metres down, each at a temperature of its
 * own: a node is warmed by that of its own depth. */
static void soil_meets_the_ground_of_its_own_depth(void **state)
{
    (void)state;
    struct bed bed;
    alike(&bed);
    for (int i = 0; i <= MESH_SOIL_LAYERS; i++)
        bed.outside.ground_over_K[i] = 20 + pow(2, i);
    air_solve(&bed.air, &bed.mesh, &bed.medium, &bed.outside);
    bed_fill(&bed);
    /* [derived] middles of layers of 5, 12, 25, 50 and 108 cm; the floor */
    static const double depth_m[MESH_SOIL_LAYERS + 1] = {0.025, 0.11, 0.295, 0.67, 1.46, 2.0};
    double heat_W[MESH_SOILS] = {0};
    int met[MESH_SOIL_LAYERS + 1] = {0};
    for (int l = 0; l < bed.mesh.links; l++) {
        const struct mesh_link *link = &bed.mesh.link[l];
        for (int i = 0; i <= MESH_SOIL_LAYERS && link->b == -1; i++)
            if (fabs(link->depth_m - depth_m[i]) < 1e-9) {
                heat_W[link->a] += bed.transport.link_W_per_K[l] * pow(2, i);
                met[i]++;
            }
    }
    for (int i = 0; i < MESH_SOIL_LAYERS; i++)
        assert_int_equal(met[i], 1); /* the outermost ring alone has ground beside it */
    assert_int_equal(met[MESH_SOIL_LAYERS], MESH_RINGS);
    for (int i = 0; i < MESH_SOILS; i++)
        assert_near(bed.transport.heat_W[i], heat_W[i], 1e-9);
    bed_free(&bed);
}

/* What the soil takes from or gives to the ground around it, by its links. */
static double from_far_ground(const struct bed *bed)
{
    double sum = 0;
    for (int l = 0; l < bed->mesh.links; l++) {
        const struct mesh_link *link = &bed->mesh.link[l];
        if (link->b < 0) /* all far ground and the air are at one temperature here */
            sum += bed->transport.link_W_per_K[l] *
                   (bed->outside.over_K - bed->soil_over_K[link->a]);
    }
    return sum;
}

/* Hot, frozen, wet, draughty, in sun and rain: the sum over cells is the sum over names. */
static void heat_and_water_of_all_cells_are_the_named_fluxes(void **state)
{
    (void)state;
    struct bed bed;
    bed_make(&bed, &HEAP, 0.4);
    surroundings(&bed, 4);
    bed.outside.humid = 0.004;
    bed.outside.dry_rho = 1.26;
    bed.outside.rho = 1.27;
    bed.outside.sun_W_per_m2 = 300;
    bed.outside.sky_W_per_m2 = -60;
    bed.outside.rain_kg_per_m2s = 1e-4;
    bed.outside.drain_kg_per_m2s = 1e-5;
    wet(&bed, -8, 70, 0.3, 2.5);
    for (int i = 0; i < MESH_SOILS; i++)
        bed.soil_over_K[i] = 5 + i;
    air_solve(&bed.air, &bed.mesh, &bed.medium, &bed.outside);
    bed_fill(&bed);
    const struct transport *t = &bed.transport;
    double heat = 0, water = 0, through_J = 0, through_kg = 0, soil = 0;
    for (int c = 0; c < bed.mesh.cells; c++) {
        heat += t->heat_W[MESH_SOILS + c];
        water += t->water_kg_per_s[c];
    }
    for (int i = 0; i < MESH_SOILS; i++)
        soil += t->heat_W[i];
    for (int k = 0; k < FLUXES; k++)
        if (flux_rows[k].of == FLUX_OF_ENERGY) {
            heat -= t->flux[k];
            through_J += fabs(t->flux[k]);
        } else {
            water -= t->flux[k];
            through_kg += fabs(t->flux[k]);
        }
    assert_near(heat / through_J, 0, 1e-12);
    assert_near(water / through_kg, 0, 1e-12);
    assert_near((soil + t->flux[FLUX_ground_heat] - from_far_ground(&bed)) / through_J, 0, 1e-12);
    static const enum flux moved[] = {FLUX_air_heat, FLUX_vapour_heat, FLUX_top_heat, FLUX_sun_heat,
                                      FLUX_sky_heat, FLUX_wall_heat, FLUX_ground_heat,
                                      FLUX_rain_heat, FLUX_leachate_heat, FLUX_air_water,
                                      FLUX_vapour_water, FLUX_rain_water, FLUX_leachate_water};
    for (size_t i = 0; i < sizeof moved / sizeof *moved; i++)
        assert_true(t->flux[moved[i]] != 0); /* each of them took part */
    bed_free(&bed);
}

/* Rain on a heap is what falls on its shadow, whatever its slope: 1 mm/h, 0.9 of it taken in. */
static void rain_is_what_falls_on_the_ground_the_heap_covers(void **state)
{
    (void)state;
    struct bed bed;
    bed_make(&bed, &HEAP, 0.4);
    surroundings(&bed, 10);
    bed.outside.rain_kg_per_m2s = 1.0 / 3600;
    bed_fill(&bed);
    double want = 0.9 * mesh_row_area(&bed.mesh, 0) / 3600;
    assert_near(bed.transport.flux[FLUX_rain_water], want, 1e-12);
    assert_near(bed.transport.flux[FLUX_rain_heat], want * 4186 * 10, 1e-8);
    bed_free(&bed);
}

/* [memory] sol-air temperature, as engineers define it: with sun a q on it and less sky, a
 * surface that can lose heat only through its film comes to T_air + (a q + sky)/film; 300 W,
 * 0.8, -60 W, 11 W/(m2 K) [derived]: 16.36 K over the air. Snow turns its share back. */
static void top_in_the_sun_comes_to_the_sol_air_temperature(void **state)
{
    (void)state;
    for (double snow = 0; snow < 1; snow += 0.4) {
        struct mesh_design design = bed_slab(0.5, 10);
        struct bed bed;
        bed_make(&bed, &design, 0.4);
        surroundings(&bed, 4);
        bed.outside.sun_W_per_m2 = 300;
        bed.outside.sky_W_per_m2 = -60;
        bed.outside.snow_share = snow;
        bed_side(&bed, MESH_WALL, BED_INSULATED);
        bed_side(&bed, MESH_BASE, BED_INSULATED);
        for (int side = 0; side < 3; side++)
            bed.outside.skin[side].open_share = 0;
        bed_steady(&bed);
        double want = 4 + (300 * 0.8 * (1 - snow) - 60) / 11;
        for (int c = 0; c < bed.mesh.cells; c++)
            assert_near(bed.medium.over_K[c], want, 1e-9);
        bed_free(&bed);
    }
}

/* [trade] the power of Clapp and Hornberger (1978): at what the material holds the stated rate
 * leaves the base, at 9/10 of it 0.9^12, frozen none; between cells as much enters as leaves */
static void water_drains_by_its_power_law(void **state)
{
    (void)state;
    static const double held[3] = {1, 0.9, 1.2};
    for (int i = 0; i < 3; i++) {
        struct mesh_design design = bed_slab(0.5, 5);
        struct bed bed;
        bed_make(&bed, &design, 0.4);
        bed.outside.drain_kg_per_m2s = 1e-5;
        for (int c = 0; c < bed.mesh.cells; c++)
            bed.water_kg[c] = held[i] * bed.frame.hold_kg[c];
        bed_fill(&bed);
        double per_m2 = -bed.transport.flux[FLUX_leachate_water] / bed.mesh.col_area_m2[0];
        double free = pow(held[i], 12); /* no more than 0.01 kg/m2s runs through sodden material */
        assert_near(per_m2 / 1e-5, free / (1 + free * 1e-5 / 0.01), 1e-9);
        assert_near(bed.transport.water_kg_per_s[2], 0, 1e-20);
        bed.medium.liquid[0] = 0;
        bed_fill(&bed);
        assert_near(bed.transport.flux[FLUX_leachate_water], 0, 0);
        bed_free(&bed);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(half_space_takes_a_step_as_the_error_function_says),
        cmocka_unit_test(slab_cylinder_and_drum_cool_as_their_series_say),
        cmocka_unit_test(slab_and_cylinder_cool_through_a_film_as_their_series_say),
        cmocka_unit_test(draught_against_conduction_is_the_exponential),
        cmocka_unit_test(heat_made_on_the_way_is_carried_out),
        cmocka_unit_test(draught_dries_and_cools_as_in_the_worked_example),
        cmocka_unit_test(wet_surface_evaporates_as_penman_says),
        cmocka_unit_test(nothing_moves_where_all_is_alike),
        cmocka_unit_test(soil_meets_the_ground_of_its_own_depth),
        cmocka_unit_test(heat_and_water_of_all_cells_are_the_named_fluxes),
        cmocka_unit_test(rain_is_what_falls_on_the_ground_the_heap_covers),
        cmocka_unit_test(top_in_the_sun_comes_to_the_sol_air_temperature),
        cmocka_unit_test(water_drains_by_its_power_law),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
