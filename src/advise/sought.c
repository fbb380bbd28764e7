/* sought.c: wishes made from laws (see sought.h).
 *
 * A part that weighs more than its kind's law says has lighter sisters: half of all real ones are
 * below the law. One at or below the law may still have one a scatter lighter; below that, nothing is
 * promised. The saving is as unsure as the law's scatter, so its uncertainty is that scatter. */
#include "advise/sought.h"

#include <math.h>
#include <stdio.h>

#include "craft/law.h"

#define WORTH_LOOKING                                                                              \
    0.97 /* of the mass now: less than 3 % is within what scales and makers differ */

static double shop_kg(double mass_kg)
{
    const double step_kg = mass_kg < 10e-3 ? 1e-4 : 1e-3;
    return floor(mass_kg / step_kg + 1e-9) * step_kg;
}

bool pare_sought_kg(const pare_part *now, double *mass_kg)
{
    pare_typical law;
    if (now->sought || !pare_law_mass(now, &law) || !(law.value > 0))
        return false;
    const double worth_kg = WORTH_LOOKING * now->mass_kg.value;
    const double wishes_kg[] = {law.value, law.value - law.u};
    for (size_t i = 0; i < sizeof wishes_kg / sizeof wishes_kg[0]; i++) {
        const double wish_kg = shop_kg(wishes_kg[i]);
        if (wish_kg > 0 && wish_kg <= worth_kg) {
            *mass_kg = wish_kg;
            return true;
        }
    }
    return false;
}

pare_status pare_sought_part(pare_arena *arena, const pare_part *now, double mass_kg,
                             const pare_part **sought, pare_error *err)
{
    pare_typical law;
    if (!pare_law_mass(now, &law))
        return pare_fail(err, PARE_BAD_DATA,
                         "no law knows what kind %s weighs: nothing to look for",
                         pare_kind_name(now->kind));
    if (!(mass_kg >= 0.4 * law.value && mass_kg <= 2.5 * law.value))
        return pare_fail(err, PARE_BAD_DATA,
                         "parts like '%s' weigh about %.3g g: one of %.4g g is on no shelf",
                         now->id, 1e3 * law.value, 1e3 * mass_kg);
    pare_part *part = pare_arena_zeros(arena, sizeof *part);
    char *id = pare_arena_printf(arena, "sought-%.10gg", 1e3 * mass_kg);
    if (!part || !id)
        return pare_no_memory(err);
    *part = *now;
    part->id = id;
    part->maker = NULL;
    part->sought = true;
    part->mass_kg = (pare_value){mass_kg, law.u, PARE_ESTIMATED, true};
    part->price = (pare_price){0};
    part->owned = 0;
    *sought = part;
    return PARE_OK;
}
