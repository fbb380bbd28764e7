/* unit_library.c: units by udunits2 (see unit_library.h).
 *
 * udunits2 keeps its parser's state and its message handler in globals, so every call stands under
 * one lock, and the handler that the rest of the program had is put back. Units that it misreads
 * when they stand inside a compound ("oz/in3", "Ah V") are mended once its database is loaded.
 *
 * Its own test for convertible units also lets a unit through whose reciprocal fits ("5 m-1" would
 * be 0.2 m), so we ask whether the quotient of the two has no dimension. */
#include "base/unit_library.h"

#include <pthread.h>
#include <stddef.h>
#include <stdlib.h>
#include <udunits2.h>

struct pare_unit_library {
    ut_system *system;
};

static pthread_mutex_t only_one = PTHREAD_MUTEX_INITIALIZER;

static const struct {
    const char *symbol, *meaning;
} MENDED[] = {
    {"oz", "28.349523125 g"},
    {"mph", "1609.344 m/h"},
    {"kph", "km/h"},
    {"Ah", "A h"},
    {"Wh", "W h"},
    {"deg", "arc_degree"},
};

static void mend(ut_system *system)
{
    for (size_t i = 0; i < sizeof MENDED / sizeof *MENDED; i++) {
        ut_unit *unit = ut_parse(system, MENDED[i].meaning, UT_ASCII);
        ut_unmap_name_to_unit(system, MENDED[i].symbol, UT_ASCII);
        ut_unmap_symbol_to_unit(system, MENDED[i].symbol, UT_ASCII);
        ut_map_symbol_to_unit(MENDED[i].symbol, UT_ASCII, unit);
        ut_free(unit);
    }
}

pare_unit_library *pare_unit_library_open(void)
{
    pare_unit_library *library = calloc(1, sizeof *library);
    if (!library)
        return NULL;
    pthread_mutex_lock(&only_one);
    const ut_error_message_handler before = ut_set_error_message_handler(ut_ignore);
    library->system = ut_read_xml(NULL);
    if (library->system)
        mend(library->system);
    ut_set_error_message_handler(before);
    pthread_mutex_unlock(&only_one);
    if (!library->system) {
        free(library);
        return NULL;
    }
    return library;
}

void pare_unit_library_close(pare_unit_library *library)
{
    if (!library)
        return;
    pthread_mutex_lock(&only_one);
    ut_free_system(library->system);
    pthread_mutex_unlock(&only_one);
    free(library);
}

static pare_unit_found convert(double number, ut_unit *from, ut_unit *to, double *value)
{
    ut_unit *quotient = ut_divide(from, to);
    const int same_kind = quotient && ut_is_dimensionless(quotient);
    ut_free(quotient);
    cv_converter *converter = same_kind ? ut_get_converter(from, to) : NULL;
    if (!converter)
        return PARE_UNIT_OTHER_KIND;
    *value = cv_convert_double(converter, number);
    cv_free(converter);
    return PARE_UNIT_CONVERTED;
}

pare_unit_found pare_unit_library_convert(pare_unit_library *library, double number,
                                          const char *unit, const char *wanted, double *value)
{
    pthread_mutex_lock(&only_one);
    const ut_error_message_handler before = ut_set_error_message_handler(ut_ignore);
    ut_unit *from = ut_parse(library->system, unit, UT_ASCII);
    ut_unit *to = ut_parse(library->system, wanted, UT_ASCII);
    const pare_unit_found found = from && to ? convert(number, from, to, value) : PARE_UNIT_UNKNOWN;
    ut_free(from);
    ut_free(to);
    ut_set_error_message_handler(before);
    pthread_mutex_unlock(&only_one);
    return found;
}
