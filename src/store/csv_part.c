/* csv_part.c: a row of a parts list as a part in the text form (see csv_part.h).
 *
 * The entries stand in the order of the table of targets, whatever the order of columns, so that the
 * same part gives the same text out of any list. A column that means nothing for the row's kind (the
 * kV of a strap) is counted and left out, or kept as a note; a cell that should say something for the
 * kind and cannot be read refuses the row. */
#include "store/csv_part.h"

#include <stdio.h>
#include <string.h>

#include "store/read_part.h"

/* A part under way: its maps, filled in the order of the columns. */
typedef struct making {
    const pare_csv_rows *rows;
    const pare_csv_row *row;
    pare_kind kind;
    const pare_csv_column *column;                /* at hand */
    size_t number;                                /* its number, for places */
    pare_node *top, *price, *owned, *spec, *fits; /* owned: what stands behind the price */
    const char *mass_u, *known;                   /* cells of columns of their own */
    size_t mass_u_column, known_column;
    pare_csv_quantity mass;
    bool has_mass;
    size_t mass_column;
    int mass_known; /* by its column's name; -1: it does not say */
    pare_text note;
    bool no_memory;
} making;

static void put(making *m, pare_node *to, const char *key, const char *text)
{
    if (!pare_csv_put(m->rows, to, key, text, m->row->line, m->number))
        m->no_memory = true;
}

static void add_note(making *m, const char *title, const char *text)
{
    enum { NOTE_MOST = 2000 };
    if (m->note.length + strlen(text) > NOTE_MOST)
        return;
    if (m->note.length)
        pare_text_add(&m->note, "; ");
    if (*title)
        pare_text_printf(&m->note, "%s: ", title);
    pare_text_add(&m->note, text);
}

/* A cell with no place in a part of this kind. */
static void leave_out(making *m, const char *cell)
{
    pare_csv_left *left = &m->rows->left[m->column - m->rows->plan->column];
    if (left->count++ == 0)
        left->line = m->row->line;
    if (m->rows->notes)
        add_note(m, m->column->title, cell);
}

/* ---- kind ---- */

static pare_status kind_of_cell(const pare_csv_rows *rows, const pare_csv_column *column,
                                const char *cell, int line, pare_kind *kind, pare_error *err)
{
    char tidy[64];
    pare_csv_tidy(cell, tidy, sizeof tidy);
    const int found = pare_csv_kind(tidy);
    if (found >= 0) {
        *kind = (pare_kind)found;
        return PARE_OK;
    }
    const char *near = pare_csv_kind_near(tidy);
    if (near)
        return pare_csv_refuse(rows->plan, column, line, err,
                               "no kind of part is called '%.40s'; is it '%s'?", cell, near);
    return pare_csv_refuse(rows->plan, column, line, err,
                           "no kind of part is called '%.40s'; right would be one like motor, esc "
                           "4in1, pack, printed, other",
                           cell);
}

static bool says(const pare_csv_rows *rows, const pare_csv_row *row, const char *target)
{
    const pare_csv_column *column = pare_csv_column_of(rows->plan, target);
    return column && !pare_csv_is_nothing(pare_csv_cell(rows->plan, column, row));
}

/* Specs that only one kind has. */
static int guess_kind(const pare_csv_rows *rows, const pare_csv_row *row)
{
    if (says(rows, row, "stator") || (says(rows, row, "kv") && !says(rows, row, "capacity")))
        return PARE_MOTOR;
    if (says(rows, row, "capacity") && says(rows, row, "cells"))
        return PARE_PACK;
    if (says(rows, row, "pitch") || says(rows, row, "blades"))
        return PARE_PROPELLER;
    if (says(rows, row, "wheelbase"))
        return PARE_FRAME;
    if (says(rows, row, "capacitance"))
        return PARE_CAPACITOR;
    return -1;
}

