/* SPDX-License-Identifier: GPL-3.0-or-later */
/* many/shard.c - see many/shard.h.
 *
 *     "midden shard 2\n"  sizes of what lies in memory  run  text  members  checksum
 *
 * Each begins at a multiple of eight bytes, so that days and events can be used where they lie: a merge
 * of many shards reads them from the files again as it needs them, and holds none.
 *
 * The checksum is FNV-1a of 64 bits (Fowler, Noll, Vo) [memory: constants] over all that stands
 * before it; it finds a file cut short or copied badly, not one made to deceive, so every count is
 * checked as well.
 */
#include "many/shard.h"
#include <stdlib.h>
#include <string.h>

static const char KIND[] = "midden shard ", MAGIC[] = "midden shard 2\n";
enum { TEXT_MOST = 4 << 20, MEMBERS_MOST = 1 << 20, FIRST_MOST = 1 << 30, DAYS_MOST = 4000, EVENTS_MOST = 1 << 20,
       ALIGNED = 8 };

/* what must be laid alike on the machine that reads */
struct layout {
    uint32_t one, day, event, param, fluxes;
};

struct head {
    struct layout layout;
    int32_t plan, first, members, version_size, file_size, text_size, plan_named, defect;
    uint64_t draw, weather;
    uint8_t fixed[PARAM_ROWS];
};

/* of each member, before its days and events; a failed one has no days, and its reason in their place */
struct member_head {
    int32_t failed, days, events, turns;
    double balance[RECORD_BALANCES], respiration_gap, flux_total[FLUXES];
    double seeds_laid[3], seeds_alive[3], germs_laid[2], germs_alive[2];
    double pool_laid_kg[4], stuff_left_share[PLAN_STUFF];
    double person_s, lifted_kg, water_l, ignition_day;
};

static struct layout layout_here(void)
{
    return (struct layout){1, sizeof(struct record_day), sizeof(struct record_event),
                           sizeof(struct param), FLUXES};
}

uint64_t shard_checksum(const void *bytes, size_t size)
{
    uint64_t sum = 14695981039346656037u;
    for (size_t i = 0; i < size; i++)
        sum = (sum ^ ((const unsigned char *)bytes)[i]) * 1099511628211u;
    return sum;
}

/* ---- writing ---- */

struct heap {
    unsigned char *bytes;       /* NULL: only counted */
    size_t used;
};

static size_t aligned(size_t size)
{
    return (size + ALIGNED - 1) / ALIGNED * ALIGNED;
}

/* Bytes, and noughts up to where the next may begin. */
static void put(struct heap *heap, const void *from, size_t size)
{
    if (heap->bytes) {
        memset(heap->bytes + heap->used, 0, aligned(size));
        if (size > 0)
            memcpy(heap->bytes + heap->used, from, size);
    }
    heap->used += aligned(size);
}

static void put_member(struct heap *heap, const struct record *r, const char *failed)
{
    struct member_head head;
    memset(&head, 0, sizeof head); /* no byte of it is left to chance */
    head.failed = failed ? (int32_t)strlen(failed) : 0;
    head.days = failed ? 0 : r->days;
    head.events = failed ? 0 : r->events;
    head.turns = r->turns;
    memcpy(head.balance, r->balance, sizeof head.balance);
    memcpy(head.flux_total, r->flux_total, sizeof head.flux_total);
    memcpy(head.seeds_laid, r->seeds_laid, sizeof head.seeds_laid);
    memcpy(head.seeds_alive, r->seeds_alive, sizeof head.seeds_alive);
    memcpy(head.germs_laid, r->germs_laid, sizeof head.germs_laid);
    memcpy(head.germs_alive, r->germs_alive, sizeof head.germs_alive);
    memcpy(head.pool_laid_kg, r->pool_laid_kg, sizeof head.pool_laid_kg);
    memcpy(head.stuff_left_share, r->stuff_left_share, sizeof head.stuff_left_share);
    head.respiration_gap = r->respiration_gap;
    head.person_s = r->person_s;
    head.lifted_kg = r->lifted_kg;
    head.water_l = r->water_l;
    head.ignition_day = r->ignition_day;
    put(heap, &head, sizeof head);
    if (failed) {
        put(heap, failed, strlen(failed));
        return;
    }
    put(heap, r->day, (size_t)r->days * sizeof *r->day);
    put(heap, r->event, (size_t)r->events * sizeof *r->event);
}

