/* read_study.c: a study out of its text (see read_study.h).
 *
 * A brief stands in a study as it does in a craft, and is read by the same reader. What varies in briefs is
 * put into the brief's tree at its path before that, so whatever a brief may say may vary, and what cannot
 * be is said at the place of the value. All of it is tried before the first task begins: each value by
 * itself on each brief. */
#include "store/read_study.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "craft/figure.h"
#include "store/disk.h"
#include "store/edit.h"
#include "store/read_craft.h"
#include "store/tree_edit.h"

enum { VALUES_MOST = 10000, CUSTOMERS_MOST = 1000000, EFFORT_MOST = 1000000000, STEPS_MOST = 1000 };

struct pare_study_file {
    pare_arena *arena;
    pare_reading reading;
    pare_study study;
    pare_study_bench *bench;
    pare_study_offer *offer;
    pare_study_brief *brief;
    const pare_node *shared;      /* what all briefs say; NULL: nothing */
    const pare_node **brief_node; /* [briefs]; of each craft's own brief NULL */
    const pare_node *
        *own_node; /* [offers] the craft's own brief; NULL: it has none, or nobody asked */
    const pare_node **value_node[PARE_STUDY_AXES];
    const pare_node *vary, *briefs_said; /* NULL: not said */
};

const pare_study *pare_study_of(const pare_study_file *file)
{
    return &file->study;
}

void pare_study_file_close(pare_study_file *file)
{
    if (!file)
        return;
    pare_units_close(file->reading.units);
    pare_arena_close(file->arena);
    free(file);
}

/* ---- places ---- */

static pare_study_place place_of(const pare_node *node)
{
    return (pare_study_place){node->line, node->column};
}

pare_status pare_study_refuse(const pare_study_file *file, pare_study_place at, pare_status status,
                              pare_error *err, const char *format, ...)
{
    char line[PARE_WHERE];
    va_list args;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    const pare_node node = {.line = at.line, .column = at.column};
    return pare_refuse(&file->reading, &node, status, err, "%s", line);
}

pare_status pare_study_refused_at(const pare_study_file *file, pare_study_place at, pare_error *err)
{
    const pare_node node = {.line = at.line, .column = at.column};
    return pare_refused_at(&file->reading, &node, NULL, err);
}

/* ---- benches and craft ---- */

/* "hedgerow", or "hedgerow/race". */
static pare_status read_offer(pare_study_file *f, size_t bench, const pare_node *node,
                              pare_error *err)
{
    const char *text = NULL;
    const pare_status status = pare_read_text(&f->reading, node, "craft", &text, err);
    if (status != PARE_OK)
        return status;
    const char *slash = strchr(text, '/');
    const char *craft = slash ? pare_arena_copy(f->arena, text, (size_t)(slash - text)) : text;
    if (!craft)
        return pare_no_memory(err);
    if (slash && (slash == text || !slash[1]))
        return pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                           "craft is '%.48s'; right would be CRAFT or CRAFT/LOADOUT", text);
    f->offer[f->study.offers++] = (pare_study_offer){.bench = bench,
                                                     .craft = craft,
                                                     .loadout = slash ? slash + 1 : NULL,
                                                     .place = place_of(node)};
    return PARE_OK;
}

static pare_status more_offers(pare_study_file *f, size_t more, pare_error *err)
{
    pare_study_offer *wider =
        pare_arena_array(f->arena, f->study.offers + more + 1, sizeof f->offer[0]);
    if (!wider)
        return pare_no_memory(err);
    if (f->study.offers)
        memcpy(wider, f->offer, f->study.offers * sizeof wider[0]);
    f->offer = wider;
    f->study.offer = wider;
    return PARE_OK;
}

static pare_status read_craft(pare_study_file *f, size_t bench, const pare_node *node,
                              pare_error *err)
{
    if (!node || (node->form == PARE_NODE_SCALAR && strcmp(node->text, "all") == 0)) {
        f->bench[bench].every_craft = true;
        return PARE_OK;
    }
    pare_status status = more_offers(f, node->count + 1, err);
    if (status == PARE_OK && node->form == PARE_NODE_SCALAR)
        return read_offer(f, bench, node, err);
    if (status == PARE_OK)
        status = pare_need_list(&f->reading, node, "craft", err);
    if (status == PARE_OK && node->count == 0)
        status = pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                             "no craft; right would be some, or all");
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_offer(f, bench, one, err);
    return status;
}

