/* workbook_whole.c: a workbook read back (see workbook_whole.h). */
#include "store/workbook_whole.h"

#include <stdio.h>

#include "store/xml.h"
#include "store/zip.h"

#define PART_BYTES ((size_t)1 << 30)

static void begin(void *context, pare_xml *xml, const char *element, const char *const *attributes)
{
    (void)context;
    (void)xml;
    (void)element;
    (void)attributes;
}

static void end(void *context, pare_xml *xml, const char *element)
{
    (void)context;
    (void)xml;
    (void)element;
}

static pare_status take(void *context, const char *bytes, size_t length, pare_error *err)
{
    return pare_xml_feed(context, bytes, length, false, err);
}

static pare_status read_part(const char *name, const char *bytes, size_t length, const char *part,
                             pare_error *err)
{
    const pare_xml_reader reader = {.name = part, .begin = begin, .end = end};
    pare_xml *xml = pare_xml_open(&reader);
    if (!xml)
        return pare_no_memory(err);
    pare_status status = pare_zip_read(name, bytes, length, part, NULL, PART_BYTES, take, xml, err);
    if (status == PARE_OK)
        status = pare_xml_feed(xml, "", 0, true, err);
    pare_xml_close(xml);
    return status;
}

pare_status pare_workbook_whole(const char *name, const char *bytes, size_t length, size_t sheets,
                                pare_error *err)
{
    static const char *const parts[] = {"[Content_Types].xml", "xl/workbook.xml", "xl/styles.xml",
                                        "xl/sharedStrings.xml"};
    enum { PARTS = sizeof parts / sizeof parts[0] };
    pare_error why = {0};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < PARTS + sheets && status == PARE_OK; i++) {
        char sheet[64];
        snprintf(sheet, sizeof sheet, "xl/worksheets/sheet%zu.xml", i + 1 - PARTS);
        status = read_part(name, bytes, length, i < PARTS ? parts[i] : sheet, &why);
    }
    if (status == PARE_OK || why.status == PARE_UNAVAILABLE) {
        if (status != PARE_OK && err)
            *err = why;
        return status;
    }
    return pare_fail(err, PARE_UNAVAILABLE,
                     "%s: half of it was lost while it was gathered (%s); right would be room on "
                     "the disk of TMPDIR",
                     name, why.text);
}
