/* shopping_text.c: what to buy and to cut on a screen (see shopping.h). To be read in a shop: how many as
 * they are sold, then what, then how many of it are needed. */
#include "show/shopping.h"

#include <math.h>
#include <stdio.h>

#include "advise/money.h"

enum { COUNT = 13, PRICE = 8 };

const char *pare_screws_words(char text[PARE_SORT_WORDS], pare_fastener standard, double nominal_m,
                              double length_m, pare_screw_material material)
{
    char length[24] = "";
    if (!pare_has_no_length(standard))
        snprintf(length, sizeof length, " x %.4g mm", 1e3 * length_m);
    snprintf(text, PARE_SORT_WORDS, "M%.2g%s %s %ss, %s", 1e3 * nominal_m, length,
             pare_screw_material_words(material), pare_fastener_words(standard),
             pare_fastener_standard(standard));
    return text;
}

const char *pare_sets_words(char text[PARE_SORT_WORDS], const pare_shop_part *row)
{
    const int sold_in = row->part->price.sold_in;
    if (sold_in > 1)
        snprintf(text, PARE_SORT_WORDS, "%d %s of %d", row->sets, row->sets > 1 ? "sets" : "set",
                 sold_in);
    else
        snprintf(text, PARE_SORT_WORDS, "%d", row->sets);
    return text;
}

/* A line: how many, for how much, and what. */
static void put_row(const pare_screen *screen, const char *count, const char *what, double price,
                    pare_text *out)
{
    char text[24] = "?";
    if (isfinite(price))
        snprintf(text, sizeof text, "%.2f", price);
    pare_put_spaces(out, 2);
    pare_put_left(out, count, COUNT);
    pare_put_right(out, text, PRICE);
    pare_put_spaces(out, 2);
    pare_put_wrapped(screen, out, 2 + COUNT + PRICE + 2, 2 + COUNT + PRICE + 2, what);
}

static void put_part(const pare_shop_part *row, const pare_screen *screen, pare_text *out)
{
    char count[PARE_SORT_WORDS];
    pare_text what = {0};
    pare_text_printf(&what, "%s", row->part->id);
    if (row->part->maker)
        pare_text_printf(&what, ", %s", row->part->maker);
    pare_text_printf(&what, ": %d needed", row->needed);
    if (row->spare)
        pare_text_printf(&what, ", %d lie unused", row->spare);
    if (row->coming)
        pare_text_printf(&what, ", %d ordered", row->coming);
    put_row(screen, pare_sets_words(count, row), pare_text_all(&what), row->money, out);
    out->failed |= what.failed;
    pare_text_free(&what);
}

static void put_seller(const pare_shopping *s, const pare_shop_seller *seller,
                       const pare_screen *screen, pare_text *out)
{
    bool any = false;
    for (size_t i = seller->first; i < seller->first + seller->parts; i++)
        any |= s->part[i].sets > 0;
    if (!any)
        return;
    pare_text_printf(out, "From %s\n", seller->name ? seller->name : "wherever it is sold");
    for (size_t i = seller->first; i < seller->first + seller->parts; i++)
        if (s->part[i].sets)
            put_part(&s->part[i], screen, out);
    if (seller->shipping > 0)
        put_row(screen, "", "shipping", seller->shipping, out);
}

static void put_sorts(const pare_shopping *s, const pare_screen *screen, pare_text *out)
{
    char count[PARE_SORT_WORDS], sort[PARE_SORT_WORDS], what[PARE_SORT_WORDS + 40];
    bool any = false;
    for (size_t i = 0; i < s->screws; i++)
        any |= s->screw[i].bags > 0;
    for (size_t i = 0; i < s->wires; i++)
        any |= s->wire[i].metres > 0;
    if (!any)
        return;
    pare_text_add(out, "Screws and wire, at usual prices\n");
    for (size_t i = 0; i < s->screws; i++) {
        const pare_shop_screws *row = &s->screw[i];
        if (row->bags == 0)
            continue;
        snprintf(count, sizeof count, "%d %s of %d", row->bags, row->bags > 1 ? "bags" : "bag",
                 PARE_SCREWS_IN_A_BAG);
        snprintf(
            what, sizeof what, "%s: %d needed",
            pare_screws_words(sort, row->standard, row->nominal_m, row->length_m, row->material),
            row->needed);
        put_row(screen, count, what, row->money, out);
    }
    for (size_t i = 0; i < s->wires; i++) {
        const pare_shop_wire *row = &s->wire[i];
        if (row->metres == 0)
            continue;
        snprintf(count, sizeof count, "%d m", row->metres);
        snprintf(what, sizeof what, "wire of %.3g AWG: %.2f m needed", row->gauge, row->needed_m);
        put_row(screen, count, what, row->money, out);
    }
}