static pare_status read_bench(pare_study_file *f, const pare_node *node, pare_error *err)
{
    static const char *const keys[] = {"file", "craft"};
    const size_t number = f->study.benches++;
    pare_study_bench *bench = &f->bench[number];
    pare_status status = pare_check_key_name(&f->reading, node, "bench", err);
    if (status == PARE_OK)
        status = pare_read_keys(&f->reading, node, "a bench", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *file = pare_node_get(node, "file");
    bench->name = node->key;
    bench->place = place_of(node);
    if (!file)
        return pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                           "bench '%s' without a file; right would be like {file: club.sqlite}",
                           node->key);
    status = pare_read_text(&f->reading, file, "file", &bench->file, err);
    return status == PARE_OK ? read_craft(f, number, pare_node_get(node, "craft"), err) : status;
}

static pare_status read_benches(pare_study_file *f, const pare_node *root, pare_error *err)
{
    const pare_node *benches = pare_node_get(root, "benches"),
                    *craft = pare_node_get(root, "craft");
    if (benches && craft)
        return pare_refuse(&f->reading, craft, PARE_BAD_DATA, err,
                           "craft of which bench? Right would be craft under each of benches");
    pare_status status = benches ? pare_need_map(&f->reading, benches, "benches", err) : PARE_OK;
    if (status == PARE_OK && benches && benches->count == 0)
        status = pare_refuse(&f->reading, benches, PARE_BAD_DATA, err,
                             "no bench; right would be {NAME: {file: FILE}}");
    if (status != PARE_OK)
        return status;
    f->bench = pare_arena_array(f->arena, (benches ? benches->count : 0) + 1, sizeof f->bench[0]);
    f->study.bench = f->bench;
    if (!f->bench)
        return pare_no_memory(err);
    if (!benches) {
        f->study.benches = 1;
        f->bench[0].place = place_of(craft ? craft : root);
        return read_craft(f, 0, craft, err);
    }
    for (const pare_node *one = benches->first; one && status == PARE_OK; one = one->next)
        status = read_bench(f, one, err);
    return status;
}

/* ---- briefs ---- */

/* A map with all that another says put over it, maps within likewise; shares what neither changes. */
static pare_node *merged(pare_arena *arena, const pare_node *under, const pare_node *over)
{
    pare_node *map = under ? pare_node_without(arena, under, NULL)
                           : pare_node_made(arena, PARE_NODE_MAP, "brief", NULL);
    for (const pare_node *one = over ? over->first : NULL; one && map; one = one->next) {
        const pare_node *was = pare_node_get(map, one->key);
        const bool deep = was && was->form == PARE_NODE_MAP && one->form == PARE_NODE_MAP;
        pare_node *entry = deep ? merged(arena, was, one) : pare_arena_zeros(arena, sizeof *entry);
        if (!entry)
            return NULL;
        if (!deep)
            *entry = *one;
        pare_node_set(map, entry);
    }
    if (map && over) {
        map->line = over->line;
        map->column = over->column;
    }
    return map;
}

static pare_status read_brief(pare_study_file *f, const pare_node *node, pare_error *err)
{
    const size_t number = f->study.briefs++;
    pare_study_brief *brief = &f->brief[number];
    const pare_node *customers = NULL;
    *brief = (pare_study_brief){.name = node->key, .customers = 1};
    pare_status status = pare_check_key_name(&f->reading, node, "brief", err);
    if (status == PARE_OK)
        status = pare_need_map(&f->reading, node, "a brief", err);
    if (status == PARE_OK) {
        customers = pare_node_get(node, "customers");
        status = pare_read_count(&f->reading, customers, "customers", 1, CUSTOMERS_MOST,
                                 &brief->customers, err);
    }
    if (status != PARE_OK)
        return status;
    const pare_node *own = pare_node_without(f->arena, node, "customers");
    pare_node *whole = own ? merged(f->arena, f->shared, own) : NULL;
    if (!whole)
        return pare_no_memory(err);
    whole->line = node->line;
    whole->column = node->column;
    f->brief_node[number] = whole;
    return PARE_OK;
}

