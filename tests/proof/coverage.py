# SPDX-License-Identifier: GPL-3.0-or-later
"""tests/proof/coverage.py - lines and branches of model/ that the tests reached.

    python3 tests/proof/coverage.py build/coverage [-missing FILE...]

Reads the counts that gcc's --coverage left (gcov --json-format), adds up those of a header's lines
over the files that include it, and writes a row for each room and each file. A branch is one way out
of a condition. Left out are the ways that gcov itself marks as taken by exceptions only. Ends with
status 1 below 95 % of lines or 85 % of branches. With -missing, lists what wasn't reached.
"""
import json
import os
import subprocess
import sys

LINES, BRANCHES = 95.0, 85.0


def counts(folder):
    """file -> line -> [times, [times of each branch]]"""
    seen = {}
    notes = []
    for where, _, names in os.walk(os.path.join(folder, "model")):
        notes += [os.path.join(where, n) for n in names if n.endswith(".gcno")]
    for note in sorted(notes):
        out = subprocess.run(["gcov", "--json-format", "--stdout", "--branch-probabilities", note],
                             stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=True).stdout
        for text in out.decode().splitlines():
            if text.startswith("{"):
                add(seen, json.loads(text))
    return seen


def add(seen, told):
    for file in told["files"]:
        name = os.path.relpath(os.path.join(told["current_working_directory"], file["file"]))
        if not name.startswith("model/"):
            continue
        rows = seen.setdefault(name, {})
        here = {}
        for line in file["lines"]:  # a line stands again for each function that was put into it
            row = here.setdefault(line["line_number"], [0, []])
            row[0] += line["count"]
            ways = [b["count"] for b in line["branches"] if not b["throw"]]
            row[1] = join(row[1], ways)
        for number, (times, ways) in here.items():
            row = rows.setdefault(number, [0, []])
            row[0] += times
            row[1] = join(row[1], ways)


def join(one, other):
    """the same branches as counted in two copies; where the compiler made other ones, the more"""
    if len(one) == len(other):
        return [a + b for a, b in zip(one, other)]
    return max(one, other, key=lambda ways: (sum(w > 0 for w in ways), len(ways)))


def tally(rows):
    ways = [w for _, (_, all_ways) in rows.items() for w in all_ways]
    return (sum(t > 0 for t, _ in rows.values()), len(rows), sum(w > 0 for w in ways), len(ways))


def percent(part, whole):
    return 100.0 * part / whole if whole else 100.0


def say(name, four):
    print("%-28s %6.1f %% of %5d lines  %6.1f %% of %5d branches" %
          (name, percent(four[0], four[1]), four[1], percent(four[2], four[3]), four[3]))


def missing(seen, names):
    for name in names:
        with open(name, encoding="utf-8") as text:
            source = text.read().split("\n")
        for number, (times, ways) in sorted(seen[name].items()):
            if times == 0 or 0 in ways:
                what = "-" if times == 0 else "%d/%d" % (sum(w > 0 for w in ways), len(ways))
                print("%s:%d: %s %s" % (name, number, what, source[number - 1].strip()))


def main():
    seen = counts(sys.argv[1])
    if "-missing" in sys.argv:
        missing(seen, sys.argv[sys.argv.index("-missing") + 1:] or sorted(seen))
        return 0
    rooms = {}
    for name in sorted(seen):
        four = tally(seen[name])
        room = name.split("/")[1]
        rooms[room] = [a + b for a, b in zip(rooms.get(room, [0] * 4), four)]
        say(name, four)
    print()
    for room in ("base know pile sky life flow run many ask tell door open").split():
        say(room + "/", rooms[room])
    total = [sum(four) for four in zip(*rooms.values())]
    say("all", total)
    short = percent(*total[:2]) < LINES or percent(*total[2:]) < BRANCHES
    print("coverage: asked are %g %% of lines, %g %% of branches: %s" %
          (LINES, BRANCHES, "missed" if short else "reached"))
    return short


sys.exit(main())
