/* surprises.c: parts that are heavier than their law says (see surprises.h). */
#include "show/surprises.h"

#include <stdlib.h>
#include <string.h>

#include "show/digits.h"
#include "show/filled.h"
#include "show/part_columns.h"

void pare_surprises_text(size_t count, const pare_listed parts[], const pare_screen *screen,
                         pare_text *out)
{
    enum { SIGMAS = 6, KNOWN = 8 };
    char text[PARE_DIGITS];
    pare_put_left(out, "part", PARE_COLUMN_ID);
    pare_put_right(out, "grams", PARE_COLUMN_GRAMS);
    pare_put_spaces(out, PARE_COLUMN_DOUBT);
    pare_put_left(out, "known", KNOWN);
    pare_put_right(out, "by law", PARE_COLUMN_GRAMS);
    pare_put_spaces(out, PARE_COLUMN_DOUBT);
    pare_put_right(out, "sigmas", SIGMAS);
    pare_text_add(out, "  kind\n");
    for (size_t i = 0; i < count; i++) {
        const pare_listed *part = &parts[i];
        const pare_value law = {.value = part->surprise.law_kg.value, .u = part->surprise.law_kg.u};
        pare_put_part_id(part->id, PARE_COLUMN_ID, out);
        pare_put_part_mass(&part->mass_kg, screen, out);
        pare_put_left(out, pare_known_name(part->mass_kg.known), KNOWN);
        pare_put_part_mass(&law, screen, out);
        pare_put_right(out, pare_digits_at(text, part->surprise.sigmas, 1), SIGMAS);
        pare_text_printf(out, "  %s\n", pare_kind_name(part->kind));
    }
}

json_t *pare_surprise_object(const pare_surprise *surprise)
{
    json_t *object = json_object();
    json_object_set_new(object, "law_g", pare_json_number(1e3 * surprise->law_kg.value));
    json_object_set_new(object, "law_g_u", pare_json_number(1e3 * surprise->law_kg.u));
    json_object_set_new(object, "sigmas", pare_json_number(surprise->sigmas));
    return object;
}

static int most_first(const void *a, const void *b)
{
    const pare_listed *x = a, *y = b;
    if (x->surprise.sigmas != y->surprise.sigmas)
        return x->surprise.sigmas > y->surprise.sigmas ? -1 : 1;
    return strcmp(x->id, y->id);
}

size_t pare_craft_surprises(const pare_craft *craft, pare_listed list[PARE_ITEMS])
{
    size_t count = 0;
    for (size_t i = 0; i < craft->items; i++) {
        if (craft->item[i].off || pare_filled_before(craft, i))
            continue;
        const pare_listed part = pare_listed_of(craft->item[i].part);
        if (part.judged && part.surprise.sigmas > PARE_SURPRISING_SIGMAS)
            list[count++] = part;
    }
    if (count > 1)
        qsort(list, count, sizeof list[0], most_first);
    return count;
}
