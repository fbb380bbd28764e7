/* page.c: see page.h. */
#include "page.h"

#include <stdlib.h>
#include <string.h>

#define LONGEST (1L << 20)

bool fit_block_open(fit_block *block)
{
    *block = (fit_block){NULL, NULL, 0};
    block->out = open_memstream(&block->text, &block->length);
    return block->out != NULL;
}

static char *whole(const char *path)
{
    FILE *file = fopen(path, "rb");
    char *text = malloc(LONGEST);
    const size_t length = file && text ? fread(text, 1, LONGEST - 1, file) : 0;
    const bool fine = length > 0 && length < LONGEST - 1;
    if (file)
        fclose(file);
    if (!fine) {
        free(text);
        return NULL;
    }
    text[length] = '\0';
    return text;
}

/* Beside the old page until all is written. */
static bool put(const char *path, const char *page, size_t before, const char *text,
                const char *after)
{
    char beside[4100];
    snprintf(beside, sizeof beside, "%s.new", path);
    FILE *out = fopen(beside, "wb");
    if (!out)
        return false;
    fwrite(page, 1, before, out);
    fputs(text, out);
    fputs(after, out);
    const bool fine = !ferror(out);
    if (fclose(out) == 0 && fine && rename(beside, path) == 0)
        return true;
    remove(beside);
    return false;
}

bool fit_block_close(fit_block *block, const char *page, const char *name)
{
    const bool written = fclose(block->out) == 0;
    char mark[80];
    snprintf(mark, sizeof mark, "<!-- fit: %s -->\n", name);
    char *text = written ? whole(page) : NULL;
    const char *from = text ? strstr(text, mark) : NULL;
    const char *to = from ? strstr(from, "<!-- end -->") : NULL;
    bool fine = to != NULL;
    if (written)
        printf("\n%s", block->text);
    if (fine)
        fine = put(page, text, (size_t)(from - text) + strlen(mark), block->text, to);
    if (!fine)
        fprintf(stderr, "%s: has no %.60s ... <!-- end --> or cannot be written\n", page, mark);
    free(text);
    free(block->text);
    return fine;
}
