/*
 * Text that grows, and questions about text. Bytes are UTF-8; no locale.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_BASE_TEXT_H
#define PLM_BASE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#if defined(__GNUC__)
#define PLMI_PRINTF(f, a) __attribute__((format(printf, f, a)))
#else
#define PLMI_PRINTF(f, a)
#endif

/*
 * A growing text; bytes is NULL or terminated. failed stays true once memory ran out. plain: a page for people.
 * Whatever is added is made harmless on its way in (plain.h), and only line feeds at the end of what is added are lines
 * of ours; a foreign text therefore stays on its line and steers nothing, whoever forgets to think of it.
 */
struct plmi_text {
    char *bytes;
    size_t count, capacity;
    bool failed, plain;
};

void plmi_text_init(struct plmi_text *text);
void plmi_text_init_plain(struct plmi_text *text);
void plmi_text_clear(struct plmi_text *text); /* keeps the memory, and stays plain or not */
void plmi_text_free(struct plmi_text *text);
void plmi_text_add(struct plmi_text *text, const char *bytes, size_t n);
/* As they are, into a plain text too: codes of our own for a terminal, and what was made plain before. */
void plmi_text_add_raw(struct plmi_text *text, const char *bytes, size_t n);
/* Appends bytes[n] as they may be shown, on one line. */
void plmi_text_add_plain(struct plmi_text *text, const char *bytes, size_t n);
/*
 * The same so that it can be taken back: a back slash before "u{" is escaped too, as are the characters of `also`
 * (ASCII). Bytes that are no UTF-8 become U+FFFD for good.
 */
void plmi_text_add_reversible(struct plmi_text *text, const char *bytes, size_t n, const char *also);
void plmi_text_puts(struct plmi_text *text, const char *string);
/* printf for integers and strings only: numbers with a fraction go through number.h, which knows no locale. */
void plmi_text_printf(struct plmi_text *text, const char *format, ...) PLMI_PRINTF(2, 3);

bool plmi_text_same(const char *a, const char *b);           /* ASCII case does not matter */
bool plmi_text_starts(const char *text, const char *prefix); /* ditto */
/* Bytes of the longest head of text, room at most, that cuts no character of valid UTF-8 in two. */
size_t plmi_text_head(const char *text, size_t room);

#endif
