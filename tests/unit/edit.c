/* rooms: store craft physics base */
/* Parts and craft changed by keys of their text: what stands there afterwards, what a slip is answered,
 * and that each change goes back byte for byte. Own rules. */
#include "dice.h"
#include "near.h"
#include "store/by_key.h"
#include "store_bench.h"

static char *bytes_of(const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 65536);
    assert_non_null(text);
    assert_true(fread(text, 1, 65535, file) > 0);
    fclose(file);
    return text;
}

static int with_field(void **state)
{
    store_setup(state);
    pare_error err = {0};
    char *field = bytes_of(PARE_SOURCE_DIR "/tests/data/field-5.yaml");
    if (store_take(store_of(state), field, &err) != PARE_OK)
        fail_msg("%s", err.text);
    free(field);
    return 0;
}

/* Up to eight words, ended by NULL. */
static size_t count_of(const char *const word[])
{
    size_t count = 0;
    while (word[count])
        count++;
    return count;
}

static void expect_text(pare_store *store, pare_thing thing, const char *name, const char *wanted)
{
    pare_text text = {0};
    pare_error err = {0};
    const pare_status status = thing == PARE_A_PART
                                   ? pare_store_part_text(store, name, &text, &err)
                                   : pare_store_craft_text(store, name, &text, &err);
    if (status != PARE_OK)
        fail_msg("%s", err.text);
    assert_string_equal(text.bytes, wanted);
    pare_text_free(&text);
}

static void alters(pare_store *store, pare_thing thing, const char *name, const char *const word[])
{
    pare_error err = {0};
    if (pare_store_alter(store, thing, name, count_of(word), word, &(pare_change){0}, NULL, NULL,
                         &err) != PARE_OK)
        fail_msg("%s", err.text);
}

/* Refused with these words, and the bench is as it was. */
static void refuses(pare_store *store, pare_thing thing, const char *name, const char *const word[],
                    pare_status status, const char *wanted)
{
    pare_error err = {0};
    char *before = store_text(store);
    assert_int_equal(pare_store_alter(store, thing, name, count_of(word), word, &(pare_change){0},
                                      NULL, NULL, &err),
                     status);
    assert_string_equal(err.text, wanted);
    char *after = store_text(store);
    assert_string_equal(after, before);
    free(after);
    free(before);
}

#define WORDS(...)                                                                                 \
    (const char *const[])                                                                          \
    {                                                                                              \
        __VA_ARGS__, NULL                                                                          \
    }

static void a_part_is_added_and_its_entries_changed(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    const char *const *new = WORDS("kv=1750", "stator=22 mm x 7 mm", "kind=motor", "mass=31 g");
    assert_int_equal(
        pare_store_add(store, PARE_A_PART, "mo-x", 4, new, &(pare_change){0}, NULL, NULL, &err),
        PARE_OK);
    expect_text(store, PARE_A_PART, "mo-x",
                "{id: mo-x, kind: motor, mass: 31 g, spec: {kv: 1750, stator: 22 mm x 7 mm}}");
    alters(store, PARE_A_PART, "mo-x",
           WORDS("known=weighed", "mass.u=0.1 g", "price.each=3.20", "price.seller=Hob Corner",
                 "price.date=2026-03-01", "maker='Teasel: Works'"));
    expect_text(store, PARE_A_PART, "mo-x",
                "id: mo-x\nkind: motor\nmaker: \"Teasel: Works\"\n"
                "mass: {value: 31 g, known: weighed, u: 0.1 g}\n"
                "price: {each: 3.20, seller: Hob Corner, date: 2026-03-01}\n"
                "spec: {kv: 1750, stator: 22 mm x 7 mm}");
    /* A new number is the maker's again; a new price has no day. */
    alters(store, PARE_A_PART, "mo-x", WORDS("mass=30 g", "price=4", "maker=off"));
    expect_text(store, PARE_A_PART, "mo-x",
                "id: mo-x\nkind: motor\nmass: 30 g\nprice: {each: 4, seller: Hob Corner}\n"
                "spec: {kv: 1750, stator: 22 mm x 7 mm}");
    /* The order of words does not matter, and an empty map goes. */
    alters(store, PARE_A_PART, "mo-x",
           WORDS("mass.u=0.2 g", "mass=29 g", "price.each=off", "price.seller=off",
                 "includes=[{run: phase, gauge: 20, length: 120 mm, count: 3}]"));
    expect_text(store, PARE_A_PART, "mo-x",
                "id: mo-x\nkind: motor\nmass: {value: 29 g, u: 0.2 g}\n"
                "spec: {kv: 1750, stator: 22 mm x 7 mm}\n"
                "includes: [{run: phase, gauge: 20, length: 120 mm, count: 3}]");
}

