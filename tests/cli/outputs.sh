#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/outputs.sh - where answers go, whatever the name, the disk and the locale.
midden=$1
. tests/cli/cases.inc
pile=$tmp/pile.yaml
"$midden" new >"$pile"

# names
odd="$tmp/a \"folder\" with 'quotes' & \$(blanks)"
mkdir "$odd"
cp "$pile" "$odd/my pile.yaml"
ends 0 "names may hold blanks and quotes" run --members 1 "$odd/my pile.yaml" -o "$odd/an answer.txt"
judge "the answer is there" grep -q '^  plan  leave it' "$odd/an answer.txt"
judge "and not on standard output" [ ! -s "$tmp/out" ]
ends 0 "- is standard output" new -o -
judge "where the answer then stands" cmp "$tmp/out" "$pile"
ln -s "$odd/an answer.txt" "$tmp/link"
ends 0 "a link's target is replaced" run --members 1 --csv -q "$pile" -o "$tmp/link" --force
judge "the link stays" [ -L "$tmp/link" ]
judge "nothing half-written is left beside it" [ -z "$(find "$odd" -name '*.part')" ]

# forms
run run --members 1 --csv -q "$pile"
judge "CSV has as many fields in each line" \
    [ "$(awk -F, '{ print NF }' "$tmp/out" | sort -u | wc -l)" -eq 1 ]
# from 18 October to six weeks after the need of 16 May, and a head
judge "and a line for each day" [ "$(wc -l <"$tmp/out")" -eq 254 ]
run check --json "$pile"
judge "check has a JSON form" tells '"possible": true'
if command -v python3 >/dev/null; then
    for form in "check --json" "run --json --members 2" "list ingredients --json"; do
        "$midden" $form $([ "${form%% *}" = list ] || echo "$pile") -q >"$tmp/out" 2>"$tmp/err"
        status=$?
        judge "another reader of JSON takes $form" python3 -m json.tool --no-ensure-ascii "$tmp/out"
    done
fi

# readers and disks
"$midden" run --members 1 --csv -q "$pile" 2>"$tmp/err" | head -c 10 >/dev/null
judge "a reader that goes away is no trouble worth a word" [ ! -s "$tmp/err" ]
echo kept >"$tmp/kept"
(ulimit -f 8 && "$midden" run --members 1 --json -q "$pile" -o "$tmp/kept" --force) >"$tmp/out" 2>"$tmp/err"
status=$?
judge "a limit on file size ends with 74" [ $status -eq 74 ]
judge "the old file is kept" grep -qx kept "$tmp/kept"
"$midden" new -o "$tmp/alone.yaml" >&- 2>"$tmp/err"
status=$?
judge "with -o a closed standard output does no harm" cmp "$pile" "$tmp/alone.yaml"
judge "and ends well" [ $status -eq 0 ]

# locales
LC_ALL=C "$midden" run --members 2 "$pile" >"$tmp/out" 2>"$tmp/err"
status=$?
judge "without UTF-8 a degree is written out" tells degC
judge "in plain letters only" [ -z "$(LC_ALL=C tr -d '\11\12\40-\176' <"$tmp/out")" ]
run run --members 2 "$pile"
judge "with UTF-8 it is a sign" tells '°C ('
if localedef -i de_DE -f UTF-8 "$tmp/de_DE.utf8" >/dev/null 2>&1; then
    for form in "" --json --csv --long; do
        run run --members 2 $form -q "$pile" && cp "$tmp/out" "$tmp/plain"
        LOCPATH=$tmp LC_ALL=de_DE.utf8 "$midden" run --members 2 $form -q "$pile" >"$tmp/out" 2>"$tmp/err"
        status=$?
        judge "a locale with decimal commas changes nothing of run $form" \
            cmp "$tmp/plain" "$tmp/out"
    done
    LOCPATH=$tmp LC_ALL=de_DE.utf8 "$midden" run --members 1 --set tolerance_K=0.1 "$pile" >"$tmp/out" \
        2>"$tmp/err"
    status=$?
    judge "nor how a number is read" [ $status -eq 0 ]
else
    echo "skip - locales with decimal commas can't be made here"
fi
mkdir "$tmp/drawn" && : >"$tmp/drawn/work.png" && : >"$tmp/drawn/water.svg"
status=0
timeout 5 "$midden" search scenarios/nettle-yard.yaml --plot "$tmp/drawn" >"$tmp/out" 2>"$tmp/err" || status=$?
judge "a picture in the way ends a search with 73 before its minutes" [ $status -eq 73 ]
status=0
timeout 5 "$midden" run scenarios/nettle-yard.yaml --members 999 --plot "$tmp/drawn" >"$tmp/out" 2>"$tmp/err" || status=$?
judge "and a season" [ $status -eq 73 ]
judge "naming the picture and what to do" says "water.svg is there already; name another folder, or add --force"
for words in "compare --members 9999" "why --members 999" "lesson --members 64" "search" "next --members 9999 --calendar $tmp/kept" \
    "sheet --members 9999" "learn --members 512" "report --members 9999" "report --members 9999 --poster $tmp/kept.svg" \
    "report --members 9999 --animation $tmp/kept" "run --members 9999" "run --members 9999 --json"; do
    : >"$tmp/kept.svg"
    case $words in
    compare*) : >"$tmp/drawn/plans.svg"; more="--plot $tmp/drawn" ;;
    why*) : >"$tmp/drawn/heatday.png"; more="--plot $tmp/drawn" ;;
    lesson*) : >"$tmp/drawn/lesson_wetness.svg"; more="--plot $tmp/drawn" ;;
    *poster*|*calendar*|*animation*) more= ;;
    *) more="-o $tmp/kept" ;;
    esac
    status=0
    timeout 5 "$midden" $words $more scenarios/nettle-yard.yaml >"$tmp/out" 2>"$tmp/err" || status=$?
    judge "${words%% -*} $more: what is in the way is told before the work" [ $status -eq 73 ]
    judge "and it stays" grep -qx kept "$tmp/kept"
done
finish
