/* embedded.h: the demo's files, carried in the program, so that `pare demo` needs no folder. */
#ifndef PARE_DEMO_EMBEDDED_H
#define PARE_DEMO_EMBEDDED_H

#include <stddef.h>

typedef struct pare_demo_file {
    const char *name;           /* as bench.yaml says it: "ho-slim.stl"; the bench: "bench.yaml" */
    const unsigned char *bytes; /* [length], not closed by a zero */
    size_t length;
} pare_demo_file;

/** bench.yaml first, then the mesh files by name. */
extern const pare_demo_file pare_demo_files[];
extern const size_t pare_demo_file_count;

/** The file of that name, or NULL. */
const pare_demo_file *pare_demo_file_named(const char *name);

#endif