static void what_is_off_as_a_word_is_quoted(void **state)
{
    pare_store *store = store_of(state);
    alters(store, PARE_A_PART, "mo-1", WORDS("maker='off'"));
    pare_text text = {0};
    pare_error err = {0};
    assert_int_equal(pare_store_part_text(store, "mo-1", &text, &err), PARE_OK);
    assert_non_null(strstr(text.bytes, "maker: off"));
    pare_text_free(&text);
}

static void a_slip_names_the_word_and_changes_nothing(void **state)
{
    pare_store *store = store_of(state);
    static const struct {
        pare_thing thing;
        const char *name, *word;
        pare_status status;
        const char *says;
    } slips[] = {
        {PARE_A_PART, "mo-1", "mas=31g", PARE_UNKNOWN, "mas=31g: no key 'mas'; did you mean mass?"},
        {PARE_A_PART, "mo-1", "mass=31", PARE_BAD_DATA,
         "mass=31: mass: 31 has no unit: a mass needs g, kg, oz or lb"},
        {PARE_A_PART, "mo-1", "mass=-3g", PARE_BAD_DATA,
         "mass=-3g: mass of -3g; right would be 0.001 g to 25000 g"},
        {PARE_A_PART, "mo-1", "kv=1e9", PARE_BAD_DATA,
         "kv=1e9: kv of 1e9; right would be 20 rpm/V to 40000 rpm/V"},
        {PARE_A_PART, "mo-1", "bolt_circle=16mm", PARE_UNKNOWN,
         "bolt_circle=16mm: what a part fits stands below fits; right would be fits.bolt_circle"},
        {PARE_A_PART, "mo-1", "fits.bolt_cirle=16mm", PARE_UNKNOWN,
         "fits.bolt_cirle=16mm: fits has no key 'bolt_cirle'; is it 'bolt_circle'?"},
        {PARE_A_PART, "mo-1", "id=mo-2", PARE_BAD_DATA,
         "id=mo-2: the id stays; right would be a copy under another, and the first removed"},
        {PARE_A_PART, "mo-1", "kind=mottor", PARE_UNKNOWN,
         "kind=mottor: no kind 'mottor'; did you mean motor?"},
        {PARE_A_PART, "mo-1", "kv=off", PARE_BAD_DATA,
         "part 'mo-1': kv is missing: a part of kind motor needs it (20 .. 40000 rpm/V)"},
        {PARE_A_PART, "mo-1", "seller=Hob", PARE_UNKNOWN,
         "seller=Hob: no key 'seller'; right would be like mass, price.each, fits.stack, or a spec "
         "of a motor: stator, kv, resistance, no_load, no_load_at, volts, continuous, burst"},
        {PARE_A_PART, "mo-1", "maker.name=x", PARE_BAD_DATA,
         "maker.name=x: a single value stands there, with no keys below it"},
        {PARE_A_PART, "mo-1", "maker=", PARE_BAD_DATA,
         "maker=: no value; off would take the entry away"},
        {PARE_A_PART, "mo-1", "maker", PARE_BAD_DATA, "'maker' is not KEY=VALUE, like mass=31.2g"},
        {PARE_A_PART, "mo-1", "=x", PARE_BAD_DATA, "'=x' is not KEY=VALUE, like mass=31.2g"},
        {PARE_A_PART, "mo-1", "mass..u=1g", PARE_BAD_DATA,
         "mass..u=1g: an empty key; right would be like mass, or mass.u"},
        {PARE_A_PART, "mo-1", "a.b.c.d=1", PARE_UNKNOWN,
         "a.b.c.d=1: no key 'a'; right would be like mass, price.each, fits.stack, or a spec of a "
         "motor: stator, kv, resistance, no_load, no_load_at, volts, continuous, burst"},
        {PARE_A_PART, "mo-1", "spec.a.b.c.d.e.f.g.h=1", PARE_BAD_DATA,
         "spec.a.b.c.d.e.f.g.h=1: a key of more than 8 steps; nothing is so deep"},
        {PARE_A_PART, "mo-1", "spec.__proto__=1", PARE_UNKNOWN,
         "spec.__proto__=1: spec of motor has no key '__proto__'; right would be one of stator, "
         "kv, "
         "resistance, no_load, no_load_at, volts, continuous, burst, burst_for"},
        {PARE_A_PART, "mo-1", "maker=a\nb", PARE_BAD_DATA,
         "maker=a?b: a line break, control character or broken UTF-8 in a value; one line of text "
         "is right"},
        {PARE_A_PART, "mo-1", "maker=\xff", PARE_BAD_DATA, NULL},
        {PARE_A_PART, "mo-1", "ma\x01ker=x", PARE_BAD_DATA,
         "ma?ker=x: a key is letters, digits, '-', '_' and '.'"},
        {PARE_A_PART, "mo-1", "includes=[{run: phase", PARE_BAD_DATA, NULL},
        {PARE_A_PART, "mo-1", "includes=[&a 1, *a]", PARE_BAD_DATA,
         "includes:1:2: an anchor (&); write the value out instead"},
        {PARE_A_PART, "mo-1", "includes.run=3", PARE_BAD_DATA, NULL},
        {PARE_A_PART, "mo-11", "kv=1750", PARE_UNKNOWN, "no part 'mo-11'; did you mean mo-1?"},
        {PARE_A_CRAFT, "field-5", "moter=mo-1", PARE_UNKNOWN,
         "moter=mo-1: no item or key 'moter'; did you mean motor?"},
        {PARE_A_CRAFT, "field-5", "motor=mo-11", PARE_UNKNOWN,
         "motor=mo-11: no part 'mo-11' on the bench; is it 'mo-1'?"},
        {PARE_A_CRAFT, "field-5", "items.moter.count=4", PARE_UNKNOWN,
         "items.moter.count=4: no item 'moter'; did you mean motor?"},
        {PARE_A_CRAFT, "field-5", "motor.count=3", PARE_BAD_DATA, NULL},
        {PARE_A_CRAFT, "field-5", "brief.keep=[sees, hods]", PARE_BAD_DATA,
         "brief.keep=[sees, hods]: job cannot be 'hods'; is it 'holds'?"},
        {PARE_A_CRAFT, "field-5", "brief.crash_speed=12", PARE_BAD_DATA, NULL},
        {PARE_A_CRAFT, "field-5", "brief.limits.all_upp=<= 1 kg", PARE_UNKNOWN,
         "brief.limits.all_upp=<= 1 kg: no limit is called 'all_upp'; is it 'all_up'?"},
        {PARE_A_CRAFT, "field-5", "name=other", PARE_BAD_DATA, NULL},
        {PARE_A_CRAFT, "field-5", "gps=off", PARE_UNKNOWN, NULL},
    };
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        const char *const words[] = {slips[i].word, NULL};
        pare_error err = {0};
        char *before = store_text(store);
        const pare_status status = pare_store_alter(store, slips[i].thing, slips[i].name, 1, words,
                                                    &(pare_change){0}, NULL, NULL, &err);
        if (status != slips[i].status)
            fail_msg("%s: %d, wanted %d: %s", slips[i].word, status, slips[i].status, err.text);
        if (slips[i].says)
            assert_string_equal(err.text, slips[i].says);
        /* A line number would be of a text that nobody has seen. */
        assert_null(strstr(err.text, "field-5:"));
        assert_true(strncmp(err.text, "mo-1:", 5) != 0);
        char *after = store_text(store);
        assert_string_equal(after, before);
        free(after);
        free(before);
    }
}

