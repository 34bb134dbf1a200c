#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/thumb.sh - the page docs/rules-of-thumb.md: its commands can be understood, and the cheapest
# of its rules still come out as they are taught. `make thumb` tries all of them.
midden=$1
. tests/cli/cases.inc
page=docs/rules-of-thumb.md

# ---- the page ----
for file in tests/thumb/*.yaml; do
    ends 0 "check understands ${file##*/}" check "$file"
done
judge "the page is there" [ -s $page ]
names=$(sed -n 's/^rule \([a-z]*\) .*/\1/p' tests/thumb/rules.inc)
for name in $names; do
    judge "rule $name has one place in the page" [ "$(grep -c "^<!-- $name -->\$" $page)" -eq 1 ]
    judge "with a verdict in it" [ -n "$(sed -n "/^<!-- $name -->\$/,/^<!-- end -->\$/s/^\*\*In the model it \(holds\|fails\|holds in part\)\*\* .*/x/p" $page)" ]
done
judge "every rule of the summary has its heading" [ -z "$(
    sed -n '/^<!-- summary -->$/,/^<!-- end -->$/s/^| \[\(.*\)\](#.*/\1/p' $page | while read -r title; do
        grep -qxF "### $title" $page || echo "$title"
    done)" ]

# Every command of the page, with `check` in place of `run` and `mix`: the file must be there, the words
# of `sed` must change it, and the plan must be one of its plans.
sed -n 's/^- `\(.*\)`$/\1/p' $page | sort -u >"$tmp/commands"
judge "the page shows commands" [ "$(wc -l <"$tmp/commands")" -ge 25 ]
bad=0
while IFS= read -r command; do
    file=$(echo "$command" | grep -o 'tests/thumb/[a-z]*\.yaml')
    plan=$(echo "$command" | sed -n "s/.*--plan '\([^']*\)'.*/\1/p")
    change=$(echo "$command" | sed -n "s/^sed '\([^']*\)'.*/\1/p")
    sed "$change" "$file" >"$tmp/changed.yaml" || bad=1
    if [ -n "$change" ] && cmp -s "$file" "$tmp/changed.yaml"; then
        echo "  changes nothing: $command"
        bad=1
    fi
    "$midden" check -q "$tmp/changed.yaml" >"$tmp/out" 2>"$tmp/err" || { echo "  $command"; cat "$tmp/err"; bad=1; }
    if [ -n "$plan" ] && ! grep -q "^  $plan:" "$file"; then
        echo "  no such plan: $command"
        bad=1
    fi
done <"$tmp/commands"
judge "each can be understood" [ $bad -eq 0 ]

# ---- the cheapest rules, on few piles ----
if command -v jq >/dev/null; then
    # hottest FILE-CHANGE: the warmest daily median of the middle in two weeks
    hottest() {
        sed "s/2026-11-04/2026-09-19/; $1" tests/thumb/size.yaml |
            "$midden" run -q --json --members 4 - | jq '[.days[].middle_c] | max'
    }
    small=$(hottest 's/1.2 x 1.2 x 1.2/0.6 x 0.6 x 0.6/; s/214/27/; s/107/13/')
    big=$(hottest '')
    judge "a cube of 1.2 m gets 5 K hotter than one of 0.6 m (Washington State University [seen]: 1 m3)" \
        jq -en "$big - $small >= 5"
    # a litre takes 2.26 to 2.5 MJ from boiling to freezing (steam tables [memory]), and moist air some more
    sed 's/by 2026-07-14/by 2026-05-24/' tests/thumb/dry.yaml >"$tmp/dry.yaml"
    run run -q --json --members 4 "$tmp/dry.yaml"
    judge "a kilogram of water that leaves as vapour takes 2.2 to 2.7 MJ" \
        jq -e '.fluxes | .vapour_heat_MJ / .vapour_water_kg | . > 2.2 and . < 2.7' "$tmp/out"
    # W = M (m2 - m1)/(1 - m2) [derived]: 300 kg, 40 to 55 %
    sed '/squeeze/d; s/bulk:/water: 40 %, bulk:/; s/350/300/' tests/thumb/mix.yaml >"$tmp/wet.yaml"
    run mix -q --json --members 1 "$tmp/wet.yaml"
    judge "300 kg at 40 % are to have 100 L, within a tenth" \
        jq -e '.advice[0].needed_l > 90 and .advice[0].needed_l < 110' "$tmp/out"
fi
finish
