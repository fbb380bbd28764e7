/* crash.c: what a crash asks of a craft, and what being lighter costs (see crash.h).
 *
 * Ratios come first, because they are known; joules and newtons stand beside them because a builder asks.
 * The force is a mean over a guessed distance and says so once. */
#include "show/crash.h"

#include <math.h>
#include <stdio.h>

#include "craft/flight.h"
#include "craft/holding.h"
#include "show/digits.h"
#include "show/json.h"

#define LITTLE_OUTPUT 0.15 /* in hover; common practice, no source */
#define MUCH_IDLE     0.30 /* of the weight; estimate */

/* A ratio with its uncertainty, at two places at most: more would be a promise. */
static const char *ratio(char text[PARE_DIGITS], const pare_screen *screen, const pare_ratio *r)
{
    if (!isfinite(r->value))
        return "-";
    return pare_digits_u(text, screen, r->value, fmax(r->u, 0.01));
}

static const char *against(const pare_sheet_view *view)
{
    return view->against_first ? "without what was fitted" : "without the trial";
}

static void arm_words(const pare_crash_facts *crash, const pare_screen *screen, pare_text *line)
{
    char text[PARE_DIGITS], other[PARE_DIGITS];
    if (!crash->plates || !isfinite(crash->arm_same_m) || crash->arm_same_m == crash->arm_then_m)
        return;
    pare_text_printf(line, "of the arms before, %s mm would do for ",
                     pare_digits_u(text, screen, 1e3 * crash->arm_same_m,
                                   fmax(1e3 * crash->arm_same_u_m, 0.01)));
    pare_text_printf(line, "%s mm", pare_digits_limit(other, 1e3 * crash->arm_then_m));
    if (fabs(crash->arm_spare_kg) >= 5e-5)
        pare_text_printf(line, ", %s g %s",
                         pare_digits_at(text, 1e3 * fabs(crash->arm_spare_kg), 1),
                         crash->arm_spare_kg > 0 ? "lighter" : "heavier");
}

static bool turns_alike(const pare_crash_facts *crash)
{
    return !isfinite(crash->roll.value) ||
           (fabs(crash->roll.value - 1) < 0.005 && fabs(crash->pitch.value - 1) < 0.005 &&
            fabs(crash->yaw.value - 1) < 0.005);
}

static void gain_words(const pare_crash_facts *crash, pare_text *line)
{
    char text[PARE_DIGITS];
    if (turns_alike(crash)) {
        pare_text_add(line, "as before: the same output turns it as fast");
        return;
    }
    const struct {
        const char *name;
        const pare_ratio *r;
    } axes[] = {{"roll", &crash->roll}, {"pitch", &crash->pitch}, {"yaw", &crash->yaw}};
    for (size_t i = 0; i < 3; i++)
        pare_text_printf(line, "%s%s %s", i ? ", " : "", axes[i].name,
                         pare_digits_at(text, 1 / axes[i].r->value, 2));
    pare_text_add(line, " times those before for the same feel, since the same output turns it "
                        "otherwise; check them in short flights");
}

void pare_crash_lines(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_crash_facts *crash = &view->crash;
    char text[PARE_DIGITS];
    if (!crash->against)
        return;
    pare_text line = {0};
    const pare_crash *stated = &crash->at[PARE_CRASH_STATED];
    pare_text_printf(&line, "%s times the energy", ratio(text, screen, &stated->energy));
    if (isfinite(stated->arm.value))
        pare_text_printf(&line, ", arms bear %s times as much of it",
                         ratio(text, screen, &stated->arm));
    if (crash->joints)
        pare_text_printf(&line, ", the least of its screws (%s) %s", crash->joint[0].name,
                         ratio(text, screen, &crash->joint[0].bears));
    pare_text arm = {0};
    arm_words(crash, screen, &arm);
    if (arm.length)
        pare_text_printf(&line, "; %s", arm.bytes);
    line.failed |= arm.failed;
    pare_text_free(&arm);
    pare_put_labelled_line(screen, out, "same crash", &line);
    gain_words(crash, &line);
    pare_put_labelled_line(screen, out, "gains", &line);
}

/* ---- behind the first screen ---- */

enum { STATE = 22, SPEED = 11, ENERGY = 9, DROP = 9, FORCE = 10, RATIO = 16 };

