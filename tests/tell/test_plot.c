/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/tell/test_plot.c - tell/plot and what it stands on: finding, paint, place, gnuplot.
 *
 * The season drawn here is made up from smooth curves, to have every kind of mark in it; nothing
 * about compost is tested with it.
 */
#include "tell/plot.h"
#include "lib/scratch.h"
#include "tell/chart.h"
#include "tell/finding.h"
#include "tell/gnuplot.h"
#include "tell/paint.h"
#include "tell/place.h"
#include "tell/section.h"
#include "tell/stack.h"

enum { DAYS = 120, EVENTS = 12, PICTURES = 5, COLUMNS = 8, ROWS = 12, CELLS = COLUMNS * ROWS };

struct made {
    struct record record;
    struct scenario scenario;
    struct record_day day[DAYS];
    struct record_event event[EVENTS];
    struct record_picture picture[PICTURES];
    struct record_cell cell[PICTURES][CELLS];
};

static const int turn_day[3] = {21, 42, 70};

/* a wave of heat on day `since`, and after it */
static double wave(double since, double peak_K, double rise_days, double fall_days)
{
    return since < 0.0 ? 0.0 : peak_K * (1.0 - exp(-since / rise_days)) * exp(-since / fall_days);
}

static double made_warmth(int day)
{
    double sum = wave(day, 74.0, 1.2, 16.0);
    for (int t = 0; t < 3; t++)
        sum += wave(day - turn_day[t], 40.0 - 9.0 * t, 1.5, 13.0);
    return sum;
}

static void make_day(struct record_day *day, int number)
{
    double air_K = 282.0 - 9.0 * sin(0.022 * number) + 2.5 * sin(1.3 * number) * cos(0.31 * number);
    double warm_K = made_warmth(number), fresh = exp(-number / 45.0);
    *day = (struct record_day){.air_K = air_K, .middle_K = air_K + warm_K,
                               .deep_30cm_K = air_K + 0.8 * warm_K,
                               .hand_deep_K = air_K + 0.42 * warm_K,
                               .water_share = 0.61 - 0.0012 * number + 0.02 * sin(0.2 * number),
                               .free_air_share = 0.36 - 0.0006 * number,
                               .oxygen_lowest_share = 0.205 - 0.0026 * warm_K, .dry_kg = 0.0};
    const double pool_kg[6] = {22.0 * fresh * fresh, 11.0 * fresh, 21.0 + 39.0 * fresh,
                               31.0,                 5.0 * fresh,  24.0 - 6.0 * fresh};
    for (int i = 0; i < 6; i++)
        day->dry_kg += day->pool_kg[i] = pool_kg[i];
    double loss_J = 5.5 * warm_K * 86400.0;
    day->flux[FLUX_decay_heat] = 1.02 * loss_J;
    day->flux[FLUX_air_heat] = -0.55 * loss_J;
    day->flux[FLUX_vapour_heat] = -0.08 * loss_J;
    day->flux[FLUX_wall_heat] = -0.2 * loss_J;
    day->flux[FLUX_top_heat] = -0.1 * loss_J;
    day->flux[FLUX_ground_heat] = -0.05 * loss_J + 4.0 * 86400.0;
    day->flux[FLUX_sun_heat] = 86400.0 * (14.0 + 10.0 * cos(0.04 * number));
    day->flux[FLUX_sky_heat] = -86400.0 * 17.0;
    day->flux[FLUX_rain_heat] = number % 9 == 0 ? 86400.0 * 5.0 : 0.0;
    day->flux[FLUX_added_heat] = number == 1 ? 21e6 : 0.0;
}

static void make_event(struct made *made, int number, int day, struct record_event event)
{
    made->event[number] = event;
    made->event[number].day = day;
    if (!made->day[day - 1].events++)
        made->day[day - 1].first_event = number;
}

static void make_picture(struct made *made, int number, int day)
{
    struct record_picture *picture = &made->picture[number];
    double height_m = 1.0 - 0.35 * day / DAYS, warm_K = made_warmth(day);
    *picture = (struct record_picture){.day = day, .cells = CELLS, .cell = made->cell[number],
                                       .mirror = true};
    for (int i = 0; i < CELLS; i++) {
        int r = i % COLUMNS, z = i / COLUMNS;
        double x = (r + 0.5) / COLUMNS, y = (z + 0.5) / ROWS;
        double shape = (1.0 - 0.7 * x * x) * sin(3.14159 * (0.12 + 0.8 * y));
        picture->cell[i] = (struct record_cell){
            (float)(0.6 * r / COLUMNS), (float)(0.6 * (r + 1) / COLUMNS),
            (float)(height_m * z / ROWS), (float)(height_m * (z + 1) / ROWS),
            (float)(made->day[day - 1].air_K + 1.15 * warm_K * shape),
            (float)(0.6 - 0.0012 * day - 0.1 * shape * (1.0 - y)),
            (float)(0.205 - 0.0028 * warm_K * shape * (0.4 + 0.6 * y)), 0.3F};
    }
}

