/* SPDX-License-Identifier: GPL-3.0-or-later */
/* base/unit.c - everyday units to SI and back.
 *
 * Factors are exact by definition: inch 25.4 mm and pound 0.45359237 kg (international yard and
 * pound agreement, 1959), US gallon 231 cubic inches, imperial gallon 4.54609 L (UK Units of
 * Measurement Regulations 1995), 0 deg C = 273.15 K (SI brochure). [memory; checked in
 * tests/base/test_unit against a general units library]
 * Vessels (bucket, barrow, bag) have no standard: a scenario's measures say how large they are.
 */
#include "base/unit.h"
#include <stdbool.h>
#include <string.h>

#define PI 3.14159265358979323846

const struct unit unit_rows[] = {
    {"L", "l|litre|litres|liter|liters", UNIT_VOLUME, 0.0, 1e-3},
    {"ml", "mL|millilitre|millilitres|milliliter|milliliters", UNIT_VOLUME, 0.0, 1e-6},
    {"m3", "m³|cubic metre|cubic metres|cubic meter|cubic meters", UNIT_VOLUME, 0.0, 1.0},
    {"US gallon", "US gallons|US gal", UNIT_VOLUME, 0.0, 3.785411784e-3},
    {"imperial gallon", "imperial gallons|imperial gal", UNIT_VOLUME, 0.0, 4.54609e-3},
    {"US quart", "US quarts|US qt", UNIT_VOLUME, 0.0, 0.946352946e-3},
    {"cubic foot", "cubic feet|ft3|ft³", UNIT_VOLUME, 0.0, 28.316846592e-3},
    {"cubic yard", "cubic yards|yd3|yd³", UNIT_VOLUME, 0.0, 764.554857984e-3},
    {"kg", "kilo|kilos|kilogram|kilograms", UNIT_MASS, 0.0, 1.0},
    {"g", "gram|grams", UNIT_MASS, 0.0, 1e-3},
    {"lb", "lbs|pound|pounds", UNIT_MASS, 0.0, UNIT_POUND_KG},
    {"t", "tonne|tonnes", UNIT_MASS, 0.0, 1000.0},
    {"m", "metre|metres|meter|meters", UNIT_LENGTH, 0.0, 1.0},
    {"cm", "centimetre|centimetres|centimeter|centimeters", UNIT_LENGTH, 0.0, 1e-2},
    {"mm", "millimetre|millimetres|millimeter|millimeters", UNIT_LENGTH, 0.0, 1e-3},
    {"ft", "foot|feet", UNIT_LENGTH, 0.0, 0.3048},
    {"in", "inch|inches", UNIT_LENGTH, 0.0, 0.0254},
    {"yd", "yard|yards", UNIT_LENGTH, 0.0, 0.9144},
    {"m2", "m²|square metre|square metres|square meter|square meters", UNIT_AREA, 0.0, 1.0},
    {"ft2", "ft²|square foot|square feet", UNIT_AREA, 0.0, 0.09290304},
    {"C", "°C|degC|celsius", UNIT_TEMP, 273.15, 1.0},
    {"F", "°F|degF|fahrenheit", UNIT_TEMP, 459.67, 5.0 / 9.0},
    {"K", "kelvin", UNIT_TEMP, 0.0, 1.0},
    {"min", "minute|minutes", UNIT_TIME, 0.0, 60.0},
    {"h", "hour|hours", UNIT_TIME, 0.0, 3600.0},
    {"day", "days", UNIT_TIME, 0.0, 86400.0},
    {"week", "weeks", UNIT_TIME, 0.0, 604800.0},
    {"%", "percent|per cent", UNIT_SHARE, 0.0, 1e-2},
    {"kg/m3", "kg/m³|kg a cubic metre", UNIT_DENSITY, 0.0, 1.0},
    {"lb/yd3", "lb/yd³|lb a cubic yard", UNIT_DENSITY, 0.0, UNIT_POUND_KG / 0.764554857984},
    {"N", "° N|°N|north", UNIT_LATITUDE, 0.0, PI / 180.0},
    {"S", "° S|°S|south", UNIT_LATITUDE, 0.0, -PI / 180.0},
    {"E", "° E|°E|east", UNIT_LONGITUDE, 0.0, PI / 180.0},
    {"W", "° W|°W|west", UNIT_LONGITUDE, 0.0, -PI / 180.0},
};
const int unit_count = (int)(sizeof unit_rows / sizeof unit_rows[0]);

