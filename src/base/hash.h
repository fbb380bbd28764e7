/* hash.h: a number for some bytes: FNV-1a, 64 bits, for keys of what is kept. */
#ifndef PARE_BASE_HASH_H
#define PARE_BASE_HASH_H

#include <stddef.h>

#define PARE_HASH_START 0xcbf29ce484222325ULL

/** Goes on from a sum with more bytes; structures need to be free of padding. */
static inline unsigned long long pare_hash(unsigned long long sum, const void *bytes, size_t length)
{
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < length; i++)
        sum = (sum ^ byte[i]) * 0x100000001b3ULL;
    return sum;
}

#endif
