/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/logpage.c - see tell/logpage.h.
 *
 * The file needs nothing else: no script, no font, no picture. It leaves the paper's size to the
 * printer, and its first page fits what A4 (210 x 297 mm) and Letter (216 x 279 mm) have in common
 * within margins of 12 mm: 186 x 255 mm. Lines and letters are black, so that any printer will do.
 */
#include "tell/logpage.h"
#include "tell/page.h"
#include "tell/tale.h"
#include <string.h>

/* of the 255 mm, what is left for rows below the headings and above the notes; how high a row of
 * handwriting is at best, and at least */
static const double ROOM_MM = 195.0, HIGH_MM = 13.0, LOW_MM = 8.0;

static const char style_sheet[] =
    "@page { margin: 12mm; }\n"
    "body { font: 10pt/1.3 sans-serif; color: #000; background: #fff; margin: 0 auto;\n"
    "  max-width: 186mm; }\n"
    "h1 { font-size: 14pt; margin: 0 0 1mm; }\n"
    "h2 { font-size: 12pt; margin: 5mm 0 2mm; }\n"
    "p { margin: 0 0 2mm; }\n"
    "table { border-collapse: collapse; width: 100%; }\n"
    "caption { text-align: left; padding-bottom: 2mm; }\n"
    "th, td { border: 0.3mm solid #000; padding: 0 1mm; text-align: left; font-weight: normal;\n"
    "  vertical-align: middle; }\n"
    "thead th { font-weight: bold; vertical-align: top; }\n"
    "tr { break-inside: avoid; }\n"
    ".log .date { width: 24mm; white-space: nowrap; }\n"
    ".log .small { width: 15mm; }\n"
    ".log td.did { font-size: 8pt; }\n"
    "dl { display: grid; grid-template-columns: max-content 1fr; gap: 0 3mm; margin: 0; }\n"
    "dd { margin: 0; }\n"
    "dt { font-weight: bold; }\n"
    ".after { break-before: page; }\n"
    "@media screen { body { padding: 6mm; } .after { margin-top: 20mm; } }\n";

static double row_mm(const struct logsheet *sheet)
{
    double even = ROOM_MM / (sheet->rows > 0 ? sheet->rows : 1);
    return even > HIGH_MM ? HIGH_MM : even < LOW_MM ? LOW_MM : even;
}

int logpage_pages(const struct logsheet *sheet)
{
    int a_page = (int)(ROOM_MM / row_mm(sheet) + 1e-9);
    return sheet->rows > a_page ? (sheet->rows + a_page - 1) / a_page : 1;
}

static void put_head(FILE *out, const struct logsheet *sheet)
{
    char styles[sizeof style_sheet + 64];
    snprintf(styles, sizeof styles, "%s.log tbody tr { height: %.1fmm; }\n", style_sheet,
             row_mm(sheet));
    page_begin(out, "Log", sheet->pile.scenario->name, styles);
}

/* "middle (°C)", "height (cm)" */
static void put_columns(FILE *out, const struct scenario *scenario)
{
    fputs("<thead>\n<tr>", out);
    for (int i = 0; i < LOGSHEET_COLUMNS; i++) {
        const char *unit = logsheet_unit(scenario, i);
        bool degree = *unit == 'C' || *unit == 'F';
        fprintf(out, "<th scope=\"col\" class=\"%s\">%s",
                i == 0                      ? "date"
                : logsheet_columns[i].width ? "small"
                                            : "did",
                logsheet_columns[i].name);
        if (*unit)
            fprintf(out, "<br>%s%s", degree ? "°" : "", unit);
        fputs("</th>", out);
    }
    fputs("</tr>\n</thead>\n", out);
}

static void put_date(FILE *out, const struct logsheet *sheet, const struct log_row *row)
{
    char date[DATE_TEXT];
    date_count number = sheet->pile.scenario->start + row->day;
    date_write(number, date);
    fprintf(out, "<tr><th scope=\"row\" class=\"date\">%s %s</th>", logsheet_weekday(number), date);
}

