/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_scenario.c - door/scenario: whole files, good, broken and cut short. */
#include "door/reading.h"
#include "lib/scratch.h"

/* every key of the format at least once */
static const char FULL[] =
    "midden: 1\n"
    "name: Bramble Court, left bin\n"
    "start: 2025-10-11 to 2025-10-18\n"
    "show: both\n"
    "measures: {bucket: 10 L, barrow: 3 cubic feet, bag: 30 US gallons}\n"
    "place: {latitude: 46.1 N, elevation: 1480 ft, sun: all day, wind: some}\n"
    "sky:   # January first\n"
    "  night low: -5 -4 -1 3 7 11 13 12 9 5 0 -4 C\n"
    "  day high: 1 4 9 14 18 22 25 24 20 13 6 2 C\n"
    "  rain: 50 45 50 60 80 95 100 95 70 60 55 55 mm\n"
    "  wet days: 10 9 10 11 12 12 12 11 9 9 10 10\n"
    "bins:\n"
    "  left: {size: 4 x 4 x 3.5 ft, walls: slats, floor: soil, lid: none}\n"
    "  right: {like: left, now: empty}\n"
    "  far: {like: left, walls: boards, lid: boards, now: full until 2026-03-01}\n"
    "ingredients:\n"
    "  kitchen pail: {like: kitchen scraps, weighs: 5 to 6 kg a bucket, water: 75 to 85 %}\n"
    "build:\n"
    "  - twigs: 5 buckets loose\n"
    "  - repeat: 4\n"
    "    layers:\n"
    "      - mixed leaves: 2 bags pressed crisp whole\n"
    "      - grass clippings: 6 to 8 buckets fresh\n"
    "        kitchen pail: 2 buckets\n"
    "        water: 1 to 2 buckets\n"
    "  - old bottom soil: 2 buckets\n"
    "    squeeze: holds\n"
    "have: {mixed leaves: 3 bags, straw: 20 kg}\n"
    "plans:\n"
    "  leave it: []\n"
    "  two turns:\n"
    "    - {day: 2026-02-21, turn: outside in, into: right, water: 5 buckets, pick out: sticks}\n"
    "    - {day: 2026-03-21, turn: mixed, into: far, water: until it drips}\n"
    "  when it cools:\n"
    "    - {look: Saturday, from: 2025-11-01, when: 30 cm in below 45 C, unless: air below -5 C,\n"
    "       at most: every 14 days, turn: layer by layer, into: next, keep for the top: 8 cm,\n"
    "       water: until it drips}\n"
    "  pail a week:\n"
    "    - {every: Saturday, until: 2026-02-28, add: {kitchen pail: 1 bucket}, bury: 20 cm}\n"
    "    - {day: 2025-11-08, cover: straw 10 cm}\n"
    "    - {day: 2026-03-01, uncover: straw, loosen: all over}\n"
    "need: {by: 2026-05-02, for: beds, chance: 8 in 10, beds: 3 of 1.2 x 3 m at 2 cm,\n"
    "       harvest: {lettuce: 2026-06-20}}\n"
    "people: {helpers: 2 to 4, days: Saturday, away: 2026-04-04, visit: 90 min,\n"
    "         heaviest load: 12 kg}\n"
    "readings:\n"
    "  thermometer: {kind: dial, in ice water: 2 C}\n"
    "  log: log.csv\n"
    "  also:\n"
    "    - {day: 2025-10-21, middle: 58 C, hand deep: 41 C, squeeze: drips, height: 80 cm}\n";

static const char SHORT[] = "midden: 1\n"
                            "start: 2025-10-18\n"
                            "place: {latitude: 47.2 N, elevation: 430 m}\n"
                            "sky: cold winters\n"
                            "bin: 1 x 1 x 1 m\n"
                            "build:\n"
                            "  - mixed leaves: 8 bags\n"
                            "    grass clippings: 30 buckets\n"
                            "    water: 5 buckets\n"
                            "need: by 2026-04-18\n";

static void a_file_with_every_key_is_understood(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(FULL);
    assert_string_equal(s->name, "Bramble Court, left bin");
    assert_int_equal(s->show, 2);
    assert_int_equal(s->start, date_number((struct date){2025, 10, 11}));
    assert_near(s->start_span_days, 7.0, 0.0);
    assert_int_equal(s->bays, 3);
    assert_int_equal(s->layers, 10);
    assert_int_equal(s->plans, 4);
    assert_int_equal(s->plan[3].event[0].day, 14); /* the Saturday after the last layer */
    assert_int_equal(s->last_day, 203);
    assert_int_equal(s->notes, 1);
    assert_int_equal(s->readings, 4);
    assert_int_equal(s->assumed, 0);
}

