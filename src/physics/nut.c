/* nut.c: nuts, washers and standoffs, weighed by their geometry (see nut.h).
 *
 * A nut is a hexagonal prism less a bore of the pitch diameter, as a screw's thread is a cylinder of
 * it; its chamfers are left out. A locking nut is the same prism with a collar on it: a rim of metal
 * that holds a ring of nylon. The standard gives the collar's height and not its inside, so the rim is
 * an estimate: of the metal that is left when ring and rim share the wall by halves.
 *
 * A standoff is a rod, hexagonal or round, tapped right through or from both ends. It pulls like the
 * thinnest wall beside its thread and gives way like a post that is clamped at both plates: pushed
 * across by F, F L/2 at either end, until both ends are plastic hinges. That is what makes slim posts
 * of soft metal lean after a crash.
 *
 * Sources: ISO 4032, ISO 7040 (style 1), ISO 7089; nuts M5 and M1.6, all of ISO 7040 and the washers
 * from memory. */
#include "physics/nut.h"

#include <math.h>
#include <stddef.h>

#define PI          3.14159265358979323846
#define MM          1e-3
#define ROWS(table) (sizeof(table) / sizeof *(table))

#define NYLON_KG_M3 1140.0

static const double shortest_m = 3 * MM, longest_m = 100 * MM, widest_m = 20 * MM;
static const double least_wall = 1.1; /* a standoff is at least so much wider than its thread */

/* mm; the first column is the nominal diameter. */
typedef double row[4];
enum { NOMINAL, FLATS, NUT_HIGH };
static const row nuts[] = {
    {1.6, 3.2, 1.3}, {2, 4, 1.6}, {2.5, 5, 2}, {3, 5.5, 2.4}, {4, 7, 3.2}, {5, 8, 4.7},
};
enum { LOCKING_HIGH = 1 }; /* with the collar; under it a nut's height of thread */
static const row locking[] = {{3, 4.5}, {4, 6}, {5, 6.8}};
enum { HOLE = 1, ACROSS, WASHER_HIGH };
static const row washers[] = {
    {1.6, 1.7, 4, 0.3}, {2, 2.2, 5, 0.3}, {2.5, 2.7, 6, 0.5},
    {3, 3.2, 7, 0.5},   {4, 4.3, 9, 0.8}, {5, 5.3, 10, 1},
};

static const double *row_of(const pare_thread *thread, size_t rows, const row table[])
{
    for (size_t i = 0; i < rows; i++)
        if (fabs(thread->nominal_m - table[i][NOMINAL] * MM) < 1e-3 * MM)
            return table[i];
    return NULL;
}

/* One measure of a thread's row, or 0. */
static double measure_m(const pare_thread *thread, size_t rows, const row table[], int column)
{
    const double *found = row_of(thread, rows, table);
    return found ? found[column] * MM : 0;
}

static double round_m2(double across_m)
{
    return PI / 4 * across_m * across_m;
}

static double hexagon_m2(double flats_m)
{
    return sqrt(3) / 2 * flats_m * flats_m;
}

static pare_status no_such(const char *what, const pare_thread *thread, const char *has,
                           pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "no %s for M%g here; there are %s", what,
                     thread->nominal_m / MM, has);
}

/* What stands on a locking nut's hexagon. */
static double collar_kg(const pare_thread *thread, double flats_m, double high_m,
                        double density_kg_m3)
{
    const double outside_m = 0.9 * flats_m, inside_m = pare_thread_pitch_diameter_m(thread);
    const double between_m = (outside_m + inside_m) / 2;
    return high_m * (density_kg_m3 * (round_m2(outside_m) - round_m2(between_m)) +
                     NYLON_KG_M3 * (round_m2(between_m) - round_m2(inside_m)));
}

pare_status pare_nut_kg(pare_fastener standard, const pare_thread *thread, double density_kg_m3,
                        double *mass_kg, pare_error *err)
{
    const double *nut = row_of(thread, ROWS(nuts), nuts);
    const double *locks = row_of(thread, ROWS(locking), locking);
    if (standard == PARE_ISO7040 && !locks)
        return no_such("ISO7040 nut", thread, "M3, M4 and M5", err);
    if (!nut)
        return no_such("nut", thread, "M1.6, M2, M2.5, M3, M4, M5", err);
    const double flats_m = nut[FLATS] * MM, high_m = nut[NUT_HIGH] * MM;
    *mass_kg = density_kg_m3 * high_m *
               (hexagon_m2(flats_m) - round_m2(pare_thread_pitch_diameter_m(thread)));
    if (standard == PARE_ISO7040)
        *mass_kg += collar_kg(thread, flats_m, locks[LOCKING_HIGH] * MM - high_m, density_kg_m3);
    return PARE_OK;
}