static void rows(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    static const char *const words[PARE_CRASHES] = {[PARE_CRASH_STATED] = "as the brief says",
                                                    [PARE_CRASH_CRUISE] = "in cruise",
                                                    [PARE_CRASH_TOP] = "at top speed"};
    const pare_crash_facts *crash = &view->crash;
    char text[PARE_DIGITS], field[64];
    pare_text_add(out, "  ");
    pare_put_left(out, "", STATE);
    pare_put_right(out, "speed", SPEED);
    pare_put_right(out, "energy", ENERGY);
    pare_put_right(out, "a drop", DROP);
    pare_put_right(out, "force", FORCE);
    if (crash->against)
        pare_put_right(out, "arms bear", RATIO);
    pare_text_add(out, "\n");
    for (int at = 0; at < PARE_CRASHES; at++) {
        const pare_crash *c = &crash->at[at];
        if (!isfinite(c->speed_m_s))
            continue;
        const double top_u = view->sheet.figure[PARE_TOP_SPEED].u / c->speed_m_s;
        const double share_u = at == PARE_CRASH_TOP ? top_u : 0;
        pare_text_add(out, "  ");
        pare_put_left(out, words[at], STATE);
        snprintf(field, sizeof field, "%s m/s",
                 share_u > 0 ? pare_digits(text, c->speed_m_s, share_u * c->speed_m_s)
                             : pare_digits_limit(text, c->speed_m_s));
        pare_put_right(out, field, SPEED);
        snprintf(field, sizeof field, "%s J",
                 pare_digits(text, c->energy_j, 2 * share_u * c->energy_j));
        pare_put_right(out, field, ENERGY);
        snprintf(field, sizeof field, "%s m",
                 pare_digits(text, c->drop_m, 2 * share_u * c->drop_m));
        pare_put_right(out, field, DROP);
        snprintf(field, sizeof field, "%s N", pare_digits(text, c->force_n, 0.1 * c->force_n));
        pare_put_right(out, field, FORCE);
        if (crash->against)
            pare_put_right(out, ratio(text, screen, &c->arm), RATIO);
        pare_text_add(out, "\n");
    }
}

static void pack_words(const pare_crash_held *held, bool compared, pare_text *line)
{
    if (held->kind != PARE_PACK)
        return;
    pare_text_printf(line, " on %d strap%s%s", held->ways, held->ways == 1 ? "" : "s",
                     held->pad ? " and a pad" : ", no pad");
    if (compared && held->pad != held->pad_then)
        pare_text_printf(line, " (before %s)", held->pad_then ? "with one" : "without");
}

static void held(const pare_sheet_view *view, const pare_screen *screen, pare_text *line)
{
    const pare_crash_facts *crash = &view->crash;
    char text[PARE_DIGITS];
    for (size_t i = 0; i < crash->held; i++) {
        const pare_crash_held *h = &crash->hold[i];
        pare_text_printf(line, "%s%s pulls with %s N", i ? "; " : "", h->name,
                         pare_digits(text, h->pulls_n, 0.1 * h->pulls_n));
        pack_words(h, crash->against, line);
        if (isfinite(h->bears.value) && (h->bears.value != 1 || h->bears.u > 0))
            pare_text_printf(line, ", held %s times as well as before",
                             ratio(text, screen, &h->bears));
    }
    if (crash->held)
        pare_text_add(line, ". ");
}

static void joints(const pare_sheet_view *view, const pare_screen *screen, pare_text *line)
{
    const pare_crash_facts *crash = &view->crash;
    char text[PARE_DIGITS];
    for (size_t i = 0; i < crash->joints; i++)
        pare_text_printf(line, "%s%s %s",
                         i ? ", " : "Screws bear, times before: ", crash->joint[i].name,
                         ratio(text, screen, &crash->joint[i].bears));
    if (crash->joints)
        pare_text_add(line, ". ");
}

static void money(const pare_sheet_view *view, pare_text *line)
{
    const pare_crash_facts *crash = &view->crash;
    char text[PARE_DIGITS];
    if (!isfinite(crash->propellers))
        return;
    pare_text_printf(line, "In money a crash costs about %s (%d propellers)",
                     pare_digits_at(text, crash->propellers, 2), PARE_CRASH_PROPELLERS);
    if (isfinite(crash->frame))
        pare_text_printf(line, ", or %s where an arm breaks and the frame is bought whole",
                         pare_digits_at(text, crash->propellers + crash->frame, 2));
    pare_text_add(line, ": an estimate, from the stated prices. ");
}

/* Where there is nothing to compare with: what the limit's mass would let the arms be. */
static void at_limit(const pare_sheet_view *view, pare_text *line)
{
    char text[PARE_DIGITS], other[PARE_DIGITS];
    const double arm_m = pare_crash_arm_at_m(&view->craft, &view->sheet, view->limit_kg);
    if (view->crash.against || !isfinite(arm_m))
        return;
    pare_text_printf(line, "At the limit of %s g, arms of %s mm would bear what these do now. ",
                     pare_digits_limit(text, 1e3 * view->limit_kg),
                     pare_digits_at(other, 1e3 * arm_m, 1));
}

void pare_crash_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    char head[96];
    pare_text line = {0};
    snprintf(head, sizeof head, "A crash%s%s", view->crash.against ? ", against the craft " : "",
             view->crash.against ? against(view) : "");
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, head);
    rows(view, screen, out);
    joints(view, screen, &line);
    held(view, screen, &line);
    if (view->crash.against) {
        pare_text arm = {0};
        arm_words(&view->crash, screen, &arm);
        if (arm.length)
            pare_text_printf(&line, "At this mass, %s. ", arm.bytes);
        line.failed |= arm.failed;
        pare_text_free(&arm);
    }
    at_limit(view, &line);
    money(view, &line);
    pare_text_printf(&line,
                     "Forces are means over %.0f mm of stopping, a guess that cancels in ratios.",
                     1e3 * PARE_STOPPING_M);
    pare_put_line(screen, out, 2, 2, &line);
}

