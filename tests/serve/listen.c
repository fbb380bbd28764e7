/* listen.c: a server that other machines may ask: over TLS alone, by a password alone, which nobody else
 * sees and nobody guesses quickly. The client is GnuTLS's. */
#define _XOPEN_SOURCE 700

#include "tls.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <gnutls/crypto.h>
#include <gnutls/x509.h>

#define PASSWORD "four heavy red bricks"
static const char *const USUAL[] = {"--listen=0.0.0.0", "--password-file=password", NULL};
static const char OWN[] = "data/pare/listen.pem";

static int start(void **state)
{
    if (enter_home_with_demo(state) != 0)
        return -1;
    write_text("password", PASSWORD "\nwhat stands here is no part of it\n");
    return chmod("password", 0600);
}

static void stop(tls_server *t)
{
    serve_stop(&t->s, SIGTERM);
}

/* In by the password; the cookie is kept. */
static void enter(tls_server *t)
{
    reply r = tls_post(t, "/api/enter", "{\"password\":\"" PASSWORD "\"}");
    assert_int_equal(r.code, 200);
    const char *cookie = reply_header(&r, "Set-Cookie");
    assert_non_null(cookie);
    assert_non_null(strstr(cookie, "; Secure"));
    assert_non_null(strstr(cookie, "; HttpOnly"));
    assert_non_null(strstr(cookie, "; SameSite=Strict"));
    assert_ptr_equal(strstr(cookie, "__Host-"), cookie);
    snprintf(t->s.cookie, sizeof t->s.cookie, "%.*s", (int)strcspn(cookie, ";"), cookie);
    reply_free(&r);
}

static void the_password_lets_in_and_nothing_else_does(void **state)
{
    (void)state;
    tls_server t = tls_start(USUAL);
    assert_non_null(strstr(t.caution, "whoever has the password"));
    assert_null(strstr(t.link, "token"));
    reply r = tls_get(&t, "/");
    assert_int_equal(r.code, 200);
    assert_non_null(reply_header(&r, "Content-Security-Policy"));
    reply_free(&r);
    r = tls_get(&t, "/api/craft");
    assert_non_null(strstr(r.body, "\"enter\":\"/api/enter\""));
    assert_refused(r, 401, "say the password");
    assert_refused(tls_post(&t, "/api/undo", "{}"), 401, "say the password");
    assert_refused(tls_get(&t, "/?token=AAAA"), 403, "no link lets in");
    assert_refused(tls_post(&t, "/api/enter", "{\"password\":\"four heavy red brick\"}"), 403,
                   "not the password");
    assert_refused(tls_post(&t, "/api/enter", "{\"password\":\"\"}"), 403, "not the password");
    enter(&t);
    r = tls_get(&t, "/api/craft");
    assert_int_equal(r.code, 200);
    ran wanted = run("craft --json" DEMO);
    assert_string_equal(r.body, wanted.out);
    ran_free(&wanted);
    reply_free(&r);
    /* Larger than a record of TLS. */
    r = tls_get(&t, "/api/sheet?craft=hedgerow");
    wanted = run("sheet hedgerow --json" DEMO);
    assert_string_equal(r.body, wanted.out);
    ran_free(&wanted);
    reply_free(&r);
    stop(&t);
}

