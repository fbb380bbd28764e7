/* best_state.c: one swap more on a craft, and the least that can still become of it (see best.h). */
#include <math.h>
#include <string.h>

#include "advise/best_inside.h"
#include "advise/chain.h"
#include "advise/fits.h"
#include "advise/stand_in.h"
#include "base/text.h"
#include "craft/arm_facts.h"

#define BIT(kind) (1u << (kind))

int64_t pare_best_100ug(const pare_assembly *assembly)
{
    int64_t units = 0;
    for (size_t i = 0; i < assembly->lines; i++)
        units += best_units(assembly->line[i].mass_kg.value);
    return units;
}

double pare_best_grams(int64_t mass_100ug)
{
    return 1e-4 * (double)mass_100ug;
}

/* ---- one swap more ---- */

/* What was to stay as it is, stays. */
static bool is_allowed(const best_search *search, const pare_craft *changed)
{
    const pare_craft *before = search->desk->craft;
    for (size_t h = 0; h < search->ask->holds; h++) {
        const char *held = search->ask->hold[h];
        const int was = pare_craft_item(before, held), is = pare_craft_item(changed, held);
        if (was >= 0 && (is < 0 || before->item[was].part != changed->item[is].part ||
                         before->item[was].off != changed->item[is].off ||
                         before->item[was].count != changed->item[is].count))
            return false;
    }
    return true;
}

static bool clashes(const best_state *from, const pare_swap_name *name, const pare_craft *after)
{
    for (size_t i = 0; i < from->swaps; i++)
        if (pare_swap_clash(&from->swap[i], name, &from->trial.changed, after, NULL) != PARE_OK)
            return true;
    return false;
}

/* Names are lent by the bench, so the same text is the same pointer. */
static bool same_joint(const pare_joint *a, const pare_joint *b)
{
    return a->name == b->name && a->standard == b->standard &&
           a->thread.nominal_m == b->thread.nominal_m && a->thread.pitch_m == b->thread.pitch_m &&
           a->length_m == b->length_m && a->across_m == b->across_m && a->tapped_m == b->tapped_m &&
           a->material == b->material && a->grade == b->grade && a->count == b->count &&
           a->holds == b->holds && a->into == b->into && a->engaged_m == b->engaged_m &&
           a->included_in == b->included_in && a->included_kg == b->included_kg &&
           a->at_given == b->at_given && a->at_m.x == b->at_m.x && a->at_m.y == b->at_m.y &&
           a->at_m.z == b->at_m.z && a->needed_m == b->needed_m && a->written_kg == b->written_kg &&
           a->weighed_kg == b->weighed_kg;
}

/* What is known of the parent's joints holds for those that are the same on the child. */
static void inherit_joints(const best_state *from, best_state *to)
{
    const pare_craft *was = &from->trial.changed, *is = &to->trial.changed;
    for (size_t i = 0, k = 0; i < is->joints; i++) {
        while (k < was->joints && was->joint[k].name != is->joint[i].name)
            k++;
        to->held[i] = k < was->joints && from->held[k] && same_joint(&was->joint[k], &is->joint[i]);
        to->held_least[i] = to->held[i] ? from->held_least[k] : 0;
        if (k == was->joints)
            k = 0;
    }
}

static bool same_run(const pare_run *a, const pare_run *b)
{
    bool same = a->name == b->name && a->gauge == b->gauge && a->outer_m == b->outer_m &&
                a->ways == b->ways && a->times == b->times && a->carries == b->carries &&
                a->included_in == b->included_in && a->included_kg == b->included_kg &&
                a->written_kg == b->written_kg && a->weighed_kg == b->weighed_kg;
    for (size_t i = 0; same && i < a->ways; i++)
        same = a->way_m[i] == b->way_m[i];
    return same;
}

