/* part_columns.c: what tables of parts have in common (see part_columns.h). */
#include "show/part_columns.h"

#include <math.h>
#include <stdio.h>

#include "show/digits.h"

void pare_put_part_id(const char *id, int width, pare_text *out)
{
    pare_put_left(out, id, width);
    if (pare_columns(id) >= width)
        pare_text_add(out, " ");
}

void pare_put_part_mass(const pare_value *mass_kg, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS], field[64];
    const double grams = 1e3 * mass_kg->value, u = 1e3 * mass_kg->u;
    pare_put_right(out, pare_digits(text, grams, u), PARE_COLUMN_GRAMS);
    snprintf(field, sizeof field, " %s%s", pare_screen_plus_minus(screen), pare_digits(text, u, u));
    pare_put_left(out, u > 0 ? field : "", PARE_COLUMN_DOUBT);
}

void pare_put_money_heads(const char *money, pare_text *out)
{
    pare_put_right(out, money && *money ? money : "price", PARE_COLUMN_PRICE);
    pare_put_right(out, "own", PARE_COLUMN_OWNED);
}

void pare_put_money(const pare_listed *part, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_put_right(out, isfinite(part->price) ? pare_digits_at(text, part->price, 2) : "",
                   PARE_COLUMN_PRICE);
    snprintf(text, sizeof text, "%d", part->owned);
    pare_put_right(out, text, PARE_COLUMN_OWNED);
}
