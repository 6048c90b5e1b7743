using Athwart.Quantities;

namespace Athwart.Catalogue.Tests;

public sealed class SessionTests : IDisposable
{
    private readonly LibraryFixture _fixture = new();

    private Library Library => _fixture.Library;

    [Fact]
    public void AddSession_ComesBackWithItsFolder()
    {
        var defaults = new SessionDefaults { MidChannel = 1, SideChannel = 0, InvertSide = true, SideLevel = Decibels.Silence };

        var added = Library.AddSession(new Session { Name = "Canal lock", Date = LibraryFixture.Day, Notes = "wind from the east", Defaults = defaults });

        Assert.Equal("originals/2026-11-25 Canal lock", added.Folder);
        Assert.Equal(added, Library.GetSession(added.Id));
        Assert.Equal(defaults, Library.Sessions()[0].Defaults);
    }

    [Fact]
    public void AddSession_SameNameAndDay_IsAConflict()
    {
        _fixture.AddSession();

        Assert.Equal(LibraryErrorKind.Conflict, Assert.Throws<LibraryException>(() => _fixture.AddSession()).Kind);
    }

    [Theory]
    [InlineData("lift/bridge: \"north\"?", "originals/2026-11-25 lift-bridge- -north--")]
    [InlineData("../../etc", "originals/2026-11-25 ..-..-etc")]
    [InlineData("  Écluse à l’aube . ", "originals/2026-11-25 Écluse à l’aube")]
    public void AddSession_AnyName_GetsAFolderEveryFileSystemTakes(string name, string folder) =>
        Assert.Equal(folder, _fixture.AddSession(name).Folder);

    [Fact]
    public void AddSession_NameOf500Letters_GetsAShortFolder() =>
        Assert.InRange(System.Text.Encoding.UTF8.GetByteCount(_fixture.AddSession(new string('é', 500)).Folder), 200, 225);

    [Fact]
    public void AddSession_NamesThatMakeOneFolder_GetTwo()
    {
        Assert.Equal("originals/2026-11-25 a-b", _fixture.AddSession("a/b").Folder);
        Assert.Equal("originals/2026-11-25 A-B (2)", _fixture.AddSession("A:B").Folder);
    }

    [Fact]
    public void GetOrAddSession_Twice_IsOneSession() =>
        Assert.Equal(Library.GetOrAddSession("Canal lock", LibraryFixture.Day).Id, Library.GetOrAddSession("Canal lock", LibraryFixture.Day).Id);

    [Fact]
    public void FindSession_ByNameCaseFolderAndIdPrefix()
    {
        var session = _fixture.AddSession();
        _fixture.AddSession("Lift bridge");

        Assert.Equal(session.Id, Library.FindSession("Canal lock")?.Id);
        Assert.Equal(session.Id, Library.FindSession("canal LOCK")?.Id);
        Assert.Equal(session.Id, Library.FindSession("2026-11-25 Canal lock")?.Id);
        Assert.Equal(session.Id, Library.FindSession(session.Id.Value[..6])?.Id);
        Assert.Null(Library.FindSession("Canal"));
    }

    [Fact]
    public void FindSession_NameOfTwoDays_IsAConflictThatNamesBoth()
    {
        var first = _fixture.AddSession();
        var second = Library.AddSession(first with { Id = SessionId.New(), Date = first.Date.AddDays(1) });

        var error = Assert.Throws<LibraryException>(() => Library.FindSession("Canal lock"));

        Assert.Equal(LibraryErrorKind.Conflict, error.Kind);
        Assert.Contains(first.Id.Value, error.Message, StringComparison.Ordinal);
        Assert.Contains(second.Id.Value, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void RequireSession_Unknown_NamesWhatIsThere()
    {
        _fixture.AddSession();

        var error = Assert.Throws<LibraryException>(() => Library.RequireSession("Towpath"));

        Assert.Equal(LibraryErrorKind.NotFound, error.Kind);
        Assert.Contains("Canal lock", error.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void UpdateSession_ChangesNotesAndDefaults()
    {
        var session = _fixture.AddSession() with { Notes = "gates", Defaults = new() { SideLevel = new Decibels(-4.5) } };

        Library.UpdateSession(session);

        Assert.Equal(session, Library.GetSession(session.Id));
        Assert.Equal(LibraryErrorKind.NotFound, Assert.Throws<LibraryException>(() => Library.UpdateSession(session with { Id = SessionId.New() })).Kind);
    }

    [Fact]
    public void Transaction_BodyThatThrows_ChangesNothing()
    {
        Assert.Throws<InvalidOperationException>(() => Library.Transaction(() =>
        {
            _fixture.AddSession();
            throw new InvalidOperationException();
        }));

        Assert.Empty(Library.Sessions());
    }

    public void Dispose() => _fixture.Dispose();
}
