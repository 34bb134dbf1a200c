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
    while [ $i -lt 80 ]; do
        d=$(date -u -d "2026-01-20 + $i days" +%F)
        t=2
        [ $i -ge 29 ] && t=-8
        [ $i -ge 37 ] && t=6
        echo "$d,$((t - 2)),$((t + 2)),0"
        i=$((i + 1))
    done
} >"$tmp/cold-then-mild.csv"
given february <<'END'
midden: 1
start: 2026-02-01
place: {latitude: 50 N, elevation: 300 m}
sky: {weather: cold-then-mild.csv}
bins:
  bay 1: {size: 1.2 x 1.2 x 1.1 m, walls: boards}
  bay 2: {like: bay 1, now: empty}
need: by 2026-04-01
build:
  - mixed leaves: 900 L
    horse manure: 500 L
    vegetable trimmings: 150 L
    water: 40 L
plans:
  today:
    - {day: 2026-02-20, turn: mixed, into: bay 2}
  mild day:
    - {day: 2026-02-28, turn: mixed, into: bay 2}
END
when run february --plan today --members 1 --json
cp "$tmp/february.json" "$tmp/today.json"
when run february --plan "mild day" --members 1 --json
cp "$tmp/february.json" "$tmp/mild.json"
least='[.days[] | select(.date >= "2026-02-20" and .date < "2026-03-06") | .middle_c] | min'
then_ "the later turn keeps the middle warmer at its coldest, over the two weeks" \
    both today mild "(\$b | $least) > (\$a | $least)"
then_ "the turn in frost is colder the day after than the other on its own" both today mild \
    '($a.days[] | select(.date == "2026-02-21").middle_c) < ($b.days[] | select(.date == "2026-03-01").middle_c)'
finish
