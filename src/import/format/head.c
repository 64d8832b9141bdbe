/*
 * What the first bytes show. No allocation, no report, no guess about meaning.
 * SPDX-License-Identifier: MIT
 */
#include "import/format/head.h"

#include <string.h>

/* Signatures as their formats' specifications give them. */
struct kind {
    const char *bytes;
    size_t n;
    size_t offset;
    const char *name;
};
static const struct kind KINDS[] = {
    {"PK\x03\x04", 4, 0, "a zip archive"},
    {"%PDF", 4, 0, "a PDF document"},
    {"\x89PNG", 4, 0, "a PNG picture"},
    {"\xff\xd8\xff", 3, 0, "a JPEG picture"},
    {"GIF8", 4, 0, "a GIF picture"},
    {"SQLite format 3", 15, 0, "an SQLite database"},
    {"\x1f\x8b", 2, 0, "gzip within gzip"},
    {"BZh", 3, 0, "a bzip2 stream"},
    {"\xfd"
     "7zXZ",
     5, 0, "an xz stream"},
    {"7z\xbc\xaf", 4, 0, "a 7z archive"},
    {"\xd0\xcf\x11\xe0", 4, 0, "an old office document"},
    {"ustar", 5, 257, "a tar archive"},
    {"\x7f"
     "ELF",
     4, 0, "a program"},
    {"{\\rtf", 5, 0, "a rich text document"},
    {"bplist", 6, 0, "a binary property list"},
};

/* Whether text ends with these characters. */
static bool ends_with(const char *text, size_t n, const char *end)
{
    size_t length = strlen(end);
    return n >= length && memcmp(text + n - length, end, length) == 0;
}

/* Comments of XML are passed over, however long. */
static void add_char(struct plmi_head *head, char c, char last[3], bool *comment)
{
    last[0] = last[1];
    last[1] = last[2];
    last[2] = c;
    if (*comment) {
        *comment = memcmp(last, "-->", 3) != 0;
        return;
    }
    head->text[head->count++] = c;
    if (c == '-' && head->text[0] == '<' && ends_with(head->text, head->count, "<!--")) {
        head->count -= 4;
        *comment = true;
    }
}

void plmi_head_read(struct plmi_head *head, const unsigned char *bytes, size_t n)
{
    bool utf16 = n >= 2 && ((bytes[0] == 0xff && bytes[1] == 0xfe) || (bytes[0] == 0xfe && bytes[1] == 0xff));
    bool bare16 = n >= 4 && ((bytes[0] == 0 && bytes[1] != 0 && bytes[2] == 0) ||
                             (bytes[0] != 0 && bytes[1] == 0 && bytes[3] == 0));
    size_t at = utf16 ? 2 : n >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
    char last[3] = "";
    bool comment = false;
    head->count = 0;
    head->binary = false;
    for (; at < n && head->count < sizeof head->text - 1; at++) {
        unsigned char c = bytes[at];
        if (c == 0 && (utf16 || bare16)) {
            continue;
        }
        head->binary = head->binary || (c < 0x20 && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != 0x1a);
        add_char(head, (char)c, last, &comment);
    }
    head->text[head->count] = '\0';
}

/* Behind a declaration, comment or document type that starts at s; s itself where none does. */
static const char *skip_one(const char *s)
{
    if (strncmp(s, "<!--", 4) == 0) {
        const char *end = strstr(s + 4, "-->");
        return end == NULL ? s + strlen(s) : end + 3;
    }
    if (strncmp(s, "<?", 2) == 0) {
        const char *end = strstr(s + 2, "?>");
        return end == NULL ? s + strlen(s) : end + 2;
    }
    if (strncmp(s, "<!", 2) == 0) {
        const char *end = strchr(s, '>');
        const char *subset = strchr(s, '[');
        if (end != NULL && subset != NULL && subset < end) {
            const char *close = strstr(subset, "]");
            end = close == NULL ? NULL : strchr(close, '>');
        }
        return end == NULL ? s + strlen(s) : end + 1;
    }
    return s;
}

static bool name_char(char c)
{
    return c != '\0' && strchr(" \t\r\n/>=", c) == NULL;
}

void plmi_head_root(const struct plmi_head *head, char name[64], const char *attribute, bool *has_attribute)
{
    const char *s = head->text;
    const char *before = NULL;
    name[0] = '\0';
    *has_attribute = false;
    while (before != s) {
        before = s;
        s += strspn(s, " \t\r\n");
        s = skip_one(s);
    }
    if (*s != '<') {
        return;
    }
    size_t n = 0;
    for (s++; name_char(*s); s++) {
        if (*s == ':') {
            n = 0;
        } else if (n < 63) {
            name[n++] = *s;
        }
    }
    name[n] = '\0';
    const char *end = strchr(s, '>');
    const char *found = strstr(s, attribute);
    *has_attribute = found != NULL && (end == NULL || found < end);
}

const char *plmi_head_kind(const unsigned char *bytes, size_t n)
{
    for (size_t i = 0; i < sizeof KINDS / sizeof KINDS[0]; i++) {
        const struct kind *kind = &KINDS[i];
        if (n >= kind->offset + kind->n && memcmp(bytes + kind->offset, kind->bytes, kind->n) == 0) {
            return kind->name;
        }
    }
    struct plmi_head head;
    plmi_head_read(&head, bytes, n);
    const char *text = head.text + strspn(head.text, " \t\r\n");
    if (head.binary) {
        return "binary data";
    }
    if (*text == '{' || *text == '[') {
        return "JSON, or text like it";
    }
    if (strncmp(text, "<!DOCTYPE html", 14) == 0 || strncmp(text, "<html", 5) == 0) {
        return "a web page";
    }
    return *text == '<' ? "XML" : *text == '\0' ? "blanks only" : "text without a table";
}
