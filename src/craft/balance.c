/* balance.c: shares of hover (see balance.h). */
#include "craft/balance.h"

#include <math.h>
#include <stdio.h>

#include "craft/flight.h"
#include "physics/share.h"

#define MIDDLE_M 1e-6 /* within that a motor is neither before nor behind the middle */

static void missing(pare_balance *balance, const char *why)
{
    balance->exists = false;
    snprintf(balance->why, sizeof balance->why, "%.*s", (int)sizeof balance->why - 1, why);
}

static double pack_kg(const pare_craft *craft, const pare_sheet *sheet)
{
    double pack_kg = 0;
    for (size_t i = 0; i < sheet->assembly.lines; i++) {
        const pare_line *line = &sheet->assembly.line[i];
        if (line->of == PARE_LINE_ITEM && pare_part_does(craft->item[line->index].part, PARE_PACK))
            pack_kg += line->mass_kg.value;
    }
    return pack_kg;
}

/* Shares on either side of the middle along one axis. A centre of mass moved by as far as the two sides
 * are apart would move all weight from one to the other. */
static void sides(const pare_balance *balance, bool sideways, double middle_m, double u_m,
                  double *ahead, double *behind, double *u)
{
    double at_ahead_m = 0, at_behind_m = 0;
    int many_ahead = 0, many_behind = 0;
    *ahead = *behind = *u = 0;
    for (size_t i = 0; i < balance->motors; i++) {
        const double along_m = (sideways ? balance->at_m[i].y : balance->at_m[i].x) - middle_m;
        if (along_m > MIDDLE_M) {
            *ahead += balance->motor[i].share;
            at_ahead_m += along_m;
            many_ahead++;
        } else if (along_m < -MIDDLE_M) {
            *behind += balance->motor[i].share;
            at_behind_m += along_m;
            many_behind++;
        }
    }
    if (many_ahead > 0 && many_behind > 0)
        *u = u_m / (at_ahead_m / many_ahead - at_behind_m / many_behind);
}

void pare_craft_balance(const pare_craft *craft, const pare_sheet *sheet, pare_balance *balance)
{
    const pare_assembly *assembly = &sheet->assembly;
    const pare_body *all = &assembly->all;
    *balance = (pare_balance){.motors = assembly->arms};
    if (assembly->arms < 3 || assembly->arms != (size_t)sheet->rig.rotors) {
        missing(balance, "the frame does not say where the motors are");
        return;
    }
    double middle_x_m = 0, middle_y_m = 0, share[PARE_ARMS], pack_a, even_a, largest = 0;
    for (size_t i = 0; i < assembly->arms; i++) {
        balance->at_m[i] = assembly->arm_m[i];
        middle_x_m += assembly->arm_m[i].x / (double)assembly->arms;
        middle_y_m += assembly->arm_m[i].y / (double)assembly->arms;
    }
    const double pack = pack_kg(craft, sheet);
    balance->shifts = pack > 0;
    if (pack > 0) {
        balance->shift_x_m = (middle_x_m - all->at_m.x) * all->mass_kg / pack;
        balance->shift_y_m = (middle_y_m - all->at_m.y) * all->mass_kg / pack;
    }
    pare_error err = {PARE_OK, ""};
    if (pare_thrust_shares(assembly->arms, assembly->arm_m, all->at_m.x, all->at_m.y, share,
                           &err) != PARE_OK ||
        pare_rig_each(&sheet->rig, share, PARE_CHARGE_HALF, balance->motor, &pack_a, &err) !=
            PARE_OK) {
        missing(balance, err.text);
        return;
    }
    balance->exists = true;
    sides(balance, false, middle_x_m, sheet->figure[PARE_CG_X].u, &balance->front, &balance->rear,
          &balance->front_u);
    sides(balance, true, middle_y_m, sheet->figure[PARE_CG_Y].u, &balance->left, &balance->right,
          &balance->left_u);
    for (size_t i = 0; i < assembly->arms; i++) {
        largest = fmax(largest, share[i]);
        share[i] = 1 / (double)assembly->arms;
    }
    pare_each even[PARE_ARMS];
    if (pare_rig_each(&sheet->rig, share, PARE_CHARGE_HALF, even, &even_a, &err) == PARE_OK)
        balance->more = pack_a / even_a - 1;
    const pare_sheet_figure *fresh = &sheet->figure[PARE_TWR_FRESH];
    if (fresh->exists)
        balance->most = fresh->value / (largest * (double)assembly->arms);
}
