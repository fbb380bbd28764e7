/* openapi.c: docs/openapi.json is true: each of its paths is asked as its examples say, and what comes
 * has the shape that it promises; the keys that an address takes are the ones in the file.
 *
 * The validator knows what the file uses of JSON Schema (2020-12): $ref, type, required, properties,
 * additionalProperties, items, enum, minimum. Anything else in a schema ends the test. */
#include "http.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static served s;
static json_t *doc;

static int start(void **state)
{
    doc = json_load_file(PARE_SOURCE_DIR "/docs/openapi.json", JSON_REJECT_DUPLICATES, NULL);
    if (!doc)
        return -1;
    return serve_at_home(state, &s);
}

static int stop(void **state)
{
    json_decref(doc);
    return serve_leave_home(state, &s);
}

/* ---- the validator ---- */

static bool is_of_type(const json_t *value, const char *type)
{
    if (strcmp(type, "number") == 0)
        return json_is_number(value);
    if (strcmp(type, "integer") == 0)
        return json_is_integer(value);
    if (strcmp(type, "string") == 0)
        return json_is_string(value);
    if (strcmp(type, "boolean") == 0)
        return json_is_boolean(value);
    if (strcmp(type, "array") == 0)
        return json_is_array(value);
    if (strcmp(type, "object") == 0)
        return json_is_object(value);
    return strcmp(type, "null") == 0 && json_is_null(value);
}

static void check_type(const json_t *value, const json_t *type, const char *where)
{
    bool fits = json_is_string(type) && is_of_type(value, json_string_value(type));
    for (size_t i = 0; i < json_array_size(type); i++)
        fits = fits || is_of_type(value, json_string_value(json_array_get(type, i)));
    if (!fits)
        fail_msg("%s: not of the type that docs/openapi.json says", where);
}

static const json_t *referred(const char *ref)
{
    static const char before[] = "#/components/schemas/";
    assert_int_equal(strncmp(ref, before, sizeof before - 1), 0);
    const json_t *schema = json_object_get(
        json_object_get(json_object_get(doc, "components"), "schemas"), ref + sizeof before - 1);
    if (!schema)
        fail_msg("no schema %s", ref);
    return schema;
}

static void check(const json_t *value, const json_t *schema, const char *where);

static void check_object(json_t *value, const json_t *schema, const char *where)
{
    const json_t *required = json_object_get(schema, "required");
    const json_t *properties = json_object_get(schema, "properties");
    const json_t *others = json_object_get(schema, "additionalProperties");
    const char *key;
    json_t *one;
    for (size_t i = 0; i < json_array_size(required); i++)
        if (!json_object_get(value, json_string_value(json_array_get(required, i))))
            fail_msg("%s: no '%s', which docs/openapi.json promises", where,
                     json_string_value(json_array_get(required, i)));
    json_object_foreach(value, key, one)
    {
        char deeper[512];
        const json_t *property = json_object_get(properties, key);
        snprintf(deeper, sizeof deeper, "%s.%s", where, key);
        if (property)
            check(one, property, deeper);
        else if (json_is_object(others))
            check(one, others, deeper);
        else if (json_is_false(others))
            fail_msg("%s is not in docs/openapi.json", deeper);
    }
}

static void check(const json_t *value, const json_t *schema, const char *where)
{
    static const char *const known[] = {"$ref",   "type", "required",    "properties",
                                        "items",  "enum", "description", "additionalProperties",
                                        "minimum"};
    const char *key;
    json_t *unused, *readable = json_deep_copy(schema);
    json_object_foreach(readable, key, unused)
    {
        size_t i = 0;
        while (i < sizeof known / sizeof known[0] && strcmp(known[i], key) != 0)
            i++;
        if (i == sizeof known / sizeof known[0])
            fail_msg("%s: this test knows nothing of '%s'", where, key);
    }
    json_decref(readable);
    const json_t *ref = json_object_get(schema, "$ref"), *type = json_object_get(schema, "type");
    const json_t *items = json_object_get(schema, "items");
    const json_t *least = json_object_get(schema, "minimum");
    if (ref) {
        check(value, referred(json_string_value(ref)), where);
        return;
    }
    if (type)
        check_type(value, type, where);
    if (least && json_is_number(value))
        assert_true(json_number_value(value) >= json_number_value(least));
    for (size_t i = 0; items && i < json_array_size(value); i++) {
        char deeper[512];
        snprintf(deeper, sizeof deeper, "%s[%zu]", where, i);
        check(json_array_get(value, i), items, deeper);
    }
    if (json_is_object(value)) {
        json_t *copy = json_deep_copy(value);
        check_object(copy, schema, where);
        json_decref(copy);
    }
}

