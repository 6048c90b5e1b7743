using Athwart.Quantities;

namespace Athwart.Jobs.Cut;

/// <summary>Which cut of the library is changed.</summary>
/// <param name="Library">The library's folder.</param>
/// <param name="Session">The session, by name or by the start of its id.</param>
/// <param name="Take">The take, by name or by the start of it.</param>
/// <param name="Name">The cut's name.</param>
public sealed record CutPlace(string Library, string Session, string Take, string Name);

/// <summary>What is changed; null leaves it as it is.</summary>
public sealed record CutChanges
{
    /// <summary>Another start.</summary>
    public TakePlace? From { get; init; }

    /// <summary>Another end.</summary>
    public TakePlace? To { get; init; }

    /// <summary>To what the ends that are given are moved.</summary>
    public CutSnap Snap { get; init; }

    /// <summary>Another fade at the start.</summary>
    public TimeSpan? FadeIn { get; init; }

    /// <summary>Another fade at the end.</summary>
    public TimeSpan? FadeOut { get; init; }

    /// <summary>Another shape of both fades, a word of <see cref="FadeWords"/>.</summary>
    public string? FadeCurve { get; init; }

    /// <summary>Another name.</summary>
    public string? Name { get; init; }

    /// <summary>Another side level.</summary>
    public Decibels? SideLevel { get; init; }
}

/// <summary>What became of cuts.</summary>
/// <param name="Take">The take's name.</param>
/// <param name="Cuts">The cuts as they are now.</param>
/// <param name="Remarks">What to know about them.</param>
public sealed record ChangedCuts(string Take, IReadOnlyList<ListedCut> Cuts, IReadOnlyList<string> Remarks);
