/*
 * XML events: names, text, places, encodings, what is refused, bounds.
 * Sources: XML 1.0 (fifth edition) for what is well-formed; the rest is our contract in syntax/xml.h.
 * SPDX-License-Identifier: MIT
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "syntax/evidence.h"
#include "syntax/xml.h"
#include "unit/diag_list.h"

struct document {
    struct diag_list told;
    struct plm_diag_sink sink;
    struct plm_rules rules;
    struct plmi_text events;
    struct plmi_xml *xml;
    const char *stop_at; /* element at which the handler stops the parse */
};

static void on_open(void *context, const char *name, const char *const *attributes, long line, long column)
{
    struct document *document = context;
    const char *ref = plmi_xml_attribute(attributes, "ref");
    plmi_text_printf(&document->events, "<%s%s%s@%ld:%ld>", name, ref == NULL ? "" : " ref=", ref == NULL ? "" : ref,
                     line, column);
    if (document->stop_at != NULL && strcmp(document->stop_at, name) == 0) {
        plmi_xml_fail(document->xml, PLM_STATUS_INPUT);
    }
}

static void on_close(void *context, const char *name, const char *text, long line, long column)
{
    struct document *document = context;
    plmi_text_printf(&document->events, "%s</%s@%ld:%ld>", text, name, line, column);
}

/* Reads to the end; the status that ended it. */
static enum plm_status read_document(struct document *document, const char *bytes, size_t count)
{
    static const struct plmi_xml_handlers handlers = {on_open, on_close};
    document->sink = diag_list_sink(&document->told);
    plmi_text_init(&document->events);
    struct plm_source *source = NULL;
    struct plmi_diags diags;
    plmi_diags_init(&diags, &document->sink, "t.uddf");
    ck_assert_int_eq(plm_source_open_memory(&source, bytes, count, "t.uddf", &document->rules, &document->sink),
                     PLM_STATUS_OK);
    ck_assert_int_eq(plmi_xml_open(&document->xml, source, &handlers, document, &document->rules, &diags),
                     PLM_STATUS_OK);
    enum plm_status status = PLM_STATUS_OK;
    while (status == PLM_STATUS_OK) {
        status = plmi_xml_step(document->xml);
    }
    ck_assert_int_eq(plmi_xml_step(document->xml), status);
    plmi_xml_free(document->xml);
    plm_source_free(source);
    if (document->events.bytes == NULL) {
        plmi_text_puts(&document->events, "");
    }
    return status;
}

static void check_events(const char *bytes, size_t count, const char *want, int diagnostics)
{
    struct document document = {.rules = plm_rules_default()};
    enum plm_status status = read_document(&document, bytes, count);
    ck_assert_msg(status == PLM_STATUS_END, "%d: %s", (int)status, document.told.lines[0]);
    ck_assert_str_eq(document.events.bytes, want);
    ck_assert_msg(document.told.count == diagnostics, "%s", document.told.lines[0]);
    plmi_text_free(&document.events);
}

#define CHECK_EVENTS(bytes, want, diagnostics) check_events(bytes, sizeof(bytes) - 1, want, diagnostics)

static void check_error(const char *bytes, size_t count, enum plm_status want, const char *told)
{
    struct document document = {.rules = plm_rules_default()};
    ck_assert_int_eq(read_document(&document, bytes, count), want);
    ck_assert_msg(diag_list_has(&document.told, told), "%s", document.told.lines[0]);
    ck_assert(diag_list_has(&document.told, ": error: "));
    plmi_text_free(&document.events);
}

#define CHECK_ERROR(bytes, want, told) check_error(bytes, sizeof(bytes) - 1, want, told)

