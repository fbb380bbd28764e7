/* rooms: craft physics base */
/* Rules by mass against their texts, read in 2021 to 2026. They change: a failing check here is a reason
 * to read the text again. */
#include <math.h>
#include <string.h>

#include "craft/mass_rule.h"
#include "near.h"

static const pare_mass_rule *rule(const char *where, const char *what)
{
    for (size_t i = 0; i < pare_mass_rule_count; i++)
        if (strncmp(pare_mass_rules[i].where, where, strlen(where)) == 0 &&
            strstr(pare_mass_rules[i].what, what))
            return &pare_mass_rules[i];
    fail_msg("no rule %s, %s", where, what);
    return NULL;
}

static void limits_are_those_of_the_texts(void **state)
{
    (void)state;
    /* Regulation (EU) 2019/945, Annex, Parts 1 to 3: "less than 250 g", "900 g", "4 kg". */
    assert_near(rule("EU", "C0")->limit_kg, 0.250, 1e-12);
    assert_near(rule("EU", "C1")->limit_kg, 0.900, 1e-12);
    assert_near(rule("EU", "C2")->limit_kg, 4.000, 1e-12);
    /* 14 CFR 48.15: "0.55 pounds or less"; the pound is 0.45359237 kg (1959 agreement), so 249.5 g. */
    assert_near(rule("US", "registration")->limit_kg, 0.55 * 0.45359237, 1e-5);
    /* Canadian Aviation Regulations, part IX: micro is less than 250 g. Australia: micro to 250 g. */
    assert_near(rule("Canada", "micro")->limit_kg, 0.250, 1e-12);
    assert_near(rule("Australia", "micro")->limit_kg, 0.250, 1e-12);
    /* Japan: from 100 g. UK from 2026: flyer ID from 100 g. */
    assert_near(rule("Japan", "registration")->limit_kg, 0.100, 1e-12);
    assert_near(rule("UK", "flyer")->limit_kg, 0.100, 1e-12);
}

static void a_craft_of_just_the_limit_is_below_where_the_text_says_or_less(void **state)
{
    (void)state;
    assert_near(pare_mass_rule_chance(rule("Australia", "micro"), 0.250, 0), 1, 0);
    assert_near(pare_mass_rule_chance(rule("EU", "C0"), 0.250, 0), 0, 0);
    assert_near(pare_mass_rule_chance(rule("EU", "C0"), 0.2499, 0), 1, 0);
}

static void the_chance_is_the_normal_distributions(void **state)
{
    (void)state;
    /* NIST/SEMATECH e-Handbook 1.3.6.7.1: the area below 1 is 0.84134, below 2 is 0.97725. */
    const pare_mass_rule *c0 = rule("EU", "C0");
    assert_near(pare_mass_rule_chance(c0, 0.248, 0.002), 0.84134, 5e-6);
    assert_near(pare_mass_rule_chance(c0, 0.246, 0.002), 0.97725, 5e-6);
    assert_near(pare_mass_rule_chance(c0, 0.252, 0.002), 1 - 0.84134, 5e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(limits_are_those_of_the_texts),
        cmocka_unit_test(a_craft_of_just_the_limit_is_below_where_the_text_says_or_less),
        cmocka_unit_test(the_chance_is_the_normal_distributions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
