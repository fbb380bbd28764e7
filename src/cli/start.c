/* start.c: `pare craft start`: a craft of one's own from almost nothing.
 *
 * Words key=value, or, in a terminal and without any, questions in the order in which people know the
 * answers. A question is one key with the unit that its bare number has, so that both ways are read
 * by the same code. Questions go to standard error: standard output is the sheet. Nothing is stored
 * before all is answered, so that Ctrl-C leaves the bench as it was. */
#include "advise/start.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/keys.h"
#include "cli/start.h"
#include "cli/use.h"
#include "show/digits.h"
#include "show/sheet_json.h"
#include "show/sheet_text.h"

#define THING  "craft start"
#define INCH_M 0.0254
#define AH_C   3600.0

enum {
    K_ALL_UP,
    K_MINUTES,
    K_PACK,
    K_CELLS,
    K_CAPACITY,
    K_CHEMISTRY,
    K_PROPELLER,
    K_PITCH,
    K_BLADES,
    K_LINE,
    K_STATOR,
    K_KV,
    K_CARRIES,
    K_FRAME,
    ANSWERS
};

static const key table[ANSWERS] = {
    [K_ALL_UP] = {.name = "all_up",
                  .dimension = PARE_DIM_MASS,
                  .low = 0.015,
                  .high = 25,
                  .allowed = "15 g .. 25 kg"},
    [K_MINUTES] = {.name = "minutes",
                   .dimension = PARE_DIM_TIME,
                   .low = 30,
                   .high = 3 * 3600,
                   .allowed = "30 s .. 3 h"},
    [K_PACK] = {.name = "pack", .is_word = true},
    [K_CELLS] =
        {.name = "cells", .dimension = PARE_DIM_COUNT, .low = 1, .high = 14, .allowed = "1 .. 14"},
    [K_CAPACITY] = {.name = "capacity",
                    .dimension = PARE_DIM_CHARGE,
                    .low = 0.05 * AH_C,
                    .high = 100 * AH_C,
                    .allowed = "50 mAh .. 100 Ah"},
    [K_CHEMISTRY] = {.name = "chemistry", .is_word = true},
    [K_PROPELLER] = {.name = "propeller",
                     .dimension = PARE_DIM_LENGTH,
                     .low = INCH_M,
                     .high = 30 * INCH_M,
                     .allowed = "1 in .. 30 in"},
    [K_PITCH] = {.name = "pitch",
                 .dimension = PARE_DIM_LENGTH,
                 .low = 0.5 * INCH_M,
                 .high = 30 * INCH_M,
                 .allowed = "0.5 in .. 30 in"},
    [K_BLADES] =
        {.name = "blades", .dimension = PARE_DIM_COUNT, .low = 2, .high = 8, .allowed = "2 .. 8"},
    [K_LINE] = {.name = "line", .is_word = true},
    [K_STATOR] = {.name = "stator", .is_word = true},
    [K_KV] = {.name = "kv",
              .dimension = PARE_DIM_KV,
              .low = 50,
              .high = 30000,
              .allowed = "50 .. 30000 rpm/V"},
    [K_CARRIES] = {.name = "carries", .is_word = true},
    [K_FRAME] = {.name = "frame", .is_word = true},
};

/* In the order in which people know them; the unit is a bare number's. */
static const struct {
    int key;
    const char *unit, *asks;
} question[] = {
    {K_ALL_UP, "g", "all-up mass on the scale, as flown, in g"},
    {K_MINUTES, "min", "minutes that it flies on a pack"},
    {K_PACK, "", "that pack: its id on the bench, or like 4S 1500 mAh"},
    {K_PROPELLER, "in", "propeller's diameter, in inches"},
    {K_PITCH, "in", "propeller's pitch, in inches"},
    {K_BLADES, "", "blades of a propeller"},
    {K_LINE, "",
     "propeller's line, which makes its figures surer (broad: to the tip, as on most of 5 to 7 in; "
     "thin, slim, sport, slow, park, direct, folding, classic, scimitar)"},
    {K_STATOR, "", "motor's stator, like 2207 or 22 mm x 7 mm"},
    {K_KV, "", "motor's kV, in rpm/V"},
    {K_CARRIES, "",
     "carries (action_camera, gps, digital_video, analogue_video, no_video, buzzer, bumpers, "
     "nothing)"},
    {K_FRAME, "", "frame: its id on the bench, or motor to motor across, like 225 mm"},
};
enum { QUESTIONS = sizeof question / sizeof question[0], LINE_MOST = 512 };

