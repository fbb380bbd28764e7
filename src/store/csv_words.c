/* csv_words.c: tables of the words that builders use over their columns and in them (see csv_words.h).
 *
 * Common practice, no source: collected from how people speak of parts. A title is looked for as it
 * stands; a unit in it has been taken off before (csv_plan.c), but for titles that are nothing but a
 * unit ("mAh", "grams"). Words that mean two things ("item", "type") say so, and the cells decide. */
#include "store/csv_words.h"

#include <ctype.h>
#include <string.h>

#include "base/text.h"
#include "craft/kind.h"
#include "store/reading.h"
#include "store/utf8.h"

#define P PARE_LIST_PARTS
#define W PARE_LIST_WEIGH_INS
#define F PARE_LIST_FLIGHTS
#define S PARE_LIST_STAND
#define L PARE_LIST_LOG

static const pare_csv_target TARGETS[] = {
    {P, "id", PARE_CSV_ID, 0, NULL},
    {P, "name", PARE_CSV_NAME, 0, NULL},
    {P, "kind", PARE_CSV_KIND, 0, NULL},
    {P, "maker", PARE_CSV_TEXT, 0, NULL},
    {P, "mass", PARE_CSV_QUANTITY, PARE_DIM_MASS, NULL},
    {P, "mass_u", PARE_CSV_MASS_U, PARE_DIM_MASS, NULL},
    {P, "known", PARE_CSV_KNOWN, 0, NULL},
    {P, "price", PARE_CSV_MONEY, PARE_DIM_MONEY, "price"},
    {P, "sold_in", PARE_CSV_COUNT, PARE_DIM_COUNT, "price"},
    {P, "shipping", PARE_CSV_MONEY, PARE_DIM_MONEY, "price"},
    {P, "seller", PARE_CSV_TEXT, 0, "price"},
    {P, "date", PARE_CSV_DATE, 0, "price"},
    {P, "owned", PARE_CSV_COUNT, PARE_DIM_COUNT, NULL},
    {P, "sought", PARE_CSV_WORD, 0, NULL},
    {P, "size", PARE_CSV_SIZE, PARE_DIM_LENGTH, "spec"},
    {P, "mount", PARE_CSV_MOUNT, PARE_DIM_LENGTH, "fits"},
    {P, "stator", PARE_CSV_PAIR, PARE_DIM_LENGTH, "spec"},
    {P, "kv", PARE_CSV_QUANTITY, PARE_DIM_KV, "spec"},
    {P, "resistance", PARE_CSV_QUANTITY, PARE_DIM_RESISTANCE, "spec"},
    {P, "no_load", PARE_CSV_QUANTITY, PARE_DIM_CURRENT, "spec"},
    {P, "no_load_at", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, "spec"},
    {P, "volts", PARE_CSV_SPAN, PARE_DIM_VOLTAGE, "spec"},
    {P, "continuous", PARE_CSV_QUANTITY, PARE_DIM_CURRENT, "spec"},
    {P, "burst", PARE_CSV_QUANTITY, PARE_DIM_CURRENT, "spec"},
    {P, "burst_for", PARE_CSV_QUANTITY, PARE_DIM_TIME, "spec"},
    {P, "diameter", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "spec"},
    {P, "pitch", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "spec"},
    {P, "blades", PARE_CSV_COUNT, PARE_DIM_COUNT, "spec"},
    {P, "chord", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "spec"},
    {P, "slow", PARE_CSV_WORD, 0, "spec"},
    {P, "line", PARE_CSV_WORD, 0, "spec"},
    {P, "cells", PARE_CSV_COUNT, PARE_DIM_COUNT, "spec"},
    {P, "capacity", PARE_CSV_QUANTITY, PARE_DIM_CHARGE, "spec"},
    {P, "label_rating", PARE_CSV_QUANTITY, PARE_DIM_NUMBER, "spec"},
    {P, "chemistry", PARE_CSV_WORD, 0, "spec"},
    {P, "power", PARE_CSV_QUANTITY, PARE_DIM_POWER, "spec"},
    {P, "out", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, "spec"},
    {P, "out_current", PARE_CSV_QUANTITY, PARE_DIM_CURRENT, "spec"},
    {P, "efficiency", PARE_CSV_QUANTITY, PARE_DIM_SHARE, "spec"},
    {P, "capacitance", PARE_CSV_QUANTITY, PARE_DIM_CAPACITANCE, "spec"},
    {P, "heat_capacity", PARE_CSV_QUANTITY, PARE_DIM_HEAT, "spec"},
    {P, "gain", PARE_CSV_QUANTITY, PARE_DIM_GAIN, "spec"},
    {P, "band", PARE_CSV_QUANTITY, PARE_DIM_FREQUENCY, "spec"},
    {P, "length", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "spec"},
    {P, "loss", PARE_CSV_QUANTITY, PARE_DIM_GAIN, "spec"},
    {P, "wheelbase", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "spec"},
    {P, "drag_area", PARE_CSV_QUANTITY, PARE_DIM_AREA, "spec"},
    {P, "hand", PARE_CSV_WORD, 0, "spec"},
    {P, "cable", PARE_CSV_TEXT, 0, "spec"},
    {P, "material", PARE_CSV_TEXT, 0, "spec"},
    {P, "bolt_circle", PARE_CSV_FIT, PARE_DIM_LENGTH, "fits"},
    {P, "thread", PARE_CSV_FIT, PARE_DIM_LENGTH, "fits"},
    {P, "shaft", PARE_CSV_FIT, PARE_DIM_LENGTH, "fits"},
    {P, "stack", PARE_CSV_FIT, PARE_DIM_LENGTH, "fits"},
    {P, "propeller", PARE_CSV_SPAN, PARE_DIM_LENGTH, "fits"},
    {P, "connector", PARE_CSV_FIT, PARE_DIM_CURRENT, "fits"},
    {P, "camera", PARE_CSV_FIT, PARE_DIM_LENGTH, "fits"},
    {P, "antenna", PARE_CSV_WORD, 0, "fits"},
    {P, "screw_depth", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "fits"},
    {P, "note", PARE_CSV_TEXT, 0, NULL},

    {W, "craft", PARE_CSV_TEXT, 0, NULL},
    {W, "date", PARE_CSV_DATE, 0, NULL},
    {W, "scale", PARE_CSV_TEXT, 0, NULL},
    {W, "of", PARE_CSV_THINGS, 0, NULL},
    {W, "loadout", PARE_CSV_TEXT, 0, NULL},
    {W, "reads", PARE_CSV_QUANTITY, PARE_DIM_MASS, NULL},
    {W, "promise", PARE_CSV_TEXT, 0, NULL},

    {F, "craft", PARE_CSV_TEXT, 0, NULL},
    {F, "date", PARE_CSV_DATE, 0, NULL},
    {F, "loadout", PARE_CSV_TEXT, 0, NULL},
    {F, "pack", PARE_CSV_TEXT, 0, NULL},
    {F, "which", PARE_CSV_COUNT, PARE_DIM_COUNT, NULL},
    {F, "take_off", PARE_CSV_QUANTITY, PARE_DIM_MASS, NULL},
    {F, "lasted", PARE_CSV_QUANTITY, PARE_DIM_TIME, NULL},
    {F, "put_back", PARE_CSV_QUANTITY, PARE_DIM_CHARGE, NULL},
    {F, "rest_before", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, NULL},
    {F, "rest_after", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, NULL},
    {F, "altitude", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "air"},
    {F, "temperature", PARE_CSV_QUANTITY, PARE_DIM_TEMPERATURE, "air"},
    {F, "pressure", PARE_CSV_QUANTITY, PARE_DIM_PRESSURE, "air"},
    {F, "sea_level_pressure", PARE_CSV_QUANTITY, PARE_DIM_PRESSURE, "air"},
    {F, "humidity", PARE_CSV_QUANTITY, PARE_DIM_SHARE, "air"},
    {F, "flown", PARE_CSV_WORD, 0, NULL},
    {F, "output", PARE_CSV_QUANTITY, PARE_DIM_SHARE, NULL},
    {F, "promise", PARE_CSV_TEXT, 0, NULL},
    {F, "log", PARE_CSV_TEXT, 0, NULL},

    {S, "motor", PARE_CSV_TEXT, 0, NULL},
    {S, "propeller", PARE_CSV_TEXT, 0, NULL},
    {S, "altitude", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "air"},
    {S, "air_temperature", PARE_CSV_QUANTITY, PARE_DIM_TEMPERATURE, "air"},
    {S, "pressure", PARE_CSV_QUANTITY, PARE_DIM_PRESSURE, "air"},
    {S, "sea_level_pressure", PARE_CSV_QUANTITY, PARE_DIM_PRESSURE, "air"},
    {S, "humidity", PARE_CSV_QUANTITY, PARE_DIM_SHARE, "air"},
    {S, "pulse_low", PARE_CSV_QUANTITY, PARE_DIM_TIME, "told"},
    {S, "pulse_high", PARE_CSV_QUANTITY, PARE_DIM_TIME, "told"},
    {S, "poles", PARE_CSV_QUANTITY, PARE_DIM_NUMBER, "told"},
    {S, "throttle", PARE_CSV_QUANTITY, PARE_DIM_SHARE, "columns"},
    {S, "pulse", PARE_CSV_QUANTITY, PARE_DIM_TIME, "columns"},
    {S, "volts", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, "columns"},
    {S, "current", PARE_CSV_QUANTITY, PARE_DIM_CURRENT, "columns"},
    {S, "power", PARE_CSV_QUANTITY, PARE_DIM_POWER, "columns"},
    {S, "thrust", PARE_CSV_QUANTITY, PARE_DIM_FORCE, "columns"},
    {S, "speed", PARE_CSV_QUANTITY, PARE_DIM_ROTATION, "columns"},
    {S, "electrical_speed", PARE_CSV_QUANTITY, PARE_DIM_ROTATION, "columns"},
    {S, "torque", PARE_CSV_QUANTITY, PARE_DIM_TORQUE, "columns"},
    {S, "temperature", PARE_CSV_QUANTITY, PARE_DIM_TEMPERATURE, "columns"},

    {L, "craft", PARE_CSV_TEXT, 0, NULL},
    {L, "date", PARE_CSV_DATE, 0, NULL},
    {L, "loadout", PARE_CSV_TEXT, 0, NULL},
    {L, "pack", PARE_CSV_TEXT, 0, NULL},
    {L, "which", PARE_CSV_COUNT, PARE_DIM_COUNT, NULL},
    {L, "take_off", PARE_CSV_QUANTITY, PARE_DIM_MASS, NULL},
    {L, "put_back", PARE_CSV_QUANTITY, PARE_DIM_CHARGE, NULL},
    {L, "rest_before", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, NULL},
    {L, "rest_after", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, NULL},
    {L, "altitude", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "air"},
    {L, "temperature", PARE_CSV_QUANTITY, PARE_DIM_TEMPERATURE, "air"},
    {L, "pressure", PARE_CSV_QUANTITY, PARE_DIM_PRESSURE, "air"},
    {L, "sea_level_pressure", PARE_CSV_QUANTITY, PARE_DIM_PRESSURE, "air"},
    {L, "humidity", PARE_CSV_QUANTITY, PARE_DIM_SHARE, "air"},
    {L, "flown", PARE_CSV_WORD, 0, NULL},
    {L, "time", PARE_CSV_QUANTITY, PARE_DIM_TIME, "columns"},
    {L, "volts", PARE_CSV_QUANTITY, PARE_DIM_VOLTAGE, "columns"},
    {L, "current", PARE_CSV_QUANTITY, PARE_DIM_CURRENT, "columns"},
    {L, "throttle", PARE_CSV_QUANTITY, PARE_DIM_SHARE, "columns"},
    {L, "height", PARE_CSV_QUANTITY, PARE_DIM_LENGTH, "columns"},
};

