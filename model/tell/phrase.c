/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/phrase.c - quantities as a gardener says them, and answers with a margin of 80 columns.
 *
 * Rounded to what can be read off a garden's own tools: whole degrees, litres, kilograms. Numbers
 * never follow the locale, since the program sets only LC_CTYPE.
 */
#include "tell/phrase.h"
#include "base/unit.h"
#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <string.h>

/* exact by definition of the foot (0.3048 m), pound and US gallon (231 cubic inches) */
static const double ICE_POINT_K = 273.15;
static const double FOOT_M = 0.3048;
static const double GALLON_L = 3.785411784;

enum { MARGIN = 8, WIDE_MARGIN = 11, METRIC = PLAN_SHOW_METRIC, US = PLAN_SHOW_US };

static struct phrase unknown(void)
{
    return (struct phrase){"unknown"};
}

/* Rounding, without a minus before nothing. */
static double whole(double value)
{
    double rounded = round(value);
    return rounded == 0.0 ? 0.0 : rounded;
}

const char *phrase_unread(const struct scenario *scenario)
{
    return scenario->readings ? "; your readings aren't in it: midden learn" : "";
}

struct phrase phrase_temp(const struct phrase_style *style, double temp_K)
{
    if (!isfinite(temp_K))
        return unknown();
    const char *degree = style->utf8 ? "°" : "deg";
    /* both from the rounded one, so that 55 °C is 131 °F wherever it is said */
    double temp_C = whole(temp_K - ICE_POINT_K);
    struct phrase said;
    if (style->show == METRIC)
        snprintf(said.text, sizeof said.text, "%.0f %sC", whole(temp_C), degree);
    else
        snprintf(said.text, sizeof said.text, "%.0f %sC (%.0f %sF)", whole(temp_C), degree,
                 whole(temp_C * 1.8 + 32.0), degree);
    return said;
}

/* Joins a metric and a US form as the scenario's `show` asks. */
static struct phrase both(const struct phrase_style *style, const char *metric, const char *us)
{
    struct phrase said;
    if (style->show != PLAN_SHOW_BOTH)
        snprintf(said.text, sizeof said.text, "%s", style->show == US ? us : metric);
    else
        snprintf(said.text, sizeof said.text, "%s (%s)", metric, us);
    return said;
}

struct phrase phrase_volume(const struct phrase_style *style, double volume_m3)
{
    if (!isfinite(volume_m3))
        return unknown();
    char metric[40], us[40];
    double feet3 = volume_m3 / (FOOT_M * FOOT_M * FOOT_M);
    if (volume_m3 < 0.1)
        snprintf(metric, sizeof metric, "%.0f L", whole(volume_m3 * 1000.0));
    else
        snprintf(metric, sizeof metric, "%.2f m3", volume_m3);
    snprintf(us, sizeof us, feet3 < 10.0 ? "%.1f ft3" : "%.0f ft3", feet3);
    return both(style, metric, us);
}

struct phrase phrase_vessels(double count, int parts, const char *one, const char *many)
{
    static const char *const quarters[] = {"", "1/4", "1/2", "3/4"};
    struct phrase said;
    double least = fmax(round(parts * count), 1.0), full = floor(least / parts);
    const char *broken = quarters[(int)(least - parts * full) * (4 / parts)];
    char number[40] = "";
    if (full > 0.0)
        snprintf(number, sizeof number, "%.0f%s", full, *broken ? " " : "");
    snprintf(said.text, sizeof said.text, "%s%s%s%.40s", number, broken, *one ? " " : "",
             least > parts ? many : one);
    return said;
}

/* "1/2 bucket", "2 3/4 buckets", "12 buckets": the more there are, the less a part of one matters. */
static struct phrase buckets_said(double buckets)
{
    return phrase_vessels(buckets, buckets < 5.0 ? 4 : buckets < 9.75 ? 2 : 1, "bucket", "buckets");
}

