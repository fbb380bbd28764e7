/* part.h: something with a mass: what it is, what it mounts to, what it includes, what it costs. */
#ifndef PARE_CRAFT_PART_H
#define PARE_CRAFT_PART_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"
#include "base/vec.h"
#include "craft/charged.h"
#include "craft/kind.h"
#include "craft/spec.h"
#include "craft/value.h"
#include "physics/arm.h"
#include "physics/material.h"
#include "physics/prop.h"
#include "physics/rig.h"
#include "physics/screw.h"
#include "physics/solid.h"
#include "physics/tunnel.h"

/** Interfaces: two parts fit where each key that both state agrees; a list means any of these. */
typedef enum pare_fit_key {
    PARE_FIT_BOLT_CIRCLE, /* m */
    PARE_FIT_THREAD,      /* "M3", held as 3 mm in m */
    PARE_FIT_SHAFT,       /* "M5" or 5 mm, in m */
    PARE_FIT_STACK,       /* m */
    PARE_FIT_PROPELLER,   /* m, a range; a propeller's own is its diameter */
    PARE_FIT_CELLS,       /* a number or a range */
    PARE_FIT_CONNECTOR,   /* "60 A class", held as 60 */
    PARE_FIT_CAMERA,      /* m */
    PARE_FIT_ANTENNA,     /* a word: snap, screw, solder; for a pigtail or adapter see ends */
    PARE_FITS
} pare_fit_key;
const char *pare_fit_name(pare_fit_key key);
int pare_fit_named(const char *name);

enum { PARE_FIT_CHOICES = 6 };
typedef struct pare_fit {
    size_t count; /* 0: not stated */
    struct {
        double low, high; /* equal for a single value */
        const char *word; /* instead of numbers; NULL otherwise */
    } any[PARE_FIT_CHOICES];
} pare_fit;

/** Whether two parts go together at one key: true when either does not say. Numbers agree within
 * 0.2 mm (in their own unit: 0.0002) or 1 %, a value lies within a range, two ranges overlap, words
 * are equal; any choice of one may meet any of the other. */
bool pare_fit_agrees(const pare_fit *a, const pare_fit *b);

/** What a part's body is made of; positions relative to the item's station. */
typedef enum pare_form {
    PARE_FORM_SHAPE,
    PARE_FORM_ARMS,
    PARE_FORM_MESH,
    PARE_FORM_PLATE
} pare_form;
typedef struct pare_piece {
    pare_form form;
    const char *name; /* a plate's name; NULL otherwise */
    pare_shape shape; /* SHAPE and PLATE (a box of size) */
    double size_m[3];
    double density_kg_m3;          /* carbon plate 1600 unless said */
    const pare_material *material; /* NULL: not said */
    size_t places;                 /* 1 or more: the same piece at several places */
    const pare_vec3 *at_m;         /* [places] */
    pare_mat3 turn;
    /* ARMS: at_m are the motor axes, front left first, clockwise from above */
    double root_m;       /* where an arm leaves the body, from the centre */
    bool tube;           /* otherwise a bar cut from plate */
    double section_m[2]; /* width, thickness; of a tube its outside and its wall */
    pare_cloth cloth;
    double off_axis_rad; /* between the arm and the cloth's nearest fibres */
    double flexural_pa;  /* as its maker states it; 0: not stated */
    /* MESH, or a plate's outline */
    const char *file;      /* as typed; NULL otherwise */
    double wall_m, infill; /* printed; wall 0: solid throughout */
    bool measured;         /* facts below are filled */
    pare_mesh_facts mesh;  /* of an outline: of the plate cut to it */
} pare_piece;

/** How deep an arm is, upright, and the area of its section. */
double pare_piece_arm_deep_m(const pare_piece *arms);
double pare_piece_arm_m2(const pare_piece *arms);

/** What a part brings with it, already in its mass. */
typedef enum pare_included {
    PARE_INCLUDES_RUN,
    PARE_INCLUDES_JOINT,
    PARE_INCLUDES_KIND
} pare_included;
typedef struct pare_include {
    pare_included what;
    const char *name;                /* the run's or joint's */
    pare_kind kind;                  /* INCLUDES_KIND */
    int count;                       /* wires, screws, things: for one part */
    double gauge, length_m, outer_m; /* a run */
    pare_fastener standard;          /* a joint */
    double across_m, tapped_m;
    pare_thread thread;
    pare_screw_material material;
} pare_include;

typedef struct pare_price {
    bool given;
    double each, shipping;     /* the bench's money */
    int sold_in;               /* 1 or more: a set of so many */
    const char *seller, *date; /* NULL: not said */
} pare_price;

