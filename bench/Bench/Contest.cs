namespace Athwart.Bench;

/// <summary>One side of a contest.</summary>
/// <param name="Name">Who does the work.</param>
/// <param name="CommandLine">The command line, run by /bin/sh.</param>
/// <param name="Prepare">Run before each round and not measured: removes what the last round wrote; empty for nothing.</param>
internal sealed record Entrant(string Name, string CommandLine, string Prepare = "")
{
    /// <summary>Exit codes that mean the work was done; a check may end with 1 when it found a fault.</summary>
    public IReadOnlyList<int> Good { get; init; } = [0];

    /// <summary>How many times faster than this one the first entrant is asked to be; null for no promise.</summary>
    public double? Target { get; init; }
}

/// <summary>What is measured.</summary>
internal enum ContestMeasure
{
    /// <summary>Wall time of the whole process.</summary>
    Seconds = 0,

    /// <summary>Largest resident set.</summary>
    Mebibytes,
}

/// <summary>The same work done by several programs, in turn, in every round.</summary>
internal sealed record Contest(string Name, IReadOnlyList<Entrant> Entrants)
{
    public ContestMeasure Measure { get; init; }

    /// <summary>A bound on the first entrant's own figure, in seconds or mebibytes; null for none.</summary>
    public double? Bound { get; init; }

    /// <summary>Rounds for each one asked for: short work is repeated more often.</summary>
    public int RoundFactor { get; init; } = 1;

    /// <summary>False where athwart takes no part: then the figures of the others stand alone, without ratios.</summary>
    public bool HasOurs { get; init; } = true;
}

/// <summary>The figures of one entrant.</summary>
internal sealed record EntrantResult(Entrant Entrant, IReadOnlyList<double> Figures, string? Fault)
{
    public double Median => Statistics.Median(Figures);

    /// <summary>User and system seconds of each round: says more than wall time where other work goes on.</summary>
    public IReadOnlyList<double> Processor { get; init; } = [];
}

/// <summary>The figures of a contest.</summary>
internal sealed record ContestResult(Contest Contest, IReadOnlyList<EntrantResult> Results)
{
    public bool Failed => Results.Any(result => result.Fault is not null);

    /// <summary>The median over the rounds of how many times longer (or larger) than the first entrant in the same round.</summary>
    public double Ratio(EntrantResult other) => Ratio(Results[0].Figures, other.Figures);

    /// <summary>The same of the processor time; infinite where ours is too short to be counted.</summary>
    public double ProcessorRatio(EntrantResult other) => Ratio(Results[0].Processor, other.Processor);

    private static double Ratio(IReadOnlyList<double> ours, IReadOnlyList<double> theirs) => Statistics.Median([.. ours.Zip(theirs, (own, other) => other / own)]);
}

internal static class Statistics
{
    /// <summary>NaN for no figures.</summary>
    public static double Median(IReadOnlyList<double> figures)
    {
        if (figures.Count == 0)
            return double.NaN;
        var sorted = figures.Order().ToList();
        return (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;
    }
}
