/*
 * The table of formats, and those that are known by sight and refused. Evidence decides, the order does not.
 * SPDX-License-Identifier: MIT
 */
#include "import/formats.h"

#include <string.h>

#include "import/format/head.h"
#include "import/table/reader.h"
#include "import/uddf/reader.h"

/* Root element "profile" with an attribute "udcf": 7 and 4 letters. */
static int udcf_probe(const unsigned char *bytes, size_t n)
{
    struct plmi_head head;
    char name[64];
    bool udcf = false;
    plmi_head_read(&head, bytes, n);
    plmi_head_root(&head, name, "udcf", &udcf);
    return udcf && strcmp(name, "profile") == 0 ? 8 * (7 + 4) : 0;
}

static int zip_probe(const unsigned char *bytes, size_t n)
{
    return n >= 4 && memcmp(bytes, "PK\x03\x04", 4) == 0 ? 32 : 0;
}

static const struct plmi_format UDCF = {
    .info = {"udcf", "UDCF, the predecessor of UDDF", true},
    .refusal = "it is UDCF, the predecessor of UDDF, and not read; export the dive as UDDF 3 or as CSV",
    .probe = udcf_probe,
};

static const struct plmi_format ZIP = {
    .info = {"zip", "zip archive", true},
    .refusal = "it is a zip archive; unpack it and give the file inside (gzip is read as it is)",
    .probe = zip_probe,
};

static const struct plmi_format *const FORMATS[] = {&plmi_format_uddf, &plmi_format_csv, &UDCF, &ZIP};
#define FORMAT_COUNT (sizeof FORMATS / sizeof FORMATS[0])

const struct plmi_format *const *plmi_formats(size_t *count)
{
    *count = FORMAT_COUNT;
    return FORMATS;
}

const struct plm_format_info *plm_import_format_get(size_t n)
{
    return n < FORMAT_COUNT ? &FORMATS[n]->info : NULL;
}
