/* csv.c: rows of a table in text (see csv.h).
 *
 * A row is scanned once, byte by byte through a table of classes; its fields are then places in the
 * window. Where the window ends within a row, the row is moved to the window's front, more is read,
 * and it is scanned anew: that happens once in some thousand rows, and nothing has been changed by
 * then. Only a row that has been scanned whole is altered: zeros after fields, doubled quotes made
 * single.
 *
 * Rejected: an existing CSV library, since none of Debian's gives the line at which a quote opened, and
 * that is what a person with a broken table needs; reading a table whole, which would let memory grow
 * with it. Source: RFC 4180; a lone quote within an unquoted field is let in, as people type inches
 * with it. */
#include "store/csv.h"

#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/utf8.h"

enum { WINDOW = 2 * PARE_CSV_ROW };

struct pare_csv {
    const char *name;
    int file;           /* -1: from memory */
    const char *memory; /* [memory_length], when file is -1 */
    size_t memory_length, memory_read;
    char *window;         /* [WINDOW + 1] */
    size_t from, to;      /* what of it is not read yet */
    bool ended;           /* nothing follows the window */
    bool separator_known; /* the classes are made for it */
    char separator;
    unsigned char class_of[256];
    int line; /* at `from` */
};

/* What a byte is to the scanner. */
enum { PLAIN, SEPARATOR, QUOTE, LINE_FEED, RETURN, TAB, HIGH, CONTROL };

static void make_classes(pare_csv *csv, char separator)
{
    for (int c = 0; c < 256; c++)
        csv->class_of[c] = c >= 0x80 ? HIGH : c < 0x20 || c == 0x7f ? CONTROL : PLAIN;
    csv->class_of['"'] = QUOTE;
    csv->class_of['\n'] = LINE_FEED;
    csv->class_of['\r'] = RETURN;
    csv->class_of['\t'] = TAB;
    csv->class_of[(unsigned char)separator] = SEPARATOR;
    csv->separator = separator;
    csv->separator_known = true;
}

/* ---- the window ---- */

static pare_status read_some(pare_csv *csv, char *to, size_t room, size_t *got, pare_error *err)
{
    if (csv->file < 0) {
        const size_t left = csv->memory_length - csv->memory_read;
        *got = left < room ? left : room;
        if (*got)
            memcpy(to, csv->memory + csv->memory_read, *got);
        csv->memory_read += *got;
        return PARE_OK;
    }
    ssize_t count;
    do
        count = read(csv->file, to, room);
    while (count < 0 && errno == EINTR);
    if (count < 0)
        return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be read (%s)", csv->name,
                         strerror(errno));
    *got = (size_t)count;
    return PARE_OK;
}

/* Moves what is left to the front and reads on until the window is full or the file has ended. */
static pare_status fill(pare_csv *csv, pare_error *err)
{
    if (csv->from) {
        memmove(csv->window, csv->window + csv->from, csv->to - csv->from);
        csv->to -= csv->from;
        csv->from = 0;
    }
    while (!csv->ended && csv->to < WINDOW) {
        size_t got = 0;
        const pare_status status =
            read_some(csv, csv->window + csv->to, WINDOW - csv->to, &got, err);
        if (status != PARE_OK)
            return status;
        csv->to += got;
        csv->ended = got == 0;
    }
    csv->window[csv->to] = '\0';
    return PARE_OK;
}

static pare_status start(pare_csv *csv, pare_error *err)
{
    csv->from = csv->to = 0;
    csv->line = 1;
    csv->ended = false;
    const pare_status status = fill(csv, err);
    if (status == PARE_OK && csv->to >= 3 && memcmp(csv->window, "\xEF\xBB\xBF", 3) == 0)
        csv->from = 3;
    return status;
}

