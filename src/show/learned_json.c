/* learned_json.c: what flights say about a craft, as JSON (see learned.h). */
#include <math.h>
#include <stdio.h>

#include "base/day.h"
#include "craft/charged.h"
#include "craft/figure.h"
#include "show/json.h"
#include "show/learned.h"
#include "show/sheet_json.h"

#define MAH_PER_C (1 / 3.6)

static json_t *factor(const pare_learned_all *all, pare_learned which)
{
    const pare_learned_factor *f = &all->factor[which];
    json_t *one = json_object(), *with = json_object();
    json_object_set_new(one, "name", json_string(pare_learned_name(which)));
    json_object_set_new(one, "factor", pare_json_number(pare_learned_value(which, f->change)));
    json_object_set_new(one, "factor_u",
                        pare_json_number(pare_learned_value_u(which, f->change, f->change_u)));
    json_object_set_new(one, "prior_u", pare_json_number(f->prior_u));
    json_object_set_new(one, "moved_u",
                        pare_json_number(f->prior_u > 0 ? f->change / f->prior_u : 0));
    for (int other = 0; other < pare_learned_count(all->logs); other++)
        if (other != (int)which)
            json_object_set_new(with, pare_learned_name((pare_learned)other),
                                pare_json_number(all->correlation[which][other]));
    json_object_set_new(one, "correlation", with);
    return one;
}

