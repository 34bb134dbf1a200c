#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/pages.sh - rewrites docs/tables/ and the teaching pages, runs the commands that the pages show.
#
#     sh tests/pages.sh MIDDEN
#
# A command is a line of a fenced block that begins with `./midden `. Each runs in a scratch folder
# beside a link to scenarios/, and must end with 0 (done) or 1 (the answer is no).
midden=$1
LC_ALL=C.UTF-8
export LC_ALL
top=$(pwd)
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

ln -s "$top/scenarios" "$scratch/scenarios"
ln -s "$top/$midden" "$scratch/midden"
awk 'FNR == 1 { fenced = 0 }
     /^```/ { fenced = !fenced; next }
     fenced && /^\.\/midden / { print FILENAME ":" FNR "\t" $0 }' \
    README.md DEVELOPERS.md $(find docs -name '*.md' | sort) >"$scratch/commands"
bad=0 ran=0
tab=$(printf '\t')
while IFS=$tab read -r where command; do
    (cd "$scratch" && sh -c "$command") >"$scratch/output" 2>&1 </dev/null
    status=$?
    ran=$((ran + 1))
    if [ $status -gt 1 ]; then
        echo "$where: $command: ended with $status"
        cat "$scratch/output"
        bad=1
    fi
done <"$scratch/commands"
sh tests/teaching.sh "$midden" || bad=1
echo "docs: tables rewritten, $ran commands of the pages run"
exit $bad
