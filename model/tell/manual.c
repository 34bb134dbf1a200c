/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/manual.c - the manual page, from the rows that --help prints.
 *
 * Macros are those of mdoc(7): they say what a word is and leave its look to the reader's terminal.
 */
#include "tell/manual.h"
#include "base/trouble.h"
#include "base/version.h"
#include "tell/cells.h"
#include "tell/help.h"
#include <ctype.h>
#include <stdbool.h>
#include <string.h>

enum { LINE = 76 };

/* ---- text as roff takes it ---- */

/* A hyphen that is typed, a backslash and quotes as themselves. */
static size_t put_letter(FILE *out, char letter)
{
    const char *name = letter == '-' ? "\\-" : letter == '\\' ? "\\e" : letter == '`' ? "\\(ga"
                     : letter == '\'' ? "\\(aq" : letter == '~' ? "\\(ti" : letter == '^' ? "\\(ha"
                     : NULL;
    if (!name) {
        putc(letter, out);
        return 1;
    }
    fputs(name, out);
    return strlen(name);
}

static size_t put_word(FILE *out, const char *word, size_t length)
{
    size_t wide = 0;
    for (size_t i = 0; i < length; i++)
        wide += put_letter(out, word[i]);
    return wide;
}

/* Words filled into lines; a new sentence begins a line, so that roff knows it for one. */
static void put_text(FILE *out, const char *text)
{
    size_t column = 0;
    while (*text) {
        size_t length = strcspn(text, " ");
        if (column > 0 && column + 1 + length > LINE) {
            putc('\n', out);
            column = 0;
        }
        if (column > 0)
            column += put_word(out, " ", 1);
        else if (*text == '.' || *text == '\'')
            fputs("\\&", out);
        column += put_word(out, text, length);
        if (length > 0 && (text[length - 1] == '.' || text[length - 1] == '?') && text[length]) {
            putc('\n', out);
            column = 0;
        }
        text += length;
        text += *text == ' ';
    }
    putc('\n', out);
}

/* A clause of the tables as a sentence. */
static void put_sentence(FILE *out, const char *clause)
{
    char text[2048];
    snprintf(text, sizeof text, "%s.", clause);
    text[0] = (char)toupper((unsigned char)text[0]);
    put_text(out, text);
}

/* ---- sections ---- */

/* "November 26, 2026", as the macro wants it */
static void put_head(FILE *out)
{
    static const char *const months[] = {"January",   "February", "March",    "April",
                                         "May",       "June",     "July",     "August",
                                         "September", "October",  "November", "December"};
    fputs(".\\\" SPDX-License-Identifier: GPL-3.0-or-later\n", out);
    fprintf(out, ".Dd %s %d, %d\n.Dt MIDDEN 1\n.Os\n", months[VERSION_MONTH - 1], VERSION_DAY,
            VERSION_YEAR);
    fputs(".Sh NAME\n.Nm midden\n.Nd forecasts what a garden compost pile will do\n"
          ".Sh SYNOPSIS\n.Nm\n.Ar command\n.Op Ar option ...\n.Op Ar SCENARIO.yaml ...\n"
          ".Nm\n.Op Ar command\n.Fl -help\n"
          ".Sh DESCRIPTION\n.Nm\n", out);
    put_text(out, "simulates a garden compost pile from its recipe, bin, place, weather and plan of "
             "turning, and answers in a gardener's words. A scenario is one YAML file that can be read "
             "aloud; what it leaves open is assumed, and said.");
    fputs(".Pp\n", out);
    put_text(out, "Every number is a forecast, with the range in which 8 in 10 of many possible piles "
             "lie. It can't take the place of a thermometer, a log, or the codes that hold where the "
             "pile is.");
}

static void put_flag(FILE *out, const struct help_option_row *row)
{
    if (row->letter)
        fprintf(out, "Fl %c , ", row->letter);
    fprintf(out, "Fl -%s", row->name);
    if (row->argument)
        fprintf(out, " Ar %s", row->argument);
}

static bool every_command(const struct help_option_row *row)
{
    return row->commands == (1u << HELP_COMMANDS) - 1;
}

