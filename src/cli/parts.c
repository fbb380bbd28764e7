/* parts.c: `pare parts`: what the bench holds, and one part in full. */
#include <string.h>

#include "cli/command.h"
#include "cli/edit.h"
#include "cli/find.h"
#include "cli/use.h"
#include "show/catalogue.h"

typedef struct showing {
    const char *money;
    pare_text *out;
    bool json;
    const pare_bench *stands; /* what a stand measured of it */
} showing;

static pare_status show_part(void *context, const pare_part *part, pare_error *err)
{
    (void)err;
    const showing *s = context;
    if (s->json) {
        json_t *object = pare_part_object(part);
        json_object_set_new(object, "stands",
                            pare_stands_object(s->stands->stands, s->stands->stand));
        pare_json_write(object, s->out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_part_text(part, s->money, &screen, s->out);
        pare_part_stands_text(part->id, s->stands->stands, s->stands->stand, s->out);
    }
    return PARE_OK;
}

static pare_status show(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    showing s = {.out = out, .json = given->given & OPTION_JSON};
    pare_bench *stands = NULL;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("parts show", given, 2, 2, "one part's id", err);
    if (status == PARE_OK)
        status = bench_open(given, PARE_STORE_READ, &use, err);
    if (status == PARE_OK)
        status = pare_store_money(use.store, arena, &s.money, err);
    if (status == PARE_OK)
        status = pare_store_read_stands(use.store, given->operand[1], &stands, err);
    s.stands = stands;
    if (status == PARE_OK)
        status = pare_store_each_part(use.store, 1, &given->operand[1], show_part, &s, err);
    pare_bench_close(stands);
    bench_leave(&use);
    pare_arena_close(arena);
    return status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    if (given->operands > 0 && edit_is_word(given->operand[0]))
        return edit_thing(PARE_A_PART, given, out, err);
    if (given->operands > 0 && strcmp(given->operand[0], "show") == 0)
        return show(given, out, err);
    return parts_find(given, out, err);
}

static size_t words(size_t operands, const char *const operand[], size_t most, const char *name[])
{
    const bool takes_keys =
        operands > 1 && (strcmp(operand[0], "add") == 0 || strcmp(operand[0], "change") == 0);
    return takes_keys ? edit_keys(PARE_A_PART, most, name) : 0;
}

const command command_parts = {
    .name = "parts",
    .line = "parts on the bench: list, find, show, add, change, remove",
    .usage = "pare parts [WORD...] [CONDITION...] [--kind KIND] [--sort KEY] [--surprise]\n"
             "           [--for CRAFT.ITEM [--lighter] [--loadout LOADOUT]] [--json]\n"
             "pare parts show PART [--json]\n"
             "pare parts add ID KEY=VALUE... [--why TEXT] [--json]\n"
             "pare parts change PART KEY=VALUE... [--why TEXT] [--json]\n"
             "pare parts copy PART ID [--why TEXT] [--json]\n"
             "pare parts edit PART [--why TEXT] [--json]\n"
             "pare parts remove PART [--why TEXT] [--json]",
    .details = "  WORD       parts with that word in id, kind or maker\n"
               "  CONDITION  'mass<12g', 'cells>=6', 'kv=1700..1800': mass, price, owned or any\n"
               "             spec, with = != < <= > >= and its unit; several may stand in one\n"
               "             word: 'mass<80g cells=4, owned>=1'. The shell wants the quotes.\n"
               "A part on which nobody has said a spec meets no condition on it; what a law\n"
               "filled in counts for mass only. Of volts, = asks whether the part takes that\n"
               "voltage (or all of a range), >= so much or more, <= so little or less, from 0\n"
               "where only the highest is said. 'stator>=22mm' is the diameter; 'stator=22mm x\n"
               "7mm' has both.\n"
               "  KEY        a path in the part's text, like mass, mass.u, price.seller,\n"
               "             fits.cells; a spec alone (kv) is short for spec.kv, known for\n"
               "             mass.known. VALUE is like 31.2g or '[{run: phase, gauge: 20,\n"
               "             length: 120 mm, count: 3}]'; off takes the entry away. A bare mass\n"
               "             is the maker's, unless known=weighed stands beside it; a bare price\n"
               "             keeps pack size and seller, not the date. stand.PART=off takes off\n"
               "             what a stand measured of the two\n"
               "  edit       opens its text in VISUAL or EDITOR, checks it before it is stored\n"
               "A part that craft, flights or stand tables use is not removed.\n",
    .example = "  pare parts --kind motor 'mass<30g kv=1700..2000' --sort mass\n"
               "  pare parts teasel 'owned>=1'\n"
               "  pare parts --for hedgerow.motor --lighter\n"
               "  pare parts --surprise\n"
               "  pare parts show mo-2207-1950\n"
               "  pare parts add mo-new kind=motor stator='22 mm x 7 mm' kv=1850 mass=30.5g\n"
               "  pare parts change mo-new mass=31.2g mass.u=0.1g known=weighed owned=4\n"
               "  pare parts remove mo-new\n",
    .words = words,
    .options = OPTION_BENCH | OPTION_JSON | OPTION_KIND | OPTION_SORT | OPTION_FOR |
               OPTION_LIGHTER | OPTION_SURPRISE | OPTION_LOADOUT | OPTION_WHY,
    .meaning = {{OPTION_LOADOUT, "with --for: as flown in that loadout, not the first"},
                {OPTION_SURPRISE,
                 "weighed or stated over two sigma above the law of the kind, most first"}},
    .run = run,
};