static void a_dozen_lines_are_enough_and_the_rest_is_assumed_once(void **state)
{
    (void)state;
    const struct scenario *s = reading_good(SHORT);
    assert_int_equal(s->layers, 1);
    assert_int_equal(s->plans, 2);
    assert_int_equal(s->last_day, 182);
    assert_true(s->assumed > 8);
    for (int i = 0; i < s->assumed; i++)
        for (int j = 0; j < i; j++)
            assert_string_not_equal(s->assumption[i], s->assumption[j]);
}

/* need, or else 60 days after the last thing done, or else 120 days */
static void a_season_has_an_end(void **state)
{
    (void)state;
    assert_int_equal(reading_good(READING_BASE)->last_day, 120);
    assert_int_equal(
        reading_good(READING_BASE "plans:\n  a:\n    - {day: 2025-12-17, turn: mixed}\n")->last_day,
        120);
    assert_int_equal(READ.plan[0].event[0].day, 60);
    assert_int_equal(
        reading_good(READING_BASE "plans:\n  a:\n    - {day: 2026-10-18, turn: mixed}\n")->last_day,
        425);
    assert_int_equal(
        reading_good(READING_BASE "plans:\n  a:\n    - {day: 2027-10-17, turn: mixed}\n")->last_day,
        730);
    reading_bad(READING_BASE "plans:\n  a:\n    - {day: 2027-10-19, turn: mixed}\n", "at most 730");
}

/* six weeks more for whoever asks when it is ready, within two years and this calendar; never beyond a
 * weather file, and nothing is done in that time */
static void a_season_can_look_on_past_its_need(void **state)
{
    (void)state;
    reading_good(READING_BASE "need: by 2026-04-18\nplans:\n  a:\n    - {every: Saturday, water: 5 L}\n");
    assert_int_equal(READ.last_day, 182);
    scenario_look_on(&READ);
    assert_int_equal(READ.last_day, 182 + 42);
    assert_int_equal(READ.plan[0].event[0].until, 182);
    reading_good(READING_BASE "need: by 2027-10-01\n");
    scenario_look_on(&READ);
    assert_int_equal(READ.last_day, 730);
    reading_good(READING_BASE);
    scenario_look_on(&READ);
    assert_int_equal(READ.last_day, 120);
}

static void all_mistakes_are_told_in_one_go(void **state)
{
    (void)state;
    reading_bad("midden: 1\n"
                "start: 2025-02-30\n"
                "place: {latitude: 47.2}\n"
                "sky: cold wintrs\n"
                "bin: 1 x 1 x 1\n"
                "colour: green\n"
                "build:\n"
                "  - mixd leaves: 8 bags\n"
                "    grass clippings: 30\n"
                "need: by tomorrow\n",
                "a.yaml:2:8: ");
    assert_int_equal(reading_lines(WHY.text), 8);
    static const char *const places[] = {
        ":3:23: ", ":4:6: ", ":5:15: ", ":6:1: ", ":8:5: ", ":9:24: ", ":10:10: "};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        assert_non_null(strstr(WHY.text, places[i]));
}

static void more_than_twenty_are_counted(void **state)
{
    (void)state;
    char text[4096] = READING_HEAD READING_BIN "build:\n";
    for (int i = 0; i < 25; i++) {
        size_t used = strlen(text);
        snprintf(text + used, sizeof text - used, "  - straw: %d\n", i + 1);
    }
    reading_bad(text, "a.yaml: and 5 more");
    assert_int_equal(reading_lines(WHY.text), 21);
}

/* ---- files ---- */
static void a_missing_file_and_a_folder_are_named(void **state)
{
    WHY = (struct trouble){0};
    assert_false(scenario_read(&READ, scratch_path(state, "none.yaml"), &WHY));
    assert_int_equal(WHY.kind, TROUBLE_ABSENT);
    assert_non_null(strstr(WHY.text, "none.yaml"));
    WHY = (struct trouble){0};
    assert_false(scenario_read(&READ, scratch_path(state, "."), &WHY));
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    assert_non_null(strstr(WHY.text, "directory"));
}

static void a_file_too_long_is_not_read_on(void **state)
{
    WHY = (struct trouble){0};
    assert_false(scenario_read(&READ, "/dev/zero", &WHY));
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    assert_non_null(strstr(WHY.text, "longer than"));
    (void)state;
}

