/* reading.c: keys, words and quantities out of a tree (see reading.h).
 *
 * Quantities go through base/units.h, whose messages already say what would be right; here only the
 * place and the name are put in front, and the range is checked. A range is quoted in the units that
 * the person is most likely to have used: as SI with a prefix would be right but foreign, so it is
 * written by `put_limit` in the first unit of the dimension that people use. */
#include "store/reading.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { NAME_MOST = 48, MESSAGE = 400, KNOWN_SHOWN = 24 };

void pare_note(pare_notes *notes, const char *format, ...)
{
    if (!notes)
        return;
    char line[MESSAGE];
    va_list args;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    if (notes->count == notes->size) {
        const size_t size = notes->size ? 2 * notes->size : 16;
        const char **text = pare_arena_array(notes->arena, size, sizeof *text);
        if (!text)
            return;
        if (notes->count)
            memcpy(text, notes->text, notes->count * sizeof *text);
        notes->text = text;
        notes->size = size;
    }
    const char *copy = pare_arena_text(notes->arena, line);
    if (copy)
        notes->text[notes->count++] = copy;
}

const char *pare_where(const pare_reading *reading, int line, int column, char place[PARE_WHERE])
{
    enum { SHOWN = 60 };
    if (!reading->typed) {
        snprintf(place, PARE_WHERE, "%s:%d:%d", reading->name, line, column);
    } else if (line < 0) {
        const char *word = reading->typed[-line - 1];
        snprintf(place, PARE_WHERE, "%.*s%s", SHOWN, word, strlen(word) > SHOWN ? "..." : "");
    } else {
        snprintf(place, PARE_WHERE, "%s", reading->name);
    }
    return place;
}

pare_status pare_refuse(const pare_reading *reading, const pare_node *at, pare_status status,
                        pare_error *err, const char *format, ...)
{
    char line[MESSAGE], place[PARE_WHERE];
    va_list args;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    return pare_fail(err, status, "%s: %s", pare_where(reading, at->line, at->column, place), line);
}

pare_status pare_refused_at(const pare_reading *reading, const pare_node *at, const char *what,
                            pare_error *err)
{
    char place[PARE_WHERE];
    if (!what && reading->typed && at->line >= 0)
        return err ? err->status : PARE_BAD_DATA; /* the text says what it is about */
    pare_where(reading, at->line, at->column, place);
    return what ? pare_within(err, "%s: %s", place, what) : pare_within(err, "%s", place);
}

/* "a, b, c" of at most KNOWN_SHOWN names. */
static void list_names(size_t count, const char *const known[], char list[MESSAGE])
{
    size_t used = 0;
    list[0] = '\0';
    for (size_t i = 0; i < count && used < MESSAGE - 70; i++) {
        if (i == KNOWN_SHOWN) {
            snprintf(list + used, MESSAGE - used, " ...");
            return;
        }
        const int put = snprintf(list + used, MESSAGE - used, "%s%s", used ? ", " : "", known[i]);
        used += put > 0 ? (size_t)put : 0;
    }
}

static pare_status refuse_unknown(const pare_reading *reading, int line, int column,
                                  pare_status status, const char *what, const char *word,
                                  size_t count, const char *const known[], pare_error *err)
{
    const char *nearest = pare_nearest(word, count, known);
    char list[MESSAGE], place[PARE_WHERE];
    pare_where(reading, line, column, place);
    if (nearest)
        return pare_fail(err, status, "%s: %s '%.48s'; is it '%s'?", place, what, word, nearest);
    list_names(count, known, list);
    return pare_fail(err, status, "%s: %s '%.48s'; right would be %s%s", place, what, word,
                     count > 1 ? "one of " : "", list);
}

pare_status pare_need_map(const pare_reading *reading, const pare_node *node, const char *what,
                          pare_error *err)
{
    if (node->form == PARE_NODE_MAP)
        return PARE_OK;
    return pare_refuse(reading, node, PARE_BAD_DATA, err, "%s is a map of keys here: {key: value}",
                       what);
}

pare_status pare_need_list(const pare_reading *reading, const pare_node *node, const char *what,
                           pare_error *err)
{
    if (node->form == PARE_NODE_LIST)
        return PARE_OK;
    return pare_refuse(reading, node, PARE_BAD_DATA, err, "%s is a list here: [one, two]", what);
}

pare_status pare_read_keys(const pare_reading *reading, const pare_node *map, const char *what,
                           size_t count, const char *const known[], pare_error *err)
{
    pare_status status = pare_need_map(reading, map, what, err);
    for (const pare_node *entry = map->first; entry && status == PARE_OK; entry = entry->next) {
        size_t i = 0;
        while (i < count && strcmp(known[i], entry->key) != 0)
            i++;
        if (i == count) {
            char found[96];
            snprintf(found, sizeof found, "%s has no key", what);
            status = refuse_unknown(reading, entry->key_line, entry->key_column, PARE_UNKNOWN,
                                    found, entry->key, count, known, err);
        }
    }
    return status;
}

