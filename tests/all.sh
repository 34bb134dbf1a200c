#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/all.sh - runs the tests and counts them.
#
#     sh tests/all.sh FOLDER MIDDEN TEST...
#
# A test is a cmocka program, whose own lines are counted, or a script, called with the path of
# MIDDEN; a script prints `ok NAME` or `not ok NAME` for each of its cases, and stands for one case
# if it prints neither. A program that ends badly without naming a failed case counts as one.
# The last line is `N passed, N failed`; on success it also stands in FOLDER/total.
folder=$1 midden=$2
shift 2
mkdir -p "$folder"
rm -f "$folder/total"
log=$folder/log
passed=0 failed=0 skipped=0
bad=

# lines of a script's own report
count() { grep -c "^$1 " "$log"; }

# cases of a cmocka program; those that failed or were skipped are listed again after the count
cases() {
    awk -v want="$1" '
        /\[==========\] Running/ { listing = 0 }
        /\[==========\].* run\.$/ { listing = 1 }
        !listing && index($0, want " ") { cases++ }
        END { print cases + 0 }' "$log"
}

for test; do
    echo "-- $test"
    case $test in
    *.sh)
        sh "$test" "$midden" >"$log" 2>&1
        status=$?
        ok=$(count ok) no=$(count 'not ok') skip=$(count skip)
        [ $((ok + no + skip)) -eq 0 ] && [ $status -eq 0 ] && ok=1
        ;;
    *)
        "$test" >"$log" 2>&1
        status=$?
        ok=$(cases '[       OK ]') no=$(cases '[  FAILED  ]') skip=$(cases '[  SKIPPED ]')
        # a program that runs no case proves nothing
        [ $((ok + no + skip)) -eq 0 ] && [ $status -eq 0 ] && status=1
        ;;
    esac
    [ $status -ne 0 ] && [ "$no" -eq 0 ] && no=1 && echo "ended with status $status" >>"$log"
    cat "$log"
    [ "$no" -gt 0 ] && bad="$bad $test"
    passed=$((passed + ok)) failed=$((failed + no)) skipped=$((skipped + skip))
done
rm -f "$log"

[ -n "$bad" ] && echo "failed in:$bad"
[ $skipped -gt 0 ] && echo "$skipped skipped"
echo "$passed passed, $failed failed"
[ $failed -eq 0 ] && [ $passed -gt 0 ] || exit 1
echo "$passed passed, $failed failed" >"$folder/total"
