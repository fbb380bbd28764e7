/* stand.c: a thrust stand's table from its file to the bench, and what is refused of one.
 *
 * The pair is the demo's and the readings are made up. What cannot be follows from physics: the power
 * of the ideal rotor, an efficiency of 1, kV times the volts. */
#include "run.h"

#include <string.h>

#include "dice.h"

#define PAIR " --set motor=mo-2207-2750 --set propeller=pr-51-43"
#define AIR  " --set altitude=120m --set air_temperature=20C"

static const char GOOD[] = "Throttle (%),Voltage (V),Current (A),Thrust (gf),RPM\n"
                           "25,16.0,1.9,132,9500\n"
                           "50,15.8,8.6,428,17000\n"
                           "75,15.4,22.4,828,23600\n";

static int fresh(void **state)
{
    ran r = run("demo");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    return *state ? -1 : 0;
}

/* The stand tables at the end of the bench's text. */
static void ends_with(const char *wanted)
{
    char *text = demo_text();
    const size_t length = strlen(text), tail = strlen(wanted);
    assert_true(length > tail);
    assert_string_equal(text + length - tail, wanted);
    free(text);
}

static void a_table_goes_in_once_and_comes_back_by_undo(void **state)
{
    (void)state;
    write_text("good.csv", GOOD);
    char *before = demo_text();
    run_prints_golden("stand-dry-run", "import good.csv" PAIR AIR " --dry-run" DEMO);
    char *dry = demo_text();
    assert_string_equal(dry, before);
    run_prints_golden("stand", "import good.csv" PAIR AIR DEMO);
    ends_with("- motor: mo-2207-2750\n"
              "  propeller: pr-51-43\n"
              "  air: {altitude: 120 m, temperature: 20 C}\n"
              "  columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}\n"
              "  rows: [[25, 16.0, 1.9, 132, 9500], [50, 15.8, 8.6, 428, 17000], [75, 15.4, 22.4, "
              "828, 23600]]\n");
    char *once = demo_text();
    json_t *again = run_json("import good.csv" PAIR AIR " --json" DEMO);
    assert_string_equal(json_string_value(json_object_get(again, "taken_as")), "stand");
    assert_int_equal((int)number(again, "records_added"), 0);
    assert_int_equal((int)number(again, "records_same"), 1);
    json_decref(again);
    char *twice = demo_text();
    assert_string_equal(twice, once);
    run_quietly("undo" DEMO); /* the second time changed nothing */
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(twice);
    free(once);
    free(dry);
    free(before);
}

static void a_table_is_read_in_the_words_of_many_stands(void **state)
{
    (void)state;
    static const struct {
        const char *list, *more;
    } lists[] = {
        {"thrust_g;voltage_v;current_a;throttle_%;rpm\n132;16,0;1,9;25;9500\n"
         "428;15,8;8,6;50;17000\n828;15,4;22,4;75;23600\n",
         ""},
        {"\xEF\xBB\xBFThr\tVolts (V)\tAmps\tPull (g)\tRPM\n25\t16.0\t1.9\t132\t9500\n"
         "50\t15.8\t8.6\t428\t17000\n75\t15.4\t22.4\t828\t23600\n",
         ""},
        {"Time (s),ESC signal (\xC2\xB5s),Thrust [gf],Voltage/V,Current/A,Motor Electrical Speed "
         "(RPM),Motor Optical Speed (RPM),Vibration (g)\n"
         "1,1250,132,16.0,1.9,9500,,0.1\n2,1500,428,15.8,8.6,17000,,0.2\n"
         "3,1750,828,15.4,22.4,23600,,0.2\n",
         ""},
        {"pulse (us),thrust (gf),volts (V),current (A),eRPM\n"
         "1225,132,16.0,1.9,66500\n1400,428,15.8,8.6,119000\n1575,828,15.4,22.4,165200\n",
         " --set poles=14 --set pulse_low=1050us --set pulse_high=1750us"},
        {"a stand\nthrottle,volts,current,thrust,speed\n25%,16.0 V,1.9 A,132 gf,9500 rpm\n"
         "50%,15.8 V,8.6 A,428 gf,17000 rpm\n# late\n75%,15.4 V,22.4 A,828 gf,23600 rpm\n",
         ""},
    };
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        char line[400];
        write_text("words.csv", lists[i].list);
        snprintf(line, sizeof line, "import words.csv" PAIR AIR "%s" DEMO, lists[i].more);
        run_quietly(line);
        ends_with("  columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}\n"
                  "  rows: [[25, 16.0, 1.9, 132, 9500], [50, 15.8, 8.6, 428, 17000], [75, 15.4, "
                  "22.4, 828, 23600]]\n");
        run_quietly("undo" DEMO);
    }
}

