/* mutants.c: writes C sources anew, in place, so that each can behave as if one operator of it were
 * another, or one statement were not there; which, is asked while it runs (mutant.h). So thousands of
 * mutants are compiled once.
 *
 *   mutants LIST FILE... -- FLAGS...
 *
 * LIST gets a line a mutant: its number, file:line:column, what stands there, what it becomes, and the line it
 * stands in, with tabs between. Exits 1, with a line on stderr, where a source cannot be parsed or written.
 *
 * Left alone: what must be constant (sizes, cases, static initialisers), pointers' sums, what a macro
 * wrote, and calls that only let something go, whose absence no test sees. */
#include <clang-c/Index.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LETTERS = 512 };

/* Text put into the source before the byte at `at`. */
typedef struct insertion {
    size_t at;
    bool closes;   /* what closes comes before what opens at the same place */
    unsigned turn; /* outer before inner where both open, after it where both close */
    char *text;
} insertion;

typedef struct source {
    const char *name;
    CXFile file;
    char *text;
    size_t length;
    insertion *put;
    size_t puts, room;
    FILE *list;
    unsigned *next; /* number */
} source;

typedef struct span {
    size_t from, to;
} span;

static const struct exchange {
    enum CXBinaryOperatorKind kind;
    const char *is, *becomes;
    bool sums; /* not for pointers */
} exchanges[] = {
    {CXBinaryOperator_Add, "+", "-", true},     {CXBinaryOperator_Sub, "-", "+", true},
    {CXBinaryOperator_Mul, "*", "/", false},    {CXBinaryOperator_Div, "/", "*", false},
    {CXBinaryOperator_LT, "<", "<=", false},    {CXBinaryOperator_LE, "<=", "<", false},
    {CXBinaryOperator_GT, ">", ">=", false},    {CXBinaryOperator_GE, ">=", ">", false},
    {CXBinaryOperator_EQ, "==", "!=", false},   {CXBinaryOperator_NE, "!=", "==", false},
    {CXBinaryOperator_LAnd, "&&", "||", false}, {CXBinaryOperator_LOr, "||", "&&", false},
};

static void *must(void *memory)
{
    if (!memory) {
        fputs("mutants: no memory\n", stderr);
        exit(1);
    }
    return memory;
}

static void put(source *to, size_t at, bool closes, char *text)
{
    if (to->puts == to->room) {
        to->room = to->room ? 2 * to->room : 256;
        to->put = must(realloc(to->put, to->room * sizeof *to->put));
    }
    to->put[to->puts] =
        (insertion){.at = at, .closes = closes, .turn = (unsigned)to->puts, .text = text};
    to->puts++;
}

/* Where a cursor stands in the text as it is written; false where that is another file. */
static bool span_of(const source *in, CXCursor cursor, span *out)
{
    const CXSourceRange range = clang_getCursorExtent(cursor);
    CXFile begins, ends;
    unsigned from, to;
    clang_getExpansionLocation(clang_getRangeStart(range), &begins, NULL, NULL, &from);
    clang_getExpansionLocation(clang_getRangeEnd(range), &ends, NULL, NULL, &to);
    *out = (span){from, to};
    return begins && ends && clang_File_isEqual(begins, in->file) &&
           clang_File_isEqual(ends, in->file) && from < to && to <= in->length;
}

/* True where between two places there is nothing but `word` and blanks: no macro stands there. */
static bool only(const source *in, size_t from, size_t to, const char *word)
{
    while (from < to && strchr(" \n\t", in->text[from]))
        from++;
    while (to > from && strchr(" \n\t", in->text[to - 1]))
        to--;
    return to - from == strlen(word) && strncmp(in->text + from, word, to - from) == 0;
}

static char *written(const char *form, const source *in, unsigned number, span left,
                     const char *word, span right)
{
    const size_t size = LETTERS + (left.to - left.from) + (right.to - right.from);
    char *text = must(malloc(size));
    snprintf(text, size, form, number, (int)(left.to - left.from), in->text + left.from, word,
             (int)(right.to - right.from), in->text + right.from);
    return text;
}

static void list(source *in, unsigned number, size_t at, const char *is, const char *becomes)
{
    unsigned line = 1, column = 1;
    for (size_t i = 0; i < at; i++) {
        column = in->text[i] == '\n' ? 1 : column + 1;
        line += in->text[i] == '\n';
    }
    const char *from = in->text + at - (column - 1);
    from += strspn(from, " \t");
    fprintf(in->list, "%u\t%s:%u:%u\t%s\t%s\t%.*s\n", number, in->name, line, column, is, becomes,
            (int)strcspn(from, "\n"), from);
}

typedef struct children {
    CXCursor cursor[8];
    unsigned count;
} children;

static enum CXChildVisitResult gather(CXCursor cursor, CXCursor parent, CXClientData data)
{
    (void)parent;
    children *to = data;
    if (to->count < sizeof to->cursor / sizeof to->cursor[0])
        to->cursor[to->count] = cursor;
    to->count++;
    return CXChildVisit_Continue;
}

