using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Athwart.Jobs.Demo;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Demo;

/// <summary>The card as files: what the report says is what lies there.</summary>
public sealed class DemoCardTests(DemoCardFixture card) : IClassFixture<DemoCardFixture>
{
    private const string Pinned = """
        260514/LOCK-T01.WAV fc50b00312b5c0ca
        260514/LOCK-T02_001.WAV 051c40c7f9247845
        260514/LOCK-T02_002.WAV d9bf17c248d99218
        260514/LOCK-T03.WAV 0734eb59ea899c2e
        260514/LOCK-T04.WAV 5d905248ea973aa1
        260514/LOCK-T05.WAV 69059acd038a2b9d
        260514/LOCK-T06_Tr1.WAV 11ad4d61aab23456
        260514/LOCK-T06_Tr2.WAV cc48be3e872b16da
        260514/LOCK-T07.WAV f1a60aa7324a9a92
        260514/LOCK-T08.WAV a29ec2fd8828d936
        """;

    [Fact]
    public void TheCard_HoldsEightTakesInTenFiles_AndThreeFilesThatAreNoRecordings()
    {
        Assert.Equal(8, card.Report.Takes.Count);
        Assert.Equal(8, card.Progress.Count);
        Assert.Equal(10, card.Report.Files.Count(f => f.Take != null));
        var onDisk = Directory.GetFiles(card.Folder, "*", SearchOption.AllDirectories).Select(p => Path.GetRelativePath(card.Folder, p).Replace('\\', '/'));
        Assert.Equal(card.Report.Files.Select(f => f.Path), onDisk.Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.All(card.Report.Files, f => Assert.Equal(f.Bytes, new FileInfo(card.PathOf(f.Path)).Length));
    }

    [Fact]
    public void EveryRecording_SaysWhenAndWhereItWasMade_AndItsPartsAddUp()
    {
        foreach (var take in card.Report.Takes)
        {
            var frames = 0L;
            foreach (var path in take.Files)
            {
                using var file = RecordingFile.Open(card.PathOf(path));
                var bext = file.Broadcast!;
                Assert.Equal(take.SampleRateHertz, file.SampleRateHertz);
                Assert.Equal(("Athwart demo", "2026-05-14"), (bext.Originator, bext.OriginationDate));
                Assert.Equal(take.TimeReference + (ulong)(file.ChannelCount == 1 ? 0 : frames), bext.TimeReference);
                Assert.Equal(bext.TimeReference / (ulong)take.SampleRateHertz, (ulong)TimeSpan.Parse(bext.OriginationTime, CultureInfo.InvariantCulture).TotalSeconds);

                // The two files of a mono pair lie side by side, those of a split take one after the other.
                frames = (file.ChannelCount == 1 ? 0 : frames) + file.FrameCount;
            }

            Assert.Equal(take.FrameCount.Value, frames);
        }
    }

    [Fact]
    public void TheMarkers_AreTheMarkedEvents()
    {
        var take = Take(5);
        using var file = RecordingFile.Open(card.PathOf(take.Files[0]));
        Assert.Equal(take.Events.Where(e => e.Marked).Select(e => (e.Range.From.Value, e.Range.Length.Value, e.Label)), file.Markers.Select(m => (m.Frame, m.Length, m.Label)));
        Assert.Contains(file.Markers, m => string.Equals(m.Label, "step 12", StringComparison.Ordinal));
    }

    [Fact]
    public void TheSwappedPair_SaysSoInItsTrackFunctionsAndNowhereElse()
    {
        using var file = RecordingFile.Open(card.PathOf(Take(5).Files[0]));
        Assert.Equal(["S-MID_SIDE", "M-MID_SIDE"], new[] { 0, 1 }.Select(c => file.Production!.TrackAt(c)!.Function), StringComparer.Ordinal);
        Assert.All(file.Production!.Tracks, t => Assert.StartsWith("Ch ", t.Name, StringComparison.Ordinal));
        Assert.Equal(ChannelRole.Side, Take(5).Roles[0]);
    }

    [Fact]
    public void TheFourChannelTake_DecodesToItsOwnLeftAndRight_AtMinus3Decibels_ToTheBit()
    {
        using var file = RecordingFile.Open(card.PathOf(Take(8).Files[0]));
        var block = new PlanarBlock<int>(4, 48000);
        file.Read(96000, 48000, block);
        for (var i = 0; i < block.Length; i++)
        {
            var x = (int)Math.Round(Math.Pow(10, -3 / 20.0) * block.Channel(1)[i]);
            Assert.Equal(block.Channel(0)[i] + x, block.Channel(2)[i]);
            Assert.Equal(block.Channel(0)[i] - x, block.Channel(3)[i]);
        }
    }

    [Fact]
    public void ThePowerFailure_LeavesZeroSizes_AndHalfAFrame()
    {
        var bytes = File.ReadAllBytes(card.PathOf(Take(7).Files[0]));
        Assert.Equal(0u, BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(4)));
        var data = bytes.AsSpan().IndexOf("data"u8);
        Assert.Equal(0u, BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(data + 4)));
        Assert.Equal((6 * Take(7).FrameCount.Value) + 4, bytes.Length - data - 8);
        using var file = RecordingFile.Open(card.PathOf(Take(7).Files[0]));
        Assert.Equal(Take(7).FrameCount.Value, file.FrameCount);
        Assert.NotEmpty(file.Findings);
    }

    [Fact]
    public void TheBell_GoesOverFullScale_InFloatingPoint_AndTheSideStandsOffZero()
    {
        using var file = RecordingFile.Open(card.PathOf(Take(4).Files[0]));
        var block = new PlanarBlock<float>(2, (int)file.FrameCount);
        file.Read(0, block.Capacity, block);
        Assert.Equal(Take(4).Faults.Single(f => string.Equals(f.Kind, "over-full-scale", StringComparison.Ordinal)).Size, block.Array(0).Concat(block.Array(1)).Max(Math.Abs), 1e-6);
        Assert.Equal(0.006, block.Array(1).Average(x => (double)x), 2e-4);
        Assert.Equal(0, block.Array(0).Average(x => (double)x), 2e-4);
    }

    [Fact]
    public void TheBoat_CarriesAChunkNobodyKnows()
    {
        using var file = RecordingFile.Open(card.PathOf(Take(3).Files[0]));
        var chunk = Assert.Single(file.Chunks, c => string.Equals(c.Id, "rigx", StringComparison.Ordinal));
        Assert.Equal("height 1.60 m; spacing 0.02 m; facing E", Encoding.ASCII.GetString(file.ReadChunk(chunk, 1000)));
    }

    [Fact]
    public void Levels_AreThoseOfACarefulRecordist()
    {
        foreach (var take in card.Report.Takes.Where(t => t.Faults.All(f => f.Kind is not ("full-scale-run" or "over-full-scale"))))
        {
            var peak = 0.0;
            foreach (var path in take.Files)
            {
                using var file = RecordingFile.Open(card.PathOf(path));
                var block = new PlanarBlock<float>(file.ChannelCount, (int)file.FrameCount);
                file.Read(0, block.Capacity, block);
                for (var c = 0; c < file.ChannelCount; c++)
                    peak = Math.Max(peak, block.Array(c).Max(Math.Abs));
            }

            Assert.InRange(20 * Math.Log10(peak), take.Title.Contains("rest", StringComparison.Ordinal) ? -20 : -12, -5);
        }
    }

    [Fact]
    public void ATakeMadeAgain_HasTheSameBytes()
    {
        using var other = new TemporaryFolder();
        Directory.CreateDirectory(other.File("260514"));
        var (again, files) = new DemoTakeWriter(other.Path, "260514", DemoPlan.Day[7]).Write(CancellationToken.None);
        Assert.Equal(Take(8).FrameCount, again.FrameCount);
        Assert.All(files, f => Assert.Equal(Digest(card.PathOf(f.Path)), Digest(other.File(f.Path))));
    }

    /// <summary>The figures pinned when the card was made: the samples of every recording, whatever the chunks around them.</summary>
    [Fact]
    public void TheSamples_AreThoseOfTheFirstCard()
    {
        var digests = card.Report.Files.Where(f => f.Take != null).Select(f => f.Path + " " + SampleDigest(card.PathOf(f.Path)));
        Assert.Equal(Pinned, string.Join('\n', digests));
    }

    [Fact]
    public void AStoppedGeneration_ThrowsAndLeavesNoHalfFile()
    {
        using var other = new TemporaryFolder();
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => DemoCard.Write(other.Path, null, stop.Token));
        Assert.Empty(Directory.GetFiles(other.Path, "*", SearchOption.AllDirectories));
    }

    [Fact]
    public void Sox_ReadsEveryFinishedFile()
    {
        var sox = ReferenceProgram.Require("soxi");
        foreach (var file in card.Report.Files.Where(f => f.Take is { } t && !t.EndsWith("07", StringComparison.Ordinal)))
        {
            var result = ReferenceProgram.Run(sox, "-s", card.PathOf(file.Path));
            using var ours = RecordingFile.Open(card.PathOf(file.Path));
            Assert.Equal(ours.FrameCount.ToString(CultureInfo.InvariantCulture), result.Output.Trim());
        }
    }

    private DemoTake Take(int number) => card.Report.Takes[number - 1];

    private static string Digest(string path) => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)));

    private static string SampleDigest(string path)
    {
        using var file = RecordingFile.Open(path);
        var bytes = new byte[file.FrameCount * file.ChannelCount * file.Format.BytesPerSample];
        file.ReadBytes(0, (int)file.FrameCount, bytes);
        return Convert.ToHexStringLower(SHA256.HashData(bytes))[..16];
    }
}
