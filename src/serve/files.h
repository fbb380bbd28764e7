/* files.h: the page's files as they are in the program. Inside the room only. The table is written when
 * Pare is built, by tools/embed.c, from page/dist; empty where there is none. */
#ifndef PARE_SERVE_FILES_H
#define PARE_SERVE_FILES_H

#include <stddef.h>

typedef struct pare_page_file {
    const char *path; /* "/assets/x.js"; "/" is the page itself */
    const char *type; /* "text/javascript; charset=utf-8" */
    const char *tag;  /* of these bytes, in quotes, for If-None-Match */
    int lasting;      /* its name has its content's hash: it never changes */
    size_t size;      /* not compressed */
    size_t length;    /* of gzip */
    const unsigned char *gzip;
} pare_page_file;

extern const pare_page_file pare_page_files[];
extern const size_t pare_page_file_count;

#endif
