using Athwart.Jobs.Cut;
using Athwart.Jobs.Decode;
using Athwart.Jobs.Render;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Shape;
using Athwart.Recordings;
using Athwart.Signals.Resampling;
using Athwart.Signals.Shaping;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Shape;

public sealed class StepKindsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> Starting => [.. StartingTreatments.All.Select(t => t.Name)];

    [Theory]
    [MemberData(nameof(Starting))]
    public void AStartingTreatment_IsReadAsItIsWritten_AndSaysItselfInWords(string name)
    {
        var treatment = StartingTreatments.Find(name)!;
        var again = TreatmentFiles.FromJson(TreatmentFiles.ToJson(treatment));
        Assert.Equal(TreatmentFiles.ToJson(treatment), TreatmentFiles.ToJson(again));
        Assert.Equal(treatment.Steps.Select(s => s.Settings), again.Steps.Select(s => s.Settings));
        Assert.All(treatment.Steps, s => Assert.StartsWith(s.Kind.Name, s.ToString(), StringComparison.Ordinal));
        Assert.NotEmpty(treatment.Note!);
    }

    // Same bytes on any number of threads and from its recipe: every step at work.
    [Theory]
    [MemberData(nameof(Starting))]
    public void AStartingTreatment_GivesTheSameBytesOnAnyNumberOfThreads(string name)
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 40_000, channels: name is "Mono made wide" ? 1 : 2);
        byte[]? first = null;
        foreach (var threads in new[] { 1, 3 })
        {
            var target = _folder.File($"{threads}.wav");
            var take = Assert.Single(DecodeJob.Run(
                new() { Inputs = [source], Output = target, Treatment = StartingTreatments.Find(name), Word = OutputWord.Signed24, Trim = new(TrimKind.SamplePeak, -1), Threads = threads },
                CancellationToken.None).Takes);
            Assert.Null(take.Error);
            first ??= File.ReadAllBytes(target);
            Assert.Equal(first, File.ReadAllBytes(target));
        }
    }

    // Kinds that say they leave the mid alone leave every bit of it; the driver relies on that.
    [Theory]
    [MemberData(nameof(Starting))]
    public void StepsThatSayTheyLeaveARoleAlone_KeepItsBits(string name)
    {
        foreach (var step in StartingTreatments.Find(name)!.Steps.Where(s => s.Settings is not Speed))
        {
            var stage = step.Kind.Stage(step.Settings, new(48000, 1));
            double[] mid = Noise(1, 30_000), side = Noise(2, 30_000), mids = [.. mid], sides = [.. side];
            stage.Begin(0);
            stage.Process(mids, sides);
            var kept = 30_000 - stage.LatencyFrames;
            if (!step.Kind.Changes(step.Settings).HasFlag(PairRoles.Mid))
                Assert.Equal(mid[..kept], mids[stage.LatencyFrames..]);
            if (!step.Kind.Changes(step.Settings).HasFlag(PairRoles.Side))
                Assert.Equal(side[..kept], sides[stage.LatencyFrames..]);
        }
    }

    [Fact]
    public void HalfTheSpeed_IsTwiceAsLong_AndTheTakeItselfPlayedFromTheCut()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 6_000);
        var treatment = new Treatment { Name = "slow", Steps = [TreatmentStep.Of(new Speed(0.5))] };
        File.WriteAllText(_folder.File("slow.json"), TreatmentFiles.ToJson(treatment));
        var (_, result) = TryJob.Run(new() { Take = source, Treatment = _folder.File("slow.json"), From = TakePlace.AtFrame(1_000), To = TakePlace.AtFrame(5_000) }, _folder.File("slow.wav"), false, CancellationToken.None);
        Assert.Equal(8_000, result.Frames);
        double[][] raw = Render.TestTakes.Samples(source), slow = Render.TestTakes.Samples(result.Path);
        double[] mid = new double[8_000], side = new double[8_000];
        new SpeedChange(0.5).Convert(raw[0], raw[1], -1_000, 0, mid, side);
        Assert.Equal(mid.Zip(side, (m, s) => (double)(float)(m + s)), slow[0]);
    }

    // Issue 5, section 8: a guard is the last word.
    [Fact]
    public void ADelayAfterAGuard_IsRefused_NamingBoth()
    {
        var treatment = new Treatment { Name = "wrong", Steps = [TreatmentStep.Of(new MonoGuard()), TreatmentStep.Of(new Delay(PairRoles.Side, 3))] };
        var error = Assert.Throws<JobException>(() => TreatmentFiles.FromJson(TreatmentFiles.ToJson(treatment), "wrong.json"));
        Assert.Contains("steps[1] 'delay'", error.Message, StringComparison.Ordinal);
        Assert.Contains("guard at steps[0]", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ASpeedOfNothing_IsRefusedWithItsRange()
    {
        var json = TreatmentFiles.ToJson(StartingTreatments.Find("Ultrasonic slowed down")!).Replace("\"ratio\": 0.25", "\"ratio\": 0", StringComparison.Ordinal);
        Assert.Contains("step 'speed'", Assert.Throws<JobException>(() => TreatmentFiles.FromJson(json, "slow.json")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AFrequencyPastHalfTheRate_IsRefused_NamingTheStep()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 6_000);
        File.WriteAllText(_folder.File("high.json"), TreatmentFiles.ToJson(new() { Name = "high", Steps = [TreatmentStep.Of(new LowCut(PairRoles.Both, 30_000, 12))] }));
        var error = Assert.Throws<RenderException>(() => TryJob.Run(new() { Take = source, Treatment = _folder.File("high.json") }, _folder.File("x.wav"), false, CancellationToken.None));
        Assert.Contains("low-cut", error.Message, StringComparison.Ordinal);
    }

    // A preview begins earlier only by what the steps need to settle, so it is the rendering but for −140 dB.
    [Fact]
    public void APreview_IsTheRendering_WithinWhatSettlingPromises()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 200_000);
        var steps = StartingTreatments.Find("Machine")!.Steps;
        var assembled = Assert.Single(TakeAssembler.Assemble([source], CancellationToken.None).Takes);
        var roles = RoleReader.Decide(assembled.Tracks, 2, RoleSettings.None, RoleSettings.None);
        using Preview whole = new(assembled, roles, steps, 0.8), piece = new(assembled, roles, steps, 0.8);
        float[] left = new float[200_000], right = new float[200_000], l = new float[9_000], r = new float[9_000];
        whole.ReadStereo(0, left, right);
        piece.ReadStereo(150_000, l, r);
        Assert.All(Enumerable.Range(0, 9_000), n => Assert.Equal(left[150_000 + n], l[n], 2e-7));
        // What follows goes on where the last piece ended.
        piece.ReadStereo(159_000, l, r);
        Assert.All(Enumerable.Range(0, 9_000), n => Assert.Equal(right[159_000 + n], r[n], 2e-7));
    }

    [Fact]
    public void WidthsThatTheRigDecides_AreAnsweredWithASideLevel()
    {
        Treatment Wide(TreatmentDecode decode) => new() { Name = "wide", Decode = decode };
        var narrow = TreatmentSettler.Settle(Wide(new() { CoverageDegrees = 160 }), null, _ => throw new InvalidOperationException());
        var wide = TreatmentSettler.Settle(Wide(new() { CoverageDegrees = 90 }), null, _ => throw new InvalidOperationException());
        Assert.True(wide.SideLevel > narrow.SideLevel);
        Assert.NotEmpty(wide.Remarks);
        // Unrelated mid and side of equal power: correlation 0 at unity.
        Assert.Equal(0, TreatmentSettler.Settle(Wide(new() { SafeCorrelation = 0 }), null, _ => new(default, 1, 1)).SideLevel!.Value.Value, 1e-9);
    }

    [Fact]
    public void EveryStep_ThatTreatsEverySoundAlike_HasAPicture()
    {
        var picture = StepPictures.Draw(TreatmentStep.Of(new LowCut(PairRoles.Side, 100, 12)), new(48000, 1), "p");
        Assert.StartsWith("<svg", picture, StringComparison.Ordinal);
        var response = StepResponse.Measure(TreatmentStep.Of(new LowCut(PairRoles.Side, 100, 12)), new(48000, 1));
        // Butterworth: −3 dB at the cut-off.
        var at = response.Hertz.Index().MinBy(h => Math.Abs(h.Item - 100)).Index;
        Assert.Equal(-3.0, response.Side[at], 0.25);
        Assert.Equal(0, response.Mid[at], 1e-9);
    }

    private static double[] Noise(int seed, int length)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, length).Select(_ => random.NextDouble() - 0.5)];
    }
}
