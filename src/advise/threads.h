/* threads.h: how many threads a loop of like tasks is worth. Only this room uses it.
 *
 * Threads come from OpenMP, where Pare is built with it; without it every loop is one thread's, and
 * gives the same bits. OMP_NUM_THREADS sets how many there are at most. */
#ifndef PARE_ADVISE_THREADS_H
#define PARE_ADVISE_THREADS_H

#include <stddef.h>

#ifdef _OPENMP
#include <omp.h>
#endif

/** @param least  tasks for which one more thread is worth its start, some 0.1 ms */
static inline int pare_threads(size_t tasks, size_t least)
{
#ifdef _OPENMP
    const size_t most = (size_t)omp_get_max_threads(), worth = tasks / least;
    return worth < 2 ? 1 : (int)(worth < most ? worth : most);
#else
    (void)tasks;
    (void)least;
    return 1;
#endif
}

#endif
