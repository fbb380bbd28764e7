/* rooms: store craft physics base */
/* Lists into a bench: what columns are taken for, what becomes of rows, what is refused. The lists
 * and their makers are invented. */
#include "store_bench.h"

#include "store/csv_import.h"

static pare_arena *arena; /* of the summaries of one test */

static int setup(void **state)
{
    arena = pare_arena_open();
    return arena ? store_setup(state) : -1;
}

static int teardown(void **state)
{
    pare_arena_close(arena);
    return store_teardown(state);
}

static pare_status take(pare_store *store, const char *text, pare_list_import how,
                        pare_list_summary *summary, pare_error *err)
{
    how.bytes = text;
    how.length = strlen(text);
    how.name = "l.csv";
    return pare_store_import_list(store, &how, arena, summary, err);
}

static pare_list_summary taken(pare_store *store, const char *text, pare_list_import how)
{
    pare_list_summary summary;
    pare_error err = {0};
    if (take(store, text, how, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return summary;
}

/* The text of the bench is its head and this. */
static void holds(pare_store *store, const char *text)
{
    char *all = store_text(store);
    const char *body = strchr(all, '\n');
    assert_non_null(body);
    assert_string_equal(body + 1, text);
    free(all);
}

static void a_list_becomes_parts_in_the_text_form(void **state)
{
    pare_store *store = store_of(state);
    const pare_list_summary s = taken(
        store,
        "Name,Type,Brand,Mass (g),Stator,KV,Cells,Capacity (mAh),Price,Owned,Volts,Cont. A\r\n"
        "Plover 2207,motor,Teasel Works,31.4,2207,1750,,,18.90,4,11-25.5 V,\r\n"
        "Moor 1300,pack,Dunnock Cells,158,,,4,1300,27,3,,\r\n"
        "Flint 45,esc 4in1,Flint,11.2,,,,,,,9 V .. 26 V,45A\r\n",
        (pare_list_import){.maps = 1, .map = (const char *const[]){"Cont. A=continuous"}});
    assert_int_equal(s.list, PARE_LIST_PARTS);
    assert_int_equal(s.separator, ',');
    assert_int_equal(s.decimal, PARE_DECIMAL_POINT);
    assert_int_equal(s.added, 3);
    assert_int_equal(s.named, 3);
    holds(store, "parts:\n"
                 "- id: flint-45\n"
                 "  kind: esc_four\n"
                 "  maker: Flint\n"
                 "  mass: 11.2 g\n"
                 "  spec: {volts: 9 V .. 26 V, continuous: 45 A}\n"
                 "- id: moor-1300\n"
                 "  kind: pack\n"
                 "  maker: Dunnock Cells\n"
                 "  mass: 158 g\n"
                 "  price: 27\n"
                 "  owned: 3\n"
                 "  spec: {cells: 4, capacity: 1300 mAh}\n"
                 "- id: plover-2207\n"
                 "  kind: motor\n"
                 "  maker: Teasel Works\n"
                 "  mass: 31.4 g\n"
                 "  price: 18.90\n"
                 "  owned: 4\n"
                 "  spec: {stator: 22 mm x 7 mm, kv: 1750, volts: 11 V .. 25.5 V}\n");
}

static void the_order_of_columns_does_not_change_a_part(void **state)
{
    pare_store *store = store_of(state);
    taken(store, "id;kind;mass (g);kv;stator\nmo;motor;31,4;1750;2207\n", (pare_list_import){0});
    const pare_list_summary s =
        taken(store, "kv|stator|Weight|id|part type\n1750|22x7|31.4 g|mo|Motors\n",
              (pare_list_import){0});
    assert_int_equal(s.same, 1);
}

static void a_unit_stands_in_the_cell_over_the_column_or_in_the_other_cells(void **state)
{
    pare_store *store = store_of(state);
    const pare_list_summary s =
        taken(store,
              "id,kind,weight\nst-1,strap,6 g\nst-2,strap,7g\nst-3,strap,0.2 oz\nst-4,strap,5\n"
              "st-5,strap,4 gr\nst-6,strap,4g\n",
              (pare_list_import){0});
    assert_int_equal(s.added, 6);
    assert_string_equal(s.column[2].unit, "g");
    assert_true(s.column[2].unit_seen);
    holds(store, "parts:\n"
                 "- {id: st-1, kind: strap, mass: 6 g}\n"
                 "- {id: st-2, kind: strap, mass: 7 g}\n"
                 "- {id: st-3, kind: strap, mass: 0.2 oz}\n"
                 "- {id: st-4, kind: strap, mass: 5 g}\n"
                 "- {id: st-5, kind: strap, mass: 4 g}\n"
                 "- {id: st-6, kind: strap, mass: 4 g}\n");
}

static void a_mass_says_how_it_is_known(void **state)
{
    pare_store *store = store_of(state);
    taken(store, "id,kind,weighed (g)\na,strap,6.1\nb,strap,~7\nc,strap,5 +/- 0.2\nd,strap,?\n",
          (pare_list_import){0});
    holds(store, "parts:\n"
                 "- {id: a, kind: strap, mass: {value: 6.1 g, known: weighed}}\n"
                 "- {id: b, kind: strap, mass: {value: 7 g, known: estimated}}\n"
                 "- {id: c, kind: strap, mass: {value: 5 g, u: 0.2 g, known: weighed}}\n"
                 "- {id: d, kind: strap}\n");
}

static void the_kind_is_told_by_words_by_specs_or_by_the_person(void **state)
{
    pare_store *store = store_of(state);
    pare_list_summary s =
        taken(store,
              "name,stator,kv,cells,capacity (mAh),diameter (in),pitch (in),blades\n"
              "a,2207,1750,,,,,\nb,,,4,1300,,,\nc,,,,,5.1,4.3,3\n",
              (pare_list_import){0});
    assert_int_equal(s.kinds_guessed, 3);
    s = taken(store, "name,weight (g)\nd,0.3\ne,0.4\n",
              (pare_list_import){.sets = 1, .set = (const char *const[]){"kind=zip ties"}});
    assert_int_equal(s.added, 2);
    holds(store, "parts:\n"
                 "- {id: a, kind: motor, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"
                 "- {id: b, kind: pack, spec: {cells: 4, capacity: 1300 mAh}}\n"
                 "- {id: c, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"
                 "- {id: d, kind: tie, mass: 0.3 g}\n"
                 "- {id: e, kind: tie, mass: 0.4 g}\n");
}

static void what_a_part_fits_is_read_as_the_trade_writes_it(void **state)
{
    pare_store *store = store_of(state);
    taken(store,
          "id,kind,weight (g),stator,kv,mount,shaft,thread,amps,cells,plug,antenna connector,"
          "polarization,mAh,size,chem\n"
          "an,antenna,9,,,,,,,,,SMA,RHCP,,,\n"
          "es,4in1,11,,,30.5x30.5,,,45,3-6S,,,,,,\n"
          "fr,frame,90,,,,,,,,,,,,225mm,\n"
          "mo,motor,30,2207,1750,16x19,M5,m3,,,,,,,,\n"
          "p1,LiHV,158,,,,,,,6s1p,60,,,1300,,\n"
          "p2,li-ion,280,,,,,,,4,,,,3000,,\n"
          "p3,lihv,158,,,,,,,4,60 A class,,,1500,,Li-Po\n"
          "pr,props,4.3,,,,,,,,,,,,5.1x4.3x3,\n",
          (pare_list_import){0});
    holds(
        store,
        "parts:\n"
        "- {id: an, kind: antenna, mass: 9 g, spec: {hand: right}, fits: {antenna: screw}}\n"
        "- id: es\n"
        "  kind: esc_four\n"
        "  mass: 11 g\n"
        "  spec: {continuous: 45 A}\n"
        "  fits: {stack: 30.5 mm, cells: 3 .. 6}\n"
        "- {id: fr, kind: frame, mass: 90 g, spec: {wheelbase: 225 mm}}\n"
        "- id: mo\n"
        "  kind: motor\n"
        "  mass: 30 g\n"
        "  spec: {stator: 22 mm x 7 mm, kv: 1750}\n"
        "  fits: {bolt_circle: [16 mm, 19 mm], thread: M3, shaft: M5}\n"
        "- id: p1\n"
        "  kind: pack\n"
        "  mass: 158 g\n"
        "  spec: {cells: 6, capacity: 1300 mAh, chemistry: lihv}\n"
        "  fits: {connector: 60 A class}\n"
        "- {id: p2, kind: pack, mass: 280 g, spec: {cells: 4, capacity: 3000 mAh, chemistry: "
        "liion}}\n"
        "- id: p3\n"
        "  kind: pack\n"
        "  mass: 158 g\n"
        "  spec: {cells: 4, capacity: 1500 mAh, chemistry: lipo}\n"
        "  fits: {connector: 60 A class}\n"
        "- {id: pr, kind: propeller, mass: 4.3 g, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: "
        "3}}\n");
}

static void a_column_of_names_may_be_titled_by_their_kind(void **state)
{
    pare_store *store = store_of(state);
    const pare_list_summary s =
        taken(store, "Straps,g,Colour\nlong one,6,red\nshort,4,\n", (pare_list_import){0});
    assert_string_equal(s.titled, "strap");
    assert_string_equal(s.column[0].means, "name");
    assert_null(s.column[2].means);
    holds(store, "parts:\n"
                 "- {id: long-one, kind: strap, mass: 6 g}\n"
                 "- {id: short, kind: strap, mass: 4 g}\n");
}

static void ids_are_made_of_names_typeable_unique_and_the_same_again(void **state)
{
    pare_store *store = store_of(state);
    const char *list = "name,kind,weight (g)\n"
                       "\"Gr\xC3\xBC\x6e & Sohn, 20 mm (lang)\",strap,6\n"
                       "Plain,strap,5\nPlain,strap,5.5\nplain!,strap,4\n"
                       "\xE6\x9D\xBE,strap,7\n";
    pare_list_summary s = taken(store, list, (pare_list_import){0});
    assert_int_equal(s.added, 5);
    assert_int_equal(s.again, 2);
    const char *const bench = "parts:\n"
                              "- {id: grun-sohn-20-mm-lang, kind: strap, mass: 6 g}\n"
                              "- {id: plain, kind: strap, mass: 5 g}\n"
                              "- {id: plain-2, kind: strap, mass: 5.5 g}\n"
                              "- {id: plain-3, kind: strap, mass: 4 g}\n"
                              "- {id: strap, kind: strap, mass: 7 g}\n";
    holds(store, bench);
    s = taken(store, list, (pare_list_import){0});
    assert_int_equal(s.same, 5);
    assert_int_equal(s.added + s.replaced, 0);
    holds(store, bench);
}

static void a_part_keeps_what_the_list_does_not_say(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    assert_int_equal(
        store_take(store,
                   "pare: 1\nparts:\n- {id: mo, kind: motor, mass: 31 g, price: {each: 18, seller: "
                   "Quillmoor}, spec: {stator: 22 mm x 7 mm, kv: 1750}, fits: {shaft: M5}}\n",
                   &err),
        PARE_OK);
    const pare_list_summary s =
        taken(store, "id,kind,mass (g),price,kv,thread\nmo,motor,30.2,17,1900,M3\n",
              (pare_list_import){0});
    assert_int_equal(s.replaced, 1);
    assert_int_equal(s.changes_listed, 1);
    assert_string_equal(s.change[0].what, "mass 30.2 g, was 31 g; price.each 17, was 18; spec.kv "
                                          "1900, was 1750; fits.thread M3, was none");
    holds(store, "parts:\n"
                 "- id: mo\n"
                 "  kind: motor\n"
                 "  mass: 30.2 g\n"
                 "  price: {each: 17, seller: Quillmoor}\n"
                 "  spec: {stator: 22 mm x 7 mm, kv: 1900}\n"
                 "  fits: {shaft: M5, thread: M3}\n");
    assert_int_equal(taken(store, "id,kind,mass (g),price,kv,thread\nmo,motor,30.2,17,1900,M3\n",
                           (pare_list_import){0})
                         .same,
                     1);
}

static void a_price_list_need_not_say_the_rest_again(void **state)
{
    pare_store *store = store_of(state);
    taken(store, "name,kind,stator,kv,mass (g)\nPlover 2207,motor,2207,1750,31.4\n",
          (pare_list_import){0});
    const pare_list_summary s =
        taken(store, "product;price\nPlover 2207;17,50\n", (pare_list_import){0});
    assert_int_equal(s.replaced, 1);
    assert_string_equal(s.change[0].what, "price 17.50, was none");
}

static void what_has_no_column_is_listed_and_kept_as_a_note_on_request(void **state)
{
    pare_store *store = store_of(state);
    const char *list = "id,kind,weight (g),Colour,kv,remarks,wieght\n"
                       "st,strap,6,orange,1750,too short,x\n";
    pare_list_summary s = taken(store, list, (pare_list_import){0});
    assert_null(s.column[3].means);
    assert_null(s.column[3].near);
    assert_string_equal(s.column[6].near, "weight");
    assert_int_equal(s.column[4].left_out, 1); /* a strap has no kV */
    assert_int_equal(s.column[4].left_out_line, 2);
    holds(store, "parts:\n- {id: st, kind: strap, mass: 6 g, note: too short}\n");
    taken(store, list, (pare_list_import){.notes = true});
    holds(store, "parts:\n"
                 "- {id: st, kind: strap, mass: 6 g, note: \"kv: 1750; too short; Colour: orange; "
                 "wieght: x\"}\n");
}

static void rows_that_are_no_entries_are_skipped(void **state)
{
    const pare_list_summary s = taken(store_of(state),
                                      "All my straps,,\n\nname,kind,weight (g)\n# short ones\n"
                                      "a,strap,5\n,,\n\nb,strap,6,,\nTotal,,11\n",
                                      (pare_list_import){0});
    assert_int_equal(s.added, 2);
    assert_int_equal(s.blank, 2);
    assert_int_equal(s.comments, 1);
    assert_int_equal(s.totals, 1);
}

static void a_refused_row_keeps_the_list_out_and_keep_good_the_row_alone(void **state)
{
    pare_store *store = store_of(state);
    const char *list = "name,kind,weight (g)\na,strap,5\nb,strip,6\nc,strap,7 V\nd,strap,8\n";
    pare_list_summary s;
    pare_error err = {0};
    assert_int_equal(take(store, list, (pare_list_import){0}, &s, &err), PARE_BAD_DATA);
    assert_string_equal(
        err.text, "l.csv:3:2: 'kind': no kind of part is called 'strip'; is it 'strap'? (and 1 "
                  "more row; --dry-run lists them, --keep-good takes the others)");
    holds(store, "");
    s = taken(store, list, (pare_list_import){.dry_run = true});
    assert_int_equal(s.refused, 2);
    assert_int_equal(s.added, 2);
    holds(store, "");
    s = taken(store, list, (pare_list_import){.keep_good = true});
    assert_int_equal(s.added, 2);
    assert_int_equal(s.refused_listed, 2);
    assert_int_equal(s.refused_row[1].line, 4);
    assert_string_equal(s.refused_row[1].column, "weight (g)");
    assert_string_equal(
        s.refused_row[1].text,
        "l.csv:4:3: 'weight (g)': mass: 7 V is a voltage: a mass needs g, kg, oz or "
        "lb");
    assert_string_equal(s.refused_row[1].what,
                        "'weight (g)': mass: 7 V is a voltage: a mass needs g, kg, oz or lb");
    holds(store, "parts:\n"
                 "- {id: a, kind: strap, mass: 5 g}\n"
                 "- {id: d, kind: strap, mass: 8 g}\n");
}

/* ---- records ---- */

static const char CRAFT[] =
    "pare: 1\nparts:\n"
    "- {id: fr, kind: frame, mass: 90 g, spec: {wheelbase: 220 mm}}\n"
    "- {id: mo, kind: motor, mass: 31 g, spec: {stator: 22 mm x 7 mm, kv: 1750}}\n"
    "- {id: pr, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"
    "- {id: es, kind: esc_four, mass: 11 g, spec: {continuous: 45 A}}\n"
    "- {id: fc, kind: flight_controller, mass: 5 g}\n"
    "- {id: pa, kind: pack, mass: 158 g, spec: {cells: 4, capacity: 1300 mAh}}\n"
    "craft:\n- {name: wren, items: {frame: {part: fr}, motor: {part: mo, count: 4, at: arms}, "
    "propeller: {part: pr, count: 4, at: arms}, esc: {part: es}, brain: {part: fc}, "
    "pack: {part: pa}}}\n";

static void with_craft(pare_store *store)
{
    pare_error err = {0};
    if (store_take(store, CRAFT, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

/* What the bench's text says from a list's key on. */
static void ends_with(pare_store *store, const char *key, const char *text)
{
    char *all = store_text(store);
    const char *list = strstr(all, key);
    assert_non_null(list);
    assert_string_equal(list, text);
    free(all);
}

static void weigh_ins_are_told_by_their_columns(void **state)
{
    pare_store *store = store_of(state);
    const char *list = "Craft;Date;Weighed;Reading (g)\n"
                       "wren;12.4.2026;motor 4, propeller: 4;141,8\n"
                       "wren;2026-04-12;all;476,1\nwren;2026-04-12;all;476,1\n";
    with_craft(store);
    pare_list_summary s = taken(store, list, (pare_list_import){0});
    assert_int_equal(s.list, PARE_LIST_WEIGH_INS);
    assert_int_equal(s.added, 3); /* a reading taken twice counts twice */
    ends_with(store, "weigh_ins:",
              "weigh_ins:\n"
              "- {craft: wren, date: 2026-04-12, of: {motor: 4, propeller: 4}, reads: 141.8 g}\n"
              "- {craft: wren, date: 2026-04-12, of: all, reads: 476.1 g}\n"
              "- {craft: wren, date: 2026-04-12, of: all, reads: 476.1 g}\n");
    s = taken(store, list, (pare_list_import){0});
    assert_int_equal(s.same, 3);
}

static void flights_are_told_by_their_columns(void **state)
{
    pare_store *store = store_of(state);
    with_craft(store);
    const pare_list_summary s = taken(store,
                                      "quad,date,pack,minutes,mah back,temp (C),weather\n"
                                      "wren,2026-04-13,pa,4.1,1050,14,windy\n",
                                      (pare_list_import){0});
    assert_int_equal(s.list, PARE_LIST_FLIGHTS);
    assert_null(s.column[6].means);
    ends_with(store, "flights:",
              "flights:\n"
              "- craft: wren\n"
              "  date: 2026-04-13\n"
              "  pack: pa\n"
              "  lasted: 4.1 min\n"
              "  put_back: 1050 mAh\n"
              "  air: {temperature: 14 C}\n");
}

static void a_stand_table_is_told_by_its_columns(void **state)
{
    pare_store *store = store_of(state);
    with_craft(store);
    const pare_list_summary s = taken(
        store,
        "Throttle (%);Voltage (V);Current (A);Thrust (g);RPM\n"
        "50;15,9;8,4;420;17100\n100;15,2;27,0;890;24900\n",
        (pare_list_import){.sets = 2, .set = (const char *const[]){"motor=mo", "propeller=pr"}});
    assert_int_equal(s.list, PARE_LIST_STAND);
    assert_int_equal(s.added, 1);
    ends_with(store, "stand_tables:",
              "stand_tables:\n"
              "- motor: mo\n"
              "  propeller: pr\n"
              "  columns: {throttle: \"%\", volts: V, current: A, thrust: gf, speed: rpm}\n"
              "  rows: [[50, 15.9, 8.4, 420, 17100], [100, 15.2, 27.0, 890, 24900]]\n");
}

/* ---- what is refused ---- */

static void a_bad_list_is_refused_in_one_line_and_the_bench_is_as_it_was(void **state)
{
    pare_store *store = store_of(state);
    static const struct {
        const char *list, *map, *set; /* NULL: none */
        pare_status status;
        const char *message;
    } rows[] = {
        {"", NULL, NULL, PARE_BAD_DATA,
         "l.csv: an empty file; right would be a row of column names, then a row an entry"},
        {"\n\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv: no row of column names; right would be one, like: name, kind, mass (g)"},
        {"name,kind,mass (g)\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:1: column names and nothing below them; right would be a row an entry"},
        {"3,4,5\n6,7,8\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:1: none of its 3 columns is known (the first is '3'); right would be names like: "
         "name, kind, mass (g), or --map COLUMN=WHAT"},
        {"wieght;colour\n1;2\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:1: none of its 2 columns is known (the first is 'wieght', is it 'weight'?); right "
         "would be names like: name, kind, mass (g), or --map COLUMN=WHAT"},
        {"id,kind,mass (g),weight (g)\na,strap,5,6\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:1: columns 3 'mass (g)' and 4 'weight (g)' both say mass; right would be one: "
         "leave "
         "the other out by --map 4=-"},
        {"id,kind,mass (g)\na,strap\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2: 2 fields, but there are 3 column names; right would be as many, parted by "
         "commas (--keep-good takes the other rows)"},
        {"id,kind,mass (g)\na,strap,5,6\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2: 4 fields, but there are 3 column names; right would be as many, parted by "
         "commas (a text with commas in quotes) (--keep-good takes the other rows)"},
        {"id;kind;mass (g)\na;strap;5\nb,strap,6\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:3: 1 fields, but there are 3 column names; right would be as many, parted by "
         "semicolons (--keep-good takes the other rows)"},
        {"id,kind,mass (g)\na,strap,\"5\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2: a quote opens here and is closed nowhere; right would be one more quote"},
        {"id,kind,mass (g)\na,strap,nan\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2:3: 'mass (g)': mass: nan does not start with one plain number: a mass needs g, "
         "kg, "
         "oz or lb (--keep-good takes the other rows)"},
        {"id,kind,mass (g)\na,strap,1e999\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2:3: 'mass (g)': mass: 1e999 is beyond what a number can hold (1e-307 to 1e308) "
         "(--keep-good takes the other rows)"},
        {"id,kind,mass (g)\na,strap,inf\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2:3: 'mass (g)': mass: inf does not start with one plain number: a mass needs g, "
         "kg, "
         "oz or lb (--keep-good takes the other rows)"},
        {"id,kind,mass (g)\na,strap,-5\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2:3: 'mass (g)': mass of -5 g; right would be 0.001 g to 25000 g (--keep-good "
         "takes "
         "the other rows)"},
        {"id,kind,mass\na,strap,5\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2:3: 'mass': 5 has no unit; right would be like 5 g, or the unit in the column's "
         "name, like (g) (--keep-good takes the other rows)"},
        {"id,kind,mass (g)\na b,strap,5\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2:1: 'id': id 'a b' is no name; right are letters, digits, '-', '.' and '_', 48 at "
         "most (--keep-good takes the other rows)"},
        {"id,kind,mass (g)\na,strap,5\na,strap,6\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:3:1: 'id': 'a' a second time; it is already in line 2 (--keep-good takes the other "
         "rows)"},
        {"id,kind,kv\na,motor,1750\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2: part 'a': stator is missing: a part of kind motor needs it (3 .. 150 mm) "
         "(--keep-good takes the other rows)"},
        {"id,weight (g)\na,5\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2: no kind, and nothing that tells it; right would be one like motor, or --kind "
         "for "
         "the whole list (--keep-good takes the other rows)"},
        {"id,kind,weight (g),price\na,strap,5,cheap\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:2:4: 'price': price: cheap does not start with one plain number: a sum of money "
         "needs a bare number (--keep-good takes the other rows)"},
        {"id,kind,Wt.\na,strap,5\n", "Wr.=mass (g)", NULL, PARE_UNKNOWN,
         "l.csv: no column 'Wr.'; is it 'Wt.'?"},
        {"id,kind,Wt.\na,strap,5\n", "9=mass (g)", NULL, PARE_UNKNOWN,
         "l.csv: no column '9'; right would be one of its names, or a number from 1 to 3"},
        {"id,kind,Wt.\na,strap,5\n", "Wt.=masss", NULL, PARE_UNKNOWN,
         "l.csv: --map to 'masss'; is it 'mass'?"},
        {"id,kind,Wt.\na,strap,5\n", "Wt.=mass (V)", NULL, PARE_BAD_DATA,
         "l.csv: --map to mass in 'V'; right would be g, kg, oz, lb"},
        {"id,kind,Wt.\na,strap,5\n", "Wt.", NULL, PARE_BAD_DATA,
         "--map 'Wt.'; right would be COLUMN=WHAT, like --map 'Wt.=mass (g)'"},
        {"id,kind,Wt.\na,strap,5\n", NULL, "kind=moter", PARE_BAD_DATA,
         "no kind of part is called 'moter'; is it 'motor'?"},
        {"id,kind,Wt.\na,strap,5\n", NULL, "knd=motor", PARE_UNKNOWN,
         "l.csv: --set 'knd'; is it 'kind'?"},
        {"craft,date,of,reads (g)\nwren,2026-04-12,all,470\n", NULL, NULL, PARE_UNKNOWN,
         "l.csv:2:1: 'craft': no craft 'wren' on the bench; right would be one that is there "
         "(--keep-good takes the other rows)"},
        {"throttle (%),thrust (g)\n50,420\n", NULL, NULL, PARE_BAD_DATA,
         "l.csv:1: which motor? right would be --set motor=ID, or a column of ids"},
        {"throttle (%),thrust\n50,420\n", NULL, "motor=mo", PARE_BAD_DATA,
         "l.csv:1:2: 'thrust': no unit over this column; right would be like 'thrust (...)', of N, "
         "gf, kgf, lbf"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        pare_list_summary s;
        pare_error err = {0};
        const pare_list_import how = {.maps = rows[i].map != NULL,
                                      .map = &rows[i].map,
                                      .sets = rows[i].set != NULL,
                                      .set = &rows[i].set};
        const pare_status status = take(store, rows[i].list, how, &s, &err);
        assert_string_equal(err.text, rows[i].message);
        assert_int_equal(status, rows[i].status);
        holds(store, "");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_list_becomes_parts_in_the_text_form, setup, teardown),
        cmocka_unit_test_setup_teardown(the_order_of_columns_does_not_change_a_part, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(
            a_unit_stands_in_the_cell_over_the_column_or_in_the_other_cells, setup, teardown),
        cmocka_unit_test_setup_teardown(a_mass_says_how_it_is_known, setup, teardown),
        cmocka_unit_test_setup_teardown(the_kind_is_told_by_words_by_specs_or_by_the_person, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(what_a_part_fits_is_read_as_the_trade_writes_it, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(a_column_of_names_may_be_titled_by_their_kind, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(ids_are_made_of_names_typeable_unique_and_the_same_again,
                                        setup, teardown),
        cmocka_unit_test_setup_teardown(a_part_keeps_what_the_list_does_not_say, setup, teardown),
        cmocka_unit_test_setup_teardown(a_price_list_need_not_say_the_rest_again, setup, teardown),
        cmocka_unit_test_setup_teardown(what_has_no_column_is_listed_and_kept_as_a_note_on_request,
                                        setup, teardown),
        cmocka_unit_test_setup_teardown(rows_that_are_no_entries_are_skipped, setup, teardown),
        cmocka_unit_test_setup_teardown(
            a_refused_row_keeps_the_list_out_and_keep_good_the_row_alone, setup, teardown),
        cmocka_unit_test_setup_teardown(weigh_ins_are_told_by_their_columns, setup, teardown),
        cmocka_unit_test_setup_teardown(flights_are_told_by_their_columns, setup, teardown),
        cmocka_unit_test_setup_teardown(a_stand_table_is_told_by_its_columns, setup, teardown),
        cmocka_unit_test_setup_teardown(
            a_bad_list_is_refused_in_one_line_and_the_bench_is_as_it_was, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
