/* weigh_word.c: a reading as it is typed (see weigh.h).
 *
 * A scale that is overloaded, off its zero or set to another unit shows something too, and people copy
 * what they see: each of these is said by its name. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/text.h"
#include "cli/weigh.h"

enum { THINGS = 16, NAME = 64, COUNT_MOST = 10000 };
#define MOST_KG 100

static bool is_prefixed(const char *name, const char *prefix)
{
    return strncmp(name, prefix, strlen(prefix)) == 0;
}

static pare_status no_such(const char *name, const pare_craft *craft, pare_arena *arena,
                           pare_error *err)
{
    const char *known[PARE_ITEMS + 2 * PARE_JOINTS + 2 * PARE_RUNS + 1];
    size_t count = 0;
    known[count++] = "whole";
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off)
            known[count++] = craft->item[i].name;
    for (size_t i = 0; i < craft->joints; i++) {
        known[count++] = craft->joint[i].name;
        known[count++] = pare_arena_printf(arena, "joint.%s", craft->joint[i].name);
    }
    for (size_t i = 0; i < craft->runs; i++) {
        known[count++] = craft->run[i].name;
        known[count++] = pare_arena_printf(arena, "run.%s", craft->run[i].name);
    }
    const char *near = pare_nearest(name, count, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "nothing '%.48s' on %s; did you mean %s?", name,
                         craft->name, near);
    return pare_fail(err, PARE_UNKNOWN,
                     "nothing '%.48s' on %s; pare weigh %s --all lists what is there", name,
                     craft->name, craft->name);
}

/* The name as a weigh-in has it, and how many there are. */
static pare_status find_thing(const char *name, const pare_craft *craft, pare_arena *arena,
                              pare_weighed_thing *thing, pare_error *err)
{
    const char *bare = is_prefixed(name, "joint.") ? name + 6
                       : is_prefixed(name, "run.") ? name + 4
                                                   : name;
    const int item = bare == name ? pare_craft_item(craft, name) : -1;
    const int joint = is_prefixed(name, "run.") ? -1 : pare_craft_joint(craft, bare);
    const int run = is_prefixed(name, "joint.") ? -1 : pare_craft_run(craft, bare);
    if (item >= 0 && !craft->item[item].off)
        *thing = (pare_weighed_thing){craft->item[item].name, craft->item[item].count};
    else if (joint >= 0)
        *thing = (pare_weighed_thing){pare_arena_printf(arena, "joint.%s", bare),
                                      craft->joint[joint].count};
    else if (run >= 0)
        *thing =
            (pare_weighed_thing){pare_arena_printf(arena, "run.%s", bare), craft->run[run].times};
    else
        return no_such(name, craft, arena, err);
    return thing->name ? PARE_OK : pare_no_memory(err);
}

/* "10*motor_base", "10xmotor_base", "motor_base:10"; a thing of that very name first. */
static pare_status read_thing(const char *text, const pare_craft *craft, pare_arena *arena,
                              pare_weighed_thing *thing, pare_error *err)
{
    if (find_thing(text, craft, arena, thing, err) == PARE_OK)
        return PARE_OK;
    if (err->status == PARE_UNAVAILABLE)
        return err->status;
    char name[NAME], *end = NULL;
    const char *colon = strchr(text, ':'), *number = text;
    snprintf(name, sizeof name, "%.*s", colon ? (int)(colon - text) : NAME - 1, text);
    if (colon) {
        number = colon + 1;
    } else {
        const size_t digits = strspn(text, "0123456789");
        if (digits == 0 || !strchr("*xX", text[digits]) || !text[digits])
            return err->status;
        snprintf(name, sizeof name, "%s", text + digits + 1);
    }
    const long count = strtol(number, &end, 10);
    if (end == number || (colon && *end) || count < 1 || count > COUNT_MOST)
        return pare_fail(err, PARE_BAD_DATA,
                         "'%.48s' is no count of things; right would be like 10*motor_base, 1 to "
                         "%d",
                         text, COUNT_MOST);
    const pare_status status = find_thing(name, craft, arena, thing, err);
    thing->count = (int)count;
    return status;
}

