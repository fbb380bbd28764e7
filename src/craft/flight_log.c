/* flight_log.c: rows of a log into bins (see flight_log.h).
 *
 * Between two rows everything goes straight from one to the other, so that charge is the integral that a
 * person would draw, whatever the spacing of rows. A bin is a second wide until the log is longer than
 * all of them; then two and two are put together and each is twice as wide, as often as need be. So a
 * log of ten million rows and one of a hundred come out alike, and a short climb stays visible in a
 * short log.
 *
 * Where rows stay away for ten times as long as they usually do, and for a second at least, nobody knows
 * what was drawn: that stretch is in no bin. Rejected: means over so many rows, which weigh a logger's
 * bursts; keeping each n-th row, which is what a spike looks like to a charge. */
#include "craft/flight_log.h"

#include <math.h>
#include <string.h>

#define FIRST_WIDTH_S 1.0
#define GAP_TIMES     10.0
#define GAP_LEAST_S   1.0
#define USUAL_OF      64.0 /* rows: how far back "usual" looks */

static void merge(pare_log_reducer *r)
{
    for (size_t i = 0; i < PARE_LOG_BINS / 2; i++) {
        r->sum[i] = r->sum[2 * i];
        r->sum[i].lasts_s += r->sum[2 * i + 1].lasts_s;
        r->sum[i].volt_s += r->sum[2 * i + 1].volt_s;
        r->sum[i].charge_c += r->sum[2 * i + 1].charge_c;
        r->sum[i].throttle_s += r->sum[2 * i + 1].throttle_s;
        r->sum[i].throttle_lasts_s += r->sum[2 * i + 1].throttle_lasts_s;
        r->sum[i].height_s += r->sum[2 * i + 1].height_s;
        r->sum[i].height_lasts_s += r->sum[2 * i + 1].height_lasts_s;
    }
    memset(&r->sum[PARE_LOG_BINS / 2], 0, sizeof r->sum / 2);
    r->width_s *= 2;
}

static double mean(double sum, double lasts_s)
{
    return lasts_s > 0 ? sum / lasts_s : (double)NAN;
}

static double middle(double from, double to, double share)
{
    return from + (to - from) * share;
}

/* The stretch between two rows, cut at the edges of bins. */
static void add_stretch(pare_log_reducer *r, const pare_log_row *to)
{
    const pare_log_row *from = &r->last;
    const double begin_s = from->time_s - r->first_s, end_s = to->time_s - r->first_s;
    const double whole_s = end_s - begin_s;
    double at_s = begin_s;
    while (end_s > r->width_s * PARE_LOG_BINS)
        merge(r);
    size_t i = (size_t)(begin_s / r->width_s);
    for (; at_s < end_s && i < PARE_LOG_BINS; i++) {
        const double edge_s = r->width_s * (double)(i + 1);
        const double until_s = i + 1 == PARE_LOG_BINS || edge_s > end_s ? end_s : edge_s;
        if (until_s <= at_s)
            continue;
        const double part_s = until_s - at_s;
        const double share = ((at_s + until_s) / 2 - begin_s) / whole_s;
        r->sum[i].lasts_s += part_s;
        r->sum[i].volt_s += part_s * middle(from->volts_v, to->volts_v, share);
        r->sum[i].charge_c += part_s * middle(from->current_a, to->current_a, share);
        const double throttle = middle(from->throttle, to->throttle, share);
        const double height_m = middle(from->height_m, to->height_m, share);
        if (isfinite(throttle)) {
            r->sum[i].throttle_s += part_s * throttle;
            r->sum[i].throttle_lasts_s += part_s;
        }
        if (isfinite(height_m)) {
            r->sum[i].height_s += part_s * height_m;
            r->sum[i].height_lasts_s += part_s;
        }
        at_s = until_s;
    }
}

bool pare_log_take(pare_log_reducer *r, const pare_log_row *row)
{
    if (r->rows == 0) {
        r->first_s = r->until_s = row->time_s;
        r->width_s = FIRST_WIDTH_S;
    } else {
        const double apart_s = row->time_s - r->last.time_s;
        if (!(apart_s >= 0))
            return false;
        const bool gap =
            r->usual_s > 0 && apart_s > GAP_LEAST_S && apart_s > GAP_TIMES * r->usual_s;
        if (apart_s == 0) {
            r->repeated++;
        } else if (gap) {
            r->gaps++;
            r->gaps_s += apart_s;
            if (apart_s > r->longest_s) {
                r->longest_s = apart_s;
                r->longest_row = r->rows;
            }
        } else {
            add_stretch(r, row);
            r->usual_s += (apart_s - r->usual_s) / (r->usual_s > 0 ? USUAL_OF : 1);
        }
        r->until_s = row->time_s;
    }
    r->last = *row;
    r->rows++;
    return true;
}

size_t pare_log_bins(const pare_log_reducer *r, pare_log_bin bin[PARE_LOG_BINS])
{
    size_t bins = 0;
    for (size_t i = 0; i < PARE_LOG_BINS; i++) {
        const double lasts_s = r->sum[i].lasts_s;
        if (!(lasts_s > 0))
            continue;
        bin[bins++] = (pare_log_bin){
            .time_s = r->width_s * (double)i,
            .lasts_s = lasts_s,
            .volts_v = r->sum[i].volt_s / lasts_s,
            .current_a = r->sum[i].charge_c / lasts_s,
            .throttle = mean(r->sum[i].throttle_s, r->sum[i].throttle_lasts_s),
            .height_m = mean(r->sum[i].height_s, r->sum[i].height_lasts_s),
        };
    }
    return bins;
}
