/* draw_key.c: the numbers of the page read out: every part with its grams, by system.
 *
 * One number a part, in the ruler's order, instead of names around the craft: names in a drawing
 * cross its lines, and forty of them hide it. Where rows do not fit they come closer, and at last the
 * lightest of the end are told as one sum. */
#include <math.h>
#include <stdio.h>

#include "show/digits.h"
#include "show/draw_inside.h"

#define ROW_MOST_MM  3.5
#define ROW_LEAST_MM 2.0

static double system_kg(const pare_report *report, size_t from)
{
    double kg = 0;
    for (size_t i = from; i < report->parts && report->part[i].system == report->part[from].system;
         i++)
        kg += report->part[i].kg;
    return kg;
}

static bool begins(const pare_report *report, size_t i)
{
    return i == 0 || report->part[i].system != report->part[i - 1].system;
}

static size_t rows_of(const pare_report *report)
{
    size_t rows = report->parts;
    for (size_t i = 0; i < report->parts; i++)
        rows += begins(report, i);
    return rows;
}

static void heading(pare_page *page, pare_box row, const pare_report *report, size_t from)
{
    char grams[24];
    pare_type type = {.size_mm = 0.74 * row.height, .ink = PARE_INK_BLACK, .bold = true};
    const double base = row.y + 0.78 * row.height;
    pare_page_text(page, row.x, base, &type, pare_system_name(report->part[from].system));
    type.align = PARE_ALIGN_RIGHT;
    pare_page_text(page, row.x + row.width, base, &type,
                   pare_ruler_grams(grams, system_kg(report, from)));
    pare_page_line(page, row.x, row.y + row.height - 0.1, row.x + row.width,
                   row.y + row.height - 0.1, (pare_pen){PARE_INK_PALE, PARE_HAIR_MM, 0});
}

static void part_row(pare_page *page, pare_box row, const pare_ruler_part *part, size_t number)
{
    const double size = 0.70 * row.height, base = row.y + 0.75 * row.height;
    char text[64], grams[24], off[24];
    snprintf(text, sizeof text, "%zu", number);
    pare_page_text(page, row.x + 5, base,
                   &(pare_type){.size_mm = size, .ink = PARE_INK_GREY, .align = PARE_ALIGN_RIGHT},
                   text);
    snprintf(text, sizeof text, "%s", pare_ruler_grams(grams, part->kg));
    double right = row.x + row.width;
    right -= pare_page_text(
        page, right, base,
        &(pare_type){.size_mm = size, .ink = PARE_INK_BLACK, .align = PARE_ALIGN_RIGHT}, text);
    right = fmin(right, row.x + row.width - 8);
    if (fabs(part->off_kg) >= 5e-5) {
        snprintf(text, sizeof text, "%s%s", part->off_kg > 0 ? "\u2212" : "+",
                 pare_ruler_grams(off, fabs(part->off_kg)));
        right -=
            1 + pare_page_text(
                    page, right - 1, base,
                    &(pare_type){.size_mm = size, .ink = PARE_INK_CLAY, .align = PARE_ALIGN_RIGHT},
                    text);
    }
    const pare_box swatch = {row.x + 6.2, row.y + 0.16 * row.height, 4, 0.62 * row.height};
    pare_page_texture(page, swatch, part->kg > 0 ? pare_texture_of(part) : PARE_TEXTURE_HATCH);
    pare_page_box(page, swatch, PARE_INK_NONE, (pare_pen){PARE_INK_BLACK, 0.08, 0});
    if (part->count > 1) {
        snprintf(text, sizeof text, "%d \u00d7", part->count);
        right -=
            1 + pare_page_text(
                    page, right - 1, base,
                    &(pare_type){.size_mm = size, .ink = PARE_INK_GREY, .align = PARE_ALIGN_RIGHT},
                    text);
    }
    pare_page_text(
        page, row.x + 11.4, base,
        &(pare_type){.size_mm = size, .ink = PARE_INK_BLACK, .most_mm = right - row.x - 12.2},
        part->name);
}

void pare_draw_key(pare_page *page, pare_box box, const pare_report *report)
{
    const size_t rows = rows_of(report);
    const double height =
        fmax(ROW_LEAST_MM, fmin(ROW_MOST_MM, box.height / (double)(rows ? rows : 1)));
    const double last = box.y + box.height - height;
    pare_box row = {box.x, box.y, box.width, height};
    for (size_t i = 0; i < report->parts; i++) {
        const double needs = begins(report, i) ? 2 * height : height;
        const bool ends = i + 1 == report->parts;
        if (row.y + needs - height > last + 0.01 - (ends ? 0 : height)) {
            double rest_kg = 0;
            for (size_t k = i; k < report->parts; k++)
                rest_kg += report->part[k].kg;
            char text[80], grams[24];
            snprintf(text, sizeof text, "and %zu more, together %s g", report->parts - i,
                     pare_ruler_grams(grams, rest_kg));
            pare_page_text(page, row.x, row.y + 0.75 * height,
                           &(pare_type){.size_mm = 0.7 * height, .ink = PARE_INK_GREY}, text);
            return;
        }
        if (begins(report, i)) {
            heading(page, row, report, i);
            row.y += height;
        }
        part_row(page, row, &report->part[i], i + 1);
        row.y += height;
    }
}
