#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/learn.sh - the command `learn` as people run it.
midden=$1
. tests/cli/cases.inc
head='midden: 1
name: Clay Lane
start: 2025-09-20
place: {latitude: 48 N, elevation: 300 m}
sky: cold winters
bin: 1 x 1 x 1 m
build:
  - repeat: 4
    layers:
      - straw: 60 L
        horse manure: 45 L
        grass clippings: 35 L
        water: 5 L
plans:
  leave it: []
need: {by: 2025-10-20, for: mulch}'
printf '%s\n' "$head" >"$tmp/none.yaml"
printf '%s\nreadings: {log: log.csv}\n' "$head" >"$tmp/log.yaml"
printf '%s\nreadings: {also: [{day: 2025-09-23, air: 9 C}]}\n' "$head" >"$tmp/air.yaml"

ends 66 "without a reading there is nothing to learn" learn "$tmp/none.yaml"
judge "and it says where to write them" says "write them under \`readings\`"
ends 66 "the air alone says nothing of the pile" learn "$tmp/air.yaml"
ends 66 "a log that isn't there yet is named" learn "$tmp/log.yaml"
judge "with its name" says "log.csv"
run check "$tmp/log.yaml"
judge "check takes it that there are no readings yet" tells "none yet"
printf 'date,middle C\n2025-09-23,57\n2025-09-26,warm\n' >"$tmp/log.csv"
ends 65 "a mistake in the log" learn "$tmp/log.yaml"
judge "is named by its line and column" says "log.csv:3:2: middle \"warm\""
ends 65 "and stops every other command too" run "$tmp/log.yaml"
printf 'date,middle C,hand deep C\n2025-09-23,57,45\n2025-09-26,60,\n2025-10-01,48,36\n' >"$tmp/log.csv"
ends 64 "too few possible piles" learn "$tmp/log.yaml" --members 8
ends 64 "too many" learn "$tmp/log.yaml" --members 1001
judge "and how many there may be" says "takes 1000 possible piles at most"
ends 64 "nor does why ask so many" why "$tmp/log.yaml" --members 1001
ends 64 "a slice of them" learn "$tmp/log.yaml" --members 1-20
ends 0 "three readings from a log" learn "$tmp/log.yaml" --members 16 -o "$tmp/text"
judge "are told in lines of 80 columns" [ "$(widest "$tmp/text")" -le 80 ]
judge "in no more than 14 of them" [ "$(wc -l <"$tmp/text")" -le 14 ]
ends 0 "as JSON" learn "$tmp/log.yaml" --members 16 --json -o "$tmp/json"
judge "with the keys that programs rely on" python3 - "$tmp/json" <<'END'
import json, sys
a = json.load(open(sys.argv[1]))
assert len(a["readings"]) == 5 and a["now"] == "2025-10-01"
for r in a["readings"]:
    assert {"date", "where", "reading_c", "fitted_c", "low", "high", "suspect"} <= set(r)
    assert r["low"] <= r["fitted_c"] <= r["high"]
for u in a["unknowns"]:
    for k in ("before", "after"):
        assert u[k]["low"] <= u[k]["median"] <= u[k]["high"], u
assert abs(sum(c["chance"] for c in a["causes"]) - 1) < 1e-9
assert a["forecast"]["members"] == 16 and a["forecast"]["days"][0]["day"] == 1
END
ends 0 "as of an earlier day" learn "$tmp/log.yaml" --members 16 --day 2025-09-27 --json -o "$tmp/early"
judge "later readings don't count" [ "$(jq '.readings | length' "$tmp/early")" = 3 ]
ends 66 "before the first reading there is nothing to learn" learn "$tmp/log.yaml" --day 2025-09-21
cp "$tmp/json" "$tmp/first"
ends 0 "again" learn "$tmp/log.yaml" --members 16 --json --threads 1 -o "$tmp/json" --force
judge "with one thread, byte for byte the same" cmp -s "$tmp/first" "$tmp/json"
run next "$tmp/log.yaml" --members 8
judge "next takes the log's last day for now" tells "1 Oct"
ends 0 "at length" learn scenarios/nettle-yard.yaml --members 16 --long
judge "a squeeze is told by its word" tells "7 Oct   squeeze     drips "
judge "in 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
cp "$tmp/out" "$tmp/long"
ends 0 "as JSON" learn scenarios/nettle-yard.yaml --members 16 --json
judge "has every unknown, of which text has those learnt of and counts the rest" python3 - "$tmp/out" "$tmp/long" <<'END'
import json, re, sys
unknowns = json.load(open(sys.argv[1]))["unknowns"]
text = " ".join(re.split("unknown at a time|forecast starts from", open(sys.argv[2]).read())[-1].split())
learnt = [u["name"] for u in unknowns if u["learnt"]]
told = int(re.search(r"(?:all|and) (\d+) (?:others? )?as before", text).group(1))
assert len(unknowns) > 100 and told == len(unknowns) - len(learnt)
assert text.count(" - ") == len(learnt) and all(name in text for name in learnt)
assert all(u["name"] not in text for u in unknowns if not u["learnt"] and "_" in u["name"])
END

# readings that no pile shows are left out, and the answer says what that leaves
printf '%s\n' "$head" 'readings: {also: [{day: 2025-09-23, middle: 90 C}, {day: 2025-09-24, middle: 90 C},' \
    '  {day: 2025-09-25, middle: -20 C}, {day: 2025-09-26, middle: 95 C}]}' >"$tmp/wild.yaml"
ends 0 "readings that no pile shows" learn "$tmp/wild.yaml" --members 32
tr -s '\n ' '  ' <"$tmp/out" >"$tmp/line"
judge "say little, and are said to" grep -qF \
    "No possible pile shows most of your readings, so that they say little of yours." "$tmp/line"
judge "two of them are named, and how many more there are" grep -qE \
    'odd left out: 90 °C \(194 °F\), middle on 23 Sep \([^;]* expected\); 90 °C \(194 °F\), middle on 24 Sep \([^;]* expected\); 2 more \(--long shows which\)' \
    "$tmp/line"
judge "with what they may be" grep -qF "A slip of the pen, or the tip in a hole?" "$tmp/line"
judge "they are no course, and nothing of them is learnt" [ -z "$(grep -e '95 °C' -e 'C on 2[3-6] Sep [^(]*:' -e 'fit the pile' "$tmp/line")" ]
ends 0 "as JSON" learn "$tmp/wild.yaml" --members 32 --json
judge "each is suspect, no unknown learnt" [ "$(jq '[.readings[] | select(.suspect)] | length' "$tmp/out") $(jq \
    '[.unknowns[] | select(.learnt)] | length' "$tmp/out")" = "4 0" ]
finish
