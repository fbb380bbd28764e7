/* weigh_live.c: `pare weigh --live` on a serial scale that is the other end of a pseudo terminal, and on a
 * USB scale that is a hidapi of our own (tests/emulated/hid.c), which the program loads in the place of
 * the machine's. */
#define _XOPEN_SOURCE 700
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "run.h"

/* A scale that says these lines over and over, some fifty a second, until it is switched off. */
typedef struct fake {
    int master;
    pid_t who;
    const char *port;
} fake;

static void send_for_ever(int master, const char *const lines[])
{
    const struct timespec pause = {0, 20000000};
    for (size_t i = 0;; i++) {
        if (!lines[i])
            i = 0;
        if (write(master, lines[i], strlen(lines[i])) < 0 || write(master, "\r\n", 2) < 0)
            _exit(0);
        nanosleep(&pause, NULL);
    }
}

static fake switch_on(const char *const lines[])
{
    fake f = {.master = posix_openpt(O_RDWR | O_NOCTTY)};
    assert_true(f.master >= 0);
    assert_int_equal(grantpt(f.master), 0);
    assert_int_equal(unlockpt(f.master), 0);
    f.port = ptsname(f.master);
    assert_non_null(f.port);
    f.who = fork();
    assert_true(f.who >= 0);
    if (f.who == 0)
        send_for_ever(f.master, lines);
    return f;
}

static void switch_off(const fake *f)
{
    kill(f->who, SIGKILL);
    waitpid(f->who, NULL, 0);
    close(f->master);
}

static ran weigh_on(const char *const lines[], const char *what, const char *more)
{
    char line[512];
    const fake f = switch_on(lines);
    snprintf(line, sizeof line, "weigh hedgerow %s --live %s --date 2026-10-02%s" DEMO, what,
             f.port, more);
    const ran r = run(line);
    switch_off(&f);
    return r;
}

static void a_serial_scale_is_read_and_its_readings_are_kept(void **state)
{
    (void)state;
    static const char *const lines[] = {"ST,GS,+   0.00 g",
                                        "ST,GS,+   0.00 g",
                                        "US,GS,+  61.20 g",
                                        "ST,GS,+ 118.40 g",
                                        "ST,GS,+ 118.40 g",
                                        "ST,GS,+ 118.40 g",
                                        NULL};
    ran r = weigh_on(lines, "frame frame", "");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.err, "frame: put it on the scale and wait.\n"));
    assert_non_null(strstr(r.err, "frame: empty the scale, put it on and wait.\n"));
    assert_non_null(strstr(r.err, "Kept: 1 frame, 118.40 g; promised "));
    ran_free(&r);
    char *text = demo_text();
    const char *first = strstr(text, "  date: 2026-10-02\n  of: {frame: 1}\n  reads: 118.40 g\n");
    assert_non_null(first);
    assert_non_null(strstr(first + 1, "  date: 2026-10-02\n  of: {frame: 1}\n  reads: 118.40 g\n"));
    free(text);
}

static void a_pattern_reads_another_scale(void **state)
{
    (void)state;
    static const char *const lines[] = {"W:  9.6 GR/ok", NULL};
    ran r = weigh_on(lines, "frame", " --pattern W:{weight}GR/ok");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.err, "Kept: 1 frame, 9.6 g"));
    ran_free(&r);
}

static void refused(const char *const lines[], const char *says)
{
    char *before = demo_text();
    ran r = weigh_on(lines, "frame", "");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, says));
    ran_free(&r);
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(before);
}

static void what_it_cannot_weigh_is_said_and_nothing_is_kept(void **state)
{
    (void)state;
    static const char *const over[] = {"OL,GS,+-------g", NULL}, *const under[] = {
                                                                     "ST,GS,-  3.10 g", NULL};
    static const char *const carats[] = {"ST,GS,+ 12.5 ct", NULL}, *const noise[] = {"\x02??x",
                                                                                     NULL};
    refused(over, "pare: 'frame': the scale: it bears no more (overload)");
    refused(under, "pare: 'frame': the scale: it shows less than nothing");
    refused(carats, "pare: 'frame': the scale weighs in 'ct'; right would be g");
    refused(noise, "pare: 'frame': the scale sends '???x', the pattern is '{state},{any},");
}

/* ---- an emulated HID scale ---- */

/* Report 3: a state, a unit, a power of ten, a weight of two bytes; by USB HID 1.11, 6.2.2, and page 0x8D. */
#define DESCRIPTOR                                                                                 \
    "058D0920A1018503"                                                                             \
    "0932A10219712978150125087508950181000950A1021951295C1501250C8100C0"                           \
    "09411581257F81020940150027FFFF000075108102C0C0\n"
#define REST(tenths)                                                                               \
    "030402FF" tenths "\n" /* at rest; grams; tenths as two bytes, the lower first */
#define EMPTY "030202FF0000\n"
#define MOVES "030302FF5000\n"

static ran weigh_usb(const char *script, const char *what)
{
    char line[256];
    write_text("scale.txt", script);
    assert_int_equal(setenv("LD_LIBRARY_PATH", PARE_EMULATED, 1), 0);
    assert_int_equal(setenv("PARE_EMULATED_SCALE", "scale.txt", 1), 0);
    snprintf(line, sizeof line, "weigh hedgerow %s --live usb --date 2026-10-03" DEMO, what);
    const ran r = run(line);
    unsetenv("PARE_EMULATED_SCALE");
    unsetenv("LD_LIBRARY_PATH");
    return r;
}