/* Titles other than the targets' own names, by list; a unit where the title is one. */
static const struct {
    pare_list_kind list;
    const char *title, *target, *unit;
    bool or_kind;
} TITLES[] = {
    {P, "part id", "id", NULL, false},
    {P, "key", "id", NULL, false},
    {P, "item", "name", NULL, true},
    {P, "part", "name", NULL, true},
    {P, "component", "name", NULL, true},
    {P, "what", "name", NULL, true},
    {P, "thing", "name", NULL, true},
    {P, "type", "name", NULL, true},
    {P, "description", "name", NULL, false},
    {P, "model", "name", NULL, false},
    {P, "product", "name", NULL, false},
    {P, "part name", "name", NULL, false},
    {P, "item name", "name", NULL, false},
    {P, "title", "name", NULL, false},
    {P, "category", "kind", NULL, true},
    {P, "group", "kind", NULL, true},
    {P, "class", "kind", NULL, true},
    {P, "part type", "kind", NULL, false},
    {P, "make", "maker", NULL, false},
    {P, "brand", "maker", NULL, false},
    {P, "manufacturer", "maker", NULL, false},
    {P, "mfr", "maker", NULL, false},
    {P, "mfg", "maker", NULL, false},
    {P, "made by", "maker", NULL, false},
    {P, "weight", "mass", NULL, false},
    {P, "wt", "mass", NULL, false},
    {P, "weighs", "mass", NULL, false},
    {P, "each weighs", "mass", NULL, false},
    {P, "unit weight", "mass", NULL, false},
    {P, "weight each", "mass", NULL, false},
    {P, "mass each", "mass", NULL, false},
    {P, "grams", "mass", "g", false},
    {P, "gram", "mass", "g", false},
    {P, "g", "mass", "g", false},
    {P, "gewicht", "mass", NULL, false},
    {P, "masse", "mass", NULL, false},
    {P, "poids", "mass", NULL, false},
    {P, "uncertainty", "mass_u", NULL, false},
    {P, "mass uncertainty", "mass_u", NULL, false},
    {P, "how known", "known", NULL, false},
    {P, "cost", "price", NULL, false},
    {P, "price each", "price", NULL, false},
    {P, "unit price", "price", NULL, false},
    {P, "cost each", "price", NULL, false},
    {P, "eur", "price", NULL, false},
    {P, "usd", "price", NULL, false},
    {P, "gbp", "price", NULL, false},
    {P, "preis", "price", NULL, false},
    {P, "prix", "price", NULL, false},
    {P, "pack of", "sold_in", NULL, false},
    {P, "set of", "sold_in", NULL, false},
    {P, "per pack", "sold_in", NULL, false},
    {P, "per set", "sold_in", NULL, false},
    {P, "postage", "shipping", NULL, false},
    {P, "shop", "seller", NULL, false},
    {P, "store", "seller", NULL, false},
    {P, "vendor", "seller", NULL, false},
    {P, "supplier", "seller", NULL, false},
    {P, "bought from", "seller", NULL, false},
    {P, "bought at", "seller", NULL, false},
    {P, "bought", "date", NULL, false},
    {P, "price date", "date", NULL, false},
    {P, "date bought", "date", NULL, false},
    {P, "bought on", "date", NULL, false},
    {P, "qty", "owned", NULL, false},
    {P, "quantity", "owned", NULL, false},
    {P, "amount", "owned", NULL, false},
    {P, "amount owned", "owned", NULL, false},
    {P, "number owned", "owned", NULL, false},
    {P, "have", "owned", NULL, false},
    {P, "i have", "owned", NULL, false},
    {P, "stock", "owned", NULL, false},
    {P, "in stock", "owned", NULL, false},
    {P, "pcs", "owned", NULL, false},
    {P, "pieces", "owned", NULL, false},
    {P, "count", "owned", NULL, false},
    {P, "how many", "owned", NULL, false},
    {P, "anzahl", "owned", NULL, false},
    {P, "wanted", "sought", NULL, false},
    {P, "stator size", "stator", NULL, false},
    {P, "motor size", "stator", NULL, false},
    {P, "motor kv", "kv", NULL, false},
    {P, "rpm v", "kv", NULL, false},
    {P, "ir", "resistance", NULL, false},
    {P, "internal resistance", "resistance", NULL, false},
    {P, "winding resistance", "resistance", NULL, false},
    {P, "winding", "resistance", NULL, false},
    {P, "ri", "resistance", NULL, false},
    {P, "rm", "resistance", NULL, false},
    {P, "no load current", "no_load", NULL, false},
    {P, "idle current", "no_load", NULL, false},
    {P, "i0", "no_load", NULL, false},
    {P, "io", "no_load", NULL, false},
    {P, "no load voltage", "no_load_at", NULL, false},
    {P, "voltage", "volts", NULL, false},
    {P, "input voltage", "volts", NULL, false},
    {P, "input", "volts", NULL, false},
    {P, "max voltage", "volts", NULL, false},
    {P, "v", "volts", "V", false},
    {P, "current", "continuous", NULL, false},
    {P, "continuous current", "continuous", NULL, false},
    {P, "cont current", "continuous", NULL, false},
    {P, "cont", "continuous", NULL, false},
    {P, "amps", "continuous", "A", false},
    {P, "amp", "continuous", "A", false},
    {P, "a", "continuous", "A", false},
    {P, "burst current", "burst", NULL, false},
    {P, "peak current", "burst", NULL, false},
    {P, "max current", "burst", NULL, false},
    {P, "peak", "burst", NULL, false},
    {P, "burst time", "burst_for", NULL, false},
    {P, "dia", "diameter", NULL, false},
    {P, "prop diameter", "diameter", NULL, false},
    {P, "prop pitch", "pitch", NULL, false},
    {P, "blade count", "blades", NULL, false},
    {P, "number of blades", "blades", NULL, false},
    {P, "s", "cells", NULL, false},
    {P, "cell", "cells", NULL, false},
    {P, "cell count", "cells", NULL, false},
    {P, "lipo cells", "cells", NULL, false},
    {P, "cells in series", "cells", NULL, false},
    {P, "mah", "capacity", "mAh", false},
    {P, "ah", "capacity", "Ah", false},
    {P, "cap", "capacity", NULL, false},
    {P, "kapazitat", "capacity", NULL, false},
    {P, "kapazitaet", "capacity", NULL, false},
    {P, "capacite", "capacity", NULL, false},
    {P, "c rating", "label_rating", NULL, false},
    {P, "c rate", "label_rating", NULL, false},
    {P, "c", "label_rating", NULL, false},
    {P, "discharge", "label_rating", NULL, false},
    {P, "discharge rate", "label_rating", NULL, false},
    {P, "chem", "chemistry", NULL, false},
    {P, "power draw", "power", NULL, false},
    {P, "consumption", "power", NULL, false},
    {P, "watts", "power", "W", false},
    {P, "w", "power", "W", false},
    {P, "bec", "out", NULL, false},
    {P, "output", "out", NULL, false},
    {P, "output voltage", "out", NULL, false},
    {P, "bec voltage", "out", NULL, false},
    {P, "bec current", "out_current", NULL, false},
    {P, "output current", "out_current", NULL, false},
    {P, "uf", "capacitance", "uF", false},
    {P, "dbi", "gain", "dB", false},
    {P, "frequency", "band", NULL, false},
    {P, "freq", "band", NULL, false},
    {P, "cable length", "length", NULL, false},
    {P, "motor to motor", "wheelbase", NULL, false},
    {P, "wheel base", "wheelbase", NULL, false},
    {P, "frame size", "wheelbase", NULL, false},
    {P, "cda", "drag_area", NULL, false},
    {P, "polarisation", "hand", NULL, false},
    {P, "polarization", "hand", NULL, false},
    {P, "coax", "cable", NULL, false},
    {P, "mounting", "mount", NULL, false},
    {P, "mount pattern", "mount", NULL, false},
    {P, "mounting pattern", "mount", NULL, false},
    {P, "hole pattern", "mount", NULL, false},
    {P, "holes", "mount", NULL, false},
    {P, "bolt pattern", "bolt_circle", NULL, false},
    {P, "motor mount", "bolt_circle", NULL, false},
    {P, "screws", "thread", NULL, false},
    {P, "bore", "shaft", NULL, false},
    {P, "plug", "connector", NULL, false},
    {P, "max prop", "propeller", NULL, false},
    {P, "prop", "propeller", NULL, false},
    {P, "rf connector", "antenna", NULL, false},
    {P, "antenna connector", "antenna", NULL, false},
    {P, "dimensions", "size", NULL, false},
    {P, "prop size", "size", NULL, false},
    {P, "notes", "note", NULL, false},
    {P, "comment", "note", NULL, false},
    {P, "comments", "note", NULL, false},
    {P, "remark", "note", NULL, false},
    {P, "remarks", "note", NULL, false},

    {W, "quad", "craft", NULL, false},
    {W, "aircraft", "craft", NULL, false},
    {W, "copter", "craft", NULL, false},
    {W, "day", "date", NULL, false},
    {W, "weighed", "of", NULL, false},
    {W, "what", "of", NULL, false},
    {W, "item", "of", NULL, false},
    {W, "items", "of", NULL, false},
    {W, "on scale", "of", NULL, false},
    {W, "part", "of", NULL, false},
    {W, "reading", "reads", NULL, false},
    {W, "scale reading", "reads", NULL, false},
    {W, "weight", "reads", NULL, false},
    {W, "mass", "reads", NULL, false},
    {W, "grams", "reads", "g", false},
    {W, "g", "reads", "g", false},
    {W, "setup", "loadout", NULL, false},

    {F, "quad", "craft", NULL, false},
    {F, "aircraft", "craft", NULL, false},
    {F, "copter", "craft", NULL, false},
    {F, "day", "date", NULL, false},
    {F, "setup", "loadout", NULL, false},
    {F, "battery", "pack", NULL, false},
    {F, "lipo", "pack", NULL, false},
    {F, "pack no", "which", NULL, false},
    {F, "which pack", "which", NULL, false},
    {F, "auw", "take_off", NULL, false},
    {F, "all up", "take_off", NULL, false},
    {F, "take off mass", "take_off", NULL, false},
    {F, "take off weight", "take_off", NULL, false},
    {F, "weight", "take_off", NULL, false},
    {F, "mass", "take_off", NULL, false},
    {F, "duration", "lasted", NULL, false},
    {F, "time", "lasted", NULL, false},
    {F, "flight time", "lasted", NULL, false},
    {F, "airtime", "lasted", NULL, false},
    {F, "minutes", "lasted", "min", false},
    {F, "min", "lasted", "min", false},
    {F, "charged", "put_back", NULL, false},
    {F, "charge", "put_back", NULL, false},
    {F, "mah back", "put_back", "mAh", false},
    {F, "mah used", "put_back", "mAh", false},
    {F, "mah", "put_back", "mAh", false},
    {F, "volts before", "rest_before", "V", false},
    {F, "voltage before", "rest_before", NULL, false},
    {F, "start voltage", "rest_before", NULL, false},
    {F, "volts after", "rest_after", "V", false},
    {F, "voltage after", "rest_after", NULL, false},
    {F, "end voltage", "rest_after", NULL, false},
    {F, "temp", "temperature", NULL, false},
    {F, "style", "flown", NULL, false},
    {F, "throttle", "output", NULL, false},
    {F, "hover throttle", "output", NULL, false},
    {F, "hover output", "output", NULL, false},
    {F, "air pressure", "pressure", NULL, false},
    {F, "qnh", "sea_level_pressure", NULL, false},

    {S, "prop", "propeller", NULL, false},
    {S, "throttle position", "throttle", NULL, false},
    {S, "thr", "throttle", NULL, false},
    {S, "throttle percent", "throttle", "%", false},
    {S, "esc throttle", "throttle", NULL, false},
    {S, "esc signal", "pulse", NULL, false},
    {S, "esc pulse", "pulse", NULL, false},
    {S, "throttle pulse", "pulse", NULL, false},
    {S, "pulse width", "pulse", NULL, false},
    {S, "pwm", "pulse", NULL, false},
    {S, "signal", "pulse", NULL, false},
    {S, "servo signal", "pulse", NULL, false},
    {S, "voltage", "volts", NULL, false},
    {S, "v", "volts", "V", false},
    {S, "input voltage", "volts", NULL, false},
    {S, "supply voltage", "volts", NULL, false},
    {S, "battery voltage", "volts", NULL, false},
    {S, "pack voltage", "volts", NULL, false},
    {S, "esc voltage", "volts", NULL, false},
    {S, "spannung", "volts", NULL, false},
    {S, "tension", "volts", NULL, false},
    {S, "amps", "current", "A", false},
    {S, "a", "current", "A", false},
    {S, "input current", "current", NULL, false},
    {S, "battery current", "current", NULL, false},
    {S, "supply current", "current", NULL, false},
    {S, "esc current", "current", NULL, false},
    {S, "strom", "current", NULL, false},
    {S, "courant", "current", NULL, false},
    {S, "watts", "power", "W", false},
    {S, "w", "power", "W", false},
    {S, "electrical power", "power", NULL, false},
    {S, "electric power", "power", NULL, false},
    {S, "input power", "power", NULL, false},
    {S, "power in", "power", NULL, false},
    {S, "leistung", "power", NULL, false},
    {S, "pull", "thrust", NULL, false},
    {S, "lift", "thrust", NULL, false},
    {S, "static thrust", "thrust", NULL, false},
    {S, "thrust force", "thrust", NULL, false},
    {S, "schub", "thrust", NULL, false},
    {S, "poussee", "thrust", NULL, false},
    {S, "rpm", "speed", "rpm", false},
    {S, "motor rpm", "speed", "rpm", false},
    {S, "prop rpm", "speed", "rpm", false},
    {S, "propeller rpm", "speed", "rpm", false},
    {S, "shaft rpm", "speed", "rpm", false},
    {S, "motor speed", "speed", NULL, false},
    {S, "shaft speed", "speed", NULL, false},
    {S, "propeller speed", "speed", NULL, false},
    {S, "rotor speed", "speed", NULL, false},
    {S, "rotation speed", "speed", NULL, false},
    {S, "rotational speed", "speed", NULL, false},
    {S, "optical speed", "speed", NULL, false},
    {S, "motor optical speed", "speed", NULL, false},
    {S, "drehzahl", "speed", NULL, false},
    {S, "electrical rpm", "electrical_speed", "rpm", false},
    {S, "erpm", "electrical_speed", "rpm", false},
    {S, "motor electrical speed", "electrical_speed", NULL, false},
    {S, "electric speed", "electrical_speed", NULL, false},
    {S, "moment", "torque", NULL, false},
    {S, "shaft torque", "torque", NULL, false},
    {S, "motor torque", "torque", NULL, false},
    {S, "drehmoment", "torque", NULL, false},
    {S, "couple", "torque", NULL, false},
    {S, "temp", "temperature", NULL, false},
    {S, "motor temp", "temperature", NULL, false},
    {S, "motor temperature", "temperature", NULL, false},
    {S, "air temp", "air_temperature", NULL, false},
    {S, "ambient temperature", "air_temperature", NULL, false},
    {S, "ambient temp", "air_temperature", NULL, false},
    {S, "ambient", "air_temperature", NULL, false},
    {S, "elevation", "altitude", NULL, false},
    {S, "air pressure", "pressure", NULL, false},
    {S, "ambient pressure", "pressure", NULL, false},
    {S, "qnh", "sea_level_pressure", NULL, false},
    {S, "relative humidity", "humidity", NULL, false},
    {S, "height", "altitude", NULL, false},

    /* What a log calls volts, current and throttle, a stand does too. */
    {L, "t", "time", NULL, false},
    {L, "s", "time", "s", false},
    {L, "ms", "time", "ms", false},
    {L, "us", "time", "us", false},
    {L, "seconds", "time", "s", false},
    {L, "millis", "time", "ms", false},
    {L, "milliseconds", "time", "ms", false},
    {L, "micros", "time", "us", false},
    {L, "microseconds", "time", "us", false},
    {L, "timestamp", "time", NULL, false},
    {L, "elapsed", "time", NULL, false},
    {L, "elapsed time", "time", NULL, false},
    {L, "time of day", "time", NULL, false},
    {L, "zeit", "time", NULL, false},
    {L, "temps", "time", NULL, false},
    {L, "altitude", "height", NULL, false},
    {L, "alt", "height", NULL, false},
    {L, "baro altitude", "height", NULL, false},
    {L, "relative altitude", "height", NULL, false},
    {L, "hohe", "height", NULL, false},
    {L, "day", "date", NULL, false},
    {L, "battery", "pack", NULL, false},
};

