#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/faults.sh - disks, programs, signals and surroundings that fail: a clear word, the
# status of the table in base/trouble.h, and only whole files or none.
#
#     KILLS=200 sh tests/cli/faults.sh ./midden
#
# kills 200 times rather than 40. Memory and threads are refused by memory.sh.
midden=$1
. tests/cli/cases.inc
. tests/cli/short.inc
kills=${KILLS:-40}
# ---- disks and folders ----
empty
if [ "$(id -u)" -eq 0 ] && mount -t tmpfs -o size=64k none "$folder" 2>/dev/null; then
    ends 74 "a full disk ends with 74" run --members 1 --json -q scenarios/nettle-yard.yaml -o "$folder/out"
    judge "and leaves nothing on it" bare
    ends 0 "what still fits is written" new -o "$folder/new.yaml"
    judge "whole" sh -c "'$midden' new | cmp - '$folder/new.yaml'"
    if command -v gnuplot >/dev/null; then
        TMPDIR=$folder run run --members 1 -q --plot "$tmp/pictures" "$pile"
        judge "no room to draw ends with 73 or 74" [ $status -eq 73 -o $status -eq 74 ]
        judge "no picture is left" [ ! -e "$tmp/pictures" ]
        run run --members 1 -q --plot "$folder/pictures" "$pile"
        judge "no room for pictures ends with 73 or 74" [ $status -eq 73 -o $status -eq 74 ]
        judge "those that are there are whole" sh -c "for p in '$folder'/pictures/*.svg; do [ ! -e \"\$p\" ] ||
            tail -c 10 \"\$p\" | grep -q '</svg>' || exit 1; done; ! ls -A '$folder/pictures' | grep -q part"
    fi
    umount "$folder"
else
    echo "skip - a small disk can't be mounted here"
fi
empty
chmod 555 "$folder"
if [ "$(id -u)" -eq 0 ]; then
    if command -v setpriv >/dev/null && cp "$midden" "$tmp/copy" 2>/dev/null; then
        chmod 755 "$tmp" "$tmp/copy"
        setpriv --reuid 65534 --clear-groups "$tmp/copy" new -o "$folder/new" >"$tmp/out" 2>"$tmp/err"
        status=$?
    fi
else
    run new -o "$folder/new"
fi
judge "a folder that can't be written to ends with 73" [ $status -eq 73 ]
judge "and is named" says "$folder/new"
chmod 755 "$folder"

# ---- gnuplot ----
fake=$tmp/fake draw=$tmp/draw
mkdir "$fake" "$draw"
# gnuplot_is SCRIPT: the program that midden finds under that name
gnuplot_is() {
    printf '#!/bin/sh\n%s\n' "$1" >"$fake/gnuplot"
    chmod +x "$fake/gnuplot"
}
# drawn: with that gnuplot, into nothing
drawn() {
    empty
    TMPDIR=$draw PATH=$fake:$PATH "$midden" run --members 1 -q --plot "$folder/pictures" "$pile" >"$tmp/out" 2>"$tmp/err"
    status=$?
}
nothing_left() { bare && [ -z "$(ls -A "$draw")" ] && [ ! -s "$tmp/out" ]; }
gnuplot_is 'kill -9 $$'
drawn
judge "gnuplot killed ends with 69" [ $status -eq 69 ]
judge "the signal is told" says "signal 9"
judge "nothing is left of it" nothing_left
gnuplot_is 'echo "half a picture"; exit 0'
drawn
judge "half a picture ends with 74" [ $status -eq 74 ]
judge "and is thrown away" nothing_left
gnuplot_is 'echo "no such terminal" >&2; exit 3'
drawn
judge "what gnuplot complains of is told" says "no such terminal"
judge "and ends with 69" [ $status -eq 69 ]

# ---- signals ----
gnuplot_is 'exec sleep 30'
for kind in TERM:143 INT:130; do
    name=${kind%:*} number=${kind#*:}
    for phase in reading running drawing writing; do
        empty
        rm -f "$tmp/pipe"
        mkfifo "$tmp/pipe"
        case $phase in
        reading) set -- run - -o "$folder/out" ;;
        running) set -- run --members 20000 -q -o "$folder/out" "$pile" ;;
        drawing) set -- run --members 1 -q --plot "$folder/pictures" -o "$folder/out" "$pile" ;;
        writing) set -- run --members 1 --json -q scenarios/nettle-yard.yaml -o "$tmp/pipe" ;;
        esac
        # a shell has its background children ignore SIGINT, and midden leaves that so: env puts it back
        (TMPDIR=$draw PATH=$fake:$PATH exec env --default-signal=INT "$midden" "$@" <"$tmp/pipe" >"$tmp/out" 2>"$tmp/err") &
        child=$!
        exec 9<>"$tmp/pipe" # open at both ends, never read
        sleep 0.3
        kill "-$name" $child
        # between the last look at the signal and a write that blocks are some microseconds: as a person would
        (sleep 10; kill "-$name" $child) 2>/dev/null &
        again=$!
        wait $child 2>/dev/null
        status=$?
        kill $again 2>/dev/null
        exec 9>&-
        judge "SIG$name while $phase ends with $number" [ $status -eq "$number" ]
        judge "and leaves nothing behind ($phase, SIG$name)" nothing_left
    done
