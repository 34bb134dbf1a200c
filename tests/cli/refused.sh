#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/refused.sh - what can't be done with a good file, each in a word of its own; and which of
# several files, plans and days is taken.
midden=$1
. tests/cli/cases.inc
. tests/cli/short.inc
jar=tests/field/x13/straw.yaml

# ---- questions that don't fit ----
for form in --csv --long "--plot $folder/p"; do
    ends 64 "shares of variance have no place for ${form% *}" run --sensitivity --members 16 $form "$pile"
    judge "which is named" says "no place beside it"
done
ends 64 "nor come from few piles" run --sensitivity --members 15 "$pile"
judge "and how many it takes is told" says "at least 16 piles"
ends 64 "nor from a slice" run --sensitivity --members 1-20 "$pile"
ends 1 "why has no answer for a jar held warm" why "$jar" --members 2
judge "and says so" says "no heat budget of its own"
ends 1 "nor has a lesson" lesson "$jar" --members 2
judge "with its reason" says "no heat in it to teach of"
ends 1 "nor have readings of it" learn "$jar" --members 16
judge "with theirs" says "readings of it tell nothing"
sed '/^need/d' "$pile" >"$tmp/aimless.yaml"
ends 1 "without a need there is nothing to search for" search "$tmp/aimless.yaml"
judge "and how to write one is told" says "search needs a \`need\`"
run search - --write "$tmp/x.yaml" <"$pile"
judge "a plan can't be put into standard input" [ "$status" -eq 64 ]
judge "which is said" says "--write needs the scenario in a file"
ends 64 "a setting that is no number" run "$pile" --set warmth=hot,5
judge "is told, with the point that a number takes" says "'hot,5' isn't a number; write a decimal point, not a comma"
ends 64 "an option that isn't there" run "$pile" --jsn=5
judge "is told without its value" says "no option '--jsn'; did you mean '--json'?"
long=$(printf 'a%.0s' $(seq 4000))
ends 64 "one whose name has no end" run "$pile" "--$long" --members 1
judge "is told by its beginning" [ "$(wc -c <"$tmp/err")" -lt 300 ]

# ---- weather with days missing ----
# covers DAY... : weather of these days only
covers() {
    { echo 'date,low C,high C,rain mm'; for day; do echo "$day,3,12,0"; done; } >"$tmp/days.csv"
}
covers 2025-10-19
ends 65 "weather that begins late and ends early" run "$pile"
judge "lacks days at both ends" says "days at both ends are missing"
covers 2025-10-18 2025-10-19
ends 65 "weather that ends early" run "$pile"
judge "lacks its last day" says "the days 2025-10-20 to 2025-10-20 of the season are missing"
covers 2025-10-19 2025-10-20
ends 65 "weather that begins late" run "$pile"
judge "lacks its first day" says "the days 2025-10-18 to 2025-10-18 of the season are missing"
covers 2025-09-01
ends 65 "weather of another time" run "$pile"
judge "lacks all of them" says "the days 2025-10-18 to 2025-10-20 of the season are missing"
covers 2025-10-18 2025-10-19 2025-10-20

# ---- which plans, which files ----
sed 's/turned:/other:/' "$pile" >"$tmp/two.yaml"
# rows FILE OPTION...: plans and files that are compared
rows() {
    run compare -q --members 2 --json "$@"
    python3 -c 'import json, sys
for p in json.load(sys.stdin)["plans"]: print(p["plan"], p["file"].split("/")[-1])' <"$tmp/out" >"$tmp/rows"
}
rows "$pile" --plan turned --plan turned
judge "a plan named twice is compared once" [ "$(cat "$tmp/rows")" = "turned pile.yaml" ]
rows "$pile" "$tmp/two.yaml" --plan turned --plan left
judge "a name that one of two files has is taken from that one" \
    [ "$(sort "$tmp/rows" | tr '\n' ',')" = "left pile.yaml,left two.yaml,turned pile.yaml," ]
ends 64 "a name that none of two files has" compare -q "$pile" "$tmp/two.yaml" --plan swirled
judge "is told" says "none of the scenarios has such a plan"
ends 64 "nor one of one file" compare -q "$pile" --plan swirled
judge "which is named" says "has no plan 'swirled'"
plans=$(n=1; while [ $n -le 24 ]; do echo "  plan $n: []"; n=$((n + 1)); done)
for file in a b c; do
    awk -v plans="$plans" '/^  (turned|left):/ { next } { print } /^plans:/ { print plans }' "$pile" >"$tmp/$file.yaml"
done
ends 64 "more plans than can be told apart" compare -q --members 2 "$tmp/a.yaml" "$tmp/b.yaml" "$tmp/c.yaml"
judge "and how many can" says "more than 64 plans"

# ---- the day of a visit ----
echo 'readings: {also: [{day: 2025-10-19, middle: 20 C}]}' | cat "$pile" - >"$tmp/read.yaml"
sed 's/2025-10-19, middle/2025-10-18, middle/' "$tmp/read.yaml" >"$tmp/early.yaml"
sed 's/^start: .*/start: 2025-10-17/; s/^sky: .*/sky: cold winters/' "$pile" >"$tmp/before.yaml"
# day FILE...: that next takes where none is named
day() {
    run next -q --members 16 --json "$@"
    python3 -c 'import json, sys; print(json.load(sys.stdin)["date"])' <"$tmp/out"
}
judge "of several files the latest reading counts" [ "$(day "$tmp/early.yaml" "$tmp/read.yaml")" = 2025-10-19 ]
judge "in any order" [ "$(day "$tmp/read.yaml" "$tmp/early.yaml")" = 2025-10-19 ]
judge "and before one without any" [ "$(day "$tmp/before.yaml" "$tmp/early.yaml")" = 2025-10-18 ]
judge "without a reading the first start" [ "$(day "$pile" "$tmp/before.yaml")" = 2025-10-17 ]
sed 's/2025-10-19, middle/2025-10-28, middle/' "$tmp/read.yaml" >"$tmp/late.yaml"
ends 64 "a reading after the season is no day of it" next "$tmp/late.yaml" --members 16
judge "and what to do is told" says "say which day with --day"
finish
