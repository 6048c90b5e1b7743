namespace Athwart.Jobs.Cut;

/// <summary>Where cuts are to be found.</summary>
public sealed record FindCutsRequest
{
    /// <summary>The library's folder.</summary>
    public required string Library { get; init; }

    /// <summary>The session, by name or by the start of its id.</summary>
    public required string Session { get; init; }

    /// <summary>One take only, by name or by the start of it; null for all.</summary>
    public string? Take { get; init; }

    /// <summary>The rules.</summary>
    public CutRules Rules { get; init; } = CutRules.Usual;

    /// <summary>A folder for a picture of each take with its proposals; null for none.</summary>
    public string? Pictures { get; init; }

    /// <summary>Whether pictures that are there may be replaced.</summary>
    public bool Overwrite { get; init; }

    /// <summary>Takes at once, 1 or more.</summary>
    public int Threads { get; init; } = 1;
}

/// <summary>The table to approve.</summary>
/// <param name="Session">The session's name.</param>
/// <param name="Takes">Each take that was looked at and what became of it.</param>
/// <param name="Proposals">The proposals of the whole session, numbered, also of takes not looked at this time.</param>
public sealed record FindCutsReport(string Session, IReadOnlyList<TakeCuts> Takes, IReadOnlyList<CutProposal> Proposals);

/// <summary>What became of a take.</summary>
/// <param name="Take">Its name.</param>
/// <param name="Seconds">Its length.</param>
/// <param name="Rule">Which rule it followed, from 1; 0 when none fitted.</param>
/// <param name="Found">Sounds that stood out.</param>
/// <param name="Proposed">Cuts proposed.</param>
/// <param name="AlreadyCut">Proposals left out, since the library has a cut there already.</param>
/// <param name="OverFloorDecibels">How far the take as a whole lies over its background, decibels; null when not measured.</param>
/// <param name="Picture">The picture's file; empty when none was made.</param>
public sealed record TakeCuts(string Take, double Seconds, int Rule, int Found, int Proposed, int AlreadyCut, double? OverFloorDecibels, string Picture);

/// <summary>The JSON of a search.</summary>
public sealed record FindCutsDocument
{
    /// <summary>Always 'athwart-cut-proposals'.</summary>
    public string Kind { get; init; } = "athwart-cut-proposals";

    /// <summary>The version of the layout.</summary>
    public int Version { get; init; } = 1;

    /// <summary>The session's name.</summary>
    public required string Session { get; init; }

    /// <summary>Each take that was looked at.</summary>
    public required IReadOnlyList<TakeCuts> Takes { get; init; }

    /// <summary>The proposals.</summary>
    public required IReadOnlyList<CutProposal> Proposals { get; init; }
}
