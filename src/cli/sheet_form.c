/* sheet_form.c: a sheet in another form than its own (see sheet_form.h).
 *
 * For who draws: the ruler and the outline have a drawn form in `pare report` and a written one in the
 * sheet itself, so here they are JSON only. */
#include "cli/sheet_form.h"

#include "cli/outlines.h"
#include "show/json.h"
#include "show/outline.h"
#include "show/ruler_json.h"
#include "show/trace.h"

static pare_status curve_named(const char *name, pare_trace_of *which, pare_error *err)
{
    const char *names[PARE_TRACES];
    const int found = pare_trace_named(name);
    for (int i = 0; i < PARE_TRACES; i++)
        names[i] = pare_trace_name((pare_trace_of)i);
    const char *near = pare_nearest(name, PARE_TRACES, names);
    if (found < 0 && near)
        return pare_fail(err, PARE_UNKNOWN, "no curve '%s'; did you mean %s?", name, near);
    if (found < 0)
        return pare_fail(err, PARE_UNKNOWN,
                         "no curve '%s'; there are minutes, current, sag, wire and roll", name);
    *which = (pare_trace_of)found;
    return PARE_OK;
}

pare_status sheet_form_check(const options *given, pare_error *err)
{
    static const option_bits beside = OPTION_ALL | OPTION_CHECK;
    const option_bits form = given->given & SHEET_FORMS;
    pare_trace_of which;
    if (!form)
        return PARE_OK;
    if (form & (form - 1))
        return pare_fail(err, PARE_BAD_DATA,
                         "--ruler, --outline and --curve are one answer each; right would be one "
                         "of them");
    if (given->given & beside)
        return pare_fail(err, PARE_BAD_DATA,
                         "--ruler, --outline and --curve stand without --all and --check");
    if (form == OPTION_CURVE)
        return curve_named(given->curve, &which, err);
    if (!(given->given & OPTION_JSON))
        return pare_fail(err, PARE_BAD_DATA,
                         "--ruler and --outline are JSON: add --json; the sheet shows the ruler, "
                         "and pare report draws both");
    return PARE_OK;
}

static pare_status ruler(const bench_in_use *use, const pare_craft *craft, int loadout,
                         const pare_sheet_view *view, pare_text *out, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_swaps swaps;
    if (!arena)
        return pare_no_memory(err);
    const pare_status status = pare_swaps_sum(use->bench, craft, loadout, arena, &swaps, err);
    if (status == PARE_OK)
        pare_json_write(pare_ruler_object(view, &swaps), out);
    pare_arena_close(arena);
    return status;
}

static pare_status outline(const bench_in_use *use, const pare_sheet_view *view, pare_text *out,
                           pare_error *err)
{
    size_t outlines = 0;
    pare_plate_outline *plates = NULL;
    json_t *object = NULL;
    pare_status status = bench_outlines(use, &view->craft, &outlines, &plates, err);
    if (status == PARE_OK)
        status = pare_outline_object(view, outlines, plates, &object, err);
    if (status == PARE_OK)
        pare_json_write(object, out);
    return status;
}

static pare_status curve(const options *given, const pare_sheet_view *view, pare_text *out,
                         pare_error *err)
{
    const pare_screen screen = terminal_screen();
    pare_trace_of which;
    const pare_status status = curve_named(given->curve, &which, err);
    if (status != PARE_OK)
        return status;
    if (given->given & OPTION_JSON)
        pare_json_write(pare_trace_object(view, which), out);
    else
        pare_trace_text(view, which, &screen, out);
    return PARE_OK;
}

pare_status sheet_form(const bench_in_use *use, const options *given, const pare_craft *craft,
                       int loadout, const pare_sheet_view *view, pare_text *out, pare_error *err)
{
    if (given->given & OPTION_RULER)
        return ruler(use, craft, loadout, view, out, err);
    if (given->given & OPTION_OUTLINE)
        return outline(use, view, out, err);
    return curve(given, view, out, err);
}
