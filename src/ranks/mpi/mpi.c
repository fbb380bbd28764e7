/* mpi.c: the module that lets ranks talk by MPI (see ranks/module.h). The only file that knows MPI.
 *
 * Open MPI waits for a message by asking for it without end, which takes a processor that another rank could
 * compute on. So a wait is a look and a sleep, in turns. Every message is whole bytes of one tag; who sends waits
 * until it is on its way, so a rank never has to keep what it sent. */
#include <limits.h>
#include <mpi.h>
#include <stdlib.h>
#include <time.h>

#include "ranks/module.h"

#define TAG          7
#define FIRST_NAP_US 20
#define LONG_NAP_US  200 /* what a message may wait for at most, besides what the machine takes */

/* What came last. */
typedef struct messages {
    char *bytes;
    size_t size;
} messages;

static bool grow(messages *m, size_t length)
{
    if (length <= m->size)
        return true;
    char *wider = realloc(m->bytes, length);
    if (!wider)
        return false;
    m->bytes = wider;
    m->size = length;
    return true;
}

static bool send_bytes(void *context, int to, const char *bytes, size_t length)
{
    (void)context;
    return length <= INT_MAX &&
           MPI_Send(bytes, (int)length, MPI_BYTE, to, TAG, MPI_COMM_WORLD) == MPI_SUCCESS;
}

static void nap(long us)
{
    const struct timespec time = {.tv_sec = 0, .tv_nsec = us * 1000};
    nanosleep(&time, NULL);
}

static int take_bytes(void *context, long wait_us, int *from, const char **bytes, size_t *length)
{
    messages *m = context;
    MPI_Status status;
    int there = 0, count = 0;
    for (long waited = 0, us = FIRST_NAP_US;; waited += us, us = us < LONG_NAP_US ? 2 * us : us) {
        if (MPI_Iprobe(MPI_ANY_SOURCE, TAG, MPI_COMM_WORLD, &there, &status) != MPI_SUCCESS)
            return -1;
        if (there || waited >= wait_us)
            break;
        nap(us);
    }
    if (!there)
        return 0;
    if (MPI_Get_count(&status, MPI_BYTE, &count) != MPI_SUCCESS || count < 0 ||
        !grow(m, (size_t)count + 1) ||
        MPI_Recv(m->bytes, count, MPI_BYTE, status.MPI_SOURCE, TAG, MPI_COMM_WORLD,
                 MPI_STATUS_IGNORE) != MPI_SUCCESS)
        return -1;
    m->bytes[count] = '\0';
    *from = status.MPI_SOURCE;
    *bytes = m->bytes;
    *length = (size_t)count;
    return 1;
}

static void end(void *context)
{
    messages *m = context;
    MPI_Finalize();
    free(m->bytes);
    free(m);
}

/* Ranks of one machine would read each other's memory, to spare a copy of what is long. Containers forbid that, and
 * our messages are short: they go through memory that is shared (Open MPI 4, then 5). */
static const char *const unless_said[][2] = {{"OMPI_MCA_btl_vader_single_copy_mechanism", "none"},
                                             {"OMPI_MCA_smsc", "^cma"}};

__attribute__((visibility("default"))) pare_ranks_begin_it pare_ranks_module_begin;

const char *pare_ranks_module_begin(pare_ranks_module *module)
{
    messages *m = calloc(1, sizeof *m);
    if (!m)
        return "out of memory";
    for (size_t i = 0; i < sizeof unless_said / sizeof unless_said[0]; i++)
        (void)setenv(unless_said[i][0], unless_said[i][1], 0);
    if (MPI_Init(NULL, NULL) != MPI_SUCCESS) {
        free(m);
        return "MPI does not start";
    }
    *module = (pare_ranks_module){
        .ranks = 1, .context = m, .send = send_bytes, .take = take_bytes, .end = end};
    if (MPI_Comm_set_errhandler(MPI_COMM_WORLD, MPI_ERRORS_RETURN) == MPI_SUCCESS &&
        MPI_Comm_rank(MPI_COMM_WORLD, &module->rank) == MPI_SUCCESS &&
        MPI_Comm_size(MPI_COMM_WORLD, &module->ranks) == MPI_SUCCESS)
        return NULL;
    end(m);
    return "MPI does not say which rank this is";
}