static pare_status read_briefs(pare_study_file *f, const pare_node *root, pare_error *err)
{
    const pare_node *briefs = f->briefs_said = pare_node_get(root, "briefs");
    const size_t count = briefs && briefs->count ? briefs->count : 1;
    pare_status status = PARE_OK;
    f->shared = pare_node_get(root, "brief");
    if (f->shared)
        status = pare_need_map(&f->reading, f->shared, "brief", err);
    if (status == PARE_OK && briefs)
        status = pare_need_map(&f->reading, briefs, "briefs", err);
    if (status == PARE_OK && briefs && briefs->count == 0)
        status = pare_refuse(&f->reading, briefs, PARE_BAD_DATA, err,
                             "no brief; right would be {NAME: {limits: {all_up: \"<= 250 g\"}}}");
    if (status != PARE_OK)
        return status;
    f->brief = pare_arena_array(f->arena, count, sizeof f->brief[0]);
    f->brief_node = pare_arena_array(f->arena, count, sizeof f->brief_node[0]);
    if (!f->brief || !f->brief_node)
        return pare_no_memory(err);
    f->study.brief = f->brief;
    if (!briefs) {
        f->study.briefs = 1;
        f->brief[0].customers = 1;
        return PARE_OK;
    }
    for (const pare_node *one = briefs->first; one && status == PARE_OK; one = one->next)
        status = read_brief(f, one, err);
    return status;
}

/* ---- what varies ---- */

static pare_vary vary_of(const char *name)
{
    static const struct {
        const char *name;
        pare_vary of;
    } known[] = {{"try", PARE_VARY_TRY},    {"hold", PARE_VARY_HOLD}, {"never", PARE_VARY_NEVER},
                 {"must", PARE_VARY_MUST},  {"wish", PARE_VARY_WISH}, {"budget", PARE_VARY_BUDGET},
                 {"hours", PARE_VARY_HOURS}};
    for (size_t i = 0; i < PARE_COUNT(known); i++)
        if (strcmp(known[i].name, name) == 0)
            return known[i].of;
    return PARE_VARY_BRIEF;
}

/* What a path in a brief may begin with; all else is a mistyped name. */
static pare_status check_name(const pare_study_file *f, const pare_node *node, pare_error *err)
{
    static const char *const known[] = {"air",  "flown",  "land", "crash_speed", "limits",
                                        "keep", "try",    "hold", "never",       "must",
                                        "wish", "budget", "hours"};
    char first[PARE_TREE_KEY + 1];
    snprintf(first, sizeof first, "%.*s", (int)strcspn(node->key, "."), node->key);
    pare_node key = {.key = first, .key_line = node->key_line, .key_column = node->key_column};
    const pare_node map = {.form = PARE_NODE_MAP, .count = 1, .first = &key};
    return pare_read_keys(&f->reading, &map, "vary", PARE_COUNT(known), known, err);
}

/* A number with what stands before and behind it: ">= 3 min". */
typedef struct stepped {
    double number;
    int before;         /* bytes */
    const char *behind; /* in the text */
} stepped;

static bool read_stepped(const char *text, stepped *out)
{
    char *end = NULL;
    out->before = (int)strcspn(text, "+-.0123456789");
    out->number = strtod(text + out->before, &end);
    out->behind = end;
    return end != text + out->before && isfinite(out->number);
}

