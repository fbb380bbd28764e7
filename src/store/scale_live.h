/* scale_live.h: a reading from a scale that is connected: when it is at rest, and what it then shows.
 *
 * What sends (a USB scale, a serial port, a test) is behind two functions, so that all that can go wrong
 * with what is sent is judged in one place, without a device. */
#ifndef PARE_STORE_SCALE_LIVE_H
#define PARE_STORE_SCALE_LIVE_H

#include "base/error.h"
#include "base/progress.h"
#include "store/scale_seen.h"

typedef struct pare_scale_port {
    void *context;
    /** What the scale says next.
     * @param[out] any  false: it said nothing for this while, of `waited_s` seconds
     * @param[out] waited_s  how long that took, where nothing was said
     * @return PARE_OK; PARE_BAD_DATA: what it sends cannot be a weight; PARE_UNAVAILABLE: it is gone */
    pare_status (*next)(void *context, pare_scale_seen *seen, bool *any, double *waited_s,
                        pare_error *err);
    void (*close)(void *context);
} pare_scale_port;

/** Opens what somebody named: "usb", the first USB scale; a device file of a serial port, like
 * "/dev/ttyUSB0" or "/dev/ttyUSB0,4800" (bit/s; 9600 otherwise, 8 bits, no parity).
 * @param pattern  of a serial scale's lines; NULL: PARE_SCALE_PATTERN
 * @return PARE_OK, then close it; PARE_BAD_DATA: no such port, or a pattern that is none;
 *         PARE_UNAVAILABLE: there is no scale, or it cannot be opened, and what would help */
pare_status pare_scale_open(const char *device, const char *pattern, pare_scale_port *port,
                            pare_error *err);
void pare_scale_close(pare_scale_port *port);

/** Waits until something lies on the scale and is at rest: a scale that says so twice the same, any other
 * five times the same.
 *
 * @param empty     first wait until nothing lies on it any more
 * @param progress  asked between; NULL: nobody
 * @return PARE_OK with a weight over 0; PARE_BAD_DATA: overload, under zero, a fault, a unit that is not
 *         ours, garbage, or no rest in half a minute's worth of what it says; PARE_UNAVAILABLE: gone, or
 *         silent for ten seconds; PARE_STOPPED */
pare_status pare_scale_settle(const pare_scale_port *port, bool empty,
                              const pare_progress *progress, pare_scale_seen *seen,
                              pare_error *err);

/* The two kinds, by files of their own. */
pare_status pare_scale_open_usb(pare_scale_port *port, pare_error *err);
pare_status pare_scale_open_serial(const char *device, const char *pattern, pare_scale_port *port,
                                   pare_error *err);

#endif
