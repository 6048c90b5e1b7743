/*
 * How fast plain C decodes mid and side to left and right: one thread, 256 KiB blocks, AVX2, no dither.
 *   decode IN.wav OUT.wav GAIN
 * 24-bit words in and out, x = round(GAIN * side) in double, left = mid + x, right = mid - x, clamped.
 */
#include "wave.h"
#include <immintrin.h>

enum { FRAME = 6, BLOCK_FRAMES = 256 * 1024 / FRAME / 4 * 4, SPARE = 32 };

static const char UNPACK[16] = {-1, 0, 1, 2, -1, 3, 4, 5, -1, 6, 7, 8, -1, 9, 10, 11};
static const char PACK[16] = {0, 1, 2, 4, 5, 6, 8, 9, 10, 12, 13, 14, -1, -1, -1, -1};

/* Four frames: 24 bytes read as 16 + 16 with an overlap, 24 written the same way; SPARE bytes follow each buffer. */
static void decode_block(const unsigned char *in, unsigned char *out, long frames, double gain) {
    const __m128i unpack = _mm_loadu_si128((const __m128i *)UNPACK), pack = _mm_loadu_si128((const __m128i *)PACK);
    const __m128i low = _mm_set1_epi32(-8388608), high = _mm_set1_epi32(8388607);
    const __m256d g = _mm256_set1_pd(gain);
    for (long frame = 0; frame < frames; frame += 4, in += 24, out += 24) {
        __m128i a = _mm_srai_epi32(_mm_shuffle_epi8(_mm_loadu_si128((const __m128i *)in), unpack), 8);
        __m128i b = _mm_srai_epi32(_mm_shuffle_epi8(_mm_loadu_si128((const __m128i *)(in + 12)), unpack), 8);
        __m128 fa = _mm_castsi128_ps(a), fb = _mm_castsi128_ps(b);
        __m128i mid = _mm_castps_si128(_mm_shuffle_ps(fa, fb, _MM_SHUFFLE(2, 0, 2, 0)));
        __m128i side = _mm_castps_si128(_mm_shuffle_ps(fa, fb, _MM_SHUFFLE(3, 1, 3, 1)));
        __m128i x = _mm256_cvtpd_epi32(_mm256_mul_pd(_mm256_cvtepi32_pd(side), g));
        __m128i left = _mm_min_epi32(_mm_max_epi32(_mm_add_epi32(mid, x), low), high);
        __m128i right = _mm_min_epi32(_mm_max_epi32(_mm_sub_epi32(mid, x), low), high);
        _mm_storeu_si128((__m128i *)out, _mm_shuffle_epi8(_mm_unpacklo_epi32(left, right), pack));
        _mm_storeu_si128((__m128i *)(out + 12), _mm_shuffle_epi8(_mm_unpackhi_epi32(left, right), pack));
    }
}

int main(int count, char **words) {
    if (count != 4) {
        fprintf(stderr, "decode IN.wav OUT.wav GAIN\n");
        return 2;
    }
    struct wave in = wave_open(words[1]);
    int out = open(words[2], O_WRONLY | O_CREAT | O_EXCL, 0644);
    unsigned char *read_block = malloc(BLOCK_FRAMES * FRAME + SPARE), *write_block = malloc(BLOCK_FRAMES * FRAME + SPARE);
    unsigned char *header = malloc(in.data_offset);
    if (out < 0 || !read_block || !write_block || !header || pread(in.file, header, in.data_offset, 0) != in.data_offset ||
        pwrite(out, header, in.data_offset, 0) != in.data_offset) {
        fprintf(stderr, "%s: cannot be written\n", words[2]);
        return 4;
    }
    double gain = atof(words[3]);
    for (int64_t done = 0; done < in.data_bytes;) {
        int64_t want = in.data_bytes - done < BLOCK_FRAMES * FRAME ? in.data_bytes - done : BLOCK_FRAMES * FRAME;
        if (pread(in.file, read_block, want, in.data_offset + done) != want) return 3;
        decode_block(read_block, write_block, want / FRAME, gain);
        if (pwrite(out, write_block, want, in.data_offset + done) != want) return 4;
        done += want;
    }
    return close(out) ? 4 : 0;
}
