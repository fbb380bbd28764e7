/* mutant.c: which change a process makes is in its environment, PARE_MUTANT; where PARE_MUTANTS_REACHED
 * names a file, the numbers of all places that it came by are added to it, one a line. */
#include "mutant.h"

#include <stdio.h>
#include <stdlib.h>

unsigned pare_mutant_made;
unsigned char pare_mutant_reached[PARE_MUTANTS];

__attribute__((constructor)) static void choose(void)
{
    const char *made = getenv("PARE_MUTANT");
    if (made)
        pare_mutant_made = (unsigned)strtoul(made, NULL, 10);
}

__attribute__((destructor)) static void tell(void)
{
    const char *path = getenv("PARE_MUTANTS_REACHED");
    FILE *file = path ? fopen(path, "a") : NULL;
    if (!file)
        return;
    for (unsigned i = 1; i < PARE_MUTANTS; i++)
        if (pare_mutant_reached[i])
            fprintf(file, "%u\n", i);
    fclose(file);
}
