/* material.c: handbook values of the materials of frames and printed parts (see material.h).
 *
 * From memory, of the usual grade of each: they tell materials apart and put a printed part beside a
 * screw; a quarter either way is to be expected of plastics, a tenth of metals. Carbon and glass are
 * plates of 0/90 cloth; carbon arms have their own bands (arm.h). Plastics are moulded values; the
 * screws' metals are stronger than these (screw_hold.h). Density only shares out a mass or weighs a
 * printed part. */
#include "physics/material.h"

#include <string.h>

#define GPA 1e9
#define MPA 1e6

static const pare_material table[] = {
    {"carbon", 1600, 57.5 * GPA, 4 * GPA, 400 * MPA, false},
    {"aluminium", 2700, 69 * GPA, 26 * GPA, 215 * MPA, false}, /* 6060-T66 */
    {"steel", 7850, 206 * GPA, 79 * GPA, 360 * MPA, false},    /* S235 */
    {"stainless", 7900, 193 * GPA, 75 * GPA, 520 * MPA, false},
    {"titanium", 4430, 114 * GPA, 44 * GPA, 890 * MPA, false},
    {"brass", 8500, 100 * GPA, 37 * GPA, 340 * MPA, false},
    {"nylon", 1140, 1.5 * GPA, 0.5 * GPA, 60 * MPA, false}, /* conditioned */
    {"glass", 1850, 20 * GPA, 4 * GPA, 300 * MPA, false},
    {"tpu", 1210, 0.07 * GPA, 0.025 * GPA, 35 * MPA, true}, /* 95 Shore A */
    {"pla", 1240, 3.3 * GPA, 1.2 * GPA, 55 * MPA, true},
    {"petg", 1270, 2.0 * GPA, 0.75 * GPA, 48 * MPA, true},
    {"abs", 1040, 2.1 * GPA, 0.8 * GPA, 40 * MPA, true},
    {"foam", 30, 0.005 * GPA, 0.002 * GPA, 0.3 * MPA, false}, /* expanded polypropylene */
    {"wood", 600, 10 * GPA, 0.6 * GPA, 50 * MPA, false},
    {"rubber", 1100, 0.005 * GPA, 0.0017 * GPA, 10 * MPA, false},
    {"lexan", 1200, 2.35 * GPA, 0.85 * GPA, 62 * MPA, false},
};

enum { MATERIALS = sizeof table / sizeof table[0] };

const pare_material *pare_material_named(const char *name)
{
    for (size_t i = 0; name && i < MATERIALS; i++)
        if (strcmp(table[i].name, name) == 0)
            return &table[i];
    return NULL;
}

const pare_material *pare_material_at(size_t n)
{
    return n < MATERIALS ? &table[n] : NULL;
}
