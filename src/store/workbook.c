/* workbook.c: a workbook's parts, its sheets and its shared texts (see workbook.h).
 *
 * An archive of XML parts: the workbook names its sheets, relations say where each is, one part has the
 * texts that cells share and one the formats. Each is unpacked and parsed piece by piece under a limit, so
 * that what a hostile file unpacks to is never held. Namespaces are not looked at: the strict form of the
 * standard has others for the same elements.
 *
 * Source: ECMA-376 part 1, chapter 18 (SpreadsheetML) and part 2 (packages), from memory. */
#include "store/workbook.h"

#include <stdio.h>
#include <stdlib.h>
#include <strings.h>

#include "store/disk.h"
#include "store/workbook_inside.h"
#include "store/zip.h"

#define FILE_BYTES ((size_t)64 << 20)
#define PART_BYTES ((size_t)192 << 20)
#define TEXT_BYTES ((size_t)64 << 20) /* of shared texts together */

enum { TEXTS_MOST = 2000000, NAME_MOST = 100 };

/* ---- parts ---- */

static pare_status take(void *context, const char *bytes, size_t length, pare_error *err)
{
    return pare_xml_feed(context, bytes, length, false, err);
}

pare_status pare_workbook_part_read(const pare_workbook *book, const char *part, bool needed,
                                    const pare_xml_reader *reader, pare_error *err)
{
    pare_xml_reader named = *reader;
    pare_error why = {0};
    named.name = pare_arena_printf(book->arena, "%s: %s", book->path, part);
    pare_xml *xml = named.name ? pare_xml_open(&named) : NULL;
    if (!xml)
        return pare_no_memory(err);
    bool there = false;
    pare_status status = pare_zip_has(book->path, book->bytes, book->length, part, &there, &why);
    if (status == PARE_OK && (there || needed)) {
        status = pare_zip_read(book->path, book->bytes, book->length, part, NULL, PART_BYTES, take,
                               xml, &why);
        if (status == PARE_OK)
            status = pare_xml_feed(xml, "", 0, true, &why);
    }
    pare_xml_close(xml);
    if (status != PARE_OK && err)
        *err = why;
    return status;
}

/* ---- the workbook and where its sheets are ---- */

static bool is(const char *element, const char *name)
{
    return strcmp(pare_xml_bare(element), name) == 0;
}

/* An attribute in whichever namespace. */
static const char *any_attribute(const char *const *attributes, const char *name)
{
    for (size_t i = 0; attributes[i]; i += 2)
        if (strcmp(pare_xml_bare(attributes[i]), name) == 0)
            return attributes[i + 1];
    return NULL;
}

static void add_sheet(pare_workbook *book, pare_xml *xml, const char *const *attributes)
{
    const char *name = any_attribute(attributes, "name"),
               *state = any_attribute(attributes, "state");
    /* "sheetId" is another number than that of the relation, which stands in a namespace of its own. */
    const char *id = any_attribute(attributes, "id");
    if (state && strcmp(state, "visible") != 0)
        return;
    if (!name || !id || !*name || strlen(name) > NAME_MOST) {
        pare_xml_refuse(xml, "a sheet without a name or relation; right would be both");
        return;
    }
    if (book->sheets == PARE_WORKBOOK_SHEETS) {
        pare_xml_refuse(xml, "over %d sheets; right would be fewer", PARE_WORKBOOK_SHEETS);
        return;
    }
    book->sheet[book->sheets].name = pare_arena_text(book->arena, name);
    book->sheet[book->sheets].id = pare_arena_text(book->arena, id);
    if (!book->sheet[book->sheets].name || !book->sheet[book->sheets].id)
        pare_xml_no_memory(xml);
    book->sheets++;
}

static void begin_workbook(void *context, pare_xml *xml, const char *element,
                           const char *const *attributes)
{
    pare_workbook *book = context;
    const char *from = any_attribute(attributes, "date1904");
    if (is(element, "sheet"))
        add_sheet(book, xml, attributes);
    else if (is(element, "workbookPr"))
        book->from_1904 = from && (strcmp(from, "1") == 0 || strcmp(from, "true") == 0);
}

