/* sure.c: the chance of all limits together, and flights drawn (see sure.h). */
#include "advise/sure.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_qrng.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "craft/draw.h"
#include "craft/margin.h"

enum { SOBOL_MOST = 40, SEED = 1967 };

bool pare_sure_counts(const pare_margin *margin)
{
    return strncmp(margin->name, "limit.", 6) == 0 && strcmp(margin->name, "limit.margin") != 0;
}

double pare_sure_chance(const pare_sheet *sheet, char least[48])
{
    double fails = 0, worst = -1;
    if (least)
        least[0] = '\0';
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *margin = &sheet->margin[i];
        if (!pare_sure_counts(margin))
            continue;
        const double fail = isfinite(margin->chance) ? 1 - margin->chance : 1;
        fails += fail;
        if (fail > worst && least)
            memcpy(least, margin->name, sizeof margin->name);
        worst = fmax(worst, fail);
    }
    return fmax(1 - fails, 0);
}

/* ---- draws ---- */

/* A point of the sequence, shifted, and what follows it. */
typedef struct points {
    gsl_qrng *sobol;
    gsl_rng *random;
    double shift[SOBOL_MOST], at[SOBOL_MOST];
    size_t used; /* of the point */
} points;

static double next(void *context)
{
    points *p = context;
    if (p->used >= SOBOL_MOST)
        return gsl_ran_ugaussian(p->random);
    const size_t i = p->used++;
    const double share = p->at[i] + p->shift[i];
    return gsl_cdf_ugaussian_Pinv(fmin(fmax(share - floor(share), 1e-12), 1 - 1e-12));
}

/* Begins the sequence again from another place. */
static void shift(points *p)
{
    gsl_qrng_init(p->sobol);
    for (size_t i = 0; i < SOBOL_MOST; i++)
        p->shift[i] = gsl_rng_uniform(p->random);
}

/* How the brief's margins come out on one craft as drawn. */
static void draw(const pare_craft *craft, const pare_sheet *sheet, const pare_doubts *doubts,
                 points *p, pare_sheet *drawn)
{
    const pare_deviates from = {next, p};
    pare_moved_rig moved = {.rig = sheet->rig};
    pare_drawn errors;
    gsl_qrng_get(p->sobol, p->at);
    p->used = 0;
    for (int f = PARE_HOVER_OUTPUT; f < PARE_FIGURES; f++)
        drawn->figure[f].exists = false;
    pare_draw_errors(doubts, &from, &errors);
    pare_draw_body(craft, sheet, &from, &moved.rig);
    pare_draw_numbers(doubts, &errors, &moved);
    pare_draw_flight(craft, &moved.rig, doubts, &errors, drawn->figure);
    const double more_kg = moved.rig.mass_kg - sheet->rig.mass_kg;
    drawn->figure[PARE_ALL_UP].value = sheet->figure[PARE_ALL_UP].value + more_kg;
    pare_sheet_margins_some(craft, PARE_MARGINS_BRIEF, drawn);
}

/* @return whether all hold */
static bool count(const pare_sheet *drawn, pare_sure_drawn *to)
{
    bool all = true;
    for (size_t i = 0; i < to->limits; i++) {
        const pare_margin *margin = pare_sheet_margin(drawn, to->limit[i].name);
        const bool holds = margin && margin->ratio >= 1;
        to->limit[i].drawn += holds;
        all = all && holds;
    }
    return all;
}

static void begin(const pare_sheet *sheet, pare_sure_drawn *drawn)
{
    *drawn = (pare_sure_drawn){0};
    for (size_t i = 0; i < sheet->margins && drawn->limits < PARE_LIMITS; i++)
        if (pare_sure_counts(&sheet->margin[i]))
            drawn->limit[drawn->limits++] =
                (pare_sure_limit){.name = sheet->margin[i].name, .linear = sheet->margin[i].chance};
}

static pare_status draw_all(const pare_craft *craft, const pare_sheet *sheet,
                            const pare_progress *progress, points *p, pare_sheet *room,
                            pare_sure_drawn *drawn, pare_error *err)
{
    double sum = 0, squares = 0;
    pare_doubts doubts;
    pare_doubts_of(craft, sheet, &doubts);
    *room = *sheet;
    room->with_u = false;
    for (int s = 0; s < PARE_SURE_SHIFTS; s++) {
        int held = 0;
        const pare_status status =
            pare_progress_step(progress, "draws", (size_t)drawn->draws,
                               (size_t)PARE_SURE_SHIFTS * PARE_SURE_POINTS, err);
        if (status != PARE_OK)
            return status;
        shift(p);
        for (int i = 0; i < PARE_SURE_POINTS; i++) {
            draw(craft, sheet, &doubts, p, room);
            held += count(room, drawn);
        }
        const double share = (double)held / PARE_SURE_POINTS;
        sum += share;
        squares += share * share;
        drawn->draws += PARE_SURE_POINTS;
    }
    drawn->all = sum / PARE_SURE_SHIFTS;
    drawn->all_u = sqrt(fmax(squares / PARE_SURE_SHIFTS - drawn->all * drawn->all, 0) /
                        (PARE_SURE_SHIFTS - 1));
    for (size_t i = 0; i < drawn->limits; i++)
        drawn->limit[i].drawn /= drawn->draws;
    return PARE_OK;
}

pare_status pare_sure_draw(const pare_craft *craft, const pare_sheet *sheet,
                           const pare_progress *progress, pare_sure_drawn *drawn, pare_error *err)
{
    points p = {.sobol = gsl_qrng_alloc(gsl_qrng_sobol, SOBOL_MOST),
                .random = gsl_rng_alloc(gsl_rng_mt19937)};
    pare_sheet *room = malloc(sizeof *room);
    pare_status status = p.sobol && p.random && room ? PARE_OK : pare_no_memory(err);
    begin(sheet, drawn);
    if (status == PARE_OK) {
        gsl_rng_set(p.random, SEED);
        status = draw_all(craft, sheet, progress, &p, room, drawn, err);
    }
    free(room);
    if (p.random)
        gsl_rng_free(p.random);
    if (p.sobol)
        gsl_qrng_free(p.sobol);
    return status;
}
