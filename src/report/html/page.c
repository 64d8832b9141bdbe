/*
 * How a page begins and ends: policy, style, script. Must not let a page fetch anything or run what is not ours.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/tissue.h>
#include <stdint.h>
#include <string.h>

#include "io/digest.h"
#include "report/html/html.h"
#include "report/html/assets.h"
#include "report/html/palette.h"
#include "syntax/markup.h"

struct plmi_html_hash plmi_html_hash(const char *bytes, size_t count)
{
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    uint8_t digest[PLMI_DIGEST_BYTES + 1] = {0};
    struct plmi_html_hash hash = {"sha256-"};
    plmi_digest_of(bytes, count, digest);
    size_t at = strlen(hash.text);
    for (size_t i = 0; i < PLMI_DIGEST_BYTES; i += 3) {
        unsigned three =
            (unsigned)digest[i] << 16 | (unsigned)digest[i + 1] << 8 | (i + 2 < PLMI_DIGEST_BYTES ? digest[i + 2] : 0u);
        hash.text[at++] = letters[three >> 18 & 63];
        hash.text[at++] = letters[three >> 12 & 63];
        hash.text[at++] = letters[three >> 6 & 63];
        hash.text[at++] = i + 2 < PLMI_DIGEST_BYTES ? letters[three & 63] : '=';
    }
    return hash;
}

/* Fast compartments dark and blue, slow ones light and yellow; a dark page needs them a little lighter. */
static const struct {
    const char *before, *after;
    struct plmi_palette_colour fast, slow;
} palettes[] = {
    {":root{", "}\n", {0.42, 0.12, 275}, {0.86, 0.12, 95}},
    {"@media screen and (prefers-color-scheme:dark){:root{", "}}\n", {0.50, 0.12, 275}, {0.92, 0.12, 95}},
};

static void style_make(struct plmi_text *style)
{
    plmi_text_puts(style, plmi_html_css);
    for (size_t p = 0; p < sizeof palettes / sizeof palettes[0]; p++) {
        plmi_text_puts(style, palettes[p].before);
        for (int c = 0; c < PLM_COMPARTMENTS; c++) {
            struct plmi_palette_colour colour =
                plmi_palette_between(&palettes[p].fast, &palettes[p].slow, c, PLM_COMPARTMENTS);
            plmi_text_printf(style, "--c%d:%s;", c + 1, plmi_palette_hex(&colour).text);
        }
        plmi_text_puts(style, palettes[p].after);
    }
    for (int c = 1; c <= PLM_COMPARTMENTS; c++) {
        plmi_text_printf(style, ".c%d{fill:var(--c%d)}\n", c, c);
    }
}

static void policy_write(struct plmi_text *out, const struct plmi_html_page *page, const struct plmi_text *style)
{
    plmi_text_printf(out, "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src '%s'",
                     plmi_html_hash(style->bytes, style->count).text);
    if (page->script) {
        plmi_text_printf(out, "; script-src '%s'", plmi_html_hash(plmi_html_js, strlen(plmi_html_js)).text);
    }
    plmi_text_puts(out, "; base-uri 'none'; form-action 'none'\">\n");
}

void plmi_html_page_begin(struct plmi_text *out, const struct plmi_html_page *page)
{
    struct plmi_text style;
    plmi_text_init(&style);
    style_make(&style);
    out->failed = out->failed || style.failed;
    if (!out->failed) {
        plmi_text_puts(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        policy_write(out, page, &style);
        plmi_text_puts(
            out,
            "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
            "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n");
        plmi_html_text(out, "title", "", page->title);
        plmi_text_printf(out, "<style>%s</style>\n</head>\n<body>\n", style.bytes);
        plmi_text_puts(out, "<header class=\"head\"><span class=\"sign\" aria-hidden=\"true\"></span>");
        plmi_html_text(out, "p", "", page->title);
        plmi_text_puts(out, "</header>\n<main>\n");
    }
    plmi_text_free(&style);
}

void plmi_html_page_end(struct plmi_text *out, const struct plmi_html_page *page)
{
    plmi_text_puts(out, "</main>\n");
    if (page->script) {
        plmi_text_printf(out, "<script>%s</script>\n", plmi_html_js);
    }
    plmi_text_puts(out, "</body>\n</html>\n");
}
