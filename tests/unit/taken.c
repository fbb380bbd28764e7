/* rooms: store advise craft physics base */
/* taken.c: swaps taken on a craft: the craft as built against the trial, what is frozen, the order,
 * what is refused, and what the store keeps of it. The truth is the trial of the same swaps, which other
 * tests hold against closed forms. */
#include "swap_fixture.h"

#include <math.h>

#include "advise/take.h"
#include "advise/taken.h"

typedef struct days {
    const char *date[PARE_STAGES];
} days;

static const days CHOSEN = {{"2024-03-01"}}, ORDERED = {{NULL, "2024-03-02"}},
                  FITTED = {{NULL, NULL, "2024-03-05"}};

static pare_taking taking;
static pare_craft work, built;

static pare_status take(fixture *f, const pare_craft *craft, const char *list, days when)
{
    f->err = (pare_error){0};
    return pare_take(f->bench, craft, list, when.date, f->arena, &taking, &f->err);
}

/* The craft as first described with the list of the last taking. */
static void keep(const pare_craft *craft)
{
    if (craft != &work)
        work = *craft;
    work.takens = taking.count;
    memcpy(work.taken, taking.taken, sizeof work.taken);
}

static void takes(fixture *f, const pare_craft *craft, const char *list, days when)
{
    if (take(f, craft, list, when) != PARE_OK)
        fail_msg("%s: %s", list, f->err.text);
    keep(craft);
}

static void takes_not(fixture *f, const pare_craft *craft, const char *list, days when,
                      pare_status status, const char *message)
{
    assert_int_equal(take(f, craft, list, when), status);
    assert_string_equal(f->err.text, message);
}

