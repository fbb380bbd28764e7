/* ruler.c: the gram ruler (see ruler.h).
 *
 * One column is a fixed number of grams, so that lengths compare. A column takes the texture of what
 * lies at its middle: full for weighed, lighter the less is known, hatched for grams that a trial takes
 * off. Textures, not colours, carry the meaning.
 *
 * Labels hang below on lines from where their slice begins, their text to the right of the line
 * (hang.h). */
#include "show/ruler.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/hang.h"

enum { OFF = PARE_KNOWNS, UNLISTED = PARE_KNOWNS + 1, NOTHING = PARE_KNOWNS + 2 };
#define SMALLEST_LABEL_KG 5e-5

static const char *const texture_utf8[] = {
    [PARE_WEIGHED] = "\u2588", [PARE_MEASURED] = "\u2588", [PARE_LEARNED] = "\u2588",
    [PARE_STATED] = "\u2593",  [PARE_COMPUTED] = "\u2592", [PARE_ESTIMATED] = "\u2591",
    [OFF] = "\u2571",          [UNLISTED] = "\u2573",      [NOTHING] = " "};
static const char *const texture_ascii[] = {
    [PARE_WEIGHED] = "W", [PARE_MEASURED] = "W", [PARE_LEARNED] = "W",
    [PARE_STATED] = "S",  [PARE_COMPUTED] = "C", [PARE_ESTIMATED] = "E",
    [OFF] = "/",          [UNLISTED] = "X",      [NOTHING] = " "};

static const char *texture(const pare_screen *screen, int which)
{
    return screen->utf8 ? texture_utf8[which] : texture_ascii[which];
}

static double slice_kg(const pare_slice *slice)
{
    double sum = 0;
    for (int k = 0; k < PARE_KNOWNS; k++)
        sum += slice->known_kg[k];
    return sum;
}

pare_ruler pare_ruler_of(const pare_craft *craft, const pare_sheet *sheet,
                         const pare_craft *craft_before, const pare_sheet *before, double limit_kg)
{
    pare_ruler ruler = {.limit_kg = limit_kg};
    pare_ruler_part part[PARE_RULER_PARTS];
    const size_t parts = pare_ruler_parts(craft, sheet, craft_before, before, part);
    for (size_t i = 0; i < parts; i++) {
        const char *name = pare_system_name(part[i].system);
        if (ruler.slices == 0 || ruler.slice[ruler.slices - 1].name != name)
            ruler.slice[ruler.slices++] = (pare_slice){.name = name};
        pare_slice *slice = &ruler.slice[ruler.slices - 1];
        slice->known_kg[part[i].known] += part[i].kg;
        slice->off_kg += part[i].off_kg;
        slice->unlisted = part[i].of == PARE_LINE_UNLISTED;
    }
    return ruler;
}

const char *pare_ruler_grams(char text[24], double kg)
{
    const double grams = 1e3 * kg;
    snprintf(text, 24, fabs(grams) < 9.95 ? "%.1f" : "%.0f", grams);
    return text;
}

/* The scale: columns, and how many of them a kilogram takes. */
typedef struct scale {
    int columns;
    double whole_kg;
} scale;

static int column_of(const scale *on, double kg)
{
    const int column = (int)floor(kg / on->whole_kg * on->columns + 1e-9);
    return column < 0 ? 0 : column >= on->columns ? on->columns - 1 : column;
}

static double shown_kg(const pare_slice *slice)
{
    return slice_kg(slice) + (slice->off_kg > 0 ? slice->off_kg : 0);
}

/* 1, 2 or 5 times a power of ten grams, at least eight columns long. */
static double step_kg(const scale *on)
{
    for (double power = 1e-3; power < 1e3; power *= 10)
        for (int i = 0; i < 3; i++) {
            static const int times[] = {1, 2, 5};
            const double step = times[i] * power;
            if (step / on->whole_kg * on->columns >= 8)
                return step;
        }
    return on->whole_kg;
}

static void put_numbers(const scale *on, const pare_screen *screen, pare_text *out)
{
    const double step = step_kg(on);
    int column = 0;
    for (int i = 0; i * step < on->whole_kg; i++) {
        char number[32];
        snprintf(number, sizeof number, "%.0f", 1e3 * i * step);
        const int at = column_of(on, i * step);
        if (at + 1 + (int)strlen(number) > on->columns)
            break;
        pare_put_spaces(out, at - column);
        pare_text_printf(out, "%s%s", screen->utf8 ? "\u2577" : "'", number);
        column = at + 1 + (int)strlen(number);
    }
    if (column + 2 <= on->columns) {
        pare_put_spaces(out, on->columns - 1 - column);
        pare_text_add(out, "g");
    }
    pare_text_add(out, "\n");
}

