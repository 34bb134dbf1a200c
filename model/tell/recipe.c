/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/recipe.c - what a mix adds up to, and what would put it right, in words.
 *
 * What happens to a mix that is left as it is comes from its figures alone: no season was run.
 *   water  below 40 % decay stalls, above about 65 to 70 % air runs short
 *   C:N    above 50 there is hardly any heat, below 20 nitrogen leaves as ammonia
 * [Rynk (ed.) 1992, On-Farm Composting Handbook, NRAES-54; memory]
 */
#include "tell/recipe.h"
#include "ask/asked.h"
#include "many/band.h"
#include "run/handful.h"
#include "tell/vessels.h"
#include <math.h>
#include <string.h>

static const double LITRES_A_GALLON = 3.785411784; /* 231 cubic inches, by definition */

/* ---- figures ---- */

static struct phrase share_said(struct span share)
{
    return phrase_ranged(phrase_share(share.low), phrase_share(share.mid), phrase_share(share.high));
}

static struct phrase volume_said(const struct phrase_style *style, struct span m3)
{
    return phrase_ranged(phrase_volume(style, m3.low), phrase_volume(style, m3.mid),
                         phrase_volume(style, m3.high));
}

static struct phrase ratio_said(struct span ratio)
{
    struct phrase said[3];
    const double value[3] = {ratio.low, ratio.mid, ratio.high};
    for (int i = 0; i < 3; i++)
        snprintf(said[i].text, sizeof said[i].text, "%.0f", value[i]);
    return phrase_ranged(said[0], said[1], said[2]);
}

/* What a squeezed handful of so much water does. */
static const char *squeeze_word(double water_share)
{
    static const char *const does[PLAN_SQUEEZES] = {"is dusty", "crumbles", "holds together", "drips",
                                                    "runs"};
    return does[handful_word(water_share)];
}

/* "too dry and too brown"; "a little dry" where it works all the same. Empty when all is well. */
static void say_faults(char text[160], const struct mix *mix)
{
    static const char *const words[] = {"dry", "wet", "brown (rich in carbon)",
                                        "green (rich in nitrogen)", "dense"};
    size_t used = 0;
    *text = '\0';
    for (int f = 0; f < AMEND_FAULTS; f++)
        if (mix->wrong[f])
            used += (size_t)snprintf(text + used, 160 - used, "%s%s %s", used ? " and " : "",
                                     mix->fails[f] ? "too" : "a little", words[f]);
}

static bool any_wrong(const struct mix *mix)
{
    char faults[160];
    say_faults(faults, mix);
    return *faults != '\0';
}

/* ---- lines ---- */

static bool nothing_decays(const struct mix *mix)
{
    return mix->idle || !isfinite(mix->now[BLEND_C_TO_N].mid);
}

static void say_answer(FILE *out, const struct mix *mix)
{
    char faults[160], deeds[VESSELS_DEEDS];
    say_faults(faults, mix);
    vessels_deeds(deeds, mix, &mix->advice);
    *faults = *faults >= 'a' ? (char)(*faults - 'a' + 'A') : *faults;
    const char *what = mix->stock ? "stock" : mix->recipe->found.is ? "pile" : "mix";
    if (nothing_decays(mix))
        phrase_line(out, NULL, "This is mostly soil, compost or ash: little in it decays, so there "
                    "is no heat to hope for.");
    else if (!*faults)
        phrase_line(out, NULL, "The %s is right as it stands: C:N %s, best 25-35; %s water, best "
                    "50-60 %%; a squeezed handful %s.", what, ratio_said(mix->now[BLEND_C_TO_N]).text,
                    share_said(mix->now[BLEND_WATER_SHARE]).text,
                    squeeze_word(mix->now[BLEND_WATER_SHARE].mid));
    else if (mix->advice.advice.items)
        phrase_line(out, NULL, "%s: %s%s%s.", faults, deeds,
                    mix->stock && !mix->advice.advice.leave_out ? "; all of the stock can go in" : "",
                    mix->advice.right ? ""
                        : "; that goes part of the way, since no two common ingredients put it all right");
    else
        phrase_line(out, NULL, "%s, and no two common ingredients put it right, were there three "
                    "times as much of them as of the %s; begin with less of what makes it so.", faults, what);
}

