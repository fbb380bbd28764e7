/* best_front.c: `pare best CRAFT --front WISHES` (see best_front.h).
 *
 * A front that is stopped is what was found so far, and says that there may be more. */
#include "cli/best_front.h"

#include "advise/best_front.h"
#include "cli/long_work.h"
#include "cli/picture.h"
#include "cli/use.h"
#include "show/front_chart.h"
#include "show/json.h"
#include "store/disk.h"

pare_status best_front_check(const options *given, pare_error *err)
{
    pare_front_wish pair[2];
    pare_page_form form;
    const pare_status status = pare_front_pair(given->front, pair, err);
    if (status != PARE_OK)
        return pare_within(err, "--front");
    if ((given->given & OPTION_OUTPUT) == 0)
        return PARE_OK;
    return picture_form(given->output, "picture", &form, err);
}

static pare_status draw(const options *given, const pare_front_chart *chart, pare_text *out,
                        pare_error *err)
{
    pare_page_form form = PARE_PAGE_SVG;
    pare_text page = {0};
    pare_status status = picture_form(given->output, "picture", &form, err);
    if (status == PARE_OK)
        status = pare_front_page(chart, form, &page, err);
    if (status == PARE_OK) {
        long_work_catch();
        status = pare_disk_replace(given->output, page.bytes, page.length, err);
        long_work_release(status);
    }
    if (status == PARE_OK && given->given & OPTION_JSON) {
        json_t *object = pare_front_object(chart);
        json_object_set_new(object, "file", json_string(given->output));
        json_object_set_new(object, "form", json_string(picture_form_name(form)));
        pare_json_write(object, out);
    } else if (status == PARE_OK) {
        pare_text_printf(out, "%s written: ", given->output);
        pare_front_sentence(chart, out);
        pare_text_add(out, "\n");
    }
    pare_text_free(&page);
    return status;
}

pare_status best_front(const options *given, const pare_bench *bench, const pare_craft *craft,
                       const pare_best_ask *ask, pare_arena *arena, pare_text *out, pare_error *err)
{
    pare_front_wish pair[2];
    pare_best_front front;
    const char *loadout = ask->loadout >= 0 ? craft->loadout[ask->loadout].name : NULL;
    const char *title =
        loadout ? pare_arena_printf(arena, "%s, loadout %s", craft->name, loadout) : craft->name;
    if (!title)
        return pare_no_memory(err);
    pare_status status = pare_front_pair(given->front, pair, err);
    if (status == PARE_OK)
        status = pare_best_front_find(bench, craft, ask, pair, arena, &front, err);
    long_work_release(PARE_OK); /* heard, and answered with what there is so far */
    pare_progress_over(given->progress);
    if (status != PARE_OK)
        return status;
    const pare_front_chart chart = {.title = title,
                                    .money = bench->money,
                                    .pair = {pair[0], pair[1]},
                                    .count = front.count,
                                    .point = front.point,
                                    .now = &front.now,
                                    .whole = front.whole,
                                    .words = front.words};
    if (given->given & OPTION_OUTPUT) {
        status = draw(given, &chart, out, err);
    } else if (given->given & OPTION_JSON) {
        pare_json_write(pare_front_object(&chart), out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_front_text(&chart, &screen, out);
    }
    if (status == PARE_OK && front.count == 0 && !front.stopped)
        return PARE_NO;
    return status;
}
