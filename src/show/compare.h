/* compare.h: craft, loadouts or trials side by side. */
#ifndef PARE_SHOW_COMPARE_H
#define PARE_SHOW_COMPARE_H

#include "show/json.h"
#include "show/screen.h"
#include "show/sheet_view.h"

enum { PARE_COMPARED = 8 };

typedef struct pare_compared {
    char name[160];          /* "hedgerow:race", or what is tried */
    const pare_craft *craft; /* loaded */
    const pare_sheet *sheet; /* with uncertainties */
} pare_compared;

/** What differs first: figures, then items; then what is alike. Two figures differ where what is
 * written of them differs. */
void pare_compare_text(size_t count, const pare_compared columns[], const pare_screen *screen,
                       pare_text *out);

/** {"compare": [{"name", figures ...}]}: a new reference. */
json_t *pare_compare_object(size_t count, const pare_compared columns[]);

#endif
