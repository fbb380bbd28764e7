/* rooms: store base */
/* journal.c: journals. What was handed over once is handed over again, and a line that is added comes last. */
#include "fuzz.h"

#include <string.h>

#include "base/text.h"
#include "store/journal.h"

#define TITLE "fuzz"

static pare_status take(void *context, const char *text, pare_error *err)
{
    pare_text *all = context;
    (void)err;
    fuzz_expect(!strchr(text, '\n'), "a line is one");
    pare_text_add(all, text);
    pare_text_add(all, "\n");
    return PARE_OK;
}

static int read_all(const char *path, const char *add, pare_text *all)
{
    pare_journal *journal = NULL;
    pare_error err = {0};
    size_t damaged = 0;
    const int open =
        fuzz_answered(pare_journal_open(path, TITLE, take, all, &journal, &damaged, &err), &err);
    if (open && add)
        fuzz_expect(pare_journal_add(journal, add, &err) == PARE_OK, "a line can be added");
    pare_journal_close(journal);
    return open;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    const char *path = fuzz_path("journal");
    pare_text once = {0}, twice = {0};
    fuzz_write(path, bytes, length);
    if (read_all(path, "more", &once)) {
        fuzz_expect(read_all(path, NULL, &twice), "what was read once is read again");
        pare_text_add(&once, "more\n");
        fuzz_expect(once.length == twice.length &&
                        memcmp(once.bytes, twice.bytes, once.length) == 0,
                    "the same lines, and the one that was added");
    }
    pare_text_free(&once);
    pare_text_free(&twice);
    return 0;
}
