#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/endings.sh - one case or more of each exit status.
midden=$1
. tests/cli/cases.inc
pile=$tmp/pile.yaml
"$midden" new >"$pile"
# the same for ten days
sed -e '/^plans:/,$d' "$pile" >"$tmp/days.yaml"
echo 'need: by 2025-10-27' >>"$tmp/days.yaml"

# 0
ends 0 "a first scenario is printed" new
ends 0 "the first scenario is understood as it stands" check "$pile"
ends 0 "the first scenario runs as it stands" run --members 4 "$pile"
ends 0 "a plan can be named" run --members 1 --plan 'two turns' "$pile"
judge "the plan that was named is the one told of" tells 'two turns: 2 turns'
ends 0 "tables can be listed" list skies
ends 0 "without a table, list names the tables" list

# 1
sed 's/^bin: .*/bins:\
  bay 1: {size: 1.2 x 1.2 x 1 m}\
  bay 2: {size: 1.2 x 1.2 x 1 m, now: full until 2026-04-01}/
  s/turn: outside in,/turn: outside in, into: bay 2,/' "$pile" >"$tmp/full.yaml"
ends 1 "a turn into a bay that is full can't be done" check "$tmp/full.yaml"
judge "the bay is named" tells "bay 2"
ends 1 "JSON has the same exit status" check --json "$tmp/full.yaml"
judge "and says that it is not possible" tells '"possible": false'
sed '/^build:/,/^$/d' "$pile" >"$tmp/stock.yaml"
echo 'have: {mixed leaves: 10 bags}' >>"$tmp/stock.yaml"
ends 1 "what only lies in hand is no pile yet" check "$tmp/stock.yaml"
ends 1 "and can't be run" run "$tmp/stock.yaml"

# 64
ends 64 "no command is wrong usage"
ends 64 "an unknown command is wrong usage" stir "$pile"
judge "it is said not to be a command of this version" says "not a command of this version"
ends 64 "run without a scenario is wrong usage" run
ends 64 "two scenarios are one too many" run "$pile" "$pile"
ends 64 "new takes no file" new "$pile"
ends 0 "many possible piles are run" run --members 60 "$tmp/days.yaml"
judge "and counted" tells "60 possible piles"
ends 0 "one member is the central pile" run --members 1 "$pile"
ends 64 "an unknown plan is wrong usage" run --plan 'too turns' "$pile"
judge "the nearest plan is named" says "did you mean 'two turns'"
ends 64 "an unknown parameter is wrong usage" run --set stickiness=1 "$pile"
ends 64 "a parameter outside its range is refused" run --set tolerance_K=100 "$pile"
judge "its range is told" says "may be"
ends 64 "a comma is no decimal point" run --set tolerance_K=0,1 "$pile"
judge "which is told" says "decimal point"
ends 64 "a setting without a value is refused" run --set tolerance_K "$pile"
ends 64 "hexadecimal is no number here" run --set tolerance_K=0x1 "$pile"
ends 64 "a negative draw is refused" run --draw -1 "$pile"
ends 64 "an endless draw is refused" run --draw 99999999999999999999999 "$pile"
ends 64 "a day outside the season is refused" run --day 2031-01-01 "$pile"
ends 64 "a day that doesn't exist is refused" run --day 2026-02-30 "$pile"
ends 64 "an unknown table is wrong usage" list gnomes

# 65
printf 'midden: 1\nstart: 2025-13-40\n' >"$tmp/broken.yaml"
ends 65 "a date that doesn't exist is an input that can't be used" check "$tmp/broken.yaml"
judge "file, line and column are told" grep -q "^$tmp/broken.yaml:2:[0-9]*: " "$tmp/err"
printf '{[' >"$tmp/torn.yaml"
ends 65 "a torn file is told as such" run "$tmp/torn.yaml"
: >"$tmp/empty.yaml"
ends 65 "an empty file is told as such" run "$tmp/empty.yaml"
ends 65 "a folder is no scenario" run "$tmp"
printf 'date,low C,high C\n2025-10-18,2,9\n2025-10-19,3,9\n' >"$tmp/days.csv"
sed 's/^sky: .*/sky: {weather: days.csv}/' "$pile" >"$tmp/short.yaml"
ends 65 "weather that ends too early can't be used" run "$tmp/short.yaml"
judge "the days that are missing are named" says "2025-10-20 to "

# 66
ends 66 "a scenario that isn't there is missing input" run "$tmp/nowhere.yaml"
sed 's/^sky: .*/sky: {weather: nowhere.csv}/' "$pile" >"$tmp/lost.yaml"
ends 66 "so is a weather file that isn't there" run "$tmp/lost.yaml"

# 69
mkdir "$tmp/bare"
PATH=$tmp/bare "$midden" run --members 1 --plot "$tmp/pictures" "$pile" >"$tmp/out" 2>"$tmp/err"
status=$?
judge "pictures without gnuplot end with 69" [ $status -eq 69 ]
judge "and gnuplot is named" says gnuplot

# 73
echo mine >"$tmp/mine"
ends 73 "an output that exists is not replaced" new -o "$tmp/mine"
judge "it is as it was" grep -qx mine "$tmp/mine"
judge "how to replace it is told" says --force
ends 0 "--force replaces it" new -o "$tmp/mine" --force
judge "by the whole answer" cmp "$tmp/mine" "$pile"
ends 73 "an output in a folder that isn't there can't be made" new -o "$tmp/no/such/file"

# 74
if [ -w /dev/full ]; then
    "$midden" run --members 1 "$pile" >/dev/full 2>"$tmp/err"
    status=$?
    judge "a full disk under standard output ends with 74" [ $status -eq 74 ]
    "$midden" --version >/dev/full 2>"$tmp/err"
    status=$?
    judge "even for a line or two" [ $status -eq 74 ]
    "$midden" run --members 1 --csv -o /dev/full -q "$pile" >"$tmp/out" 2>"$tmp/err"
    status=$?
    judge "a full disk under -o ends with 74" [ $status -eq 74 ]
fi
"$midden" run --members 1 "$pile" >&- 2>"$tmp/err"
status=$?
judge "a closed standard output ends with 74" [ $status -eq 74 ]
judge "and is told" [ -s "$tmp/err" ]

# 143: the program waits for a scenario that never comes
mkfifo "$tmp/pipe"
"$midden" run - <"$tmp/pipe" >"$tmp/out" 2>"$tmp/err" &
child=$!
exec 9>"$tmp/pipe" # the child has its input open once this returns
sleep 0.2
kill -TERM $child
wait $child 2>/dev/null
status=$?
exec 9>&-
judge "a polite signal ends with 143" [ $status -eq 143 ]
judge "and nothing is written" [ ! -s "$tmp/out" ]
judge "which is said" says "interrupted; nothing written"
finish
