using Athwart.Tests.Shared;
using CsCheck;

namespace Athwart.Recordings.Tests;

/// <summary>Which files are one take, and that joined reads neither miss nor double a sample.</summary>
public sealed class TakeTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string Write(string name, byte[] words, int channels = 2, ulong? time = null, FileSet? set = null, string function = "", int? channel = null, int rate = 48_000, SampleFormat? format = null)
    {
        var path = _folder.File(name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var options = new WaveWriterOptions
        {
            ChannelCount = channels,
            SampleRateHertz = rate,
            Format = format ?? SampleFormat.Int24,
            Durable = false,
            Broadcast = time is { } t ? new() { TimeReference = t } : null,
            Production = set is null && function.Length == 0 ? null : new() { FileSet = set, Tracks = [new(channel, 1, "", function)] },
            Markers = [new(1, 0, name, "")],
        };
        using var writer = WaveWriter.Create(path, options);
        writer.WriteBytes(words);
        writer.Complete();
        return path;
    }

    private TakeAssembly Assemble() => TakeAssembler.Assemble([.. Directory.GetFiles(_folder.Path, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)], default);

    private static byte[] Mono(int frames, int seed)
    {
        var bytes = new byte[frames * 3];
        new Random(seed).NextBytes(bytes);
        return bytes;
    }

    private static byte[] Interleave(byte[] a, byte[] b) => [.. Enumerable.Range(0, a.Length / 3).SelectMany(i => a.AsSpan(i * 3, 3).ToArray().Concat(b.AsSpan(i * 3, 3).ToArray()))];

    private TakeDescription OnlyTake()
    {
        var assembly = Assemble();
        Assert.Empty(assembly.Refused);
        return Assert.Single(assembly.Takes);
    }

    private void NothingJoined() => Assert.All(Assemble().Takes, t => Assert.Equal((JoinKind.Single, 0), (t.Join, t.Evidence.Count)));

    [Fact]
    public void SplitTake_ReadsLikeTheOriginalForAnySplitAndAnyRead()
    {
        var whole = Mono(2 * 500, 3);
        Gen.Select(Gen.Int[1, 499].HashSet[1, 5], Gen.Int[0, 510], Gen.Int[0, 300]).Sample(
            (cuts, first, count) =>
            {
                var edges = cuts.Append(0).Append(500).Order().ToArray();
                var folder = $"{Guid.NewGuid():N}";
                var paths = edges.Zip(edges.Skip(1)).Select((e, i) => Write($"{folder}/T_{i + 1:000}.wav", whole[(e.First * 6)..(e.Second * 6)], time: 1000 + (ulong)e.First)).ToList();
                paths.Reverse();
                var take = Assert.Single(TakeAssembler.Assemble(paths, default).Takes);
                Assert.Equal((JoinKind.Split, 500L, "T", paths.Count - 1), (take.Join, take.FrameCount, take.Name, take.Evidence.Count));
                using var recording = take.Open();
                Assert.Equal(whole, WaveBytes.AllBytes(recording));
                using var original = new WaveBytes().Format().Chunk("data", whole).Open();
                var (a, b) = (new PlanarBlock<float>(2, count), new PlanarBlock<float>(2, count));
                Assert.Equal(original.Read(first, count, a), recording.Read(first, count, b));
                Assert.Equal(a.Channel(0).ToArray(), b.Channel(0).ToArray());
                Assert.Equal(a.Channel(1).ToArray(), b.Channel(1).ToArray());
                Assert.Equal(WaveBytes.Steps(original), WaveBytes.Steps(recording));
                Assert.Equal(WaveBytes.Samples(original), WaveBytes.Samples(recording));
            },
            iter: 25,
            threads: 1);
    }

    [Theory]
    [InlineData("REC_0001", "REC_0002", "REC")]
    [InlineData("REC0009", "REC0010", "REC0009")]
    [InlineData("gate", "gate_2", "gate")]
    [InlineData("gate", "gate-001", "gate")]
    [InlineData("17.05-1", "17.05-2", "17.05")]
    public void NamesThatCountOn_AreASplit(string first, string second, string name)
    {
        Write(first + ".wav", Mono(20, 1), time: 100);
        Write(second + ".wav", Mono(30, 2), time: 110);
        var take = OnlyTake();
        Assert.Equal((JoinKind.Split, name, 25L), (take.Join, take.Name, take.FrameCount));
        Assert.Contains("time reference 110 is 100 plus the 10 frames", take.Evidence[0], StringComparison.Ordinal);
        Assert.Equal([1L, 11L], take.Markers.Select(m => m.Frame));
    }

    [Theory]
    [InlineData("REC_0001", "REC_0002", 111)] // one sample missing
    [InlineData("REC_0001", "REC_0002", 109)] // one sample twice
    [InlineData("REC_0001", "REC_0003", 110)]
    [InlineData("REC_0001", "GATE_0002", 110)]
    [InlineData("REC_1_0001", "REC_2_0002", 110)]
    public void FilesThatOnlyResembleASplit_StayApart(string first, string second, int time)
    {
        Write(first + ".wav", Mono(20, 1), time: 100);
        Write(second + ".wav", Mono(20, 2), time: (ulong)time);
        NothingJoined();
    }

    [Fact]
    public void SplitOfAnotherFormatOrFolder_StaysApart()
    {
        Write("a/T_1.wav", Mono(20, 1), time: 100);
        Write("a/T_2.wav", Mono(20, 2), time: 110, rate: 96_000);
        Write("b/T_1.wav", Mono(20, 1), time: 100);
        Write("c/T_2.wav", Mono(20, 2), time: 110);
        Write("d/T_1.wav", Mono(20, 1), time: 100);
        Write("d/T_2.wav", new byte[80], time: 110, format: SampleFormat.Int16);
        NothingJoined();
    }

    [Fact]
    public void SplitByFileSet_NeedsNoLikeNames()
    {
        Write("morning.wav", Mono(20, 1), time: 7, set: new("F1", "", 2, "A"));
        Write("later.wav", Mono(20, 2), time: 17, set: new("F1", "", 2, "B"));
        var take = OnlyTake();
        Assert.Equal((JoinKind.Split, "morning"), (take.Join, take.Name));
        Assert.Contains("family 'F1'", take.Evidence[0], StringComparison.Ordinal);
        Assert.EndsWith("morning.wav", take.Parts[0].Path, StringComparison.Ordinal);
    }

    [Fact]
    public void TwoFamiliesOneAfterTheOther_AreTwoTakes()
    {
        Write("T_1.wav", Mono(20, 1), time: 7, set: new("F1", "", 1, "A"));
        Write("T_2.wav", Mono(20, 2), time: 17, set: new("F2", "", 1, "A"));
        NothingJoined();
    }

    [Fact]
    public void SplitAcrossMidnight_IsJoined()
    {
        Write("T_1.wav", Mono(20, 1), time: (86_400UL * 48_000) - 4);
        Write("T_2.wav", Mono(20, 2), time: 6);
        Assert.Equal(JoinKind.Split, OnlyTake().Join);
    }

    [Theory]
    [InlineData("gate_1", "gate_2")]
    [InlineData("gate-L", "gate-R")]
    [InlineData("gate.L", "gate.R")]
    [InlineData("gate_M", "gate_S")]
    [InlineData("gate_mid", "gate_side")]
    [InlineData("gate_Tr1", "gate_Tr2")]
    [InlineData("gate.A1", "gate.A2")]
    [InlineData("gate Left", "gate Right")]
    [InlineData("gate_ch3", "gate_ch4")]
    public void MonoPairByName_IsOneTakeWithItsChannelsInOrder(string first, string second)
    {
        var (a, b) = (Mono(50, 1), Mono(50, 2));
        // The second is listed first.
        var paths = new[] { Write(second + ".wav", b, 1, 500), Write(first + ".wav", a, 1, 500) };
        var take = Assert.Single(TakeAssembler.Assemble(paths, default).Takes);
        Assert.Equal((JoinKind.MonoPair, "gate", 2, 50L), (take.Join, take.Name, take.ChannelCount, take.FrameCount));
        Assert.Equal(2, take.Evidence.Count);
        using var recording = take.Open();
        Assert.Equal(Interleave(a, b), WaveBytes.AllBytes(recording));
    }

    [Fact]
    public void MonoPairByFileSet_TakesItsOrderAndFunctionsFromIxml()
    {
        var (mid, side) = (Mono(50, 1), Mono(50, 2));
        Write("x.wav", side, 1, 9, new("F", "21/33", 2, "2"), "S-MID_SIDE", 2);
        Write("y.wav", mid, 1, 9, new("F", "21/33", 2, "1"), "M-MID_SIDE", 1);
        var take = OnlyTake();
        Assert.Equal(JoinKind.MonoPair, take.Join);
        Assert.Equal(["M-MID_SIDE", "S-MID_SIDE"], take.Tracks.Select(t => t.Function));
        Assert.Equal(["M-MID_SIDE", "S-MID_SIDE"], new[] { 0, 1 }.Select(c => take.Production!.TrackAt(c)!.Function));
        using var recording = take.Open();
        Assert.Equal(Interleave(mid, side), WaveBytes.AllBytes(recording));
    }

    [Theory]
    [InlineData(51, 500, 48_000)]
    [InlineData(50, 501, 48_000)]
    [InlineData(50, 500, 96_000)]
    public void MonoFilesThatOnlyResembleAPair_StayApartAndSayWhy(int frames, int time, int rate)
    {
        Write("gate_L.wav", Mono(50, 1), 1, 500);
        Write("gate_R.wav", Mono(frames, 2), 1, (ulong)time, rate: rate);
        NothingJoined();
        Assert.All(Assemble().Takes, t => Assert.Equal("not-joined", Assert.Single(t.Findings).Kind));
    }

    [Fact]
    public void MoreThanTwoCandidates_AreNotJoined()
    {
        foreach (var n in new[] { 1, 2, 3 })
        {
            Write($"named/gate_{n}.wav", Mono(50, n), 1, 500);
            Write($"set/file{(char)('a' + n)}.wav", Mono(50, n), 1, 500, new("F", "", 3, $"{n}"), channel: n);
        }

        NothingJoined();
    }

    [Fact]
    public void MidAndSideAmongMoreFilesOfAFamily_AreTheOnesThatSaySo()
    {
        Write("a.wav", Mono(50, 1), 1, 5, new("F", "", 4, "1"), "L-MIX", 1);
        Write("b.wav", Mono(50, 2), 1, 5, new("F", "", 4, "2"), "R-MIX", 2);
        Write("c.wav", Mono(50, 3), 1, 5, new("F", "", 4, "3"), "M-MID_SIDE", 3);
        Write("d.wav", Mono(50, 4), 1, 5, new("F", "", 4, "4"), "S-MID_SIDE", 4);
        var takes = Assemble().Takes;
        Assert.Equal([JoinKind.Single, JoinKind.Single, JoinKind.MonoPair], takes.Select(t => t.Join));
        Assert.Equal(["M-MID_SIDE", "S-MID_SIDE"], takes[2].Tracks.Select(t => t.Function));
    }

    [Fact]
    public void RecordersOwnStereoBesideAPair_IsATakeOfItsOwn()
    {
        Write("gate_1.wav", Mono(50, 1), 1, 500);
        Write("gate_2.wav", Mono(50, 2), 1, 500);
        Write("gate_LR.wav", Mono(100, 3), 2, 500);
        var takes = Assemble().Takes;
        Assert.Equal([(JoinKind.MonoPair, "gate"), (JoinKind.Single, "gate_LR")], takes.Select(t => (t.Join, t.Name)));
    }

    [Fact]
    public void CopyOfAMonoFile_IsNoSecondChannel()
    {
        Write("a.wav", Mono(50, 1), 1, 5, new("F", "", 1, "1"), channel: 1);
        Write("a copy.wav", Mono(50, 1), 1, 5, new("F", "", 1, "1"), channel: 1);
        NothingJoined();
    }

    [Fact]
    public void NumbersWithoutTimeReference_MayCountTakes()
    {
        Write("step_1.wav", Mono(50, 1), 1);
        Write("step_2.wav", Mono(50, 2), 1);
        Write("gate_M.wav", Mono(50, 1), 1);
        Write("gate_S.wav", Mono(50, 2), 1);
        Assert.Equal([(JoinKind.MonoPair, "gate"), (JoinKind.Single, "step_1"), (JoinKind.Single, "step_2")], Assemble().Takes.Select(t => (t.Join, t.Name)));
    }

    [Theory]
    [InlineData("T7_{0:000}_Tr{1}", "T7")]
    [InlineData("T7_Tr{1}_{0:000}", "T7")]
    [InlineData("T7-{0}_{1}", "T7")]
    public void SplitMonoPair_IsJoinedBothWays(string pattern, string name)
    {
        var (a, b) = (Mono(90, 1), Mono(90, 2));
        (int From, int To)[] cuts = [(0, 40), (40, 70), (70, 90)];
        for (var i = 0; i < cuts.Length; i++)
        {
            foreach (var (words, channel) in new[] { (a, 1), (b, 2) })
                Write(string.Format(System.Globalization.CultureInfo.InvariantCulture, pattern, i + 1, channel) + ".wav", words[(cuts[i].From * 3)..(cuts[i].To * 3)], 1, 700 + (ulong)cuts[i].From);
        }

        var take = OnlyTake();
        Assert.Equal((JoinKind.SplitMonoPair, name, 90L, 6), (take.Join, take.Name, take.FrameCount, take.Parts.Count));
        using var recording = take.Open();
        Assert.Equal(Interleave(a, b), WaveBytes.AllBytes(recording));
        var block = new PlanarBlock<int>(2, 35);
        Assert.Equal(35, recording.Read(38, 35, block));
        Assert.Equal(WaveBytes.Steps(recording)[1][38..73], block.Channel(1).ToArray());
    }

    [Fact]
    public void TracksOfTheDescription_NameTheChannelsWhereThereIsNoIxml()
    {
        var path = _folder.File("t.wav");
        using (var writer = WaveWriter.Create(path, new() { ChannelCount = 2, SampleRateHertz = 48_000, Format = SampleFormat.Int24, Broadcast = new() { Description = "sSCENE=1\r\nsTRK1=Mid\r\nzTRK2=Side\r\n" } }))
            writer.Complete();
        Assert.Equal(["Mid", "Side"], OnlyTake().Tracks.Select(t => t.Name));
    }

    [Fact]
    public void FilesThatAreNoRecording_AreRefusedAndTheOthersRead()
    {
        Write("good.wav", Mono(20, 1));
        File.WriteAllText(_folder.File("bad.wav"), "this is a text and no recording");
        var assembly = Assemble();
        Assert.Equal("good", Assert.Single(assembly.Takes).Name);
        Assert.Equal(RecordingErrorKind.NotARecording, Assert.Single(assembly.Refused).Error.Kind);
    }

    [Fact]
    public void FileThatChangedSinceItsTakeWasAssembled_IsRefused()
    {
        var path = Write("good.wav", Mono(20, 1));
        var take = OnlyTake();
        File.Delete(path);
        Write("good.wav", Mono(22, 1));
        Assert.Throws<RecordingException>(take.Open);
    }

    [Theory]
    [InlineData("a/b.wav", false)]
    [InlineData("a/._b.wav", true)]
    [InlineData(".Spotlight/b.wav", true)]
    [InlineData("System Volume Information/x", true)]
    [InlineData("./a.wav", false)]
    public void HiddenNames_AreKnown(string path, bool hidden) => Assert.Equal(hidden, RecordingNames.IsHidden(path));

    [Theory]
    [InlineData("a.WAV", true)]
    [InlineData("a.bwf", true)]
    [InlineData("a.flac", true)]
    [InlineData("a.w64", false)]
    [InlineData("wav", false)]
    public void RecordingNames_AreKnown(string path, bool looks) => Assert.Equal(looks, RecordingNames.LooksLikeRecording(path));
}
