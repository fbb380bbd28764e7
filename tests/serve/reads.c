/* reads.c: what the server answers is, byte for byte, what the command prints for the same question. */
#include "http.h"
#include "pdf_pages.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *target, *line;
} SAME[] = {
    {"/api/craft", "craft"},
    {"/api/craft/hedgerow", "craft show hedgerow"},
    {"/api/sheet?craft=hedgerow", "sheet hedgerow"},
    {"/api/sheet?craft=hedgerow&loadout=race", "sheet hedgerow --loadout race"},
    {"/api/sheet?craft=hedgerow&try=bumper=off,tower=ti-100",
     "sheet hedgerow --try bumper=off,tower=ti-100"},
    {"/api/sheet?craft=hedgerow&try=bumper%3Doff&try=tower%3Dti-100",
     "sheet hedgerow --try bumper=off --try tower=ti-100"},
    {"/api/ruler?craft=hedgerow&try=bumper%3Doff", "sheet hedgerow --ruler --try bumper=off"},
    {"/api/outline?craft=hedgerow", "sheet hedgerow --outline"},
    {"/api/curves?craft=hedgerow&of=minutes", "sheet hedgerow --curve minutes"},
    {"/api/swaps?craft=hedgerow", "swaps hedgerow"},
    {"/api/swaps?craft=thimble&wish=minutes&all=1", "swaps thimble --wish minutes --all"},
    {"/api/swaps?craft=hedgerow&loadout=race", "swaps hedgerow --loadout race"},
    {"/api/compare?craft=hedgerow&craft=bodkin", "compare hedgerow bodkin"},
    {"/api/compare?craft=hedgerow&try=bumper%3Doff", "compare hedgerow --try bumper=off"},
    {"/api/parts", "parts"},
    {"/api/parts?kind=motor&condition=mass%3C30g&sort=mass",
     "parts mass<30g --kind motor --sort mass"},
    {"/api/parts?for=hedgerow.motor&lighter=1", "parts --for hedgerow.motor --lighter"},
    {"/api/parts?word=teasel&surprise=1", "parts teasel --surprise"},
    {"/api/parts/mo-2207-1950", "parts show mo-2207-1950"},
    {"/api/history", "history"},
    {"/api/taken?craft=hedgerow", "take hedgerow"},
    {"/api/weigh?craft=hedgerow", "weigh hedgerow"},
    {"/api/weigh?craft=thimble&all=1", "weigh thimble --all"},
    {"/api/learn?craft=hedgerow", "learn hedgerow"},
    {"/api/scales", "scale"},
};

static void every_answer_is_the_commands(void **state)
{
    (void)state;
    served s = serve_start();
    serve_enter(&s);
    for (size_t i = 0; i < sizeof SAME / sizeof SAME[0]; i++) {
        char line[512];
        snprintf(line, sizeof line, "%s --json" DEMO, SAME[i].line);
        /* Twice: whatever the server keeps from the first must not show. */
        for (int round = 0; round < 2; round++) {
            ran wanted = run(line);
            reply got = serve_get(&s, SAME[i].target);
            assert_int_equal(wanted.status, 0);
            if (got.code != 200 || strcmp(got.body, wanted.out) != 0)
                fail_msg("%s: %d, not the bytes of pare %s\n%s", SAME[i].target, got.code, line,
                         got.body);
            assert_string_equal(reply_header(&got, "Content-Type"), "application/json");
            reply_free(&got);
            ran_free(&wanted);
        }
    }
    serve_stop(&s, SIGTERM);
}

static void assert_same(const served *s, const char *target, const char *line)
{
    ran wanted = run(line);
    reply got = serve_get(s, target);
    assert_int_equal(wanted.status, 0);
    assert_int_equal(got.code, 200);
    assert_string_equal(got.body, wanted.out);
    reply_free(&got);
    ran_free(&wanted);
}

