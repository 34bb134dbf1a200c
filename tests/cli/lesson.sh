#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/lesson.sh - forty minutes with a class: the page, the guesses, JSON, the figures.
midden=$1
. tests/cli/cases.inc
pile=$tmp/pile.yaml
sed 's/^need: .*/need: by 2026-05-23/' scenarios/minimal.yaml >"$pile"

ends 0 "a lesson is told" lesson --members 4 "$pile"
cp "$tmp/out" "$tmp/lesson"
judge "in 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
judge "it is forty minutes long" [ "$(grep -c '^[0-9]*-[0-9]* min: ' "$tmp/out")" -eq 9 ]
judge "they end with the fortieth" tells "38-40 min: "
judge "every step has something to do, to ask and to show" \
    [ "$(grep -c '^  do ' "$tmp/out") $(grep -c '^  ask ' "$tmp/out") $(grep -c '^  shows ' "$tmp/out")" = "9 9 9" ]
judge "cautions are said once" [ "$(grep -c '^  care ' "$tmp/out")" -eq 1 ]
judge "nothing is called safe" [ -z "$(grep -i safe "$tmp/out")" ]
judge "what isn't so is put right" tells "Not to be said, and what is so:"
judge "nobody is asked" [ ! -s "$tmp/err" ]
ends 0 "told again" lesson --members 4 "$pile" --threads 1
judge "it is the same, whatever the threads" cmp -s "$tmp/out" "$tmp/lesson"
ends 0 "another draw" lesson --members 4 "$pile" --draw 2
judge "is another lesson" [ "$(cmp "$tmp/out" "$tmp/lesson" 2>/dev/null; echo $?)" != 0 ]
ends 0 "of a day" lesson --members 4 "$pile" --day 20
judge "it tells of that day" tells "(day 20, the day asked for)"

printf 'the worms\n\nby the walls\n' >"$tmp/guesses"
"$midden" lesson --members 4 "$pile" --ask-first <"$tmp/guesses" >"$tmp/out" 2>"$tmp/err"
status=$?
judge "guesses are asked for" [ $status -eq 0 ]
judge "before what is shown" says "Where does the warmth come from? (Enter goes on)"
judge "and are repeated" tells "  guess the worms"
judge "but none where none was made" [ "$(grep -c '^  guess' "$tmp/out")" -eq 2 ]
judge "when nobody answers any more it goes on" [ "$(grep -v '^  guess' "$tmp/out" | cmp - "$tmp/lesson"; echo $?)" = 0 ]
judge "and asks no further" [ "$(grep -o 'Enter goes on' "$tmp/err" | wc -l)" -eq 4 ]
"$midden" lesson --members 4 "$pile" --ask-first -o "$tmp/file" </dev/null >"$tmp/out" 2>"$tmp/err"
judge "into a file it is whole" cmp -s "$tmp/file" "$tmp/lesson"

{
    cat "$pile"
    cat <<'END'
plans:
  leave it: []
  fork: [{day: 2026-04-25, turn: mixed, into: same}]
  more: [{day: 2026-04-25, turn: mixed, into: same}, {day: 2026-05-09, turn: mixed, into: same}]
END
} >"$tmp/busy.yaml"
ends 0 "a plan that does something" lesson --members 4 "$tmp/busy.yaml" --plan more
judge "stands beside one that doesn't" tells '`leave it`: 0 min'
ends 0 "two plans may be named" lesson --members 4 "$tmp/busy.yaml" --plan more --plan fork
judge "and both are told" tells '`fork`: '
ends 64 "but not three" lesson "$tmp/busy.yaml" --plan more --plan fork --plan 'leave it'
ends 64 "nor one twice" lesson "$tmp/busy.yaml" --plan more --plan more
ends 64 "nor one that isn't there" lesson "$tmp/busy.yaml" --plan less
ends 64 "one pile alone is no lesson" lesson --members 1 "$pile"
ends 64 "nor are thousands" lesson --members 1000 "$pile"
ends 64 "a guess needs words" lesson "$pile" --ask-first --json
ends 64 "a scenario from standard input leaves no room for guesses" lesson - --ask-first
ends 66 "a file that is missing is missed" lesson "$tmp/none.yaml"
ends 64 "a day outside the season" lesson "$pile" --day 2030-01-01

# no winter can be made up of a file, so the coldest day it has is told; nor longer seasons than it has
{
    echo "date,low C,high C,rain mm"
    day=0
    while [ $day -lt 100 ]; do
        echo "$(date -u -d "2026-04-05 + $day days" +%F),4,$((10 + day % 7)),0"
        day=$((day + 1))
    done
} >"$tmp/days.csv"
sed -e 's/^sky: .*/sky: {weather: days.csv}/' "$pile" >"$tmp/filed.yaml"
ends 0 "weather of a file" lesson --members 4 "$tmp/filed.yaml"
judge "is no other winter" [ -z "$(grep 'begun on' "$tmp/out")" ]
judge "and not made up" [ -z "$(grep 'made up' "$tmp/out")" ]

if command -v jq >/dev/null; then
    ends 0 "JSON is asked for" lesson --members 4 "$pile" --json
    judge "its keys are those of the lesson" jq -e 'has("today") and has("needs") and has("watts") and has("watt_days")
        and has("sizes") and has("turn") and has("wetness") and has("winter") and has("two_plans")' "$tmp/out"
    judge "two sizes, three wetnesses, nine steps" \
        jq -e '(.sizes | length == 2) and (.wetness | length == 3) and (.steps | length == 9)' "$tmp/out"
    tr -s '\n ' '  ' <"$tmp/lesson" >"$tmp/line"
    for say in '"decay makes \(.watts.decay | round) ("' '"Food: \(.needs.dry_kg | round) ("' \
        '"cube of 60 cm: at most \(.sizes[0].peak_c | round) °C"' '"the middle is at \(.turn.middle_before_c | round) °C"' \
        '"(that evening \(.wetness[2].water_share * 100 | round) "' '"decay makes \(.winter.heat_made_then_w | round) ("'; do
        judge "JSON and page agree: $(jq -r "$say" "$tmp/out")" grep -qF -- "$(jq -r "$say" "$tmp/out")" "$tmp/line"
    done
    judge "a day for each of the season" jq -e '(.watt_days | length) == .watt_days[-1].day' "$tmp/out"
fi

if command -v gnuplot >/dev/null; then
    ends 0 "figures are drawn" lesson --members 4 "$pile" --plot "$tmp/pictures"
    for figure in watts sizes turned wetness blanket; do
        judge "lesson_$figure is there, for print and screen" \
            [ -s "$tmp/pictures/lesson_$figure.svg" -a -s "$tmp/pictures/lesson_$figure.png" ]
        judge "its title is a sentence" grep -q '<title>[A-Z].* .*[0-9].*</title>' "$tmp/pictures/lesson_$figure.svg"
    done
    ends 73 "figures that are there aren't replaced" lesson --members 4 "$pile" --plot "$tmp/pictures"
else
    echo "skip - gnuplot isn't installed"
fi
finish
