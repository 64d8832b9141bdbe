/*
 * What a debrief costs beside the bare expat parse of the same bytes, stage by stage. Prints; asserts no time.
 * usage: bench_debrief [RUNS [STAGE [FILE...]]]   a stage of the table below, or all; for instruction counts one of
 * them under callgrind. Files: UDDF; unless told two samples.
 * SPDX-License-Identifier: MIT
 */
#include <expat.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <plimsoll/debrief.h>

/* A log in memory. */
struct log {
    const char *path;
    char *bytes;
    size_t count;
};

static void check(bool done, const char *what)
{
    if (!done) {
        fprintf(stderr, "bench_debrief: %s\n", what);
        exit(EXIT_FAILURE);
    }
}

static struct log log_read(const char *path)
{
    struct log log = {.path = path, .bytes = malloc(1u << 26)};
    FILE *file = fopen(path, "rb");
    check(file != NULL && log.bytes != NULL, path);
    log.count = fread(log.bytes, 1, 1u << 26, file);
    (void)fclose(file);
    return log;
}

static void XMLCALL on_open(void *seen, const XML_Char *name, const XML_Char **attributes)
{
    (void)name;
    (void)attributes;
    ++*(long *)seen;
}

static void XMLCALL on_close(void *seen, const XML_Char *name)
{
    (void)name;
    ++*(long *)seen;
}

static void XMLCALL on_text(void *seen, const XML_Char *bytes, int count)
{
    (void)bytes;
    *(long *)seen += count;
}

static size_t parse(const struct log *log)
{
    long seen = 0;
    XML_Parser parser = XML_ParserCreate(NULL);
    XML_SetUserData(parser, &seen);
    XML_SetElementHandler(parser, on_open, on_close);
    XML_SetCharacterDataHandler(parser, on_text);
    for (size_t at = 0; at < log->count; at += 65536) {
        size_t rest = log->count - at;
        check(XML_Parse(parser, log->bytes + at, (int)(rest < 65536 ? rest : 65536), rest <= 65536) == XML_STATUS_OK,
              "no XML");
    }
    XML_ParserFree(parser);
    return 0;
}

static struct plm_source *open_memory(const struct log *log, const struct plm_rules *rules)
{
    struct plm_source *source = NULL;
    check(plm_source_open_memory(&source, log->bytes, log->count, "bench", rules, NULL) == PLM_STATUS_OK, "no source");
    return source;
}

static size_t import(const struct log *log)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_import_options options = {.rules = &rules};
    struct plm_source *source = open_memory(log, &rules);
    struct plm_import *import = NULL;
    struct plm_dive *dive = NULL;
    size_t samples = 0, count = 0;
    check(plm_import_open(&import, source, &options, NULL) == PLM_STATUS_OK, "not imported");
    while (plm_import_next(import, &dive) == PLM_STATUS_OK) {
        (void)plm_dive_samples(dive, &count);
        samples += count;
        plm_dive_free(dive);
    }
    plm_import_free(import);
    plm_source_free(source);
    return samples;
}

static size_t debrief(const struct log *log, const struct plm_debrief_options *options)
{
    struct plm_source *source = open_memory(log, options->rules);
    struct plm_log_options reading = plm_log_options_default(options->rules);
    struct plm_log *open = NULL;
    struct plm_debrief *debrief = NULL;
    struct plm_debriefed *one = NULL;
    size_t samples = 0, count = 0;
    reading.digest = !options->replay_only;
    check(plm_log_open_source(&open, source, &reading, NULL) == PLM_STATUS_OK, "not opened");
    check(plm_debrief_open(&debrief, open, options, NULL) == PLM_STATUS_OK, "not debriefed");
    while (plm_debrief_next(debrief, &one) == PLM_STATUS_OK) {
        (void)plm_trace_points(one->trace, &count);
        samples += count;
        plm_debriefed_free(one);
    }
    plm_debrief_free(debrief);
    plm_log_free(open);
    plm_source_free(source);
    return samples;
}

static size_t replay(const struct log *log)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    options.schedules = false;
    options.replay_only = true;
    return debrief(log, &options);
}

static size_t trace(const struct log *log)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    options.replay_only = true;
    return debrief(log, &options);
}

static size_t review(const struct log *log)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    options.schedules = options.decompression = options.review.hold = options.review.cost = false;
    return debrief(log, &options);
}

static size_t owed(const struct log *log)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    options.schedules = options.review.hold = options.review.cost = false;
    return debrief(log, &options);
}

static size_t hold_cost(const struct log *log)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    options.schedules = false;
    return debrief(log, &options);
}

static size_t whole(const struct log *log)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_debrief_options options = plm_debrief_options_default(&rules);
    return debrief(log, &options);
}

static const struct stage {
    const char *name, *what;
    size_t (*run)(const struct log *log);
} stages[] = {
    {"parse", "bare expat parse", parse},
    {"import", "read as a dive", import},
    {"replay", "and replayed", replay},
    {"review", "and reviewed", review},
    {"owed", "and decompression owed and done", owed},
    {"hold", "and hold and cost of findings", hold_cost},
    {"trace", "replayed, a schedule a sample", trace},
    {"whole", "all of it, a schedule a sample", whole},
};

static double now_s(void)
{
    struct timespec now;
    (void)clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* The least of some runs: the others were disturbed. */
static void measure(const struct log *log, int runs, const char *wanted)
{
    double bare_s = (double)NAN;
    (void)printf("%s, %zu bytes\n", log->path, log->count);
    for (size_t i = 0; i < sizeof stages / sizeof stages[0]; i++) {
        double least_s = (double)INFINITY;
        size_t samples = 0;
        if (strcmp(wanted, "all") != 0 && strcmp(wanted, stages[i].name) != 0) {
            continue;
        }
        for (int run = 0; run < runs; run++) {
            double start_s = now_s();
            samples = stages[i].run(log);
            least_s = fmin(least_s, now_s() - start_s);
        }
        bare_s = i == 0 ? least_s : bare_s;
        (void)printf("  %-7s %-33s %9.3f ms %8.2f of the parse %8zu samples\n", stages[i].name, stages[i].what,
                     1e3 * least_s, least_s / bare_s, samples);
    }
}

int main(int count, char **arguments)
{
    static const char *const usual[] = {PLMI_SAMPLES_DIR "/deep-terrace.uddf", PLMI_SAMPLES_DIR "/outer-wall.uddf"};
    int runs = count > 1 ? (int)strtol(arguments[1], NULL, 10) : 3;
    const char *wanted = count > 2 ? arguments[2] : "all";
    for (int i = 0; i < (count > 3 ? count - 3 : 2); i++) {
        struct log log = log_read(count > 3 ? arguments[i + 3] : usual[i]);
        measure(&log, runs, wanted);
        free(log.bytes);
    }
    return EXIT_SUCCESS;
}
