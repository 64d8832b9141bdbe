/*
 * UDDF as a format: walks the elements, hands each to the file that knows it, gives finished dives out one by one.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/reader.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "import/format/head.h"
#include "import/format/sink.h"
#include "import/uddf/definitions.h"
#include "import/uddf/dive.h"
#include "import/uddf/unread.h"
#include "import/uddf/waypoint.h"

/* Whether what is inside an element says nothing about dives that were dived. */
static bool is_aside(struct plmi_reader *reader, enum plmi_uddf_element element, long line)
{
    if (element == PLMI_UDDF_tablegeneration && !reader->planning_stated) {
        reader->planning_stated = true;
        plmi_diags_add(reader->diags, PLM_LEVEL_NOTE, PLM_DIAG_UNUSED, line, 0,
                       "tablegeneration asks a program for tables and holds no dive; not read");
    }
    bool foreign = plmi_uddf_parent(reader) == PLMI_UDDF_applicationdata && element != PLMI_UDDF_plimsoll;
    return element == PLMI_UDDF_tablegeneration || element == PLMI_UDDF_inputprofile || foreign;
}

/* Gases that stand behind the dives: the file is walked twice. */
static bool wants_first_pass(const struct plmi_reader *reader, enum plmi_uddf_element element)
{
    return element == PLMI_UDDF_profiledata && !reader->definitions.gases_seen && !reader->definitions_done;
}

static void on_open(void *context, const char *name, const char *const *attributes, long line, long column)
{
    struct plmi_reader *reader = context;
    enum plmi_uddf_element element = plmi_uddf_element(&reader->names, name);
    if (reader->depth == 0 && element != PLMI_UDDF_uddf) {
        plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_XML_ELEMENT, line, column,
                       "the root element is '%.40s', not 'uddf'; nothing read", name);
        plmi_uddf_fail(reader, PLM_STATUS_INPUT);
    }
    if (reader->depth < PLMI_UDDF_DEPTH) {
        reader->stack[reader->depth] = (unsigned char)element;
    }
    reader->depth++;
    reader->attribute = "";
    if (reader->skip_from != 0) {
        return;
    }
    if (is_aside(reader, element, line) || (reader->definitions_only && element == PLMI_UDDF_profiledata)) {
        reader->skip_from = reader->depth;
        return;
    }
    if (wants_first_pass(reader, element)) {
        reader->restart = true;
        plmi_uddf_fail(reader, PLM_STATUS_END);
        return;
    }
    if (element == PLMI_UDDF_profiledata) {
        plmi_uddf_definitions_from_card(reader);
    }
    if (element == PLMI_UDDF_mixref && !reader->dive.active) {
        plmi_uddf_attribute_keep(reader, attributes, "ref", NULL);
    }
    if (!plmi_uddf_definitions_open(reader, element, attributes, line) &&
        !plmi_uddf_waypoint_open(reader, element, attributes, line, column)) {
        (void)plmi_uddf_dive_open(reader, element, attributes, line, column);
    }
}

static void on_close(void *context, const char *name, const char *text, long line, long column)
{
    struct plmi_reader *reader = context;
    enum plmi_uddf_element element =
        reader->depth <= PLMI_UDDF_DEPTH ? (enum plmi_uddf_element)reader->stack[reader->depth - 1] : PLMI_UDDF_OTHER;
    bool skipped = reader->skip_from != 0;
    if (reader->skip_from == reader->depth) {
        reader->skip_from = 0;
    }
    if (!skipped) {
        if (reader->waypoint.active && element == PLMI_UDDF_OTHER) {
            plmi_uddf_unread_count(reader, name, line);
        } else if (!plmi_uddf_definitions_close(reader, element, text, line, column) &&
                   !plmi_uddf_waypoint_close(reader, element, text, line, column)) {
            (void)plmi_uddf_dive_close(reader, element, text, line, column);
        }
    }
    reader->attribute = "";
    reader->depth--;
}

static int uddf_probe(const unsigned char *bytes, size_t n)
{
    struct plmi_head head;
    char name[64];
    bool ignored;
    plmi_head_read(&head, bytes, n);
    plmi_head_root(&head, name, "version", &ignored);
    return strcmp(name, "uddf") == 0 ? 32 : 0;
}

static enum plm_status walk_open(struct plmi_reader *reader, struct plmi_diags *diags)
{
    static const struct plmi_xml_handlers HANDLERS = {on_open, on_close};
    reader->depth = 0;
    reader->skip_from = 0;
    return plmi_xml_open(&reader->xml, reader->source, &HANDLERS, reader, reader->options->rules, diags);
}

/* Walks the whole file for its definitions alone, then stands at its start again. What is wrong with the XML is
 * reported by the second walk. */
static enum plm_status first_pass(struct plmi_reader *reader)
{
    struct plmi_diags quiet;
    plmi_diags_init(&quiet, NULL, reader->diags->file);
    plmi_uddf_definitions_free(reader);
    reader->definitions = (struct plmi_uddf_definitions){0};
    plmi_arena_init(&reader->definitions.arena);
    reader->cell_count = 0;
    reader->restart = false;
    plmi_xml_free(reader->xml);
    reader->xml = NULL;
    enum plm_status status = plm_source_rewind(reader->source);
    reader->definitions_only = true;
    status = status == PLM_STATUS_OK ? walk_open(reader, &quiet) : status;
    while (status == PLM_STATUS_OK) {
        status = plmi_xml_step(reader->xml);
    }
    reader->definitions_only = false;
    reader->definitions_done = true;
    plmi_xml_free(reader->xml);
    reader->xml = NULL;
    if (status == PLM_STATUS_MEMORY) {
        (void)plmi_diags_no_memory(reader->diags, 0, "to read the definitions");
        return status;
    }
    status = plm_source_rewind(reader->source);
    return status == PLM_STATUS_OK ? walk_open(reader, reader->diags) : status;
}