static void the_air_of_a_stand_may_be_told_in_full(void **state)
{
    (void)state;
    write_text("good.csv", GOOD);
    run_quietly("import good.csv" PAIR " --set pressure=985hPa --set air_temperature=31C --set "
                "humidity=60%" DEMO);
    ends_with("- motor: mo-2207-2750\n"
              "  propeller: pr-51-43\n"
              "  air: {temperature: 31 C, pressure: 985 hPa, humidity: 60 %}\n"
              "  columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}\n"
              "  rows: [[25, 16.0, 1.9, 132, 9500], [50, 15.8, 8.6, 428, 17000], [75, 15.4, 22.4, "
              "828, 23600]]\n");
    run_quietly("export --as stand -o air.csv" DEMO);
    json_t *again = run_json("import air.csv --json" DEMO);
    assert_int_equal((int)number(again, "records_same"), 2); /* it, and the demo's own */
    json_decref(again);
    run_refuses(
        "import good.csv" PAIR " --set pressure=985hPa --set sea_level_pressure=1013hPa" DEMO, 3,
        "pare: good.csv:2: --set sea_level_pressure: air has a pressure at the place or a "
        "sea_level_pressure, as a weather report says it; right would be one of them\n");
}

static void what_was_supposed_is_said(void **state)
{
    (void)state;
    write_text("pulse.csv", "ESC signal (us),Voltage (V),Current (A),Thrust (gf),Motor Electrical "
                            "Speed (RPM),Hum (dB)\n1250,16.0,1.9,132,9500,60\n"
                            "1500,15.8,8.6,428,17000,70\n");
    run_prints_golden("stand-supposed", "import pulse.csv" PAIR " --dry-run" DEMO);
    json_t *all = run_json("import pulse.csv" PAIR " --dry-run --json" DEMO);
    const json_t *supposed = json_object_get(all, "supposed");
    assert_non_null(json_object_get(supposed, "air"));
    assert_non_null(json_object_get(supposed, "throttle"));
    assert_non_null(json_object_get(supposed, "speed"));
    json_decref(all);
}

