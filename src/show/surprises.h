/* surprises.h: parts that are heavier than the law of their kind says, on a bench or a craft. */
#ifndef PARE_SHOW_SURPRISES_H
#define PARE_SHOW_SURPRISES_H

#include "craft/craft.h"
#include "craft/listed.h"
#include "show/json.h"
#include "show/screen.h"

/** A table: what each weighs, what the law says, how many sigmas lie between. All are judged. */
void pare_surprises_text(size_t count, const pare_listed parts[], const pare_screen *screen,
                         pare_text *out);
/** {"law_g", "law_g_u", "sigmas"} */
json_t *pare_surprise_object(const pare_surprise *surprise);

/** The surprises among the parts that are on a craft, each once, most sigmas first.
 * @return how many */
size_t pare_craft_surprises(const pare_craft *craft, pare_listed list[PARE_ITEMS]);

#endif
