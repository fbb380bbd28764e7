/* error.h: how the library says that something went wrong.
 *
 * A function that can fail returns a pare_status and takes a pare_error as its last argument, which may be
 * NULL. The text is one line for the person who must act: what was found and what would be right. The
 * error is the caller's own value, so errors of two threads cannot mix; it is written only on failure. */
#ifndef PARE_ERROR_H
#define PARE_ERROR_H

/** The values are the program's exit statuses. More may come: treat what is not named here as a failure. */
typedef enum pare_status {
    PARE_OK = 0,          /* answered */
    PARE_NO = 1,          /* the answer is no */
    PARE_UNKNOWN = 2,     /* unknown command, option, key, craft, part or swap */
    PARE_BAD_DATA = 3,    /* a value, argument or file that cannot be read or is out of range */
    PARE_UNAVAILABLE = 4, /* locked, read-only, full, gone, out of memory */
    PARE_STOPPED = 130 /* told to stop; everything is as it was. The program ends by the signal */
} pare_status;

/** Its size never changes. */
typedef struct pare_error {
    pare_status status;
    char text[512]; /* one line without its newline; cut with "..." when longer */
} pare_error;

#endif
