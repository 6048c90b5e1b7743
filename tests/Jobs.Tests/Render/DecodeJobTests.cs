using Athwart.Jobs.Decode;
using Athwart.Jobs.Render;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Render;

public sealed class DecodeJobTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // DESIGN, glossary 'side level': (left + right) / 2 is the mid, always.
    [Theory]
    [InlineData(-3.0), InlineData(0.0), InlineData(2.5), InlineData(double.NegativeInfinity)]
    public void Decode_TwentyFourBits_FoldsToTheRawMidToTheBit(double level)
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        var take = Single(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(level) });
        int[][] raw = TestTakes.Steps(source), stereo = TestTakes.Steps(_folder.File("out.wav"));
        Assert.Equal(raw[0].Select(m => 2 * m), stereo[0].Zip(stereo[1], (l, r) => l + r));
        Assert.Equal(30_000, take.Result!.ExactFrames);
        var g = Math.Pow(10, level / 20);
        Assert.All(Enumerable.Range(0, 30_000), n => Assert.InRange(stereo[0][n] - raw[0][n] - (g * raw[1][n]), -1.5, 1.5));
    }

    [Fact]
    public void Decode_LongerWordThanTheSource_KeepsTheMidToTheBitInItsSteps()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int16, 9_000);
        Single(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(-3), Word = OutputWord.Signed24 });
        int[][] raw = TestTakes.Steps(source), stereo = TestTakes.Steps(_folder.File("out.wav"));
        Assert.Equal(raw[0].Select(m => 2 * (m << 8)), stereo[0].Zip(stereo[1], (l, r) => l + r));
    }

    // REFERENCES H: triangular dither at 16 bits leaves −96.33 dB re ±1 rms (−93.32 dBFS), here on left and on right.
    [Fact]
    public void Decode_ShorterWord_HasThePublishedNoiseAndFoldsToTheMidWithinHalfAStep()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 200_000);
        Single(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(-3), Word = OutputWord.Signed16 });
        double[][] raw = TestTakes.Samples(source), stereo = TestTakes.Samples(_folder.File("out.wav"));
        var g = Math.Pow(10, -3 / 20.0);
        foreach (var (channel, sign) in new[] { (0, 1), (1, -1) })
        {
            var power = Enumerable.Range(0, 200_000).Average(n => Math.Pow(stereo[channel][n] - raw[0][n] - (sign * g * raw[1][n]), 2));
            Assert.Equal(-96.33, 10 * Math.Log10(power), 0.05);
        }

        var worst = Enumerable.Range(0, 200_000).Max(n => Math.Abs(((stereo[0][n] + stereo[1][n]) / 2) - raw[0][n])) * 32768;
        Assert.InRange(worst, 0.1, 0.5000001);
    }

    [Fact]
    public void Decode_FloatSource_StaysFloatAndIsNeverLimited()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Float32, 5_000, level: 5);
        var take = Single(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(6) });
        Assert.True(take.Result!.SamplePeak > 2);
        double[][] raw = TestTakes.Samples(source), stereo = TestTakes.Samples(_folder.File("out.wav"));
        var g = Math.Pow(10, 6 / 20.0);
        Assert.All(Enumerable.Range(0, 5_000), n => Assert.Equal(raw[0][n] - (g * raw[1][n]), stereo[1][n], 1e-6));
    }

    [Fact]
    public void Decode_IntegerOverload_IsRefusedWithTheTrimThatMakesItFit()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 40_000, level: 0.95);
        var take = Single(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(9) });
        var error = Assert.IsType<RenderException>(take.Error);
        Assert.Equal(RenderErrorKind.Overload, error.Kind);
        Assert.Equal([source], Directory.GetFiles(_folder.Path));
        var trim = error.NeededTrim!.Value.Value;
        var again = Single(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(9), Trim = new(TrimKind.Gain, trim) });
        Assert.Null(again.Error);
        Assert.InRange(again.Result!.SamplePeak, 0.995, 1);
        var tooLittle = Single(new() { Inputs = [source], Output = _folder.File("out2.wav"), SideLevel = new(9), Trim = new(TrimKind.Gain, trim + 0.02) });
        Assert.Equal(RenderErrorKind.Overload, Assert.IsType<RenderException>(tooLittle.Error).Kind);
    }

    [Theory]
    [InlineData(TrimKind.SamplePeak, -1.0), InlineData(TrimKind.SamplePeak, 0.0)]
    public void Decode_TrimToSamplePeak_ReachesTheTarget(TrimKind kind, double target)
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 40_000);
        var take = Single(new() { Inputs = [source], Output = _folder.File("out.wav"), Trim = new(kind, target) });
        Assert.Equal(target, 20 * Math.Log10(take.Result!.SamplePeak), 0.002);
        Assert.NotEqual(0, take.Recipe!.Treatment.TrimDecibels);
    }

    [Theory]
    [InlineData(TrimKind.Loudness, -30.0), InlineData(TrimKind.TruePeak, -2.0)]
    public void Decode_TrimToLoudnessOrTruePeak_ReadsTheTargetAfterwards(TrimKind kind, double target)
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 3 * TestTakes.Rate);
        Single(new() { Inputs = [source], Output = _folder.File("out.wav"), Trim = new(kind, target) });
        var stereo = TestTakes.Samples(_folder.File("out.wav"));
        var meter = new ProgrammeMeter(TestTakes.Rate);
        meter.Add(stereo[0].Select(v => (float)v).ToArray(), stereo[1].Select(v => (float)v).ToArray());
        var (truePeak, loudness) = meter.Complete();
        Assert.Equal(target, kind == TrimKind.Loudness ? loudness : truePeak, 0.01);
    }

    [Fact]
    public void Decode_Silence_IsNotTrimmed()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 40_000, level: 0);
        foreach (var kind in new[] { TrimKind.SamplePeak, TrimKind.TruePeak, TrimKind.Loudness })
            Assert.Equal(1, Single(new() { Inputs = [source], Output = _folder.File(kind + ".wav"), Trim = new(kind, -1) }).Recipe!.Treatment.TrimGain);
    }

    [Fact]
    public void Decode_TracksNamedTheOtherWayRound_FollowsTheNames()
    {
        var notes = new ProductionNotes { Tracks = [new(1, 1, "fig 8", "S-MID_SIDE"), new(2, 2, "front", "M-MID_SIDE")] };
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 2_000, production: notes);
        var take = Single(new() { Inputs = [source], Output = _folder.File("out.wav"), Word = OutputWord.Signed24 });
        Assert.Equal((2, 1), (take.Recipe!.Source.MidChannel, take.Recipe.Source.SideChannel));
        int[][] raw = TestTakes.Steps(source), stereo = TestTakes.Steps(_folder.File("out.wav"));
        Assert.Equal(raw[1].Zip(raw[0], (m, s) => m + s), stereo[0]);
        // Given channels win, and an inverted side turns the picture.
        Single(new() { Inputs = [source], Output = _folder.File("two.wav"), MidChannel = 1, SideChannel = 2, InvertSide = true });
        Assert.Equal(raw[0].Zip(raw[1], (m, s) => m - s), TestTakes.Steps(_folder.File("two.wav"))[0]);
    }

    [Fact]
    public void Decode_CutAtAnotherRate_CarriesTimesMarkersAndHistoryOver()
    {
        var broadcast = new BroadcastExtension { Description = "lock gate", TimeReference = 480_000, CodingHistory = "A=PCM,F=48000,W=24,M=stereo,T=raw\r\n", LoudnessValue = -30 };
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 48_000, broadcast: broadcast, markers: [new(100, 0, "early", ""), new(24_000, 4_800, "bang", "the gate shuts")]);
        Single(new() { Inputs = [source], Output = _folder.File("out.wav"), SampleRateHertz = 96000, FromFrame = 12_000, ToFrame = 36_000 });
        using var file = RecordingFile.Open(_folder.File("out.wav"));
        Assert.Equal(48_000, file.FrameCount);
        Assert.Equal(984_000UL, file.Broadcast!.TimeReference);
        Assert.Null(file.Broadcast.LoudnessValue);
        Assert.StartsWith(broadcast.CodingHistory + "A=PCM,F=96000,W=24,M=stereo,T=Athwart; mid-side decoded; side 0 dB\r\n", file.Broadcast.CodingHistory, StringComparison.Ordinal);
        Assert.Equal([new(24_000, 9_600, "bang", "the gate shuts")], file.Markers);
    }

    [Fact]
    public void Decode_SeveralTakesIntoAFolder_ReportsTheBadOneAndDecodesTheOthers()
    {
        Directory.CreateDirectory(_folder.File("a"));
        Directory.CreateDirectory(_folder.File("b"));
        Directory.CreateDirectory(_folder.File("out"));
        var first = TestTakes.Write(_folder.File("a/gate.wav"), SampleFormat.Int24, 1_000);
        var second = TestTakes.Write(_folder.File("b/gate.wav"), SampleFormat.Int16, 1_000, seed: 2);
        var mono = TestTakes.Write(_folder.File("b/towpath.wav"), SampleFormat.Int24, 1_500, channels: 1);
        File.WriteAllText(_folder.File("notes.wav"), "no recording");
        var report = DecodeJob.Run(new() { Inputs = [first, second, mono, _folder.File("notes.wav")], Output = _folder.File("out") }, CancellationToken.None);
        Assert.False(report.Succeeded);
        Assert.Equal(["gate 2.wav", "gate.wav", "towpath.wav"], Directory.GetFiles(_folder.File("out")).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.EndsWith("notes.wav", Assert.Single(report.Takes, t => t.Error is not null).Name, StringComparison.Ordinal);
        // A take without a side is decoded with none.
        Assert.Null(report.Takes.Single(t => t.Name == "towpath").Recipe!.Treatment.SideLevelDecibels);
    }

    [Fact]
    public void Decode_SeveralTakesIntoOneFile_IsRefused()
    {
        var first = TestTakes.Write(_folder.File("lock.wav"), SampleFormat.Int24, 1_000);
        var second = TestTakes.Write(_folder.File("bridge.wav"), SampleFormat.Int24, 1_100);
        Assert.Throws<RenderException>(() => DecodeJob.Run(new() { Inputs = [first, second], Output = _folder.File("out.wav") }, CancellationToken.None));
    }

    [Fact]
    public void Decode_ExistingTarget_IsNotReplacedUnlessAsked()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 1_000);
        File.WriteAllText(_folder.File("out.wav"), "mine");
        Assert.IsType<IOException>(Single(new() { Inputs = [source], Output = _folder.File("out.wav") }).Error);
        Assert.Equal("mine", File.ReadAllText(_folder.File("out.wav")));
        Assert.Null(Single(new() { Inputs = [source], Output = _folder.File("out.wav"), Overwrite = true }).Error);
    }

    private static DecodedTake Single(DecodeRequest request) => Assert.Single(DecodeJob.Run(request, CancellationToken.None).Takes);
}
