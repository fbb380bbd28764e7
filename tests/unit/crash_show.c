/* rooms: show advise store craft physics base */
/* What a screen says of a light craft: only where it is light. */
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "show/crash.h"

static const pare_screen screen = {.width = 80};

static char *said(double output, double idle)
{
    pare_sheet *sheet = calloc(1, sizeof *sheet);
    pare_text out = {0};
    assert_non_null(sheet);
    sheet->figure[PARE_HOVER_OUTPUT] =
        (pare_sheet_figure){.exists = output > 0, .value = output, .u = 0.01};
    sheet->figure[PARE_IDLE_TWR] =
        (pare_sheet_figure){.exists = idle > 0, .value = idle, .u = 0.05};
    pare_light_cautions(sheet, &screen, &out);
    char *text = strdup(out.bytes ? out.bytes : "");
    pare_text_free(&out);
    free(sheet);
    return text;
}

static void little_output_in_hover_is_a_caution_under_fifteen_per_cent(void **state)
{
    (void)state;
    char *under = said(0.13, 0.05), *over = said(0.16, 0.05), *none = said(0, 0);
    assert_string_equal(under,
                        "Hover takes 13 % of output; under 15 % sticks and controller have little "
                        "room\nbelow it: expect it to bob, and lower the throttle curve.\n");
    assert_string_equal(over, "");
    assert_string_equal(none, "");
    free(under);
    free(over);
    free(none);
}

static void much_thrust_at_idle_says_whether_it_still_sinks(void **state)
{
    (void)state;
    char *slow = said(0.2, 0.5), *never = said(0.2, 1.2);
    assert_non_null(strstr(slow, "it sinks slowly"));
    assert_non_null(strstr(never, "it does not sink"));
    free(slow);
    free(never);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(little_output_in_hover_is_a_caution_under_fifteen_per_cent),
        cmocka_unit_test(much_thrust_at_idle_says_whether_it_still_sinks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
