/* rooms: store advise craft physics base */
/* swap_names.c: how swaps are called, and what is said of names that are none. */
#include "swap_fixture.h"

static void a_length_has_one_spelling_whatever_unit_it_is_typed_in(void **state)
{
    fixture *f = *state;
    tried(f, "joint.motor_base.length = 8 mm");
    assert_string_equal(f->applied.id, "joint.motor_base.length=8mm");
    tried(f, "joint.motor_base.length=0.8cm");
    assert_string_equal(f->applied.id, "joint.motor_base.length=8mm");
    tried(f, "run.lead.gauge=14 AWG");
    assert_string_equal(f->applied.id, "run.lead.gauge=14");
    tried(f, "motor=sought-29.0g");
    assert_string_equal(f->applied.id, "motor=sought-29g");
}

static void an_id_read_again_gives_the_same_craft(void **state)
{
    fixture *f = *state;
    static pare_craft again;
    static const char *const typed[] = {"joint.motor_base.length=0.3 in", "run.lead.length=3.3 in",
                                        "antenna.length=1.9 in", "motor=mo-b"};
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        tried(f, typed[i]);
        char id[PARE_SWAP_NAME];
        snprintf(id, sizeof id, "%s", f->applied.id);
        weigh(&f->changed, &f->sheet);
        assert_int_equal(pare_swap_apply(f->bench, f->craft, id, &again, NULL, &f->err), PARE_OK);
        weigh(&again, &f->other);
        assert_true(same_sheets(&f->sheet, &f->other));
    }
}

static void what_is_no_swap_says_how_one_is_written(void **state)
{
    fixture *f = *state;
    refused(f, "bumper", PARE_UNKNOWN, "WHAT=VALUE");
    refused(f, "", PARE_UNKNOWN, "WHAT=VALUE");
    refused(f, "=off", PARE_UNKNOWN, "WHAT=VALUE");
    refused(f, "bumper=", PARE_UNKNOWN, "WHAT=VALUE");
    refused(f, "joint.motor_base=8", PARE_UNKNOWN, "names no property");
}

static void unknown_names_come_with_the_nearest_known_one(void **state)
{
    fixture *f = *state;
    refused(f, "bumpr=off", PARE_UNKNOWN, "did you mean 'bumper'");
    refused(f, "motor=mo-bb", PARE_UNKNOWN, "did you mean 'mo-b'");
    refused(f, "joint.motor_bas.count=8", PARE_UNKNOWN, "did you mean 'motor_base'");
    refused(f, "joint.motor_base.materiel=steel", PARE_UNKNOWN, "did you mean 'material'");
    refused(f, "joint.motor_base.material=titanum", PARE_UNKNOWN, "did you mean 'titanium'");
    refused(f, "run.leed.gauge=14", PARE_UNKNOWN, "did you mean 'lead'");
    refused(f, "run.lead.colour=14", PARE_UNKNOWN, "gauge, length");
    refused(f, "wings=off", PARE_UNKNOWN, "has no item 'wings'");
}

static void values_that_cannot_be_are_refused_with_what_would_be_right(void **state)
{
    fixture *f = *state;
    refused(f, "joint.motor_base.length=8", PARE_BAD_DATA, "mm");
    refused(f, "joint.motor_base.length=-8 mm", PARE_BAD_DATA, "out of range");
    refused(f, "joint.motor_base.length=nan mm", PARE_BAD_DATA, "joint.motor_base.length");
    refused(f, "joint.motor_base.count=0", PARE_BAD_DATA, "nothing is held");
    refused(f, "joint.motor_base.count=201", PARE_BAD_DATA, "0 to 200");
    refused(f, "joint.motor_base.standard=ISO4032", PARE_BAD_DATA, "only nuts");
    refused(f, "joint.motor_base.count=8.5", PARE_BAD_DATA, "8.5");
    refused(f, "run.lead.gauge=99", PARE_BAD_DATA, "8 to 36");
    refused(f, "motor=sought-2g", PARE_BAD_DATA, "on no shelf");
    refused(f, "mount=sought-2g", PARE_BAD_DATA, "no law");
    refused(f, "antenna.length=900mm", PARE_BAD_DATA, "110 mm");
    refused(f, "camera.length=10mm", PARE_BAD_DATA, "no coax");
}

static void a_name_of_any_length_is_an_error_and_no_overflow(void **state)
{
    fixture *f = *state;
    char text[4096];
    memset(text, 'a', sizeof text);
    text[sizeof text - 1] = '\0';
    refused(f, text, PARE_UNKNOWN, "no swap");
    text[2000] = '=';
    refused(f, text, PARE_UNKNOWN, "no swap");
    memcpy(text, "motor=", 6);
    text[2000] = 'a';
    refused(f, text, PARE_UNKNOWN, "no swap");
    assert_int_equal(pare_swap_apply_list(f->bench, f->craft, text, &f->changed, &f->err),
                     PARE_UNKNOWN);
}

