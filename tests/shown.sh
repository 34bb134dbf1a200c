#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/shown.sh - the commands that the pages show, and what they print.
#
#     sh tests/shown.sh MIDDEN make          runs them all, writes docs/answers.md and the answer in README.md
#     sh tests/shown.sh MIDDEN compare       runs those done within LIMIT seconds of a processor (4), and
#                                            compares
#
# A command is a line of a fenced block that begins with `./midden `. Each runs in a scratch folder beside
# a link to scenarios/, those of a page one after the other, and must end with 0 (done) or 1 (the answer is
# no). What it prints stands in docs/answers.md, of long answers the beginning. What is too slow to be
# compared each time is listed: `make docs` writes it anew, and `make check` fails where that changes a page.
midden=$1 deed=$2
case $midden in
/*) ;;
*) midden=$(pwd)/$midden ;;
esac
LC_ALL=C.UTF-8
export LC_ALL
top=$(pwd) page=docs/answers.md limit=${LIMIT:-4} longest=40
readme_command='./midden run scenarios/nettle-yard.yaml'
scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/folder"
ln -s "$top/scenarios" "$scratch/folder/scenarios"
ln -s "$midden" "$scratch/folder/midden"
tab=$(printf '\t')

awk 'FNR == 1 { fenced = 0 }
     /^```/ { fenced = !fenced; next }
     fenced && /^\.\/midden / { print FILENAME "\t" $0 }' \
    README.md DEVELOPERS.md $(find docs -name '*.md' ! -path "$page" | sort) >"$scratch/commands"

# run COMMAND [SECONDS]: $scratch/output and $status; it may take so many seconds of a processor, so that
# what else the machine does makes no difference
run() {
    { (cd "$scratch/folder" && ulimit -S -t ${2:-unlimited} && exec sh -c "exec $1" >"$scratch/output" \
        2>"$scratch/notes" </dev/null); } 2>/dev/null
    status=$?
}

# the answer as a page shows it
cut_short() {
    head -n $longest "$scratch/output"
    more=$(($(wc -l <"$scratch/output") - longest))
    [ $more -le 0 ] || echo "... and $more lines more"
}

# written COMMAND: the block under a command on the page
written() {
    awk -v head="**\`$1\`**" '$0 == head { on = 1; next }
        on && /^\*\*`/ { exit }
        on && /^```/ { if (open) exit; open = 1; next }
        on && open { print }' "$page"
}

# the block in README.md under the first season
readme_block() { awk '/^The pictures are then in/ { on = 1 } on && /^```/ { if (open++) exit; next } on && open { print }' README.md; }

make_page() {
    bad=0 ran=0 last=
    {
        printf '# What the commands on these pages print\n\n'
        printf 'Made by `make docs`; not edited by hand. Of long answers the first %d lines.\n' $longest
    } >"$scratch/page"
    while IFS=$tab read -r where command; do
        run "$command"
        ran=$((ran + 1))
        if [ $status -gt 1 ]; then
            { echo "$where: $command: ended with $status"; cat "$scratch/notes"; } >&2
            bad=1
        fi
        [ "$where" = "$last" ] || printf '\n## %s\n' "$where"
        last=$where
        printf '\n**`%s`**\n\n' "$command"
        if [ -s "$scratch/output" ]; then
            echo '```'
            cut_short
            echo '```'
        else
            echo "Prints nothing: its answer is in the file named."
        fi
        [ $status -ne 1 ] || printf '\nIt ends with 1: the answer is no.\n'
    done <"$scratch/commands" >"$scratch/told"
    [ $bad = 0 ] || return 1
    cat "$scratch/told" >>"$scratch/page"
    cp "$scratch/page" "$page"
    run "$readme_command"
    awk -v answer="$scratch/output" '/^The pictures are then in/ { on = 1 }
        on && /^```/ && !open { print; while ((getline line < answer) > 0) print line; open = 1; next }
        on && open && !/^```/ { next }
        on && open { on = 0 }
        { print }' README.md >"$scratch/readme" && cp "$scratch/readme" README.md
    echo "docs: $ran commands of the pages run, their answers in $page"
}

# verdict STATUS WHAT WRONG: after a comparison, counts and tells whether what was printed is what is written
verdict() {
    if [ "$1" = 0 ]; then
        same=$((same + 1))
        echo "ok - $2"
    else
        other=$((other + 1))
        echo "not ok - $2: $3 (make docs rewrites it)"
        diff "$scratch/written" "$scratch/shown" | head -6
    fi
}

compare_page() {
    same=0 other=0 slow=0
    while IFS=$tab read -r where command; do
        run "$command" $limit
        if [ $status -eq 152 ] || [ $status -eq 137 ] || { [ $slow -gt 0 ] && [ $status -eq 66 ]; }; then
            slow=$((slow + 1))
            echo "slow - $where: $command (covered by make docs)"
            continue
        fi
        written "$command" >"$scratch/written"
        cut_short >"$scratch/shown"
        [ $status -le 1 ] && cmp -s "$scratch/shown" "$scratch/written"
        verdict $? "$where: $command" "ended with $status, or prints other than $page"
    done <"$scratch/commands"
    run "$readme_command"
    readme_block >"$scratch/written"
    cp "$scratch/output" "$scratch/shown"
    cmp -s "$scratch/shown" "$scratch/written"
    verdict $? "README.md: the first answer" "it is another"
    for table in docs/tables/*.md; do
        awk '/^```/ { if (open++) exit; next } open { print }' "$table" >"$scratch/written"
        run "./midden list $(basename "$table" .md) --long"
        cp "$scratch/output" "$scratch/shown"
        cmp -s "$scratch/shown" "$scratch/written"
        verdict $? "$table" "it is no longer what the program lists"
    done
    if [ $same -lt 20 ]; then
        other=$((other + 1))
        echo "not ok - so few answers could be compared that it proves nothing"
    fi
    echo "$slow commands were too slow to compare here"
    echo "$same passed, $other failed"
    [ $other -eq 0 ]
}

case $deed in
make) make_page ;;
compare) compare_page ;;
*) echo "shown.sh MIDDEN make|compare"; exit 64 ;;
esac
