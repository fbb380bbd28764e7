/* share.h: how much of its draws, or of its places, a test tries. All where answers are compared; one in
 * PARE_TEST_SHARE under a sanitizer, which looks at how the same lines run and takes ten times as long. */
#ifndef PARE_TESTS_SHARE_H
#define PARE_TESTS_SHARE_H

#ifndef PARE_TEST_SHARE
#define PARE_TEST_SHARE 1
#endif

/** Of so many. */
#define SHARE_OF(all) ((all) / PARE_TEST_SHARE)

#endif
