/* draw_views.c: the craft from above and from the side, to one scale, forward to the right.
 *
 * Far pieces first, each on paper of its own, so that near ones hide them; then all edges again as
 * broken hairs, so that nothing is lost. Numbers are those of the key; a part gets one in a view where
 * its middle is seen there, and a short line to it where the place is taken. */
#include <math.h>
#include <stdio.h>

#include "show/digits.h"
#include "show/draw_inside.h"

#define CAPTION_MM 4.5  /* above each view */
#define FOOT_MM    13.0 /* below both: scale bar and what the marks mean */
#define BADGE_MM   2.9
#define MARK_MM    1.5 /* radius of the centre of mass's mark */

static const double pi = 3.14159265358979323846;

/* From a view's metres to the page. */
typedef struct frame {
    pare_page *page;
    const pare_report *report;
    pare_seen seen;
    double x, y, mm_a_m; /* where the view's origin stands */
    pare_placed placed;
} frame;

static double on_x(const frame *f, double x_m)
{
    return f->x + f->mm_a_m * x_m;
}

static double on_y(const frame *f, double y_m)
{
    return f->y - f->mm_a_m * y_m;
}

double pare_views_scale(pare_box box, const pare_view seen[PARE_SEEN])
{
    static const double usual[] = {1, 1.5, 2, 2.5, 3, 4, 5, 6, 8};
    double width_m = 0, height_m = 0;
    for (int s = 0; s < PARE_SEEN; s++) {
        if (seen[s].count == 0)
            continue;
        width_m = fmax(width_m, seen[s].high_m[0] - seen[s].low_m[0]);
        height_m += seen[s].high_m[1] - seen[s].low_m[1];
    }
    const double height = box.height - FOOT_MM - PARE_SEEN * CAPTION_MM - 6;
    for (double power = 0.1; power < 1e9; power *= 10)
        for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++) {
            const double mm_a_m = 1e3 / (power * usual[i]);
            if (width_m * mm_a_m <= box.width - 2 && height_m * mm_a_m <= height)
                return power * usual[i];
        }
    return 1e9;
}

/* ---- bodies ---- */

/* A silhouette's loops on the page, in room that is used again. */
typedef struct paper {
    size_t room, loops_room;
    double (*at)[2];
    pare_outline *loop;
} paper;

static bool onto(const frame *f, const pare_silhouette *one, double shift_m, paper *to)
{
    size_t points = 0;
    for (size_t i = 0; i < one->loops; i++)
        points += one->loop[i].points;
    if (points > to->room || one->loops > to->loops_room)
        return false;
    double(*at)[2] = to->at;
    for (size_t i = 0; i < one->loops; i++) {
        to->loop[i] = (pare_outline){one->loop[i].points, (const double(*)[2])at};
        for (size_t k = 0; k < one->loop[i].points; k++, at++) {
            (*at)[0] = on_x(f, one->loop[i].at_m[k][0] + shift_m);
            (*at)[1] = on_y(f, one->loop[i].at_m[k][1]);
        }
    }
    return true;
}

static pare_kind kind_of(const frame *f, const pare_silhouette *one)
{
    return f->report->view->craft.item[one->item].part->kind;
}

static void find_box(const pare_outline *loop, double low[2], double high[2])
{
    for (int k = 0; k < 2; k++) {
        low[k] = INFINITY;
        high[k] = -INFINITY;
        for (size_t i = 0; i < loop->points; i++) {
            low[k] = fmin(low[k], loop->at_m[i][k]);
            high[k] = fmax(high[k], loop->at_m[i][k]);
        }
    }
}

/* Whether something nearer may lie over a part of it. */
static bool may_be_covered(const pare_view *view, size_t index)
{
    double low[2], high[2], over_low[2], over_high[2];
    find_box(&view->one[index].loop[0], low, high);
    for (size_t i = index + 1; i < view->count; i++) {
        if (view->one[i].disc)
            continue;
        find_box(&view->one[i].loop[0], over_low, over_high);
        if (low[0] < over_high[0] && over_low[0] < high[0] && low[1] < over_high[1] &&
            over_low[1] < high[1])
            return true;
    }
    return false;
}

