/* rooms: show store craft physics base */
/* Outlines of a craft from above and from the side: truths are what simple solids look like. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "near.h"
#include "show/silhouette.h"
#include "store/bench.h"

#define CRAFT_HEAD                                                                                 \
    "pare: 1\nmoney: EUR\nparts:\n"                                                                \
    "- {id: fr, kind: frame, mass: 90 g, fits: {propeller: 5.2 in}, body: [{arms: [[80 mm, 80 "    \
    "mm], [80 mm, -80 mm], [-80 mm, -80 mm], [-80 mm, 80 mm]], root: 25 mm, section: [12 mm, 5 "   \
    "mm]}%s]}\n"                                                                                   \
    "- {id: mo, kind: motor, mass: 32 g, spec: {stator: 22 mm x 7 mm, kv: 1950}}\n"                \
    "- {id: pr, kind: propeller, mass: 4 g, spec: {diameter: 127 mm, pitch: 4 in, blades: 3}}\n"   \
    "- {id: es, kind: esc_four, mass: 13 g, spec: {continuous: 45 A}}\n"                           \
    "- {id: fc, kind: flight_controller, mass: 8 g}\n"                                             \
    "- {id: pa, kind: pack, mass: 210 g, spec: {chemistry: lipo, cells: 6, capacity: 1300 mAh}, "  \
    "body: {shape: box, size: [75 mm, 36 mm, 40 mm]}}\n"                                           \
    "- {id: th, kind: other, mass: 6 g, body: {%s}}\n"                                             \
    "craft:\n- name: bee\n  items:\n"                                                              \
    "    frame: {part: fr}\n    motor: {part: mo, count: 4, at: arms}\n"                           \
    "    propeller: {part: pr, count: 4, at: arms}\n    esc: {part: es}\n    brain: {part: fc}\n"  \
    "    pack: {part: pa, at: [-5 mm, 0 mm, 45 mm]}\n    thing: {part: th, %s}\n"

typedef struct bee {
    pare_bench *bench;
    pare_arena *arena;
    pare_view view;
} bee;

/* The craft, with something more in its frame, with a thing of a body, placed. */
static bee seen(const char *more, const char *body, const char *placed, pare_seen from,
                size_t outlines, const pare_plate_outline outline[])
{
    char text[4096];
    pare_error err = {0};
    snprintf(text, sizeof text, CRAFT_HEAD, more, body, placed);
    bee b = {.bench = bench_of_text(text), .arena = pare_arena_open()};
    const pare_craft *craft = pare_bench_craft(b.bench, "bee");
    assert_non_null(craft);
    assert_int_equal(pare_view_of(craft, from, outlines, outline, b.arena, &b.view, &err), PARE_OK);
    return b;
}

static void leave(bee *b)
{
    pare_arena_close(b->arena);
    pare_bench_close(b->bench);
}

static const pare_silhouette *one(const bee *b, const char *name)
{
    const pare_craft *craft = pare_bench_craft(b->bench, "bee");
    for (size_t i = 0; i < b->view.count; i++)
        if (strcmp(craft->item[b->view.one[i].item].name, name) == 0)
            return &b->view.one[i];
    fail_msg("nothing of '%s' is seen", name);
    return NULL;
}

static double across(const pare_silhouette *s, int axis)
{
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < s->loop[0].points; i++) {
        low = fmin(low, s->loop[0].at_m[i][axis]);
        high = fmax(high, s->loop[0].at_m[i][axis]);
    }
    return high - low;
}

static double area(const pare_outline *loop)
{
    double sum = 0;
    for (size_t i = 0; i < loop->points; i++) {
        const double *p = loop->at_m[i], *q = loop->at_m[(i + 1) % loop->points];
        sum += p[0] * q[1] - p[1] * q[0];
    }
    return sum / 2;
}

static void a_box_is_as_long_and_as_wide_as_it_is(void **state)
{
    (void)state;
    bee b = seen("", "shape: box, size: [20 mm, 10 mm, 4 mm]", "at: [30 mm, -7 mm, 9 mm]",
                 PARE_SEEN_ABOVE, 0, NULL);
    const pare_silhouette *thing = one(&b, "thing");
    assert_int_equal(thing->loop[0].points, 4);
    assert_near(across(thing, 0), 0.020, 1e-12);
    assert_near(across(thing, 1), 0.010, 1e-12);
    assert_near(thing->middle_m[0], 0.030, 1e-12);
    assert_near(thing->middle_m[1], -0.007, 1e-12);
    assert_near(thing->near_m, 0.011, 1e-12);
    leave(&b);
    b = seen("", "shape: box, size: [20 mm, 10 mm, 4 mm]", "at: [30 mm, -7 mm, 9 mm]",
             PARE_SEEN_SIDE, 0, NULL);
    thing = one(&b, "thing");
    assert_near(across(thing, 0), 0.020, 1e-12);
    assert_near(across(thing, 1), 0.004, 1e-12);
    assert_near(thing->middle_m[1], 0.009, 1e-12);
    assert_near(thing->near_m, 0.012, 1e-12); /* seen from the right: y = -7 - 5 mm */
    leave(&b);
}

