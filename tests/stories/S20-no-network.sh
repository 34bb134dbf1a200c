#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# An educator asks: a text file and a terminal, will it do?
midden=$1
. tests/stories/story.inc
cp scenarios/nettle-yard.yaml "$tmp/garden.yaml"
when run garden --members 1 --json
cp "$tmp/out" "$tmp/first"
when run garden --members 1 --json
then_ "the same file gives the same bytes" cmp "$tmp/first" "$tmp/out"
env -i "$midden" run -q "$tmp/garden.yaml" --members 1 --json >"$tmp/out" 2>"$tmp/err"
status=$?
then_ "with no home, no locale, no display" cmp "$tmp/first" "$tmp/out"
if command -v gnuplot >/dev/null; then
    env -u DISPLAY "$midden" run -q "$tmp/garden.yaml" --members 1 --plot "$tmp/pictures" >"$tmp/out" 2>"$tmp/err"
    status=$?
    then_ "pictures are drawn without a screen" [ -s "$tmp/pictures/temperature.png" ]
fi
finish