/* What chargers read of it, by date. */
static json_t *charges(const pare_learned_pack *p)
{
    json_t *list = json_array();
    for (size_t i = 0; i < p->pack->chargings; i++) {
        const pare_charged *charged = &p->pack->charged[i];
        if (!charged->date || charged->which != (p->which > 0 ? p->which : 1) ||
            !(charged->group.ohm > 0))
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "date", json_string(charged->date));
        json_object_set_new(one, "cell_mohm", pare_json_number(1e3 * charged->group.ohm));
        json_object_set_new(one, "cell_mohm_u", pare_json_number(1e3 * charged->group.u));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *pack(const pare_learned_pack *p)
{
    char day[16];
    json_t *one = json_object();
    json_object_set_new(one, "pack", json_string(p->pack->id));
    json_object_set_new(one, "which", p->which ? json_integer(p->which) : json_null());
    json_object_set_new(one, "flights", json_integer((json_int_t)p->flights));
    json_object_set_new(one, "stated_mah", pare_json_number(MAH_PER_C * p->stated_c));
    json_object_set_new(one, "holds_mah", pare_json_number(MAH_PER_C * p->holds_c));
    json_object_set_new(one, "holds_mah_u", pare_json_number(MAH_PER_C * p->holds_u_c));
    json_object_set_new(one, "fade_30_days", pare_json_number(p->fade));
    json_object_set_new(one, "fade_30_days_u", pare_json_number(p->fade_u));
    json_object_set_new(one, "first_flight", pare_text_or_null(p->first));
    json_object_set_new(one, "last_flight", pare_text_or_null(p->last));
    json_object_set_new(one, "held_mah", pare_json_number(MAH_PER_C * p->held_c));
    json_object_set_new(one, "held_mah_u", pare_json_number(MAH_PER_C * p->held_u_c));
    json_object_set_new(one, "charged", json_integer((json_int_t)p->charged));
    json_object_set_new(one, "charges", charges(p));
    json_object_set_new(one, "cell_mohm",
                        p->charged ? pare_json_number(1e3 * p->ohm) : json_null());
    json_object_set_new(one, "cell_mohm_u",
                        p->charged ? pare_json_number(1e3 * p->ohm_u) : json_null());
    json_object_set_new(one, "growth_30_days",
                        p->charged > 1 ? pare_json_number(p->growth) : json_null());
    json_object_set_new(one, "growth_30_days_u",
                        p->charged > 1 ? pare_json_number(p->growth_u) : json_null());
    const bool logged = isfinite(p->logged_ohm);
    json_object_set_new(one, "logged_cell_mohm",
                        logged ? pare_json_number(1e3 * p->logged_ohm) : json_null());
    json_object_set_new(one, "logged_cell_mohm_u",
                        logged ? pare_json_number(1e3 * p->logged_ohm_u) : json_null());
    const bool ends = isfinite(p->enough_until) && fabs(p->enough_until) < 1e6;
    json_object_set_new(one, "enough_until",
                        ends ? json_string(pare_day_text((long)p->enough_until, day))
                             : json_null());
    return one;
}

static json_t *flight(const pare_learned_flight *f)
{
    const pare_flight_record *record = f->record;
    json_t *one = json_object();
    json_object_set_new(one, "date", json_string(record->date));
    json_object_set_new(one, "why", pare_text_or_null(f->why));
    json_object_set_new(one, "put_back_mah", pare_json_number(MAH_PER_C * record->put_back_c));
    json_object_set_new(one, "expected_mah",
                        f->expected_c > 0 ? pare_json_number(MAH_PER_C * f->expected_c)
                                          : json_null());
    json_object_set_new(one, "off_charge_u", pare_json_number(f->off_c));
    json_object_set_new(one, "rest_after_v", pare_json_number(record->rest_after_v));
    json_object_set_new(one, "expected_rest_v",
                        f->expected_rest_v > 0 ? pare_json_number(f->expected_rest_v)
                                               : json_null());
    json_object_set_new(one, "off_rest_u", pare_json_number(f->off_rest));
    json_object_set_new(one, "left_out", pare_json_number(f->left_out));
    json_object_set_new(one, "fits", json_boolean(f->fits));
    if (record->output > 0) {
        const bool held = record->output >= record->low && record->output <= record->high;
        json_object_set_new(one, "output", pare_json_number(record->output));
        json_object_set_new(one, "promise_low",
                            record->promised ? pare_json_number(record->low) : json_null());
        json_object_set_new(one, "promise_high",
                            record->promised ? pare_json_number(record->high) : json_null());
        json_object_set_new(one, "held", record->promised ? json_boolean(held) : json_null());
    }
    if (!record->log)
        return one;
    json_object_set_new(one, "logged_mah",
                        f->log_aside ? json_null() : pare_json_number(MAH_PER_C * f->said_c));
    json_object_set_new(one, "logged_output", pare_json_number(f->log_output));
    json_object_set_new(one, "off_log_u", pare_json_number(f->off_log));
    json_object_set_new(one, "log_about", pare_text_or_null(f->log_about));
    json_object_set_new(one, "log_fits", json_boolean(!f->log_aside));
    return one;
}

/* K and K_u, as the sheet has them. */
static void put_figure(json_t *object, pare_figure figure, const pare_sheet *sheet)
{
    const pare_figure_row *row = &pare_figure_table[figure];
    const pare_sheet_figure *f = &sheet->figure[figure];
    char key[64];
    snprintf(key, sizeof key, "%s_u", row->key);
    json_object_set_new(object, row->key,
                        f->exists ? pare_json_number(row->scale * f->value) : json_null());
    json_object_set_new(object, key, f->exists ? pare_json_number(row->scale * f->u) : json_null());
}

json_t *pare_learned_object(const pare_craft *craft, const pare_learned_all *all,
                            const pare_sheet *sheet, pare_hover_score score)
{
    static const pare_figure hover[] = {PARE_HOVER_OUTPUT, PARE_HOVER_A};
    json_t *object = json_object(), *learned = json_array(), *packs = json_array(),
           *flights = json_array(), *next = json_array();
    for (int f = 0; f < pare_learned_count(all->logs); f++)
        json_array_append_new(learned, factor(all, (pare_learned)f));
    for (size_t p = 0; p < all->packs; p++)
        json_array_append_new(packs, pack(&all->pack[p]));
    for (size_t i = 0; i < all->flights; i++)
        json_array_append_new(flights, flight(&all->flight[i]));
    for (int t = 0; t < PARE_LEARNED_TESTS; t++) {
        if (!all->test[t].what || !isfinite(all->test[t].flown_u_s))
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "test", json_string(all->test[t].what));
        json_object_set_new(one, "flown_min_u", pare_json_number(all->test[t].flown_u_s / 60));
        if (all->test[t].shrinks) {
            const pare_learned_pack *pack = all->test[t].pack;
            json_object_set_new(one, "shrinks", json_string(all->test[t].shrinks));
            json_object_set_new(one, "pack", pack ? json_string(pack->pack->id) : json_null());
            json_object_set_new(one, "which",
                                pack && pack->which ? json_integer(pack->which) : json_null());
            json_object_set_new(one, "from_u", pare_json_number(all->test[t].from_u));
            json_object_set_new(one, "to_u", pare_json_number(all->test[t].to_u));
        }
        json_array_append_new(next, one);
    }
    json_object_set_new(object, "craft", json_string(craft->name));
    for (size_t i = 0; i < sizeof hover / sizeof hover[0]; i++)
        put_figure(object, hover[i], sheet);
    json_object_set_new(object, "hover_promises", json_integer((json_int_t)score.made));
    json_object_set_new(object, "hover_promises_held", json_integer((json_int_t)score.held));
    json_object_set_new(object, "flown_min", pare_json_number(all->flown_s / 60));
    json_object_set_new(object, "flown_min_u", pare_json_number(all->flown_u_s / 60));
    json_object_set_new(object, "learned_min", pare_json_number(all->learned_s / 60));
    json_object_set_new(object, "learned_min_u", pare_json_number(all->learned_u_s / 60));
    json_object_set_new(object, "learned", learned);
    json_object_set_new(object, "packs", packs);
    json_object_set_new(object, "flights", flights);
    json_object_set_new(object, "chi2", pare_json_number(all->chi2));
    json_object_set_new(object, "readings", json_integer((json_int_t)all->degrees));
    json_object_set_new(object, "set_aside", json_integer((json_int_t)all->aside));
    json_object_set_new(object, "left_out_rms", pare_json_number(all->left_out_rms));
    json_object_set_new(object, "next", next);
    return object;
}