struct phrase phrase_litres(const struct phrase_style *style, double litres)
{
    if (!isfinite(litres))
        return unknown();
    struct phrase said;
    double buckets = style->bucket_m3 > 0.0 ? litres / (style->bucket_m3 * 1000.0) : 0.0;
    char metric[24], us[24], carried[40] = "";
    snprintf(metric, sizeof metric, "%.0f L", whole(litres));
    snprintf(us, sizeof us, "%.0f gal", whole(litres / GALLON_L));
    if (buckets >= 0.25)
        snprintf(carried, sizeof carried, "%.39s", buckets_said(buckets).text);
    if (style->show != PLAN_SHOW_BOTH)
        snprintf(said.text, sizeof said.text, *carried ? "%s (%s)" : "%s",
                 style->show == US ? us : metric, carried);
    else
        snprintf(said.text, sizeof said.text, *carried ? "%s (%s, %s)" : "%s (%s)", metric, us,
                 carried);
    return said;
}

struct phrase_style phrase_poured(const struct phrase_style *style)
{
    static const double CARRIED = 0.8; /* a scenario's bucket of water (docs/scenario.md) */
    struct phrase_style poured = *style;
    poured.bucket_m3 *= CARRIED;
    return poured;
}

struct phrase phrase_litres_span(const struct phrase_style *style, struct span litres)
{
    struct phrase said, mid = phrase_litres(style, litres.mid);
    if (litres.low == litres.high || !isfinite(litres.mid))
        return mid;
    double unit_l = style->show == US ? GALLON_L : 1.0;
    snprintf(said.text, sizeof said.text, "%.0f-%.0f, about %.60s", whole(litres.low / unit_l),
             whole(litres.high / unit_l), mid.text);
    return said;
}

struct phrase phrase_mass(const struct phrase_style *style, double mass_kg)
{
    if (!isfinite(mass_kg))
        return unknown();
    char metric[40], us[40];
    snprintf(metric, sizeof metric, fabs(mass_kg) < 9.95 ? "%.1f kg" : "%.0f kg", mass_kg);
    snprintf(us, sizeof us, "%.0f lb", whole(mass_kg / UNIT_POUND_KG));
    return both(style, metric, us);
}

struct phrase phrase_length(const struct phrase_style *style, double length_m)
{
    if (!isfinite(length_m))
        return unknown();
    char metric[40], us[40];
    snprintf(metric, sizeof metric, "%.0f cm", whole(length_m * 100.0));
    snprintf(us, sizeof us, "%.0f in", whole(length_m / FOOT_M * 12.0));
    return both(style, metric, us);
}

struct phrase phrase_share(double share)
{
    struct phrase said;
    double percent = 100.0 * share;
    if (!isfinite(percent))
        return unknown();
    if (percent > 0.0 && percent < 1.0)
        return (struct phrase){"under 1 %"};
    if (percent > 99.0 && percent < 100.0)
        return (struct phrase){"over 99 %"};
    snprintf(said.text, sizeof said.text, "%.0f %%", whole(percent));
    return said;
}

struct phrase phrase_minutes(double time_s)
{
    struct phrase said;
    if (!isfinite(time_s))
        return unknown();
    double minutes = whole(time_s / 60.0);
    if (minutes < 120.0)
        snprintf(said.text, sizeof said.text, "%.0f min", minutes);
    else if (fmod(minutes, 60.0) == 0.0 || minutes >= 600.0) /* nobody plans ten hours to the minute */
        snprintf(said.text, sizeof said.text, "%.0f h", whole(minutes / 60.0));
    else
        snprintf(said.text, sizeof said.text, "%.0f h %.0f min", floor(minutes / 60.0),
                 fmod(minutes, 60.0));
    return said;
}

static const char *month_name(int month)
{
    static const char *const months[] = {"January", "February", "March",     "April",
                                         "May",     "June",     "July",      "August",
                                         "September", "October", "November", "December"};
    return months[month - 1];
}

struct phrase phrase_date(date_count number)
{
    struct date date = date_of(number);
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%d %s %d", date.day, month_name(date.month), date.year);
    return said;
}

struct phrase phrase_day(date_count number)
{
    struct date date = date_of(number);
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%d %.3s", date.day, month_name(date.month));
    return said;
}

struct phrase phrase_count(long count, const char *one, const char *many)
{
    struct phrase said;
    snprintf(said.text, sizeof said.text, "%ld %s", count, count == 1 ? one : many);
    return said;
}

