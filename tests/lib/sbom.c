/* sbom.c: the list of what Pare is made of is whole and well made: fields, forms of identifiers and relations as
 * SPDX 2.3 wants them (spdx.github.io/spdx-spec/v2.3, clauses 6, 7 and 11), and every package that is built
 * from is in it, in the version that is installed. */
#include "answer_of.h"
#include "near.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static json_t *document;

static int make(void **state)
{
    (void)state;
    char *text = answer_of("SOURCE_DATE_EPOCH=1767225600 " PARE_SOURCE_DIR "/tools/sbom");
    document = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    free(text);
    return document ? 0 : -1;
}

static int forget(void **state)
{
    (void)state;
    json_decref(document);
    return 0;
}

static const char *text_of(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    if (!text || !*text)
        fail_msg("'%s' is missing", key);
    return text;
}

static const json_t *package_named(const char *name)
{
    size_t i;
    const json_t *package, *packages = json_object_get(document, "packages");
    json_array_foreach(packages, i,
                       package) if (strcmp(text_of(package, "name"), name) == 0) return package;
    fail_msg("the package %s is missing", name);
    return NULL;
}

static void its_head_is_as_spdx_wants_it(void **state)
{
    (void)state;
    const json_t *creation = json_object_get(document, "creationInfo");
    assert_string_equal(text_of(document, "spdxVersion"), "SPDX-2.3");
    assert_string_equal(text_of(document, "dataLicense"), "CC0-1.0");
    assert_string_equal(text_of(document, "SPDXID"), "SPDXRef-DOCUMENT");
    assert_memory_equal(text_of(document, "documentNamespace"), "https://", 8);
    assert_string_equal(text_of(creation, "created"), "2026-01-01T00:00:00Z");
    assert_memory_equal(json_string_value(json_array_get(json_object_get(creation, "creators"), 0)),
                        "Tool: ", 6);
}

static void each_package_has_an_identifier_of_its_own(void **state)
{
    (void)state;
    size_t i, k;
    const json_t *package, *other, *packages = json_object_get(document, "packages");
    json_array_foreach(packages, i, package)
    {
        const char *id = text_of(package, "SPDXID");
        assert_memory_equal(id, "SPDXRef-", 8);
        assert_int_equal(strspn(id + 8, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                        "0123456789.-"),
                         strlen(id + 8));
        json_array_foreach(packages, k, other) if (k < i)
            assert_string_not_equal(id, text_of(other, "SPDXID"));
        text_of(package, "name");
        text_of(package, "versionInfo");
        text_of(package, "downloadLocation");
        text_of(package, "licenseDeclared");
    }
    assert_true(i > 15);
}

static void relations_are_of_what_is_there(void **state)
{
    (void)state;
    size_t i;
    const json_t *relation, *relations = json_object_get(document, "relationships");
    json_array_foreach(relations, i, relation)
    {
        const char *ends[2] = {text_of(relation, "spdxElementId"),
                               text_of(relation, "relatedSpdxElement")};
        const char *type = text_of(relation, "relationshipType");
        assert_true(strcmp(type, "DESCRIBES") == 0 || strcmp(type, "CONTAINS") == 0 ||
                    strcmp(type, "BUILD_DEPENDENCY_OF") == 0);
        for (int end = 0; end < 2; end++) {
            size_t k, found = strcmp(ends[end], "SPDXRef-DOCUMENT") == 0;
            const json_t *package;
            json_array_foreach(json_object_get(document, "packages"), k, package) found +=
                strcmp(text_of(package, "SPDXID"), ends[end]) == 0;
            assert_int_equal(found, 1);
        }
    }
    /* Each package has one, and the document its own. */
    assert_int_equal(i, json_array_size(json_object_get(document, "packages")));
}

static void what_is_built_from_is_in_it(void **state)
{
    (void)state;
    char *installed =
        answer_of("grep -oE '^ +[a-z0-9.+-]+-dev' " PARE_SOURCE_DIR "/debian/control | sort -u | "
                  "xargs dpkg-query -W -f '${Package} ${Version}\\n'");
    int count = 0;
    for (char *rest = installed, *line; (line = strtok_r(rest, "\n", &rest)); count++) {
        char *version = strchr(line, ' ');
        *version++ = '\0';
        assert_string_equal(text_of(package_named(line), "versionInfo"), version);
    }
    assert_true(count > 10);
    package_named("pare");
    package_named("uplot");
    free(installed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(its_head_is_as_spdx_wants_it),
        cmocka_unit_test(each_package_has_an_identifier_of_its_own),
        cmocka_unit_test(relations_are_of_what_is_there),
        cmocka_unit_test(what_is_built_from_is_in_it),
    };
    return cmocka_run_group_tests(tests, make, forget);
}
