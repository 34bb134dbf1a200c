#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: 30 buckets of dry leaves and 12 of grass, is that a recipe?
#
# Worked by hand from the amounts [derived]: 30 x 1.2 kg and 12 x 6 kg are 108 kg; their water at 10 % and 80 % is
# 61.2 kg, 57 %. C:N of the two by weight, 60 and 15, gives 31 to 33 however the dry carbon is shared.
midden=$1
. tests/stories/story.inc
given recipe <<'END'
midden: 1
start: 2025-10-18
place: {latitude: 47.2 N}
sky: cold winters
measures: {bucket: 18.9 L}
bin: 1 x 1 x 1 m
ingredients:
  dry leaves: {like: mixed leaves, weighs: 1.2 kg a bucket, water: 10 %, carbon: 48 %, nitrogen: 0.8 %}
  green grass: {like: grass clippings, weighs: 6 kg a bucket, water: 80 %, carbon: 45 %, nitrogen: 3 %}
build:
  - dry leaves: 30 buckets
    green grass: 12 buckets
END
when mix recipe --members 1 --json
then_ "108 kg in all" holds recipe '.wet_kg | (. > 106 and . < 110)'
then_ "54 to 58 % water" holds recipe '.water_share | (. > 0.54 and . < 0.58)'
then_ "C:N 29 to 35" holds recipe '.c_to_n | (. > 29 and . < 35)'
when mix recipe --json
then_ "each with its range" holds recipe '.c_to_n_low < .c_to_n and .c_to_n < .c_to_n_high and .water_share_low < .water_share_high'
when mix recipe
then_ "and the limits are named in words" tells "best 25-35"
finish
