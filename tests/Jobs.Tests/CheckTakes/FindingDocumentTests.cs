using System.Text.Json;
using Athwart.Jobs.CheckTakes;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.CheckTakes;

/// <summary>What a program reads of a check: every finding of takes with many faults, and the pictures.</summary>
public sealed class FindingDocumentTests : IDisposable
{
    private const int Rate = 48000;
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void EveryFinding_CarriesKind_Role_Channel_Place_Size_Unit_AndConfidence_AndAPicture()
    {
        WriteFaulty();
        var report = CheckJob.Run(new() { Paths = [_folder.Path] }, null, CancellationToken.None);
        report = CheckPictures.Write(_folder.File("pictures"), report, overwrite: false, CancellationToken.None);
        using var json = JsonDocument.Parse(JsonSerializer.Serialize(CheckDocument.From(report), CheckJson.Compact.CheckDocument));
        var kinds = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var take in json.RootElement.GetProperty("takes").EnumerateArray())
        {
            foreach (var finding in take.GetProperty("findings").EnumerateArray())
                kinds.Add(Check(take, finding));
        }

        string[] expected = ["click", "dc-offset", "dead-channel", "differs-from-session", "digital-silence", "flat-tops", "full-scale-runs", "identical-channels", "silent-take"];
        Assert.Empty(expected.Except(kinds, StringComparer.Ordinal));
        Assert.Contains("<figure>", File.ReadAllText(_folder.File("pictures/" + CheckPictures.Page)), StringComparison.Ordinal);
    }

    [Fact]
    public void DirectionAndWidth_AreInTheJson_WhenListenedFor()
    {
        Write("T01", (_, mid) => 0.5f * mid);
        var report = CheckJob.Run(new() { Paths = [_folder.Path] }, null, CancellationToken.None);
        var take = TakeDocument.From(Assert.Single(report.Takes));
        // side = mid/2 with a cardioid: tan-half rule, sin a / (0.5 + 0.5·cos a) = 0.5 gives a = 2·atan(0.25) = 28.07 degrees left.
        var heard = take.Direction!.Columns.Where(c => c.AzimuthDegrees is not null).ToList();
        Assert.NotEmpty(heard);
        Assert.All(heard, c => Assert.Equal(28.07, c.AzimuthDegrees!.Value, 0.5));
        Assert.Contains("28° left", take.Direction.Words, StringComparison.Ordinal);
        Assert.Equal(20 * Math.Log10(3), take.Width!.LeftMinusRightDecibels!.Value, 0.02);
        Assert.False(take.Polarity.Known);
    }

    public void Dispose() => _folder.Dispose();

    private string Check(JsonElement take, JsonElement finding)
    {
        var kind = finding.GetProperty("kind").GetString()!;
        var (frames, rate) = (take.GetProperty("frames").GetInt64(), take.GetProperty("sampleRateHertz").GetInt32());
        Assert.InRange(finding.GetProperty("confidence").GetDouble(), 0.01, 1);
        Assert.NotEmpty(finding.GetProperty("message").GetString()!);
        var role = finding.GetProperty("role").GetString();
        if (role is "mid" or "side")
            Assert.Equal(take.GetProperty("roles").GetProperty(role).GetInt32(), finding.GetProperty("channel").GetInt32());
        else
            Assert.Equal(JsonValueKind.Null, finding.GetProperty("channel").ValueKind);
        // A size of silence, which has no finite level, is null and has its unit all the same.
        if (finding.GetProperty("size").ValueKind == JsonValueKind.Number)
            Assert.Equal(JsonValueKind.String, finding.GetProperty("sizeUnit").ValueKind);
        if (finding.GetProperty("fromFrame").ValueKind == JsonValueKind.Number)
        {
            var (from, to) = (finding.GetProperty("fromFrame").GetInt64(), finding.GetProperty("toFrame").GetInt64());
            Assert.True(from >= 0 && from <= to && to <= frames, kind);
            Assert.Equal((double)from / rate, finding.GetProperty("fromSeconds").GetDouble(), 1e-6);
            Assert.Equal((double)to / rate, finding.GetProperty("toSeconds").GetDouble(), 1e-6);
        }

        var picture = finding.GetProperty("picture").GetString()!;
        Assert.Contains(kind, picture, StringComparison.Ordinal);
        System.Xml.Linq.XDocument.Load(_folder.File("pictures/" + picture));
        return kind;
    }

    private void WriteFaulty()
    {
        Write("T01", (n, mid) => n == 30_000 ? 0.9f : 0.1f * mid);
        Write("T02", (n, mid) => (0.1f * mid) + 0.02f);
        Write("T03", (_, mid) => mid);
        Write("T04", (_, _) => 0);
        Write("T05", (_, mid) => 0.1f * mid, mid => Math.Clamp(40 * mid, -1, 1));
        Write("T06", (_, mid) => 0.1f * mid, mid => Math.Clamp(16 * mid, -0.4f, 0.4f));
        Write("T07", (n, mid) => n is > 40_000 and < 60_000 ? 0 : 0.1f * mid);
        Write("T08", (_, _) => 0, _ => 0);
        Write("T09", (_, mid) => 0.1f * mid, bits: SampleFormat.Int16);
    }

    private void Write(string name, Func<int, float, float> side, Func<float, float>? mid = null, SampleFormat? bits = null)
    {
        const int Frames = 3 * Rate;
        var format = bits ?? SampleFormat.Int24;
        var full = format.ContainerBits == 16 ? 32767 : 8388607;
        var random = new Random(name[^1]);
        using var writer = WaveWriter.Create(_folder.File(name + ".WAV"), new() { ChannelCount = 2, SampleRateHertz = Rate, Format = format, Durable = false });
        var block = new PlanarBlock<int>(2, Frames) { Length = Frames };
        var low = 0f;
        for (var n = 0; n < Frames; n++)
        {
            low = (0.9f * low) + (float)(0.05 * (random.NextDouble() - 0.5));
            var other = (float)(0.01 * (random.NextDouble() - 0.5));
            block.Channel(0)[n] = (int)Math.Round((mid is null ? low : mid(low)) * full);
            // What mid and side do not share, except in copies and silences.
            var s = side(n, low);
            block.Channel(1)[n] = (int)Math.Round((s == low || s == 0 ? s : s + (mid is null && Math.Abs(s - (0.5f * low)) < 1e-9 ? 0 : other)) * full);
        }

        writer.Write(block);
        writer.Complete();
    }
}
