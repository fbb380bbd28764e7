/* table.c: reading columns of numbers (see table.h). */
#include "table.h"

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool starts_with_number(const char *line)
{
    char *end;
    strtod(line, &end);
    return end != line;
}

static const char *after_mark(const char *line) /* a byte order mark */
{
    return strncmp(line, "\xEF\xBB\xBF", 3) == 0 ? line + 3 : line;
}

/* The cells of one line, `most` at most. */
static size_t cells_of(const char *line, double cell[], size_t most)
{
    const bool commas = strchr(line, ',') != NULL;
    size_t count = 0;
    while (count < most) {
        line += strspn(line, " \t\r\n");
        if (*line == '\0')
            break;
        char *end;
        const double value = strtod(line, &end);
        cell[count++] = end != line ? value : (double)NAN;
        line += strcspn(line, commas ? ",\r\n" : " \t\r\n");
        if (commas && *line == ',')
            line++;
    }
    return count;
}

static bool put_row(fit_table *table, const double cell[], size_t count, size_t *room)
{
    if (table->columns == 0)
        table->columns = count;
    if (table->rows == *room) {
        *room = *room ? 2 * *room : 256;
        double *grown = realloc(table->cell, *room * table->columns * sizeof *grown);
        if (!grown)
            return false;
        table->cell = grown;
    }
    double *row = table->cell + table->rows++ * table->columns;
    for (size_t i = 0; i < table->columns; i++)
        row[i] = i < count ? cell[i] : (double)NAN;
    return true;
}

bool fit_table_read(const char *path, fit_table *table)
{
    enum { COLUMNS = 32 };
    *table = (fit_table){0, 0, NULL, NULL};
    FILE *file = fopen(path, "r");
    if (!file) {
        perror(path);
        return false;
    }
    char *line = NULL;
    size_t length = 0, room = 0;
    bool fine = true;
    while (fine && getline(&line, &length, file) >= 0) {
        const char *text = after_mark(line);
        double cell[COLUMNS];
        if (starts_with_number(text))
            fine = put_row(table, cell, cells_of(text, cell, COLUMNS), &room);
        else if (!table->head)
            table->head = strdup(text);
    }
    free(line);
    fclose(file);
    if (!table->head)
        table->head = strdup("");
    if (fine && table->rows > 0)
        return true;
    fprintf(stderr, "%s: no numbers were read\n", path);
    fit_table_free(table);
    return false;
}

void fit_table_free(fit_table *table)
{
    free(table->cell);
    free(table->head);
    *table = (fit_table){0, 0, NULL, NULL};
}

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

size_t fit_paths(const char *folder, const char *ending, char ***paths)
{
    size_t count = 0, room = 0;
    *paths = NULL;
    DIR *open = opendir(folder);
    if (!open) {
        perror(folder);
        return 0;
    }
    for (const struct dirent *entry; (entry = readdir(open)) != NULL;) {
        const size_t length = strlen(entry->d_name), tail = strlen(ending);
        if (length < tail || strcmp(entry->d_name + length - tail, ending) != 0)
            continue;
        if (count == room) {
            room = room ? 2 * room : 64;
            char **grown = realloc(*paths, room * sizeof *grown);
            if (!grown)
                break;
            *paths = grown;
        }
        const size_t size = strlen(folder) + length + 2;
        char *path = malloc(size);
        if (!path)
            break;
        snprintf(path, size, "%s/%s", folder, entry->d_name);
        (*paths)[count++] = path;
    }
    closedir(open);
    if (count > 0)
        qsort(*paths, count, sizeof **paths, by_name);
    return count;
}

void fit_paths_free(size_t count, char **paths)
{
    for (size_t i = 0; i < count; i++)
        free(paths[i]);
    free(paths);
}
