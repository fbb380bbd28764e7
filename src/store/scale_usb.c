/* scale_usb.c: a USB scale (see scale_live.h).
 *
 * hidapi finds the device and reads its reports; it is loaded when a scale is asked for, as nothing else
 * wants it. It hands out the descriptor that says what is in a report from 0.14 on only, and Debian 12 has
 * 0.13: there it comes from the kernel's own file of the device. */
#include <hidapi/hidapi.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/load_library.h"
#include "store/scale_live.h"
#include "store/scale_report.h"

enum { PAGE = 0x8D, DESCRIPTOR = 4096, WAIT_MS = 250, REPORT = 256, STRANGE = 200 };

typedef struct library {
    int (*hid_init)(void);
    struct hid_device_info *(*hid_enumerate)(unsigned short, unsigned short);
    void (*hid_free_enumeration)(struct hid_device_info *);
    hid_device *(*hid_open_path)(const char *);
    int (*hid_read_timeout)(hid_device *, unsigned char *, size_t, int);
    void (*hid_close)(hid_device *);
    int (*hid_get_report_descriptor)(hid_device *, unsigned char *, size_t); /* NULL: before 0.14 */
} library;

typedef struct usb {
    library hid;
    hid_device *device;
    pare_scale_layout layout;
    int strange;
} usb;

static pare_status load(library *hid, pare_error *err)
{
    static const pare_library_file file = {
        .file = "libhidapi-hidraw.so.0", /* the same name in Debian 12 and 13 */
        .package = "libhidapi-hidraw0",
        .missed = "no USB scale",
    };
    const pare_library_function wanted[] = {
        {"hid_init", &hid->hid_init, false},
        {"hid_enumerate", &hid->hid_enumerate, false},
        {"hid_free_enumeration", &hid->hid_free_enumeration, false},
        {"hid_open_path", &hid->hid_open_path, false},
        {"hid_read_timeout", &hid->hid_read_timeout, false},
        {"hid_close", &hid->hid_close, false},
        {"hid_get_report_descriptor", &hid->hid_get_report_descriptor, true},
    };
    return pare_load_library(&file, sizeof wanted / sizeof wanted[0], wanted, err);
}

/* "/dev/hidraw3": its descriptor is where the kernel says. */
static pare_status read_kernels(const char *path, pare_scale_layout *layout, pare_error *err)
{
    char file[320];
    uint8_t bytes[DESCRIPTOR];
    const char *name = strrchr(path, '/');
    snprintf(file, sizeof file, "/sys/class/hidraw/%.64s/device/report_descriptor",
             name ? name + 1 : path);
    FILE *in = fopen(file, "rb");
    if (!in)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%.200s cannot be read: what the scale sends is not "
                         "known",
                         file);
    const size_t length = fread(bytes, 1, sizeof bytes, in);
    fclose(in);
    return pare_scale_layout_read(length, bytes, layout, err);
}

static pare_status read_layout(usb *u, const char *path, pare_error *err)
{
    uint8_t bytes[DESCRIPTOR];
    if (!u->hid.hid_get_report_descriptor)
        return read_kernels(path, &u->layout, err);
    const int length = u->hid.hid_get_report_descriptor(u->device, bytes, sizeof bytes);
    return pare_scale_layout_read(length > 0 ? (size_t)length : 0, bytes, &u->layout, err);
}

static void close_usb(void *context)
{
    usb *u = context;
    if (u->device)
        u->hid.hid_close(u->device);
    free(u);
}

static pare_status next(void *context, pare_scale_seen *seen, bool *any, double *waited_s,
                        pare_error *err)
{
    usb *u = context;
    uint8_t bytes[REPORT];
    const int got = u->hid.hid_read_timeout(u->device, bytes, sizeof bytes, WAIT_MS);
    *waited_s = got == 0 ? WAIT_MS / 1e3 : 0;
    *any = got > 0;
    if (got < 0)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "the scale is gone; right would be to plug it in and weigh again");
    if (got == 0)
        return PARE_OK;
    const pare_status status = pare_scale_report_read(&u->layout, (size_t)got, bytes, seen, err);
    u->strange = seen->weighs || seen->state != PARE_SCALE_UNSAID ? 0 : u->strange + 1;
    if (status == PARE_OK && u->strange >= STRANGE)
        return pare_fail(err, PARE_BAD_DATA, "the scale sends reports without a weight in them");
    return status;
}

static pare_status open_first(usb *u, pare_error *err)
{
    pare_status status = PARE_OK;
    bool found = false;
    struct hid_device_info *all = u->hid.hid_init() == 0 ? u->hid.hid_enumerate(0, 0) : NULL;
    for (struct hid_device_info *one = all; one && !found; one = one->next) {
        if (one->usage_page != PAGE)
            continue;
        found = true;
        u->device = u->hid.hid_open_path(one->path);
        status = u->device ? read_layout(u, one->path, err)
                           : pare_fail(err, PARE_UNAVAILABLE,
                                       "%.80s cannot be opened; right would be leave to read it "
                                       "(a udev rule for it)",
                                       one->path);
    }
    u->hid.hid_free_enumeration(all);
    if (!found)
        return pare_fail(
            err, PARE_UNAVAILABLE,
            "no USB scale is there; right would be one that is plugged in, switched on "
            "and is a HID scale");
    return status;
}

pare_status pare_scale_open_usb(pare_scale_port *port, pare_error *err)
{
    usb *u = calloc(1, sizeof *u);
    if (!u)
        return pare_no_memory(err);
    pare_status status = load(&u->hid, err);
    if (status == PARE_OK)
        status = open_first(u, err);
    if (status != PARE_OK) {
        close_usb(u);
        return status;
    }
    *port = (pare_scale_port){u, next, close_usb};
    return PARE_OK;
}