static pare_status read_things(const char *left, const pare_craft *craft, pare_arena *arena,
                               pare_weigh_in *weigh_in, pare_error *err)
{
    pare_weighed_thing *thing = pare_arena_array(arena, THINGS, sizeof *thing);
    if (!thing)
        return pare_no_memory(err);
    weigh_in->thing = thing;
    for (const char *at = left;;) {
        char piece[NAME];
        const size_t length = strcspn(at, "+");
        snprintf(piece, sizeof piece, "%.*s", (int)(length < NAME ? length : NAME - 1), at);
        if (weigh_in->things == THINGS)
            return pare_fail(err, PARE_BAD_DATA, "more than %d things on the scale", THINGS);
        pare_weighed_thing *one = &thing[weigh_in->things];
        const pare_status status = read_thing(piece, craft, arena, one, err);
        if (status != PARE_OK)
            return status;
        for (size_t i = 0; i < weigh_in->things; i++)
            if (strcmp(thing[i].name, one->name) == 0)
                return pare_fail(err, PARE_BAD_DATA,
                                 "%s stands there twice; right would be once, with a count",
                                 one->name);
        weigh_in->things++;
        if (!at[length])
            return PARE_OK;
        at += length + 1;
    }
}

static bool shows_overload(const char *reading)
{
    static const char *const words[] = {"ol",  "o_l",   "0l",   "oload", "overload", "over",
                                        "err", "error", "eeee", "----",  "outof",    "outof2"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strcasecmp(reading, words[i]) == 0)
            return true;
    return false;
}

static pare_status read_reading(const char *reading, pare_units *units, pare_arena *arena,
                                pare_weigh_in *weigh_in, pare_error *err)
{
    if (shows_overload(reading))
        return pare_fail(err, PARE_BAD_DATA,
                         "'%.20s' is what a scale shows that cannot weigh it; right would be one "
                         "that bears more, or the parts one after another",
                         reading);
    const pare_status status =
        pare_quantity(units, reading, PARE_DIM_MASS, &weigh_in->reads_kg, err);
    if (status != PARE_OK)
        return status;
    if (weigh_in->reads_kg < 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.40s is less than nothing: the scale's zero is off; right would be to "
                         "empty it, set it to zero and weigh again",
                         reading);
    if (weigh_in->reads_kg == 0 || weigh_in->reads_kg > MOST_KG)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.40s is no reading of a part; right would be over 0 g, to %d kg",
                         reading, MOST_KG);
    /* "96.2g" as "96.2 g", as it stands in a bench's text. */
    const size_t number = strspn(reading, "+0123456789.");
    weigh_in->reads = pare_arena_printf(arena, "%.*s %s", (int)number, reading,
                                        reading + number + strspn(reading + number, " "));
    return weigh_in->reads ? PARE_OK : pare_no_memory(err);
}

pare_status weigh_word(const char *word, const pare_craft *craft, pare_units *units,
                       pare_arena *arena, pare_weigh_in *weigh_in, pare_error *err)
{
    const char *equals = strrchr(word, '=');
    if (!equals || equals == word || !equals[1])
        return pare_fail(err, PARE_BAD_DATA,
                         "'%.60s' is no reading; right would be like frame=96.2g, "
                         "motor+motor_base=153.7g or whole=689g",
                         word);
    const char *left = pare_arena_copy(arena, word, (size_t)(equals - word));
    if (!left)
        return pare_no_memory(err);
    const bool whole = (strcmp(left, "whole") == 0 || strcmp(left, "all") == 0) &&
                       pare_craft_item(craft, left) < 0;
    weigh_in->all = whole;
    pare_status status = whole ? PARE_OK : read_things(left, craft, arena, weigh_in, err);
    if (status == PARE_OK)
        status = read_reading(equals + 1, units, arena, weigh_in, err);
    return status == PARE_OK || status == PARE_UNAVAILABLE ? status
                                                           : pare_within(err, "'%.60s'", word);
}

pare_status weigh_check_name(const weighing *w, const char *what, pare_error *err)
{
    pare_weigh_in none = {0};
    const bool whole = strcmp(what, "whole") == 0 || strcmp(what, "all") == 0;
    return whole ? PARE_OK : read_things(what, w->craft, w->arena, &none, err);
}
