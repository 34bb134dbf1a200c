/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/plot.c - a season as pictures, drawn by gnuplot.
 *
 * Each picture is drawn twice by one script, in a folder of its own under TMPDIR that only we can
 * read; then base/save puts the finished bytes in place. The scripts of plots/ are compiled in, so
 * that an installed program needs no files beside it.
 */
#include "tell/plot.h"
#include "base/save.h"
#include "tell/chart.h"
#include "tell/curves.h"
#include "tell/finding.h"
#include "tell/gnuplot.h"
#include "tell/section.h"
#include "tell/stack.h"
#include <errno.h>
#include <generated/plots.h> /* made from plots/ by the Makefile: plots_NAME, lines of a script */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH = 4096, KINDS = 2, MOST_BYTES = 64 << 20 };

static const char *const kind_name[KINDS] = {"svg", "png"};

struct picture {
    const char *name, *meaning;     /* meaning: for those who can't see the SVG */
    const char *const *lines;       /* of plots/NAME.gp */
    void (*find)(char text[FINDING_TEXT], const struct record *record,
                 const struct scenario *scenario);
    bool (*write)(const struct chart *chart, struct trouble *why);
};

static const struct picture pictures[] = {
    {"temperature",
     "Daily temperatures in the middle, 30 cm in, a hand deep and of the air; work done",
     plots_temperature, finding_temperature, curves_temperature},
    {"sections", "Cross-sections of temperature, water and oxygen on some days", plots_sections,
     finding_sections, section_write},
    {"heat", "Daily means of heat gained and lost, by the way it takes", plots_heat, finding_heat,
     stack_heat},
    {"mass", "Dry mass at each day's end, by kind of matter", plots_mass, finding_mass, stack_mass},
    {"water", "Water, free air and the least oxygen at each day's end", plots_water, finding_water,
     curves_water},
};
enum { PICTURES = sizeof pictures / sizeof *pictures };

struct shelf {
    char dir[PATH];     /* where it is drawn */
    char path[PATH];    /* the last path asked for */
};

static const char *path_in(struct shelf *shelf, const char *dir, const char *name, const char *end,
                           struct trouble *why)
{
    int length = snprintf(shelf->path, PATH, "%s/%s.%s", dir, name, end);
    if (length > 0 && length < PATH)
        return shelf->path;
    trouble_set(why, TROUBLE_CREATE, "the path of the pictures is too long");
    return NULL;
}

static bool shelf_make(struct shelf *shelf, struct trouble *why)
{
    const char *top = getenv("TMPDIR");
    if (!top || *top != '/' || strlen(top) > PATH / 2)
        top = "/tmp";
    snprintf(shelf->dir, PATH, "%s/midden-XXXXXX", top);
    return mkdtemp(shelf->dir) ||
           trouble_set(why, TROUBLE_CREATE, "can't create a folder in %s: %s", top,
                       strerror(errno));
}

static void shelf_clear(struct shelf *shelf)
{
    static const char *const end[] = {"svg", "png", "svg.gp", "png.gp"};
    struct trouble none = {0};
    for (int i = 0; i < PICTURES; i++)
        for (int e = 0; e < 4; e++)
            if (path_in(shelf, shelf->dir, pictures[i].name, end[e], &none))
                unlink(shelf->path);
    rmdir(shelf->dir);
}

/* `enhanced` would read marks such as _ and ^ in a name as commands. Names of parts within an SVG
 * begin with the picture's, so that several can stand in one page. */
static void terminal(FILE *script, int kind, const char *name)
{
    fprintf(script, "kind = '%s'\n", kind_name[kind]);
    if (kind == 0)
        fprintf(script,
                "set terminal svg size %d,%d dynamic noenhanced background '#ffffff' "
                "font 'DejaVu Sans,Verdana,sans-serif,15' name 'midden_%s'\n",
                CHART_WIDTH, CHART_HEIGHT, name);
    else
        fprintf(script,
                "if (strstrt(GPVAL_TERMINALS, 'pngcairo')) { set terminal pngcairo size %d,%d "
                "noenhanced background '#ffffff' font 'DejaVu Sans,11.25' dashlength 0.7 } else { "
                "set terminal png size %d,%d noenhanced background '#ffffff' font 'DejaVu Sans' 11 "
                "}\n",
                CHART_WIDTH, CHART_HEIGHT, CHART_WIDTH, CHART_HEIGHT);
}

static bool script_write(struct shelf *shelf, const struct picture *picture, int kind,
                         struct chart chart, struct trouble *why)
{
    char finding[FINDING_TEXT];
    char end[16];
    snprintf(end, sizeof end, "%s.gp", kind_name[kind]);
    const char *path = path_in(shelf, shelf->dir, picture->name, end, why);
    if (!path)
        return false;
    chart.script = fopen(path, "wx");
    if (!chart.script)
        return trouble_set(why, TROUBLE_CREATE, "can't create %s: %s", path, strerror(errno));
    picture->find(finding, chart.record, chart.scenario);
    terminal(chart.script, kind, picture->name);
    chart_head(&chart, finding);
    bool good = picture->write(&chart, why);
    for (int i = 0; plots_common[i]; i++)
        fputs(plots_common[i], chart.script);
    for (int i = 0; picture->lines[i]; i++)
        fputs(picture->lines[i], chart.script);
    good = !ferror(chart.script) && good;
    if (fclose(chart.script) || !good)
        return trouble_set(why, TROUBLE_DEVICE, "can't write %s: %s", path, strerror(errno));
    return true;
}

