/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/finding.c - what each picture of a season shows, as one sentence. */
#include "tell/finding.h"
#include "base/unit.h"
#include "tell/paint.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const double ICE_POINT_K = 273.15;
/* 55 C for some days is the heat most rules on compost ask for [trade]; 5 % oxygen in the pores is
 * the least most handbooks want [trade]. */
static const double HOT_K = 328.15;
static const double OXYGEN_LITTLE_SHARE = 0.05;

static double celsius(double temp_K)
{
    return temp_K - ICE_POINT_K;
}

static double fahrenheit(double temp_K)
{
    return 1.8 * celsius(temp_K) + 32.0;
}

/* rounded without a minus before nought */
static double whole(double value)
{
    return floor(value + 0.5) + 0.0;
}

const char *finding_number(char text[FINDING_NUMBER], double value)
{
    double step = fabs(value) >= 1000.0 ? pow(10.0, floor(log10(fabs(value))) - 2.0) : 1.0;
    if (fabs(value) < 999.5 || !isfinite(value))
        snprintf(text, FINDING_NUMBER, "%.3g", value);
    else
        snprintf(text, FINDING_NUMBER, "%.0f", step * whole(value / step));
    return text;
}

/* "65 °C (149 °F)", the other way round for who thinks in °F; for who asked for metric "65 °C" */
static const char *degrees(char text[32], double temp_K, const struct scenario *scenario)
{
    double temp_C = whole(celsius(temp_K)), temp_F = whole(fahrenheit(temp_K));
    if (scenario->show == PLAN_SHOW_US)
        snprintf(text, 32, "%.0f °F (%.0f °C)", temp_F, temp_C);
    else if (scenario->show == PLAN_SHOW_METRIC)
        snprintf(text, 32, "%.0f °C", temp_C);
    else
        snprintf(text, 32, "%.0f °C (%.0f °F)", temp_C, temp_F);
    return text;
}

void finding_temperature(char text[FINDING_TEXT], const struct record *record,
                         const struct scenario *scenario)
{
    int hot = 0, spells = 0, warmest = -1;
    for (int i = 0; i < record->days; i++) {
        double now_K = record->day[i].middle_K;
        bool before = i > 0 && record->day[i - 1].middle_K > HOT_K;
        hot += now_K > HOT_K;
        spells += now_K > HOT_K && !before;
        if (isfinite(now_K) && (warmest < 0 || now_K > record->day[warmest].middle_K))
            warmest = i;
    }
    if (warmest < 0) {
        snprintf(text, FINDING_TEXT, "Temperatures in the pile");
        return;
    }
    char head[96], most[32], limit[32];
    degrees(limit, HOT_K, scenario);
    if (scenario->show >= PLAN_SHOW_BOTH)
        limit[strcspn(limit, "(") - 1] = '\0';
    if (hot)
        snprintf(head, sizeof head, "Middle above %s %s %d %s", limit, spells > 1 ? "on" : "for",
                 hot, hot > 1 ? "days" : "day");
    else
        snprintf(head, sizeof head, "Middle never above %s", limit);
    snprintf(text, FINDING_TEXT, "%s; warmest on day %d, %s", head, warmest + 1,
             degrees(most, record->day[warmest].middle_K, scenario));
}

void finding_sections(char text[FINDING_TEXT], const struct record *record,
                      const struct scenario *scenario)
{
    double most_K = -INFINITY, least_K = 0.0;
    int day = 0;
    char least[32], most[32];
    for (int i = 0; i < record->pictures; i++) {
        const struct record_picture *picture = &record->picture[i];
        double here_most = -INFINITY, here_least = INFINITY;
        for (int j = 0; j < picture->cells; j++)
            if (isfinite(picture->cell[j].temp_K)) {
                here_most = fmax(here_most, (double)picture->cell[j].temp_K);
                here_least = fmin(here_least, (double)picture->cell[j].temp_K);
            }
        if (here_most > most_K) {
            most_K = here_most;
            least_K = here_least;
            day = picture->day;
        }
    }
    if (isfinite(most_K))
        snprintf(text, FINDING_TEXT,
                 "On day %d the pile is %s at its coolest, %s at its hottest", day,
                 degrees(least, least_K, scenario), degrees(most, most_K, scenario));
    else
        snprintf(text, FINDING_TEXT, "Cross-sections of the pile");
}

