using System.Globalization;

namespace Athwart.Quantities;

/// <summary>A number of sample frames (one sample of every channel); 0 or more; <c>default</c> is none.</summary>
/// <param name="Value">The number of frames.</param>
public readonly record struct FrameCount(long Value) : IComparable<FrameCount>
{
    /// <summary>How long so many frames last.</summary>
    public TimeSpan At(int sampleRateHertz) => TimeSpan.FromSeconds((double)Value / sampleRateHertz);

    /// <summary>Both counts together.</summary>
    public static FrameCount operator +(FrameCount left, FrameCount right) => new(left.Value + right.Value);

    /// <summary>What is left of the first.</summary>
    public static FrameCount operator -(FrameCount left, FrameCount right) => new(left.Value - right.Value);

    /// <summary>Whether the first is smaller.</summary>
    public static bool operator <(FrameCount left, FrameCount right) => left.Value < right.Value;

    /// <summary>Whether the first is larger.</summary>
    public static bool operator >(FrameCount left, FrameCount right) => left.Value > right.Value;

    /// <summary>Whether the first is smaller or equal.</summary>
    public static bool operator <=(FrameCount left, FrameCount right) => left.Value <= right.Value;

    /// <summary>Whether the first is larger or equal.</summary>
    public static bool operator >=(FrameCount left, FrameCount right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(FrameCount other) => Value.CompareTo(other.Value);

    /// <summary>The bare number, invariant culture.</summary>
    public override string ToString() => Value.ToString(CultureInfo.InvariantCulture);
}
