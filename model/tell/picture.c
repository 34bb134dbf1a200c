/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tell/picture.c - a list of pictures, drawn by gnuplot, whole or absent.
 *
 * Each picture is drawn twice by one script, in a folder of its own under TMPDIR that only we can
 * read; then base/save puts the finished bytes in place. The scripts of plots/ are compiled in, so
 * that an installed program needs no files beside it.
 */
#include "tell/picture.h"
#include "base/save.h"
#include "tell/chart.h"
#include "tell/gnuplot.h"
#include <errno.h>
#include <generated/plots.h> /* made from plots/ by the Makefile: plots_rows, name and lines */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH = 4096, KINDS = 2, MOST_BYTES = 64 << 20 };

static const char *const kind_name[KINDS] = {"svg", "png"};

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

static void shelf_clear(struct shelf *shelf, const struct picture_set *set)
{
    static const char *const end[] = {"svg", "png", "svg.gp", "png.gp"};
    struct trouble none = {0};
    for (int i = 0; i < set->count; i++)
        for (int e = 0; e < 4; e++)
            if (path_in(shelf, shelf->dir, set->picture[i].name, end[e], &none))
                unlink(shelf->path);
    rmdir(shelf->dir);
}

/* `enhanced` would read marks such as _ and ^ in a name as commands. Names of parts within an SVG
 * begin with the picture's, so that several can stand in one page. */
static void terminal(FILE *script, int kind, const char *name, int high)
{
    fprintf(script, "kind = '%s'\nhigh = %d\n", kind_name[kind], high);
    if (kind == 0)
        fprintf(script,
                "set terminal svg size %d,%d dynamic noenhanced background '#ffffff' "
                "font 'DejaVu Sans,Verdana,sans-serif,15' name 'midden_%s'\n",
                CHART_WIDTH, high, name);
    else
        fprintf(script,
                "if (strstrt(GPVAL_TERMINALS, 'pngcairo')) { set terminal pngcairo size %d,%d "
                "noenhanced background '#ffffff' font 'DejaVu Sans,11.25' dashlength 0.7 } else { "
                "set terminal png size %d,%d noenhanced background '#ffffff' font 'DejaVu Sans' 11 "
                "}\n",
                CHART_WIDTH, high, CHART_WIDTH, high);
}

/* The lines of plots/NAME.gp; of `lesson_sizes` those of plots/lesson.gp if it has none of its own. */
static const char *const *lines_of(const char *name, size_t length)
{
    for (int i = 0; plots_rows[i].name; i++)
        if (strlen(plots_rows[i].name) == length && !memcmp(plots_rows[i].name, name, length))
            return plots_rows[i].line;
    return NULL;
}

void picture_script(FILE *script, const char *name)
{
    const char *const *line = lines_of(name, strlen(name));
    if (!line)
        line = lines_of(name, strcspn(name, "_"));
    for (; line && *line; line++)
        fputs(*line, script);
}

static bool script_write(struct shelf *shelf, const struct picture_set *set, int which, int kind,
                         struct trouble *why)
{
    const char *name = set->picture[which].name;
    char finding[FINDING_TEXT], end[16];
    snprintf(end, sizeof end, "%s.gp", kind_name[kind]);
    const char *path = path_in(shelf, shelf->dir, name, end, why);
    if (!path)
        return false;
    FILE *script = fopen(path, "wx");
    if (!script)
        return trouble_set(why, TROUBLE_CREATE, "can't create %s: %s", path, strerror(errno));
    terminal(script, kind, name, set->high ? set->high(set->what, which) : CHART_HEIGHT);
    set->find(finding, set->what, which);
    bool good = set->write(script, set->what, which, finding, why);
    picture_script(script, "common");
    picture_script(script, name);
    good = !ferror(script) && good;
    if (fclose(script) || !good)
        return trouble_set(why, TROUBLE_DEVICE, "can't write %s: %s", path, strerror(errno));
    return true;
}

