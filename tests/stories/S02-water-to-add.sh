#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# An educator asks: how much water?
#
# W = M (m2 - m1)/(1 - m2): 300 kg at 40 % need 100 L for 55 %, 5.3 buckets of 5 US gallons [derived from the
# definition of moisture; the formula stands in Rynk et al. 1992, NRAES-54 [memory]].
midden=$1
. tests/stories/story.inc
given dry <<'END'
midden: 1
start: 2025-10-18
place: {latitude: 47.2 N}
sky: cold winters
measures: {bucket: 18.93 L}
bin: 1.2 x 1.2 x 1.2 m
ingredients:
  a mix: {like: used straw bedding, water: 40 %}
build:
  - a mix: 300 kg
END
when mix dry --members 1 --json
litres='.advice[] | select(.add == "water").needed_l'
then_ "100 litres" holds dry "$litres | (. > 99 and . < 101)"
then_ "which are 5.3 full buckets" holds dry "($litres) / 18.93 | (. > 5.2 and . < 5.4)"
when mix dry --members 1
then_ "told in buckets one can carry" sh -c "grep -qE 'pour [0-9]+ (1/2 )?buckets' '$tmp/out' && grep -q 'four fifths full: 100 L' '$tmp/out'"
finish