pare_status pare_washer_kg(const pare_thread *thread, double density_kg_m3, double *mass_kg,
                           pare_error *err)
{
    const double *washer = row_of(thread, ROWS(washers), washers);
    if (!washer)
        return no_such("washer", thread, "M1.6, M2, M2.5, M3, M4, M5", err);
    *mass_kg = density_kg_m3 * washer[WASHER_HIGH] * MM *
               (round_m2(washer[ACROSS] * MM) - round_m2(washer[HOLE] * MM));
    return PARE_OK;
}

double pare_stud_kg(const pare_thread *thread, double length_m, double density_kg_m3)
{
    return density_kg_m3 * length_m * round_m2(pare_thread_pitch_diameter_m(thread));
}

double pare_nut_flats_m(const pare_thread *thread)
{
    return measure_m(thread, ROWS(nuts), nuts, FLATS);
}

double pare_nut_thread_m(const pare_thread *thread)
{
    return measure_m(thread, ROWS(nuts), nuts, NUT_HIGH);
}

double pare_washer_thick_m(const pare_thread *thread)
{
    return measure_m(thread, ROWS(washers), washers, WASHER_HIGH);
}

double pare_washer_across_m(const pare_thread *thread)
{
    return measure_m(thread, ROWS(washers), washers, ACROSS);
}

/* ---- standoffs ---- */

static double section_m2(const pare_fastener_size *size)
{
    return size->standard == PARE_STANDOFF_HEX ? hexagon_m2(size->across_m)
                                               : round_m2(size->across_m);
}

static pare_status check_standoff(const pare_fastener_size *size, pare_error *err)
{
    const double nominal_m = size->thread.nominal_m;
    if (!(size->length_m >= shortest_m * (1 - 1e-9) && size->length_m <= longest_m * (1 + 1e-9)))
        return pare_fail(err, PARE_BAD_DATA, "a standoff %g mm long: lengths go from %g to %g mm",
                         size->length_m / MM, shortest_m / MM, longest_m / MM);
    if (!(size->across_m >= least_wall * nominal_m && size->across_m <= widest_m))
        return pare_fail(err, PARE_BAD_DATA,
                         "a standoff M%g %g mm across: %g to %g mm would be right", nominal_m / MM,
                         size->across_m / MM, least_wall * nominal_m / MM, widest_m / MM);
    if (!(size->tapped_m >= 0 && size->tapped_m <= size->length_m / 2))
        return pare_fail(err, PARE_BAD_DATA,
                         "a standoff tapped %g mm deep from each end of %g mm: at most half of "
                         "that, or 0 for right through",
                         size->tapped_m / MM, size->length_m / MM);
    return PARE_OK;
}

double pare_standoff_m3(const pare_fastener_size *size)
{
    if (check_standoff(size, NULL) != PARE_OK)
        return 0;
    const double tapped_m = size->tapped_m > 0 ? 2 * size->tapped_m : size->length_m;
    return section_m2(size) * size->length_m -
           round_m2(pare_thread_pitch_diameter_m(&size->thread)) * tapped_m;
}

double pare_standoff_pulls_n(const pare_fastener_size *size, double tensile_pa)
{
    return tensile_pa * (section_m2(size) - round_m2(size->thread.nominal_m));
}

double pare_standoff_bends_n(const pare_fastener_size *size, double yield_pa)
{
    /* Plastic moduli: of a rod D^3/6, of a hexagon of side s about its corners s^3, the least. The bore
     * counts at its thread's outside. */
    const double a = size->across_m, side = a / sqrt(3), bore = size->thread.nominal_m;
    const double solid_m3 =
        size->standard == PARE_STANDOFF_HEX ? side * side * side : a * a * a / 6;
    return 2 * yield_pa * (solid_m3 - bore * bore * bore / 6) / size->length_m;
}

pare_status pare_fastener_kg(const pare_fastener_size *size, pare_screw_material material,
                             double *mass_kg, pare_error *err)
{
    const double density = pare_screw_density_kg_m3(material);
    switch (size->standard) {
    case PARE_ISO4032:
    case PARE_ISO7040:
        return pare_nut_kg(size->standard, &size->thread, density, mass_kg, err);
    case PARE_ISO7089:
        return pare_washer_kg(&size->thread, density, mass_kg, err);
    case PARE_STANDOFF_HEX:
    case PARE_STANDOFF_ROUND: {
        const pare_status status = check_standoff(size, err);
        if (status == PARE_OK)
            *mass_kg = density * pare_standoff_m3(size);
        return status;
    }
    default:
        return pare_screw_kg(size->standard, &size->thread, size->length_m, material, mass_kg, err);
    }
}
