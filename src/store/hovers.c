/* hovers.c: hovers whose output was read, in and out (see bench.h). */
#include <string.h>

#include "base/grow.h"
#include "store/bench.h"
#include "store/records.h"
#include "store/tree_edit.h"

static const char *share(pare_arena *arena, double value)
{
    return pare_arena_printf(arena, "%.10g %%", 100 * value);
}

static bool put_hover(pare_arena *arena, pare_node *map, const pare_craft *craft,
                      const pare_flight_record *hover)
{
    const char *loadout = hover->loadout >= 0 ? craft->loadout[hover->loadout].name : NULL;
    return pare_node_put_text(arena, map, "craft", craft->name) &&
           pare_node_put_text(arena, map, "date", hover->date) &&
           (!loadout || pare_node_put_text(arena, map, "loadout", loadout)) &&
           pare_node_put_text(arena, map, "flown", "hover") &&
           pare_node_put_text(arena, map, "output", share(arena, hover->output)) &&
           (!hover->promised ||
            pare_node_put_text(arena, map, "promise",
                               pare_arena_printf(arena, "%.1f %% .. %.1f %%", 100 * hover->low,
                                                 100 * hover->high)));
}

pare_status pare_store_add_hover(pare_store *store, const pare_craft *craft,
                                 const pare_flight_record *hover, const pare_change *change,
                                 pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_node *map = arena ? pare_node_made(arena, PARE_NODE_MAP, NULL, NULL) : NULL;
    const pare_status status =
        map && put_hover(arena, map, craft, hover)
            ? pare_records_add(store, PARE_RECORD_FLIGHT, 1, &map, arena, change, err)
            : pare_no_memory(err);
    pare_arena_close(arena);
    return status;
}

/* ---- out ---- */

/* What was checked as it came in, unless somebody meddled with it since. */
static bool read_hover(pare_units *units, const pare_node *doc, pare_arena *arena,
                       pare_hovered *hover)
{
    static const char *const keys[] = {"craft", "date", "output", "promise"};
    const char *text[PARE_COUNT(keys)];
    pare_error why;
    for (size_t i = 0; i < PARE_COUNT(keys); i++) {
        const pare_node *said = pare_node_get(doc, keys[i]);
        text[i] = said ? said->text : NULL;
        if (!text[i])
            return false;
    }
    *hover = (pare_hovered){.craft = pare_arena_text(arena, text[0]),
                            .date = pare_arena_text(arena, text[1])};
    return hover->craft && hover->date &&
           pare_quantity(units, text[2], PARE_DIM_SHARE, &hover->output, &why) == PARE_OK &&
           pare_range(units, text[3], PARE_DIM_SHARE, &hover->low, &hover->high, &why) == PARE_OK;
}

static pare_status read_rows(pare_store *store, pare_statement *statement, pare_units *units,
                             pare_arena *room, pare_arena *arena, size_t *count,
                             const pare_hovered **hover, pare_error *err)
{
    pare_hovered *list = NULL;
    size_t size = 0;
    pare_status status = PARE_OK;
    for (bool row = true; status == PARE_OK; pare_arena_clear(room)) {
        const pare_node *doc = NULL;
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        const char *text = pare_sql_text(statement, 0, room);
        status = text ? pare_tree_parse_map(text, strlen(text), store->path, room, &doc, err)
                      : pare_no_memory(err);
        if (status == PARE_OK) {
            list = pare_grown(arena, list, *count, &size, sizeof *list);
            status = list ? PARE_OK : pare_no_memory(err);
        }
        *count += status == PARE_OK && read_hover(units, doc, arena, &list[*count]);
    }
    *hover = list;
    return status;
}

pare_status pare_store_hovers(pare_store *store, pare_arena *arena, size_t *count,
                              const pare_hovered **hover, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_arena *room = pare_arena_open();
    pare_units *units = pare_units_open();
    *count = 0;
    pare_status status = room && units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_sql_prepare(
            store, &statement, err,
            "SELECT doc FROM flight WHERE doc LIKE '%promise:%' ORDER BY date, row", "");
    if (status == PARE_OK)
        status = read_rows(store, statement, units, room, arena, count, hover, err);
    pare_sql_finish(statement);
    pare_units_close(units);
    pare_arena_close(room);
    return status;
}
