/* law.c: the scaling laws of the trade (see law.h).
 *
 * Two forms. Power laws, where a size says the mass (motor, propeller, pack, ESC, frame); and ranges,
 * where makers of a kind only spread (camera, strap): the middle, with the standard deviation of a
 * uniform spread over the range, width / sqrt(12). All are common practice without a source, but for
 * the level and scatter of a motor's winding and unloaded current, fitted to thrust stands
 * (physics/drive.h); [E] marks what is our estimate beyond that. */
#include "craft/law.h"

#include <math.h>
#include <string.h>

#include "physics/drive.h"
#include "physics/screw.h"

#define GRAM                 1e-3
#define MM3                  1e9 /* of them in a cubic metre */
#define INCH_M               0.0254
#define AH_C                 3600.0
#define FRAME_5IN_G          105.0
#define WHEELBASE_PER_INCH_M 0.0445

static const double pi = 3.14159265358979323846;

static pare_typical scattered(double value, double share)
{
    return (pare_typical){value, share * value};
}

static pare_typical grams_between(double low_g, double high_g)
{
    return (pare_typical){GRAM * (low_g + high_g) / 2, GRAM * (high_g - low_g) / sqrt(12)};
}

static double stator_mm3(double diameter_m, double length_m)
{
    return diameter_m * diameter_m * length_m * MM3;
}

pare_typical pare_law_motor_kg(double stator_diameter_m, double stator_length_m)
{
    const double v = stator_mm3(stator_diameter_m, stator_length_m);
    return scattered(GRAM * 0.0215 * pow(v, 0.90), 0.10);
}

pare_typical pare_law_winding_ohm(double kv_rpm_per_v, double stator_diameter_m,
                                  double stator_length_m)
{
    const double v = stator_mm3(stator_diameter_m, stator_length_m);
    const pare_drive *drive = &pare_drive_fitted;
    return scattered(drive->winding_law / (kv_rpm_per_v * kv_rpm_per_v) * pow(v, -1.61),
                     drive->winding_u);
}

pare_typical pare_law_no_load_a(double kv_rpm_per_v, double stator_diameter_m,
                                double stator_length_m)
{
    const double v = stator_mm3(stator_diameter_m, stator_length_m);
    const pare_drive *drive = &pare_drive_fitted;
    return scattered(drive->no_load_law * (kv_rpm_per_v / 1750) * pow(v / 3388, 0.84),
                     drive->no_load_u);
}

double pare_law_motor_outer_m(double stator_diameter_m)
{
    return stator_diameter_m + 5.5e-3;
}

double pare_law_motor_height_m(double stator_length_m)
{
    return stator_length_m + 12e-3;
}

/* Bases grow with the stator and stop at what M3 needs: 3 mm under 14 mm stators, 4 to 6 under 22 to
 * 28. On the cautious side, for a winding that is touched costs an ESC. */
pare_typical pare_law_screw_depth_m(double stator_diameter_m)
{
    return scattered(fmin(0.2 * stator_diameter_m, 5e-3), 0.20);
}

pare_typical pare_law_propeller_kg(double diameter_m, int blades)
{
    return scattered(GRAM * 0.0635 * pow(diameter_m / INCH_M, 2.1) * pow(blades, 0.76), 0.15);
}

/* The lightest group that holds the capacity. What one cell holds at most: energy cells 3.6 and
 * 5.2 Ah, power cells 3.0 and 4.2 [E]. The slack of 1 % lets a label round up. */
static double liion_group_g(bool power, double capacity_ah)
{
    const double small_ah = power ? 3.0 : 3.6, large_ah = power ? 4.2 : 5.2;
    const double small = ceil(capacity_ah / (1.01 * small_ah)) * 48; /* 18650 */
    const double large = ceil(capacity_ah / (1.01 * large_ah)) * 70; /* 21700 */
    return fmin(small, large);
}

pare_typical pare_law_pack_kg(pare_chemistry chemistry, int cells, double capacity_c)
{
    const double ah = capacity_c / AH_C;
    if (chemistry == PARE_LIION || chemistry == PARE_LIION_POWER)
        return scattered(GRAM * 1.08 * cells * liion_group_g(chemistry == PARE_LIION_POWER, ah),
                         0.04);
    return scattered(GRAM * (3.5 * cells + 27.5 * cells * ah - 3), 0.09);
}

/* By the pack's own equations, so that a filled resistance and an absent one fly alike. */
pare_typical pare_law_group_ohm(pare_chemistry chemistry, double capacity_c)
{
    const pare_pack group = {
        .chemistry = chemistry,
        .cells = 1,
        .capacity_c = capacity_c,
        .temperature_degc = 25,
        .resistance_factor = 1,
    };
    return scattered(pare_pack_group_ohm(&group, 0.5), 0.30);
}

/* Between the two patterns, 25.5 mm is built like the small one. */
pare_typical pare_law_esc_four_kg(double continuous_a, double stack_m)
{
    if (stack_m > 0 && stack_m < 0.028)
        return scattered(GRAM * (2 + 0.18 * continuous_a), 0.20);
    return scattered(GRAM * (1 + 0.23 * continuous_a), stack_m > 0 ? 0.20 : 0.25);
}

