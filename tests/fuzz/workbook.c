/* rooms: store craft physics base */
/* workbook.c: a workbook: a zip of XML parts; its first sheet becomes a list. */
#include <string.h>

#include "fuzz.h"
#include "store/workbook.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    pare_workbook_table table;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    const char *path = fuzz_path("x.xlsx");
    fuzz_write(path, bytes, length);
    if (arena &&
        fuzz_answered(pare_workbook_read(path, NULL, length % 2, arena, &table, &err), &err)) {
        fuzz_expect(strlen(table.csv) == table.length, "a list is a text");
        fuzz_expect(table.length > 0 && table.csv[table.length - 1] == '\n',
                    "a list ends with a line");
        fuzz_expect(table.sheets > 0 && *table.sheet, "a sheet that is read has a name");
    }
    pare_arena_close(arena);
    return 0;
}
