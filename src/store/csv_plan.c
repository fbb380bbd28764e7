/* csv_plan.c: what each column says (see csv_plan.h).
 *
 * A title is tried whole, then less a unit in brackets or at its end ("mass (g)", "weight_g"), and a
 * mass also less a word on how it is known ("weighed mass"). What a list is comes from which titles it
 * has: thrust makes a stand table, volts and current by time a log, minutes of a craft or pack flights,
 * readings of a craft weigh-ins, anything else parts. --map goes before all that. */
#include "store/csv_plan.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/reading.h"

enum { TITLE = 96 };

typedef struct titles {
    const char *name;
    const pare_csv_look *look;
    const pare_csv_told *told;
    pare_units *units;
    pare_arena *arena;
    bool *no_memory; /* so that no unit is lost unsaid */
} titles;

/* ---- units ---- */

static bool fits(const titles *t, const char *unit, pare_dimension dimension)
{
    char one[32];
    double value = 0;
    snprintf(one, sizeof one, "1 %.24s", pare_csv_unit(unit, dimension));
    return pare_quantity(t->units, one, dimension, &value, NULL) == PARE_OK;
}

static bool has_unit(const pare_csv_target *target)
{
    return target->form == PARE_CSV_QUANTITY || target->form == PARE_CSV_SPAN ||
           target->form == PARE_CSV_FIT || target->form == PARE_CSV_MASS_U ||
           target->form == PARE_CSV_MOUNT;
}

/* The unit that stands behind three quarters of the numbers in the column or more; NULL: none does. */
static const char *unit_seen(const titles *t, const pare_csv_seen *seen,
                             const pare_csv_target *target)
{
    const char *most = NULL;
    size_t most_times = 0, all = 0;
    for (size_t i = 0; i < seen->units; i++) {
        const char *unit = pare_csv_unit(seen->unit[i], target->dimension);
        size_t times = 0;
        if (!fits(t, unit, target->dimension))
            continue;
        all += seen->times[i];
        /* "g" and "gr" are one. */
        for (size_t k = 0; k < seen->units; k++)
            if (strcmp(pare_csv_unit(seen->unit[k], target->dimension), unit) == 0)
                times += seen->times[k];
        if (times > most_times) {
            most = unit;
            most_times = times;
        }
    }
    return most && *most && 4 * most_times >= 3 * all ? most : NULL;
}

/* ---- titles ---- */

/* A title taken apart. */
typedef struct reading_of {
    const pare_csv_target *target;
    const char *unit;
    bool or_kind;
    int known;
} reading_of;

static const struct {
    const char *word;
    pare_known known;
} KNOWN_WORDS[] = {
    {"weighed", PARE_WEIGHED},   {"measured", PARE_WEIGHED},   {"actual", PARE_WEIGHED},
    {"real", PARE_WEIGHED},      {"my", PARE_WEIGHED},         {"stated", PARE_STATED},
    {"listed", PARE_STATED},     {"claimed", PARE_STATED},     {"advertised", PARE_STATED},
    {"guessed", PARE_ESTIMATED}, {"estimated", PARE_ESTIMATED}};

/* "weighed mass" as "mass". @return false where no such word is in it */
static bool take_known(const char *tidy, char rest[TITLE], int *known)
{
    for (size_t i = 0; i < PARE_COUNT(KNOWN_WORDS); i++) {
        const size_t word = strlen(KNOWN_WORDS[i].word), length = strlen(tidy);
        *known = (int)KNOWN_WORDS[i].known;
        if (strcmp(tidy, KNOWN_WORDS[i].word) == 0 && KNOWN_WORDS[i].known == PARE_WEIGHED &&
            i == 0) {
            strcpy(rest, "mass");
            return true;
        }
        if (length <= word + 1)
            continue;
        if (strncmp(tidy, KNOWN_WORDS[i].word, word) == 0 && tidy[word] == ' ') {
            snprintf(rest, TITLE, "%s", tidy + word + 1);
            return true;
        }
        if (strcmp(tidy + length - word, KNOWN_WORDS[i].word) == 0 &&
            tidy[length - word - 1] == ' ') {
            snprintf(rest, TITLE, "%.*s", (int)(length - word - 1), tidy);
            return true;
        }
    }
    return false;
}

