/* mass_rule.c: rules by mass (see mass_rule.h). Speeds are from memory. */
#include "craft/mass_rule.h"

#include <math.h>

const pare_mass_rule pare_mass_rules[] = {
    {"Japan, Civil Aeronautics Act", "registration begins", 0.100, false, 0},
    {"UK, from 2026", "flyer ID begins; with a camera, operator ID", 0.100, false, 0},
    {"US 14 CFR 48", "registration begins above 0.55 lb", 0.24948, true, 0},
    {"Australia", "micro ends", 0.250, true, 0},
    {"Canada", "micro ends", 0.250, false, 0},
    {"EU 2019/945 and 947", "class C0 ends", 0.250, false, 19},
    {"EU 2019/945 and 947", "class C1 ends", 0.900, false, 19},
    {"EU 2019/945 and 947", "class C2 ends", 4.000, false, 0},
};
const size_t pare_mass_rule_count = sizeof pare_mass_rules / sizeof pare_mass_rules[0];

double pare_mass_rule_chance(const pare_mass_rule *rule, double all_up_kg, double all_up_u_kg)
{
    const double below_kg = rule->limit_kg - all_up_kg;
    if (!(all_up_u_kg > 0))
        return below_kg > 0 || (rule->at_limit && below_kg == 0) ? 1 : 0;
    return 0.5 * erfc(-below_kg / (all_up_u_kg * sqrt(2)));
}
