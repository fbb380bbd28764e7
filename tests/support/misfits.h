/* misfits.h: one node of a tree as something else: a list, a map, nothing, a word, numbers that cannot be, many
 * times itself, under another key, or gone. */
#ifndef PARE_TESTS_MISFITS_H
#define PARE_TESTS_MISFITS_H

#include "near.h"
#include "store/tree_edit.h"

enum { MANY = 300 };

typedef enum misfit {
    WORD,
    EMPTY,
    NEGATIVE,
    HUGE_NUMBER,
    NO_NUMBER,
    SIGNS,
    LIST,
    EMPTY_LIST,
    LIST_OF_LISTS,
    MAP,
    EMPTY_MAP,
    MANY_OF_IT,
    WITH_MORE,
    OTHER_KEY,
    GONE,
    MISFITS
} misfit;

static const char *const WORDS[] = {
    [WORD] = "zz",         [EMPTY] = "",   [NEGATIVE] = "-7", [HUGE_NUMBER] = "1e300 m",
    [NO_NUMBER] = "nan g", [SIGNS] = "=.."};

typedef struct walk {
    pare_arena *arena;
    misfit how;
    size_t left;  /* nodes before the one that changes */
    bool applied; /* it could be changed so */
} walk;

static inline pare_node *scalar(const walk *w, const char *key, const char *text)
{
    pare_node *made = pare_node_made(w->arena, PARE_NODE_SCALAR, key, text);
    assert_non_null(made);
    return made;
}

static inline pare_node *holder(const walk *w, pare_node_form form, const char *key)
{
    pare_node *made = pare_node_made(w->arena, form, key, NULL);
    assert_non_null(made);
    return made;
}

static inline pare_node *twin(const walk *w, const pare_node *node, const char *key)
{
    pare_node *made = pare_arena_zeros(w->arena, sizeof *made);
    assert_non_null(made);
    *made = *node;
    made->key = key;
    made->next = NULL;
    return made;
}

/* MANY entries like the first one of a list or map. */
static inline pare_node *many_of(const walk *w, const pare_node *node)
{
    pare_node *made = holder(w, node->form, node->key);
    for (int i = 0; i < MANY; i++) {
        const char *key =
            node->form == PARE_NODE_MAP ? pare_arena_printf(w->arena, "k%d", i) : NULL;
        pare_node_append(made, twin(w, node->first, key));
    }
    return made;
}

static inline pare_node *changed(walk *w, const pare_node *node)
{
    const bool holds = node->form != PARE_NODE_SCALAR;
    pare_node *made = NULL;
    w->applied = true;
    switch (w->how) {
    case LIST:
        made = holder(w, PARE_NODE_LIST, node->key);
        pare_node_append(made, scalar(w, NULL, "zz"));
        return made;
    case EMPTY_LIST:
        return holder(w, PARE_NODE_LIST, node->key);
    case LIST_OF_LISTS:
        made = holder(w, PARE_NODE_LIST, node->key);
        pare_node_append(made, holder(w, PARE_NODE_LIST, NULL));
        return made;
    case MAP:
        made = holder(w, PARE_NODE_MAP, node->key);
        pare_node_append(made, scalar(w, "zz", "7"));
        return made;
    case EMPTY_MAP:
        return holder(w, PARE_NODE_MAP, node->key);
    case MANY_OF_IT:
        w->applied = holds && node->first;
        return w->applied ? many_of(w, node) : NULL;
    case WITH_MORE:
        w->applied = holds;
        if (!holds)
            return NULL;
        made = pare_node_without(w->arena, node, NULL);
        assert_non_null(made);
        pare_node_append(made, scalar(w, node->form == PARE_NODE_MAP ? "zz" : NULL, "zz"));
        return made;
    case OTHER_KEY:
        w->applied = node->key != NULL;
        return w->applied ? twin(w, node, "zz") : NULL;
    case GONE:
        return NULL;
    default:
        return scalar(w, node->key, WORDS[w->how]);
    }
}

static inline pare_node *copy_but(walk *w, const pare_node *node)
{
    if (w->left-- == 0)
        return changed(w, node);
    if (node->form == PARE_NODE_SCALAR)
        return twin(w, node, node->key);
    pare_node *made = holder(w, node->form, node->key);
    for (const pare_node *one = node->first; one; one = one->next) {
        pare_node *copy = copy_but(w, one);
        if (copy)
            pare_node_append(made, copy);
    }
    return made;
}

static inline size_t nodes_of(const pare_node *node)
{
    size_t all = 1;
    for (const pare_node *one = node->first; one; one = one->next)
        all += nodes_of(one);
    return all;
}

#endif
