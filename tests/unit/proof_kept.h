/* proof_kept.h: a certificate in memory, written, edited and checked, for the tests of certificates. */
#ifndef PARE_TESTS_PROOF_KEPT_H
#define PARE_TESTS_PROOF_KEPT_H

#include "best_drawn.h"

#include "advise/best.h"
#include "advise/proof.h"

enum { MARK = 0x1234 };

typedef struct certificate {
    size_t lines, room, at;
    char **line;
    bool cut; /* the last line has no end */
} certificate;

static inline bool put_line(void *context, const char *line)
{
    certificate *c = context;
    if (c->lines == c->room) {
        c->room = c->room ? 2 * c->room : 64;
        c->line = realloc(c->line, c->room * sizeof c->line[0]);
    }
    c->line[c->lines] = strdup(line);
    return c->line[c->lines++] != NULL;
}

static inline int get_line(void *context, char line[PARE_PROOF_LINE])
{
    certificate *c = context;
    if (c->at == c->lines)
        return -1;
    if (strlen(c->line[c->at]) >= PARE_PROOF_LINE || (c->cut && c->at + 1 == c->lines))
        return -2;
    return snprintf(line, PARE_PROOF_LINE, "%s", c->line[c->at++]);
}

static inline pare_status mark_of(void *context, const pare_craft *craft, unsigned long long *mark,
                                  pare_error *err)
{
    (void)context;
    (void)craft;
    (void)err;
    *mark = MARK;
    return PARE_OK;
}

static inline void forget(certificate *c)
{
    for (size_t i = 0; i < c->lines; i++)
        free(c->line[i]);
    free(c->line);
    *c = (certificate){0};
}

static inline void copy(const certificate *from, certificate *to)
{
    *to = (certificate){0};
    for (size_t i = 0; i < from->lines; i++)
        assert_true(put_line(to, from->line[i]));
}

static inline pare_proof_told check(const pare_bench *bench, certificate *c)
{
    const pare_proof_source source = {get_line, c, "file"};
    pare_proof_told told;
    pare_error err = {0};
    c->at = 0;
    if (pare_proof_check(bench, &source, mark_of, NULL, NULL, &told, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return told;
}

static inline pare_proof_told write(const pare_bench *bench, const pare_craft *craft,
                                    const pare_proof_claim *claim, certificate *c)
{
    const pare_proof_sink sink = {put_line, c};
    pare_proof_told told;
    pare_error err = {0};
    *c = (certificate){0};
    if (pare_proof_write(bench, craft, claim, NULL, &sink, &told, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return told;
}

static inline pare_proof_claim claim_of(const pare_best_ask *ask, const pare_best *best,
                                        const char *names[PARE_BEST_SWAPS])
{
    for (size_t i = 0; i < best->swaps; i++)
        names[i] = best->swap[i].applied.id;
    return (pare_proof_claim){.bench = MARK,
                              .loadout = ask->loadout,
                              .holds = ask->holds,
                              .nevers = ask->nevers,
                              .musts = ask->musts,
                              .hold = ask->hold,
                              .never = ask->never,
                              .must = ask->must,
                              .found = best->found,
                              .best_100ug = best->best_100ug,
                              .swaps = best->swaps,
                              .swap = names};
}

static inline void replace(certificate *c, size_t at, const char *line)
{
    free(c->line[at]);
    c->line[at] = strdup(line);
}

static inline void drop(certificate *c, size_t at)
{
    free(c->line[at]);
    c->lines--;
    memmove(&c->line[at], &c->line[at + 1], (c->lines - at) * sizeof c->line[0]);
}

static inline void insert(certificate *c, size_t at, const char *line)
{
    assert_true(put_line(c, line));
    char *last = c->line[c->lines - 1];
    memmove(&c->line[at + 1], &c->line[at], (c->lines - 1 - at) * sizeof c->line[0]);
    c->line[at] = last;
}

/* The first line of the head that begins so; the number of lines: none. */
static inline size_t find(const certificate *c, const char *begins)
{
    size_t i = 0;
    while (i < c->lines && strncmp(c->line[i], begins, strlen(begins)) != 0)
        i++;
    return i;
}

#endif
