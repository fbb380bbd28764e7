/* rooms: store craft physics base */
/* yaml.c: what a bench of 100,000 parts costs on its way out as text and in again.
 *
 * The parts come from a list in CSV, whose import is timed too. One line a figure: name, value, unit,
 * and its ratio to the baselines of the same run: libyaml taking the same bytes apart with nothing done
 * about them, and that import. All is time of this process alone, in user and system, the least of
 * several turns: neighbours on the machine do not count, waiting for the disk does not either. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

#include <yaml.h>

#include "store/bench.h"
#include "store/csv_import.h"

enum { PARTS = 100000, ROUNDS = 3 };

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static double largest_mb(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return (double)usage.ru_maxrss / 1024;
}

static bool write_list(const char *path)
{
    FILE *file = fopen(path, "w");
    if (!file)
        return false;
    fputs("id,kind,maker,mass (g),stator,kv,cells,capacity (mAh),diameter (in),pitch (in),blades,"
          "continuous (A),price,owned\n",
          file);
    for (unsigned i = 0; i < PARTS; i++) {
        const unsigned a = i / 4 % 97, b = i / 4 % 13;
        fprintf(file, "p%08x,", i * 2654435761u); /* in no order, as names come */
        if (i % 4 == 0)
            fprintf(file, "motor,Teasel Works,%u.%u,%u x %u mm,%u,,,,,,,%u.50,%u\n", 20 + a % 30,
                    b % 10, 18 + a % 10, 4 + b % 6, 900 + a * 30, 8 + b, a % 9);
        else if (i % 4 == 1)
            fprintf(file, "pack,Dunnock Cells,%u.%u,,,%u,%u,,,,,%u.90,%u\n", 100 + a, b % 10,
                    3 + a % 4, 500 + 50 * (a % 40), 15 + b, a % 5);
        else if (i % 4 == 2)
            fprintf(file, "propeller,Alder Blades,%u.%u,,,,,%u.%u,%u.%u,%u,,0.%02u,%u\n", 2 + a % 6,
                    b % 10, 3 + a % 5, b % 10, 2 + a % 3, b % 10, 2 + a % 3, 10 + b, 4 * (a % 10));
        else
            fprintf(file, "esc 4in1,Kittiwake,%u.%u,,,,,,,,%u,%u.00,%u\n", 7 + a % 9, b % 10,
                    20 + 5 * (a % 9), 30 + b, a % 3);
    }
    return fclose(file) == 0;
}

/* All events, looked at by nobody. @return false where it is not YAML */
static bool take_apart(const pare_text *text)
{
    yaml_parser_t parser;
    bool good = yaml_parser_initialize(&parser) != 0, more = good;
    if (!good)
        return false;
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text->bytes, text->length);
    while (more) {
        yaml_event_t event;
        good = yaml_parser_parse(&parser, &event) != 0;
        more = good && event.type != YAML_STREAM_END_EVENT;
        if (good)
            yaml_event_delete(&event);
    }
    yaml_parser_delete(&parser);
    return good;
}

typedef struct times {
    double list_s, apart_s, out_s, in_s;
} times;

static void keep_least(double *least, double from, double to)
{
    *least = to - from < *least ? to - from : *least;
}

/* A new bench from the list. */
static pare_status take_list(const char *list, const char *bench, pare_store **store, times *best,
                             pare_error *err)
{
    const pare_list_import import = {.path = list, .change = {.what = "import"}};
    pare_list_summary summary;
    pare_arena *arena = pare_arena_open();
    unlink(bench);
    pare_status status = pare_store_open(bench, PARE_STORE_CREATE, store, err);
    const double start = now_s();
    if (status == PARE_OK)
        status = pare_store_import_list(*store, &import, arena, &summary, err);
    keep_least(&best->list_s, start, now_s());
    pare_arena_close(arena);
    return status;
}

/* A new bench from a text. */
static pare_status take_text(const pare_text *text, const char *bench, pare_store **store,
                             times *best, pare_error *err)
{
    const pare_import import = {.bytes = text->bytes, .length = text->length, .name = "exported"};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    unlink(bench);
    pare_status status = pare_store_open(bench, PARE_STORE_CREATE, store, err);
    const double start = now_s();
    if (status == PARE_OK)
        status = pare_store_import_yaml(*store, &import, arena, &summary, err);
    keep_least(&best->in_s, start, now_s());
    pare_arena_close(arena);
    return status;
}

static pare_status once(const char *list, const char *bench, times *best, pare_error *err)
{
    pare_store *from = NULL, *to = NULL;
    pare_text text = {0}, again = {0};
    pare_status status = take_list(list, bench, &from, best, err);
    const double start = now_s();
    if (status == PARE_OK)
        status = pare_store_export_yaml(from, &text, err);
    const double out = now_s();
    const bool good = status == PARE_OK && take_apart(&text);
    keep_least(&best->out_s, start, out);
    keep_least(&best->apart_s, out, now_s());
    pare_store_close(from);
    if (status == PARE_OK)
        status = take_text(&text, bench, &to, best, err);
    if (status == PARE_OK)
        status = pare_store_export_yaml(to, &again, err);
    if (status == PARE_OK &&
        (!good || again.length != text.length || memcmp(again.bytes, text.bytes, text.length) != 0))
        status = pare_fail(err, PARE_BAD_DATA, "what came in is not what went out");
    pare_store_close(to);
    pare_text_free(&text);
    pare_text_free(&again);
    return status;
}

static void say(const char *what, double took_s, const times *best)
{
    printf("%-34s %7.3f s %6.2f of libyaml alone, %5.2f of the list\n", what, took_s,
           took_s / best->apart_s, took_s / best->list_s);
}

int main(void)
{
    char folder[] = "/tmp/pare-speed-XXXXXX";
    pare_text list = {0}, bench = {0};
    pare_error err = {0};
    times best = {1e9, 1e9, 1e9, 1e9};
    if (!mkdtemp(folder))
        return 1;
    pare_text_printf(&list, "%s/list.csv", folder);
    pare_text_printf(&bench, "%s/bench.sqlite", folder);
    pare_status status = list.failed || bench.failed ? pare_no_memory(&err) : PARE_OK;
    if (status == PARE_OK && !write_list(list.bytes))
        status = pare_fail(&err, PARE_UNAVAILABLE, "%s cannot be written", list.bytes);
    for (int round = 0; round < ROUNDS && status == PARE_OK; round++)
        status = once(list.bytes, bench.bytes, &best, &err);
    unlink(list.bytes);
    unlink(bench.bytes);
    rmdir(folder);
    pare_text_free(&list);
    pare_text_free(&bench);
    if (status != PARE_OK) {
        fprintf(stderr, "%s\n", err.text);
        return 1;
    }
    printf("%d parts:\n", PARTS);
    say("  a list in CSV comes in", best.list_s, &best);
    say("  libyaml alone", best.apart_s, &best);
    say("  the bench goes out as text", best.out_s, &best);
    say("  that text comes in", best.in_s, &best);
    say("  both (3 of the list is wanted)", best.out_s + best.in_s, &best);
    printf("  most memory %.0f MB\n", largest_mb());
    return 0;
}
