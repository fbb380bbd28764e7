/* csv_fast.c: plain rows of a parts list, without the text form in between (see csv_fast.h).
 *
 * The general way makes a tree of a row, reads a part out of it and writes the tree: right for any row,
 * and thirty allocations and as many searches by name for each. Here the searches are done once: for
 * each kind, what each column is to it; for each column, what its unit multiplies by; and texts that
 * come again (kinds, stators) are remembered. A cell that is not plainly a number, a known unit, a name
 * or blank ends the attempt, and the row goes the general way; so this file need not know what is right
 * about anything unusual, and refuses nothing.
 *
 * Numbers of up to 15 digits are a whole number over a power of ten, both exact, so that one division
 * rounds as strtod() does (Clinger, "How to Read Floating Point Numbers Accurately", 1990). */
#include "store/csv_fast.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/csv_part.h"

enum {
    MEMOS = 64,
    KEY = 32,
    TEXT = 64,
    DIGITS_MOST = 15,
    LINE_MOST = 98, /* as tree_write.c breaks lines; the property test holds them together */
    ENTRIES = 8,
    DOC = 2048
};

/* What a column is to a kind. */
typedef enum op { LEAVE, SLOW, MASS, MAKER, PRICE, OWNED, QUANTITY, COUNT, PAIR, SPAN } op;

typedef struct step {
    op op;
    const pare_csv_column *column;
    size_t field;             /* of the row; columns that are set have a text instead */
    const pare_spec_row *row; /* of a spec */
} step;

/* A unit as it stands in cells, and what it makes of numbers. */
typedef struct unit_seen {
    bool known;
    char typed[16];
    const char *text; /* as it is written; "" for none */
    size_t length;
    pare_unit_factors factors;
} unit_seen;

/* A cell whose meaning was worked out the general way. */
typedef struct memo {
    char key[KEY]; /* "": free */
    pare_kind kind;
    bool plain; /* false: it goes the general way */
    char text[TEXT];
    size_t length;
    double low, high;
    bool two;
} memo;

struct pare_csv_fast {
    const pare_csv_plan *plan;
    pare_units *units;
    const pare_csv_column *id, *name, *kind;
    bool made[PARE_KINDS]; /* the steps of a kind are made when it comes up first */
    step *steps[PARE_KINDS];
    unit_seen (*unit)[2]; /* [columns]: of bare numbers, and the last one in a cell */
    memo kinds[MEMOS], pairs[MEMOS], spans[MEMOS];
    pare_part part;
    char id_text[64], maker[256];
    size_t entries;
    size_t from[ENTRIES + 1]; /* of each entry "key: value" in `line` */
    bool map[ENTRIES];        /* it is a map, which may be too long for a line */
    pare_text line, doc;
};

/* ---- plans ---- */

static op op_of(const pare_csv_column *column, pare_kind kind, const pare_spec_row **row)
{
    const pare_csv_target *target = column->target;
    const bool spec = target->map && strcmp(target->map, "spec") == 0;
    *row = NULL;
    if (!target->map) {
        switch (target->form) {
        case PARE_CSV_ID:
        case PARE_CSV_NAME:
        case PARE_CSV_KIND:
            return LEAVE;
        case PARE_CSV_TEXT:
            return strcmp(target->name, "maker") == 0 ? MAKER : SLOW;
        case PARE_CSV_QUANTITY:
            return strcmp(target->name, "mass") == 0 ? MASS : SLOW;
        case PARE_CSV_COUNT:
            return strcmp(target->name, "owned") == 0 ? OWNED : SLOW;
        default:
            return SLOW;
        }
    }
    if (strcmp(target->name, "price") == 0)
        return PRICE;
    *row = spec ? pare_spec_named(kind, target->name) : NULL;
    if (!*row)
        return SLOW;
    switch (target->form) {
    case PARE_CSV_QUANTITY:
        return QUANTITY;
    case PARE_CSV_COUNT:
        return COUNT;
    case PARE_CSV_PAIR:
        return PAIR;
    case PARE_CSV_SPAN:
        return SPAN;
    default:
        return SLOW;
    }
}

static bool make_steps(pare_csv_fast *fast, pare_kind kind)
{
    const pare_csv_plan *plan = fast->plan;
    step *steps = calloc(plan->ordered + 1, sizeof *steps);
    if (!steps)
        return false;
    for (size_t i = 0; i < plan->ordered; i++) {
        steps[i].column = plan->order[i];
        steps[i].field = (size_t)(plan->order[i] - plan->column);
        steps[i].op = op_of(plan->order[i], kind, &steps[i].row);
    }
    fast->steps[kind] = steps;
    fast->made[kind] = true;
    return true;
}