static void put_all(struct heap *heap, const struct shard_run *run, const struct crew_done *done)
{
    struct head head;
    memset(&head, 0, sizeof head);
    head.layout = layout_here();
    head.plan = run->plan;
    head.first = done->first;
    head.members = done->members;
    head.version_size = (int32_t)strlen(run->version) + 1;
    head.file_size = (int32_t)strlen(run->file) + 1;
    head.text_size = (int32_t)run->text_size;
    head.draw = run->draw;
    head.weather = run->weather;
    head.plan_named = run->plan_named;
    head.defect = done->defect;
    for (int i = 0; i < PARAM_ROWS; i++)
        head.fixed[i] = run->fixed[i];
    put(heap, MAGIC, sizeof MAGIC - 1);
    put(heap, &head, sizeof head);
    put(heap, &run->param, sizeof run->param);
    put(heap, run->version, (size_t)head.version_size);
    put(heap, run->file, (size_t)head.file_size);
    put(heap, run->text, run->text_size);
    for (int i = 0; i < done->members; i++)
        put_member(heap, &done->record[i], done->failed[i]);
}

unsigned char *shard_write(const struct shard_run *run, const struct crew_done *done, size_t *size)
{
    struct heap heap = {0};
    put_all(&heap, run, done); /* once to count, once to write */
    heap.bytes = malloc(heap.used + sizeof(uint64_t));
    if (!heap.bytes)
        return NULL;
    heap.used = 0;
    put_all(&heap, run, done);
    uint64_t sum = shard_checksum(heap.bytes, heap.used);
    put(&heap, &sum, sizeof sum);
    *size = heap.used;
    return heap.bytes;
}

/* ---- reading ---- */

struct source {
    const unsigned char *at, *end;
    bool starved;               /* there was no memory for what is there */
};

/* The next bytes, where they lie, or NULL where so many aren't there. */
static const void *take(struct source *source, size_t size)
{
    const void *here = source->at;
    if ((size_t)(source->end - source->at) < aligned(size))
        return NULL;
    source->at += aligned(size);
    return here;
}

static bool take_into(struct source *source, void *to, size_t size)
{
    const void *from = take(source, size);
    if (from && size > 0)
        memcpy(to, from, size);
    return from != NULL;
}

/* A text of its own; NULL where the source holds less. */
static char *take_reason(struct source *source, size_t size)
{
    const void *from = take(source, size);
    char *copy = from ? malloc(size + 1) : NULL;
    source->starved |= from && !copy;
    if (copy) {
        memcpy(copy, from, size);
        copy[size] = '\0';
    }
    return copy;
}

static bool days_sound(const struct record *r)
{
    for (int i = 0; i < r->days; i++) {
        const struct record_day *day = &r->day[i];
        if (day->events < 0 || day->first_event < 0 || day->events > r->events ||
            day->first_event > r->events - day->events)
            return false;
    }
    for (int i = 0; i < r->events; i++)
        if (r->event[i].deed < PLAN_TURN || r->event[i].deed > PLAN_PICK ||
            r->event[i].way < PLAN_LAYER_BY_LAYER || r->event[i].way > PLAN_OUT_AND_BACK)
            return false;
    return true;
}

static bool take_member(struct source *source, struct record *r, char **failed)
{
    struct member_head head;
    if (!take_into(source, &head, sizeof head) || head.days < 0 || head.days > DAYS_MOST ||
        head.events < 0 || head.events > EVENTS_MOST || head.failed < 0 || head.failed > TEXT_MOST)
        return false;
    if (head.failed > 0) {
        *failed = take_reason(source, (size_t)head.failed);
        return *failed && strlen(*failed) == (size_t)head.failed;
    }
    r->days = head.days;
    r->events = head.events;
    r->turns = head.turns;
    memcpy(r->balance, head.balance, sizeof r->balance);
    memcpy(r->flux_total, head.flux_total, sizeof r->flux_total);
    memcpy(r->seeds_laid, head.seeds_laid, sizeof r->seeds_laid);
    memcpy(r->seeds_alive, head.seeds_alive, sizeof r->seeds_alive);
    memcpy(r->germs_laid, head.germs_laid, sizeof r->germs_laid);
    memcpy(r->germs_alive, head.germs_alive, sizeof r->germs_alive);
    memcpy(r->pool_laid_kg, head.pool_laid_kg, sizeof r->pool_laid_kg);
    memcpy(r->stuff_left_share, head.stuff_left_share, sizeof r->stuff_left_share);
    r->respiration_gap = head.respiration_gap;
    r->person_s = head.person_s;
    r->lifted_kg = head.lifted_kg;
    r->water_l = head.water_l;
    r->ignition_day = head.ignition_day;
    const void *day = take(source, (size_t)head.days * sizeof *r->day);
    const void *event = take(source, (size_t)head.events * sizeof *r->event);
    r->lent = true;
    r->day = (struct record_day *)(uintptr_t)day; /* nobody writes to a record that is finished */
    r->event = (struct record_event *)(uintptr_t)event;
    return day && event && days_sound(r);
}

