#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: turn today, or wait for the mild spell?
#
# -8 °C on 20 February, +6 °C from the 26th on; weather from a file, so that both plans meet the same. That a turn
# in hard frost costs more warmth than a turn on a mild day is common practice, no source.
midden=$1
. tests/stories/story.inc
{
    echo "date,low C,high C,rain mm"
    i=0
    while [ $i -lt 95 ]; do
        t=2
        [ $i -ge 39 ] && t=-8
        [ $i -ge 47 ] && t=6
        echo "$(date -u -d "2026-01-10 + $i days" +%F),$((t - 2)),$((t + 2)),0"
        i=$((i + 1))
    done
} >"$tmp/cold-then-mild.csv"
pile() { # NAME BIN SHARE: the same mix, more or less of it
    given "$1" <<END
midden: 1
start: 2026-01-28
place: {latitude: 50 N, elevation: 300 m}
sky: {weather: cold-then-mild.csv}
bins:
  bay 1: {size: $2}
  bay 2: {like: bay 1, now: empty}
need: by 2026-04-01
build:
  - mixed leaves: $((1500 * $3 / 100)) L
    horse manure: $((900 * $3 / 100)) L
    vegetable trimmings: $((250 * $3 / 100)) L
    water: $((80 * $3 / 100)) L
plans:
  today:
    - {day: 2026-02-20, turn: mixed, into: bay 2}
  mild day:
    - {day: 2026-02-27, turn: mixed, into: bay 2}
END
    when run "$1" --plan today --members 1 --json
    cp "$tmp/$1.json" "$tmp/$1-today.json"
    when run "$1" --plan "mild day" --members 1 --json
    cp "$tmp/$1.json" "$tmp/$1-mild.json"
}
pile warm "1.5 x 1.5 x 1.3 m, walls: straw bales, lid: boards" 100
pile bare "1.2 x 1.2 x 1.1 m, walls: boards" 58
fortnight='[.days[] | select(.date >= "2026-02-20" and .date < "2026-03-06") | .middle_c] | min'
then_ "wrapped and still full of food, the later turn keeps the middle warmer at its coldest" \
    both warm-today warm-mild "(\$b | $fortnight) > (\$a | $fortnight) + 1"
overnight='(.days[] | select(.date == "2026-02-21").middle_c)'
then_ "bare, the middle is at 38 °C or so on the day of the question" \
    holds bare-mild '.days[] | select(.date == "2026-02-20").middle_c | (. > 33 and . < 44)'
then_ "there a turn in frost costs more than ten degrees overnight" \
    both bare-today bare-mild "(\$b | $overnight) > (\$a | $overnight) + 10"
# otherwise than expected, and why: boards alone let a week of frost take all the warmth, turned or not, and the
# turn on the mild day then forks the frozen skin inside
then_ "but the frost takes the warmth of the unturned pile too, so that waiting saves nothing" \
    both bare-today bare-mild "((\$b | $fortnight) < (\$a | $fortnight) + 1) and
    (\$b.days[] | select(.date == \"2026-02-26\").middle_c) < 12"
finish
