/* import.h: the kinds of file that `pare import` takes, a file of code each. */
#ifndef PARE_CLI_IMPORT_H
#define PARE_CLI_IMPORT_H

#include "base/arena.h"
#include "cli/command.h"
#include "store/bench.h"

typedef enum import_kind {
    IMPORT_BENCH,    /* a bench's text, YAML or JSON */
    IMPORT_LIST,     /* CSV, or a sheet of a workbook */
    IMPORT_MODEL,    /* STL, 3MF */
    IMPORT_OUTLINE,  /* DXF, SVG */
    IMPORT_PROPELLER /* a blade or tunnel table in columns */
} import_kind;

/** What a file is, by the ending of its name, else by its first bytes.
 * @return PARE_OK; PARE_BAD_DATA: not there, or none of these */
pare_status import_look(const char *path, import_kind *kind, pare_error *err);

enum { IMPORT_PATH = 4096 };
/** Whether an operand is a workbook, "x.xlsx", or one with the name or number of a sheet, "x.xlsx#Parts".
 * @param[out] path   of the file  @param[out] sheet  lent by the operand; NULL: none is said */
bool import_workbook(const char *operand, char path[IMPORT_PATH], const char **sheet);

/** What only lists understand. */
enum {
    IMPORT_LIST_ONLY =
        OPTION_MAP | OPTION_AS | OPTION_SEPARATOR | OPTION_DECIMAL | OPTION_NOTES | OPTION_KEEP_GOOD
};

/** Options that mean nothing for this kind of file are mistakes. */
pare_status import_refuse_options(const options *given, option_bits not_here, const char *what,
                                  pare_error *err);

/** Each puts its whole answer in `out`. @param path  of the bench, for the answer */
pare_status import_bench(pare_store *store, const char *path, const options *given,
                         pare_arena *arena, pare_text *out, pare_error *err);
pare_status import_list(pare_store *store, const char *path, const options *given,
                        pare_arena *arena, pare_text *out, pare_error *err);
pare_status import_drawing(pare_store *store, const char *path, const options *given,
                           import_kind kind, pare_arena *arena, pare_text *out, pare_error *err);

/** Takes all operands. */
pare_status import_propeller(pare_store *store, const char *path, const options *given,
                             pare_arena *arena, pare_text *out, pare_error *err);

/** "parts    3 added, 1 replaced"; nothing where there is nothing. */
void import_count(pare_text *out, const char *what, size_t added, size_t replaced, size_t same);

#endif
