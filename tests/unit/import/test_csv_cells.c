/*
 * Tables whose cells hold more than numbers, whose columns are understood in part, and whose record ducks between
 * dives. Sources: 1 ft is 0.3048 m, F = 32 + 1.8 C; plimsoll-log(5); the rules bob_max_m and bob_max_min are
 * conventions of ours. SPDX-License-Identifier: MIT
 */
#include <math.h>
#include <stdio.h>

#include "support/suite.h"
#include "unit/reading.h"

static struct reading got;

static void begin(void)
{
    reading_init(&got);
}

static void end(void)
{
    reading_free(&got);
}

static void read_text(const char *text, int dives)
{
    reading_free(&got);
    reading_text(&got, text);
    ck_assert_msg(got.count == dives, "%d dives, %s: %s", got.count, plm_status_text(got.status), got.told.lines[0]);
}

static const struct plm_dive_info *info(int dive)
{
    return plm_dive_info_get(got.dives[dive]);
}

static const struct plm_sample *samples(int dive, size_t want)
{
    size_t count;
    const struct plm_sample *all = plm_dive_samples(got.dives[dive], &count);
    ck_assert_msg(count == want, "dive %d: %zu samples", dive, count);
    return all;
}

#define TOLD(text) ck_assert_msg(diag_list_has(&got.told, text), "not told: %s; but %s", text, got.told.lines[0])

/* A recorder that is rinsed, or ducked between two dives, was not dived: less than 5 m and 3 min. */
START_TEST(a_bob_between_dives_is_no_dive)
{
    begin();
    static const char HEAD[] = "time_s,depth_m,mode,o2_frac,he_frac\n0,0,open,0.32,0\n";
    static const char DIVE_1[] = "60,12,,,\n600,12,,,\n700,0,,,\n", DIVE_2[] = "6060,9,,,\n6700,9,,,\n6800,0,,,\n";
    static const struct {
        const char *bob;
        bool dive;
    } trials[] = {
        {"2000,0,,,\n2010,2,,,\n2100,4.9,,,\n2170,0,,,\n", false},
        {"2000,0,,,\n2010,2,,,\n2100,5,,,\n2170,0,,,\n", true},
        {"2000,0,,,\n2010,2,,,\n2100,4.9,,,\n2190,0,,,\n", true},
    };
    for (size_t i = 0; i < sizeof trials / sizeof trials[0]; i++) {
        char text[1024];
        (void)snprintf(text, sizeof text, "%s%s%s4000,0,,,\n6000,0,,,\n%s", HEAD, DIVE_1, trials[i].bob, DIVE_2);
        read_text(text, trials[i].dive ? 3 : 2);
        ck_assert_int_eq(info(got.count - 1)->index, got.count);
        if (!trials[i].dive) {
            ck_assert(info(1)->surface_interval_s == 6000 - 700 && !got.partial);
            TOLD("t:6: note: at the surface but for 2.8 min down to 4.9 m: no dive (rules bob_max_m, bob_max_min) "
                 "[dive-skipped]");
        }
        /* Before the first dive, and behind the last. */
        (void)snprintf(text, sizeof text, "%s%s4000,0,,,\n6000,0,,,\n%s", HEAD, trials[i].bob, DIVE_2);
        read_text(text, trials[i].dive ? 2 : 1);
        ck_assert(info(got.count - 1)->index == got.count);
        (void)snprintf(text, sizeof text, "%s%s%s4000,0,,,\n", HEAD, DIVE_1, trials[i].bob);
        read_text(text, trials[i].dive ? 2 : 1);
        (void)snprintf(text, sizeof text, "%s%s%s", HEAD, DIVE_1, trials[i].bob);
        read_text(text, trials[i].dive ? 2 : 1);
    }
    /* All that there is; and what the log itself numbers as a dive. */
    char text[1024];
    (void)snprintf(text, sizeof text, "%s%s4000,0,,,\n", HEAD, trials[0].bob);
    read_text(text, 1);
    read_text("dive,time_s,depth_m\n1,0,0\n1,60,12\n1,700,0\n2,0,0\n2,60,3\n2,100,0\n3,0,0\n3,60,12\n3,700,0\n", 3);
    end();
}
END_TEST

/* Units behind values; 46.6 ft are 14.2 m (1 ft is 0.3048 m), 70 F are 21.1 C, 1300 mbar are 1.3 bar. */
START_TEST(units_in_cells)
{
    begin();
    read_text("time,depth,temperature,cell 1\n0:00 min,0.0 m,21 \xc2\xb0"
              "C,0.7 bar\n2:31 min,14.2 m,20.5 \xc2\xb0"
              "C,1300 "
              "mbar\n0:09:00,0 m,70 \xc2\xb0"
              "F,1.0\n",
              1);
    const struct plm_sample *all = samples(0, 3);
    ck_assert(all[1].time_ms == 151000 && all[1].depth_m == 14.2 && all[1].temp_c == 20.5 && all[2].time_ms == 540000);
    ck_assert(fabs(all[2].temp_c - 21.111111) < 1e-6);
    ck_assert(fabs(all[1].cell_bar[0] - 1.3) < 1e-12 && all[2].cell_bar[0] == 1);
    read_text(
        "time;depth;tank pressure;temperature\n0 s;0,0 ft;3000 psi;70 F\n151 s;46,6 ft;2900 psi;69 F\n300 s;0 ft;2800 "
        "psi;69 F\n",
        1);
    all = samples(0, 3);
    ck_assert(all[1].time_ms == 151000 && fabs(all[1].depth_m - 46.6 * 0.3048) < 1e-9);
    ck_assert(!got.partial && !diag_list_has(&got.told, "taken as"));
    /* hours and minutes, as the unit says; a name's unit and another in the cells */
    read_text("time,depth_m\n0:00 h,0\n0:05 h,46.6 ft\n0:09 h,0 m\n", 1);
    all = samples(0, 3);
    ck_assert(all[1].time_ms == 300000 && fabs(all[1].depth_m - 46.6 * 0.3048) < 1e-9);
    /* a depth by pressure */
    read_text("time_s,depth\n0,1.013 bar\n60,2.013 bar\n120,1.013 bar\n", 1);
    ck_assert_double_eq_tol(samples(0, 3)[1].depth_m, 10, 1e-6);
    end();
}
END_TEST

