/* complete.c: what a command line may go on with (see complete.h).
 *
 * A shell asks `pare complete -- WORD...`, so the scripts know nothing of Pare, and a new command or
 * option is completed as soon as it stands in the table: what may follow is read from the usage. The
 * words before the cursor are matched with each form; where all fit, the next word of the form says
 * what is offered. Swaps come in two steps, first what is changed and then to what, since a craft has
 * a hundred of them.
 *
 * On a bench of very many parts a swap's other parts are not offered: to read them all would make the
 * shell wait. */
#include "cli/complete.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "advise/best_wish.h"
#include "advise/swap.h"
#include "advise/taken.h"
#include "cli/command.h"
#include "cli/usage.h"
#include "cli/use.h"
#include "show/report.h"
#include "store/csv_import.h"
#include "store/members.h"
#include "store/studies.h"

enum { MANY_PARTS = 1000, NAMES = 256 };

typedef struct line {
    const command *of;
    options given;     /* of the words before the cursor */
    bool all_operands; /* "--" came before */
    const char *craft; /* the operand that named one; NULL: none did */
    const char *word;  /* under the cursor */
    size_t kept;       /* bytes of it that candidates are put behind: "--try=bumper=off," */
    pare_text *out;
} line;

static void offer(const line *l, const char *name, const char *end)
{
    const size_t typed = strlen(l->word + l->kept), length = strlen(name);
    if (strpbrk(name, "\n\r") || strncmp(name, l->word + l->kept, typed < length ? typed : length))
        return;
    if (typed > length && strncmp(l->word + l->kept + length, end, typed - length) != 0)
        return;
    pare_text_put(l->out, l->word, l->kept);
    pare_text_printf(l->out, "%s%s\n", name, end);
}

/* ---- what stands on the bench ---- */

typedef struct shelf {
    pare_arena *arena;
    pare_text path;
    pare_store *store;
    pare_bench *bench;
    size_t count;
    const char *const *name;
} shelf;

static bool shelf_open(const line *l, shelf *s)
{
    pare_error none;
    *s = (shelf){.arena = pare_arena_open()};
    return s->arena && bench_path(&l->given, false, &s->path, &none) == PARE_OK &&
           pare_store_open(s->path.bytes, PARE_STORE_READ, &s->store, &none) == PARE_OK;
}

static void shelf_close(shelf *s)
{
    pare_bench_close(s->bench);
    pare_store_close(s->store);
    pare_text_free(&s->path);
    pare_arena_close(s->arena);
}

static void offer_names(const line *l, bool parts, const char *end)
{
    shelf s;
    pare_error none;
    if (shelf_open(l, &s) &&
        (parts ? pare_store_part_ids(s.store, s.arena, &s.count, &s.name, &none)
               : pare_store_craft_names(s.store, s.arena, &s.count, &s.name, &none)) == PARE_OK)
        for (size_t i = 0; i < s.count; i++)
            offer(l, s.name[i], end);
    shelf_close(&s);
}

static void offer_members(const line *l)
{
    shelf s;
    pare_error none;
    pare_member *members = NULL;
    size_t count = 0;
    if (shelf_open(l, &s) &&
        pare_store_members(s.store, s.arena, &count, &members, &none) == PARE_OK)
        for (size_t i = 0; i < count; i++)
            offer(l, members[i].name, "");
    shelf_close(&s);
}

static void offer_studies(const line *l)
{
    shelf s;
    pare_error none;
    if (shelf_open(l, &s) &&
        pare_store_kept_studies(s.store, s.arena, &s.count, &s.name, &none) == PARE_OK)
        for (size_t i = 0; i < s.count; i++)
            offer(l, s.name[i], "");
    shelf_close(&s);
}

static const pare_craft *read_craft(const line *l, shelf *s)
{
    pare_error none;
    if (!l->craft || !shelf_open(l, s) ||
        pare_store_read_craft(s->store, l->craft, &s->bench, &none) != PARE_OK)
        return NULL;
    return pare_bench_craft(s->bench, l->craft);
}

