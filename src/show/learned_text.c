/* learned_text.c: what flights say about a craft, on a screen (see learned.h). */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/day.h"
#include "show/digits.h"
#include "show/learned.h"

#define MAH_PER_C   (1 / 3.6)
#define CLEAR_U     2.0    /* a fade of so many u is one */
#define NINE_IN_TEN 1.6449 /* u, of a normal deviate */
#define WORTH_IT    0.95   /* of the doubt that is left: a test that leaves more is hardly one */

static void sentence(const pare_screen *screen, pare_text *out, const char *text)
{
    pare_put_wrapped(screen, out, 0, 0, text);
}

/* A factor on what was thought, and how far its logarithm moved. */
static void factors(const pare_learned_all *all, const pare_screen *screen, pare_text *out)
{
    enum { NAME = 20, NUMBER = 16 };
    char text[PARE_DIGITS], field[64];
    pare_put_heading(screen, out, "What it rests on, against what was thought");
    pare_put_left(out, "", 2 + NAME);
    pare_put_left(out, "thought", NUMBER);
    pare_put_left(out, "learned", NUMBER);
    pare_text_add(out, "moved\n");
    const int count = pare_learned_count(all->logs);
    for (int f = 0; f < count; f++) {
        const pare_learned_factor *factor = &all->factor[f];
        if (!(factor->prior_u > 0))
            continue;
        pare_text_add(out, "  ");
        pare_put_left(out, pare_learned_name((pare_learned)f), NAME);
        pare_put_left(out, pare_digits_u(text, screen, 1, factor->prior_u), NUMBER);
        const double now = pare_learned_value((pare_learned)f, factor->change);
        pare_put_left(
            out,
            pare_digits_u(text, screen, now,
                          pare_learned_value_u((pare_learned)f, factor->change, factor->change_u)),
            NUMBER);
        snprintf(field, sizeof field, "%+.1f u", factor->change / factor->prior_u);
        pare_text_printf(out, "%s\n", field);
    }
    double most = 0;
    int a = 0, b = 0;
    for (int f = 0; f < count; f++)
        for (int g = f + 1; g < count; g++)
            if (fabs(all->correlation[f][g]) > fabs(most)) {
                most = all->correlation[f][g];
                a = f;
                b = g;
            }
    if (fabs(most) >= 0.5) {
        char line[160];
        snprintf(line, sizeof line, "The flights tell %s and %s apart badly: correlation %+.2f.",
                 pare_learned_name((pare_learned)a), pare_learned_name((pare_learned)b), most);
        sentence(screen, out, line);
    }
}

static const char *pack_name(const pare_learned_pack *pack, char text[96])
{
    if (pack->which > 0)
        snprintf(text, 96, "%.60s, number %d", pack->pack->id, pack->which);
    else
        snprintf(text, 96, "%.60s", pack->pack->id);
    return text;
}

static void packs(const pare_learned_all *all, const pare_screen *screen, pare_text *out)
{
    enum { NAME = 26, FLIGHTS = 9, HOLDS = 20, SHARE = 9 };
    char text[PARE_DIGITS], name[96], field[96];
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "Packs");
    pare_put_left(out, "", 2 + NAME);
    pare_put_left(out, "flights", FLIGHTS);
    pare_put_left(out, "holds now, mAh", HOLDS);
    pare_put_left(out, "of said", SHARE);
    pare_text_add(out, "fades in 30 days\n");
    for (size_t p = 0; p < all->packs; p++) {
        const pare_learned_pack *pack = &all->pack[p];
        pare_text_add(out, "  ");
        pare_put_left(out, pack_name(pack, name), NAME);
        snprintf(field, sizeof field, "%zu", pack->flights);
        pare_put_left(out, field, FLIGHTS);
        pare_put_left(
            out,
            pare_digits_u(text, screen, MAH_PER_C * pack->holds_c, MAH_PER_C * pack->holds_u_c),
            HOLDS);
        snprintf(field, sizeof field, "%.0f %%", 100 * pack->holds_c / pack->stated_c);
        pare_put_left(out, field, SHARE);
        pare_text_printf(out, "%s %%\n",
                         pare_digits_u(text, screen, 100 * pack->fade, 100 * pack->fade_u));
    }
    for (size_t p = 0; p < all->packs; p++) {
        const pare_learned_pack *pack = &all->pack[p];
        char line[320], day[16] = "";
        if (!(pack->fade > CLEAR_U * pack->fade_u))
            continue;
        if (isfinite(pack->enough_until) && fabs(pack->enough_until) < 1e6)
            pare_day_text((long)pack->enough_until, day);
        snprintf(line, sizeof line,
                 "%s is dying: it loses %.0f %% in 30 days.%s%s%s A pack that is swollen, hot or "
                 "far behind its mates is not charged again: have it recycled as local rules say.",
                 pack_name(pack, name), 100 * pack->fade,
                 *day ? " By that it no longer gives your minutes from " : "", day,
                 *day ? "." : "");
        sentence(screen, out, line);
    }
}