static bool advised(const struct mix *mix, bool water)
{
    for (int i = 0; i < mix->advice.advice.items; i++)
        if ((mix->kinds.kind[mix->advice.advice.item[i].kind].stuff == AMEND_WATER) == water)
            return true;
    return false;
}

/* Water changes no ratio of carbon to nitrogen. */
static bool advised_water_alone(const struct mix *mix)
{
    return advised(mix, true) && !advised(mix, false);
}

static void say_why(FILE *out, const struct mix *mix)
{
    char then[96] = "";
    if (mix->advice.advice.items && !advised_water_alone(mix))
        snprintf(then, sizeof then, ", then %.60s",
                 ratio_said(mix->advice.then[BLEND_C_TO_N]).text);
    phrase_line(out, "why", "C:N (carbon:nitrogen by weight) %s%s; best %s",
                ratio_said(mix->now[BLEND_C_TO_N]).text, then,
                mix->recipe->found.is ? "15-35" : "25-35");
}

static void say_wet(FILE *out, const struct mix *mix)
{
    const struct span *now = &mix->now[BLEND_WATER_SHARE];
    const struct span *then = &mix->advice.then[BLEND_WATER_SHARE];
    char with[160] = "";
    if (mix->advice.advice.items)
        snprintf(with, sizeof with, "; then %.60s, it %s", share_said(*then).text,
                 squeeze_word(then->mid));
    phrase_line(out, "wet", "%s water, a handful %s%s", share_said(*now).text,
                squeeze_word(now->mid), with);
}

static bool overfull(const struct mix *mix, double volume_m3, double *holds_m3)
{
    const struct plan_bay *home = &mix->recipe->bay[mix->recipe->home];
    *holds_m3 = home->length_m * home->width_m * home->height_m;
    return home->shape == PLAN_BIN && !mix->stock && !mix->recipe->found.is && volume_m3 > *holds_m3;
}

/* Of the mix with what is advised, if anything is. */
static void say_size(FILE *out, const struct mix *mix, const struct phrase_style *style, bool in_full)
{
    bool with = mix->advice.advice.items > 0;
    const struct span *now = with ? mix->advice.then : mix->now;
    double holds_m3;
    char over[PLAN_NAME + 120] = "";
    if (overfull(mix, now[BLEND_BUILT].mid, &holds_m3))
        snprintf(over, sizeof over, "; %s holds %s: heap it",
                 mix->recipe->bay[mix->recipe->home].name, phrase_volume(style, holds_m3).text);
    if (!in_full && any_wrong(mix) && !*over && !mix->wrong[AMEND_AIRLESS])
        return;
    phrase_line(out, "size", "%s%s, %s, %s of it air%s", with ? "with that " : "",
                volume_said(style, now[BLEND_BUILT]).text,
                phrase_mass(style, now[BLEND_WET_KG].mid).text,
                phrase_share(now[BLEND_FREE_AIR].mid).text, over);
}

/* "above 45 C for 4 (1-8) of the first 28 days, with that for 12 (7-20)" */
static void foresee(char *text, size_t size, const struct left *left, const struct phrase_style *style)
{
    size_t used = (size_t)snprintf(text, size, "; above %.30s for %.24s of the first %d days",
                                   phrase_temp(style, ASKED_WARM_K).text,
                                   phrase_whole(left->warm_days[0], 1).text, LEFT_DAYS);
    if (left->with)
        snprintf(text + used, size - used, ", with that for %.24s", phrase_whole(left->warm_days[1], 1).text);
}

