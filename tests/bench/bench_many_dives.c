/*
 * Memory and speed of reading a file of a thousand dives, dive by dive: the peak is that of one dive and a bit, not of
 * the file. Prints figures; fails only where memory grows with the file.
 * SPDX-License-Identifier: MIT
 */
#include <plimsoll/import.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

#define WAYPOINTS  1200
#define ALLOWED_KB 3000

static void write_uddf_dive(FILE *file, int number)
{
    (void)fprintf(file,
                  "<dive "
                  "id='d%d'><informationbeforedive><divenumber>%d</divenumber><surfaceintervalbeforedive><infinity/></"
                  "surfaceintervalbeforedive>"
                  "</informationbeforedive><samples>",
                  number, number);
    for (int i = 0; i < WAYPOINTS; i++) {
        int depth_dm = i == 0 || i == WAYPOINTS - 1 ? 0 : 50 + (i * 7 + number) % 300;
        (void)fprintf(
            file,
            "<waypoint><depth>%d.%d</depth><divetime>%d</divetime><temperature>2%d.15</temperature>%s</waypoint>\n",
            depth_dm / 10, depth_dm % 10, i * 10, 83 + i % 7,
            i == 0 ? "<divemode type='closedcircuit'/><switchmix ref='m'/><setpo2 setby='user'>1.3e5</setpo2>" : "");
    }
    (void)fprintf(file, "</samples></dive>\n");
}

static void write_uddf(FILE *file, int dives)
{
    (void)fprintf(file,
                  "<uddf version='3.2.0'><gasdefinitions><mix "
                  "id='m'><o2>0.18</o2><he>0.45</he></mix></gasdefinitions><profiledata><repetitiongroup id='g'>");
    for (int i = 1; i <= dives; i++) {
        write_uddf_dive(file, i);
    }
    (void)fprintf(file, "</repetitiongroup></profiledata></uddf>");
}

static void write_csv(FILE *file, int dives)
{
    (void)fprintf(file, "dive,time_s,depth_m,temp_c,mode,o2_frac\n");
    for (int dive = 1; dive <= dives; dive++) {
        for (int i = 0; i < WAYPOINTS; i++) {
            int depth_dm = i == 0 || i == WAYPOINTS - 1 ? 0 : 50 + (i * 7 + dive) % 300;
            (void)fprintf(file, "%d,%d,%d.%d,1%d.5,%s\n", dive, i * 10, depth_dm / 10, depth_dm % 10, i % 7,
                          i == 0 ? "open,0.32" : ",");
        }
    }
}

static long peak_kb(void)
{
    struct rusage usage;
    (void)getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
}

/* Reads a file and drops its dives. Returns: how many there were. */
static int read_all(const char *path, double *seconds)
{
    struct plm_rules rules = plm_rules_default();
    struct plm_import_options options = {.rules = &rules};
    struct plm_source *source = NULL;
    struct plm_import *import = NULL;
    struct plm_dive *dive = NULL;
    struct timespec from, to;
    int count = 0;
    (void)clock_gettime(CLOCK_MONOTONIC, &from);
    if (plm_source_open_file(&source, path, NULL, &rules, NULL) == PLM_STATUS_OK &&
        plm_import_open(&import, source, &options, NULL) == PLM_STATUS_OK) {
        while (plm_import_next(import, &dive) == PLM_STATUS_OK) {
            count++;
            plm_dive_free(dive);
        }
    }
    plm_import_free(import);
    plm_source_free(source);
    (void)clock_gettime(CLOCK_MONOTONIC, &to);
    *seconds = (double)(to.tv_sec - from.tv_sec) + (double)(to.tv_nsec - from.tv_nsec) / 1e9;
    return count;
}

static int measure(const char *name, void (*write)(FILE *file, int dives), int dives, long *peak)
{
    char path[] = "/tmp/plimsoll-bench-XXXXXX";
    int descriptor = mkstemp(path);
    FILE *file = descriptor < 0 ? NULL : fdopen(descriptor, "w");
    double seconds;
    if (file == NULL) {
        perror(path);
        return 0;
    }
    write(file, dives);
    long bytes = ftell(file);
    (void)fclose(file);
    int count = read_all(path, &seconds);
    (void)unlink(path);
    *peak = peak_kb();
    (void)printf("%-5s %5d dives %9.1f MB  %6.1f MB/s  peak %6ld kB\n", name, count, (double)bytes / 1e6,
                 (double)bytes / 1e6 / seconds, *peak);
    return count == dives;
}

int main(void)
{
    long few = 0;
    long many = 0;
    bool whole = measure("csv", write_csv, 10, &few) && measure("csv", write_csv, 1000, &many);
    long grown = many - few;
    whole = whole && measure("uddf", write_uddf, 10, &few) && measure("uddf", write_uddf, 1000, &many);
    grown = many - few > grown ? many - few : grown;
    (void)printf("grown by %ld kB from ten dives to a thousand\n", grown);
    return whole && grown <= ALLOWED_KB ? EXIT_SUCCESS : EXIT_FAILURE;
}