static void standard_input_is_called_a_dash(void **state)
{
    const char *path = scratch_path(state, "in.yaml");
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs("midden: 2\n", file);
    assert_int_equal(fclose(file), 0);
    assert_non_null(freopen(path, "r", stdin));
    WHY = (struct trouble){0};
    assert_false(scenario_read(&READ, "-", &WHY));
    assert_int_equal(strncmp(WHY.text, "-:1:", 4), 0);
}

/* ---- the files of tests/broken: line 1 of each is `# want LINE:COLUMN: message` ---- */
static void check_broken(const char *path)
{
    char want[1024] = "", start[1600];
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    assert_non_null(fgets(want, sizeof want, file));
    fclose(file);
    want[strcspn(want, "\n")] = '\0';
    assert_int_equal(strncmp(want, "# want ", 7), 0);
    WHY = (struct trouble){0};
    assert_false(scenario_read(&READ, path, &WHY));
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    assert_int_equal(trouble_status(WHY.kind), 65);
    int length = snprintf(start, sizeof start, "%s:%s", path, want + 7);
    size_t first = strcspn(WHY.text, "\n");
    if (first != (size_t)length || strncmp(WHY.text, start, first))
        fail_msg("\ngot  %s\nwant %s", WHY.text, start);
}

static void each_broken_file_is_refused_at_its_place(void **state)
{
    (void)state;
    DIR *folder = opendir("tests/broken");
    int files = 0;
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder));) {
        char path[400];
        if (!strstr(entry->d_name, ".yaml"))
            continue;
        snprintf(path, sizeof path, "tests/broken/%s", entry->d_name);
        check_broken(path);
        files++;
    }
    closedir(folder);
    assert_true(files >= 160);
}

/* ---- whatever comes in, a sound answer comes out ---- */
static void assert_sound_span(const struct span *span)
{
    assert_true(span->low <= span->mid && span->mid <= span->high);
    assert_true(span->low >= 0.0 && span->high < 1e9);
}

static void assert_sound(void)
{
    if (WHY.kind == TROUBLE_NONE) {
        for (int i = 0; i < READ.layers; i++) {
            assert_sound_span(&READ.layer[i].water_kg);
            for (int j = 0; j < READ.layer[i].portions; j++) {
                const struct plan_portion *portion = &READ.layer[i].portion[j];
                assert_in_range(portion->stuff, 0, READ.stuffs - 1);
                assert_sound_span(&portion->wet_kg);
                assert_sound_span(&portion->volume_m3);
                assert_sound_span(&portion->water_share);
            }
        }
        assert_in_range(READ.home, 0, READ.bays - 1);
        assert_in_range(READ.last_day, 1, 730);
        return;
    }
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    for (const char *line = WHY.text; line;
         line = strchr(line, '\n') ? strchr(line, '\n') + 1 : NULL)
        assert_int_equal(strncmp(line, "a.yaml:", 7), 0);
}

static void a_file_cut_at_any_byte_does_no_harm(void **state)
{
    (void)state;
    size_t length = sizeof FULL - 1;
    for (size_t cut = 0; cut < length; cut++) {
        char *text = malloc(cut + 1); /* its own memory, so that reading past its end is seen */
        assert_non_null(text);
        memcpy(text, FULL, cut);
        text[cut] = '\0';
        WHY = (struct trouble){0};
        scenario_read_text(&READ, text, cut, "a.yaml", &WHY);
        assert_sound();
        free(text);
    }
}

static void a_file_with_any_byte_changed_does_no_harm(void **state)
{
    (void)state;
    static const char others[] = ":-{}[]\"'#&*!|>%@`\t\n \xff\xc3"
                                 "0x9.,";
    static char text[sizeof FULL];
    for (size_t i = 0; i < sizeof FULL - 1; i++) {
        memcpy(text, FULL, sizeof FULL);
        text[i] = others[i % (sizeof others - 1)];
        reading_try(text);
        assert_sound();
    }
}

/* ---- the piles that come with the program ---- */
struct recipe {
    double volume_m3, water_share, carbon_to_nitrogen;
};

static struct recipe recipe_of(const struct scenario *s)
{
    double wet = 0.0, water = 0.0, carbon = 0.0, nitrogen = 0.0, volume = 0.0;
    for (int i = 0; i < s->layers; i++) {
        wet += s->layer[i].water_kg.mid;
        water += s->layer[i].water_kg.mid;
        for (int j = 0; j < s->layer[i].portions; j++) {
            const struct plan_portion *p = &s->layer[i].portion[j];
            const struct stuff *stuff = &s->stuff[p->stuff];
            double dry = p->wet_kg.mid * (1.0 - p->water_share.mid);
            wet += p->wet_kg.mid;
            water += p->wet_kg.mid - dry;
            carbon += dry * stuff->carbon_share * (1.0 - stuff->inert_carbon_share);
            nitrogen += dry * stuff->nitrogen_share.mid;
            volume += p->volume_m3.mid;
        }
    }
    return (struct recipe){volume, water / wet, carbon / nitrogen};
}

