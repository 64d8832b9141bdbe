/*
 * Recorded events as the standard's elements, where those give the same event back. Must not bend an event to fit.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "export/uddf.h"
#include "syntax/markup.h"

/* Bytes of texts that readers keep of one waypoint, and of one attribute. */
#define TEXTS_MAX     900
#define ATTRIBUTE_MAX 200

/* One event on its way into a waypoint. */
struct fit {
    struct plm_export *export;
    struct plmi_text *out;
    const struct plm_event *event;
};

static bool bare(const struct plm_event *event)
{
    return isfinite(event->value) && isnan(event->value2) && event->text[0] == '\0';
}

/* The number that gives value when it is read and multiplied; false where none does. */
static bool divided(double value, double factor, double *stated)
{
    const double candidates[] = {value / factor, nextafter(value / factor, (double)INFINITY),
                                 nextafter(value / factor, -(double)INFINITY)};
    for (size_t i = 0; i < sizeof candidates / sizeof candidates[0]; i++) {
        if (candidates[i] * factor == value) {
            *stated = candidates[i];
            return true;
        }
    }
    return false;
}

static bool fit_number(const struct fit *fit, const char *tag, double factor)
{
    double stated;
    if (!bare(fit->event) || !divided(fit->event->value, factor, &stated)) {
        return false;
    }
    plmi_export_uddf_number(fit->out, tag, stated, 0);
    return true;
}

static bool fit_heading(const struct fit *fit)
{
    return fit_number(fit, "heading", 1);
}

static bool fit_cns(const struct fit *fit)
{
    return fit_number(fit, "cns", 1);
}

static bool fit_otu(const struct fit *fit)
{
    return fit_number(fit, "otu", 1);
}

static bool fit_no_stop(const struct fit *fit)
{
    return fit_number(fit, "nodecotime", 1);
}

/* Beats in a second. */
static bool fit_pulse(const struct fit *fit)
{
    return fit_number(fit, "pulserate", 60);
}

/* A share; beyond twice the whole, percent. */
static bool fit_gradient(const struct fit *fit)
{
    const struct plm_event *event = fit->event;
    double stated;
    bool share = isfinite(event->value) && divided(event->value, 100, &stated) && fabs(stated) <= 2;
    if (!isfinite(event->value) || event->text[0] != '\0' || isinf(event->value2) ||
        (!share && fabs(event->value) <= 2)) {
        return false;
    }
    plmi_text_puts(fit->out, "<gradientfactor");
    plmi_export_uddf_number_attribute(fit->out, "tissue", event->value2);
    plmi_text_puts(fit->out, ">");
    plmi_number_short(fit->out, share ? stated : event->value);
    plmi_text_puts(fit->out, "</gradientfactor>");
    return true;
}

static bool fit_alarm(const struct fit *fit)
{
    if (isinf(fit->event->value) || !isnan(fit->event->value2)) {
        return false;
    }
    plmi_text_puts(fit->out, "<alarm");
    plmi_export_uddf_number_attribute(fit->out, "level", fit->event->value);
    plmi_text_puts(fit->out, ">");
    plmi_xml_text(fit->out, fit->event->text);
    plmi_text_puts(fit->out, "</alarm>");
    return true;
}

static bool fit_marker(const struct fit *fit)
{
    if (!isnan(fit->event->value) || !isnan(fit->event->value2)) {
        return false;
    }
    plmi_text_puts(fit->out, "<setmarker>");
    plmi_xml_text(fit->out, fit->event->text);
    plmi_text_puts(fit->out, "</setmarker>");
    return true;
}

static bool fit_stop(const struct fit *fit)
{
    if (isinf(fit->event->value) || isinf(fit->event->value2)) {
        return false;
    }
    plmi_text_puts(fit->out, "<decostop");
    if (fit->event->text[0] != '\0') {
        plmi_export_uddf_attribute(fit->out, "kind", fit->event->text);
    }
    plmi_export_uddf_number_attribute(fit->out, "decodepth", fit->event->value);
    plmi_export_uddf_number_attribute(fit->out, "duration", fit->event->value2);
    plmi_text_puts(fit->out, "/>");
    return true;
}

static bool fit_tank(const struct fit *fit)
{
    if (!isfinite(fit->event->value) || !isnan(fit->event->value2)) {
        return false;
    }
    size_t tank = plmi_export_name(fit->export, &fit->export->definitions.tanks, fit->event->text);
    plmi_text_puts(fit->out, "<tankpressure");
    if (tank > 0) {
        plmi_text_printf(fit->out, " ref=\"tank-%zu\"", tank);
    }
    plmi_text_puts(fit->out, ">");
    plmi_number_short_scaled(fit->out, fit->event->value, 5);
    plmi_text_puts(fit->out, "</tankpressure>");
    return true;
}

/* The device is known by its bare name, which must not be an id of the log. */
static bool fit_battery(const struct fit *fit)
{
    const struct plm_event *event = fit->event;
    double stated;
    bool numbered = event->text[0] != '\0' && event->text[strcspn(event->text, "-")] != '\0';
    if (!isfinite(event->value) || !isnan(event->value2) || numbered || !divided(event->value, 100, &stated)) {
        return false;
    }
    plmi_text_puts(fit->out, "<batterychargecondition");
    if (event->text[0] != '\0') {
        plmi_export_uddf_attribute(fit->out, "deviceref", event->text);
    }
    plmi_text_puts(fit->out, ">");
    plmi_number_short(fit->out, stated);
    plmi_text_puts(fit->out, "</batterychargecondition>");
    return true;
}

static bool (*const fits[PLM_EVENT_COUNT])(const struct fit *fit) = {
    [PLM_EVENT_ALARM] = fit_alarm, [PLM_EVENT_MARKER] = fit_marker,      [PLM_EVENT_HEADING] = fit_heading,
    [PLM_EVENT_STOP] = fit_stop,   [PLM_EVENT_TANK_PRESSURE] = fit_tank, [PLM_EVENT_CNS] = fit_cns,
    [PLM_EVENT_OTU] = fit_otu,     [PLM_EVENT_GRADIENT] = fit_gradient,  [PLM_EVENT_NO_STOP] = fit_no_stop,
    [PLM_EVENT_PULSE] = fit_pulse, [PLM_EVENT_BATTERY] = fit_battery,
};

bool plmi_export_uddf_event(struct plm_export *export, struct plmi_text *out, const struct plm_event *event,
                            size_t *texts)
{
    const struct fit fit = {export, out, event};
    size_t bytes = strlen(event->text) + 1;
    if (fits[event->kind] == NULL || !plmi_export_exact(event->text) || bytes > ATTRIBUTE_MAX ||
        *texts + bytes > TEXTS_MAX || !fits[event->kind](&fit)) {
        return false;
    }
    *texts += bytes;
    return true;
}
