/* import_drawing.c: `pare import` of a model or drawing alone: the part that it is the shape of.
 *
 * A file in a bench belongs to a part, or it would be nobody's and swept away. So a bare one makes a
 * part: a print of the model, a plate of the outline; its id is the file's name. Where a part has the
 * file already, only the file is taken in anew: that is what happens after each change of a drawing. */
#include <stdio.h>
#include <string.h>

#include "cli/import.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/csv_import.h"
#include "store/drawing.h"

/* The value of --set KEY=VALUE, or NULL. */
static const char *set_of(const options *given, const char *key)
{
    const size_t length = strlen(key);
    for (size_t i = 0; i < given->sets; i++)
        if (strncmp(given->set[i], key, length) == 0 && given->set[i][length] == '=')
            return given->set[i] + length + 1;
    return NULL;
}

static pare_status check_sets(const options *given, pare_error *err)
{
    static const char *const keys[] = {"id",      "thick",    "unit",  "wall", "infill",
                                       "density", "material", "maker", "mass", "origin"};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    for (size_t i = 0; i < given->sets; i++) {
        char word[32];
        bool known = false;
        snprintf(word, sizeof word, "%.*s", (int)strcspn(given->set[i], "="), given->set[i]);
        for (size_t k = 0; k < KEYS; k++)
            known = known || strcmp(keys[k], word) == 0;
        const char *near = known ? NULL : pare_nearest(word, KEYS, keys);
        if (near)
            return pare_fail(err, PARE_UNKNOWN, "--set '%s'; is it '%s'?", word, near);
        if (!known)
            return pare_fail(err, PARE_UNKNOWN,
                             "--set '%s'; right would be one of id, thick, unit, wall, infill, "
                             "density, material, maker, mass, origin",
                             word);
    }
    return PARE_OK;
}

static void show(const pare_drawing_taken *taken, import_kind kind, const char *path, bool dry,
                 pare_text *out)
{
    pare_text_printf(out, "%s %s\n", dry ? "nothing is changed; this would go into" : "into", path);
    if (kind == IMPORT_OUTLINE)
        pare_text_printf(out, "%-8s %s: a plate of %.1f x %.1f mm, %.4g cm2, %zu hole%s\n",
                         "taken as", taken->file, 1e3 * taken->size_m[0], 1e3 * taken->size_m[1],
                         1e4 * taken->area_m2, taken->holes, taken->holes == 1 ? "" : "s");
    else
        pare_text_printf(out, "%-8s %s: a solid of %.1f x %.1f x %.1f mm, %.4g cm3%s\n", "taken as",
                         taken->file, 1e3 * taken->size_m[0], 1e3 * taken->size_m[1],
                         1e3 * taken->size_m[2], 1e6 * taken->volume_m3,
                         taken->estimated ? ", an open mesh, so of its hull" : "");
    for (size_t i = 0; i < taken->parts; i++)
        pare_text_printf(out, "%-8s %s, %s, %.3g g%s\n", i ? "" : "part", taken->part[i].id,
                         taken->part[i].kind, 1e3 * taken->part[i].mass_kg,
                         taken->part[i].computed ? " by its shape" : "");
    pare_text_printf(out, "%-8s %s\n", "body", taken->body);
}

static json_t *json_of(const pare_drawing_taken *taken, import_kind kind)
{
    json_t *object = json_object(), *parts = json_array();
    json_object_set_new(object, "file", json_string(taken->file));
    if (kind == IMPORT_OUTLINE) {
        json_object_set_new(object, "area_cm2", json_real(1e4 * taken->area_m2));
        json_object_set_new(object, "holes", json_integer((json_int_t)taken->holes));
    } else {
        json_object_set_new(object, "volume_cm3", json_real(1e6 * taken->volume_m3));
    }
    for (size_t i = 0; i < taken->parts; i++) {
        json_t *part = json_object();
        json_object_set_new(part, "id", json_string(taken->part[i].id));
        json_object_set_new(part, "kind", json_string(taken->part[i].kind));
        json_object_set_new(part, "mass_g", json_real(1e3 * taken->part[i].mass_kg));
        json_array_append_new(parts, part);
    }
    json_object_set_new(object, "parts", parts);
    json_object_set_new(object, "body", json_string(taken->body));
    return object;
}

pare_status import_drawing(pare_store *store, const char *path, const options *given,
                           import_kind kind, pare_arena *arena, pare_text *out, pare_error *err)
{
    pare_drawing_taken taken = {0};
    const bool dry = given->given & OPTION_DRY_RUN;
    const pare_drawing_import import = {.path = given->operand[0],
                                        .change = change_of("import", given, arena),
                                        .outline = kind == IMPORT_OUTLINE,
                                        .kind = given->kind,
                                        .id = set_of(given, "id"),
                                        .maker = set_of(given, "maker"),
                                        .mass = set_of(given, "mass"),
                                        .thick = set_of(given, "thick"),
                                        .unit = set_of(given, "unit"),
                                        .wall = set_of(given, "wall"),
                                        .infill = set_of(given, "infill"),
                                        .density = set_of(given, "density"),
                                        .material = set_of(given, "material"),
                                        .origin = set_of(given, "origin"),
                                        .dry_run = dry};
    pare_status status = check_sets(given, err);
    if (status == PARE_OK)
        status = pare_store_import_drawing(store, &import, arena, &taken, err);
    if (status != PARE_OK)
        return status;
    pare_progress_over(given->progress);
    for (size_t i = 0; i < taken.warnings; i++)
        fprintf(stderr, "pare: warning: %s\n", taken.warning[i]);
    if (given->given & OPTION_JSON)
        pare_json_write(json_of(&taken, kind), out);
    else
        show(&taken, kind, path, dry, out);
    return PARE_OK;
}
