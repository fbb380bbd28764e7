/* esc_heat.c: the heat of an ESC's switches, in the lump of its board (see esc_heat.h).
 *
 *     C dT/dt = n (I^2 Ron (1 + a (T - 25)) + s I V + Iq V) - A (h (T - Ta) + e sigma (T^4 - Ta^4))
 *
 * One temperature for the whole board: copper planes spread heat over it in a second or two, and the
 * switches themselves are a few kelvin above it, which the limit leaves room for. Radiation is made
 * linear at the middle temperature, so that settling and a burst are closed forms; the middle is found
 * by passes.
 *
 * Nobody states an ESC's resistance, heat capacity or cooling. The estimates, [E] from memory: two
 * switches take 0.12 ohm over the amperes that they are made for (3 mohm at 40 A); edges of 40 ns at
 * 48 kHz and dead time cost 0.3 % of I V; a populated board weighs 8.5 kg/m2 and takes 900 J/(kg K); air
 * reaches four fifths of its two sides. None is better than a third.
 *
 * Sources: laminar plate, Nu = 0.664 Re^(1/2) Pr^(1/3), and level plates in still air, 0.54 Ra^(1/4) above
 * and 0.27 below (Incropera et al., 7th ed., eqs. 7.30, 9.30, 9.32); silicon switches gain some 0.5 % of
 * their resistance a kelvin. */
#include "physics/esc_heat.h"

#include <math.h>
#include <stddef.h>

#include "physics/film.h"

#define KELVIN      273.15
#define GRAVITY     9.80665
#define STEFAN      5.670374419e-8 /* CODATA 2018, W/(m2 K4) */
#define EMISSIVITY  0.9
#define ON_PER_K    0.005
#define ON_OHM_A    0.12
#define SWITCHED    0.003
#define IDLE_A      0.02
#define BOARD_KG_M2 8.5
#define BOARD_J_KG  900.0
#define REACHED     0.8
#define MOST_DEGC   1000.0

static pare_status out_of_range(const char *what, double value, const char *right, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s %g: %s would be right", what, value, right);
}

pare_status pare_board_estimate(int motors, double rated_a, double mass_kg, pare_board *board,
                                pare_error *err)
{
    if (!(motors >= 1 && motors <= 8))
        return out_of_range("motors on one board", motors, "1 to 8", err);
    if (!(rated_a >= 0.5 && rated_a <= 500))
        return out_of_range("rated current in A", rated_a, "0.5 to 500", err);
    if (!(mass_kg >= 1e-4 && mass_kg <= 1))
        return out_of_range("board mass in g", 1e3 * mass_kg, "0.1 to 1000", err);
    const double side_m2 = mass_kg / BOARD_KG_M2;
    *board = (pare_board){
        .motors = motors,
        .on_ohm = ON_OHM_A / rated_a,
        .switched = SWITCHED,
        .idle_a = IDLE_A,
        .heat_j_k = BOARD_J_KG * mass_kg,
        .area_m2 = 2 * REACHED * side_m2,
        .long_m = sqrt(side_m2),
    };
    return PARE_OK;
}

double pare_plate_convection(double long_m, double plate_degc, double ambient_degc,
                             double pressure_pa, double flow_m_s)
{
    const pare_film film = pare_film_at(plate_degc, ambient_degc, pressure_pa);
    const double along = 0.664 * sqrt(flow_m_s * long_m / film.viscosity_m2_s) * cbrt(film.prandtl);
    /* The length of a level plate is its area over its edge, a quarter of a square's side. */
    const double still_m = long_m / 4;
    const double rayleigh = GRAVITY / film.kelvin * fabs(plate_degc - ambient_degc) * still_m *
                            still_m * still_m * film.prandtl /
                            (film.viscosity_m2_s * film.viscosity_m2_s);
    const double still = 0.5 * (0.54 + 0.27) * sqrt(sqrt(rayleigh)) * long_m / still_m;
    return fmax(along, still) * film.conducts_w_m_k / long_m;
}

static pare_status check(const pare_board *board, const pare_board_load *load, pare_error *err)
{
    if (!(board->heat_j_k > 0 && board->area_m2 > 0 && board->long_m > 0 && board->on_ohm >= 0))
        return pare_fail(err, PARE_BAD_DATA, "a board without size or heat capacity");
    if (!(load->current_a >= 0 && load->current_a <= 1000))
        return out_of_range("current in A", load->current_a, "0 to 1000", err);
    if (!(load->volts_v >= 0 && load->volts_v <= 500))
        return out_of_range("voltage in V", load->volts_v, "0 to 500", err);
    return pare_film_check(load->ambient_degc, load->pressure_pa, load->flow_m_s, err);
}

static double warming_w_k(const pare_board *board, const pare_board_load *load)
{
    return board->motors * load->current_a * load->current_a * board->on_ohm * ON_PER_K;
}

