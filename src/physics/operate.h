/* operate.h: inside the physics room: what operating points, endurance and manoeuvres share.
 *
 * A flight is a rig that has been checked, with its laws worked out; nothing below checks again. It
 * remembers hover and full throttle at rest, which most figures ask for; what it remembers is what it
 * would work out again, bit for bit. */
#ifndef PARE_PHYSICS_OPERATE_H
#define PARE_PHYSICS_OPERATE_H

#include <math.h>

#include "physics/joint.h"
#include "physics/motor_law.h"
#include "physics/pack_law.h"
#include "physics/rig.h"

#define PARE_GRAVITY_M_S2 9.80665 /* 3rd CGPM, 1901 */
#define PARE_BURST_HEAT   0.3     /* share of a motor's steady heating in a burst; estimate */
#define PARE_SPEED_MOST   340     /* m/s: nothing here flies faster */
#define PARE_LEFT_MOST    1e-9    /* what may be left of a balance of order 1 */
#define PARE_TILT_LEAST   0.05    /* least cosine of the tilt in the trim's denominator */

/** Volts behind a resistance. */
typedef struct pare_source {
    double open_v, ohm;
} pare_source;

/** Full throttle in a flow. */
typedef struct pare_throttle {
    const struct pare_flight *flight;
    const pare_motor_law *law;
    pare_source source;
    double axial_m_s, inplane_m_s;
    pare_rotor_state rotor;
    double motor_a, motor_v, pack_v, pack_a;
} pare_throttle;

enum { PARE_RESTS = 4, PARE_GAUSS = 2 };

typedef struct pare_flight {
    const pare_rig *rig;
    pare_motor_law steady, burst; /* the motor at heat 1 and PARE_BURST_HEAT */
    pare_pack_law pack;
    double rotors;
    double weight_n;
    double lift_share; /* thrust that lifts the craft over a rotor's own: n (1 - blockage) */
    /* What several figures ask for, worked out at the first question: */
    bool hover_known;
    pare_rotor_state hover;
    /* what motors that carry unevenly draw over as many that carry alike: current, and volts times
       current; 1 until hover is known */
    double more_a, more_w;
    double more_pulse_w, more_pulse_v; /* likewise of the pulses' loss, and of its volts */
    int rests;                         /* full throttle at rest */
    struct {
        double charge;
        pare_throttle throttle;
    } rest[PARE_RESTS];
    int sources_from; /* from this knot up, what the pack is at the Gauss points above each knot */
    pare_source between[PARE_PACK_KNOTS - 1][PARE_GAUSS];
} pare_flight;

/** Checks a rig and works out its laws. @return PARE_BAD_DATA naming the field that cannot be */
pare_status pare_flight_begin(const pare_rig *rig, pare_flight *flight, pare_error *err);

pare_status pare_charge_check(double charge, pare_error *err);

static inline pare_source pare_source_at(const pare_flight *flight, double charge, double steady)
{
    return (pare_source){pare_pack_law_open_v(&flight->pack, charge),
                         pare_pack_law_ohm(&flight->pack, charge, steady)};
}

/** What motors at certain volts and current draw from a pack: amperes at any volts, watts, and watts
 * that fade as the pack's volts come down to the motor's. */
typedef struct pare_draw {
    double always_a, through_w, pulse_w, motor_v;
} pare_draw;

/** One motor's draw through its ESC. @param pulse_w  pare_motor_pulse_w() */
static inline pare_draw pare_esc_draw(const pare_esc *esc, double motor_v, double motor_a,
                                      double pulse_w)
{
    return (pare_draw){esc->switching * motor_a + esc->idle_a,
                       (1 - esc->switching) * motor_v * motor_a, pulse_w, motor_v};
}

static inline pare_draw pare_draw_of(const pare_flight *flight, double speed_rad_s, double motor_v,
                                     double motor_a)
{
    const pare_draw one =
        pare_esc_draw(&flight->rig->esc, motor_v * flight->more_w / flight->more_a,
                      motor_a * flight->more_a, pare_motor_pulse_w(&flight->steady, speed_rad_s));
    return (pare_draw){
        flight->rotors * one.always_a, flight->rotors * one.through_w + flight->rig->always_w,
        flight->rotors * one.pulse_w * flight->more_pulse_w, motor_v * flight->more_pulse_v};
}

/** What a pack gives. */
typedef struct pare_given {
    double pack_v, pack_a; /* 0, 0: it cannot give that power */
} pare_given;

/** Watts of a draw at the pack's volts, without what it draws at any. */
static inline double pare_draw_w(pare_draw draw, double pack_v)
{
    return draw.through_w +
           (draw.motor_v < pack_v ? draw.pulse_w * (1 - draw.motor_v / pack_v) : 0);
}

