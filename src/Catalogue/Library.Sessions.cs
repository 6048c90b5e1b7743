using Athwart.Quantities;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Sessions.</content>
public sealed partial class Library
{
    private const string SessionColumns = "id, name, date, folder, notes, mid_channel, side_channel, invert_side, side_level";
    private const int ShortestIdPrefix = 4;

    /// <summary>All sessions, newest first, then by name.</summary>
    public IReadOnlyList<Session> Sessions() => _database.Query($"SELECT {SessionColumns} FROM sessions ORDER BY date DESC, name", ReadSession);

    /// <summary>The session with this id, or null.</summary>
    public Session? GetSession(SessionId id) => _database.Single($"SELECT {SessionColumns} FROM sessions WHERE id = $id", ReadSession, ("$id", id.Value));

    /// <summary>The session with this name and day, or null.</summary>
    public Session? GetSession(string name, DateOnly date) => _database.Single(
        $"SELECT {SessionColumns} FROM sessions WHERE name = $name AND date = $date", ReadSession, ("$name", name), ("$date", Rows.Text(date)));

    /// <summary>Finds a session by its name, else by its name in other case, else by its folder's name, else by the first 4 or more digits of its id.</summary>
    /// <returns>Null when there is none.</returns>
    /// <exception cref="LibraryException">Conflict: the text means several sessions.</exception>
    public Session? FindSession(string text)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(text);
        var all = Sessions();
        return OneOf(text, all.Where(s => s.Name.Equals(text, StringComparison.Ordinal)))
            ?? OneOf(text, all.Where(s => s.Name.Equals(text, StringComparison.OrdinalIgnoreCase)))
            ?? OneOf(text, all.Where(s => s.Folder.Equals($"{OriginalsName}/{text}", StringComparison.OrdinalIgnoreCase)))
            ?? OneOf(text, all.Where(s => text.Length >= ShortestIdPrefix && s.Id.Value.StartsWith(text, StringComparison.OrdinalIgnoreCase)));
    }

    /// <summary>As <see cref="FindSession"/>, but there must be one.</summary>
    /// <exception cref="LibraryException">NotFound, naming what is there; Conflict.</exception>
    public Session RequireSession(string text) => FindSession(text)
        ?? throw NotFound($"There is no session '{text}'.", $"Sessions here: {ListOf(Sessions().Select(s => s.Name))}.");

    /// <summary>The session of this name and day, added with the next free folder when there is none.</summary>
    public Session GetOrAddSession(string name, DateOnly date) => _database.Write(() => GetSession(name, date) ?? AddSession(new Session { Name = name, Date = date }));

    /// <summary>Adds a session and chooses its folder; nothing is made on the disk.</summary>
    /// <returns>The session with its folder.</returns>
    /// <exception cref="LibraryException">Conflict: there is one of this name on this day.</exception>
    public Session AddSession(Session session)
    {
        ArgumentNullException.ThrowIfNull(session);
        RequireName(session.Name);
        return _database.Write(() =>
        {
            if (GetSession(session.Name, session.Date) is not null)
                throw Conflict($"There is a session '{session.Name}' on {Rows.Text(session.Date)} already.", "Choose another name or day.");
            var added = session with { Folder = FolderNames.ForSession(session, folder => FolderIsTaken(folder)) };
            _database.Execute(
                $"INSERT INTO sessions ({SessionColumns}) VALUES ($id, $name, $date, $folder, $notes, $mid, $side, $invert, $level)",
                [.. SessionValues(added), ("$name", added.Name), ("$date", Rows.Text(added.Date)), ("$folder", added.Folder)]);
            return added;
        });
    }

    /// <summary>Changes notes and defaults. Name, day and folder stay as they are: the originals lie there.</summary>
    /// <exception cref="LibraryException">NotFound.</exception>
    public void UpdateSession(Session session)
    {
        ArgumentNullException.ThrowIfNull(session);
        const string Sql = "UPDATE sessions SET notes = $notes, mid_channel = $mid, side_channel = $side, invert_side = $invert, side_level = $level WHERE id = $id";
        if (_database.Write(() => _database.Execute(Sql, SessionValues(session))) == 0)
            throw NotFound($"There is no session '{session.Name}'.", "It may have been removed meanwhile.");
    }

    private static (string, object?)[] SessionValues(Session session) =>
    [
        ("$id", session.Id.Value),
        ("$notes", session.Notes),
        ("$mid", session.Defaults.MidChannel),
        ("$side", session.Defaults.SideChannel),
        ("$invert", session.Defaults.InvertSide),
        ("$level", session.Defaults.SideLevel?.Value),
    ];

    private static Session ReadSession(SqliteDataReader row) => new()
    {
        Id = new(row.GetString(0)),
        Name = row.GetString(1),
        Date = row.Date(2),
        Folder = row.GetString(3),
        Notes = row.GetString(4),
        Defaults = new()
        {
            MidChannel = row.OptionalInt(5),
            SideChannel = row.OptionalInt(6),
            InvertSide = row.OptionalBool(7),
            SideLevel = row.OptionalDouble(8) is { } level ? new Decibels(level) : null,
        },
    };

    private static string ListOf(IEnumerable<string> names) => string.Join(", ", names.DefaultIfEmpty("none"));

    private bool FolderIsTaken(string folder) => _database.Query("SELECT 1 FROM sessions WHERE folder = $folder", static r => r.GetInt64(0), ("$folder", folder)).Count > 0;

    private Session? OneOf(string text, IEnumerable<Session> matches)
    {
        var found = matches.ToList();
        if (found.Count > 1)
            throw Conflict($"'{text}' means {found.Count} sessions: {ListOf(found.Select(s => $"{s.Name} of {Rows.Text(s.Date)} (id {s.Id})"))}.", "Name one by its id.");
        return found.Count == 0 ? null : found[0];
    }
}
