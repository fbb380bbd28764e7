/* editor.h: a text given to a person in the editor that they use, and taken back. */
#ifndef PARE_CLI_EDITOR_H
#define PARE_CLI_EDITOR_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"

typedef struct editor {
    const char *path;  /* of the file, its name ends in .yaml; lent by the arena, as all here */
    const char *given; /* the text as it was given */
    const char *text;  /* as it was when last read */
    size_t length;
    bool failed; /* the editor did not end well */
    pare_arena *arena;
} editor;

/** Writes the text to a file of its own in a folder of its own, below TMPDIR or /tmp, that nobody
 * else can read. */
pare_status editor_open(const char *name, const char *text, pare_arena *arena, editor *at,
                        pare_error *err);

/** Runs VISUAL, EDITOR, or vi or nano where they are, waits for its end and reads the text.
 * @return PARE_OK; PARE_UNAVAILABLE: no editor, or one that failed or was killed; PARE_BAD_DATA: a file
 *         that is gone or too large */
pare_status editor_run(editor *at, pare_error *err);

/** Whether the text is another than the one that was given. */
bool editor_changed(const editor *at);

/** On a terminal: says the error and asks whether to edit again. */
bool editor_asks_again(pare_error *err);

/** Leaves the file where it is and says so. @return status */
pare_status editor_keep(const editor *at, pare_status status, pare_error *err);

/** Removes the file and its folder. */
void editor_close(const editor *at);

#endif