static void what_cannot_be_is_refused_with_its_place_and_nothing_goes_in(void **state)
{
    (void)state;
    static const struct {
        const char *list, *more;
        int status;
        const char *message; /* behind "pare: bad.csv:" */
    } lists[] = {
#define HEAD "throttle (%),volts (V),current (A),thrust (gf),speed (rpm)\n"
        {HEAD "25,16,1.9,132,9500\n50,15.8,8.6,4280,17000\n", "", 3,
         "3:4: 'thrust (gf)': row 2: 4280 gf out of 135.9 W, where an ideal rotor of this diameter "
         "takes 1537 W; right would be more power: look at the units\n"},
        {HEAD "25,16,1.9,132,9500\n50,15.8,8.6,428,-17000\n", "", 3,
         "3:5: 'speed (rpm)': row 2: speed -1.7e+04 rpm; right would be 0 or more, and below "
         "190000 rpm\n"},
        {HEAD "25,16,1.9,-132,9500\n50,15.8,8.6,428,17000\n", "", 3,
         "2:4: 'thrust (gf)': row 1: thrust -132 gf: its sign is reversed; right would be a pull "
         "above 0\n"},
        {HEAD "25,16,1.9,132,66500\n50,15.8,8.6,428,119000\n", "", 3,
         "2:5: 'speed (rpm)': row 1: 66500 rpm, but the motor runs free at 44000 rpm (2750 rpm/V "
         "times 16 V); right would be less: turns of the shaft, not electrical ones\n"},
        {HEAD "25,16,1.9,132,9500\n", "", 3,
         "2: a stand table of 1 row; right would be two or more\n"},
        {HEAD "25,16,1.9,132,9500\n25,16,1.9,132,9500\n", "", 3,
         "2: a stand table of one row, again and again; right would be two or more\n"},
        {HEAD "25,16,1.9,132,9500\n50,15.8,8.6,428,17000\n50,15.8,8.6,300,17000\n", "", 3,
         "4:4: 'thrust (gf)': row 3: 300 gf at 50 % and 15.8 V, where row 2 has 428 gf; right "
         "would be one of them\n"},
        {HEAD "25,16,1.9,132,9500\n50,15.8,nan,428,17000\n", "", 3,
         "3:3: 'current (A)': 'nan' is no number; right would be one in each row of a stand "
         "table\n"},
        {HEAD "25,16,1.9,132,9500\n50,15.8,,428,17000\n", "", 3,
         "3:3: 'current (A)': '' is no number; right would be one in each row of a stand table\n"},
        {HEAD "25,16,1.9,132,9500\n50,15.8,8.6,4.2 N,17000\n", "", 3,
         "3:4: 'thrust (gf)': '4.2 N' in another unit than its column; right would be gf\n"},
        {HEAD "25,16,1.9,132,9500\n50,15.8,8.6,428\n", "", 3,
         "3: 4 fields, but there are 5 column names; right would be as many, parted by commas\n"},
        {HEAD "25,16,1.9,132,9500\n150,15.8,8.6,428,17000\n", "", 3,
         "3:1: 'throttle (%)': row 2: throttle 150 %; right would be 0 % to 100 %\n"},
        {HEAD "25,16,1.9,132,9500\n50,158,8.6,428,17000\n", "", 3,
         "3:2: 'volts (V)': row 2: volts 158 V; right would be 0.5 V to 120 V\n"},
        {HEAD "25,x,y,132,9500\n50,15.8,8.6,z,17000\n", "", 3,
         "2:2: 'volts (V)': 'x' is no number; right would be one in each row of a stand table "
         "(and 1 more row; --dry-run lists them)\n"},
        {"throttle (%),volts (V),current (A),thrust,speed (rpm)\n25,16,1.9,132,9500\n", "", 3,
         "1:4: 'thrust': no unit over this column; right would be like 'thrust (...)', of N, gf, "
         "kgf, lbf\n"},
        {"throttle (%),current (A),thrust (gf)\n25,1.9,132\n", "", 3,
         "1: no column of volts; right would be one, like 'volts (V)', 'thrust (gf)', 'current "
         "(A)', or --map COLUMN=WHAT\n"},
        {"throttle (%),volts (V),thrust (gf)\n25,16,132\n", "", 3,
         "1: no column of current or power; right would be one, like 'volts (V)', 'thrust (gf)', "
         "'current (A)', or --map COLUMN=WHAT\n"},
        {"volts (V),current (A),thrust (gf),thrust (N)\n16,1.9,132,1.29\n", "", 3,
         "1: columns 3 'thrust (gf)' and 4 'thrust (N)' both say thrust; right would be one: leave "
         "the other out by --map 4=-\n"},
        {"volts (V),current (A),thrust (gf),throttle (%),pulse (us)\n16,1.9,132,25,1250\n", "", 3,
         "1: columns 4 'throttle (%)' and 5 'pulse (us)' both say throttle; right would be one: "
         "leave the other out by --map 5=-\n"},
        {"volts (V),current (A),thrust (gf),pulse (us)\n16,1.9,132,950\n15,8,420,1500\n", "", 3,
         "2:4: 'pulse (us)': a pulse of 950 us; right would be 1000 us to 2000 us, or --set "
         "pulse_low=... and --set pulse_high=...\n"},
        {"volts (V),current (A),thrust (gf),pulse (us)\n16,1.9,132,1500\n15,8,420,1600\n",
         " --set pulse_low=1600us --set pulse_high=1500us", 3,
         "2:4: 'pulse (us)': pulses from 1600 us to 1500 us; right would be pulse_low below "
         "pulse_high (and 1 more row; --dry-run lists them)\n"},
        {"volts (V),current (A),thrust (gf),erpm\n16,1.9,132,66500\n15,8,420,119000\n",
         " --set poles=7", 3,
         "2: --set poles: 7 poles; right would be the magnets of the bell, an even number up to "
         "60, like 14 (and 1 more row; --dry-run lists them)\n"},
        {"throttle,volts (V),current (A),thrust (gf)\n0.25,16,1.9,132\n0.5,15.8,8.6,428\n", "", 3,
         "1:1: 'throttle': a throttle of 0.5 at most, and no unit over it; right would be per "
         "cent, and 'throttle (%)' over them\n"},
        {"volts (V),current (A),power (W),thrust (gf)\n16,1.9,30,132\n15.8,8.6,1360,428\n", "", 3,
         "3:3: 'power (W)': row 2: power 1360 W, but 15.8 V times 8.6 A is 135.9 W; right would be "
         "the same\n"},
        {"volts (V),current (A),thrust (gf),speed (rpm),torque (N m)\n16,1.9,132,9500,0.0145\n"
         "15.8,8.6,428,17000,0.45\n",
         "", 3,
         "3:5: 'torque (N m)': row 2: 801.1 W at the shaft out of 135.9 W: an efficiency above 1; "
         "right would be less: look at the units of torque and speed\n"},
        {HEAD "25,16,1.9,132,9500\n50,15.8,8.6,428,17000\n", " --set motor=pr-51-43", 3, NULL},
        {HEAD "25,16,1.9,132,9500\n50,15.8,8.6,428,17000\n", " --keep-good", 3, NULL},
    };
    char *before = demo_text();
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        char line[400], wanted[600];
        write_text("bad.csv", lists[i].list);
        snprintf(line, sizeof line, "import bad.csv" PAIR AIR "%s" DEMO, lists[i].more);
        if (lists[i].message) {
            snprintf(wanted, sizeof wanted, "pare: bad.csv:%s", lists[i].message);
            run_refuses(line, lists[i].status, wanted);
        }
        char *after = demo_text();
        assert_string_equal(after, before);
        free(after);
    }
    free(before);
}