/* Words of which an id is made where there is no name: the kind and what the row says. */
static void make_words(const pare_csv_rows *rows, const pare_csv_row *row, pare_kind kind,
                       char words[PARE_CSV_VALUE])
{
    size_t used = (size_t)snprintf(words, PARE_CSV_VALUE, "%s", pare_kind_name(kind));
    for (size_t i = 0; i < rows->plan->ordered && used < PARE_CSV_VALUE - 1; i++) {
        const pare_csv_column *column = rows->plan->order[i];
        const char *cell = pare_csv_cell(rows->plan, column, row);
        const bool tells =
            column->target->form == PARE_CSV_PAIR || column->target->form == PARE_CSV_SIZE ||
            strcmp(column->target->name, "maker") == 0 || strcmp(column->target->name, "kv") == 0 ||
            strcmp(column->target->name, "cells") == 0 ||
            strcmp(column->target->name, "capacity") == 0 ||
            strcmp(column->target->name, "continuous") == 0 ||
            strcmp(column->target->name, "diameter") == 0 ||
            strcmp(column->target->name, "pitch") == 0;
        if (tells && !pare_csv_is_nothing(cell))
            used += (size_t)snprintf(words + used, PARE_CSV_VALUE - used, " %.40s", cell);
        if (used >= PARE_CSV_VALUE)
            used = PARE_CSV_VALUE - 1;
    }
}

/* The typed id, or one made of the name. @param kind  -1: not known, then no id is made of specs
 * @return false where there is none */
static bool find_id(const pare_csv_rows *rows, const pare_csv_row *row, int kind,
                    char id[PARE_CSV_VALUE], bool *named, size_t *number)
{
    const pare_csv_column *typed = pare_csv_column_of(rows->plan, "id"),
                          *name = pare_csv_column_of(rows->plan, "name");
    const char *cell = typed ? pare_csv_cell(rows->plan, typed, row) : "";
    *named = pare_csv_is_nothing(cell);
    const pare_csv_column *from = *named ? name : typed;
    *number = from && !from->set ? (size_t)(from - rows->plan->column) + 1 : 0;
    id[0] = '\0';
    if (!*named) {
        snprintf(id, PARE_CSV_VALUE, "%.100s", cell);
        size_t length = strlen(id);
        length = pare_text_trimmed(id, length);
        id[length] = '\0';
        return true;
    }
    cell = name ? pare_csv_cell(rows->plan, name, row) : "";
    if (!pare_csv_is_nothing(cell))
        pare_csv_make_id(cell, 1, id);
    if (!*id && kind >= 0) {
        char words[PARE_CSV_VALUE];
        make_words(rows, row, (pare_kind)kind, words);
        pare_csv_make_id(words, 1, id);
    }
    return *id != '\0';
}

static pare_status find_kind(const pare_csv_rows *rows, const pare_csv_row *row,
                             pare_csv_made *made, pare_error *err)
{
    const pare_csv_column *column = pare_csv_column_of(rows->plan, "kind");
    const char *cell = column ? pare_csv_cell(rows->plan, column, row) : "";
    made->kind_guessed = false;
    if (!pare_csv_is_nothing(cell))
        return kind_of_cell(rows, column, cell, row->line, &made->kind, err);
    char id[PARE_CSV_VALUE];
    size_t number = 0;
    int guess = -1;
    if (rows->kind_of && find_id(rows, row, -1, id, &made->named, &number))
        guess = rows->kind_of(rows->context, id, row->line);
    if (guess >= 0) {
        made->kind = (pare_kind)guess;
        return PARE_OK;
    }
    guess = guess_kind(rows, row);
    if (guess < 0)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "no kind, and nothing that tells it; right would be one like motor, "
                               "or --kind for the whole list");
    made->kind = (pare_kind)guess;
    made->kind_guessed = true;
    return PARE_OK;
}

/* ---- cells by form ---- */

