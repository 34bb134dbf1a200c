#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/pages.sh - rewrites docs/tables/, the teaching pages and what the pages' commands print.
#
#     sh tests/pages.sh MIDDEN
#
# tests/shown.sh runs the commands, and compares the quick ones in every `make test`.
midden=$1
LC_ALL=C.UTF-8
export LC_ALL
scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT

# table TABLE FILE: what `midden list TABLE --long` prints, as a page
table() {
    "$midden" list "$1" --long >"$scratch/table" || { echo "midden list $1 failed"; exit 1; }
    {
        printf '# midden list %s --long\n\n' "$1"
        printf 'Made by `make docs` from `%s`; not edited by hand.\n\n```\n' "$2"
        cat "$scratch/table"
        printf '```\n'
    } >"docs/tables/$1.md"
}

mkdir -p docs/tables
table ingredients model/know/stuff.def
table parameters model/know/param.def
table fluxes model/pile/flux.def
table units model/base/unit.c
for kind in walls floors lids covers; do
    table $kind model/know/bound.c
done
table skies model/know/skies.c
table rules model/know/rules.def

bad=0
sh tests/teaching.sh "$midden" || bad=1
sh tests/shown.sh "$midden" make || bad=1
echo "docs: tables rewritten"
exit $bad
