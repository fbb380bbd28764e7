/* spike.c: what the leads' inductance does to the ESC when a motor is cut or braked (see spike.h).
 *
 * Pack V behind R and L feeds C, which has r in series, and the ESC takes a current from it that steps
 * from I1 to I2. With j what the coil carries over I2,
 *
 *     L j'' + (R + r) j' + j / C = 0,   j(0) = I1 - I2,   j'(0) = -(r / L) j(0)
 *
 * and the ESC sees v = V - R I2 - R j - L j'. Its peak is where v' = r j' + j / C is 0, which is closed
 * in form, ringing or not. Without resistance the peak is sqrt(L / C) j(0) above the start: the coil's
 * half L I^2 in the capacitor.
 *
 * A step is the worst case: an ESC that stops over a time like the ring's own leaves a lower peak. */
#include "physics/spike.h"

#include <math.h>
#include <stddef.h>

#define PI   3.14159265358979323846
#define MU_0 1.25663706212e-6 /* CODATA 2018, H/m */

double pare_lead_henry(double way_m, double copper_m, double apart_m)
{
    const double apart = fmax(apart_m, copper_m);
    return MU_0 / PI * way_m * (log(2 * apart / copper_m) + 0.25);
}

double pare_beside_ohm(double farad, double series_ohm, double beside_farad)
{
    const double share = farad / (farad + beside_farad);
    return series_ohm * share * share;
}

static pare_status check(const pare_spike_path *path, pare_error *err)
{
    const struct {
        double value, low, high;
        const char *what, *unit;
    } fields[] = {
        {path->open_v, 0, 500, "the pack's voltage", "V"},
        {path->ohm, 0, 10, "resistance", "ohm"},
        {path->henry, 1e-9, 1e-3, "inductance", "H"},
        {path->farad, 1e-7, 1, "capacitance", "F"},
        {path->series_ohm, 0, 10, "the capacitors' resistance", "ohm"},
        {path->from_a, -5000, 5000, "current before", "A"},
        {path->to_a, -5000, 5000, "current after", "A"},
    };
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        if (!(fields[i].value >= fields[i].low && fields[i].value <= fields[i].high))
            return pare_fail(err, PARE_BAD_DATA, "%s %g %s: %g to %g would be right",
                             fields[i].what, fields[i].value, fields[i].unit, fields[i].low,
                             fields[i].high);
    return PARE_OK;
}

/* The turn where v' is 0, for j = exp(-a t) (A cos wt + B sin wt). */
static double ringing_s(const pare_spike_path *path, double damped, double w, double a_a,
                        double b_a)
{
    const double r = path->series_ohm, keeps = 1 / path->farad - r * damped;
    const double of_cos = keeps * a_a + r * b_a * w, of_sin = keeps * b_a - r * a_a * w;
    double turn = atan2(of_cos, -of_sin);
    if (turn < 0)
        turn += PI;
    return turn / w;
}

static double volts(const pare_spike_path *path, double j, double j_s)
{
    return path->open_v - path->ohm * path->to_a - path->ohm * j - path->henry * j_s;
}

static void take_higher(double v, double s, pare_spike *spike)
{
    if (v > spike->peak_v) {
        spike->peak_v = v;
        spike->peak_s = s;
    }
}

static void ring(const pare_spike_path *path, double damped, double w, pare_spike *spike)
{
    const double a_a = path->from_a - path->to_a;
    const double b_a = a_a * (damped - path->series_ohm / path->henry) / w;
    const double s = ringing_s(path, damped, w, a_a, b_a);
    const double fades = exp(-damped * s), c = cos(w * s), n = sin(w * s);
    const double j = fades * (a_a * c + b_a * n);
    take_higher(volts(path, j, -damped * j + fades * w * (b_a * c - a_a * n)), s, spike);
}

static void creep(const pare_spike_path *path, double damped, double w, pare_spike *spike)
{
    const double step_a = path->from_a - path->to_a, r = path->series_ohm;
    const double slow = -1 / (path->henry * path->farad) / (damped + w), fast = -damped - w;
    const double of_fast = step_a * (-r / path->henry - slow) / (fast - slow);
    const double of_slow = step_a - of_fast;
    const double ratio =
        -(of_slow * (r * slow + 1 / path->farad)) / (of_fast * (r * fast + 1 / path->farad));
    const double s = ratio > 0 ? log(ratio) / (fast - slow) : -1;
    if (!(s > 0 && isfinite(s)))
        return;
    const double now_slow = of_slow * exp(slow * s), now_fast = of_fast * exp(fast * s);
    take_higher(volts(path, now_slow + now_fast, slow * now_slow + fast * now_fast), s, spike);
}

pare_status pare_spike_of(const pare_spike_path *path, pare_spike *spike, pare_error *err)
{
    if (check(path, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double damped = (path->ohm + path->series_ohm) / (2 * path->henry);
    const double own = 1 / (path->henry * path->farad);
    /* Where the two roots meet both forms divide by 0; a hair apart is as good. */
    double w2 = own - damped * damped;
    if (fabs(w2) < 1e-10 * own)
        w2 = 1e-10 * own;
    const double step_a = path->from_a - path->to_a;
    *spike = (pare_spike){
        .peak_v = volts(path, step_a, -path->series_ohm / path->henry * step_a),
        .settled_v = path->open_v - path->ohm * path->to_a,
        .ring_hz = w2 > 0 ? sqrt(w2) / (2 * PI) : 0,
    };
    if (w2 > 0)
        ring(path, damped, sqrt(w2), spike);
    else
        creep(path, damped, sqrt(-w2), spike);
    /* It creeps up to where it stays, or rings over it by nothing that counts. */
    if (spike->settled_v + 1e-9 * fabs(spike->settled_v) >= spike->peak_v) {
        spike->peak_v = spike->settled_v;
        spike->peak_s = (double)INFINITY;
    }
    return PARE_OK;
}
