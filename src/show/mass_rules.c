/* mass_rules.c: rules by mass beside a craft (see mass_rules.h). A rule that also limits speed says so
 * where the craft flies faster: light is not enough by itself. */
#include "show/mass_rules.h"

#include <stdio.h>

#include "craft/mass_rule.h"
#include "show/digits.h"
#include "show/json.h"

static double chance_of(const pare_mass_rule *rule, const pare_sheet *sheet)
{
    const pare_sheet_figure *all_up = &sheet->figure[PARE_ALL_UP];
    return pare_mass_rule_chance(rule, all_up->value, all_up->u);
}

/* A chance is never a certainty. */
static const char *in_words(char text[PARE_DIGITS], double chance)
{
    if (chance < 0.005)
        return "over";
    if (chance > 0.995)
        return "below";
    snprintf(text, PARE_DIGITS, "below: %.0f %%", 100 * chance);
    return text;
}

void pare_mass_rules_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { MASS = 8, CHANCE = 15 };
    const pare_sheet_figure *top = &view->sheet.figure[PARE_TOP_SPEED];
    char text[PARE_DIGITS], field[64], line[200];
    double fastest = 0;
    pare_text_add(out, "\n");
    pare_put_heading(screen, out,
                     "Rules by mass, as information (texts read " PARE_MASS_RULES_READ ")");
    for (size_t i = 0; i < pare_mass_rule_count; i++) {
        const pare_mass_rule *rule = &pare_mass_rules[i];
        const double chance = chance_of(rule, &view->sheet);
        snprintf(field, sizeof field, "%.4g g", 1e3 * rule->limit_kg);
        pare_text_add(out, "  ");
        pare_put_right(out, field, MASS);
        pare_text_add(out, "  ");
        pare_put_left(out, in_words(text, chance), CHANCE);
        snprintf(line, sizeof line, "%s: %s", rule->where, rule->what);
        pare_put_wrapped(screen, out, 2 + MASS + 2 + CHANCE, 2 + MASS + 2 + CHANCE, line);
        if (chance >= 0.005 && top->exists && rule->most_speed_m_s > 0 &&
            top->value > rule->most_speed_m_s)
            fastest = rule->most_speed_m_s;
    }
    pare_text_add(out, "  ");
    pare_put_wrapped(screen, out, 2, 2,
                     "As flown, with everything on it. Rules change and ask for more than a mass: "
                     "check the local ones, and fly with the training and insurance that they ask "
                     "for.");
    if (fastest > 0) {
        snprintf(
            line, sizeof line,
            "Light is not enough by itself: class C0 and C1 fly at most %g m/s in level flight "
            "(from memory), this craft %s.",
            fastest, pare_digits(text, top->value, top->u));
        pare_text_add(out, "  ");
        pare_put_wrapped(screen, out, 2, 2, line);
    }
}

json_t *pare_mass_rules_json(const pare_sheet_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < pare_mass_rule_count; i++) {
        const pare_mass_rule *rule = &pare_mass_rules[i];
        json_t *one = json_object();
        json_object_set_new(one, "where", json_string(rule->where));
        json_object_set_new(one, "what", json_string(rule->what));
        json_object_set_new(one, "limit_g", pare_json_number(1e3 * rule->limit_kg));
        json_object_set_new(one, "chance", pare_json_number(chance_of(rule, &view->sheet)));
        json_object_set_new(one, "most_speed_m_s",
                            rule->most_speed_m_s > 0 ? pare_json_number(rule->most_speed_m_s)
                                                     : json_null());
        json_object_set_new(one, "read", json_string(PARE_MASS_RULES_READ));
        json_array_append_new(list, one);
    }
    return list;
}
