/*
 * The report on formats: those that are read, or what was understood of a log, with the evidence, and the dives it
 * holds. Must not replay.
 * SPDX-License-Identifier: MIT
 */
#include <string.h>

#include <plimsoll/report_formats.h>

#include "base/plain.h"
#include "report/view/verdict.h"
#include "report/view/writer.h"

enum { LABEL = 20, WIDTH = 79 };

static void spaces_add(struct plmi_text *out, size_t count)
{
    plmi_text_printf(out, "%*s", (int)count, "");
}

/* A label, and words behind it that go on below one another within the width of a page. */
static void row_write(struct plmi_text *out, const char *label, const char *words)
{
    size_t column = out->count;
    plmi_text_puts(out, "  ");
    plmi_text_add_plain(out, label, strlen(label));
    column = out->count - column;
    if (column > LABEL) {
        plmi_text_puts(out, "\n");
    }
    spaces_add(out, column > LABEL ? LABEL : LABEL - column);
    column = LABEL;
    while (*words != '\0') {
        size_t n = strcspn(words, " ");
        if (column > LABEL && column + 1 + n > WIDTH) {
            plmi_text_puts(out, "\n");
            spaces_add(out, LABEL);
            column = LABEL;
        }
        size_t before = out->count;
        plmi_text_puts(out, column > LABEL ? " " : "");
        plmi_text_add_plain(out, words, n);
        column += out->count - before;
        words += n + (words[n] == ' ');
    }
    plmi_text_puts(out, "\n");
}

static void fact_write(void *to, const char *what, const char *found, const char *evidence)
{
    struct plmi_text *out = to;
    struct plmi_text words;
    plmi_text_init(&words);
    plmi_text_puts(&words, found);
    if (evidence[0] != '\0') {
        plmi_text_printf(&words, " (%s)", evidence);
    }
    row_write(out, what, words.bytes != NULL ? words.bytes : "");
    out->failed = out->failed || words.failed;
    plmi_text_free(&words);
}

/* What stands behind the last dive of a log. */
static void log_end(struct plm_report *report)
{
    struct plmi_text *out = &report->out;
    if (report->guessed) {
        plmi_text_puts(out, "\n");
        plmi_text_puts(out, "?  taken from the values, or from a name that was understood in part: check it,\n");
        plmi_text_puts(out, "   and say it by hand with --columns where it is wrong\n");
    }
    report->guessed = false;
}

enum plm_status plm_report_formats_known(struct plm_report *report)
{
    const struct plm_format_info *info;
    struct plmi_text *out = &report->out;
    if (report->format->subject != PLM_REPORT_FORMATS) {
        return plmi_writer_unsuited(report);
    }
    plmi_text_puts(out, "Formats are told by what is in a file, never by its name. Either may be\n");
    plmi_text_puts(out, "compressed by gzip.\n\n");
    for (size_t i = 0; (info = plm_import_format_get(i)) != NULL; i++) {
        fact_write(out, info->name, info->summary, info->refused ? "known by sight, not read" : "");
    }
    plmi_text_puts(out, "\n");
    plmi_text_puts(out, "plimsoll formats LOG tells what was understood of a log, column by column.\n");
    return plmi_writer_flush(report);
}

enum plm_status plm_report_formats_log(struct plm_report *report, const char *name, const struct plm_verdict *verdict)
{
    static const struct plmi_verdict_words words = {"Format", "Column", " ?"};
    struct plmi_text *out = &report->out;
    if (report->format->subject != PLM_REPORT_FORMATS) {
        return plmi_writer_unsuited(report);
    }
    log_end(report);
    plmi_text_puts(out, report->logs > 0 ? "\n" : "");
    plmi_text_add_plain(out, name, strlen(name));
    plmi_text_puts(out, "\n");
    plmi_verdict_rows(verdict, &words, fact_write, out, out);
    for (size_t i = 0; i < verdict->column_count; i++) {
        report->guessed = report->guessed || verdict->columns[i].guessed;
    }
    plmi_text_puts(out, "\n");
    plmi_text_puts(out, "DIVES\n");
    report->logs++;
    return plmi_writer_flush(report);
}

static double deepest_m(const struct plm_sample *samples, size_t count)
{
    double deepest = 0;
    for (size_t i = 0; i < count; i++) {
        deepest = samples[i].depth_m > deepest ? samples[i].depth_m : deepest;
    }
    return deepest;
}

static void dive_words(struct plmi_text *words, const struct plm_dive *dive)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    size_t count, setting_count, mix_count;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    const struct plm_setting *settings = plm_dive_settings(dive, &setting_count);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &mix_count);
    char mix[32];
    long seconds = (long)((samples[count - 1].time_ms - samples[0].time_ms) / 1000);
    long decimetres = (long)(deepest_m(samples, count) * 10 + 0.5);
    if (info->number != NULL) {
        plmi_text_printf(words, "number %.40s, ", info->number);
    }
    plmi_text_printf(
        words, "from line %lu: %zu samples, %ld:%02ld:%02ld h, to %ld.%ld m, begins on %s", (unsigned long)info->line,
        count, seconds / 3600, seconds / 60 % 60, seconds % 60, decimetres / 10, decimetres % 10,
        info->gas_known ? plm_mix_name(&mixes[settings[0].mix].mix, mix, sizeof mix) : "a gas that is not told");
    if (info->mode_known) {
        plmi_text_printf(words, ", %s", plm_mode_text(settings[0].mode));
    }
}

enum plm_status plm_report_formats_dive(struct plm_report *report, const struct plm_dive *dive)
{
    struct plmi_text label, words;
    if (report->format->subject != PLM_REPORT_FORMATS) {
        return plmi_writer_unsuited(report);
    }
    plmi_text_init(&label);
    plmi_text_init(&words);
    plmi_text_printf(&label, "Dive %d", plm_dive_info_get(dive)->index);
    dive_words(&words, dive);
    row_write(&report->out, label.bytes != NULL ? label.bytes : "", words.bytes != NULL ? words.bytes : "");
    report->out.failed = report->out.failed || label.failed || words.failed;
    plmi_text_free(&label);
    plmi_text_free(&words);
    return plmi_writer_flush(report);
}

const struct plmi_writer plmi_writer_formats_text = {
    .end = log_end,
};
