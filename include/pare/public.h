/* public.h: what every header of the library needs. Include pare/pare.h. */
#ifndef PARE_PUBLIC_H
#define PARE_PUBLIC_H

#include <stddef.h>

/* Only what is marked so is seen outside the shared library. */
#if defined(__GNUC__)
#define PARE_PUBLIC __attribute__((visibility("default")))
#else
#define PARE_PUBLIC
#endif

#ifdef __cplusplus
#define PARE_BEGIN extern "C" {
#define PARE_END   }
#else
#define PARE_BEGIN
#define PARE_END
#endif

#endif
