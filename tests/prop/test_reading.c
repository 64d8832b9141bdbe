/*
 * How bytes are cut up does not matter: a log gives the same dives behind padding of any length, and through gzip in
 * members of any size; a made dive written in any dialect is read back to the digit. Prints the seed that fails.
 * SPDX-License-Identifier: MIT
 */
#include <stdio.h>
#include <string.h>
#include <zlib.h>

#include "base/number.h"
#include "support/random.h"
#include "support/suite.h"
#include "unit/reading.h"

#define SEEDS     40
#define BYTES_MAX 1200000

static unsigned char log_bytes[BYTES_MAX];
static unsigned char shaped[2 * BYTES_MAX];
static struct reading plain, other;

/* A whole number below n. */
static uint32_t seeded_below(struct seeded *seeded, uint32_t n)
{
    return (uint32_t)(seeded_uniform(seeded) * (double)n);
}

static size_t file_read(const char *path)
{
    FILE *file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    size_t n = fread(log_bytes, 1, sizeof log_bytes, file);
    ck_assert(feof(file));
    (void)fclose(file);
    return n;
}

/* Bit for bit, NaN like NaN; lines may be shifted. */
static bool same_sample(const struct plm_sample *a, const struct plm_sample *b, uint32_t lines)
{
    struct plm_sample moved = *a;
    moved.line += a->line == 0 ? 0 : lines;
    return moved.time_ms == b->time_ms && memcmp(&moved.depth_m, &b->depth_m, sizeof(double)) == 0 &&
           memcmp(&moved.temp_c, &b->temp_c, sizeof(double)) == 0 &&
           memcmp(&moved.po2_bar, &b->po2_bar, sizeof(double)) == 0 &&
           memcmp(moved.cell_bar, b->cell_bar, sizeof moved.cell_bar) == 0 && moved.setting == b->setting &&
           moved.line == b->line;
}

static void check_same(uint64_t seed, uint32_t lines)
{
    ck_assert_msg(other.count == plain.count && other.status == plain.status, "seed %d: %d dives", (int)seed,
                  other.count);
    for (int d = 0; d < plain.count; d++) {
        size_t count, other_count;
        const struct plm_sample *a = plm_dive_samples(plain.dives[d], &count);
        const struct plm_sample *b = plm_dive_samples(other.dives[d], &other_count);
        ck_assert_uint_eq(count, other_count);
        for (size_t i = 0; i < count; i++) {
            ck_assert_msg(same_sample(&a[i], &b[i], lines), "seed %d: sample %zu of dive %d", (int)seed, i, d);
        }
    }
    reading_free(&other);
}

/* The log in gzip members of random sizes. Returns: bytes in shaped. */
static size_t members_write(struct seeded *seeded, size_t n)
{
    size_t out = 0;
    for (size_t at = 0; at < n;) {
        double most = seeded_below(seeded, 2) == 0 ? 300 : 70000;
        size_t size = 1 + (size_t)seeded_between(seeded, 0, most);
        size = size < n - at ? size : n - at;
        z_stream stream = {.next_in = log_bytes + at,
                           .avail_in = (uInt)size,
                           .next_out = shaped + out,
                           .avail_out = (uInt)(sizeof shaped - out)};
        ck_assert_int_eq(deflateInit2(&stream, 6, Z_DEFLATED, 31, 8, Z_DEFAULT_STRATEGY), Z_OK);
        ck_assert_int_eq(deflate(&stream, Z_FINISH), Z_STREAM_END);
        out = sizeof shaped - stream.avail_out;
        (void)deflateEnd(&stream);
        at += size;
    }
    return out;
}

static const char *const LOGS[] = {PLMI_SAMPLES_DIR "/deep-terrace.csv", PLMI_SAMPLES_DIR "/deep-terrace.uddf",
                                   PLMI_SAMPLES_DIR "/outer-wall.uddf", PLMI_TESTS_DIR "/tables/german.csv"};

static void check_gzip(const char *log)
{
    size_t n = file_read(log);
    reading_init(&plain);
    reading_bytes(&plain, log_bytes, n);
    ck_assert_int_ge(plain.count, 1);
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        struct seeded seeded = {seed};
        reading_init(&other);
        other.rules.inflate_ratio_max = 10000;
        reading_bytes(&other, shaped, members_write(&seeded, n));
        check_same(seed, 0);
    }
    reading_free(&plain);
}

