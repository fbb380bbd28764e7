/* screws.c: which screws may be lighter (see screws.h).
 *
 * A verdict is arithmetic and two rules of the trade. Arithmetic: the crash of the brief must not use
 * all that the lighter screw bears. Rules (common practice, no source): what holds a motor or an arm
 * is not made of soft aluminium and is never down to one screw, since one loose screw is then the end
 * of the flight; and a joint is not judged where it does not say what it holds. */
#include "show/screws.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "craft/flight.h"
#include "craft/holding.h"
#include "show/digits.h"
#include "show/sheet_json.h"

static const pare_screw_material lighter[] = {PARE_TITANIUM, PARE_ALUMINIUM_7075, PARE_ALUMINIUM};
enum { LIGHTER = sizeof lighter / sizeof lighter[0] };

typedef struct verdict {
    const pare_joint *joint;
    pare_holding holding;
    double crash_share; /* of what it bears; NAN: not judged */
    bool may_be[LIGHTER];
    int fewest;      /* in all; the joint's own count where no fewer would do */
    const char *why; /* what rules a lighter one out, or NULL */
} verdict;

static bool carries_flight(pare_holds holds)
{
    return holds == PARE_HOLDS_MOTOR || holds == PARE_HOLDS_ARM;
}

static void judge_materials(verdict *v)
{
    const double now = pare_screw_density_kg_m3(v->joint->material);
    for (int i = 0; i < LIGHTER; i++) {
        if (pare_screw_density_kg_m3(lighter[i]) >= now)
            continue;
        const bool soft = lighter[i] == PARE_ALUMINIUM && carries_flight(v->holding.holds);
        const bool bears =
            pare_holding_with(&v->holding, v->joint, lighter[i], v->holding.together) >= 1;
        v->may_be[i] = bears && !soft;
        if (!bears && !v->why)
            v->why = i == 0                         ? "lighter ones are too weak"
                     : lighter[i] == PARE_ALUMINIUM ? "aluminium is too weak"
                                                    : "aluminium of any kind is too weak";
        else if (soft && !v->why)
            v->why = "never soft aluminium here";
    }
}

static void judge_count(verdict *v)
{
    const int together = v->holding.together, groups = v->joint->count / together;
    v->fewest = v->joint->count;
    for (int fewer = together - 1; fewer >= 2; fewer--) {
        if (pare_holding_with(&v->holding, v->joint, v->joint->material, fewer) < 1)
            break;
        v->fewest = groups * fewer;
    }
}

static bool judge(const pare_sheet_view *view, const pare_joint *joint, verdict *v)
{
    *v = (verdict){.joint = joint, .crash_share = NAN, .fewest = joint->count};
    if (pare_craft_holding(&view->craft, &view->sheet, joint,
                           pare_brief_crash_m_s(&view->craft.brief), &v->holding, NULL) != PARE_OK)
        return false;
    if (v->holding.holds == PARE_HOLDS_NOT_KNOWN) {
        v->why = "say what it holds";
        return true;
    }
    v->crash_share = 1 / pare_holding_ratio(&v->holding, &v->holding.crash);
    judge_materials(v);
    judge_count(v);
    return true;
}

static void put_verdict(const verdict *v, pare_text *line)
{
    bool any = false;
    for (int i = 0; i < LIGHTER; i++) {
        if (!v->may_be[i])
            continue;
        pare_text_printf(line, "%s%s", any ? ", " : "", pare_screw_material_name(lighter[i]));
        any = true;
    }
    if (v->fewest < v->joint->count) {
        pare_text_printf(line, "%s%d would do", any ? ", or " : "", v->fewest);
        any = true;
    }
    if (v->why)
        pare_text_printf(line, "%s%s", any ? "; " : "", v->why);
    else if (!any)
        pare_text_add(line, "as it is");
}

void pare_screws_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { NAME = 12, NOW = 23, SHARE = 6, TORQUE = 8 };
    if (view->craft.joints == 0)
        return;
    char text[PARE_DIGITS], field[96];
    snprintf(field, sizeof field, "Screws, in a crash at %s m/s stopped in %g mm (a guess)",
             pare_digits_limit(text, pare_brief_crash_m_s(&view->craft.brief)),
             1e3 * PARE_STOPPING_M);
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, field);
    pare_text_add(out, "  ");
    pare_put_left(out, "", NAME + NOW);
    pare_put_right(out, "uses", SHARE);
    pare_put_right(out, "tighten", TORQUE + 2);
    pare_text_add(out, "  may be\n");
    for (size_t i = 0; i < view->craft.joints; i++) {
        verdict v;
        if (!judge(view, &view->craft.joint[i], &v))
            continue;
        snprintf(field, sizeof field, "%d M%g %s%s%s", v.joint->count,
                 1e3 * v.joint->thread.nominal_m, pare_screw_material_name(v.joint->material),
                 v.joint->grade ? " " : "", v.joint->grade ? v.joint->grade : "");
        pare_text_add(out, "  ");
        pare_put_left(out, v.joint->name, NAME);
        pare_put_left(out, field, NOW);
        if (isfinite(v.crash_share))
            snprintf(field, sizeof field, "%s %%",
                     pare_digits(text, 100 * v.crash_share, 40 * v.crash_share));
        else
            field[0] = '\0';
        pare_put_right(out, field, SHARE);
        snprintf(field, sizeof field, "%.1f N m", v.holding.hold.torque_nm);
        pare_put_right(out, field, TORQUE + 2);
        pare_text_add(out, "  ");
        pare_text line = {0};
        put_verdict(&v, &line);
        if (line.bytes)
            pare_put_wrapped(screen, out, 2 + NAME + NOW + SHARE + TORQUE + 4,
                             2 + NAME + NOW + SHARE + TORQUE + 4, line.bytes);
        out->failed = out->failed || line.failed;
        pare_text_free(&line);
    }
    pare_text_add(out, "  ");
    pare_put_wrapped(screen, out, 2, 2,
                     "Aluminium screws not again after a crash, and they corrode on wet carbon. A "
                     "weaker screw can "
                     "let go in flight: fly where nobody is under it, by local rules.");
}

json_t *pare_screws_json(const pare_sheet_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < view->craft.joints; i++) {
        verdict v;
        if (!judge(view, &view->craft.joint[i], &v))
            continue;
        json_t *one = json_object(), *may_be = json_array();
        for (int k = 0; k < LIGHTER; k++)
            if (v.may_be[k])
                json_array_append_new(may_be, json_string(pare_screw_material_name(lighter[k])));
        json_object_set_new(one, "joint", json_string(v.joint->name));
        json_object_set_new(one, "count", json_integer(v.joint->count));
        json_object_set_new(one, "material",
                            json_string(pare_screw_material_name(v.joint->material)));
        json_object_set_new(one, "torque_nm", pare_json_number(v.holding.hold.torque_nm));
        json_object_set_new(one, "crash_share", pare_json_number(v.crash_share));
        json_object_set_new(one, "may_be", may_be);
        json_object_set_new(one, "fewest", json_integer(v.fewest));
        json_object_set_new(one, "why", pare_text_or_null(v.why));
        json_array_append_new(list, one);
    }
    return list;
}
