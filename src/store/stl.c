/* stl.c: reading STL.
 *
 * A binary file is an 80-byte remark, a 32-bit count and 50 bytes a triangle, little endian; the
 * remark of many begins with "solid", the word that should mark a text file. The length decides:
 * text whose bytes 81 to 84 read as its own length would have to be over 7 GB long.
 *
 * Text is read by words, with the line and column of each for messages. The number of triangles is
 * not known beforehand, but no facet takes fewer than 86 bytes, which bounds it by the length, so
 * one pass suffices. No words are copied but numbers, into a short buffer for strtod. */
#include "store/stl.h"

#include <errno.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/stat.h>

#include "store/hull.h"

enum {
    HEADER_BYTES = 84,
    TRIANGLE_BYTES = 50,
    SHORTEST_FACET = 86, /* "facet normal 0 0 0 outer loop vertex 0 0 0 ... endloop endfacet " */
    LONGEST_NUMBER = 63,
    SHOWN = 24 /* of a strange word, in a message */
};

/* ---- binary ---- */

static uint32_t little_endian(const unsigned char *b)
{
    return (uint32_t)b[0] | (uint32_t)b[1] << 8 | (uint32_t)b[2] << 16 | (uint32_t)b[3] << 24;
}

static double float_at(const unsigned char *b)
{
    const uint32_t bits = little_endian(b);
    float value;
    memcpy(&value, &bits, sizeof value);
    return (double)value;
}

/* How many triangles the header promises; 0 for a file too short to have one. */
static size_t promised(const char *bytes, size_t length)
{
    return length < HEADER_BYTES ? 0 : little_endian((const unsigned char *)bytes + 80);
}

static int is_binary(const char *bytes, size_t length)
{
    return length >= HEADER_BYTES && (length - HEADER_BYTES) % TRIANGLE_BYTES == 0 &&
           (length - HEADER_BYTES) / TRIANGLE_BYTES == promised(bytes, length);
}

static pare_status read_binary(const char *name, const char *bytes, size_t length, double unit_m,
                               pare_arena *arena, pare_mesh *mesh, pare_error *err)
{
    const size_t count = promised(bytes, length);
    double(*corner_m)[9] = pare_arena_array(arena, count, sizeof *corner_m);
    if (!corner_m)
        return pare_no_memory(err);
    for (size_t t = 0; t < count; t++) {
        const unsigned char *triangle =
            (const unsigned char *)bytes + HEADER_BYTES + t * TRIANGLE_BYTES;
        for (size_t i = 0; i < 9; i++) {
            const double value = float_at(triangle + 12 + 4 * i); /* 12: past the normal */
            if (!isfinite(value))
                return pare_fail(err, PARE_BAD_DATA,
                                 "%s: triangle %zu, corner %zu: %c is not a finite number", name,
                                 t + 1, i / 3 + 1, "xyz"[i % 3]);
            corner_m[t][i] = value * unit_m;
        }
    }
    *mesh = (pare_mesh){count, corner_m};
    return PARE_OK;
}

/* ---- text ---- */

typedef struct reader {
    const char *name, *at, *end;
    const char *line_start;
    size_t line;
    pare_error *err;
} reader;

typedef struct word {
    const char *start; /* NULL at the end of the file */
    size_t length, line, column;
} word;

static int is_blank(char c)
{
    return c == ' ' || (c >= '\t' && c <= '\r');
}

static void pass(reader *r)
{
    const char c = *r->at++;
    /* CR LF is one line end, and so is a CR alone. */
    if (c == '\n' || (c == '\r' && !(r->at < r->end && *r->at == '\n'))) {
        r->line++;
        r->line_start = r->at;
    }
}

static word next_word(reader *r)
{
    while (r->at < r->end && is_blank(*r->at))
        pass(r);
    word w = {r->at, 0, r->line, (size_t)(r->at - r->line_start) + 1};
    while (r->at < r->end && !is_blank(*r->at))
        pass(r);
    w.length = (size_t)(r->at - w.start);
    if (w.length == 0)
        w.start = NULL;
    return w;
}

