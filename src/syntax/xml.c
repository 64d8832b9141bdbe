/*
 * XML events from expat. Text is gathered in one buffer that the open elements share.
 * Must not allocate for an event, must not fetch anything.
 * SPDX-License-Identifier: MIT
 */
#include "syntax/xml.h"

#include <expat.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "syntax/decode.h"
#include "syntax/places.h"

/* One tag or comment may stay unfinished for so many bytes, or twice the longest attribute. */
enum { TOKEN_BYTES = 1048576 };

struct plmi_xml {
    XML_Parser parser;
    struct plmi_decoder *decoder;
    struct plmi_xml_handlers handlers;
    void *context;
    struct plmi_diags *diags;
    size_t text_max, depth_max, token_max;
    enum plm_status status; /* why the parse was stopped; OK while it runs */
    bool begun;             /* a first byte was fed */
    size_t *starts;         /* where the text of each open element begins */
    size_t depth, starts_capacity;
    struct plmi_text text;
    long passed_lines, passed_columns; /* blanks before the first byte */
    uint64_t fed;                      /* bytes given to expat         */
    struct plmi_places places;
};

static const char *local_name(const char *name)
{
    const char *colon = strrchr(name, ':');
    return colon == NULL ? name : colon + 1;
}

const char *plmi_xml_attribute(const char *const *attributes, const char *name)
{
    for (; attributes[0] != NULL; attributes += 2) {
        if (strcmp(local_name(attributes[0]), name) == 0 && strncmp(attributes[0], "xmlns", 5) != 0) {
            return attributes[1];
        }
    }
    return NULL;
}

static void stop(struct plmi_xml *xml, enum plm_status status)
{
    if (xml->status == PLM_STATUS_OK) {
        xml->status = status;
        (void)XML_StopParser(xml->parser, XML_FALSE);
    }
}

/* The place of the event being reported. */
static struct plmi_place place(struct plmi_xml *xml)
{
    XML_Index at = XML_GetCurrentByteIndex(xml->parser);
    struct plmi_place found = plmi_places_find(&xml->places, at > 0 ? (uint64_t)at : 0);
    if (found.line == 1) {
        found.column += xml->passed_columns;
    }
    found.line += xml->passed_lines;
    return found;
}

static void fail_limit(struct plmi_xml *xml, const char *what, size_t bound, const char *rule)
{
    struct plmi_place at = place(xml);
    plmi_diags_add(xml->diags, PLM_LEVEL_ERROR, PLM_DIAG_LIMIT, at.line, at.column,
                   "%s than %zu (rule %s); reading stops there", what, bound, rule);
    stop(xml, PLM_STATUS_LIMIT);
}

