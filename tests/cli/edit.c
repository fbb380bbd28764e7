/* edit.c: parts and craft added, changed, edited and removed as a user does it, word for word. */
#include "run.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define OWN " --bench own.sqlite"

static int fresh(void **state)
{
    (void)state;
    remove("own.sqlite");
    unsetenv("VISUAL");
    unsetenv("EDITOR");
    mkdir("tmp", 0700);
    setenv("TMPDIR", "tmp", 1);
    return 0;
}

static void a_part_lives_from_add_to_remove(void **state)
{
    (void)state;
    run_prints("parts add pd-x kind=pad mass=3.1~g known=weighed length=60~mm" OWN,
               "pd-x added\npd-x: pack pad\n  mass              3.1 ± 0.1 g               weighed\n"
               "  length            60 ± 1 mm                 stated\n"
               "  owned             0\n"
               "  Its shape is the usual one for its kind: nobody has described it.\n");
    run_prints("parts change pd-x owned=2 mass=3.3~g" OWN,
               "pd-x changed\n  mass: {value: 3.1 g, known: weighed} -> 3.3 g\n  owned: 2 (new)\n");
    run_prints("parts change pd-x owned=2" OWN, "pd-x says that already: nothing was changed\n");
    run_prints("parts copy pd-x pd-y" OWN, "pd-y added, a copy of pd-x\n");
    run_prints("parts remove pd-x --why lost" OWN, "pd-x removed; pare undo brings it back\n");
    run_prints("export" OWN,
               "pare: 1\nparts:\n- {id: pd-y, kind: pad, mass: 3.3 g, spec: {length: 60 mm}}\n");
    run_refuses("parts add pd-y kind=pad mass=1~g" OWN, 3,
                "pare: part 'pd-y' is on the bench already; right would be another name\n");
    run_refuses("parts change pd-y lenght=3~mm" OWN, 2,
                "pare: lenght=3 mm: no key 'lenght'; did you mean length?\n");
    run_refuses("parts change pd-y" OWN, 3,
                "pare: parts change needs KEY=VALUE, like mass=31.2g\n");
    run_refuses("parts remove" OWN, 3, "pare: parts remove needs a part's id\n");
    run_refuses("parts remove pd-y --records" OWN, 2,
                "pare: parts has no option '--records'; pare help parts lists them\n");
    /* What was refused made no bench. */
    run_refuses("parts add p kind=motor --bench none.sqlite", 3,
                "pare: part 'p': stator is missing: a part of kind motor needs it (3 .. 150 mm)\n");
    assert_int_equal(access("none.sqlite", F_OK), -1);
}

static void a_craft_lives_from_add_to_remove(void **state)
{
    (void)state;
    ran r = run("craft add mine frame=fr-lath-5 motor=mo-2207-1950 propeller=pr-51-43 esc=es-60 "
                "pack=pa-4s-1550 brief.limits.all_up=<=600~g" DEMO);
    assert_string_equal(r.err, "");
    assert_int_equal(strncmp(r.out, "mine added\n", 11), 0);
    assert_non_null(
        strstr(r.out, "motor            4 x mo-2207-1950        flies     at the arms"));
    ran_free(&r);
    run_prints("craft change mine motor=mo-2207-1750 items.strap=st-250" DEMO,
               "mine changed\n  items.motor.part: mo-2207-1950 -> mo-2207-1750\n"
               "  items.strap: {part: st-250} (new)\n");
    run_prints("craft change mine strap=off" DEMO,
               "mine changed\n  items.strap: {part: st-250} (gone)\n");
    run_refuses("craft change mine pakc=pa-4s-1300" DEMO, 2,
                "pare: pakc=pa-4s-1300: no item or key 'pakc'; did you mean pack?\n");
    run_refuses("craft change mine pack=off" DEMO, 3,
                "pare: craft 'mine' has no pack: it needs one to fly\n");
    run_refuses("craft change hedgerow action_camera=off" DEMO, 3,
                "pare: action_camera=off: runs.film_wire.carries still names it; right would be "
                "runs.film_wire.carries=... along with it, or runs.film_wire=off\n");
    run_prints("craft change hedgerow action_camera=off runs.film_wire=off" DEMO,
               "hedgerow changed\n  loadouts.race.without: [action_camera, holder] -> [holder]\n"
               "  items.action_camera: {part: ac-strip, at: [58 mm, 0 mm, 66 mm], turn: [0 deg,\n"
               "      -25 deg, 0 deg]} (gone)\n"
               "  runs.film_wire: {gauge: 24, ways: [160 mm, 160 mm], carries: action_camera,\n"
               "      at: [34 mm, 0 mm, 34 mm]} (gone)\n");
    run_prints("craft remove mine" DEMO, "mine removed; pare undo brings it back\n");
    run_refuses(
        "craft remove hedgerow" DEMO, 3,
        "pare: hedgerow is in use by 10 weigh-ins, 12 flights; right would be --records, which "
        "takes those off too\n");
    run_refuses("craft add none" DEMO, 3,
                "pare: craft 'none' needs parts; right would be like frame=PART motor=PART "
                "propeller=PART esc=PART pack=PART\n");
}

