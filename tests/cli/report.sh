#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/report.sh - a season as a page, a sheet for the next keeper, a film and a poster.
midden=$1
. tests/cli/cases.inc
command -v gnuplot >/dev/null || { echo "skip - gnuplot isn't installed"; finish; }
garden=scenarios/nettle-yard.yaml
page=$tmp/page.html

ends 0 "a page is written" report --members 4 "$garden" -o "$page" --plan 'three turns' --plan 'leave it'
judge "in less than 3 MiB" [ "$(wc -c <"$page")" -lt 3145728 ]
judge "it asks the network for nothing" [ -z "$(grep -i -e 'https\?:' -e ' src=' -e '@import' -e 'url(http' "$page")" ]
judge "nothing is called safe" [ -z "$(grep -iw -e safe -e 'no seeds' "$page")" ]
judge "it says how to make it again" grep -qF \
    "midden report --members 4 scenarios/nettle-yard.yaml -o $page --plan 'three turns' --plan 'leave it'" "$page"
judge "its scenario stands in it" grep -qF 'name: Nettle Yard, north bay' "$page"
judge "two plans stand side by side" [ "$(grep -c 'data-label="in time"' "$page")" -eq 2 ]
judge "what is assumed or drawn is said" grep -qF '4 possible piles that all fit what is said of this one (draw 1)' "$page"

# the same sentences as the terminal's, and the same numbers as JSON's
run run --members 4 "$garden" --plan 'three turns' --long
sed -n '/^  plan/q; p' "$tmp/out" | tr '\n' ' ' | sed 's/ $//; s/\. Heats/.\nHeats/' >"$tmp/answer"
while read -r line || [ -n "$line" ]; do
    judge "the answer is the terminal's: ${line%% *}" grep -qF "<p>$line</p>" "$page"
done <"$tmp/answer"
if command -v jq >/dev/null; then
    run run --members 4 "$garden" --plan 'three turns' --json
    for day in 1 8 29 197; do
        want=$(jq -r --argjson day $day '.days[$day - 1] | (.middle_c, .middle_c_low, .middle_c_high) | round | if . == 0 then 0 else . end' \
            "$tmp/out" 2>/dev/null | tr '\n' ' ')
        set -- $want
        judge "the middle of day $day is JSON's" grep -qF \
            "day $day</th><td data-label=\"middle\">$1 ($2 to $3)</td>" "$page"
    done
fi

python=
for one in python3 /usr/bin/python3; do
    "$one" -c 'import html5lib' 2>/dev/null && python=$one && break
done
strict='
import html5lib, sys
html5lib.HTMLParser(strict=True).parse(open(sys.argv[1], "rb"))'
ends 0 "a sheet for the next keeper is written" \
    report --members 4 "$garden" --handover --day 2025-11-01 -o "$tmp/hand.html"
judge "it says what is due" grep -qF 'Sat 8 Nov' "$tmp/hand.html"
judge "and where the pile stands" grep -qF '<th scope="row">south bay</th><td>this pile: ' "$tmp/hand.html"
if [ -n "$python" ]; then
    judge "a strict parser takes the page" "$python" -c "$strict" "$page"
    judge "and the sheet" "$python" -c "$strict" "$tmp/hand.html"
    judge "no two parts of the page have one name, and what is pointed at is there" "$python" -c '
import html5lib, sys
page = html5lib.HTMLParser(namespaceHTMLElements=False).parse(open(sys.argv[1], "rb"))
names = [e.get("id") for e in page.iter() if e.get("id")]
assert len(names) == len(set(names)) > 50
used = [e.get("href")[1:] for e in page.iter() if e.get("href")]
assert used and all(name in names for name in used)' "$page"
else
    echo "skip - python3-html5lib isn't installed"
fi

sed 's/^name: .*/name: "<script>alert(1)<\/script> \&amp; co"/' "$garden" >"$tmp/odd.yaml"
ends 0 "a hostile name is only a name" report --members 2 "$tmp/odd.yaml" --plan 'leave it' -o "$tmp/odd.html"
judge "it is shown as it is" grep -qF '<h1>&lt;script&gt;alert(1)&lt;/script&gt; &amp;amp; co</h1>' "$tmp/odd.html"
judge "and starts nothing" [ -z "$(grep -F '<script>alert' "$tmp/odd.html")" ]

ends 0 "a film is written" report --members 2 "$garden" --plan 'leave it' --animation "$tmp/film.gif"
judge "in less than 3 MiB" [ "$(wc -c <"$tmp/film.gif")" -lt 3145728 ]
judge "as a GIF" [ "$(head -c 6 "$tmp/film.gif")" = GIF89a ]
judge "and no page" [ ! -s "$tmp/out" ]
ends 0 "a poster is written" report --members 2 "$garden" --plan 'leave it' --poster "$tmp/wall.pdf"
# 1190 by 1684 points are A2 to a millimetre: 420 by 594 mm [ISO 216, memory]
judge "on A2" grep -aq 'MediaBox \[ *0 0 1190\(\.0*\)\? 1684\(\.0*\)\? *\]' "$tmp/wall.pdf"

ends 73 "a page that is there is not replaced" report --members 2 "$garden" --plan 'leave it' -o "$page"
ends 64 "a poster of no kind is refused" report "$garden" --poster "$tmp/wall.doc"
judge "with the kinds there are" says ".svg, .pdf or .png"
ends 64 "two outputs need two files" report "$garden" -o "$tmp/x.svg" --poster "$tmp/x.svg"
ends 64 "one pile alone is no report" report --members 1 "$garden"
ends 0 "a day may be asked of" report --members 2 "$garden" --plan 'leave it' --day 2025-11-01 -o "$tmp/day.html"
judge "it stands in the answer" grep -qF '<dt>day</dt><dd>1 Nov (day 29): middle ' "$tmp/day.html"
ends 64 "a plan that isn't there is named" report "$garden" --plan 'three turnz' -o "$tmp/y.html"
ends 64 "it has no JSON" report --json "$garden"
ends 64 "a handover has no poster" report "$garden" --handover --poster "$tmp/w.svg"
ends 66 "a scenario that isn't there is missing" report "$tmp/nowhere.yaml"
judge "and nothing was written" [ ! -e "$tmp/y.html" ]
finish
