/* propeller_file.c: see propeller_file.h.
 *
 * A file is read into rows of numbers with their lines, checked as the part's reader would, so that
 * the message names the file, and put into the part by its keys, as pare parts change does: history,
 * craft that fly it and the way back are the same. */
#include "store/propeller_file.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/units.h"
#include "craft/part.h"
#include "craft/tunnel_table.h"
#include "store/by_key.h"
#include "store/disk.h"

enum { FILE_MOST = 1 << 20, WORDS = 4, WORD = 32, ROWS_MOST = PARE_TUNNEL_ROWS };

#define RPM (3.14159265358979323846 / 30)
#define ETA_SHARE                                                                                  \
    0.03 /* by which a printed efficiency may differ from J CT/CP: three digits each */
#define SMALL_ETA       0.1
#define BLADE_LEAST_END 0.9 /* a blade measured short of its tip says too little */

/* ---- lines ---- */

typedef struct line {
    size_t count; /* words, WORDS + 1: more */
    char word[WORDS][WORD];
    int column[WORDS]; /* from 1 */
} line;

/* The next line's words. @return behind it; NULL at the end */
static const char *next_line(const char *at, line *l)
{
    if (!*at)
        return NULL;
    const char *end = at + strcspn(at, "\n");
    *l = (line){0};
    for (const char *c = at; c < end;) {
        const size_t blanks = strspn(c, " \t\r");
        c += blanks;
        const size_t length = strcspn(c, " \t\r\n");
        if (c >= end || length == 0)
            break;
        if (l->count < WORDS) {
            const size_t kept = length < WORD - 1 ? length : WORD - 1;
            memcpy(l->word[l->count], c, kept);
            l->word[l->count][kept] = '\0';
            l->column[l->count] = (int)(c - at) + 1;
        }
        l->count += l->count <= WORDS;
        c += length;
    }
    return *end ? end + 1 : end;
}

static bool is_word(const char *word, const char *small)
{
    for (; *word && *small; word++, small++) {
        const char c = *word;
        if ((c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c) != *small)
            return false;
    }
    return *word == *small;
}

static bool is_head(const line *l, size_t count, const char *const names[])
{
    bool is = l->count == count;
    for (size_t i = 0; i < count && is; i++)
        is = is_word(l->word[i], names[i]);
    return is;
}

static pare_propeller_file kind_of(const line *l)
{
    static const char *const blade[] = {"r/r", "c/r", "beta"}, *const rest[] = {"rpm", "ct", "cp"},
                             *const running[] = {"j", "ct", "cp", "eta"};
    return is_head(l, 3, blade)     ? PARE_PROPELLER_BLADE
           : is_head(l, 3, rest)    ? PARE_PROPELLER_AT_REST
           : is_head(l, 4, running) ? PARE_PROPELLER_RUNNING
           : is_head(l, 3, running) ? PARE_PROPELLER_RUNNING
                                    : PARE_PROPELLER_NONE;
}

static const char *after_mark(const char *text)
{
    return text + (strncmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0);
}

pare_propeller_file pare_propeller_file_of(const char *text)
{
    line l;
    for (const char *at = after_mark(text); (at = next_line(at, &l)) != NULL;)
        if (l.count && l.word[0][0] != '#')
            return kind_of(&l);
    return PARE_PROPELLER_NONE;
}

/* ---- one file ---- */

/* Rows of all files so far. */
typedef struct reading {
    pare_arena *arena;
    pare_units *units;
    const pare_propeller_import *import;
    pare_propeller_summary *summary;
    double diameter_m;
    size_t stations;
    double station[PARE_PROP_STATIONS][3]; /* r/R, c/R, degrees */
    bool blade;                            /* one of the files has it */
    size_t points;
    pare_tunnel_row point[ROWS_MOST];
} reading;

