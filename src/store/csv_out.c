/* csv_out.c: see csv_out.h. */
#include "store/csv_out.h"

#include <stdbool.h>
#include <string.h>

void pare_csv_add_field(const char *text, pare_text *out)
{
    const size_t length = strlen(text);
    const bool plain = !strpbrk(text, ",\"\r\n;\t|") && length && text[0] != ' ' &&
                       text[0] != '#' && text[length - 1] != ' ';
    if (plain || !length) {
        pare_text_add(out, text);
        return;
    }
    pare_text_add(out, "\"");
    for (const char *c = text; *c; c++) {
        if (*c == '"')
            pare_text_add(out, "\"");
        pare_text_put(out, c, 1);
    }
    pare_text_add(out, "\"");
}
