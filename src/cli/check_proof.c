/* check_proof.c: `pare check-proof FILE`: whether a certificate of `pare best --proof` holds. */
#include "advise/proof.h"
#include "cli/command.h"
#include "cli/use.h"
#include "show/json.h"
#include "store/lines.h"

static int get_line(void *context, char line[PARE_PROOF_LINE])
{
    return pare_lines_get(context, PARE_PROOF_LINE, line);
}

static pare_status mark_of(void *context, const pare_craft *craft, unsigned long long *mark,
                           pare_error *err)
{
    const bench_in_use *use = context;
    return pare_store_certified(use->store, craft->name, mark, err);
}

/* What the claim is about: a certificate of fewer choices is one of less. */
static void put_question(const pare_proof_told *told, pare_text *out)
{
    pare_text_printf(out, "%s", told->craft);
    if (told->loadout)
        pare_text_printf(out, ", %s", told->loadout);
    if (told->holds)
        pare_text_printf(out, ", %zu held", told->holds);
    if (told->nevers)
        pare_text_printf(out, ", %zu never", told->nevers);
    if (told->musts)
        pare_text_printf(out, ", %zu must", told->musts);
}

static void show_text(const char *file, const pare_proof_told *told, pare_text *out)
{
    if (told->refusal[0]) {
        pare_text_printf(out, "refused: %s\n", told->refusal);
        return;
    }
    if (told->open > 0) {
        pare_text_printf(out, "%s: not verified: %zu leaves of %zu are open\n", file, told->open,
                         told->leaves);
        return;
    }
    pare_text_add(out, "verified: ");
    put_question(told, out);
    if (told->found)
        pare_text_printf(out, ": no set is lighter than %.4f g", 1e-4 * (double)told->best_100ug);
    else
        pare_text_add(out, ": no set does what it must");
    pare_text_printf(out, " (%zu lines)\n", told->lines);
}

static void show_json(const char *file, const pare_proof_told *told, pare_text *out)
{
    json_t *object = json_object();
    json_object_set_new(object, "file", json_string(file));
    json_object_set_new(object, "verified", json_boolean(told->verified));
    json_object_set_new(object, "craft", told->craft ? json_string(told->craft) : json_null());
    json_object_set_new(object, "loadout",
                        told->loadout ? json_string(told->loadout) : json_null());
    json_object_set_new(object, "best_g",
                        told->found ? json_real(1e-4 * (double)told->best_100ug) : json_null());
    json_object_set_new(object, "held", json_integer((json_int_t)told->holds));
    json_object_set_new(object, "never", json_integer((json_int_t)told->nevers));
    json_object_set_new(object, "must", json_integer((json_int_t)told->musts));
    json_object_set_new(object, "lines", json_integer((json_int_t)told->lines));
    json_object_set_new(object, "leaves", json_integer((json_int_t)told->leaves));
    json_object_set_new(object, "open", json_integer((json_int_t)told->open));
    json_object_set_new(object, "refusal",
                        told->refusal[0] ? json_string(told->refusal) : json_null());
    pare_json_write(object, out);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_lines_in *lines = NULL;
    pare_proof_told told = {0};
    pare_status status = need_operands("check-proof", given, 1, 1, "one file", err);
    if (status == PARE_OK)
        status = pare_lines_open(given->operand[0], &lines, err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err);
    if (status == PARE_OK) {
        const pare_proof_source source = {get_line, lines, given->operand[0]};
        status = pare_proof_check(use.bench, &source, mark_of, &use, given->progress, &told, err);
    }
    pare_progress_over(given->progress);
    if (status == PARE_OK) {
        if (given->given & OPTION_JSON)
            show_json(given->operand[0], &told, out);
        else
            show_text(given->operand[0], &told, out);
        status = told.verified ? PARE_OK : PARE_NO;
    }
    pare_lines_close(lines);
    bench_leave(&use);
    return status;
}

const command command_check_proof = {
    .name = "check-proof",
    .line = "whether a certificate of pare best holds: nothing is lighter",
    .usage = "pare check-proof FILE [--json]",
    .details = "Every node of the certificate's tree is made again, and the reason of every leaf\n"
               "worked out again, by code that shares nothing with the search but physics, craft\n"
               "and what a swap does. It ends with 0 where the claim holds; with 1 where it does\n"
               "not, or where leaves are open, and says at which line.\n",
    .example = "  pare best thimble --proof thimble.proof\n"
               "  pare check-proof thimble.proof\n",
    .options = OPTION_BENCH | OPTION_JSON,
    .run = run,
};