static struct made *make(void)
{
    static struct made made;
    static const int kept[PICTURES] = {1, 3, 20, 45, 120};
    memset(&made, 0, sizeof made);
    for (int i = 0; i < DAYS; i++)
        make_day(&made.day[i], i + 1);
    int e = 0;
    make_event(&made, e++, 9, (struct record_event){.deed = PLAN_WATER, .water_kg = 40.0});
    make_event(&made, e++, turn_day[0],
               (struct record_event){.deed = PLAN_TURN, .way = PLAN_OUTSIDE_IN, .water_kg = 60.0});
    make_event(&made, e++, 30, (struct record_event){.deed = PLAN_COVER});
    make_event(&made, e++, turn_day[1], (struct record_event){.deed = PLAN_TURN, .way = PLAN_MIXED,
                                                              .water_kg = 36.0});
    make_event(&made, e++, 44, (struct record_event){.deed = PLAN_WATER, .water_kg = 12.0});
    make_event(&made, e++, 52, (struct record_event){.deed = PLAN_ADD, .added_kg = 4.5});
    make_event(&made, e++, 55, (struct record_event){.deed = PLAN_ADD, .added_kg = 4.5});
    make_event(&made, e++, turn_day[2],
               (struct record_event){.deed = PLAN_TURN, .way = PLAN_LAYER_BY_LAYER});
    make_event(&made, e++, 95, (struct record_event){.deed = PLAN_UNCOVER});
    make_event(&made, e++, 110, (struct record_event){.deed = PLAN_PICK, .picked_out_kg = 3.0});
    for (int i = 0; i < PICTURES; i++)
        make_picture(&made, i, kept[i]);
    made.record = (struct record){.days = DAYS, .day = made.day, .events = e, .event = made.event,
                                  .pictures = PICTURES, .picture = made.picture};
    strcpy(made.scenario.name, "Nettle Yard, bay 1");
    made.scenario.start = date_number((struct date){2025, 10, 18});
    made.scenario.last_day = DAYS - 1;
    return &made;
}

#ifndef SHOW
/* ---- what a picture shows ---- */

static void the_title_counts_days_above_55_C_and_names_the_warmest(void **state)
{
    (void)state;
    struct record_day day[5] = {{.middle_K = 300.0}, {.middle_K = 329.0}, {.middle_K = 338.15},
                                {.middle_K = 328.15}, {.middle_K = 290.0}};
    struct record record = {.days = 5, .day = day};
    struct scenario *scenario = &make()->scenario;
    char text[FINDING_TEXT];
    finding_temperature(text, &record, scenario); /* 55 C itself is not above */
    assert_string_equal(text, "Middle above 55 °C for 2 days; warmest on day 3, 65 °C");
    day[4].middle_K = 330.0;
    finding_temperature(text, &record, scenario); /* not in one run: "on" */
    assert_string_equal(text, "Middle above 55 °C on 3 days; warmest on day 3, 65 °C");
    scenario->show = 1;
    finding_temperature(text, &record, scenario);
    assert_string_equal(text,
                        "Middle above 131 °F (55 °C) on 3 days; warmest on day 3, 149 °F (65 °C)");
}

static void a_cold_pile_is_called_one(void **state)
{
    (void)state;
    struct record_day day[2] = {{.middle_K = 280.0}, {.middle_K = NAN}};
    struct record record = {.days = 2, .day = day};
    char text[FINDING_TEXT];
    finding_temperature(text, &record, &make()->scenario);
    assert_string_equal(text, "Middle never above 55 °C; warmest on day 1, 7 °C");
    day[0].middle_K = NAN;
    finding_temperature(text, &record, &make()->scenario);
    assert_string_equal(text, "Temperatures in the pile");
}

