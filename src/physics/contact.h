/* contact.h: how much hotter a connector gets than the wires that enter it. */
#ifndef PARE_PHYSICS_CONTACT_H
#define PARE_PHYSICS_CONTACT_H

/** A pair of contacts, out and back, between wires of one gauge. */
typedef struct pare_contact {
    double ohm;     /* both contacts */
    double mass_kg; /* of the whole connector, both halves */
    double gauge;
    int wires;          /* that carry its heat away: 4 of a pair in the middle of a lead */
    double gives_w_m_k; /* what a metre of the wire gives off a kelvin */
} pare_contact;

/** Over the wires' own temperature, settled: wires as long fins, nothing off the housing.
 * Source: a fin far longer than sqrt(k A / g) takes sqrt(g k A) a kelvin (Incropera et al., 7th ed.,
 * table 3.4, case D). */
double pare_contact_over_k(const pare_contact *contact, double current_a);

/** How much hotter than its wires, which warm by so much themselves, a burst leaves it: I^2 R t in the
 * metal of the contacts and in the copper that it reaches within the time. Negative where the wires
 * lead: the contacts' metal is slow to follow. */
double pare_contact_burst_k(const pare_contact *contact, double current_a, double seconds,
                            double wires_warm_k);

#endif