static const struct {
    const char *words;
    pare_kind kind;
} KINDS[] = {
    {"motors", PARE_MOTOR},
    {"brushless motor", PARE_MOTOR},
    {"prop", PARE_PROPELLER},
    {"props", PARE_PROPELLER},
    {"propellers", PARE_PROPELLER},
    {"prop nut", PARE_PROPELLER_NUT},
    {"nut", PARE_PROPELLER_NUT},
    {"nuts", PARE_PROPELLER_NUT},
    {"esc", PARE_ESC_ONE},
    {"escs", PARE_ESC_ONE},
    {"single esc", PARE_ESC_ONE},
    {"esc single", PARE_ESC_ONE},
    {"4in1", PARE_ESC_FOUR},
    {"4 in 1", PARE_ESC_FOUR},
    {"esc 4in1", PARE_ESC_FOUR},
    {"esc 4 in 1", PARE_ESC_FOUR},
    {"4in1 esc", PARE_ESC_FOUR},
    {"4 in 1 esc", PARE_ESC_FOUR},
    {"four in one esc", PARE_ESC_FOUR},
    {"fc", PARE_FLIGHT_CONTROLLER},
    {"flight control", PARE_FLIGHT_CONTROLLER},
    {"controller", PARE_FLIGHT_CONTROLLER},
    {"aio", PARE_CONTROLLER_WITH_ESC},
    {"aio fc", PARE_CONTROLLER_WITH_ESC},
    {"fc aio", PARE_CONTROLLER_WITH_ESC},
    {"fc esc", PARE_CONTROLLER_WITH_ESC},
    {"bec", PARE_REGULATOR},
    {"voltage regulator", PARE_REGULATOR},
    {"regulators", PARE_REGULATOR},
    {"lipo", PARE_PACK},
    {"lipos", PARE_PACK},
    {"lihv", PARE_PACK},
    {"liion", PARE_PACK},
    {"li ion", PARE_PACK},
    {"battery", PARE_PACK},
    {"batteries", PARE_PACK},
    {"packs", PARE_PACK},
    {"akku", PARE_PACK},
    {"plug", PARE_CONNECTOR},
    {"connectors", PARE_CONNECTOR},
    {"cap", PARE_CAPACITOR},
    {"caps", PARE_CAPACITOR},
    {"capacitors", PARE_CAPACITOR},
    {"standoffs", PARE_STANDOFF},
    {"stand off", PARE_STANDOFF},
    {"spacer", PARE_STANDOFF},
    {"cam", PARE_CAMERA},
    {"fpv cam", PARE_CAMERA},
    {"fpv camera", PARE_CAMERA},
    {"cameras", PARE_CAMERA},
    {"action cam", PARE_ACTION_CAMERA},
    {"hd cam", PARE_ACTION_CAMERA},
    {"mount", PARE_HOLDER},
    {"holders", PARE_HOLDER},
    {"cam mount", PARE_HOLDER},
    {"camera mount", PARE_HOLDER},
    {"vtx", PARE_VIDEO_TRANSMITTER},
    {"video tx", PARE_VIDEO_TRANSMITTER},
    {"video", PARE_VIDEO_TRANSMITTER},
    {"ant", PARE_ANTENNA},
    {"antennas", PARE_ANTENNA},
    {"antennae", PARE_ANTENNA},
    {"adaptor", PARE_ADAPTER},
    {"pigtails", PARE_PIGTAIL},
    {"rx", PARE_RECEIVER},
    {"receivers", PARE_RECEIVER},
    {"gps module", PARE_GPS},
    {"beeper", PARE_BUZZER},
    {"buzzers", PARE_BUZZER},
    {"straps", PARE_STRAP},
    {"battery strap", PARE_STRAP},
    {"lipo strap", PARE_STRAP},
    {"battery pad", PARE_PAD},
    {"lipo pad", PARE_PAD},
    {"pads", PARE_PAD},
    {"ties", PARE_TIE},
    {"zip tie", PARE_TIE},
    {"zip ties", PARE_TIE},
    {"cable tie", PARE_TIE},
    {"cable ties", PARE_TIE},
    {"bumpers", PARE_BUMPER},
    {"print", PARE_PRINTED},
    {"prints", PARE_PRINTED},
    {"3d print", PARE_PRINTED},
    {"tpu", PARE_PRINTED},
    {"frames", PARE_FRAME},
    {"frame kit", PARE_FRAME},
    {"misc", PARE_OTHER},
    {"hardware", PARE_OTHER},
};

