/* csv_list.h: what a list may be. */
#ifndef PARE_STORE_CSV_LIST_H
#define PARE_STORE_CSV_LIST_H

typedef enum pare_list_kind {
    PARE_LIST_SEEN, /* its column names tell */
    PARE_LIST_PARTS,
    PARE_LIST_WEIGH_INS,
    PARE_LIST_FLIGHTS,
    PARE_LIST_STAND,
    PARE_LIST_LOG,
    PARE_LIST_KINDS
} pare_list_kind;

#endif
