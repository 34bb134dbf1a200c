/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/csv.c - a season as CSV: one row a day.
 *
 * Comma, decimal point and CR LF at the end of each line as in RFC 4180; no field needs quotes,
 * since names are ours and the rest are numbers. Ten digits, so that sums over the days can be
 * compared with the season's totals.
 */
#include "tell/csv.h"
#include "tell/column.h"
#include <math.h>

static void number(FILE *out, double value)
{
    if (isfinite(value))
        fprintf(out, ",%.10g", value == 0.0 ? 0.0 : value); /* no minus before nothing */
    else
        fputc(',', out);
}

static void header(FILE *out)
{
    fputs("day,date", out);
    for (int i = 0; i < column_count; i++)
        fprintf(out, ",%s", column_rows[i].name);
    for (int i = 0; i < FLUXES; i++)
        fprintf(out, ",%s_%s", flux_rows[i].name, flux_unit((enum flux)i));
    fputs(",events,steps,refused\r\n", out);
}

void csv_season(FILE *out, const struct tale *tale)
{
    header(out);
    for (int k = 0; k < tale->record->days; k++) {
        const struct record_day *day = &tale->record->day[k];
        char date[DATE_TEXT];
        date_write(tale->scenario->start + k, date);
        fprintf(out, "%d,%s", k + 1, date);
        for (int i = 0; i < column_count; i++)
            number(out, column_value(&column_rows[i], day));
        for (int i = 0; i < FLUXES; i++)
            number(out, column_flux(day->flux, (enum flux)i));
        fprintf(out, ",%d,%d,%d\r\n", day->events, day->steps, day->refused);
    }
}
