using Athwart.Jobs.Render;
using Athwart.Jobs.Shape;
using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Signals.Shaping;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Shape;

public sealed class TreatedRenderTests : IDisposable
{
    private const int Frames = 40_000;
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // Steps that leave the mid alone keep the mono fold to the bit, as a decode without steps does.
    [Theory]
    [InlineData(OutputWord.Signed24), InlineData(OutputWord.Signed32)]
    public void StepsOnTheSideAlone_FoldToTheRawMidToTheBit(OutputWord word)
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, Frames);
        var result = Treat(source, word, Steps.Trim(-2.7), Steps.Trim(0.1));
        int[][] raw = Render.TestTakes.Steps(source), stereo = Render.TestTakes.Steps(result.Path);
        var shift = word.Format().ContainerBits - 24;
        Assert.Equal(raw[0].Select(m => 2L * (m << shift)), stereo[0].Zip(stereo[1], (l, r) => (long)l + r));
        Assert.Equal(Frames, result.ExactFrames);
        var gain = Math.Pow(10, -2.6 / 20);
        Assert.All(Enumerable.Range(0, Frames), n => Assert.InRange(stereo[0][n] - (raw[0][n] << shift) - (gain * (raw[1][n] << shift)), -1.6, 1.6));
    }

    [Fact]
    public void ExchangedAndTurnedChannelsAlone_StayExact()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, Frames);
        var result = Treat(source, OutputWord.Signed24, Steps.Swap(), Steps.Invert());
        int[][] raw = Render.TestTakes.Steps(source), stereo = Render.TestTakes.Steps(result.Path);
        Assert.Equal(Frames, result.ExactFrames);
        Assert.Equal(raw[1].Zip(raw[0], (m, s) => m - s), stereo[0]);
        Assert.Equal(raw[1].Zip(raw[0], (m, s) => m + s), stereo[1]);
    }

    // Common practice, no source: turning the side over exchanges left and right.
    [Fact]
    public void ATurnedSide_ExchangesLeftAndRight_AlsoBetweenOtherSteps()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, Frames);
        var plain = Render.TestTakes.Samples(Treat(source, OutputWord.Floating, Steps.Trim(-1, PairRoles.Both)).Path);
        var turned = Render.TestTakes.Samples(Treat(source, OutputWord.Floating, Steps.Trim(-1, PairRoles.Both), Steps.Invert()).Path);
        Assert.Equal(plain[0], turned[1]);
        Assert.Equal(plain[1], turned[0]);
    }

    public static TheoryData<string> Cases => ["side", "both", "rate", "rate up", "float", "mono", "fades"];

    [Theory]
    [MemberData(nameof(Cases))]
    public void AnyNumberOfThreads_GivesTheSameBytes(string what)
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 90_000);
        var recipe = Recipe(source, what);
        byte[]? first = null;
        foreach (var threads in new[] { 1, 2, 3, 5 })
        {
            using var take = RecordingFile.Open(source);
            var path = _folder.File($"{what} {threads}.wav");
            RenderEngine.Render(take, recipe, path, new() { Threads = threads, Durable = false }, CancellationToken.None);
            first ??= File.ReadAllBytes(path);
            Assert.Equal(first, File.ReadAllBytes(path));
        }
    }

    [Fact]
    public void ARecipeWithSteps_RendersItsBytesAgainFromItsFile()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        var result = Treat(source, OutputWord.Signed24, Steps.Trim(-3, PairRoles.Both), Steps.Swap());
        var recipe = Recipe(source, "both") with { };
        recipe = recipe with { Treatment = recipe.Treatment with { Steps = [Steps.Trim(-3, PairRoles.Both), Steps.Swap()] }, Output = recipe.Output with { File = result.Path, Sha256 = result.Sha256 } };
        RecipeFiles.Write(_folder.File("gate.recipe.json"), RecipeSources.ForFolder(recipe, _folder.Path));
        Assert.True(RenderJob.Run(new() { RecipePath = _folder.File("gate.recipe.json"), OutputPath = _folder.File("again.wav") }, CancellationToken.None).IsSame);
    }

    [Fact]
    public void TheRawPairOfATreatedFile_IsNotGuessed()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        var result = Treat(source, OutputWord.Signed24, Steps.Trim());
        var recipe = Recipe(source, "side") with { };
        RecipeFiles.Write(_folder.File("gate.recipe.json"), RecipeSources.ForFolder(recipe with { Output = recipe.Output with { File = result.Path } }, _folder.Path));
        var error = Assert.Throws<RenderException>(() => RenderJob.Run(new() { RecipePath = _folder.File("gate.recipe.json"), MidSide = true }, CancellationToken.None));
        Assert.Contains("cannot be undone", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(OutputWord.Floating), InlineData(OutputWord.Signed24)]
    public void SamplesThatAreNoNumbers_AreSilence_AndAFinding(OutputWord word)
    {
        TreatedPairTests.WriteFloats(_folder.File("nan.wav"), 5_000, (4_000, 1, float.NaN));
        var result = Treat(_folder.File("nan.wav"), word, Steps.Trim(0, PairRoles.Both));
        var finding = Assert.Single(result.Findings);
        Assert.Equal((FindingKinds.NotFinite, 4_000, 1.0), (finding.Kind, finding.Range!.Value.From.Value, finding.Size));
        Assert.Equal(0.25, Render.TestTakes.Samples(result.Path)[0][4_000], 1e-6);
    }

    // Issue 5, section 8: never a silent wrong sound.
    [Fact]
    public void StepsThatOverflow_AreRefused_AndNothingIsWritten()
    {
        TreatedPairTests.WriteFloats(_folder.File("huge.wav"), 5_000, (100, 0, 3e38f));
        var steps = Enumerable.Repeat(Steps.Trim(100, PairRoles.Both), 55).ToArray();
        var error = Assert.Throws<RenderException>(() => Treat(_folder.File("huge.wav"), OutputWord.Floating, steps));
        Assert.Equal(RenderErrorKind.NotANumber, error.Kind);
        Assert.False(File.Exists(_folder.File("out.wav")));
    }

    [Fact]
    public void AnIntegerOverloadMadeByASideStep_IsRefusedWithTheTrimThatFits()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000, level: 0.9);
        var error = Assert.Throws<RenderException>(() => Treat(source, OutputWord.Signed24, Steps.Trim(12)));
        Assert.Equal(RenderErrorKind.Overload, error.Kind);
        Assert.InRange(error.NeededTrim!.Value.Value, -40, -1);
    }

    [Fact]
    public void ATrimToPeak_MeasuresTheTreatedSound()
    {
        var source = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        using var take = RecordingFile.Open(source);
        var recipe = Recipe(source, "both");
        recipe = recipe with { Treatment = recipe.Treatment with { Trim = new(TrimKind.SamplePeak, -1) } };
        var resolved = Trims.Resolve(take, recipe, null, 2, CancellationToken.None);
        var result = RenderEngine.Render(take, resolved, _folder.File("out.wav"), new() { Durable = false }, CancellationToken.None);
        Assert.Equal(-1, 20 * Math.Log10(result.SamplePeak), 0.002);
    }

    // A tone goes on as it was on both sides of the gap, unless the silence after the take passes for sound.
    [Theory]
    [InlineData(150), InlineData(10), InlineData(0)]
    public void AGapNearTheEndOfATake_IsFilledByWhatIsThere(int after)
    {
        const int length = 20_000;
        var (first, last) = (length - 100 - after, length - 1 - after);
        Func<int, float> tone = n => 0.25f * (float)Math.Sin(0.05 * n);
        TreatedPairTests.WriteFloats(_folder.File("tone.wav"), length, [.. Enumerable.Range(0, length).Select(n => (n, 0, n >= first && n <= last ? 0.9f : tone(n)))]);
        var repaired = Treat(_folder.File("tone.wav"), OutputWord.Floating, TreatmentStep.Of(new Repair(PairRoles.Mid, [FrameRange.FromFrames(first, last + 1)])));
        var stereo = Render.TestTakes.Samples(repaired.Path);
        Assert.All(Enumerable.Range(first, last + 1 - first), n => Assert.Equal(tone(n), (stereo[0][n] + stereo[1][n]) / 2, 1e-3));
    }

    private RenderResult Treat(string source, OutputWord word, params TreatmentStep[] steps)
    {
        using var take = RecordingFile.Open(source);
        var recipe = new Recipe
        {
            Source = new() { ToFrame = take.FrameCount, SampleRateHertz = take.SampleRateHertz },
            Treatment = new() { SideLevelDecibels = 0, SideGain = 1, Steps = steps },
            Output = new() { SampleRateHertz = take.SampleRateHertz, Word = word },
        };
        return RenderEngine.Render(take, recipe, _folder.File("out.wav"), new() { Durable = false, Overwrite = true, Hash = true }, CancellationToken.None);
    }

    private static Recipe Recipe(string source, string what)
    {
        using var take = RecordingFile.Open(source);
        var roles = what is "side" or "fades" ? PairRoles.Side : PairRoles.Both;
        return new()
        {
            Source = new()
            {
                Files = [new() { Path = source, Bytes = new FileInfo(source).Length, FrameCount = take.FrameCount, ChannelCount = 2 }],
                FromFrame = what is "both" ? 0 : 517,
                ToFrame = take.FrameCount - (what is "both" ? 0 : 100),
                SampleRateHertz = take.SampleRateHertz,
            },
            Treatment = new()
            {
                SideLevelDecibels = 0,
                SideGain = 1,
                FadeInFrames = what is "fades" ? 3_000 : 0,
                FadeOutFrames = what is "fades" ? 700 : 0,
                Steps = [Steps.Trim(-2, roles), Steps.Invert(roles), Steps.Trim(-1, PairRoles.Side)],
            },
            Output = new()
            {
                Kind = what is "mono" ? RenderKind.Mono : RenderKind.Stereo,
                SampleRateHertz = what is "rate" ? 44100 : what is "rate up" ? 192000 : take.SampleRateHertz,
                Word = what is "float" ? OutputWord.Floating : OutputWord.Signed24,
            },
        };
    }
}
