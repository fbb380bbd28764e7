/* layout.h: where a frame puts things, worked out once for all items of a craft. Only this room uses
 * it; others ask pare_item_station(). */
#ifndef PARE_CRAFT_LAYOUT_H
#define PARE_CRAFT_LAYOUT_H

#include "craft/craft.h"

typedef struct pare_layout {
    const pare_piece *arms; /* NULL: the frame states none, or there is none */
    double motor_m;         /* height of a motor; 0: not known */
} pare_layout;

pare_layout pare_layout_of(const pare_craft *craft);

/** As pare_item_station(), of an item of that craft. */
pare_vec3 pare_layout_station(const pare_layout *layout, const pare_item *item, size_t which);

/** The first arms' motor axes; how many. */
size_t pare_layout_arms(const pare_layout *layout, size_t most, pare_vec3 arm_m[]);

#endif
