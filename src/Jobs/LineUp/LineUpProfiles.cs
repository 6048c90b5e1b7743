using System.Globalization;
using System.Text.Json;
using Athwart.Catalogue;

namespace Athwart.Jobs.LineUp;

/// <summary>The rig profiles a library keeps.</summary>
public static class LineUpProfiles
{
    /// <summary>Every profile, by rig and oldest first.</summary>
    /// <exception cref="JobException">A profile was written by a newer program.</exception>
    public static IReadOnlyList<RigProfileDocument> List(string library, string? rig)
    {
        using var open = Library.Open(library, LibraryAccess.Read);
        return [.. (rig is null ? open.RigProfiles() : open.RigProfiles(rig)).Select(Read)];
    }

    /// <summary>Says that a session was recorded with a rig: its profile of that day or the last before it, else the first after.</summary>
    /// <returns>The profile.</returns>
    /// <exception cref="JobException">The library has no profile of that rig.</exception>
    public static RigProfileDocument Attach(string library, string session, string rig, CancellationToken cancellation)
    {
        using var open = Library.Open(library, LibraryAccess.Write);
        var found = Sessions.SessionLoader.Load(open, session, cancellation).Session;
        var profiles = open.RigProfiles(rig);
        var profile = profiles.LastOrDefault(p => p.Measured <= found.Date) ?? (profiles.Count > 0 ? profiles[0] : null)
            ?? throw new JobException(JobErrorKind.WrongUse, $"The library has no profile of a rig '{rig}'.", open.RigProfiles() is { Count: > 0 } all ? $"It has {string.Join(", ", all.Select(p => $"'{p.Rig}'").Distinct(StringComparer.OrdinalIgnoreCase))}." : "Measure one: 'line-up --library … --rig NAME'.");
        open.Transaction(() => open.AttachRigProfile(found.Id, profile.Id));
        return Read(profile);
    }

    /// <summary>The profile attached to a session; null when none is.</summary>
    internal static RigProfileDocument? Of(Library library, Session session) => library.RigProfileOf(session.Id) is { } profile ? Read(profile) : null;

    internal static RigProfileDocument Read(RigProfile profile) => profile.Version <= RigProfileDocument.CurrentVersion
        ? JsonSerializer.Deserialize(profile.Json, LineUpJson.Compact.RigProfileDocument)!
        : throw new JobException(JobErrorKind.Storage, string.Create(CultureInfo.InvariantCulture, $"The profile of '{profile.Rig}' of {profile.Measured:yyyy-MM-dd} has form {profile.Version}; this program knows up to {RigProfileDocument.CurrentVersion}."), "Use the newer program that wrote it.");
}
