/* best_ways_show.c: the best few sets that differ in a part, and how far the best one stands (see best.h). */
#include <math.h>
#include <string.h>

#include "craft/figure.h"
#include "show/best.h"
#include "show/digits.h"

static bool is_money(const pare_best_view *view)
{
    return view->wished && view->wished->wish == PARE_WISH_MONEY;
}

/* The swaps of parts that one way has and another has not. */
static size_t add_other(const pare_best *way, const pare_best *than, const char *begin,
                        pare_text *line)
{
    size_t count = 0;
    for (size_t i = 0; i < way->swaps; i++) {
        const char *id = way->swap[i].applied.id;
        if (pare_best_is_part(id) && !pare_best_has_swap(than, id))
            pare_text_printf(line, "%s%s", count++ ? ", " : begin, id);
    }
    return count;
}

static void put_way(const pare_best_view *view, size_t index, const pare_screen *screen,
                    pare_text *out)
{
    const pare_best *way = &view->ways->way[index], *best = &view->ways->way[0];
    const double more = pare_best_grams(way->best_100ug - best->best_100ug);
    pare_text line = {0};
    pare_text_printf(&line, "%zu: %.2f g, %.2f g %s", index + 1, pare_best_grams(way->best_100ug),
                     fabs(more), more < 0 ? "less" : "more");
    if (way->priced)
        pare_text_printf(&line, ", %.2f%s%s", way->money, view->money ? " " : "",
                         view->money ? view->money : "");
    const size_t with = add_other(way, best, ": with ", &line);
    (void)add_other(best, way, with ? "; without " : ": without ", &line);
    pare_put_line(screen, out, 2, 5, &line);
}

/* ---- how far it stands ---- */

static void put_stands(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    pare_best_stand stand[PARE_BEST_SWAPS];
    const size_t count = pare_best_stands(view->ways, stand);
    const char *unit = is_money(view) ? (view->money ? view->money : "of money") : "g";
    const char *worse = is_money(view) ? "dearer" : "heavier";
    pare_text line = {0};
    size_t far = 0;
    for (size_t i = 0; i < count; i++) {
        const pare_best_stand *one = &stand[i];
        const char *id = view->best->swap[one->swap].applied.id;
        if (one->way == 0) {
            if (far++ == 0)
                pare_text_printf(&line, "by more than %.2f %s: ", one->gap, unit);
            pare_text_printf(&line, "%s%s", far > 1 ? ", " : "", id);
            continue;
        }
        pare_text_printf(&line, "%s until it is %.2f %s %s", id, one->gap, unit, worse);
        if (one->pieces > 1)
            pare_text_printf(&line, " (%.2f each)", one->gap / one->pieces);
        pare_text_printf(&line, ", then way %zu", one->way + 1);
        pare_put_line(screen, out, 2, 4, &line);
    }
    if (far)
        pare_put_line(screen, out, 2, 4, &line);
}

/* A stricter limit only takes sets away, so the best stays it as long as it keeps to it. */
static bool may_tighten(const pare_best_view *view, const pare_limit *limit, double *to,
                        const pare_figure_row **row)
{
    const int figure = pare_figure_of_limit(limit->key);
    if (figure < 0 || !view->best->sheet_after->figure[figure].exists)
        return false;
    *row = &pare_figure_table[figure];
    *to = (*row)->scale * view->best->sheet_after->figure[figure].value;
    return true;
}

static void put_limits(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_brief *brief = &view->best->before->brief;
    pare_text line = {0};
    for (size_t i = 0; i < brief->limits; i++) {
        char from[PARE_DIGITS];
        double to;
        const pare_figure_row *row;
        if (!may_tighten(view, &brief->limit[i], &to, &row))
            continue;
        const double told = (brief->limit[i].at_least ? floor(100 * to) : ceil(100 * to)) / 100;
        pare_text_printf(&line, "%s%s from %s to %.2f%s%s",
                         line.length ? "; " : "limits may be stricter: ", row->words,
                         pare_digits_limit(from, row->scale * brief->limit[i].value), told,
                         row->unit[0] ? " " : "", row->unit);
    }
    if (pare_text_any(&line))
        pare_put_line(screen, out, 2, 4, &line);
}

void pare_best_put_ways(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best_ways *ways = view->ways;
    pare_text line = {0};
    if (!ways)
        return;
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "Other ways, each with other parts than all before it");
    for (size_t i = 1; i < ways->count; i++)
        put_way(view, i, screen, out);
    if (ways->all && ways->proven)
        pare_text_add(&line, ways->count > 1 ? "There are no more." : "There is none.");
    else if (!ways->proven)
        pare_text_add(&line, "Stopped: these are not proven to be the next best.");
    if (pare_text_any(&line))
        pare_put_line(screen, out, 2, 2, &line);
    if (!ways->proven)
        return;
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "How far the best one stands, as long as limits are kept");
    put_stands(view, screen, out);
    put_limits(view, screen, out);
}

/* ---- JSON ---- */

static json_t *way_object(const pare_best *way)
{
    json_t *object = json_object();
    pare_text list = {0};
    for (size_t i = 0; i < way->swaps; i++)
        pare_text_printf(&list, "%s%s", i ? "," : "", way->swap[i].applied.id);
    json_object_set_new(object, "best_g", pare_json_number(pare_best_grams(way->best_100ug)));
    json_object_set_new(object, "money", way->priced ? pare_json_number(way->money) : json_null());
    json_object_set_new(object, "work_min", pare_json_number(way->work->minutes));
    json_object_set_new(object, "try", json_string(pare_text_all(&list)));
    pare_text_free(&list);
    return object;
}

static json_t *stands_list(const pare_best_view *view)
{
    pare_best_stand stand[PARE_BEST_SWAPS];
    const size_t count = pare_best_stands(view->ways, stand);
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "id", json_string(view->best->swap[stand[i].swap].applied.id));
        json_object_set_new(one, is_money(view) ? "until_money" : "until_g",
                            pare_json_number(stand[i].gap));
        json_object_set_new(one, "pieces", json_integer(stand[i].pieces));
        json_object_set_new(
            one, "way", stand[i].way ? json_integer((json_int_t)stand[i].way + 1) : json_null());
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *stricter_list(const pare_best_view *view)
{
    const pare_brief *brief = &view->best->before->brief;
    json_t *list = json_array();
    for (size_t i = 0; i < brief->limits; i++) {
        double to;
        const pare_figure_row *row;
        if (!may_tighten(view, &brief->limit[i], &to, &row))
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "limit", json_string(brief->limit[i].key));
        json_object_set_new(one, "unit", json_string(row->unit));
        json_object_set_new(one, "from", pare_json_number(row->scale * brief->limit[i].value));
        json_object_set_new(one, "to", pare_json_number(to));
        json_array_append_new(list, one);
    }
    return list;
}

void pare_best_ways_into(json_t *object, const pare_best_view *view)
{
    if (!view->ways)
        return;
    json_t *list = json_array();
    for (size_t i = 0; i < view->ways->count; i++)
        json_array_append_new(list, way_object(&view->ways->way[i]));
    json_object_set_new(object, "ways", list);
    json_object_set_new(object, "ways_proven", json_boolean(view->ways->proven));
    json_object_set_new(object, "ways_all", json_boolean(view->ways->all));
    json_object_set_new(object, "stands", stands_list(view));
    json_object_set_new(object, "stricter", stricter_list(view));
}