pare_status pare_csv_fast_open(const pare_csv_plan *plan, pare_units *units, pare_csv_fast **fast,
                               pare_error *err)
{
    pare_csv_fast *made = calloc(1, sizeof *made);
    *fast = made;
    if (!made)
        return pare_no_memory(err);
    made->plan = plan;
    made->units = units;
    made->id = pare_csv_column_of(plan, "id");
    made->name = pare_csv_column_of(plan, "name");
    made->kind = pare_csv_column_of(plan, "kind");
    made->unit = calloc(plan->columns + 1, sizeof *made->unit);
    return made->unit ? PARE_OK : pare_no_memory(err);
}

void pare_csv_fast_close(pare_csv_fast *fast)
{
    if (!fast)
        return;
    for (int kind = 0; kind < PARE_KINDS; kind++)
        free(fast->steps[kind]);
    free(fast->unit);
    pare_text_free(&fast->line);
    pare_text_free(&fast->doc);
    free(fast);
}

/* ---- cells ---- */

typedef struct cell {
    const char *text;
    size_t length;
} cell;

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* The cell of a column, without blanks in front; false where the row ends before. */
static bool cell_of(const pare_csv_column *column, size_t field, const pare_csv_row *row,
                    cell *found)
{
    if (column->set) {
        *found = (cell){column->set, strlen(column->set)};
        return true;
    }
    if (field >= row->count)
        return false;
    *found = (cell){row->field[field].text, row->field[field].length};
    while (found->length && *found->text == ' ') {
        found->text++;
        found->length--;
    }
    return true;
}

/* A unit of letters or '%' at the end of a cell, or none. @return NULL: it is for the general way */
static const unit_seen *unit_of(pare_csv_fast *fast, const step *s, const char *typed,
                                size_t length)
{
    const pare_dimension dimension = s->column->target->dimension;
    unit_seen *unit = &fast->unit[s->field][length > 0];
    if (length >= sizeof unit->typed)
        return NULL;
    if (unit->known && strlen(unit->typed) == length && memcmp(unit->typed, typed, length) == 0)
        return unit;
    for (size_t i = 0; i < length; i++)
        if (!is_letter(typed[i]) && typed[i] != '%')
            return NULL;
    unit->known = false;
    memcpy(unit->typed, typed, length);
    unit->typed[length] = '\0';
    unit->text =
        length ? pare_csv_unit(unit->typed, dimension) : (s->column->unit ? s->column->unit : "");
    for (const char *c = unit->text; *c; c++)
        if (!is_letter(*c) && *c != '%')
            return NULL;
    /* Which dimensions take a bare number is what the table says. */
    if (!pare_unit_factors_of(unit->text, dimension, &unit->factors))
        return NULL;
    unit->length = strlen(unit->text);
    unit->known = true;
    return unit;
}