static void the_largest_loss_is_summed_over_its_group(void **state)
{
    (void)state;
    struct record_day day[2] = {{.dry_kg = 0.0}, {.dry_kg = 0.0}};
    struct record record = {.days = 2, .day = day};
    char text[FINDING_TEXT];
    day[0].flux[FLUX_decay_heat] = 60e6;
    day[1].flux[FLUX_decay_heat] = 40e6;
    day[0].flux[FLUX_wall_heat] = -40e6;
    day[0].flux[FLUX_air_heat] = -30e6;
    day[1].flux[FLUX_turn_heat] = -30e6; /* goes with the air too */
    day[1].flux[FLUX_removed_heat] = -90e6; /* material taken away is no loss of heat */
    finding_heat(text, &record, &make()->scenario);
    assert_string_equal(text, "Decay sets 100 MJ free; "
                              "the largest loss is air through the pile, 60 % of all");
}

static void a_number_has_three_digits_and_no_exponent(void **state)
{
    (void)state;
    char text[FINDING_NUMBER];
    assert_string_equal(finding_number(text, 79.54), "79.5");
    assert_string_equal(finding_number(text, -0.5), "-0.5");
    assert_string_equal(finding_number(text, 0.0), "0");
    assert_string_equal(finding_number(text, 893.4), "893");
    assert_string_equal(finding_number(text, 999.7), "1000");
    assert_string_equal(finding_number(text, 3814.0), "3810");
    assert_string_equal(finding_number(text, 12360.0), "12400");
}

static void the_mass_gone_is_said_unless_some_was_added(void **state)
{
    (void)state;
    struct record_day day[3] = {{.dry_kg = 140.0}, {.dry_kg = 100.0}, {.dry_kg = 70.0}};
    struct record_event event = {.deed = PLAN_ADD, .added_kg = 5.0};
    struct record record = {.days = 3, .day = day, .event = &event};
    char text[FINDING_TEXT];
    finding_mass(text, &record, &make()->scenario);
    assert_string_equal(text, "50 % of the dry mass is gone by day 3: 140 kg becomes 70 kg");
    record.events = 1;
    finding_mass(text, &record, &make()->scenario);
    assert_string_equal(text,
                        "140 kg of dry mass on day 1; with what was added since, 70 kg on day 3");
}

/* ---- colours ---- */

static void contrast_is_that_of_wcag(void **state)
{
    (void)state;
    assert_near(paint_contrast(0x000000, 0xffffff), 21.0, 1e-12); /* [derived] 1.05/0.05 */
    /* [memory] #767676 is often quoted as the lightest grey legible on white: 4.54:1 */
    assert_near(paint_contrast(0x767676, 0xffffff), 4.54, 0.005);
    assert_near(paint_contrast(0x767676, 0x767676), 1.0, 1e-12);
}

/* [memory] WCAG 2.1: 3:1 for what is drawn (1.4.11), 4.5:1 for text (1.4.3) */
static void lines_show_on_white_and_text_upon_areas(void **state)
{
    (void)state;
    for (int i = 0; i < PAINTS; i++) {
        if (paint_rows[i].marker > 0)
            assert_true(paint_contrast(paint_rows[i].colour, 0xffffff) >= 3.0);
        assert_true(paint_contrast(paint_rows[i].colour, paint_text((enum paint)i)) >= 4.5);
    }
}

static char *script_of(bool (*write)(const struct chart *, struct trouble *), struct made *made)
{
    static char text[1 << 19];
    struct trouble why = {0};
    struct chart chart = {tmpfile(), &made->record, &made->scenario, "leave it", NULL};
    assert_non_null(chart.script);
    assert_true(write(&chart, &why));
    rewind(chart.script);
    text[fread(text, 1, sizeof text - 1, chart.script)] = '\0';
    fclose(chart.script);
    return text;
}

/* What has no band of its own ends in the note about added material, so the note tells. */
static void every_way_of_heat_has_a_band(void **state)
{
    (void)state;
    for (int f = 0; f < FLUXES; f++) {
        struct made *made = make();
        if (flux_rows[f].of != FLUX_OF_ENERGY)
            continue;
        assert_true(paint_find(flux_rows[f].group) >= 0);
        memset(made->day, 0, sizeof made->day);
        made->day[3].flux[f] = -5e6;
        bool noted = !strstr(script_of(stack_heat, made), "note = ''");
        assert_int_equal(noted, !strcmp(flux_rows[f].group, "added"));
    }
}

