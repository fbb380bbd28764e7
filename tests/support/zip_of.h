/* zip_of.h: zip archives for tests, packed by minizip. */
#ifndef PARE_TESTS_ZIP_OF_H
#define PARE_TESTS_ZIP_OF_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <zip.h>

#include "near.h"

typedef struct zip_bytes {
    char *at;
    size_t length;
} zip_bytes;

typedef struct zip_entry {
    const char *name, *content;
    size_t length; /* 0: of the string */
} zip_entry;

/* level 0: stored. Free at. */
static inline zip_bytes zip_of(size_t count, const zip_entry entries[], int level)
{
    char path[] = "/tmp/pare-zip-XXXXXX";
    const int made = mkstemp(path);
    assert_true(made >= 0);
    close(made);
    const zipFile zip = zipOpen64(path, APPEND_STATUS_CREATE);
    assert_non_null(zip);
    const zip_fileinfo about = {0};
    for (size_t i = 0; i < count; i++) {
        const size_t length = entries[i].length ? entries[i].length : strlen(entries[i].content);
        assert_int_equal(zipOpenNewFileInZip64(zip, entries[i].name, &about, NULL, 0, NULL, 0, NULL,
                                               level ? Z_DEFLATED : 0, level, 0),
                         ZIP_OK);
        assert_int_equal(zipWriteInFileInZip(zip, entries[i].content, (unsigned)length), ZIP_OK);
        assert_int_equal(zipCloseFileInZip(zip), ZIP_OK);
    }
    assert_int_equal(zipClose(zip, NULL), ZIP_OK);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    fseek(file, 0, SEEK_END);
    zip_bytes z = {NULL, (size_t)ftell(file)};
    rewind(file);
    z.at = malloc(z.length);
    assert_non_null(z.at);
    assert_int_equal(fread(z.at, 1, z.length, file), z.length);
    fclose(file);
    unlink(path);
    return z;
}

/* A package with one model. */
static inline zip_bytes three_mf_of(const char *model)
{
    const zip_entry entries[] = {
        {"[Content_Types].xml", "<Types/>", 0},
        {"_rels/.rels", "<Relationships/>", 0},
        {"3D/3dmodel.model", model, 0},
    };
    return zip_of(3, entries, 6);
}

#define MODEL_HEAD "<model xmlns='http://schemas.microsoft.com/3dmanufacturing/core/2015/02'"

/* The mesh element of a box from 0 to (x, y, z), in the file's units; facing outwards. */
#define BOX_MESH(x, y, z)                                                                          \
    "<mesh><vertices><vertex x='0' y='0' z='0'/><vertex x='" x "' y='0' z='0'/>"                   \
    "<vertex x='0' y='" y "' z='0'/><vertex x='" x "' y='" y "' z='0'/>"                           \
    "<vertex x='0' y='0' z='" z "'/><vertex x='" x "' y='0' z='" z "'/>"                           \
    "<vertex x='0' y='" y "' z='" z "'/><vertex x='" x "' y='" y "' z='" z "'/></vertices>"        \
    "<triangles>"                                                                                  \
    "<triangle v1='0' v2='2' v3='3'/><triangle v1='0' v2='3' v3='1'/>"                             \
    "<triangle v1='4' v2='5' v3='7'/><triangle v1='4' v2='7' v3='6'/>"                             \
    "<triangle v1='0' v2='1' v3='5'/><triangle v1='0' v2='5' v3='4'/>"                             \
    "<triangle v1='2' v2='6' v3='7'/><triangle v1='2' v2='7' v3='3'/>"                             \
    "<triangle v1='0' v2='4' v3='6'/><triangle v1='0' v2='6' v3='2'/>"                             \
    "<triangle v1='1' v2='3' v3='7'/><triangle v1='1' v2='7' v3='5'/>"                             \
    "</triangles></mesh>"

#endif
