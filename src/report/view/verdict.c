/*
 * What was understood of a log, as rows. Must not lay them out.
 * SPDX-License-Identifier: MIT
 */
#include "report/view/verdict.h"

static const char *shown(const char *text)
{
    return text != NULL ? text : "";
}

void plmi_verdict_rows(const struct plm_verdict *verdict, const struct plmi_verdict_words *words,
                       plmi_verdict_take *take, void *to, struct plmi_text *out)
{
    struct plmi_text label, found;
    plmi_text_init(&label);
    plmi_text_init(&found);
    take(to, words->format, verdict->format, shown(verdict->summary));
    for (size_t i = 0; i < verdict->fact_count; i++) {
        take(to, verdict->facts[i].what, verdict->facts[i].found, shown(verdict->facts[i].evidence));
    }
    for (size_t i = 0; i < verdict->column_count; i++) {
        const struct plm_verdict_column *column = &verdict->columns[i];
        plmi_text_clear(&label);
        plmi_text_clear(&found);
        plmi_text_printf(&label, "%s %zu%s", words->column, column->index, column->guessed ? words->guessed : "");
        plmi_text_printf(&found, "%s%s%s%s%s", column->header, column->header[0] != '\0' ? ": " : "", column->meaning,
                         column->unit[0] != '\0' ? " in " : "", column->unit);
        take(to, shown(label.bytes), shown(found.bytes), shown(column->evidence));
    }
    out->failed = out->failed || label.failed || found.failed;
    plmi_text_free(&label);
    plmi_text_free(&found);
}
