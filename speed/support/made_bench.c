/* made_bench.c: what a shop or a club might have on its shelves, made up (see made_bench.h).
 *
 * Kinds come in the proportion of a trade list: many motors, propellers, packs, few ties. A quarter is
 * made for three inch, a half for five, a quarter for seven; masses scatter about those of the
 * craft's own, so that about half of what fits is lighter; a part in ten states no mass. The first part
 * of each kind is the craft's. A generator of the simplest kind draws everything, so that the bench is
 * the same wherever it is made. */
#include "support/made_bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "craft/kind.h"

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

/* ---- three sizes of craft ---- */

static const struct {
    double inches, stator_mm[2], kv, arm_mm, motor_g, frame_g;
    const char *circle, *thread, *shaft, *stack;
    int cells;
} sizes[] = {
    {3.0, {14, 4}, 4500, 50, 9.5, 36, "9 mm", "M2", "1.5 mm", "25.5 mm", 4},
    {5.1, {22, 7}, 2650, 80, 33.0, 105, "16 mm", "M3", "M5", "30.5 mm", 4},
    {7.0, {28, 6.5}, 1300, 112, 46.0, 140, "19 mm", "M3", "M5", "30.5 mm", 6},
};

/* ---- kinds ---- */

/* How many of 2,000, and grams of the middle of them in each size. */
static const struct {
    pare_kind kind;
    int of_2000;
    const char *id;
    double grams[3];
} kinds[] = {
    {PARE_FRAME, 110, "fr", {36, 105, 140}},
    {PARE_MOTOR, 260, "mo", {9.5, 33, 46}},
    {PARE_PROPELLER, 220, "pr", {1.5, 4.3, 8.5}},
    {PARE_PROPELLER_NUT, 20, "nu", {0.6, 1.5, 1.7}},
    {PARE_ESC_ONE, 60, "e1", {3, 6, 9}},
    {PARE_ESC_FOUR, 120, "es", {8, 14, 17}},
    {PARE_FLIGHT_CONTROLLER, 110, "fc", {5, 8, 9}},
    {PARE_CONTROLLER_WITH_ESC, 50, "fe", {8, 15, 20}},
    {PARE_REGULATOR, 40, "re", {1.5, 2.3, 3}},
    {PARE_PACK, 220, "pa", {72, 178, 420}},
    {PARE_CONNECTOR, 30, "co", {1.2, 3.5, 4}},
    {PARE_CAPACITOR, 50, "cp", {1.2, 3.4, 5}},
    {PARE_STANDOFF, 60, "sd", {0.7, 1.3, 1.6}},
    {PARE_CAMERA, 80, "ca", {4, 9, 11}},
    {PARE_ACTION_CAMERA, 20, "ac", {18, 32, 60}},
    {PARE_HOLDER, 70, "ho", {6, 15, 25}},
    {PARE_VIDEO_TRANSMITTER, 80, "vt", {3, 7, 9}},
    {PARE_ANTENNA, 90, "an", {3, 8, 11}},
    {PARE_ADAPTER, 30, "ad", {1.5, 2.8, 3}},
    {PARE_PIGTAIL, 30, "pg", {2, 2.8, 3.5}},
    {PARE_RECEIVER, 40, "rc", {0.9, 2.4, 3}},
    {PARE_GPS, 30, "gp", {4, 8, 10}},
    {PARE_BUZZER, 25, "bz", {2, 4, 4.5}},
    {PARE_STRAP, 25, "st", {4, 7, 9}},
    {PARE_PAD, 15, "pd", {1.5, 3.5, 5}},
    {PARE_TIE, 10, "ti", {0.2, 0.3, 0.4}},
    {PARE_BUMPER, 30, "bu", {1, 2.2, 2.6}},
    {PARE_PRINTED, 50, "pt", {2, 7, 9}},
    {PARE_OTHER, 25, "ot", {0.5, 2, 3}},
};
enum { KINDS = sizeof kinds / sizeof kinds[0], OF = 2000 };

