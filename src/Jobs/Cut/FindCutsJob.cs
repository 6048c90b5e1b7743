using System.IO.Enumeration;
using Athwart.Catalogue;
using Athwart.Jobs.Deliver.Naming;
using Athwart.Jobs.Progress;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Shape;
using Athwart.Jobs.Storage;
using Athwart.Metering.Portrait;

namespace Athwart.Jobs.Cut;

/// <summary>Finds the cuts of a session by rules and puts them up for approval; nothing is cut yet.</summary>
public static class FindCutsJob
{
    /// <summary>Runs; proposals of the takes that are looked at are replaced.</summary>
    /// <exception cref="JobException">The take is not there, a rule cannot be followed, or a picture is there already.</exception>
    public static FindCutsReport Run(FindCutsRequest request, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        foreach (var treatment in request.Rules.Rules.Select(r => r.Treat.Treatment).Where(t => t.Length > 0))
            TreatmentShelf.Find(library, treatment);
        IReadOnlyList<SessionTake> takes = request.Take is { } name ? [SessionLoader.Require(session, name)] : session.Takes;
        foreach (var take in takes.Where(_ => request.Pictures is not null))
            WholeFile.RequireFree(Picture(request.Pictures!, take), request.Overwrite);
        var looked = Look(request, session.Session, takes, progress, cancellation);
        var (kept, already) = LeaveOutMarked(library, looked);
        var taken = takes.ToDictionary(t => t.Name, t => (IReadOnlySet<string>)library.Effects(t.Catalogued.Id).Select(e => e.Name).ToHashSet(StringComparer.Ordinal), StringComparer.Ordinal);
        var named = CutNames.Number(kept, taken);
        library.Transaction(() =>
        {
            foreach (var take in takes)
                ProposalStore.Save(library, take, named.Where(p => string.Equals(p.Take, take.Name, StringComparison.Ordinal)));
        });
        var all = ProposalStore.Load(library, session.Session);
        return new(session.Session.Name, [.. looked.Select((l, i) => Summary(request, l, already[i], all))], all);
    }

    private static LookedAt[] Look(FindCutsRequest request, Session session, IReadOnlyList<SessionTake> takes, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        var looked = new LookedAt[takes.Count];
        var done = 0;
        Parallel.For(0, takes.Count, new() { MaxDegreeOfParallelism = Math.Max(1, request.Threads), CancellationToken = cancellation }, i =>
        {
            var (take, rule) = (takes[i], request.Rules.Rules.ToList().FindIndex(r => Fits(r, takes[i])));
            if (rule < 0)
            {
                looked[i] = new(take, 0, 0, null, [], null);
                return;
            }

            var level = request.Rules.Rules[rule].Treat.SideLevelDecibels ?? session.Defaults.SideLevel?.Value ?? 0;
            var cutter = new TakeCutter(take, request.Rules.Rules[rule], Math.Pow(10, level / 20));
            var cuts = cutter.Run(request.Pictures is not null, cancellation);
            looked[i] = new(take, rule + 1, cutter.Found, cutter.OverFloor, cuts, cutter.Portrait);
            progress?.Report(new(take.Name, Interlocked.Increment(ref done), takes.Count, "takes"));
        });
        return looked;
    }

    private static bool Fits(CutRule rule, SessionTake take)
    {
        var words = new[] { take.Name, take.Description.Production?.Scene ?? "", take.Description.Production?.Note ?? "" };
        return rule.Take.Length == 0 || words.Any(w => FileSystemName.MatchesSimpleExpression(rule.Take, w));
    }

    private static (List<NamedCut> Kept, int[] Already) LeaveOutMarked(Library library, LookedAt[] looked)
    {
        var (kept, already) = (new List<NamedCut>(), new int[looked.Length]);
        for (var i = 0; i < looked.Length; i++)
        {
            var marked = library.Effects(looked[i].Take.Catalogued.Id);
            var open = looked[i].Cuts.Where(c => !marked.Any(e => IsSame(c.Proposal, e))).ToList();
            already[i] = looked[i].Cuts.Count - open.Count;
            kept.AddRange(open);
        }

        return (kept, already);
    }

    // Four fifths in common, of the longer.
    private static bool IsSame(CutProposal proposal, Effect effect)
    {
        var (from, to) = (effect.Range.From.Value, effect.Range.To.Value);
        var common = Math.Min(to, proposal.ToFrame) - Math.Max(from, proposal.FromFrame);
        return common * 5 >= Math.Max(to - from, proposal.ToFrame - proposal.FromFrame) * 4;
    }

    private static TakeCuts Summary(FindCutsRequest request, LookedAt looked, int already, IReadOnlyList<CutProposal> all)
    {
        var mine = all.Where(p => string.Equals(p.Take, looked.Take.Name, StringComparison.Ordinal)).ToList();
        var picture = "";
        if (request.Pictures is { } folder && looked.Portrait is { } portrait)
        {
            Directory.CreateDirectory(folder);
            picture = Picture(folder, looked.Take);
            WholeFile.Write(picture, TakeCutter.Picture(looked.Take.Name, portrait, mine), request.Overwrite);
        }

        var description = looked.Take.Description;
        var over = looked.OverFloor is { } decibels ? Math.Round(decibels, 1) : (double?)null;
        return new(looked.Take.Name, Math.Round((double)description.FrameCount / description.SampleRateHertz, 3), looked.Rule, looked.Found, mine.Count, already, over, picture);
    }

    private static string Picture(string folder, SessionTake take) => Path.Combine(folder, FileNames.Clean(take.Name) + ".cuts.svg");

    private sealed record LookedAt(SessionTake Take, int Rule, int Found, double? OverFloor, IReadOnlyList<NamedCut> Cuts, TakePortrait? Portrait);
}