/** A measured section of a blade. */
typedef struct pare_blade_station {
    double radius, chord; /* r/R, c/R */
    double twist_rad;
} pare_blade_station;

enum { PARE_HANDED_LINEAR, PARE_HANDED_LEFT, PARE_HANDED_RIGHT, PARE_HANDS };

/** As they are typed: "lihv", "left". */
extern const char *const pare_chemistry_names[PARE_CHEMISTRIES];
extern const char *const pare_hand_names[PARE_HANDS];

typedef struct pare_part {
    const char *id;
    const char *maker; /* NULL: not said */
    const char *note;  /* kept as typed; NULL: none */
    pare_kind kind;
    bool sought; /* on no shelf: wished for, never in a proof */
    pare_value mass_kg;
    pare_value spec[PARE_SPECS];
    pare_chemistry chemistry; /* pack */
    pare_prop_line line;      /* propeller */
    int hand;                 /* antenna */
    const char *cable;        /* antenna, pigtail; NULL: not said */
    const char *ends[2];      /* pigtail, adapter: towards the transmitter, towards the antenna */
    const char *material;     /* standoff and others, NULL: not said */
    unsigned does; /* bit (1u << kind) for each kind whose work it does; its own always */
    pare_price price;
    int owned;
    pare_fit fit[PARE_FITS];
    size_t pieces;
    const pare_piece *piece;
    bool body_estimated; /* nobody described the body: a usual one for its kind and mass */
    size_t includes;
    const pare_include *include;
    /* For a propeller, what was measured of it; 0 and NULL otherwise. */
    size_t stations; /* 2 .. PARE_PROP_STATIONS, by radius, rising */
    const pare_blade_station *station;
    const pare_tunnel_table *tunnel;
    /* For a pack: what chargers said of those owned. pare_part_complete() works them out. A spec that
     * says that it was measured stands; otherwise their resistance is the part's. */
    size_t chargings;
    pare_charged *charged; /* [chargings] */
    pare_value holds_c;    /* the charge that it holds now; not given: what is stated */
    /* For a propeller: its blade and, once warm, its table. pare_part_complete() makes the
     * blade, the store the table. */
    const pare_prop *blade;
    const pare_prop_table *table;
    const pare_tunnel_fit *bent; /* what that table was bent to the tunnel's points by; NULL: not */
} pare_part;

/** Whether a part does the work of a kind. Here, because a craft's items are asked some hundred times a
 * sheet. */
static inline bool pare_part_does(const pare_part *part, pare_kind kind)
{
    const unsigned does = part->does | 1u << part->kind;
    if (does & 1u << kind)
        return true;
    if (kind == PARE_CONTROLLER_WITH_ESC)
        return (does & 1u << PARE_FLIGHT_CONTROLLER) && (does & 1u << PARE_ESC_FOUR);
    return (does & 1u << PARE_CONTROLLER_WITH_ESC) &&
           (kind == PARE_FLIGHT_CONTROLLER || kind == PARE_ESC_FOUR);
}

/** Fills what is missing by the laws of the trade, marks it estimated with its scatter; refuses a
 * part that lacks a needed spec or has a value out of its range, naming spec, value and range.
 *
 * A printed part's mass is computed from its mesh, walls and infill when it has no other. A mass
 * that nothing fills is an error that says so. The part's spec.given stays false for what a law
 * filled: known says PARE_ESTIMATED and value and u are set. After this each BY_LAW spec has a
 * value. `arena` holds what had to be made (default body, blade). Call it once, on a part as read.
 *
 * A value without its own uncertainty gets the usual one for how it is known: weighed 0.1 g with
 * 0.1 % of scale, stated 2 % or 0.3 g (a quarter of it at most), a spec its row's share. A maker who
 * states no mass usually has a heavy part, so a law's mass is raised by half a sigma then.
 * A propeller's own fit and a pack's cells come from its specs. Bodies without a density get one, so
 * that the shape always says where the grams sit.
 * @return PARE_OK, PARE_BAD_DATA, or PARE_UNAVAILABLE when memory ran out; the text does not name the
 *         part: the caller knows where it stands */
pare_status pare_part_complete(pare_part *part, pare_arena *arena, pare_error *err);

/** The run or joint of a name that a part brings. @param part, name  may be NULL @return NULL: it brings none */
const pare_include *pare_part_brings(const pare_part *part, pare_included what, const char *name);

/** What a law filled: bit (1ull << spec), and bit 63 for the mass. */
unsigned long long pare_part_filled(const pare_part *part);
#define PARE_FILLED_MASS (1ull << 63)

#endif