static void offer_loadouts(const line *l)
{
    shelf s = {0};
    const pare_craft *craft = read_craft(l, &s);
    for (size_t i = 0; craft && i < craft->loadouts; i++)
        offer(l, craft->loadout[i].name, "");
    shelf_close(&s);
}

/* CRAFT, or CRAFT:LOADOUT once the colon is there. */
static void offer_craft_and_loadout(const line *l)
{
    char name[128];
    const char *typed = l->word + l->kept;
    const size_t length = strcspn(typed, ":");
    if (!typed[length] || length >= sizeof name) {
        offer_names(l, false, "");
        return;
    }
    memcpy(name, typed, length);
    name[length] = '\0';
    line behind = *l;
    behind.craft = name;
    behind.kept = l->kept + length + 1;
    offer_loadouts(&behind);
}

/* ---- swaps ---- */

/* All parts where they are few enough, otherwise those of the craft. */
static const pare_craft *read_for_swaps(const line *l, shelf *s)
{
    pare_error none;
    if (!l->craft || !shelf_open(l, s) ||
        pare_store_part_ids(s->store, s->arena, &s->count, &s->name, &none) != PARE_OK)
        return NULL;
    if ((s->count > MANY_PARTS ? pare_store_read_craft(s->store, l->craft, &s->bench, &none)
                               : pare_store_read(s->store, &s->bench, &none)) != PARE_OK)
        return NULL;
    const pare_craft *first = pare_bench_craft(s->bench, l->craft);
    pare_craft *built = first ? pare_arena_zeros(s->arena, sizeof *built) : NULL;
    if (!built || pare_taken_as_built(s->bench, first, built, NULL, &none) != PARE_OK)
        return NULL;
    return built;
}

static void offer_swap_lefts(const line *l, size_t count, const char *const name[])
{
    char left[PARE_SWAP_NAME], before[PARE_SWAP_NAME] = "";
    for (size_t i = 0; i < count; i++) {
        const size_t length = strcspn(name[i], "=");
        if (length >= sizeof left)
            continue;
        memcpy(left, name[i], length);
        left[length] = '\0';
        if (strcmp(left, before) != 0)
            offer(l, left, "=");
        strcpy(before, left);
    }
}

static void offer_swaps(line l, bool list)
{
    shelf s = {0};
    pare_error none;
    int loadout;
    const char *comma = list ? strrchr(l.word + l.kept, ',') : NULL;
    if (comma)
        l.kept = (size_t)(comma - l.word) + 1;
    const pare_craft *craft = read_for_swaps(&l, &s);
    if (craft && pare_loadout_named(craft, l.given.loadout, &loadout, &none) == PARE_OK &&
        pare_swap_names(s.bench, craft, loadout, s.arena, &s.count, &s.name, &none) == PARE_OK) {
        if (!strchr(l.word + l.kept, '='))
            offer_swap_lefts(&l, s.count, s.name);
        else
            for (size_t i = 0; i < s.count; i++)
                offer(&l, s.name[i], "");
        /* What was taken may be moved on, whether or not it could be taken now. */
        for (size_t i = 0; l.of == &command_take && i < craft->takens; i++)
            offer(&l, craft->taken[i].swap, "");
    }
    shelf_close(&s);
}

/* ---- files ---- */

/* "~/x" as the shell would read it. */
static void put_expanded(const char *path, size_t length, pare_text *out)
{
    const char *home = getenv("HOME");
    const bool tilde = length > 1 && path[0] == '~' && path[1] == '/' && home;
    if (tilde)
        pare_text_add(out, home);
    pare_text_put(out, path + tilde, length - tilde);
}

static bool is_folder(const char *in, const char *name)
{
    struct stat facts;
    pare_text path = {0};
    pare_text_printf(&path, "%s/%s", in, name);
    const bool folder = !path.failed && stat(path.bytes, &facts) == 0 && S_ISDIR(facts.st_mode);
    pare_text_free(&path);
    return folder;
}

