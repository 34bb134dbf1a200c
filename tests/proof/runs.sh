# SPDX-License-Identifier: GPL-3.0-or-later
# tests/proof/runs.sh - short runs of the program's commands, for what watches it run: counted lines,
# threads, memory. Each must end as it should; what it says is judged by the tests of tests/cli.
#
#     sh tests/proof/runs.sh PART MIDDEN [BEFORE...]      BEFORE stands before the program's name
#
# PART is `main` (each command once), `threads` (what runs on several) or `all` (every form of answer,
# and each mistake of tests/broken).
part=$1 midden=$2
shift 2
before=$*
tmp=$(mktemp -d) || exit 1
trap 'rm -rf "$tmp"' EXIT
bad=0 runs=0
garden=scenarios/nettle-yard.yaml short=$tmp/short.yaml

# try STATUS ARGUMENT...
try() {
    want=$1
    shift
    runs=$((runs + 1))
    $before "$midden" "$@" --force >"$tmp/out" 2>"$tmp/err" </dev/null
    status=$?
    [ $status -eq "$want" ] && return
    bad=$((bad + 1))
    echo "midden $*: status $status, expected $want"
    cat "$tmp/err"
}

cat >"$short" <<'END'
midden: 1
name: Clay Lane
start: 2025-09-20
place: {latitude: 48 N, elevation: 300 m}
sky: cold winters
bin: 1 x 1 x 1 m
build:
  - repeat: 4
    layers:
      - straw: 60 L
        horse manure: 45 L
        grass clippings: 35 L
        water: 5 L
plans:
  leave it: []
  turn once: [{day: 2025-09-28, turn: outside in, water: 10 L}]
need: {by: 2025-10-20, for: mulch}
readings:
  also:
    - {day: 2025-09-23, middle: 57 C, hand deep: 45 C, air: 12 C, squeeze: drips}
    - {day: 2025-09-28, middle: 52 C, height: 70 cm}
END

threads() {
    try 0 run "$short" --members 8 --threads 2
    try 0 compare "$short" --members 8 --threads 2
    try 0 learn "$short" --members 16 --threads 2
}

main() {
    try 0 run "$short" --members 2
    try 0 mix "$garden"
    try 0 check "$garden"
    try 0 compare "$short" --members 2
    try 0 next "$short" --members 2
    try 0 sheet "$short" --members 2 -o "$tmp/sheet.html"
    try 0 report "$short" --members 2 -o "$tmp/report.html"
    try 0 why "$short" --members 2
    try 0 new
    try 0 list ingredients
    try 65 check tests/broken/key-twice.yaml
}

all() {
    main
    threads
    for form in --json --long --csv; do
        try 0 run "$short" --members 3 $form
        try 0 run "$short" --members 1 --draw 0 $form
    done
    for form in --json --long; do
        for command in mix compare why learn; do
            members=4
            [ $command = learn ] && members=16
            try 0 $command "$short" --members $members $form
        done
    done
    try 0 check "$short" --json
    try 0 next "$short" "$garden" --members 4 --day 2025-09-28 --calendar "$tmp/days.ics"
    try 0 next "$short" --members 4 --json
    try 0 run "$short" --members 1-3 -o "$tmp/a"
    try 0 run "$short" --members 4-6 -o "$tmp/b"
    try 0 run --merge "$tmp/a" "$tmp/b"
    for command in run compare why; do
        try 0 $command "$short" --members 4 --plot "$tmp/$command"
    done
    try 0 sheet "$garden" --members 4 -o "$tmp/sheet.csv"
    try 0 sheet "$short" --members 4
    try 0 report "$garden" --members 4 -o "$tmp/report.html"
    try 0 run "$short" --sensitivity --members 16
    for file in scenarios/*.yaml; do
        try 0 check "$file"
        try 0 mix "$file" --long
    done
    for what in ingredients parameters skies covers rules; do
        $before "$midden" list $what >"$tmp/out" 2>&1
    done
    for file in tests/broken/*.yaml; do
        $before "$midden" check "$file" >"$tmp/out" 2>"$tmp/err"
        case $? in
        1 | 65 | 66) ;;
        *) bad=$((bad + 1)); echo "midden check $file: status $?" ;;
        esac
    done
    for form in --help --version; do
        "$midden" $form >/dev/null
    done
}

$part
echo "$part: $runs runs, $bad that ended otherwise than they should"
[ $bad -eq 0 ]
