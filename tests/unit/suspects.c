/* rooms: show store advise craft physics base */
/* A craft that weighs more than what is written down of it: the spares whose mass is like what is missing are
 * named, the likest first, three at most; what a craft has on, now or in a loadout, is none. */
#include <math.h>

#include "show/weigh.h"
#include "store_bench.h"

#define BENCH                                                                                      \
    "pare: 1\nmoney: EUR\nparts:\n"                                                                \
    "- {id: fr, kind: frame, mass: {value: 90 g, u: 0.1 g, known: weighed}, fits: {propeller: "    \
    "5.2 "                                                                                         \
    "in}, body: [{arms: [[80 mm, 80 mm], [80 mm, -80 mm], [-80 mm, -80 mm], [-80 mm, 80 mm]], "    \
    "root: 25 mm, section: [12 mm, 5 mm]}]}\n"                                                     \
    "- {id: mo, kind: motor, mass: {value: 32 g, u: 0.1 g, known: weighed}, spec: {stator: 22 mm " \
    "x "                                                                                           \
    "7 mm, kv: 1950}}\n"                                                                           \
    "- {id: pr, kind: propeller, mass: {value: 4 g, u: 0.1 g, known: weighed}, spec: {diameter: "  \
    "127 "                                                                                         \
    "mm, pitch: 4 in, blades: 3}}\n"                                                               \
    "- {id: es, kind: esc_four, mass: {value: 13 g, u: 0.1 g, known: weighed}, spec: "             \
    "{continuous: "                                                                                \
    "45 A}}\n"                                                                                     \
    "- {id: fc, kind: flight_controller, mass: {value: 8 g, u: 0.1 g, known: weighed}}\n"          \
    "- {id: pa, kind: pack, mass: {value: 210 g, u: 0.1 g, known: weighed}, spec: {chemistry: "    \
    "lipo, "                                                                                       \
    "cells: 6, capacity: 1300 mAh}}\n"                                                             \
    "- {id: pa-2, kind: pack, mass: 50 g, owned: 1, spec: {chemistry: lipo, cells: 6, capacity: "  \
    "300 mAh}}\n"                                                                                  \
    "- {id: pa-s, kind: pack, sought: true, mass: {value: 60 g, u: 9 g, known: estimated}, spec: " \
    "{chemistry: lipo, cells: 6, capacity: 400 mAh}}\n"                                            \
    "- {id: th-1, kind: other, mass: {value: 48 g, u: 0.5 g, known: weighed}, owned: 1}\n"         \
    "- {id: th-2, kind: other, mass: {value: 44 g, u: 0.5 g, known: weighed}, owned: 1}\n"         \
    "- {id: th-3, kind: other, mass: {value: 41 g, u: 0.5 g, known: weighed}, owned: 1}\n"         \
    "- {id: th-4, kind: other, mass: {value: 40 g, u: 0.5 g, known: weighed}, owned: 1}\n"         \
    "- {id: th-5, kind: other, mass: {value: 46 g, u: 0.5 g, known: weighed}, owned: 1}\n"         \
    "- {id: th-6, kind: other, mass: {value: 40 g, u: 0.5 g, known: weighed}}\n"                   \
    "craft:\n- name: bee\n%s  items:\n"                                                            \
    "    frame: {part: fr}\n    motor: {part: mo, count: 4, at: arms}\n"                           \
    "    propeller: {part: pr, count: 4, at: arms}\n    esc: {part: es}\n    brain: {part: fc}\n"  \
    "    pack: {part: pa, at: [-5 mm, 0 mm, 45 mm]}\n"                                             \
    "scales:\n- {id: small, resolution: 0.1 g, repeatability: 0.1 g, common: 0.1 %%}\n"            \
    "weigh_ins:\n- {craft: bee, date: 2024-05-01, scale: small, of: all, reads: %s}\n"

typedef struct seen {
    pare_bench *bench;
    pare_arena *arena;
    pare_weighings weighings;
    pare_weigh_view view;
} seen;