/* What the flight asked of power wires says nothing of others, as parts bring them. */
static void forget_other_wires(const best_state *from, best_state *to)
{
    const pare_craft *was = &from->trial.changed, *is = &to->trial.changed;
    bool same = was->runs == is->runs;
    for (size_t i = 0; same && i < is->runs; i++)
        same = same_run(&was->run[i], &is->run[i]) ||
               (!pare_run_of_power(was, &was->run[i]) && !pare_run_of_power(is, &is->run[i]));
    if (!same)
        to->lead_least = to->power_least = INT64_MIN;
}

static void inherit_leasts(const best_state *from, best_state *to)
{
    memcpy(to->slot_least, from->slot_least, sizeof to->slot_least);
    to->lead_least = from->lead_least;
    to->power_least = from->power_least;
    to->lead_runs = from->lead_runs;
    to->power_runs = from->power_runs;
    to->calm = from->calm;
    to->put_on = from->put_on;
    to->moving = from->moving;
    to->shares = from->shares;
    to->most = from->most;
}

bool best_state_edit(const best_search *search, const best_state *from, const pare_swap_name *name,
                     best_state *to)
{
    pare_applied applied;
    if (from->swaps == PARE_BEST_SWAPS)
        return false;
    to->basket = from->basket;
    if (pare_swap_edit(&search->desk->shelf, &from->trial.changed, name, &to->trial.changed,
                       &applied, &to->basket, NULL) != PARE_OK)
        return false;
    if (applied.open_question || (applied.sought && !search->ask->sought) ||
        pare_kept_jobs_lost(search->desk->craft, &applied) != 0 ||
        clashes(from, name, &to->trial.changed) || !is_allowed(search, &to->trial.changed))
        return false;
    to->work = from->work;
    if (search->ask->most_work_min)
        pare_check_minutes(&from->trial.changed, &to->trial.changed, &to->work);
    memcpy(to->swap, from->swap, from->swaps * sizeof from->swap[0]);
    to->swap[from->swaps] = *name;
    to->swaps = from->swaps + 1;
    to->open = from->open;
    to->wires_open = from->wires_open;
    to->tail_open = from->tail_open;
    to->uneven_least = from->uneven_least;
    inherit_leasts(from, to);
    to->raised = from->raised;
    to->rough = false;
    inherit_joints(from, to);
    if (name->what == PARE_WHAT_ITEM)
        forget_other_wires(from, to);
    return true;
}

bool best_state_weigh(const best_search *search, best_state *state)
{
    if (pare_trial_weigh(search->desk, &state->trial, NULL) != PARE_OK)
        return false;
    state->units = pare_best_100ug(&state->trial.sheet.assembly);
    return true;
}

void best_state_copy(const best_search *search, const best_state *from, best_state *to)
{
    pare_craft_copy(&from->trial.changed, &to->trial.changed);
    to->trial.flown = &to->trial.changed;
    if (search->desk->loadout >= 0) {
        to->trial.flown = &to->trial.loaded;
        pare_craft_copy(&from->trial.loaded, &to->trial.loaded);
    }
    pare_sheet_copy(&from->trial.sheet, &to->trial.sheet);
    to->basket = from->basket;
    to->work = from->work;
    to->open = from->open;
    to->wires_open = from->wires_open;
    to->tail_open = from->tail_open;
    to->uneven_least = from->uneven_least;
    inherit_leasts(from, to);
    to->swaps = from->swaps;
    memcpy(to->swap, from->swap, from->swaps * sizeof from->swap[0]);
    memcpy(to->held, from->held, sizeof to->held);
    memcpy(to->held_least, from->held_least, sizeof to->held_least);
    to->units = from->units;
    to->rough = from->rough;
    to->sum = from->sum;
    to->either = from->either;
    to->linked = from->linked;
    to->tips_less = from->tips_less;
    to->raised = from->raised;
    to->least = from->least;
}

bool best_state_stands(const best_search *search, const best_state *state, size_t slot)
{
    const size_t item = search->slot[slot].item;
    const pare_item *now = &state->trial.changed.item[item];
    return !now->off && now->part == search->desk->craft->item[item].part;
}

