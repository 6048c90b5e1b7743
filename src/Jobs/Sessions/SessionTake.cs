using Athwart.Catalogue;
using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.Sessions;

/// <summary>A take of a session: as it stands in the catalogue, as its files describe it, and which channel is which.</summary>
/// <param name="Catalogued">The record in the library.</param>
/// <param name="Description">What the original files say.</param>
/// <param name="Roles">Which channel is which, and why.</param>
public sealed record SessionTake(CataloguedTake Catalogued, TakeDescription Description, RoleAssignment Roles)
{
    /// <summary>The name in the library.</summary>
    public string Name => Catalogued.Name;
}

/// <summary>The takes of a session and the originals that hold none.</summary>
/// <param name="Session">The session.</param>
/// <param name="Takes">Its takes, in order of name.</param>
/// <param name="Refused">Recordings by name that cannot be read, with the reason.</param>
public sealed record SessionTakes(Session Session, IReadOnlyList<SessionTake> Takes, IReadOnlyList<RefusedFile> Refused);
