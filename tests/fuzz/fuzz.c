/* fuzz.c: what the fuzz targets share (see fuzz.h). */
#include "fuzz.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

void fuzz_expect(int holds, const char *promised)
{
    if (holds)
        return;
    fprintf(stderr, "broken: %s\n", promised);
    abort();
}

int fuzz_answered(pare_status status, const pare_error *err)
{
    if (status == PARE_OK)
        return 1;
    fuzz_expect(status == err->status, "the error has the status that was returned");
    const size_t length = strnlen(err->text, sizeof err->text);
    fuzz_expect(length > 0 && length < sizeof err->text, "a refusal says why");
    for (size_t i = 0; i < length; i++)
        fuzz_expect((unsigned char)err->text[i] >= ' ' && err->text[i] != 127,
                    "a refusal is one line without control characters");
    return 0;
}

char *fuzz_text(const uint8_t *bytes, size_t length)
{
    char *text = malloc(length + 1);
    fuzz_expect(text != NULL, "there is memory");
    if (length)
        memcpy(text, bytes, length);
    text[length] = '\0';
    return text;
}

static char folder[64];

static void sweep(void)
{
    DIR *files = opendir(folder);
    for (struct dirent *entry; files && (entry = readdir(files));) {
        char path[sizeof folder + sizeof entry->d_name + 1];
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (entry->d_name[0] != '.')
            unlink(path);
    }
    if (files)
        closedir(files);
    rmdir(folder);
}

const char *fuzz_path(const char *name)
{
    static char path[sizeof folder + 64];
    if (!folder[0]) {
        struct stat in_memory;
        const int there = stat("/dev/shm", &in_memory) == 0 && access("/dev/shm", W_OK) == 0;
        snprintf(folder, sizeof folder, "%s/pare-fuzz-XXXXXX", there ? "/dev/shm" : "/tmp");
        fuzz_expect(mkdtemp(folder) != NULL, "there is a place for temporary files");
        atexit(sweep);
    }
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

void fuzz_write(const char *path, const void *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    fuzz_expect(file && (length == 0 || fwrite(bytes, length, 1, file) == 1) && fclose(file) == 0,
                "a temporary file can be written");
}