/* ---- words ---- */

static pare_status bench_kind(const bench_in_use *use, pare_kind kind, const char *what,
                              const char *like, const char *id, const pare_part **part,
                              pare_error *err)
{
    if (!use->bench)
        return pare_fail(err, PARE_UNKNOWN,
                         THING ": no part '%.48s': the bench has none yet; say "
                               "%s=%s",
                         id, what, like);
    pare_status status = bench_part(use, id, part, err);
    if (status != PARE_OK)
        return pare_within(err, THING ": %s, like %s or an id", what, like);
    if (!pare_part_does(*part, kind))
        return pare_fail(err, PARE_BAD_DATA, THING ": part '%s' is a %s; right would be a %s",
                         (*part)->id, pare_kind_words((*part)->kind), what);
    return PARE_OK;
}

/* "4S 1500 mAh" or "4S1500mAh": cells, and charge with its unit. */
static bool is_size(const char *text, char cells[8], const char **charge)
{
    const size_t digits = strspn(text, "0123456789");
    if (digits == 0 || digits > 2 || tolower((unsigned char)text[digits]) != 's')
        return false;
    snprintf(cells, 8, "%.*s", (int)digits, text);
    *charge = text + digits + 1;
    *charge += strspn(*charge, " ");
    return **charge != '\0' && isdigit((unsigned char)**charge);
}

static pare_status take_number(int which, const char *text, pare_units *units, double *value,
                               pare_error *err)
{
    char word[LINE_MOST];
    const char *const one[] = {word};
    key_values read;
    snprintf(word, sizeof word, "%s=%s", table[which].name, text);
    const pare_status status = keys_read(THING, ANSWERS, table, 1, one, units, &read, err);
    if (status == PARE_OK)
        *value = read.value[which];
    return status;
}

static pare_status take_pack(const char *text, const bench_in_use *use, pare_units *units,
                             pare_start_answers *answers, pare_error *err)
{
    char digits[8];
    const char *charge;
    if (!is_size(text, digits, &charge))
        return bench_kind(use, PARE_PACK, "pack", "4S1500mAh", text, &answers->pack, err);
    double cells = 0;
    pare_status status = take_number(K_CELLS, digits, units, &cells, err);
    answers->cells = (int)cells;
    if (status == PARE_OK)
        status = take_number(K_CAPACITY, charge, units, &answers->capacity_c, err);
    return status;
}

/* A frame is an id, or a length. */
static pare_status take_frame(const char *text, const bench_in_use *use, pare_units *units,
                              pare_start_answers *answers, pare_error *err)
{
    pare_error not_length = {0};
    if (use->bench && pare_bench_part(use->bench, text))
        return bench_kind(use, PARE_FRAME, "frame", "225mm", text, &answers->frame, err);
    if (!isdigit((unsigned char)text[0]))
        return bench_kind(use, PARE_FRAME, "frame", "225mm", text, &answers->frame, err);
    if (pare_quantity(units, text, PARE_DIM_LENGTH, &answers->wheelbase_m, &not_length) != PARE_OK)
        return pare_fail(err, PARE_BAD_DATA, THING ": frame: %.400s", not_length.text);
    if (!(answers->wheelbase_m >= 0.045 && answers->wheelbase_m <= 1.9))
        return pare_fail(err, PARE_BAD_DATA, THING ": frame=%.60s is outside 45 mm .. 1.9 m", text);
    return PARE_OK;
}