pare_typical pare_law_esc_one_kg(double continuous_a)
{
    return scattered(GRAM * (0.8 + 0.13 * continuous_a), 0.20);
}

pare_typical pare_law_controller_with_esc_kg(double continuous_a)
{
    return scattered(GRAM * (2.5 + 0.19 * continuous_a), 0.20);
}

pare_typical pare_law_frame_kg(double propeller_m, double build)
{
    const double fifths = propeller_m / (5 * INCH_M);
    return scattered(GRAM * FRAME_5IN_G * pow(fifths, fifths < 1 ? 2.4 : 1.1) * build, 0.25);
}

pare_typical pare_law_wheelbase_m(double propeller_m)
{
    return scattered(WHEELBASE_PER_INCH_M * propeller_m / INCH_M, 0.06); /* scatter [E] */
}

double pare_law_propeller_for_wheelbase_m(double wheelbase_m)
{
    return wheelbase_m / WHEELBASE_PER_INCH_M * INCH_M;
}

double pare_law_drag_m2(double craft_kg)
{
    return 0.009 * cbrt((craft_kg / 0.65) * (craft_kg / 0.65));
}

/* A digital transmitter is told by its weight or by bringing the camera. All [E]. */
static pare_typical transmitter_w(const pare_part *part)
{
    const bool digital = pare_part_does(part, PARE_CAMERA) ||
                         (part->mass_kg.given && part->mass_kg.value > 10 * GRAM);
    return digital ? scattered(9, 0.30) : scattered(4, 0.40);
}

pare_typical pare_law_power_w(const pare_part *part)
{
    switch (part->kind) {
    case PARE_FLIGHT_CONTROLLER:
    case PARE_CONTROLLER_WITH_ESC:
        return scattered(1.2, 0.30); /* [E] */
    case PARE_RECEIVER:
        return scattered(0.5, 0.40); /* [E] */
    case PARE_GPS:
        return scattered(0.3, 0.30); /* [E] */
    case PARE_CAMERA:
        return scattered(0.7, 0.30); /* [E] */
    case PARE_VIDEO_TRANSMITTER:
        return transmitter_w(part);
    default:
        return (pare_typical){0, 0};
    }
}

pare_typical pare_law_regulator_efficiency(void)
{
    return (pare_typical){0.88, 0.04}; /* [E] */
}

/* 0.5 to 0.8 mohm a contact, both contacts of one make. */
pare_typical pare_law_connector_ohm(void)
{
    return (pare_typical){2 * 0.65e-3, 2 * 0.3e-3 / sqrt(12)};
}

double pare_fit_largest(const pare_fit *fit)
{
    double largest = 0;
    for (size_t i = 0; i < fit->count; i++)
        if (!fit->any[i].word && fit->any[i].high > largest)
            largest = fit->any[i].high;
    return largest;
}

/* By its width, between the widths that the trade sells. */
static pare_typical camera_kg(double width_m)
{
    if (!(width_m > 0))
        return grams_between(1.5, 16);
    if (width_m < 0.0165)
        return grams_between(1.5, 4); /* 14 mm */
    if (width_m < 0.020)
        return grams_between(4, 9); /* 19 mm */
    if (width_m < 0.0245)
        return grams_between(6, 11); /* 21 mm */
    return grams_between(9, 16);     /* 28 mm */
}

static pare_typical controller_kg(double stack_m)
{
    if (!(stack_m > 0))
        return grams_between(3, 10);
    return stack_m < 0.028 ? grams_between(3, 6) : grams_between(7, 10);
}

static pare_typical antenna_kg(const pare_fit *fit)
{
    bool screw = false, light = false;
    for (size_t i = 0; i < fit->count; i++) {
        if (fit->any[i].word && strcmp(fit->any[i].word, "screw") == 0)
            screw = true;
        else
            light = true;
    }
    if (screw == light)
        return grams_between(1, 13);
    return screw ? grams_between(7, 13) : grams_between(1, 3);
}

/* Through 2.5 g at 30 A and 7 g at 60 A, the two classes that everybody weighs; scatter [E]. */
static pare_typical connector_kg(const pare_part *part)
{
    double class_a = pare_fit_largest(&part->fit[PARE_FIT_CONNECTOR]);
    if (!(class_a > 0))
        class_a = part->spec[PARE_SPEC_CONTINUOUS].value;
    if (!(class_a > 0))
        return grams_between(2, 8);
    return scattered(GRAM * 2.5 * pow(class_a / 30, log(7 / 2.5) / log(2)), 0.12);
}

static double standoff_density_kg_m3(const char *material)
{
    const int known = material ? pare_screw_material_named(material) : -1;
    return pare_screw_density_kg_m3(known >= 0 ? (pare_screw_material)known : PARE_ALUMINIUM);
}

/* A tube threaded through at half its outside, as an M2.5 or M3 standoff of 5 mm is [E]; 25 mm long
 * when nobody says, and then hardly known. */
