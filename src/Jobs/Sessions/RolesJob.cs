using Athwart.Catalogue;
using Athwart.Jobs.Roles;

namespace Athwart.Jobs.Sessions;

/// <summary>What to set about the channels of a session or of one take.</summary>
/// <param name="Library">The library's folder.</param>
/// <param name="Session">The session, by name or by the start of its id.</param>
/// <param name="Take">One take, or null for what the session says of all its takes.</param>
/// <param name="Roles">What to set; null members stay as they are.</param>
/// <param name="Clear">Whether earlier settings are forgotten first.</param>
public sealed record RolesRequest(string Library, string Session, string? Take, RoleSettings Roles, bool Clear);

/// <summary>Sets swapped roles and side polarity, per session or per take.</summary>
public static class RolesJob
{
    /// <summary>Keeps the settings and tells what every take of the session then is; findings of takes whose channels changed are forgotten until the next check.</summary>
    /// <exception cref="JobException">A channel does not exist, or the take does not.</exception>
    public static SessionTakes Run(RolesRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = library.RequireSession(request.Session);
        var before = SessionLoader.Load(library, session, cancellation);
        if (request.Take is null)
            SetSession(library, session, request, cancellation);
        else
            SetTake(library, SessionLoader.Require(before, request.Take), request);
        var after = SessionLoader.Load(library, library.RequireSession(session.Id.Value), cancellation);
        ForgetFindings(library, before, after);
        return after;
    }

    // What a check found of the mid or the side is not true of the other channel.
    private static void ForgetFindings(Library library, SessionTakes before, SessionTakes after)
    {
        var channels = before.Takes.ToDictionary(t => t.Catalogued.Id, Channels);
        foreach (var take in after.Takes.Where(t => channels[t.Catalogued.Id] != Channels(t)))
            library.ReplaceFindings(take.Catalogued.Id, []);
    }

    private static (int Mid, int? Side, bool Inverted) Channels(SessionTake take) => (take.Roles.MidChannel, take.Roles.SideChannel, take.Roles.SideInverted);

    private static void SetSession(Library library, Session session, RolesRequest request, CancellationToken cancellation)
    {
        var before = request.Clear ? new SessionDefaults { SideLevel = session.Defaults.SideLevel } : session.Defaults;
        var after = session with
        {
            Defaults = before with
            {
                MidChannel = request.Roles.MidChannel ?? before.MidChannel,
                SideChannel = request.Roles.SideChannel ?? before.SideChannel,
                InvertSide = request.Roles.SideInverted ?? before.InvertSide,
            },
        };
        // Refused before it is kept: a channel that a take does not have would keep the whole session from being read.
        SessionLoader.Load(library, after, cancellation);
        library.UpdateSession(after);
    }

    private static void SetTake(Library library, SessionTake take, RolesRequest request)
    {
        var before = request.Clear ? new TakeRoles() : take.Catalogued.Roles;
        var after = new TakeRoles
        {
            MidChannel = request.Roles.MidChannel ?? before.MidChannel,
            SideChannel = request.Roles.SideChannel ?? before.SideChannel,
            InvertSide = request.Roles.SideInverted ?? before.InvertSide,
        };
        // Refused before it is kept, so that a take can never be set to channels it does not have.
        RoleReader.Decide(take.Description.Tracks, take.Description.ChannelCount, new(after.MidChannel, after.SideChannel, after.InvertSide), RoleSettings.None);
        library.UpdateTake(take.Catalogued with { Roles = after });
    }
}