/* "line_9x6_ab0991_4003.txt": 4003, after the last '_'. */
static pare_status speed_of(const reading *r, const char *path, double *speed_rad_s,
                            pare_error *err)
{
    if (r->import->speed) {
        if (pare_quantity(r->units, r->import->speed, PARE_DIM_ROTATION, speed_rad_s, err) !=
            PARE_OK)
            return pare_within(err, "--set speed");
        return PARE_OK;
    }
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path;
    const char *bar = strrchr(name, '_');
    const size_t digits = bar ? strspn(bar + 1, "0123456789") : 0;
    const double rpm = digits ? strtod(bar + 1, NULL) : 0;
    if (!(rpm >= 100 && rpm <= 1e5) || (bar[1 + digits] && bar[1 + digits] != '.'))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: at which rpm did it run? right would be a name like "
                         "prop_9x6_4000.txt, or --set speed=4000rpm",
                         path);
    *speed_rad_s = rpm * RPM;
    return PARE_OK;
}

static pare_status read_numbers(const reading *r, const line *l, const char *path, int number,
                                size_t least, size_t most, double value[WORDS], pare_error *err)
{
    if (l->count < least || l->count > most)
        return pare_fail(err, PARE_BAD_DATA, "%s:%d: %zu%s numbers; right would be %zu", path,
                         number, l->count > WORDS ? (size_t)WORDS : l->count,
                         l->count > WORDS ? " and more" : "", most);
    for (size_t i = 0; i < l->count; i++)
        if (pare_quantity(r->units, l->word[i], PARE_DIM_NUMBER, &value[i], err) != PARE_OK)
            return pare_within(err, "%s:%d:%d", path, number, l->column[i]);
    return PARE_OK;
}

static pare_status take_station(reading *r, const double value[WORDS], pare_error *err)
{
    if (r->stations == PARE_PROP_STATIONS)
        return pare_fail(err, PARE_BAD_DATA, "more than %d blade stations; right would be fewer",
                         PARE_PROP_STATIONS);
    const bool rises = r->stations == 0 || value[0] > r->station[r->stations - 1][0];
    if (!(value[0] >= 0 && value[0] <= 1) || !rises)
        return pare_fail(err, PARE_BAD_DATA, "r/R of %.4g; right would rise within 0 to 1",
                         value[0]);
    if (!(value[1] > 0 && value[1] <= 1))
        return pare_fail(err, PARE_BAD_DATA, "c/R of %.4g; right would be above 0, to 1", value[1]);
    if (!(fabs(value[2]) <= 90))
        return pare_fail(err, PARE_BAD_DATA, "beta of %.4g; right would be -90 to 90 degrees",
                         value[2]);
    memcpy(r->station[r->stations++], value, sizeof r->station[0]);
    return PARE_OK;
}

/* An efficiency that does not follow from the others: the columns are mixed up. */
static pare_status check_eta(const double value[WORDS], pare_error *err)
{
    const double eta = value[2] > 0 ? value[0] * value[1] / value[2] : 0;
    if (value[3] < SMALL_ETA || eta < SMALL_ETA || fabs(eta - value[3]) <= ETA_SHARE)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "eta of %.4g, but J CT/CP is %.4g; right would be the same: columns J CT CP "
                     "eta",
                     value[3], eta);
}

static pare_status take_point(reading *r, pare_propeller_file kind, double speed_rad_s,
                              const line *l, const double value[WORDS], pare_error *err)
{
    if (r->points == ROWS_MOST)
        return pare_fail(err, PARE_BAD_DATA,
                         "more than %d points of a tunnel; right would be fewer", ROWS_MOST);
    const bool rest = kind == PARE_PROPELLER_AT_REST;
    pare_tunnel_row *point = &r->point[r->points];
    *point = rest ? (pare_tunnel_row){0, value[0] * RPM, value[1], value[2]}
                  : (pare_tunnel_row){value[0], speed_rad_s, value[1], value[2]};
    /* Beside a point as propellers have at rest: the whole is checked once all are there. */
    pare_tunnel_row pair[2] = {*point, {0, point->speed_rad_s, 0.1, 0.1}};
    size_t rows = 0, bad = 0;
    pare_status status = pare_tunnel_check(2, pair, r->diameter_m, &rows, &bad, err);
    if (status == PARE_OK && !rest && l->count == WORDS)
        status = check_eta(value, err);
    r->points += status == PARE_OK;
    return status;
}

