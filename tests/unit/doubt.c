/* rooms: store craft physics base */
/* The uncertainty of a sheet's figures against flights of everything drawn together.
 *
 * The linear law of propagation (JCGM 100:2008) is checked as its supplement says: all inputs are drawn
 * (craft/draw.h), every draw is flown in full, and the figures' spread is compared. */
#include "craft/doubt.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/draw.h"
#include "craft/flight.h"
#include "draws.h"
#include "near.h"
#include "physics/drive.h"
#include "store/bench.h"

enum { DRAWS = 4000 };

/* The spread of so many draws is itself off by 1 / sqrt(2 DRAWS), 1.1 %; three of these. */
#define SAMPLING 0.034
#define AGREES   0.10
/* A pack that lands early on its volts lands with more charge: what it lacks in volts and what it has
 * left pull thrust and volts at landing both ways, each bent, and leave little of either's slope. */
#define LANDING_AGREES 0.15

static const char *const crafts[] = {"bodkin", "drover", "hedgerow", "thimble"};
enum { CRAFTS = sizeof crafts / sizeof crafts[0] };

static int setup(void **state)
{
    *state = bench_of("../../demo/bench.yaml");
    return 0;
}

static int teardown(void **state)
{
    pare_bench_close(*state);
    return 0;
}

static void sheet_of(const pare_bench *bench, const char *name, pare_craft *craft,
                     pare_sheet *sheet)
{
    pare_error err = {0};
    const pare_craft *plain = pare_bench_craft(bench, name);
    assert_non_null(plain);
    if (pare_craft_load(plain, plain->loadouts ? 0 : -1, craft, &err) != PARE_OK ||
        pare_sheet_compute(craft, true, sheet, &err) != PARE_OK)
        fail_msg("%s: %s", name, err.text);
}

/* A flight that lands at once lasts no time; any other figure that does not exist is left out. */
typedef struct spread {
    int count;
    double sum, squares; /* about the sheet's own value */
} spread;

static double deviation(const spread *s)
{
    const double mean = s->sum / s->count;
    return sqrt(s->squares / s->count - mean * mean);
}

/* Heat is said to be log-normal, and is compared so: a craft whose pack is so far off that it does not
 * fly has no heat, and the far end that is lost with it weighs little in the logarithm. */
static double off_by(const pare_sheet *sheet, int figure, double value)
{
    double begins;
    const double own = sheet->figure[figure].value;
    return pare_log_normal(sheet, figure, &begins) ? log((value - begins) / (own - begins))
                                                   : value - own;
}

/* Of what off_by() gives. */
static double claimed(const pare_sheet *sheet, int figure)
{
    double begins;
    const pare_sheet_figure *own = &sheet->figure[figure];
    if (!pare_log_normal(sheet, figure, &begins))
        return own->u;
    const double share = own->u / (own->value - begins);
    return sqrt(log(0.5 * (1 + sqrt(1 + 4 * share * share))));
}

static void draw_all(const pare_craft *craft, const pare_sheet *sheet, spread spreads[PARE_FIGURES])
{
    uint64_t dice = 20;
    const pare_deviates deviates = {draw_next, &dice};
    pare_doubts doubts;
    pare_doubts_of(craft, sheet, &doubts);
    for (int draw = 0; draw < DRAWS; draw++) {
        pare_moved_rig moved = {.rig = sheet->rig};
        pare_sheet_figure figure[PARE_FIGURES];
        for (int f = 0; f < PARE_FIGURES; f++)
            figure[f].exists = false;
        pare_drawn drawn;
        pare_draw_errors(&doubts, &deviates, &drawn);
        pare_draw_body(craft, sheet, &deviates, &moved.rig);
        pare_draw_numbers(&doubts, &drawn, &moved);
        pare_draw_flight(craft, &moved.rig, &doubts, &drawn, figure);
        for (int f = PARE_HOVER_OUTPUT; f < PARE_FIGURES; f++) {
            const double value = figure[f].exists ? figure[f].value : 0;
            if (!figure[f].exists && f != PARE_FLOWN_TIME)
                continue;
            const double off = off_by(sheet, f, value);
            spreads[f].count++;
            spreads[f].sum += off;
            spreads[f].squares += off * off;
        }
    }
}

