/*
 * Pages: hashes as a policy wants them, nothing unescaped, a policy that lets nothing be fetched.
 * Sources of the hashes: FIPS 180-2 (of "abc"), and the well-known one of nothing; base64 by RFC 4648.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "report/html/html.h"
#include "report/html/assets.h"
#include "support/suite.h"

START_TEST(hashes)
{
    ck_assert_str_eq(plmi_html_hash("", 0).text, "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=");
    ck_assert_str_eq(plmi_html_hash("abc", 3).text, "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
}
END_TEST

START_TEST(texts_are_escaped)
{
    struct plmi_text text;
    const struct plmi_html_column column = {"a\"b", ""};
    plmi_text_init(&text);
    plmi_html_text(&text, "p", "c", "<script>alert('x')</script>");
    plmi_html_term(&text, "<b>", "&amp;");
    plmi_html_cell(&text, &column, "<td>");
    plmi_html_number_cell(&text, &column, (double)NAN, 1);
    ck_assert_str_eq(text.bytes, "<p class=\"c\">&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;</p>\n"
                                 "<dt>&lt;b&gt;</dt>\n<dd>&amp;amp;</dd>\n"
                                 "<td data-head=\"a&quot;b\">&lt;td&gt;</td><td data-head=\"a&quot;b\">-</td>");
    plmi_text_free(&text);
}
END_TEST

/* What is between two texts of the page; the caller frees. */
static char *between(const char *page, const char *begin, const char *end)
{
    const char *from = strstr(page, begin);
    ck_assert_ptr_nonnull(from);
    from += strlen(begin);
    const char *to = strstr(from, end);
    ck_assert_ptr_nonnull(to);
    return strndup(from, (size_t)(to - from));
}

START_TEST(policy_names_what_is_there)
{
    struct plmi_text text;
    const struct plmi_html_page page = {"A <page>", true};
    plmi_text_init(&text);
    plmi_html_page_begin(&text, &page);
    plmi_html_page_end(&text, &page);
    char *policy = between(text.bytes, "Content-Security-Policy\" content=\"", "\">"),
         *style = between(text.bytes, "<style>", "</style>");
    char *script = between(text.bytes, "<script>", "</script>");
    ck_assert_ptr_nonnull(strstr(policy, "default-src 'none'"));
    ck_assert_ptr_nonnull(strstr(policy, plmi_html_hash(style, strlen(style)).text));
    ck_assert_ptr_nonnull(strstr(policy, plmi_html_hash(script, strlen(script)).text));
    ck_assert_ptr_null(strstr(policy, "unsafe"));
    ck_assert_ptr_null(strstr(policy, "http"));
    ck_assert_ptr_nonnull(strstr(text.bytes, "<title>A &lt;page&gt;</title>"));
    ck_assert_ptr_null(strstr(style, "url("));
    ck_assert_ptr_null(strstr(style, "@import"));
    free(policy);
    free(style);
    free(script);
    plmi_text_free(&text);
}
END_TEST

/* Every compartment has a colour by light and by dark, and the class that takes it. */
START_TEST(compartments_have_colours)
{
    struct plmi_text text, wanted;
    const struct plmi_html_page page = {"x", false};
    plmi_text_init(&text);
    plmi_text_init(&wanted);
    plmi_html_page_begin(&text, &page);
    plmi_html_page_end(&text, &page);
    for (int compartment = 1; compartment <= 16; compartment++) {
        plmi_text_clear(&wanted);
        plmi_text_printf(&wanted, ".c%d{fill:var(--c%d)}", compartment, compartment);
        ck_assert_msg(strstr(text.bytes, wanted.bytes) != NULL, "%s", wanted.bytes);
        plmi_text_clear(&wanted);
        plmi_text_printf(&wanted, "--c%d:#", compartment);
        const char *light = strstr(text.bytes, wanted.bytes);
        ck_assert_msg(light != NULL && strstr(light + 1, wanted.bytes) != NULL, "%s", wanted.bytes);
    }
    plmi_text_free(&wanted);
    plmi_text_free(&text);
}
END_TEST

START_TEST(pages_without_pictures_have_no_script)
{
    struct plmi_text text;
    const struct plmi_html_page page = {"x", false};
    plmi_text_init(&text);
    plmi_html_page_begin(&text, &page);
    plmi_html_page_end(&text, &page);
    ck_assert_ptr_null(strstr(text.bytes, "<script"));
    ck_assert_ptr_null(strstr(text.bytes, "script-src"));
    plmi_text_free(&text);
}
END_TEST

int main(void)
{
    const TTest *const tests[] = {hashes, texts_are_escaped, policy_names_what_is_there, compartments_have_colours,
                                  pages_without_pictures_have_no_script};
    return SUITE_RUN("html", tests);
}
