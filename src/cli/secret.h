/* secret.h: a password, from a file or from the terminal; never from the command line, where every
 * program of the machine could read it. */
#ifndef PARE_CLI_SECRET_H
#define PARE_CLI_SECRET_H

#include "base/error.h"
#include "base/progress.h"
#include "base/text.h"

/** Reads a password.
 *
 * @param file      its first line is the password; others must not be able to read it. NULL: it is typed,
 *                  twice and unseen, at the terminal
 * @param progress  while it is typed: says when somebody has had enough
 * @param[out] password  wipe with secret_wipe()
 * @return PARE_OK; PARE_BAD_DATA where there is none, the two differ, or it is not a secret; PARE_STOPPED */
pare_status secret_read(const char *file, const pare_progress *progress, pare_text *password,
                        pare_error *err);

/** Leaves nothing of it in memory, and releases it. */
void secret_wipe(pare_text *password);

#endif