static void put_table(FILE *out, const struct logsheet *sheet)
{
    const struct scenario *scenario = sheet->pile.scenario;
    fputs("<table class=\"log\">\n<caption>Plan: ", out);
    page_text(out, scenario->plan[sheet->pile.plan].name);
    fputs(". One row for each day to read the pile; small letters say what is planned.</caption>\n",
          out);
    put_columns(out, scenario);
    fputs("<tbody>\n", out);
    for (int r = 0; r < sheet->rows; r++) {
        put_date(out, sheet, &sheet->row[r]);
        for (int i = 1; i < LOGSHEET_COLUMNS - 1; i++)
            fputs("<td></td>", out);
        fputs("<td class=\"did\">", out);
        page_text(out, logsheet_planned(sheet, &sheet->row[r]).text);
        fputs("</td></tr>\n", out);
    }
    fputs("</tbody>\n</table>\n", out);
}

static void put_first_page(FILE *out, const struct logsheet *sheet)
{
    fputs("<h1>Log of ", out);
    page_text(out, sheet->pile.scenario->name);
    fputs("</h1>\n", out);
    put_table(out, sheet);
    fputs("<p>Middle: half way up, at the axis. 30 cm in and hand deep (10 cm): from the nearest "
          "outer "
          "side, half way up. Squeeze a handful from 30 cm in: ",
          out);
    for (int i = 0; i < PLAN_SQUEEZES; i++)
        fprintf(out, "%s%s",
                i == 0                   ? ""
                : i == PLAN_SQUEEZES - 1 ? " or "
                                         : ", ",
                logsheet_squeezes[i][0]);
    fputs(".</p>\n<p>Our guess: hottest on ______________ with ________ degrees, because "
          "______________________________</p>\n",
          out);
}

static void put_forecast(FILE *out, const struct logsheet *sheet)
{
    static const char *const places[] = {"middle", "30 cm in", "hand deep"};
    const struct scenario *scenario = sheet->pile.scenario;
    fprintf(out,
            "<table>\n<caption>°%s; 8 in 10 of %d possible piles lie within the brackets."
            "</caption>\n<thead>\n<tr><th scope=\"col\">date</th>",
            logsheet_unit(scenario, 2), sheet->pile.members);
    for (int i = 0; i < 3; i++)
        fprintf(out, "<th scope=\"col\">%s</th>", places[i]);
    fputs("</tr>\n</thead>\n<tbody>\n", out);
    for (int r = 0; r < sheet->rows; r++) {
        const struct log_row *row = &sheet->row[r];
        put_date(out, sheet, row);
        fprintf(out, "<td>%s</td><td>%s</td><td>%s</td></tr>\n",
                logsheet_temp(scenario, row->middle_K).text,
                logsheet_temp(scenario, row->deep_K).text,
                logsheet_temp(scenario, row->hand_K).text);
    }
    fputs("</tbody>\n</table>\n", out);
}

static void put_cautions(FILE *out, const struct logsheet *sheet)
{
    struct tale tale = {.record = sheet->pile.record,
                        .members = sheet->pile.members,
                        .scenario = sheet->pile.scenario,
                        .plan = sheet->pile.plan};
    fputs("<h2>Take care</h2>\n<ul>\n", out);
    for (int i = 0; i < TALE_CAUTIONS; i++)
        if (tale_caution_applies(&tale, (enum tale_caution)i)) {
            fputs("<li>", out);
            page_text(out, tale_caution_full((enum tale_caution)i));
            fputs("</li>\n", out);
        }
    fputs("</ul>\n", out);
}

static void put_second_page(FILE *out, const struct logsheet *sheet)
{
    fputs("<section class=\"after\">\n<h1>The forecast, for after guessing</h1>\n", out);
    put_forecast(out, sheet);
    fputs("<h2>A squeezed handful</h2>\n<dl>\n", out);
    for (int i = 0; i < PLAN_SQUEEZES; i++)
        fprintf(out, "<dt>%s</dt><dd>%s</dd>\n", logsheet_squeezes[i][0], logsheet_squeezes[i][1]);
    fputs("</dl>\n", out);
    put_cautions(out, sheet);
    fputs("</section>\n", out);
}

void logpage_write(FILE *out, const struct logsheet *sheet)
{
    put_head(out, sheet);
    put_first_page(out, sheet);
    put_second_page(out, sheet);
    page_end(out);
}
