/* draw_svg.c: names within an SVG anew (see draw_svg.h).
 *
 * cairo counts its surfaces, clips and patterns through the life of the process, so the second page drawn
 * by a server had other names than the first, and the same report other bytes. Names are looked up in a
 * table that grows: a page has some hundred of them and refers to them some thousand times. */
#include "show/draw_svg.h"

#include <stdlib.h>

#include "base/hash.h"

typedef struct named {
    const char *at; /* NULL: free */
    size_t length, number;
} named;

typedef struct names {
    size_t room, count; /* room: a power of two */
    named *name;
} names;

static named *place_of(const names *n, const char *at, size_t length)
{
    size_t i = (size_t)pare_hash(PARE_HASH_START, at, length) & (n->room - 1);
    while (n->name[i].at && (n->name[i].length != length || memcmp(n->name[i].at, at, length) != 0))
        i = (i + 1) & (n->room - 1);
    return &n->name[i];
}

static bool grow(names *n)
{
    const names old = *n;
    n->room = old.room ? 2 * old.room : 512;
    n->name = calloc(n->room, sizeof *n->name);
    for (size_t i = 0; n->name && i < old.room; i++)
        if (old.name[i].at)
            *place_of(n, old.name[i].at, old.name[i].length) = old.name[i];
    free(old.name);
    return n->name != NULL;
}

static bool put_name(names *n, const char *at, size_t length, pare_text *out)
{
    if (2 * n->count >= n->room && !grow(n))
        return false;
    named *known = place_of(n, at, length);
    if (!known->at)
        *known = (named){at, length, ++n->count};
    pare_text_printf(out, "n%zu", known->number);
    return true;
}

/* What stands before a name, and the sign that ends it. */
static const struct {
    const char *before;
    char end;
} marks[] = {{" id=\"", '"'}, {"=\"#", '"'}, {"url(#", ')'}};

void pare_svg_named_anew(const char *svg, size_t length, pare_text *out)
{
    names n = {0};
    const char *done = svg, *const all = svg + length;
    for (const char *at = svg; at < all && !out->failed; at++)
        for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
            const size_t mark = strlen(marks[i].before);
            if ((size_t)(all - at) < mark || memcmp(at, marks[i].before, mark) != 0)
                continue;
            const char *name = at + mark, *end = memchr(name, marks[i].end, (size_t)(all - name));
            if (!end)
                continue;
            pare_text_put(out, done, (size_t)(name - done));
            out->failed = !put_name(&n, name, (size_t)(end - name), out) || out->failed;
            done = end;
            at = end;
            break;
        }
    pare_text_put(out, done, (size_t)(all - done));
    free(n.name);
}
