/*
 * When one compartment meets its limit, at constant inspired pressures: roots in time.
 * Must not know of depths or stops.
 * SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdbool.h>

#include "ascent/clearing.h"
#include "tissue/exponent.h"

/* [bar] how near to the limit is on it. */
static const double enough_bar = 1e-12;

static double decayed(double x)
{
    return x < 700.0 ? 1.0 - plmi_gain(x) : 0.0;
}

double plmi_clearing_over_bar(const struct plmi_clearing *c, double t_s, double *rate_bar_s, double *curve_bar_s2)
{
    double n2_left = c->n2_gap_bar * decayed(c->n2_k * t_s);
    double he_left = c->he_gap_bar * decayed(c->he_k * t_s);
    double n2 = c->n2_end_bar + n2_left + 1e-300;
    double he = c->he_end_bar + he_left;
    double n2_rate = -c->n2_k * n2_left, he_rate = -c->he_k * he_left;
    double total = n2 + he, total_rate = n2_rate + he_rate;
    double b_sum = c->n2_b * n2 + c->he_b * he;
    double b_rate = c->n2_b * n2_rate + c->he_b * he_rate;
    double a = (c->n2_a_bar * n2 + c->he_a_bar * he) / total;
    double inverse_b = total / b_sum;
    double a_rate = (c->n2_a_bar * n2_rate + c->he_a_bar * he_rate - a * total_rate) / total;
    double inverse_b_rate = (total_rate - inverse_b * b_rate) / b_sum;
    *rate_bar_s = total_rate - c->gf_frac * (a_rate + inverse_b_rate * c->ambient_bar);
    *curve_bar_s2 = -c->n2_k * n2_rate - c->he_k * he_rate;
    return total - c->ambient_bar - c->gf_frac * (a + (inverse_b - 1.0) * c->ambient_bar);
}

/*
 * A step in time to the root of a function of value f, slope and curvature: the exponential that
 * has them, or a straight line. Infinite where that exponential has no root.
 */
static double step_s(double f, double rate, double curve)
{
    double k = -curve / rate;
    if (!(k > 1e-12)) {
        return -f / rate;
    }
    double x = k * f / rate;
    return x > -1.0 ? -log1p(x) / k : (double)INFINITY;
}

/* A step whose own error is below this [bar] is the last: it goes with the square of k times the
 * step. */
static const double last_step_bar = 1e-13;

/*
 * The root between 0 and high_s, where sign * over_bar is above 0 at 0 and, if `sure`, at or below
 * it at high_s. Comes to an end: the bracket shrinks at each turn, halved where a step would leave
 * it. Returns: INFINITY when not sure and a step leads beyond high_s.
 */
static double root_s(const struct plmi_clearing *c, double high_s, double sign, bool sure)
{
    double low_s = 0.0, t_s = 0.0;
    for (int turn = 0; turn < 200; turn++) {
        double rate, curve;
        double f = sign * plmi_clearing_over_bar(c, t_s, &rate, &curve);
        if (f > 0.0) {
            low_s = t_s;
        } else {
            high_s = t_s;
            sure = true;
        }
        if (fabs(f) <= enough_bar || high_s - low_s <= 1e-9 * (1.0 + low_s)) {
            return f > enough_bar ? high_s : t_s;
        }
        double step = step_s(f, sign * rate, sign * curve);
        double k_step = curve / rate * step;
        bool inside = t_s + step > low_s && t_s + step < high_s;
        if (inside && fabs(f) * k_step * k_step < last_step_bar) {
            return t_s + step;
        }
        if (!inside && !sure) {
            return (double)INFINITY;
        }
        t_s = inside ? t_s + step : 0.5 * (low_s + high_s);
    }
    return high_s;
}

double plmi_clearing_fall_s(const struct plmi_clearing *c, double max_s)
{
    double plain_s = root_s(c, max_s, 1.0, false);
    if (plain_s <= max_s) {
        return plain_s;
    }
    /* Helium going while nitrogen comes may clear a compartment for a while only: look nearer too.
     */
    for (double high_s = max_s; high_s > 1.0; high_s /= 4.0) {
        double rate, curve;
        if (plmi_clearing_over_bar(c, high_s, &rate, &curve) <= 0.0) {
            return root_s(c, high_s, 1.0, true);
        }
    }
    return (double)INFINITY;
}

double plmi_clearing_rise_s(const struct plmi_clearing *c, double max_s)
{
    double rate, curve;
    if (!(plmi_clearing_over_bar(c, max_s, &rate, &curve) > 0.0)) {
        return max_s;
    }
    return root_s(c, max_s, -1.0, true);
}