/* What is promised for a code, there or, for refusals that all share, among the components. */
static const json_t *content_of(const json_t *operation, const char *code)
{
    static const char before[] = "#/components/responses/";
    const json_t *one = json_object_get(json_object_get(operation, "responses"), code);
    const char *ref = json_string_value(json_object_get(one, "$ref"));
    if (ref) {
        assert_int_equal(strncmp(ref, before, sizeof before - 1), 0);
        one = json_object_get(json_object_get(json_object_get(doc, "components"), "responses"),
                              ref + sizeof before - 1);
    }
    if (!one)
        fail_msg("docs/openapi.json promises no %s here", code);
    return json_object_get(one, "content");
}

/* An answer against what the file says of that code; releases it. */
static void check_reply(reply r, const json_t *operation, const char *code, const char *where)
{
    const json_t *content = content_of(operation, code);
    const json_t *json = json_object_get(content, "application/json");
    if (r.code != atoi(code))
        fail_msg("%s: wanted %s, got %d: %s", where, code, r.code, r.body);
    if (json) {
        json_t *value = json_loads(r.body, 0, NULL);
        assert_non_null(value);
        assert_string_equal(reply_header(&r, "Content-Type"), "application/json");
        check(value, json_object_get(json, "schema"), where);
        json_decref(value);
    } else if (json_object_get(content, "text/event-stream")) {
        assert_string_equal(reply_header(&r, "Content-Type"), "text/event-stream");
        if (!strstr(r.body, "event: answer\n"))
            fail_msg("%s: no answer: %s", where, r.body);
    } else {
        assert_non_null(reply_header(&r, "Content-Disposition"));
        assert_true(r.length > 0);
    }
    reply_free(&r);
}

/* ---- questions ---- */

/* A value in a query, with what must not stand there as it is. */
static void put_value(char *target, size_t room, const char *value)
{
    size_t length = strlen(target);
    for (const char *c = value; *c && length + 4 < room; c++)
        length += (size_t)snprintf(target + length, room - length,
                                   strchr("=<>&%+ ", *c) ? "%%%02X" : "%c", (unsigned char)*c);
}

/* A path with one query parameter and the ones that it cannot do without. */
static void put_parameter(char *target, size_t room, const json_t *parameter)
{
    const char *name = json_string_value(json_object_get(parameter, "name"));
    const json_t *example = json_object_get(parameter, "example");
    for (size_t i = 0; example && i < (json_is_array(example) ? json_array_size(example) : 1);
         i++) {
        const json_t *one = json_is_array(example) ? json_array_get(example, i) : example;
        const size_t length = strlen(target);
        snprintf(target + length, room - length, "%c%s=", strchr(target, '?') ? '&' : '?', name);
        put_value(target, room, json_string_value(one));
    }
}

static bool is_in(const json_t *parameter, const char *where)
{
    return strcmp(json_string_value(json_object_get(parameter, "in")), where) == 0;
}

/* "/api/craft/{name}" with the example in the braces' place. */
static void put_path(char *target, size_t room, const char *path, const json_t *parameters)
{
    const size_t length = strcspn(path, "{");
    snprintf(target, room, "%.*s", (int)length, path);
    for (size_t i = 0; i < json_array_size(parameters); i++)
        if (is_in(json_array_get(parameters, i), "path"))
            put_value(target, room,
                      json_string_value(json_object_get(json_array_get(parameters, i), "example")));
}

static void ask_all(const char *path, const json_t *get)
{
    const json_t *parameters = json_object_get(get, "parameters");
    char target[1024];
    put_path(target, sizeof target, path, parameters);
    for (size_t i = 0; i < json_array_size(parameters); i++) {
        const json_t *one = json_array_get(parameters, i);
        if (is_in(one, "query") && json_is_true(json_object_get(one, "required")))
            put_parameter(target, sizeof target, one);
    }
    /* A search ends when it is told to, or it would be waited for. */
    const bool stream = json_object_get(content_of(get, "200"), "text/event-stream") != NULL;
    if (stream)
        strcat(target, "&time=0.5");
    const bool of_one = strcmp(path, "/api/version") == 0; /* of a craft or a part, as is said */
    if (of_one)
        put_parameter(target, sizeof target, json_array_get(parameters, 0));
    check_reply(serve_get(&s, target), get, "200", target);
    /* Each of the others once more, beside those. */
    const size_t needed = strlen(target);
    for (size_t i = 0; !of_one && i < json_array_size(parameters); i++) {
        const json_t *one = json_array_get(parameters, i);
        target[needed] = '\0';
        if (!is_in(one, "query") || json_is_true(json_object_get(one, "required")) ||
            (stream && strcmp(json_string_value(json_object_get(one, "name")), "time") == 0))
            continue;
        put_parameter(target, sizeof target, one);
        if (strlen(target) > needed)
            check_reply(serve_get(&s, target), get, "200", target);
    }
}

static void every_question_is_answered_as_promised(void **state)
{
    (void)state;
    json_t *paths = json_object_get(doc, "paths"), *path;
    const char *name;
    json_object_foreach(paths, name, path)
    {
        const json_t *get = json_object_get(path, "get");
        if (get)
            ask_all(name, get);
    }
}

