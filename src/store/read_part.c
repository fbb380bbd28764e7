/* read_part.c: a part out of its text: what it is, what it weighs, what it costs.
 *
 * Specs, interfaces, body and what it includes have a file each. A quantity stands alone or as a map
 * with its uncertainty; alone, it is taken as the maker's. */
#include "store/read_part.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MONEY_MOST 1e6

const char *const pare_part_keys[PARE_PART_KEYS] = {
    "id",   "kind", "maker", "mass",     "price",   "owned", "sought", "does",
    "spec", "fits", "body",  "includes", "charger", "blade", "tunnel", "note"};

pare_status pare_read_value(const pare_reading *reading, const pare_node *node, const char *what,
                            pare_dimension dimension, double low, double high, pare_value *value,
                            pare_error *err)
{
    static const char *const keys[] = {"value", "u", "known"};
    pare_value read = {.known = PARE_STATED, .given = true};
    if (node->form == PARE_NODE_SCALAR) {
        const pare_status status =
            pare_read_quantity(reading, node, what, dimension, low, high, &read.value, err);
        if (status == PARE_OK)
            *value = read;
        return status;
    }
    if (node->form == PARE_NODE_LIST)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is a list; right would be one value, or {value: ..., u: ..., known: "
                           "...}",
                           what);
    pare_status status = pare_read_keys(reading, node, what, PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *number = pare_node_get(node, "value");
    if (!number)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s has no value; right would be {value: ..., u: ..., known: ...}",
                           what);
    status = pare_read_quantity(reading, number, what, dimension, low, high, &read.value, err);
    const pare_node *u = pare_node_get(node, "u");
    if (status == PARE_OK && u) {
        char name[96];
        snprintf(name, sizeof name, "uncertainty (u) of %s", what);
        const double most = high > -low ? high : -low;
        status = pare_read_quantity(reading, u, name,
                                    dimension == PARE_DIM_COUNT ? PARE_DIM_NUMBER : dimension, 0,
                                    most, &read.u, err);
    }
    const pare_node *known = pare_node_get(node, "known");
    if (status == PARE_OK && known) {
        const char *names[PARE_KNOWNS];
        int index = 0;
        for (int i = 0; i < PARE_KNOWNS; i++)
            names[i] = pare_known_name((pare_known)i);
        status =
            pare_read_choice(reading, known, "how it is known", PARE_KNOWNS, names, &index, err);
        read.known = (pare_known)index;
    }
    if (status == PARE_OK)
        *value = read;
    return status;
}

static pare_status read_kind(const pare_reading *reading, const pare_node *node, pare_kind *kind,
                             pare_error *err)
{
    const char *names[PARE_KINDS];
    int index = 0;
    for (int i = 0; i < PARE_KINDS; i++)
        names[i] = pare_kind_name((pare_kind)i);
    const pare_status status =
        pare_read_choice(reading, node, "kind", PARE_KINDS, names, &index, err);
    if (status == PARE_OK)
        *kind = (pare_kind)index;
    return status;
}

static pare_status read_does(const pare_reading *reading, const pare_node *node, pare_part *part,
                             pare_error *err)
{
    part->does = 1u << part->kind;
    if (!node)
        return PARE_OK;
    pare_status status = PARE_OK;
    const bool single = node->form == PARE_NODE_SCALAR;
    if (!single)
        status = pare_need_list(reading, node, "does", err);
    for (const pare_node *one = single ? node : node->first; one && status == PARE_OK;
         one = single ? NULL : one->next) {
        pare_kind kind = part->kind;
        status = read_kind(reading, one, &kind, err);
        part->does |= 1u << kind;
    }
    return status;
}

