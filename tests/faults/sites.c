/* sites.c: linked into the program, so that what it asks of its own helpers can fail: memory from an arena or
 * from the C library, SQLite's calls, libpq's, and calls about files; or be interrupted by a signal. Helpers that many call
 * fail as well, as if there had been no memory deep in them, or a craft had figures that cannot be. A library beside the program cannot do that
 * (failing.c): an arena asks for memory once a thousand times.
 *
 * A site is what asks and who called that, some calls deep; so each line that can fail does, in the few ways
 * that it is come by, and not the same one ten thousand times. The environment says which: PARE_SITE=memory:N
 * or another kind (sqlite, file, interrupt, server, library, helper, physics) with its N, the first request at the nth site that the program comes by
 * and that does not stand in the file PARE_SITES. When it has failed, that and those before it do.
 *
 * The linker puts these functions in the place of the others (--wrap, tests/CMakeLists.txt). */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <jansson.h>
#include <poll.h>
#include <sqlite3.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <unwind.h>
#include <xlsxwriter.h>

#include "advise/best_wish.h"
#include "advise/edit.h"
#include "advise/hover.h"
#include "advise/row.h"
#include "advise/taken.h"
#include "base/arena.h"
#include "craft/body.h"
#include "craft/sheet.h"
#include "craft/to_rig.h"
#include "physics/air.h"
#include "physics/budget.h"
#include "physics/each.h"
#include "physics/esc_heat.h"
#include "physics/operate.h"
#include "physics/rig.h"
#include "physics/screw_hold.h"
#include "physics/share.h"
#include "physics/solid.h"
#include "physics/spike.h"
#include "physics/tunnel.h"
#include "physics/wire_heat.h"
#include "show/draw_library.h"
#include "store/pg_library.h"
#include "store/reading.h"
#include "store/tree.h"

enum {
    SEEN = 1 << 16, /* a power of two */
    DEEP = 4,       /* calls */
    BESIDES = 2,    /* fails() and its caller */
    FAR = 1 << 28   /* bytes: a call from another library, which lies elsewhere in each run */
};

/* Whether a request of this kind fails now: it is at the site that was wished for. */
static bool fails(const char *what);

/* ---- files: what the disk, the network or another program may do at any call ---- */

static bool breaks(void)
{
    if (!fails("file"))
        return false;
    errno = EIO;
    return true;
}

/* A call may be interrupted before it has done anything; it is then to be made again. */
static bool interrupted(void)
{
    if (!fails("interrupt"))
        return false;
    errno = EINTR;
    return true;
}

#define BREAKING(type, name, parameters, arguments, failed)                                        \
    type __real_##name parameters;                                                                 \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return breaks() ? failed : __real_##name arguments;                                        \
    }

/* Closed it is, whatever it answers. */
#define BREAKING_LATE(name, parameters, arguments)                                                 \
    int __real_##name parameters;                                                                  \
    int __wrap_##name parameters;                                                                  \
    int __wrap_##name parameters                                                                   \
    {                                                                                              \
        const int answer = __real_##name arguments;                                                \
        return breaks() ? EOF : answer;                                                            \
    }

#define INTERRUPTED(type, name, parameters, arguments)                                             \
    type __real_##name parameters;                                                                 \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return breaks() || interrupted() ? -1 : __real_##name arguments;                           \
    }

BREAKING(int, stat, (const char *path, struct stat *facts), (path, facts), -1)
BREAKING(int, fstat, (int descriptor, struct stat *facts), (descriptor, facts), -1)
BREAKING(int, fsync, (int descriptor), (descriptor), -1)
BREAKING(int, fchmod, (int descriptor, mode_t mode), (descriptor, mode), -1)
BREAKING(int, ftruncate, (int descriptor, off_t length), (descriptor, length), -1)
BREAKING(off_t, lseek, (int descriptor, off_t to, int from), (descriptor, to, from), -1)
BREAKING(int, flock, (int descriptor, int how), (descriptor, how), -1)
BREAKING(int, rename, (const char *from, const char *to), (from, to), -1)
BREAKING(int, mkdir, (const char *path, mode_t mode), (path, mode), -1)
BREAKING(int, mkstemp, (char *path), (path), -1)
BREAKING(char *, mkdtemp, (char *path), (path), NULL)
BREAKING(DIR *, opendir, (const char *path), (path), NULL)
BREAKING(FILE *, fopen, (const char *path, const char *mode), (path, mode), NULL)
BREAKING(FILE *, fdopen, (int descriptor, const char *mode), (descriptor, mode), NULL)
BREAKING(size_t, fwrite, (const void *bytes, size_t size, size_t count, FILE *to),
         (bytes, size, count, to), 0)
