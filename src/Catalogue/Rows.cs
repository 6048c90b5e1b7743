using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <summary>How single values lie in a column.</summary>
internal static class Rows
{
    private const string DateFormat = "yyyy-MM-dd";

    public static int? OptionalInt(this SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetInt32(column);

    public static bool? OptionalBool(this SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetInt64(column) != 0;

    public static double? OptionalDouble(this SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetDouble(column);

    public static string? OptionalText(this SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetString(column);

    public static DateOnly Date(this SqliteDataReader row, int column) => DateOnly.ParseExact(row.GetString(column), DateFormat, CultureInfo.InvariantCulture);

    public static DateTimeOffset Moment(this SqliteDataReader row, int column) => DateTimeOffset.ParseExact(row.GetString(column), "O", CultureInfo.InvariantCulture);

    public static string Text(DateOnly date) => date.ToString(DateFormat, CultureInfo.InvariantCulture);

    public static string Text(DateTimeOffset moment) => moment.ToUniversalTime().ToString("O", CultureInfo.InvariantCulture);

    public static string Text(FileState state) => state switch
    {
        FileState.Copying => "copying",
        FileState.Verified => "verified",
        _ => "refused",
    };

    public static FileState State(string text) => text switch
    {
        "copying" => FileState.Copying,
        "verified" => FileState.Verified,
        _ => FileState.Refused,
    };

    /// <summary>Makes a text match itself inside a LIKE pattern with ESCAPE '\'.</summary>
    public static string LikeLiteral(string text) => text
        .Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("%", "\\%", StringComparison.Ordinal)
        .Replace("_", "\\_", StringComparison.Ordinal);
}