/* 86400 J a day are 1 W: the band's outer edge, both at the day's beginning and end */
static void a_daily_flux_is_drawn_as_its_mean_in_watts(void **state)
{
    (void)state;
    struct made *made = make();
    made->record.days = 1;
    memset(made->day, 0, sizeof made->day);
    made->day[0].flux[FLUX_decay_heat] = 86400.0 * 7.0;
    made->day[0].flux[FLUX_wall_heat] = -86400.0 * 3.0;
    const char *script = script_of(stack_heat, made);
    assert_non_null(strstr(script, "\n0.5 0 7 0 0 7 7 0 0 7 7 0 0 7 7 0 -3 "));
    assert_non_null(strstr(script, " 4\n1.5 ")); /* the sum */
}

static void a_mirrored_cell_is_drawn_on_both_sides_of_the_axis(void **state)
{
    (void)state;
    struct made *made = make();
    struct record_cell cell = {0.25F, 0.5F, 0.0F, 0.75F, 333.15F, 0.5F, 0.125F, 0.25F};
    made->picture[0] = (struct record_picture){.day = 1, .cells = 1, .cell = &cell, .mirror = true};
    made->record.pictures = 1;
    const char *script = script_of(section_write, made);
    assert_non_null(strstr(script, "\n 0.25 0.5 0 0.75 60 50 12.5\n"
                                   " -0.5 -0.25 0 0.75 60 50 12.5\n"));
}

/* Five days of a pile a metre wide that loses half its height. */
static void piled(struct made *made, struct record_cell cell[5], float high_m)
{
    for (int i = 0; i < 5; i++) {
        cell[i] = (struct record_cell){0.0F, 0.5F, 0.0F, high_m * (1.0F - 0.1F * (float)i), 333.15F, 0.5F, 0.125F,
                                       0.25F};
        made->picture[i] = (struct record_picture){.day = i + 1, .cells = 1, .cell = &cell[i], .mirror = true};
    }
    made->record.pictures = 5;
}

static double number_of(const char *script, const char *name)
{
    char *end;
    const char *at = strstr(script, name);
    assert_non_null(at);
    double value = strtod(at + strlen(name), &end);
    assert_true(end > at + strlen(name));
    return value;
}

/* Beside each other five panels are 196 points wide at most; of a low pile they stand in rows of one day,
 * nearly twice as wide, and its length and height stay on one scale. */
static void a_low_pile_is_drawn_in_rows_of_a_day_and_no_pile_is_distorted(void **state)
{
    (void)state;
    struct record_cell cell[5];
    for (int low = 0; low < 2; low++) {
        struct made *made = make();
        float high_m = low ? 0.25F : 1.25F;
        piled(made, cell, high_m);
        const char *script = script_of(section_write, made);
        double width = CHART_WIDTH * number_of(script, "\nwidth = ");
        double height = number_of(script, "\nheight = ");
        assert_int_equal((int)number_of(script, "lying = "), low);
        assert_near(height / width, (double)high_m, 1e-4);
        assert_true(low ? width > 300 : width < 197);
        int high = section_high(&made->record, false), used = (int)number_of(script, "\nrise = ") * (low ? 5 : 3);
        assert_true(high <= CHART_HEIGHT && high - used < 250); /* title, scales and axes */
        assert_near(number_of(script, "\nset ytics "), low ? 0.1 : 0.5, 1e-9);
    }
}

/* 100 points for a metre: a pile 25 cm high at first needs 25 of 80, one of 1.25 m all of them. */
static void a_picture_of_a_low_pile_needs_less_height(void **state)
{
    (void)state;
    struct record_cell cell[5];
    struct made *made = make();
    piled(made, cell, 0.25F);
    assert_near(section_spare(&made->record, 100, 80), 55, 1e-9);
    piled(made, cell, 1.25F);
    assert_near(section_spare(&made->record, 100, 80), 0, 0);
    made->record.pictures = 0;
    assert_near(section_spare(&made->record, 100, 80), 0, 0);
}

/* ---- places of names ---- */

static void a_name_stands_clear_of_lines_and_nearest_to_its_own(void **state)
{
    (void)state;
    enum { POINTS = 40 };
    double low[POINTS], high[POINTS];
    for (int i = 0; i < POINTS; i++) {
        low[i] = 0.3 + 0.05 * sin(0.5 * i);
        high[i] = i < 20 ? low[i] + 0.02 : 0.8; /* only the right half has room */
    }
    const double *const line[2] = {low, high};
    struct place_panel panel = {POINTS, 2, line, 0, NULL};
    for (int which = 0; which < 2; which++) {
        struct place_label label = {.width = 0.1, .height = 0.04};
        assert_true(place_on_line(&label, which, &panel, NULL, 0));
        double nearest[2] = {1.0, 1.0};
        for (int i = 0; i < POINTS; i++)
            for (int j = 0; j < 2 && fabs((i + 0.5) / POINTS - label.x) <= 0.05; j++)
                nearest[j] = fmin(nearest[j], fabs(line[j][i] - label.y) - 0.02);
        assert_true(nearest[which] > 0.0 && nearest[1 - which] > nearest[which]);
    }
}

