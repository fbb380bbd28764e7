/* report_json.c: what a report's page shows, as JSON (see report.h). */
#include "show/curve_words.h"
#include "show/json.h"
#include "show/report.h"
#include "show/sheet_json.h"

static json_t *numbers(size_t count, const double value[], double scale)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, pare_json_number(scale * value[i]));
    return list;
}

static json_t *curve(const pare_curve_chart *chart, const pare_curve_row *row)
{
    json_t *object = json_object(), *lines = json_array(), *marks = json_array();
    json_object_set_new(object, "name", json_string(row->name));
    json_object_set_new(object, "x", json_string(row->x.key));
    json_object_set_new(object, "y", json_string(row->y.key));
    size_t points = 0;
    for (size_t i = 0; i < chart->lines; i++) {
        const pare_curve_line *line = &chart->line[i];
        json_t *one = json_object();
        json_object_set_new(one, "name", pare_text_or_null(line->name));
        json_object_set_new(one, row->x.key, numbers(line->points, line->x, row->x.scale));
        json_object_set_new(one, row->y.key, numbers(line->points, line->y, row->y.scale));
        json_array_append_new(lines, one);
        points += line->points;
    }
    for (size_t i = 0; i < chart->marks; i++) {
        const pare_curve_mark *mark = &chart->mark[i];
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(mark->name));
        json_object_set_new(one, row->x.key, pare_json_number(row->x.scale * mark->x));
        json_object_set_new(one, row->y.key, pare_json_number(row->y.scale * mark->y));
        json_array_append_new(marks, one);
    }
    json_object_set_new(object, "lines", lines);
    json_object_set_new(object, "marks", marks);
    if (points == 0)
        json_object_set_new(object, "why", json_string(chart->why));
    return object;
}

json_t *pare_report_object(const pare_report *report)
{
    static const char *const views[] = {"ruler", "above", "side", "key", "curves"};
    const pare_sheet_view *view = report->view;
    json_t *object = json_object(), *list = json_array(), *notes = json_array(),
           *curves = json_array();
    json_object_set_new(object, "craft", json_string(view->craft.name));
    json_object_set_new(object, "loadout", pare_text_or_null(view->loadout));
    json_object_set_new(object, "tried", pare_text_or_null(view->tried));
    for (size_t i = 0; i < sizeof views / sizeof views[0]; i++)
        json_array_append_new(list, json_string(views[i]));
    json_object_set_new(object, "views", list);
    json_object_set_new(object, "width_mm", pare_json_number(report->paper->width_mm));
    json_object_set_new(object, "height_mm", pare_json_number(report->paper->height_mm));
    json_object_set_new(object, "scale", pare_json_number(report->scale));
    for (size_t i = 0; i < report->notes; i++)
        json_array_append_new(notes, json_string(report->note[i]));
    json_object_set_new(object, "notes", notes);
    for (int i = 0; i < PARE_CURVES; i++)
        json_array_append_new(curves, curve(&report->curve[i], &pare_curve_table[i]));
    json_object_set_new(object, "curves", curves);
    return object;
}
