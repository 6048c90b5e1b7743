using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Treatments that are kept, and the history of their changes.</content>
public sealed partial class Library
{
    private const string HistoryColumns = "h.number, h.date, h.what, h.undone, (SELECT count(*) FROM treatment_changes c WHERE c.number = h.number)";

    /// <summary>The kept treatments of a scope, by key.</summary>
    public IReadOnlyList<KeptTreatment> Treatments(TreatmentScope scope) => _database.Query(
        "SELECT scope, key, json FROM treatments WHERE scope = $scope ORDER BY key", ReadTreatment, ("$scope", Word(scope)));

    /// <summary>The kept treatment with this key, or null.</summary>
    public KeptTreatment? GetTreatment(TreatmentScope scope, string key) => _database.Single(
        "SELECT scope, key, json FROM treatments WHERE scope = $scope AND key = $key", ReadTreatment, ("$scope", Word(scope)), ("$key", key));

    /// <summary>Sets, replaces or takes away treatments as one change that can be undone; what had been undone before can no longer be done again.</summary>
    /// <param name="what">In words, for the history.</param>
    /// <param name="at">When.</param>
    /// <param name="changes">One or more.</param>
    public void ChangeTreatments(string what, DateTimeOffset at, IReadOnlyList<TreatmentChange> changes)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(what);
        ArgumentNullException.ThrowIfNull(changes);
        _database.Write(() =>
        {
            _database.Execute("DELETE FROM treatment_history WHERE undone = 1");
            _database.Execute("INSERT INTO treatment_history (date, what) VALUES ($date, $what)", ("$date", at.ToString("o", CultureInfo.InvariantCulture)), ("$what", what));
            var number = _database.Number("SELECT max(number) FROM treatment_history");
            for (var position = 0; position < changes.Count; position++)
                Change(number, position, changes[position]);
            return true;
        });
    }

    /// <summary>The latest changes first.</summary>
    /// <param name="most">How many at the most.</param>
    public IReadOnlyList<TreatmentHistoryEntry> TreatmentHistory(int most = 100) => _database.Query(
        $"SELECT {HistoryColumns} FROM treatment_history h ORDER BY h.number DESC LIMIT $most", ReadHistory, ("$most", most));

    /// <summary>Undoes the latest change that is not undone.</summary>
    /// <returns>What was undone; null when there was nothing.</returns>
    public TreatmentHistoryEntry? UndoTreatments() => Turn(
        $"SELECT {HistoryColumns} FROM treatment_history h WHERE h.undone = 0 ORDER BY h.number DESC LIMIT 1", undone: true);

    /// <summary>Does again what was undone last.</summary>
    /// <returns>What was done again; null when there was nothing.</returns>
    public TreatmentHistoryEntry? RedoTreatments() => Turn(
        $"SELECT {HistoryColumns} FROM treatment_history h WHERE h.undone = 1 ORDER BY h.number LIMIT 1", undone: false);

    private TreatmentHistoryEntry? Turn(string query, bool undone) => _database.Write(() =>
    {
        if (_database.Single(query, ReadHistory) is not { } entry)
            return null;
        var changes = _database.Query(
            "SELECT scope, key, before, after FROM treatment_changes WHERE number = $number ORDER BY position",
            row => new TreatmentChange(Scope(row.GetString(0)), row.GetString(1), row.IsDBNull(undone ? 2 : 3) ? null : row.GetString(undone ? 2 : 3)),
            ("$number", entry.Number));
        foreach (var change in changes)
            Put(change);
        _database.Execute("UPDATE treatment_history SET undone = $undone WHERE number = $number", ("$undone", undone ? 1 : 0), ("$number", entry.Number));
        return entry with { Undone = undone };
    });

    private void Change(long number, int position, TreatmentChange change)
    {
        RequireName(change.Key);
        _database.Execute(
            "INSERT INTO treatment_changes (number, position, scope, key, before, after) VALUES ($number, $position, $scope, $key, $before, $after)",
            ("$number", number),
            ("$position", position),
            ("$scope", Word(change.Scope)),
            ("$key", change.Key),
            ("$before", GetTreatment(change.Scope, change.Key)?.Json),
            ("$after", change.Json));
        Put(change);
    }

    // What a treatment belonged to may have gone since; then it stays away.
    private void Put(TreatmentChange change)
    {
        _database.Execute("DELETE FROM treatments WHERE scope = $scope AND key = $key", ("$scope", Word(change.Scope)), ("$key", change.Key));
        if (change.Json is null)
            return;
        _database.Execute(
            """
            INSERT INTO treatments (scope, key, json) SELECT $scope, $key, $json
            WHERE $scope = 'name' OR EXISTS (SELECT 1 FROM effects WHERE id = $key AND $scope = 'effect') OR EXISTS (SELECT 1 FROM takes WHERE id = $key AND $scope IN ('take', 'correction'))
            """,
            ("$scope", Word(change.Scope)),
            ("$key", change.Key),
            ("$json", change.Json));
    }

    private static KeptTreatment ReadTreatment(SqliteDataReader row) => new(Scope(row.GetString(0)), row.GetString(1), row.GetString(2));

    private static TreatmentHistoryEntry ReadHistory(SqliteDataReader row) => new(
        row.GetInt64(0), DateTimeOffset.Parse(row.GetString(1), CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind), row.GetString(2), row.GetInt64(3) != 0, row.GetInt32(4));

    private static string Word(TreatmentScope scope) => scope switch
    {
        TreatmentScope.Name => "name",
        TreatmentScope.Take => "take",
        TreatmentScope.Correction => "correction",
        _ => "effect",
    };

    private static TreatmentScope Scope(string word) => word switch
    {
        "name" => TreatmentScope.Name,
        "take" => TreatmentScope.Take,
        "correction" => TreatmentScope.Correction,
        _ => TreatmentScope.Effect,
    };
}
