/* xml.h: reading XML that may be hostile, by expat. Inside the room only.
 *
 * Nothing outside the text is ever fetched, and no entities are defined: a document type with rules
 * of its own is refused. Depth is limited. */
#ifndef PARE_STORE_XML_H
#define PARE_STORE_XML_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

typedef struct pare_xml pare_xml;

/** What a reader of one kind of document gives. Names come as "namespace|name", or "name" alone
 * where there is no namespace; attributes as name, value, ..., NULL. */
typedef struct pare_xml_reader {
    const char *name; /* in front of messages */
    bool doctype;     /* a document type without rules is let through, unread */
    void *context;
    void (*begin)(void *context, pare_xml *xml, const char *element, const char *const *attributes);
    void (*end)(void *context, pare_xml *xml, const char *element);
    void (*space)(void *context, const char *prefix, const char *uri); /* may be NULL */
    /* Text between, in pieces without an end of their own; may be NULL. */
    void (*text)(void *context, pare_xml *xml, const char *piece, size_t length);
} pare_xml_reader;

/** @return NULL when there is no memory. Close with pare_xml_close(). */
pare_xml *pare_xml_open(const pare_xml_reader *reader);
void pare_xml_close(pare_xml *xml);

/** Reads a piece of the text. @param last  nothing follows
 * @return PARE_OK; PARE_BAD_DATA as name:line:column; PARE_UNAVAILABLE when there is no memory */
pare_status pare_xml_feed(pare_xml *xml, const char *bytes, size_t length, bool last,
                          pare_error *err);

/** Called in begin or end: stops, with the place in front. pare_xml_feed() returns the error. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pare_xml_refuse(pare_xml *xml, const char *format, ...);
/** The same for want of memory. */
void pare_xml_no_memory(pare_xml *xml);
bool pare_xml_refused(const pare_xml *xml);

/** The name without its namespace when that is `uri`, or without any when bare is true; else NULL. */
const char *pare_xml_local(const char *element, const char *uri, bool bare);

/** The name without its namespace, whichever that is. */
const char *pare_xml_bare(const char *element);

/** An attribute without namespace, or NULL. */
const char *pare_xml_attribute(const char *const *attributes, const char *name);

#endif