/* A unit that is named and is none of the meaning makes a column unread: 45 mV are no 45 kPa. */
START_TEST(units_that_a_meaning_does_not_have)
{
    begin();
    static const char *const tables[] = {
        "time_s,depth_m,cell 1 (mV)\n0,0,11\n60,20,45\n120,0,12\n",
        "time_s,depth_m,cell1_mV\n0,0,11\n60,20,45\n120,0,12\n",
        "time_s,depth_m,cell 1\n0,0,11 mV\n60,20,45 mV\n120,0,12 mV\n",
        "time,depth,cell 1\ns,m,mV\n0,0,11\n60,20,45\n120,0,12\n",
        "time_s,depth_m,cell 1 [cts]\n0,0,11\n60,20,45\n120,0,12\n",
    };
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        read_text(tables[i], 1);
        ck_assert_msg(isnan(samples(0, 3)[1].cell_bar[0]), "table %zu", i);
        TOLD("not read");
        ck_assert_msg(!diag_list_has(&got.told, "kPa") && !diag_list_has(&got.told, "taken as"), "table %zu: %s", i,
                      got.told.lines[0]);
    }
    TOLD("t:1: note: column 3, 'cell 1 [cts]', might be oxygen cell, but its unit, cts, is none of that; not read "
         "[column-guessed]");
    read_text("time_s,depth (fathoms)\n0,0\n60,10\n120,0\n", 0);
    TOLD("no column of depth");
    read_text("time_s,depth (m),temp (deg)\n0,0,20\n60,10,20\n120,0,20\n", 1);
    ck_assert(samples(0, 3)[1].temp_c == 20);
    end();
}
END_TEST

/* What is understood in part and does not fit is left out with a note, and refuses no log. */
START_TEST(guesses_that_do_not_fit)
{
    begin();
    read_text("time_s,depth_m,gas label,dive phase,helium left\n0,0,fresh "
              "tank,descent,full\n60,20,,bottom,half\n120,0,,ascent,low\n",
              1);
    (void)samples(0, 3);
    TOLD("column 3, 'gas label', might be mix by name, but 'fresh tank' is none; not read");
    ck_assert(!got.partial);
    read_text("time_s,depth_m,helium blah\n0,0,20\n60,20,20\n120,0,20\n", 1);
    TOLD("no column tells oxygen");
    /* and behind the first rows */
    static char text[60000];
    size_t n = (size_t)snprintf(text, sizeof text, "time_s,depth_m,gas label\n");
    for (int i = 0; i < 4000; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "%d,%d,%s\n", i * 2, i % 3999 == 0 ? 0 : 10,
                              i == 3900 ? "what" : "");
    }
    read_text(text, 1);
    ck_assert(got.partial);
    TOLD("'what' is no mix");
    end();
}
END_TEST

/* One sample that cannot be decides nothing about the whole table: neither its unit of time nor which way its axis
 * points; and what is wrong before a dive is begun is told of the dive. */
START_TEST(one_odd_sample_decides_nothing)
{
    static const char *const odd[] = {"0.0", "6553.5", "-50", "60"};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        begin();
        static char text[8000];
        size_t n = (size_t)snprintf(text, sizeof text, "time,depth\n");
        for (int k = 0; k <= 60; k++) {
            int edge = k < 60 - k ? k : 60 - k;
            n += k == 30 ? (size_t)snprintf(text + n, sizeof text - n, "300,%s\n", odd[i])
                         : (size_t)snprintf(text + n, sizeof text - n, "%d,%d\n", 10 * k, edge < 22 ? edge : 22);
        }
        read_text(text, 1);
        const struct plm_sample *all = samples(0, 60);
        ck_assert_msg(all[20].time_ms == 200000 && all[20].depth_m == 20, "%s: %s", odd[i], got.told.lines[0]);
        ck_assert(info(0)->odd_count == 1 && got.partial);
        end();
    }
    begin();
    read_text("time_s,depth_m\n0,0\n10,2\n20,4\n30,5\n40,-50\n50,5\n60,4\n70,2\n80,0\n", 1);
    ck_assert(samples(0, 8)[3].depth_m == 5);
    read_text("time_s,depth_m\n0,6553.5\n10,2\n20,4\n30,5\n40,2\n50,0\n", 1);
    ck_assert(info(0)->odd_count == 1 && info(0)->odd[0].line == 2 && info(0)->odd[0].depth_m == 6553.5);
    end();
}
END_TEST

int main(void)
{
    const TTest *const all[] = {a_bob_between_dives_is_no_dive, units_in_cells, units_that_a_meaning_does_not_have,
                                guesses_that_do_not_fit, one_odd_sample_decides_nothing};
    return SUITE_RUN("csv cells", all);
}
