using System.Diagnostics;
using System.Globalization;
using Athwart.Jobs.Tests.TakeIn;
using Athwart.Jobs.Verify;

namespace Athwart.Jobs.Tests.Deliver;

/// <summary>The process is really killed (SIGKILL), at moments spread over the whole run by a seeded generator.</summary>
public sealed class DeliverKillTests(ITestOutputHelper output) : IDisposable
{
    private readonly SmallSession _session = new();

    [Fact]
    public Task Deliver_KilledAt8Moments_LeavesAWholeDeliveryOrNone() => KillAndRunAgain(8, seed: 1);

    [Fact]
    public Task Deliver_KilledAt50Moments_LeavesAWholeDeliveryOrNone()
    {
        Assert.SkipUnless(Environment.GetEnvironmentVariable("ATHWART_SOAK") == "1", "50 kills take minutes; set ATHWART_SOAK=1");
        return KillAndRunAgain(50, seed: 2);
    }

    public void Dispose() => _session.Dispose();

    private async Task KillAndRunAgain(int kills, int seed)
    {
        for (var i = 1; i <= 4; i++)
            _session.Add(string.Create(CultureInfo.InvariantCulture, $"gate {i}"), frames: 48000, seed: i);
        _session.TakeIn();
        var originals = Originals();
        var whole = await Duration();
        Directory.Delete(_session.Folder, recursive: true);
        var random = new Random(seed);
        var (absent, unfinished, finished) = (0, 0, 0);
        for (var kill = 0; kill < kills; kill++)
        {
            await RunAndKill(TimeSpan.FromTicks((long)(whole.Ticks * random.NextDouble())));
            if (Directory.Exists(_session.Folder))
            {
                finished++;
                Assert.True(IsSound(), "a killed delivery has its name and is not whole");
                Directory.Delete(_session.Folder, recursive: true);
            }
            else
            {
                absent++;
                unfinished += Directory.GetDirectories(_session.Root, "*.unfinished").Length;
            }

            Assert.Equal(4, _session.Deliver().Effects);
            Assert.True(IsSound());
            Assert.Equal(["card", "delivered", "library"], Directory.GetFileSystemEntries(_session.Root).Select(Path.GetFileName).Order(StringComparer.Ordinal), StringComparer.Ordinal);
            Assert.Equal(originals, Originals());
            Directory.Delete(_session.Folder, recursive: true);
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kills} kills within {whole.TotalMilliseconds:0} ms: {finished} found a whole delivery, {absent} none, {unfinished} of these an unfinished folder that the next run cleared away"));
        Assert.True(absent > 0, "every kill came after the delivery was whole");
    }

    private bool IsSound() => VerifyJob.Run(new(_session.Folder), null, CancellationToken.None).IsSound;

    private string Originals() => string.Join('\n', Directory.EnumerateFiles(Path.Combine(_session.Library, "originals"), "*", SearchOption.AllDirectories)
        .Order(StringComparer.Ordinal)
        .Select(f => f + " " + CardFixture.HashOf(f) + " " + File.GetAttributes(f)));

    private async Task<TimeSpan> Duration()
    {
        using var child = DeliverChild.Start(_session.Request);
        await child.StandardOutput.ReadLineAsync();
        var watch = Stopwatch.StartNew();
        Assert.Equal("complete", await child.StandardOutput.ReadLineAsync());
        var whole = watch.Elapsed;
        await child.WaitForExitAsync();
        return whole;
    }

    private async Task RunAndKill(TimeSpan after)
    {
        using var child = DeliverChild.Start(_session.Request);
        await child.StandardOutput.ReadLineAsync();
        await Task.Delay(after);
        child.Kill();
        await child.WaitForExitAsync();
    }
}
