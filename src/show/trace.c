/* trace.c: one flight as one curve (see trace.h).
 *
 * The sentence says what the line does for who does not see it: the craft's own point, the others that
 * are marked, and how far the line goes. A point is as uncertain, by its share, as the sheet's figure that
 * rests on the same laws; a wire's by the 15 % of its rise that the laws of convection are good for. */
#include "show/trace.h"

#include <math.h>
#include <stdlib.h>

#include "physics/wire_heat.h"
#include "show/digits.h"
#include "show/json.h"
#include "show/sheet_json.h"

#define MINUTE     (1.0 / 60)
#define DEGREE     57.29577951308232 /* 180 / pi */
#define TEXT_EVERY 4

typedef struct axis {
    const char *words, *unit;
    double scale; /* SI times this is the figure in its unit */
} axis;

static const struct row {
    const char *name, *words;
    axis x, y;
    pare_figure figure; /* whose doubt a point shares; PARE_FIGURES: a wire's */
} rows[PARE_TRACES] = {
    [PARE_TRACE_MINUTES] = {"minutes",
                            "minutes in level flight, until it lands",
                            {"speed", "m/s", 1},
                            {"minutes", "min", MINUTE},
                            PARE_FLOWN_TIME},
    [PARE_TRACE_CURRENT] = {"current",
                            "current in level flight, on half charge",
                            {"speed", "m/s", 1},
                            {"pack current", "A", 1},
                            PARE_HOVER_A},
    [PARE_TRACE_SAG] = {"sag",
                        "volts of a cell under the hardest load of the flight",
                        {"since take-off", "min", MINUTE},
                        {"cell", "V", 1},
                        PARE_LANDING_CELL_V},
    [PARE_TRACE_WIRE] = {"wire",
                         "the hottest wire over the flight",
                         {"since take-off", "min", MINUTE},
                         {"copper", "C", 1},
                         PARE_FIGURES},
    [PARE_TRACE_ROLL] = {"roll",
                         "roll rate after full stick, fresh pack",
                         {"since the stick", "ms", 1e3},
                         {"roll rate", "deg/s", DEGREE},
                         PARE_ROLL},
};

int pare_trace_named(const char *name)
{
    for (int i = 0; i < PARE_TRACES; i++)
        if (pare_same_name(rows[i].name, name))
            return i;
    return -1;
}

const char *pare_trace_name(pare_trace_of which)
{
    return rows[which].name;
}

/* In the unit shown; 0: not known. */
static double doubt(const pare_sheet *sheet, pare_trace_of which, double y)
{
    const struct row *row = &rows[which];
    if (row->figure == PARE_FIGURES)
        return PARE_CONVECTION_U * fabs(y - sheet->rig.air.temperature_degc);
    const pare_sheet_figure *f = &sheet->figure[row->figure];
    return f->exists && sheet->with_u && f->value > 0 ? row->y.scale * fabs(y) * f->u / f->value
                                                      : 0;
}

/* ---- the sentence ---- */

static void put_y(pare_text *out, const pare_sheet *sheet, pare_trace_of which, double y)
{
    char text[PARE_DIGITS];
    const axis *of = &rows[which].y;
    pare_text_printf(out, "%s %s", pare_digits(text, of->scale * y, doubt(sheet, which, y)),
                     of->unit);
}

static void put_x(pare_text *out, pare_trace_of which, double x)
{
    char text[PARE_DIGITS];
    const axis *of = &rows[which].x;
    pare_text_printf(out, "%s %s", pare_digits(text, of->scale * x, 0), of->unit);
}

static size_t extreme(const pare_curve_line *line, bool most)
{
    size_t found = 0;
    for (size_t i = 1; i < line->points; i++)
        if (most ? line->y[i] > line->y[found] : line->y[i] < line->y[found])
            found = i;
    return found;
}

static void put_sentence(pare_text *out, const pare_sheet *sheet, pare_trace_of which,
                         const pare_curve_chart *chart)
{
    const pare_curve_line *line = &chart->line[0];
    const struct row *row = &rows[which];
    pare_text_printf(out, "%c%s", row->words[0] - 'a' + 'A', row->words + 1);
    if (line->points == 0) {
        pare_text_printf(out, ": none, %s.", chart->why);
        return;
    }
    for (size_t i = 0; i < chart->marks; i++) {
        pare_text_printf(out, "%s %s (", i ? ";" : ":", chart->mark[i].name);
        put_x(out, which, chart->mark[i].x);
        pare_text_add(out, ") ");
        put_y(out, sheet, which, chart->mark[i].y);
    }
    const size_t least = extreme(line, false), most = extreme(line, true);
    pare_text_add(out, ". The line goes from ");
    put_y(out, sheet, which, line->y[0]);
    pare_text_add(out, " at ");
    put_x(out, which, line->x[0]);
    pare_text_add(out, " to ");
    put_y(out, sheet, which, line->y[line->points - 1]);
    pare_text_add(out, " at ");
    put_x(out, which, line->x[line->points - 1]);
    const size_t inside[] = {least, most};
    const char *before = ", with the ";
    for (int i = 0; i < 2; i++) {
        if (inside[i] == 0 || inside[i] + 1 == line->points)
            continue;
        pare_text_printf(out, "%s%s, ", before, i ? "most" : "least");
        put_y(out, sheet, which, line->y[inside[i]]);
        pare_text_add(out, ", at ");
        put_x(out, which, line->x[inside[i]]);
        before = " and the ";
    }
    pare_text_add(out, ".");
    if (which == PARE_TRACE_WIRE)
        pare_text_printf(out,
                         " The wire is that of run %s, with the ways of flying one after "
                         "another, each in one piece, in still air.",
                         line->name);
    if (which == PARE_TRACE_ROLL)
        pare_text_add(out, " One side at full throttle, the other idling; the air does not slow "
                           "the roll yet.");
}