static bool draw(struct shelf *shelf, const struct picture *picture, int kind,
                 const struct chart *chart, struct trouble *why)
{
    char script[PATH + 4];
    if (!script_write(shelf, picture, kind, *chart, why))
        return false;
    snprintf(script, sizeof script, "%s", shelf->path);
    const char *path = path_in(shelf, shelf->dir, picture->name, kind_name[kind], why);
    return path && gnuplot_draw(script, path, why);
}

/* The whole of a file, ended by a nought; the caller frees it. */
static char *slurp(const char *path, size_t *size, struct trouble *why)
{
    FILE *in = fopen(path, "rb");
    struct stat about;
    char *bytes = NULL;
    if (in && !fstat(fileno(in), &about) && about.st_size < MOST_BYTES) {
        *size = (size_t)about.st_size;
        bytes = malloc(*size + 1);
        if (bytes && fread(bytes, 1, *size, in) != *size) {
            free(bytes);
            bytes = NULL;
        }
    }
    if (in)
        fclose(in);
    if (bytes)
        bytes[*size] = '\0';
    else
        trouble_set(why, TROUBLE_DEVICE, "can't read the picture %s back", path);
    return bytes;
}

static void escape(FILE *out, const char *text)
{
    for (; *text; text++)
        if (*text == '&' || *text == '<' || *text == '>')
            fprintf(out, "&#%d;", *text);
        else
            putc(*text, out);
}

/* gnuplot writes "<svg ", then its own title and description: a reader that speaks gets ours. */
static void dress(FILE *out, const char *svg, const char *title, const char *meaning)
{
    const char *root = strstr(svg, "<svg"), *own = strstr(svg, "<title>"), *rest;
    rest = strstr(svg, "</desc>");
    if (!root || !own || !rest || root > own || own > rest) {
        fputs(svg, out); /* a version that writes otherwise: as it is */
        return;
    }
    fprintf(out, "%.*s role=\"img\"", (int)(root + 4 - svg), svg);
    fprintf(out, "%.*s<title>", (int)(own - root - 4), root + 4);
    escape(out, title);
    fputs("</title>\n<desc>", out);
    escape(out, meaning);
    fputs(rest, out);
}

static bool put(struct shelf *shelf, const struct picture *picture, int kind, const char *dir,
                bool force, const struct chart *chart, struct trouble *why)
{
    size_t size = 0;
    const char *path = path_in(shelf, shelf->dir, picture->name, kind_name[kind], why);
    char *bytes = path ? slurp(path, &size, why) : NULL;
    bool good = bytes && path_in(shelf, dir, picture->name, kind_name[kind], why);
    if (good && kind == 1) {
        good = save_bytes(shelf->path, bytes, size, force, why);
    } else if (good) {
        struct save save;
        char finding[FINDING_TEXT];
        picture->find(finding, chart->record, chart->scenario);
        good = save_begin(&save, shelf->path, force, why);
        if (good) {
            dress(save.file, bytes, finding, picture->meaning);
            good = save_commit(&save, why); /* says so if a write failed */
        }
    }
    free(bytes);
    return good;
}

static bool free_to_write(struct shelf *shelf, const char *dir, struct trouble *why)
{
    struct stat about;
    for (int i = 0; i < PICTURES; i++)
        for (int kind = 0; kind < KINDS; kind++) {
            const char *path = path_in(shelf, dir, pictures[i].name, kind_name[kind], why);
            if (!path)
                return false;
            if (!lstat(path, &about))
                return trouble_set(why, TROUBLE_CREATE,
                                   "%s is there already; name another folder, or add --force",
                                   path);
        }
    return true;
}

static bool wanted(const struct picture *picture, const struct record *record)
{
    return picture->write != section_write || record->pictures > 0;
}

static bool draw_all(struct shelf *shelf, const char *dir, bool force, const struct chart *chart,
                     struct trouble *why)
{
    for (int i = 0; i < PICTURES; i++)
        for (int kind = 0; kind < KINDS; kind++)
            if (wanted(&pictures[i], chart->record) && !draw(shelf, &pictures[i], kind, chart, why))
                return false;
    bool made = !mkdir(dir, 0777);
    if (!made && errno != EEXIST)
        return trouble_set(why, TROUBLE_CREATE, "can't create the folder %s: %s", dir,
                           strerror(errno));
    for (int i = 0; i < PICTURES; i++)
        for (int kind = 0; kind < KINDS; kind++)
            if (!wanted(&pictures[i], chart->record)) {
                if (force && path_in(shelf, dir, pictures[i].name, kind_name[kind], why))
                    unlink(shelf->path);
            } else if (!put(shelf, &pictures[i], kind, dir, force, chart, why)) {
                return false;
            }
    return true;
}

bool plot_season(const char *dir, bool force, const struct record *record,
                 const struct scenario *scenario, const char *plan_name, const struct span *middle_K,
                 struct trouble *why)
{
    struct shelf shelf;
    struct chart chart = {NULL, record, scenario, plan_name, middle_K};
    if (record->days < 1)
        return trouble_set(why, TROUBLE_NO, "the season has no day to draw");
    if (!gnuplot_accept(scenario->name, "the name of the scenario", why) ||
        !gnuplot_accept(plan_name, "the name of the plan", why))
        return false;
    if (!force && !free_to_write(&shelf, dir, why))
        return false;
    if (!shelf_make(&shelf, why))
        return false;
    bool good = draw_all(&shelf, dir, force, &chart, why);
    shelf_clear(&shelf);
    return good;
}
