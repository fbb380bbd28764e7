/* version.c: which version the library is. */
#include <pare/pare.h>

const char *pare_library_version(void)
{
    return PARE_VERSION;
}