/* A scalar that says something. */
static pare_status need_text(const pare_reading *reading, const pare_node *node, const char *what,
                             pare_error *err)
{
    if (node->form != PARE_NODE_SCALAR)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is one value here, not a list or a map", what);
    if (!*node->text)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is empty; give it a value or leave it out", what);
    return PARE_OK;
}

pare_status pare_read_choice(const pare_reading *reading, const pare_node *node, const char *what,
                             size_t count, const char *const known[], int *index, pare_error *err)
{
    const pare_status status = need_text(reading, node, what, err);
    if (status != PARE_OK)
        return status;
    for (size_t i = 0; i < count; i++)
        if (strcmp(known[i], node->text) == 0) {
            *index = (int)i;
            return PARE_OK;
        }
    char found[96];
    snprintf(found, sizeof found, "%s cannot be", what);
    return refuse_unknown(reading, node->line, node->column, PARE_BAD_DATA, found, node->text,
                          count, known, err);
}

pare_status pare_read_text(const pare_reading *reading, const pare_node *node, const char *what,
                           const char **text, pare_error *err)
{
    const pare_status status = need_text(reading, node, what, err);
    if (status == PARE_OK)
        *text = node->text;
    return status;
}

static bool is_name(const char *text, bool dots)
{
    const size_t length = strlen(text);
    if (length == 0 || length > NAME_MOST || strchr("-_.", text[0]))
        return false;
    return strspn(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.") ==
               length &&
           (dots || !strchr(text, '.'));
}

static pare_status refuse_name(const pare_reading *reading, int line, int column, const char *what,
                               const char *text, bool dots, pare_error *err)
{
    char place[PARE_WHERE];
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: %s '%.60s' is no name; right are letters, digits, '-'%s and '_', "
                     "48 at most",
                     pare_where(reading, line, column, place), what, text, dots ? ", '.'" : "");
}

pare_status pare_read_name(const pare_reading *reading, const pare_node *node, const char *what,
                           bool dots, const char **name, pare_error *err)
{
    const pare_status status = need_text(reading, node, what, err);
    if (status != PARE_OK)
        return status;
    if (!is_name(node->text, dots))
        return refuse_name(reading, node->line, node->column, what, node->text, dots, err);
    *name = node->text;
    return PARE_OK;
}

pare_status pare_check_key_name(const pare_reading *reading, const pare_node *entry,
                                const char *what, pare_error *err)
{
    if (is_name(entry->key, false))
        return PARE_OK;
    return refuse_name(reading, entry->key_line, entry->key_column, what, entry->key, false, err);
}

pare_status pare_read_date(const pare_reading *reading, const pare_node *node, const char *what,
                           const char **date, pare_error *err)
{
    const pare_status status = need_text(reading, node, what, err);
    if (status != PARE_OK)
        return status;
    if (pare_text_is_day(node->text)) {
        *date = node->text;
        return PARE_OK;
    }
    return pare_refuse(reading, node, PARE_BAD_DATA, err,
                       "%s '%.40s' is no day; right would be like 2026-03-01", what, node->text);
}

pare_status pare_read_bool(const pare_reading *reading, const pare_node *node, const char *what,
                           bool *value, pare_error *err)
{
    const pare_status status = need_text(reading, node, what, err);
    if (status != PARE_OK)
        return status;
    if (strcmp(node->text, "true") && strcmp(node->text, "false"))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is '%.40s'; right would be true or false", what, node->text);
    *value = node->text[0] == 't';
    return PARE_OK;
}

#define LEAST_STIFF_PA 1e7
#define FAR_M          10.0 /* from here on a length is told in metres: heights */

/* A limit of a range in the unit that people use for the dimension. */
static const char *put_limit(pare_dimension dimension, double value, char text[32])
{
    static const struct {
        double per_si;
        const char *unit;
    } units[PARE_DIMENSIONS] = {
        [PARE_DIM_SHARE] = {100, " %"},
        [PARE_DIM_MASS] = {1000, " g"},
        [PARE_DIM_LENGTH] = {1000, " mm"},
        [PARE_DIM_AREA] = {1e4, " cm2"},
        [PARE_DIM_TIME] = {1, " s"},
        [PARE_DIM_ANGLE] = {57.29577951308232, " deg"},
        [PARE_DIM_SPEED] = {1, " m/s"},
        [PARE_DIM_TEMPERATURE] = {1, " degC"},
        [PARE_DIM_PRESSURE] = {1e-9, " GPa"},
        [PARE_DIM_DENSITY] = {1e-3, " g/cm3"},
        [PARE_DIM_POWER] = {1, " W"},
        [PARE_DIM_VOLTAGE] = {1, " V"},
        [PARE_DIM_CURRENT] = {1, " A"},
        [PARE_DIM_CHARGE] = {1 / 3.6, " mAh"},
        [PARE_DIM_RESISTANCE] = {1000, " mohm"},
        [PARE_DIM_CAPACITANCE] = {1e6, " uF"},
        [PARE_DIM_HEAT] = {1, " J/K"},
        [PARE_DIM_FREQUENCY] = {1e-9, " GHz"},
        [PARE_DIM_GAIN] = {1, " dB"},
        [PARE_DIM_KV] = {1, " rpm/V"},
    };
    /* The air's and a plate's: none lies between. */
    if (dimension == PARE_DIM_PRESSURE && fabs(value) < LEAST_STIFF_PA) {
        snprintf(text, 32, "%.7g hPa", value / 100);
        return text;
    }
    if (dimension == PARE_DIM_LENGTH && fabs(value) >= FAR_M) {
        snprintf(text, 32, "%.7g m", value);
        return text;
    }
    const double per_si = units[dimension].per_si > 0 ? units[dimension].per_si : 1;
    const char *unit = units[dimension].unit ? units[dimension].unit : "";
    snprintf(text, 32, "%.7g%s", value * per_si, unit);
    return text;
}

