/* facts.c: packed numbers of a part (see facts.h).
 *
 * A byte for the layout, one for what is sought, one for how the mass is known; then for each number
 * that is there its place in the list, a byte, and its eight bytes, the lowest first. LAYOUT is raised
 * when a place changes its meaning; rows of another layout are read from their text. */
#include "store/facts.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { LAYOUT = 1, HEAD = 3, EACH = 9 };

static size_t put(unsigned char *bytes, size_t at, int place, double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    bytes[at] = (unsigned char)place;
    for (int i = 0; i < 8; i++)
        bytes[at + 1 + (size_t)i] = (unsigned char)(bits >> 8 * i);
    return at + EACH;
}

size_t pare_facts_pack(const pare_part *part, unsigned char bytes[PARE_FACTS_MOST])
{
    size_t at = HEAD;
    bytes[0] = LAYOUT;
    bytes[1] = part->sought;
    bytes[2] = (unsigned char)part->mass_kg.known;
    for (int spec = 0; spec < PARE_SPECS; spec++)
        if (part->spec[spec].given)
            at = put(bytes, at, spec, part->spec[spec].value);
    at = put(bytes, at, PARE_FACT_MASS_U, part->mass_kg.u);
    if (part->price.given)
        at = put(bytes, at, PARE_FACT_PRICE, part->price.each);
    if (part->owned)
        at = put(bytes, at, PARE_FACT_OWNED, part->owned);
    return at;
}

bool pare_facts_unpack(const void *packed, size_t length, pare_facts *facts)
{
    const unsigned char *bytes = packed;
    if (!bytes || length < HEAD || (length - HEAD) % EACH || bytes[0] != LAYOUT ||
        bytes[2] >= PARE_KNOWNS)
        return false;
    facts->sought = bytes[1] != 0;
    facts->mass_known = (pare_known)bytes[2];
    for (int i = 0; i < PARE_FACTS; i++)
        facts->value[i] = (double)NAN;
    for (size_t at = HEAD; at < length; at += EACH) {
        uint64_t bits = 0;
        if (bytes[at] >= PARE_FACTS)
            return false;
        for (int i = 0; i < 8; i++)
            bits |= (uint64_t)bytes[at + 1 + (size_t)i] << 8 * i;
        memcpy(&facts->value[bytes[at]], &bits, sizeof bits);
    }
    return true;
}
