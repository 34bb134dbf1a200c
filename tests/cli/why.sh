#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/why.sh - `why` on the command line: which day, which hour, a guess first, a picture.
midden=$1
. tests/cli/cases.inc
few="--members 4 -q"
cat >"$tmp/pile.yaml" <<END
midden: 1
start: 2025-10-04
need: by 2025-10-30
place: {latitude: 48 N, elevation: 400 m}
sky: cold winters
bin: 1 x 1 x 1 m
build:
  - mixed leaves: 3 bags
    grass clippings: 10 buckets
    water: 2 buckets
END
ends 0 "a pile without readings is asked when it stands furthest above the air" why $few "$tmp/pile.yaml"
joined() { tr -s "\n " " " <"$tmp/out" | grep -qF -- "$1"; } # a sentence may go over a line's end
judge "and the answer says so" joined "day: furthest above the air"
judge "no line is wider than 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
cp "$tmp/out" "$tmp/first"
ends 0 "the same question" why $few --threads 1 "$tmp/pile.yaml"
judge "has the same answer with any number of threads" cmp "$tmp/first" "$tmp/out"
{ cat "$tmp/pile.yaml"; printf 'readings:\n  also:\n    - {day: 2025-10-09, middle: 50 C}\n'; } >"$tmp/read.yaml"
ends 0 "with readings the day is that of the last" why $few "$tmp/read.yaml"
judge "which is said" tells "On 9 Oct (day 6)"
judge "with its reason" tells "day: last reading"
ends 0 "an hour can be asked" why $few --day 3 --hour 14 "$tmp/pile.yaml"
judge "and is told" tells "From 14 to 15 h on 6 Oct (day 3)"
last=$("$midden" run --members 1 -q --csv "$tmp/pile.yaml" | tail -n 1 | cut -d, -f1)
ends 0 "on the last day" why $few --day "$last" "$tmp/pile.yaml"
judge "there is no change to try" tells "nothing: it is the season's last day"
echo "I say: the walls" >"$tmp/guess"
"$midden" why $few --day 3 --ask-first "$tmp/pile.yaml" <"$tmp/guess" >"$tmp/out" 2>"$tmp/err"
judge "a guess is asked for" says "Guess: by which way does most of the heat leave?"
judge "before it is answered" tells "guess"
"$midden" why $few --day 3 --ask-first "$tmp/pile.yaml" </dev/null >"$tmp/out" 2>"$tmp/err"
judge "no guess is an answer too" tells "none of the ways was named"
ends 64 "an hour of 24 is refused" why $few --hour 24 "$tmp/pile.yaml"
judge "with what was expected" says "0 to 23"
ends 64 "an hour before the pile was built is refused" why $few --day 1 --hour 9 "$tmp/pile.yaml"
ends 64 "a day outside the season is refused" why $few --day 2026-03-01 "$tmp/pile.yaml"
ends 64 "a guess and JSON exclude each other" why $few --ask-first --json "$tmp/pile.yaml"
ends 64 "a guess and a scenario can't both be standard input" why $few --ask-first -
ends 64 "one pile alone has no range" why --members 1 "$tmp/pile.yaml"
if command -v gnuplot >/dev/null; then
    ends 0 "the hours are drawn" why $few --day 3 --plot "$tmp/drawn" "$tmp/pile.yaml"
    judge "as SVG" [ -s "$tmp/drawn/heatday.svg" ]
    judge "and as PNG" [ -s "$tmp/drawn/heatday.png" ]
    ends 73 "pictures that are there are kept" why $few --day 3 --plot "$tmp/drawn" "$tmp/pile.yaml"
fi
finish
