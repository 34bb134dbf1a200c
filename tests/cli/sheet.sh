#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/sheet.sh - the log sheet: plain, to print, and as an empty readings file.
midden=$1
. tests/cli/cases.inc
pile=$tmp/pile.yaml
"$midden" new | sed 's/^need: .*/need: by 2025-12-20/; /day: 2026-03-14/d' >"$pile"

ends 0 "without a file it is plain text" sheet --members 4 "$pile" --weeks 4
judge "in 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
judge "with the columns of a readings file" \
    tells "date      |hour|middle|30 cm in|hand deep|air |squeeze |height|we did"
judge "from the first day" tells "2025-10-18|"
judge "for four weeks" [ -z "$(grep -e '^2025-11-1[5-9]' "$tmp/out")" ]
judge "the forecast stands below" tells "Forecast, for after guessing"
judge "nothing is called safe" [ -z "$(grep -i safe "$tmp/out")" ]
ends 0 "it may begin on a day" sheet --members 4 "$pile" --weeks 2 --day 2025-11-15 --plan 'two turns'
judge "with that day" [ "$(grep -m1 -o '^2025-[0-9-]*' "$tmp/out")" = 2025-11-15 ]
judge "and what is planned" tells "turn outside in"
ends 0 "beyond the season it ends with it" sheet --members 4 "$pile" --weeks 100
judge "on its last day" [ "$(grep -o '^20[0-9-]*' "$tmp/out" | tail -n 1)" = 2025-12-20 ]

ends 0 "a readings file is its columns" sheet "$pile" -o "$tmp/log.csv"
judge "and nothing else" [ "$(cat "$tmp/log.csv")" = \
    "date,hour,middle C,30 cm in C,hand deep C,air C,squeeze,height cm,we did" ]

ends 0 "a page is written" sheet --members 4 "$pile" --weeks 8 -o "$tmp/sheet.html"
judge "its pages and rows are told" says "on 1 page, the forecast on the next"
judge "it names its language" grep -q '<html lang="en">' "$tmp/sheet.html"
judge "it asks the network for nothing" [ -z "$(grep -i -e http -e '<script' -e 'src=' "$tmp/sheet.html")" ]
ends 73 "a page that is there is not replaced" sheet --members 4 "$pile" -o "$tmp/sheet.html"
python=
for one in python3 /usr/bin/python3; do
    "$one" -c 'import html5lib' 2>/dev/null && python=$one && break
done
if [ -n "$python" ]; then
    judge "a strict parser of HTML takes it" "$python" -c '
import html5lib, sys
html5lib.HTMLParser(strict=True).parse(open(sys.argv[1], "rb"))' "$tmp/sheet.html"
    judge "it finds a heading for every column and row" "$python" -c '
import html5lib, sys
page = html5lib.HTMLParser(namespaceHTMLElements=False).parse(open(sys.argv[1], "rb"))
for table in page.iter("table"):
    columns = len(table.findall("thead/tr/th"))
    assert columns == len(table.findall("thead/tr/th[@scope=\"col\"]")) > 3
    rows = table.findall("tbody/tr")
    assert len(rows) > 8
    for row in rows:
        assert len(row.findall("th[@scope=\"row\"]")) == 1 and len(list(row)) == columns' "$tmp/sheet.html"
else
    echo "skip - python3-html5lib isn't installed"
fi
if command -v chromium >/dev/null; then
    HOME=$tmp timeout 60 chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer \
        --print-to-pdf="$tmp/sheet.pdf" "file://$tmp/sheet.html" >/dev/null 2>&1
    status=$?
    judge "printed, it has two pages" [ "$(grep -a -c '/Type */Page$\|/Type */Page[^s]' "$tmp/sheet.pdf")" -eq 2 ]
else
    echo "skip - chromium isn't installed"
fi

ends 64 "no weeks are no sheet" sheet "$pile" --weeks 0
ends 64 "nor are weeks without end" sheet "$pile" --weeks 999
ends 64 "a day outside the season is refused" sheet "$pile" --day 2024-01-01
ends 64 "one scenario has one sheet" sheet "$pile" "$pile"
ends 64 "it has no JSON" sheet "$pile" --json
ends 66 "a scenario that isn't there is missing" sheet "$tmp/nowhere.yaml"
finish
