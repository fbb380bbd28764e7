/* screws.c: which screws and standoffs may be lighter (see screws.h).
 *
 * A verdict is arithmetic and two rules of the trade. Arithmetic: the crash of the brief must not use
 * all that the lighter screw bears. Rules (common practice, no source): an aluminium screw is spent
 * after one crash, so it holds nothing that ends a flight when it comes loose (motor, arm, propeller,
 * pack), and those are never down to one screw; and a joint is not judged where it does not say what
 * it holds. Each verdict gives the figures that it rests on, so that it can be argued with. */
#include "show/screws.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "craft/flight.h"
#include "craft/holding.h"
#include "show/digits.h"
#include "show/sheet_json.h"

static const pare_screw_material lighter[] = {PARE_TITANIUM, PARE_ALUMINIUM_7075, PARE_ALUMINIUM,
                                              PARE_NYLON};
enum { LIGHTER = sizeof lighter / sizeof lighter[0] };

typedef struct verdict {
    const pare_joint *joint;
    pare_holding holding;
    double crash_share;   /* of what it bears; NAN: not judged */
    double with[LIGHTER]; /* the same share in another material; NAN: not lighter, or not offered */
    bool may_be[LIGHTER];
    int fewest;               /* in all; the joint's own count where no fewer would do */
    double fewest_share;      /* with that many */
    double enters_m, depth_m; /* NAN: not known; 0: nothing limits it */
} verdict;

static bool of_aluminium(pare_screw_material material)
{
    return material == PARE_ALUMINIUM || material == PARE_ALUMINIUM_7075;
}

/* Nylon posts are sold, and nylon screws hold nothing on a craft that falls. */
static bool offered(const pare_joint *joint, pare_screw_material material)
{
    const bool screw = pare_is_screw(joint->standard);
    return pare_screw_density_kg_m3(material) < pare_screw_density_kg_m3(joint->material) &&
           (screw ? material != PARE_NYLON : material != PARE_ALUMINIUM_7075);
}

static void judge_materials(verdict *v)
{
    for (int i = 0; i < LIGHTER; i++) {
        if (!offered(v->joint, lighter[i]))
            continue;
        v->with[i] = 1 / pare_holding_with(&v->holding, v->joint, lighter[i], v->holding.together);
        v->may_be[i] = v->with[i] <= 1 && !(v->holding.vital && of_aluminium(lighter[i]));
    }
}

static void judge_count(verdict *v)
{
    const int together = v->holding.together, groups = v->joint->count / together;
    if (!pare_is_screw(v->joint->standard))
        return; /* where its corners are is the frame's to say */
    for (int fewer = together - 1; fewer >= 2; fewer--) {
        const double share =
            1 / pare_holding_with(&v->holding, v->joint, v->joint->material, fewer);
        if (share > 1)
            break;
        v->fewest = groups * fewer;
        v->fewest_share = share;
    }
}

/* False where it is not to be judged by itself. */
static bool judge(const pare_sheet_view *view, const pare_joint *joint, verdict *v)
{
    *v = (verdict){.joint = joint,
                   .crash_share = (double)NAN,
                   .fewest = joint->count,
                   .enters_m = pare_joint_enters_m(&view->craft, joint),
                   .depth_m = pare_joint_depth_m(&view->craft, joint).value};
    for (int i = 0; i < LIGHTER; i++)
        v->with[i] = (double)NAN;
    if (pare_craft_holding(&view->craft, &view->sheet, joint,
                           pare_brief_crash_m_s(&view->craft.brief), &v->holding, NULL) != PARE_OK)
        return false;
    if (v->holding.holds == PARE_HOLDS_NOT_KNOWN)
        return true;
    v->crash_share = 1 / pare_holding_ratio(&v->holding, &v->holding.crash);
    judge_materials(v);
    judge_count(v);
    return true;
}

static const char *percent(char text[static PARE_DIGITS + 4], double share)
{
    char digits[PARE_DIGITS];
    snprintf(text, PARE_DIGITS + 4, "%s %%", pare_digits(digits, 100 * share, 40 * share));
    return text;
}

static void put_may_be(const verdict *v, pare_text *line)
{
    char share[PARE_DIGITS + 4];
    bool any = false;
    for (int i = 0; i < LIGHTER; i++) {
        if (!v->may_be[i])
            continue;
        pare_text_printf(line, "%s%s (%s)", any ? ", " : "May be ",
                         pare_screw_material_name(lighter[i]), percent(share, v->with[i]));
        any = true;
    }
    if (any && !v->holding.vital)
        pare_text_add(line, ", for nothing that flies hangs on it");
    if (v->fewest < v->joint->count) {
        pare_text_printf(line, "%s%d would do (%s)", any ? "; or " : "As it is, or ", v->fewest,
                         percent(share, v->fewest_share));
        any = true;
    }
    if (!any)
        pare_text_add(line, "Stays as it is");
}

/* Why not: too weak, or too soft for what it holds. */
static void put_why_not(const verdict *v, pare_text *line)
{
    char share[PARE_DIGITS + 4];
    bool spent = false;
    for (int i = 0; i < LIGHTER; i++) {
        if (isnan(v->with[i]) || v->may_be[i])
            continue;
        if (v->with[i] > 1)
            pare_text_printf(line, "; %s is too weak (%s)", pare_screw_material_name(lighter[i]),
                             percent(share, v->with[i]));
        else
            spent = true;
    }
    if (spent)
        pare_text_printf(line, "; no aluminium, for it holds %s%s and is spent after one crash",
                         v->holding.holds == PARE_HOLDS_ARM ? "an " : "a ",
                         v->holding.holds == PARE_HOLDS_MOTOR ? "motor" : v->joint->holds);
    if (v->holding.vital)
        pare_text_add(line, "; never fewer than two");
}

