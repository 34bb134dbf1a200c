# SPDX-License-Identifier: GPL-3.0-or-later
# tests/proof/analyse.awk - findings of the analysers without those that were argued away.
#
#     awk -f tests/proof/analyse.awk tests/proof/argued.txt FINDINGS...
#
# A finding is a line `FILE:LINE:...: KIND: ... [CHECK]`. An argued one is a block of
# tests/proof/argued.txt: `FILE | CHECK | what the line in question holds`, then lines that begin
# with a blank and say why it is none. It covers that text alone, wherever it moves to; an argument
# that covers nothing any more is a finding too.
function text_of(file, line,    n, row) {
    if (!(file in seen)) {
        seen[file] = 1
        while ((getline row < file) > 0)
            source[file, ++n] = row
        close(file)
    }
    return source[file, line]
}
FNR == NR && /^model\// {
    split($0, part, / *\| */)
    file[++count] = part[1]
    check[count] = part[2]
    held[count] = part[3]
    where[count] = FNR
    next
}
FNR == NR && /^ +[^ ]/ {
    argued[count] = 1
    next
}
FNR == NR { next }
/: (warning|error|style|performance|portability): .*\[.*\]$/ {
    sub(/^.*\/model\//, "model/")
    split($0, part, ":")
    name = $0
    sub(/.*\[/, "", name)
    sub(/\]$/, "", name)
    if (said[$0]++)
        next
    text = text_of(part[1], part[2])
    for (i = 1; i <= count; i++)
        if (file[i] == part[1] && index(name, check[i]) && index(text, held[i])) {
            used[i] = 1
            away++
            next
        }
    print
    print "    " text
    bad++
}
END {
    for (i = 1; i <= count; i++) {
        if (used[i] && argued[i])
            continue
        print "tests/proof/argued.txt:" where[i] ": " (used[i] ? "no argument" : "nothing is found there now")
        bad++
    }
    print "analyse: " bad + 0 " findings, " away + 0 " more argued away in tests/proof/argued.txt"
    exit bad > 0
}