done

# ---- killed at any moment ----
empty
"$midden" run --members 1 --json -q "$pile" >"$tmp/one" 2>/dev/null
"$midden" run --members 1 --csv -q "$pile" >"$tmp/other" 2>/dev/null
cp "$tmp/other" "$folder/out"
n=0 torn=0
while [ $n -lt "$kills" ]; do
    form=--json
    [ $((n % 2)) -eq 0 ] && form=--csv
    "$midden" run --members 1 $form -q "$pile" -o "$folder/out" --force 2>/dev/null &
    child=$!
    sleep "0.0$(awk -v n=$n 'BEGIN { srand(n); printf "%03d", 999 * rand() }')"
    kill -9 $child 2>/dev/null
    wait $child 2>/dev/null
    cmp -s "$folder/out" "$tmp/one" || cmp -s "$folder/out" "$tmp/other" || torn=$((torn + 1))
    n=$((n + 1))
done
judge "killed at $kills moments, the file is always a whole one" [ $torn -eq 0 ]
judge "what else is left is hidden and named .part" [ -z "$(ls -A "$folder" | grep -v -e '^out$' -e '^\..*\.part$')" ]
run run --members 1 --csv -q "$pile" -o "$folder/out" --force
judge "and is no hindrance to a later run" cmp "$folder/out" "$tmp/other"

# pictures, of which each is a file of its own; this gnuplot is quick
gnuplot_is 'echo "<svg><title></title><desc></desc></svg>"'
drawn
judge "pictures by another gnuplot are taken if they end as pictures do" [ $status -eq 0 ]
all=$(ls "$folder/pictures" | wc -l)
n=0 torn=0
while [ $n -lt "$kills" ]; do
    empty
    TMPDIR=$draw PATH=$fake:$PATH "$midden" run --members 1 -q --plot "$folder/pictures" "$pile" >"$tmp/out" 2>/dev/null &
    child=$!
    sleep "0.$(awk -v n=$n 'BEGIN { srand(n); printf "%04d", 1500 * rand() }')"
    kill -9 $child 2>/dev/null
    wait $child 2>/dev/null
    for picture in "$folder"/pictures/*; do
        [ ! -e "$picture" ] || tail -c 7 "$picture" | grep -q '</svg>' || torn=$((torn + 1))
    done
    n=$((n + 1))
done
judge "killed at $kills moments while drawing, each picture is a whole one" [ $torn -eq 0 ]
drawn
judge "and a later run draws all $all" [ "$(ls "$folder/pictures" 2>/dev/null | wc -l)" -eq "$all" ]

# ---- surroundings ----
"$midden" run --members 2 --json -q "$pile" >"$tmp/whole" 2>/dev/null
env -i "$midden" run --members 2 --json -q "$pile" >"$tmp/out" 2>"$tmp/err"
judge "without any environment the numbers are the same" cmp "$tmp/whole" "$tmp/out"
for zone in Nowhere/Never ':bad' 'XYZ-999:99' Pacific/Kiritimati ''; do
    TZ=$zone "$midden" run --members 2 --json -q "$pile" >"$tmp/out" 2>"$tmp/err"
    judge "the time zone '$zone' changes nothing" cmp "$tmp/whole" "$tmp/out"
done
LC_ALL=xx_YY.nonsense HOME=/nonexistent "$midden" run --members 2 --json -q "$pile" >"$tmp/out" 2>"$tmp/err"
judge "nor does a locale that isn't there" cmp "$tmp/whole" "$tmp/out"

# ---- shards ----
"$midden" run --members 1-2 -q "$pile" -o "$tmp/good.shard" 2>/dev/null
size=$(wc -c <"$tmp/good.shard")
for part in 3 20 200 900 $((size / 2)) $((size - 300)) $((size - 3)); do
    cp "$tmp/good.shard" "$tmp/bad.shard"
    byte=$(od -An -tu1 -j "$part" -N 1 "$tmp/good.shard" | tr -d ' ')
    printf "\\$(printf %o $((byte ^ 16)))" | dd of="$tmp/bad.shard" bs=1 seek="$part" conv=notrunc 2>/dev/null
    run run --merge "$tmp/bad.shard"
    judge "a shard with byte $part flipped is named" [ "$status $(grep -c "$tmp/bad.shard: " "$tmp/err")" = "65 1" ]
done
finish
