/* learn_log.c: sums over a log's bins (see learn_log.h).
 *
 * A craft is at rest before it draws a quarter of what it mostly draws, and after it last did. Volts at
 * rest count half a minute after landing at the earliest: until then a pack recovers.
 *
 * Resistance shows where current changes from one bin to the next, since volts that fall with charge fall
 * far slower: a line through the differences, with what is left about it as their uncertainty. Volts under
 * a steady load say the same less surely, because there the pack's own volts are doubted as well. */
#include "advise/learn_log.h"

#include <math.h>

#define AT_REST       0.25 /* of what is mostly drawn */
#define HOVER_WITHIN  0.25 /* a share */
#define CLIMB_MOST    1.0  /* m/s */
#define RECOVERS_S    30.0
#define SETTLES_S     5.0  /* after take-off */
#define JOINED_WITHIN 0.05 /* of a bin: two of them follow each other */
#define STEP_MOST_U   0.5
/* Differences of neighbours share a reading, so their scatter tells too little of the slope's. */
#define OF_NEIGHBOURS 1.5

static double ends_s(const pare_log_bin *bin)
{
    return bin->time_s + bin->lasts_s;
}

/* The current below which the craft spends a share of the time; bins count by how long they last. */
static double current_at(const pare_flight_log *log, double share, double above_a)
{
    double least = INFINITY, all_s = 0;
    for (size_t i = 0; i < log->bins; i++)
        if (log->bin[i].current_a > above_a)
            all_s += log->bin[i].lasts_s;
    for (size_t i = 0; i < log->bins; i++) {
        const double current_a = log->bin[i].current_a;
        double below_s = 0;
        if (!(current_a > above_a))
            continue;
        for (size_t k = 0; k < log->bins; k++)
            if (log->bin[k].current_a > above_a && log->bin[k].current_a <= current_a)
                below_s += log->bin[k].lasts_s;
        if (below_s >= share * all_s && current_a < least)
            least = current_a;
    }
    return isfinite(least) ? least : 0;
}

/* Charge read before a bin, and all of it after the last. */
static double charge_before(const pare_flight_log *log, size_t until, double *guessed_c)
{
    double sum_c = 0;
    *guessed_c = 0;
    for (size_t i = 0; i < until; i++) {
        const pare_log_bin *bin = &log->bin[i];
        sum_c += bin->lasts_s * bin->current_a;
        if (i + 1 == log->bins)
            break;
        const double gap_s = bin[1].time_s - ends_s(bin);
        if (gap_s <= JOINED_WITHIN * bin->lasts_s)
            continue;
        *guessed_c += gap_s * (bin->current_a + bin[1].current_a) / 2;
    }
    return sum_c + *guessed_c;
}

/* Mean volts and current of bins. */
static void mean_of(const pare_flight_log *log, size_t from, size_t to, double after_s,
                    double *volts_v, double *current_a)
{
    double sum_s = 0, volt_s = 0, charge_c = 0;
    for (size_t i = from; i < to; i++) {
        const pare_log_bin *bin = &log->bin[i];
        if (bin->time_s < after_s)
            continue;
        sum_s += bin->lasts_s;
        volt_s += bin->lasts_s * bin->volts_v;
        charge_c += bin->lasts_s * bin->current_a;
    }
    *volts_v = sum_s > 0 ? volt_s / sum_s : (double)NAN;
    *current_a = sum_s > 0 ? charge_c / sum_s : (double)NAN;
}

/* Whether it neither climbs nor sinks. */
static bool is_level(const pare_flight_log *log, size_t i)
{
    const size_t before = i > 0 ? i - 1 : i, after = i + 1 < log->bins ? i + 1 : i;
    const pare_log_bin *a = &log->bin[before], *b = &log->bin[after];
    if (before == after || isnan(a->height_m) || isnan(b->height_m))
        return true;
    return fabs(b->height_m - a->height_m) <= CLIMB_MOST * (b->time_s - a->time_s);
}

static void put_flown(const pare_flight_log *log, size_t from, size_t to, bool hovers,
                      double usual_a, pare_log_said *said)
{
    double throttle_s = 0;
    for (size_t i = from; i < to; i++) {
        const pare_log_bin *bin = &log->bin[i];
        const bool hovering =
            fabs(bin->current_a - usual_a) <= HOVER_WITHIN * usual_a && is_level(log, i);
        if (hovers && !hovering)
            continue;
        said->flown_s += bin->lasts_s;
        said->flown_c += bin->lasts_s * bin->current_a;
        throttle_s += bin->lasts_s * bin->throttle;
    }
    said->output = said->flown_s > 0 ? throttle_s / said->flown_s : (double)NAN;
}

