/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/ask.c - the command line, understood.
 *
 * getopt_long finds the options wherever they stand; its own messages are off, since ours name the
 * nearest option. It would also take any beginning of a name for the name; a script that relied on
 * that would break with the next option, so only whole names are taken.
 */
#include "door/ask.h"
#include "base/near.h"
#include <getopt.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_KEY = 256 };       /* above every letter */

/* what getopt wants, made from the rows of tell/help */
struct wanted {
    struct option option[HELP_OPTIONS + 1];
    char letters[2 + 2 * HELP_OPTIONS + 1];
};

static struct wanted wanted_options(void)
{
    /* '-' hands over operands in their order, whatever POSIXLY_CORRECT says; ':' tells a missing
     * argument from an unknown option */
    struct wanted wanted = {.letters = "-:"};
    size_t used = 2;
    for (int i = 0; i < HELP_OPTIONS; i++) {
        const struct help_option_row *row = &help_options[i];
        wanted.option[i] = (struct option){row->name, row->argument ? required_argument
                                                                    : no_argument,
                                           NULL, FIRST_KEY + i};
        if (!row->letter)
            continue;
        wanted.letters[used++] = row->letter;
        if (row->argument)
            wanted.letters[used++] = ':';
    }
    return wanted;
}

static int key_of_letter(int letter)
{
    for (int i = 0; i < HELP_OPTIONS; i++)
        if (help_options[i].letter == letter)
            return i;
    return -1;
}

/* The nearest option to a word, for "did you mean"; NULL when none is near. */
static const char *nearest_option(const char *word)
{
    const char *names[HELP_OPTIONS];
    for (int i = 0; i < HELP_OPTIONS; i++)
        names[i] = help_options[i].name;
    return near_name(word, names, HELP_OPTIONS);
}

static bool unknown_option(const char *element, struct trouble *why)
{
    char word[NEAR_LONGEST + 1] = "";
    if (element[0] == '-' && element[1] == '-')
        strncat(word, element + 2, strcspn(element + 2, "=") < NEAR_LONGEST
                                       ? strcspn(element + 2, "=") : NEAR_LONGEST);
    const char *nearest = *word ? nearest_option(word) : NULL;
    if (nearest)
        return trouble_set(why, TROUBLE_USAGE, "there is no option '--%.60s'; did you mean '--%s'?",
                           word, nearest);
    return trouble_set(why, TROUBLE_USAGE, "there is no option '%.60s'", element);
}

/* getopt's '?': an unknown option, or an argument given to an option that takes none. */
static bool refuse_option(char **argv, struct trouble *why)
{
    const char *element = argv[optind - 1];
    if (optopt >= FIRST_KEY)
        return trouble_set(why, TROUBLE_USAGE, "--%s takes no value, so write it without '='",
                           help_options[optopt - FIRST_KEY].name);
    if (optopt != 0) {
        char letter[] = {'-', (char)optopt, '\0'};
        return unknown_option(letter, why);
    }
    return unknown_option(element, why);
}

static bool missing_argument(struct trouble *why)
{
    int key = optopt >= FIRST_KEY ? optopt - FIRST_KEY : key_of_letter(optopt);
    return trouble_set(why, TROUBLE_USAGE, "--%s needs a value: --%s %s", help_options[key].name,
                       help_options[key].name, help_options[key].argument);
}

/* The element of argv that held a long option: the last one read, or the one before where its value
 * stands apart. */
static const char *element_of(const struct help_option_row *row, char **argv)
{
    return row->argument && optarg == argv[optind - 1] ? argv[optind - 2] : argv[optind - 1];
}

static bool in_full(const struct help_option_row *row, const char *element)
{
    size_t length = strlen(row->name);
    return strncmp(element, "--", 2) == 0 && strncmp(element + 2, row->name, length) == 0 &&
           (element[2 + length] == '\0' || element[2 + length] == '=');
}

