/* trim.c: level flight: the tilt, rotor speed and inflow at which a craft keeps its height and speed.
 *
 * The three are found together by Newton's method, each speed starting from the last. Solving the
 * thrust and renewing the tilt in turn is the way to fall back on and gives the same point.
 *
 * In-plane drag H lies in the tilted disc: it pulls back with its cosine and lifts with its sine, so
 * that tan(tilt) = (D + H/cos)/W and thrust = W cos + D sin. Source: momentum balance of a rigid
 * craft. Read balance() first. */
#include "physics/trim.h"

#include <math.h>
#include <string.h>

#define TURN          6.28318530717958648
#define START_ADVANCE 0.1
#define LINE_MOST     1.5

static bool balance(void *context, const double x[], double left[], double slope[][PARE_JOINT_MOST])
{
    pare_trim *trim = context;
    pare_lean *lean = &trim->lean;
    pare_lean_at(lean, trim->speed_m_s, x);
    const double weight_n = trim->flight->weight_n;
    const bool steep = lean->cosine < PARE_TILT_LEAST;
    const double over = 1 / (steep ? PARE_TILT_LEAST : lean->cosine);
    const double lift_n = weight_n * lean->cosine + lean->drag_n * lean->sine;
    const double over_lift = 1 / lift_n, over_weight = 1 / weight_n;
    const double share = lean->thrust_n * over_lift;
    for (int i = 0; i < 3; i++) {
        slope[0][i] = -over_weight * (lean->drag[i] + over * lean->inplane[i]);
        slope[1][i] = over_lift * (lean->thrust[i] - share * lean->sine * lean->drag[i]);
    }
    slope[0][PARE_LEAN_TILT] += 1;
    if (!steep)
        slope[0][PARE_LEAN_TILT] -= over_weight * lean->inplane_n * lean->sine;
    slope[1][PARE_LEAN_TILT] -=
        over_lift * share * (weight_n * lean->cosine_rise + lean->drag_n * lean->sine_rise);
    left[0] = x[PARE_LEAN_TILT] - over_weight * (lean->drag_n + over * lean->inplane_n);
    left[1] = share - 1;
    left[2] = pare_lean_inflow_left(lean, slope[2]);
    return true;
}

/* The plain way: solve the thrust, renew the tilt. Slow, but it comes down from any start. */
static pare_status trim_by_repetition(pare_trim *trim, pare_error *err)
{
    const pare_flight *flight = trim->flight;
    const pare_rig *rig = flight->rig;
    const double v = trim->speed_m_s;
    double tilt = 0;
    trim->rotor = trim->hover;
    for (int i = 0; i < 200; i++) {
        const double sine = sin(tilt), cosine = cos(tilt);
        const double drag_n = 0.5 * rig->air.density_kg_m3 * v * v * pare_drag_area(rig, sine);
        const double thrust_n = (flight->weight_n * cosine + drag_n * sine) / flight->lift_share;
        const double near_rad_s = trim->rotor.speed_rad_s;
        if (pare_rotor_for_thrust(&rig->rotor, &rig->air, thrust_n, v * sine, v * cosine,
                                  near_rad_s, &trim->rotor, err) != PARE_OK)
            return pare_within(err, "level flight at %g m/s", v);
        const double next =
            atan2(drag_n + flight->rotors * trim->rotor.drag_n / fmax(cosine, PARE_TILT_LEAST),
                  flight->weight_n);
        trim->tilt_rad = next;
        trim->drag_n = drag_n;
        if (fabs(next - tilt) < 1e-10)
            return PARE_OK;
        /* two tilts that answer each other do not settle: after a while, meet them half-way */
        tilt = i < 60 ? next : (tilt + next) / 2;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "level flight at %g m/s finds no tilt that holds (%.3g degrees at the last)",
                     v, tilt * 57.29577951308232);
}

/* On the line through the last two solutions, but no farther beyond than they are apart. */
static void go_on(pare_trim *trim)
{
    const double *last = trim->solution[0], *before = trim->solution[1];
    const double apart = trim->solved_m_s[0] - trim->solved_m_s[1];
    const double share = (trim->speed_m_s - trim->solved_m_s[0]) / apart;
    const bool line = trim->solved == 2 && share > -2 && share < LINE_MOST;
    for (int i = 0; i < 3; i++)
        trim->joint.x[i] = last[i] + (line ? share * (last[i] - before[i]) : 0);
}

static void remember(pare_trim *trim)
{
    const bool same = trim->solved > 0 && trim->speed_m_s == trim->solved_m_s[0];
    if (trim->solved > 0 && !same) {
        trim->solved_m_s[1] = trim->solved_m_s[0];
        memcpy(trim->solution[1], trim->solution[0], sizeof trim->solution[1]);
        trim->solved = 2;
    } else if (trim->solved == 0) {
        trim->solved = 1;
    }
    trim->solved_m_s[0] = trim->speed_m_s;
    memcpy(trim->solution[0], trim->joint.x, sizeof trim->solution[0]);
}

/* Drag alone tilts; past a few degrees of tilt its share of the flow is the rotors' inflow. */
static void start(pare_trim *trim)
{
    const pare_rig *rig = trim->flight->rig;
    const double v = trim->speed_m_s;
    const double tangent =
        0.5 * rig->air.density_kg_m3 * v * v * rig->drag_m2 / trim->flight->weight_n;
    const double axial_m_s = v * tangent / sqrt(1 + tangent * tangent);
    const double advance = pare_lean_start_inflow(&trim->lean, axial_m_s);
    const double nd_m_s = trim->hover.speed_rad_s * rig->rotor.prop->diameter_m / TURN;
    trim->joint.x[PARE_LEAN_TILT] = tangent;
    trim->joint.x[PARE_LEAN_ROTOR] = fmax(1, axial_m_s / (nd_m_s * fmax(advance, START_ADVANCE)));
    trim->joint.x[PARE_LEAN_INFLOW] = advance > START_ADVANCE ? advance - START_ADVANCE : 0;
}

void pare_trim_begin(const pare_flight *flight, const pare_rotor_state *hover, pare_trim *trim)
{
    const pare_rig *rig = flight->rig;
    *trim = (pare_trim){.flight = flight,
                        .hover = *hover,
                        .joint = {.count = 3, .low = {-0.2, 0.05, -5}, .high = {100, 20, 50}}};
    trim->lean.flight = flight;
    trim->lean.rotor_scale_rad_s = hover->speed_rad_s;
    trim->lean.speed_scale_m_s = 1;
    trim->lean.induced_m_s = pare_rotor_ideal_hover_w(hover->thrust_n, rig->rotor.prop->diameter_m,
                                                      rig->air.density_kg_m3) /
                             hover->thrust_n;
}

pare_status pare_trim_at(pare_trim *trim, double speed_m_s, double enough, pare_error *err)
{
    trim->speed_m_s = speed_m_s;
    if (trim->solved > 0)
        go_on(trim);
    else
        start(trim);
    if (pare_unknowns_solve(&trim->joint, balance, trim, enough)) {
        trim->rotor = trim->lean.rotor;
        trim->drag_n = trim->lean.drag_n;
        trim->tilt_rad = atan(trim->joint.x[PARE_LEAN_TILT]);
        remember(trim);
        return PARE_OK;
    }
    trim->solved = 0;
    return trim_by_repetition(trim, err);
}
