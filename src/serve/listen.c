/* listen.c: the socket that the server listens at (see listen.h). */
#include "serve/listen.h"

#include <arpa/inet.h>
#include <errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

typedef union address {
    struct sockaddr any;
    struct sockaddr_in four;
    struct sockaddr_in6 six;
} address_union;

/* @return its length; 0: it is none by number */
static socklen_t read_address(const char *text, unsigned short port, address_union *at)
{
    *at = (address_union){0};
    if (inet_pton(AF_INET, text, &at->four.sin_addr) == 1) {
        at->four.sin_family = AF_INET;
        at->four.sin_port = htons(port);
        return sizeof at->four;
    }
    if (inet_pton(AF_INET6, text, &at->six.sin6_addr) == 1) {
        at->six.sin6_family = AF_INET6;
        at->six.sin6_port = htons(port);
        return sizeof at->six;
    }
    return 0;
}

/* @param[in,out] at  with the port that it has, afterwards
 * @return -1 with errno where there is none */
static int open_at(address_union *at, socklen_t size)
{
    enum { WAITING = 128 };
    const int on = 1, made = socket(at->any.sa_family, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (made < 0)
        return -1;
    /* A port whose last connections are still dying may be taken again. */
    setsockopt(made, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
    if (at->any.sa_family == AF_INET6)
        setsockopt(made, IPPROTO_IPV6, IPV6_V6ONLY, &on, sizeof on);
    if (bind(made, &at->any, size) == 0 && listen(made, WAITING) == 0 &&
        getsockname(made, &at->any, &size) == 0)
        return made;
    const int why = errno;
    close(made);
    errno = why;
    return -1;
}

int pare_listen_at(const char *address, unsigned short wanted, unsigned short *port,
                   pare_error *err)
{
    address_union at;
    const socklen_t size = read_address(address ? address : "127.0.0.1", wanted, &at);
    const int made = size > 0 ? open_at(&at, size) : -1;
    if (size == 0)
        pare_fail(err, PARE_BAD_DATA, "'%.60s' is no address by number", address);
    else if (made < 0 && errno == EADDRINUSE)
        pare_fail(err, PARE_UNAVAILABLE, "port %hu is taken; --port 0 takes one that is free",
                  wanted);
    else if (made < 0 && (errno == EADDRNOTAVAIL || errno == EAFNOSUPPORT))
        pare_fail(err, PARE_BAD_DATA, "%.60s is no address of this machine", address);
    else if (made < 0)
        pare_fail(err, PARE_UNAVAILABLE, "cannot listen at port %hu: %s", wanted, strerror(errno));
    else
        *port = ntohs(at.any.sa_family == AF_INET6 ? at.six.sin6_port : at.four.sin_port);
    return made;
}

void pare_listen_local(int connection, char text[LISTEN_ADDRESS])
{
    address_union at = {0};
    socklen_t size = sizeof at;
    char number[INET6_ADDRSTRLEN] = "";
    text[0] = '\0';
    if (getsockname(connection, &at.any, &size) != 0)
        return;
    const bool six = at.any.sa_family == AF_INET6;
    if (six)
        inet_ntop(AF_INET6, &at.six.sin6_addr, number, sizeof number);
    else if (at.any.sa_family == AF_INET)
        inet_ntop(AF_INET, &at.four.sin_addr, number, sizeof number);
    if (*number)
        snprintf(text, LISTEN_ADDRESS, six ? "[%.45s]" : "%.45s", number);
}
