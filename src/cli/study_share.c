/* study_share.c: see study_share.h.
 *
 * Messages are texts. To rank 0: "H MARK" once, "A" with a line "JOB SECONDS ANSWER" for each job that was told,
 * "X STATUS TEXT" when a rank has failed, "B" when it goes. From it: "G" when it has read all, "J" with a line "JOB TOLD" for each job, "E" to end.
 *
 * What a job costs is measured: the mean of its sort's answers, the journal's among them. A sort that nobody
 * has timed yet goes first, one job of it; then the dearest. Cheap jobs go out by the dozen, as many as make a
 * message worth its while, but never more than half a rank's share of what is left. */
#include "cli/study_share.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/arena.h"
#include "base/grow.h"
#include "store/journal.h"

#define MESSAGE_S 0.05 /* of work, that a message should bring */
#define LOOK_S    5e-4 /* between looks for messages while working */
#define WAIT_US   20000
#define NOTHING   ((size_t)-1)

enum { WORKS_TOO = 8, CHUNK = 1000 }; /* rank 0 works where there are so many ranks at most */

/* An answer that the journal has. */
typedef struct known {
    unsigned long long key;
    double seconds;
    char *answer;
} known;

typedef struct sort_of_job {
    size_t jobs, next; /* of its list */
    size_t *job;       /* [jobs] still to be done, in their order */
    size_t timed;
    double seconds; /* of those */
} sort_of_job;

struct study_share {
    pare_ranks *ranks;
    unsigned long long mark;
    study_work work;
    void *context;
    const pare_progress *progress;
    pare_arena *arena;
    bool *idle; /* [ranks] waits for jobs */
    pare_journal *journal;
    size_t knows, room;
    known *know; /* by key once all are read */
    size_t damaged;
    /* of the jobs at hand: */
    const study_jobs *jobs;
    sort_of_job *sort;
    size_t untold, unanswered;
    struct timespec looked;
    bool ended; /* told to */
    pare_status status;
    pare_error err;
};

static double seconds_since(const struct timespec *from)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - from->tv_sec) + 1e-9 * (double)(now.tv_nsec - from->tv_nsec);
}

static bool is_first(const study_share *s)
{
    return s->ranks->of.rank == 0;
}

static void send_to(study_share *s, int to, const char *bytes, size_t length)
{
    if (!s->ranks->of.send(s->ranks->of.context, to, bytes, length) && s->status == PARE_OK)
        s->status = pare_fail(&s->err, PARE_UNAVAILABLE, "rank %d cannot be reached", to);
}

pare_status study_share_open(pare_ranks *ranks, const pare_progress *progress, study_share **share,
                             pare_error *err)
{
    study_share *s = calloc(1, sizeof *s);
    *share = s;
    if (!s)
        return pare_no_memory(err);
    *s = (study_share){.ranks = ranks,
                       .progress = progress,
                       .arena = pare_arena_open(),
                       .idle = calloc((size_t)ranks->of.ranks, sizeof(bool))};
    return s->arena && s->idle ? PARE_OK : pare_no_memory(err);
}

void study_share_ready(study_share *s, unsigned long long mark, study_work work, void *context)
{
    s->mark = mark;
    s->work = work;
    s->context = context;
    for (int to = 1; is_first(s) && to < s->ranks->of.ranks; to++)
        send_to(s, to, "G", 1);
}

/* A rank may wait for rank 0 to take a long answer: all is taken that comes, until each has gone. */
static void dismiss(study_share *s)
{
    int from = 0, here = s->ranks->of.ranks - 1, got = 0;
    const char *bytes = NULL;
    size_t length = 0;
    for (int to = 1; to < s->ranks->of.ranks; to++)
        send_to(s, to, "E", 1);
    while (here > 0 && got >= 0) {
        got = s->ranks->of.take(s->ranks->of.context, WAIT_US, &from, &bytes, &length);
        here -= got > 0 && bytes[0] == 'B';
    }
}

