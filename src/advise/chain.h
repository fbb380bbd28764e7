/* chain.h: from a transmitter through adapters and pigtails to its antenna. Only this room uses it. */
#ifndef PARE_ADVISE_CHAIN_H
#define PARE_ADVISE_CHAIN_H

#include "advise/edit.h"

/** Makes the chains that an item belongs to fit again, with the fewest changes and then grams: what
 * no longer mates goes, what mates again comes back, and where nothing on the craft does, an adapter
 * or pigtail of the bench is brought.
 *
 * @param index  the item whose part has changed, on
 * @return PARE_OK also for an item in no chain; PARE_BAD_DATA naming both connectors */
pare_status pare_chain_mend(pare_edit *edit, size_t index, pare_error *err);

/** After an item was taken off: false when a chain that it was part of has no way through any more. */
bool pare_chain_whole(const pare_craft *craft, size_t index);

/** The antenna whose chain an item is in (an antenna's own), or -1. */
int pare_chain_of(const pare_craft *craft, size_t index);

/** Whether parts of a kind may be links of a chain, between a transmitter and its antenna. */
bool pare_chain_links(pare_kind kind);

/** Whether two parts of a chain plug into one another: a transmitter or link, and the link or antenna after it. */
bool pare_chain_mates(const pare_part *inner, const pare_part *outer);

#endif