static void a_value_of_a_megabyte_is_refused_in_one_line(void **state)
{
    enum { LONG = 1 << 20 };
    char *word = malloc(LONG + 16);
    assert_non_null(word);
    strcpy(word, "maker=");
    memset(word + 6, 'x', LONG);
    word[LONG + 6] = '\0';
    const char *const words[] = {word, NULL};
    refuses(store_of(state), PARE_A_PART, "mo-1", words, PARE_BAD_DATA,
            "maker=xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx...: a value of more than "
            "64 KiB; no entry is so long");
    memset(word, 'k', 300);
    refuses(store_of(state), PARE_A_PART, "mo-1", words, PARE_BAD_DATA,
            "'kkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkk' is not KEY=VALUE, like "
            "mass=31.2g");
    word[300] = '=';
    refuses(store_of(state), PARE_A_PART, "mo-1", words, PARE_BAD_DATA,
            "kkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkk...: a key this long is "
            "none");
    strcpy(word, "includes=");
    memset(word + 9, '[', 100);
    word[109] = '\0';
    refuses(store_of(state), PARE_A_PART, "mo-1", words, PARE_BAD_DATA,
            "includes:1:33: nested more than 32 deep; a bench needs far less");
    free(word);
}

static void two_words_for_one_entry_are_refused(void **state)
{
    refuses(store_of(state), PARE_A_PART, "mo-1", WORDS("kv=1750", "spec.kv=1800"), PARE_BAD_DATA,
            "spec.kv is given twice");
}