pare_status study_share_close(study_share *s, pare_status status, pare_error *err)
{
    if (!s)
        return status;
    if (is_first(s))
        dismiss(s);
    else
        send_to(s, 0, "B", 1);
    if (s->journal) {
        const pare_status synced = pare_journal_sync(s->journal, status == PARE_OK ? err : NULL);
        status = status == PARE_OK ? synced : status;
    }
    pare_journal_close(s->journal);
    pare_arena_close(s->arena);
    free(s->idle);
    free(s);
    return status;
}

/* ---- the journal ---- */

static pare_status remember(void *context, const char *text, pare_error *err)
{
    study_share *s = context;
    char *end = NULL, *answer = NULL;
    const unsigned long long key = strtoull(text, &end, 16);
    const double seconds = end && *end == ' ' ? strtod(end + 1, &answer) : -1;
    if (!answer || *answer != ' ' || !(seconds >= 0)) {
        s->damaged++;
        return PARE_OK;
    }
    known *grown = pare_grown(s->arena, s->know, s->knows, &s->room, sizeof *grown);
    char *copy = grown ? pare_arena_text(s->arena, answer + 1) : NULL;
    if (!copy)
        return pare_no_memory(err);
    s->know = grown;
    s->know[s->knows++] = (known){key, seconds, copy};
    return PARE_OK;
}

static int by_key(const void *left, const void *right)
{
    const known *a = left, *b = right;
    return (a->key > b->key) - (a->key < b->key);
}

pare_status study_share_journal(study_share *s, const char *path, const char *title,
                                pare_error *err)
{
    size_t damaged = 0;
    const pare_status status =
        pare_journal_open(path, title, remember, s, &s->journal, &damaged, err);
    s->damaged += damaged;
    if (s->knows)
        qsort(s->know, s->knows, sizeof s->know[0], by_key);
    return status;
}

static const known *known_of(const study_share *s, unsigned long long key)
{
    const known wanted = {.key = key};
    return s->knows ? bsearch(&wanted, s->know, s->knows, sizeof wanted, by_key) : NULL;
}

size_t study_share_known(const study_share *s, const study_jobs *jobs)
{
    size_t count = 0;
    for (size_t i = 0; i < jobs->count; i++)
        count += known_of(s, jobs->key[i]) != NULL;
    return count;
}

size_t study_share_damaged(const study_share *s)
{
    return s->damaged;
}

/* ---- which job next ---- */

static double mean_s(const sort_of_job *sort)
{
    return sort->timed ? sort->seconds / (double)sort->timed : HUGE_VAL;
}

/* Of the sorts with jobs left that with the greatest mean; of those that nobody has timed, the one of which least
 * is out. */
static sort_of_job *dearest(study_share *s)
{
    sort_of_job *best = NULL;
    for (size_t i = 0; i < s->jobs->sorts; i++) {
        sort_of_job *sort = &s->sort[i];
        if (sort->next == sort->jobs)
            continue;
        if (!best || mean_s(sort) > mean_s(best) ||
            (mean_s(sort) == mean_s(best) && sort->next < best->next))
            best = sort;
    }
    return best;
}

static size_t take_job(study_share *s, sort_of_job *sort)
{
    s->untold--;
    return sort->job[sort->next++];
}

/* ---- rank 0 ---- */

static pare_status keep(study_share *s, size_t job, double seconds, char *answer)
{
    pare_text line = {0};
    sort_of_job *sort = &s->sort[s->jobs->sort[job]];
    sort->timed++;
    sort->seconds += seconds;
    pare_text_printf(&line, "%016llx %.6f %s", s->jobs->key[job], seconds, answer);
    pare_status status = line.failed ? pare_no_memory(&s->err) : PARE_OK;
    if (status == PARE_OK && s->journal)
        status = pare_journal_add(s->journal, line.bytes, &s->err);
    pare_text_free(&line);
    if (status == PARE_OK)
        status = s->jobs->take(s->jobs->context, job, answer, &s->err);
    s->unanswered--;
    return status;
}

