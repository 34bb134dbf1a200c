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
when why lesson --day 3 --members 8 --json
then_ "on one day watts in and out agree with what is stored to far better than 1 %" holds lesson \
    '.budget_w | (.decay + .vapour + .air + .walls + .top + .ground + .sun_and_sky + .rain_and_water + .added - .stored) | (. < 1e-6 and . > -1e-6)'
then_ "and so they do in each of its 24 hours" holds lesson \
    '(.hours | length == 24) and all(.hours[]; (.decay + .vapour + .air + .walls + .top + .ground + .sun_and_sky + .rain_and_water + .added - .stored) | (. < 1e-6 and . > -1e-6))'
then_ "the hours are the day" holds lesson '((.hours | map(.decay) | add / 24) - .budget_w.decay) | (. < 1e-6 and . > -1e-6)'
if command -v gnuplot >/dev/null; then
    when run lesson --members 1 --plot "$tmp/pictures"
    then_ "heat made and lost by way stand on one axis in one picture" [ -s "$tmp/pictures/heat.svg" ]
    then_ "in watts" grep -qi "watt\|W<" "$tmp/pictures/heat.svg"
    when why lesson --day 3 --members 8 --plot "$tmp/day"
    then_ "and through the hours of that day in another" [ -s "$tmp/day/heatday.svg" ]
    then_ "in watts as well" grep -q "W, mean of the hour" "$tmp/day/heatday.svg"
    then_ "whose title tells who takes most" grep -Eq "<title>Decay makes [0-9.]+ W on 13 Apr; .* takes? most heat" "$tmp/day/heatday.svg"
fi
finish
