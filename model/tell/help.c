/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/help.c - commands and options, once, and the pages printed from them. */
#include "tell/help.h"
#include "base/version.h"
#include "tell/phrase.h"

const char help_version[] = VERSION;

const struct help_command_row help_commands[HELP_COMMANDS] = {
    [HELP_NEW] = {"new", "", "prints a first scenario with notes, to be edited",
                  "Keep it with: midden new -o pile.yaml"},
    [HELP_CHECK] = {"check", "SCENARIO.yaml",
                    "says how a scenario is understood and whether it can be done",
                    "Shows each amount with its volume, weight and water, and each value that was "
                    "assumed because the file doesn't give it. Exit status 1 if the file is "
                    "understood but the plan can't be done."},
    [HELP_MIX] = {"mix", "SCENARIO.yaml",
                  "says what a recipe adds up to before it is built, and what would put it right",
                  "C:N, water and room of what stands under `build`, or of the stock under `have`; what "
                  "to add is counted in the vessels of the scenario, the fewest that do. A mix is right "
                  "when C:N, water and air lie within their bounds; how hot it gets hangs on size and "
                  "weather too, and is told under `left so`."},
    [HELP_RUN] = {"run", "SCENARIO.yaml", "follows one season under one plan, day by day",
                  "The first line is the answer. Without --plan the first plan is taken. Day 1 is "
                  "the day the pile is finished. Every number is a forecast: the median of many "
                  "possible piles, and in brackets where 8 in 10 of them lie. Shards written with "
                  "--members A-B are put together by: midden run --merge a.shard b.shard"},
    [HELP_COMPARE] = {"compare", "SCENARIO.yaml...",
                      "sets plans side by side under the same weather and the same unknowns",
                      "All plans of a scenario, or those named by --plan, which may be given several "
                      "times; with several scenarios (another recipe, twice the size, a lid) all of "
                      "theirs. Differences are taken pile by pile, so that what all plans share "
                      "cancels."},
    [HELP_SEARCH] = {"search", "SCENARIO.yaml",
                     "finds the least work that is ready by the date with the asked chance",
                     "The file's `need` says by when, for what and how likely; `people` which days "
                     "there are. Says so and ends with status 1 if no plan makes it. The chance told "
                     "comes from possible piles that the search never used. Ctrl-C ends the search "
                     "with the best so far."},
    [HELP_NEXT] = {"next", "SCENARIO.yaml...",
                   "says what to do on a day: who, what, how much, what to read, when next",
                   "The day is that of --day, else that of the last reading. Several scenarios are "
                   "one visit: their work is joined and put in order."},
    [HELP_SHEET] = {"sheet", "SCENARIO.yaml",
                    "makes the log sheet to print, with a row for each day to read the pile",
                    "Its columns are those of a readings file. The forecast for its days stands on a "
                    "page of its own, for after guessing. The ending of -o FILE tells the form: "
                    ".html to print, .csv an empty readings file, else plain text."},
    [HELP_LEARN] = {"learn", "SCENARIO.yaml",
                    "tells what your readings say of the pile, and the forecast after them",
                    "The readings are those of the file and of its log. Some may be wild: what no "
                    "possible pile explains is left out and named. Where the pile disappoints, the "
                    "likely causes come with the cheapest test that tells them apart."},
    [HELP_WHY] = {"why", "SCENARIO.yaml",
                  "says where a pile's heat goes on a day, what holds decay back, what a change would do",
                  "The day is that of --day, else that of the last reading, else the one "
                  "on which the middle likely stands furthest above the air. Each change is run with the "
                  "same possible piles in the same weather: all that can be made with a few, the three "
                  "that matter most with all."},
    [HELP_REPORT] = {"report", "SCENARIO.yaml",
                     "writes all that is known of a season as one page, with pictures",
                     "One HTML file that needs nothing beside it, for a phone, paper or the shelf. The "
                     "first plan is told of, or the first named by --plan; those named, else all plans "
                     "of the scenario, are set side by side."},
    [HELP_LESSON] = {"lesson", "SCENARIO.yaml",
                     "tells forty minutes with a class, with this pile's numbers",
                     "What to do, to ask and to show, step by step; experiments that a class can't wait "
                     "for (two sizes, a turn, three wetnesses, a winter's blanket) are run with this pile. "
                     "--plan may be given twice, for the two that are set side by side."},
    [HELP_LIST] = {"list", "TABLE", "shows a table of what the program knows",
                   "Without TABLE it names the tables."},
};

