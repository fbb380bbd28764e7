/* drawer.c: one file in a folder of its own (see drawer.h). */
#include "store/drawer.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char PLAIN[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-_";

/* The last letters, since an ending stands at the end. */
static void make_name(pare_drawer *drawer, const char *label)
{
    const size_t length = strlen(label);
    snprintf(drawer->name, sizeof drawer->name, "%s",
             length < DRAWER_NAME ? label : label + length - (DRAWER_NAME - 1));
    for (char *c = drawer->name; *c; c++)
        if (!strchr(PLAIN, *c))
            *c = '_';
    if (drawer->name[0] == '.' || drawer->name[0] == '-')
        drawer->name[0] = '_';
    if (drawer->name[0] == '\0')
        strcpy(drawer->name, "file");
}

pare_status pare_drawer_open(pare_drawer *drawer, const char *label, pare_error *err)
{
    const char *where = getenv("TMPDIR");
    char folder[DRAWER_PATH];
    const int length =
        snprintf(folder, sizeof folder, "%s/pare-XXXXXX", where && *where == '/' ? where : "/tmp");
    *drawer = (pare_drawer){0};
    if (length < 0 || length >= DRAWER_PATH - 1)
        return pare_fail(err, PARE_UNAVAILABLE, "TMPDIR is too long a path");
    if (!mkdtemp(folder))
        return pare_fail(err, PARE_UNAVAILABLE, "no folder for a file that comes: %s",
                         strerror(errno));
    make_name(drawer, label);
    snprintf(drawer->folder, sizeof drawer->folder, "%.*s/", DRAWER_PATH - 2, folder);
    snprintf(drawer->path, sizeof drawer->path, "%s%s", drawer->folder, drawer->name);
    return PARE_OK;
}

pare_status pare_drawer_put(const pare_drawer *drawer, const void *bytes, size_t length,
                            pare_error *err)
{
    FILE *file = fopen(drawer->path, "wb");
    bool written = file && fwrite(bytes, 1, length, file) == length;
    if (file)
        written = fclose(file) == 0 && written;
    return written ? PARE_OK
                   : pare_fail(err, PARE_UNAVAILABLE, "%s cannot be kept: %s", drawer->name,
                               strerror(errno));
}

pare_status pare_drawer_take(const pare_drawer *drawer, pare_text *bytes, pare_error *err)
{
    char block[1 << 14];
    FILE *file = fopen(drawer->path, "rb");
    if (!file)
        return pare_fail(err, PARE_UNAVAILABLE, "%s: %s", drawer->name, strerror(errno));
    size_t got;
    do {
        got = fread(block, 1, sizeof block, file);
        pare_text_put(bytes, block, got);
    } while (got == sizeof block);
    const bool failed = ferror(file) != 0;
    fclose(file);
    if (failed)
        return pare_fail(err, PARE_UNAVAILABLE, "%s cannot be read again", drawer->name);
    return bytes->failed ? pare_no_memory(err) : PARE_OK;
}

void pare_drawer_hide(const pare_drawer *drawer, char *text)
{
    const size_t length = strlen(drawer->folder);
    for (char *at = length && text ? strstr(text, drawer->folder) : NULL; at;
         at = strstr(at, drawer->folder))
        memmove(at, at + length, strlen(at + length) + 1);
}

void pare_drawer_close(pare_drawer *drawer)
{
    DIR *folder = drawer->folder[0] ? opendir(drawer->folder) : NULL;
    if (folder) {
        const int at = dirfd(folder);
        for (const struct dirent *entry = readdir(folder); at >= 0 && entry;
             entry = readdir(folder))
            unlinkat(at, entry->d_name, 0); /* "." and ".." stay */
        closedir(folder);
        rmdir(drawer->folder);
    }
    *drawer = (pare_drawer){0};
}
