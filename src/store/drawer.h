/* drawer.h: one file in a folder of its own: what commands read from a file, or write into one, on its
 * way to or from the network, or on its way to where it is to stand.
 *
 * The folder's name is random and only ours to enter; the file's is made of what the other side calls
 * it, letters, digits, '.', '-' and '_' alone, since endings mean something and people know it by that.
 * So a name from the network can be no path. */
#ifndef PARE_STORE_DRAWER_H
#define PARE_STORE_DRAWER_H

#include <stddef.h>

#include "base/error.h"
#include "base/text.h"

enum { DRAWER_NAME = 64, DRAWER_PATH = 256 };

typedef struct pare_drawer {
    char folder[DRAWER_PATH]; /* with its slash; "": closed */
    char name[DRAWER_NAME];
    char path[DRAWER_PATH + DRAWER_NAME];
} pare_drawer;

/** Makes the folder. Close with pare_drawer_close(), also where it is all zeros.
 * @param label  what the other side calls the file
 * @return PARE_OK, or PARE_UNAVAILABLE */
pare_status pare_drawer_open(pare_drawer *drawer, const char *label, pare_error *err);
/** Puts a file into it. @return PARE_OK, or PARE_UNAVAILABLE: the disk is full */
pare_status pare_drawer_put(const pare_drawer *drawer, const void *bytes, size_t length,
                            pare_error *err);
/** Takes what a command has written. @return likewise */
pare_status pare_drawer_take(const pare_drawer *drawer, pare_text *bytes, pare_error *err);
/** Takes the folder out of what a command says: the name alone is left. */
void pare_drawer_hide(const pare_drawer *drawer, char *text);
/** Removes both. */
void pare_drawer_close(pare_drawer *drawer);

#endif