static const char *const makers[] = {"Fellside",     "Ashlar Yard", "Thistle and Cog",
                                     "Sedge Works",  "Plover",      "Coldwell Carbon",
                                     "Mistral Lane", "Bracken Row"};
static const char *const sellers[] = {"Millbeck", "Corner Ironmonger", "Tollgate"};

static void put_frame(draw *d, int size)
{
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

static void put_motor(draw *d, int size)
{
    const double kv = sizes[size].kv * between(d, 0.8, 1.15);
    pare_text_printf(d->text, ", spec: {stator: %g mm x %g mm, kv: %.0f", sizes[size].stator_mm[0],
                     sizes[size].stator_mm[1], kv);
    if (share(d) < 0.7)
        pare_text_printf(d->text,
                         ", resistance: %.0f mohm, no_load: %.1f A, no_load_at: 10 V, continuous: "
                         "%.0f A, burst: %.0f A, burst_for: 10 s",
                         30 * 2650 / kv * 33 / sizes[size].motor_g, 0.6 + 0.3 * size,
                         14.0 + 12 * size, 24.0 + 14 * size);
    pare_text_printf(d->text,
                     ", volts: 7 V .. %g V}, fits: {bolt_circle: %s, thread: %s, shaft: %s, "
                     "screw_depth: %.1f mm}, body: {shape: cylinder, size: [%g mm, %g mm]}, "
                     "includes: [{run: phase, gauge: %d, length: %.0f mm, count: 3}]",
                     share(d) < 0.3 ? 17.5 : 25.5, sizes[size].circle, sizes[size].thread,
                     sizes[size].shaft, between(d, 3, 6), sizes[size].stator_mm[0] + 6,
                     sizes[size].stator_mm[1] + 12, size == 0 ? 26 : 20, between(d, 90, 150));
}

static void put_pack(draw *d, int size)
{
    static const double mah[3] = {650, 1500, 3000};
    const int cells = share(d) < 0.85 ? sizes[size].cells : 10 - sizes[size].cells;
    pare_text_printf(
        d->text,
        ", spec: {chemistry: lipo, cells: %d, capacity: %.0f mAh}, fits: {connector: %s "
        "A class}, includes: [{run: pack_lead, gauge: %d, length: 80 mm, count: 2}]",
        cells, mah[size] * sizes[size].cells / cells * between(d, 0.8, 1.1),
        size == 0 ? "30" : "60", size == 0 ? 18 : 12);
}

static void put_board(draw *d, pare_kind kind, int size)
{
    const bool esc = kind != PARE_FLIGHT_CONTROLLER;
    const bool brain = kind == PARE_FLIGHT_CONTROLLER || kind == PARE_CONTROLLER_WITH_ESC;
    if (brain)
        pare_text_printf(d->text, ", does: [flight_controller, %sregulator]",
                         esc ? "esc_four, " : "");
    pare_text_add(d->text, ", spec: {volts: 7 V .. 26 V");
    if (esc) {
        const double continuous_a = 20 + 20 * size + between(d, 0, 15);
        pare_text_printf(d->text, ", continuous: %.0f A, burst: %.0f A, burst_for: 10 s",
                         continuous_a, continuous_a * between(d, 1.15, 1.4));
    }
    if (brain)
        pare_text_add(d->text, ", power: 1.2 W, out: 5 V, out_current: 2 A, efficiency: 88 %");
    pare_text_add(d->text, "}");
    if (kind != PARE_ESC_ONE)
        pare_text_printf(d->text, ", fits: {stack: %s, thread: M3}",
                         share(d) < 0.75 ? sizes[size].stack : "20 mm");
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

static void put_rest(draw *d, pare_kind kind, int size)
{
    switch (kind) {
    case PARE_PROPELLER:
        pare_text_printf(
            d->text, ", spec: {diameter: %.1f in, pitch: %.1f in, blades: %d}, fits: {shaft: %s}",
            sizes[size].inches - 0.1 * (double)one_of(d, 3),
            sizes[size].inches * (0.6 + 0.05 * (double)one_of(d, 6)), share(d) < 0.7 ? 3 : 2,
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
        pare_text_printf(d->text, ", fits: {connector: %s A class}", size == 0 ? "30" : "60");
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

static void put_specs(draw *d, pare_kind kind, int size)
{
    switch (kind) {
    case PARE_FRAME:
        put_frame(d, size);
        break;
    case PARE_MOTOR:
        put_motor(d, size);
        break;
    case PARE_PACK:
        put_pack(d, size);
        break;
    case PARE_ESC_ONE:
    case PARE_ESC_FOUR:
    case PARE_FLIGHT_CONTROLLER:
    case PARE_CONTROLLER_WITH_ESC:
        put_board(d, kind, size);
        break;
    case PARE_VIDEO_TRANSMITTER:
    case PARE_ANTENNA:
    case PARE_PIGTAIL:
    case PARE_ADAPTER:
        put_radio(d, kind);
        break;
    default:
        put_rest(d, kind, size);
        break;
    }
}

static void put_part(draw *d, size_t k, int number)
{
    const bool own = number == 0;
    const double size_share = share(d);
    const int size = own || (size_share >= 0.25 && size_share < 0.75) ? 1
                     : size_share < 0.25                              ? 0
                                                                      : 2;
    const double grams = kinds[k].grams[size] * (own ? 1.02 : between(d, 0.75, 1.3));
    const bool by_law =
        !own && (kinds[k].kind == PARE_MOTOR || kinds[k].kind == PARE_PACK) && share(d) < 0.1;
    pare_text_printf(d->text, "- {id: %s-%04d, kind: %s, maker: %s", kinds[k].id, number,
                     pare_kind_name(kinds[k].kind), makers[one_of(d, 8)]);
    if (!by_law)
        pare_text_printf(d->text, ", mass: {value: %.2f g, known: %s}", grams,
                         own || share(d) < 0.1 ? "weighed" : "stated");
    pare_text_printf(d->text,
                     ", price: {each: %.2f, sold_in: %d, shipping: 4.5, seller: %s}, owned: %d",
                     0.5 + 0.6 * grams * between(d, 0.5, 2), grams < 3 ? 4 : 1,
                     sellers[one_of(d, 3)], own || share(d) < 0.03 ? 8 : 0);
    put_specs(d, kinds[k].kind, size);
    pare_text_add(d->text, "}\n");
}

static const char craft[] =
    "craft:\n"
    "- name: fieldfare\n"
    "  brief:\n"
    "    air: {altitude: 120 m, temperature: 18 degC}\n"
    "    flown: [{share: 20 %, as: hover}, {share: 50 %, speed: 16 m/s}, {share: 22 %, thrust: 2}, "
    "{share: 8 %, thrust: 3.5}]\n"
    "    limits: {all_up: \"<= 600 g\", thrust_to_weight_half: \">= 5\", flown: \">= 3.5 min\", "
    "margin: \">= 1.0\"}\n"
    "    keep: [sees, films, finds, holds]\n"
    "  loadouts:\n"
    "    film: {}\n"
    "    race: {without: [action_camera, holder]}\n"
    "  items:\n"
    "    frame: {part: fr-0000}\n"
    "    motor: {part: mo-0000, count: 4, at: arms}\n"
    "    propeller: {part: pr-0000, count: 4, at: arms}\n"
    "    nut: {part: nu-0000, count: 4, at: arms}\n"
    "    esc: {part: es-0000, at: [0 mm, 0 mm, 6 mm]}\n"
    "    brain: {part: fc-0000, at: [0 mm, 0 mm, 14 mm]}\n"
    "    regulator: {part: re-0000, at: [-26 mm, 12 mm, 6 mm]}\n"
    "    capacitor: {part: cp-0000, at: [-48 mm, 12 mm, 8 mm]}\n"
    "    connector: {part: co-0000, at: [-72 mm, 0 mm, 12 mm]}\n"
    "    pack: {part: pa-0000, at: [-16 mm, 0 mm, 57 mm]}\n"
    "    pad: {part: pd-0000, at: [-16 mm, 0 mm, 36 mm]}\n"
    "    strap: {part: st-0000, at: [-16 mm, 0 mm, 52 mm]}\n"
    "    camera: {part: ca-0000, at: [56 mm, 0 mm, 17 mm]}\n"
    "    video: {part: vt-0000, at: [-32 mm, 0 mm, 18 mm]}\n"
    "    pigtail: {part: pg-0000, at: [-52 mm, 0 mm, 22 mm]}\n"
    "    antenna: {part: an-0000, at: [-80 mm, 0 mm, 70 mm], feeds: [video, pigtail]}\n"
    "    tower: {part: pt-0000, at: [-68 mm, 0 mm, 20 mm], job: holds}\n"
    "    receiver: {part: rc-0000, at: [-58 mm, -10 mm, 10 mm]}\n"
    "    finder: {part: gp-0000, at: [-60 mm, 0 mm, 30 mm]}\n"
    "    buzzer: {part: bz-0000, at: [-44 mm, -12 mm, 8 mm]}\n"
    "    action_camera: {part: ac-0000, at: [58 mm, 0 mm, 66 mm]}\n"
    "    holder: {part: ho-0000, at: [40 mm, 0 mm, 35 mm]}\n"
    "    bumper: {part: bu-0000, count: 4, at: {arms: 100 %}}\n"
    "    tie: {part: ti-0000, count: 8, at: {arms: 55 %}}\n"
    "    solder: {part: ot-0000, at: [-15 mm, 0 mm, 8 mm]}\n"
    "  joints:\n"
    "    motor_base: {standard: ISO4762, thread: M3, length: 10 mm, material: steel, class: 12.9, "
    "count: 16, holds: motor, into: 6061}\n"
    "    arm_root: {holds: arm, class: 10.9, included_in: frame}\n"
    "    stack: {standard: ISO4762, thread: M3, length: 25 mm, material: steel, count: 4, holds: "
    "esc, needed: 22 mm, at: [0 mm, 0 mm, 8 mm]}\n"
    "    top_plate: {standard: ISO7380-1, thread: M3, length: 8 mm, material: steel, count: 6, "
    "holds: frame, into: 6061, needed: 6 mm, at: [0 mm, 0 mm, 34 mm]}\n"
    "  runs:\n"
    "    lead: {gauge: 12, ways: [125 mm, 125 mm], carries: pack, at: [-52 mm, 0 mm, 8 mm]}\n"
    "    phase: {included_in: motor, carries: motor}\n"
    "    receiver_wire: {gauge: 28, ways: [110 mm, 110 mm, 110 mm, 110 mm], carries: receiver, at: "
    "[-32 mm, -8 mm, 12 mm]}\n"
    "    camera_wire: {gauge: 28, ways: [120 mm, 120 mm, 120 mm], carries: camera, at: [28 mm, 0 "
    "mm, 14 mm]}\n"
    "    video_wire: {gauge: 26, ways: [90 mm, 90 mm, 90 mm], carries: video, at: [-18 mm, 0 mm, "
    "16 mm]}\n";

void made_bench_text(size_t parts, pare_text *text)
{
    draw d = {.state = 2026, .text = text};
    pare_text_add(text, "pare: 1\nmoney: EUR\nparts:\n");
    size_t before = 0, share_before = 0;
    for (size_t k = 0; k < KINDS; k++) {
        /* Rounded over the whole, so that all kinds together are as many as asked for. */
        share_before += (size_t)kinds[k].of_2000;
        const size_t spare = parts - KINDS, upto = k + 1 + spare * share_before / OF;
        for (int number = 0; before < upto; number++, before++)
            put_part(&d, k, number);
    }
    pare_text_add(text, craft);
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

pare_status made_bench(size_t parts, pare_bench **bench, pare_error *err)
{
    char folder[] = "/tmp/pare-speed-XXXXXX", path[64], file[80];
    if (!mkdtemp(folder))
        return pare_fail(err, PARE_UNAVAILABLE, "no folder can be made in /tmp");
    snprintf(path, sizeof path, "%s/bench.sqlite", folder);
    pare_text text = {0};
    made_bench_text(parts, &text);
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