enum {
    CHECK = 1u << HELP_CHECK, MIX = 1u << HELP_MIX, RUN = 1u << HELP_RUN, LIST = 1u << HELP_LIST,
    COMPARE = 1u << HELP_COMPARE, SEARCH = 1u << HELP_SEARCH,
    NEXT = 1u << HELP_NEXT, SHEET = 1u << HELP_SHEET, LEARN = 1u << HELP_LEARN,
    WHY = 1u << HELP_WHY, LESSON = 1u << HELP_LESSON,
    REPORT = 1u << HELP_REPORT,
    MANY = RUN | COMPARE | SEARCH | NEXT | SHEET | LEARN | WHY | LESSON | REPORT,
    ALL = (1u << HELP_COMMANDS) - 1
};

const struct help_option_row help_options[HELP_OPTIONS] = {
    [HELP_JSON] = {"json", 0, NULL, CHECK | MIX | (MANY & ~(SHEET | REPORT)) | LIST,
                   "answer as JSON, for programs"},
    [HELP_CSV] = {"csv", 0, NULL, RUN, "answer as CSV: one row a day, with every flux"},
    [HELP_OUTPUT] = {"output", 'o', "FILE", ALL, "write the answer to FILE, whole or not at all"},
    [HELP_FORCE] = {"force", 0, NULL, ALL, "let outputs replace files that are there"},
    [HELP_PLAN] = {"plan", 0, "NAME", RUN | COMPARE | NEXT | SHEET | LEARN | WHY | LESSON | REPORT,
                   "follow this plan of the scenario"},
    [HELP_DAY] = {"day", 0, "DAY", RUN | SEARCH | NEXT | SHEET | LEARN | WHY | LESSON | REPORT,
                  "tell of this day (run: too), begin with it, or learn up to it: a date (2026-02-28) or a number from 1"},
    [HELP_HOUR] = {"hour", 0, "H", WHY, "tell of this hour of the day, 0 to 23, instead of its mean"},
    [HELP_ASK_FIRST] = {"ask-first", 0, NULL, WHY | LESSON,
                        "ask for a guess before the answer, or before each step of a lesson: one line is read from "
                         "standard input"},
    [HELP_WRITE] = {"write", 0, "FILE", SEARCH, "write the scenario with the plan that was found"},
    [HELP_CALENDAR] = {"calendar", 0, "FILE.ics", NEXT,
                       "write all days of work and of reading as a calendar (iCalendar)"},
    [HELP_WEEKS] = {"weeks", 0, "N", SHEET, "how many weeks the sheet is for (8)"},
    [HELP_HANDOVER] = {"handover", 0, NULL, REPORT,
                       "one sheet for the next keeper instead: what stands where, what is due, what to "
                       "read; of --day, else of the last reading"},
    [HELP_ANIMATION] = {"animation", 0, "FILE.gif", REPORT,
                        "write a cross-section through the season as a film (needs gnuplot)"},
    [HELP_POSTER] = {"poster", 0, "FILE", REPORT,
                     "write a poster for a wall, A2; FILE ends in .svg, .pdf or .png (needs gnuplot)"},
    [HELP_MEMBERS] = {"members", 0, "N", MIX | MANY,
                      "how many possible piles (64; of a lesson 16); with run and mix, 1 is the central one alone; A-B "
                      "with run computes only those and writes them as a shard to -o FILE"},
    [HELP_SENSITIVITY] = {"sensitivity", 0, NULL, RUN,
                          "which unknown carries the variance of the answers (Sobol indices), from "
                          "sets of --members piles (256); takes a minute or more"},
    [HELP_MERGE] = {"merge", 0, NULL, RUN, "the files named are shards of one run; tell of all of it"},
    [HELP_DRAW] = {"draw", 0, "S", MIX | MANY,
                   "which set of possible piles and of made-up weather, a whole number (1); 0 with "
                   "--members 1 is a mean year"},
    [HELP_SEED] = {"seed", 0, "S", MIX | MANY, "the same as --draw"},
    [HELP_THREADS] = {"threads", 0, "N", MANY,
                      "how many seasons to run at once (as many as there are processors); no digit "
                      "depends on it"},
    [HELP_SET] = {"set", 0, "NAME=VALUE", MIX | MANY,
                  "change a number of the model for this run (midden list parameters); may be "
                  "given several times"},
    [HELP_PLOT] = {"plot", 0, "DIR", RUN | COMPARE | SEARCH | WHY | LESSON,
                   "draw pictures into the folder DIR (needs gnuplot)"},
    [HELP_LONG] = {"long", 0, NULL, MIX | (MANY & ~(NEXT | SHEET | LESSON | REPORT)) | LIST,
                   "the long form: of a season a line a day, of plans every pair, of a mix its ingredients, "
                   "assumed values and cautions in full"},
    [HELP_QUIET] = {"quiet", 'q', NULL, ALL, "no notes on standard error, only trouble"},
    [HELP_HELP] = {"help", 'h', NULL, ALL, "print this page"},
    [HELP_VERSION] = {"version", 0, NULL, ALL, "print the version"},
};