static bool look_up(pare_list_kind list, const char *text, reading_of *found)
{
    char tidy[TITLE], rest[TITLE];
    pare_csv_tidy(text, tidy, sizeof tidy);
    *found = (reading_of){.known = -1};
    found->target = pare_csv_title(list, tidy, &found->unit, &found->or_kind);
    if (found->target)
        return true;
    if (list != PARE_LIST_PARTS || !take_known(tidy, rest, &found->known))
        return false;
    found->target = pare_csv_title(list, rest, &found->unit, &found->or_kind);
    if (found->target && strcmp(found->target->name, "mass") == 0)
        return true;
    *found = (reading_of){.known = -1};
    return false;
}

/* "mass (g)", "mass [g]", "mass g", "mass_g": the text before the unit, and the unit. */
static bool part_unit(const char *title, char before[TITLE], char unit[24])
{
    const size_t length = strlen(title);
    const char *open = strpbrk(title, "([");
    if (length >= TITLE)
        return false;
    if (open && open > title) {
        const size_t inside = strcspn(open + 1, ")]");
        if (inside == 0 || inside >= 24)
            return false;
        snprintf(before, TITLE, "%.*s", (int)(open - title), title);
        snprintf(unit, 24, "%.*s", (int)inside, open + 1);
        return true;
    }
    const char *last = NULL;
    for (const char *c = title; *c; c++)
        if (*c == ' ' || *c == '_' || *c == ',' || *c == '/' || *c == ':')
            last = c;
    if (!last || last == title || !last[1] || strlen(last + 1) >= 24)
        return false;
    snprintf(before, TITLE, "%.*s", (int)(last - title), title);
    snprintf(unit, 24, "%s", last + 1);
    return true;
}

static const char *unit_text(const titles *t, const char *unit)
{
    const char *text = pare_arena_text(t->arena, unit);
    *t->no_memory = *t->no_memory || !text;
    return text;
}

/* What a title means in one kind of list. */
static bool read_title(const titles *t, pare_list_kind list, const char *title, reading_of *found)
{
    char before[TITLE], unit[24];
    if (look_up(list, title, found)) {
        /* A unit of signs alone, "efficiency (%)", is lost in a tidied title. */
        if (!found->unit && strpbrk(title, "([") && part_unit(title, before, unit) &&
            has_unit(found->target) &&
            fits(t, pare_csv_unit(unit, found->target->dimension), found->target->dimension))
            found->unit = unit_text(t, pare_csv_unit(unit, found->target->dimension));
        return true;
    }
    if (!part_unit(title, before, unit) || !look_up(list, before, found))
        return false;
    const char *spelt = pare_csv_unit(unit, found->target->dimension);
    const bool bracket = strpbrk(title, "([") != NULL;
    if (has_unit(found->target) && fits(t, spelt, found->target->dimension)) {
        found->unit = unit_text(t, spelt);
        return true;
    }
    if (found->target->form == PARE_CSV_MONEY)
        return true; /* "price EUR": looked at when it is read */
    /* "weight (each)", "mass (weighed)" */
    char rest[TITLE];
    char tidy[TITLE];
    pare_csv_tidy(title, tidy, sizeof tidy);
    if (strcmp(found->target->name, "mass") == 0)
        take_known(tidy, rest, &found->known);
    return bracket;
}

/* ---- what the person told ---- */

static pare_status unknown_target(const titles *t, pare_list_kind list, const char *option,
                                  const char *word, pare_error *err)
{
    const char *names[PARE_CSV_TARGETS];
    const size_t count = pare_csv_target_names(list, names);
    const char *near = pare_nearest(word, count, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "%s: %s '%.40s'; is it '%s'?", t->name, option, word,
                         near);
    pare_text all = {0};
    for (size_t i = 0; i < count; i++)
        pare_text_printf(&all, "%s%s", i ? ", " : "", names[i]);
    pare_fail(err, PARE_UNKNOWN, "%s: %s '%.40s'; right would be one of %.330s", t->name, option,
              word, pare_text_all(&all));
    pare_text_free(&all);
    return PARE_UNKNOWN;
}