/* What is had already, or comes: one line each. */
static void put_had(const pare_shopping *s, const pare_screen *screen, pare_text *out)
{
    char sort[PARE_SORT_WORDS];
    pare_text spare = {0}, coming = {0};
    for (size_t i = 0; i < s->parts; i++) {
        const pare_shop_part *row = &s->part[i];
        if (row->sets == 0 && row->spare)
            pare_text_printf(&spare, "%s%d %s", spare.length ? ", " : "", row->spare,
                             row->part->id);
        if (row->sets == 0 && row->coming)
            pare_text_printf(&coming, "%s%d %s", coming.length ? ", " : "", row->coming,
                             row->part->id);
    }
    for (size_t i = 0; i < s->screws; i++)
        if (s->screw[i].bags == 0)
            pare_text_printf(&coming, "%s%d %s", coming.length ? ", " : "", s->screw[i].coming,
                             pare_screws_words(sort, s->screw[i].standard, s->screw[i].nominal_m,
                                               s->screw[i].length_m, s->screw[i].material));
    for (size_t i = 0; i < s->wires; i++)
        if (s->wire[i].metres == 0)
            pare_text_printf(&coming, "%s%.2f m of %.3g AWG", coming.length ? ", " : "",
                             s->wire[i].coming_m, s->wire[i].gauge);
    if (pare_text_any(&spare))
        pare_put_labelled_line(screen, out, "lie unused", &spare);
    if (pare_text_any(&coming))
        pare_put_labelled_line(screen, out, "ordered", &coming);
}

static void put_cut(const pare_cut *cut, const pare_screen *screen, pare_text *out)
{
    char sort[PARE_SORT_WORDS], label[24];
    pare_text line = {0};
    snprintf(label, sizeof label, "  %d x", cut->count);
    if (cut->of == PARE_CUT_WIRE)
        pare_text_printf(&line, "%.4g mm of %.3g AWG, run.%s", 1e3 * cut->length_m, cut->gauge,
                         cut->name);
    else if (cut->of == PARE_CUT_COAX)
        pare_text_printf(&line, "%.4g mm of coax, %s (%s)", 1e3 * cut->length_m, cut->name,
                         cut->part->id);
    else
        pare_text_printf(
            &line, "%s, joint.%s",
            pare_screws_words(sort, cut->standard, cut->nominal_m, cut->length_m, cut->material),
            cut->name);
    if (cut->was_m > 0)
        pare_text_printf(&line, ", out of those of %.4g mm", 1e3 * cut->was_m);
    pare_put_labelled_line(screen, out, label, &line);
}

void pare_shopping_text(const pare_shopping *shopping, const char *money, const pare_screen *screen,
                        pare_text *out)
{
    if (shopping->parts + shopping->screws + shopping->wires) {
        pare_text line = {0};
        if (shopping->money > 0 || !shopping->priced)
            pare_text_printf(&line, "To buy: %.2f%s%s in all", shopping->money,
                             money && *money ? " " : "", money ? money : "");
        else
            pare_text_add(&line, "To buy: nothing");
        if (!shopping->priced)
            pare_text_add(&line, ", and what has no price yet");
        out->failed |= line.failed;
        pare_put_heading(screen, out, pare_text_all(&line));
        pare_text_free(&line);
        for (size_t i = 0; i < shopping->sellers; i++)
            put_seller(shopping, &shopping->seller[i], screen, out);
        put_sorts(shopping, screen, out);
        put_had(shopping, screen, out);
    }
    if (shopping->cuts) {
        pare_put_heading(screen, out, "To cut and to lay out");
        for (size_t i = 0; i < shopping->cuts; i++)
            put_cut(&shopping->cut[i], screen, out);
    }
}
