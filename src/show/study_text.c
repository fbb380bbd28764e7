/* study_text.c: a study on a screen (see study.h).
 *
 * A line a brief: how many of its tasks say yes, and the lightest craft that does. Then the choice of craft, each
 * with whom it covers. The rows themselves stand in the results. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/sheet_view.h"
#include "show/study.h"

enum {
    NAME_COLUMNS = 16,
    CUSTOMERS_COLUMNS = 11,
    YES_COLUMNS = 9,
    GRAMS_COLUMNS = 9,
    WHY_MOST = 8
};

typedef struct tally {
    size_t tasks, yes, unproven;
    bool any;
    size_t lightest; /* a task */
    double grams;
    size_t whys;
    struct {
        char name[48];
        size_t count;
    } why[WHY_MOST];
} tally;

static void count_why(tally *t, const char *why)
{
    size_t i = 0;
    while (i < t->whys && strncmp(t->why[i].name, why, sizeof t->why[i].name - 1) != 0)
        i++;
    if (i == WHY_MOST)
        return;
    if (i == t->whys)
        snprintf(t->why[t->whys++].name, sizeof t->why[i].name, "%s", why);
    t->why[i].count++;
}

static void count_task(const pare_study_view *view, size_t task, tally *t)
{
    pare_task_answer answer;
    view->answer(view->context, task, &answer);
    t->tasks++;
    t->unproven += answer.says != PARE_TASK_CANNOT && !answer.proven && view->study->best;
    if (answer.says != PARE_TASK_YES) {
        count_why(t, answer.why ? answer.why : "?");
        return;
    }
    t->yes++;
    if (!isfinite(answer.mass_g) || (t->any && answer.mass_g >= t->grams))
        return;
    t->any = true;
    t->lightest = task;
    t->grams = answer.mass_g;
}

static void put_craft(const pare_study_view *view, size_t offer, pare_text *line)
{
    const pare_study_offer *of = &view->study->offer[offer];
    if (view->study->bench[0].name)
        pare_text_printf(line, "%s: ", view->study->bench[of->bench].name);
    pare_text_add(line, of->craft);
    if (view->loadout[offer])
        pare_text_printf(line, "/%s", view->loadout[offer]);
}

static const char *words_of(const char *why, char words[64])
{
    pare_margin named = {.unit = ""};
    if (strcmp(why, "effort") == 0)
        return "found with this effort";
    if (strncmp(why, "keep.", 5) == 0) {
        snprintf(words, 64, "nothing that %s", why + 5);
        return words;
    }
    if (!strchr(why, '.') || strlen(why) >= sizeof named.name)
        return why;
    snprintf(named.name, sizeof named.name, "%s", why);
    return pare_margin_words(&named, words);
}

static void put_why(const tally *t, pare_text *line)
{
    char words[64];
    size_t most = 0;
    for (size_t i = 1; i < t->whys; i++)
        if (t->why[i].count > t->why[most].count)
            most = i;
    if (t->whys)
        pare_text_printf(line, "none: %s", words_of(t->why[most].name, words));
}

static void put_head(const pare_study_view *view, pare_text *out)
{
    pare_put_left(out, view->study->brief[0].name ? "brief" : "craft", NAME_COLUMNS);
    if (view->study->brief[0].name)
        pare_put_right(out, "customers", CUSTOMERS_COLUMNS);
    pare_put_right(out, view->study->best ? "found" : "meet it", YES_COLUMNS);
    pare_put_right(out, "least g", GRAMS_COLUMNS);
    pare_text_add(out, "  lightest\n");
}

static void put_tally(const pare_study_view *view, const char *name, int customers, const tally *t,
                      const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_text line = {0};
    pare_put_left(out, name, NAME_COLUMNS);
    if (view->study->brief[0].name) {
        snprintf(text, sizeof text, "%d", customers);
        pare_put_right(out, text, CUSTOMERS_COLUMNS);
    }
    snprintf(text, sizeof text, "%zu/%zu", t->yes, t->tasks);
    pare_put_right(out, text, YES_COLUMNS);
    pare_put_right(out, t->any ? pare_digits_at(text, t->grams, 1) : "-", GRAMS_COLUMNS);
    pare_text_add(out, "  ");
    if (t->any) {
        put_craft(view, pare_study_task_at(view->study, t->lightest).offer, &line);
        pare_text_printf(&line, ", task %zu", t->lightest + 1);
    } else {
        put_why(t, &line);
    }
    const int already = NAME_COLUMNS + YES_COLUMNS + GRAMS_COLUMNS + 2 +
                        (view->study->brief[0].name ? CUSTOMERS_COLUMNS : 0);
    pare_put_rest(screen, out, already, already, &line);
}