static const struct {
    const char *typed; /* in small letters */
    pare_dimension dimension;
    const char *unit;
} UNITS[] = {
    {"gr", PARE_DIM_MASS, "g"},
    {"gm", PARE_DIM_MASS, "g"},
    {"gms", PARE_DIM_MASS, "g"},
    {"gram", PARE_DIM_MASS, "g"},
    {"grams", PARE_DIM_MASS, "g"},
    {"gramm", PARE_DIM_MASS, "g"},
    {"grammes", PARE_DIM_MASS, "g"},
    {"ounce", PARE_DIM_MASS, "oz"},
    {"ounces", PARE_DIM_MASS, "oz"},
    {"inches", PARE_DIM_LENGTH, "in"},
    {"in.", PARE_DIM_LENGTH, "in"},
    {"zoll", PARE_DIM_LENGTH, "in"},
    {"''", PARE_DIM_LENGTH, "in"},
    {"\xE2\x80\x9D", PARE_DIM_LENGTH, "in"},
    {"mah", PARE_DIM_CHARGE, "mAh"},
    {"ah", PARE_DIM_CHARGE, "Ah"},
    {"a", PARE_DIM_CURRENT, "A"},
    {"amp", PARE_DIM_CURRENT, "A"},
    {"amps", PARE_DIM_CURRENT, "A"},
    {"v", PARE_DIM_VOLTAGE, "V"},
    {"volt", PARE_DIM_VOLTAGE, "V"},
    {"volts", PARE_DIM_VOLTAGE, "V"},
    {"w", PARE_DIM_POWER, "W"},
    {"watt", PARE_DIM_POWER, "W"},
    {"watts", PARE_DIM_POWER, "W"},
    {"sec", PARE_DIM_TIME, "s"},
    {"secs", PARE_DIM_TIME, "s"},
    {"mins", PARE_DIM_TIME, "min"},
    {"minutes", PARE_DIM_TIME, "min"},
    {"milliohm", PARE_DIM_RESISTANCE, "mohm"},
    {"milliohms", PARE_DIM_RESISTANCE, "mohm"},
    {"mohms", PARE_DIM_RESISTANCE, "mohm"},
    {"ohms", PARE_DIM_RESISTANCE, "ohm"},
    {"uf", PARE_DIM_CAPACITANCE, "uF"},
    {"ghz", PARE_DIM_FREQUENCY, "GHz"},
    {"mhz", PARE_DIM_FREQUENCY, "MHz"},
    {"dbi", PARE_DIM_GAIN, "dBi"},
    {"db", PARE_DIM_GAIN, "dB"},
    {"g", PARE_DIM_FORCE, "gf"},
    {"gr", PARE_DIM_FORCE, "gf"},
    {"gram", PARE_DIM_FORCE, "gf"},
    {"grams", PARE_DIM_FORCE, "gf"},
    {"kg", PARE_DIM_FORCE, "kgf"},
    {"n", PARE_DIM_FORCE, "N"},
    {"lb", PARE_DIM_FORCE, "lbf"},
    {"lbs", PARE_DIM_FORCE, "lbf"},
    {"oz", PARE_DIM_FORCE, "ozf"},
    {"nm", PARE_DIM_TORQUE, "N m"},
    {"n.m", PARE_DIM_TORQUE, "N m"},
    {"n*m", PARE_DIM_TORQUE, "N m"},
    {"n-m", PARE_DIM_TORQUE, "N m"},
    {"n\xC2\xB7m", PARE_DIM_TORQUE, "N m"},
    {"mn\xC2\xB7m", PARE_DIM_TORQUE, "mN m"},
    {"mnm", PARE_DIM_TORQUE, "mN m"},
    {"ncm", PARE_DIM_TORQUE, "N cm"},
    {"us", PARE_DIM_TIME, "us"},
    {"\xC2\xB5s", PARE_DIM_TIME, "us"}, /* the micro sign, and the Greek letter */
    {"\xCE\xBCs", PARE_DIM_TIME, "us"},
    {"\xC2\xB0"
     "c",
     PARE_DIM_TEMPERATURE, "degC"},
    {"\xC2\xBA"
     "c",
     PARE_DIM_TEMPERATURE, "degC"},
    {"\xC2\xB0"
     "f",
     PARE_DIM_TEMPERATURE, "degF"},
    {"celsius", PARE_DIM_TEMPERATURE, "degC"},
    {"c", PARE_DIM_NUMBER, ""},
    {"percent", PARE_DIM_SHARE, "%"},
    {"rpm", PARE_DIM_ROTATION, "rpm"},
    {"r/min", PARE_DIM_ROTATION, "rpm"},
    {"1/min", PARE_DIM_ROTATION, "rpm"},
    {"u/min", PARE_DIM_ROTATION, "rpm"},
    {"rpm/v", PARE_DIM_KV, ""},
    {"kv", PARE_DIM_KV, ""},
};

