/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/covers.c - what is laid on a pile: a cover of the table, or an ingredient as a sheet. */
#include "door/covers.h"
#include "base/near.h"
#include "door/bay.h"
#include "door/layers.h"
#include <stdio.h>
#include <string.h>

/* covers that come in one thickness [trade] */
static const struct {
    const char *name;
    double thick_m;
} sheets[] = {{"tarp", 0.0005}, {"fleece", 0.004}, {"cardboard", 0.004}, {"carpet", 0.01}};

/* a cover the table has no row for: an ingredient laid on top, or a mistake */
static void cover_with(struct reader *reader, struct words *words, const char *name, double thick_m,
                       struct plan_event *event, struct plan_layer *sheet)
{
    const struct scenario *scenario = reader->scenario;
    const char *names[40];
    char quote[FAULT_QUOTE];
    double area_m2 = scenario->bays ? bay_footprint_m2(&scenario->bay[scenario->home]) : 1.0;
    event->cover = -1;
    if (thick_m > 0.0 && layers_make_sheet(reader, name, thick_m * area_m2, sheet))
        return;
    const char *near = near_name(name, names, bay_names(BOUND_COVER, names, KEYS_COUNT(names)));
    near = near ? near : stuff_nearest(name);
    words->at = words->node->text;
    words_fault(words, "`%s` covers nothing%s%s%s", fault_quote(name, quote),
                near ? "; did you mean `" : "", near ? near : "", near ? "`?" : "");
}

static bool usual_thickness(struct reader *reader, const char *name, double *thick_m)
{
    for (size_t i = 0; i < sizeof sheets / sizeof sheets[0]; i++)
        if (!strcmp(sheets[i].name, name)) {
            *thick_m = sheets[i].thick_m;
            keys_assume(reader, "%s: %g mm thick", name, 1000.0 * *thick_m);
            return true;
        }
    return false;
}

void covers_read(struct reader *reader, const struct tree_node *node, struct plan_event *event,
                 struct plan_layer *sheet)
{
    struct words words;
    char name[PLAN_NAME];
    if (!keys_open(reader, &words, node, "a cover and its thickness, such as `straw 10 cm`"))
        return;
    size_t length = strcspn(node->text, "0123456789"), used = length;
    while (used > 0 && node->text[used - 1] == ' ')
        used--;
    snprintf(name, sizeof name, "%.*s", (int)used, node->text);
    words.at = node->text + length;
    int row = bound_find(name, BOUND_COVER);
    double *thick_m = &event->cover_m;
    bool said = *words.at != '\0';
    if (said
        && (!words_quantity(&words, UNIT_LENGTH, thick_m) || !words_done(&words)
            || !words_within(&words, *thick_m, 2e-4, 1.0, "a thickness of 0.2 mm to 1 m")))
        return;
    event->cover = row;
    if (row < 0)
        cover_with(reader, &words, name, *thick_m, event, sheet);
    else if (!said && !usual_thickness(reader, bound_rows[row].name, thick_m))
        words_fault(&words, "the thickness is missing");
}
