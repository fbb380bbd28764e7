/* pick_stream.h: all choices within limits, the lightest first, one at a time (see pick.h).
 *
 * For limits that are not sums: whoever asks looks at one choice after another until one will do, and
 * knows of all that are still to come that they are no lighter. Nothing is made before it is asked for. */
#ifndef PARE_ADVISE_PICK_STREAM_H
#define PARE_ADVISE_PICK_STREAM_H

#include <stdbool.h>

#include "advise/pick.h"

typedef struct pare_pick_stream pare_pick_stream;

/** A stream at its start. Beaten options are in it too: what nothing beats in sums may still fail by
 * other rules (pare_pick_undominated() takes them out beforehand).
 *
 * @param pick   its classes are lent until the stream is closed
 * @param least_100ug  lighter choices are left out; INT64_MIN: none. They are walked over all the same,
 *                     where the classes still free cannot make them all too light
 * @param[out] stream  close with pare_pick_stream_close()
 * @return as pare_pick_front_make(), but for PARE_NO: then the stream is merely empty. A class without
 *         options is still PARE_NO */
pare_status pare_pick_stream_open(const pare_pick *pick, int64_t least_100ug,
                                  pare_pick_stream **stream, pare_error *err);
void pare_pick_stream_close(pare_pick_stream *stream); /* NULL is fine */

/** The next choice: by mass, then money, then the order of options; each once.
 *
 * @param[out] choice  [classes]
 * @param[out] sum     what it amounts to, loads too
 * @param[out] more    false: all have been; choice and sum are then untouched
 * @return PARE_OK; PARE_UNAVAILABLE: the combinations that may come next are more than there is room for;
 *         PARE_STOPPED. After either, the stream gives the same answer again
 * Time: the logarithm of what was streamed so far, and the number of classes. */
pare_status pare_pick_stream_next(pare_pick_stream *stream, size_t choice[], pare_pick_amounts *sum,
                                  bool *more, pare_error *err);

/** Nothing that is still to come is lighter than this; INT64_MAX when all have been. */
int64_t pare_pick_stream_bound(const pare_pick_stream *stream);

#endif
