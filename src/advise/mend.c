/* mend.c: what would make good what a swap breaks (see mend.h).
 *
 * A margin's name says what it is about, so a few further swaps are worth trying for each. They are
 * tried on the craft as the first swap leaves it, or in its place where they set the same thing; each is
 * judged by the whole sheet, and of those after which nothing breaks the lightest is told. Two that are
 * needed together are not looked for. */
#include "advise/mend.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/judge.h"
#include "advise/row.h"
#include "advise/screw_length.h"
#include "base/text.h"

enum {
    TRIES = 40,        /* of parts for one row */
    THICKEST_GAUGE = 8 /* that a craft of this size has any use for */
};

typedef struct mender {
    const pare_desk *desk;
    pare_units *units;
    pare_craft first; /* with the swap that breaks something */
    pare_swap_name name;
    pare_basket basket; /* what that asks to buy */
    pare_trial trial;
    pare_mend *best;
    const pare_part **sorted; /* room for every part of the bench */
    int tries;
} mender;

static bool starts(const char *text, const char *first, const char **rest)
{
    const size_t length = strlen(first);
    *rest = text + length;
    return strncmp(text, first, length) == 0;
}

/* Applies one more swap, or another instead, and keeps it where it mends and is the lightest so far. */
static void try_name(mender *m, const char *id, const pare_part *part)
{
    const pare_desk *desk = m->desk;
    pare_swap_name name;
    pare_applied applied;
    if (m->tries >= TRIES || pare_swap_name_read(m->units, id, &name, NULL) != PARE_OK ||
        strcmp(name.id, m->name.id) == 0)
        return;
    name.part = part;
    m->tries++;
    const bool instead = strcmp(name.left, m->name.left) == 0;
    const pare_craft *base = instead ? desk->craft : &m->first;
    pare_basket basket = instead ? (pare_basket){0} : m->basket;
    if ((!instead && pare_swap_clash(&m->name, &name, base, base, NULL) != PARE_OK) ||
        pare_swap_edit(&desk->shelf, base, &name, &m->trial.changed, &applied, &basket, NULL) !=
            PARE_OK ||
        pare_kept_jobs_lost(desk->craft, &applied) != 0 || applied.open_question ||
        pare_trial_weigh(desk, &m->trial, NULL) != PARE_OK)
        return;
    const double saved_kg =
        desk->sheet.figure[PARE_ALL_UP].value - m->trial.sheet.figure[PARE_ALL_UP].value;
    if (saved_kg <= (m->best->found ? m->best->grams_kg : 0))
        return;
    if (pare_trial_breaks(desk, &m->trial))
        return;
    m->best->found = true;
    m->best->instead = instead;
    memcpy(m->best->id, name.id, sizeof name.id);
    m->best->grams_kg = saved_kg;
    m->best->money = pare_basket_money(desk->shelf.bench, &basket, &m->best->priced);
}

static int lighter_first(const void *a, const void *b)
{
    const pare_part *const *one = a, *const *other = b;
    const double one_kg = (*one)->mass_kg.value, other_kg = (*other)->mass_kg.value;
    if (one_kg != other_kg)
        return one_kg < other_kg ? -1 : 1;
    return strcmp((*one)->id, (*other)->id);
}

/* The other parts for an item, lightest first, so that the first that bears is the lightest. */
static void try_parts(mender *m, int index)
{
    if (index < 0)
        return;
    const pare_item *item = &m->first.item[index];
    size_t count;
    const pare_part *const *shelf = pare_shelf_row(&m->desk->shelf, item->part->kind, &count);
    memcpy(m->sorted, shelf, count * sizeof shelf[0]);
    qsort(m->sorted, count, sizeof m->sorted[0], lighter_first);
    for (size_t i = 0; i < count && !m->best->found; i++) {
        char id[192];
        snprintf(id, sizeof id, "%s=%s", item->name, m->sorted[i]->id);
        if (m->sorted[i] != item->part)
            try_name(m, id, m->sorted[i]);
    }
}

static void try_kind(mender *m, pare_kind kind)
{
    try_parts(m, pare_craft_doing(&m->first, kind));
}

static void try_wire(mender *m, const char *run)
{
    const int index = pare_craft_run(&m->first, run);
    if (index < 0)
        return;
    const int now = (int)m->first.run[index].gauge;
    for (int gauge = 2 * ((now - 1) / 2); gauge >= THICKEST_GAUGE; gauge -= 2) {
        char id[192];
        snprintf(id, sizeof id, "run.%s.gauge=%d", run, gauge);
        try_name(m, id, NULL);
    }
}

