using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.Roles;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Sessions;

/// <summary>Puts the originals of a session together as takes and keeps the catalogue in step.</summary>
/// <remarks>
/// Only headers are read, so this is quick, and it is done afresh each time: the originals are the truth and the
/// catalogue follows. A take-in that was cut short between copying and cataloguing is thereby made good.
/// </remarks>
public static class SessionLoader
{
    /// <summary>Loads a session by name or by the start of its id.</summary>
    /// <exception cref="LibraryException">No such session, or the library cannot be used.</exception>
    public static SessionTakes Load(Library library, string session, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(library);
        return Load(library, library.RequireSession(session), cancellation);
    }

    /// <summary>Loads a session.</summary>
    public static SessionTakes Load(Library library, Session session, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(session);
        var files = library.Files(session.Id)
            .Where(f => f.State == FileState.Verified && RecordingNames.LooksLikeRecording(f.LibraryPath))
            .ToDictionary(f => library.FullPath(f.LibraryPath), StringComparer.Ordinal);
        var assembly = TakeAssembler.Assemble([.. files.Keys.Order(StringComparer.Ordinal)], cancellation);
        var takes = new List<SessionTake>();
        foreach (var description in assembly.Takes)
        {
            var catalogued = library.RegisterTake(Record(session, description, files));
            var roles = Decide(session, catalogued, description);
            takes.Add(new(InStep(library, catalogued, roles), WithOwnMarkers(library, catalogued, description), roles));
        }

        return new(session, [.. takes.OrderBy(t => t.Name, StringComparer.Ordinal)], assembly.Refused);
    }

    /// <summary>The take of that name, or whose name starts so and no other's does.</summary>
    /// <exception cref="JobException">None or several fit.</exception>
    public static SessionTake Require(SessionTakes session, string name)
    {
        ArgumentNullException.ThrowIfNull(session);
        var exact = session.Takes.Where(t => string.Equals(t.Name, name, StringComparison.OrdinalIgnoreCase)).ToList();
        var fitting = exact.Count > 0 ? exact : session.Takes.Where(t => t.Name.StartsWith(name, StringComparison.OrdinalIgnoreCase)).ToList();
        return fitting.Count switch
        {
            1 => fitting[0],
            0 => throw new JobException(JobErrorKind.WrongUse, $"Session '{session.Session.Name}' has no take '{name}'.", "It has " + Names(session.Takes) + "."),
            _ => throw new JobException(JobErrorKind.WrongUse, $"'{name}' fits several takes.", "Write more of one: " + Names(fitting) + "."),
        };
    }

    // What the recordist marked later counts as though the recorder had written it: cuts, names and deliveries follow it alike.
    private static TakeDescription WithOwnMarkers(Library library, CataloguedTake take, TakeDescription description)
    {
        var own = library.Markers(take.Id);
        return own.Count == 0 ? description : description with
        {
            Markers = [.. description.Markers.Concat(own.Select(m => new Marker(m.Range.From.Value, m.Range.Length.Value, m.Label, ""))).OrderBy(m => m.Frame)],
        };
    }

    private static string Names(IReadOnlyList<SessionTake> takes) =>
        takes.Count == 0 ? "no takes" : string.Join(", ", takes.Select(t => $"'{t.Name}'"));

    // Lists tell which takes came in swapped without opening a file. A setting that is only tried on is not kept: the take is loaded again after it.
    private static CataloguedTake InStep(Library library, CataloguedTake take, RoleAssignment roles)
    {
        if (take.IsSwapped == (roles.MidChannel == 1))
            return take;
        var changed = take with { IsSwapped = roles.MidChannel == 1 };
        library.UpdateTake(changed);
        return changed;
    }

    private static RoleAssignment Decide(Session session, CataloguedTake take, TakeDescription description) => RoleReader.Decide(
        description.Tracks,
        description.ChannelCount,
        new(take.Roles.MidChannel, take.Roles.SideChannel, take.Roles.InvertSide),
        new(session.Defaults.MidChannel, session.Defaults.SideChannel, session.Defaults.InvertSide));

    private static CataloguedTake Record(Session session, TakeDescription take, Dictionary<string, OriginalFile> files) => new()
    {
        Session = session.Id,
        Name = take.Name,
        Parts = [.. take.Parts.Select(p => new CataloguedPart(files[p.Path].Id, new FrameIndex(p.FirstFrame), new FrameCount(p.FrameCount), p.FirstChannel, p.ChannelCount))],
        ChannelCount = take.ChannelCount,
        SampleRateHertz = take.SampleRateHertz,
        Format = FormatText(take.Format),
        Length = new FrameCount(take.FrameCount),
        Join = take.Join.ToString(),
        JoinEvidence = take.Evidence,
    };

    /// <summary>'24-bit', '32-bit float', '20-bit in 24': how a word is shown to people.</summary>
    public static string FormatText(SampleFormat format)
    {
        var bits = string.Create(CultureInfo.InvariantCulture, $"{format.ValidBits}-bit");
        if (!format.IsInteger)
            return bits + " float";
        return format.ValidBits == format.ContainerBits ? bits : string.Create(CultureInfo.InvariantCulture, $"{bits} in {format.ContainerBits}");
    }
}