/* {from: 0 degC, to: 30 degC, steps: 4}: as texts, so that they are read like typed ones. */
static pare_status read_steps(pare_study_file *f, const pare_node *node, pare_study_axis *axis,
                              const pare_node **values, pare_error *err)
{
    static const char *const keys[] = {"from", "to", "steps"};
    const char *from = NULL, *to = NULL;
    stepped a, b;
    int steps = 0;
    pare_status status = pare_read_keys(&f->reading, node, "a range", PARE_COUNT(keys), keys, err);
    for (size_t i = 0; status == PARE_OK && i < PARE_COUNT(keys); i++)
        if (!pare_node_get(node, keys[i]))
            return pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                               "a range without %s; right would be like {from: 0 degC, to: 30 "
                               "degC, steps: 4}",
                               keys[i]);
    if (status == PARE_OK)
        status = pare_read_text(&f->reading, pare_node_get(node, "from"), "from", &from, err);
    if (status == PARE_OK)
        status = pare_read_text(&f->reading, pare_node_get(node, "to"), "to", &to, err);
    if (status == PARE_OK)
        status = pare_read_count(&f->reading, pare_node_get(node, "steps"), "steps", 2, STEPS_MOST,
                                 &steps, err);
    if (status != PARE_OK)
        return status;
    if (!read_stepped(from, &a) || !read_stepped(to, &b) || a.before != b.before ||
        strncmp(from, to, (size_t)a.before) != 0 || strcmp(a.behind, b.behind) != 0)
        return pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                           "a range from '%.40s' to '%.40s'; right would be two numbers of the "
                           "same unit",
                           from, to);
    const char **word = pare_arena_array(f->arena, (size_t)steps, sizeof word[0]);
    pare_study_place *place = pare_arena_array(f->arena, (size_t)steps, sizeof place[0]);
    pare_node *made = pare_arena_array(f->arena, (size_t)steps, sizeof made[0]);
    if (!word || !place || !made)
        return pare_no_memory(err);
    for (int i = 0; i < steps; i++) {
        const double number = a.number + (b.number - a.number) * i / (steps - 1);
        word[i] = pare_arena_printf(f->arena, "%.*s%.10g%s", a.before, from, number, a.behind);
        if (!word[i])
            return pare_no_memory(err);
        place[i] = place_of(node);
        made[i] = (pare_node){
            .form = PARE_NODE_SCALAR, .line = node->line, .column = node->column, .text = word[i]};
        values[i] = &made[i];
    }
    axis->count = (size_t)steps;
    axis->word = word;
    axis->place = place;
    return PARE_OK;
}

/* In a brief a value may be a whole map or list; its words are then itself on one line. */
static pare_status read_value(pare_study_file *f, const pare_study_axis *axis,
                              const pare_node *node, const char **word, pare_error *err)
{
    if (axis->of != PARE_VARY_BRIEF || node->form == PARE_NODE_SCALAR)
        return pare_read_text(&f->reading, node, axis->name, word, err);
    pare_text line = {0};
    pare_node bare = *node;
    bare.key = NULL;
    pare_tree_write_line(&bare, &line);
    *word = line.failed ? NULL : pare_arena_copy(f->arena, line.bytes, line.length);
    pare_text_free(&line);
    return *word ? PARE_OK : pare_no_memory(err);
}

static pare_status read_values(pare_study_file *f, const pare_node *node, pare_study_axis *axis,
                               const pare_node **values, pare_error *err)
{
    const bool many = node->form == PARE_NODE_LIST;
    const size_t count = many ? node->count : 1;
    const char **word = pare_arena_array(f->arena, count + 1, sizeof word[0]);
    pare_study_place *place = pare_arena_array(f->arena, count + 1, sizeof place[0]);
    pare_status status = word && place ? PARE_OK : pare_no_memory(err);
    for (const pare_node *one = many ? node->first : node; one && status == PARE_OK;
         one = many ? one->next : NULL) {
        status = read_value(f, axis, one, &word[axis->count], err);
        for (size_t i = 0; status == PARE_OK && i < axis->count; i++)
            if (strcmp(word[i], word[axis->count]) == 0)
                status =
                    pare_refuse(&f->reading, one, PARE_BAD_DATA, err,
                                "%s has '%.60s' twice; right would be once", axis->name, word[i]);
        values[axis->count] = one;
        place[axis->count++] = place_of(one);
    }
    axis->word = word;
    axis->place = place;
    return status;
}

static pare_status read_axis(pare_study_file *f, const pare_node *node, pare_error *err)
{
    pare_study_axis *axis = &f->study.axis[f->study.axes];
    *axis = (pare_study_axis){.name = node->key, .of = vary_of(node->key)};
    pare_status status = check_name(f, node, err);
    if (status == PARE_OK && !f->study.best && axis->of > PARE_VARY_TRY)
        status = pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                             "%s is of best sets; right would be ask: best", axis->name);
    const bool range = node->form == PARE_NODE_MAP && pare_node_get(node, "from");
    const size_t count = range ? STEPS_MOST : node->form == PARE_NODE_LIST ? node->count : 1;
    if (status == PARE_OK && (count == 0 || count > VALUES_MOST))
        status = pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                             "%s has %zu values; right would be 1 to %d", axis->name, count,
                             VALUES_MOST);
    if (status != PARE_OK)
        return status;
    const pare_node **values = pare_arena_array(f->arena, count, sizeof values[0]);
    if (!values)
        return pare_no_memory(err);
    f->value_node[f->study.axes++] = values;
    return range ? read_steps(f, node, axis, values, err) : read_values(f, node, axis, values, err);
}