static void try_screws(mender *m, const char *name)
{
    const int index = pare_craft_joint(&m->first, name);
    if (index < 0)
        return;
    static const pare_screw_material stronger[] = {PARE_ALUMINIUM_7075, PARE_TITANIUM, PARE_STEEL};
    const pare_joint *joint = &m->first.joint[index];
    char id[192];
    for (size_t i = 0; i < sizeof stronger / sizeof stronger[0]; i++) {
        snprintf(id, sizeof id, "joint.%s.material=%s", name,
                 pare_screw_material_name(stronger[i]));
        if (stronger[i] != joint->material)
            try_name(m, id, NULL);
    }
    const int was = pare_craft_joint(m->desk->craft, name);
    const int holes = was >= 0 ? m->desk->craft->joint[was].count : 0;
    for (int count = joint->count + 1; count < holes; count++) {
        snprintf(id, sizeof id, "joint.%s.count=%d", name, count);
        try_name(m, id, NULL);
    }
}

static void try_length(mender *m, const char *name)
{
    const int index = pare_craft_joint(&m->first, name);
    const double best_m =
        index < 0 ? 0 : pare_screw_length_best_m(&m->first, &m->first.joint[index]);
    char id[192];
    if (!(best_m > 0))
        return;
    snprintf(id, sizeof id, "joint.%s.length=%.0fmm", name, 1e3 * best_m);
    try_name(m, id, NULL);
}

static void try_for(mender *m, const char *margin)
{
    static const struct {
        const char *first;
        pare_kind kind[2];
    } kinds[] = {{"esc.", {PARE_ESC_FOUR, PARE_ESC_ONE}},
                 {"motor.", {PARE_PROPELLER, PARE_MOTOR}},
                 {"pack.", {PARE_PACK, PARE_PROPELLER}},
                 {"limit.", {PARE_PACK, PARE_PROPELLER}}};
    static const char *const wires[] = {"wire_joint.", "wire_burst.", "wire_drop."};
    static const char *const screws[] = {"joint_flight.", "joint_crash."};
    const char *rest;
    for (size_t i = 0; i < sizeof wires / sizeof wires[0]; i++)
        if (starts(margin, wires[i], &rest))
            try_wire(m, rest);
    for (size_t i = 0; i < sizeof screws / sizeof screws[0]; i++)
        if (starts(margin, screws[i], &rest))
            try_screws(m, rest);
    if (starts(margin, "screw_depth.", &rest) || starts(margin, "screw_grip.", &rest))
        try_length(m, rest);
    if (starts(margin, "volts.", &rest) || starts(margin, "volts_low.", &rest))
        try_parts(m, pare_craft_item(&m->first, rest));
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (starts(margin, kinds[i].first, &rest))
            for (int k = 0; k < 2; k++)
                try_kind(m, kinds[i].kind[k]);
}

static void mend_row(mender *m, const pare_swap *row, pare_mend *mend)
{
    pare_applied applied;
    m->best = mend;
    m->tries = 0;
    m->basket = (pare_basket){0};
    mend->sought = true;
    if (pare_swap_name_read(m->units, row->applied.id, &m->name, NULL) != PARE_OK ||
        pare_swap_edit(&m->desk->shelf, m->desk->craft, &m->name, &m->first, &applied, &m->basket,
                       NULL) != PARE_OK)
        return;
    for (size_t i = 0; i < row->breaks; i++)
        try_for(m, row->broken[i]);
}

pare_status pare_mends_find(const pare_bench *bench, const pare_craft *craft, int loadout,
                            const pare_swaps *swaps, size_t most, pare_arena *arena,
                            const pare_mend **mend, pare_error *err)
{
    pare_desk *desk;
    pare_mend *made = pare_arena_zeros(arena, (swaps->count + 1) * sizeof *made);
    mender *m = calloc(1, sizeof *m);
    const pare_part **sorted = calloc(bench->parts + 1, sizeof sorted[0]);
    pare_units *units = pare_units_open();
    pare_status status = made && m && sorted && units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_desk_open(bench, craft, loadout, arena, &desk, err);
    if (status == PARE_OK) {
        m->desk = desk;
        m->units = units;
        m->sorted = sorted;
        size_t looked = 0;
        for (size_t i = 0; i < swaps->count && looked < most; i++) {
            const pare_swap *row = &swaps->swap[i];
            if (row->breaks == 0 || row->applied.sought ||
                pare_kept_jobs_lost(craft, &row->applied) != 0)
                continue;
            looked++;
            mend_row(m, row, &made[i]);
        }
        *mend = made;
    }
    pare_units_close(units);
    free(sorted);
    free(m);
    return status;
}
