/* rooms: show store craft physics base */
/* A part alone as the screen shows it: every line, word for word, for parts of which much or little is
 * known. */
#include <string.h>

#include "bench_of.h"
#include "near.h"
#include "show/catalogue.h"
#include "store/bench.h"

typedef struct part_case {
    const char *part, *money, *answer;
    pare_screen screen;
} part_case;

static void expect(size_t count, const part_case cases[])
{
    for (size_t i = 0; i < count; i++) {
        pare_text text = {0}, shown = {0};
        pare_text_printf(&text, "pare: 1\nmoney: EUR\nparts:\n- {id: it, %s}\n", cases[i].part);
        pare_bench *bench = bench_of_text(text.bytes);
        const pare_part *part = pare_bench_part(bench, "it");
        assert_non_null(part);
        pare_part_text(part, cases[i].money, &cases[i].screen, &shown);
        assert_false(shown.failed);
        const char *answer = shown.bytes;

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("%s is shown as\n%s\nand not\n%s", cases[i].part, answer, cases[i].answer);
        pare_bench_close(bench);
        pare_text_free(&text);
        pare_text_free(&shown);
    }
}

static void a_part_is_shown_with_all_that_is_known_of_it(void **state)
{
    (void)state;
    static const part_case cases[] = {
        {"kind: propeller, spec: {diameter: 9 in, pitch: 6 in, blades: 2}, blade: [[0.2, 0.15, "
         "30], [0.75, 0.16, 14.5], [1, 0.06, 8]]",
         "EUR",
         "it: propeller\n  mass              11 +- 2 g                 estimated, by a law: nobody "
         "states it\n  diameter          229 +- 1 mm               stated\n  pitch             152 "
         "+- 8 mm               stated\n  blades            2                         stated\n  "
         "fits propeller    9 in\n  blade             measured at 3 stations\n  owned             "
         "0\n  Its shape is the usual one for its kind: nobody has described it.\n",
         {80, false, false}},
        {"kind: propeller, spec: {diameter: 9 in, pitch: 6 in, blades: 2, line: broad}, tunnel: "
         "[[0, 4000, 0.11, 0.05], [0.35, 5000, 0.08, 0.045], [0.2, 5000, 0.1, 0.05]]",
         "EUR",
         "it: propeller\n  mass              11 +- 2 g                 estimated, by a law: nobody "
         "states it\n  diameter          229 +- 1 mm               stated\n  pitch             152 "
         "+- 8 mm               stated\n  blades            2                         stated\n  "
         "fits propeller    9 in\n  line              broad\n  tunnel            3 points, 4000 to "
         "5000 rpm, J to 0.35\n  owned             0\n  Its shape is the usual one for its kind: "
         "nobody has described it.\n",
         {80, false, false}},
        {"kind: motor, sought: true, mass: {value: 29 g, u: 3 g, known: estimated}, spec: {stator: "
         "[22 mm, 7 mm], kv: 1800}",
         "EUR",
         "it: motor, sought: on no shelf\n  mass              29 +- 3 g                 "
         "estimated\n  stator            22.0 x 7.00 mm            stated\n  kv                "
         "1800 +- 50 rpm/V          stated\n  resistance        70 +- 10 mohm             "
         "estimated, by a law\n  no_load           1.5 +- 0.6 A              estimated, by a law\n "
         " no_load_at        10.0 V                    estimated, by a law\n  screw_depth       "
         "4.4 +- 0.9 mm             estimated, by a law\n  owned             0\n  Its shape is the "
         "usual one for its kind: nobody has described it.\n",
         {80, false, false}},
        {"kind: motor, maker: Wren Street Coils, mass: 31.4 g, price: 17.25, owned: 4, spec: "
         "{stator: 22 mm x 7 mm, kv: {value: 1800, u: 40, known: measured}, volts: 11 V .. 25.5 "
         "V}, fits: {bolt_circle: [16 mm, 19 mm], thread: M3, shaft: M5}, body: {shape: cylinder, "
         "size: [28 mm, 19 mm]}, includes: [{run: phase, gauge: 20, length: 120 mm, count: 3, "
         "outer: 1.8 mm}, {kind: propeller_nut}]",
         "EUR",
         "it: motor by Wren Street Coils\n  mass              31.4 +- 0.6 g             stated\n  "
         "stator            22.0 x 7.00 mm            stated\n  kv                1800 +- 40 rpm/V "
         "         measured\n  resistance        70 +- 10 mohm             estimated, by a law\n  "
         "no_load           1.5 +- 0.6 A              estimated, by a law\n  no_load_at        "
         "10.0 V                    estimated, by a law\n  volts             11.0 .. 25.5 V        "
         "    stated\n  screw_depth       4.4 +- 0.9 mm             estimated, by a law\n  fits "
         "bolt_circle  16 mm or 19 mm\n  fits thread       M3\n  fits shaft        5 mm\n  "
         "includes          3 x 120 mm of AWG 20 wire (phase)\n                    1 x propeller "
         "nut\n  price             17.25 EUR each\n  owned             4\n",
         {80, false, false}},
        {"kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800}, price: 17.25",
         "",
         "it: motor\n  mass              32 +- 3 g                 estimated, by a law: nobody "
         "states it\n  stator            22.0 x 7.00 mm            stated\n  kv                "
         "1800 +- 50 rpm/V          stated\n  resistance        70 +- 10 mohm             "
         "estimated, by a law\n  no_load           1.5 +- 0.6 A              estimated, by a law\n "
         " no_load_at        10.0 V                    estimated, by a law\n  screw_depth       "
         "4.4 +- 0.9 mm             estimated, by a law\n  price             17.25 each\n  owned   "
         "          0\n  Its shape is the usual one for its kind: nobody has described it.\n",
         {80, false, false}},
        {"kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800}, price: {each: 17.25, sold_in: 4, "
         "shipping: 3.50, seller: Harbour Bench, date: 2026-02-11}",
         NULL,
         "it: motor\n  mass              32 +- 3 g                 estimated, by a law: nobody "
         "states it\n  stator            22.0 x 7.00 mm            stated\n  kv                "
         "1800 +- 50 rpm/V          stated\n  resistance        70 +- 10 mohm             "
         "estimated, by a law\n  no_load           1.5 +- 0.6 A              estimated, by a law\n "
         " no_load_at        10.0 V                    estimated, by a law\n  screw_depth       "
         "4.4 +- 0.9 mm             estimated, by a law\n  price             17.25 each, sold in "
         "4, shipping 3.50, Harbour Bench, 2026-02-11\n  owned             0\n  Its shape is the "
         "usual one for its kind: nobody has described it.\n",
         {80, false, false}},
        {"kind: pack, mass: {value: 159 g, u: 2 g, known: stated}, owned: 2, spec: {chemistry: "
         "lihv, cells: 4, capacity: 1300 mAh, resistance: 6 mohm, label_rating: 110}, charger: "
         "[{which: 2, date: 2026-04-02, kind: pulse, pulse: 1 s, temperature: 24 degC, charge: 60 "
         "%, cells: [5.1 mohm, 5.0 mohm, 6.3 mohm, 5.1 mohm], capacity: 1240 mAh}], fits: "
         "{connector: 60 A class}",
         "EUR",
         "it: pack\n  mass              159 +- 2 g                stated\n  cells             4    "
         "                     stated\n  capacity          1300 +- 40 mAh            stated\n  "
         "resistance        5.1 +- 0.6 mohm           measured\n  label_rating      110            "
         "           stated\n  fits cells        4 cells\n  fits connector    60 A class\n  "
         "chemistry         lihv\n  owned  "
         "           2\n  Its shape is the usual one for its kind: nobody has described it.\n  "
         "holds now         1240 +- 40 mAh            measured\n  carries           42 +- 6 C      "
         "           (1 C empties it in an hour) a\n                                              "
         "whole pack, to 60 degC\n  in a burst        130 +- 20 C               for a second, to a "
         "cell's least\n                                              volts\nCell 3 of pack 2 (it) "
         "has 1.24 times the resistance of its mates, read\n2026-04-02: it ages faster than they "
         "do.\nLithium packs burn when shorted, pierced or charged wrongly: charge them\nwatched, "
         "on the right setting.\n",
         {80, false, false}},
        {"kind: pack, spec: {chemistry: lipo, cells: 6, capacity: 1300 mAh, label_rating: 400}",
         "EUR",
         "it: pack\n  mass              230 +- 20 g               estimated, by a law: nobody "
         "states it\n  cells             6                         stated\n  capacity          "
         "1300 +- 40 mAh            stated\n  resistance        6 +- 2 mohm               "
         "estimated, by a law\n  label_rating      400                       stated\n  fits cells  "
         "      6 cells\n  chemistry         lipo\n  owned             0\n  Its shape is the usual "
         "one for its kind: nobody "
         "has described it.\n  carries           30 +- 20 C                (1 C empties it in an "
         "hour) a\n                                              whole pack, to 60 degC\n  in a "
         "burst        100 +- 50 C               for a second, to a cell's least\n                 "
         "                             volts\nThe 400 C on the label of it are more than its cells "
         "can give even for a second.\nLithium packs burn when shorted, pierced or charged "
         "wrongly: charge them\nwatched, on the right setting.\n",
         {80, false, false}},
        {"kind: pack, spec: {chemistry: lipo, cells: 1, capacity: 300 mAh}",
         "EUR",
         "it: pack\n  mass              8.8 +- 0.8 g              estimated, by a law: nobody "
         "states it\n  cells             1                         stated\n  capacity          300 "
         "+- 9 mAh              stated\n  resistance        25 +- 8 mohm              estimated, "
         "by a law\n  fits cells        1 cell\n  chemistry         lipo\n  owned             0\n  "
         "Its shape is the usual "
         "one for its kind: nobody has described it.\n  carries           30 +- 20 C               "
         " (1 C empties\n                                              it in an hour)\n            "
         "                                  a whole pack,\n                                        "
         "      to 60 degC\n  in a burst        100 +- 50 C               for a second,\n          "
         "                                    to a cell's\n                                        "
         "      least volts\nLithium packs burn when shorted, pierced or charged wrongly:\ncharge "
         "them watched, on the right setting.\n",
         {60, false, false}},
        {"kind: frame, mass: 88 g, spec: {drag_area: 90 cm2, material: carbon}, fits: {propeller: "
         "3 in .. 5.2 in, stack: [30.5 mm, 20 mm]}, includes: [{joint: arm_root, standard: "
         "ISO7380-1, thread: M3, length: 16 mm, material: steel, count: 8}, {joint: washers, "
         "standard: ISO7089, thread: M3, material: nylon, count: 1}, {joint: posts, standard: "
         "standoff_hex, thread: M3, length: 25 mm, across: 5.5 mm, tapped: 8 mm, material: brass, "
         "count: 4}, {joint: nuts, standard: ISO7040, thread: M3, material: stainless, count: 2}]",
         "EUR",
         "it: frame\n  mass              88 \xC2\xB1 2 g                  stated\n  wheelbase      "
         "   230 \xC2\xB1 10 mm               estimated, by a law\n  drag_area         90 \xC2\xB1 "
         "20 cm2               stated\n  fits stack        30.5 mm or 20 mm\n  fits propeller    3 "
         "in .. 5.2 in\n  includes          8 screws M3 x 16 mm (arm_root)\n                    1 "
         "washer M3 (washers)\n                    4 standoffs M3 x 25 mm (posts)\n                "
         "    2 nuts M3 (nuts)\n  material          carbon\n  owned             0\n  Its shape is "
         "the usual one for its kind: "
         "nobody has described it.\n",
         {80, true, false}},
        {"kind: other, mass: 3 g, note: \"from the second order, coil a bit loose, and to be "
         "soldered again by whoever has the finest iron and some patience left over\"",
         "EUR",
         "it: other part\n  mass              3.0 +- 0.3 g              stated\n  owned            "
         " 0\n  note              from the second order, coil a bit loose,\n                    "
         "and to be soldered again by whoever has\n                    the finest iron and some "
         "patience left\n                    over\n  Its shape is the usual one for its kind: "
         "nobody has described it.\n",
         {60, false, false}},
        {"kind: antenna, spec: {gain: 1.2 dB, hand: left, cable: RG316, length: 85 mm}, fits: "
         "{antenna: [screw, snap]}",
         "EUR",
         "it: antenna\n  mass              7 +- 3 g                  estimated, by a law: nobody "
         "states it\n  gain              1.2 +- 0.1 dB             stated\n  length            85 "
         "+- 2 mm                stated\n  fits antenna      screw or snap\n  hand              "
         "left\n  cable             RG316\n  owned             "
         "0\n  Its shape is the usual one for its kind: nobody has described it.\n",
         {80, false, false}},
        {"kind: regulator, mass: {value: 2.4 g, known: weighed}, spec: {volts: 27 V, out: 9 V, "
         "out_current: 1.5 A, efficiency: 0.9}",
         "EUR",
         "it: regulator\n  mass              2.4 +- 0.1 g              weighed\n  volts            "
         " 27.0 V                    stated\n  out               9.0 +- 0.2 V              "
         "stated\n  out_current       1.5 +- 0.2 A              stated\n  efficiency        0.90 "
         "+- 0.03              stated\n  owned             0\n  Its shape is the usual one for its "
         "kind: nobody has described it.\n",
         {80, false, false}},
        {"kind: printed, mass: 3 g, body: {shape: box, size: [20 mm, 20 mm, 10 mm], density: 1.2 "
         "g/cm3}",
         "EUR",
         "it: printed part\n  mass              3.0 +- 0.3 g              stated\n  owned          "
         "   0\n",
         {80, false, false}},
    };
    expect(sizeof cases / sizeof *cases, cases);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_part_is_shown_with_all_that_is_known_of_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
