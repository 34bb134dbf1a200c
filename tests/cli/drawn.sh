#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/drawn.sh - what pictures are drawn from: a gnuplot stands in that keeps the scripts it gets, in
# which the figures, days and words are looked up.
midden=$1
. tests/cli/cases.inc
. tests/cli/short.inc
kept=$tmp/kept fake=$tmp/fake
mkdir "$fake"
cat >"$fake/gnuplot" <<END
#!/bin/sh
for last; do :; done
cp "\$last" "$kept"
echo '<svg><title></title><desc></desc></svg>'
END
chmod +x "$fake/gnuplot"
sed 's/turn: mixed/turn: mixed, water: 10 L/; s/mixed leaves: 30 buckets/&\n    water: 20 L/' "$pile" >"$tmp/wet.yaml"

# drawn ARGUMENT...: scripts of its pictures are in $kept
drawn() {
    rm -rf "$kept" "$tmp/p"
    mkdir "$kept"
    PATH=$fake:$PATH "$midden" "$@" -q >"$tmp/out" 2>"$tmp/err"
    status=$?
}
# block PICTURE NAME: lines of such a table
block() { sed -n "/^\\\$$2 << END/,/^END/p" "$kept/$1".svg.gp | sed '1d;$d'; }

# ---- plans side by side ----
drawn compare --members 4 "$tmp/wet.yaml" --plot "$tmp/p"
judge "plans have a row each" [ "$(block plans ROWS | awk '{ print $1 }' | tr '\n' ' ')" = "2 1 " ]
judge "in which the need is the third day" [ "$(block plans ROWS | awk '{ print $7 }' | sort -u)" = 3 ]
judge "and a curve each, day by day" [ "$(block plans CURVES | awk 'NF { print $1 }' | tr '\n' ' ')" = "1 2 3 1 2 3 " ]
judge "with least work first" grep -qF "NAME[1] = 'left'" "$kept/plans.svg.gp"
judge "one garden is named alone" grep -q "^from = 'pile; from 18 Oct 2025; 4 possible piles" "$kept/plans.svg.gp"
cp "$tmp/wet.yaml" "$tmp/also.yaml"
drawn compare --members 2 "$tmp/wet.yaml" "$tmp/also.yaml" --plot "$tmp/p"
judge "of two files it is told that there are others" grep -q "^from = '.* and others; from 18 Oct 2025" "$kept/plans.svg.gp"
judge "each with its rows" [ "$(block plans ROWS | wc -l)" -eq 4 ]

# ---- a season ----
drawn run --members 1 "$tmp/wet.yaml" --plot "$tmp/p"
judge "a turn and what is poured stand on their day, with their words" \
    [ "$(block temperature WORK | cut -d ' ' -f 1,2,4- | sed 's/ [0-9]* ""$//' | head -n 2 | tr '\n' ,)" = '2 1 "10 L",2 2 "mixed",' ]
judge "the turn by its line" [ "$(block temperature TURNED | head -n 1)" = "2 0" ]
judge "water by its own" [ "$(block temperature WATERED | head -n 1)" = "2 0" ]
sed 's/water: 10 L/water: 50 mL/' "$tmp/wet.yaml" >"$tmp/drop.yaml"
drawn run --members 1 "$tmp/drop.yaml" --plot "$tmp/p"
judge "what is next to nothing is told as less than one" grep -qF '"under 1 L"' "$kept/temperature.svg.gp"
drawn run --members 1 "$tmp/wet.yaml" --plan left --plot "$tmp/p"
judge "without a deed there is none" [ "$(block temperature WORK | head -n 1 | cut -c 1-4)" = -1e6 ]
judge "the lowest section has its lengths written out, above only marks stand" sh -c "
    grep -q '^full_tics = .*\"0.5\" -0.5, \"0\" 0, \"0.5\" 0.5' '$kept/sections.svg.gp' &&
    grep -q '^bare_tics = .*\"\" -0.5, \"\" 0, \"\" 0.5' '$kept/sections.svg.gp'"

heads() { sed -n "s/^HEAD\[[0-9]*\] = 'day \([0-9]*\),.*/\1/p" "$kept/sections.svg.gp" | tr '\n' ' '; }
judge "sections are of the second day and the last" [ "$(heads)" = "2 3 " ]
drawn run --members 1 --day 1 "$tmp/wet.yaml" --plot "$tmp/p"
judge "and of the day asked for instead of the nearest" [ "$(heads)" = "1 3 " ]
sed 's/10-20/11-20/; s/^sky: .*/sky: cold winters/' "$pile" >"$tmp/long.yaml"
drawn run --members 1 --day 2025-11-10 "$tmp/long.yaml" --plot "$tmp/p"
judge "of a long season thick at first, and of the day asked for" [ "$(heads | cut -d " " -f -4)" = "2 5 12 24" ]

# ---- a poster ----
drawn report --members 2 "$tmp/wet.yaml" --poster "$tmp/p.svg"
sed -n "s/^WAY\[[0-9]*\] = '\([^']*\)'.*SHARE\[[0-9]*\] = /\1=/p" "$kept/script.gp" >"$tmp/ways"
judge "heat goes seven ways, each told once" [ "$(cut -d = -f 1 "$tmp/ways" | sort -u | wc -l)" -eq 7 ]
judge "the largest first" sh -c "cut -d = -f 2 '$tmp/ways' | sort -gr -c"
judge "which are all of it" [ "$(awk -F = '{ sum += $2 } END { printf "%.2f", sum }' "$tmp/ways")" = 1.00 ]

# ---- a page ----
sed 's/^  left:.*/  left: []\n  twice: [{day: 2025-10-19, turn: mixed}, {day: 2025-10-20, turn: mixed, water: 30 L}]/' "$tmp/wet.yaml" >"$tmp/three.yaml"
drawn report --members 2 "$tmp/three.yaml" -o "$tmp/page.html"
"$midden" compare --members 2 -q --json "$tmp/three.yaml" >"$tmp/compared" 2>/dev/null
judge "three plans stand side by side, each with its own work" python3 - "$tmp/page.html" "$tmp/compared" <<'END'
import json, re, sys
page = open(sys.argv[1]).read()
minutes = {p["plan"]: p["work"]["person_minutes"] for p in json.load(open(sys.argv[2]))["plans"]}
rows = re.findall(r"<tr[^>]*>.*?</tr>", page, re.S)
for plan, want in minutes.items():
    row = next(r for r in rows if 'data-label="in time"' in r and plan in r)
    cell = re.search(r'data-label="work"[^>]*>([^<]*)<', row).group(1)
    assert cell == "%.0f min" % want or (want == 0 and cell == "0 min"), (plan, cell, want)
assert len(set(minutes.values())) == 3
END
finish
