/* serve.c: `pare serve`: the page, on this machine, or on others by a password.
 *
 * The server (src/serve) asks in the words of the command line; here they are read and answered as if
 * they had been typed. The link is printed before the command ends, since it ends when somebody stops
 * it: all other commands give their answer at the end. */
#include "serve/serve.h"

#include <arpa/inet.h>
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
#include "cli/secret.h"
#include "cli/timed.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/bench.h"

enum { PORT = 7273, MOST_PORT = 65535 };
static const char CERTIFICATE[] = "listen.pem"; /* beside the benches */
static const char OPEN_TO_OTHERS[] =
    "Other machines may ask: whoever has the password can read and change the bench.";
#define LONGEST_S 1e8

extern char **environ;

/** What the server is started with, and what of it is ours to release. */
typedef struct opening {
    pare_serve_settings settings;
    pare_text path;     /* of the bench */
    pare_text own;      /* of our certificate */
    pare_text password; /* wiped as soon as the server has it */
} opening;

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

/* Where other machines may ask, everybody in the network would otherwise read and change the bench. */
static pare_status read_listen(const options *given, opening *o, pare_error *err)
{
    unsigned char bytes[16];
    const char *address = given->listen;
    if (!address || strcmp(address, "127.0.0.1") == 0 || strcmp(address, "localhost") == 0) {
        if (given->password_file || given->certificate)
            return pare_fail(err, PARE_BAD_DATA,
                             "--%s goes with --listen ADDRESS; this machine alone needs none",
                             given->password_file ? "password-file" : "certificate");
        return PARE_OK;
    }
    if (inet_pton(AF_INET, address, bytes) != 1 && inet_pton(AF_INET6, address, bytes) != 1)
        return pare_fail(err, PARE_BAD_DATA,
                         "--listen '%.60s'; right would be an address of this machine by number, "
                         "such as 192.168.1.20, or 0.0.0.0 for all it has",
                         address);
    pare_status status = secret_read(given->password_file, given->progress, &o->password, err);
    if (status == PARE_OK && !given->certificate)
        status = pare_store_default_path(false, &o->own, err);
    if (status != PARE_OK)
        return status;
    if (!given->certificate) {
        const char *slash = strrchr(o->own.bytes, '/');
        o->own.length = (size_t)(slash - o->own.bytes) + 1;
        pare_text_add(&o->own, CERTIFICATE);
    }
    if (o->own.failed)
        return pare_no_memory(err);
    o->settings.address = address;
    o->settings.password = o->password.bytes;
    o->settings.certificate = given->certificate;
    o->settings.own = o->own.bytes;
    return PARE_OK;
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
    const char *fingerprint = pare_server_fingerprint(server);
    if (fingerprint && !json)
        fprintf(stderr, "pare: warning: %s\n", OPEN_TO_OTHERS);
    if (json) {
        json_t *object = json_object();
        json_object_set_new(object, "link", json_string(pare_server_link(server)));
        json_object_set_new(object, "page", json_boolean(pare_server_has_page()));
        if (fingerprint) {
            json_object_set_new(object, "fingerprint", json_string(fingerprint));
            json_object_set_new(object, "caution", json_string(OPEN_TO_OTHERS));
        }
        pare_json_write(object, &line);
    } else {
        pare_text_printf(&line, "%s\n", pare_server_link(server));
        if (!pare_server_has_page())
            pare_text_add(&line, "This build has no page in it, only the answers under /api/; "
                                 "./dev page builds it.\n");
        if (fingerprint)
            pare_text_printf(&line,
                             "The password lets in. A browser may warn that it does not know the "
                             "certificate;\ngo on only if what it shows as SHA-256 is\n"
                             "%.48s\n%s\nCtrl-C ends.\n",
                             fingerprint, fingerprint + 48);
        else
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

/* What was typed, and the bench that it means. */
static pare_status prepare(const options *given, opening *o, struct timespec *most, pare_error *err)
{
    bench_in_use use = {0};
    pare_status status = need_operands("serve", given, 0, 0, "no words", err);
    if (status == PARE_OK)
        status = read_port(given, &o->settings.port, err);
    if (status == PARE_OK)
        status = read_time(given, most, err);
    if (status == PARE_OK)
        status = bench_open(given, PARE_STORE_READ, &use, err);
    if (status == PARE_OK)
        status = bench_path(given, false, &o->path, err);
    bench_leave(&use);
    o->settings.bench = o->path.bytes;
    return status == PARE_OK ? read_listen(given, o, err) : status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    (void)out;
    pare_server *server = NULL;
    struct timespec most;
    sigset_t ending;
    bench_keep *keep = bench_keep_open();
    opening o = {.settings = {.answer = answer, .context = keep}};
    pare_status status = keep ? prepare(given, &o, &most, err) : pare_no_memory(err);
    if (status == PARE_OK) {
        hold_signals(&ending);
        status = pare_server_start(&o.settings, &server, err);
    }
    secret_wipe(&o.password);
    if (status == PARE_OK)
        status = say(server, given->given & OPTION_JSON, err);
    if (status == PARE_OK && (given->given & (OPTION_NO_OPEN | OPTION_JSON)) == 0 &&
        !o.settings.address)
        open_browser(server);
    if (status == PARE_OK)
        wait_for_end(&ending, &most);
    pare_server_stop(server);
    bench_keep_close(keep);
    pare_text_free(&o.path);
    pare_text_free(&o.own);
    return status;
}

const command command_serve = {
    .name = "serve",
    .line = "the page: see the grams, try a swap, in a browser",
    .usage = "pare serve [--port NUMBER] [--no-open] [--time SECONDS] [--json]\n"
             "           [--listen ADDRESS [--password-file FILE] [--certificate FILE]]",
    .details = "Prints a link, and answers until Ctrl-C. The link lets one browser in, once;\n"
               "what it shows and changes is the bench's, and pare undo takes a change back.\n"
               "Only this machine is answered, unless --listen names an address of it for\n"
               "others, a phone at the workbench: they come in over TLS and by a password, typed\n"
               "before it starts or in a file that only you can read. The certificate is made\n"
               "the first time, or your own; compare its fingerprint when the browser asks.\n"
               "With ssh there is no need: ssh -L 7273:127.0.0.1:7273 HOST, typed on another\n"
               "machine, brings the page there. Under /api/ are the answers that --json gives.\n",
    .caution = "Whoever can open the link, or has the password, can change the bench.",
    .example = "  pare serve --no-open --port 0 --time 1\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_PORT | OPTION_LISTEN | OPTION_PASSWORD |
               OPTION_CERTIFICATE | OPTION_NO_OPEN | OPTION_TIME,
    .meaning = {{OPTION_TIME, "end after so long; otherwise when it is stopped"},
                {OPTION_JSON, "the link as JSON: link, page; with --listen: fingerprint"}},
    .run = run,
};
