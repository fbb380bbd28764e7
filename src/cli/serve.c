/* serve.c: `pare serve`: the page, on this machine.
 *
 * The server (src/serve) asks in the words of the command line; here they are read and answered as if
 * they had been typed. The link is printed before the command ends, since it ends when somebody stops
 * it: all other commands give their answer at the end. */
#include "serve/serve.h"

#include <errno.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/keep.h"
#include "cli/timed.h"
#include "cli/use.h"
#include "show/json.h"

enum { PORT = 7273, MOST_PORT = 65535 };
#define LONGEST_S 1e8

extern char **environ;

static pare_status answer(void *context, size_t words, char *const word[],
                          const pare_progress *progress, pare_text *out, pare_error *err)
{
    const command *wanted = command_named(word[0], err);
    if (!wanted)
        return err->status;
    options given = {0};
    const pare_status status =
        options_read(wanted->name, (int)words, word, 1, wanted->options, &given, err);
    if (status != PARE_OK)
        return status;
    given.progress = progress;
    /* These look at a bench and leave it as it is. */
    if (wanted == &command_sheet || wanted == &command_swaps || wanted == &command_compare)
        given.keep = context;
    /* What came over the network is a file in a folder for the moment: only its name means something. */
    const char *slash =
        wanted == &command_import && given.operands ? strrchr(given.operand[0], '/') : NULL;
    given.shown = slash ? slash + 1 : NULL;
    return wanted->run(&given, out, err);
}

static pare_status read_port(const options *given, unsigned short *port, pare_error *err)
{
    *port = PORT;
    if (!given->port)
        return PARE_OK;
    char *end = NULL;
    errno = 0;
    const long number = strtol(given->port, &end, 10);
    if (errno || end == given->port || *end || number < 0 || number > MOST_PORT)
        return pare_fail(err, PARE_BAD_DATA, "--port '%s'; right would be 0 to %d", given->port,
                         MOST_PORT);
    *port = (unsigned short)number;
    return PARE_OK;
}

/* Another address would need a password and TLS, or everybody in the network could change the bench. */
static pare_status read_listen(const options *given, unsigned short port, pare_error *err)
{
    if (!given->listen || strcmp(given->listen, "127.0.0.1") == 0 ||
        strcmp(given->listen, "localhost") == 0)
        return PARE_OK;
    return pare_fail(
        err, PARE_BAD_DATA,
        "--listen '%.60s': only this machine is answered, 127.0.0.1; for another, type "
        "there: ssh -L %hu:127.0.0.1:%hu THIS-MACHINE",
        given->listen, port ? port : PORT, port ? port : PORT);
}

static pare_status read_time(const options *given, struct timespec *most, pare_error *err)
{
    *most = (struct timespec){0};
    if (!given->time)
        return PARE_OK;
    double seconds;
    if (!timed_read(given->time, LONGEST_S, &seconds) || seconds == 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "--time '%s': a number of seconds is due, above 0 and up to %g",
                         given->time, LONGEST_S);
    most->tv_sec = (time_t)seconds;
    most->tv_nsec = (long)((seconds - (double)most->tv_sec) * 1e9);
    return PARE_OK;
}

/* ---- the link ---- */

static pare_status say(const pare_server *server, bool json, pare_error *err)
{
    pare_text line = {0};
    if (json) {
        json_t *object = json_object();
        json_object_set_new(object, "link", json_string(pare_server_link(server)));
        json_object_set_new(object, "page", json_boolean(pare_server_has_page()));
        pare_json_write(object, &line);
    } else {
        pare_text_printf(&line, "%s\n", pare_server_link(server));
        if (!pare_server_has_page())
            pare_text_add(&line, "This build has no page in it, only the answers under /api/; "
                                 "./dev page builds it.\n");
        pare_text_add(&line, "The link lets one browser in, once. Ctrl-C ends.\n");
    }
    pare_status status = line.failed ? pare_no_memory(err) : PARE_OK;
    if (status == PARE_OK &&
        (fwrite(line.bytes, 1, line.length, stdout) != line.length || fflush(stdout) != 0))
        status = pare_fail(err, PARE_UNAVAILABLE, "standard output: %s", strerror(errno));
    pare_text_free(&line);
    return status;
}