static pare_status read_file(reading *r, size_t which, pare_error *err)
{
    const char *path = r->import->path[which], *text = NULL;
    size_t length = 0;
    line l;
    pare_status status = pare_disk_read(path, FILE_MOST, r->arena, &text, &length, err);
    if (status != PARE_OK)
        return status;
    const pare_propeller_file kind = pare_propeller_file_of(text);
    double speed_rad_s = 0;
    if (kind == PARE_PROPELLER_NONE)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: no table of a propeller; right would be columns r/R c/R beta, or RPM "
                         "CT CP, or J CT CP eta",
                         path);
    if (kind == PARE_PROPELLER_RUNNING)
        status = speed_of(r, path, &speed_rad_s, err);
    if (kind == PARE_PROPELLER_BLADE && r->blade)
        status = pare_fail(err, PARE_BAD_DATA, "%s: a second blade; right would be one", path);
    bool head = true;
    size_t rows = 0;
    int number = 0;
    for (const char *at = after_mark(text); status == PARE_OK && (at = next_line(at, &l));) {
        double value[WORDS] = {0};
        number++;
        if (l.count == 0 || l.word[0][0] == '#')
            continue;
        if (head) {
            head = false;
            continue;
        }
        rows++;
        const bool running = kind == PARE_PROPELLER_RUNNING;
        status = read_numbers(r, &l, path, number, 3, running ? 4 : 3, value, err);
        if (status != PARE_OK)
            return status;
        status = kind == PARE_PROPELLER_BLADE ? take_station(r, value, err)
                                              : take_point(r, kind, speed_rad_s, &l, value, err);
        if (status != PARE_OK)
            return pare_within(err, "%s:%d", path, number);
    }
    if (status == PARE_OK && rows < 2)
        status = pare_fail(err, PARE_BAD_DATA, "%s: %zu row%s; right would be two or more", path,
                           rows, rows == 1 ? "" : "s");
    if (status == PARE_OK && kind == PARE_PROPELLER_BLADE &&
        r->station[r->stations - 1][0] < BLADE_LEAST_END)
        status = pare_fail(err, PARE_BAD_DATA,
                           "%s: a blade that ends at r/R %.3g; right would be its tip, 1", path,
                           r->station[r->stations - 1][0]);
    r->blade = r->blade || kind == PARE_PROPELLER_BLADE;
    r->summary->file[which].kind = kind;
    r->summary->file[which].rows = rows;
    r->summary->file[which].speed_rad_s = speed_rad_s;
    return status;
}

/* ---- into the part ---- */

typedef struct owned {
    reading *r;
    size_t before; /* points that the part has */
} owned;

/* Its size, and what it has already. */
static pare_status take_part(void *context, const pare_part *part, pare_error *err)
{
    owned *o = context;
    reading *r = o->r;
    if (part->kind != PARE_PROPELLER)
        return pare_fail(err, PARE_BAD_DATA,
                         "'%s' is a part of kind %s; right would be a propeller", part->id,
                         pare_kind_name(part->kind));
    r->diameter_m = part->spec[PARE_SPEC_DIAMETER].value;
    r->summary->stations = part->stations;
    o->before = part->tunnel ? part->tunnel->rows : 0;
    for (size_t i = 0; i < o->before; i++)
        r->point[r->points++] = part->tunnel->row[i];
    return PARE_OK;
}

/* What comes again differs by the last bit at most: rpm were turned into rad/s and back. */
static void drop_again(reading *r, size_t before)
{
    size_t kept = before;
    for (size_t i = before; i < r->points; i++) {
        bool again = false;
        for (size_t k = 0; k < kept && !again; k++)
            again = fabs(r->point[k].speed_rad_s - r->point[i].speed_rad_s) <= 1e-6 &&
                    fabs(r->point[k].advance - r->point[i].advance) <= 1e-9 &&
                    fabs(r->point[k].ct - r->point[i].ct) <= 1e-9 &&
                    fabs(r->point[k].cp - r->point[i].cp) <= 1e-9;
        if (!again)
            r->point[kept++] = r->point[i];
    }
    r->points = kept;
}

