using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Where something that lasts several samples happened: one stretch, which may hold several runs close together.</summary>
/// <param name="Range">From the first frame of the first run to the end of the last.</param>
/// <param name="Count">Runs inside.</param>
/// <param name="LongestFrames">Length of the longest run in frames.</param>
/// <param name="PeakAmplitude">Largest magnitude inside the runs, full scale 1; 0 for silence.</param>
public sealed record RunStretch(FrameRange Range, int Count, long LongestFrames, double PeakAmplitude);

/// <summary>All runs of one kind in one channel of a take.</summary>
public sealed record SampleRuns
{
    /// <summary>No run at all.</summary>
    public static SampleRuns None { get; } = new();

    /// <summary>How many runs there were.</summary>
    public long Count { get; init; }

    /// <summary>Frames in all runs together.</summary>
    public long Frames { get; init; }

    /// <summary>Length of the longest run in frames; 0 without runs.</summary>
    public long LongestFrames { get; init; }

    /// <summary>Largest magnitude inside the runs, full scale 1; 0 without runs or for silence.</summary>
    public double PeakAmplitude { get; init; }

    /// <summary>Where they are, in order; neighbours are joined so that there are at most 128 stretches.</summary>
    public IReadOnlyList<RunStretch> Stretches { get; init; } = [];
}
