#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/laws/fitted.sh - are the fitted values in know/param.def those that the last fit wrote?
#
# tests/field/fitted.csv holds what `make calibrate` found; the table of parameters has it rounded to
# three digits.
midden=$1
table=$(mktemp) || exit 1
trap 'rm -f "$table"' EXIT
"$midden" list parameters --json | jq -r '.rows[] | "\(.name) \(.usual) \(.within_factor // 0)"' >"$table" || exit 1
awk -F, -v table="$table" '
    BEGIN { while ((getline row < table) > 0) { split(row, part, " "); usual[part[1]] = part[2]; within[part[1]] = part[3] } }
    /^#/ || /^name,/ { next }
    { rows++
      wanted = sprintf("%.3g", $2) + 0
      if (!($1 in usual) || usual[$1] + 0 != wanted) { print "not ok " $1 ": the table has " usual[$1] ", the fit " wanted; bad++ }
      wanted = NF >= 9 ? sprintf("%.2g", $9) + 0 : 0
      if (within[$1] + 0 != wanted) { print "not ok " $1 ": drawn within a factor of " within[$1] ", by the fit of " wanted; bad++ } }
    END { if (rows < 20) print "not ok fitted.csv has only " rows + 0 " rows"
          else if (!bad) print "ok fitted parameters are those of the last fit" }' tests/field/fitted.csv
