/* SPDX-License-Identifier: GPL-3.0-or-later */
/* door/complaints.c - what libyaml complains of, in plain words with a way to mend it. */
#include "door/complaints.h"
#include <stddef.h>
#include <string.h>

static const struct {
    const char *theirs, *ours;
} complaints[] = {
    {"found character that cannot start any token",
     "a value can't begin with this character; put the value in quotes, and indent with spaces"},
    {"mapping values are not allowed in this context",
     "a second colon, a key indented too far, or no colon on the line above; begin a new line, or put the "
     "text in quotes"},
    {"could not find expected ':'",
     "this line, or the one above, has no colon with a blank behind it; expected `key: value`"},
    {"did not find expected key",
     "expected a key here; is the indentation that of the line above, every `{` and `[` closed?"},
    {"did not find expected ',' or '}'", "expected `,` or `}`; is a `{` left open above?"},
    {"did not find expected ',' or ']'", "expected `,` or `]`; is a `[` left open above?"},
    {"did not find expected '-' indicator",
     "expected `- ` like the items above; is the indentation the same?"},
    {"block sequence entries are not allowed in this context",
     "a list can't begin here; put `- ` on a line of its own"},
    {"block mapping entries are not allowed in this context", "a map can't begin here"},
    {"found unexpected end of stream", "the file ends inside a quoted text; close the quote"},
    {"found unexpected document indicator", "`---` inside a quoted text; close the quote"},
    {"did not find expected node content", "a value is missing here"},
    {"did not find expected <document start>", "nothing may follow the scenario's end here"},
    {"found unknown escape character", "unknown `\\` sign; use single quotes for the text"},
    {"control characters are not allowed", "a control character; type this line again"},
    {"invalid leading UTF-8 octet", "not UTF-8 text; save the file with the encoding UTF-8"},
    {"invalid trailing UTF-8 octet", "not UTF-8 text; save the file with the encoding UTF-8"},
    {"incomplete UTF-8 octet sequence", "not UTF-8 text; save the file with the encoding UTF-8"},
    {"found a tab character", "a tab; indent with spaces"},
};

const char *complaints_plainly(const char *problem)
{
    for (size_t i = 0; i < sizeof complaints / sizeof complaints[0]; i++)
        if (!strncmp(problem, complaints[i].theirs, strlen(complaints[i].theirs)))
            return complaints[i].ours;
    return problem;
}
