using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Deliveries.</content>
public sealed partial class Library
{
    /// <summary>All deliveries, newest first.</summary>
    public IReadOnlyList<Delivery> Deliveries() =>
        _database.Query("SELECT id, session_id, folder, date FROM deliveries ORDER BY date DESC, id", ReadDelivery)
            .ConvertAll(delivery => delivery with { Effects = DeliveredEffects(delivery.Id) });

    /// <summary>Records a delivery.</summary>
    /// <exception cref="LibraryException">Conflict: it is recorded already, or names a session or an effect that is not there.</exception>
    public void AddDelivery(Delivery delivery)
    {
        ArgumentNullException.ThrowIfNull(delivery);
        _database.Write(() =>
        {
            _database.Execute(
                "INSERT INTO deliveries (id, session_id, folder, date) VALUES ($id, $session, $folder, $date)",
                ("$id", delivery.Id.Value),
                ("$session", delivery.Session?.Value),
                ("$folder", delivery.Folder),
                ("$date", Rows.Text(delivery.Date)));
            for (var position = 0; position < delivery.Effects.Count; position++)
                AddDeliveredEffect(delivery.Id, position, delivery.Effects[position]);
            return true;
        });
    }

    private static Delivery ReadDelivery(SqliteDataReader row) => new()
    {
        Id = new(row.GetString(0)),
        Session = row.OptionalText(1) is { } session ? new SessionId(session) : null,
        Folder = row.GetString(2),
        Date = row.Moment(3),
        Effects = [],
    };

    private List<DeliveredEffect> DeliveredEffects(DeliveryId delivery) => _database.Query(
        "SELECT position, effect_id, name, side_made_up FROM delivered_effects WHERE delivery_id = $delivery ORDER BY position",
        static row => (Position: row.GetInt64(0), Effect: row.OptionalText(1), Name: row.GetString(2), MadeUp: row.GetInt64(3) != 0),
        ("$delivery", delivery.Value))
        .ConvertAll(e => new DeliveredEffect(e.Effect is { } id ? new EffectId(id) : null, e.Name, DeliveredFiles(delivery, e.Position), e.MadeUp));

    private List<DeliveredFile> DeliveredFiles(DeliveryId delivery, long effectPosition) => _database.Query(
        "SELECT kind, path, length, sha256 FROM delivered_files WHERE delivery_id = $delivery AND effect_position = $effect ORDER BY position",
        static row => new DeliveredFile(row.GetString(0), row.GetString(1), row.GetInt64(2), row.GetString(3)),
        ("$delivery", delivery.Value),
        ("$effect", effectPosition));

    private void AddDeliveredEffect(DeliveryId delivery, int position, DeliveredEffect effect)
    {
        _database.Execute(
            "INSERT INTO delivered_effects (delivery_id, position, effect_id, name, side_made_up) VALUES ($delivery, $position, $effect, $name, $madeUp)",
            ("$delivery", delivery.Value),
            ("$position", position),
            ("$effect", effect.Effect?.Value),
            ("$name", effect.Name),
            ("$madeUp", effect.SideMadeUp));
        for (var index = 0; index < effect.Files.Count; index++)
        {
            var file = effect.Files[index];
            _database.Execute(
                "INSERT INTO delivered_files (delivery_id, effect_position, position, kind, path, length, sha256) VALUES ($delivery, $effect, $position, $kind, $path, $length, $hash)",
                ("$delivery", delivery.Value),
                ("$effect", position),
                ("$position", index),
                ("$kind", file.Kind),
                ("$path", file.Path),
                ("$length", file.Length),
                ("$hash", file.Sha256));
        }
    }
}
