/*
 * A log as UDDF 3.2: definitions, then the dives in their repetition groups. Must not change what a dive says.
 * Source of the elements: the standard's documentation, versions 3.0 to 3.2.3. Pressures are pascal and temperatures
 * kelvin in as many digits as give the same number back.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include <plimsoll/version.h>

#include "base/clock.h"
#include "base/number.h"
#include "export/uddf.h"
#include "syntax/markup.h"

/* The longest name of a person that readers of one line keep. */
#define OWNER_BYTES_MAX 150

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* text without blanks at its ends, line ends as one kind, or all blanks plain where it must stay on one line. */
static void clean_add(struct plmi_text *out, const char *text, bool one_line)
{
    struct plmi_text clean;
    size_t n = strlen(text);
    plmi_text_init(&clean);
    while (n > 0 && is_blank(text[n - 1])) {
        n--;
    }
    while (n > 0 && is_blank(text[0])) {
        text++;
        n--;
    }
    for (size_t i = 0; i < n; i++) {
        bool double_end = text[i] == '\r' && i + 1 < n && text[i + 1] == '\n';
        const char *shown = is_blank(text[i]) && one_line ? " " : text[i] == '\r' ? "\n" : &text[i];
        if (!double_end) {
            plmi_text_add(&clean, shown, 1);
        }
    }
    if (clean.bytes != NULL) {
        plmi_xml_text(out, clean.bytes);
    }
    out->failed = out->failed || clean.failed;
    plmi_text_free(&clean);
}

void plmi_export_uddf_text(struct plmi_text *out, const char *tag, const char *text)
{
    if (text == NULL || text[strspn(text, " \t\r\n")] == '\0') {
        return;
    }
    plmi_text_printf(out, "<%s>", tag);
    clean_add(out, text, false);
    plmi_text_printf(out, "</%s>", tag);
}

void plmi_export_uddf_attribute(struct plmi_text *out, const char *name, const char *text)
{
    plmi_text_printf(out, " %s=\"", name);
    clean_add(out, text, true);
    plmi_text_puts(out, "\"");
}

void plmi_export_uddf_number(struct plmi_text *out, const char *tag, double value, int tens)
{
    if (isnan(value)) {
        return;
    }
    plmi_text_printf(out, "<%s>", tag);
    plmi_number_short_scaled(out, value, tens);
    plmi_text_printf(out, "</%s>", tag);
}

void plmi_export_uddf_number_attribute(struct plmi_text *out, const char *name, double value)
{
    if (!isfinite(value)) {
        return;
    }
    plmi_text_printf(out, " %s=\"", name);
    plmi_number_short(out, value);
    plmi_text_puts(out, "\"");
}

/* Whether a text can be an id of XML and is none of the kinds that are numbered here, but for its own. */
static bool id_possible(const char *text, const char *kind)
{
    static const char *const kinds[] = {"mix-",   "site-", "tank-", "cell-", "recorder-",
                                        "group-", "dive-", "owner", "loop"};
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_";
    static const char others[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_0123456789.-";
    if (text == NULL || text[0] == '\0' || strchr(letters, text[0]) == NULL || text[strspn(text, others)] != '\0' ||
        strlen(text) > 100) {
        return false;
    }
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strncmp(text, kinds[i], strlen(kinds[i])) == 0 && strncmp(kinds[i], kind, strlen(kind)) != 0) {
            return false;
        }
    }
    return true;
}

static bool id_taken(const struct plm_export *export, const char *id)
{
    const struct plmi_export_names *ids = &export->definitions.ids;
    for (size_t i = 0; i < ids->count; i++) {
        if (strcmp(ids->name[i], id) == 0) {
            return true;
        }
    }
    return false;
}

const char *plmi_export_uddf_id(struct plm_export *export, const char *told, const char *kind, size_t n)
{
    struct plmi_text id;
    plmi_text_init(&id);
    if (id_possible(told, kind)) {
        plmi_text_puts(&id, told);
    }
    while (!id.failed && (id.count == 0 || id_taken(export, id.bytes))) {
        plmi_text_clear(&id);
        plmi_text_printf(&id, "%s-%zu", kind, n++);
    }
    size_t at = id.failed ? 0 : plmi_export_name(export, &export->definitions.ids, id.bytes);
    export->failed = export->failed || id.failed;
    plmi_text_free(&id);
    return at > 0 ? export->definitions.ids.name[at - 1] : "";
}

static bool same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || a == b;
}