static void what_comes_in_by_the_door_is_looked_at(void **state)
{
    (void)state;
    static const char *const wrong[] = {"",
                                        "{",
                                        "[]",
                                        "{}",
                                        "{\"password\":1}",
                                        "{\"password\":null}",
                                        "{\"password\":\"a\",\"password\":\"b\"}",
                                        "{\"password\":\"" PASSWORD "\",\"more\":1}",
                                        "{\"password\":\"\\u0000\"}",
                                        "\xff"};
    tls_server t = tls_start(USUAL);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_refused(tls_post(&t, "/api/enter", wrong[i]), 400, "/api/enter needs");
    char *large = malloc(5001);
    assert_non_null(large);
    memset(large, 'x', 5000);
    large[5000] = '\0';
    assert_refused(tls_post(&t, "/api/enter", large), 413, "4 KiB");
    free(large);
    char headers[512];
    snprintf(headers, sizeof headers, "Host: 127.0.0.1:%hu\r\nContent-Type: application/json\r\n",
             t.s.port);
    assert_refused(tls_ask(&t, "POST", "/api/enter", headers, "{}"), 403, "Origin");
    snprintf(headers, sizeof headers,
             "Host: 127.0.0.1:%hu\r\nOrigin: http://127.0.0.1:%hu\r\n"
             "Content-Type: application/json\r\n",
             t.s.port, t.s.port);
    assert_refused(tls_ask(&t, "POST", "/api/enter", headers, "{}"), 403, "another site");
    assert_refused(tls_get(&t, "/api/enter"), 405, "POST");
    stop(&t);
}

/* Also a name that a stranger gives this very address. */
static void foreign_names_are_refused(void **state)
{
    (void)state;
    static const char *const hosts[] = {"evil.example", "127.0.0.1", "127.0.0.2", "10.0.0.1"};
    tls_server t = tls_start(USUAL);
    char headers[512], machine[256];
    enter(&t);
    for (size_t i = 0; i < sizeof hosts / sizeof hosts[0]; i++) {
        snprintf(headers, sizeof headers, "Host: %s%s\r\nCookie: %s\r\n", hosts[i],
                 i == 1 ? "" : ":443", t.s.cookie);
        assert_refused(tls_ask(&t, "GET", "/api/craft", headers, NULL), 403, "Host");
    }
    assert_int_equal(gethostname(machine, sizeof machine), 0);
    snprintf(headers, sizeof headers, "Host: %s:%hu\r\nCookie: %s\r\n", machine, t.s.port,
             t.s.cookie);
    reply r = tls_ask(&t, "GET", "/api/craft", headers, NULL);
    assert_int_equal(r.code, 200);
    reply_free(&r);
    stop(&t);
}

/* The same client sees no answer in the clear: not the page, not a redirect. */
static void nothing_is_said_without_tls(void **state)
{
    (void)state;
    tls_server t = tls_start(USUAL);
    reply r = serve_get(&t.s, "/");
    assert_int_equal(r.code, 0);
    assert_null(strstr(r.head, "HTTP"));
    reply_free(&r);
    r = tls_get(&t, "/");
    assert_int_equal(r.code, 200);
    reply_free(&r);
    stop(&t);
}

/* The third wrong one in a row makes the next wait, though it be right; then it is let in. */
static void who_guesses_waits(void **state)
{
    (void)state;
    tls_server t = tls_start(USUAL);
    static const char wrong[] = "{\"password\":\"an entirely wrong one\"}";
    assert_refused(tls_post(&t, "/api/enter", wrong), 403, "not the password");
    assert_refused(tls_post(&t, "/api/enter", wrong), 403, "not the password");
    assert_refused(tls_post(&t, "/api/enter", wrong), 403, "looked at in 2 s");
    reply r = tls_post(&t, "/api/enter", "{\"password\":\"" PASSWORD "\"}");
    assert_int_equal(r.code, 429);
    assert_non_null(reply_header(&r, "Retry-After"));
    assert_null(reply_header(&r, "Set-Cookie"));
    reply_free(&r);
    for (int tries = 0;; tries++) {
        r = tls_post(&t, "/api/enter", "{\"password\":\"" PASSWORD "\"}");
        const int code = r.code;
        reply_free(&r);
        if (code == 200)
            break;
        assert_int_equal(code, 429);
        assert_true(tries < 300);
        poll(NULL, 0, 100);
    }
    assert_refused(tls_post(&t, "/api/enter", wrong), 403, "not the password");
    stop(&t);
}

/* One who opens connections and says nothing has some of them, not all; and guesses of one address make
 * nobody at another wait. */