static pare_status read_vary(pare_study_file *f, const pare_node *node, pare_error *err)
{
    if (!node)
        return PARE_OK;
    f->vary = node;
    pare_status status = pare_need_map(&f->reading, node, "vary", err);
    if (status == PARE_OK && node->count > PARE_STUDY_AXES)
        status =
            pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                        "%zu things vary; right would be %d at most", node->count, PARE_STUDY_AXES);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_axis(f, one, err);
    return status;
}

/* ---- what is asked ---- */

static pare_status read_figures(pare_study_file *f, const pare_node *node, pare_error *err)
{
    static const pare_figure usual[] = {PARE_ALL_UP, PARE_FLOWN_TIME, PARE_TWR_HALF, PARE_MONEY};
    const char *names[PARE_FIGURES];
    for (int i = 0; i < PARE_FIGURES; i++)
        names[i] = pare_figure_table[i].key;
    for (size_t i = 0; !node && i < PARE_COUNT(usual); i++)
        f->study.figure[f->study.figures++] = (int)usual[i];
    pare_status status = node ? pare_need_list(&f->reading, node, "figures", err) : PARE_OK;
    if (status == PARE_OK && node && node->count > PARE_STUDY_FIGURES)
        status =
            pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                        "%zu figures; right would be %d at most", node->count, PARE_STUDY_FIGURES);
    for (const pare_node *one = node ? node->first : NULL; one && status == PARE_OK;
         one = one->next) {
        int *figure = &f->study.figure[f->study.figures];
        status = pare_read_choice(&f->reading, one, "figure", PARE_FIGURES, names, figure, err);
        for (size_t i = 0; status == PARE_OK && i < f->study.figures; i++)
            if (f->study.figure[i] == *figure)
                status = pare_refuse(&f->reading, one, PARE_BAD_DATA, err,
                                     "figures have %s twice; right would be once", names[*figure]);
        f->study.figures++;
    }
    return status;
}

static pare_status read_cover(pare_study_file *f, const pare_node *node, pare_error *err)
{
    static const char *const keys[] = {"most", "wish"};
    static const char *const wishes[] = {"customers", "craft", "money", "grams"};
    pare_study_cover *cover = &f->study.cover;
    int wish = PARE_COVER_CRAFT;
    if (!node)
        return PARE_OK;
    pare_status status = pare_read_keys(&f->reading, node, "cover", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *most = pare_node_get(node, "most"), *said = pare_node_get(node, "wish");
    cover->asked = true;
    status = pare_read_count(&f->reading, most, "most", 1, PARE_STUDY_TASKS, &cover->most, err);
    if (most)
        wish = PARE_COVER_CUSTOMERS;
    if (status == PARE_OK && said)
        status =
            pare_read_choice(&f->reading, said, "wish", PARE_COUNT(wishes), wishes, &wish, err);
    if (status == PARE_OK && (wish == PARE_COVER_CUSTOMERS) != (most != NULL))
        status = pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                             "right would be {most: NUMBER} for the most customers with so many "
                             "craft, or {wish: craft}, money or grams for all of them with the "
                             "least of it");
    if (status == PARE_OK && !f->briefs_said)
        status = pare_refuse(&f->reading, node, PARE_BAD_DATA, err,
                             "cover whom? Right would be briefs: {NAME: {customers: 12, limits: "
                             "{}}}");
    cover->wish = (pare_cover_wish)wish;
    return status;
}