static void put_limit(const scale *on, double limit_kg, const pare_screen *screen, pare_text *out)
{
    char grams[24], label[48];
    const int at = column_of(on, limit_kg);
    const char *mark = screen->utf8 ? "\u25bc" : "V";
    snprintf(label, sizeof label, "limit %s", pare_ruler_grams(grams, limit_kg));
    const int length = (int)strlen(label);
    if (at >= length + 1) {
        pare_put_spaces(out, at - length - 1);
        pare_text_printf(out, "%s %s\n", label, mark);
    } else {
        pare_put_spaces(out, at);
        pare_text_printf(out, "%s %s\n", mark, label);
    }
}

/* What lies at a place on the ruler: a pare_known, OFF or NOTHING; and in which slice. */
static int lies_at(const pare_ruler *ruler, double kg, size_t *in)
{
    double from = 0;
    for (size_t i = 0; i < ruler->slices; i++) {
        const pare_slice *slice = &ruler->slice[i];
        *in = i;
        for (int k = 0; k < PARE_KNOWNS; k++) {
            from += slice->known_kg[k];
            if (kg < from)
                return slice->unlisted ? UNLISTED : k;
        }
        from += slice->off_kg > 0 ? slice->off_kg : 0;
        if (kg < from)
            return OFF;
    }
    return NOTHING;
}

static void put_bar(const pare_ruler *ruler, const scale *on, const pare_screen *screen,
                    pare_text *out)
{
    int colour = -1;
    size_t last = ruler->slices;
    for (int c = 0; c < on->columns; c++) {
        const double column_kg = on->whole_kg / on->columns;
        size_t here = 0, next = 0;
        const int what = lies_at(ruler, (c + 0.5) * column_kg, &here);
        if (what == NOTHING)
            break;
        const int wanted = what == OFF ? 33 : 36;
        if (screen->colour && wanted != colour)
            pare_text_printf(out, "\033[%dm", colour = wanted);
        /* A hair's breadth between slices, where the texture has one to spare. */
        lies_at(ruler, (c + 1.5) * column_kg, &next);
        const bool hair = screen->utf8 && what == PARE_WEIGHED && here == last && next != here;
        pare_text_add(out, hair ? "\u2589" : texture(screen, what));
        last = here;
    }
    pare_text_add(out, screen->colour ? "\033[0m\n" : "\n");
}

typedef struct label {
    char text[64];
    int line; /* the column of its line, with the text right of it */
} label;

static int end_of(const label *at)
{
    return at->line + 1 + (int)strlen(at->text);
}

static void write_labels(const pare_ruler *ruler, size_t *count, label labels[PARE_SYSTEMS])
{
    *count = 0;
    for (size_t i = 0; i < ruler->slices; i++) {
        const pare_slice *slice = &ruler->slice[i];
        if (shown_kg(slice) < SMALLEST_LABEL_KG)
            continue;
        label *made = &labels[(*count)++];
        char now[24], change[24];
        const int length = snprintf(made->text, sizeof made->text, "%s %s", slice->name,
                                    pare_ruler_grams(now, slice_kg(slice)));
        if (fabs(slice->off_kg) >= SMALLEST_LABEL_KG)
            snprintf(made->text + length, sizeof made->text - (size_t)length, " (%s%s)",
                     slice->off_kg < 0 ? "+" : "", pare_ruler_grams(change, -slice->off_kg));
    }
}

/* Lines at the slices' beginnings, never two in one column. @return whether all texts end before
 * `width` */
static bool hang_lines(const pare_ruler *ruler, const scale *on, int width, size_t count,
                       label labels[PARE_SYSTEMS])
{
    double from = 0;
    size_t at = 0;
    for (size_t i = 0; i < ruler->slices; i++) {
        if (shown_kg(&ruler->slice[i]) >= SMALLEST_LABEL_KG) {
            const int column = column_of(on, from), least = (int)at;
            labels[at++].line = column < least ? least : column;
        }
        from += shown_kg(&ruler->slice[i]);
    }
    bool fit = true;
    for (size_t i = count; i-- > 0;) {
        if (i + 1 < count && labels[i].line >= labels[i + 1].line)
            labels[i].line = labels[i + 1].line - 1;
        fit = fit && end_of(&labels[i]) <= width;
    }
    return fit;
}

