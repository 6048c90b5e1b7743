namespace Athwart.Quantities;

/// <summary>A programme loudness in LUFS (the same number as LKFS); silence is −∞.</summary>
/// <remarks>Source: ITU-R BS.1770-5 Annex 1; the unit's name from EBU Tech 3341.</remarks>
/// <param name="Value">The loudness in LUFS.</param>
public readonly record struct Loudness(double Value) : IComparable<Loudness>
{
    /// <summary>Nothing above the gate: −∞ LUFS.</summary>
    public static Loudness Silence => new(double.NegativeInfinity);

    /// <summary>The loudness after a gain.</summary>
    public static Loudness operator +(Loudness loudness, Decibels gain) => new(loudness.Value + gain.Value);

    /// <summary>The difference in LU, which are decibels.</summary>
    public static Decibels operator -(Loudness left, Loudness right) => new(left.Value - right.Value);

    /// <summary>Whether the first is softer.</summary>
    public static bool operator <(Loudness left, Loudness right) => left.Value < right.Value;

    /// <summary>Whether the first is louder.</summary>
    public static bool operator >(Loudness left, Loudness right) => left.Value > right.Value;

    /// <summary>Whether the first is softer or equal.</summary>
    public static bool operator <=(Loudness left, Loudness right) => left.Value <= right.Value;

    /// <summary>Whether the first is louder or equal.</summary>
    public static bool operator >=(Loudness left, Loudness right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(Loudness other) => Value.CompareTo(other.Value);

    /// <summary>'−23.0 LUFS'; at most one decimal, as EBU Tech 3341 asks of a display.</summary>
    public override string ToString() => Text.Signed(Value, "LUFS");
}