static void fail_memory(struct plmi_xml *xml)
{
    (void)plmi_diags_no_memory(xml->diags, 0, "to read the XML");
    stop(xml, PLM_STATUS_MEMORY);
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* Blanks at the end of the text of the innermost element. */
static void cut_end(struct plmi_xml *xml)
{
    size_t start = xml->depth > 0 ? xml->starts[xml->depth - 1] : 0;
    while (xml->text.count > start && is_blank(xml->text.bytes[xml->text.count - 1])) {
        xml->text.count--;
    }
}

static bool check_attributes(struct plmi_xml *xml, const char *const *attributes)
{
    for (; *attributes != NULL; attributes++) {
        if (strlen(*attributes) > xml->text_max) {
            fail_limit(xml, "an attribute is longer", xml->text_max, "cell_max_bytes");
            return false;
        }
    }
    return true;
}

static bool push_start(struct plmi_xml *xml)
{
    void *starts = xml->starts;
    if (!plmi_array_grow(&starts, &xml->starts_capacity, xml->depth, sizeof *xml->starts)) {
        return false;
    }
    xml->starts = starts;
    xml->starts[xml->depth++] = xml->text.count;
    return true;
}

static void on_open(void *context, const XML_Char *name, const XML_Char **attributes)
{
    struct plmi_xml *xml = context;
    const char *const *list = (const char *const *)attributes;
    if (xml->status != PLM_STATUS_OK) {
        return;
    }
    if (xml->depth == xml->depth_max) {
        fail_limit(xml, "elements are nested deeper", xml->depth_max, "xml_depth_max");
        return;
    }
    if (!check_attributes(xml, list)) {
        return;
    }
    cut_end(xml);
    if (!push_start(xml)) {
        fail_memory(xml);
        return;
    }
    struct plmi_place at = place(xml);
    xml->handlers.open(xml->context, local_name(name), list, at.line, at.column);
}

static void on_close(void *context, const XML_Char *name)
{
    struct plmi_xml *xml = context;
    if (xml->status != PLM_STATUS_OK) {
        return;
    }
    cut_end(xml);
    size_t start = xml->starts[--xml->depth];
    const char *text = "";
    if (xml->text.count > start) {
        xml->text.bytes[xml->text.count] = '\0';
        text = xml->text.bytes + start;
    }
    struct plmi_place at = place(xml);
    xml->handlers.close(xml->context, local_name(name), text, at.line, at.column);
    xml->text.count = start;
}

static void on_text(void *context, const XML_Char *bytes, int count)
{
    struct plmi_xml *xml = context;
    if (xml->status != PLM_STATUS_OK || xml->depth == 0) {
        return;
    }
    size_t n = (size_t)count;
    size_t start = xml->starts[xml->depth - 1];
    if (xml->text.count == start) {
        while (n > 0 && is_blank(*bytes)) {
            bytes++;
            n--;
        }
    }
    if (xml->text.count - start + n > xml->text_max) {
        fail_limit(xml, "the text of an element is longer", xml->text_max, "cell_max_bytes");
        return;
    }
    if (n > 0) {
        plmi_text_add(&xml->text, bytes, n);
    }
    if (xml->text.failed) {
        fail_memory(xml);
    }
}

static void fail_entity(struct plmi_xml *xml, const char *what)
{
    struct plmi_place at = place(xml);
    plmi_diags_add(xml->diags, PLM_LEVEL_ERROR, PLM_DIAG_XML_ENTITY, at.line, at.column, "%s; reading stops there",
                   what);
    stop(xml, PLM_STATUS_INPUT);
}

static void on_doctype(void *context, const XML_Char *name, const XML_Char *system_id, const XML_Char *public_id,
                       int has_internal_subset)
{
    struct plmi_xml *xml = context;
    (void)name;
    (void)system_id;
    (void)public_id;
    if (xml->status != PLM_STATUS_OK) {
        return;
    }
    if (has_internal_subset) {
        fail_entity(xml, "a document type with declarations of its own is refused");
        return;
    }
    struct plmi_place at = place(xml);
    plmi_diags_add(xml->diags, PLM_LEVEL_NOTE, PLM_DIAG_XML_ENTITY, at.line, at.column,
                   "a document type is named; it is not fetched");
}

/* A reference to an entity that only a document type which is not fetched could declare. */
static void on_skipped_entity(void *context, const XML_Char *name, int is_parameter)
{
    struct plmi_xml *xml = context;
    (void)name;
    (void)is_parameter;
    if (xml->status == PLM_STATUS_OK) {
        fail_entity(xml, "an entity that nothing declares is used");
    }
}

static void on_entity_declaration(void *context, const XML_Char *name, int is_parameter, const XML_Char *value,
                                  int value_length, const XML_Char *base, const XML_Char *system_id,
                                  const XML_Char *public_id, const XML_Char *notation)
{
    struct plmi_xml *xml = context;
    (void)name;
    (void)is_parameter;
    (void)value;
    (void)value_length;
    (void)base;
    (void)system_id;
    (void)public_id;
    (void)notation;
    if (xml->status == PLM_STATUS_OK) {
        fail_entity(xml, "an entity declaration is refused");
    }
}

static void set_handlers(struct plmi_xml *xml)
{
    XML_SetUserData(xml->parser, xml);
    XML_SetElementHandler(xml->parser, on_open, on_close);
    XML_SetCharacterDataHandler(xml->parser, on_text);
    XML_SetStartDoctypeDeclHandler(xml->parser, on_doctype);
    XML_SetSkippedEntityHandler(xml->parser, on_skipped_entity);
    XML_SetEntityDeclHandler(xml->parser, on_entity_declaration);
    (void)XML_SetParamEntityParsing(xml->parser, XML_PARAM_ENTITY_PARSING_NEVER);
}

enum plm_status plmi_xml_open(struct plmi_xml **out, struct plm_source *source,
                              const struct plmi_xml_handlers *handlers, void *context, const struct plm_rules *rules,
                              struct plmi_diags *diags)
{
    *out = NULL;
    struct plmi_xml *xml = calloc(1, sizeof *xml);
    if (xml == NULL) {
        return plmi_diags_no_memory(diags, 0, "to read the XML");
    }
    xml->handlers = *handlers;
    xml->context = context;
    xml->diags = diags;
    xml->text_max = (size_t)rules->cell_max_bytes;
    xml->depth_max = (size_t)rules->xml_depth_max;
    xml->token_max = xml->text_max > TOKEN_BYTES / 2 ? 2 * xml->text_max : (size_t)TOKEN_BYTES;
    plmi_text_init(&xml->text);
    enum plm_status status = plmi_decoder_open(&xml->decoder, source, PLMI_TEXT_XML, diags);
    if (status == PLM_STATUS_OK) {
        /* The decoder gives UTF-8 whatever the declaration says. */
        xml->parser = XML_ParserCreate("UTF-8");
        if (xml->parser == NULL) {
            (void)plmi_diags_no_memory(diags, 0, "to read the XML");
            status = PLM_STATUS_MEMORY;
        }
    }
    if (status != PLM_STATUS_OK) {
        plmi_xml_free(xml);
        return status;
    }
    set_handlers(xml);
    *out = xml;
    return PLM_STATUS_OK;
}

static enum plm_status fail_syntax(struct plmi_xml *xml)
{
    enum XML_Error error = XML_GetErrorCode(xml->parser);
    if (error == XML_ERROR_NO_MEMORY) {
        fail_memory(xml);
        return xml->status;
    }
    struct plmi_place at = place(xml);
    const char *text = XML_ErrorString(error);
    if (error == XML_ERROR_NO_ELEMENTS && xml->depth > 0) {
        text = "the text ends inside an element";
    }
    plmi_diags_add(xml->diags, PLM_LEVEL_ERROR, PLM_DIAG_XML_SYNTAX, at.line, at.column, "%s; reading stops there",
                   text == NULL ? "not well-formed" : text);
    xml->status = PLM_STATUS_INPUT;
    return xml->status;
}

/* Blanks before the first tag are passed over: a declaration behind them would not be taken. */
static void pass_blanks(struct plmi_xml *xml, const char **bytes, size_t *count)
{
    while (!xml->begun && *count > 0) {
        xml->begun = !is_blank(**bytes);
        if (!xml->begun) {
            bool ends_line = **bytes == '\n';
            xml->passed_lines += ends_line ? 1 : 0;
            xml->passed_columns = ends_line ? 0 : xml->passed_columns + 1;
            (*bytes)++;
            (*count)--;
        }
    }
}

static enum plm_status feed(struct plmi_xml *xml, const char *bytes, size_t count, bool last)
{
    plmi_places_feed(&xml->places, bytes, count);
    xml->fed += count;
    enum XML_Status parsed = XML_Parse(xml->parser, bytes, (int)count, last ? XML_TRUE : XML_FALSE);
    if (xml->status != PLM_STATUS_OK) {
        return xml->status;
    }
    if (parsed == XML_STATUS_ERROR) {
        return fail_syntax(xml);
    }
    XML_Index at = XML_GetCurrentByteIndex(xml->parser);
    (void)place(xml);
    if (!plmi_places_leave(&xml->places)) {
        fail_memory(xml);
    } else if (at >= 0 && xml->fed - (uint64_t)at > xml->token_max) {
        fail_limit(xml, "a tag or comment is longer", xml->token_max, "cell_max_bytes, 1 MB at least");
    }
    return xml->status;
}

enum plm_status plmi_xml_step(struct plmi_xml *xml)
{
    if (xml->status != PLM_STATUS_OK) {
        return xml->status;
    }
    const char *bytes = NULL;
    size_t count = 0;
    enum plm_status status = plmi_decoder_next(xml->decoder, &bytes, &count);
    if (status == PLM_STATUS_OK) {
        pass_blanks(xml, &bytes, &count);
        return count == 0 ? PLM_STATUS_OK : feed(xml, bytes, count, false);
    }
    xml->status = status == PLM_STATUS_END ? PLM_STATUS_OK : status;
    if (status == PLM_STATUS_END && feed(xml, "", 0, true) == PLM_STATUS_OK) {
        xml->status = PLM_STATUS_END;
    }
    return xml->status;
}

void plmi_xml_fail(struct plmi_xml *xml, enum plm_status status)
{
    stop(xml, status);
}

bool plmi_xml_partial(const struct plmi_xml *xml)
{
    return plmi_decoder_partial(xml->decoder);
}

void plmi_xml_free(struct plmi_xml *xml)
{
    if (xml == NULL) {
        return;
    }
    if (xml->parser != NULL) {
        XML_ParserFree(xml->parser);
    }
    plmi_decoder_free(xml->decoder);
    plmi_text_free(&xml->text);
    plmi_places_free(&xml->places);
    free(xml->starts);
    free(xml);
}
