/* shopping_json.c: what to buy and to cut, as JSON (see shopping.h). */
#include "advise/money.h"
#include "show/sheet_json.h"
#include "show/shopping.h"

static json_t *part_object(const pare_shop_part *row)
{
    const pare_price *price = &row->part->price;
    json_t *one = json_object();
    json_object_set_new(one, "part", json_string(row->part->id));
    json_object_set_new(one, "maker", pare_text_or_null(row->part->maker));
    json_object_set_new(one, "seller", pare_text_or_null(price->given ? price->seller : NULL));
    json_object_set_new(one, "needed", json_integer(row->needed));
    json_object_set_new(one, "unused", json_integer(row->spare));
    json_object_set_new(one, "ordered", json_integer(row->coming));
    json_object_set_new(one, "sold_in", json_integer(price->sold_in > 1 ? price->sold_in : 1));
    json_object_set_new(one, "sets", json_integer(row->sets));
    json_object_set_new(one, "money", pare_json_number(row->money));
    return one;
}

/* What screws are, in a shopping list and in a cutting list. */
static void screws_into(json_t *one, pare_fastener standard, double nominal_m, double length_m,
                        pare_screw_material material)
{
    json_object_set_new(one, "standard", json_string(pare_fastener_name(standard)));
    json_object_set_new(one, "thread_mm", pare_json_number(1e3 * nominal_m));
    json_object_set_new(one, "length_mm",
                        pare_has_no_length(standard) ? json_null()
                                                     : pare_json_number(1e3 * length_m));
    json_object_set_new(one, "material", json_string(pare_screw_material_name(material)));
}

static json_t *screws_object(const pare_shop_screws *row)
{
    json_t *one = json_object();
    screws_into(one, row->standard, row->nominal_m, row->length_m, row->material);
    json_object_set_new(one, "needed", json_integer(row->needed));
    json_object_set_new(one, "ordered", json_integer(row->coming));
    json_object_set_new(one, "sold_in", json_integer(PARE_SCREWS_IN_A_BAG));
    json_object_set_new(one, "bags", json_integer(row->bags));
    json_object_set_new(one, "money", pare_json_number(row->money));
    return one;
}

static json_t *wire_object(const pare_shop_wire *row)
{
    json_t *one = json_object();
    json_object_set_new(one, "gauge", pare_json_number(row->gauge));
    json_object_set_new(one, "needed_m", pare_json_number(row->needed_m));
    json_object_set_new(one, "ordered_m", pare_json_number(row->coming_m));
    json_object_set_new(one, "sold_m", json_integer(row->metres));
    json_object_set_new(one, "money", pare_json_number(row->money));
    return one;
}

json_t *pare_shopping_object(const pare_shopping *shopping, const char *money)
{
    json_t *object = json_object(), *parts = json_array(), *screws = json_array(),
           *wires = json_array(), *sellers = json_array();
    for (size_t i = 0; i < shopping->parts; i++)
        json_array_append_new(parts, part_object(&shopping->part[i]));
    for (size_t i = 0; i < shopping->screws; i++)
        json_array_append_new(screws, screws_object(&shopping->screw[i]));
    for (size_t i = 0; i < shopping->wires; i++)
        json_array_append_new(wires, wire_object(&shopping->wire[i]));
    for (size_t i = 0; i < shopping->sellers; i++) {
        const pare_shop_seller *seller = &shopping->seller[i];
        json_t *one = json_object();
        json_object_set_new(one, "seller", pare_text_or_null(seller->name));
        json_object_set_new(one, "goods_money", pare_json_number(seller->goods));
        json_object_set_new(one, "shipping_money", pare_json_number(seller->shipping));
        json_array_append_new(sellers, one);
    }
    json_object_set_new(object, "parts", parts);
    json_object_set_new(object, "screws", screws);
    json_object_set_new(object, "wires", wires);
    json_object_set_new(object, "sellers", sellers);
    json_object_set_new(object, "money", pare_json_number(shopping->money));
    json_object_set_new(object, "priced", json_boolean(shopping->priced));
    json_object_set_new(object, "money_unit", pare_text_or_null(money));
    return object;
}

static json_t *cut_object(const pare_cut *cut)
{
    json_t *one = json_object();
    json_object_set_new(one,
                        cut->of == PARE_CUT_WIRE   ? "run"
                        : cut->of == PARE_CUT_COAX ? "item"
                                                   : "joint",
                        json_string(cut->name));
    if (cut->of == PARE_CUT_SCREWS)
        screws_into(one, cut->standard, cut->nominal_m, cut->length_m, cut->material);
    else
        json_object_set_new(one, "length_mm", pare_json_number(1e3 * cut->length_m));
    if (cut->of == PARE_CUT_WIRE)
        json_object_set_new(one, "gauge", pare_json_number(cut->gauge));
    if (cut->of == PARE_CUT_COAX)
        json_object_set_new(one, "part", json_string(cut->part->id));
    json_object_set_new(one, "count", json_integer(cut->count));
    json_object_set_new(one, "out_of_mm",
                        cut->was_m > 0 ? pare_json_number(1e3 * cut->was_m) : json_null());
    return one;
}

json_t *pare_cutting_object(const pare_shopping *shopping)
{
    static const char *const names[] = {
        [PARE_CUT_WIRE] = "wires", [PARE_CUT_COAX] = "coax", [PARE_CUT_SCREWS] = "screws"};
    json_t *object = json_object();
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        json_object_set_new(object, names[i], json_array());
    for (size_t i = 0; i < shopping->cuts; i++)
        json_array_append_new(json_object_get(object, names[shopping->cut[i].of]),
                              cut_object(&shopping->cut[i]));
    return object;
}
