namespace Athwart.Jobs.Cut;

/// <summary>What a loop has to be.</summary>
public sealed record LoopWish
{
    /// <summary>Not before; the start of the take unless said.</summary>
    public TakePlace? From { get; init; }

    /// <summary>Not after; the end of the take unless said.</summary>
    public TakePlace? To { get; init; }

    /// <summary>Exactly from there to there, instead of the best pair of places between.</summary>
    public bool Exactly { get; init; }

    /// <summary>Shortest loop, seconds; a third of what there is unless said.</summary>
    public double? LeastSeconds { get; init; }

    /// <summary>Length of the cross-fade, seconds; 0.75 unless said, and at most an eighth of what there is.</summary>
    public double? CrossfadeSeconds { get; init; }
}
