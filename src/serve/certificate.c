/* certificate.c: what a browser is shown (see certificate.h). By GnuTLS, which the server's library uses. */
#include "serve/certificate.h"

#include <arpa/inet.h>
#include <limits.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include <gnutls/crypto.h>
#include <gnutls/x509.h>

#include "store/disk.h"

enum {
    LARGEST = 256 * 1024, /* bytes of a file */
    LASTS_DAYS = 397,     /* some browsers take no certificate for longer; from memory */
    SERIAL = 16,          /* bytes */
    CHAIN = 16            /* certificates, at most */
};
#define DAY_S 86400

static pare_status failed(pare_error *err, const char *path, const char *doing, int code)
{
    return pare_fail(err, PARE_BAD_DATA, "%s: %s: %s", path, doing, gnutls_strerror(code));
}

/* ---- reading ---- */

/* A key that everybody can read is no secret. */
static pare_status read_file(const char *path, pare_arena *arena, pare_certificate *certificate,
                             pare_error *err)
{
    struct stat is;
    size_t length = 0;
    const pare_status status =
        pare_disk_read(path, LARGEST, arena, &certificate->pem, &length, err);
    if (status == PARE_OK && stat(path, &is) == 0 && is.st_mode & S_IRWXO)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s holds a key, and everybody may read it; right would be chmod 600",
                         path);
    if (status == PARE_OK && strlen(certificate->pem) != length)
        return pare_fail(err, PARE_BAD_DATA, "%s: a NUL stands in it; PEM is due", path);
    return status;
}

static pare_status check_key(gnutls_x509_crt_t first, const gnutls_datum_t *pem, const char *path,
                             pare_error *err)
{
    unsigned char of_key[64], of_first[64];
    size_t key_size = sizeof of_key, first_size = sizeof of_first;
    gnutls_x509_privkey_t key;
    if (gnutls_x509_privkey_init(&key) < 0)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    int code = gnutls_x509_privkey_import2(key, pem, GNUTLS_X509_FMT_PEM, NULL, 0);
    if (code < 0)
        status = failed(err, path, "no private key that can be read without a passphrase", code);
    else if (gnutls_x509_privkey_get_key_id(key, GNUTLS_KEYID_USE_SHA256, of_key, &key_size) < 0 ||
             gnutls_x509_crt_get_key_id(first, GNUTLS_KEYID_USE_SHA256, of_first, &first_size) <
                 0 ||
             key_size != first_size || memcmp(of_key, of_first, key_size) != 0)
        status =
            pare_fail(err, PARE_BAD_DATA, "%s: the key is not that of the first certificate", path);
    gnutls_x509_privkey_deinit(key);
    return status;
}

static void take_fingerprint(gnutls_x509_crt_t first, char text[CERTIFICATE_FINGERPRINT])
{
    unsigned char bytes[32];
    size_t size = sizeof bytes;
    text[0] = '\0';
    if (gnutls_x509_crt_get_fingerprint(first, GNUTLS_DIG_SHA256, bytes, &size) < 0)
        return;
    for (size_t i = 0; i < size; i++)
        sprintf(text + 3 * i, "%02X%s", bytes[i], i + 1 < size ? ":" : "");
}

static bool is_over(gnutls_x509_crt_t first)
{
    return gnutls_x509_crt_get_expiration_time(first) <= time(NULL);
}

/* The address as bytes. @return how many; 0: it is not one by number */
static unsigned as_bytes(const char *address, unsigned char bytes[16])
{
    return inet_pton(AF_INET, address, bytes) == 1    ? 4
           : inet_pton(AF_INET6, address, bytes) == 1 ? 16
                                                      : 0;
}

static bool is_any(const char *address)
{
    static const unsigned char none[16];
    unsigned char bytes[16];
    const unsigned size = as_bytes(address, bytes);
    return size > 0 && memcmp(bytes, none, size) == 0;
}

/* Whether it names an address; all of them together are no name. */
static bool names(gnutls_x509_crt_t first, const char *address)
{
    unsigned char bytes[16];
    const unsigned size = as_bytes(address, bytes);
    return is_any(address) || gnutls_x509_crt_check_ip(first, bytes, size, 0) != 0;
}

/* What it is, from its text.
 * @param address  NULL: whatever it names
 * @param[out] serves  false: its time is over or it names another address, which is no error */
static pare_status look_at(pare_certificate *certificate, const char *path, const char *address,
                           bool *serves, pare_error *err)
{
    const gnutls_datum_t pem = {.data = (unsigned char *)(uintptr_t)certificate->pem,
                                .size = (unsigned)strlen(certificate->pem)};
    gnutls_x509_crt_t chain[CHAIN];
    unsigned count = CHAIN;
    const int code = gnutls_x509_crt_list_import(chain, &count, &pem, GNUTLS_X509_FMT_PEM,
                                                 GNUTLS_X509_CRT_LIST_IMPORT_FAIL_IF_EXCEED);
    if (code < 0)
        return failed(err, path, "no certificate in PEM", code);
    const pare_status status = check_key(chain[0], &pem, path, err);
    take_fingerprint(chain[0], certificate->fingerprint);
    *serves = !is_over(chain[0]) && (!address || names(chain[0], address));
    for (unsigned i = 0; i < count; i++)
        gnutls_x509_crt_deinit(chain[i]);
    return status;
}

pare_status pare_certificate_read(const char *path, pare_arena *arena,
                                  pare_certificate *certificate, pare_error *err)
{
    bool serves = false;
    *certificate = (pare_certificate){0};
    pare_status status = read_file(path, arena, certificate, err);
    if (status == PARE_OK)
        status = look_at(certificate, path, NULL, &serves, err);
    return status != PARE_OK || serves
               ? status
               : pare_fail(err, PARE_BAD_DATA, "%s: the certificate's time is over", path);
}

