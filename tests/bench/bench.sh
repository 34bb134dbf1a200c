#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/bench/bench.sh - all the bench measures, and the page made of it: docs/performance.md.
#
#     sh tests/bench/bench.sh BENCH LENT.SO
#
# Contenders that aren't installed (SciPy, R's deSolve, valgrind) are left out, with a note. Ten
# minutes on two idle cores. ROUNDS=1 tries whether it works.
set -e
bench=$1 lent=$2 out=build/race rounds=${ROUNDS:-7}
scenario=tests/bench/turned.yaml
days=10
python=/usr/bin/python3
test -x $python || python=python3
export PYTHONDONTWRITEBYTECODE=1 OPENBLAS_NUM_THREADS=1 # times are of the processor
load() { cut -d' ' -f1 /proc/loadavg; }

load >$out/load
rm -f $out/numpy.tsv
echo "the right-hand side in NumPy, held against ours"
if $python -c 'import scipy' 2>/dev/null; then
    $python tests/bench/race_numpy.py $lent $scenario 120 "$rounds" >$out/numpy.tsv
fi
echo "four seasons and two meshes"
$bench tables tests/bench | tee $out/tables.txt
echo "one season, ours against CVODE, $rounds rounds"
$bench race $scenario 0 "$rounds" 0 >$out/season.tsv
$bench race $scenario 0 0 1 >>$out/season.tsv
load >>$out/load
echo "$days days of it, with whatever else is there, $rounds rounds"
: >$out/short.tsv
round=1
while [ $round -le "$rounds" ]; do
    $bench race $scenario $days 1 $((round == 1)) $out/short.f64 >>$out/short.tsv
    if $python -c 'import scipy' 2>/dev/null; then
        $python tests/bench/race_scipy.py $lent $scenario $days $out/short.f64 $round >>$out/short.tsv
    else
        echo "no SciPy: left out"
    fi
    if Rscript -e 'library(deSolve)' >/dev/null 2>&1; then
        Rscript tests/bench/race_desolve.R $lent $scenario $days $out/short.f64 $round >>$out/short.tsv
    else
        echo "no deSolve: left out"
    fi
    round=$((round + 1))
done
load >>$out/load
echo "growth with cells, days, members, threads"
$bench growth $scenario >$out/growth.tsv
echo "a core's peaks, and what a step asks of it"
$bench peaks >$out/peaks.tsv
for lanes in one four; do
    rm -f $out/count-$lanes.tsv
    if command -v valgrind >/dev/null; then
        $python tests/bench/count.py $bench $scenario $lanes >$out/count-$lanes.tsv || rm -f $out/count-$lanes.tsv
    fi
done
load >>$out/load
$python tests/bench/page.py $out build/performance.md
cp build/performance.md docs/performance.md
for picture in race growth; do
    gnuplot -e "folder='$out'; picture='docs/performance-$picture.png'" tests/bench/$picture.gp
done
echo "docs/performance.md is written, also in build/"