/* Where a name goes in a part of this kind; NULL: nowhere. */
static pare_node *place_of(const making *m, const char *name)
{
    const char *map = m->column->target->map;
    if (!map)
        return strcmp(name, "owned") == 0 || strcmp(name, "sought") == 0 ? m->owned : m->top;
    if (strcmp(map, "price") == 0)
        return m->price;
    if (strcmp(name, "screw_depth") == 0)
        return m->kind == PARE_MOTOR ? m->fits : NULL;
    if (pare_spec_named(m->kind, name) || pare_spec_is_word(m->kind, name))
        return m->spec;
    return pare_fit_named(name) >= 0 ? m->fits : NULL;
}

/* What a cell of the column "known" says: a pare_known, or -1. */
static int known_of(const char *cell)
{
    static const struct {
        const char *word;
        pare_known known;
    } words[] = {{"scale", PARE_WEIGHED},     {"yes", PARE_WEIGHED},
                 {"maker", PARE_STATED},      {"listed", PARE_STATED},
                 {"guess", PARE_ESTIMATED},   {"guessed", PARE_ESTIMATED},
                 {"estimate", PARE_ESTIMATED}};
    char tidy[32];
    pare_csv_tidy(cell, tidy, sizeof tidy);
    for (size_t i = 0; i < PARE_COUNT(words); i++)
        if (strcmp(tidy, words[i].word) == 0)
            return (int)words[i].known;
    return pare_known_named(tidy);
}

/* "yes" as "true", "rhcp" as "right", "li-po" as "lipo". */
static const char *word_of(const char *target, const char *cell)
{
    static const struct {
        const char *target, *typed, *word;
    } words[] = {{"slow", "yes", "true"},          {"slow", "no", "false"},
                 {"sought", "yes", "true"},        {"sought", "no", "false"},
                 {"sought", "x", "true"},          {"hand", "rhcp", "right"},
                 {"hand", "lhcp", "left"},         {"hand", "rh", "right"},
                 {"hand", "lh", "left"},           {"hand", "lin", "linear"},
                 {"chemistry", "li po", "lipo"},   {"chemistry", "hv", "lihv"},
                 {"chemistry", "lipo hv", "lihv"}, {"chemistry", "li hv", "lihv"},
                 {"chemistry", "li ion", "liion"}, {"chemistry", "lion", "liion"},
                 {"antenna", "sma", "screw"},      {"antenna", "rp sma", "screw"},
                 {"antenna", "mmcx", "snap"},      {"antenna", "u fl", "snap"},
                 {"antenna", "ufl", "snap"}};
    char tidy[32];
    pare_csv_tidy(cell, tidy, sizeof tidy);
    for (size_t i = 0; i < PARE_COUNT(words); i++)
        if (strcmp(words[i].target, target) == 0 && strcmp(words[i].typed, tidy) == 0)
            return words[i].word;
    return NULL;
}

static void put_word(making *m, pare_node *to, const char *cell)
{
    const char *word = word_of(m->column->target->name, cell);
    char small[PARE_CSV_VALUE];
    size_t i = 0;
    for (; cell[i] && i < sizeof small - 1; i++)
        small[i] = (char)(cell[i] >= 'A' && cell[i] <= 'Z' ? cell[i] + ('a' - 'A') : cell[i]);
    i = pare_text_trimmed(small, i);
    small[i] = '\0';
    put(m, to, m->column->target->name, word ? word : small);
}

/* A quantity alone, or as a map where more is said of it. */
static void put_quantity(making *m, pare_node *to, const char *key, const pare_csv_quantity *q,
                         int known)
{
    if (q->about)
        known = PARE_ESTIMATED;
    if (!*q->u && (known < 0 || known == PARE_STATED)) {
        put(m, to, key, q->value);
        return;
    }
    pare_node *map = pare_csv_node(m->rows, PARE_NODE_MAP, m->row->line, m->number);
    if (!map) {
        m->no_memory = true;
        return;
    }
    put(m, map, "value", q->value);
    if (*q->u)
        put(m, map, "u", q->u);
    put(m, map, "known", pare_known_name(known < 0 ? PARE_STATED : (pare_known)known));
    pare_csv_add(to, key, map);
}

