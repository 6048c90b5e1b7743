using Athwart.Signals.Shaping;
using CsCheck;

namespace Athwart.Signals.Tests.Shaping;

/// <summary>What every step has to keep, as checks that its tests call.</summary>
internal static class StageProof
{
    public static (double[] Mid, double[] Side) Noise(int length, int seed)
    {
        var random = new Random(seed);
        double[] mid = new double[length], side = new double[length];
        for (var n = 0; n < length; n++)
            (mid[n], side[n]) = ((2 * random.NextDouble()) - 1, (2 * random.NextDouble()) - 1);
        return (mid, side);
    }

    /// <summary>Runs a stage over a whole signal; what comes out is moved forward by the latency, so that frames meet.</summary>
    public static (double[] Mid, double[] Side) Run(IPairStage stage, double[] mid, double[] side, long firstFrame = 0, int block = int.MaxValue)
    {
        var length = mid.Length + stage.LatencyFrames;
        double[] m = new double[length], s = new double[length];
        mid.CopyTo(m, 0);
        side.CopyTo(s, 0);
        stage.Begin(firstFrame);
        for (var n = 0; n < length;)
        {
            var count = Math.Min(block, length - n);
            stage.Process(m.AsSpan(n, count), s.AsSpan(n, count));
            n += count;
        }

        return (m[stage.LatencyFrames..], s[stage.LatencyFrames..]);
    }

    /// <summary>Every split into blocks, empty ones included, gives the bits of the whole.</summary>
    public static void SplitsDoNotMatter(Func<IPairStage> make, int length = 3000, long firstFrame = -17)
    {
        var (mid, side) = Noise(length, 11);
        var stage = make();
        var whole = Run(make(), mid, side, firstFrame);
        Gen.Int[0, 700].Array[1, 12].Sample(
            sizes =>
            {
                var total = length + stage.LatencyFrames;
                double[] m = new double[total], s = new double[total];
                mid.CopyTo(m, 0);
                side.CopyTo(s, 0);
                stage.Begin(firstFrame);
                for (int n = 0, k = 0; n < total; k++)
                {
                    var count = Math.Min(k < 10_000 ? sizes[k % sizes.Length] : total, total - n);
                    stage.Process(m.AsSpan(n, count), s.AsSpan(n, count));
                    n += count;
                }

                SameBits(whole.Mid, m.AsSpan(stage.LatencyFrames));
                SameBits(whole.Side, s.AsSpan(stage.LatencyFrames));
            },
            iter: 20,
            threads: 1);
    }

    /// <summary>What is begun again gives the same bits, and so does what was used before.</summary>
    public static void BeginForgets(IPairStage stage, int length = 2000)
    {
        var (mid, side) = Noise(length, 5);
        var first = Run(stage, mid, side);
        var again = Run(stage, mid, side);
        SameBits(first.Mid, again.Mid);
        SameBits(first.Side, again.Side);
    }

    /// <summary>Begun the settling frames early instead of long before: what comes out differs by less than −140 dB of the peak.</summary>
    public static void SettlingIsEnough(Func<IPairStage> make, int before, int wanted = 500)
    {
        var settling = (int)Math.Min(make().SettlingFrames, before);
        var (mid, side) = Noise(before + wanted, 23);
        var whole = Run(make(), mid, side, 1000);
        var late = Run(make(), mid[(before - settling)..], side[(before - settling)..], 1000 + before - settling);
        var (peak, worst) = (0.0, 0.0);
        for (var n = 0; n < wanted; n++)
        {
            peak = Math.Max(peak, Math.Max(Math.Abs(whole.Mid[before + n]), Math.Abs(whole.Side[before + n])));
            worst = Math.Max(worst, Math.Max(Math.Abs(whole.Mid[before + n] - late.Mid[settling + n]), Math.Abs(whole.Side[before + n] - late.Side[settling + n])));
        }

        Assert.True(worst <= peak * 1e-7, $"{20 * Math.Log10(worst / peak)} dB");
    }

    /// <summary>The role not named keeps every bit.</summary>
    public static void LeavesTheOtherRole(IPairStage stage, PairRoles treated, int length = 3000)
    {
        var (mid, side) = Noise(length, 3);
        (mid[7], side[7]) = (-0.0, -0.0);
        var done = Run(stage, mid, side);
        if (treated == PairRoles.Side)
            SameBits(mid, done.Mid);
        else
            SameBits(side, done.Side);
    }

    /// <summary>The amplitude ratio at a frequency, from the response to an impulse.</summary>
    public static (double Mid, double Side) Gains(IPairStage stage, double hertz, int sampleRateHertz, int length)
    {
        double[] mid = new double[length], side = new double[length];
        mid[0] = side[0] = 1;
        var (m, s) = Run(stage, mid, side);
        return (Spectrum.Ratio(m, hertz, sampleRateHertz), Spectrum.Ratio(s, hertz, sampleRateHertz));
    }

    public static void SameBits(ReadOnlySpan<double> expected, ReadOnlySpan<double> actual)
    {
        Assert.Equal(expected.Length, actual.Length);
        for (var n = 0; n < expected.Length; n++)
        {
            if (BitConverter.DoubleToInt64Bits(expected[n]) != BitConverter.DoubleToInt64Bits(actual[n]))
                Assert.Fail($"frame {n}: {expected[n]:R} and {actual[n]:R}");
        }
    }
}