/* Comments of random length put where every byte behind them moves against the pieces that are read. Returns: bytes in
 * shaped. */
static size_t padding_write(struct seeded *seeded, size_t n, uint32_t *lines)
{
    bool xml = log_bytes[0] == '<';
    size_t head = xml ? (size_t)(strchr((const char *)log_bytes, '>') - (const char *)log_bytes) + 1 : 0;
    size_t padding = (size_t)seeded_between(seeded, 0, xml ? 60000 : 3000);
    size_t out = head;
    memcpy(shaped, log_bytes, head);
    shaped[out++] = xml ? '<' : '#';
    out += xml ? (size_t)snprintf((char *)shaped + out, 8, "!--") : 0;
    memset(shaped + out, 'x', padding);
    out += padding;
    out += xml ? (size_t)snprintf((char *)shaped + out, 8, "-->") : (size_t)snprintf((char *)shaped + out, 8, "\n");
    *lines = xml ? 0 : 1;
    memcpy(shaped + out, log_bytes + head, n - head);
    return out + n - head;
}

static void check_padding(const char *log)
{
    size_t n = file_read(log);
    log_bytes[n] = '\0';
    reading_init(&plain);
    reading_bytes(&plain, log_bytes, n);
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        struct seeded seeded = {seed};
        uint32_t lines;
        reading_init(&other);
        other.rules.cell_max_bytes = 1000000;
        size_t size = padding_write(&seeded, n, &lines);
        reading_bytes(&other, shaped, size);
        check_same(seed, lines);
    }
    reading_free(&plain);
}

START_TEST(gzip_of_any_shape)
{
    for (size_t i = 0; i < sizeof LOGS / sizeof LOGS[0]; i++) {
        check_gzip(LOGS[i]);
    }
}
END_TEST

START_TEST(pieces_cut_anywhere)
{
    for (size_t i = 0; i < sizeof LOGS / sizeof LOGS[0]; i++) {
        check_padding(LOGS[i]);
    }
}
END_TEST

/* A dive made of whole seconds and tenths of metres, and a way to write it. */
struct dialect {
    char separator;
    char point;
    int time_form;
    bool quoted, crlf;
    int order[5];
};
struct row {
    int time_s, depth_dm, temp_dc, setpoint_cbar, cell_cbar;
};

static void cell_write(struct plmi_text *out, const struct dialect *dialect, const char *cell)
{
    bool quoted = dialect->quoted || strchr(cell, dialect->separator) != NULL;
    plmi_text_printf(out, "%s%s%s", quoted ? "\"" : "", cell, quoted ? "\"" : "");
}

static void value_write(char cell[40], const struct dialect *dialect, const struct row *row, int column)
{
    char p = dialect->point;
    if (column == 0) {
        int t = row->time_s;
        (void)snprintf(cell, 40,
                       dialect->time_form == 0   ? "%d"
                       : dialect->time_form == 1 ? "%d:%02d"
                                                 : "%d:%02d:%02d",
                       dialect->time_form == 0   ? t
                       : dialect->time_form == 1 ? t / 60
                                                 : t / 3600,
                       dialect->time_form == 1 ? t % 60 : t / 60 % 60, t % 60);
    } else {
        int value = column == 1   ? row->depth_dm
                    : column == 2 ? row->temp_dc
                    : column == 3 ? row->setpoint_cbar
                                  : row->cell_cbar;
        int part = column <= 2 ? 10 : 100;
        (void)snprintf(cell, 40, column <= 2 ? "%d%c%d" : "%d%c%02d", value / part, p, value % part);
    }
}

