#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Anybody makes mistakes: each is told in one line that names the place, what was read, and what would do.
midden=$1
. tests/stories/story.inc
wrong() { # NAME LINE: the shortest scenario with one line changed
    given "$1" <<END
midden: 1
${3:-start: 2026-04-11}
place: {latitude: 51 N}
sky: cold winters
bin: 1.1 x 1.1 x 1 m
ingredients:
  odd stuff: {like: straw, $2}
build:
  - straw: 42 buckets
    odd stuff: 20 buckets
END
    when run "$1" --members 1
}
wrong ratio "nitrogen: 60 %"
then_ "60 % nitrogen, a C:N below 1, is refused" [ $status -eq 65 ]
then_ "with file, line and the range that is allowed" sh -c "grep -qE 'ratio.yaml:7:[0-9]+: .*expected' '$tmp/err'"
wrong moisture "water: 110 %"
then_ "water of 110 % is refused" [ $status -eq 65 ]
then_ "with file, line and the range that is allowed" sh -c "grep -qE 'moisture.yaml:7:[0-9]+: .*expected' '$tmp/err'"
wrong date "water: 10 %" "name: no start"
then_ "a missing start is refused" [ $status -eq 65 ]
then_ "and named" says '`start` is missing'
then_ "nothing half done is on standard output" [ ! -s "$tmp/out" ]
finish
