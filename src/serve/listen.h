/* listen.h: the socket that the server listens at. Inside the room only. */
#ifndef PARE_SERVE_LISTEN_H
#define PARE_SERVE_LISTEN_H

#include "base/error.h"

enum {
    LISTEN_ADDRESS = 48
}; /* bytes of an address by number, in brackets where it is of version 6 */

/** Makes it: the library's option for an address has another name in its next version.
 *
 * @param address     by number; NULL: 127.0.0.1
 * @param wanted      the port; 0: one that is free
 * @param[out] port   the one that it has
 * @return -1 with an error: PARE_BAD_DATA where the address is none of this machine's, PARE_UNAVAILABLE
 *         where the port is taken */
int pare_listen_at(const char *address, unsigned short wanted, unsigned short *port,
                   pare_error *err);

/** The address at which a connection came in, as a Host header has it; "" where it is not known. */
void pare_listen_local(int connection, char text[LISTEN_ADDRESS]);

#endif
