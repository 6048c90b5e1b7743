using Athwart.Quantities;

namespace Athwart.Catalogue;

/// <summary>A take as a list shows it: read in one query for a whole session, however many takes there are.</summary>
public sealed record TakeSummary
{
    /// <summary>The id.</summary>
    public required TakeId Id { get; init; }

    /// <summary>The session it belongs to.</summary>
    public required SessionId Session { get; init; }

    /// <summary>Its name, unique within the session.</summary>
    public required string Name { get; init; }

    /// <summary>Channels of the whole take.</summary>
    public required int ChannelCount { get; init; }

    /// <summary>Frames per second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>The sample format in words, such as '24-bit'.</summary>
    public required string Format { get; init; }

    /// <summary>Length of the take.</summary>
    public required FrameCount Length { get; init; }

    /// <summary>How the files were joined, such as 'Single' or 'MonoPair'.</summary>
    public required string Join { get; init; }

    /// <summary>Whether it was ever checked.</summary>
    public required bool IsChecked { get; init; }

    /// <summary>How many cuts are marked in it.</summary>
    public required int Effects { get; init; }

    /// <summary>Whether the mid came in on channel 2: set so by hand, or because the file says so.</summary>
    public bool IsSwapped { get; init; }

    /// <summary>The kinds found in it, worst first, each once.</summary>
    public required IReadOnlyList<FoundKind> Found { get; init; }

    /// <summary>The worst that was found; null when nothing was.</summary>
    public FindingSeverity? Worst => Found.Count == 0 ? null : Found[0].Severity;

    /// <summary>Length in seconds; 0 when the rate is not known.</summary>
    public double Seconds => SampleRateHertz > 0 ? (double)Length.Value / SampleRateHertz : 0;
}

/// <summary>A kind of finding in a take.</summary>
/// <param name="Kind">The kind, as findings name it.</param>
/// <param name="Severity">The worst of that kind in the take.</param>
/// <param name="Count">How many of that kind.</param>
public sealed record FoundKind(string Kind, FindingSeverity Severity, int Count);
