/* study.c: `pare study`: many briefs, airs, limits and benches at once.
 *
 * Every rank reads the study and its benches by itself; rank 0 has the journal, the results and the answer. What is
 * printed is the same for any number of ranks, also after a run that was ended. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/study_cover.h"
#include "cli/study_do.h"
#include "cli/study_keep.h"
#include "cli/timed.h"
#include "show/study.h"
#include "store/csv_out.h"
#include "store/disk.h"

typedef struct run_of {
    const options *given;
    pare_ranks ranks;
    study_share *share;
    study_open open;
    study_answers answers;
    const char *results, *journal; /* files */
    size_t known;                  /* tasks that the journal had */
    bool kept;                     /* the bench has what was found */
    pare_arena *arena;
    timed clock;
} run_of;

/* ---- files ---- */

/* The study's own name with another ending, in its folder. */
static const char *beside(const run_of *r, const char *ending)
{
    const char *path = r->given->operand[0], *slash = strrchr(path, '/');
    const char *name = slash ? slash + 1 : path, *dot = strrchr(name, '.');
    const size_t length = dot && dot > name ? (size_t)(dot - path) : strlen(path);
    return pare_arena_printf(r->arena, "%.*s%s", (int)length, path, ending);
}

/* Where the study says, which is in its own folder. */
static const char *as_said(const run_of *r, const char *file)
{
    const char *path = r->given->operand[0], *slash = strrchr(path, '/');
    return file[0] == '/' || !slash
               ? file
               : pare_arena_printf(r->arena, "%.*s/%s", (int)(slash - path), path, file);
}

static pare_status name_files(run_of *r, pare_error *err)
{
    const options *given = r->given;
    const char *said = r->open.study->results;
    r->results = given->given & OPTION_OUTPUT ? given->output
                 : said                       ? as_said(r, said)
                                              : beside(r, ".csv");
    r->journal = given->given & OPTION_JOURNAL ? given->journal : beside(r, ".journal");
    if (!r->results || !r->journal)
        return pare_no_memory(err);
    const char *const files[] = {given->operand[0], r->results, r->journal};
    for (int a = 0; a < 3; a++)
        for (int b = a + 1; b < 3; b++)
            if (strcmp(files[a], files[b]) == 0)
                return pare_fail(err, PARE_BAD_DATA,
                                 "%s: the study, its results and its journal are three files",
                                 files[a]);
    return PARE_OK;
}

/* ---- the answer ---- */

static void put_field(void *context, const char *field)
{
    pare_text *out = context;
    if (out->length && out->bytes[out->length - 1] != '\n')
        pare_text_add(out, ",");
    pare_csv_add_field(field, out);
}

static pare_status write_results(run_of *r, const pare_study_view *view, pare_error *err)
{
    pare_text table = {0};
    const bool keeps = r->given->given & OPTION_KEEP;
    for (long long task = -1; task < (long long)view->tasks; task++) {
        pare_study_row(view, task, put_field, &table);
        pare_text_add(&table, "\r\n");
    }
    pare_status status = table.failed
                             ? pare_no_memory(err)
                             : pare_disk_replace(r->results, table.bytes, table.length, err);
    if (status == PARE_OK && keeps)
        status = study_keep(r->given, r->open.use[0].path.bytes, view, &table, err);
    r->kept = keeps && status == PARE_OK;
    pare_text_free(&table);
    return status;
}

static pare_status fill_view(run_of *r, pare_study_view *view, pare_error *err)
{
    const pare_study *study = r->open.study;
    const char **loadout = pare_arena_array(r->arena, study->offers, sizeof loadout[0]);
    const char **moved = pare_arena_array(r->arena, study->benches, sizeof moved[0]);
    if (!loadout || !moved)
        return pare_no_memory(err);
    for (size_t i = 0; i < study->offers; i++)
        loadout[i] =
            r->open.loadout[i] >= 0 ? r->open.craft[i]->loadout[r->open.loadout[i]].name : NULL;
    *view = (pare_study_view){.study = study,
                              .money = r->open.use[0].bench->money,
                              .results = r->results,
                              .journal = r->journal,
                              .tasks = r->answers.tasks,
                              .known = r->known,
                              .ranks = r->ranks.of.ranks,
                              .seconds = timed_s(&r->clock),
                              .loadout = loadout,
                              .key = r->answers.key,
                              .context = &r->answers,
                              .answer = study_answer_of,
                              .bench_moved = moved};
    view->damaged = study_share_damaged(r->share);
    for (size_t i = 0; i < study->benches; i++)
        if (study_bench_moved(&r->open, i))
            moved[view->moved++] = r->open.use[i].path.bytes;
    return PARE_OK;
}

