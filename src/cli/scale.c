/* scale.c: `pare scale`: the scales of the bench, and how good they are. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/closure.h"
#include "base/text.h"
#include "base/units.h"
#include "cli/command.h"
#include "cli/day.h"
#include "cli/use.h"
#include "show/digits.h"
#include "show/json.h"

#define COMMON  0.001 /* of a scale of which nothing else is said */
#define LEAST_U 1e-6  /* a known mass of which nobody says how well: 1 mg */

/* ---- what was typed ---- */

typedef struct typed {
    bool resolution, repeatability, common, known, known_u, reads;
    double resolution_kg, repeatability_kg, common_share;
    pare_scale_check check;
} typed;

static pare_status read_word(const char *word, pare_units *units, typed *t, pare_error *err)
{
    const struct {
        const char *key;
        bool *said;
        double *value;
        pare_dimension dimension;
        double low, high;
        const char *range;
    } keys[] = {
        {"resolution", &t->resolution, &t->resolution_kg, PARE_DIM_MASS, 1e-7, 1, "0.1 mg to 1 kg"},
        {"repeatability", &t->repeatability, &t->repeatability_kg, PARE_DIM_MASS, 0, 1,
         "0 g to 1 kg"},
        {"common", &t->common, &t->common_share, PARE_DIM_SHARE, 0, 0.5, "0 % to 50 %"},
        {"known", &t->known, &t->check.known_kg, PARE_DIM_MASS, 1e-6, 100, "1 mg to 100 kg"},
        {"known_u", &t->known_u, &t->check.known_u_kg, PARE_DIM_MASS, 0, 1, "0 g to 1 kg"},
        {"reads", &t->reads, &t->check.reads_kg, PARE_DIM_MASS, 0, 100, "0 g to 100 kg"},
    };
    enum { KEYS = sizeof keys / sizeof keys[0] };
    const size_t length = strcspn(word, "=");
    const char *names[KEYS];
    char key[32];
    snprintf(key, sizeof key, "%.*s", (int)(length < 31 ? length : 31), word);
    for (size_t i = 0; i < KEYS; i++) {
        names[i] = keys[i].key;
        if (strcmp(keys[i].key, key) != 0 || !word[length])
            continue;
        if (*keys[i].said)
            return pare_fail(err, PARE_BAD_DATA, "scale: %s is given twice", key);
        *keys[i].said = true;
        const char *text = word + length + 1;
        if (pare_quantity(units, text, keys[i].dimension, keys[i].value, err) != PARE_OK)
            return pare_within(err, "scale: %s", key);
        if (*keys[i].value < keys[i].low || *keys[i].value > keys[i].high)
            return pare_fail(err, PARE_BAD_DATA, "scale: %s is %.40s; right would be %s", key, text,
                             keys[i].range);
        return PARE_OK;
    }
    const char *near = pare_nearest(key, KEYS, names);
    return pare_fail(err, PARE_UNKNOWN, "scale takes no '%.40s'; %s%s%s", word,
                     near ? "did you mean " : "right would be ",
                     near ? near : "resolution, repeatability, common, or known, known_u and reads",
                     near ? "=?" : "");
}

static bool is_name(const char *name)
{
    return *name && strlen(name) <= 48 &&
           strspn(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_") ==
               strlen(name);
}

static pare_status read_words(const options *given, typed *t, pare_error *err)
{
    pare_units *units = pare_units_open();
    pare_status status = units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK && !is_name(given->operand[0]))
        status = pare_fail(err, PARE_BAD_DATA,
                           "scale '%.48s' cannot be typed again; right would be letters, digits, - "
                           "and _, 48 at most",
                           given->operand[0]);
    for (size_t i = 1; i < given->operands && status == PARE_OK; i++)
        status = read_word(given->operand[i], units, t, err);
    pare_units_close(units);
    if (status != PARE_OK)
        return status;
    if (t->known != t->reads || (t->known_u && !t->known))
        return pare_fail(err, PARE_BAD_DATA,
                         "scale: a check has known= and reads=; right would be like known=7.50g "
                         "known_u=0.02g reads=7.5g");
    return PARE_OK;
}

/* ---- the change ---- */