START_TEST(names_text_and_places)
{
    CHECK_EVENTS("<a><b>1.5</b></a>", "<a@1:1><b@1:4>1.5</b@1:10></a@1:14>", 0);
    CHECK_EVENTS("<?xml version=\"1.0\"?>\n<a>\n  <b ref='x'/>\n</a>\n", "<a@2:1><b ref=x@3:3></b@3:15></a@4:1>", 0);
    CHECK_EVENTS("<u:a xmlns:u='urn:x' xmlns:ref='urn:y'><u:b u:ref='m'/></u:a>",
                 "<a@1:1><b ref=m@1:40></b@1:56></a@1:56>", 0);
    CHECK_EVENTS("<a> x <b> y </b> z </a>", "<a@1:1><b@1:7>y</b@1:13>x z</a@1:20>", 0);
    CHECK_EVENTS("<a>1 &lt; 2 &amp; <![CDATA[<3>]]></a>", "<a@1:1>1 < 2 & <3></a@1:34>", 0);
    CHECK_EVENTS("<a>two\n  lines</a>", "<a@1:1>two\n  lines</a@2:8>", 0);
    CHECK_EVENTS("\n\r\n  <?xml version='1.0'?><a/>\n", "<a@3:24></a@3:28>", 0);
    CHECK_EVENTS("<a><!-- <b> --><?p q?></a>", "<a@1:1></a@1:23>", 0);
}
END_TEST

START_TEST(encodings)
{
    CHECK_EVENTS("\xef\xbb\xbf<a>\xc2\xb0</a>", "<a@1:1>\xc2\xb0</a@1:5>", 0);
    CHECK_EVENTS("<?xml version='1.0' encoding='ISO-8859-1'?><a>\xb0</a>", "<a@1:44>\xc2\xb0</a@1:48>", 0);
    CHECK_EVENTS("<?xml version=\"1.0\" encoding=\"windows-1251\"?><a>\xc6</a>", "<a@1:46>\xd0\x96</a@1:50>", 0);
    CHECK_EVENTS("\xff\xfe<\0a\0/\0>\0", "<a@1:1></a@1:5>", 1);
    CHECK_EVENTS("\xfe\xff\0<\0a\0>\0\xb0\0<\0/\0a\0>", "<a@1:1>\xc2\xb0</a@1:5>", 1);
    CHECK_EVENTS("<\0a\0/\0>\0", "<a@1:1></a@1:5>", 1);
    CHECK_EVENTS("<?xml version='1.0' encoding='UTF-16'?><a/>", "<a@1:40></a@1:44>", 1);
    CHECK_EVENTS("<?xml version='1.0' encoding='of-our-own'?><a/>", "<a@1:44></a@1:48>", 1);
}
END_TEST

/* XML 1.0, production 81 of the fifth edition: letters, digits, full stop, low line, hyphen; a colon is taken as well.
 */
START_TEST(names_of_encodings)
{
    static const char *const names[] = {"a", "z", "A", "Z", "macintosh-z", "NF_Z_62-010", "x-0.9:1"};
    char document[100], name[PLMI_ENCODING_NAME_BYTES];
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        int n = snprintf(document, sizeof document, "<?xml version='1.0' encoding = \"%s\"?><a/>", names[i]);
        ck_assert_msg(plmi_encoding_declared((const unsigned char *)document, (size_t)n, name), "%s", names[i]);
        ck_assert_str_eq(name, names[i]);
    }
    static const char *const none[] = {"encoding=\"\"", "encoding=\"a b\"", "encoding=\"a/b\"", "encoding=\"a'",
                                       "encoding=a"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        int n = snprintf(document, sizeof document, "<?xml version='1.0' %s?><a/>", none[i]);
        ck_assert_msg(!plmi_encoding_declared((const unsigned char *)document, (size_t)n, name), "%s", none[i]);
    }
}
END_TEST

