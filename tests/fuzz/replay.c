/* replay.c: hands every file of a folder to a fuzz target, in the order of names. */
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fuzz.h"

static int is_file(const struct dirent *entry)
{
    return entry->d_name[0] != '.';
}

static void hand_over(const char *path)
{
    FILE *file = fopen(path, "rb");
    fuzz_expect(file && fseek(file, 0, SEEK_END) == 0, "a seed can be read");
    const long length = ftell(file);
    rewind(file);
    /* Exactly as long as the input, so that a byte too far is seen. */
    uint8_t *bytes = malloc(length > 0 ? (size_t)length : 1);
    fuzz_expect(bytes && fread(bytes, 1, (size_t)length, file) == (size_t)length,
                "a seed is read whole");
    fclose(file);
    (void)LLVMFuzzerTestOneInput(bytes, (size_t)length);
    free(bytes);
}

int main(int argc, char *argv[])
{
    if (argc != 2) {
        fprintf(stderr, "usage: %s FOLDER\n", argv[0]);
        return 2;
    }
    struct dirent **entry = NULL;
    const int count = scandir(argv[1], &entry, is_file, alphasort);
    for (int i = 0; i < count; i++) {
        char path[4096];
        snprintf(path, sizeof path, "%s/%s", argv[1], entry[i]->d_name);
        /* Said before: what crashes is the last one named. */
        printf("%s\n", entry[i]->d_name);
        fflush(stdout);
        hand_over(path);
        free(entry[i]);
    }
    free(entry);
    printf("%d passed, %d failed\n", count > 0 ? count : 0, count > 0 ? 0 : 1);
    return count > 0 ? 0 : 1;
}