static void end_nothing(void *context, pare_xml *xml, const char *element)
{
    (void)context;
    (void)xml;
    (void)element;
}

static void begin_relation(void *context, pare_xml *xml, const char *element,
                           const char *const *attributes)
{
    pare_workbook *book = context;
    const char *id = any_attribute(attributes, "Id"), *to = any_attribute(attributes, "Target"),
               *mode = any_attribute(attributes, "TargetMode");
    if (!is(element, "Relationship") || !id || !to || (mode && strcmp(mode, "Internal") != 0))
        return;
    for (size_t i = 0; i < book->sheets; i++) {
        if (strcmp(book->sheet[i].id, id) != 0)
            continue;
        book->sheet[i].place = *to == '/' ? pare_arena_text(book->arena, to + 1)
                                          : pare_arena_printf(book->arena, "xl/%s", to);
        if (!book->sheet[i].place)
            pare_xml_no_memory(xml);
    }
}

/* ---- texts that cells share ---- */

typedef struct sharing {
    pare_workbook *book;
    int in_text, aside; /* within t; within what is only for reading aloud */
} sharing;

static void begin_shared(void *context, pare_xml *xml, const char *element,
                         const char *const *attributes)
{
    sharing *s = context;
    pare_workbook *book = s->book;
    (void)attributes;
    s->in_text += is(element, "t");
    s->aside += is(element, "rPh");
    if (!is(element, "si"))
        return;
    if (book->texts == TEXTS_MOST) {
        pare_xml_refuse(xml, "over %d shared texts; right would be fewer", TEXTS_MOST);
        return;
    }
    if (book->texts + 2 > book->text_room) {
        const size_t room = book->text_room ? 2 * book->text_room : 1024;
        size_t *more = realloc(book->text_at, room * sizeof *more);
        if (!more) {
            pare_xml_no_memory(xml);
            return;
        }
        book->text_at = more;
        book->text_room = room;
    }
    book->text_at[book->texts++] = book->text.length;
}

static void shared_text(void *context, pare_xml *xml, const char *piece, size_t length)
{
    sharing *s = context;
    if (!s->in_text || s->aside || s->book->texts == 0)
        return;
    pare_text_put(&s->book->text, piece, length);
    if (s->book->text.failed)
        pare_xml_no_memory(xml);
    else if (s->book->text.length > TEXT_BYTES)
        pare_xml_refuse(xml, "over %zu MiB of shared texts; right would be less", TEXT_BYTES >> 20);
}

static void end_shared(void *context, pare_xml *xml, const char *element)
{
    sharing *s = context;
    s->in_text -= is(element, "t");
    s->aside -= is(element, "rPh");
    if (!is(element, "si"))
        return;
    pare_text_put(&s->book->text, "", 1); /* a zero behind each */
    if (s->book->text.failed)
        pare_xml_no_memory(xml);
}

static pare_status read_shared(pare_workbook *book, pare_error *err)
{
    sharing s = {.book = book};
    const pare_xml_reader reader = {
        .context = &s, .begin = begin_shared, .end = end_shared, .text = shared_text};
    return pare_workbook_part_read(book, "xl/sharedStrings.xml", false, &reader, err);
}

/* ---- which sheet ---- */

static pare_status refuse_sheet(const pare_workbook *book, const char *wanted, pare_error *err)
{
    const char *names[PARE_WORKBOOK_SHEETS];
    pare_text all = {0};
    for (size_t i = 0; i < book->sheets; i++) {
        names[i] = book->sheet[i].name;
        if (i < 8)
            pare_text_printf(&all, "%s'%.40s'", i ? ", " : "", names[i]);
    }
    const char *near = pare_nearest(wanted, book->sheets, names);
    if (near)
        pare_fail(err, PARE_UNKNOWN, "%s: no sheet '%.60s'; did you mean '%.60s'?", book->path,
                  wanted, near);
    else
        pare_fail(err, PARE_UNKNOWN, "%s: no sheet '%.60s'; there %s %s%s", book->path, wanted,
                  book->sheets == 1 ? "is" : "are", all.bytes ? all.bytes : "none",
                  book->sheets > 8 ? " and others" : "");
    pare_text_free(&all);
    return PARE_UNKNOWN;
}

