/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ask/log.c - see ask/log.h. */
#include "ask/log.h"
#include "ask/agenda.h"
#include <stddef.h>

enum { WEEK = 7 };

/* The days since a pile was built or turned for certain; -1 = it never was. */
static int since_moved(const struct due_pile *pile, int day)
{
    for (int d = day; d >= 0; d--)
        if (agenda_turns_on(pile->scenario, pile->plan, d, false)
            || (d == 0 && !pile->scenario->found.is))
            return day - d;
    return -1;
}

int log_most(int days)
{
    return days > 0 ? days : 1;
}

int log_rows(struct log_row *row, const struct due_pile *pile, int first, int last)
{
    int count = 0, weekly = agenda_visit(pile->scenario, first, last + 1);
    for (int day = first; day <= last; day++) {
        int since = since_moved(pile, day);
        bool build = day == 0 && !pile->scenario->found.is;
        bool work = agenda_works_on(pile->scenario, pile->plan, day),
             look = agenda_looks_on(pile->scenario, pile->plan, day);
        bool read = since == AGENDA_FIRST_READ || since == AGENDA_SECOND_READ;
        if (day == weekly)
            weekly = agenda_visit(pile->scenario, day + WEEK, last + 1);
        else if (!build && !work && !look && !read)
            continue;
        int of = day - (work && day > 0); /* work begins with a reading */
        row[count++] = (struct log_row){day,
                                        build,
                                        work,
                                        look,
                                        due_temp_K(pile, of, offsetof(struct record_day, middle_K)),
                                        due_temp_K(pile, of, offsetof(struct record_day, deep_30cm_K)),
                                        due_temp_K(pile, of, offsetof(struct record_day, hand_deep_K))};
    }
    return count;
}
