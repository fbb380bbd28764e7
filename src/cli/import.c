/* import.c: `pare import`: a bench's text, a list, a model or a drawing into the bench. */
#include <stdio.h>
#include <unistd.h>

#include "cli/import.h"
#include "cli/long_work.h"
#include "cli/use.h"
#include "show/json.h"

void import_count(pare_text *out, const char *what, size_t added, size_t replaced, size_t same)
{
    if (added + replaced + same == 0)
        return;
    pare_text_printf(out, "%-8s %zu added", what, added);
    if (replaced)
        pare_text_printf(out, ", %zu replaced", replaced);
    if (same)
        pare_text_printf(out, ", %zu as before", same);
    pare_text_add(out, "\n");
}

static void as_json(const pare_import_summary *s, pare_text *out)
{
    const struct {
        const char *key;
        size_t count;
    } rows[] = {{"parts_added", s->parts_added},
                {"parts_replaced", s->parts_replaced},
                {"parts_same", s->parts_same},
                {"craft_added", s->craft_added},
                {"craft_replaced", s->craft_replaced},
                {"craft_same", s->craft_same},
                {"records_added", s->records_added},
                {"records_same", s->records_same},
                {"files", s->files}};
    json_t *object = json_object(), *warnings = json_array();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        json_object_set_new(object, rows[i].key, json_integer((json_int_t)rows[i].count));
    for (size_t i = 0; i < s->warnings; i++)
        json_array_append_new(warnings, json_string(s->warning[i]));
    json_object_set_new(object, "warnings", warnings);
    pare_json_write(object, out);
}

static void as_text(const pare_import_summary *s, bool dry, const char *path, pare_text *out)
{
    pare_text_printf(out, "%s %s\n", dry ? "nothing is changed; this would go into" : "into", path);
    import_count(out, "parts", s->parts_added, s->parts_replaced, s->parts_same);
    import_count(out, "craft", s->craft_added, s->craft_replaced, s->craft_same);
    import_count(out, "records", s->records_added, 0, s->records_same);
    if (s->files)
        pare_text_printf(out, "files    %zu read\n", s->files);
}

pare_status import_refuse_options(const options *given, option_bits not_here, const char *what,
                                  pare_error *err)
{
    size_t count = 0;
    const option_row *rows = option_rows(&count);
    for (size_t i = 0; i < count; i++)
        if (rows[i].bit & given->given & not_here)
            return pare_fail(err, PARE_BAD_DATA, "%s is %s; --%s is for lists (CSV)",
                             given->operand[0], what, rows[i].name);
    return PARE_OK;
}

pare_status import_bench(pare_store *store, const char *path, const options *given,
                         pare_arena *arena, pare_text *out, pare_error *err)
{
    pare_import_summary summary = {0};
    const bool dry = given->given & OPTION_DRY_RUN;
    const pare_import import = {
        .path = given->operand[0], .change = change_of("import", given, arena), .dry_run = dry};
    pare_status status = import_refuse_options(given, IMPORT_LIST_ONLY | OPTION_SET | OPTION_KIND,
                                               "a bench's text", err);
    if (status == PARE_OK)
        status = pare_store_import_yaml(store, &import, arena, &summary, err);
    if (status != PARE_OK)
        return status;
    pare_progress_over(given->progress);
    for (size_t i = 0; i < summary.warnings; i++)
        fprintf(stderr, "pare: warning: %s\n", summary.warning[i]);
    if (given->given & OPTION_JSON)
        as_json(&summary, out);
    else
        as_text(&summary, dry, path, out);
    return PARE_OK;
}

static pare_status take(pare_store *store, const char *path, const options *given, import_kind kind,
                        pare_arena *arena, pare_text *out, pare_error *err)
{
    switch (kind) {
    case IMPORT_BENCH:
        return import_bench(store, path, given, arena, out, err);
    case IMPORT_LIST:
        return import_list(store, path, given, arena, out, err);
    case IMPORT_PROPELLER:
        return import_propeller(store, path, given, arena, out, err);
    case IMPORT_MODEL:
    case IMPORT_OUTLINE:
        break;
    }
    const pare_status status =
        import_refuse_options(given, IMPORT_LIST_ONLY, "one part's shape", err);
    return status == PARE_OK ? import_drawing(store, path, given, kind, arena, out, err) : status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    pare_text path = {0}, shown = {0};
    pare_store *store = NULL;
    import_kind kind = IMPORT_BENCH;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("import", given, 1, OPERANDS, "a file", err);
    if (status == PARE_OK)
        status = import_look(given->operand[0], &kind, err);
    if (status == PARE_OK && kind != IMPORT_PROPELLER)
        status = need_operands("import", given, 1, 1, "one file", err);
    if (status == PARE_OK)
        status = bench_path(given, false, &path, err);
    if (status == PARE_OK)
        status = pare_store_shown(path.bytes, &shown, err);
    long_work_catch();
    const bool was_there = status == PARE_OK && bench_is_there(path.bytes);
    if (status == PARE_OK)
        status = bench_store(path.bytes, PARE_STORE_CREATE, &store, err);
    const bool made = store && !was_there;
    if (status == PARE_OK) {
        pare_store_watch(store, given->progress);
        status = take(store, shown.bytes, given, kind, arena, out, err);
    }
    long_work_release(status);
    pare_progress_over(given->progress);
    if (status == PARE_STOPPED)
        pare_fail(err, status, "stopped: nothing was imported%s",
                  made ? ", and no bench was made" : "; the bench is as it was");
    pare_store_close(store);
    if (made && (status != PARE_OK || given->given & OPTION_DRY_RUN))
        unlink(path.bytes); /* nothing came in: leave no empty bench behind */
    pare_text_free(&shown);
    pare_text_free(&path);
    pare_arena_close(arena);
    return status;
}

