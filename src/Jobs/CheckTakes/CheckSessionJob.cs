using System.Text.Json;
using Athwart.Catalogue;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Progress;
using Athwart.Jobs.Sessions;
using Athwart.Quantities;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Which session of a library to check.</summary>
/// <param name="Library">The library's folder.</param>
/// <param name="Session">The session, by name or by the start of its id.</param>
/// <param name="Take">One take only, by name or the start of it; null for all.</param>
/// <param name="SideLevel">The side level at which the decode is judged; null for the session's, else 0 dB.</param>
/// <param name="Threads">How many takes are read at once.</param>
/// <param name="Disturbances">Whether clicks, hum, wind and the like are listened for too.</param>
public sealed record CheckSessionRequest(string Library, string Session, string? Take, Decibels? SideLevel, int Threads, bool Disturbances = false);

/// <summary>Checks the takes of a session, with the rig's profile where one is attached, and keeps the findings and measures in the library.</summary>
public static class CheckSessionJob
{
    /// <summary>Reads every take once; a take's earlier findings are replaced.</summary>
    public static CheckReport Run(CheckSessionRequest request, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        IReadOnlyList<SessionTake> takes = request.Take is null ? session.Takes : [SessionLoader.Require(session, request.Take)];
        var sideLevel = request.SideLevel ?? session.Session.Defaults.SideLevel ?? Decibels.Unity;
        // Takes go by their names in the library, which may differ from their file names.
        var jobs = takes.Select(t => (t.Description with { Name = t.Name }, t.Roles)).ToList();
        var report = CheckJob.Run(jobs, session.Refused, new(sideLevel, request.Disturbances, LineUpProfiles.Of(library, session.Session)), request.Threads, progress, cancellation);
        Keep(library, takes, report);
        return report;
    }

    private static void Keep(Library library, IReadOnlyList<SessionTake> takes, CheckReport report)
    {
        var byName = takes.ToDictionary(t => t.Name, StringComparer.Ordinal);
        library.Transaction(() =>
        {
            foreach (var check in report.Takes)
            {
                var take = byName[check.Take.Name].Catalogued;
                library.ReplaceFindings(take.Id, check.Findings);
                library.ReplaceMeasures(take.Id, new(CheckDocument.CurrentVersion, JsonSerializer.Serialize(TakeDocument.From(check), CheckJson.Compact.TakeDocument)));
                library.UpdateTake(take with { RoleEvidence = check.Roles.Explanation });
            }
        });
    }
}
