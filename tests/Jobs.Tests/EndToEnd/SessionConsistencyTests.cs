using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.Tests.Render;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.EndToEnd;

public sealed class SessionConsistencyTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void ATakeUnlikeItsSiblings_IsNamed_AndTheyAreNot()
    {
        for (var n = 0; n < 5; n++)
            Write($"gate {n}", SampleFormat.Int24, 48_000, side: 1);
        Write("odd rate", SampleFormat.Int24, 96_000, side: 1);
        Write("weak side", SampleFormat.Int16, 48_000, side: 0.03);
        var report = CheckJob.Run(new() { Paths = [_folder.Path] }, null, CancellationToken.None);
        Finding[] Of(string take) => [.. report.Takes.Single(t => t.Take.Name == take).Findings.Where(f => f.Kind is "differs-from-session" or "side-unlike-session")];
        Assert.All(Enumerable.Range(0, 5), n => Assert.Empty(Of($"gate {n}")));
        Assert.Contains("96 kHz", Assert.Single(Of("odd rate")).Message, StringComparison.Ordinal);
        var weak = Of("weak side");
        Assert.Contains(weak, f => f.Message.Contains("16-bit", StringComparison.Ordinal));

        // 0.03 in amplitude is -30.5 dB.
        Assert.Equal(-30.5, weak.Single(f => f.Kind == "side-unlike-session").Size!.Value, 1.0);
    }

    [Fact]
    public void ThreeTakes_OrASessionOfTwoHalves_SayNothingOfWhatIsUsual()
    {
        Write("a", SampleFormat.Int24, 48_000, 1);
        Write("b", SampleFormat.Int24, 48_000, 1);
        Write("c", SampleFormat.Int24, 96_000, 0.03);
        Assert.DoesNotContain(Findings(), f => f.Kind is "differs-from-session" or "side-unlike-session");
        Write("d", SampleFormat.Int24, 96_000, 1);
        Assert.DoesNotContain(Findings(), f => f.Kind == "differs-from-session");
    }

    public void Dispose() => _folder.Dispose();

    private IEnumerable<Finding> Findings() => CheckJob.Run(new() { Paths = [_folder.Path] }, null, CancellationToken.None).Takes.SelectMany(t => t.Findings);

    // Lengths differ, so that no take can be the decode of another.
    private void Write(string name, SampleFormat format, int rate, double side)
    {
        var path = _folder.File(name + ".wav");
        var seed = name.Sum(c => c);
        TestTakes.Write(path, format, 20_000 + seed, rate: rate, seed: seed);
        var steps = TestTakes.Steps(path);
        using var writer = WaveWriter.Create(path + ".new", new() { ChannelCount = 2, SampleRateHertz = rate, Format = format, Durable = false });
        PlanarBlock<int> block = new(2, steps[0].Length) { Length = steps[0].Length };
        steps[0].CopyTo(block.Channel(0));
        steps[1].Select(s => (int)(s * side)).ToArray().CopyTo(block.Channel(1));
        writer.Write(block);
        writer.Complete();
        File.Move(path + ".new", path, overwrite: true);
    }
}
