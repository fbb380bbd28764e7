/* draw_ruler.c: the gram ruler on paper: all grams of a craft end to end, by system, then by part.
 *
 * The grams, their order and the span of the scale are those of ruler.c; only their picture is made
 * here. From the top: the limit, the numbers of the parts, the bar, the all-up mass with its doubt,
 * the scale, the systems on lines from where they begin. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/draw_inside.h"
#include "show/hang.h"

#define BAR_Y_MM    8.0 /* below the block's top */
#define BAR_MM      10.5
#define SCALE_MM    5.0 /* room for the scale below the bar */
#define ROW_MM      3.7
#define LINE_GAP_MM 0.9 /* from a label's line to its text */

static const pare_type small = {.size_mm = 2.5, .ink = PARE_INK_BLACK};
static const pare_type tiny = {.size_mm = 1.75, .ink = PARE_INK_GREY, .align = PARE_ALIGN_MIDDLE};

pare_texture pare_texture_of(const pare_ruler_part *part)
{
    if (part->of == PARE_LINE_UNLISTED)
        return PARE_TEXTURE_HATCH;
    switch (part->known) {
    case PARE_STATED:
        return PARE_TEXTURE_LINES;
    case PARE_COMPUTED:
        return PARE_TEXTURE_WIDE;
    case PARE_ESTIMATED:
    case PARE_KNOWNS:
        return PARE_TEXTURE_DOTS;
    case PARE_WEIGHED:
    case PARE_MEASURED:
    case PARE_LEARNED:
        break;
    }
    return PARE_TEXTURE_FULL;
}

typedef struct scale {
    double x, y, mm_a_kg;
} scale;

static double shown_kg(const pare_ruler_part *part)
{
    return part->kg + fmax(part->off_kg, 0);
}

static size_t write_labels(const pare_report *report, char text[PARE_SYSTEMS][64])
{
    for (size_t i = 0; i < report->ruler.slices; i++) {
        const pare_slice *slice = &report->ruler.slice[i];
        double kg = 0;
        for (int k = 0; k < PARE_KNOWNS; k++)
            kg += slice->known_kg[k];
        char now[24], change[24];
        const int length = snprintf(text[i], 64, "%s %s", slice->name, pare_ruler_grams(now, kg));
        if (fabs(slice->off_kg) >= 5e-5)
            snprintf(text[i] + length, 64 - (size_t)length, " (%s%s)",
                     slice->off_kg < 0 ? "+" : "\u2212",
                     pare_ruler_grams(change, fabs(slice->off_kg)));
    }
    return report->ruler.slices;
}

/* The labels' lines stand where their systems begin.
 * @return whether all texts end before `right` */
static bool hang_lines(pare_page *page, const pare_report *report, const scale *on, double right,
                       char text[PARE_SYSTEMS][64], pare_hung hung[PARE_SYSTEMS])
{
    double from_kg = 0;
    size_t at = 0;
    bool fit = true;
    for (size_t i = 0; i < report->parts; i++) {
        const bool first = i == 0 || report->part[i].system != report->part[i - 1].system;
        if (first && at < PARE_SYSTEMS) {
            hung[at].line = on->x + on->mm_a_kg * from_kg;
            hung[at].width = LINE_GAP_MM + pare_page_text_width(page, &small, text[at]) + 1.2;
            fit = fit && hung[at].line + hung[at].width <= right;
            at++;
        }
        from_kg += shown_kg(&report->part[i]);
    }
    return fit;
}

static void bar(pare_page *page, const pare_report *report, const scale *on)
{
    double x = on->x;
    const pare_pen edge = {PARE_INK_BLACK, PARE_HAIR_MM, 0};
    for (size_t i = 0; i < report->parts; i++) {
        const pare_ruler_part *part = &report->part[i];
        const double kept = on->mm_a_kg * part->kg, off = on->mm_a_kg * fmax(part->off_kg, 0);
        pare_page_texture(page, (pare_box){x, on->y, kept, BAR_MM}, pare_texture_of(part));
        pare_page_texture(page, (pare_box){x + kept, on->y, off, BAR_MM}, PARE_TEXTURE_HATCH);
        if (off > 0)
            pare_page_line(page, x + kept, on->y - 0.8, x + kept, on->y + BAR_MM,
                           (pare_pen){PARE_INK_CLAY, PARE_THIN_MM, 0});
        x += kept + off;
        pare_page_line(page, x, on->y, x, on->y + BAR_MM,
                       (pare_pen){PARE_INK_PAPER, fmin(0.3, 0.25 * (kept + off)), 0});
    }
    pare_page_box(page, (pare_box){on->x, on->y, x - on->x, BAR_MM}, PARE_INK_NONE, edge);
}

