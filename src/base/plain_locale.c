/* plain_locale.c: a point as the decimal sign (see plain_locale.h). */
#include "base/plain_locale.h"

/* The C locale is one object of the C library's own, which is neither made nor freed. */
locale_t pare_plain_locale_enter(void)
{
    return uselocale(newlocale(LC_ALL_MASK, "C", (locale_t)0));
}

void pare_plain_locale_leave(locale_t before)
{
    uselocale(before);
}
