#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/one.sh - runs one test and counts its cases.
#
#     sh tests/one.sh FOLDER MIDDEN TEST
#
# A test is a cmocka program, whose own lines are counted, or a script, called with the path of
# MIDDEN; a script prints `ok NAME` or `not ok NAME` for each of its cases, and stands for one case
# if it prints neither. A program that ends badly without naming a failed case counts as one. What it printed is
# shown when it has ended, and "PASSED FAILED SKIPPED" stand in FOLDER/ended/TEST, with commas for slashes.
folder=$1 midden=$2 test=$3
name=$(echo "$test" | tr / ,)
log=$folder/ended/$name.log

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

# one after the other
until mkdir "$folder/ended/showing" 2>/dev/null; do sleep 0.1; done
echo "-- $test"
cat "$log"
rmdir "$folder/ended/showing"
rm -f "$log"
echo "$ok $no $skip" >"$folder/ended/$name"
