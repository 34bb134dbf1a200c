/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/column.c - the numbers of a day, once, for CSV and JSON alike. */
#include "tell/column.h"

static const double ICE_POINT_K = 273.15;

#define AT(member) offsetof(struct record_day, member)
#define POOL(which) (AT(pool_kg) + (which) * sizeof(double))

const struct column column_rows[] = {
    {"air_c", AT(air_K), true, true},
    {"middle_c", AT(middle_K), true, true},
    {"deep30cm_c", AT(deep_30cm_K), true, true},
    {"hand_deep_c", AT(hand_deep_K), true, true},
    {"mean_c", AT(mean_K), true, true},
    {"hottest_c", AT(hottest_K), true, true},
    {"coldest_tenth_c", AT(coldest_tenth_K), true, true},
    {"water_share", AT(water_share), false, true},
    {"free_air_share", AT(free_air_share), false, true},
    {"oxygen_lowest_share", AT(oxygen_lowest_share), false, true},
    {"height_m", AT(height_m), false, true},
    {"volume_m3", AT(volume_m3), false, true},
    {"dry_kg", AT(dry_kg), false, true},
    {"carbon_kg", AT(carbon_kg), false, true},
    {"nitrogen_kg", AT(nitrogen_kg), false, true},
    {"heat_made_w", AT(heat_made_W), false, true},
    {"wet_kg", AT(wet_kg), false, false},
    {"starved_share", AT(starved_share), false, false},
    {"over_45c_share", AT(over_45C_share), false, false},
    {"over_55c_share", AT(over_55C_share), false, false},
    {"flask_rise_k", AT(flask_rise_K), false, false},
    {"sticks_share", AT(sticks_share), false, false},
    {"fast_kg", POOL(0), false, false},
    {"protein_fat_kg", POOL(1), false, false},
    {"slow_kg", POOL(2), false, false},
    {"lignin_kg", POOL(3), false, false},
    {"microbes_kg", POOL(4), false, false},
    {"humus_ash_kg", POOL(5), false, false},
};
const int column_count = sizeof column_rows / sizeof column_rows[0];

double column_value(const struct column *column, const struct record_day *day)
{
    double value = *(const double *)((const char *)day + column->offset);
    return column->kelvin ? value - ICE_POINT_K : value;
}

double column_of_day(const struct record *record, int row, int column)
{
    return column_value(&column_rows[column], &record->day[row]);
}

double column_flux(const double *flux, enum flux which)
{
    return flux[which] * flux_factor(which);
}