static void builds(fixture *f, const pare_bench *bench, const pare_craft *craft)
{
    if (pare_taken_as_built(bench, craft, &built, NULL, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
}

/* Two craft in every loadout, bit for bit. */
static void assert_same_craft(fixture *f, const pare_craft *a, const pare_craft *b)
{
    for (int loadout = -1; loadout < (int)a->loadouts; loadout++) {
        assert_int_equal(pare_craft_load(a, loadout, &f->loaded, &f->err), PARE_OK);
        weigh(&f->loaded, &f->sheet);
        assert_int_equal(pare_craft_load(b, loadout, &f->loaded, &f->err), PARE_OK);
        weigh(&f->loaded, &f->other);
        assert_true(same_sheets(&f->sheet, &f->other));
    }
}

static void each_swap_fitted_gives_the_craft_of_its_trial_bit_for_bit(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    assert_int_equal(
        pare_swaps_find(f->bench, f->craft, -1, PARE_WISH_GRAMS, f->arena, &swaps, &f->err),
        PARE_OK);
    size_t tried_count = 0;
    for (size_t i = 0; i < swaps.count; i++) {
        const char *id = swaps.swap[i].applied.id;
        if (swaps.swap[i].applied.sought)
            continue;
        tried(f, id);
        takes(f, f->craft, id, FITTED);
        builds(f, f->bench, &work);
        assert_same_craft(f, &built, &f->changed);
        tried_count++;
    }
    assert_true(tried_count > 20);
}

/* All of the demo's craft, whose swaps bring and drop more. */
static void each_swap_of_the_demo_fitted_gives_the_craft_of_its_trial(void **state)
{
    fixture *f = *state;
    const pare_import import = {.path = PARE_SOURCE_DIR "/demo/bench.yaml", .empty_first = true};
    pare_import_summary summary = {0};
    assert_int_equal(pare_store_import_yaml(f->store, &import, f->arena, &summary, &f->err),
                     PARE_OK);
    pare_bench_close(f->bench);
    assert_int_equal(pare_store_read(f->store, &f->bench, &f->err), PARE_OK);
    assert_int_equal(pare_store_warm(f->store, f->bench, &f->err), PARE_OK);
    size_t brought = 0;
    for (size_t c = 0; c < f->bench->crafts; c++) {
        f->craft = f->bench->craft[c];
        pare_swaps swaps;
        assert_int_equal(
            pare_swaps_find(f->bench, f->craft, 0, PARE_WISH_GRAMS, f->arena, &swaps, &f->err),
            PARE_OK);
        for (size_t i = 0; i < swaps.count; i++) {
            if (swaps.swap[i].applied.sought)
                continue;
            tried(f, swaps.swap[i].applied.id);
            takes(f, f->craft, swaps.swap[i].applied.id, FITTED);
            builds(f, f->bench, &work);
            assert_same_craft(f, &built, &f->changed);
            brought += work.taken[0].brings;
        }
    }
    assert_true(brought > 10);
}

static void several_fitted_swaps_give_the_craft_of_their_trial_in_their_order(void **state)
{
    fixture *f = *state;
    static const char list[] = "motor=mo-b,antenna=an-snap,bumper=off,esc=es-20,"
                               "joint.motor_base.material=titanium,run.lead.length=90mm";
    assert_int_equal(pare_swap_apply_list(f->bench, f->craft, list, &f->changed, &f->err), PARE_OK);
    takes(f, f->craft, list, FITTED);
    assert_int_equal(taking.count, 6);
    assert_string_equal(work.taken[0].swap, "motor=mo-b");
    builds(f, f->bench, &work);
    assert_same_craft(f, &built, &f->changed);
}

static void what_is_only_chosen_or_ordered_is_planned_and_not_on_the_craft(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "bumper=off", CHOSEN);
    takes(f, &work, "motor=mo-b", ORDERED);
    builds(f, f->bench, &work);
    assert_same_craft(f, &built, f->craft);
    assert_int_equal(
        pare_swap_apply_list(f->bench, f->craft, "bumper=off,motor=mo-b", &f->changed, &f->err),
        PARE_OK);
    assert_int_equal(pare_taken_as_planned(f->bench, &work, &built, NULL, &f->err), PARE_OK);
    assert_same_craft(f, &built, &f->changed);
    pare_taken_facts facts;
    assert_int_equal(pare_taken_facts_fill(f->bench, &work, -1, &facts, &f->err), PARE_OK);
    assert_int_equal(facts.on, 0);
    assert_int_equal(facts.chosen, 1);
    assert_int_equal(facts.ordered, 1);
    weigh(&f->changed, &f->sheet);
    assert_true(same_bits(facts.planned_kg, f->sheet.figure[PARE_ALL_UP].value));
}

static void what_goes_on_first_stands_first(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "bumper=off,motor=mo-b,antenna=an-snap", CHOSEN);
    takes(f, &work, "antenna=an-snap", FITTED);
    assert_string_equal(work.taken[0].swap, "antenna=an-snap");
    assert_string_equal(work.taken[1].swap, "bumper=off");
    takes(f, &work, "motor=mo-b", FITTED);
    assert_string_equal(work.taken[0].swap, "antenna=an-snap");
    assert_string_equal(work.taken[1].swap, "motor=mo-b");
    assert_string_equal(work.taken[2].swap, "bumper=off");
    assert_string_equal(work.taken[1].date[PARE_STAGE_CHOSEN], "2024-03-01");
    assert_int_equal(taking.was[0], 0);
    assert_int_equal(taking.was[1], 2);
    assert_int_equal(taking.was[2], 1);
}

/* A promise is the row of the swap on the craft as it then is. */
static void the_promise_is_what_the_swap_changes_then_and_stays(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "motor=mo-b", FITTED);
    builds(f, f->bench, &work);
    pare_swaps swaps;
    assert_int_equal(
        pare_swaps_find(f->bench, &built, 0, PARE_WISH_GRAMS, f->arena, &swaps, &f->err), PARE_OK);
    const pare_swap *row = row_of(&swaps, "bumper=off");
    assert_non_null(row);
    takes(f, &work, "bumper=off", CHOSEN);
    const pare_taken *taken = &work.taken[1];
    for (int k = 0; k < PARE_FIGURES; k++) {
        if (k == PARE_CG_X || k == PARE_CG_Y || k == PARE_CG_Z)
            continue;
        const double promised = pare_taken_promised(taken, pare_figure_table[k].key);
        const double change = pare_figure_table[k].scale * row->change[k];
        assert_true(isnan(change) ? isnan(promised) : same_bits(promised, change));
    }
    assert_true(same_bits(pare_taken_promised(taken, "all_up_g_u"), 1e3 * row->grams_u_kg));
    const pare_promised *was = taken->promise;
    takes(f, &work, "bumper=off", FITTED);
    assert_ptr_equal(work.taken[1].promise, was);
}