static void skip_line(reader *r)
{
    const size_t line = r->line;
    while (r->at < r->end && r->line == line)
        pass(r);
}

static int is_word(const word *w, const char *keyword)
{
    return w->start && w->length == strlen(keyword) &&
           strncasecmp(w->start, keyword, w->length) == 0;
}

/* What stands at a word, when `due` should. */
static pare_status unexpected(const reader *r, const word *w, const char *due)
{
    if (!w->start) {
        pare_fail(r->err, PARE_BAD_DATA, "the file ends where %s is due; it was cut short", due);
    } else {
        char shown[SHOWN + 1];
        size_t n = 0;
        for (; n < w->length && n < SHOWN; n++)
            shown[n] = w->start[n];
        shown[n] = 0;
        for (size_t i = 0; i < n; i++)
            if (!(shown[i] > ' ' && shown[i] <= '~'))
                shown[i] = '?';
        pare_fail(r->err, PARE_BAD_DATA, "'%s%s' where %s is due", shown,
                  n < w->length ? "..." : "", due);
    }
    pare_within(r->err, "%s:%zu:%zu", r->name, w->line, w->column);
    return PARE_BAD_DATA;
}

static pare_status expect(reader *r, const char *keyword, const char *due)
{
    const word w = next_word(r);
    return is_word(&w, keyword) ? PARE_OK : unexpected(r, &w, due);
}

/* place: a normal, which nobody uses, may be nan where a corner may not. */
static pare_status read_number(reader *r, int place, double *value)
{
    const word w = next_word(r);
    if (!w.start || w.length > LONGEST_NUMBER)
        return unexpected(r, &w, "a number");
    char digits[LONGEST_NUMBER + 1];
    memcpy(digits, w.start, w.length);
    digits[w.length] = 0;
    char *rest;
    *value = strtod(digits, &rest);
    if (*rest || rest == digits)
        return unexpected(r, &w, "a number");
    if (place && !isfinite(*value))
        return unexpected(r, &w, "a finite number");
    return PARE_OK;
}

/* One facet after its first word. */
static pare_status read_facet(reader *r, double unit_m, double corner_m[9])
{
    double value = 0;
    if (expect(r, "normal", "'normal'") != PARE_OK)
        return PARE_BAD_DATA;
    for (int i = 0; i < 3; i++)
        if (read_number(r, 0, &value) != PARE_OK)
            return PARE_BAD_DATA;
    if (expect(r, "outer", "'outer loop'") != PARE_OK ||
        expect(r, "loop", "'outer loop'") != PARE_OK)
        return PARE_BAD_DATA;
    for (int i = 0; i < 9; i++) {
        if (i % 3 == 0 && expect(r, "vertex", "'vertex'") != PARE_OK)
            return PARE_BAD_DATA;
        if (read_number(r, 1, &value) != PARE_OK)
            return PARE_BAD_DATA;
        corner_m[i] = value * unit_m;
    }
    if (expect(r, "endloop", "'endloop' (a facet has three corners)") != PARE_OK)
        return PARE_BAD_DATA;
    return expect(r, "endfacet", "'endfacet'");
}

static pare_status read_text(const char *name, const char *bytes, size_t length, double unit_m,
                             pare_arena *arena, pare_mesh *mesh, pare_error *err)
{
    double(*corner_m)[9] = pare_arena_array(arena, length / SHORTEST_FACET + 1, sizeof *corner_m);
    if (!corner_m)
        return pare_no_memory(err);
    reader r = {name, bytes, bytes + length, bytes, 1, err};
    size_t count = 0;
    word w = next_word(&r);
    while (w.start) {
        if (!is_word(&w, "solid"))
            return unexpected(&r, &w, "'solid' or the end of the file");
        skip_line(&r); /* the solid's name, anything */
        for (w = next_word(&r); !is_word(&w, "endsolid"); w = next_word(&r)) {
            if (!is_word(&w, "facet"))
                return unexpected(&r, &w, "'facet' or 'endsolid'");
            if (read_facet(&r, unit_m, corner_m[count]) != PARE_OK)
                return PARE_BAD_DATA;
            count++;
        }
        skip_line(&r);
        w = next_word(&r);
    }
    *mesh = (pare_mesh){count, corner_m};
    return PARE_OK;
}

