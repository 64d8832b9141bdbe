/*
 * How far the compartments are from their limits at one ambient pressure.
 * Must not know of time.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stddef.h>

#include "tissue/tissue.h"

void plmi_weighted_ab(const struct plm_tissue *tissue, const struct plm_zhl16 *model,
                      int compartment, double *a_bar, double *b)
{
    double n2_bar = tissue->n2_bar[compartment];
    double he_bar = tissue->he_bar[compartment];
    double total_bar = n2_bar + he_bar;
    if (total_bar == 0.0) {
        n2_bar = total_bar = 1.0;
        he_bar = 0.0;
    }
    *a_bar = (model->n2_a_bar[compartment] * n2_bar + model->he_a_bar[compartment] * he_bar) /
             total_bar;
    *b = (model->n2_b[compartment] * n2_bar + model->he_b[compartment] * he_bar) / total_bar;
}

double plmi_gradient_pct(const struct plm_tissue *tissue, const struct plm_zhl16 *model,
                         double ambient_bar, int *leading)
{
    double largest = -(double)INFINITY;
    int at = 0;
    for (int i = 0; i < PLM_COMPARTMENTS; i++) {
        double a_bar, b;
        plmi_weighted_ab(tissue, model, i, &a_bar, &b);
        double over_bar = tissue->n2_bar[i] + tissue->he_bar[i] - ambient_bar;
        double allowed_bar = a_bar + ambient_bar / b - ambient_bar;
        double gradient = over_bar / allowed_bar;
        /* A NaN must come through: it is not smaller than anything. */
        if (!(gradient <= largest)) {
            largest = gradient;
            at = i;
        }
    }
    if (leading != NULL) {
        *leading = at;
    }
    return largest * 100.0;
}