bool best_state_choose(const best_search *search, const best_state *from, size_t slot,
                       const best_option *option, best_state *to)
{
    if (!option || !option->name)
        best_state_copy(search, from, to);
    else if (!best_state_edit(search, from, option->name, to) || !best_state_weigh(search, to))
        return false;
    to->open &= ~((uint64_t)1 << slot);
    if (option && option->name && option->part)
        to->put_on |= (uint64_t)1 << slot;
    best_state_bound(search, to);
    return true;
}

/* Where the brief asks that it weigh no less than something, what is lighter fails; as a sheet sums it. */
static int64_t asked_least(const pare_brief *brief)
{
    const pare_limit *limit = pare_brief_limit(brief, "all_up");
    return limit && limit->at_least ? best_units(limit->value) - BEST_ROUNDED : 0;
}

pare_status best_state_first(const best_search *search, best_state *state, pare_error *err)
{
    pare_craft_copy(search->desk->craft, &state->trial.changed);
    const pare_status status = pare_trial_weigh(search->desk, &state->trial, err);
    if (status != PARE_OK)
        return status;
    state->basket = (pare_basket){0};
    state->work = (pare_work_sum){0};
    state->open = search->all;
    state->wires_open = true;
    state->tail_open = true;
    state->uneven_least = 0;
    for (size_t s = 0; s < search->slots; s++) /* of what has no option, no set comes */
        state->slot_least[s] = search->slot[s].options > 0 ? search->slot[s].least : 0;
    state->lead_least = state->power_least = INT64_MIN;
    state->lead_runs = state->power_runs = 0;
    state->calm = state->moving = state->put_on = 0;
    state->shares.known = false;
    state->most = BEST_NO_BOUND;
    state->raised = asked_least(&search->desk->craft->brief);
    state->rough = false;
    memset(state->held, 0, sizeof state->held);
    state->swaps = 0;
    state->units = pare_best_100ug(&state->trial.sheet.assembly);
    best_state_bound(search, state);
    return PARE_OK;
}

/* Whether something else than two items does some work, or may yet. */
static bool is_done_elsewhere(const best_search *search, const best_state *state, size_t index,
                              size_t other, unsigned work)
{
    const pare_craft *craft = state->trial.flown;
    for (size_t i = 0; i < craft->items; i++) {
        const unsigned char slot = search->slot_of[i];
        unsigned may = craft->item[i].off ? 0 : pare_work_of(craft->item[i].part);
        if (slot != BEST_NONE && best_open(state, slot))
            may |= state->calm >> slot & 1 ? search->slot[slot].work_calm : search->slot[slot].work;
        if (i != index && i != other && (may & work))
            return true;
    }
    return false;
}

bool best_may_go(const best_search *search, const best_state *state, size_t slot)
{
    const best_slot *of = &search->slot[slot];
    return of->may_go && ((of->off_moves ? state->calm : state->moving) >> slot & 1) == 0 &&
           (!of->off_needs || is_done_elsewhere(search, state, of->item, of->item, of->off_needs));
}

/* A controller with its own ESCs takes off what has driven the motors, where that is one item: nothing is left to be
 * decided of it. */
static void settle_driven(const best_search *search, best_state *state, size_t driver)
{
    const pare_craft *craft = &state->trial.changed;
    size_t drive = 0;
    uint64_t driven = 0;
    for (size_t i = 0; i < craft->items; i++) {
        const unsigned char slot = search->slot_of[i];
        if (craft->item[i].off || !(pare_work_of(craft->item[i].part) & BIT(PARE_ESC_FOUR)) ||
            i == search->slot[driver].item)
            continue;
        drive++;
        driven |=
            slot != BEST_NONE && best_state_stands(search, state, slot) ? (uint64_t)1 << slot : 0;
    }
    if (drive == 1)
        state->open &= ~driven;
}

void best_set_class(const best_search *search, best_state *state, size_t slot, bool moves)
{
    *(moves ? &state->moving : &state->calm) |= (uint64_t)1 << slot;
    if (moves && search->slot[slot].moving_drives)
        settle_driven(search, state, slot);
}

