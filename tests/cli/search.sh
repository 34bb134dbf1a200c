#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/search.sh - a plan that was found goes into the keeper's file, however its plans stand
# there; what can't be written is known before the search; one that is cut short has its answer.
midden=$1
. tests/cli/cases.inc
cat >"$tmp/head" <<'YAML'
# our notes
midden: 1
start: 2025-10-18
place: {latitude: 47.2 N, elevation: 430 m}
sky: cold winters
bins:
  a: {size: 1 x 1 x 1 m}
  "b: #2": {size: 1 x 1 x 1 m, now: empty}
  "it's, c": {size: 1 x 1 x 1 m, now: empty}
build:
  - mixed leaves: 3 bags
    grass clippings: 10 buckets
need: by 2025-11-02   # soon
YAML
saturdays='people: {helpers: 2, days: Saturday}'
turn='{day: 2025-10-25, turn: mixed}'

# kept SENTENCE FILE: the search puts a plan into the file, and but for that all is as it was
kept() {
    rm -f "$tmp/with.yaml"
    run search -q --members 2 "$2" --write "$tmp/with.yaml"
    judge "$1: status 1, since nothing is ready in two weeks" [ $status -eq 1 ]
    sed 's/plans: {found[^]]*]}, //; s/found[^]]*], //' "$tmp/with.yaml" |
        LC_ALL=C awk '/^ *found[ 0-9]*:/ { next } /^ *- .day: .*(turn|cover): / && !/# mine/ { next } { print }' >"$tmp/without"
    LC_ALL=C awk '/^ *- .day: .*(turn|cover): / && !/# mine/ { next } { print }' "$2" >"$tmp/was"
    judge "$1: the keeper's text stays" cmp "$tmp/without" "$tmp/was"
    run check "$tmp/with.yaml"
    judge "$1: it reads back" [ $status -eq 0 ]
    run next -q --members 2 "$tmp/with.yaml" --plan "${3:-found}"
    judge "$1: with the plan by its name" [ $status -eq 0 ]
}
pile() { { cat "$tmp/head"; printf '%s\n' "$@"; } >"$tmp/pile.yaml"; }

pile "plans:   # mine" "" "    # a note" "    leave it: []" "    turn:" "    - $turn # mine" "$saturdays"
kept "plans in lines" "$tmp/pile.yaml"
pile "plans: {leave it: []," "  turn: [$turn]}" "$saturdays"
kept "plans in braces" "$tmp/pile.yaml"
pile "plans:" "  {leave it: []}" "$saturdays"
kept "plans in braces on the next line" "$tmp/pile.yaml"
pile '"plans" : {found: []}' "$saturdays"
sed 's/found:/"found":/' "$tmp/pile.yaml" >"$tmp/named.yaml"
run search -q --members 2 "$tmp/named.yaml" --write "$tmp/second.yaml"
judge "a name that is taken isn't taken again" grep -q 'found 2: \[' "$tmp/second.yaml"
pile "$saturdays" "plans:" "  leave it: []"
sed 's/$/\r/' "$tmp/pile.yaml" >"$tmp/crlf.yaml"
kept "lines that end in CR LF" "$tmp/crlf.yaml"
sed 's/^/  /' "$tmp/pile.yaml" >"$tmp/in.yaml"
kept "a file that stands in" "$tmp/in.yaml"
printf '%s' "$(cat "$tmp/pile.yaml")" >"$tmp/bare.yaml"
run search -q --members 2 "$tmp/bare.yaml" --write "$tmp/bare2.yaml"
judge "no line end at the end of the file" "$midden" check "$tmp/bare2.yaml"
{ echo ---; cat "$tmp/head"; echo "$saturdays"; echo ...; } >"$tmp/marks.yaml"
run search -q --members 2 "$tmp/marks.yaml" --write "$tmp/marks2.yaml"
judge "no plans, and a mark of the file's end" "$midden" check "$tmp/marks2.yaml"
judge "which stays last" [ "$(tail -n 1 "$tmp/marks2.yaml")" = ... ]
echo '{midden: 1, start: 2025-10-18, place: {latitude: 47 N}, sky: cold winters, bin: 1 x 1 x 1 m, build: [{mixed leaves: 4 bags}], need: by 2025-11-02}' >"$tmp/braces.yaml"
kept "a file in braces" "$tmp/braces.yaml"