/* [memory] Rynk (ed.), On-Farm Composting Handbook (1992): C:N 25 to 30, up to 40 acceptable, and
 * 50 to 60 % of water; about a cubic metre is the least that keeps its heat (common practice). */
static void shipped_recipes_are_good_ones(void **state)
{
    (void)state;
    static const char *const names[] = {"scenarios/nettle-yard.yaml", "scenarios/gullwater.yaml",
                                        "scenarios/minimal.yaml"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        WHY = (struct trouble){0};
        if (!scenario_read(&READ, names[i], &WHY))
            fail_msg("%s", WHY.text);
        assert_int_equal(READ.show, PLAN_SHOW_USUAL); /* they don't ask for units */
        struct recipe recipe = recipe_of(&READ);
        assert_near(recipe.carbon_to_nitrogen, 30.0, 5.0);
        assert_near(recipe.water_share, 0.575, 0.025);
        assert_near(recipe.volume_m3, 1.35, 0.35);
    }
}

/* what its head comment promises: too dry, and the rest as it should be */
static void the_old_pile_is_dry(void **state)
{
    (void)state;
    WHY = (struct trouble){0};
    if (!scenario_read(&READ, "scenarios/highstone.yaml", &WHY))
        fail_msg("%s", WHY.text);
    assert_true(READ.found.is);
    assert_near(recipe_of(&READ).water_share, 0.40, 1e-9);
    assert_near(recipe_of(&READ).carbon_to_nitrogen, 30.0, 5.0);
}

static void the_demonstration_turns_thrice_before_spring(void **state)
{
    (void)state;
    WHY = (struct trouble){0};
    assert_true(scenario_read(&READ, "scenarios/nettle-yard.yaml", &WHY));
    assert_string_equal(READ.plan[0].name, "three turns");
    assert_int_equal(READ.plan[0].events, 3);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(READ.plan[0].event[i].deed, PLAN_TURN);
        assert_true(READ.start + READ.plan[0].event[i].day
                    < date_number((struct date){2026, 3, 20}));
        assert_int_equal(date_weekday(READ.start + READ.plan[0].event[i].day), 5);
    }
}

/* FULL says `twigs`, `grass clippings` (four times, being repeated) and `straw`; `mixed leaves` and
 * `old bottom soil` are names of the table, `kitchen pail` is one of the keeper's own. */
static void words_that_are_no_names_are_kept_once(void **state)
{
    (void)state;
    static struct scenario scenario;
    struct trouble why = {0};
    assert_true(scenario_read_text(&scenario, FULL, sizeof FULL - 1, "full.yaml", &why));
    assert_int_equal(scenario.takens, 3);
    assert_string_equal(scenario.taken[0].word, "twigs");
    assert_string_equal(scenario.stuff[scenario.taken[0].stuff].name, "twigs and brush");
    assert_string_equal(scenario.taken[1].word, "grass clippings");
    assert_string_equal(scenario.stuff[scenario.taken[1].stuff].name, "fresh grass clippings");
    assert_string_equal(scenario.taken[2].word, "straw");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_file_with_every_key_is_understood),
        cmocka_unit_test(a_dozen_lines_are_enough_and_the_rest_is_assumed_once),
        cmocka_unit_test(words_that_are_no_names_are_kept_once),
        cmocka_unit_test(a_season_has_an_end),
        cmocka_unit_test(a_season_can_look_on_past_its_need),
        cmocka_unit_test(all_mistakes_are_told_in_one_go),
        cmocka_unit_test(more_than_twenty_are_counted),
        cmocka_unit_test_setup_teardown(a_missing_file_and_a_folder_are_named, scratch_open,
                                        scratch_close),
        cmocka_unit_test(a_file_too_long_is_not_read_on),
        cmocka_unit_test_setup_teardown(standard_input_is_called_a_dash, scratch_open,
                                        scratch_close),
        cmocka_unit_test(each_broken_file_is_refused_at_its_place),
        cmocka_unit_test(a_file_cut_at_any_byte_does_no_harm),
        cmocka_unit_test(a_file_with_any_byte_changed_does_no_harm),
        cmocka_unit_test(shipped_recipes_are_good_ones),
        cmocka_unit_test(the_old_pile_is_dry),
        cmocka_unit_test(the_demonstration_turns_thrice_before_spring),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
