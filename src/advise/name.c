/* name.c: taking a swap's name apart (see name.h).
 *
 * A length may be typed in any unit, but a swap has one name for ever, so what was read is written
 * back in millimetres, grams or bare counts, and that spelling is the swap's id. The value used is
 * then read from the spelling, and the list of swaps goes through here as well: a row, a trial and a
 * trial typed in inches hold the same bits. */
#include "advise/name.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

#define LEAST_LENGTH_M 1e-3
#define MOST_LENGTH_M  2.0
enum { MOST_SCREWS = 200, LONGEST_TYPED = 200 };

/* Cuts blanks off both ends into room; false when it is empty or too long. */
static bool trimmed(const char *from, size_t length, size_t size, char room[])
{
    while (length && isspace((unsigned char)from[0])) {
        from++;
        length--;
    }
    while (length && isspace((unsigned char)from[length - 1]))
        length--;
    if (length == 0 || length >= size)
        return false;
    memcpy(room, from, length);
    room[length] = '\0';
    return true;
}

static const struct {
    const char *owner, *property;
    pare_what what;
} properties[] = {
    {"joint", "material", PARE_WHAT_JOINT_MATERIAL},
    {"joint", "count", PARE_WHAT_JOINT_COUNT},
    {"joint", "length", PARE_WHAT_JOINT_LENGTH},
    {"joint", "standard", PARE_WHAT_JOINT_STANDARD},
    {"run", "gauge", PARE_WHAT_RUN_GAUGE},
    {"run", "length", PARE_WHAT_RUN_LENGTH},
    {"item", "length", PARE_WHAT_COAX_LENGTH},
};

static pare_status find_property(const char *owner, const char *property, pare_what *what,
                                 pare_error *err)
{
    const char *known[sizeof properties / sizeof properties[0]];
    size_t count = 0;
    char all[64] = "";
    for (size_t i = 0; i < sizeof properties / sizeof properties[0]; i++) {
        if (strcmp(properties[i].owner, owner) != 0)
            continue;
        if (strcmp(properties[i].property, property) == 0) {
            *what = properties[i].what;
            return PARE_OK;
        }
        const size_t used = strlen(all);
        snprintf(all + used, sizeof all - used, "%s%s", count ? ", " : "", properties[i].property);
        known[count++] = properties[i].property;
    }
    const char *near = pare_nearest(property, count, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "%s property '%s' is not known; did you mean '%s'?",
                         owner, property, near);
    return pare_fail(err, PARE_UNKNOWN, "%s property '%s' is not known; a swap sets: %s", owner,
                     property, all);
}

/* Splits "joint.motor_base.material", "run.lead.gauge", "antenna.length" or "motor". */
static pare_status read_left(pare_swap_name *name, pare_error *err)
{
    const char *left = name->left;
    const char *owner = NULL;
    if (strncmp(left, "joint.", 6) == 0)
        owner = "joint";
    else if (strncmp(left, "run.", 4) == 0)
        owner = "run";
    const char *of = owner ? left + strlen(owner) + 1 : left;
    const char *dot = strrchr(of, '.');
    if (!owner && !dot) {
        name->what = PARE_WHAT_ITEM;
        if (!trimmed(of, strlen(of), sizeof name->of, name->of))
            return pare_fail(err, PARE_UNKNOWN, "'%.80s' is too long for an item's name", of);
        return PARE_OK;
    }
    if (!dot || !trimmed(of, (size_t)(dot - of), sizeof name->of, name->of))
        return pare_fail(err, PARE_UNKNOWN,
                         "'%s' names no property: write joint.NAME.material, run.NAME.gauge or "
                         "ITEM.length",
                         left);
    return find_property(owner ? owner : "item", dot + 1, &name->what, err);
}

static pare_status read_number(pare_units *units, const char *text, pare_dimension dimension,
                               double low, double high, const char *words, pare_swap_name *name,
                               pare_error *err)
{
    const pare_status status = pare_quantity(units, text, dimension, &name->number, err);
    if (status != PARE_OK)
        return pare_within(err, "swap '%s'", name->left);
    if (!(name->number >= low && name->number <= high))
        return pare_fail(err, PARE_BAD_DATA, "swap '%s': %s is out of range; %s", name->left, text,
                         words);
    return PARE_OK;
}

