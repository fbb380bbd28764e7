/* filled.c: what laws filled in (see filled.h). Stator and volts are two specs under one name, which
 * is given once. */
#include "show/filled.h"

#include <string.h>

size_t pare_filled_names(const pare_part *part, const char *names[])
{
    const unsigned long long filled = pare_part_filled(part);
    size_t count = 0;
    if (filled & PARE_FILLED_MASS)
        names[count++] = "mass";
    for (int s = 0; s < PARE_SPECS; s++) {
        const pare_spec_row *row =
            filled & (1ull << s) ? pare_spec_find(part->kind, (pare_spec)s) : NULL;
        if (row && (count == 0 || strcmp(names[count - 1], row->name) != 0))
            names[count++] = row->name;
    }
    return count;
}

bool pare_filled_before(const pare_craft *craft, size_t item)
{
    for (size_t i = 0; i < item; i++)
        if (!craft->item[i].off && craft->item[i].part == craft->item[item].part)
            return true;
    return false;
}
