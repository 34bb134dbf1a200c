#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/all.sh - runs the tests, as many at once as there are processors, and counts them.
#
#     sh tests/all.sh FOLDER MIDDEN TEST...
#
# tests/one.sh says what a test is. The last line is `N passed, N failed`; on success it also stands in
# FOLDER/total.
folder=$1 midden=$2
shift 2
rm -rf "$folder/ended" "$folder/total"
mkdir -p "$folder/ended"
printf '%s\n' "$@" | xargs -P "$(nproc 2>/dev/null || echo 1)" -n 1 sh tests/one.sh "$folder" "$midden"

passed=0 failed=0 skipped=0 bad=
for test; do
    ok=0 no=1 skip=0 # of one that never ended
    read -r ok no skip <"$folder/ended/$(echo "$test" | tr / ,)"
    [ "$no" -gt 0 ] && bad="$bad $test"
    passed=$((passed + ok)) failed=$((failed + no)) skipped=$((skipped + skip))
done

[ -n "$bad" ] && echo "failed in:$bad"
[ $skipped -gt 0 ] && echo "$skipped skipped"
echo "$passed passed, $failed failed"
[ $failed -eq 0 ] && [ $passed -gt 0 ] || exit 1
echo "$passed passed, $failed failed" >"$folder/total"
