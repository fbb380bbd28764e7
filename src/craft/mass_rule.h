/* mass_rule.h: what some rules say about mass, as information only.
 *
 * Rules change, differ from place to place, and ask for more than a mass: a user must check the local
 * ones. The table says when its texts were read. */
#ifndef PARE_CRAFT_MASS_RULE_H
#define PARE_CRAFT_MASS_RULE_H

#include <stdbool.h>
#include <stddef.h>

typedef struct pare_mass_rule {
    const char *where; /* the text: "EU 2019/945 and 947" */
    const char *what;  /* what begins or ends at that mass */
    double limit_kg;
    bool at_limit;         /* a craft of just that mass is still below */
    double most_speed_m_s; /* that the same rule allows in level flight; 0: it names none */
} pare_mass_rule;

/** When the texts were read. */
#define PARE_MASS_RULES_READ "2021 to 2026"

/** By mass, then place. */
extern const pare_mass_rule pare_mass_rules[];
extern const size_t pare_mass_rule_count;

/** The chance that a craft of uncertain mass stays below. @param all_up_u_kg  0: 0 or 1 */
double pare_mass_rule_chance(const pare_mass_rule *rule, double all_up_kg, double all_up_u_kg);

#endif
