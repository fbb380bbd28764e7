/* source_words.c: see source_words.h.
 *
 * Thrust and power of the rotors are the doubt that all flight rests on, so a reader is told on the
 * first screen whether somebody measured them. A trial of another motor or propeller leaves the table of
 * the old pair behind; that is said too, as a part of the change is then the model's. */
#include "show/source_words.h"

#include <math.h>

#include "physics/pair.h"
#include "show/digits.h"
#include "show/json.h"

static const struct {
    const char *name, *words;
} sources[PARE_SOURCES] = {
    [PARE_FROM_SIZE] = {"size", "the model, the propeller by its size"},
    [PARE_FROM_LINE] = {"line", "the model, the propeller by its size and line"},
    [PARE_FROM_BLADE] = {"blade", "the model, the propeller by its measured blade"},
    [PARE_FROM_TUNNEL] = {"tunnel", "the propeller's wind-tunnel table"},
    [PARE_FROM_STAND] = {"stand", "the stand table of"},
};

/* The ids of the pair that is on. */
typedef struct pair_ids {
    const char *motor, *propeller;
} pair_ids;

static pair_ids ids_of(const pare_craft *craft)
{
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    const int propeller = pare_craft_doing(craft, PARE_PROPELLER);
    return (pair_ids){motor < 0 ? "" : craft->item[motor].part->id,
                      propeller < 0 ? "" : craft->item[propeller].part->id};
}

static pare_prop_doubt doubt_of(const pare_craft *craft, const pare_sheet *sheet)
{
    const pare_sheet_figure *hover = &sheet->figure[PARE_HOVER_RPM];
    pare_pair_doubt doubt;
    pare_rig_rotor_doubt(&sheet->rig, hover->exists ? hover->value : 0, false, 1, &doubt);
    const double *power = doubt.root[PARE_PAIR_POWER];
    if (pare_taught_applies(craft, sheet->rig.pair != NULL, PARE_TAUGHT_THRUST))
        return (pare_prop_doubt){pare_taught_u(craft->learned, PARE_TAUGHT_THRUST),
                                 pare_taught_u(craft->learned, PARE_TAUGHT_POWER), 0};
    const double u = hypot(power[0], power[1]);
    return (pare_prop_doubt){doubt.root[PARE_PAIR_THRUST][0], u, u > 0 ? power[0] / u : 0};
}

/* What is said of a table that is there and not used. */
static const char *fault_of(const pare_craft *craft)
{
    size_t found;
    const pare_stand_table *table = pare_craft_stands(craft, &found);
    for (size_t i = 0; i < found; i++)
        if (table[i].fault)
            return table[i].fault;
    return NULL;
}

static void put_from(const pare_sheet_view *view, pare_text *line)
{
    const pare_rig *rig = &view->sheet.rig;
    pare_text_printf(line, "from %s", sources[rig->rotor_source].words);
    if (rig->rotor_source != PARE_FROM_STAND)
        return;
    const pair_ids on = ids_of(&view->craft);
    char low[PARE_DIGITS], high[PARE_DIGITS];
    pare_text_printf(line, " %s with %s (", on.motor, on.propeller);
    if (rig->pair->high_v > 0)
        pare_text_printf(line, "%s to %s V, ", pare_digits_at(low, rig->pair->low_v, 1),
                         pare_digits_at(high, rig->pair->high_v, 1));
    pare_text_printf(line, "%zu row%s)", rig->pair->rows, rig->pair->rows == 1 ? "" : "s");
}

/* Flights come on top of that. */
static void put_taught(const pare_sheet_view *view, pare_text *line)
{
    const pare_taught *taught = view->craft.learned;
    if (pare_taught_applies(&view->craft, view->sheet.rig.pair != NULL, PARE_TAUGHT_THRUST))
        pare_text_printf(line, ", learned from %d flight%s and kept on %s", taught->flights,
                         taught->flights == 1 ? "" : "s", taught->date);
}

void pare_source_words(const pare_sheet_view *view, pare_text *line)
{
    const pare_prop_doubt doubt = doubt_of(&view->craft, &view->sheet);
    put_from(view, line);
    put_taught(view, line);
    pare_text_printf(line, ", uncertain by %.0f %% in thrust and %.0f %% in power",
                     100 * doubt.thrust_u, 100 * doubt.power_u);
    const char *fault = fault_of(&view->craft);
    if (fault)
        pare_text_printf(line, "; a stand table is not used: %s", fault);
    if (!view->tried)
        return;
    const pare_source_kind before = view->before.rig.rotor_source;
    if (before == PARE_FROM_STAND && !view->sheet.rig.pair) {
        const pair_ids was = ids_of(&view->craft_before);
        pare_text_printf(line, "; the stand table of %s with %s says nothing of this pair",
                         was.motor, was.propeller);
    }
    if (pare_taught_flew(&view->craft_before) && !pare_taught_flew(&view->craft)) {
        const pair_ids was = ids_of(&view->craft_before);
        pare_text_printf(line,
                         "; what flights taught of %s with %s, kept on %s, says nothing of this "
                         "pair, so that minutes, hover and thrust set the model alone against it",
                         was.motor, was.propeller, view->craft_before.learned->date);
    }
}

json_t *pare_source_object(const pare_sheet_view *view)
{
    const pare_rig *rig = &view->sheet.rig;
    const pair_ids on = ids_of(&view->craft);
    const pare_prop_doubt doubt = doubt_of(&view->craft, &view->sheet);
    pare_text line = {0};
    pare_source_words(view, &line);
    json_t *words = line.failed ? NULL : json_string(line.bytes), *object = json_object();
    pare_text_free(&line);
    if (json_object_set_new(object, "words", words) != 0) {
        json_decref(object);
        return NULL;
    }
    json_object_set_new(object, "from", json_string(sources[rig->rotor_source].name));
    json_object_set_new(object, "motor", json_string(on.motor));
    json_object_set_new(object, "propeller", json_string(on.propeller));
    json_object_set_new(object, "thrust_u", pare_json_number(doubt.thrust_u));
    json_object_set_new(object, "power_u", pare_json_number(doubt.power_u));
    if (rig->pair) {
        json_object_set_new(object, "rows", json_integer((json_int_t)rig->pair->rows));
        json_object_set_new(object, "low_v",
                            rig->pair->high_v > 0 ? pare_json_number(rig->pair->low_v)
                                                  : json_null());
        json_object_set_new(object, "high_v",
                            rig->pair->high_v > 0 ? pare_json_number(rig->pair->high_v)
                                                  : json_null());
    }
    return object;
}

json_t *pare_sources_object(const pare_sheet *sheet)
{
    json_t *object = json_object();
    const char *name = sources[sheet->rig.rotor_source].name;
    for (int f = PARE_HOVER_OUTPUT; f < PARE_FIGURES; f++)
        if (sheet->figure[f].exists && f != PARE_CRASH && f != PARE_PACK_ENERGY &&
            f != PARE_AIR_DENSITY && f != PARE_DENSITY_ALTITUDE)
            json_object_set_new(object, pare_figure_table[f].key, json_string(name));
    return object;
}