/* Between two systems the paper shows, so that one counts them without reading. */
static void part_systems(pare_page *page, const pare_report *report, const scale *on)
{
    double x = on->x;
    for (size_t i = 0; i < report->parts; i++) {
        if (i > 0 && report->part[i].system != report->part[i - 1].system) {
            pare_page_line(page, x, on->y - 0.2, x, on->y + BAR_MM + 0.2,
                           (pare_pen){PARE_INK_PAPER, 0.7, 0});
            pare_page_line(page, x, on->y - 0.2, x, on->y + BAR_MM,
                           (pare_pen){PARE_INK_BLACK, PARE_HAIR_MM, 0});
        }
        x += on->mm_a_kg * shown_kg(&report->part[i]);
    }
}

static void numbers(pare_page *page, const pare_report *report, const scale *on)
{
    const double limit_x = on->x + on->mm_a_kg * report->ruler.limit_kg; /* NAN: none */
    double from = on->x, last = -1;
    for (size_t i = 0; i < report->parts; i++) {
        const double wide = on->mm_a_kg * shown_kg(&report->part[i]);
        char number[24];
        snprintf(number, sizeof number, "%zu", i + 1);
        const double middle = from + wide / 2, half = pare_page_text_width(page, &tiny, number) / 2;
        const bool free = middle - half > last + 0.5 && !(fabs(middle - limit_x) < half + 0.6);
        if (free && wide > 0.8) {
            pare_page_text(page, middle, on->y - 1, &tiny, number);
            last = middle + half;
        }
        from += wide;
    }
}

static void grams(pare_page *page, const scale *on, double whole_kg)
{
    const double step_kg = 1e-3 * pare_nice_step(1e3 * whole_kg, 10);
    const double y = on->y + BAR_MM + 2.2;
    const pare_pen thin = {PARE_INK_GREY, PARE_HAIR_MM, 0};
    pare_page_line(page, on->x, y, on->x + on->mm_a_kg * whole_kg, y, thin);
    for (int i = 0; i <= 100 && i * step_kg <= whole_kg * (1 + 1e-9); i++) {
        const double x = on->x + on->mm_a_kg * i * step_kg;
        char number[40], digits[PARE_DIGITS];
        snprintf(number, sizeof number, "%s%s", pare_digits_limit(digits, 1e3 * i * step_kg),
                 i == 0 ? " g" : "");
        pare_page_line(page, x, y, x, y + 0.9, thin);
        pare_page_text(page, x + 0.5, y + 2.3, &(pare_type){.size_mm = 2.1, .ink = PARE_INK_GREY},
                       number);
    }
}

/* The all-up mass and one standard uncertainty to both sides. */
static void doubt(pare_page *page, const pare_report *report, const scale *on)
{
    const pare_sheet_figure *all_up = &report->view->sheet.figure[PARE_ALL_UP];
    const double y = on->y + BAR_MM + 1.1, u = on->mm_a_kg * all_up->u;
    const double x = on->x + on->mm_a_kg * all_up->value;
    const pare_pen pen = {PARE_INK_BLACK, PARE_THIN_MM, 0};
    pare_page_line(page, x - u, y, x + u, y, pen);
    pare_page_line(page, x - u, y - 0.6, x - u, y + 0.6, pen);
    pare_page_line(page, x + u, y - 0.6, x + u, y + 0.6, pen);
    pare_page_ellipse(page, x, y, 0.45, 0.45, 0, PARE_INK_BLACK, (pare_pen){0});
}