static const seen *look(void **state, const char *says, const char *reads, int loadout, seen *s)
{
    const store_fixture *f = *state;
    char path[200];
    pare_error err = {0};
    pare_import_summary summary;
    snprintf(path, sizeof path, "%s/bee.yaml", f->folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fprintf(file, BENCH, says, reads);
    fclose(file);
    *s = (seen){.arena = pare_arena_open()};
    const pare_import import = {.path = path};
    pare_closure *closure = NULL;
    pare_status status = pare_store_import_yaml(f->store, &import, s->arena, &summary, &err);
    if (status == PARE_OK)
        status = pare_store_read(f->store, &s->bench, &err);
    if (status == PARE_OK)
        status = pare_store_weighings(f->store, s->arena, &s->weighings, &err);
    if (status != PARE_OK)
        fail_msg("%s", err.text);
    const pare_closure_of of = {.bench = s->bench,
                                .crafts = s->bench->crafts,
                                .first = (const pare_craft *const *)s->bench->craft,
                                .weighings = &s->weighings};
    const pare_scale any = {.id = ""};
    const pare_hover_score none = {0};
    if (pare_closure_open(&of, s->arena, &closure, &err) != PARE_OK ||
        pare_weigh_view_fill(closure, s->bench->craft[0], loadout, &any, none, s->arena, &s->view,
                             &err) != PARE_OK)
        fail_msg("%s", err.text);
    return s;
}

static void leave(const seen *s)
{
    pare_bench_close(s->bench);
    pare_arena_close(s->arena);
}

/* As written down it is 465 g, and solder and the like are usually 8.7 g: 41.3 g are missing. */
static void the_likest_spares_come_first(void **state)
{
    seen s;
    look(state, "", "515 g", -1, &s);
    assert_true(s.view.more);
    assert_near(s.view.forgotten_kg, 0.050, 1e-3);
    assert_int_equal(s.view.suspects, PARE_SUSPECTS);
    assert_string_equal(s.view.suspect[0]->id, "th-3");
    assert_string_equal(s.view.suspect[1]->id, "th-4");
    assert_string_equal(s.view.suspect[2]->id, "th-2");
    assert_int_equal(s.view.loadouts, 1);
    assert_null(s.view.mass[0].name);
    assert_true(isnan(s.view.mass[0].chance)); /* no limit */
    leave(&s);
}

/* 465 g and 10 g more are what such a craft weighs. */
static void nothing_is_suspected_where_nothing_is_missing(void **state)
{
    seen s;
    look(state, "  brief: {limits: {all_up: \"<= 480 g\"}}\n", "475 g", -1, &s);
    assert_false(s.view.more || s.view.less);
    assert_int_equal(s.view.suspects, 0);
    assert_between(s.view.mass[0].chance, 0.9, 1);
    /* Of the packs the lighter one alone: one that is sought is none yet. */
    assert_int_equal(s.view.packs, 1);
    assert_string_equal(s.view.pack[0].pack->id, "pa-2");
    leave(&s);
}

/* A pack of 50 g that a loadout uses is no spare. */
static void what_a_loadout_uses_is_no_spare(void **state)
{
    seen s;
    look(state,
         "  brief: {limits: {all_up: \">= 100 g\"}}\n  loadouts: {light: {use: {pack: pa-2}}}\n",
         "525 g", 0, &s);
    for (size_t i = 0; i < s.view.suspects; i++)
        assert_string_not_equal(s.view.suspect[i]->id, "pa-2");
    assert_int_equal(s.view.loadouts, 1);
    assert_string_equal(s.view.mass[0].name, "light");
    assert_true(isnan(s.view.limit_kg)); /* at least so much is no limit to what it may weigh */
    leave(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_likest_spares_come_first, store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(nothing_is_suspected_where_nothing_is_missing, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(what_a_loadout_uses_is_no_spare, store_setup,
                                        store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
