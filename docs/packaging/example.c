/* SPDX-License-Identifier: GPL-3.0-or-later */
/* example.c - a program that asks the midden library: which day is warmest, when is it ready?
 *
 *     cc example.c $(pkg-config --cflags --libs midden) -o example
 *     ./example pile.yaml [PILES [PLAN]]
 */
#include <math.h>
#include <midden.h>
#include <stdio.h>
#include <stdlib.h>

static void tell_days(const struct midden_forecast *forecast)
{
    puts("day,date,middle_c_low,middle_c,middle_c_high");
    for (int day = 1; day <= midden_days(forecast); day++) {
        struct midden_range middle = midden_day(forecast, MIDDEN_MIDDLE_C, day);
        printf("%d,%s,%.6g,%.6g,%.6g\n", day, midden_date(forecast, day).text, middle.low,
               middle.median, middle.high);
    }
}

static void tell_ready(const struct midden_forecast *forecast)
{
    struct midden_ready beds = midden_ready(forecast, MIDDEN_BEDS);
    if (isnan(beds.day.median))
        printf("most likely not ready for beds: %s\n", beds.why_not ? beds.why_not : "unknown");
    else
        printf("most likely ready for beds about %s\n", midden_date(forecast, beds.day.median).text);
    if (!isnan(beds.chance_by_need.median))
        printf("chance by the day of need: %.6g\n", beds.chance_by_need.median);
}

static void tell_seeds(const struct midden_forecast *forecast)
{
    struct midden_range hard = midden_alive(forecast, MIDDEN_SEEDS_HARD);
    if (!isnan(hard.median))
        printf("hardy seeds alive: %.6g\n", hard.median);
    for (int i = 0; midden_caution(forecast, i); i++)
        printf("care: %s\n", midden_caution(forecast, i));
}

int main(int argc, char **argv)
{
    struct midden_error error;
    struct midden_request request = {.members = argc > 2 ? atoi(argv[2]) : 0,
                                     .plan = argc > 3 ? argv[3] : NULL};
    struct midden_scenario *pile = argc > 1 ? midden_open(argv[1], &error) : NULL;
    if (argc < 2) {
        fprintf(stderr, "usage: %s SCENARIO.yaml [PILES [PLAN]]\n", argv[0]);
        return 64;
    }
    struct midden_forecast *forecast = pile ? midden_run(pile, &request, &error) : NULL;
    if (forecast) {
        tell_days(forecast);
        tell_ready(forecast);
        tell_seeds(forecast);
    } else {
        fprintf(stderr, "%s\n", error.text);
    }
    midden_forget(forecast);
    midden_close(pile);
    return forecast ? 0 : 1;
}