static pare_status bad_message(study_share *s, int from)
{
    return pare_fail(&s->err, PARE_UNAVAILABLE, "rank %d answers what nobody asked", from);
}

/* "A" and its lines. */
static pare_status take_answers(study_share *s, int from, char *text)
{
    pare_status status = PARE_OK;
    for (char *line = strchr(text, '\n'); line && line[1] && status == PARE_OK;) {
        char *begin = line + 1, *end = NULL, *answer = NULL;
        line = strchr(begin, '\n');
        if (line)
            *line = '\0';
        const unsigned long long job = strtoull(begin, &end, 10);
        const double seconds = *end == ' ' ? strtod(end + 1, &answer) : -1;
        if (!answer || *answer != ' ' || !(seconds >= 0) || job >= s->jobs->count)
            return bad_message(s, from);
        status = keep(s, (size_t)job, seconds, answer + 1);
    }
    return status;
}

/* As many as make a message worth its while. */
static void tell_jobs(study_share *s, int to)
{
    pare_text message = {0};
    pare_text_add(&message, "J\n");
    sort_of_job *sort = dearest(s);
    const size_t fair = s->untold / (2 * (size_t)s->ranks->of.ranks) + 1;
    const double worth = MESSAGE_S / mean_s(sort);
    const size_t most = fair < CHUNK ? fair : CHUNK;
    for (size_t i = 0; i < most && (i == 0 || (double)i < worth) && sort->next < sort->jobs; i++) {
        const size_t job = take_job(s, sort);
        pare_text_printf(&message, "%zu ", job);
        s->jobs->tell(s->jobs->context, job, &message);
        pare_text_add(&message, "\n");
    }
    s->idle[to] = false;
    if (message.failed)
        s->status = pare_no_memory(&s->err);
    else
        send_to(s, to, message.bytes, message.length);
    pare_text_free(&message);
}

static pare_status take_message(study_share *s, int from, const char *bytes, size_t length)
{
    char *text = malloc(length + 1);
    if (!text)
        return pare_no_memory(&s->err);
    memcpy(text, bytes, length);
    text[length] = '\0';
    pare_status status = PARE_OK;
    char *end = NULL;
    if (text[0] == 'A') {
        /* Jobs first: the rank works while its answers are put away. */
        s->idle[from] = true;
        if (s->untold > 0)
            tell_jobs(s, from);
        status = s->status == PARE_OK ? take_answers(s, from, text) : s->status;
    } else if (text[0] == 'H') {
        if (strtoull(text + 1, &end, 16) != s->mark)
            status = pare_fail(&s->err, PARE_UNAVAILABLE,
                               "rank %d reads another study, another bench or is another pare "
                               "than rank 0",
                               from);
        s->idle[from] = true;
    } else if (text[0] == 'X') {
        const long said = strtol(text + 1, &end, 10);
        status = pare_fail(&s->err,
                           said > PARE_NO && said <= PARE_UNAVAILABLE ? (pare_status)said
                                                                      : PARE_UNAVAILABLE,
                           "rank %d: %s", from, end + (*end == ' '));
    } else {
        status = bad_message(s, from);
    }
    free(text);
    return status;
}

/* Takes what has come, and gives jobs to who has none. @param wait_us  for the first message */
static void attend(study_share *s, long wait_us)
{
    int from = 0;
    const char *bytes = NULL;
    size_t length = 0;
    pare_ranks_module *of = &s->ranks->of;
    int got = of->ranks > 1 ? of->take(of->context, wait_us, &from, &bytes, &length) : 0;
    while (got > 0 && s->status == PARE_OK) {
        s->status = take_message(s, from, bytes, length);
        got = s->status == PARE_OK ? of->take(of->context, 0, &from, &bytes, &length) : 0;
    }
    if (got < 0 && s->status == PARE_OK)
        s->status = pare_fail(&s->err, PARE_UNAVAILABLE, "the other ranks cannot be heard");
    for (int to = 1; to < of->ranks && s->untold > 0 && s->status == PARE_OK; to++)
        if (s->idle[to])
            tell_jobs(s, to);
    clock_gettime(CLOCK_MONOTONIC, &s->looked);
}