void pare_light_cautions(const pare_sheet *sheet, const pare_screen *screen, pare_text *out)
{
    const pare_sheet_figure *output = &sheet->figure[PARE_HOVER_OUTPUT],
                            *idle = &sheet->figure[PARE_IDLE_TWR];
    char text[PARE_DIGITS];
    pare_text line = {0};
    if (output->exists && output->value < LITTLE_OUTPUT) {
        pare_text_printf(&line,
                         "Hover takes %s %% of output; under 15 %% sticks and controller have "
                         "little room below it: expect it to bob, and lower the throttle curve.",
                         pare_digits(text, 100 * output->value, 100 * output->u));
        pare_put_line(screen, out, 0, 0, &line);
    }
    if (idle->exists && idle->value > MUCH_IDLE) {
        pare_text_printf(&line,
                         "Idling at %.1f %% of output lifts %s of its weight: it %s; a lower idle "
                         "mends that.",
                         100 * PARE_IDLE_OUTPUT, pare_digits(text, idle->value, idle->u),
                         idle->value < 1 ? "sinks slowly" : "does not sink");
        pare_put_line(screen, out, 0, 0, &line);
    }
}

/* ---- JSON ---- */

static void ratio_into(json_t *object, const char *key, const pare_ratio *r)
{
    char u[48];
    snprintf(u, sizeof u, "%s_u", key);
    json_object_set_new(object, key, pare_json_number(r->value));
    json_object_set_new(object, u, pare_json_number(r->u));
}

static json_t *one_crash(const pare_crash *c)
{
    json_t *object = json_object();
    json_object_set_new(object, "speed_m_s", pare_json_number(c->speed_m_s));
    json_object_set_new(object, "energy_j", pare_json_number(c->energy_j));
    json_object_set_new(object, "drop_m", pare_json_number(c->drop_m));
    json_object_set_new(object, "force_n", pare_json_number(c->force_n));
    json_object_set_new(object, "before_speed_m_s", pare_json_number(c->then_m_s));
    json_object_set_new(object, "before_energy_j", pare_json_number(c->then_j));
    ratio_into(object, "energy_ratio", &c->energy);
    ratio_into(object, "arms_bear_ratio", &c->arm);
    return object;
}

static json_t *joints_json(const pare_crash_facts *crash)
{
    json_t *list = json_array();
    for (size_t i = 0; i < crash->joints; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "joint", json_string(crash->joint[i].name));
        ratio_into(one, "bears_ratio", &crash->joint[i].bears);
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *held_json(const pare_crash_facts *crash)
{
    json_t *list = json_array();
    for (size_t i = 0; i < crash->held; i++) {
        const pare_crash_held *h = &crash->hold[i];
        json_t *one = json_object();
        json_object_set_new(one, "item", json_string(h->name));
        json_object_set_new(one, "pulls_n", pare_json_number(h->pulls_n));
        if (h->kind == PARE_PACK) {
            json_object_set_new(one, "straps", json_integer(h->ways));
            json_object_set_new(one, "pad", json_boolean(h->pad));
        }
        ratio_into(one, "held_ratio", &h->bears);
        json_array_append_new(list, one);
    }
    return list;
}

json_t *pare_crash_json(const pare_crash_facts *crash)
{
    json_t *object = json_object(), *gain = json_object();
    for (int at = 0; at < PARE_CRASHES; at++)
        json_object_set_new(object, pare_crash_name((pare_crash_at)at), one_crash(&crash->at[at]));
    json_object_set_new(object, "stopping_mm", pare_json_number(1e3 * PARE_STOPPING_M));
    json_object_set_new(object, "joints", joints_json(crash));
    json_object_set_new(object, "held", held_json(crash));
    json_object_set_new(object, "arm_before_mm", pare_json_number(1e3 * crash->arm_then_m));
    json_object_set_new(object, "arm_same_crash_mm", pare_json_number(1e3 * crash->arm_same_m));
    json_object_set_new(object, "arm_same_crash_mm_u",
                        pare_json_number(crash->plates ? 1e3 * crash->arm_same_u_m : (double)NAN));
    json_object_set_new(object, "arm_spare_g",
                        pare_json_number(crash->plates ? 1e3 * crash->arm_spare_kg : (double)NAN));
    json_object_set_new(object, "propellers_money", pare_json_number(crash->propellers));
    json_object_set_new(object, "frame_money", pare_json_number(crash->frame));
    ratio_into(gain, "roll", &crash->roll);
    ratio_into(gain, "pitch", &crash->pitch);
    ratio_into(gain, "yaw", &crash->yaw);
    json_object_set_new(object, "turns_by_output_ratio", gain);
    return object;
}