BREAKING(int, fputs, (const char *text, FILE *to), (text, to), EOF)
BREAKING(int, fputc, (int byte, FILE *to), (byte, to), EOF)
BREAKING(int, ferror, (FILE * of), (of), 1)
BREAKING_LATE(fflush, (FILE * to), (to))
BREAKING_LATE(fclose, (FILE * of), (of))
BREAKING_LATE(close, (int descriptor), (descriptor))
INTERRUPTED(ssize_t, read, (int descriptor, void *bytes, size_t length),
            (descriptor, bytes, length))
INTERRUPTED(ssize_t, write, (int descriptor, const void *bytes, size_t length),
            (descriptor, bytes, length))
INTERRUPTED(int, poll, (struct pollfd of[], nfds_t count, int wait_ms), (of, count, wait_ms))

int __real_open(const char *path, int flags, ...);
int __wrap_open(const char *path, int flags, ...);

int __wrap_open(const char *path, int flags, ...)
{
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = flags & O_CREAT ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    return breaks() ? -1 : __real_open(path, flags, mode);
}

/* ---- sites ---- */

static const char *kind, *file;
static long wanted = -1, sites;
static uint64_t seen[SEEN], fresh[SEEN];
static bool taken;

/* Whether the site is a new one. */
static bool is_new(uint64_t sum)
{
    sum += sum == 0;
    for (size_t i = sum >> 20 & (SEEN - 1), tried = 0; tried < SEEN;
         i = (i + 1) & (SEEN - 1), tried++) {
        if (seen[i] == sum)
            return false;
        if (!seen[i]) {
            seen[i] = sum;
            return true;
        }
    }
    return false;
}

__attribute__((constructor)) static void read_wish(void)
{
    const char *wish = getenv("PARE_SITE"), *number = wish ? strchr(wish, ':') : NULL;
    file = getenv("PARE_SITES");
    if (!number || !file)
        return;
    const int past = __real_open(file, O_RDONLY | O_CLOEXEC);
    for (uint64_t sum; past >= 0 && __real_read(past, &sum, sizeof sum) == (ssize_t)sizeof sum;)
        (void)is_new(sum);
    if (past >= 0)
        __real_close(past);
    kind = wish;
    wanted = strtol(number + 1, NULL, 10);
}

typedef struct calls {
    uint64_t sum;
    int depth;
} calls;

static _Unwind_Reason_Code add_call(struct _Unwind_Context *context, void *of)
{
    calls *c = of;
    int64_t from = (int64_t)_Unwind_GetIP(context) - (int64_t)(uintptr_t)add_call;
    if (from > FAR || from < -FAR)
        from = 0;
    if (++c->depth > BESIDES)
        c->sum = (c->sum ^ (uint64_t)from) * 1099511628211u; /* as the FNV hash does */
    return c->depth < BESIDES + DEEP ? _URC_NO_REASON : _URC_END_OF_STACK;
}

static void write_down(void)
{
    const size_t bytes = (size_t)sites * sizeof fresh[0];
    const int to = __real_open(file, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    if (to < 0 || __real_write(to, fresh, bytes) != (ssize_t)bytes)
        abort();
    __real_close(to);
}

static __attribute__((noinline)) bool fails(const char *what)
{
    if (wanted < 0 || sites > wanted || strncmp(kind, what, strlen(what)) != 0)
        return false;
    calls c = {
        .sum = (unsigned char)*what}; /* a call that breaks at one time is interrupted at another */
    (void)_Unwind_Backtrace(add_call, &c);
    while (__atomic_test_and_set(&taken, __ATOMIC_ACQUIRE)) {
    }
    bool now = false;
    if (sites <= wanted && is_new(c.sum)) {
        fresh[sites] = c.sum;
        now = sites++ == wanted;
    }
    if (now)
        write_down();
    __atomic_clear(&taken, __ATOMIC_RELEASE);
    return now;
}

#define WRAPPED(type, name, parameters, arguments, what, failed)                                   \
    type __real_##name parameters;                                                                 \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return fails(what) ? failed : __real_##name arguments;                                     \
    }

