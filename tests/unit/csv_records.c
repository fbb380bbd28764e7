/* rooms: store craft physics base */
/* Lists of weigh-ins, flights, stand tables and logs for the bench with every key (tests/data): the lines that
 * the bench has more of each, what is remarked about it, or the line that refuses it, word for word. What a
 * cell means is common practice, no source. */
#include "store_works.h"

#include "store/csv_import.h"

enum { TOLD = 4, LONGEST = 400 };

typedef struct list_case {
    const char *text, *answer;
    const char *set[TOLD];
    bool keep_good;
    pare_list_kind as;
} list_case;

static size_t told(const char *const words[TOLD])
{
    size_t count = 0;
    while (count < TOLD && words[count])
        count++;
    return count;
}

/* Stretches of a log have a line each, which tests/unit/learn_log.c knows better. */
#define STRETCH "    - ["

/* The lines of a text that another one, with a line of its own for each of them, does not have. */
static void say_new(const char *before, const char *after, pare_text *answer)
{
    char line[LONGEST];
    for (const char *at = strchr(after, '\n') + 1; *at;) { /* below its head */
        const size_t length = strcspn(at, "\n");
        snprintf(line, sizeof line, "\n%.*s\n", (int)(length < LONGEST - 3 ? length : LONGEST - 3),
                 at);
        if (!strstr(before, line) && strncmp(line + 1, STRETCH, strlen(STRETCH)) != 0)
            pare_text_add(answer, line + 1);
        at += length + (at[length] != '\0');
    }
}