/* "2207" and "2806.5" as the trade writes them, or two sizes. */
static pare_status take_stator(const char *text, pare_units *units, pare_start_answers *answers,
                               pare_error *err)
{
    double size_m[2] = {0};
    size_t count = 0;
    const size_t length = strlen(text);
    if (length >= 4 && length <= 6 && strspn(text, "0123456789") >= 4 &&
        strspn(text, "0123456789.") == length) {
        size_m[0] = 1e-3 * (10 * (text[0] - '0') + (text[1] - '0'));
        size_m[1] = 1e-3 * strtod(text + 2, NULL);
    } else {
        const pare_status status = pare_sizes(units, text, PARE_DIM_LENGTH, 2, size_m, &count, err);
        if (status != PARE_OK)
            return pare_within(err, THING ": stator");
        if (count != 2)
            return pare_fail(err, PARE_BAD_DATA,
                             THING ": stator=%.60s has one size; right would be like 2207 or "
                                   "22mmx7mm",
                             text);
    }
    if (!(size_m[0] >= 5e-3 && size_m[0] <= 0.1 && size_m[1] >= 1e-3 && size_m[1] <= 0.06))
        return pare_fail(err, PARE_BAD_DATA,
                         THING ": stator=%.60s is outside 5 mm x 1 mm .. 100 mm x 60 mm", text);
    answers->stator_diameter_m = size_m[0];
    answers->stator_length_m = size_m[1];
    return PARE_OK;
}

static pare_status one_of(const char *what, const char *word, size_t count,
                          const char *const known[], size_t *index, pare_error *err)
{
    for (*index = 0; *index < count; ++*index)
        if (strcmp(word, known[*index]) == 0)
            return PARE_OK;
    const char *near = pare_nearest(word, count, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, THING ": %s knows no '%.48s'; did you mean %s?", what,
                         word, near);
    pare_text list = {0};
    for (size_t i = 0; i < count; i++)
        pare_text_printf(&list, "%s%s", i ? ", " : "", known[i]);
    pare_fail(err, PARE_UNKNOWN, THING ": %s knows no '%.48s'; there are %s", what, word,
              pare_text_all(&list));
    pare_text_free(&list);
    return PARE_UNKNOWN;
}

static pare_status take_carries(const char *text, pare_start_answers *answers, pare_error *err)
{
    static const char *const known[] = {"action_camera",  "gps",      "digital_video",
                                        "analogue_video", "no_video", "buzzer",
                                        "bumpers",        "nothing"};
    char words[LINE_MOST], *rest = words;
    if (strlen(text) >= sizeof words)
        return pare_fail(err, PARE_BAD_DATA, THING ": carries is too long a list");
    strcpy(words, text);
    answers->carries_said = true;
    for (char *word; (word = strtok_r(rest, ", ", &rest)) != NULL;) {
        size_t index = 0;
        const pare_status status =
            one_of("carries", word, sizeof known / sizeof known[0], known, &index, err);
        if (status != PARE_OK)
            return status;
        answers->carries |= 1u << index;
    }
    const unsigned video = answers->carries & (PARE_CARRIES_DIGITAL_VIDEO |
                                               PARE_CARRIES_ANALOGUE_VIDEO | PARE_CARRIES_NO_VIDEO);
    if (video & (video - 1) ||
        (answers->carries & PARE_CARRIES_NOTHING && answers->carries & (PARE_CARRIES_NOTHING - 1u)))
        return pare_fail(err, PARE_BAD_DATA,
                         THING ": carries=%.80s contradicts itself; right would be one kind of "
                               "video, and nothing alone",
                         text);
    return PARE_OK;
}

