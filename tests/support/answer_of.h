/* answer_of.h: what another program prints. */
#ifndef PARE_TESTS_ANSWER_OF_H
#define PARE_TESTS_ANSWER_OF_H

/** All that a command of the shell prints; its failure ends the test. For free(). */
char *answer_of(const char *command);

#endif
