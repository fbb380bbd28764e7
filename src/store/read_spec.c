/* read_spec.c: a part's specs out of their text, by the table of its kind (craft/spec.h).
 *
 * Two specs may share a name: "stator: 22 mm x 7 mm" is diameter and length, "volts: 11 V .. 25.5 V"
 * the lowest and the highest. A few specs are words and stand in the part itself. */
#include <string.h>

#include "store/read_part.h"

bool pare_spec_is_word(pare_kind kind, const char *name)
{
    static const struct {
        pare_kind kind;
        const char *name;
    } words[] = {{PARE_PROPELLER, "line"},   {PARE_PACK, "chemistry"},
                 {PARE_ANTENNA, "hand"},     {PARE_ANTENNA, "cable"},
                 {PARE_PIGTAIL, "cable"},    {PARE_PIGTAIL, "ends"},
                 {PARE_ADAPTER, "ends"},     {PARE_STANDOFF, "material"},
                 {PARE_PRINTED, "material"}, {PARE_BUMPER, "material"},
                 {PARE_HOLDER, "material"},  {PARE_OTHER, "material"},
                 {PARE_PAD, "material"},     {PARE_STRAP, "material"},
                 {PARE_TIE, "material"},     {PARE_PROPELLER, "material"},
                 {PARE_FRAME, "material"},   {PARE_PROPELLER_NUT, "material"}};
    for (size_t i = 0; i < PARE_COUNT(words); i++)
        if (words[i].kind == kind && strcmp(words[i].name, name) == 0)
            return true;
    return false;
}

size_t pare_spec_names(pare_kind kind, const char *names[PARE_SPEC_NAMES])
{
    static const char *const words[] = {"line", "chemistry", "hand", "cable", "ends", "material"};
    size_t count = 0;
    for (size_t i = 0; i < pare_spec_rows && count < PARE_SPEC_NAMES - PARE_COUNT(words); i++) {
        const pare_spec_row *row = &pare_spec_table[i];
        const bool second = count && strcmp(names[count - 1], row->name) == 0;
        if (row->kind == kind && row->spec != PARE_SPEC_SCREW_DEPTH && !second)
            names[count++] = row->name;
    }
    for (size_t i = 0; i < PARE_COUNT(words); i++)
        if (pare_spec_is_word(kind, words[i]))
            names[count++] = words[i];
    return count;
}

static const pare_spec_row *twin(const pare_spec_row *row)
{
    const pare_spec_row *next = row + 1;
    const bool there = next < pare_spec_table + pare_spec_rows;
    return there && next->kind == row->kind && strcmp(next->name, row->name) == 0 ? next : NULL;
}

static pare_status check_range(const pare_reading *reading, const pare_node *node,
                               const pare_spec_row *row, double value, pare_error *err)
{
    return pare_check_range(reading, node, row->name, row->dimension, row->low, row->high, value,
                            err);
}

static void set(pare_part *part, pare_spec spec, double value)
{
    part->spec[spec] = (pare_value){.value = value, .known = PARE_STATED, .given = true};
}

/* "22 mm x 7 mm", or [22 mm, 7 mm]. */
static pare_status read_pair(const pare_reading *reading, const pare_node *node,
                             const pare_spec_row *row, pare_part *part, pare_error *err)
{
    double size[2] = {0};
    size_t count = 0;
    const pare_spec_row *second = twin(row);
    if (node->form == PARE_NODE_SCALAR) {
        const pare_status status =
            pare_sizes(reading->units, node->text, row->dimension, 2, size, &count, err);
        if (status != PARE_OK)
            return pare_refused_at(reading, node, row->name, err);
        if (count != 2)
            return pare_refuse(reading, node, PARE_BAD_DATA, err,
                               "%s of '%.40s'; right would be two sizes, like 22 mm x 7 mm",
                               row->name, node->text);
        pare_status in_range = check_range(reading, node, row, size[0], err);
        if (in_range == PARE_OK)
            in_range = check_range(reading, node, second, size[1], err);
        if (in_range != PARE_OK)
            return in_range;
    } else {
        const double low = row->low < second->low ? row->low : second->low;
        const double high = row->high > second->high ? row->high : second->high;
        const pare_status status = pare_read_quantities(reading, node, row->name, row->dimension,
                                                        low, high, 2, 2, size, &count, err);
        if (status != PARE_OK)
            return status;
    }
    set(part, row->spec, size[0]);
    set(part, second->spec, size[1]);
    return PARE_OK;
}

