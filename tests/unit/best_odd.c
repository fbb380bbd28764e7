/* rooms: store advise craft physics base */
/* The best set of benches and briefs that make no sense: a clear answer, and never one that takes for ever. */
#include <math.h>

#include "swap_fixture.h"

#include "advise/best.h"

enum { MOST_PARTS = 100064, MANY = 100000 };

/* The fixture's craft on a bench of its own, whose parts may be changed. */
typedef struct odd {
    pare_bench bench;
    pare_craft craft;
    pare_part copy[64];
    pare_piece piece[8]; /* of the frame */
    pare_part **part;    /* [MOST_PARTS] */
    pare_arena *arena;
    pare_best best;
} odd;

static odd *odd_open(const fixture *f)
{
    odd *o = calloc(1, sizeof *o);
    assert_non_null(o);
    o->part = calloc(MOST_PARTS, sizeof o->part[0]);
    o->arena = pare_arena_open();
    assert_non_null(o->part);
    assert_non_null(o->arena);
    assert_true(f->bench->parts <= sizeof o->copy / sizeof o->copy[0]);
    o->bench = *f->bench;
    o->bench.part = o->part;
    pare_craft_copy(f->craft, &o->craft);
    for (size_t i = 0; i < f->bench->parts; i++) {
        o->copy[i] = *f->bench->part[i];
        o->part[i] = &o->copy[i];
        for (size_t k = 0; k < o->craft.items; k++)
            if (o->craft.item[k].part == f->bench->part[i])
                o->craft.item[k].part = &o->copy[i];
    }
    return o;
}

static void odd_close(odd *o)
{
    pare_arena_close(o->arena);
    free(o->part);
    free(o);
}

static pare_part *part_of(const odd *o, const char *id)
{
    for (size_t i = 0; i < o->bench.parts; i++)
        if (strcmp(o->part[i]->id, id) == 0)
            return o->part[i];
    fail_msg("no part %s", id);
    return NULL;
}

/* Arms that do not ring, so that a lighter set is no worse. */
static void stiffen(odd *o)
{
    pare_part *frame = part_of(o, "fr-a");
    assert_true(frame->pieces <= sizeof o->piece / sizeof o->piece[0]);
    memcpy(o->piece, frame->piece, frame->pieces * sizeof o->piece[0]);
    for (size_t i = 0; i < frame->pieces; i++)
        if (o->piece[i].form == PARE_FORM_ARMS)
            o->piece[i].section_m[1] = 10e-3;
    frame->piece = o->piece;
}

static void limit(odd *o, const char *key, bool at_least, double value)
{
    o->craft.brief.limit[o->craft.brief.limits++] =
        (pare_limit){.key = key, .at_least = at_least, .value = value};
}

