/* xml.c: expat with limits (see xml.h). The parser keeps the first error until it is asked for. */
#include "store/xml.h"

#include <expat.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DEEPEST = 200, PIECE = 1 << 20 };

struct pare_xml {
    pare_xml_reader reader;
    XML_Parser parser;
    int depth;
    pare_error error; /* status PARE_OK: none */
};

void pare_xml_refuse(pare_xml *xml, const char *format, ...)
{
    char text[sizeof xml->error.text];
    if (xml->error.status != PARE_OK)
        return;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    pare_fail(&xml->error, PARE_BAD_DATA, "%s:%lu:%lu: %s", xml->reader.name,
              (unsigned long)XML_GetCurrentLineNumber(xml->parser),
              (unsigned long)XML_GetCurrentColumnNumber(xml->parser) + 1, text);
    XML_StopParser(xml->parser, XML_FALSE);
}

void pare_xml_no_memory(pare_xml *xml)
{
    if (xml->error.status != PARE_OK)
        return;
    pare_no_memory(&xml->error);
    XML_StopParser(xml->parser, XML_FALSE);
}

bool pare_xml_refused(const pare_xml *xml)
{
    return xml->error.status != PARE_OK;
}

static void XMLCALL begin(void *data, const XML_Char *element, const XML_Char **attributes)
{
    pare_xml *xml = data;
    if (xml->error.status != PARE_OK)
        return;
    if (++xml->depth > DEEPEST)
        pare_xml_refuse(xml, "elements over %d deep; right would be a flatter document", DEEPEST);
    else
        xml->reader.begin(xml->reader.context, xml, element, (const char *const *)attributes);
}

static void XMLCALL end(void *data, const XML_Char *element)
{
    pare_xml *xml = data;
    if (xml->error.status != PARE_OK)
        return;
    xml->depth--;
    xml->reader.end(xml->reader.context, xml, element);
}

static void XMLCALL space(void *data, const XML_Char *prefix, const XML_Char *uri)
{
    const pare_xml *xml = data;
    if (xml->reader.space)
        xml->reader.space(xml->reader.context, prefix ? prefix : "", uri ? uri : "");
}

static void XMLCALL text(void *data, const XML_Char *piece, int length)
{
    pare_xml *xml = data;
    if (xml->error.status == PARE_OK && length > 0)
        xml->reader.text(xml->reader.context, xml, piece, (size_t)length);
}

static void XMLCALL doctype(void *data, const XML_Char *name, const XML_Char *system,
                            const XML_Char *public, int rules)
{
    pare_xml *xml = data;
    (void)name;
    (void)system;
    (void)public;
    if (rules || !xml->reader.doctype)
        pare_xml_refuse(xml, "a document type with entities or rules of its own; right would be a "
                             "document without DOCTYPE");
}

pare_xml *pare_xml_open(const pare_xml_reader *reader)
{
    pare_xml *xml = calloc(1, sizeof *xml);
    if (!xml)
        return NULL;
    xml->reader = *reader;
    xml->parser = XML_ParserCreateNS(NULL, '|');
    if (!xml->parser) {
        free(xml);
        return NULL;
    }
    XML_SetUserData(xml->parser, xml);
    XML_SetElementHandler(xml->parser, begin, end);
    XML_SetStartNamespaceDeclHandler(xml->parser, space);
    if (reader->text)
        XML_SetCharacterDataHandler(xml->parser, text);
    XML_SetStartDoctypeDeclHandler(xml->parser, doctype);
    XML_SetParamEntityParsing(xml->parser, XML_PARAM_ENTITY_PARSING_NEVER);
    return xml;
}

void pare_xml_close(pare_xml *xml)
{
    if (!xml)
        return;
    XML_ParserFree(xml->parser);
    free(xml);
}

static pare_status feed_piece(pare_xml *xml, const char *bytes, int length, bool last,
                              pare_error *err)
{
    if (XML_Parse(xml->parser, bytes, length, last) == XML_STATUS_OK)
        return PARE_OK;
    if (xml->error.status != PARE_OK) {
        if (err)
            *err = xml->error;
        return xml->error.status;
    }
    if (XML_GetErrorCode(xml->parser) == XML_ERROR_NO_MEMORY)
        return pare_no_memory(err);
    return pare_fail(err, PARE_BAD_DATA, "%s:%lu:%lu: not well-formed XML: %s", xml->reader.name,
                     (unsigned long)XML_GetCurrentLineNumber(xml->parser),
                     (unsigned long)XML_GetCurrentColumnNumber(xml->parser) + 1,
                     XML_ErrorString(XML_GetErrorCode(xml->parser)));
}

pare_status pare_xml_feed(pare_xml *xml, const char *bytes, size_t length, bool last,
                          pare_error *err)
{
    pare_status status = PARE_OK;
    do { /* expat counts in int */
        const size_t piece = length < PIECE ? length : PIECE;
        length -= piece;
        status = feed_piece(xml, bytes, (int)piece, last && length == 0, err);
        bytes += piece;
    } while (status == PARE_OK && length > 0);
    return status;
}

const char *pare_xml_local(const char *element, const char *uri, bool bare)
{
    const char *bar = strrchr(element, '|');
    if (!bar)
        return bare ? element : NULL;
    const size_t length = (size_t)(bar - element);
    return length == strlen(uri) && memcmp(element, uri, length) == 0 ? bar + 1 : NULL;
}

const char *pare_xml_bare(const char *element)
{
    const char *bar = strrchr(element, '|');
    return bar ? bar + 1 : element;
}

const char *pare_xml_attribute(const char *const *attributes, const char *name)
{
    for (size_t i = 0; attributes[i]; i += 2)
        if (strcmp(attributes[i], name) == 0)
            return attributes[i + 1];
    return NULL;
}
