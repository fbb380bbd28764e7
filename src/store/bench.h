/* bench.h: one bench in an SQLite file, or in a PostgreSQL database that several share, and its text form
 * in and out.
 *
 * What it keeps of a part or a craft is its text, canonically written, so that nothing typed
 * is ever lost and an export is exact; numbers in SI are read from that text. A change happens whole
 * or not at all. No function here prints. */
#ifndef PARE_STORE_BENCH_H
#define PARE_STORE_BENCH_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"
#include "base/progress.h"
#include "base/text.h"
#include "craft/craft.h"
#include "craft/filter.h"
#include "craft/flight_record.h"
#include "craft/listed.h"
#include "craft/weigh_in.h"

typedef struct pare_store pare_store;

typedef enum pare_store_mode {
    PARE_STORE_READ,  /* a bench that is there; only its caches may be written, where that can be */
    PARE_STORE_WRITE, /* a bench that is there, to be changed */
    PARE_STORE_CREATE /* to be changed, and made with its folders when it is not there */
} pare_store_mode;

/** Opens a bench.
 *
 * @param path  the file, or the address of a database: "postgresql://anna@server/club"; the rest of what
 *              libpq reads in such an address (sslmode=, passfile=) is its own
 * @param[out] store  close with pare_store_close(); NULL on failure
 * @return PARE_OK;
 *         PARE_BAD_DATA: nothing there (the message says `pare demo` or `pare import`), not a bench,
 *         another program's database, a bench of a newer Pare, a damaged one;
 *         PARE_UNAVAILABLE: locked by another program for over two seconds, no permission, disk full,
 *         or WRITE or CREATE on a file that can only be read; no server, or no entry there.
 *         The file is as it was in each of these cases. */
pare_status pare_store_open(const char *path, pare_store_mode mode, pare_store **store,
                            pare_error *err);

/** A new, empty bench that is in no file, to be changed; gone when it is closed.
 * @param[out] store  likewise
 * @return PARE_OK, or PARE_UNAVAILABLE without memory */
pare_status pare_store_in_memory(pare_store **store, pare_error *err);

/** Whether a bench's name is the address of a database. */
bool pare_store_on_server(const char *path);

/** A bench's name as it may be shown: an address without a password that stands in it.
 * @param[out] shown  put at its end
 * @return PARE_OK; PARE_BAD_DATA: no address, PARE_UNAVAILABLE: no libpq */
pare_status pare_store_shown(const char *path, pare_text *shown, pare_error *err);

/** Closes it; NULL is fine. What was read from it stays good. */
void pare_store_close(pare_store *store);

/** Work on this store says from now on how far it is, and is stopped when that says so; nothing of a
 * change that was stopped is kept.
 * @param progress  must outlive the store; NULL: nobody watches any more */
void pare_store_watch(pare_store *store, const pare_progress *progress);

/** What else is asked of a craft before a change may leave it on the bench.
 *
 * @param bench       all parts that it names
 * @param[out] taken  where it fails: which of the craft's taken swaps is at fault */
typedef pare_status (*pare_craft_check)(const pare_bench *bench, const pare_craft *craft,
                                        size_t *taken, pare_error *err);

/** Asks it of each craft that a change makes, or whose parts it changes: what the store cannot know,
 * whether the swaps taken still go onto the craft. Its errors get the place in front. */
void pare_store_check_with(pare_store *store, pare_craft_check check);

/** The bench that is used where none is named: $XDG_DATA_HOME/pare/bench.sqlite, with
 * ~/.local/share where that is not set or not absolute.
 *
 * @param demo  the demo's own file, demo.sqlite, beside it
 * @param[out] path  put at its end
 * @return PARE_OK, or PARE_BAD_DATA when neither XDG_DATA_HOME nor HOME is set (use --bench) */
pare_status pare_store_default_path(bool demo, pare_text *path, pare_error *err);

/* ---- changes, and back ---- */

/** How far the history of a bench was when something was read from it. */
typedef struct pare_store_since {
    long long number; /* of the last change */
    long long undone; /* so many were */
} pare_store_since;

/** @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_store_read_since(pare_store *store, pare_store_since *since, pare_error *err);

/** Who came too late with a change does well to wait here before he reads anew: those who were late go one
 * after another, so that each is late a few times at most, however many there are. Until the store is closed or
 * `mine` is false. In a file nobody has to wait.
 * @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_store_turn(pare_store *store, bool mine, pare_error *err);

/** What a change is called in the history, and what it rests on. */
typedef struct pare_change {
    const char *what; /* "craft limit plover all_up=600g"; NULL: nothing to say */
    const char *why;  /* the person's reason; NULL: none given */
    /** Refused as PARE_UNAVAILABLE where this craft, or a part that it names, is no longer as it was
     * then; NULL: it rests on nothing that was read before. */
    const char *craft;
    pare_store_since since;
    bool *late; /* set to true where that is so; NULL: nobody asks */
} pare_change;

