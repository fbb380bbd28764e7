/* learn_keep.c: what was learned, in the form that a craft keeps (see craft/learned.h).
 *
 * Unknowns of the fit are sources of the rig's numbers; what is left in doubt of them is a covariance, and
 * a root of it makes new sources of these, one fewer than there are numbers to move. */
#include <math.h>
#include <string.h>

#include "advise/learn_inside.h"
#include "craft/flight.h"

/* Sources that are kept, behind the first four of the fit. What its sensors say is of no use to a sheet. The
 * last stands behind those that older benches have. */
enum {
    OF_FIT = PARE_OF_ALWAYS + 1,
    OF_CAPACITY = OF_FIT,
    OF_OHM = OF_FIT + 1,
    OF_ESC = OF_FIT + 2
};

size_t pare_learning_own_pack(const pare_learning *learning)
{
    size_t own = PARE_NO_PACK;
    for (size_t p = 0; p < learning->packs; p++) {
        if (strcmp(learning->pack[p].pack->id, learning->own_pack) != 0)
            continue;
        if (own != PARE_NO_PACK)
            return PARE_NO_PACK;
        own = p;
    }
    return own;
}

/* How the numbers go with the unknowns that are kept, in the fit's order. */
static void directions(const pare_learning *learning, size_t own, bool logged,
                       double way[PARE_TAUGHTS][PARE_TAUGHT_SOURCES])
{
    const pare_doubts *doubts = &learning->doubts;
    const pare_rig *rig = &learning->own;
    const double waiting_w =
        rig->rotors * rig->esc.idle_a * pare_pack_open_v(&rig->pack, PARE_CHARGE_HALF);
    memset(way, 0, sizeof(double[PARE_TAUGHTS][PARE_TAUGHT_SOURCES]));
    for (int n = 0; n < PARE_PAIR_NUMBERS; n++) {
        way[n][PARE_OF_THRUST] = doubts->drive[0][0].root[n][PARE_PAIR_THRUST];
        way[n][PARE_OF_POWER] = doubts->drive[0][0].root[n][PARE_PAIR_POWER];
    }
    way[PARE_TAUGHT_DRAG][PARE_OF_DRAG] = doubts->u[PARE_DOUBTED_DRAG];
    /* Waiting ESCs are doubted with the electronics; what is kept is a share of these alone. */
    if (rig->always_w > 0)
        way[PARE_TAUGHT_ALWAYS][PARE_OF_ALWAYS] =
            doubts->u[PARE_DOUBTED_ALWAYS] * (rig->always_w + waiting_w) / rig->always_w;
    if (own != PARE_NO_PACK)
        way[PARE_TAUGHT_CAPACITY][OF_CAPACITY] = learning->prior[own].capacity_u;
    if (own != PARE_NO_PACK && (logged || isfinite(learning->pack[own].logged_ohm)))
        way[PARE_TAUGHT_PACK_OHM][OF_OHM] = learning->prior[own].ohm_u;
    way[PARE_TAUGHT_ESC_LOSS][OF_ESC] = doubts->u[PARE_DOUBTED_SWITCHING];
}

/* The lower triangular root of a covariance that is positive but for rounding. */
static void root_of(const double covariance[PARE_TAUGHT_SOURCES][PARE_TAUGHT_SOURCES],
                    double root[PARE_TAUGHT_SOURCES][PARE_TAUGHT_SOURCES])
{
    for (int i = 0; i < PARE_TAUGHT_SOURCES; i++)
        for (int k = 0; k < PARE_TAUGHT_SOURCES; k++) {
            double sum = covariance[i][k];
            root[i][k] = 0;
            for (int j = 0; j < k; j++)
                sum -= root[i][j] * root[k][j];
            if (k == i)
                root[i][k] = sqrt(fmax(sum, 0));
            else if (k < i && root[k][k] > 0)
                root[i][k] = sum / root[k][k];
        }
}

void pare_learning_keep(const pare_learning *learning, size_t unknowns, const double x[],
                        const double covariance[], bool logged, pare_taught *kept)
{
    const size_t own = pare_learning_own_pack(learning);
    double way[PARE_TAUGHTS][PARE_TAUGHT_SOURCES],
        left[PARE_TAUGHT_SOURCES][PARE_TAUGHT_SOURCES] = {{0}},
        root[PARE_TAUGHT_SOURCES][PARE_TAUGHT_SOURCES];
    size_t at[PARE_TAUGHT_SOURCES];
    const size_t pack = PARE_OF_PACKS + PARE_OF_A_PACK * own;
    for (size_t i = 0; i < PARE_TAUGHT_SOURCES; i++)
        at[i] = i < OF_FIT            ? i
                : i == OF_ESC         ? PARE_OF_ESC
                : own == PARE_NO_PACK ? unknowns /* nothing of a pack */
                : i == OF_OHM         ? pack + PARE_OF_OHM
                                      : pack + PARE_OF_CAPACITY;
    for (size_t i = 0; i < PARE_TAUGHT_SOURCES; i++)
        for (size_t k = 0; k < PARE_TAUGHT_SOURCES; k++)
            if (at[i] < unknowns && at[k] < unknowns)
                left[i][k] = covariance[at[i] * unknowns + at[k]];
    directions(learning, own, logged, way);
    root_of(left, root);
    *kept =
        (pare_taught){.motor = learning->motor,
                      .propeller = learning->propeller,
                      .stand = learning->own.pair != NULL,
                      .esc = learning->doubts.u[PARE_DOUBTED_SWITCHING] > 0 ? learning->esc : NULL,
                      .pack = own == PARE_NO_PACK ? NULL : learning->own_pack};
    for (int n = 0; n < PARE_TAUGHTS; n++)
        for (size_t i = 0; i < PARE_TAUGHT_SOURCES; i++) {
            kept->change[n] += at[i] < unknowns ? way[n][i] * x[at[i]] : 0;
            for (int s = 0; s < PARE_TAUGHT_SOURCES; s++)
                kept->root[n][s] += way[n][i] * root[i][s];
        }
}
