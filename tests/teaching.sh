#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/teaching.sh - rewrites docs/how-a-pile-works.md, docs/lesson.md and their figures from runs.
#
#     sh tests/teaching.sh MIDDEN
#
# Every number of a pile on these pages is read from an answer of the program. What is said of such
# numbers ("more", "less") is a claim that must hold, or the page isn't written and this fails.
midden=$1
case $midden in
/*) ;;
*) midden=$(pwd)/$midden ;;
esac
LC_ALL=C.UTF-8
export LC_ALL
command -v jq >/dev/null && command -v gnuplot >/dev/null ||
    { echo "docs: the teaching pages stay as they are, for want of jq or gnuplot"; exit 0; }
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT

yard=scenarios/nettle-yard.yaml small=scenarios/minimal.yaml
"$midden" lesson -q $yard --json --plot "$work/figures" >"$work/yard" &&
    "$midden" lesson -q $small --members 8 --json >"$work/small" &&
    "$midden" run -q $yard --plan 'leave it' --members 16 --json >"$work/season" &&
    "$midden" lesson -q $yard --members 8 >"$work/told" || exit 1

# value FILE PATH [DIGITS [TIMES]]: "12", and ranged: "12 (9-16)", a minus told apart by "to"
value() {
    jq -r --argjson digits "${3:-0}" --argjson times "${4:-1}" "
        def say: . * \$times * pow(10; \$digits) | round | . / pow(10; \$digits) + 0 | tostring;
        $2 | say" "$work/$1"
}
ranged() { # FILE OBJECT KEY [DIGITS [TIMES]]
    r_mid=$(value "$1" "$2.$3" "$4" "$5") r_low=$(value "$1" "$2.${3}_low" "$4" "$5")
    r_high=$(value "$1" "$2.${3}_high" "$4" "$5")
    case $r_low$r_high in
    *-*) r_to=" to " ;;
    *) r_to=- ;;
    esac
    if [ "$r_low" = "$r_high" ]; then echo "$r_mid"; else echo "$r_mid ($r_low$r_to$r_high)"; fi
}
text() { jq -r "$2" "$work/$1"; }
# claim SENTENCE FILE FILTER
claim() {
    [ "$(jq "$3" "$work/$2")" = true ] && return
    echo "docs: the runs no longer bear what docs/how-a-pile-works.md says: $1"
    exit 1
}

claim "decay is what warms the pile" yard '.watts | .decay > ([.sun_and_sky, .rain_and_water, .ground] | map(if . < 0 then 0 else . end) | add) * 10'
claim "the walls take most here" yard '.watts | .walls < .air + .vapour and .walls < .top + .sun_and_sky and .walls < .ground'
claim "steam and air take most there" small '.watts | .air + .vapour < .walls and .air + .vapour < .top + .sun_and_sky and .air + .vapour < .ground'
claim "more water dries off there" small ".needs.water_dried_kg_per_kg_used > $(value yard .needs.water_dried_kg_per_kg_used 3)"
claim "the large cube stays warmer" yard '.sizes[1].last_day_c > .sizes[0].last_day_c + 5'
claim "the large one gets hotter there" small '.sizes[1].peak_c > .sizes[0].peak_c + 5'
claim "and stays warmer" small '.sizes[1].last_day_c > .sizes[0].last_day_c + 5'
claim "a turn cools, then warms" yard '.turn | .middle_lowest_c < .middle_before_c - 1 and .middle_highest_c > .middle_lowest_c + 3 and 4 * .drops_first > 3 * .of'
claim "what oxygen it brings is used up by evening" yard '.turn | (.oxygen_after_share - .oxygen_before_share | fabs) < 0.05'
claim "dry stuff doesn't heat" yard '.wetness | .[0].used_up_share < 0.3 * .[1].used_up_share and .[0].peak_c < .[1].peak_c - 20'
claim "the wet one is later" yard '.wetness | .[2].used_up_share <= .[1].used_up_share'
claim "the wet one's gaps hold less air" yard '.wetness | .[2].free_air_share < .[1].free_air_share'
claim "straw keeps most of them warmer, a hand deep nearly all" yard '.winter | .middle_gain_k > 0 and .hand_deep_gain_k_low > 0'
claim "it makes less heat in the cold than later" yard '.winter | .heat_made_then_w < .heat_made_later_w and 2 * .wakes > .of'
claim "the rim is cooler than the middle" season '.days[5] | .hottest_c > .coldest_tenth_c + 15 and .middle_c > .hand_deep_c'
claim "it shrinks and gets richer" season '.yield.volume_m3 < .days[0].volume_m3 and .yield.c_to_n < .days[0].carbon_kg / .days[0].nitrogen_kg'

mkdir -p docs/teaching
cp "$work"/figures/*.svg docs/teaching/ || exit 1

kept="the $(value yard '.watts.stored | fabs') W that are left over warm the pile"
[ "$(text yard '.watts.stored < 0')" = true ] &&
    kept="that is $(value yard '.watts.stored | fabs') W more than is made, and the pile cools"
day=$(text yard '.today.date') warm=$(text season '.days[5].date')
cat >"$work/how.md" <<END
# How a pile works

Made by \`make docs\` (\`tests/teaching.sh\`); not edited by hand. Every number of a pile here is an answer of the
program for \`$yard\`, a bin of boards with a lid in a garden that is made up: medians of 16 possible piles, and
in brackets where 8 in 10 of them lie. Figures that come from elsewhere have a mark: *memory* is recalled and to be
confirmed, *trade* is common knowledge without a
source, *derived* follows from what is stated. The numbers are forecasts of a model, not measurements;
\`experiments.md\` tells how far it can be believed, \`physics.md\` gives its equations and their sources. For a class,
the same stands in steps of minutes in \`lesson.md\`.

## A slow meal

The pile begins with $(ranged yard .needs dry_kg) kg of dry matter, of which $(ranged yard .needs quick_food_kg) kg
can be eaten in time by bacteria and fungi: sugars, protein, fat, cellulose. The rest is woody stuff, old soil and
ash. With it lie $(ranged yard .needs water_kg) kg of water, and $(ranged yard .needs free_air_share 0 100) % of the
space is air.

Left alone, $(ranged yard .needs used_up_kg) kg of dry matter are gone by $(text season '.days[-1].date'). They leave
as carbon dioxide, $(value season '-.fluxes.co2_carbon_kg') kg of carbon in it, and as water. Each kilogram used up sets
$(ranged yard .needs heat_MJ_per_kg_used) MJ of heat free; books have 15 to 20 MJ *[memory]*. It is what burning would
give, spread over weeks, and nothing glows.

## Heat made, heat lost

![Heat made and lost in watts, a bar a day](teaching/lesson_watts.svg)

On $day decay makes $(ranged yard .watts decay) W. The walls take $(value yard '-.watts.walls') W, the top
$(value yard '-(.watts.top + .watts.sun_and_sky)') W with sun and sky, steam and air $(value yard '-(.watts.air + .watts.vapour)') W,
the ground $(value yard '-.watts.ground') W; $kept. (Watts are means of the 16, since only means add up.)

Which way is the widest depends on the bin. Boards and a lid hold steam back, so the walls take most here. In
\`$small\`, between pallets and without a lid, steam and air take most on its warmest day:
$(value small '-(.watts.air + .watts.vapour)') W of $(value small .watts.decay) W (8 possible piles). To
evaporate 1 kg of water takes 2.4 MJ *[memory]*, so the heat of 1 kg used up could dry off 6 to 8 kg *[derived]*. All
told $(ranged yard .needs water_dried_kg_per_kg_used 1) kg go for each kilogram used up in the closed bin, and
$(ranged small .needs water_dried_kg_per_kg_used 1) kg in the open one. That is why hot open piles run dry.

## Warm within, cool without

On $warm, day 6 of the pile left alone, its hottest spot is at $(ranged season '.days[5]' hottest_c) °C, the middle at
$(ranged season '.days[5]' middle_c) °C, a hand deep it is $(ranged season '.days[5]' hand_deep_c) °C, and the coldest tenth is below
$(ranged season '.days[5]' coldest_tenth_c) °C. At most $(ranged yard .turn hottest_over_55c_share 0 100) % of the dry matter
is above 55 °C at once. So a hot middle says little about seeds and germs at the rim, and turning the outside in is
how they get their turn.

## Why size matters

![The middle of a small and of a large cube of the same mix](teaching/lesson_sizes.svg)

Heat is made in the volume and lost at the surface. A cube has 6/side square metres of surface to each cubic
metre *[derived]*: 10 at 0.6 m, 5 at 1.2 m. The same mix on day 21 is at $(ranged yard '.sizes[0]' last_day_c) °C in the
middle of the small cube and at $(ranged yard '.sizes[1]' last_day_c) °C in that of the large one; at 45 °C and more on
$(ranged yard '.sizes[0]' days_above_45c) days and on $(ranged yard '.sizes[1]' days_above_45c). The open
pile's mix gets no warmer than $(ranged small '.sizes[0]' peak_c) °C as the small cube, and $(ranged small '.sizes[1]' peak_c) °C as the large one.

## What the fork brings

![Above, the middle turned once and left alone; beneath, the least oxygen](teaching/lesson_turned.svg)

Where it is warm, air is used up faster than it comes. On the evening before a turn, on $(text yard .turn.date), the
air in it holds $(ranged yard .turn oxygen_before_share 0 100) % oxygen where it has least (21 % outside *[memory]*); on that of
the turn, $(ranged yard .turn oxygen_after_share 0 100) %: fresh air is used up within hours, so a turn mends that for a while
and not for a week. The turn itself cools: the middle goes from
$(ranged yard .turn middle_before_c) °C to $(ranged yard .turn middle_lowest_c) °C. Then air and food that hasn't been reached yet
take it to $(ranged yard .turn middle_highest_c) °C; left alone it would be at most $(ranged yard .turn left_alone_highest_c) °C in those ten days.
It gets warmer than left alone in $(value yard .turn.rises_above_left_alone) of $(value yard .turn.of) piles, not in all: a turn
brings air and mixes, but no food that wasn't there.

## Dry, damp, wet

![The middle of the same pile built dry, damp and wet](teaching/lesson_wetness.svg)

Bacteria eat what is dissolved *[trade]*. Built with 25 % water, the pile uses up $(ranged yard '.wetness[0]' used_up_share 0 100) % of its dry
matter in three weeks and gets no warmer than $(ranged yard '.wetness[0]' peak_c) °C; with 55 % it is
$(ranged yard '.wetness[1]' used_up_share 0 100) % and $(ranged yard '.wetness[1]' peak_c) °C. Built with 75 %, of which
$(ranged yard '.wetness[2]' water_share 0 100) % are left in the evening, it uses up
$(ranged yard '.wetness[2]' used_up_share 0 100) %: it has more to warm, and its gaps hold less air. The damp one uses up most
in $(text yard '.damp_uses_most.piles') of $(text yard '.damp_uses_most.of') piles; in the open bin in
$(text small '.damp_uses_most.piles') of $(text small '.damp_uses_most.of'), where more dries off. So the best
wetness to build with depends on the bin.

## Cold is a pause

![The middle and a hand deep, bare and under straw, around the coldest day](teaching/lesson_blanket.svg)

On the coldest day of the season, $(ranged yard .winter air_c) °C day and night together, the bare pile left alone is at
$(ranged yard .winter middle_bare_c) °C in the middle and $(ranged yard .winter hand_deep_bare_c) °C a hand deep. Under 10 cm of straw the
middle is $(ranged yard .winter middle_gain_k 1) °C warmer, pile by pile (a minus is cooler), and a hand deep $(ranged yard .winter hand_deep_gain_k 1) °C.
Decay makes $(ranged yard .winter heat_made_then_w) W that day and up to $(ranged yard .winter heat_made_later_w) W later; in
$(value yard .winter.wakes) of $(value yard .winter.of) piles there is more to come than there was that day. Straw warms nothing: it lets
less out.

## What is left

By $(text season .yield.date) the pile left alone has shrunk from $(ranged season '.days[0]' volume_m3 2) m³ to
$(ranged season .yield volume_m3 2) m³. Carbon leaves faster than nitrogen, so C:N falls, from about
$(value season '.fluxes | .added_carbon_kg / .added_nitrogen_kg') to $(ranged season .yield c_to_n). Of $(value season .fluxes.added_nitrogen_kg 1) kg of nitrogen
$(value season '-.fluxes.ammonia_kg' 1) kg go off as ammonia and $(value season '-.fluxes.leached_nitrogen_kg' 2) kg drain away.

Nothing here promises that seeds or germs are dead; \`midden run\` says what share of a pile had which heat. Your own
thermometer decides: readings go into \`midden learn\`.
END

cat >"$work/lesson.md" <<END
# A lesson: why does a pile get warm?

Made by \`make docs\` (\`tests/teaching.sh\`); not edited by hand.

\`midden lesson\` plans forty minutes with a class at a pile and fills in that pile's numbers. A class can't wait
three weeks for two cubes, or for winter; so the program runs them, with the keeper's own mix, place and weather.

\`\`\`sh
./midden lesson $yard --members 8
./midden lesson $yard --members 8 --plan 'straw blanket' --plan 'leave it' --day 2025-11-15
./midden lesson $small --members 4 --ask-first
./midden lesson $small --members 4 --plot figures
./midden lesson $small --members 4 --json
\`\`\`

\`--ask-first\` stops before each answer and reads one line, the class's guess; Enter goes on. Everything has
been run before the first question. \`--plot DIR\` draws five figures to be shown when the guesses are on paper:
\`lesson_watts\`, \`lesson_sizes\`, \`lesson_turned\`, \`lesson_wetness\`, \`lesson_blanket\`. \`--plan\` chooses the
plan of the pile and, given twice, the one it is set beside; without, a plan that does something stands beside one that
doesn't. The day is that of \`--day\`, else of the last reading, else the one on which the middle stands
furthest above the air. A plan that has only \`leave it\` is set beside one turn.

## How its numbers come about

| step | run |
| --- | --- |
| food, water, air | the pile at the end of its first day; what it uses up left alone |
| heat made and lost | the plan's season; watts of one day, means over the possible piles, since means add up |
| two sizes | the same mix as cubes of 0.6 and 1.2 m between the same walls, left alone for 21 days |
| the fork | left alone but for one turn, all mixed, when the middle has fallen below 50 °C after its peak, within eight weeks |
| dry, damp, wet | every ingredient brought to 25, 55 or 75 % water with the same dry matter, nothing poured, 21 days |
| the coldest day | left alone, bare and under 10 cm of straw laid a week before; where the season has no frost, begun in winter instead |
| two plans | both seasons, compared pile by pile; which is ready first is told where so many piles can tell (a sign test, 1 in 20) |

All of them hold the same possible piles in the same weather, so that only what was changed differs. The usual
number is 16; more make the brackets steadier. What is said is what came out: where a turn doesn't help this
pile, or the wet one isn't behind, the lesson says so, and that is worth a talk.

## Sums behind it

| sum | mark |
| --- | --- |
| 1 kg of dry food used up sets 15 to 20 MJ free | memory |
| 1 kg of water into steam takes 2.4 MJ | memory |
| so 1 kg used up can dry off 6 to 8 kg | derived |
| surface over volume of a cube is 6/side: 10 per metre at 0.6 m, 6 at 1 m, 5 at 1.2 m, 4 at 1.5 m | derived |
| air holds 21 % oxygen | memory |
| a person at rest gives off some 104 W | ISO 8996, memory |

## What it looks like

With 8 possible piles; figures of the same pile stand in \`how-a-pile-works.md\`.

\`\`\`
$(cat "$work/told")
\`\`\`
END
fmt -w 110 "$work/how.md" >docs/how-a-pile-works.md && cp "$work/lesson.md" docs/lesson.md || exit 1
echo "docs: the teaching pages rewritten from runs"