/** A change as the history has it. */
typedef struct pare_change_row {
    long long number;       /* ascending; a number is not used twice on a bench */
    const char *time;       /* "2026-03-01T18:20:05Z" */
    const char *what, *why; /* why NULL: none given */
    const char *who,
        *turned_by; /* whose it is, and who undid it last or did it again; NULL: nobody says,
                                  * as on a bench in a file */
    bool undone;    /* waits to be done again */
    size_t parts, craft, records, files; /* how many of each it touched */
} pare_change_row;

/** The history, newest first.
 * @param most  so many at most; 0: all
 * @param[out] rows  [count], in the arena */
pare_status pare_store_history(pare_store *store, size_t most, pare_arena *arena, size_t *count,
                               pare_change_row **rows, pare_error *err);

/** Takes the last change back, or does the last one that was taken back again. The bench is then as
 * it was: its export has the same bytes.
 * @param[out] row  the change, in the arena
 * @return PARE_OK; PARE_BAD_DATA: nothing to undo, or to redo; PARE_UNAVAILABLE: locked, full */
pare_status pare_store_undo(pare_store *store, pare_arena *arena, pare_change_row *row,
                            pare_error *err);
pare_status pare_store_redo(pare_store *store, pare_arena *arena, pare_change_row *row,
                            pare_error *err);

/* ---- text in ---- */

/** A mesh file carried in memory, under the name that parts say. */
typedef struct pare_import_file {
    const char *name;
    const void *bytes; /* [length] */
    size_t length;
} pare_import_file;

/** Where a bench's text comes from: a file, or bytes with a name for the messages. */
typedef struct pare_import {
    const char *path;  /* the file; NULL: take bytes */
    const char *bytes; /* [length] when path is NULL */
    size_t length;
    const char *name;   /* said in messages in front of line and column; NULL: path */
    const char *folder; /* where mesh files are looked for; NULL: the path's own, or none */
    size_t files;       /* mesh files that come along in memory; looked for before the folder */
    const pare_import_file *file; /* [files] */
    bool empty_first;             /* everything that the bench held before goes, history too */
    bool dry_run;                 /* only to see what it would do */
    pare_change change;           /* for the history */
} pare_import;

typedef struct pare_import_summary {
    size_t parts_added, parts_replaced, parts_same;
    size_t craft_added, craft_replaced, craft_same;
    size_t records_added, records_same; /* scales, weigh-ins, flights, stand tables */
    size_t files;                       /* meshes read */
    size_t warnings;
    const char *const *warning; /* [warnings] one line each: a missing, open or turned mesh ... */
} pare_import_summary;

/** Reads a bench's text (YAML, or JSON) into the store: all of it, or nothing.
 *
 * A part or craft of the same id or name is replaced. Records that are there already stay single.
 * Meshes are read from the folder (no absolute path, no "..", 64 MiB at most), kept and measured.
 * @param arena  holds the summary's warnings
 * @return PARE_OK; PARE_UNKNOWN: a key, kind or name that is not known, with the nearest one;
 *         PARE_BAD_DATA: anything else that cannot be right, as name:line:column: what, what would
 *         be right; PARE_UNAVAILABLE: locked, full, read-only */
pare_status pare_store_import_yaml(pare_store *store, const pare_import *import, pare_arena *arena,
                                   pare_import_summary *summary, pare_error *err);

/** A limit of a brief, set or taken away. */
typedef struct pare_limit_change {
    const char *key;  /* as in the sheet, less its unit: "all_up" */
    const char *text; /* "<= 620 g"; NULL: no such limit any more */
} pare_limit_change;

/** Changes limits in the stored text of one craft: all of them, or none.
 * @param why  for the history
 * @return PARE_OK; PARE_UNKNOWN: no such craft or key; PARE_BAD_DATA: a value that cannot be;
 *         PARE_UNAVAILABLE: locked, full */
pare_status pare_store_set_limits(pare_store *store, const char *craft, size_t count,
                                  const pare_limit_change limit[], const pare_change *change,
                                  pare_error *err);

/* ---- one at a time ---- */

/** The text of one part or craft as it stands on the bench, without a newline at its end.
 * @return PARE_OK; PARE_UNKNOWN with the nearest */
pare_status pare_store_part_text(pare_store *store, const char *id, pare_text *text,
                                 pare_error *err);
pare_status pare_store_craft_text(pare_store *store, const char *name, pare_text *text,
                                  pare_error *err);

