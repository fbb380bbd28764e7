/* plain_locale.h: a point as the decimal sign, whatever the process has set.
 *
 * Numbers are read and written with the C library, which goes by the process's locale: with a German one
 * "12.5" ends at the point. A program of ours never sets LC_NUMERIC, but one that uses us as a library may
 * have. Only the calling thread is changed; threads that a search starts do it for themselves. */
#ifndef PARE_BASE_PLAIN_LOCALE_H
#define PARE_BASE_PLAIN_LOCALE_H

#include <locale.h>

/** The calling thread goes by the C locale from now on. Cannot fail: that locale is always there.
 * @return what pare_plain_locale_leave() takes */
locale_t pare_plain_locale_enter(void);
/** And by the one that it had before. */
void pare_plain_locale_leave(locale_t before);

#endif
