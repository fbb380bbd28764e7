/* hid.c: a hidapi whose one device is a scale that says what a script says, so that all of the program's way
 * to a USB scale is gone without one. The script's path is in PARE_EMULATED_SCALE; its first line is the
 * report descriptor in hexadecimal (or "none": nothing is plugged in; "locked": it cannot be opened), each
 * other one a report; "gone": it is unplugged. Its last line is said for ever.
 *
 * Only what the program asks of hidapi is here, by the prototypes of its header. */
#include <hidapi/hidapi.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE = 1024, LINES = 64 };

struct hid_device_ {
    size_t lines, next;
    char line[LINES][LINE];
};

#if HID_API_VERSION < HID_API_MAKE_VERSION(0, 14, 0)
int hid_get_report_descriptor(hid_device *device, unsigned char *bytes, size_t size);
#endif

static size_t from_hexadecimal(const char *line, unsigned char *bytes, size_t size)
{
    size_t length = 0;
    unsigned byte;
    for (; length < size && sscanf(line + 2 * length, "%2x", &byte) == 1; length++)
        bytes[length] = (unsigned char)byte;
    return length;
}

static hid_device *read_script(void)
{
    const char *path = getenv("PARE_EMULATED_SCALE");
    FILE *file = path ? fopen(path, "r") : NULL;
    hid_device *device = calloc(1, sizeof *device);
    while (file && device && device->lines < LINES &&
           fgets(device->line[device->lines], LINE, file))
        device->lines++;
    if (file)
        fclose(file);
    return device;
}

static int says(const hid_device *device, size_t line, const char *word)
{
    return line < device->lines && strncmp(device->line[line], word, strlen(word)) == 0;
}

int hid_init(void)
{
    return 0;
}

struct hid_device_info *hid_enumerate(unsigned short vendor, unsigned short product)
{
    static char path[] = "/dev/hidraw-emulated";
    hid_device *script = read_script();
    const int none = !script || says(script, 0, "none");
    struct hid_device_info *one = none ? NULL : calloc(1, sizeof *one);
    (void)vendor, (void)product;
    free(script);
    if (one) {
        one->path = path;
        one->usage_page = 0x8D; /* USB-IF HID usage tables: weighing devices */
        one->usage = 0x20;
    }
    return one;
}

void hid_free_enumeration(struct hid_device_info *all)
{
    free(all);
}

hid_device *hid_open_path(const char *path)
{
    hid_device *device = read_script();
    (void)path;
    if (device && !says(device, 0, "locked"))
        return device;
    free(device);
    return NULL;
}

int hid_get_report_descriptor(hid_device *device, unsigned char *bytes, size_t size)
{
    device->next = 1;
    return (int)from_hexadecimal(device->line[0], bytes, size);
}

/* What lies on it stays there: the last report is said again. */
int hid_read_timeout(hid_device *device, unsigned char *bytes, size_t size, int wait_ms)
{
    (void)wait_ms;
    if (device->lines < 2)
        return 0;
    const size_t at = device->next < device->lines ? device->next++ : device->lines - 1;
    return says(device, at, "gone") ? -1 : (int)from_hexadecimal(device->line[at], bytes, size);
}

void hid_close(hid_device *device)
{
    free(device);
}
