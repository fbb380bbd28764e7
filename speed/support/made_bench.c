/* made_bench.c: what a shop or a club might have on its shelves, made up (see made_bench.h).
 *
 * Kinds come in the proportion of a trade list: many motors, propellers, packs, few ties. A quarter is
 * made for three inch, a half for five, a quarter for seven. A part is drawn by what it can do (stator,
 * amperes, capacity ...); what it weighs follows from that by the trade's law of its kind and its scatter,
 * or scatters a fifth about the middle of its kind; what it costs rises with what it can do and falls with
 * what it weighs for that, as light parts are dear. So money, grams and ratings trade against each other as
 * they do in a shop, and few parts are better in everything. A part in ten states no mass. The first part
 * of each kind and size is that of the craft of the size, a little heavy, so that more than half of what
 * fits is lighter. A generator of the simplest kind draws everything, so that the bench is the same
 * wherever it is made. */
#include "support/made_bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "craft/kind.h"
#include "craft/law.h"

typedef struct draw {
    unsigned long long state;
    pare_text *text;
} draw;

/* Knuth's constants, The Art of Computer Programming vol. 2, 3.3.4 (from memory). */
static double share(draw *d)
{
    d->state = d->state * 6364136223846793005ull + 1442695040888963407ull;
    return (double)(d->state >> 11) / 9007199254740992.0;
}

static double between(draw *d, double low, double high)
{
    return low + (high - low) * share(d);
}

static size_t one_of(draw *d, size_t count)
{
    return (size_t)(share(d) * (double)count);
}

/* Normal to four deviations, by the sum of twelve even draws. */
static double scatter(draw *d)
{
    double sum = -6;
    for (int i = 0; i < 12; i++)
        sum += share(d);
    return sum;
}

/* ---- three sizes of craft ---- */

enum { SMALL, MIDDLE, LARGE, SIZES };
enum { STATORS = 4 };

/* The first stator is the craft's. */
static const struct {
    double inches, stator_mm[STATORS][2], kv, arm_mm, mah, amps, stack_m;
    const char *circle, *thread, *shaft, *stack, *lead, *connector;
    int cells;
} sizes[SIZES] = {
    {3.0,
     {{14, 4}, {13, 3}, {14, 3.5}, {15, 5}},
     4500,
     50,
     650,
     22,
     0.0255,
     "9 mm",
     "M2",
     "1.5 mm",
     "25.5 mm",
     "18",
     "30",
     4},
    {5.1,
     {{22, 7}, {22, 5}, {23, 6}, {22, 8}},
     2650,
     80,
     1500,
     45,
     0.0305,
     "16 mm",
     "M3",
     "M5",
     "30.5 mm",
     "12",
     "60",
     4},
    {7.0,
     {{28, 6.5}, {25, 7}, {27, 7}, {28, 8}},
     1300,
     112,
     3000,
     55,
     0.0305,
     "19 mm",
     "M3",
     "M5",
     "30.5 mm",
     "12",
     "60",
     6},
};

/* What a part can do; only what its kind needs is drawn. */
typedef struct facts {
    bool own; /* the craft's */
    int size, stator, blades, cells;
    double kv, inches, mah, amps, build;
} facts;

static facts draw_facts(draw *d, int size, bool own)
{
    facts f = {.own = own,
               .size = size,
               .blades = 3,
               .cells = sizes[size].cells,
               .kv = sizes[size].kv,
               .inches = sizes[size].inches,
               .mah = sizes[size].mah,
               .amps = sizes[size].amps,
               .build = 1};
    if (own)
        return f;
    f.stator = (int)one_of(d, STATORS);
    f.blades = share(d) < 0.7 ? 3 : 2;
    f.cells = share(d) < 0.85 ? f.cells : 10 - f.cells;
    f.kv *= between(d, 0.8, 1.15) * sizes[size].cells / f.cells;
    f.inches -= 0.1 * (double)one_of(d, 3);
    f.mah *= between(d, 0.7, 1.2) * sizes[size].cells / f.cells;
    f.amps *= between(d, 0.7, 1.4);
    f.build = between(d, 0.75, 1.25);
    return f;
}