static void a_usb_scale_is_read_and_its_readings_are_kept(void **state)
{
    (void)state;
    /* 118.4 g, then taken off, then 61.2 g. */
    ran r = weigh_usb(DESCRIPTOR EMPTY MOVES REST("A004") REST("A004") REST("A004")
                          EMPTY MOVES REST("6402") REST("6402"),
                      "frame holder+action_camera");
    assert_string_equal(strstr(r.err, "pare:") ? r.err : "", "");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.err, "Kept: 1 frame, 118.4 g; promised "));
    assert_non_null(strstr(r.err, "Kept: 1 holder, 1 action_camera, 61.2 g; promised "));
    ran_free(&r);
    char *text = demo_text();
    const char *first = strstr(text, "date: 2026-10-03, of: {frame: 1}, reads: 118.4 g, promise: ");
    assert_non_null(first);
    assert_non_null(strstr(first, "  of: {holder: 1, action_camera: 1}\n  reads: 61.2 g\n"));
    free(text);
}

static void what_a_usb_scale_cannot_weigh_is_said_and_nothing_is_kept(void **state)
{
    (void)state;
    static const struct {
        const char *script;
        int status;
        const char *says;
    } bad[] = {
        {DESCRIPTOR "030602FF0000\n", 3, "pare: 'frame': the scale: it bears no more (overload)"},
        {DESCRIPTOR "030502FF1F00\n", 3, "pare: 'frame': the scale: it shows less than nothing"},
        {DESCRIPTOR "03040AFF1F00\n", 3, "pare: 'frame': the scale weighs in troy ounces; right "},
        {DESCRIPTOR "09\n09FF\n0901020304\n", 3,
         "pare: 'frame': the scale sends reports without a weight in them\n"},
        {DESCRIPTOR EMPTY MOVES "gone\n", 4,
         "pare: 'frame': the scale is gone; right would be to "},
        {"05010906A101C0\n", 3, "pare: that is no scale: it describes no weight"},
        {"none\n", 4, "pare: no USB scale is there; right would be one that is plugged in"},
        {"locked\n", 4, "pare: /dev/hidraw-emulated cannot be opened; right would be leave"},
    };
    char *before = demo_text();
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ran r = weigh_usb(bad[i].script, "frame");
        if (r.status != bad[i].status || !strstr(r.err, bad[i].says))
            fail_msg("%zu: exit %d: %s", i, r.status, r.err);
        ran_free(&r);
    }
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(before);
}

static void what_cannot_be_a_live_scale_is_said(void **state)
{
    (void)state;
    write_text("plain.txt", "ST,GS,+ 1.00 g\n");
    run_refuses(
        "weigh hedgerow --live usb" DEMO, 3,
        "pare: weigh --live needs what will lie on the scale; right would be like pare weigh "
        "hedgerow frame 10*motor_base --live usb\n");
    run_refuses("weigh hedgerow frame=3g --live usb" DEMO, 3,
                "pare: 'frame=3g' has its reading already; right would be its name alone, or no "
                "--live\n");
    run_refuses("weigh hedgerow fram --live usb" DEMO, 2,
                "pare: nothing 'fram' on hedgerow; did you mean frame?\n");
    run_refuses("weigh hedgerow frame --live parlour" DEMO, 3,
                "pare: no scale 'parlour'; right would be usb, or a serial port like "
                "/dev/ttyUSB0\n");
    run_refuses("weigh hedgerow frame --live /dev/null" DEMO, 3,
                "pare: /dev/null is no serial port; right would be like /dev/ttyUSB0\n");
    run_refuses("weigh hedgerow frame --live /dev/null,12" DEMO, 3,
                "pare: '12' bit/s; right would be 1200, 2400, 4800, 9600, 19200, 38400, 57600 or "
                "115200\n");
    run_refuses(
        "weigh hedgerow frame --live /dev/nowhere" DEMO, 4,
        "pare: /dev/nowhere: No such file or directory; right would be a serial port that is "
        "there, and leave to read it (group dialout)\n");
    run_refuses("weigh hedgerow frame --live /dev/null --pattern {unit}" DEMO, 3,
                "pare: pattern '{unit}' has no {weight}; right would be like "
                "{state},{any},{weight}{unit}\n");
    run_refuses("weigh hedgerow frame --pattern {weight}" DEMO, 3,
                "pare: weigh --pattern goes with --live\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_serial_scale_is_read_and_its_readings_are_kept, fill_demo),
        cmocka_unit_test_setup(a_pattern_reads_another_scale, fill_demo),
        cmocka_unit_test(what_it_cannot_weigh_is_said_and_nothing_is_kept),
        cmocka_unit_test_setup(a_usb_scale_is_read_and_its_readings_are_kept, fill_demo),
        cmocka_unit_test(what_a_usb_scale_cannot_weigh_is_said_and_nothing_is_kept),
        cmocka_unit_test(what_cannot_be_a_live_scale_is_said),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