static pare_status take_chemistry(const char *text, pare_start_answers *answers, pare_error *err)
{
    size_t index = 0;
    const pare_status status =
        one_of("chemistry", text, PARE_CHEMISTRIES, pare_chemistry_names, &index, err);
    answers->chemistry = (pare_chemistry)index;
    return status;
}

static pare_status take_line(const char *text, pare_start_answers *answers, pare_error *err)
{
    const char *known[PARE_PROP_LINES];
    size_t index = 0;
    for (int line = 0; line < PARE_PROP_LINES; line++)
        known[line] = pare_prop_line_name((pare_prop_line)line);
    const pare_status status = one_of("line", text, PARE_PROP_LINES, known, &index, err);
    answers->line = (pare_prop_line)index;
    return status;
}

static void twice(int which, const char *with, pare_status *status, pare_error *err)
{
    *status = pare_fail(err, PARE_BAD_DATA, THING ": %s is given twice, also by %s",
                        table[which].name, with);
}

static pare_status interpret(size_t words, const char *const word[], const bench_in_use *use,
                             pare_units *units, pare_start_answers *answers, pare_error *err)
{
    key_values read;
    *answers = (pare_start_answers){0};
    pare_status status = keys_read(THING, ANSWERS, table, words, word, units, &read, err);
    if (status != PARE_OK)
        return status;
    for (int i = 0; i < ANSWERS; i++)
        if (table[i].is_word && read.given[i] && !read.text[i][strspn(read.text[i], " ")])
            return pare_fail(err, PARE_BAD_DATA, THING ": %s= says nothing; leave it out",
                             table[i].name);
    if (read.given[K_ALL_UP])
        answers->all_up_kg = read.value[K_ALL_UP];
    if (read.given[K_MINUTES])
        answers->flown_s = read.value[K_MINUTES];
    if (read.given[K_PACK])
        status = take_pack(read.text[K_PACK], use, units, answers, err);
    if (status == PARE_OK && read.given[K_CHEMISTRY])
        status = take_chemistry(read.text[K_CHEMISTRY], answers, err);
    if (status == PARE_OK && read.given[K_LINE])
        status = take_line(read.text[K_LINE], answers, err);
    if (status == PARE_OK && read.given[K_STATOR])
        status = take_stator(read.text[K_STATOR], units, answers, err);
    if (status == PARE_OK && read.given[K_CARRIES])
        status = take_carries(read.text[K_CARRIES], answers, err);
    if (status == PARE_OK && read.given[K_FRAME])
        status = take_frame(read.text[K_FRAME], use, units, answers, err);
    if (status == PARE_OK && read.given[K_CELLS] && (answers->cells || answers->pack))
        twice(K_CELLS, "pack", &status, err);
    if (status == PARE_OK && read.given[K_CAPACITY] && (answers->capacity_c > 0 || answers->pack))
        twice(K_CAPACITY, "pack", &status, err);
    if (status == PARE_OK && read.given[K_CHEMISTRY] && answers->pack)
        twice(K_CHEMISTRY, "pack", &status, err);
    if (status != PARE_OK)
        return status;
    if (read.given[K_CELLS])
        answers->cells = (int)read.value[K_CELLS];
    if (read.given[K_CAPACITY])
        answers->capacity_c = read.value[K_CAPACITY];
    if (read.given[K_BLADES])
        answers->blades = (int)read.value[K_BLADES];
    if (read.given[K_PROPELLER])
        answers->propeller_m = read.value[K_PROPELLER];
    if (read.given[K_PITCH])
        answers->pitch_m = read.value[K_PITCH];
    if (read.given[K_KV])
        answers->kv_rpm_per_v = read.value[K_KV];
    return PARE_OK;
}

/* ---- questions ---- */

/* "all_up=690g" of "690"; NULL: left out, or no memory. */
static const char *as_word(pare_arena *arena, size_t asked, char *line)
{
    char *end = line + strlen(line);
    while (end > line && isspace((unsigned char)end[-1]))
        *--end = '\0';
    line += strspn(line, " \t");
    if (!*line)
        return NULL;
    const bool bare = strspn(line, "0123456789.") == strlen(line);
    return pare_arena_printf(arena, "%s=%s%s", table[question[asked].key].name, line,
                             bare ? question[asked].unit : "");
}

