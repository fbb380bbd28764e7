/* import_look.c: what a file is that `pare import` is given.
 *
 * The ending of its name says it for everything but .txt and names without an ending; then the first
 * bytes do. A database is told apart so that nobody reads one as a table. */
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/import.h"
#include "store/outline.h"
#include "store/propeller_file.h"

static bool starts(const char *bytes, const char *with)
{
    return strncmp(bytes, with, strlen(with)) == 0;
}

/* Whether some line begins with a bench's first key. */
static bool is_bench(const char *bytes)
{
    if (starts(bytes, "pare:") || bytes[0] == '{')
        return true;
    const char *line = strstr(bytes, "\npare:");
    return line != NULL || starts(bytes, "---");
}

static pare_status by_content(const char *path, import_kind *kind, pare_error *err)
{
    char bytes[4096];
    struct stat facts;
    /* A pipe would be waited for, perhaps for ever. */
    if (stat(path, &facts) == 0 && !S_ISREG(facts.st_mode) && !S_ISDIR(facts.st_mode))
        return pare_fail(err, PARE_BAD_DATA, "%s: no regular file; right would be a file", path);
    FILE *file = fopen(path, "rb");
    if (!file)
        return pare_fail(err, PARE_BAD_DATA, "%s: cannot be opened (%s)", path, strerror(errno));
    const size_t length = fread(bytes, 1, sizeof bytes - 1, file);
    const bool failed = ferror(file) != 0;
    const int why = errno;
    fclose(file);
    if (failed)
        return pare_fail(err, PARE_BAD_DATA, "%s: cannot be read (%s)", path, strerror(why));
    bytes[length] = '\0';
    const char *text = bytes + (starts(bytes, "\xEF\xBB\xBF") ? 3 : 0);
    text += strspn(text, " \t\r\n");
    if (starts(text, "SQLite format 3"))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a database, not a text; a bench is used by --bench FILE", path);
    if (starts(text, "PK\x03\x04"))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: an archive, as it looks; right would be a name that ends in .3mf, a "
                         "model, or .xlsx, a workbook",
                         path);
    const char *ending = starts(text, "solid ") ? ".stl" : strstr(text, "<svg") ? ".svg" : NULL;
    if (ending)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a shape, as it looks; right would be a name that ends in %s", path,
                         ending);
    *kind = is_bench(text)                                        ? IMPORT_BENCH
            : pare_propeller_file_of(text) == PARE_PROPELLER_NONE ? IMPORT_LIST
                                                                  : IMPORT_PROPELLER;
    return PARE_OK;
}

pare_status import_look(const char *path, import_kind *kind, pare_error *err)
{
    static const struct {
        const char *ending;
        import_kind kind;
    } endings[] = {{".yaml", IMPORT_BENCH},  {".yml", IMPORT_BENCH},  {".json", IMPORT_BENCH},
                   {".csv", IMPORT_LIST},    {".xlsx", IMPORT_LIST},  {".xlsm", IMPORT_LIST},
                   {".tsv", IMPORT_LIST},    {".stl", IMPORT_MODEL},  {".3mf", IMPORT_MODEL},
                   {".dxf", IMPORT_OUTLINE}, {".svg", IMPORT_OUTLINE}};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++)
        if (pare_name_ends(path, endings[i].ending)) {
            *kind = endings[i].kind;
            return PARE_OK;
        }
    char workbook[IMPORT_PATH];
    const char *sheet = NULL;
    if (import_workbook(path, workbook, &sheet)) {
        *kind = IMPORT_LIST;
        return PARE_OK;
    }
    return by_content(path, kind, err);
}

bool import_workbook(const char *operand, char path[IMPORT_PATH], const char **sheet)
{
    const char *mark = strrchr(operand, '#');
    struct stat facts;
    const bool whole = !mark || stat(operand, &facts) == 0;
    const size_t length = whole ? strlen(operand) : (size_t)(mark - operand);
    if (length >= IMPORT_PATH)
        return false;
    memcpy(path, operand, length);
    path[length] = '\0';
    *sheet = whole ? NULL : mark + 1;
    return pare_name_ends(path, ".xlsx") || pare_name_ends(path, ".xlsm");
}
