#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/thumb/thumb.sh - runs the rules of thumb and rewrites the figures of docs/rules-of-thumb.md.
#
#     sh tests/thumb/thumb.sh MIDDEN    needs jq; MEMBERS=32 by default; KEEP=1 takes what
#                                          was run last time and is still in build/thumb
#
# Words of the page are written by hand; what stands between `<!-- name -->` and `<!-- end -->` is
# written here. Each rule says by `must` what has to come out for it to hold, before it is run: all of
# it and the rule "holds", none and it "fails", else it "holds in part". Figures are medians of possible
# piles; `[a, low, high]` in jq, where 8 in 10 lie between low and high.
midden=${1:-./midden}
members=${MEMBERS:-32}
here=tests/thumb page=docs/rules-of-thumb.md out=build/thumb
LC_ALL=C.UTF-8
export LC_ALL
command -v jq >/dev/null || { echo "thumb: jq is needed"; exit 1; }
mkdir -p $out
rm -f $out/*.rows $out/*.musts $out/*.by $out/*.block $out/all $out/page
[ "$KEEP" ] || rm -f $out/*
trouble() { echo "thumb: $*" >&2; exit 1; }

# What is kept of a season: m middle, a air, v volume, w water, c carbon of each day; ready in days
# from the start, null when it lies beyond.
season='
def most($k): [.days[][$k]] | max;
def over($k; $t): [.days[] | select(.[$k] > $t)] | length;
def times($f; $k): [.[$k] * $f, .[$k + "_low"] * $f, .[$k + "_high"] * $f] | [.[0], (.[1:] | min), (.[1:] | max)];
def since($from): if . == null then null
    else ((strptime("%Y-%m-%d") | mktime) - ($from | strptime("%Y-%m-%d") | mktime)) / 86400 end;
.start as $start | {
 peak: [most("middle_c"), most("middle_c_low"), most("middle_c_high")],
 hot: [over("middle_c"; 55), over("middle_c_low"; 55), over("middle_c_high"; 55)],
 oxygen: ([.days[:30][] | .oxygen_lowest_share * 100] | min),
 skin: most("coldest_tenth_c"),
 m: [.days[].middle_c], a: [.days[].air_c], v: [.days[].volume_m3], w: [.days[].water_share * 100],
 c: [.days[].carbon_kg],
 gone: (.fluxes | times(-1; "co2_carbon_kg")),
 ammonia: (-100 * .fluxes.ammonia_kg / .fluxes.added_nitrogen_kg),
 dried: (-(.fluxes.vapour_water_kg + .fluxes.air_water_kg)),
 vapour: (.fluxes.vapour_heat_MJ / .fluxes.vapour_water_kg),
 ready: [.ready.beds | .date, .early, .late | since($start)],
 mulch: [.ready.mulch | .date, .early, .late | since($start)],
 why: .ready.beds.why_not,
 minutes: (.work | times(1; "person_minutes")), turns: .work.turns,
 kept: (.yield | times(100; "of_laid_share")),
 heavy: (.yield.wet_kg / .yield.volume_m3), left: .yield.volume_m3, bed: .yield.bed_m2,
 met: ([.hygiene[] | select(.rule == "55 C for 3 days")][0] | times(100; "mass_share_met")),
 live: [.seeds[].live_share * 100]
}'
# For the rules: n rounds, one rounds to a tenth, range writes "12 (9-16)", late counts never as far off.
words='
def n: if . == null then "later" else round + 0 | tostring end;
def one: if . == null then "-" else (. * 10 | round) / 10 | tostring end;
def range: if .[0] == null then "later" else "\(.[0] | n) (\(.[1] | n)-\(.[2] | n))" end;
def sooner: "\(.[0] | n) (\(.[1] | n) to \(.[2] | n))";
def late: .ready[0] // 9999;
def mean: add / length;
def signed: if . == null then "-" else (. * 10 | round) / 10 + 0 | if . > 0 then "+\(.)" else tostring end end;
def climbs: . as $l | all(range(1; length); $l[.] >= $l[. - 1]);
'

# ask NAME SED FILE ARGUMENT...: the season of FILE, changed by SED if that isn't empty
ask() {
    ask_name=$1 ask_sed=$2 ask_file=$here/$3
    shift 3
    ask_plan=
    [ $# -eq 0 ] || ask_plan=" --plan '$2'"
    if [ -n "$ask_sed" ]; then
        echo "- \`sed '$ask_sed' $ask_file | ./midden run -$ask_plan\`" >"$out/$ask_name.cmd"
    else
        echo "- \`./midden run $ask_file$ask_plan\`" >"$out/$ask_name.cmd"
    fi
    [ ! -s "$out/$ask_name.json" ] || return 0
    sed "$ask_sed" "$ask_file" >"$out/$ask_name.yaml"
    nice -n 5 "$midden" run -q --json --members "$members" "$@" "$out/$ask_name.yaml" >"$out/raw.json" ||
        trouble "$ask_name can't be run"
    jq -c --arg name "$ask_name" "{(\$name): ($season)}" "$out/raw.json" >"$out/$ask_name.json" ||
        trouble "$ask_name can't be read"
}

# blend NAME SED FILE: what `mix` adds up
blend() {
    echo "- \`sed '$2' $here/$3 | ./midden mix -\`" >"$out/$1.cmd"
    sed "$2" "$here/$3" >"$out/$1.yaml"
    "$midden" mix -q --json --members "$members" "$out/$1.yaml" |
        jq -c --arg name "$1" '{($name): .}' >"$out/$1.json" || trouble "$1 can't be mixed"
}

# flask NAME FILE PLAN: middle and flask of each day, from the table of days
flask() {
    echo "- \`./midden run $here/$2 --plan '$3' --csv\`" >"$out/$1.cmd"
    [ ! -s "$out/$1.json" ] || return 0
    nice -n 5 "$midden" run -q --csv --members "$members" --plan "$3" "$here/$2" |
        awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
                 { print $at["middle_c"], $at["flask_rise_k"], $at["water_share"], $at["over_45c_share"] }' |
        jq -c -Rn --arg name "$1" '[inputs | split(" ") | map(tonumber)] | {($name):
            {m: map(.[0]), rise: map(.[1]), w: map(.[2]), over45: map(.[3])}}' >"$out/$1.json" ||
        trouble "$1 can't be followed"
}

# paired FILE PLAN...: days sooner than the first plan, pile by pile
paired() {
    paired_file=$here/$1
    shift
    [ ! -s "$out/paired.json" ] || return 0
    paired_first=$1
    for plan in "$@"; do
        set -- "$@" --plan "$plan"
        shift
    done
    nice -n 5 "$midden" compare -q --json --members "$members" "$@" "$paired_file" >"$out/raw.json" ||
        trouble "$paired_file can't be compared"
    jq -c --arg first "$paired_first" '{paired: ([.pairs[] | select(.a == $first) |
        {(.b): [-.ready_days_sooner, -.high, -.low]}] | add)}' "$out/raw.json" >"$out/paired.json"
}

gather() { rm -f "$out/raw.json"; jq -cs add "$out"/*.json >"$out/all" || trouble "the runs cannot be put together"; }
of() { jq -r "$words . as \$all | $1" "$out/all" || trouble "in: $1"; }

# A rule of the page: rule NAME TITLE, then head, row, must and by in any number, then seal.
# must SENTENCE CONDITION [FOUND]: FOUND says by how much it is met or missed.
rule() {
    rule_name=$1 rule_title=$2 yes=0 no=0
    : >"$out/$1.rows"; : >"$out/$1.musts"; : >"$out/$1.by"
}
head() { printf '| %s |\n|%s\n' "$1" "$(echo "$1" | sed 's/[^|]*|/ --- |/g; s/[^|]*$/ --- |/')" >>"$out/$rule_name.rows"; }
row() { printf '| %s |\n' "$(of "$1")" >>"$out/$rule_name.rows"; }
must() {
    case $(of "$2") in
    true) yes=$((yes + 1)) must_said=yes ;;
    false) no=$((no + 1)) must_said=no ;;
    *) trouble "neither true nor false: $2" ;;
    esac
    must_found=
    [ $# -lt 3 ] || must_found=" ($(of "$3"))"
    echo "- $must_said: $1$must_found" >>"$out/$rule_name.musts"
}
by() { for n in "$@"; do cat "$out/$n.cmd" >>"$out/$rule_name.by"; done; }
seal() {
    case $yes,$no in
    0,*) verdict=fails ;;
    *,0) verdict=holds ;;
    *) verdict='holds in part' ;;
    esac
    { cat "$out/$rule_name.rows"; [ ! -s "$out/$rule_name.rows" ] || echo
      echo "It would hold if:"; echo
      cat "$out/$rule_name.musts"
      printf '\n**In the model it %s** (%s of %s). Shown by:\n\n' "$verdict" $yes $((yes + no))
      cat "$out/$rule_name.by"; } >"$out/$rule_name.block"
    echo "| [$rule_title](#$(echo "$rule_title" | tr 'A-Z ' 'a-z-' | tr -cd 'a-z0-9-')) | $verdict | $yes of $((yes + no)) |" >>"$out/summary.rows"
}

. $here/rules.inc

# ---- into the page ----
{ echo "| rule | in the model it | of what it would need |"; echo "| --- | --- | --- |"; cat "$out/summary.rows"
  printf '\n%s possible piles for each run, as with `--members %s`; `make thumb` wrote this.\n' "$members" "$members"; } >"$out/summary.block"
awk -v out="$out" '
    /^<!-- end -->$/ { inside = 0 }
    !inside { print }
    /^<!-- [A-Za-z0-9]+ -->$/ && !/end/ {
        file = out "/" $2 ".block"; got = 0
        while ((getline line < file) > 0) { print line; got++ }
        close(file)
        if (!got) { print "thumb: nothing for " $2 > "/dev/stderr"; exit 1 }
        inside = 1
    }' $page >"$out/page" || trouble "$page stays as it was"
for block in "$out"/*.block; do
    name=${block##*/}
    grep -q "^<!-- ${name%.block} -->\$" $page || trouble "$page has no place for ${name%.block}"
done
mv "$out/page" $page
echo "thumb: $page rewritten, $(grep -c . "$out/summary.rows") rules, $members possible piles"
