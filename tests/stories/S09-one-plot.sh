#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A teacher asks: one plot that shows where the heat goes.
#
# Heat made is heat lost plus heat stored: conservation of energy, which no source need state. What is
# stored follows from the ledger of a season, which weighs the pile itself, and not from these sums.
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
cp scenarios/minimal.yaml "$tmp/pile.yaml"
cp scenarios/minimal.yaml "$tmp/season.yaml"
when lesson pile --members 4 --json
then_ "heat made, and the ways it leaves, are told in watts for each day" holds pile \
    '.watt_days | length > 100 and all(has("decay") and has("walls") and has("top") and has("air") and has("vapour"))'
then_ "heat is made, and lost by wall, top, air and vapour" holds pile \
    '.watt_days[5:30] | all(.decay > 0) and (map(.walls) | add < 0) and (map(.top) | add < 0) and (map(.air) | add < 0) and (map(.vapour) | add < 0)'
then_ "on each day what is made is what is lost and kept, within 1 %" holds pile '.watt_days | all(
    (.decay + .vapour + .air + .walls + .top + .ground + .sun_and_sky + .rain_and_water + .added - .stored | fabs)
    <= 0.01 * ([.decay, .vapour, .air, .walls, .top, .ground, .sun_and_sky, .rain_and_water, .added, .stored] | map(fabs) | max))'

# two piles as seasons: their median is their mean, and over the season that is the plot's
when lesson pile --members 2 --json
when run season --members 2 --json
total() { # LINE: megajoules of the plot; the first day begins at 10 h
    of pile "[.watt_days[] | .$1 * (if .day == 1 then 50400 else 86400 end)] | add / 1e6"
}
told() { of season ".fluxes.$1_MJ"; }
near() { jq -n "($1) as \$a | ($2) as \$b | ((\$a - \$b) | fabs) <= 0.01 * (\$b | fabs)" | grep -q true; }
then_ "the heat made is that of the seasons" near "$(total decay)" "$(told decay_heat)"
then_ "by the walls" near "$(total walls)" "$(told wall_heat)"
then_ "by the top" near "$(total top)" "$(told top_heat)"
then_ "by air" near "$(total air)" "$(told air_heat)"
then_ "by vapour" near "$(total vapour)" "$(told vapour_heat)"
then_ "whose energy is weighed to far better than 1 %" holds season '.balance.energy < 1e-9'

if command -v gnuplot >/dev/null; then
    when lesson pile --members 4 --plot "$tmp/pictures"
    then_ "heat made and lost by way stand on one axis in one picture" [ -s "$tmp/pictures/lesson_watts.svg" ]
    then_ "in watts" grep -q "W, mean of the day" "$tmp/pictures/lesson_watts.svg"
    for way in decay walls "top to the air" "air through the pile" "vapour through top and walls"; do
        then_ "with its name: $way" grep -q "$way" "$tmp/pictures/lesson_watts.svg"
    done
fi
finish