static void offer_files(line l)
{
    const char *typed = l.word + l.kept, *slash = strrchr(typed, '/');
    pare_text in = {0};
    if (slash)
        put_expanded(typed, (size_t)(slash - typed) + 1, &in);
    else
        pare_text_add(&in, ".");
    if (slash)
        l.kept = (size_t)(slash - l.word) + 1;
    struct dirent **entry = NULL;
    const int entries = in.failed ? 0 : scandir(in.bytes, &entry, NULL, alphasort);
    for (int i = 0; i < entries; i++) {
        const char *name = entry[i]->d_name;
        if (name[0] != '.' || l.word[l.kept] == '.')
            offer(&l, name, is_folder(in.bytes, name) ? "/" : "");
        free(entry[i]);
    }
    free(entry);
    pare_text_free(&in);
}

/* ---- what a word of a usage stands for ---- */

static void offer_kinds(const line *l)
{
    for (int kind = 0; kind < PARE_KINDS; kind++)
        offer(l, pare_kind_name((pare_kind)kind), "");
}

static void offer_keys(const line *l)
{
    const char *names[PARE_KEYS];
    const size_t count = pare_key_names(-1, names);
    for (size_t i = 0; i < count; i++)
        offer(l, names[i], "");
}

/* CRAFT., then an item that is on it. */
static void offer_items(line l)
{
    const char *typed = l.word + l.kept, *dot = strrchr(typed, '.');
    char name[128];
    if (!dot || (size_t)(dot - typed) >= sizeof name) {
        offer_names(&l, false, ".");
        return;
    }
    memcpy(name, typed, (size_t)(dot - typed));
    name[dot - typed] = '\0';
    l.craft = name;
    l.kept += (size_t)(dot - typed) + 1;
    shelf s = {0};
    const pare_craft *craft = read_craft(&l, &s);
    for (size_t i = 0; craft && i < craft->items; i++)
        if (!craft->item[i].off)
            offer(&l, craft->item[i].name, "");
    shelf_close(&s);
}

static void offer_papers(const line *l)
{
    for (int i = 0; i < PARE_PAPERS; i++)
        offer(l, pare_papers[i].name, "");
}

static void offer_wishes(const line *l)
{
    const int wishes = strcmp(l->of->name, "best") == 0 ? PARE_BEST_WISHES : PARE_WISHES;
    for (int wish = 0; wish < wishes; wish++)
        offer(l, pare_best_wish_name(wish), "");
}

static void offer_lists(const line *l)
{
    for (int list = PARE_LIST_SEEN + 1; list < PARE_LIST_KINDS; list++)
        offer(l, pare_list_kind_name((pare_list_kind)list), "");
}

/* Whether key= stands among the words before. */
static bool is_given(const line *l, const char *key)
{
    const size_t length = strlen(key);
    for (size_t i = 0; i < l->given.operands; i++)
        if (strncmp(l->given.operand[i], key, length) == 0 && l->given.operand[i][length] == '=')
            return true;
    return false;
}

/* Things, or keys with their '='; behind file= a file. */
static void offer_words(line l, const char *end)
{
    const char *name[NAMES];
    static const char file[] = "file=";
    if (strncmp(l.word + l.kept, file, sizeof file - 1) == 0) {
        l.kept += sizeof file - 1;
        offer_files(l);
        return;
    }
    const size_t count =
        l.of->words ? l.of->words(l.given.operands, l.given.operand, NAMES, name) : 0;
    for (size_t i = 0; i < count; i++)
        if (!*end || !is_given(&l, name[i]))
            offer(&l, name[i], end);
}

static void offer_commands(const line *l)
{
    size_t count;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++)
        offer(l, table[i]->name, "");
}