static pare_status read_price(const pare_reading *reading, const pare_node *node, pare_price *price,
                              pare_error *err)
{
    static const char *const keys[] = {"each", "sold_in", "shipping", "seller", "date"};
    if (!node)
        return PARE_OK;
    price->sold_in = 1;
    price->given = true;
    if (node->form == PARE_NODE_SCALAR)
        return pare_read_quantity(reading, node, "price", PARE_DIM_MONEY, 0, MONEY_MOST,
                                  &price->each, err);
    pare_status status = pare_read_keys(reading, node, "price", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *each = pare_node_get(node, "each");
    if (!each)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "price without each; right would be {each: 18.90}");
    status = pare_read_quantity(reading, each, "price each", PARE_DIM_MONEY, 0, MONEY_MOST,
                                &price->each, err);
    if (status == PARE_OK)
        status = pare_read_count(reading, pare_node_get(node, "sold_in"), "sold_in", 1, 10000,
                                 &price->sold_in, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "shipping"), "shipping",
                                    PARE_DIM_MONEY, 0, MONEY_MOST, &price->shipping, err);
    const pare_node *seller = pare_node_get(node, "seller"), *date = pare_node_get(node, "date");
    if (status == PARE_OK && seller)
        status = pare_read_text(reading, seller, "seller", &price->seller, err);
    if (status == PARE_OK && date)
        status = pare_read_date(reading, date, "date", &price->date, err);
    return status;
}

static pare_status read_charged(const pare_reading *reading, const pare_node *row,
                                pare_charged *one, pare_error *err)
{
    static const char *const keys[] = {"which", "date",  "kind",   "temperature",
                                       "cells", "pulse", "charge", "capacity"};
    static const char *const kinds[PARE_READING_KINDS] = {
        [PARE_READING_PULSE] = "pulse", [PARE_READING_AC] = "ac", [PARE_READING_DC] = "dc"};
    *one = (pare_charged){
        .which = 1,
        .reading = {.kind = PARE_READING_PULSE, .degc = (double)NAN, .charge = (double)NAN}};
    pare_charger_reading *r = &one->reading;
    int kind = PARE_READING_PULSE;
    const pare_node *date = pare_node_get(row, "date"), *said = pare_node_get(row, "kind"),
                    *cells = pare_node_get(row, "cells");
    pare_status status = pare_read_keys(reading, row, "charger", PARE_COUNT(keys), keys, err);
    if (status == PARE_OK)
        status = pare_read_count(reading, pare_node_get(row, "which"), "which", 1, 10000,
                                 &one->which, err);
    if (status == PARE_OK && date)
        status = pare_read_date(reading, date, "date", &one->date, err);
    if (status == PARE_OK && said)
        status = pare_read_choice(reading, said, "kind of reading", PARE_COUNT(kinds), kinds, &kind,
                                  err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(row, "temperature"), "temperature",
                                    PARE_DIM_TEMPERATURE, -40, 80, &r->degc, err);
    if (status == PARE_OK && cells)
        status = pare_read_quantities(reading, cells, "cells", PARE_DIM_RESISTANCE, 1e-5, 10, 1,
                                      PARE_READING_CELLS, r->ohm, &r->cells, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(row, "pulse"), "pulse", PARE_DIM_TIME,
                                    1e-3, 600, &r->seconds, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(row, "charge"), "charge", PARE_DIM_SHARE,
                                    0, 1, &r->charge, err);
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(row, "capacity"), "capacity",
                                    PARE_DIM_CHARGE, 3.6, 1e7, &one->holds_c, err);
    r->kind = (pare_reading_kind)kind;
    return status;
}

enum { CHARGINGS_MOST = 1000 }; /* each is held against all others */

static pare_status read_charger(const pare_reading *reading, const pare_node *node, pare_part *part,
                                pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_list(reading, node, "charger", err);
    if (status == PARE_OK && node->count > CHARGINGS_MOST)
        return pare_refuse(
            reading, node, PARE_BAD_DATA, err,
            "%zu readings of a charger; right would be %d at most: the newest of each "
            "pack count",
            node->count, CHARGINGS_MOST);
    if (status != PARE_OK || node->count == 0)
        return status;
    part->charged = pare_arena_zeros(reading->arena, node->count * sizeof *part->charged);
    if (!part->charged)
        return pare_no_memory(err);
    for (const pare_node *row = node->first; row && status == PARE_OK; row = row->next)
        status = read_charged(reading, row, &part->charged[part->chargings++], err);
    return status;
}