const char *pare_csv_target_says(const pare_csv_target *target)
{
    static const struct {
        const char *name, *says;
    } others[] = {{"pulse", "throttle"}, {"electrical_speed", "speed"}};
    for (size_t i = 0; i < PARE_COUNT(others) && target->list == S; i++)
        if (strcmp(target->name, others[i].name) == 0)
            return others[i].says;
    return target->name;
}

const pare_csv_target *pare_csv_target_named(pare_list_kind list, const char *name)
{
    for (size_t i = 0; i < PARE_COUNT(TARGETS); i++)
        if (TARGETS[i].list == list && strcmp(TARGETS[i].name, name) == 0)
            return &TARGETS[i];
    return NULL;
}

size_t pare_csv_target_names(pare_list_kind list, const char *names[PARE_CSV_TARGETS])
{
    size_t count = 0;
    for (size_t i = 0; i < PARE_COUNT(TARGETS) && count < PARE_CSV_TARGETS; i++)
        if (TARGETS[i].list == list)
            names[count++] = TARGETS[i].name;
    return count;
}

/* A target's own name, with blanks for '_', as a title is tidied. */
static bool is_own_name(const pare_csv_target *target, const char *title)
{
    char name[64];
    pare_csv_tidy(target->name, name, sizeof name);
    return strcmp(name, title) == 0;
}

