using Athwart.Quantities;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Markers of the recordist's own.</content>
public sealed partial class Library
{
    private const string MarkerColumns = "id, take_id, frame, length, label";

    /// <summary>The markers of a take, in its order.</summary>
    public IReadOnlyList<OwnMarker> Markers(TakeId take) => _database.Query(
        $"SELECT {MarkerColumns} FROM markers WHERE take_id = $take ORDER BY frame, id", ReadMarker, ("$take", take.Value));

    /// <summary>The marker with this id, or null.</summary>
    public OwnMarker? GetMarker(MarkerId id) => _database.Single($"SELECT {MarkerColumns} FROM markers WHERE id = $id", ReadMarker, ("$id", id.Value));

    /// <summary>Adds a marker, or replaces what is known of the marker with this id.</summary>
    /// <exception cref="LibraryException">Conflict: there is no such take.</exception>
    public void SaveMarker(OwnMarker marker)
    {
        ArgumentNullException.ThrowIfNull(marker);
        _database.Write(() => _database.Execute(
            """
            INSERT INTO markers (id, take_id, frame, length, label) VALUES ($id, $take, $frame, $length, $label)
            ON CONFLICT (id) DO UPDATE SET take_id = $take, frame = $frame, length = $length, label = $label
            """,
            ("$id", marker.Id.Value),
            ("$take", marker.Take.Value),
            ("$frame", marker.Range.From.Value),
            ("$length", marker.Range.Length.Value),
            ("$label", marker.Label)));
    }

    /// <summary>Removes a marker.</summary>
    /// <returns>Whether it was there.</returns>
    public bool RemoveMarker(MarkerId id) => _database.Write(() => _database.Execute("DELETE FROM markers WHERE id = $id", ("$id", id.Value))) > 0;

    private static OwnMarker ReadMarker(SqliteDataReader row) => new(
        new(row.GetString(0)),
        new(row.GetString(1)),
        FrameRange.FromFrames(row.GetInt64(2), row.GetInt64(2) + row.GetInt64(3)),
        row.GetString(4));
}
