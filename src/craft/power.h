/* power.h: where a craft's power goes: hovering, cruising as its brief does, and at best range. */
#ifndef PARE_CRAFT_POWER_H
#define PARE_CRAFT_POWER_H

#include <string.h>

#include "craft/sheet.h"
#include "physics/budget.h"

typedef enum pare_powered_as {
    PARE_POWERED_HOVER,
    PARE_POWERED_CRUISE, /* the speed that the brief flies at for the longest */
    PARE_POWERED_RANGE,  /* the speed that goes farthest */
    PARE_POWERED
} pare_powered_as;

/** The parts of a budget, from the air back to the pack, in the order of a table's rows. */
typedef struct pare_power_row {
    const char *key;   /* "induced_w" */
    const char *words; /* on the screen */
    size_t offset;     /* of a double in pare_budget */
} pare_power_row;
enum { PARE_POWER_ROWS = 9 };
extern const pare_power_row pare_power_table[PARE_POWER_ROWS];

static inline double pare_power_part(const pare_budget *budget, size_t row)
{
    double watts;
    memcpy(&watts, (const char *)budget + pare_power_table[row].offset, sizeof watts);
    return watts;
}

/** One steady state at half charge. */
typedef struct pare_powered {
    bool exists; /* false: why says the reason */
    double speed_m_s;
    pare_budget budget;
    double u_w[PARE_POWER_ROWS + 1]; /* of each row, then of open_w; 0 where the sheet has none */
    char why[PARE_WHY];
} pare_powered;

/** The three budgets of a craft. Beside the sheet and not in it, since no limit and no swap asks for
 * them and two more level flights would cost a tenth of a sheet.
 *
 * @param sheet  flown, best range included; with its uncertainties where the budgets are to have them:
 *               each from the same doubts as the sheet's figures, the speed being held
 * @param[out] power  [PARE_POWERED], by pare_powered_as
 * Allocates nothing. */
void pare_craft_power(const pare_craft *craft, const pare_sheet *sheet,
                      pare_powered power[PARE_POWERED]);

/** "hover", "cruise", "range": the beginning of a key. */
const char *pare_powered_name(pare_powered_as as);

#endif