static const pare_csv_target *title_of(pare_list_kind list, const char *title, const char **unit,
                                       bool *or_kind)
{
    for (size_t i = 0; i < PARE_COUNT(TITLES); i++)
        if (TITLES[i].list == list && strcmp(TITLES[i].title, title) == 0) {
            *unit = TITLES[i].unit;
            *or_kind = TITLES[i].or_kind;
            return pare_csv_target_named(list, TITLES[i].target);
        }
    for (size_t i = 0; i < PARE_COUNT(TARGETS); i++)
        if (TARGETS[i].list == list && is_own_name(&TARGETS[i], title))
            return &TARGETS[i];
    return NULL;
}

const pare_csv_target *pare_csv_title(pare_list_kind list, const char *title, const char **unit,
                                      bool *or_kind)
{
    *unit = NULL;
    *or_kind = false;
    const pare_csv_target *found = title_of(list, title, unit, or_kind);
    if (found || list != L)
        return found;
    found = title_of(S, title, unit, or_kind);
    return found && found->map && strcmp(found->map, "columns") == 0
               ? pare_csv_target_named(L, found->name)
               : NULL;
}

const char *pare_csv_title_near(pare_list_kind list, const char *title)
{
    const char *names[PARE_COUNT(TARGETS) + PARE_COUNT(TITLES)];
    size_t count = pare_csv_target_names(list, names);
    for (size_t i = 0; i < PARE_COUNT(TITLES); i++)
        if (TITLES[i].list == list && strlen(TITLES[i].title) > 3)
            names[count++] = TITLES[i].title;
    return strlen(title) > 3 ? pare_nearest(title, count, names) : NULL;
}

