/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/flow/test_gas.c - moist air against steam tables, psychrometric tables and worked examples.
 *
 * flow/gas.h holds polynomials and short forms; the formulas they stand for are written out here
 * from their own publications, and values printed elsewhere are checked besides.
 */
#include "flow/gas.h"
#include "lib/near.h"

static double pressure(double over_K)
{
    lane slope;
    return gas_pressure_Pa(over_K, &slope);
}

/* [seen] Hyland and Wexler (1983), liquid water, as in ASHRAE Fundamentals 2017 ch. 1 eq. 6 */
static double hyland_wexler(double over_K)
{
    double T = over_K + 273.15;
    return exp(-5.8002206e3 / T + 1.3914993 - 4.8640239e-2 * T + 4.1764768e-5 * T * T -
               1.4452093e-8 * T * T * T + 6.5459673 * log(T));
}

/* [seen] IAPWS SR1-86(1992), Wagner and Pruss (1993): ln(p/pc) from th = 1 - T/Tc */
static double iapws(double over_K)
{
    static const double a[6] = {-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719,
                                1.80122502};
    static const double n[6] = {1, 1.5, 3, 3.5, 4, 7.5};
    double T = over_K + 273.15, sum = 0;
    for (int i = 0; i < 6; i++)
        sum += a[i] * pow(1 - T / 647.096, n[i]);
    return 22.064e6 * exp(647.096 / T * sum);
}

static void vapour_pressure_is_hyland_and_wexlers_from_minus_50_to_95_degrees(void **state)
{
    (void)state;
    for (double T = -50; T <= 95; T += 0.05)
        assert_near(pressure(T) / hyland_wexler(T), 1, 4e-7);
}

/* [memory] the release's own check point: 101325 Pa at 373.1243 K; without it the next test would
 * only compare two formulas written by one hand */
static void steam_formula_gives_its_own_check_point(void **state)
{
    (void)state;
    assert_near(iapws(373.1243 - 273.15), 101325, 1);
}

static void vapour_pressure_is_within_a_twentieth_percent_of_the_steam_formula(void **state)
{
    (void)state;
    for (double T = 0.01; T <= 90; T += 0.1)
        assert_near(pressure(T) / iapws(T), 1, 5e-4);
}

/* [seen] ASHRAE Fundamentals 2017 ch. 1 table 3, through the test data of an open library of
 * psychrometrics, which allows 0.03 % */
static void vapour_pressure_is_that_of_the_printed_table(void **state)
{
    (void)state;
    assert_near(pressure(5), 872.6, 3e-4 * 872.6);
    assert_near(pressure(25), 3169.7, 3e-4 * 3169.7);
    assert_near(pressure(50), 12351.3, 3e-4 * 12351.3);
}

/* [seen] Allen et al. (1998), FAO-56 example 17: slope 0.246 kPa/K at 30.2 C */
static void slope_is_that_of_a_worked_example_and_of_differences(void **state)
{
    (void)state;
    lane slope;
    gas_pressure_Pa(30.2, &slope);
    assert_near(slope, 246, 0.5);
    for (double T = -40; T <= 90; T += 5) {
        gas_pressure_Pa(T, &slope);
        assert_near((pressure(T + 1e-3) - pressure(T - 1e-3)) / 2e-3 / slope, 1, 1e-7);
    }
}

/* [seen] equations test of an open library of psychrometrics after ASHRAE 2017: saturated at 25 C
 * and 95461 Pa */
static void humidity_is_that_of_the_equations_test(void **state)
{
    (void)state;
    assert_near(gas_humidity(3169.7, 95461), 0.02136040, 1e-8);
}

/* [seen] the same: 30 C, 0.02 kg/kg, 95461 Pa gives 0.940855 m3/kg, 1.084120 kg/m3, 81.316 kJ/kg */
static void volume_density_and_enthalpy_are_those_of_the_equations_test(void **state)
{
    (void)state;
    double x = 0.02, p = 95461 * x / (GAS_HUMIDITY + x);
    double dry = gas_dry_density(30, p, 95461);
    assert_near(1 / dry, 0.940855, 3e-4 * 0.940855);
    assert_near(gas_density(dry, x, GAS_OXYGEN_OUTSIDE), 1.084120, 3e-4 * 1.084120);
    assert_near(gas_enthalpy(30, x), 81316, 3e-4 * 81316);
}