static void a_name_stands_clear_of_those_placed_before(void **state)
{
    (void)state;
    enum { POINTS = 40, NAMES = 3 };
    double flat[POINTS];
    for (int i = 0; i < POINTS; i++)
        flat[i] = 0.5;
    const double *const line[1] = {flat};
    struct place_panel panel = {POINTS, 1, line, 0, NULL};
    struct place_label placed[NAMES];
    for (int n = 0; n < NAMES; n++) {
        placed[n] = (struct place_label){.width = 0.4, .height = 0.04};
        assert_true(place_on_line(&placed[n], 0, &panel, placed, n));
        for (int k = 0; k < n; k++)
            assert_true(fabs(placed[n].x - placed[k].x) >= 0.4 || fabs(placed[n].y - placed[k].y) >= 0.04);
    }
}

static void a_crowded_panel_has_no_place(void **state)
{
    (void)state;
    enum { LINES = 30 };
    double value[LINES][10];
    const double *line[LINES];
    for (int j = 0; j < LINES; j++) {
        for (int i = 0; i < 10; i++)
            value[j][i] = (j + 0.5) / LINES;
        line[j] = value[j];
    }
    struct place_panel panel = {10, LINES, line, 0, NULL};
    struct place_label label = {.width = 0.2, .height = 0.05};
    assert_false(place_on_line(&label, 12, &panel, NULL, 0));
    assert_false(place_in_band(&label, value[12], value[13], 10));
    assert_true(place_in_band(&label, value[12], value[15], 10));
    assert_near(label.y, (value[12][0] + value[15][0]) / 2.0, 1e-12);
}

/* There is white paper on both sides, but a name there would be nearer to a neighbour. */
static void a_name_is_not_put_where_it_would_be_read_as_a_neighbours(void **state)
{
    (void)state;
    enum { POINTS = 40 };
    double value[3][POINTS];
    const double *const line[3] = {value[0], value[1], value[2]};
    struct place_panel panel = {POINTS, 3, line, 0, NULL};
    for (int apart = 0; apart < 2; apart++) {
        struct place_label label = {.width = 0.2, .height = 0.04};
        for (int i = 0; i < POINTS; i++)
            for (int j = 0; j < 3; j++)
                value[j][i] = 0.9 - 0.8 * i / POINTS + (apart ? 0.5 : 0.24) * (j - 1);
        assert_int_equal(place_on_line(&label, 1, &panel, NULL, 0), apart);
    }
}

/* ---- names as text ---- */

static bool accepts(const char *text)
{
    struct trouble why = {0};
    bool good = gnuplot_accept(text, "the name", &why);
    assert_int_equal(why.kind, good ? TROUBLE_NONE : TROUBLE_INPUT);
    return good;
}

/* RFC 3629: no overlong forms, no surrogates, nothing past U+10FFFF [memory] */
static void only_printable_utf_8_on_one_line_is_accepted(void **state)
{
    (void)state;
    assert_true(accepts(""));
    assert_true(accepts("Nettle Yard's \"bay\" `1` $(x) \\ @y _z^2 {/Symbol a}"));
    assert_true(accepts("Brennnesselhöfchen, 55 °C, 堆肥, \xf0\x9f\x8c\xb1"));
    assert_false(accepts("two\nlines"));
    assert_false(accepts("tab\there"));
    assert_false(accepts("\x1b[31m"));
    assert_false(accepts("\x7f"));
    assert_false(accepts("\xc2\x85"));         /* next line, a C1 control */
    assert_false(accepts("\xff"));
    assert_false(accepts("\xc0\xaf"));
    assert_false(accepts("\xe0\x80\xaf"));
    assert_false(accepts("\xed\xa0\x80"));
    assert_false(accepts("\xf4\x90\x80\x80"));
    assert_false(accepts("cut \xe5\xa0"));
}