/* Trap 20 of the notes on UDDF: declared UTF-8, bytes of Latin-1; control bytes. */
START_TEST(bytes_that_are_no_text)
{
    struct document document = {.rules = plm_rules_default()};
    static const char bytes[] = "<?xml version='1.0' encoding='UTF-8'?>\n<a>\n<b>Caf\xe9</b><c>1\x02</c></a>";
    ck_assert_int_eq(read_document(&document, bytes, sizeof bytes - 1), PLM_STATUS_END);
    ck_assert_str_eq(document.events.bytes,
                     "<a@2:1><b@3:1>Caf\xef\xbf\xbd</b@3:8><c@3:12>1\xef\xbf\xbd</c@3:17></a@3:21>");
    ck_assert_int_eq(document.told.count, 1);
    ck_assert_str_eq(document.told.lines[0],
                     "t.uddf:3: warning: byte 0xe9 is not text; such bytes are read as U+FFFD [encoding]");
    plmi_text_free(&document.events);
    /* A line ends with two bytes, with one of either kind, or with both kinds one behind the other. */
    struct document ends = {.rules = plm_rules_default()};
    static const char lines[] = "<a>\r\n\r\n\n<b>\xe9\r\r</b>\xe9</a>";
    ck_assert_int_eq(read_document(&ends, lines, sizeof lines - 1), PLM_STATUS_END);
    ck_assert_int_eq(ends.told.count, 2);
    ck_assert_msg(strncmp(ends.told.lines[0], "t.uddf:4: warning: byte 0xe9", 28) == 0, "%s", ends.told.lines[0]);
    ck_assert_msg(strncmp(ends.told.lines[1], "t.uddf:6: warning: byte 0xe9", 28) == 0, "%s", ends.told.lines[1]);
    plmi_text_free(&ends.events);
}
END_TEST

START_TEST(what_is_not_well_formed)
{
    CHECK_ERROR("", PLM_STATUS_INPUT, "[xml-syntax]");
    CHECK_ERROR("   \n", PLM_STATUS_INPUT, "[xml-syntax]");
    CHECK_ERROR("depth,time\n", PLM_STATUS_INPUT, "t.uddf:1:1: error:");
    CHECK_ERROR("<a>\n<b>1</c></a>", PLM_STATUS_INPUT, "t.uddf:2:");
    CHECK_ERROR("<a>\n  <b>1", PLM_STATUS_INPUT, "the text ends inside an element");
    CHECK_ERROR("<a>R & B</a>", PLM_STATUS_INPUT, "t.uddf:1:7: error: not well-formed");
    CHECK_ERROR("<a/><b/>", PLM_STATUS_INPUT, "t.uddf:1:5: error: junk after document element");
    CHECK_ERROR("<a>&nbsp;</a>", PLM_STATUS_INPUT, "undefined entity");
    CHECK_ERROR("<a ref='1' ref='2'/>", PLM_STATUS_INPUT, "duplicate attribute");
    CHECK_ERROR("<divetime0.0</divetime>", PLM_STATUS_INPUT, "[xml-syntax]");
    CHECK_ERROR("<a><(waypoint></a>", PLM_STATUS_INPUT, "t.uddf:1:5: error:");
    CHECK_ERROR("<a>&#1;</a>", PLM_STATUS_INPUT, "[xml-syntax]");
}
END_TEST

START_TEST(document_types_and_entities)
{
    CHECK_ERROR("<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/hostname\">]><a>&x;</a>", PLM_STATUS_INPUT,
                "t.uddf:1:13: error: a document type");
    CHECK_ERROR("<!DOCTYPE a [<!ENTITY l \"ha\"><!ENTITY m \"&l;&l;&l;\">]><a>&m;</a>", PLM_STATUS_INPUT,
                "[xml-entity]");
    CHECK_ERROR("<!DOCTYPE a [<!ENTITY % p SYSTEM \"http://localhost/x\"> %p;]><a/>", PLM_STATUS_INPUT, "[xml-entity]");
    CHECK_ERROR("<!DOCTYPE a SYSTEM \"a.dtd\" [ ]><a/>", PLM_STATUS_INPUT, "[xml-entity]");
    CHECK_ERROR("<!DOCTYPE a SYSTEM \"a.dtd\"><a>&x;</a>", PLM_STATUS_INPUT, "an entity that nothing declares");
    CHECK_EVENTS("<!DOCTYPE a SYSTEM \"a.dtd\"><a>1</a>", "<a@1:28>1</a@1:32>", 1);
    CHECK_EVENTS("<!DOCTYPE a>\n<a>1</a>", "<a@2:1>1</a@2:5>", 1);
}
END_TEST