/* The server keeps benches and answers; whoever else changes the file, it must not say what was. */
static void what_others_change_is_seen(void **state)
{
    (void)state;
    static const char *const changes[] = {
        "craft limit hedgerow all_up=633g" DEMO,
        "parts change mo-2207-1950 mass=29.9g" DEMO,
        "take hedgerow bumper=off --fitted 2026-03-01" DEMO,
        "undo 2" DEMO,
        "demo",
    };
    served s = serve_start();
    serve_enter(&s);
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
        run_quietly(changes[i]);
        for (int round = 0; round < 2; round++) {
            assert_same(&s, "/api/sheet?craft=hedgerow", "sheet hedgerow --json" DEMO);
            assert_same(&s, "/api/sheet?craft=hedgerow&try=skid%3Doff",
                        "sheet hedgerow --try skid=off --json" DEMO);
            assert_same(&s, "/api/swaps?craft=hedgerow", "swaps hedgerow --json" DEMO);
            assert_same(&s, "/api/history", "history --json" DEMO);
        }
    }
    /* Another file of the same name. */
    assert_int_equal(rename("data/pare/demo.sqlite", "data/pare/old.sqlite"), 0);
    remove("data/pare/demo.sqlite-wal");
    remove("data/pare/demo.sqlite-shm");
    run_quietly("demo");
    run_quietly("craft limit hedgerow all_up=611g" DEMO);
    assert_same(&s, "/api/sheet?craft=hedgerow&try=skid%3Doff",
                "sheet hedgerow --try skid=off --json" DEMO);
    assert_same(&s, "/api/swaps?craft=hedgerow", "swaps hedgerow --json" DEMO);
    serve_stop(&s, SIGTERM);
}

/* A browser takes gzip: unpacked, the bytes are the same, and who takes none gets none. */
static void packed_answers_hold_the_same_bytes(void **state)
{
    (void)state;
    served s = serve_start();
    serve_enter(&s);
    static const char target[] = "/api/sheet?craft=hedgerow&try=bumper%3Doff";
    char headers[512];
    snprintf(headers, sizeof headers,
             "Host: 127.0.0.1:%hu\r\nCookie: %s\r\nAccept-Encoding: gzip, br\r\n", s.port,
             s.cookie);
    for (int round = 0; round < 2; round++) {
        reply plain = serve_get(&s, target), packed = serve_ask(&s, "GET", target, headers, NULL);
        assert_null(reply_header(&plain, "Content-Encoding"));
        assert_string_equal(reply_header(&packed, "Content-Encoding"), "gzip");
        assert_true(packed.length * 2 < plain.length);
        write_file("packed.gz", packed.body, packed.length);
        assert_int_equal(system("gzip -dc packed.gz >unpacked"), 0);
        char *unpacked = read_file("unpacked");
        assert_non_null(unpacked);
        assert_string_equal(unpacked, plain.body);
        free(unpacked);
        reply_free(&plain);
        reply_free(&packed);
    }
    serve_stop(&s, SIGTERM);
}

/* What is said to be the same command is one that gives the same bytes. */
static void an_answer_says_its_command(void **state)
{
    (void)state;
    served s = serve_start();
    serve_enter(&s);
    reply r = serve_get(&s, "/api/sheet?craft=hedgerow&try=bumper%3Doff&loadout=race");
    assert_string_equal(reply_header(&r, "Pare-Command"),
                        "pare sheet hedgerow --try=bumper=off --loadout=race");
    reply_free(&r);
    r = serve_get(&s, "/api/parts?condition=mass%3C30g");
    assert_string_equal(reply_header(&r, "Pare-Command"), "pare parts 'mass<30g'");
    reply_free(&r);
    serve_stop(&s, SIGTERM);
}