static void uddf_free(struct plmi_reader *reader)
{
    plmi_uddf_dive_free(reader);
    for (size_t i = reader->queue.taken; i < reader->queue.count; i++) {
        plm_dive_free(reader->queue.dives[i]);
    }
    free(reader->queue.dives);
    plmi_xml_free(reader->xml);
    plmi_uddf_definitions_free(reader);
    plmi_text_free(&reader->attribute_kept);
    free(reader);
}

static void head_facts(struct plmi_reader *reader)
{
    const unsigned char *bytes;
    size_t n;
    struct plmi_head head;
    char root[64];
    bool has_version;
    if (plm_source_peek(reader->source, &bytes, &n) == PLM_STATUS_OK) {
        plmi_head_read(&head, bytes, n);
        plmi_head_root(&head, root, "version", &has_version);
        const char *in_root = strstr(head.text, "uddf");
        const char *version = has_version && in_root != NULL ? strstr(in_root, "version=") : NULL;
        if (version != NULL && (version[8] == '"' || version[8] == '\'')) {
            size_t length = strcspn(version + 9, "\"'");
            (void)snprintf(reader->version, sizeof reader->version, "%.*s", (int)(length < 30 ? length : 30),
                           version + 9);
        }
    }
    reader->facts[0] = (struct plm_verdict_fact){"Root element", "uddf", "the first tag, whatever its namespace"};
    reader->facts[1] = (struct plm_verdict_fact){"Version", reader->version[0] == '\0' ? "not told" : reader->version,
                                                 "as the file says; what is read depends on the elements alone"};
    reader->facts[2] =
        (struct plm_verdict_fact){"Units", "m, s, K, Pa, fractions", "the standard; values that cannot be so are told"};
    reader->verdict =
        (struct plm_verdict){plmi_format_uddf.info.name, plmi_format_uddf.info.summary, reader->facts, 3, NULL, 0};
}

static enum plm_status uddf_open(struct plmi_reader **out, struct plm_source *source,
                                 const struct plm_import_options *options, struct plmi_diags *diags)
{
    *out = NULL;
    struct plmi_reader *reader = calloc(1, sizeof *reader);
    if (reader == NULL) {
        return plmi_diags_no_memory(diags, 0, "to read UDDF");
    }
    reader->source = source;
    reader->options = options;
    reader->diags = diags;
    reader->quiet_sink = plmi_format_quiet_sink(diags->sink);
    plmi_arena_init(&reader->definitions.arena);
    plmi_text_init(&reader->attribute_kept);
    reader->attribute = "";
    plmi_uddf_names_init(&reader->names);
    head_facts(reader);
    enum plm_status status = walk_open(reader, diags);
    if (status != PLM_STATUS_OK) {
        uddf_free(reader);
        return status;
    }
    *out = reader;
    return PLM_STATUS_OK;
}

/* The end of a walk: a file without a single dive is an error of its own. */
static enum plm_status at_end(struct plmi_reader *reader)
{
    plmi_uddf_unread_tell(reader);
    if (reader->given > 0) {
        return PLM_STATUS_END;
    }
    plmi_uddf_lose(reader, PLM_LEVEL_ERROR, PLM_DIAG_DIVE_SKIPPED, 0, 0, "the file holds %s",
                   reader->dives == 0 ? "no dive" : "no dive that can be read");
    return PLM_STATUS_INPUT;
}

static enum plm_status uddf_next(struct plmi_reader *reader, struct plm_dive **out)
{
    struct plmi_uddf_queue *queue = &reader->queue;
    *out = NULL;
    while (queue->taken == queue->count) {
        queue->taken = queue->count = 0;
        enum plm_status status = plmi_xml_step(reader->xml);
        if (reader->restart) {
            status = first_pass(reader);
        }
        reader->partial = reader->partial || (status != PLM_STATUS_OK && status != PLM_STATUS_END);
        if (status == PLM_STATUS_OK || queue->count > 0) {
            continue; /* dives that were whole before an error are given first; the error stays */
        }
        return status == PLM_STATUS_END ? at_end(reader) : status;
    }
    *out = queue->dives[queue->taken++];
    reader->given++;
    return PLM_STATUS_OK;
}

static int uddf_dives(const struct plmi_reader *reader)
{
    return reader->dives;
}

static bool track_partial(const struct plmi_uddf_track *track)
{
    return track->builder != NULL && plm_dive_builder_info(track->builder)->partial;
}

static bool uddf_partial(const struct plmi_reader *reader)
{
    return reader->partial || (reader->xml != NULL && plmi_xml_partial(reader->xml)) ||
           track_partial(&reader->dive.track) || track_partial(&reader->dive.plan);
}

static const struct plm_verdict *uddf_verdict(const struct plmi_reader *reader)
{
    return &reader->verdict;
}

const struct plmi_format plmi_format_uddf = {
    .info = {"uddf", "Universal Dive Data Format, versions 2 and 3", false},
    .probe = uddf_probe,
    .open = uddf_open,
    .next = uddf_next,
    .dives = uddf_dives,
    .partial = uddf_partial,
    .verdict = uddf_verdict,
    .free = uddf_free,
};
