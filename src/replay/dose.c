/*
 * Adding up oxygen doses; a constant PO2 costs no transcendental function.
 * Must not judge them.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <string.h>

#include "replay/dose.h"
#include "tissue/oxygen.h"

void plmi_dose_meter_init(struct plmi_dose_meter *meter, double cns_pct)
{
    memset(meter, 0, sizeof *meter);
    meter->total.cns_pct = cns_pct;
    meter->per_min_po2_bar = (double)NAN;
}

static struct plmi_doses doses_of(double start_bar, double end_bar, double dt_min)
{
    return (struct plmi_doses){
        .cns_pct = plmi_cns_pct(start_bar, end_bar, dt_min),
        .cns_day_pct = plmi_cns_day_pct(start_bar, end_bar, dt_min),
        .otu = plmi_otu(start_bar, end_bar, dt_min),
        .esot = plmi_esot(start_bar, end_bar, dt_min),
    };
}

static void add(struct plmi_doses *total, const struct plmi_doses *doses, double times)
{
    total->cns_pct += doses->cns_pct * times;
    total->cns_day_pct += doses->cns_day_pct * times;
    total->otu += doses->otu * times;
    total->esot += doses->esot * times;
}

void plmi_dose_meter_add(struct plmi_dose_meter *meter, double start_bar, double end_bar, double dt_s)
{
    double dt_min = dt_s / 60.0;
    if (start_bar != end_bar) {
        struct plmi_doses doses = doses_of(start_bar, end_bar, dt_min);
        add(&meter->total, &doses, 1.0);
        return;
    }
    if (start_bar != meter->per_min_po2_bar) {
        meter->per_min = doses_of(start_bar, start_bar, 1.0);
        meter->per_min_po2_bar = start_bar;
    }
    add(&meter->total, &meter->per_min, dt_min);
}
