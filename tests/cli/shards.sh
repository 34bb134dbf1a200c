#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/shards.sh - many possible piles in one go, in slices, on several threads and under GNU
# parallel: the same bytes.
midden=$1
. tests/cli/cases.inc
pile=$tmp/pile.yaml
cat >"$pile" <<'END'
midden: 1
name: slices
start: 2025-09-20
place: {latitude: 50 N}
sky: mild and wet
bins:
  one: {size: 1.1 x 1.1 x 1.2 m}
  two: {like: one, now: full}
need: by 2025-10-01
build:
  - repeat: 4
    layers:
      - straw: 55 L
        horse manure: 45 L
        grass clippings: 30 to 40 L
        water: 2 L
plans:
  by date:
    - {day: 2025-09-24, turn: outside in, water: 1 bucket}
  if there is room:
    - {look: day, when: middle above 45 C, at most: once, turn: mixed, into: next}
END

# ---- one run, slices and threads ----
forms='--long --json --csv'
# whole PLAN, merged FOLDER FILE...: all three forms of the answer
whole() {
    mkdir -p "$tmp/whole"
    for form in $forms; do
        "$midden" run "$pile" --plan "$1" --members 24 $form \
            >"$tmp/whole/$form" 2>"$tmp/whole/err" || return
    done
}
merged() {
    folder=$tmp/$1
    mkdir -p "$folder"
    shift
    for form in $forms; do
        "$midden" run --merge $form "$@" >"$folder/$form" 2>"$folder/err" || return
    done
}
same() {
    for form in $forms; do
        cmp "$tmp/whole/$form" "$tmp/$1/$form" || return
    done
}
slice() { run run "$pile" --plan "$2" --members "$1" -o "$tmp/$1.shard" --force; }

judge "24 members are run at once" whole 'by date'
for members in 1-7 8-8 9-16 17-24; do
    slice $members 'by date'
    judge "members $members are run as a slice" [ $status -eq 0 ]
done
judge "nothing is said of a slice" [ ! -s "$tmp/out" ]
cd "$tmp" || exit 1
judge "slices are merged" merged order 1-7.shard 8-8.shard 9-16.shard 17-24.shard
judge "the answer is that of one run, in text, JSON and CSV" same order
judge "slices are merged in another order" merged other 9-16.shard 17-24.shard 8-8.shard 1-7.shard
judge "the answer is the same" same other
run run --merge 1-7.shard
judge "the first members alone are a smaller run" tells "7 possible piles"

for threads in 1 2 5; do
    run run "$pile" --plan 'by date' --members 24 --json --threads $threads
    judge "$threads threads give the same bytes" cmp "$tmp/out" "$tmp/whole/--json"
done
cp 9-16.shard kept.shard
run run "$pile" --plan 'by date' --members 9-16 --threads 1 -o 9-16.shard --force
judge "a shard is the same file on one thread" cmp kept.shard 9-16.shard
run run "$pile" --plan 'by date' --members 9-16 --threads 2 -o 9-16.shard --force
judge "and on two" cmp kept.shard 9-16.shard
run run "$pile" --plan 'by date' --members 24 --draw 2 --json
judge "another draw is another answer" [ -n "$(cmp "$tmp/out" "$tmp/whole/--json")" ]

# members that can't be run are left out by their numbers, however they are sliced
judge "some members find no room" whole 'if there is room'
judge "which is said" grep -q "can't be run and is left out" "$tmp/whole/err"
for members in 1-10 11-24; do
    slice $members 'if there is room'
done
judge "slices with such members are merged" merged room 11-24.shard 1-10.shard
judge "the answer is that of one run" same room
judge "and the same members are left out" cmp "$tmp/whole/err" room/err

# ---- what can't be merged ----
ends 65 "a missing slice is refused" run --merge 1-7.shard 17-24.shard 8-8.shard
judge "its numbers are told" says "members 9 to 16 are in none"
ends 65 "so is a missing beginning" run --merge 8-8.shard 9-16.shard
judge "with its numbers" says "members 1 to 7 are in none"
ends 65 "a doubled slice is refused" run --merge 1-7.shard 8-8.shard 9-16.shard 8-8.shard
judge "its number is told" says "members 8 to 8 are in more than one"
ends 65 "a scenario is no shard" run --merge "$pile"
judge "what is one is told" says "--members A-B"
ends 66 "a shard that isn't there is missing input" run --merge 1-7.shard nowhere.shard
sed '1s/shard 2/shard 1/' 1-7.shard >old.shard
ends 65 "a shard of another version is refused" run --merge old.shard
judge "for what it is" says "another version of midden"
: >empty.shard
ends 65 "an empty file is no shard" run --merge empty.shard
ends 65 "nor is a folder" run --merge room
cat 1-7.shard | "$midden" run --merge - 8-8.shard --json >piped 2>&1
"$midden" run --merge 1-7.shard 8-8.shard --json >read 2>&1
judge "a shard may come through a pipe" cmp piped read
"$midden" run --merge - 8-8.shard --json <1-7.shard >piped 2>&1
judge "or as standard input" cmp piped read
cp 1-7.shard cut.shard
mkfifo late
"$midden" run --merge cut.shard late >cut.out 2>cut.err &
exec 3>late # waits until the first shard is read and the second is opened
: >cut.shard
cat 8-8.shard >&3
exec 3>&-
wait $!
judge "a shard that is cut short under a merge ends it" [ $? -eq 74 ]
judge "with a word, and nothing half told" [ "$(wc -l <cut.err)" -eq 1 -a ! -s cut.out ]
head -c 3000 1-7.shard >short.shard
ends 65 "a shard cut short is refused" run --merge short.shard
judge "and named" says "short.shard: "
{ head -c 4000 1-7.shard; printf '#'; tail -c +4002 1-7.shard; } >bad.shard
judge "a shard is damaged for the test" [ -n "$(cmp bad.shard 1-7.shard)" ]
ends 65 "a damaged shard is refused" run --merge bad.shard
for other in "--draw 2" "--set best_C=56"; do
    rm -f other.shard
    "$midden" run "$pile" --plan 'by date' --members 8-9 $other -o other.shard
    ends 65 "a slice of a run with $other is of another run" run --merge 1-7.shard other.shard
    judge "which is said" says "of another run"
