/* kept.c: a sheet with and without what was learned (see kept.h). */
#include "show/kept.h"

#include <stdio.h>

#include "craft/figure.h"
#include "show/digits.h"
#include "show/json.h"

/* Those that a pilot sees for himself. */
static const pare_figure shown[] = {PARE_HOVER_OUTPUT, PARE_HOVER_A,   PARE_HOVER_TIME,
                                    PARE_FLOWN_TIME,   PARE_TWR_FRESH, PARE_TOP_SPEED,
                                    PARE_BEST_RANGE};
enum { SHOWN = sizeof shown / sizeof shown[0] };

static bool there(const pare_sheet *thought, const pare_sheet *learned, pare_figure f)
{
    return thought->figure[f].exists && learned->figure[f].exists;
}

/* In uncertainties of what was thought. */
static double moved_u(const pare_sheet *thought, const pare_sheet *learned, pare_figure f)
{
    const pare_sheet_figure *was = &thought->figure[f];
    return was->u > 0 ? (learned->figure[f].value - was->value) / was->u : 0;
}

void pare_kept_text(const pare_sheet *thought, const pare_sheet *learned, const pare_screen *screen,
                    pare_text *out)
{
    enum { NAME = 28, NUMBER = 17 };
    char text[PARE_DIGITS], name[64];
    pare_put_left(out, "", 2 + NAME);
    pare_put_left(out, "thought", NUMBER);
    pare_put_left(out, "learned", NUMBER);
    pare_text_add(out, "moved\n");
    for (size_t i = 0; i < SHOWN; i++) {
        const pare_figure f = shown[i];
        const pare_figure_row *row = &pare_figure_table[f];
        if (!there(thought, learned, f))
            continue;
        const pare_sheet_figure *was = &thought->figure[f], *now = &learned->figure[f];
        snprintf(name, sizeof name, "%s%s%s", row->words, *row->unit ? ", " : "", row->unit);
        pare_put_spaces(out, 2);
        pare_put_left(out, name, NAME);
        pare_put_left(
            out, pare_digits_u(text, screen, row->scale * was->value, row->scale * was->u), NUMBER);
        pare_put_left(
            out, pare_digits_u(text, screen, row->scale * now->value, row->scale * now->u), NUMBER);
        pare_text_printf(out, "%+.1f u\n", moved_u(thought, learned, f));
    }
}

json_t *pare_kept_array(const pare_sheet *thought, const pare_sheet *learned)
{
    json_t *list = json_array();
    for (size_t i = 0; i < SHOWN; i++) {
        const pare_figure f = shown[i];
        const double scale = pare_figure_table[f].scale;
        if (!there(thought, learned, f))
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "figure", json_string(pare_figure_table[f].key));
        json_object_set_new(one, "thought", pare_json_number(scale * thought->figure[f].value));
        json_object_set_new(one, "thought_u", pare_json_number(scale * thought->figure[f].u));
        json_object_set_new(one, "learned", pare_json_number(scale * learned->figure[f].value));
        json_object_set_new(one, "learned_u", pare_json_number(scale * learned->figure[f].u));
        json_object_set_new(one, "moved_u", pare_json_number(moved_u(thought, learned, f)));
        json_array_append_new(list, one);
    }
    return list;
}
