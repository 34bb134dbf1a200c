/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/rivals.c - see tell/rivals.h. */
#include "tell/rivals.h"
#include "ask/ready.h"
#include "tell/excerpt.h"
#include "tell/page.h"
#include <stdlib.h>

static void put_plan_rows(FILE *out, const struct comparison *c, const int *order, int best)
{
    for (int i = 0; i < c->count; i++) {
        struct compare_row row = compare_row(c, order[i]);
        fprintf(out, "<tr%s>", order[i] == best ? " class=\"taken\"" : "");
        page_element(out, "th scope=\"row\"", row.plan.text);
        const struct phrase *cell[] = {&row.ready, &row.chance, &row.work, &row.water, &row.hot};
        static const char *const label[] = {"ready", "in time", "work", "water", "above 55 °C"};
        for (int k = 0; k < 5; k++)
            if (k != 1 || c->contender[0].asked->need.is)
                fprintf(out, "<td data-label=\"%s\">%s</td>", label[k], cell[k]->text);
        fputs("</tr>\n", out);
    }
}

static void put_plan_table(FILE *out, const struct comparison *c, const int *order)
{
    const struct scenario *asked = c->contender[0].asked;
    fprintf(out, "<table class=\"list\">\n<caption>The same %d possible piles under each plan; days "
            "with the middle above 55 °C</caption>\n<thead><tr><th scope=\"col\">plan</th>"
            "<th scope=\"col\">ready for %s</th>", c->members,
            ready_use_word[outcome_use(asked)]);
    if (asked->need.is)
        fprintf(out, "<th scope=\"col\">by %s</th>", phrase_day(asked->need.by).text);
    fputs("<th scope=\"col\">work</th><th scope=\"col\">water</th><th scope=\"col\">&gt;55 °C</th></tr>"
          "</thead>\n<tbody>\n", out);
    put_plan_rows(out, c, order, compare_choice(c->standing, c->contender, c->count, c->room));
    fputs("</tbody>\n</table>\n", out);
}

bool rivals_write(FILE *out, const struct comparison *c, struct trouble *why)
{
    struct margin said;
    if (!c || c->count < 2)
        return true;
    int order[COMPARE_MOST];
    if (!margin_begin(&said))
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the report");
    excerpt_heading(out, "plans", "The plans side by side");
    compare_order(order, c->standing, c->count);
    compare_sentence(said.out, c);
    compare_against(said.out, c, "why");
    bool good = margin_end(&said) ||
                trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for the report");
    if (good) {
        excerpt_lines(out, &said, NULL);
        put_plan_table(out, c, order);
        excerpt_lines(out, &said, "why");
        fputs("<p class=\"note\">Each pile is set against itself under the other plan, and the middle of "
              "those differences is told; it needn’t be the difference of the table’s middles. Never ready "
              "counts as the day after the end.</p>\n", out);
    }
    margin_free(&said);
    return good;
}
