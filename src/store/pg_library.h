/* pg_library.h: libpq, loaded when a bench on a server is opened and not before. Inside the room only.
 *
 * Linked in the usual way it brings its own two dozen libraries (TLS, Kerberos, LDAP), which every command
 * would pay for at its start, though most benches are files. So its functions are found by name; its own
 * header gives their types. */
#ifndef PARE_STORE_PG_LIBRARY_H
#define PARE_STORE_PG_LIBRARY_H

#include <libpq-fe.h>

#include "base/error.h"

/** Every function that the driver calls. */
/* clang-format off */
#define PARE_PG_FUNCTIONS(each) \
    each(PQcancel) each(PQclear) each(PQcmdStatus) each(PQcmdTuples) each(PQconnectdbParams) each(PQconninfoFree) \
    each(PQconninfoParse) each(PQconsumeInput) each(PQenterPipelineMode) each(PQerrorMessage) \
    each(PQexitPipelineMode) each(PQfinish) each(PQfreeCancel) each(PQfreemem) each(PQgetCancel) \
    each(PQgetResult) each(PQgetisnull) each(PQgetlength) each(PQgetvalue) each(PQisBusy) \
    each(PQnfields) each(PQntuples) each(PQpipelineSync) each(PQresultErrorField) \
    each(PQresultStatus) each(PQsendPrepare) each(PQsendQuery) each(PQsendQueryParams) \
    each(PQsendQueryPrepared) each(PQsetNoticeProcessor) each(PQsocket) each(PQstatus) \
    each(PQtransactionStatus) each(PQuser)
/* clang-format on */

/** The functions under their own names. */
typedef struct pare_pg_library {
#define PARE_PG_MEMBER(name) __typeof__(name) *name; /* NOLINT(bugprone-macro-parentheses) */
    PARE_PG_FUNCTIONS(PARE_PG_MEMBER)
#undef PARE_PG_MEMBER
} pare_pg_library;

/** Loads them; they stay until the program ends.
 * @return PARE_OK, or PARE_UNAVAILABLE, naming the library or the function that is not there */
pare_status pare_pg_library_open(pare_pg_library *library, pare_error *err);

#endif
