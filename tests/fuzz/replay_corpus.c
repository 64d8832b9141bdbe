/*
 * The main program of a fuzzer that is built without libFuzzer: runs its one
 * function over every file named. Must not judge: a crash is the failure.
 * SPDX-License-Identifier: MIT
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static int replay_file(const char *name)
{
    FILE *file = fopen(name, "rb");
    if (file == NULL) {
        perror(name);
        return 1;
    }
    uint8_t *data = NULL;
    size_t size = 0;
    size_t room = 0;
    size_t got = 0;
    do {
        size += got;
        if (size == room) {
            room = room == 0 ? 4096 : room * 2;
            uint8_t *grown = realloc(data, room);
            if (grown == NULL) {
                abort();
            }
            data = grown;
        }
        got = fread(data + size, 1, room - size, file);
    } while (got > 0);
    (void)fclose(file);
    /* An exact copy, so that a sanitizer sees a read behind the end. */
    uint8_t *exact = malloc(size == 0 ? 1 : size);
    if (exact == NULL) {
        abort();
    }
    for (size_t i = 0; i < size; i++) {
        exact[i] = data[i];
    }
    free(data);
    (void)LLVMFuzzerTestOneInput(exact, size);
    free(exact);
    return 0;
}

int main(int argc, char **argv)
{
    int failed = 0;
    for (int i = 1; i < argc; i++) {
        failed |= replay_file(argv[i]);
    }
    (void)printf("%d inputs replayed\n", argc - 1);
    return failed;
}