/* ---- memory and SQLite ---- */

WRAPPED(void *, malloc, (size_t size), (size), "memory", NULL)
WRAPPED(void *, calloc, (size_t count, size_t size), (count, size), "memory", NULL)
WRAPPED(void *, realloc, (void *old, size_t size), (old, size), "memory", NULL)
WRAPPED(pare_arena *, pare_arena_open, (void), (), "memory", NULL)
WRAPPED(void *, pare_arena_zeros, (pare_arena * arena, size_t size), (arena, size), "memory", NULL)
WRAPPED(void *, pare_arena_array, (pare_arena * arena, size_t count, size_t size),
        (arena, count, size), "memory", NULL)
WRAPPED(char *, pare_arena_copy, (pare_arena * arena, const char *text, size_t length),
        (arena, text, length), "memory", NULL)
WRAPPED(char *, pare_arena_text, (pare_arena * arena, const char *text), (arena, text), "memory",
        NULL)
WRAPPED(char *, strdup, (const char *text), (text), "memory", NULL)
WRAPPED(int, sqlite3_step, (sqlite3_stmt * statement), (statement), "sqlite", SQLITE_IOERR)

char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...);

char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...)
{
    va_list values, again;
    va_start(values, format);
    va_copy(again, values);
    const int length = vsnprintf(NULL, 0, format, values);
    va_end(values);
    char *text =
        length < 0 || fails("memory") ? NULL : __real_pare_arena_zeros(arena, (size_t)length + 1);
    if (text)
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    return text;
}

int __real_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail);
int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail);

int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail)
{
    *statement = NULL;
    return fails("sqlite") ? SQLITE_IOERR
                           : __real_sqlite3_prepare_v2(db, sql, bytes, statement, tail);
}

int __real_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message);
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message);

/* Rolling back cannot be answered with an error by anyone: SQLite does it by itself after one. */
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message)
{
    const bool back = strcmp(sql, "ROLLBACK") == 0;
    return !back && fails("sqlite") ? SQLITE_IOERR
                                    : __real_sqlite3_exec(db, sql, row, context, message);
}

/* ---- helpers ---- */

#define HELPER(name, parameters, arguments)                                                        \
    pare_status __real_##name parameters;                                                          \
    pare_status __wrap_##name parameters;                                                          \
    pare_status __wrap_##name parameters                                                           \
    {                                                                                              \
        return fails("helper") ? pare_no_memory(err) : __real_##name arguments;                    \
    }

HELPER(pare_assemble, (const pare_craft *craft, pare_assembly *assembly, pare_error *err),
       (craft, assembly, err))
HELPER(pare_best_wish_find,
       (const pare_bench *bench, const pare_craft *craft, const pare_best_ask *ask, int wish,
        pare_arena *arena, pare_best *best, pare_best_wished *wished, pare_error *err),
       (bench, craft, ask, wish, arena, best, wished, err))
HELPER(pare_check_key_name,
       (const pare_reading *reading, const pare_node *entry, const char *what, pare_error *err),
       (reading, entry, what, err))
HELPER(pare_craft_load, (const pare_craft *craft, int index, pare_craft *loaded, pare_error *err),
       (craft, index, loaded, err))
HELPER(pare_joint_kg, (const pare_joint *joint, double *mass_kg, pare_error *err),
       (joint, mass_kg, err))
HELPER(pare_quantity,
       (pare_units * units, const char *text, pare_dimension dimension, double *value,
        pare_error *err),
       (units, text, dimension, value, err))
HELPER(pare_sheet_compute,
       (const pare_craft *craft, bool with_u, pare_sheet *sheet, pare_error *err),
       (craft, with_u, sheet, err))
HELPER(pare_sheet_weigh, (const pare_craft *craft, pare_sheet *sheet, pare_error *err),
       (craft, sheet, err))
