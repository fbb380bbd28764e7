/* apply.c: a swap by its name, and several together (see swap.h).
 *
 * One function applies every swap, whoever asks: the list of swaps, a trial, a band. It changes a
 * copy and settles it, so that a swap that fails leaves the craft as it was. */
#include <stdio.h>
#include <string.h>

#include "advise/edit.h"

enum { MOST_TOGETHER = 48 };

pare_status pare_swap_edit(const pare_shelf *shelf, const pare_craft *before,
                           const pare_swap_name *name, pare_craft *changed, pare_applied *applied,
                           pare_basket *basket, pare_error *err)
{
    memset(applied, 0, sizeof *applied);
    memcpy(applied->id, name->id, sizeof applied->id);
    pare_craft_copy(before, changed);
    pare_edit edit = {shelf, before, changed, applied, basket};
    pare_status status = PARE_OK;
    switch (name->what) {
    case PARE_WHAT_ITEM:
        status = pare_apply_item(&edit, name, err);
        break;
    case PARE_WHAT_COAX_LENGTH:
        status = pare_apply_coax(&edit, name, err);
        break;
    case PARE_WHAT_JOINT_MATERIAL:
    case PARE_WHAT_JOINT_COUNT:
    case PARE_WHAT_JOINT_LENGTH:
    case PARE_WHAT_JOINT_STANDARD:
        status = pare_apply_joint(&edit, name, err);
        break;
    case PARE_WHAT_RUN_GAUGE:
    case PARE_WHAT_RUN_LENGTH:
        status = pare_apply_run(&edit, name, err);
        break;
    }
    if (status == PARE_OK)
        status = pare_craft_settle(changed, err);
    if (status != PARE_OK) {
        pare_within(err, "swap '%s'", name->id);
        return status;
    }
    applied->money = pare_basket_money(shelf->bench, basket, &applied->priced);
    return PARE_OK;
}

pare_status pare_swap_edit_alone(const pare_bench *bench, const pare_craft *before,
                                 const pare_swap_name *name, pare_craft *changed,
                                 pare_applied *applied, pare_basket *basket, pare_error *err)
{
    pare_shelf shelf;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? pare_shelf_fill(bench, arena, &shelf, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_swap_edit(&shelf, before, name, changed, applied, basket, err);
    pare_arena_close(arena);
    return status;
}

pare_status pare_swap_clash(const pare_swap_name *earlier, const pare_swap_name *later,
                            const pare_craft *before, const pare_craft *after, pare_error *err)
{
    if (strcmp(earlier->left, later->left) == 0)
        return pare_fail(err, PARE_UNKNOWN, "swaps '%s' and '%s' both set '%s'", earlier->id,
                         later->id, later->left);
    if (earlier->what != PARE_WHAT_ITEM && earlier->what != PARE_WHAT_COAX_LENGTH)
        return PARE_OK;
    const int then = pare_craft_item(before, earlier->of),
              now = pare_craft_item(after, earlier->of);
    if (strcmp(earlier->of, later->of) != 0 && then >= 0 && now >= 0 &&
        before->item[then].off != after->item[now].off)
        return pare_fail(err, PARE_UNKNOWN, "swaps '%s' and '%s' clash: the second takes '%s' %s",
                         earlier->id, later->id, earlier->of,
                         after->item[now].off ? "off" : "on again");
    return PARE_OK;
}

/* What applying one name or several needs, for as long as that takes. */
typedef struct tools {
    pare_units *units;
    pare_arena *arena; /* the shelf's */
    pare_shelf shelf;
} tools;

static pare_status take_tools(const pare_bench *bench, tools *t, pare_error *err)
{
    *t = (tools){.units = pare_units_open(), .arena = pare_arena_open()};
    if (!t->units || !t->arena)
        return pare_no_memory(err);
    return pare_shelf_fill(bench, t->arena, &t->shelf, err);
}

static void put_tools_back(tools *t)
{
    pare_units_close(t->units);
    pare_arena_close(t->arena);
}

pare_status pare_swap_apply(const pare_bench *bench, const pare_craft *craft, const char *id,
                            pare_craft *changed, pare_applied *applied, pare_error *err)
{
    tools t;
    pare_status status = take_tools(bench, &t, err);
    pare_swap_name name;
    if (status == PARE_OK)
        status = pare_swap_name_read(t.units, id, &name, err);
    pare_craft after;
    pare_applied unasked;
    pare_basket basket = {0};
    if (status == PARE_OK)
        status = pare_swap_edit(&t.shelf, craft, &name, &after, applied ? applied : &unasked,
                                &basket, err);
    if (status == PARE_OK)
        pare_craft_copy(&after, changed);
    put_tools_back(&t);
    return status;
}

/* Applies a name to the craft, unless it clashes with one before it. */
static pare_status add_swap(const pare_shelf *shelf, size_t count, const pare_swap_name names[],
                            const pare_swap_name *name, pare_craft *craft, pare_basket *basket,
                            pare_error *err)
{
    for (size_t i = 0; i < count; i++) {
        const pare_status status = pare_swap_clash(&names[i], name, craft, craft, err);
        if (status != PARE_OK)
            return status;
    }
    pare_craft after;
    pare_applied applied;
    pare_status status = pare_swap_edit(shelf, craft, name, &after, &applied, basket, err);
    for (size_t i = 0; status == PARE_OK && i < count; i++)
        status = pare_swap_clash(&names[i], name, craft, &after, err);
    if (status == PARE_OK)
        pare_craft_copy(&after, craft);
    return status;
}

pare_status pare_swap_apply_list(const pare_bench *bench, const pare_craft *craft, const char *list,
                                 pare_craft *changed, pare_error *err)
{
    tools t;
    pare_status status = take_tools(bench, &t, err);
    pare_swap_name names[MOST_TOGETHER];
    pare_craft now;
    pare_craft_copy(craft, &now);
    pare_basket basket = {0};
    size_t count = 0;
    while (status == PARE_OK && list) {
        if (count == MOST_TOGETHER) {
            status = pare_fail(err, PARE_UNKNOWN, "more than %d swaps at once", MOST_TOGETHER);
            break;
        }
        status = pare_swap_name_next(t.units, &list, &names[count], err);
        if (status == PARE_OK)
            status = add_swap(&t.shelf, count, names, &names[count], &now, &basket, err);
        count++;
    }
    put_tools_back(&t);
    if (status == PARE_OK)
        pare_craft_copy(&now, changed);
    return status;
}
