/* hang.h: labels that hang below a scale without touching each other. */
#ifndef PARE_SHOW_HANG_H
#define PARE_SHOW_HANG_H

#include <stddef.h>

/** A label on a line that hangs from a place on the scale, its text to the right of the line. Any one
 * unit: columns, millimetres. */
typedef struct pare_hung {
    double line;  /* where its line is */
    double width; /* from the line to the end of its text */
    int row;      /* how low it hangs, from 0; set by pare_hang() */
} pare_hung;

/** Gives each label the highest row on which it meets neither a label nor the line of a lower one.
 *
 * They are placed from the right, and a line is drawn down to its label only, so it crosses nothing
 * to its right.
 * @param hung  [count], lines rising
 * @return how many rows there are */
int pare_hang(size_t count, pare_hung hung[]);

#endif