static void one_address_takes_not_all(void **state)
{
    (void)state;
    enum { SILENT = 250 };
    static const char wrong[] = "{\"password\":\"an entirely wrong one\"}";
    static int open[SILENT];
    tls_server t = tls_start(USUAL);
    t.from = "127.0.0.3";
    for (int i = 0; i < 3; i++)
        assert_refused(tls_post(&t, "/api/enter", wrong), 403, "not the password");
    for (int i = 0; i < SILENT; i++)
        open[i] = tls_connect(&t);
    t.from = "127.0.0.4";
    enter(&t);
    reply r = tls_get(&t, "/api/craft");
    assert_int_equal(r.code, 200);
    reply_free(&r);
    for (int i = 0; i < SILENT; i++)
        close(open[i]);
    stop(&t);
}

/* ---- the certificate ---- */

static void the_certificate_is_made_once_and_is_nobody_elses(void **state)
{
    (void)state;
    remove(OWN);
    tls_server one = tls_start(USUAL);
    struct stat is;
    assert_int_equal(stat(OWN, &is), 0);
    assert_int_equal(is.st_mode & 07777, 0600);
    stop(&one);
    tls_server two = tls_start(USUAL);
    assert_string_equal(one.fingerprint, two.fingerprint);
    stop(&two);
    assert_int_equal(chmod(OWN, 0644), 0);
    run_refuses("serve --listen 0.0.0.0 --password-file password" DEMO, 3,
                "pare: HOME/data/pare/listen.pem holds a key, and everybody may read it; right "
                "would be chmod 600\n");
    write_text("data/pare/listen.pem", "no certificate\n");
    assert_int_equal(chmod(OWN, 0600), 0);
    ran r = run("serve --listen 0.0.0.0 --password-file password" DEMO);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "listen.pem: no certificate in PEM"));
    ran_free(&r);
    remove(OWN);
}

/* A certificate made here, with openssl's place taken by the library: to be given by a user. */
static void make(const char *name, time_t ends, bool other_key)
{
    gnutls_x509_privkey_t key, other;
    gnutls_x509_crt_t one;
    gnutls_datum_t key_text, text;
    static const unsigned char serial[] = {1, 2, 3};
    const unsigned bits = GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1);
    assert_int_equal(gnutls_x509_privkey_init(&key), 0);
    assert_int_equal(gnutls_x509_privkey_init(&other), 0);
    assert_int_equal(gnutls_x509_privkey_generate(key, GNUTLS_PK_ECDSA, bits, 0), 0);
    assert_int_equal(gnutls_x509_privkey_generate(other, GNUTLS_PK_ECDSA, bits, 0), 0);
    assert_int_equal(gnutls_x509_crt_init(&one), 0);
    assert_int_equal(gnutls_x509_crt_set_version(one, 3), 0);
    assert_int_equal(gnutls_x509_crt_set_serial(one, serial, sizeof serial), 0);
    assert_int_equal(gnutls_x509_crt_set_activation_time(one, time(NULL) - 1000000), 0);
    assert_int_equal(gnutls_x509_crt_set_expiration_time(one, ends), 0);
    assert_int_equal(gnutls_x509_crt_set_dn(one, "CN=test", NULL), 0);
    assert_int_equal(gnutls_x509_crt_set_key(one, key), 0);
    assert_int_equal(gnutls_x509_crt_sign2(one, one, key, GNUTLS_DIG_SHA256, 0), 0);
    assert_int_equal(
        gnutls_x509_privkey_export2(other_key ? other : key, GNUTLS_X509_FMT_PEM, &key_text), 0);
    assert_int_equal(gnutls_x509_crt_export2(one, GNUTLS_X509_FMT_PEM, &text), 0);
    FILE *file = fopen(name, "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text.data, 1, text.size, file), text.size);
    assert_int_equal(fwrite(key_text.data, 1, key_text.size, file), key_text.size);
    assert_int_equal(fclose(file), 0);
    assert_int_equal(chmod(name, 0600), 0);
    gnutls_free(key_text.data);
    gnutls_free(text.data);
    gnutls_x509_crt_deinit(one);
    gnutls_x509_privkey_deinit(key);
    gnutls_x509_privkey_deinit(other);
}