static pare_status open_file(pare_csv *csv, const char *path, pare_error *err)
{
    struct stat facts;
    csv->file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK); /* a pipe would be waited for */
    if (csv->file < 0)
        return pare_fail(err, PARE_BAD_DATA, "%s: cannot be opened (%s)", path, strerror(errno));
    if (fstat(csv->file, &facts) != 0 || !S_ISREG(facts.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: %s; right would be a file", path,
                         S_ISDIR(facts.st_mode) ? "a folder" : "no regular file");
    return PARE_OK;
}

pare_status pare_csv_open(const char *path, const char *bytes, size_t length, const char *name,
                          pare_csv **csv, pare_error *err)
{
    *csv = NULL;
    pare_csv *made = calloc(1, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    *made = (pare_csv){.name = name, .file = -1, .memory = bytes, .memory_length = length};
    made->window = malloc(WINDOW + 1);
    pare_status status = made->window ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK && path)
        status = open_file(made, path, err);
    if (status == PARE_OK)
        status = start(made, err);
    if (status == PARE_OK && made->from == made->to)
        status = pare_fail(err, PARE_BAD_DATA,
                           "%s: an empty file; right would be a row of column names, then a row an "
                           "entry",
                           name);
    if (status == PARE_OK)
        *csv = made;
    else
        pare_csv_close(made);
    return status;
}

void pare_csv_close(pare_csv *csv)
{
    if (!csv)
        return;
    if (csv->file >= 0)
        close(csv->file);
    free(csv->window);
    free(csv);
}

const char *pare_csv_beginning(const pare_csv *csv, size_t *length)
{
    *length = csv->to - csv->from;
    return csv->window + csv->from;
}

pare_status pare_csv_rewind(pare_csv *csv, pare_error *err)
{
    csv->memory_read = 0;
    if (csv->file >= 0 && lseek(csv->file, 0, SEEK_SET) != 0)
        return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be read again (%s)", csv->name,
                         strerror(errno));
    return start(csv, err);
}

/* ---- a row ---- */

/* A row being scanned; places are offsets from the row's start. */
typedef struct scan {
    const unsigned char *start, *at, *end;
    int line;       /* at `at` */
    int quote_line; /* where the open quote stands */
    bool quoted;    /* the field at hand began with a quote */
    bool odd;       /* it holds doubled quotes, line breaks or tabs, to be made plain */
    size_t field;   /* where it begins */
} scan;

typedef enum scanned { ROW_WHOLE, ROW_CUT, ROW_BAD } scanned;

static pare_status refuse_byte(const pare_csv *csv, const scan *s, pare_error *err)
{
    const unsigned byte = *s->at;
    unsigned code = 0;
    if (byte == 0 || byte >= 0xfe)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:%d: byte 0x%02x: no text, or text in UTF-16; right would be a table "
                         "saved as UTF-8",
                         csv->name, s->line, byte);
    if (pare_utf8_character(s->at, (size_t)(s->end - s->at), &code) > 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:%d: control character U+%04X; right would be a table of plain text",
                         csv->name, s->line, code);
    return pare_fail(err, PARE_BAD_DATA,
                     "%s:%d: byte 0x%02x is not UTF-8, it may be Latin-1; right would be the same "
                     "table saved as UTF-8",
                     csv->name, s->line, byte);
}

/* A high byte: a whole character that text may hold. ROW_CUT: the window ends within it. */
static scanned pass_character(const pare_csv *csv, scan *s)
{
    unsigned code = 0;
    const size_t left = (size_t)(s->end - s->at);
    const size_t length = pare_utf8_character(s->at, left, &code);
    if (length == 0)
        return left < 4 && !csv->ended ? ROW_CUT : ROW_BAD;
    if (pare_utf8_is_control(code))
        return ROW_BAD;
    s->at += length;
    return ROW_WHOLE;
}

static pare_status refuse_long(const pare_csv *csv, const scan *s, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%s:%d: a field of more than %d bytes; right would be a shorter one%s",
                     csv->name, s->quoted ? s->quote_line : s->line, PARE_CSV_FIELD,
                     s->quoted ? ", or a quote that closes it" : "");
}

