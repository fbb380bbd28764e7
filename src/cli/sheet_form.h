/* sheet_form.h: a sheet in another form than its own: as the gram ruler, as outlines, as one curve. */
#ifndef PARE_CLI_SHEET_FORM_H
#define PARE_CLI_SHEET_FORM_H

#include "cli/use.h"
#include "show/sheet_view.h"

#define SHEET_FORMS (OPTION_RULER | OPTION_OUTLINE | OPTION_CURVE)

/** Whether the forms that are asked for can be given: one at a time, of a curve that there is, ruler and
 * outline as JSON. Fine where none is asked for. */
pare_status sheet_form_check(const options *given, pare_error *err);

/** The form that is asked for, of a filled view. */
pare_status sheet_form(const bench_in_use *use, const options *given, const pare_craft *craft,
                       int loadout, const pare_sheet_view *view, pare_text *out, pare_error *err);

#endif
