using System.Diagnostics;
using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.TakeIn;

namespace Athwart.Jobs.Tests.TakeIn;

/// <summary>The process is really killed (SIGKILL), at moments spread over the whole run by a seeded generator.</summary>
public sealed class KillTests(ITestOutputHelper output) : IDisposable
{
    private readonly CardFixture _fixture = new();

    [Fact]
    public Task TakeIn_KilledAt8Moments_LosesNothingAndDoublesNothing() => KillAndRunAgain(8, seed: 1);

    [Fact]
    public Task TakeIn_KilledAt50Moments_LosesNothingAndDoublesNothing()
    {
        Assert.SkipUnless(Environment.GetEnvironmentVariable("ATHWART_SOAK") == "1", "50 kills take minutes; set ATHWART_SOAK=1");
        return KillAndRunAgain(50, seed: 2);
    }

    public void Dispose() => _fixture.Dispose();

    private async Task KillAndRunAgain(int kills, int seed)
    {
        _fixture.AddUsual();
        for (var i = 0; i < 12; i++)
            _fixture.Add(string.Create(CultureInfo.InvariantCulture, $"TAKES/towpath {i}.wav"), 700_000 + i, 100 + i);
        var whole = await Duration();
        var random = new Random(seed);
        var (finished, unfinished, adopted) = (0, 0, 0);
        for (var kill = 0; kill < kills; kill++)
        {
            if (Directory.Exists(_fixture.LibraryFolder))
                Directory.Delete(_fixture.LibraryFolder, recursive: true);
            await RunAndKill(TimeSpan.FromTicks((long)(whole.Ticks * random.NextDouble())));
            var parts = AssertNothingHalfWritten();
            var report = _fixture.Run();

            _fixture.AssertWhole();
            Assert.True(report.Complete);
            finished += report.Files.Count(f => f.Status == TakenFileStatus.AlreadyHere);
            adopted += report.Files.Count(f => f.Status == TakenFileStatus.Adopted);
            unfinished += parts;
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kills} kills within {whole.TotalMilliseconds:0} ms: {finished} finished files recognised, {adopted} adopted, {unfinished} unfinished copies redone"));
        Assert.True(finished > 0, "no kill came after the first file");
    }

    private async Task<TimeSpan> Duration()
    {
        using var child = TakeInChild.Start(_fixture.Request);
        await child.StandardOutput.ReadLineAsync();
        var watch = Stopwatch.StartNew();
        Assert.Equal("complete", await child.StandardOutput.ReadLineAsync());
        var whole = watch.Elapsed;
        await child.WaitForExitAsync();
        return whole;
    }

    private async Task RunAndKill(TimeSpan after)
    {
        using var child = TakeInChild.Start(_fixture.Request);
        await child.StandardOutput.ReadLineAsync();
        await Task.Delay(after);
        child.Kill();
        await child.WaitForExitAsync();
    }

    /// <summary>Right after the kill: what has a final name is whole, and each row has its file.</summary>
    private int AssertNothingHalfWritten()
    {
        var originals = Path.Combine(_fixture.LibraryFolder, "originals");
        if (!Directory.Exists(originals))
            return 0;
        var files = Directory.EnumerateFiles(originals, "*", SearchOption.AllDirectories).ToLookup(f => f.EndsWith(".athwart.part", StringComparison.Ordinal));
        foreach (var file in files[false])
        {
            var cardPath = Path.GetRelativePath(Path.Combine(originals, "2026-11-25 Canal lock"), file);
            Assert.Equal(CardFixture.HashOf(Path.Combine(_fixture.Card, cardPath)), CardFixture.HashOf(file));
        }

        if (!File.Exists(Path.Combine(_fixture.LibraryFolder, Library.DatabaseName)))
            return files[true].Count();
        using var library = Library.Open(_fixture.LibraryFolder, LibraryAccess.Write);
        foreach (var row in library.Sessions().SelectMany(s => library.Files(s.Id)))
            Assert.True(File.Exists(library.FullPath(row.LibraryPath)), row.LibraryPath);
        return files[true].Count();
    }
}
