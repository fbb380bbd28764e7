/* sqlite_open.c: opening a bench in an SQLite file (see sqlite.h, bench.h).
 *
 * The first bytes of a file are looked at before SQLite may touch it: a file that is no bench is left
 * exactly as it is, without a journal beside it. Reading prefers a connection that could write, since
 * the caches want to be filled, and falls back to one that cannot. A bench in a folder that cannot be
 * written has nowhere to put its shared memory; when no other program has left a log beside it, it
 * cannot be changing either, and is read as unchanging. */
#include "store/sqlite.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/disk.h"

enum { HEADER = 100 };

static pare_status no_bench(const char *path, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "no bench at %s; try `pare demo` or `pare import`", path);
}

static unsigned big_endian(const unsigned char *bytes)
{
    return (unsigned)bytes[0] << 24 | (unsigned)bytes[1] << 16 | (unsigned)bytes[2] << 8 | bytes[3];
}

/* The first bytes of a file, read through SQLite's own layer for files. It knows which files the process
 * has open: POSIX has a process lose all its locks on a file when it closes any descriptor of it, so a
 * look past SQLite would take the locks from under the connections of other threads, and another program
 * would then believe itself alone (sqlite.org/howtocorrupt.html, section 2.2).
 *
 * @return false: it cannot be opened; errno says why */
static bool read_header(const char *path, unsigned char header[HEADER])
{
    sqlite3_vfs *vfs = sqlite3_vfs_find(NULL);
    const size_t room = vfs ? (size_t)vfs->mxPathname + 1 : 0;
    char *full = room ? malloc(room) : NULL;
    sqlite3_file *file = vfs ? calloc(1, (size_t)vfs->szOsFile) : NULL;
    sqlite3_filename name = NULL;
    int code = SQLITE_NOMEM;
    errno = ENOMEM;
    if (full && file)
        code = vfs->xFullPathname(vfs, path, (int)room, full);
    if (code == SQLITE_OK)
        name = sqlite3_create_filename(full, "", "", 0, NULL);
    code = name ? vfs->xOpen(vfs, name, file, SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB, NULL)
                : SQLITE_NOMEM;
    const int why = errno;
    if (code == SQLITE_OK) {
        file->pMethods->xRead(file, header, HEADER, 0);
        file->pMethods->xClose(file);
    }
    sqlite3_free_filename(name);
    free(file);
    free(full);
    errno = why;
    return code == SQLITE_OK;
}

/* The header of an SQLite file: its first 16 bytes, and the application id at byte 68 (SQLite's
 * "Database File Format", section 1.3). @param[out] fresh  nothing is there yet */
static pare_status look_at(const char *path, pare_store_mode mode, bool *fresh, pare_error *err)
{
    struct stat facts;
    *fresh = false;
    if (stat(path, &facts) != 0) {
        if (errno != ENOENT && errno != ENOTDIR)
            return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be opened (%s)", path,
                             strerror(errno));
        *fresh = true;
        return mode == PARE_STORE_CREATE ? PARE_OK : no_bench(path, err);
    }
    if (!S_ISREG(facts.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: %s, not a bench; right would be a file", path,
                         S_ISDIR(facts.st_mode) ? "a folder" : "no regular file");
    if (facts.st_size == 0 && mode == PARE_STORE_CREATE) {
        *fresh = true;
        return PARE_OK;
    }
    unsigned char header[HEADER] = {0};
    if (!read_header(path, header))
        return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be opened (%s)", path, strerror(errno));
    if (facts.st_size < HEADER || memcmp(header, "SQLite format 3", 16) != 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: not a bench but some other file; right would be a file that Pare "
                         "made",
                         path);
    if (big_endian(header + 68) != PARE_APPLICATION_ID)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: another program's database; right would be a file that Pare made",
                         path);
    return PARE_OK;
}

