using Athwart.Signals.Fourier;

namespace Athwart.Metering.LineUp;

/// <summary>Finds the whole number of frames by which channel B is late, and the sign, from the cross-correlation of all sounds together.</summary>
internal static class LagSearch
{
    /// <summary>What the correlations say.</summary>
    /// <param name="Lag">Frames by which B is late; negative when it is early.</param>
    /// <param name="Upright">Highest mean correlation when sounds on the left are in phase and those on the right are not, 0 to 1.</param>
    /// <param name="Inverted">The same for the contrary.</param>
    public readonly record struct Result(int Lag, double Upright, double Inverted);

    /// <summary>Searches.</summary>
    /// <param name="pair">The channels.</param>
    /// <param name="sounds">Onset, and the sign expected: 1 left, −1 right, 0 when it does not matter.</param>
    /// <param name="directFrames">Length of the direct sound.</param>
    /// <param name="mostFrames">The greatest lag.</param>
    public static Result Search(SoundPair pair, IReadOnlyList<(int Onset, int Sign)> sounds, int directFrames, int mostFrames)
    {
        var squares = new double[(2 * mostFrames) + 1];
        var signed = new double[squares.Length];
        var sideways = Math.Max(1, sounds.Count(s => s.Sign != 0));
        foreach (var (onset, sign) in sounds)
        {
            if (Correlation(pair, onset, directFrames, mostFrames) is not { } correlation)
                continue;
            for (var i = 0; i < squares.Length; i++)
            {
                squares[i] += correlation[i] * correlation[i];
                signed[i] += sign * correlation[i] / sideways;
            }
        }

        return new(Array.IndexOf(squares, squares.Max()) - mostFrames, Math.Max(0, signed.Max()), Math.Max(0, -signed.Min()));
    }

    /// <summary>The correlation of one sound at each lag from −most to most, over the energy of both channels.</summary>
    public static double[]? Correlation(SoundPair pair, int onset, int directFrames, int mostFrames)
    {
        var lead = pair.Frames(0.4);
        var (from, length) = (onset - lead, lead + directFrames + mostFrames);
        if (from < 0 || from + length > pair.Length)
            return null;
        return Correlate(pair.Cut[0].AsSpan(from, length), pair.Cut[1].AsSpan(from, length), mostFrames);
    }

    /// <summary>Σ a[n]·b[n + lag] over √(Σa²·Σb²) for each lag from −most to most.</summary>
    public static double[]? Correlate(ReadOnlySpan<float> a, ReadOnlySpan<float> b, int mostFrames)
    {
        var transform = new FourierTransform((int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(a.Length + mostFrames + 1)));
        var (ar, ai, br, bi) = (new float[transform.Length], new float[transform.Length], new float[transform.Length], new float[transform.Length]);
        a.CopyTo(ar);
        b.CopyTo(br);
        var energy = Math.Sqrt(Energy(a) * Energy(b));
        if (!(energy > 0))
            return null;
        transform.Forward(ar, ai);
        transform.Forward(br, bi);
        for (var k = 0; k < ar.Length; k++)
            (ar[k], ai[k]) = ((ar[k] * br[k]) + (ai[k] * bi[k]), (ar[k] * bi[k]) - (ai[k] * br[k]));
        transform.Inverse(ar, ai);
        var result = new double[(2 * mostFrames) + 1];
        for (var lag = -mostFrames; lag <= mostFrames; lag++)
            result[lag + mostFrames] = ar[(lag + ar.Length) % ar.Length] / (energy * ar.Length);
        return result;
    }

    private static double Energy(ReadOnlySpan<float> samples)
    {
        var sum = 0.0;
        foreach (var x in samples)
            sum += (double)x * x;
        return sum;
    }
}
