/* rooms: store craft physics base */
/* The uncertainty and the chance of each margin against margins of craft drawn at random.
 *
 * A margin is about a figure of the flight, a law of its own and a limit, each in doubt. The craft is
 * drawn and flown (craft/draw.h), law and limit are drawn beside it, and the margin is worked out of
 * what came. What a margin bears over what it must is said to be log-normal, and compared in its
 * logarithm, but where limit and law are sharp: there the figure is normal. The least of all ratings is
 * no margin of its own, but one of many at a time. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/draw.h"
#include "craft/margin.h"
#include "draws.h"
#include "near.h"
#include "store/bench.h"

enum { DRAWS = 2000 };

/* The spread of so many draws is itself off by 1 / sqrt(2 DRAWS), 1.6 %; three of these. */
#define SAMPLING 0.047
#define AGREES   0.10
/* A share of so many draws is off by 1.1 % at most; three of these, and what 10 % of the spread does
 * to it at most: 0.1 z phi(z) at z = 1. */
#define CHANCE_AGREES (0.033 + 0.024)
/* The minutes of a hard flight end at once where the pack's resistance is far greater than thought: a
 * cliff, of which a normal figure knows the spread and not the shape. */
#define CLIFF_AGREES 0.11
/* Hardly doubted: less than the tolerance of what is drawn beside it. */
#define WORTH 0.002

static const char *const crafts[] = {"bodkin", "drover", "hedgerow", "thimble"};
enum { CRAFTS = sizeof crafts / sizeof crafts[0] };

typedef struct fixture {
    pare_bench *bench;
    pare_craft *craft;
    pare_sheet *sheet, *drawn;
} fixture;

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    f->bench = bench_of("../../demo/bench.yaml");
    f->craft = calloc(1, sizeof *f->craft);
    f->sheet = calloc(1, sizeof *f->sheet);
    f->drawn = calloc(1, sizeof *f->drawn);
    *state = f;
    return 0;
}

static int teardown(void **state)
{
    fixture *f = *state;
    pare_bench_close(f->bench);
    free(f->craft);
    free(f->sheet);
    free(f->drawn);
    free(f);
    return 0;
}

typedef struct spread {
    int tried, count, held; /* count: of those that have such a figure */
    double sum, squares;    /* of what off_by() gives */
    uint64_t dice;          /* its law's own, so that one margin more moves no other */
} spread;

static bool sharp(const pare_margin *margin)
{
    return margin->own_u == 0 && margin->limit_u == 0;
}

/* What a ratio is off by, as it is said to be distributed: as a share of the figure, or in its logarithm. */
static double off_by(const pare_margin *claimed, double ratio)
{
    if (!sharp(claimed))
        return log(ratio / claimed->ratio);
    return claimed->at_least ? ratio / claimed->ratio - 1 : claimed->ratio / ratio - 1;
}

static double lognormal_sigma(double median, double u)
{
    const double share = u / median;
    return sqrt(log(0.5 * (1 + sqrt(1 + 4 * share * share))));
}

/* What one margin came to, its own law and limit drawn beside the craft. */
static double ratio_drawn(const pare_margin *claimed, const pare_margin *came, uint64_t *dice)
{
    const double zero = claimed->from_zero;
    const double own = lognormal_sigma(claimed->value - zero, claimed->own_u);
    const double limit = lognormal_sigma(claimed->limit - zero, claimed->limit_u);
    const double value = (came->value - zero) * exp(own * draw_normal(dice));
    const double bound = (claimed->limit - zero) * exp(limit * draw_normal(dice));
    return claimed->at_least ? value / bound : bound / value;
}

