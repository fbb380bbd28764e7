/* catalogue.h: what a bench holds: its parts and its craft, listed and one by one. */
#ifndef PARE_SHOW_CATALOGUE_H
#define PARE_SHOW_CATALOGUE_H

#include "advise/replace.h"
#include "craft/craft.h"
#include "craft/listed.h"
#include "craft/sheet.h"
#include "show/json.h"
#include "show/screen.h"

/** A table of parts; `money` is the bench's, NULL: not said. */
void pare_parts_text(size_t count, const pare_listed parts[], const char *money,
                     const pare_screen *screen, pare_text *out);
/** Parts that can replace an item: grams saved first.
 * @param loadout  its name; NULL: none */
void pare_replacements_text(const pare_craft *craft, const char *loadout, const pare_item *item,
                            size_t count, const pare_replacement list[], const char *money,
                            const pare_screen *screen, pare_text *out);
/** {"for": "CRAFT.ITEM", "fitted": PART, "parts": [{... "saved_g", "brings", "drops"}]} */
json_t *pare_replacements_object(const pare_craft *craft, const pare_item *item, size_t count,
                                 const pare_replacement list[]);
/** All about one part: mass, specs and how each is known, interfaces, what it includes, its price. */
void pare_part_text(const pare_part *part, const char *money, const pare_screen *screen,
                    pare_text *out);
/** What a stand measured of a part: of which pair, how many rows, over which volts. */
void pare_part_stands_text(const char *part, size_t count, const pare_stand_table table[],
                           pare_text *out);
/** [{"motor", "propeller", "rows", "low_v", "high_v", "fault"}] */
json_t *pare_stands_object(size_t count, const pare_stand_table table[]);
/** One part as an object; {"parts": [...]} is the caller's. */
json_t *pare_part_object(const pare_part *part);

/** One craft in a list: what it weighs as it is first flown, and how many limits it breaks. */
typedef struct pare_craft_row {
    const pare_craft *craft;
    bool computed;                           /* false: why not */
    double all_up_kg, all_up_u_kg, limit_kg; /* limit NAN: none */
    size_t broken;
    const char *why;
} pare_craft_row;
void pare_craft_list_text(size_t count, const pare_craft_row rows[], const pare_screen *screen,
                          pare_text *out);
json_t *pare_craft_row_object(const pare_craft_row *row);

/** All that a craft was said to be: items, joints, runs, loadouts, brief. */
void pare_craft_text(const pare_craft *craft, const pare_screen *screen, pare_text *out);
json_t *pare_craft_object(const pare_craft *craft);

#endif