HELPER(pare_swap_edit,
       (const pare_shelf *shelf, const pare_craft *before, const pare_swap_name *name,
        pare_craft *changed, pare_applied *applied, pare_basket *basket, pare_error *err),
       (shelf, before, name, changed, applied, basket, err))
HELPER(pare_swap_name_read,
       (pare_units * units, const char *text, pare_swap_name *name, pare_error *err),
       (units, text, name, err))
HELPER(pare_tree_parse_map,
       (const char *bytes, size_t length, const char *name, pare_arena *arena,
        const pare_node **root, pare_error *err),
       (bytes, length, name, arena, root, err))
HELPER(pare_trial_weigh, (const pare_desk *desk, pare_trial *trial, pare_error *err),
       (desk, trial, err))

#define PHYSICS(name, parameters, arguments)                                                       \
    pare_status __real_##name parameters;                                                          \
    pare_status __wrap_##name parameters;                                                          \
    pare_status __wrap_##name parameters                                                           \
    {                                                                                              \
        return fails("physics") ? pare_fail(err, PARE_BAD_DATA, "made to fail")                    \
                                : __real_##name arguments;                                         \
    }

PHYSICS(pare_air_standard, (double altitude_m, pare_air *air, pare_error *err),
        (altitude_m, air, err))
PHYSICS(pare_board_estimate,
        (int motors, double rated_a, double mass_kg, pare_board *board, pare_error *err),
        (motors, rated_a, mass_kg, board, err))
PHYSICS(pare_brief_air, (const pare_brief *brief, pare_air *air, pare_error *err),
        (brief, air, err))
PHYSICS(pare_flight_begin, (const pare_rig *rig, pare_flight *flight, pare_error *err),
        (rig, flight, err))
PHYSICS(pare_hover, (pare_flight * flight, pare_rotor_state *hover, pare_error *err),
        (flight, hover, err))
PHYSICS(pare_hover_promise, (const pare_craft *craft, pare_flight_record *flight, pare_error *err),
        (craft, flight, err))
PHYSICS(pare_part_body,
        (const pare_part *part, const pare_mat3 *turn, pare_body *body, pare_error *err),
        (part, turn, body, err))
PHYSICS(pare_rig_budget,
        (const pare_rig *rig, double speed_m_s, double charge, pare_budget *budget,
         pare_error *err),
        (rig, speed_m_s, charge, budget, err))
PHYSICS(pare_rig_each,
        (const pare_rig *rig, const double share[], double charge, pare_each each[], double *pack_a,
         pare_error *err),
        (rig, share, charge, each, pack_a, err))
PHYSICS(pare_rig_endure,
        (const pare_rig *rig, size_t count, const pare_flown entries[], const pare_landing *landing,
         pare_endurance *result, pare_error *err),
        (rig, count, entries, landing, result, err))
PHYSICS(pare_rig_full,
        (const pare_rig *rig, double charge, double heat, double steady, double axial_m_s,
         double inplane_m_s, pare_operating *point, pare_error *err),
        (rig, charge, heat, steady, axial_m_s, inplane_m_s, point, err))
PHYSICS(pare_rig_level,
        (const pare_rig *rig, double speed_m_s, double charge, pare_operating *point,
         pare_error *err),
        (rig, speed_m_s, charge, point, err))
PHYSICS(pare_rig_quickness,
        (const pare_rig *rig, double charge, pare_quickness *result, pare_error *err),
        (rig, charge, result, err))
PHYSICS(pare_rig_thrust,
        (const pare_rig *rig, double weights, double charge, pare_operating *point,
         pare_error *err),
        (rig, weights, charge, point, err))
PHYSICS(pare_screw_strength,
        (pare_screw_material material, const char *grade, pare_strength *strength, pare_error *err),
        (material, grade, strength, err))
PHYSICS(pare_sheet_exchange,
        (const pare_craft *craft, const pare_sheet *sheet, pare_exchange *exchange,
         pare_error *err),
        (craft, sheet, exchange, err))
PHYSICS(pare_solid,
        (pare_shape shape, double mass_kg, const double size_m[], pare_body *body, pare_error *err),
        (shape, mass_kg, size_m, body, err))
