/* rooms: store advise craft physics base */
/* Flights that nobody flew, on craft that nobody would build (odd_drawn.h): charges, minutes, volts and masses off or not
 * said, packs that are not the craft's, profiles of any sort, days in any order. Whatever they are, they are refused
 * in words, or what is learned keeps its laws: nothing is known worse than before any flight, all is numbers, no flight
 * says nothing without a reason, a test that is proposed leaves no more doubt, and the sheet with what was learned is a
 * sheet. No flight at all teaches nothing. */
#include <math.h>

#include "odd_drawn.h"

#include "advise/learn.h"

enum { DRAWN = 60, FLIGHTS = 12 };

typedef struct season {
    odd odd;
    pare_arena *arena;
    pare_flight_record flight[FLIGHTS];
    size_t flights;
    pare_learned_all learned;
    pare_sheet sheet;
} season;

static int read_bench(void **state)
{
    season *s = calloc(1, sizeof *s);
    *state = s;
    return s && odd_open(&s->odd) ? 0 : -1;
}

static int forget_bench(void **state)
{
    season *s = *state;
    odd_close(&s->odd);
    free(s);
    return 0;
}

static double said(unsigned *seed, double usual)
{
    switch (dice(seed, 10)) {
    case 0:
    case 1:
        return (double)NAN;
    case 2:
        return dice(seed, 3) ? 1.3 * usual : 0;
    default:
        return usual * (0.8 + dice(seed, 400) / 1000.0);
    }
}

/* What the sheet says of its minutes. */
static double usual_s(season *s)
{
    pare_error err = {0};
    if (pare_learned_sheet(&s->odd.craft, NULL, &s->sheet, &err) != PARE_OK)
        return 200;
    const pare_sheet_figure *hover = &s->sheet.figure[PARE_HOVER_TIME];
    return hover->exists ? hover->value : 200;
}

static void draw_flights(season *s, unsigned *seed)
{
    const double lasts_s = usual_s(s);
    static const char *const days[] = {"2026-03-01", "2026-03-09", "2026-04-02", "2026-06-30",
                                       "2027-03-01"};
    static const pare_flown ways[] = {{PARE_FLOWN_THRUST, 1, 1},  {PARE_FLOWN_THRUST, 1, 0.6},
                                      {PARE_FLOWN_THRUST, 1, 3},  {PARE_FLOWN_SPEED, 1, 10},
                                      {PARE_FLOWN_SPEED, 1, 90},  {PARE_FLOWN_FULL, 1, 0},
                                      {PARE_FLOWN_THRUST, 1, 900}};
    const pare_craft *craft = &s->odd.craft;
    const int at = pare_craft_doing(craft, PARE_PACK);
    assert_true(at >= 0);
    const pare_part *own = craft->item[at].part;
    const double cells = own->spec[PARE_SPEC_CELLS].value,
                 holds_c = own->spec[PARE_SPEC_CAPACITY].value;
    s->flights = dice(seed, FLIGHTS + 1);
    for (size_t i = 0; i < s->flights; i++) {
        pare_flight_record *f = &s->flight[i];
        *f = (pare_flight_record){
            .date = days[dice(seed, 5)],
            .loadout = (int)dice(seed, (unsigned)craft->loadouts + 1) - 1,
            .which = (int)dice(seed, 3),
            .take_off_kg = dice(seed, 3) ? (double)NAN : said(seed, 0.5),
            .lasted_s = said(seed, lasts_s),
            .put_back_c = said(seed, 0.7 * holds_c),
            .rest_before_v = dice(seed, 3) ? (double)NAN : said(seed, 4.15 * cells),
            .rest_after_v = dice(seed, 3) ? (double)NAN : said(seed, 3.7 * cells),
            .air_given = dice(seed, 4) == 0,
            .air = {.altitude_m = 120,
                    .temperature_degc = dice(seed, 2) ? 15 : (double)NAN,
                    .pressure_pa = (double)NAN,
                    .sea_level_pa = dice(seed, 2) ? 1020e2 : (double)NAN,
                    .humidity = dice(seed, 2) ? 0.5 : (double)NAN},
            .output = dice(seed, 3) ? (double)NAN : said(seed, 0.3)};
        const pare_part *any = s->odd.bench->part[dice(seed, (unsigned)s->odd.bench->parts)];
        f->pack = any->kind == PARE_PACK ? any : dice(seed, 2) ? own : NULL;
        if (dice(seed, 2)) {
            f->entries = 1;
            f->flown[0] = ways[dice(seed, dice(seed, 6) ? 1 : 7)];
        }
    }
}