/* Asked by rank 0's own job. */
static bool attend_meanwhile(void *context, const char *doing, size_t done, size_t all)
{
    study_share *s = context;
    (void)doing, (void)done, (void)all;
    if (seconds_since(&s->looked) >= LOOK_S) {
        attend(s, 0);
        if (s->status == PARE_OK)
            s->status = pare_progress_step(s->progress, s->jobs->what,
                                           s->jobs->count - s->unanswered, s->jobs->count, &s->err);
    }
    return s->status == PARE_OK;
}

/* What was told, answered behind it; how long it took. */
static pare_status work_timed(study_share *s, const char *told, const pare_progress *progress,
                              pare_text *answer, double *seconds, pare_error *err)
{
    struct timespec began;
    clock_gettime(CLOCK_MONOTONIC, &began);
    const pare_status status = s->work(s->context, told, progress, answer, err);
    *seconds = seconds_since(&began);
    return status == PARE_OK && answer->failed ? pare_no_memory(err) : status;
}

static void work_one(study_share *s)
{
    const pare_progress progress = {.step = attend_meanwhile, .context = s};
    const size_t job = take_job(s, dearest(s));
    pare_text told = {0}, answer = {0};
    pare_error why = {0};
    double seconds = 0;
    s->jobs->tell(s->jobs->context, job, &told);
    pare_status status = told.failed ? pare_no_memory(&why) : PARE_OK;
    if (status == PARE_OK)
        status = work_timed(s, told.bytes, &progress, &answer, &seconds, &why);
    if (s->status == PARE_OK && status != PARE_OK)
        s->status = pare_fail(&s->err, status, "%s", why.text);
    if (s->status == PARE_OK)
        s->status = keep(s, job, seconds, answer.bytes);
    pare_text_free(&told);
    pare_text_free(&answer);
}

/* Jobs by sort; those that the journal knows are answered at once. */
static pare_status sort_jobs(study_share *s, pare_arena *room, pare_error *err)
{
    const study_jobs *jobs = s->jobs;
    s->sort = pare_arena_array(room, jobs->sorts + 1, sizeof s->sort[0]);
    size_t *all = pare_arena_array(room, jobs->count + 1, sizeof all[0]);
    pare_status status = s->sort && all ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < jobs->count && status == PARE_OK; i++)
        s->sort[jobs->sort[i]].jobs++;
    for (size_t i = 0; i < jobs->sorts && status == PARE_OK; i++) {
        s->sort[i].job = all;
        all += s->sort[i].jobs;
        s->sort[i].jobs = 0;
    }
    s->untold = s->unanswered = 0;
    for (size_t i = 0; i < jobs->count && status == PARE_OK; i++) {
        sort_of_job *sort = &s->sort[jobs->sort[i]];
        const known *has = known_of(s, jobs->key[i]);
        if (has) {
            char *copy = pare_arena_text(room, has->answer);
            sort->timed++;
            sort->seconds += has->seconds;
            status = copy ? jobs->take(jobs->context, i, copy, err) : pare_no_memory(err);
        } else {
            sort->job[sort->jobs++] = i;
            s->untold++;
            s->unanswered++;
        }
    }
    return status;
}