/* Each until its answer can be read. The end of the input leaves out the rest. */
static void ask(const bench_in_use *use, pare_units *units, pare_arena *arena, size_t *words,
                const char *word[QUESTIONS])
{
    fputs("What do you know by heart? Return leaves one out.\n", stderr);
    for (size_t i = 0; i < QUESTIONS;) {
        char line[LINE_MOST - 64];
        fprintf(stderr, "%s: ", question[i].asks);
        fflush(stderr);
        if (!fgets(line, sizeof line, stdin))
            return;
        if (!strchr(line, '\n') && strlen(line) + 1 == sizeof line)
            for (int c = getchar(); c != EOF && c != '\n'; c = getchar())
                ; /* the rest of too long a line */
        const char *one = as_word(arena, i, line);
        pare_start_answers answers;
        pare_error err = {0};
        if (one && interpret(1, &one, use, units, &answers, &err) != PARE_OK) {
            fprintf(stderr, "%s\n", err.text);
            continue;
        }
        if (one)
            word[(*words)++] = one;
        i++;
    }
}

/* ---- the command ---- */

size_t craft_start_keys(size_t most, const char *name[])
{
    size_t count = 0;
    for (; count < ANSWERS && count < most; count++)
        name[count] = table[count].name;
    return count;
}

/* The bench where there is one; a start makes it where there is none. */
static pare_status use_if_there(const options *given, bench_in_use *use, pare_error *err)
{
    pare_status status = bench_path(given, false, &use->path, err);
    if (status != PARE_OK || !bench_is_there(use->path.bytes))
        return status;
    status = pare_store_open(use->path.bytes, PARE_STORE_READ, &use->store, err);
    if (status == PARE_OK)
        status = pare_store_read(use->store, &use->bench, err);
    return status;
}

static pare_status is_free(const bench_in_use *use, const char *name, pare_error *err)
{
    if (use->bench && pare_bench_craft(use->bench, name))
        return pare_fail(err, PARE_BAD_DATA,
                         "craft '%s' is on the bench already; right would be another name", name);
    return PARE_OK;
}

static pare_status are_free(const bench_in_use *use, const pare_start *start, pare_error *err)
{
    for (size_t i = 0; use->bench && i < start->craft->items; i++)
        if (start->item[i].made && pare_bench_part(use->bench, start->item[i].part->id))
            return pare_fail(err, PARE_BAD_DATA,
                             "part '%s' is on the bench already; right would be another name for "
                             "the craft",
                             start->item[i].part->id);
    return PARE_OK;
}

static pare_status keep(const bench_in_use *use, const options *given, const pare_text *text,
                        pare_arena *arena, pare_error *err)
{
    const pare_import import = {.bytes = text->bytes,
                                .length = text->length,
                                .name = given->operand[1],
                                .change = change_of("craft", given, arena)};
    pare_import_summary summary;
    pare_store *store = NULL;
    if (text->failed)
        return pare_no_memory(err);
    pare_status status = bench_store(use->path.bytes, PARE_STORE_CREATE, &store, err);
    if (status == PARE_OK)
        status = pare_store_import_yaml(store, &import, arena, &summary, err);
    pare_store_close(store);
    return status;
}

static void weigh_first(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    enum { FIVE = 5 };
    size_t order[PARE_LINES];
    double share[PARE_LINES];
    pare_text line = {0};
    pare_sheet_weigh_first(&view->sheet, order, share);
    for (size_t i = 0; i < FIVE && i < view->sheet.assembly.lines; i++) {
        const pare_line *heavy = &view->sheet.assembly.line[order[i]];
        pare_text_printf(&line, "%s%s", i ? ", " : "", heavy->name);
        if (heavy->count > 1)
            pare_text_printf(&line, " (1 of %d)", heavy->count);
        pare_text_printf(&line, " %.0f %%", 100 * share[i]);
    }
    pare_put_labelled(screen, out, "weigh first", pare_text_all(&line));
    out->failed |= line.failed;
    pare_text_free(&line);
}