/* What it held at first, and what chargers and logs read, a line a copy. */
static void resistances(const pare_learned_all *all, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS], name[96];
    for (size_t p = 0; p < all->packs; p++) {
        const pare_learned_pack *pack = &all->pack[p];
        const bool logged = isfinite(pack->logged_ohm);
        const bool flown = pack->first && strcmp(pack->first, pack->last) != 0;
        pare_text line = {0};
        if (pack->charged == 0 && !logged && !flown)
            continue;
        pare_text_printf(&line, "%s: ", pack_name(pack, name));
        if (flown)
            pare_text_printf(
                &line, "held %s mAh on %s%s",
                pare_digits_u(text, screen, MAH_PER_C * pack->held_c, MAH_PER_C * pack->held_u_c),
                pack->first, pack->charged || logged ? "; " : "");
        if (pack->charged)
            pare_text_printf(&line, "%s mohm a cell by its charger, ",
                             pare_digits_u(text, screen, 1e3 * pack->ohm, 1e3 * pack->ohm_u));
        if (pack->charged > 1)
            pare_text_printf(&line, "%s %% more every 30 days, by %zu readings",
                             pare_digits_u(text, screen, 100 * pack->growth, 100 * pack->growth_u),
                             pack->charged);
        else if (pack->charged)
            pare_text_add(&line, "read once: a second reading tells how it ages");
        if (logged)
            pare_text_printf(
                &line, "%s%s mohm a cell by its logs", pack->charged ? "; " : "",
                pare_digits_u(text, screen, 1e3 * pack->logged_ohm, 1e3 * pack->logged_ohm_u));
        pare_text_add(&line, ".");
        sentence(screen, out, pare_text_all(&line));
        out->failed |= line.failed;
        pare_text_free(&line);
    }
}

void pare_hovered_words(const pare_flight_record *flight, pare_text *line)
{
    pare_text_printf(line, "hovered at %.0f %% output", 100 * flight->output);
    if (flight->promised)
        pare_text_printf(
            line, ", promised %.0f to %.0f %%, %s", 100 * flight->low, 100 * flight->high,
            flight->output >= flight->low && flight->output <= flight->high ? "held" : "missed");
}

/* What its log says, where that does not fit. */
static void put_log(const pare_learned_flight *flight, const pare_screen *screen, pare_text *out,
                    double bound)
{
    char line[256];
    if (!flight->log_aside)
        return;
    snprintf(line, sizeof line,
             "its log does not fit: %s, off by %.1f u where %.1f is chance. Nothing is learned "
             "from the log%s",
             flight->log_about, fabs(flight->off_log), bound,
             flight->fits ? ", only from what was written down" : "");
    pare_put_spaces(out, 4);
    pare_put_wrapped(screen, out, 4, 4, line);
}

/* "1.9 u more than expected" */
static void put_off(const pare_learned_flight *flight, const pare_screen *screen, pare_text *out,
                    double bound)
{
    char line[256];
    const double charge = fabs(flight->off_c), rest = fabs(flight->off_rest);
    if (flight->fits || flight->log_aside)
        return;
    if (charge >= rest)
        snprintf(line, sizeof line,
                 "took %s charge than all other flights say, by %.1f u where %.1f is chance: flown "
                 "otherwise than it says, or another pack. Nothing is learned from it",
                 flight->off_c > 0 ? "more" : "less", charge, bound);
    else
        snprintf(line, sizeof line,
                 "came to rest %s than all other flights say, by %.1f u where %.1f is chance: "
                 "another pack, or a volt misread. Nothing is learned from it",
                 flight->off_rest > 0 ? "higher" : "lower", rest, bound);
    pare_put_spaces(out, 4);
    pare_put_wrapped(screen, out, 4, 4, line);
}