static void limit(pare_page *page, const pare_report *report, const scale *on)
{
    const double x = on->x + on->mm_a_kg * report->ruler.limit_kg;
    char text[48], digits[PARE_DIGITS];
    snprintf(text, sizeof text, "limit %s g",
             pare_digits_limit(digits, 1e3 * report->ruler.limit_kg));
    pare_type type = {
        .size_mm = 2.5, .ink = PARE_INK_CLAY, .bold = true, .align = PARE_ALIGN_RIGHT};
    const double left = x - 1 - pare_page_text_width(page, &type, text);
    if (left < on->x)
        type.align = PARE_ALIGN_LEFT;
    pare_page_text(page, left < on->x ? x + 1 : x - 1, on->y - 4.2, &type, text);
    pare_page_line(page, x, on->y - 6.2, x, on->y + BAR_MM + 2.2,
                   (pare_pen){PARE_INK_PAPER, 0.9, 0});
    pare_page_line(page, x, on->y - 6.2, x, on->y + BAR_MM + 2.2,
                   (pare_pen){PARE_INK_CLAY, PARE_STRONG_MM, 0});
}

/* Oblique lines: what a trial takes off, and what the scale shows and nobody wrote down. */
static const char *hatched(const pare_report *report)
{
    bool unlisted = false;
    for (size_t i = 0; i < report->parts; i++)
        unlisted = unlisted || report->part[i].of == PARE_LINE_UNLISTED;
    if (report->view->tried)
        return unlisted ? "taken off, or not written down" : "taken off";
    return unlisted ? "by the scale, not written down" : NULL;
}

static void legend(pare_page *page, const pare_report *report, double x, double y)
{
    static const struct {
        pare_texture texture;
        const char *word;
    } words[] = {{PARE_TEXTURE_FULL, "weighed"},
                 {PARE_TEXTURE_LINES, "stated by the maker"},
                 {PARE_TEXTURE_WIDE, "computed from geometry"},
                 {PARE_TEXTURE_DOTS, "estimated by a law"}};
    const pare_type type = {.size_mm = 2.3, .ink = PARE_INK_GREY};
    enum { WORDS = sizeof words / sizeof words[0] };
    for (size_t i = 0; i <= WORDS; i++) {
        const char *word = i < WORDS ? words[i].word : hatched(report);
        const pare_box box = {x, y - 2.3, 6.3, 2.6};
        if (!word)
            break;
        pare_page_texture(page, box, i < WORDS ? words[i].texture : PARE_TEXTURE_HATCH);
        pare_page_box(page, box, PARE_INK_NONE, (pare_pen){PARE_INK_BLACK, PARE_HAIR_MM, 0});
        x += 7.4 + pare_page_text(page, x + 7.4, y, &type, word) + 4;
    }
}

double pare_draw_ruler(pare_page *page, pare_box box, const pare_report *report)
{
    const pare_sheet_figure *all_up = &report->view->sheet.figure[PARE_ALL_UP];
    bool limited;
    /* The doubt may reach past the last gram. */
    const double whole_kg =
        fmax(pare_ruler_whole_kg(&report->ruler, &limited), all_up->value + all_up->u);
    char text[PARE_SYSTEMS][64];
    pare_hung hung[PARE_SYSTEMS] = {{0}};
    const size_t count = write_labels(report, text);
    if (!(whole_kg > 0))
        return box.y;
    scale on = {box.x, box.y + BAR_Y_MM, (box.width - 1) / whole_kg};
    /* The last labels want room to the right of the last grams. */
    for (int i = 0; i < 40; i++) {
        if (hang_lines(page, report, &on, box.x + box.width, text, hung))
            break;
        on.mm_a_kg -= 0.01 * box.width / whole_kg;
    }
    bar(page, report, &on);
    part_systems(page, report, &on);
    numbers(page, report, &on);
    grams(page, &on, whole_kg);
    if (limited)
        limit(page, report, &on);
    doubt(page, report, &on);
    const int rows = pare_hang(count, hung);
    const double below = on.y + BAR_MM + SCALE_MM;
    for (size_t i = 0; i < count; i++) {
        const double y = below + ROW_MM * (hung[i].row + 0.8);
        pare_page_line(page, hung[i].line, below, hung[i].line, y,
                       (pare_pen){PARE_INK_GREY, PARE_HAIR_MM, 0});
        pare_page_text(page, hung[i].line + LINE_GAP_MM, y, &small, text[i]);
    }
    const double end = below + ROW_MM * (rows + 1.1);
    legend(page, report, box.x, end);
    return end;
}