static pare_status read_root(pare_study_file *f, const pare_node *root, pare_error *err)
{
    static const char *const keys[] = {"study", "about",  "ask",  "effort",  "benches", "craft",
                                       "brief", "briefs", "vary", "figures", "cover",   "results"};
    static const char *const asks[] = {"best", "sheet"};
    pare_study *study = &f->study;
    int ask = 0;
    pare_status status = pare_read_keys(&f->reading, root, "a study", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *name = pare_node_get(root, "study"), *asked = pare_node_get(root, "ask"),
                    *results = pare_node_get(root, "results"),
                    *effort = pare_node_get(root, "effort");
    if (!name)
        return pare_refuse(&f->reading, root, PARE_BAD_DATA, err,
                           "no study; right would begin with study: NAME");
    status = pare_read_name(&f->reading, name, "study", true, &study->name, err);
    if (status == PARE_OK && asked)
        status = pare_read_choice(&f->reading, asked, "ask", PARE_COUNT(asks), asks, &ask, err);
    study->best = ask == 0;
    if (status == PARE_OK)
        status =
            pare_read_count(&f->reading, effort, "effort", 1, EFFORT_MOST, &study->effort, err);
    if (status == PARE_OK && effort && !study->best)
        status = pare_refuse(&f->reading, effort, PARE_BAD_DATA, err,
                             "effort is of best sets; right would be ask: best");
    if (status == PARE_OK && results)
        status = pare_read_text(&f->reading, results, "results", &study->results, err);
    if (status == PARE_OK)
        status = read_benches(f, root, err);
    if (status == PARE_OK)
        status = read_briefs(f, root, err);
    if (status == PARE_OK)
        status = read_vary(f, pare_node_get(root, "vary"), err);
    if (status == PARE_OK)
        status = read_figures(f, pare_node_get(root, "figures"), err);
    if (status == PARE_OK)
        status = read_cover(f, pare_node_get(root, "cover"), err);
    return status;
}

pare_status pare_study_file_open(const char *path, pare_study_file **file, pare_error *err)
{
    const char *bytes = NULL;
    size_t length = 0;
    const pare_node *root = NULL;
    pare_study_file *f = calloc(1, sizeof *f);
    *file = NULL;
    if (!f)
        return pare_no_memory(err);
    f->arena = pare_arena_open();
    f->reading = (pare_reading){.arena = f->arena, .units = pare_units_open()};
    pare_status status = f->arena && f->reading.units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        f->reading.name = pare_arena_text(f->arena, path);
        status = f->reading.name
                     ? pare_disk_read(path, PARE_STUDY_BYTES, f->arena, &bytes, &length, err)
                     : pare_no_memory(err);
    }
    if (status == PARE_OK)
        status = pare_tree_parse(bytes, length, path, f->arena, &root, err);
    if (status == PARE_OK)
        status = read_root(f, root, err);
    if (status == PARE_OK)
        *file = f;
    else
        pare_study_file_close(f);
    return status;
}

/* ---- with the benches ---- */

static pare_status add_every_craft(pare_study_file *f, pare_store *const store[], pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t b = 0; b < f->study.benches && status == PARE_OK; b++) {
        const char *const *names = NULL;
        size_t count = 0;
        if (!f->bench[b].every_craft)
            continue;
        status = pare_store_craft_names(store[b], f->arena, &count, &names, err);
        if (status == PARE_OK)
            status = more_offers(f, count, err);
        for (size_t i = 0; i < count && status == PARE_OK; i++)
            f->offer[f->study.offers++] =
                (pare_study_offer){.bench = b, .craft = names[i], .place = f->bench[b].place};
    }
    return status;
}

static pare_status fetch_own(pare_study_file *f, pare_store *const store[], pare_error *err)
{
    f->own_node = pare_arena_array(f->arena, f->study.offers + 1, sizeof f->own_node[0]);
    pare_status status = f->own_node ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < f->study.offers && status == PARE_OK; i++) {
        const pare_study_offer *offer = &f->offer[i];
        const pare_node *root = NULL;
        status = pare_craft_tree(store[offer->bench], offer->craft, f->arena, &root, err);
        if (status != PARE_OK)
            return pare_study_refused_at(f, offer->place, err);
        f->own_node[i] = f->briefs_said ? NULL : pare_node_get(root, "brief");
    }
    return status;
}