static bool same_mix(const struct plmi_export_mix *one, const struct plm_dive_mix *mix)
{
    return strcmp(one->name, mix->name) == 0 && same_number(one->o2_frac, mix->mix.o2_frac) &&
           same_number(one->he_frac, mix->mix.he_frac) && same_number(one->po2_max_bar, mix->po2_max_bar);
}

/* The definition that fits: by its id, and where that id cannot be had, by what is in it. NULL: none. */
static const struct plmi_export_mix *mix_known(const struct plm_export *export, const struct plm_dive_mix *mix)
{
    const struct plmi_export_definitions *definitions = &export->definitions;
    for (size_t i = 0; i < definitions->mix_count; i++) {
        if (strcmp(definitions->mixes[i].id, mix->id) == 0 && same_mix(&definitions->mixes[i], mix)) {
            return &definitions->mixes[i];
        }
    }
    bool free_id = id_possible(mix->id, "mix") && !id_taken(export, mix->id);
    for (size_t i = 0; i < definitions->mix_count && !free_id; i++) {
        if (same_mix(&definitions->mixes[i], mix)) {
            return &definitions->mixes[i];
        }
    }
    return NULL;
}

const char *plmi_export_uddf_mix(struct plm_export *export, const struct plm_dive_mix *mix)
{
    struct plmi_export_definitions *definitions = &export->definitions;
    const struct plmi_export_mix *known = mix_known(export, mix);
    if (known != NULL) {
        return known->id;
    }
    if (!plmi_array_grow((void **)&definitions->mixes, &definitions->mix_capacity, definitions->mix_count,
                         sizeof *definitions->mixes)) {
        export->failed = true;
        return "";
    }
    struct plmi_export_mix *one = &definitions->mixes[definitions->mix_count];
    *one = (struct plmi_export_mix){.o2_frac = mix->mix.o2_frac,
                                    .he_frac = mix->mix.he_frac,
                                    .n2_frac = mix->mix.n2_frac,
                                    .po2_max_bar = mix->po2_max_bar};
    one->id = plmi_export_uddf_id(export, mix->id, "mix", definitions->mix_count + 1);
    one->name = plmi_export_keep(export, mix->name);
    definitions->mix_count++;
    return one->id;
}

/* A dive's link to a named thing, as <link ref="site-1"/>. */
static void link_add(struct plm_export *export, struct plmi_export_names *names, const char *kind, const char *name)
{
    size_t number = plmi_export_name(export, names, name);
    if (number > 0) {
        plmi_text_printf(&export->body, "<link ref=\"%s-%zu\"/>", kind, number);
    }
}

static void plan_add(struct plm_export *export, const struct plm_dive *plan)
{
    size_t count;
    struct plmi_text *out = &export->body;
    const struct plm_setting *first = &plm_dive_settings(plan, &count)[plm_dive_samples(plan, &count)[0].setting];
    plmi_text_puts(out, "<plannedprofile");
    if (plm_dive_info_get(plan)->mode_known) {
        plmi_export_uddf_attribute(out, "startdivemode", plmi_export_uddf_mode(first->mode));
    }
    if (plm_dive_info_get(plan)->gas_known) {
        plmi_export_uddf_attribute(out, "startmix",
                                   plmi_export_uddf_mix(export, &plm_dive_mixes(plan, &count)[first->mix]));
    }
    plmi_text_puts(out, ">\n");
    plmi_export_uddf_waypoints(export, out, plan, NULL);
    plmi_text_puts(out, "</plannedprofile>");
}

static void before_add(struct plm_export *export, const struct plm_dive *dive)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    struct plmi_text *out = &export->body;
    struct plmi_text start;
    plmi_text_init(&start);
    plmi_clock_write(&start, &info->start);
    plmi_text_puts(out, "<informationbeforedive>");
    link_add(export, &export->definitions.recorders, "recorder", info->recorder);
    link_add(export, &export->definitions.sites, "site", info->site);
    plmi_export_uddf_text(out, "divenumber", info->number);
    plmi_export_uddf_text(out, "datetime", info->start.known ? start.bytes : NULL);
    plmi_export_uddf_number(out, "altitude", info->altitude_m, 0);
    plmi_export_uddf_number(out, "surfacepressure", info->surface_bar, 5);
    if (isinf(info->surface_interval_s)) {
        plmi_text_puts(out, "<surfaceintervalbeforedive><infinity/></surfaceintervalbeforedive>");
    } else if (!isnan(info->surface_interval_s)) {
        plmi_text_puts(out, "<surfaceintervalbeforedive>");
        plmi_export_uddf_number(out, "passedtime", info->surface_interval_s, 0);
        plmi_text_puts(out, "</surfaceintervalbeforedive>");
    }
    if (plm_dive_plan(dive) != NULL) {
        plan_add(export, plm_dive_plan(dive));
    }
    plmi_text_puts(out, "</informationbeforedive>\n");
    out->failed = out->failed || start.failed;
    plmi_text_free(&start);
}

