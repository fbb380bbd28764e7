/* start_weigh.c: what the scale says, shared among guesses (see pare_start_weigh in start.h).
 *
 * One equation, the sum, on independent guesses: the closed form is shift = misfit x own variance over
 * all variances. The scale is so much surer than the guesses (1 g against tens) that its reading is met
 * exactly. Bounds are kept by pinning: what would fall through its least is set there and leaves the
 * sum, and each round pins at least one, so that it ends. */
#include <math.h>

#include "advise/start_inside.h"

enum { MOST = 64 };

#define LEAST_SHARE 0.5 /* of the scale's u, in what the guesses keep */

bool pare_start_weigh(size_t count, pare_guess guess[], double known_kg, double known_u_kg,
                      double reading_kg, double reading_u_kg)
{
    double shifted_kg[MOST], all_variance = 0;
    bool pinned[MOST] = {false};
    if (count == 0 || count > MOST)
        return false;
    for (size_t i = 0; i < count; i++)
        all_variance += guess[i].u_kg * guess[i].u_kg;
    for (bool done = false; !done;) {
        double misfit_kg = reading_kg - known_kg, variance = 0;
        for (size_t i = 0; i < count; i++) {
            misfit_kg -= pinned[i] ? guess[i].least_kg : guess[i].kg;
            variance += pinned[i] ? 0 : guess[i].u_kg * guess[i].u_kg;
        }
        if (!(variance > 0))
            return false;
        done = true;
        for (size_t i = 0; i < count; i++) {
            const double share = guess[i].u_kg * guess[i].u_kg / variance;
            shifted_kg[i] = pinned[i] ? guess[i].least_kg : guess[i].kg + share * misfit_kg;
            if (!pinned[i] && shifted_kg[i] < guess[i].least_kg) {
                pinned[i] = true;
                done = false;
            }
        }
    }
    const double least = LEAST_SHARE * reading_u_kg;
    const double left = reading_u_kg * reading_u_kg - known_u_kg * known_u_kg;
    const double shrink = fmin(1, sqrt(fmax(left, least * least) / all_variance));
    for (size_t i = 0; i < count; i++) {
        guess[i].kg = shifted_kg[i];
        guess[i].u_kg *= shrink;
    }
    return true;
}
