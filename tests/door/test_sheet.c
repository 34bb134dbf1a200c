/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tests/door/test_sheet.c - door/sheet: weather files as people and spreadsheets write them. */
#include "door/sheet.h"
#include "lib/scratch.h"

static struct trouble WHY; /* of the last reading; eight kilobytes, so not on each stack */

static bool read_bytes(void **state, const char *text, size_t length, struct weather *weather)
{
    FILE *file = fopen(scratch_path(state, "days.csv"), "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
    WHY = (struct trouble){0};
    return sheet_weather(weather, scratch_path(state, "days.csv"), &WHY);
}

static struct weather take(void **state, const char *text)
{
    struct weather weather;
    if (!read_bytes(state, text, strlen(text), &weather))
        fail_msg("%s", WHY.text);
    return weather;
}

/* Refused, at this place and with these words. */
static void refuse(void **state, const char *text, const char *place, const char *words)
{
    struct weather weather;
    char start[64];
    assert_false(read_bytes(state, text, strlen(text), &weather));
    assert_null(weather.day);
    assert_int_equal(WHY.kind, TROUBLE_INPUT);
    snprintf(start, sizeof start, "days.csv:%s: ", place);
    if (!strstr(WHY.text, start) || !strstr(WHY.text, words))
        fail_msg("%s\nwanted %s and %s", WHY.text, start, words);
}

static void columns_come_in_any_order(void **state)
{
    struct weather weather = take(state, "rain mm,high C,date,low C\n"
                                         "4.5,12,2025-03-01,-3.5\n"
                                         "0,13.25,2025-03-02,+1\n");
    assert_int_equal(weather.days, 2);
    assert_int_equal(weather.start, date_number((struct date){2025, 3, 1}));
    assert_near(weather.day[0].low_K, 269.65, 1e-9);
    assert_near(weather.day[0].high_K, 285.15, 1e-9);
    assert_near(weather.day[0].rain_kg_per_m2, 4.5, 1e-12);
    assert_near(weather.day[1].high_K, 286.4, 1e-9);
    assert_true(isnan(weather.day[0].vapour_Pa)); /* not said: left for the filling */
    assert_true(isnan(weather.day[0].wind_m_per_s));
    assert_true(isnan(weather.day[0].sun_J_per_m2));
    weather_free(&weather);
}

/* [memory] 0 C = 32 F = 273.15 K, inch 25.4 mm, mile 1609.344 m: exact by definition (SI brochure;
 * international yard and pound agreement, 1959). 1 kWh = 3.6 MJ; 1 W/m2 for a day = 86.4 kJ/m2. */
static void units_are_turned_into_si(void **state)
{
    struct weather weather = take(state, "date,low F,high F,rain in,wind mph,sun kWh/m2,"
                                         "vapour hPa\n"
                                         "2024-02-29,32,50,0.5,10,2.5,8.1\n");
    assert_near(weather.day[0].low_K, 273.15, 1e-9);
    assert_near(weather.day[0].high_K, 283.15, 1e-9);
    assert_near(weather.day[0].rain_kg_per_m2, 12.7, 1e-9);
    assert_near(weather.day[0].wind_m_per_s, 10.0 * 1609.344 / 3600.0, 1e-12);
    assert_near(weather.day[0].sun_J_per_m2, 9e6, 1e-6);
    assert_near(weather.day[0].vapour_Pa, 810.0, 1e-9);
    weather_free(&weather);
    weather = take(state, "date,low C,high C,wind km/h,sun W/m2,vapour kPa\n"
                          "2024-02-29,0,10,36,100,0.9\n");
    assert_near(weather.day[0].wind_m_per_s, 10.0, 1e-12);
    assert_near(weather.day[0].sun_J_per_m2, 8.64e6, 1e-6);
    assert_near(weather.day[0].vapour_Pa, 900.0, 1e-9);
    weather_free(&weather);
    weather = take(state, "date,low C,high C,wind kn\n2024-02-29,0,10,9\n"); /* 1852 m an hour */
    assert_near(weather.day[0].wind_m_per_s, 9.0 * 1852.0 / 3600.0, 1e-12);
    weather_free(&weather);
}

/* [seen] Allen et al. (1998), FAO-56, example 5 (eq. 19): 18 to 25 C at a mean of 68 %, 1.78 kPa;
 * example 20 (eq. 14): dew point 14.8 C, 1.68 kPa;
 * example 14 (eq. 47): 3.2 m/s at 10 m, 2.4 at 2 m. */
static void humidity_dew_point_and_high_wind_are_as_in_the_worked_examples(void **state)
{
    struct weather weather = take(state, "date,humidity %,low C,high C,wind at 10 m m/s\n"
                                         "2025-06-01,68,18,25,3.2\n");
    assert_near(weather.day[0].vapour_Pa / 1000.0, 1.78, 0.005);
    assert_near(weather.day[0].wind_m_per_s, 2.4, 0.05);
    weather_free(&weather);
    weather = take(state, "date,low C,high C,dew point C\n2025-06-01,18,25,14.8\n");
    assert_near(weather.day[0].vapour_Pa / 1000.0, 1.68, 0.005);
    weather_free(&weather);
}

static void spreadsheet_habits_are_understood(void **state)
{
    struct weather weather = take(state, "\xEF\xBB\xBF# our station\r\n\r\n"
                                         " Date , Low (\xC2\xB0""C) , \"High (C)\", RAIN mm\r\n"
                                         "# frost at dawn\r\n"
                                         "2025-12-31, -1 ,\"4\", \r\n"
                                         "2026-01-01,0,5,1.\r\n"
                                         ",,,\r\n"
                                         "2026-01-02,.5,5,1");
    assert_int_equal(weather.days, 3);
    assert_true(isnan(weather.day[0].rain_kg_per_m2)); /* an empty field is not a zero */
    assert_near(weather.day[2].low_K, 273.65, 1e-9);
    weather_free(&weather);
}

static void unknown_column_is_refused_with_the_nearest_name(void **state)
{
    refuse(state, "date,low C,high C,rian mm\n", "1:4", "did you mean \"rain\"?");
    refuse(state, "date,low C,high C,vapur kPa\n", "1:4", "did you mean \"vapour\"?");
    refuse(state, "date,low C,high C,tulips\n", "1:4", "humidity are expected");
    refuse(state, "date,low C,high C,\n", "1:4", "isn't known");
}

static void units_missing_or_wrong_are_refused(void **state)
{
    refuse(state, "date,low,high C\n", "1:2", "has no unit; C or F is expected, such as \"low C\"");
    refuse(state, "date,low C,high f\n", "1:3", "C or F is expected");
    refuse(state, "date,low C,high C,rain kg\n", "1:4", "mm or in is expected");
    refuse(state, "date,low C,high C,wind Bft\n", "1:4", "m/s, km/h or mph is expected");
    refuse(state, "date UTC,low C,high C\n", "1:1", "no unit is expected");
}

static void columns_missing_or_twice_are_refused(void **state)
{
    refuse(state, "date,low C,rain mm\n", "1:4", "no column \"high\"");
    refuse(state, "low C,high C\n", "1:3", "no column \"date\"");
    refuse(state, "date,low C,high C,low F\n", "1:4", "tells the same as column 2");
    refuse(state, "date,low C,high C,vapour kPa,dew point C\n", "1:5",
           "tells the same as column 4");
}

static void semicolons_and_decimal_commas_are_explained(void **state)
{
    refuse(state, "date;low C;high C\n", "1:1", "commas between columns and a point in numbers");
    refuse(state, "date,low C,high C\n2025-01-01,\"1,5\",3\n", "2:2", "with a decimal point");
    refuse(state, "date,low C,high C\n2025-01-01,1,5,3\n", "2:4", "4 fields; 3 are expected");
    refuse(state, "date,low C,high C\n2025-01-01,1\n", "2:3", "2 fields; 3 are expected");
}

static void dates_must_be_days_in_order(void **state)
{
    refuse(state, "date,low C,high C\n01.03.2025,1,5\n", "2:1", "2025-10-18 is expected");
    refuse(state, "date,low C,high C\n2025-02-29,1,5\n", "2:1", "date \"2025-02-29\"");
    refuse(state, "date,low C,high C\n2024-02-28,1,5\n2024-03-01,1,5\n", "3:1",
           "2024-03-01 follows 2024-02-28; each day is expected once and in order, here "
           "2024-02-29");
    refuse(state, "date,low C,high C\n2024-02-28,1,5\n\n2024-02-28,1,5\n", "4:1",
           "here 2024-02-29");
    refuse(state, "date,low C,high C\n\n\n2024-2-28,1,5\n", "4:1", "date \"2024-2-28\"");
}

static void numbers_must_be_plain_and_in_range(void **state)
{
    static const char *const bad[] = {"warm", "1e1", "0x1", "nan", "inf", "--1", "1.2.3", "1 2", "",
                                      ".", "1234567890123"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char text[128];
        snprintf(text, sizeof text, "date,low C,high C\n2025-01-01,%s,20\n", bad[i]);
        refuse(state, text, "2:2", "a number is expected");
    }
    refuse(state, "date,low C,high C\n2025-01-01,1,99\n", "2:3", "-80 to 60 C is expected");
    refuse(state, "date,low C,high C,rain mm\n2025-01-01,1,9,-1\n", "2:4", "0 to 2000 mm");
    refuse(state, "date,low C,high C,humidity %\n2025-01-01,1,9,101\n", "2:4", "1 to 100 %");
    refuse(state, "date,high C,low C\n2025-01-01,1,9\n", "2:3", "the low 9 is above the high");
}

static void broken_quotes_are_refused_on_their_line(void **state)
{
    refuse(state, "date,low C,high C\n2025-01-01,\"1,5\n2025-01-02,1,5\n", "2:2", "isn't closed");
    refuse(state, "date,low C,high C\n2025-01-01,1\"0,15\n", "2:2", "quotation mark");
    refuse(state, "date,low C,\"high C", "1:3", "isn't closed");
}

static void files_that_are_no_tables_are_refused(void **state)
{
    struct weather weather;
    static char deep[6000];
    refuse(state, "", "1:1", "no days");
    refuse(state, "# nothing but notes\n\n", "3:1", "no days");
    refuse(state, "date,low C,high C\n", "2:1", "no days");
    assert_false(read_bytes(state, "date,low C\0,high C\n", 19, &weather));
    assert_non_null(strstr(WHY.text, "1:1: a zero byte"));
    memset(deep, ',', sizeof deep - 1);
    refuse(state, deep, "1:1", "longer than 4096 bytes");
    deep[100] = '\0';
    deep[0] = 'x';
    refuse(state, deep, "1:33", "columns; 32 at most");
    refuse(state, "date,low C,high C\r2025-01-01,1,2\r", "1:1", "carriage return");
}

static void absent_file_and_folder_have_their_own_trouble(void **state)
{
    struct weather weather;
    struct trouble *why = &WHY;
    *why = (struct trouble){0};
    assert_false(sheet_weather(&weather, scratch_path(state, "none.csv"), why));
    assert_int_equal(why->kind, TROUBLE_ABSENT);
    *why = (struct trouble){0};
    assert_false(sheet_weather(&weather, ((struct scratch *)*state)->folder, why));
    assert_int_equal(why->kind, TROUBLE_DEVICE);
}

/* A hundred years and a little: refused at the first day too many, in bounded memory. */
static void endless_files_are_refused(void **state)
{
    struct weather weather;
    FILE *file = fopen(scratch_path(state, "long.csv"), "w");
    assert_non_null(file);
    fputs("date,low C,high C\n", file);
    for (int i = 0; i <= WEATHER_MOST_DAYS; i++) {
        char text[DATE_TEXT];
        date_write(i, text);
        fprintf(file, "%s,1,2\n", text);
    }
    assert_int_equal(fclose(file), 0);
    WHY = (struct trouble){0};
    assert_false(sheet_weather(&weather, scratch_path(state, "long.csv"), &WHY));
    assert_non_null(strstr(WHY.text, "more than 36600 days"));
}

/* Any part of a good file is read or refused, never a crash (sanitizers watch). */
static void torn_and_bent_files_never_crash(void **state)
{
    static const char good[] = "date,low C,\"high C\",rain mm,wind at 10 m km/h,humidity %\n"
                               "2025-03-01,-1.5,\"10\",0.5,12,80\n2025-03-02,1,9,,8,70\n";
    static const char put[] = "\",;#\r\n -9\xFF";
    struct weather weather;
    int read = 0, refused = 0;
    for (size_t i = 0; i < sizeof good - 1; i++)
        for (size_t p = 0; p < sizeof put; p++) {
            char text[sizeof good];
            memcpy(text, good, sizeof good);
            size_t length = sizeof good - 1;
            if (p == 0)
                length = i; /* torn */
            else
                text[i] = put[p - 1];
            if (read_bytes(state, text, length, &weather)) {
                read++;
                weather_free(&weather);
            } else {
                refused++;
                assert_true(strlen(WHY.text) > 0);
            }
        }
    assert_true(read > 20 && refused > 400);
}

int main(void)
{
#define SHEET_TEST(test) cmocka_unit_test_setup_teardown(test, scratch_open, scratch_close)
    const struct CMUnitTest tests[] = {
        SHEET_TEST(columns_come_in_any_order),
        SHEET_TEST(units_are_turned_into_si),
        SHEET_TEST(humidity_dew_point_and_high_wind_are_as_in_the_worked_examples),
        SHEET_TEST(spreadsheet_habits_are_understood),
        SHEET_TEST(unknown_column_is_refused_with_the_nearest_name),
        SHEET_TEST(units_missing_or_wrong_are_refused),
        SHEET_TEST(columns_missing_or_twice_are_refused),
        SHEET_TEST(semicolons_and_decimal_commas_are_explained),
        SHEET_TEST(dates_must_be_days_in_order),
        SHEET_TEST(numbers_must_be_plain_and_in_range),
        SHEET_TEST(broken_quotes_are_refused_on_their_line),
        SHEET_TEST(files_that_are_no_tables_are_refused),
        SHEET_TEST(absent_file_and_folder_have_their_own_trouble),
        SHEET_TEST(endless_files_are_refused),
        SHEET_TEST(torn_and_bent_files_never_crash),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
