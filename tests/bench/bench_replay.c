/*
 * What a replay costs beside the bare expat parse of the same dive as UDDF: three hours, a sample a second, on open
 * circuit and on a loop with three cells at every sample. Prints; asserts no time. usage: bench_replay [RUNS [WHAT]]
 * WHAT: parse, replay, schedules or all; for instruction counts run one of them under callgrind.
 * SPDX-License-Identifier: MIT
 */
#include <expat.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <plimsoll/decompression.h>

#include "support/made_dive.h"
#include "support/random.h"

#define SECONDS 10800

struct text {
    char *bytes;
    size_t count;
};

/* [s] since some moment. */
static double clock_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Down to 90 m in 5 min, 25 min there, then slower and slower to the surface; in steps of 0.1 m. */
static double depth_m(int t_s)
{
    double deep_m = t_s < 300 ? 0.3 * t_s : t_s < 1800 ? 90.0 + sin(t_s / 40.0) : 90.0 * exp(-(t_s - 1800) / 2000.0);
    return t_s + 1 >= SECONDS ? 0.0 : round(deep_m * 10.0) / 10.0;
}

static void write_waypoint(struct text *text, bool loop, int t_s, const double *cells)
{
    char *at = text->bytes + text->count;
    int n = snprintf(at, 200, "<waypoint><depth>%.1f</depth><divetime>%d.0</divetime><temperature>%.2f</temperature>",
                     depth_m(t_s), t_s, 283.15 + 0.1 * (t_s % 7));
    if (loop) {
        n += snprintf(at + n, 300,
                      "<measuredpo2 ref=\"cell_a\">%.2fe5</measuredpo2><measuredpo2 ref=\"cell_b\">%.2fe5</measuredpo2>"
                      "<measuredpo2 ref=\"cell_c\">%.2fe5</measuredpo2>",
                      cells[0], cells[1], cells[2]);
    }
    n += snprintf(at + n, 32, "</waypoint>\n");
    text->count += (size_t)n;
}

/* The same dive twice: as UDDF, and as the builder's. */
static struct plm_dive *make(struct text *text, bool loop)
{
    struct seeded seeded = {7};
    struct made_dive made = made_start(1.01325);
    if (loop) {
        made_loop(&made, 0.10, 0.60, 1.3);
    } else {
        made_open(&made, 0.18, 0.45);
    }
    made_carried(&made, 0.18, 0.45);
    made_carried(&made, 0.5, 0.0);
    text->bytes = malloc((size_t)SECONDS * 512);
    if (text->bytes == NULL) {
        exit(EXIT_FAILURE);
    }
    text->count = (size_t)snprintf(text->bytes, 200,
                                   "<?xml version=\"1.0\"?>\n<uddf><profiledata><repetitiongroup><dive><samples>\n");
    for (int t_s = 0; t_s < SECONDS; t_s++) {
        double cells[3];
        for (int c = 0; c < 3; c++) {
            cells[c] = round((1.3 + seeded_between(&seeded, -0.04, 0.04)) * 100.0) / 100.0;
        }
        write_waypoint(text, loop, t_s, cells);
        if (loop) {
            made_sample_cells(&made, t_s, depth_m(t_s), cells[0], cells[1], cells[2]);
        } else {
            made_sample(&made, t_s, depth_m(t_s));
        }
    }
    text->count +=
        (size_t)snprintf(text->bytes + text->count, 200, "</samples></dive></repetitiongroup></profiledata></uddf>\n");
    return made_finish(&made);
}

static void XMLCALL on_start(void *seen, const XML_Char *name, const XML_Char **attributes)
{
    (void)name;
    (void)attributes;
    ++*(long *)seen;
}

static void XMLCALL on_end(void *seen, const XML_Char *name)
{
    (void)name;
    ++*(long *)seen;
}

static void XMLCALL on_text(void *seen, const XML_Char *bytes, int count)
{
    (void)bytes;
    *(long *)seen += count;
}

static double parse_s(const struct text *text)
{
    double start_s = clock_s();
    long seen = 0;
    XML_Parser parser = XML_ParserCreate(NULL);
    XML_SetUserData(parser, &seen);
    XML_SetElementHandler(parser, on_start, on_end);
    XML_SetCharacterDataHandler(parser, on_text);
    for (size_t at = 0; at < text->count; at += 65536) {
        size_t rest = text->count - at;
        int n = (int)(rest < 65536 ? rest : 65536);
        if (XML_Parse(parser, text->bytes + at, n, n == (int)rest) != XML_STATUS_OK) {
            exit(EXIT_FAILURE);
        }
    }
    XML_ParserFree(parser);
    return clock_s() - start_s;
}

static double replay_s(const struct plm_dive *dive, bool schedules)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_replay_options options = plm_replay_options_default(&rules);
    options.schedules = schedules;
    struct plm_trace *trace;
    double start_s = clock_s();
    if (plm_replay(&trace, dive, &options, NULL) != PLM_STATUS_OK) {
        exit(EXIT_FAILURE);
    }
    plm_trace_free(trace);
    return clock_s() - start_s;
}

static double decompression_s(const struct plm_dive *dive)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_replay_options options = plm_replay_options_default(&rules);
    struct plm_decompression *found = malloc(sizeof *found);
    struct plm_trace *trace = made_replay(dive, &rules);
    double start_s = clock_s();
    plm_decompression_find(found, dive, trace, &options, NULL);
    double taken_s = clock_s() - start_s;
    plm_trace_free(trace);
    free(found);
    return taken_s;
}

/* Least of some runs: the others were disturbed. */
static void measure(bool loop, int runs, const char *what)
{
    struct text text;
    struct plm_dive *dive = make(&text, loop);
    bool all = strcmp(what, "all") == 0;
    double parse = INFINITY, replay = INFINITY, schedules = INFINITY, decompression = INFINITY;
    for (int run = 0; run < runs; run++) {
        parse = all || strcmp(what, "parse") == 0 ? fmin(parse, parse_s(&text)) : parse;
        replay = all || strcmp(what, "replay") == 0 ? fmin(replay, replay_s(dive, false)) : replay;
    }
    if (all || strcmp(what, "schedules") == 0) {
        schedules = replay_s(dive, true);
        decompression = decompression_s(dive);
    }
    printf("%-12s %d samples, %zu bytes of UDDF\n", loop ? "loop, cells" : "open", SECONDS, text.count);
    printf("  bare parse    %8.0f ns a sample\n", 1e9 * parse / SECONDS);
    printf("  replay        %8.0f ns a sample, %.2f of the parse\n", 1e9 * replay / SECONDS, replay / parse);
    printf("  + schedules   %8.0f ns a sample, %.2f of the parse\n", 1e9 * schedules / SECONDS, schedules / parse);
    printf("  decompression %8.2f ms once\n", 1e3 * decompression);
    free(text.bytes);
    plm_dive_free(dive);
}

int main(int count, char **arguments)
{
    int runs = count > 1 ? (int)strtol(arguments[1], NULL, 10) : 5;
    const char *what = count > 2 ? arguments[2] : "all";
    measure(false, runs, what);
    measure(true, runs, what);
    return EXIT_SUCCESS;
}
