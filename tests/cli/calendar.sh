#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/calendar.sh - rules, their keepers' eyes and their calendar, with the scenario that
# docs/scenario.md shows for them.
midden=$1
. tests/cli/cases.inc
pile=$tmp/rules.yaml
awk '/^```yaml/ { on = 1; text = ""; next }
     /^```/ { if (on && text ~ /name: rules of the gate/) printf "%s", text; on = 0 }
     on { text = text $0 "\n" }' docs/scenario.md >"$pile"
judge "the page shows rules and a calendar" [ -s "$pile" ]

ends 0 "they are understood" check "$pile"
judge "with nothing odd" tells "nothing odd"
judge "a dial 4 C high in ice: 50 is 46" grep -q '50 °C.*is taken for 46 °C' "$tmp/out"

# days_of FILE: dates on which something was done, from CSV
days_of() { awk -F, 'NR > 1 && $(NF - 2) != "" && $(NF - 2) != "0" { print $2 }' "$1"; }
weekday() { date -u -d "$1" +%a; }
saturdays() { for day in $(days_of "$1"); do [ "$(weekday "$day")" = Sat ] || return; done; }

for plan in 'when it cools' 'when it is dry'; do
    ends 0 "the plan '$plan' is run" run "$pile" --plan "$plan" --members 1 --csv
    judge "something is done" [ "$(days_of "$tmp/out" | wc -l)" -gt 0 ]
    judge "on Saturdays only" saturdays "$tmp/out"
done
# looked at every day, the pile would be turned before its first free Saturday
sed 's/look: Saturday, when: middle/look: day, when: middle/' "$pile" >"$tmp/daily.yaml"
run run "$tmp/daily.yaml" --members 1 --csv
judge "a look each day is still one on their days" saturdays "$tmp/out"
first=$(days_of "$tmp/out" | head -1)
sed "s/away: \[/away: [$first, /" "$pile" >"$tmp/away.yaml"
run run "$tmp/away.yaml" --members 1 --csv
later=$(days_of "$tmp/out" | head -1)
judge "on a day away nothing is done" [ "$later" != "$first" ]
sed 's/days: Saturday/days: any day/' "$tmp/daily.yaml" >"$tmp/any.yaml"
run run "$tmp/any.yaml" --members 1 --csv
judge "with all days free it is turned sooner" [ "$(days_of "$tmp/out" | head -1)" \< "$first" ]

# ---- possible piles are seen by possible keepers; no digit depends on how they are run ----
short=$tmp/short.yaml
sed 's/need: by 2026-04-11/need: by 2025-11-15/; s/, 2025-12-27\]/]/' "$pile" >"$short"
run run "$short" --members 12 --json --threads 1
cp "$tmp/out" "$tmp/one"
run run "$short" --members 12 --json --threads 2
judge "two threads give the same bytes" cmp "$tmp/out" "$tmp/one"
run run "$short" --members 12 --json
for members in 1-5 6-12; do
    run run "$short" --members $members -o "$tmp/$members.shard"
    judge "members $members are a slice" [ $status -eq 0 ]
done
"$midden" run --merge --json "$tmp/6-12.shard" "$tmp/1-5.shard" >"$tmp/merged" 2>"$tmp/err"
judge "slices give the same answer" [ "$(grep -c '"middle_c"' "$tmp/merged")" -gt 40 ]
sed '/"scenario"/d' "$tmp/one" >"$tmp/a"
sed '/"scenario"/d' "$tmp/merged" >"$tmp/b"
judge "to the last digit" cmp "$tmp/a" "$tmp/b"
judge "not all turn on the same day" [ "$(grep -c '"do": "turn"' "$tmp/one")" -gt 1 ]
sed 's/in ice water: 4 C/in ice water: 9 C/' "$short" >"$tmp/nine.yaml"
run run "$tmp/nine.yaml" --members 12 --json
judge "what ice water told is taken off, however much" cmp "$tmp/out" "$tmp/one"
# looked at every day and turned on any: from one Saturday to the next no dial is that far off
sed 's/need: by 2026-04-11/need: by 2025-11-15/' "$tmp/any.yaml" >"$tmp/known.yaml"
sed 's/, in ice water: 4 C//' "$tmp/known.yaml" >"$tmp/never.yaml"
run run "$tmp/known.yaml" --members 12 --json
cp "$tmp/out" "$tmp/known"
run run "$tmp/never.yaml" --members 12 --json
judge "a dial never held in ice is another" [ -n "$(cmp "$tmp/out" "$tmp/known")" ]
run run "$tmp/never.yaml" --members 1 --json
cp "$tmp/out" "$tmp/central"
run run "$tmp/known.yaml" --members 1 --json
judge "but the central pile is seen as it is" cmp "$tmp/out" "$tmp/central"

# ---- visits that don't fit ----
sed -e 's/when it is dry:/by date:/' -e 's/- {look: Saturday, when: squeeze fails,/- {day: 2025-11-01,/' \
    -e 's/visit: 60 min/visit: 5 min/' "$pile" >"$tmp/dated.yaml"
sed -i '/2025-11-01, water/a\    - {day: 2025-11-05, water: 3 buckets}\n    - {every: week, from: 2025-11-04, water: 1 bucket}' \
    "$tmp/dated.yaml"
ends 0 "a plan beside the calendar is understood" check "$tmp/dated.yaml"
judge "a day away is told once" [ "$(tr -s '\n ' '  ' <"$tmp/out" | grep -o '1 November 2025 is a day away' | wc -l)" -eq 1 ]
judge "so is another weekday" grep -q 'Wednesday, none of your' "$tmp/out"
judge "and a rhythm that never meets them" grep -q 'Tuesday' "$tmp/out"
run run "$tmp/dated.yaml" --plan 'by date' --members 1 --csv
judge "dated visits are made all the same" [ "$(days_of "$tmp/out" | tr '\n' ' ')" = "2025-11-01 2025-11-05 " ]
run run "$tmp/dated.yaml" --members 1
judge "a visit that takes too long is told with its minutes" \
    grep -q 'turning on .* by the clock with 3 people' "$tmp/out"
judge "in at most twelve lines" [ "$(wc -l <"$tmp/out")" -le 12 ]
judge "of at most eighty columns" [ "$(widest "$tmp/out")" -le 80 ]

# ---- check says to which day forecasts look on ----

ends 0 "the demonstration garden is understood" check scenarios/nettle-yard.yaml
last=$(tr -s '\n ' '  ' <"$tmp/out" | sed 's/.*forecasts look on, in case it is late, to \([0-9]* [A-Z][a-z]* [0-9]*\).*/\1/')
run run scenarios/nettle-yard.yaml --members 1 --csv
judge "which is the last day of a run" [ "$(date -u -d "$last" +%F)" = "$(tail -1 "$tmp/out" | cut -d, -f2)" ]
finish