PHYSICS(pare_spike_of, (const pare_spike_path *path, pare_spike *spike, pare_error *err),
        (path, spike, err))
PHYSICS(pare_swap_clash,
        (const pare_swap_name *earlier, const pare_swap_name *later, const pare_craft *before,
         const pare_craft *after, pare_error *err),
        (earlier, later, before, after, err))
PHYSICS(pare_swap_edit_alone,
        (const pare_bench *bench, const pare_craft *before, const pare_swap_name *name,
         pare_craft *changed, pare_applied *applied, pare_basket *basket, pare_error *err),
        (bench, before, name, changed, applied, basket, err))
PHYSICS(pare_taken_as_built,
        (const pare_bench *bench, const pare_craft *craft, pare_craft *built, size_t *failed,
         pare_error *err),
        (bench, craft, built, failed, err))
PHYSICS(pare_throttle_find, (pare_throttle * throttle, double near_rad_s, pare_error *err),
        (throttle, near_rad_s, err))
PHYSICS(pare_thrust_shares,
        (size_t count, const pare_vec3 at_m[], double x_m, double y_m, double share[],
         pare_error *err),
        (count, at_m, x_m, y_m, share, err))
PHYSICS(pare_tunnel_fit_points,
        (const pare_prop_table *model, const pare_prop_doubt *doubt,
         const pare_tunnel_table *tunnel, pare_tunnel_fit *fit, pare_error *err),
        (model, doubt, tunnel, fit, err))
PHYSICS(pare_wire_flown,
        (const pare_wire_load *load, double start_degc, size_t stretches,
         const pare_wire_stretch stretch[], pare_wire_heat *heat, double *hottest_degc,
         pare_error *err),
        (load, start_degc, stretches, stretch, heat, hottest_degc, err))

/* ---- what pages, workbooks and JSON are made with: each of these says so where it has no memory ---- */

WRAPPED(lxw_workbook *, workbook_new_opt, (const char *path, lxw_workbook_options *options),
        (path, options), "library", NULL)
WRAPPED(lxw_format *, workbook_add_format, (lxw_workbook * workbook), (workbook), "library", NULL)
WRAPPED(lxw_worksheet *, workbook_add_worksheet, (lxw_workbook * workbook, const char *name),
        (workbook, name), "library", NULL)
WRAPPED(lxw_error, workbook_set_properties,
        (lxw_workbook * workbook, lxw_doc_properties *properties), (workbook, properties),
        "library", LXW_ERROR_MEMORY_MALLOC_FAILED)
WRAPPED(lxw_error, worksheet_set_column,
        (lxw_worksheet * sheet, lxw_col_t from, lxw_col_t to, double width, lxw_format *format),
        (sheet, from, to, width, format), "library", LXW_ERROR_MEMORY_MALLOC_FAILED)
WRAPPED(lxw_error, worksheet_write_blank,
        (lxw_worksheet * sheet, lxw_row_t row, lxw_col_t column, lxw_format *format),
        (sheet, row, column, format), "library", LXW_ERROR_MEMORY_MALLOC_FAILED)
WRAPPED(lxw_error, worksheet_write_number,
        (lxw_worksheet * sheet, lxw_row_t row, lxw_col_t column, double value, lxw_format *format),
        (sheet, row, column, value, format), "library", LXW_ERROR_MEMORY_MALLOC_FAILED)
WRAPPED(lxw_error, worksheet_write_string,
        (lxw_worksheet * sheet, lxw_row_t row, lxw_col_t column, const char *text,
         lxw_format *format),
        (sheet, row, column, text, format), "library", LXW_ERROR_MEMORY_MALLOC_FAILED)
WRAPPED(int, json_dump_callback,
        (const json_t *object, json_dump_callback_t put, void *context, size_t layout),
        (object, put, context, layout), "library", -1)

static pare_draw_library drawing; /* as it is */

static cairo_status_t cairo_says(cairo_t *cairo)
{
    return fails("library") ? CAIRO_STATUS_NO_MEMORY : drawing.cairo_status(cairo);
}

static cairo_status_t surface_says(cairo_surface_t *surface)
{
    return fails("library") ? CAIRO_STATUS_WRITE_ERROR : drawing.cairo_surface_status(surface);
}