/* words that would be guessed at, and what to ask instead */
static const struct {
    const char *spellings, *question;
} several[] = {
    {"ton|tons", "write t for 1000 kg, or the pounds: a short ton is 2000 lb, a long ton 2240 lb"},
    {"gallon|gallons|gal|gals", "write US gallon (3.79 L) or imperial gallon (4.55 L)"},
    {"quart|quarts|qt", "write US quart (0.95 L), or litres"},
    {"oz|ounce|ounces|fl oz", "an ounce is a mass or a volume: write g or ml"},
    {"pint|pints|cup|cups|spoon|spoons", "write ml or L"},
    {"month|months|year|years", "months differ in length: write days or weeks"},
    {"M|Kg|KG|Cm|CM|MM|G|T", "capitals matter here: write m, kg, cm, mm, g or t"},
    {"c|f|k", "a temperature takes a capital: C, F or K"},
};

static char lower(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

/* letters, digits, slash and all bytes beyond ASCII go on a word */
static bool goes_on(char letter)
{
    unsigned char byte = (unsigned char)letter;
    char small = lower(letter);
    return byte >= 0x80 || (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9') ||
           small == '/';
}

/* bytes of `text` that one spelling of `length` bytes takes; 0 if it does not fit */
static size_t fits(const char *text, const char *spelling, size_t length)
{
    size_t at = 0;
    for (size_t i = 0; i < length; i++) {
        if (spelling[i] == ' ') {
            if (text[at] != ' ')
                return 0;
            while (text[at] == ' ')
                at++;
        } else if (text[at] == spelling[i] ||
                   (length >= 3 && lower(text[at]) == lower(spelling[i]))) {
            at++;
        } else {
            return 0;
        }
    }
    return goes_on(spelling[length - 1]) && goes_on(text[at]) ? 0 : at;
}

size_t unit_spelt(const char *text, const char *spellings)
{
    size_t most = 0;
    while (*spellings) {
        size_t length = strcspn(spellings, "|");
        size_t taken = length ? fits(text, spellings, length) : 0;
        if (taken > most)
            most = taken;
        spellings += length + (spellings[length] == '|');
    }
    return most;
}

const struct unit *unit_at(const char *text, size_t *length)
{
    const struct unit *found = NULL;
    *length = 0;
    for (int i = 0; i < unit_count; i++) {
        size_t name = unit_spelt(text, unit_rows[i].name);
        size_t also = unit_spelt(text, unit_rows[i].also);
        size_t taken = name > also ? name : also;
        if (taken > *length) {
            *length = taken;
            found = &unit_rows[i];
        }
    }
    return found;
}

const char *unit_question(const char *text)
{
    for (size_t i = 0; i < sizeof several / sizeof several[0]; i++)
        if (unit_spelt(text, several[i].spellings))
            return several[i].question;
    return NULL;
}

double unit_to_SI(const struct unit *unit, double value)
{
    return (value + unit->before) * unit->factor;
}

double unit_from_SI(const struct unit *unit, double value)
{
    return value / unit->factor - unit->before;
}

const char *unit_kind_word(enum unit_kind kind)
{
    static const char *const words[UNIT_KINDS] = {
        [UNIT_VOLUME] = "volume",     [UNIT_MASS] = "mass",         [UNIT_LENGTH] = "length",
        [UNIT_AREA] = "area",         [UNIT_TEMP] = "temperature",  [UNIT_TIME] = "time",
        [UNIT_SHARE] = "share",       [UNIT_DENSITY] = "density",   [UNIT_LATITUDE] = "latitude",
        [UNIT_LONGITUDE] = "longitude",
    };
    return (unsigned)kind < UNIT_KINDS ? words[kind] : "quantity";
}
