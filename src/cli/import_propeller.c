/* import_propeller.c: `pare import` of what was measured of a propeller: its blade, a tunnel's points. */
#include <stdio.h>
#include <string.h>

#include "cli/import.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/propeller_file.h"

static const char *const KINDS[] = {[PARE_PROPELLER_NONE] = "nothing",
                                    [PARE_PROPELLER_BLADE] = "blade",
                                    [PARE_PROPELLER_AT_REST] = "at_rest",
                                    [PARE_PROPELLER_RUNNING] = "running"};

/* --set propeller=ID and --set speed=4000rpm. */
static pare_status read_sets(const options *given, pare_propeller_import *import, pare_error *err)
{
    static const char *const keys[] = {"propeller", "speed"};
    const char **to[] = {&import->propeller, &import->speed};
    for (size_t i = 0; i < given->sets; i++) {
        char word[32];
        snprintf(word, sizeof word, "%.*s", (int)strcspn(given->set[i], "="), given->set[i]);
        size_t k = 0;
        while (k < 2 && strcmp(word, keys[k]) != 0)
            k++;
        if (k == 2)
            return pare_fail(err, PARE_UNKNOWN, "--set '%s'; right would be propeller or speed",
                             word);
        const char *equals = strchr(given->set[i], '=');
        if (!equals || !equals[1])
            return pare_fail(err, PARE_BAD_DATA, "--set %s; right would be like --set %s=%s", word,
                             word, k ? "4000rpm" : "ID");
        *to[k] = equals + 1;
    }
    return import->propeller ? PARE_OK
                             : pare_fail(err, PARE_BAD_DATA,
                                         "%s: a table of which propeller? right would be --set "
                                         "propeller=ID",
                                         given->operand[0]);
}

static void as_text(const pare_propeller_import *import, const pare_propeller_summary *s,
                    const char *path, pare_text *out)
{
    pare_text_printf(out, "%s %s\n",
                     import->dry_run ? "nothing is changed; this would go into" : "into", path);
    for (size_t i = 0; i < import->files; i++) {
        pare_text_printf(out, "%-8s ", i ? "" : "files");
        if (s->file[i].kind == PARE_PROPELLER_BLADE)
            pare_text_printf(out, "%s: a blade of %zu stations\n", import->path[i],
                             s->file[i].rows);
        else if (s->file[i].kind == PARE_PROPELLER_AT_REST)
            pare_text_printf(out, "%s: %zu points at rest\n", import->path[i], s->file[i].rows);
        else
            pare_text_printf(out, "%s: %zu points at %.0f rpm\n", import->path[i], s->file[i].rows,
                             s->file[i].speed_rad_s * 30 / 3.14159265358979323846);
    }
    pare_text_printf(out, "%-8s %s", "part", import->propeller);
    if (s->stations)
        pare_text_printf(out, ", blade of %zu stations", s->stations);
    if (s->points)
        pare_text_printf(out, ", %zu points of a tunnel, of them %zu new", s->points,
                         s->points_added);
    pare_text_add(out, import->dry_run || s->changed ? "\n" : "; all as before\n");
}

static void as_json(const pare_propeller_import *import, const pare_propeller_summary *s,
                    pare_text *out)
{
    json_t *object = json_object(), *files = json_array();
    for (size_t i = 0; i < import->files; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "file", json_string(import->path[i]));
        json_object_set_new(one, "taken_as", json_string(KINDS[s->file[i].kind]));
        json_object_set_new(one, "rows", json_integer((json_int_t)s->file[i].rows));
        if (s->file[i].kind == PARE_PROPELLER_RUNNING)
            json_object_set_new(
                one, "speed_rpm",
                pare_json_number(s->file[i].speed_rad_s * 30 / 3.14159265358979323846));
        json_array_append_new(files, one);
    }
    json_object_set_new(object, "files", files);
    json_object_set_new(object, "propeller", json_string(import->propeller));
    json_object_set_new(object, "stations", json_integer((json_int_t)s->stations));
    json_object_set_new(object, "points", json_integer((json_int_t)s->points));
    json_object_set_new(object, "points_added", json_integer((json_int_t)s->points_added));
    json_object_set_new(object, "dry_run", json_boolean(import->dry_run));
    json_object_set_new(object, "changed", json_boolean(s->changed));
    pare_json_write(object, out);
}

pare_status import_propeller(pare_store *store, const char *path, const options *given,
                             pare_arena *arena, pare_text *out, pare_error *err)
{
    pare_propeller_summary summary;
    pare_propeller_import import = {.files = given->operands,
                                    .path = given->operand,
                                    .change = change_of("import", given, arena),
                                    .dry_run = given->given & OPTION_DRY_RUN};
    pare_status status =
        import_refuse_options(given, IMPORT_LIST_ONLY | OPTION_KIND, "a propeller's table", err);
    if (status == PARE_OK)
        status = read_sets(given, &import, err);
    if (status == PARE_OK)
        status = pare_store_import_propeller(store, &import, arena, &summary, err);
    if (status != PARE_OK)
        return status;
    if (given->given & OPTION_JSON)
        as_json(&import, &summary, out);
    else
        as_text(&import, &summary, path, out);
    return PARE_OK;
}