double pare_board_loss_w(const pare_board *board, const pare_board_load *load, double board_degc)
{
    const double each_w = load->current_a * load->current_a * board->on_ohm +
                          load->volts_v * (board->switched * load->current_a + board->idle_a);
    return board->motors * each_w + warming_w_k(board, load) * (board_degc - 25);
}

/* What a kelvin over the air gives off at a temperature. */
static double gives_w_k(const pare_board *board, const pare_board_load *load, double degc)
{
    const double t = degc + KELVIN, a = load->ambient_degc + KELVIN;
    const double h = pare_plate_convection(board->long_m, degc, load->ambient_degc,
                                           load->pressure_pa, load->flow_m_s);
    return board->area_m2 * (h + EMISSIVITY * STEFAN * (t + a) * (t * t + a * a));
}

pare_status pare_board_steady(const pare_board *board, const pare_board_load *load,
                              pare_board_heat *heat, pare_error *err)
{
    if (check(board, load, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double at_air_w = pare_board_loss_w(board, load, load->ambient_degc);
    const double warms = warming_w_k(board, load);
    double at = load->ambient_degc + 40, low = load->ambient_degc, high = MOST_DEGC;
    if (at_air_w + warms * (high - low) > gives_w_k(board, load, high) * (high - low))
        return pare_fail(err, PARE_BAD_DATA,
                         "%g A a motor burns it: a larger board, less current or more air would be "
                         "right",
                         load->current_a);
    /* Secant steps on what is left, inside the bracket. */
    double was = low, was_left = at_air_w;
    for (int pass = 0; pass < 60; pass++) {
        const double rise = at - load->ambient_degc;
        const double left = at_air_w + (warms - gives_w_k(board, load, at)) * rise;
        if (left > 0)
            low = at;
        else
            high = at;
        if (fabs(at - was) < 1e-7 || left == 0)
            break;
        double next = at - left * (was - at) / (was_left - left);
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        was = at;
        was_left = left;
        at = next;
    }
    *heat = (pare_board_heat){at, pare_board_loss_w(board, load, at)};
    return PARE_OK;
}

/* T' = speed - rate T, with what is given off taken at one temperature. */
typedef struct course {
    double speed_k_s, rate_s;
} course;

static course course_at(const pare_board *board, const pare_board_load *load, double middle_degc)
{
    const double gives = gives_w_k(board, load, middle_degc);
    return (course){(pare_board_loss_w(board, load, 0) + gives * load->ambient_degc) /
                        board->heat_j_k,
                    (gives - warming_w_k(board, load)) / board->heat_j_k};
}

static double along(course c, double start_degc, double seconds)
{
    const double turns = c.rate_s * seconds;
    /* (1 - exp(-x)) / x, also where the board runs away or does neither. */
    const double mean = fabs(turns) < 1e-9 ? 1 : -expm1(-turns) / turns;
    return fmin(start_degc + (c.speed_k_s - c.rate_s * start_degc) * seconds * mean, MOST_DEGC);
}

pare_status pare_board_after(const pare_board *board, const pare_board_load *load,
                             double start_degc, double seconds, double *degc, pare_error *err)
{
    if (check(board, load, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(start_degc >= -60 && start_degc <= MOST_DEGC))
        return out_of_range("temperature at the start in degC", start_degc, "-60 to 1000", err);
    if (!(seconds >= 0 && seconds <= 3600))
        return out_of_range("seconds", seconds, "0 to 3600", err);
    /* Steps over which what is given off may be held: the board's own time is some 20 s and more. */
    const int steps = (int)fmin(fmax(ceil(seconds / 5), 1), 720);
    double now = start_degc;
    for (int i = 0; i < steps; i++) {
        const double tried = along(course_at(board, load, now), now, seconds / steps);
        now = along(course_at(board, load, 0.5 * (now + tried)), now, seconds / steps);
    }
    *degc = now;
    return PARE_OK;
}

pare_status pare_board_until(const pare_board *board, const pare_board_load *load,
                             double start_degc, double limit_degc, double *seconds, pare_error *err)
{
    if (check(board, load, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(start_degc >= -60 && start_degc <= MOST_DEGC))
        return out_of_range("temperature at the start in degC", start_degc, "-60 to 1000", err);
    if (!(limit_degc <= MOST_DEGC))
        return out_of_range("limit in degC", limit_degc, "at most 1000", err);
    /* Two kelvin at a time, each stretch in closed form. */
    double sum = 0, now = start_degc;
    while (now < limit_degc) {
        const double next = fmin(now + 2, limit_degc);
        const course c = course_at(board, load, 0.5 * (now + next));
        const double from = c.speed_k_s - c.rate_s * now, to = c.speed_k_s - c.rate_s * next;
        if (!(from > 0 && to > 0)) {
            *seconds = (double)INFINITY;
            return PARE_OK;
        }
        sum += fabs(c.rate_s) > 1e-12 ? log(from / to) / c.rate_s : (next - now) / c.speed_k_s;
        now = next;
    }
    *seconds = sum;
    return PARE_OK;
}
