using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Shape;
using Athwart.Quantities;

namespace Athwart.Jobs.Cut;

/// <summary>Which proposals become cuts.</summary>
public sealed record ApproveCutsRequest
{
    /// <summary>The library's folder.</summary>
    public required string Library { get; init; }

    /// <summary>The session, by name or by the start of its id.</summary>
    public required string Session { get; init; }

    /// <summary>Numbers of the table; empty for all.</summary>
    public IReadOnlyList<int> Numbers { get; init; } = [];

    /// <summary>Refused instead: they leave the table and nothing is cut.</summary>
    public bool Refuse { get; init; }

    /// <summary>Another name for the one that is approved.</summary>
    public string? Name { get; init; }
}

/// <summary>What was approved.</summary>
/// <param name="Approved">The proposals that became cuts, or were refused.</param>
/// <param name="Left">How many are still open.</param>
public sealed record ApproveCutsReport(IReadOnlyList<CutProposal> Approved, int Left);

/// <summary>Turns proposals into cuts of the library.</summary>
public static class ApproveCutsJob
{
    /// <summary>Runs; all of it or nothing.</summary>
    /// <exception cref="JobException">There is no such number, the take became shorter, a name is given for several, or the take has a cut of the name.</exception>
    public static ApproveCutsReport Run(ApproveCutsRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        var open = ProposalStore.Load(library, session.Session);
        var chosen = Chosen(request, open);
        library.Transaction(() =>
        {
            foreach (var take in session.Takes)
            {
                var mine = chosen.Where(p => Of(p, take)).ToList();
                if (mine.Count == 0)
                    continue;
                if (!request.Refuse)
                    mine.ForEach(p => Save(library, take, request.Name is { } name ? p with { Name = name } : p));
                ProposalStore.Save(library, take, open.Where(p => Of(p, take) && !chosen.Contains(p)));
            }
        });
        return new([.. chosen.Select(p => request.Name is { } name ? p with { Name = name } : p)], open.Count - chosen.Count);
    }

    private static bool Of(CutProposal proposal, SessionTake take) => string.Equals(proposal.Take, take.Name, StringComparison.Ordinal);

    private static List<CutProposal> Chosen(ApproveCutsRequest request, IReadOnlyList<CutProposal> open)
    {
        if (open.Count == 0)
            throw new JobException(JobErrorKind.WrongUse, $"Session '{request.Session}' has no proposals.", "Make some with: athwart cut find.");
        foreach (var number in request.Numbers.Where(n => n < 1 || n > open.Count))
            throw new JobException(JobErrorKind.WrongUse, string.Create(CultureInfo.InvariantCulture, $"There is no proposal {number}; they go from 1 to {open.Count}."), "See them with: athwart cut list.");
        var chosen = request.Numbers.Count == 0 ? [.. open] : request.Numbers.Distinct().Select(n => open[n - 1]).ToList();
        return request.Name is null || chosen.Count == 1
            ? chosen
            : throw new JobException(JobErrorKind.WrongUse, "One name was given for several proposals.", "Name them one at a time.");
    }

    private static void Save(Library library, SessionTake take, CutProposal proposal)
    {
        if (proposal.ToFrame > take.Description.FrameCount)
            throw new JobException(JobErrorKind.WrongUse, $"'{proposal.Name}' ends after take '{take.Name}' does.", "Find its cuts again with: athwart cut find.");
        if (library.Effects(take.Catalogued.Id).Any(e => string.Equals(e.Name, proposal.Name, StringComparison.Ordinal)))
            throw new JobException(JobErrorKind.Refused, $"Take '{take.Name}' has a cut '{proposal.Name}' already.", "Approve this one under another name with --number and --name, or remove the old one first with: athwart cut remove.");
        var effect = new Effect
        {
            Take = take.Catalogued.Id,
            Name = proposal.Name,
            Range = FrameRange.FromFrames(proposal.FromFrame, proposal.ToFrame),
            FadeIn = new(proposal.FadeInFrames),
            FadeOut = new(proposal.FadeOutFrames),
            FadeInCurve = FadeWords.Stored(proposal.FadeCurve),
            FadeOutCurve = FadeWords.Stored(proposal.FadeCurve),
            Loop = proposal.CrossfadeFrames > 0 ? new(new(proposal.CrossfadeFrames), proposal.Correlation) : null,
            SideLevel = proposal.SideLevelDecibels is { } level ? new Decibels(level) : null,
            Tags = proposal.Tags,
        };
        library.SaveEffect(effect);
        if (proposal.Treatment.Length > 0)
            library.ChangeTreatments($"'{proposal.Treatment}' for '{effect.Name}'", TimeProvider.System.GetUtcNow(), [new(TreatmentScope.Effect, effect.Id.Value, TreatmentFiles.ToJson(TreatmentShelf.Find(library, proposal.Treatment)))]);
    }
}