static void tanks_add(struct plm_export *export, const struct plm_dive *dive)
{
    size_t count;
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    const uint32_t *order = plmi_export_mix_order(export, dive, &count);
    for (size_t i = 0; i < count; i++) {
        if (mixes[order[i]].carried) {
            plmi_text_printf(&export->body, "<tankdata><link ref=\"%s\"/></tankdata>\n",
                             plmi_export_uddf_mix(export, &mixes[order[i]]));
        }
    }
}

static void after_add(struct plm_export *export, const struct plm_dive *dive)
{
    size_t count;
    double deepest_m = 0;
    struct plmi_text *out = &export->body;
    const struct plm_sample *samples = plm_dive_samples(dive, &count);
    for (size_t i = 0; i < count; i++) {
        deepest_m = fmax(deepest_m, samples[i].depth_m);
    }
    plmi_text_puts(out, "<informationafterdive>");
    plmi_export_uddf_number(out, "greatestdepth", deepest_m, 0);
    plmi_text_puts(out, "<diveduration>");
    plmi_export_seconds(out, samples[count - 1].time_ms - samples[0].time_ms);
    plmi_text_puts(out, "</diveduration>");
    const char *notes = plm_dive_info_get(dive)->notes;
    if (notes != NULL && notes[strspn(notes, " \t\r\n")] != '\0') {
        plmi_text_puts(out, "<notes>");
        plmi_export_uddf_text(out, "para", notes);
        plmi_text_puts(out, "</notes>");
    }
    plmi_text_puts(out, "</informationafterdive>\n");
}

/* What the standard has no element for. */
static void own_add(struct plm_export *export, const struct plm_dive *dive, const struct plmi_text *aside)
{
    size_t count;
    struct plmi_text *out = &export->body;
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    const struct plm_dive_mix *mixes = plm_dive_mixes(dive, &count);
    const uint32_t *order = plmi_export_mix_order(export, dive, &count);
    const char *owner = export->definitions.owner;
    const char *diver = info->diver != NULL ? info->diver : "";
    bool other_diver = strcmp(owner != NULL ? owner : "", diver) != 0;
    size_t before = out->count;
    plmi_text_puts(out, "<applicationdata><plimsoll");
    size_t empty = out->count;
    plmi_export_uddf_number_attribute(out, "water_kg_m3", info->water_kg_m3);
    plmi_export_uddf_number_attribute(out, "depth_step_m", info->depth_step_m);
    if (other_diver) {
        plmi_export_uddf_attribute(out, "diver", diver);
    }
    bool told = out->count > empty;
    plmi_text_puts(out, ">\n");
    empty = out->count;
    for (size_t i = 0; i < count; i++) {
        const struct plm_dive_mix *mix = &mixes[order[i]];
        if (mix->carried && mix->use != PLM_MIX_USE_ANY) {
            plmi_text_printf(out, "<carriedmix ref=\"%s\" use=\"%s\"/>\n", plmi_export_uddf_mix(export, mix),
                             plmi_export_use(mix->use));
        }
    }
    plmi_text_add(out, aside->bytes != NULL ? aside->bytes : "", aside->count);
    told = told || out->count > empty;
    plmi_text_puts(out, "</plimsoll></applicationdata>\n");
    if (!told && !out->failed) {
        out->bytes[out->count = before] = '\0';
    }
}

static void group_open(struct plm_export *export, int group)
{
    if (export->groups > 0 && export->group == group) {
        return;
    }
    plmi_text_puts(&export->body, export->groups > 0 ? "</repetitiongroup>\n" : "");
    plmi_text_printf(&export->body, "<repetitiongroup id=\"group-%d\">\n", ++export->groups);
    export->group = group;
}

static void owner_take(struct plm_export *export, const char *diver)
{
    struct plmi_export_definitions *definitions = &export->definitions;
    if (!definitions->owner_known && diver != NULL && strlen(diver) <= OWNER_BYTES_MAX) {
        definitions->owner = plmi_export_keep(export, diver);
    }
    definitions->owner_known = true;
}

