using Athwart.Quantities;

namespace Athwart.Jobs.Cut;

/// <summary>How the cuts of a take are found.</summary>
public enum CutSource
{
    /// <summary>From and to are given.</summary>
    Given = 0,

    /// <summary>Each marker with a length is a cut; a marker without one runs to the next, the last to the end.</summary>
    Markers,

    /// <summary>The whole take is one cut.</summary>
    Whole,
}

/// <summary>Which cuts to mark in a take of the library.</summary>
public sealed record CutRequest
{
    /// <summary>The library's folder.</summary>
    public required string Library { get; init; }

    /// <summary>The session, by name or by the start of its id.</summary>
    public required string Session { get; init; }

    /// <summary>The take, by name or by the start of it.</summary>
    public required string Take { get; init; }

    /// <summary>How the cuts are found.</summary>
    public required CutSource Source { get; init; }

    /// <summary>Where a given cut begins; the start of the take unless said.</summary>
    public TakePlace From { get; init; } = TakePlace.Start;

    /// <summary>Where a given cut ends; the end of the take unless said.</summary>
    public TakePlace To { get; init; } = TakePlace.End;

    /// <summary>The name of a given or whole cut; for markers, what their labels are put behind. Null takes the take's name.</summary>
    public string? Name { get; init; }

    /// <summary>The fade at the start, 0 or more; the faded sound lies inside the cut.</summary>
    public TimeSpan FadeIn { get; init; }

    /// <summary>The fade at the end, 0 or more.</summary>
    public TimeSpan FadeOut { get; init; }

    /// <summary>The shape of both fades, a word of <see cref="FadeWords"/>.</summary>
    public string FadeCurve { get; init; } = FadeWords.Default;

    /// <summary>To what ends that are given are moved.</summary>
    public CutSnap Snap { get; init; }

    /// <summary>The side level of these effects; null leaves it to the session or the delivery.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>Words to find it by.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    /// <summary>A sentence about it, delivered as its description.</summary>
    public string Notes { get; init; } = "";
}

/// <summary>The cuts that were marked.</summary>
/// <param name="Take">The take's name.</param>
/// <param name="SampleRateHertz">The take's rate, for times.</param>
/// <param name="Effects">The cuts, in order of place.</param>
/// <param name="Remarks">Ends that may click, a sentence each.</param>
public sealed record CutReport(string Take, int SampleRateHertz, IReadOnlyList<Catalogue.Effect> Effects, IReadOnlyList<string> Remarks);
