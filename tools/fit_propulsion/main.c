/* main.c: fits the constants of the propulsion chain to open measurements and writes them as C.
 *
 * One subject a file: prop.c (propellers), drive.c (motors and ESCs), cells.c (packs); and, without
 * constants to write, pair.c (measured pairs), chain.c (all of it together) and prop_floor.c (what any
 * model of propellers owes). Each reads its tables below the data folder, prints how well
 * it fits what it left out, puts the tables of the page of the physics there (page.h), and writes its
 * constants. */
#include <stdio.h>
#include <string.h>

#include "subjects.h"

static const struct subject {
    const char *name, *writes; /* writes NULL: it prints errors only */
    fit_subject *fit;
} subjects[] = {
    {"prop", "prop_fitted.c", fit_prop},
    {"drive", "drive_fitted.c", fit_drive},
    {"cells", "cells_fitted.c", fit_cells},
    {"pair", NULL, fit_pair},
    {"chain", NULL, fit_chain},
    {"floor", NULL, fit_floor},
};

static bool fit_one(const struct subject *subject, const char *data_folder, const char *out_folder,
                    const char *pictures, const char *page)
{
    fit_to to = {NULL, pictures, page};
    if (!subject->writes)
        return subject->fit(data_folder, &to);
    /* Beside the old constants until all is written: a fit that fails leaves those. */
    char path[4096], beside[4100];
    const int length = snprintf(path, sizeof path, "%s/%s", out_folder, subject->writes);
    if (length < 0 || (size_t)length >= sizeof path) {
        fprintf(stderr, "%.60s...: a shorter path would be right\n", out_folder);
        return false;
    }
    snprintf(beside, sizeof beside, "%s.new", path);
    to.constants = fopen(beside, "w");
    if (!to.constants) {
        perror(beside);
        return false;
    }
    const bool fitted = subject->fit(data_folder, &to);
    if (fclose(to.constants) == 0 && fitted && rename(beside, path) == 0)
        return true;
    remove(beside);
    fprintf(stderr, "%s: left as it was\n", path);
    return false;
}

int main(int count, char *argument[])
{
    if (count < 5) {
        fprintf(stderr,
                "fit_propulsion DATA_FOLDER CODE_FOLDER PICTURE_FOLDER PAGE [SUBJECT...]\n");
        return 2;
    }
    bool fine = true;
    for (size_t i = 0; i < sizeof subjects / sizeof subjects[0]; i++) {
        bool wanted = count == 5;
        for (int a = 5; a < count; a++)
            wanted = wanted || strcmp(argument[a], subjects[i].name) == 0;
        if (wanted)
            fine =
                fit_one(&subjects[i], argument[1], argument[2], argument[3], argument[4]) && fine;
    }
    return fine ? 0 : 4;
}
