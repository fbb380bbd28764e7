/* front_json.c: a front as JSON (see front_chart.h). */
#include "show/front_chart.h"
#include "show/json.h"

static json_t *point_object(const pare_front_chart *chart, const pare_front_point *point)
{
    const char *words = chart->words ? chart->words[point->set] : NULL;
    json_t *one = json_object();
    json_object_set_new(one, "all_up_g", pare_json_number(1e-4 * (double)point->mass_100ug));
    json_object_set_new(one, "money", pare_json_number(1e-2 * (double)point->money_cents));
    json_object_set_new(one, "flown_min", pare_json_number((double)point->flown_ms / 60000));
    json_object_set_new(one, "knee", json_boolean(point->knee));
    if (words)
        json_object_set_new(one, "set", json_string(words));
    return one;
}

json_t *pare_front_object(const pare_front_chart *chart)
{
    json_t *object = json_object(), *points = json_array();
    json_object_set_new(object, "front",
                        json_sprintf("%s-%s", pare_front_wish_name(chart->pair[0]),
                                     pare_front_wish_name(chart->pair[1])));
    json_object_set_new(object, "whole", json_boolean(chart->whole));
    for (size_t i = 0; i < chart->count; i++)
        json_array_append_new(points, point_object(chart, &chart->point[i]));
    json_object_set_new(object, "points", points);
    return object;
}