pare_status pare_check_range(const pare_reading *reading, const pare_node *node, const char *what,
                             pare_dimension dimension, double low, double high, double value,
                             pare_error *err)
{
    /* Typed in another unit, an end of the range may come out a rounding off. */
    const double slack = 1e-12 * fmax(fabs(low), fabs(high));
    if (value >= low - slack && value <= high + slack)
        return PARE_OK;
    char from[32], to[32];
    return pare_refuse(reading, node, PARE_BAD_DATA, err, "%s of %.40s; right would be %s to %s",
                       what, node->text, put_limit(dimension, low, from),
                       put_limit(dimension, high, to));
}

pare_status pare_read_quantity(const pare_reading *reading, const pare_node *node, const char *what,
                               pare_dimension dimension, double low, double high, double *value,
                               pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = need_text(reading, node, what, err);
    if (status != PARE_OK)
        return status;
    double read = 0;
    status = pare_quantity(reading->units, node->text, dimension, &read, err);
    if (status != PARE_OK)
        return pare_refused_at(reading, node, what, err);
    status = pare_check_range(reading, node, what, dimension, low, high, read, err);
    if (status != PARE_OK)
        return status;
    *value = read;
    return PARE_OK;
}

pare_status pare_read_count(const pare_reading *reading, const pare_node *node, const char *what,
                            int low, int high, int *value, pare_error *err)
{
    double read = *value;
    const pare_status status =
        pare_read_quantity(reading, node, what, PARE_DIM_COUNT, low, high, &read, err);
    if (status == PARE_OK)
        *value = (int)read;
    return status;
}

pare_status pare_read_quantities(const pare_reading *reading, const pare_node *node,
                                 const char *what, pare_dimension dimension, double low,
                                 double high, size_t least, size_t most, double value[],
                                 size_t *count, pare_error *err)
{
    if (node->form == PARE_NODE_MAP)
        return pare_need_list(reading, node, what, err);
    const bool single = node->form == PARE_NODE_SCALAR;
    const size_t given = single ? 1 : node->count;
    if (given < least || given > most) {
        if (least == most)
            return pare_refuse(reading, node, PARE_BAD_DATA, err,
                               "%s has %zu value%s; right would be %zu", what, given,
                               given == 1 ? "" : "s", least);
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s has %zu value%s; right would be %zu to %zu", what, given,
                           given == 1 ? "" : "s", least, most);
    }
    size_t n = 0;
    pare_status status = PARE_OK;
    for (const pare_node *one = single ? node : node->first; one && status == PARE_OK;
         one = single ? NULL : one->next)
        status = pare_read_quantity(reading, one, what, dimension, low, high, &value[n++], err);
    if (status == PARE_OK)
        *count = n;
    return status;
}

pare_status pare_read_point(const pare_reading *reading, const pare_node *node, const char *what,
                            size_t least, pare_vec3 *point_m, pare_error *err)
{
    double at[3] = {0};
    size_t count = 0;
    const double far = 5; /* metres: no small multirotor reaches further */
    if (node->form != PARE_NODE_LIST)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is a place here: [x, y, z], like [10 mm, 0 mm, -5 mm]", what);
    const pare_status status = pare_read_quantities(reading, node, what, PARE_DIM_LENGTH, -far, far,
                                                    least, 3, at, &count, err);
    if (status == PARE_OK)
        *point_m = (pare_vec3){at[0], at[1], at[2]};
    return status;
}

pare_status pare_read_turn(const pare_reading *reading, const pare_node *node, pare_mat3 *turn,
                           pare_error *err)
{
    double angle[3] = {0};
    size_t count = 0;
    const double most = 6.2831853071795865; /* once round */
    pare_status status = pare_need_list(reading, node, "turn, [about z, about y, about x],", err);
    if (status == PARE_OK)
        status = pare_read_quantities(reading, node, "turn", PARE_DIM_ANGLE, -most, most, 3, 3,
                                      angle, &count, err);
    if (status == PARE_OK)
        *turn = pare_turn_zyx(angle[0], angle[1], angle[2]);
    return status;
}
