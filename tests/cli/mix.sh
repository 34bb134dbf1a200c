#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/mix.sh - the command mix: its answers in words and as JSON, and what it refuses.
midden=$1
. tests/cli/cases.inc
head='midden: 1
name: a bin
start: 2025-10-18
place: {latitude: 47.2 N}
measures: {bucket: 12 L, bag: 110 L}
bin: 1.2 x 1.2 x 1 m
'
pile=$tmp/pile.yaml
printf '%ssky: cold winters\nbuild:\n  - mixed leaves: 10 bags\n    grass clippings: 4 buckets\n' "$head" >"$pile"

for scenario in scenarios/*.yaml; do
    ends 0 "mix answers for ${scenario##*/}" mix "$scenario"
    judge "in at most 12 lines" [ "$(wc -l <"$tmp/out")" -le 12 ]
    judge "of at most 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
    judge "without a word on standard error" [ ! -s "$tmp/err" ]
    ends 0 "and at length" mix --long "$scenario"
    judge "in as many columns" [ "$(widest "$tmp/out")" -le 80 ]
done

# words
ends 0 "a brown mix is an answer" mix "$pile"
judge "what is wrong stands first" grep -q '^Too dry and too brown' "$tmp/out"
judge "what to add is counted in vessels" grep -q 'buckets' "$tmp/out"
judge "in at most 12 lines" [ "$(wc -l <"$tmp/out")" -le 12 ]
judge "nothing is called safe" [ -z "$(grep -i safe "$tmp/out")" ]
for label in why wet 'left so' do sure; do
    judge "there is a line \`$label\`" grep -q "^  $label " "$tmp/out"
done
run mix --long "$pile"
judge "--long has a line for each ingredient" [ "$(grep -c '^  of ' "$tmp/out")" -eq 2 ]
run mix --members 1 "$pile"
judge "one pile has no range" [ -z "$(grep '([0-9].*-' "$tmp/out")" ]
printf '%ssky: cold winters\nhave: {mixed leaves: 10 bags pressed crisp, coffee grounds: 10 buckets}\n' \
    "$head" >"$tmp/have.yaml"
ends 0 "a stock alone can be mixed" mix "$tmp/have.yaml"
judge "something must be found" grep -q 'find about' "$tmp/out"
judge "or less of it used" grep -q '^  or  *leave out' "$tmp/out"
judge "in at most 12 lines" [ "$(wc -l <"$tmp/out")" -le 12 ]
ends 1 "a stock alone is no season" run --members 1 "$tmp/have.yaml"
printf '%ssky: cold winters\nbuild:\n  - mixed leaves: 8 bags\n    grass clippings: 30 buckets\n    squeeze: crumbles\n' \
    "$head" >"$tmp/felt.yaml"
ends 0 "a handful that crumbles" mix "$tmp/felt.yaml"
judge "asks for water" grep -q '^Too dry: pour [0-9 /]* buckets of water ([0-9]*-[0-9]*)\.$' "$tmp/out"

# the weather has no part in what it adds up to
printf '%ssky: {weather: nowhere.csv}\nbuild:\n  - mixed leaves: 10 bags\n    grass clippings: 4 buckets\n' \
    "$head" >"$tmp/other.yaml"
"$midden" mix "$pile" | grep -vE '^  left so|^   ' >"$tmp/one"
ends 0 "a weather file isn't read" mix "$tmp/other.yaml"
grep -vE '^  left so|^   ' "$tmp/out" >"$tmp/two"
judge "and would change nothing but what becomes of it left so" cmp "$tmp/one" "$tmp/two"

# JSON
run mix --json "$pile"
cp "$tmp/out" "$tmp/json"
for key in c_to_n water_share free_air_share bulk_kg_m3 volume_m3; do
    for end in '' _low _high; do
        judge "JSON has $key$end" grep -qE "^ \"$key$end\": [0-9.e-]+," "$tmp/json"
    done
done
if command -v python3 >/dev/null; then
    judge "its advice has amount, unit and what it reaches" python3 -c '
import json, sys
d = json.load(open(sys.argv[1]))
assert d["advice"]
for a in d["advice"]:
    assert a["amount"] > 0 and a["unit"] and a["reaches"] and a["add"]
    assert a["amount_low"] <= a["amount_high"]
assert 25 < d["with_advice"]["c_to_n"] < 36 and d["c_to_n"] > 40
assert d["c_to_n_low"] < d["c_to_n"] < d["c_to_n_high"]
' "$tmp/json"
fi
# 300 kg at 40 % take 100 L for 55 % [derived: 180 kg of dry matter], 5.3 buckets of 18.93 L
sed 's/bucket: 12 L/bucket: 18.93 L/' >"$tmp/wet.yaml" <<END
$head
sky: cold winters
ingredients:
  our bedding: {like: used straw bedding, water: 40 %}
build:
  - our bedding: 300 kg
END
run mix --json --members 1 "$tmp/wet.yaml"
judge "litres to pour are as on paper" \
    awk '/"needed_l"/ { l = $2 + 0; exit !(l / 18.93 > 5.2 && l / 18.93 < 5.4) }' "$tmp/out"
