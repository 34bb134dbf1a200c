#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/said.sh - figures and words of an answer that belong together: tables have a number under each
# heading, parts add up, and what words say the numbers beside them bear.
midden=$1
. tests/cli/cases.inc
. tests/cli/short.inc
sed 's/turn: mixed/turn: mixed, water: 10 L/; s/mixed leaves: 30 buckets/&\n    water: 20 L/' "$pile" >"$tmp/wet.yaml"

sed 's/^sky: .*/sky: cold winters/' "$pile" >"$tmp/made.yaml"

# ---- why ----
run why -q --members 2 --long "$tmp/wet.yaml"
judge "each place has a share of the best pace under each heading" [ "$(sed -n '/^  % of its best pace/,/^$/p' "$tmp/out" |
    cut -c 29- | sed 's/food left/food/' | awk 'NF { print NF }' | tr '\n' ' ')" = "5 5 5 5 " ]
run why -q --members 2 "$tmp/wet.yaml"
mv "$tmp/out" "$tmp/text"
run why -q --members 2 --json "$tmp/wet.yaml"
judge "the way by which most heat leaves is that of the budget, and of the words" python3 - "$tmp/out" "$tmp/text" <<'END'
import json, sys
a, text = json.load(open(sys.argv[1])), " ".join(open(sys.argv[2]).read().split())
watts = a["budget_w"]
ways = {"steam and air": watts["vapour"] + watts["air"], "the top": watts["top"], "the walls": watts["walls"],
        "the ground": watts["ground"]}
most = min(ways, key=ways.get)
assert a["most_heat_leaves_by"].removeprefix("the ") == most.removeprefix("the "), a["most_heat_leaves_by"]
assert most + " take" in text
END

# ---- a visit ----
run next -q --members 4 --json "$tmp/wet.yaml" --day 2025-10-18
judge "water to build with comes in vessels that a person lifts, and is all of the visit's" python3 - "$tmp/out" <<'END'
import json, sys
a = json.load(open(sys.argv[1]))
task = a["piles"][0]["tasks"][0]
assert task["do"] == "build" and task["water_l"] == 20 and a["water_l"] == 20
assert abs(task["water_buckets"] * task["water_vessel_l"] - 20) < task["water_vessel_l"] / 2
assert task["water_vessel"] == "bucket" and task["water_vessel_l"] <= 12
END
run next -q --members 4 --json "$tmp/wet.yaml" --day 2025-10-19
judge "a day's water is that of its deeds" python3 - "$tmp/out" <<'END'
import json, sys
a = json.load(open(sys.argv[1]))
assert a["water_l"] > 5 and abs(a["water_l"] - sum(t.get("water_l", 0) for t in a["piles"][0]["tasks"])) < 1e-9
assert a["lifted_kg"] > 10 and abs(a["lifted_kg"] - a["piles"][0]["lifted_kg"]) < 1e-9
END

# ---- a season ----
run run -q --members 2 --long "$pile"
grep -A 1 '^  days ' "$tmp/out" | tr -s ' \n' ' ' >"$tmp/days"
judge "warm days in one run have no longest run beside them" sh -c "
    grep -q 'the middle, days at these C or more: ' '$tmp/days' && ! grep -q 'longest run' '$tmp/days'"
run run -q --members 2 --long --plan left "$pile"
judge "a plan without work is told without" grep -qx '  plan  left: no turns' "$tmp/out"
run run -q --members 2 --long --plan turned "$tmp/wet.yaml"
judge "one with work with its minutes, loads and water" \
    grep -qE '^  plan  turned: 1 turn, [0-9]+ min, [0-9]+ .*kg lifted, water [0-9]+ L' "$tmp/out"

# ---- a recipe ----
mkdir "$tmp/one" "$tmp/two"
cp "$tmp/made.yaml" "$tmp/one/pile.yaml"
sed "s/turned: .*/turned: [{day: 2025-10-19, turn: mixed, add: {fresh horse manure: 30 buckets}}]/" \
    "$tmp/made.yaml" >"$tmp/two/pile.yaml"
for folder in one two; do
    (cd "$tmp/$folder" && "$midden" mix --json --members 16 pile.yaml >../mix.$folder 2>../err) || not_ok "mix in $folder" "$(cat "$tmp/err")"
done
judge "a recipe is that of what is built, whatever the plan adds later" cmp "$tmp/mix.one" "$tmp/mix.two"

# ---- what is noted ----
sed 's/^plans:.*/plans:\n  only: []/; /^  turned:/d; /^  left:/d' "$pile" >"$tmp/only.yaml"
run run --members 1 --json "$tmp/only.yaml"
judge "where there is one plan nothing is said of choosing it" sh -c "! grep -q 'no plan was named' '$tmp/err'"
run run --members 1 --json "$pile"
judge "of two the first is named" says "no plan was named, so the first is taken: turned"
finish