/* Brief by brief, or craft by craft where each has its own. */
static void put_tallies(const pare_study_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_study *study = view->study;
    const bool named = study->brief[0].name;
    put_head(view, out);
    for (size_t i = 0; i < (named ? study->briefs : study->offers); i++) {
        tally t = {0};
        pare_text name = {0};
        for (size_t task = 0; task < view->tasks; task++) {
            const pare_study_task of = pare_study_task_at(study, task);
            if ((named ? of.brief : of.offer) == i)
                count_task(view, task, &t);
        }
        if (named)
            pare_text_add(&name, study->brief[i].name);
        else
            put_craft(view, i, &name);
        if (name.failed)
            out->failed = true;
        else
            put_tally(view, name.bytes, study->brief[named ? i : 0].customers, &t, screen, out);
        pare_text_free(&name);
    }
}

/* ---- who is covered ---- */

static void put_money(const pare_study_view *view, double money, pare_text *line)
{
    char text[PARE_DIGITS];
    if (isfinite(money))
        pare_text_printf(line, ", %s%s%s", pare_digits_at(text, money, 0),
                         view->money && *view->money ? " " : "", view->money ? view->money : "");
}

static void put_covers(const pare_study_view *view, const pare_covers *one,
                       const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    long long customers = 0;
    pare_text line = {0};
    for (size_t b = 0; b < one->briefs; b++)
        customers += view->study->brief[one->brief[b]].customers;
    put_craft(view, pare_study_task_at(view->study, one->task).offer, &line);
    pare_text_printf(&line, " of task %zu, %s g", one->task + 1,
                     pare_digits_at(text, one->grams, 1));
    put_money(view, one->money, &line);
    pare_text_printf(&line, ": %lld customers:", customers);
    for (size_t b = 0; b < one->briefs; b++)
        pare_text_printf(&line, "%s %s", b ? "," : "", view->study->brief[one->brief[b]].name);
    pare_put_line(screen, out, 2, 6, &line);
    if (one->tries)
        pare_text_printf(&line, "%s", one->tries);
    if (*one->set)
        pare_text_printf(&line, "%s%s", one->tries ? "," : "", one->set);
    if (line.length) {
        for (char *c = line.bytes; *c; c++) /* so that it may be broken between swaps */
            *c = *c == ',' ? ' ' : *c;
        pare_put_line(screen, out, 6, 6, &line);
    }
    out->failed |= line.failed;
    pare_text_free(&line);
}

static void put_proof(const pare_study_view *view, pare_text *line)
{
    const pare_cover_view *c = view->cover;
    char text[PARE_DIGITS];
    const pare_cover_wish wish = view->study->cover.wish;
    if (wish == PARE_COVER_CUSTOMERS) {
        if (c->proven)
            pare_text_add(line, ", proven: no choice covers more");
        else
            pare_text_printf(line, "; not proven: none covers more than %lld", c->bound);
        return;
    }
    const char *unit = wish == PARE_COVER_GRAMS   ? "g"
                       : wish == PARE_COVER_CRAFT ? "craft"
                       : view->money              ? view->money
                                                  : "";
    const int place = wish == PARE_COVER_GRAMS ? 1 : 0;
    if (wish != PARE_COVER_CRAFT)
        pare_text_printf(line, ", %s %s together", pare_digits_at(text, c->total, place), unit);
    if (c->proven)
        pare_text_printf(line, ", proven: no choice does it with %s",
                         wish == PARE_COVER_CRAFT ? "fewer" : "less");
    else
        pare_text_printf(line, "; not proven: none does it with less than %s %s",
                         pare_digits_at(text, c->total_bound, place), unit);
}

static void put_left(const pare_study_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_cover_view *c = view->cover;
    char words[64];
    for (size_t i = 0; i < c->lefts; i++) {
        pare_text line = {0};
        const pare_study_brief *brief = &view->study->brief[c->left[i]];
        pare_text_printf(&line, "not covered: %s, %d customer%s; ", brief->name, brief->customers,
                         brief->customers == 1 ? "" : "s");
        if (c->left_why[i])
            pare_text_printf(&line, "no craft here does, most fail %s",
                             words_of(c->left_why[i], words));
        else
            pare_text_add(&line, "a craft that was not chosen does it");
        pare_put_line(screen, out, 2, 6, &line);
    }
}

