#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: is my bin big enough?
#
# The same mix by volume in cubes of 0.6, 1 and 1.5 m, near freezing. That a yard or a metre is the least for a
# hot pile, more in the cold, is what university leaflets say [seen]: the peak must rise with size, and the
# smallest must not hold 45 C for five days.
midden=$1
. tests/stories/story.inc
cube() { # SIDE LITRES: leaves and grass in a cube
    given "cube-$1" <<END
midden: 1
start: 2025-12-01
place: {latitude: 50 N, elevation: 200 m}
sky:
  night low: -8 -8 -5 0 5 8 10 10 6 2 -3 -7 C
  day high: -2 -2 4 10 15 18 20 20 15 9 3 -3 C
  rain: 40 40 40 40 40 40 40 40 40 40 40 40 mm
  wet days: 8 8 8 8 8 8 8 8 8 8 8 8
bin: $1 x $1 x $1 m
need: by 2025-12-22
build:
  - mixed leaves: $(awk "BEGIN { print int(700 * $1 ^ 3) }") L
    grass clippings: $(awk "BEGIN { print int(500 * $1 ^ 3) }") L
    horse manure: $(awk "BEGIN { print int(200 * $1 ^ 3) }") L
    water: $(awk "BEGIN { print int(60 * $1 ^ 3) }") L
END
}
for side in 0.6 1.0 1.5; do
    cube $side
    when run cube-$side --members 1 --json
done
peak='[.days[].middle_c] | max'
then_ "the peak rises from 0.6 m to 1 m" both cube-0.6 cube-1.0 "(\$b | $peak) > (\$a | $peak)"
then_ "and from 1 m to 1.5 m, or both are as hot as life bears" both cube-1.0 cube-1.5 "(\$b | $peak) > (\$a | $peak) - 1"
then_ "the smallest never holds 45 °C for five days" holds cube-0.6 '[.days[] | select(.middle_c > 45)] | length < 5'
warm='[.days[].middle_c] | add'
then_ "and each is warmer over the three weeks than the smaller one" both cube-0.6 cube-1.5 "(\$b | $warm) > (\$a | $warm)"
finish