/* [seen] ASHRAE 2017 ch. 1 example 1: 40 C, wet bulb 20 C, 101325 Pa, read from the chart as
 * 0.0065 kg/kg, 56.7 kJ/kg, 0.896 m3/kg, 14 %. Wet bulb by its eq. 33. */
static void dry_and_wet_bulb_give_the_chart_readings(void **state)
{
    (void)state;
    double wet = gas_humidity(pressure(20), 101325);
    double x = ((2501 - 2.326 * 20) * wet - 1.006 * 20) / (2501 + 1.86 * 40 - 4.186 * 20);
    double p = 101325 * x / (GAS_HUMIDITY + x);
    assert_near(x, 0.0065, 1e-4);
    assert_near(gas_enthalpy(40, x), 56.7e3, 100);
    assert_near(1 / gas_dry_density(40, p, 101325), 0.896, 0.009);
    assert_near(p / pressure(40), 0.14, 0.01);
}

/* [seen] ASHRAE 2017 ch. 1 table 2, real gas: 5, 25, 50 and 85 C. An ideal gas lies up to 1.2 %
 * under it (the enhancement factor is left out on purpose), and never over. */
static void saturated_air_is_little_under_the_real_gas_of_the_table(void **state)
{
    (void)state;
    static const double T[4] = {5, 25, 50, 85}, x[4] = {0.005425, 0.020173, 0.086863, 0.838105};
    static const double h[4] = {0, 76504, 275353, 2307539};
    for (int i = 0; i < 4; i++) {
        double humid = gas_humidity(pressure(T[i]), 101325);
        assert_near(humid / x[i], 1 - 0.0065, 0.0065);
        if (i > 0)
            assert_near(gas_enthalpy(T[i], humid) / h[i], 1 - 0.0065, 0.0065);
    }
}

/* [derived] air of 10 C and 75 % leaves saturated at 60 C, water taken from liquid at 60 C:
 * 397.3 kJ per kg of dry air, 0.872 of it latent, 0.369 kg of water a megajoule */
static void vented_air_carries_its_heat_as_in_the_worked_example(void **state)
{
    (void)state;
    double x_in = gas_humidity(0.75 * pressure(10), 101325);
    double x_out = gas_humidity(pressure(60), 101325);
    double rise = gas_enthalpy(60, x_out) - gas_enthalpy(10, x_in);
    double water = x_out - x_in, from_liquid = rise - water * 4186 * 60;
    double latent = water * (gas_vapour_enthalpy(60) - 4186 * 60);
    assert_near(from_liquid, 397.3e3, 100);
    assert_near(latent / from_liquid, 0.872, 0.001);
    assert_near(water / from_liquid * 1e6, 0.369, 0.001);
}

/* [derived] saturated against the outside air of 10 C and 75 %: the buoyancy of a stack */
static void moist_warm_air_is_lighter_and_carbon_dioxide_makes_it_heavier(void **state)
{
    (void)state;
    double x = gas_humidity(pressure(60), 101325), dry = gas_dry_density(60, pressure(60), 101325);
    assert_near(gas_density(dry, x, GAS_OXYGEN_OUTSIDE), 0.98073, 1e-5);
    /* half the oxygen turned into carbon dioxide: 12.011 g more a mol; 28.96 g a mol of air is
     * short of the gas constant's 28.966 by 2e-4 */
    double heavier = gas_density(dry, x, 0.5 * GAS_OXYGEN_OUTSIDE) -
                     gas_density(dry, x, GAS_OXYGEN_OUTSIDE);
    double mol = (101325 - pressure(60)) / (8.314462618 * 333.15);
    assert_near(heavier, 0.5 * GAS_OXYGEN_OUTSIDE * mol * 0.012011, 3e-4 * heavier);
}

