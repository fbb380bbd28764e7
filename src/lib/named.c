/* named.c: what a caller names (see named.h). */
#include "lib/named.h"

#include "base/text.h"

pare_status pare_unknown_name(const char *what, const char *name, size_t count,
                              const char *const names[], const char *see, pare_error *err)
{
    enum { FEW = 8 };
    const char *near = pare_nearest(name, count, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "no %s '%s'; did you mean %s?", what, name, near);
    if (count == 0 || count > FEW)
        return pare_fail(err, PARE_UNKNOWN, "no %s '%s'; %s", what, name, see);
    pare_text list = {0};
    for (size_t i = 0; i < count; i++)
        pare_text_printf(&list, "%s%s", i ? ", " : "", names[i]);
    pare_fail(err, PARE_UNKNOWN, "no %s '%s'; there %s %s", what, name, count > 1 ? "are" : "is",
              list.bytes ? list.bytes : "none");
    pare_text_free(&list);
    return PARE_UNKNOWN;
}

pare_status pare_loadout_named(const pare_craft *craft, const char *name, int *index,
                               pare_error *err)
{
    *index = craft->loadouts ? 0 : -1;
    if (!name)
        return PARE_OK;
    *index = pare_craft_loadout(craft, name);
    if (*index >= 0)
        return PARE_OK;
    const char *names[PARE_LOADOUTS];
    for (size_t i = 0; i < craft->loadouts; i++)
        names[i] = craft->loadout[i].name;
    return pare_unknown_name("loadout", name, craft->loadouts, names, "this craft has none", err);
}

pare_status pare_wish_asked(const char *name, pare_wish *wish, pare_error *err)
{
    const char *wishes[PARE_WISHES];
    const int asked = name ? pare_wish_named(name) : PARE_WISH_GRAMS;
    if (asked >= 0) {
        *wish = (pare_wish)asked;
        return PARE_OK;
    }
    for (int i = 0; i < PARE_WISHES; i++)
        wishes[i] = pare_wish_name((pare_wish)i);
    const char *near = pare_nearest(name, PARE_WISHES, wishes);
    if (near)
        return pare_fail(err, PARE_BAD_DATA, "no wish '%s'; did you mean %s?", name, near);
    return pare_fail(err, PARE_BAD_DATA,
                     "no wish '%s'; there are grams, minutes, thrust, quickness, money, crash",
                     name);
}