static pare_status end_field(const pare_csv *csv, scan *s, pare_csv_row *row, bool odd[],
                             pare_error *err)
{
    const size_t end = (size_t)(s->at - s->start);
    if (end - s->field > PARE_CSV_FIELD)
        return refuse_long(csv, s, err);
    if (row->count == PARE_CSV_COLUMNS)
        return pare_fail(err, PARE_BAD_DATA, "%s:%d: more than %d fields; right would be fewer",
                         csv->name, s->line, PARE_CSV_COLUMNS);
    /* The place for now: it becomes a pointer once the row is whole. */
    row->field[row->count].length = end - s->field;
    row->field[row->count].text = NULL;
    odd[row->count] = s->odd;
    row->count++;
    return PARE_OK;
}

/* From the opening quote to the closing one. @param[out] found  ROW_CUT: the window ends before */
static pare_status pass_quoted(const pare_csv *csv, scan *s, scanned *found, pare_error *err)
{
    *found = ROW_WHOLE;
    s->quote_line = s->line;
    s->at++;
    for (;;) {
        if (s->at == s->end) {
            *found = ROW_CUT;
            return PARE_OK;
        }
        const unsigned char class = csv->class_of[*s->at];
        if (*s->at == '"') {
            if (s->at + 1 == s->end && !csv->ended) {
                *found = ROW_CUT;
                return PARE_OK;
            }
            if (s->at + 1 == s->end || s->at[1] != '"')
                break;
            s->odd = true;
            s->at++;
        } else if (*s->at == '\n') {
            s->line++;
            s->odd = true;
        } else if (class == RETURN || *s->at == '\t') {
            s->odd = true;
        } else if (class == HIGH) {
            *found = pass_character(csv, s);
            if (*found != ROW_WHOLE)
                return *found == ROW_CUT ? PARE_OK : refuse_byte(csv, s, err);
            continue;
        } else if (class == CONTROL) {
            return refuse_byte(csv, s, err);
        }
        s->at++;
    }
    s->at++;
    if (s->at < s->end && csv->class_of[*s->at] != SEPARATOR && *s->at != '\n' && *s->at != '\r')
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:%d: text after the closing quote of the field that opens in line %d; "
                         "right would be two quotes (\"\") for one within it",
                         csv->name, s->line, s->quote_line);
    return PARE_OK;
}

/* One line break after a field. */
static scanned pass_break(const pare_csv *csv, scan *s)
{
    if (*s->at == '\r') {
        if (s->at + 1 == s->end && !csv->ended)
            return ROW_CUT;
        s->at++;
        if (s->at < s->end && *s->at == '\n')
            s->at++;
    } else {
        s->at++;
    }
    s->line++;
    return ROW_WHOLE;
}

/* Scans one row. ROW_CUT: the window ends within it. */
static pare_status scan_row(const pare_csv *csv, scan *s, pare_csv_row *row, size_t begin[],
                            bool odd[], scanned *found, pare_error *err)
{
    const unsigned char *class_of = csv->class_of;
    pare_status status = PARE_OK;
    row->count = 0;
    *found = ROW_WHOLE;
    for (;;) {
        s->field = (size_t)(s->at - s->start);
        s->quoted = s->at < s->end && *s->at == '"';
        s->odd = false;
        if (s->quoted) {
            status = pass_quoted(csv, s, found, err);
            if (status != PARE_OK || *found == ROW_CUT)
                return status;
        }
        for (;;) {
            while (s->at < s->end && (class_of[*s->at] == PLAIN || *s->at == '"'))
                s->at++;
            if (s->at == s->end) {
                if (!csv->ended) {
                    *found = ROW_CUT;
                    return PARE_OK;
                }
                break;
            }
            const unsigned char class = class_of[*s->at];
            if (class == SEPARATOR || class == LINE_FEED || class == RETURN)
                break;
            if (class == CONTROL)
                return refuse_byte(csv, s, err);
            if (class == TAB) {
                s->odd = true;
                s->at++;
                continue;
            }
            *found = pass_character(csv, s);
            if (*found != ROW_WHOLE)
                return *found == ROW_CUT ? PARE_OK : refuse_byte(csv, s, err);
        }
        if (row->count < PARE_CSV_COLUMNS)
            begin[row->count] = s->field;
        status = end_field(csv, s, row, odd, err);
        if (status != PARE_OK || s->at == s->end)
            return status;
        if (class_of[*s->at] != SEPARATOR) {
            *found = pass_break(csv, s);
            return PARE_OK;
        }
        s->at++;
    }
}

