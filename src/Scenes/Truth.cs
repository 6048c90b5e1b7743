using Athwart.Quantities;

namespace Athwart.Scenes;

/// <summary>What is known about a generated take.</summary>
public sealed record Truth
{
    /// <summary>Every fault, and every clipping that came of the levels; in order of their first frame.</summary>
    public required IReadOnlyList<TruthItem> Items { get; init; }

    /// <summary>Where the sources were and when they were heard.</summary>
    public required IReadOnlyList<SourceTruth> Sources { get; init; }

    /// <summary>Side gain against mid of the rig before any fault, dB: g of side/mid = g·sin a/(A + B·cos a).</summary>
    public required double SideGainDecibels { get; init; }

    /// <summary>The same with what the gain did for the whole take by faults (a role weak or strong, overloads).</summary>
    public required double RecordedSideGainDecibels { get; init; }

    /// <summary>The items of a kind.</summary>
    public IEnumerable<TruthItem> Of(string kind) => Items.Where(item => string.Equals(item.Kind, kind, StringComparison.Ordinal));
}

/// <summary>One thing that is wrong with a generated take, and how big it is.</summary>
public sealed record TruthItem
{
    /// <summary>A word of <see cref="Faults.FaultKinds"/>.</summary>
    public required string Kind { get; init; }

    /// <summary>The role; null when it concerns the pair.</summary>
    public ChannelRole? Role { get; init; }

    /// <summary>From the first frame to the one after the last, in the finished take.</summary>
    public required FrameRange Range { get; init; }

    /// <summary>How big, in <see cref="Unit"/>.</summary>
    public double Size { get; init; }

    /// <summary>The unit of the size.</summary>
    public string Unit { get; init; } = "";

    /// <summary>More numbers, such as frequencies.</summary>
    public IReadOnlyList<Evidence> Details { get; init; } = [];

    /// <summary>The single places, where there are several: runs of clipped samples, clicks, dropouts.</summary>
    public IReadOnlyList<FrameRange> Places { get; init; } = [];

    /// <summary>A detail by name; NaN when it is not there.</summary>
    public double Detail(string name) =>
        Details.FirstOrDefault(detail => string.Equals(detail.Name, name, StringComparison.Ordinal))?.Value ?? double.NaN;
}

/// <summary>Where a source was and when it was heard.</summary>
/// <param name="Name">The source's word.</param>
/// <param name="Arrivals">When each of its strikes reached the capsules by the straight way.</param>
/// <param name="Track">Its place as heard, every 20 ms.</param>
public sealed record SourceTruth(string Name, IReadOnlyList<Arrival> Arrivals, IReadOnlyList<TrackPoint> Track);

/// <summary>A strike reaching the rig by the straight way.</summary>
/// <param name="MidFrame">When the mid's capsule hears it, frames with fractions.</param>
/// <param name="SideFrame">When the side's capsule hears it, before any late-side fault.</param>
/// <param name="AzimuthDegrees">From where, positive to the left.</param>
public readonly record struct Arrival(double MidFrame, double SideFrame, double AzimuthDegrees);

/// <summary>Where a source is heard at a moment.</summary>
/// <param name="Seconds">The moment in the take.</param>
/// <param name="AzimuthDegrees">Positive to the left, against azimuth 0 of the rig.</param>
/// <param name="ElevationDegrees">Positive upwards.</param>
/// <param name="Metres">From the mid's capsule.</param>
public readonly record struct TrackPoint(double Seconds, double AzimuthDegrees, double ElevationDegrees, double Metres);
