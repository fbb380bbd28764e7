/* contact.c: see contact.h.
 *
 * A contact makes heat in a place of millimetres and has hardly a surface: settled, the copper on either
 * side draws it off. In a burst of seconds it stays in the metal of the contacts and spreads into a
 * centimetre or two of wire: a flux into a long bar warms its end as if sqrt(pi a t) / 2 of it took part,
 * a being copper's diffusivity (Incropera et al., 7th ed., eq. 5.62). The wires warm by themselves
 * meanwhile, and the contacts' metal takes its share of that from them.
 *
 * Copper 400 W/(m K), 8890 kg/m3, 385 J/(kg K), the contacts' metal alike; that metal is half of a
 * connector and its housing the rest, an estimate. */
#include "physics/contact.h"

#include <math.h>

#include "physics/wire.h"

#define PI           3.14159265358979323846
#define COPPER_W_M_K 400.0
#define METAL_J_KG_K 385.0
#define METAL_SHARE  0.5

double pare_contact_over_k(const pare_contact *contact, double current_a)
{
    const double fin_w_k =
        sqrt(contact->gives_w_m_k * COPPER_W_M_K * pare_wire_area_m2(contact->gauge));
    return fin_w_k > 0 ? current_a * current_a * contact->ohm / (contact->wires * fin_w_k) : 0;
}

double pare_contact_burst_k(const pare_contact *contact, double current_a, double seconds,
                            double wires_warm_k)
{
    const double metal_j_k = METAL_SHARE * METAL_J_KG_K * contact->mass_kg;
    const double copper_j_m3_k = 8890 * METAL_J_KG_K;
    const double reached_m = 0.5 * sqrt(PI * COPPER_W_M_K / copper_j_m3_k * seconds);
    const double wires_j_k =
        contact->wires * pare_wire_area_m2(contact->gauge) * reached_m * copper_j_m3_k;
    const double made_j = current_a * current_a * contact->ohm * seconds;
    return (made_j - metal_j_k * wires_warm_k) / (metal_j_k + wires_j_k);
}
