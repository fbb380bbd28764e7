/* parts_show.c: parts as text and JSON (see catalogue.h). */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "craft/label.h"
#include "show/catalogue.h"
#include "show/digits.h"
#include "show/label_show.h"
#include "show/part_columns.h"
#include "show/printed.h"
#include "show/sheet_json.h"
#include "show/spec_show.h"
#include "show/tired.h"

#define RPM (30 / 3.14159265358979323846)

enum { FIELD = 64 };

static const char *kind_field(const pare_listed *part, char field[FIELD])
{
    snprintf(field, FIELD, "%s%s", pare_kind_words(part->kind), part->sought ? " (sought)" : "");
    return field;
}

/* Ids longer than usual take what the kinds leave of the two columns. */
static int id_width(size_t count, const pare_listed parts[])
{
    int longest_id = 0, longest_kind = 0;
    char field[FIELD];
    for (size_t i = 0; i < count; i++) {
        const int id = pare_columns(parts[i].id), kind = pare_columns(kind_field(&parts[i], field));
        longest_id = id > longest_id ? id : longest_id;
        longest_kind = kind > longest_kind ? kind : longest_kind;
    }
    const int most = PARE_COLUMN_ID + PARE_COLUMN_KIND - longest_kind - 1;
    const int wanted = longest_id + 1 < most ? longest_id + 1 : most;
    return wanted > PARE_COLUMN_ID ? wanted : PARE_COLUMN_ID;
}

void pare_parts_text(size_t count, const pare_listed parts[], const char *money,
                     const pare_screen *screen, pare_text *out)
{
    char field[FIELD];
    const int id = id_width(count, parts), kind = PARE_COLUMN_ID + PARE_COLUMN_KIND - id;
    pare_put_left(out, "part", id);
    pare_put_left(out, "kind", kind);
    pare_put_right(out, "grams", PARE_COLUMN_GRAMS);
    pare_put_spaces(out, PARE_COLUMN_DOUBT);
    pare_put_left(out, "known", PARE_COLUMN_KNOWN);
    pare_put_money_heads(money, out);
    const int left = PARE_COLUMN_ID + PARE_COLUMN_KIND + PARE_COLUMN_GRAMS + PARE_COLUMN_DOUBT +
                     PARE_COLUMN_KNOWN + PARE_COLUMN_PRICE + PARE_COLUMN_OWNED;
    pare_text_add(out, screen->width > left + 16 ? "  maker\n" : "\n");
    for (size_t i = 0; i < count; i++) {
        const pare_listed *part = &parts[i];
        pare_put_part_id(part->id, id, out);
        pare_put_left(out, kind_field(part, field), kind);
        pare_put_part_mass(&part->mass_kg, screen, out);
        pare_put_left(out, pare_known_name(part->mass_kg.known), PARE_COLUMN_KNOWN);
        pare_put_money(part, out);
        if (screen->width > left + 16 && part->maker)
            pare_text_printf(out, "  %s", part->maker);
        pare_text_add(out, "\n");
    }
}

/* ---- one part ---- */

static void put_specs(const pare_part *part, const pare_screen *screen, pare_text *out)
{
    pare_spec_shown shown[PARE_SPECS];
    const size_t count = pare_specs_shown(part, shown);
    char text[PARE_DIGITS], field[128];
    for (size_t i = 0; i < count; i++) {
        const pare_spec_shown *spec = &shown[i];
        if (spec->count == 2) {
            char other[PARE_DIGITS];
            const bool range = strcmp(spec->name, "volts") == 0;
            snprintf(field, sizeof field, "%s %s %s %s",
                     pare_digits(text, spec->value[0], spec->u[0]), range ? ".." : "x",
                     pare_digits(other, spec->value[1], spec->u[1]), spec->unit.unit);
        } else if (spec->counted) {
            snprintf(field, sizeof field, "%.0f", spec->value[0]);
        } else {
            snprintf(field, sizeof field, "%s %s",
                     pare_digits_u(text, screen, spec->value[0], spec->u[0]), spec->unit.unit);
        }
        pare_text_add(out, "  ");
        pare_put_left(out, spec->name, 18);
        pare_put_left(out, field, 26);
        pare_text_printf(out, "%s\n",
                         spec->known == PARE_ESTIMATED ? "estimated, by a law"
                                                       : pare_known_name(spec->known));
    }
}