static pare_status read_identity(const pare_reading *reading, const pare_node *node,
                                 pare_part *part, pare_error *err)
{
    pare_status status =
        pare_read_keys(reading, node, "a part", PARE_PART_KEYS, pare_part_keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *id = pare_node_get(node, "id"), *kind = pare_node_get(node, "kind");
    if (!id)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a part without id; right would be like {id: mo-a, kind: motor}");
    status = pare_read_name(reading, id, "id", true, &part->id, err);
    if (status == PARE_OK && !kind)
        status = pare_refuse(reading, node, PARE_BAD_DATA, err,
                             "part '%s' without kind; right would be like kind: motor", part->id);
    if (status == PARE_OK)
        status = read_kind(reading, kind, &part->kind, err);
    return status;
}

static pare_status read_facts(const pare_reading *reading, const pare_node *node, pare_part *part,
                              pare_error *err)
{
    const pare_node *maker = pare_node_get(node, "maker"), *mass = pare_node_get(node, "mass"),
                    *sought = pare_node_get(node, "sought"), *spec = pare_node_get(node, "spec"),
                    *fits = pare_node_get(node, "fits"), *body = pare_node_get(node, "body"),
                    *includes = pare_node_get(node, "includes"),
                    *note = pare_node_get(node, "note");
    pare_status status = PARE_OK;
    if (maker)
        status = pare_read_text(reading, maker, "maker", &part->maker, err);
    if (status == PARE_OK && mass)
        status = pare_read_value(reading, mass, "mass", PARE_DIM_MASS, PARE_PART_LEAST_KG,
                                 PARE_PART_MOST_KG, &part->mass_kg, err);
    if (status == PARE_OK)
        status = read_price(reading, pare_node_get(node, "price"), &part->price, err);
    if (status == PARE_OK)
        status = pare_read_count(reading, pare_node_get(node, "owned"), "owned", 0, 100000,
                                 &part->owned, err);
    if (status == PARE_OK && sought)
        status = pare_read_bool(reading, sought, "sought", &part->sought, err);
    if (status == PARE_OK)
        status = read_does(reading, pare_node_get(node, "does"), part, err);
    if (status == PARE_OK && spec)
        status = pare_read_spec(reading, spec, part, err);
    if (status == PARE_OK && fits)
        status = pare_read_fits(reading, fits, part, err);
    if (status == PARE_OK && body)
        status = pare_read_body(reading, body, part, err);
    if (status == PARE_OK && includes)
        status = pare_read_includes(reading, includes, part, err);
    if (status == PARE_OK && note)
        status = pare_read_text(reading, note, "note", &part->note, err);
    if (status == PARE_OK)
        status = read_charger(reading, pare_node_get(node, "charger"), part, err);
    if (status == PARE_OK)
        status = pare_read_blade(reading, node, part, err);
    return status;
}

/* The mesh that a part would have been weighed by, or NULL. */
static const char *missing_mesh(const pare_part *part)
{
    for (size_t i = 0; i < part->pieces; i++)
        if (part->piece[i].form == PARE_FORM_MESH && !part->piece[i].measured)
            return part->mass_kg.given ? NULL : part->piece[i].file;
    return NULL;
}

pare_status pare_read_part(const pare_reading *reading, const pare_node *node, pare_part **part,
                           pare_error *err)
{
    *part = NULL;
    pare_part *made = pare_arena_zeros(reading->arena, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    pare_status status = read_identity(reading, node, made, err);
    if (status == PARE_OK)
        status = read_facts(reading, node, made, err);
    if (status != PARE_OK)
        return status;
    if (pare_part_complete(made, reading->arena, err) != PARE_OK) {
        const char *mesh = missing_mesh(made);
        if (mesh)
            pare_within(err, "part '%s', whose mesh %.80s is not there", made->id, mesh);
        else
            pare_within(err, "part '%s'", made->id);
        return pare_refused_at(reading, node, NULL, err);
    }
    *part = made;
    return PARE_OK;
}
