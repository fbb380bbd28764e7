/* best_sure.c: limits of the brief that have to hold with a probability (see sure.h, best.h).
 *
 * A whole set is asked by its own sheet with all that is doubted. A state is asked for the least with which all
 * sets below it can fail: its flight at the bound, which flatters each of these limits, and there the doubt about
 * the rig alone, without that about masses, which may yet be parts that a scale knows. What is taken for granted
 * is that a figure less its doubt goes the way of the figure: heavier, with more load, drag and resistance,
 * thrust is less and doubted by the same share of itself.
 *
 * Thirteen flights are dear. A state carries the shares by which its figures were doubted where that was last
 * asked; as long as the limits would hold with doubts that are a good deal larger, nothing is flown again. */
#include <math.h>

#include "advise/best_inside.h"
#include "advise/sure.h"
#include "craft/doubt.h"
#include "craft/margin.h"

#define FIGURE(f) ((pare_figures)1 << (f))
#define LARGER    1.15  /* what shares are taken for before they are asked again */
#define SURELY    0.995 /* of a state's doubt */
#define NEARLY    (1 + 1e-9)

static const pare_figures doubt_needs = FIGURE(PARE_HOVER_RPM) | FIGURE(PARE_TWR_FRESH);

/* What is not to be exceeded by the chances of failing. */
static double may_fail(const best_search *search)
{
    return (1 - search->ask->sure) * NEARLY;
}

/* The sum of the chances with which a flattered flight fails limits that it flatters.
 * @param shares  of figures that they are doubted by; NULL: as the sheet says */
static double fails(const pare_brief *brief, const pare_sheet *probe, const double shares[],
                    double times, char by[48])
{
    double sum = 0, worst = 0;
    for (size_t i = 0; i < brief->limits; i++) {
        const pare_limit *limit = &brief->limit[i];
        const int f = pare_figure_of_limit(limit->key);
        if (f < 0 || !best_is_flattered(f, limit->at_least) || !probe->figure[f].exists)
            continue;
        const double value = probe->figure[f].value;
        const double u = times * (shares ? shares[f] * fabs(value) : probe->figure[f].u);
        const double above = limit->at_least ? value - limit->value : limit->value - value;
        const double fail = u > 0 ? 0.5 * erfc(above / (u * sqrt(2))) : above < 0;
        sum += fail;
        if (fail > worst) {
            worst = fail;
            best_limit_name(by, limit->key);
        }
    }
    return sum;
}

bool best_unsure(const best_search *search, const best_state *state, pare_sheet *probe,
                 best_shares *shares, char by[48])
{
    const pare_craft *craft = state->trial.flown;
    if (!(search->ask->sure > 0) || state->rough || best_is_held_full(state) ||
        (shares->known && fails(&craft->brief, probe, shares->of, LARGER, by) <= may_fail(search)))
        return false;
    pare_sheet_fly(craft, doubt_needs, probe);
    pare_sheet_doubt_flight(craft, probe);
    probe->with_u = false;
    shares->known = true;
    for (int f = 0; f < PARE_FIGURES; f++) {
        const pare_sheet_figure *figure = &probe->figure[f];
        shares->of[f] = figure->exists && figure->value != 0 ? figure->u / fabs(figure->value) : 0;
    }
    return fails(&craft->brief, probe, NULL, SURELY, by) > may_fail(search);
}

bool best_is_sure(const best_search *search, const pare_craft *craft, const pare_sheet *judged,
                  pare_sheet *room, char by[48])
{
    if (!(search->ask->sure > 0))
        return true;
    *room = *judged;
    pare_sheet_fly(craft, doubt_needs, room);
    pare_sheet_doubt(craft, room);
    pare_sheet_margins_some(craft, PARE_MARGINS_BRIEF, room);
    return 1 - pare_sure_chance(room, by) <= may_fail(search);
}