static void put_joint(const pare_include *joint, pare_text *out)
{
    pare_text_printf(out, "%d %s%s M%.4g", joint->count, pare_fastener_words(joint->standard),
                     joint->count == 1 ? "" : "s", 1e3 * joint->thread.nominal_m);
    if (!pare_has_no_length(joint->standard))
        pare_text_printf(out, " x %.4g mm", 1e3 * joint->length_m);
    pare_text_printf(out, " (%s)\n", joint->name);
}

static void put_includes(const pare_part *part, pare_text *out)
{
    for (size_t i = 0; i < part->includes; i++) {
        const pare_include *inside = &part->include[i];
        pare_text_add(out, i ? "                    " : "  includes          ");
        if (inside->what == PARE_INCLUDES_RUN)
            pare_text_printf(out, "%d x %.4g mm of AWG %.4g wire (%s)\n", inside->count,
                             1e3 * inside->length_m, inside->gauge, inside->name);
        else if (inside->what == PARE_INCLUDES_JOINT)
            put_joint(inside, out);
        else
            pare_text_printf(out, "%d x %s\n", inside->count, pare_kind_words(inside->kind));
    }
}

/* A pack's discharge rating as physics keeps it, and what its label makes of that. */
static void put_believable(const pare_part *part, const pare_screen *screen, pare_text *out)
{
    pare_believable can;
    char text[PARE_DIGITS], field[96];
    if (!pare_pack_believable(part, &can))
        return;
    const struct {
        const char *words, *about;
        double value, u;
    } rows[] = {
        {"carries", "(1 C empties it in an hour) a whole pack, to 60 degC", can.whole, can.whole_u},
        {"in a burst", "for a second, to a cell's least volts", can.burst, can.burst_u}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        snprintf(field, sizeof field, "%s C",
                 pare_digits_u(text, screen, rows[i].value, rows[i].u));
        pare_text_add(out, "  ");
        pare_put_left(out, rows[i].words, 18);
        pare_put_left(out, field, 26);
        pare_put_wrapped(screen, out, 46, 46, rows[i].about);
    }
    pare_boast_text(part, screen, out);
}

/* Specs that are words, as they are typed. */
typedef struct worded {
    const char *key, *word; /* NULL: nobody has said it */
} worded;

enum { WORDED = 5 };

/* A pack of which nobody says otherwise is lipo, and is computed as one; an antenna, linear. */
static void words_of(const pare_part *part, worded words[WORDED])
{
    const bool pack = part->kind == PARE_PACK, sends = part->kind == PARE_ANTENNA;
    const bool lined = part->line != PARE_LINE_UNKNOWN;
    words[0] = (worded){"chemistry", pack ? pare_chemistry_names[part->chemistry] : NULL};
    words[1] = (worded){"line", lined ? pare_prop_line_name(part->line) : NULL};
    words[2] = (worded){"hand", sends ? pare_hand_names[part->hand] : NULL};
    words[3] = (worded){"cable", part->cable};
    words[4] = (worded){"material", part->material};
}

static void put_words(const pare_part *part, pare_text *out)
{
    worded words[WORDED];
    words_of(part, words);
    for (size_t i = 0; i < WORDED; i++)
        if (words[i].word)
            pare_text_printf(out, "  %-18s%s\n", words[i].key, words[i].word);
    if (part->ends[0] && part->ends[1])
        pare_text_printf(out, "  %-18s%s, %s\n", "ends", part->ends[0], part->ends[1]);
}

static void put_words_into(json_t *one, const pare_part *part)
{
    worded words[WORDED];
    words_of(part, words);
    for (size_t i = 0; i < WORDED; i++)
        if (words[i].word)
            json_object_set_new(one, words[i].key, json_string(words[i].word));
    if (part->ends[0] && part->ends[1])
        json_object_set_new(one, "ends", json_pack("[s, s]", part->ends[0], part->ends[1]));
}

