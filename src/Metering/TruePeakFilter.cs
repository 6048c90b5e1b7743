using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering;

/// <summary>The interpolator of BS.1770-5 Annex 2 as kernels over a buffer that carries the samples before it.</summary>
/// <remarks>
/// Four phases of twelve taps. Seen from the original samples the phases lie 1/8, 3/8, 5/8 and 7/8 of a sample on, so together with
/// the samples themselves no gap is wider than a quarter. At 88.2 and 96 kHz Annex 2 asks for twice the rate: the two inner phases
/// do that, with gaps of at most 3/8. Source: ITU-R BS.1770-5 Annex 2, table of coefficients.
/// </remarks>
internal static class TruePeakFilter
{
    /// <summary>Taps a phase, hence one more than the samples of history it needs.</summary>
    public const int Taps = 12;

    internal const int Stride = 16;

    /// <summary>Phases 0 to 3, each in printed order: tap k weighs the sample k frames back.</summary>
    public static readonly double[][] Phases =
    [
        [0.0017089843750, 0.0109863281250, -0.0196533203125, 0.0332031250000, -0.0594482421875, 0.1373291015625,
            0.9721679687500, -0.1022949218750, 0.0476074218750, -0.0266113281250, 0.0148925781250, -0.0083007812500],
        [-0.0291748046875, 0.0292968750000, -0.0517578125000, 0.0891113281250, -0.1665039062500, 0.4650878906250,
            0.7797851562500, -0.2003173828125, 0.1015625000000, -0.0582275390625, 0.0330810546875, -0.0189208984375],
        [-0.0189208984375, 0.0330810546875, -0.0582275390625, 0.1015625000000, -0.2003173828125, 0.7797851562500,
            0.4650878906250, -0.1665039062500, 0.0891113281250, -0.0517578125000, 0.0292968750000, -0.0291748046875],
        [-0.0083007812500, 0.0148925781250, -0.0266113281250, 0.0476074218750, -0.1022949218750, 0.9721679687500,
            0.1373291015625, -0.0594482421875, 0.0332031250000, -0.0196533203125, 0.0109863281250, 0.0017089843750],
    ];

    internal static readonly float[] Outer = Array.ConvertAll(Phases[0], c => (float)c);
    internal static readonly float[] Inner = Array.ConvertAll(Phases[1], c => (float)c);

    /// <summary>No interpolated value can exceed this many times the largest of the twelve samples it is made from.</summary>
    public static readonly float Bound = (float)(Phases.Max(phase => phase.Sum(Math.Abs)) * 1.000001);

    /// <summary>How many phases a rate needs: 4 below 80 kHz, 2 below 160 kHz, none above.</summary>
    public static int PhasesFor(int sampleRateHertz) => sampleRateHertz < 80_000 ? 4 : sampleRateHertz < 160_000 ? 2 : 0;

    /// <summary>The largest magnitude of the interpolated values that end in a stretch of samples.</summary>
    /// <param name="samples">The samples, with at least eleven samples of history before <paramref name="first"/>.</param>
    /// <param name="first">Index of the first sample of the stretch, 11 or more.</param>
    /// <param name="count">Samples in the stretch.</param>
    /// <param name="phases">2 or 4.</param>
    public static float Peak(ReadOnlySpan<float> samples, int first, int count, int phases)
    {
        // Checked once: below, references walk from first − 11 to first + count − 1.
        var window = samples.Slice(first - (Taps - 1), count + Taps - 1);
        var peak = 0f;
        var i = Taps - 1;
        if (Vector256.IsHardwareAccelerated && window.Length - i >= Stride)
        {
            peak = Vectors(window, Inner);
            if (phases == 4)
                peak = Math.Max(peak, Vectors(window, Outer));
            i += (window.Length - i) / Stride * Stride;
        }

        for (; i < window.Length; i++)
            peak = Math.Max(peak, One(window, i, phases));
        return peak;
    }

    /// <summary>A phase and its mirror image, 16 outputs of each at a time: four sums keep the multipliers busy.</summary>
    private static float Vectors(ReadOnlySpan<float> window, float[] taps)
    {
        ref var start = ref MemoryMarshal.GetReference(window);
        ref var tap = ref MemoryMarshal.GetArrayDataReference(taps);
        var largest = Vector256<float>.Zero;
        for (nuint i = Taps - 1; i + Stride <= (nuint)window.Length; i += Stride)
        {
            var (a0, a1, b0, b1) = (Vector256<float>.Zero, Vector256<float>.Zero, Vector256<float>.Zero, Vector256<float>.Zero);
            for (nuint k = 0; k < Taps; k++)
            {
                var (x0, x1) = (Vector256.LoadUnsafe(ref start, i - k), Vector256.LoadUnsafe(ref start, i - k + 8));
                var (forward, backward) = (Vector256.Create(Unsafe.Add(ref tap, k)), Vector256.Create(Unsafe.Add(ref tap, Taps - 1 - k)));
                a0 = Vector256.MultiplyAddEstimate(forward, x0, a0);
                a1 = Vector256.MultiplyAddEstimate(forward, x1, a1);
                b0 = Vector256.MultiplyAddEstimate(backward, x0, b0);
                b1 = Vector256.MultiplyAddEstimate(backward, x1, b1);
            }

            var (a, b) = (Vector256.MaxNative(Vector256.Abs(a0), Vector256.Abs(a1)), Vector256.MaxNative(Vector256.Abs(b0), Vector256.Abs(b1)));
            largest = Vector256.MaxNative(largest, Vector256.MaxNative(a, b));
        }

        var peak = 0f;
        for (var lane = 0; lane < Vector256<float>.Count; lane++)
            peak = Math.Max(peak, largest[lane]);
        return peak;
    }

    private static float One(ReadOnlySpan<float> window, int at, int phases)
    {
        var (p0, p1, p2, p3) = (0f, 0f, 0f, 0f);
        for (var k = 0; k < Taps; k++)
        {
            var x = window[at - k];
            p1 += Inner[k] * x;
            p2 += Inner[Taps - 1 - k] * x;
            p0 += Outer[k] * x;
            p3 += Outer[Taps - 1 - k] * x;
        }

        var peak = Math.Max(Math.Abs(p1), Math.Abs(p2));
        return phases == 4 ? Math.Max(peak, Math.Max(Math.Abs(p0), Math.Abs(p3))) : peak;
    }
}