static void say_left_so(FILE *out, const struct recipe_tale *tale, const struct phrase_style *style)
{
    const struct mix *mix = tale->mix;
    char days[160] = "";
    if (tale->left && tale->left->is)
        foresee(days, sizeof days, tale->left, style);
    const char *said[AMEND_FAULTS];
    int count = 0;
    double c_to_n = mix->now[BLEND_C_TO_N].mid, water = mix->now[BLEND_WATER_SHARE].mid;
    if (mix->wrong[AMEND_DRY])
        said[count++] = water < 0.40 ? "too dry to stay hot, it stalls within days"
                                     : "it dries out early and stops";
    if (mix->wrong[AMEND_WET])
        said[count++] = water > 0.67 ? "little heat, a sour smell"
                                     : "the middle may run short of air and smell";
    if (mix->wrong[AMEND_BROWN])
        said[count++] = c_to_n > 50 ? "hardly any heat"
                                    : "slow for want of nitrogen";
    if (mix->wrong[AMEND_GREEN])
        said[count++] = mix->fails[AMEND_GREEN] ? "nitrogen leaves as ammonia"
                                                : "a little nitrogen may leave as ammonia";
    if (mix->wrong[AMEND_AIRLESS])
        said[count++] = "packed too close to breathe";
    if (count)
        phrase_line(out, "left so", "%s%s%s%s", said[0], count > 1 ? "; " : "",
                    count > 1 ? said[1] : "", days);
}

static void say_instead(FILE *out, const struct mix *mix)
{
    char deeds[VESSELS_DEEDS];
    vessels_deeds(deeds, mix, &mix->instead);
    if (mix->instead.advice.items)
        phrase_line(out, "or", "%s", deeds);
}

/* "5 buckets, four fifths full" are litres too. */
static void say_do(FILE *out, const struct mix *mix, const struct phrase_style *style)
{
    const char *stuff = mix->recipe->found.is ? "fork it in when you turn"
                                              : "spread it through the layers";
    const struct amend_kind *water = &mix->kinds.kind[mix->kinds.count - 1];
    bool dry = advised(mix, false), us = style->show == PLAN_SHOW_US;
    double litres = vessels_litres(mix, &mix->advice).mid;
    if (!advised(mix, true))
        phrase_line(out, "do", "%s%ssqueeze a handful: a drop or two is right", dry ? stuff : "",
                    dry ? "; " : "");
    else
        phrase_line(out, "do", "%s%s slowly, some on each layer%s: %.0f %s", dry ? stuff : "",
                    dry ? "; pour" : "pour",
                    dry || water->vessel != PLAN_BUCKET ? "" : ", buckets four fifths full",
                    us ? litres / LITRES_A_GALLON : litres, us ? "gal" : "L");
}

/* What isn't known, and the cheapest look at it. */
static void say_unknown(char text[200], const struct mix *mix, const struct unknown *unknown)
{
    static const char *const of[] = {
        [UNKNOWN_WATER] = "the water in ", [UNKNOWN_BULK] = "the weight of a vessel of ",
        [UNKNOWN_AMOUNT] = "the amount of ", [UNKNOWN_NITROGEN] = "the nitrogen in "};
    static const char *const itself[] = {
        [UNKNOWN_POUR] = "the water poured", [UNKNOWN_FELT] = "the wetness of the handful",
        [UNKNOWN_HEIGHT] = "the height"};
    enum unknown_kind kind = unknown->kind;
    if (kind == UNKNOWN_POUR || kind == UNKNOWN_FELT || kind == UNKNOWN_HEIGHT)
        snprintf(text, 200, "%s", itself[kind]);
    else if (kind >= UNKNOWN_WATER && kind <= UNKNOWN_NITROGEN)
        snprintf(text, 200, "%s%s", of[kind], mix->recipe->stuff[unknown->row].name);
    else
        snprintf(text, 200, "%s", unknown->name);
}

static bool on_a_scale(const struct scenario *recipe, int stuff)
{
    for (int l = 0; l < recipe->layers; l++)
        for (int i = 0; i < recipe->layer[l].portions; i++)
            if (recipe->layer[l].portion[i].stuff == stuff && recipe->layer[l].portion[i].weighed)
                return true;
    return false;
}

