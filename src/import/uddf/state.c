/*
 * Where the walk through a UDDF file is, and how it is stopped.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/state.h"

bool plmi_uddf_inside(const struct plmi_reader *reader, enum plmi_uddf_element element)
{
    for (size_t i = reader->depth; i > 0; i--) {
        if (reader->stack[i - 1] == element) {
            return true;
        }
    }
    return false;
}

enum plmi_uddf_element plmi_uddf_parent(const struct plmi_reader *reader)
{
    return reader->depth < 2 ? PLMI_UDDF_OTHER : (enum plmi_uddf_element)reader->stack[reader->depth - 2];
}

void plmi_uddf_fail(struct plmi_reader *reader, enum plm_status status)
{
    plmi_xml_fail(reader->xml, status);
}

void plmi_uddf_no_memory(struct plmi_reader *reader)
{
    (void)plmi_diags_no_memory(reader->diags, 0, "to read the dives");
    plmi_uddf_fail(reader, PLM_STATUS_MEMORY);
}

void plmi_uddf_lose(struct plmi_reader *reader, enum plm_level level, enum plm_diag_id id, long line, long column,
                    const char *format, ...)
{
    va_list arguments;
    reader->partial = true;
    va_start(arguments, format);
    plmi_diags_add_list(reader->diags, level, id, line, column, format, arguments);
    va_end(arguments);
}

void plmi_uddf_attribute_keep(struct plmi_reader *reader, const char *const *attributes, const char *name,
                              const char *other)
{
    const char *value = plmi_xml_attribute(attributes, name);
    if (value == NULL && other != NULL) {
        value = plmi_xml_attribute(attributes, other);
    }
    plmi_text_clear(&reader->attribute_kept);
    plmi_text_puts(&reader->attribute_kept, value == NULL ? "" : value);
    reader->attribute = reader->attribute_kept.failed ? "" : reader->attribute_kept.bytes;
    if (reader->attribute_kept.failed) {
        plmi_uddf_no_memory(reader);
    }
}
