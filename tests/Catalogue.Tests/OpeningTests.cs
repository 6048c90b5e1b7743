using Athwart.Tests.Shared;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue.Tests;

public sealed class OpeningTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string DatabasePath => _folder.File(Library.DatabaseName);

    [Fact]
    public void OpenForCreate_EmptyFolder_MakesDatabaseAndOriginals()
    {
        using (Library.Open(_folder.Path, LibraryAccess.Create))
        {
            Assert.True(File.Exists(DatabasePath));
            Assert.True(Directory.Exists(_folder.File("originals")));
        }

        using var again = Library.Open(_folder.Path, LibraryAccess.Read);
        Assert.Empty(again.Sessions());
    }

    [Theory]
    [InlineData(LibraryAccess.Read)]
    [InlineData(LibraryAccess.Write)]
    public void Open_FolderWithoutLibrary_SaysNotALibraryAndMakesNothing(LibraryAccess access)
    {
        var error = Assert.Throws<LibraryException>(() => Library.Open(_folder.Path, access));

        Assert.Equal(LibraryErrorKind.NotALibrary, error.Kind);
        Assert.Contains(_folder.Path, error.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    [Theory]
    [InlineData(LibraryAccess.Read)]
    [InlineData(LibraryAccess.Write)]
    [InlineData(LibraryAccess.Create)]
    public void Open_SchemaOfANewerProgram_IsRefusedAndLeftAlone(LibraryAccess access)
    {
        Library.Open(_folder.Path, LibraryAccess.Create).Dispose();
        Sql($"PRAGMA user_version = {Library.SchemaVersion + 1}");

        var error = Assert.Throws<LibraryException>(() => Library.Open(_folder.Path, access));

        Assert.Equal(LibraryErrorKind.NewerSchema, error.Kind);
        Assert.Contains("newer version of the program", error.Remedy, StringComparison.Ordinal);
        Assert.Equal(Library.SchemaVersion + 1L, Sql("PRAGMA user_version"));
    }

    [Fact]
    public void Open_DatabaseOfAnotherProgram_IsRefusedAndLeftAlone()
    {
        Sql("CREATE TABLE recipes (name TEXT)");

        var error = Assert.Throws<LibraryException>(() => Library.Open(_folder.Path, LibraryAccess.Create));

        Assert.Equal(LibraryErrorKind.NotALibrary, error.Kind);
        Assert.Equal(1L, Sql("SELECT count(*) FROM sqlite_schema"));
    }

    [Fact]
    public void Open_BytesThatAreNoDatabase_SaysDamaged()
    {
        File.WriteAllText(DatabasePath, string.Concat(Enumerable.Repeat("no database at all. ", 100)));

        var error = Assert.Throws<LibraryException>(() => Library.Open(_folder.Path, LibraryAccess.Write));

        Assert.Equal(LibraryErrorKind.Damaged, error.Kind);
    }

    [Fact]
    public void Open_EmptyDatabaseOfACreationThatWasKilled_BecomesALibrary()
    {
        File.WriteAllBytes(DatabasePath, []);

        using var library = Library.Open(_folder.Path, LibraryAccess.Write);

        Assert.Empty(library.Sessions());
    }

    [Theory]
    [InlineData(LibraryAccess.Read)]
    [InlineData(LibraryAccess.Write)]
    public void Open_SchemaVersion1_IsBroughtUpToDateAndKeepsItsRows(LibraryAccess access)
    {
        Sql(Version1);

        using var library = Library.Open(_folder.Path, access);

        var session = Assert.Single(library.Sessions());
        Assert.Equal("Canal lock", session.Name);
        Assert.Equal(-3.0, session.Defaults.SideLevel?.Value);
        Assert.Empty(library.Deliveries());
        Assert.Empty(library.KitItems());
        Assert.Equal((long)Library.SchemaVersion, Sql("PRAGMA user_version"));
    }

    [Fact]
    public void Open_SchemaVersion2_IsBroughtUpToDateAndKeepsItsRows()
    {
        Sql(Version1.Replace("PRAGMA user_version = 1;", Migrations.Steps[1] + "PRAGMA user_version = 2;", StringComparison.Ordinal));

        using var library = Library.Open(_folder.Path, LibraryAccess.Read);

        Assert.Equal("Canal lock", Assert.Single(library.Sessions()).Name);
        Assert.Empty(library.KitItems());
    }

    // The first form of step 3, which libraries of its day have.
    [Fact]
    public void Open_KitWithoutKeys_GetsThemAndKeepsItsThings()
    {
        Sql(Version1 + Migrations.Steps[1] + """
            CREATE TABLE kit_items (kind TEXT NOT NULL, name TEXT NOT NULL COLLATE NOCASE, position INTEGER NOT NULL, version INTEGER NOT NULL, json TEXT NOT NULL, PRIMARY KEY (kind, name)) STRICT, WITHOUT ROWID;
            INSERT INTO kit_items VALUES ('microphone', 'Élan mid', 1, 1, '{"a":1}'), ('microphone', 'Small figure-8', 2, 1, '{"a":2}');
            PRAGMA user_version = 3;
            """);

        using var library = Library.Open(_folder.Path, LibraryAccess.Write);
        library.SaveKitItem(new("microphone", "élan MID", 1, """{"a":3}"""));

        Assert.Equal("""{"a":3} {"a":2}""", string.Join(' ', library.KitItems().Select(i => i.Json)));
        Assert.True(library.RemoveKitItem("microphone", "SMALL FIGURE-8"));
    }

    [Fact]
    public void Open_TakesWhoseRolesWereASentence_TellWhichAreSwapped()
    {
        Sql(Version1 + string.Concat(Migrations.Steps.Skip(1).Take(6)) + "INSERT INTO takes VALUES " + string.Join(',', new[]
        {
            Row("by name", "NULL", "track names: channel 2 ''Mid'' is mid, channel 1 ''Side'' is side"),
            Row("by hand", "1", "track names: channel 2 ''Mid'' is mid, channel 1 ''Side'' is side"),
            Row("plain", "NULL", "nothing says which is which"),
        }) + "; PRAGMA user_version = 7;");

        using var library = Library.Open(_folder.Path, LibraryAccess.Read);

        Assert.Equal([("by hand", false), ("by name", true), ("plain", false)], library.Summaries(new("0123456789ab")).Select(t => (t.Name, t.IsSwapped)));

        static string Row(string name, string mid, string evidence) => $"('{name}', '0123456789ab', '{name}', 2, 96000, '24-bit', 1, '', '[]', {mid}, NULL, NULL, '{evidence}')";
    }

    [Fact]
    public void Migration_StepThatFails_LeavesTheVersionBeforeIt()
    {
        Sql(Version1);
        // Step 2 makes a table of this name: it fails half-way through.
        Sql("CREATE TABLE delivered_files (x)");

        Assert.Throws<LibraryException>(() => Library.Open(_folder.Path, LibraryAccess.Write));

        Assert.Equal(1L, Sql("PRAGMA user_version"));
        Assert.Equal(0L, Sql("SELECT count(*) FROM sqlite_schema WHERE name = 'effects'"));
    }

    [Fact]
    public void Open_ReadOnly_CannotChangeAnything()
    {
        Library.Open(_folder.Path, LibraryAccess.Create).Dispose();
        using var library = Library.Open(_folder.Path, LibraryAccess.Read);

        var error = Assert.Throws<LibraryException>(() => library.AddSession(new Session { Name = "Canal lock", Date = LibraryFixture.Day }));

        Assert.Equal(LibraryErrorKind.Inaccessible, error.Kind);
    }

    public void Dispose() => _folder.Dispose();

    // The schema of version 1 as it was released, with one session in it.
    private static string Version1 => Migrations.Steps[0] + """
        INSERT INTO sessions (id, name, date, folder, notes, side_level) VALUES ('0123456789ab', 'Canal lock', '2026-11-25', 'originals/2026-11-25 Canal lock', '', -3.0);
        PRAGMA user_version = 1;
        PRAGMA application_id = 1098147959;
        """;

    private object? Sql(string text)
    {
        using var connection = new SqliteConnection($"Data Source={DatabasePath};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Constants of this test.
        command.CommandText = text;
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }
}