/* Whether a kind's name, which begins with a letter, is those tidied words. Every cell of a table that is looked
 * at is asked about every kind, and most differ in that letter. */
static bool is_tidied(const char *name, const char *words)
{
    char tidy[64];
    if (tolower((unsigned char)name[0]) != words[0])
        return false;
    pare_csv_tidy(name, tidy, sizeof tidy);
    return strcmp(tidy, words) == 0;
}

int pare_csv_kind(const char *words)
{
    for (size_t i = 0; i < PARE_COUNT(KINDS); i++)
        if (strcmp(KINDS[i].words, words) == 0)
            return (int)KINDS[i].kind;
    for (int kind = 0; kind < PARE_KINDS; kind++)
        if (is_tidied(pare_kind_name((pare_kind)kind), words) ||
            is_tidied(pare_kind_words((pare_kind)kind), words))
            return kind;
    return -1;
}

const char *pare_csv_kind_chemistry(const char *words)
{
    if (strcmp(words, "lihv") == 0)
        return "lihv";
    return strcmp(words, "liion") == 0 || strcmp(words, "li ion") == 0 ? "liion" : NULL;
}

const char *pare_csv_kind_near(const char *words)
{
    const char *names[PARE_COUNT(KINDS) + PARE_KINDS];
    size_t count = 0;
    for (int kind = 0; kind < PARE_KINDS; kind++)
        names[count++] = pare_kind_name((pare_kind)kind);
    for (size_t i = 0; i < PARE_COUNT(KINDS); i++)
        if (strlen(KINDS[i].words) > 3)
            names[count++] = KINDS[i].words;
    return strlen(words) > 2 ? pare_nearest(words, count, names) : NULL;
}

