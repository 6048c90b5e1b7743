using Athwart.Jobs.Roles;
using Athwart.Metering;
using Athwart.Signals.Filters;

namespace Athwart.Jobs.Listening;

/// <summary>The K-weighted mean powers of mid and side over a stretch: from these two the loudness of any side level follows.</summary>
/// <param name="Mid">Mean square of the K-weighted mid; 0 for silence.</param>
/// <param name="Side">Mean square of the K-weighted side.</param>
/// <param name="Frames">Frames measured.</param>
/// <remarks>
/// Left and right carry (M + gS)² + (M − gS)² = 2·(M² + g²·S²), so two settings are made equally loud by the ratio of their sums;
/// no cross term remains. Not gated: a comparison of two settings of one stretch, not a programme loudness.
/// Source of the weighting: ITU-R BS.1770-5; see docs/sources.md#k-weighting.
/// </remarks>
public sealed record WeightedPowers(double Mid, double Side, long Frames)
{
    /// <summary>The longest stretch measured, in seconds; a longer one is measured over its first part.</summary>
    public const int MaxSeconds = 600;

    /// <summary>Measures a stretch.</summary>
    /// <param name="take">The take.</param>
    /// <param name="from">The first frame, 0 or more.</param>
    /// <param name="to">The frame after the last; cut to the end of the take.</param>
    /// <param name="cancellation">Ends it.</param>
    public static WeightedPowers Measure(ListeningTake take, long from, long to, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentOutOfRangeException.ThrowIfNegative(from);
        var rate = take.Recording.SampleRateHertz;
        to = Math.Min(Math.Min(to, take.Recording.FrameCount), from + ((long)rate * MaxSeconds));
        if (to <= from)
            return new(0, 0, 0);
        var (mid, side) = (new Weighting(rate), new Weighting(rate));
        RoleBlocks.ForEach(take.Recording, take.Roles, from, to, 16_384, (_, m, s) =>
        {
            cancellation.ThrowIfCancellationRequested();
            mid.Add(m);
            side.Add(s);
        });
        return new(mid.Sum / (to - from), side.Sum / (to - from), to - from);
    }

    /// <summary>Measures a stretch of a take as treated.</summary>
    /// <param name="treated">The treated take.</param>
    /// <param name="from">The first frame, 0 or more.</param>
    /// <param name="to">The frame after the last; cut to the end of the treated take.</param>
    /// <param name="cancellation">Ends it.</param>
    public static WeightedPowers Measure(Shape.Preview treated, long from, long to, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(treated);
        ArgumentOutOfRangeException.ThrowIfNegative(from);
        to = Math.Min(Math.Min(to, treated.FrameCount), from + ((long)treated.SampleRateHertz * MaxSeconds));
        if (to <= from)
            return new(0, 0, 0);
        var (mid, side) = (new Weighting(treated.SampleRateHertz), new Weighting(treated.SampleRateHertz));
        float[] m = new float[16_384], s = new float[16_384];
        for (var at = from; at < to; at += m.Length)
        {
            cancellation.ThrowIfCancellationRequested();
            var count = (int)Math.Min(m.Length, to - at);
            treated.ReadMidSide(at, m.AsSpan(0, count), s.AsSpan(0, count));
            mid.Add(m.AsSpan(0, count));
            side.Add(s.AsSpan(0, count));
        }

        return new(mid.Sum / (to - from), side.Sum / (to - from), to - from);
    }

    private sealed class Weighting(int sampleRateHertz)
    {
        private readonly BiquadCoefficients _shelf = KWeighting.Shelf(sampleRateHertz);
        private readonly BiquadCoefficients _highPass = KWeighting.HighPass(sampleRateHertz);
        private double _x1, _x2, _y1, _y2, _z1, _z2;

        public double Sum { get; private set; }

        public void Add(ReadOnlySpan<float> samples)
        {
            var (s, h, sum) = (_shelf, _highPass, Sum);
            foreach (var sample in samples)
            {
                // The tiny constant keeps the states out of denormals, which are slow; −400 dB.
                var x = (float.IsFinite(sample) ? sample : 0) + 1e-20;
                var y = (s.B0 * x) + (s.B1 * _x1) + (s.B2 * _x2) - (s.A1 * _y1) - (s.A2 * _y2);
                var z = (h.B0 * y) + (h.B1 * _y1) + (h.B2 * _y2) - (h.A1 * _z1) - (h.A2 * _z2);
                sum += z * z;
                (_x2, _x1, _y2, _y1, _z2, _z1) = (_x1, x, _y1, y, _z1, z);
            }

            Sum = sum;
        }
    }
}
