/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/twins/later.c - do early readings of a published course improve the forecast of its later ones?
 *
 *     later SCENARIO.yaml COURSE.csv RUN DAYS [PLAN]
 *
 * learns from what was read in the middle in the first so many days (day 1 is the first) and tells how
 * far the median lies from each later reading, as drawn and as learnt, and how many lie within the 80 %
 * band, for three draws. RUN is a word of the first column, "-" where there is none; PLAN the keeper's, the first where none
 * is named. The courses stand under tests/field and here, each with its source.
 */
#include "door/climate.h"
#include "door/scenario.h"
#include "many/able.h"
#include "many/band.h"
#include "many/posterior.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MEMBERS = 64, DRAWS = 3 };
static const double ICE_POINT_K = 273.15;

static void take_course(struct scenario *scenario, const char *path, const char *run)
{
    char line[256], word[32], measure[32];
    double day, value;
    FILE *file = fopen(path, "r");
    scenario->readings = 0;
    while (file && fgets(line, sizeof line, file)) {
        bool plain = strcmp(run, "-") == 0;
        if (plain ? sscanf(line, "%lf,%lf", &day, &value) != 2
                  : sscanf(line, "%31[^,],%lf,%31[^,],%lf", word, &day, measure, &value) != 4 ||
                        strcmp(word, run) != 0 || strcmp(measure, "middle_c") != 0)
            continue;
        scenario->reading[scenario->readings++] = (struct plan_reading){
            .day = day - 1 + 0.5, .what = PLAN_READ_MIDDLE, .value = value + ICE_POINT_K};
    }
    if (file)
        fclose(file);
}

/* What the thermometer would show at reading r in every pile that could be run, sorted out as a band. */
static struct span shown(const struct able *able, int r)
{
    for (int i = 0; i < able->members; i++)
        able->room[i] = able->record[i].seen[r];
    return band_of(able->room, able->members);
}

static int plan_named(const struct scenario *scenario, const char *name)
{
    for (int i = 0; i < scenario->plans; i++)
        if (strcmp(scenario->plan[i].name, name) == 0)
            return i;
    fprintf(stderr, "later: no plan %s\n", name);
    exit(1);
}

static bool run(const struct crew *crew, struct crew_done *done, struct able *able, struct trouble *why)
{
    return crew_run(done, crew, why) && able_of(able, done, why);
}

/* Learns with one draw, runs the whole course as drawn and as learnt; false when it can't be. */
static bool run_both(struct scenario *scenario, int learnt_days, struct crew *crew, struct crew_done done[2],
                     struct able able[2], struct trouble *why)
{
    struct posterior p;
    struct curve sky;
    int end = scenario->last_day;
    if (!climate_curve(&sky, scenario, (long long)crew->draw, why))
        return false;
    crew->sky = scenario->sky == PLAN_SKY_FILE ? &sky : NULL;
    scenario->last_day = learnt_days - 1;
    bool good = posterior_learn(&p, crew, why);
    scenario->last_day = end;
    good = good && run(crew, &done[0], &able[0], why);
    crew->chance = p.chance;
    crew->chance_of = &p.unknowns;
    good = good && run(crew, &done[1], &able[1], why);
    posterior_free(&p);
    curve_free(&sky);
    return good;
}

static void tell(const struct scenario *scenario, int learnt_days, const struct able able[2])
{
    double off[2] = {0, 0}, width[2] = {0, 0};
    int within[2] = {0, 0}, later = 0;
    for (int r = 0; r < scenario->readings; r++) {
        struct span band[2] = {shown(&able[0], r), shown(&able[1], r)};
        double value = scenario->reading[r].value;
        bool left_out = scenario->reading[r].day >= learnt_days;
        printf("  day %5.1f %5.1f C  as drawn %5.1f (%.1f to %.1f)  learnt %5.1f (%.1f to %.1f)%s\n",
               scenario->reading[r].day + 0.5, value - ICE_POINT_K, band[0].mid - ICE_POINT_K,
               band[0].low - ICE_POINT_K, band[0].high - ICE_POINT_K, band[1].mid - ICE_POINT_K,
               band[1].low - ICE_POINT_K, band[1].high - ICE_POINT_K, left_out ? "  left out" : "");
        for (int k = 0; k < 2 && left_out; k++) {
            off[k] += fabs(band[k].mid - value);
            width[k] += band[k].high - band[k].low;
            within[k] += value >= band[k].low && value <= band[k].high;
        }
        later += left_out;
    }
    for (int k = 0; k < 2 && later; k++)
        printf("  %s: off by %.1f K on average, %d of %d within the band, which is %.1f K wide\n",
               k ? "learnt" : "as drawn", off[k] / later, within[k], later, width[k] / later);
}

int main(int argc, char **argv)
{
    static struct scenario scenario;
    static struct trouble why;
    static bool fixed[PARAM_ROWS];
    struct param param = param_usual();
    if (argc < 5 || !scenario_read(&scenario, argv[1], &why)) {
        fprintf(stderr, "%s\n", argc < 5 ? "later SCENARIO.yaml COURSE.csv RUN DAYS [PLAN]" : why.text);
        return 1;
    }
    take_course(&scenario, argv[2], argv[3]);
    for (int i = 0; i < scenario.readings; i++)
        if (scenario.reading[i].day >= scenario.last_day + 1)
            scenario.readings = i;
    for (uint32_t draw = 1; draw <= DRAWS; draw++) {
        struct crew crew = {.scenario = &scenario, .param = &param, .fixed = fixed, .draw = draw, .first = 1,
                            .last = MEMBERS, .threads = crew_threads(),
                            .plan = argc > 5 ? plan_named(&scenario, argv[5]) : 0};
        struct crew_done done[2] = {0};
        struct able able[2] = {0};
        printf("%s %s, draw %u: learnt from the first %s days\n", scenario.name, argv[3], draw, argv[4]);
        if (!run_both(&scenario, atoi(argv[4]), &crew, done, able, &why)) {
            fprintf(stderr, "%s\n", why.text);
            return 1;
        }
        tell(&scenario, atoi(argv[4]), able);
        for (int k = 0; k < 2; k++) {
            able_free(&able[k]);
            crew_free(&done[k]);
        }
    }
    return 0;
}
