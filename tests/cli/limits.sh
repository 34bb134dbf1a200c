#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/limits.sh - input at and beyond its limits: long, deep, endless, far from numbers, at the ends of
# the calendar and of the earth. Refused with a place and a reason, in bounded time and memory, or run
# with numbers everywhere.
midden=$1
. tests/cli/cases.inc
head='midden: 1
start: 2025-10-18
place: {latitude: 47 N}
sky: cold winters
bin: 1 x 1 x 1 m
build:
  - mixed leaves: 30 buckets
    grass clippings: 20 buckets
need: by 2025-10-21'
# with 's/...': the scenario so changed, in $tmp/a.yaml
with() { printf '%s\n' "$head" | sed -e "$1" >"$tmp/a.yaml"; }

# bounded STATUS SENTENCE WORDS: of standard input, within 300 MB of address space and 20 s of processor time
bounded() {
    (ulimit -v 300000 && ulimit -t 20 && "$midden" check -) >"$tmp/out" 2>"$tmp/err"
    status=$?
    if [ $status -eq "$1" ] && says "$3"; then ok "$2"; else
        not_ok "$2" "status $status, $(head -c 300 "$tmp/err")"
    fi
}
with ''
head -c 1000000000 /dev/zero | tr '\0' a 2>/dev/null |
    bounded 65 "a line of a gigabyte out of a pipe is refused" "longer than"