static void bodies(const frame *f, paper *to)
{
    const pare_view *view = &f->report->seen[f->seen];
    for (size_t i = 0; i < view->count; i++) {
        const pare_silhouette *one = &view->one[i];
        if (one->disc || !onto(f, one, 0, to))
            continue;
        const bool frame_part = kind_of(f, one) == PARE_FRAME;
        pare_page_area(f->page, one->loops, to->loop, frame_part ? PARE_INK_PALE : PARE_INK_PAPER,
                       (pare_pen){PARE_INK_BLACK, PARE_THIN_MM, 0});
    }
    for (size_t i = 0; i < view->count; i++)
        if (!view->one[i].disc && may_be_covered(view, i) && onto(f, &view->one[i], 0, to))
            pare_page_area(f->page, view->one[i].loops, to->loop, PARE_INK_NONE,
                           (pare_pen){PARE_INK_BLACK, 0.06, 0.7});
    for (size_t i = 0; i < view->count; i++)
        if (view->one[i].disc && onto(f, &view->one[i], 0, to))
            pare_page_area(f->page, view->one[i].loops, to->loop, PARE_INK_NONE,
                           (pare_pen){PARE_INK_GREY, PARE_THIN_MM, 2});
}

/* ---- numbers ---- */

/* Whether something nearer lies over a silhouette's middle. */
static bool hidden(const pare_view *view, size_t index)
{
    for (size_t i = index + 1; i < view->count; i++) {
        const pare_silhouette *over = &view->one[i];
        if (!over->disc && over->item != view->one[index].item &&
            pare_loop_holds(&over->loop[0], view->one[index].middle_m))
            return true;
    }
    return false;
}

/* The silhouette that carries an item's number: the nearest that is not hidden of its first copy. */
static const pare_silhouette *carrier(const pare_view *view, size_t item)
{
    for (size_t i = view->count; i-- > 0;)
        if (view->one[i].item == item && view->one[i].copy == 0 &&
            (view->one[i].disc || !hidden(view, i)))
            return &view->one[i];
    return NULL;
}

/* The first free place on a spiral around a point. */
static pare_box free_place(const frame *f, double x, double y, double width)
{
    pare_box box = {x - width / 2, y - BADGE_MM / 2, width, BADGE_MM};
    for (int ring = 0; ring < 6; ring++)
        for (int i = 0; i < (ring ? 6 * ring : 1); i++) {
            const double turn = 2 * pi * i / (ring ? 6 * ring : 1) + 0.5, out = 3.1 * ring;
            box.x = x - width / 2 + out * cos(turn);
            box.y = y - BADGE_MM / 2 - out * sin(turn);
            if (pare_placed_meets(&f->placed, box) == 0)
                return box;
        }
    box.width = 0;
    return box;
}

/* Where the number is looked for first: an arm's or a disc's middle is something else's, so those take
 * their edge. */
static void wanted_place(const frame *f, const pare_silhouette *one, double at[2])
{
    at[0] = on_x(f, one->middle_m[0]);
    at[1] = on_y(f, one->middle_m[1]);
    if (!one->disc)
        return;
    double most = -INFINITY;
    for (size_t i = 0; i < one->loop[0].points; i++) {
        const double *p = one->loop[0].at_m[i];
        if (p[0] + 0.6 * p[1] > most) {
            most = p[0] + 0.6 * p[1];
            at[0] = on_x(f, p[0]);
            at[1] = on_y(f, p[1]);
        }
    }
}

