/* front_chart.h: a front of two wishes as a chart on a terminal, as a picture, as a list, as JSON.
 *
 * What no set reaches is shaded: the edge of the shade is the front. It is drawn in steps, since nothing
 * lies between two sets: with a little less money than the next one costs, one has the one before. */
#ifndef PARE_SHOW_FRONT_CHART_H
#define PARE_SHOW_FRONT_CHART_H

#include <jansson.h>

#include "advise/front.h"
#include "show/draw_page.h"
#include "show/screen.h"

typedef struct pare_front_chart {
    const char *title; /* "fieldfare, loadout film" */
    const char *money; /* the bench's, "EUR"; "" or NULL: not said */
    pare_front_wish pair[2];
    size_t count;
    const pare_front_point *point; /* [count], as pare_front_keep() leaves them */
    const pare_front_point *now;   /* the craft as it is; NULL: not shown */
    bool whole;                    /* false: there may be more */
    const char *const *words;      /* [by set]: its swaps, separated by ", "; NULL: not said */
} pare_front_chart;

/** A sentence, the chart, and a row a point with its knees named, the swaps of the first and what is new in
 * each after it. A front of no point says so. */
void pare_front_text(const pare_front_chart *chart, const pare_screen *screen, pare_text *out);

/** "12 sets that nothing beats in grams and money, 2 of them knees". */
void pare_front_sentence(const pare_front_chart *chart, pare_text *out);

/** {"front": "grams-money", "whole": true, "points": [{"all_up_g", "money", "flown_min", "knee", "set"}]}.
 * NULL when memory runs out. */
json_t *pare_front_object(const pare_front_chart *chart);

/** The chart on a page of its own; its bytes go to the end of `out`, the same for the same chart.
 * @return as pare_page_open(); a front of no point is an empty chart that says so */
pare_status pare_front_page(const pare_front_chart *chart, pare_page_form form, pare_text *out,
                            pare_error *err);

#define PARE_FRONT_WIDTH_MM  160
#define PARE_FRONT_HEIGHT_MM 105

#endif
