/*
 * What the files of the UDDF reader share: definitions, the dive being read, the waypoint being read.
 * One element opens or closes at a time; nothing is kept of what was read but what later elements need.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_UDDF_H
#define PLM_IMPORT_UDDF_UDDF_H

#include <plimsoll/dive_builder.h>

#include "base/arena.h"
#include "dive/mix_parts.h"
#include "import/format/format.h"
#include "import/uddf/elements.h"
#include "syntax/xml.h"

#define PLMI_UDDF_DEPTH 1024 /* as the rule xml_depth_max at most */
#define PLMI_UDDF_NONE  UINT32_MAX

/* A mix of gasdefinitions; settled at its first use. */
struct plmi_uddf_mix {
    const char *id, *name;
    struct plmi_mix_parts parts;
    double po2_max_bar;
    uint32_t line;
    bool doubled; /* its id stands for two mixes */
    bool settled, usable;
};

/* A thing that references may name. */
enum plmi_uddf_kind {
    PLMI_UDDF_KIND_SITE,
    PLMI_UDDF_KIND_TANK,
    PLMI_UDDF_KIND_CELL,
    PLMI_UDDF_KIND_COMPUTER,
    PLMI_UDDF_KIND_TANKDATA
};
struct plmi_uddf_thing {
    enum plmi_uddf_kind kind;
    const char *id, *name;
    double altitude_m, water_kg_m3; /* of a site; NaN unknown */
    const char *mix_ref;            /* of tankdata (2.x) */
};

struct plmi_uddf_definitions {
    struct plmi_arena arena;
    struct plmi_uddf_mix *mixes;
    size_t mix_count, mix_capacity;
    struct plmi_uddf_thing *things;
    size_t thing_count, thing_capacity;
    const char *diver;           /* first and last name of the owner */
    const char *notes;           /* gradient factors of a decomodel */
    bool gases_seen;             /* gasdefinitions were met */
    size_t mix_open, thing_open; /* [from 1] being read; 0 none. Indices, as the arrays move when they grow and go with
                                    a first pass */
};

/* A unit that a file may have wrong: found at the first value, all others must agree. */
enum plmi_uddf_scale { PLMI_UDDF_SCALE_UNKNOWN, PLMI_UDDF_SCALE_SI, PLMI_UDDF_SCALE_TRADE };

/* Samples go here: a dive's, or its plan's. */
struct plmi_uddf_track {
    struct plm_dive_builder *builder; /* NULL: nothing is read */
    /* of each defined mix in the builder, or PLMI_UDDF_NONE; definitions.mix_count items */
    uint32_t *mix_index;
    enum plm_mode mode;
    uint32_t breathed;                          /* index of definitions.mixes, or PLMI_UDDF_NONE */
    double user_bar, computer_bar, unnamed_bar; /* the series of set points; NaN: none yet */
    size_t waypoints, lacking;                  /* lacking depth or time */
    bool refused;                               /* an error was reported that no guess may mend */
};

/* One waypoint, gathered until it closes. */
struct plmi_uddf_waypoint {
    bool active;
    uint32_t line;
    double time_s;
    struct plm_sample sample;
    bool has_mode, switches;
    enum plm_mode mode;
    uint32_t mix;   /* index of definitions.mixes */
    bool setpoints; /* some were told */
    double user_bar, computer_bar, unnamed_bar;
    int cells_without_ref;
    double cell_bar;             /* of the one without ref */
    struct plm_event events[32]; /* time not filled; texts in texts, in the definitions' arena, or static */
    size_t event_count, events_lost;
    char texts[1024];
    size_t texts_used;
    bool texts_cut;
};

/* What a dive says before its samples end. */
struct plmi_uddf_dive {
    bool active;
    struct plmi_uddf_track track;
    struct plmi_uddf_track plan;
    bool plan_seen, samples_seen;
    int year, month, day, hour, minute; /* 2.x; -1 none */
    bool interval_infinite;
    double interval_s; /* NaN: not told */
    double altitude_m, site_altitude_m, surface_bar;
    const char *computer;
    const char *diver; /* where it is not the owner, "" nobody; NULL: the owner */
    struct plmi_text notes;
};

struct plmi_uddf_queue {
    struct plm_dive **dives;
    size_t count, capacity, taken;
};