/* Doubled quotes made single, line breaks made blanks. */
static void make_single(pare_csv_field *field)
{
    char *to = field->text;
    for (const char *c = field->text; c < field->text + field->length; c++) {
        if (*c == '"' && c + 1 < field->text + field->length)
            c++;
        *to++ = *c == '\n' || *c == '\r' || *c == '\t' ? ' ' : *c;
    }
    field->length = (size_t)(to - field->text);
    *to = '\0';
}

/* Tabs within a field that was not quoted. */
static void make_blank(pare_csv_field *field)
{
    for (char *tab = field->text; (tab = strchr(tab, '\t')) != NULL;)
        *tab = ' ';
}

/* Fields become texts of their own; from here on the row's bytes are changed. */
static void cut_fields(char *start, pare_csv_row *row, const size_t begin[], const bool odd[])
{
    for (size_t i = 0; i < row->count; i++) {
        pare_csv_field *field = &row->field[i];
        field->text = start + begin[i];
        field->text[field->length] = '\0';
        if (field->length >= 2 && field->text[0] == '"') {
            field->text++;
            field->length -= 2;
            field->text[field->length] = '\0';
            if (odd[i])
                make_single(field);
        } else if (odd[i]) {
            make_blank(field);
        }
    }
}

/* The window ended within the row, and there is no more or no room. */
static pare_status refuse_cut(const pare_csv *csv, const scan *s, pare_error *err)
{
    if ((size_t)(s->at - s->start) - s->field > PARE_CSV_FIELD)
        return refuse_long(csv, s, err);
    if (csv->ended)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:%d: a quote opens here and is closed nowhere; right would be one more "
                         "quote",
                         csv->name, s->quote_line);
    return pare_fail(err, PARE_BAD_DATA,
                     "%s:%d: a row of more than %d bytes; right would be a shorter one", csv->name,
                     csv->line, PARE_CSV_ROW);
}

pare_status pare_csv_read(pare_csv *csv, char separator, pare_csv_row *row, bool *there,
                          pare_error *err)
{
    size_t begin[PARE_CSV_COLUMNS];
    bool odd[PARE_CSV_COLUMNS];
    if (!csv->separator_known || csv->separator != separator)
        make_classes(csv, separator);
    *there = false;
    for (bool again = false;; again = true) {
        if (csv->from == csv->to && csv->ended)
            return PARE_OK;
        const unsigned char *start = (const unsigned char *)csv->window + csv->from;
        scan s = {.start = start,
                  .at = start,
                  .end = (const unsigned char *)csv->window + csv->to,
                  .line = csv->line};
        scanned found = ROW_WHOLE;
        pare_status status = scan_row(csv, &s, row, begin, odd, &found, err);
        if (status != PARE_OK)
            return status;
        if (found == ROW_WHOLE && (size_t)(s.at - start) <= PARE_CSV_ROW) {
            row->line = csv->line;
            cut_fields(csv->window + csv->from, row, begin, odd);
            csv->from += (size_t)(s.at - start);
            csv->line = s.line;
            *there = true;
            return PARE_OK;
        }
        if (again || csv->ended || found == ROW_WHOLE)
            return refuse_cut(csv, &s, err);
        status = fill(csv, err);
        if (status != PARE_OK)
            return status;
    }
}