static void a_part_of_another_kind_or_none_is_refused(void **state)
{
    (void)state;
    write_text("good.csv", GOOD);
    run_refuses("import good.csv --set motor=pr-51-43 --set propeller=pr-51-43" DEMO, 3,
                "pare: good.csv:2: --set motor: 'pr-51-43' is a part of kind propeller; right "
                "would be a motor\n");
    run_refuses("import good.csv --set motor=mo-2207-275 --set propeller=pr-51-43" DEMO, 2,
                "pare: good.csv:2: --set motor: no part 'mo-2207-275' on the bench; is it "
                "'mo-2207-2750'?\n");
    run_refuses("import good.csv --set motor=mo-2207-2750" DEMO, 3,
                "pare: good.csv:1: which propeller? right would be --set propeller=ID, or a column "
                "of ids\n");
    run_refuses("import good.csv" PAIR " --keep-good" DEMO, 3,
                "pare: good.csv is a stand's readings; --keep-good is for lists whose rows stand "
                "alone\n");
}

static void tables_are_shown_with_their_parts_and_go_by_key(void **state)
{
    (void)state;
    write_text("good.csv", GOOD);
    char *before = demo_text();
    run_quietly("import good.csv" PAIR AIR DEMO);
    char *with = demo_text();
    ran r = run("parts show mo-2207-2750" DEMO);
    assert_non_null(strstr(r.out, "  stand             with pr-51-43, 3 rows, 15.4 to 16.0 V\n"));
    ran_free(&r);
    r = run("parts show pr-51-43" DEMO);
    assert_non_null(strstr(r.out, "  stand             with mo-2207-1950, 4 rows"));
    assert_non_null(strstr(r.out, "                    with mo-2207-2750, 3 rows"));
    ran_free(&r);
    json_t *part = run_json("parts show mo-2207-2750 --json" DEMO);
    const json_t *table = json_array_get(json_object_get(part, "stands"), 0);
    assert_int_equal((int)number(table, "rows"), 3);
    assert_true(json_is_null(json_object_get(table, "fault")));
    json_decref(part);
    /* The kV was wrong by half: the table cannot be any more, and says so instead of an error. */
    run_quietly("parts change mo-2207-2750 kv=1000" DEMO);
    r = run("parts show mo-2207-2750" DEMO);
    assert_non_null(strstr(r.out, "with pr-51-43, not used: row 3: 23600 rpm, but the motor runs "
                                  "free at 15400 rpm"));
    ran_free(&r);
    r = run("sheet hedgerow" DEMO);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    run_quietly("undo" DEMO);
    run_refuses(
        "parts change mo-2207-2750 stand.pr-30-30=off" DEMO, 2,
        "pare: stand.pr-30-30=off: no stand table of mo-2207-2750 with pr-30-30; pare parts "
        "show mo-2207-2750 lists those that are there\n");
    run_refuses(
        "parts change mo-2207-2750 stand.pr-51-43=new" DEMO, 3,
        "pare: stand.pr-51-43=new: stand tables come in by pare import; right would be like "
        "stand.PART=off, which takes those with PART off\n");
    run_prints("parts change mo-2207-2750 stand.pr-51-43=off owned=7" DEMO,
               "mo-2207-2750 changed\n  owned: 5 -> 7\n  stand.pr-51-43: 1 table (gone)\n");
    run_quietly("undo" DEMO);
    char *again = demo_text();
    assert_string_equal(again, with);
    run_quietly("parts change pr-51-43 stand.mo-2207-2750=off" DEMO);
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(again);
    free(with);
    free(before);
}