static void put_cover(const pare_study_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_cover_view *c = view->cover;
    pare_text line = {0};
    pare_text_add(out, "\n");
    pare_text_printf(&line, "%zu of %zu craft cover %lld of %lld customers", c->chosen,
                     c->candidates, c->covered, c->customers);
    put_proof(view, &line);
    pare_put_line(screen, out, 0, 4, &line);
    for (size_t i = 0; i < c->chosen; i++)
        put_covers(view, &c->covers[i], screen, out);
    put_left(view, screen, out);
}

/* ---- all of it ---- */

static void put_title(const pare_study_view *view, pare_text *line)
{
    const pare_study *study = view->study;
    pare_text_printf(line, "%s: %s of %zu craft", study->name, study->best ? "best sets" : "sheets",
                     study->offers);
    if (study->brief[0].name)
        pare_text_printf(line, " in %zu brief%s", study->briefs, study->briefs == 1 ? "" : "s");
    pare_text_printf(line, ", %zu task%s", view->tasks, view->tasks == 1 ? "" : "s");
}

static void put_notes(const pare_study_view *view, const tally *all, const pare_screen *screen,
                      pare_text *out)
{
    pare_text line = {0};
    if (all->unproven) {
        pare_text_printf(&line, "%zu not proven: more effort, or none in the study, says more",
                         all->unproven);
        pare_put_line(screen, out, 0, 0, &line);
    }
    if (view->damaged) {
        pare_text_printf(&line, "%zu damaged line%s of %s passed over, and done again",
                         view->damaged, view->damaged == 1 ? "" : "s", view->journal);
        pare_put_line(screen, out, 0, 0, &line);
    }
    for (size_t i = 0; i < view->moved; i++) {
        pare_text_printf(&line, "%s has changed or gone meanwhile: all this is of it as it was",
                         view->bench_moved[i]);
        pare_put_line(screen, out, 0, 0, &line);
    }
    pare_text_free(&line);
}

/* The first of those that cannot be, in full. */
static void put_cannot(const pare_study_view *view, const pare_screen *screen, pare_text *out)
{
    size_t count = 0, first = 0;
    pare_task_answer answer;
    pare_text line = {0};
    for (size_t i = 0; i < view->tasks; i++) {
        view->answer(view->context, i, &answer);
        if (answer.says == PARE_TASK_CANNOT && count++ == 0)
            first = i;
    }
    if (!count)
        return;
    view->answer(view->context, first, &answer);
    pare_text_printf(&line, "%zu cannot be, the first task %zu: %s", count, first + 1,
                     answer.why ? answer.why : "?");
    pare_put_line(screen, out, 0, 4, &line);
}

void pare_study_text(const pare_study_view *view, const pare_screen *screen, pare_text *out)
{
    tally all = {0};
    pare_text line = {0};
    for (size_t i = 0; i < view->tasks; i++)
        count_task(view, i, &all);
    put_title(view, &line);
    pare_text_printf(&line, ": %zu answered now, %zu before", view->tasks - view->known,
                     view->known);
    pare_put_line(screen, out, 0, 4, &line);
    pare_text_printf(&line, "a row each in %s, journal %s", view->results, view->journal);
    pare_put_line(screen, out, 0, 4, &line);
    pare_text_add(out, "\n");
    put_tallies(view, screen, out);
    put_cannot(view, screen, out);
    put_notes(view, &all, screen, out);
    if (view->cover)
        put_cover(view, screen, out);
}

void pare_study_plan(const pare_study_view *view, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    if (!screen) {
        json_t *object = json_object();
        json_object_set_new(object, "study", json_string(view->study->name));
        json_object_set_new(object, "tasks", json_integer((json_int_t)view->tasks));
        json_object_set_new(object, "answered", json_integer((json_int_t)view->known));
        json_object_set_new(object, "results", json_string(view->results));
        json_object_set_new(object, "journal", json_string(view->journal));
        pare_json_write(object, out);
        return;
    }
    put_title(view, &line);
    pare_text_printf(&line, ", %zu of them answered in %s; nothing done", view->known,
                     view->journal);
    pare_put_line(screen, out, 0, 4, &line);
    for (size_t i = 0; i < view->study->axes; i++) {
        const pare_study_axis *axis = &view->study->axis[i];
        pare_text_printf(out, "  %s: %zu value%s, %s", axis->name, axis->count,
                         axis->count == 1 ? "" : "s", axis->word[0]);
        if (axis->count > 1)
            pare_text_printf(out, " .. %s", axis->word[axis->count - 1]);
        pare_text_add(out, "\n");
    }
}