static void check_limit(const char *key, const char *value, const char *bytes, size_t count, const char *told)
{
    struct document document = {.rules = plm_rules_default()};
    ck_assert_int_eq(plm_rules_set(&document.rules, key, value), PLM_STATUS_OK);
    ck_assert_int_eq(read_document(&document, bytes, count), PLM_STATUS_LIMIT);
    ck_assert_int_eq(document.told.count, 1);
    ck_assert_msg(diag_list_has(&document.told, told), "%s", document.told.lines[0]);
    plmi_text_free(&document.events);
}

/* open + filler + close, 10 MB on one line. */
static void check_long(const char *open, char filler, const char *close, const char *told)
{
    size_t size = 10000000;
    size_t n_open = strlen(open);
    size_t n_close = strlen(close);
    char *bytes = malloc(size);
    ck_assert_ptr_nonnull(bytes);
    memset(bytes, filler, size);
    memcpy(bytes, open, n_open);
    memcpy(bytes + size - n_close, close, n_close);
    check_limit("cell_max_bytes", "65536", bytes, size, told);
    free(bytes);
}

START_TEST(bounds)
{
    static const char deep[] = "<a><b><c><d><e><f><g><h><i/></h></g></f></e></d></c></b></a>";
    check_limit("xml_depth_max", "8", deep, sizeof deep - 1,
                "t.uddf:1:25: error: elements are nested deeper than 8 (rule xml_depth_max)");
    static const char text[] = "<a>\n12345678901234567</a>";
    check_limit("cell_max_bytes", "16", text, sizeof text - 1,
                "the text of an element is longer than 16 (rule cell_max_bytes)");
    static const char attribute[] = "<a ref='12345678901234567'/>";
    check_limit("cell_max_bytes", "16", attribute, sizeof attribute - 1,
                "an attribute is longer than 16 (rule cell_max_bytes)");
    check_long("<a>", 'x', "</a>", "the text of an element is longer");
    check_long("<a ref='", 'x', "'/>", "a tag or comment is longer");
    check_long("<a><!--", 'x', "--></a>", "a tag or comment is longer");
    check_long("<", 'x', "/>", "a tag or comment is longer");
}
END_TEST

/* Blanks between many children do not add up to text. */
START_TEST(blanks_between_children_are_no_text)
{
    struct plmi_text bytes;
    plmi_text_init(&bytes);
    plmi_text_puts(&bytes, "<a>stray");
    for (int i = 0; i < 20000; i++) {
        plmi_text_puts(&bytes, "\n          <b/>");
    }
    plmi_text_puts(&bytes, "\n</a>");
    struct document document = {.rules = plm_rules_default()};
    ck_assert_int_eq(read_document(&document, bytes.bytes, bytes.count), PLM_STATUS_END);
    ck_assert_ptr_nonnull(strstr(document.events.bytes, "</b@20001:15>stray</a@20002:1>"));
    plmi_text_free(&document.events);
    plmi_text_free(&bytes);
}
END_TEST

START_TEST(a_handler_can_stop)
{
    struct document document = {.rules = plm_rules_default(), .stop_at = "b"};
    static const char bytes[] = "<a><b><c/></b></a>";
    ck_assert_int_eq(read_document(&document, bytes, sizeof bytes - 1), PLM_STATUS_INPUT);
    ck_assert_str_eq(document.events.bytes, "<a@1:1><b@1:4>");
    ck_assert_int_eq(document.told.count, 0);
    plmi_text_free(&document.events);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("xml");
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, names_text_and_places);
    tcase_add_test(tests, encodings);
    tcase_add_test(tests, names_of_encodings);
    tcase_add_test(tests, bytes_that_are_no_text);
    tcase_add_test(tests, what_is_not_well_formed);
    tcase_add_test(tests, document_types_and_entities);
    tcase_add_test(tests, bounds);
    tcase_add_test(tests, blanks_between_children_are_no_text);
    tcase_add_test(tests, a_handler_can_stop);
    Suite *suite = suite_create("syntax");
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
