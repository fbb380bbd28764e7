/* replace_show.c: what can replace an item, as text and JSON (see catalogue.h). */
#include <stdio.h>

#include "show/catalogue.h"
#include "show/digits.h"
#include "show/part_columns.h"

static void put_along(const char *what, size_t count, const char along[][64],
                      const pare_screen *screen, pare_text *out)
{
    enum { INDENT = 4 };
    pare_text line = {0};
    for (size_t i = 0; i < count; i++)
        pare_text_printf(&line, "%s%s", i ? ", " : what, along[i]);
    if (count > 0)
        pare_put_line(screen, out, INDENT, INDENT + 2, &line);
}

void pare_replacements_text(const pare_craft *craft, const char *loadout, const pare_item *item,
                            size_t count, const pare_replacement list[], const char *money,
                            const pare_screen *screen, pare_text *out)
{
    enum { SAVED = 6 };
    char text[PARE_DIGITS];
    pare_text head = {0};
    pare_text_printf(&head, "In place of %s: %d x %s", item->name, item->count, item->part->id);
    pare_text_printf(&head, " on %s%s%s; grams saved with all that comes and goes along",
                     craft->name, loadout ? ", loadout " : "", loadout ? loadout : "");
    pare_put_line(screen, out, 0, 0, &head);
    pare_text_add(out, "\n");
    pare_put_left(out, "part", PARE_COLUMN_ID);
    pare_put_right(out, "saved", SAVED);
    pare_put_right(out, "grams", PARE_COLUMN_GRAMS + 1);
    pare_put_spaces(out, PARE_COLUMN_DOUBT);
    pare_put_left(out, "known", PARE_COLUMN_KNOWN);
    pare_put_money_heads(money, out);
    pare_text_add(out, "  kind\n");
    for (size_t i = 0; i < count; i++) {
        const pare_listed part = pare_listed_of(list[i].part);
        pare_put_part_id(part.id, PARE_COLUMN_ID, out);
        pare_put_right(out, pare_digits_at(text, 1e3 * list[i].saved_kg, 1), SAVED);
        pare_text_add(out, " ");
        pare_put_part_mass(&part.mass_kg, screen, out);
        pare_put_left(out, pare_known_name(part.mass_kg.known), PARE_COLUMN_KNOWN);
        pare_put_money(&part, out);
        pare_text_printf(out, "  %s\n", pare_kind_name(part.kind));
        put_along("brings ", list[i].applied.brings, list[i].applied.bring, screen, out);
        put_along("takes away ", list[i].applied.drops, list[i].applied.drop, screen, out);
    }
    pare_text hint = {0};
    pare_text_printf(&hint, "What one does to the flight: pare sheet %s --try %s=%s", craft->name,
                     item->name, list[0].part->id);
    pare_text_add(out, "\n");
    pare_put_line(screen, out, 0, 2, &hint);
}

static json_t *texts(size_t count, const char text[][64])
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, json_string(text[i]));
    return list;
}

json_t *pare_replacements_object(const pare_craft *craft, const pare_item *item, size_t count,
                                 const pare_replacement list[])
{
    char place[128];
    json_t *object = json_object(), *parts = json_array();
    snprintf(place, sizeof place, "%s.%s", craft->name, item->name);
    json_object_set_new(object, "for", json_string(place));
    json_object_set_new(object, "fitted", json_string(item->part->id));
    for (size_t i = 0; i < count; i++) {
        const pare_applied *applied = &list[i].applied;
        json_t *one = pare_part_object(list[i].part);
        json_object_set_new(one, "saved_g", pare_json_number(1e3 * list[i].saved_kg));
        json_object_set_new(one, "brings", texts(applied->brings, applied->bring));
        json_object_set_new(one, "drops", texts(applied->drops, applied->drop));
        json_array_append_new(parts, one);
    }
    json_object_set_new(object, "parts", parts);
    return object;
}