/** Takes a part off the bench.
 * @return PARE_OK; PARE_UNKNOWN with the nearest; PARE_BAD_DATA where craft, flights or stand tables
 *         use it, naming them */
pare_status pare_store_remove_part(pare_store *store, const char *id, const pare_change *change,
                                   pare_error *err);
/** Takes a craft off the bench, its parts stay.
 * @param records  its weigh-ins and flights go too; otherwise PARE_BAD_DATA where there are any
 * @return as for a part */
pare_status pare_store_remove_craft(pare_store *store, const char *name, bool records,
                                    const pare_change *change, pare_error *err);

/** The list of swaps taken on a craft as it is to be, against the one that was read. */
typedef struct pare_taken_list {
    size_t were; /* entries of the list that was read */
    size_t count;
    const pare_taken *taken; /* [count] from now on, in this order */
    const int *was; /* [count] the place of each in the list that was read; -1: a new one */
} pare_taken_list;

/** Puts it into the craft's stored text: whole, or not at all.
 *
 * What an entry that was there holds stays as typed, but for its days and the parts that came along;
 * a new one's promise is written with six digits.
 * @return as pare_store_set_limits(); what the check of the store finds (pare_store_check_with);
 *         PARE_UNAVAILABLE where the stored list is no longer the one that was read */
pare_status pare_store_set_taken(pare_store *store, const char *craft, const pare_taken_list *list,
                                 const pare_change *change, pare_error *err);

/** Puts what flights taught into the craft's stored text, in the place of what was kept there before.
 * @param kept  NULL: takes it out again, and the text is as it was
 * @return as pare_store_set_limits(); PARE_BAD_DATA where there is nothing to take out */
pare_status pare_store_set_learned(pare_store *store, const char *craft, const pare_taught *kept,
                                   const pare_change *change, pare_error *err);

/* ---- weigh-ins and scales ---- */

/** All that the bench has of them, in the arena. */
pare_status pare_store_weighings(pare_store *store, pare_arena *arena, pare_weighings *weighings,
                                 pare_error *err);

/** Adds weigh-ins: all of them, or none. One that says the same as another is one more.
 * @param weigh_in  [count]; reads_kg and step_kg follow from what it reads
 * @return PARE_OK; PARE_UNKNOWN: no such craft or scale; PARE_BAD_DATA; PARE_UNAVAILABLE */
pare_status pare_store_add_weigh_ins(pare_store *store, size_t count,
                                     const pare_weigh_in weigh_in[], const pare_change *change,
                                     pare_error *err);

/** Puts a scale onto the bench, or in the place of the one of its id. @return likewise */
pare_status pare_store_put_scale(pare_store *store, const pare_scale *scale,
                                 const pare_change *change, pare_error *err);

/** The craft that were weighed, and one more, with the parts that they name: what an adjustment of all
 * readings takes. Stand tables are left out.
 * @param name  NULL: every craft
 * @param[out] bench  close with pare_bench_close(); NULL where the bench has no weigh-in, or on failure */
pare_status pare_store_read_weighed(pare_store *store, const char *name, pare_bench **bench,
                                    pare_error *err);

/* ---- text out ---- */

/** The whole bench as text: parts by id, craft by name, then records. The same bench gives the same
 * bytes; importing them into a new bench and exporting that gives them again. */
pare_status pare_store_export_yaml(pare_store *store, pare_text *out, pare_error *err);

/** A number for all that a certificate of a craft rests on (advise/proof.h): the craft as it would be exported,
 * all parts, scales, the craft's weigh-ins, and what stands measured. */
pare_status pare_store_certified(pare_store *store, const char *craft, unsigned long long *mark,
                                 pare_error *err);

/** Writes the mesh files that the bench keeps into a folder that is there, each under its name.
 * A file of other content is not overwritten: PARE_BAD_DATA names it.
 * @param[out] count  files there now; may be NULL */
pare_status pare_store_export_files(pare_store *store, const char *folder, size_t *count,
                                    pare_error *err);

/* ---- into memory ---- */

/** All parts and all craft, completed and settled. The bench lends all that it holds.
 * @param[out] bench  close with pare_bench_close(); NULL on failure */
pare_status pare_store_read(pare_store *store, pare_bench **bench, pare_error *err);

/** What is read until pare_store_release() is one state of the bench, and on a server most of it is asked for
 * at once. Nothing may be changed meanwhile.
 * @param craft  about which most will be asked; NULL: about all
 * @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_store_hold(pare_store *store, const char *craft, pare_error *err);
void pare_store_release(pare_store *store);

/** One craft and the parts that it refers to, in items and loadouts: the quick way to a sheet.
 * @return as pare_store_read; PARE_UNKNOWN for a name that is not there, with the nearest one */