pare_status study_share_do(study_share *s, const study_jobs *jobs, pare_error *err)
{
    pare_arena *room = pare_arena_open();
    s->jobs = jobs;
    s->status = room ? sort_jobs(s, room, &s->err) : pare_no_memory(&s->err);
    const bool works = s->ranks->of.ranks <= WORKS_TOO;
    while (s->unanswered > 0 && s->status == PARE_OK) {
        attend(s, works && s->untold ? 0 : WAIT_US);
        if (works && s->untold && s->status == PARE_OK)
            work_one(s);
        if (s->status == PARE_OK)
            s->status = pare_progress_step(s->progress, jobs->what, jobs->count - s->unanswered,
                                           jobs->count, &s->err);
    }
    s->jobs = NULL;
    s->sort = NULL;
    pare_arena_close(room);
    if (s->status != PARE_OK && err)
        *err = s->err;
    return s->status;
}

/* ---- the other ranks ---- */

/* The next message of rank 0, in `text`; false: none has come. */
static bool hear(study_share *s, long wait_us, pare_text *text)
{
    int from = 0;
    const char *bytes = NULL;
    size_t length = 0;
    const int got = s->ranks->of.take(s->ranks->of.context, wait_us, &from, &bytes, &length);
    text->length = 0;
    if (got > 0)
        pare_text_put(text, bytes, length);
    s->ended = s->ended || got < 0 || text->failed || (got > 0 && bytes[0] == 'E');
    return got > 0;
}

bool study_share_wait(study_share *s)
{
    pare_text text = {0};
    while (!s->ended && !hear(s, WAIT_US, &text))
        ;
    pare_text_free(&text);
    return !s->ended;
}

/* Only an end can come while a rank has jobs. */
static bool told_to_go_on(void *context, const char *doing, size_t done, size_t all)
{
    study_share *s = context;
    pare_text text = {0};
    (void)doing, (void)done, (void)all;
    if (!s->ended && seconds_since(&s->looked) >= LOOK_S) {
        clock_gettime(CLOCK_MONOTONIC, &s->looked);
        (void)hear(s, 0, &text);
        pare_text_free(&text);
    }
    return !s->ended;
}

static void say_failed(study_share *s, pare_status status, const pare_error *err)
{
    pare_text message = {0};
    pare_text_printf(&message, "X%d %s", (int)status, err->text);
    if (!message.failed)
        send_to(s, 0, message.bytes, message.length);
    pare_text_free(&message);
}

/* "J" and its lines. */
static void do_jobs(study_share *s, char *text)
{
    const pare_progress progress = {.step = told_to_go_on, .context = s};
    pare_text message = {0}, answer = {0};
    pare_error why = {0};
    pare_status status = PARE_OK;
    pare_text_add(&message, "A");
    for (char *line = strchr(text, '\n'); line && line[1] && status == PARE_OK && !s->ended;) {
        char *begin = line + 1, *told = NULL;
        double seconds = 0;
        line = strchr(begin, '\n');
        if (line)
            *line = '\0';
        const unsigned long long job = strtoull(begin, &told, 10);
        answer.length = 0;
        status = work_timed(s, told + (*told == ' '), &progress, &answer, &seconds, &why);
        if (status == PARE_OK)
            pare_text_printf(&message, "\n%llu %.6f %s", job, seconds, answer.bytes);
    }
    if (status == PARE_OK && message.failed)
        status = pare_no_memory(&why);
    if (status == PARE_OK && !s->ended)
        send_to(s, 0, message.bytes, message.length);
    else if (!s->ended)
        say_failed(s, status, &why);
    pare_text_free(&message);
    pare_text_free(&answer);
}

void study_share_serve(study_share *s, pare_status failed, const pare_error *err)
{
    pare_text text = {0};
    if (failed != PARE_OK) {
        say_failed(s, failed, err);
    } else {
        pare_text_printf(&text, "H%016llx", s->mark);
        if (text.failed)
            s->ended = true;
        else
            send_to(s, 0, text.bytes, text.length);
    }
    while (!s->ended)
        if (hear(s, WAIT_US, &text) && !s->ended && text.length > 0 && text.bytes[0] == 'J')
            do_jobs(s, text.bytes);
    pare_text_free(&text);
}