static void numbers(frame *f)
{
    const pare_view *view = &f->report->seen[f->seen];
    const pare_type type = {.size_mm = 2.1, .ink = PARE_INK_BLACK, .align = PARE_ALIGN_MIDDLE};
    for (size_t item = 0; item < f->report->view->craft.items; item++) {
        const size_t number = pare_report_number(f->report, item);
        const pare_silhouette *one = number ? carrier(view, item) : NULL;
        if (!one)
            continue;
        char text[24];
        double at[2];
        snprintf(text, sizeof text, "%zu", number);
        wanted_place(f, one, at);
        const double width = pare_page_text_width(f->page, &type, text) + 1;
        const pare_box box = free_place(f, at[0], at[1], width);
        if (!(box.width > 0))
            continue;
        const double x = box.x + box.width / 2, y = box.y + box.height / 2;
        if (hypot(x - at[0], y - at[1]) > 0.1) {
            pare_page_line(f->page, at[0], at[1], x, y,
                           (pare_pen){PARE_INK_BLACK, PARE_HAIR_MM, 0});
            pare_page_ellipse(f->page, at[0], at[1], 0.35, 0.35, 0, PARE_INK_BLACK, (pare_pen){0});
        }
        pare_page_ellipse(f->page, x, y, box.width / 2 + 0.2, BADGE_MM / 2 - 0.1, 0, PARE_INK_PAPER,
                          (pare_pen){PARE_INK_GREY, 0.09, 0});
        pare_page_text(f->page, x, y + 0.75, &type, text);
        pare_placed_add(&f->placed, box);
    }
}

/* ---- balance ---- */

/* The longest that a line through the centre may be to both sides and end near the view. */
static double reach_of(const frame *f, const double centre[2], const double along[2])
{
    const pare_view *view = &f->report->seen[f->seen];
    const double over = 2.5 / f->mm_a_m;
    double reach = 0.3 * (view->high_m[0] - view->low_m[0]);
    for (int k = 0; k < 2; k++) {
        const double room = fmax(fmin(view->high_m[k] - centre[k], centre[k] - view->low_m[k]), 0);
        if (fabs(along[k]) > 1e-6)
            reach = fmin(reach, (room + over) / fabs(along[k]));
    }
    return reach;
}

static void axes(const frame *f)
{
    const pare_sheet *sheet = &f->report->view->sheet;
    const double(*m)[3] = sheet->principal_axes.m;
    double centre[2], along[2];
    pare_seen_at(f->seen, sheet->assembly.all.at_m, centre);
    for (int axis = 0; axis < 3; axis++) {
        pare_seen_at(f->seen, (pare_vec3){m[0][axis], m[1][axis], m[2][axis]}, along);
        if (hypot(along[0], along[1]) < 0.5)
            continue; /* seen end on, or nearly so */
        const double reach = reach_of(f, centre, along);
        pare_page_line(f->page, on_x(f, centre[0] - reach * along[0]),
                       on_y(f, centre[1] - reach * along[1]), on_x(f, centre[0] + reach * along[0]),
                       on_y(f, centre[1] + reach * along[1]),
                       (pare_pen){PARE_INK_CLAY, PARE_HAIR_MM, 1.6});
    }
}

static void balance(frame *f)
{
    const pare_sheet *sheet = &f->report->view->sheet;
    const pare_vec3 centre = sheet->assembly.all.at_m;
    double at[2];
    pare_seen_at(f->seen, centre, at);
    const double x = on_x(f, at[0]), y = on_y(f, at[1]);
    const double u_x = sheet->figure[PARE_CG_X].u,
                 u_y = sheet->figure[f->seen == PARE_SEEN_ABOVE ? PARE_CG_Y : PARE_CG_Z].u;
    pare_page_ellipse(f->page, x, y, MARK_MM, MARK_MM, 0, PARE_INK_PAPER,
                      (pare_pen){PARE_INK_CLAY, PARE_THIN_MM, 0});
    pare_page_sector(f->page, x, y, MARK_MM, 0, pi / 2, PARE_INK_CLAY);
    pare_page_sector(f->page, x, y, MARK_MM, pi, 1.5 * pi, PARE_INK_CLAY);
    const double radius_x = f->mm_a_m * 2 * u_x, radius_y = f->mm_a_m * 2 * u_y;
    const bool wide = fmax(radius_x, radius_y) > MARK_MM;
    if (wide)
        pare_page_ellipse(f->page, x, y, radius_x, radius_y, 0, PARE_INK_NONE,
                          (pare_pen){PARE_INK_PAPER, 0.6, 0});
    if (u_x > 0 && u_y > 0)
        pare_page_ellipse(f->page, x, y, radius_x, radius_y, 0, PARE_INK_NONE,
                          (pare_pen){wide ? PARE_INK_CLAY : PARE_INK_BLACK,
                                     wide ? PARE_THIN_MM : PARE_HAIR_MM, 0});
    pare_placed_add(&f->placed, (pare_box){x - MARK_MM, y - MARK_MM, 2 * MARK_MM, 2 * MARK_MM});
}