static void a_certificate_of_the_users_own_is_taken(void **state)
{
    (void)state;
    static const char *const with[] = {"--listen=0.0.0.0", "--password-file=password",
                                       "--certificate=own.pem", NULL};
    make("own.pem", time(NULL) + 1000000, false);
    remove(OWN);
    tls_server t = tls_start(with);
    reply r = tls_get(&t, "/"); /* what it shows has the fingerprint that was said */
    assert_int_equal(r.code, 200);
    reply_free(&r);
    stop(&t);
    assert_int_not_equal(access(OWN, F_OK), 0);
    make("own.pem", time(NULL) - 1000, false);
    run_refuses("serve --listen 0.0.0.0 --password-file password --certificate own.pem" DEMO, 3,
                "pare: own.pem: the certificate's time is over\n");
    make("own.pem", time(NULL) + 1000000, true);
    run_refuses("serve --listen 0.0.0.0 --password-file password --certificate own.pem" DEMO, 3,
                "pare: own.pem: the key is not that of the first certificate\n");
    ran none = run("serve --listen 0.0.0.0 --password-file password --certificate none.pem" DEMO);
    assert_int_equal(none.status, 3);
    assert_non_null(strstr(none.err, "none.pem"));
    ran_free(&none);
}

/* One whose time is over, or that names another address than the one asked for, is made anew. */
static void one_that_no_longer_serves_is_made_anew(void **state)
{
    (void)state;
    make(OWN, time(NULL) - 1000, false);
    char *before = read_file(OWN);
    tls_server t = tls_start(USUAL);
    stop(&t);
    char *after = read_file(OWN);
    assert_string_not_equal(before, after);
    static const char *const at_two[] = {"--listen=127.0.0.2", "--password-file=password", NULL};
    tls_server other = tls_start(at_two);
    assert_ptr_equal(strstr(other.link, "https://127.0.0.2:"), other.link);
    stop(&other);
    char *last = read_file(OWN);
    assert_string_not_equal(after, last);
    free(before);
    free(after);
    free(last);
}

/* ---- what is refused before it starts ---- */

static void what_is_no_secret_is_refused(void **state)
{
    (void)state;
    run_refuses("serve --listen 10.255.255.1x --password-file password" DEMO, 3,
                "pare: --listen '10.255.255.1x'; right would be an address of this machine by "
                "number, such as 192.168.1.20, or 0.0.0.0 for all it has\n");
    run_refuses("serve --listen 192.0.2.7 --password-file password" DEMO, 3,
                "pare: 192.0.2.7 is no address of this machine\n");
    run_refuses(
        "serve --password-file password" DEMO, 3,
        "pare: --password-file goes with --listen ADDRESS; this machine alone needs none\n");
    run_refuses("serve --listen 0.0.0.0 --password-file none" DEMO, 3,
                "pare: --password-file none: No such file or directory; a file is due, with the "
                "password in its first line\n");
    write_text("weak", "short\n");
    assert_int_equal(chmod("weak", 0600), 0);
    run_refuses("serve --listen 0.0.0.0 --password-file weak" DEMO, 3,
                "pare: the password has 5 characters; right would be 12 to 256, such as five words "
                "drawn by dice\n");
    assert_int_equal(chmod("weak", 0640), 0);
    run_refuses("serve --listen 0.0.0.0 --password-file weak" DEMO, 3,
                "pare: weak can be read by others than you; right would be chmod 600\n");
    write_text("empty", "\n" PASSWORD "\n");
    assert_int_equal(chmod("empty", 0600), 0);
    run_refuses("serve --listen 0.0.0.0 --password-file empty" DEMO, 3,
                "pare: empty: no password\n");
    write_zeros("zeros", 100);
    assert_int_equal(chmod("zeros", 0600), 0);
    run_refuses("serve --listen 0.0.0.0 --password-file zeros" DEMO, 3,
                "pare: zeros: a NUL stands in the password\n");
    write_zeros("zeros", 5000);
    run_refuses("serve --listen 0.0.0.0 --password-file zeros" DEMO, 3,
                "pare: zeros: its first line cannot be read as a password\n");
}