yes '# and so on' | bounded 65 "endless notes are refused" "longer than"
{
    printf 'a: &a [x,x,x,x,x,x,x,x,x]\n'
    for pair in a:b b:c c:d d:e e:f f:g g:h h:i; do
        from=${pair%:*} to=${pair#*:}
        printf '%s: &%s [*%s,*%s,*%s,*%s,*%s,*%s,*%s,*%s,*%s]\n' "$to" "$to" "$from" "$from" "$from" "$from" \
            "$from" "$from" "$from" "$from" "$from"
    done
} | bounded 65 "aliases that unfold to a billion words are refused" "anchor"
head -c 200000 /dev/zero | tr '\0' '[' | bounded 65 "two hundred thousand lists in each other are refused" "nested"
awk 'BEGIN { for (i = 0; i < 1000; i++) { printf "%*s- \n", i, "" } }' |
    bounded 65 "so are a thousand by indentation" "nested"
awk 'BEGIN { for (i = 0; i < 60000; i++) print "k" i ": 1" }' | bounded 65 "sixty thousand keys are refused" "keys"
awk 'BEGIN { printf "build: ["; for (i = 0; i < 300000; i++) printf "a,"; print "]" }' |
    bounded 65 "three hundred thousand layers are refused" "parts"
printf '%s\n' "$head" | sed 's/^need.*//' >"$tmp/b.yaml"
{ cat "$tmp/b.yaml"; printf 'name: '; head -c 900000 /dev/zero | tr '\0' x; echo; } |
    bounded 65 "a name of a megabyte is refused" "too long"

# weather
with 's/^sky: .*/sky: {weather: \/dev\/stdin}/'
weather() { # STATUS SENTENCE WORDS
    (ulimit -v 300000 && ulimit -t 20 && "$midden" check "$tmp/a.yaml") >"$tmp/out" 2>"$tmp/err"
    status=$?
    if [ $status -eq "$1" ] && says "$3"; then ok "$2"; else
        not_ok "$2" "status $status, $(head -c 300 "$tmp/err")"
    fi
}
head -c 1000000000 /dev/zero | tr '\0' 1 2>/dev/null | weather 65 "a weather file with a line of a gigabyte is refused" "longer than"
yes '# again' | weather 65 "endless notes in it too" "lines"
{
    echo 'date,low C,high C'
    awk 'BEGIN { for (;;) print "2025-10-18,1,2" }'
} 2>/dev/null | weather 65 "a day that comes again and again is refused" "each day is expected once"

# numbers
for bad in nan .nan NaN inf .inf -inf 1e309 1e5 0x10 1_000 '1,5' --1 1.2.3 99999999999999999999 -0.0001; do
    with "s/30 buckets/$bad buckets/"
    ends 65 "an amount of $bad buckets is refused" check "$tmp/a.yaml"
    judge "at its place ($bad)" says "$tmp/a.yaml:7:"
done
for bad in 1e999 nan -91 90.0001 180 99999999999999999999; do
    with "s/47 N/$bad N/"
    ends 65 "a latitude of $bad is refused" check "$tmp/a.yaml"
done
with 's/30 buckets/0.0000000000001 L/'
ends 65 "next to nothing is refused" check "$tmp/a.yaml"
with 's/30 buckets/100000 m3/'
ends 65 "a hill is refused" check "$tmp/a.yaml"

# dates
for bad in 1899-12-31 1066-10-14 0000-01-01 2201-01-01 9999-12-31 2025-02-29 2100-02-29 1900-02-29 2025-04-31; do
    with "s/start: .*/start: $bad/"
    ends 65 "a start on $bad is refused" check "$tmp/a.yaml"
    judge "at its place ($bad)" says "$tmp/a.yaml:2:"
done
# runs SENTENCE: the scenario is run, and no field of its table is anything but a number or a word
runs() {
    run run --members 4 --csv -q "$tmp/a.yaml"
    if [ $status -eq 0 ] && ! grep -qi -e 'nan' -e 'inf' "$tmp/out" && [ "$(wc -l <"$tmp/out")" -ge 3 ]; then ok "$1"; else
        not_ok "$1" "status $status, $(head -c 300 "$tmp/err")"
    fi
}
# leap years as in the Gregorian calendar: 1904, 2000 and 2024 have the day, 1900 and 2100 haven't (ISO 8601)
for leap in 1904 2000 2024; do
    with "s/2025-10-18/$leap-02-28/; s/2025-10-21/$leap-03-01/"
    runs "a season over the leap day of $leap is run"
    judge "which is one of its days ($leap)" grep -q "$leap-02-29" "$tmp/out"
done
with "s/2025-10-18/2100-02-28/; s/2025-10-21/2100-03-02/"
runs "2100 is no leap year"
judge "and has no such day" sh -c "! grep -q 2100-02-29 '$tmp/out'"
with "s/2025-10-18/1900-01-01/; s/2025-10-21/1900-01-03/"
runs "the first days of the calendar can be run"
with "s/2025-10-18/2200-12-28/; s/2025-10-21/2200-12-31/"
runs "and the last"

# places
for place in 70 80 90; do
    for side in N S; do
        for season in 06-20 12-20; do # all sun, or none
            with "s/47 N/$place $side/; s/2025-10-18/2025-$season/; s/2025-10-21/2025-${season%20}23/; s/cold winters/long winter/"
            runs "$place degrees $side from $season is run"
        done
    done
done
with 's/47 N/0 N/'
runs "the equator is run"
with 's/47 N/34 S/; s/cold winters/dry summers/'
runs "the southern half is run"
# January is warm there: the mean of the air in the same sky, north and south
air() { awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "air_c") a = i } NR > 1 { sum += $a; n++ } END { print sum / n }' "$tmp/out"; }
with 's/47 N/47 S/; s/2025-10-18/2025-01-05/; s/2025-10-21/2025-01-25/'
runs "January in the south is run"
south=$(air)
with 's/2025-10-18/2025-01-05/; s/2025-10-21/2025-01-25/'
runs "January in the north is run"
judge "of a named sky, January in the south is July in the north" awk -v s="$south" -v n="$(air)" 'BEGIN { exit !(s > n + 12) }'
with 's/47 N/47 N, elevation: 5000 m/'
runs "a pile at 5000 m is run"
with 's/47 N/47 N, elevation: 5501 m/'
ends 65 "higher than people live is refused" check "$tmp/a.yaml"

# a litre of straw in the sun, to which more was to come and doesn't: dry cells of a gram take steps of seconds
cat >"$tmp/a.yaml" <<END
midden: 1
start: 2026-07-01
place: {latitude: 38 N, sun: all day, wind: open}
sky:
  night low: 18 18 18 18 18 18 18 18 18 18 18 18 C
  day high: 38 38 38 38 38 38 38 38 38 38 38 38 C
  rain: 0 0 0 0 0 0 0 0 0 0 0 0 mm
  wet days: 0 0 0 0 0 0 0 0 0 0 0 0
bin: {size: 0.4 x 0.4 x 0.4 m}
build:
  - straw: 1.2 L
plans:
  fed when hot:
    - {look: day, when: middle above 60 C, at most: every 3 days, add: {straw: 8 L}}
need: by 2026-07-20
END
ends 1 "a litter too thin to be reckoned is no defect of the program" run --members 1 -q "$tmp/a.yaml"
judge "it is told with its height and what would help" says "is only 0.64 cm high on day 1"
finish