static pare_status take_quantity(making *m, pare_node *to, const char *cell, pare_error *err)
{
    pare_csv_quantity q;
    const pare_csv_target *target = m->column->target;
    const pare_status status = pare_csv_read_quantity(cell, m->rows->plan->decimal,
                                                      target->dimension, m->column->unit, &q, err);
    if (status != PARE_OK)
        return pare_csv_refused_at(m->rows->plan, m->column, m->row->line, err);
    if (strcmp(target->name, "mass") == 0) {
        m->mass = q;
        m->has_mass = true;
        m->mass_column = m->number;
        m->mass_known = m->column->known;
        return PARE_OK;
    }
    put_quantity(m, to, target->name, &q, -1);
    return PARE_OK;
}

static pare_status take_money(making *m, const char *cell, pare_error *err)
{
    char value[PARE_CSV_VALUE], currency[4];
    const char *money = m->rows->money;
    const pare_status status =
        pare_csv_read_money(cell, m->rows->plan->decimal, value, currency, err);
    if (status != PARE_OK)
        return pare_csv_refused_at(m->rows->plan, m->column, m->row->line, err);
    const bool dollar = currency[0] == '$' && *money && money[2] == 'D';
    if (*currency && *money && !dollar && strcmp(currency, money) != 0)
        return pare_csv_refuse(m->rows->plan, m->column, m->row->line, err,
                               "%.40s, but the bench has its prices in %.8s; right would be one "
                               "money on a bench",
                               cell, money);
    put(m, m->price, strcmp(m->column->target->name, "price") == 0 ? "each" : "shipping", value);
    return PARE_OK;
}

static pare_status refuse_size(const making *m, const char *cell, const char *right,
                               pare_error *err)
{
    return pare_csv_refuse(m->rows->plan, m->column, m->row->line, err,
                           "'%.40s' is no such size; right would be like %s", cell, right);
}

static pare_status take_pair(making *m, const char *cell, pare_error *err)
{
    char value[PARE_CSV_VALUE];
    if (!pare_csv_read_pair(cell, m->rows->plan->decimal, value))
        return refuse_size(m, cell, "2207 or 22 mm x 7 mm", err);
    put(m, m->spec, "stator", value);
    return PARE_OK;
}

static pare_status take_propeller_size(making *m, const char *cell, pare_error *err)
{
    char diameter[PARE_CSV_VALUE], pitch[PARE_CSV_VALUE], blades[PARE_CSV_VALUE];
    if (!pare_csv_read_propeller(cell, m->rows->plan->decimal, diameter, pitch, blades))
        return refuse_size(m, cell, "5.1x4.3x3", err);
    if (!says(m->rows, m->row, "diameter"))
        put(m, m->spec, "diameter", diameter);
    if (!says(m->rows, m->row, "pitch"))
        put(m, m->spec, "pitch", pitch);
    if (*blades && !says(m->rows, m->row, "blades"))
        put(m, m->spec, "blades", blades);
    return PARE_OK;
}

static pare_status take_fit(making *m, const char *key, const char *cell, pare_error *err)
{
    char size[PARE_FIT_CHOICES][PARE_CSV_VALUE];
    const bool current = m->column->target->dimension == PARE_DIM_CURRENT;
    const char *usual = current ? "A" : "mm";
    /* "M3", "60 A class": as the text form has them. */
    if (cell[0] == 'M' || cell[0] == 'm' || strstr(cell, "class")) {
        char text[PARE_CSV_VALUE];
        snprintf(text, sizeof text, "%s%.100s", cell[0] == 'm' ? "M" : "", cell + (cell[0] == 'm'));
        size_t length = strlen(text);
        length = pare_text_trimmed(text, length);
        text[length] = '\0';
        put(m, m->fits, key, text);
        return PARE_OK;
    }
    const size_t count =
        pare_csv_read_sizes(cell, m->rows->plan->decimal, m->column->unit ? m->column->unit : usual,
                            PARE_FIT_CHOICES, size);
    if (count == 0)
        return refuse_size(m, cell, current ? "60 A class" : "16 mm or 30.5x30.5", err);
    if (count == 1 && current)
        strcat(size[0], " class");
    if (count == 1) {
        put(m, m->fits, key, size[0]);
        return PARE_OK;
    }
    pare_node *list = pare_csv_node(m->rows, PARE_NODE_LIST, m->row->line, m->number);
    if (!list) {
        m->no_memory = true;
        return PARE_OK;
    }
    for (size_t i = 0; i < count; i++)
        put(m, list, NULL, size[i]);
    pare_csv_add(m->fits, key, list);
    return PARE_OK;
}