static void offer_what(const line *l, const usage_word *what)
{
    if (usage_is(what, "CRAFT"))
        offer_names(l, false, "");
    else if (usage_is(what, "CRAFT[@DATE][:LOADOUT]"))
        offer_craft_and_loadout(l);
    else if (usage_is(what, "PART"))
        offer_names(l, true, "");
    else if (usage_is(what, "LOADOUT"))
        offer_loadouts(l);
    else if (usage_is(what, "SWAP"))
        offer_swaps(*l, false);
    else if (usage_is(what, "SWAP,SWAP"))
        offer_swaps(*l, true);
    else if (usage_is(what, "FILE"))
        offer_files(*l);
    else if (usage_is(what, "KIND"))
        offer_kinds(l);
    else if (usage_is(what, "KEY"))
        offer_keys(l);
    else if (usage_is(what, "CRAFT.ITEM"))
        offer_items(*l);
    else if (usage_is(what, "WISH"))
        offer_wishes(l);
    else if (usage_is(what, "PAPER"))
        offer_papers(l);
    else if (usage_is(what, "LIST"))
        offer_lists(l);
    else if (usage_is(what, "DATE"))
        offer(l, "today", "");
    else if (usage_is(what, "MEMBER"))
        offer_members(l);
    else if (usage_is(what, "STUDY"))
        offer_studies(l);
    else if (usage_is(what, "THING") || usage_is(what, "MAY"))
        offer_words(*l, "");
    else if (usage_is(what, "KEY=VALUE") || usage_is(what, "key=value"))
        offer_words(*l, "=");
}

/* ---- the line ---- */

static const option_row *option_of(const command *of, const char *word, size_t length)
{
    size_t count;
    const option_row *row = option_rows(&count);
    for (size_t i = 0; i < count; i++)
        if (row[i].bit & (of->options | OPTION_HELP) &&
            ((length > 2 && strncmp(word, "--", 2) == 0 && strlen(row[i].name) == length - 2 &&
              strncmp(row[i].name, word + 2, length - 2) == 0) ||
             (length == 2 && row[i].letter && word[0] == '-' && word[1] == row[i].letter)))
            return &row[i];
    return NULL;
}

static void offer_value(const line *l, const option_row *option)
{
    const usage_word what = {.text = option->value, .length = strlen(option->value)};
    offer_what(l, &what);
}

static void offer_options(const line *l)
{
    size_t count;
    const option_row *row = option_rows(&count);
    for (size_t i = 0; i < count; i++) {
        pare_text name = {0};
        pare_text_printf(&name, "--%s", row[i].name);
        const bool again = l->given.given & row[i].bit && row[i].bit != OPTION_TRY;
        if (row[i].bit & (l->of->options | OPTION_HELP) && !again && !name.failed)
            offer(l, name.bytes, "");
        pare_text_free(&name);
    }
}

static void keep_value(line *l, const option_row *option, const char *value)
{
    if (option->bit == OPTION_BENCH)
        l->given.bench = value;
    else if (option->bit == OPTION_LOADOUT)
        l->given.loadout = value;
}

/* Reads the words before the cursor. @return the option whose value the cursor is in, or NULL */
static const option_row *read_before(line *l, size_t words, const char *const word[])
{
    for (size_t i = 1; i + 1 < words; i++) {
        const size_t length = strcspn(word[i], "=");
        if (!l->all_operands && strcmp(word[i], "--") == 0) {
            l->all_operands = true;
        } else if (!l->all_operands && word[i][0] == '-' && word[i][1]) {
            const option_row *option = option_of(l->of, word[i], length);
            if (!option)
                continue;
            l->given.given |= option->bit;
            if (option->value && word[i][length])
                keep_value(l, option, word[i] + length + 1);
            else if (option->value && i + 2 == words)
                return option;
            else if (option->value)
                keep_value(l, option, word[++i]);
        } else if (l->given.operands < OPERANDS) {
            l->given.operand[l->given.operands++] = word[i];
        }
    }
    return NULL;
}

