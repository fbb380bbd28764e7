/* mutant.h: put before every source of a tree of mutants (see tools/mutate): whether the change of this
 * number is the one that is made. Each process makes one, or none. */
#ifndef PARE_TOOLS_MUTANT_H
#define PARE_TOOLS_MUTANT_H

enum { PARE_MUTANTS = 1 << 16 };

extern unsigned pare_mutant_made;
extern unsigned char pare_mutant_reached[PARE_MUTANTS];

static inline int pare_mutant(unsigned number)
{
    pare_mutant_reached[number] = 1;
    return number == pare_mutant_made;
}

#endif
