/* utf8.c: characters of UTF-8 (see utf8.h). Source: RFC 3629, with its shortest-form rule. */
#include "store/utf8.h"

size_t pare_utf8_character(const unsigned char *c, size_t left, unsigned *code)
{
    static const unsigned least[] = {0, 0, 0x80, 0x800, 0x10000};
    const size_t length = *c < 0x80       ? 1
                          : *c >> 5 == 6  ? 2
                          : *c >> 4 == 14 ? 3
                          : *c >> 3 == 30 ? 4
                                          : 0;
    if (length == 0 || length > left)
        return 0;
    *code = length == 1 ? *c : *c & (0x7fu >> length);
    for (size_t i = 1; i < length; i++) {
        if (c[i] >> 6 != 2)
            return 0;
        *code = *code << 6 | (c[i] & 0x3fu);
    }
    if (*code < least[length] || *code > 0x10ffff || (*code >= 0xd800 && *code <= 0xdfff))
        return 0;
    return length;
}

bool pare_utf8_is_control(unsigned code)
{
    return code < 0x20 || (code >= 0x7f && code <= 0x9f) || code == 0x2028 || code == 0x2029 ||
           (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069) ||
           code == 0xfeff || code == 0xfffe || code == 0xffff;
}
