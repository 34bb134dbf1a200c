/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/phrase.h - quantities as a gardener says them, and answers with a margin of 80 columns. */
#ifndef TELL_PHRASE_H
#define TELL_PHRASE_H
#include "run/plan.h"
#include <stdbool.h>
#include <stdio.h>

enum { PHRASE_TEXT = 96, PHRASE_COLUMNS = 80 };

/* a few words, returned by value so that they can stand in an argument list */
struct phrase {
    char text[PHRASE_TEXT];
};

/* how to say it: the terminal's letters and the keeper's measures */
struct phrase_style {
    bool utf8;              /* false: "degC" */
    int show;               /* enum plan_show */
    double bucket_m3;
};

/* What a forecast that doesn't know the readings owes to those who wrote them; "" without readings. */
const char *phrase_unread(const struct scenario *scenario);
/* Temperatures in both units, since a garden thermometer may have either; in Celsius alone for who asks
 * for metric. */
struct phrase phrase_temp(const struct phrase_style *style, double temp_K);
struct phrase phrase_volume(const struct phrase_style *style, double volume_m3);
struct phrase phrase_litres(const struct phrase_style *style, double litres); /* with buckets */
/* "2 3/4 buckets": to so many parts of a vessel, 1, 2 or 4, which can be seen in one without a mark; never
 * nothing. The number alone where `one` is "". */
struct phrase phrase_vessels(double count, int parts, const char *one, const char *many);
/* Water, whose buckets are carried four fifths full, as `next` counts them. */
struct phrase_style phrase_poured(const struct phrase_style *style);
struct phrase phrase_litres_span(const struct phrase_style *style, struct span litres);
struct phrase phrase_mass(const struct phrase_style *style, double mass_kg);
struct phrase phrase_length(const struct phrase_style *style, double length_m);
struct phrase phrase_share(double share);       /* "12 %"; never 0 or 100 unless it is exactly so */
struct phrase phrase_minutes(double time_s);    /* "85 min", "3 h 40 min" */
struct phrase phrase_date(date_count date);     /* "12 January 2026" */
struct phrase phrase_day(date_count date);      /* "12 Jan", where the year is plain */
struct phrase phrase_count(long count, const char *one, const char *many); /* "1 turn", "2 turns" */
/* "67 °C (61-69), 153 °F (142-156)"; like phrase_temp where the ends don't differ. An end that isn't
 * known is left open. */
struct phrase phrase_temp_span(const struct phrase_style *style, struct span temp_K);
/* Three phrases that begin with a number, as "0.64 (0.50-0.81) m3"; `mid` alone where all are alike,
 * "0.12 m3 (95 L-0.13 m3)" where their units differ; who is shown both units has both ranges, "0.64 (0.50-0.81)
 * m3, 23 (18-29) ft3". */
struct phrase phrase_ranged(struct phrase low, struct phrase mid, struct phrase high);
/* "8 (7-9) in 10" with the sampling error, "more than 9 in 10", "fewer than 1 in 10" */
struct phrase phrase_chance(struct span chance);
/* "18 (12-25)" in whole numbers; the middle alone where the ends round to one number. */
struct phrase phrase_whole(struct span span, double factor);
/* "72 kg (50-100)" without unit: the middle and, where they differ, the ends. */
struct phrase phrase_span(struct span span, double factor);

/* A paragraph of at most 80 columns a line: the label stands in a margin of 8 (11 if it is
 * long), or, if it is NULL, the text begins at the left edge. Control characters become '?'. */
void phrase_line(FILE *out, const char *label, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* The same for a list of two columns: the lead is shorter than the margin the text keeps to. */
void phrase_hang(FILE *out, const char *lead, int margin, const char *text);
#endif