static PangoFontMap *new_fonts(void)
{
    return fails("library") ? NULL : drawing.pango_cairo_font_map_new();
}

static PangoContext *new_context(PangoFontMap *fonts)
{
    return fails("library") ? NULL : drawing.pango_font_map_create_context(fonts);
}

static PangoLayout *new_layout(PangoContext *context)
{
    return fails("library") ? NULL : drawing.pango_layout_new(context);
}

pare_status __real_pare_draw_library_open(pare_draw_library *library, pare_error *err);
pare_status __wrap_pare_draw_library_open(pare_draw_library *library, pare_error *err);

pare_status __wrap_pare_draw_library_open(pare_draw_library *library, pare_error *err)
{
    if (fails("library"))
        return pare_no_memory(err);
    const pare_status status = __real_pare_draw_library_open(library, err);
    if (status != PARE_OK)
        return status;
    drawing = *library;
    library->cairo_status = cairo_says;
    library->cairo_surface_status = surface_says;
    library->pango_cairo_font_map_new = new_fonts;
    library->pango_font_map_create_context = new_context;
    library->pango_layout_new = new_layout;
    return PARE_OK;
}

/* ---- libpq, whose functions are found by name ---- */

static pare_pg_library pq; /* as they are */

static int send_query(PGconn *conn, const char *sql)
{
    return fails("server") ? 0 : pq.PQsendQuery(conn, sql);
}

static int send_prepare(PGconn *conn, const char *name, const char *sql, int count,
                        const Oid types[])
{
    return fails("server") ? 0 : pq.PQsendPrepare(conn, name, sql, count, types);
}

static int send_params(PGconn *conn, const char *sql, int count, const Oid types[],
                       const char *const values[], const int lengths[], const int formats[],
                       int format)
{
    return fails("server")
               ? 0
               : pq.PQsendQueryParams(conn, sql, count, types, values, lengths, formats, format);
}

static int send_prepared(PGconn *conn, const char *name, int count, const char *const values[],
                         const int lengths[], const int formats[], int format)
{
    return fails("server")
               ? 0
               : pq.PQsendQueryPrepared(conn, name, count, values, lengths, formats, format);
}

static int enter_pipeline(PGconn *conn)
{
    return fails("server") ? 0 : pq.PQenterPipelineMode(conn);
}

static int sync_pipeline(PGconn *conn)
{
    return fails("server") ? 0 : pq.PQpipelineSync(conn);
}

static int consume_input(PGconn *conn)
{
    return fails("server") ? 0 : pq.PQconsumeInput(conn);
}

/* What came is no answer of the server's. */
static PGresult *get_result(PGconn *conn)
{
    PGresult *result = pq.PQgetResult(conn);
    if (!result || !fails("server"))
        return result;
    pq.PQclear(result);
    return PQmakeEmptyPGresult(conn, PGRES_BAD_RESPONSE);
}

static PGconn *connect_params(const char *const *keys, const char *const *values, int expand)
{
    return fails("server") ? NULL : pq.PQconnectdbParams(keys, values, expand);
}

static PQconninfoOption *conninfo_parse(const char *text, char **why)
{
    /* Without a word of why, as where libpq has no memory. */
    return fails("server") ? NULL : pq.PQconninfoParse(text, why);
}

pare_status __real_pare_pg_library_open(pare_pg_library *library, pare_error *err);
pare_status __wrap_pare_pg_library_open(pare_pg_library *library, pare_error *err);

pare_status __wrap_pare_pg_library_open(pare_pg_library *library, pare_error *err)
{
    if (fails("server"))
        return pare_no_memory(err);
    const pare_status status = __real_pare_pg_library_open(library, err);
    if (status != PARE_OK)
        return status;
    pq = *library;
    library->PQconnectdbParams = connect_params;
    library->PQconninfoParse = conninfo_parse;
    library->PQconsumeInput = consume_input;
    library->PQenterPipelineMode = enter_pipeline;
    library->PQpipelineSync = sync_pipeline;
    library->PQgetResult = get_result;
    library->PQsendPrepare = send_prepare;
    library->PQsendQuery = send_query;
    library->PQsendQueryParams = send_params;
    library->PQsendQueryPrepared = send_prepared;
    return PARE_OK;
}