/* ---- the bound ---- */

/* What is known of a state's open choices. */
typedef struct outlook {
    const best_search *search;
    const best_state *state;
    unsigned drags;   /* by open choices */
    unsigned twice;   /* of those, by two or more */
    uint64_t brings;  /* what they may bring, as best_brings() has it */
    bool moves_wires; /* an open choice does */
    bool moves_arms;  /* frame or motors are open */
} outlook;

static const best_slot *open_slot(const outlook *o, size_t item)
{
    const unsigned char slot = o->search->slot_of[item];
    return slot != BEST_NONE && best_open(o->state, slot) ? &o->search->slot[slot] : NULL;
}

static size_t place_of(const outlook *o, const best_slot *slot)
{
    return (size_t)(slot - o->search->slot);
}

static bool may_lie_idle(const pare_part *part)
{
    return pare_chain_links(part->kind) || pare_may_bridge(part, PARE_FIT_STACK) ||
           pare_may_bridge(part, PARE_FIT_CAMERA);
}

bool best_is_antenna_link(const pare_part *part)
{
    return pare_chain_links(part->kind) && (part->ends[0] || part->ends[1]);
}

/* A link that was put on by name stays where it is: what would take it off clashes with that name. */
bool best_is_kept_link(const best_search *search, const best_state *state, size_t slot)
{
    const pare_part *part = state->trial.flown->item[search->slot[slot].item].part;
    return (state->put_on >> slot & 1) && best_is_antenna_link(part);
}

/* Whether an open choice other than its own may take an item off or put another part in. */
static bool is_dragged(const outlook *o, size_t item)
{
    const pare_part *part = o->state->trial.flown->item[item].part;
    const best_slot *own = open_slot(o, item);
    const unsigned its = own ? best_drags(o->search, o->state, place_of(o, own)) : 0;
    if (((part->does | BIT(part->kind)) & ((o->drags & ~its) | o->twice)) == 0 ||
        (o->search->slot_of[item] != BEST_NONE &&
         best_is_kept_link(o->search, o->state, o->search->slot_of[item])))
        return false;
    if (part->kind == PARE_HOLDER || part->kind == PARE_PRINTED || part->kind == PARE_ADAPTER)
        return may_lie_idle(part);
    return true;
}

/* Whether what holds or serves an item may go or change with it. */
static bool is_shaky(const outlook *o, const char *name, bool threads)
{
    const int item = name ? pare_craft_item(o->state->trial.flown, name) : -1;
    if (item < 0)
        return false;
    const best_slot *slot = open_slot(o, (size_t)item);
    return is_dragged(o, (size_t)item) ||
           (slot && (best_may_go(o->search, o->state, place_of(o, slot)) ||
                     best_may_move(o->search, o->state, place_of(o, slot)) ||
                     (threads && slot->other_threads)));
}

static bool is_open(const outlook *o, const char *name)
{
    const int item = name ? pare_craft_item(o->state->trial.flown, name) : -1;
    return item >= 0 && open_slot(o, (size_t)item);
}

/* Whether it comes in a part that is open: then each option of that has been counted without it, or with the
 * least of it. */
static bool is_counted(const outlook *o, const char *included_in)
{
    const int item = included_in ? pare_craft_item(o->state->trial.flown, included_in) : -1;
    const best_slot *slot = item >= 0 ? open_slot(o, (size_t)item) : NULL;
    return slot && best_state_stands(o->search, o->state, place_of(o, slot));
}

static bool is_of_motors(const outlook *o, const char *name)
{
    const int item = name ? pare_craft_item(o->state->trial.flown, name) : -1;
    return item >= 0 && o->state->trial.flown->item[item].part->kind == PARE_MOTOR;
}

