# SPDX-License-Identifier: GPL-3.0-or-later
# tests/layers.awk - the laws of model/README.md.
#
#     awk -f tests/layers.awk model/README.md model/*/*.[ch] model/*/*.def
#
# The table there is a total order: a file includes only files above it. Everything else is a wall
# between two rooms, or a thing that only some rooms may do. Faults fail; notes do not.

BEGIN { LONG_FUNCTION = 60; LONG_FILE = 300; WIDTH = 100 }

# the order: rows such as | `base/date` | calendar days as a count |
FILENAME ~ /README\.md$/ {
    if ($0 ~ /^\| `[a-z_]+\/[a-z_]+` \|/) {
        split($0, part, "`")
        if (part[2] in order)
            fault(part[2] " has two rows")
        order[part[2]] = ++rows
    }
    next
}

FNR == 1 {
    finish_file()
    file = FILENAME
    sub(/^.*model\//, "", file)
    sub(/\.[a-z]+$/, "", file)
    room = file
    sub(/\/.*/, "", room)
    sees_life = room == "life"
    sees_flow = room == "flow"
    opened = 0
    found[file] = 1
    if (!(file in order))
        fault(file " has no row in model/README.md")
    if ($0 !~ /SPDX-License-Identifier: GPL-3\.0-or-later/)
        fault("the first line is not the licence line")
}

/^[ \t]*#[ \t]*include[ \t]*"/ {
    split($0, part, "\"")
    want = part[2]
    sub(/\.[a-z]+$/, "", want)
    if (want ~ /^generated\//) # made by the Makefile, of what isn't C
        next
    if (want !~ /\//)
        fault("includes \"" part[2] "\" without its room")
    else if (!(want in order))
        fault("includes " want ", which has no row")
    else if ((file in order) && order[want] > order[file])
        fault("includes " want ", which is read after it")
    if (want ~ /^life\//)
        sees_life = 1
    if (want ~ /^flow\//)
        sees_flow = 1
    # two rooms that never meet, but in run/balance and what is read after it
    if (sees_life && sees_flow && !after_balance(file) && !told[file]++)
        fault("life/ and flow/ meet before run/balance")
    if (want == "base/unit" && want != file && room !~ /^(door|tell)$/)
        fault("everyday units belong to door/ and tell/")
}

/^[ \t]*#[ \t]*include[ \t]*<gsl\// && room ~ /^(base|know|pile|life|flow|run)$/ {
    fault("a season and its tables call no GSL")
}

/^[ \t]*#[ \t]*include[ \t]*<(stdio|wchar)\.h>/ && room !~ /^(door|tell)$/ \
    && file != "base/trouble" && file != "base/save" && file != "base/scroll" {
    fault("only door/ and tell/ read and print")
}

file != "base/scroll" && /open_memstream/ {
    fault("a text in memory goes through base/scroll: glibc's stream loses what it has no room for")
}

file != "door/main" && /(^|[^A-Za-z0-9_])(exit|_exit|_Exit|quick_exit|abort)[ \t]*\(/ {
    fault("only door/main ends the program")
}

/\t/ { fault("a tab") }

length($0) > WIDTH && FILENAME !~ /\.def$/ { note(length($0) " bytes wide") }

/^\{/ { opened = FNR }
/^\}/ {
    if (opened && FNR - opened > LONG_FUNCTION)
        note("a function of " FNR - opened - 1 " lines")
    opened = 0
}

{ last = FNR; name = FILENAME }

END {
    finish_file()
    if (!rows)
        fault("no table was read")
    for (f in order)
        if (!(f in found)) {
            print "model/README.md: " f " has a row but no file"
            bad = 1
        }
    exit bad
}

function after_balance(f)
{
    return ("run/balance" in order) && order[f] >= order["run/balance"]
}

# called with the state of the file before
function finish_file()
{
    if (last > LONG_FILE && name !~ /\.(def|md)$/)
        print name ": note: " last " lines"
    last = 0
}

function fault(text)
{
    print FILENAME ":" FNR ": " text
    bad = 1
}

function note(text)
{
    print FILENAME ":" FNR ": note: " text
}