static void the_table_beside_the_demo_changes_its_sheet(void **state)
{
    (void)state;
    char *table = read_file(PARE_SOURCE_DIR "/demo/stand-hedgerow.csv");
    assert_non_null(table);
    write_text("stand-hedgerow.csv", table);
    json_t *before = run_json("sheet hedgerow --json" DEMO);
    run_prints_golden("stand-hedgerow", "import stand-hedgerow.csv" PAIR AIR DEMO);
    json_t *after = run_json("sheet hedgerow --json" DEMO);
    const json_t *was = json_object_get(before, "rotors"), *is = json_object_get(after, "rotors");
    assert_string_equal(json_string_value(json_object_get(was, "from")), "line");
    assert_string_equal(json_string_value(json_object_get(is, "from")), "stand");
    assert_true(number(is, "thrust_u") < 0.6 * number(was, "thrust_u"));
    json_decref(after);
    json_decref(before);
    free(table);
}

/* A log of a million rows, of which the first 2001 are read. */
static void a_log_without_end_is_refused_at_its_first_row_too_many(void **state)
{
    (void)state;
    enum { LOGGED = 1000000 };
    const size_t room = 64 + (size_t)LOGGED * 32;
    char *text = malloc(room);
    assert_non_null(text);
    size_t used = (size_t)snprintf(text, room, "%s", HEAD);
    for (unsigned i = 0; i < LOGGED; i++)
        used += (size_t)snprintf(text + used, room - used, "50,15.8,8.6,428,%u\n", 17000 + i % 97);
    write_file("log.csv", text, used);
    free(text);
    run_refuses("import log.csv" PAIR DEMO, 3,
                "pare: log.csv:2002: more than 2000 rows in a stand table; right would be fewer: "
                "each tenth row of a log, or one a step\n");
}

