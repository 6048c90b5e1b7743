using Athwart.Catalogue;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Sessions;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Shape;

/// <summary>Which take is tried or measured, and with which treatment.</summary>
public sealed record ShapeRequest
{
    /// <summary>The take: its name in the session, or a recording's path when no library is named.</summary>
    public required string Take { get; init; }

    /// <summary>The library's folder; null for a recording by its path.</summary>
    public string? Library { get; init; }

    /// <summary>The session in the library.</summary>
    public string? Session { get; init; }

    /// <summary>One of the take's effects, whose treatment goes before that of the take; null for the take.</summary>
    public EffectId? Effect { get; init; }

    /// <summary>The treatment, by name or as a file; null for the take's own.</summary>
    public string? Treatment { get; init; }

    /// <summary>The side level; null for the treatment's, else the session's, else 0 dB.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>Where the piece begins.</summary>
    public Cut.TakePlace From { get; init; } = Cut.TakePlace.Start;

    /// <summary>Where it ends.</summary>
    public Cut.TakePlace To { get; init; } = Cut.TakePlace.End;
}

/// <summary>A piece of a take with its treatment settled.</summary>
/// <param name="Take">The take.</param>
/// <param name="Roles">Which channel is which.</param>
/// <param name="Treated">The treatment for it.</param>
/// <param name="SideLevel">The side level of the decode.</param>
/// <param name="From">The first frame.</param>
/// <param name="To">The frame after the last.</param>
public sealed record ShapedTake(TakeDescription Take, RoleAssignment Roles, SettledTreatment Treated, Decibels SideLevel, long From, long To)
{
    /// <summary>Finds the take and the treatment, and settles one for the other.</summary>
    /// <exception cref="JobException">Something named is not there, or the piece does not lie in the take.</exception>
    public static ShapedTake Open(ShapeRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (request.Library is null)
            return FromFile(request, cancellation);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session ?? throw new JobException(JobErrorKind.WrongUse, "A take in a library is found by its session.", "Give --session NAME."), cancellation);
        var take = SessionLoader.Require(session, request.Take);
        var named = request.Treatment is null ? null : TreatmentShelf.Find(library, request.Treatment);
        return Settle(request, take.Description, take.Roles, TreatmentShelf.RigOf(library, session.Session.Id), TreatmentShelf.For(library, take.Catalogued.Id, request.Effect, named), session.Session.Defaults.SideLevel, cancellation);
    }

    private static ShapedTake FromFile(ShapeRequest request, CancellationToken cancellation)
    {
        var assembly = TakeAssembler.Assemble(RecordingPaths.Find([request.Take]), cancellation);
        if (assembly.Refused.Count > 0)
            throw assembly.Refused[0].Error;
        if (assembly.Takes.Count != 1)
            throw new JobException(JobErrorKind.WrongUse, FormattableString.Invariant($"'{request.Take}' holds {assembly.Takes.Count} takes."), "Name one recording, or a take of a library with --library and --session.");
        var take = assembly.Takes[0];
        var roles = RoleReader.Decide(take.Tracks, take.ChannelCount, RoleSettings.None, RoleSettings.None);
        return Settle(request, take, roles, null, request.Treatment is null ? null : TreatmentShelf.Find(null, request.Treatment), null, cancellation);
    }

    private static ShapedTake Settle(ShapeRequest request, TakeDescription take, RoleAssignment roles, RigProfileDocument? rig, Treatment? treatment, Decibels? sessionLevel, CancellationToken cancellation)
    {
        if (treatment is null)
            throw new JobException(JobErrorKind.WrongUse, $"Take '{take.Name}' has no treatment of its own.", "Name one with --treatment; 'athwart shape list' shows them.");
        var from = request.From.Resolve(take.SampleRateHertz, take.FrameCount);
        var to = request.To.Resolve(take.SampleRateHertz, take.FrameCount);
        if (from < 0 || to > take.FrameCount || from >= to)
            throw new JobException(JobErrorKind.WrongUse, FormattableString.Invariant($"The piece from frame {from} to {to} does not lie inside take '{take.Name}', which has {take.FrameCount} frames."), "Give a start before the end, both inside the take.");
        var treated = TreatmentSettler.Settle(treatment, rig, steps =>
        {
            using var recording = take.Open();
            return PairPowers.Measure(recording, roles, steps, from, to, cancellation);
        });
        var level = roles.SideChannel is null && !treated.MakesSide ? Decibels.Silence : request.SideLevel ?? treated.SideLevel ?? sessionLevel ?? Decibels.Unity;
        return new(take, roles, treated, level, from, to);
    }
}