static pare_status changed(const options *given, const pare_weighings *all, const typed *t,
                           pare_arena *arena, pare_scale *scale, pare_error *err)
{
    const pare_scale *was = NULL;
    for (size_t i = 0; i < all->scales; i++)
        if (strcmp(all->scale[i].id, given->operand[0]) == 0)
            was = &all->scale[i];
    if (!was && !t->resolution)
        return pare_fail(err, PARE_UNKNOWN,
                         "no scale '%.48s'; a new one needs its last digit, like resolution=0.1g",
                         given->operand[0]);
    *scale = was ? *was : (pare_scale){.id = given->operand[0], .common = COMMON};
    if (t->resolution)
        scale->resolution_kg = t->resolution_kg;
    if (t->repeatability || !was)
        scale->repeatability_kg = t->repeatability ? t->repeatability_kg : t->resolution_kg;
    if (t->common)
        scale->common = t->common_share;
    if (!t->known)
        return PARE_OK;
    pare_scale_check *check = pare_arena_array(arena, scale->checks + 1, sizeof *check);
    if (!check)
        return pare_no_memory(err);
    if (scale->checks)
        memcpy(check, scale->check, scale->checks * sizeof *check);
    check[scale->checks++] = t->check;
    scale->check = check;
    return PARE_OK;
}

static pare_status keep(const options *given, pare_weighings *all, pare_arena *arena,
                        pare_error *err)
{
    typed t = {.check = {.known_u_kg = LEAST_U}};
    char now[DAY];
    pare_scale scale;
    pare_text path = {0};
    pare_store *store = NULL;
    pare_status status = day_today(now, err);
    t.check.date = now;
    if (status == PARE_OK && given->date)
        status = day_read("--date", given->date, now, &t.check.date, err);
    if (status == PARE_OK)
        status = read_words(given, &t, err);
    if (status == PARE_OK)
        status = changed(given, all, &t, arena, &scale, err);
    if (status == PARE_OK)
        status = bench_path(given, false, &path, err);
    if (status == PARE_OK)
        status = bench_store(path.bytes, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK) {
        const pare_change change = change_of("scale", given, arena);
        status = pare_store_put_scale(store, &scale, &change, err);
    }
    if (status == PARE_OK)
        status = after_change(pare_store_weighings(store, arena, all, err), err);
    pare_store_close(store);
    pare_text_free(&path);
    return status;
}

/* ---- the answer ---- */

/* What its checks and what was said of it make of its common error: the posterior of one unknown. */
static void common_of(const pare_scale *scale, double *off, double *u)
{
    double weight = 1 / (scale->common * scale->common + 1e-18), sum = 0;
    for (size_t i = 0; i < scale->checks; i++) {
        const pare_scale_check *check = &scale->check[i];
        const double share_u =
            hypot(pare_scale_reading_u_kg(scale), check->known_u_kg) / check->known_kg;
        sum += (check->reads_kg / check->known_kg - 1) / (share_u * share_u);
        weight += 1 / (share_u * share_u);
    }
    *off = sum / weight;
    *u = 1 / sqrt(weight);
}

static json_t *object_of(const pare_scale *scale)
{
    double off, u;
    json_t *one = json_object();
    common_of(scale, &off, &u);
    json_object_set_new(one, "id", json_string(scale->id));
    json_object_set_new(one, "resolution_g", pare_json_number(1e3 * scale->resolution_kg));
    json_object_set_new(one, "repeatability_g", pare_json_number(1e3 * scale->repeatability_kg));
    json_object_set_new(one, "reading_g_u", pare_json_number(1e3 * pare_scale_reading_u_kg(scale)));
    json_object_set_new(one, "common_percent", pare_json_number(100 * off));
    json_object_set_new(one, "common_percent_u", pare_json_number(100 * u));
    json_object_set_new(one, "checks", json_integer((json_int_t)scale->checks));
    return one;
}

