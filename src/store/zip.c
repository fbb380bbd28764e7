/* zip.c: see zip.h.
 *
 * Nothing is written to a disk, so a name that leads out of its folder could do no harm here; it is
 * refused since no program that means well writes it, and an export would hand the file on. */
#include "store/zip.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

#include <unzip.h>

enum { MOST_ENTRIES = 10000, NAME_MOST = 255, PIECE = 65536, STORED = 0, DEFLATED = 8 };

/* The archive's bytes as the file that minizip reads. */
typedef struct memory {
    const char *bytes;
    size_t length, at;
} memory;

static voidpf ZCALLBACK open_memory(voidpf opaque, const void *name, int mode)
{
    (void)name;
    (void)mode;
    return opaque;
}

static uLong ZCALLBACK read_memory(voidpf opaque, voidpf stream, void *to, uLong size)
{
    memory *m = stream;
    (void)opaque;
    const size_t left = m->length - m->at, take = size < left ? (size_t)size : left;
    memcpy(to, m->bytes + m->at, take);
    m->at += take;
    return (uLong)take;
}

static uLong ZCALLBACK write_memory(voidpf opaque, voidpf stream, const void *from, uLong size)
{
    (void)opaque;
    (void)stream;
    (void)from;
    (void)size;
    return 0;
}

static ZPOS64_T ZCALLBACK tell_memory(voidpf opaque, voidpf stream)
{
    (void)opaque;
    return ((const memory *)stream)->at;
}

static long ZCALLBACK seek_memory(voidpf opaque, voidpf stream, ZPOS64_T offset, int origin)
{
    memory *m = stream;
    (void)opaque;
    const size_t from = origin == ZLIB_FILEFUNC_SEEK_SET   ? 0
                        : origin == ZLIB_FILEFUNC_SEEK_CUR ? m->at
                                                           : m->length;
    if (offset > m->length - from)
        return -1;
    m->at = from + (size_t)offset;
    return 0;
}

static int ZCALLBACK close_memory(voidpf opaque, voidpf stream)
{
    (void)opaque;
    (void)stream;
    return 0;
}

static bool leads_out(const char *entry)
{
    bool out = entry[0] == '/' || strchr(entry, '\\') || strchr(entry, ':');
    for (const char *part = entry; part && !out; part = strchr(part, '/')) {
        part += *part == '/';
        out = strcmp(part, "..") == 0 || strncmp(part, "../", 3) == 0;
    }
    return out;
}

static bool ends(const char *entry, const char *ending)
{
    const size_t length = strlen(entry), end = ending ? strlen(ending) : 0;
    return ending && length > end && strcasecmp(entry + length - end, ending) == 0;
}

static pare_status damaged(const char *name, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: a damaged archive, or cut short; right would be a whole copy of it",
                     name);
}

/* Where an entry is: the one of a name, or those with an ending. */
typedef struct sought {
    unz64_file_pos exact, alike; /* the first of each */
    size_t exacts, alikes;
} sought;

/* Looks through all names. */
static pare_status look(unzFile zip, const char *name, const char *entry, const char *ending,
                        sought *s, pare_error *err)
{
    size_t entries = 0;
    *s = (sought){0};
    int walk = unzGoToFirstFile(zip);
    for (; walk == UNZ_OK; walk = unzGoToNextFile(zip)) {
        char called[NAME_MOST + 1] = "";
        unz_file_info64 about;
        if (unzGetCurrentFileInfo64(zip, &about, called, NAME_MOST, NULL, 0, NULL, 0) != UNZ_OK)
            return damaged(name, err);
        if (++entries > MOST_ENTRIES || about.size_filename > NAME_MOST)
            return pare_fail(err, PARE_BAD_DATA,
                             "%s: over %d entries, or a name over %d bytes; right would be fewer",
                             name, MOST_ENTRIES, NAME_MOST);
        if (strlen(called) != about.size_filename || leads_out(called))
            return pare_fail(err, PARE_BAD_DATA,
                             "%s: an entry '%.60s'; right would be names below the archive", name,
                             called);
        if (strcasecmp(called, entry) == 0 && s->exacts++ == 0)
            unzGetFilePos64(zip, &s->exact);
        else if (ends(called, ending) && s->alikes++ == 0)
            unzGetFilePos64(zip, &s->alike);
    }
    return walk == UNZ_END_OF_LIST_OF_FILE ? PARE_OK : damaged(name, err);
}