/* One row of a two-column list; long text goes on below itself. */
static void say_row(FILE *out, const char *left, const char *right)
{
    enum { MARGIN = 24 };
    char lead[64];
    snprintf(lead, sizeof lead, "  %s", left);
    phrase_hang(out, lead, MARGIN, right);
}

static void say_option(FILE *out, const struct help_option_row *row)
{
    char left[48];
    char letter[] = {'-', row->letter, ',', ' ', '\0'};
    snprintf(left, sizeof left, "%s--%s%s%s", row->letter ? letter : "", row->name,
             row->argument ? " " : "", row->argument ? row->argument : "");
    say_row(out, left, row->meaning);
}

void help_program(FILE *out)
{
    fputs("usage: midden COMMAND [OPTIONS] [SCENARIO.yaml]\n\n", out);
    phrase_line(out, NULL,
                "Simulates a garden compost pile from its recipe, bin, place, weather and plan of "
                "turning, and answers in a gardener's words.");
    fputs("\nCommands:\n", out);
    for (int i = 0; i < HELP_COMMANDS; i++)
        say_row(out, help_commands[i].name, help_commands[i].answers);
    fputs("\nOptions of every command:\n", out);
    for (int i = 0; i < HELP_OPTIONS; i++)
        if (help_options[i].commands == ALL)
            say_option(out, &help_options[i]);
    fputs("\nStart with:\n"
          "  midden new -o pile.yaml\n"
          "  midden check pile.yaml\n"
          "  midden mix pile.yaml\n"
          "  midden run pile.yaml\n\n", out);
    phrase_line(out, NULL, "'-' as SCENARIO reads standard input. Options may stand anywhere; '--' "
                "ends them. 'midden COMMAND --help' shows the options of a command.");
    fputs("\nExit status:\n"
          "   0  done\n"
          "   1  understood, but the answer is no\n"
          "  64  the command line can't be understood\n"
          "  65  a file or a value can't be used      66  a file is missing\n"
          "  69  gnuplot is missing                   70  a defect: a balance did not close\n"
          "  73  an output exists or can't be made    74  reading or writing failed\n"
          " 130, 143  interrupted\n", out);
}

void help_of(FILE *out, enum help_command command)
{
    const struct help_command_row *row = &help_commands[command];
    fprintf(out, "usage: midden %s [OPTIONS]%s%s\n\n", row->name, *row->operand ? " " : "",
            row->operand);
    phrase_line(out, NULL, "midden %s %s. %s", row->name, row->answers, row->more);
    fputs("\nOptions:\n", out);
    for (int i = 0; i < HELP_OPTIONS; i++)
        if (help_options[i].commands & (1u << command))
            say_option(out, &help_options[i]);
}

void help_about(FILE *out)
{
    fprintf(out,
            "midden %s\n"
            "Licence GPL-3.0-or-later: GNU General Public License, version 3 or later.\n"
            "You may change and share it. There is no warranty, as far as the law allows.\n",
            help_version);
}