/* A number in plain digits with at most one decimal sign, the table's own; what follows it. */
static const char *read_number(const pare_csv_fast *fast, cell c, double *number, size_t *decimals)
{
    static const double power[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                   1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const pare_decimal decimal = fast->plan->decimal;
    unsigned long long whole = 0;
    const char *at = c.text, *sign = NULL;
    int digits = 0;
    for (;; at++) {
        if (is_digit(*at)) {
            whole = 10 * whole + (unsigned)(*at - '0');
            if (++digits > DIGITS_MOST)
                return NULL;
        } else if ((*at == '.' || *at == ',') && !sign && at > c.text && is_digit(at[1])) {
            sign = at;
        } else {
            break;
        }
    }
    *decimals = sign ? (size_t)(at - sign) - 1 : 0;
    if (digits == 0 || *at == '.' || *at == ',' || *at == '\'' || *at == 'e' || *at == 'E')
        return NULL;
    /* Three decimals may be thousands. */
    const bool own = decimal == PARE_DECIMAL_COMMA ? sign && *sign == ',' : sign && *sign == '.';
    if (sign && *decimals == 3 && (!own || decimal == PARE_DECIMAL_BOTH))
        return NULL;
    *number = (double)whole / power[*decimals];
    return at;
}

/* Digits as they are written: with a point. */
static void put_digits(pare_text *out, const char *from, const char *to)
{
    const size_t start = out->length;
    pare_text_put(out, from, (size_t)(to - from));
    for (size_t i = start; i < out->length; i++)
        if (out->bytes[i] == ',')
            out->bytes[i] = '.';
}

/* "12.5 g" into the line. */
static bool put_quantity(pare_csv_fast *fast, const step *s, cell c, double *value)
{
    double number = 0;
    size_t decimals = 0;
    const char *end = read_number(fast, c, &number, &decimals);
    if (!end)
        return false;
    const char *typed = end;
    while (*typed == ' ')
        typed++;
    /* "1 300" */
    const size_t length = (size_t)(c.text + c.length - typed);
    const unit_seen *unit = unit_of(fast, s, typed, length);
    if (!unit)
        return false;
    *value = (number - unit->factors.zero) * unit->factors.times / unit->factors.over;
    put_digits(&fast->line, c.text, end);
    if (unit->length) {
        pare_text_put(&fast->line, " ", 1);
        pare_text_put(&fast->line, unit->text, unit->length);
    }
    return true;
}

static bool in_range(const pare_spec_row *row, double value)
{
    return value >= row->low && value <= row->high;
}

static void set(pare_part *part, const pare_spec_row *row, double value)
{
    part->spec[row->spec] = (pare_value){.value = value, .known = PARE_STATED, .given = true};
}

/* ---- what comes again ---- */

/* The place of a cell among those remembered. @param[out] fresh  it has to be worked out */
static memo *remember(memo memos[MEMOS], cell c, pare_kind kind, bool *fresh)
{
    size_t hash = c.length;
    if (c.length == 0 || c.length >= KEY)
        return NULL;
    for (size_t i = 0; i < c.length; i++)
        hash = hash * 31 + (unsigned char)c.text[i];
    memo *m = &memos[hash % MEMOS];
    *fresh = m->kind != kind || memcmp(m->key, c.text, c.length) != 0 || m->key[c.length];
    if (*fresh) {
        memcpy(m->key, c.text, c.length);
        m->key[c.length] = '\0';
        m->kind = kind;
        m->plain = false;
    }
    return m;
}

static int kind_of(pare_csv_fast *fast, cell c)
{
    bool fresh = false;
    memo *m = remember(fast->kinds, c, PARE_KINDS, &fresh);
    if (!m)
        return -1;
    if (fresh) {
        char tidy[64];
        pare_csv_tidy(m->key, tidy, sizeof tidy);
        /* A word that says the chemistry too is unusual enough. */
        const bool plain = !pare_csv_is_nothing(m->key) && !pare_csv_kind_chemistry(tidy);
        m->low = plain ? pare_csv_kind(tidy) : -1;
    }
    return (int)m->low;
}

static const memo *pair_of(pare_csv_fast *fast, const step *s, pare_kind kind, cell c)
{
    bool fresh = false;
    memo *m = remember(fast->pairs, c, kind, &fresh);
    if (!m || !fresh)
        return m;
    char value[PARE_CSV_VALUE];
    double size[2];
    size_t count = 0;
    if (!pare_csv_read_pair(m->key, fast->plan->decimal, value) || strlen(value) >= TEXT ||
        strpbrk(value, "\"',") ||
        pare_sizes(fast->units, value, PARE_DIM_LENGTH, 2, size, &count, NULL) != PARE_OK ||
        count != 2)
        return m;
    m->length = strlen(value);
    memcpy(m->text, value, m->length + 1);
    m->low = size[0];
    m->high = size[1];
    m->plain = in_range(s->row, size[0]) && in_range(s->row + 1, size[1]);
    return m;
}

static const memo *span_of(pare_csv_fast *fast, const step *s, pare_kind kind, cell c)
{
    bool fresh = false;
    memo *m = remember(fast->spans, c, kind, &fresh);
    if (!m || !fresh)
        return m;
    char value[PARE_CSV_VALUE];
    if (pare_csv_read_span(m->key, fast->plan->decimal, s->row->dimension, s->column->unit, value,
                           NULL) != PARE_OK ||
        strlen(value) >= TEXT || strpbrk(value, "\"',") ||
        pare_range(fast->units, value, s->row->dimension, &m->low, &m->high, NULL) != PARE_OK)
        return m;
    m->length = strlen(value);
    memcpy(m->text, value, m->length + 1);
    m->two = strstr(value, "..") != NULL;
    m->plain = is_digit(value[0]) && (!m->two || in_range(s->row, m->low)) &&
               in_range(s->row + 1, m->high);
    return m;
}

/* ---- entries ---- */

static void begin_entry(pare_csv_fast *fast, const char *key, bool map)
{
    fast->from[fast->entries] = fast->line.length;
    fast->map[fast->entries++] = map;
    pare_text_add(&fast->line, key);
    pare_text_put(&fast->line, ": ", 2);
}

/* Letters, digits, blanks and a few signs that no scalar has to be quoted for. */
static bool is_plain_text(cell c)
{
    if (c.length == 0 || c.length >= 128 || !is_letter(c.text[0]))
        return false;
    for (size_t i = 0; i < c.length; i++) {
        const char one = c.text[i];
        if (!is_letter(one) && !is_digit(one) && one != ' ' && one != '-' && one != '.' &&
            one != '/' && one != '&' && one != '+')
            return false;
    }
    return true;
}

static bool put_maker(pare_csv_fast *fast, cell c)
{
    while (c.length && c.text[c.length - 1] == ' ')
        c.length--;
    if (!is_plain_text(c))
        return false;
    memcpy(fast->maker, c.text, c.length);
    fast->maker[c.length] = '\0';
    fast->part.maker = fast->maker;
    begin_entry(fast, "maker", false);
    pare_text_put(&fast->line, c.text, c.length);
    return true;
}

static bool put_mass(pare_csv_fast *fast, const step *s, cell c)
{
    const int known = s->column->known;
    const bool map = known >= 0 && known != PARE_STATED;
    double kg = 0;
    begin_entry(fast, "mass", map);
    if (map)
        pare_text_add(&fast->line, "{value: ");
    if (!put_quantity(fast, s, c, &kg) || !(kg >= PARE_PART_LEAST_KG && kg <= PARE_PART_MOST_KG))
        return false;
    if (map) {
        pare_text_add(&fast->line, ", known: ");
        pare_text_add(&fast->line, pare_known_name((pare_known)known));
        pare_text_put(&fast->line, "}", 1);
    }
    fast->part.mass_kg =
        (pare_value){.value = kg, .known = map ? (pare_known)known : PARE_STATED, .given = true};
    return true;
}

/* The most that one costs: as read_part.c has it. */
#define MONEY_MOST 1e6

static bool put_price(pare_csv_fast *fast, cell c)
{
    double each = 0;
    size_t decimals = 0;
    const char *end = read_number(fast, c, &each, &decimals);
    if (!end || end != c.text + c.length || each > MONEY_MOST)
        return false;
    begin_entry(fast, "price", false);
    put_digits(&fast->line, c.text, end);
    fast->part.price = (pare_price){.given = true, .each = each, .sold_in = 1};
    return true;
}

/* Digits alone, or with the S of cells. */
static bool read_count(cell c, double most, double *count, size_t *digits)
{
    *count = 0;
    for (*digits = 0; *digits < c.length && is_digit(c.text[*digits]); ++*digits)
        *count = 10 * *count + (c.text[*digits] - '0');
    const size_t rest = c.length - *digits;
    return *digits > 0 && *digits <= 9 && *count <= most &&
           (rest == 0 || (rest == 1 && (c.text[*digits] == 'S' || c.text[*digits] == 's')));
}

static bool put_owned(pare_csv_fast *fast, cell c)
{
    double count = 0;
    size_t digits = 0;
    if (!read_count(c, 100000, &count, &digits))
        return false;
    begin_entry(fast, "owned", false);
    pare_text_put(&fast->line, c.text, digits);
    fast->part.owned = (int)count;
    return true;
}

static bool put_spec(pare_csv_fast *fast, const step *s, pare_kind kind, cell c, bool *open)
{
    double value = 0;
    size_t digits = 0;
    const memo *m = NULL;
    if (!*open)
        begin_entry(fast, "spec", true);
    pare_text_add(&fast->line, *open ? ", " : "{");
    *open = true;
    pare_text_add(&fast->line, s->row->name);
    pare_text_put(&fast->line, ": ", 2);
    switch (s->op) {
    case QUANTITY:
        if (!put_quantity(fast, s, c, &value) || !in_range(s->row, value))
            return false;
        set(&fast->part, s->row, value);
        return true;
    case COUNT:
        if (!read_count(c, 1e9, &value, &digits) || !in_range(s->row, value))
            return false;
        pare_text_put(&fast->line, c.text, digits);
        set(&fast->part, s->row, value);
        return true;
    case PAIR:
        m = pair_of(fast, s, kind, c);
        break;
    default:
        m = span_of(fast, s, kind, c);
        break;
    }
    if (!m || !m->plain)
        return false;
    pare_text_put(&fast->line, m->text, m->length);
    if (s->op == PAIR || m->two)
        set(&fast->part, s->row, m->low);
    set(&fast->part, s->row + 1, m->high);
    return true;
}

/* ---- the row ---- */

/* A typed id, or one made of the name. */
static bool put_id(pare_csv_fast *fast, const pare_csv_row *row, bool *named)
{
    cell c = {"", 0};
    *named = !fast->id || !cell_of(fast->id, (size_t)(fast->id - fast->plan->column), row, &c) ||
             c.length == 0;
    if (*named) {
        if (!fast->name ||
            !cell_of(fast->name, (size_t)(fast->name - fast->plan->column), row, &c) ||
            pare_csv_is_nothing(c.text))
            return false;
        pare_csv_make_id(c.text, 1, fast->id_text);
        if (!fast->id_text[0])
            return false;
    } else {
        if (c.length > 48 || !(is_letter(c.text[0]) || is_digit(c.text[0])) ||
            pare_csv_is_nothing(c.text))
            return false;
        for (size_t i = 0; i < c.length; i++)
            if (!is_letter(c.text[i]) && !is_digit(c.text[i]) && c.text[i] != '-' &&
                c.text[i] != '_' && c.text[i] != '.')
                return false;
        memcpy(fast->id_text, c.text, c.length + 1);
    }
    fast->part.id = fast->id_text;
    begin_entry(fast, "id", false);
    pare_text_add(&fast->line, fast->id_text);
    return true;
}

static bool find_kind(pare_csv_fast *fast, const pare_csv_row *row, pare_kind *kind)
{
    cell c;
    if (!fast->kind || !cell_of(fast->kind, (size_t)(fast->kind - fast->plan->column), row, &c))
        return false;
    const int found = kind_of(fast, c);
    if (found < 0)
        return false;
    *kind = (pare_kind)found;
    return fast->made[found] || make_steps(fast, *kind);
}

static bool put_cells(pare_csv_fast *fast, const pare_csv_row *row, pare_kind kind)
{
    bool spec = false;
    for (size_t i = 0; i < fast->plan->ordered; i++) {
        const step *s = &fast->steps[kind][i];
        cell c;
        if (s->op == LEAVE || !cell_of(s->column, s->field, row, &c) || c.length == 0)
            continue;
        if (!is_digit(c.text[0]) && pare_csv_is_nothing(c.text))
            continue;
        bool put = false;
        switch (s->op) {
        case MASS:
            put = put_mass(fast, s, c);
            break;
        case MAKER:
            put = put_maker(fast, c);
            break;
        case PRICE:
            put = put_price(fast, c);
            break;
        case OWNED:
            put = put_owned(fast, c);
            break;
        case LEAVE:
        case SLOW:
            break;
        default:
            put = put_spec(fast, s, kind, c, &spec);
            break;
        }
        if (!put)
            return false;
    }
    if (spec)
        pare_text_put(&fast->line, "}", 1);
    return true;
}

/* All on one line where it fits, else a line an entry; a map too long for its line is for others. */
static bool write_doc(pare_csv_fast *fast)
{
    const size_t length = fast->line.length + 2 + 2 * (fast->entries - 1);
    fast->doc.length = 0;
    fast->from[fast->entries] = fast->line.length;
    const bool flow = length <= LINE_MOST;
    if (flow)
        pare_text_put(&fast->doc, "{", 1);
    for (size_t i = 0; i < fast->entries; i++) {
        const size_t entry = fast->from[i + 1] - fast->from[i];
        if (!flow && fast->map[i] && entry > LINE_MOST)
            return false;
        if (i)
            pare_text_put(&fast->doc, flow ? ", " : "\n", flow ? 2 : 1);
        pare_text_put(&fast->doc, fast->line.bytes + fast->from[i], entry);
    }
    if (flow)
        pare_text_put(&fast->doc, "}", 1);
    return !fast->doc.failed && !fast->line.failed && fast->doc.length < DOC;
}

bool pare_csv_fast_read(pare_csv_fast *fast, const pare_csv_row *row, pare_arena *arena,
                        const pare_part **part, const char **doc, size_t *length, bool *named)
{
    pare_kind kind;
    if (!find_kind(fast, row, &kind))
        return false;
    memset(&fast->part, 0, sizeof fast->part);
    fast->part.kind = kind;
    fast->part.does = 1u << kind;
    fast->line.length = 0;
    fast->entries = 0;
    if (!put_id(fast, row, named))
        return false;
    begin_entry(fast, "kind", false);
    pare_text_add(&fast->line, pare_kind_name(kind));
    if (!put_cells(fast, row, kind) || !write_doc(fast) ||
        pare_part_complete(&fast->part, arena, NULL) != PARE_OK)
        return false;
    *part = &fast->part;
    *doc = fast->doc.bytes;
    *length = fast->doc.length;
    return true;
}
