/* long_work.c: progress on a terminal, and stopping (see long_work.h).
 *
 * The line goes to standard error and is overwritten in place. It is shown only to somebody who sees
 * it and whom it cannot disturb: standard error is a terminal, and standard output is one too, or a
 * file. In a pipe what reads it may use the same terminal.
 *
 * The handler only puts down which signal came; a handler can do little else safely, so this one
 * variable of the program is global. */
#include "cli/long_work.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define FIRST_S 1.0 /* what is quicker needs no progress */
#define AGAIN_S 0.1

static volatile sig_atomic_t stopped_by;

static void put_down(int signal_number)
{
    stopped_by = signal_number;
}

static double seconds(const struct timespec *from, const struct timespec *to)
{
    return (double)(to->tv_sec - from->tv_sec) + 1e-9 * (double)(to->tv_nsec - from->tv_nsec);
}

static bool is_seen(bool json)
{
    const char *terminal = getenv("TERM");
    struct stat out;
    if (!isatty(STDERR_FILENO) || (terminal && strcmp(terminal, "dumb") == 0))
        return false;
    return isatty(STDOUT_FILENO) ||
           (!json && fstat(STDOUT_FILENO, &out) == 0 && S_ISREG(out.st_mode));
}

void long_work_begin(long_work *work, bool json)
{
    *work = (long_work){.shows = is_seen(json)};
    clock_gettime(CLOCK_MONOTONIC, &work->started);
    work->last = work->started;
}

static void clear(long_work *work)
{
    if (work->shown) {
        fputs("\r\033[K", stderr);
        fflush(stderr);
    }
    work->shown = false;
}

static bool step(void *context, const char *doing, size_t done, size_t all)
{
    long_work *work = context;
    struct timespec now;
    if (doing && !*doing)
        clear(work);
    if (stopped_by)
        return false;
    if (!work->shows || !doing || !*doing)
        return true;
    clock_gettime(CLOCK_MONOTONIC, &now);
    if (seconds(&work->started, &now) < FIRST_S || seconds(&work->last, &now) < AGAIN_S)
        return true;
    work->last = now;
    work->shown = true;
    /* To the first column, the line, and nothing of the one before behind it. */
    fprintf(stderr, "\rpare: %s", doing);
    if (done > 0)
        fprintf(stderr, " %zu", done);
    if (all > 0)
        fprintf(stderr, " of %zu", all);
    fputs("\033[K", stderr);
    fflush(stderr);
    return true;
}

pare_progress long_work_progress(long_work *work)
{
    return (pare_progress){.step = step, .context = work};
}

static void answer_signals(void (*handler)(int))
{
    static const int signals[] = {SIGINT, SIGTERM};
    for (size_t i = 0; i < sizeof signals / sizeof signals[0]; i++) {
        struct sigaction before, action = {.sa_handler = handler, .sa_flags = (int)SA_RESETHAND};
        /* Who started us with the signal ignored (nohup, a job in the background) wants that. */
        if (sigaction(signals[i], NULL, &before) == 0 && before.sa_handler != SIG_IGN)
            sigaction(signals[i], &action, NULL);
    }
}

void long_work_catch(void)
{
    answer_signals(put_down);
}

void long_work_release(pare_status status)
{
    answer_signals(SIG_DFL);
    if (status != PARE_STOPPED)
        stopped_by = 0;
}

void long_work_end(long_work *work)
{
    clear(work);
    work->shows = false;
}

void long_work_die(void)
{
    const int signal_number = stopped_by;
    if (!signal_number)
        return;
    signal(signal_number, SIG_DFL);
    raise(signal_number);
}