static pare_status connect_to(pare_store *store, const char *name, int flags, pare_error *err)
{
    /* A private connection per store: SQLite's own locks between threads are not needed. */
    sqlite3 *db = NULL;
    const int code = sqlite3_open_v2(name, &db, flags | SQLITE_OPEN_NOMUTEX, NULL);
    store->connection = db;
    if (!db)
        return pare_no_memory(err);
    if (code != SQLITE_OK)
        return pare_sqlite_failed(store, err);
    sqlite3_busy_timeout(db, PARE_SQLITE_WAIT_MS);
    sqlite3_db_config(db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    sqlite3_db_config(db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_FKEY, 1, NULL);
    return PARE_OK;
}

/* "file:/a%20b?immutable=1" */
static pare_status connect_unchanging(pare_store *store, pare_error *err)
{
    pare_text name = {0};
    struct stat facts;
    pare_text_printf(&name, "%s-wal", store->path);
    const bool log = !name.failed && stat(name.bytes, &facts) == 0 && facts.st_size > 0;
    name.length = 0;
    pare_text_add(&name, "file:");
    for (const char *c = store->path; *c; c++)
        if (strchr("%?#", *c) || (unsigned char)*c <= ' ')
            pare_text_printf(&name, "%%%02x", (unsigned)(unsigned char)*c);
        else
            pare_text_put(&name, c, 1);
    pare_text_add(&name, "?immutable=1");
    pare_status status;
    if (name.failed)
        status = pare_no_memory(err);
    else if (log)
        status = pare_fail(err, PARE_UNAVAILABLE,
                           "%s: another program's changes wait beside it (%s-wal), in a folder "
                           "that can only be read",
                           store->path, store->path);
    else
        status = connect_to(store, name.bytes, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, err);
    pare_text_free(&name);
    return status;
}

static pare_status open_existing(pare_store *store, pare_store_mode mode, pare_error *err)
{
    pare_status status = connect_to(store, store->path, SQLITE_OPEN_READWRITE, err);
    if (status == PARE_OK)
        status = pare_sqlite_check(store, err);
    if (status == PARE_UNAVAILABLE && mode == PARE_STORE_READ) {
        const int code = sqlite3_errcode(pare_sqlite_of(store)) & 0xff;
        if (code == SQLITE_CANTOPEN || code == SQLITE_READONLY) {
            pare_sql_close(store);
            status = connect_unchanging(store, err);
            if (status == PARE_OK)
                status = pare_sqlite_check(store, err);
        }
    }
    if (status != PARE_OK)
        return status;
    store->writable = sqlite3_db_readonly(pare_sqlite_of(store), "main") == 0;
    if (mode != PARE_STORE_READ && !store->writable)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%s: can only be read; a file and folder that you may write would be "
                         "right",
                         store->path);
    return PARE_OK;
}

static pare_status make_new(pare_store *store, pare_error *err)
{
    const bool was_there = access(store->path, F_OK) == 0;
    pare_status status = pare_disk_folders(store->path, err);
    if (status == PARE_OK)
        status = connect_to(store, store->path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, err);
    if (status == PARE_OK)
        status = pare_sqlite_make(store, err);
    if (status == PARE_OK)
        status = pare_sqlite_check(store, err);
    store->writable = true;
    struct stat facts;
    if (status != PARE_OK && !was_there && stat(store->path, &facts) == 0 && facts.st_size == 0)
        unlink(store->path);
    return status;
}

pare_status pare_sqlite_open(const char *path, pare_store_mode mode, pare_store **store,
                             pare_error *err)
{
    pare_store *made = NULL;
    pare_text name = {0};
    bool fresh = false;
    *store = NULL;
    pare_status status = look_at(path, mode, &fresh, err);
    if (status != PARE_OK)
        return status;
    /* ":memory:" and "file:" are files of those names here. */
    pare_text_printf(&name, "%s%s", path[0] == ':' || strncmp(path, "file:", 5) == 0 ? "./" : "",
                     path);
    status = name.failed ? pare_no_memory(err)
                         : pare_store_made(&pare_sqlite_driver, name.bytes, &made, err);
    pare_text_free(&name);
    if (status == PARE_OK)
        status = fresh ? make_new(made, err) : open_existing(made, mode, err);
    if (status == PARE_OK)
        *store = made;
    else
        pare_store_close(made);
    return status;
}

pare_status pare_sqlite_open_memory(const char *path, pare_store **store, pare_error *err)
{
    sqlite3 *db = NULL;
    *store = NULL;
    pare_status status = pare_store_made(&pare_sqlite_driver, path, store, err);
    if (status != PARE_OK)
        return status;
    const int code =
        sqlite3_open_v2(":memory:", &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);
    (*store)->connection = db;
    (*store)->writable = true;
    if (code != SQLITE_OK)
        status = db ? pare_sqlite_failed(*store, err) : pare_no_memory(err);
    else
        sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_FKEY, 1, NULL);
    if (status != PARE_OK) {
        pare_store_close(*store);
        *store = NULL;
    }
    return status;
}