/* "(5-7)", but "(-11 to -7)": a dash and a minus are hard to tell apart. */
static const char *dash(double low, double high)
{
    return low < 0.0 || high < 0.0 ? " to " : "-";
}

struct phrase phrase_temp_span(const struct phrase_style *style, struct span temp_K)
{
    struct phrase low = phrase_temp(style, temp_K.low), mid = phrase_temp(style, temp_K.mid);
    struct phrase high = phrase_temp(style, temp_K.high);
    if (strcmp(low.text, high.text) == 0 || !isfinite(temp_K.mid))
        return mid;
    const char *degree = style->utf8 ? "°" : "deg";
    double C[3] = {whole(temp_K.low - ICE_POINT_K), whole(temp_K.mid - ICE_POINT_K),
                   whole(temp_K.high - ICE_POINT_K)}, F[3];
    for (int i = 0; i < 3; i++)
        F[i] = whole(C[i] * 1.8 + 32.0);
    struct phrase said;
    if (style->show == METRIC)
        snprintf(said.text, sizeof said.text, "%.0f %sC (%.0f%s%.0f)", C[1], degree, C[0], dash(C[0], C[2]), C[2]);
    else
        snprintf(said.text, sizeof said.text, "%.0f %sC (%.0f%s%.0f), %.0f %sF (%.0f%s%.0f)", C[1], degree,
                 C[0], dash(C[0], C[2]), C[2], F[1], degree, F[0], dash(F[0], F[2]), F[2]);
    return said;
}

/* Length of the number at the start, with the word before it in "under 1 %". */
static int number_length(const char *text)
{
    size_t length = strcspn(text, " ");
    if (isalpha((unsigned char)*text) && text[length])
        length += 1 + strcspn(text + length + 1, " ");
    return (int)length;
}

/* Of "0.60 m3 (21 ft3)" what is said before the bracket and what within. */
static bool apart(struct phrase said, struct phrase part[2])
{
    size_t first = strcspn(said.text, "("), length = strlen(said.text);
    if (first == 0 || first == length || said.text[length - 1] != ')')
        return false;
    snprintf(part[0].text, sizeof part[0].text, "%.*s", (int)first - 1, said.text);
    snprintf(part[1].text, sizeof part[1].text, "%.*s", (int)(length - first) - 2, said.text + first + 1);
    return true;
}

struct phrase phrase_ranged(struct phrase low, struct phrase mid, struct phrase high)
{
    struct phrase said, from[2], at[2], to[2];
    if (strcmp(low.text, high.text) == 0)
        return mid;
    if (apart(low, from) && apart(mid, at) && apart(high, to)) {
        snprintf(said.text, sizeof said.text, "%.46s, %.46s", phrase_ranged(from[0], at[0], to[0]).text,
                 phrase_ranged(from[1], at[1], to[1]).text);
        return said;
    }
    int lead = number_length(mid.text);
    const char *low_unit = low.text + number_length(low.text), *high_unit = high.text + number_length(high.text);
    if (strcmp(low_unit, mid.text + lead) != 0 || strcmp(high_unit, mid.text + lead) != 0) {
        snprintf(said.text, sizeof said.text, "%.36s (%.24s-%.24s)", mid.text, low.text, high.text);
        return said;
    }
    snprintf(said.text, sizeof said.text, "%.*s (%.*s-%.*s)%.48s", lead, mid.text,
             number_length(low.text), low.text, number_length(high.text), high.text, mid.text + lead);
    return said;
}

struct phrase phrase_chance(struct span chance)
{
    struct phrase said;
    double low = whole(10.0 * chance.low), tenths = whole(10.0 * chance.mid), high = whole(10.0 * chance.high);
    if (!isfinite(chance.mid))
        return unknown();
    if (tenths < 1.0)
        return (struct phrase){"fewer than 1 in 10"};
    if (tenths > 9.0)
        return (struct phrase){"more than 9 in 10"};
    if (low < high)
        snprintf(said.text, sizeof said.text, "%.0f (%.0f-%.0f) in 10", tenths, low, high);
    else
        snprintf(said.text, sizeof said.text, "%.0f in 10", tenths);
    return said;
}