/* ---- kinds ---- */

/* How many of 2,000, grams of the middle of them in each size, and what a gram of such a one costs; the
 * last from memory. */
static const struct {
    pare_kind kind;
    int of_2000;
    const char *id;
    double grams[SIZES], money;
} kinds[] = {
    {PARE_FRAME, 110, "fr", {36, 105, 140}, 0.55},
    {PARE_MOTOR, 260, "mo", {9.5, 33, 46}, 0.75},
    {PARE_PROPELLER, 220, "pr", {1.5, 4.3, 8.5}, 0.18},
    {PARE_PROPELLER_NUT, 20, "nu", {0.6, 1.5, 1.7}, 0.25},
    {PARE_ESC_ONE, 60, "e1", {3, 6, 9}, 2.5},
    {PARE_ESC_FOUR, 120, "es", {8, 14, 17}, 4},
    {PARE_FLIGHT_CONTROLLER, 110, "fc", {5, 8, 9}, 5},
    {PARE_CONTROLLER_WITH_ESC, 50, "fe", {8, 15, 20}, 5},
    {PARE_REGULATOR, 40, "re", {1.5, 2.3, 3}, 3},
    {PARE_PACK, 220, "pa", {72, 178, 420}, 0.17},
    {PARE_CONNECTOR, 30, "co", {1.2, 3.5, 4}, 0.6},
    {PARE_CAPACITOR, 50, "cp", {1.2, 3.4, 5}, 0.5},
    {PARE_STANDOFF, 60, "sd", {0.7, 1.3, 1.6}, 0.4},
    {PARE_CAMERA, 80, "ca", {4, 9, 11}, 3.5},
    {PARE_ACTION_CAMERA, 20, "ac", {18, 32, 60}, 6},
    {PARE_HOLDER, 70, "ho", {6, 15, 25}, 0.6},
    {PARE_VIDEO_TRANSMITTER, 80, "vt", {3, 7, 9}, 5},
    {PARE_ANTENNA, 90, "an", {3, 8, 11}, 1.8},
    {PARE_ADAPTER, 30, "ad", {1.5, 2.8, 3}, 2},
    {PARE_PIGTAIL, 30, "pg", {2, 2.8, 3.5}, 2},
    {PARE_RECEIVER, 40, "rc", {0.9, 2.4, 3}, 8},
    {PARE_GPS, 30, "gp", {4, 8, 10}, 2.5},
    {PARE_BUZZER, 25, "bz", {2, 4, 4.5}, 1.2},
    {PARE_STRAP, 25, "st", {4, 7, 9}, 0.5},
    {PARE_PAD, 15, "pd", {1.5, 3.5, 5}, 0.5},
    {PARE_TIE, 10, "ti", {0.2, 0.3, 0.4}, 0.1},
    {PARE_BUMPER, 30, "bu", {1, 2.2, 2.6}, 0.8},
    {PARE_PRINTED, 50, "pt", {2, 7, 9}, 0.5},
    {PARE_OTHER, 25, "ot", {0.5, 2, 3}, 0.3},
};
enum { KINDS = sizeof kinds / sizeof kinds[0], OF = 2000 };

static const char *const makers[] = {"Fellside",     "Ashlar Yard", "Thistle and Cog",
                                     "Sedge Works",  "Plover",      "Coldwell Carbon",
                                     "Mistral Lane", "Bracken Row"};
static const char *const sellers[] = {"Millbeck", "Corner Ironmonger", "Tollgate"};

