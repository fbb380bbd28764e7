/* rooms: physics base */
/* The constants that docs/physics.md shows are those of the program: its marked blocks equal what is
 * written here from the code. PARE_GOLDEN=update writes them anew. */
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "physics/drive.h"
#include "physics/pack_law.h"
#include "physics/prop.h"
#include "physics/rig.h"

#define PAGE PARE_SOURCE_DIR "/docs/physics.md"

enum { ROOM = 1 << 18 };

typedef struct text {
    char at[ROOM];
    size_t length;
} text;

__attribute__((format(printf, 2, 3))) static void put(text *t, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    const int wrote = vsnprintf(t->at + t->length, ROOM - t->length, format, values);
    va_end(values);
    assert_true(wrote >= 0 && (size_t)wrote < ROOM - t->length);
    t->length += (size_t)wrote;
}

static text *new_text(void)
{
    text *t = calloc(1, sizeof *t);
    assert_non_null(t);
    return t;
}

static text *read_page(void)
{
    text *page = new_text();
    FILE *file = fopen(PAGE, "rb");
    assert_non_null(file);
    page->length = fread(page->at, 1, ROOM - 1, file);
    fclose(file);
    return page;
}

/* A block stands between "<!-- NAME -->" and "<!-- end -->". */
static void page_shows(const char *name, const text *block)
{
    text *page = read_page();
    char mark[64];
    snprintf(mark, sizeof mark, "<!-- %s -->\n", name);
    char *from = strstr(page->at, mark);
    assert_non_null(from);
    from += strlen(mark);
    const char *to = strstr(from, "<!-- end -->");
    assert_non_null(to);
    const size_t shown = (size_t)(to - from);
    const char *golden = getenv("PARE_GOLDEN");
    if (golden && strcmp(golden, "update") == 0) {
        FILE *file = fopen(PAGE, "wb");
        assert_non_null(file);
        fwrite(page->at, 1, (size_t)(from - page->at), file);
        fwrite(block->at, 1, block->length, file);
        fputs(to, file);
        assert_int_equal(fclose(file), 0);
    } else if (shown != block->length || memcmp(from, block->at, shown) != 0) {
        fail_msg("docs/physics.md, block %s (PARE_GOLDEN=update writes it): the program has\n%s",
                 name, block->at);
    }
    free(page);
}

static const struct {
    const char *name;
    const pare_prop_constants *constants;
} sets[] = {{"size", &pare_prop_family},
            {"size and line", &pare_prop_family_line},
            {"measured blade", &pare_prop_true},
            {"measured blade and line", &pare_prop_true_line}};
enum { SETS = sizeof sets / sizeof sets[0] };

static void put_heads(text *block, const char *first)
{
    put(block, "| %s |", first);
    for (size_t i = 0; i < SETS; i++)
        put(block, " %s |", sets[i].name);
    put(block, "\n| --- | --- | --- | --- | --- |\n");
}

#define CONSTANT(symbol, field) {symbol " `" #field "`", offsetof(pare_prop_constants, field)}

static void the_propellers_constants_are_as_shown(void **state)
{
    (void)state;
    static const struct {
        const char *what;
        size_t at;
    } rows[] = {
        CONSTANT("a0", lift_slope),
        CONSTANT("na", lift_slope_exponent),
        CONSTANT("αL0", zero_lift_rad),
        CONSTANT("clmax", lift_most),
        CONSTANT("nc", lift_most_exponent),
        CONSTANT("clmin", lift_least),
        CONSTANT("cd0", drag_least),
        CONSTANT("nd", drag_least_exponent),
        CONSTANT("k2", drag_curve),
        CONSTANT("clc", drag_centre),
        CONSTANT("ws", stall_width),
        CONSTANT("CN", plate_normal),
        CONSTANT("ks", rotation),
        CONSTANT("xhub", hub),
        CONSTANT("x0", inner),
        CONSTANT("kF", loss_factor),
        CONSTANT("Mcap", mach_most),
        CONSTANT("", ideal_share_most),
        CONSTANT("", chord_max_ratio),
        CONSTANT("", many_blades),
    };
    text *block = new_text();
    put_heads(block, "constant");
    for (size_t row = 0; row < sizeof rows / sizeof rows[0]; row++) {
        put(block, "| %s |", rows[row].what);
        for (size_t i = 0; i < SETS; i++) {
            double value;
            memcpy(&value, (const char *)sets[i].constants + rows[row].at, sizeof value);
            put(block, " %.5g |", value);
        }
        put(block, "\n");
    }
    page_shows("constants", block);
    free(block);
}

