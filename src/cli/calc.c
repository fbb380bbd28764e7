/* calc.c: `pare calc`: one answer without a bench.
 *
 * Each thing is a table of the keys that it takes and a function that turns their values into named
 * figures. Units are read here and nowhere below. */
#include <string.h>

#include "cli/calc.h"
#include "cli/command.h"
#include "cli/use.h"

static const calc_thing *const things[] = {&calc_air,   &calc_prop, &calc_motor, &calc_pack,
                                           &calc_solid, &calc_mesh, &calc_screw, &calc_joint,
                                           &calc_wire,  &calc_esc,  &calc_arm,   &calc_coax};
#define KNOWN "air, prop, motor, pack, solid, mesh, screw, joint, wire, esc, arm, coax"
enum { THINGS = sizeof things / sizeof things[0] };

static const calc_thing *find(const char *name, pare_error *err)
{
    const char *names[THINGS];
    for (size_t i = 0; i < THINGS; i++) {
        if (strcmp(things[i]->name, name) == 0)
            return things[i];
        names[i] = things[i]->name;
    }
    const char *near = pare_nearest(name, THINGS, names);
    if (near)
        pare_fail(err, PARE_UNKNOWN, "calc knows no '%s'; did you mean %s?", name, near);
    else
        pare_fail(err, PARE_UNKNOWN, "calc knows no '%s'; it knows " KNOWN, name);
    return NULL;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    if (given->operands == 0)
        return pare_fail(err, PARE_BAD_DATA, "calc what? " KNOWN "; then key=value");
    const calc_thing *thing = find(given->operand[0], err);
    if (!thing)
        return err->status;
    pare_units *units = pare_units_open();
    if (!units)
        return pare_no_memory(err);
    char about[32] = "calc ";
    strncat(about, thing->name, sizeof about - strlen(about) - 1);
    key_values values;
    pare_answer answer = {0};
    pare_status status = keys_read(about, thing->keys, thing->key, given->operands - 1,
                                   given->operand + 1, units, &values, err);
    if (status == PARE_OK) {
        status = thing->answer(&values, units, &answer, err);
        if (status != PARE_OK)
            pare_within(err, "%s", about);
    }
    pare_units_close(units);
    if (status != PARE_OK)
        return status;
    if (given->given & OPTION_JSON) {
        pare_answer_json(&answer, out);
        return PARE_OK;
    }
    const pare_screen screen = terminal_screen();
    pare_answer_text(&answer, &screen, out);
    return PARE_OK;
}

/* Things, then the keys of the one that was named. */
static size_t words(size_t operands, const char *const operand[], size_t most, const char *name[])
{
    size_t count = 0;
    pare_error none;
    const calc_thing *thing = operands > 0 ? find(operand[0], &none) : NULL;
    if (operands == 0)
        for (; count < THINGS && count < most; count++)
            name[count] = things[count]->name;
    else if (thing)
        for (; count < thing->keys && count < most; count++)
            name[count] = thing->key[count].name;
    return count;
}

const command command_calc = {
    .name = "calc",
    .line = "one answer without a bench: a screw, a wire, a propeller ...",
    .usage = "pare calc THING key=value... [--json]",
    .details = "  air    altitude= [temperature=] [pressure= | sea_level_pressure=] [humidity=]\n"
               "  prop   diameter= pitch= blades= rpm= [speed=] [altitude=] [chord=]\n"
               "         [line=thin|slim|sport|slow|park|direct|folding|classic|scimitar|broad]\n"
               "  motor  kv= resistance= no_load= volts= current= [no_load_at=] [mass=]\n"
               "         [iron_share=] [heat=off|on] [drive=off|on]\n"
               "         [measured=VOLTS/AMPERES/RPM,...]\n"
               "  pack   volts= resistance= power= | chemistry=lipo|lihv|liion|liion-power\n"
               "         capacity= current=|power= [cells=] [charge=] [temperature=]\n"
               "         [cell_resistance= read_as=pulse|ac|dc read_at=] [holds=] [leads=]\n"
               "         [heat=on|off]\n"
               "  solid  shape=box|cylinder|tube|cone|sphere|capsule|rod|ring|plate mass= size=\n"
               "  mesh   file=X.stl|X.3mf density= [unit=mm] [wall= infill=]\n"
               "  screw  standard=ISO4762|ISO7380-1|ISO10642|ISO1207 thread= length= material=\n"
               "         [class=] [engaged= into=] [plate=] [nut_factor=];\n"
               "         standard=ISO4032|ISO7040|ISO7089 thread= material=;\n"
               "         standard=standoff_hex|standoff_round thread= length= across=\n"
               "         material= [tapped=]\n"
               "  joint  thread= length= material= count= circle= [mass= crash_g= height=]\n"
               "         [thrust=] [torque=] [engaged=] [into=] [plate=] [standard=] [class=]\n"
               "         [nut_factor=] [against=2xsteel]\n"
               "  wire   gauge= length= current= [outer=] [ambient=] [flow=] [burst=]\n"
               "         [flown=AMPERES/SECONDS,...]\n"
               "  esc    current= volts= mass=|continuous= [motors=1|4] [burst=] [burst_for=]\n"
               "         [ambient=] [flow=] [limit=] [resistance=] [heat_capacity=]\n"
               "  arm    length= tip= width= thickness= | outer= inner= [force=] [rpm=]\n"
               "         [cloth=] [off_axis=] [layers=0/90/90/0] [tip_radius=]\n"
               "         [modulus=] [shear_modulus=] [strength=] [density=]\n"
               "  coax   cable= length= band= [connectors=] [from= to=]\n"
               "Quantities carry their unit: 5in, 60mohm, 14.8V; altitudes are geometric. A\n"
               "propeller is modelled from its size, and its line where that is known; each\n"
               "figure says how uncertain that leaves it.\n",
    .example = "  pare calc prop diameter=5in pitch=4.3in blades=3 rpm=14000\n"
               "  pare calc air altitude=1500m temperature=30degC\n"
               "  pare calc motor kv=1950 resistance=55mohm no_load=1.2A volts=23V current=30A\n"
               "  pare calc pack chemistry=liion cells=6 capacity=3000mAh current=6A charge=30%\n"
               "  pare calc screw standard=ISO4762 thread=M3 length=8mm material=aluminium\n"
               "  pare calc joint thread=M3 length=8mm material=aluminium count=4 circle=16mm\n"
               "  pare calc wire gauge=16 length=120mm current=40A burst=5s\n"
               "  pare calc wire gauge=14 length=250mm current=21A flown=9/50,16/120,110/3,40/60\n"
               "  pare calc esc current=11A volts=15V mass=11.3g continuous=45A burst=45A\n"
               "  pare calc arm length=110mm width=12mm thickness=5mm tip=36g force=12N\n",
    .options = OPTION_JSON,
    .words = words,
    .run = run,
};
