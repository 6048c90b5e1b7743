namespace Athwart.Signals.Decoding;

/// <summary>The lowest and highest value reached, in steps of the word; exact also where the word cannot hold it.</summary>
/// <param name="Lowest">The lowest value; above <paramref name="Highest"/> when there was none.</param>
/// <param name="Highest">The highest value.</param>
public readonly record struct ExactPeak(long Lowest, long Highest)
{
    /// <summary>Nothing met yet.</summary>
    public static ExactPeak None => new(long.MaxValue, long.MinValue);

    /// <summary>The largest magnitude; 0 when nothing was met.</summary>
    public long Magnitude => Highest < Lowest ? 0 : Math.Max(Highest, -Lowest);

    /// <summary>Whether every value fits a signed word of so many bits.</summary>
    public bool Fits(int bits) => Highest < 1L << (bits - 1) && Lowest >= -(1L << (bits - 1));

    /// <summary>Both together.</summary>
    public ExactPeak And(ExactPeak other) => new(Math.Min(Lowest, other.Lowest), Math.Max(Highest, other.Highest));
}