static void say(pare_store *store, const list_case *one, pare_text *answer)
{
    const pare_list_import how = {.bytes = one->text,
                                  .length = strlen(one->text),
                                  .name = "l.csv",
                                  .sets = told(one->set),
                                  .set = one->set,
                                  .as = one->as,
                                  .keep_good = one->keep_good};
    pare_list_summary summary;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    const long long newest = store_newest(store);
    char *before = store_text(store);
    if (pare_store_import_list(store, &how, arena, &summary, &err) != PARE_OK) {
        pare_text_add(answer, err.text);
    } else {
        char *after = store_text(store);
        say_new(before, after, answer);
        for (size_t i = 0; i < summary.remarks; i++)
            pare_text_printf(answer, "%s: %s\n", summary.remark[i].label, summary.remark[i].text);
        for (size_t i = 0; i < summary.refused_listed; i++)
            pare_text_printf(answer, "refused: %s\n", summary.refused_row[i].text);
        free(after);
    }
    free(before);
    pare_arena_close(arena);
    if (store_newest(store) != newest && store_turn(store, true, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static void expect(void **state, size_t count, const list_case cases[])
{
    fill(state);
    for (size_t i = 0; i < count; i++) {
        pare_text text = {0};
        say(store_of(state), &cases[i], &text);
        const char *answer = text.bytes ? text.bytes : "";

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("case %zu, of\n%s\nsays\n%s\nand not\n%s", i, cases[i].text, answer,
                     cases[i].answer);
        pare_text_free(&text);
    }
}
#define EXPECT(cases) expect(state, sizeof(cases) / sizeof *(cases), cases)

static void what_lay_on_a_scale_is_told_in_words(void **state)
{
    static const list_case cases[] = {
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"all\",130 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: all, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"Everything\",130 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: all, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor 4\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"4 x motor\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"4 X motor\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor: 4\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor=4\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor x 4\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 1}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor 4, joint.motor_base "
                 "16\",130 g\n",
         .answer = "  date: 2026-05-01\n  reads: 130 g\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor 4; cube 2\",130 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4, cube: 2}, "
                   "reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor 4 + cube 2\",130 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4, cube: 2}, "
                   "reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor 4,\",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor 4  \",130 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"x\",130 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: {x: 1}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"4 x\",130 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: {x: 4}, reads: 130 g}\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"big motor 4\",130 g\n",
         .answer = "l.csv:2:4: 'of': 'big motor 4' is nothing that lies on a scale; right would be "
                   "all, or like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"a:b\",130 g\n",
         .answer = "l.csv:2:4: 'of': 'a:b' is nothing that lies on a scale; right would be all, or "
                   "like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor, motor\",130 g\n",
         .answer = "l.csv:2:4: 'of': 'motor' stands there twice; right would be once, with a count "
                   "(--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\";\",130 g\n",
         .answer = "l.csv:2:4: 'of': of is what lay on the scale: all, or like {motor: 4, "
                   "joint.motor_base: 16} (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\",,\",130 g\n",
         .answer = "l.csv:2:4: 'of': of is what lay on the scale: all, or like {motor: 4, "
                   "joint.motor_base: 16} (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"motor 4,a b c\",130 g\n",
         .answer = "l.csv:2:4: 'of': 'a b c' is nothing that lies on a scale; right would be all, "
                   "or like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,"
                 "\"mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm"
                 "mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm\",130 g\n",
         .answer = "  date: 2026-05-01\n  of: "
                   "{mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm: 1}\n  reads: "
                   "130 g\n"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,\"joint.motor_base\",130 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: {joint.motor_base: 1}, "
                   "reads: 130 g}\n"},
    };
    EXPECT(cases);
}

static void weigh_ins_and_flights_are_read_by_column(void **state)
{
    static const list_case cases[] = {
        {.text = "craft,date,scale,of,reads\nweir-5,1.5.2026,small,all,540\n",
         .answer = "l.csv:2:5: 'reads': 540 has no unit; right would be like 540 g, or the unit in "
                   "the column's name, like (g) (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5 ,2026-05-01,small ,all,540 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: all, reads: 540 g}\n"},
        {.text = "craft,date,scale,of,reads\nnobody,2026-05-01,small,all,540 g\n",
         .answer = "l.csv:2:1: 'craft': no craft 'nobody' on the bench; right would be one that is "
                   "there (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,big,all,540 g\n",
         .answer = "l.csv:2:3: 'scale': no scale 'big' on the bench; right would be one that is "
                   "there (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,tomorrow,small,all,540 g\n",
         .answer = "l.csv:2:2: 'date': date 'tomorrow' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,all,heavy\n",
         .answer = "l.csv:2:5: 'reads': reads: heavy does not start with one plain number: a mass "
                   "needs g, kg, oz or lb (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,all,-1 g\n",
         .answer = "l.csv:2:5: 'reads': reads of -1 g; right would be 0 g to 100000 g (--keep-good "
                   "takes the other rows)"},
        {.text = "craft,date,scale,of,reads\n,2026-05-01,small,all,540 g\n",
         .answer = "l.csv:2: a weigh-in without craft (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,,540 g\n",
         .answer = "l.csv:2: a weigh-in without of (--keep-good takes the other rows)"},
        {.text = "craft,date,scale,of,reads\nweir-5,2026-05-01,small,all,\"1,300 g\"\n",
         .answer =
             "l.csv:2:5: 'reads': 1,300 g may be 1300 or 1.300; right would be either of these, or "
             "--decimal comma or --decimal point (--keep-good takes the other rows)"},
        {.text = "craft,date,loadout,scale,of,reads\nweir-5,2026-05-01,race,small,all,471 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-01, scale: small, of: all, loadout: race, "
                   "reads: 471 g}\n"},
        {.text = "craft,date,reads\nweir-5,2026-05-01,540 g\n",
         .answer = "l.csv:2: a weigh-in without of (--keep-good takes the other rows)"},
        {.text = "craft,reads,of,promise\nweir-5,540 g,all,530 g .. 550 g\n",
         .answer = "l.csv:2: a weigh-in without date (--keep-good takes the other rows)"},
        {.text = "craft,reads,of,promise\nweir-5,540 g,all,lots\n",
         .answer = "l.csv:2: a weigh-in without date (--keep-good takes the other rows)"},
        {.text = "craft,reads (oz),of\nweir-5,19,all\n",
         .answer = "l.csv:2: a weigh-in without date (--keep-good takes the other rows)"},
        {.text = "craft,reads,of\nweir-5,,all\n",
         .answer = "l.csv:2: a weigh-in without date (--keep-good takes the other rows)"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;4,5 min;900\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, lasted: 4.5 min, put_back: 900 "
                   "mAh}\n"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;4;900\n",
         .answer = "l.csv:2:4: 'lasted': 4 has no unit; right would be like 4 s, or the unit in "
                   "the column's name, like (s) (--keep-good takes the other rows)"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-x;4 min;900\n",
         .answer = "l.csv:2:3: 'pack': no part 'pa-x' on the bench; is it 'pa-w'? (--keep-good "
                   "takes the other rows)"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;;900\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, put_back: 900 mAh}\n"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;4 min;\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, lasted: 4 min}\n"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;4 min;lots\n",
         .answer = "l.csv:2:5: 'put back (mAh)': put_back: lots does not start with one plain "
                   "number: a charge needs mAh, Ah or C (--keep-good takes the other rows)"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;;pa-w;4 min;900\n",
         .answer = "l.csv:2: a flight without date (--keep-good takes the other rows)"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;;4 min;900\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, lasted: 4 min, put_back: 900 mAh}\n"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;-4 min;900\n",
         .answer = "l.csv:2:4: 'lasted': lasted of -4 min; right would be 1 s to 100000 s "
                   "(--keep-good takes the other rows)"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;4 d;900\n",
         .answer = "l.csv:2:4: 'lasted': lasted of 4 d; right would be 1 s to 100000 s "
                   "(--keep-good takes the other rows)"},
        {.text = "craft;date;pack;lasted;put back (mAh)\nweir-5;2026-05-02;pa-w;4 min;1.300\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, lasted: 4 min, put_back: 1.300 "
                   "mAh}\n"},
        {.text =
             "craft,date,lasted,put back (mAh),pack,which\nweir-5,2026-05-02,4 min,900,pa-w,2\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, which: 2, lasted: 4 min, "
                   "put_back: 900 mAh}\n"},
        {.text =
             "craft,date,lasted,put back (mAh),pack,which\nweir-5,2026-05-02,4 min,900,pa-w,two\n",
         .answer = "l.csv:2:6: 'which': which: two does not start with one plain number: a count "
                   "needs a bare number (--keep-good takes the other rows)"},
        {.text =
             "craft,date,lasted,put back (mAh),pack,which\nweir-5,2026-05-02,4 min,900,pa-w,4S\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, which: 4, lasted: 4 min, "
                   "put_back: 900 mAh}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,take off\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,480 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, take_off: 480 g, lasted: 4 "
                   "min, put_back: 900 mAh}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,rest before\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,17,3 V\n",
         .answer =
             "l.csv:2: 7 fields, but there are 6 column names; right would be as many, parted by "
             "commas (a text with commas in quotes) (--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,rest before\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,17.3\n",
         .answer = "l.csv:2:6: 'rest before': 17.3 has no unit; right would be like 17.3 V, or the "
                   "unit in the column's name, like (V) (--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,temperature\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,10 C\n",
         .answer = "  date: 2026-05-02\n  lasted: 4 min\n  put_back: 900 mAh\n  air: {temperature: "
                   "10 C}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,altitude\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,120 m\n",
         .answer = "  date: 2026-05-02\n  lasted: 4 min\n  put_back: 900 mAh\n  air: {altitude: "
                   "120 m}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,pressure\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,992 hPa\n",
         .answer = "  date: 2026-05-02\n  lasted: 4 min\n  put_back: 900 mAh\n  air: {pressure: "
                   "992 hPa}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,sea level pressure\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,1013 hPa\n",
         .answer = "  date: 2026-05-02\n  lasted: 4 min\n  put_back: 900 mAh\n  air: "
                   "{sea_level_pressure: 1013 hPa}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,humidity\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,50 %\n",
         .answer =
             "  date: 2026-05-02\n  lasted: 4 min\n  put_back: 900 mAh\n  air: {humidity: 50 %}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,humidity\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,150 %\n",
         .answer = "l.csv:2:6: 'humidity': humidity of 150 %; right would be 0 % to 100 % "
                   "(--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,flown\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,Hover\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, lasted: 4 min, put_back: 900 "
                   "mAh, flown: hover}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,flown\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,brief\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, lasted: 4 min, put_back: 900 "
                   "mAh, flown: brief}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,flown\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,loops\n",
         .answer = "l.csv:2:6: 'flown': flown cannot be 'loops'; right would be one of brief, "
                   "hover, full (--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,output\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,31 %\n",
         .answer = "l.csv:2:6: 'output': output is that of a hover; right would be flown: hover "
                   "with it (--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,output\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,130 %\n",
         .answer = "l.csv:2:6: 'output': output of 130 %; right would be 1 % to 100 % (--keep-good "
                   "takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,promise\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,28 % .. 33 %\n",
         .answer = "l.csv:2:6: 'promise': promise is that of a hover; right would be flown: hover "
                   "with it (--keep-good takes the other rows)"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,3 X motor,31 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, of: {motor: 3}, reads: 31 g}\n"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,3x motor,31 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, of: {motor: 3}, reads: 31 g}\n"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02, 4 motor,31 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, of: {motor: 4}, reads: 31 g}\n"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,motor x3,31 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, of: {motor: 3}, reads: 31 g}\n"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,motor   ,31 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, of: {motor: 1}, reads: 31 g}\n"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,x3,31 g\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, of: {x3: 1}, reads: 31 g}\n"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,motor X 3,31 g\n",
         .answer =
             "l.csv:2:3: 'of': 'motor X 3' is nothing that lies on a scale; right would be all, or "
             "like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,3 :,31 g\n",
         .answer = "l.csv:2:3: 'of': '3 :' is nothing that lies on a scale; right would be all, or "
                   "like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,3 a b,31 g\n",
         .answer =
             "l.csv:2:3: 'of': '3 a b' is nothing that lies on a scale; right would be all, or "
             "like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,motor 12 x,31 g\n",
         .answer = "l.csv:2:3: 'of': 'motor 12 x' is nothing that lies on a scale; right would be "
                   "all, or "
                   "like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,of,reads\nweir-5,2026-05-02,=3,31 g\n",
         .answer = "l.csv:2:3: 'of': '=3' is nothing that lies on a scale; right would be all, or "
                   "like: motor 4, joint.motor_base 16 (--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,loadout\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,fast\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-02, loadout: fast, pack: pa-w, lasted: 4 min, "
             "put_back: 900 mAh}\nloadout: l.csv:2:6: weir-5 has no loadout 'fast', so this is "
             "kept but not used; right would be race, long\n"},
        {.text = "craft,date,lasted,put back (mAh),pack\nweir-5,2026-05-02,4 min,950,mo-w\n",
         .answer = "l.csv:2:5: 'pack': 'mo-w' is a part of kind motor; right would be a pack "
                   "(--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back (mAh),pack,loadout\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,race\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, loadout: race, pack: pa-w, lasted: 4 min, "
                   "put_back: 900 mAh}\n"},
        {.text =
             "craft,date,lasted,put back (mAh),pack,log\nweir-5,2026-05-02,4 min,900,pa-w,a.csv\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, pack: pa-w, lasted: 4 min, put_back: 900 "
                   "mAh, log: a.csv}\n"},
        {.text = "craft,date,lasted,put back (mAh),pack,temperature\nweir-5,2026-05-02,4 "
                 "min,900,pa-w,-400 C\n",
         .answer = "l.csv:2:6: 'temperature': temperature of -400 C; right would be -60 degC to 60 "
                   "degC (--keep-good takes the other rows)"},
        {.text = "craft,date,put_back\nweir-5,2026-05-02,900 mAh\n",
         .answer = "- {craft: weir-5, date: 2026-05-02, put_back: 900 mAh}\n"},
        {.text = "date,lasted\n2026-05-02,4 min\n",
         .answer = "l.csv:2: a flight without craft (--keep-good takes the other rows)"},
        {.text = "craft,lasted\nweir-5,4 min\n",
         .answer = "l.csv:2: a flight without date (--keep-good takes the other rows)"},
        {.text = "craft,date,lasted,put back,pack,altitude,temperature\nweir-5,2026-05-02,4 "
                 "min,900 mAh,pa-w,120 m,10 C\n",
         .answer = "  date: 2026-05-02\n  lasted: 4 min\n  put_back: 900 mAh\n  air: {altitude: "
                   "120 m, temperature: 10 C}\n"},
        {.text = "craft,date,put back (mAh),lasted,pack,output,promise\nweir-5,2026-05-02,900,4 "
                 "min,pa-w,30 %,10 % .. 20 %\n",
         .answer = "l.csv:2:6: 'output': output is that of a hover; right would be flown: hover "
                   "with it (--keep-good takes the other rows)"},
        {.text =
             "craft,date,scale,of,reads\nweir-5,2026-05-01,small,motor 4,140 "
             "g\nweir-5,2026-05-01,small,motor 4,140 g\nweir-6,2026-05-01,small,motor 4,140 g\n",
         .answer =
             "- {craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 140 g}\n- "
             "{craft: weir-5, date: 2026-05-01, scale: small, of: {motor: 4}, reads: 140 "
             "g}\nrefused: l.csv:4:1: 'craft': no craft 'weir-6' on the bench; is it 'weir-5'?\n",
         .keep_good = true},
        {.text =
             "craft,date,scale,of,reads\nweir-5,2026-05-01,small,motor 4,140 "
             "g\nweir-6,2026-05-01,small,motor 4,140 g\nweir-7,2026-05-01,small,motor 4,140 g\n",
         .answer = "l.csv:3:1: 'craft': no craft 'weir-6' on the bench; is it 'weir-5'? (and 1 "
                   "more row; --dry-run lists them, --keep-good takes the others)"},
    };
    EXPECT(cases);
}