/* "11 V .. 25.5 V"; one voltage is the highest. */
static pare_status read_span(const pare_reading *reading, const pare_node *node,
                             const pare_spec_row *row, pare_part *part, pare_error *err)
{
    if (node->form != PARE_NODE_SCALAR)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%s is one value or a range here, like 11 V .. 25.5 V", row->name);
    double low = 0, high = 0;
    pare_status status = pare_range(reading->units, node->text, row->dimension, &low, &high, err);
    if (status != PARE_OK)
        return pare_refused_at(reading, node, row->name, err);
    const bool range = strstr(node->text, "..") != NULL;
    if (range)
        status = check_range(reading, node, row, low, err);
    if (status == PARE_OK)
        status = check_range(reading, node, twin(row), high, err);
    if (status != PARE_OK)
        return status;
    if (range)
        set(part, row->spec, low);
    set(part, twin(row)->spec, high);
    return PARE_OK;
}

static pare_status read_ends(const pare_reading *reading, const pare_node *node, pare_part *part,
                             pare_error *err)
{
    static const char *const words[] = {"snap", "screw", "solder"};
    pare_status status = pare_need_list(reading, node, "ends", err);
    if (status == PARE_OK && node->count != 2)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%zu ends; right would be two, like [snap, screw], towards the "
                           "transmitter first",
                           node->count);
    size_t i = 0;
    for (const pare_node *end = node->first; end && status == PARE_OK; end = end->next) {
        int index = 0;
        status = pare_read_choice(reading, end, "end", PARE_COUNT(words), words, &index, err);
        part->ends[i++] = words[index];
    }
    return status;
}

static pare_status read_word(const pare_reading *reading, const pare_node *node, pare_part *part,
                             pare_error *err)
{
    int index = 0;
    pare_status status;
    if (strcmp(node->key, "chemistry") == 0) {
        status = pare_read_choice(reading, node, "chemistry", PARE_CHEMISTRIES,
                                  pare_chemistry_names, &index, err);
        part->chemistry = (pare_chemistry)index;
        return status;
    }
    if (strcmp(node->key, "line") == 0) {
        const char *lines[PARE_PROP_LINES];
        for (int line = 0; line < PARE_PROP_LINES; line++)
            lines[line] = pare_prop_line_name((pare_prop_line)line);
        status = pare_read_choice(reading, node, "line", PARE_PROP_LINES, lines, &index, err);
        part->line = (pare_prop_line)index;
        return status;
    }
    if (strcmp(node->key, "hand") == 0) {
        status = pare_read_choice(reading, node, "hand", PARE_HANDS, pare_hand_names, &index, err);
        part->hand = index;
        return status;
    }
    if (strcmp(node->key, "ends") == 0)
        return read_ends(reading, node, part, err);
    if (strcmp(node->key, "cable") == 0)
        return pare_read_text(reading, node, "cable", &part->cable, err);
    return pare_read_text(reading, node, "material", &part->material, err);
}

static pare_status read_one(const pare_reading *reading, const pare_node *node, pare_part *part,
                            pare_error *err)
{
    if (pare_spec_is_word(part->kind, node->key))
        return read_word(reading, node, part, err);
    const pare_spec_row *row = pare_spec_named(part->kind, node->key);
    if (row->spec == PARE_SPEC_STATOR_DIAMETER)
        return read_pair(reading, node, row, part, err);
    if (row->spec == PARE_SPEC_VOLTS_LOW)
        return read_span(reading, node, row, part, err);
    const bool word = node->form == PARE_NODE_SCALAR && strspn(node->text, "0123456789.") == 0;
    if (row->spec == PARE_SPEC_SLOW && word) {
        bool slow = false;
        const pare_status status = pare_read_bool(reading, node, "slow", &slow, err);
        set(part, row->spec, slow);
        return status;
    }
    return pare_read_value(reading, node, row->name, row->dimension, row->low, row->high,
                           &part->spec[row->spec], err);
}

pare_status pare_read_spec(const pare_reading *reading, const pare_node *node, pare_part *part,
                           pare_error *err)
{
    const char *names[PARE_SPEC_NAMES];
    const size_t count = pare_spec_names(part->kind, names);
    if (count == 0 && node->form == PARE_NODE_MAP && node->first)
        return pare_refuse(reading, node, PARE_UNKNOWN, err, "a %s has no specs; leave spec out",
                           pare_kind_words(part->kind));
    char what[64] = "spec of ";
    strncat(what, pare_kind_name(part->kind), sizeof what - strlen(what) - 1);
    pare_status status = pare_read_keys(reading, node, what, count, names, err);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_one(reading, one, part, err);
    return status;
}