static void table_write(struct plmi_text *out, const struct dialect *dialect, const struct row *rows, int count)
{
    static const char *const NAMES[3][5] = {
        {"time_s", "depth_m", "temp_c", "setpoint_bar", "cell1_bar"},
        {"Elapsed (min:sec)", "Depth [m]", "Temp (C)", "SetPoint [bar]", "PO2 cell 1 [bar]"},
        {"Tauchzeit (hh:mm:ss)", "Tiefe (m)", "Temperatur (C)", "Sollwert (bar)", "Zelle 1 (bar)"}};
    const char *end = dialect->crlf ? "\r\n" : "\n";
    for (int i = -1; i < count; i++) {
        for (int c = 0; c < 5; c++) {
            char cell[40];
            int column = dialect->order[c];
            if (i >= 0) {
                value_write(cell, dialect, &rows[i], column);
            }
            plmi_text_add(out, &dialect->separator, c > 0 ? 1 : 0);
            cell_write(out, dialect, i < 0 ? NAMES[dialect->time_form][column] : cell);
        }
        plmi_text_puts(out, end);
    }
}

static struct dialect dialect_made(struct seeded *seeded)
{
    static const char SEPARATORS[] = {',', ';', '\t', '|'};
    struct dialect made = {.separator = SEPARATORS[seeded_below(seeded, 4)],
                           .time_form = (int)seeded_below(seeded, 3),
                           .quoted = seeded_below(seeded, 2) == 1,
                           .crlf = seeded_below(seeded, 2) == 1,
                           .order = {0, 1, 2, 3, 4}};
    made.point = seeded_below(seeded, 2) == 1 ? ',' : '.';
    for (int i = 4; i > 0; i--) {
        int j = (int)seeded_below(seeded, (uint32_t)i + 1);
        int held = made.order[i];
        made.order[i] = made.order[j];
        made.order[j] = held;
    }
    return made;
}

static int dive_made(struct seeded *seeded, struct row rows[400])
{
    int count = 30 + (int)seeded_below(seeded, 370);
    int step = 1 + (int)seeded_below(seeded, 20);
    int depth_dm = 0;
    for (int i = 0; i < count; i++) {
        depth_dm += i == 0 ? 0 : (int)seeded_below(seeded, (uint32_t)step * 8) - step * 3;
        depth_dm = depth_dm < 0 ? 0 : depth_dm > 1500 ? 1500 : depth_dm;
        rows[i] = (struct row){i * step, depth_dm + (i > 0 ? 1 : 0), 40 + (int)seeded_below(seeded, 240),
                               70 + 10 * (int)seeded_below(seeded, 7), 50 + (int)seeded_below(seeded, 100)};
    }
    return count;
}

START_TEST(any_dialect_and_back)
{
    for (uint64_t seed = 1; seed <= 20 * SEEDS; seed++) {
        struct seeded seeded = {seed};
        struct row rows[400];
        struct plmi_text text;
        size_t count;
        int rows_count = dive_made(&seeded, rows);
        struct dialect dialect = dialect_made(&seeded);
        plmi_text_init(&text);
        table_write(&text, &dialect, rows, rows_count);
        reading_init(&other);
        reading_bytes(&other, text.bytes, text.count);
        ck_assert_msg(other.count == 1, "seed %d: %d dives, %s\n%.300s", (int)seed, other.count, other.told.lines[0],
                      text.bytes);
        const struct plm_sample *samples = plm_dive_samples(other.dives[0], &count);
        size_t settings_count;
        const struct plm_setting *settings = plm_dive_settings(other.dives[0], &settings_count);
        ck_assert_msg(count == (size_t)rows_count, "seed %d: %zu samples, not %d", (int)seed, count, rows_count);
        for (size_t i = 0; i < count; i++) {
            ck_assert_msg(samples[i].time_ms == rows[i].time_s * 1000 &&
                              samples[i].depth_m == rows[i].depth_dm / 10.0 &&
                              samples[i].temp_c == rows[i].temp_dc / 10.0 &&
                              settings[samples[i].setting].setpoint_bar == rows[i].setpoint_cbar / 100.0 &&
                              samples[i].cell_bar[0] == rows[i].cell_cbar / 100.0,
                          "seed %d: sample %zu\n%.300s", (int)seed, i, text.bytes);
        }
        plmi_text_free(&text);
        reading_free(&other);
    }
}
END_TEST

int main(void)
{
    const TTest *const all[] = {gzip_of_any_shape, pieces_cut_anywhere, any_dialect_and_back};
    return suite_run("reading", all, sizeof all / sizeof all[0], 240.0);
}