static outlook look(const best_search *search, const best_state *state)
{
    outlook o = {.search = search, .state = state};
    for (size_t s = 0; s < search->slots; s++)
        if (best_open(state, s)) {
            const unsigned drags = best_drags(search, state, s);
            o.twice |= o.drags & drags;
            o.drags |= drags;
            o.brings |= search->slot[s].brings;
            o.moves_wires = o.moves_wires || best_may_move(search, state, s);
        }
    o.moves_arms = (search->grouped[0] != BEST_NONE && best_open(state, search->grouped[0])) ||
                   (search->grouped[1] != BEST_NONE && best_open(state, search->grouped[1]));
    return o;
}

/* Whether a joint may be left out or be other screws once an open choice is made. */
static bool joint_is_shaky(const outlook *o, const pare_joint *joint)
{
    return is_shaky(o, joint->holds, true) || is_open(o, joint->included_in) ||
           (o->moves_arms && is_of_motors(o, joint->holds)) ||
           best_is_brought(o->search, o->brings, joint->name, joint->included_in);
}

static int64_t joint_least(const outlook *o, size_t index, int64_t units)
{
    const pare_joint *joint = &o->state->trial.flown->joint[index];
    if (is_counted(o, joint->included_in))
        return 0;
    if (o->state->tail_open && o->state->held[index])
        return o->state->held_least[index];
    const int64_t least =
        o->state->tail_open ? best_joint_least(o->search, o->state, index) : units;
    /* Thinner arms take shorter screws than these. */
    if (joint->included_in && o->moves_arms && is_of_motors(o, joint->holds))
        return best_units(-joint->included_kg) - 1;
    return least > 0 && joint_is_shaky(o, joint) ? 0 : least;
}

/* An ESC of another sort takes along what carries its current or came with it, and what went out once to
 * each of several; the motors' wires it only makes longer or shorter (esc.c). */
static bool moves_run(const outlook *o, const pare_run *run)
{
    const pare_craft *craft = o->state->trial.flown;
    const int owner = run->included_in ? pare_craft_item(craft, run->included_in) : -1;
    const int served = run->carries ? pare_craft_item(craft, run->carries) : -1;
    return is_of_motors(o, run->carries) || (owner >= 0 && is_dragged(o, (size_t)owner)) ||
           (served >= 0 && is_dragged(o, (size_t)served)) || (run->times > 1 && !run->included_in);
}

static bool run_is_shaky(const outlook *o, const pare_run *run)
{
    return (o->moves_wires && moves_run(o, run)) || is_shaky(o, run->carries, false) ||
           is_open(o, run->included_in) || (o->moves_arms && is_of_motors(o, run->carries)) ||
           best_is_brought(o->search, o->brings, run->name, run->included_in);
}

static int64_t run_least(const outlook *o, size_t index, int64_t units)
{
    const pare_run *run = &o->state->trial.flown->run[index];
    const bool open =
        pare_run_of_power(o->state->trial.flown, run) ? o->state->wires_open : o->state->tail_open;
    if (is_counted(o, run->included_in))
        return 0;
    /* On shorter arms motors are nearer, too. */
    const bool nearer = o->moves_wires || (o->moves_arms && is_of_motors(o, run->carries));
    const int64_t least = open ? best_run_least(o->search, o->state, index, nearer) : units;
    return run_is_shaky(o, run) && least > 0 ? 0 : least;
}

static int64_t coax_least(const outlook *o, const pare_item *item, int64_t units)
{
    const bool coax = item->part->kind == PARE_ANTENNA || item->part->kind == PARE_PIGTAIL;
    if (!o->state->tail_open || !coax || best_is_held(o->search, "", item->name, "length"))
        return units;
    pare_item cut = *item;
    cut.cut_length_m = pare_coax_choice_m(o->state->trial.flown, item);
    if (o->drags & BIT(PARE_PIGTAIL)) /* the chain may yet change, and with it how far it reaches */
        cut.cut_length_m = 15e-3;
    if (!(cut.cut_length_m > 0))
        return units;
    const int64_t least = best_units(item->count * fmax(pare_item_each_kg(&cut), 0));
    return least < units ? least : units;
}