/* ---- typed ---- */

/* The program with a terminal of its own. @return its exit status; what the terminal showed in `shown` */
static int at_a_terminal(const char *first, const char *second, char *shown, size_t size)
{
    static char program[] = PARE_PROGRAM, serve[] = "serve", listen[] = "--listen=0.0.0.0",
                port[] = "--port=0", time_s[] = "--time=1",
                bench[] = "--bench=data/pare/demo.sqlite";
    char *const argv[] = {program, serve, listen, port, time_s, bench, NULL};
    const int master = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(master >= 0 && grantpt(master) == 0 && unlockpt(master) == 0);
    char name[64];
    snprintf(name, sizeof name, "%s", ptsname(master));
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        setsid();
        const int slave = open(name, O_RDWR); /* the session's own, as it has none yet */
        dup2(slave, 0);
        dup2(slave, 1);
        dup2(slave, 2);
        close(master);
        execv(argv[0], argv);
        _exit(127);
    }
    size_t length = 0;
    int asked = 0;
    shown[0] = '\0';
    for (;;) {
        struct pollfd ready = {.fd = master, .events = POLLIN};
        assert_true(poll(&ready, 1, 60000) > 0);
        const ssize_t got = read(master, shown + length, size - 1 - length);
        if (got <= 0)
            break; /* EIO: the child has gone */
        length += (size_t)got;
        shown[length] = '\0';
        const char *wait_for = asked == 0 ? "machines: " : "again: ";
        if (asked < 2 && strstr(shown, wait_for)) {
            const char *word = asked == 0 ? first : second;
            assert_int_equal(write(master, word, strlen(word)), (ssize_t)strlen(word));
            asked++;
        }
    }
    close(master);
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

static void a_password_is_typed_unseen(void **state)
{
    (void)state;
    char shown[4096];
    assert_int_equal(at_a_terminal(PASSWORD "\n", PASSWORD "\n", shown, sizeof shown), 0);
    assert_null(strstr(shown, "bricks"));
    assert_non_null(strstr(shown, "https://"));
    assert_non_null(strstr(shown, "warning: Other machines may ask"));
    assert_int_equal(at_a_terminal(PASSWORD "\n", "another one entirely\n", shown, sizeof shown),
                     3);
    assert_non_null(strstr(shown, "the two passwords differ"));
    assert_null(strstr(shown, "entirely"));
    /* Ctrl-C. */
    assert_int_equal(at_a_terminal("half a pass\003", "", shown, sizeof shown), -SIGINT);
}

/* Where there is none, it says what would do. */
static void without_a_terminal_a_file_is_due(void **state)
{
    (void)state;
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        setsid();
        ran r = run("serve --listen 0.0.0.0" DEMO);
        _exit(r.status == 3 && strstr(r.err, "right would be --password-file FILE") ? 0 : 1);
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_password_lets_in_and_nothing_else_does),
        cmocka_unit_test(what_comes_in_by_the_door_is_looked_at),
        cmocka_unit_test(foreign_names_are_refused),
        cmocka_unit_test(nothing_is_said_without_tls),
        cmocka_unit_test(who_guesses_waits),
        cmocka_unit_test(one_address_takes_not_all),
        cmocka_unit_test(the_certificate_is_made_once_and_is_nobody_elses),
        cmocka_unit_test(a_certificate_of_the_users_own_is_taken),
        cmocka_unit_test(one_that_no_longer_serves_is_made_anew),
        cmocka_unit_test(what_is_no_secret_is_refused),
        cmocka_unit_test(a_password_is_typed_unseen),
        cmocka_unit_test(without_a_terminal_a_file_is_due),
    };
    return cmocka_run_group_tests(tests, start, leave_home);
}
