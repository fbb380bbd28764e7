/* lines.c: long texts by the line (see lines.h). As disk.c does with whole files, what is written goes beside
 * the old one, to disk, and is renamed. */
#include "store/lines.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"

struct pare_lines_out {
    FILE *file;
    char *path, *beside;
    mode_t mode;
};

struct pare_lines_in {
    FILE *file;
};

static pare_status cannot(const char *path, const char *what, pare_error *err)
{
    return pare_fail(err, PARE_UNAVAILABLE, "%s: %s (%s)", path, what, strerror(errno));
}

void pare_lines_drop(pare_lines_out *lines)
{
    if (!lines)
        return;
    if (lines->file)
        (void)fclose(lines->file);
    if (lines->file)
        unlink(lines->beside);
    free(lines->path);
    free(lines->beside);
    free(lines);
}

static pare_status make_beside(pare_lines_out *lines, pare_error *err)
{
    const int file = mkstemp(lines->beside);
    if (file < 0)
        return cannot(lines->path, "cannot be written", err);
    lines->file = fdopen(file, "w");
    if (lines->file && fchmod(file, lines->mode) == 0)
        return PARE_OK;
    const pare_status status = cannot(lines->path, "cannot be written", err);
    if (!lines->file) {
        (void)close(file);
        unlink(lines->beside);
    }
    return status;
}

pare_status pare_lines_begin(const char *path, pare_lines_out **lines, pare_error *err)
{
    struct stat facts;
    const bool there = stat(path, &facts) == 0;
    *lines = NULL;
    if (there && !S_ISREG(facts.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: no regular file; right would be a file's name",
                         path);
    const size_t size = strlen(path) + sizeof ".XXXXXX";
    pare_lines_out *made = calloc(1, sizeof *made);
    if (made) {
        made->path = strdup(path);
        made->beside = malloc(size);
    }
    if (!made || !made->path || !made->beside) {
        pare_lines_drop(made);
        return pare_no_memory(err);
    }
    snprintf(made->beside, size, "%s.XXXXXX", path);
    const mode_t mask = umask(0);
    umask(mask);
    made->mode = there ? facts.st_mode & 07777 : 0666 & ~mask;
    const pare_status status = make_beside(made, err);
    if (status == PARE_OK)
        *lines = made;
    else
        pare_lines_drop(made);
    return status;
}

bool pare_lines_put(pare_lines_out *lines, const char *line)
{
    return fputs(line, lines->file) >= 0 && fputc('\n', lines->file) != EOF;
}

pare_status pare_lines_keep(pare_lines_out *lines, pare_error *err)
{
    pare_status status = PARE_OK;
    if (fflush(lines->file) != 0 || ferror(lines->file) || fsync(fileno(lines->file)) != 0)
        status = cannot(lines->path, "cannot be written", err);
    if (status == PARE_OK && rename(lines->beside, lines->path) != 0)
        status = cannot(lines->path, "cannot be replaced", err);
    if (status == PARE_OK) {
        (void)fclose(lines->file); /* it is on disk already */
        lines->file = NULL;
    }
    pare_lines_drop(lines);
    return status;
}

pare_status pare_lines_open(const char *path, pare_lines_in **lines, pare_error *err)
{
    struct stat facts;
    *lines = NULL;
    FILE *file = fopen(path, "r");
    if (!file || fstat(fileno(file), &facts) != 0 || S_ISDIR(facts.st_mode)) {
        const int error = file && S_ISDIR(facts.st_mode) ? EISDIR : errno;
        if (file)
            (void)fclose(file);
        return pare_fail(err, PARE_BAD_DATA, "%s: cannot be read (%s)", path, strerror(error));
    }
    pare_lines_in *made = malloc(sizeof *made);
    if (!made) {
        (void)fclose(file);
        return pare_no_memory(err);
    }
    *made = (pare_lines_in){file};
    *lines = made;
    return PARE_OK;
}

int pare_lines_get(pare_lines_in *lines, size_t size, char line[])
{
    size_t length = 0;
    for (;;) {
        const int byte = getc_unlocked(lines->file);
        if (byte == EOF)
            return ferror(lines->file) ? PARE_LINES_FAILED
                   : length > 0        ? PARE_LINES_TOO_LONG
                                       : PARE_LINES_END;
        if (byte == '\n')
            break;
        if (length + 1 >= size || byte < ' ' || byte == 0x7f)
            return PARE_LINES_TOO_LONG;
        line[length++] = (char)byte;
    }
    line[length] = '\0';
    return (int)length;
}

void pare_lines_close(pare_lines_in *lines)
{
    if (lines)
        (void)fclose(lines->file);
    free(lines);
}