static void put_scale(const pare_scale *scale, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    double off, u;
    pare_text line = {0};
    common_of(scale, &off, &u);
    pare_text_printf(&line, "shows %s g, ", pare_digits_limit(text, 1e3 * scale->resolution_kg));
    pare_text_printf(&line,
                     "repeats to %s g: ", pare_digits_limit(text, 1e3 * scale->repeatability_kg));
    pare_text_printf(&line, "a reading is good to %s %s g; ", pare_screen_plus_minus(screen),
                     pare_digits_at(text, 1e3 * pare_scale_reading_u_kg(scale),
                                    1 + pare_digits_place(1e3 * scale->resolution_kg,
                                                          1e3 * scale->resolution_kg)));
    if (scale->checks)
        pare_text_printf(&line, "by %zu check%s it reads %s %% too much", scale->checks,
                         scale->checks == 1 ? "" : "s",
                         pare_digits_u(text, screen, 100 * off, 100 * u));
    else
        pare_text_printf(&line, "all of them together to %s %s %%, never checked",
                         pare_screen_plus_minus(screen), pare_digits_limit(text, 100 * u));
    if (line.failed)
        out->failed = true;
    else
        pare_put_labelled(screen, out, scale->id, line.bytes);
    pare_text_free(&line);
}

static void answer(const options *given, const pare_weighings *all, pare_text *out)
{
    const pare_screen screen = terminal_screen();
    const bool json = (given->given & OPTION_JSON) != 0;
    json_t *object = json ? json_object() : NULL, *list = json ? json_array() : NULL;
    size_t shown = 0;
    for (size_t i = 0; i < all->scales; i++) {
        if (given->operands && strcmp(all->scale[i].id, given->operand[0]) != 0)
            continue;
        shown++;
        if (json)
            json_array_append_new(list, object_of(&all->scale[i]));
        else
            put_scale(&all->scale[i], &screen, out);
    }
    if (json) {
        json_object_set_new(object, "scales", list);
        pare_json_write(object, out);
    } else if (shown == 0) {
        pare_put_wrapped(&screen, out, 0, 0,
                         "no scales yet; pare scale letters resolution=0.1g adds one");
    }
}

static pare_status check_there(const options *given, const pare_weighings *all, pare_arena *arena,
                               pare_error *err)
{
    const char **names = pare_arena_array(arena, all->scales + 1, sizeof *names);
    if (!names)
        return pare_no_memory(err);
    for (size_t i = 0; i < all->scales; i++) {
        names[i] = all->scale[i].id;
        if (strcmp(names[i], given->operand[0]) == 0)
            return PARE_OK;
    }
    const char *near = pare_nearest(given->operand[0], all->scales, names);
    return near ? pare_fail(err, PARE_UNKNOWN, "no scale '%.48s'; did you mean %s?",
                            given->operand[0], near)
                : pare_fail(err, PARE_UNKNOWN,
                            "no scale '%.48s'; pare scale lists them, resolution=0.1g makes one",
                            given->operand[0]);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_weighings all = {0};
    pare_arena *arena = pare_arena_open();
    pare_status status =
        arena ? bench_open(given, PARE_STORE_READ, &use, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_store_weighings(use.store, arena, &all, err);
    bench_leave(&use);
    if (status == PARE_OK && given->operands == 1)
        status = check_there(given, &all, arena, err);
    if (status == PARE_OK && given->operands > 1)
        status = keep(given, &all, arena, err);
    if (status == PARE_OK)
        answer(given, &all, out);
    pare_arena_close(arena);
    return status;
}

static size_t words(size_t operands, const char *const operand[], size_t most, const char *name[])
{
    static const char *const keys[] = {"resolution", "repeatability", "common",
                                       "known",      "known_u",       "reads"};
    size_t count = 0;
    (void)operand;
    for (; operands > 0 && count < most && count < sizeof keys / sizeof keys[0]; count++)
        name[count] = keys[count];
    return count;
}

const command command_scale = {
    .name = "scale",
    .line = "the scales, how good they are, checks with known masses",
    .usage = "pare scale [SCALE] [--json]\n"
             "pare scale SCALE KEY=VALUE... [--date DATE] [--why TEXT] [--json]",
    .details = "  KEY=VALUE  resolution=0.1g (its last digit), repeatability=0.1g (the same\n"
               "             thing put on again; the resolution, where it is not said),\n"
               "             common=0.1% (what all its readings are off by alike)\n"
               "             known=7.50g known_u=0.02g reads=7.5g: a check with a known mass, a\n"
               "             coin will do; each is kept, and its own error counts\n"
               "A check tells by which share the scale reads too much; readings are corrected by\n"
               "that, as well as the check knows it.\n",
    .example = "  pare scale\n"
               "  pare scale pocket resolution=0.01g repeatability=0.02g\n"
               "  pare scale pocket known=7.50g known_u=0.03g reads=7.52g\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_DATE | OPTION_WHY,
    .words = words,
    .run = run,
};
