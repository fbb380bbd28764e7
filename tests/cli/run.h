/* run.h: running the built program as a user does, in a home of its own. */
#ifndef PARE_TESTS_RUN_H
#define PARE_TESTS_RUN_H

#include "near.h"

#include <jansson.h>

typedef struct ran {
    int status;
    char *out, *err; /* all of standard output and error; paths of the home read "HOME" */
} ran;

/** A fresh home, which becomes the working folder, with an empty data folder; and the same with the
 * demo's bench in it. For cmocka's group setup; leave_home for its teardown. */
int enter_home(void **state);
int enter_home_with_demo(void **state);
int leave_home(void **state);

/** Fills the demo's bench anew, whatever a test before has made of it. For cmocka's setup of a test. */
int fill_demo(void **state);

/** Runs "pare" with the words of a line, split at spaces; '~' stands for a space in a word.
 * Ends the test when the program cannot be started or is ended by a signal. */
ran run(const char *line);
void ran_free(ran *r);

/** Runs, and wants nothing on standard error, exit status 0 and just this on standard output. */
void run_prints(const char *line, const char *wanted);
/** The same, with the answer in a golden file. */
void run_prints_golden(const char *golden, const char *line);
/** Runs, and wants nothing on standard output, this exit status and just this on standard error. */
void run_refuses(const char *line, int status, const char *wanted);

/** Runs, and wants exit status 0, whatever it prints. */
void run_quietly(const char *line);
/** The name of the demo's bench, or its address where that is on a server: for what run() does not start. */
const char *demo_bench(void);
/** The demo's bench as exported text, in the caller's memory. */
char *demo_text(void);

/** Runs, wants exit status 0, and reads its JSON. Release with json_decref(). */
json_t *run_json(const char *line);

/** A number of an object by its key; a missing key or null ends the test. */
double number(const json_t *object, const char *key);

/** The demo's bench, for --bench. */
#define DEMO " --bench data/pare/demo.sqlite"

/** A file in the working folder. */
void write_file(const char *name, const void *bytes, size_t length);
void write_text(const char *name, const char *text);
/** A file of nothing but so many zeros. */
void write_zeros(const char *name, long long bytes);
/** All of a file as text; NULL where it cannot be read. For free(). */
char *read_file(const char *name);
/** The same, where it must be there. */
char *whole_file(const char *file);
void is_same_file(const char *a, const char *b);

/** Compares with tests/cli/golden/NAME.txt; writes it instead where the environment says
 * PARE_GOLDEN=update. */
void assert_golden(const char *name, const char *text);

#endif