/* What tells most and is asked of nobody who knows a propeller by its size. */
static void say_next(const pare_craft *craft, const pare_screen *screen, pare_text *out)
{
    const pare_part *propeller = craft->item[pare_craft_doing(craft, PARE_PROPELLER)].part;
    if (propeller->line != PARE_LINE_UNKNOWN)
        return;
    pare_text line = {0};
    pare_text_printf(&line,
                     "the propeller's line, which makes thrust and power surer: pare parts change "
                     "%s line=broad, if it is broad to the tip as most of 5 to 7 in are",
                     propeller->id);
    pare_put_labelled(screen, out, "say next", pare_text_all(&line));
    out->failed |= line.failed;
    pare_text_free(&line);
}

static pare_status answer(const options *given, const pare_start *start, pare_text *out,
                          pare_error *err)
{
    bench_in_use use = {0};
    const pare_craft *craft = NULL;
    pare_sheet_view *view = malloc(sizeof *view);
    pare_status status = view ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = bench_use_craft(given, start->craft->name, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, start->craft->name, &craft, err);
    if (status == PARE_OK)
        status = pare_sheet_view_fill(craft, NULL, -1, NULL, view, err);
    if (status == PARE_OK && given->given & OPTION_JSON) {
        json_t *object = pare_sheet_object(view);
        json_object_set_new(object, "loadouts", json_object());
        pare_json_write(object, out);
    } else if (status == PARE_OK) {
        const pare_screen screen = terminal_screen();
        pare_sheet_text(view, NULL, NULL, &screen, out);
        pare_text_add(out, "\n");
        weigh_first(view, &screen, out);
        say_next(start->craft, &screen, out);
        pare_put_labelled(&screen, out, "guessed", start->guessed);
        pare_put_wrapped(
            &screen, out, 0, 0,
            "Every part is a typical one until you say better, like: pare parts change "
            "NAME-pack mass=171g known=weighed; pare craft edit NAME shows all of it.");
    }
    free(view);
    bench_leave(&use);
    return status;
}

pare_status craft_start(const options *given, pare_text *out, pare_error *err)
{
    const char *word[OPERANDS];
    size_t words = 0;
    bench_in_use use = {0};
    pare_text text = {0};
    pare_start_answers answers;
    pare_start start;
    pare_arena *arena = pare_arena_open();
    pare_units *units = pare_units_open();
    pare_status status = arena && units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands(THING, given, 2, OPERANDS, "a name for the craft", err);
    if (status == PARE_OK)
        status = pare_start_name(given->operand[1], err);
    if (status == PARE_OK)
        status = use_if_there(given, &use, err);
    if (status == PARE_OK)
        status = is_free(&use, given->operand[1], err);
    if (status == PARE_OK) {
        for (size_t i = 2; i < given->operands; i++)
            word[words++] = given->operand[i];
        if (words == 0 && isatty(STDIN_FILENO) && isatty(STDERR_FILENO))
            ask(&use, units, arena, &words, word);
        status = interpret(words, word, &use, units, &answers, err);
    }
    if (status == PARE_OK)
        status = pare_start_make(given->operand[1], &answers, arena, &start, err);
    if (status == PARE_OK)
        status = are_free(&use, &start, err);
    if (status == PARE_OK) {
        pare_start_text(&start, &text);
        status = keep(&use, given, &text, arena, err);
    }
    if (status == PARE_OK)
        status = after_change(answer(given, &start, out, err), err);
    pare_text_free(&text);
    bench_leave(&use);
    pare_units_close(units);
    pare_arena_close(arena);
    return status;
}
