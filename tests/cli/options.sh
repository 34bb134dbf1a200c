#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/options.sh - how options and words are read, help, version, standard input.
midden=$1
. tests/cli/cases.inc
pile=$tmp/pile.yaml
"$midden" new >"$pile"

# help and version go to standard output
ends 0 "--help ends well" --help
for command in new check mix run list; do
    judge "help names the command $command" grep -q "^  $command " "$tmp/out"
done
judge "help keeps to 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
for command in new check mix run list; do
    ends 0 "$command has a page of help" $command --help
    judge "it keeps to 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
    # each option the page shows must be one that the command takes
    for option in $(sed -n 's/^  \(-., \)\{0,1\}\(--[a-z]*\).*/\2/p' "$tmp/out"); do
        "$midden" $command $option >/dev/null 2>"$tmp/err"
        judge "$command takes $option" [ -z "$(grep -e 'no option' "$tmp/err")" ]
    done
done
ends 0 "--version ends well" --version
judge "its first line is the name and a number" \
    grep -qE '^midden [0-9]+\.[0-9]+\.[0-9]+$' "$tmp/out"
judge "it says that there is no warranty" tells "no warranty"
ends 0 "-h is --help" run -h

# names
ends 64 "an unknown option is refused" run --jsn "$pile"
judge "the nearest is named" says "did you mean '--json'"
ends 64 "one unlike any other as well" run --qwertyuiop "$pile"
judge "without a guess" [ -z "$(grep -e 'did you mean' "$tmp/err")" ]
ends 64 "an unknown letter is refused" run -Z "$pile"
ends 64 "the beginning of a name is not the name" run --quie "$pile"
judge "the name is told" says "did you mean '--quiet'"
ends 64 "nor is it with a value" run --pla 'two turns' "$pile"
judge "the value isn't taken for the option" says "'--pla'"
ends 64 "a misspelt command is refused" chek "$pile"
judge "the nearest command is named" says "did you mean 'check'"
ends 64 "an option of another command is refused" check --plot x "$pile"
ends 64 "a value is missing" run "$pile" --plan
judge "what is missing is told" says "--plan NAME"
ends 64 "a value too many" run --json=3 "$pile"
ends 64 "two forms of an answer are one too many" run --json --csv "$pile"

# order
run run --members 1 "$pile" --json -q && cp "$tmp/out" "$tmp/after"
run --json -q --members 1 run "$pile" && cp "$tmp/out" "$tmp/before"
judge "options may stand before or after" cmp "$tmp/after" "$tmp/before"
judge "and the answer is there" [ -s "$tmp/after" ]
POSIXLY_CORRECT=1 "$midden" run --members 1 "$pile" --json -q >"$tmp/strict"
judge "whatever the environment says" cmp "$tmp/after" "$tmp/strict"
run run --members 1 --json --plan='leave it' -q "$pile"
judge "a value may follow an equals sign" cmp "$tmp/after" "$tmp/out"
cp "$pile" "$tmp/--json"
(cd "$tmp" && "$midden" check -- --json) >"$tmp/out" 2>"$tmp/err"
status=$?
judge "after -- a name may begin with hyphens" tells "Yes."

# standard input
"$midden" check - <"$pile" >"$tmp/out" 2>"$tmp/err"
status=$?
judge "- reads standard input" tells "Yes."
printf 'midden: 1\nnonsense: 3\n' | "$midden" check - >"$tmp/out" 2>"$tmp/err"
status=$?
judge "mistakes in it are at -:LINE:COLUMN:" grep -q '^-:2:1: ' "$tmp/err"

# what does what it says
run run --members 1 --seed 5 --json -q "$pile" && cp "$tmp/out" "$tmp/seed"
run run --members 1 --draw 5 --json -q "$pile"
judge "--seed is --draw" cmp "$tmp/seed" "$tmp/out"
judge "the draw is told" tells '"draw": 5'
judge "another draw is another winter" [ -n "$(cmp "$tmp/seed" "$tmp/after")" ]
run run --members 1 --json -q "$pile"
judge "the same question has the same answer" cmp "$tmp/after" "$tmp/out"
run run --members 1 --csv "$pile"
judge "that no plan was named is noted" says "no plan was named"
run run --members 1 --csv -q "$pile"
judge "--quiet keeps notes away" [ ! -s "$tmp/err" ]
run run --members 1 --day 2025-11-15 "$pile"
judge "--day tells of that day" tells "15 Nov (day 29)"
run run --members 1 --day 29 "$pile"
judge "a number is the same day" tells "15 Nov (day 29)"
run run --members 1 "$pile"
judge "the answer has at most 12 lines" [ "$(wc -l <"$tmp/out")" -le 12 ]
judge "of at most 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
judge "nothing is called safe" [ -z "$(grep -i safe "$tmp/out")" ]
run run --members 4 "$pile"
judge "so it has with ranges" [ "$(wc -l <"$tmp/out")" -le 12 ]
judge "and 80 columns" [ "$(widest "$tmp/out")" -le 80 ]
run run --members 1 --long "$pile"
judge "--long has a line for the last day" grep -q '^ *[0-9]* 2026-05-' "$tmp/out"
judge "it keeps to 80 columns too" [ "$(widest "$tmp/out")" -le 80 ]
finish
