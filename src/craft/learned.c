/* learned.c: what was learned, put onto a rig (see learned.h). */
#include "craft/learned.h"

#include <math.h>
#include <string.h>

#include "craft/craft.h"
#include "physics/rig.h"

const char *pare_taught_name(pare_taught_number number)
{
    static const char *const names[PARE_TAUGHTS] = {
        [PARE_TAUGHT_THRUST] = "thrust",
        [PARE_TAUGHT_POWER] = "power",
        [PARE_TAUGHT_KV] = "kv",
        [PARE_TAUGHT_RESISTANCE] = "resistance",
        [PARE_TAUGHT_NO_LOAD] = "no_load",
        [PARE_TAUGHT_DRAG] = "drag",
        [PARE_TAUGHT_ALWAYS] = "electronics",
        [PARE_TAUGHT_CAPACITY] = "capacity",
        [PARE_TAUGHT_PACK_OHM] = "pack_resistance",
        [PARE_TAUGHT_ESC_LOSS] = "esc_loss",
    };
    return names[number];
}

bool pare_taught_by_share(pare_taught_number number)
{
    return number == PARE_TAUGHT_ALWAYS || number == PARE_TAUGHT_ESC_LOSS;
}

static bool is_at(const pare_craft *craft, int at, const char *id)
{
    return id && at >= 0 && strcmp(craft->item[at].part->id, id) == 0;
}

static bool is_on(const pare_craft *craft, pare_kind kind, const char *id)
{
    return is_at(craft, pare_craft_doing(craft, kind), id);
}

bool pare_taught_flew(const pare_craft *craft)
{
    return craft->learned && is_on(craft, PARE_MOTOR, craft->learned->motor) &&
           is_on(craft, PARE_PROPELLER, craft->learned->propeller);
}

bool pare_taught_applies(const pare_craft *craft, bool stand, pare_taught_number number)
{
    const pare_taught *kept = craft->learned;
    if (!kept)
        return false;
    if (number == PARE_TAUGHT_PACK_OHM && !(pare_taught_u(kept, number) > 0))
        return false;
    if (number == PARE_TAUGHT_CAPACITY || number == PARE_TAUGHT_PACK_OHM)
        return is_on(craft, PARE_PACK, kept->pack);
    /* Flights tell it with the rotors' share of what was drawn: it goes where these go. A stand measured what
     * went into the ESC. */
    if (number == PARE_TAUGHT_ESC_LOSS)
        return !stand && !kept->stand && pare_taught_flew(craft) &&
               is_at(craft, pare_craft_esc(craft), kept->esc);
    if (number == PARE_TAUGHT_DRAG || number == PARE_TAUGHT_ALWAYS)
        return true;
    return stand == kept->stand && pare_taught_flew(craft);
}

static double factor_of(const pare_craft *craft, pare_taught_number number)
{
    const double change = craft->learned ? craft->learned->change[number] : 0;
    return pare_taught_by_share(number) ? fmax(1 + change, 0) : exp(change);
}

void pare_taught_move(const pare_craft *craft, pare_rig *rig)
{
    if (!craft->learned)
        return;
    double *const number[PARE_TAUGHTS] = {
        [PARE_TAUGHT_THRUST] = &rig->rotor.thrust_factor,
        [PARE_TAUGHT_POWER] = &rig->rotor.power_factor,
        [PARE_TAUGHT_KV] = &rig->motor.kv_rpm_per_v,
        [PARE_TAUGHT_RESISTANCE] = &rig->motor.resistance_ohm,
        [PARE_TAUGHT_NO_LOAD] = &rig->motor.no_load_a,
        [PARE_TAUGHT_DRAG] = &rig->drag_m2,
        [PARE_TAUGHT_ALWAYS] = &rig->always_w,
        [PARE_TAUGHT_CAPACITY] = &rig->pack.capacity_c,
        [PARE_TAUGHT_PACK_OHM] =
            rig->pack.group_ohm > 0 ? &rig->pack.group_ohm : &rig->pack.resistance_factor,
        [PARE_TAUGHT_ESC_LOSS] = &rig->esc.switching,
    };
    for (int n = 0; n < PARE_TAUGHTS; n++) {
        if (pare_taught_applies(craft, rig->pair != NULL, (pare_taught_number)n))
            *number[n] *= factor_of(craft, (pare_taught_number)n);
    }
    rig->drag_top_m2 *= pare_taught_drag(craft);
}

double pare_taught_always(const pare_craft *craft)
{
    return factor_of(craft, PARE_TAUGHT_ALWAYS);
}

double pare_taught_drag(const pare_craft *craft)
{
    return factor_of(craft, PARE_TAUGHT_DRAG);
}

double pare_taught_u(const pare_taught *taught, pare_taught_number number)
{
    double squares = 0;
    for (int s = 0; s < PARE_TAUGHT_SOURCES; s++)
        squares += taught->root[number][s] * taught->root[number][s];
    return sqrt(squares);
}