/* The middle of the motors, which stations are measured from. */
static void origin(const frame *f)
{
    const pare_pen pen = {PARE_INK_BLACK, PARE_HAIR_MM, 0};
    pare_page_line(f->page, f->x - 2.6, f->y, f->x + 2.6, f->y, pen);
    pare_page_line(f->page, f->x, f->y - 2.6, f->x, f->y + 2.6, pen);
}

/* A shift that the eye would not see, or that leaves the craft, is only said. */
static bool has_ghost(const pare_sheet_figure *shift)
{
    return shift->exists && fabs(shift->value) >= 5e-4 && fabs(shift->value) <= 0.15;
}

/* The pack where it balances, as a ghost, and the way there. */
static void pack_shift(const frame *f, paper *to)
{
    const pare_sheet_figure *shift = &f->report->view->sheet.figure[PARE_PACK_SHIFT];
    const pare_view *view = &f->report->seen[f->seen];
    if (!has_ghost(shift))
        return;
    for (size_t i = 0; i < view->count; i++) {
        const pare_silhouette *one = &view->one[i];
        if (kind_of(f, one) != PARE_PACK || !onto(f, one, shift->value, to))
            continue;
        const double x = on_x(f, shift->value > 0 ? 2 * one->middle_m[0] - one->loop[0].at_m[0][0]
                                                  : one->loop[0].at_m[0][0]);
        const double x_end = x + f->mm_a_m * shift->value, y = on_y(f, one->middle_m[1]) - 3.4;
        pare_page_area(f->page, one->loops, to->loop, PARE_INK_NONE,
                       (pare_pen){PARE_INK_CLAY, PARE_THIN_MM, 1});
        pare_page_arrow(f->page, x, y, x_end, y, (pare_pen){PARE_INK_CLAY, PARE_THIN_MM, 0});
    }
}

/* ---- what stands below ---- */

static double scale_bar(const frame *f, double x, double y)
{
    const double step_m = pare_nice_step(30 / f->mm_a_m, 2), step = step_m * f->mm_a_m;
    char text[PARE_DIGITS + 8], digits[PARE_DIGITS];
    const pare_type type = {.size_mm = 2.3, .ink = PARE_INK_BLACK, .align = PARE_ALIGN_MIDDLE};
    for (int i = 0; i < 2; i++)
        pare_page_box(f->page, (pare_box){x + i * step, y, step, 1.1},
                      i ? PARE_INK_PAPER : PARE_INK_BLACK,
                      (pare_pen){PARE_INK_BLACK, PARE_HAIR_MM, 0});
    for (int i = 0; i < 3; i++) {
        snprintf(text, sizeof text, "%s%s", pare_digits_limit(digits, 1e3 * i * step_m),
                 i == 2 ? " mm" : "");
        pare_page_text(f->page, x + i * step, y + 3.5, &type, text);
    }
    return 2 * step;
}