/* Each value of what varies in briefs, by itself, on each brief. */
static pare_status try_values(pare_study_file *f, pare_error *err)
{
    const size_t offers = f->briefs_said ? 1 : f->study.offers;
    pare_brief brief;
    pare_arena *room = pare_arena_open();
    pare_status status = room ? PARE_OK : pare_no_memory(err);
    for (size_t o = 0; o < offers; o++)
        for (size_t b = 0; b < f->study.briefs; b++)
            for (size_t a = 0; a < f->study.axes + 1; a++) {
                const pare_study_axis *axis = a < f->study.axes ? &f->study.axis[a] : NULL;
                const size_t values = axis && axis->of == PARE_VARY_BRIEF ? axis->count : 1;
                for (size_t v = 0; v < values && status == PARE_OK; v++) {
                    pare_study_task task = {.offer = o, .brief = b};
                    pare_text text = {0};
                    if (axis)
                        task.value[a] = v;
                    status = pare_study_brief_of(f, &task, room, &brief, &text, err);
                    pare_text_free(&text);
                    pare_arena_clear(room);
                }
            }
    pare_arena_close(room);
    return status;
}

pare_status pare_study_settle(pare_study_file *f, pare_store *const store[], pare_error *err)
{
    pare_status status = add_every_craft(f, store, err);
    if (status == PARE_OK && f->study.offers == 0)
        status = pare_study_refuse(f, f->bench[0].place, PARE_BAD_DATA, err,
                                   "the bench has no craft; pare craft start begins one");
    if (status == PARE_OK && pare_study_tasks(&f->study) == 0)
        status = pare_study_refuse(
            f, f->vary ? place_of(f->vary) : f->bench[0].place, PARE_BAD_DATA, err,
            "more than %d tasks; vary less, or in several studies", PARE_STUDY_TASKS);
    if (status == PARE_OK)
        status = fetch_own(f, store, err);
    return status == PARE_OK ? try_values(f, err) : status;
}

/* ---- a task's brief ---- */

/* Puts a value at a path of maps; what does not change is shared. */
static pare_status put_at(const pare_study_file *f, pare_arena *arena, pare_node *map,
                          const char *path, const pare_node *value, pare_error *err)
{
    const size_t length = strcspn(path, ".");
    const char *key = pare_arena_copy(arena, path, length);
    if (!key)
        return pare_no_memory(err);
    if (path[length]) {
        const pare_node *was = pare_node_get(map, key);
        if (was && was->form != PARE_NODE_MAP)
            return pare_refuse(&f->reading, value, PARE_BAD_DATA, err,
                               "nothing can be put at '%.48s': %s is no map in this brief", path,
                               key);
        pare_node *branch = pare_node_branch(arena, map, key);
        if (!branch)
            return pare_no_memory(err);
        if (branch->line == 0) { /* it was not there: it stands where its value does */
            branch->line = value->line;
            branch->column = value->column;
        }
        return put_at(f, arena, branch, path + length + 1, value, err);
    }
    pare_node *entry = pare_arena_zeros(arena, sizeof *entry);
    if (!entry)
        return pare_no_memory(err);
    *entry = *value;
    entry->key = key;
    entry->key_line = value->line;
    entry->key_column = value->column;
    entry->next = NULL;
    pare_node_set(map, entry);
    return PARE_OK;
}

pare_status pare_study_brief_of(const pare_study_file *f, const pare_study_task *task,
                                pare_arena *arena, pare_brief *brief, pare_text *text,
                                pare_error *err)
{
    pare_node *tree = f->briefs_said ? pare_node_without(arena, f->brief_node[task->brief], NULL)
                                     : merged(arena, f->own_node[task->offer], f->shared);
    pare_status status = tree ? PARE_OK : pare_no_memory(err);
    for (size_t a = 0; a < f->study.axes && status == PARE_OK; a++)
        if (f->study.axis[a].of == PARE_VARY_BRIEF)
            status = put_at(f, arena, tree, f->study.axis[a].name, f->value_node[a][task->value[a]],
                            err);
    pare_reading reading = f->reading;
    reading.arena = arena;
    *brief = (pare_brief){0};
    if (status == PARE_OK)
        status = pare_read_brief(&reading, tree, brief, err);
    if (status != PARE_OK)
        return status;
    tree->key = NULL;
    pare_tree_write_line(tree, text);
    return text->failed ? pare_no_memory(err) : PARE_OK;
}
