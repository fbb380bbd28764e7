/* rooms: store craft physics base */
/* Parts lists of a few cells: the lines of the bench that each becomes, or the line that refuses it, word for
 * word. What a cell means is common practice, no source; what a message has to say is where, what and what
 * would be right. */
#include "store_bench.h"

#include "store/csv_import.h"

enum { TOLD = 2 };

typedef struct list_case {
    const char *text, *answer; /* the lines that the bench has more, or the refusal */
    const char *map[TOLD], *set[TOLD];
    bool notes;
    pare_decimal decimal;
    char separator;
} list_case;

static size_t told(const char *const words[TOLD])
{
    return !words[0] ? 0 : !words[1] ? 1 : 2;
}

/* What the bench, which was empty, holds below its head. */
static void say_bench(pare_store *store, pare_text *answer)
{
    char *all = store_text(store);
    const char *body = strstr(all, "parts:\n");
    if (body)
        pare_text_add(answer, body + strlen("parts:\n"));
    free(all);
}

static void say(pare_store *store, const list_case *one, pare_text *answer)
{
    const pare_list_import how = {.bytes = one->text,
                                  .length = strlen(one->text),
                                  .name = "l.csv",
                                  .separator = one->separator,
                                  .decimal = one->decimal,
                                  .maps = told(one->map),
                                  .map = one->map,
                                  .sets = told(one->set),
                                  .set = one->set,
                                  .notes = one->notes};
    pare_list_summary summary;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    const long long before = store_newest(store);
    if (pare_store_import_list(store, &how, arena, &summary, &err) != PARE_OK)
        pare_text_add(answer, err.text);
    else
        say_bench(store, answer);
    pare_arena_close(arena);
    if (store_newest(store) != before && store_turn(store, true, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static void expect(void **state, size_t count, const list_case cases[])
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    assert_int_equal(store_take(store, "pare: 1\nmoney: EUR\n", &err), PARE_OK);
    for (size_t i = 0; i < count; i++) {
        pare_text text = {0};
        say(store, &cases[i], &text);
        const char *answer = text.bytes ? text.bytes : "";

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("case %zu, of\n%s\nsays\n%s\nand not\n%s", i, cases[i].text, answer,
                     cases[i].answer);
        pare_text_free(&text);
    }
}
#define EXPECT(cases) expect(state, sizeof(cases) / sizeof *(cases), cases)

static void what_stands_over_a_column_is_taken_apart(void **state)
{
    static const list_case cases[] = {
        {.text = "id,kind,mass weighed\na,strap,6 g\n",
         .answer = "- {id: a, kind: strap, mass: {value: 6 g, known: weighed}}\n"},
        {.text = "id,kind,weight stated (g)\na,strap,6\n",
         .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass guessed\na,strap,6 g\n",
         .answer = "- {id: a, kind: strap, mass: {value: 6 g, known: estimated}}\n"},
        {.text = "id,kind,weighed colour\na,strap,red\n",
         .answer = "- {id: a, kind: strap, note: \"weighed colour: red\"}\n",
         .notes = true},
        {.text = "id,kind,my mass (g)\na,strap,6\n",
         .answer = "- {id: a, kind: strap, mass: {value: 6 g, known: weighed}}\n"},
        {.text = "id,kind,weighed\na,strap,6 g\n",
         .answer = "- {id: a, kind: strap, mass: {value: 6 g, known: weighed}}\n"},
        {.text = "id,kind,weighedmass (g)\na,strap,6\n",
         .answer = "- {id: a, kind: strap, note: \"weighedmass (g): 6\"}\n",
         .notes = true},
        {.text = "id,kind,unweighed\na,strap,6\n",
         .answer = "- {id: a, kind: strap, note: \"unweighed: 6\"}\n",
         .notes = true},
        {.text = "id,kind,mass ()\na,strap,6 g\n", .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass (\na,strap,6 g\n", .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass (of all the straps in the box)\na,strap,6 g\n",
         .answer = "- {id: a, kind: strap}\n"},
        {.text = "id,kind,mass:g\na,strap,6\n", .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,\"mass,g\"\na,strap,6\n",
         .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass/g\na,strap,6\n", .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass_g\na,strap,6\n", .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind, g\na,strap,6\n", .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass \na,strap,6 g\n", .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass_averyveryverylongunitindeed\na,strap,6\n",
         .answer = "- {id: a, kind: strap, note: \"mass_averyveryverylongunitindeed: 6\"}\n",
         .notes = true},
        {.text = "id,kind,a title that is long that is long that is long that is long that is long "
                 "that is long that is long that is long that is long \na,strap,x\n",
         .answer =
             "- id: a\n  kind: strap\n  note: \"a title that is long that is long that is long "
             "that is long that is long that is long that is long that is long that is long: x\"\n",
         .notes = true},
        {.text = "id,kind,maker (of straps)\na,strap,Quill\n",
         .answer = "- {id: a, kind: strap, maker: Quill}\n"},
        {.text = "id,kind,maker %\na,strap,Quill\n",
         .answer = "- {id: a, kind: strap, maker: Quill}\n"},
        {.text = "id,kind,price (EUR)\na,strap,4.50\n",
         .answer = "- {id: a, kind: strap, price: 4.50}\n"},
        {.text = "id,kind,price_EUR\na,strap,4.50\n",
         .answer = "- {id: a, kind: strap, price: 4.50}\n"},
        {.text = "id,kind,price [each]\na,strap,4.50\n",
         .answer = "- {id: a, kind: strap, price: 4.50}\n"},
        {.text = "id,kind,mass (weighed)\na,strap,6 g\n",
         .answer = "- {id: a, kind: strap, mass: {value: 6 g, known: weighed}}\n"},
        {.text = "id,kind,mass (each)\na,strap,6 g\n",
         .answer = "- {id: a, kind: strap, mass: 6 g}\n"},
        {.text = "id,kind,mass (parsecs)\na,strap,6\n",
         .answer = "l.csv:2:3: 'mass (parsecs)': 6 has no unit; right would be like 6 g, or the "
                   "unit in the column's name, like (g) (--keep-good takes the other rows)"},
        {.text = "id,kind,efficiency (%)\na,regulator,88\n",
         .answer = "- {id: a, kind: regulator, spec: {efficiency: 88 %}}\n"},
        {.text = "id,kind,note (EUR)\na,strap,dear\n",
         .answer = "- {id: a, kind: strap, note: dear}\n"},
        {.text = "id,kind,kv (rpm/V)\na,strap,1800\n",
         .answer = "- {id: a, kind: strap, note: \"kv (rpm/V): 1800\"}\n",
         .notes = true},
        {.text = "id,kind,mass (g)\n,,\n",
         .answer = "l.csv:1: column names and nothing below them; right would be a row an entry"},
        {.text = "id,,mass (g)\na,strap,6\n",
         .answer = "l.csv:2: no kind, and nothing that tells it; right would be one like motor, or "
                   "--kind for the whole list (--keep-good takes the other rows)"},
        {.text = ",,\n1,2,3\n",
         .answer = "l.csv:2: none of its 3 columns is known (the first is '1'); right would be "
                   "names like: name, kind, mass (g), or --map COLUMN=WHAT"},
        {.text = "colour,hue\nred,blue\n",
         .answer = "l.csv:1: none of its 2 columns is known (the first is 'colour'); right would "
                   "be names like: name, kind, mass (g), or --map COLUMN=WHAT"},
        {.text = "wieght,hue\n3,blue\n",
         .answer =
             "l.csv:1: none of its 2 columns is known (the first is 'wieght', is it 'weight'?); "
             "right would be names like: name, kind, mass (g), or --map COLUMN=WHAT"},
    };
    EXPECT(cases);
}

static void what_the_person_says_of_columns_goes_first(void **state)
{
    static const list_case cases[] = {
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 5 g}\n",
         .map = {"w=mass (g)"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 6 g}\n",
         .map = {"w=-"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap}\n",
         .map = {"mass (g)=-"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 5 g}\n",
         .map = {"w=part.mass (g)"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 5 g}\n",
         .map = {"w=mass(g)"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: --map to mass in 'V'; right would be g, kg, oz, lb",
         .map = {"w=mass (V)"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: --map to maker in 'g'; right would be a bare number",
         .map = {"w=maker (g)"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 5 g}\n",
         .map = {"w=mass g"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: --map to 'wieght'; right would be one of id, name, kind, maker, mass, "
                   "mass_u, known, price, sold_in, shipping, seller, date, owned, sought, size, "
                   "mount, stator, kv, resistance, no_load, no_load_at, volts, continuous, burst, "
                   "burst_for, diameter, pitch, blades, chord, slow, line, cells, capacity, "
                   "label_rating, chemistry, power, out, out_current, efficiency, capacitance, ",
         .map = {"w=wieght"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: --map to 'zebra'; right would be one of id, name, kind, maker, mass, "
                   "mass_u, known, price, sold_in, shipping, seller, date, owned, sought, size, "
                   "mount, stator, kv, resistance, no_load, no_load_at, volts, continuous, burst, "
                   "burst_for, diameter, pitch, blades, chord, slow, line, cells, capacity, "
                   "label_rating, chemistry, power, out, out_current, efficiency, capacitance, ",
         .map = {"w=zebra"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, maker: 5, mass: 6 g}\n",
         .map = {"W=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, maker: 5, mass: 6 g}\n",
         .map = {"3=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: no column '9'; is it 'w'?",
         .map = {"9=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: no column '0'; is it 'w'?",
         .map = {"0=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: no column 'wz'; is it 'w'?",
         .map = {"wz=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer =
             "l.csv: no column 'x y'; right would be one of its names, or a number from 1 to 4",
         .map = {"x y=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "--map '=mass'; right would be COLUMN=WHAT, like --map 'Wt.=mass (g)'",
         .map = {"=mass"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "--map 'w='; right would be COLUMN=WHAT, like --map 'Wt.=mass (g)'",
         .map = {"w="}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "--map 'w'; right would be COLUMN=WHAT, like --map 'Wt.=mass (g)'",
         .map = {"w"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer =
             "l.csv: no column '3x'; right would be one of its names, or a number from 1 to 4",
         .map = {"3x=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv: no column ' '; is it 'w'?",
         .map = {" =maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "--map 'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx'; right "
                   "would be COLUMN=WHAT, like --map 'Wt.=mass (g)'",
         .map = {"xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx"
                 "xxxxxxxxxxxxxxxxxxx=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 5 g}\n",
         .map = {"w=mass  (g)"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "l.csv:2:3: 'w': no kind of part is called '5'; right would be one like motor, "
                   "esc 4in1, pack, printed, other (--keep-good takes the other rows)",
         .map = {"w=kind"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 6 g}\n",
         .map = {"w=name"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: 5, kind: strap, mass: 6 g}\n",
         .map = {"w=id"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, maker: 6, mass: 5 g}\n",
         .map = {"w=mass (g)", "4=maker"}},
        {.text = "id,kind,w,mass (g)\na,strap,5,6\n",
         .answer = "- {id: a, kind: strap, mass: 6 g}\n",
         .map = {"w=name", "4=mass (g)"}},
        {.text = "thing,name,other name,kind\na,b,c,strap\n",
         .answer = "- {id: c, kind: strap}\n",
         .map = {"3=name"}},
        {.text = "Name,name,kind\na,b,strap\n", .answer = "- {id: b, kind: strap}\n"},
        {.text = "product,name,kind\na,b,strap\n", .answer = "- {id: b, kind: strap}\n"},
        {.text = "model,title,kind\na,b,strap\n", .answer = "- {id: a, kind: strap}\n"},
        {.text = "name,title,kind\na,b,strap\n", .answer = "- {id: a, kind: strap}\n"},
        {.text = "id,mass (g)\na,6\n",
         .answer = "l.csv:2: part 'a': stator is missing: a part of kind motor needs it (3 .. 150 "
                   "mm) (--keep-good takes the other rows)",
         .set = {"kind=motors"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "no kind of part is called 'zebra'; right would be one like motor, esc 4in1, "
                   "pack, printed",
         .set = {"kind=zebra"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "no kind of part is called 'moter'; is it 'motor'?",
         .set = {"kind=moter"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "--set ''; right would be WHAT=TEXT, like --set kind=motor",
         .set = {"kind=strap", ""}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "--set '=x'; right would be WHAT=TEXT, like --set kind=motor",
         .set = {"kind=strap", "=x"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "--set 'kind='; right would be WHAT=TEXT, like --set kind=motor",
         .set = {"kind="}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "--set 'kind'; right would be WHAT=TEXT, like --set kind=motor",
         .set = {"kind"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "- {id: a, kind: strap, maker: Quill, mass: 6 g}\n",
         .set = {"kind=strap", "maker=Quill"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "- {id: a, kind: strap, mass: 7 g}\n",
         .set = {"kind=strap", "mass=7 g"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "l.csv: --set 'weather'; right would be one of id, name, kind, maker, mass, "
                   "mass_u, known, price, sold_in, shipping, seller, date, owned, sought, size, "
                   "mount, stator, kv, resistance, no_load, no_load_at, volts, continuous, burst, "
                   "burst_for, diameter, pitch, blades, chord, slow, line, cells, capacity, "
                   "label_rating, chemistry, power, out, out_current, efficiency, capacitance, ",
         .set = {"kind=strap", "weather=fine"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "l.csv: --set 'mss'; is it 'mass'?",
         .set = {"kind=strap", "mss=3 g"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "--set 'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx'; right "
                   "would be WHAT=TEXT, like --set kind=motor",
         .set = {"kind=strap", "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx"
                               "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx=1"}},
        {.text = "id,mass (g)\na,6\n",
         .answer = "- {id: a, kind: strap, mass: 6 g, owned: 3}\n",
         .set = {"kind=strap", "owned=3"}},
        {.text = "id,kind\na,strap\n", .answer = "- {id: a, kind: tie}\n", .set = {"kind=tie"}},
        {.text = "name,price\na,3\n",
         .answer = "- {id: a, kind: tie, mass: 4 g, price: 3}\n",
         .set = {"kind=tie", "mass=4 g"}},
        {.text = "id,kind,mass (g),weight (g)\na,strap,6,6\n",
         .answer = "l.csv:1: columns 3 'mass (g)' and 4 'weight (g)' both say mass; right would be "
                   "one: leave the other out by --map 4=-"},
        {.text = "id,kind,note,remarks\na,strap,x,y\n",
         .answer = "- {id: a, kind: strap, note: x; y}\n"},
        {.text = "Straps,Motors,g\nlong,x,6\n", .answer = "- {id: long, kind: strap, mass: 6 g}\n"},
        {.text = "Straps,id,g\nlong,a,6\n",
         .answer = "l.csv:2: no kind, and nothing that tells it; right would be one like motor, or "
                   "--kind for the whole list (--keep-good takes the other rows)",
         .map = {"Straps=-"}},
        {.text = "Straps,id,g\nlong,a,6\n",
         .answer = "l.csv:2: no kind, and nothing that tells it; right would be one like motor, or "
                   "--kind for the whole list (--keep-good takes the other rows)",
         .map = {"Straps=maker"}},
    };
    EXPECT(cases);
}

static void a_kind_is_told_by_a_column_or_by_what_a_part_says(void **state)
{
    static const list_case cases[] = {
        {.text = "id,item,mass (g)\na,strap,3\nb,tie,4\n",
         .answer = "- {id: a, kind: strap, mass: 3 g}\n- {id: b, kind: tie, mass: 4 g}\n"},
        {.text = "id,what,mass (g)\na,straps,3\nb,red one,4\nc,ties,2\n",
         .answer = "l.csv:3:2: 'what': no kind of part is called 'red one'; right would be one "
                   "like motor, esc 4in1, pack, printed, other (--keep-good takes the other rows)"},
        {.text = "id,group,mass (g)\na,first,3\nb,second,4\n",
         .answer = "l.csv:2: no kind, and nothing that tells it; right would be one like motor, or "
                   "--kind for the whole list (and 1 more row; --dry-run lists them, --keep-good "
                   "takes the others)"},
        {.text = "id,sort of,mass (g)\na,strap,3\nb,tie,4\nc,pad,5\n",
         .answer = "- {id: a, kind: strap, mass: 3 g}\n- {id: b, kind: tie, mass: 4 g}\n- {id: c, "
                   "kind: pad, mass: 5 g}\n"},
        {.text = "id,sort of,mass (g)\na,strap,3\nb,wood,4\nc,glue,5\n",
         .answer = "l.csv:2: no kind, and nothing that tells it; right would be one like motor, or "
                   "--kind for the whole list (and 2 more rows; --dry-run lists them, --keep-good "
                   "takes the others)",
         .notes = true},
        {.text = "id,a,b,mass (g)\nx,strap,tie,1\ny,tie,strap,2\n",
         .answer = "- {id: x, kind: tie, maker: strap, mass: 1 g}\n- {id: y, kind: strap, maker: "
                   "tie, mass: 2 g}\n",
         .map = {"a=maker"}},
        {.text = "id,wheelbase,mass (g)\na,225 mm,90\n",
         .answer = "- {id: a, kind: frame, mass: 90 g, spec: {wheelbase: 225 mm}}\n"},
        {.text = "id,capacitance (uF),mass (g)\na,470,3\n",
         .answer = "l.csv:2: part 'a': volts is missing: a part of kind capacitor needs it (1 .. "
                   "500 V) (--keep-good takes the other rows)"},
        {.text = "id,kv,capacity (mAh),cells,mass (g),chemistry\na,,1300,4,150,hv\nb,3,,,2,\n",
         .answer = "l.csv:3:2: 'kv': kv of 3; right would be 20 rpm/V to 40000 rpm/V (--keep-good "
                   "takes the other rows)"},
        {.text = "id,mass (g)\na,3\n",
         .answer = "l.csv:2: no kind, and nothing that tells it; right would be one like motor, or "
                   "--kind for the whole list (--keep-good takes the other rows)"},
        {.text = "id,blades,diameter (in),pitch (in)\na,3,5,4\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 3}}\n"},
    };
    EXPECT(cases);
}

static void an_id_is_made_of_what_there_is(void **state)
{
    static const list_case cases[] = {
        {.text =
             "kind,stator,kv,maker,mass (g)\nmotor,2207,1750,Quill,31\nmotor,2207,1750,Quill,31\n",
         .answer =
             "- id: motor-quill-2207-1750\n  kind: motor\n  maker: Quill\n  mass: 31 g\n  spec: "
             "{stator: 22 mm x 7 mm, kv: 1750}\n- id: motor-quill-2207-1750-2\n  kind: motor\n  "
             "maker: Quill\n  mass: 31 g\n  spec: {stator: 22 mm x 7 mm, kv: 1750}\n"},
        {.text = "kind,cells,capacity (mAh),continuous,mass (g)\npack,4,1300,,150\nesc,,,40 A,9\n",
         .answer =
             "- {id: esc-one-40-a, kind: esc_one, mass: 9 g, spec: {continuous: 40 A}}\n- {id: "
             "pack-4-1300, kind: pack, mass: 150 g, spec: {cells: 4, capacity: 1300 mAh}}\n"},
        {.text = "kind,size,diameter (in),pitch (in)\nprop,,5.1,4.3\n",
         .answer = "l.csv:2: part 'propeller-5-1-4-3': blades is missing: a part of kind propeller "
                   "needs it (2 .. 8) (--keep-good takes the other rows)"},
        {.text = "id ,kind,mass (g)\n\"a  \",strap,3\n",
         .answer = "- {id: a, kind: strap, mass: 3 g}\n"},
        {.text = "id,name,kind,mass (g)\nlong-id,its name,strap,3\nb,b,strap,3\n",
         .answer = "- {id: b, kind: strap, mass: 3 g}\n- {id: long-id, kind: strap, mass: 3 g, "
                   "note: \"name: its name\"}\n",
         .notes = true},
        {.text = "kind,maker,kv,stator,continuous\nmotor,verylongmakername verylongmakername "
                 "verylongmakername verylongmakername ,1750,2207,30 A\n",
         .answer = "- id: motor-verylongmakername-verylongmakername-v\n  kind: motor\n  maker: "
                   "verylongmakername verylongmakername verylongmakername verylongmakername\n  "
                   "spec: {stator: 22 mm x 7 mm, kv: 1750, continuous: 30 A}\n"},
        {.text = "name,mass (g)\na,3\n",
         .answer = "- {id: b, kind: strap, mass: 3 g}\n",
         .set = {"kind=strap", "id=b"}},
        {.text = "mass (g)\n3\n",
         .answer = "- {id: one, kind: strap, mass: 3 g}\n",
         .set = {"kind=strap", "name=one"}},
        {.text = "kind,mass (g)\nstrap,3\n", .answer = "- {id: strap, kind: strap, mass: 3 g}\n"},
    };
    EXPECT(cases);
}

static void cells_of_a_part_are_read_or_refused_by_their_name(void **state)
{
    static const list_case cases[] = {
        {.text = "id,kind,known,mass (g)\na,strap,scale,3\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, known: weighed}}\n"},
        {.text = "id,kind,known,mass (g)\na,strap,yes,3\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, known: weighed}}\n"},
        {.text = "id,kind,known,mass (g)\na,strap,maker,3\n",
         .answer = "- {id: a, kind: strap, mass: 3 g}\n"},
        {.text = "id,kind,known,mass (g)\na,strap,guess,3\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, known: estimated}}\n"},
        {.text = "id,kind,known,mass (g)\na,strap,estimate,3\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, known: estimated}}\n"},
        {.text = "id,kind,known,mass (g)\na,strap,computed,3\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, known: computed}}\n"},
        {.text = "id,kind,known,mass (g)\na,strap,nonsense,3\n",
         .answer = "l.csv:2:3: 'known': 'nonsense' is no way of knowing; right would be weighed, "
                   "stated, computed or estimated (--keep-good takes the other rows)"},
        {.text = "id,kind,mass_u,mass (g)\na,strap,0.2 g,3\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, u: 0.2 g, known: stated}}\n"},
        {.text = "id,kind,mass_u,mass (g)\na,strap,0.2,3\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, u: 0.2 g, known: stated}}\n"},
        {.text = "id,kind,mass_u,mass (g)\na,strap,1,300,3\n",
         .answer =
             "l.csv:2: 5 fields, but there are 4 column names; right would be as many, parted by "
             "commas (a text with commas in quotes) (--keep-good takes the other rows)"},
        {.text = "id,kind,mass_u,mass (g)\na,strap,x,3\n",
         .answer = "l.csv:2:4: 'mass (g)': uncertainty (u) of mass: x does not start with one "
                   "plain number: a mass needs g, kg, oz or lb (--keep-good takes the other rows)"},
        {.text = "id,kind,mass_u,known\na,strap,0.2 g,scale\n",
         .answer = "- {id: a, kind: strap}\n"},
        {.text = "id,kind,mass\na,strap,3 g +/- 0.1\n",
         .answer = "l.csv:2:3: 'mass': uncertainty (u) of mass: 0.1 has no unit: a mass needs g, "
                   "kg, oz or lb (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,3+-0.1 g\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, u: 0.1 g, known: stated}}\n"},
        {.text = "id,kind,mass\na,strap,3 \xC2\xB1 0.2g\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, u: 0.2 g, known: stated}}\n"},
        {.text = "id,kind,mass\na,strap,\xC2\xB1 3\n",
         .answer = "l.csv:2:3: 'mass': mass: ?? 3 does not start with one plain number: a mass "
                   "needs g, kg, oz or lb (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,3 g +/- lots\n",
         .answer = "l.csv:2:3: 'mass': uncertainty (u) of mass: lots does not start with one plain "
                   "number: a mass needs g, kg, oz or lb (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,ca. 3 g\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, known: estimated}}\n"},
        {.text = "id,kind,mass\na,strap,3 g ?\n",
         .answer = "- {id: a, kind: strap, mass: {value: 3 g, known: estimated}}\n"},
        {.text = "id,kind,mass\na,strap,3 ??\n",
         .answer = "l.csv:2:3: 'mass': 3 has no unit; right would be like 3 g, or the unit in the "
                   "column's name, like (g) (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,\"1,300 g\"\n",
         .answer =
             "l.csv:2:3: 'mass': 1,300 g may be 1300 or 1.300; right would be either of these, or "
             "--decimal comma or --decimal point (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,\"1,300\"\n",
         .answer = "l.csv:2:3: 'mass': 1,300 may be 1300 or 1.300; right would be either of these, "
                   "or --decimal comma or --decimal point (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,3\n",
         .answer = "l.csv:2:3: 'mass': 3 has no unit; right would be like 3 g, or the unit in the "
                   "column's name, like (g) (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,3 gr\n", .answer = "- {id: a, kind: strap, mass: 3 g}\n"},
        {.text = "id,kind,mass\na,strap,1e1 g\n",
         .answer = "- {id: a, kind: strap, mass: 1e1 g}\n"},
        {.text = "id,kind,mass\na,strap,1e+1 g\n",
         .answer = "- {id: a, kind: strap, mass: 1e+1 g}\n"},
        {.text = "id,kind,mass\na,strap,1e-1 kg\n",
         .answer = "- {id: a, kind: strap, mass: 1e-1 kg}\n"},
        {.text = "id,kind,mass\na,strap,1E1 g\n",
         .answer = "- {id: a, kind: strap, mass: 1e1 g}\n"},
        {.text = "id,kind,mass\na,strap,1e999999 g\n",
         .answer = "l.csv:2:3: 'mass': mass: 1e999999 is beyond what a number can hold (1e-307 to "
                   "1e308) (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,1e g\n",
         .answer = "l.csv:2:3: 'mass': mass: 1 e g is of another kind: a mass needs g, kg, oz or "
                   "lb (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,1e+ g\n",
         .answer = "l.csv:2:3: 'mass': mass: 1 e+ g has no unit that is known: a mass needs g, kg, "
                   "oz or lb (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,\xC2\xA0"
                 "3 g\xC2\xA0\n",
         .answer = "- {id: a, kind: strap, mass: 3 g}\n"},
        {.text = "id,kind,mass\na,strap,3\xC2\xA0g\n",
         .answer = "- {id: a, kind: strap, mass: 3 g}\n"},
        {.text = "id,kind,mass\na,strap,.5 g\n", .answer = "- {id: a, kind: strap, mass: 0.5 g}\n"},
        {.text = "id,kind,mass\na,strap,1.2.3 g\n",
         .answer = "l.csv:2:3: 'mass': mass: 1.2.3 g does not start with one plain number: a mass "
                   "needs g, kg, oz or lb (--keep-good takes the other rows)"},
        {.text = "id,kind,mass\na,strap,-\n", .answer = "- {id: a, kind: strap}\n"},
        {.text = "id,kind,mass\na,strap, \n", .answer = "- {id: a, kind: strap}\n"},
        {.text = "id,kind,mass\na,strap,3 "
                 "ggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg"
                 "ggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg"
                 "gggggggggggggggggggggggggggggggggggggg\n",
         .answer =
             "l.csv:2:3: 'mass': mass: 3 gggggggggggggggggggggggggggggggggggggggggggggg... has no "
             "unit that is known: a mass needs g, kg, oz or lb (--keep-good takes the other rows)"},
        {.text =
             "id,kind,mass\na,strap,"
             "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3"
             "\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
             "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3"
             "\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
             "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3"
             "\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
             "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3"
             "\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
             "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3"
             "\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
             "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3"
             "\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\n",
         .answer = "l.csv:2:3: 'mass': mass: ????????????????????????????????????????????????... "
                   "does not start with one plain number: a mass needs g, kg, oz or lb "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,slow,diameter (in),pitch (in),blades\na,prop,yes,5,4,2\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 2, "
                   "slow: true}}\n"},
        {.text = "id,kind,slow,diameter (in),pitch (in),blades\na,prop,no,5,4,2\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 2, "
                   "slow: false}}\n"},
        {.text = "id,kind,slow,diameter (in),pitch (in),blades\na,prop,perhaps,5,4,2\n",
         .answer = "l.csv:2:3: 'slow': slow is 'perhaps'; right would be true or false "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,slow,diameter (in),pitch (in),blades\na,prop,1,5,4,2\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 2, "
                   "slow: 1}}\n"},
        {.text = "id,kind,slow,diameter (in),pitch (in),blades\na,prop,2,5,4,2\n",
         .answer = "l.csv:2:3: 'slow': slow of 2; right would be 0 to 1 (--keep-good takes the "
                   "other rows)"},
        {.text = "id,kind,slow,diameter (in),pitch (in),blades\na,prop,0,5,4,2\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 2, "
                   "slow: 0}}\n"},
        {.text = "id,kind,sought\na,strap,x\n", .answer = "- {id: a, kind: strap, sought: true}\n"},
        {.text = "id,kind,sought\na,strap,yes\n",
         .answer = "- {id: a, kind: strap, sought: true}\n"},
        {.text = "id,kind,sought\na,strap,no\n",
         .answer = "- {id: a, kind: strap, sought: false}\n"},
        {.text = "id,kind,sought\na,strap,YES \n",
         .answer = "- {id: a, kind: strap, sought: true}\n"},
        {.text = "id,kind,sought\na,strap,maybe\n",
         .answer = "l.csv:2:3: 'sought': sought is 'maybe'; right would be true or false "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,hand,mass (g)\na,antenna,RHCP,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, spec: {hand: right}}\n"},
        {.text = "id,kind,hand,mass (g)\na,antenna,lhcp,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, spec: {hand: left}}\n"},
        {.text = "id,kind,hand,mass (g)\na,antenna,rh,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, spec: {hand: right}}\n"},
        {.text = "id,kind,hand,mass (g)\na,antenna,lh,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, spec: {hand: left}}\n"},
        {.text = "id,kind,hand,mass (g)\na,antenna,lin,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, spec: {hand: linear}}\n"},
        {.text = "id,kind,hand,mass (g)\na,antenna,up,3\n",
         .answer = "l.csv:2:3: 'hand': hand cannot be 'up'; right would be one of linear, left, "
                   "right (--keep-good takes the other rows)"},
        {.text = "id,kind,antenna,mass (g)\na,antenna,SMA,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, fits: {antenna: screw}}\n"},
        {.text = "id,kind,antenna,mass (g)\na,antenna,RP-SMA,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, fits: {antenna: screw}}\n"},
        {.text = "id,kind,antenna,mass (g)\na,antenna,MMCX,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, fits: {antenna: snap}}\n"},
        {.text = "id,kind,antenna,mass (g)\na,antenna,u.fl,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, fits: {antenna: snap}}\n"},
        {.text = "id,kind,antenna,mass (g)\na,antenna,ufl,3\n",
         .answer = "- {id: a, kind: antenna, mass: 3 g, fits: {antenna: snap}}\n"},
        {.text = "id,kind,antenna,mass (g)\na,antenna,zap,3\n",
         .answer = "l.csv:2:3: 'antenna': antenna cannot be 'zap'; right would be one of snap, "
                   "screw, solder (--keep-good takes the other rows)"},
        {.text = "id,kind,chemistry,cells,capacity (mAh)\na,pack,Li Po,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: lipo}}\n"},
        {.text = "id,kind,chemistry,cells,capacity (mAh)\na,pack,hv,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: lihv}}\n"},
        {.text = "id,kind,chemistry,cells,capacity (mAh)\na,pack,lipo hv,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: lihv}}\n"},
        {.text = "id,kind,chemistry,cells,capacity (mAh)\na,pack,li hv,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: lihv}}\n"},
        {.text = "id,kind,chemistry,cells,capacity (mAh)\na,pack,li ion,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: liion}}\n"},
        {.text = "id,kind,chemistry,cells,capacity (mAh)\na,pack,lion,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: liion}}\n"},
        {.text = "id,kind,chemistry,cells,capacity (mAh)\na,pack,gel,4,1300\n",
         .answer = "l.csv:2:3: 'chemistry': chemistry cannot be 'gel'; right would be one of lipo, "
                   "lihv, liion, liion-power (--keep-good takes the other rows)"},
        {.text = "id,kind,cells,capacity (mAh)\na,liion,4,1300\nb,LiHV,4,1300\nc,battery,4,1300\n",
         .answer = "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: "
                   "liion}}\n- {id: b, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: "
                   "lihv}}\n- {id: c, kind: pack, spec: {cells: 4, capacity: 1300 mAh}}\n"},
        {.text = "id,cells,capacity (mAh)\na,4,1300\n",
         .answer = "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, chemistry: lihv}}\n",
         .set = {"kind=lihv"}},
        {.text = "id,kind,price\na,strap,4 USD\n",
         .answer = "l.csv:2:3: 'price': 4 USD, but the bench has its prices in EUR; right would be "
                   "one money on a bench (--keep-good takes the other rows)"},
        {.text = "id,kind,price\na,strap,4 EUR\n", .answer = "- {id: a, kind: strap, price: 4}\n"},
        {.text = "id,kind,price\na,strap,$4\n",
         .answer = "l.csv:2:3: 'price': $4, but the bench has its prices in EUR; right would be "
                   "one money on a bench (--keep-good takes the other rows)"},
        {.text = "id,kind,price\na,strap,EUR 4\n", .answer = "- {id: a, kind: strap, price: 4}\n"},
        {.text = "id,kind,price\na,strap,\xE2\x82\xAC 4\n",
         .answer = "- {id: a, kind: strap, price: 4}\n"},
        {.text = "id,kind,price\na,strap,4 \xE2\x82\xAC\n",
         .answer = "- {id: a, kind: strap, price: 4}\n"},
        {.text = "id,kind,price\na,strap,\"4,-\"\n",
         .answer = "- {id: a, kind: strap, price: 4}\n"},
        {.text = "id,kind,price\na,strap,\"4.-\"\n",
         .answer = "- {id: a, kind: strap, price: 4}\n"},
        {.text = "id,kind,price\na,strap,4.50 a piece\n",
         .answer = "l.csv:2:3: 'price': price: 4.50 a piece has no unit that is known: a sum of "
                   "money needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,price\na,strap,cheap\n",
         .answer = "l.csv:2:3: 'price': price: cheap does not start with one plain number: a sum "
                   "of money needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,price\na,strap,\"1,300\"\n",
         .answer =
             "l.csv:2:3: 'price': 1,300 may be 1300 or 1.300; right would be either of these, or "
             "--decimal comma or --decimal point (--keep-good takes the other rows)"},
        {.text = "id,kind,price\na,strap,\xC2\xA3"
                 "4\n",
         .answer = "l.csv:2:3: 'price': \xC2\xA3"
                   "4, but the bench has its prices in EUR; right would be one money on a bench "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,price\na,strap,\xC2\xA5"
                 "4\n",
         .answer = "l.csv:2:3: 'price': \xC2\xA5"
                   "4, but the bench has its prices in EUR; right would be one money on a bench "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,shipping,price\na,strap,3 EUR,4\n",
         .answer = "- {id: a, kind: strap, price: {each: 4, shipping: 3}}\n"},
        {.text = "id,kind,shipping,price\na,strap,3,\n", .answer = "- {id: a, kind: strap}\n"},
        {.text = "id,kind,seller,date,price\na,strap,Harbour,2026-03-01,4\n",
         .answer = "- {id: a, kind: strap, price: {each: 4, seller: Harbour, date: 2026-03-01}}\n"},
        {.text = "id,kind,seller,date,price\na,strap,Harbour,,\n",
         .answer = "- {id: a, kind: strap}\n"},
        {.text = "id,kind,sold_in,price\na,strap,4 pcs,9\n",
         .answer = "- {id: a, kind: strap, price: {each: 9, sold_in: 4}}\n"},
        {.text = "id,kind,sold_in,price\na,strap,a few,9\n",
         .answer = "l.csv:2:3: 'sold_in': sold_in: a few does not start with one plain number: a "
                   "count needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,1.3.2026,4\n",
         .answer = "- {id: a, kind: strap, price: {each: 4, date: 2026-03-01}}\n"},
        {.text = "id,kind,date,price\na,strap,2026/3/1,4\n",
         .answer = "- {id: a, kind: strap, price: {each: 4, date: 2026-03-01}}\n"},
        {.text = "id,kind,date,price\na,strap,2026.3.1,4\n",
         .answer = "- {id: a, kind: strap, price: {each: 4, date: 2026-03-01}}\n"},
        {.text = "id,kind,date,price\na,strap,01.03.2026,4\n",
         .answer = "- {id: a, kind: strap, price: {each: 4, date: 2026-03-01}}\n"},
        {.text = "id,kind,date,price\na,strap,2026-03-01,4\n",
         .answer = "- {id: a, kind: strap, price: {each: 4, date: 2026-03-01}}\n"},
        {.text = "id,kind,date,price\na,strap,1/3/2026,4\n",
         .answer = "l.csv:2:3: 'date': date '1/3/2026' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,2026-3,4\n",
         .answer = "l.csv:2:3: 'date': date '2026-3' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,2026-003-1,4\n",
         .answer = "l.csv:2:3: 'date': date '2026-003-1' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,today,4\n",
         .answer = "l.csv:2:3: 'date': date 'today' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,2026-03-1x,4\n",
         .answer = "l.csv:2:3: 'date': date '2026-03-1x' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,2026-03/1,4\n",
         .answer = "l.csv:2:3: 'date': date '2026-03/1' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,2026-3-123,4\n",
         .answer = "l.csv:2:3: 'date': date '2026-3-123' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,123.3.2026,4\n",
         .answer = "l.csv:2:3: 'date': date '123.3.2026' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,2026a3a1,4\n",
         .answer = "l.csv:2:3: 'date': date '2026a3a1' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,date,price\na,strap,1.3.26,4\n",
         .answer = "l.csv:2:3: 'date': date '1.3.26' is no day; right would be like 2026-03-01 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4\n", .answer = "- {id: a, kind: strap, owned: 4}\n"},
        {.text = "id,kind,owned\na,strap,4 pcs\n", .answer = "- {id: a, kind: strap, owned: 4}\n"},
        {.text = "id,kind,owned\na,strap,x4\n", .answer = "- {id: a, kind: strap, owned: 4}\n"},
        {.text = "id,kind,owned\na,strap,X4\n", .answer = "- {id: a, kind: strap, owned: 4}\n"},
        {.text = "id,kind,owned\na,strap,4x\n", .answer = "- {id: a, kind: strap, owned: 4}\n"},
        {.text = "id,kind,owned\na,strap,4 of them\n",
         .answer = "l.csv:2:3: 'owned': owned: 4 of them has no unit that is known: a count needs "
                   "a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4-6\n",
         .answer = "l.csv:2:3: 'owned': owned: 4 .. 6 does not start with one plain number: a "
                   "count needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,four\n",
         .answer = "l.csv:2:3: 'owned': owned: four does not start with one plain number: a count "
                   "needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,1234567890\n",
         .answer = "l.csv:2:3: 'owned': owned: 1234567890 is no count: a whole number from 0 to "
                   "1000000000 (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4S\n", .answer = "- {id: a, kind: strap, owned: 4}\n"},
        {.text = "id,kind,owned\na,strap,4 - 6 pcs\n",
         .answer = "l.csv:2:3: 'owned': owned: 4 .. 6 does not start with one plain number: a "
                   "count needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4 pcs - 6 pcs\n",
         .answer = "l.csv:2:3: 'owned': owned: 4 .. 6 does not start with one plain number: a "
                   "count needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4 red - 6\n",
         .answer = "l.csv:2:3: 'owned': owned: 4 red - 6 has no unit that is known: a count needs "
                   "a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4 - 1234567890\n",
         .answer = "l.csv:2:3: 'owned': owned: 4 - 1234567890 does not start with one plain "
                   "number: a count needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4-x\n",
         .answer = "l.csv:2:3: 'owned': owned: 4-x does not start with one plain number: a count "
                   "needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,owned\na,strap,4 stk and some more\n",
         .answer = "l.csv:2:3: 'owned': owned: 4 stk and some more has no unit that is known: a "
                   "count needs a bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,cells,continuous\na,esc,3-6S,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {continuous: 40 A}, fits: {cells: 3 .. 6}}\n"},
        {.text = "id,kind,cells,continuous\na,esc,3S - 6S,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {continuous: 40 A}, fits: {cells: 3 .. 6}}\n"},
        {.text = "id,kind,cells,continuous\na,esc,4S1P,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {continuous: 40 A}, fits: {cells: 4}}\n"},
        {.text = "id,kind,cells,continuous\na,esc,4s1x,40 A\n",
         .answer = "l.csv:2:3: 'cells': cells: 4s1x has no unit that is known: a count needs a "
                   "bare number (--keep-good takes the other rows)"},
        {.text = "id,kind,cells,continuous\na,esc,3S,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {continuous: 40 A}, fits: {cells: 3}}\n"},
        {.text = "id,kind,stator,kv\na,motor,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,22x7 mm,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,22 mm x 7,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,22*7,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,22X7,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,22\xC3\x97"
                 "7,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,22/7,1750\n",
         .answer = "l.csv:2:3: 'stator': '22/7' is no such size; right would be like 2207 or 22 mm "
                   "x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,2207.5,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7.5 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,22075,1750\n",
         .answer = "l.csv:2:3: 'stator': '22075' is no such size; right would be like 2207 or 22 "
                   "mm x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,06.5x07,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 06.5 mm x 07 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,220,1750\n",
         .answer = "l.csv:2:3: 'stator': '220' is no such size; right would be like 2207 or 22 mm "
                   "x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,22 x 7 x 3,1750\n",
         .answer = "l.csv:2:3: 'stator': '22 x 7 x 3' is no such size; right would be like 2207 or "
                   "22 mm x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,22 x,1750\n",
         .answer = "l.csv:2:3: 'stator': '22 x' is no such size; right would be like 2207 or 22 mm "
                   "x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,x 7,1750\n",
         .answer = "l.csv:2:3: 'stator': 'x 7' is no such size; right would be like 2207 or 22 mm "
                   "x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,22 7,1750\n",
         .answer = "l.csv:2:3: 'stator': '22 7' is no such size; right would be like 2207 or 22 mm "
                   "x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,0805,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 8 mm x 5 mm, kv: 1750}}\n"},
        {.text = "id,kind,stator,kv\na,motor,2207 mm,1750\n",
         .answer = "l.csv:2:3: 'stator': '2207 mm' is no such size; right would be like 2207 or 22 "
                   "mm x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,22 x 7 averyveryverylongunit,1750\n",
         .answer = "l.csv:2:3: 'stator': '22 x 7 averyveryverylongunit' is no such size; right "
                   "would be like 2207 or 22 mm x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,\"1,300 x 7\",1750\n",
         .answer = "l.csv:2:3: 'stator': '1,300 x 7' is no such size; right would be like 2207 or "
                   "22 mm x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,stator,kv\na,motor,1x2x3x4x5x6x7,1750\n",
         .answer = "l.csv:2:3: 'stator': '1x2x3x4x5x6x7' is no such size; right would be like 2207 "
                   "or 22 mm x 7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,size,kv\na,motor,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"},
        {.text = "id,kind,size,kv\na,motor,big,1750\n",
         .answer = "l.csv:2:3: 'size': 'big' is no such size; right would be like 2207 or 22 mm x "
                   "7 mm (--keep-good takes the other rows)"},
        {.text = "id,kind,size,stator,kv\na,motor,60 mm,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, note: \"size: "
                   "60 mm\"}\n",
         .notes = true},
        {.text = "id,kind,size\na,prop,5.1x4.3x3\n",
         .answer =
             "- {id: a, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"},
        {.text = "id,kind,size\na,prop,5143\n",
         .answer = "l.csv:2: part 'a': blades is missing: a part of kind propeller needs it (2 .. "
                   "8) (--keep-good takes the other rows)"},
        {.text = "id,kind,size\na,prop,5143x3\n",
         .answer =
             "- {id: a, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"},
        {.text = "id,kind,size\na,prop,5143x3x2\n",
         .answer = "l.csv:2:3: 'size': diameter of 5143 in; right would be 20 mm to 1000 mm "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,size\na,prop,5 in x 4 x 2\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 2}}\n"},
        {.text = "id,kind,size\na,prop,5 x 4in x2\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 2}}\n"},
        {.text = "id,kind,size\na,prop,130mm x 110mm x 2\n",
         .answer =
             "- {id: a, kind: propeller, spec: {diameter: 130 mm, pitch: 110 mm, blades: 2}}\n"},
        {.text = "id,kind,size\na,prop,5\n",
         .answer = "l.csv:2:3: 'size': '5' is no such size; right would be like 5.1x4.3x3 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,size\na,prop,5/4\n",
         .answer = "l.csv:2:3: 'size': '5/4' is no such size; right would be like 5.1x4.3x3 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,size\na,prop,5x4x3x2\n",
         .answer = "l.csv:2:3: 'size': '5x4x3x2' is no such size; right would be like 5.1x4.3x3 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,size\na,prop,51435\n",
         .answer = "l.csv:2:3: 'size': '51435' is no such size; right would be like 5.1x4.3x3 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,size\na,prop,5143 mm\n",
         .answer = "l.csv:2:3: 'size': '5143 mm' is no such size; right would be like 5.1x4.3x3 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,size\na,prop,big\n",
         .answer = "l.csv:2:3: 'size': 'big' is no such size; right would be like 5.1x4.3x3 "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,size,diameter,pitch,blades\na,prop,5x4x3,5.1 in,4.2 in,2\n",
         .answer =
             "- {id: a, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.2 in, blades: 2}}\n"},
        {.text = "id,kind,size,diameter,pitch,blades\na,prop,5x4x3,,,\n",
         .answer = "- {id: a, kind: propeller, spec: {diameter: 5 in, pitch: 4 in, blades: 3}}\n"},
        {.text = "id,kind,size,diameter,pitch,blades\na,prop,5x4,,,\n",
         .answer = "l.csv:2: part 'a': blades is missing: a part of kind propeller needs it (2 .. "
                   "8) (--keep-good takes the other rows)"},
        {.text = "id,kind,size,mass (g)\na,camera,19 mm,6\n",
         .answer = "- {id: a, kind: camera, mass: 6 g, fits: {camera: 19 mm}}\n"},
        {.text = "id,kind,size,mass (g)\na,camera,19,6\n",
         .answer = "- {id: a, kind: camera, mass: 6 g, fits: {camera: 19 mm}}\n"},
        {.text = "id,kind,size,mass (g)\na,camera,19x19,6\n",
         .answer = "- {id: a, kind: camera, mass: 6 g, fits: {camera: 19 mm}}\n"},
        {.text = "id,kind,size,mass (g)\na,camera,m2,6\n",
         .answer = "l.csv:2:3: 'size': camera: M2 does not start with one plain number: a length "
                   "needs mm, cm, m, in or ft (--keep-good takes the other rows)"},
        {.text = "id,kind,size,mass (g)\na,camera,big,6\n",
         .answer = "l.csv:2:3: 'size': 'big' is no such size; right would be like 16 mm or "
                   "30.5x30.5 (--keep-good takes the other rows)"},
        {.text = "id,kind,size,continuous\na,esc 4in1,20x20,40 A\n",
         .answer = "- {id: a, kind: esc_four, spec: {continuous: 40 A}, fits: {stack: 20 mm}}\n"},
        {.text = "id,kind,size,continuous\na,esc 4in1,30.5,40 A\n",
         .answer = "- {id: a, kind: esc_four, spec: {continuous: 40 A}, fits: {stack: 30.5 mm}}\n"},
        {.text = "id,kind,size,continuous\na,esc 4in1,M3,40 A\n",
         .answer = "l.csv:2:3: 'size': stack: M3 does not start with one plain number: a length "
                   "needs mm, cm, m, in or ft (--keep-good takes the other rows)"},
        {.text = "id,kind,size,power\na,vtx,20 mm,1 W\n",
         .answer =
             "- {id: a, kind: video_transmitter, spec: {power: 1 W}, fits: {stack: 20 mm}}\n"},
        {.text = "id,kind,size,mass (g)\na,frame,225,90\n",
         .answer = "- {id: a, kind: frame, mass: 90 g, spec: {wheelbase: 225 mm}}\n",
         .notes = true},
        {.text = "id,kind,size,mass (g)\na,frame,225 mm,90\n",
         .answer = "- {id: a, kind: frame, mass: 90 g, spec: {wheelbase: 225 mm}}\n",
         .notes = true},
        {.text = "id,kind,size,mass (g)\na,frame,9 in,90\n",
         .answer = "l.csv:2: part 'a': wheelbase is missing: a frame needs it, or its arms in "
                   "body, or the propeller that it fits (--keep-good takes the other rows)",
         .notes = true},
        {.text = "id,kind,size,mass (g)\na,frame,big,90\n",
         .answer = "l.csv:2: part 'a': wheelbase is missing: a frame needs it, or its arms in "
                   "body, or the propeller that it fits (--keep-good takes the other rows)",
         .notes = true},
        {.text = "id,kind,size,wheelbase,mass (g)\na,frame,225,230 mm,90\n",
         .answer =
             "- {id: a, kind: frame, mass: 90 g, spec: {wheelbase: 230 mm}, note: \"size: 225\"}\n",
         .notes = true},
        {.text = "id,kind,size,continuous\na,aio,25.5,40 A\n",
         .answer = "- {id: a, kind: controller_with_esc, spec: {continuous: 40 A}, fits: {stack: "
                   "25.5 mm}}\n"},
        {.text = "id,kind,size\na,strap,200 mm\n",
         .answer = "- {id: a, kind: strap, note: \"size: 200 mm\"}\n",
         .notes = true},
        {.text = "id,kind,mount,stator,kv\na,motor,16 mm,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: 16 mm}}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,16x19,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: [16 mm, 19 mm]}}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,\"16, 19\",2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: [16 mm, 19 mm]}}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,16;19,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: [16 mm, 19 mm]}}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,16&19,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: [16 mm, 19 mm]}}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,16+19,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: [16 mm, 19 mm]}}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,16/16,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: 16 mm}}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,9x12x16x19x25,2207,1750\n",
         .answer = "- id: a\n  kind: motor\n  spec: {stator: 22 mm x 7 mm, kv: 1750}\n  fits: "
                   "{bolt_circle: [9 mm, 12 mm, 16 mm, 19 mm, 25 mm]}\n"},
        {.text = "id,kind,mount,stator,kv\na,motor,M3,2207,1750\n",
         .answer = "l.csv:2:3: 'mount': bolt_circle: M3 does not start with one plain number: a "
                   "length needs mm, cm, m, in or ft (--keep-good takes the other rows)"},
        {.text = "id,kind,mount,stator,kv\na,motor,big,2207,1750\n",
         .answer = "l.csv:2:3: 'mount': 'big' is no such size; right would be like 16 mm or "
                   "30.5x30.5 (--keep-good takes the other rows)"},
        {.text = "id,kind,mount (in),stator,kv\na,motor,0.63,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{bolt_circle: 0.63 in}}\n"},
        {.text = "id,kind,mount\na,strap,16\n",
         .answer = "- {id: a, kind: strap, note: \"mount: 16\"}\n",
         .notes = true},
        {.text = "id,kind,mount,mass (g)\na,fc,20x20,6\n",
         .answer = "- {id: a, kind: flight_controller, mass: 6 g, fits: {stack: 20 mm}}\n"},
        {.text = "id,kind,mount,mass (g)\na,fc,m2 ,6\n",
         .answer = "l.csv:2:3: 'mount': stack: M2 does not start with one plain number: a length "
                   "needs mm, cm, m, in or ft (--keep-good takes the other rows)"},
        {.text = "id,kind,connector,mass (g)\na,connector,60,6\n",
         .answer = "- {id: a, kind: connector, mass: 6 g, fits: {connector: 60 A class}}\n"},
        {.text = "id,kind,connector,mass (g)\na,connector,60 A class,6\n",
         .answer = "- {id: a, kind: connector, mass: 6 g, fits: {connector: 60 A class}}\n"},
        {.text = "id,kind,connector,mass (g)\na,connector,60x60,6\n",
         .answer = "- {id: a, kind: connector, mass: 6 g, fits: {connector: 60 A class}}\n"},
        {.text = "id,kind,connector,mass (g)\na,connector,big,6\n",
         .answer = "l.csv:2:3: 'connector': 'big' is no such size; right would be like 60 A class "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,thread,stator,kv\na,motor,m3 ,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: {thread: "
                   "M3}}\n"},
        {.text = "id,kind,thread,stator,kv\na,motor,M2.5,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: {thread: "
                   "M2.5}}\n"},
        {.text = "id,kind,thread,stator,kv\na,motor,3,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: {thread: "
                   "3 mm}}\n"},
        {.text = "id,kind,screw_depth,stator,kv\na,motor,3.5 mm,2207,1750\n",
         .answer = "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: "
                   "{screw_depth: 3.5 mm}}\n"},
        {.text = "id,kind,screw_depth\na,strap,3.5 mm\n",
         .answer = "- {id: a, kind: strap, note: \"screw_depth: 3.5 mm\"}\n",
         .notes = true},
        {.text = "id,kind,volts,continuous\na,esc,11-25.5 V,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {volts: 11 V .. 25.5 V, continuous: 40 A}}\n"},
        {.text = "id,kind,volts,continuous\na,esc,9 V .. 26 V,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {volts: 9 V .. 26 V, continuous: 40 A}}\n"},
        {.text = "id,kind,volts,continuous\na,esc,9 to 26 V,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {volts: 9 V .. 26 V, continuous: 40 A}}\n"},
        {.text = "id,kind,volts,continuous\na,esc,9 V \xE2\x80\x93 26 V,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {volts: 9 V .. 26 V, continuous: 40 A}}\n"},
        {.text = "id,kind,volts,continuous\na,esc,9 V \xE2\x80\x94 26,40 A\n",
         .answer = "l.csv:2:3: 'volts': 26 has no unit; right would be like 26 V, or the unit in "
                   "the column's name, like (V) (--keep-good takes the other rows)"},
        {.text = "id,kind,volts,continuous\na,esc,26 V,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {volts: 26 V, continuous: 40 A}}\n"},
        {.text = "id,kind,volts,continuous\na,esc,9 ... 26 V,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {volts: 9 V .. 26 V, continuous: 40 A}}\n"},
        {.text = "id,kind,volts,continuous\na,esc,9-x V,40 A\n",
         .answer = "l.csv:2:3: 'volts': volts: x V does not start with one plain number: a voltage "
                   "needs V or mV (--keep-good takes the other rows)"},
        {.text = "id,kind,volts,continuous\na,esc,x - 26 V,40 A\n",
         .answer = "l.csv:2:3: 'volts': volts: x does not start with one plain number: a voltage "
                   "needs V or mV (--keep-good takes the other rows)"},
        {.text = "id,kind,volts,continuous\na,esc,9 - 26,40 A\n",
         .answer = "l.csv:2:3: 'volts': 26 has no unit; right would be like 26 V, or the unit in "
                   "the column's name, like (V) (--keep-good takes the other rows)"},
        {.text = "id,kind,volts,continuous\na,esc,\"1,300 - 2 V\",40 A\n",
         .answer =
             "l.csv:2:3: 'volts': 1,300 may be 1300 or 1.300; right would be either of these, or "
             "--decimal comma or --decimal point (--keep-good takes the other rows)"},
        {.text = "id,kind,volts,continuous\na,esc,\"9 V - 1,300 V\",40 A\n",
         .answer =
             "l.csv:2:3: 'volts': 1,300 V may be 1300 or 1.300; right would be either of these, or "
             "--decimal comma or --decimal point (--keep-good takes the other rows)"},
        {.text = "id,kind,volts,continuous\na,esc,-,40 A\n",
         .answer = "- {id: a, kind: esc_one, spec: {continuous: 40 A}}\n"},
        {.text = "id,kind,volts,continuous\na,esc,V-,40 A\n",
         .answer = "l.csv:2:3: 'volts': volts: V does not start with one plain number: a voltage "
                   "needs V or mV (--keep-good takes the other rows)"},
        {.text = "id,kind,propeller,mass (g)\na,frame,3 in .. 5.2 in,90\n",
         .answer = "- {id: a, kind: frame, mass: 90 g, fits: {propeller: 3 in .. 5.2 in}}\n"},
        {.text = "id,kind,propeller,mass (g)\na,frame,5 in,90\n",
         .answer = "- {id: a, kind: frame, mass: 90 g, fits: {propeller: 5 in}}\n"},
        {.text = "id,kind,efficiency,mass (g)\na,regulator,88 %,3\n",
         .answer = "- {id: a, kind: regulator, mass: 3 g, spec: {efficiency: 88 %}}\n"},
        {.text = "id,kind,efficiency,mass (g)\na,regulator,0.88,3\n",
         .answer = "- {id: a, kind: regulator, mass: 3 g, spec: {efficiency: 0.88}}\n"},
        {.text = "id,kind,efficiency,mass (g)\na,regulator,88,3\n",
         .answer = "l.csv:2:3: 'efficiency': efficiency of 88; right would be 30 % to 100 % "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,label_rating,cells,capacity (mAh)\na,pack,110,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, label_rating: 110}}\n"},
        {.text = "id,kind,label_rating,cells,capacity (mAh)\na,pack,110C,4,1300\n",
         .answer =
             "- {id: a, kind: pack, spec: {cells: 4, capacity: 1300 mAh, label_rating: 110}}\n"},
        {.text = "id,kind,length (in)\na,tie,4\n",
         .answer = "- {id: a, kind: tie, spec: {length: 4 in}}\n"},
        {.text = "id,kind,length (in)\na,tie,4 mm\n",
         .answer = "l.csv:2:3: 'length (in)': length of 4 mm; right would be 10 mm to 2000 mm "
                   "(--keep-good takes the other rows)"},
        {.text = "id,kind,length (in)\na,tie,4\xE2\x80\xB3\n",
         .answer = "- {id: a, kind: tie, spec: {length: 4 \xE2\x80\xB3}}\n"},
        {.text = "id,kind,note\na,strap,\"two words \"\n",
         .answer = "- {id: a, kind: strap, note: \"two words \"}\n"},
        {.text = "id,kind,note\na,strap,x\n", .answer = "- {id: a, kind: strap, note: x}\n"},
        {.text =
             "id,kind,colour,shade\na,strap,"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr,"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "sssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssssss"
             "ssssssssssssssssssssssssssssssssssssssssssssssssss\n",
         .answer =
             "- id: a\n  kind: strap\n  note: \"colour: "
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr"
             "rrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrrr\"\n",
         .notes = true},
        {.text = "id;kind;mass (g)\na;strap;3,5\nb;strap;1.300,5\n",
         .answer = "- {id: a, kind: strap, mass: 3.5 g}\n- {id: b, kind: strap, mass: 1300.5 g}\n"},
        {.text = "id;kind;mass (g)\na;strap;1,300\n",
         .answer =
             "l.csv:2:3: 'mass (g)': 1,300 may be 1300 or 1.300; right would be either of these, "
             "or --decimal comma or --decimal point (--keep-good takes the other rows)"},
        {.text = "id,kind,mass (g)\na,strap,1.300\nb,strap,2.5\n",
         .answer = "- {id: a, kind: strap, mass: 1.300 g}\n- {id: b, kind: strap, mass: 2.5 g}\n"},
        {.text = "id;kind;mass (g)\na;strap;1,300\n",
         .answer = "- {id: a, kind: strap, mass: 1.300 g}\n",
         .decimal = PARE_DECIMAL_COMMA},
        {.text = "id;kind;mass (g)\na;strap;1,300\n",
         .answer = "- {id: a, kind: strap, mass: 1300 g}\n",
         .decimal = PARE_DECIMAL_POINT},
        {.text = "id\tkind\tmass (g)\na\tstrap\t3\n",
         .answer = "- {id: a, kind: strap, mass: 3 g}\n"},
        {.text = "id|kind|mass (g)\na|strap|3\n", .answer = "- {id: a, kind: strap, mass: 3 g}\n"},
        {.text = "id,kind,mass (g)\na,strap,3\n",
         .answer = "l.csv:1: none of its 1 columns is known (the first is 'id,kind,mass (g)'); "
                   "right would be names like: name, kind, mass (g), or --map COLUMN=WHAT",
         .separator = ';'},
    };
    EXPECT(cases);
}

#define WITH_BENCH(test) cmocka_unit_test_setup_teardown(test, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_BENCH(what_stands_over_a_column_is_taken_apart),
        WITH_BENCH(what_the_person_says_of_columns_goes_first),
        WITH_BENCH(a_kind_is_told_by_a_column_or_by_what_a_part_says),
        WITH_BENCH(an_id_is_made_of_what_there_is),
        WITH_BENCH(cells_of_a_part_are_read_or_refused_by_their_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
