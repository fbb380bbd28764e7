/* arms.c: at what speeds a craft's arms ring (see arms.h).
 *
 * A band is what the modulus is known to. Where the rotors' speed at hover or in cruise falls in it, or
 * within a tenth of it, the arm may ring there; a flown range that only passes through is not held in
 * it and not said. Bending is driven once a turn by a propeller out of balance, and every time a blade
 * passes over the arm; torsion by the same, where the disc stands above the arm. */
#include "show/arms.h"

#include <math.h>
#include <stdio.h>

#include "show/digits.h"
#include "show/json.h"

#define PI      3.14159265358979323846
#define WIDENED 0.10

typedef struct turns {
    double hover_hz, cruise_hz, slow_hz, fast_hz; /* NAN: no such flight */
    int blades;
} turns;

static double hz(double rad_s)
{
    return rad_s > 0 ? rad_s / (2 * PI) : (double)NAN;
}

static turns turns_of(const pare_sheet_view *view)
{
    const pare_sheet *sheet = &view->sheet;
    const pare_sheet_figure *hover = &sheet->figure[PARE_HOVER_RPM];
    const pare_sheet_figure *cruise = &sheet->figure[PARE_CRUISE_RPM];
    const int propeller = pare_craft_doing(&view->craft, PARE_PROPELLER);
    const double blades =
        propeller >= 0 ? view->craft.item[propeller].part->spec[PARE_SPEC_BLADES].value : 0;
    return (turns){.hover_hz = hover->exists ? hz(hover->value) : (double)NAN,
                   .cruise_hz = cruise->exists ? hz(cruise->value) : (double)NAN,
                   .slow_hz = hz(sheet->flown_slow_rad_s),
                   .fast_hz = hz(sheet->flown_fast_rad_s),
                   .blades = (int)blades};
}

static bool rings(double driven_hz, double low_hz, double high_hz)
{
    return driven_hz > (1 - WIDENED) * low_hz && driven_hz < (1 + WIDENED) * high_hz;
}

static void row(const char *words, double low_hz, double high_hz, const char *more, pare_text *out)
{
    char low[PARE_DIGITS], high[PARE_DIGITS];
    pare_text_add(out, "  ");
    pare_put_left(out, words, 32);
    pare_text_printf(out, "%s to %s Hz%s\n", pare_digits_at(low, low_hz, 0),
                     pare_digits_at(high, high_hz, 0), more);
}

/* "hover lies in it", "hover and cruise lie in it" or nothing. */
static const char *met(char text[64], const turns *t, int times, double low_hz, double high_hz)
{
    const bool hover = rings(times * t->hover_hz, low_hz, high_hz);
    const bool cruise = rings(times * t->cruise_hz, low_hz, high_hz);
    text[0] = '\0';
    if (hover || cruise)
        snprintf(text, 64, "%s%s%s", hover ? "hover" : "", hover && cruise ? " and " : "",
                 cruise ? "cruise" : "");
    return text;
}

static void verdicts(const pare_arm_facts *arms, const turns *t, pare_text *line)
{
    const struct {
        const char *drives, *rings;
        int times;
        double low_hz, high_hz;
    } pairs[] = {{"turn of the rotor", "bending", 1, arms->low_hz, arms->high_hz},
                 {"turn of the rotor", "torsion", 1, arms->twist_low_hz, arms->twist_high_hz},
                 {"blade passing", "bending", t->blades, arms->low_hz, arms->high_hz},
                 {"blade passing", "torsion", t->blades, arms->twist_low_hz, arms->twist_high_hz}};
    char states[64];
    bool any = false;
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        if (!*met(states, t, pairs[i].times, pairs[i].low_hz, pairs[i].high_hz))
            continue;
        pare_text_printf(line, "%s %s meets %s at %s", any ? "; a" : "A", pairs[i].drives,
                         pairs[i].rings, states);
        any = true;
    }
    pare_text_add(line, any ? ", within 10 %: the arms may ring there. "
                            : "Neither meets them within 10 % at hover or in cruise. ");
}

void pare_arms_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_arm_facts *arms = &view->arms;
    if (!view->arms_known)
        return;
    const turns t = turns_of(view);
    char text[PARE_DIGITS], other[PARE_DIGITS], head[128];
    snprintf(head, sizeof head, "Arms: %s %s x %s mm, %.0f mm free, %.1f g at the tip",
             arms->arm.form == PARE_ARM_TUBE ? "tube (outside x wall)" : "plate",
             pare_digits_limit(text, 1e3 * arms->arm.width_m),
             pare_digits_limit(other, 1e3 * arms->arm.thickness_m), 1e3 * arms->arm.length_m,
             1e3 * arms->tip_kg);
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, head);
    char bare[64] = "";
    if (arms->protects_kg > 0 && arms->tip_kg > 0)
        snprintf(bare, sizeof bare, "; %+.0f Hz without what protects",
                 arms->bare_hz - arms->figures.bending_hz);
    row("first bending", arms->low_hz, arms->high_hz, bare, out);
    row("first torsion", arms->twist_low_hz, arms->twist_high_hz, "", out);
    if (t.slow_hz > 0) {
        char held[64] = "";
        if (t.hover_hz > 0)
            snprintf(held, sizeof held, "; hover %.0f Hz", t.hover_hz);
        row("rotors as flown, once a turn", t.slow_hz, t.fast_hz, held, out);
        row("each blade passing", t.blades * t.slow_hz, t.blades * t.fast_hz, "", out);
    }
    pare_text line = {0};
    verdicts(arms, &t, &line);
    pare_text_printf(&line, "%s. ",
                     arms->stated ? "The stiffness is as the frame states it, within 10 %"
                                  : "The stiffness is the band of the material: the frame states "
                                    "none");
    pare_text_printf(&line,
                     "Held fast at the root, as no clamp quite does. Their edges are some %s cm2 "
                     "of the craft's drag area.",
                     pare_digits_at(text, 1e4 * arms->drag_m2, 0));
    pare_put_line(screen, out, 2, 2, &line);
}

json_t *pare_arms_json(const pare_sheet_view *view)
{
    if (!view->arms_known)
        return json_null();
    const pare_arm_facts *arms = &view->arms;
    const turns t = turns_of(view);
    const struct {
        const char *key;
        double value;
    } rows[] = {{"length_mm", 1e3 * arms->arm.length_m},
                {"tip_g", 1e3 * arms->tip_kg},
                {"tip_protects_g", 1e3 * arms->protects_kg},
                {"bending_hz", arms->figures.bending_hz},
                {"bending_low_hz", arms->low_hz},
                {"bending_high_hz", arms->high_hz},
                {"bending_bare_hz", arms->bare_hz},
                {"torsion_low_hz", arms->twist_low_hz},
                {"torsion_high_hz", arms->twist_high_hz},
                {"turn_hover_hz", t.hover_hz},
                {"turn_cruise_hz", t.cruise_hz},
                {"turn_slow_hz", t.slow_hz},
                {"turn_fast_hz", t.fast_hz},
                {"blade_hover_hz", t.blades * t.hover_hz},
                {"drag_cm2", 1e4 * arms->drag_m2}};
    json_t *object = json_object();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        json_object_set_new(object, rows[i].key, pare_json_number(rows[i].value));
    json_object_set_new(object, "modulus_stated", json_boolean(arms->stated));
    return object;
}