static void every_figures_uncertainty_is_the_spread_of_flights_drawn_together(void **state)
{
    pare_craft *craft = calloc(1, sizeof *craft);
    pare_sheet *sheet = calloc(1, sizeof *sheet);
    int wrong = 0;
    for (int c = 0; c < CRAFTS; c++) {
        spread spreads[PARE_FIGURES] = {0};
        sheet_of(*state, crafts[c], craft, sheet);
        draw_all(craft, sheet, spreads);
        for (int f = PARE_HOVER_OUTPUT; f < PARE_FIGURES; f++) {
            const pare_sheet_figure *figure = &sheet->figure[f];
            if (!figure->exists || figure->u == 0)
                continue;
            const double drawn = deviation(&spreads[f]);
            assert_true(spreads[f].count > 0.9 * DRAWS);
            const bool landing = f == PARE_TWR_LANDING || f == PARE_LANDING_CELL_V;
            const double agrees = landing ? LANDING_AGREES : AGREES;
            const double u = claimed(sheet, f);
            if (fabs(u - drawn) > (agrees + SAMPLING) * drawn) {
                print_error("%s: %s: %.4g by slopes, %.4g drawn\n", crafts[c],
                            pare_figure_table[f].key, u, drawn);
                wrong++;
            }
        }
    }
    assert_int_equal(wrong, 0);
    free(craft);
    free(sheet);
}

/* The whole figure by doubled inputs one at a time: each must reach what rests on it. */
static void doubling_any_doubt_about_the_rig_moves_what_rests_on_it(void **state)
{
    static const struct {
        pare_doubted which;
        pare_figure moves[3];
    } rows[] = {
        {PARE_DOUBTED_KV, {PARE_HOVER_OUTPUT, PARE_TWR_FRESH, PARE_TOP_SPEED}},
        {PARE_DOUBTED_RESISTANCE, {PARE_HOVER_W, PARE_FULL_A, PARE_CLIMB}},
        {PARE_DOUBTED_NO_LOAD, {PARE_HOVER_A, PARE_FLOWN_TIME, PARE_CRUISE_TIME}},
        {PARE_DOUBTED_COOLING, {PARE_THRUST_FRESH, PARE_TURN, PARE_ROLL}},
        {PARE_DOUBTED_PACK_OHM, {PARE_HOVER_TIME, PARE_TWR_LANDING, PARE_BURST}},
        {PARE_DOUBTED_CELL_V, {PARE_HOVER_A, PARE_TWR_HALF, PARE_PACK_ENERGY}},
        {PARE_DOUBTED_DRAG, {PARE_BEST_RANGE, PARE_TOP_SPEED, PARE_FLOWN_A}},
        {PARE_DOUBTED_ALWAYS, {PARE_HOVER_A, PARE_HOVER_TIME, PARE_BEST_RANGE}},
        {PARE_DOUBTED_SWITCHING, {PARE_HOVER_W, PARE_CRUISE_TIME, PARE_FLOWN_TIME}},
        {PARE_DOUBTED_SPIN, {PARE_ROTOR_LAG, PARE_BURST, PARE_ROTOR_LAG}},
        {PARE_DOUBTED_CAPACITY, {PARE_HOVER_TIME, PARE_BEST_RANGE, PARE_PACK_ENERGY}},
        {PARE_DOUBTED_LEAD, {PARE_FULL_A, PARE_TWR_FRESH, PARE_HOVER_TIME}},
        {PARE_DOUBTED_BLOCKAGE, {PARE_HOVER_W, PARE_THRUST_FRESH, PARE_TOP_SPEED}},
        {PARE_DOUBTED_ESC_OHM, {PARE_HOVER_A, PARE_TWR_HALF, PARE_CLIMB}},
        {PARE_DOUBTED_PULSE, {PARE_HOVER_A, PARE_HOVER_TIME, PARE_CRUISE_TIME}},
        {PARE_DOUBTED_ESC_IDLE, {PARE_HOVER_A, PARE_FLOWN_TIME, PARE_CRUISE_TIME}},
    };
    pare_craft *craft = calloc(1, sizeof *craft);
    pare_sheet *sheet = calloc(1, sizeof *sheet), *doubled = calloc(1, sizeof *doubled);
    pare_doubts doubts;
    pare_endurance endured;
    sheet_of(*state, "hedgerow", craft, sheet);
    pare_rig_drive(&pare_drive_fitted, &sheet->rig); /* with pulses to doubt */
    pare_flight_figures(&craft->brief, &sheet->rig, sheet->figure, &endured);
    pare_sheet_doubt(craft, sheet);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        pare_doubts_of(craft, sheet, &doubts);
        if (!(doubts.u[rows[i].which] > 0))
            fail_msg("number %d is not doubted", rows[i].which);
        doubts.u[rows[i].which] *= 2;
        for (int number = 0; number < PARE_PAIR_NUMBERS; number++)
            for (int k = 0; pare_doubted_of_pair[number] == rows[i].which && k < 2 * PARE_MOTIONS;
                 k++)
                doubts.drive[k / PARE_MOTIONS][k % PARE_MOTIONS].root[number][number] *= 2;
        *doubled = *sheet;
        pare_sheet_doubt_with(craft, &doubts, doubled);
        for (int k = 0; k < 3; k++) {
            const pare_figure f = rows[i].moves[k];
            if (!(doubled->figure[f].u > sheet->figure[f].u))
                fail_msg("number %d doubted twice as much leaves %s at %g", rows[i].which,
                         pare_figure_table[f].key, sheet->figure[f].u);
        }
    }
    free(craft);
    free(sheet);
    free(doubled);
}