/* %.10g prints what was typed, not the rounding of its reading: 8, not 8.000000000000002. */
static pare_status spell(pare_units *units, pare_swap_name *name, const char *prefix, double value,
                         const char *unit, pare_dimension dimension, pare_error *err)
{
    char number[32];
    snprintf(number, sizeof number, "%.10g%s", value, unit);
    const char *const texts[] = {name->left, "=", prefix, number};
    pare_text_join(sizeof name->id, name->id, 4, texts);
    return pare_quantity(units, number, dimension, &name->number, err);
}

static void spell_word(pare_swap_name *name)
{
    const char *const texts[] = {name->left, "=", name->word};
    pare_text_join(sizeof name->id, name->id, 3, texts);
}

static pare_status read_item(pare_units *units, const char *value, pare_swap_name *name,
                             pare_error *err)
{
    static const char prefix[] = "sought-";
    if (!trimmed(value, strlen(value), sizeof name->word, name->word))
        return pare_fail(err, PARE_UNKNOWN, "'%.80s' is too long for a part's id", value);
    spell_word(name);
    if (strncmp(name->word, prefix, sizeof prefix - 1) != 0)
        return PARE_OK;
    name->sought = true;
    const pare_status status =
        read_number(units, name->word + sizeof prefix - 1, PARE_DIM_MASS, 1e-6, 25,
                    "a sought part weighs 0.001 g to 25 kg, as in sought-29g", name, err);
    if (status != PARE_OK)
        return status;
    return spell(units, name, "sought-", 1e3 * name->number, "g", PARE_DIM_MASS, err);
}

pare_status pare_swap_name_read(pare_units *units, const char *text, pare_swap_name *name,
                                pare_error *err)
{
    *name = (pare_swap_name){0};
    const char *equals = strchr(text, '=');
    char value[64];
    if (!equals || !trimmed(text, (size_t)(equals - text), sizeof name->of, name->left) ||
        !trimmed(equals + 1, strlen(equals + 1), sizeof value, value))
        return pare_fail(err, PARE_UNKNOWN,
                         "'%.80s' is no swap: write WHAT=VALUE, such as bumper=off or "
                         "joint.motor_base.material=titanium",
                         text);
    pare_status status = read_left(name, err);
    if (status != PARE_OK)
        return status;
    switch (name->what) {
    case PARE_WHAT_ITEM:
        return read_item(units, value, name, err);
    case PARE_WHAT_JOINT_MATERIAL:
    case PARE_WHAT_JOINT_STANDARD:
        snprintf(name->word, sizeof name->word, "%s", value);
        spell_word(name);
        return PARE_OK;
    case PARE_WHAT_JOINT_COUNT:
        status =
            read_number(units, value, PARE_DIM_COUNT, 0, MOST_SCREWS, "0 to 200 screws", name, err);
        if (status != PARE_OK)
            return status;
        return spell(units, name, "", name->number, "", PARE_DIM_COUNT, err);
    case PARE_WHAT_RUN_GAUGE:
        status = read_number(units, value, PARE_DIM_GAUGE, 8, 36, "8 to 36 AWG", name, err);
        if (status != PARE_OK)
            return status;
        return spell(units, name, "", name->number, "", PARE_DIM_GAUGE, err);
    case PARE_WHAT_COAX_LENGTH:
    case PARE_WHAT_JOINT_LENGTH:
    case PARE_WHAT_RUN_LENGTH:
        break;
    }
    status = read_number(units, value, PARE_DIM_LENGTH, LEAST_LENGTH_M, MOST_LENGTH_M,
                         "1 mm to 2 m", name, err);
    if (status != PARE_OK)
        return status;
    return spell(units, name, "", 1e3 * name->number, "mm", PARE_DIM_LENGTH, err);
}

pare_status pare_swap_name_next(pare_units *units, const char **list, pare_swap_name *name,
                                pare_error *err)
{
    char text[LONGEST_TYPED];
    const char *comma = strchr(*list, ',');
    const size_t length = comma ? (size_t)(comma - *list) : strlen(*list);
    if (length >= sizeof text)
        return pare_fail(err, PARE_UNKNOWN, "a swap's name of %zu letters: the longest has %d",
                         length, LONGEST_TYPED - 1);
    memcpy(text, *list, length);
    text[length] = '\0';
    *list = comma ? comma + 1 : NULL;
    return pare_swap_name_read(units, text, name, err);
}
