#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/next.sh - what to do on a day: text, JSON, several piles, days that can't be.
midden=$1
. tests/cli/cases.inc
cat >"$tmp/pile.yaml" <<'YAML'
midden: 1
name: Sorrel Bank
start: 2025-10-18
place: {latitude: 47.2 N, elevation: 430 m}
sky: cold winters
measures: {bucket: 12 L, bag: 110 L}
bins:
  bay 1: {size: 1.2 x 1.2 x 1 m}
  bay 2: {like: bay 1, now: empty}
build:
  - mixed leaves: 8 bags pressed
    grass clippings: 30 buckets
    water: 5 buckets
plans:
  two turns:
    - {day: 2025-10-25, turn: outside in, into: bay 2, water: 2 buckets}
    - {day: 2025-11-08, turn: mixed, into: bay 1}
  when it cools:
    - {look: Saturday, when: middle below 50 C, turn: mixed, into: next, water: 2 buckets}
need: by 2025-11-29
people: {helpers: 2 to 4, days: Saturday, away: 2025-11-08, visit: 90 min, heaviest load: 12 kg}
readings:
  - {day: 2025-10-21, middle: 58 C}
  - {day: 2025-10-20, middle: 50 C}
YAML
pile=$tmp/pile.yaml
sed -e 's/Sorrel Bank/Dock Lane/' -e 's/2025-10-18/2025-10-25/' -e '/^readings/,$d' \
    -e 's/  two turns:/  leave it: []/' -e '/day: 2025-10-25, turn/d' -e '/day: 2025-11-08/d' \
    -e 's/^  bay 1: .*/  bay 2: {size: 1 x 1 x 1 m}/' -e '/^  bay 2: {like/d' "$pile" >"$tmp/other.yaml"

ends 0 "work is told" next --members 4 "$pile" --day 2025-10-25
judge "with bays, way and day" tells "On 25 Oct turn bay 1 into bay 2, outside in: 2 to 4 people"
judge "with what to read first" tells "first probe: the middle should read"
judge "with the next day of work" tells "next work on 8 Nov"
judge "and that the plan is the first of several" tells "first of 2, none named"
judge "in at most 12 lines" [ "$(wc -l <"$tmp/out")" -le 12 ]
judge "of at most 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
judge "nothing is called safe" [ -z "$(grep -i safe "$tmp/out")" ]
cp "$tmp/out" "$tmp/short"
ends 0 "a number is the same day" next --members 4 "$pile" --day 8
judge "with the same answer" cmp "$tmp/out" "$tmp/short"
ends 0 "the first day is that of building" next --members 4 "$pile" --day 2025-10-18
judge "with what to bring" tells "bags of mixed leaves 8; thermometer"
ends 0 "on a day without work" next --members 4 "$pile" --day 2025-10-28
judge "the next work is told" tells "Nothing to do on 28 October 2025; next work on 8 Nov: turn into bay 1, mixed."
judge "and a reading meanwhile" tells "read  the middle: 30 Oct"
ends 0 "without --day it is the day of the last reading" next --members 4 "$pile"
judge "whatever their order" tells "Nothing to do on 21 October 2025"
judge "which is said" tells "no --day, so the"
ends 0 "a rule is looked at" next --members 4 "$pile" --plan 'when it cools' --day 2025-10-25
judge "and told in words" tells "Look on 25 Oct: if the middle reads below 50"
judge "with its chance" tells "in 10"
ends 0 "a day away is told of" next --members 4 "$pile" --day 2025-11-08
judge "as one on which nobody comes" tells "nobody comes on 8 November 2025"

# several
ends 0 "two piles are one visit" next --members 4 "$pile" "$tmp/other.yaml" --day 2025-10-25
judge "whose work is joined" tells "One visit on 25 Oct has work at 2 of 2 piles"
judge "and whose bays clash" grep -q 'both go into bay 2' "$tmp/out"
judge "in at most 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
ends 0 "a pile that isn't there yet is left out" next --members 4 "$pile" "$tmp/other.yaml" --day 2025-10-20
judge "which is noted" says "other.yaml"
ends 64 "a day in no season is refused" next --members 4 "$pile" "$tmp/other.yaml" --day 2027-01-01

# JSON
if command -v jq >/dev/null; then
    run next --members 4 "$pile" --day 2025-10-25 --json
    judge "JSON has its day" [ "$(jq -r '.date, .day' "$tmp/out" | tr '\n' ' ')" = "2025-10-25 8 " ]
    judge "its deed" [ "$(jq -r '.piles[0].tasks[0] | .do, .how, .into' "$tmp/out" | tr '\n' ',')" = \
        "turn,outside in,bay 2," ]
    judge "its chance" jq -e '.piles[0].tasks[0].chance == 1' "$tmp/out"
    judge "water in buckets, as poured" [ "$(jq '.piles[0].tasks[0].water_buckets' "$tmp/out")" -ge 1 ]
    judge "the next date" [ "$(jq -r '.piles[0].next_date' "$tmp/out")" = 2025-11-08 ]
    judge "two days to read" [ "$(jq -r '.piles[0].read[].date' "$tmp/out" | tr '\n' ' ')" = \
        "2025-10-27 2025-10-30 " ]
    judge "ranges in order" jq -e '.piles[0].tasks[0] | .person_minutes_low <= .person_minutes and
        .person_minutes <= .person_minutes_high and .clock_minutes_low <= .clock_minutes_high' "$tmp/out"
    run run --members 4 "$pile" --json -q
    cp "$tmp/out" "$tmp/run"
    run next --members 4 "$pile" --day 2025-10-25 --json
    judge "the work is that of the season" [ "$(jq '.piles[0].person_minutes' "$tmp/out")" = \
        "$(jq '.days[7].events[0].person_minutes' "$tmp/run")" ]
    judge "and a later reading that of its days" jq -e --slurpfile season "$tmp/run" \
        '(.piles[0].read[0].forecast_c - $season[0].days[9].middle_c) | fabs < 1e-6' "$tmp/out"
    run next --members 4 "$pile" "$tmp/other.yaml" --day 2025-10-25 --json
    judge "a clash is listed" [ "$(jq -r '.clashes[0].bay' "$tmp/out")" = "bay 2" ]
    judge "totals are sums" jq -e '([.piles[].person_minutes] | add) - .person_minutes | fabs < 1e-6' "$tmp/out"
else
    echo "skip - jq isn't installed"
fi

# what can't be
ends 64 "a day before the season is refused" next "$pile" --day 2025-10-17
judge "and the season told" says "2025-10-18 to 2025-11-29"
ends 64 "a day that isn't one is refused" next "$pile" --day soon
ends 64 "it needs a scenario" next
ends 64 "it has no CSV" next "$pile" --csv
ends 64 "one pile alone has no chances" next "$pile" --members 1 --day 2025-10-25
ends 64 "a plan that isn't there is refused" next "$pile" --plan 'two turn' --day 2025-10-25
judge "and the nearest named" says "did you mean 'two turns'"
ends 66 "a scenario that isn't there is missing" next "$pile" "$tmp/nowhere.yaml" --day 2025-10-25
finish
