using Athwart.Quantities;

namespace Athwart.Catalogue.Tests;

public sealed class TakeTests : IDisposable
{
    private readonly LibraryFixture _fixture = new();
    private readonly Session _session;

    public TakeTests() => _session = _fixture.AddSession();

    private Library Library => _fixture.Library;

    [Fact]
    public void SaveFile_ComesBackEqual_AndIsFoundByContentWhenVerified()
    {
        var verified = _fixture.AddFile(_session, "TAKES/gates 1.wav");
        var copying = LibraryFixture.FileOf(_session, "TAKES/gates 2.wav") with { State = FileState.Copying };
        Library.SaveFile(copying);

        Assert.Equal(verified, Library.GetFile(verified.Id));
        Assert.Equal("gates 1.wav", verified.OriginalName);
        Assert.Equal(verified, Library.GetFileAt(verified.LibraryPath));
        Assert.Equal([verified], Library.FilesWithContent(verified.Length, verified.Sha256));
        Assert.Equal([verified], Library.FilesOfLength(verified.Length));
        Assert.Empty(Library.FilesOfLength(verified.Length + 1));
        Assert.Equal([verified, copying], Library.Files(_session.Id));
    }

    [Fact]
    public void SaveFile_Again_ReplacesIt_AndAnotherFileThereIsAConflict()
    {
        var file = _fixture.AddFile(_session, "a.wav");

        Library.SaveFile(file with { State = FileState.Refused });

        Assert.Equal(FileState.Refused, Library.GetFile(file.Id)?.State);
        Assert.Equal(LibraryErrorKind.Conflict, Assert.Throws<LibraryException>(() => Library.SaveFile(file with { Id = FileId.New() })).Kind);
    }

    [Fact]
    public void AddTake_ComesBackWithItsParts()
    {
        var take = _fixture.AddTake(_session, "gates", "gates_M.wav", "gates_S.wav");

        var found = Library.GetTake(take.Id);

        Assert.NotNull(found);
        Assert.Equal(take.Parts, found.Parts);
        Assert.Equal(take.JoinEvidence, found.JoinEvidence);
        Assert.Equal(take with { Parts = found.Parts, JoinEvidence = found.JoinEvidence }, found);
    }

    [Fact]
    public void AddTake_OfAFileThatIsNotThere_IsAConflictAndAddsNothing()
    {
        var take = LibraryFixture.TakeOf(_session, "gates", LibraryFixture.FileOf(_session, "never saved.wav"));

        Assert.Equal(LibraryErrorKind.Conflict, Assert.Throws<LibraryException>(() => Library.AddTake(take)).Kind);
        Assert.Empty(Library.Takes(_session.Id));
    }

    [Fact]
    public void RegisterTake_SamePieces_KeepsTheFirst_OtherPiecesOfTheSameNameGetANumber()
    {
        var file = _fixture.AddFile(_session, "A/gates.wav");
        var first = Library.RegisterTake(LibraryFixture.TakeOf(_session, "gates", file));
        var again = Library.RegisterTake(LibraryFixture.TakeOf(_session, "gates", file));
        var other = Library.RegisterTake(LibraryFixture.TakeOf(_session, "gates", _fixture.AddFile(_session, "B/gates.wav")));

        Assert.Equal(first.Id, again.Id);
        Assert.Equal("gates (2)", other.Name);
        Assert.Equal(2, Library.Takes(_session.Id).Count);
    }

    [Fact]
    public void FindTake_ByNameCaseAndIdPrefix()
    {
        var take = _fixture.AddTake(_session, "Sluice", "sluice.wav");

        Assert.Equal(take.Id, Library.FindTake(_session.Id, "Sluice")?.Id);
        Assert.Equal(take.Id, Library.FindTake(_session.Id, "SLUICE")?.Id);
        Assert.Equal(take.Id, Library.FindTake(_session.Id, take.Id.Value[..5])?.Id);
        Assert.Null(Library.FindTake(_session.Id, "slu"));
        Assert.Contains("Sluice", Assert.Throws<LibraryException>(() => Library.RequireTake(_session.Id, "boat")).Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void UpdateTake_SetsRolesByHand_AndKeepsFindings()
    {
        var take = _fixture.AddTake(_session, "boat", "boat.wav");
        Library.ReplaceFindings(take.Id, [Small("dc-offset")]);

        Library.UpdateTake(take with { Roles = new() { MidChannel = 1, SideChannel = 0, InvertSide = true } });

        Assert.Equal(new TakeRoles { MidChannel = 1, SideChannel = 0, InvertSide = true }, Library.GetTake(take.Id)?.Roles);
        Assert.Single(Library.Findings(take.Id));
    }

    [Fact]
    public void ReplaceFindings_EveryFieldComesBack_SilenceToo()
    {
        var take = _fixture.AddTake(_session, "motor", "motor.wav");
        var finding = Small("flat-tops") with
        {
            Severity = FindingSeverity.Fault,
            Remedy = "Take the gain down by 6 dB.",
            Role = ChannelRole.Side,
            Range = FrameRange.FromFrames(10, 20),
            File = "motor.wav",
            Confidence = 0.25,
            Size = double.NegativeInfinity,
            SizeUnit = "dBFS",
            Evidence = [new("noise floor", double.NegativeInfinity, "dBFS"), new("ratio", 0.1, "")],
        };

        Library.ReplaceFindings(take.Id, [Small("old")]);
        Library.ReplaceFindings(take.Id, [finding, Small("dead-channel")]);

        var found = Library.Findings(take.Id);
        Assert.Equal("flat-tops, dead-channel", string.Join(", ", found.Select(f => f.Kind)));
        Assert.Equal(finding.Evidence, found[0].Evidence);
        Assert.Equal(finding, found[0] with { Evidence = finding.Evidence });
        Assert.Null(found[1].Role);
        Assert.Null(found[1].Range);
        Assert.Null(found[1].Size);
    }

    [Fact]
    public void ReplaceMeasures_KeepsTheLast()
    {
        var take = _fixture.AddTake(_session, "motor", "motor.wav");
        Assert.Null(Library.Measures(take.Id));

        Library.ReplaceMeasures(take.Id, new(1, "{}"));
        Library.ReplaceMeasures(take.Id, new(2, "{\"peak\":-3}"));

        Assert.Equal(new StoredMeasures(2, "{\"peak\":-3}"), Library.Measures(take.Id));
    }

    public void Dispose() => _fixture.Dispose();

    private static Finding Small(string kind) => new() { Kind = kind, Severity = FindingSeverity.Note, Message = "Something “small”." };
}