/* [seen] Massman (1998): 1.820e-5 and 2.178e-5 m2/s times (T/273.15)^1.81; its own oxygen at 20,
 * 60 C */
static void gases_diffuse_as_massman_says(void **state)
{
    (void)state;
    for (double T = -30; T <= 85; T += 0.5)
        assert_near(gas_diffusion(T) / pow((T + 273.15) / 273.15, 1.81), 1, 2e-4);
    assert_near(1.820e-5 * gas_diffusion(20), 2.068e-5, 5e-9);
    assert_near(2.178e-5 * gas_diffusion(60), 3.120e-5, 7e-9);
}

/* [seen] oxygen in saturated air from a table of a university's pages on composting (Wilke-Chang
 * for the water it compares with): 2.13e-5 and 2.75e-5 m2/s at 20 and 60 C, 3 to 6 % over
 * Massman */
static void oxygen_diffuses_about_as_another_table_says(void **state)
{
    (void)state;
    assert_near(1.820e-5 * gas_diffusion(20) / 2.13e-5, 0.97, 0.03);
    assert_near(1.820e-5 * gas_diffusion(60) / 2.75e-5, 0.95, 0.03);
}

/* Dry air by the US Standard Atmosphere 1976 [seen], vapour (8.02 + 0.04 T)e-6 and the mixture rule
 * of Wilke (1950) [memory] */
static double wilke(double over_K)
{
    double T = over_K + 273.15, share = pressure(over_K) / 101325;
    double air = 1.458e-6 * pow(T, 1.5) / (T + 110.4), vapour = (8.02 + 0.04 * over_K) * 1e-6;
    double M = 28.96, m = 18.015;
    double av = pow(1 + sqrt(air / vapour) * pow(m / M, 0.25), 2) / sqrt(8 * (1 + M / m));
    double va = pow(1 + sqrt(vapour / air) * pow(M / m, 0.25), 2) / sqrt(8 * (1 + m / M));
    return (1 - share) * air / (1 - share + share * av) +
           share * vapour / (share + (1 - share) * va);
}

static void viscosity_is_wilkes_within_a_thousandth_up_to_70_degrees(void **state)
{
    (void)state;
    for (double T = 0; T <= 70; T += 0.5)
        assert_near(gas_viscosity_Pa_s(T) / wilke(T), 1, 1e-3);
    /* [derived] a table of the same, rounded to 1e-8: 0, 40, 60, 70 C */
    assert_near(gas_viscosity_Pa_s(0), 1.710e-5, 1.5e-8);
    assert_near(gas_viscosity_Pa_s(40), 1.832e-5, 1.5e-8);
    assert_near(gas_viscosity_Pa_s(60), 1.798e-5, 1.5e-8);
    assert_near(gas_viscosity_Pa_s(70), 1.734e-5, 1.5e-8);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(vapour_pressure_is_hyland_and_wexlers_from_minus_50_to_95_degrees),
        cmocka_unit_test(steam_formula_gives_its_own_check_point),
        cmocka_unit_test(vapour_pressure_is_within_a_twentieth_percent_of_the_steam_formula),
        cmocka_unit_test(vapour_pressure_is_that_of_the_printed_table),
        cmocka_unit_test(slope_is_that_of_a_worked_example_and_of_differences),
        cmocka_unit_test(humidity_is_that_of_the_equations_test),
        cmocka_unit_test(volume_density_and_enthalpy_are_those_of_the_equations_test),
        cmocka_unit_test(dry_and_wet_bulb_give_the_chart_readings),
        cmocka_unit_test(saturated_air_is_little_under_the_real_gas_of_the_table),
        cmocka_unit_test(vented_air_carries_its_heat_as_in_the_worked_example),
        cmocka_unit_test(moist_warm_air_is_lighter_and_carbon_dioxide_makes_it_heavier),
        cmocka_unit_test(gases_diffuse_as_massman_says),
        cmocka_unit_test(oxygen_diffuses_about_as_another_table_says),
        cmocka_unit_test(viscosity_is_wilkes_within_a_thousandth_up_to_70_degrees),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
