#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench.sh - times one season of one pile from start to end, reading and printing included.
#
#     bash tests/bench.sh MIDDEN SCENARIO
midden=$1 scenario=$2 runs=7
times=()
for ((i = 0; i < runs; ++i)); do
    from=$(date +%s%N)
    "$midden" run "$scenario" --members 1 --json >/dev/null || exit 1
    times+=($((($(date +%s%N) - from) / 1000)))
done
mapfile -t times < <(printf '%s\n' "${times[@]}" | sort -n)
printf '%s: best %d.%03d ms, median %d.%03d ms of %d runs\n' "$scenario" \
    $((times[0] / 1000)) $((times[0] % 1000)) \
    $((times[runs / 2] / 1000)) $((times[runs / 2] % 1000)) $runs