done
rm other.shard
"$midden" run "$pile" --plan 'if there is room' --members 8-16 -o other.shard
ends 65 "so is one of another plan" run --merge 1-7.shard other.shard
judge "for that reason" says "of another run"
sed 's/55 L/56 L/' "$pile" >other.yaml
rm other.shard
"$midden" run other.yaml --plan 'by date' --members 8-9 -o other.shard
ends 65 "and one of another recipe" run --merge 1-7.shard other.shard
judge "for the same reason" says "of another run"

# ---- how members are asked for ----
for members in 0 5-2 3-x x 0-4 -3 4- 1-2-3 1.5 99999999 1-99999; do
    ends 64 "--members $members is wrong usage" run "$pile" --members "$members" -o "$tmp/no"
done
judge "nothing was written" [ ! -e "$tmp/no" ]
ends 64 "a slice needs a file" run "$pile" --members 1-3
judge "which is told" says "-o FILE"
ends 64 "a slice isn't told as JSON" run "$pile" --members 1-3 --json -o "$tmp/no"
ends 64 "threads are counted from 1" run "$pile" --threads 0
ends 64 "--merge needs shards" run --merge
ends 64 "what was run can't be changed by --merge" run --merge --plan 'by date' 1-7.shard
"$midden" run - --members 1-3 -o "$tmp/no" <"$pile" >"$tmp/out" 2>"$tmp/err"
status=$?
judge "a slice has its scenario from a file" [ $status -eq 64 ]
ends 73 "a shard that is there isn't replaced" run "$pile" --plan 'by date' --members 1-7 \
    -o 1-7.shard

# ---- ranges ----
if command -v jq >/dev/null; then
    cat >ranges.jq <<'END'
[.days[] | . as $day | keys[] | select(endswith("_low")) | rtrimstr("_low") as $name |
 {name: $name, low: $day[$name + "_low"], plain: $day[$name], high: $day[$name + "_high"]}] |
(length >= 12 * 10) and all(.low <= .plain and .plain <= .high) and
(map(select(.low < .high)) | length > 12 * 8)
END
    judge "each number of a day lies between its _low and its _high" \
        jq -e -f ranges.jq "$tmp/whole/--json"
    judge "so do living seeds" jq -e '.seeds | length == 3 and
        all(.live_share_low <= .live_share and .live_share <= .live_share_high and
            .live_share_low < .live_share_high)' "$tmp/whole/--json"
    run run "$pile" --plan 'by date' --members 1 --json
    judge "the central pile has no ranges" \
        jq -e '[.. | objects | to_entries[] | select(.key | test("_(low|high)$")) | .value] |
            all(. == null)' "$tmp/out"
    judge "and is one member" jq -e '.members == 1' "$tmp/out"
else
    echo "skip - jq isn't here to look into JSON"
fi
run run "$pile" --plan 'by date' --json
judge "without --members there are 64" tells '"members": 64'

# ---- GNU parallel: killed half way, resumed, merged ----
# begin: eight slices one after the other, each logged when it is done
begin() {
    PARALLEL_HOME=$tmp/parallel exec parallel --will-cite -j1 --delay 0.3 --joblog joblog --resume \
        "$midden" run "$pile" --plan "'by date'" --members {} -o jobs-{}.shard --force \
        ::: 1-3 4-6 7-9 10-12 13-15 16-18 19-21 22-24 >parallel.out 2>&1
}
logged() { tail -n +2 joblog 2>/dev/null | wc -l; }
if parallel --version 2>/dev/null | grep -q '^GNU parallel'; then
    mkdir -p parallel
    whole 'by date'
    (begin) &
    child=$!
    waited=0
    while [ "$(logged)" -lt 3 ] && [ $waited -lt 300 ]; do
        sleep 0.1
        waited=$((waited + 1))
    done
    kill -KILL $child
    wait $child 2>/dev/null
    half=$(logged)
    judge "parallel is killed half way" [ "$half" -ge 3 -a "$half" -lt 8 ]
    head -n $((half + 1)) joblog >half
    run run --merge --long jobs-*.shard
    judge "half of the slices are not the answer" \
        [ -n "$(cmp "$tmp/out" "$tmp/whole/--long")" ]
    (begin)
    judge "the rest is run when it is resumed" [ "$(logged)" -eq 8 ]
    judge "what was done is not done again" sh -c \
        'head -n "$(wc -l <half)" joblog | cmp - half'
    judge "all jobs ended well" [ "$(tail -n +2 joblog | awk '$7 != 0 || $8 != 0' | wc -l)" -eq 0 ]
    judge "the slices are merged" merged jobs jobs-*.shard
    judge "the answer is that of one run, bit for bit" same jobs
else
    echo "skip - GNU parallel isn't installed"
fi
finish