/* A made-up sweep that can be: constant coefficients, and an efficiency below 0.8. */
static size_t sweep(unsigned *seed, char *text, size_t room)
{
    const unsigned rows = 2 + dice(seed, 12);
    size_t used = (size_t)snprintf(text, room, "%s", HEAD);
    for (unsigned i = 1; i <= rows; i++) {
        const double throttle = 100.0 * i / rows, volts = 16.8 - 0.015 * throttle;
        const double rpm = 260 * throttle + dice(seed, 60);
        const double thrust = 1.48e-6 * rpm * rpm, watts = 2.15e-11 * rpm * rpm * rpm;
        used += (size_t)snprintf(text + used, room - used, "%.1f,%.2f,%.2f,%.1f,%.0f\n", throttle,
                                 volts, watts / volts + 0.01, thrust, rpm);
    }
    return used;
}

static void random_tables_that_can_be_come_back_as_they_went(void **state)
{
    (void)state;
    unsigned seed = 20260417;
    for (int times = 0; times < 12; times++) {
        char text[2000];
        write_file("sweep.csv", text, sweep(&seed, text, sizeof text));
        run_quietly("import sweep.csv" PAIR AIR DEMO);
    }
    char *went = demo_text();
    run_quietly("export -o went.yaml" DEMO);
    run_quietly("import went.yaml --bench other.sqlite");
    ran r = run("export --bench other.sqlite");
    assert_string_equal(r.out, went);
    ran_free(&r);
    /* As lists too: one unit a column, a table for each pair and air. */
    run_quietly("export --as stand -o all.csv" DEMO);
    json_t *again = run_json("import all.csv --dry-run --json" DEMO);
    assert_int_equal((int)number(again, "refused"), 0);
    json_decref(again);
    free(went);
}

/* One byte of a good table is another: it goes in or is refused by one line, and nothing is half in. */
static void a_table_with_a_wrong_byte_is_taken_whole_or_refused_in_one_line(void **state)
{
    (void)state;
    static const char bytes[] = ",;\t\"\n\r-+.eE09aN%(#\x80\xFF";
    unsigned seed = 7;
    char *before = demo_text();
    for (int times = 0; times < 120; times++) {
        char text[2000];
        const size_t length = sweep(&seed, text, sizeof text);
        const unsigned changes = 1 + dice(&seed, 3);
        for (unsigned i = 0; i < changes; i++) {
            const unsigned at = dice(&seed, (unsigned)length);
            text[at] = bytes[dice(&seed, sizeof bytes - 1)];
        }
        write_file("wrong.csv", text, length);
        ran r = run("import wrong.csv" PAIR AIR DEMO);
        if (r.status == 0) {
            assert_string_equal(r.err, "");
            run_quietly("undo" DEMO);
        } else {
            assert_true(r.status == 3 || r.status == 2);
            assert_string_equal(r.out, "");
            assert_ptr_equal(strchr(r.err, '\n'), r.err + strlen(r.err) - 1);
            assert_int_equal(strncmp(r.err, "pare: ", 6), 0);
        }
        ran_free(&r);
        char *after = demo_text();
        assert_string_equal(after, before);
        free(after);
    }
    free(before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_table_goes_in_once_and_comes_back_by_undo, fresh),
        cmocka_unit_test_setup(a_table_is_read_in_the_words_of_many_stands, fresh),
        cmocka_unit_test_setup(the_air_of_a_stand_may_be_told_in_full, fresh),
        cmocka_unit_test_setup(what_was_supposed_is_said, fresh),
        cmocka_unit_test_setup(what_cannot_be_is_refused_with_its_place_and_nothing_goes_in, fresh),
        cmocka_unit_test_setup(a_part_of_another_kind_or_none_is_refused, fresh),
        cmocka_unit_test_setup(tables_are_shown_with_their_parts_and_go_by_key, fresh),
        cmocka_unit_test_setup(the_table_beside_the_demo_changes_its_sheet, fresh),
        cmocka_unit_test_setup(a_log_without_end_is_refused_at_its_first_row_too_many, fresh),
        cmocka_unit_test_setup(random_tables_that_can_be_come_back_as_they_went, fresh),
        cmocka_unit_test_setup(a_table_with_a_wrong_byte_is_taken_whole_or_refused_in_one_line,
                               fresh),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
