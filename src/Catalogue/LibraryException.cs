using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <summary>The one exception of the catalogue: what failed, where, and what to do about it.</summary>
public sealed class LibraryException : Exception
{
    /// <summary>A failure of a library.</summary>
    /// <param name="kind">Why.</param>
    /// <param name="library">The folder of the library.</param>
    /// <param name="what">What is wrong, one sentence without the folder.</param>
    /// <param name="remedy">What to do, one sentence.</param>
    /// <param name="inner">What was underneath, if anything.</param>
    public LibraryException(LibraryErrorKind kind, string library, string what, string remedy, Exception? inner = null)
        : base($"{library}: {what} {remedy}", inner)
    {
        Kind = kind;
        LibraryFolder = library;
        Remedy = remedy;
    }

    /// <summary>Why; callers map it to an exit code.</summary>
    public LibraryErrorKind Kind { get; }

    /// <summary>The folder of the library.</summary>
    public string LibraryFolder { get; }

    /// <summary>What to do, one sentence.</summary>
    public string Remedy { get; }

    internal static LibraryException From(SqliteException error, string library) => error.SqliteErrorCode switch
    {
        SqliteCodes.Busy or SqliteCodes.Locked => new(LibraryErrorKind.Busy, library, "The library is in use by another process that did not let go in time.", "Wait for the other job to end, then run this again.", error),
        SqliteCodes.Corrupt or SqliteCodes.NotADatabase => new(LibraryErrorKind.Damaged, library, $"The database {Library.DatabaseName} is damaged ({error.Message}).", "Keep it aside and restore it from a backup; the originals are ordinary files and are not affected.", error),
        SqliteCodes.Full => new(LibraryErrorKind.DiskFull, library, "The disk has no space left; the last change was not made.", "Free some space, then run this again.", error),
        SqliteCodes.Constraint => new(LibraryErrorKind.Conflict, library, $"The change contradicts what the library holds ({error.Message}).", "Look at what is there, then choose another name.", error),
        _ => new(LibraryErrorKind.Inaccessible, library, $"The library cannot be read or written ({error.Message}).", "Check the rights of the folder and the disk it is on.", error),
    };

    private static class SqliteCodes
    {
        // Primary result codes, https://www.sqlite.org/rescode.html
        public const int Busy = 5;
        public const int Locked = 6;
        public const int Corrupt = 11;
        public const int Full = 13;
        public const int Constraint = 19;
        public const int NotADatabase = 26;
    }
}