static bool is_pointer(CXCursor cursor)
{
    const CXType type = clang_getCanonicalType(clang_getCursorType(cursor));
    return type.kind == CXType_Pointer || type.kind == CXType_ConstantArray ||
           type.kind == CXType_IncompleteArray;
}

static void exchange_operator(source *in, CXCursor cursor)
{
    const enum CXBinaryOperatorKind kind = clang_getCursorBinaryOperatorKind(cursor);
    const struct exchange *with = NULL;
    for (size_t i = 0; i < sizeof exchanges / sizeof exchanges[0]; i++)
        if (exchanges[i].kind == kind)
            with = &exchanges[i];
    children of = {0};
    clang_visitChildren(cursor, gather, &of);
    span whole, left, right;
    if (!with || of.count != 2 || !span_of(in, cursor, &whole) ||
        !span_of(in, of.cursor[0], &left) || !span_of(in, of.cursor[1], &right) ||
        left.to > right.from || left.from != whole.from || right.to != whole.to ||
        !only(in, left.to, right.from, with->is) ||
        (with->sums && (is_pointer(of.cursor[0]) || is_pointer(of.cursor[1]))))
        return;
    const unsigned number = (*in->next)++;
    put(in, whole.from, false,
        written("(pare_mutant(%uu) ? ((%.*s) %s (%.*s)) : (", in, number, left, with->becomes,
                right));
    put(in, whole.to, true, must(strdup("))")));
    list(in, number, left.to + 1, with->is, with->becomes);
}

/* -x and !x as x. */
static void drop_sign(source *in, CXCursor cursor)
{
    const enum CXUnaryOperatorKind kind = clang_getCursorUnaryOperatorKind(cursor);
    const char *is = kind == CXUnaryOperator_Minus  ? "-"
                     : kind == CXUnaryOperator_LNot ? "!"
                                                    : NULL;
    children of = {0};
    clang_visitChildren(cursor, gather, &of);
    span whole, operand;
    if (!is || of.count != 1 || !span_of(in, cursor, &whole) ||
        !span_of(in, of.cursor[0], &operand) || operand.to != whole.to ||
        !only(in, whole.from, operand.from, is))
        return;
    const unsigned number = (*in->next)++;
    put(in, whole.from, false,
        written(kind == CXUnaryOperator_Minus ? "(pare_mutant(%uu) ? (%.*s%s%.*s) : ("
                                              : "(pare_mutant(%uu) ? !!(%.*s%s%.*s) : (",
                in, number, operand, "", (span){0, 0}));
    put(in, whole.to, true, must(strdup("))")));
    list(in, number, whole.from, is, "(nothing)");
}

static bool lets_go(CXCursor cursor)
{
    const CXString name = clang_getCursorSpelling(cursor);
    const char *word = clang_getCString(name);
    const bool it_does = clang_getCursorKind(cursor) == CXCursor_CallExpr && word &&
                         (strstr(word, "free") || strstr(word, "close"));
    clang_disposeString(name);
    return it_does;
}

static void drop_statement(source *in, CXCursor cursor)
{
    span whole;
    if (lets_go(cursor) || !span_of(in, cursor, &whole))
        return;
    unsigned spelt, expanded;
    const CXSourceLocation start = clang_getRangeStart(clang_getCursorExtent(cursor));
    clang_getSpellingLocation(start, NULL, NULL, NULL, &spelt);
    clang_getExpansionLocation(start, NULL, NULL, NULL, &expanded);
    if (spelt != expanded || in->text[whole.to] != ';')
        return;
    const unsigned number = (*in->next)++;
    char *opening = must(malloc(LETTERS));
    snprintf(opening, LETTERS, "{ if (!pare_mutant(%uu)) ", number);
    put(in, whole.from, false, opening);
    put(in, whole.to + 1, true, must(strdup(" }")));
    char is[64];
    snprintf(is, sizeof is, "%.*s", (int)(whole.to - whole.from), in->text + whole.from);
    for (char *c = is; *c; c++)
        if (*c == '\n' || *c == '\t')
            *c = ' ';
    list(in, number, whole.from, is, "(nothing)");
}

static bool is_action(CXCursor cursor)
{
    switch (clang_getCursorKind(cursor)) {
    case CXCursor_CallExpr:
    case CXCursor_CompoundAssignOperator:
        return true;
    case CXCursor_BinaryOperator:
        return clang_getCursorBinaryOperatorKind(cursor) == CXBinaryOperator_Assign;
    case CXCursor_UnaryOperator: {
        const enum CXUnaryOperatorKind kind = clang_getCursorUnaryOperatorKind(cursor);
        return kind == CXUnaryOperator_PostInc || kind == CXUnaryOperator_PostDec;
    }
    default:
        return false;
    }
}

/* True where a child of `parent` is a statement, not one of its conditions. */
static bool stands_alone(CXCursor parent, unsigned child, unsigned count)
{
    switch (clang_getCursorKind(parent)) {
    case CXCursor_CompoundStmt:
        return true;
    case CXCursor_IfStmt:
        return child > 0;
    case CXCursor_ForStmt:
    case CXCursor_WhileStmt:
        return child + 1 == count;
    default:
        return false;
    }
}

