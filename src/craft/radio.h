/* radio.h: what a craft's antenna chains lose and how far that carries. */
#ifndef PARE_CRAFT_RADIO_H
#define PARE_CRAFT_RADIO_H

#include "craft/craft.h"

enum { PARE_RADIOS = 4, PARE_RADIO_LINKS = PARE_FEEDS };

/** One link of a chain, with what it loses. */
typedef struct pare_radio_link {
    const char *item;
    double cable_db, stated_db;
    bool known; /* false: it states neither cable nor loss */
} pare_radio_link;

/** From a transmitter to its antenna. */
typedef struct pare_radio {
    const char *antenna, *transmitter; /* items */
    const pare_part *part;             /* the antenna */
    double band_hz;
    bool band_given; /* otherwise 5.8 GHz is meant */
    size_t links;
    pare_radio_link link[PARE_RADIO_LINKS]; /* the antenna's own coax is the last */
    int pairs;                              /* of connectors whose loss nobody states */
    double cable_db, stated_db, pairs_db;
    double loss_db, loss_u_db;
    double gain_db, gain_u_db; /* 0 dB where it is not stated, with a wide uncertainty */
    bool gain_given;
} pare_radio;

/** The chains of a craft whose antenna and transmitter are on. @return how many; `most` at most
 * Allocates nothing. */
size_t pare_craft_radios(const pare_craft *craft, size_t most, pare_radio radio[]);

/** One chain against another, both heard by the same antenna on the ground, which is taken to be of the
 * hand of the other's. */
typedef struct pare_radio_change {
    double net_db, net_u_db; /* gain less loss, now less then */
    double turned_db;        /* lost between hands that differ; part of net_db */
    double range, range_u;   /* in free space, now over then */
} pare_radio_change;
pare_radio_change pare_radio_against(const pare_radio *now, const pare_radio *then);

/** Whether a change rounds to 0.0 dB, which is 0.6 % of range: no flight tells such ranges apart, so words say
 * that they are the same. */
bool pare_radio_same_range(const pare_radio_change *change);

/** What free space makes of a chain's own loss: range over that without it. */
double pare_radio_range_left(const pare_radio *radio);

#endif