static void a_stand_table_needs_its_units_and_numbers(void **state)
{
    static const list_case cases[] = {
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2,27,890\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: "
                   "gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard "
                   "atmosphere's at sea level, since the list says nothing, its density as known "
                   "to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\n",
         .answer = "l.csv:2: a stand table of 1 row; right would be two or more"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2,27,lots\n",
         .answer = "l.csv:3:6: 'thrust (gf)': 'lots' is no number; right would be one in each row "
                   "of a stand table"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2,27,\n",
         .answer = "l.csv:3:6: 'thrust (gf)': '' is no number; right would be one in each row of a "
                   "stand table"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2 V,27 A,890 g\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: "
                   "gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard "
                   "atmosphere's at sea level, since the list says nothing, its density as known "
                   "to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2 mV,27,890\n",
         .answer =
             "l.csv:3:4: 'volts (V)': '15.2 mV' in another unit than its column; right would be V"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2,27,\"1,300\"\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: "
                   "gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 1300]]\nair: the standard "
                   "atmosphere's at sea level, since the list says nothing, its density as known "
                   "to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-x,pr-t,50,15.9,8.4,420\nmo-x,pr-t,100,15.2,27,890\n",
         .answer = "l.csv:2:1: 'motor': no part 'mo-x' on the bench; is it 'mo-w'?"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\npr-t,mo-w,50,15.9,8.4,420\npr-t,mo-w,100,15.2,27,890\n",
         .answer =
             "l.csv:2:1: 'motor': 'pr-t' is a part of kind propeller; right would be a motor"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2,27,890\nmo-w,pr-w,50,15.9,8."
                 "4,430\nmo-w,pr-w,100,15.2,27,900\n",
         .answer =
             "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: gf}\n  "
             "rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\n  columns: {throttle: \"%\", "
             "volts: V, current: A, thrust: gf}\n  rows: [[50, 15.9, 8.4, 430], [100, 15.2, 27, "
             "900]]\nair: the standard atmosphere's at sea level, since the list says nothing, its "
             "density as known to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,pr-t,50,15.9,8.4,420\nmo-w,pr-t,100,15.2,27,890\nmo-w,pr-w,50,15.9,8."
                 "4,430\n",
         .answer = "l.csv:4: a stand table of 1 row; right would be two or more"},
        {.text = "motor,propeller,throttle (%),volts (V),current (A),thrust (gf)\n mo-w , pr-t "
                 ",50,15.9,8.4,420\nmo-w,pr-t,100,15.2,27,890\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: "
                   "gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard "
                   "atmosphere's at sea level, since the list says nothing, its density as known "
                   "to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n"},
        {.text =
             "throttle (%),volts (V),current (A),thrust (gf)\n50,15.9,8.4,420\n100,15.2,27,890\n",
         .answer = "l.csv:1: which motor? right would be --set motor=ID, or a column of ids"},
        {.text = "motor,throttle (%),volts (V),current (A),thrust "
                 "(gf)\nmo-w,50,15.9,8.4,420\nmo-w,100,15.2,27,890\n",
         .answer =
             "l.csv:1: which propeller? right would be --set propeller=ID, or a column of ids"},
        {.text = "throttle,volts (V),current (A),thrust (gf)\n0.5,15.9,8.4,420\n1,15.2,27,890\n",
         .answer = "l.csv:1:1: 'throttle': a throttle of 1 at most, and no unit over it; right "
                   "would be per cent, and 'throttle (%)' over them",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle,volts (V),current (A),thrust (gf)\n50,15.9,8.4,420\n100,15.2,27,890\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: "
                   "gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard "
                   "atmosphere's at sea level, since the list says nothing, its density as known "
                   "to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts,current (A),thrust (gf)\n50,15.9,8.4,420\n100,15.2,27,890\n",
         .answer = "l.csv:1:2: 'volts': no unit over this column; right would be like 'volts "
                   "(...)', of V, mV",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),current (A),thrust (gf)\n50,8.4,420\n100,27,890\n",
         .answer = "l.csv:1: no column of volts; right would be one, like 'volts (V)', 'thrust "
                   "(gf)', 'current (A)', or --map COLUMN=WHAT",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts (V),thrust (gf)\n50,15.9,420\n100,15.2,890\n",
         .answer = "l.csv:1: no column of current or power; right would be one, like 'volts (V)', "
                   "'thrust (gf)', 'current (A)', or --map COLUMN=WHAT",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text =
             "throttle (%),volts (V),power (W),thrust (gf)\n50,15.9,133,420\n100,15.2,410,890\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, power: W, thrust: "
                   "gf}\n  rows: [[50, 15.9, 133, 420], [100, 15.2, 410, 890]]\nair: the standard "
                   "atmosphere's at sea level, since the list says nothing, its density as known "
                   "to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts (V),current (A)\n50,15.9,8.4\n100,15.2,27\n",
         .answer = "l.csv:1: no column of thrust; right would be one, like 'volts (V)', 'thrust "
                   "(gf)', 'current (A)', or --map COLUMN=WHAT",
         .set = {"motor=mo-w", "propeller=pr-t"},
         .as = PARE_LIST_STAND},
        {.text = "volts (V),throttle,current (A),thrust (gf)\n15.9,0.5,8.4,420\n15.2,1,27,890\n",
         .answer = "l.csv:1:2: 'throttle': a throttle of 1 at most, and no unit over it; right "
                   "would be per cent, and 'throttle (%)' over them",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n2000,15.2,27,890\n",
         .answer =
             "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: gf}\n  "
             "rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard atmosphere's "
             "at sea level, since the list says nothing, its density as known to 2 %; otherwise "
             "--set altitude=120m, --set air_temperature=20C\nthrottle: of pulses from 1000 us to "
             "2000 us; others: --set pulse_low=..., --set pulse_high=...\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n2100,15.2,27,890\n",
         .answer = "l.csv:3:1: 'pulse (us)': a pulse of 2100 us; right would be 1000 us to 2000 "
                   "us, or --set pulse_low=... and --set pulse_high=...",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n900,15.9,8.4,420\n2000,15.2,27,890\n",
         .answer = "l.csv:2:1: 'pulse (us)': a pulse of 900 us; right would be 1000 us to 2000 us, "
                   "or --set pulse_low=... and --set pulse_high=...",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "pulse,volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n2000,15.2,27,890\n",
         .answer = "l.csv:1:1: 'pulse': no unit over this column; right would be like 'pulse "
                   "(us)', of us, ms, s",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "pulse (ms),volts (V),current (A),thrust (gf)\n1.5,15.9,8.4,420\n2,15.2,27,890\n",
         .answer =
             "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: gf}\n  "
             "rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard atmosphere's "
             "at sea level, since the list says nothing, its density as known to 2 %; otherwise "
             "--set altitude=120m, --set air_temperature=20C\nthrottle: of pulses from 1000 us to "
             "2000 us; others: --set pulse_low=..., --set pulse_high=...\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n1900,15.2,27,890\n",
         .answer =
             "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: gf}\n  "
             "rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard atmosphere's "
             "at sea level, since the list says nothing, its density as known to 2 %; otherwise "
             "--set altitude=120m, --set air_temperature=20C\nthrottle: of pulses from 1100us to "
             "1900us; others: --set pulse_low=..., --set pulse_high=...\n",
         .set = {"motor=mo-w", "propeller=pr-t", "pulse_low=1100us", "pulse_high=1900us"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n1900,15.2,27,890\n",
         .answer = "l.csv:2:1: 'pulse (us)': pulses from 1900 us to 1100 us; right would be "
                   "pulse_low below pulse_high (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "pulse_low=1900us", "pulse_high=1100us"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n1900,15.2,27,890\n",
         .answer = "l.csv:2: --set pulse_low: lots does not start with one plain number: a time "
                   "needs s, min, h or ms (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "pulse_low=lots"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n1900,15.2,27,890\n",
         .answer = "l.csv:2: --set pulse_high: 2 g is a mass: a time needs s, min, h or ms (and 1 "
                   "more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "pulse_high=2 g"}},
        {.text =
             "pulse (us),volts (V),current (A),thrust (gf)\n1500,15.9,8.4,420\n1900,15.2,27,890\n",
         .answer = "l.csv:2: --set pulse_low: 1000 has no unit; right would be like 1000 s, or the "
                   "unit in the column's name, like (s) (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "pulse_low=1000"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),electrical speed "
                 "(rpm)\n50,15.9,8.4,420,119700\n100,15.2,27,890,174300\n",
         .answer = "  propeller: pr-t\nair: the standard atmosphere's at sea level, since the list "
                   "says nothing, its density as known to 2 %; otherwise --set altitude=120m, "
                   "--set air_temperature=20C\nspeed: of electrical turns, of 14 poles\n",
         .set = {"motor=mo-w", "propeller=pr-t", "poles=14"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),electrical speed "
                 "(rpm)\n50,15.9,8.4,420,119700\n100,15.2,27,890,174300\n",
         .answer = "l.csv:2: --set poles: 13 poles; right would be the magnets of the bell, an "
                   "even number up to 60, like 14 (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "poles=13"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),electrical speed "
                 "(rpm)\n50,15.9,8.4,420,119700\n100,15.2,27,890,174300\n",
         .answer = "l.csv:2: --set poles: 1 poles; right would be the magnets of the bell, an even "
                   "number up to 60, like 14 (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "poles=1"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),electrical speed "
                 "(rpm)\n50,15.9,8.4,420,119700\n100,15.2,27,890,174300\n",
         .answer = "l.csv:2: --set poles: 90 poles; right would be the magnets of the bell, an "
                   "even number up to 60, like 14 (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "poles=90"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),electrical speed "
                 "(rpm)\n50,15.9,8.4,420,119700\n100,15.2,27,890,174300\n",
         .answer = "l.csv:2: --set poles: many does not start with one plain number: a number "
                   "needs no unit (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "poles=many"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),electrical speed "
                 "(Hz)\n50,15.9,8.4,420,1995\n100,15.2,27,890,2905\n",
         .answer = "  propeller: pr-t\n  rows: [[50, 15.9, 8.4, 420, 285], [100, 15.2, 27, 890, "
                   "415]]\nair: the standard atmosphere's at sea level, since the list says "
                   "nothing, its density as known to 2 %; otherwise --set altitude=120m, --set "
                   "air_temperature=20C\nspeed: of electrical turns, of 14 poles\n",
         .set = {"motor=mo-w", "propeller=pr-t", "poles=14"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),electrical "
                 "speed\n50,15.9,8.4,420,119700\n100,15.2,27,890,174300\n",
         .answer = "  propeller: pr-t\nair: the standard atmosphere's at sea level, since the list "
                   "says nothing, its density as known to 2 %; otherwise --set altitude=120m, "
                   "--set air_temperature=20C\nspeed: of electrical turns, of 14 poles\n",
         .set = {"motor=mo-w", "propeller=pr-t", "poles=14"}},
        {.text = "throttle (%),volts (V),current (A),thrust "
                 "(gf),speed\n50,15.9,8.4,420,17100\n100,15.2,27,890,24900\n",
         .answer = "  propeller: pr-t\nair: the standard atmosphere's at sea level, since the list "
                   "says nothing, its density as known to 2 %; otherwise --set altitude=120m, "
                   "--set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),altitude (m),air temperature "
                 "(C)\n50,15.9,8.4,420,150,20\n100,15.2,27,890,150,20\n",
         .answer = "  propeller: pr-t\n  air: {altitude: 150 m, temperature: 20 C}\n  columns: "
                   "{throttle: \"%\", volts: V, current: A, thrust: gf}\n  rows: [[50, 15.9, 8.4, "
                   "420], [100, 15.2, 27, 890]]\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),altitude (m),air temperature "
                 "(C)\n50,15.9,8.4,420,150,20\n100,15.2,27,890,160,20\n",
         .answer = "l.csv:2: a stand table of 1 row; right would be two or more",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),altitude (m),air temperature "
                 "(C)\n50,15.9,8.4,420,high,20\n100,15.2,27,890,150,20\n",
         .answer = "l.csv:2:5: 'altitude (m)': altitude: high does not start with one plain "
                   "number: a length needs mm, cm, m, in or ft",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts (V),current (A),thrust (gf),altitude (m),air temperature "
                 "(C)\n50,15.9,8.4,420,\"1,300\",20\n100,15.2,27,890,150,20\n",
         .answer = "l.csv:2: a stand table of 1 row; right would be two or more",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text =
             "throttle (%),volts (V),current (A),thrust (gf)\n50,15.9,8.4,420\n100,15.2,27,890\n",
         .answer = "  propeller: pr-t\n  air: {altitude: 120 m}\n  columns: {throttle: \"%\", "
                   "volts: V, current: A, thrust: gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, "
                   "27, 890]]\nair: as warm as the standard atmosphere there, its density as known "
                   "to 2 %; otherwise --set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t", "altitude=120m"}},
        {.text =
             "throttle (%),volts (V),current (A),thrust (gf)\n50,15.9,8.4,420\n100,15.2,27,890\n",
         .answer = "  propeller: pr-t\n  air: {sea_level_pressure: 1009 hPa}\n  columns: "
                   "{throttle: \"%\", volts: V, current: A, thrust: gf}\n  rows: [[50, 15.9, 8.4, "
                   "420], [100, 15.2, 27, 890]]\nair: as warm as the standard atmosphere there, "
                   "its density as known to 2 %; otherwise --set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t", "sea_level_pressure=1009hPa"}},
        {.text =
             "throttle (%),volts (V),current (A),thrust (gf)\n50,15.9,8.4,420\n100,15.2,27,890\n",
         .answer = "  propeller: pr-t\n  air: {temperature: 20 C}\n  columns: {throttle: \"%\", "
                   "volts: V, current: A, thrust: gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, "
                   "27, 890]]\nair: at sea level, since the list says no altitude, its density as "
                   "known to 2 %; otherwise --set altitude=120m\n",
         .set = {"motor=mo-w", "propeller=pr-t", "air_temperature=20C"}},
        {.text =
             "throttle (%),volts (V),current (A),thrust (gf)\n50,15.9,8.4,420\n100,15.2,27,890\n",
         .answer = "l.csv:2: --set altitude: 120 has no unit; right would be like 120 mm, or the "
                   "unit in the column's name, like (mm) (and 1 more row; --dry-run lists them)",
         .set = {"motor=mo-w", "propeller=pr-t", "altitude=120"}},
        {.text = "throttle (%),volts (V),current (A),thrust "
                 "(gf),note\n50,15.9,8.4,420,x\n100,15.2,27,890,y\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: "
                   "gf}\n  rows: [[50, 15.9, 8.4, 420], [100, 15.2, 27, 890]]\nair: the standard "
                   "atmosphere's at sea level, since the list says nothing, its density as known "
                   "to 2 %; otherwise --set altitude=120m, --set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "thrust (gf),current (A),volts (V)\n420,8.4,15.9\n890,27,15.2\n",
         .answer = "  propeller: pr-t\n  columns: {volts: V, current: A, thrust: gf}\n  rows: "
                   "[[15.9, 8.4, 420], [15.2, 27, 890]]\nair: the standard atmosphere's at sea "
                   "level, since the list says nothing, its density as known to 2 %; otherwise "
                   "--set altitude=120m, --set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
        {.text = "throttle (%),volts (V),current (A),thrust "
                 "(gf)\n50,15,5,400\n51,15,6,401\n52,15,7,402\n53,15,8,403\n54,15,9,404\n55,15,10,"
                 "405\n56,15,11,406\n57,15,12,407\n",
         .answer = "  propeller: pr-t\n  columns: {throttle: \"%\", volts: V, current: A, thrust: "
                   "gf}\n  rows:\n  - [50, 15, 5, 400]\n  - [51, 15, 6, 401]\n  - [52, 15, 7, "
                   "402]\n  - [53, 15, 8, 403]\n  - [54, 15, 9, 404]\n  - [55, 15, 10, 405]\n  - "
                   "[56, 15, 11, 406]\n  - [57, 15, 12, 407]\nair: the standard atmosphere's at "
                   "sea level, since the list says nothing, its density as known to 2 %; otherwise "
                   "--set altitude=120m, --set air_temperature=20C\n",
         .set = {"motor=mo-w", "propeller=pr-t"}},
    };
    EXPECT(cases);
}

