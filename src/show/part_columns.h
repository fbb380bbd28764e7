/* part_columns.h: the columns that tables of parts have in common, so that they stand alike. */
#ifndef PARE_SHOW_PART_COLUMNS_H
#define PARE_SHOW_PART_COLUMNS_H

#include "craft/listed.h"
#include "show/screen.h"

/** How wide each is. */
enum {
    PARE_COLUMN_ID = 17,
    PARE_COLUMN_KIND = 27,
    PARE_COLUMN_GRAMS = 7,
    PARE_COLUMN_DOUBT = 7,
    PARE_COLUMN_KNOWN = 9,
    PARE_COLUMN_PRICE = 7,
    PARE_COLUMN_OWNED = 5
};

/** An id in a column so wide, with a blank behind it however long it is. */
void pare_put_part_id(const char *id, int width, pare_text *out);
/** Grams and their uncertainty, in two columns. */
void pare_put_part_mass(const pare_value *mass_kg, const pare_screen *screen, pare_text *out);
/** Price and how many are owned, and what stands above them; `money` is the bench's, "" or NULL: not
 * said. */
void pare_put_money_heads(const char *money, pare_text *out);
void pare_put_money(const pare_listed *part, pare_text *out);

#endif