/* ---- JSON ---- */

static json_t *axis_object(const axis *of, size_t count, const double value[])
{
    json_t *object = json_object(), *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, pare_json_number(of->scale * value[i]));
    json_object_set_new(object, "name", json_string(of->words));
    json_object_set_new(object, "unit", json_string(of->unit));
    json_object_set_new(object, "values", list);
    return object;
}

static json_t *marks(const pare_sheet *sheet, pare_trace_of which, const pare_curve_chart *chart)
{
    json_t *list = json_array();
    for (size_t i = 0; i < chart->marks; i++) {
        const pare_curve_mark *mark = &chart->mark[i];
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(mark->name));
        json_object_set_new(one, "x", pare_json_number(rows[which].x.scale * mark->x));
        json_object_set_new(one, "y", pare_json_number(rows[which].y.scale * mark->y));
        json_object_set_new(one, "y_u", pare_json_number(doubt(sheet, which, mark->y)));
        json_array_append_new(list, one);
    }
    return list;
}

json_t *pare_trace_object(const pare_sheet_view *view, pare_trace_of which)
{
    const struct row *row = &rows[which];
    pare_curve_chart *chart = malloc(sizeof *chart);
    pare_text sentence = {0};
    json_t *object = NULL;
    if (!chart)
        return NULL;
    pare_trace(&view->craft, &view->sheet, which, chart);
    put_sentence(&sentence, &view->sheet, which, chart);
    const pare_curve_line *line = &chart->line[0];
    if (!sentence.failed)
        object = json_object();
    json_object_set_new(object, "craft", json_string(view->craft.name));
    json_object_set_new(object, "loadout", pare_text_or_null(view->loadout));
    json_object_set_new(object, "tried", pare_text_or_null(view->tried));
    json_object_set_new(object, "of", json_string(row->name));
    json_object_set_new(object, "words", json_string(row->words));
    json_object_set_new(object, "sentence", json_string(sentence.bytes));
    if (line->name)
        json_object_set_new(object, "run", json_string(line->name));
    json_object_set_new(object, "x", axis_object(&row->x, line->points, line->x));
    json_object_set_new(object, "y", axis_object(&row->y, line->points, line->y));
    json_object_set_new(object, "marks", marks(&view->sheet, which, chart));
    if (line->points == 0)
        json_object_set_new(object, "why", json_string(chart->why));
    pare_text_free(&sentence);
    free(chart);
    return object;
}

/* ---- text ---- */

void pare_trace_text(const pare_sheet_view *view, pare_trace_of which, const pare_screen *screen,
                     pare_text *out)
{
    enum { X = 16, Y = 16 };
    const struct row *row = &rows[which];
    pare_curve_chart *chart = malloc(sizeof *chart);
    pare_text sentence = {0};
    char text[PARE_DIGITS], field[64];
    if (!chart) {
        out->failed = true;
        return;
    }
    pare_trace(&view->craft, &view->sheet, which, chart);
    put_sentence(&sentence, &view->sheet, which, chart);
    pare_put_line(screen, out, 0, 0, &sentence);
    const pare_curve_line *line = &chart->line[0];
    for (size_t i = 0; i < line->points; i++) {
        if (i % TEXT_EVERY && i + 1 != line->points)
            continue;
        if (i == 0) {
            snprintf(field, sizeof field, "%s, %s", row->x.words, row->x.unit);
            pare_text_add(out, "\n");
            pare_put_right(out, field, X + 6);
            snprintf(field, sizeof field, "%s, %s", row->y.words, row->y.unit);
            pare_put_right(out, field, Y + 6);
            pare_text_add(out, "\n");
        }
        pare_put_right(out, pare_digits(text, row->x.scale * line->x[i], 0), X + 6);
        pare_put_right(
            out,
            pare_digits(text, row->y.scale * line->y[i], doubt(&view->sheet, which, line->y[i])),
            Y + 6);
        pare_text_add(out, "\n");
    }
    free(chart);
}