/* What narrows it, in the kitchen or the shed. */
static void say_test(char text[200], const struct scenario *recipe, const struct unknown *unknown,
                     const char *name)
{
    switch (unknown->kind) {
    case UNKNOWN_WATER: snprintf(text, 200, "weigh 100 g of %s wet and dry", name); return;
    case UNKNOWN_BULK: snprintf(text, 200, "weigh a vessel of %s", name); return;
    case UNKNOWN_AMOUNT:
        if (on_a_scale(recipe, unknown->row))
            snprintf(text, 200, "weigh 10 L of water on the same scale");
        else
            snprintf(text, 200, "count level vessels of %s", name);
        return;
    case UNKNOWN_POUR: snprintf(text, 200, "fill to a mark, and count"); return;
    case UNKNOWN_FELT: snprintf(text, 200, "squeeze three, from different places"); return;
    case UNKNOWN_HEIGHT: snprintf(text, 200, "measure in three places"); return;
    default: snprintf(text, 200, "nothing at home tells it"); return;
    }
}

/* "least known: the nitrogen in mixed leaves; what can be done: weigh a vessel of it" */
static void say_doubt(char text[500], const struct mix *mix)
{
    char least[200], test[200];
    const struct unknown *most = &mix->least_known.unknown, *next = &mix->testable.unknown;
    bool can = mix->testable.swing > 0, same = can && strcmp(most->name, next->name) == 0;
    bool alike = can && most->row == next->row && most->kind <= UNKNOWN_PACE &&
                 next->kind <= UNKNOWN_PACE;
    *text = '\0';
    if (!(mix->least_known.swing > 0))
        return;
    say_unknown(least, mix, most);
    say_test(test, mix->recipe, can ? next : most, same || alike ? "it" : mix->recipe->stuff[next->row].name);
    snprintf(text, 500, "; least known: %s%s %s", least, same || !can ? ":" : "; what you can do:", test);
}

static void say_sure(FILE *out, const struct mix *mix)
{
    char doubt[500], then[80] = "";
    int members = mix->members;
    if (members == 1) {
        phrase_line(out, "sure", "one pile with every unknown at its middle: no range");
        return;
    }
    if (mix->advice.advice.items) {
        struct span with = band_chance(mix->advice.works, members);
        bool likelier = round(10 * with.mid) > round(10 * band_chance(mix->works, members).mid);
        snprintf(then, sizeof then, ", %.40s then%s", phrase_chance(with).text,
                 likelier ? "" : ": no likelier");
    }
    say_doubt(doubt, mix);
    phrase_line(out, "sure", "%s to be right as it is%s%s",
                phrase_chance(band_chance(mix->works, members)).text, then, doubt);
}

/* One ingredient a line, as it comes; of a pile found nothing is laid. */
static void say_parts(FILE *out, const struct recipe_tale *tale, const struct phrase_style *style)
{
    const struct mix *mix = tale->mix;
    for (int i = 0; i < mix->recipe->stuffs && !mix->recipe->found.is; i++) {
        struct blend part = mix->part[i];
        double c_to_n = blend_figure(&part, BLEND_C_TO_N);
        if (!(part.dry_kg > 0))
            continue;
        char ratio[40] = "no nitrogen";
        if (isfinite(c_to_n))
            snprintf(ratio, sizeof ratio, "C:N %.0f", c_to_n);
        phrase_line(out, "of", "%s: %s, %s, %s water, %s", mix->recipe->stuff[i].name,
                    phrase_mass(style, blend_figure(&part, BLEND_WET_KG)).text,
                    phrase_volume(style, part.carried_m3).text,
                    phrase_share(blend_figure(&part, BLEND_WATER_SHARE)).text, ratio);
    }
    for (int i = 0; i < mix->recipe->assumed; i++)
        phrase_line(out, "assumed", "%s", mix->recipe->assumption[i]);
}

void recipe_text(FILE *out, const struct recipe_tale *tale, const struct phrase_style *style,
                 bool in_full)
{
    const struct mix *mix = tale->mix;
    say_answer(out, mix);
    if (any_wrong(mix) || nothing_decays(mix)) {
        say_why(out, mix);
        say_wet(out, mix);
    }
    if (nothing_decays(mix)) {
        say_size(out, mix, style, true);
    } else {
        say_size(out, mix, style, in_full);
        say_left_so(out, tale, style);
        say_instead(out, mix);
        say_do(out, mix, style);
        say_sure(out, mix);
    }
    if (in_full)
        say_parts(out, tale, style);
}