/* The server lists what an address takes where it is asked something else. */
static void the_keys_of_a_question_are_the_files(void **state)
{
    (void)state;
    json_t *paths = json_object_get(doc, "paths"), *path;
    const char *name;
    json_object_foreach(paths, name, path)
    {
        const json_t *get = json_object_get(path, "get");
        const json_t *parameters = json_object_get(get, "parameters");
        char target[512], takes[512] = "";
        if (!get || strcmp(name, "/api/session") == 0 || strcmp(name, "/api/version") == 0)
            continue;
        put_path(target, sizeof target, name, parameters);
        strcat(target, "?zzzzzzzz=1");
        for (size_t i = 0; i < json_array_size(parameters); i++)
            if (is_in(json_array_get(parameters, i), "query"))
                snprintf(takes + strlen(takes), sizeof takes - strlen(takes), "%s%s",
                         *takes ? ", " : "it takes ",
                         json_string_value(json_object_get(json_array_get(parameters, i), "name")));
        reply r = serve_get(&s, target);
        char wanted[600];
        snprintf(wanted, sizeof wanted, "'zzzzzzzz'%s %s\"}", *takes ? ";" : ",",
                 *takes ? takes : "and nothing else");
        if (r.code != 400 || !strstr(r.body, wanted))
            fail_msg("%s: wanted %s, got %s", name, wanted, r.body);
        reply_free(&r);
    }
}

/* ---- changes ---- */

static reply post(const char *target, const json_t *body)
{
    char *text = json_dumps(body, JSON_COMPACT);
    assert_non_null(text);
    reply r = serve_post(&s, target, text);
    free(text);
    return r;
}

/* The version that stands there now, in the place of the example's. */
static void put_version(json_t *body)
{
    char target[256];
    const json_t *craft = json_object_get(body, "craft"), *part = json_object_get(body, "part");
    if (!json_object_get(body, "version"))
        return;
    snprintf(target, sizeof target, "/api/version?%s=%s", craft ? "craft" : "part",
             json_string_value(craft ? craft : part));
    reply r = serve_get(&s, target);
    json_t *said = json_loads(r.body, 0, NULL);
    json_object_set(body, "version", json_object_get(said, "version"));
    json_decref(said);
    reply_free(&r);
}

static void change(const char *name, const json_t *path)
{
    const json_t *operation = json_object_get(path, "post");
    const json_t *json = json_object_get(
        json_object_get(json_object_get(operation, "requestBody"), "content"), "application/json");
    const json_t *schema = json_object_get(json, "schema");
    json_t *body = json_deep_copy(json_object_get(json, "example"));
    assert_non_null(body);
    put_version(body);
    check(body, schema, name);
    check_reply(post(name, body), operation, "200", name);
    if (json_object_get(body, "version")) /* it has moved by that */
        check_reply(post(name, body), operation, "409", name);
    json_object_set_new(body, "zzzzzzzz", json_true());
    check_reply(post(name, body), operation, "400", name);
    json_decref(body);
    /* What the file says that it takes is none of what is refused as unknown. */
    json_t *properties = json_object_get(schema, "properties"), *unused;
    const char *key;
    json_object_foreach(properties, key, unused)
    {
        json_t *one = json_pack("{s:{}}", key);
        reply r = post(name, one);
        char refused[128];
        snprintf(refused, sizeof refused, "takes no '%s'", key);
        if (strstr(r.body, refused))
            fail_msg("%s: %s", name, r.body);
        reply_free(&r);
        json_decref(one);
    }
}

static void every_change_is_made_as_promised(void **state)
{
    (void)state;
    /* In this order: there must be something to undo, and then to do again. */
    static const char *const names[] = {"/api/take",   "/api/edit", "/api/weigh", "/api/scale",
                                        "/api/import", "/api/undo", "/api/redo"};
    json_t *paths = json_object_get(doc, "paths"), *path;
    const char *name;
    size_t posts = 0;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        change(names[i], json_object_get(paths, names[i]));
    json_object_foreach(paths, name, path) posts += json_object_get(path, "post") != NULL;
    /* /api/enter is there only where other machines may ask: listen.c. */
    check_reply(serve_post(&s, "/api/enter", "{\"password\":\"x\"}"),
                json_object_get(json_object_get(paths, "/api/enter"), "post"), "404", "/api/enter");
    assert_int_equal(posts, sizeof names / sizeof names[0] + 1);
}

static void refusals_have_the_promised_shape(void **state)
{
    (void)state;
    json_t *paths = json_object_get(doc, "paths"), *path;
    const char *name;
    served stranger = s;
    stranger.cookie[0] = '\0';
    json_object_foreach(paths, name, path)
    {
        const json_t *get = json_object_get(path, "get");
        if (get)
            check_reply(serve_get(&stranger, name), get, "401", name);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_question_is_answered_as_promised),
        cmocka_unit_test(the_keys_of_a_question_are_the_files),
        cmocka_unit_test(refusals_have_the_promised_shape),
        cmocka_unit_test(every_change_is_made_as_promised),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
