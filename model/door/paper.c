/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/paper.c - see door/paper.h. */
#include "door/paper.h"
#include "door/answer.h"
#include "door/glance.h"
#include "tell/logpage.h"
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum form { FORM_TEXT, FORM_HTML, FORM_CSV };
enum { WEEK = 7 };

static enum form form_of(const char *output)
{
    const char *dot = output ? strrchr(output, '.') : NULL;
    if (!dot)
        return FORM_TEXT;
    return strcasecmp(dot, ".html") == 0 || strcasecmp(dot, ".htm") == 0 ? FORM_HTML
           : strcasecmp(dot, ".csv") == 0                                ? FORM_CSV
                                                                         : FORM_TEXT;
}

static bool tell(const struct ask *ask, const struct logsheet *sheet, enum form form,
                 struct trouble *why)
{
    struct answer answer;
    char said[80];
    if (!answer_begin(&answer, why))
        return false;
    if (form == FORM_HTML)
        logpage_write(answer.out, sheet);
    else if (form == FORM_CSV)
        logsheet_csv(answer.out, sheet->pile.scenario);
    else
        logsheet_text(answer.out, sheet);
    bool told = answer_end(&answer, ask, true, why);
    int pages = logpage_pages(sheet);
    snprintf(said, sizeof said, "%d rows on %s%d page%s, the forecast on the next: ", sheet->rows,
             pages == 1 ? "" : "about ", pages, pages == 1 ? "" : "s");
    if (told && form == FORM_HTML)
        answer_note(ask, said, ask->output);
    return told;
}

/* The days of so many weeks, as far as the season goes. */
static bool fill(struct logsheet *sheet, struct glance *glance, const struct ask *ask,
                 const volatile sig_atomic_t *stop, struct trouble *why)
{
    int first = ask->given[HELP_DAY] ? glance_now(glance, ask, why) : 0;
    int last = first + ask->weeks * WEEK - 1;
    if (first < 0)
        return false;
    *sheet = (struct logsheet){.first = first,
                               .last = last < glance->last_day ? last : glance->last_day};
    return glance_run(glance, ask, sheet->last, 0, 1, stop, why);
}

static bool make(struct glance *glance, const struct ask *ask, enum form form,
                 const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct logsheet sheet;
    if (!fill(&sheet, glance, ask, stop, why))
        return false;
    struct log_row *row = calloc((size_t)log_most(sheet.last - sheet.first + 1), sizeof *row);
    if (!row)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a sheet");
    sheet.pile = glance_pile(glance, ask);
    sheet.row = row;
    sheet.rows = log_rows(row, &sheet.pile, sheet.first, sheet.last);
    bool told = tell(ask, &sheet, form, why);
    free(row);
    return told;
}

bool paper_answer(const struct ask *ask, const volatile sig_atomic_t *stop, struct trouble *why)
{
    struct glance glance = {0};
    enum form form = form_of(ask->output);
    struct logsheet empty = {0};
    bool done = glance_read(&glance, ask, 0, why);
    if (done && form == FORM_CSV) {
        empty.pile.scenario = glance.scenario;
        done = tell(ask, &empty, form, why);
    } else if (done) {
        done = make(&glance, ask, form, stop, why);
    }
    glance_free(&glance);
    return done;
}