static bool same_but_case(const char *typed, const char *small)
{
    for (; *typed && *small; typed++, small++) {
        const bool capital = *typed >= 'A' && *typed <= 'Z';
        if ((capital ? *typed + ('a' - 'A') : *typed) != *small)
            return false;
    }
    return *typed == *small;
}

const char *pare_csv_unit(const char *typed, pare_dimension dimension)
{
    for (size_t i = 0; i < PARE_COUNT(UNITS); i++)
        if (UNITS[i].dimension == dimension && same_but_case(typed, UNITS[i].typed))
            return UNITS[i].unit;
    return typed;
}

bool pare_csv_is_nothing(const char *cell)
{
    static const char *const words[] = {
        "",        "-",  "--",           "---",          "?",    "??",  "???",
        "n/a",     "na", "n.a.",         "none",         "nil",  "tbd", "tba",
        "unknown", ".",  "\xE2\x80\x93", "\xE2\x80\x94", "unkn", "#n/a"};
    /* Asked of every cell: most begin with something else. */
    if (*cell && !strchr("-?.#nNtTuU\xE2", *cell))
        return false;
    for (size_t i = 0; i < PARE_COUNT(words); i++)
        if (same_but_case(cell, words[i]))
            return true;
    return false;
}

bool pare_csv_is_total(const char *cell)
{
    static const char *const words[] = {"total",        "totals",      "sum",    "subtotal",
                                        "sub total",    "grand total", "gesamt", "summe",
                                        "all together", "altogether"};
    char tidy[32];
    /* Asked of every row. */
    if (!*cell || !strchr(" \"'*>tTsSgGaA", *cell))
        return false;
    pare_csv_tidy(cell, tidy, sizeof tidy);
    for (size_t i = 0; i < PARE_COUNT(words); i++)
        if (strcmp(tidy, words[i]) == 0)
            return true;
    return false;
}

/* The plain letter of a Latin one with an accent (U+00C0 to U+00FF), or 0. */
static char plain_letter(unsigned code)
{
    static const char plain[] =
        "aaaaaaaceeeeiiiidnooooo\0ouuuuytsaaaaaaaceeeeiiiidnooooo\0ouuuuyty";
    return code >= 0xc0 && code <= 0xff ? plain[code - 0xc0] : '\0';
}

void pare_csv_tidy(const char *text, char *tidy, size_t size)
{
    size_t used = 0;
    bool blank = false;
    const unsigned char *end = (const unsigned char *)text + strlen(text);
    for (const unsigned char *c = (const unsigned char *)text; c < end;) {
        unsigned code = 0;
        const size_t length = pare_utf8_character(c, (size_t)(end - c), &code);
        c += length ? length : 1;
        char plain = code < 0x80 ? (char)code : plain_letter(code);
        if (plain >= 'A' && plain <= 'Z')
            plain = (char)(plain + ('a' - 'A'));
        const bool letter = (plain >= 'a' && plain <= 'z') || (plain >= '0' && plain <= '9');
        if (!letter) {
            blank = true;
            continue;
        }
        if (used + 2 >= size)
            break;
        if (blank && used)
            tidy[used++] = ' ';
        tidy[used++] = plain;
        blank = false;
    }
    tidy[used] = '\0';
}
