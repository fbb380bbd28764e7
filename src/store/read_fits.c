/* read_fits.c: what a part mounts to, out of its text.
 *
 * A list means any of these. Sizes of a thread or shaft may be written as the trade does, M5, and
 * a connector by its class, "60 A class". */
#include <string.h>

#include "store/read_part.h"

static const struct {
    pare_dimension dimension;
    double low, high;
    bool range;
} SIZES[PARE_FITS] = {
    [PARE_FIT_BOLT_CIRCLE] = {PARE_DIM_LENGTH, 0.003, 0.1, false},
    [PARE_FIT_THREAD] = {PARE_DIM_LENGTH, 0.001, 0.008, false},
    [PARE_FIT_SHAFT] = {PARE_DIM_LENGTH, 0.0005, 0.012, false},
    [PARE_FIT_STACK] = {PARE_DIM_LENGTH, 0.005, 0.1, true},
    [PARE_FIT_PROPELLER] = {PARE_DIM_LENGTH, 0.02, 1.0, true},
    [PARE_FIT_CELLS] = {PARE_DIM_COUNT, 1, 14, true},
    [PARE_FIT_CONNECTOR] = {PARE_DIM_CURRENT, 1, 500, false},
    [PARE_FIT_CAMERA] = {PARE_DIM_LENGTH, 0.005, 0.1, true},
};

/* "M5" as the quantity "5 mm", "60 A class" as "60 A"; anything else as it is. */
static const char *plain(const pare_reading *reading, pare_fit_key key, const char *text)
{
    const bool metric = (key == PARE_FIT_THREAD || key == PARE_FIT_SHAFT) && text[0] == 'M';
    if (metric && text[1] && strchr("0123456789", text[1]))
        return pare_arena_printf(reading->arena, "%s mm", text + 1);
    const char *class_word = key == PARE_FIT_CONNECTOR ? strstr(text, " class") : NULL;
    if (class_word && class_word[6] == '\0')
        return pare_arena_copy(reading->arena, text, (size_t)(class_word - text));
    return text;
}

static pare_status read_antenna(const pare_reading *reading, const pare_node *node, pare_fit *fit,
                                pare_error *err)
{
    static const char *const words[] = {"snap", "screw", "solder"};
    int index = 0;
    const pare_status status =
        pare_read_choice(reading, node, "antenna", PARE_COUNT(words), words, &index, err);
    if (status == PARE_OK)
        fit->any[fit->count++].word = words[index];
    return status;
}

static pare_status read_choice(const pare_reading *reading, pare_fit_key key, const pare_node *node,
                               pare_fit *fit, pare_error *err)
{
    const char *name = pare_fit_name(key), *text = NULL;
    if (key == PARE_FIT_ANTENNA)
        return read_antenna(reading, node, fit, err);
    pare_status status = pare_read_text(reading, node, name, &text, err);
    if (status != PARE_OK)
        return status;
    text = plain(reading, key, text);
    if (!text)
        return pare_no_memory(err);
    double low = 0, high = 0;
    status = pare_range(reading->units, text, SIZES[key].dimension, &low, &high, err);
    if (status != PARE_OK)
        return pare_refused_at(reading, node, name, err);
    if (low != high && !SIZES[key].range)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is no range; right would be one size, or a list of sizes", name);
    const double edge = low < SIZES[key].low ? low : high;
    status = pare_check_range(reading, node, name, SIZES[key].dimension, SIZES[key].low,
                              SIZES[key].high, edge, err);
    if (status != PARE_OK)
        return status;
    fit->any[fit->count].low = low;
    fit->any[fit->count++].high = high;
    return PARE_OK;
}

static pare_status read_fit(const pare_reading *reading, pare_fit_key key, const pare_node *node,
                            pare_fit *fit, pare_error *err)
{
    if (node->form == PARE_NODE_SCALAR)
        return read_choice(reading, key, node, fit, err);
    pare_status status = pare_need_list(reading, node, pare_fit_name(key), err);
    if (status == PARE_OK && (node->count == 0 || node->count > PARE_FIT_CHOICES))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s has %zu choices; right would be "
                           "1 to %d",
                           pare_fit_name(key), node->count, PARE_FIT_CHOICES);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_choice(reading, key, one, fit, err);
    return status;
}

pare_status pare_read_fits(const pare_reading *reading, const pare_node *node, pare_part *part,
                           pare_error *err)
{
    const char *names[PARE_FITS + 1];
    for (int i = 0; i < PARE_FITS; i++)
        names[i] = pare_fit_name((pare_fit_key)i);
    const pare_spec_row *depth = pare_spec_find(part->kind, PARE_SPEC_SCREW_DEPTH);
    names[PARE_FITS] = "screw_depth";
    pare_status status =
        pare_read_keys(reading, node, "fits", PARE_FITS + (depth ? 1 : 0), names, err);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        const int key = pare_fit_named(one->key);
        if (key >= 0)
            status = read_fit(reading, (pare_fit_key)key, one, &part->fit[key], err);
        else
            status = pare_read_value(reading, one, depth->name, depth->dimension, depth->low,
                                     depth->high, &part->spec[PARE_SPEC_SCREW_DEPTH], err);
    }
    return status;
}
