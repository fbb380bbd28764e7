/* server.h: benches on the PostgreSQL that tools/postgres started, for tests that run on both kinds. */
#ifndef PARE_TESTS_SERVER_H
#define PARE_TESTS_SERVER_H

#include <stdbool.h>
#include <stddef.h>

/** Whether this run is on a server: tools/postgres has put its address into PARE_TEST_SERVER. */
bool on_server(void);

/** The address of a database of this process's own, in which there is no bench.
 * @param which  of several at once, from 0
 * @param[out] address  for pare_store_open() */
void server_bench(int which, char *address, size_t size);

/** Runs SQL there, as its owner, all or nothing. A failure ends the test. */
void server_run(const char *address, const char *sql);

/** Runs a file of SQL there, likewise. */
void server_run_file(const char *address, const char *path);

/** The first number of the first row. */
long long server_ask(const char *address, const char *sql);

/** The address for another user, who is made and may do this (pare.allow()).
 * @param user   may be one who is there, with a password behind a colon: then `allow` is NULL */
void server_user(const char *address, const char *user, const char *allow, char *other,
                 size_t size);

#endif