static void flights(const pare_learned_all *all, const pare_screen *screen, pare_text *out)
{
    enum { DAY = 12, PACK = 22, NUMBER = 11 };
    char text[PARE_DIGITS], name[96], field[64];
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "Flights, what they said and what was to be expected");
    pare_put_left(out, "", 2 + DAY + PACK);
    pare_put_right(out, "mAh", NUMBER - 4);
    pare_put_right(out, "expected", NUMBER);
    pare_put_right(out, "rest V", NUMBER - 1);
    pare_put_right(out, "expected", NUMBER);
    pare_text_add(out, "\n");
    for (size_t i = 0; i < all->flights; i++) {
        const pare_learned_flight *flight = &all->flight[i];
        const pare_flight_record *record = flight->record;
        pare_text_add(out, "  ");
        pare_put_left(out, record->date, DAY);
        pare_text hovered = {0};
        if (record->output > 0)
            pare_hovered_words(record, &hovered);
        if (flight->why) {
            if (pare_text_any(&hovered))
                pare_put_rest(screen, out, 2 + DAY, 2 + DAY, &hovered);
            else
                pare_text_printf(out, "tells nothing: %s\n", flight->why);
            continue;
        }
        pare_put_left(out, pack_name(&all->pack[flight->pack], name), PACK);
        pare_put_right(out, pare_digits_at(text, MAH_PER_C * flight->said_c, 0), NUMBER - 4);
        pare_put_right(
            out,
            flight->expected_c > 0 ? pare_digits_at(text, MAH_PER_C * flight->expected_c, 0) : "-",
            NUMBER);
        if (flight->expected_rest_v > 0) {
            snprintf(field, sizeof field, "%.2f", flight->said_rest_v);
            pare_put_right(out, field, NUMBER - 1);
            snprintf(field, sizeof field, "%.2f", flight->expected_rest_v);
            pare_put_right(out, field, NUMBER);
        }
        pare_text_add(out, record->log ? "  log\n" : "\n");
        if (pare_text_any(&hovered)) {
            pare_put_spaces(out, 4);
            pare_put_rest(screen, out, 4, 4, &hovered);
        } else if (record->log && isfinite(flight->log_output))
            pare_text_printf(out, "    its log: %.0f %% output\n", 100 * flight->log_output);
        put_off(flight, screen, out, all->bound);
        put_log(flight, screen, out, all->bound);
    }
    if (all->logs)
        sentence(screen, out,
                 "log: its charge and output as the log has them, of what was flown as it says; of "
                 "the charge, less what its sensor is off by.");
}

static void how_well(const pare_learned_all *all, const pare_screen *screen, pare_text *out)
{
    char line[240];
    if (all->degrees == 0)
        return;
    pare_text_add(out, "\n");
    snprintf(line, sizeof line,
             "Chi-square %.1f for %zu readings, where about as many are expected.", all->chi2,
             all->degrees);
    sentence(screen, out, line);
    if (isfinite(all->left_out_rms)) {
        snprintf(line, sizeof line,
                 "Each flight foretold by all others: its charge is off by %.0f %%.",
                 100 * all->left_out_rms);
        sentence(screen, out, line);
    }
}

static void put_minutes(const pare_learned_all *all, const pare_screen *screen, pare_text *out)
{
    char before[PARE_DIGITS], after[PARE_DIGITS], line[200];
    if (!isfinite(all->flown_s))
        return;
    snprintf(line, sizeof line, "Your minutes: %s thought, %s learned.",
             pare_digits_u(before, screen, all->flown_s / 60, all->flown_u_s / 60),
             pare_digits_u(after, screen, all->learned_s / 60, all->learned_u_s / 60));
    sentence(screen, out, line);
}