/* Each report that the page may offer can be had, and is of its kind. */
static void every_report_that_is_offered_is_there(void **state)
{
    (void)state;
    static const struct {
        const char *ending, *begins;
    } known[] = {{"html", "<"}, {"pdf", "%PDF-"}, {"svg", "<"}, {"png", "\x89PNG"}, {"xlsx", "PK"}};
    served s = serve_start();
    serve_enter(&s);
    reply r = serve_get(&s, "/api/session");
    json_t *said = json_loads(r.body, 0, NULL), *reports = json_object_get(said, "reports");
    reply_free(&r);
    assert_true(json_array_size(reports) >= 4);
    for (size_t i = 0; i < json_array_size(reports); i++) {
        const char *ending = json_string_value(json_array_get(reports, i));
        char target[128];
        size_t k = 0;
        while (k < sizeof known / sizeof known[0] && strcmp(known[k].ending, ending) != 0)
            k++;
        assert_true(k < sizeof known / sizeof known[0]);
        snprintf(target, sizeof target, "/api/report?craft=bodkin&as=%s", ending);
        r = serve_get(&s, target);
        if (r.code != 200 || memcmp(r.body, known[k].begins, strlen(known[k].begins)) != 0)
            fail_msg("%s: %d, no such file", target, r.code);
        reply_free(&r);
    }
    /* What the command takes of paper and of the best set, this takes. */
    r = serve_get(&s, "/api/report?craft=thimble&as=pdf&paper=letter&best=1&time=5");
    assert_int_equal(r.code, 200);
    assert_string_equal(reply_header(&r, "Pare-Command"),
                        "pare report thimble --paper=letter --best --time=5 --output=thimble.pdf");
    FILE *file = fopen("letter.pdf", "wb");
    assert_true(file && fwrite(r.body, r.length, 1, file) == 1 && fclose(file) == 0);
    pdf_box first; /* ANSI/ASME Y14.1, in points */
    (void)pdf_pages("letter.pdf", 1, &first);
    assert_near(first.right, 612, 1e-2);
    assert_near(first.top, 792, 1e-2);
    reply_free(&r);
    assert_refused(serve_get(&s, "/api/report?craft=bodkin&as=svg&best=1"), 400,
                   "a picture has no room for the best set");
    assert_refused(serve_get(&s, "/api/report?craft=bodkin&as=pdf&paper=a3"), 400,
                   "right would be a4 or letter");
    assert_refused(serve_get(&s, "/api/report?craft=bodkin&as=pdf&best=yes"), 400,
                   "right would be best=1");
    assert_refused(serve_get(&s, "/api/report?craft=bodkin&as=docx"), 400,
                   "/api/report is had as=html");
    json_decref(said);
    serve_stop(&s, SIGTERM);
}

/* The words of a refusal are the command's own. */
static void what_the_command_refuses_is_refused_in_its_words(void **state)
{
    (void)state;
    served s = serve_start();
    serve_enter(&s);
    assert_refused(serve_get(&s, "/api/sheet?craft=hedgero"), 404,
                   "no craft 'hedgero'; did you mean hedgerow?");
    assert_refused(serve_get(&s, "/api/craft/nosuch"), 404, "no craft 'nosuch'");
    assert_refused(serve_get(&s, "/api/parts/nosuch"), 404, "no part 'nosuch'");
    assert_refused(serve_get(&s, "/api/sheet?craft=hedgerow&try=bumper"), 404, "bumper");
    assert_refused(serve_get(&s, "/api/sheet?craft=hedgerow&loadout=none"), 404,
                   "no loadout 'none'");
    assert_refused(serve_get(&s, "/api/swaps?craft=hedgerow&wish=speed"), 400, "no wish 'speed'");
    assert_refused(serve_get(&s, "/api/sheet"), 400, "/api/sheet needs craft=NAME");
    assert_refused(serve_get(&s, "/api/sheet?craft=hedgerow&craft=bodkin"), 400,
                   "'craft' stands twice");
    assert_refused(serve_get(&s, "/api/sheet?craft=hedgerow&tri=x"), 400,
                   "/api/sheet takes no 'tri'; did you mean try?");
    assert_refused(serve_get(&s, "/api/craft?x=1"), 400, "/api/craft takes no 'x'");
    assert_refused(serve_get(&s, "/api/parts?lighter=yes"), 400, "right would be lighter=1");
    serve_stop(&s, SIGTERM);
}

/* A word from outside is never an option, whatever it looks like. */
static void nothing_from_outside_becomes_an_option(void **state)
{
    (void)state;
    served s = serve_start();
    serve_enter(&s);
    assert_refused(serve_get(&s, "/api/sheet?craft=--bench=/etc/passwd"), 404,
                   "no craft '--bench=/etc/passwd'");
    assert_refused(serve_get(&s, "/api/craft/--help"), 404, "no craft '--help'");
    assert_refused(serve_get(&s, "/api/craft/..%2f..%2fetc%2fpasswd"), 404, "no craft '../../etc");
    assert_refused(serve_get(&s, "/api/parts?word=-o&kind=motor&for="), 400, "");
    assert_refused(serve_get(&s, "/api/sheet?craft=hedgerow%00x"), 400, "NUL");
    serve_stop(&s, SIGTERM);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_answer_is_the_commands),
        cmocka_unit_test(what_others_change_is_seen),
        cmocka_unit_test(packed_answers_hold_the_same_bytes),
        cmocka_unit_test(an_answer_says_its_command),
        cmocka_unit_test(every_report_that_is_offered_is_there),
        cmocka_unit_test(what_the_command_refuses_is_refused_in_its_words),
        cmocka_unit_test(nothing_from_outside_becomes_an_option),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
