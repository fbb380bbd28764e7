/* shopping.h: what to buy, as it is sold, and what to cut, as text and JSON. */
#ifndef PARE_SHOW_SHOPPING_H
#define PARE_SHOW_SHOPPING_H

#include <jansson.h>

#include "advise/shopping.h"
#include "show/screen.h"

/** "To buy" by seller, and "To cut"; nothing where neither has a line.
 * @param money  the bench's: "EUR"; NULL: not said */
void pare_shopping_text(const pare_shopping *shopping, const char *money, const pare_screen *screen,
                        pare_text *out);

/** {"parts": [], "screws": [], "wires": [], "sellers": [], "money", "priced", "money_unit"}: a new
 * reference. */
json_t *pare_shopping_object(const pare_shopping *shopping, const char *money);
/** {"wires": [], "coax": [], "screws": []}: a new reference. */
json_t *pare_cutting_object(const pare_shopping *shopping);

/* Inside the room: */
enum { PARE_SORT_WORDS = 96 };
/** "M3 x 8 mm titanium screws, ISO 4762"; "M5 aluminium nuts, ISO 4032". Returns text. */
const char *pare_screws_words(char text[PARE_SORT_WORDS], pare_fastener standard, double nominal_m,
                              double length_m, pare_screw_material material);
/** "2 sets of 4", "1 bag of 10", "3". Returns text. */
const char *pare_sets_words(char text[PARE_SORT_WORDS], const pare_shop_part *row);

#endif