/* A whole number of digits only, up to the greatest that JSON readers are sure to take. */
static bool whole_number(const char *text, long long *number)
{
    long long sum = 0;
    if (!*text)
        return false;
    for (; *text; text++) {
        if (*text < '0' || *text > '9' || sum > (LLONG_MAX - 9) / 10)
            return false;
        sum = sum * 10 + (*text - '0');
    }
    *number = sum;
    return true;
}

static bool read_draw(struct ask *ask, const char *name, const char *text, struct trouble *why)
{
    if (whole_number(text, &ask->draw) && ask->draw <= 9007199254740992LL) /* 2^53 */
        return true;
    return trouble_set(why, TROUBLE_USAGE, "--%s '%.40s' isn't a whole number from 0 to 2^53", name,
                       text);
}

enum { USUAL_MEMBERS = 64, MOST_MEMBERS = 1000000, MOST_AT_ONCE = 20000, MOST_THREADS = 256,
       USUAL_WEEKS = 8, MOST_WEEKS = 104 };

/* "60", or "61-120" for a slice. */
static bool read_members(struct ask *ask, const char *text, struct trouble *why)
{
    char first[24] = "";
    const char *dash = strchr(text, '-');
    long long a = 1, b;
    if (dash && (size_t)(dash - text) < sizeof first)
        memcpy(first, text, (size_t)(dash - text));
    ask->slice = dash != NULL;
    if ((dash && !whole_number(first, &a)) || !whole_number(dash ? dash + 1 : text, &b) || a < 1 ||
        b < a || b > MOST_MEMBERS)
        return trouble_set(why, TROUBLE_USAGE, "--members '%.40s' is neither a number from 1 to %d nor "
                           "a slice such as 61-120", text, MOST_MEMBERS);
    if (b - a >= MOST_AT_ONCE)
        return trouble_set(why, TROUBLE_USAGE, "--members %.40s is more than %d at once; take slices "
                           "such as 1-%d and merge them", text, MOST_AT_ONCE, MOST_AT_ONCE);
    ask->first = b == 1 && !dash ? 0 : (int)a;
    ask->last = b == 1 && !dash ? 0 : (int)b;
    return true;
}

static bool read_threads(struct ask *ask, const char *text, struct trouble *why)
{
    long long number;
    if (!whole_number(text, &number) || number < 1 || number > MOST_THREADS)
        return trouble_set(why, TROUBLE_USAGE, "--threads '%.40s' isn't a whole number from 1 to %d",
                           text, MOST_THREADS);
    ask->threads = (int)number;
    return true;
}

static bool read_weeks(struct ask *ask, const char *text, struct trouble *why)
{
    long long number;
    if (!whole_number(text, &number) || number < 1 || number > MOST_WEEKS)
        return trouble_set(why, TROUBLE_USAGE, "--weeks '%.40s' isn't a whole number from 1 to %d", text,
                           MOST_WEEKS);
    ask->weeks = (int)number;
    return true;
}

static bool read_hour(struct ask *ask, const char *text, struct trouble *why)
{
    long long number;
    if (!whole_number(text, &number) || number < 0 || number > 23)
        return trouble_set(why, TROUBLE_USAGE, "--hour '%.40s' isn't a whole number from 0 to 23", text);
    ask->hour = (int)number;
    return true;
}