static void what_changed_is_data_too(void **state)
{
    (void)state;
    json_t *said = run_json("parts add p kind=pad mass=3~g --json" OWN);
    assert_string_equal(json_string_value(json_object_get(said, "part")), "p");
    assert_true(json_is_true(json_object_get(said, "changed")));
    json_decref(said);
    said = run_json("parts change p mass=4~g maker=Hob --json" OWN);
    const json_t *entries = json_object_get(said, "entries");
    assert_int_equal(json_array_size(entries), 2);
    const json_t *maker = json_array_get(entries, 1), *mass = json_array_get(entries, 0);
    assert_string_equal(json_string_value(json_object_get(mass, "key")), "mass");
    assert_string_equal(json_string_value(json_object_get(mass, "was")), "3 g");
    assert_string_equal(json_string_value(json_object_get(mass, "is")), "4 g");
    assert_true(json_is_null(json_object_get(maker, "was")));
    json_decref(said);
    said = run_json("parts copy p q --json" OWN);
    assert_true(json_is_true(json_object_get(said, "copied")));
    json_decref(said);
    said = run_json("parts remove p --json" OWN);
    assert_true(json_is_true(json_object_get(said, "removed")));
    json_decref(said);
}

/* ---- the editor ---- */

static void use_editor(const char *commands)
{
    char script[400];
    snprintf(script, sizeof script, "#!/bin/sh\n%s\n", commands);
    write_text("editor", script);
    assert_int_equal(chmod("editor", 0700), 0);
    setenv("EDITOR", "./editor", 1);
}

static size_t texts_kept(void)
{
    DIR *folder = opendir("tmp");
    assert_non_null(folder);
    size_t count = 0;
    for (const struct dirent *one; (one = readdir(folder)) != NULL;)
        count += one->d_name[0] != '.';
    closedir(folder);
    return count;
}

/* "tmp/pare-AbCdEf/p.yaml" reads "tmp/pare-XXXXXX/p.yaml". */
static void forget_folder(char *text)
{
    for (char *at = text; (at = strstr(at, "pare-")) != NULL; at += 5)
        if (strlen(at) > 11 && at[11] == '/')
            memset(at + 5, 'X', 6);
}

static void edits_badly(const char *line, int status, const char *wanted)
{
    ran r = run(line);
    forget_folder(r.err);
    assert_string_equal(r.err, wanted);
    assert_string_equal(r.out, "");
    assert_int_equal(r.status, status);
    ran_free(&r);
}

static void an_edited_text_is_checked_before_it_is_stored(void **state)
{
    (void)state;
    ran r = run("parts add p kind=pad mass=3~g" OWN);
    ran_free(&r);
    use_editor("sed -i 's/mass: 3 g/mass: 4 g/' \"$1\"");
    run_prints("parts edit p" OWN, "p changed\n  mass: 3 g -> 4 g\n");
    run_prints("parts edit p" OWN, "p says that already: nothing was changed\n");
    use_editor("echo '# a remark' >> \"$1\"");
    run_prints("parts edit p" OWN, "p says that already: nothing was changed\n");
    use_editor("case \"$1\" in *.yaml) ;; *) exit 9;; esac; cat \"$1\" > seen");
    run_prints("parts edit p" OWN, "p says that already: nothing was changed\n");
    char *seen = read_file("seen");
    assert_string_equal(seen,
                        "# Part p. Saved, it is checked and stored; unchanged, nothing is done.\n"
                        "id: p\nkind: pad\nmass: 4 g\n");
    free(seen);
    assert_int_equal(texts_kept(), 0);
    json_t *history = run_json("history --json" OWN);
    assert_int_equal(json_array_size(json_object_get(history, "history")), 2);
    json_decref(history);
}

static void a_wrong_text_is_kept_and_nothing_changed(void **state)
{
    (void)state;
    ran r = run("parts add p kind=pad mass=3~g" OWN);
    ran_free(&r);
    use_editor("sed -i 's/mass: 3 g/mass: 3/' \"$1\"");
    edits_badly("parts edit p" OWN, 3,
                "pare: tmp/pare-XXXXXX/p.yaml:4:7: mass: 3 has no unit: a mass needs g, kg, oz or "
                "lb; your text is kept there\n");
    assert_int_equal(texts_kept(), 1);
    use_editor("echo x >> \"$1\"; exit 3");
    edits_badly("parts edit p" OWN, 4,
                "pare: the editor './editor' ended with status 3: nothing was changed; your text "
                "is kept in tmp/pare-XXXXXX/p.yaml\n");
    use_editor("kill -9 $$");
    r = run("parts edit p" OWN);
    assert_int_equal(r.status, 4);
    assert_non_null(strstr(r.err, "pare: the editor './editor' was ended by signal 9: nothing was "
                                  "changed\n"));
    ran_free(&r);
    use_editor("exit 1");
    edits_badly("parts edit p" OWN, 4,
                "pare: the editor './editor' ended with status 1: nothing was changed\n");
    assert_int_equal(texts_kept(), 2); /* an unchanged text is worth nothing */
    use_editor("rm \"$1\"");
    edits_badly("parts edit p" OWN, 3,
                "pare: tmp/pare-XXXXXX/p.yaml: cannot be read (No such file or directory)\n");
    setenv("EDITOR", "./no-such-editor", 1);
    r = run("parts edit p" OWN);
    assert_int_equal(r.status, 4);
    assert_non_null(strstr(r.err, "pare: the editor './no-such-editor' cannot be started"));
    ran_free(&r);
    run_refuses("parts edit q" OWN, 2, "pare: no part 'q'; did you mean p?\n");
    run_prints("export" OWN, "pare: 1\nparts:\n- {id: p, kind: pad, mass: 3 g}\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_part_lives_from_add_to_remove, fresh),
        cmocka_unit_test_setup(a_craft_lives_from_add_to_remove, fresh),
        cmocka_unit_test_setup(what_changed_is_data_too, fresh),
        cmocka_unit_test_setup(an_edited_text_is_checked_before_it_is_stored, fresh),
        cmocka_unit_test_setup(a_wrong_text_is_kept_and_nothing_changed, fresh),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