static pare_typical standoff_kg(const pare_part *part)
{
    const double length_m = part->spec[PARE_SPEC_LENGTH].value;
    const double outer_m = part->spec[PARE_SPEC_DIAMETER].value;
    const double od = outer_m > 0 ? outer_m : 5e-3, id = od / 2;
    const double volume = pi / 4 * (od * od - id * id) * (length_m > 0 ? length_m : 25e-3);
    double share = 0.12;
    if (!(outer_m > 0))
        share = hypot(share, 0.20);
    if (!(length_m > 0))
        share = hypot(share, 0.30);
    return scattered(volume * standoff_density_kg_m3(part->material), share);
}

static double frame_propeller_m(const pare_part *part)
{
    const double said = pare_fit_largest(&part->fit[PARE_FIT_PROPELLER]);
    return said > 0 ? said
                    : pare_law_propeller_for_wheelbase_m(part->spec[PARE_SPEC_WHEELBASE].value);
}

static pare_typical board_kg(const pare_part *part)
{
    const double continuous_a = part->spec[PARE_SPEC_CONTINUOUS].value;
    const double stack_m = pare_fit_largest(&part->fit[PARE_FIT_STACK]);
    const bool drives = pare_part_does(part, PARE_ESC_FOUR) || pare_part_does(part, PARE_ESC_ONE);
    const bool steers = pare_part_does(part, PARE_FLIGHT_CONTROLLER);
    if (drives && steers)
        return pare_law_controller_with_esc_kg(continuous_a);
    return drives ? pare_law_esc_four_kg(continuous_a, stack_m) : controller_kg(stack_m);
}

bool pare_law_mass(const pare_part *part, pare_typical *mass_kg)
{
    const pare_value *spec = part->spec;
    switch (part->kind) {
    case PARE_FRAME: {
        const double propeller_m = frame_propeller_m(part);
        *mass_kg = pare_law_frame_kg(propeller_m, 1);
        return propeller_m > 0;
    }
    case PARE_MOTOR:
        *mass_kg = pare_law_motor_kg(spec[PARE_SPEC_STATOR_DIAMETER].value,
                                     spec[PARE_SPEC_STATOR_LENGTH].value);
        return true;
    case PARE_PROPELLER:
        *mass_kg = pare_law_propeller_kg(spec[PARE_SPEC_DIAMETER].value,
                                         (int)spec[PARE_SPEC_BLADES].value);
        return true;
    case PARE_PACK:
        *mass_kg = pare_law_pack_kg(part->chemistry, (int)spec[PARE_SPEC_CELLS].value,
                                    spec[PARE_SPEC_CAPACITY].value);
        return true;
    case PARE_ESC_ONE:
        *mass_kg = pare_law_esc_one_kg(spec[PARE_SPEC_CONTINUOUS].value);
        return true;
    case PARE_ESC_FOUR:
    case PARE_FLIGHT_CONTROLLER:
    case PARE_CONTROLLER_WITH_ESC:
        *mass_kg = board_kg(part);
        return true;
    case PARE_CAMERA:
        *mass_kg = camera_kg(pare_fit_largest(&part->fit[PARE_FIT_CAMERA]));
        return true;
    case PARE_VIDEO_TRANSMITTER:
        *mass_kg = pare_part_does(part, PARE_CAMERA) ? grams_between(17, 45) : grams_between(2, 8);
        return true;
    case PARE_ANTENNA:
        *mass_kg = antenna_kg(&part->fit[PARE_FIT_ANTENNA]);
        return true;
    case PARE_CONNECTOR:
        *mass_kg = connector_kg(part);
        return true;
    case PARE_STANDOFF:
        *mass_kg = standoff_kg(part);
        return true;
    case PARE_PROPELLER_NUT:
        *mass_kg = grams_between(1, 2.4);
        return true;
    case PARE_REGULATOR:
        *mass_kg = grams_between(1.5, 4); /* [E] */
        return true;
    case PARE_CAPACITOR:
        *mass_kg = grams_between(1.5, 4);
        return true;
    case PARE_ACTION_CAMERA:
        *mass_kg = grams_between(25, 160);
        return true;
    case PARE_HOLDER:
        *mass_kg = grams_between(4, 35);
        return true;
    case PARE_ADAPTER:
        *mass_kg = grams_between(1.5, 4); /* [E] */
        return true;
    case PARE_PIGTAIL:
        *mass_kg = grams_between(2, 4);
        return true;
    case PARE_RECEIVER:
        *mass_kg = grams_between(0.8, 3);
        return true;
    case PARE_GPS:
        *mass_kg = grams_between(2.5, 11);
        return true;
    case PARE_BUZZER:
        *mass_kg = grams_between(2, 5);
        return true;
    case PARE_STRAP:
        *mass_kg = grams_between(4, 9);
        return true;
    case PARE_PAD:
        *mass_kg = grams_between(2, 6);
        return true;
    case PARE_TIE:
        *mass_kg = grams_between(0.2, 0.5);
        return true;
    case PARE_BUMPER:
        *mass_kg = grams_between(1, 3);
        return true;
    case PARE_PRINTED:
    case PARE_OTHER:
    case PARE_KINDS:
        break;
    }
    return false;
}