/* Of an open choice's options that leave its item on, and are of the class that is decided. */
static int64_t least_on(const outlook *o, size_t place)
{
    const int64_t *on = o->search->slot[place].least_on;
    if (o->state->calm >> place & 1)
        return on[0];
    if (o->state->moving >> place & 1)
        return on[1];
    return on[0] < on[1] ? on[0] : on[1];
}

/* An open item's choice; it stays on where nothing else than one other item can do its work.
 * @param other  that item; its own: there is none */
static int64_t open_least(const outlook *o, const best_slot *slot, size_t other)
{
    const size_t place = place_of(o, slot);
    const int64_t least = o->state->slot_least[place], on = least_on(o, place);
    if (!slot->may_go || on <= least || on == BEST_NO_BOUND)
        return least;
    const bool goes = best_may_go(o->search, o->state, place) &&
                      (!slot->off_needs ||
                       is_done_elsewhere(o->search, o->state, slot->item, other, slot->off_needs));
    return goes ? least : on;
}

/* What an open choice's item counts: where another may take it off, nothing, or less than that where what came in it may
 * be cut by more than it weighs. */
static int64_t open_counts(const outlook *o, const best_slot *slot)
{
    const int64_t least = open_least(o, slot, slot->item);
    return least > 0 && is_dragged(o, slot->item) ? 0 : least;
}

static int64_t item_least(const outlook *o, size_t index, int64_t units)
{
    const pare_item *item = &o->state->trial.flown->item[index];
    const best_slot *slot = open_slot(o, index);
    if (slot)
        return open_counts(o, slot);
    return is_dragged(o, index) ? 0 : coax_least(o, item, units);
}

int64_t best_open_counts(const best_search *search, const best_state *state, size_t slot)
{
    const outlook o = look(search, state);
    return open_counts(&o, &search->slot[slot]);
}

bool best_is_dragged(const best_search *search, const best_state *state, const pare_part *part)
{
    const outlook o = look(search, state);
    return ((part->does | BIT(part->kind)) & o.drags) != 0;
}

bool best_joint_stands(const best_search *search, const best_state *state, size_t index)
{
    const outlook o = look(search, state);
    return !joint_is_shaky(&o, &state->trial.flown->joint[index]);
}

/* An ESC counts as nothing while a controller with its own may come and take it down. But then that
 * controller's grams are there, and otherwise the ESC's: the lesser of the two is missing from the sum. */
static int64_t esc_or_driver(const outlook *o)
{
    const pare_craft *craft = o->state->trial.flown;
    const int four = pare_craft_doing(craft, PARE_ESC_FOUR);
    const int esc = four >= 0 ? four : pare_craft_doing(craft, PARE_ESC_ONE);
    const best_slot *driver = NULL;
    for (size_t s = 0; esc >= 0 && s < o->search->slots; s++) {
        const best_slot *slot = &o->search->slot[s];
        if (!best_open(o->state, s) || slot->item == (size_t)esc ||
            (best_drags(o->search, o->state, s) & (BIT(PARE_ESC_FOUR) | BIT(PARE_ESC_ONE))) == 0)
            continue;
        if (driver || slot->least_driving == BEST_NO_BOUND || is_dragged(o, slot->item))
            return 0;
        driver = slot;
    }
    if (!driver || craft->item[esc].included_in || !is_dragged(o, (size_t)esc) ||
        craft->item[driver->item].off)
        return 0;
    const best_slot *slot = open_slot(o, (size_t)esc);
    const pare_item *item = &craft->item[esc];
    const int64_t weighs = slot ? open_least(o, slot, driver->item)
                                : best_units(item->count * item->part->mass_kg.value);
    const int64_t counted = o->state->slot_least[driver - o->search->slot];
    const bool drives = o->state->moving >> (driver - o->search->slot) & 1;
    const int64_t with_esc = driver->least_plain == BEST_NO_BOUND || weighs < 0 || drives
                                 ? BEST_NO_BOUND
                                 : driver->least_plain + weighs;
    const int64_t least = with_esc < driver->least_driving ? with_esc : driver->least_driving;
    return least > counted ? least - counted : 0;
}

