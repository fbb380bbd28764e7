/* fuzz.h: what the fuzz targets share.
 *
 * Each tests/fuzz/NAME.c hands bytes of a stranger to one reader and holds what comes back against what
 * the reader promises; a broken promise aborts. With clang (./dev fuzz) libFuzzer drives it; in every
 * other build replay.c hands it the inputs of seeds/NAME, among them all that once broke something. */
#ifndef PARE_TESTS_FUZZ_H
#define PARE_TESTS_FUZZ_H

#include <stddef.h>
#include <stdint.h>

#include "base/error.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/** Aborts with what was promised, where it does not hold. */
void fuzz_expect(int holds, const char *promised);

/** A refusal says why in one line; an answer is no refusal. @return whether it is PARE_OK */
int fuzz_answered(pare_status status, const pare_error *err);

/** The bytes as a text of their own, ended by a zero; free() it. */
char *fuzz_text(const uint8_t *bytes, size_t length);

/** A file of this program alone, in memory where the machine has such a place, that is gone once the
 * program ends. The same path at every call with the same name. */
const char *fuzz_path(const char *name);
void fuzz_write(const char *path, const void *bytes, size_t length);

#endif
