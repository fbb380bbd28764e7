/* facts.h: a part's numbers, packed for searching: what a row of the bench keeps beside the text, so
 * that a search over 100,000 parts reads no text. Inside the room only. */
#ifndef PARE_STORE_FACTS_H
#define PARE_STORE_FACTS_H

#include "craft/part.h"

/** What is kept: the specs that were said (none that a law filled), then these. */
enum {
    PARE_FACT_MASS_U = PARE_SPECS, /* kg */
    PARE_FACT_PRICE,               /* the bench's money, each */
    PARE_FACT_OWNED,
    PARE_FACTS
};
enum { PARE_FACTS_MOST = 3 + 9 * PARE_FACTS }; /* bytes that they take packed, at most */

typedef struct pare_facts {
    bool sought;
    pare_known mass_known;
    double value[PARE_FACTS]; /* SI; NAN: nobody has said it */
} pare_facts;

/** Packs a completed part's facts. @return how many bytes of `bytes` are used */
size_t pare_facts_pack(const pare_part *part, unsigned char bytes[PARE_FACTS_MOST]);

/** Unpacks them. @return false for NULL, another layout or damage: the text knows then */
bool pare_facts_unpack(const void *bytes, size_t length, pare_facts *facts);

#endif