struct phrase phrase_whole(struct span span, double factor)
{
    struct phrase said;
    double low = whole(span.low * factor), mid = whole(span.mid * factor), high = whole(span.high * factor);
    if (!isfinite(mid))
        return unknown();
    if (low == high)
        snprintf(said.text, sizeof said.text, "%.0f", mid);
    else
        snprintf(said.text, sizeof said.text, "%.0f (%.0f%s%.0f)", mid, low, dash(low, high), high);
    return said;
}

struct phrase phrase_span(struct span span, double factor)
{
    double low = span.low * factor, mid = span.mid * factor, high = span.high * factor;
    if (!isfinite(mid))
        return unknown();
    /* as many decimals as keep two figures of the middle */
    int places = fabs(mid) < 0.995 && mid != 0.0 ? 2 : fabs(mid) < 9.95 ? 1 : 0;
    struct phrase said, end[2];
    snprintf(end[0].text, sizeof end[0].text, "%.*f", places, low);
    snprintf(end[1].text, sizeof end[1].text, "%.*f", places, high);
    if (strcmp(end[0].text, end[1].text) == 0)
        snprintf(said.text, sizeof said.text, "%.*f", places, mid);
    else
        snprintf(said.text, sizeof said.text, "%.*f (%.*f%s%.*f)", places, mid, places, low,
                 dash(low, high), places, high);
    return said;
}

/* Columns a character takes: letters beyond the Latin and Greek ones may be two wide. */
static int columns_of(const unsigned char *at)
{
    if (*at < 0x80)
        return 1;
    if (*at < 0xC0)
        return 0; /* a later byte of a character */
    return *at >= 0xE1 ? 2 : 1;
}

static int columns(const char *text, size_t length)
{
    int sum = 0;
    for (size_t i = 0; i < length; i++)
        sum += columns_of((const unsigned char *)text + i);
    return sum;
}

/* Names come from a file: nothing in them may steer the terminal (C0, DEL, and C1 in UTF-8). */
static void disarm(char *text)
{
    for (unsigned char *at = (unsigned char *)text; *at; at++)
        if (*at < 0x20 || *at == 0x7F)
            *at = '?';
        else if (*at == 0xC2 && at[1] >= 0x80 && at[1] <= 0x9F)
            at[0] = at[1] = '?';
}

/* Length of the first word, cut where it alone would be too wide for a line. A number keeps the
 * short word after it, mostly its unit, on the same line. */
static size_t word_length(const char *text, int room)
{
    size_t length = strcspn(text, " ");
    bool number = isdigit((unsigned char)text[*text == '(']);
    if (number && text[length] == ' ' && text[length - 1] != ',') {
        size_t next = strcspn(text + length + 1, " ");
        if (next <= 5)
            length += next + 1;
    }
    while (columns(text, length) > room)
        do
            length--;
        while (length > 1 && ((unsigned char)text[length] & 0xC0) == 0x80);
    return length;
}

static void wrap(FILE *out, const char *text, int used, int margin)
{
    bool fresh = true;
    while (*text) {
        size_t length = word_length(text, PHRASE_COLUMNS - margin);
        int wide = columns(text, length) + !fresh;
        if (used + wide > PHRASE_COLUMNS && !fresh) {
            fprintf(out, "\n%*s", margin, "");
            used = margin;
            fresh = true;
            continue;
        }
        fprintf(out, fresh ? "%.*s" : " %.*s", (int)length, text);
        used += wide;
        fresh = false;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', out);
}

void phrase_line(FILE *out, const char *label, const char *format, ...)
{
    char text[4096];
    va_list list;
    va_start(list, format);
    vsnprintf(text, sizeof text, format, list);
    va_end(list);
    disarm(text);
    if (!label) {
        wrap(out, text, 0, 0);
        return;
    }
    int margin = strlen(label) < 6 ? MARGIN : WIDE_MARGIN;
    fprintf(out, "  %-*s", margin - 2, label);
    wrap(out, text, margin, margin);
}

void phrase_hang(FILE *out, const char *lead, int margin, const char *text)
{
    fprintf(out, "%-*s", margin, lead);
    wrap(out, text, margin, margin);
}
