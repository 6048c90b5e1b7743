using Athwart.Quantities;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>What lists show, without reading each take for itself.</content>
public sealed partial class Library
{
    private const string SummarySql = """
        SELECT t.id, t.session_id, t.name, t.channel_count, t.sample_rate_hertz, t.format, t.frames, t.join_kind,
            EXISTS (SELECT 1 FROM measures m WHERE m.take_id = t.id),
            (SELECT count(*) FROM effects e WHERE e.take_id = t.id),
            t.is_swapped
        FROM takes t
        """;

    /// <summary>The takes of a session, by name.</summary>
    public IReadOnlyList<TakeSummary> Summaries(SessionId session)
    {
        var found = Found("JOIN takes t ON t.id = f.take_id WHERE t.session_id = $id", session.Value);
        return _database.Query($"{SummarySql} WHERE t.session_id = $session ORDER BY t.name", ReadSummary, ("$session", session.Value))
            .ConvertAll(s => found.TryGetValue(s.Id.Value, out var kinds) ? s with { Found = kinds } : s);
    }

    /// <summary>One take, or null.</summary>
    public TakeSummary? GetSummary(TakeId take) => _database.Single($"{SummarySql} WHERE t.id = $take", ReadSummary, ("$take", take.Value)) is { } summary
        ? summary with { Found = Found("WHERE f.take_id = $id", take.Value).GetValueOrDefault(take.Value, []) }
        : null;

    /// <summary>How many takes and cuts each session holds, by session.</summary>
    public IReadOnlyDictionary<SessionId, (int Takes, int Effects)> Counts() => _database.Query(
        """
        SELECT t.session_id, count(*), sum((SELECT count(*) FROM effects e WHERE e.take_id = t.id)) FROM takes t GROUP BY t.session_id
        """,
        static row => (Session: new SessionId(row.GetString(0)), Takes: row.GetInt32(1), Effects: row.GetInt32(2)))
        .ToDictionary(r => r.Session, r => (r.Takes, r.Effects));

    private static TakeSummary ReadSummary(SqliteDataReader row) => new()
    {
        Id = new(row.GetString(0)),
        Session = new(row.GetString(1)),
        Name = row.GetString(2),
        ChannelCount = row.GetInt32(3),
        SampleRateHertz = row.GetInt32(4),
        Format = row.GetString(5),
        Length = new(row.GetInt64(6)),
        Join = row.GetString(7),
        IsChecked = row.GetInt64(8) != 0,
        Effects = row.GetInt32(9),
        IsSwapped = row.GetInt64(10) != 0,
        Found = [],
    };

    private Dictionary<string, List<FoundKind>> Found(string where, string id) => _database.Query(
        $"SELECT f.take_id, f.kind, f.severity, count(*) FROM findings f {where} GROUP BY f.take_id, f.kind, f.severity",
        static row => (Take: row.GetString(0), Kind: row.GetString(1), Severity: Enum.Parse<FindingSeverity>(row.GetString(2)), Count: row.GetInt32(3)),
        ("$id", id))
        .GroupBy(r => r.Take, StringComparer.Ordinal)
        .ToDictionary(
            take => take.Key,
            take => take.GroupBy(r => r.Kind, StringComparer.Ordinal)
                .Select(k => new FoundKind(k.Key, k.Max(r => r.Severity), k.Sum(r => r.Count)))
                .OrderByDescending(k => k.Severity).ThenBy(k => k.Kind, StringComparer.Ordinal)
                .ToList(),
            StringComparer.Ordinal);
}