/* ---- making ---- */

static int put_name(gnutls_x509_crt_t one, const char *name)
{
    return gnutls_x509_crt_set_subject_alt_name(one, GNUTLS_SAN_DNSNAME, name,
                                                (unsigned)strlen(name), GNUTLS_FSAN_APPEND);
}

static int put_address(gnutls_x509_crt_t one, const char *address)
{
    unsigned char bytes[16];
    const unsigned size = as_bytes(address, bytes);
    return size == 0 ? 0
                     : gnutls_x509_crt_set_subject_alt_name(one, GNUTLS_SAN_IPADDRESS, bytes, size,
                                                            GNUTLS_FSAN_APPEND);
}

static int put_names(gnutls_x509_crt_t one, const char *address)
{
    char host[HOST_NAME_MAX + 1] = "", local[HOST_NAME_MAX + 8];
    int code = put_name(one, "localhost");
    if (gethostname(host, sizeof host) == 0 && *host) {
        host[sizeof host - 1] = '\0';
        snprintf(local, sizeof local, "%s.local", host);
        code = code < 0 ? code : put_name(one, host);
        code = code < 0 ? code : put_name(one, local);
    }
    code = code < 0 ? code : put_address(one, "127.0.0.1");
    return code < 0 || is_any(address) ? code : put_address(one, address);
}

/* It may say who it is, and sign nothing but itself. */
static int fill(gnutls_x509_crt_t one, gnutls_x509_privkey_t key, const char *address)
{
    static const char name[] = "Pare on this machine";
    unsigned char serial[SERIAL];
    const time_t now = time(NULL);
    int code = gnutls_rnd(GNUTLS_RND_NONCE, serial, sizeof serial);
    serial[0] &= 0x7f; /* a positive number */
    code = code < 0 ? code : gnutls_x509_crt_set_version(one, 3);
    code = code < 0 ? code : gnutls_x509_crt_set_serial(one, serial, sizeof serial);
    code = code < 0 ? code : gnutls_x509_crt_set_activation_time(one, now - DAY_S);
    code = code < 0
               ? code
               : gnutls_x509_crt_set_expiration_time(one, now + (time_t)(LASTS_DAYS - 1) * DAY_S);
    code = code < 0 ? code
                    : gnutls_x509_crt_set_dn_by_oid(one, GNUTLS_OID_X520_COMMON_NAME, 0, name,
                                                    sizeof name - 1);
    code = code < 0 ? code : put_names(one, address);
    code = code < 0 ? code : gnutls_x509_crt_set_basic_constraints(one, 0, -1);
    code = code < 0 ? code : gnutls_x509_crt_set_key_usage(one, GNUTLS_KEY_DIGITAL_SIGNATURE);
    code = code < 0 ? code : gnutls_x509_crt_set_key_purpose_oid(one, GNUTLS_KP_TLS_WWW_SERVER, 0);
    code = code < 0 ? code : gnutls_x509_crt_set_key(one, key);
    return code < 0 ? code : gnutls_x509_crt_sign2(one, one, key, GNUTLS_DIG_SHA256, 0);
}

static int export_both(gnutls_x509_crt_t one, gnutls_x509_privkey_t key, pare_arena *arena,
                       const char **pem)
{
    gnutls_datum_t key_text = {0}, text = {0};
    int code = gnutls_x509_privkey_export2(key, GNUTLS_X509_FMT_PEM, &key_text);
    code = code < 0 ? code : gnutls_x509_crt_export2(one, GNUTLS_X509_FMT_PEM, &text);
    if (code >= 0) {
        *pem = pare_arena_printf(arena, "%.*s%.*s", (int)key_text.size, (const char *)key_text.data,
                                 (int)text.size, (const char *)text.data);
        code = *pem ? 0 : GNUTLS_E_MEMORY_ERROR;
    }
    gnutls_free(key_text.data);
    gnutls_free(text.data);
    return code;
}

static pare_status make(const char *address, pare_arena *arena, const char **pem, pare_error *err)
{
    const unsigned bits = GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1);
    gnutls_x509_crt_t one = NULL;
    gnutls_x509_privkey_t key = NULL;
    int code = gnutls_x509_crt_init(&one);
    code = code < 0 ? code : gnutls_x509_privkey_init(&key);
    code = code < 0 ? code : gnutls_x509_privkey_generate(key, GNUTLS_PK_ECDSA, bits, 0);
    code = code < 0 ? code : fill(one, key, address);
    code = code < 0 ? code : export_both(one, key, arena, pem);
    if (one)
        gnutls_x509_crt_deinit(one);
    if (key)
        gnutls_x509_privkey_deinit(key);
    return code < 0 ? pare_fail(err, PARE_UNAVAILABLE, "no certificate can be made: %s",
                                gnutls_strerror(code))
                    : PARE_OK;
}

pare_status pare_certificate_own(const char *path, const char *address, pare_arena *arena,
                                 pare_certificate *certificate, pare_error *err)
{
    bool serves = false;
    *certificate = (pare_certificate){0};
    pare_status status = PARE_OK;
    if (pare_disk_has(path)) {
        status = read_file(path, arena, certificate, err);
        if (status == PARE_OK)
            status = look_at(certificate, path, address, &serves, err);
    }
    if (status != PARE_OK || serves)
        return status;
    status = make(address, arena, &certificate->pem, err);
    if (status == PARE_OK)
        status = pare_disk_folders(path, err);
    if (status == PARE_OK)
        status = pare_disk_replace_secret(path, certificate->pem, strlen(certificate->pem), err);
    return status == PARE_OK ? look_at(certificate, path, address, &serves, err) : status;
}
