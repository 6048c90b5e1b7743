using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>The kit.</content>
public sealed partial class Library
{
    /// <summary>The whole kit, by kind and then in the order of entry.</summary>
    public IReadOnlyList<KitItem> KitItems() =>
        _database.Query("SELECT kind, name, version, json FROM kit_items ORDER BY kind, position", ReadKitItem);

    /// <summary>Adds a thing after the others of its kind, or replaces the one of its name in its place.</summary>
    public void SaveKitItem(KitItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        RequireName(item.Kind);
        RequireName(item.Name);
        _database.Write(() => _database.Execute(
            """
            INSERT INTO kit_items (kind, key, name, position, version, json)
            VALUES ($kind, name_key($name), $name, (SELECT coalesce(max(position), 0) + 1 FROM kit_items WHERE kind = $kind), $version, $json)
            ON CONFLICT (kind, key) DO UPDATE SET name = $name, version = $version, json = $json
            """,
            ("$kind", item.Kind),
            ("$name", item.Name),
            ("$version", item.Version),
            ("$json", item.Json)));
    }

    /// <summary>Removes a thing of the kit.</summary>
    /// <returns>Whether it was there.</returns>
    public bool RemoveKitItem(string kind, string name) => _database.Write(() => _database.Execute(
        "DELETE FROM kit_items WHERE kind = $kind AND key = name_key($name)", ("$kind", kind), ("$name", name))) > 0;

    private static KitItem ReadKitItem(SqliteDataReader row) => new(row.GetString(0), row.GetString(1), row.GetInt32(2), row.GetString(3));
}