/* Figures of flight rest on propellers at rest or on propellers that move, and say which by what the
 * doubt about either does to them: of thrust alone, and of thrust and power, of which as much cancels in top
 * speed, where little of its doubt is the propeller's. */
static void each_figure_asks_the_propellers_error_that_it_is_about(void **state)
{
    static const pare_figure still[] = {PARE_HOVER_W, PARE_HOVER_TIME, PARE_TWR_FRESH, PARE_ROLL};
    static const pare_figure moving[] = {PARE_CRUISE_TIME, PARE_BEST_RANGE, PARE_TOP_SPEED,
                                         PARE_TURN,        PARE_BURST,      PARE_FLOWN_TIME};
    pare_craft *craft = calloc(1, sizeof *craft);
    pare_sheet *sheet = calloc(1, sizeof *sheet), *other = calloc(1, sizeof *other);
    sheet_of(*state, "hedgerow", craft, sheet);
    for (int last = PARE_PAIR_THRUST; last <= PARE_PAIR_POWER; last++) {
        pare_doubts doubts;
        pare_doubts_of(craft, sheet, &doubts);
        for (int full = 0; full < 2; full++)
            for (int number = PARE_PAIR_THRUST; number <= last; number++)
                for (int source = 0; source < PARE_PAIR_NUMBERS; source++) {
                    doubts.drive[full][PARE_MOVING].root[number][source] *= 2;
                    doubts.drive[full][PARE_FAST].root[number][source] *= 2;
                }
        *other = *sheet;
        pare_sheet_doubt_with(craft, &doubts, other);
        for (size_t i = 0; i < sizeof still / sizeof still[0]; i++)
            assert_near(other->figure[still[i]].u, sheet->figure[still[i]].u, 0);
        for (size_t i = 0; i < sizeof moving / sizeof moving[0]; i++) {
            const pare_figure f = moving[i];
            const double times = last == PARE_PAIR_POWER && f == PARE_TOP_SPEED ? 1.03 : 1.05;
            if (!(other->figure[f].u > times * sheet->figure[f].u))
                fail_msg("%s: %g is not well above %g", pare_figure_table[f].key,
                         other->figure[f].u, sheet->figure[f].u);
        }
    }
    free(craft);
    free(sheet);
    free(other);
}

/* Thrust that is off together with power leaves hover less uncertain than were they independent. */
static void errors_that_go_together_cancel_where_thrust_is_bought_with_power(void **state)
{
    pare_craft *craft = calloc(1, sizeof *craft);
    pare_sheet *sheet = calloc(1, sizeof *sheet), *other = calloc(1, sizeof *other);
    pare_doubts doubts;
    sheet_of(*state, "hedgerow", craft, sheet);
    pare_doubts_of(craft, sheet, &doubts);
    double *power = doubts.drive[0][0].root[PARE_PAIR_POWER];
    power[1] = hypot(power[0], power[1]);
    power[0] = 0;
    *other = *sheet;
    pare_sheet_doubt_with(craft, &doubts, other);
    assert_true(other->figure[PARE_HOVER_W].u > sheet->figure[PARE_HOVER_W].u);
    assert_true(other->figure[PARE_HOVER_TIME].u > sheet->figure[PARE_HOVER_TIME].u);
    free(craft);
    free(sheet);
    free(other);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_figures_uncertainty_is_the_spread_of_flights_drawn_together),
        cmocka_unit_test(doubling_any_doubt_about_the_rig_moves_what_rests_on_it),
        cmocka_unit_test(each_figure_asks_the_propellers_error_that_it_is_about),
        cmocka_unit_test(errors_that_go_together_cancel_where_thrust_is_bought_with_power),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
