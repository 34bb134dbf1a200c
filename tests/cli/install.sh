# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/install.sh - what `make install` puts where, used from elsewhere, and taken away again.
midden=$1; . tests/cli/cases.inc

top=$(pwd)
root=$tmp/root prefix=/opt/garden
make -s install DESTDIR="$root" PREFIX=$prefix >"$tmp/out" 2>"$tmp/err"
judge 'make install succeeds' test $? -eq 0
here=$root$prefix
version=$(sed -n 's/^.define VERSION "\(.*\)"/\1/p' model/base/version.h)
built=$midden midden=$here/bin/midden
mkdir "$tmp/elsewhere"

# ---- the program, from another folder ----
ends_from() { # STATUS SENTENCE ARGUMENT...
    cd "$tmp/elsewhere" || exit 1
    ends "$@"
    cd "$top" || exit 1
}
ends_from 0 'the installed program tells its version from another folder' --version
judge 'it is the one version' tells "midden $version"
ends_from 0 'it runs a scenario that was installed with it' \
    run "$here/share/midden/scenarios/minimal.yaml" --members 1 --json
cp "$tmp/out" "$tmp/installed.json"
"$built" run --quiet scenarios/minimal.yaml --members 1 --json >"$tmp/built.json"
judge 'and answers as the one that was built' cmp "$tmp/installed.json" "$tmp/built.json"
if command -v gnuplot >/dev/null; then
    ends_from 0 'it draws, with nothing of its source at hand' \
        run "$here/share/midden/scenarios/minimal.yaml" --members 1 --plot pictures
    judge 'five pictures or more' test "$(find "$tmp/elsewhere/pictures" -type f | wc -l)" -ge 5
else
    echo 'skip - it draws: gnuplot is not installed'
fi
judge 'no installed file names the folder it was built in' \
    sh -c "! grep -rqF '$top/model' '$here'"

# ---- manual page ----
page=$here/share/man/man1/midden.1
missing='' known=0
for name in $("$built" --help | sed -n '/^Commands/,/^$/s/^  \([a-z]*\)  .*/\1/p'); do
    grep -q "^\.It Ic $name\( \|$\)" "$page" || missing="$missing $name"
    for option in $("$built" "$name" --help | sed -n 's/^  [-a-z, ]*--\([a-z-]*\).*/\1/p'); do
        grep -q "^\.It .*Fl -$option\( \|$\)" "$page" || missing="$missing $name:--$option"
        grep -qw -- "--$option" "$here/share/bash-completion/completions/midden" ||
            missing="$missing bash:$option"
        grep -q -- "--$option\b" "$here/share/zsh/site-functions/_midden" || missing="$missing zsh:$option"
        known=$((known + 1))
    done
done
judge "manual page and completions know every command and option of --help:$missing" \
    test -z "$missing" -a $known -gt 60
statuses=$("$built" --help | sed -n '/^Exit status/,$p' | grep -o '\(^\|  \) *[0-9]\{1,3\}\b' | tr -d ' ')
missing=
for status in $statuses; do
    grep -q "^\.It .*\b$status\b" "$page" || missing="$missing $status"
done
judge "the manual page has each exit status:$missing" test -z "$missing" -a -n "$statuses"
if command -v mandoc >/dev/null; then
    mandoc -Tlint -W warning "$page" >"$tmp/err" 2>/dev/null
    judge 'mandoc finds nothing to complain of in it' test ! -s "$tmp/err"
else
    echo 'skip - mandoc is not installed'
fi
if command -v groff >/dev/null && groff -mdoc -Tutf8 -ww </dev/null >/dev/null 2>&1; then
    groff -mdoc -Tutf8 -ww "$page" >"$tmp/page" 2>"$tmp/err"
    judge 'groff sets it without a warning' test ! -s "$tmp/err"
    judge 'and in 80 columns' test "$(sed 's/\x1b\[[0-9;]*m//g' "$tmp/page" | col -b 2>/dev/null |
        awk '{ if (length > most) most = length } END { print most + 0 }')" -le 80
else
    echo 'skip - groff with -mdoc is not installed'
fi

# ---- completion ----
# complete WORD... : what bash offers for the last word
offers() {
    bash -c 'cd "$1" && . "$2" && shift 2 && COMP_WORDS=(midden "$@") COMP_CWORD=$# && _midden &&
        printf "%s\n" "${COMPREPLY[@]}"' bash "$tmp/elsewhere" \
        "$here/share/bash-completion/completions/midden" "$@" >"$tmp/out" 2>"$tmp/err"
}
offer() { # SENTENCE WANTED WORD...
    offer_name=$1 offer_want=$2
    shift 2
    offers "$@"
    got=$(sort "$tmp/out" | tr '\n' ' ' | sed 's/ *$//')
    if [ "$got" = "$offer_want" ] && [ ! -s "$tmp/err" ]; then ok "$offer_name"; else
        not_ok "$offer_name" "offered '$got' $(head -c 200 "$tmp/err")"
    fi
}
if command -v bash >/dev/null; then
    touch "$tmp/elsewhere/pile.yaml" "$tmp/elsewhere/notes.txt"
    mkdir -p "$tmp/elsewhere/pictures"
    offer 'bash offers commands by their first letters' 'search sheet' s
    offer 'options of the command that stands there' '--members --merge' run --me
    offer 'but none that it lacks' '' check --me
    offer 'the tables of list' 'ingredients' list in
    offer 'scenario files and folders for a scenario' 'pictures pile.yaml' run --json p
    offer 'no file that is no scenario' '' run n
    offer 'any file after -o' 'notes.txt' new -o n
    offer 'folders alone after --plot' 'pictures' run --plot p
    offer 'the same behind an equals sign' 'pictures' run --plot = p
    offer 'nothing after a value that no shell knows' '' run --day p
    offer 'no file to new, which takes none' '' new p
