/* ranks.c: finding the module (see ranks.h).
 *
 * It is looked for beside the program, where a build puts it, then where packages install it. Never in a
 * folder that the environment names: what is loaded runs as the user. */
#include "ranks/ranks.h"

#include <dlfcn.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define MODULE "pare-mpi.so"

/* Open MPI 4 and 5, what batch systems start it by, and others of its kind. */
static bool is_one_of_several(void)
{
    static const char *const said[] = {"OMPI_COMM_WORLD_SIZE", "PMIX_RANK", "PMI_RANK"};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
        if (getenv(said[i]))
            return true;
    return false;
}

static void *load(void)
{
    char path[PATH_MAX + sizeof MODULE + 1];
    const ssize_t length = readlink("/proc/self/exe", path, PATH_MAX);
    void *library = NULL;
    if (length > 0) {
        path[length] = '\0';
        char *slash = strrchr(path, '/');
        snprintf(slash ? slash + 1 : path, sizeof MODULE, "%s", MODULE);
        /* Open MPI loads parts of its own, which look for its names among all that is loaded. */
        library = dlopen(path, RTLD_NOW | RTLD_GLOBAL);
    }
    return library ? library : dlopen(PARE_MODULE_FOLDER "/" MODULE, RTLD_NOW | RTLD_GLOBAL);
}

pare_status pare_ranks_begin(pare_ranks *ranks, pare_error *err)
{
    *ranks = (pare_ranks){.of = {.rank = 0, .ranks = 1}};
    if (!is_one_of_several())
        return PARE_OK;
    void *library = load();
    if (!library)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "started as one of several, but what lets them talk is not there: install "
                         "the package pare-mpi, or start it alone (%s)",
                         dlerror());
    /* As POSIX has it for functions: by their bytes. */
    pare_ranks_begin_it *begin = NULL;
    void *symbol = dlsym(library, "pare_ranks_module_begin");
    memcpy(&begin, &symbol, sizeof begin);
    const char *why = begin ? begin(&ranks->of) : "no module of this program";
    if (!why) {
        ranks->library = library;
        return PARE_OK;
    }
    pare_fail(err, PARE_UNAVAILABLE, "the ranks cannot begin: %s", why);
    *ranks = (pare_ranks){.of = {.rank = 0, .ranks = 1}};
    dlclose(library);
    return PARE_UNAVAILABLE;
}

void pare_ranks_end(pare_ranks *ranks)
{
    if (!ranks->library)
        return;
    ranks->of.end(ranks->of.context);
    /* Stays loaded until the program ends: Open MPI leaves handlers behind. */
    ranks->library = NULL;
}
