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

/* A dive's link to a named thing, as <link ref="site-1"/>. */
static void link_add(struct plm_export *export, struct plmi_export_names *names, const char *kind, const char *name)
{
    size_t number = plmi_export_name(export, names, name);
    if (number > 0) {
        plmi_text_printf(&export->body, "<link ref=\"%s-%zu\"/>", kind, number);
    }
}

/* A dive's link to its gradient factors, which become a model among the definitions. */
static void model_link_add(struct plm_export *export, const struct plm_dive_info *info)
{
    struct plmi_export_definitions *definitions = &export->definitions;
    const struct plmi_export_factors stated = {info->gf_low_pct, info->gf_high_pct};
    size_t i = 0;
    if (isnan(stated.low_pct)) {
        return;
    }
    while (i < definitions->factor_count &&
           (definitions->factors[i].low_pct != stated.low_pct || definitions->factors[i].high_pct != stated.high_pct)) {
        i++;
    }
    if (i == definitions->factor_count) {
        if (!plmi_array_grow((void **)&definitions->factors, &definitions->factor_capacity, i,
                             sizeof *definitions->factors)) {
            export->failed = true;
            return;
        }
        definitions->factors[definitions->factor_count++] = stated;
    }
    plmi_text_printf(&export->body, "<link ref=\"model-%zu\"/>", i + 1);
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
    model_link_add(export, info);
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
    bool stated = out->count > empty;
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
    stated = stated || out->count > empty;
    plmi_text_puts(out, "</plimsoll></applicationdata>\n");
    if (!stated && !out->failed) {
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

static void models_write(struct plmi_text *out, const struct plmi_export_definitions *definitions)
{
    const int percent_tens = -2;
    if (definitions->factor_count == 0) {
        return;
    }
    plmi_text_puts(out, "<decomodel>\n");
    for (size_t i = 0; i < definitions->factor_count; i++) {
        plmi_text_printf(out, "<buehlmann id=\"model-%zu\">", i + 1);
        plmi_export_uddf_number(out, "gradientfactorlow", definitions->factors[i].low_pct, percent_tens);
        plmi_export_uddf_number(out, "gradientfactorhigh", definitions->factors[i].high_pct, percent_tens);
        plmi_text_puts(out, "</buehlmann>\n");
    }
    plmi_text_puts(out, "</decomodel>\n");
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
    models_write(out, definitions);
    plmi_text_puts(out, "<profiledata>\n");
    plmi_text_add(out, export->body.bytes != NULL ? export->body.bytes : "", export->body.count);
    plmi_text_puts(out, "</repetitiongroup>\n</profiledata>\n</uddf>\n");
}

const struct plmi_exporter plmi_exporter_uddf = {
    .format = {"uddf", "the open XML format, version 3.2, any number of dives", false},
    .add = uddf_add,
    .write = uddf_write,
};