static void a_quote_stands_between_quoted_pieces_and_nothing_else_changes(void **state)
{
    (void)state;
    char text[64];
    FILE *file = tmpfile();
    assert_non_null(file);
    gnuplot_quote(file, "it's `x` \\n $(y)");
    rewind(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    assert_string_equal(text, "'it'.\"\\047\".'s `x` \\n $(y)'");
}

/* ---- pictures ---- */

static const char *const picture_name[] = {"temperature", "sections", "heat", "mass", "water"};

static bool there(const char *folder, const char *name, const char *end)
{
    char path[SCRATCH_PATH];
    snprintf(path, sizeof path, "%s/%s.%s", folder, name, end);
    return access(path, F_OK) == 0;
}

static void take_away(const char *folder)
{
    char path[SCRATCH_PATH];
    for (int i = 0; i < 5; i++)
        for (int k = 0; k < 2; k++) {
            snprintf(path, sizeof path, "%s/%s.%s", folder, picture_name[i], k ? "png" : "svg");
            unlink(path);
        }
    assert_int_equal(rmdir(folder), 0); /* nothing else was left there */
}

static size_t read_whole(const char *folder, const char *name, char *bytes, size_t most)
{
    char path[SCRATCH_PATH];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *in = fopen(path, "rb");
    assert_non_null(in);
    size_t got = fread(bytes, 1, most - 1, in);
    fclose(in);
    bytes[got] = '\0';
    return got;
}

static void look_at(const char *folder, int sections)
{
    /* W3C PNG, 5.2 and 11.2.2: signature, then IHDR with width, height, high byte first [memory] */
    static const unsigned char head[24] = {137, 80,  78,  71,  13, 10, 26, 10,  0, 0, 0, 13,
                                           'I', 'H', 'D', 'R', 0,  0,  5,  120, 0, 0, 3, 132};
    static char bytes[1 << 20];
    for (int i = 0; i < 5; i++) {
        char name[32];
        bool wanted = i != 1 || sections;
        assert_int_equal(there(folder, picture_name[i], "svg"), wanted);
        assert_int_equal(there(folder, picture_name[i], "png"), wanted);
        if (!wanted)
            continue;
        snprintf(name, sizeof name, "%s.png", picture_name[i]);
        assert_true(read_whole(folder, name, bytes, sizeof bytes) > 2000);
        assert_memory_equal(bytes, head, sizeof head - 2);
        int high = 256 * (unsigned char)bytes[22] + (unsigned char)bytes[23];
        assert_true(i == 1 ? high > 200 && high <= CHART_HEIGHT : high == CHART_HEIGHT);
        snprintf(name, sizeof name, "%s.svg", picture_name[i]);
        read_whole(folder, name, bytes, sizeof bytes);
        assert_non_null(strstr(bytes, "<svg role=\"img\""));
        assert_non_null(strstr(bytes, "</svg>"));
    }
}

static bool draw(struct made *made, const char *folder, bool force, struct trouble *why)
{
    memset(why, 0, sizeof *why);
    bool good = plot_season(folder, force, &made->record, &made->scenario, "when it cools", NULL, why);
    assert_int_equal(good, why->kind == TROUBLE_NONE);
    return good;
}

static void a_season_becomes_ten_pictures_that_say_what_they_show(void **state)
{
    struct trouble why;
    static char svg[1 << 20];
    const char *folder = scratch_path(state, "pictures");
    struct made *made = make();
    char finding[FINDING_TEXT];
    assert_true(draw(made, folder, false, &why));
    look_at(folder, 1);
    finding_temperature(finding, &made->record, &made->scenario);
    read_whole(folder, "temperature.svg", svg, sizeof svg);
    const char *title = strstr(svg, "<title>");
    assert_non_null(title);
    assert_memory_equal(title + 7, finding, strlen(finding));
    assert_null(strstr(svg, "GNUPLOT"));
    take_away(folder);
}

static void pictures_already_there_are_kept_unless_forced(void **state)
{
    struct trouble why;
    const char *folder = scratch_path(state, "old");
    char bytes[64], path[SCRATCH_PATH];
    assert_int_equal(mkdir(folder, 0777), 0);
    scratch_write(state, "old/mass.png", "mine");
    assert_false(draw(make(), folder, false, &why));
    assert_int_equal(trouble_status(why.kind), 73);
    assert_non_null(strstr(why.text, "mass.png"));
    read_whole(folder, "mass.png", bytes, sizeof bytes);
    assert_string_equal(bytes, "mine");
    assert_false(there(folder, "temperature", "svg"));
    assert_true(draw(make(), folder, true, &why));
    look_at(folder, 1);
    struct made *made = make();
    made->record.pictures = 0;
    assert_true(draw(made, folder, true, &why)); /* the older section would be another season's */
    look_at(folder, 0);
    snprintf(path, sizeof path, "%s", folder);
    take_away(path);
}

/* Names that would start a program if any of them reached a shell or a double-quoted text. */
static void no_name_can_start_a_program(void **state)
{
    static const char *const form[] = {"`touch %s`", "$(touch %s)", "'; system('touch %s'); #",
                                       "\" . system(\"touch %s\") . \"", "@x; !touch %s",
                                       "\\'.system('touch %s').'",
                                       "\x27\x27.system('touch %s').''"};
    char mark[SCRATCH_PATH];
    snprintf(mark, sizeof mark, "%s", scratch_path(state, "x"));
    for (size_t i = 0; i < sizeof form / sizeof *form; i++) {
        struct trouble why;
        struct made *made = make();
        const char *folder = scratch_path(state, "named");
        made->record.days = 2;
        made->record.pictures = 0;
        snprintf(made->scenario.name, PLAN_NAME, form[i], mark);
        draw(made, folder, false, &why);
        assert_string_equal(why.text, "");
        look_at(folder, 0);
        assert_int_not_equal(access(mark, F_OK), 0);
        take_away(folder);
    }
}

/* A folder's name is never read by gnuplot, which takes "<x" for a program to run. */
static void no_folder_can_start_a_program(void **state)
{
    struct trouble why;
    char before[SCRATCH_PATH];
    struct made *made = make();
    made->record.days = 2;
    made->record.pictures = 0;
    assert_non_null(getcwd(before, sizeof before));
    assert_int_equal(chdir(((struct scratch *)*state)->folder), 0);
    assert_true(draw(made, "< touch x;'`touch x`", false, &why));
    look_at("< touch x;'`touch x`", 0);
    assert_int_not_equal(access("x", F_OK), 0);
    take_away("< touch x;'`touch x`");
    assert_int_equal(chdir(before), 0);
}

static void a_name_of_two_lines_is_refused(void **state)
{
    struct trouble why;
    struct made *made = make();
    strcpy(made->scenario.name, "Nettle\nsystem('x')");
    assert_false(draw(made, scratch_path(state, "none"), false, &why));
    assert_int_equal(trouble_status(why.kind), 65);
    assert_non_null(strstr(why.text, "0x0a"));
    assert_int_equal(scratch_count(state), 0);
}

/* Draws with a PATH of its own. */
static bool draw_along(void **state, const char *search, struct trouble *why)
{
    static char before[8192];
    snprintf(before, sizeof before, "%s", getenv("PATH"));
    setenv("PATH", search, 1);
    bool good = draw(make(), scratch_path(state, "none"), false, why);
    setenv("PATH", before, 1);
    return good;
}

static void without_gnuplot_the_package_is_named(void **state)
{
    struct trouble why;
    assert_false(draw_along(state, "", &why));
    assert_int_equal(trouble_status(why.kind), 69);
    assert_non_null(strstr(why.text, "gnuplot-nox"));
    assert_int_equal(scratch_count(state), 0);
}

static void stand_in(void **state, const char *text)
{
    scratch_write(state, "gnuplot", text);
    assert_int_equal(chmod(scratch_path(state, "gnuplot"), 0755), 0);
}

static void what_gnuplot_complains_of_is_passed_on(void **state)
{
    struct trouble why;
    stand_in(state, "#!/bin/sh\necho 'line 7: undefined variable: moss' >&2\necho >&2\nexit 1\n");
    assert_false(draw_along(state, ((struct scratch *)*state)->folder, &why));
    assert_int_equal(trouble_status(why.kind), 69);
    assert_non_null(strstr(why.text, "undefined variable: moss"));
    assert_int_equal(scratch_count(state), 1);
}

static void a_picture_cut_short_is_not_put_in_place(void **state)
{
    struct trouble why;
    stand_in(state, "#!/bin/sh\necho '<svg >'\n");
    assert_false(draw_along(state, ((struct scratch *)*state)->folder, &why));
    assert_int_equal(trouble_status(why.kind), 74);
    assert_int_equal(scratch_count(state), 1);
}

/* no HOME, no locale of the user's, no shell between */
static void gnuplot_sees_three_variables_and_no_input(void **state)
{
    struct trouble why;
    stand_in(state, "#!/bin/sh\n/usr/bin/env >&2\nread line && echo input >&2\n"
                    "echo \"$# $1 $HOME $LC_ALL ${SECRET-unset}\" >&2\nexit 3\n");
    setenv("SECRET", "here", 1);
    assert_false(draw_along(state, ((struct scratch *)*state)->folder, &why));
    unsetenv("SECRET");
    assert_non_null(strstr(why.text, "status 3, saying: 2 -d /nonexistent C.UTF-8 unset"));
}

static void figures_that_are_no_numbers_or_all_alike_can_be_drawn(void **state)
{
    struct trouble why;
    const char *folder = scratch_path(state, "odd");
    for (int kind = 0; kind < 3; kind++) {
        struct made *made = make();
        for (int i = 0; i < DAYS; i++)
            for (size_t k = 0; k < offsetof(struct record_day, first_event) / sizeof(double); k++)
                ((double *)&made->day[i])[k] = kind == 0 ? NAN : kind == 1 ? 0.0 : INFINITY;
        for (int i = 0; i < CELLS; i++)
            made->cell[0][i].temp_K = made->cell[1][i].oxygen_share = NAN;
        assert_true(draw(made, folder, kind > 0, &why));
        look_at(folder, 1);
    }
    take_away(folder);
}

static void a_season_of_one_day_can_be_drawn_and_one_of_none_cannot(void **state)
{
    struct trouble why;
    const char *folder = scratch_path(state, "short");
    struct made *made = make();
    made->record.days = 1;
    assert_true(draw(made, folder, false, &why));
    look_at(folder, 1);
    take_away(folder);
    made->record.days = 0;
    assert_false(draw(made, folder, false, &why));
    assert_int_equal(why.kind, TROUBLE_NO);
}

static void a_folder_that_cannot_be_made_is_said(void **state)
{
    struct trouble why;
    struct made *made = make();
    made->record.days = 1;
    made->record.pictures = 0;
    assert_false(draw(made, scratch_path(state, "no/such"), false, &why));
    assert_int_equal(trouble_status(why.kind), 73);
}

#define TEST(name) cmocka_unit_test(name)
#define IN_FOLDER(name) cmocka_unit_test_setup_teardown(name, scratch_open, scratch_close)
int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_title_counts_days_above_55_C_and_names_the_warmest),
        TEST(a_cold_pile_is_called_one),
        TEST(the_largest_loss_is_summed_over_its_group),
        TEST(a_number_has_three_digits_and_no_exponent),
        TEST(the_mass_gone_is_said_unless_some_was_added),
        TEST(contrast_is_that_of_wcag),
        TEST(lines_show_on_white_and_text_upon_areas),
        TEST(every_way_of_heat_has_a_band),
        TEST(a_daily_flux_is_drawn_as_its_mean_in_watts),
        TEST(a_mirrored_cell_is_drawn_on_both_sides_of_the_axis),
        TEST(a_low_pile_is_drawn_in_rows_of_a_day_and_no_pile_is_distorted),
        TEST(a_picture_of_a_low_pile_needs_less_height),
        TEST(a_name_stands_clear_of_lines_and_nearest_to_its_own),
        TEST(a_name_stands_clear_of_those_placed_before),
        TEST(a_crowded_panel_has_no_place),
        TEST(a_name_is_not_put_where_it_would_be_read_as_a_neighbours),
        TEST(only_printable_utf_8_on_one_line_is_accepted),
        TEST(a_quote_stands_between_quoted_pieces_and_nothing_else_changes),
        IN_FOLDER(a_season_becomes_ten_pictures_that_say_what_they_show),
        IN_FOLDER(pictures_already_there_are_kept_unless_forced),
        IN_FOLDER(no_name_can_start_a_program),
        IN_FOLDER(no_folder_can_start_a_program),
        IN_FOLDER(a_name_of_two_lines_is_refused),
        IN_FOLDER(without_gnuplot_the_package_is_named),
        IN_FOLDER(what_gnuplot_complains_of_is_passed_on),
        IN_FOLDER(a_picture_cut_short_is_not_put_in_place),
        IN_FOLDER(gnuplot_sees_three_variables_and_no_input),
        IN_FOLDER(figures_that_are_no_numbers_or_all_alike_can_be_drawn),
        IN_FOLDER(a_season_of_one_day_can_be_drawn_and_one_of_none_cannot),
        IN_FOLDER(a_folder_that_cannot_be_made_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
#endif