static bool draw_one(struct shelf *shelf, const struct picture_set *set, int which, int kind,
                     struct trouble *why)
{
    char script[PATH + 4];
    if (!script_write(shelf, set, which, kind, why))
        return false;
    snprintf(script, sizeof script, "%s", shelf->path);
    const char *path = path_in(shelf, shelf->dir, set->picture[which].name, kind_name[kind], why);
    return path && gnuplot_draw(script, path, why);
}

char *picture_slurp(const char *path, size_t *size, struct trouble *why)
{
    FILE *in = fopen(path, "rb");
    struct stat about;
    char *bytes = NULL;
    if (in && !fstat(fileno(in), &about) && about.st_size < MOST_BYTES) {
        *size = (size_t)about.st_size;
        bytes = malloc(*size + 1);
        if (!bytes)
            trouble_set(why, TROUBLE_MEMORY, "there is not enough memory for a picture");
        else if (fread(bytes, 1, *size, in) != *size) {
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

void picture_dress(FILE *out, const char *svg, const char *title, const char *meaning)
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

static bool put(struct shelf *shelf, const struct picture_set *set, int which, int kind, struct trouble *why)
{
    const struct picture *picture = &set->picture[which];
    size_t size = 0;
    const char *path = path_in(shelf, shelf->dir, picture->name, kind_name[kind], why);
    char *bytes = path ? picture_slurp(path, &size, why) : NULL;
    bool good = bytes && path_in(shelf, set->dir, picture->name, kind_name[kind], why);
    if (good && kind == 1) {
        good = save_bytes(shelf->path, bytes, size, set->force, why);
    } else if (good) {
        struct save save;
        char finding[FINDING_TEXT];
        set->find(finding, set->what, which);
        good = save_begin(&save, shelf->path, set->force, why);
        if (good) {
            picture_dress(save.file, bytes, finding, picture->meaning);
            good = save_commit(&save, why); /* says so if a write failed */
        }
    }
    free(bytes);
    return good;
}

static bool free_to_write(struct shelf *shelf, const struct picture_set *set, struct trouble *why)
{
    struct stat about;
    for (int i = 0; i < set->count; i++)
        for (int kind = 0; kind < KINDS; kind++) {
            const char *path = path_in(shelf, set->dir, set->picture[i].name, kind_name[kind], why);
            if (!path)
                return false;
            if (!lstat(path, &about))
                return trouble_set(why, TROUBLE_CREATE,
                                   "%s is there already; name another folder, or add --force",
                                   path);
        }
    return true;
}

bool picture_may(const struct picture_set *set, struct trouble *why)
{
    struct shelf shelf;
    return set->force || free_to_write(&shelf, set, why);
}

static bool wanted(const struct picture_set *set, int which)
{
    return !set->wanted || set->wanted(set->what, which);
}

static bool draw_all(struct shelf *shelf, const struct picture_set *set, struct trouble *why)
{
    for (int i = 0; i < set->count; i++)
        for (int kind = 0; kind < KINDS; kind++)
            if (wanted(set, i) && !draw_one(shelf, set, i, kind, why))
                return false;
    if (mkdir(set->dir, 0777) && errno != EEXIST)
        return trouble_set(why, TROUBLE_CREATE, "can't create the folder %s: %s", set->dir,
                           strerror(errno));
    for (int i = 0; i < set->count; i++)
        for (int kind = 0; kind < KINDS; kind++)
            if (wanted(set, i)) {
                if (!put(shelf, set, i, kind, why))
                    return false;
            } else if (set->force &&
                       path_in(shelf, set->dir, set->picture[i].name, kind_name[kind], why)) {
                unlink(shelf->path);
            }
    return true;
}

bool picture_draw(const struct picture_set *set, struct trouble *why)
{
    struct shelf shelf;
    if (!picture_may(set, why))
        return false;
    if (!shelf_make(&shelf, why))
        return false;
    bool good = draw_all(&shelf, set, why);
    shelf_clear(&shelf, set);
    return good;
}