/* Boards are told by their mounting pattern. */
static bool is_board(pare_kind kind)
{
    return kind == PARE_ESC_FOUR || kind == PARE_FLIGHT_CONTROLLER ||
           kind == PARE_CONTROLLER_WITH_ESC || kind == PARE_VIDEO_TRANSMITTER;
}

/* A size says another thing of each kind. */
static pare_status take_size(making *m, const char *cell, pare_error *err)
{
    pare_csv_quantity q;
    if (m->kind == PARE_MOTOR && !says(m->rows, m->row, "stator"))
        return take_pair(m, cell, err);
    if (m->kind == PARE_PROPELLER)
        return take_propeller_size(m, cell, err);
    if (m->kind == PARE_CAMERA)
        return take_fit(m, "camera", cell, err);
    if (is_board(m->kind))
        return take_fit(m, "stack", cell, err);
    if (m->kind == PARE_FRAME && !says(m->rows, m->row, "wheelbase") &&
        pare_csv_read_quantity(cell, m->rows->plan->decimal, PARE_DIM_LENGTH, "mm", &q, NULL) ==
            PARE_OK &&
        strlen(q.value) > 3 && strcmp(q.value + strlen(q.value) - 3, " mm") == 0)
        put_quantity(m, m->spec, "wheelbase", &q, -1);
    else
        leave_out(m, cell);
    return PARE_OK;
}

static pare_status take_mount(making *m, const char *cell, pare_error *err)
{
    if (m->kind == PARE_MOTOR)
        return take_fit(m, "bolt_circle", cell, err);
    if (is_board(m->kind))
        return take_fit(m, "stack", cell, err);
    leave_out(m, cell);
    return PARE_OK;
}

static pare_status take_span(making *m, pare_node *to, const char *cell, pare_error *err)
{
    char value[PARE_CSV_VALUE];
    const pare_csv_target *target = m->column->target;
    if (pare_csv_read_span(cell, m->rows->plan->decimal, target->dimension, m->column->unit, value,
                           err) != PARE_OK)
        return pare_csv_refused_at(m->rows->plan, m->column, m->row->line, err);
    put(m, to, target->name, value);
    return PARE_OK;
}

static void take_count(making *m, const char *cell)
{
    char value[PARE_CSV_VALUE];
    const char *name = m->column->target->name;
    pare_node *to = place_of(m, name);
    pare_csv_read_count(cell, value);
    if (to)
        put(m, to, name, value);
    else
        leave_out(m, cell);
}

/* Free text, without the blanks at its end. */
static void put_text(making *m, pare_node *to, const char *cell)
{
    size_t length = strlen(cell);
    length = pare_text_trimmed(cell, length);
    const char *text = pare_arena_copy(m->rows->reading->arena, cell, length);
    if (text)
        put(m, to, m->column->target->name, text);
    else
        m->no_memory = true;
}

/* A cell with a place of its own in parts of this kind. */
static pare_status take_placed(making *m, pare_node *to, const char *cell, pare_error *err)
{
    const pare_csv_target *target = m->column->target;
    switch (target->form) {
    case PARE_CSV_PAIR:
        return take_pair(m, cell, err);
    case PARE_CSV_FIT:
        return take_fit(m, target->name, cell, err);
    case PARE_CSV_SPAN:
        return take_span(m, to, cell, err);
    case PARE_CSV_WORD:
        put_word(m, to, cell);
        return PARE_OK;
    case PARE_CSV_TEXT:
        put_text(m, to, cell);
        return PARE_OK;
    default:
        return take_quantity(m, to, cell, err);
    }
}