static void two_swaps_of_one_thing_clash_and_both_are_named(void **state)
{
    fixture *f = *state;
    static const char *const clashing[] = {
        "bumper=off,bumper=bu-a",
        "joint.motor_base.count=8,joint.motor_base.count=12",
        "antenna=an-snap,pigtail=off", /* the first takes the pigtail off */
        "pigtail=off,antenna=an-snap,pigtail=pg-a",
        "pigtail.length=50mm,antenna=an-snap",
    };
    for (size_t i = 0; i < sizeof clashing / sizeof clashing[0]; i++) {
        f->changed.name = "untouched";
        const pare_status status =
            pare_swap_apply_list(f->bench, f->craft, clashing[i], &f->changed, &f->err);
        assert_int_equal(status, PARE_UNKNOWN);
        assert_string_equal(f->changed.name, "untouched");
    }
    assert_int_equal(
        pare_swap_apply_list(f->bench, f->craft, "bumper=off,bumper=bu-a", &f->changed, &f->err),
        PARE_UNKNOWN);
    assert_non_null(strstr(f->err.text, "bumper=off"));
    assert_non_null(strstr(f->err.text, "bumper=bu-a"));
}

static void swaps_of_different_things_add_up(void **state)
{
    fixture *f = *state;
    const double first_g = saved_g(f, "bumper=off");
    const double second_g = saved_g(f, "joint.stack.material=titanium");
    assert_int_equal(pare_swap_apply_list(f->bench, f->craft,
                                          "bumper=off,joint.stack.material=titanium", &f->changed,
                                          &f->err),
                     PARE_OK);
    weigh(&f->changed, &f->other);
    assert_near(1e3 * (f->sheet.figure[PARE_ALL_UP].value - f->other.figure[PARE_ALL_UP].value),
                first_g + second_g, 1e-9);
}

/* The first of a craft with 30 more bumpers and 20 more joints, as many as are asked, each in its own line. */
static pare_status swap_many(fixture *f, size_t count)
{
    enum { BUMPERS = 30, JOINTS = 20, NAME = 8 };
    static char name[BUMPERS + JOINTS][NAME];
    char list[2048] = "";
    pare_craft *craft = malloc(sizeof *craft);
    assert_non_null(craft);
    pare_craft_copy(f->craft, craft);
    size_t bumper = 0, stack = 0;
    while (strcmp(craft->item[bumper].name, "bumper") != 0)
        bumper++;
    while (strcmp(craft->joint[stack].name, "stack") != 0)
        stack++;
    for (size_t i = 0; i < BUMPERS + JOINTS; i++) {
        const bool is_bumper = i < BUMPERS;
        snprintf(name[i], NAME, "more%zu", i);
        if (is_bumper) {
            craft->item[craft->items] = craft->item[bumper];
            craft->item[craft->items++].name = name[i];
        } else {
            craft->joint[craft->joints] = craft->joint[stack];
            craft->joint[craft->joints++].name = name[i];
        }
        const size_t at = strlen(list);
        if (i < count)
            snprintf(list + at, sizeof list - at, is_bumper ? "%s%s=off" : "%sjoint.%s.count=2",
                     i ? "," : "", name[i]);
    }
    const pare_status status = pare_swap_apply_list(f->bench, craft, list, &f->changed, &f->err);
    free(craft);
    return status;
}

static void more_than_48_swaps_at_once_are_refused(void **state)
{
    fixture *f = *state;
    if (swap_many(f, 48) != PARE_OK)
        fail_msg("%s", f->err.text);
    f->changed.name = "untouched";
    assert_int_equal(swap_many(f, 49), PARE_UNKNOWN);
    assert_string_equal(f->err.text, "more than 48 swaps at once");
    assert_string_equal(f->changed.name, "untouched");
}

static void a_failed_swap_leaves_the_craft_as_it_was(void **state)
{
    fixture *f = *state;
    f->changed = *f->craft;
    f->changed.name = "untouched";
    refused(f, "motor=mo-small", PARE_BAD_DATA, "bolt circle");
    assert_string_equal(f->changed.name, "untouched");
}

static void wishes_have_names(void **state)
{
    (void)state;
    assert_int_equal(pare_wish_named("grams"), PARE_WISH_GRAMS);
    assert_int_equal(pare_wish_named("crash"), PARE_WISH_CRASH);
    assert_int_equal(pare_wish_named("luck"), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_length_has_one_spelling_whatever_unit_it_is_typed_in),
        cmocka_unit_test(an_id_read_again_gives_the_same_craft),
        cmocka_unit_test(what_is_no_swap_says_how_one_is_written),
        cmocka_unit_test(unknown_names_come_with_the_nearest_known_one),
        cmocka_unit_test(values_that_cannot_be_are_refused_with_what_would_be_right),
        cmocka_unit_test(a_name_of_any_length_is_an_error_and_no_overflow),
        cmocka_unit_test(two_swaps_of_one_thing_clash_and_both_are_named),
        cmocka_unit_test(swaps_of_different_things_add_up),
        cmocka_unit_test(more_than_48_swaps_at_once_are_refused),
        cmocka_unit_test(a_failed_swap_leaves_the_craft_as_it_was),
        cmocka_unit_test(wishes_have_names),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}
