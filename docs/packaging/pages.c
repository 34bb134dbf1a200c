/* SPDX-License-Identifier: GPL-3.0-or-later */
/* docs/packaging/pages.c - writes what is installed beside the program, from the program's own
 * tables, when it is built: pages manual|bash|zsh >FILE
 */
#include "tell/completion.h"
#include "tell/manual.h"
#include <string.h>

int main(int argc, char **argv)
{
    const char *what = argc == 2 ? argv[1] : "";
    if (strcmp(what, "manual") == 0)
        manual_page(stdout);
    else if (strcmp(what, "bash") == 0)
        completion_bash(stdout);
    else if (strcmp(what, "zsh") == 0)
        completion_zsh(stdout);
    else
        return 64;
    return fclose(stdout) == 0 ? 0 : 74;
}
