/* label_show.c: see label_show.h. Ratings are in currents over capacity, as labels have them, and in
 * amperes, as the craft has them: two packs of one item share the current. */
#include "show/label_show.h"

#include <stdio.h>

#include "craft/label.h"
#include "show/digits.h"

void pare_boast_text(const pare_part *part, const pare_screen *screen, pare_text *out)
{
    pare_believable can;
    char text[PARE_DIGITS], line[128];
    if (!pare_pack_believable(part, &can) || !pare_pack_boasts(part, &can))
        return;
    snprintf(line, sizeof line,
             "The %s C on the label of %.40s are more than its cells can give even for a second.",
             pare_digits_limit(text, part->spec[PARE_SPEC_LABEL_RATING].value), part->id);
    pare_put_wrapped(screen, out, 0, 0, line);
}

static void row(const char *words, double rating, double u, double hourly_a,
                const pare_screen *screen, pare_text *out)
{
    enum { WORDS = 38, RATING = 18 };
    char text[PARE_DIGITS], field[64];
    pare_text_add(out, "  ");
    pare_put_left(out, words, WORDS);
    snprintf(field, sizeof field, "%s C",
             u > 0 ? pare_digits_u(text, screen, rating, u) : pare_digits_limit(text, rating));
    pare_put_left(out, field, RATING);
    pare_text_printf(out, "%s A\n",
                     u > 0 ? pare_digits_u(text, screen, rating * hourly_a, u * hourly_a)
                           : pare_digits_limit(text, rating * hourly_a));
}

static void figure_row(const char *words, const pare_sheet_figure *figure, double hourly_a,
                       const pare_screen *screen, pare_text *out)
{
    if (figure->exists)
        row(words, figure->value / hourly_a, figure->u / hourly_a, hourly_a, screen, out);
}

void pare_label_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out)
{
    const int item = pare_craft_doing(&view->craft, PARE_PACK);
    pare_believable can;
    int flights;
    if (item < 0 || !pare_craft_believable(&view->craft, &can, &flights))
        return;
    const pare_part *part = view->craft.item[item].part;
    const double hourly_a =
        view->craft.item[item].count * part->spec[PARE_SPEC_CAPACITY].value / 3600;
    const pare_value *label = &part->spec[PARE_SPEC_LABEL_RATING];
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "Pack: its current against what its cells can give");
    row("a whole pack, to 60 degC", can.whole, can.whole_u, hourly_a, screen, out);
    figure_row("as flown (rms)", &view->sheet.figure[PARE_FLOWN_RMS_A], hourly_a, screen, out);
    row("for a second, to the least volts", can.burst, can.burst_u, hourly_a, screen, out);
    figure_row("full throttle, fresh pack", &view->sheet.figure[PARE_FULL_A], hourly_a, screen,
               out);
    if (label->given)
        row("on its label, which enters nothing", label->value, 0, hourly_a, screen, out);
    if (flights > 0) {
        char line[96];
        snprintf(line, sizeof line, "Of the charge that it holds: as %d flight%s taught.", flights,
                 flights == 1 ? "" : "s");
        pare_put_wrapped(screen, out, 0, 0, line);
    }
    pare_boast_text(part, screen, out);
}

void pare_label_into(json_t *object, const pare_part *part)
{
    pare_believable can;
    if (!pare_pack_believable(part, &can))
        return;
    json_object_set_new(object, "carries_per_h", pare_json_number(can.whole));
    json_object_set_new(object, "carries_per_h_u", pare_json_number(can.whole_u));
    json_object_set_new(object, "burst_per_h", pare_json_number(can.burst));
    json_object_set_new(object, "burst_per_h_u", pare_json_number(can.burst_u));
    json_object_set_new(object, "boasts", json_boolean(pare_pack_boasts(part, &can)));
}
