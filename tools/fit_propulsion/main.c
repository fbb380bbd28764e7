/* main.c: fits the constants of the propulsion chain to open measurements and writes them as C.
 *
 * One subject a file: prop.c (propellers), drive.c (motors and ESCs), cells.c (packs); and, without
 * constants to write, pair.c (measured pairs), chain.c (all of it together) and prop_floor.c (what any
 * model of propellers owes). Each reads its tables below the data folder, prints how well
 * it fits what it left out, and writes its constants. */
#include <stdio.h>
#include <string.h>

#include "subjects.h"

static const struct subject {
    const char *name, *writes; /* writes NULL: it prints errors only */
    bool (*fit)(const char *data_folder, FILE *constants);
    bool (*draw)(const char *data_folder, const char *pictures, FILE *constants); /* in its place */
} subjects[] = {
    {"prop", "prop_fitted.c", NULL, fit_prop},
    {"drive", "drive_fitted.c", NULL, fit_drive},
    {"cells", "cells_fitted.c", NULL, fit_cells},
    {"pair", NULL, fit_pair, NULL},
    {"chain", NULL, fit_chain, NULL},
    {"floor", NULL, fit_floor, NULL},
};

static bool work(const struct subject *subject, const char *data_folder, const char *pictures,
                 FILE *constants)
{
    return subject->draw ? subject->draw(data_folder, pictures, constants)
                         : subject->fit(data_folder, constants);
}

static bool fit_one(const struct subject *subject, const char *data_folder, const char *out_folder,
                    const char *pictures)
{
    if (!subject->writes)
        return work(subject, data_folder, pictures, NULL);
    /* Beside the old constants until all is written: a fit that fails leaves those. */
    char path[4096], beside[4100];
    const int length = snprintf(path, sizeof path, "%s/%s", out_folder, subject->writes);
    if (length < 0 || (size_t)length >= sizeof path) {
        fprintf(stderr, "%.60s...: a shorter path would be right\n", out_folder);
        return false;
    }
    snprintf(beside, sizeof beside, "%s.new", path);
    FILE *out = fopen(beside, "w");
    if (!out) {
        perror(beside);
        return false;
    }
    const bool fitted = work(subject, data_folder, pictures, out);
    if (fclose(out) == 0 && fitted && rename(beside, path) == 0)
        return true;
    remove(beside);
    fprintf(stderr, "%s: left as it was\n", path);
    return false;
}

int main(int count, char *argument[])
{
    if (count < 4) {
        fprintf(stderr, "fit_propulsion DATA_FOLDER CODE_FOLDER PICTURE_FOLDER [SUBJECT...]\n");
        return 2;
    }
    bool fine = true;
    for (size_t i = 0; i < sizeof subjects / sizeof subjects[0]; i++) {
        bool wanted = count == 4;
        for (int a = 4; a < count; a++)
            wanted = wanted || strcmp(argument[a], subjects[i].name) == 0;
        if (wanted)
            fine = fit_one(&subjects[i], argument[1], argument[2], argument[3]) && fine;
    }
    return fine ? 0 : 4;
}