static void an_item_comes_with_what_is_usual(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    const char *const *words = WORDS("frame=fr-1", "motor=mo-1", "propeller=pr-1", "esc=es-1",
                                     "pack=pa-1", "brief.limits.all_up=<= 600 g");
    if (pare_store_add(store, PARE_A_CRAFT, "mine", 6, words, &(pare_change){0}, NULL, NULL,
                       &err) != PARE_OK)
        fail_msg("%s", err.text);
    expect_text(store, PARE_A_CRAFT, "mine",
                "name: mine\nbrief:\n  limits: {all_up: \"<= 600 g\"}\nitems:\n"
                "  frame: {part: fr-1}\n  motor: {part: mo-1, count: 4, at: arms}\n"
                "  propeller: {part: pr-1, count: 4, at: arms}\n  esc: {part: es-1}\n"
                "  pack: {part: pa-1}");
    assert_int_equal(
        pare_store_add(store, PARE_A_CRAFT, "mine", 6, words, &(pare_change){0}, NULL, NULL, &err),
        PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "craft 'mine' is on the bench already; right would be another name");
    assert_int_equal(
        pare_store_add(store, PARE_A_CRAFT, "half", 2, words, &(pare_change){0}, NULL, NULL, &err),
        PARE_BAD_DATA);
    assert_string_equal(err.text, "craft 'half' has no propellers: it needs some to fly");
    assert_int_equal(
        pare_store_add(store, PARE_A_CRAFT, "a/b", 5, words, &(pare_change){0}, NULL, NULL, &err),
        PARE_BAD_DATA);
    alters(store, PARE_A_CRAFT, "mine",
           WORDS("motor.count=4", "items.second=mo-1",
                 "pack.at=[0 mm, "
                 "0 mm, 40 mm]"));
    alters(store, PARE_A_CRAFT, "mine", WORDS("second=off"));
}

static void a_copy_is_the_craft_without_what_belongs_to_the_first(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    pare_text one = {0}, two = {0};
    assert_int_equal(
        pare_store_copy(store, PARE_A_CRAFT, "field-5", "twin", &(pare_change){0}, &err), PARE_OK);
    assert_int_equal(pare_store_craft_text(store, "field-5", &one, &err), PARE_OK);
    assert_int_equal(pare_store_craft_text(store, "twin", &two, &err), PARE_OK);
    assert_non_null(strstr(one.bytes, "brief:"));
    assert_string_equal(strchr(one.bytes, '\n'), strchr(two.bytes, '\n'));
    assert_int_equal(strncmp(two.bytes, "name: twin\n", 11), 0);
    assert_int_equal(
        pare_store_copy(store, PARE_A_CRAFT, "field-5", "twin", &(pare_change){0}, &err),
        PARE_BAD_DATA);
    alters(store, PARE_A_PART, "pa-1", WORDS("owned=3"));
    assert_int_equal(pare_store_copy(store, PARE_A_PART, "pa-1", "pa-2", &(pare_change){0}, &err),
                     PARE_OK);
    pare_text_free(&two);
    assert_int_equal(pare_store_part_text(store, "pa-2", &two, &err), PARE_OK);
    assert_null(strstr(two.bytes, "owned"));
    pare_text_free(&two);
    pare_text_free(&one);
}

/* ---- by the text ---- */

