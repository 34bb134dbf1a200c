/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/sketch.c - see tell/sketch.h. */
#include "tell/sketch.h"
#include "base/scroll.h"
#include "tell/gnuplot.h"
#include "tell/picture.h"
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PATH = 4096, END = 32 };

static const double POINTS_AN_INCH = 72.0;

struct desk {
    char dir[PATH], script[PATH + END], picture[PATH + END];
};

static bool desk_make(struct desk *desk, struct trouble *why)
{
    const char *top = getenv("TMPDIR");
    if (!top || *top != '/' || strlen(top) > PATH / 2)
        top = "/tmp";
    snprintf(desk->dir, PATH, "%s/midden-XXXXXX", top);
    if (!mkdtemp(desk->dir))
        return trouble_set(why, TROUBLE_CREATE, "can't create a folder in %s: %s", top,
                           strerror(errno));
    snprintf(desk->script, sizeof desk->script, "%s/script.gp", desk->dir);
    snprintf(desk->picture, sizeof desk->picture, "%s/picture", desk->dir);
    return true;
}

static void desk_clear(struct desk *desk)
{
    unlink(desk->script);
    unlink(desk->picture);
    rmdir(desk->dir);
}

/* `enhanced` would read marks such as _ and ^ in a name as commands. */
static void terminal(FILE *script, const struct sketch *s)
{
    static const char rest[] = "noenhanced background '#ffffff'";
    double wide = s->width, high = s->height;
    fprintf(script, "kind = '%s'\nwide = %d; high = %d; type = %g\n",
            s->kind == SKETCH_SVG ? "svg" : "other", s->width, s->height, s->type);
    if (s->kind == SKETCH_SVG)
        fprintf(script, "set terminal svg size %d,%d dynamic %s font 'DejaVu Sans,Verdana,sans-serif,%g' "
                "name '%s'\n", s->width, s->height, rest, s->type, s->name);
    else if (s->kind == SKETCH_PDF)
        fprintf(script, "set terminal pdfcairo size %.4fin,%.4fin %s font 'DejaVu Sans,%g'\n",
                wide / POINTS_AN_INCH, high / POINTS_AN_INCH, rest, s->type);
    else if (s->kind == SKETCH_PNG)
        fprintf(script, "set terminal pngcairo size %.0f,%.0f %s font 'DejaVu Sans,%g' fontscale %g "
                "linewidth %g pointscale %g\n", wide * s->scale, high * s->scale, rest, s->type,
                0.75 * s->scale, s->scale, s->scale);
    else
        fprintf(script, "set terminal gif animate optimize delay %d loop 0 size %d,%d %s "
                "font 'DejaVu Sans,%g'\n", s->frame_centis, s->width, s->height, rest, 0.75 * s->type);
}

static bool script_write(const struct desk *desk, const struct sketch *s, struct trouble *why)
{
    FILE *script = fopen(desk->script, "wx");
    if (!script)
        return trouble_set(why, TROUBLE_CREATE, "can't create %s: %s", desk->script,
                           strerror(errno));
    terminal(script, s);
    bool good = s->write(script, s->what, why);
    picture_script(script, "common");
    picture_script(script, s->script);
    bool failed = ferror(script) != 0;
    if (fclose(script) || failed)
        return trouble_set(why, TROUBLE_DEVICE, "can't write %s: %s", desk->script, strerror(errno));
    return good;
}

/* With our title and description in place of gnuplot's. */
static char *dressed(char *svg, const struct sketch *s, size_t *size, struct trouble *why)
{
    struct scroll scroll;
    bool begun = scroll_begin(&scroll);
    if (begun)
        picture_dress(scroll.out, svg, s->title, s->meaning);
    free(svg);
    if (begun && scroll_end(&scroll)) {
        *size = scroll.size;
        return scroll.text;
    }
    free(scroll.text);
    trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
    return NULL;
}

char *sketch_draw(const struct sketch *s, size_t *size, struct trouble *why)
{
    struct desk desk;
    char *bytes = NULL;
    if (!desk_make(&desk, why))
        return NULL;
    if (script_write(&desk, s, why) && gnuplot_draw(desk.script, desk.picture, why))
        bytes = picture_slurp(desk.picture, size, why);
    desk_clear(&desk);
    return bytes && s->kind == SKETCH_SVG ? dressed(bytes, s, size, why) : bytes;
}

/* Where a name of a part begins: after id=' or id=", href='# and url(#. */
static size_t names(const char *at)
{
    static const char *const before[] = {" id='", " id=\"", "href='#", "url(#", "url('#"};
    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        if (strncmp(at, before[i], strlen(before[i])) == 0)
            return strlen(before[i]);
    return 0;
}

/* What HTML doesn't have: the XML namespaces, which it knows by itself. */
static size_t foreign(const char *at)
{
    static const char *const words[] = {" xmlns=\"http://www.w3.org/2000/svg\"",
                                        " xmlns:xlink=\"http://www.w3.org/1999/xlink\"", " xlink:"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strncmp(at, words[i], strlen(words[i])) == 0)
            return strlen(words[i]);
    return 0;
}

/* "rgb(123, 207,  87)" as "#7bcf57"; returns how much was read, 0 if it is none. */
static size_t colour(FILE *page, const char *at)
{
    unsigned red, green, blue;
    int length = 0;
    if (strncmp(at, "rgb(", 4) != 0 ||
        sscanf(at, "rgb(%3u,%3u,%3u)%n", &red, &green, &blue, &length) != 3 || length == 0)
        return 0;
    fprintf(page, "#%02x%02x%02x", red & 0xffU, green & 0xffU, blue & 0xffU);
    return (size_t)length;
}

/* Blanks that say nothing, and the names that gnuplot gives to what it drew: they are the script's. */
static size_t idle(const char *at, bool drawn)
{
    if (drawn && strncmp(at, "<title>", 7) == 0) {
        const char *end = strstr(at, "</title>");
        return end ? (size_t)(end - at) + 8 : 0;
    }
    if (*at == ' ' && (at[1] == ' ' || at[1] == '=' || (at[1] == '\'' && at[2] == '/')))
        return 1;
    return (*at == '\t' || *at == '\n') && (at[1] == '\n' || at[1] == '\t');
}

void sketch_embed(FILE *page, const char *svg, const char *name)
{
    const char *root = strstr(svg, "<svg");
    const char *drawn = root ? strstr(root, "</desc>") : NULL;
    for (const char *at = root ? root : svg; *at;) {
        size_t drop = foreign(at), keep = drop ? 0 : names(at), read;
        if (drop) {
            putc(' ', page);
            at += drop;
        } else if (keep) {
            fprintf(page, "%.*s%s-", (int)keep, at, name);
            at += keep;
        } else if ((read = idle(at, drawn && at > drawn)) || (read = colour(page, at))) {
            at += read;
        } else if (strncmp(at, "= '", 3) == 0) {
            fputs("='", page);
            at += 3;
        } else {
            putc(*at++, page);
        }
    }
}
