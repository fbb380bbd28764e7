/* embed.c: packs the page's files into a table in C (src/serve/files.h).
 *
 *     embed OUT.c FOLDER
 *
 * Each file of the folder and those in it, by name, compressed as far as zlib can: so nothing is
 * compressed while somebody waits. A folder that is not there, or has no index.html, gives an empty
 * table. Files under /assets/ have a hash of their content in their names. The same files give the
 * same bytes. */
#include <dirent.h>
#include <errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <zlib.h>

#include "base/arena.h"
#include "base/hash.h"

enum { FILES = 256, DEPTH = 4, MOST_BYTES = 4 << 20 };

typedef struct found {
    const char *path; /* behind the folder, with a slash in front */
    unsigned long long sum;
    size_t size, length;
} found;

typedef struct job {
    pare_arena *arena;
    const char *folder;
    size_t count;
    found file[FILES];
    FILE *out;
} job;

static void die(const char *what, const char *why)
{
    fprintf(stderr, "embed: %s: %s\n", what, why);
    exit(EXIT_FAILURE);
}

static void *need(void *memory)
{
    if (!memory)
        die("embed", "out of memory");
    return memory;
}

static const char *type_of(const char *path)
{
    static const char *const types[][2] = {
        {".html", "text/html; charset=utf-8"},
        {".js", "text/javascript; charset=utf-8"},
        {".css", "text/css; charset=utf-8"},
        {".svg", "image/svg+xml"},
        {".json", "application/json"},
        {".webmanifest", "application/manifest+json"},
        {".png", "image/png"},
        {".ico", "image/x-icon"},
        {".woff2", "font/woff2"},
        {".txt", "text/plain; charset=utf-8"},
    };
    const char *end = strrchr(path, '.');
    for (size_t i = 0; end && i < sizeof types / sizeof types[0]; i++)
        if (strcmp(end, types[i][0]) == 0)
            return types[i][1];
    die(path, "no type is known for a file of this ending; add it to tools/embed.c");
    return NULL;
}

static int by_path(const void *a, const void *b)
{
    const found *x = a, *y = b;
    return strcmp(x->path, y->path);
}

static void look(job *j, const char *below, int depth)
{
    const char *whole = need(pare_arena_printf(j->arena, "%s%s", j->folder, below));
    DIR *folder = opendir(whole);
    if (!folder && errno == ENOENT && depth == DEPTH)
        return;
    if (!folder || depth == 0)
        die(whole, folder ? "folders lie too deep" : strerror(errno));
    for (const struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
        if (entry->d_name[0] == '.')
            continue;
        struct stat about;
        const char *path = need(pare_arena_printf(j->arena, "%s/%s", below, entry->d_name));
        const char *file = need(pare_arena_printf(j->arena, "%s%s", j->folder, path));
        if (stat(file, &about) != 0)
            die(file, strerror(errno));
        if (S_ISDIR(about.st_mode)) {
            look(j, path, depth - 1);
        } else {
            if (j->count == FILES)
                die(j->folder, "too many files");
            j->file[j->count++].path = path;
        }
    }
    closedir(folder);
}

static unsigned char *read_all(const job *j, found *file)
{
    const char *name = need(pare_arena_printf(j->arena, "%s%s", j->folder, file->path));
    unsigned char *bytes = need(pare_arena_zeros(j->arena, MOST_BYTES));
    FILE *in = fopen(name, "rb");
    if (!in)
        die(name, strerror(errno));
    file->size = fread(bytes, 1, MOST_BYTES, in);
    if (ferror(in) || file->size == MOST_BYTES)
        die(name, "cannot be read, or is too large for a page");
    fclose(in);
    file->sum = pare_hash(PARE_HASH_START, bytes, file->size);
    return bytes;
}

static void put_bytes(job *j, size_t i)
{
    found *file = &j->file[i];
    unsigned char *bytes = read_all(j, file);
    z_stream stream = {0};
    if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, 15 + 16, 9, Z_DEFAULT_STRATEGY) !=
        Z_OK)
        die(file->path, "zlib does not start");
    const size_t room = deflateBound(&stream, file->size);
    unsigned char *packed = need(pare_arena_zeros(j->arena, room));
    stream.next_in = bytes;
    stream.avail_in = (uInt)file->size;
    stream.next_out = packed;
    stream.avail_out = (uInt)room;
    if (deflate(&stream, Z_FINISH) != Z_STREAM_END)
        die(file->path, "zlib cannot pack it");
    file->length = stream.total_out;
    deflateEnd(&stream);
    fprintf(j->out, "\nstatic const unsigned char FILE_%zu[] = {", i);
    for (size_t k = 0; k < file->length; k++)
        fprintf(j->out, "%s%u,", k % 24 ? "" : "\n    ", packed[k]);
    fprintf(j->out, "\n};\n");
}

static void put_row(const job *j, size_t i)
{
    const found *file = &j->file[i];
    const bool first = strcmp(file->path, "/index.html") == 0;
    fprintf(j->out, "    {\"%s\", \"%s\", \"\\\"%016llx\\\"\", %d, %zu, %zu, FILE_%zu},\n",
            first ? "/" : file->path, type_of(file->path), file->sum,
            strncmp(file->path, "/assets/", 8) == 0, file->size, file->length, i);
}

static bool has_page(const job *j)
{
    for (size_t i = 0; i < j->count; i++)
        if (strcmp(j->file[i].path, "/index.html") == 0)
            return true;
    return false;
}

int main(int argc, char *argv[])
{
    static job j;
    if (argc != 3)
        die("usage", "embed OUT.c FOLDER");
    j = (job){.arena = need(pare_arena_open()), .folder = argv[2], .out = fopen(argv[1], "w")};
    if (!j.out)
        die(argv[1], strerror(errno));
    look(&j, "", DEPTH);
    if (!has_page(&j))
        j.count = 0;
    qsort(j.file, j.count, sizeof j.file[0], by_path);
    fprintf(j.out, "/* Written by tools/embed.c when Pare was built. */\n"
                   "#include \"serve/files.h\"\n");
    for (size_t i = 0; i < j.count; i++)
        put_bytes(&j, i);
    fprintf(j.out, "\nconst pare_page_file pare_page_files[] = {\n");
    for (size_t i = 0; i < j.count; i++)
        put_row(&j, i);
    if (j.count == 0)
        fprintf(j.out, "    {0},\n");
    fprintf(j.out, "};\nconst size_t pare_page_file_count = %zu;\n", j.count);
    if (fclose(j.out) != 0)
        die(argv[1], strerror(errno));
    pare_arena_close(j.arena);
    return EXIT_SUCCESS;
}
