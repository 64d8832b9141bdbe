/*
 * XML events with line and column (expat inside), fed in pieces. Names come without namespace or prefix.
 * Document types and entity declarations are refused; nothing is ever fetched.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_SYNTAX_XML_H
#define PLM_SYNTAX_XML_H

#include <plimsoll/rules.h>
#include <plimsoll/source.h>

#include "base/diags.h"

struct plmi_xml; /* opaque */

/* Attribute value by local name, NULL where missing. attributes is expat's list: name, value, ..., NULL. */
const char *plmi_xml_attribute(const char *const *attributes, const char *name);

struct plmi_xml_handlers {
    void (*open)(void *context, const char *name, const char *const *attributes, long line, long column);
    /* text: all character data directly inside the element, blanks at both ends cut; borrowed */
    void (*close)(void *context, const char *name, const char *text, long line, long column);
};

enum plm_status plmi_xml_open(struct plmi_xml **out, struct plm_source *source,
                              const struct plmi_xml_handlers *handlers, void *context, const struct plm_rules *rules,
                              struct plmi_diags *diags);
/* Takes one piece of the source and calls the handlers. Returns: OK, END when the document is whole, or an error that
 * is reported. */
enum plm_status plmi_xml_step(struct plmi_xml *xml);
/* Lets a handler stop the parse with this status (already reported). */
void plmi_xml_fail(struct plmi_xml *xml, enum plm_status status);
/* As plmi_decoder_partial. */
bool plmi_xml_partial(const struct plmi_xml *xml);
void plmi_xml_free(struct plmi_xml *xml);

#endif
