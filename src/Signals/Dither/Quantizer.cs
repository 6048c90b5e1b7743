using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Athwart.Signals.Dither;

/// <summary>What a quantiser met: the extremes in steps of the word, before limiting, and how many samples did not fit.</summary>
/// <param name="Lowest">The lowest rounded value in steps; +∞ when there was none.</param>
/// <param name="Highest">The highest rounded value in steps; −∞ when there was none.</param>
/// <param name="Beyond">Samples outside the word, or not a number; they were held at its ends, or made 0.</param>
public readonly record struct QuantizedPeak(double Lowest, double Highest, long Beyond)
{
    /// <summary>Nothing met yet.</summary>
    public static QuantizedPeak None => new(double.PositiveInfinity, double.NegativeInfinity, 0);

    /// <summary>Both together.</summary>
    public QuantizedPeak And(QuantizedPeak other) =>
        new(Math.Min(Lowest, other.Lowest), Math.Max(Highest, other.Highest), Beyond + other.Beyond);
}

/// <summary>Rounds samples to the steps of an integer word, with or without dither.</summary>
public static class Quantizer
{
    private const int Run = 512;

    /// <summary>steps = round(samples·2^(bits−1) + dither), halves to even, held within the word.</summary>
    /// <param name="samples">Samples, full scale ±1.</param>
    /// <param name="bits">Word length, 8 to 32 bits; full scale is 2^(bits−1) steps, so +1.0 itself lies one step beyond.</param>
    /// <param name="dither">Dither of ±1 step, or null for plain rounding.</param>
    /// <param name="firstFrame">The frame number of the first sample, for the dither.</param>
    /// <param name="steps">Receives as many steps as there are samples.</param>
    /// <returns>The extremes before limiting, and the count of samples that did not fit (not a number included, written as 0).</returns>
    public static QuantizedPeak Quantize(ReadOnlySpan<double> samples, int bits, TriangularDither? dither, long firstFrame, Span<int> steps)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(bits, 8);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(bits, 32);
        steps = steps[..samples.Length];
        Span<int> units = stackalloc int[Run];
        units.Clear();
        var peak = QuantizedPeak.None;
        for (var n = 0; n < samples.Length; n += Run)
        {
            var count = Math.Min(Run, samples.Length - n);
            dither?.FillUnits(firstFrame + n, units[..count]);
            peak = peak.And(QuantizeRun(samples.Slice(n, count), bits, units[..count], steps.Slice(n, count)));
        }

        return peak;
    }

    /// <summary>Rounds samples to single precision, halves to even; nothing is ever limited.</summary>
    /// <param name="samples">Samples, full scale ±1.</param>
    /// <param name="target">Receives as many samples.</param>
    public static void ToSingle(ReadOnlySpan<double> samples, Span<float> target)
    {
        target = target[..samples.Length];
        for (var n = 0; n < samples.Length; n++)
            target[n] = (float)samples[n];
    }

    /// <summary>The way back, exact: samples = steps / 2^(bits−1).</summary>
    /// <param name="steps">Steps of an integer word.</param>
    /// <param name="bits">Word length, 8 to 32 bits.</param>
    /// <param name="samples">Receives as many samples, full scale ±1.</param>
    public static void ToSamples(ReadOnlySpan<int> steps, int bits, Span<double> samples)
    {
        samples = samples[..steps.Length];
        var scale = 1.0 / (1L << (bits - 1));
        var n = 0;
        if (Avx.IsSupported)
        {
            ref var source = ref MemoryMarshal.GetReference(steps);
            ref var target = ref MemoryMarshal.GetReference(samples);
            for (; n <= steps.Length - 4; n += 4)
                (Avx.ConvertToVector256Double(Vector128.LoadUnsafe(ref source, (nuint)n)) * Vector256.Create(scale)).StoreUnsafe(ref target, (nuint)n);
        }

        for (; n < steps.Length; n++)
            samples[n] = steps[n] * scale;
    }

    private static QuantizedPeak QuantizeRun(ReadOnlySpan<double> samples, int bits, ReadOnlySpan<int> units, Span<int> steps)
    {
        var scale = (double)(1L << (bits - 1));
        double lowest = double.PositiveInfinity, highest = double.NegativeInfinity;
        long beyond = 0;
        var n = Avx.IsSupported ? QuantizeVectors(samples, scale, units, steps, ref lowest, ref highest, ref beyond) : 0;
        for (; n < samples.Length; n++)
        {
            var value = Math.Round((samples[n] * scale) + (units[n] * (1 / TriangularDither.UnitsPerStep)), MidpointRounding.ToEven);
            if (double.IsNaN(value))
            {
                beyond++;
                steps[n] = 0;
                continue;
            }

            lowest = value < lowest ? value : lowest;
            highest = value > highest ? value : highest;
            var held = value < -scale ? -scale : value > scale - 1 ? scale - 1 : value;
            beyond += held != value ? 1 : 0;
            steps[n] = (int)held;
        }

        return new(lowest, highest, beyond);
    }

    private static int QuantizeVectors(ReadOnlySpan<double> samples, double scale, ReadOnlySpan<int> units, Span<int> steps, ref double lowest, ref double highest, ref long beyond)
    {
        ref var source = ref MemoryMarshal.GetReference(samples);
        ref var unit = ref MemoryMarshal.GetReference(units);
        ref var target = ref MemoryMarshal.GetReference(steps);
        Vector256<double> low = Vector256.Create(lowest), high = Vector256.Create(highest);
        Vector256<double> factor = Vector256.Create(scale), step = Vector256.Create(1 / TriangularDither.UnitsPerStep);
        Vector256<double> floor = Vector256.Create(-scale), ceiling = Vector256.Create(scale - 1);
        var n = 0;
        for (; n <= samples.Length - 4; n += 4)
        {
            var dither = Avx.ConvertToVector256Double(Vector128.LoadUnsafe(ref unit, (nuint)n)) * step;
            var value = Avx.RoundToNearestInteger((Vector256.LoadUnsafe(ref source, (nuint)n) * factor) + dither);
            // The second operand wins in these instructions when one is not a number.
            low = Avx.Min(value, low);
            high = Avx.Max(value, high);
            var held = Avx.Min(Avx.Max(value, floor), ceiling);
            var fits = Vector256.Equals(held, value);
            beyond += 4 - System.Numerics.BitOperations.PopCount(fits.ExtractMostSignificantBits());
            var number = Vector256.Equals(value, value);
            Avx.ConvertToVector128Int32(held & number).StoreUnsafe(ref target, (nuint)n);
        }

        for (var lane = 0; lane < 4; lane++)
        {
            lowest = Math.Min(lowest, low[lane]);
            highest = Math.Max(highest, high[lane]);
        }

        return n;
    }
}