static pare_status take_cell(making *m, const char *cell, pare_error *err)
{
    const pare_csv_target *target = m->column->target;
    char value[PARE_CSV_VALUE];
    switch (target->form) {
    case PARE_CSV_LEFT_OUT:
    case PARE_CSV_ID:
    case PARE_CSV_NAME:
    case PARE_CSV_KIND:
    case PARE_CSV_THINGS:
        return PARE_OK; /* read elsewhere */
    case PARE_CSV_SIZE:
        return take_size(m, cell, err);
    case PARE_CSV_MOUNT:
        return take_mount(m, cell, err);
    case PARE_CSV_MONEY:
        return take_money(m, cell, err);
    case PARE_CSV_COUNT:
        take_count(m, cell);
        return PARE_OK;
    case PARE_CSV_DATE:
        pare_csv_read_date(cell, value);
        put(m, m->price, "date", value);
        return PARE_OK;
    case PARE_CSV_MASS_U:
        m->mass_u = cell;
        m->mass_u_column = m->number;
        return PARE_OK;
    case PARE_CSV_KNOWN:
        m->known = cell;
        m->known_column = m->number;
        return PARE_OK;
    default:
        break;
    }
    if (strcmp(target->name, "note") == 0) {
        add_note(m, "", cell);
        return PARE_OK;
    }
    pare_node *to = place_of(m, target->name);
    if (to)
        return take_placed(m, to, cell, err);
    leave_out(m, cell);
    return PARE_OK;
}

/* ---- the whole ---- */

/* The mass with what other columns say of it. */
static pare_status put_mass(making *m, pare_error *err)
{
    const pare_csv_plan *plan = m->rows->plan;
    int known = m->mass_known;
    if (m->known) {
        const int said = known_of(m->known);
        const pare_csv_column *column = &plan->column[m->known_column - 1];
        if (said < 0)
            return pare_csv_refuse(plan, column, m->row->line, err,
                                   "'%.40s' is no way of knowing; right would be weighed, stated, "
                                   "computed or estimated",
                                   m->known);
        known = said;
    }
    if (!m->has_mass)
        return PARE_OK;
    if (m->mass_u) {
        pare_csv_quantity q;
        const pare_csv_column *column = &plan->column[m->mass_u_column - 1];
        const char *unit = column->unit ? column->unit : plan->column[m->mass_column - 1].unit;
        if (pare_csv_read_quantity(m->mass_u, plan->decimal, PARE_DIM_MASS, unit, &q, err) !=
            PARE_OK)
            return pare_csv_refused_at(plan, column, m->row->line, err);
        memcpy(m->mass.u, q.value, sizeof m->mass.u);
    }
    m->number = m->mass_column;
    put_quantity(m, m->top, "mass", &m->mass, known);
    return PARE_OK;
}

static void put_id(making *m, pare_csv_made *made)
{
    char id[PARE_CSV_VALUE];
    find_id(m->rows, m->row, (int)m->kind, id, &made->named, &m->number);
    put(m, m->top, "id", id);
    const pare_csv_column *name = pare_csv_column_of(m->rows->plan, "name");
    const char *cell = name ? pare_csv_cell(m->rows->plan, name, m->row) : "";
    if (m->rows->notes && !pare_csv_is_nothing(cell) && strcmp(id, cell) != 0)
        add_note(m, "name", cell);
}

/* Cells that no column has a place for. */
static void note_others(making *m)
{
    const pare_csv_plan *plan = m->rows->plan;
    for (size_t i = 0; i < plan->fields && m->rows->notes; i++) {
        const char *cell = pare_csv_cell(plan, &plan->column[i], m->row);
        if (!plan->column[i].target && !pare_csv_is_nothing(cell))
            add_note(m, plan->column[i].title, cell);
    }
}

