using System.Text.Json.Nodes;
using Athwart.Jobs.Decode;
using Athwart.Jobs.Render;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Tests.Shared;
using CsCheck;

namespace Athwart.Jobs.Tests.Render;

public sealed class RenderJobTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string, int, string> Cases => new()
    {
        { "s24", 48000, "exact" },
        { "s16", 48000, "shorter" },
        { "s24", 44100, "rate" },
        { "f32", 96000, "float" },
        { "s24", 48000, "fades" },
        { "s24", 48000, "mono" },
    };

    // Issue 2, section 6: `render RECIPE` gives the same bytes: the whole file.
    [Theory]
    [MemberData(nameof(Cases))]
    public void Render_RecipeOfADecode_GivesTheSameWholeFileOnAnyNumberOfThreads(string word, int rate, string what)
    {
        var decoded = Decode(word, rate, what);
        foreach (var threads in new[] { 1, 2, 5 })
        {
            var target = _folder.File($"again {threads}.wav");
            var report = RenderJob.Run(new() { RecipePath = decoded.RecipePath!, OutputPath = target, Options = new() { Threads = threads, Durable = false } }, CancellationToken.None);
            Assert.True(report.IsSame);
            Assert.Equal(File.ReadAllBytes(decoded.Result!.Path), File.ReadAllBytes(target));
        }
    }

    [Fact]
    public void Render_MonoPairOfTwoFiles_GivesTheSameWholeFile()
    {
        var mid = TestTakes.Write(_folder.File("boat_M.wav"), SampleFormat.Int24, 20_000, channels: 1);
        var side = TestTakes.Write(_folder.File("boat_S.wav"), SampleFormat.Int24, 20_000, channels: 1, seed: 9);
        using var assembled = new TakeDescription
        {
            Name = "boat",
            Parts = [new(mid, 0, 20_000, 0, 1), new(side, 0, 20_000, 1, 1)],
            Join = JoinKind.MonoPair,
            Evidence = [],
            Tracks = [],
            ChannelCount = 2,
            SampleRateHertz = TestTakes.Rate,
            Format = SampleFormat.Int24,
            FrameCount = 20_000,
        }.Open();
        var recipe = new Recipe
        {
            Source = RecipeSources.From(assembled.Description),
            Treatment = new() { SideLevelDecibels = 0, SideGain = 1 },
            Output = new() { SampleRateHertz = TestTakes.Rate, Word = OutputWord.Signed24, File = _folder.File("boat.wav") },
        };
        var result = RenderEngine.Render(assembled, recipe, _folder.File("boat.wav"), new() { Hash = true }, CancellationToken.None);
        RecipeFiles.Write(_folder.File("boat.recipe.json"), RecipeSources.ForFolder(recipe with { Output = recipe.Output with { Sha256 = result.Sha256 } }, _folder.Path));
        var report = RenderJob.Run(new() { RecipePath = _folder.File("boat.recipe.json"), OutputPath = _folder.File("again.wav") }, CancellationToken.None);
        Assert.True(report.IsSame);
        Assert.Equal(TestTakes.Steps(mid)[0].Zip(TestTakes.Steps(side)[0], (m, s) => m + s), TestTakes.Steps(_folder.File("again.wav"))[0]);
    }

    [Fact]
    public void Render_ChangedOrMissingSource_SaysWhichFileDiffersAndHow()
    {
        var decoded = Decode("s24", 48000, "exact");
        var source = _folder.File("gate.wav");
        var bytes = File.ReadAllBytes(source);
        bytes[^1] ^= 1;
        File.WriteAllBytes(source, bytes);
        var error = Assert.Throws<RenderException>(() => RenderJob.Run(new() { RecipePath = decoded.RecipePath!, OutputPath = _folder.File("x.wav") }, CancellationToken.None));
        Assert.Equal(RenderErrorKind.Source, error.Kind);
        Assert.Contains("SHA-256", error.Message, StringComparison.Ordinal);
        File.Delete(source);
        error = Assert.Throws<RenderException>(() => RenderJob.Run(new() { RecipePath = decoded.RecipePath!, OutputPath = _folder.File("x.wav") }, CancellationToken.None));
        Assert.Contains("missing", error.Message, StringComparison.Ordinal);
    }

    // A recorder cuts long takes in two files; the recipe names both, and the seam is where it was.
    [Fact]
    public void Render_TakeSplitInTwoFiles_GivesTheSameWholeFile()
    {
        var whole = TestTakes.Write(_folder.File("whole.wav"), SampleFormat.Int24, 30_000);
        var steps = TestTakes.Steps(whole);
        foreach (var (name, from, to) in new[] { ("boat_0001.wav", 0, 17_001), ("boat_0002.wav", 17_001, 30_000) })
        {
            using var writer = WaveWriter.Create(_folder.File(name), new() { ChannelCount = 2, SampleRateHertz = TestTakes.Rate, Format = SampleFormat.Int24, Broadcast = new() { TimeReference = (ulong)(1_000_000 + from) } });
            PlanarBlock<int> block = new(2, to - from) { Length = to - from };
            for (var c = 0; c < 2; c++)
                steps[c].AsSpan(from, to - from).CopyTo(block.Channel(c));
            writer.Write(block);
            writer.Complete();
        }

        var request = new DecodeRequest { Inputs = [_folder.File("boat_0001.wav"), _folder.File("boat_0002.wav")], Output = _folder.File("boat.wav"), SideLevel = new(-3), WriteRecipe = true };
        var decoded = Assert.Single(DecodeJob.Run(request, CancellationToken.None).Takes);
        var unsplit = Assert.Single(DecodeJob.Run(request with { Inputs = [whole], Output = _folder.File("unsplit.wav"), WriteRecipe = false }, CancellationToken.None).Takes);
        Assert.Equal(TestTakes.Steps(unsplit.Result!.Path), TestTakes.Steps(decoded.Result!.Path));
        Assert.True(RenderJob.Run(new() { RecipePath = decoded.RecipePath!, OutputPath = _folder.File("again.wav") }, CancellationToken.None).IsSame);
    }

    [Fact]
    public void Render_ExistingTarget_IsRefusedUnlessAsked()
    {
        var decoded = Decode("s24", 48000, "exact");
        var before = File.ReadAllBytes(decoded.Result!.Path);
        var request = new RenderRequest { RecipePath = decoded.RecipePath! };
        Assert.Equal(JobErrorKind.Refused, Assert.Throws<JobException>(() => RenderJob.Run(request, CancellationToken.None)).Kind);
        Assert.True(RenderJob.Run(request with { Options = new() { Overwrite = true } }, CancellationToken.None).IsSame);
        Assert.Equal(before, File.ReadAllBytes(decoded.Result.Path));
    }

    // Below -6 dB the step of the stereo file is coarser than the side's own: half a step of dithered rounding, divided by g.
    [Theory]
    [InlineData(-6.0), InlineData(-12.0), InlineData(-20.0)]
    public void RenderMidSide_LowSideLevel_IsWithinTheErrorItStates(double level)
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        var decoded = Assert.Single(DecodeJob.Run(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(level), WriteRecipe = true }, CancellationToken.None).Takes);
        var report = RenderJob.Run(new() { RecipePath = decoded.RecipePath!, MidSide = true }, CancellationToken.None);
        int[][] raw = TestTakes.Steps(source), back = TestTakes.Steps(_folder.File("out MS.wav"));
        Assert.Equal(raw[0], back[0]);
        var worst = raw[1].Zip(back[1], (a, b) => Math.Abs(a - b)).Max();
        var bound = Math.Ceiling(0.5 / Math.Pow(10, level / 20));
        Assert.InRange(worst, 0, bound);
        Assert.InRange(report.Recovery!.SideErrorSteps, worst, bound);
    }

    // Issue 2, section 4: from a delivered 24-bit stereo file and its recipe the raw pair comes back to within one step.
    [Theory]
    [InlineData(-3.0, 0.0, 1), InlineData(0.0, 0.0, 0), InlineData(-9.0, 0.0, 1), InlineData(4.0, 0.0, 0), InlineData(-3.0, -3.0, 1)]
    public void RenderMidSide_DeliveredTwentyFourBits_BringsTheRawPairBack(double level, double trim, int bound)
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        var decoded = Assert.Single(DecodeJob.Run(new() { Inputs = [source], Output = _folder.File("out.wav"), SideLevel = new(level), Trim = new(TrimKind.Gain, trim), WriteRecipe = true }, CancellationToken.None).Takes);
        File.Delete(source + ".moved");
        var report = RenderJob.Run(new() { RecipePath = decoded.RecipePath!, MidSide = true }, CancellationToken.None);
        int[][] raw = TestTakes.Steps(source), back = TestTakes.Steps(_folder.File("out MS.wav"));
        var midWorst = raw[0].Zip(back[0], (a, b) => Math.Abs(a - b)).Max();
        var sideWorst = raw[1].Zip(back[1], (a, b) => Math.Abs(a - b)).Max();
        Assert.True(midWorst <= (trim == 0 ? 0 : 1), $"mid {midWorst} steps");
        Assert.True(sideWorst <= bound, $"side {sideWorst} steps");
        Assert.Equal(0, report.Recovery!.ChangedFrames);
        Assert.True(sideWorst <= report.Recovery.SideErrorSteps);
    }

    [Fact]
    public void RenderMidSide_WithFadesAndAWholeGain_IsExactBetweenTheFades()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        var decoded = Assert.Single(DecodeJob.Run(new() { Inputs = [source], Output = _folder.File("out.wav"), FadeInFrames = 700, FadeOutFrames = 900, FromFrame = 50, ToFrame = 29_000, WriteRecipe = true }, CancellationToken.None).Takes);
        RenderJob.Run(new() { RecipePath = decoded.RecipePath!, MidSide = true }, CancellationToken.None);
        int[][] raw = TestTakes.Steps(source), back = TestTakes.Steps(_folder.File("out MS.wav"));
        for (var c = 0; c < 2; c++)
            Assert.Equal(raw[c][750..28_100], back[c][700..28_050]);
        // Half-way through a fade the gain is about one half, so the error about one step.
        Assert.InRange(Math.Abs(raw[0][400] - back[0][350]), 0, 2);
    }

    [Fact]
    public void RenderMidSide_FileThatWasChangedAfterwards_CountsTheFrames()
    {
        var decoded = Decode("s24", 48000, "exact");
        var bytes = File.ReadAllBytes(decoded.Result!.Path);
        using (var file = RecordingFile.Open(decoded.Result.Path))
            bytes[file.Chunks.Single(c => c.Id == "data").DataOffset] ^= 1;
        File.WriteAllBytes(decoded.Result.Path, bytes);
        Assert.Equal(1, RenderJob.Run(new() { RecipePath = decoded.RecipePath!, MidSide = true }, CancellationToken.None).Recovery!.ChangedFrames);
    }

    // The piece renders like the whole: dither belongs to the take's frames.
    [Fact]
    public void Render_AnyCutWithoutFades_IsThatPieceOfTheWhole()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        foreach (var word in new[] { OutputWord.Signed16, OutputWord.Signed24 })
        {
            var request = new DecodeRequest { Inputs = [source], Output = _folder.File("whole.wav"), SideLevel = new(-3), Word = word, Overwrite = true };
            DecodeJob.Run(request, CancellationToken.None);
            var whole = TestTakes.Steps(_folder.File("whole.wav"));
            Gen.Select(Gen.Int[0, 29_000], Gen.Int[1, 900]).Sample((from, count) =>
            {
                DecodeJob.Run(request with { Output = _folder.File("cut.wav"), FromFrame = from, ToFrame = from + count }, CancellationToken.None);
                var cut = TestTakes.Steps(_folder.File("cut.wav"));
                Assert.Equal(whole[0][from..(from + count)], cut[0]);
                Assert.Equal(whole[1][from..(from + count)], cut[1]);
            }, iter: 10, threads: 1);
        }
    }

    [Fact]
    public void WriteRawPair_TwoChannelsOfFour_AreTheirBytes()
    {
        foreach (var format in new[] { SampleFormat.Int16, SampleFormat.Int24, SampleFormat.Float32 })
        {
            var path = TestTakes.Write(_folder.File($"four {format}.wav"), format, 30_000, channels: 4);
            using var source = RecordingFile.Open(path);
            var recipe = new Recipe
            {
                Source = new() { MidChannel = 4, SideChannel = 2, FromFrame = 77, ToFrame = 29_000, SampleRateHertz = TestTakes.Rate },
                Treatment = new() { SideGain = 1 },
                Output = new() { SampleRateHertz = TestTakes.Rate, Word = OutputWord.Signed16 },
            };
            var target = _folder.File($"pair {format}.wav");
            RenderEngine.WriteRawPair(source, recipe, target, new(), [], new(), CancellationToken.None);
            double[][] all = TestTakes.Samples(path), pair = TestTakes.Samples(target);
            Assert.Equal(all[3][77..29_000], pair[0]);
            Assert.Equal(all[1][77..29_000], pair[1]);
        }
    }

    [Fact]
    public void Render_LoudFloatWithoutNumbers_IsRefusedForIntegers()
    {
        var path = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Float32, 100);
        using (var writer = WaveWriter.Create(_folder.File("nan.wav"), new() { ChannelCount = 2, SampleRateHertz = TestTakes.Rate, Format = SampleFormat.Float32 }))
        {
            PlanarBlock<float> block = new(2, 10) { Length = 10 };
            block.Channel(0).Clear();
            block.Channel(1).Clear();
            block.Channel(0)[3] = float.NaN;
            writer.Write(block);
            writer.Complete();
        }

        var take = Assert.Single(DecodeJob.Run(new() { Inputs = [_folder.File("nan.wav")], Output = _folder.File("o.wav"), Word = OutputWord.Signed24 }, CancellationToken.None).Takes);
        Assert.Equal(RenderErrorKind.NotANumber, Assert.IsType<RenderException>(take.Error).Kind);
        Assert.False(File.Exists(_folder.File("o.wav")));
        Assert.True(File.Exists(path));
    }

    [Fact]
    public void Render_Cancelled_LeavesNothingBehind()
    {
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 30_000);
        using var cancellation = new CancellationTokenSource();
        var request = new DecodeRequest { Inputs = [source], Output = _folder.File("out.wav"), Progress = new Canceller(cancellation), Threads = 2 };
        Assert.ThrowsAny<OperationCanceledException>(() => DecodeJob.Run(request, cancellation.Token));
        Assert.Equal([source], Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void Recipe_WrittenAndRead_IsTheSameText()
    {
        var decoded = Decode("s16", 44100, "rate");
        var text = File.ReadAllText(decoded.RecipePath!);
        Assert.Equal(text, RecipeFiles.ToJson(RecipeFiles.FromJson(text)));
        var json = JsonNode.Parse(text)!;
        Assert.Equal("gate.wav", (string?)json["source"]!["files"]![0]!["path"]);
        Assert.Equal("s16", (string?)json["output"]!["word"]);
        Assert.Equal(0.7079457843841379, (double?)json["treatment"]!["sideGain"]);
    }

    [Theory]
    [InlineData("{\"kind\":\"athwart-recipe\",\"version\":3,\"program\":\"Athwart 9\"}", "version 3")]
    [InlineData("{\"kind\":\"shopping\",\"version\":1}", "no recipe")]
    [InlineData("{\"kind\":\"athwart-recipe\",\"version\":1}", "cannot be read")]
    [InlineData("not json", "line 1")]
    public void Recipe_NewerOrBroken_IsRefusedWithTheReason(string json, string reason)
    {
        var error = Assert.Throws<RenderException>(() => RecipeFiles.FromJson(json, "gate.recipe.json"));
        Assert.Equal(RenderErrorKind.Recipe, error.Kind);
        Assert.Contains(reason, error.Message, StringComparison.Ordinal);
        Assert.StartsWith("gate.recipe.json", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("midChannel", "source", "2"), InlineData("trimGain", "treatment", "0"), InlineData("fadeInFrames", "treatment", "999999"), InlineData("toFrame", "source", "-1")]
    public void Recipe_BrokenRule_IsNamed(string field, string part, string value)
    {
        var json = JsonNode.Parse(File.ReadAllText(Decode("s24", 48000, "exact").RecipePath!))!;
        json[part]![field] = JsonNode.Parse(value);
        Assert.Contains("broken rule", Assert.Throws<RenderException>(() => RecipeFiles.FromJson(json.ToJsonString())).Message, StringComparison.Ordinal);
    }

    private DecodedTake Decode(string word, int rate, string what)
    {
        Assert.True(OutputWords.TryParse(word, out var parsed));
        var notes = new ProductionNotes { Project = "Canal", Scene = "lock", Take = "7", Tracks = [new(1, 1, "Mid", "M-MID_SIDE"), new(2, 2, "Side", "S-MID_SIDE")] };
        var source = TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 40_000, production: notes, broadcast: new() { Description = "gate" }, markers: [new(5_000, 0, "clank", "")]);
        var report = DecodeJob.Run(new()
        {
            Inputs = [source],
            Output = _folder.File("out.wav"),
            SideLevel = new Decibels(-3),
            Word = parsed,
            SampleRateHertz = rate,
            Kind = what == "mono" ? RenderKind.Mono : RenderKind.Stereo,
            FromFrame = 1_000,
            FadeInFrames = what == "fades" ? 13_000 : 0,
            FadeOutFrames = what == "fades" ? 300 : 0,
            WriteRecipe = true,
        }, CancellationToken.None);
        Assert.True(report.Succeeded, report.Takes[0].Error?.Message);
        return report.Takes[0];
    }

    private sealed class Canceller(CancellationTokenSource source) : IProgress<RenderProgress>
    {
        public void Report(RenderProgress value) => source.Cancel();
    }
}
