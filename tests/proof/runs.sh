# SPDX-License-Identifier: GPL-3.0-or-later
# tests/proof/runs.sh - short runs of the program's main commands, for `make coverage` and what else
# watches it run. Each must end well; what it says is judged elsewhere.
#
#     sh tests/proof/runs.sh FEW MIDDEN [BEFORE...]      BEFORE stands before the program's name
few=$1 midden=$2
shift 2
tmp=$(mktemp -d) || exit 1
trap 'rm -rf "$tmp"' EXIT
bad=0
garden=scenarios/nettle-yard.yaml

# try STATUS ARGUMENT...: ends so, or what was said is shown
try() {
    want=$1
    shift
    $before "$midden" "$@" >"$tmp/out" 2>"$tmp/err"
    status=$?
    [ $status -eq "$want" ] && return
    bad=1
    echo "midden $*: status $status, expected $want"
    cat "$tmp/err"
}
before=$*
