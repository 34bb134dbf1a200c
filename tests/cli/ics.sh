#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/ics.sh - days of work as a calendar, read by another program (Debian's python3-icalendar).
midden=$1
. tests/cli/cases.inc
cat >"$tmp/pile.yaml" <<'YAML'
midden: 1
name: "Sorrel Bank, über bay; one"
start: 2025-10-18
place: {latitude: 47.2 N, elevation: 430 m}
sky: cold winters
bins:
  bay 1: {size: 1.2 x 1.2 x 1 m}
  bay 2: {like: bay 1, now: empty}
build:
  - mixed leaves: 8 bags pressed
    grass clippings: 30 buckets
    water: 5 buckets
plans:
  two turns:
    - {day: 2025-10-25, turn: outside in, into: bay 2, water: 2 buckets}
    - {day: 2025-11-08, turn: mixed, into: bay 1}
    - {day: 2025-11-08, cover: straw 10 cm}
  when it cools:
    - {look: Saturday, from: 2025-10-25, until: 2025-11-09, when: middle below 50 C, turn: mixed,
       into: next}
need: by 2025-11-15
YAML
pile=$tmp/pile.yaml
cal=$tmp/turns.ics
ends 0 "a calendar is written beside the answer" next -q --members 4 "$pile" --day 2025-10-25 --calendar "$cal"
judge "which is still given" tells "On 25 Oct turn bay 1 into bay 2"
cp "$tmp/out" "$tmp/with"
run next -q --members 4 "$pile" --day 2025-10-25
judge "and the same as without" cmp "$tmp/with" "$tmp/out"
judge "no line is longer than 75 octets" [ "$(LC_ALL=C awk '{ sub(/\r$/, ""); if (length($0) > most) most = length($0) } END { print most }' "$cal")" -le 75 ]
judge "each ends with CR LF" [ "$(grep -c "$(printf '\r')\$" "$cal")" -eq "$(wc -l <"$cal")" ]
run next -q --members 4 "$pile" --day 2025-10-28 --calendar "$tmp/again.ics"
judge "asked again, on another day, the file is the same" cmp "$cal" "$tmp/again.ics"

# what is there is kept
cp "$cal" "$tmp/kept"
ends 73 "a calendar that is there is not replaced" next -q --members 4 "$pile" --day 2025-10-25 --calendar "$cal"
judge "it is as it was" cmp "$cal" "$tmp/kept"
judge "how to replace it is told" says --force
ends 0 "--force replaces it" next -q --members 4 "$pile" --day 2025-10-25 --calendar "$cal" --force
(ulimit -f 1 && "$midden" next -q --members 4 "$pile" --day 2025-10-25 --calendar "$cal" --force) >"$tmp/out" 2>"$tmp/err"
status=$?
judge "a limit on file size ends with 74" [ $status -eq 74 ]
judge "and the old calendar is kept whole" cmp "$cal" "$tmp/kept"
ends 64 "it needs a file" next "$pile" --calendar -
ends 64 "and is of next only" run "$pile" --calendar "$tmp/run.ics"
sed -e '/^build:/,$d' "$pile" >"$tmp/found.yaml"
cat >>"$tmp/found.yaml" <<'YAML'
found: {height: 50 cm, squeeze: crumbles, of: {straw: 1 part}}
plans: {leave it: []}
need: by 2025-11-15
YAML
ends 1 "a plan without days has no calendar" next --members 4 "$tmp/found.yaml" --day 1 --calendar "$tmp/none.ics"
judge "and none is begun" [ ! -e "$tmp/none.ics" ]

# another reader
python=
for one in python3 /usr/bin/python3; do
    "$one" -c 'import icalendar' 2>/dev/null && python=$one && break
done
if [ -n "$python" ]; then
    "$python" - "$cal" >"$tmp/days" <<'PYTHON'
import datetime, icalendar, sys
text = open(sys.argv[1], "rb").read()
calendar = icalendar.Calendar.from_ical(text)
assert not calendar.errors
events = calendar.walk("VEVENT")
assert len({str(e["UID"]) for e in events}) == len(events)
for e in events:
    assert not e.errors
    assert type(e["DTSTART"].dt) is datetime.date and "DTEND" not in e
    assert e["DTSTAMP"].dt == datetime.datetime(2025, 10, 18, tzinfo=datetime.timezone.utc)
    print(e["DTSTART"].dt, e["SUMMARY"])
PYTHON
    status=$?
    judge "another reader takes it" [ $status -eq 0 ]
    sed 's/: Sorrel.*//' "$tmp/days" | grep -v Probe >"$tmp/said"
    cat >"$tmp/want" <<'DAYS'
2025-10-18 Build in bay 1
2025-10-25 Turn into bay 2, outside in
2025-11-08 Turn into bay 1, mixed; cover with straw, 10 cm
DAYS
    grep -v Read "$tmp/said" >"$tmp/work"
    judge "and finds the days of work" cmp "$tmp/work" "$tmp/want"
    judge "with the name as it was given" grep -q 'Build in bay 1: Sorrel Bank, über bay; one$' "$tmp/days"
    judge "and two days to read after each" [ "$(grep -c -e Read -e Probe "$tmp/days")" -ge 6 ]
    run next -q --members 4 "$pile" --plan 'when it cools' --day 2025-10-25 --calendar "$tmp/look.ics"
    "$python" - "$tmp/look.ics" >"$tmp/days" <<'PYTHON'
import icalendar, sys
for e in icalendar.Calendar.from_ical(open(sys.argv[1], "rb").read()).walk("VEVENT"):
    print(e["DTSTART"].dt, e["SUMMARY"], e.get("DESCRIPTION"))
PYTHON
    judge "looks by a rule are days of their own" [ "$(grep -c 'Look, perhaps turn' "$tmp/days")" -eq 3 ]
    judge "with the rule in words" grep -q 'if the middle reads below 50 °C' "$tmp/days"
    run next -q --members 4 "$pile" "$pile" --day 2025-10-25 --calendar "$tmp/twice.ics"
    judge "a pile named twice has no UID twice" "$python" -c '
import icalendar, sys
all = [str(e["UID"]) for e in icalendar.Calendar.from_ical(open(sys.argv[1], "rb").read()).walk("VEVENT")]
assert len(all) == len(set(all)) > 12' "$tmp/twice.ics"
else
    echo "skip - python3-icalendar isn't installed"
fi
finish
