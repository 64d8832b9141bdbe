/*
 * What the UDDF reader keeps while it walks a file: definitions, the dive being read, the waypoint being read; and
 * where it is. One element opens or closes at a time; nothing is kept of what was read but what later elements need.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_UDDF_STATE_H
#define PLM_IMPORT_UDDF_STATE_H

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
    enum plm_mix_use use; /* of the card's */
};

/* A thing that references may name. */
enum plmi_uddf_kind {
    PLMI_UDDF_KIND_SITE,
    PLMI_UDDF_KIND_TANK,
    PLMI_UDDF_KIND_CELL,
    PLMI_UDDF_KIND_COMPUTER,
    PLMI_UDDF_KIND_TANKDATA,
    PLMI_UDDF_KIND_MODEL
};
struct plmi_uddf_thing {
    enum plmi_uddf_kind kind;
    const char *id, *name;
    double altitude_m, water_kg_m3; /* of a site; NaN unknown */
    double gf_low_pct, gf_high_pct; /* of a model; NaN unknown */
    const char *mix_ref;            /* of tankdata (2.x) */
};

struct plmi_uddf_definitions {
    struct plmi_arena arena;
    struct plmi_uddf_mix *mixes;
    size_t mix_count, mix_capacity;
    struct plmi_uddf_thing *things;
    size_t thing_count, thing_capacity;
    const char *diver;           /* first and last name of the owner */
    bool gases_seen;             /* gasdefinitions were met */
    bool from_card;              /* the file defines no mix: these are the card's */
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
    bool setpoints; /* some were stated */
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
    double interval_s; /* NaN: not stated */
    double altitude_m, site_altitude_m, surface_bar;
    const char *computer;
    const struct plmi_uddf_thing *model; /* decompression model that the dive refers to; NULL none */
    const char *diver;                   /* where it is not the owner, "" nobody; NULL: the owner */
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
    bool partial; /* something of the file is not in its dives */
    bool celsius_stated, tank_bar_stated, planning_stated, series_stated, models_stated;
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
    char version[32];
};

/* Whether an element is open, at any depth. */
bool plmi_uddf_inside(const struct plmi_reader *reader, enum plmi_uddf_element element);
/* The element around the one that opens or closes. */
enum plmi_uddf_element plmi_uddf_parent(const struct plmi_reader *reader);
/* Stops the parse: the status is the result of the import. */
void plmi_uddf_fail(struct plmi_reader *reader, enum plm_status status);
void plmi_uddf_no_memory(struct plmi_reader *reader);

/* Something of the file is left out of its dives: the reading is partial, and a diagnostic tells why. */
void plmi_uddf_lose(struct plmi_reader *reader, enum plm_level level, enum plm_diag_id id, long line, long column,
                    const char *format, ...) PLMI_PRINTF(6, 7);

/* The attribute of an element by either of two names, kept for its close in reader->attribute. */
void plmi_uddf_attribute_keep(struct plmi_reader *reader, const char *const *attributes, const char *name,
                              const char *other);

#endif