/* "mass", "mass (g)", "spec.kv", "-". */
static pare_status read_wish(const titles *t, pare_list_kind list, const char *wish,
                             pare_csv_column *column, pare_error *err)
{
    char before[TITLE], unit[24] = "";
    *column = (pare_csv_column){.title = column->title, .known = -1};
    if (strcmp(wish, "-") == 0)
        return PARE_OK;
    const char *word = strrchr(wish, '.') ? strrchr(wish, '.') + 1 : wish;
    column->target = pare_csv_target_named(list, word);
    if (column->target)
        return PARE_OK;
    if (part_unit(word, before, unit)) {
        size_t length = strlen(before);
        length = pare_text_trimmed(before, length);
        before[length] = '\0';
        column->target = pare_csv_target_named(list, before);
    }
    if (!column->target)
        return unknown_target(t, list, "--map to", word, err);
    if (!has_unit(column->target) || !fits(t, unit, column->target->dimension))
        return pare_fail(err, PARE_BAD_DATA, "%s: --map to %s in '%s'; right would be %s", t->name,
                         column->target->name, unit,
                         pare_dimension_units(column->target->dimension));
    column->unit = pare_arena_text(t->arena, pare_csv_unit(unit, column->target->dimension));
    return column->unit ? PARE_OK : pare_no_memory(err);
}

static int column_named(const titles *t, const char *word)
{
    char wanted[TITLE], title[TITLE];
    for (size_t i = 0; i < t->look->columns; i++)
        if (strcmp(t->look->column[i].title, word) == 0)
            return (int)i;
    pare_csv_tidy(word, wanted, sizeof wanted);
    for (size_t i = 0; i < t->look->columns; i++) {
        pare_csv_tidy(t->look->column[i].title, title, sizeof title);
        if (*title && strcmp(title, wanted) == 0)
            return (int)i;
    }
    char *end = NULL;
    const long number = strtol(word, &end, 10);
    return *word && !*end && number >= 1 && number <= (long)t->look->columns ? (int)number - 1 : -1;
}

/* What was told goes before what was seen. */
static void give_way(pare_csv_plan *plan, size_t told)
{
    plan->column[told].told = true;
    for (size_t i = 0; i < plan->fields; i++)
        if (i != told && !plan->column[i].told &&
            plan->column[i].target == plan->column[told].target)
            plan->column[i].target = NULL;
}

static pare_status take_map(const titles *t, pare_csv_plan *plan, const char *map, pare_error *err)
{
    char word[TITLE];
    const char *equals = strrchr(map, '=');
    if (!equals || equals == map || !equals[1] || equals - map >= TITLE)
        return pare_fail(err, PARE_BAD_DATA,
                         "--map '%.60s'; right would be COLUMN=WHAT, like --map 'Wt.=mass (g)'",
                         map);
    snprintf(word, sizeof word, "%.*s", (int)(equals - map), map);
    const int i = column_named(t, word);
    if (i >= 0) {
        const pare_status status = read_wish(t, plan->list, equals + 1, &plan->column[i], err);
        if (status == PARE_OK)
            give_way(plan, (size_t)i);
        return status;
    }
    const char **names = pare_arena_array(t->arena, t->look->columns + 1, sizeof *names);
    if (!names)
        return pare_no_memory(err);
    for (size_t k = 0; k < t->look->columns; k++)
        names[k] = t->look->column[k].title;
    const char *near = pare_nearest(word, t->look->columns, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "%s: no column '%.40s'; is it '%s'?", t->name, word,
                         near);
    return pare_fail(
        err, PARE_UNKNOWN,
        "%s: no column '%.40s'; right would be one of its names, or a number from 1 to "
        "%zu",
        t->name, word, t->look->columns);
}

