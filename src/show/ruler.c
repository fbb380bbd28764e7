/* ruler.c: the gram ruler (see ruler.h).
 *
 * One column is a fixed number of grams, so that lengths compare. A column takes the texture of what
 * lies at its middle: full for weighed, lighter the less is known, hatched for grams that a trial takes
 * off. Textures, not colours, carry the meaning.
 *
 * Labels hang below on lines from where their slice begins, their text to the right of the line. They
 * are placed from the right: each takes the highest row on which it meets neither a label nor the line
 * of a lower one. A line is drawn down to its label only, so it crosses nothing to its right. */
#include "show/ruler.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { OFF = PARE_KNOWNS, NOTHING = PARE_KNOWNS + 1 };
#define SMALLEST_LABEL_KG 5e-5

static const char *const texture_utf8[] = {[PARE_WEIGHED] = "\u2588",  [PARE_MEASURED] = "\u2588",
                                           [PARE_LEARNED] = "\u2588",  [PARE_STATED] = "\u2593",
                                           [PARE_COMPUTED] = "\u2592", [PARE_ESTIMATED] = "\u2591",
                                           [PARE_KNOWNS] = "\u2571",   " "};
static const char *const texture_ascii[] = {
    [PARE_WEIGHED] = "W",  [PARE_MEASURED] = "W",  [PARE_LEARNED] = "W", [PARE_STATED] = "S",
    [PARE_COMPUTED] = "C", [PARE_ESTIMATED] = "E", [PARE_KNOWNS] = "/",  " "};

static const char *texture(const pare_screen *screen, int which)
{
    return screen->utf8 ? texture_utf8[which] : texture_ascii[which];
}

pare_system pare_ruler_system(const pare_craft *craft, const pare_line *line)
{
    const char *came_with = line->of == PARE_LINE_JOINT ? craft->joint[line->index].included_in
                            : line->of == PARE_LINE_RUN ? craft->run[line->index].included_in
                                                        : NULL;
    const int item = came_with ? pare_craft_item(craft, came_with) : -1;
    return item < 0 ? line->system : pare_kind_system(craft->item[item].part->kind);
}

static void sum_up(const pare_craft *craft, const pare_sheet *sheet,
                   double kg[PARE_SYSTEMS][PARE_KNOWNS])
{
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        kg[pare_ruler_system(craft, line)][line->mass_kg.known] += line->mass_kg.value;
    }
    /* What was cut away is known otherwise than what it was cut from: take it from the largest. */
    for (int s = 0; s < PARE_SYSTEMS; s++)
        for (int k = 0; k < PARE_KNOWNS; k++) {
            if (kg[s][k] >= 0)
                continue;
            int largest = 0;
            for (int other = 1; other < PARE_KNOWNS; other++)
                if (kg[s][other] > kg[s][largest])
                    largest = other;
            kg[s][largest] += kg[s][k];
            kg[s][k] = 0;
        }
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
    double now[PARE_SYSTEMS][PARE_KNOWNS] = {{0}}, then[PARE_SYSTEMS][PARE_KNOWNS] = {{0}};
    sum_up(craft, sheet, now);
    if (before)
        sum_up(craft_before, before, then);
    for (int s = 0; s < PARE_SYSTEMS; s++) {
        pare_slice slice = {.name = pare_system_name((pare_system)s)};
        memcpy(slice.known_kg, now[s], sizeof slice.known_kg);
        double was_kg = 0;
        for (int k = 0; k < PARE_KNOWNS; k++)
            was_kg += then[s][k];
        if (before)
            slice.off_kg = was_kg - slice_kg(&slice);
        if (slice_kg(&slice) > 0 || slice.off_kg > 0)
            ruler.slice[ruler.slices++] = slice;
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
                return k;
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
    int line, row; /* where its line is, with the text right of it; how low it hangs */
} label;

static int end_of(const label *at)
{
    return at->line + 1 + (int)strlen(at->text);
}

/* Of two labels, `right` stands further right. */
static bool meets(const label *left, const label *right)
{
    if (left->row == right->row)
        return end_of(left) >= right->line;
    return right->row > left->row && end_of(left) >= right->line;
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

/* From the right: each as high as it meets none. Below all others nothing is met, so it ends. */
static void hang_texts(size_t count, label labels[PARE_SYSTEMS])
{
    for (size_t i = count; i-- > 0;) {
        labels[i].row = 0;
        for (size_t j = i + 1; j < count; j++)
            if (meets(&labels[i], &labels[j])) {
                labels[i].row++;
                j = i;
            }
    }
}

static void put_labels(size_t count, const label labels[], const pare_screen *screen,
                       pare_text *out)
{
    int rows = 0;
    for (size_t i = 0; i < count; i++)
        rows = labels[i].row + 1 > rows ? labels[i].row + 1 : rows;
    for (int row = 0; row < rows; row++) {
        int column = 0;
        for (size_t i = 0; i < count; i++) {
            const label *at = &labels[i];
            if (at->row < row)
                continue;
            const bool here = at->row == row;
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
    bool off = false;
    for (size_t w = 0; w < sizeof words / sizeof words[0]; w++) {
        double kg = 0;
        for (size_t i = 0; i < ruler->slices; i++) {
            kg += ruler->slice[i].known_kg[words[w].known];
            off = off || ruler->slice[i].off_kg >= SMALLEST_LABEL_KG;
        }
        if (kg >= SMALLEST_LABEL_KG)
            pare_text_printf(&line, "%s%s %s", line.length ? "  " : "",
                             texture(screen, words[w].known), words[w].word);
    }
    if (off)
        pare_text_printf(&line, "  %s taken off", texture(screen, OFF));
    if (line.failed)
        out->failed = true;
    else if (line.bytes)
        pare_text_printf(out, "%s\n", line.bytes);
    pare_text_free(&line);
}

void pare_ruler_text(const pare_ruler *ruler, const pare_screen *screen, pare_text *out)
{
    scale on = {.columns = screen->width};
    for (size_t i = 0; i < ruler->slices; i++)
        on.whole_kg += shown_kg(&ruler->slice[i]);
    const bool limited = isfinite(ruler->limit_kg) && ruler->limit_kg > 0;
    /* A limit far above the craft would leave the ruler empty: it is then only said in words. */
    const bool shown = limited && ruler->limit_kg < 2 * on.whole_kg;
    if (shown && ruler->limit_kg > on.whole_kg)
        on.whole_kg = ruler->limit_kg;
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
    hang_texts(count, labels);
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
