/* The little of WAVE that the reference programs need: two channels of 24 bits, plain header, no surprises. */
#ifndef ATHWART_BENCH_WAVE_H
#define ATHWART_BENCH_WAVE_H
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct wave {
    int file;
    uint32_t rate;
    int64_t data_offset;
    int64_t data_bytes;
};

static uint32_t little_endian(const unsigned char *bytes) {
    return bytes[0] | bytes[1] << 8 | bytes[2] << 16 | (uint32_t)bytes[3] << 24;
}

static struct wave wave_open(const char *path) {
    struct wave wave = {.file = open(path, O_RDONLY)};
    unsigned char head[12], chunk[24];
    if (wave.file < 0 || pread(wave.file, head, 12, 0) != 12 || memcmp(head, "RIFF", 4) || memcmp(head + 8, "WAVE", 4)) {
        fprintf(stderr, "%s: no WAVE file\n", path);
        exit(3);
    }
    int64_t at = 12;
    while (pread(wave.file, chunk, 8, at) == 8) {
        uint32_t size = little_endian(chunk + 4);
        if (!memcmp(chunk, "fmt ", 4)) {
            unsigned char fmt[16];
            if (pread(wave.file, fmt, 16, at + 8) != 16 || fmt[2] != 2 || fmt[14] != 24) {
                fprintf(stderr, "%s: not two channels of 24 bits\n", path);
                exit(3);
            }
            wave.rate = little_endian(fmt + 4);
        } else if (!memcmp(chunk, "data", 4)) {
            wave.data_offset = at + 8;
            wave.data_bytes = size;
            return wave;
        }
        at += 8 + size + (size & 1);
    }
    fprintf(stderr, "%s: no data chunk\n", path);
    exit(3);
}
#endif
