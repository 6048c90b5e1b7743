/*
 * What libebur128 takes to measure the decode of a mid-side pair: integrated loudness, loudness range and true peak.
 *   loudness IN.wav GAIN
 * 24-bit words, left = mid + GAIN * side, right = mid - GAIN * side, in float as the library takes it.
 */
#include "wave.h"
#include <ebur128.h>
#include <math.h>

enum { FRAME = 6, BLOCK_FRAMES = 16384 };

static float sample(const unsigned char *bytes) {
    return (int32_t)((uint32_t)bytes[0] << 8 | (uint32_t)bytes[1] << 16 | (uint32_t)bytes[2] << 24) / 2147483648.0f;
}

int main(int count, char **words) {
    if (count != 3) {
        fprintf(stderr, "loudness IN.wav GAIN\n");
        return 2;
    }
    struct wave in = wave_open(words[1]);
    float gain = atof(words[2]);
    static unsigned char bytes[BLOCK_FRAMES * FRAME];
    static float pair[BLOCK_FRAMES * 2];
    ebur128_state *meter = ebur128_init(2, in.rate, EBUR128_MODE_I | EBUR128_MODE_LRA | EBUR128_MODE_TRUE_PEAK);
    if (!meter) return 4;
    for (int64_t done = 0; done < in.data_bytes;) {
        ssize_t got = pread(in.file, bytes, sizeof bytes, in.data_offset + done);
        if (got > in.data_bytes - done) got = in.data_bytes - done;
        if (got < FRAME) break;
        long frames = got / FRAME;
        for (long i = 0; i < frames; i++) {
            float mid = sample(bytes + i * FRAME), side = gain * sample(bytes + i * FRAME + 3);
            pair[2 * i] = mid + side;
            pair[2 * i + 1] = mid - side;
        }
        if (ebur128_add_frames_float(meter, pair, frames)) return 4;
        done += frames * FRAME;
    }
    double integrated, range, left, right;
    ebur128_loudness_global(meter, &integrated);
    ebur128_loudness_range(meter, &range);
    ebur128_true_peak(meter, 0, &left);
    ebur128_true_peak(meter, 1, &right);
    printf("%.3f LUFS  %.3f LU  %.3f dBTP  %.3f dBTP\n", integrated, range, 20 * log10(left), 20 * log10(right));
    ebur128_destroy(&meter);
    return 0;
}