static void put_frame(draw *d, int size)
{
    /* Arms as wide and thick for any build: what spares grams is cut out elsewhere. */
    const double arm_mm = sizes[size].arm_mm * between(d, 0.95, 1.05);
    const double x = arm_mm * between(d, 0.92, 1.0);
    const double wide_mm = 11 * sizes[size].inches / 5.1;
    pare_text_printf(
        d->text,
        ", fits: {bolt_circle: %s, propeller: %.1f in .. %.1f in, stack: [%s, 20 mm], "
        "camera: [%s]}, body: [{arms: [[%.1f mm, %.1f mm], [%.1f mm, -%.1f mm], "
        "[-%.1f mm, -%.1f mm], [-%.1f mm, %.1f mm]], root: %.1f mm, section: [%.1f mm, "
        "%.1f mm]}, {plate: base, size: [%.0f mm, %.0f mm, 2 mm], at: [0 mm, 0 mm, -6 "
        "mm]}, {plate: top, size: [%.0f mm, %.0f mm, 2 mm], at: [0 mm, 0 mm, 26 mm]}]",
        sizes[size].circle, sizes[size].inches - 1, sizes[size].inches + 0.2, sizes[size].stack,
        share(d) < 0.5 ? "28 mm, 19 mm" : "21 mm, 19 mm", x, arm_mm, x, arm_mm, x, arm_mm, x,
        arm_mm, 0.32 * arm_mm, wide_mm, wide_mm * between(d, 0.36, 0.46), 1.4 * arm_mm,
        0.5 * arm_mm, 1.6 * arm_mm, 0.45 * arm_mm);
    pare_text_add(d->text,
                  ", includes: [{joint: arm_root, standard: ISO7380-1, thread: M3, length: "
                  "14 mm, material: steel, count: 8}]");
}

static void put_motor(draw *d, const facts *f)
{
    const int size = f->size;
    const double *stator = sizes[size].stator_mm[f->stator];
    const double wide_m = 1e-3 * stator[0], long_m = 1e-3 * stator[1];
    pare_text_printf(d->text, ", spec: {stator: %g mm x %g mm, kv: %.0f", stator[0], stator[1],
                     f->kv);
    const double amps =
        (14.0 + 12 * size) * stator[0] * stator[0] * stator[1] /
        (sizes[size].stator_mm[0][0] * sizes[size].stator_mm[0][0] * sizes[size].stator_mm[0][1]);
    const double ohm = pare_law_winding_ohm(f->kv, wide_m, long_m).value;
    const double no_load_a = pare_law_no_load_a(f->kv, wide_m, long_m).value;
    if (f->own || share(d) < 0.7)
        pare_text_printf(d->text,
                         ", resistance: %.0f mohm, no_load: %.1f A, no_load_at: 10 V, continuous: "
                         "%.0f A, burst: %.0f A, burst_for: 10 s",
                         1e3 * ohm * between(d, 0.9, 1.2), no_load_a * between(d, 0.8, 1.3), amps,
                         1.7 * amps);
    pare_text_printf(d->text,
                     ", volts: 7 V .. %g V}, fits: {bolt_circle: %s, thread: %s, shaft: %s, "
                     "screw_depth: %.1f mm}, body: {shape: cylinder, size: [%g mm, %g mm]}, "
                     "includes: [{run: phase, gauge: %d, length: %.0f mm, count: 3}]",
                     !f->own && share(d) < 0.3 ? 17.5 : 25.5, sizes[size].circle,
                     sizes[size].thread, sizes[size].shaft, between(d, 3, 6), stator[0] + 6,
                     stator[1] + 12, size == SMALL ? 26 : 20, between(d, 90, 150));
}

static void put_pack(draw *d, const facts *f)
{
    pare_text_printf(
        d->text,
        ", spec: {chemistry: lipo, cells: %d, capacity: %.0f mAh}, fits: {connector: %s "
        "A class}, includes: [{run: pack_lead, gauge: %s, length: 80 mm, count: 2}]",
        f->cells, f->mah, sizes[f->size].connector, sizes[f->size].lead);
}

static void put_board(draw *d, pare_kind kind, const facts *f)
{
    const bool esc = kind != PARE_FLIGHT_CONTROLLER;
    const bool brain = kind == PARE_FLIGHT_CONTROLLER || kind == PARE_CONTROLLER_WITH_ESC;
    if (brain)
        pare_text_printf(d->text, ", does: [flight_controller, %sregulator]",
                         esc ? "esc_four, " : "");
    pare_text_add(d->text, ", spec: {volts: 7 V .. 26 V");
    if (esc) {
        pare_text_printf(d->text, ", continuous: %.0f A, burst: %.0f A, burst_for: 10 s", f->amps,
                         f->amps * between(d, 1.15, 1.4));
    }
    if (brain)
        pare_text_add(d->text, ", power: 1.2 W, out: 5 V, out_current: 2 A, efficiency: 88 %");
    pare_text_add(d->text, "}");
    if (kind != PARE_ESC_ONE)
        pare_text_printf(d->text, ", fits: {stack: %s, thread: M3}",
                         f->own || share(d) < 0.75 ? sizes[f->size].stack : "20 mm");
}

