/* screen.c: text laid out in columns (see screen.h). Lines are built from bytes, and measured in
 * characters: a continuation byte of UTF-8 takes no column. */
#include "show/screen.h"

#include <string.h>

const char *pare_screen_plus_minus(const pare_screen *screen)
{
    return screen->utf8 ? "\u00b1" : "+-";
}

static int columns_of(const char *text, size_t length)
{
    int columns = 0;
    for (size_t i = 0; i < length; i++)
        columns += ((unsigned char)text[i] & 0xc0) != 0x80;
    return columns;
}

int pare_columns(const char *text)
{
    return columns_of(text, strlen(text));
}

void pare_put_spaces(pare_text *out, int count)
{
    for (int i = 0; i < count; i++)
        pare_text_put(out, " ", 1);
}

void pare_put_left(pare_text *out, const char *text, int columns)
{
    pare_text_add(out, text);
    pare_put_spaces(out, columns - pare_columns(text));
}

void pare_put_right(pare_text *out, const char *text, int columns)
{
    pare_put_spaces(out, columns - pare_columns(text));
    pare_text_add(out, text);
}

void pare_put_heading(const pare_screen *screen, pare_text *out, const char *text)
{
    pare_text_printf(out, screen->colour ? "\033[1m%s\033[0m\n" : "%s\n", text);
}

/* Whether a line may end between two words: not between a number and its unit or uncertainty. */
static bool may_break(const char *before, size_t length, const char *after)
{
    const size_t next = strcspn(after, " ");
    const char last = before[length - 1];
    const bool number = (last >= '0' && last <= '9') || last == '%';
    if (strncmp(after, "+-", 2) == 0 || strncmp(after, "\u00b1", 2) == 0 || last == '\xb1' ||
        (length == 2 && strncmp(before, "+-", 2) == 0))
        return false;
    return !(number && next <= 3 && !(after[0] >= '0' && after[0] <= '9'));
}

/* How many bytes belong together: a word, and what must not part from it. */
static size_t unbroken(const char *text)
{
    size_t length = strcspn(text, " "), from = 0;
    while (text[length] == ' ' && length > from && text[length + 1] != ' ' &&
           text[length + 1] != '\0' && !may_break(text + from, length - from, text + length + 1)) {
        from = length + 1;
        length = from + strcspn(text + from, " ");
    }
    return length;
}

void pare_put_wrapped(const pare_screen *screen, pare_text *out, int already, int indent,
                      const char *text)
{
    int column = already;
    bool at_start = true;
    while (*text) {
        const size_t length = unbroken(text);
        const int columns = columns_of(text, length);
        if (!at_start && column + 1 + columns > screen->width) {
            pare_text_add(out, "\n");
            pare_put_spaces(out, indent);
            column = indent;
            at_start = true;
        }
        if (!at_start) {
            pare_text_add(out, " ");
            column++;
        }
        pare_text_put(out, text, length);
        column += columns;
        at_start = false;
        text += length + (text[length] == ' ');
    }
    pare_text_add(out, "\n");
}

void pare_put_labelled(const pare_screen *screen, pare_text *out, const char *label,
                       const char *text)
{
    pare_put_left(out, label, PARE_LABEL);
    pare_put_wrapped(screen, out, PARE_LABEL, PARE_LABEL, text);
}

void pare_put_rest(const pare_screen *screen, pare_text *out, int already, int further,
                   pare_text *line)
{
    out->failed |= line->failed;
    pare_put_wrapped(screen, out, already, further, pare_text_all(line));
    pare_text_free(line);
}

void pare_put_line(const pare_screen *screen, pare_text *out, int first, int further,
                   pare_text *line)
{
    pare_put_spaces(out, first);
    pare_put_rest(screen, out, first, further, line);
}

void pare_put_labelled_line(const pare_screen *screen, pare_text *out, const char *label,
                            pare_text *line)
{
    pare_put_left(out, label, PARE_LABEL);
    pare_put_rest(screen, out, PARE_LABEL, PARE_LABEL, line);
}