const command command_import = {
    .name = "import",
    .line = "a list (CSV, XLSX), bench text, a model or a drawing",
    .usage = "pare import FILE... [--map COLUMN=WHAT...] [--set WHAT=TEXT...] [--kind KIND]\n"
             "            [--as LIST] [--separator SIGN] [--decimal SIGN] [--notes]\n"
             "            [--keep-good] [--dry-run] [--why TEXT] [--bench FILE] [--json]",
    .details =
        "  FILE    .csv: a list of parts, weigh-ins, flights, a stand's readings or a\n"
        "          flight's log, with names over its columns (name, weight (g), ...);\n"
        "          .xlsx: the same as a sheet, the first or x.xlsx#NAME;\n"
        "          .yaml or .json: a bench's text, as pare export writes it;\n"
        "          .stl, .3mf: a printed part; .dxf, .svg: a plate, with --set thick=2mm;\n"
        "          .txt: a list, a bench's text or a propeller's tables, several at once\n"
        "\n"
        "All of a file goes in, or nothing, unless --keep-good. What a list was taken\n"
        "for is said: what parts its columns, its decimals, what each column means. A\n"
        "unit stands behind the number or over its column. Blanks, \"-\", \"?\" and \"n/a\"\n"
        "say nothing; \"~12 g\" is kept as an estimate; blank rows, rows that begin with\n"
        "# and totals are skipped. A part without an id gets one made of its name. A\n"
        "part that is there already keeps what the list does not say.\n"
        "\n"
        "A stand's readings are of one motor with one propeller at rest: volts, throttle\n"
        "or the ESC's pulses, thrust, current or power, and speed and torque where they\n"
        "were measured. --set motor=ID and --set propeller=ID say of which, --set\n"
        "altitude=120m and --set air_temperature=20C in what air, --set poles=14 that\n"
        "the speed is in electrical turns. A row that cannot be refuses the table: less\n"
        "power than an ideal rotor takes, an efficiency above 1, a reversed thrust, more\n"
        "turns than kV times volts. Rows read before the rotor had settled cannot be\n"
        "told from others: leave them out.\n"
        "\n"
        "A flight's log is time, volts and current, each with its unit (times of day\n"
        "need none), and throttle and height where they were logged. --set craft=NAME\n"
        "and --set date=DAY say of which flight; it joins the one on the bench that\n"
        "agrees with all that is set (pack, which, flown=hover, put_back, rest_before,\n"
        "rest_after, take_off, altitude and temperature of the air), or makes one. Rows\n"
        "of any number become means of a second or more. A time that runs back, or what\n"
        "is no number, refuses the log; gaps, rows at one time and rows without a reading\n"
        "are counted and said.\n"
        "\n"
        "A propeller's tables are columns parted by blanks, as the UIUC Propeller Data\n"
        "Site has them: its blade (r/R c/R beta), and what a tunnel measured at rest (RPM\n"
        "CT CP) or running (J CT CP eta, with the rpm at the end of the file's name or\n"
        "--set speed=4000rpm). --set propeller=ID says of which. They stand in the part,\n"
        "as blade and tunnel; pare parts change ID tunnel=off takes them away.\n"
        "\n"
        "A part or craft in a bench's text replaces the one of its name. Its meshes and\n"
        "drawings are looked for in the file's folder. A bench not there yet is made.\n",
    .example = "  pare import parts.csv --dry-run\n"
               "  pare import parts.csv --set maker=Sorrel\n"
               "  pare export --as stand -o stand.csv\n"
               "  pare import stand.csv --set motor=mo-2207-2750 --set propeller=pr-51-43\n"
               "  pare export -o club.yaml\n"
               "  pare import club.yaml --bench club.sqlite\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_WHY | OPTION_MAP | OPTION_SET | OPTION_AS |
               OPTION_KIND | OPTION_SEPARATOR | OPTION_DECIMAL | OPTION_NOTES | OPTION_KEEP_GOOD |
               OPTION_DRY_RUN,
    .meaning = {{OPTION_BENCH, "another bench than your own; made when not there yet"},
                {OPTION_KIND, "the kind of all parts in a list, or of the part in a drawing"}},
    .run = run,
};