/* What was measured of a propeller alone. */
static void put_measured(const pare_part *part, pare_text *out)
{
    if (part->stations)
        pare_text_printf(out, "  %-18smeasured at %zu stations\n", "blade", part->stations);
    if (!part->tunnel)
        return;
    const pare_tunnel_table *table = part->tunnel;
    double most_advance = 0;
    for (size_t i = 0; i < table->rows; i++)
        most_advance = fmax(most_advance, table->row[i].advance);
    pare_text_printf(out, "  %-18s%zu points, %.0f to %.0f rpm, J to %.2f\n", "tunnel", table->rows,
                     table->row[0].speed_rad_s * RPM, table->row[table->rows - 1].speed_rad_s * RPM,
                     most_advance);
}

void pare_part_text(const pare_part *part, const char *money, const pare_screen *screen,
                    pare_text *out)
{
    char text[160];
    pare_text head = {0};
    pare_text_printf(&head, "%s: %s%s%s%s", part->id, pare_kind_words(part->kind),
                     part->maker ? " by " : "", part->maker ? part->maker : "",
                     part->sought ? ", sought: on no shelf" : "");
    if (head.bytes)
        pare_put_heading(screen, out, head.bytes);
    out->failed |= head.failed;
    pare_text_free(&head);
    pare_text_add(out, "  ");
    pare_put_left(out, "mass", 18);
    char field[64];
    snprintf(field, sizeof field, "%s g",
             pare_digits_u(text, screen, 1e3 * part->mass_kg.value, 1e3 * part->mass_kg.u));
    pare_put_left(out, field, 26);
    pare_text_printf(out, "%s\n",
                     pare_part_filled(part) & PARE_FILLED_MASS
                         ? "estimated, by a law: nobody states it"
                         : pare_known_name(part->mass_kg.known));
    put_specs(part, screen, out);
    for (int key = 0; key < PARE_FITS; key++) {
        if (part->fit[key].count == 0)
            continue;
        pare_text_add(out, "  fits ");
        pare_put_left(out, pare_fit_name((pare_fit_key)key), 13);
        pare_text_printf(out, "%s\n", pare_fit_shown((pare_fit_key)key, &part->fit[key], text));
    }
    put_includes(part, out);
    put_words(part, out);
    put_measured(part, out);
    pare_printed_text(part, screen, out);
    if (part->price.given) {
        pare_text_add(out, "  ");
        pare_put_left(out, "price", 18);
        pare_text_printf(out, "%.2f%s%s each", part->price.each, money && *money ? " " : "",
                         money ? money : "");
        if (part->price.sold_in > 1)
            pare_text_printf(out, ", sold in %d", part->price.sold_in);
        if (part->price.shipping > 0)
            pare_text_printf(out, ", shipping %.2f", part->price.shipping);
        if (part->price.seller)
            pare_text_printf(out, ", %s", part->price.seller);
        if (part->price.date)
            pare_text_printf(out, ", %s", part->price.date);
        pare_text_add(out, "\n");
    }
    pare_text_printf(out, "  %-18s%d\n", "owned", part->owned);
    if (part->note) {
        pare_text_add(out, "  ");
        pare_put_left(out, "note", 18);
        pare_put_wrapped(screen, out, 20, 20, part->note);
    }
    if (part->body_estimated)
        pare_text_add(out, "  Its shape is the usual one for its kind: nobody has described it.\n");
    if (part->holds_c.given) {
        snprintf(field, sizeof field, "%s mAh",
                 pare_digits_u(text, screen, part->holds_c.value / 3.6, part->holds_c.u / 3.6));
        pare_text_add(out, "  ");
        pare_put_left(out, "holds now", 18);
        pare_put_left(out, field, 26);
        pare_text_printf(out, "%s\n", pare_known_name(part->holds_c.known));
    }
    put_believable(part, screen, out);
    pare_tired_cells_text(part, screen, out);
    if (part->kind == PARE_PACK)
        pare_put_wrapped(screen, out, 0, 0,
                         "Lithium packs burn when shorted, pierced or charged wrongly: charge them "
                         "watched, on the right setting.");
}

static void volts_of(const pare_stand_table *table, double *low_v, double *high_v)
{
    *low_v = *high_v = table->rows ? table->row[0].volts_v : 0;
    for (size_t i = 1; i < table->rows; i++) {
        *low_v = fmin(*low_v, table->row[i].volts_v);
        *high_v = fmax(*high_v, table->row[i].volts_v);
    }
}

