#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/browser/report.sh - makes a report and a handover, and lets a browser judge them. Left out, with
# a note, where chromium, node, puppeteer-core or axe-core isn't installed:
#
#     npm install --no-save --prefix build/npm puppeteer-core axe-core html-validate
midden=$1
. tests/cli/cases.inc
NODE_PATH=$(pwd)/build/npm/node_modules${NODE_PATH:+:$NODE_PATH}
export NODE_PATH
chromium=$(command -v chromium || command -v chromium-browser)
if [ -z "$chromium" ] || ! command -v gnuplot >/dev/null ||
    ! node -e 'require("puppeteer-core"); require.resolve("axe-core")' 2>/dev/null; then
    echo "skip - pages in a browser: chromium, gnuplot, node, puppeteer-core and axe-core are needed"
    finish
fi
garden=scenarios/nettle-yard.yaml
ends 0 "a report is made" report --members 4 "$garden" --plan 'three turns' --plan 'leave it' -o "$tmp/report.html"
ends 0 "a handover is made" report --members 4 "$garden" --plan 'three turns' --handover --day 2025-10-17 \
    -o "$tmp/handover.html"
HOME=$tmp timeout 120 node tests/browser/report.js "$chromium" "$tmp/report.html" "$tmp/handover.html" \
    >"$tmp/judged" 2>"$tmp/err"
ended=$?
cat "$tmp/judged"
passed=$((passed + $(grep -c '^ok - ' "$tmp/judged")))
failed=$((failed + $(grep -c '^not ok - ' "$tmp/judged")))
[ $ended -le 1 ] || not_ok "the browser ends well" "status $ended, $(head -c 300 "$tmp/err")"
finish