/* Flying cut into stretches of about equal time. */
static void put_loads(const pare_flight_log *log, size_t from, size_t to, pare_log_said *said)
{
    const double begin_s = log->bin[from].time_s + SETTLES_S, end_s = ends_s(&log->bin[to - 1]);
    for (size_t i = from; i < to && end_s > begin_s; i++) {
        const pare_log_bin *bin = &log->bin[i];
        const double middle_s = bin->time_s + bin->lasts_s / 2;
        if (middle_s < begin_s)
            continue;
        size_t at = (size_t)(PARE_LOG_LOADS * (middle_s - begin_s) / (end_s - begin_s));
        if (at >= PARE_LOG_LOADS)
            at = PARE_LOG_LOADS - 1;
        double guessed_c = 0;
        const double before_c =
            charge_before(log, i, &guessed_c) + bin->lasts_s * bin->current_a / 2;
        pare_log_load *load = &said->load[at];
        const double sum_s = load->lasts_s + bin->lasts_s, share = bin->lasts_s / sum_s;
        load->volts_v += (bin->volts_v - load->volts_v) * share;
        load->current_a += (bin->current_a - load->current_a) * share;
        load->before_c += (before_c - load->before_c) * share;
        load->flown_s += (middle_s - log->bin[from].time_s - load->flown_s) * share;
        load->lasts_s = sum_s;
    }
    for (size_t i = 0; i < PARE_LOG_LOADS; i++)
        if (said->load[i].lasts_s > 0)
            said->load[said->loads++] = said->load[i];
}

/* ---- resistance by steps ---- */

static bool joined(const pare_log_bin *bin)
{
    const double apart_s = bin[1].time_s - bin->time_s;
    return fabs(apart_s - bin->lasts_s) <= JOINED_WITHIN * apart_s &&
           bin[1].lasts_s >= (1 - JOINED_WITHIN) * bin->lasts_s;
}

static void put_step(const pare_flight_log *log, pare_log_said *said)
{
    double n = 0, a = 0, v = 0, aa = 0, av = 0, vv = 0, before_c = 0, width_s = 0;
    for (size_t i = 0; i + 1 < log->bins; i++) {
        const pare_log_bin *bin = &log->bin[i];
        if (!joined(bin))
            continue;
        const double rise_a = bin[1].current_a - bin->current_a,
                     rise_v = bin[1].volts_v - bin->volts_v;
        double guessed_c = 0;
        n++;
        a += rise_a;
        v += rise_v;
        aa += rise_a * rise_a;
        av += rise_a * rise_v;
        vv += rise_v * rise_v;
        before_c += rise_a * rise_a * charge_before(log, i + 1, &guessed_c);
        width_s += bin[1].time_s - bin->time_s;
    }
    said->step_ohm = said->step_u_ohm = NAN;
    if (n < 5 || !(aa > 0))
        return;
    const double sxx = aa - a * a / n, sxy = av - a * v / n, syy = vv - v * v / n;
    const double ohm = -sxy / sxx;
    const double left = fmax(syy - sxy * sxy / sxx, 0) / (n - 2);
    const double u_ohm = OF_NEIGHBOURS * sqrt(left / sxx);
    if (!(ohm > 0) || !(u_ohm < STEP_MOST_U * ohm))
        return;
    said->step_ohm = ohm;
    said->step_u_ohm = u_ohm;
    said->step_s = width_s / n;
    said->step_before_c = before_c / aa;
}

void pare_log_say(const pare_flight_log *log, bool hovers, pare_log_said *said)
{
    *said = (pare_log_said){0};
    const double mostly_a = current_at(log, 0.75, 0);
    const double rest_a = AT_REST * mostly_a;
    size_t from = 0, to = log->bins;
    while (from < log->bins && log->bin[from].current_a < rest_a)
        from++;
    while (to > from && log->bin[to - 1].current_a < rest_a)
        to--;
    said->read_c = charge_before(log, log->bins, &said->guessed_c);
    said->output = said->before_v = said->before_a = said->after_v = said->after_a = NAN;
    if (!(mostly_a > 0) || to - from < 2)
        return;
    mean_of(log, 0, from, 0, &said->before_v, &said->before_a);
    mean_of(log, to, log->bins, ends_s(&log->bin[to - 1]) + RECOVERS_S, &said->after_v,
            &said->after_a);
    put_flown(log, from, to, hovers, current_at(log, 0.5, rest_a), said);
    put_loads(log, from, to, said);
    put_step(log, said);
}