static void the_motors_and_escs_constants_are_as_shown(void **state)
{
    (void)state;
    pare_rig rig;
    pare_rig_defaults(&rig);
    const pare_drive *f = &pare_drive_fitted;
    const struct {
        const char *symbol, *field;
        double value;
        const char *unit;
    } rows[] = {
        {"f", "iron_share", rig.motor.iron_share, ""},
        {"x", "drive_excess", rig.motor.drive_excess, ""},
        {"e", "excess_warms", rig.motor.excess_warms, ""},
        {"", "pulse_loss", rig.motor.pulse_loss, ""},
        {"Ron", "esc.on_ohm", rig.esc.on_ohm, " ohm"},
        {"ks", "esc.switching", rig.esc.switching, ""},
        {"Iq", "esc.idle_a", rig.esc.idle_a, " A"},
        {"", "winding_law", f->winding_law, ""},
        {"", "no_load_law", f->no_load_law, " A"},
        {"kb where not computed", "blockage", rig.blockage, ""},
        {"Rlead where not stated", "pack.lead_ohm", rig.pack.lead_ohm, " ohm"},
    };
    text *block = new_text();
    put(block, "| constant | field | value |\n| --- | --- | --- |\n");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        put(block, "| %s | `%s` | %.4g%s |\n", rows[i].symbol, rows[i].field, rows[i].value,
            rows[i].unit);
    page_shows("drive", block);
    free(block);
}

static void the_packs_constants_are_as_shown(void **state)
{
    (void)state;
    static const struct {
        pare_chemistry kind;
        const char *name;
    } kinds[] = {{PARE_LIPO, "lipo"},
                 {PARE_LIHV, "lihv"},
                 {PARE_LIION, "liion"},
                 {PARE_LIION_POWER, "liion-power"}};
    text *block = new_text();
    put(block, "| open circuit, V, at charge |");
    for (size_t k = 0; k < PARE_CHEMISTRIES; k++)
        put(block, " %s |", kinds[k].name);
    put(block, "\n| --- | --- | --- | --- | --- |\n");
    for (int i = 0; i < PARE_PACK_KNOTS; i++) {
        put(block, "| %.2f |", pare_pack_knots[i]);
        for (size_t k = 0; k < PARE_CHEMISTRIES; k++)
            put(block, " %.3f |", pare_pack_cell_v(kinds[k].kind, pare_pack_knots[i]));
        put(block, "\n");
    }
    static const struct {
        const char *what;
        size_t at;
    } rows[] = {
        {"`ohm_ah`, quick resistance x capacity, ohm Ah", offsetof(pare_cell, ohm_ah)},
        {"`rise` towards empty", offsetof(pare_cell, rise)},
        {"`rise_charge`", offsetof(pare_cell, rise_charge)},
        {"`slow` part over the quick one", offsetof(pare_cell, slow)},
        {"`slow_s`", offsetof(pare_cell, slow_s)},
        {"`warm_share`", offsetof(pare_cell, warm_share)},
        {"`activation_k`, K", offsetof(pare_cell, activation_k)},
        {"`heat_j_per_k_ah`", offsetof(pare_cell, heat_j_per_k_ah)},
        {"`cooling_s`", offsetof(pare_cell, cooling_s)},
        {"`landing_v`, a cell under load", offsetof(pare_cell, landing_v)},
        {"`cutoff_v`, a cell under load", offsetof(pare_cell, cutoff_v)},
        {"standard uncertainty of the resistance, share", offsetof(pare_cell, doubt.ohm_share_u)},
        {"of the open-circuit volts, V a cell", offsetof(pare_cell, doubt.cell_v_u)},
        {"of the capacity, share", offsetof(pare_cell, doubt.capacity_share_u)}};
    for (size_t row = 0; row < sizeof rows / sizeof rows[0]; row++) {
        put(block, "| %s |", rows[row].what);
        for (size_t k = 0; k < PARE_CHEMISTRIES; k++) {
            double value;
            memcpy(&value, (const char *)&pare_cells_fitted[kinds[k].kind] + rows[row].at,
                   sizeof value);
            put(block, " %.4g |", value);
        }
        put(block, "\n");
    }
    page_shows("cells", block);
    free(block);
}

static void the_models_own_uncertainty_is_as_shown(void **state)
{
    (void)state;
    static const char *const states[2] = {"at rest", "running"};
    static const char *const blades[2] = {"two blades", "three and four"};
    text *block = new_text();
    put_heads(block, "u of CT, of CP, their correlation");
    for (int running = 0; running < 2; running++)
        for (int more = 0; more < 2; more++) {
            put(block, "| %s, %s |", states[running], blades[more]);
            for (size_t i = 0; i < SETS; i++) {
                const pare_prop_doubt *doubt = &sets[i].constants->doubt[running][more];
                put(block, " %.1f %%, %.1f %%, %.2f |", 100 * doubt->thrust_u, 100 * doubt->power_u,
                    doubt->correlation);
            }
            put(block, "\n");
        }
    put(block, "| times (9 in/D) to, at rest and running, two blades |");
    for (size_t i = 0; i < SETS; i++)
        put(block, " %.1f, %.1f |", sets[i].constants->doubt_with_size[0],
            sets[i].constants->doubt_with_size[1]);
    put(block, "\n| running, times (CT at rest/CT) to |");
    for (size_t i = 0; i < SETS; i++)
        put(block, " %.2f |", sets[i].constants->doubt_with_load);
    put(block, "\n");
    page_shows("doubt", block);
    free(block);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_propellers_constants_are_as_shown),
        cmocka_unit_test(the_motors_and_escs_constants_are_as_shown),
        cmocka_unit_test(the_packs_constants_are_as_shown),
        cmocka_unit_test(the_models_own_uncertainty_is_as_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
