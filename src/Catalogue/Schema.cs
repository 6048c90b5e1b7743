using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <summary>Knows whose database it is, how old, and how to bring it up to date.</summary>
internal static class Schema
{
    // 'Athw' in ASCII: SQLite keeps it in the file header for programs to know their own files by.
    private const int ApplicationId = 0x41746877;

    /// <summary>Whether the database needs steps before it can be read.</summary>
    public static bool IsOlder(string library, string path)
    {
        using var database = Checked(library, Database.Open(library, path, SqliteOpenMode.ReadOnly));
        return database.Number("PRAGMA user_version") < Migrations.Current;
    }

    /// <summary>Hands the database back, or closes it and says why it is not for us.</summary>
    public static Database Checked(string library, Database database)
    {
        try
        {
            Check(library, database);
            return database;
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    /// <summary>Runs the missing steps, each in its own transaction; a process that comes second finds them done.</summary>
    public static void BringUpToDate(string library, Database database)
    {
        try
        {
            // Cannot change inside a transaction; stays in the file once set.
            if (!database.Query("PRAGMA journal_mode", static r => r.GetString(0))[0].Equals("wal", StringComparison.Ordinal))
                database.Query("PRAGMA journal_mode = WAL", static r => r.GetString(0));
            for (var step = 0; step < Migrations.Current; step++)
                RunStep(database, step);
            Check(library, database);
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    private static void RunStep(Database database, int step)
    {
        // Asked first without the write lock: the usual case is that nothing is to do.
        if (database.Number("PRAGMA user_version") > step)
            return;
        database.Write(() =>
        {
            if (database.Number("PRAGMA user_version") == step)
                database.Execute(string.Create(CultureInfo.InvariantCulture, $"{Migrations.Steps[step]} PRAGMA user_version = {step + 1}; PRAGMA application_id = {ApplicationId};"));
            return true;
        });
    }

    private static void Check(string library, Database database)
    {
        var version = database.Number("PRAGMA user_version");
        var application = database.Number("PRAGMA application_id");
        if (application != ApplicationId && (application != 0 || database.Number("SELECT count(*) FROM sqlite_schema") > 0))
            throw new LibraryException(LibraryErrorKind.NotALibrary, library, $"{Library.DatabaseName} was not made by this program.", "Name another folder.");
        if (version > Migrations.Current)
        {
            throw new LibraryException(
                LibraryErrorKind.NewerSchema,
                library,
                string.Create(CultureInfo.InvariantCulture, $"The library has schema {version}; this program knows schemas up to {Migrations.Current}. Nothing was changed."),
                "Use the newer version of the program that last wrote it.");
        }
    }
}