/* ---- either ---- */

static int is_text(const char *bytes, size_t length)
{
    while (length && is_blank(*bytes)) {
        bytes++;
        length--;
    }
    return length > 5 && strncasecmp(bytes, "solid", 5) == 0 && is_blank(bytes[5]) &&
           !memchr(bytes, 0, length);
}

pare_status pare_stl_read(const char *name, const char *bytes, size_t length, double unit_m,
                          pare_arena *arena, pare_mesh *mesh, pare_error *err)
{
    if (!(isfinite(unit_m) && unit_m > 0))
        return pare_fail(err, PARE_BAD_DATA, "%s: a unit of %g m; it must be greater than 0", name,
                         unit_m);
    pare_mesh found = {0};
    pare_status status;
    if (is_binary(bytes, length)) {
        status = read_binary(name, bytes, length, unit_m, arena, &found, err);
    } else if (is_text(bytes, length)) {
        status = read_text(name, bytes, length, unit_m, arena, &found, err);
    } else if (length < HEADER_BYTES) {
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: not an STL file: %zu bytes, where text begins with 'solid' and a "
                         "binary file has at least %d",
                         name, length, HEADER_BYTES);
    } else {
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: not an STL file, or cut short: it does not read as text, and as "
                         "binary its header promises %zu triangles where its length has room for "
                         "%zu%s",
                         name, promised(bytes, length), (length - HEADER_BYTES) / TRIANGLE_BYTES,
                         (length - HEADER_BYTES) % TRIANGLE_BYTES ? " and a part of one" : "");
    }
    if (status != PARE_OK)
        return status;
    if (found.triangles == 0)
        return pare_fail(err, PARE_BAD_DATA, "%s: no triangles in it", name);
    *mesh = found;
    return PARE_OK;
}

/* The whole file; free(*bytes). */
static pare_status read_file(const char *path, char **bytes, size_t *length, pare_error *err)
{
    struct stat about;
    if (stat(path, &about) != 0)
        return pare_fail(err, PARE_BAD_DATA, "%s: %s", path, strerror(errno));
    if (!S_ISREG(about.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: not a file", path);
    if ((uintmax_t)about.st_size > PARE_STL_MOST_BYTES)
        return pare_fail(err, PARE_BAD_DATA, "%s: %ju bytes; an STL file may have %zu at most",
                         path, (uintmax_t)about.st_size, PARE_STL_MOST_BYTES);
    FILE *file = fopen(path, "rb");
    if (!file)
        return pare_fail(err, PARE_BAD_DATA, "%s: %s", path, strerror(errno));
    const size_t size = (size_t)about.st_size;
    pare_status status = PARE_OK;
    *bytes = malloc(size + 1);
    if (!*bytes) {
        status = pare_no_memory(err);
    } else {
        *length = fread(*bytes, 1, size, file);
        if (ferror(file))
            status = pare_fail(err, PARE_BAD_DATA, "%s: %s", path, strerror(errno));
    }
    fclose(file);
    if (status != PARE_OK) {
        free(*bytes);
        *bytes = NULL;
    }
    return status;
}

pare_status pare_stl_load(const char *path, double unit_m, pare_arena *arena, pare_mesh *mesh,
                          pare_error *err)
{
    char *bytes = NULL;
    size_t length = 0;
    const pare_status status = read_file(path, &bytes, &length, err);
    if (status != PARE_OK)
        return status;
    const pare_status read = pare_stl_read(path, bytes, length, unit_m, arena, mesh, err);
    free(bytes);
    return read;
}

pare_status pare_stl_measure(const char *path, double unit_m, pare_mesh_facts *facts,
                             pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_mesh mesh;
    pare_status status = pare_stl_load(path, unit_m, arena, &mesh, err);
    if (status == PARE_OK) {
        status = pare_mesh_figures(&mesh, facts, err);
        if (status != PARE_OK)
            status = pare_within(err, "%s", path);
    }
    pare_arena_close(arena);
    return status;
}
