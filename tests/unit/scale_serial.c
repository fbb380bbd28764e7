/* rooms: store base */
/* Scales at a serial port, which is here one end of a pseudo-terminal: the other end is the scale. */
#define _XOPEN_SOURCE 700

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "near.h"
#include "store/scale_live.h"

typedef struct wire {
    int scale; /* its end */
    char path[128];
    pare_scale_port port;
} wire;

static pare_status open_at(const char *path, const char *speed, const char *pattern,
                           pare_scale_port *port, pare_error *err)
{
    char device[400];
    snprintf(device, sizeof device, "%s%s", path, speed);
    return pare_scale_open_serial(device, pattern, port, err);
}

static wire plug_in(const char *speed, const char *pattern)
{
    wire w = {.scale = posix_openpt(O_RDWR | O_NOCTTY)};
    pare_error err = {0};
    assert_true(w.scale >= 0 && grantpt(w.scale) == 0 && unlockpt(w.scale) == 0);
    snprintf(w.path, sizeof w.path, "%s", ptsname(w.scale));
    if (open_at(w.path, speed, pattern, &w.port, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return w;
}

static void pull_out(wire *w)
{
    w->port.close(w->port.context);
    if (w->scale >= 0)
        close(w->scale);
}

static void say(const wire *w, const char *line)
{
    assert_int_equal(write(w->scale, line, strlen(line)), (ssize_t)strlen(line));
}

static pare_status hear(const wire *w, pare_scale_seen *seen, bool *any, double *waited_s,
                        pare_error *err)
{
    return w->port.next(w->port.context, seen, any, waited_s, err);
}

static void each_speed_is_set_and_no_other_taken(void **state)
{
    (void)state;
    static const struct {
        const char *said;
        speed_t speed;
    } speeds[] = {{"", B9600},        {",1200", B1200},   {",2400", B2400},
                  {",4800", B4800},   {",9600", B9600},   {",19200", B19200},
                  {",38400", B38400}, {",57600", B57600}, {",115200", B115200}};
    for (size_t i = 0; i < sizeof speeds / sizeof speeds[0]; i++) {
        struct termios how;
        wire w = plug_in(speeds[i].said, NULL);
        assert_int_equal(tcgetattr(w.scale, &how), 0);
        assert_int_equal(cfgetispeed(&how), speeds[i].speed);
        assert_int_equal(how.c_lflag & (ECHO | ICANON), 0);
        pull_out(&w);
    }
}

static void a_line_is_a_reading_and_silence_is_none(void **state)
{
    (void)state;
    wire w = plug_in("", NULL);
    pare_scale_seen seen;
    pare_error err = {0};
    bool any = true;
    double waited_s = 0;
    assert_int_equal(hear(&w, &seen, &any, &waited_s, &err), PARE_OK);
    assert_false(any);
    assert_true(waited_s > 0); /* so that whoever waits may give up */
    say(&w, "\r\nST,GS,+  96.20 g\r\n");
    assert_int_equal(hear(&w, &seen, &any, &waited_s, &err), PARE_OK);
    assert_true(any && seen.weighs);
    assert_string_equal(seen.text, "96.20 g");
    pull_out(&w);
}

/* Twenty lines of nothing known, as at a wrong speed. */
static pare_status listen(const wire *w, const char *line, pare_error *err)
{
    enum { LINES = 400 };
    for (int i = 0; i < LINES; i++) {
        pare_scale_seen seen;
        bool any = false;
        double waited_s = 0;
        say(w, line);
        const pare_status status = hear(w, &seen, &any, &waited_s, err);
        assert_false(any);
        if (status != PARE_OK)
            return status;
    }
    return PARE_OK;
}

static void what_is_no_line_of_the_pattern_is_said_after_a_while(void **state)
{
    (void)state;
    static const char *const noise[] = {"hello\n", "x\n"};
    for (size_t i = 0; i < sizeof noise / sizeof noise[0]; i++) {
        wire w = plug_in("", NULL);
        pare_error err = {0};
        assert_int_equal(listen(&w, noise[i], &err), PARE_BAD_DATA);
        assert_non_null(strstr(err.text, i ? "the scale sends 'x'" : "the scale sends 'hello'"));
        pull_out(&w);
    }
}

/* Bytes without end, longer than any line. */
static void a_line_without_an_end_is_said_after_a_while(void **state)
{
    (void)state;
    char endless[1200];
    wire w = plug_in(",115200", NULL);
    pare_error err = {0};
    memset(endless, 'z', sizeof endless - 1);
    endless[sizeof endless - 1] = '\0';
    assert_int_equal(listen(&w, endless, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "the scale sends 'zzzz"));
    pull_out(&w);
}

static void a_scale_that_is_pulled_out_is_gone(void **state)
{
    (void)state;
    wire w = plug_in("", NULL);
    pare_scale_seen seen;
    pare_error err = {0};
    bool any = true;
    double waited_s = 0;
    close(w.scale);
    w.scale = -1;
    assert_int_equal(hear(&w, &seen, &any, &waited_s, &err), PARE_UNAVAILABLE);
    assert_string_equal(err.text,
                        "the scale is gone; right would be to plug it in and weigh again");
    pull_out(&w);
}

static void what_is_no_port_is_refused_in_one_line(void **state)
{
    (void)state;
    char long_path[300], long_pattern[600];
    memset(long_path, 'p', sizeof long_path - 1);
    long_path[sizeof long_path - 1] = '\0';
    memset(long_pattern, ' ', sizeof long_pattern);
    memcpy(long_pattern, "{weight}", 8);
    long_pattern[sizeof long_pattern - 1] = '\0';
    const struct {
        const char *device, *pattern, *wanted;
        pare_status status;
    } cases[] = {
        {"/nowhere/tty", NULL,
         "/nowhere/tty: No such file or directory; right would be a serial port that is there, and "
         "leave to read it (group dialout)",
         PARE_UNAVAILABLE},
        {"/dev/null", NULL, "/dev/null is no serial port; right would be like /dev/ttyUSB0",
         PARE_BAD_DATA},
        {"/dev/null,300", NULL,
         "'300' bit/s; right would be 1200, 2400, 4800, 9600, 19200, 38400, 57600 or 115200",
         PARE_BAD_DATA},
        {long_path, NULL, "the port is too long; right would be under 256 letters", PARE_BAD_DATA},
        {"/dev/null", long_pattern, NULL, PARE_BAD_DATA},
        {"/dev/null", "{mass}", NULL, PARE_BAD_DATA},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pare_scale_port port;
        pare_error err = {0};
        assert_int_equal(open_at(cases[i].device, "", cases[i].pattern, &port, &err),
                         cases[i].status);
        if (cases[i].wanted)
            assert_string_equal(err.text, cases[i].wanted);
        assert_null(strchr(err.text, '\n'));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_speed_is_set_and_no_other_taken),
        cmocka_unit_test(a_line_is_a_reading_and_silence_is_none),
        cmocka_unit_test(what_is_no_line_of_the_pattern_is_said_after_a_while),
        cmocka_unit_test(a_line_without_an_end_is_said_after_a_while),
        cmocka_unit_test(a_scale_that_is_pulled_out_is_gone),
        cmocka_unit_test(what_is_no_port_is_refused_in_one_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