judge "and there are such" tells needed_l
run mix "$tmp/wet.yaml"
judge "they are told" grep -q '^  do .* L$' "$tmp/out"

run mix --json "$pile"
judge "the same question has the same answer" cmp "$tmp/json" "$tmp/out"
run mix --json --draw 2 "$pile"
judge "another draw has other piles" [ -n "$(cmp "$tmp/json" "$tmp/out")" ]
run mix --json --members 1 "$pile"
judge "one member has no ends" [ -z "$(grep -e '_low\|_high' "$tmp/out")" ]
run mix --json --set trodden_share=0.8 "$pile"
judge "--set counts" [ -n "$(cmp "$tmp/json" "$tmp/out")" ]
ends 0 "an answer can go to a file" mix "$pile" -o "$tmp/answer"
ends 73 "which isn't replaced" mix "$pile" -o "$tmp/answer"
ends 0 "unless it may be" mix "$pile" -o "$tmp/answer" --force

# the first scenario
ends 0 "the first scenario is written" new -o "$tmp/new.yaml"
run mix "$tmp/new.yaml"
judge "its mix is right as it stands" tells "The mix is right as it stands"
run check "$tmp/new.yaml"
judge "and nothing about it is odd" tells "nothing odd"
sed 's/grass clippings: 12/grass clippings: 10/; s/water: 1 to 2/water: 2/' "$tmp/new.yaml" >"$tmp/less.yaml"
run mix "$tmp/less.yaml"
judge "advice that leaves the chance where it was says so" tells "7 (6-7) in 10 to be right as it is, 7 (6-7) in 10 then: no likelier"

# Its advice, followed, is followed by none. The layer that is added holds what was to be added or found; water by
# itself goes into the last layer.
follow() {
    awk '/"with_advice"/ { exit }
        / "add":/ { split($0, part, "\""); name = part[4] }
        / "amount":/ { amount = $2 + 0 }
        / "unit":/ { split($0, part, "\"")
            if (name == "water") water = "    water: " amount " " part[4]
            else { print (laid ? "    " : "  - ") name ": " amount " " part[4]; laid = 1 } }
        END { if (water) print water }' "$1"
}
first_right() { grep -m 1 '"right"' "$tmp/out" | grep -q "$1"; } # of the advice; that of another way stands after it
for recipe in 'straw: 40 buckets, horse manure: 10 buckets' 'dry leaves: 20 buckets, grass clippings: 4 buckets' \
    'straw: 30 buckets, kitchen scraps: 5 buckets' 'wood chips: 30 buckets, grass clippings: 5 buckets' \
    'straw: 20 buckets' 'sawdust: 10 buckets, chicken manure: 5 buckets' 'hay: 10 buckets' \
    'grass clippings: 20 buckets, mixed leaves: 5 buckets' \
    'sawdust: 4 buckets, wood chips: 4 buckets, water: 1 bucket'; do
    printf '%ssky: cold winters\nbuild:\n  - %s\n' "$head" "$(echo "$recipe" | sed 's/, /\n    /g')" >"$tmp/asked.yaml"
    run mix --json "$tmp/asked.yaml"
    cp "$tmp/out" "$tmp/advised"
    judge "$recipe: there is advice that is right" first_right true
    follow "$tmp/advised" >"$tmp/more"
    judge "which names something" [ -s "$tmp/more" ]
    cat "$tmp/more" >>"$tmp/asked.yaml"
    ends 0 "followed" mix "$tmp/asked.yaml"
    judge "it leaves nothing to be put right" tells "The mix is right as it stands"
done
for recipe in 'kitchen scraps: 20 buckets' 'chicken manure: 10 buckets, mixed leaves: 15 buckets'; do
    printf '%ssky: cold winters\nbuild:\n  - %s\n' "$head" "$(echo "$recipe" | sed 's/, /\n    /')" >"$tmp/asked.yaml"
    run mix --json "$tmp/asked.yaml"
    cp "$tmp/out" "$tmp/advised"
    judge "$recipe: advice isn't all that is wanted" first_right false
    run mix "$tmp/asked.yaml"
    tr -s '\n ' ' ' <"$tmp/out" >"$tmp/line"
    judge "and says so" grep -q 'that goes part of the way, since no two common ingredients put it all right\.' "$tmp/line"
    follow "$tmp/advised" >>"$tmp/asked.yaml"
    ends 0 "followed" mix "$tmp/asked.yaml"
    judge "it is indeed not right yet" [ -z "$(grep 'right as it stands' "$tmp/out")" ]
done

# refusals
ends 64 "mix needs a scenario" mix
ends 64 "one at a time" mix "$pile" "$pile"
ends 64 "it has no slices" mix --members 1-8 "$pile" -o "$tmp/slice"
ends 64 "nor CSV" mix --csv "$pile"
ends 66 "a file must be there" mix "$tmp/none.yaml"
printf '%ssky: cold winters\nfound: {height: 60 cm}\n' "$head" >"$tmp/found.yaml"
ends 65 "of a pile found what it is made of must be known" mix "$tmp/found.yaml"
printf '%ssky: cold winters\n' "$head" >"$tmp/empty.yaml"
ends 65 "nothing can't be mixed" mix "$tmp/empty.yaml"
finish