/* The next so many bytes, a text with its end and no other; NULL where they are none. */
static const char *take_text(struct source *source, size_t size)
{
    const char *text = take(source, size);
    return text && memchr(text, '\0', size) == text + size - 1 ? text : NULL;
}

static bool take_run(struct source *source, struct shard_run *run, struct head *head)
{
    if (head->version_size < 1 || head->file_size < 1 || head->text_size < 0 ||
        head->version_size > 256 || head->file_size > TEXT_MOST || head->text_size > TEXT_MOST ||
        !take_into(source, &run->param, sizeof run->param))
        return false;
    run->version = take_text(source, (size_t)head->version_size);
    run->file = take_text(source, (size_t)head->file_size);
    run->text = take(source, (size_t)head->text_size);
    run->text_size = (size_t)head->text_size;
    run->plan = head->plan;
    run->draw = head->draw;
    run->weather = head->weather;
    run->plan_named = head->plan_named != 0;
    for (int i = 0; i < PARAM_ROWS; i++)
        run->fixed[i] = head->fixed[i] != 0;
    return run->version && run->file && run->text;
}

static bool take_members(struct source *source, struct crew_done *done, const struct head *head)
{
    if (head->first < 1 || head->first > FIRST_MOST || head->members < 1 || head->members > MEMBERS_MOST ||
        (size_t)head->members * sizeof(struct member_head) > (size_t)(source->end - source->at))
        return false;
    done->first = head->first;
    done->defect = head->defect != 0;
    done->record = calloc((size_t)head->members, sizeof *done->record);
    done->failed = calloc((size_t)head->members, sizeof *done->failed);
    if (!done->record || !done->failed) {
        source->starved = true;
        return false;
    }
    done->members = head->members;
    for (int i = 0; i < head->members; i++) {
        if (!take_member(source, &done->record[i], &done->failed[i]))
            return false;
        done->failures += done->failed[i] != NULL;
    }
    return source->at == source->end;
}

static bool damaged(const char *name, struct trouble *why)
{
    return trouble_set(why, TROUBLE_INPUT, "%s: this shard is damaged or cut short; run its slice again", name);
}

bool shard_read(struct shard_run *run, struct crew_done *done, const unsigned char *bytes, size_t size,
                const char *name, struct trouble *why)
{
    struct head head;
    struct layout here = layout_here();
    uint64_t sum;
    *done = (struct crew_done){0};
    if (size < sizeof MAGIC - 1 || memcmp(bytes, KIND, sizeof KIND - 1) != 0)
        return trouble_set(why, TROUBLE_INPUT, "%s: this is no shard; expected a file written by midden "
                           "run --members A-B -o FILE", name);
    if (size < aligned(sizeof MAGIC - 1) + aligned(sizeof head) + sizeof sum)
        return damaged(name, why);
    struct source source = {bytes + aligned(sizeof MAGIC - 1), bytes + size - sizeof sum, false};
    memcpy(&sum, source.end, sizeof sum);
    if (!take_into(&source, &head, sizeof head))
        return damaged(name, why);
    if (memcmp(bytes, MAGIC, sizeof MAGIC - 1) != 0 || memcmp(&head.layout, &here, sizeof here) != 0)
        return trouble_set(why, TROUBLE_INPUT, "%s: this shard comes from another kind of machine or "
                           "another version of midden; run all slices with one", name);
    bool whole = size % ALIGNED == 0 && sum == shard_checksum(bytes, size - sizeof sum) &&
                 take_run(&source, run, &head) && take_members(&source, done, &head);
    if (source.starved)
        return trouble_set(why, TROUBLE_MEMORY, "%s: there is not enough memory to read it", name);
    return whole || damaged(name, why);
}

bool shard_alike(const struct shard_run *a, const struct shard_run *b)
{
    return strcmp(a->version, b->version) == 0 && a->text_size == b->text_size &&
           memcmp(a->text, b->text, a->text_size) == 0 && a->plan == b->plan && a->draw == b->draw &&
           memcmp(&a->param, &b->param, sizeof a->param) == 0 &&
           memcmp(a->fixed, b->fixed, sizeof a->fixed) == 0 && a->plan_named == b->plan_named &&
           a->weather == b->weather;
}
