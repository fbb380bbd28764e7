/* scale_live.c: when a scale is at rest (see scale_live.h).
 *
 * A scale that says that it is stable has been seen to say so while a hand was still on the pan: it has to
 * say the same twice. One that says nothing of itself has to show the same five times; they send a few
 * times a second. Overload and the rest have to be said three times running: a part dropped onto the pan
 * is more than the scale bears for a blink. Seconds are counted by who waits, so that tests need no clock. */
#include "store/scale_live.h"

#include <math.h>
#include <string.h>

enum {
    SAME_STABLE = 2,
    SAME_UNSAID = 5,
    WRONG = 3,      /* times running that a state of no use is said */
    PATIENCE = 2400 /* things said until it should be at rest: half a minute of the fastest */
};
#define SILENCE_S 10.0
#define EMPTY     2.0 /* steps of its last digit and less are nothing */

pare_status pare_scale_open(const char *device, const char *pattern, pare_scale_port *port,
                            pare_error *err)
{
    *port = (pare_scale_port){0};
    if (strcmp(device, "usb") == 0)
        return pare_scale_open_usb(port, err);
    if (device[0] == '/')
        return pare_scale_open_serial(device, pattern, port, err);
    return pare_fail(err, PARE_BAD_DATA,
                     "no scale '%.48s'; right would be usb, or a serial port like /dev/ttyUSB0",
                     device);
}

void pare_scale_close(pare_scale_port *port)
{
    if (port->close)
        port->close(port->context);
    *port = (pare_scale_port){0};
}

/* What is of no use, in words; NULL: the weight counts. */
static const char *fault_of(const pare_scale_seen *seen)
{
    switch (seen->state) {
    case PARE_SCALE_OVER:
        return "it bears no more (overload); right would be one that does, or the parts one after "
               "another";
    case PARE_SCALE_UNDER:
        return "it shows less than nothing: its zero is off; right would be to empty it, set it to "
               "zero and weigh again";
    case PARE_SCALE_FAULT:
        return "it says that it is at fault; right would be to switch it off and on";
    case PARE_SCALE_CALIBRATE:
        return "it asks to be calibrated; right would be to do that first";
    case PARE_SCALE_REZERO:
        return "it asks to be set to zero; right would be to empty it and do that first";
    case PARE_SCALE_UNSAID:
    case PARE_SCALE_STABLE:
    case PARE_SCALE_ZERO:
    case PARE_SCALE_MOVING:
        break;
    }
    return seen->weighs && seen->kg < -EMPTY * seen->step_kg
               ? "it shows less than nothing: its zero is off; right would be to empty it, set it "
                 "to "
                 "zero and weigh again"
               : NULL;
}

static bool is_empty(const pare_scale_seen *seen)
{
    return seen->state == PARE_SCALE_ZERO ||
           (seen->weighs && fabs(seen->kg) <= EMPTY * seen->step_kg * (1 + 1e-9));
}

/* How often it has shown the same. */
typedef struct settling {
    bool empty;
    int same, wrong;
    double silent_s;
    char text[PARE_SCALE_TEXT];
} settling;

/* @return whether it is at rest with something on it */
static bool take(settling *s, const pare_scale_seen *seen)
{
    if (is_empty(seen)) {
        s->empty = true;
        s->same = 0;
        return false;
    }
    if (!s->empty || !seen->weighs || seen->state == PARE_SCALE_MOVING) {
        s->same = 0;
        return false;
    }
    s->same = strcmp(s->text, seen->text) == 0 ? s->same + 1 : 1;
    memcpy(s->text, seen->text, sizeof s->text);
    return s->same >= (seen->state == PARE_SCALE_STABLE ? SAME_STABLE : SAME_UNSAID);
}

pare_status pare_scale_settle(const pare_scale_port *port, bool empty,
                              const pare_progress *progress, pare_scale_seen *seen, pare_error *err)
{
    settling s = {.empty = !empty};
    for (int said = 0; said < PATIENCE;) {
        bool any = false;
        double waited_s = 0;
        pare_status status = pare_progress_step(progress, NULL, 0, 0, err);
        if (status == PARE_OK)
            status = port->next(port->context, seen, &any, &waited_s, err);
        if (status != PARE_OK)
            return status;
        if (!any) {
            s.silent_s += waited_s;
            if (s.silent_s >= SILENCE_S)
                return pare_fail(err, PARE_UNAVAILABLE,
                                 "the scale says nothing; right would be one that is switched on "
                                 "and sends by itself");
            continue;
        }
        said++;
        s.silent_s = 0;
        const char *fault = fault_of(seen);
        s.wrong = fault ? s.wrong + 1 : 0;
        if (s.wrong == WRONG)
            return pare_fail(err, PARE_BAD_DATA, "the scale: %s", fault);
        if (!fault && take(&s, seen))
            return PARE_OK;
        if (fault)
            s.same = 0;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     s.empty
                         ? "the scale does not come to rest; right would be out of the wind, on "
                           "something firm"
                         : "the scale is never empty; right would be to take off what lies on "
                           "it");
}
