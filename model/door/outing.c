/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/outing.c - see door/outing.h.
 *
 * Each pile's possible seasons are run up to the last reading asked of, or to their end where a
 * calendar is wanted.
 */
#include "door/outing.h"
#include "ask/outing.h"
#include "base/save.h"
#include "door/answer.h"
#include "door/glance.h"
#include "many/band.h"
#include "tell/ics.h"
#include "tell/outing.h"
#include "tell/outing_json.h"
#include <stdlib.h>
#include <string.h>

static const double WORTH_PROBING_K = 303.15; /* below 30 C a thermometer tells little of a pile */

struct work {
    const struct ask *ask;
    const volatile sig_atomic_t *stop;
    struct glance *glance; /* [files] */
    struct outing_stop *stops;
    int files, read; /* files read so far */
    struct outing visit;
    enum outing_day how;
};

/* Files are read first, so that a mistake in the last is found before the first is run. */
static bool read_files(struct work *work, struct trouble *why)
{
    for (; work->read < work->files; work->read++)
        if (!glance_read(&work->glance[work->read], work->ask, work->read, why)) {
            work->read++;
            return false;
        }
    return true;
}

/* The latest reading of all, or the first start where there is none. */
static void latest(struct work *work)
{
    for (int i = 0; i < work->files; i++) {
        const struct scenario *scenario = work->glance[i].scenario;
        enum outing_day how = scenario->last_reading ? OUTING_LAST_READING : OUTING_START;
        date_count date = scenario->last_reading ? scenario->last_reading : scenario->start;
        bool better = how != work->how     ? how == OUTING_LAST_READING
                      : how == OUTING_START ? date < work->visit.date
                                           : date > work->visit.date;
        if (i == 0 || better) {
            work->visit.date = date;
            work->how = how;
        }
    }
}

/* A date may lie outside the season of one scenario of several; a number counts in the first. */
static bool choose_date(struct work *work, struct trouble *why)
{
    const struct ask *ask = work->ask;
    work->how = OUTING_NAMED;
    if (ask->given[HELP_DAY] && ask->dated && work->files > 1) {
        work->visit.date = ask->date;
        return true;
    }
    if (!ask->given[HELP_DAY] && work->files > 1) {
        latest(work);
        return true;
    }
    int day = glance_now(&work->glance[0], ask, why);
    work->visit.date = work->glance[0].scenario->start + day;
    if (!ask->given[HELP_DAY])
        work->how = work->glance[0].scenario->last_reading ? OUTING_LAST_READING : OUTING_START;
    return day >= 0;
}

/* The day on which the middle is likely hottest, -1 where it hardly gets warm. Not the usual one of
 * the hottest days: between an early and a late peak that may fall on a cold day. */
static int peak_day(const struct due_pile *pile)
{
    double most_K = WORTH_PROBING_K;
    int peak = -1;
    for (int day = 0; day <= pile->last_day && day < pile->record[0].days; day++) {
        for (int m = 0; m < pile->members; m++)
            pile->room[m] = pile->record[m].day[day].middle_K;
        double middle_K = band_of(pile->room, pile->members).mid;
        if (middle_K >= most_K) {
            most_K = middle_K;
            peak = day;
        }
    }
    return peak;
}

static bool same_names(const struct due_pile *a, const struct due_pile *b)
{
    return !strcmp(a->scenario->name, b->scenario->name)
           && !strcmp(a->scenario->plan[a->plan].name, b->scenario->plan[b->plan].name);
}

/* The days of every pile; their rows are the caller's to free. Returns how many days there are. */
static int list_days(struct work *work, struct ics_pile *piles)
{
    int days = 0;
    for (int i = 0; i < work->visit.stops; i++) {
        const struct due_pile *pile = &work->stops[i].pile;
        struct agenda_row *row = calloc((size_t)agenda_most(pile->scenario), sizeof *row);
        piles[i] = (struct ics_pile){.pile = *pile, .row = row};
        if (!row)
            return -1;
        piles[i].rows = agenda_make(row, pile->scenario, pile->plan, peak_day(pile));
        for (int k = 0; k < i; k++)
            piles[i].alike += same_names(&piles[k].pile, pile);
        days += piles[i].rows;
    }
    return days;
}

