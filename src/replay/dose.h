/*
 * The oxygen doses of a dive as they add up, piece by piece. Pure.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPLAY_DOSE_H
#define PLM_REPLAY_DOSE_H

struct plmi_doses {
    double cns_pct, cns_day_pct, otu, esot;
};

/* Doses so far, and what a minute costs at the last constant PO2 met. Start with plmi_dose_meter_init. */
struct plmi_dose_meter {
    struct plmi_doses total, per_min;
    double per_min_po2_bar;
};
void plmi_dose_meter_init(struct plmi_dose_meter *meter, double cns_pct);
/* Adds a linear ramp of PO2 over dt_s. */
void plmi_dose_meter_add(struct plmi_dose_meter *meter, double start_bar, double end_bar, double dt_s);

#endif
