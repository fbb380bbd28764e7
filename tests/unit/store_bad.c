/* rooms: store craft physics base */
/* Bad texts, each with its message word for word: where, what, and what would be right. */
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "store_bench.h"

#define MO "spec: {stator: 22 mm x 7 mm, kv: 1800}"

static void refuses(pare_store *store, const char *text, pare_status status, const char *message)
{
    pare_error err = {0};
    assert_int_equal(store_take(store, text, &err), status);
    assert_string_equal(err.text, message);
    assert_int_equal(err.status, status);
}

static void texts_that_are_no_bench_are_refused(void **state)
{
    static const struct {
        const char *text;
        pare_status status;
        const char *message;
    } cases[] = {
        {"part: 1\n", PARE_UNKNOWN, "b.yaml:1:1: a bench has no key 'part'; is it 'pare'?"},
        {"parts: []\n", PARE_BAD_DATA,
         "b.yaml:1:1: not the text of a bench: it begins with pare: 1"},
        {"pare: 2\n", PARE_BAD_DATA, "b.yaml:1:7: a text of version 2; right would be pare: 1"},
        {"[1, 2]\n", PARE_BAD_DATA, "b.yaml:1:1: a bench is a map of keys here: {key: value}"},
        {"pare: 1\nprats: []\n", PARE_UNKNOWN,
         "b.yaml:2:1: a bench has no key 'prats'; is it 'parts'?"},
        {"pare: 1\nmoney: euro\n", PARE_BAD_DATA,
         "b.yaml:2:8: money is 'euro'; right would be the three letters of ISO 4217, like EUR"},
        {"pare: 1\nparts: {id: mo}\n", PARE_BAD_DATA,
         "b.yaml:2:8: parts is a list here: [one, two]"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        refuses(store_of(state), cases[i].text, cases[i].status, cases[i].message);
}

static void chargers_that_cannot_be_are_refused(void **state)
{
#define PA                                                                                         \
    "pare: 1\nparts:\n- {id: pa, kind: pack, spec: {chemistry: lipo, cells: 4, capacity: 1 Ah}, "
    refuses(store_of(state), PA "charger: [{cells: [5 mohm, 5 mohm]}]}\n", PARE_BAD_DATA,
            "b.yaml:3:3: part 'pa': charger, pack 1: the charger read 2 cells of a pack of 4: one "
            "reading a cell, of at most 16 cells, would be right");
    refuses(
        store_of(state), PA "charger: [{date: 2026-04-02, capacity: 9 Ah}]}\n", PARE_BAD_DATA,
        "b.yaml:3:3: part 'pa': charger, pack 1 on 2026-04-02: it gave 9000 mAh of the 1000 mAh "
        "stated: 50 to 1500 mAh would be right");
    char *many = calloc(1, 16 * 1024);
    assert_non_null(many);
    strcat(many, PA "charger: [{which: 1}");
    for (int i = 0; i < 1000; i++)
        strcat(many, ", {which: 1}");
    strcat(many, "]}\n");
    refuses(
        store_of(state), many, PARE_BAD_DATA,
        "b.yaml:3:84: 1001 readings of a charger; right would be 1000 at most: the newest of each "
        "pack count");
    free(many);
#undef PA
}

static void parts_that_cannot_be_are_refused(void **state)
{
    static const struct {
        const char *part;
        pare_status status;
        const char *message;
    } cases[] = {
        {"mo-a", PARE_BAD_DATA, "b.yaml:3:3: a part is a map of keys here: {key: value}"},
        {"{kind: motor}", PARE_BAD_DATA,
         "b.yaml:3:3: a part without id; right would be like {id: mo-a, kind: motor}"},
        {"{id: mo}", PARE_BAD_DATA,
         "b.yaml:3:3: part 'mo' without kind; right would be like kind: motor"},
        {"{id: mo a, kind: motor}", PARE_BAD_DATA,
         "b.yaml:3:8: id 'mo a' is no name; right are letters, digits, '-', '.' and '_', 48 at "
         "most"},
        {"{id: mo, kind: moter}", PARE_BAD_DATA,
         "b.yaml:3:18: kind cannot be 'moter'; is it 'motor'?"},
        {"{id: mo, kind: motor, mas: 3 g}", PARE_UNKNOWN,
         "b.yaml:3:25: a part has no key 'mas'; is it 'mass'?"},
        {"{id: mo, kind: motor, mass: -3 g, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass of -3 g; right would be 0.001 g to 25000 g"},
        {"{id: mo, kind: motor, mass: 3 mm, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass: 3 mm is a length: a mass needs g, kg, oz or lb"},
        {"{id: mo, kind: motor, mass: 30, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass: 30 has no unit: a mass needs g, kg, oz or lb"},
        {"{id: mo, kind: motor, mass: nan g, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass: nan g does not start with one plain number: a mass needs g, kg, oz or "
         "lb"},
        {"{id: mo, kind: motor, mass: 1e999 g, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass: 1e999 is beyond what a number can hold (1e-307 to 1e308)"},
        {"{id: mo, kind: motor, mass: 30 kg, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass of 30 kg; right would be 0.001 g to 25000 g"},
        {"{id: mo, kind: motor, mass: '', " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass is empty; give it a value or leave it out"},
        {"{id: mo, kind: motor, mass: [30 g], " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass is a list; right would be one value, or {value: ..., u: ..., known: "
         "...}"},
        {"{id: mo, kind: motor, mass: {u: 1 g}, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:31: mass has no value; right would be {value: ..., u: ..., known: ...}"},
        {"{id: mo, kind: motor, mass: {value: 30 g, u: -1 g}, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:48: uncertainty (u) of mass of -1 g; right would be 0 g to 25000 g"},
        {"{id: mo, kind: motor, mass: {value: 30 g, known: wieghed}, " MO "}", PARE_BAD_DATA,
         "b.yaml:3:52: how it is known cannot be 'wieghed'; is it 'weighed'?"},
        {"{id: mo, kind: motor, mass: {value: 30 g, sigma: 1 g}, " MO "}", PARE_UNKNOWN,
         "b.yaml:3:45: mass has no key 'sigma'; right would be one of value, u, known"},
        {"{id: mo, kind: motor, spec: {kv: 1800}}", PARE_BAD_DATA,
         "b.yaml:3:3: part 'mo': stator is missing: a part of kind motor needs it (3 .. 150 mm)"},
        {"{id: mo, kind: motor, spec: {stator: 22 mm, kv: 1800}}", PARE_BAD_DATA,
         "b.yaml:3:40: stator of '22 mm'; right would be two sizes, like 22 mm x 7 mm"},
        {"{id: mo, kind: motor, spec: {stator: 22 mm x 700 mm, kv: 1800}}", PARE_BAD_DATA,
         "b.yaml:3:40: stator of 22 mm x 700 mm; right would be 1 mm to 80 mm"},
        {"{id: mo, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800, cells: 4}}", PARE_UNKNOWN,
         "b.yaml:3:64: spec of motor has no key 'cells'; right would be one of stator, kv, "
         "resistance, no_load, no_load_at, volts, continuous, burst, burst_for"},
        {"{id: mo, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800, volts: 25 V .. 11 V}}",
         PARE_BAD_DATA,
         "b.yaml:3:71: volts: 25 V .. 11 V runs downwards: the lower end comes first"},
        {"{id: mo, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800, volts: 1100 V}}",
         PARE_BAD_DATA, "b.yaml:3:71: volts of 1100 V; right would be 1 V to 120 V"},
        {"{id: mo, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800, resistance: 62 ohn}}",
         PARE_BAD_DATA,
         "b.yaml:3:76: resistance: 62 ohn has no unit that is known: a resistance needs mohm, ohm "
         "or kohm"},
        {"{id: pa, kind: pack, spec: {chemistry: lipoly, cells: 4, capacity: 1300 mAh}}",
         PARE_BAD_DATA, "b.yaml:3:42: chemistry cannot be 'lipoly'; is it 'lipo'?"},
        {"{id: pa, kind: pack, spec: {chemistry: lipo, cells: 4.5, capacity: 1300 mAh}}",
         PARE_BAD_DATA, "b.yaml:3:55: cells: 4.5 is no count: a whole number from 0 to 1000000000"},
        {"{id: an, kind: antenna, mass: 3 g, spec: {hand: upper}}", PARE_BAD_DATA,
         "b.yaml:3:51: hand cannot be 'upper'; right would be one of linear, left, right"},
        {"{id: pg, kind: pigtail, mass: 3 g, spec: {ends: [snap]}}", PARE_BAD_DATA,
         "b.yaml:3:51: 1 ends; right would be two, like [snap, screw], towards the transmitter "
         "first"},
        {"{id: ho, kind: tie, mass: 3 g, spec: {power: 3 W}}", PARE_UNKNOWN,
         "b.yaml:3:41: spec of tie has no key 'power'; right would be one of length, material"},
        {"{id: mo, kind: motor, " MO ", price: -4}", PARE_BAD_DATA,
         "b.yaml:3:72: price of -4; right would be 0 to 1000000"},
        {"{id: mo, kind: motor, " MO ", price: {sold_in: 4}}", PARE_BAD_DATA,
         "b.yaml:3:72: price without each; right would be {each: 18.90}"},
        {"{id: mo, kind: motor, " MO ", price: {each: 4, date: 2026-13-01}}", PARE_BAD_DATA,
         "b.yaml:3:88: date '2026-13-01' is no day; right would be like 2026-03-01"},
        {"{id: mo, kind: motor, " MO ", owned: -1}", PARE_BAD_DATA,
         "b.yaml:3:72: owned: -1 is no count: a whole number from 0 to 1000000000"},
        {"{id: mo, kind: motor, " MO ", sought: perhaps}", PARE_BAD_DATA,
         "b.yaml:3:73: sought is 'perhaps'; right would be true or false"},
        {"{id: mo, kind: motor, " MO ", does: [flies]}", PARE_BAD_DATA,
         "b.yaml:3:72: kind cannot be 'flies'; right would be one of frame, motor, propeller, "
         "propeller_nut, esc_one, esc_four, flight_controller, controller_with_esc, regulator, "
         "pack, connector, capacitor, standoff, camera, action_camera, holder, video_transmitter, "
         "antenna, adapter, pigtail, receiver, gps, buzzer, strap ..."},
        {"{id: mo, kind: motor, " MO ", fits: {bolts: 16 mm}}", PARE_UNKNOWN,
         "b.yaml:3:72: fits has no key 'bolts'; right would be one of bolt_circle, thread, shaft, "
         "stack, propeller, cells, connector, camera, antenna, screw_depth"},
        {"{id: mo, kind: motor, " MO ", fits: {bolt_circle: 16 g}}", PARE_BAD_DATA,
         "b.yaml:3:85: bolt_circle: 16 g is a mass: a length needs mm, cm, m, in or ft"},
        {"{id: mo, kind: motor, " MO ", fits: {bolt_circle: 16 mm .. 19 mm}}", PARE_BAD_DATA,
         "b.yaml:3:85: bolt_circle is no range; right would be one size, or a list of sizes"},
        {"{id: mo, kind: motor, " MO ", fits: {thread: 30 mm}}", PARE_BAD_DATA,
         "b.yaml:3:80: thread of 30 mm; right would be 1 mm to 8 mm"},
        {"{id: vt, kind: video_transmitter, fits: {antenna: snip}}", PARE_BAD_DATA,
         "b.yaml:3:53: antenna cannot be 'snip'; is it 'snap'?"},
        {"{id: mo, kind: motor, " MO ", body: {shape: ball, size: 3 mm}}", PARE_BAD_DATA,
         "b.yaml:3:79: shape cannot be 'ball'; right would be one of point, box, cylinder, tube, "
         "cone, capsule, ring, sphere, rod, plate"},
        {"{id: mo, kind: motor, " MO ", body: {shape: cylinder, size: [28 mm]}}", PARE_BAD_DATA,
         "b.yaml:3:95: 1 given for the size of a cylinder; right would be size: [d, h]"},
        {"{id: mo, kind: motor, " MO ", body: {shape: cylinder}}", PARE_BAD_DATA,
         "b.yaml:3:71: a cylinder without size; right would be size: [d, h]"},
        {"{id: mo, kind: motor, " MO ", body: {size: 3 mm}}", PARE_BAD_DATA,
         "b.yaml:3:71: a piece of a body has none of shape, arms, plate, mesh; right would be like "
         "{shape: box, size: [75 mm, 36 mm, 31 mm]}"},
        {"{id: mo, kind: motor, " MO ", body: {shape: box, mesh: a.stl}}", PARE_BAD_DATA,
         "b.yaml:3:71: shape and mesh in one piece; right would be two pieces, as a list"},
        {"{id: mo, kind: motor, " MO ", body: {shape: tube, size: [2 mm, 3 mm, 4 mm]}}",
         PARE_BAD_DATA,
         "b.yaml:3:91: tube: od 0.002 m must be greater than id 0.003 m; sizes are od, id, h"},
        {"{id: mo, kind: motor, " MO ", body: {mesh: ../a.stl}}", PARE_BAD_DATA,
         "b.yaml:3:78: file '../a.stl'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"{id: mo, kind: motor, " MO ", body: {mesh: /etc/passwd}}", PARE_BAD_DATA,
         "b.yaml:3:78: file '/etc/passwd'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"{id: mo, kind: motor, " MO ", body: {mesh: a/}}", PARE_BAD_DATA,
         "b.yaml:3:78: file 'a/'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"{id: mo, kind: motor, " MO ", body: {mesh: a//b.stl}}", PARE_BAD_DATA,
         "b.yaml:3:78: file 'a//b.stl'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"{id: mo, kind: motor, " MO ", body: {mesh: a/..}}", PARE_BAD_DATA,
         "b.yaml:3:78: file 'a/..'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"{id: mo, kind: motor, " MO ", body: {mesh: 'a\\b.stl'}}", PARE_BAD_DATA,
         "b.yaml:3:78: file 'a\\b.stl'; right would be a name below the folder of this text, "
         "without '..', 200 bytes at most"},
        {"{id: fr, kind: frame, body: {arms: [[80 mm, 80 mm]], section: [9 mm, 4 mm]}}",
         PARE_BAD_DATA,
         "b.yaml:3:38: arms are 4 to 8 places of motor axes, from front left, clockwise: [[80 mm, "
         "80 mm], [80 mm, -80 mm], ...]"},
        {"{id: fr, kind: frame, body: {arms: [[80 mm, 80 mm], [80 mm, -80 mm], [-80 mm, 0 mm], "
         "[-80 mm, 80 mm]], section: [9 mm, 4 mm], root: 90 mm}}",
         PARE_BAD_DATA,
         "b.yaml:3:31: arm 3 reaches 80 mm and leaves the body at 90 mm; right would be a root "
         "within its reach"},
#define ARMS "body: {arms: [[80 mm, 80 mm], [80 mm, -80 mm], [-80 mm, -80 mm], [-80 mm, 80 mm]]"
        {"{id: fr, kind: frame, " ARMS "}}", PARE_BAD_DATA,
         "b.yaml:3:31: arms without section; right would be section: [width, thickness], or tube: "
         "[outside, inside]"},
        {"{id: fr, kind: frame, " ARMS ", section: [9 mm, 4 mm], tube: [9 mm, 8 mm]}}",
         PARE_BAD_DATA,
         "b.yaml:3:137: arms with both section and tube; right would be section: [width, "
         "thickness], or tube: [outside, inside]"},
        {"{id: fr, kind: frame, " ARMS ", tube: [9 mm, 10 mm]}}", PARE_BAD_DATA,
         "b.yaml:3:114: a tube of 9 mm outside and 10 mm inside; right would be [outside, inside] "
         "with a wall of 0.2 mm or more"},
        {"{id: fr, kind: frame, " ARMS ", section: [9 mm, 4 mm], off_axis: 80 deg}}", PARE_BAD_DATA,
         "b.yaml:3:141: off_axis of 80 deg; right would be 0 deg to 45 deg"},
#undef ARMS
        {"{id: fr, kind: frame, body: {plate: base}}", PARE_BAD_DATA,
         "b.yaml:3:31: plate 'base' has no size; right would be size: [x, y, thickness], or "
         "outline: FILE with thick: 2 mm"},
        {"{id: mo, kind: motor, " MO ", includes: [{wire: phase}]}", PARE_BAD_DATA,
         "b.yaml:3:76: includes neither run, joint nor kind; right would be like {run: phase, "
         "gauge: 20, length: 120 mm, count: 3}"},
        {"{id: mo, kind: motor, " MO ", includes: [{run: phase}]}", PARE_BAD_DATA,
         "b.yaml:3:76: included run 'phase' needs gauge and length, like {run: phase, gauge: 20, "
         "length: 120 mm, count: 3}"},
        {"{id: mo, kind: motor, " MO ", includes: [{joint: j, thread: M9, length: 8 mm}]}",
         PARE_BAD_DATA,
         "b.yaml:3:95: thread 'M9': known are M1.6, M2, M2.5, M3, M4 and M5; did you mean M2?"},
        {"{id: st, kind: strap}\n- {id: st, kind: strap, mass: 3 g}", PARE_BAD_DATA,
         "b.yaml:4:3: part 'st' a second time; it is already in line 3"},
        {"{id: st, kind: strap, mass: 3 g}\n- {id: st, kind: strap, mass: 3 g}", PARE_BAD_DATA,
         "b.yaml:4:3: part 'st' a second time; it is already in line 3"},
        {"{id: ot, kind: other}", PARE_BAD_DATA,
         "b.yaml:3:3: part 'ot': mass is missing, and no law knows it for a part of kind other: "
         "say mass: 12 g, or give a body with its density"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pare_text text = {0};
        pare_text_printf(&text, "pare: 1\nparts:\n- %s\n", cases[i].part);
        refuses(store_of(state), text.bytes, cases[i].status, cases[i].message);
        pare_text_free(&text);
    }
}

/* A bench that is right; each case below spoils one place of it. */
static const char PARTS[] =
    "pare: 1\n"
    "parts:\n"
    "- {id: fr, kind: frame, mass: 90 g, fits: {propeller: 5.2 in}, spec: {wheelbase: 225 mm}}\n"
    "- {id: mo, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1800}}\n"
    "- {id: pr, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"
    "- {id: es, kind: esc_four, spec: {continuous: 45 A}}\n"
    "- {id: fc, kind: flight_controller, mass: 6 g}\n"
    "- {id: pa, kind: pack, spec: {chemistry: lipo, cells: 4, capacity: 1300 mAh}}\n"
    "craft:\n"
    "- name: weir\n";
#define ITEMS                                                                                      \
    "  items:\n"                                                                                   \
    "    frame: {part: fr}\n"                                                                      \
    "    motor: {part: mo, count: 4, at: arms}\n"                                                  \
    "    propeller: {part: pr, count: 4, at: arms}\n"                                              \
    "    esc: {part: es}\n"                                                                        \
    "    brain: {part: fc}\n"                                                                      \
    "    pack: {part: pa}\n"

/* PARTS and ITEMS with the first `find` replaced, and something put after. */
static void spoil(const char *find, const char *replace, const char *after, pare_text *text)
{
    pare_text whole = {0};
    pare_text_printf(&whole, "%s%s", PARTS, ITEMS);
    const char *at = find ? strstr(whole.bytes, find) : whole.bytes + whole.length;
    assert_non_null(at);
    pare_text_put(text, whole.bytes, (size_t)(at - whole.bytes));
    if (find)
        pare_text_printf(text, "%s%s", replace, at + strlen(find));
    if (after)
        pare_text_add(text, after);
    pare_text_free(&whole);
}

static void the_bench_that_is_spoilt_below_is_right_before(void **state)
{
    pare_text text = {0};
    pare_error err = {0};
    spoil(NULL, NULL, NULL, &text);
    if (store_take(store_of(state), text.bytes, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_text_free(&text);
}

static void craft_and_records_that_cannot_be_are_refused(void **state)
{
    static const struct {
        const char *find, *replace, *after;
        pare_status status;
        const char *message;
    } cases[] = {
        {ITEMS, "", NULL, PARE_BAD_DATA,
         "b.yaml:10:3: craft 'weir' without items; right would be like items: {frame: {part: "
         "fr-5a}}"},
        {"name: weir", "nam: weir", NULL, PARE_UNKNOWN,
         "b.yaml:10:3: a craft has no key 'nam'; is it 'name'?"},
        {ITEMS, "  items: []\n", NULL, PARE_BAD_DATA,
         "b.yaml:11:10: items is a map of keys here: {key: value}"},
        {"part: mo", "part: mi", NULL, PARE_UNKNOWN,
         "b.yaml:13:19: no part 'mi' on the bench; is it 'mo'?"},
        {"{part: fr}", "{count: 1}", NULL, PARE_BAD_DATA,
         "b.yaml:12:12: item 'frame' without part; right would be like {part: mo-a, count: 4}"},
        {"{part: mo, count: 4", "{part: mo, count: 0", NULL, PARE_BAD_DATA,
         "b.yaml:13:30: count of 0; right would be 1 to 1000"},
        {"    propeller: {part: pr, count: 4, at: arms}\n", "", NULL, PARE_BAD_DATA,
         "b.yaml:10:3: craft 'weir' has no propellers: it needs some to fly"},
        {"    frame: {part: fr}\n", "", NULL, PARE_BAD_DATA,
         "b.yaml:10:3: craft 'weir' has no frame: it needs one to fly"},
        {"    pack: {part: pa}\n", "", NULL, PARE_BAD_DATA,
         "b.yaml:10:3: craft 'weir' has no pack: it needs one to fly"},
        {"{part: pr, count: 4", "{part: pr, count: 3", NULL, PARE_BAD_DATA,
         "b.yaml:10:3: 3 propellers in 'propeller' on 4 motors in 'motor': the counts must agree"},
        {"{part: es}", "{part: es, at: nose}", NULL, PARE_BAD_DATA,
         "b.yaml:15:25: at cannot be 'nose'; right would be arms, {arms: 60 %} or a place like [10 "
         "mm, 0 mm, 5 mm]"},
        {"{part: es}", "{part: es, at: [1 mm, 2 mm]}", NULL, PARE_BAD_DATA,
         "b.yaml:15:25: at has 2 values; right would be 3"},
        {"{part: es}", "{part: es, at: [[1 mm, 2 mm, 3 mm], [1 mm, 2 mm, 3 mm]]}", NULL,
         PARE_BAD_DATA,
         "b.yaml:15:25: 2 stations for a count of 1; right would be one, or one each (16 at most)"},
        {"{part: es}", "{part: es, turn: [1 mm, 0 deg, 0 deg]}", NULL, PARE_BAD_DATA,
         "b.yaml:15:28: turn: 1 mm is a length: an angle needs deg or rad"},
        {"{part: es}", "{part: es, job: films2}", NULL, PARE_BAD_DATA,
         "b.yaml:15:26: job cannot be 'films2'; is it 'films'?"},
        {"{part: es}", "{part: es, feeds: [brian]}", NULL, PARE_UNKNOWN,
         "b.yaml:15:29: feeds: no item 'brian' on this craft; is it 'brain'?"},
        {"{part: es}", "{part: es, included_in: esc}", NULL, PARE_BAD_DATA,
         "b.yaml:15:34: item 'esc' is included in itself; right would be another item"},
        {"    esc:", "    e.sc:", NULL, PARE_BAD_DATA,
         "b.yaml:15:5: item 'e.sc' is no name; right are letters, digits, '-' and '_', 48 at most"},
        {NULL, NULL, "  brief: {flown: [{share: 60 %, as: hover}, {share: 30 %, as: full}]}\n",
         PARE_BAD_DATA, "b.yaml:18:18: the shares of flown make 90 %; right would be 100 %"},
        {NULL, NULL, "  brief: {flown: [{share: 100 %}]}\n", PARE_BAD_DATA,
         "b.yaml:18:19: an entry of flown has a share and one of as, speed, thrust; right would be "
         "like {share: 20 %, as: hover} or {share: 50 %, speed: 16 m/s}"},
        {NULL, NULL, "  brief: {flown: [{share: 100 %, as: hovering}]}\n", PARE_BAD_DATA,
         "b.yaml:18:38: as cannot be 'hovering'; right would be one of hover, full"},
        {NULL, NULL, "  brief: {limits: {all_up: 620 g}}\n", PARE_BAD_DATA,
         "b.yaml:18:28: all_up is '620 g'; right would start with <= or >=, like \"<= 620 g\""},
        {NULL, NULL, "  brief: {limits: {all_up: <= 620 mm}}\n", PARE_BAD_DATA,
         "b.yaml:18:28: all_up: 620 mm is a length: a mass needs g, kg, oz or lb"},
        {NULL, NULL, "  brief: {limits: {allup: <= 620 g}}\n", PARE_UNKNOWN,
         "b.yaml:18:20: no limit is called 'allup'; is it 'all_up'?"},
        {NULL, NULL, "  brief: {limits: {all_up_g: <= 620 g}}\n", PARE_UNKNOWN,
         "b.yaml:18:20: no limit is called 'all_up_g'; is it 'all_up'?"},
        {NULL, NULL, "  brief: {limits: {beauty: \">= 3\"}}\n", PARE_UNKNOWN,
         "b.yaml:18:20: no limit is called 'beauty'; right would be a figure of the sheet less its "
         "unit, like all_up, flown, money or margin"},
        {NULL, NULL, "  brief: {keep: [sea]}\n", PARE_BAD_DATA,
         "b.yaml:18:18: job cannot be 'sea'; right would be one of flies, sees, films, finds, "
         "protects, holds"},
        {NULL, NULL, "  brief: {air: {altitude: 12 degC}}\n", PARE_BAD_DATA,
         "b.yaml:18:27: altitude: 12 degC is a temperature: a length needs mm, cm, m, in or ft"},
        {NULL, NULL, "  brief: {air: {humidty: 50 %}}\n", PARE_UNKNOWN,
         "b.yaml:18:17: air has no key 'humidty'; is it 'humidity'?"},
        {NULL, NULL, "  brief: {air: {humidity: 120 %}}\n", PARE_BAD_DATA,
         "b.yaml:18:27: humidity of 120 %; right would be 0 % to 100 %"},
        {NULL, NULL, "  brief: {air: {pressure: 1013 Pa}}\n", PARE_BAD_DATA,
         "b.yaml:18:27: pressure of 1013 Pa; right would be 150 hPa to 1100 hPa"},
        {NULL, NULL, "  brief: {air: {pressure: 950 hPa, sea_level_pressure: 1013 hPa}}\n",
         PARE_BAD_DATA,
         "b.yaml:18:56: air has a pressure at the place or a sea_level_pressure, as a weather "
         "report says it; right would be one of them"},
        {NULL, NULL, "  brief: {land: {left: 120 %}}\n", PARE_BAD_DATA,
         "b.yaml:18:24: left of 120 %; right would be 0 % to 95 %"},
        {NULL, NULL, "  brief: {weather: fine}\n", PARE_UNKNOWN,
         "b.yaml:18:11: brief has no key 'weather'; right would be one of air, flown, land, "
         "crash_speed, limits, keep"},
        {NULL, NULL, "  loadouts: {race: {without: [camera]}}\n", PARE_UNKNOWN,
         "b.yaml:18:31: without: no item 'camera' on this craft; right would be the name of one"},
        {NULL, NULL, "  loadouts: {race: {use: {pack: pb-9}}}\n", PARE_UNKNOWN,
         "b.yaml:18:33: no part 'pb-9' on the bench; right would be the id of a part"},
        {NULL, NULL, "  joints: {base: {thread: M3, count: 16}}\n", PARE_BAD_DATA,
         "b.yaml:18:18: joint 'base' needs thread, length and count, like {standard: ISO4762, "
         "thread: M3, length: 8 mm, material: steel, count: 16}"},
        {NULL, NULL, "  joints: {base: {standard: ISO9999, thread: M3, length: 8 mm, count: 16}}\n",
         PARE_BAD_DATA,
         "b.yaml:18:29: standard cannot be 'ISO9999'; right would be one of ISO4762, ISO7380-1, "
         "ISO10642, ISO1207, ISO4032, ISO7040, ISO7089, standoff_hex, standoff_round, ISO7380"},
        {NULL, NULL, "  joints: {nuts: {standard: ISO4032, thread: M3, length: 8 mm, count: 4}}\n",
         PARE_BAD_DATA, "b.yaml:18:58: ISO4032 has no length: its thread gives its size"},
        {NULL, NULL, "  joints: {base: {thread: M3, length: 8 mm, across: 5 mm, count: 4}}\n",
         PARE_BAD_DATA,
         "b.yaml:18:53: across is said of a standoff: standard standoff_hex or standoff_round"},
        {NULL, NULL,
         "  joints: {post: {standard: standoff_hex, thread: M3, length: 8 mm, count: 4}}\n",
         PARE_BAD_DATA,
         "b.yaml:18:18: a standoff needs across, like {standard: standoff_round, thread: M3, "
         "length: 30 mm, across: 5 mm, material: aluminium, count: 6}"},
        {NULL, NULL,
         "  joints: {post: {standard: standoff_hex, thread: M3, length: 8 mm, across: 3 mm, count: "
         "4}}\n",
         PARE_BAD_DATA,
         "b.yaml:10:3: joint 'post': a standoff M3 3 mm across: 3.3 to 20 mm would be "
         "right"},
        {NULL, NULL, "  joints: {nuts: {standard: ISO7040, thread: M2, count: 4}}\n", PARE_BAD_DATA,
         "b.yaml:10:3: joint 'nuts': no ISO7040 nut for M2 here; there are M3, M4 and "
         "M5"},
        {NULL, NULL, "  joints: {base: {thread: M3, length: 8 mm, material: wood, count: 16}}\n",
         PARE_BAD_DATA,
         "b.yaml:18:55: material cannot be 'wood'; right would be one of steel, stainless, "
         "titanium, aluminium_7075, aluminium, brass, nylon"},
        {NULL, NULL, "  joints: {base: {thread: M3, length: 80 mm, count: 16}}\n", PARE_BAD_DATA,
         "b.yaml:18:39: length of 80 mm; right would be 2 mm to 60 mm"},
        {NULL, NULL, "  joints: {base: {thread: M3, length: 8 mm, count: 16, holds: moter}}\n",
         PARE_UNKNOWN, "b.yaml:18:63: holds: no item 'moter' on this craft; is it 'motor'?"},
        {NULL, NULL, "  runs: {lead: {gauge: 12}}\n", PARE_BAD_DATA,
         "b.yaml:18:16: run 'lead' needs gauge and ways, like {gauge: 14, ways: [110 mm, 110 mm], "
         "carries: pack}"},
        {NULL, NULL, "  runs: {lead: {gauge: 12 mm, ways: [10 mm]}}\n", PARE_BAD_DATA,
         "b.yaml:18:24: gauge: 12 mm is a length: a wire gauge needs AWG or a bare number"},
        {NULL, NULL, "  runs: {phase: {included_in: motor}}\n", PARE_BAD_DATA,
         "b.yaml:10:3: craft 'weir': part 'mo' does not say what run 'phase' it includes; give the "
         "run a gauge and its ways"},
        {NULL, NULL, "  runs: {lead: {gauge: 12, ways: [1 m, 1 m, 1 m, 1 m, 1 m]}}\n",
         PARE_BAD_DATA, "b.yaml:18:34: ways has 5 values; right would be 1 to 4"},
        {NULL, NULL, "  taken: [{swap: bumper}]\n", PARE_BAD_DATA,
         "b.yaml:18:18: swap 'bumper'; right would be WHAT=VALUE in one word, like bumper=off"},
        {NULL, NULL, "  taken: [{swap: bumper = off}]\n", PARE_BAD_DATA,
         "b.yaml:18:18: swap 'bumper = off'; right would be WHAT=VALUE in one word, like "
         "bumper=off"},
        {NULL, NULL, "  taken: [{chosen: 2026-04-01}]\n", PARE_BAD_DATA,
         "b.yaml:18:11: taken without swap; right would be like {swap: bumper=off, chosen: "
         "2026-04-01}"},
        {NULL, NULL, "  taken: [{swap: motor=mp}]\n", PARE_UNKNOWN,
         "b.yaml:18:18: no part 'mp' on the bench; is it 'mo'?"},
        {NULL, NULL, "  taken: [{swap: motor=mo, brings: [nothing-such]}]\n", PARE_UNKNOWN,
         "b.yaml:18:37: no part 'nothing-such' on the bench; right would be the id of a part"},
        {NULL, NULL, "  taken: [{swap: motor=mo, chosen: 2026-02-30}]\n", PARE_BAD_DATA,
         "b.yaml:18:36: chosen '2026-02-30' is no day; right would be like 2026-03-01"},
        {NULL, NULL, "  taken: [{swap: motor=mo, chosen: 2026-04-02, fitted: 2026-04-01}]\n",
         PARE_BAD_DATA,
         "b.yaml:18:11: motor=mo: fitted on 2026-04-01, but chosen on 2026-04-02; right would be "
         "that day or a later one"},
        {NULL, NULL, "  taken: [{swap: motor=mo, promise: {all_up: -1}}]\n", PARE_UNKNOWN,
         "b.yaml:18:38: a promise knows no 'all_up'; is it 'all_up_g'?"},
        {NULL, NULL, "  taken: [{swap: motor=mo, promise: {all_up_g: light}}]\n", PARE_BAD_DATA,
         "b.yaml:18:48: all_up_g: light does not start with one plain number: a number needs no "
         "unit"},
        {NULL, NULL, "  taken: [{swap: motor=mo, promise: {cg_mm: [1, 2]}}]\n", PARE_BAD_DATA,
         "b.yaml:18:45: cg_mm has 2 values; right would be 3"},
        {NULL, NULL, "  taken: {swap: motor=mo}\n", PARE_BAD_DATA,
         "b.yaml:18:10: taken is a list here: [one, two]"},
        {NULL, NULL,
         "- name: weir\n  items:\n    frame: {part: fr}\n    motor: {part: mo, count: 4, at: "
         "arms}\n    propeller: {part: pr, count: 4, at: arms}\n    esc: {part: es}\n    brain: "
         "{part: fc}\n    pack: {part: pa}\n",
         PARE_BAD_DATA, "b.yaml:18:3: craft 'weir' a second time; it is already in line 10"},
        {NULL, NULL, "scales: [{id: small}]\n", PARE_BAD_DATA,
         "b.yaml:18:10: a scale without resolution"},
        {NULL, NULL, "weigh_ins: [{craft: wier, date: 2026-04-12, of: all, reads: 3 g}]\n",
         PARE_UNKNOWN, "b.yaml:18:21: no craft 'wier' on the bench; is it 'weir'?"},
        {NULL, NULL, "weigh_ins: [{craft: weir, date: soon, of: all, reads: 3 g}]\n", PARE_BAD_DATA,
         "b.yaml:18:33: date 'soon' is no day; right would be like 2026-03-01"},
        {NULL, NULL, "weigh_ins: [{craft: weir, date: 2026-04-12, of: most, reads: 3 g}]\n",
         PARE_BAD_DATA,
         "b.yaml:18:49: of is what lay on the scale: all, or like {motor: 4, joint.motor_base: "
         "16}"},
        {NULL, NULL, "weigh_ins: [{craft: weir, date: 2026-04-12, of: {moter: 4}, reads: 3 g}]\n",
         PARE_UNKNOWN, "b.yaml:18:50: nothing 'moter' on weir; is it 'motor'?"},
        {NULL, NULL,
         "weigh_ins: [{craft: weir, date: 2026-04-12, of: {motor: 4, joint.none: 1}, reads: 3 "
         "g}]\n",
         PARE_UNKNOWN,
         "b.yaml:18:60: nothing 'joint.none' on weir; right would be what it has, or "
         "gone.joint.none where it had that then"},
        {NULL, NULL,
         "weigh_ins: [{craft: weir, date: 2026-04-12, of: {tub: 1, gone.tub: 1}, reads: 3 g}]\n",
         PARE_BAD_DATA, "b.yaml:18:58: gone.tub and tub; right would be one of them"},
        {NULL, NULL, "flights: [{craft: weir, date: 2026-04-12, lasted: 4 g}]\n", PARE_BAD_DATA,
         "b.yaml:18:51: lasted: 4 g is a mass: a time needs s, min, h or ms"},
        {NULL, NULL, "stand_tables: [{motor: mo, propeller: pr, columns: {volts: A}, rows: []}]\n",
         PARE_BAD_DATA, "b.yaml:18:60: column volts in 'A'; right would be V, mV"},
        {NULL, NULL,
         "stand_tables: [{motor: mo, propeller: pr, columns: {volts: V}, rows: [[1, 2]]}]\n",
         PARE_BAD_DATA, "b.yaml:18:71: a row of 2 numbers; right would be 1, as many as columns"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        pare_text text = {0};
        spoil(cases[i].find, cases[i].replace, cases[i].after, &text);
        refuses(store_of(state), text.bytes, cases[i].status, cases[i].message);
        pare_text_free(&text);
    }
}

static void a_refused_text_leaves_the_bench_as_it_was(void **state)
{
    pare_text good = {0}, bad = {0}, before = {0}, after = {0};
    pare_error err = {0};
    spoil(NULL, NULL, NULL, &good);
    assert_int_equal(store_take(store_of(state), good.bytes, &err), PARE_OK);
    assert_int_equal(pare_store_export_yaml(store_of(state), &before, &err), PARE_OK);
    /* New parts and a new mass come first, the mistake last. */
    spoil("parts:\n", "parts:\n- {id: new, kind: strap, mass: 4 g}\n",
          "stand_tables: [{motor: none, propeller: pr, columns: {volts: V}, rows: []}]\n", &bad);
    assert_int_equal(store_take(store_of(state), bad.bytes, &err), PARE_UNKNOWN);
    assert_string_equal(err.text, "b.yaml:19:24: no part 'none' on the bench; right would be one "
                                  "that is there");
    assert_int_equal(pare_store_export_yaml(store_of(state), &after, &err), PARE_OK);
    assert_string_equal(before.bytes, after.bytes);
    pare_text_free(&good);
    pare_text_free(&bad);
    pare_text_free(&before);
    pare_text_free(&after);
}

static void a_part_may_not_change_under_a_craft_so_that_it_flies_no_more(void **state)
{
    pare_text good = {0};
    pare_error err = {0};
    spoil(NULL, NULL, NULL, &good);
    assert_int_equal(store_take(store_of(state), good.bytes, &err), PARE_OK);
    assert_int_equal(
        store_take(store_of(state), "pare: 1\nparts: [{id: pa, kind: strap, mass: 4 g}]", &err),
        PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "craft 'weir':1:1: craft 'weir' has no pack"));
    pare_text_free(&good);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(texts_that_are_no_bench_are_refused, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(chargers_that_cannot_be_are_refused, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(parts_that_cannot_be_are_refused, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(the_bench_that_is_spoilt_below_is_right_before, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(craft_and_records_that_cannot_be_are_refused, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_refused_text_leaves_the_bench_as_it_was, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(
            a_part_may_not_change_under_a_craft_so_that_it_flies_no_more, store_setup,
            store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
