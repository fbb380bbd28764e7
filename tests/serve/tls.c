/* tls.c: a client over TLS (see tls.h). */
#include "tls.h"

#include <arpa/inet.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#include <gnutls/gnutls.h>
#include <gnutls/x509.h>

enum { LINE = 4096 };

static void take_text(const json_t *said, const char *key, char *text, size_t size)
{
    const char *value = json_string_value(json_object_get(said, key));
    snprintf(text, size, "%s", value ? value : "");
}

tls_server tls_start(const char *const more[])
{
    tls_server t = {0};
    json_t *said = serve_launch(&t.s, "data/pare/demo.sqlite", more);
    take_text(said, "link", t.link, sizeof t.link);
    take_text(said, "fingerprint", t.fingerprint, sizeof t.fingerprint);
    take_text(said, "caution", t.caution, sizeof t.caution);
    json_decref(said);
    const char *port = strrchr(t.link, ':');
    assert_non_null(port);
    t.s.port = (unsigned short)strtoul(port + 1, NULL, 10);
    return t;
}

static void assert_known(gnutls_session_t session, const char *fingerprint)
{
    unsigned count = 0;
    unsigned char bytes[32];
    size_t size = sizeof bytes;
    char text[96];
    const gnutls_datum_t *shown = gnutls_certificate_get_peers(session, &count);
    assert_true(shown && count > 0);
    assert_int_equal(gnutls_fingerprint(GNUTLS_DIG_SHA256, &shown[0], bytes, &size), 0);
    for (size_t i = 0; i < size; i++)
        sprintf(text + 3 * i, "%02X%s", bytes[i], i + 1 < size ? ":" : "");
    assert_string_equal(text, fingerprint);
}

static reply read_all(gnutls_session_t session)
{
    size_t room = 1 << 16, length = 0;
    char *bytes = malloc(room);
    assert_non_null(bytes);
    for (;;) {
        if (length + 1 == room) {
            room *= 2;
            bytes = realloc(bytes, room);
            assert_non_null(bytes);
        }
        const ssize_t more = gnutls_record_recv(session, bytes + length, room - 1 - length);
        if (more == GNUTLS_E_AGAIN || more == GNUTLS_E_INTERRUPTED)
            continue;
        if (more <= 0)
            break;
        length += (size_t)more;
    }
    bytes[length] = '\0';
    return reply_of(bytes, length);
}

static void send_all(gnutls_session_t session, const char *text)
{
    for (size_t length = strlen(text), done = 0; done < length;) {
        const ssize_t sent = gnutls_record_send(session, text + done, length - done);
        if (sent == GNUTLS_E_AGAIN || sent == GNUTLS_E_INTERRUPTED)
            continue;
        if (sent < 0)
            return; /* what it refuses it may have closed; its answer says so */
        done += (size_t)sent;
    }
}

int tls_connect(const tls_server *t)
{
    struct sockaddr_in address = {.sin_family = AF_INET};
    const int made = socket(AF_INET, SOCK_STREAM, 0);
    assert_true(made >= 0);
    if (t->from) {
        assert_int_equal(inet_pton(AF_INET, t->from, &address.sin_addr), 1);
        assert_int_equal(bind(made, (const struct sockaddr *)&address, sizeof address), 0);
    }
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    address.sin_port = htons(t->s.port);
    assert_int_equal(connect(made, (const struct sockaddr *)&address, sizeof address), 0);
    return made;
}

reply tls_ask(const tls_server *t, const char *method, const char *target, const char *headers,
              const char *body)
{
    char head[2 * LINE], length[64] = "";
    gnutls_certificate_credentials_t nobody;
    gnutls_session_t session;
    if (body)
        snprintf(length, sizeof length, "Content-Length: %zu\r\n", strlen(body));
    const int size = snprintf(head, sizeof head, "%s %s HTTP/1.1\r\n%s%sConnection: close\r\n\r\n",
                              method, target, headers, length);
    assert_true(size > 0 && (size_t)size < sizeof head);
    const int socket = tls_connect(t);
    assert_int_equal(gnutls_certificate_allocate_credentials(&nobody), 0);
    assert_int_equal(gnutls_init(&session, GNUTLS_CLIENT), 0);
    assert_int_equal(gnutls_set_default_priority(session), 0);
    assert_int_equal(gnutls_credentials_set(session, GNUTLS_CRD_CERTIFICATE, nobody), 0);
    gnutls_transport_set_int(session, socket);
    gnutls_handshake_set_timeout(session, 30000);
    int code;
    do
        code = gnutls_handshake(session);
    while (code < 0 && !gnutls_error_is_fatal(code));
    if (code < 0)
        fail_msg("no TLS: %s", gnutls_strerror(code));
    assert_known(session, t->fingerprint);
    send_all(session, head);
    if (body)
        send_all(session, body);
    reply r = read_all(session);
    gnutls_deinit(session);
    gnutls_certificate_free_credentials(nobody);
    close(socket);
    return r;
}

reply tls_get(const tls_server *t, const char *target)
{
    char headers[LINE];
    snprintf(headers, sizeof headers, "Host: 127.0.0.1:%hu\r\nCookie: %s\r\n", t->s.port,
             t->s.cookie);
    return tls_ask(t, "GET", target, headers, NULL);
}

reply tls_post(const tls_server *t, const char *target, const char *body)
{
    char headers[LINE];
    snprintf(headers, sizeof headers,
             "Host: 127.0.0.1:%hu\r\nOrigin: https://127.0.0.1:%hu\r\nCookie: %s\r\n"
             "Content-Type: application/json\r\n",
             t->s.port, t->s.port, t->s.cookie);
    return tls_ask(t, "POST", target, headers, body);
}
