/* prop_sets.c: see prop_sets.h.
 *
 * How far each number may go from its prior was chosen by the errors on propellers left out and by the
 * checks of tests/checks: a few values each, doubled and halved; the errors are flat about them, to
 * 0.2 % (docs/decisions.md, "The middle propeller", which says how the choice itself was checked). */
#include "prop_sets.h"

#include "published_props.h"

const fit_prop_set fit_prop_sets[FIT_SETS] = {
    {"pare_prop_family",
     "size",
     "UIUC Propeller Data Site, volumes 1 to 4; 5 in stand (Cao, Strawson 2018); 7 in stand "
     "(Spitzer 2019)",
     "prop_size",
     false,
     false,
     {0.5, 1, 1, 0.025, 1, 1, 0.5}},
    {"pare_prop_family_line",
     "size and line",
     "UIUC Propeller Data Site, volumes 1 to 4; 5 in stand (Cao, Strawson 2018); 7 in stand "
     "(Spitzer 2019)",
     "prop_line",
     false,
     true,
     {0.5, 1, 1, 0.1, 0.35, 2, 0.05}},
    {"pare_prop_true",
     "measured blade",
     "UIUC Propeller Data Site, volumes 1 and 2",
     "prop_blade",
     true,
     false,
     {0.35, 2, 1, 0.025, 1, 1, 1}},
    {"pare_prop_true_line",
     "measured blade and line",
     "UIUC Propeller Data Site, volumes 1 and 2",
     NULL,
     true,
     true,
     {0.2, 0.4, 2.5, 0.1, 1, 1, 1}},
};

/* How far each number is expected from its prior. Levers: twist in rad, the rest in ln. */
fit_how fit_how_of(const fit_prop_set *set)
{
    const fit_latitude *may = &set->latitude;
    static const double global_u[FIT_GLOBALS] = {0.03, 0.03,  0.02, 0.06, 0.15,
                                                 0.09, 0.045, 0.15, 0.045};
    /* What trends are measured in. */
    const double spread_u[PARE_LEVERS] = {[PARE_LEVER_TWIST] = 0.015,
                                          [PARE_LEVER_CHORD] = set->measured ? 0 : 0.08,
                                          [PARE_LEVER_SLOPE] = set->measured ? 0.06 : 0,
                                          [PARE_LEVER_DRAG] = 0.12,
                                          [PARE_LEVER_LIFT] = 0.03,
                                          [PARE_LEVER_CT_STILL] = 0.03,
                                          [PARE_LEVER_CT_MOVING] = 0.03,
                                          [PARE_LEVER_CP_STILL] = 0.04,
                                          [PARE_LEVER_CP_MOVING] = 0.04};
    static const double middle_u[PARE_LEVERS] = {0.03, 0.1, 0.1, 0.3, 0.05, 0.02, 0.02, 0.02, 0.02};
    /* Of the traits: size and blade count; then what only a measured blade tells. */
    const double seen = set->measured ? 0.5 : 0;
    const double trait[PARE_PROP_TRAITS] = {0,    1,    1,    1,    1,    may->many,
                                            seen, seen, seen, seen, seen, 1};
    const double bend = may->bend;
    const double line[PARE_PROP_LINE_TERMS] = {2, 2, 2, 2 * bend, 2 * bend, 2 * bend};
    fit_how how = {.base = set->measured ? &published_true : &published_family,
                   .measured = set->measured,
                   .known = set->known,
                   .reynolds_u = may->reynolds_u,
                   .own_reynolds_u = may->own * 0.04,
                   .thrust_u = 0.1,
                   .power_u = 0.1,
                   .odd = may->odd,
                   .research = may->research,
                   .stand = 1.3};
    for (int g = 0; g < FIT_GLOBALS; g++)
        how.global_u[g] = may->global * global_u[g];
    for (int l = 0; l < PARE_LEVERS; l++) {
        if (spread_u[l] == 0)
            continue;
        /* The last factors are to take little, so that a blade of another chord stays a blade. */
        const double share = l < PARE_LEVER_CT_STILL ? 1 : 0.5;
        how.own_u[l] = may->own * spread_u[l];
        how.trait_u[l][0] = middle_u[l];
        for (int t = 1; t < PARE_PROP_TRAITS; t++)
            how.trait_u[l][t] = share * spread_u[l] * trait[t];
        for (int t = 0; t < PARE_PROP_LINE_TERMS; t++)
            how.line_u[l][t] = share * spread_u[l] * line[t];
    }
    return how;
}