static void put_map(making *m, const char *key, pare_node *map)
{
    if (map->first)
        pare_csv_add(m->top, key, map);
}

/* A price alone is a number. */
static void put_price(making *m)
{
    const pare_node *each = pare_node_get(m->price, "each");
    if (!each)
        return; /* a seller or a day without a price says nothing */
    if (m->price->count > 1)
        pare_csv_add(m->top, "price", m->price);
    else if (!pare_csv_put(m->rows, m->top, "price", each->text, each->line, (size_t)each->column))
        m->no_memory = true;
}

/* "LiHV" under kind says pack and chemistry, unless a column of its own says that. */
static void put_chemistry(making *m)
{
    const pare_csv_column *kind = pare_csv_column_of(m->rows->plan, "kind");
    char tidy[64];
    if (!kind || m->kind != PARE_PACK || pare_node_get(m->spec, "chemistry"))
        return;
    pare_csv_tidy(pare_csv_cell(m->rows->plan, kind, m->row), tidy, sizeof tidy);
    const char *chemistry = pare_csv_kind_chemistry(tidy);
    m->number = kind->set ? 0 : (size_t)(kind - m->rows->plan->column) + 1;
    if (chemistry)
        put(m, m->spec, "chemistry", chemistry);
}

static pare_status fill(making *m, pare_csv_made *made, pare_error *err)
{
    const pare_csv_plan *plan = m->rows->plan;
    pare_status status = PARE_OK;
    put_id(m, made);
    const pare_csv_column *kind = pare_csv_column_of(plan, "kind");
    m->number = kind && !kind->set ? (size_t)(kind - plan->column) + 1 : 0;
    put(m, m->top, "kind", pare_kind_name(m->kind));
    bool mass_put = false;
    for (size_t i = 0; i < plan->ordered && status == PARE_OK; i++) {
        m->column = plan->order[i];
        m->number = (size_t)(m->column - plan->column) + 1;
        const char *cell = pare_csv_cell(plan, m->column, m->row);
        const bool after_mass = m->column->target > pare_csv_target_named(PARE_LIST_PARTS, "known");
        if (after_mass && !mass_put) {
            mass_put = true;
            status = put_mass(m, err);
            m->number = (size_t)(m->column - plan->column) + 1;
        }
        if (status == PARE_OK && !pare_csv_is_nothing(cell))
            status = take_cell(m, cell, err);
    }
    if (status == PARE_OK && !mass_put)
        status = put_mass(m, err);
    if (status == PARE_OK)
        put_chemistry(m);
    return status;
}

static void finish(making *m)
{
    put_price(m);
    for (pare_node *one = m->owned->first, *next; one; one = next) {
        next = one->next;
        one->next = NULL;
        pare_csv_add(m->top, one->key, one);
    }
    put_map(m, "spec", m->spec);
    put_map(m, "fits", m->fits);
    note_others(m);
    m->number = 0;
    if (m->note.length)
        put(m, m->top, "note", m->note.bytes);
}

pare_status pare_csv_make_part(const pare_csv_rows *rows, const pare_csv_row *row,
                               pare_csv_made *made, pare_error *err)
{
    *made = (pare_csv_made){0};
    pare_status status = find_kind(rows, row, made, err);
    if (status != PARE_OK)
        return status;
    making m = {.rows = rows,
                .row = row,
                .kind = made->kind,
                .mass_known = -1,
                .top = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0),
                .price = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0),
                .owned = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0),
                .spec = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0),
                .fits = pare_csv_node(rows, PARE_NODE_MAP, row->line, 0)};
    if (!m.top || !m.price || !m.owned || !m.spec || !m.fits)
        return pare_no_memory(err);
    status = fill(&m, made, err);
    if (status == PARE_OK)
        finish(&m);
    m.no_memory = m.no_memory || m.note.failed;
    pare_text_free(&m.note);
    if (status == PARE_OK && m.no_memory)
        status = pare_no_memory(err);
    made->part = m.top;
    made->id = m.top->first ? m.top->first->text : "";
    return status;
}