static void put_radio(draw *d, pare_kind kind)
{
    static const char *const plugs[] = {"snap", "screw"};
    const size_t end = one_of(d, 2);
    if (kind == PARE_VIDEO_TRANSMITTER)
        pare_text_printf(d->text,
                         ", spec: {volts: 5 V .. 26 V, power: %.1f W, band: 5.8 GHz}, fits: "
                         "{antenna: snap, stack: [30.5 mm, 25.5 mm, 20 mm]}",
                         between(d, 3, 8));
    else if (kind == PARE_ANTENNA)
        pare_text_printf(
            d->text,
            ", spec: {gain: 1.4 dB, hand: %s, band: %s GHz, cable: RG178, length: %.0f "
            "mm}, fits: {antenna: %s}",
            share(d) < 0.6 ? "right" : "left", share(d) < 0.8 ? "5.8" : "2.4", between(d, 50, 120),
            plugs[end]);
    else if (kind == PARE_PIGTAIL)
        pare_text_printf(
            d->text, ", spec: {cable: RG178, length: %.0f mm, loss: 0.2 dB, ends: [snap, screw]}",
            between(d, 60, 120));
    else
        pare_text_printf(d->text, ", spec: {loss: 0.15 dB, ends: [%s, %s]}", plugs[end],
                         plugs[one_of(d, 2)]);
}

static void put_rest(draw *d, pare_kind kind, const facts *f)
{
    const int size = f->size;
    switch (kind) {
    case PARE_PROPELLER:
        pare_text_printf(
            d->text, ", spec: {diameter: %.1f in, pitch: %.1f in, blades: %d}, fits: {shaft: %s}",
            f->inches, sizes[size].inches * (0.6 + 0.05 * (double)one_of(d, 6)), f->blades,
            sizes[size].shaft);
        break;
    case PARE_PROPELLER_NUT:
        pare_text_printf(d->text, ", fits: {shaft: %s}", sizes[size].shaft);
        break;
    case PARE_REGULATOR:
        pare_text_printf(d->text, ", spec: {volts: 7 V .. 27 V, out: %d V, out_current: 2 A}",
                         share(d) < 0.5 ? 5 : 9);
        break;
    case PARE_CONNECTOR:
        pare_text_printf(d->text, ", fits: {connector: %s A class}", sizes[size].connector);
        break;
    case PARE_CAPACITOR:
        pare_text_printf(d->text, ", spec: {volts: %d V, capacitance: %d uF}",
                         share(d) < 0.7 ? 35 : 25, 220 * (1 + (int)one_of(d, 5)));
        break;
    case PARE_STANDOFF:
        pare_text_printf(d->text, ", spec: {length: %d mm, diameter: 5 mm}, fits: {thread: M3}",
                         20 + 5 * (int)one_of(d, 3));
        break;
    case PARE_CAMERA:
        pare_text_printf(d->text, ", spec: {volts: 5 V .. 26 V}, fits: {camera: %s mm}",
                         share(d) < 0.6 ? "19" : "21");
        break;
    case PARE_ACTION_CAMERA:
        pare_text_add(d->text, ", body: {shape: box, size: [20 mm, 38 mm, 36 mm]}");
        break;
    case PARE_HOLDER:
        pare_text_add(d->text, ", fits: {camera: 38 mm}");
        break;
    case PARE_STRAP:
        pare_text_printf(d->text, ", spec: {length: %d mm}", 150 + 50 * size);
        break;
    case PARE_RECEIVER:
    case PARE_GPS:
    case PARE_BUZZER:
        pare_text_add(d->text, ", spec: {volts: 4.5 V .. 8.4 V}");
        break;
    case PARE_PRINTED:
        pare_text_printf(d->text, ", fits: {stack: %s}", share(d) < 0.5 ? "30.5 mm" : "20 mm");
        break;
    default:
        break;
    }
}