static bool save_days(struct work *work, const struct ics_pile *piles, int days,
                      struct trouble *why)
{
    struct save save;
    if (days < 0)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a calendar");
    if (days == 0)
        return trouble_set(why, TROUBLE_NO,
                           "%s has no day of work or of reading, so there is no "
                           "calendar",
                           work->visit.stops > 1 ? "no plan" : "the plan");
    if (!save_begin(&save, work->ask->calendar, work->ask->given[HELP_FORCE], why))
        return false;
    ics_write(save.file, piles, work->visit.stops, help_version);
    return save_commit(&save, why);
}

static bool write_calendar(struct work *work, struct trouble *why)
{
    struct ics_pile *piles = calloc((size_t)work->visit.stops, sizeof *piles);
    char count[64];
    int days = piles ? list_days(work, piles) : -1;
    bool saved = save_days(work, piles, days, why);
    snprintf(count, sizeof count, "%d days of work and reading are in ", days);
    if (saved)
        answer_note(work->ask, count, work->ask->calendar);
    for (int i = 0; piles && i < work->visit.stops; i++)
        free(piles[i].row);
    free(piles);
    return saved;
}

/* Runs the piles whose season holds the date; the others are named and left out. */
static bool run_files(struct work *work, struct trouble *why)
{
    for (int i = 0; i < work->files; i++) {
        struct glance *glance = &work->glance[i];
        long day = work->visit.date - glance->scenario->start;
        if (day < 0 || day > glance->last_day) {
            answer_note(work->ask, "its season doesn't hold that day, so it is left out: ",
                        work->ask->operands[i]);
            continue;
        }
        int until = work->ask->calendar ? glance->last_day
                                        : due_horizon(glance->scenario, glance->plan, (int)day);
        if (!glance_run(glance, work->ask, until, i, work->files, work->stop, why))
            return false;
        struct outing_stop *stop = &work->stops[work->visit.stops++];
        *stop = (struct outing_stop){.pile = glance_pile(glance, work->ask),
                                    .file = work->ask->operands[i],
                                    .plan_named = work->ask->plan != NULL,
                                    .failures = glance->done.failures};
        due_on(&stop->due, &stop->pile, (int)day);
    }
    return work->visit.stops > 0
           || trouble_set(why, TROUBLE_USAGE, "that day is outside the season of every scenario");
}

static bool tell(struct work *work, struct trouble *why)
{
    struct answer answer;
    const struct ask *ask = work->ask;
    struct phrase_style style = answer_style(work->visit.stop[0].pile.scenario);
    if (!answer_begin(&answer, why))
        return false;
    bool told = ask->given[HELP_JSON]
                    ? outing_json(answer.out, &work->visit, why)
                    : outing_text(answer.out, &work->visit, work->how, &style, why);
    return answer_end(&answer, ask, told, why);
}

static bool answer(struct work *work, struct trouble *why)
{
    if (!read_files(work, why) || !choose_date(work, why) || !run_files(work, why))
        return false;
    if (work->ask->calendar && !write_calendar(work, why))
        return false;
    outing_join(&work->visit);
    return tell(work, why);
}

bool outing_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    size_t files = (size_t)ask->operand_count;
    struct work work = {.ask = ask,
                        .stop = stop,
                        .files = ask->operand_count,
                        .glance = calloc(files, sizeof *work.glance),
                        .stops = calloc(files, sizeof *work.stops)};
    work.visit = (struct outing){.stop = work.stops, .draw = ask->draw, .version = help_version};
    bool good = (work.glance && work.stops)
                || trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    good = good && answer(&work, why);
    for (int i = 0; i < work.read; i++)
        glance_free(&work.glance[i]);
    free(work.glance);
    free(work.stops);
    return good;
}