void pare_part_stands_text(const char *part, size_t count, const pare_stand_table table[],
                           pare_text *out)
{
    for (size_t i = 0; i < count; i++) {
        const bool is_motor = strcmp(table[i].motor, part) == 0;
        double low_v = 0, high_v = 0;
        volts_of(&table[i], &low_v, &high_v);
        pare_text_add(out, "  ");
        pare_put_left(out, i ? "" : "stand", 18);
        pare_text_printf(out, "with %s, ", is_motor ? table[i].propeller : table[i].motor);
        if (table[i].fault)
            pare_text_printf(out, "not used: %s\n", table[i].fault);
        else
            pare_text_printf(out, "%zu rows, %.1f to %.1f V\n", table[i].rows, low_v, high_v);
    }
}

json_t *pare_stands_object(size_t count, const pare_stand_table table[])
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *one = json_object();
        double low_v = 0, high_v = 0;
        volts_of(&table[i], &low_v, &high_v);
        json_object_set_new(one, "motor", json_string(table[i].motor));
        json_object_set_new(one, "propeller", json_string(table[i].propeller));
        json_object_set_new(one, "rows", json_integer((json_int_t)table[i].rows));
        json_object_set_new(one, "low_v", table[i].rows ? pare_json_number(low_v) : json_null());
        json_object_set_new(one, "high_v", table[i].rows ? pare_json_number(high_v) : json_null());
        json_object_set_new(one, "fault", pare_text_or_null(table[i].fault));
        json_array_append_new(list, one);
    }
    return list;
}

json_t *pare_part_object(const pare_part *part)
{
    json_t *one = json_object(), *specs = json_object(), *known = json_object();
    json_object_set_new(one, "id", json_string(part->id));
    json_object_set_new(one, "kind", json_string(pare_kind_name(part->kind)));
    json_object_set_new(one, "maker", pare_text_or_null(part->maker));
    json_object_set_new(one, "sought", json_boolean(part->sought));
    json_object_set_new(one, "mass_g", pare_json_number(1e3 * part->mass_kg.value));
    json_object_set_new(one, "mass_g_u", pare_json_number(1e3 * part->mass_kg.u));
    json_object_set_new(one, "known", json_string(pare_known_name(part->mass_kg.known)));
    json_object_set_new(one, "price",
                        part->price.given ? pare_json_number(part->price.each) : json_null());
    json_object_set_new(one, "owned", json_integer(part->owned));
    if (part->note)
        json_object_set_new(one, "note", json_string(part->note));
    pare_spec_shown shown[PARE_SPECS];
    const size_t count = pare_specs_shown(part, shown);
    for (size_t i = 0; i < count; i++) {
        char key[64];
        snprintf(key, sizeof key, "%s%s%s", shown[i].name, shown[i].unit.key[0] ? "_" : "",
                 shown[i].unit.key);
        json_t *value = pare_json_number(shown[i].value[0]);
        if (shown[i].count == 2) {
            json_t *pair = json_array();
            json_array_append_new(pair, value);
            json_array_append_new(pair, pare_json_number(shown[i].value[1]));
            value = pair;
        }
        json_object_set_new(specs, key, value);
        json_object_set_new(known, key, json_string(pare_known_name(shown[i].known)));
    }
    if (part->holds_c.given) {
        json_object_set_new(one, "holds_mah", pare_json_number(part->holds_c.value / 3.6));
        json_object_set_new(one, "holds_mah_u", pare_json_number(part->holds_c.u / 3.6));
    }
    if (part->chargings > 0)
        json_object_set_new(one, "tired_cells", pare_part_tired_cells(part));
    pare_label_into(one, part);
    json_object_set_new(one, "spec", specs);
    json_object_set_new(one, "spec_known", known);
    put_words_into(one, part);
    json_t *printed = pare_printed_json(part);
    if (printed)
        json_object_set_new(one, "printed", printed);
    if (part->stations)
        json_object_set_new(one, "blade_stations", json_integer((json_int_t)part->stations));
    if (part->tunnel)
        json_object_set_new(one, "tunnel_points", json_integer((json_int_t)part->tunnel->rows));
    return one;
}