static void draw_once(fixture *f, const pare_doubts *doubts, uint64_t *dice,
                      spread spreads[PARE_MARGINS])
{
    const pare_deviates deviates = {draw_next, dice};
    pare_drawn drawn;
    pare_moved_rig moved = {.rig = f->sheet->rig};
    *f->drawn = *f->sheet;
    f->drawn->with_u = false;
    for (int figure = PARE_HOVER_OUTPUT; figure < PARE_FIGURES; figure++)
        f->drawn->figure[figure].exists = false;
    pare_draw_errors(doubts, &deviates, &drawn);
    pare_draw_body(f->craft, f->sheet, &deviates, &moved.rig);
    pare_draw_numbers(doubts, &drawn, &moved);
    pare_draw_flight(f->craft, &moved.rig, doubts, &drawn, f->drawn->figure);
    f->drawn->rig = moved.rig;
    f->drawn->figure[PARE_ALL_UP].value = moved.rig.mass_kg;
    pare_sheet_margins(f->craft, f->drawn);
    for (size_t m = 0; m < f->sheet->margins; m++) {
        const pare_margin *claimed = &f->sheet->margin[m];
        const pare_margin *came = pare_sheet_margin(f->drawn, claimed->name);
        spreads[m].tried++;
        if (!came || !(came->value - claimed->from_zero > 0))
            continue;
        const double ratio = ratio_drawn(claimed, came, &spreads[m].dice);
        const double off = off_by(claimed, ratio);
        spreads[m].count++;
        spreads[m].held += ratio >= 1;
        spreads[m].sum += off;
        spreads[m].squares += off * off;
    }
}

static uint64_t seed_of(const char *name)
{
    uint64_t seed = 1469598103934665603U;
    for (; *name; name++)
        seed = (seed ^ (uint64_t)*name) * 1099511628211U;
    return seed;
}

static int compare(const char *craft, const pare_margin *margin, const spread *s)
{
    const double mean = s->sum / s->count;
    const double drawn = sqrt(s->squares / s->count - mean * mean);
    const double said = sharp(margin) ? margin->ratio_u / margin->ratio
                                      : lognormal_sigma(margin->ratio, margin->ratio_u);
    const double held = (double)s->held / s->tried;
    const double within = (AGREES + SAMPLING) * drawn + WORTH;
    const double chance_within =
        strcmp(margin->name, "limit.flown") == 0 ? CLIFF_AGREES : CHANCE_AGREES;
    if (fabs(said - drawn) <= within && fabs(margin->chance - held) <= chance_within)
        return 0;
    print_error(
        "%s: %s: ratio %.4g off by %.4g as said, %.4g drawn; holds in %.3f as said, %.3f drawn\n",
        craft, margin->name, margin->ratio, said, drawn, margin->chance, held);
    return 1;
}

static void each_margins_uncertainty_and_chance_are_those_of_draws(void **state)
{
    fixture *f = *state;
    int wrong = 0, compared = 0;
    for (int c = 0; c < CRAFTS; c++) {
        pare_error err = {0};
        pare_doubts doubts;
        uint64_t dice = 21;
        spread spreads[PARE_MARGINS] = {0};
        const pare_craft *plain = pare_bench_craft(f->bench, crafts[c]);
        if (pare_craft_load(plain, plain->loadouts ? 0 : -1, f->craft, &err) != PARE_OK ||
            pare_sheet_compute(f->craft, true, f->sheet, &err) != PARE_OK)
            fail_msg("%s: %s", crafts[c], err.text);
        pare_doubts_of(f->craft, f->sheet, &doubts);
        for (size_t m = 0; m < f->sheet->margins; m++)
            spreads[m].dice = seed_of(f->sheet->margin[m].name);
        for (int draw = 0; draw < DRAWS; draw++)
            draw_once(f, &doubts, &dice, spreads);
        for (size_t m = 0; m < f->sheet->margins; m++) {
            const pare_margin *margin = &f->sheet->margin[m];
            if (strcmp(margin->name, "limit.margin") == 0 || spreads[m].count < DRAWS / 2)
                continue;
            wrong += compare(crafts[c], margin, &spreads[m]);
            compared++;
        }
    }
    assert_true(compared > 60);
    assert_int_equal(wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(each_margins_uncertainty_and_chance_are_those_of_draws,
                                        setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