static void put_labels(size_t count, const label labels[], const pare_screen *screen,
                       pare_text *out)
{
    pare_hung hung[PARE_SYSTEMS];
    for (size_t i = 0; i < count; i++)
        hung[i] = (pare_hung){labels[i].line, 1 + (double)strlen(labels[i].text), 0};
    const int rows = pare_hang(count, hung);
    for (int row = 0; row < rows; row++) {
        int column = 0;
        for (size_t i = 0; i < count; i++) {
            const label *at = &labels[i];
            if (hung[i].row < row)
                continue;
            const bool here = hung[i].row == row;
            pare_put_spaces(out, at->line - column);
            pare_text_printf(out, "%s%s",
                             !screen->utf8 ? "|"
                             : here        ? "\u2514"
                                           : "\u2502",
                             here ? at->text : "");
            column = here ? end_of(at) : at->line + 1;
        }
        pare_text_add(out, "\n");
    }
}

static void put_legend(const pare_ruler *ruler, const pare_screen *screen, pare_text *out)
{
    static const struct {
        pare_known known;
        const char *word;
    } words[] = {{PARE_WEIGHED, "weighed"},
                 {PARE_STATED, "stated"},
                 {PARE_COMPUTED, "computed"},
                 {PARE_ESTIMATED, "estimated"}};
    pare_text line = {0};
    bool off = false, unlisted = false;
    for (size_t w = 0; w < sizeof words / sizeof words[0]; w++) {
        double kg = 0;
        for (size_t i = 0; i < ruler->slices; i++) {
            if (!ruler->slice[i].unlisted)
                kg += ruler->slice[i].known_kg[words[w].known];
            else
                unlisted = slice_kg(&ruler->slice[i]) >= SMALLEST_LABEL_KG;
            off = off || ruler->slice[i].off_kg >= SMALLEST_LABEL_KG;
        }
        if (kg >= SMALLEST_LABEL_KG)
            pare_text_printf(&line, "%s%s %s", line.length ? "  " : "",
                             texture(screen, words[w].known), words[w].word);
    }
    if (unlisted)
        pare_text_printf(&line, "  %s not written down", texture(screen, UNLISTED));
    if (off)
        pare_text_printf(&line, "  %s taken off", texture(screen, OFF));
    if (line.failed)
        out->failed = true;
    else if (line.bytes)
        pare_text_printf(out, "%s\n", line.bytes);
    pare_text_free(&line);
}

double pare_ruler_whole_kg(const pare_ruler *ruler, bool *limit_shown)
{
    double whole_kg = 0;
    for (size_t i = 0; i < ruler->slices; i++)
        whole_kg += shown_kg(&ruler->slice[i]);
    const bool limited = isfinite(ruler->limit_kg) && ruler->limit_kg > 0;
    *limit_shown = limited && ruler->limit_kg < 2 * whole_kg;
    return *limit_shown && ruler->limit_kg > whole_kg ? ruler->limit_kg : whole_kg;
}

void pare_ruler_text(const pare_ruler *ruler, const pare_screen *screen, pare_text *out)
{
    bool shown;
    scale on = {.columns = screen->width, .whole_kg = pare_ruler_whole_kg(ruler, &shown)};
    if (!(on.whole_kg > 0))
        return;
    label labels[PARE_SYSTEMS];
    size_t count;
    write_labels(ruler, &count, labels);
    /* The last labels want room to the right of the last grams. */
    while (!hang_lines(ruler, &on, screen->width, count, labels) && on.columns > screen->width / 2)
        on.columns--;
    if (shown)
        put_limit(&on, ruler->limit_kg, screen, out);
    put_numbers(&on, screen, out);
    put_bar(ruler, &on, screen, out);
    put_labels(count, labels, screen, out);
    put_legend(ruler, screen, out);
}

void pare_ruler_span(const pare_screen *screen, pare_text *out, double from_kg, double to_kg,
                     double whole_kg, int columns, pare_known known)
{
    if (to_kg < from_kg) {
        const double swap = from_kg;
        from_kg = to_kg;
        to_kg = swap;
    }
    const scale on = {.columns = columns, .whole_kg = whole_kg};
    const int first = column_of(&on, from_kg);
    int last = (int)ceil(to_kg / whole_kg * columns - 0.5) - 1;
    last = last < first ? first : last >= columns ? columns - 1 : last;
    pare_put_spaces(out, first);
    if (last == first && screen->utf8 && (to_kg - from_kg) / whole_kg * columns < 0.5) {
        pare_text_add(out, "\u258f");
        return;
    }
    for (int c = first; c <= last; c++)
        pare_text_add(out, texture(screen, (int)known));
}