static void uddf_add(struct plm_export *export, const struct plm_dive *dive)
{
    const struct plm_dive_info *info = plm_dive_info_get(dive);
    struct plmi_export_definitions *definitions = &export->definitions;
    int cells = plmi_export_cells(dive);
    struct plmi_text aside;
    plmi_text_init(&aside);
    definitions->cells = cells > definitions->cells ? cells : definitions->cells;
    owner_take(export, info->diver);
    group_open(export, info->group);
    plmi_text_puts(&export->body, "<dive");
    plmi_export_uddf_attribute(&export->body, "id", plmi_export_uddf_id(export, info->id, "dive", export->dives + 1));
    plmi_text_puts(&export->body, ">\n");
    before_add(export, dive);
    plmi_text_puts(&export->body, "<samples>\n");
    plmi_export_uddf_waypoints(export, &export->body, dive, &aside);
    plmi_text_puts(&export->body, "</samples>\n");
    tanks_add(export, dive);
    after_add(export, dive);
    own_add(export, dive, &aside);
    plmi_text_puts(&export->body, "</dive>\n");
    export->failed = export->failed || aside.failed;
    plmi_text_free(&aside);
}

static void things_write(struct plmi_text *out, const struct plmi_export_names *names, const char *tag,
                         const char *kind)
{
    for (size_t i = 0; i < names->count; i++) {
        plmi_text_printf(out, "<%s id=\"%s-%zu\">", tag, kind, i + 1);
        plmi_export_uddf_text(out, "name", names->name[i]);
        plmi_text_printf(out, "</%s>\n", tag);
    }
}

static void diver_write(struct plmi_text *out, const struct plmi_export_definitions *definitions)
{
    plmi_text_puts(out, "<diver><owner id=\"owner\"><personal>");
    plmi_export_uddf_text(out, "firstname", definitions->owner);
    plmi_text_puts(out, "</personal><equipment>\n");
    things_write(out, &definitions->recorders, "divecomputer", "recorder");
    if (definitions->cells > 0) {
        plmi_text_puts(out, "<rebreather id=\"loop\"><name>loop</name>\n");
        for (int cell = 1; cell <= definitions->cells; cell++) {
            plmi_text_printf(out, "<o2sensor id=\"cell-%d\"><name>%d</name></o2sensor>\n", cell, cell);
        }
        plmi_text_puts(out, "</rebreather>\n");
    }
    things_write(out, &definitions->tanks, "tank", "tank");
    plmi_text_puts(out, "</equipment></owner></diver>\n");
}

static void mixes_write(struct plmi_text *out, const struct plmi_export_definitions *definitions)
{
    if (definitions->mix_count == 0) {
        return;
    }
    plmi_text_puts(out, "<gasdefinitions>\n");
    for (size_t i = 0; i < definitions->mix_count; i++) {
        const struct plmi_export_mix *mix = &definitions->mixes[i];
        plmi_text_puts(out, "<mix");
        plmi_export_uddf_attribute(out, "id", mix->id);
        plmi_text_puts(out, ">");
        plmi_export_uddf_text(out, "name", mix->name);
        plmi_export_uddf_number(out, "o2", mix->o2_frac, 0);
        plmi_text_puts(out, "<n2>");
        plmi_export_rounded(out, mix->n2_frac, 9);
        plmi_text_puts(out, "</n2>");
        plmi_export_uddf_number(out, "he", mix->he_frac, 0);
        plmi_export_uddf_number(out, "maximumpo2", mix->po2_max_bar, 5);
        plmi_text_puts(out, "</mix>\n");
    }
    plmi_text_puts(out, "</gasdefinitions>\n");
}

static void uddf_write(struct plm_export *export, struct plmi_text *out)
{
    const struct plmi_export_definitions *definitions = &export->definitions;
    plmi_text_puts(out, "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<uddf version=\"3.2.1\" "
                        "xmlns=\"http://www.streit.cc/uddf/3.2/\">\n");
    plmi_text_printf(out, "<generator><name>plimsoll</name><version>%s</version></generator>\n", plm_version_get());
    diver_write(out, definitions);
    if (definitions->sites.count > 0) {
        plmi_text_puts(out, "<divesite>\n");
        things_write(out, &definitions->sites, "site", "site");
        plmi_text_puts(out, "</divesite>\n");
    }
    mixes_write(out, definitions);
    plmi_text_puts(out, "<profiledata>\n");
    plmi_text_add(out, export->body.bytes != NULL ? export->body.bytes : "", export->body.count);
    plmi_text_puts(out, "</repetitiongroup>\n</profiledata>\n</uddf>\n");
}

const struct plmi_exporter plmi_exporter_uddf = {
    .format = {"uddf", "the open XML format, version 3.2, any number of dives", false},
    .add = uddf_add,
    .write = uddf_write,
};
