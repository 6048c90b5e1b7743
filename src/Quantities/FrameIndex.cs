using System.Globalization;

namespace Athwart.Quantities;

/// <summary>A place in a take: the number of whole frames before it; <c>default</c> is the first frame.</summary>
/// <remarks>An index is a point and a <see cref="FrameCount"/> a difference: index − index is a count, index + count an index.</remarks>
/// <param name="Value">Frames before this place, 0 or more.</param>
public readonly record struct FrameIndex(long Value) : IComparable<FrameIndex>
{
    /// <summary>The time from the start of the take.</summary>
    public TimeSpan At(int sampleRateHertz) => TimeSpan.FromSeconds((double)Value / sampleRateHertz);

    /// <summary>The place so many frames later.</summary>
    public static FrameIndex operator +(FrameIndex index, FrameCount count) => new(index.Value + count.Value);

    /// <summary>The frames between two places.</summary>
    public static FrameCount operator -(FrameIndex left, FrameIndex right) => new(left.Value - right.Value);

    /// <summary>Whether the first comes earlier.</summary>
    public static bool operator <(FrameIndex left, FrameIndex right) => left.Value < right.Value;

    /// <summary>Whether the first comes later.</summary>
    public static bool operator >(FrameIndex left, FrameIndex right) => left.Value > right.Value;

    /// <summary>Whether the first comes earlier or at the same place.</summary>
    public static bool operator <=(FrameIndex left, FrameIndex right) => left.Value <= right.Value;

    /// <summary>Whether the first comes later or at the same place.</summary>
    public static bool operator >=(FrameIndex left, FrameIndex right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(FrameIndex other) => Value.CompareTo(other.Value);

    /// <summary>The bare number, invariant culture.</summary>
    public override string ToString() => Value.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A stretch of a take, from its first frame up to, not including, its end.</summary>
/// <param name="From">The first frame.</param>
/// <param name="To">The frame after the last.</param>
public readonly record struct FrameRange(FrameIndex From, FrameIndex To)
{
    /// <summary>How many frames lie inside.</summary>
    public FrameCount Length => To - From;

    /// <summary>From two frame numbers.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is negative, or the end lies before the start.</exception>
    public static FrameRange FromFrames(long from, long to)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(from);
        ArgumentOutOfRangeException.ThrowIfLessThan(to, from);
        return new(new FrameIndex(from), new FrameIndex(to));
    }
}