/* ---- what came along ---- */

#define SOLDERED                                                                                   \
    "pare: 1\nparts:\n- {id: an-wire, kind: antenna, mass: 1.5 g, spec: {hand: right, band: 5.8 "  \
    "GHz}, fits: {antenna: solder}}\n"                                                             \
    "- {id: ad-heavy, kind: adapter, mass: 1.2 g, spec: {ends: [snap, solder]}}\n"
#define LIGHTER                                                                                    \
    "pare: 1\nparts:\n- {id: ad-light, kind: adapter, mass: 0.4 g, spec: {ends: [snap, "           \
    "solder]}}\n"

static void add(fixture *f, const char *text)
{
    const pare_import import = {.bytes = text, .length = strlen(text), .name = "more.yaml"};
    pare_import_summary summary = {0};
    if (pare_store_import_yaml(f->store, &import, f->arena, &summary, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
}

static void read_again(fixture *f)
{
    pare_bench_close(f->bench);
    if (pare_store_read(f->store, &f->bench, &f->err) != PARE_OK ||
        pare_store_warm(f->store, f->bench, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
    f->craft = pare_bench_craft(f->bench, "mule");
}

static pare_status store(fixture *f, size_t were)
{
    const pare_taken_list list = {
        .were = were, .count = taking.count, .taken = taking.taken, .was = taking.was};
    const pare_change change = {.what = "take mule", .why = "it drags"};
    f->err = (pare_error){0};
    return pare_store_set_taken(f->store, "mule", &list, &change, &f->err);
}

static void stores(fixture *f, size_t were)
{
    if (store(f, were) != PARE_OK)
        fail_msg("%s", f->err.text);
}

static void a_lighter_adapter_on_the_bench_does_not_move_what_was_built(void **state)
{
    fixture *f = *state;
    add(f, SOLDERED);
    read_again(f);
    tried(f, "antenna=an-wire");
    assert_true(among(f->applied.brings, f->applied.bring, "ad-heavy"));
    takes(f, f->craft, "antenna=an-wire", FITTED);
    assert_int_equal(work.taken[0].brings, 1);
    assert_string_equal(work.taken[0].bring[0]->id, "ad-heavy");
    stores(f, 0);
    builds(f, f->bench, &work);
    weigh(&built, &f->other);
    const pare_sheet as_it_was = f->other;
    add(f, LIGHTER);
    read_again(f);
    /* Taken today, the same swap would bring the lighter one. */
    pare_craft first = *f->craft;
    first.takens = 0;
    f->craft = &first;
    tried(f, "antenna=an-wire");
    assert_true(among(f->applied.brings, f->applied.bring, "ad-light"));
    f->craft = pare_bench_craft(f->bench, "mule");
    builds(f, f->bench, f->craft);
    weigh(&built, &f->sheet);
    assert_true(same_sheets(&f->sheet, &as_it_was));
    /* And the quick way to one craft reads what came along. */
    pare_bench *alone = NULL;
    assert_int_equal(pare_store_read_craft(f->store, "mule", &alone, &f->err), PARE_OK);
    assert_non_null(pare_bench_part(alone, "ad-heavy"));
    assert_non_null(pare_bench_part(alone, "an-wire"));
    assert_null(pare_bench_part(alone, "ad-light"));
    assert_int_equal(pare_store_warm(f->store, alone, &f->err), PARE_OK);
    builds(f, alone, pare_bench_craft(alone, "mule"));
    weigh(&built, &f->sheet);
    assert_true(same_sheets(&f->sheet, &as_it_was));
    pare_bench_close(alone);
}

static void what_is_chosen_looks_for_its_company_once_more_when_it_goes_on(void **state)
{
    fixture *f = *state;
    add(f, SOLDERED);
    read_again(f);
    takes(f, f->craft, "antenna=an-wire", CHOSEN);
    assert_string_equal(work.taken[0].bring[0]->id, "ad-heavy");
    stores(f, 0);
    add(f, LIGHTER);
    read_again(f);
    takes(f, f->craft, "antenna=an-wire", FITTED);
    assert_int_equal(work.taken[0].brings, 1);
    assert_string_equal(work.taken[0].bring[0]->id, "ad-light");
    stores(f, 1);
    read_again(f);
    assert_string_equal(f->craft->taken[0].bring[0]->id, "ad-light");
}

/* The board with ESCs sends the craft's own home; with one that has none it is back, and is noted as any other
 * part that came. */
static void what_comes_back_is_noted_like_what_comes(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "brain=fe-a", FITTED);
    assert_int_equal(work.taken[0].brings, 0);
    takes(f, &work, "brain=fc-a", FITTED);
    assert_int_equal(work.taken[1].brings, 1);
    assert_string_equal(work.taken[1].bring[0]->id, "es-a");
}

/* ---- refusals ---- */

#define ITEMS                                                                                      \
    "frame, motor, propeller, esc, brain, capacitor, pack, camera, video, pigtail, elbow, "        \
    "antenna, mount, bumper, receiver"

static void what_cannot_be_taken_is_said_in_one_line(void **state)
{
    fixture *f = *state;
    takes_not(f, f->craft, "bumper=off,bumper", CHOSEN, PARE_UNKNOWN,
              "'bumper' is no swap: write WHAT=VALUE, such as bumper=off or "
              "joint.motor_base.material=titanium");
    takes_not(f, f->craft, "bumpr=off", CHOSEN, PARE_UNKNOWN,
              "swap 'bumpr=off': craft 'mule' has no item 'bumpr'; did you mean 'bumper'?");
    takes_not(
        f, f->craft, "motor=sought-29g", CHOSEN, PARE_BAD_DATA,
        "swap 'motor=sought-29g' rests on a part that is on no shelf: find one, put it on the "
        "bench, and take that");
    takes_not(f, f->craft, "motor=mo-a", CHOSEN, PARE_BAD_DATA,
              "swap 'motor=mo-a' changes nothing: it is mo-a already");
    takes_not(f, f->craft, "motor=mo-shaft", CHOSEN, PARE_BAD_DATA,
              "swap 'motor=mo-shaft': propeller 'pr-a' has shaft M5, motor 'mo-shaft' M2");
    takes_not(f, f->craft, "", CHOSEN, PARE_UNKNOWN,
              "an empty list of swaps; right would be like bumper=off,skid=off");
    const days backwards = {{"2024-03-02", "2024-03-01"}};
    takes_not(f, f->craft, "bumper=off", backwards, PARE_BAD_DATA,
              "swap 'bumper=off': ordered on 2024-03-01, but chosen on 2024-03-02; right would be "
              "that day or a later one");
    takes(f, f->craft, "motor=mo-b", CHOSEN);
    takes_not(f, &work, "motor=mo-b", CHOSEN, PARE_BAD_DATA,
              "swap 'motor=mo-b' is chosen already, since 2024-03-01; --ordered DATE moves it on, "
              "--leave takes it off the list");
    takes_not(f, &work, "motor=mo-boast", CHOSEN, PARE_UNKNOWN,
              "swap 'motor=mo-boast' clashes with 'motor=mo-b', which is chosen: both set 'motor'; "
              "fit that first, or take it off the list with --leave");
    const days early = {{NULL, NULL, "2024-02-01"}};
    takes_not(f, &work, "motor=mo-b", early, PARE_BAD_DATA,
              "swap 'motor=mo-b': fitted on 2024-02-01, but chosen on 2024-03-01; right would be "
              "that day or a later one");
    takes_not(f, &work, "bumper=off,bumper=off", FITTED, PARE_UNKNOWN,
              "swap 'bumper=off' stands in the list twice");
}

static void what_was_fitted_may_be_exchanged_again_and_again(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "motor=mo-b", FITTED);
    takes(f, &work, "motor=mo-boast", FITTED);
    takes(f, &work, "motor=mo-b", FITTED);
    assert_int_equal(work.takens, 3);
    builds(f, f->bench, &work);
    tried(f, "motor=mo-b");
    assert_same_craft(f, &built, &f->changed);
}

static void a_swap_that_another_rests_on_stays(void **state)
{
    fixture *f = *state;
    add(f, SOLDERED);
    read_again(f);
    takes(f, f->craft, "antenna=an-wire", CHOSEN);
    takes(f, &work, "antenna_adapter=off", CHOSEN); /* what the first one brings */
    takes_not(
        f, &work, "antenna_adapter=off", FITTED, PARE_UNKNOWN,
        "swap 'antenna_adapter=off': craft 'mule' has no item 'antenna_adapter'; there are " ITEMS);
    const pare_craft both = work;
    assert_int_equal(
        pare_take_leave(f->bench, &both, "antenna=an-wire", f->arena, &taking, &f->err),
        PARE_UNKNOWN);
    assert_string_equal(f->err.text,
                        "with that, 'antenna_adapter=off', chosen earlier, does not go on: swap "
                        "'antenna_adapter=off': craft 'mule' has no item 'antenna_adapter'; there "
                        "are " ITEMS);
    assert_int_equal(
        pare_take_leave(f->bench, &both, "antenna_adapter=off", f->arena, &taking, &f->err),
        PARE_OK);
    assert_int_equal(taking.count, 1);
}

static void what_is_fitted_may_spoil_a_plan(void **state)
{
    fixture *f = *state;
    pare_taken_facts facts;
    takes(f, f->craft, "elbow=off", CHOSEN);
    takes_not(f, &work, "antenna=an-snap", FITTED, PARE_UNKNOWN,
              "swaps 'elbow=off' and 'antenna=an-snap' clash: the second takes 'elbow' off; fit "
              "'elbow=off' first, or take it off the list with --leave");
    takes(f, &work, "antenna=an-snap", CHOSEN);
    assert_int_equal(pare_taken_facts_fill(f->bench, &work, -1, &facts, &f->err), PARE_OK);
    assert_true(facts.planned);
    /* It was done the other way round. */
    takes(f, &work, "antenna=an-snap", FITTED);
    assert_int_equal(pare_taken_facts_fill(f->bench, &work, -1, &facts, &f->err), PARE_OK);
    assert_false(facts.planned);
    assert_string_equal(facts.why, "swap 'elbow=off': item 'elbow' is off already");
    const pare_craft both = work;
    assert_int_equal(pare_take_leave(f->bench, &both, "elbow=off", f->arena, &taking, &f->err),
                     PARE_OK);
}

static void only_what_is_not_on_yet_can_be_left(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "bumper=off,joint.motor_base.material=titanium", FITTED);
    takes(f, &work, "motor=mo-b,camera=ca-19", CHOSEN);
    static const struct {
        const char *list;
        pare_status status;
        const char *message;
    } cases[] = {
        {"bumper=off", PARE_BAD_DATA,
         "swap 'bumper=off' is on the craft; right would be to take another in its place, "
         "bumper=bu-a"},
        {"joint.motor_base.material=titanium", PARE_BAD_DATA,
         "swap 'joint.motor_base.material=titanium' is on the craft; right would be to take "
         "another "
         "in its place, joint.motor_base.material=steel"},
        {"motor=mo-c", PARE_UNKNOWN, "swap 'motor=mo-c' is not taken; did you mean 'motor=mo-b'?"},
        {"elbow=off", PARE_UNKNOWN, "swap 'elbow=off' is not taken; pare take mule lists what is"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        f->err = (pare_error){0};
        assert_int_equal(
            pare_take_leave(f->bench, &work, cases[i].list, f->arena, &taking, &f->err),
            cases[i].status);
        assert_string_equal(f->err.text, cases[i].message);
    }
    assert_int_equal(
        pare_take_leave(f->bench, &work, "camera=ca-19,motor=mo-b", f->arena, &taking, &f->err),
        PARE_OK);
    assert_int_equal(taking.count, 2);
    assert_int_equal(taking.was[1], 1);
}

static void a_full_list_takes_no_more(void **state)
{
    fixture *f = *state;
    static const char *const turn[] = {"motor=mo-b", "motor=mo-a"};
    work = *f->craft;
    for (size_t i = 0; i < PARE_TAKENS; i++)
        takes(f, &work, turn[i % 2], FITTED);
    takes_not(
        f, &work, "motor=mo-b", FITTED, PARE_BAD_DATA,
        "48 swaps are taken on 'mule', and there is no room for more; right would be to write "
        "what is on it into its items");
    builds(f, f->bench, &work);
    assert_same_craft(f, &built, f->craft);
}

static void what_does_not_go_on_is_named_with_its_place(void **state)
{
    fixture *f = *state;
    size_t failed = 99;
    work = *f->craft;
    work.takens = 3;
    work.taken[0] = (pare_taken){.swap = "bumper=off", .date = {NULL, NULL, "2024-03-01"}};
    work.taken[1] = (pare_taken){.swap = "motor=mo-b", .date = {"2024-03-01"}};
    work.taken[1].part = pare_bench_part(f->bench, "mo-b");
    work.taken[2] = (pare_taken){.swap = "skid=off", .date = {NULL, NULL, NULL, "2024-03-01"}};
    assert_int_equal(pare_taken_as_built(f->bench, &work, &built, &failed, &f->err), PARE_UNKNOWN);
    assert_int_equal(failed, 2);
    assert_int_equal(pare_taken_check(f->bench, &work, &failed, &f->err), PARE_UNKNOWN);
    assert_int_equal(failed, 2);
    work.taken[2].swap = "motor=sought-20g";
    assert_int_equal(pare_taken_as_built(f->bench, &work, &built, &failed, &f->err), PARE_BAD_DATA);
    assert_string_equal(f->err.text, "swap 'motor=sought-20g' rests on a part that is on no shelf");
    work.taken[1].swap = "motor.colour=red";
    assert_int_equal(pare_taken_check(f->bench, &work, &failed, &f->err), PARE_UNKNOWN);
    assert_int_equal(failed, 1);
    /* A plan that does not go on spoils no sheet: it is said. */
    work.takens = 2;
    work.taken[1] = (pare_taken){.swap = "skid=off", .date = {"2024-03-01"}};
    pare_taken_facts facts;
    assert_int_equal(pare_taken_facts_fill(f->bench, &work, -1, &facts, &f->err), PARE_OK);
    assert_false(facts.planned);
    assert_string_equal(facts.why, "swap 'skid=off': craft 'mule' has no item 'skid'");
}

/* ---- in the store ---- */

static char *text_of(fixture *f)
{
    pare_text text = {0};
    assert_int_equal(pare_store_export_yaml(f->store, &text, &f->err), PARE_OK);
    return text.bytes;
}

static void what_an_entry_says_stays_as_typed_when_it_moves_on(void **state)
{
    fixture *f = *state;
    char *text = text_of(f);
    static const char typed[] =
        "  taken:\n  - {swap: bumper=off, chosen: 2024-03-01, promise: {all_up_g: -8.00, "
        "all_up_g_u: 0.50}}\n";
    const size_t size = strlen(text) + sizeof typed;
    char *with = malloc(size);
    assert_non_null(with);
    snprintf(with, size, "%s%s", text, typed); /* the craft is the last thing of this bench */
    add(f, with);
    read_again(f);
    takes(f, f->craft, "bumper=off", ORDERED);
    stores(f, 1);
    free(text);
    text = text_of(f);
    assert_non_null(strstr(text, "promise: {all_up_g: -8.00, all_up_g_u: 0.50}"));
    assert_non_null(strstr(text, "ordered: 2024-03-02"));
    free(with);
    free(text);
}

static void a_taken_list_exports_imports_and_exports_as_the_same_bytes(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "antenna=an-snap,motor=mo-b", FITTED);
    takes(f, &work, "bumper=off,camera=ca-19", CHOSEN);
    taking.was[0] = taking.was[1] = -1;
    stores(f, 0);
    char *once = text_of(f);
    const pare_import import = {
        .bytes = once, .length = strlen(once), .name = "again.yaml", .empty_first = true};
    pare_import_summary summary = {0};
    assert_int_equal(pare_store_import_yaml(f->store, &import, f->arena, &summary, &f->err),
                     PARE_OK);
    char *twice = text_of(f);
    assert_string_equal(once, twice);
    read_again(f);
    builds(f, f->bench, f->craft);
    const pare_craft first = *f->craft;
    f->craft = &first;
    assert_int_equal(
        pare_swap_apply_list(f->bench, &first, "antenna=an-snap,motor=mo-b", &f->changed, &f->err),
        PARE_OK);
    assert_same_craft(f, &built, &f->changed);
    free(once);
    free(twice);
}

static void a_list_that_changed_meanwhile_is_not_overwritten(void **state)
{
    fixture *f = *state;
    takes(f, f->craft, "bumper=off", CHOSEN);
    stores(f, 0);
    char *before = text_of(f);
    assert_int_equal(store(f, 0), PARE_UNAVAILABLE);
    assert_string_equal(
        f->err.text, "what is taken on 'mule' has just been changed by another program; try again");
    char *after = text_of(f);
    assert_string_equal(before, after);
    free(before);
    free(after);
}

static void undoing_a_taking_restores_the_bench_byte_for_byte(void **state)
{
    fixture *f = *state;
    pare_change_row row;
    char *before = text_of(f);
    takes(f, f->craft, "antenna=an-snap,motor=mo-b", FITTED);
    stores(f, 0);
    char *taken = text_of(f);
    assert_string_not_equal(before, taken);
    assert_int_equal(pare_store_undo(f->store, f->arena, &row, &f->err), PARE_OK);
    assert_string_equal(row.what, "take mule");
    assert_string_equal(row.why, "it drags");
    char *after = text_of(f);
    assert_string_equal(before, after);
    free(after);
    assert_int_equal(pare_store_redo(f->store, f->arena, &row, &f->err), PARE_OK);
    after = text_of(f);
    assert_string_equal(taken, after);
    free(before);
    free(taken);
    free(after);
}

static void no_change_leaves_a_craft_that_cannot_be_built(void **state)
{
    fixture *f = *state;
    pare_store_check_with(f->store, pare_taken_check);
    takes(f, f->craft, "motor=mo-b", FITTED);
    stores(f, 0);
    char *before = text_of(f);
    /* Another bolt circle: the motor that is fitted would no longer fit. */
    static const char other[] =
        "pare: 1\nparts:\n- {id: mo-b, kind: motor, mass: 30 g, spec: {stator: 22 mm x 7 mm, kv: "
        "2600}, fits: {bolt_circle: 9 mm, shaft: M5}}\n";
    const pare_import import = {.bytes = other, .length = strlen(other), .name = "b.yaml"};
    pare_import_summary summary = {0};
    f->err = (pare_error){0};
    assert_int_equal(pare_store_import_yaml(f->store, &import, f->arena, &summary, &f->err),
                     PARE_BAD_DATA);
    assert_non_null(strstr(f->err.text, "craft 'mule':"));
    assert_non_null(strstr(f->err.text,
                           "swap 'motor=mo-b': motor 'mo-b' has a bolt circle of 9 mm, "
                           "frame 'fr-a' 16 mm or 19 mm"));
    char *after = text_of(f);
    assert_string_equal(before, after);
    free(before);
    free(after);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, fixture_open, fixture_close)
    const struct CMUnitTest tests[] = {
        TEST(each_swap_fitted_gives_the_craft_of_its_trial_bit_for_bit),
        TEST(each_swap_of_the_demo_fitted_gives_the_craft_of_its_trial),
        TEST(several_fitted_swaps_give_the_craft_of_their_trial_in_their_order),
        TEST(what_is_only_chosen_or_ordered_is_planned_and_not_on_the_craft),
        TEST(what_goes_on_first_stands_first),
        TEST(the_promise_is_what_the_swap_changes_then_and_stays),
        TEST(a_lighter_adapter_on_the_bench_does_not_move_what_was_built),
        TEST(what_comes_back_is_noted_like_what_comes),
        TEST(what_is_chosen_looks_for_its_company_once_more_when_it_goes_on),
        TEST(what_cannot_be_taken_is_said_in_one_line),
        TEST(what_was_fitted_may_be_exchanged_again_and_again),
        TEST(a_swap_that_another_rests_on_stays),
        TEST(what_is_fitted_may_spoil_a_plan),
        TEST(only_what_is_not_on_yet_can_be_left),
        TEST(a_full_list_takes_no_more),
        TEST(what_does_not_go_on_is_named_with_its_place),
        TEST(what_an_entry_says_stays_as_typed_when_it_moves_on),
        TEST(a_taken_list_exports_imports_and_exports_as_the_same_bytes),
        TEST(a_list_that_changed_meanwhile_is_not_overwritten),
        TEST(undoing_a_taking_restores_the_bench_byte_for_byte),
        TEST(no_change_leaves_a_craft_that_cannot_be_built),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
