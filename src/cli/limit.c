/* limit.c: `pare craft limit`: the limits of a brief, from the command line.
 *
 * A word is KEY=VALUE, where the figure's better side says whether it is a most or a least, or
 * KEY<=VALUE and KEY>=VALUE. All words are checked before the bench is opened to be written. */
#include <assert.h>
#include <string.h>

#include "cli/start.h"
#include "cli/use.h"
#include "craft/figure.h"
#include "show/catalogue.h"
#include "show/digits.h"
#include "show/sheet_view.h"

#define THING "craft limit"

/* ---- words ---- */

static pare_status no_key(const char *key, pare_error *err)
{
    const char *names[PARE_FIGURES + 1], *near;
    size_t count = pare_figure_limit_names(PARE_FIGURES, names);
    names[count++] = "margin";
    for (int i = 0; i < PARE_FIGURES; i++)
        if (strcmp(pare_figure_table[i].key, key) == 0 && pare_figure_table[i].stem)
            return pare_fail(err, PARE_UNKNOWN,
                             THING ": no limit is called '%s'; right is %s, less the unit", key,
                             pare_figure_table[i].stem);
    near = pare_nearest(key, count, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, THING ": no limit is called '%s'; did you mean %s?",
                         key, near);
    return pare_fail(err, PARE_UNKNOWN,
                     THING ": no limit is called '%s'; right would be a figure of the sheet less "
                           "its unit, like all_up, flown, money or margin",
                     key);
}

/* Which side, as typed or as the figure's better side; the value follows. */
static pare_status side_of(const char *key, int figure, const char *from, const char **side,
                           const char **value, pare_error *err)
{
    const int better = figure < 0 ? 1 : pare_figure_table[figure].better;
    from += *from == '=' && (from[1] == '<' || from[1] == '>');
    if (from[0] == '<' || from[0] == '>') {
        *side = from[0] == '<' ? "<=" : ">=";
        *value = from + 1 + (from[1] == '=');
        return PARE_OK;
    }
    *value = from + 1;
    if (better == 0 && strcmp(*value, "off") != 0)
        return pare_fail(err, PARE_BAD_DATA,
                         THING ": %s is better neither way; right would be '%s<=%.40s' or "
                               "'%s>=%.40s'",
                         key, key, *value, key, *value);
    *side = better > 0 ? ">=" : "<=";
    return PARE_OK;
}

static pare_status read_word(const char *word, pare_units *units, pare_arena *arena,
                             pare_limit_change *change, pare_error *err)
{
    const size_t length = strcspn(word, "<>=");
    const char *side = "", *value = "";
    double number = 0;
    if (length == 0 || word[length] == '\0')
        return pare_fail(err, PARE_BAD_DATA,
                         THING ": '%.60s' is not key=value, like all_up=600g or flown=off", word);
    if (length > 60)
        return pare_fail(err, PARE_UNKNOWN, THING ": no limit is called '%.60s...'", word);
    const char *key = pare_arena_copy(arena, word, length);
    if (!key)
        return pare_no_memory(err);
    const int figure = pare_figure_of_limit(key);
    if (figure < 0 && strcmp(key, "margin") != 0)
        return no_key(key, err);
    pare_status status = side_of(key, figure, word + length, &side, &value, err);
    if (status != PARE_OK)
        return status;
    *change = (pare_limit_change){.key = key};
    if (strcmp(value, "off") == 0)
        return PARE_OK;
    status = pare_quantity(units, value,
                           figure < 0 ? PARE_DIM_NUMBER : pare_figure_table[figure].dimension,
                           &number, err);
    if (status != PARE_OK)
        return pare_within(err, THING ": %s", key);
    value += strspn(value, " \t");
    change->text = pare_arena_printf(arena, "%s %s", side, value);
    return change->text ? PARE_OK : pare_no_memory(err);
}

static bool is_there(size_t count, const pare_limit_change change[], const char *key)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(change[i].key, key) == 0)
            return true;
    return false;
}

static pare_status read_words(const options *given, pare_arena *arena,
                              pare_limit_change change[OPERANDS], size_t *count, pare_error *err)
{
    pare_units *units = pare_units_open();
    pare_status status = units ? PARE_OK : pare_no_memory(err);
    *count = 0;
    for (size_t i = 2; i < given->operands && status == PARE_OK; i++) {
        pare_limit_change one = {0};
        status = read_word(given->operand[i], units, arena, &one, err);
        if (status != PARE_OK)
            break;
        assert(one.key);
        if (is_there(*count, change, one.key))
            status = pare_fail(err, PARE_BAD_DATA, THING ": %s is given twice", one.key);
        change[(*count)++] = one;
    }
    pare_units_close(units);
    return status;
}

/* ---- the answer ---- */

static pare_status answer(const options *given, const char *name, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    const pare_craft *craft = NULL;
    pare_status status = bench_use_craft(given, name, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, name, &craft, err);
    if (status == PARE_OK && given->given & OPTION_JSON) {
        pare_json_write(pare_craft_object(craft), out);
    } else if (status == PARE_OK) {
        const pare_brief *brief = &craft->brief;
        pare_text_printf(out, "%s %s\n", name, brief->limits ? "must have" : "has no limits");
        for (size_t i = 0; i < brief->limits; i++) {
            const pare_limit *limit = &brief->limit[i];
            const int figure = pare_figure_of_limit(limit->key);
            const pare_figure_row *row = figure < 0 ? NULL : &pare_figure_table[figure];
            char text[PARE_DIGITS];
            pare_text_printf(out, "  %s %s %s%s%s\n",
                             row ? row->words : "least margin of all ratings",
                             limit->at_least ? ">=" : "<=",
                             pare_digits_limit(text, limit->value * (row ? row->scale : 1)),
                             row && row->unit[0] ? " " : "", row ? row->unit : "");
        }
    }
    bench_leave(&use);
    return status;
}

pare_status craft_limit(const options *given, pare_text *out, pare_error *err)
{
    pare_limit_change limit[OPERANDS];
    size_t count = 0;
    bench_in_use use = {0};
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands(THING, given, 3, OPERANDS,
                               "a craft and its limits, like all_up=600g", err);
    if (status == PARE_OK)
        status = read_words(given, arena, limit, &count, err);
    /* Read first: a name that is not there, or a bench that is not, is said as everywhere. */
    if (status == PARE_OK)
        status = bench_use_craft(given, given->operand[1], &use, err);
    if (status == PARE_OK) {
        const pare_change change = change_of("craft", given, arena);
        pare_store *store = NULL;
        status = bench_store(use.path.bytes, PARE_STORE_WRITE, &store, err);
        if (status == PARE_OK)
            status = pare_store_set_limits(store, given->operand[1], count, limit, &change, err);
        pare_store_close(store);
    }
    bench_leave(&use);
    if (status == PARE_OK)
        status = after_change(answer(given, given->operand[1], out, err), err);
    pare_arena_close(arena);
    return status;
}
