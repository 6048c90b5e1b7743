using Athwart.Catalogue;
using Athwart.Jobs.Sessions;

namespace Athwart.Jobs.Cut;

/// <summary>The cuts of a session and its open proposals, as JSON has them.</summary>
public sealed record CutListDocument
{
    /// <summary>Always 'athwart-cuts'.</summary>
    public string Kind { get; init; } = "athwart-cuts";

    /// <summary>The version of the layout.</summary>
    public int Version { get; init; } = 1;

    /// <summary>The session's name.</summary>
    public required string Session { get; init; }

    /// <summary>The cuts, by take and place.</summary>
    public required IReadOnlyList<ListedCut> Cuts { get; init; }

    /// <summary>The proposals that wait to be approved.</summary>
    public required IReadOnlyList<CutProposal> Proposals { get; init; }
}

/// <summary>A cut of the library.</summary>
/// <param name="Take">The take.</param>
/// <param name="Name">Its name.</param>
/// <param name="FromFrame">The first frame.</param>
/// <param name="ToFrame">The frame after the last.</param>
/// <param name="SampleRateHertz">The take's rate.</param>
/// <param name="FadeInFrames">Fade at the start.</param>
/// <param name="FadeInCurve">Its shape.</param>
/// <param name="FadeOutFrames">Fade at the end.</param>
/// <param name="FadeOutCurve">Its shape.</param>
/// <param name="CrossfadeFrames">Cross-fade of a loop; 0 for none.</param>
/// <param name="SideLevelDecibels">Side level; null leaves it open.</param>
/// <param name="Tags">Words to find it by.</param>
public sealed record ListedCut(string Take, string Name, long FromFrame, long ToFrame, int SampleRateHertz, long FadeInFrames, string FadeInCurve, long FadeOutFrames, string FadeOutCurve, long CrossfadeFrames, double? SideLevelDecibels, IReadOnlyList<string> Tags)
{
    /// <summary>From the catalogue.</summary>
    public static ListedCut From(string take, int rate, Effect effect)
    {
        ArgumentNullException.ThrowIfNull(effect);
        return new(take, effect.Name, effect.Range.From.Value, effect.Range.To.Value, rate, effect.FadeIn.Value, Word(effect.FadeInCurve), effect.FadeOut.Value, Word(effect.FadeOutCurve), effect.Loop?.Crossfade.Value ?? 0, JsonLevel(effect), effect.Tags);
    }

    private static double? JsonLevel(Effect effect) => effect.SideLevel is { } level && double.IsFinite(level.Value) ? level.Value : null;

    private static string Word(string curve) => curve.Length == 0 ? FadeWords.Default : curve;
}

/// <summary>Lists the cuts of a session.</summary>
public static class ListCutsJob
{
    /// <summary>Lists.</summary>
    /// <param name="libraryFolder">The library.</param>
    /// <param name="session">The session.</param>
    /// <param name="take">One take only; null for all.</param>
    /// <param name="cancellation">Stops between takes.</param>
    public static CutListDocument Run(string libraryFolder, string session, string? take, CancellationToken cancellation)
    {
        using var library = Library.Open(libraryFolder, LibraryAccess.Write);
        var loaded = SessionLoader.Load(library, session, cancellation);
        var takes = take is null ? loaded.Takes : [SessionLoader.Require(loaded, take)];
        var names = takes.Select(t => t.Name).ToHashSet(StringComparer.Ordinal);
        return new()
        {
            Session = loaded.Session.Name,
            Cuts = [.. takes.SelectMany(t => library.Effects(t.Catalogued.Id).OrderBy(e => e.Range.From).Select(e => ListedCut.From(t.Name, t.Description.SampleRateHertz, e)))],
            Proposals = [.. ProposalStore.Load(library, loaded.Session).Where(p => names.Contains(p.Take))],
        };
    }
}
