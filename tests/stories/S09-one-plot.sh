#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A teacher asks: one plot that shows where the heat goes.
#
# Heat made is heat lost plus heat stored: conservation of energy, which no source need state.
midden=$1
. tests/stories/story.inc
cp scenarios/minimal.yaml "$tmp/lesson.yaml"
when run lesson --members 1 --json
then_ "the heat made, and the ways it leaves, have names" holds lesson \
    '.fluxes | has("decay_heat_MJ") and has("air_heat_MJ") and has("wall_heat_MJ") and has("top_heat_MJ") and has("vapour_heat_MJ") and has("ground_heat_MJ")'
then_ "heat is made and lost, not lost and made" holds lesson '.fluxes | .decay_heat_MJ > 0 and .wall_heat_MJ < 0 and .air_heat_MJ < 0'
then_ "all of them agree with what is stored to far better than 1 %" holds lesson '.balance.energy < 1e-9'
if command -v gnuplot >/dev/null; then
    when run lesson --members 1 --plot "$tmp/pictures"
    then_ "heat made and lost by way stand on one axis in one picture" [ -s "$tmp/pictures/heat.svg" ]
    then_ "in watts" grep -qi "watt\|W<" "$tmp/pictures/heat.svg"
fi
finish