static void put_length(const verdict *v, pare_text *line)
{
    if (isnan(v->enters_m) || !pare_is_screw(v->joint->standard))
        return;
    const double grips_mm = 1e3 * (v->joint->length_m - v->enters_m);
    pare_text_printf(line, "Grips %.3g mm, %.3g mm in thread", grips_mm,
                     1e3 * fmax(v->enters_m, 0));
    const double least_mm = grips_mm + 1e3 * pare_joint_least_m(v->joint);
    if (v->depth_m > 0)
        pare_text_printf(line, "; %.3g to %.3g mm long would suit, more touches the winding. ",
                         least_mm, grips_mm + 1e3 * v->depth_m);
    else
        pare_text_printf(line, "; %.3g mm long at least. ", least_mm);
}

static void put_row(const verdict *v, const pare_screen *screen, pare_text *out)
{
    enum { NAME = 12, NOW = 34, SHARE = 8, TORQUE = 10, INDENT = 6 };
    char field[96], share[PARE_DIGITS + 4];
    const pare_joint *joint = v->joint;
    pare_text line = {0};
    pare_text_printf(&line, "%d M%g x %.4g mm %s%s%s%s%s", joint->count,
                     1e3 * joint->thread.nominal_m, 1e3 * joint->length_m,
                     pare_screw_material_name(joint->material), joint->grade ? " " : "",
                     joint->grade ? joint->grade : "", pare_is_screw(joint->standard) ? "" : " ",
                     pare_is_screw(joint->standard) ? "" : "standoffs");
    pare_text_add(out, "  ");
    pare_put_left(out, joint->name, NAME);
    pare_put_left(out, pare_text_all(&line), NOW);
    pare_put_right(out, isfinite(v->crash_share) ? percent(share, v->crash_share) : "", SHARE);
    if (v->holding.hold.torque_nm > 0) {
        snprintf(field, sizeof field, "%.1f N m", v->holding.hold.torque_nm);
        pare_put_right(out, field, TORQUE);
    }
    pare_text_add(out, "\n");
    out->failed |= line.failed;
    pare_text_free(&line);
    put_length(v, &line);
    if (v->holding.holds == PARE_HOLDS_NOT_KNOWN) {
        pare_text_add(&line, "Say what it holds");
    } else {
        put_may_be(v, &line);
        put_why_not(v, &line);
    }
    pare_put_line(screen, out, INDENT, INDENT, &line);
}

void pare_screws_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    if (view->craft.joints == 0)
        return;
    char text[PARE_DIGITS], field[96];
    snprintf(field, sizeof field, "Screws, in a crash at %s m/s stopped in %g mm (a guess)",
             pare_digits_limit(text, pare_brief_crash_m_s(&view->craft.brief)),
             1e3 * PARE_STOPPING_M);
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, field);
    pare_put_spaces(out, 2 + 12 + 34);
    pare_text_add(out, "    uses   tighten\n");
    for (size_t i = 0; i < view->craft.joints; i++) {
        verdict v;
        if (judge(view, &view->craft.joint[i], &v))
            put_row(&v, screen, out);
    }
    pare_text_add(out, "  ");
    pare_put_wrapped(screen, out, 2, 2,
                     "In brackets: how much of its strength the same crash would use. Aluminium "
                     "screws not again after a crash, and they corrode on wet carbon. A weaker "
                     "screw can let go in flight: fly where nobody is under it, by local rules.");
}

/* Why it may not be what it may not be, as one word each. */
static json_t *why_not(const verdict *v)
{
    json_t *object = json_object();
    for (int i = 0; i < LIGHTER; i++)
        if (!isnan(v->with[i]) && !v->may_be[i])
            json_object_set_new(object, pare_screw_material_name(lighter[i]),
                                json_string(v->with[i] > 1 ? "too weak" : "spent after one crash"));
    return object;
}

json_t *pare_screws_json(const pare_sheet_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < view->craft.joints; i++) {
        verdict v;
        if (!judge(view, &view->craft.joint[i], &v))
            continue;
        json_t *one = json_object(), *may_be = json_array(), *with = json_object();
        for (int k = 0; k < LIGHTER; k++) {
            const char *name = pare_screw_material_name(lighter[k]);
            if (v.may_be[k])
                json_array_append_new(may_be, json_string(name));
            if (!isnan(v.with[k]))
                json_object_set_new(with, name, pare_json_number(v.with[k]));
        }
        json_object_set_new(one, "joint", json_string(v.joint->name));
        json_object_set_new(one, "standard", json_string(pare_fastener_name(v.joint->standard)));
        json_object_set_new(one, "count", json_integer(v.joint->count));
        json_object_set_new(one, "material",
                            json_string(pare_screw_material_name(v.joint->material)));
        json_object_set_new(one, "length_mm", pare_json_number(1e3 * v.joint->length_m));
        json_object_set_new(one, "enters_mm", pare_json_number(1e3 * v.enters_m));
        json_object_set_new(one, "depth_mm",
                            pare_json_number(v.depth_m > 0 ? 1e3 * v.depth_m : (double)NAN));
        json_object_set_new(one, "torque_nm",
                            pare_json_number(v.holding.hold.torque_nm > 0 ? v.holding.hold.torque_nm
                                                                          : (double)NAN));
        json_object_set_new(one, "crash_share", pare_json_number(v.crash_share));
        json_object_set_new(one, "may_be", may_be);
        json_object_set_new(one, "crash_share_with", with);
        json_object_set_new(one, "why_not", why_not(&v));
        json_object_set_new(one, "fewest", json_integer(v.fewest));
        json_array_append_new(list, one);
    }
    return list;
}
