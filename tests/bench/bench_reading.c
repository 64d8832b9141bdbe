/*
 * Measures the lower floors: XML events against a bare expat parse of the same bytes, rows of a table, digests,
 * numbers to and from text. Prints, judges nothing.
 * SPDX-License-Identifier: MIT
 */
#include <expat.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/number.h"
#include "syntax/rows.h"
#include "syntax/xml.h"

enum { WAYPOINTS = 100000, ROUNDS = 5, NUMBERS = 2000000 };

static double now_s(void)
{
    struct timespec now;
    (void)clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void tell_rate(const char *what, double bytes, double seconds)
{
    (void)printf("%-34s %8.1f MB/s\n", what, bytes / 1e6 / seconds);
}

static void add_waypoint(struct plmi_text *out, int i)
{
    plmi_text_puts(out, "        <waypoint>\n          <depth>");
    plmi_number_fixed(out, 60 + 40 * sin(i * 0.001), 1);
    plmi_text_printf(out, "</depth>\n          <divetime>%d</divetime>\n          <temperature>", i * 10);
    plmi_number_fixed(out, 293.15 - (i % 50) * 0.1, 2);
    plmi_text_puts(out, "</temperature>\n          <measuredpo2 ref=\"cell_a\">");
    plmi_number_fixed(out, 130000 + (i % 997) * 10, 0);
    plmi_text_puts(out, "</measuredpo2>\n        </waypoint>\n");
}

static void make_document(struct plmi_text *out)
{
    plmi_text_init(out);
    plmi_text_puts(out, "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<uddf version=\"3.2.1\">\n  <samples>\n");
    for (int i = 0; i < WAYPOINTS; i++) {
        add_waypoint(out, i);
    }
    plmi_text_puts(out, "  </samples>\n</uddf>\n");
}

static void on_bare_open(void *context, const XML_Char *name, const XML_Char **attributes)
{
    (void)name;
    (void)attributes;
    (*(long *)context)++;
}

static void on_bare_close(void *context, const XML_Char *name)
{
    (void)name;
    (*(long *)context)++;
}

static void on_bare_text(void *context, const XML_Char *bytes, int count)
{
    (void)bytes;
    *(long *)context += count;
}

static double time_bare(const struct plmi_text *document)
{
    long count = 0;
    double start = now_s();
    XML_Parser parser = XML_ParserCreate(NULL);
    XML_SetUserData(parser, &count);
    XML_SetElementHandler(parser, on_bare_open, on_bare_close);
    XML_SetCharacterDataHandler(parser, on_bare_text);
    for (size_t at = 0; at < document->count; at += 65536) {
        size_t left = document->count - at;
        (void)XML_Parse(parser, document->bytes + at, (int)(left < 65536 ? left : 65536), left <= 65536);
    }
    XML_ParserFree(parser);
    return now_s() - start;
}

static void on_open(void *context, const char *name, const char *const *attributes, long line, long column)
{
    (void)name;
    (void)attributes;
    *(long *)context += line + column;
}

static void on_close(void *context, const char *name, const char *text, long line, long column)
{
    (void)name;
    (void)text;
    *(long *)context += line + column;
}

static double time_events(const struct plmi_text *document)
{
    static const struct plmi_xml_handlers handlers = {on_open, on_close};
    long count = 0;
    struct plm_rules rules = plm_rules_default();
    struct plmi_diags diags;
    struct plm_source *source = NULL;
    struct plmi_xml *xml = NULL;
    double start = now_s();
    plmi_diags_init(&diags, NULL, "bench");
    enum plm_status status = plm_source_open_memory(&source, document->bytes, document->count, "bench", &rules, NULL);
    if (status == PLM_STATUS_OK) {
        status = plmi_xml_open(&xml, source, &handlers, &count, &rules, &diags);
    }
    while (status == PLM_STATUS_OK) {
        status = plmi_xml_step(xml);
    }
    plmi_xml_free(xml);
    plm_source_free(source);
    return status == PLM_STATUS_END ? now_s() - start : (double)NAN;
}

static double time_digest(const struct plmi_text *document)
{
    char hex[65] = "";
    struct plm_rules rules = plm_rules_default();
    struct plm_source *source = NULL;
    double start = now_s();
    if (plm_source_open_memory(&source, document->bytes, document->count, "bench", &rules, NULL) == PLM_STATUS_OK) {
        (void)plm_source_sha256(source, hex);
    }
    plm_source_free(source);
    return now_s() - start;
}

static void bench_xml(void)
{
    struct plmi_text document;
    double bare = INFINITY;
    double events = INFINITY;
    double digest = INFINITY;
    make_document(&document);
    for (int i = 0; i < ROUNDS; i++) {
        bare = fmin(bare, time_bare(&document));
        events = fmin(events, time_events(&document));
        digest = fmin(digest, time_digest(&document));
    }
    tell_rate("expat alone", (double)document.count, bare);
    tell_rate("XML events", (double)document.count, events);
    (void)printf("%-34s %8.3f times expat alone\n", "", events / bare);
    tell_rate("SHA-256", (double)document.count, digest);
    plmi_text_free(&document);
}

static void bench_rows(void)
{
    struct plmi_text table;
    struct plm_rules rules = plm_rules_default();
    struct plmi_diags diags;
    plmi_text_init(&table);
    for (int i = 0; i < 3 * WAYPOINTS; i++) {
        plmi_text_printf(&table, "%d,%d.%d,21.5,closed,,,1.30,1.29,1.31,1.30\n", i * 10, i % 100, i % 10);
    }
    plmi_diags_init(&diags, NULL, "bench");
    double start = now_s();
    struct plm_source *source = NULL;
    struct plmi_rows *rows = NULL;
    struct plmi_dialect dialect = {',', '"'};
    struct plmi_row row;
    (void)plm_source_open_memory(&source, table.bytes, table.count, "bench", &rules, NULL);
    enum plm_status status = plmi_rows_open(&rows, source, &dialect, &rules, &diags);
    while (status == PLM_STATUS_OK) {
        status = plmi_rows_next(rows, &row);
    }
    tell_rate("rows", (double)table.count, now_s() - start);
    plmi_rows_free(rows);
    plm_source_free(source);
    plmi_text_free(&table);
}

static void bench_numbers(void)
{
    static char texts[1000][32];
    size_t lengths[1000];
    double sum = 0;
    struct plmi_text out;
    plmi_text_init(&out);
    double start = now_s();
    for (int i = 0; i < NUMBERS; i++) {
        if (out.count > 60000) {
            plmi_text_clear(&out);
        }
        plmi_number_fixed(&out, 0.745 + i * 1.234567e-6, 6);
    }
    (void)printf("%-34s %8.1f ns each\n", "fixed, 6 digits", (now_s() - start) / NUMBERS * 1e9);
    for (int i = 0; i < 1000; i++) {
        plmi_text_clear(&out);
        plmi_number_short(&out, i % 2 == 0 ? i * 0.1 : 285.15 + i * 0.1);
        memcpy(texts[i], out.bytes, out.count + 1);
        lengths[i] = out.count;
    }
    start = now_s();
    for (int i = 0; i < NUMBERS; i++) {
        double value = 0;
        (void)plmi_number_parse(texts[i % 1000], lengths[i % 1000], '.', &value);
        sum += value;
    }
    (void)printf("%-34s %8.1f ns each (sum %.0f)\n", "parse", (now_s() - start) / NUMBERS * 1e9, sum);
    plmi_text_free(&out);
}

int main(void)
{
    bench_xml();
    bench_rows();
    bench_numbers();
    return 0;
}
