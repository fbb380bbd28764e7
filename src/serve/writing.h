/* writing.h: a change while its body is read into words. For write.c and import.c only. */
#ifndef PARE_SERVE_WRITING_H
#define PARE_SERVE_WRITING_H

#include "serve/inside.h"
#include "store/drawer.h"

typedef struct pare_writing {
    pare_request *request;
    json_t *body;
    pare_words words;
    const char *name;   /* whose version counts; NULL: the bench's, where one is said */
    bool part;          /* it is a part's */
    bool needs;         /* a version must be said */
    bool keeps_nothing; /* only to see what it would do */
    pare_drawer drawer; /* with a file that came along; closed by write.c */
    pare_error err;
} pare_writing;

/** A text by its key; NULL where it is not there, which is an error where it is needed. */
const char *pare_writing_text(pare_writing *w, const json_t *object, const char *key, bool needed);
/** true or false by its key; false where it is not there. */
bool pare_writing_flag(pare_writing *w, const char *key);
/** An option or operand; NULL is none. */
void pare_writing_option(pare_writing *w, const char *name, const char *value);
void pare_writing_operand(pare_writing *w, const char *word);
/** "KEY=VALUE" for each entry of an object of texts: operands, or so many options of one name.
 * @param option  NULL: operands */
void pare_writing_pairs(pare_writing *w, const char *key, const char *option);

/** /api/import. */
void pare_writing_import(pare_writing *w);

#endif