typedef enum power_run { NO_POWER, LEAD, PHASE } power_run;

static power_run power_of(const outlook *o, const pare_run *run)
{
    if (!run->carries || !o->state->wires_open || run_is_shaky(o, run))
        return NO_POWER;
    return pare_same_name(run->carries, "pack") ? LEAD
           : is_of_motors(o, run->carries)      ? PHASE
                                                : NO_POWER;
}

bool best_run_gives(const best_search *search, const best_state *state, size_t run, bool *lead)
{
    const outlook o = look(search, state);
    const power_run of = power_of(&o, &state->trial.flown->run[run]);
    *lead = of == LEAD;
    return of != NO_POWER;
}

/* What the flight asks of power wires, beyond the least of each, where it was asked of these. */
static int64_t wires_more(const best_state *state, const int64_t least[], const size_t runs[])
{
    const bool known = state->lead_runs == runs[LEAD],
               all_known = state->power_runs == runs[LEAD] + runs[PHASE];
    const int64_t leads = least[LEAD], together = leads + least[PHASE];
    const int64_t by_leads = known && state->lead_least > leads ? state->lead_least - leads : 0;
    const int64_t by_all =
        all_known && state->power_least > together ? state->power_least - together : 0;
    return by_leads > by_all ? by_leads : by_all;
}

/* What sits further in counts less there than it weighs. */
static bool is_all_at_tips(const pare_item *item)
{
    return pare_item_at_tips(item) && !(item->along_arm < 1);
}

static int64_t line_least(const outlook *o, const pare_line *line)
{
    const int64_t units = best_units(line->mass_kg.value);
    switch (line->of) {
    case PARE_LINE_ITEM:
        return item_least(o, line->index, units);
    case PARE_LINE_JOINT:
        return joint_least(o, line->index, units);
    case PARE_LINE_RUN:
        return run_least(o, line->index, units);
    case PARE_LINE_UNLISTED:
        break;
    }
    return units;
}

void best_lines_least(const best_search *search, const best_state *state, int64_t least[PARE_LINES])
{
    const outlook o = look(search, state);
    const pare_assembly *assembly = &state->trial.sheet.assembly;
    for (size_t i = 0; i < assembly->lines; i++)
        least[i] = line_least(&o, &assembly->line[i]);
}

/* Whether a line's mass all swings at the tips of arms. */
static bool swings(const pare_craft *craft, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM    ? is_all_at_tips(&craft->item[line->index])
           : line->of == PARE_LINE_JOINT ? pare_joint_at_tips(craft, &craft->joint[line->index])
                                         : false;
}

void best_state_bound(const best_search *search, best_state *state)
{
    const outlook o = look(search, state);
    const pare_assembly *assembly = &state->trial.sheet.assembly;
    const pare_craft *craft = state->trial.flown;
    int64_t links = 0, kept = 0; /* of an antenna's chain: all, and of those what is kept */
    state->tips_less = 0;
    state->either = esc_or_driver(&o);
    int64_t least = state->either, of_power[] = {[NO_POWER] = 0, [LEAD] = 0, [PHASE] = 0};
    size_t runs[] = {[NO_POWER] = 0, [LEAD] = 0, [PHASE] = 0};
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const int64_t its = line_least(&o, line);
        least += its;
        if (swings(craft, line))
            state->tips_less += best_units(line->mass_kg.value) - its;
        if (line->of == PARE_LINE_ITEM && best_is_antenna_link(craft->item[line->index].part)) {
            const unsigned char slot = search->slot_of[line->index];
            links += its;
            kept += slot != BEST_NONE && best_is_kept_link(search, state, slot) ? its : 0;
        } else if (line->of == PARE_LINE_RUN) {
            const power_run power = power_of(&o, &craft->run[line->index]);
            of_power[power] += its;
            runs[power]++;
        }
    }
    if (state->wires_open)
        least += wires_more(state, of_power, runs);
    state->linked = best_link_more(search, state, links, kept);
    least += state->linked;
    state->sum = least;
    state->least = least > state->raised ? least : state->raised;
}