/* What a pilot, or a log, will see of a hover: nine times in ten. */
static void foretell(const pare_sheet *sheet, pare_hover_score score, const pare_screen *screen,
                     pare_text *out)
{
    const pare_sheet_figure *current = &sheet->figure[PARE_HOVER_A];
    char from[PARE_DIGITS], to[PARE_DIGITS], line[200];
    double low, high;
    pare_error why;
    if (!current->exists || pare_hover_between(sheet, &low, &high, &why) != PARE_OK)
        return;
    const double current_u = NINE_IN_TEN * current->u;
    snprintf(line, sizeof line,
             "Half a pack down it will hover at %.0f to %.0f %% output and %s to %s A, nine times "
             "in ten.",
             100 * low, 100 * high, pare_digits_at(from, fmax(current->value - current_u, 0), 1),
             pare_digits_at(to, current->value + current_u, 1));
    sentence(screen, out, line);
    if (score.made == 0)
        return;
    snprintf(line, sizeof line,
             "%zu promise%s of hover output over all craft, %zu held; nine of ten should.",
             score.made, score.made == 1 ? "" : "s", score.held);
    sentence(screen, out, line);
}

/* "; propeller thrust +- 7 to 5 %" */
static void put_shrinks(const pare_learned_test *test, const pare_screen *screen, pare_text *line)
{
    char name[96];
    if (!(test->to_u < WORTH_IT * test->from_u))
        return;
    pare_text_printf(line, "; %s", test->shrinks);
    if (test->pack)
        pare_text_printf(line, " of %s", pack_name(test->pack, name));
    pare_text_printf(line, " %s %.2g to %.2g %%", pare_screen_plus_minus(screen),
                     100 * test->from_u, 100 * test->to_u);
}

static void next(const pare_learned_all *all, const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_text heading = {0};
    if (!isfinite(all->flown_s) || !all->test[0].what)
        return;
    pare_text_add(out, "\n");
    pare_text_printf(
        &heading, "What to fly next, and how well your minutes are known then; now %s %s min",
        screen->utf8 ? "\u00b1" : "+-", pare_digits_at(text, all->learned_u_s / 60, 2));
    pare_put_heading(screen, out, pare_text_all(&heading));
    out->failed |= heading.failed;
    pare_text_free(&heading);
    if (!(all->test[0].flown_u_s < WORTH_IT * all->learned_u_s))
        sentence(screen, out,
                 "None of them makes them much surer; what each tells of stands behind it.");
    for (int t = 0; t < PARE_LEARNED_TESTS; t++) {
        if (!isfinite(all->test[t].flown_u_s))
            continue;
        pare_text line = {0};
        pare_text_printf(&line, "%s %s min  %s", pare_screen_plus_minus(screen),
                         pare_digits_at(text, all->test[t].flown_u_s / 60, 2), all->test[t].what);
        put_shrinks(&all->test[t], screen, &line);
        pare_put_spaces(out, 2);
        pare_put_rest(screen, out, 14, 14, &line);
    }
}

void pare_learned_text(const pare_craft *craft, const pare_learned_all *learned,
                       const pare_sheet *sheet, pare_hover_score score, const pare_screen *screen,
                       pare_text *out)
{
    char line[160];
    if (learned->flights == 0)
        snprintf(line, sizeof line, "%s: no flights yet", craft->name);
    else
        snprintf(line, sizeof line, "%s: %zu flight%s, %s to %s", craft->name, learned->flights,
                 learned->flights == 1 ? "" : "s", learned->flight[0].record->date,
                 learned->flight[learned->flights - 1].record->date);
    pare_put_heading(screen, out, line);
    put_minutes(learned, screen, out);
    foretell(sheet, score, screen, out);
    if (learned->used > 0) {
        pare_text_add(out, "\n");
        factors(learned, screen, out);
        packs(learned, screen, out);
        resistances(learned, screen, out);
    }
    if (learned->flights > 0)
        flights(learned, screen, out);
    how_well(learned, screen, out);
    next(learned, screen, out);
    sentence(screen, out,
             "Fly tests where nobody is under or near them, within sight and by local rules.");
}
