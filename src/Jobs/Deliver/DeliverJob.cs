using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using Athwart.Catalogue;
using Athwart.Jobs.Deliver.Manifests;
using Athwart.Jobs.Deliver.Metadata;
using Athwart.Jobs.Deliver.Report;
using Athwart.Jobs.Progress;
using Athwart.Jobs.Render;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.Deliver;

/// <summary>Renders the effects of a session into a folder with manifest, recipes and report.</summary>
/// <remarks>
/// Everything is made in a folder beside the target and gets its name when all of it is there, so that a delivery is
/// whole or not there at all. A run that was killed leaves that folder; the next run clears it away and starts again.
/// </remarks>
public sealed class DeliverJob(TimeProvider? clock = null)
{
    /// <summary>The report's file name in the delivery.</summary>
    public const string ReportFileName = "report.html";

    private readonly TimeProvider _clock = clock ?? TimeProvider.System;

    /// <summary>Delivers.</summary>
    /// <exception cref="JobException">The folder holds something already or another process delivers into it, or something named is not there.</exception>
    /// <exception cref="RenderException">An effect does not fit its word; nothing is delivered.</exception>
    public DeliverReport Run(DeliverRequest request, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(request.Folder));
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        var plans = EffectPlanner.Plan(library, session, request);
        using var staging = StagedFolder.Begin(folder);
        var parts = Make(library, session, plans, request, staging.Path, folder, progress, cancellation);
        var manifest = Finish(request, session, parts, staging.Path);
        staging.Complete();
        library.AddDelivery(new() { Session = session.Session.Id, Folder = folder, Date = _clock.GetLocalNow(), Effects = [.. parts.Select(p => p.Catalogued)] });
        return new(folder, Path.Combine(folder, ReportFileName), manifest, parts.Length);
    }

    private static DeliveredEffectParts[] Make(
        Library library,
        SessionTakes session,
        IReadOnlyList<(SessionTake Take, EffectPlan Effect)> plans,
        DeliverRequest request,
        string staging,
        string folder,
        IProgress<JobProgress>? progress,
        CancellationToken cancellation)
    {
        var hashes = library.Files(session.Session.Id).ToDictionary(f => library.FullPath(f.LibraryPath), f => f.Sha256, StringComparer.Ordinal);
        var names = new EffectNames(request);
        var work = plans.Select(p => Delivery(p.Take, p.Effect, request, names, session.Session.Name)).ToList();
        var parts = new DeliveredEffectParts[work.Count];
        var done = 0;
        var options = new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, request.Threads), CancellationToken = cancellation };
        Workers.ForEach(Partitioner.Create(Enumerable.Range(0, work.Count), EnumerablePartitionerOptions.NoBuffering), options, i =>
        {
            parts[i] = work[i].Run(staging, folder, hashes, cancellation);
            progress?.Report(new("Delivering " + plans[i].Effect.Name, Interlocked.Increment(ref done), work.Count, "effects"));
        });
        return parts;
    }

    private static EffectDelivery Delivery(SessionTake take, EffectPlan effect, DeliverRequest request, EffectNames names, string session)
    {
        var metadata = new EffectMetadata(take, effect, request);
        var rate = request.SampleRateHertz ?? take.Description.SampleRateHertz;
        var word = request.Word ?? OutputWords.For(take.Description.Format);
        return new(take, effect, request, metadata, names.Next(take, effect, metadata, session, rate, word));
    }

    private Manifest Finish(DeliverRequest request, SessionTakes session, IReadOnlyList<DeliveredEffectParts> parts, string staging)
    {
        var title = request.Title ?? session.Session.Name;
        var files = parts.SelectMany(p => p.Files).ToList();
        WholeFile.Write(Path.Combine(staging, ReportFileName), Encoding.UTF8.GetBytes(ReportWriter.Write(new()
        {
            Title = title,
            Date = session.Session.Date,
            Recordist = request.Recordist,
            Sessions = [session.Session.Name],
            Effects = [.. parts.Select(p => p.Card)],
            Program = ProgramName.WithVersion,
        })));
        WholeFile.Write(Path.Combine(staging, Manifest.TableFileName), Encoding.UTF8.GetBytes(ManifestFiles.Table(files.OrderBy(f => f.Path, StringComparer.Ordinal))));
        files.Add(ManifestFile.Of(staging, ReportFileName, "report"));
        files.Add(ManifestFile.Of(staging, Manifest.TableFileName, "table"));
        var manifest = new Manifest
        {
            Title = title,
            Created = _clock.GetLocalNow().ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
            Program = ProgramName.WithVersion,
            Files = [.. files.OrderBy(f => f.Path, StringComparer.Ordinal)],
            Digest = Manifest.DigestOf(files),
        };
        ManifestFiles.Write(staging, manifest);
        return manifest;
    }
}
