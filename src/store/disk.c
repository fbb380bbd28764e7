/* disk.c: whole files from and to the disk (see disk.h). */
#include "store/disk.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"

static pare_status refuse(const char *path, int error, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s: cannot be read (%s)", path, strerror(error));
}

static pare_status too_large(const char *path, size_t most, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s: larger than %zu MiB, the most that is read", path,
                     most >> 20);
}

static pare_status read_all(int file, const char *path, size_t most, pare_arena *arena,
                            const char **bytes, size_t *length, pare_error *err)
{
    struct stat facts;
    if (fstat(file, &facts) != 0)
        return refuse(path, errno, err);
    if (S_ISDIR(facts.st_mode))
        return refuse(path, EISDIR, err);
    if (facts.st_size > 0 && (unsigned long long)facts.st_size > most)
        return too_large(path, most, err);
    /* A pipe has no size, so it is read to its end, piece by piece. */
    pare_text text = {0};
    char piece[65536];
    pare_status status = PARE_OK;
    ssize_t got = 1;
    while (status == PARE_OK && got > 0) {
        got = read(file, piece, sizeof piece);
        if (got < 0 && errno == EINTR)
            got = 1;
        else if (got < 0)
            status = refuse(path, errno, err);
        else if (text.length + (size_t)got > most)
            status = too_large(path, most, err);
        else
            pare_text_put(&text, piece, (size_t)got);
    }
    const char *copy = NULL;
    if (status == PARE_OK && !text.failed)
        copy = pare_arena_copy(arena, text.bytes, text.length);
    if (status == PARE_OK && !copy)
        status = pare_no_memory(err);
    if (status == PARE_OK) {
        *bytes = copy;
        *length = text.length;
    }
    pare_text_free(&text);
    return status;
}

pare_status pare_disk_read(const char *path, size_t most, pare_arena *arena, const char **bytes,
                           size_t *length, pare_error *err)
{
    /* Without waiting: a pipe is no file, and nobody may ever write into it. */
    const int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file < 0)
        return refuse(path, errno, err);
    const pare_status status = read_all(file, path, most, arena, bytes, length, err);
    close(file);
    return status;
}

bool pare_disk_has(const char *path)
{
    struct stat facts;
    return stat(path, &facts) == 0 && S_ISREG(facts.st_mode);
}

static pare_status write_all(int file, const char *path, const char *bytes, size_t length,
                             pare_error *err)
{
    while (length > 0) {
        const ssize_t put = write(file, bytes, length);
        if (put < 0 && errno == EINTR)
            continue;
        if (put <= 0)
            return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be written (%s)", path,
                             strerror(errno));
        bytes += put;
        length -= (size_t)put;
    }
    return PARE_OK;
}

static pare_status check_same(const char *path, const void *bytes, size_t length, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    const char *there = NULL;
    size_t size = 0;
    /* One byte more than ours is enough to know that it differs. */
    pare_error why = {0};
    const pare_status status = pare_disk_read(path, length + 1, arena, &there, &size, &why);
    const bool same = status == PARE_OK && size == length && memcmp(there, bytes, length) == 0;
    pare_arena_close(arena);
    if (status == PARE_UNAVAILABLE)
        return pare_fail(err, status, "%s", why.text);
    if (same)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: another file of that name is there; move it, or name another folder",
                     path);
}

pare_status pare_disk_write(const char *path, const void *bytes, size_t length, pare_error *err)
{
    const int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0 && errno == EEXIST)
        return check_same(path, bytes, length, err);
    if (file < 0)
        return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be written (%s)", path,
                         strerror(errno));
    pare_status status = write_all(file, path, bytes, length, err);
    if (close(file) != 0 && status == PARE_OK)
        status =
            pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be written (%s)", path, strerror(errno));
    if (status != PARE_OK)
        unlink(path);
    return status;
}

static pare_status cannot(const char *path, const char *what, pare_error *err)
{
    return pare_fail(err, PARE_UNAVAILABLE, "%s: %s (%s)", path, what, strerror(errno));
}

static pare_status put_beside(int file, const char *path, mode_t mode, const char *bytes,
                              size_t length, pare_error *err)
{
    if (fchmod(file, mode) != 0)
        return cannot(path, "cannot be written", err);
    const pare_status status = write_all(file, path, bytes, length, err);
    if (status == PARE_OK && fsync(file) != 0)
        return cannot(path, "cannot be written", err);
    return status;
}

/* What a file that is replaced may be read by: as before, or as is usual for a new one. */
static mode_t usual_mode(bool there, const struct stat *facts)
{
    if (there)
        return facts->st_mode & 07777;
    const mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

static pare_status replace(const char *path, bool secret, const void *bytes, size_t length,
                           pare_error *err)
{
    struct stat facts;
    const bool there = stat(path, &facts) == 0;
    if (there && !S_ISREG(facts.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: no regular file; right would be a file's name",
                         path);
    pare_text beside = {0};
    pare_text_printf(&beside, "%s.XXXXXX", path);
    if (beside.failed) {
        pare_text_free(&beside);
        return pare_no_memory(err);
    }
    const int file = mkstemp(beside.bytes);
    pare_status status = file < 0 ? cannot(path, "cannot be written", err) : PARE_OK;
    if (file >= 0) {
        status =
            put_beside(file, path, secret ? 0600 : usual_mode(there, &facts), bytes, length, err);
        if (close(file) != 0 && status == PARE_OK)
            status = cannot(path, "cannot be written", err);
        if (status == PARE_OK && rename(beside.bytes, path) != 0)
            status = cannot(path, "cannot be replaced", err);
        if (status != PARE_OK)
            unlink(beside.bytes);
    }
    pare_text_free(&beside);
    return status;
}

pare_status pare_disk_replace(const char *path, const void *bytes, size_t length, pare_error *err)
{
    return replace(path, false, bytes, length, err);
}

pare_status pare_disk_replace_secret(const char *path, const void *bytes, size_t length,
                                     pare_error *err)
{
    return replace(path, true, bytes, length, err);
}

pare_status pare_disk_folders(const char *path, pare_error *err)
{
    char *part = strdup(path);
    if (!part)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    for (char *slash = strchr(part + 1, '/'); slash && status == PARE_OK;
         slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        if (mkdir(part, 0777) != 0 && errno != EEXIST)
            status = pare_fail(err, PARE_UNAVAILABLE, "%s: the folder cannot be made (%s)", part,
                               strerror(errno));
        *slash = '/';
    }
    free(part);
    return status;
}