static void foot(const frame *f, pare_box box)
{
    const pare_sheet *sheet = &f->report->view->sheet;
    const pare_screen screen = {.width = 80, .utf8 = true};
    const double y = box.y + box.height - FOOT_MM + 2;
    const pare_type grey = {.size_mm = 2.3, .ink = PARE_INK_GREY};
    char digits[PARE_DIGITS];
    pare_text line = {0};
    const double bar = scale_bar(f, box.x + 2, y);
    pare_text_printf(&line, "1 : %s on %s paper", pare_digits_limit(digits, f->report->scale),
                     f->report->paper->words);
    const double x = box.x + 2 + bar + 9;
    const double wide =
        pare_page_text(f->page, x, y + 1.2, &grey, pare_page_line_of(f->page, &line));
    pare_page_arrow(f->page, x + wide + 4, y + 0.4, x + wide + 12, y + 0.4,
                    (pare_pen){PARE_INK_GREY, PARE_THIN_MM, 0});
    pare_page_text(f->page, x + wide + 13, y + 1.2, &grey, "forward");
    pare_text_free(&line);
    const pare_sheet_figure *cg_x = &sheet->figure[PARE_CG_X], *cg_y = &sheet->figure[PARE_CG_Y];
    pare_text_printf(&line, "Quartered disc: centre of mass, %s mm ",
                     pare_digits_u(digits, &screen, 1e3 * fabs(cg_x->value), 1e3 * cg_x->u));
    pare_text_printf(&line, "%s of the motors' middle (the cross), ",
                     cg_x->value < 0 ? "aft" : "forward");
    pare_text_printf(&line, "%s mm %s; its ellipse: two standard uncertainties.",
                     pare_digits(digits, 1e3 * fabs(cg_y->value), 1e3 * cg_y->u),
                     cg_y->value < 0 ? "right" : "left");
    const pare_sheet_figure *shift = &sheet->figure[PARE_PACK_SHIFT];
    if (shift->exists)
        pare_text_printf(&line, " Pack %s mm %s brings it to the cross%s.",
                         pare_digits(digits, 1e3 * fabs(shift->value), 1e3 * shift->u),
                         shift->value < 0 ? "aft" : "forward", has_ghost(shift) ? " (ghost)" : "");
    pare_text_add(&line, " Broken clay lines: principal axes.");
    const pare_type small = {.size_mm = 2.1, .ink = PARE_INK_GREY, .most_mm = box.width};
    pare_page_words(f->page, box.x, y + 7, &small, pare_page_line_of(f->page, &line));
    pare_text_free(&line);
}

static bool room_for(const pare_report *report, pare_arena *arena, paper *to)
{
    for (int s = 0; s < PARE_SEEN; s++)
        for (size_t i = 0; i < report->seen[s].count; i++) {
            const pare_silhouette *one = &report->seen[s].one[i];
            size_t points = 0;
            for (size_t k = 0; k < one->loops; k++)
                points += one->loop[k].points;
            to->room = points > to->room ? points : to->room;
            to->loops_room = one->loops > to->loops_room ? one->loops : to->loops_room;
        }
    to->at = pare_arena_array(arena, to->room + 1, sizeof *to->at);
    to->loop = pare_arena_array(arena, to->loops_room + 1, sizeof *to->loop);
    return to->at && to->loop;
}

static void one_view(frame *f, paper *to)
{
    axes(f);
    bodies(f, to);
    origin(f);
    pack_shift(f, to);
    balance(f);
    numbers(f);
}

pare_status pare_draw_views(pare_page *page, pare_box box, const pare_report *report,
                            pare_error *err)
{
    static const char *const caption[PARE_SEEN] = {"From above", "From the right"};
    pare_arena *arena = pare_arena_open();
    paper to = {0};
    if (!arena || !room_for(report, arena, &to)) {
        pare_arena_close(arena);
        return pare_no_memory(err);
    }
    double low_m = INFINITY, high_m = -INFINITY, y = box.y;
    for (int s = 0; s < PARE_SEEN; s++) {
        low_m = fmin(low_m, report->seen[s].low_m[0]);
        high_m = fmax(high_m, report->seen[s].high_m[0]);
    }
    frame f = {.page = page, .report = report, .mm_a_m = 1e3 / report->scale};
    for (int s = 0; s < PARE_SEEN && low_m <= high_m; s++) {
        const pare_view *view = &report->seen[s];
        f.seen = (pare_seen)s;
        f.placed.count = 0;
        f.x = box.x + box.width / 2 - f.mm_a_m * (low_m + high_m) / 2;
        f.y = y + CAPTION_MM + f.mm_a_m * view->high_m[1];
        pare_page_text(page, box.x, y + 2.4,
                       &(pare_type){.size_mm = 2.5, .ink = PARE_INK_BLACK, .bold = true},
                       caption[s]);
        one_view(&f, &to);
        y = f.y - f.mm_a_m * view->low_m[1] + 4;
    }
    foot(&f, box);
    pare_arena_close(arena);
    return PARE_OK;
}
