#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/counted.sh - the gate itself: what fails, ends badly or proves nothing is counted as failed.
midden=$1
. tests/cli/cases.inc
cat >"$tmp/good.sh" <<'END'
echo "ok - one"
echo "ok - two"
echo "skip - three"
END
echo ':' >"$tmp/silent.sh"
echo 'echo "ok - one"; echo "not ok - two"' >"$tmp/bad.sh"
echo 'echo "ok - one"; kill -9 $$' >"$tmp/killed.sh"
echo 'echo nothing' >"$tmp/empty"
chmod +x "$tmp/empty"
gate() { sh tests/all.sh "$tmp/folder" "$midden" "$@" >"$tmp/out" 2>&1; }

judge "scripts that pass do" gate "$tmp/good.sh" "$tmp/silent.sh"
judge "with their cases, or as one" [ "$(tail -1 "$tmp/out")" = "3 passed, 0 failed" ]
judge "what was skipped is told" grep -q '^1 skipped$' "$tmp/out"
judge "the total is left" [ "$(cat "$tmp/folder/total")" = "3 passed, 0 failed" ]
for test in bad.sh killed.sh empty absent.sh; do
    judge "$test ends the gate" sh -c '! sh tests/all.sh "$@" >"$0" 2>&1' "$tmp/out" "$tmp/folder" "$midden" \
        "$tmp/good.sh" "$tmp/$test"
    judge "and is named" grep -q "^failed in: .*/$test\$" "$tmp/out"
    judge "as one that failed" grep -q ' passed, 1 failed$' "$tmp/out"
    judge "and no total is left" [ ! -e "$tmp/folder/total" ]
done
judge "no test at all is no success" sh -c '! sh tests/all.sh "$@" >/dev/null 2>&1' sh "$tmp/folder" "$midden"
finish