/* A square turned by 45 degrees is as wide as its diagonal, and keeps its area. */
static void a_turned_box_shows_its_diagonal(void **state)
{
    (void)state;
    bee b = seen("", "shape: box, size: [20 mm, 20 mm, 4 mm]",
                 "at: [0 mm, 0 mm, 9 mm], turn: [45 deg, 0 deg, 0 deg]", PARE_SEEN_ABOVE, 0, NULL);
    const pare_silhouette *thing = one(&b, "thing");
    assert_near(across(thing, 0), 0.020 * sqrt(2), 1e-12);
    assert_near(area(&thing->loop[0]), 4e-4, 1e-12);
    leave(&b);
}

/* Positive about y is nose down (ISO 8855): the front end goes down by l sin, and what was 4 mm high
 * is as high as both ends say. */
static void a_box_nose_down_is_lower_in_front(void **state)
{
    (void)state;
    bee b = seen("", "shape: box, size: [40 mm, 10 mm, 4 mm]",
                 "at: [0 mm, 0 mm, 9 mm], turn: [0 deg, 30 deg, 0 deg]", PARE_SEEN_SIDE, 0, NULL);
    const pare_silhouette *thing = one(&b, "thing");
    assert_near(across(thing, 1), 0.040 * 0.5 + 0.004 * sqrt(0.75), 1e-12);
    double front = -1, front_z = 0;
    for (size_t i = 0; i < thing->loop[0].points; i++)
        if (thing->loop[0].at_m[i][0] > front) {
            front = thing->loop[0].at_m[i][0];
            front_z = thing->loop[0].at_m[i][1];
        }
    assert_true(front_z < 0.009);
    leave(&b);
}

static void round_solids_are_round(void **state)
{
    (void)state;
    static const struct {
        const char *body;
        double high_m;
    } solids[] = {{"shape: cylinder, size: [20 mm, 8 mm]", 0.008},
                  {"shape: tube, size: [20 mm, 10 mm, 8 mm]", 0.008},
                  {"shape: sphere, size: [20 mm]", 0.020},
                  {"shape: capsule, size: [20 mm, 8 mm]", 0.028},
                  {"shape: cone, size: [20 mm, 10 mm, 8 mm]", 0.008}};
    for (size_t i = 0; i < sizeof solids / sizeof solids[0]; i++) {
        bee b = seen("", solids[i].body, "at: [0 mm, 0 mm, 0 mm]", PARE_SEEN_ABOVE, 0, NULL);
        const pare_silhouette *thing = one(&b, "thing");
        /* 48 corners on the circle enclose 48/2 sin(2 pi/48) r^2, 0.3 % less than pi r^2. */
        assert_within(area(&thing->loop[0]), 3.14159265 * 1e-4, 0.003);
        leave(&b);
        b = seen("", solids[i].body, "at: [0 mm, 0 mm, 0 mm]", PARE_SEEN_SIDE, 0, NULL);
        thing = one(&b, "thing");
        assert_within(across(thing, 1), solids[i].high_m,
                      0.003); /* a ball's last ring is short of its pole */
        leave(&b);
    }
}

/* A ring has no thickness of its own; a plate is the box of its sizes. */
static void rings_and_plates_are_as_long_and_as_wide_as_they_are(void **state)
{
    (void)state;
    static const struct {
        const char *body;
        double long_m, wide_m, area_m2, near_m;
    } shapes[] = {{"shape: ring, size: [20 mm]", 0.020, 0.020, 3.14159265e-4, 0.009},
                  {"shape: plate, size: [20 mm, 10 mm, 2 mm]", 0.020, 0.010, 2e-4, 0.010}};
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        bee b = seen("", shapes[i].body, "at: [0 mm, 0 mm, 9 mm]", PARE_SEEN_ABOVE, 0, NULL);
        const pare_silhouette *thing = one(&b, "thing");
        assert_within(across(thing, 0), shapes[i].long_m, 0.003);
        assert_within(across(thing, 1), shapes[i].wide_m, 0.003);
        assert_within(area(&thing->loop[0]), shapes[i].area_m2, 0.003);
        assert_near(thing->near_m, shapes[i].near_m, 1e-12);
        leave(&b);
    }
}

static void propellers_are_discs_at_the_arms_ends(void **state)
{
    (void)state;
    bee b = seen("", "shape: box, size: [20 mm, 20 mm, 4 mm]", "at: [0 mm, 0 mm, 9 mm]",
                 PARE_SEEN_ABOVE, 0, NULL);
    size_t discs = 0;
    for (size_t i = 0; i < b.view.count; i++) {
        const pare_silhouette *s = &b.view.one[i];
        if (!s->disc)
            continue;
        discs++;
        assert_near(across(s, 0), 0.127, 1e-12);
        assert_near(fabs(s->middle_m[0]), 0.080, 1e-12);
        assert_near(fabs(s->middle_m[1]), 0.080, 1e-12);
    }
    assert_int_equal(discs, 4);
    /* Nothing reaches further: 80 mm and half a disc. */
    assert_near(b.view.high_m[0], 0.080 + 0.0635, 1e-12);
    leave(&b);
}

