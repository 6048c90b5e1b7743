using System.Globalization;
using Athwart.Tests.Shared;

namespace Athwart.Catalogue.Tests;

public sealed class ConcurrencyTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task ThreeProcesses_MakingAndWritingOneLibraryAtOnce_LoseNothing()
    {
        var children = new[] { "one", "two", "three" }.Select(name => ChildProcess.Start(_folder.Path, name)).ToList();
        foreach (var child in children)
        {
            var error = await child.StandardError.ReadToEndAsync();
            await child.WaitForExitAsync();
            Assert.True(child.ExitCode == 0, error);
            child.Dispose();
        }

        using var library = Library.Open(_folder.Path, LibraryAccess.Read);
        Assert.Equal(3 * ChildProcess.Writes, library.Files(Assert.Single(library.Sessions()).Id).Count);
    }

    [Fact]
    public void FourThreads_OnOneLibraryAndAnother_LoseNothing()
    {
        using var first = Library.Open(_folder.Path, LibraryAccess.Create);
        using var second = Library.Open(_folder.Path, LibraryAccess.Write);
        var session = first.AddSession(new Session { Name = "shared", Date = LibraryFixture.Day });

        Parallel.For(0, 60, new ParallelOptions { MaxDegreeOfParallelism = 4 }, i =>
            (i % 2 == 0 ? first : second).SaveFile(LibraryFixture.FileOf(session, i.ToString(CultureInfo.InvariantCulture))));

        Assert.Equal(60, second.Files(session.Id).Count);
    }

    [Fact]
    public void Reader_SeesTheStateBefore_WhileAnotherWrites()
    {
        using var writer = Library.Open(_folder.Path, LibraryAccess.Create);
        using var reader = Library.Open(_folder.Path, LibraryAccess.Read);

        writer.Transaction(() =>
        {
            writer.AddSession(new Session { Name = "shared", Date = LibraryFixture.Day });
            Assert.Empty(reader.Sessions());
        });

        Assert.Single(reader.Sessions());
    }

    public void Dispose() => _folder.Dispose();
}
