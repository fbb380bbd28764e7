/* answer_of.c: what another program prints (see answer_of.h). */
#include "answer_of.h"

#include <stdio.h>
#include <stdlib.h>

#include "near.h"

char *answer_of(const char *command)
{
    enum { MOST = 1 << 18 };
    char *text = calloc(1, MOST);
    FILE *pipe = popen(command, "r");
    assert_non_null(text);
    assert_non_null(pipe);
    const size_t length = fread(text, 1, MOST - 1, pipe);
    const int status = pclose(pipe);
    if (status != 0)
        fail_msg("%s: status %d\n%s", command, status, text);
    assert_true(length < MOST - 1);
    return text;
}
