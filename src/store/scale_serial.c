/* scale_serial.c: a scale on a serial port (see scale_live.h).
 *
 * Lines by a stated pattern, longer ones cut. A line that was joined in the middle has another pattern, and
 * so has one from another scale: of such lines some are let go by, many in a row are another scale. */
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "base/text.h"
#include "store/scale_line.h"
#include "store/scale_live.h"

enum { LINE = 128, STRANGE = 20, WAIT_MS = 250 };

typedef struct serial {
    int file;
    size_t length; /* of what has come of a line */
    char line[LINE];
    char pattern[LINE];
    int strange;
} serial;

static void close_serial(void *context)
{
    serial *s = context;
    close(s->file);
    free(s);
}

/* Control characters, from whatever is on the other end, would make the message more than a line: they
 * are shown as question marks by pare_fail(). */
static pare_status take_line(serial *s, pare_scale_seen *seen, bool *any, pare_error *err)
{
    const pare_status status = pare_scale_line_read(s->pattern, s->line, any, seen, err);
    if (status != PARE_OK)
        return status;
    s->strange = *any ? 0 : s->strange + 1;
    if (s->strange < STRANGE)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "the scale sends '%.40s', the pattern is '%.60s'; right would be its own, by "
                     "--pattern, and its own bit/s",
                     s->line, s->pattern);
}

/* @return whether a line is complete */
static bool take_byte(serial *s, char byte)
{
    if (byte == '\r' || byte == '\n') {
        s->line[s->length] = '\0';
        const bool whole = s->length > 0;
        s->length = 0;
        return whole;
    }
    if (s->length < LINE - 1)
        s->line[s->length++] = byte ? byte : '?';
    return false;
}

static pare_status next(void *context, pare_scale_seen *seen, bool *any, double *waited_s,
                        pare_error *err)
{
    serial *s = context;
    *any = false;
    *waited_s = 0;
    for (int bytes = 0; bytes < 4 * LINE; bytes++) {
        struct pollfd wait = {.fd = s->file, .events = POLLIN};
        const int ready = poll(&wait, 1, WAIT_MS);
        if (ready == 0 || (ready < 0 && errno == EINTR)) {
            *waited_s = ready == 0 ? WAIT_MS / 1e3 : 0;
            return PARE_OK;
        }
        char byte;
        const ssize_t got = ready < 0 ? -1 : read(s->file, &byte, 1);
        if (got < 0 && (errno == EAGAIN || errno == EINTR))
            continue;
        if (got <= 0)
            return pare_fail(err, PARE_UNAVAILABLE,
                             "the scale is gone; right would be to plug it in "
                             "and weigh again");
        if (take_byte(s, byte))
            return take_line(s, seen, any, err);
    }
    s->strange++; /* bytes without end of line */
    s->line[LINE - 1] = '\0';
    return s->strange < STRANGE ? PARE_OK : take_line(s, seen, any, err);
}

static bool speed_of(const char *text, speed_t *speed)
{
    static const struct {
        const char *text;
        speed_t speed;
    } speeds[] = {{"1200", B1200},   {"2400", B2400},   {"4800", B4800},   {"9600", B9600},
                  {"19200", B19200}, {"38400", B38400}, {"57600", B57600}, {"115200", B115200}};
    for (size_t i = 0; i < sizeof speeds / sizeof speeds[0]; i++)
        if (strcmp(text, speeds[i].text) == 0) {
            *speed = speeds[i].speed;
            return true;
        }
    return false;
}

/* Bytes as they come: 8 bits, no parity, no echo, no waiting for a line. */
static bool set_up(int file, speed_t speed)
{
    struct termios port;
    if (tcgetattr(file, &port) != 0)
        return false;
    port.c_iflag &= ~(tcflag_t)(IGNBRK | BRKINT | PARMRK | ISTRIP | INLCR | IGNCR | ICRNL | IXON);
    port.c_oflag &= ~(tcflag_t)OPOST;
    port.c_lflag &= ~(tcflag_t)(ECHO | ECHONL | ICANON | ISIG | IEXTEN);
    port.c_cflag &= ~(tcflag_t)(CSIZE | PARENB | CSTOPB);
    port.c_cflag |= CS8 | CREAD | CLOCAL;
    port.c_cc[VMIN] = 0;
    port.c_cc[VTIME] = 0;
    return cfsetispeed(&port, speed) == 0 && cfsetospeed(&port, speed) == 0 &&
           tcsetattr(file, TCSANOW, &port) == 0;
}

pare_status pare_scale_open_serial(const char *device, const char *pattern, pare_scale_port *port,
                                   pare_error *err)
{
    enum { PATH = 256 };
    char path[PATH];
    speed_t speed = B9600;
    const char *comma = strchr(device, ',');
    const size_t length = comma ? (size_t)(comma - device) : strlen(device);
    if (!pattern)
        pattern = PARE_SCALE_PATTERN;
    pare_status status = pare_scale_pattern_check(pattern, err);
    if (status != PARE_OK)
        return status;
    if (length >= PATH || strlen(pattern) >= LINE)
        return pare_fail(err, PARE_BAD_DATA, "the %s is too long; right would be under %d letters",
                         length >= PATH ? "port" : "pattern", length >= PATH ? PATH : LINE);
    if (comma && !speed_of(comma + 1, &speed))
        return pare_fail(
            err, PARE_BAD_DATA,
            "'%.20s' bit/s; right would be 1200, 2400, 4800, 9600, 19200, 38400, 57600 "
            "or 115200",
            comma + 1);
    memcpy(path, device, length);
    path[length] = '\0';
    const int file = open(path, O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%.120s: %s; right would be a serial port that is "
                         "there, and leave to read it (group dialout)",
                         path, strerror(errno));
    serial *s = calloc(1, sizeof *s);
    if (s && !set_up(file, speed))
        status = pare_fail(err, PARE_BAD_DATA,
                           "%.120s is no serial port; right would be like /dev/ttyUSB0", path);
    if (!s)
        status = pare_no_memory(err);
    if (status != PARE_OK) {
        close(file);
        free(s);
        return status;
    }
    s->file = file;
    memcpy(s->pattern, pattern, strlen(pattern) + 1);
    *port = (pare_scale_port){s, next, close_serial};
    return PARE_OK;
}
