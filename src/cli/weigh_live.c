/* weigh_live.c: readings from a scale that is connected (see weigh.h).
 *
 * What is to be weighed is named beforehand, one thing after another; each reading is kept as soon as the
 * scale is at rest, as it is when typed. Between two things the scale has to be empty once: what still lies
 * there is not the next one. */
#include <stdio.h>
#include <string.h>

#include "cli/weigh.h"
#include "show/digits.h"
#include "store/scale_live.h"

static pare_status weigh_one(weighing *w, const pare_scale_port *port, const char *what, bool first,
                             pare_error *err)
{
    pare_scale_seen seen;
    fprintf(stderr, "%s: %s and wait.\n", what,
            first ? "put it on the scale" : "empty the scale, put it on");
    pare_status status = pare_scale_settle(port, !first, w->given->progress, &seen, err);
    if (status != PARE_OK)
        return pare_within(err, "'%.60s'", what);
    const char *word = pare_arena_printf(w->arena, "%s=%s", what, seen.text);
    if (!word)
        return pare_no_memory(err);
    status = weighing_keep(w, 1, &word, err);
    if (status == PARE_OK)
        weigh_say_kept(w);
    return status;
}

pare_status weigh_live(weighing *w, pare_error *err)
{
    const options *given = w->given;
    pare_scale_port port = {0};
    if (given->operands < 2)
        return pare_fail(err, PARE_BAD_DATA,
                         "weigh --live needs what will lie on the scale; right would be like pare "
                         "weigh %.48s frame 10*motor_base --live %.48s",
                         given->operand[0], given->live);
    pare_status status = PARE_OK;
    for (size_t i = 1; i < given->operands && status == PARE_OK; i++)
        if (strchr(given->operand[i], '='))
            status = pare_fail(err, PARE_BAD_DATA,
                               "'%.60s' has its reading already; right would be its name alone, or "
                               "no --live",
                               given->operand[i]);
        else /* before anybody lays anything anywhere */
            status = weigh_check_name(w, given->operand[i], err);
    if (status == PARE_OK)
        status = pare_scale_open(given->live, given->pattern, &port, err);
    for (size_t i = 1; i < given->operands && status == PARE_OK; i++)
        status = weigh_one(w, &port, given->operand[i], i == 1, err);
    pare_scale_close(&port);
    return status;
}