/* Leaves the archive at the entry that is sought. */
static pare_status find(unzFile zip, const char *name, const char *entry, const char *ending,
                        pare_error *err)
{
    sought s;
    const pare_status status = look(zip, name, entry, ending, &s, err);
    const size_t exacts = s.exacts, alikes = s.alikes;
    if (status != PARE_OK)
        return status;
    if (exacts > 1 || (exacts == 0 && alikes != 1))
        return pare_fail(err, PARE_BAD_DATA, "%s: %s entry %s in it; right would be exactly one",
                         name, exacts > 1 || alikes > 1 ? "more than one" : "no", entry);
    return unzGoToFilePos64(zip, exacts ? &s.exact : &s.alike) == UNZ_OK ? PARE_OK
                                                                         : damaged(name, err);
}

static pare_status too_large(const char *name, size_t most, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: what is packed in it unpacks to over %zu MiB; right would be less", name,
                     most >> 20);
}

static pare_status unpack(unzFile zip, const char *name, size_t most, pare_zip_take take,
                          void *context, pare_error *err)
{
    unz_file_info64 about;
    if (unzGetCurrentFileInfo64(zip, &about, NULL, 0, NULL, 0, NULL, 0) != UNZ_OK)
        return damaged(name, err);
    if (about.flag & 1)
        return pare_fail(err, PARE_BAD_DATA, "%s: encrypted; right would be a plain archive", name);
    if (about.compression_method != STORED && about.compression_method != DEFLATED)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: packed by method %lu; right would be 8 (deflate) or 0", name,
                         about.compression_method);
    if (about.uncompressed_size > most)
        return too_large(name, most, err);
    if (unzOpenCurrentFile(zip) != UNZ_OK)
        return damaged(name, err);
    char piece[PIECE];
    pare_status status = PARE_OK;
    size_t total = 0;
    int got = 1;
    while (status == PARE_OK && (got = unzReadCurrentFile(zip, piece, PIECE)) > 0) {
        total += (size_t)got;
        status = total > most ? too_large(name, most, err) : take(context, piece, (size_t)got, err);
    }
    const int closed = unzCloseCurrentFile(zip); /* tells whether the check sum holds */
    if (status == PARE_OK && (got < 0 || closed != UNZ_OK || total != about.uncompressed_size))
        status = damaged(name, err);
    return status;
}

/* The archive in memory; NULL: it is none. @param source  lives as long as it */
static unzFile open_archive(const char *name, memory *source)
{
    zlib_filefunc64_def functions = {.zopen64_file = open_memory,
                                     .zread_file = read_memory,
                                     .zwrite_file = write_memory,
                                     .ztell64_file = tell_memory,
                                     .zseek64_file = seek_memory,
                                     .zclose_file = close_memory,
                                     .zerror_file = close_memory,
                                     .opaque = source};
    return unzOpen2_64(name, &functions);
}

static pare_status no_archive(const char *name, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: not a zip archive, or cut short; 3MF models and XLSX workbooks are such "
                     "archives",
                     name);
}

pare_status pare_zip_has(const char *name, const char *bytes, size_t length, const char *entry,
                         bool *there, pare_error *err)
{
    memory source = {bytes, length, 0};
    sought s;
    unzFile zip = open_archive(name, &source);
    if (!zip)
        return no_archive(name, err);
    const pare_status status = look(zip, name, entry, NULL, &s, err);
    *there = status == PARE_OK && s.exacts > 0;
    unzClose(zip);
    return status;
}

pare_status pare_zip_read(const char *name, const char *bytes, size_t length, const char *entry,
                          const char *ending, size_t most, pare_zip_take take, void *context,
                          pare_error *err)
{
    memory source = {bytes, length, 0};
    unzFile zip = open_archive(name, &source);
    if (!zip)
        return no_archive(name, err);
    pare_status status = find(zip, name, entry, ending, err);
    if (status == PARE_OK)
        status = unpack(zip, name, most, take, context, err);
    unzClose(zip);
    return status;
}