static void change(source *in, CXCursor cursor);

typedef struct walk {
    source *in;
    unsigned child, count;
} walk;

static enum CXChildVisitResult step(CXCursor cursor, CXCursor parent, CXClientData data)
{
    walk *at = data;
    const unsigned child = at->child++;
    const bool is_label = clang_getCursorKind(parent) == CXCursor_CaseStmt && child == 0;
    const bool is_size = clang_getCursorKind(parent) == CXCursor_VarDecl &&
                         clang_getCursorType(parent).kind == CXType_ConstantArray &&
                         clang_getCursorKind(cursor) != CXCursor_InitListExpr;
    if (is_label || is_size)
        return CXChildVisit_Continue;
    if (stands_alone(parent, child, at->count) && is_action(cursor))
        drop_statement(at->in, cursor);
    change(at->in, cursor);
    return CXChildVisit_Continue;
}

/* This cursor, then all beneath it. */
static void change(source *in, CXCursor cursor)
{
    switch (clang_getCursorKind(cursor)) {
    case CXCursor_EnumDecl:
    case CXCursor_StaticAssert:
    case CXCursor_UnaryExpr: /* sizeof */
        return;
    case CXCursor_VarDecl:
        if (clang_Cursor_getStorageClass(cursor) == CX_SC_Static)
            return;
        break;
    case CXCursor_BinaryOperator:
        exchange_operator(in, cursor);
        break;
    case CXCursor_UnaryOperator:
        drop_sign(in, cursor);
        break;
    default:
        break;
    }
    children of = {0};
    clang_visitChildren(cursor, gather, &of);
    clang_visitChildren(cursor, step, &(walk){.in = in, .count = of.count});
}

static enum CXChildVisitResult function(CXCursor cursor, CXCursor parent, CXClientData data)
{
    (void)parent;
    source *in = data;
    span whole;
    if (clang_getCursorKind(cursor) == CXCursor_FunctionDecl && clang_isCursorDefinition(cursor) &&
        span_of(in, cursor, &whole))
        change(in, cursor);
    return CXChildVisit_Continue;
}

static int in_order(const void *a, const void *b)
{
    const insertion *x = a, *y = b;
    if (x->at != y->at)
        return x->at < y->at ? -1 : 1;
    if (x->closes != y->closes)
        return x->closes ? -1 : 1;
    return (x->turn < y->turn) == x->closes ? 1 : -1;
}

static bool write_anew(source *of)
{
    qsort(of->put, of->puts, sizeof *of->put, in_order);
    FILE *file = fopen(of->name, "w");
    if (!file)
        return false;
    size_t done = 0;
    for (size_t i = 0; i < of->puts; i++) {
        fwrite(of->text + done, 1, of->put[i].at - done, file);
        fputs(of->put[i].text, file);
        done = of->put[i].at;
        free(of->put[i].text);
    }
    fwrite(of->text + done, 1, of->length - done, file);
    free(of->put);
    free(of->text);
    return fclose(file) == 0;
}

static bool read_whole(source *to)
{
    FILE *file = fopen(to->name, "r");
    if (!file)
        return false;
    fseek(file, 0, SEEK_END);
    to->length = (size_t)ftell(file);
    rewind(file);
    to->text = must(calloc(to->length + 1, 1));
    const bool all = fread(to->text, 1, to->length, file) == to->length;
    fclose(file);
    return all;
}

static bool one(CXIndex index, const char *name, const char *const *flags, int count, FILE *list,
                unsigned *next)
{
    source of = {.name = name, .list = list, .next = next};
    CXTranslationUnit unit =
        clang_parseTranslationUnit(index, name, flags, count, NULL, 0, CXTranslationUnit_None);
    bool sound = unit && read_whole(&of);
    for (unsigned i = 0; sound && i < clang_getNumDiagnostics(unit); i++)
        sound = clang_getDiagnosticSeverity(clang_getDiagnostic(unit, i)) < CXDiagnostic_Error;
    if (sound) {
        of.file = clang_getFile(unit, name);
        clang_visitChildren(clang_getTranslationUnitCursor(unit), function, &of);
        sound = write_anew(&of);
    }
    clang_disposeTranslationUnit(unit);
    if (!sound)
        fprintf(stderr, "mutants: %s cannot be read, parsed or written\n", name);
    return sound;
}

int main(int count, char *word[])
{
    int dash = 2;
    while (dash < count && strcmp(word[dash], "--") != 0)
        dash++;
    FILE *list = dash < count ? fopen(word[1], "w") : NULL;
    if (!list) {
        fputs("usage: mutants LIST FILE... -- FLAGS...\n", stderr);
        return 2;
    }
    CXIndex index = clang_createIndex(0, 0);
    unsigned next = 1;
    bool sound = true;
    for (int i = 2; i < dash && sound; i++)
        sound = one(index, word[i], (const char *const *)word + dash + 1, count - dash - 1, list,
                    &next);
    clang_disposeIndex(index);
    return fclose(list) == 0 && sound ? 0 : 1;
}