pare_status pare_store_read_craft(pare_store *store, const char *name, pare_bench **bench,
                                  pare_error *err);

/** The outline of a plate, out of a drawing that the bench keeps: what a sheet needs only measured, a
 * picture has to draw. Metres, from the drawing's origin.
 * @param arena      holds the loops
 * @param[out] loop  [count], the outer one first; count 0 where the bench has no such file
 * @return PARE_OK; PARE_BAD_DATA, PARE_UNAVAILABLE */
pare_status pare_store_outline(pare_store *store, const char *file, pare_arena *arena,
                               size_t *count, const pare_outline **loop, pare_error *err);

/** One part alone, as a bench. @return likewise */
pare_status pare_store_read_part(pare_store *store, const char *id, pare_bench **bench,
                                 pare_error *err);

/** The stand tables that a part was measured in, with all their parts, as a bench. @return likewise */
pare_status pare_store_read_stands(pare_store *store, const char *part, pare_bench **bench,
                                   pare_error *err);

/** The flights of a craft, by date.
 * @param bench         as pare_store_read() gave it: has their packs, and lends them
 * @param[out] flights  [*count]; NULL where there are none
 * @return PARE_OK; PARE_BAD_DATA or PARE_UNKNOWN for a damaged one, with its day */
pare_status pare_store_read_flights(pare_store *store, const pare_bench *bench,
                                    const pare_craft *craft, size_t *count,
                                    const pare_flight_record **flights, pare_error *err);

/** Adds a hover whose pilot read its output: craft, date, output and promise count, and the loadout, as
 * an index into the craft's. @return as pare_store_add_weigh_ins() */
pare_status pare_store_add_hover(pare_store *store, const pare_craft *craft,
                                 const pare_flight_record *hover, const pare_change *change,
                                 pare_error *err);

/** All hovers of the bench whose output was foretold, by date, in the arena. */
pare_status pare_store_hovers(pare_store *store, pare_arena *arena, size_t *count,
                              const pare_hovered **hover, pare_error *err);

void pare_bench_close(pare_bench *bench);

/** Gives every propeller of a bench its table: from the store's cache, or built and then kept there
 * in one transaction. A store that cannot be written only builds.
 * @return PARE_OK; PARE_UNAVAILABLE when memory runs out; PARE_STOPPED where it is watched. A damaged
 *         cache row is built anew */
pare_status pare_store_warm(pare_store *store, pare_bench *bench, pare_error *err);

/** The bench's money, "EUR"; "" where it was never said. In the arena. */
pare_status pare_store_money(pare_store *store, pare_arena *arena, const char **money,
                             pare_error *err);

/* ---- finding parts ---- */

/** What is looked for: all of it must hold. */
typedef struct pare_find {
    size_t words;
    const char *const *word;   /* [words] in id, maker or kind, in capitals or not */
    int kind;                  /* -1: any */
    const pare_filter *filter; /* NULL: none */
    bool surprise; /* only what is heavier than its kind's law says, by PARE_SURPRISING_SIGMAS */
    int sort; /* a key of filter.h; PARE_KEY_NONE: by id, or by sigmas where surprises are sought */
    bool down; /* the largest first; parts without that number come last either way */
} pare_find;

/** Finds parts by their numbers, without reading the text of any part whose numbers the bench keeps
 * (of surprises, those of a kind whose law takes more than numbers).
 * @param[out] list  [count], in the arena; surprise is judged only where it was sought
 * @return PARE_OK; PARE_BAD_DATA: a damaged part, named; PARE_UNAVAILABLE */
pare_status pare_store_find(pare_store *store, const pare_find *find, pare_arena *arena,
                            size_t *count, pare_listed **list, pare_error *err);

/** Gives parts one after another, each completed and good until `take` returns.
 * @return PARE_OK; PARE_UNKNOWN for an id that is not there, with the nearest; what `take` returned */
typedef pare_status (*pare_take_part)(void *context, const pare_part *part, pare_error *err);
pare_status pare_store_each_part(pare_store *store, size_t count, const char *const ids[],
                                 pare_take_part take, void *context, pare_error *err);

/* ---- names, without reading anything else ---- */

/** Names of all craft, or ids of all parts, ascending.
 * @param[out] names  [count], in the arena */
pare_status pare_store_craft_names(pare_store *store, pare_arena *arena, size_t *count,
                                   const char *const **names, pare_error *err);
pare_status pare_store_part_ids(pare_store *store, pare_arena *arena, size_t *count,
                                const char *const **ids, pare_error *err);

#endif
