/* certificate.h: what a browser is shown when the server is reached from other machines. Inside the room
 * only.
 *
 * A user who has a certificate gives it as one PEM file, with its key in it. Who has none gets one that
 * is signed by nobody else: a browser warns of it once, and its fingerprint, which whoever starts the
 * server sees, says whether it is the right one. */
#ifndef PARE_SERVE_CERTIFICATE_H
#define PARE_SERVE_CERTIFICATE_H

#include "base/arena.h"
#include "base/error.h"

enum { CERTIFICATE_FINGERPRINT = 96 }; /* 32 bytes as "AB:CD:...", and a NUL */

typedef struct pare_certificate {
    const char *pem; /* key and chain */
    char fingerprint[CERTIFICATE_FINGERPRINT];
} pare_certificate;

/** Reads a user's own.
 *
 * @param arena  holds it
 * @return PARE_OK; PARE_BAD_DATA where it is not to be read, everybody may read it, its key is another's,
 *         or its time is over */
pare_status pare_certificate_read(const char *path, pare_arena *arena,
                                  pare_certificate *certificate, pare_error *err);

/** Reads the one that this program made, or makes it where there is none that still serves: its time is
 * over, or it does not name the address.
 *
 * @param path     of the file, which nobody else may read; its folders are made
 * @param address  by number
 * @return as for pare_certificate_read(); PARE_UNAVAILABLE where it cannot be kept */
pare_status pare_certificate_own(const char *path, const char *address, pare_arena *arena,
                                 pare_certificate *certificate, pare_error *err);

#endif
