/* surprise.c: heavier than the law says (see surprise.h).
 *
 * One sigma is the law's scatter between real parts and the mass's own uncertainty together: a part
 * that a maker states to 2 % is less of a surprise than the same grams on a scale.
 *
 * A search of a large bench has a part's numbers at hand, and not what it fits. Then the law is tried
 * with all that the part might say: what is no surprise in any of these ways is none, and only the few
 * others need be read in full. */
#include "craft/surprise.h"

#include <math.h>

#include "physics/screw.h"

bool pare_surprise_of(const pare_part *part, pare_surprise *surprise)
{
    pare_typical law;
    const pare_value *mass_kg = &part->mass_kg;
    const bool said = mass_kg->given && mass_kg->known <= PARE_STATED;
    if (!said || !pare_law_mass(part, &law) || !(law.u > 0))
        return false;
    surprise->law_kg = law;
    surprise->sigmas = (mass_kg->value - law.value) / hypot(law.u, mass_kg->u);
    return isfinite(surprise->sigmas);
}

/* ---- of a part of which only numbers are known ---- */

static bool surprising(const pare_part *part, pare_surprise *surprise)
{
    return pare_surprise_of(part, surprise) && surprise->sigmas > PARE_SURPRISING_SIGMAS;
}

static void put_size(pare_fit *fit, double size_m)
{
    *fit = (pare_fit){.count = size_m > 0};
    fit->any[0].low = fit->any[0].high = size_m;
}

static bool any_chemistry(pare_part *part, pare_surprise *surprise)
{
    bool any = false;
    for (int i = 0; i < PARE_CHEMISTRIES && !any; i++) {
        part->chemistry = (pare_chemistry)i;
        any = surprising(part, surprise);
    }
    return any;
}

/* Small and large pattern, not known; with and without the other board's work. */
static bool any_board(pare_part *part, pare_surprise *surprise)
{
    static const double stack_m[] = {0, 20e-3, 30.5e-3};
    bool any = false;
    for (size_t i = 0; i < 6 && !any; i++) {
        put_size(&part->fit[PARE_FIT_STACK], stack_m[i / 2]);
        part->does = i % 2 ? 1u << PARE_FLIGHT_CONTROLLER | 1u << PARE_ESC_FOUR : 0;
        any = surprising(part, surprise);
    }
    return any;
}

static bool any_camera(pare_part *part, pare_surprise *surprise)
{
    static const double width_m[] = {0, 14e-3, 19e-3, 21e-3, 28e-3};
    bool any = false;
    for (size_t i = 0; i < sizeof width_m / sizeof width_m[0] && !any; i++) {
        put_size(&part->fit[PARE_FIT_CAMERA], width_m[i]);
        any = surprising(part, surprise);
    }
    return any;
}

static bool any_transmitter(pare_part *part, pare_surprise *surprise)
{
    part->does = 0;
    const bool plain = surprising(part, surprise);
    part->does = 1u << PARE_CAMERA;
    return plain || surprising(part, surprise);
}

static bool any_antenna(pare_part *part, pare_surprise *surprise)
{
    static const char *const word[] = {"snap", "screw"};
    bool any = surprising(part, surprise);
    for (size_t i = 0; i < 2 && !any; i++) {
        part->fit[PARE_FIT_ANTENNA].count = 1;
        part->fit[PARE_FIT_ANTENNA].any[0].word = word[i];
        any = surprising(part, surprise);
    }
    return any;
}

static bool any_standoff(pare_part *part, pare_surprise *surprise)
{
    bool any = false;
    for (int i = 0; i < PARE_SCREW_MATERIALS && !any; i++) {
        part->material = pare_screw_material_name((pare_screw_material)i);
        any = surprising(part, surprise);
    }
    return any;
}

static bool perhaps(pare_part *part, pare_surprise *surprise)
{
    switch (part->kind) {
    case PARE_PACK:
        return any_chemistry(part, surprise);
    case PARE_ESC_FOUR:
    case PARE_FLIGHT_CONTROLLER:
    case PARE_CONTROLLER_WITH_ESC:
        return any_board(part, surprise);
    case PARE_CAMERA:
        return any_camera(part, surprise);
    case PARE_VIDEO_TRANSMITTER:
        return any_transmitter(part, surprise);
    case PARE_ANTENNA:
        return any_antenna(part, surprise);
    case PARE_STANDOFF:
        return any_standoff(part, surprise);
    default: /* frame and connector: the size that they fit */
        return true;
    }
}

static bool takes_specs_only(pare_kind kind)
{
    switch (kind) {
    case PARE_FRAME:
    case PARE_PACK:
    case PARE_ESC_FOUR:
    case PARE_FLIGHT_CONTROLLER:
    case PARE_CONTROLLER_WITH_ESC:
    case PARE_CAMERA:
    case PARE_VIDEO_TRANSMITTER:
    case PARE_ANTENNA:
    case PARE_CONNECTOR:
    case PARE_STANDOFF:
        return false;
    default:
        return true;
    }
}

pare_surprising pare_surprise_by_specs(pare_part *part, pare_surprise *surprise)
{
    if (takes_specs_only(part->kind))
        return surprising(part, surprise) ? PARE_SURPRISING : PARE_NOT_SURPRISING;
    return perhaps(part, surprise) ? PARE_PERHAPS_SURPRISING : PARE_NOT_SURPRISING;
}