static void put_specs(draw *d, pare_kind kind, const facts *f)
{
    switch (kind) {
    case PARE_FRAME:
        put_frame(d, f->size);
        break;
    case PARE_MOTOR:
        put_motor(d, f);
        break;
    case PARE_PACK:
        put_pack(d, f);
        break;
    case PARE_ESC_ONE:
    case PARE_ESC_FOUR:
    case PARE_FLIGHT_CONTROLLER:
    case PARE_CONTROLLER_WITH_ESC:
        put_board(d, kind, f);
        break;
    case PARE_VIDEO_TRANSMITTER:
    case PARE_ANTENNA:
    case PARE_PIGTAIL:
    case PARE_ADAPTER:
        put_radio(d, kind);
        break;
    default:
        put_rest(d, kind, f);
        break;
    }
}

/* What such a part weighs by the law of its kind, or the middle of its kind and a fifth. */
static pare_typical typical_kg(size_t k, const facts *f)
{
    const double inch_m = 0.0254, *stator = sizes[f->size].stator_mm[f->stator];
    switch (kinds[k].kind) {
    case PARE_FRAME:
        return pare_law_frame_kg(sizes[f->size].inches * inch_m, f->build);
    case PARE_MOTOR:
        return pare_law_motor_kg(1e-3 * stator[0], 1e-3 * stator[1]);
    case PARE_PROPELLER:
        return pare_law_propeller_kg(f->inches * inch_m, f->blades);
    case PARE_PACK:
        return pare_law_pack_kg(PARE_LIPO, f->cells, 3.6 * f->mah);
    case PARE_ESC_ONE:
        return pare_law_esc_one_kg(f->amps);
    case PARE_ESC_FOUR:
        return pare_law_esc_four_kg(f->amps, sizes[f->size].stack_m);
    case PARE_CONTROLLER_WITH_ESC:
        return pare_law_controller_with_esc_kg(f->amps);
    default:
        return (pare_typical){1e-3 * kinds[k].grams[f->size], 2e-4 * kinds[k].grams[f->size]};
    }
}

static void put_part(draw *d, size_t k, int number, int size, bool own)
{
    const facts f = draw_facts(d, size, own);
    const pare_typical typical = typical_kg(k, &f);
    const double spread = typical.u / typical.value;
    const double heavy = own ? 0.3 * spread : spread * scatter(d); /* in logarithms */
    const double grams = 1e3 * typical.value * exp(heavy);
    const double able = 1e3 * typical.value / kinds[k].grams[size];
    const double money =
        kinds[k].money * kinds[k].grams[size] * pow(able, 0.8) * exp(-2 * heavy + 0.2 * scatter(d));
    const bool by_law =
        !own && (kinds[k].kind == PARE_MOTOR || kinds[k].kind == PARE_PACK) && share(d) < 0.1;
    pare_text_printf(d->text, "- {id: %s-%04d, kind: %s, maker: %s", kinds[k].id, number,
                     pare_kind_name(kinds[k].kind), makers[one_of(d, 8)]);
    if (!by_law)
        pare_text_printf(d->text, ", mass: {value: %.2f g, known: %s}", grams,
                         own || share(d) < 0.1 ? "weighed" : "stated");
    pare_text_printf(
        d->text, ", price: {each: %.2f, sold_in: %d, shipping: 4.5, seller: %s}, owned: %d",
        money + 0.01, grams < 3 ? 4 : 1, sellers[one_of(d, 3)], own || share(d) < 0.03 ? 8 : 0);
    put_specs(d, kinds[k].kind, &f);
    pare_text_add(d->text, "}\n");
}

/* ---- craft ---- */

/* Which of a kind's first parts is the craft's of this size. */
static const int own_number[SIZES] = {1, 0, 2};
static const char *const craft_name[SIZES] = {"wren", "fieldfare", "heron"};
static const char *const all_up[SIZES] = {"270 g", "640 g", "1150 g"};