static void a_text_that_was_edited_is_checked_and_stored(void **state)
{
    pare_store *store = store_of(state);
    pare_arena *arena = pare_arena_open();
    pare_error err = {0};
    pare_edit_summary said = {0};
    static const char before[] = "{id: p, kind: pad, mass: 3 g}";
    assert_int_equal(store_take(store, "pare: 1\nparts: [{id: p, kind: pad, mass: 3 g}]\n", &err),
                     PARE_OK);
    static const char better[] = "# a comment\nid: p\nkind: pad\nmass: 4 g\nmaker: Hob\n";
    assert_int_equal(pare_store_replace(store, PARE_A_PART, "p", before, better, strlen(better),
                                        "p.yaml", &(pare_change){0}, arena, &said, &err),
                     PARE_OK);
    assert_true(said.changed);
    assert_int_equal(said.count, 2);
    assert_string_equal(said.entry[0].key, "mass");
    assert_string_equal(said.entry[0].was, "3 g");
    assert_string_equal(said.entry[0].is, "4 g");
    assert_null(said.entry[1].was);
    expect_text(store, PARE_A_PART, "p", "{id: p, kind: pad, mass: 4 g, maker: Hob}");
    /* Here the person has seen the lines. */
    static const char after[] = "{id: p, kind: pad, mass: 4 g, maker: Hob}";
    static const struct {
        const char *text, *says;
    } wrong[] = {
        {"id: p\nkind: pad\nmas: 4 g\n", "p.yaml:3:1: a part has no key 'mas'; is it 'mass'?"},
        {"id: q\nkind: pad\n",
         "p.yaml:1:5: the text now says id 'q'; right would be 'p': a copy has another one"},
        {"", "p.yaml:1:1: nothing here; a map of keys is right"},
        {"[1]", "p.yaml:1:1: a part is a map of keys here: {key: value}"},
        {"id: [p]\nkind: pad\n", "p.yaml:1:5: id is one value here, not a list or a map"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        assert_true(pare_store_replace(store, PARE_A_PART, "p", after, wrong[i].text,
                                       strlen(wrong[i].text), "p.yaml", &(pare_change){0}, arena,
                                       &said, &err) != PARE_OK);
        assert_string_equal(err.text, wrong[i].says);
    }
    /* What somebody else did meanwhile is not lost. */
    assert_int_equal(pare_store_replace(store, PARE_A_PART, "p", before, better, strlen(better),
                                        "p.yaml", &(pare_change){0}, arena, &said, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "p was changed by somebody else meanwhile; right would be to "
                                  "start from what it is now");
    assert_int_equal(pare_store_replace(store, PARE_A_PART, "p", after, better, strlen(better),
                                        "p.yaml", &(pare_change){0}, arena, &said, &err),
                     PARE_OK);
    assert_false(said.changed);
    pare_arena_close(arena);
}

static void a_part_that_craft_use_must_still_fit_them(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    const char *const *words = WORDS("kind=pad", "spec=off", "fits=off", "includes=off");
    assert_int_equal(
        pare_store_alter(store, PARE_A_PART, "mo-1", 2, words, &(pare_change){0}, NULL, NULL, &err),
        PARE_BAD_DATA);
    assert_string_equal(err.text, "it is on field-5, which would not go together any more: craft "
                                  "'field-5' has no motors: it needs some to fly");
}

/* ---- there and back ---- */

enum { STEPS = 40, RUNS = 8, SERVER_RUNS = 2 };

static void random_words(unsigned *state, bool part, size_t *count, char text[4][80],
                         const char *word[5])
{
    static const char *const of_part[] = {"mass=%u g",
                                          "owned=%u",
                                          "mass.u=0.%u g",
                                          "known=weighed",
                                          "maker=Maker %u",
                                          "price=%u.50",
                                          "price.seller=S%u",
                                          "maker=off",
                                          "price=off",
                                          "mass=off",
                                          "sought=true",
                                          "note=seen %u times",
                                          "price.date=2026-04-0%u",
                                          "mas=%u g",
                                          "mass=%u"};
    static const char *const of_craft[] = {"brief.crash_speed=1%u m/s",
                                           "motor=mo-1",
                                           "brief.limits.all_up=<= 60%u g",
                                           "brief.limits=off",
                                           "items.extra-%u=part-1",
                                           "extra-%u=off",
                                           "brief.keep=[sees, holds]",
                                           "brief=off",
                                           "motor.count=%u",
                                           "items.extra-%u.at=[%u mm, 0 mm, 0 mm]",
                                           "drag_area=0.0%u m2"};
    *count = 1 + dice(state, 3);
    for (size_t i = 0; i < *count; i++) {
        const char *format = part ? of_part[dice(state, 15)] : of_craft[dice(state, 11)];
        const unsigned number = 1 + dice(state, 8);
        /* The formats are ours, with two numbers at most. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
        snprintf(text[i], 80, format, number, number);
#pragma GCC diagnostic pop
        word[i] = text[i];
    }
}

static void random_edit(pare_store *store, unsigned *state)
{
    char name[32], other[32], text[4][80];
    const char *word[5] = {"kind=pad"};
    size_t count = 0;
    pare_error err = {0};
    const pare_change said = {.what = "random"};
    const bool part = dice(state, 2);
    const pare_thing thing = part ? PARE_A_PART : PARE_A_CRAFT;
    snprintf(name, sizeof name, part ? "part-%u" : "craft-%u", dice(state, 5));
    snprintf(other, sizeof other, part ? "part-%u" : "craft-%u", dice(state, 5));
    if (!part && dice(state, 3) == 0)
        strcpy(name, "field-5");
    switch (dice(state, 6)) {
    case 0:
        if (part)
            pare_store_add(store, thing, name, 1, word, &said, NULL, NULL, &err);
        else
            pare_store_add(
                store, thing, name, 5,
                WORDS("frame=fr-1", "motor=mo-1", "propeller=pr-1", "esc=es-1", "pack=pa-1"), &said,
                NULL, NULL, &err);
        break;
    case 1:
        pare_store_copy(store, thing, name, other, &said, &err);
        break;
    case 2:
        if (part)
            pare_store_remove_part(store, name, &said, &err);
        else
            pare_store_remove_craft(store, name, dice(state, 2), &said, &err);
        break;
    default:
        random_words(state, part, &count, text, word);
        pare_store_alter(store, thing, name, count, word, &said, NULL, NULL, &err);
        break;
    }
}

static void step(pare_store *store, bool undo, const char *wanted, unsigned run, size_t at)
{
    pare_error err = {0};
    if (store_turn(store, undo, &err) != PARE_OK)
        fail_msg("run %u, step %zu: %s", run, at, err.text);
    store_expect_text(store, wanted, run, at);
}

/* Whatever a bench was made into, its text is one that makes it again. */
static void expect_text_makes_it_again(const char *text)
{
    void *state = NULL;
    pare_error err = {0};
    store_setup(&state);
    if (store_take(store_of(&state), text, &err) != PARE_OK)
        fail_msg("%s", err.text);
    char *again = store_text(store_of(&state));
    assert_string_equal(again, text);
    free(again);
    store_teardown(&state);
}

static void random_edits_go_back_byte_for_byte(void **state)
{
    pare_store *store = store_of(state);
    size_t kept = 0;
    const unsigned runs = on_server() ? SERVER_RUNS : RUNS;
    for (unsigned run = 0; run < runs; run++) {
        unsigned seed = 77 + run;
        char *was[STEPS + 1];
        size_t steps = 0;
        was[0] = store_text(store);
        for (int i = 0; i < STEPS; i++) {
            const long long before = store_newest(store);
            random_edit(store, &seed);
            char *now = store_text(store);
            if (store_newest(store) == before) {
                assert_string_equal(now, was[steps]); /* refused: nothing done */
                free(now);
            } else {
                was[++steps] = now;
            }
        }
        expect_text_makes_it_again(was[steps]);
        for (size_t i = steps; i > 0; i--)
            step(store, true, was[i - 1], run, i - 1);
        for (size_t i = 1; i <= steps; i++)
            step(store, false, was[i], run, i);
        for (size_t i = steps; i > 0; i--)
            step(store, true, was[i - 1], run, i - 1);
        kept += steps;
        for (size_t i = 0; i <= steps; i++)
            free(was[i]);
    }
    assert_true(kept > 8 * runs); /* the dice gave something to undo */
}

int main(void)
{
#define TEST(function) cmocka_unit_test_setup_teardown(function, with_field, store_teardown)
    const struct CMUnitTest tests[] = {
        TEST(a_part_is_added_and_its_entries_changed),
        TEST(what_is_off_as_a_word_is_quoted),
        TEST(a_slip_names_the_word_and_changes_nothing),
        TEST(a_value_of_a_megabyte_is_refused_in_one_line),
        TEST(two_words_for_one_entry_are_refused),
        TEST(an_item_comes_with_what_is_usual),
        TEST(a_copy_is_the_craft_without_what_belongs_to_the_first),
        TEST(a_text_that_was_edited_is_checked_and_stored),
        TEST(a_part_that_craft_use_must_still_fit_them),
        TEST(random_edits_go_back_byte_for_byte),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