static pare_status take_set(const titles *t, pare_csv_plan *plan, const char *set, pare_error *err)
{
    char word[TITLE];
    const char *equals = strchr(set, '=');
    if (!equals || equals == set || !equals[1] || equals - set >= TITLE)
        return pare_fail(err, PARE_BAD_DATA,
                         "--set '%.60s'; right would be WHAT=TEXT, like --set kind=motor", set);
    snprintf(word, sizeof word, "%.*s", (int)(equals - set), set);
    const pare_csv_target *target = pare_csv_target_named(plan->list, word);
    if (!target)
        return unknown_target(t, plan->list, "--set", word, err);
    char tidy[TITLE];
    pare_csv_tidy(equals + 1, tidy, sizeof tidy);
    if (target->form == PARE_CSV_KIND && pare_csv_kind(tidy) < 0) {
        const char *near = pare_csv_kind_near(tidy);
        return pare_fail(
            err, PARE_BAD_DATA, "no kind of part is called '%.40s'; %s%s%s", equals + 1,
            near ? "is it '" : "right would be one like motor, esc 4in1, pack, printed",
            near ? near : "", near ? "'?" : "");
    }
    /* What is set goes before a column of the table. */
    for (size_t i = 0; i < plan->columns; i++)
        if (plan->column[i].target == target)
            plan->column[i].target = NULL;
    plan->column[plan->columns++] =
        (pare_csv_column){.title = target->name, .target = target, .known = -1, .set = equals + 1};
    return PARE_OK;
}

/* ---- what it is ---- */

static bool has(const titles *t, pare_list_kind list, const char *target)
{
    reading_of found;
    for (size_t i = 0; i < t->told->sets; i++) {
        const size_t length = strlen(target);
        if (strncmp(t->told->set[i], target, length) == 0 && t->told->set[i][length] == '=')
            return true;
    }
    for (size_t i = 0; i < t->look->columns; i++)
        if (read_title(t, list, t->look->column[i].title, &found) &&
            strcmp(found.target->name, target) == 0)
            return true;
    return false;
}

static pare_list_kind see_list(const titles *t)
{
    if (has(t, PARE_LIST_STAND, "thrust") &&
        (has(t, PARE_LIST_STAND, "throttle") || has(t, PARE_LIST_STAND, "pulse") ||
         has(t, PARE_LIST_STAND, "speed") || has(t, PARE_LIST_STAND, "electrical_speed") ||
         has(t, PARE_LIST_STAND, "current")))
        return PARE_LIST_STAND;
    if (has(t, PARE_LIST_LOG, "time") && has(t, PARE_LIST_LOG, "volts") &&
        has(t, PARE_LIST_LOG, "current"))
        return PARE_LIST_LOG;
    const bool craft = has(t, PARE_LIST_FLIGHTS, "craft"), date = has(t, PARE_LIST_FLIGHTS, "date");
    if ((craft || date) && has(t, PARE_LIST_FLIGHTS, "lasted"))
        return PARE_LIST_FLIGHTS;
    if (craft && date && has(t, PARE_LIST_FLIGHTS, "put_back"))
        return PARE_LIST_FLIGHTS;
    if (craft && has(t, PARE_LIST_WEIGH_INS, "reads"))
        return PARE_LIST_WEIGH_INS;
    return PARE_LIST_PARTS;
}

/* ---- the plan ---- */

static bool any_filled(const pare_csv_look *look)
{
    for (size_t i = 0; i < look->columns; i++)
        if (look->column[i].filled)
            return true;
    return false;
}

static void plan_column(const titles *t, pare_list_kind list, const pare_csv_seen *seen,
                        pare_csv_column *column)
{
    reading_of found;
    *column = (pare_csv_column){.title = seen->title, .known = -1};
    if (!*seen->title || !read_title(t, list, seen->title, &found))
        return;
    const bool logs = list == PARE_LIST_STAND || list == PARE_LIST_LOG;
    /* A stand or logger writes a column for each sensor that it may have. */
    if (logs && !seen->filled && any_filled(t->look))
        return;
    /* What a craft's sensor says of warmth and pressure is not the day's air. */
    if (list == PARE_LIST_LOG && found.target->map && strcmp(found.target->map, "air") == 0)
        return;
    column->target = found.target;
    column->unit = found.unit;
    column->known = found.known;
    const bool kinds = seen->kinds > 0 && 2 * seen->kinds >= seen->filled;
    if (list == PARE_LIST_PARTS && found.or_kind) {
        if (kinds)
            column->target = pare_csv_target_named(list, "kind");
        else if (column->target->form == PARE_CSV_KIND)
            column->target = NULL;
    }
}

