using Athwart.Catalogue;
using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Sessions;
using Athwart.Quantities;

namespace Athwart.Jobs.Shape;

/// <summary>For which take steps are proposed, and which are accepted.</summary>
public sealed record ProposeRequest
{
    /// <summary>The library's folder.</summary>
    public required string Library { get; init; }

    /// <summary>The session.</summary>
    public required string Session { get; init; }

    /// <summary>The take, by name or by the start of it.</summary>
    public required string Take { get; init; }

    /// <summary>The numbers of the steps to accept; null for none.</summary>
    public IReadOnlyList<int>? Accept { get; init; }

    /// <summary>Whether every step is accepted.</summary>
    public bool AcceptAll { get; init; }
}

/// <summary>What was proposed and accepted.</summary>
/// <param name="Take">The take's name.</param>
/// <param name="Proposals">The steps.</param>
/// <param name="Accepted">Those that now put the take right, before any treatment; null when none was asked for.</param>
public sealed record ProposeReport(string Take, IReadOnlyList<StepProposal> Proposals, Treatment? Accepted);

/// <summary>Listens to a take and proposes steps that answer what was found; accepted ones are kept with the take.</summary>
public sealed class ProposeJob(TimeProvider? clock = null)
{
    private readonly TimeProvider _clock = clock ?? TimeProvider.System;

    /// <summary>Reads the take once.</summary>
    /// <exception cref="JobException">No such take, or a number that was not proposed.</exception>
    public ProposeReport Run(ProposeRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        var take = SessionLoader.Require(session, request.Take);
        var check = TakeChecker.Check(take.Description, take.Roles, new(session.Session.Defaults.SideLevel ?? Decibels.Unity, LineUpProfiles.Of(library, session.Session)), null, cancellation);
        var proposals = StepProposer.Propose(check.Findings, TreatmentShelf.RigOf(library, session.Session.Id), take.Roles, take.Description.SampleRateHertz);
        return request.Accept is null && !request.AcceptAll ? new(take.Name, proposals, null) : Keep(library, request, take, proposals);
    }

    /// <summary>Accepts steps of an earlier run, without listening again; those accepted before are replaced.</summary>
    /// <param name="request">Which are accepted.</param>
    /// <param name="proposals">What was proposed.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="JobException">No such take, or a number that was not proposed.</exception>
    public ProposeReport Accept(ProposeRequest request, IReadOnlyList<StepProposal> proposals, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        return Keep(library, request, SessionLoader.Require(session, request.Take), proposals);
    }

    private ProposeReport Keep(Library library, ProposeRequest request, SessionTake take, IReadOnlyList<StepProposal> proposals)
    {
        var accepted = new Treatment { Name = $"correction of {take.Name}", Steps = [.. Chosen(request, proposals).Select(p => p.Step)] };
        var json = accepted.Steps.Count == 0 ? null : TreatmentFiles.ToJson(accepted);
        library.ChangeTreatments(FormattableString.Invariant($"accept {accepted.Steps.Count} proposed for take '{take.Name}'"), _clock.GetLocalNow(), [new(TreatmentScope.Correction, take.Catalogued.Id.Value, json)]);
        return new(take.Name, proposals, accepted);
    }

    private static IEnumerable<StepProposal> Chosen(ProposeRequest request, IReadOnlyList<StepProposal> proposals)
    {
        if (request.AcceptAll)
            return proposals;
        foreach (var number in (request.Accept ?? []).Where(n => proposals.All(p => p.Number != n)))
            throw new JobException(JobErrorKind.WrongUse, FormattableString.Invariant($"No step {number} is proposed; there are {proposals.Count}."), "Run 'athwart shape propose' without --accept to see them.");
        return proposals.Where(p => request.Accept?.Contains(p.Number) == true);
    }
}