static void find(odd *o, size_t musts, const char *const must[])
{
    pare_error err = {0};
    const pare_best_ask ask = {.loadout = -1, .musts = musts, .must = must};
    if (pare_best_find(&o->bench, &o->craft, &ask, o->arena, &o->best, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_int_equal(o->best.misses, 0);
}

static void a_brief_that_contradicts_itself_has_no_set(void **state)
{
    odd *o = odd_open(*state);
    o->craft.brief.limits = 0;
    limit(o, "all_up", false, 0.3);
    limit(o, "flown", true, 3600);
    find(o, 0, NULL);
    assert_false(o->best.found);
    assert_true(o->best.proven);
    odd_close(o);
    o = odd_open(*state);
    o->craft.brief.limits = 0;
    limit(o, "all_up", false, 0.35);
    limit(o, "all_up", true, 0.36);
    find(o, 0, NULL);
    assert_false(o->best.found);
    assert_true(o->best.proven);
    odd_close(o);
}

static void a_part_that_fits_nowhere_and_must_be_on_leaves_no_set(void **state)
{
    static const char *const must[] = {"ca-14"};
    odd *o = odd_open(*state);
    find(o, 1, must);
    assert_false(o->best.found);
    assert_true(o->best.proven);
    odd_close(o);
}

/* A camera brings a transmitter, that an antenna, and that the camera. */
static void needs_in_a_circle_come_to_an_end(void **state)
{
    odd *o = odd_open(*state);
    pare_part *camera = part_of(o, "ca-19"), *antenna = part_of(o, "an-snap");
    pare_part *video = part_of(o, "vt-a");
    const pare_include brings_video = {
        .what = PARE_INCLUDES_KIND, .kind = PARE_VIDEO_TRANSMITTER, .count = 1};
    const pare_include brings_camera = {
        .what = PARE_INCLUDES_KIND, .kind = PARE_CAMERA, .count = 1};
    const pare_include brings_antenna = {
        .what = PARE_INCLUDES_KIND, .kind = PARE_ANTENNA, .count = 1};
    assert_int_equal(camera->includes + antenna->includes + video->includes, 0);
    camera->include = &brings_video;
    antenna->include = &brings_camera;
    video->include = &brings_antenna;
    camera->includes = antenna->includes = video->includes = 1;
    find(o, 0, NULL);
    assert_true(o->best.proven);
    if (o->best.found)
        assert_int_equal(o->best.best_100ug, o->best.bound_100ug);
    odd_close(o);
}

/* Nothing weighs nothing: a craft with such a part is not believed, so that it is on no set. */
static void a_part_of_no_mass_is_on_no_set(void **state)
{
    odd *o = odd_open(*state);
    stiffen(o);
    o->craft.brief.limits = 0;
    part_of(o, "ca-19")->mass_kg.value = 0;
    part_of(o, "es-b")->mass_kg.value = 0;
    find(o, 0, NULL);
    assert_true(o->best.found && o->best.proven);
    assert_int_equal(o->best.best_100ug, o->best.bound_100ug);
    for (size_t i = 0; i < o->best.swaps; i++)
        assert_true(!strstr(o->best.swap[i].applied.id, "=ca-19") &&
                    !strstr(o->best.swap[i].applied.id, "=es-b"));
    odd_close(o);
}

static int by_id(const void *a, const void *b)
{
    return strcmp((*(pare_part *const *)a)->id, (*(pare_part *const *)b)->id);
}

/* The lightest of very many receivers, the rest of the craft as it is. */
static void very_many_parts_in_one_slot_are_looked_through(void **state)
{
    odd *o = odd_open(*state);
    stiffen(o);
    const pare_part *receiver = part_of(o, "rc-a");
    pare_part *many = calloc(MANY, sizeof *many);
    char(*id)[16] = calloc(MANY, sizeof *id);
    const char *hold[PARE_ITEMS + PARE_JOINTS + PARE_RUNS];
    char name[PARE_JOINTS + PARE_RUNS][64];
    size_t holds = 0, named = 0;
    assert_non_null(many);
    assert_non_null(id);
    for (size_t i = 0; i < MANY; i++) {
        snprintf(id[i], sizeof id[i], "rd-%06zu", i);
        many[i] = *receiver;
        many[i].id = id[i];
        many[i].mass_kg.value = 0.0005 + 1e-7 * (double)((i * 7919 + 13) % MANY);
        o->part[o->bench.parts++] = &many[i];
    }
    qsort(o->part, o->bench.parts, sizeof o->part[0], by_id);
    for (size_t i = 0; i < o->craft.items; i++)
        if (strcmp(o->craft.item[i].name, "receiver") != 0)
            hold[holds++] = o->craft.item[i].name;
    for (size_t i = 0; i < o->craft.joints; i++, named++) {
        snprintf(name[named], sizeof name[named], "joint.%s", o->craft.joint[i].name);
        hold[holds++] = name[named];
    }
    for (size_t i = 0; i < o->craft.runs; i++, named++) {
        snprintf(name[named], sizeof name[named], "run.%s", o->craft.run[i].name);
        hold[holds++] = name[named];
    }
    pare_error err = {0};
    o->craft.brief.limits = 0;
    const pare_best_ask ask = {.loadout = -1, .holds = holds, .hold = hold};
    if (pare_best_find(&o->bench, &o->craft, &ask, o->arena, &o->best, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_true(o->best.found && o->best.proven);
    assert_int_equal(o->best.was_100ug - o->best.best_100ug, 5000);
    free(many);
    free(id);
    odd_close(o);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_brief_that_contradicts_itself_has_no_set, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_part_that_fits_nowhere_and_must_be_on_leaves_no_set,
                                        fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(needs_in_a_circle_come_to_an_end, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_part_of_no_mass_is_on_no_set, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(very_many_parts_in_one_slot_are_looked_through,
                                        fixture_open, fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