/* The paint of a row of the heat budget, -1 for rows of other amounts. */
static int heat_paint(int flux)
{
    return flux_rows[flux].of == FLUX_OF_ENERGY ? paint_find(flux_rows[flux].group) : -1;
}

void finding_heat(char text[FINDING_TEXT], const struct record *record,
                  const struct scenario *scenario)
{
    (void)scenario;
    double sum_J[PAINTS] = {0.0}, lost_J = 0.0;
    char made[FINDING_NUMBER];
    int largest = -1;
    for (int i = 0; i < record->days; i++)
        for (int f = 0; f < FLUXES; f++)
            if (heat_paint(f) >= 0)
                sum_J[heat_paint(f)] += record->day[i].flux[f];
    for (int p = 0; p < PAINTS; p++)
        if (p != PAINT_added && sum_J[p] < 0.0) {
            lost_J -= sum_J[p];
            if (largest < 0 || sum_J[p] < sum_J[largest])
                largest = p;
        }
    if (isfinite(lost_J) && largest >= 0 && sum_J[PAINT_decay] > 0.0)
        snprintf(text, FINDING_TEXT,
                 "Decay sets %s MJ free; the largest loss is %s, %.0f %% of all",
                 finding_number(made, sum_J[PAINT_decay] / 1e6), paint_rows[largest].label,
                 whole(-100.0 * sum_J[largest] / lost_J));
    else
        snprintf(text, FINDING_TEXT, "Heat gained and lost by the pile");
}

void finding_mass(char text[FINDING_TEXT], const struct record *record,
                  const struct scenario *scenario)
{
    const char *unit = scenario->show == PLAN_SHOW_US ? "lb" : "kg";
    double size = scenario->show == PLAN_SHOW_US ? UNIT_POUND_KG : 1.0, added_kg = 0.0;
    double first_kg = record->day[0].dry_kg, last_kg = record->day[record->days - 1].dry_kg;
    char first[FINDING_NUMBER], last[FINDING_NUMBER];
    finding_number(first, first_kg / size);
    finding_number(last, last_kg / size);
    for (int i = 0; i < record->events; i++)
        added_kg += record->event[i].added_kg;
    if (!isfinite(first_kg) || !isfinite(last_kg) || first_kg <= 0.0)
        snprintf(text, FINDING_TEXT, "Dry mass of the pile");
    else if (added_kg > 0.0 || last_kg > first_kg)
        snprintf(text, FINDING_TEXT,
                 "%s %s of dry mass on day 1; with what was added since, %s %s on day %d", first,
                 unit, last, unit, record->days);
    else
        snprintf(text, FINDING_TEXT,
                 "%.0f %% of the dry mass is gone by day %d: %s %s becomes %s %s",
                 whole(100.0 * (1.0 - last_kg / first_kg)), record->days, first, unit, last, unit);
}

void finding_water(char text[FINDING_TEXT], const struct record *record,
                   const struct scenario *scenario)
{
    (void)scenario;
    double least = INFINITY, most = -INFINITY;
    int short_days = 0, known = 0;
    for (int i = 0; i < record->days; i++) {
        const struct record_day *day = &record->day[i];
        if (isfinite(day->water_share)) {
            least = fmin(least, day->water_share);
            most = fmax(most, day->water_share);
        }
        known += isfinite(day->oxygen_lowest_share);
        short_days += day->oxygen_lowest_share < OXYGEN_LITTLE_SHARE;
    }
    char water[32];
    least = whole(100.0 * least);
    most = whole(100.0 * most);
    if (most > least)
        snprintf(water, sizeof water, "Water from %.0f to %.0f %%", least, most);
    else
        snprintf(water, sizeof water, "Water %.0f %%", most);
    if (!known || !(most >= least))
        snprintf(text, FINDING_TEXT, "Water and air in the pile");
    else if (short_days)
        snprintf(text, FINDING_TEXT, "%s; oxygen below 5 %% somewhere on %d %s", water, short_days,
                 short_days > 1 ? "days" : "day");
    else
        snprintf(text, FINDING_TEXT, "%s; oxygen 5 %% or more at each day's end", water);
}