static void a_log_is_reduced_or_refused_in_its_row(void **state)
{
    static const list_case cases[] = {
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer =
             "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, volts: "
             "V, current: A}\n    rows:\nflown: as the brief says; nothing but hovering: --set "
             "flown=hover\ncharge: only the log's own: --set put_back=905mAh, what the charger put "
             "back, tells how far its current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current (A)\n0,15.5,9\n",
         .answer = "l.csv:1: a log of 1 row with volts and current; right would be two or more",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current (A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n",
         .answer = "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, "
                   "volts: V, current: A}\n    rows: [[0, 1, 15.5, 9.5], [1, 1, 15.5, "
                   "10.5]]\nflown: as the brief says; nothing but hovering: --set "
                   "flown=hover\ncharge: only the log's own: --set put_back=905mAh, what the "
                   "charger put back, tells how far its current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current (A)\n",
         .answer = "l.csv:1: column names and nothing below them; right would be a row an entry",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:2:1: 'time': '0' without a unit; right would be 'time (s)' over them, of "
                   "s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts,current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:1:2: 'volts': no unit over this column; right would be like 'volts (V)', "
                   "of V, mV, or --map 2=-",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts "
                 "(V),current\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,"
                 "15.5,9\n7,15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:1:3: 'current': no unit over this column; right would be like 'current "
                   "(A)', of A, mA, or --map 3=-",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text =
             "time (s),volts (V),current "
             "(A),height\n0,15.5,9,3\n1,15.5,10,3\n2,15.5,11,3\n3,15.5,9,3\n4,15.5,10,3\n5,15.5,11,"
             "3\n6,15.5,9,3\n7,15.5,10,3\n8,15.5,11,3\n9,15.5,9,3\n10,15.5,10,3\n11,15.5,11,3\n",
         .answer = "l.csv:1:4: 'height': no unit over this column; right would be like 'height "
                   "(m)', of mm, cm, m, in, ft, or --map 4=-",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts "
                 "(V)\n0,15.5\n1,15.5\n2,15.5\n3,15.5\n4,15.5\n5,15.5\n6,15.5\n7,15.5\n8,15.5\n9,"
                 "15.5\n10,15.5\n11,15.5\n",
         .answer = "l.csv:1: no column of current; right would be time, volts and current, each "
                   "with its unit, or --map COLUMN=WHAT",
         .set = {"craft=weir-5", "date=2026-05-03"},
         .as = PARE_LIST_LOG},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv: the log of which craft? right would be --set craft=NAME"},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv: the log of which day? right would be --set date=2026-04-13",
         .set = {"craft=weir-5"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\nx,15,9\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:10:1: 'time (s)': 'x' is no number; right would be one, or nothing where "
                   "the logger had none",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,lots,9\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:10:2: 'volts (V)': 'lots' is no number; right would be one, or nothing "
                   "where the logger had none",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,,9\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, "
                   "volts: V, current: A}\n    rows:\nflown: as the brief says; nothing but "
                   "hovering: --set flown=hover\ncharge: only the log's own: --set "
                   "put_back=905mAh, what the charger put back, tells how far its current sensor "
                   "is off\nrows: 1 without volts or current left out, the first in line 10\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15 V,9 A\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer =
             "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, volts: "
             "V, current: A}\n    rows:\nflown: as the brief says; nothing but hovering: --set "
             "flown=hover\ncharge: only the log's own: --set put_back=905mAh, what the charger put "
             "back, tells how far its current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15 mV,9\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer =
             "l.csv:10:2: 'volts (V)': '15 mV' in another unit than its column; right would be V",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,\"1,300\",9\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:10:2: 'volts (V)': 1,300 V is no such reading; right would be 0 to 120 V",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,1500,9\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:10:2: 'volts (V)': 1500 V is no such reading; right would be 0 to 120 V",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15,-9000\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer =
             "l.csv:10:3: 'current (A)': -9000 A is no such reading; right would be -20 to 2000 A",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n3,15,9\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:10:1: 'time (s)': time runs back by 4 s from line 9; right would be one "
                   "log, in the order in which it was written",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n7,15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, "
                   "volts: V, current: A}\n    rows:\nflown: as the brief says; nothing but "
                   "hovering: --set flown=hover\ncharge: only the log's own: --set "
                   "put_back=905mAh, what the charger put back, tells how far its current sensor "
                   "is off\ntimes: 1 row at the time of the one before: the last counts\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n7,15.5,10\n7,15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, "
                   "volts: V, current: A}\n    rows:\nflown: as the brief says; nothing but "
                   "hovering: --set flown=hover\ncharge: only the log's own: --set "
                   "put_back=905mAh, what the charger put back, tells how far its current sensor "
                   "is off\ntimes: 2 rows at the time of the one before: the last counts\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n99999,15,9\n",
         .answer = "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, "
                   "volts: V, current: A}\n    rows:\nflown: as the brief says; nothing but "
                   "hovering: --set flown=hover\ncharge: only the log's own: --set "
                   "put_back=905mAh, what the charger put back, tells how far its current sensor "
                   "is off\ngaps: 1 without rows, 1e+05 s together, the longest 1e+05 s after line "
                   "13: what was drawn there is guessed, and doubted\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n60,15.5,9\n61,15.5,9\n62,15.5,9\n63,15.5,9\n64,15.5,9\n65,15.5,9\n",
         .answer =
             "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, volts: "
             "V, current: A}\n    rows:\nflown: as the brief says; nothing but hovering: --set "
             "flown=hover\ncharge: only the log's own: --set put_back=905mAh, what the charger put "
             "back, tells how far its current sensor is off\ngaps: 1 without rows, 53 s together, "
             "the longest 53 s after line 9: what was drawn there is guessed, and doubted\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n12,15\n",
         .answer = "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, "
                   "volts: V, current: A}\n    rows:\nflown: as the brief says; nothing but "
                   "hovering: --set flown=hover\ncharge: only the log's own: --set "
                   "put_back=905mAh, what the charger put back, tells how far its current sensor "
                   "is off\nend: the last row, line 14, is cut off and left out\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:03:06,15.5,9\n14:03:07,15.5,9\n",
         .answer =
             "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, volts: "
             "V, current: A}\n    rows:\nflown: as the brief says; nothing but hovering: --set "
             "flown=hover\ncharge: only the log's own: --set put_back=905mAh, what the charger put "
             "back, tells how far its current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n23:59:54,15.5,9\n23:59:55,15.5,9\n23:59:56,15.5,9\n23:59:57,15.5,9\n23:59:"
                 "58,15.5,9\n23:59:59,15.5,9\n00:00:00,15.5,9\n00:00:01,15.5,9\n00:00:02,15.5,"
                 "9\n00:00:03,15.5,9\n",
         .answer =
             "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, volts: "
             "V, current: A}\n    rows:\nflown: as the brief says; nothing but hovering: --set "
             "flown=hover\ncharge: only the log's own: --set put_back=905mAh, what the charger put "
             "back, tells how far its current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n24:03:21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '24:03:21' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n-1:03:21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '-1:03:21' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:60:21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:60:21' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:-3:21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:-3:21' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:03,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:03' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:x:21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:x:21' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:03:x,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:03:x' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:03:21x,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:03:21x' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:03:61,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:03:61' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14:03:-1,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14:03:-1' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\nx:03:21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': 'x:03:21' is no number; right would be one, or nothing "
                   "where the logger had none",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n:03:21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': ':03:21' is no number; right would be one, or nothing where "
                   "the logger had none",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time,volts (V),current "
                 "(A)\n14:03:00,15.5,9\n14:03:01,15.5,9\n14:03:02,15.5,9\n14:03:03,15.5,9\n14:03:"
                 "04,15.5,9\n14:03:05,15.5,9\n14-03-21,15.5,9\n",
         .answer = "l.csv:8:1: 'time': '14-03-21' without a unit; right would be 'time (s)' over "
                   "them, of s, ms, us, or times of day like 14:03:21.5",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current (A),throttle (%),height "
                 "(m)\n0,15.5,9,30,0\n1,15.5,10,31,1\n2,15.5,11,32,2\n3,15.5,9,33,3\n4,15.5,10,34,"
                 "4\n5,15.5,11,35,5\n6,15.5,9,,\n7,15.5,10,,\n8,15.5,11,,\n9,15.5,9,,\n10,15.5,10,,"
                 "\n11,15.5,11,,\n",
         .answer = "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, "
                   "volts: V, current: A, throttle: \"%\", height: m}\n    rows:\nflown: as the "
                   "brief says; nothing but hovering: --set flown=hover\ncharge: only the log's "
                   "own: --set put_back=905mAh, what the charger put back, tells how far its "
                   "current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current (A),throttle "
                 "(%)\n0,15.5,9,130\n1,15.5,10,130\n2,15.5,11,130\n3,15.5,9,130\n4,15.5,10,130\n5,"
                 "15.5,11,130\n6,15.5,9,130\n7,15.5,10,130\n8,15.5,11,130\n9,15.5,9,130\n10,15.5,"
                 "10,130\n11,15.5,11,130\n",
         .answer =
             "l.csv:2:4: 'throttle (%)': 130 % is no such reading; right would be -10 to 110 %",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (mV),current "
                 "(mA)\n0,15500,9000\n1,15500,9000\n2,15500,9000\n3,15500,9000\n4,15500,9000\n5,"
                 "15500,9000\n6,15500,9000\n7,15500,9000\n",
         .answer =
             "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, volts: "
             "V, current: A}\n    rows:\nflown: as the brief says; nothing but hovering: --set "
             "flown=hover\ncharge: only the log's own: --set put_back=905mAh, what the charger put "
             "back, tells how far its current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current (A),temperature (C),altitude "
                 "(m)\n0,15.5,9,40,120\n1,15.5,10,40,120\n2,15.5,11,40,120\n3,15.5,9,40,120\n4,15."
                 "5,10,40,120\n5,15.5,11,40,120\n6,15.5,9,40,120\n7,15.5,10,40,120\n8,15.5,11,40,"
                 "120\n9,15.5,9,40,120\n10,15.5,10,40,120\n11,15.5,11,40,120\n",
         .answer =
             "  date: 2026-05-03\n  log: l.csv\n  logged:\n    columns: {time: s, lasts: s, volts: "
             "V, current: A, height: m}\n    rows:\nflown: as the brief says; nothing but "
             "hovering: --set flown=hover\ncharge: only the log's own: --set put_back=905mAh, what "
             "the charger put back, tells how far its current sensor is off\n",
         .set = {"craft=weir-5", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "  date: 2026-05-03\n  put_back: 905 mAh\n  flown: hover\n  log: l.csv\n  "
                   "logged:\n    columns: {time: s, lasts: s, volts: V, current: A}\n    rows:\n",
         .set = {"craft=weir-5", "date=2026-05-03", "put_back=905mAh", "flown=hover"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:2: --set craft: no craft 'weir-9' on the bench; is it 'weir-5'?",
         .set = {"craft=weir-9", "date=2026-05-03"}},
        {.text = "time (s),volts (V),current "
                 "(A)\n0,15.5,9\n1,15.5,10\n2,15.5,11\n3,15.5,9\n4,15.5,10\n5,15.5,11\n6,15.5,9\n7,"
                 "15.5,10\n8,15.5,11\n9,15.5,9\n10,15.5,10\n11,15.5,11\n",
         .answer = "l.csv:2: --set date: date 'today' is no day; right would be like 2026-03-01",
         .set = {"craft=weir-5", "date=today"}},
    };
    EXPECT(cases);
}

#define WITH_BENCH(test) cmocka_unit_test_setup_teardown(test, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_BENCH(what_lay_on_a_scale_is_told_in_words),
        WITH_BENCH(weigh_ins_and_flights_are_read_by_column),
        WITH_BENCH(a_stand_table_needs_its_units_and_numbers),
        WITH_BENCH(a_log_is_reduced_or_refused_in_its_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
