/* unit_library.h: every unit that the trade's table lacks, by udunits2. Only units.c uses it. */
#ifndef PARE_BASE_UNIT_LIBRARY_H
#define PARE_BASE_UNIT_LIBRARY_H

typedef struct pare_unit_library pare_unit_library;

typedef enum pare_unit_found {
    PARE_UNIT_CONVERTED,
    PARE_UNIT_UNKNOWN,
    PARE_UNIT_OTHER_KIND, /* known, but of another dimension than the wanted unit */
} pare_unit_found;

/** Reads the unit database, in the C locale; NULL when it is missing or memory is short.
 * Close with pare_unit_library_close(); NULL is fine. */
pare_unit_library *pare_unit_library_open(void);
void pare_unit_library_close(pare_unit_library *library);

/** Turns a number of one unit into another.
 *
 * @param unit    plain, as pare_unit_text_is_plain() says
 * @param wanted  the unit to turn it into, known to the library
 * @param[out] value  untouched unless converted
 * Threads: one library may be used by one thread at a time; several at once are safe. */
pare_unit_found pare_unit_library_convert(pare_unit_library *library, double number,
                                          const char *unit, const char *wanted, double *value);

#endif
