using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <summary>
/// A library on disk: a folder with the database <see cref="DatabaseName"/> and the originals as ordinary files in
/// ordinary folders below <see cref="OriginalsName"/>.
/// </summary>
/// <remarks>
/// Safe with several threads and several processes at once: write-ahead log, one writer at a time, the others wait up to
/// 30 s. Every change is one transaction, on the disk when the method returns. Every failure is a <see cref="LibraryException"/>.
/// </remarks>
public sealed partial class Library : IDisposable
{
    /// <summary>The name of the database within the folder.</summary>
    public const string DatabaseName = "athwart-library.db";

    /// <summary>The name of the folder that holds the originals.</summary>
    public const string OriginalsName = "originals";

    private readonly Database _database;

    private Library(string folder, Database database)
    {
        Folder = folder;
        _database = database;
    }

    /// <summary>The folder of the library, a full path.</summary>
    public string Folder { get; }

    /// <summary>The version of the schema; the one this program writes.</summary>
    public static int SchemaVersion => Migrations.Current;

    /// <summary>Opens a library, first bringing an older schema up to date.</summary>
    /// <exception cref="LibraryException">No library there, a newer schema, damaged, in use for too long, or out of reach.</exception>
    public static Library Open(string folder, LibraryAccess access)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        var path = Path.Combine(full, DatabaseName);
        if (access == LibraryAccess.Create)
            MakeFolders(full);
        else if (!File.Exists(path))
            throw new LibraryException(LibraryErrorKind.NotALibrary, full, $"There is no library in this folder: {DatabaseName} is missing.", "Name the folder of a library, or take in a card to make one.");
        return new(full, OpenDatabase(full, path, access));
    }

    /// <summary>The full path of something in the library.</summary>
    /// <param name="libraryPath">Relative to the library, with '/' between.</param>
    public string FullPath(string libraryPath)
    {
        ArgumentNullException.ThrowIfNull(libraryPath);
        return Path.Combine(Folder, libraryPath.Replace('/', Path.DirectorySeparatorChar));
    }

    /// <summary>Several changes as one: all of them, or none when the body throws. Inside, only this library may be called, from the same thread.</summary>
    public void Transaction(Action body)
    {
        ArgumentNullException.ThrowIfNull(body);
        _database.Write(() =>
        {
            body();
            return true;
        });
    }

    /// <summary>Closes the database.</summary>
    public void Dispose() => _database.Dispose();

    private static void RequireName(string name) => ArgumentException.ThrowIfNullOrWhiteSpace(name);

    private static void MakeFolders(string folder)
    {
        try
        {
            Directory.CreateDirectory(Path.Combine(folder, OriginalsName));
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new LibraryException(LibraryErrorKind.Inaccessible, folder, $"The folder cannot be made ({error.Message}).", "Choose a folder you may write to.", error);
        }
    }

    private static Database OpenDatabase(string folder, string path, LibraryAccess access)
    {
        if (access == LibraryAccess.Read && !Schema.IsOlder(folder, path))
            return Schema.Checked(folder, Database.Open(folder, path, SqliteOpenMode.ReadOnly));
        var database = Schema.Checked(folder, Database.Open(folder, path, access == LibraryAccess.Create ? SqliteOpenMode.ReadWriteCreate : SqliteOpenMode.ReadWrite));
        Schema.BringUpToDate(folder, database);
        return database;
    }

    private LibraryException NotFound(string what, string remedy) => new(LibraryErrorKind.NotFound, Folder, what, remedy);

    private LibraryException Conflict(string what, string remedy) => new(LibraryErrorKind.Conflict, Folder, what, remedy);
}
