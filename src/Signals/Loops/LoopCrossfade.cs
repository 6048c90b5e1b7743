using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Loops;

/// <summary>Leads the end of a loop over into its start; mid and side alike, so that the image stays. Same bits on every machine.</summary>
public static class LoopCrossfade
{
    /// <summary>The gains of the sound that leaves and the one that comes.</summary>
    /// <param name="frame">Frames into the cross-fade, 0 up to, not including, the seam's length.</param>
    /// <param name="seam">The seam.</param>
    /// <returns>
    /// a = cos θ/n and b = sin θ/n with θ = π/2·(frame + ½)/length and n = √(1 + 2ρ·sin θ·cos θ), so that a² + b² + 2ρab = 1: the power
    /// stays. For ρ = 0 the squares of a and b add up to 1, for ρ = 1 a and b themselves.
    /// </returns>
    public static (double Leaving, double Coming) Gains(long frame, LoopSeam seam)
    {
        ArgumentNullException.ThrowIfNull(seam);
        var sine = FixedTrigonometry.SinPi((frame + 0.5) / (2.0 * seam.CrossfadeFrames));
        var cosine = FixedTrigonometry.SinPi((seam.CrossfadeFrames - frame - 0.5) / (2.0 * seam.CrossfadeFrames));
        var scale = 1 / Math.Sqrt(1 + (2 * seam.Correlation * sine * cosine));
        return (cosine * scale, sine * scale);
    }

    /// <summary>Blends one channel in place.</summary>
    /// <param name="leaving">Samples at the end of the cut; receives the blend.</param>
    /// <param name="coming">As many samples from before the cut's start.</param>
    /// <param name="firstFrame">Where in the cross-fade they begin.</param>
    /// <param name="seam">The seam.</param>
    public static void Blend(Span<double> leaving, ReadOnlySpan<double> coming, long firstFrame, LoopSeam seam)
    {
        for (var i = 0; i < leaving.Length; i++)
        {
            var (a, b) = Gains(firstFrame + i, seam);
            leaving[i] = (a * leaving[i]) + (b * coming[i]);
        }
    }

    /// <summary>The correlation of two pairs of sounds, mid and side together.</summary>
    /// <returns>−1 to 1; 0 when either is silent or empty. Spans of one length; the mean of each is taken off.</returns>
    public static double Correlation(ReadOnlySpan<double> mid, ReadOnlySpan<double> side, ReadOnlySpan<double> otherMid, ReadOnlySpan<double> otherSide)
    {
        var (product, first, second) = (0.0, 0.0, 0.0);
        Add(mid, otherMid);
        Add(side, otherSide);
        return first > 0 && second > 0 ? Math.Clamp(product / Math.Sqrt(first * second), -1, 1) : 0;

        void Add(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
        {
            var (offsetA, offsetB) = (Mean(a), Mean(b));
            for (var i = 0; i < a.Length; i++)
            {
                var (x, y) = (a[i] - offsetA, b[i] - offsetB);
                product += x * y;
                first += x * x;
                second += y * y;
            }
        }
    }

    private static double Mean(ReadOnlySpan<double> samples)
    {
        var sum = 0.0;
        foreach (var sample in samples)
            sum += sample;
        return samples.IsEmpty ? 0 : sum / samples.Length;
    }
}
