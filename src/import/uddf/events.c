/*
 * What waypoints record besides the profile: alarms, stops, tanks, markers. Kept to be shown, never computed with.
 * SPDX-License-Identifier: MIT
 */
#include "import/uddf/events.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "import/uddf/references.h"
#include "import/uddf/values.h"

/* A copy that lives as long as the waypoint; cut where it finds no room, which is reported when the waypoint ends. */
static const char *keep(struct plmi_uddf_waypoint *waypoint, const char *text)
{
    size_t room = sizeof waypoint->texts - waypoint->texts_used;
    size_t n = plmi_text_head(text, room > 0 ? room - 1 : 0);
    waypoint->texts_cut = waypoint->texts_cut || text[n] != '\0';
    if (n == 0) {
        return "";
    }
    char *copy = waypoint->texts + waypoint->texts_used;
    memcpy(copy, text, n);
    copy[n] = '\0';
    waypoint->texts_used += n + 1;
    return copy;
}

void plmi_uddf_event_add(struct plmi_reader *reader, enum plm_event_kind kind, double value, double value2,
                         const char *text)
{
    struct plmi_uddf_waypoint *waypoint = &reader->waypoint;
    if (waypoint->event_count == sizeof waypoint->events / sizeof waypoint->events[0]) {
        waypoint->events_lost++;
        return;
    }
    waypoint->events[waypoint->event_count++] = (struct plm_event){
        .kind = kind, .value = value, .value2 = value2, .text = keep(waypoint, text), .line = waypoint->line};
}

/* The name of a tank or cell that a reference means; the reference itself where it has none. */
static const char *shown_name(const struct plmi_reader *reader, const char *ref)
{
    const struct plmi_uddf_thing *thing = plmi_uddf_thing_find(reader, ref, true, PLMI_UDDF_KIND_TANK);
    return thing != NULL && thing->name[0] != '\0' ? thing->name : ref;
}

void plmi_uddf_event_stop(struct plmi_reader *reader, const char *const *attributes, long line, long column)
{
    const char *kind = plmi_xml_attribute(attributes, "kind");
    const char *depth = plmi_xml_attribute(attributes, "decodepth");
    const char *duration = plmi_xml_attribute(attributes, "duration");
    double depth_m = depth == NULL ? (double)NAN : plmi_uddf_number(reader, depth, "depth of a stop", line, column);
    double seconds =
        duration == NULL ? (double)NAN : plmi_uddf_number(reader, duration, "duration of a stop", line, column);
    plmi_uddf_event_add(reader, PLM_EVENT_STOP, depth_m, seconds, kind == NULL ? "" : kind);
}

/* Elements that are one number and a reference at most: value scaled by factor. */
struct simple_event {
    enum plmi_uddf_element element;
    enum plm_event_kind kind;
    double factor;
    const char *what;
};
static const struct simple_event SIMPLE[] = {
    {PLMI_UDDF_heading, PLM_EVENT_HEADING, 1, "a heading"},
    {PLMI_UDDF_cns, PLM_EVENT_CNS, 1, "cns"},
    {PLMI_UDDF_otu, PLM_EVENT_OTU, 1, "otu"},
    {PLMI_UDDF_nodecotime, PLM_EVENT_NO_STOP, 1, "nodecotime"},
    {PLMI_UDDF_pulserate, PLM_EVENT_PULSE, 60, "a pulse rate"},
    {PLMI_UDDF_batterychargecondition, PLM_EVENT_BATTERY, 100, "a battery charge"},
};

/* The number in the kept attribute; NaN where it is none. */
static double attribute_number(const struct plmi_reader *reader)
{
    double value;
    bool fits = plmi_number_parse(reader->attribute, strlen(reader->attribute), '.', &value);
    return fits ? value : (double)NAN;
}

/* A gradient is a share in the examples of the standard and percent in its words. */
static void close_gradient(struct plmi_reader *reader, const char *text, long line, long column)
{
    double value = plmi_uddf_number(reader, text, "a gradient", line, column);
    plmi_uddf_event_add(reader, PLM_EVENT_GRADIENT, fabs(value) <= 2 ? value * 100 : value, attribute_number(reader),
                        "");
}

bool plmi_uddf_event_close(struct plmi_reader *reader, enum plmi_uddf_element element, const char *text, long line,
                           long column)
{
    if (element == PLMI_UDDF_alarm) {
        plmi_uddf_event_add(reader, PLM_EVENT_ALARM, attribute_number(reader), (double)NAN, text);
        return true;
    }
    if (element == PLMI_UDDF_setmarker) {
        plmi_uddf_event_add(reader, PLM_EVENT_MARKER, (double)NAN, (double)NAN, text);
        return true;
    }
    if (element == PLMI_UDDF_gradientfactor) {
        close_gradient(reader, text, line, column);
        return true;
    }
    if (element == PLMI_UDDF_tankpressure) {
        plmi_uddf_event_add(reader, PLM_EVENT_TANK_PRESSURE, plmi_uddf_tank_bar(reader, text, line, column),
                            (double)NAN, shown_name(reader, reader->attribute));
        return true;
    }
    for (size_t i = 0; i < sizeof SIMPLE / sizeof SIMPLE[0]; i++) {
        if (SIMPLE[i].element == element) {
            double value = plmi_uddf_number(reader, text, SIMPLE[i].what, line, column) * SIMPLE[i].factor;
            plmi_uddf_event_add(reader, SIMPLE[i].kind, value, (double)NAN, shown_name(reader, reader->attribute));
            return true;
        }
    }
    return false;
}
