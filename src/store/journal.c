/* journal.c: see journal.h.
 *
 * A sync costs some milliseconds, and thousands of lines may come in a second: one a second is what a lost
 * machine may cost. A program that is killed loses nothing, since what is written is the system's. */
#include "store/journal.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/arena.h"
#include "base/hash.h"
#include "base/text.h"
#include "store/disk.h"

#define SYNC_S 1

enum { SUM = 16, BYTES_MOST = 1 << 30 };

struct pare_journal {
    int file;
    off_t end; /* of the last whole line */
    bool unsynced;
    time_t synced;
    char *path;
    pare_text line; /* at hand */
};

static pare_status cannot(const pare_journal *journal, const char *what, pare_error *err)
{
    return pare_fail(err, PARE_UNAVAILABLE, "%s: %s (%s)", journal->path, what, strerror(errno));
}

void pare_journal_close(pare_journal *journal)
{
    if (!journal)
        return;
    if (journal->file >= 0)
        close(journal->file);
    pare_text_free(&journal->line);
    free(journal->path);
    free(journal);
}

static time_t now_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return now.tv_sec;
}

pare_status pare_journal_sync(pare_journal *journal, pare_error *err)
{
    if (journal->unsynced && fsync(journal->file) != 0)
        return cannot(journal, "cannot be written", err);
    journal->unsynced = false;
    journal->synced = now_s();
    return PARE_OK;
}

pare_status pare_journal_add(pare_journal *journal, const char *text, pare_error *err)
{
    const unsigned long long sum = pare_hash(PARE_HASH_START, text, strlen(text));
    journal->line.length = 0;
    pare_text_printf(&journal->line, "%0*llx %s\n", SUM, sum, text);
    if (journal->line.failed)
        return pare_no_memory(err);
    size_t done = 0;
    while (done < journal->line.length) {
        const ssize_t put =
            write(journal->file, journal->line.bytes + done, journal->line.length - done);
        if (put < 0 && errno == EINTR)
            continue;
        if (put <= 0) {
            const pare_status status = cannot(journal, "cannot be written", err);
            if (ftruncate(journal->file, journal->end) != 0)
                return status; /* the rest of the line is taken away when it is opened again */
            return status;
        }
        done += (size_t)put;
    }
    journal->end += (off_t)done;
    journal->unsynced = true;
    return now_s() >= journal->synced + SYNC_S ? pare_journal_sync(journal, err) : PARE_OK;
}

/* The text of a line that is what its sum says; NULL otherwise. */
static const char *text_of(const char *line, size_t length)
{
    char sum[SUM + 2];
    if (length < SUM + 1 || line[SUM] != ' ')
        return NULL;
    snprintf(sum, sizeof sum, "%0*llx", SUM,
             pare_hash(PARE_HASH_START, line + SUM + 1, length - SUM - 1));
    return memcmp(sum, line, SUM) == 0 && !memchr(line, '\0', length) ? line + SUM + 1 : NULL;
}

static pare_status check_title(const pare_journal *journal, const char *said, const char *title,
                               pare_error *err)
{
    if (!said)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:1: no journal; move that file away, or name another journal",
                         journal->path);
    if (strcmp(said, title) != 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:1: the journal of '%.80s', not of '%.80s'; move it away, or name "
                         "another",
                         journal->path, said, title);
    return PARE_OK;
}

/* @param bytes  [length], which is cut into lines */
static pare_status read_lines(pare_journal *journal, char *bytes, size_t length, const char *title,
                              pare_journal_take take, void *context, size_t *damaged,
                              pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t at = 0; at < length && status == PARE_OK;) {
        char *line = bytes + at, *end = memchr(line, '\n', length - at);
        if (!end)
            break;
        *end = '\0';
        const char *text = text_of(line, (size_t)(end - line));
        if (at == 0)
            status = check_title(journal, text, title, err);
        else if (text)
            status = take(context, text, err);
        else
            ++*damaged;
        at += (size_t)(end - line) + 1;
        journal->end = (off_t)at;
    }
    return status;
}

/* A first line that was cut off; anything else without a line's end is somebody's file. */
static bool is_begun(const char *bytes, size_t length, const char *title)
{
    pare_text line = {0};
    pare_text_printf(&line, "%0*llx %s\n", SUM, pare_hash(PARE_HASH_START, title, strlen(title)),
                     title);
    const bool begun =
        !line.failed && length < line.length && memcmp(bytes, line.bytes, length) == 0;
    pare_text_free(&line);
    return begun;
}

static pare_status read_all(pare_journal *journal, const char *title, pare_journal_take take,
                            void *context, size_t *damaged, pare_error *err)
{
    const char *bytes = NULL;
    size_t length = 0;
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_disk_read(journal->path, BYTES_MOST, arena, &bytes, &length, err);
    char *lines = status == PARE_OK && length ? malloc(length) : NULL;
    if (status == PARE_OK && length && !lines)
        status = pare_no_memory(err);
    if (lines) {
        memcpy(lines, bytes, length);
        status = read_lines(journal, lines, length, title, take, context, damaged, err);
        if (status == PARE_OK && journal->end == 0 && !is_begun(bytes, length, title))
            status = check_title(journal, NULL, title, err);
    }
    free(lines);
    pare_arena_close(arena);
    if (status == PARE_OK && (off_t)length != journal->end &&
        ftruncate(journal->file, journal->end) != 0)
        status = cannot(journal, "cannot be written", err);
    if (status == PARE_OK && journal->end == 0)
        status = pare_journal_add(journal, title, err);
    return status;
}

/* A regular file, ours alone. */
static pare_status open_file(pare_journal *journal, pare_error *err)
{
    struct stat facts;
    journal->file = open(journal->path, O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC | O_NONBLOCK, 0666);
    if (journal->file < 0)
        return cannot(journal, "cannot be written", err);
    if (fstat(journal->file, &facts) != 0 || !S_ISREG(facts.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: no regular file; right would be a file's name",
                         journal->path);
    if (flock(journal->file, LOCK_EX | LOCK_NB) == 0)
        return PARE_OK;
    if (errno == EWOULDBLOCK)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%s: in use by another pare study; wait for it, or name another journal",
                         journal->path);
    return cannot(journal, "cannot be locked", err);
}

pare_status pare_journal_open(const char *path, const char *title, pare_journal_take take,
                              void *context, pare_journal **journal, size_t *damaged,
                              pare_error *err)
{
    pare_journal *j = calloc(1, sizeof *j);
    *journal = NULL;
    *damaged = 0;
    if (!j)
        return pare_no_memory(err);
    j->file = -1;
    j->path = strdup(path);
    j->synced = now_s();
    pare_status status = j->path ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = open_file(j, err);
    if (status == PARE_OK)
        status = read_all(j, title, take, context, damaged, err);
    if (status == PARE_OK)
        *journal = j;
    else
        pare_journal_close(j);
    return status;
}