/* The options of a command that not every command has. */
static void put_taken(FILE *out, unsigned command)
{
    bool some = false;
    for (int i = 0; i < HELP_OPTIONS; i++) {
        if (!(help_options[i].commands & command) || every_command(&help_options[i]))
            continue;
        fprintf(out, "%s.Fl -%s ,\n", some ? "" : ".Pp\nTakes\n", help_options[i].name);
        some = true;
    }
    if (some)
        fputs("and the options of every command.\n", out);
}

static void put_commands(FILE *out)
{
    fputs(".Sh COMMANDS\n.Bl -tag -width Ds\n", out);
    for (int c = 0; c < HELP_COMMANDS; c++) {
        const struct help_command_row *row = &help_commands[c];
        fprintf(out, ".It Ic %s%s%s\n", row->name, *row->operand ? " Ar " : "", row->operand);
        put_sentence(out, row->answers);
        put_text(out, row->more);
        put_taken(out, 1u << c);
    }
    fputs(".El\n.Pp\nThe tables of\n.Ic list\nare\n", out);
    for (int i = 0; i < cells_count; i++)
        fprintf(out, ".Cm %s%s\n", cells_names[i], i + 1 < cells_count ? " ," : " .");
}

static void put_options(FILE *out)
{
    fputs(".Sh OPTIONS\n", out);
    put_text(out, "Options may stand anywhere; a double hyphen ends them. A single hyphen as scenario "
             "reads standard input, as the file of --output writes standard output.");
    fputs(".Bl -tag -width Ds\n", out);
    for (int i = 0; i < HELP_OPTIONS; i++) {
        const struct help_option_row *row = &help_options[i];
        fputs(".It ", out);
        put_flag(out, row);
        putc('\n', out);
        put_sentence(out, row->meaning);
        if (every_command(row))
            continue;
        int left = 0;
        for (int c = 0; c < HELP_COMMANDS; c++)
            left += (row->commands & 1u << c) != 0;
        fputs("With\n", out);
        for (int c = 0; c < HELP_COMMANDS; c++)
            if (row->commands & 1u << c)
                fprintf(out, ".Ic %s %s\n", help_commands[c].name, --left ? "," : ".");
    }
    fputs(".El\n", out);
}

static void put_statuses(FILE *out)
{
    static const struct { int status; const char *meaning; } rows[] = {
#define ROW(kind, status, meaning) {status, meaning},
        TROUBLE_KINDS(ROW)
#undef ROW
    };
    enum { ROWS = sizeof rows / sizeof *rows };
    fputs(".Sh EXIT STATUS\n.Bl -tag -width \"130, 143\"\n", out);
    for (int i = 0; i < ROWS; i++) {
        if (i > 0 && rows[i].status == rows[i - 1].status)
            fputs(".br\n", out);
        else
            fprintf(out, ".It %d\n", rows[i].status);
        put_sentence(out, rows[i].meaning);
    }
    fputs(".It 130, 143\nInterrupted, or asked to end, by a signal.\n.El\n.Pp\n", out);
    put_text(out, "That a pile won't be ready in time is an answer, and no trouble.");
}

static void put_environment(FILE *out)
{
    fputs(".Sh ENVIRONMENT\n.Bl -tag -width LC_CTYPE\n.It Ev LC_CTYPE\n", out);
    put_text(out, "Whether answers may hold letters such as the degree sign. Numbers never follow the "
             "locale.");
    fputs(".It Ev PATH\nWhere\n.Xr gnuplot 1\nis looked for, which draws the pictures of\n"
          ".Fl -plot .\n.El\n", out);
}

static void put_rest(FILE *out)
{
    fputs(".Sh EXAMPLES\nA first pile, from a file with notes to the answer:\n.Bd -literal -offset indent\n"
          "midden new \\-o pile.yaml\nmidden check pile.yaml\nmidden mix pile.yaml\n"
          "midden run pile.yaml\n.Ed\n.Pp\nTwo plans side by side:\n.Bd -literal -offset indent\n"
          "midden compare pile.yaml\n.Ed\n"
          ".Sh SEE ALSO\n.Xr gnuplot 1\n", out);
}

void manual_page(FILE *out)
{
    put_head(out);
    put_commands(out);
    put_options(out);
    put_environment(out);
    put_statuses(out);
    put_rest(out);
}