static void keeps_its_laws(season *s, unsigned n)
{
    const pare_learned_all *l = &s->learned;
    assert_int_equal(l->flights, s->flights);
    assert_true(l->used <= l->flights && l->aside <= l->used);
    for (int k = 0; k < pare_learned_count(l->logs); k++) {
        const pare_learned_factor *f = &l->factor[k];
        if (!isfinite(f->change) || !(f->change_u <= f->prior_u * (1 + 1e-6)))
            fail_msg("craft %u, %s: %g, u %g of %g", n, pare_learned_name((pare_learned)k),
                     f->change, f->change_u, f->prior_u);
        if (l->used == 0 && (fabs(f->change) > 1e-9 || fabs(f->change_u - f->prior_u) > 1e-6))
            fail_msg("craft %u, %s: learned of nothing", n, pare_learned_name((pare_learned)k));
    }
    size_t used = 0;
    for (size_t i = 0; i < l->flights; i++) {
        used += l->flight[i].why == NULL;
        assert_true(l->flight[i].why ? l->flight[i].why[0] != '\0' : l->flight[i].pack < l->packs);
    }
    assert_int_equal(used, l->used);
    for (size_t i = 0; i < l->packs; i++) {
        const pare_learned_pack *p = &l->pack[i];
        if (!isfinite(p->holds_c) || !(p->holds_c > 0) || !(p->holds_u_c >= 0) ||
            !isfinite(p->fade))
            fail_msg("craft %u, pack %s: holds %g C, u %g", n, p->pack->id, p->holds_c,
                     p->holds_u_c);
    }
    /* Infinite: it cannot be flown so. A sheet's doubt is of differences, good to a hundredth. */
    for (int i = 0; i < PARE_LEARNED_TESTS; i++)
        if (l->test[i].what && isfinite(l->learned_u_s) && isfinite(l->test[i].flown_u_s) &&
            !(l->test[i].flown_u_s <= 1.01 * l->learned_u_s))
            fail_msg("craft %u, %s: leaves %g s of %g s", n, l->test[i].what, l->test[i].flown_u_s,
                     l->learned_u_s);
    pare_error err = {0};
    if (pare_learned_sheet(&s->odd.craft, &l->kept, &s->sheet, &err) != PARE_OK)
        fail_msg("craft %u: %s", n, err.text);
    assert_true(s->sheet.figure[PARE_ALL_UP].value > 0);
}

static void flights_of_any_craft_teach_or_are_refused(void **state)
{
    season *s = *state;
    size_t learned = 0, used = 0, all = 0;
    for (unsigned n = 0; n < DRAWN; n++) {
        unsigned seed = n + 1;
        pare_error err = {0};
        odd_parts(&s->odd, &seed);
        if (!odd_craft(&s->odd, &seed))
            continue;
        draw_flights(s, &seed);
        s->arena = pare_arena_open();
        assert_non_null(s->arena);
        const pare_status status =
            pare_learn(&s->odd.craft, s->flights, s->flight, s->arena, &s->learned, &err);
        if (status == PARE_OK) {
            learned++;
            used += s->learned.used;
            all += s->flights;
            keeps_its_laws(s, n);
        } else if (status != PARE_BAD_DATA || !err.text[0]) {
            fail_msg("craft %u: %d '%s'", n, (int)status, err.text);
        } else if (getenv("WHY")) {
            print_message("%u: %s\n", n, err.text);
        }
        pare_arena_close(s->arena);
    }
    print_message("%zu learned, of %zu of %zu flights\n", learned, used, all);
    assert_true(learned > DRAWN / 2 && used > all / 4 && used < all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(flights_of_any_craft_teach_or_are_refused, read_bench,
                                        forget_bench),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
