/* between.c: what has changed of one craft between two days (see between.h).
 *
 * What was typed comes first, then what was fitted, weighed, flown and learned: the figures above it are
 * what all of that comes to. */
#include "show/between.h"

#include <math.h>
#include <string.h>

#include "craft/learned.h"
#include "craft/taken.h"
#include "show/digits.h"
#include "show/sheet_json.h"
#include "show/weigh.h"

#define LEARNED_FROM 5e-4 /* of a factor: less is none */

/* ---- what was fitted ---- */

static const pare_taken *taken_on(const pare_craft *craft, const char *swap)
{
    for (size_t i = 0; i < craft->takens; i++)
        if (strcmp(craft->taken[i].swap, swap) == 0 && pare_taken_is_on(&craft->taken[i]))
            return &craft->taken[i];
    return NULL;
}

/* The day on which it came onto the craft. */
static const char *day_on(const pare_taken *taken)
{
    for (int s = PARE_STAGE_FITTED; s < PARE_STAGES; s++)
        if (taken->date[s])
            return taken->date[s];
    return "";
}

/* ---- what was learned ---- */

static double factor_of(const pare_taught *taught, pare_taught_number number)
{
    if (!taught)
        return 1;
    return pare_taught_by_share(number) ? 1 + taught->change[number] : exp(taught->change[number]);
}

static double factor_u(const pare_taught *taught, pare_taught_number number)
{
    return taught ? factor_of(taught, number) * pare_taught_u(taught, number) : 0;
}

static bool learned_apart(const pare_between *between, pare_taught_number number)
{
    const pare_taught *was = between->was->learned, *is = between->is->learned;
    return fabs(factor_of(was, number) - factor_of(is, number)) >= LEARNED_FROM;
}

static void put_factor(const pare_taught *taught, pare_taught_number number,
                       const pare_screen *screen, pare_text *line)
{
    char text[PARE_DIGITS];
    if (!taught)
        pare_text_add(line, "as thought");
    else if (factor_u(taught, number) > 0)
        pare_text_add(
            line, pare_digits_u(text, screen, factor_of(taught, number), factor_u(taught, number)));
    else
        pare_text_add(line, pare_digits_at(text, factor_of(taught, number), 3));
}

/* ---- as text ---- */

/* One line of a list, which begins with what it is about. @return an emptied line for the next */
static void put_line(const pare_screen *screen, pare_text *line, pare_text *out)
{
    pare_put_spaces(out, 2);
    pare_put_wrapped(screen, out, 2, 4, pare_text_all(line));
    out->failed |= line->failed;
    line->length = 0;
}

static size_t put_entries(const pare_between *b, const pare_screen *screen, pare_text *line,
                          pare_text *out)
{
    for (size_t i = 0; i < b->entries; i++) {
        const pare_between_entry *entry = &b->entry[i];
        pare_text_printf(line, "%s: ", entry->path);
        if (!entry->was)
            pare_text_printf(line, "%s, new", entry->is);
        else if (!entry->is)
            pare_text_printf(line, "gone, was %s", entry->was);
        else
            pare_text_printf(line, "%s, was %s", entry->is, entry->was);
        put_line(screen, line, out);
    }
    return b->entries;
}

static size_t put_fitted(const pare_between *b, const pare_screen *screen, pare_text *line,
                         pare_text *out)
{
    size_t put = 0;
    for (size_t i = 0; i < b->is->takens; i++) {
        const pare_taken *taken = &b->is->taken[i];
        if (!pare_taken_is_on(taken) || taken_on(b->was, taken->swap))
            continue;
        pare_text_printf(line, "fitted: %s, on %s", taken->swap, day_on(taken));
        put_line(screen, line, out);
        put++;
    }
    for (size_t i = 0; i < b->was->takens; i++)
        if (pare_taken_is_on(&b->was->taken[i]) && !taken_on(b->is, b->was->taken[i].swap)) {
            pare_text_printf(line, "taken back: %s", b->was->taken[i].swap);
            put_line(screen, line, out);
            put++;
        }
    return put;
}

static size_t put_readings(const pare_between *b, const pare_screen *screen, pare_text *line,
                           pare_text *out)
{
    for (size_t i = 0; i < b->weigh_ins; i++) {
        pare_text_printf(line, "weighed: %s ", b->weigh_in[i]->date);
        pare_weighed_words(b->weigh_in[i], line);
        pare_text_printf(line, " read %s", b->weigh_in[i]->reads);
        put_line(screen, line, out);
    }
    if (b->flights) {
        pare_text_printf(line, "flown: %zu flight%s", b->flights, b->flights == 1 ? "" : "s");
        put_line(screen, line, out);
    }
    return b->weigh_ins + (b->flights > 0);
}

