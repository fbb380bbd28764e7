/* parts.c: `pare parts`: what the bench holds, and one part in full. */
#include <ctype.h>
#include <string.h>

#include "cli/command.h"
#include "cli/usage.h"
#include "cli/use.h"
#include "show/catalogue.h"

/* Whether a text holds a word, in capitals or not. */
static bool holds(const char *text, const char *word)
{
    const size_t length = strlen(word);
    for (; text && strlen(text) >= length; text++) {
        size_t i = 0;
        while (i < length && tolower((unsigned char)text[i]) == tolower((unsigned char)word[i]))
            i++;
        if (i == length)
            return true;
    }
    return false;
}

static bool wanted(const pare_part *part, int kind, size_t words, const char *const word[])
{
    if (kind >= 0 && part->kind != (pare_kind)kind)
        return false;
    for (size_t i = 0; i < words; i++)
        if (!holds(part->id, word[i]) && !holds(part->maker, word[i]) &&
            !holds(pare_kind_words(part->kind), word[i]) &&
            !holds(pare_kind_name(part->kind), word[i]))
            return false;
    return true;
}

static pare_status read_kind(const options *given, int *kind, pare_error *err)
{
    *kind = -1;
    if (!(given->given & OPTION_KIND))
        return PARE_OK;
    *kind = pare_kind_named(given->kind);
    if (*kind >= 0)
        return PARE_OK;
    const char *names[PARE_KINDS];
    for (int k = 0; k < PARE_KINDS; k++)
        names[k] = pare_kind_name((pare_kind)k);
    const char *near = pare_nearest(given->kind, PARE_KINDS, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "no kind '%s'; did you mean %s?", given->kind, near);
    return pare_fail(err, PARE_UNKNOWN,
                     "no kind '%s'; there are frame, motor, propeller, pack, "
                     "camera and others: pare parts shows each part's",
                     given->kind);
}

/* What a word that no part holds may have meant: a kind, an id, or a word of this command. */
static void none(const options *given, const pare_bench *bench, pare_text *out)
{
    const size_t most = PARE_KINDS + bench->parts + 1;
    const char **known = pare_arena_array(bench->arena, most, sizeof *known);
    const char *near = NULL;
    size_t count = 0;
    for (int kind = 0; known && kind < PARE_KINDS; kind++)
        known[count++] = pare_kind_name((pare_kind)kind);
    for (size_t i = 0; known && i < bench->parts; i++)
        known[count++] = bench->part[i]->id;
    for (size_t i = 0; known && i < given->operands && !near; i++)
        near = pare_nearest(given->operand[i], count, known);
    char subcommand[USAGE_WORD];
    if (given->operands && usage_nearest(command_parts.usage, given->operand[0], subcommand))
        pare_text_printf(out, "No such part on this bench; did you mean pare parts %s?\n",
                         subcommand);
    else if (near)
        pare_text_printf(out, "No such part on this bench; did you mean %s?\n", near);
    else
        pare_text_add(out, "No such part on this bench.\n");
}

static pare_status list(const options *given, const bench_in_use *use, pare_text *out,
                        pare_error *err)
{
    int kind;
    const pare_status status = read_kind(given, &kind, err);
    if (status != PARE_OK)
        return status;
    const pare_bench *bench = use->bench;
    const pare_part **found = pare_arena_array(bench->arena, bench->parts + 1, sizeof found[0]);
    if (!found)
        return pare_no_memory(err);
    size_t count = 0;
    for (size_t i = 0; i < bench->parts; i++)
        if (wanted(bench->part[i], kind, given->operands, given->operand))
            found[count++] = bench->part[i];
    if (given->given & OPTION_JSON) {
        json_t *object = json_object(), *parts = json_array();
        for (size_t i = 0; i < count; i++)
            json_array_append_new(parts, pare_part_object(found[i]));
        json_object_set_new(object, "parts", parts);
        pare_json_write(object, out);
    } else if (count == 0) {
        none(given, bench, out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_parts_text(count, found, bench->money, &screen, out);
    }
    return PARE_OK;
}

static pare_status show(const options *given, const bench_in_use *use, pare_text *out,
                        pare_error *err)
{
    const pare_part *part;
    pare_status status = need_operands("parts show", given, 2, 2, "one part's id", err);
    if (status == PARE_OK)
        status = bench_part(use, given->operand[1], &part, err);
    if (status != PARE_OK)
        return status;
    if (given->given & OPTION_JSON) {
        pare_json_write(pare_part_object(part), out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_part_text(part, use->bench->money, &screen, out);
    }
    return PARE_OK;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_status status = bench_use(given, &use, err);
    if (status == PARE_OK) {
        const bool one = given->operands > 0 && strcmp(given->operand[0], "show") == 0;
        status = one ? show(given, &use, out, err) : list(given, &use, out, err);
    }
    bench_leave(&use);
    return status;
}

const command command_parts = {
    .name = "parts",
    .line = "the parts on the bench: list, find, show one",
    .usage = "pare parts [WORD...] [--kind KIND] [--json]\npare parts show PART [--json]",
    .details = "  WORD  parts with that word in id, kind or maker\n",
    .example = "  pare parts --kind motor\n"
               "  pare parts show mo-2207-1950\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_KIND,
    .run = run,
};