static void show(const run_of *r, const pare_study_view *view, pare_text *out)
{
    const pare_screen screen = terminal_screen();
    if (r->given->given & OPTION_JSON)
        pare_study_json(view, out);
    else
        pare_study_text(view, &screen, out);
}

/* ---- the work ---- */

static pare_status look_only(run_of *r, pare_text *out, pare_error *err)
{
    pare_study_view view;
    const pare_status status = fill_view(r, &view, err);
    if (status != PARE_OK)
        return status;
    const pare_screen screen = terminal_screen();
    pare_study_plan(&view, r->given->given & OPTION_JSON ? NULL : &screen, out);
    return PARE_OK;
}

static pare_status lead(run_of *r, pare_text *out, pare_error *err)
{
    const bool dry = r->given->given & OPTION_DRY_RUN;
    study_jobs jobs;
    pare_study_view view = {0};
    pare_cover_view cover = {0};
    pare_status status = name_files(r, err);
    if (status == PARE_OK && !dry && r->given->given & OPTION_KEEP)
        status = study_keep_check(r->open.use[0].path.bytes, err);
    r->answers = (study_answers){.open = &r->open, .arena = r->arena};
    if (status == PARE_OK)
        status = study_tasks_open(&r->answers, &jobs, err);
    if (status == PARE_OK && (!dry || pare_disk_has(r->journal))) {
        const char *title = pare_arena_printf(r->arena, "pare-study 1 %s", r->open.study->name);
        status =
            title ? study_share_journal(r->share, r->journal, title, err) : pare_no_memory(err);
    }
    if (status == PARE_OK)
        r->known = study_share_known(r->share, &jobs);
    if (status == PARE_OK && dry)
        return look_only(r, out, err);
    long_work_catch();
    if (status == PARE_OK)
        status = study_share_do(r->share, &jobs, err);
    if (status == PARE_OK && r->open.study->cover.asked)
        status = study_cover_find(&r->answers, r->share, r->given->progress, r->arena, &cover, err);
    if (status == PARE_OK)
        status = fill_view(r, &view, err);
    view.cover = r->open.study->cover.asked ? &cover : NULL;
    if (status == PARE_OK)
        status = write_results(r, &view, err);
    long_work_release(status);
    pare_progress_over(r->given->progress);
    if (status == PARE_STOPPED)
        pare_fail(err, status, "stopped; what is answered stands in %s: the same command goes on",
                  r->journal);
    if (status == PARE_OK)
        show(r, &view, out);
    return status;
}

/* Of what is kept: no file, or one that is to be forgotten. A word that may be a file's name is one. */
static bool asks_kept(const options *given)
{
    return given->operands == 0 || given->given & OPTION_FORGET ||
           (!strpbrk(given->operand[0], "/.") && !pare_disk_has(given->operand[0]));
}

static pare_status check_options(const options *given, pare_error *err)
{
    const pare_status status = need_operands("study", given, given->given & OPTION_FORGET ? 1 : 0,
                                             1, "one file, or the name of one that is kept", err);
    if (status == PARE_OK && given->given & OPTION_FORGET &&
        given->given & (OPTION_KEEP | OPTION_DRY_RUN | OPTION_OUTPUT | OPTION_JOURNAL))
        return pare_fail(err, PARE_BAD_DATA, "study: STUDY --forget goes alone");
    if (status == PARE_OK && asks_kept(given) &&
        given->given & (OPTION_KEEP | OPTION_DRY_RUN | OPTION_JOURNAL))
        return pare_fail(err, PARE_BAD_DATA, "study: there is no file %s to be worked on",
                         given->operands ? given->operand[0] : "named");
    return status;
}