else
    echo 'skip - bash is not installed'
fi
if command -v zsh >/dev/null; then
    judge 'zsh can read its completion' zsh -n "$here/share/zsh/site-functions/_midden"
    # the real thing: a zsh on a terminal of its own, with a tab typed at it
    cat >"$tmp/tab.zsh" <<END
zmodload zsh/zpty
zpty shell zsh -f -i
zpty -w shell "PS1=; fpath=($here/share/zsh/site-functions \\\$fpath); autoload -Uz compinit; compinit -u -d $tmp/dump; LISTMAX=0"
zpty -w -n shell \$'midden sea\\t--wri\\tx\\C-a echo \\C-m exit\\C-m'
zpty -r shell line '*echo midden search*'; print -r -- \$line
END
    (cd "$tmp/elsewhere" && timeout 20 zsh -f "$tmp/tab.zsh") >"$tmp/out" 2>"$tmp/err"
    judge 'a tab in zsh completes command and option' tells 'midden search --write'
else
    echo 'skip - zsh is not installed'
fi

# ---- the library ----
PKG_CONFIG_SYSROOT_DIR=$root PKG_CONFIG_PATH=$here/lib/pkgconfig
export PKG_CONFIG_SYSROOT_DIR PKG_CONFIG_PATH
if command -v pkg-config >/dev/null; then
    judge 'pkg-config tells the one version' \
        test "$(pkg-config --modversion midden 2>"$tmp/err")" = "$version"
    cp docs/packaging/example.c "$tmp/elsewhere/"
    flags=$(pkg-config --cflags --libs midden)
    # shellcheck disable=SC2086
    (cd "$tmp/elsewhere" && ${CC:-cc} -std=c11 -Wall -Wextra -Werror example.c $flags -o example) \
        >"$tmp/out" 2>"$tmp/err"
    judge 'an example compiles against the installed library alone' test $? -eq 0
    (cd "$tmp/elsewhere" && ./example "$here/share/midden/scenarios/minimal.yaml" 8) \
        >"$tmp/example" 2>"$tmp/err"
    judge 'and runs' test $? -eq 0
    "$built" run --quiet scenarios/minimal.yaml --members 8 --json >"$tmp/run.json"
    if command -v jq >/dev/null; then
        jq -r '.days[] | [.day, .date, .middle_c_low, .middle_c, .middle_c_high] | @tsv' \
            "$tmp/run.json" | awk '{ printf "%d,%s,%.6g,%.6g,%.6g\n", $1, $2, $3, $4, $5 }' >"$tmp/days"
        grep '^[0-9]' "$tmp/example" >"$tmp/told"
        judge 'its days are those of run --json' cmp "$tmp/days" "$tmp/told"
        jq -r '"most likely ready for beds about \(.ready.beds.date)",
               "chance by the day of need: \(.ready.beds.chance_by_need)",
               (.cautions[] | "care: \(.)")' "$tmp/run.json" >"$tmp/days"
        grep -E '^(most likely|chance|care)' "$tmp/example" >"$tmp/told"
        judge 'and so are its verdict and its cautions' cmp "$tmp/days" "$tmp/told"
    else
        echo 'skip - jq is not installed'
    fi
    (cd "$tmp/elsewhere" && ./example no-such.yaml) >"$tmp/out" 2>"$tmp/err"
    judge 'a file that is missing is named, by the example and not by the library' \
        test $? -eq 1 -a "$(wc -l <"$tmp/err")" -eq 1
else
    echo 'skip - pkg-config is not installed'
fi
library=$here/lib/libmidden.a
judge 'the library shows names that begin with midden_ alone' \
    test -z "$(nm -g --defined-only "$library" | awk 'NF == 3 && $3 !~ /^midden_/')"
judge 'each function of the header is in it' sh -c "
    grep -o '\\bmidden_[a-z_]*(' '$here/include/midden.h' | tr -d '(' | sort -u >'$tmp/declared'
    nm -g --defined-only '$library' | awk 'NF == 3 { print \$3 }' | sort >'$tmp/defined'
    cmp '$tmp/declared' '$tmp/defined'"
judge 'it neither prints nor ends a program' sh -c "
    ! nm -u '$library' | grep -wE 'stdout|stderr|f?printf|puts|fputs|putchar|perror|exit|_exit|abort|signal|sigaction|setlocale|__(f?printf|vfprintf)_chk'"

# ---- away again ----
make -s uninstall DESTDIR="$root" PREFIX=$prefix >"$tmp/out" 2>"$tmp/err"
judge 'make uninstall leaves no file' test -z "$(find "$root" ! -type d)"
judge 'and no folder of its own' test -z "$(find "$root" -name '*midden*')"

# ---- one version ----
judge 'the change log begins with this version' \
    sh -c "grep -m1 '^## ' docs/CHANGELOG.md | grep -qF '$version'"
judge "so does Debian's" sh -c "head -1 docs/packaging/debian/changelog | grep -qF '($version-'"
finish
