/* edit.h: the subcommands of `pare parts` and `pare craft` that add, change, copy, edit and remove. */
#ifndef PARE_CLI_EDIT_H
#define PARE_CLI_EDIT_H

#include <stdbool.h>

#include "base/text.h"
#include "cli/options.h"
#include "store/by_key.h"

/** Whether a word is one of add, change, copy, edit, remove. */
bool edit_is_word(const char *word);

/** `pare parts add ID KEY=VALUE...` and its like; the first operand is such a word. */
pare_status edit_thing(pare_thing thing, const options *given, pare_text *out, pare_error *err);

/** Keys of a change, for the completion. @return how many, `most` at most */
size_t edit_keys(pare_thing thing, size_t most, const char *name[]);

#endif
