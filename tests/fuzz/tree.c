/* rooms: store craft base */
/* tree.c: documents of YAML and JSON. What was read and written reads as the same again. */
#include <string.h>

#include "fuzz.h"
#include "store/tree.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    pare_arena *arena = pare_arena_open();
    const pare_node *root = NULL;
    pare_error err = {0};
    if (fuzz_answered(
            pare_tree_parse((const char *)bytes, length, "typed.yaml", arena, &root, &err), &err) &&
        root) {
        pare_text once = {0}, twice = {0};
        pare_tree_write(root, 0, &once);
        fuzz_expect(!once.failed, "a tree that was read can be written");
        const pare_node *again = NULL;
        fuzz_expect(pare_tree_parse(once.bytes, once.length, "written.yaml", arena, &again, &err) ==
                        PARE_OK,
                    "what was written can be read");
        pare_tree_write(again, 0, &twice);
        fuzz_expect(once.length == twice.length &&
                        memcmp(once.bytes, twice.bytes, once.length) == 0,
                    "written twice it is the same");
        pare_text_free(&once);
        pare_text_free(&twice);
    }
    pare_arena_close(arena);
    return 0;
}
