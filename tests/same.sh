#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/same.sh PROGRAM OTHER... - the same bytes from programs built by other compilers, for other processors:
# PROGRAM takes the instructions that this processor has and four members at once, the others neither.
set -u
program=$1
shift
good=0
bad=0

# what is told of a season with members, threads and lanes; of a mix; of plans side by side
questions() {
    for s in scenarios/*.yaml; do
        echo "run --members 6 --threads 2 --json $s"
        echo "mix --json $s"
    done
    echo "run --members 3 --csv scenarios/nettle-yard.yaml"
    echo "compare --members 4 --json scenarios/nettle-yard.yaml"
    echo "next --members 4 --json scenarios/nettle-yard.yaml"
}

list=$(mktemp)
want=$(mktemp)
trap 'rm -f "$list" "$want"' EXIT
questions >"$list"
while read -r question; do
    $program $question -q >"$want" 2>/dev/null
    [ -s "$want" ] || { echo "not ok - midden $question tells nothing"; bad=$((bad + 1)); continue; }
    for other in "$@"; do
        if $other $question -q 2>/dev/null | cmp -s - "$want"; then
            good=$((good + 1))
        else
            echo "not ok - $other: other bytes from midden $question"
            bad=$((bad + 1))
        fi
    done
done <"$list"
echo "same: $good answers of other compilers and plain processors are the same to the byte, $bad are not"
[ "$bad" -eq 0 ] && [ "$good" -gt 0 ]
