#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/laws/layers.sh - does tests/layers.awk find each breach of the laws, and only breaches?
#
# A small tree that keeps the laws is made, and broken in one way at a time.
law=$(pwd)/tests/layers.awk
tree=$(mktemp -d) || exit 1
trap 'rm -rf "$tree"' EXIT
cd "$tree" || exit 1
licence='/* SPDX-License-Identifier: GPL-3.0-or-later */'

# put FILE LINE...: a model file with its licence line
put() {
    put_file=model/$1
    shift
    mkdir -p "$(dirname "$put_file")"
    printf '%s\n' "$licence" "$@" >"$put_file"
}

fresh() {
    rm -rf model
    mkdir model
    for row in base/trouble base/unit base/save life/decay flow/air run/balance run/season \
        tell/text door/main; do
        printf '| `%s` | a row |\n' "$row"
    done >model/README.md
    put base/trouble.c '#include <stdio.h>'
    put base/unit.c '#include "base/trouble.h"'
    put base/save.c '#include <stdio.h>'
    put life/decay.c '#include "base/trouble.h"' '#include <math.h>'
    put flow/air.c '#include "base/trouble.h"'
    put run/balance.c '#include "life/decay.h"' '#include "flow/air.h"'
    put run/season.c '#include "life/decay.h"' '#include "flow/air.h"' '#include "run/balance.h"'
    put tell/text.c '#include "base/unit.h"' '#include <stdio.h>' '#include <gsl/gsl_math.h>'
    put door/main.c '#include "base/unit.h"' 'int main(void) { exit(0); }'
}

judge() { awk -f "$law" model/README.md model/*/*.c >said 2>&1; }

# found NAME WORDS: the law must fail and say so
found() {
    if judge; then
        echo "not ok $1: passed"
    elif grep -q "$2" said; then
        echo "ok $1"
    else
        echo "not ok $1: said $(cat said)"
    fi
}

fresh
if judge && [ ! -s said ]; then
    echo "ok a tree that keeps the laws passes in silence"
else
    echo "not ok a tree that keeps the laws passes in silence: $(cat said)"
fi

fresh; put life/decay.c '#include "run/balance.h"'
found "a file may not include one read after it" "read after it"
fresh; put flow/air.c '#include "life/decay.h"'
found "flow may not include life" "life/ and flow/ meet"
fresh; put life/decay.c '#include "flow/air.h"'
found "life may not include flow" "life/ and flow/ meet"
fresh; sed -i '/run.balance/d' model/README.md; rm model/run/balance.c
put run/season.c '#include "life/decay.h"' '#include "flow/air.h"'
found "nobody but the balance brings life and flow together" "life/ and flow/ meet"
fresh; put life/decay.c '#include "base/unit.h"'
found "everyday units stay at the shore" "everyday units"
for room in life/decay flow/air run/season base/unit; do
    fresh; put $room.c '#include <gsl/gsl_math.h>'
    found "$room may not call GSL" "no GSL"
    fresh; put $room.c '#include <stdio.h>'
    found "$room may not print" "read and print"
done
for word in 'exit(1);' 'abort ();' '_Exit(2);'; do
    fresh; put tell/text.c "void f(void) { $word }"
    found "only door/main may say $word" "ends the program"
done
fresh; put run/extra.c ''
found "a file needs a row" "has no row"
fresh; rm model/flow/air.c
found "a row needs a file" "has a row but no file"
fresh; put life/decay.c '#include "trouble.h"'
found "a file is included by its room" "without its room"
fresh; echo 'int x;' >model/flow/air.c
found "the licence line comes first" "licence line"

fresh
{ echo 'int f(void)'; echo '{'; yes '    ;' | head -61; echo '}'; } >>model/run/season.c
if judge && grep -q "note: a function of 61 lines" said; then
    echo "ok a long function is noted, not forbidden"
else
    echo "not ok a long function is noted, not forbidden: $(cat said)"
fi
