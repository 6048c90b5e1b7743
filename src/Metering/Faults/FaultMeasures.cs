namespace Athwart.Metering.Faults;

/// <summary>What the fault meter heard in one take.</summary>
internal sealed record FaultMeasures
{
    public required SampleRuns MidClicks { get; init; }

    public required SampleRuns SideClicks { get; init; }

    public required IReadOnlyList<(long Frame, double Size, double Ratio)> MidBreaks { get; init; }

    public required IReadOnlyList<(long Frame, double Size, double Ratio)> SideBreaks { get; init; }

    public required SampleRuns MidDropouts { get; init; }

    public required SampleRuns SideDropouts { get; init; }

    /// <summary>Blocks written twice.</summary>
    public required IReadOnlyList<(long From, long To, int Lag)> Repeats { get; init; }

    /// <summary>Steady lines below 640 Hz.</summary>
    public required LineSpectrum Lines { get; init; }

    /// <summary>The low end, every <see cref="LowFrames.Hop"/> samples at the lower rate.</summary>
    public required IReadOnlyList<LowFrame> Low { get; init; }

    /// <summary>Levels in bands, every 20 ms.</summary>
    public required GainCourse Gains { get; init; }

    /// <summary>The lower rate in samples a second.</summary>
    public required double LowRate { get; init; }

    /// <summary>Frames of the take for one sample at the lower rate.</summary>
    public required int LowFactor { get; init; }

    /// <summary>What mid and side have in common; null without spectra.</summary>
    public required PairCross? Cross { get; init; }
}
