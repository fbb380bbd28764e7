/* json.c: numbers and layout of JSON answers (see json.h). */
#include "show/json.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { DIGITS = 10 };

json_t *pare_json_number(double value)
{
    if (!isfinite(value))
        return json_null();
    char digits[40];
    snprintf(digits, sizeof digits, "%.*g", DIGITS, value);
    const double rounded = strtod(digits, NULL);
    if (rounded == trunc(rounded) && fabs(rounded) < 1e15)
        return json_integer((json_int_t)rounded);
    return json_real(rounded);
}

static int put(const char *bytes, size_t length, void *out)
{
    pare_text_put(out, bytes, length);
    return 0;
}

static const size_t layout = JSON_INDENT(1) | JSON_PRESERVE_ORDER | JSON_REAL_PRECISION(DIGITS + 1);

void pare_json_write(json_t *object, pare_text *out)
{
    if (!object || json_dump_callback(object, put, out, layout) != 0)
        out->failed = true;
    pare_text_add(out, "\n");
    json_decref(object);
}

/* Line breaks stand between tokens only: within a string they are escaped. */
static int put_deeper(const char *bytes, size_t length, void *out)
{
    for (size_t i = 0; i < length; i++) {
        pare_text_put(out, bytes + i, 1);
        if (bytes[i] == '\n')
            pare_text_add(out, "  ");
    }
    return 0;
}

void pare_json_list_begin(const char *key, pare_text *out)
{
    pare_text_printf(out, "{\n \"%s\": [", key);
}

void pare_json_list_begin_in(json_t *object, const char *key, pare_text *out)
{
    static const char end[] = "\n}\n";
    pare_json_write(object, out);
    if (out->failed)
        return;
    out->length -= sizeof end - 1; /* the object goes on */
    pare_text_printf(out, ",\n \"%s\": [", key);
}

void pare_json_list_put(json_t *one, bool first, pare_text *out)
{
    pare_text_add(out, first ? "\n  " : ",\n  ");
    if (!one || json_dump_callback(one, put_deeper, out, layout) != 0)
        out->failed = true;
    json_decref(one);
}

void pare_json_list_end(bool empty, pare_text *out)
{
    pare_text_add(out, empty ? "]\n}\n" : "\n ]\n}\n");
}