/* YYYY-MM-DD, nothing else */
static bool read_date(const char *text, struct date *date)
{
    static const char form[] = "dddd-dd-dd";
    if (strlen(text) != sizeof form - 1)
        return false;
    for (int i = 0; form[i]; i++)
        if (form[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != form[i])
            return false;
    date->year = atoi(text); /* stops at the hyphen */
    date->month = atoi(text + 5);
    date->day = atoi(text + 8);
    return date_valid(*date);
}

static bool read_day(struct ask *ask, const char *text, struct trouble *why)
{
    long long number;
    struct date date;
    ask->dated = false;
    ask->day = 0;
    if (whole_number(text, &number) && number >= 1 && number <= INT_MAX) {
        ask->day = (int)number;
        return true;
    }
    if (!read_date(text, &date))
        return trouble_set(why, TROUBLE_USAGE, "--day '%.40s' is neither a date such as 2026-02-28 "
                           "nor a day's number from 1", text);
    ask->dated = true;
    ask->date = date_number(date);
    return true;
}

/* A number in plain or exponent form. strtod follows LC_NUMERIC, which this program never sets; the
 * letters it would take beyond that (hexadecimal, infinities) are kept away. */
static bool read_number(const char *text, double *value)
{
    char *end;
    if (!*text || strspn(text, "0123456789+-.eE") != strlen(text))
        return false;
    *value = strtod(text, &end);
    return end != text && *end == '\0';
}

static bool read_setting(struct ask *ask, const char *text, struct trouble *why)
{
    char name[128] = "";
    const char *equals = strchr(text, '=');
    double value;
    if (!equals || equals == text || (size_t)(equals - text) >= sizeof name)
        return trouble_set(why, TROUBLE_USAGE, "--set '%.60s' isn't NAME=VALUE", text);
    memcpy(name, text, (size_t)(equals - text));
    if (!read_number(equals + 1, &value))
        return trouble_set(why, TROUBLE_USAGE, "--set '%.60s': '%.40s' isn't a number%s", text,
                           equals + 1,
                           strchr(equals, ',') ? "; write a decimal point, not a comma" : "");
    if (!param_set(&ask->param, name, value, why))
        return false;
    ask->fixed[param_find(name) - param_rows] = true;
    return true;
}

static bool take_option(struct ask *ask, enum help_key key, const char *text, struct trouble *why)
{
    ask->given[key] = true;
    switch (key) {
    case HELP_OUTPUT:
        ask->output = text;
        return true;
    case HELP_PLAN:
        ask->plans[ask->plan_count++] = ask->plan = text;
        return true;
    case HELP_WRITE:
        ask->write = text;
        return true;
    case HELP_CALENDAR:
        ask->calendar = text;
        return true;
    case HELP_ANIMATION:
        ask->animation = text;
        return true;
    case HELP_POSTER:
        ask->poster = text;
        return true;
    case HELP_WEEKS:
        return read_weeks(ask, text, why);
    case HELP_HOUR:
        return read_hour(ask, text, why);
    case HELP_PLOT:
        ask->plot = text;
        return true;
    case HELP_DAY:
        return read_day(ask, text, why);
    case HELP_MEMBERS:
        return read_members(ask, text, why);
    case HELP_THREADS:
        return read_threads(ask, text, why);
    case HELP_DRAW:
    case HELP_SEED:
        return read_draw(ask, help_options[key].name, text, why);
    case HELP_SET:
        return read_setting(ask, text, why);
    default:
        return true;
    }
}

/* "new, check, run and list" */
static void name_commands(char *list, size_t size)
{
    size_t used = 0;
    for (int i = 0; i < HELP_COMMANDS && used < size; i++)
        used += (size_t)snprintf(list + used, size - used, "%s%s",
                                 i == 0 ? "" : i == HELP_COMMANDS - 1 ? " and " : ", ",
                                 help_commands[i].name);
}

static bool take_command(struct ask *ask, const char *word, struct trouble *why)
{
    const char *names[HELP_COMMANDS];
    for (int i = 0; i < HELP_COMMANDS; i++) {
        names[i] = help_commands[i].name;
        if (strcmp(word, names[i]) == 0) {
            ask->commanded = true;
            ask->command = (enum help_command)i;
            return true;
        }
    }
    const char *nearest = near_name(word, names, HELP_COMMANDS);
    if (nearest)
        return trouble_set(why, TROUBLE_USAGE, "'%.60s' is not a command of this version; did you "
                           "mean '%s'?", word, nearest);
    char list[160];
    name_commands(list, sizeof list);
    return trouble_set(why, TROUBLE_USAGE, "'%.60s' is not a command of this version; they are %s",
                       word, list);
}

/* The first word that is no option is the command; the others are its scenario, table or shards. */
static bool take_word(struct ask *ask, const char *word, struct trouble *why)
{
    if (!ask->commanded)
        return take_command(ask, word, why);
    if (!*help_commands[ask->command].operand)
        return trouble_set(why, TROUBLE_USAGE, "%s takes no file or name, but '%.60s' was given",
                           help_commands[ask->command].name, word);
    ask->operands[ask->operand_count++] = word;
    ask->operand = ask->operands[0];
    return true;
}

static bool fit_merge(const struct ask *ask, struct trouble *why)
{
    static const enum help_key settled[] = {HELP_PLAN, HELP_MEMBERS, HELP_DRAW, HELP_SEED, HELP_SET,
                                            HELP_THREADS, HELP_PLOT, HELP_SENSITIVITY};
    for (size_t i = 0; i < sizeof settled / sizeof *settled; i++)
        if (ask->given[settled[i]])
            return trouble_set(why, TROUBLE_USAGE, "--merge tells of seasons that were run, so --%s "
                               "can't be changed any more", help_options[settled[i]].name);
    return ask->operand || trouble_set(why, TROUBLE_USAGE, "--merge needs shards: midden run --merge "
                                       "a.shard b.shard");
}

/* Sets of members are compared: one is none, and pictures and days aren't asked for. */
static bool fit_sensitivity(const struct ask *ask, struct trouble *why)
{
    static const enum help_key foreign[] = {HELP_CSV, HELP_PLOT, HELP_DAY, HELP_LONG};
    for (size_t i = 0; i < sizeof foreign / sizeof *foreign; i++)
        if (ask->given[foreign[i]])
            return trouble_set(why, TROUBLE_USAGE, "--sensitivity answers with a table, so --%s has no "
                               "place beside it", help_options[foreign[i]].name);
    if (ask->slice || ask->last - ask->first < 15)
        return trouble_set(why, TROUBLE_USAGE, "--sensitivity needs sets of at least 16 piles, such as "
                           "--members 256");
    return true;
}

/* A slice is for a file, to be merged later. */
static bool fit_slice(const struct ask *ask, struct trouble *why)
{
    if (ask->given[HELP_JSON] || ask->given[HELP_CSV] || ask->given[HELP_PLOT] || ask->given[HELP_LONG])
        return trouble_set(why, TROUBLE_USAGE, "--members A-B writes a shard; the answer comes from "
                           "midden run --merge");
    return ask->output || trouble_set(why, TROUBLE_USAGE, "--members A-B needs a file for the shard: "
                                      "-o FILE");
}

/* A guess is read from standard input, and is answered in words. */
static bool fit_guess(const struct ask *ask, struct trouble *why)
{
    if (ask->given[HELP_JSON])
        return trouble_set(why, TROUBLE_USAGE, "--ask-first and --json exclude each other; choose one");
    return !ask->operand || strcmp(ask->operand, "-") != 0 ||
           trouble_set(why, TROUBLE_USAGE, "--ask-first reads a guess from standard input; name the scenario "
                       "by its file");
}

/* Standard input is there once, and a file holds one output. */
static bool fit_files(const struct ask *ask, struct trouble *why)
{
    const char *more = ask->calendar ? ask->calendar : ask->write;
    const char *option = ask->calendar ? "calendar" : "write";
    int standard = 0;
    for (int i = 0; i < ask->operand_count; i++)
        standard += strcmp(ask->operands[i], "-") == 0;
    if (standard > 1)
        return trouble_set(why, TROUBLE_USAGE, "'-' stands for standard input, which can be read only "
                           "once; name the other scenarios by their files");
    if (more && strcmp(more, "-") == 0)
        return trouble_set(why, TROUBLE_USAGE, "--%s needs a file, since the answer goes to standard "
                           "output", option);
    return !more || !ask->output || strcmp(more, ask->output) != 0 ||
           trouble_set(why, TROUBLE_USAGE, "--%s and --output name the same file; choose two", option);
}

/* Options that the command lacks, or that contradict each other. */
static bool fits(const struct ask *ask, struct trouble *why)
{
    const char *command = help_commands[ask->command].name;
    for (int i = 0; i < HELP_OPTIONS; i++)
        if (ask->given[i] && !(help_options[i].commands & (1u << ask->command)))
            return trouble_set(why, TROUBLE_USAGE, "%s has no option --%s", command,
                               help_options[i].name);
    if (ask->given[HELP_JSON] && ask->given[HELP_CSV])
        return trouble_set(why, TROUBLE_USAGE, "--json and --csv exclude each other; choose one");
    bool several = strstr(help_commands[ask->command].operand, "...") != NULL;
    if (ask->operand_count > 1 && !ask->given[HELP_MERGE] && !several)
        return trouble_set(why, TROUBLE_USAGE, "%s takes one %s at a time; '%.60s' is one too many",
                           command, ask->command == HELP_LIST ? "table" : "scenario",
                           ask->operands[1]);
    if (ask->given[HELP_MERGE])
        return fit_merge(ask, why);
    if (ask->slice && ask->command == HELP_MIX)
        return trouble_set(why, TROUBLE_USAGE, "mix takes a number of piles, such as --members 64");
    if (ask->command != HELP_RUN && ask->command != HELP_MIX && (ask->slice || ask->last == 0))
        return trouble_set(why, TROUBLE_USAGE, "%s needs several possible piles, such as --members 64",
                           command);
    if (ask->given[HELP_ASK_FIRST] && !fit_guess(ask, why))
        return false;
    if (ask->slice && !fit_slice(ask, why))
        return false;
    if (!fit_files(ask, why))
        return false;
    if (ask->given[HELP_SENSITIVITY] && !fit_sensitivity(ask, why))
        return false;
    if (strncmp(help_commands[ask->command].operand, "SCENARIO", 8) == 0 && !ask->operand)
        return trouble_set(why, TROUBLE_USAGE, "%s needs a scenario: midden %s pile.yaml ('-' "
                           "reads standard input)", command, command);
    return true;
}

static bool take_all(struct ask *ask, int argc, char **argv, struct trouble *why)
{
    struct wanted wanted = wanted_options();
    optind = 0; /* glibc: begin afresh, so that a test may read several command lines */
    opterr = 0;
    for (int got; (got = getopt_long(argc, argv, wanted.letters, wanted.option, NULL)) != -1;) {
        if (got == 1) {
            if (!take_word(ask, optarg, why))
                return false;
            continue;
        }
        if (got == '?')
            return refuse_option(argv, why);
        if (got == ':')
            return missing_argument(why);
        int key = got >= FIRST_KEY ? got - FIRST_KEY : key_of_letter(got);
        const char *element = element_of(&help_options[key], argv);
        if (got >= FIRST_KEY && !in_full(&help_options[key], element))
            return unknown_option(element, why);
        if (!take_option(ask, (enum help_key)key, optarg, why))
            return false;
    }
    for (; optind < argc; optind++)
        if (!take_word(ask, argv[optind], why))
            return false;
    return true;
}

bool ask_read(struct ask *ask, int argc, char **argv, struct trouble *why)
{
    *ask = (struct ask){.draw = 1, .param = param_usual(), .first = 1, .last = USUAL_MEMBERS,
                        .weeks = USUAL_WEEKS, .words = argv, .word_count = argc};
    ask->operands = calloc((size_t)argc + 1, sizeof *ask->operands);
    ask->plans = calloc((size_t)argc + 1, sizeof *ask->plans);
    if (!ask->operands || !ask->plans)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    if (!take_all(ask, argc, argv, why))
        return false;
    if (ask->given[HELP_HELP] || ask->given[HELP_VERSION])
        return true;
    char list[160];
    name_commands(list, sizeof list);
    return ask->commanded ? fits(ask, why)
                          : trouble_set(why, TROUBLE_USAGE, "which command? They are %s", list);
}

void ask_free(struct ask *ask)
{
    free(ask->operands);
    free(ask->plans);
    ask->plans = NULL;
    ask->operands = NULL;
}
