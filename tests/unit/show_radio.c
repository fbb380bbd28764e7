/* rooms: show store advise craft physics base */
/* Chains of radios as they are shown, in each state: with a chain before that fed the same transmitter or none,
 * a band and a gain that are stated or meant, connectors or none. */
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "show/radio.h"

typedef struct radio_case {
    pare_radio now, before;
    const char *says[3], *never;
} radio_case;

static void each_chain_says_what_is_known_of_it(void **state)
{
    (void)state;
    static const pare_part antenna = {.id = "an-1"}, other = {.id = "an-2"},
                           round = {.id = "an-3", .hand = PARE_HANDED_RIGHT};
    const pare_radio plain = {.antenna = "whip",
                              .transmitter = "video",
                              .part = &antenna,
                              .band_hz = 5.8e9,
                              .band_given = true,
                              .cable_db = 0.25,
                              .loss_db = 0.25,
                              .gain_db = 2,
                              .gain_given = true};
    radio_case rows[] = {
        {plain, plain, {"video to whip at 5.8 GHz: loses 0.25", "which leaves"}, "connectors"},
        {plain, plain, {"5.8 GHz (not stated: the usual)"}, "stated 0"},
        {plain, plain, {"connectors 0.3", "stated 0.4"}, "not stated"},
        {plain, plain, {"times as far in free space as before"}, NULL},
        {plain, plain, {"video to whip"}, "as before"},
        {plain, plain, {"which leaves"}, NULL},
        {plain, plain, {"It carries as far in free space as before."}, "times"},
        {plain, plain, {"It carries as far in free space as before (0.0 +- 0.7 dB)."}, "times"},
        {plain, plain, {"as far in free space as before (0.0 +- 0.9 dB), though 3 dB"}, "of which"},
        {plain, plain, {"1.01 +- 0.08 times as far in free space as before (+0.1 dB)."}, NULL},
    };
    /* Of stated gains half a decibel each, of a turned line half a decibel more. */
    rows[1].now.band_given = false;
    rows[2].now.pairs = 1;
    rows[2].now.pairs_db = 0.3;
    rows[2].now.stated_db = 0.4;
    rows[3].before.loss_db = 1.25;
    rows[3].before.part = &other;
    rows[4].before.transmitter = "receiver";
    rows[5].now.gain_given = false;
    rows[6].before.loss_db = 0.299;
    for (size_t i = 7; i < 10; i++) {
        rows[i].before.part = &other;
        rows[i].now.gain_u_db = rows[i].before.gain_u_db = 0.5;
    }
    rows[7].before.loss_db = 0.201;
    rows[8].before.part = &round;
    rows[8].before.gain_db -= 10 * log10(2);
    rows[9].before.loss_db = 0.301;
    pare_sheet_view *view = calloc(1, sizeof *view);
    assert_non_null(view);
    const pare_screen screen = {.width = 400};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        view->tried = "whip=an-1";
        view->radios = 2;
        view->radios_before = 1;
        view->radio[0] = rows[i].now;
        view->radio[1] = plain;
        view->radio[1].transmitter = "remote";
        view->radio_before[0] = rows[i].before;
        pare_text text = {0};
        pare_radio_text(view, &screen, &text);
        for (size_t k = 0; k < 3 && rows[i].says[k]; k++)
            if (!strstr(text.bytes, rows[i].says[k]))
                fail_msg("row %zu: '%s' does not say '%s'", i, text.bytes, rows[i].says[k]);
        if (rows[i].never && strstr(text.bytes, rows[i].never))
            fail_msg("row %zu: '%s' says '%s'", i, text.bytes, rows[i].never);
        /* The warning comes once, behind the last. */
        const char *warned = strstr(text.bytes, "Never power a transmitter");
        assert_non_null(warned);
        assert_true(warned > strstr(text.bytes, "remote to whip"));
        assert_null(strstr(warned + 1, "Never power a transmitter"));
        pare_text_free(&text);
        json_t *list = pare_radio_json(view);
        assert_int_equal(json_array_size(list), 2);
        const json_t *gain = json_object_get(json_array_get(list, 0), "gain_db");
        assert_true(rows[i].now.gain_given ? json_number_value(gain) == 2 : json_is_null(gain));
        json_decref(list);
        pare_text lines = {0};
        pare_radio_lines(view, &screen, &lines);
        const bool said = lines.bytes && strstr(lines.bytes, "as before");
        if (said != (i == 3 || i > 5))
            fail_msg("row %zu: '%s'", i, lines.bytes ? lines.bytes : "");
        pare_text_free(&lines);
    }
    free(view);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_chain_says_what_is_known_of_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