/* Walks one form. @return behind its last word
 * @param craft  the operand that stands for a craft in a form that fits
 * @param next   what the form wants at the cursor; length 0: nothing, or it does not fit */
static const char *walk_form(const line *l, const char *at, const char **craft, usage_word *next)
{
    usage_word word;
    const char *named = NULL, *end = at;
    size_t done = 0;
    bool fits = true, found = false;
    usage_next(&at, &word); /* the command's name */
    for (; usage_next(&at, &word) && !usage_is(&word, "pare"); end = at) {
        const option_row *option = word.option ? option_of(l->of, word.text, word.length) : NULL;
        if (option && option->value)
            usage_next(&at, &word);
        if (word.option || option || found || !fits)
            continue;
        do {
            if (done == l->given.operands) {
                *next = word;
                found = true;
                break;
            }
            fits = !word.literal || usage_is(&word, l->given.operand[done]);
            if (fits && !named && strncmp(word.text, "CRAFT", 5) == 0)
                named = l->given.operand[done];
            done++;
        } while (fits && word.repeats);
    }
    if (!fits || (!found && done < l->given.operands))
        *next = (usage_word){0};
    if (fits && named)
        *craft = named;
    return end;
}

static void offer_literal(const line *l, const usage_word *word)
{
    char text[64];
    if (word->length >= sizeof text)
        return;
    memcpy(text, word->text, word->length);
    text[word->length] = '\0';
    offer(l, text, "");
}

/* What the forms of the usage say: of those that want the same, the first. */
static void offer_operands(line *l, bool only_craft)
{
    enum { FORMS = 32 };
    usage_word wanted[FORMS];
    size_t forms = 0;
    for (const char *at = l->of->usage; forms < FORMS;) {
        usage_word word;
        if (!usage_next(&at, &word))
            break;
        if (!usage_is(&word, "pare"))
            continue;
        wanted[forms] = (usage_word){0};
        at = walk_form(l, at, &l->craft, &wanted[forms]);
        bool known = wanted[forms].length == 0;
        for (size_t i = 0; i < forms && !known; i++)
            known = wanted[i].length == wanted[forms].length &&
                    strncmp(wanted[i].text, wanted[forms].text, wanted[i].length) == 0;
        forms += !known;
    }
    for (size_t i = 0; i < forms && !only_craft; i++) {
        if (wanted[i].literal)
            offer_literal(l, &wanted[i]);
        else
            offer_what(l, &wanted[i]);
    }
}

static void complete_behind(line *l, size_t words, const char *const word[])
{
    const option_row *option = read_before(l, words, word);
    offer_operands(l, true); /* which craft is it about? */
    pare_text bench = {0};
    if (l->given.bench) {
        put_expanded(l->given.bench, strlen(l->given.bench), &bench);
        l->given.bench = bench.failed ? NULL : bench.bytes;
        l->given.given = l->given.bench ? l->given.given : l->given.given & ~OPTION_BENCH;
    }
    const size_t length = strcspn(l->word, "=");
    if (option) {
        offer_value(l, option);
    } else if (!l->all_operands && l->word[0] == '-') {
        option = l->word[length] ? option_of(l->of, l->word, length) : NULL;
        if (option && option->value) {
            l->kept = length + 1;
            offer_value(l, option);
        } else {
            offer_options(l);
        }
    } else {
        offer_operands(l, false);
    }
    pare_text_free(&bench);
}

void complete_words(size_t words, const char *const word[], pare_text *out)
{
    if (words == 0)
        return;
    pare_error none;
    line l = {.word = word[words - 1], .out = out};
    if (words == 1) {
        offer_commands(&l);
        offer(&l, "help", "");
        if (l.word[0] == '-') {
            offer(&l, "--help", "");
            offer(&l, "--version", "");
        }
    } else if (strcmp(word[0], "help") == 0) {
        if (words == 2)
            offer_commands(&l);
    } else {
        l.of = command_named(word[0], &none);
        if (l.of)
            complete_behind(&l, words, word);
    }
}
