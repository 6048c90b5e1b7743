using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Original files.</content>
public sealed partial class Library
{
    private const string FileColumns = "id, session_id, library_path, card_path, length, sha256, modified, state";

    /// <summary>The files of a session, by where they lie.</summary>
    public IReadOnlyList<OriginalFile> Files(SessionId session) => _database.Query(
        $"SELECT {FileColumns} FROM files WHERE session_id = $session ORDER BY library_path", ReadFile, ("$session", session.Value));

    /// <summary>The file with this id, or null.</summary>
    public OriginalFile? GetFile(FileId id) => _database.Single($"SELECT {FileColumns} FROM files WHERE id = $id", ReadFile, ("$id", id.Value));

    /// <summary>The file that lies at this place in the library, or null.</summary>
    /// <param name="libraryPath">Relative to the library, with '/' between.</param>
    public OriginalFile? GetFileAt(string libraryPath) => _database.Single($"SELECT {FileColumns} FROM files WHERE library_path = $path", ReadFile, ("$path", libraryPath));

    /// <summary>The verified files of the whole library with this content, oldest first.</summary>
    public IReadOnlyList<OriginalFile> FilesWithContent(long length, string sha256) => _database.Query(
        $"SELECT {FileColumns} FROM files WHERE sha256 = $hash AND length = $length AND state = 'verified' ORDER BY rowid",
        ReadFile,
        ("$hash", sha256),
        ("$length", length));

    /// <summary>The verified files of the whole library with this length, oldest first: those a file could be equal to.</summary>
    public IReadOnlyList<OriginalFile> FilesOfLength(long length) => _database.Query(
        $"SELECT {FileColumns} FROM files WHERE length = $length AND state = 'verified' ORDER BY rowid", ReadFile, ("$length", length));

    /// <summary>Adds a file, or replaces what is known of the file with this id.</summary>
    /// <exception cref="LibraryException">Conflict: another file lies at this place, or there is no such session.</exception>
    public void SaveFile(OriginalFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        _database.Write(() => _database.Execute(
            $"""
            INSERT INTO files ({FileColumns}) VALUES ($id, $session, $path, $card, $length, $hash, $modified, $state)
            ON CONFLICT (id) DO UPDATE SET session_id = $session, library_path = $path, card_path = $card,
                length = $length, sha256 = $hash, modified = $modified, state = $state
            """,
            ("$id", file.Id.Value),
            ("$session", file.Session.Value),
            ("$path", file.LibraryPath),
            ("$card", file.CardPath),
            ("$length", file.Length),
            ("$hash", file.Sha256),
            ("$modified", Rows.Text(file.Modified)),
            ("$state", Rows.Text(file.State))));
    }

    private static OriginalFile ReadFile(SqliteDataReader row) => new()
    {
        Id = new(row.GetString(0)),
        Session = new(row.GetString(1)),
        LibraryPath = row.GetString(2),
        CardPath = row.GetString(3),
        Length = row.GetInt64(4),
        Sha256 = row.GetString(5),
        Modified = row.Moment(6),
        State = Rows.State(row.GetString(7)),
    };
}