static const char *points_word(const reading *r)
{
    pare_text text = {0};
    pare_text_add(&text, "tunnel=[");
    for (size_t i = 0; i < r->points; i++)
        pare_text_printf(&text, "%s[%.9g, %.9g, %.9g, %.9g]", i ? ", " : "", r->point[i].advance,
                         r->point[i].speed_rad_s / RPM, r->point[i].ct, r->point[i].cp);
    pare_text_add(&text, "]");
    const char *word = text.failed ? NULL : pare_arena_copy(r->arena, text.bytes, text.length);
    pare_text_free(&text);
    return word;
}

static const char *blade_word(const reading *r)
{
    pare_text text = {0};
    pare_text_add(&text, "blade=[");
    for (size_t i = 0; i < r->stations; i++)
        pare_text_printf(&text, "%s[%.9g, %.9g, %.9g]", i ? ", " : "", r->station[i][0],
                         r->station[i][1], r->station[i][2]);
    pare_text_add(&text, "]");
    const char *word = text.failed ? NULL : pare_arena_copy(r->arena, text.bytes, text.length);
    pare_text_free(&text);
    return word;
}

static pare_status put(pare_store *store, reading *r, size_t before, pare_error *err)
{
    const char *words[2];
    size_t count = 0;
    pare_edit_summary edited = {0};
    if (r->blade)
        words[count++] = blade_word(r);
    if (r->points > before)
        words[count++] = points_word(r);
    for (size_t i = 0; i < count; i++)
        if (!words[i])
            return pare_no_memory(err);
    if (count == 0 || r->import->dry_run)
        return PARE_OK;
    const pare_status status = pare_store_alter(store, PARE_A_PART, r->import->propeller, count,
                                                words, &r->import->change, r->arena, &edited, err);
    r->summary->changed = edited.changed;
    return status;
}

static pare_status read_all(pare_store *store, reading *r, pare_error *err)
{
    owned o = {r, 0};
    pare_status status = pare_store_each_part(store, 1, &r->import->propeller, take_part, &o, err);
    for (size_t i = 0; i < r->import->files && status == PARE_OK; i++)
        status = read_file(r, i, err);
    if (status != PARE_OK)
        return status;
    drop_again(r, o.before);
    if (r->points > o.before) {
        size_t rows = 0, bad = 0;
        pare_tunnel_row *copy = pare_arena_array(r->arena, r->points, sizeof *copy);
        if (!copy)
            return pare_no_memory(err);
        memcpy(copy, r->point, r->points * sizeof *copy);
        status = pare_tunnel_check(r->points, copy, r->diameter_m, &rows, &bad, err);
        if (status != PARE_OK)
            return pare_within(err, "tunnel of '%.48s'", r->import->propeller);
        memcpy(r->point, copy, rows * sizeof *copy);
        r->points = rows;
    }
    r->summary->points = r->points;
    r->summary->points_added = r->points - o.before;
    if (r->blade)
        r->summary->stations = r->stations;
    return put(store, r, o.before, err);
}

pare_status pare_store_import_propeller(pare_store *store, const pare_propeller_import *import,
                                        pare_arena *arena, pare_propeller_summary *summary,
                                        pare_error *err)
{
    *summary = (pare_propeller_summary){0};
    if (import->files > PARE_PROPELLER_FILES)
        return pare_fail(err, PARE_BAD_DATA, "%zu files; right would be %d at most", import->files,
                         PARE_PROPELLER_FILES);
    reading *r = pare_arena_zeros(arena, sizeof *r);
    pare_units *units = pare_units_open();
    pare_status status = r && units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        r->arena = arena;
        r->units = units;
        r->import = import;
        r->summary = summary;
        status = read_all(store, r, err);
    }
    pare_units_close(units);
    return status;
}
