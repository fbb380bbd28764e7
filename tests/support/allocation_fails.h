/* allocation_fails.h: the nth allocation of our own rooms fails. The linker puts these functions in the
 * place of malloc and its like (tests/CMakeLists.txt); include it once a program. */
#ifndef PARE_TESTS_ALLOCATION_FAILS_H
#define PARE_TESTS_ALLOCATION_FAILS_H

#include <stdlib.h>

#include "fails.h"

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);

void *__wrap_malloc(size_t size)
{
    return fails() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return fails() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size)
{
    return fails() ? NULL : __real_realloc(old, size);
}

#endif
