/* unlearned.c: what was learned beside what is thought (see unlearned.h).
 *
 * What flights taught of a motor with its propeller says nothing of others, so that a swap of either leaves
 * it behind (craft/learned.h). Where it had moved the craft's own far, the swap seems to move it back: that
 * is a difference of two ways to judge, not of two motors, and is said wherever both stand side by side. */
#include "show/unlearned.h"

#include <string.h>

bool pare_swap_is_unlearned(const pare_craft *craft, const char *id)
{
    const size_t length = strcspn(id, "=");
    if (!pare_taught_flew(craft) || !id[length])
        return false;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (strncmp(item->name, id, length) == 0 && !item->name[length])
            return pare_part_does(item->part, PARE_MOTOR) ||
                   pare_part_does(item->part, PARE_PROPELLER);
    }
    return false;
}

void pare_unlearned_words(const pare_craft *craft, pare_text *line)
{
    const pare_taught *taught = craft->learned;
    if (!pare_taught_flew(craft))
        return;
    pare_text_printf(
        line,
        "The craft's own motor and propeller go by what %d flight%s taught, kept on %s, "
        "others by the model alone: minutes, hover and thrust set the one against the "
        "other.",
        taught->flights, taught->flights == 1 ? "" : "s", taught->date);
}