/* A column of kinds under some other title, where no title says so. */
static void see_kinds(const titles *t, pare_csv_plan *plan)
{
    const pare_csv_target *kind = pare_csv_target_named(PARE_LIST_PARTS, "kind");
    for (size_t i = 0; i < plan->fields; i++)
        if (plan->column[i].target == kind)
            return;
    for (size_t i = 0; i < plan->fields; i++) {
        const pare_csv_seen *seen = &t->look->column[i];
        const bool free = !plan->column[i].target || plan->column[i].target->form == PARE_CSV_NAME;
        if (free && !plan->column[i].told && seen->kinds >= 2 &&
            3 * seen->kinds >= 2 * seen->filled) {
            plan->column[i] = (pare_csv_column){
                .title = seen->title, .target = kind, .known = -1, .unit_seen = true};
            return;
        }
    }
}

static bool has_target(const pare_csv_plan *plan, const pare_csv_target *target)
{
    for (size_t i = 0; i < plan->columns; i++)
        if (plan->column[i].target == target)
            return true;
    return false;
}

/* "Motor" over a column of names: the names of motors. */
static void see_title_of_kind(pare_csv_plan *plan)
{
    const pare_csv_target *kind = pare_csv_target_named(PARE_LIST_PARTS, "kind"),
                          *name = pare_csv_target_named(PARE_LIST_PARTS, "name");
    char tidy[TITLE];
    if (has_target(plan, kind) || has_target(plan, name))
        return;
    for (size_t i = 0; i < plan->fields; i++) {
        pare_csv_column *column = &plan->column[i];
        pare_csv_tidy(column->title, tidy, sizeof tidy);
        const int found = pare_csv_kind(tidy);
        if (column->target || column->told || found < 0)
            continue;
        column->target = name;
        plan->column[plan->columns++] = (pare_csv_column){.title = kind->name,
                                                          .target = kind,
                                                          .known = -1,
                                                          .set = pare_kind_name((pare_kind)found)};
        plan->titled = pare_kind_words((pare_kind)found);
        return;
    }
}

/* Of several names the one titled so, else the first; the others describe. */
static void choose_name(pare_csv_plan *plan)
{
    const pare_csv_target *name = pare_csv_target_named(PARE_LIST_PARTS, "name");
    pare_csv_column *chosen = NULL;
    char tidy[TITLE];
    for (size_t i = 0; i < plan->fields; i++) {
        if (plan->column[i].target != name)
            continue;
        pare_csv_tidy(plan->column[i].title, tidy, sizeof tidy);
        if (!chosen || plan->column[i].told || (strcmp(tidy, "name") == 0 && !chosen->told))
            chosen = &plan->column[i];
    }
    for (size_t i = 0; i < plan->fields; i++)
        if (plan->column[i].target == name && &plan->column[i] != chosen)
            plan->column[i].target = NULL;
}

static pare_status check_single(const pare_csv_plan *plan, pare_error *err)
{
    for (size_t i = 0; i < plan->columns; i++) {
        const pare_csv_column *a = &plan->column[i];
        if (!a->target || strcmp(a->target->name, "note") == 0)
            continue;
        for (size_t k = i + 1; k < plan->columns; k++)
            if (plan->column[k].target && strcmp(pare_csv_target_says(plan->column[k].target),
                                                 pare_csv_target_says(a->target)) == 0)
                return pare_fail(
                    err, PARE_BAD_DATA,
                    "%s:%d: columns %zu '%.40s' and %zu '%.40s' both say %s; right would "
                    "be one: leave the other out by --map %zu=-",
                    plan->name, plan->line, i + 1, a->title, k + 1, plan->column[k].title,
                    pare_csv_target_says(a->target), k + 1);
    }
    return PARE_OK;
}

