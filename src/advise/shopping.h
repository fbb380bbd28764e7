/* shopping.h: what must be bought for a change to a craft, as it is sold, and what must be cut for it.
 *
 * Both are read off the craft before and after the change as a whole, so that screws or wires that two
 * swaps of it touch are had once. Spares that lie unused are had already, and so is what was ordered.
 * Nothing is refunded for what comes off. */
#ifndef PARE_ADVISE_SHOPPING_H
#define PARE_ADVISE_SHOPPING_H

#include "craft/craft.h"

/** A part: sold singly or in sets. */
typedef struct pare_shop_part {
    const pare_part *part;
    int needed, spare, coming; /* in all; of them unused on the bench; of them ordered already */
    int sets;                  /* to be bought: each of the part's sold_in, or 1 */
    double money;              /* for them, without shipping; NAN: no price is known */
} pare_shop_part;

/** Screws, nuts, washers or standoffs of one sort: sold in bags of PARE_SCREWS_IN_A_BAG. */
typedef struct pare_shop_screws {
    pare_fastener standard;
    pare_screw_material material;
    double nominal_m, length_m; /* length 0: nuts and washers */
    int needed, coming;
    int bags;
    double money;
} pare_shop_screws;

/** Wire of one gauge: sold by the metre. */
typedef struct pare_shop_wire {
    double gauge, needed_m, coming_m;
    int metres;
    double money;
} pare_shop_wire;

typedef struct pare_shop_seller {
    const char *name;    /* NULL: none is said */
    size_t first, parts; /* of the list's parts */
    double goods, shipping;
} pare_shop_seller;

typedef enum pare_cut_of { PARE_CUT_WIRE, PARE_CUT_COAX, PARE_CUT_SCREWS } pare_cut_of;

/** Pieces of one length. */
typedef struct pare_cut {
    pare_cut_of of;
    const char *name; /* of the run, the item with the coax, or the joint */
    int count;
    double length_m;        /* 0: nuts and washers */
    double was_m;           /* cut down from it; 0: out of what is bought */
    double gauge;           /* of wire */
    const pare_part *part;  /* of coax */
    pare_fastener standard; /* of screws */
    pare_screw_material material;
    double nominal_m;
} pare_cut;

enum { PARE_CUTS = PARE_RUNS * PARE_WAYS + PARE_ITEMS + PARE_JOINTS };

/** Large: keep it off the stack. */
typedef struct pare_shopping {
    size_t parts, screws, wires, sellers, cuts;
    pare_shop_part part[PARE_ITEMS];     /* by seller, then by id; those without one last */
    pare_shop_screws screw[PARE_JOINTS]; /* by thread, then length */
    pare_shop_wire wire[PARE_RUNS];      /* thick first */
    pare_shop_seller seller[PARE_ITEMS]; /* of what is to be bought */
    pare_cut cut[PARE_CUTS]; /* wires by gauge, then coax, then screws by thread; long ones first */
    double money;            /* for all of it, with shipping */
    bool priced;             /* false: something has no price, and the money is for the rest */
} pare_shopping;

/** @param before   settled, in no loadout, as it is
 *  @param ordered  with what is ordered already; NULL: nothing is
 *  @param after    with all of it
 *  Allocates nothing. */
void pare_shopping_of(const pare_bench *bench, const pare_craft *before, const pare_craft *ordered,
                      const pare_craft *after, pare_shopping *shopping);

/** The same on the way from a craft as built to another state of it.
 *
 * @param first  as first described: what is ordered stands in its list
 * @param after  settled, in no loadout
 * @return PARE_OK; as pare_taken_as_planned() where what is built or ordered does not go on */
pare_status pare_shopping_toward(const pare_bench *bench, const pare_craft *first,
                                 const pare_craft *after, pare_shopping *shopping, pare_error *err);

/** The same for what is taken on a craft and not on it yet.
 *
 * @param first  as first described
 * @param tried  swaps that go on after them, as one list; NULL: none
 * @return PARE_OK; as pare_taken_as_planned() where a plan does not go on, or as
 *         pare_swap_apply_list() where a trial does not */
pare_status pare_shopping_planned(const pare_bench *bench, const pare_craft *first,
                                  const char *tried, pare_shopping *shopping, pare_error *err);

#endif
