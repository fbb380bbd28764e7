/* use.h: the bench that a command works on, and finding things in it by name. */
#ifndef PARE_CLI_USE_H
#define PARE_CLI_USE_H

#include "cli/options.h"
#include "lib/built.h"
#include "lib/named.h"
#include "show/screen.h"
#include "store/past.h"
#include "store/version.h"

typedef struct bench_in_use {
    bool as_written; /* set before: masses as they are written, whatever scales said */
    pare_text path;
    pare_store *store;
    pare_bench *bench;       /* all of it, craft as built, by the scale, propellers warm */
    pare_first_craft *first; /* of each of its craft */
    pare_store_since since;  /* it was read at or after this point of its history */
    /* For benches that are kept (keep.h): */
    bench_keep *keep;     /* where it goes afterwards; NULL: nowhere */
    pare_store_mark mark; /* as it was when it was read */
    bool complete;        /* all of it was read well */
    int lent;             /* so often */
} bench_in_use;

/** Where the bench is: --bench, or the user's own. */
pare_status bench_path(const options *given, bool demo, pare_text *path, pare_error *err);

/** Opens a bench by its file: no change through it may leave a craft on it that cannot be built. */
pare_status bench_store(const char *path, pare_store_mode mode, pare_store **store,
                        pare_error *err);

/** Opens the bench and reads all of it. Where the user's own is not there but the demo's is, the error
 * says what to type. Close with bench_leave(), also after a failure. */
pare_status bench_use(const options *given, bench_in_use *use, pare_error *err);
/** The same, but reads one craft and the parts that it names: quicker.
 * @return also PARE_UNKNOWN where there is no such craft */
pare_status bench_use_craft(const options *given, const char *name, bench_in_use *use,
                            pare_error *err);
/** The bench as it was at the end of a day: see pare_store_past().
 * @param now  opened; stays as it is */
pare_status bench_use_past(const bench_in_use *now, const char *craft, const char *day,
                           bench_in_use *past, pare_past_begins *begins, pare_error *err);
/** Whether a bench is there already, so that one that comes to nothing need not be taken away again; on a
 * server that is nobody's business but its own. */
bool bench_is_there(const char *path);

/** Opens the bench and reads nothing of it: use->bench stays NULL. */
pare_status bench_open(const options *given, pare_store_mode mode, bench_in_use *use,
                       pare_error *err);
void bench_leave(bench_in_use *use);

/** For keep.c: closes it whatever it was; and marks it, before it is read, as what it is now. */
void bench_close(bench_in_use *use);
bool bench_mark_set(bench_in_use *use);

/** A craft as built, by name; PARE_UNKNOWN with the nearest, or with all names where there are few; as
 * pare_taken_as_built() where a swap that was fitted no longer goes on. */
pare_status bench_craft(const bench_in_use *use, const char *name, const pare_craft **craft,
                        pare_error *err);
/** The same craft as first described, without the swaps taken since. */
const pare_craft *bench_first(const bench_in_use *use, const char *name);
/** A part by id; PARE_UNKNOWN with the nearest. */
pare_status bench_part(const bench_in_use *use, const char *id, const pare_part **part,
                       pare_error *err);
/** A craft with all that --try says put on it.
 *
 * @param[out] craft  as it is where nothing is tried
 * @param[out] tried  all --try words as one list; empty where there are none
 * @return as pare_swap_apply_list() */
pare_status craft_tried(const bench_in_use *use, const options *given, const pare_craft *before,
                        pare_craft *craft, pare_text *tried, pare_error *err);

/** Exactly so many operands. @param what  "a craft", for the message */
pare_status need_operands(const char *command, const options *given, size_t least, size_t most,
                          const char *what, pare_error *err);

/** Of an answer that follows a change: what fails in it does not take the change back, and that is said.
 * @return status */
pare_status after_change(pare_status status, pare_error *err);

/** What a change to the bench is called in the history: the command as it was typed, and --why. Lent by
 * the arena; without memory, just the command. */
pare_change change_of(const char *command, const options *given, pare_arena *arena);

/** What standard output can show: COLUMNS or the terminal's width, otherwise 80; UTF-8 by locale;
 * colour on a terminal without NO_COLOR. */
pare_screen terminal_screen(void);

#endif
