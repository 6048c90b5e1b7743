using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Signals.Dither;

/// <summary>Triangular dither of ±1 quantising step whose value depends on seed, channel and frame alone.</summary>
/// <remarks>
/// Nothing is carried from frame to frame: a piece of a take gets the dither of the whole, in any order and on any number of threads.
/// Each value is the difference of the two 16-bit halves of one hashed counter, in 1/65536 step: −65535..65535, triangular,
/// mean 0, variance 1/6 step² (REFERENCES H: total error of a dithered quantiser is then half a step rms, −93.32 dBFS at 16 bits).
/// <c>default</c> is the dither of nothing in particular; construct one. Values are part of the recipe format and never change.
/// </remarks>
public readonly struct TriangularDither : IEquatable<TriangularDither>
{
    /// <summary>How many units of the raw values make one quantising step.</summary>
    public const double UnitsPerStep = 65536;

    private const ulong Weyl = 0x9E3779B97F4A7C15;
    private const uint MixA = 0x7FEB352D, MixB = 0x846CA68B, MixC = 0x9E3779B1;
    private readonly ulong _key;
    private readonly bool _opposite;

    /// <summary>The dither of one channel.</summary>
    /// <param name="seed">The seed kept in the recipe.</param>
    /// <param name="channel">The channel number, 0 or more; channels get unrelated dither.</param>
    public TriangularDither(ulong seed, int channel)
        : this(Mix64(seed + (Weyl * (uint)(channel + 1))), opposite: false)
    {
    }

    private TriangularDither(ulong key, bool opposite)
    {
        _key = key;
        _opposite = opposite;
    }

    /// <summary>The same dither with its sign turned: left and right dithered so cancel in their sum, and the mono fold stays within half a step.</summary>
    public TriangularDither Opposite => new(_key, !_opposite);

    /// <summary>Fills with dither in quantising steps, −1..1.</summary>
    /// <param name="firstFrame">The frame number of the first value, 0 or more.</param>
    /// <param name="steps">Receives the dither of consecutive frames.</param>
    public void Fill(long firstFrame, Span<double> steps)
    {
        Span<int> units = stackalloc int[256];
        while (steps.Length > 0)
        {
            var count = Math.Min(units.Length, steps.Length);
            FillUnits(firstFrame, units[..count]);
            for (var n = 0; n < count; n++)
                steps[n] = units[n] * (1 / UnitsPerStep);
            firstFrame += count;
            steps = steps[count..];
        }
    }

    /// <summary>Fills with dither in units of 1/65536 quantising step, −65535..65535.</summary>
    /// <param name="firstFrame">The frame number of the first value, 0 or more.</param>
    /// <param name="units">Receives the dither of consecutive frames.</param>
    public void FillUnits(long firstFrame, Span<int> units)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(firstFrame);
        while (units.Length > 0)
        {
            // The keys change where the low 32 bits of the frame number start over, every 12 hours at 96 kHz.
            var low = (uint)firstFrame;
            var count = (int)Math.Min(units.Length, (1L << 32) - low);
            var keys = Mix64(_key + (Weyl * (ulong)(firstFrame >> 32)));
            FillRun(low, (uint)keys, (uint)(keys >> 32), units[..count]);
            if (_opposite)
                Negate(units[..count]);
            firstFrame += count;
            units = units[count..];
        }
    }

    /// <summary>One value, in units of 1/65536 step.</summary>
    public int UnitsAt(long frame)
    {
        Span<int> one = stackalloc int[1];
        FillUnits(frame, one);
        return one[0];
    }

    /// <summary>Whether both give the same dither.</summary>
    public bool Equals(TriangularDither other) => _key == other._key && _opposite == other._opposite;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is TriangularDither other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(_key, _opposite);

    /// <summary>Whether both give the same dither.</summary>
    public static bool operator ==(TriangularDither left, TriangularDither right) => left.Equals(right);

    /// <summary>Whether they differ.</summary>
    public static bool operator !=(TriangularDither left, TriangularDither right) => !left.Equals(right);

    private static void Negate(Span<int> units)
    {
        foreach (ref var value in units)
            value = -value;
    }

    private static void FillRun(uint low, uint firstKey, uint secondKey, Span<int> units)
    {
        var n = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            ref var target = ref MemoryMarshal.GetReference(units);
            var counter = Vector256.Create(low) + Vector256.Create(0u, 1, 2, 3, 4, 5, 6, 7);
            for (; n <= units.Length - 8; n += 8, counter += Vector256.Create(8u))
                Units(counter, firstKey, secondKey).StoreUnsafe(ref target, (nuint)n);
        }

        for (; n < units.Length; n++)
            units[n] = Units(low + (uint)n, firstKey, secondKey);
    }

    // Two multiply-shift rounds and a key in the middle, so that two channels are not shifted copies of one sequence.
    private static int Units(uint counter, uint firstKey, uint secondKey)
    {
        var h = counter + firstKey;
        h = (h ^ (h >> 16)) * MixA;
        h = (h ^ (h >> 15)) + secondKey;
        h = (h ^ (h >> 16)) * MixB;
        h = (h ^ (h >> 15)) * MixC;
        h ^= h >> 16;
        return (int)(h & 0xFFFF) - (int)(h >> 16);
    }

    private static Vector256<int> Units(Vector256<uint> counter, uint firstKey, uint secondKey)
    {
        var h = counter + Vector256.Create(firstKey);
        h = (h ^ (h >>> 16)) * Vector256.Create(MixA);
        h = (h ^ (h >>> 15)) + Vector256.Create(secondKey);
        h = (h ^ (h >>> 16)) * Vector256.Create(MixB);
        h = (h ^ (h >>> 15)) * Vector256.Create(MixC);
        h ^= h >>> 16;
        return (h & Vector256.Create(0xFFFFu)).AsInt32() - (h >>> 16).AsInt32();
    }

    private static ulong Mix64(ulong x)
    {
        x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9;
        x = (x ^ (x >> 27)) * 0x94D049BB133111EB;
        return x ^ (x >> 31);
    }
}
