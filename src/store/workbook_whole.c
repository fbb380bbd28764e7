/* workbook_whole.c: a workbook read back (see workbook_whole.h).
 *
 * Parsed as XML, 20,000 rows took a quarter of the time that they took to be written. What can be lost is a
 * stretch of a file, at its end or in its midst, since texts are gathered in buffers of some thousand bytes:
 * rows are missing then, or the last element. */
#include "store/workbook_whole.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "store/zip.h"

#define PART_BYTES ((size_t)1 << 30)

enum { TAIL = 16 };

static const char row_begins[] = "<row ";

typedef struct counting {
    size_t rows;
    char tail[TAIL]; /* the last bytes so far, [used] of them */
    size_t used;
} counting;

static size_t rows_in(const char *bytes, size_t length)
{
    const size_t mark = sizeof row_begins - 1;
    size_t rows = 0;
    const char *at = bytes, *const end = bytes + length;
    while ((at = memchr(at, '<', (size_t)(end - at))) != NULL) {
        rows += (size_t)(end - at) >= mark && memcmp(at, row_begins, mark) == 0;
        at++;
    }
    return rows;
}

/* A mark may lie across two pieces: it is looked for in the end of one and the beginning of the next. */
static pare_status take(void *context, const char *bytes, size_t length, pare_error *err)
{
    counting *c = context;
    const size_t mark = sizeof row_begins - 1, kept = c->used < mark - 1 ? c->used : mark - 1;
    char seam[2 * TAIL];
    const size_t ahead = length < mark - 1 ? length : mark - 1;
    (void)err;
    memcpy(seam, c->tail + c->used - kept, kept);
    memcpy(seam + kept, bytes, ahead);
    c->rows += rows_in(seam, kept + ahead) + rows_in(bytes, length);
    if (length >= TAIL) {
        memcpy(c->tail, bytes + length - TAIL, TAIL);
        c->used = TAIL;
        return PARE_OK;
    }
    const size_t stays = c->used + length > TAIL ? TAIL - length : c->used;
    memmove(c->tail, c->tail + c->used - stays, stays);
    memcpy(c->tail + stays, bytes, length);
    c->used = stays + length;
    return PARE_OK;
}

/* Line breaks behind the last element are nothing. */
static bool ends_with(const counting *c, const char *ending)
{
    size_t used = c->used;
    while (used > 0 && c->tail[used - 1] == '\n')
        used--;
    const size_t length = strlen(ending);
    return used >= length && memcmp(c->tail + used - length, ending, length) == 0;
}

pare_status pare_workbook_whole(const char *name, const char *bytes, size_t length, size_t sheets,
                                const size_t rows[], pare_error *err)
{
    static const struct {
        const char *part, *ending;
    } parts[] = {{"[Content_Types].xml", "</Types>"},
                 {"xl/workbook.xml", "</workbook>"},
                 {"xl/styles.xml", "</styleSheet>"}};
    enum { PARTS = sizeof parts / sizeof parts[0] };
    pare_error why = {.text = "its end is missing"};
    pare_status status = PARE_OK;
    bool whole = true;
    for (size_t i = 0; i < PARTS + sheets && status == PARE_OK && whole; i++) {
        char sheet[64];
        counting c = {0};
        snprintf(sheet, sizeof sheet, "xl/worksheets/sheet%zu.xml", i + 1 - PARTS);
        status = pare_zip_read(name, bytes, length, i < PARTS ? parts[i].part : sheet, NULL,
                               PART_BYTES, take, &c, &why);
        whole = ends_with(&c, i < PARTS ? parts[i].ending : "</worksheet>") &&
                (i < PARTS || c.rows == rows[i - PARTS]);
        if (status == PARE_OK && !whole && i >= PARTS)
            snprintf(why.text, sizeof why.text, "sheet %zu has %zu rows of %zu", i + 1 - PARTS,
                     c.rows, rows[i - PARTS]);
    }
    if (status == PARE_OK && whole)
        return PARE_OK;
    if (status == PARE_UNAVAILABLE) {
        if (err)
            *err = why;
        return status;
    }
    return pare_fail(err, PARE_UNAVAILABLE,
                     "%s: half of it was lost while it was gathered (%s); right would be room on "
                     "the disk of TMPDIR",
                     name, why.text);
}