int64_t best_state_own(const best_search *search, const best_state *state, size_t item)
{
    const outlook o = look(search, state);
    const pare_craft *craft = state->trial.flown;
    const pare_assembly *assembly = &state->trial.sheet.assembly;
    const char *name = craft->item[item].name;
    const unsigned char slot = search->slot_of[item];
    const bool plugs = craft->item[item].part->kind == PARE_PACK && slot != BEST_NONE &&
                       (search->slot[slot].drags & BIT(PARE_CONNECTOR));
    int64_t least = 0;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const int64_t units = best_units(line->mass_kg.value);
        const size_t at = line->index;
        if (line->of == PARE_LINE_ITEM &&
            (at == item || (plugs && craft->item[at].part->kind == PARE_CONNECTOR)))
            least += item_least(&o, at, units);
        else if (line->of == PARE_LINE_JOINT && craft->joint[at].included_in &&
                 pare_same_name(craft->joint[at].included_in, name))
            least += joint_least(&o, at, units);
        else if (line->of == PARE_LINE_RUN && craft->run[at].included_in &&
                 pare_same_name(craft->run[at].included_in, name))
            least += run_least(&o, at, units);
    }
    return least;
}

bool best_loads_more(const best_search *search, const best_state *state, const best_state *there,
                     int64_t *more)
{
    const outlook o = look(search, state);
    const pare_assembly *all = &state->trial.sheet.assembly, *some = &there->trial.sheet.assembly;
    size_t k = 0;
    *more = 0;
    for (size_t i = 0; i < all->lines; i++) {
        const pare_line *line = &all->line[i], *its = &some->line[k];
        if (k == some->lines || line->of != its->of || line->index != its->index) {
            *more += line_least(&o, line);
            continue;
        }
        if (line->mass_kg.value != its->mass_kg.value ||
            (line->of == PARE_LINE_ITEM && state->trial.flown->item[line->index].part !=
                                               there->trial.flown->item[line->index].part))
            return false;
        k++;
    }
    return k == some->lines;
}

/* ---- screws that hold ---- */

void best_lightest(const best_search *search, const best_state *state, pare_craft *lightest)
{
    const outlook o = look(search, state);
    pare_craft_copy(state->trial.flown, lightest);
    for (size_t i = 0; i < lightest->items; i++) {
        pare_item *item = &lightest->item[i];
        const best_slot *slot = item->off ? NULL : open_slot(&o, i);
        if (item->off)
            continue;
        if (is_dragged(&o, i) || (slot && best_may_go(search, state, place_of(&o, slot)))) {
            item->off = true;
            continue;
        }
        for (int moves = 0; slot && moves < 2; moves++) {
            const pare_part *part = slot->lightest[moves];
            const uint64_t other = moves ? state->calm : state->moving;
            if (part && (other >> place_of(&o, slot) & 1) == 0 &&
                part->mass_kg.value < item->part->mass_kg.value)
                item->part = part;
        }
        if (slot && item->count > 1 && slot->counts_change)
            item->count = 1;
    }
}

typedef struct holding_ask {
    const best_search *search;
    const pare_craft *lightest;
    const pare_sheet *flown;
} holding_ask;

static bool holds(void *context, const pare_joint *joint)
{
    const holding_ask *ask = context;
    return best_screws_hold(ask->search, ask->lightest, ask->flown, joint, NULL);
}

void best_state_hold(const best_search *search, best_state *state, const pare_sheet *flown)
{
    pare_craft lightest;
    best_lightest(search, state, &lightest);
    holding_ask ask = {search, &lightest, flown};
    for (size_t i = 0; i < state->trial.flown->joints; i++) {
        if (!best_joint_stands(search, state, i))
            continue;
        const int64_t least = best_joint_least_of(search, state->trial.flown, i, holds, &ask);
        if (least == BEST_NO_BOUND)
            continue;
        state->held[i] = true;
        state->held_least[i] = least;
    }
    best_state_bound(search, state);
}