/* For somebody who sits before it. Where no browser opens, the link has been said. */
static void open_browser(const pare_server *server)
{
    static char opener[] = "xdg-open";
    const char *x = getenv("DISPLAY"), *wayland = getenv("WAYLAND_DISPLAY");
    if (!isatty(STDOUT_FILENO) || !((x && *x) || (wayland && *wayland)))
        return;
    pare_text link = {0};
    pare_text_add(&link, pare_server_link(server));
    char *const argv[] = {opener, link.bytes, NULL};
    pid_t child;
    if (!link.failed)
        posix_spawnp(&child, opener, NULL, NULL, argv, environ);
    pare_text_free(&link);
}

/* ---- until somebody ends it ---- */

/* Signals are waited for, not caught: so no thread of the server is ever interrupted. They are held
 * back before there are threads, which inherit that. */
static void hold_signals(sigset_t *ending)
{
    sigemptyset(ending);
    sigaddset(ending, SIGINT);
    sigaddset(ending, SIGTERM);
    sigaddset(ending, SIGHUP);
    pthread_sigmask(SIG_BLOCK, ending, NULL);
    signal(SIGPIPE, SIG_IGN); /* a browser that goes away ends a connection, not the server */
}

static void wait_for_end(const sigset_t *ending, const struct timespec *most)
{
    const bool for_ever = most->tv_sec == 0 && most->tv_nsec == 0;
    int got = -1;
    do
        got = for_ever ? sigwaitinfo(ending, NULL) : sigtimedwait(ending, NULL, most);
    while (got < 0 && errno == EINTR);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    (void)out;
    pare_text path = {0};
    pare_server *server = NULL;
    struct timespec most;
    sigset_t ending;
    bench_keep *keep = bench_keep_open();
    pare_serve_settings settings = {.answer = answer, .context = keep};
    bench_in_use use = {0};
    pare_status status = keep ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("serve", given, 0, 0, "no words", err);
    if (status == PARE_OK)
        status = read_port(given, &settings.port, err);
    if (status == PARE_OK)
        status = read_listen(given, settings.port, err);
    if (status == PARE_OK)
        status = read_time(given, &most, err);
    if (status == PARE_OK)
        status = bench_open(given, PARE_STORE_READ, &use, err);
    if (status == PARE_OK)
        status = bench_path(given, false, &path, err);
    bench_leave(&use);
    if (status == PARE_OK) {
        hold_signals(&ending);
        settings.bench = path.bytes;
        status = pare_server_start(&settings, &server, err);
    }
    if (status == PARE_OK)
        status = say(server, given->given & OPTION_JSON, err);
    if (status == PARE_OK && (given->given & (OPTION_NO_OPEN | OPTION_JSON)) == 0)
        open_browser(server);
    if (status == PARE_OK)
        wait_for_end(&ending, &most);
    pare_server_stop(server);
    bench_keep_close(keep);
    pare_text_free(&path);
    return status;
}

const command command_serve = {
    .name = "serve",
    .line = "the page: see the grams, try a swap, on this machine",
    .usage = "pare serve [--port NUMBER] [--listen ADDRESS] [--no-open] [--time SECONDS]\n"
             "           [--json]",
    .details = "Prints a link, and answers until Ctrl-C. The link lets one browser in, once;\n"
               "what it shows and changes is the bench's, and pare undo takes a change back.\n"
               "Only this machine is answered; ssh -L 7273:127.0.0.1:7273 HOST, typed on\n"
               "another, brings it there. Under /api/ stand the same answers as --json gives.\n",
    .caution = "Whoever can open the link can change the bench.",
    .example = "  pare serve --no-open --port 0 --time 1\n",
    .options =
        OPTION_BENCH | OPTION_JSON | OPTION_PORT | OPTION_LISTEN | OPTION_NO_OPEN | OPTION_TIME,
    .meaning = {{OPTION_TIME, "end after so long; otherwise when it is stopped"},
                {OPTION_JSON, "the link as JSON: {\"link\", \"page\"}"}},
    .run = run,
};
