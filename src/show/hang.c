/* hang.c: labels that hang below a scale without touching each other (see hang.h). */
#include "show/hang.h"

#include <stdbool.h>

/* Of two labels, `right` stands further right. */
static bool meets(const pare_hung *left, const pare_hung *right)
{
    return right->row >= left->row && left->line + left->width >= right->line;
}

int pare_hang(size_t count, pare_hung hung[])
{
    int rows = 0;
    for (size_t i = count; i-- > 0;) {
        hung[i].row = 0;
        /* Below all others nothing is met, so it ends. */
        for (size_t j = i + 1; j < count; j++)
            if (meets(&hung[i], &hung[j])) {
                hung[i].row++;
                j = i;
            }
        rows = hung[i].row + 1 > rows ? hung[i].row + 1 : rows;
    }
    return rows;
}