static void what_is_nearer_comes_later(void **state)
{
    (void)state;
    for (int from = 0; from < PARE_SEEN; from++) {
        bee b = seen("", "shape: box, size: [20 mm, 20 mm, 4 mm]", "at: [0 mm, 0 mm, 9 mm]",
                     (pare_seen)from, 0, NULL);
        for (size_t i = 1; i < b.view.count; i++)
            assert_true(b.view.one[i].near_m >= b.view.one[i - 1].near_m);
        leave(&b);
    }
}

static void a_plate_without_its_drawing_is_a_box_and_is_counted(void **state)
{
    (void)state;
    bee b = seen(", {plate: base, outline: gone.dxf, thick: 2 mm}",
                 "shape: box, size: [20 mm, 20 mm, 4 mm]", "at: [0 mm, 0 mm, 9 mm]",
                 PARE_SEEN_ABOVE, 0, NULL);
    assert_int_equal(b.view.boxes, 1);
    leave(&b);
}

static void a_loop_holds_what_lies_within_it(void **state)
{
    (void)state;
    static const double corners[][2] = {{0, 0}, {2, 0}, {2, 2}, {1, 0.5}, {0, 2}};
    const pare_outline loop = {5, corners};
    static const double in[][2] = {{0.2, 0.2}, {1.8, 0.3}, {1.9, 1.5}},
                        out[][2] = {{1, 1}, {-0.1, 1}, {3, 0.5}, {1, -1}};
    for (size_t i = 0; i < 3; i++)
        assert_true(pare_loop_holds(&loop, in[i]));
    for (size_t i = 0; i < 4; i++)
        assert_false(pare_loop_holds(&loop, out[i]));
}

/* Thousands of pieces in one text: the picture stays small and says what it leaves out. */
static void too_many_pieces_are_left_out_and_counted(void **state)
{
    (void)state;
    char body[3000] = "", placed[1200] = "count: 16, at: [";
    strcat(body, "shape: cylinder, size: [2 mm, 2 mm], at: [");
    for (int i = 0; i < 64; i++)
        snprintf(body + strlen(body), sizeof body - strlen(body), "%s[%d mm, 0 mm, 0 mm]",
                 i ? ", " : "", i);
    strcat(body, "]");
    for (int i = 0; i < 16; i++)
        snprintf(placed + strlen(placed), sizeof placed - strlen(placed), "%s[0 mm, %d mm, 0 mm]",
                 i ? ", " : "", i);
    strcat(placed, "]");
    char *text = malloc(1 << 17);
    assert_non_null(text);
    int length = snprintf(text, 1 << 17, CRAFT_HEAD, "", body, placed);
    for (int i = 0; i < 12; i++)
        length += snprintf(text + length, (size_t)((1 << 17) - length),
                           "    more%d: {part: th, %s}\n", i, placed);
    pare_error err = {0};
    bee b = {.bench = bench_of_text(text), .arena = pare_arena_open()};
    free(text);
    const pare_craft *craft = pare_bench_craft(b.bench, "bee");
    assert_int_equal(pare_view_of(craft, PARE_SEEN_ABOVE, 0, NULL, b.arena, &b.view, &err),
                     PARE_OK);
    /* 13 items of 16 copies of 64 cylinders, and what the craft has besides */
    assert_true(b.view.left_out > 9000);
    assert_int_equal(b.view.count + b.view.left_out, 13 * 16 * 64 + 4 + 4 + 4 + 3);
    leave(&b);
}

/* A rod lies along x. */
static void a_rod_is_seen_as_a_line(void **state)
{
    (void)state;
    bee b =
        seen("", "shape: rod, size: [30 mm]", "at: [30 mm, -7 mm, 9 mm]", PARE_SEEN_ABOVE, 0, NULL);
    assert_near(across(one(&b, "thing"), 0), 0.030, 1e-9);
    assert_near(across(one(&b, "thing"), 1), 0, 1e-9);
    leave(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rod_is_seen_as_a_line),
        cmocka_unit_test(a_box_is_as_long_and_as_wide_as_it_is),
        cmocka_unit_test(a_turned_box_shows_its_diagonal),
        cmocka_unit_test(a_box_nose_down_is_lower_in_front),
        cmocka_unit_test(round_solids_are_round),
        cmocka_unit_test(rings_and_plates_are_as_long_and_as_wide_as_they_are),
        cmocka_unit_test(propellers_are_discs_at_the_arms_ends),
        cmocka_unit_test(what_is_nearer_comes_later),
        cmocka_unit_test(a_plate_without_its_drawing_is_a_box_and_is_counted),
        cmocka_unit_test(a_loop_holds_what_lies_within_it),
        cmocka_unit_test(too_many_pieces_are_left_out_and_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