/* A place along the craft, for a five inch; other sizes stretch it. */
static double along(int size, double mm)
{
    return mm * sizes[size].arm_mm / sizes[MIDDLE].arm_mm;
}

static void put_item(pare_text *text, int size, const char *name, const char *id, const char *more)
{
    pare_text_printf(text, "    %s: {part: %s-%04d, %s}\n", name, id, own_number[size], more);
}

static void put_at(pare_text *text, int size, const char *name, const char *id, double x_mm,
                   double y_mm, double z_mm, const char *more)
{
    pare_text_printf(text, "    %s: {part: %s-%04d, at: [%.1f mm, %.1f mm, %.1f mm]%s}\n", name, id,
                     own_number[size], along(size, x_mm), along(size, y_mm), along(size, z_mm),
                     more);
}

static void put_items(pare_text *text, int size)
{
    pare_text_printf(text, "  items:\n    frame: {part: fr-%04d}\n", own_number[size]);
    put_item(text, size, "motor", "mo", "count: 4, at: arms");
    put_item(text, size, "propeller", "pr", "count: 4, at: arms");
    put_item(text, size, "nut", "nu", "count: 4, at: arms");
    put_at(text, size, "esc", "es", 0, 0, 6, "");
    put_at(text, size, "brain", "fc", 0, 0, 14, "");
    put_at(text, size, "regulator", "re", -26, 12, 6, "");
    put_at(text, size, "capacitor", "cp", -48, 12, 8, "");
    put_at(text, size, "connector", "co", -72, 0, 12, "");
    put_at(text, size, "pack", "pa", -16, 0, 57, "");
    put_at(text, size, "pad", "pd", -16, 0, 36, "");
    put_at(text, size, "strap", "st", -16, 0, 52, "");
    put_at(text, size, "camera", "ca", 56, 0, 17, "");
    put_at(text, size, "video", "vt", -32, 0, 18, "");
    put_at(text, size, "pigtail", "pg", -52, 0, 22, "");
    put_at(text, size, "antenna", "an", -80, 0, 70, ", feeds: [video, pigtail]");
    put_at(text, size, "tower", "pt", -68, 0, 20, ", job: holds");
    put_at(text, size, "receiver", "rc", -58, -10, 10, "");
    put_at(text, size, "finder", "gp", -60, 0, 30, "");
    put_at(text, size, "buzzer", "bz", -44, -12, 8, "");
    put_at(text, size, "action_camera", "ac", 58, 0, 66, "");
    put_at(text, size, "holder", "ho", 40, 0, 35, "");
    put_item(text, size, "bumper", "bu", "count: 4, at: {arms: 100 %}");
    put_item(text, size, "tie", "ti", "count: 8, at: {arms: 55 %}");
    put_at(text, size, "solder", "ot", -15, 0, 8, "");
}

static void put_craft(pare_text *text, int size)
{
    pare_text_printf(
        text,
        "- name: %s\n"
        "  brief:\n"
        "    air: {altitude: 120 m, temperature: 18 degC}\n"
        "    flown: [{share: 20 %%, as: hover}, {share: 50 %%, speed: 16 m/s}, {share: 22 %%, "
        "thrust: "
        "2}, {share: 8 %%, thrust: 3.5}]\n"
        "    limits: {all_up: \"<= %s\", thrust_to_weight_half: \">= 5\", flown: \">= 3.5 min\", "
        "margin: \">= 1.0\"}\n"
        "    keep: [sees, films, finds, holds]\n"
        "  loadouts:\n"
        "    film: {}\n"
        "    race: {without: [action_camera, holder]}\n",
        craft_name[size], all_up[size]);
    put_items(text, size);
    pare_text_printf(
        text,
        "  joints:\n"
        "    motor_base: {standard: ISO4762, thread: %s, length: %d mm, material: steel, class: "
        "12.9, "
        "count: 16, holds: motor, into: 6061}\n"
        "    arm_root: {holds: arm, class: 10.9, included_in: frame}\n"
        "    stack: {standard: ISO4762, thread: M3, length: 25 mm, material: steel, count: 4, "
        "holds: "
        "esc, needed: 22 mm, at: [0 mm, 0 mm, %.1f mm]}\n"
        "    top_plate: {standard: ISO7380-1, thread: M3, length: 8 mm, material: steel, count: 6, "
        "holds: frame, into: 6061, needed: 6 mm, at: [0 mm, 0 mm, %.1f mm]}\n"
        "  runs:\n"
        "    lead: {gauge: %s, ways: [%.0f mm, %.0f mm], carries: pack, at: [%.1f mm, 0 mm, 8 "
        "mm]}\n"
        "    phase: {included_in: motor, carries: motor}\n"
        "    receiver_wire: {gauge: 28, ways: [110 mm, 110 mm, 110 mm, 110 mm], carries: receiver, "
        "at: [-32 mm, -8 mm, 12 mm]}\n"
        "    camera_wire: {gauge: 28, ways: [120 mm, 120 mm, 120 mm], carries: camera, at: [28 mm, "
        "0 "
        "mm, 14 mm]}\n"
        "    video_wire: {gauge: 26, ways: [90 mm, 90 mm, 90 mm], carries: video, at: [-18 mm, 0 "
        "mm, "
        "16 mm]}\n",
        sizes[size].thread, size == SMALL ? 7 : 10, along(size, 8), along(size, 34),
        sizes[size].lead, along(size, 125), along(size, 125), along(size, -52));
}