/** The draw of two groups of motors together; their pulses fade at the volts that they weigh. */
static inline pare_draw pare_draw_add(pare_draw a, pare_draw b)
{
    const double pulse_w = a.pulse_w + b.pulse_w;
    return (pare_draw){a.always_a + b.always_a, a.through_w + b.through_w, pulse_w,
                       pulse_w > 0 ? (a.pulse_w * a.motor_v + b.pulse_w * b.motor_v) / pulse_w
                                   : b.motor_v};
}

/* Where pulses lose nothing it is a quadratic. Their loss hardly depends on how far the pack sags, so
 * that root, with the loss at the open volts, is off by a share of 1e-3 at most, and three of Newton's
 * steps end in rounding. */
static inline pare_given pare_give(pare_source source, pare_draw draw)
{
    const double b = source.open_v - source.ohm * draw.always_a;
    const double under_root_v2 = b * b - 4 * source.ohm * pare_draw_w(draw, source.open_v);
    if (!(b > 0 && under_root_v2 >= 0))
        return (pare_given){0, 0};
    double pack_v = (b + sqrt(under_root_v2)) / 2;
    for (int i = 0; i < 3 && draw.pulse_w > 0; i++) {
        const double fading = draw.motor_v < pack_v ? draw.pulse_w * draw.motor_v : 0;
        const double left = pack_v * (pack_v - b) + source.ohm * pare_draw_w(draw, pack_v);
        const double slope = 2 * pack_v - b + source.ohm * fading / (pack_v * pack_v);
        const double next_v = pack_v - left / slope, least_v = 0.5 * pack_v;
        pack_v = next_v > least_v ? next_v : least_v; /* what is no number counts as less */
    }
    return (pare_given){pack_v, draw.always_a + pare_draw_w(draw, pack_v) / pack_v};
}

/** The same with the output that the motors' volts are of the pack's. */
typedef struct pare_load {
    double pack_v, pack_a, duty;
    bool exists; /* false: the pack cannot give that power, or duty is over 1 */
} pare_load;

pare_load pare_load_on(const pare_flight *flight, pare_source source, double speed_rad_s,
                       double motor_v, double motor_a);

/** Body drag area in level flight at a tilt whose sine this is. */
static inline double pare_drag_area(const pare_rig *rig, double sine)
{
    return rig->drag_m2 + (rig->drag_top_m2 - rig->drag_m2) * sine * sine;
}

/** The pack's volts less the motor's, over the pack's open volts, at a rotor speed: 0 at full
 * throttle. Fills in the state. */
double pare_throttle_left(pare_throttle *throttle, double speed_rad_s);

/** The same with throttle->rotor filled in by the caller. */
double pare_throttle_feed(pare_throttle *throttle);

/** Slopes of that: with ln of the rotor speed at the same torque, and with torque. */
void pare_throttle_slopes(const pare_throttle *throttle, double *with_speed, double *with_torque);

/** Finds full throttle. @param near_rad_s  a guess; 0: none */
pare_status pare_throttle_find(pare_throttle *throttle, double near_rad_s, pare_error *err);

static inline double pare_throttle_to_weight(const pare_throttle *throttle)
{
    return throttle->flight->lift_share * throttle->rotor.thrust_n / throttle->flight->weight_n;
}

/** Rotor state for a thrust in multiples of weight, at rest. */
pare_status pare_hold(const pare_flight *flight, double weights, double near_rad_s,
                      pare_rotor_state *rotor, pare_error *err);

/** Why a thrust has no point: says what full throttle gives instead where that is the reason, and
 * leaves err alone where it is not. @return PARE_BAD_DATA */
pare_status pare_too_much(const pare_flight *flight, double weights, double charge,
                          pare_error *err);

/** Below that the rotors count as carrying alike: it would move no figure. */
#define PARE_UNEVEN_LEAST 1e-6
#define PARE_UNEVEN_MOST  0.95 /* an odd pattern's spread may pass 1 while all still push */

static inline bool pare_is_uneven(const pare_rig *rig)
{
    return rig->uneven > PARE_UNEVEN_LEAST;
}

/** Two rotors, uneven above the mean thrust and as far below it, in a flow. */
pare_status pare_uneven_pair(const pare_flight *flight, double mean_n, double axial_m_s,
                             double inplane_m_s, double near_rad_s, pare_rotor_state pair[2],
                             pare_error *err);

/** One rotor at hover; works out what carrying unevenly costs. */
pare_status pare_hover(pare_flight *flight, pare_rotor_state *hover, pare_error *err);

/** Full throttle of a moment: at rest, quick part of the pack, burst heat. */
pare_status pare_rest_throttle(pare_flight *flight, double charge, pare_throttle *throttle,
                               pare_error *err);

/** The same as the state that manoeuvres start from: PARE_BAD_DATA where it does not lift the craft;
 * must says what it fails to do. */
pare_status pare_burst_throttle(pare_flight *flight, double charge, const char *must,
                                pare_throttle *throttle, pare_error *err);

#endif
