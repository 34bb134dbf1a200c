/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/completion.c - what a shell offers at the tab key, from the rows that --help prints.
 *
 * The scripts need nothing beside their shell. After an option that takes a file or a folder they
 * offer these, after any other value nothing, since a shell knows no plans and no dates.
 */
#include "tell/completion.h"
#include "tell/cells.h"
#include "tell/help.h"
#include <stdbool.h>
#include <string.h>

enum value { VALUE_NONE, VALUE_FILE, VALUE_FOLDER, VALUE_OTHER };

static enum value value_of(const struct help_option_row *row)
{
    if (!row->argument)
        return VALUE_NONE;
    return strncmp(row->argument, "FILE", 4) == 0 ? VALUE_FILE
         : strcmp(row->argument, "DIR") == 0      ? VALUE_FOLDER
                                                  : VALUE_OTHER;
}

static void put_command_names(FILE *out, const char *between)
{
    for (int c = 0; c < HELP_COMMANDS; c++)
        fprintf(out, "%s%s", c ? between : "", help_commands[c].name);
}

static void put_tables(FILE *out)
{
    for (int i = 0; i < cells_count; i++)
        fprintf(out, "%s%s", i ? " " : "", cells_names[i]);
}

/* ---- bash ---- */

/* "-o|--output|--write" */
static void put_options_of(FILE *out, enum value value)
{
    bool some = false;
    for (int i = 0; i < HELP_OPTIONS; i++) {
        if (value_of(&help_options[i]) != value)
            continue;
        if (help_options[i].letter)
            fprintf(out, "%s-%c", some ? "|" : "", help_options[i].letter);
        some |= help_options[i].letter != 0;
        fprintf(out, "%s--%s", some ? "|" : "", help_options[i].name);
        some = true;
    }
}

static void bash_options(FILE *out)
{
    for (int c = 0; c < HELP_COMMANDS; c++) {
        fprintf(out, "    %s) options='", help_commands[c].name);
        for (int i = 0, some = 0; i < HELP_OPTIONS; i++)
            if (help_options[i].commands & 1u << c)
                fprintf(out, "%s--%s", some++ ? " " : "", help_options[i].name);
        fputs("' ;;\n", out);
    }
    fputs("    *) options='--help --version' ;;\n", out);
}

void completion_bash(FILE *out)
{
    fputs("# SPDX-License-Identifier: GPL-3.0-or-later\n"
          "# midden's commands, options and tables for bash.\n"
          "_midden() {\n"
          "    local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]}\n"
          "    local command='' options='' ending i\n"
          "    COMPREPLY=()\n"
          "    # --plot=DIR comes as three words\n"
          "    if [[ $cur == = ]]; then cur=; elif [[ $prev == = ]]; then prev=${COMP_WORDS[COMP_CWORD - 2]}; fi\n"
          "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
          "        case ${COMP_WORDS[i]} in\n"
          "        ", out);
    put_command_names(out, "|");
    fputs(") command=${COMP_WORDS[i]}; break ;;\n        esac\n    done\n    case $prev in\n    ", out);
    put_options_of(out, VALUE_FILE);
    fputs(") compopt -o filenames 2>/dev/null; mapfile -t COMPREPLY < <(compgen -f -- \"$cur\"); "
          "return ;;\n    ", out);
    put_options_of(out, VALUE_FOLDER);
    fputs(") compopt -o filenames 2>/dev/null; mapfile -t COMPREPLY < <(compgen -d -- \"$cur\"); "
          "return ;;\n    ", out);
    put_options_of(out, VALUE_OTHER);
    fputs(") return ;;\n    esac\n    case $command in\n", out);
    bash_options(out);
    fputs("    esac\n"
          "    if [[ $cur == -* ]]; then\n"
          "        mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$cur\")\n"
          "    elif [[ -z $command ]]; then\n"
          "        mapfile -t COMPREPLY < <(compgen -W '", out);
    put_command_names(out, " ");
    fputs("' -- \"$cur\")\n    elif [[ $command == list ]]; then\n"
          "        mapfile -t COMPREPLY < <(compgen -W '", out);
    put_tables(out);
    fputs("' -- \"$cur\")\n    elif [[ $command != new ]]; then\n"
          "        compopt -o filenames 2>/dev/null\n"
          "        for ending in yaml yml shard; do\n"
          "            mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -f -X \"!*.$ending\" -- \"$cur\")\n"
          "        done\n"
          "        mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -d -- \"$cur\")\n"
          "    fi\n}\ncomplete -F _midden midden\n", out);
}

/* ---- zsh ---- */

/* A text within single quotes and brackets or behind a colon. */
static void put_quoted(FILE *out, const char *text)
{
    for (; *text; text++) {
        if (strchr("[]:\\", *text))
            putc('\\', out);
        fputs(*text == '\'' ? "'\\''" : (char[]){*text, '\0'}, out);
    }
}

/* 'name[meaning]:argument:action'; a letter and its long form exclude each other */
static void zsh_option(FILE *out, const struct help_option_row *row)
{
    static const char *const action[] = {"", "_files", "_files -/", " "};
    enum value value = value_of(row);
    bool again = strcmp(row->name, "plan") == 0 || strcmp(row->name, "set") == 0;
    fputs("            ", out);
    if (row->letter)
        fprintf(out, "'(-%c --%s)'{-%c%s,--%s%s}'[", row->letter, row->name, row->letter,
                value ? "+" : "", row->name, value ? "=" : "");
    else
        fprintf(out, "'%s--%s%s[", again ? "*" : "", row->name, value ? "=" : "");
    put_quoted(out, row->meaning);
    putc(']', out);
    if (value) {
        putc(':', out);
        put_quoted(out, row->argument);
        fprintf(out, ":%s", action[value]);
    }
    fputs("' \\\n", out);
}

static void zsh_command(FILE *out, int command)
{
    const struct help_command_row *row = &help_commands[command];
    fprintf(out, "    %s)\n        _arguments \\\n", row->name);
    for (int i = 0; i < HELP_OPTIONS; i++)
        if (help_options[i].commands & 1u << command)
            zsh_option(out, &help_options[i]);
    if (command == HELP_LIST) {
        fputs("            ':table:(", out);
        put_tables(out);
        fputs(")'", out);
    } else if (*row->operand) {
        fprintf(out, "            '%s:scenario:_files -g \"*.(yaml|yml|shard)(-.)\"'",
                strstr(row->operand, "...") || command == HELP_RUN ? "*" : "");
    } else {
        fputs("            && return", out);
    }
    fputs(" ;;\n", out);
}

void completion_zsh(FILE *out)
{
    fputs("#compdef midden\n"
          "# SPDX-License-Identifier: GPL-3.0-or-later\n"
          "# midden's commands, options and tables for zsh.\n"
          "_midden() {\n    local -a commands\n    commands=(\n", out);
    for (int c = 0; c < HELP_COMMANDS; c++) {
        fprintf(out, "        '%s:", help_commands[c].name);
        put_quoted(out, help_commands[c].answers);
        fputs("'\n", out);
    }
    fputs("    )\n"
          "    if ((CURRENT == 2)); then\n"
          "        if [[ $words[2] == -* ]]; then _values option --help --version; else "
          "_describe command commands; fi\n"
          "        return\n"
          "    fi\n"
          "    local command=$words[2]\n"
          "    shift words\n"
          "    ((CURRENT--))\n"
          "    case $command in\n", out);
    for (int c = 0; c < HELP_COMMANDS; c++)
        zsh_command(out, c);
    fputs("    esac\n}\n_midden \"$@\"\n", out);
}