static pare_status check_any(const pare_csv_plan *plan, pare_error *err)
{
    const char *first = "";
    for (size_t i = 0; i < plan->columns; i++)
        if (plan->column[i].target)
            return PARE_OK;
        else if (!*first)
            first = plan->column[i].title;
    const char *near = pare_csv_title_near(plan->list, first);
    return pare_fail(
        err, PARE_BAD_DATA,
        "%s:%d: none of its %zu columns is known (the first is '%.40s'%s%s%s); right would "
        "be names like: name, kind, mass (g), or --map COLUMN=WHAT",
        plan->name, plan->line, plan->fields, first, near ? ", is it '" : "", near ? near : "",
        near ? "'?" : "");
}

static void find_units(const titles *t, pare_csv_plan *plan)
{
    for (size_t i = 0; i < plan->fields; i++) {
        pare_csv_column *column = &plan->column[i];
        if (!column->target || !has_unit(column->target) || column->unit)
            continue;
        column->unit = unit_seen(t, &t->look->column[i], column->target);
        column->unit_seen = column->unit != NULL;
    }
}

static int by_target(const void *a, const void *b)
{
    const pare_csv_column *const *one = a, *const *two = b;
    if ((*one)->target != (*two)->target)
        return (*one)->target < (*two)->target ? -1 : 1;
    return *one < *two ? -1 : *one > *two;
}

/* In the order of the targets, so that a part's text does not depend on the order of columns. */
static pare_status put_in_order(pare_csv_plan *plan, pare_arena *arena, pare_error *err)
{
    plan->order = pare_arena_array(arena, plan->columns + 1, sizeof(pare_csv_column *));
    if (!plan->order)
        return pare_no_memory(err);
    for (size_t i = 0; i < plan->columns; i++)
        if (plan->column[i].target)
            plan->order[plan->ordered++] = &plan->column[i];
    qsort(plan->order, plan->ordered, sizeof(pare_csv_column *), by_target);
    return PARE_OK;
}

pare_status pare_csv_make_plan(const char *name, const pare_csv_look *look,
                               const pare_csv_told *told, pare_units *units, pare_arena *arena,
                               pare_csv_plan *plan, pare_error *err)
{
    bool no_memory = false;
    const titles t = {name, look, told, units, arena, &no_memory};
    pare_status status = PARE_OK;
    *plan = (pare_csv_plan){.name = name,
                            .line = look->line,
                            .separator = look->separator,
                            .decimal = look->decimal,
                            .fields = look->columns,
                            .columns = look->columns};
    plan->column = pare_arena_array(arena, look->columns + told->sets + 2, sizeof *plan->column);
    if (!plan->column)
        return pare_no_memory(err);
    plan->list = told->as == PARE_LIST_SEEN ? see_list(&t) : told->as;
    for (size_t i = 0; i < look->columns; i++)
        plan_column(&t, plan->list, &look->column[i], &plan->column[i]);
    if (no_memory)
        return pare_no_memory(err);
    for (size_t i = 0; i < told->maps && status == PARE_OK; i++)
        status = take_map(&t, plan, told->map[i], err);
    if (plan->list == PARE_LIST_PARTS) {
        see_kinds(&t, plan);
        see_title_of_kind(plan);
        choose_name(plan);
    }
    for (size_t i = 0; i < told->sets && status == PARE_OK; i++)
        status = take_set(&t, plan, told->set[i], err);
    if (status == PARE_OK)
        status = check_single(plan, err);
    if (status == PARE_OK)
        status = check_any(plan, err);
    if (status != PARE_OK)
        return status;
    find_units(&t, plan);
    return put_in_order(plan, arena, err);
}

const pare_csv_column *pare_csv_column_of(const pare_csv_plan *plan, const char *target)
{
    for (size_t i = 0; i < plan->columns; i++)
        if (plan->column[i].target && strcmp(plan->column[i].target->name, target) == 0)
            return &plan->column[i];
    return NULL;
}
