#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/memory.sh - memory and threads that are refused: the same answer or a clear word, and only whole
# files or none.
#
#     EVERY=1 sh tests/cli/memory.sh ./midden
#
# `starve` refuses each request for memory in turn rather than every 29th; `each_place` comes once to each
# place in the program and its libraries that asks for any.
midden=$1
. tests/cli/cases.inc
. tests/cli/short.inc
every=${EVERY:-29}
shim=$(pwd)/build/faults/shim.so
sed 's/^sky: .*/sky: cold winters/' "$pile" >"$tmp/made.yaml"
# nothing but pictures that end as they should
whole_pictures() {
    for picture in "$folder"/pictures/*.svg; do
        tail -c 10 "$picture" 2>/dev/null | grep -q '</svg>' && rm "$picture"
    done
    [ -z "$(find "$folder" -type f)" ]
}
# starve SENTENCE ARGUMENT...: one request refused in each run; then the rest as well
starve() {
    starve_name=$1
    shift
    LD_PRELOAD=$shim FAULT_COUNT=$tmp/count "$midden" "$@" >"$tmp/whole" 2>"$tmp/err" || {
        not_ok "$starve_name" "fails without a fault: $(head -c 200 "$tmp/err")"
        return
    }
    LC_ALL=C "$midden" "$@" >"$tmp/plain" 2>/dev/null
    most=$(cat "$tmp/count") wrong= n=1
    while [ "$n" -le "$most" ] && [ -z "$wrong" ]; do
        for all in 0 1; do
            LD_PRELOAD=$shim FAULT_MEMORY=$n FAULT_ALL=$all "$midden" "$@" >"$tmp/out" 2>"$tmp/err"
            status=$?
            case $status in
            0) cmp -s "$tmp/out" "$tmp/whole" || cmp -s "$tmp/out" "$tmp/plain" || wrong="another answer" ;;
            70 | 74) grep -qi memory "$tmp/err" && [ ! -s "$tmp/out" ] || wrong="no reason, or half an answer" ;;
            *) wrong="status $status" ;;
            esac
            bare || wrong="a file is left"
            [ -z "$wrong" ] || wrong="$wrong at request $n of $most, $all"
        done
        n=$((n + every * (1 + most / 1500)))
    done
    if [ -z "$wrong" ]; then ok "$starve_name"; else not_ok "$starve_name" "$wrong: $(head -c 200 "$tmp/err")"; fi
}
# each_place SENTENCE ARGUMENT...: the first request from each place in the program and its libraries that the
# commands before haven't come to, one in each run; the answer is the same or a reason, never another
as_plain() { # where memory is short the C library may do without a locale
    empty
    LC_ALL=C "$midden" "$@" 2>/dev/null | cmp -s "$tmp/out" -
}
each_place() {
    place_name="memory refused at each place: $1"
    shift
    wrong=
    empty
    "$midden" "$@" >"$tmp/whole" 2>"$tmp/err"
    well=$?
    if [ $well -gt 1 ]; then not_ok "$place_name" "fails without a fault: $(head -c 200 "$tmp/err")" && return; fi
    while [ -z "$wrong" ]; do
        empty
        places=$(wc -l <"$tmp/places")
        LD_PRELOAD=$shim FAULT_PLACES=$tmp/places "$midden" "$@" >"$tmp/out" 2>"$tmp/err"
        status=$?
        [ "$(wc -l <"$tmp/places")" -gt "$places" ] || break
        case $status in
        "$well") cmp -s "$tmp/out" "$tmp/whole" || as_plain "$@" || wrong="another answer" ;;
        69 | 70 | 73 | 74) grep -qi memory "$tmp/err" && [ ! -s "$tmp/out" ] && whole_pictures ||
            wrong="half an answer" ;;
        *) wrong="status $status" ;;
        esac
    done
    if [ -z "$wrong" ] && [ "$places" -gt 0 ]; then ok "$place_name"; else
        not_ok "$place_name" "$wrong at $(tail -n 1 "$tmp/places"): $(head -c 200 "$tmp/err")"; fi
    empty
}
if [ -f "$shim" ] && LD_PRELOAD=$shim "$midden" --version >/dev/null 2>&1; then
    starve "memory refused: check" check "$pile"
    starve "memory refused: run" run --members 5 --threads 2 "$pile"
    starve "memory refused: JSON" run --members 1 --json "$pile"
    starve "memory refused: CSV" run --members 2 --csv -q "$tmp/made.yaml"
    starve "memory refused: mix" mix "$pile"
    starve "memory refused: compare" compare --members 2 --json "$pile"
    starve "memory refused: next" next "$pile" --members 2 --day 2025-10-19
    starve "memory refused: a table" list ingredients
    printf '%s\n' 'readings: {also: [{day: 2025-10-19, middle: 20 C}]}' 'people: {helpers: 1, days: every day}' |
        cat "$pile" - >"$tmp/read.yaml"
    sed 's/10-20/10-27/; s/^sky: .*/sky: cold winters/' "$tmp/read.yaml" >"$tmp/long.yaml"
    : >"$tmp/places"
    "$midden" run --members 1-2 -q "$pile" -o "$tmp/one.shard" 2>/dev/null
    "$midden" run --members 3-4 -q "$pile" -o "$tmp/two.shard" 2>/dev/null
    each_place "check" check "$tmp/read.yaml"
    each_place "run" run -q --members 2 "$pile"
    each_place "CSV" run -q --members 2 --csv "$tmp/made.yaml"
    each_place "JSON" run -q --members 2 --json "$pile"
    each_place "JSON of one" run -q --members 1 --json "$pile"
    each_place "pictures" run -q --members 2 --plot "$folder/pictures" "$pile"
    each_place "a shard" run -q --members 1-2 "$pile" -o "$folder/shard"
    each_place "merge" run -q --merge "$tmp/one.shard" "$tmp/two.shard"
    each_place "sensitivity" run -q --sensitivity --members 16 "$pile"
    each_place "mix" mix "$pile" --members 2
    each_place "compare" compare -q --members 2 --long "$pile"
    each_place "compared in pictures" compare -q --members 2 --plot "$folder/pictures" "$pile"
    each_place "next" next -q --members 2 --day 2025-10-18 --calendar "$folder/days.ics" "$pile"
    each_place "next, learnt" next -q --members 16 --json "$tmp/read.yaml"
    each_place "why" why -q --members 2 --plot "$folder/pictures" "$pile"
    each_place "why, learnt" why -q --members 16 --json "$tmp/read.yaml"
    each_place "learn" learn -q --members 16 "$tmp/read.yaml"
    each_place "sheet" sheet -q --members 2 "$pile"
    each_place "report" report -q --members 2 "$tmp/read.yaml" -o "$folder/page.html"
    each_place "handover" report -q --members 2 --handover "$pile"
    each_place "poster" report -q --members 2 --poster "$folder/wall.svg" "$pile"
    each_place "animation" report -q --members 2 --animation "$folder/film.html" "$pile"
    each_place "lesson" lesson -q --members 2 --plot "$folder/pictures" "$tmp/long.yaml"
    each_place "search" search -q --members 2 --long "$tmp/read.yaml"
    n=200 bad=
    while [ $n -lt 3000 ]; do # with -o nothing or all of it
        empty
        LD_PRELOAD=$shim FAULT_MEMORY=$n "$midden" run --members 1 --json -q "$pile" -o "$folder/out" 2>/dev/null
        status=$?
        if [ $status -eq 0 ]; then [ -s "$folder/out" ] || bad=$n; else bare || bad=$n; fi
        n=$((n + 97 * every))
    done
    judge "memory refused: with -o the file is whole or absent" [ -z "$bad" ]
    run run --members 8 --csv -q --threads 1 "$pile"
    mv "$tmp/out" "$tmp/whole"
    for n in 1 2; do
        LD_PRELOAD=$shim FAULT_THREAD=$n "$midden" run --members 8 --csv -q --threads 4 "$pile" >"$tmp/out" 2>"$tmp/err"
        status=$?
        judge "a thread that doesn't start is done without, thread $n on" cmp "$tmp/out" "$tmp/whole"
    done
else
    echo "skip - calls can't be made to fail here"
fi
finish
