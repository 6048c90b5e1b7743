using System.Text.Json;
using Athwart.Quantities;

namespace Athwart.Catalogue;

/// <content>What was found in takes, and what was measured.</content>
public sealed partial class Library
{
    /// <summary>The findings of a take, in the order they were stored.</summary>
    public IReadOnlyList<Finding> Findings(TakeId take) => _database.Query(
        "SELECT json FROM findings WHERE take_id = $take ORDER BY position",
        static row => StoredFinding.Parse(row.GetString(0)),
        ("$take", take.Value));

    /// <summary>How many findings of each severity the takes of a session have; a take that was never checked, or has none, is not named.</summary>
    public IReadOnlyList<FindingCount> FindingCounts(SessionId session) => _database.Query(
        "SELECT f.take_id, f.severity, count(*) FROM findings f JOIN takes t ON t.id = f.take_id WHERE t.session_id = $session GROUP BY f.take_id, f.severity ORDER BY f.take_id, f.severity",
        static row => new FindingCount(new(row.GetString(0)), Enum.Parse<FindingSeverity>(row.GetString(1)), row.GetInt32(2)),
        ("$session", session.Value));

    /// <summary>Every take of the library in which a kind was found, by id, with the findings of that kind.</summary>
    /// <param name="kind">The kind, such as 'hum'.</param>
    public IReadOnlyList<(TakeId Take, Finding Finding)> FindingsOfKind(string kind) => _database.Query(
        "SELECT take_id, json FROM findings WHERE kind = $kind ORDER BY take_id, position",
        static row => (new TakeId(row.GetString(0)), StoredFinding.Parse(row.GetString(1))),
        ("$kind", kind));

    /// <summary>Replaces all findings of a take.</summary>
    /// <exception cref="LibraryException">Conflict: there is no such take.</exception>
    public void ReplaceFindings(TakeId take, IReadOnlyList<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        _database.Write(() =>
        {
            _database.Execute("DELETE FROM findings WHERE take_id = $take", ("$take", take.Value));
            for (var position = 0; position < findings.Count; position++)
            {
                var stored = StoredFinding.Of(findings[position]);
                _database.Execute(
                    "INSERT INTO findings (take_id, position, kind, severity, json) VALUES ($take, $position, $kind, $severity, $json)",
                    ("$take", take.Value),
                    ("$position", position),
                    ("$kind", stored.Kind),
                    ("$severity", stored.Severity),
                    ("$json", JsonSerializer.Serialize(stored, StoredJson.Default.StoredFinding)));
            }

            return true;
        });
    }

    /// <summary>The measures of a take, or null when it was never measured.</summary>
    public StoredMeasures? Measures(TakeId take) => _database.Single(
        "SELECT version, json FROM measures WHERE take_id = $take", static row => new StoredMeasures(row.GetInt32(0), row.GetString(1)), ("$take", take.Value));

    /// <summary>Replaces the measures of a take.</summary>
    /// <exception cref="LibraryException">Conflict: there is no such take.</exception>
    public void ReplaceMeasures(TakeId take, StoredMeasures measures)
    {
        ArgumentNullException.ThrowIfNull(measures);
        _database.Write(() => _database.Execute(
            "INSERT INTO measures (take_id, version, json) VALUES ($take, $version, $json) ON CONFLICT (take_id) DO UPDATE SET version = $version, json = $json",
            ("$take", take.Value),
            ("$version", measures.Version),
            ("$json", measures.Json)));
    }
}

/// <summary>How many findings of one severity a take has.</summary>
/// <param name="Take">The take.</param>
/// <param name="Severity">The severity.</param>
/// <param name="Count">How many.</param>
public readonly record struct FindingCount(TakeId Take, FindingSeverity Severity, int Count);