static size_t put_learned(const pare_between *b, const pare_screen *screen, pare_text *line,
                          pare_text *out)
{
    const pare_taught *is = b->is->learned;
    size_t put = 0;
    for (int n = 0; n < PARE_TAUGHTS; n++) {
        if (!learned_apart(b, (pare_taught_number)n))
            continue;
        pare_text_printf(line, "learned: %s times ", pare_taught_name((pare_taught_number)n));
        put_factor(is, (pare_taught_number)n, screen, line);
        pare_text_add(line, ", was ");
        put_factor(b->was->learned, (pare_taught_number)n, screen, line);
        if (is)
            pare_text_printf(line, ", kept on %s", is->date);
        put_line(screen, line, out);
        put++;
    }
    return put;
}

void pare_between_text(const pare_between *b, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_add(out, "\n");
    pare_text_printf(&line, "What changed of %s from %s to %s", b->was->name, b->from, b->to);
    pare_put_heading(screen, out, pare_text_all(&line));
    line.length = 0;
    size_t put = put_entries(b, screen, &line, out);
    put += put_fitted(b, screen, &line, out);
    put += put_readings(b, screen, &line, out);
    put += put_learned(b, screen, &line, out);
    if (put == 0)
        pare_text_add(out, "  Nothing.\n");
    if (b->later && *b->since)
        pare_text_printf(&line,
                         "%s came onto this bench on %s: of %s it knows what is dated, readings, "
                         "flights, swaps and what was learned, and for the rest what was written "
                         "first.",
                         b->was->name, b->since, b->from);
    else if (b->later)
        pare_text_printf(&line, "This bench has no history of %s: only what is dated differs.",
                         b->was->name);
    if (b->later)
        pare_put_wrapped(screen, out, 0, 0, pare_text_all(&line));
    out->failed |= line.failed;
    pare_text_free(&line);
}

/* ---- as JSON ---- */

static json_t *entries_json(const pare_between *b)
{
    json_t *list = json_array();
    for (size_t i = 0; i < b->entries; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "path", json_string(b->entry[i].path));
        json_object_set_new(one, "was", pare_text_or_null(b->entry[i].was));
        json_object_set_new(one, "is", pare_text_or_null(b->entry[i].is));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *fitted_json(const pare_craft *on, const pare_craft *less)
{
    json_t *list = json_array();
    for (size_t i = 0; i < on->takens; i++)
        if (pare_taken_is_on(&on->taken[i]) && !taken_on(less, on->taken[i].swap)) {
            json_t *one = json_object();
            json_object_set_new(one, "swap", json_string(on->taken[i].swap));
            json_object_set_new(one, "date", json_string(day_on(&on->taken[i])));
            json_array_append_new(list, one);
        }
    return list;
}

static json_t *learned_json(const pare_between *b)
{
    json_t *list = json_array();
    for (int n = 0; n < PARE_TAUGHTS; n++) {
        const pare_taught_number number = (pare_taught_number)n;
        if (!learned_apart(b, number))
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "number", json_string(pare_taught_name(number)));
        json_object_set_new(one, "was", pare_json_number(factor_of(b->was->learned, number)));
        json_object_set_new(one, "was_u", pare_json_number(factor_u(b->was->learned, number)));
        json_object_set_new(one, "is", pare_json_number(factor_of(b->is->learned, number)));
        json_object_set_new(one, "is_u", pare_json_number(factor_u(b->is->learned, number)));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *readings_json(const pare_between *b)
{
    json_t *list = json_array();
    for (size_t i = 0; i < b->weigh_ins; i++) {
        pare_text of = {0};
        json_t *one = json_object();
        pare_weighed_words(b->weigh_in[i], &of);
        json_object_set_new(one, "date", json_string(b->weigh_in[i]->date));
        json_object_set_new(one, "of", json_string(pare_text_all(&of)));
        json_object_set_new(one, "reads", json_string(b->weigh_in[i]->reads));
        json_array_append_new(list, one);
        pare_text_free(&of);
    }
    return list;
}

json_t *pare_between_object(const pare_between *b)
{
    json_t *object = json_object();
    json_object_set_new(object, "craft", json_string(b->was->name));
    json_object_set_new(object, "from", json_string(b->from));
    json_object_set_new(object, "to", json_string(b->to));
    json_object_set_new(object, "since",
                        b->later && *b->since ? json_string(b->since) : json_null());
    json_object_set_new(object, "entries", entries_json(b));
    json_object_set_new(object, "fitted", fitted_json(b->is, b->was));
    json_object_set_new(object, "taken_back", fitted_json(b->was, b->is));
    json_object_set_new(object, "readings", readings_json(b));
    json_object_set_new(object, "flights", json_integer((json_int_t)b->flights));
    json_object_set_new(object, "learned", learned_json(b));
    return object;
}