static pare_status find_sheet(const pare_workbook *book, const char *wanted, size_t *found,
                              pare_error *err)
{
    char *end = NULL;
    const unsigned long number = strtoul(wanted, &end, 10);
    for (*found = 0; *found < book->sheets; (*found)++)
        if (strcasecmp(book->sheet[*found].name, wanted) == 0)
            return PARE_OK;
    *found = number - 1;
    return *wanted >= '0' && *wanted <= '9' && !*end && number >= 1 && number <= book->sheets
               ? PARE_OK
               : refuse_sheet(book, wanted, err);
}

static pare_status read_sheet(const pare_workbook *book, const char *wanted, bool comma,
                              pare_workbook_table *table, pare_error *err)
{
    pare_text csv = {0};
    bool any = false;
    size_t sheet = 0;
    pare_status status = PARE_OK;
    if (wanted)
        status = find_sheet(book, wanted, &sheet, err);
    for (size_t i = sheet; status == PARE_OK && !any && i < (wanted ? sheet + 1 : book->sheets);
         i++) {
        sheet = i;
        csv.length = 0;
        status = pare_workbook_sheet(book, i, comma, &csv, &any, err);
    }
    if (status == PARE_OK && !any)
        status = wanted ? pare_fail(err, PARE_BAD_DATA,
                                    "%s: nothing in sheet '%.60s'; right would be a row of column "
                                    "names, then a row an entry",
                                    book->path, book->sheet[sheet].name)
                        : pare_fail(err, PARE_BAD_DATA,
                                    "%s: no sheet with anything in it; right would be a row of "
                                    "column names, then a row an entry",
                                    book->path);
    if (status == PARE_OK) {
        *table = (pare_workbook_table){.sheet = book->sheet[sheet].name,
                                       .sheets = book->sheets,
                                       .csv = pare_arena_copy(book->arena, csv.bytes, csv.length),
                                       .length = csv.length};
        status = table->csv ? PARE_OK : pare_no_memory(err);
    }
    pare_text_free(&csv);
    return status;
}

/* An old or encrypted workbook is a compound file: MS-CFB 2.2. */
static pare_status check_kind(const pare_workbook *book, pare_error *err)
{
    if (book->length >= 8 && memcmp(book->bytes, "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", 8) == 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: an old workbook, or one with a password; right would be XLSX without",
                         book->path);
    return PARE_OK;
}

pare_status pare_workbook_read(const char *path, const char *sheet, bool comma, pare_arena *arena,
                               pare_workbook_table *table, pare_error *err)
{
    pare_workbook *book = calloc(1, sizeof *book);
    if (!book)
        return pare_no_memory(err);
    const pare_xml_reader workbook = {.context = book, .begin = begin_workbook, .end = end_nothing},
                          relations = {
                              .context = book, .begin = begin_relation, .end = end_nothing};
    book->path = path;
    book->arena = arena;
    pare_status status = pare_disk_read(path, FILE_BYTES, arena, &book->bytes, &book->length, err);
    if (status == PARE_OK)
        status = check_kind(book, err);
    if (status == PARE_OK)
        status = pare_workbook_part_read(book, "xl/workbook.xml", true, &workbook, err);
    if (status == PARE_OK)
        status = pare_workbook_part_read(book, "xl/_rels/workbook.xml.rels", true, &relations, err);
    if (status == PARE_OK)
        status = read_shared(book, err);
    if (status == PARE_OK)
        status = pare_workbook_forms(book, err);
    if (status == PARE_OK)
        status = read_sheet(book, sheet, comma, table, err);
    pare_text_free(&book->text);
    free(book->text_at);
    free(book->form);
    free(book);
    return status;
}
