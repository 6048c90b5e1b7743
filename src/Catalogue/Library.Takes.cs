using System.Globalization;
using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Takes.</content>
public sealed partial class Library
{
    private const string TakeColumns = "id, session_id, name, channel_count, sample_rate_hertz, format, frames, join_kind, join_evidence, mid_channel, side_channel, invert_side, role_evidence, is_swapped";

    /// <summary>The takes of a session, by name.</summary>
    public IReadOnlyList<CataloguedTake> Takes(SessionId session) => WithParts(_database.Query(
        $"SELECT {TakeColumns} FROM takes WHERE session_id = $session ORDER BY name", ReadTake, ("$session", session.Value)));

    /// <summary>The take with this id, or null.</summary>
    public CataloguedTake? GetTake(TakeId id) => WithParts(_database.Query($"SELECT {TakeColumns} FROM takes WHERE id = $id", ReadTake, ("$id", id.Value))).FirstOrDefault();

    /// <summary>The take of this name in a session: exactly so, else in other case, else by 4 or more digits of its id. Null when there is none.</summary>
    /// <exception cref="LibraryException">Conflict: the text means several takes.</exception>
    public CataloguedTake? FindTake(SessionId session, string text)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(text);
        var all = Takes(session);
        return all.FirstOrDefault(t => t.Name.Equals(text, StringComparison.Ordinal))
            ?? OneTake(text, all.Where(t => t.Name.Equals(text, StringComparison.OrdinalIgnoreCase)))
            ?? OneTake(text, all.Where(t => text.Length >= ShortestIdPrefix && t.Id.Value.StartsWith(text, StringComparison.OrdinalIgnoreCase)));
    }

    /// <summary>As <see cref="FindTake"/>, but there must be one.</summary>
    /// <exception cref="LibraryException">NotFound, naming what is there; Conflict.</exception>
    public CataloguedTake RequireTake(SessionId session, string text) => FindTake(session, text)
        ?? throw NotFound($"There is no take '{text}' in this session.", $"Takes here: {ListOf(Takes(session).Select(t => t.Name))}.");

    /// <summary>Adds a take.</summary>
    /// <exception cref="LibraryException">Conflict: the session has a take of this name, or a file is not in the library.</exception>
    public void AddTake(CataloguedTake take)
    {
        ArgumentNullException.ThrowIfNull(take);
        _database.Write(() =>
        {
            if (NameIsTaken(take.Session, take.Name))
                throw Conflict($"The session has a take '{take.Name}' already.", "Choose another name.");
            _database.Execute(
                $"INSERT INTO takes ({TakeColumns}) VALUES ($id, $session, $name, $channels, $rate, $format, $frames, $join, $evidence, $mid, $side, $invert, $roles, $swapped)",
                TakeValues(take));
            AddParts(take);
            return true;
        });
    }

    /// <summary>
    /// Adds a take unless the session has one made of the same pieces of the same files; taking a card in again then changes
    /// nothing. A name that is taken gets ' (2)' and so on.
    /// </summary>
    /// <returns>The take as it is in the library now.</returns>
    public CataloguedTake RegisterTake(CataloguedTake take)
    {
        ArgumentNullException.ThrowIfNull(take);
        return _database.Write(() =>
        {
            var same = Takes(take.Session).FirstOrDefault(t => t.Parts.SequenceEqual(take.Parts));
            if (same is not null)
                return same;
            var name = take.Name;
            for (var number = 2; NameIsTaken(take.Session, name); number++)
                name = string.Create(CultureInfo.InvariantCulture, $"{take.Name} ({number})");
            var added = take with { Name = name };
            AddTake(added);
            return added;
        });
    }

    /// <summary>Replaces what is known of the take with this id, its parts too; findings, measures and cuts stay.</summary>
    /// <exception cref="LibraryException">NotFound; Conflict: another take has this name.</exception>
    public void UpdateTake(CataloguedTake take)
    {
        ArgumentNullException.ThrowIfNull(take);
        const string Sql = """
            UPDATE takes SET session_id = $session, name = $name, channel_count = $channels, sample_rate_hertz = $rate, format = $format,
                frames = $frames, join_kind = $join, join_evidence = $evidence, mid_channel = $mid, side_channel = $side,
                invert_side = $invert, role_evidence = $roles, is_swapped = $swapped
            WHERE id = $id
            """;
        _database.Write(() =>
        {
            if (_database.Execute(Sql, TakeValues(take)) == 0)
                throw NotFound($"There is no take '{take.Name}'.", "It may have been removed meanwhile.");
            _database.Execute("DELETE FROM take_parts WHERE take_id = $take", ("$take", take.Id.Value));
            AddParts(take);
            return true;
        });
    }

    private static (string, object?)[] TakeValues(CataloguedTake take) =>
    [
        ("$id", take.Id.Value),
        ("$session", take.Session.Value),
        ("$name", take.Name),
        ("$channels", take.ChannelCount),
        ("$rate", take.SampleRateHertz),
        ("$format", take.Format),
        ("$frames", take.Length.Value),
        ("$join", take.Join),
        ("$evidence", JsonSerializer.Serialize([.. take.JoinEvidence], StoredJson.Default.StringArray)),
        ("$mid", take.Roles.MidChannel),
        ("$side", take.Roles.SideChannel),
        ("$invert", take.Roles.InvertSide),
        ("$roles", take.RoleEvidence),
        ("$swapped", take.IsSwapped),
    ];

    private static CataloguedTake ReadTake(SqliteDataReader row) => new()
    {
        Id = new(row.GetString(0)),
        Session = new(row.GetString(1)),
        Name = row.GetString(2),
        ChannelCount = row.GetInt32(3),
        SampleRateHertz = row.GetInt32(4),
        Format = row.GetString(5),
        Length = new(row.GetInt64(6)),
        Join = row.GetString(7),
        JoinEvidence = JsonSerializer.Deserialize(row.GetString(8), StoredJson.Default.StringArray) ?? [],
        Roles = new() { MidChannel = row.OptionalInt(9), SideChannel = row.OptionalInt(10), InvertSide = row.OptionalBool(11) },
        RoleEvidence = row.GetString(12),
        IsSwapped = row.GetInt64(13) != 0,
        Parts = [],
    };

    private static CataloguedPart ReadPart(SqliteDataReader row) =>
        new(new(row.GetString(0)), new(row.GetInt64(1)), new(row.GetInt64(2)), row.GetInt32(3), row.GetInt32(4));

    private List<CataloguedTake> WithParts(List<CataloguedTake> takes) => takes.ConvertAll(take => take with
    {
        Parts = _database.Query(
            "SELECT file_id, first_frame, frames, first_channel, channel_count FROM take_parts WHERE take_id = $take ORDER BY position",
            ReadPart,
            ("$take", take.Id.Value)),
    });

    private void AddParts(CataloguedTake take)
    {
        for (var position = 0; position < take.Parts.Count; position++)
        {
            var part = take.Parts[position];
            _database.Execute(
                "INSERT INTO take_parts (take_id, position, file_id, first_frame, frames, first_channel, channel_count) VALUES ($take, $position, $file, $first, $frames, $channel, $channels)",
                ("$take", take.Id.Value),
                ("$position", position),
                ("$file", part.File.Value),
                ("$first", part.FirstFrame.Value),
                ("$frames", part.Length.Value),
                ("$channel", part.FirstChannel),
                ("$channels", part.ChannelCount));
        }
    }

    private bool NameIsTaken(SessionId session, string name) => _database.Query(
        "SELECT 1 FROM takes WHERE session_id = $session AND name = $name", static r => r.GetInt64(0), ("$session", session.Value), ("$name", name)).Count > 0;

    private CataloguedTake? OneTake(string text, IEnumerable<CataloguedTake> matches)
    {
        var found = matches.ToList();
        if (found.Count > 1)
            throw Conflict($"'{text}' means {found.Count} takes: {ListOf(found.Select(t => $"{t.Name} (id {t.Id})"))}.", "Name one by its id.");
        return found.Count == 0 ? null : found[0];
    }
}
