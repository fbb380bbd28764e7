/* money.h: what a change costs as it must really be bought. Only this room uses it. */
#ifndef PARE_ADVISE_MONEY_H
#define PARE_ADVISE_MONEY_H

#include "craft/craft.h"

enum { PARE_BASKET_PARTS = 24, PARE_BASKET_SCREWS = 12, PARE_BASKET_WIRES = 12 };

/** What must be had. Zero-initialise; things of one sort are pooled, so that one bag serves two
 * joints and one parcel two swaps. */
typedef struct pare_basket {
    size_t parts, screws, wires;
    struct {
        const pare_part *part;
        int count;
    } part[PARE_BASKET_PARTS];
    struct {
        pare_fastener standard;
        pare_screw_material material;
        double nominal_m, length_m;
        int count;
    } screw[PARE_BASKET_SCREWS];
    struct {
        double gauge, length_m;
    } wire[PARE_BASKET_WIRES];
    bool full; /* something did not go in: the sum is then not known */
} pare_basket;

void pare_basket_part(pare_basket *basket, const pare_part *part, int count);
/** Screws like those of a joint. */
void pare_basket_screws(pare_basket *basket, const pare_joint *joint, int count);
void pare_basket_wire(pare_basket *basket, double gauge, double length_m);

/** As things are sold: bags of screws, sets of a part, a metre of wire, each with its price. Screws and
 * wire are no parts on a bench: their prices are usual ones, and no seller is known. */
enum { PARE_SCREWS_IN_A_BAG = 10 };
int pare_bags(int screws);
double pare_bag_money(pare_screw_material material);
int pare_sets(const pare_price *price, int count);
double pare_set_money(const pare_price *price);
double pare_wire_money_per_m(double gauge);

/** How many of a part lie unused: owned, less those on any of the bench's craft. A pack is on no
 * craft for good: all that are owned can be flown. */
int pare_spares(const pare_bench *bench, const pare_part *part);

/** The money for all of it: spares are had already, sets are whole, a seller ships once. Nothing is
 * refunded for what comes off.
 * @param[out] priced  false: something has no price, and the sum is of the rest */
double pare_basket_money(const pare_bench *bench, const pare_basket *basket, bool *priced);

#endif