# refused before anything is run
pile "plans:" "$(i=0; while [ $i -lt 24 ]; do echo "  p$i: []"; i=$((i + 1)); done)"
ends 1 "no room for one plan more" search -q --members 64 "$tmp/pile.yaml" --write "$tmp/no.yaml"
judge "is said" says "has 24 plans"
judge "and nothing written" [ ! -e "$tmp/no.yaml" ]
pile "$saturdays"
ends 73 "--write to a file that is there" search --members 64 "$tmp/pile.yaml" --write "$tmp/pile.yaml"
ends 73 "--write into no folder" search --members 64 "$tmp/pile.yaml" --write "$tmp/none/x.yaml"
ends 73 "-o into no folder" search --members 64 "$tmp/pile.yaml" -o "$tmp/none/x"
ends 64 "--write - " search "$tmp/pile.yaml" --write -
ends 64 "--write and -o to one file" search "$tmp/pile.yaml" --write "$tmp/x" -o "$tmp/x"
ends 64 "--calendar and -o to one file" next "$tmp/pile.yaml" --calendar "$tmp/x" -o "$tmp/x"
ends 64 "standard input twice" compare - - <"$tmp/pile.yaml"
judge "no part of a file is left" [ -z "$(find "$tmp" -name '.*.part')" ]

# the file itself, by --force
cp "$tmp/pile.yaml" "$tmp/own.yaml"
run search -q --members 2 "$tmp/own.yaml" --write "$tmp/own.yaml" --force
judge "--force puts the plan into the file itself" grep -q '^  found:' "$tmp/own.yaml"

# cut short when something is known already: signals until one meets the middle of it
sed 's/2025-11-02/2026-05-02/' "$tmp/pile.yaml" >"$tmp/long.yaml"
for wait in 2 4 8 16; do
    "$midden" search -q --members 64 --threads 1 --json "$tmp/long.yaml" >"$tmp/out" 2>"$tmp/err" &
    child=$!
    sleep $wait
    kill -TERM $child 2>/dev/null
    wait $child 2>/dev/null
    status=$?
    [ -s "$tmp/out" ] && break
done
judge "cut short, it ends with 143" [ $status -eq 143 ]
judge "and still tells what it has" tells '"finished": false'
judge "without a complaint" [ ! -s "$tmp/err" ]

# compare: gardens of one name, what is named twice, long names
mkdir "$tmp/d"
cp "$tmp/pile.yaml" "$tmp/d/other.yaml"
run compare -q --members 2 "$tmp/pile.yaml" "$tmp/d/other.yaml" --plan 'leave it'
judge "gardens of one name are told apart by file" tells "leave it, other.yaml"
run compare -q --members 2 "$tmp/pile.yaml" "$tmp/pile.yaml" --plan 'leave it' --plan 'leave it'
judge "what is named twice is compared once" [ "$(grep -c '^  leave it' "$tmp/out")" -eq 1 ]
pile "name: the long bed behind the old glasshouse" "$saturdays"
run compare -q --members 2 "$tmp/pile.yaml" "$tmp/d/other.yaml"
judge "a long name stands whole" tells "leave it, the long bed behind the old glasshouse"
judge "within 80 columns" [ "$(widest "$tmp/out")" -le 80 ]

# without memory: a message, no abort
(ulimit -v 60000; "$midden" sheet -q --members 20000 --threads 2 "$tmp/long.yaml" >"$tmp/out" 2>"$tmp/err"; echo $? >"$tmp/rc")
status=$(cat "$tmp/rc")
judge "memory that is short ends with 70" [ "$status" -eq 70 ]
judge "and a message" says "memory"
finish