struct plmi_reader {
    struct plmi_xml *xml;
    struct plm_source *source;
    const struct plm_import_options *options;
    struct plmi_diags *diags;
    struct plm_diag_sink quiet_sink; /* of plans, whose gaps nobody minds */
    struct plmi_uddf_names names;
    unsigned char stack[PLMI_UDDF_DEPTH]; /* enum plmi_uddf_element */
    size_t depth;
    const char *attribute;           /* of the leaf that closes next, where it needs one; "" none */
    struct plmi_text attribute_kept; /* its bytes */
    size_t skip_from;                /* depth of an element whose inside is not read; 0 none */
    /* written by plm_export: units and intervals are as the file says, nothing is guessed */
    bool exact;
    bool definitions_only; /* a first pass over a file with its gases at the end */
    bool definitions_done; /* such a pass was made */
    bool restart;          /* asks for one */
    struct plmi_uddf_definitions definitions;
    struct plmi_uddf_dive dive;
    struct plmi_uddf_waypoint waypoint;
    struct plmi_uddf_queue queue;
    enum plmi_uddf_scale po2_scale;
    bool celsius_told, tank_bar_told, planning_told, series_told;
    struct {
        char name[40];
        long count, line;
    } unread[8]; /* recorded in waypoints, and not read */
    size_t unread_count;
    const char *cell_refs[PLM_CELLS]; /* in the order of the cells of a sample */
    size_t cell_count;
    int groups, dives, given, dive_in_group;
    double waypoints; /* in the file */
    /* in the water, of the dive before in this group; known = false: not known */
    struct plm_stamp last_end;
    struct plm_verdict verdict;
    struct plm_verdict_fact facts[8];
    char version[32], root[64];
};

/* Whether an element is open, at any depth. */
bool plmi_uddf_inside(const struct plmi_reader *reader, enum plmi_uddf_element element);
/* The element around the one that opens or closes. */
enum plmi_uddf_element plmi_uddf_parent(const struct plmi_reader *reader);
/* Stops the parse: the status is the result of the import. */
void plmi_uddf_fail(struct plmi_reader *reader, enum plm_status status);
void plmi_uddf_no_memory(struct plmi_reader *reader);

/* The attribute of an element by either of two names, kept for its close in reader->attribute. */
void plmi_uddf_attribute_keep(struct plmi_reader *reader, const char *const *attributes, const char *name,
                              const char *other);

/* Definitions (uddf_definitions.c). Each returns whether the element was its own. */
bool plmi_uddf_definitions_open(struct plmi_reader *reader, enum plmi_uddf_element element,
                                const char *const *attributes, long line);
bool plmi_uddf_definitions_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text,
                                 long line, long column);
void plmi_uddf_definitions_free(struct plmi_reader *reader);
const struct plmi_uddf_thing *plmi_uddf_thing_find(const struct plmi_reader *reader, const char *id, bool any_kind,
                                                   enum plmi_uddf_kind kind);
/* Index of the mix that a reference names, by id, or by a name that only one has (told); NONE: reported. */
uint32_t plmi_uddf_mix_find(struct plmi_reader *reader, const char *ref, long line, long column);
/* Index of the mix of this id alone, nothing reported; NONE: there is none, or there are two. */
uint32_t plmi_uddf_mix_of_id(const struct plmi_reader *reader, const char *id);
/* The mix of that index in a track's builder; false where it cannot be used (reported). */
bool plmi_uddf_mix_use(struct plmi_reader *reader, struct plmi_uddf_track *track, uint32_t mix, uint32_t *index);

/* The dive around the samples (uddf_dive.c). */
bool plmi_uddf_dive_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                         long line, long column);
bool plmi_uddf_dive_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                          long column);
void plmi_uddf_dive_free(struct plmi_reader *reader);

/* What our own exports keep in applicationdata (uddf_own.c); opens elements of the dive that is being read. */
void plmi_uddf_own_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                        long line, long column);
/* Whether a generator of this name is ours. */
bool plmi_uddf_own_generator(const char *name);

/* Waypoints (uddf_waypoint.c, uddf_events.c). */
bool plmi_uddf_waypoint_open(struct plmi_reader *reader, enum plmi_uddf_element element, const char *const *attributes,
                             long line, long column);
bool plmi_uddf_waypoint_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                              long column);
bool plmi_uddf_event_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                           long column);
/* A decostop, all of it in its attributes. */
void plmi_uddf_event_stop(struct plmi_reader *reader, const char *const *attributes, long line, long column);
/* Adds an event to the waypoint; text is copied. */
void plmi_uddf_event_add(struct plmi_reader *reader, enum plm_event_kind kind, double value, double value2,
                         const char *text);

/* Counts an element of waypoints that is not read, to be told at the end. */
void plmi_uddf_unread_count(struct plmi_reader *reader, const char *name, long line);

/* Values (uddf_values.c): NaN where a value cannot be read, which is reported. */
double plmi_uddf_number(struct plmi_reader *reader, const char *text, const char *what, long line, long column);
double plmi_uddf_po2_bar(struct plmi_reader *reader, const char *text, long line, long column);
double plmi_uddf_temp_c(struct plmi_reader *reader, const char *text, long line, long column);
double plmi_uddf_tank_bar(struct plmi_reader *reader, const char *text, long line, long column);
/* A text of pascal that was parsed to value, in bar: rounded once, as if the text had said bar. */
double plmi_uddf_bar_of_pa(const char *text, double value);
double plmi_uddf_surface_bar(struct plmi_reader *reader, const char *text, long line, long column);

#endif