/* Rank 0 opens the benches first: it is the one that writes their caches. */
static pare_status take_part(run_of *r, pare_text *out, pare_error *err)
{
    const bool first = r->ranks.of.rank == 0;
    pare_status status = study_share_open(&r->ranks, r->given->progress, &r->share, err);
    if (status != PARE_OK || (!first && !study_share_wait(r->share)))
        return status;
    if (first && asks_kept(r->given))
        return study_kept(r->given, out, err);
    status = study_open_all(r->given, r->given->operand[0], &r->open, err);
    if (first && status != PARE_OK)
        return status;
    study_share_ready(r->share, r->open.mark, study_work_on, &r->open);
    if (first)
        return lead(r, out, err);
    study_share_serve(r->share, status, err);
    return PARE_OK;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    run_of r = {.given = given, .arena = pare_arena_open(), .clock = timed_start(NULL, HUGE_VAL)};
    pare_status status = r.arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = check_options(given, err);
    if (status == PARE_OK)
        status = pare_ranks_begin(&r.ranks, err);
    if (status == PARE_OK)
        status = take_part(&r, out, err);
    status = study_share_close(r.share, status, err);
    if (status == PARE_OK && out->failed)
        status = pare_no_memory(err);
    if (r.kept)
        status = after_change(status, err);
    pare_ranks_end(&r.ranks);
    study_tasks_close(&r.answers);
    study_leave(&r.open);
    pare_arena_close(r.arena);
    return status;
}

const command command_study = {
    .name = "study",
    .line = "many briefs, airs and craft at once, and which cover most",
    .usage = "pare study FILE [-o FILE] [--journal FILE] [--dry-run] [--keep [--why TEXT]]\n"
             "           [--json]\n"
             "pare study [STUDY] [-o FILE] [--json]\n"
             "pare study STUDY --forget [--why TEXT] [--json]",
    .details = "The file says which craft, which briefs, and what varies; each combination is a\n"
               "task, and a row of the results. Where it asks so, Pare then says which few\n"
               "craft cover the most customers, or all of them with the least, and whether\n"
               "that is proven.\n"
               "\n"
               "  study: NAME             what it is called\n"
               "  ask: best               the best set of each; or sheet: as they are\n"
               "  craft: [CRAFT/LOADOUT]  or all; with several benches\n"
               "                          benches: {NAME: {file: FILE, craft: all}}\n"
               "  brief: {}               what all briefs say, as in a craft's text\n"
               "  briefs: {NAME: {}}      one a sort of customer, customers: 30 of it; left out:\n"
               "                          each craft's own brief\n"
               "  vary: {WHAT: []}        air.temperature, limits.flown and the like of briefs;\n"
               "                          try, hold, never, must, wish, budget, hours; a list,\n"
               "                          or {from: 0 degC, to: 30 degC, steps: 4}\n"
               "  effort: 5000            what one search may take at most, in its own steps\n"
               "  figures: [all_up_g]     of the sheet, with their uncertainties\n"
               "  cover: {most: 3}        most customers with three craft; {wish: craft}, money\n"
               "                          or grams: all that can be, with the least of it\n"
               "  results: x.csv          where to; otherwise beside the study\n"
               "\n"
               "Each answer goes into a journal at once: a study that was ended, by whatever,\n"
               "goes on from there, and one that has grown does only what is new. On several\n"
               "processors or machines: mpirun -n 4 pare study FILE (package pare-mpi); the\n"
               "results are the same bytes on any number.\n"
               "\n"
               "With --keep the bench keeps what was found, under the study's NAME, a STUDY:\n"
               "pare study lists them, pare study STUDY says it again, -o writes its results.\n"
               "It is no part of the bench's text: an export leaves it out.\n",
    .caution = CAUTION_FLYING,
    .example = "  pare study customers.yaml --dry-run\n"
               "  pare study customers.yaml --keep\n"
               "  pare study customers\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_OUTPUT | OPTION_DRY_RUN | OPTION_JOURNAL |
               OPTION_KEEP | OPTION_FORGET | OPTION_WHY,
    .meaning = {{OPTION_OUTPUT, "the results, a row a task, as CSV"},
                {OPTION_KEEP, "the bench keeps what was found"},
                {OPTION_FORGET, "the bench forgets it"},
                {OPTION_DRY_RUN, "say how many tasks there are, and how many are left"}},
    .run = run,
};
