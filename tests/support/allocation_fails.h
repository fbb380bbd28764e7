/* allocation_fails.h: the nth allocation of our own rooms fails. The linker puts these functions in the
 * place of malloc and its like (tests/CMakeLists.txt); include it once a program. */
#ifndef PARE_TESTS_ALLOCATION_FAILS_H
#define PARE_TESTS_ALLOCATION_FAILS_H

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "near.h"

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);

static long until_failure = -1; /* below 0: none fails */

static bool fails(void)
{
    return until_failure >= 0 && until_failure-- == 0;
}

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

/* What was done with one allocation failing has worked, or says that there is no memory.
 * @param done  none failed any more: it must have worked */
static inline void expect_answer(pare_status status, const pare_error *err, bool done)
{
    if (done && status != PARE_OK)
        fail_msg("%s", err->text);
    if (status != PARE_OK) {
        assert_int_equal(status, PARE_UNAVAILABLE);
        assert_non_null(strstr(err->text, "memory"));
    }
}

#endif