void made_bench_text(size_t parts, unsigned long long seed, pare_text *text)
{
    draw d = {.state = seed, .text = text};
    const bool all_sizes = parts >= MADE_BENCH_ALL_SIZES;
    pare_text_add(text, "pare: 1\nmoney: EUR\nparts:\n");
    size_t before = 0, share_before = 0;
    for (size_t k = 0; k < KINDS; k++) {
        /* Rounded over the whole, so that all kinds together are as many as asked for. */
        share_before += (size_t)kinds[k].of_2000;
        const size_t spare = parts - KINDS, upto = k + 1 + spare * share_before / OF;
        for (int number = 0; before < upto; number++, before++) {
            int size = MIDDLE;
            bool own = number == 0;
            for (int s = 0; all_sizes && s < SIZES; s++)
                if (number == own_number[s]) {
                    own = true;
                    size = s;
                }
            const double size_share = share(&d);
            if (!own)
                size = size_share < 0.25 ? SMALL : size_share < 0.75 ? MIDDLE : LARGE;
            put_part(&d, k, number, size, own);
        }
    }
    pare_text_add(text, "craft:\n");
    for (int size = 0; size < SIZES; size++)
        if (all_sizes || size == MIDDLE)
            put_craft(text, size);
}

static pare_status through_a_store(const char *path, const pare_text *text, pare_bench **bench,
                                   pare_error *err)
{
    pare_store *store = NULL;
    pare_import_summary summary;
    const pare_import import = {.bytes = text->bytes, .length = text->length, .name = "made"};
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_store_open(path, PARE_STORE_CREATE, &store, err);
    if (status == PARE_OK)
        status = pare_store_import_yaml(store, &import, arena, &summary, err);
    if (status == PARE_OK)
        status = pare_store_read(store, bench, err);
    if (status == PARE_OK)
        status = pare_store_warm(store, *bench, err);
    pare_store_close(store);
    pare_arena_close(arena);
    return status;
}

pare_status made_bench(size_t parts, unsigned long long seed, pare_bench **bench, pare_error *err)
{
    char folder[] = "/tmp/pare-speed-XXXXXX", path[64], file[80];
    if (!mkdtemp(folder))
        return pare_fail(err, PARE_UNAVAILABLE, "no folder can be made in /tmp");
    snprintf(path, sizeof path, "%s/bench.sqlite", folder);
    pare_text text = {0};
    made_bench_text(parts, seed, &text);
    const pare_status status =
        text.failed ? pare_no_memory(err) : through_a_store(path, &text, bench, err);
    pare_text_free(&text);
    const char *const suffix[] = {"", "-wal", "-shm", "-journal"};
    for (size_t i = 0; i < sizeof suffix / sizeof suffix[0]; i++) {
        snprintf(file, sizeof file, "%s%s", path, suffix[i]);
        unlink(file);
    }
    rmdir(folder);
    return status;
}
